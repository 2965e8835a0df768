"""Multiplying by shifting: the multiplicand on the levers, a digit of the multiplier at each carriage position.

Only this file decides in which order the digits are worked.
"""

from __future__ import annotations

from collections.abc import Generator

from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.methods import capacity
from mechcalc.methods.complement import signed_result
from mechcalc.methods.hand import Hand, Method, Piece, spec_of, work
from mechcalc.methods.short_cut import plain_digits, signed_digits
from mechcalc.methods.working import Working
from mechcalc.numbers import from_digits, shown, whole

ORDERS = ("units first", "highest first")


def multiply(machine: Machine, multiplicand: int, multiplier: int, *, order: str = "units first",
             keep: bool = False) -> Working:
    """Multiply by repeated addition in each place: as many turns as the multiplier's digits add up to.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first; the counter then shows the multiplier.
    multiplicand, multiplier : int
        From 0. The multiplier may have as many places as the carriage has positions.
    order : str
        ``"units first"``: the carriage goes up; a carry never has to reach further than one place beyond the
        multiplicand. ``"highest first"``: the carriage comes down, as is handy after a division; carries may have
        to run further.
    keep : bool
        Add the product to what is in the result register, for a sum of products.

    Raises
    ------
    InputError
        A number or an order that is none.
    CapacityError
        Setting, result, counter, carriage or carry reach is short; nothing has moved.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> machine = Machine(load_spec("bench"))
    >>> multiply(machine, 347, 26)
    <Working 347 × 26 = 9022: 8 turns, 1 shift, 1 setting>
    >>> multiply(machine, 347, 26, order="highest first").lines[-1].algebra
    '8675 + 347 = 9022'
    >>> multiply(machine, 2, 100, keep=True).answer
    9222
    """
    spec = spec_of(machine)
    a, b = whole(multiplicand, "a multiplicand", 0), whole(multiplier, "a multiplier", 0)
    if not isinstance(order, str) or order not in ORDERS:
        raise InputError(f"the order is {' or '.join(map(repr, ORDERS))}, not {shown(order)}")
    start = signed_result(machine) if keep else 0
    title = _title(start, keep, a, b)
    capacity.check_sizes(spec, title, setting=a, result=max(0, start + a * b), positions=capacity.places(b))
    return work(machine, title, _by_digits(a, plain_digits(b), order, keep))


def multiply_short_cut(machine: Machine, multiplicand: int, multiplier: int, *, keep: bool = False) -> Working:
    """Multiply with the fewest turns, some of them subtractive: 98 times is 100 times less 2 times.

    The digits come from `signed_digits`, where the proof stands; where the carriage, the counter or the result has
    no room for the place more that the best of all would want, they are the fewest turns that there is room for. A
    multiplier with subtractive digits is worked from the highest place down, in one sweep of the carriage. So no
    partial product is below nought; the first turn is additive, which makes the counter count additive turns up and
    subtractive ones down; and the counter ends on the multiplier. (A counter without carry shows the turns of each
    place, a subtractive digit as its complement to 10.) Without subtractive digits it is worked units first.

    Parameters
    ----------
    machine, multiplicand, multiplier, keep
        As for `multiply`.

    Raises
    ------
    InputError
        A number that is none.
    CapacityError
        Setting, result, counter, carriage or carry reach is short; nothing has moved. Where a borrow has too far to
        run, `multiply` may still do it.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> working = multiply_short_cut(Machine(load_spec("bench")), 347, 98)
    >>> working
    <Working 347 × 98 = 34006: 3 turns, 4 shifts, 1 setting>
    >>> working.lines[-1].algebra, working.end.reading.counter
    ('34353 − 347 = 34006', 98)
    """
    spec = spec_of(machine)
    a, b = whole(multiplicand, "a multiplicand", 0), whole(multiplier, "a multiplier", 0)
    start = signed_result(machine) if keep else 0
    title = _title(start, keep, a, b)
    capacity.check_sizes(spec, title, setting=a, result=max(0, start + a * b), positions=capacity.places(b))
    digits = signed_digits(b, ceiling=_ceiling(machine, start, a))
    order = "highest first" if min(digits) < 0 else "units first"
    return work(machine, title, _by_digits(a, digits, order, keep))


def _ceiling(machine: Machine, start: int, multiplicand: int) -> int:
    """The largest partial multiplier that carriage, counter and result have room for."""
    spec = machine.spec
    most = 10**min(spec.positions, spec.counter_places) - 1
    return min(most, (10**spec.result_places - 1 - start) // multiplicand) if multiplicand else most


def _by_digits(multiplicand: int, digits: tuple[int, ...], order: str, keep: bool) -> Method:
    """Set, then shift and turn for every digit that is not nought."""
    places = [place for place, digit in enumerate(digits) if digit]
    if order == "highest first":
        places.reverse()

    def method(hand: Hand) -> Generator[Piece, None, tuple[int, str]]:
        yield from hand.clear(*(() if keep else ("result",)), "counter")
        yield from hand.set(multiplicand)
        for place in places:
            yield from hand.shift_to(place)
            yield from hand.turn(digits[place])
        return hand.value, f"{hand.answer()} {_counter(hand.machine, digits)}"

    return method


def _counter(machine: Machine, digits: tuple[int, ...]) -> str:
    """How the counter is read afterwards."""
    if machine.counter == from_digits(digits):
        return f"The counter shows {machine.counter}, the multiplier."
    turns = ", ".join(f"{digit:+d}".replace("-", "−") if digit else "0" for digit in reversed(digits))
    return f"The counter shows {machine.counter}: the turns of each place ({turns}), without a carry between them."


def _title(start: int, keep: bool, multiplicand: int, multiplier: int) -> str:
    kept = f"{shown(start)} + ".replace("-", "−") if keep else ""
    return f"{kept}{shown(multiplicand)} × {shown(multiplier)}"
