"""Every relative link of the Markdown documents names a file, and a heading of it where asked."""

import pathlib
import re
import sys

LINK = re.compile(r"\[[^\]]*\]\(([^)\s]+)\)")
FENCE = re.compile(r"^```.*?^```", re.M | re.S)


def anchors_of(file):
    """The anchors of the headings, made as CommonMark viewers commonly make them."""
    anchors = set()
    for title in re.findall(r"^#+\s+(.*)$", FENCE.sub("", file.read_text(encoding="utf-8")), re.M):
        plain = re.sub(r"[^\w\- ]", "", title.strip().lower())
        anchors.add(plain.replace(" ", "-"))
    return anchors


def fault_of(document, link):
    if re.match(r"[a-z]+:", link):
        return None
    path, _, anchor = link.partition("#")
    target = (document.parent / path) if path else document
    if not target.exists():
        return f"{document}: {link} leads nowhere"
    if anchor and target.suffix == ".md" and anchor not in anchors_of(target):
        return f"{document}: {link} names no heading"
    return None


def documents(root):
    return [file for file in sorted(root.rglob("*.md"))
            if not any(part.startswith((".", "build")) for part in file.relative_to(root).parts)]


def main():
    root = pathlib.Path(sys.argv[1])
    found, faults = 0, []
    for document in documents(root):
        for link in LINK.findall(FENCE.sub("", document.read_text(encoding="utf-8"))):
            found += 1
            faults.append(fault_of(document, link))
    faults = [fault for fault in faults if fault]
    print("\n".join(faults) or f"{found} links lead somewhere")
    return 1 if faults else 0


sys.exit(main())
