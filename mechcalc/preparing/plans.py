"""How each calculation goes when it is reckoned: the same pieces of the methods, with a `Reckoner` for a hand.

Only this file says which pieces a reckoned calculation is made of. Where a method's own generators can be driven
(entering a number, sweeping digits, taking away until the bell), they are; so a division's operator decides here as
there.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from mechcalc.methods.capacity import check_sizes, places as places_of
from mechcalc.methods.complement import tens_complement
from mechcalc.methods.division import taken_away
from mechcalc.methods.entering import bases, enter, pieces
from mechcalc.methods.roots import one_figure
from mechcalc.methods.sweeping import digits_of, sweep
from mechcalc.preparing.reckoning import Reckoner, at_first_base, run

Numbers = tuple[int, ...]
Plan = Callable[[Reckoner, Numbers, int], None]


def add(hand: Reckoner, numbers: Numbers, places: int) -> None:
    """Each number set, and one turn."""
    check_sizes(hand.spec, "", setting=max(numbers), result=sum(numbers))
    for number in numbers:
        hand.set(number)
        hand.turn(1)


def subtract(hand: Reckoner, numbers: Numbers, places: int) -> None:
    """The first added, the others taken away."""
    check_sizes(hand.spec, "", setting=max(numbers))
    for slot, number in enumerate(numbers):
        hand.set(number)
        hand.turn(-1 if slot else 1)


def subtract_by_complement(hand: Reckoner, numbers: Numbers, places: int) -> None:
    """The first added, and the ten's complement of the second."""
    check_sizes(hand.spec, "", setting=max(numbers))
    hand.set(numbers[0])
    hand.turn(1)
    hand.set(tens_complement(numbers[1], hand.spec.setting_places))
    hand.turn(1, over_the_end=True)


def multiply(hand: Reckoner, numbers: Numbers, places: int, short_cut: bool = False) -> None:
    """Figure by figure; from the highest down where there are subtractive turns."""
    a, b = numbers
    check_sizes(hand.spec, "", setting=a, result=a * b, positions=places_of(b))
    hand.set(a)
    run(sweep(hand.hand, digits_of(hand.spec, a, b, short_cut), order="units first"))


def chain(hand: Reckoner, numbers: Numbers, places: int, short_cut: bool = False) -> None:
    """Each product becomes the next multiplicand, through back transfer where it is fitted."""
    first, *factors = numbers
    check_sizes(hand.spec, "", setting=max(first, math.prod(numbers[:-1])), result=math.prod(numbers),
                positions=max(map(places_of, factors)))
    hand.set(first)
    for number, factor in enumerate(factors):
        if number and hand.spec.back_transfer:
            hand.shift_to(0)
            hand.bring_back()
            hand.clear("counter")
        elif number:
            hand.set(hand.value)
            hand.clear("result", "counter")
        run(sweep(hand.hand, digits_of(hand.spec, hand.setting, factor, short_cut)))


def divide(hand: Reckoner, numbers: Numbers, places: int, method: str = "restoring") -> None:
    """The dividend put in, the divisor taken away figure by figure."""
    (dividend, divisor), spec = numbers, hand.spec
    dividend *= 10**places
    count = places_of(dividend // divisor)
    highest = max(dividend, divisor * 10**(count - 1))
    check_sizes(spec, "", setting=max([divisor, *(part for _, part in pieces(spec, dividend, places))]),
                result=highest, positions=count)

    def strokes(base: int) -> Iterator[Any]:
        yield from enter(hand.hand, dividend * 10**base, places + base)
        yield from taken_away(hand.hand, divisor, base, count, method)

    at_first_base(hand, bases(spec, highest, count, dividend), strokes)


def divide_building_up(hand: Reckoner, numbers: Numbers, places: int) -> None:
    """The divisor added as often as the dividend allows."""
    goal, divisor = numbers[0] * 10**places, numbers[1]
    quotient = goal // divisor
    count = places_of(quotient)
    check_sizes(hand.spec, "", setting=divisor, result=max(quotient * divisor, divisor), positions=count)

    def strokes(base: int) -> Iterator[Any]:
        yield from hand.set(divisor)
        for figure in range(count - 1, -1, -1):
            yield from hand.shift_to(base + figure)
            turns = quotient // 10**figure % 10
            if turns:
                yield from hand.turn(turns)

    at_first_base(hand, bases(hand.spec, goal, count), strokes)


def square_root(hand: Reckoner, numbers: Numbers, places: int, stop: str = "compare first") -> None:
    """Odd numbers taken away, figure by figure."""
    radicand, spec = numbers[0] * 100**places, hand.spec
    root = math.isqrt(radicand)
    count, restoring = places_of(root), stop == "restoring"
    one_more = [(2 * (root // 10**place) + 1) * 100**place for place in range(count)] if restoring else []
    highest = max(radicand, *one_more) if one_more else radicand
    check_sizes(spec, "", setting=max([2 * root + restoring,
                                       *(part for _, part in pieces(spec, radicand, 2 * places))]),
                result=highest, positions=count)

    def put(trials: list[int], turn: int) -> Any:
        return hand.set(trials[turn])

    def strokes(base: int) -> Iterator[Any]:
        yield from enter(hand.hand, radicand * 10**base, 2 * places + base)
        doubled = 0
        for place in range(count - 1, -1, -1):
            yield from hand.shift_to(base + place)
            trials = [doubled + odd * 10**place for odd in range(1, 20, 2)]
            figure = yield from one_figure(hand.hand, trials, stop, partial(put, trials))
            doubled += 2 * figure * 10**place

    at_first_base(hand, bases(spec, highest, count, radicand), strokes)


multiply_by_short_cut = partial(multiply, short_cut=True)
chain_by_short_cut = partial(chain, short_cut=True)
