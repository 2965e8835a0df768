"""Chains: products of several factors, powers, factorials.

Only this file decides how one product becomes the next factor. Where the machine has back transfer, the result goes
back to the levers in one movement, once the carriage has come home. Where it has not, the operator reads the result
off and sets it by hand, which costs a setting (and is where slips are made), but the carriage may stay where it is.
"""

from __future__ import annotations

import math
from collections.abc import Generator, Iterator
from typing import Any

from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.methods import capacity
from mechcalc.methods.equality import SUPERSCRIPTS
from mechcalc.methods.hand import Hand, Piece, spec_of, work
from mechcalc.methods.sweeping import digits_of, joined, sweep
from mechcalc.methods.working import Working
from mechcalc.numbers import shown, whole
from mechcalc.spec import MachineSpec

WAYS = ("back transfer", "by hand")
POWER_PLANS = ("one by one", "by halves")
FACTORIAL_PLANS = ("one by one", "in two halves")
Chain = Generator[Piece, None, tuple[int, str]]


def multiply_chain(machine: Machine, *factors: int, way: str | None = None, short_cut: bool = False) -> Working:
    """Multiply several factors, each product becoming the next multiplicand.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first.
    *factors : int
        At least one; each from 0. Every product but the last has to find room on the levers.
    way : str, optional
        ``"back transfer"``: the result goes back to the levers by the machine's own gears. ``"by hand"``: it is
        read off and set again. Back transfer unless given, where it is fitted.
    short_cut : bool
        Each multiplication with the fewest turns.

    Raises
    ------
    InputError
        A factor or a way that is none.
    CapacityError
        A register is short; nothing has moved.
    Locked
        Back transfer was asked for, and the machine has none.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> working = multiply_chain(Machine(load_spec("bench")), 12, 34, 56)
    >>> working
    <Working 12 × 34 × 56 = 22848: 18 turns, 3 shifts, 1 setting>
    >>> working.transfers, [line.algebra for line in working.lines if "transfer" in line.words]
    (1, ['0 + 408 = 408'])
    >>> by_hand = multiply_chain(Machine(load_spec("plain")), 12, 34, 56)
    >>> by_hand.answer, by_hand.settings, by_hand.transfers
    (22848, 2, 0)
    """
    spec = spec_of(machine)
    if not factors:
        raise InputError("there is nothing to multiply: give at least one factor")
    checked = [whole(factor, "a factor", 0) for factor in factors]
    way = _way(spec, way)
    title = joined(" × ", [shown(factor) for factor in checked])
    _check_chain(spec, title, checked)

    def method(hand: Hand) -> Chain:
        yield from hand.clear("result", "counter")
        yield from _chain(hand, checked, way, short_cut)
        return hand.value, hand.answer()

    return work(machine, title, method)


def _way(spec: MachineSpec, way: Any) -> str:
    if way is None:
        return WAYS[0] if spec.back_transfer else WAYS[1]
    if not isinstance(way, str) or way not in WAYS:
        raise InputError(f"the way is {' or '.join(map(repr, WAYS))}, not {shown(way)}")
    return way


def _check_chain(spec: MachineSpec, title: str, factors: list[int]) -> None:
    """Sizes: products but the last on the levers, the largest in the result, the longest factor in the counter."""
    products = [factors[0]]
    for factor in factors[1:]:
        if capacity.places(products[-1]) > spec.result_places:
            break
        products.append(products[-1] * factor)
    complete = len(products) == len(factors)
    setting = max(products[:-1] if complete and len(products) > 1 else products)
    multipliers = factors[1:] or [1]
    capacity.check_sizes(spec, title, setting=setting, result=max(products),
                         positions=max(map(capacity.places, multipliers)))


def _chain(hand: Hand, factors: list[int], way: str, short_cut: bool) -> Iterator[Piece]:
    """A chain from clear registers; the product stands in the result."""
    yield from hand.set(factors[0])
    if len(factors) == 1:
        yield from _multiply(hand, 1, short_cut)
    for number, factor in enumerate(factors[1:]):
        if number:
            yield from _carry_on(hand, way)
        yield from _multiply(hand, factor, short_cut)


def _multiply(hand: Hand, multiplier: int, short_cut: bool) -> Iterator[Piece]:
    """Multiply what is on the levers, result and counter being clear."""
    digits = digits_of(hand.machine.spec, hand.machine.setting, multiplier, short_cut)
    yield from sweep(hand, digits)


def _carry_on(hand: Hand, way: str) -> Iterator[Piece]:
    """Bring the product back to the levers; result and counter are clear afterwards."""
    if way == "back transfer":
        yield from hand.shift_to(0)
        yield from hand.bring_back()
        yield from hand.clear("counter")
        return
    product = hand.value
    yield from hand.set(product, f"Read {product} off the result and set it on the levers.")
    yield from hand.clear("result", "counter")


def power(machine: Machine, base: int, exponent: int, *, way: str | None = None, plan: str = "one by one",
          short_cut: bool = False) -> Working:
    """Raise a number to a power.

    Parameters
    ----------
    machine, way, short_cut
        As for `multiply_chain`.
    base : int
        From 0.
    exponent : int
        From 1.
    plan : str
        ``"one by one"``: the base is turned in again and again. ``"by halves"``: from x^k comes x^(2k) = x^k · x^k,
        or x^(2k+1) = (x^k · x) · x^k, x^k being noted on paper; that takes few multiplications, and the levers need
        to hold no more than about half of the answer's places.

    Raises
    ------
    InputError, CapacityError, Locked
        As for `multiply_chain`.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> power(Machine(load_spec("bench")), 2, 43, plan="by halves").answer == 2**43
    True
    >>> one, halves = (power(Machine(load_spec("bench")), 7, 9, plan=plan) for plan in POWER_PLANS)
    >>> one, halves
    (<Working 7⁹ = 40353607: 56 turns, 0 shifts, 1 setting>, <Working 7⁹ = 40353607: 34 turns, 5 shifts, 1 setting>)
    """
    spec = spec_of(machine)
    x, n = whole(base, "a base", 0), whole(exponent, "an exponent", 1, 1000)
    if not isinstance(plan, str) or plan not in POWER_PLANS:
        raise InputError(f"the plan is {' or '.join(map(repr, POWER_PLANS))}, not {shown(plan)}")
    way = _way(spec, way)
    title = f"{shown(x)}{str(n).translate(SUPERSCRIPTS)}"
    if plan == "one by one" or n == 1:
        _check_chain(spec, title, [x] * n)
    else:
        half = n // 2
        capacity.check_sizes(spec, title, setting=max(x, x**(n - half) if x > 1 else x), result=x**n,
                             positions=capacity.places(x**half))

    def method(hand: Hand) -> Chain:
        yield from hand.clear("result", "counter")
        if plan == "one by one" or n == 1:
            yield from _chain(hand, [x] * n, way, short_cut)
        else:
            yield from _halves(hand, x, n, way, short_cut)
        return hand.value, hand.answer()

    return work(machine, title, method)


def _halves(hand: Hand, base: int, exponent: int, way: str, short_cut: bool) -> Iterator[Piece]:
    """Double the exponent again and again, adding one where its next binary digit is a 1."""
    yield from hand.set(base)
    for number, bit in enumerate(format(exponent, "b")[1:]):
        if number:
            yield from _carry_on(hand, way)
        noted = hand.machine.setting
        if bit == "1":
            yield from _multiply(hand, base, short_cut)
            yield from _carry_on(hand, way)
        yield from _multiply(hand, noted, short_cut)


def factorial(machine: Machine, number: int, *, way: str | None = None, plan: str | None = None,
              short_cut: bool = False) -> Working:
    """Work 2 × 3 × … × n.

    Parameters
    ----------
    machine, way, short_cut
        As for `multiply_chain`.
    number : int
        *n*, from 1.
    plan : str, optional
        ``"one by one"``, or ``"in two halves"``: the product of the first factors is noted on paper, then that of
        the others is worked and multiplied by it. Two halves of even length need the shortest levers. One by one
        unless given, if the levers are long enough for it.

    Raises
    ------
    InputError, CapacityError, Locked
        As for `multiply_chain`.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> factorial(Machine(load_spec("bench")), 7)
    <Working 7! = 5040: 25 turns, 0 shifts, 1 setting>
    >>> working = factorial(Machine(load_spec("bench")), 15)
    >>> working.answer == math.factorial(15)
    True
    >>> factorial(Machine(load_spec("bench")), 16)
    Traceback (most recent call last):
        ...
    mechcalc.errors.CapacityError: 16! does not fit this machine: the result is short by 1 place (20922789888000 takes \
14 number wheels of 13)
    """
    spec = spec_of(machine)
    n = whole(number, "a number to take the factorial of", 1, 1000)
    if plan is not None and (not isinstance(plan, str) or plan not in FACTORIAL_PLANS):
        raise InputError(f"the plan is {' or '.join(map(repr, FACTORIAL_PLANS))}, not {shown(plan)}")
    way, title, factors = _way(spec, way), f"{n}!", list(range(2, n + 1)) or [1]
    if plan is None:
        long = n > 3 and capacity.places(math.factorial(n - 1)) > spec.setting_places
        plan = FACTORIAL_PLANS[long]
    cut = _cut(factors) if plan == "in two halves" and len(factors) > 2 else 0
    if not cut:
        _check_chain(spec, title, factors)
    else:
        first, second = math.prod(factors[:cut]), math.prod(factors[cut:])
        capacity.check_sizes(spec, title, setting=max(first // factors[cut - 1], second), result=first * second,
                             positions=capacity.places(first))

    def method(hand: Hand) -> Chain:
        yield from hand.clear("result", "counter")
        noted = 0
        if cut:
            yield from _chain(hand, factors[:cut], way, short_cut)
            noted = hand.value
            yield from hand.clear("result", "counter")
        yield from _chain(hand, factors[cut:], way, short_cut)
        if cut:
            yield from _carry_on(hand, way)
            yield from _multiply(hand, noted, short_cut)
        note = f" {noted}, the product of the first factors, was noted on paper." if cut else ""
        return hand.value, hand.answer() + note

    return work(machine, title, method)


def _cut(factors: list[int]) -> int:
    """How many factors make the first half: where the longer product is shortest."""
    return min(range(1, len(factors)), key=lambda cut: max(math.prod(factors[:cut]), math.prod(factors[cut:])))
