"""Conditions: a measure and the bounds it has to keep, as objects and as text.

Only this file decides how a condition is written and read.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from mechcalc.errors import InputError
from mechcalc.numbers import shown, whole
from mechcalc.preparing.case import Case
from mechcalc.preparing.counts import MEASURES, Measure, Stage

RELATIONS = {">=": "at least", "<=": "at most", "=": "exactly", ">": "more than", "<": "less than"}


@dataclass(frozen=True, slots=True)
class Condition:
    """A measure, and between what it has to be.

    Parameters
    ----------
    measure : str
        A name in `mechcalc.preparing.MEASURES`.
    of : str
        The number it is asked of (``"multiplier"``, ``"answer"``); empty for what is asked of none.
    low, high : int or None
        Both included; None where there is no bound.

    Examples
    --------
    >>> condition("ripple >= 4")
    Condition('ripple >= 4')
    >>> condition("ripple at least 4") == Condition("ripple", low=4)
    True
    """

    measure: str
    of: str = ""
    low: int | None = None
    high: int | None = None

    def __repr__(self) -> str:
        return f"Condition({self.text!r})"

    @property
    def row(self) -> Measure:
        """What is measured."""
        return MEASURES[self.measure]

    @property
    def stage(self) -> Stage:
        """How dear it is to ask."""
        return self.row.stage

    @property
    def text(self) -> str:
        """As it is written; `condition` reads it back."""
        subject = f"{self.measure} in {self.of}" if self.of else self.measure
        if self.low is None:
            return f"{subject} <= {self.high}"
        if self.high is None:
            return f"{subject} >= {self.low}"
        return f"{subject} = {self.low}" if self.low == self.high else f"{subject} from {self.low} to {self.high}"

    def shortfall(self, case: Case) -> int:
        """By how much a candidate misses it; 0 where it is met."""
        value = self.row.value(case, self.of)
        if self.low is not None and value < self.low:
            return self.low - value
        return value - self.high if self.high is not None and value > self.high else 0

    def met(self, case: Case) -> bool:
        """Whether a candidate meets it."""
        return self.shortfall(case) == 0

    def says(self, case: Case) -> str:
        """What was found, in a sentence."""
        return self.row.words(case, self.of, self.row.value(case, self.of))

    def clear(self, case: Case) -> int:
        """How clearly it shows, 0 to 10."""
        return self.row.clear(case, self.of, self.row.value(case, self.of))


# Whole phrases, and what they stand for. {} is the name of a number.
PHRASES = {"no nought in {}": "noughts in {} = 0", "nought inside {}": "inner noughts in {} >= 1",
           "no nought at the end of {}": "end noughts in {} = 0",
           "distinct figures in {}": "repeated figures in {} = 0", "no carry": "ripple = 0"}


def condition(given: Any) -> Condition:
    """Read a condition.

    Raises
    ------
    InputError
        It is none; with what may have been meant.
    """
    if isinstance(given, Condition):
        return given
    if not isinstance(given, str):
        raise InputError(f"a condition is a text such as 'ripple >= 4', not {shown(given)}")
    text = " ".join(given.lower().replace("≥", ">=").replace("≤", "<=").split())
    for phrase, stands_for in PHRASES.items():
        if read := re.fullmatch(re.escape(phrase).replace(r"\{\}", "(.+)"), text):
            text = stands_for.format(*read.groups())
            break
    for sign, words in RELATIONS.items():
        text = text.replace(f" {words} ", f" {sign} ")
    if between := re.fullmatch(r"(.+?) from ([0-9]+) to ([0-9]+)", text):
        return _of(given, between[1], int(between[2]), int(between[3]))
    read = re.fullmatch(r"(.+?) ?(>=|<=|=|>|<) ?(-?[0-9]+)", text)
    if not read:
        raise InputError(f"{shown(given)} is no condition: write what is counted, a relation and a number, as in "
                         f"'ripple >= 4', or one of the phrases of the list")
    number = whole(int(read[3]), "a bound")
    low, high = {">=": (number, None), "<=": (None, number), "=": (number, number), ">": (number + 1, None),
                 "<": (None, number - 1)}[read[2]]
    return _of(given, read[1], low, high)


def _of(given: str, subject: str, low: int | None, high: int | None) -> Condition:
    measure, _, of = subject.partition(" in ")
    if measure not in MEASURES:
        near = get_close_matches(measure, MEASURES, n=1)
        hint = f"did you mean {near[0]!r}?" if near else f"there are {', '.join(MEASURES)}"
        raise InputError(f"{shown(given)} counts nothing that is known: {hint}")
    return Condition(measure, of, low, high)
