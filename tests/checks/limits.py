"""docs/limits.md names every constant of lib/base/limits.hpp with its value, and no other."""

import pathlib
import re
import sys

CONSTANT = re.compile(r"inline constexpr \S+ (\w+) = ([^;]+);")
ROW = re.compile(r"^\| `(\w+)` \| ([^|]+?) \|", re.M)


def value_of(text):
    """A C++ constant expression of whole numbers, shifts and products."""
    plain = re.sub(r"\w+(::\w+)*\{(\d+)\}", r"\2", text.replace("'", ""))
    return eval(re.sub(r"(\d)[uUlLfF]+", r"\1", plain), {})


def main():
    root = pathlib.Path(sys.argv[1])
    header = (root / "lib/base/limits.hpp").read_text(encoding="utf-8")
    page = (root / "docs/limits.md").read_text(encoding="utf-8")
    stated = {name: float(value.replace(" ", "")) for name, value in ROW.findall(page)}
    actual = {name: value_of(text) for name, text in CONSTANT.findall(header)}
    faults = [f"{name}: the header says {actual.get(name)}, docs/limits.md {stated.get(name)}"
              for name in sorted(stated.keys() | actual.keys())
              if stated.get(name) != actual.get(name)]
    print("\n".join(faults) or f"{len(actual)} limits are documented")
    return 1 if faults or not actual else 0


sys.exit(main())
