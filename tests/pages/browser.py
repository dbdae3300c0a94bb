"""A headless Chromium spoken to over its DevTools pipe; needs nothing but the browser.

Messages are JSON texts that end in a zero byte, on file descriptors 3 (to the browser) and 4 (from it).
"""

import base64
import json
import os
import shutil
import subprocess
import tempfile
import time
from pathlib import Path


class Browser:
    """One browser with one page; every console message, exception and request is kept."""

    def __init__(self):
        program = next((found for name in ("chromium", "chromium-browser", "google-chrome") if (found := shutil.which(name))), None)
        if program is None:
            raise SystemExit("chromium is not installed: apt-get install chromium")
        self.profile = tempfile.mkdtemp(prefix="pages-")
        to_browser, self.to = os.pipe()
        self.of, from_browser = os.pipe()

        def wire():
            # Out of the way first: an end may lie on 3 or 4 itself.
            ends = os.dup(to_browser), os.dup(from_browser)
            os.dup2(ends[0], 3)
            os.dup2(ends[1], 4)

        arguments = ["--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--remote-debugging-pipe",
                     "--disable-dev-shm-usage", f"--user-data-dir={self.profile}", "about:blank"]
        self.process = subprocess.Popen([program, *arguments], preexec_fn=wire, close_fds=False,
                                        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(to_browser)
        os.close(from_browser)
        self.buffer = b""
        self.number = 0
        self.events = []
        targets = self.call("Target.getTargets", session=None)["targetInfos"]
        page = next(target["targetId"] for target in targets if target["type"] == "page")
        self.session = self.call("Target.attachToTarget", session=None, targetId=page, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.call(f"{domain}.enable")

    def read(self):
        while b"\0" not in self.buffer:
            piece = os.read(self.of, 1 << 20)
            if not piece:
                raise SystemExit("the browser ended")
            self.buffer += piece
        message, self.buffer = self.buffer.split(b"\0", 1)
        return json.loads(message)

    def call(self, method, session="", **parameters):
        self.number += 1
        message = {"id": self.number, "method": method, "params": parameters}
        if session is not None:
            message["sessionId"] = session or self.session
        os.write(self.to, json.dumps(message).encode() + b"\0") if len(json.dumps(message)) < 60000 else self.write_all(message)
        while True:
            answer = self.read()
            if answer.get("id") == self.number:
                if "error" in answer:
                    raise SystemExit(f"{method}: {answer['error']}")
                return answer["result"]
            self.events.append(answer)

    def write_all(self, message):
        rest = json.dumps(message).encode() + b"\0"
        while rest:
            rest = rest[os.write(self.to, rest):]

    def open(self, path):
        """Opens a file and waits until it is loaded."""
        self.events.clear()
        self.call("Page.navigate", url=Path(path).resolve().as_uri())
        deadline = time.monotonic() + 60
        while not any(event.get("method") == "Page.loadEventFired" for event in self.events):
            if time.monotonic() > deadline:
                raise SystemExit(f"{path} did not load in 60 s")
            self.events.append(self.read())
        self.run("new Promise(done => setTimeout(done, 300))")

    def run(self, script):
        """The value of an expression on the page."""
        result = self.call("Runtime.evaluate", expression=script, awaitPromise=True, returnByValue=True)
        if "exceptionDetails" in result:
            raise SystemExit(f"on the page: {json.dumps(result['exceptionDetails'])[:2000]}")
        return result["result"].get("value")

    def media(self, **features):
        """Pretends the media features given, such as prefers_color_scheme="dark"."""
        values = [{"name": name.replace("_", "-"), "value": value} for name, value in features.items()]
        self.call("Emulation.setEmulatedMedia", media="", features=values)

    def screen(self, width=None, height=844):
        """A phone of so many CSS pixels; without a width the screen that it was."""
        if width is None:
            self.call("Emulation.clearDeviceMetricsOverride")
        else:
            self.call("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=2, mobile=True)

    def press(self, key, code=0):
        for kind in ("keyDown", "keyUp"):
            self.call("Input.dispatchKeyEvent", type=kind, key=key, code=key, windowsVirtualKeyCode=code,
                      **({"text": "\r"} if key == "Enter" and kind == "keyDown" else {}))

    def pdf(self, width, height):
        """The printed page, inches."""
        printed = self.call("Page.printToPDF", paperWidth=width, paperHeight=height, printBackground=False,
                            preferCSSPageSize=False)
        return base64.b64decode(printed["data"])

    def complaints(self):
        """Console errors and exceptions since the page was opened."""
        found = []
        for event in self.events:
            method, parameters = event.get("method"), event.get("params", {})
            if method == "Runtime.exceptionThrown":
                found.append(json.dumps(parameters["exceptionDetails"])[:500])
            if method == "Runtime.consoleAPICalled" and parameters["type"] in ("error", "assert", "warning"):
                found.append(json.dumps(parameters["args"])[:500])
            if method == "Log.entryAdded" and parameters["entry"]["level"] in ("error", "warning"):
                found.append(parameters["entry"]["text"])
        return found

    def requests(self):
        """Addresses asked for since the page was opened, the page itself left out."""
        asked = [event["params"]["request"]["url"] for event in self.events
                 if event.get("method") == "Network.requestWillBeSent"]
        return [address for address in asked[1:] if not address.startswith("data:")]

    def close(self):
        self.process.terminate()
        self.process.wait(timeout=20)
        shutil.rmtree(self.profile, ignore_errors=True)
