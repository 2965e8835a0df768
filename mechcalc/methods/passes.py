"""Passes through the data: what is set, what is turned, and which part of a register shows which sum.

Only this file decides how two numbers stand side by side. x at the upper and y at the lower end of the levers, *g*
places apart, are the one number x 10^g + y, and

    (x 10^g + y) × x = x² 10^g + xy,        (x 10^g + y)² = x² 10^2g + 2xy 10^g + y².

As long as no sum outgrows its *g* places, the sums stand side by side in the result; the multipliers add up in the
counter, if it carries (common practice of computing rooms, no source). The gap used is the smallest that serves; an
operator, who does not know the sums yet, takes n times the largest product instead.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from mechcalc.errors import CapacityError
from mechcalc.methods import capacity
from mechcalc.methods.equality import Node, scaled
from mechcalc.methods.hand import Hand, Piece
from mechcalc.methods.sweeping import digits_of, sweep
from mechcalc.spec import MachineSpec


@dataclass(frozen=True, slots=True)
class Term:
    """One product of a sum: what is set, how often it is turned and in which direction."""

    levers: int
    multiplier: int
    sign: int = 1
    words: str = ""
    made_of: Node | None = None

    @property
    def product(self) -> int:
        """What it adds to the result."""
        return self.levers * self.multiplier * self.sign


def work_terms(hand: Hand, terms: Sequence[Term], order: str, short_cut: bool) -> Iterator[Piece]:
    """Set and turn every term that is not nought; nothing is cleared."""
    for term in terms:
        if not term.product:
            continue
        yield from hand.set(term.levers, term.words, term.made_of)
        standing = max(0, hand.value)
        digits = digits_of(hand.machine.spec, term.levers, term.multiplier, short_cut, standing)
        yield from sweep(hand, digits, sign=term.sign, order=order)


@dataclass(frozen=True, slots=True)
class Pass:
    """One pass through the data.

    Attributes
    ----------
    terms : tuple of Term
        What is set and turned.
    result, counter : tuple of str
        The names of the sums that the register shows side by side, from the upper end down; empty if it is not read.
    gap : int
        How many places each of them but the uppermost has.
    """

    terms: tuple[Term, ...]
    result: tuple[str, ...]
    counter: tuple[str, ...] = ()
    gap: int = 0

    def read(self, hand: Hand) -> dict[str, int]:
        """The sums, from the registers as they stand."""
        return {**self._cut(hand.machine.result, self.result), **self._cut(hand.machine.counter, self.counter)}

    def _cut(self, register: int, names: tuple[str, ...]) -> dict[str, int]:
        found = {}
        for name in reversed(names[1:]):
            register, found[name] = divmod(register, 10**self.gap)
        return {**found, names[0]: register} if names else found


def check_pass(spec: MachineSpec, title: str, one: Pass) -> None:
    """Refuse a pass that does not fit, a counter without carry included."""
    counted = sum(term.multiplier for term in one.terms)
    if one.counter and not spec.counter_carry and counted > 9:
        raise CapacityError(f"{title} does not fit this machine: the counter does not carry, so it cannot add up "
                            f"{' and '.join(one.counter)}", "counter", capacity.places(counted) - 1)
    capacity.check_sizes(spec, title, setting=max(term.levers for term in one.terms),
                         result=sum(term.product for term in one.terms),
                         positions=max(capacity.places(term.multiplier) for term in one.terms),
                         counter=counted if one.counter else 0)


def _beside(upper: int, lower: int, gap: int, multiplier: int) -> Term:
    """Two numbers side by side on the levers."""
    return Term(upper * 10**gap + lower, multiplier, words=f"Set {upper} at the upper and {lower} at the lower end of "
                f"the levers, {gap} places apart.", made_of=("+", scaled(upper, gap), lower))


def one_variable(spec: MachineSpec, x: tuple[int, ...], way: str) -> tuple[Pass, ...]:
    """The passes for Σx and Σx², by one of the ways of `sums_of_one`."""
    squares = tuple(Term(a, a) for a in x)
    if way == "in the counter":
        return (Pass(squares, ("Σx²",), ("Σx",)),)
    if way == "side by side":
        gap = capacity.places(sum(a * a for a in x))
        return (Pass(tuple(_beside(1, a, gap, a) for a in x), ("Σx", "Σx²"), (), gap),)
    return Pass(squares, ("Σx²",)), Pass(tuple(Term(a, 1) for a in x), ("Σx",))


def two_variables(spec: MachineSpec, x: tuple[int, ...], y: tuple[int, ...], way: str) -> tuple[Pass, ...]:
    """The passes for all five sums, by one of the ways of `sums_of_two`."""
    pairs = tuple(zip(x, y, strict=True))
    xy, yy = sum(a * b for a, b in pairs), sum(b * b for b in y)
    if way == "one pass":
        gap = max(map(capacity.places, (2 * xy, yy, sum(y))))
        both = tuple(a * 10**gap + b for a, b in pairs)
        return (Pass(tuple(_beside(a, b, gap, m) for (a, b), m in zip(pairs, both, strict=True)),
                     ("Σx²", "2Σxy", "Σy²"), ("Σx", "Σy"), gap),)
    if way == "two passes":
        first, second = max(map(capacity.places, (xy, *y))), max(map(capacity.places, (yy, *y)))
        return (Pass(tuple(_beside(a, b, first, a) for a, b in pairs), ("Σx²", "Σxy"), ("Σx",), first),
                Pass(tuple(_beside(a, b, second, b) for a, b in pairs), ("Σxy", "Σy²"), ("Σy",), second))
    return (*_alone(spec, x, "x"), *_alone(spec, y, "y"), Pass(tuple(Term(a, b) for a, b in pairs), ("Σxy",)))


def _alone(spec: MachineSpec, values: tuple[int, ...], name: str) -> tuple[Pass, ...]:
    """Sum and sum of squares of one variable: in one pass if the counter can add up, else in two."""
    squares = tuple(Term(value, value) for value in values)
    if spec.counter_carry and sum(values) < 10**spec.counter_places:
        return (Pass(squares, (f"Σ{name}²",), (f"Σ{name}",)),)
    return Pass(squares, (f"Σ{name}²",)), Pass(tuple(Term(value, 1) for value in values), (f"Σ{name}",))
