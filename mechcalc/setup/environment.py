"""The kit's own Python environment: made, brought up to date, and made again where that was broken off.

Only this file decides whether an environment can be used. Beside the environment's own files it keeps a small note
(`mechcalc.json`) that says ``making`` from before the first file until after the last check, and then ``ready``.
An environment that still says ``making`` was interrupted, and nobody can say which of its packages are whole: it is
emptied and made again. One without a note was made by somebody else, and is left alone.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import subprocess
import sys
import venv
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from mechcalc.setup.clone import Clone, SetupError
from mechcalc.setup.telling import Progress, say

NOTE = "mechcalc.json"
LOG = "mechcalc-install.log"
PROVES = {"lab": "import jupyterlab, anywidget, ipywidgets, matplotlib, sympy, mechcalc",
          "test": "import hatchling, hypothesis, mypy, nbval, playwright, pytest, xdist, mechcalc"}


@dataclass(frozen=True, slots=True)
class Environment:
    """A folder that holds, or will hold, an environment.

    Attributes
    ----------
    folder : Path
        Its top folder.
    """

    folder: Path

    @property
    def python(self) -> Path:
        """Its interpreter."""
        return self.folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")

    def read_note(self) -> dict[str, Any] | None:
        """What the note says; ``{"state": "making"}`` where it is damaged, None where there is none."""
        try:
            note = json.loads((self.folder / NOTE).read_text(encoding="utf-8"))
        except FileNotFoundError:
            return None
        except (OSError, ValueError):
            return {"state": "making"}
        return note if isinstance(note, dict) else {"state": "making"}

    def write_note(self, **note: Any) -> None:
        """Put the note down in one step."""
        self.folder.mkdir(parents=True, exist_ok=True)
        new = self.folder / f"{NOTE}.new"
        new.write_text(json.dumps(note, indent=1) + "\n", encoding="utf-8")
        os.replace(new, self.folder / NOTE)

    def runs(self) -> bool:
        """Whether its interpreter starts: it may have been moved, or its Python been taken away."""
        try:
            return subprocess.run([self.python, "-I", "-c", "pass"], capture_output=True, check=False).returncode == 0
        except OSError:
            return False


def wanted(clone: Clone, pinned: bool) -> str:
    """A digest of all that an environment depends on; another one means that it is out of date."""
    digest = hashlib.sha256(str(clone.root).encode())
    for path in (clone.root / "pyproject.toml", *([clone.constraints] if pinned else [])):
        digest.update(b"\0" + path.read_bytes())
    return digest.hexdigest()


def prepare(clone: Clone, extra: str, folder: Path | None = None, pinned: bool = True) -> Path:
    """Make sure that an environment stands, and return its interpreter.

    Parameters
    ----------
    clone : Clone
        The project that is installed into it, in place, so that a pull is enough to update the kit itself.
    extra : str
        ``"lab"`` for lessons or ``"test"`` for tests; what was asked for earlier stays in.
    folder : Path, optional
        Where; ``.venv`` in the clone unless given.
    pinned : bool
        With the versions of `.ci/constraints.txt`, or with the newest ones that the project allows.

    Raises
    ------
    SetupError
        The folder holds something else, Python lacks a module, or the installer failed (with its last words).
    """
    environment = Environment(folder or clone.environment)
    with _alone(environment.folder) as lock:
        note = environment.read_note()
        digest = wanted(clone, pinned)
        extras = sorted({extra, *(note or {}).get("extras", ())})
        if note and note.get("state") == "ready" and environment.runs():
            if note.get("wanted") == digest and extra in note.get("extras", ()):
                return environment.python
            say("Bringing the environment up to date.")
            environment.write_note(state="making", extras=extras)
        else:
            _make(environment, note, extras)
        _install(clone, environment, extras, pinned, lock)
        _prove(environment, extra)
        environment.write_note(state="ready", extras=extras, wanted=digest, python=sys.version.split()[0])
    return environment.python


@contextlib.contextmanager
def _alone(folder: Path) -> Iterator[tuple[int, ...]]:
    """Hold a lock, so that two set-ups do not work on one environment at the same time.

    Yields its file descriptor for the installer to inherit: an installer that outlives us still holds the lock.
    """
    try:
        import fcntl
    except ImportError:  # Windows: no such lock; a second set-up at the same time is the user's own risk.
        yield ()
        return
    folder.parent.mkdir(parents=True, exist_ok=True)
    with (folder.parent / f"{folder.name}.lock").open("w") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            say("Another set-up is at work on this environment; waiting for it.")
            fcntl.flock(lock, fcntl.LOCK_EX)
        yield (lock.fileno(),)


def _make(environment: Environment, note: dict[str, Any] | None, extras: list[str]) -> None:
    """An empty environment, in place of one of our own that cannot be used."""
    folder = environment.folder
    if note is None and _holds_something(folder):
        raise SetupError(f"{folder} was not made by mechcalc and is left alone: choose another folder with "
                         f"--environment, or use the Python you are running with --here")
    if find_spec("ensurepip") is None:
        raise SetupError("this Python cannot make environments, because its module 'ensurepip' is missing; on Debian "
                         "and Ubuntu it comes with: apt install python3-venv")
    say(f"The environment in {folder} was not finished; making it again." if note else
        f"Making an environment in {folder}.")
    environment.write_note(state="making", extras=extras)
    if note:
        _empty(folder)
    try:
        venv.EnvBuilder(with_pip=True, symlinks=os.name != "nt").create(folder)
    except subprocess.CalledProcessError as error:
        raise SetupError(f"the environment could not be made: {error}") from None


def _holds_something(folder: Path) -> bool:
    """Whether there is anything that is not ours; a note that was cut off while it was written is."""
    if not folder.is_dir():
        return folder.exists()
    return any(path.name != f"{NOTE}.new" for path in folder.iterdir())


def _empty(folder: Path) -> None:
    """Take away everything but the note."""
    import shutil
    for path in folder.iterdir():
        if path.name == NOTE:
            continue
        if path.is_dir() and not path.is_symlink():
            shutil.rmtree(path)
        else:
            path.unlink()


def _install(clone: Clone, environment: Environment, extras: list[str], pinned: bool,
             lock: tuple[int, ...]) -> None:
    """Run the installer; what it prints goes to a log, and its latest line to a terminal."""
    pins = ["--constraint", str(clone.constraints)] if pinned else []
    command = [str(environment.python), "-I", "-m", "pip", "install", "--no-input", "--disable-pip-version-check",
               "--progress-bar", "off", *pins, "--editable", f"{clone.root}[{','.join(extras)}]"]
    variables = {**os.environ, "PIP_USER": "0", "PYTHONUNBUFFERED": "1"}
    log = environment.folder / LOG
    say("Installing what the kit needs; the first time this takes a minute or two.")
    with (log.open("w", encoding="utf-8") as record, Progress() as progress,
          subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace",
                           cwd=clone.root, env=variables, stdin=subprocess.DEVNULL, pass_fds=lock) as installer):
        for line in installer.stdout or ():
            record.write(line)
            progress.show(line.strip())
    if installer.returncode:
        last = log.read_text(encoding="utf-8").splitlines()[-12:]
        raise SetupError("the installer failed; its last words (all of them are in "
                         f"{log}):\n" + "\n".join(f"    {line}" for line in last))


def _prove(environment: Environment, extra: str) -> None:
    """An environment is ready when what it is for can be imported."""
    done = subprocess.run([environment.python, "-I", "-c", PROVES[extra]], capture_output=True, text=True, check=False)
    if done.returncode:
        last = done.stderr.strip().splitlines()[-1:] or ["no message"]
        raise SetupError(f"the environment was made, but does not work: {last[0]}")
