"""How a sheet tells a learner what to do, for each kind of calculation; and what it asks unless it says otherwise.

Only this file words the orders. `ORDERS` has a row for every row of `mechcalc.preparing.tasks.TASKS`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

REGISTERS_ALL = ("setting", "result", "counter")
CLOSING = "Which of your predictions turned out otherwise, and what did the machine do instead?"
COUNTED = ("Turns are all turns of the crank, either way, those that put a number in among them. Shifts are places "
           "that the carriage moves. Begin with everything at nought and the carriage at home, at position 0.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """The words of one kind of calculation.

    Attributes
    ----------
    do : str
        A heading: what to do.
    how : str
        The way it is done, in a sentence or two.
    show, ask, predict : tuple of str
        Registers that are drawn, questions after working and questions before it, unless a sheet says otherwise.
    """

    do: str
    how: str
    show: tuple[str, ...] = REGISTERS_ALL
    ask: tuple[str, ...] = ("result", "counter", "turns", "shifts")
    predict: tuple[str, ...] = ("turns",)


_sum = partial(Order, show=("setting", "result"), ask=("result", "turns"), predict=("carries",))
_difference = partial(Order, show=("setting", "result"), ask=("result", "answer", "bells"), predict=("answer",))
_quotient = partial(Order, ask=("answer", "remainder", "turns", "shifts"), predict=("figures",))
_root = partial(Order, ask=("answer", "remainder", "turns", "shifts"), predict=("figures",))

ORDERS: dict[str, Order] = {
    "add": _sum(do="Add", how="Set each number and turn once. The carriage stays at home."),
    "subtract": _difference(
        do="Take away", how="Set the first number and turn once. Set each further one and turn back once."),
    "subtract by complement": _difference(
        do="Take away by adding the complement", ask=("setting", "answer"),
        how="Set the first number and turn once. Set the ten’s complement of the second on all the levers, turn once, "
            "and strike off the 1 in front."),
    "multiply": Order(
        do="Multiply by shifting", predict=("turns", "figures"),
        how="Set the first number. For each figure of the second, from the units, turn as often as it says, then "
            "shift."),
    "multiply by short cut": Order(
        do="Multiply in the fewest turns",
        how="Set the first number. Where it saves turns, go one over in the next place and turn back; work from the "
            "highest place down."),
    "chain": Order(
        do="Multiply in a chain", ask=("result", "turns", "shifts"), predict=("figures",),
        how="Multiply the first two factors. Bring the product back to the levers, clear the counter, and multiply by "
            "the next."),
    "chain by short cut": Order(
        do="Multiply in a chain, in the fewest turns", ask=("result", "turns", "shifts"), predict=("figures",),
        how="Multiply the first two factors. Bring the product back to the levers, clear the counter, and multiply by "
            "the next; use the short cut wherever it saves turns."),
    "divide": _quotient(
        do="Divide: turn until the bell rings",
        how="Put the dividend into the result, clear the counter, and set the divisor under the head of the dividend. "
            "Turn back until the bell rings, turn forward once, shift down."),
    "divide without putting back": _quotient(
        do="Divide without putting back", predict=("figures", "bells"),
        how="Put the dividend into the result, clear the counter, and set the divisor under the head of the dividend. "
            "Turn back until the bell rings, shift down, turn forward until it rings, shift down, and so on."),
    "divide comparing first": _quotient(
        do="Divide, looking before each turn", predict=("figures", "turns"),
        how="Put the dividend into the result, clear the counter, and set the divisor under the head of the dividend. "
            "Turn back as often as it goes, and look before each turn; then shift down."),
    "divide building up": _quotient(
        do="Divide by building the dividend up",
        how="Set the divisor. From the highest place down, turn as long as the result does not pass the dividend; "
            "what it is short of is the remainder."),
    "divide by reciprocal": Order(
        do="Divide by way of the reciprocal", ask=("answer", "turns", "shifts"), predict=("figures",),
        how="Divide 1 by the divisor. Then multiply what you found by the dividend."),
    "square root": _root(
        do="Take the square root by odd numbers",
        how="Take away 1, 3, 5, … in pairs of places from the highest, and look before each turn whether the next "
            "will go; then raise the last odd number by one and shift down."),
    "square root restoring": _root(
        do="Take the square root by odd numbers, with the bell",
        how="Take away 1, 3, 5, … in pairs of places from the highest until the bell rings; put that turn back, lower "
            "the odd number by one, and shift down."),
    "cube root": _root(
        do="Take the cube root",
        how="Take away 1, 7, 19, 37, …, the differences of cubes, in threes of places from the highest; look before "
            "each turn whether the next will go."),
}
