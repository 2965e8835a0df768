"""Checking the numbers that people hand in, and turning numbers into digits and back.

Only this file decides what counts as a whole number or an angle. Digit tuples are units first.
"""

from __future__ import annotations

import math
import operator
from collections.abc import Iterable
from typing import Any

from mechcalc.errors import InputError


def shown(value: Any) -> str:
    """The value as an error message shows it, cut short where it is long.

    >>> shown("seven")
    "'seven'"
    >>> shown(10**50)
    'a number of 51 digits'
    """
    if isinstance(value, int) and not isinstance(value, bool) and abs(value) >= 10**40:
        if value.bit_length() < 1000:
            return f"a number of {len(str(abs(value)))} digits"
        return f"a number of about {int(value.bit_length() * math.log10(2)) + 1} digits"
    try:
        text = repr(value)
    except Exception:  # a list or a fraction with a number too long to be written out
        text = f"a {type(value).__name__} that cannot be shown"
    return text if len(text) <= 60 else text[:57] + "..."


def is_truth(value: Any) -> bool:
    """Whether this is True or False, Python's own or numpy's."""
    return isinstance(value, bool) or type(value).__name__ in ("bool_", "bool")


def whole(value: Any, what: str, low: int | None = None, high: int | None = None,
          error: type[InputError] = InputError) -> int:
    """`value` as an int between `low` and `high`, both included.

    Parameters
    ----------
    value : int
        Anything with ``__index__`` (numpy's and sympy's integers too). A bool, a float and a text are refused,
        even where they happen to be whole: a lever has no position 3.0.
    what : str
        The subject of the message.
    low, high : int, optional
        The range.
    error : type
        Which error to raise.

    Raises
    ------
    InputError
        With the rule, the value and the place.

    >>> whole(7, "a digit", 0, 9)
    7
    >>> whole(12, "a digit", 0, 9)
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: a digit cannot be 12: it goes from 0 to 9
    """
    try:
        number = None if is_truth(value) else operator.index(value)
    except TypeError:
        number = None
    if number is None:
        raise error(f"{what} must be a whole number, not {shown(value)} ({type(value).__name__})")
    if (low is not None and number < low) or (high is not None and number > high):
        span = f"from {low} to {high}" if high is not None and low is not None else (
            f"from {low} upwards" if low is not None else f"up to {high}")
        raise error(f"{what} cannot be {shown(number)}: it goes {span}")
    return number


def finite(value: Any, what: str) -> float:
    """`value` as a finite float; an int, float, Fraction or Decimal is taken, a bool or a text is not.

    >>> finite(120, "a crank angle")
    120.0
    >>> finite(float("nan"), "a crank angle")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: a crank angle must be a finite number of degrees, not nan
    """
    if is_truth(value) or isinstance(value, (str, bytes)) or not hasattr(value, "__float__"):
        raise InputError(f"{what} must be a number of degrees, not {shown(value)} ({type(value).__name__})")
    try:
        number = float(value)
    except (OverflowError, TypeError, ValueError):
        number = math.inf
    if not math.isfinite(number):
        raise InputError(f"{what} must be a finite number of degrees, not {shown(value)}")
    return number


def to_digits(number: int, places: int) -> tuple[int, ...]:
    """The lowest `places` digits of a number that is not negative, units first.

    >>> to_digits(347, 5)
    (7, 4, 3, 0, 0)
    """
    digits = []
    for _ in range(places):
        number, digit = divmod(number, 10)
        digits.append(digit)
    return tuple(digits)


def from_digits(digits: Iterable[int]) -> int:
    """The number that digits, units first, stand for.

    >>> from_digits((7, 4, 3, 0, 0))
    347
    """
    number = 0
    for digit in reversed(tuple(digits)):
        number = number * 10 + digit
    return number
