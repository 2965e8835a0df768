"""What happens in a calculation, turn by turn, as far as conditions ask: carries that run, bells, overdrafts.

Only this file reads them out of a working's strokes and events.

A carry here is a borrow too. It *runs* through the wheels that it moves one after the other in one turn: the first
moves because the wheel below it has been taken past 9 (past 0 in a subtractive turn) by its number pins, each of the
others because the carry itself took the wheel below past 9. In 9999 + 1 one carry runs through 4 wheels, 2 to 5.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from mechcalc.events import Event, Kind
from mechcalc.methods import Working
from mechcalc.methods.complement import wrapped


class Run(NamedTuple):
    """A carry that runs: the first wheel it moves, how many it moves, how many of them it takes past 9 (or 0)."""

    first: int
    wheels: int
    passed: int


@dataclass(frozen=True, slots=True)
class Turn:
    """One turn of the crank.

    Attributes
    ----------
    direction : int
        1 additive, -1 subtractive.
    position : int
        Of the carriage.
    before, after : int
        What the result stands for: negative where its wheels show a complement.
    runs : tuple of Run
        Its carries, from the lowest wheel up.
    bell : bool
        Whether it rang.
    """

    direction: int
    position: int
    before: int
    after: int
    runs: tuple[Run, ...]
    bell: bool


@dataclass(frozen=True, slots=True)
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
    """

    turns: tuple[Turn, ...]
    shifts: int
    worked_from: int
    shows: int


def course_of(working: Working) -> Course:
    """Read from a working.

    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.methods import add
    >>> course_of(add(Machine(load_spec("slate")), 9999, 1)).turns[-1].runs
    (Run(first=2, wheels=4, passed=3),)
    """
    turns: list[Turn] = []
    owed = worked_from = 0
    value = working.start.reading.result
    for stroke in working.strokes:
        if stroke.operation == "crank":
            owed += wrapped(working.spec, stroke)
            direction, before = (1 if stroke.argument > 0 else -1), value
            value = stroke.reading.result + owed
            turns.append(Turn(direction, stroke.before.carriage, before, value, runs_of(stroke.events, direction),
                              stroke.reading.bell))
        elif stroke.operation in ("clear result", "back transfer"):
            owed = value = 0
        elif stroke.operation == "clear counter":
            worked_from = len(turns)
    return Course(tuple(turns), working.shifts, worked_from, working.end.reading.result)


def runs_of(events: Sequence[Event], direction: int) -> tuple[Run, ...]:
    """The carries of one turn, from the lowest wheel up."""
    passes = 0 if direction > 0 else 9  # what a wheel shows that a carry has just taken past
    steps = sorted((event.wheel, event.digit == passes) for event in events
                   if event.kind is Kind.CARRY_STEP and event.wheel is not None)
    runs: list[Run] = []
    goes_on = False
    for wheel, passed in steps:
        if goes_on and runs[-1].first + runs[-1].wheels == wheel:
            runs[-1] = Run(runs[-1].first, runs[-1].wheels + 1, runs[-1].passed + passed)
        else:
            runs.append(Run(wheel, 1, int(passed)))
        goes_on = passed
    return tuple(runs)
