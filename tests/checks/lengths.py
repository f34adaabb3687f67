"""Holds functions to 40 lines and files to 300.

Usage: lengths.py FOLDER... Relies on the format of the sources: a function's head begins at the
indentation of its closing brace, and `namespace`, `class` and the like open no function.
"""

import pathlib
import re
import sys

LONGEST_FUNCTION, LONGEST_FILE = 40, 300
NO_FUNCTION = re.compile(r"\s*(namespace|class|struct|enum|union|extern|template|using|constexpr|const|static const|inline constexpr)\b[^()]*$")


def functions(lines):
    """(first line, length) of every function, lines counted from 1."""
    for at, line in enumerate(lines):
        if re.fullmatch(r" *\}", line):
            indent = line.index("}")
            begin = next((i for i in range(at - 1, -1, -1)
                          if lines[i].strip() and len(lines[i]) - len(lines[i].lstrip()) <= indent
                          and not re.match(r" *(public|private|protected|case .*|default):|^#|^ *//", lines[i])), None)
            if begin is not None and "(" in lines[begin] and not NO_FUNCTION.match(lines[begin]):
                yield begin + 1, at - begin + 1


def faults(file):
    lines = file.read_text(encoding="utf-8").split("\n")
    if len(lines) - 1 > LONGEST_FILE:
        yield f"{file}: {len(lines) - 1} lines, at most {LONGEST_FILE}"
    for begin, length in functions(lines):
        if length > LONGEST_FUNCTION:
            yield f"{file}:{begin}: a function of {length} lines, at most {LONGEST_FUNCTION}"


def main():
    files = [file for folder in sys.argv[1:] for file in sorted(pathlib.Path(folder).rglob("*.[ch]pp"))]
    found = [fault for file in files for fault in faults(file)]
    print("\n".join(found) or f"{len(files)} files and their functions are short enough")
    return 1 if found or not files else 0


sys.exit(main())
