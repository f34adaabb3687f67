#!/usr/bin/python3
"""The page of sources, docs/sources.md, from data/sources.toml.

    /usr/bin/python3 tests/reference/sources_page.py            writes docs/sources.md
    /usr/bin/python3 tests/reference/sources_page.py --check    compares the page with the data
"""
import pathlib
import sys
import tomllib

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
DATA = ROOT / "data" / "sources.toml"
PAGE = ROOT / "docs" / "sources.md"

HEAD = """# Sources

Every entry of the catalogue (`data/catalogue`) names its source by a key of this page, with a mark after it. *Seen*
means that the page, or a quotation of it, was read and the figure compared while the entry was written or revised.
*From memory* means that the work was not at hand: the figure is what the literature is remembered to say, recomputed
where it can be computed, and may be misattributed. An entry with no source says "common practice, no source".

What was seen of a work stands after it; a date is the day on which it was looked up. A page of an encyclopedia or a
web page may have been read in a stored copy. The list is made from `data/sources.toml`.

No standard defines a scale or a temperament. What follows is theory, treatises, editions, encyclopedias and
measurements.

"""


def row(source):
    """One line of the page."""
    author = source.get("author", "")
    text = f"- `{source['key']}`: " + (f"{author}, " if author else "") + f"*{source['title']}*"
    text += f" ({source['year']})" + (f", {source['where']}" if "where" in source else "") + "."
    if "seen" not in source:
        return text + " From memory.\n"
    return text + f" Seen: {source['seen']}" + (f" ({source['accessed']})" if "accessed" in source else "") + ".\n"


def page():
    sources = tomllib.loads(DATA.read_text(encoding="utf-8"))["source"]
    return HEAD + "".join(row(source) for source in sorted(sources, key=lambda source: source["key"]))


def main():
    if "--check" not in sys.argv[1:]:
        PAGE.write_text(page(), encoding="utf-8")
    elif PAGE.read_text(encoding="utf-8") != page():
        sys.exit(f"{PAGE.name} differs from {DATA.name}")


if __name__ == "__main__":
    main()
