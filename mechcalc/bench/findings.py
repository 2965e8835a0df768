"""What a session at the bench has come to, in words: where readings depart, what explains them, what was not tested.

Only this file draws a session together for reports and for the command line. It decides nothing that `Tracing` does not
say.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from mechcalc.bench.batch import Batch, lanes_of
from mechcalc.bench.dictionary import singles
from mechcalc.bench.fault import Fault
from mechcalc.bench.fault_list import every_fault
from mechcalc.bench.machine import Machine
from mechcalc.bench.plan import home
from mechcalc.bench.readings import WIDTHS, Reading
from mechcalc.bench.step_words import ASKED
from mechcalc.bench.tracing import Done, Explanation, Tracing, readings_of
from mechcalc.spec import MachineSpec

FIELDS = (*WIDTHS, "bell", "yielded")
NAMED = 6  # parts of one kind that are named one by one


@dataclass(frozen=True, slots=True)
class Departure:
    """Something that was read otherwise than a machine would show it.

    Attributes
    ----------
    test, reading : int
        Which test and which reading of it, counted from 1.
    name : str
        The test's.
    field : str
        ``"result"``, ``"counter"``, ``"setting"``, ``"bell"`` or ``"yielded"``.
    should, read : str
        As they are written: digits of all wheels, or yes and no.
    """

    test: int
    reading: int
    name: str
    field: str
    should: str
    read: str

    def __str__(self) -> str:
        what = {"yielded": "whether it gave way", "bell": "whether the bell rang"}.get(self.field, f"the {self.field}")
        return (f"test {self.test}, {self.name}, reading {self.reading}: {what} should be {self.should}, read "
                f"{self.read}")


def written(spec: MachineSpec, field: str, value: int | bool | None) -> str:
    """A reading as it is written down: all wheels of a register, or yes and no; a dash for what was not read.

    >>> from mechcalc import load_spec
    >>> written(load_spec("slate"), "result", 95), written(load_spec("slate"), "bell", True)
    ('000095', 'yes')
    """
    if value is None:
        return "–"
    return f"{value:0{getattr(spec, WIDTHS[field])}d}" if field in WIDTHS else "yes" if value else "no"


def shown_by(spec: MachineSpec, done: Sequence[Done], faults: Sequence[Fault] = ()) -> tuple[tuple[Reading, ...], ...]:
    """What a machine with these faults (none: a sound one) shows when it does the same tests one after another."""
    machine = Machine(spec, faults=faults)
    return tuple(readings_of(machine, one.test) for one in done)


def departures(spec: MachineSpec, done: Sequence[Done], faults: Sequence[Fault] = ()) -> tuple[Departure, ...]:
    """Where what was read is not what a machine with these faults (none: a sound one) shows."""
    found = []
    for number, (one, should) in enumerate(zip(done, shown_by(spec, done, faults), strict=True), start=1):
        for place, (would, was) in enumerate(zip(should, one.readings, strict=True), start=1):
            for field in FIELDS:
                value = getattr(was, field, None)
                if value is not None and value != getattr(would, field):
                    found.append(Departure(number, place, one.test.name, field,
                                           written(spec, field, getattr(would, field)), written(spec, field, value)))
    return tuple(found)


def unrevealed(spec: MachineSpec, done: Sequence[Done]) -> tuple[Fault, ...]:
    """Single faults that these tests, as far as they were read, could not have revealed.

    A fault counts as looked for where a machine with it alone would have shown something else than a sound one, in
    something that was read.
    """
    faults = every_fault(spec)
    batch = Batch(lanes_of(spec, faults, singles(faults)))
    seen = np.zeros(1 + len(faults), bool)
    for one in done:
        for count, step in enumerate((*one.test.steps, *home(one.test)), start=1):
            batch.do(step)
            if count in one.test.reads and (reading := one.readings[one.test.reads.index(count)]) is not None:
                for field in FIELDS:
                    if getattr(reading, field) is not None:
                        seen |= _unlike_the_first(getattr(batch, field))
    return tuple(fault for fault, shows in zip(faults, seen[1:], strict=True) if not shows)


def _unlike_the_first(shows: Any) -> Any:
    """Lanes that show something else than lane 0."""
    return (shows != shows[..., :1]).reshape(-1, shows.shape[-1]).any(axis=0)


def untested(spec: MachineSpec, done: Sequence[Done]) -> tuple[str, ...]:
    """What was not looked for, kind by kind, in words.

    >>> from mechcalc import load_spec
    >>> untested(load_spec("slate"), [])[0]
    'carry pin gone: none of 10 places was tested'
    """
    faults, left = every_fault(spec), unrevealed(spec, done)
    lines = []
    for name in dict.fromkeys(fault.name for fault in faults):
        every = sum(fault.name == name for fault in faults)
        some = [fault for fault in left if fault.name == name]
        if len(some) == every:
            lines.append(f"{name}: none of {every} places was tested" if every > 1 else f"{name}: not tested")
        elif some:
            named = f": {'; '.join(map(str, some))}" if len(some) <= NAMED else ""
            lines.append(f"{name}: {len(some)} of {every} places not tested{named}")
    return tuple(lines)


def left_out(done: Done) -> tuple[str, ...]:
    """What of a test was not read."""
    said = []
    for number, (end, reading) in enumerate(zip(done.test.reads, done.readings, strict=True), start=1):
        tried = done.test.steps[end - 1].what in ASKED
        missing = [field for field in FIELDS if getattr(reading, field, None) is None and (field != "yielded" or tried)]
        if missing:
            names = ["whether it gave way" if field == "yielded" else f"the {field}" for field in missing]
            said.append(f"reading {number}: {', '.join(names)}")
    return tuple(said)


def share(value: float) -> str:
    """A share as it is printed.

    >>> share(0.4249), share(0.0003), share(0.9996)
    ('42%', 'under 1%', 'over 99%')
    """
    return "under 1%" if value < 0.01 else "over 99%" if 0.99 < value < 1 else f"{value:.0%}"


def conclusion(trace: Tracing, most: int = 8) -> tuple[str, ...]:
    """What the readings say, in a few sentences."""
    if not trace.history:
        return ("Nothing has been read yet.",)
    if not trace.left:
        first = trace.closest(1)[0]
        return ("Nothing that the kit knows explains what was read: no single fault"
                f"{', no two faults together' if trace.pairs else ''}, even with {_slips(trace.misreadings)}.",
                f"Closest comes: {_named(first)}; it differs from {_many(first.misreadings, 'reading')}.")
    found = trace.explanations(most)
    plain = [one for one in found if not one.misreadings]
    said = [f"{_many(trace.left, 'explanation')} {'is' if trace.left == 1 else 'are'} left."]
    if not plain:
        said.append(f"Each of them needs {_slips(trace.misreadings)}: read again what differs.")
    elif not plain[0].faults:
        said.append("Nothing that was read departs from a sound machine.")
    said.append(f"Likeliest: {found[0]} ({share(found[0].share)}).")
    return tuple(said)


def _named(one: Explanation) -> str:
    return str(Explanation(one.faults, one.share, 0))


def _slips(many: int) -> str:
    return {0: "no reading wrong", 1: "one reading wrong"}.get(many, f"{many} readings wrong")


def _many(number: int, word: str) -> str:
    return f"{number} {word}{'s' * (number != 1)}"
