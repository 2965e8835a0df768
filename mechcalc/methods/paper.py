"""What is done on paper with the sums that a machine gave: mean, standard deviation, a least-squares line.

Only this file takes statistics further than the machine. Everything is an exact fraction of the machine's whole
numbers until the very last step, a root or a decimal, which is rounded once. Each result can say which of its steps
were done where (`steps`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from html import escape
from math import isqrt
from typing import Any

from mechcalc.errors import InputError
from mechcalc.methods.points import MOST, number_of, on_wheels, point_of, read
from mechcalc.methods.working import Working
from mechcalc.numbers import shown, whole

Step = tuple[str, str]  # ("machine" or "paper", what was done)
SMALLEST = "smallest"


@dataclass(frozen=True, slots=True)
class Coding:
    """How values stand on the wheels: value = offset + on / 10^point.

    Attributes
    ----------
    name : str
        ``"x"`` or ``"y"``.
    point : int
        Places after the point.
    offset : Decimal
        Taken off every value.
    on : tuple of int
        What is set, in the order of the data.
    """

    name: str
    point: int
    offset: Decimal
    on: tuple[int, ...]

    @property
    def note(self) -> str:
        """How the values were prepared on paper; empty if they stand as they are."""
        less = f" {'−' if self.offset > 0 else '+'} {abs(self.offset):f}" if self.offset else ""
        by = f", times 10^{self.point}" if self.point else ""
        return f"{self.name}{less}{by} for every {self.name}" if less or by else ""


def coded(values: Sequence[Any], offset: Any, name: str) -> Coding:
    """Values less an offset, as whole numbers.

    Parameters
    ----------
    values : sequence of Decimal, int or str
        At least one; below nought too, if the offset is low enough.
    offset : Decimal, int, str
        Taken off every value; ``"smallest"`` takes off the smallest of them.
    name : str
        What they are called in messages.

    Raises
    ------
    InputError
        No values; one that is none; one below nought after the offset was taken off.

    Examples
    --------
    >>> coded(["10000000.2", "10000000.1"], 10000000, "x")
    Coding(name='x', point=1, offset=Decimal('10000000'), on=(2, 1))
    >>> coded(["-1.5", "2", "-4"], "smallest", "t").on
    (25, 60, 0)
    """
    if isinstance(values, (str, bytes)) or not hasattr(values, "__iter__"):
        raise InputError(f"the values of {name} are a list of numbers, not {shown(values)}")
    given = [number_of(value, f"value {place} of {name}") for place, value in enumerate(values, start=1)]
    if not given:
        raise InputError(f"there are no values of {name}")
    off = min(given) if isinstance(offset, str) and offset == SMALLEST else number_of(offset, f"the offset of {name}")
    point = max(point_of(off), *(point_of(value) for value in given))
    on = tuple(on_wheels(value, point) - on_wheels(off, point) for value in given)
    for place, (value, number) in enumerate(zip(given, on, strict=True), start=1):
        if number < 0:
            raise InputError(f"value {place} of {name}, {value:f}, is below the offset {off:f}: the levers take no "
                             f"number below nought; an offset of at most {min(given):f} serves, or \"{SMALLEST}\"")
    return Coding(name, point, off, on)


def rounded(value: Fraction, places: int) -> Decimal:
    """A fraction to so many places, half to even.

    >>> rounded(Fraction(2, 3), 4), rounded(Fraction(1, 8), 2)
    (Decimal('0.6667'), Decimal('0.12'))
    """
    return read(round(value * 10**whole(places, "a number of places", 0, MOST)), places)


def root(value: Fraction, places: int) -> Decimal:
    """The square root of a fraction to so many places, the nearest.

    >>> root(Fraction(2), 10), root(Fraction(1, 100), 3)
    (Decimal('1.4142135624'), Decimal('0.100'))
    """
    if value < 0:
        raise InputError(f"there is no root of {shown(value)}")
    square = value * 10**(2 * whole(places, "a number of places", 0, MOST))
    low = isqrt(square.numerator // square.denominator)
    return read(low + (Fraction(2 * low + 1, 2)**2 <= square), places)


@dataclass(frozen=True, slots=True, repr=False)
class OneVariable:
    """Σx and Σx² of coded values, as the machine gave them, and what follows.

    Attributes
    ----------
    x : Coding
        How the values were set.
    sum_x, sum_xx : int
        Of the numbers as set.
    way : str
        How they were worked.
    working : Working
        The strokes.
    """

    x: Coding
    sum_x: int
    sum_xx: int
    way: str
    working: Working = field(compare=False)

    @property
    def n(self) -> int:
        """How many values there are."""
        return len(self.x.on)

    @property
    def mean(self) -> Fraction:
        """The mean of the values, exactly: offset + Σx / n."""
        return Fraction(self.x.offset) + Fraction(self.sum_x, self.n * 10**self.x.point)

    @property
    def variance(self) -> Fraction:
        """The sample variance, exactly: (n Σx² - (Σx)²) / (n (n - 1)); the offset does not matter.

        Raises
        ------
        InputError
            There is one value only.
        """
        if self.n < 2:
            raise InputError("one value has no spread: a variance takes at least two")
        spread = self.n * self.sum_xx - self.sum_x**2
        return Fraction(spread, self.n * (self.n - 1) * 100**self.x.point)

    def deviation(self, places: int = 15) -> Decimal:
        """The sample standard deviation to so many places."""
        return root(self.variance, places)

    def steps(self, places: int = 10) -> tuple[Step, ...]:
        """Every step and where it was done, decimals to so many places."""
        spread = f"{self.n} × {self.sum_xx} − {self.sum_x}²"
        return (*_prepared(self.x), ("machine", f"Σx = {self.sum_x}"), ("machine", f"Σx² = {self.sum_xx}"),
                ("paper", f"mean = {self.mean} = {rounded(self.mean, places)}"),
                ("paper", f"variance = ({spread}) / ({self.n} × {self.n - 1}){_over(2 * self.x.point)} = "
                          f"{rounded(self.variance, places)}"),
                ("paper", f"standard deviation = {self.deviation(places)}"))

    def __repr__(self) -> str:
        return f"<OneVariable n = {self.n}, Σx = {self.sum_x}, Σx² = {self.sum_xx}: {self.way}>"

    def __str__(self) -> str:
        return _listed(self.steps())

    def _repr_html_(self) -> str:
        return _html(f"Σx and Σx² of {self.n} values, {self.way}", self.steps())


@dataclass(frozen=True, slots=True, repr=False)
class TwoVariables:
    """The five sums of coded pairs, as the machine gave them, and the least-squares line y = intercept + slope x.

    Attributes
    ----------
    x, y : Coding
        How the values were set.
    sum_x, sum_y, sum_xx, sum_xy, sum_yy : int
        Of the numbers as set.
    way : str
        How they were worked.
    working : Working
        The strokes.
    """

    x: Coding
    y: Coding
    sum_x: int
    sum_y: int
    sum_xx: int
    sum_xy: int
    sum_yy: int
    way: str
    working: Working = field(compare=False)

    @property
    def n(self) -> int:
        """How many pairs there are."""
        return len(self.x.on)

    @property
    def of_x(self) -> OneVariable:
        """Mean and spread of x."""
        return OneVariable(self.x, self.sum_x, self.sum_xx, self.way, self.working)

    @property
    def of_y(self) -> OneVariable:
        """Mean and spread of y."""
        return OneVariable(self.y, self.sum_y, self.sum_yy, self.way, self.working)

    @property
    def slope(self) -> Fraction:
        """(n Σxy - Σx Σy) / (n Σx² - (Σx)²), exactly, with the points put right.

        Raises
        ------
        InputError
            All x are alike.
        """
        below = self.n * self.sum_xx - self.sum_x**2
        if not below:
            raise InputError("all x are alike: no line can be laid through the points")
        above = self.n * self.sum_xy - self.sum_x * self.sum_y
        return Fraction(above * 10**self.x.point, below * 10**self.y.point)

    @property
    def intercept(self) -> Fraction:
        """Mean of y less slope times mean of x, exactly."""
        return self.of_y.mean - self.slope * self.of_x.mean

    def steps(self, places: int = 10) -> tuple[Step, ...]:
        """Every step and where it was done, decimals to so many places."""
        n, x, y, xx, xy = self.n, self.sum_x, self.sum_y, self.sum_xx, self.sum_xy
        moved = self.x.point - self.y.point
        by = f" × 10^{moved}" if moved > 0 else _over(-moved)
        sums = [("Σx", x), ("Σy", y), ("Σx²", xx), ("Σxy", xy), ("Σy²", self.sum_yy)]
        return (*_prepared(self.x), *_prepared(self.y), *(("machine", f"{name} = {value}") for name, value in sums),
                ("paper", f"slope = ({n} × {xy} − {x} × {y}) / ({n} × {xx} − {x}²){by} = "
                          f"{rounded(self.slope, places)}"),
                ("paper", f"intercept = {rounded(self.of_y.mean, places)} − slope × {rounded(self.of_x.mean, places)} "
                          f"= {rounded(self.intercept, places)}"))

    def __repr__(self) -> str:
        return (f"<TwoVariables n = {self.n}, Σx = {self.sum_x}, Σy = {self.sum_y}, Σx² = {self.sum_xx}, "
                f"Σxy = {self.sum_xy}, Σy² = {self.sum_yy}: {self.way}>")

    def __str__(self) -> str:
        return _listed(self.steps())

    def _repr_html_(self) -> str:
        return _html(f"A line through {self.n} points, {self.way}", self.steps())


def _prepared(coding: Coding) -> tuple[Step, ...]:
    return (("paper", coding.note),) if coding.note else ()


def _over(power: int) -> str:
    return f" / 10^{power}" if power > 0 else ""


def _listed(steps: tuple[Step, ...]) -> str:
    return "\n".join(f"{f'on {where}' if where == 'paper' else 'on the machine':<16}{what}" for where, what in steps)


def _html(caption: str, steps: tuple[Step, ...]) -> str:
    rows = "".join(f'<tr><th scope="row">{number}</th><td>{where}</td><td>{escape(what)}</td></tr>\n'
                   for number, (where, what) in enumerate(steps, start=1))
    head = "".join(f'<th scope="col">{name}</th>' for name in ("step", "where", "what"))
    return (f"<table>\n<caption>{escape(caption)}</caption>\n<thead><tr>{head}</tr></thead>\n<tbody>\n{rows}</tbody>\n"
            f"</table>\n")
