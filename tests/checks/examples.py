#!/usr/bin/env python3
"""The examples in the documents are true: examples.py SECTIO TREE.

Every command in a block of README.md or docs that follows "$ " is run, and where lines stand below it,
up to the next command or the end of the block, they are its output; "…" alone stands for any lines.
Of README.md's shell block every line that begins with "sectio" is run, in its order."""

import pathlib
import re
import subprocess
import sys
import tempfile

PROMPT = "$ sectio"


def blocks(text):
    """The lines of each fenced or indented block, without its indentation, and the number of its first line."""
    found, block, fenced, start = [], [], False, 0
    for number, line in enumerate(text.splitlines() + [""], 1):
        if line.lstrip().startswith("```"):
            if block:
                found.append((start, block))
            block, fenced, start = [], not fenced, number + 1
        elif fenced:
            block.append(line)
        elif line.startswith("    "):
            start = number if not block else start
            block.append(line[4:])
        elif block and line.strip():
            found.append((start, block))
            block = []
        elif block:
            block.append("")
    return found + ([(start, block)] if block else [])


def examples(text):
    """(line, command, expected output or None), in the order of the document."""
    for start, block in blocks(text):
        at = 0
        while at < len(block):
            command, line = block[at], start + at
            at += 1
            while command.endswith("\\") and at < len(block):
                command = command[:-1] + " " + block[at].strip()
                at += 1
            if command.startswith(PROMPT):
                output = []
                while at < len(block) and not block[at].startswith("$ "):
                    output.append(block[at])
                    at += 1
                yield line, command[2:], "\n".join(output).strip("\n") or None
            elif command.startswith("sectio ") and not re.search(r"\[-|…|SCALE|SCORE|FILE|FOLDER|F\.", command):
                yield line, command, None


def agrees(expected, output):
    parts = [re.escape(part) for part in re.split(r"(?m)^ *…\n?", expected)]
    return re.fullmatch(r"(?s:.*?)".join(parts), output.strip("\n")) is not None


def main():
    sectio, tree = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
    wrong = ran = 0
    for document in [tree / "README.md", *sorted(tree.glob("docs/**/*.md"))]:
        with tempfile.TemporaryDirectory() as folder:
            folder = pathlib.Path(folder)
            (folder / "data").symlink_to(tree / "data")
            (folder / "bin").mkdir()
            (folder / "bin" / "sectio").symlink_to(sectio)
            for line, command, expected in examples(document.read_text()):
                if any(not (folder / name).exists() for name in re.findall(r"\b\w+\.(?:wav|flac|csv)\b(?= |$)", command)
                       if f"--out {name}" not in command):
                    continue  # a recording or table of the reader's own
                if command.startswith("sectio desk"):
                    continue  # stays until it is ended; tests/browser opens it
                done = subprocess.run(["bash", "-c", command], cwd=folder, capture_output=True, text=True,
                                      env={"PATH": f"{folder}/bin:/usr/bin:/bin", "LC_ALL": "C.UTF-8"})
                ran += 1
                where = f"{document.relative_to(tree)}:{line}: {command}"
                if done.returncode:
                    print(f"{where}\n  ends with {done.returncode}: {done.stderr.strip()}")
                    wrong += 1
                elif expected is not None and not agrees(expected, done.stdout):
                    print(f"{where}\n  prints\n{done.stdout}")
                    wrong += 1
    print(f"{ran} examples, {wrong} wrong")
    return 1 if wrong or ran < 10 else 0


sys.exit(main())
