"""Debian's chromium, driven through a pipe by its own protocol (Chrome DevTools Protocol); the
standard library is enough."""

import base64
import fcntl
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time

SKIP = "SKIPPED: chromium is not installed"


class BrowserGone(RuntimeError):
    """The browser itself has ended."""


class Browser:
    """One page in a browser without a window. `messages` collects what its console says."""

    def __init__(self, *flags):
        program = shutil.which("chromium")
        if not program:
            print(SKIP)
            sys.exit(0)
        self.profile = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        self.messages = []
        self.answers = {}
        self.count = 0
        self.session = None
        self._start([program, "--headless=new", "--no-sandbox", "--disable-gpu", "--mute-audio",
                     "--no-first-run", "--disable-background-networking", "--disable-extensions",
                     "--disable-component-update", "--disable-dev-shm-usage",
                     "--autoplay-policy=no-user-gesture-required",
                     f"--user-data-dir={self.profile.name}", "--remote-debugging-pipe", *flags])
        self._attach()

    def _start(self, command):
        to_read, self.to_browser = os.pipe()
        from_browser, to_write = os.pipe()
        keep = [to_read, to_write]

        def wires():  # the browser reads from 3 and writes to 4
            high = [fcntl.fcntl(fd, fcntl.F_DUPFD, 10) for fd in keep]
            for i, fd in enumerate(high):
                os.dup2(fd, 3 + i)

        self.log = tempfile.TemporaryFile()
        self.process = subprocess.Popen(command, preexec_fn=wires, close_fds=False,
                                        stdout=subprocess.DEVNULL, stderr=self.log)
        os.close(to_read)
        os.close(to_write)
        self.from_browser = os.fdopen(from_browser, "rb")
        self.waiting = b""

    def _attach(self):
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self.session = self.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log"):
            self.call(domain + ".enable")

    def __enter__(self):
        return self

    def __exit__(self, *_):
        os.close(self.to_browser)  # the browser ends when its pipe does
        try:
            self.process.wait(10)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
        self.from_browser.close()
        self.log.close()
        self.profile.cleanup()

    def _next(self):
        while b"\0" not in self.waiting:
            block = self.from_browser.read1(1 << 16)
            if not block:
                raise self._gone()
            self.waiting += block
        message, self.waiting = self.waiting.split(b"\0", 1)
        return json.loads(message)

    def _gone(self):
        try:
            status = self.process.wait(10)
        except subprocess.TimeoutExpired:
            self.process.kill()
            status = self.process.wait()
        self.log.seek(0)
        said = self.log.read()[-2000:].decode(errors="replace")
        return BrowserGone(f"the browser has gone: status {status}, it said:\n{said}")

    def _note(self, message):
        method, parameters = message.get("method"), message.get("params", {})
        if method == "Runtime.consoleAPICalled" and parameters["type"] in ("error", "warning"):
            self.messages.append(str(parameters["args"]))
        elif method == "Runtime.exceptionThrown":
            self.messages.append(str(parameters["exceptionDetails"]))
        elif method == "Log.entryAdded" and parameters["entry"]["level"] in ("error", "warning"):
            self.messages.append(str(parameters["entry"]))

    def call(self, method, **parameters):
        """The result of a command of the protocol."""
        self.count += 1
        request = {"id": self.count, "method": method, "params": parameters}
        if self.session:
            request["sessionId"] = self.session
        try:
            os.write(self.to_browser, json.dumps(request).encode() + b"\0")
        except BrokenPipeError:
            raise self._gone() from None
        while True:
            message = self._next()
            self._note(message)
            if message.get("id") == self.count:
                if "error" in message:
                    raise RuntimeError(f"{method}: {message['error']}")
                return message["result"]

    def wait_for(self, method):
        while True:
            message = self._next()
            self._note(message)
            if message.get("method") == method:
                return message["params"]

    def open(self, file):
        """Opens a file from disk."""
        self.visit("file://" + str(file))

    def visit(self, address):
        self.call("Page.navigate", url=address)
        self.wait_for("Page.loadEventFired")

    def run(self, script):
        """The value of an expression, or what its promise brings."""
        answer = self.call("Runtime.evaluate", expression=script, awaitPromise=True,
                           returnByValue=True, userGesture=True)
        if "exceptionDetails" in answer:
            raise RuntimeError(json.dumps(answer["exceptionDetails"])[:2000])
        return answer["result"].get("value")

    def until(self, script, seconds=20):
        """Waits for an expression to be true, and gives its value."""
        for _ in range(int(seconds * 50)):
            try:
                value = self.run(script)
            except RuntimeError as error:
                if "execution context" not in str(error):  # there is none before a page is there
                    raise
                value = None
            if value:
                return value
            time.sleep(0.02)
        raise RuntimeError(f"never true: {script}")

    def press(self, key, code=None, number=0, text=""):
        for kind in ("keyDown", "keyUp"):
            self.call("Input.dispatchKeyEvent", type=kind, key=key, code=code or key,
                      windowsVirtualKeyCode=number, text=text if kind == "keyDown" else "")

    def look(self, width, height, dark=False, media="screen", scale=1):
        """Sets what the page is shown on."""
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height,
                  deviceScaleFactor=scale, mobile=width < 600)
        self.call("Emulation.setEmulatedMedia", media=media,
                  features=[{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}])

    def screenshot(self, file):
        shot = self.call("Page.captureScreenshot", captureBeyondViewport=True)
        with open(file, "wb") as out:
            out.write(base64.b64decode(shot["data"]))


def run_case(case, *arguments):
    """Runs a test; once more where the browser itself has ended, whose faults are not ours."""
    try:
        case(*arguments)
    except BrowserGone as gone:
        print(gone, "\nonce more:", flush=True)
        case(*arguments)
    print("ok")
