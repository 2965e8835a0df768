"""A browser without a window, driven from here: Chromium's DevTools protocol over a WebSocket on this computer alone.

Only this file starts a browser that stays, and talks to it. It has a profile of its own, in a temporary folder that
goes when the browser does; it finds no host, and nothing outside this computer can reach it.
"""

from __future__ import annotations

import contextlib
import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from mechcalc.errors import InputError
from mechcalc.sharing.lesson.browser import VARIABLE, browser

PATIENCE = 60.0  # seconds for the browser to start, and for each answer
LEAVE = 10.0     # seconds for it to end by itself
LONGEST = 56     # characters: a socket's path has 104 at most where it has fewest, and the browser adds 45
FLAGS = ("--headless", "--disable-gpu", "--enable-unsafe-swiftshader", "--no-first-run", "--hide-scrollbars",
         "--disable-background-networking", "--disable-component-update", "--disable-sync", "--disable-quic",
         "--disable-extensions", "--disable-breakpad", "--mute-audio", "--host-resolver-rules=MAP * ~NOTFOUND",
         "--remote-debugging-port=0")


class Devtools:
    """A browser with one page open.

    Parameters
    ----------
    purpose : str
        What wants it, for the words of an error: ``"a solid film"``.

    Raises
    ------
    InputError
        There is no browser, it does not start, or the package that talks to it is missing.
    """

    def __init__(self, purpose: str) -> None:
        try:
            import websocket
        except ModuleNotFoundError:
            raise InputError(f"{purpose} needs the package websocket-client, which this Python does not have: install "
                             "mechcalc[film]") from None
        found = browser()
        if found is None:
            raise InputError(f"{purpose} is drawn by a browser of the Chromium family, and none was found: name one in "
                             f"{VARIABLE}")
        self._found, self._number, self._session = found, 0, ""
        self._socket: Any = None
        self._process: subprocess.Popen[bytes] | None = None
        self.folder = Path(tempfile.mkdtemp(prefix="mechcalc-"))
        try:
            self._start(websocket)
        except BaseException:
            self.close()
            raise

    def _start(self, websocket: Any) -> None:
        profile = self.folder / "profile"
        command = [self._found, *FLAGS, f"--user-data-dir={profile}", "about:blank"]
        if sys.platform == "linux" and os.geteuid() == 0:
            command.insert(1, "--no-sandbox")  # as root a browser has no sandbox; it opens only the kit's own pages
        # In a session of its own, so that Ctrl-C ends it through `close`, and not before what it is asked is answered.
        self._process = subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                                         stderr=subprocess.DEVNULL, start_new_session=True,
                                         env={**os.environ, **self._own()})
        port, path = self._told(profile / "DevToolsActivePort")
        try:
            self._socket = websocket.create_connection(
                f"ws://127.0.0.1:{port}{path}", timeout=PATIENCE, suppress_origin=True, http_no_proxy=["127.0.0.1"],
                enable_multithread=False)
        except (OSError, websocket.WebSocketException) as error:
            raise InputError(f"{self._found} has started and does not answer: {error}") from None
        self._lost = (OSError, websocket.WebSocketException)
        page = self.ask("Target.createTarget", url="about:blank")["targetId"]
        self._session = self.ask("Target.attachToTarget", targetId=page, flatten=True)["sessionId"]

    def _own(self) -> dict[str, str]:
        """What is temporary to the browser goes with it, where the folder's name leaves room for a socket's."""
        return {"TMPDIR": str(self.folder)} if len(str(self.folder)) <= LONGEST else {}

    def _told(self, file: Path) -> tuple[int, str]:
        """The port and the path that the browser writes down once it listens."""
        assert self._process is not None
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until:
            with contextlib.suppress(OSError):
                port, newline, path = file.read_text(encoding="utf-8").partition("\n")
                if newline and path.strip():
                    return int(port), path.strip()
            if self._process.poll() is not None:
                raise InputError(f"{self._found} has ended before a page was open in it")
            time.sleep(0.02)
        raise InputError(f"{self._found} has not started within {PATIENCE:.0f} seconds")

    def ask(self, method: str, **given: Any) -> dict[str, Any]:
        """What the browser answers to a command of its protocol.

        Raises
        ------
        InputError
            It refuses, or does not answer any more.
        """
        self._number += 1
        message = {"id": self._number, "method": method, "params": given}
        if self._session:
            message["sessionId"] = self._session
        try:
            self._socket.send(json.dumps(message))
            while (answer := json.loads(self._socket.recv())).get("id") != self._number:
                pass  # something that happened in the page, and nobody asked for
        except (*self._lost, ValueError) as error:
            raise InputError(f"the browser does not answer any more: {error or type(error).__name__}") from None
        if "error" in answer:
            raise InputError(f"the browser refuses {method}: {answer['error'].get('message')}")
        result: dict[str, Any] = answer["result"]
        return result

    def work_out(self, script: str) -> Any:
        """The value of a JavaScript expression in the page, as plain data; a promise is waited for.

        Raises
        ------
        InputError
            It throws.
        """
        told = self.ask("Runtime.evaluate", expression=script, awaitPromise=True, returnByValue=True)
        if "exceptionDetails" in told:
            thrown = told["exceptionDetails"]
            words = thrown.get("exception", {}).get("description") or thrown.get("text", "")
            raise InputError(f"the page cannot go on: {words.splitlines()[0] if words else 'it does not say why'}")
        return told["result"].get("value")

    def open(self, page: str, width: int, height: int, fine: float) -> None:
        """Show an HTML page, `width` by `height` of its own pixels, each drawn `fine` times as fine."""
        self.ask("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=fine, mobile=False)
        file = self.folder / "page.html"
        file.write_text(page, encoding="utf-8", newline="\n")
        self.ask("Page.navigate", url=file.as_uri())

    def close(self) -> None:
        """End the browser, and remove all that it wrote."""
        if self._socket is not None:
            with contextlib.suppress(Exception):
                self._socket.settimeout(2)
                self._socket.send(json.dumps({"id": 0, "method": "Browser.close"}))
        if self._process is not None:
            with contextlib.suppress(subprocess.TimeoutExpired):
                self._process.wait(LEAVE if self._socket is not None else 0)
            _ended(self._process)
        if self._socket is not None:
            with contextlib.suppress(Exception):
                self._socket.shutdown()
        shutil.rmtree(self.folder, ignore_errors=True)
        self._process = self._socket = None


def _ended(process: subprocess.Popen[bytes]) -> None:
    """End whatever is left of a browser. Its helpers, which may outlive it and write, are its group."""
    if sys.platform == "win32":
        process.kill()
        process.wait()
        return
    until = time.monotonic() + LEAVE
    with contextlib.suppress(ProcessLookupError, PermissionError):
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()
        while time.monotonic() < until:
            os.killpg(process.pid, 0)
            time.sleep(0.01)
