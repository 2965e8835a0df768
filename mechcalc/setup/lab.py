"""README's command one: an environment, a working copy of the lessons, and JupyterLab open on one of them.

Only this file decides how JupyterLab is started. What it remembers (settings, open tabs) stays in the working
folder, in ``.mechcalc``, and so do the learner's answers; the user's own JupyterLab settings are neither read nor
written.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

from mechcalc.classroom.logbook import VARIABLE
from mechcalc.setup import lessons
from mechcalc.setup.clone import SetupError, find_clone
from mechcalc.setup.copies import OURS, bring_over
from mechcalc.setup.environment import prepare
from mechcalc.setup.telling import say

NEWS = "@jupyterlab/apputils-extension/notification.jupyterlab-settings"
NO_NEWS = {"fetchNews": "false", "checkForUpdates": False}


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What a user asked for.

    Attributes
    ----------
    lesson : str
        The lesson to open.
    folder : Path
        The working folder.
    port : int or None
        The port; JupyterLab's choice where None.
    browser : bool
        Whether to open a browser; the address is printed in any case.
    start : bool
        Whether to start JupyterLab at all, or only to prepare.
    environment : Path or None
        Where the environment goes; ``.venv`` in the clone where None.
    here : bool
        Use the running Python as it is.
    pinned : bool
        Install the versions that the kit is tested with.
    """

    lesson: str = lessons.FIRST
    folder: Path
    port: int | None = None
    browser: bool = True
    start: bool = True
    environment: Path | None = None
    here: bool = False
    pinned: bool = True


def usual_folder() -> Path:
    """The working folder where none is named: ``mechcalc-lessons`` in the user's home."""
    return Path.home() / "mechcalc-lessons"


def open_lesson(wish: Wish) -> int:
    """Prepare, then become JupyterLab; returns only where there is nothing to start or on Windows."""
    lesson = lessons.find_lesson(wish.lesson)
    python = _python(wish)
    folder = wish.folder.expanduser().absolute()
    for line in bring_over(lessons.source_folder(), folder).lines():
        say(line)
    settle(folder)
    print(f"Your lessons are in {folder}", flush=True)
    if not wish.start:
        return 0
    say("JupyterLab starts; its address follows. End it with Ctrl-C here.")
    return _become(command(python, folder, f"{lesson.name}.ipynb", wish), surroundings(folder))


def _python(wish: Wish) -> Path:
    """The interpreter that will run JupyterLab."""
    clone = find_clone()
    if clone is None or wish.here:
        if find_spec("jupyterlab") is None:
            raise SetupError("this Python has no JupyterLab; in a clone, leave out --here; for an installed kit: "
                             "pip install 'mechcalc[lab]'")
        return Path(sys.executable)
    return prepare(clone, "lab", wish.environment, wish.pinned)


def settle(folder: Path) -> None:
    """Turn JupyterLab's question about news off, for this working folder only; later changes there are kept."""
    settings = folder / OURS / "settings" / NEWS
    if not settings.exists():
        settings.parent.mkdir(parents=True, exist_ok=True)
        settings.write_text(json.dumps(NO_NEWS) + "\n", encoding="utf-8")


def surroundings(folder: Path) -> dict[str, str]:
    """The variables that JupyterLab is started with."""
    return {**os.environ,
            "JUPYTERLAB_SETTINGS_DIR": str(folder / OURS / "settings"),
            "JUPYTERLAB_WORKSPACES_DIR": str(folder / OURS / "workspaces"),
            "JUPYTER_PREFER_ENV_PATH": "1",
            VARIABLE: str(folder / OURS)}


def command(python: Path, folder: Path, notebook: str, wish: Wish) -> list[str]:
    """JupyterLab's command line: it serves the working folder to this machine only, and opens the notebook."""
    words = [str(python), "-m", "jupyterlab", "--ip=127.0.0.1", f"--ServerApp.root_dir={folder}",
             f"--LabApp.default_url=/lab/tree/{notebook}"]
    if wish.port is not None:
        words += [f"--port={wish.port}", "--ServerApp.port_retries=0"]
    if not wish.browser:
        words.append("--no-browser")
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        words.append("--allow-root")
    return words


def _become(words: list[str], variables: dict[str, str]) -> int:
    sys.stdout.flush()
    if os.name != "nt":
        os.execve(words[0], words, variables)
    with subprocess.Popen(words, env=variables) as server:  # Windows: wait for it; Ctrl-C reaches it directly.
        while True:
            try:
                return server.wait()
            except KeyboardInterrupt:
                continue
