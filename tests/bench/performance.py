#!/usr/bin/env python3
"""Writes docs/performance.md: performance.py BUILD > docs/performance.md.

BUILD is a Release tree with -DSECTIO_BENCHMARKS=ON in which `sectio` and `benchmarks` are built; GNU time
(Debian's package time) and, for one baseline, PARI/GP are asked too. Every ratio
is one of two times of this run, so that it says more than the times do, which are the machine's."""

import json
import os
import pathlib
import platform
import re
import shutil
import subprocess
import sys
import tempfile
import time

# What is timed, its baseline in the same run, and what that is.
BESIDE = [
    ("cents_ours", "cents_plain_mpfr", "sizes of ratios, correctly rounded", "MPFR's log2 of the same ratios, unproved"),
    ("quotients_certified", "quotients_pari", "continued fractions, certified", "PARI/GP's"),
    ("odd_limit_15_certified", "odd_limit_15_plain", "error tables of divisions", "the same in doubles, unproved"),
    ("commas_certified", "commas_plain", "every comma within bounds", "the same count in doubles, unproved"),
    ("bases_certified", "bases_fplll_alone", "reduced bases of what a division tempers out", "fplll's reduction alone"),
    ("annotate_file", "pugixml_load_and_save", "a score annotated", "pugixml loading and saving it"),
    ("sheet_pdf", "sheet_bare_page", "a sheet as PDF", "cairo and pango printing as many words"),
]
ALONE = [("identify seven pitches, tonic unknown, among", "seven pitches named among so many scales"),
         ("identify seven pitches at random, names alone", "seven pitches at random named (1: names alone)"),
         ("perform_by_bend", "a score performed by pitch bend"), ("perform_by_tuning", "by tuning messages"),
         ("ten_best_certified", "the ten best divisions up to"), ("simplest_ratios", "simplest ratios within a tolerance"),
         ("sheet_text", "a sheet of eight degrees printed as")]
ZITHER, SCORE = "data/examples/sundhall-zither.toml", "data/examples/goose-walk.musicxml"
COMMANDS = [
    "interval 81/80", "divisions --to 100", "commas --show 10", "catalogue rast", f"sheet {ZITHER}",
    f"sheet {ZITHER} --out sheet.pdf", f"sheet {ZITHER} --out sheet.html", "compare rast just-major",
    "frets rast --length 620mm", "measure frets data/examples/sundhall-zither-instrument.toml",
    "measure recording rast.wav", f"identify {ZITHER}", f"annotate {SCORE} --scale {ZITHER} --out a.musicxml",
    "tuning rast --tonic D4 --out rast.syx", f"perform {SCORE} --scale {ZITHER} --out p.mid",
    "samples a3.wav", "listen rast --tonic D4 --out l.wav", "desk --help",
]


def seconds_as_text(seconds):
    for unit, size in (("s", 1), ("ms", 1e-3), ("µs", 1e-6)):
        if seconds >= size:
            return f"{seconds / size:.3g} {unit}"
    return f"{seconds / 1e-9:.3g} ns"


def machine():
    text = pathlib.Path("/proc/cpuinfo").read_text()
    names = [line.split(":", 1)[1].strip() for line in text.splitlines() if line.startswith("model name")]
    pages = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES")
    system = re.search(r'PRETTY_NAME="(.*)"', pathlib.Path("/etc/os-release").read_text()).group(1)
    return (f"{names[0] if names else platform.machine()}, {len(names)} threads, {pages / 2**30:.0f} GiB; "
            f"{system}, Linux {platform.release()}")


def benchmarks(build):
    """Seconds an iteration, by name: of the processor, or as the benchmark says that it was timed."""
    out = subprocess.run([build / "tests/bench/benchmarks", "--benchmark_format=json", "--benchmark_min_time=0.2"],
                         check=True, capture_output=True, text=True).stdout
    unit = {"ns": 1e-9, "us": 1e-6, "ms": 1e-3, "s": 1}
    rows = [row for row in json.loads(out)["benchmarks"] if row["run_type"] == "iteration" and "cpu_time" in row]
    return {re.sub(r"/(iterations:\d+|manual_time|real_time)", "", row["name"]):
            row["real_time" if "_time" in row["name"] else "cpu_time"] * unit[row["time_unit"]] for row in rows}


def of_function(times, function):
    return {name[len(function):]: seconds for name, seconds in times.items()
            if re.fullmatch(re.escape(function) + r"([/<].*)?", name)}


def beside_rows(times):
    for function, baseline, what, than in BESIDE:
        ours, base = of_function(times, function), of_function(times, baseline)
        for key in ours:
            if base.get(key):
                yield (f"| {what}{case(key)} | {seconds_as_text(ours[key])} | {than} | {seconds_as_text(base[key])} "
                       f"| {ours[key] / base[key]:.2g} |")


def case(key):
    return f" ({re.sub(r'[<>/]|print_', ' ', key).strip().replace('_', ' ')})" if key else ""


def run(words, folder):
    """Wall seconds of one run."""
    start = time.perf_counter()
    subprocess.run(words, cwd=folder, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                   stderr=subprocess.DEVNULL, check=True)
    return time.perf_counter() - start


def memory(words, folder):
    """The most bytes of one run. GNU time begins it, since a child of this process would count its memory."""
    run(["time", "--format=%M", "--output=kib", *words], folder)
    return int((folder / "kib").read_text()) * 1024


def measured(words, folder, times=25):
    return min(run(words, folder) for _ in range(times)), memory(words, folder)


def command_rows(sectio, folder):
    base_time, base_memory = measured(["true"], folder)
    yield f"| `true`, which does nothing | {seconds_as_text(base_time)} | 1 | {base_memory / 2**20:.1f} | 1 |"
    for command in COMMANDS:
        seconds, most = measured([sectio, *command.split()], folder)
        shown = command.replace(ZITHER, "ZITHER").replace(SCORE, "SCORE")
        yield (f"| `{shown}` | {seconds_as_text(seconds)} | {seconds / base_time:.0f} | {most / 2**20:.1f} "
               f"| {most / base_memory:.2g} |")


def main():
    build = pathlib.Path(sys.argv[1]).resolve()
    tree = pathlib.Path(__file__).resolve().parents[2]
    times = benchmarks(build)
    print("# Performance\n")
    print("This page is written by one command, in a Release tree with `-DSECTIO_BENCHMARKS=ON`:\n")
    print("    python3 tests/bench/performance.py build > docs/performance.md\n")
    print(f"It was written on {time.strftime('%Y-%m-%d')} on\n{machine()}. A time is this machine's, and as busy as that was;\n"
          "a ratio is one of two times of the same run. No test asserts a time.\n")
    print("## Beside other libraries\n")
    print("| what | time | beside | its time | ratio |\n|---|---|---|---|---|")
    print("\n".join(beside_rows(times)))
    print("\n## Alone\n\n| what | time |\n|---|---|")
    for function, what in ALONE:
        for key, seconds in of_function(times, function).items():
            print(f"| {what}{case(key)} | {seconds_as_text(seconds)} |")
    print("\n## Start, answer and memory of each command\n")
    print("The whole life of the process: the shortest of 25 runs, which a busy machine delays least, and the most memory of\n"
          "one. ZITHER and SCORE are those of `data/examples`; `rast.wav` is 17 seconds of seven notes, `a3.wav` two seconds of one.\n")
    print("| command | time | to `true` | memory in MiB | to `true` |\n|---|---|---|---|---|")
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        (folder / "data").symlink_to(tree / "data")
        sectio = shutil.which("sectio", path=str(build))
        run([sectio, *"listen rast --tonic D4 --alone --out rast.wav".split()], folder)
        run([sectio, *"listen 1/1 --tonic A3 --alone --seconds 2 --out a3.wav".split()], folder)
        print("\n".join(command_rows(sectio, folder)))


main()
