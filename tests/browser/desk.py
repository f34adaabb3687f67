"""The desk in a real browser, and by its addresses alone.

Called with the folder of the build's program: desk.py SECTIO SCRATCH_FOLDER CASE
"""

import http.client
import io
import json
import os
import re
import shlex
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.parse
import wave
import zipfile
from pathlib import Path

from player import check, write_microphone

EXAMPLES = Path(__file__).resolve().parents[2] / "data" / "examples"


class Desk:
    """A desk that serves for as long as the object lives."""

    def __init__(self, sectio, *arguments):
        began = time.monotonic()
        self.process = subprocess.Popen([sectio, "desk", "--no-browser", "--port", "0", *arguments],
                                        stdout=subprocess.PIPE, text=True)
        self.address = re.search(r"http://\S+", self.process.stdout.readline()).group()
        self.seconds = time.monotonic() - began
        self.host = urllib.parse.urlsplit(self.address).netloc
        self.secret = urllib.parse.urlsplit(self.address).path
        self.tab = ""

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.process.send_signal(signal.SIGTERM)
        self.process.wait(20)

    def request(self, method, what, arguments=(), body=None, headers=None, path=None, host=None):
        """Status, headers and body of one request."""
        connection = http.client.HTTPConnection(host or self.host, timeout=60)
        query = urllib.parse.urlencode([*arguments, ("tab", self.tab)])
        connection.request(method, (path or self.secret + what) + "?" + query, body, headers or {})
        answer = connection.getresponse()
        content = answer.read()
        connection.close()
        return answer.status, dict(answer.getheaders()), content

    def call(self, method, what, arguments=(), body=None):
        status, _, content = self.request(method, what, arguments, body)
        told = json.loads(content)
        check(status == 200, what, arguments, told)
        return told

    def open(self):
        told = self.call("POST", "open")
        self.tab, self.answers = told["tab"], urllib.parse.urlsplit(told["answers"])

    def ended(self, begun, seconds=60):
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            state = self.call("GET", "job", [("job", begun["job"])])
            if state["ended"]:
                return state
            time.sleep(0.01)
        check(False, "work does not end", begun)

    def put(self, name, content):
        return self.ended(self.call("PUT", "file", [("name", name)], content))

    def type(self, text):
        return self.ended(self.call("POST", "text", [("text", text)]))

    def ask(self, question, things, **form):
        arguments = [("question", question), *(("thing", thing) for thing in things), *form.items()]
        begun = self.call("POST", "ask", arguments)
        return begun, self.ended(begun)

    def page(self, begun):
        """The answer, under the other origin that the page's frames have."""
        return self.request("GET", "", [("job", begun["job"])], path=self.answers.path + "answer", host=self.answers.netloc)[2]

    def file(self, begun):
        return self.request("GET", "out", [("job", begun["job"])])[2]


def refuses_strangers(sectio, folder):
    """Whoever lacks the secret, asks by another name or from another page gets nothing."""
    with Desk(sectio) as desk:
        check(desk.host.startswith("127.0.0.1:"), desk.host)
        status, headers, page = desk.request("GET", "")
        check(status == 200 and b"<title>Sectio" in page, status)
        check("script-src 'self'" in headers["Content-Security-Policy"], headers)
        check("unsafe-inline" not in headers["Content-Security-Policy"], headers)
        check(b"<script type=\"module\" src" in page and b"onclick" not in page and b"style=" not in page, "inline")
        origin = f"http://{desk.host}"
        for headers in ({"Host": "evil.example"}, {"Host": desk.host.replace("127.0.0.1", "localhost")},
                        {"Origin": "http://evil.example"}, {"Origin": "null"}, {"Origin": origin + "0"},
                        {"Sec-Fetch-Site": "cross-site"}, {"Sec-Fetch-Site": "same-site"}):
            for method, what in (("GET", ""), ("GET", "questions"), ("POST", "open"), ("PUT", "file")):
                status, _, content = desk.request(method, what, headers=headers, body=b"x" if method == "PUT" else None)
                check(status == 403 and b"<" not in content, headers, method, what, status)
        for path in ("/", "/desk.js", "//", "/" + "0" * 32 + "/", desk.secret[:-1], desk.secret[:-2] + "/",
                     "/x" + desk.secret, "/index.html"):
            status, _, _ = desk.request("GET", "", path=path)
            check(status == 403, path, status)
        status, _, _ = desk.request("GET", "", headers={"Origin": origin, "Sec-Fetch-Site": "same-origin"})
        check(status == 200, "its own page", status)
        for name in ("../desk.cpp", "..%2f..%2fetc/passwd", "etc/passwd"):
            check(desk.request("GET", name)[0] in (403, 404), name)
        # The origin of answers serves them and nothing else.
        desk.open()
        for method, what in (("GET", ""), ("GET", "questions"), ("POST", "open"), ("POST", "end"), ("GET", "out"), ("PUT", "file")):
            status, _, content = desk.request(method, "", path=desk.answers.path + what, host=desk.answers.netloc)
            check(status in (400, 403) and b"tab" not in content, what, status, content)
            check(desk.request(method, what, host=desk.answers.netloc)[0] == 403, "the desk's secret there", what)
            check(desk.request(method, "", path=desk.answers.path + what)[0] == 403, "the answers' secret here", what)
        check(desk.process.poll() is None, "the origin of answers ends the desk")
        # Bound to the loopback address alone.
        port = int(desk.host.rsplit(":")[1])
        lines = Path("/proc/net/tcp").read_text().splitlines() + Path("/proc/net/tcp6").read_text().splitlines()
        bound = [line.split()[1] for line in lines if line.split()[1].endswith(f":{port:04X}") and line.split()[3] == "0A"]
        check(bound == [f"0100007F:{port:04X}"], "listens on", bound)


def reads_nothing_else(sectio, folder):
    """No file of the computer that was not handed over: by no name that is typed or written in one."""
    secret = Path(folder) / "secret.toml"
    secret.write_text('name = "Hidden thing"\ndegrees = ["9/8", "5/4"]\n')
    inside = "Hidden thing"
    with Desk(sectio) as desk:
        desk.open()
        rast = desk.type("rast")["thing"]["number"]
        for text in (str(secret), "/etc/passwd", "/etc", "../../etc/passwd", "-", "--help", "/dev/stdin",
                     os.path.relpath(secret, "/tmp")):
            state = desk.type(text)
            check(not state["ok"] and inside not in state["trouble"], text, state)
            for question, form in (("sheet", {"against": text}), ("compare", {"with": text}),
                                   ("sheet", {"against": "12," + text})):
                begun, state = desk.ask(question, [rast], **form)
                page = desk.page(begun).decode(errors="replace")
                check(not state["ok"] and inside not in state["trouble"] + page and "root:" not in state["trouble"] + page,
                      question, form, state)
        score = desk.put("tune.musicxml", (EXAMPLES / "goose-walk.musicxml").read_bytes())["thing"]["number"]
        for text in (str(secret), "/etc/passwd"):
            begun, state = desk.ask("annotate", [score], scale=text, take=".musicxml")
            check(not state["ok"] and inside not in state["trouble"], state)
            for toml in (f'name="x"\nstrings=[{{name="a",open="D4",length="612 mm"}}]\nfrets="{text}"\n',):
                state = desk.put("trap.toml", toml.encode())
                if state["ok"]:
                    begun, state = desk.ask("sheet", [state["thing"]["number"]])
                    check(not state["ok"] and inside not in state["trouble"] + desk.page(begun).decode(), state)
        # Names of files lead nowhere.
        for name in ("../../trap.toml", "/tmp/trap.toml", "-rf.toml", "..", ".", "", "a\\b.toml", "a\nb.toml", "x" * 300 + ".toml"):
            state = desk.put(name, b'name = "x"\ndegrees = ["9/8"]\n')
            given = state.get("thing", {}).get("file", "x")
            check("/" not in given and "\n" not in given and not given.startswith((".", "-")) and len(given.encode()) < 130, given)
        check(not Path("/tmp/trap.toml").exists(), "a file outside the desk")


def answers_as_commands(sectio, folder):
    """Each file that is taken away is the command's own, byte for byte, and so is its command."""
    work = Path(folder) / "by-hand"
    shutil.rmtree(work, ignore_errors=True)
    work.mkdir(parents=True)
    given = {name: (EXAMPLES / name).read_bytes() for name in
             ("sundhall-zither.toml", "sundhall-zither-instrument.toml", "goose-walk.musicxml")}
    note = Path(folder) / "note.wav"
    write_microphone(note, [(None, 0, 293.665), (None, 0, 330.0), (None, 0, 366.2)])
    given["note.wav"] = note.read_bytes()
    given["places.csv"] = b"fret,nut_mm\n1,57.5\n2,112.5\n"
    subprocess.run([sectio, "tuning", "rast", "--tonic", "D4", "--out", work / "rast.syx"], check=True, stdout=subprocess.DEVNULL)
    given["rast.syx"] = (work / "rast.syx").read_bytes()
    for name, content in given.items():
        (work / name).write_bytes(content)
    asked = 0
    with Desk(sectio) as desk:
        desk.open()
        things = {name: desk.put(name, content)["thing"] for name, content in given.items()}
        things["typed"] = desk.type("D4 E4-29c F4+50c G4+1c A4+3c")["thing"]
        things["rast"] = desk.type("Rast")["thing"]
        things["fifth"] = desk.type("3/2")["thing"]
        check({name: thing["kind"] for name, thing in things.items()}
              == {"sundhall-zither.toml": "scale", "sundhall-zither-instrument.toml": "instrument",
                  "goose-walk.musicxml": "score", "note.wav": "recording", "places.csv": "places",
                  "rast.syx": "messages", "typed": "pitches", "rast": "scale", "fifth": "interval"}, things)
        filled = {"frets": {"length": "620mm"}, "compare": {"with": "just-major"}, "annotate": {"scale": "rast", "tonic": "D4"},
                  "perform": {"scale": "rast"}, "sound-score": {"system": "53"}, "samples": {},
                  "measure-frets": {"length": "620mm", "open": "D4"}, "listen": {"seconds": "0.3"}}
        for question in desk.call("GET", "questions"):
            fitting = [thing for thing in things.values() if thing["kind"] in question["kinds"]]
            check(len(fitting) >= question["least"], "nothing to ask", question["id"])
            fitting = fitting[:max(1, question["least"])]
            form = filled.get(question["id"], {})
            begun, state = desk.ask(question["id"], [thing["number"] for thing in fitting], **form)
            check(state["ok"], question["id"], state)
            page = desk.page(begun)
            check(page.startswith(b"<!DOCTYPE html>") and page.rstrip().endswith(b"</html>"), question["id"], page[-200:])
            for ending in question["endings"]:
                begun, state = desk.ask(question["id"], [thing["number"] for thing in fitting], take=ending, **form)
                check(state["ok"], question["id"], ending, state)
                got = desk.file(begun)
                before = set(work.iterdir())
                subprocess.run(["bash", "-c", begun["command"].replace("sectio", shlex.quote(str(sectio)), 1)], cwd=work,
                               check=True, stdout=subprocess.DEVNULL)
                out = work / state["out"].removesuffix(".zip")
                check(out not in before, "the command overwrites", out)
                same(got, out, question["id"], ending)
                asked += 1
                shutil.rmtree(out) if out.is_dir() else out.unlink()
    check(asked > 80, "asked only", asked)


def undated(content):
    """A PDF of an answer without a date says when it was made, to the second."""
    return re.sub(rb"/CreationDate \(D:[^)]*\)", b"", content)


def same(got, out, *what):
    """The file of the desk and that of the command, or all files of its folder."""
    if not out.is_dir():
        return check(undated(got) == undated(out.read_bytes()), "other bytes", *what)
    with zipfile.ZipFile(io.BytesIO(got)) as archive:
        packed = {name: archive.read(name) for name in archive.namelist()}
    plain = {str(file.relative_to(out.parent)): file.read_bytes() for file in out.rglob("*") if file.is_file()}
    check(packed == plain and plain, "other files", *what, packed.keys(), plain.keys())
    return None


def speaks_to_players(sectio, folder):
    """No message about what was typed or dropped names commands, or takes what is no text for one."""
    with Desk(sectio) as desk:
        desk.open()
        for trouble in (desk.type("nonsense")["trouble"],
                        desk.ask("compare", [desk.type("rast")["thing"]["number"]], **{"with": "nonsense"})[1]["trouble"],
                        desk.ask("identify", [desk.type("rast")["thing"]["number"]], show="0")[1]["trouble"]):
            check("typing a part of its name" in trouble or "`0` is no number from 1 to" in trouble, trouble)
            check("sectio" not in trouble and "SCALE" not in trouble and "typed:" not in trouble, trouble)
        trouble = desk.ask("frets", [desk.type("rast")["thing"]["number"]])[1]["trouble"]
        check(trouble == "“Length of the strings”: the length of the strings is not known", "a cure that cannot be heeded here", trouble)
        for name in ("memo.m4a", "memo"):
            trouble = desk.put(name, b"\0\0\0\x20ftypM4A \0\0")["trouble"]
            check("no sound file" in trouble and "UTF-8" not in trouble, trouble)


def lets_in_beside_silent_ones(sectio, folder):
    """Programs that connect and say nothing keep nobody out; what is being asked goes on."""
    with Desk(sectio) as desk:
        desk.open()
        host, port = desk.host.split(":")
        slow = http.client.HTTPConnection(host, int(port), timeout=60)
        slow.putrequest("PUT", desk.secret + "file?" + urllib.parse.urlencode([("name", "a.csv"), ("tab", desk.tab)]))
        slow.putheader("Content-Length", "12")
        slow.endheaders()
        slow.send(b"cents\n")
        silent = [socket.create_connection((host, int(port))) for _ in range(200)]
        began = time.monotonic()
        desk.call("GET", "questions")
        check(time.monotonic() - began < 5, "waited for", time.monotonic() - began)
        slow.send(b"204\n7\n")
        answer = slow.getresponse()
        check(answer.status == 200, "the upload", answer.status)
        for each in silent:
            each.close()


def holds_files_up_to_its_bounds(sectio, folder):
    """A file of a gibibyte is taken, a byte more is not; nor is what goes beyond four gibibytes on all pages."""
    zeros = Path(folder) / "zeros.bin"

    def sent(desk, size):
        with zeros.open("wb") as file:
            file.truncate(size)
        with zeros.open("rb") as body:
            status, _, content = desk.request("PUT", "file", [("name", "zeros.bin")], body, {"Content-Length": str(size)})
        if status == 200:
            desk.ended(json.loads(content))
        return status

    with Desk(sectio) as desk:
        desk.open()
        check(sent(desk, 1 << 30) == 200, "a file at the limit desk_file_bytes is refused")
        status = sent(desk, (1 << 30) + 1)
        check(status == 413, "a file beyond desk_file_bytes", status)
        lying, = [file for home in Path("/tmp").glob("sectio-desk-*")
                  for file in home.glob(f"{desk.tab}/things/zeros.bin")]
        os.truncate(lying, (1 << 32) - 1000)
        check(sent(desk, 1000) == 200, "what fills the limit desk_bytes is refused")
        status = sent(desk, 1)
        check(status == 400, "what goes beyond desk_bytes", status)


CASES = {case.__name__: case for case in (refuses_strangers, reads_nothing_else, answers_as_commands, speaks_to_players,
                                        lets_in_beside_silent_ones, holds_files_up_to_its_bounds)}

if __name__ == "__main__":
    CASES[sys.argv[3]](sys.argv[1], sys.argv[2])
    print("ok")
