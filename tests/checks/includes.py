#!/usr/bin/env python3
"""Every file includes, itself or through others, what declares the types and functions of the library that it names:
includes.py TREE FOLDER…. Joined sources (SECTIO_UNITY) hide what is missing, since another source of
the same room has included it before; sources by themselves do not compile then."""

import collections
import pathlib
import re
import sys

INCLUDE = re.compile(r'^#include [<"](.+)[>"]', re.M)
NO_CODE = re.compile(r'//[^\n]*|R"(\w*)\(.*?\)\1"|"(?:\\.|[^"\\\n])*"', re.S)
DEFINED = re.compile(r"^(?:template <.*> )?(?:struct|class|enum class) (\w+)\b[^;\n]*\{", re.M)
DECLARED = re.compile(r"\b(?:struct|class|enum|using|typename) ([A-Z]\w*)")
NAMED = re.compile(r"(?<![\w.>:])([A-Z]\w+)\b")
FUNCTION = re.compile(r"^ *(?!return|throw|else|case|using|namespace|#)[A-Za-z][\w:<>,&*\[\] ]*[ &*](\w+)(?:\(| = \[)", re.M)
PARAMETER = re.compile(r"\w[&*]* (\w+)[,)]")
# One that is called by a name of several words, which hardly any variable has.
CALLED = re.compile(r"(?<=[\s(,!{[*=+-])([a-z]+_\w+)\(")


def sources(root, folders):
    for folder in folders:
        for path in sorted((root / folder).rglob("*.*")):
            if path.suffix in (".cpp", ".hpp", ".def"):
                yield str(path.relative_to(root)), path.read_text(encoding="utf-8")


def seen_from(file, includes):
    """The file, what it includes, and what that includes."""
    found, waiting = set(), [file]
    while waiting:
        if (now := waiting.pop()) not in found:
            found.add(now)
            waiting += includes[now]
    return found


def main(root, folders):
    text = dict(sources(pathlib.Path(root), folders))
    includes = {file: [found for name in INCLUDE.findall(code)
                       for found in (name.replace("sectio/", "lib/", 1), str(pathlib.Path(file).parent / name))
                       if found in text]
                for file, code in text.items()}
    code = {file: NO_CODE.sub(" ", code) for file, code in text.items()}
    declared = {file: set(DECLARED.findall(code) + FUNCTION.findall(code) + PARAMETER.findall(code))
                for file, code in code.items()}
    defined = collections.defaultdict(list)
    for file in text:
        functions = FUNCTION.findall(code[file]) if file.endswith(".hpp") else []
        for name in DEFINED.findall(code[file]) + functions:
            defined[name].append(file)
    if len(defined) < 300:
        sys.exit("hardly any definition was found: the scan is broken")
    faults = 0
    for file in text:
        known = set().union(*(declared[seen] for seen in seen_from(file, includes)))
        for name in sorted(set(NAMED.findall(code[file]) + CALLED.findall(code[file])) & defined.keys() - known):
            faults += 1
            print(f"{file} names {name} without {' or '.join(defined[name])}", file=sys.stderr)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2:]))
