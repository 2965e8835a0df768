"""A learner's answers and predictions, kept in a file of the learner's own.

Only this file knows where they are kept and what a line looks like. The file is called ``answers.jsonl`` and stands in
the folder that the variable ``MECHCALC_PROGRESS`` names (``python3 -m mechcalc open`` sets it), or, where that is not
set, in a ``.mechcalc`` folder beside the notebook. Where there is neither, or the variable is set to nothing, nothing
is kept.

The file is only ever added to, in whole lines of UTF-8, each a JSON object that can be understood alone:

================  ==================================================================================================
``format``        1. A reader lists lines of a higher format and leaves them alone.
``when``          Date and time with its offset from UTC, ISO 8601: ``"2031-03-04T09:15:02+00:00"``.
``kind``          ``"answer"`` (to an exercise) or ``"prediction"``.
``lesson``        The lesson's name, or that of the notebook; null where neither is known.
``about``         An answer: the exercise's label. A prediction: the id of the cell that compared it, or null.
``given``         What was answered or foretold, so that the exercise reads it again as the same: a number (a text
                  where it is beyond 2^53), a text, or a list of these. What could not be read is a text, cut short.
``outcome``       ``"right"``, ``"wrong"``, ``"unreadable"``, or for an answer ``"slip"``: wrong in a way that is known.
``slip``          Answers only: what was said to the slip, which names it; null for every other outcome.
``happened``      Predictions only: what came true, in the form of ``given``.
================  ==================================================================================================

A reader passes over fields that it does not know. A line that it cannot read is listed, and stays in the file.
"""

from __future__ import annotations

import contextlib
import json
import os
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from mechcalc.numbers import shown

VARIABLE = "MECHCALC_PROGRESS"
CORNER = ".mechcalc"
FILE, LOCK = "answers.jsonl", "answers.lock"
FORMAT = 1
KINDS, OUTCOMES = ("answer", "prediction"), ("right", "wrong", "unreadable", "slip")
LARGEST, LONGEST = 2**53, 10**60  # beyond the first a number is written as a text, beyond the second it is cut short
PATIENCE = 3.0                    # seconds to wait for another kernel that is writing
_said_so = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A line of the file. The fields are those at the head of this module."""

    when: str
    kind: str
    lesson: str | None
    about: str | None
    given: Any
    outcome: str
    slip: str | None = None
    happened: Any = None


@dataclass(frozen=True, slots=True)
class BadLine:
    """A line that cannot be read.

    Attributes
    ----------
    number : int
        Counted from 1.
    why : str
        What is wrong with it.
    text : str
        Its beginning.
    """

    number: int
    why: str
    text: str


def place() -> Path | None:
    """The folder in which answers are kept; None where they are not."""
    named = os.environ.get(VARIABLE)
    if named is not None:
        return Path(named).expanduser() if named.strip() else None
    with contextlib.suppress(OSError):
        beside = Path.cwd() / CORNER
        return beside if beside.is_dir() else None
    return None


def notebook() -> str | None:
    """The name of the notebook that is being worked in, where JupyterLab tells it to the kernel."""
    name = Path(os.environ.get("JPY_SESSION_NAME", "")).name
    return name.partition(".")[0] or None


def cell() -> str | None:
    """The id of the cell that is running, where JupyterLab tells it."""
    shell = getattr(sys.modules.get("IPython"), "get_ipython", lambda: None)()
    parent: Any = getattr(shell, "get_parent", dict)()
    told = parent.get("metadata", {}).get("cellId") if isinstance(parent, dict) else None
    return told if isinstance(told, str) else None


def writable(answer: Any) -> Any:
    """An answer in its plain form, as the file holds it.

    >>> writable((9022, "no", (7, 4))), writable(10**20), writable(object)
    ([9022, 'no', [7, 4]], '100000000000000000000', "<class 'object'>")
    """
    if isinstance(answer, (tuple, list)):
        return [writable(part) for part in answer]
    if isinstance(answer, int) and not isinstance(answer, bool):
        return answer if abs(answer) <= LARGEST else str(answer) if abs(answer) < LONGEST else shown(answer)
    return answer if isinstance(answer, str) else shown(answer)


def now() -> str:
    """The time, as the file holds it."""
    return datetime.now().astimezone().isoformat(timespec="seconds")


def keep(**fields: Any) -> None:
    """Add a line, if there is a place for it; say once in a kernel's life where that cannot be done.

    Parameters
    ----------
    **fields
        Those at the head of this module, but for ``format`` and ``when``.
    """
    global _said_so
    folder = place()
    if folder is None:
        return
    line = json.dumps({"format": FORMAT, "when": now(), **fields}, ensure_ascii=False)
    try:
        _add(folder, line.encode("utf-8", "backslashreplace") + b"\n")
    except OSError as error:
        if not _said_so:
            print(f"(Your progress cannot be kept in {folder.name}: {error.strerror or error}.)")
        _said_so = True


def _add(folder: Path, line: bytes) -> None:
    """One line at the end of the file; a broken last line, left by a power cut, keeps to itself."""
    folder.mkdir(parents=True, exist_ok=True)
    with alone(folder):
        handle = os.open(folder / FILE, os.O_RDWR | os.O_CREAT | os.O_APPEND | getattr(os, "O_BINARY", 0), 0o600)
        try:
            size = os.fstat(handle).st_size
            if size:
                os.lseek(handle, size - 1, os.SEEK_SET)
                line = line if os.read(handle, 1) == b"\n" else b"\n" + line
            if os.write(handle, line) != len(line):
                raise OSError("there was no room for the whole line")
        finally:
            os.close(handle)


@contextlib.contextmanager
def alone(folder: Path) -> Iterator[None]:
    """While this lasts no other kernel adds to the file; where a file system knows no locks, it is not waited for."""
    handle = os.open(folder / LOCK, os.O_RDWR | os.O_CREAT, 0o600)
    try:
        until = time.monotonic() + PATIENCE
        while not _taken(handle) and time.monotonic() < until:
            time.sleep(0.01)
        yield
    finally:
        os.close(handle)  # which lets go of the lock


def _taken(handle: int) -> bool:
    """Whether the lock is ours, or there is none to be had."""
    try:
        if sys.platform == "win32":
            import msvcrt
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    except OSError:
        return True
    return True


def entries(path: Path) -> tuple[tuple[Entry, ...], tuple[BadLine, ...]]:
    """What a file of answers holds: its entries in order, and the lines that cannot be read.

    Raises
    ------
    OSError
        The file cannot be read; one that is not there holds nothing.
    """
    try:
        content = path.read_bytes()
    except FileNotFoundError:
        return (), ()
    good, bad = [], []
    for number, raw in enumerate(content.split(b"\n"), start=1):
        if not raw.strip():
            continue
        try:
            good.append(_entry(json.loads(raw.decode("utf-8"))))
        except (ValueError, RecursionError) as error:
            why = str(error) if type(error) is _Unfit else "it is no JSON"
            bad.append(BadLine(number, why, shown(raw.decode("utf-8", "replace").strip())))
    return tuple(good), tuple(bad)


class _Unfit(ValueError):
    """A line that is JSON, and not one of ours; the message says why."""


def _entry(data: Any) -> Entry:
    """A line that has been read, as an entry."""
    if not isinstance(data, dict):
        raise _Unfit("it is no JSON object")
    if type(data.get("format")) is not int or data["format"] < 1:
        raise _Unfit("it does not say which format it is of")
    if data["format"] > FORMAT:
        raise _Unfit(f"it was written by a newer kit (format {shown(data['format'])})")
    for name in ("when", "kind", "outcome"):
        if not isinstance(data.get(name), str):
            raise _Unfit(f"its {name!r} is missing, or no text")
    for name in ("lesson", "about", "slip"):
        if not isinstance(data.get(name), str | None):
            raise _Unfit(f"its {name!r} is no text")
    for name, known in (("kind", KINDS), ("outcome", OUTCOMES)):
        if data[name] not in known:
            raise _Unfit(f"its {name!r} is {shown(data[name])}")
    return Entry(when=data["when"], kind=data["kind"], lesson=data.get("lesson"), about=data.get("about"),
                 given=data.get("given"), outcome=data["outcome"], slip=data.get("slip"),
                 happened=data.get("happened"))
