"""A real JupyterLab on a folder of notebooks, driven in a real browser.

Only this file knows how a server is started and ended, and how a notebook is run from outside. The server has its own
configuration, workspace and run-time folders, so that nothing of the user's is read or changed.
"""

from __future__ import annotations

import json
import os
import secrets
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

BROWSER_FLAGS = ["--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update",
                 "--disable-sync", "--disable-gpu"]
RUN_ALL = """async (path) => {
    const app = window.jupyterapp;
    const panel = await app.commands.execute('docmanager:open', {path});
    await panel.context.ready;
    await panel.sessionContext.ready;
    const until = Date.now() + 60000;
    while (!(panel.sessionContext.session?.kernel?.connectionStatus === 'connected'
             && panel.sessionContext.session.kernel.status === 'idle')) {
        if (Date.now() > until) throw new Error('the kernel does not become idle');
        await new Promise((later) => setTimeout(later, 50));
    }
    app.shell.activateById(panel.id);
    return app.commands.execute('notebook:run-all-cells');
}"""
RUN_CODE = """async ([path, code]) => {
    const panel = await window.jupyterapp.commands.execute('docmanager:open', {path});
    const future = panel.sessionContext.session.kernel.requestExecute({code, store_history: false});
    let text = '';
    future.onIOPub = (message) => {
        if (message.header.msg_type === 'stream') text += message.content.text;
        if (message.header.msg_type === 'error') text += message.content.evalue;
    };
    await future.done;
    return text;
}"""


def browser_flags() -> list[str]:
    """Flags for the system's Chromium; as root it runs only without its sandbox."""
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    return [*BROWSER_FLAGS, *(["--no-sandbox"] if root else [])]


class Lab:
    """A JupyterLab server on `root`.

    Parameters
    ----------
    root : Path
        The folder whose notebooks it serves.
    own : Path
        An empty folder for everything it writes elsewhere.
    """

    def __init__(self, root: Path, own: Path) -> None:
        self.root = root
        self.token = secrets.token_hex(16)
        self.port = _free_port()
        settings = own / "settings" / "@jupyterlab" / "apputils-extension"
        settings.mkdir(parents=True)
        (settings / "notification.jupyterlab-settings").write_text('{"fetchNews":"false","checkForUpdates":false}')
        folders = {name: str(own / name) for name in ("config", "data", "runtime", "workspaces", "ipython")}
        environment = {
            **os.environ, "JUPYTER_CONFIG_DIR": folders["config"], "JUPYTER_DATA_DIR": folders["data"],
            "JUPYTER_RUNTIME_DIR": folders["runtime"], "JUPYTERLAB_WORKSPACES_DIR": folders["workspaces"],
            "JUPYTERLAB_SETTINGS_DIR": str(own / "settings"), "IPYTHONDIR": folders["ipython"]}
        environment.pop("MECHCALC_PROGRESS", None)  # answers are kept where a folder for them is beside the notebook
        self.log = own / "server.log"
        with self.log.open("w") as log:
            self.process = subprocess.Popen(
                [sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root", "--ip=127.0.0.1",
                 f"--port={self.port}", f"--IdentityProvider.token={self.token}", f"--ServerApp.root_dir={root}",
                 "--expose-app-in-browser"], env=environment, stdout=log, stderr=subprocess.STDOUT)

    def wait(self, seconds: float = 60) -> None:
        """Until the server answers."""
        until = time.monotonic() + seconds
        while time.monotonic() < until:
            if self.process.poll() is not None:
                raise RuntimeError(f"JupyterLab has ended:\n{self.log.read_text()[-2000:]}")
            try:
                with urllib.request.urlopen(self.address("api/status"), timeout=5):
                    return
            except OSError:
                time.sleep(0.1)
        raise RuntimeError(f"JupyterLab does not answer:\n{self.log.read_text()[-2000:]}")

    def address(self, path: str) -> str:
        joint = "&" if "?" in path else "?"
        return f"http://127.0.0.1:{self.port}/{path}{joint}token={self.token}"

    def stop(self) -> None:
        """End the server and the kernels it started."""
        self.process.terminate()
        try:
            self.process.wait(20)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait(10)

    def write(self, name: str, cells: Sequence[str]) -> str:
        """A notebook of code cells; returns its path for `open`."""
        data: dict[str, Any] = {"nbformat": 4, "nbformat_minor": 5, "metadata": {
            "kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}, "cells": [
                {"id": f"cell-{number}", "cell_type": "code", "metadata": {}, "execution_count": None, "outputs": [],
                 "source": source} for number, source in enumerate(cells)]}
        (self.root / name).write_text(json.dumps(data), encoding="utf-8")
        return name

    def open(self, page: Page, name: str) -> None:
        """Open a notebook and run it from top to bottom; returns when its cells have run."""
        page.goto(self.address("lab?reset"))
        page.wait_for_function("window.jupyterapp !== undefined", timeout=60_000)
        page.evaluate("window.jupyterapp.restored")
        page.evaluate(RUN_ALL, name)

    def ask(self, page: Page, name: str, code: str) -> str:
        """Run `code` in the notebook's kernel, outside its cells; returns what it prints."""
        return str(page.evaluate(RUN_CODE, [name, code])).strip()


def _free_port() -> int:
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        return int(listener.getsockname()[1])
