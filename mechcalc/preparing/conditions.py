"""Conditions: a measure and the bounds that it has to keep, as objects and as text.

Only this file decides how a condition is written and read.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from mechcalc.errors import InputError
from mechcalc.numbers import shown, whole
from mechcalc.preparing.case import Case
from mechcalc.preparing.counts import ALL, MEASURES, PHRASES
from mechcalc.preparing.measure import Measure, Stage

RELATIONS = {"at least": ">=", "at most": "<=", "more than": ">", "less than": "<", "fewer than": "<", "exactly": "=",
             "≥": ">=", "≤": "<="}
ARTICLES = r"(?:the|an?) "
SUBJECT = r"[a-z][a-z0-9 ]*?"
LONGEST = 120  # characters


@dataclass(frozen=True, slots=True)
class Condition:
    """A measure, and between what it has to be.

    Parameters
    ----------
    measure : str
        A name in `mechcalc.preparing.MEASURES`.
    of : str
        The number it is asked of (``"multiplier"``, ``"answer"``); empty for a measure that is asked of none.
    low, high : int or None
        Both included; None where there is no bound. One of them has to be given.

    Raises
    ------
    InputError
        No such measure, no bound, or bounds that leave nothing.

    Examples
    --------
    >>> condition("ripple >= 4"), condition("no nought in multiplier"), condition("turns from 5 to 8")
    (Condition('ripple >= 4'), Condition('noughts in multiplier = 0'), Condition('turns from 5 to 8'))
    >>> condition("ripple at least 4") == Condition("ripple", low=4)
    True
    >>> condition("turns from 8 to 5")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: turns cannot be from 8 to 5: 8 is more than 5
    """

    measure: str
    of: str = ""
    low: int | None = None
    high: int | None = None

    def __post_init__(self) -> None:
        if not isinstance(self.measure, str) or self.measure not in ALL:
            raise InputError(f"{shown(self.measure)} is nothing that is counted: there are {', '.join(MEASURES)}")
        for name in ("low", "high"):
            if getattr(self, name) is not None:
                object.__setattr__(self, name, whole(getattr(self, name), f"a bound of {self.subject}"))
        if self.low is None and self.high is None:
            raise InputError(f"{self.subject} has no bound: give low, high, or both")
        if self.low is not None and self.high is not None and self.low > self.high:
            raise InputError(f"{self.subject} cannot be from {self.low} to {self.high}: {self.low} is more than "
                             f"{self.high}")

    def __repr__(self) -> str:
        return f"Condition({self.text!r})"

    def __str__(self) -> str:
        return self.text

    @property
    def row(self) -> Measure:
        """What is measured."""
        return ALL[self.measure]

    @property
    def stage(self) -> Stage:
        """How dear it is to ask."""
        return self.row.stage

    @property
    def subject(self) -> str:
        """What has the bounds: ``"ripple"``, ``"noughts in multiplier"``, ``"multiplier"``."""
        if self.measure == "value":
            return self.of
        return f"{self.measure} in {self.of}" if self.of else self.measure

    @property
    def text(self) -> str:
        """As it is written; `condition` reads it back."""
        if self.low is None:
            return f"{self.subject} <= {self.high}"
        if self.high is None:
            return f"{self.subject} >= {self.low}"
        if self.low == self.high:
            return f"{self.subject} = {self.low}"
        return f"{self.subject} from {self.low} to {self.high}"

    def value(self, case: Case) -> int:
        """What is counted in a candidate that the machine has room for."""
        return self.row.value(case, self.of)

    def missing(self, value: int) -> int:
        """By how much a value lies outside the bounds; 0 inside."""
        if self.low is not None and value < self.low:
            return self.low - value
        return value - self.high if self.high is not None and value > self.high else 0

    def met(self, case: Case) -> bool:
        """Whether a candidate meets it."""
        return not self.missing(self.value(case))

    def says(self, case: Case) -> str:
        """What was found, in a sentence."""
        return self.row.words(case, self.of, self.value(case))

    def clear(self, case: Case) -> int:
        """How clearly it shows, 0 to 10; what is only not to happen shows well enough."""
        if self.low is None or self.low < 1:
            return 10
        return self.row.clear(case, self.of, self.value(case))


def condition(given: Any) -> Condition:
    """Read a condition.

    Parameters
    ----------
    given : str or Condition
        A measure, a relation (``>= <= = > <``, or in words) and a whole number; ``from … to …``; or one of the
        phrases in `mechcalc.preparing.PHRASES`. Any other subject is taken for the name of a number, whose value is
        meant; `Wish` knows which numbers there are.

    Raises
    ------
    InputError
        It is none of these.

    Examples
    --------
    >>> condition("multiplier >= 50"), condition("The bell rings")
    (Condition('multiplier >= 50'), Condition('bells >= 1'))
    >>> condition("ripple")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: 'ripple' is no condition: write what is counted, a relation and a whole number, as in \
'ripple >= 4' or 'turns from 5 to 8', or one of the phrases ('no carry', 'bell rings', …)
    """
    if isinstance(given, Condition):
        return given
    if not isinstance(given, str) or len(given) > LONGEST:
        raise InputError(f"a condition is a short text such as 'ripple >= 4', not {shown(given)}")
    text = _written_out(given)
    between = re.fullmatch(rf"({SUBJECT}) (?:is |are )?from (-?[0-9]+) to (-?[0-9]+)", text)
    if between:
        return _bounds(between[1], int(between[2]), int(between[3]))
    read = re.fullmatch(rf"({SUBJECT}) ?(?:is |are )?(>=|<=|=|>|<) ?(-?[0-9]+)", text)
    if not read:
        raise InputError(f"{shown(given)} is no condition: write what is counted, a relation and a whole number, as in "
                         f"'ripple >= 4' or 'turns from 5 to 8', or one of the phrases ('no carry', 'bell rings', …)")
    number = int(read[3])
    return _bounds(read[1], *{">=": (number, None), "<=": (None, number), "=": (number, number),
                              ">": (number + 1, None), "<": (None, number - 1)}[read[2]])


def _written_out(given: str) -> str:
    """Lower case, single spaces, minus signs and relations in one form, and a phrase replaced by what it stands for."""
    text = re.sub(f"^{ARTICLES}", "", " ".join(given.lower().replace("−", "-").split()))
    for phrase, stands_for in PHRASES.items():
        before, slot, after = phrase.partition("{}")
        of = text.removeprefix(before).removesuffix(after) if slot else ""
        if text == before + of + after and bool(of) == bool(slot):
            return stands_for.format(re.sub(f"^{ARTICLES}", "", of))
    for words, sign in RELATIONS.items():
        text = text.replace(words if words in "≥≤" else f" {words} ", f" {sign} ")
    return " ".join(text.split())


def _bounds(subject: str, low: int | None, high: int | None) -> Condition:
    measure, _, of = subject.partition(" in ")
    if measure in MEASURES and measure != "value":
        return Condition(measure, re.sub(f"^{ARTICLES}", "", of), low, high)
    return Condition("value", subject, low, high)
