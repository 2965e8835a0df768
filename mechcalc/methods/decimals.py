"""Sums, products and powers of decimal numbers: whole numbers on the wheels, and a point that the operator keeps.

Only this file connects `points` with the methods for whole numbers.
"""

from __future__ import annotations

from collections.abc import Generator
from decimal import Decimal
from typing import Any

from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.methods import capacity
from mechcalc.methods.chains import power
from mechcalc.methods.equality import SUPERSCRIPTS
from mechcalc.methods.hand import Hand, Piece, spec_of, work
from mechcalc.methods.multiplication import multiply, multiply_short_cut
from mechcalc.methods.points import (
    EXACT,
    MOST,
    Answer,
    Points,
    number_of,
    on_wheels,
    places_to_keep,
    point_of,
    read,
    rule_of,
)
from mechcalc.methods.sweeping import joined
from mechcalc.numbers import whole


def multiply_decimals(machine: Machine, multiplicand: Any, multiplier: Any, *, places: int | None = None,
                      rounding: str = "half even", short_cut: bool = False) -> Answer:
    """Multiply two decimal numbers.

    The sign is found on paper; the machine multiplies the digits.

    Parameters
    ----------
    machine : Machine
        To work on.
    multiplicand, multiplier : Decimal, int or str
        The first goes on the levers, the second is turned.
    places : int, optional
        Keep of each factor only what is needed for so many places of the product (`places_to_keep`), and round the
        answer to them. Its last place may be out by one, if the exact product lies within a fifth of a unit of
        where the rounding changes. Unless given, the product is exact.
    rounding : str
        Of factors and answer: ``"half even"``, ``"half up"`` or ``"down"``.
    short_cut : bool
        With the fewest turns.

    Raises
    ------
    InputError, CapacityError
        As for `multiply`.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> machine = Machine(load_spec("bench"))
    >>> answer = multiply_decimals(machine, "3.47", "2.6")
    >>> answer, str(answer.points)
    (<Answer 3.47 × 2.6 = 9.022>, 'points: 2 in the setting, 1 in the counter, 3 in the result')
    >>> print(answer.remark)
    The result has 2 + 1 = 3 places after the point.
    >>> multiply_decimals(machine, "3.14159265358979", "2.718281828459045", places=2)
    <Answer 3.14159265358979 × 2.718281828459045 = 8.54>
    >>> multiply_decimals(machine, "3.47", "-9.8", short_cut=True, places=1).working.title
    '347 × 98'
    """
    a, b = number_of(multiplicand, "a multiplicand"), number_of(multiplier, "a multiplier")
    rule, title = rule_of(rounding), f"{_factor(a)} × {_factor(b)}"
    if places is not None:
        keep = places_to_keep(a, b, whole(places, "a number of places", 0, MOST))
        a, b = (number if point_of(number) <= most else number.quantize(Decimal(1).scaleb(-most), rule, EXACT)
                for number, most in zip((a, b), keep, strict=True))
    points = Points.of_product(point_of(a), point_of(b))
    method = multiply_short_cut if short_cut else multiply
    working = method(machine, on_wheels(abs(a), points.setting), on_wheels(abs(b), points.counter))
    value = read(working.answer, points.result) * (-1 if a.is_signed() != b.is_signed() and working.answer else 1)
    remark = f"The result has {points.setting} + {points.counter} = {points.result} places after the point."
    if places is not None and places < points.result:
        value = value.quantize(Decimal(1).scaleb(-places), rule, EXACT)
        remark += f" Rounded to {places}, {rounding}."
    return Answer(title, value, points, working, remark)


def add_decimals(machine: Machine, *numbers: Any) -> Answer:
    """Add decimal numbers, the points under each other; one below nought is taken away.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first, and the carriage goes home.
    *numbers : Decimal, int or str
        At least one.

    Raises
    ------
    InputError, CapacityError
        As for `add` and `subtract`.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> answer = add_decimals(Machine(load_spec("bench")), "12.5", "-3.75", 100)
    >>> answer
    <Answer 12.5 − 3.75 + 100 = 108.75>
    >>> [line.algebra for line in answer.working.lines if "add" in line.words]
    ['0 + 1250 = 1250', '875 + 10000 = 10875']
    """
    spec = spec_of(machine)
    if not numbers:
        raise InputError("there is nothing to add: give at least one number")
    given = [number_of(number, "a number to add") for number in numbers]
    points = Points.of_sum(*(point_of(number) for number in given))
    on = [on_wheels(number, points.result) for number in given]
    title = joined(" + ", [f"{number:f}" for number in given]).replace("+ -", "− ").replace("-", "−")
    capacity.check_sizes(spec, title, setting=max(map(abs, on)), result=max(0, sum(on)))

    def method(hand: Hand) -> Generator[Piece, None, tuple[int, str]]:
        yield from hand.clear("result", "counter")
        yield from hand.shift_to(0)
        for number in on:
            yield from hand.set(abs(number))
            yield from hand.turn(-1 if number < 0 else 1)
        return hand.value, hand.answer()

    working = work(machine, title, method)
    return Answer(title, read(working.answer, points.result), points, working,
                  f"All numbers have {points.result} places after the point, and so has the result.")


def growth(machine: Machine, rate: Any, periods: int, *, way: str | None = None, plan: str = "one by one",
           short_cut: bool = False) -> Answer:
    """Compound growth without rounding: (1 + rate)^periods, every place of it.

    Parameters
    ----------
    machine, way, plan, short_cut
        As for `power`.
    rate : Decimal, int or str
        Of one period, ``"0.05"`` for five in a hundred; more than -1.
    periods : int
        From 1.

    Raises
    ------
    InputError, CapacityError, Locked
        As for `power`. Exact growth takes as many places after the point as rate and periods multiplied together;
        `mechcalc.methods.interest_table` rounds on the way.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> answer = growth(Machine(load_spec("bench")), "0.05", 5)
    >>> answer, answer.working.title
    (<Answer (1 + 0.05)⁵ = 1.2762815625>, '105⁵')
    >>> print(answer.remark)
    1.05 has 2 places after the point, and its power 5 × 2 = 10.
    """
    added = number_of(rate, "a rate")
    n = whole(periods, "a number of periods", 1, 1000)
    place = point_of(added)
    base = 10**place + on_wheels(added, place)
    if base <= 0:
        raise InputError(f"a rate must be more than -1, not {added}: nothing would be left")
    if n * place > 10 * MOST:
        raise InputError(f"exact growth would take {n} × {place} places after the point; round on the way")
    working = power(machine, base, n, way=way, plan=plan, short_cut=short_cut)
    last = 1 if plan == "one by one" else n // 2  # the exponent of the last multiplier
    points = Points.of_product((n - last) * place, last * place)
    title = f"(1 {'+' if added >= 0 else '−'} {abs(added):f}){str(n).translate(SUPERSCRIPTS)}"
    return Answer(title, read(working.answer, n * place), points, working,
                  f"{read(base, place):f} has {place} places after the point, and its power {n} × {place} = "
                  f"{n * place}.")


def _factor(number: Decimal) -> str:
    text = f"{number:f}"
    return f"(−{text[1:]})" if text.startswith("-") else text
