"""The sheet's player in a real browser: what it plays, what it hears, and by which keys.

Called with the folder of the build's program: player.py SECTIO SCRATCH_FOLDER CASE
"""

import json
import math
import random
import struct
import subprocess
import sys
import time
import wave
from pathlib import Path

from chromium import Browser, run_case

RATE = 48000


def check(condition, *what):
    if not condition:
        print("FAILED:", *what)
        sys.exit(1)


def cents(a, b):
    return 1200 * math.log2(a / b)


def sheet(sectio, folder, *arguments):
    file = Path(folder) / "sheet.html"
    subprocess.run([sectio, "sheet", *arguments, "--out", file], check=True)
    answer = subprocess.run([sectio, "sheet", *arguments, "--json", "--digits", "9"], check=True,
                            capture_output=True)
    return file, json.loads(answer.stdout)


def quiet(browser):
    check(not browser.messages, "the console says", browser.messages)


# The frequency of samples by the turn of their phase, once more and otherwise than in the page.
MEASURE = """
const measured = (samples, rate, begin, seconds, guess) => {
  const look = (from, count, hz) => {
    let x = 0, y = 0;
    for (let i = 0; i < count; i++) {
      const angle = 2 * Math.PI * ((hz * (from + i) / rate) % 1);
      const value = samples[from + i] * (1 - Math.cos(2 * Math.PI * i / count));
      x += value * Math.cos(angle); y -= value * Math.sin(angle);
    }
    return Math.atan2(y, x);
  };
  let hz = guess;
  const half = Math.round(seconds / 2 * rate), first = Math.round(begin * rate);
  for (const apart of [0.02, 0.08, seconds / 2].map(s => Math.round(s * rate))) {
    let turn = look(first + apart, half, hz) - look(first, half, hz);
    turn -= 2 * Math.PI * Math.round(turn / (2 * Math.PI));
    hz += turn * rate / (2 * Math.PI * apart);
  }
  return hz;
};
"""


def plays_exactly(sectio, folder):
    """Every degree, both neighbours and the drone, through an offline audio context."""
    file, answer = sheet(sectio, folder, "rast", "--tonic", "D4")
    with Browser() as browser:
        browser.open(file)
        check(not browser.run("document.querySelector('.player').hidden"), "the player is hidden")
        tones = browser.run(MEASURE + """
        (async () => {
          const scale = document.querySelector('.player').player.scale;
          const plucked = async hz => {
            const context = new OfflineAudioContext(1, 48000 * 2, 48000);
            const source = new AudioBufferSourceNode(context, { buffer: Tones.pluck(context, hz) });
            source.connect(context.destination);
            source.start();
            const samples = (await context.startRendering()).getChannelData(0);
            return measured(samples, 48000, 0.1, 1.2, hz * 1.001);
          };
          const drone = async hz => {
            const context = new OfflineAudioContext(1, 48000 * 2, 48000);
            const oscillator = Tones.drone(context, hz);
            oscillator.connect(context.destination);
            oscillator.start();
            const samples = (await context.startRendering()).getChannelData(0);
            return measured(samples, 48000, 0.1, 1.2, hz * 1.001);
          };
          const all = [];
          for (const d of scale.degrees)
            all.push([await plucked(d.hz), await plucked(d.below.hz),
                      d.above && await plucked(d.above.hz)]);
          return { degrees: all, drone: await drone(scale.drone.hz) };
        })()""")
        tonic = float(answer["tonic_hz"])
        check(abs(cents(tones["drone"], tonic / 2)) < 0.01, "drone", tones["drone"])
        check(len(tones["degrees"]) == len(answer["degrees"]), "degrees")
        for heard, degree in zip(tones["degrees"], answer["degrees"]):
            check(abs(cents(heard[0], float(degree["hz"]))) < 0.02, degree["name"], heard)
            key = float(degree["hz"]) / 2 ** (float(degree["deviation_cents"]) / 1200)
            near = min((h for h in heard[1:] if h), key=lambda h: abs(cents(h, key)))
            check(abs(cents(near, key)) < 0.02, "key of", degree["name"], heard)
            if heard[2]:
                check(abs(cents(heard[2], heard[1]) - 100) < 0.04, "neighbours", heard)
        quiet(browser)


def detects_pitch(sectio, folder):
    """The detector alone, on tones of several kinds from 60 to 1,200 Hz."""
    file, _ = sheet(sectio, folder, "rast", "--tonic", "D4")
    with Browser() as browser:
        browser.open(file)
        worst = browser.run("""
        (() => {
          const kinds = {
            sine: (hz, t) => 0.1 * Math.sin(2 * Math.PI * hz * t + 1),
            string: (hz, t) => [...Array(12)].reduce((sum, _, i) => sum + 0.1 / (i + 1)
              * Math.exp(-3 * (i + 1) * t) * Math.sin(2 * Math.PI * (i + 1) * hz * t + i * i), 0),
            weakFundamental: (hz, t) => [...Array(8)].reduce((sum, _, i) => sum
              + (i ? 0.1 / (i + 1) : 0.002) * Math.sin(2 * Math.PI * (i + 1) * hz * t + i), 0),
          };
          const worst = {};
          for (const rate of [44100, 48000])
            for (const [kind, value] of Object.entries(kinds)) {
              worst[kind + rate] = 0;
              for (let hz = 60; hz <= 1200; hz *= 1.13) {
                const samples = Float32Array.from({ length: Pitch.size }, (_, i) => value(hz, i / rate));
                const found = Pitch.detect(samples, rate);
                const error = found === null ? 1e9 : Math.abs(Pitch.cents(found, hz));
                worst[kind + rate] = Math.max(worst[kind + rate], error);
              }
            }
          return worst;
        })()""")
        check(all(error < 0.3 for error in worst.values()), worst)
        scale = {"period": 1200, "degrees": [{"hz": 300}, {"hz": 400}]}
        near = browser.run(f"Pitch.nearest({json.dumps(scale)}, 799)")
        check(near["index"] == 1 and near["periods"] == 1 and abs(near["cents"] + 2.166) < 0.01, near)
        scale["period"] = None
        near = browser.run(f"Pitch.nearest({json.dumps(scale)}, 799)")
        check(near["index"] == 1 and near["periods"] == 0 and near["cents"] > 1100, near)
        quiet(browser)


def hears_over_its_drone(sectio, folder):
    """Plucked degrees, 3 cents high, over the page's own drone, as loud as they, a half and a quarter of it."""
    file, _ = sheet(sectio, folder, "rast", "--tonic", "D4")
    with Browser() as browser:
        browser.open(file)
        heard = browser.run("""
        (() => {
          const rate = 48000, drone = 146.832;
          const tone = (hz, t, strength, decay) => [...Array(12)].reduce((sum, _, i) => sum + strength / (i + 1)
            * Math.exp(-decay * t * (1 + 0.15 * i)) * Math.sin(2 * Math.PI * (i + 1) * hz * t + i * i), 0);
          const result = { right: 0, wrong: 0, looks: 0, alone: 0 };
          for (const cents of [0, 386, 702])
            for (const strength of [0.1, 0.05, 0.025]) {
              const own = new OwnDrone(drone), player = document.querySelector('.player').player;
              player.drone = { own };
              const hz = 2 * drone * 2 ** ((cents + 3) / 1200);
              for (let look = 0; look < 24; look++) {
                const samples = Float32Array.from({ length: Pitch.size }, (_, i) => {
                  const t = look * 0.06 + i / rate;
                  return tone(drone, t, strength, 0) + (t > 0.8 ? tone(hz, t - 0.8, 0.1, 1) : 0);
                });
                const found = player.heard(samples, rate);
                if (look < 9) result.alone += found !== null;
                if (look < 15) continue;
                result.looks++;
                result.right += found !== null && Math.abs(Pitch.cents(found, hz)) < 5;
                result.wrong += found !== null && Math.abs(Pitch.cents(found, hz)) >= 5;
              }
              player.drone = null;
            }
          return result;
        })()""")
        check(heard["alone"] == 0, heard)
        check(heard["right"] >= 0.9 * heard["looks"] and heard["wrong"] == 0, heard)
        quiet(browser)


# Tones of a number of partials that fall off as 1/n, at a root mean square.
TONE = """
const rate = 48000;
const tone = (out, hz, level, decay, count) => {
  const part = level * Math.SQRT2 / Math.sqrt([...Array(count)].reduce((sum, _, i) => sum + 1 / (i + 1) ** 2, 0));
  for (let n = 1; n <= count; n++)
    for (let i = 0; i < out.length; i++)
      out[i] += part / n * Math.exp(-decay * n * i / rate) * Math.sin(2 * Math.PI * n * hz * i / rate + n * n);
};
"""


def hears_over_a_drone_in_the_room(sectio, folder):
    """Degrees 3 cents high, plucked and bowed, over a drone 12 dB below, of one string or of two, which the page does
    not play itself: each 9 looks of 10 within 2 cents; the drone alone is heard; chords of strings as loud as one
    another show nothing."""
    file, _ = sheet(sectio, folder, "rast", "--tonic", "D4")
    with Browser() as browser:
        browser.open(file)
        heard = browser.run("(() => {" + TONE + """
          const result = { right: 0, wrong: [], looks: 0, chords: [], alone: [] };
          const heard = (...tones) => {
            const samples = new Float32Array(Pitch.size);
            for (const one of tones) tone(samples, ...one);
            return document.querySelector('.player').player.heard(samples, rate);
          };
          const root = 293.665, off = c => root * 2 ** (c / 1200);
          for (const drones of [[-1200], [-702], [-1200, -500]])
            for (const cents of [0, 182, 356, 498, 702, 884, 1049, 1200])
              for (const decay of [0, 0.5]) {
                const drone = drones.map(c => [off(c - 2), 0.025 / Math.sqrt(drones.length), 0, 12]);
                const found = heard([off(cents + 3), 0.1, decay, 12], ...drone);
                const near = found && Math.abs(Pitch.cents(found, off(cents + 3))) < 2;
                result.looks++;
                if (near) result.right++; else if (found) result.wrong.push([drones, cents, decay, found]);
              }
          result.alone = Pitch.cents(heard([off(-1200), 0.025, 0, 12]), off(-1200));
          for (const chord of [[0, 702], [0, 498], [0, 386], [0, 204], [0, 884], [0, 386, 702], [0, 316, 702]])
            for (const strength of [0.8, 1, 1.2]) {
              const found = heard(...chord.map((c, i) => [off(c), i ? 0.1 : 0.1 * strength, 0, 12]));
              if (found) result.chords.push([chord, strength, found]);
            }
          return result;
        })()""")
        check(heard["right"] >= 0.9 * heard["looks"] and not heard["wrong"], heard)
        check(abs(heard["alone"]) < 0.3 and not heard["chords"], heard)
        quiet(browser)


# What the microphone is given: seconds, and Hz or None or "noise".
SECONDS = 1.4


def programme(degrees):
    """Tones at known cents off degrees in their own and in far octaves, 60 to 1,200 Hz, and noise. It ends in silence:
    the browser goes on with the last hundredth of a second again and again, which of noise is a tone of 100 Hz."""
    hz = [float(degree["hz"]) for degree in degrees]
    wanted = [(0, -2, 12.0), (2, 0, -7.4), (4, 1, 0.0), (6, 1, 3.6), (1, -1, -24.0)]
    tones = [(index, off, hz[index] * 2 ** (octave + off / 1200)) for index, octave, off in wanted]
    return [(None, 0, "silence")] + tones + [(None, 0, "noise"), (None, 0, "silence")]


def write_microphone(file, parts):
    noise = random.Random(1)
    samples = []
    for _, _, sound in parts:
        for i in range(int(SECONDS * RATE)):
            if sound == "silence":
                samples.append(0)
            elif sound == "noise":
                samples.append(int(8000 * noise.uniform(-1, 1)))
            else:
                turn = 2 * math.pi * sound * i / RATE
                samples.append(int(6000 * (math.sin(turn) + 0.5 * math.sin(2 * turn) + 0.3 * math.sin(3 * turn))))
    with wave.open(str(file), "wb") as out:
        out.setparams((1, 2, RATE, 0, "NONE", ""))
        out.writeframes(struct.pack(f"<{len(samples)}h", *samples))


def hears(sectio, folder):
    """The page's own microphone, fed with a sound file by the browser."""
    file, answer = sheet(sectio, folder, "rast", "--tonic", "D4")
    parts = programme(answer["degrees"])
    sound = Path(folder) / "microphone.wav"
    write_microphone(sound, parts)
    with Browser("--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream",
                 f"--use-file-for-fake-audio-capture={sound}%noloop") as browser:
        browser.open(file)
        browser.run("""
        window.heard = [];
        (async () => {
          const player = document.querySelector('.player').player;
          await player.toggleListening();
          setInterval(() => heard.push([performance.now(), player.find('[data-name]').textContent,
            player.find('[data-cents]').textContent, player.find('[data-hint]').textContent,
            [...player.root.querySelectorAll('[data-heard]')].map(x => x.textContent)]), 50);
        })()""")
        time.sleep(SECONDS * (len(parts) + 1))
        heard = browser.run("heard")
        quiet(browser)
    check_heard(heard, parts, answer["degrees"])


def check_heard(heard, parts, degrees):
    """Readings in order: what is shown twice or more must be the wanted ones and no others."""
    shown = []
    for _, name, text, hint, marks in heard:
        if text not in ("", "–"):
            value = float(text.replace(" cents", "").replace("−", "-"))
            if not shown or shown[-1][0] != name:
                shown.append((name, []))
            shown[-1][1].append(value)
            check(sum(1 for mark in marks if mark) == 1, "marks in the table", marks)
    tones = [(index, off) for index, off, _ in parts if index is not None]
    check(len(shown) == len(tones), "what was shown", shown)
    for (name, values), (index, off) in zip(shown, tones):
        degree = degrees[index]
        check(name == f"{index + 1} {degree['name']}", name, degree["name"])
        check(len(values) >= 8, "too few readings", name, values)
        late = sorted(values)[len(values) // 2]
        check(abs(late - off) <= 1, name, "off by", off, "shown", values)


def works_by_keys(sectio, folder):
    """From the keyboard alone: reached by Tab, played by digits and arrows."""
    file, _ = sheet(sectio, folder, "rast", "--tonic", "D4")
    with Browser() as browser:
        browser.open(file)
        browser.run("""
        window.played = [];
        const player = document.querySelector('.player').player, pluck = player.pluck;
        player.pluck = function (hz) { played.push(hz); pluck.call(this, hz); }""")
        focus = "document.activeElement.textContent"
        browser.press("3", "Digit3", 51, "3")
        check(browser.run("played") == [], "keys outside the player play")
        browser.press("Tab", number=9)
        check(browser.run(focus).startswith("Drone"), browser.run(focus))
        browser.press("Enter", number=13, text="\r")
        check(browser.run("player.drone !== null"), "the drone does not sound")
        for key, code, number, text in (("3", "Digit3", 51, "3"), ("ArrowDown", None, 40, ""),
                                        ("ArrowLeft", None, 37, ""), ("ArrowRight", None, 39, ""),
                                        ("ArrowUp", None, 38, "")):
            browser.press(key, code, number, text)
        played = browser.run("played")
        scale = browser.run("player.scale")
        third, fourth = scale["degrees"][2], scale["degrees"][3]
        wanted = [third["hz"], fourth["hz"], fourth["below"]["hz"], fourth["above"]["hz"], third["hz"]]
        check(played == wanted, played, wanted)
        check(browser.run(focus).startswith("3"), "the focus is on", browser.run(focus))
        browser.press("Escape", number=27)
        check(browser.run("player.drone === null"), "Escape does not stop the drone")
        quiet(browser)


def sets_its_page(sectio, folder):
    """Light, dark, on a phone and on paper: nothing wider than the page, no player on paper, and no
    address that the page may load."""
    file, _ = sheet(sectio, folder, "rast", "--tonic", "D4")
    check("http" not in file.read_text().replace("http-equiv", "").replace("http://www.w3.org", ""),
          "the page names an address")
    with Browser() as browser:
        seen = set()
        for width, height, dark, media in ((1000, 900, False, "screen"), (1000, 900, True, "screen"),
                                           (360, 740, False, "screen"), (800, 1100, False, "print")):
            browser.look(width, height, dark, media)
            browser.open(file)
            check(browser.run("document.documentElement.scrollWidth") <= width, "too wide at", width)
            seen.add(browser.run("getComputedStyle(document.body).backgroundColor"))
            player = browser.run("getComputedStyle(document.querySelector('.player')).display")
            check((player == "none") == (media == "print"), "player on", media)
        check(len(seen) == 2, "dark and light", seen)
        quiet(browser)


def fits_a_phone(sectio, folder):
    """On a phone: what is cut says so, buttons fit a finger (44 px, as W3C's WCAG 2.2, 2.5.5 has it), signs stand
    as tall as letters, the upper tonic plays, the tuner's key is named, and an old reading looks old."""
    file, answer = sheet(sectio, folder, "rast", "--tonic", "D4")
    with Browser() as browser:
        browser.look(390, 844)
        browser.open(file)
        cut = browser.run("""[...document.querySelectorAll('.wide')].map(box => [box.scrollWidth > box.clientWidth + 1,
          getComputedStyle(box, '::before').content.includes('Wider than the screen')])""")
        check(any(wider for wider, _ in cut) and all(wider == said for wider, said in cut), "cut", cut)
        small = browser.run("""[...document.querySelectorAll('.player button')].map(b => [b.textContent,
          b.getBoundingClientRect()]).filter(([, r]) => r.width < 44 || r.height < 44).map(([t]) => t)""")
        check(not small, "small buttons", small)
        plain = browser.run("""[...document.querySelectorAll('.player button')].filter(b => /[♯♭]/.test(
          [...b.childNodes].filter(n => n.nodeType === 3).map(n => n.data).join())).map(b => b.textContent)""")
        check(not plain, "signs in the font of letters", plain)
        browser.run("""window.played = []; const player = document.querySelector('.player').player;
          player.pluck = hz => played.push(hz);
          [...document.querySelectorAll(".player [data-play='0']")].at(-1).click()""")
        tonic = float(answer["tonic_hz"])
        check(abs(cents(browser.run("played[0]"), 2 * tonic)) < 1e-3, "upper tonic", browser.run("played"))
        shown = browser.run("""(() => { player.find('[data-reading]').hidden = false;
          player.show(player.scale.degrees[3].hz); const key = player.find('[data-key]').textContent;
          const mark = player.row(3).querySelector('[data-heard]'), fresh = mark.textContent;
          player.show(null); return [key, fresh, mark.textContent, getComputedStyle(mark).fontStyle]; })()""")
        off = float(answer["degrees"][3]["deviation_cents"])
        check(shown[0].startswith("= G4") and shown[0].replace("−", "-").endswith(f"{off:+.1f}"), shown, off)
        check(shown[1:] == ["heard, 0 cents", "last heard, 0 cents", "italic"], shown)
        quiet(browser)


AXE = "axe-core@4.14.1"  # Deque Systems, MPL 2.0; fetched for this test alone


def axe(folder):
    """The general accessibility checker as a text, from npm; the case is skipped without it."""
    file = Path(folder) / "package" / "axe.min.js"
    if not file.exists():
        try:
            got = subprocess.run(["npm", "pack", "--silent", AXE], cwd=folder, timeout=60, check=True,
                                 capture_output=True, text=True)
            subprocess.run(["tar", "xzf", got.stdout.split()[-1]], cwd=folder, check=True)
        except (OSError, subprocess.SubprocessError):
            print("SKIPPED: npm does not bring axe-core")
            sys.exit(0)
    return file.read_text()


def is_accessible(sectio, folder):
    """No violation that a general checker finds: in light, dark, on a phone and on paper, while
    nothing is heard and while a degree is."""
    checker = axe(folder)
    hear = """(() => {
      const player = document.querySelector('.player').player;
      player.find('[data-reading]').hidden = false;
      player.show(player.scale.degrees[1].hz * 1.003);
      player.row(2).classList.add('selected');
    })()"""
    found = """axe.run(document).then(result =>
      [result.passes.length, result.violations.map(v => [v.id, v.nodes.map(n => n.html.slice(0, 200))])])"""
    phone = (360, False, "screen")
    views = (phone, (360, True, "screen"), (1000, False, "screen"), (1000, True, "screen"), (794, False, "print"))
    for pages, shown in (((), views), (("--pages", "all"), (phone,))):
        file, _ = sheet(sectio, folder, "rast", "--tonic", "D4", *pages)
        with Browser() as browser:
            for width, dark, media in shown:
                browser.look(width, 900, dark, media)
                browser.open(file)
                browser.run(checker + "; 0")
                for state in ("; 0", hear):
                    browser.run(state)
                    passes, violations = browser.run(found)
                    check(passes > 20, "the checker has looked at little", passes)
                    check(not violations, width, "dark" if dark else "light", media, violations)
            quiet(browser)


def chooses_nearest(sectio, folder):
    """The nearest degree in any octave, beside a search through all of them."""
    file, _ = sheet(sectio, folder, "rast", "--tonic", "D4")
    dice = random.Random(5)
    with Browser() as browser:
        browser.open(file)
        for period in (1200, 1901.955, None):
            inside = sorted(dice.uniform(0, period or 2400) for _ in range(7))
            degrees = [{"hz": 200 * 2 ** (size / 1200)} for size in inside]
            heard = [55 * 2 ** dice.uniform(0, 4.8) for _ in range(300)]
            scale = {"period": period, "degrees": degrees}
            chosen = browser.run(f"{json.dumps(heard)}.map(hz => Pitch.nearest({json.dumps(scale)}, hz))")
            for hz, near in zip(heard, chosen):
                wanted = min(((cents(hz, degree["hz"]) - n * (period or 0), index, n)
                              for index, degree in enumerate(degrees)
                              for n in (range(-6, 7) if period else [0])), key=lambda found: abs(found[0]))
                check(abs(near["cents"] - wanted[0]) < 1e-6, hz, near, wanted)
                check((near["index"], near["periods"]) == wanted[1:], hz, near, wanted)
        quiet(browser)


CASES = {case.__name__: case for case in (plays_exactly, detects_pitch, hears_over_its_drone, hears_over_a_drone_in_the_room, chooses_nearest, hears, works_by_keys,
                                       sets_its_page, fits_a_phone, is_accessible)}

if __name__ == "__main__":
    run_case(CASES[sys.argv[3]], sys.argv[1], sys.argv[2])
