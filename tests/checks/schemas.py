#!/usr/bin/env python3
"""Every JSON document is what its schema in docs/schemas says: schemas.py SECTIO TREE.

python3-jsonschema judges the answers in tests/unit/transcripts as they stand, and what the commands below
print: answers, --json-lines, and errors on standard error. A schema that takes everything would say
nothing: each must refuse the documents that it took as soon as a key has another name, is missing, or a
figure is a number; and it names no key that none of them has."""

import copy
import json
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

try:
    import jsonschema
except ImportError:
    print("SKIPPED: python3-jsonschema is not installed")
    sys.exit(0)

# Files that later commands read; nothing here prints JSON.
PREPARED = """
sectio listen rast --tonic D4 --alone --seconds 1 --out rast.wav
sectio listen 1/1,9/8 --tonic D4 --alone --seconds 1 --out notes/two.wav
sectio listen 1/1 --tonic A3 --alone --seconds 1 --out samples/a3.wav
sectio tuning rast --tonic D4 --out rast.syx
sectio tuning rast --tonic D4 --keys 12 --message octave-dump-1 --out octave.syx
sectio tuning hicaz --program 5 --out second.syx
sectio tuning rast --tonic D4 --keys 12 --out rast.mid
sectio perform data/examples/goose-walk.musicxml --scale ZITHER --out goose.mid
"""

# Of each schema the commands whose output it describes.
COMMANDS = """
interval 3/2 31of53 701.955c "5^(1/4)" "syntonic comma" 1/1
interval 7/4 16/15 --against 12,13(3/1) --digits 6
interval "2^(1/2)" 3/2 --quotients 5 --measure 3/1
interval "1000000000000000000000000000057/3"
divisions --to 20
divisions --targets primes:7 --records
divisions --targets rast --from 12 --to 24 --sort relative --show 3
divisions --targets 3/2,5/4 --period 3/1 --to 14
divisions --targets ZITHER --to 31 --sort rms
commas --show 5
commas --primes 2,3,7 --below 40c --vanishing-in 53
commas --primes 3 --max-product 2
catalogue
catalogue rast
catalogue "syntonic comma"
catalogue --kind comma
catalogue nothingofthekind
sheet rast
sheet 9/8,5/4,3/2
sheet ZITHER --pages all --drone D3
sheet church-dorian --tonic E4 --against 12,53,turkish-24,data/examples/sundhall-zither.toml --pages all --digits 6
sheet 7of13(3/1) --pages all
sheet 31 --pages errors,division,beside,instrument
sheet hicaz --against church-dorian --large --title Morning
sheet --all --among hicaz --out all --as svg
sheet --all ZITHER nowhere.toml --out two
compare rast hicaz
compare rast hicaz 12 --tonic D4
compare ZITHER 31 7of13(3/1)
frets rast --tonic D4 --length 24.5in --strings D4,A3 --compensation 1.5mm
frets 12 --length 620mm --frets 13
frets 12 --length 27in,25.5in --nut-spread 36mm --bridge-spread 52mm --perpendicular 7 --strings E2,A2,D3
frets ZITHER --length 612mm --share 5c --up-to 3/2
frets quarter-comma-meantone --instrument data/examples/sundhall-cittern.toml
measure frets data/examples/sundhall-citole.toml
measure frets 57.4mm "112mm ± 0.5mm" --length 620mm --open D4
measure frets data/examples/sundhall-zither-instrument.toml --period 2/1
measure pitches E4-41c "329.1Hz ± 0.5Hz" "fret 1 = G4+3c ± 2c" --tonic D4
measure pitches D4 E4-10c A4+2c --period none
measure pitches D4 E4-10c D5+2c --period 2/1
measure pitches "melody = D4-12c" "drone = 216Hz" --target rast --tonic D4 --length 460mm --gauge 0.36mm --material steel
measure pitches tuner.csv
measure recording rast.wav --tonic D4
measure recording rast.wav --period 2/1
measure recording rast.wav --partials
measure recording rast.wav notes/two.wav
identify ZITHER --show 3
identify ZITHER --tonic first --spread 5c
identify 440Hz,470.3Hz±0.5Hz,556Hz
identify data/examples/goose-walk.musicxml --tonic free
identify 1/1,1234c,1300c --show 2
identify 181c,294c,498c,702c,883c,996c
identify-files identify readings
identify-files identify readings --labels labels.csv
identify readings --json-lines
annotate SCORE --scale ZITHER --out scored.musicxml
annotate SCORE --system 53 --changes --out scored2.musicxml
annotate SCORE --remove --out scored3.musicxml
annotate tests/unit/transcripts/comma-walk.musicxml --scale rast --tonic D4 --out scored4.musicxml
files annotate scores --system 12 --out annotated
annotate scores --system 12 --out lines --json-lines
tuning rast --tonic D4
tuning ZITHER --keys 12 --message note-change
tuning 19 --mapping 1,-,2,-,3 --anchor 62 --bank 1 --program 2
tuning read rast.syx
tuning read octave.syx
tuning read rast.mid --tonic 62
tuning read several.syx
perform SCORE --scale ZITHER --out s.mid
perform SCORE --system 31 --by tuning --out s2.mid
perform SCORE --system 31 --channels mpe --out s3.mid
perform goose.mid --scale rast --tonic D4 --out s4.mid
files perform scores --system 12 --out performed
perform scores --system 12 --out lines --json-lines
perform chord.musicxml --system 31 --out chord.mid
samples samples/a3.wav
samples samples empty.wav
samples samples --scale rast --tonic A3 --out copies --set natural,tempered,scale
listen rast --tonic D4 --drone D3 --out l.wav
listen ZITHER --alone --out l2.wav
listen SCORE --scale ZITHER --out l3.wav
"""

ZITHER, SCORE = "data/examples/sundhall-zither.toml", "data/examples/goose-walk.musicxml"
STAND_FOR = {"ZITHER": ZITHER, "SCORE": SCORE}
FIGURE = re.compile(r"-?\d+\.\d+")
MAPS = {"factors", "skipped_because", "unknown_signs", "left_out"}  # whose keys are their own


class Schemas:
    def __init__(self, folder):
        self.validators, self.taken, self.wrong = {}, {}, 0
        for file in sorted(folder.glob("*.json")):
            schema = json.loads(file.read_text(encoding="utf-8"))
            jsonschema.Draft202012Validator.check_schema(schema)
            self.taken[file.stem] = []
            self.validators[file.stem] = jsonschema.Draft202012Validator(
                schema, resolver=jsonschema.RefResolver(folder.as_uri() + "/", schema))
        del self.taken["definitions"]

    def complain(self, text):
        print(text)
        self.wrong += 1

    def judge(self, name, text, command):
        document = json.loads(text)
        for error in self.validators[name].iter_errors(document):
            error = jsonschema.exceptions.best_match([error])
            self.complain(f"{name}: {command}\n  {error.json_path}: {error.message[:300]}")
        self.taken[name].append(document)

    def refuses(self, name, document):
        return not self.validators[name].is_valid(document)


def short(value):
    """The document with the first item of each list."""
    if isinstance(value, list):
        return [short(item) for item in value[:1]]
    return {key: short(item) for key, item in value.items()} if isinstance(value, dict) else value


def objects(value, path=()):
    """The path of every object that is no map."""
    if isinstance(value, dict):
        if not path or path[-1] not in MAPS:
            yield path
        for key, item in value.items():
            yield from objects(item, path + (key,))
    elif isinstance(value, list):
        for number, item in enumerate(value):
            yield from objects(item, path + (number,))


def with_change(document, path, change):
    changed = copy.deepcopy(document)
    at = changed
    for step in path:
        at = at[step]
    change(at)
    return changed


def try_to_break(schemas, name, document):
    """Counts the broken documents; each must be refused."""
    tried = 0
    for path in objects(document):
        whole = with_change(document, path, lambda _: None)
        for step in path:
            whole = whole[step]
        missing = 0
        for key, value in whole.items():
            broken = [with_change(document, path, lambda at: at.update({key + "_": at.pop(key)}))]
            if isinstance(value, str) and FIGURE.fullmatch(value):
                broken.append(with_change(document, path, lambda at: at.update({key: float(value)})))
            tried += len(broken)
            if not all(schemas.refuses(name, each) for each in broken):
                schemas.complain(f"{name}: takes another {key} at {path}")
            missing += schemas.refuses(name, with_change(document, path, lambda at: at.pop(key)))
        if whole and not missing:
            schemas.complain(f"{name}: nothing is required at {path}")
    return tried


def keys(value):
    """All names of members, at any depth."""
    if isinstance(value, dict):
        for key, item in value.items():
            yield key
            yield from keys(item)
    elif isinstance(value, list):
        for item in value:
            yield from keys(item)


def properties(schema):
    if isinstance(schema, dict):
        yield from schema["properties"] if isinstance(schema.get("properties"), dict) else ()
        schema = list(schema.values())
    if isinstance(schema, list):
        for item in schema:
            yield from properties(item)


def schema_of(words):
    """The schema's name for the words after `sectio`."""
    two = "-".join(words[:2])
    if "--all" in words:
        return "sheet-all"
    if "--partials" in words:
        return "measure-partials"
    return two if two in ("measure-frets", "measure-pitches", "measure-recording", "tuning-read") else words[0]


def transcripts(tree):
    for file in sorted((tree / "tests/unit/transcripts").glob("*.txt")):
        for part in file.read_text(encoding="utf-8").split("\n$ sectio ")[1:]:
            command, _, output = part.partition("\n")
            if "--json" in command and output.startswith("{"):
                yield schema_of(shlex.split(command)), output[:output.rindex("}") + 1], command


def prepare(folder, tree, run):
    for name in ("data", "tests"):
        (folder / name).symlink_to(tree / name)
    for name in ("sounds", "notes", "samples", "readings", "scores"):
        (folder / name).mkdir()
    shutil.copy(tree / ZITHER, folder / "readings/a.toml")
    (folder / "readings/b.csv").write_text("no scale\n")
    (folder / "readings/c.toml").write_text('name = "x"\ndegrees = ["9/8", "5/"]\n')
    (folder / "labels.csv").write_text("file,name\na.toml,rast\nnowhere.toml,rast\n")
    shutil.copy(tree / SCORE, folder / "scores/a.musicxml")
    (folder / "scores/b.musicxml").write_text("<score-partwise")
    (folder / "tuner.csv").write_text("note,cents,hand\nD4,0,left\nE4,-10,right\n")
    (folder / "empty.wav").write_bytes(b"")
    notes = [f"<note>{'<chord/>' * (i > 0)}<pitch><step>{'CDEFGAB'[i % 7]}</step><alter>{i // 7 - 1}</alter>"
             "<octave>4</octave></pitch><duration>4</duration></note>" for i in range(21)]
    (folder / "chord.musicxml").write_text(
        '<score-partwise><part-list><score-part id="P"><part-name>Zither</part-name></score-part></part-list>'
        f'<part id="P"><measure number="1">{"".join(notes)}</measure></part></score-partwise>')
    for line in PREPARED.strip().splitlines():
        done = run(shlex.split(line)[1:])
        if done.returncode:
            sys.exit(f"{line}\n{done.stderr}")
    both = b"".join((folder / name).read_bytes() for name in ("rast.syx", "second.syx"))
    (folder / "several.syx").write_bytes(both + bytes.fromhex("F0 7E 7F 09 01 F7"))


def answers(schemas, run):
    for line in COMMANDS.strip().splitlines():
        words = shlex.split(line)
        name, words = (words[0], words[1:]) if words[0] in schemas.taken and words[1:2] and words[0] in (
            "files", "identify-files", "sheet-all") else (schema_of(words), words)
        lines = "--json-lines" in words
        done = run(words if lines else words + ["--json"])
        if not done.stdout and not done.stderr:
            schemas.complain(f"{line}: says nothing")
        for text in done.stdout.splitlines() if lines else [done.stdout] if done.stdout else []:
            schemas.judge(name, text, line)
        for text in done.stderr.splitlines() if not lines else []:
            schemas.judge("error", text, line)


def main():
    sectio, tree = (pathlib.Path(argument).resolve() for argument in sys.argv[1:3])
    schemas = Schemas(tree / "docs/schemas")
    for name, text, command in transcripts(tree):
        schemas.judge(name, text, command)
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)

        def run(words):
            return subprocess.run([sectio] + [STAND_FOR.get(word, word) for word in words], cwd=folder, text=True,
                                  capture_output=True, stdin=subprocess.DEVNULL)

        prepare(folder, tree, run)
        answers(schemas, run)
    tried = 0
    for name, documents in schemas.taken.items():
        for document in documents:
            tried += try_to_break(schemas, name, short(document))
        unseen = set(properties(schemas.validators[name].schema)) - {key for each in documents for key in keys(each)}
        for key in sorted(key for key in unseen if not key.endswith("_exact")):
            schemas.complain(f"{name}: no document has {key}")
    judged = sum(map(len, schemas.taken.values()))
    print(f"{judged} documents, {tried} broken ones, {schemas.wrong} wrong")
    return 1 if schemas.wrong or judged < 100 else 0


sys.exit(main())
