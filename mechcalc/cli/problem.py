"""Reading a calculation that somebody typed, such as ``347 x 26``.

Only this file decides what may be typed. Numbers are whole and not negative: a machine has no decimal point and no
sign; both are kept in the operator's head (common practice, no source).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from mechcalc.errors import InputError
from mechcalc.numbers import shown

SIGNS = {"+": "+", "-": "-", "\N{MINUS SIGN}": "-", "\N{EN DASH}": "-", "x": "x", "X": "x", "*": "x",
         "\N{MULTIPLICATION SIGN}": "x", "\N{MIDDLE DOT}": "x", "\N{DOT OPERATOR}": "x",
         "/": "/", ":": "/", "\N{DIVISION SIGN}": "/"}
TWO_ONLY = ("/",)
ALONE = {"root": r"(?:square )?root(?: of)?\s+(\S+)", "cube root": r"cube root(?: of)?\s+(\S+)", "!": r"(\S+?)\s*!",
         "^": r"(\S+?)\s*(?:\^|\*\*)\s*(\S+)"}
MOST_DIGITS = 80


@dataclass(frozen=True, slots=True)
class Problem:
    """A calculation.

    Attributes
    ----------
    sign : str
        ``"+"``, ``"-"``, ``"x"`` or ``"/"``, between all numbers; or ``"^"``, ``"!"``, ``"root"``, ``"cube root"``.
    numbers : tuple of int
        Each 0 or more; two of them for ``"/"`` and ``"^"``, one for what stands at a single number, two or more
        otherwise.
    """

    sign: str
    numbers: tuple[int, ...]

    def __str__(self) -> str:
        if self.sign == "!":
            return f"{self.numbers[0]}!"
        if len(self.numbers) == 1:
            return f"{self.sign} of {self.numbers[0]}"
        return f" {self.sign} ".join(map(str, self.numbers))


def read_problem(text: str) -> Problem:
    """The calculation that `text` asks for.

    Raises
    ------
    InputError
        It is not whole numbers with one and the same sign between them; with what was found.

    >>> read_problem("347 x 26")
    Problem(sign='x', numbers=(347, 26))
    >>> read_problem("root 2"), read_problem("7^4"), read_problem("8!")
    (Problem(sign='root', numbers=(2,)), Problem(sign='^', numbers=(7, 4)), Problem(sign='!', numbers=(8,)))
    >>> read_problem("3.47 x 26")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: '3.47' is no whole number: a machine has no decimal point; leave it out, and put it \
into the answer by hand
    """
    for sign, form in ALONE.items():
        alone = re.fullmatch(form, text.strip())
        if alone:
            return Problem(sign, tuple(_number(part) for part in alone.groups()))
    split = re.split(r"([^\w\s.,'])|(?<![A-Za-z])([xX])(?![A-Za-z])", text)
    parts = [part.strip() for part in split if part and part.strip()]
    if parts and parts[0] in SIGNS:
        raise InputError(f"{shown(text)} begins with {parts[0]!r}: numbers have no sign on a machine; set the number "
                         f"and turn the other way")
    numbers, signs = parts[::2], {SIGNS.get(part, part) for part in parts[1::2]}
    if len(parts) < 3 or len(parts) % 2 == 0 or not signs <= set(SIGNS.values()):
        raise InputError(f"{shown(text)} is no calculation: write whole numbers with +, -, x or / between them, such "
                         f"as '347 x 26'; or 'root 2', 'cube root 10', '7 ^ 4', '8!'")
    if len(signs) > 1 or (signs <= set(TWO_ONLY) and len(numbers) > 2):
        raise InputError(f"{shown(text)} is more than one calculation: several numbers can be added, taken away "
                         f"one after another, or multiplied; two can be divided")
    return Problem(signs.pop(), tuple(_number(part) for part in numbers))


def _number(text: str) -> int:
    if text.isdecimal() and text.isascii():
        if len(text) > MOST_DIGITS:
            raise InputError(f"a number of {len(text)} digits is too long: no machine has more than 40 wheels")
        return int(text)
    if re.fullmatch(r"\d+[.,]\d+", text) and text.isascii():
        raise InputError(f"{text!r} is no whole number: a machine has no decimal point; leave it out, and put it into "
                         f"the answer by hand")
    if re.fullmatch(r"[\d\s.,'_]+", text) and text.isascii():
        raise InputError(f"{text!r} is no whole number: write its digits without anything between them")
    raise InputError(f"{shown(text)} is no whole number")
