"""Interest tables: compound growth, rounded every period by a rule that is stated.

Only this file decides how a balance is carried from one period to the next: times (1 + rate), rounded, and what is
paid in at the end of the period added.
"""

from __future__ import annotations

from collections.abc import Generator, Iterator
from dataclasses import dataclass
from typing import Any

from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.methods import capacity
from mechcalc.methods.hand import Hand, Piece, spec_of, work
from mechcalc.methods.points import MOST, number_of, on_wheels, point_of, read, rounded_off, rule_of
from mechcalc.methods.sweeping import digits_of, sweep
from mechcalc.methods.table import Table
from mechcalc.numbers import whole


def interest_table(machine: Machine, rate: Any, periods: int, *, places: int, principal: Any = 1, deposit: Any = 0,
                   rounding: str = "half even", short_cut: bool = False) -> Table:
    """What a sum grows to at compound interest, period by period.

    The balance is on the levers, and 1 + rate is the multiplier. The product has as many places more as the rate has;
    they are rounded off. With back transfer the machine does that: half a unit is turned in where the rule says so,
    and the carriage is shifted so that the digits to be dropped stand beside the levers when the rest goes back to
    them. Without, the operator rounds while reading off, and sets the balance by hand.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first.
    rate : Decimal, int or str
        Of one period, from 0: ``"0.05"`` for five in a hundred.
    periods : int
        From 1.
    places : int
        After the point, to which every balance is rounded.
    principal : Decimal, int or str
        At the start, from 0; at most as many places after the point as `places`.
    deposit : Decimal, int or str
        Paid in at the end of every period, likewise.
    rounding : str
        ``"half even"``, ``"half up"`` or ``"down"``.
    short_cut : bool
        With the fewest turns.

    Returns
    -------
    Table
        Period, product before rounding, balance; the remark states the rule.

    Raises
    ------
    InputError, CapacityError
        A number that is none; a register that is short.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> print(interest_table(Machine(load_spec("bench")), "0.05", 3, places=2, principal=200))
    200.00 at 0.05 a period, to 2 places
    period   product  balance
         0             200.00
         1  210.0000   210.00
         2  220.5000   220.50
         3  231.5250   231.52
    <BLANKLINE>
    18 turns, 10 shifts, 1 setting. Each product is rounded to 2 places, half even.
    """
    spec = spec_of(machine)
    plan = _plan(rate, places, principal, deposit, rounding)
    many = whole(periods, "a number of periods", 1, 1000)
    title = f"{read(plan.principal, plan.places):f} at {plan.rate} a period, to {plan.places} places"
    ahead = [plan.principal]
    for _ in range(many):
        ahead.append(plan.rounded(ahead[-1] * plan.factor) + plan.deposit)
    capacity.check_sizes(spec, title, setting=max(*ahead, plan.deposit),
                         result=max(*(balance * plan.factor for balance in ahead[:-1]), *ahead),
                         positions=max(capacity.places(plan.factor), plan.drop + 1 if spec.back_transfer else 1))
    rows: list[tuple[int, int]] = []

    def method(hand: Hand) -> Generator[Piece, None, tuple[int, str]]:
        rows.clear()
        yield from hand.clear("result", "counter")
        yield from hand.set(plan.principal)
        for period in range(many):
            digits = digits_of(spec, hand.machine.setting, plan.factor, short_cut)
            yield from sweep(hand, digits)
            product = hand.value
            yield from (_round_by_machine if spec.back_transfer else _round_by_eye)(hand, plan)
            yield from _pay_in(hand, plan, last=period == many - 1)
            rows.append((product, hand.machine.setting))
        return hand.machine.setting, f"The levers show {hand.machine.setting}, the last balance."

    working = work(machine, title, method)
    shown_rows = [(0, "", read(plan.principal, plan.places))]
    written = [(number, read(product, plan.places + plan.drop), read(balance, plan.places))
               for number, (product, balance) in enumerate(rows, start=1)]
    paid = f" Then {read(plan.deposit, plan.places):f} is paid in." if plan.deposit else ""
    return Table(title, ("period", "product", "balance"), (*shown_rows, *written), (working,),
                 f"Each product is rounded to {plan.places} places, {rounding}.{paid}")


@dataclass(frozen=True, slots=True)
class Plan:
    """The numbers as they stand on the wheels: the factor has `drop` places after the point, balances `places`."""

    rate: str
    factor: int
    drop: int
    places: int
    principal: int
    deposit: int
    rounding: str

    def rounded(self, product: int) -> int:
        """The balance that a product is rounded to."""
        return rounded_off(product, self.drop, self.rounding)


def _plan(rate: Any, places: Any, principal: Any, deposit: Any, rounding: str) -> Plan:
    rule_of(rounding)
    keep = whole(places, "a number of places", 0, MOST)
    numbers = [number_of(value, what) for value, what in
               ((rate, "a rate"), (principal, "a principal"), (deposit, "a deposit"))]
    if min(numbers) < 0:
        raise InputError("rate, principal and deposit cannot be below nought")
    drop = point_of(numbers[0])
    return Plan(f"{numbers[0]:f}", 10**drop + on_wheels(numbers[0], drop), drop, keep,
                on_wheels(numbers[1], keep), on_wheels(numbers[2], keep), rounding)


def _round_by_machine(hand: Hand, plan: Plan) -> Iterator[Piece]:
    """Add half a unit where the rule rounds up, and bring back what stands above the digits to be dropped."""
    product = hand.value
    if plan.rounded(product) > product // 10**plan.drop:
        tail = f"{product % 10**plan.drop:0{plan.drop}d}"
        yield from hand.set(5, f"The digits to be dropped, {tail}, round up: set a 5, for half a unit.")
        yield from hand.shift_to(plan.drop - 1)
        yield from hand.turn(1)
    yield from hand.shift_to(plan.drop)
    yield from hand.bring_back()
    yield from hand.clear("counter")


def _round_by_eye(hand: Hand, plan: Plan) -> Iterator[Piece]:
    """Round while reading, and set by hand."""
    balance = plan.rounded(hand.value)
    yield from hand.set(balance, f"Read the result off, rounded: set {balance}.")
    yield from hand.clear("result", "counter")


def _pay_in(hand: Hand, plan: Plan, last: bool) -> Iterator[Piece]:
    """Turn in the balance and the deposit, and bring their sum back to the levers."""
    if not plan.deposit:
        return
    yield from hand.shift_to(0)
    yield from hand.turn(1)
    yield from hand.set(plan.deposit)
    yield from hand.turn(1)
    if hand.machine.spec.back_transfer:
        yield from hand.bring_back()
    else:
        balance = hand.value
        yield from hand.set(balance, f"Read the balance off and set it: {balance}.")
        yield from hand.clear("result")
    yield from hand.clear("counter")
