"""Decimal points: where they go in setting, counter and result, and how many places to keep.

Only this file knows where a point goes. The wheels know nothing of it: every register holds a whole number, and the
operator slides a marker. Writing *point* for the number of places after it,

    number on the levers = setting / 10^point(setting)

and so on for counter and result, so a product, result = setting × counter, has point(result) = point(setting) +
point(counter); a quotient, counter = result / setting, has point(counter) = point(result) - point(setting); and a sum
has all its points alike. This is place-value arithmetic, and every rule here is worked out, none looked up.
"""

from __future__ import annotations

import decimal
from dataclasses import dataclass
from decimal import Decimal
from html import escape
from typing import Any

from mechcalc.errors import InputError
from mechcalc.methods.working import Working
from mechcalc.numbers import is_truth, shown, whole

EXACT = decimal.Context(prec=decimal.MAX_PREC, Emax=decimal.MAX_EMAX, Emin=decimal.MIN_EMIN)
MOST = 100  # places before or after a point
ROUNDINGS = {"half up": decimal.ROUND_HALF_UP, "half even": decimal.ROUND_HALF_EVEN, "down": decimal.ROUND_DOWN}


def number_of(value: Any, what: str) -> Decimal:
    """A decimal number as someone writes it: a Decimal, a whole number, or a text such as ``"3.47"``.

    A float is refused: 0.1 as a float is not one tenth.

    Raises
    ------
    InputError
        It is none of these, or not finite, or has more than 100 places on either side of the point.

    Examples
    --------
    >>> number_of("3.47", "a factor"), number_of(12, "a factor")
    (Decimal('3.47'), Decimal('12'))
    >>> number_of(0.1, "a factor")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: a factor must be a Decimal, a whole number or a text, not 0.1 (float): write '0.1'
    """
    if isinstance(value, float):
        raise InputError(f"{what} must be a Decimal, a whole number or a text, not {shown(value)} (float): write "
                         f"{str(value)!r}")
    if isinstance(value, Decimal) or (isinstance(value, str) and not is_truth(value)):
        try:
            number = Decimal(value)
        except decimal.InvalidOperation:
            raise InputError(f"{what} must be a number such as '3.47', not {shown(value)}") from None
    else:
        number = Decimal(whole(value, what))
    if not number.is_finite():
        raise InputError(f"{what} must be a finite number, not {shown(value)}")
    exponent = number.as_tuple().exponent
    assert isinstance(exponent, int)
    if exponent < -MOST or number.adjusted() >= MOST:
        raise InputError(f"{what} has too many places: {shown(value)}; at most {MOST} on either side of the point")
    return number


def point_of(number: Decimal) -> int:
    """How many places after the point a number is written with; noughts at the end count.

    >>> point_of(Decimal("3.470")), point_of(Decimal("1E+3"))
    (3, 0)
    """
    exponent = number.as_tuple().exponent
    assert isinstance(exponent, int)
    return max(0, -exponent)


def on_wheels(number: Decimal, point: int) -> int:
    """The whole number that a register holds, the point standing so many places from the right.

    >>> on_wheels(Decimal("3.47"), 3)
    3470
    """
    moved = number.scaleb(point, EXACT)
    if moved != moved.to_integral_value():
        raise InputError(f"{number} does not stand on wheels with {point} places after the point: it has "
                         f"{point_of(number)}")
    return int(moved)


def read(register: int, point: int) -> Decimal:
    """What a register means, the point standing so many places from the right (to the right of all where negative).

    >>> read(9022, 3), read(42, 0), read(42, -2)
    (Decimal('9.022'), Decimal('42'), Decimal('4200'))
    """
    return Decimal(register * 10**max(0, -point)).scaleb(-max(0, point), EXACT)


def rounded_off(number: int, drop: int, rounding: str) -> int:
    """A number without its last `drop` digits, rounded by one of `ROUNDINGS`.

    Examples
    --------
    >>> rounded_off(1250, 2, "half up"), rounded_off(1250, 2, "half even"), rounded_off(1299, 2, "down")
    (13, 12, 12)
    """
    return int(read(number, drop).quantize(Decimal(1), rule_of(rounding), EXACT))


def rule_of(rounding: Any) -> str:
    """The `decimal` module's name of a rounding rule, or an `InputError` that lists ours."""
    if not isinstance(rounding, str) or rounding not in ROUNDINGS:
        raise InputError(f"the rounding is {', '.join(map(repr, ROUNDINGS))}, not {shown(rounding)}")
    return ROUNDINGS[rounding]


@dataclass(frozen=True, slots=True)
class Points:
    """How many places stand after the point in each register. Below nought: noughts are to be written after it."""

    setting: int
    counter: int
    result: int

    @classmethod
    def of_product(cls, setting: int, counter: int) -> Points:
        """result = setting × counter.

        >>> Points.of_product(2, 1)
        Points(setting=2, counter=1, result=3)
        """
        return cls(setting, counter, setting + counter)

    @classmethod
    def of_quotient(cls, result: int, setting: int) -> Points:
        """counter = result / setting.

        >>> Points.of_quotient(5, 2), Points.of_quotient(0, 2).counter
        (Points(setting=2, counter=3, result=5), -2)
        """
        return cls(setting, result - setting, result)

    @classmethod
    def of_sum(cls, *points: int) -> Points:
        """All alike: as many as the number with the most; turns are counted whole.

        >>> Points.of_sum(2, 0, 1)
        Points(setting=2, counter=0, result=2)
        """
        return cls(max(points), 0, max(points))

    def __str__(self) -> str:
        return f"points: {self.setting} in the setting, {self.counter} in the counter, {self.result} in the result"


@dataclass(frozen=True, slots=True)
class Answer:
    """A decimal number worked on the machine.

    Attributes
    ----------
    title : str
        The calculation with its points.
    value : Decimal
        What it comes to.
    points : Points
        Where the markers stand.
    working : Working
        The strokes; its own answer is the whole number on the wheels.
    remark : str
        How the value is read.
    """

    title: str
    value: Decimal
    points: Points
    working: Working
    remark: str

    def __repr__(self) -> str:
        return f"<Answer {self.title} = {self.value:f}>"

    def __str__(self) -> str:
        return f"{self.working}\n{self.title} = {self.value:f}. {self.remark}"

    def _repr_html_(self) -> str:
        return f"{self.working._repr_html_()}<p>{escape(f'{self.title} = {self.value:f}. {self.remark}')}</p>\n"


def places_to_keep(first: Any, second: Any, wanted: int) -> tuple[int, int]:
    """How many places after the point to keep of two factors, for a product right to `wanted` places.

    Each factor keeps as many as are wanted, one more for safety, and one for every place that the other has before
    its point (less, where the other begins with noughts after the point): what is left off one factor is multiplied
    by the other.

    Notes
    -----
    With |b| < 10^e, a rounded to w + 1 + e places is wrong by at most half a unit there, and so the product by at
    most 0.05 units of place w; both factors together by 0.1 units and a bit, before the product itself is rounded.

    Examples
    --------
    >>> places_to_keep("3.14159265", "217.4", 2)
    (6, 4)
    >>> places_to_keep("3.14159265", "0.00217", 2)
    (1, 4)
    """
    a, b = number_of(first, "a factor"), number_of(second, "a factor")
    wanted = whole(wanted, "a number of places", 0, MOST)
    return _kept(b, wanted), _kept(a, wanted)


def _kept(other: Decimal, wanted: int) -> int:
    size = other.adjusted() + 1 if other else 0  # |other| < 10^size
    return max(0, wanted + 1 + size)
