"""A tracing session kept in a file: saved after everything that is entered, and taken up again.

Only this file knows the format of such a file. It holds what was entered and nothing that follows from it: the
machine's label, who reads, the spec, the prior and the options, then every test that was done with its text, what was
read and when. Taking it up does the same on a new `Tracing`. A file that is damaged, is something else, or was changed
by somebody in the meantime is never written over.
"""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Callable, Sequence
from datetime import datetime
from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc.bench.candidates import Test
from mechcalc.bench.prior import Prior
from mechcalc.bench.readings import Reading
from mechcalc.bench.trace_data import (
    HEAD,
    KIND,
    OPTIONS,
    VERSION,
    Draft,
    Note,
    data_of_test,
    draft_of,
    head_of,
    keys_of,
    list_of,
    notes_of,
    options_of,
    read,
    read_test,
    when,
    words,
)
from mechcalc.bench.tracing import MISREADINGS, WORTH_ASKING, Done, Tracing
from mechcalc.errors import InputError, SessionError, SpecError
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec
from mechcalc.whole_files import write_whole

Clock = Callable[[], datetime]


def now() -> datetime:
    """The time here, to the second, with its distance from universal time."""
    return datetime.now().astimezone().replace(microsecond=0)


class KeptTrace:
    """A `Tracing` with its file.

    Made by `begin_trace` and `take_up_trace`; everything that is entered here is in the file before it returns.

    Attributes
    ----------
    path : Path
    trace : Tracing
    label : str
        The machine's own: an inventory number, a place on the shelf.
    who : str
        Who reads.
    condition : str
        How the machine was found, in free words.
    begun : str
        ISO 8601.
    times : tuple of str
        When each test of ``trace.history`` was entered.
    notes : tuple of Note
    draft : Draft or None
        A test that is under way, some of its places read.
    remarks : tuple of str
        What there is to say on taking it up: where this version of the kit sees something differently.

    Examples
    --------
    >>> import tempfile
    >>> from pathlib import Path
    >>> from mechcalc import load_spec
    >>> path = Path(tempfile.mkdtemp()) / "slate_7.json"
    >>> kept = begin_trace(path, load_spec("slate"), label="slate no. 7", who="A. Reader")
    >>> kept.record(kept.trace.tests[0], [{"result": 0, "counter": 3}])
    >>> again = take_up_trace(path)
    >>> again.label, len(again.trace.history), again.trace.left == kept.trace.left
    ('slate no. 7', 1, True)
    """

    def __init__(self, path: Path, trace: Tracing, head: dict[str, str], own_tests: Sequence[Test] | None,
                 clock: Clock = now) -> None:
        self.path, self.trace, self._head, self._own_tests, self._clock = path, trace, head, own_tests, clock
        self._times: list[str] = []
        self._left: list[int] = []
        self._notes: list[Note] = []
        self.draft: Draft | None = None
        self.remarks: tuple[str, ...] = ()
        self._on_disk: bytes | None = None

    def __repr__(self) -> str:
        return (f"<KeptTrace of {self.label or self.trace.spec.name or 'a machine'}: {len(self._times)} tests, "
                f"{self.trace.left} explanations left>")

    @property
    def label(self) -> str:
        return self._head["label"]

    @property
    def who(self) -> str:
        return self._head["who"]

    @property
    def begun(self) -> str:
        return self._head["begun"]

    @property
    def condition(self) -> str:
        return self._head["condition"]

    @property
    def times(self) -> tuple[str, ...]:
        return tuple(self._times)

    @property
    def notes(self) -> tuple[Note, ...]:
        return tuple(self._notes)

    # What is entered.

    def record(self, test: Test, readings: Sequence[Reading | dict[str, Any] | None]) -> None:
        """A test was done and this was read (`Tracing.record`); it is in the file when this returns.

        Raises
        ------
        InputError
            A reading that cannot be.
        SessionError
            The file cannot be written, or was changed by somebody. Either way nothing was recorded.
        """
        self.trace.record(test, readings)
        self._times.append(self._clock().isoformat())
        self._left.append(self.trace.left)
        draft, self.draft = self.draft, None
        try:
            self.save()
        except BaseException:
            self._drop()
            self.draft = draft
            raise

    def keep_draft(self, test: Test, readings: Sequence[Reading | dict[str, Any] | None]) -> None:
        """A test is under way and its first places were read; none of it counts before `record`. No readings at all
        forget it."""
        before = self.draft
        data = {"test": data_of_test(test), "read": [one.to_dict() if isinstance(one, Reading) else one
                                                     for one in readings]}
        self.draft = draft_of(data, self.trace.spec) if readings else None
        try:
            self.save()
        except BaseException:
            self.draft = before
            raise

    def take_back(self) -> Done | None:
        """Take back the last test, in the file too, and return it; None where there is none."""
        if not self._times:
            return None
        before = self._times[-1], self._left[-1]
        last = self._drop()
        try:
            self.save()
        except BaseException:
            self.trace.record(last.test, last.readings)
            self._times.append(before[0])
            self._left.append(before[1])
            raise
        return last

    def _drop(self) -> Done:
        last = self.trace.take_back()
        assert last is not None
        self._times.pop()
        self._left.pop()
        return last

    def note(self, text: str) -> None:
        """Write down something in free words, with the time."""
        if not words(text, "a note").strip():
            raise InputError("a note with nothing in it is none")
        self._notes.append(Note(self._clock().isoformat(), text.strip()))
        try:
            self.save()
        except BaseException:
            self._notes.pop()
            raise

    def describe(self, **head: str) -> None:
        """Change what stands at the head: ``label``, ``who`` or ``condition``."""
        before = self._head
        self._head = head_of({**before, **head})
        try:
            self.save()
        except BaseException:
            self._head = before
            raise

    # The file.

    def save(self) -> None:
        """Write the file, if what is there is what this session wrote or read last.

        Raises
        ------
        SessionError
            Something else is there, or nothing can be written.
        """
        try:
            there = self.path.read_bytes()
        except FileNotFoundError:
            there = None
        except OSError as error:
            raise SessionError(f"{self.path}: cannot be read: {error.strerror}") from None
        if there is not None and there != self._on_disk:
            why = ("there is a file already" if self._on_disk is None else
                   "somebody else has changed the file since it was read")
            raise SessionError(f"{self.path}: not saved, so that nothing is lost: {why}")
        data = (json.dumps(self.to_dict(), ensure_ascii=False, indent=1) + "\n").encode()
        try:
            write_whole(self.path, data)
        except OSError as error:
            raise SessionError(f"{self.path}: cannot be written: {error.strerror}") from None
        self._on_disk = data

    def to_dict(self) -> dict[str, Any]:
        """Everything that was entered, as plain data."""
        trace = self.trace
        done = [{"when": entered, "test": data_of_test(one.test), "left": left,
                 "read": [None if reading is None else reading.to_dict() for reading in one.readings]}
                for entered, left, one in zip(self._times, self._left, trace.history, strict=True)]
        return {"kind": KIND, "version": VERSION, **self._head, "spec": trace.spec.to_dict(),
                "prior": dataclasses.asdict(trace.prior), "options": {name: getattr(trace, name) for name in OPTIONS},
                "tests": None if self._own_tests is None else [data_of_test(test) for test in self._own_tests],
                "done": done, "draft": self.draft and self.draft.to_dict(),
                "notes": [dataclasses.asdict(note) for note in self._notes]}


def begin_trace(path: str | PathLike[str], spec: MachineSpec, *, label: str = "", who: str = "", condition: str = "",
                prior: Prior | None = None, pairs: bool = True, tests: Sequence[Test] | None = None,
                misreadings: int = MISREADINGS, worth: float = WORTH_ASKING, clock: Clock = now) -> KeptTrace:
    """Begin a session in a new file; the parameters are those of `Tracing`, and the head of the file.

    Raises
    ------
    SessionError
        There is a file already, whatever it is; or it cannot be written.
    """
    head = head_of({"label": label, "who": who, "condition": condition, "begun": clock().isoformat()})
    path = Path(path)
    if path.exists():
        raise SessionError(f"{path}: not saved, so that nothing is lost: there is a file already")
    trace = Tracing(spec, prior=prior, pairs=pairs, tests=tests, misreadings=misreadings, worth=worth)
    kept = KeptTrace(path, trace, head, None if tests is None else tuple(tests), clock)
    kept.save()
    return kept


def take_up_trace(path: str | PathLike[str], *, clock: Clock = now) -> KeptTrace:
    """The session of a file, everything in it done again.

    Raises
    ------
    SessionError
        With the place: what cannot be read, or which test or reading cannot be.
    """
    path = Path(path)
    raw, data = read(path)
    try:
        kept = _rebuilt(path, data, clock)
        remarks = list(_replayed(kept, data["done"]))
        kept._notes, kept.draft = notes_of(data["notes"]), draft_of(data["draft"], kept.trace.spec)
    except (InputError, SpecError) as error:
        raise SessionError(f"{path}: {error}; the file is damaged or was changed by hand") from None
    kept._on_disk, kept.remarks = raw, tuple(remarks)
    return kept


def _rebuilt(path: Path, data: dict[str, Any], clock: Clock) -> KeptTrace:
    """An empty session with the file's machine, prior and options."""
    spec = MachineSpec.from_dict(data["spec"], "\"spec\"")
    prior, options = options_of(data)
    tests = data["tests"]
    own = None if tests is None else tuple(read_test(one, f"\"tests\" {number}")
                                           for number, one in enumerate(list_of(tests, "\"tests\""), start=1))
    trace = Tracing(spec, prior=prior, tests=own, **options)
    return KeptTrace(path, trace, head_of({name: data[name] for name in HEAD}), own,
                     clock)


def _replayed(kept: KeptTrace, done: Any) -> list[str]:
    """Do everything again; what this version of the kit makes of it differently."""
    remarks = []
    for number, entry in enumerate(list_of(done, "\"done\""), start=1):
        where = f"\"done\" {number}"
        entry = keys_of(entry, where, "when", "test", "read", "left")
        test = read_test(entry["test"], where)
        entered = when(entry["when"], f"{where}: \"when\"")
        try:
            kept.trace.record(test, list_of(entry["read"], f"{where}: \"read\""))
        except InputError as error:
            raise InputError(f"{where}: {error}") from None
        kept._times.append(entered)
        kept._left.append(kept.trace.left)
        if entry["left"] != kept.trace.left:
            remarks.append(f"after test {number}, {test.name}, {shown(entry['left'])} explanations were left when it "
                           f"was entered, and now {kept.trace.left} are: the kit's model has changed since, or the "
                           f"file has")
    return remarks
