"""A working copy of the lessons, in a folder of the user's own.

Only this file decides when a file there may be written. For each original, with "recorded" meaning the original as
it was when it was last copied or offered here:

==============================  ===========================  ==================================================
the copy                        the original                 what happens
==============================  ===========================  ==================================================
is not there                                                 copied (so deleting a copy is the way to a new start)
is the original                                              nothing
is as recorded                  is newer                     replaced by the new original
differs from what is recorded   is as recorded               kept
differs from what is recorded   is newer, not yet offered    kept; the new original is put beside it, named
                                                             ``NAME.new-version.SUFFIX``
==============================  ===========================  ==================================================

A copy of which nothing is recorded counts as changed. What is put beside a copy never takes the place of a file
that is there: it goes to ``new-version-2`` and so on. Originals that are gone leave their copies.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import tempfile
from dataclasses import dataclass, field
from pathlib import Path

from mechcalc.setup.clone import SetupError

OURS = ".mechcalc"            # the kit's own corner of the working folder
RECORD = f"{OURS}/copies.json"
KIND, VERSION = "mechcalc copies", 1
PASSED_OVER = ("__pycache__",)


@dataclass(slots=True)
class Report:
    """What was done, as paths within the working folder.

    Attributes
    ----------
    copied, updated, kept : list of str
        New copies; unchanged ones that were replaced; changed ones that were left.
    beside : dict of str to str
        Changed copies, and the name under which the new original was put beside each.
    """

    copied: list[str] = field(default_factory=list)
    updated: list[str] = field(default_factory=list)
    kept: list[str] = field(default_factory=list)
    beside: dict[str, str] = field(default_factory=dict)

    def lines(self) -> list[str]:
        """One line for each thing that a user should know."""
        lines = []
        if self.copied:
            lines.append(f"Copied: {', '.join(self.copied)}.")
        if self.updated:
            lines.append(f"Brought up to date (you had not changed them): {', '.join(self.updated)}.")
        lines += [f"There is a new version of {name}; yours is kept, and the new one is beside it as {new}."
                  for name, new in self.beside.items()]
        return lines


def originals(source: Path) -> dict[str, bytes]:
    """Every lesson file by its path within `source`, with slashes; hidden ones and caches are passed over."""
    found = {}
    for path in sorted(source.rglob("*")):
        parts = path.relative_to(source).parts
        if path.is_file() and not any(part.startswith(".") or part in PASSED_OVER for part in parts):
            found["/".join(parts)] = handed_out(path.name, path.read_bytes())
    return found


def handed_out(name: str, content: bytes) -> bytes:
    """A lesson as a learner gets it: without outputs, which would show every answer before the prediction.

    >>> content = handed_out("a.ipynb", b'{"cells": [{"cell_type": "code", "outputs": ["42"], "execution_count": 1}]}')
    >>> json.loads(content)
    {'cells': [{'cell_type': 'code', 'outputs': [], 'execution_count': None}]}
    """
    if not name.endswith(".ipynb"):
        return content
    try:
        notebook = json.loads(content)
        for cell in notebook["cells"]:
            if cell["cell_type"] == "code":
                cell["outputs"], cell["execution_count"] = [], None
    except (ValueError, KeyError, TypeError):
        return content  # no notebook: what it is will be seen when it is opened
    return (json.dumps(notebook, ensure_ascii=False, indent=1) + "\n").encode()


def bring_over(source: Path, folder: Path) -> Report:
    """Copy the lessons from `source` into `folder` under the rules above.

    Raises
    ------
    SetupError
        There are no lessons; `folder` is in (or around) the originals; or it cannot be written.
    """
    files = originals(source)
    if not files:
        raise SetupError(f"there are no lessons in {source}")
    here, there = folder.resolve(), source.resolve()
    if here == there or there in here.parents or here in there.parents:
        raise SetupError(f"{folder} is no place for working copies: it holds the originals, or lies among them")
    report = Report()
    try:
        record = _read_record(here)
        for name, new in files.items():
            _bring(here, name, new, record, report)
            _write(here / RECORD, json.dumps({"kind": KIND, "version": VERSION, "files": record}, indent=1).encode())
    except OSError as error:
        raise SetupError(f"the lessons could not be copied to {folder}: {error.strerror}"
                         f"{f' ({error.filename})' if error.filename else ''}") from None
    return report


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _read_record(folder: Path) -> dict[str, dict[str, str]]:
    """Per file, digests of the original that was ``copied`` last and of the one that was ``offered`` beside it."""
    try:
        data = json.loads((folder / RECORD).read_text(encoding="utf-8"))
        files = data["files"] if data["kind"] == KIND and data["version"] == VERSION else {}
        return {str(name): {key: str(entry[key]) for key in ("copied", "offered") if key in entry}
                for name, entry in files.items()}
    except FileNotFoundError:
        return {}
    except (ValueError, KeyError, TypeError, AttributeError):
        return {}  # A damaged record: every file counts as changed, so nothing is replaced.


def _bring(folder: Path, name: str, new: bytes, record: dict[str, dict[str, str]], report: Report) -> None:
    """One file, under the rules at the head of this file."""
    target, entry, digest = folder / name, record.setdefault(name, {}), _digest(new)
    if target.is_dir():
        raise SetupError(f"{target} is a folder; a lesson of that name is to go there")
    there = None
    if target.exists() or target.is_symlink():
        there = _digest(target.read_bytes()) if target.is_file() else ""
    if there is None:
        _write(target, new)
        report.copied.append(name)
    elif there != digest and there in (entry.get("copied"), entry.get("offered")) and not target.is_symlink():
        _write(target, new)
        report.updated.append(name)
    elif there != digest:
        report.kept.append(name)
        if digest not in (entry.get("copied"), entry.get("offered")):
            report.beside[name] = _offer(folder, name, new)
            entry["offered"] = digest
        return
    entry["copied"] = digest
    entry.pop("offered", None)


def _offer(folder: Path, name: str, new: bytes) -> str:
    """Put a new original beside a changed copy, under the first name that is free or holds just that."""
    path, number = Path(name), 1
    while True:
        mark = "new-version" if number == 1 else f"new-version-{number}"
        beside = path.with_name(f"{path.stem}.{mark}{path.suffix}")
        target = folder / beside
        if not target.exists() and not target.is_symlink():
            _write(target, new)
        elif not target.is_file() or target.read_bytes() != new:
            number += 1
            continue
        return beside.as_posix()


def _write(path: Path, content: bytes) -> None:
    """All of it, or nothing: a new file takes the old one's place in one step."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        os.chmod(temporary, 0o644)
        os.replace(temporary, path)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(temporary)
        raise
