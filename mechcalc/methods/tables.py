"""Tables: with a constant multiplier, of percentages, of Fibonacci numbers.

Only this file decides how one entry of such a table is made from the one before. Tables by differences and of interest
have files of their own.
"""

from __future__ import annotations

from collections.abc import Generator, Iterator, Sequence
from typing import Any

from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.methods import capacity
from mechcalc.methods.hand import Hand, Piece, spec_of, work
from mechcalc.methods.points import Points, number_of, on_wheels, point_of, read, rounded_off, rule_of
from mechcalc.methods.short_cut import plain_digits
from mechcalc.methods.sweeping import add_pieces, check_pieces, joined
from mechcalc.methods.table import Table
from mechcalc.numbers import shown, whole

MOST_ENTRIES = 2000


def multiples(machine: Machine, constant: int, multipliers: Sequence[int]) -> Table:
    """A constant on the levers, times one number after another; nothing is cleared between them.

    From one multiplier to the next only the digits that differ are turned, forwards or back, from the highest place
    down; the counter shows where one is. So no number below nought comes up on the way.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first.
    constant : int
        From 0.
    multipliers : sequence of int
        Each from 0; in the order in which they are worked.

    Raises
    ------
    InputError, CapacityError
        As for `multiply`.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> table = multiples(Machine(load_spec("bench")), 347, [12, 13, 23])
    >>> table.rows, table.workings[0].turns
    (((12, 4164), (13, 4511), (23, 7981)), 5)
    """
    spec = spec_of(machine)
    a = whole(constant, "a constant", 0)
    by = [whole(number, "a multiplier", 0) for number in multipliers]
    if not by:
        raise InputError("there is nothing to multiply by: give at least one multiplier")
    title = f"{shown(a)} × {joined(', ', [shown(number) for number in by])}"
    capacity.check_sizes(spec, title, setting=a, result=a * max(by), positions=capacity.places(max(by)))
    noted: list[tuple[int, int]] = []

    def method(hand: Hand) -> Generator[Piece, None, tuple[int, str]]:
        noted.clear()
        yield from hand.clear("result", "counter")
        yield from hand.set(a)
        was = 0
        for number in by:
            yield from _digits_that_differ(hand, was, number)
            was = number
            noted.append((number, hand.value))
        return hand.value, hand.answer()

    working = work(machine, title, method)
    return Table(title, ("multiplier", "product"), tuple(noted), (working,))


def _digits_that_differ(hand: Hand, was: int, now: int) -> Iterator[Piece]:
    """Bring the counter from one multiplier to another, place by place, from the highest down."""
    width = max(capacity.places(was), capacity.places(now))
    old, new = (plain_digits(number) + (0,) * (width - capacity.places(number)) for number in (was, now))
    for place in reversed(range(width)):
        if old[place] != new[place]:
            yield from hand.shift_to(place)
            yield from hand.turn(new[place] - old[place])


def percentages(machine: Machine, rate: Any, amounts: Sequence[Any], *, places: int = 2, rounding: str = "half even",
                of_the_whole: bool = False) -> Table:
    """A percentage of several amounts: the rate stays on the levers.

    Parameters
    ----------
    machine : Machine
        To work on.
    rate : Decimal, int or str
        In a hundred, from 0: ``"7.5"`` for seven and a half per cent.
    amounts : sequence of Decimal, int or str
        From 0. All get as many places after the point as the one with the most.
    places : int
        To which the percentages are rounded, on paper.
    rounding : str
        ``"half even"``, ``"half up"`` or ``"down"``.
    of_the_whole : bool
        The amount with its percentage: 100 more on the levers.

    Returns
    -------
    Table
        Amount, percentage exactly, percentage rounded.

    Raises
    ------
    InputError, CapacityError
        As for `multiply`.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> table = percentages(Machine(load_spec("bench")), "7.5", ["120", "131.50"])
    >>> print(table)
    7.5 % of 2 amounts
    amount  percentage  rounded
    120.00     9.00000     9.00
    131.50     9.86250     9.86
    <BLANKLINE>
    10 turns, 7 shifts, 1 setting
    """
    per_cent = number_of(rate, "a rate")
    given = [number_of(amount, "an amount") for amount in amounts]
    rule_of(rounding)
    if min([per_cent, *given]) < 0:
        raise InputError("a rate and its amounts cannot be below nought: take the sign on paper")
    on_levers = per_cent + 100 if of_the_whole else per_cent
    point, keep = max(map(point_of, given), default=0), whole(places, "a number of places", 0, 30)
    points = Points.of_product(point_of(on_levers) + 2, point)  # per cent: two more places after the point
    table = multiples(machine, on_wheels(on_levers, point_of(on_levers)), [on_wheels(a, point) for a in given])
    rows = []
    for multiplier, product in table.rows:
        short = keep - points.result
        kept = product * 10**short if short >= 0 else rounded_off(product, -short, rounding)
        rows.append((read(multiplier, point), read(product, points.result), read(kept, keep)))
    title = f"{per_cent:f} % {'added to' if of_the_whole else 'of'} {len(given)} amounts"
    return Table(title, ("amount", "percentage", "rounded"), tuple(rows), table.workings)


def fibonacci(machine: Machine, number: int) -> Table:
    """Fibonacci numbers 1, 1, 2, 3, 5, ... by one addition each.

    The result shows the newest; the one before it was noted, is set, and is turned in. A number wider than the levers
    goes in in pieces, the carriage shifted for the upper one.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first.
    number : int
        How many, from 2.

    Raises
    ------
    InputError, CapacityError
        As for `add`.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> fibonacci(Machine(load_spec("slate")), 10).column("Fibonacci number")
    (1, 1, 2, 3, 5, 8, 13, 21, 34, 55)
    """
    spec = spec_of(machine)
    many, title = whole(number, "a number of Fibonacci numbers", 2, MOST_ENTRIES), f"Fibonacci numbers 1 to {number}"
    ahead = [1, 1]
    while len(ahead) < many:
        ahead.append(ahead[-1] + ahead[-2])
    capacity.check_sizes(spec, title, result=ahead[-1])
    check_pieces(spec, title, ahead[max(0, many - 3)])
    noted: list[int] = []

    def method(hand: Hand) -> Generator[Piece, None, tuple[int, str]]:
        noted[:] = [1, 1]
        yield from hand.clear("result", "counter")
        yield from hand.shift_to(0)
        yield from hand.set(1)
        yield from hand.turn(1)
        while len(noted) < many:
            yield from add_pieces(hand, noted[-2])
            noted.append(hand.value)
        return hand.value, hand.answer()

    working = work(machine, title, method)
    return Table(title, ("number", "Fibonacci number"), tuple(enumerate(noted, start=1)), (working,))
