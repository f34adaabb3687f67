"""The desk's page as a musician uses it, in a real browser.

Called with the folder of the build's program: desk_page.py SECTIO SCRATCH_FOLDER CASE
"""

import http.server
import io
import json
import os
import shutil
import socket
import subprocess
import sys
import threading
import time
import urllib.request
import wave
from pathlib import Path

from chromium import Browser, run_case
from desk import EXAMPLES, Desk, undated
from player import axe, check, quiet, write_microphone

READY = "document.body.dataset.ready === 'yes'"
NAMES = "[...document.querySelectorAll('#things li')].map(item => item.querySelector('strong').textContent)"
CHOSEN = "[...document.querySelectorAll('#things input:checked')].map(box => box.closest('li').querySelector('strong').textContent)"
BUTTONS = "[...document.querySelectorAll('#questions button')].map(button => button.textContent)"


def opened(browser, desk):
    browser.visit(desk.address)
    browser.until(READY)


def choose_files(browser, *files):
    """By the file chooser's own input."""
    before = browser.run(NAMES + ".length")
    node = browser.call("Runtime.evaluate", expression="document.getElementById('files')")["result"]["objectId"]
    browser.call("DOM.setFileInputFiles", objectId=node, files=[str(file) for file in files])
    browser.until(f"{NAMES}.length >= {before + len(files)} && ![...document.querySelectorAll('#things span')].some(x => x.textContent.includes('…'))")


def drop(browser, name, text):
    """By a drop anywhere on the page."""
    browser.run(f"""(() => {{
      const data = new DataTransfer();
      data.items.add(new File([{json.dumps(text)}], {json.dumps(name)}));
      document.body.dispatchEvent(new DragEvent('drop', {{ dataTransfer: data, bubbles: true, cancelable: true }}));
    }})()""")


def press(browser, text):
    """A button of the page by what stands on it."""
    pressed = f"""(() => {{
      const found = [...document.querySelectorAll('button')].filter(b => b.textContent === {json.dumps(text)} && b.offsetParent);
      if (found.length) found[0].click();
      return found.length > 0;
    }})()"""
    browser.until(pressed)


def answered(browser, count):
    """Waits for the newest answer; gives what went wrong, if anything."""
    browser.until(f"document.querySelectorAll('article[data-done]').length >= {count}", 60)
    return browser.run("(document.querySelector('article .trouble') || {}).textContent || ''")


def frame_text(browser, selector):
    """What a frame shows, fetched by its address; its script cannot be asked from the page."""
    address = browser.run(f"(document.querySelector({json.dumps(selector)}) || {{}}).src || ''")
    return urllib.request.urlopen(address).read().decode() if address else ""


def listen_in(browser, seconds=20):
    """Presses Microphone in the newest answer's frame; gives what the player then says."""
    page, browser.session = browser.session, None
    frames = [t for t in browser.call("Target.getTargets")["targetInfos"] if t["type"] == "iframe"]
    if not frames:  # the frame lives in the page's own process
        browser.session = page
        return None
    browser.session = browser.call("Target.attachToTarget", targetId=frames[0]["targetId"], flatten=True)["sessionId"]
    browser.run("document.querySelector('[data-listen]').click()")
    said = browser.until("document.querySelector('[data-status]').textContent", seconds)
    browser.session = page
    return said


def type_text(browser, text):
    browser.run("document.getElementById('text').focus()")
    browser.call("Input.insertText", text=text)


def answers_buttons(sectio, folder):
    """Each kind of file dropped or chosen, each fitting button pressed, a file taken away."""
    folder = Path(folder).resolve()
    note, work = folder / "note.wav", folder / "taken"
    shutil.rmtree(work, ignore_errors=True)
    work.mkdir()
    write_microphone(note, [(None, 0, 293.665), (None, 0, 330.0)])
    with Desk(sectio) as desk, Browser() as browser:
        check(desk.seconds < 3, "the desk opens after", desk.seconds)
        browser.call("Page.setDownloadBehavior", behavior="allow", downloadPath=str(work))
        opened(browser, desk)
        expected = {
            "sundhall-zither.toml": ["What is this scale?", "Make a sheet", "Tune by it", "Compare", "Where do the frets go?",
                                     "Make it sound", "Tuning data", "Which equal divisions carry it?", "Take it in hand"],
            "sundhall-zither-instrument.toml": ["Which pitches do the frets give?", "What is this scale?", "Make a sheet",
                                                "Tune by it", "Compare", "Where do the frets go?", "Make it sound",
                                                "Tuning data", "Take it in hand"],
            "goose-walk.musicxml": ["What is this scale?", "Write cents into the score", "Make it a MIDI file in a scale",
                                    "Make it sound"],
            "note.wav": ["Which pitches are in it?", "Store pitches in samples"],
        }
        count = 0
        for name, buttons in expected.items():
            choose_files(browser, note if name == "note.wav" else EXAMPLES / name)
            check(browser.run(CHOSEN) == [name], "chosen", browser.run(CHOSEN))
            check(browser.run(BUTTONS) == buttons, name, browser.run(BUTTONS))
            for button in buttons:
                if button == "Take it in hand":
                    continue
                began = time.monotonic()
                press(browser, button)
                said = browser.run("document.getElementById('status').textContent")
                for needed, typed in (("Say in which scale", "rast"), ("Say with which scale", "rast"),
                                      ("Say how long the strings are", "620mm")):
                    if said.startswith(needed):
                        browser.run(f"document.querySelector('#form input').value = '{typed}'")
                        press(browser, "Answer")
                count += 1
                trouble = answered(browser, count)
                check(not trouble, button, trouble)
                check(time.monotonic() - began < 20, button, "took", time.monotonic() - began)
                frame = browser.run("document.querySelector('article iframe').title")
                check(frame == button, "the frame is of", frame)
                if button == "Make it sound":
                    browser.until("(document.querySelector('article audio') || {}).duration > 1")
        choose_files(browser, EXAMPLES / "sundhall-cittern.toml")
        press(browser, "Make a sheet")
        answered(browser, count + 1)
        for kind, ending in (("PDF", "pdf"), ("MusicXML", "musicxml"), ("CSV", "csv")):
            press(browser, kind)
            browser.until(f"document.querySelector('article [role=status]').textContent.includes('.{ending} is taken away')", 60)
            file = work / f"sundhall-cittern.{ending}"
            for _ in range(200):
                if file.exists():
                    break
                time.sleep(0.05)
            by_hand = work / f"by-hand.{ending}"
            subprocess.run([sectio, "sheet", "sundhall-cittern.toml", "--out", by_hand], cwd=EXAMPLES, check=True)
            check(undated(file.read_bytes()) == undated(by_hand.read_bytes()), "other bytes", kind)
        shown = browser.run("document.querySelector('article .command code').textContent")
        check(shown == "sectio sheet sundhall-cittern.toml --out sundhall-cittern.csv", shown)
        drop(browser, "wrong.toml", "name = 5")
        browser.until("document.getElementById('status').className === 'trouble'")
        check("wrong.toml" in browser.run("document.getElementById('status').textContent"), "says what is wrong")
        drop(browser, "dropped.csv", "cents\n0\n204\n386\n")
        browser.until(f"{NAMES}.includes('dropped.csv')")
        quiet(browser)


def types_and_finds(sectio, folder):
    """What is typed is looked up meanwhile; Enter puts it on the desk; all by the keyboard."""
    with Desk(sectio) as desk, Browser() as browser:
        opened(browser, desk)
        type_text(browser, "werckm")
        browser.until("[...document.querySelectorAll('#matches button')].some(b => b.textContent.includes('Werckmeister III'))")
        browser.run("document.getElementById('text').value = ''")
        type_text(browser, "D4 E4-29c F4+50c")
        browser.press("Enter", number=13, text="\r")
        browser.until(f"{NAMES}.includes('D4, E4-29c, F4+50c')")
        check(browser.run("document.getElementById('text').value") == "", "the line is not empty")
        told = browser.run("document.querySelector('#things span').textContent")
        check(told == "D4, E4-29c, F4+50c 3 pitches", "the name is told twice:", told)
        seen = set()
        browser.run("document.getElementById('end').focus()")
        for _ in range(30):
            browser.press("Tab", number=9)
            seen.add(browser.run("document.activeElement.textContent || document.activeElement.id"))
        for wanted in ("files", "text", "Record here", "Make a sheet", "Take off"):
            check(wanted in seen, "not reached by Tab:", wanted, seen)
        browser.run("[...document.querySelectorAll('#questions button')].find(b => b.textContent === 'Make a sheet').focus()")
        browser.press("Enter", number=13, text="\r")
        check(not answered(browser, 1), "no answer by the keyboard")
        check(browser.run("document.activeElement.tagName") == "H2", "the focus is not on the answer")
        press(browser, "What is this scale?")
        check(not answered(browser, 2), "no name")
        told = "document.querySelector('article iframe').style.getPropertyValue('--content')"
        browser.until(f"{told} !== ''")
        height = "document.querySelector('article iframe').clientHeight"
        check(browser.run(f"Math.abs({height} - .75 * innerHeight) < 4"), "not as high as the window bears")
        browser.look(1000, 4000)
        browser.until(f"Math.abs({height} - parseFloat({told})) < 4 && {height} < 2000")
        browser.look(1000, 700)
        press(browser, "Where do the frets go?")
        browser.run("document.querySelector('#form input').value = '0mm'")
        press(browser, "Answer")
        trouble = answered(browser, 3)
        check(trouble.startswith("“Length of the strings”: this length"), "not in the words of the form:", trouble)
        press(browser, "9/8, 5/4, 4/3, 3/2, 5/3, 15/8, 2/1")
        browser.until(f"{CHOSEN} == '9/8, 5/4, 4/3, 3/2, 5/3, 15/8, 2/1'")
        quiet(browser)


def records(sectio, folder):
    """The microphone, fed with a sound file by the browser: countdown, level, file, pitches."""
    sound = Path(folder) / "microphone.wav"
    write_microphone(sound, [(None, 0, hz) for hz in (293.665, 330.0, 366.2, 391.5)] * 4)
    with Desk(sectio) as desk, Browser("--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream",
                                       f"--use-file-for-fake-audio-capture={sound}") as browser:
        opened(browser, desk)
        press(browser, "Record here")
        browser.until("document.getElementById('record-state').textContent.includes('begins in')")
        browser.until("document.getElementById('record-state').textContent.includes('Recording: 1 s')")
        browser.until("document.getElementById('level').value > 0.05")
        browser.until("/Recording: [6-9] s/.test(document.getElementById('record-state').textContent)")
        press(browser, "Stop recording")
        browser.until(f"{CHOSEN}.includes('recording-1.wav')", 30)
        check("recording:" in browser.run("document.querySelector('#things li').textContent"), "not recognised")
        press(browser, "Which pitches are in it?")
        check(not answered(browser, 1), answered(browser, 1))
        page = frame_text(browser, "article iframe")
        for note in ("293.", "330.", "366.", "391."):
            check(note in page, "no pitch of", note)
        type_text(browser, "9/8, 5/4, 4/3, 3/2")
        browser.press("Enter", number=13, text="\r")
        press(browser, "Tune by it")
        check(not answered(browser, 2), answered(browser, 2))
        said = listen_in(browser)
        check(said is None or not said.startswith("No microphone"), "the answer's microphone:", said)
        browser.run("document.querySelectorAll('#things input')[0].click(), document.querySelectorAll('#things input')[1].click()")
        press(browser, "Which pitches are in it?")
        answered(browser, 3)
        press(browser, "Scale file")
        press(browser, "Put it on the desk too")
        browser.until(f"{CHOSEN}.some(name => name.endsWith('.toml'))", 30)
        quiet(browser)


def keeps_the_scale_at_hand(sectio, folder):
    """A scale is edited, seen on the ruler at once, and there again after the page was closed."""
    with Desk(sectio) as desk:
        with Browser() as browser:
            opened(browser, desk)
            choose_files(browser, EXAMPLES / "sundhall-zither.toml")
            press(browser, "Take it in hand")
            browser.until("document.getElementById('hand').dataset.shown")
            rows = browser.run("document.querySelectorAll('#hand tbody tr').length")
            check(rows == 8, "degrees", rows)
            before = browser.run("document.getElementById('hand').dataset.shown")
            set_value = """((label, value) => {
              const input = document.querySelector(`#hand [aria-label="${label}"]`);
              input.value = value; input.dispatchEvent(new Event('input')); })"""
            browser.run(f"{set_value}('Pitch of degree 2', '10/9'), {set_value}('Name of degree 2', 'low \\\"step\\\"'),"
                        f"{set_value}('Half width of degree 2', ''), {set_value}('Against', '31,rast')")
            browser.run("document.querySelector('[aria-label=\"Use degree 3\"]').click()")
            browser.until(f"document.getElementById('hand').dataset.shown !== '{before}'")
            for _ in range(100):
                page = frame_text(browser, "#hand-frame")
                if all(text in page for text in ("182.4", "low &quot;step&quot;", "Rast")):
                    break
                time.sleep(0.2)
            else:
                check(False, "the ruler lacks the change")
            browser.run(f"{set_value}('Pitch of degree 2', 'nonsense')")
            browser.until("document.getElementById('hand-line').textContent.includes('nonsense')")
            browser.run(f"{set_value}('Pitch of degree 2', '10/9')")
            browser.until("document.getElementById('hand-line').textContent === ''")
            browser.call("Page.reload")
            browser.wait_for("Page.loadEventFired")
            browser.until(READY)
            press(browser, "Take in hand")
            browser.until("document.getElementById('hand').dataset.shown")
            check(browser.run("document.querySelector('[aria-label=\"Pitch of degree 2\"]').value") == "10/9", "lost")
            check(not browser.run("document.querySelector('[aria-label=\"Use degree 3\"]').checked"), "lost what is left out")
            press(browser, "Throw away")
            check(browser.run("document.getElementById('kept-section').hidden"), "not thrown away")
            quiet(browser)


SET_VALUE = """((label, value) => {
  const input = document.querySelector(`#hand [aria-label="${label}"]`);
  input.value = value; input.dispatchEvent(new Event('input')); })"""


def follows_the_scale_at_hand(sectio, folder):
    """Two windows of one browser, neither of which loses what was written in the other; what cannot be
    read meanwhile takes no other thing's tick."""
    with Desk(sectio) as desk, Browser() as browser:
        opened(browser, desk)
        choose_files(browser, EXAMPLES / "goose-walk.musicxml", EXAMPLES / "sundhall-zither.toml")
        browser.run("document.querySelectorAll('#things input')[0].click()")
        press(browser, "Take it in hand")
        hand = "document.getElementById('hand')"
        browser.until(f"{hand}.dataset.shown && {NAMES}.length === 3")
        browser.run("document.querySelectorAll('#things input:not(:checked)').forEach(box => box.click())")
        chosen = browser.run(CHOSEN)
        check(len(chosen) == 3, "chosen", chosen)
        for pitch, line in (("10/", "slash"), ("10/9", "")):
            browser.run(f"{SET_VALUE}('Pitch of degree 2', '{pitch}')")
            browser.until(f"document.getElementById('hand-line').textContent.includes('{line}')"
                          f" && {NAMES}.length === {2 if line else 3}")
        check(sorted(browser.run(CHOSEN)) == sorted(chosen), "chosen after all", browser.run(CHOSEN))
        first = browser.session
        target = browser.call("Target.createTarget", url=desk.address)["targetId"]
        browser.session = browser.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        second = browser.session
        browser.until(f"document.body && {READY}")
        press(browser, "Take in hand")
        browser.until(f"{hand}.dataset.shown")
        browser.run(f"{SET_VALUE}('Name of degree 2', 'from the second')")
        browser.session = first
        name = "document.querySelector('#hand [aria-label=\"Name of degree {}\"]').value"
        browser.until(name.format(2) + " === 'from the second'")
        browser.run(f"{SET_VALUE}('Name of degree 3', 'from \\x7F the first')")
        browser.session = second
        browser.until(name.format(3) + ".endsWith('the first')")
        kept = json.loads(browser.run("localStorage.getItem('sectio-scales')"))
        names = [row.get("name") for scale in kept.values() for row in scale["rows"]]
        check(names[1:3] == ["from the second", "from \x7f the first"], "kept", names)
        time.sleep(1)
        check(not browser.run("document.getElementById('hand-line').textContent"), "no scale file")
        press(browser, "Throw away")
        browser.session = first
        browser.until(f"{hand}.hidden && document.getElementById('kept-section').hidden")


def keeps_tabs_apart(sectio, folder):
    """Two tabs have each their own desk; a tab that is loaded again finds its things."""
    with Desk(sectio) as desk, Browser() as first, Browser() as second:
        opened(first, desk)
        opened(second, desk)
        choose_files(first, EXAMPLES / "sundhall-zither.toml")
        check(second.run(NAMES) == [], "the other tab shows", second.run(NAMES))
        choose_files(second, EXAMPLES / "sundhall-zither.toml", EXAMPLES / "goose-walk.musicxml")
        opened(first, desk)
        check(first.run(NAMES) == ["sundhall-zither.toml"], first.run(NAMES))
        press(first, "Make a sheet")
        check(not answered(first, 1), "first")
        press(second, "Write cents into the score")
        check(not answered(second, 1), "a score with the scale that is chosen beside it", answered(second, 1))
        press(first, "End the desk")
        first.until("document.querySelector('main').textContent.startsWith('The desk has ended')")
        check(desk.process.wait(20) == 0, "the desk goes on")
        press(second, "Write cents into the score")
        second.until("document.getElementById('status').textContent.includes('does not answer')")


def withstands_strangers(sectio, folder):
    """A page of another origin reaches nothing, even with the secret; answers reach nothing either."""
    with Desk(sectio) as desk:
        page = f"""<!DOCTYPE html><title>other</title><script>
          const address = {json.dumps(desk.address)};
          const tries = {{
            read: () => fetch(address).then(answer => answer.text()),
            ask: () => fetch(address + 'open', {{ method: 'POST' }}).then(answer => answer.text()),
            blind: () => fetch(address + 'end', {{ method: 'POST', mode: 'no-cors' }}).then(answer => answer.type + answer.status),
          }};
          window.results = (async () => {{
            const results = {{}};
            for (const [name, act] of Object.entries(tries)) results[name] = await act().catch(error => 'refused');
            const frame = document.createElement('iframe');
            frame.src = address;
            document.documentElement.append(frame);
            await new Promise(done => {{ frame.onload = done; setTimeout(done, 3000); }});
            try {{ results.frame = frame.contentWindow.document.body.innerHTML; }} catch (error) {{ results.frame = 'refused'; }}
            return results;
          }})();
        </script>""".encode()

        class Other(http.server.BaseHTTPRequestHandler):
            def do_GET(self):
                self.send_response(200)
                self.send_header("Content-Type", "text/html")
                self.end_headers()
                self.wfile.write(page)

            def log_message(self, *_):
                pass

        server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Other)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        with Browser() as browser:
            browser.visit(f"http://127.0.0.1:{server.server_port}/")
            results = browser.run("window.results")
            check(results["read"] == "refused" and results["ask"] == "refused" and results["frame"] == "refused", results)
            check(desk.process.poll() is None, "another page ended the desk")
        server.shutdown()
        with Browser() as browser:
            opened(browser, desk)
            type_text(browser, "rast")
            browser.press("Enter", number=13, text="\r")
            press(browser, "Make a sheet")
            check(not answered(browser, 1), "no answer")
            check(browser.run("(() => { try { return document.querySelector('article iframe').contentWindow.document.title } "
                              "catch { return 'refused' } })()") == "refused", "the frame has the desk's origin")
            alone = browser.run("document.querySelector('article a').href")
            browser.visit(alone)
            browser.until("document.readyState === 'complete'")
            check(browser.run("self.origin") not in ("null", f"http://{desk.host}"), "an answer alone is of", browser.run("self.origin"))
            for address in (desk.address + "open", desk.address, "open"):
                check(browser.run(f"fetch({json.dumps(address)}, {{ method: 'POST' }}).then(() => 'reached', () => 'refused')")
                      == "refused", "an answer reaches", address)
            check(browser.run("localStorage.length") == 0, "an answer sees what the page keeps")


def withstands_uploads(sectio, folder):
    """Large, broken and hostile files, connections that are cut, work that is stopped."""
    with Desk(sectio) as desk:
        desk.open()
        big = os.urandom(50 << 20)
        began = time.monotonic()
        state = desk.put("big.wav", big)
        check(not state["ok"] and state["trouble"], "random bytes are", state)
        check(time.monotonic() - began < 30, "50 MB took", time.monotonic() - began)
        short, long = Path(folder) / "short.wav", io.BytesIO()
        write_microphone(short, [(None, 0, hz) for hz in (220.0, 247.5, 275.0)])
        with wave.open(str(short)) as sound, wave.open(long, "wb") as out:
            out.setparams(sound.getparams())
            out.writeframes(sound.readframes(sound.getnframes()) * 150)
        began = time.monotonic()
        long_sound = desk.put("long.wav", long.getvalue())["thing"]["number"]
        check(len(long.getvalue()) > 50 << 20 and time.monotonic() - began < 30, "50 MB of sound took", time.monotonic() - began)
        nested = b"<a>" * 100000
        bomb = b'<!DOCTYPE a [<!ENTITY a "' + b"a" * 1000 + b'">' + b"".join(
            b'<!ENTITY %c "%s">' % (98 + i, (b"&%c;" % (97 + i)) * 50) for i in range(8)) + b"]><score-partwise>&i;</score-partwise>"
        for name, content in (("nested.musicxml", nested), ("bomb.musicxml", bomb), ("zip.mxl", b"PK\3\4" + big[:1000]),
                              ("riff.wav", b"RIFF\xff\xff\xff\xffWAVEfmt \xff\xff\xff\xff"), ("nul.toml", b"\0" * 1000),
                              ("empty", b""), ("deep.toml", b"name='x'\ndegrees=" + b"[" * 50000), ("x.mid", b"MThd" + big[:5000]),
                              ("wide.csv", b"cents," * 200000)):
            state = desk.put(name, content)
            check(not state["ok"] and state["trouble"] and "ended before" not in state["trouble"], name, state)
        page = desk.put("<img src=x onerror=alert(1)>.toml", b'name = "<script>alert(1)</script>"\ndegrees = ["9/8"]\n')
        begun, state = desk.ask("sheet", [page["thing"]["number"]])
        check(state["ok"] and b"<script>alert" not in desk.page(begun), "a name is not escaped")
        # A connection cut in the middle of a file leaves nothing and keeps nobody off.
        host, port = desk.host.split(":")
        for sent in (b"", b"PUT ", f"PUT {desk.secret}file?tab={desk.tab}&name=a.wav HTTP/1.1\r\nHost: {desk.host}\r\n"
                     f"Content-Length: 100000\r\n\r\n".encode() + b"x" * 5000, b"\0" * 5000, b"GET / HTTP/9.9\r\n\r\n"):
            with socket.create_connection((host, int(port))) as cut:
                cut.sendall(sent)
                time.sleep(0.3)
        check(desk.type("rast")["ok"], "the desk has fallen")
        # Long work says how far it is, is stopped, and has a bound.
        begun = desk.call("POST", "ask", [("question", "measure-recording"), ("thing", long_sound)])
        for _ in range(2000):
            state = desk.call("GET", "job", [("job", begun["job"])])
            if state["ended"] or state["done"] > 0:
                break
            time.sleep(0.01)
        check(not state["ended"] and 0 < state["done"] < 1, "no progress", state)
        desk.call("POST", "stop", [("job", begun["job"])])
        check(not desk.ended(begun)["ok"], "not stopped")
        for _ in range(10):
            status, _, told = desk.request("POST", "ask", [("question", "measure-recording"), ("thing", long_sound)])
        check(status == 400 and b"works at 6" in told, "no bound on work", status, told)
        for size, expected in ((1 << 17, 200), (1 << 18, 431)):  # limit desk_request_bytes; 431 after RFC 6585
            status = desk.request("POST", "alive", headers={"Long": "a" * size})[0]
            check(status == expected, "a head of", size, status)
        for what, arguments in (("ask", [("question", "none")]), ("ask", [("question", "sheet"), ("thing", "999")]),
                                ("drop", [("thing", "x")]), ("keep", [("job", "1")]), ("nothing", []), ("text", [("text", "x" * 30000)])):
            status, _, content = desk.request("POST", what, arguments)
            check(status in (400, 404) and json.loads(content)["trouble"], what, status)
        mine = [folder for folder in Path("/tmp").glob("sectio-desk-*") if any(folder.glob(desk.tab))]
        check(len(mine) == 1 and mine[0].stat().st_mode & 0o777 == 0o700, "the folder is open to others", mine)
        check(not list((mine[0] / "incoming").iterdir()), "left over", list((mine[0] / "incoming").iterdir()))
        desk.tab = ""
        opened_pages = [desk.request("POST", "open")[0] for _ in range(32)]
        check(opened_pages == [200] * 31 + [400], "pages", opened_pages)  # limit desk_pages, and one is open
    check(not mine[0].exists(), "the folder stays")


def looks_and_reads_well(sectio, folder):
    """Light, dark and on a phone: nothing wider than the page, and nothing a general checker finds."""
    checker = axe(folder)
    found = """axe.run(document).then(result =>
      [result.passes.length, result.violations.map(v => [v.id, v.nodes.map(n => n.html.slice(0, 200))])])"""
    with Desk(sectio) as desk:
        for width, dark in ((1000, False), (1000, True), (360, False), (360, True)):
            with Browser() as browser:
                browser.look(width, 900, dark)
                opened(browser, desk)
                browser.run(checker + "; 0")
                for state in ("empty", "chosen", "answered", "hand"):
                    if state == "chosen":
                        choose_files(browser, EXAMPLES / "sundhall-zither.toml")
                        press(browser, "Make a sheet")
                    if state == "answered":
                        check(not answered(browser, 1), "no answer")
                    if state == "hand":
                        press(browser, "Take it in hand")
                        browser.until("document.getElementById('hand').dataset.shown")
                    passes, violations = browser.run(found)
                    check(passes > 15, "the checker has looked at little", passes)
                    check(not violations, width, dark, state, violations)
                    check(browser.run("document.documentElement.scrollWidth") <= width, "too wide at", width, state)
                    browser.screenshot(Path(folder) / f"desk-{width}-{'dark' if dark else 'light'}-{state}.png")


CASES = {case.__name__: case for case in (answers_buttons, types_and_finds, records, keeps_the_scale_at_hand, follows_the_scale_at_hand,
                                       keeps_tabs_apart, withstands_strangers, withstands_uploads, looks_and_reads_well)}

if __name__ == "__main__":
    run_case(CASES[sys.argv[3]], sys.argv[1], sys.argv[2])
