"""What a worksheet can ask about a calculation, before it is worked and after.

Only this file lists the questions. Each has a name, words for both times, and a function that reads the right answer
off the strokes; nothing is worked out here.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction

from mechcalc.errors import InputError
from mechcalc.events import Kind
from mechcalc.methods.capacity import places as places_of
from mechcalc.methods.working import Working, with_point
from mechcalc.numbers import shown

REGISTERS = ("setting", "result", "counter")


@dataclass(frozen=True, slots=True)
class Value:
    """A right answer: a whole number whose last `places` digits are decimals.

    >>> str(Value(314, 2)), Value(314, 2).exact, str(Value(-22))
    ('3.14', Fraction(157, 50), '−22')
    """

    number: int
    places: int = 0

    def __str__(self) -> str:
        return with_point(self.number, self.places)

    @property
    def exact(self) -> Fraction:
        """The number itself."""
        return Fraction(self.number, 10**self.places)


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """Something that can be asked.

    Attributes
    ----------
    name : str
        What a sheet calls it.
    before, after : str
        The question before and after working; ``{answer}`` stands for what the answer is called (``"product"``),
        ``{point}`` for " before the point" where there are decimals.
    short : str
        A heading for tables.
    read : callable
        The right answer, from a `Working`; None where the calculation has none.
    """

    name: str
    before: str
    after: str
    short: str
    read: Callable[[Working], Value | None]


def _remainder(working: Working) -> Value | None:
    return None if working.remainder is None else Value(working.remainder, working.remainder_places)


def _bells(working: Working) -> Value:
    return Value(sum(row.bell for row in working.table()))


def _figures(working: Working) -> Value:
    """Places before the point."""
    return Value(places_of(abs(working.answer) // 10**working.places))


def _carries(working: Working) -> Value:
    """Carry steps of number wheels, all turns together."""
    return Value(sum(event.kind is Kind.CARRY_STEP for stroke in working.strokes for event in stroke.events))


QUESTIONS = {one.name: one for one in (
    Question(name="setting", before="What will stand on the levers at the end?", after="Setting", short="setting",
             read=lambda working: Value(working.end.reading.setting)),
    Question(name="result", before="What will the result windows show?", after="Result", short="result",
             read=lambda working: Value(working.end.reading.result)),
    Question(name="counter", before="What will the counter windows show?", after="Counter", short="counter",
             read=lambda working: Value(working.end.reading.counter)),
    Question(name="answer", before="What will the {answer} be?", after="The {answer}", short="{answer}",
             read=lambda working: Value(working.answer, working.places)),
    Question(name="remainder", before="What will be left over?", after="The remainder", short="remainder",
             read=_remainder),
    Question(name="turns", before="How many turns will it take?", after="Turns of the crank", short="turns",
             read=lambda working: Value(working.turns)),
    Question(name="shifts", before="How many shifts will it take?", after="Shifts of the carriage", short="shifts",
             read=lambda working: Value(working.shifts)),
    Question(name="settings", before="How often will a number be set?", after="Numbers set", short="numbers set",
             read=lambda working: Value(working.settings)),
    Question(name="bells", before="How often will the bell ring?", after="Rings of the bell", short="bells",
             read=_bells),
    Question(name="figures", before="How many figures will the {answer} have{point}?",
             after="Figures of the {answer}{point}", short="figures", read=_figures),
    Question(name="carries", before="How many carries will there be?", after="Carries", short="carries", read=_carries),
    Question(name="position", before="At which position will the carriage end?", after="Position of the carriage",
             short="position", read=lambda working: Value(working.end.reading.carriage)),
)}


def question(name: str) -> Question:
    """The row of `QUESTIONS` with this name.

    Raises
    ------
    InputError
        There is none; with what may have been meant.

    >>> question("turn")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: 'turn' cannot be asked on a sheet: is 'turns' meant?
    """
    if not isinstance(name, str) or name not in QUESTIONS:
        near = get_close_matches(str(name), QUESTIONS, n=1)
        hint = f"is {near[0]!r} meant?" if near else f"there are {', '.join(QUESTIONS)}"
        raise InputError(f"{shown(name)} cannot be asked on a sheet: {hint}")
    return QUESTIONS[name]
