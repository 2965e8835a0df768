"""Fault dictionaries kept in files, so that a machine's is worked out once.

Only this file knows where they are kept and when one is still good. A file's name is a digest of everything that its
answers follow from: the machine's build (not its name), faults, tests, and the code that works them out. So what has
changed has another name, and no file is ever out of date. They lie in the user's cache folder, in ``mechcalc``; the
variable ``MECHCALC_CACHE`` names another folder, and set to nothing it turns the keeping off. Any of them can be
deleted at any time.
"""

from __future__ import annotations

import hashlib
import io
import json
import os
import sys
import zipfile
from collections.abc import Callable, Sequence
from contextlib import suppress
from functools import cache
from pathlib import Path

import numpy as np

from mechcalc import __version__
from mechcalc.bench.candidates import Test, candidates
from mechcalc.bench.dictionary import FaultDictionary, Sweep, Told, fault_dictionary, singles, with_pairs
from mechcalc.bench.fault import Fault
from mechcalc.bench.fault_list import every_fault
from mechcalc.spec import MachineSpec
from mechcalc.whole_files import write_whole

VARIABLE = "MECHCALC_CACHE"
MOST = 40  # files; the ones not used for longest go
HERE = Path(__file__).parent
CODE = ("batch/*.py", "faults.py", "fault.py", "fault_list.py", "steps.py", "dictionary.py", "../layout.py",
        "../spec.py", "../state.py")


def folder() -> Path | None:
    """Where dictionaries are kept; None where they are not."""
    own = os.environ.get(VARIABLE)
    if own is not None:
        return Path(own).expanduser() if own.strip() else None
    try:
        if sys.platform == "win32":
            base = Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local")
        elif sys.platform == "darwin":
            base = Path.home() / "Library" / "Caches"
        else:
            given = os.environ.get("XDG_CACHE_HOME", "")
            base = Path(given) if Path(given).is_absolute() else Path.home() / ".cache"
    except RuntimeError:  # nobody's home
        return None
    return base / "mechcalc"


@cache
def _code() -> str:
    """A digest of the code that dictionaries are worked out by."""
    digest = hashlib.sha256(__version__.encode())
    for pattern in CODE:
        for path in sorted(HERE.glob(pattern)) if "*" in pattern else [HERE / pattern]:
            digest.update(path.read_bytes())
    return digest.hexdigest()


def key(spec: MachineSpec, faults: Sequence[Fault], tests: Sequence[Test], pairs: bool) -> str:
    """The name of a dictionary's file, without its ending.

    >>> from mechcalc import load_spec
    >>> one = key(load_spec("slate"), [], [], False)
    >>> one == key(load_spec("slate"), [], [], False) != key(load_spec("bench"), [], [], False)
    True
    """
    build = {name: value for name, value in spec.to_dict().items() if name not in ("name", "note")}
    told = [build, [fault.to_dict() for fault in faults], [str(test) for test in tests], pairs, _code()]
    return hashlib.sha256(json.dumps(told, sort_keys=True).encode()).hexdigest()[:40]


def kept_dictionary(spec: MachineSpec, *, pairs: bool = False, faults: Sequence[Fault] | None = None,
                    tests: Sequence[Test] | None = None, workers: int = 1, sweep: Sweep | None = None,
                    told: Told | None = None, say: Callable[[str], None] | None = None) -> FaultDictionary:
    """A fault dictionary from its file, or worked out and kept; parameters as for `fault_dictionary`.

    Parameters
    ----------
    say : callable, optional
        Gets a sentence where a file is damaged and the work is done anew, or where nothing can be kept.
    """
    faults = tuple(every_fault(spec) if faults is None else faults)
    tests = tuple(candidates(spec) if tests is None else tests)
    say = say or (lambda _: None)
    place = folder()
    path = place and place / f"{key(spec, faults, tests, pairs)}.npz"
    if path is not None and path.exists():
        seats = with_pairs(faults) if pairs else singles(faults)
        try:
            answers = _read(path, (len(tests), len(seats)))
        except (OSError, ValueError, KeyError, EOFError, zipfile.BadZipFile) as error:
            say(f"{path}: is damaged ({error}); it is worked out anew")
        else:
            with suppress(OSError):
                os.utime(path)
            return FaultDictionary(spec=spec, faults=faults, tests=tests, seats=seats, answers=answers)
    book = fault_dictionary(spec, pairs=pairs, faults=faults, tests=tests, workers=workers, sweep=sweep, told=told)
    if path is not None:
        try:
            _keep(path, book)
        except OSError as error:
            say(f"{path}: cannot be kept: {error.strerror}")
    return book


def _read(path: Path, shape: tuple[int, int]) -> np.ndarray:
    """The answers of a file; its checksum is looked at as it is read."""
    with np.load(path, allow_pickle=False) as file:
        answers = file["answers"]
    if answers.shape != shape or answers.dtype.kind != "u":
        raise ValueError(f"it holds {answers.dtype} of shape {answers.shape}, not whole numbers of shape {shape}")
    return answers.astype(np.uint32)


def _keep(path: Path, book: FaultDictionary) -> None:
    most = int(book.answers.max(initial=0))
    held = io.BytesIO()
    np.savez(held, answers=book.answers.astype(np.uint16 if most < 1 << 16 else np.uint32))
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, held.getvalue())
    files = sorted(path.parent.glob("*.npz"), key=lambda one: one.stat().st_mtime, reverse=True)
    for old in files[MOST:]:
        with suppress(OSError):
            old.unlink()
