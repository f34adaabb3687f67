"""The programs in docs/library.md are those that tests/install compiles, and the page of DEVELOPERS.md is that of
tests/unit/page_example.cpp: library.py TREE."""

import pathlib
import re
import sys

tree = pathlib.Path(sys.argv[1])
page = re.search(r"```cpp\n(.*?)```", (tree / "DEVELOPERS.md").read_text(encoding="utf-8"), re.S).group(1)
if page not in (tree / "tests/unit/page_example.cpp").read_text(encoding="utf-8"):
    sys.exit(f"not in tests/unit/page_example.cpp:\n{page}")
shown = re.findall(r"```cpp\n(.*?)```", (tree / "docs/library.md").read_text(encoding="utf-8"), re.S)
compiled = {file.read_text(encoding="utf-8"): file.name for file in (tree / "tests/install").glob("*.cpp")}
strange = [text for text in shown if text not in compiled]
for text in strange:
    print(f"not a file of tests/install:\n{text}")
left = set(compiled.values()) - {compiled.get(text) for text in shown} - {"plugin.cpp", "options.cpp"}
print(f"{len(shown)} programs shown, not shown: {', '.join(sorted(left)) or 'none'}")
sys.exit(1 if strange or left or len(shown) != 8 else 0)
