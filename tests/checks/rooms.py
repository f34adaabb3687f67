"""Holds the includes to the arrows between rooms.

Usage: rooms.py LIB_FOLDER LINKS_OF_INTERVAL ROOM=USES... (USES joined by commas, rooms in order of
declaration). Prints every include that no arrow allows.
"""

import pathlib
import re
import sys

INCLUDE = re.compile(r'^\s*#\s*include\s*[<"]([^>"]+)[>"]', re.M)
# The exact engine rests on these, the standard library and POSIX files alone.
ENGINE_LINKS = {"sectio_base", "fmt::fmt", "Boost::headers", "MPFI::MPFI", "PkgConfig::MPFR", "PkgConfig::GMP"}
ENGINE_HEADERS = re.compile(r"(boost/|fmt/|sys/).*|(mpfi|mpfi_io|mpfr|gmp|fcntl|unistd)\.h")
# The ground floor reads TOML, folds letters and opens libraries besides, in its sources alone.
BASE_HEADERS = re.compile(ENGINE_HEADERS.pattern + r"|toml\+\+/.*|(utf8proc|dlfcn)\.h")


def closed(arrows):
    """What each room reaches; a room may use those declared before it only."""
    reach = {}
    for room, uses in arrows.items():
        late = [used for used in uses if used not in reach]
        if late:
            sys.exit(f"{room} uses {', '.join(late)}, which does not stand above it")
        reach[room] = {room}.union(*(reach[used] for used in uses))
    return reach


def faults_of(file, room, reach):
    for header in INCLUDE.findall(file.read_text(encoding="utf-8")):
        parts = header.split("/")
        if parts[0] == "sectio":
            if parts[1] not in reach[room]:
                yield f"{file}: {room} may not use <{header}>"
        elif room in ("base", "interval") and ("/" in header or "." in header):
            free = BASE_HEADERS if room == "base" and file.suffix == ".cpp" else ENGINE_HEADERS
            if not (free.fullmatch(header) or header.endswith(".def")):
                yield f"{file}: the exact engine may not use <{header}>"


PRIVATE = re.compile(r"^/// Private to ([\w/]+)", re.M)
# What only sources may include: whoever uses the installed library need not have it.
PRIVATE_LIBRARIES = re.compile(r"(toml\+\+|expat|zip|cairo|pango|kissfft|sndfile|microhttpd|utf8proc|fplll|nlohmann).*")


def faults_of_headers(lib):
    """A header that is installed includes no private one, and no private dependency; nor does another room."""
    texts = {f"sectio/{file.relative_to(lib)}": file.read_text(encoding="utf-8")
             for file in sorted(pathlib.Path(lib).rglob("*.hpp"))}
    private = {name: found[1] for name, text in texts.items() if (found := PRIVATE.search(text))}
    for name, text in texts.items():
        for header in INCLUDE.findall(text) if name not in private else []:
            if header in private or PRIVATE_LIBRARIES.fullmatch(header):
                yield f"{name} is installed and may not include <{header}>"
    for file in sorted(pathlib.Path(lib).rglob("*.[ch]pp")):
        for header in INCLUDE.findall(file.read_text(encoding="utf-8")):
            if header in private and f"lib/{file.relative_to(lib).parts[0]}" != private[header]:
                yield f"{file} may not include <{header}>, which is private to {private[header]}"


def main():
    lib, links, *declared = sys.argv[1:]
    arrows = {}
    for declaration in declared:
        room, uses = declaration.split("=")
        arrows[room] = [used for used in uses.split(",") if used]
    reach = closed(arrows)
    faults = [f"the exact engine may not link {link}"
              for link in links.split(",") if link not in ENGINE_LINKS]
    read = 0
    for room in arrows:
        for file in sorted(pathlib.Path(lib, room).rglob("*.[ch]pp")):
            faults += faults_of(file, room, reach)
            read += 1
    faults += faults_of_headers(lib)
    print("\n".join(faults) or f"{read} files keep to the arrows of {len(arrows)} rooms")
    return 1 if faults or read == 0 else 0


sys.exit(main())
