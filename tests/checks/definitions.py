#!/usr/bin/env python3
"""No type of the library has two definitions: definitions.py FOLDER. Two types of one name in two
sources compile, and link into a program that crashes (ISO C++, [basic.def.odr]). What stands in an
unnamed namespace does not count; tests/install includes all installed headers in one source."""

import collections
import pathlib
import re
import sys

TYPE = re.compile(r"^(?:template <.*> )?(?:struct|class|enum class|enum|union) (\w+)(?!:)\b[^;]*\{?$")
OPENS = re.compile(r"^(?:inline )?namespace ?([\w:]*) \{")
CLOSES = re.compile(r"^\} // namespace")


def definitions(text):
    """The qualified names of the types that are defined at the level of a namespace."""
    spaces = []
    for line in text.splitlines():
        if opened := OPENS.match(line):
            spaces.append(opened.group(1))
        elif CLOSES.match(line):
            spaces.pop()
        elif (found := TYPE.match(line)) and "" not in spaces and "{" in line:
            yield "::".join(spaces + [found.group(1)])


def main(folder):
    where = collections.defaultdict(list)
    for path in sorted(pathlib.Path(folder).rglob("*.[ch]pp")):
        for name in definitions(path.read_text(encoding="utf-8")):
            where[name].append(str(path))
    if len(where) < 100:
        sys.exit("hardly any definition was found: the scan is broken")
    twice = {name: paths for name, paths in where.items() if len(paths) > 1}
    for name, paths in sorted(twice.items()):
        print(f"{name} is defined in {' and '.join(paths)}", file=sys.stderr)
    return 1 if twice else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
