"""Checks that operators use: casting out nines and elevens, working backwards, doing it the other way.

Only this file says whether an answer passes a check, and what a check cannot see. A check that passes is no proof.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from html import escape
from typing import Any

from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.methods.equality import SIGNS, Node, total, worked, written
from mechcalc.methods.hand import Hand, Piece, spec_of, work
from mechcalc.methods.multiplication import multiply
from mechcalc.methods.working import Working
from mechcalc.numbers import shown, whole

MODULI = {9: "nines", 11: "elevens"}


def cast_out(number: int, by: int = 9) -> int:
    """What is left of a number when nines (or elevens) are cast out.

    Digits added up leave the same after division by 9, because 10 leaves 1; digits taken alternately plus and minus,
    from the units, leave the same after division by 11, because 10 leaves -1. Again and again, until one digit is
    left (or, for elevens, a number below 11).

    Parameters
    ----------
    number : int
        Of either sign.
    by : int
        9 or 11.

    Examples
    --------
    >>> cast_out(347), cast_out(347, 11), cast_out(-4), cast_out(-4, 11)
    (5, 6, 5, 7)
    """
    value, by = whole(number, "a number to check"), _modulus(by)
    left = abs(value)
    while left > by:
        digits = [int(digit) for digit in reversed(str(left))]
        left = sum(digits) if by == 9 else _alternating(digits)
    left %= by  # what is left over all may be the nine, or the eleven, itself
    return left if value >= 0 or not left else by - left


def _alternating(digits: list[int]) -> int:
    """Digits plus and minus in turn, units first; 11 added while it is below nought."""
    value = sum(digits[::2]) - sum(digits[1::2])
    while value < 0:
        value += 11
    return value


def _modulus(by: Any) -> int:
    number = whole(by, "what is cast out")
    if number not in MODULI:
        raise InputError(f"nines (9) or elevens (11) are cast out, not {shown(by)}")
    return number


@dataclass(frozen=True, slots=True)
class Check:
    """How a check came out.

    Attributes
    ----------
    passed : bool
        Whether nothing is against the answer.
    lines : tuple of str
        What was written down.
    misses : str
        Which slips the check cannot see.
    workings : tuple of Working
        The strokes it took, if it took any.
    """

    passed: bool
    lines: tuple[str, ...]
    misses: str
    workings: tuple[Working, ...] = ()

    def __bool__(self) -> bool:
        return self.passed

    def __str__(self) -> str:
        verdict = "Nothing is against it." if self.passed else "There is a slip somewhere."
        return "\n".join([*self.lines, f"{verdict} {self.misses}"])

    def _repr_html_(self) -> str:
        lines = "".join(f"<li>{escape(line)}</li>\n" for line in self.lines)
        verdict = "Nothing is against it." if self.passed else "There is a slip somewhere."
        return f"<ol>\n{lines}</ol>\n<p>{escape(f'{verdict} {self.misses}')}</p>\n"


def check_by(left: Node, right: int, by: int = 9) -> Check:
    """Cast out nines or elevens on both sides of an equation.

    Parameters
    ----------
    left : int or tuple
        A number, or a node of `mechcalc.methods.equality` made of +, - and ×.
    right : int
        What it is said to come to.
    by : int
        9 or 11.

    Examples
    --------
    >>> print(check_by(("*", 347, 26), 9022))
    347 leaves 5; 26 leaves 8; 9022 leaves 4
    (5 × 8) leaves 4, and 4 was found on the right
    Nothing is against it. Casting out nines misses 2 of 90 slips in one digit, and 90 of 90 swaps of neighbours.
    >>> bool(check_by(("*", 347, 26), 9202)), bool(check_by(("*", 347, 26), 9202, by=11))
    (True, False)
    """
    by = _modulus(by)
    answer = whole(right, "an answer")
    numbers: list[int] = []
    small = _reduced(left, by, numbers)
    found, meant = cast_out(answer, by), cast_out(worked(small), by)
    first = "; ".join(f"{number} leaves {cast_out(number, by)}" for number in (*numbers, answer)).replace("-", "−")
    both = f"({written(small)}) leaves {meant}, and {found} was found on the right"
    return Check(found == meant, (first, both), missed(by))


def _reduced(node: Node, by: int, numbers: list[int]) -> Node:
    """The node with every number replaced by what is left of it; the numbers are listed."""
    if not isinstance(node, tuple):
        number = whole(node, "a number to check")
        numbers.append(number)
        return cast_out(number, by)
    name, left, right = node
    if name not in ("+", "-", "*"):
        form = SIGNS[name].text.format(a="a", b="b")
        raise InputError(f"only sums, differences and products are checked, not {form}")
    return name, _reduced(left, by, numbers), _reduced(right, by, numbers)


def check_product(factors: tuple[int, ...] | list[int], product: int, by: int = 9) -> Check:
    """Cast out nines or elevens of a product.

    >>> bool(check_product([12, 34, 56], 22848)), bool(check_product([12, 34, 56], 22858))
    (True, False)
    """
    if not factors:
        raise InputError("a product has at least one factor")
    node: Node = factors[0]
    for factor in factors[1:]:
        node = ("*", node, factor)
    return check_by(node, product, by)


def check_sum(numbers: tuple[int, ...] | list[int], answer: int, by: int = 9) -> Check:
    """Cast out nines or elevens of a sum; a number may be negative.

    >>> bool(check_sum([12, -34, 56], 34, by=11))
    True
    """
    return check_by(total(list(numbers)), answer, by)


def check_sum_of_products(pairs: Sequence[tuple[int, int]], answer: int, by: int = 9) -> Check:
    """Cast out nines or elevens of a sum of products, from its factors.

    >>> print(check_sum_of_products([(3, 14), (5, 15)], 117))
    3 leaves 3; 14 leaves 5; 5 leaves 5; 15 leaves 6; 117 leaves 0
    (3 × 5 + 5 × 6) leaves 0, and 0 was found on the right
    Nothing is against it. Casting out nines misses 2 of 90 slips in one digit, and 90 of 90 swaps of neighbours.
    >>> bool(check_sum_of_products([(3, 14), (5, 15)], 116))
    False
    """
    if not pairs:
        raise InputError("a sum of products has at least one product")
    node: Node = ("*", *pairs[0])
    for pair in pairs[1:]:
        node = ("+", node, ("*", *pair))
    return check_by(node, answer, by)


def check_quotient(dividend: int, divisor: int, quotient: int, remainder: int = 0, by: int = 9) -> Check:
    """Cast out nines or elevens of a division: quotient × divisor + remainder = dividend.

    >>> bool(check_quotient(1000, 7, 142, 6)), bool(check_quotient(1000, 7, 142, 5))
    (True, False)
    """
    return check_by(("+", ("*", quotient, divisor), remainder), dividend, by)


def slips_missed(by: int = 9, apart: int = 0) -> Fraction:
    """Which share of slips a check cannot see, counted one by one.

    Parameters
    ----------
    by : int
        9 or 11.
    apart : int
        0: one digit written for another, 90 cases. 1: two neighbours swapped; 2: two digits with one between them
        swapped; and so on: 90 cases each, the two digits being different.

    Examples
    --------
    >>> [str(slips_missed(9, apart)) for apart in (0, 1, 2)], [str(slips_missed(11, apart)) for apart in (0, 1, 2)]
    (['1/45', '1', '1'], ['0', '0', '1'])
    """
    by, apart = _modulus(by), whole(apart, "a distance of swapped digits", 0, 20)
    pairs = [(a, b) for a in range(10) for b in range(10) if a != b]
    unseen = sum(_slip(a, b, apart) % by == 0 for a, b in pairs)
    return Fraction(unseen, len(pairs))


def _slip(a: int, b: int, apart: int) -> int:
    """By how much a number is out, in units of the lower place: b for a; or a and b swapped, so many places apart."""
    return b - a if not apart else (a - b) * (10**apart - 1)


def missed(by: int = 9) -> str:
    """What a check cannot see, in a sentence.

    >>> missed(11)
    'Casting out elevens misses 0 of 90 slips in one digit, and 0 of 90 swaps of neighbours (but every swap two apart).'
    """
    digit, swap = (int(90 * slips_missed(by, apart)) for apart in (0, 1))
    further = " (but every swap two apart)" if not swap and slips_missed(by, 2) == 1 else ""
    return (f"Casting out {MODULI[_modulus(by)]} misses {digit} of 90 slips in one digit, and {swap} of 90 swaps of "
            f"neighbours{further}.")


def work_backwards(machine: Machine, working: Working) -> Check:
    """Take every turn of a working back, the last one first: what was there before it must come up again.

    Parameters
    ----------
    machine : Machine
        As the working left it: same result, counter, setting and carriage.
    working : Working
        Strokes before and at its last clearing or back transfer are not taken back: the check ends there.

    Raises
    ------
    InputError
        The machine does not stand where the working ended.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> machine = Machine(load_spec("bench"))
    >>> check = work_backwards(machine, multiply(machine, 347, 26))
    >>> print(check)
    The result came back to 0; it was 0 before.
    The counter came back to 0; it was 0 before.
    Nothing is against it. It misses a number that was set or turned wrongly both times.
    """
    spec_of(machine)
    if machine.state.reading != working.end.reading:
        raise InputError(f"the machine does not stand where {working.title} ended: its result is {machine.result}, "
                         f"its counter {machine.counter}")
    last = max((place for place, stroke in enumerate(working.strokes, start=1)
                if stroke.operation.startswith("clear") or stroke.operation == "back transfer"), default=0)
    undone = working.strokes[last:]
    before = (undone[0].before if undone else working.end).reading

    def method(hand: Hand) -> Generator[Piece, None, tuple[int, str]]:
        for stroke in reversed(undone):
            if stroke.operation == "crank":
                yield from hand.turn(-1 if stroke.argument > 0 else 1, over_the_end=True)
            elif stroke.operation == "shift":
                yield from hand.shift_to(stroke.before.carriage)
            else:
                yield from hand.set(stroke.before.reading.setting)
        return hand.machine.result, f"The result shows {hand.machine.result}."

    done = work(machine, f"backwards: {working.title}", method)
    found = done.end.reading
    lines = tuple(f"The {register} came back to {now}; it was {was} before." for register, now, was in (
        ("result", found.result, before.result), ("counter", found.counter, before.counter)))
    return Check((found.result, found.counter) == (before.result, before.counter), lines,
                 "It misses a number that was set or turned wrongly both times.", (done,))


def other_way(machine: Machine, multiplicand: int, multiplier: int,
              method: Callable[..., Working] = multiply) -> Check:
    """Multiply both ways round and compare.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> print(other_way(Machine(load_spec("bench")), 347, 26))
    347 × 26 = 9022
    26 × 347 = 9022
    Nothing is against it. It misses a number that was misread both times.
    """
    both = (method(machine, multiplicand, multiplier), method(machine, multiplier, multiplicand))
    return Check(both[0].answer == both[1].answer, tuple(f"{done.title} = {done.answer}" for done in both),
                 "It misses a number that was misread both times.", both)
