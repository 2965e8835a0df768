"""Two ways to a quotient without taking anything away from the dividend.

Only this file decides how a dividend is built up, and how a reciprocal is found and used.
"""

from __future__ import annotations

from collections.abc import Generator
from fractions import Fraction

from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.methods import capacity
from mechcalc.methods.division import MOST_TURNS, divide, divisor_of, outcome, taken_away
from mechcalc.methods.entering import at_wheel, bases, enter, pieces, work_at
from mechcalc.methods.hand import Hand, Method, Piece, spec_of
from mechcalc.methods.short_cut import plain_digits
from mechcalc.methods.sweeping import sweep
from mechcalc.methods.working import Outcome, Working, with_point
from mechcalc.numbers import shown, whole
from mechcalc.spec import MOST_PLACES


def divide_building_up(machine: Machine, dividend: int, divisor: int, *, places: int = 0) -> Working:
    """Divide by multiplying up: add the divisor until the result has become the dividend, as nearly as it goes.

    The dividend stands on paper. From the highest position down the operator turns as long as the result does not
    pass it; the counter shows how many times the divisor has been taken, and that is the quotient. The remainder is
    what the result is short of the dividend, and is worked on paper too.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first.
    dividend : int
        From 0; it may be wider than the levers.
    divisor : int
        From 1.
    places : int
        Decimals of the quotient, cut off: the result is then built up to the dividend with so many noughts.

    Raises
    ------
    InputError, CapacityError
        As for `divide`.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> working = divide_building_up(Machine(load_spec("slate")), 22, 7, places=2)
    >>> working
    <Working 22 ÷ 7 = 3.14, remainder 0.02: 8 turns, 4 shifts, 1 setting>
    >>> print(working.remark)
    The result has come up to 21.98, and one turn more would pass 22. The counter shows 314: the quotient is 3.14. \
What is missing, 22 − 21.98, is the remainder: 0.02.
    """
    spec, number = spec_of(machine), whole(dividend, "a dividend", 0)
    places = whole(places, "a number of decimals", 0, MOST_PLACES)
    title = f"{shown(number)} ÷ {shown(divisor)}"
    d, goal = divisor_of(divisor, title), number * 10**places
    count = capacity.places(goal // d)
    capacity.check_sizes(spec, title, setting=d, result=max(goal // d * d, d), positions=count,
                         counted="the quotient")

    def at(base: int) -> Method:
        def method(hand: Hand) -> Generator[Piece, None, Outcome]:
            yield from hand.clear("result", "counter")
            yield from hand.set(d)
            for figure in range(count - 1, -1, -1):
                yield from hand.shift_to(base + figure)
                for _ in range(MOST_TURNS - 1):
                    if hand.value + d * 10**(base + figure) > goal * 10**base:
                        break
                    yield from hand.turn(1)
            return _built_up(hand, number, goal, places, base)
        return method

    return work_at(machine, title, bases(spec, goal, count), at)


def _built_up(hand: Hand, dividend: int, goal: int, places: int, base: int) -> Outcome:
    counter, reached = hand.machine.counter, hand.value // 10**base
    quotient, left = counter // 10**base, goal - reached
    short = with_point(reached, places)
    remark = (f"The result has come up to {short}{at_wheel(base)}, and one turn more would pass {dividend}. The "
              f"counter shows {counter}: the quotient is {with_point(quotient, places)}{at_wheel(base)}. What is "
              f"missing, {dividend} − {short}, is the remainder: {with_point(left, places)}.")
    return Outcome(answer=quotient, remark=remark, places=places, remainder=left, remainder_places=places)


def reciprocal(machine: Machine, number: int, *, places: int, method: str = "restoring") -> Working:
    """1 divided by `number` to so many decimals, cut off: `divide` with a dividend of 1.

    >>> from mechcalc import load_spec
    >>> reciprocal(Machine(load_spec("bench")), 7, places=6).headline
    '1 ÷ 7 = 0.142857, remainder 0.000001'
    """
    return divide(machine, 1, number, places=places, method=method)


def divide_by_reciprocal(machine: Machine, dividend: int, divisor: int, *, places: int = 0,
                         reciprocal_places: int | None = None) -> Working:
    """Divide by multiplying with the reciprocal: found first, and worth it where many numbers have one divisor.

    The reciprocal is cut off after *r* decimals, so it is too small by less than 10^-r; the answer is too small by
    less than dividend / 10^r. That bound is stated in the remark and is the working's `error_bound`.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first.
    dividend : int
        From 0.
    divisor : int
        From 1.
    places : int
        The answer is to be right within one unit of so many decimals.
    reciprocal_places : int, optional
        *r*; `places` and as many more as the dividend has figures (but no fewer than the divisor has), unless given.

    Returns
    -------
    Working
        `answer` is the whole product; its last *r* figures are decimals.

    Raises
    ------
    InputError
        As for `divide`; or the reciprocal has only noughts in so many places.
    CapacityError
        As for `divide`, for the reciprocal or for the product.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> working = divide_by_reciprocal(Machine(load_spec("bench")), 22, 7, places=2)
    >>> working.headline, working.error_bound
    ('22 × (1 ÷ 7) = 3.1416', Fraction(11, 5000))
    >>> print(working.remark)
    The reciprocal of 7 to 4 places is 0.1428; 22 times that is 3.1416. The reciprocal was cut off, so the quotient is \
a little more: less than 0.0022 more.
    """
    spec, number = spec_of(machine), whole(dividend, "a dividend", 0)
    places = whole(places, "a number of decimals", 0, MOST_PLACES)
    d = divisor_of(divisor, f"{shown(number)} ÷ ")
    r = max(places + capacity.places(number), capacity.places(d)) if reciprocal_places is None else whole(
        reciprocal_places, "a number of decimals of the reciprocal", 0, MOST_PLACES)
    title, one = f"{shown(number)} × (1 ÷ {shown(d)})", 10**r
    found = one // d
    figures = capacity.places(found)
    capacity.check_sizes(spec, title, setting=max(d, *(part for _, part in pieces(spec, one, r))),
                         result=max(one, found * number), positions=figures, counted="the reciprocal")
    if not found:
        raise InputError(f"the reciprocal of {d} has only noughts in {r} place{'s' * (r != 1)}: give it more")
    multiplicand, multiplier = _arranged(spec.setting_places, found, number)
    capacity.check_sizes(spec, title, setting=multiplicand, result=found * number,
                         positions=capacity.places(multiplier))

    def at(base: int) -> Method:
        def method(hand: Hand) -> Generator[Piece, None, Outcome]:
            yield from enter(hand, one * 10**base, r + base)
            yield from taken_away(hand, d, base, figures, "restoring")
            shows = outcome(hand, base, figures, r, "restoring")
            on_levers, turned = _arranged(spec.setting_places, shows.answer, number)
            yield from hand.clear("result", "counter")
            yield from hand.set(on_levers)
            yield from sweep(hand, plain_digits(turned), order="units first")
            return _by_reciprocal(hand, number, d, r, shows)
        return method

    return work_at(machine, title, bases(spec, one, figures, one), at)


def _arranged(levers: int, found: int, number: int) -> tuple[int, int]:
    """Which is set and which is turned: the shorter is turned, if the longer fits the levers."""
    longer, shorter = max(found, number), min(found, number)
    return (longer, shorter) if longer < 10**levers else (shorter, longer)


def _by_reciprocal(hand: Hand, dividend: int, divisor: int, places: int, reciprocal: Outcome) -> Outcome:
    exact = reciprocal.remainder == 0
    bound = Fraction(0) if exact else Fraction(dividend, 10**places)
    tail = ("There is no remainder, so the quotient is exact." if exact or not dividend else
            f"The reciprocal was cut off, so the quotient is a little more: less than "
            f"{with_point(dividend, places)} more.")
    remark = (f"The reciprocal of {divisor} to {places} places is {with_point(reciprocal.answer, places)}; {dividend} "
              f"times that is {with_point(hand.value, places)}. {tail}")
    return Outcome(answer=hand.value, remark=remark, places=places, error_bound=bound)
