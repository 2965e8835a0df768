"""What happens in a calculation, turn by turn, as far as conditions ask: carries that run, bells, overdrafts.

Only this file says what a carry's run is, and reads one out of events.

A carry here is a borrow too. It *runs* through wheels one after the other in one turn: the first sets it off, being
taken past 9 (past 0 in a subtractive turn) by its number pins; each of the others is moved by it, and passes it on if
that takes it past 9 as well. In 999 + 1 one carry runs through 4 wheels, 1 to 4. A wheel that would have passed 9 by
its pins alone begins a run of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from mechcalc.events import Event, Kind
from mechcalc.methods import Working
from mechcalc.methods.complement import wrapped


class Run(NamedTuple):
    """A carry that runs.

    Attributes
    ----------
    first : int
        The wheel that sets it off.
    wheels : int
        How many it runs through, the first and the last among them.
    nines : int
        How many of them stood at 9 (at 0 for a borrow) and were taken past it by the carry alone.
    """

    first: int
    wheels: int
    nines: int

    @property
    def last(self) -> int:
        """The last wheel that it moves."""
        return self.first + self.wheels - 1


class Turn(NamedTuple):
    """One turn of the crank.

    Attributes
    ----------
    direction : int
        1 additive, -1 subtractive.
    position : int
        Of the carriage.
    before, after : int
        What the result stands for, every bell counted: negative where its wheels show a complement.
    bell : bool
        Whether it rang.
    """

    direction: int
    position: int
    before: int
    after: int
    bell: bool


@dataclass
class Course:
    """A whole calculation.

    Attributes
    ----------
    turns : tuple of Turn
        In order.
    shifts : int
        Places that the carriage goes.
    worked_from : int
        Index of the first turn after the counter was last cleared: what comes before only brings a number in.
    shows : int
        The result register at the end.
    read_runs : callable
        Gives `runs` when they are first asked for.
    """

    turns: tuple[Turn, ...]
    shifts: int
    worked_from: int
    shows: int
    read_runs: Callable[[], list[tuple[Run, ...]]]

    @cached_property
    def runs(self) -> list[tuple[Run, ...]]:
        """The carries of each turn, from the lowest wheel up."""
        return self.read_runs()


def course_of(working: Working) -> Course:
    """Read from a working's strokes.

    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.methods import add
    >>> course_of(add(Machine(load_spec("slate")), 999, 1)).runs
    [(), (Run(first=1, wheels=4, nines=2),)]
    """
    turns: list[Turn] = []
    cranked: list[tuple[Sequence[Event], int]] = []
    owed = worked_from = 0
    value = working.start.reading.result
    for stroke in working.strokes:
        if stroke.operation == "crank":
            owed += wrapped(working.spec, stroke)
            direction, before, value = (1 if stroke.argument > 0 else -1), value, stroke.reading.result + owed
            turns.append(Turn(direction, stroke.before.carriage, before, value, stroke.reading.bell))
            cranked.append((stroke.events, direction))
        elif stroke.operation in ("clear result", "back transfer"):
            owed = value = 0
        elif stroke.operation == "clear counter":
            worked_from = len(turns)
    return Course(tuple(turns), working.shifts, worked_from, working.end.reading.result,
                  lambda: [runs_of(events, direction) for events, direction in cranked])


def runs_of(events: Sequence[Event], direction: int) -> tuple[Run, ...]:
    """The carries of one turn of this direction, from the lowest wheel up."""
    past = 0 if direction > 0 else 9  # what a wheel shows that has just been taken past
    steps = sorted((event.wheel, event.digit == past) for event in events
                   if event.kind is Kind.CARRY_STEP and event.wheel is not None)
    runs: list[Run] = []
    goes_on = False
    for wheel, passed in steps:
        if goes_on and runs[-1].last + 1 == wheel:
            runs[-1] = Run(runs[-1].first, runs[-1].wheels + 1, runs[-1].nines + passed)
        else:
            runs.append(Run(wheel - 1, 2, int(passed)))
        goes_on = passed
    return tuple(runs)
