"""How many turns a division takes.

Only this file counts turns without turning. What is counted are the turns in the positions of the quotient; putting
the dividend in takes one more for each piece of it (`mechcalc.methods.entering`).
"""

from __future__ import annotations

from fractions import Fraction

from mechcalc.errors import InputError
from mechcalc.numbers import shown, to_digits, whole
from mechcalc.spec import MOST_PLACES

METHODS = ("restoring", "without putting back", "compare first")


def division_turns(quotient: int, digits: int, method: str = "restoring") -> int:
    """The turns that `divide` takes for this quotient, worked in `digits` positions.

    A figure *q* takes q turns by ``"compare first"``; q + 2 by ``"restoring"`` (one too many, one to put it back);
    by ``"without putting back"`` q + 1 and 10 - q in turn, with one more at the end where the last figure was one
    of those that go one too many.

    Parameters
    ----------
    quotient : int
        From 0 to 10^digits - 1.
    digits : int
        Positions worked, noughts in front included.
    method : str
        As for `divide`.

    Examples
    --------
    >>> [division_turns(314, 3, method) for method in METHODS]
    [14, 19, 8]
    """
    digits, method = _checked(digits, method)
    number = whole(quotient, "a quotient", 0, 10**digits - 1)
    figures = to_digits(number, digits)[::-1]
    if method == "compare first":
        return sum(figures)
    if method == "restoring":
        return sum(figures) + 2 * digits
    return sum(10 - q if place % 2 else q + 1 for place, q in enumerate(figures)) + digits % 2


def average_division_turns(digits: int, method: str = "restoring") -> Fraction:
    """The exact average of `division_turns` over all dividends from 0 to divisor x 10^digits - 1.

    Each quotient of that many digits comes up for as many dividends as the divisor says, so every figure is 0 to 9
    equally often, 4.5 on average. For k digits that makes 4.5 k by ``"compare first"``, (4.5 + 2) k by
    ``"restoring"``; and since q + 1 and 10 - q are both 5.5 on average, 5.5 k + (k mod 2) by
    ``"without putting back"``.

    Examples
    --------
    >>> [float(average_division_turns(3, method)) for method in METHODS]
    [19.5, 17.5, 13.5]
    """
    digits, method = _checked(digits, method)
    return {"restoring": Fraction(13, 2) * digits, "compare first": Fraction(9, 2) * digits,
            "without putting back": Fraction(11, 2) * digits + digits % 2}[method]


def _checked(digits: int, method: str) -> tuple[int, str]:
    if not isinstance(method, str) or method not in METHODS:
        raise InputError(f"the method is {', '.join(map(repr, METHODS))}, not {shown(method)}")
    return whole(digits, "a number of quotient places", 1, MOST_PLACES), method
