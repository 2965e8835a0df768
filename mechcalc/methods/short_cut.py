"""Fewer turns: a multiplier written with digits that may be negative.

Only this file decides how a multiplier is cut into turns. Digit tuples are units first; a digit below nought stands
for subtractive turns.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from mechcalc.errors import InputError
from mechcalc.methods.capacity import places
from mechcalc.numbers import shown, to_digits, whole

# (turns, negative digits, digits so far): the cheapest way to a carry, compared from the left.
Way = tuple[int, int, tuple[int, ...]]


def turns_of(digits: tuple[int, ...]) -> int:
    """How many turns of the crank digits cost: the sum of their amounts.

    >>> turns_of((-5, -3, 1))
    9
    """
    return sum(abs(digit) for digit in digits)


def plain_digits(multiplier: int) -> tuple[int, ...]:
    """The multiplier's own digits: turn as often as each says. On average 4.5 turns a digit.

    >>> plain_digits(65)
    (5, 6)
    """
    number = whole(multiplier, "a multiplier", 0)
    return to_digits(number, places(number))


def handbook_digits(multiplier: int) -> tuple[int, ...]:
    """The rule of thumb: with the carry from the right, more than 5 is turned back from the next place.

    It is simple and nearly always the best; `signed_digits` is never worse (common practice of the trade, no
    source).

    Examples
    --------
    >>> handbook_digits(97)
    (-3, 0, 1)
    >>> handbook_digits(65), turns_of(handbook_digits(65)), turns_of(signed_digits(65))
    ((5, -4, 1), 10, 9)
    """
    digits, carry = [], 0
    for digit in plain_digits(multiplier):
        carry, turns = (1, digit + carry - 10) if digit + carry > 5 else (0, digit + carry)
        digits.append(turns)
    return (*digits, carry) if carry else tuple(digits)


def looking_ahead_digits(multiplier: int) -> tuple[int, ...]:
    """The rule of thumb with one look ahead: a 5 is turned back too, if the next digit of the multiplier is 5 or more.

    It takes as few turns as `signed_digits`, which may choose another way that takes as many. Why: a 5 costs five
    turns in either direction, so only the carry matters; and a carry makes the next digit cheaper if that is 5 or more,
    dearer if it is 4 or less. Such digits (after a 5 the next one upwards has the same sign and is 4 at most) are a
    known minimal form: Heuberger and Prodinger, Computing 66 (2001) 377-393 (the citation was checked, its contents
    are from memory).

    Examples
    --------
    >>> looking_ahead_digits(65), looking_ahead_digits(45)
    ((-5, -3, 1), (5, 4))
    """
    own, digits, carry = plain_digits(multiplier), [], 0
    for digit, higher in zip(own, (*own[1:], 0), strict=True):
        turns = digit + carry
        carry = int(turns > 5 or (turns == 5 and higher >= 5))
        digits.append(turns - 10 * carry)
    return (*digits, carry) if carry else tuple(digits)


def signed_digits(multiplier: int, ceiling: int | None = None) -> tuple[int, ...]:
    """The fewest turns that make a multiplier, by dynamic programming.

    Digits d_k from -9 to 9 with multiplier N = sum of d_k 10^k are sought for which the sum of |d_k| is least;
    among equals, the fewest places (so the fewest shifts), then the fewest subtractive digits.

    Parameters
    ----------
    multiplier : int
        *N*, from 0.
    ceiling : int, optional
        Worked from the highest place down, no partial multiplier may exceed this: a machine's carriage, counter or
        result may have no room for the place more that a short cut wants.

    Returns
    -------
    tuple of int
        Digits, units first; no 0 at the top, except for the multiplier 0.

    Raises
    ------
    InputError
        The multiplier is no whole number from 0, or exceeds the ceiling.

    Notes
    -----
    Why this is the least. Cut any such representation between places k - 1 and k. What lies below the cut is at
    most 9 + 90 + ... + 9 10^(k-1) = 10^k - 1 in amount. What lies above is a multiple of 10^k. Their sum is N, so
    what lies above is a multiple of 10^k less than 10^k away from N: either floor(N / 10^k) 10^k, or the next
    multiple. In other words: the carry into place k is 0 or 1, whatever the representation. With t the digit of N
    there plus the carry, the digit turned is then t with no carry out, or t - 10 with a carry. A shortest
    representation is therefore a shortest path through two states a place, and that is what is computed: for each
    carry into place k, the cheapest way to make what lies below. All representations are among the paths, and a
    path's cost is the sum over its places, so the best path to a state begins with a best path to the state before
    (Bellman's principle).

    The partial multipliers, worked from the top, are exactly the multiples of 10^k above. None is negative, so the
    first turn is additive and no partial product is ever below nought. The ceiling strikes out states.

    The average over all n-digit multipliers is 27n/11 + 60/121 - 10^-n / 2 + (-1/10)^n / 242 turns.

    Examples
    --------
    >>> signed_digits(65), signed_digits(65, ceiling=99)
    ((-5, -3, 1), (5, 6))
    >>> signed_digits(0), signed_digits(5), signed_digits(10)
    ((0,), (5,), (0, 1))
    """
    number = whole(multiplier, "a multiplier", 0)
    if ceiling is not None and number > ceiling:
        raise InputError(f"a multiplier cannot be {shown(number)} where no more than {shown(ceiling)} may be made")
    ways: list[Way | None] = [(0, 0, ()), None]
    above = number
    for place in range(places(number)):
        above, digit = divmod(above, 10)
        carry_fits = ceiling is None or (above + 1) * 10**(place + 1) <= ceiling
        ways = _next_place(ways, digit, carry_fits)
    ends = [(turns + carry, carry, negative, (*digits, 1) if carry else digits)
            for carry, way in enumerate(ways) if way is not None for turns, negative, digits in [way]]
    return min(ends)[-1]


def _next_place(ways: list[Way | None], digit: int, carry_fits: bool) -> list[Way | None]:
    """The cheapest ways to carry 0 and 1 out of a place, from those to carry 0 and 1 into it."""
    found: tuple[list[Way], list[Way]] = ([], [])
    for carry, way in enumerate(ways):
        if way is None:
            continue
        turns, negative, digits = way
        t = digit + carry
        if t <= 9:
            found[0].append((turns + t, negative, (*digits, t)))
        if t >= 1 and carry_fits:
            found[1].append((turns + 10 - t, negative + (t < 10), (*digits, t - 10)))
    return [min(some) if some else None for some in found]


def average_turns(digits: int) -> Fraction:
    """The exact average of the fewest turns over all multipliers from 0 to 10^digits - 1.

    Counted, not listed: multipliers for which a carry so far costs as much more (or less) than none are taken together.

    Examples
    --------
    >>> average_turns(1), float(average_turns(2)), float(average_turns(6))
    (Fraction(29, 10), 5.4, 15.22314)
    """
    digits = whole(digits, "a number of digits", 1, 40)
    turns, alike = 0, Counter[int | None]({None: 1})  # turns without a carry; how many there are for each difference
    for _ in range(digits):
        turns, longer = 10 * turns, Counter[int | None]()
        for difference, many in alike.items():
            ways: list[Way | None] = [(0, 0, ()), None if difference is None else (difference, 0, ())]
            for digit in range(10):
                plain, carry = _next_place(ways, digit, True)
                assert plain is not None
                turns += many * plain[0]
                longer[carry[0] - plain[0] if carry else None] += many
        alike = longer
    turns += sum(many * min(0, difference + 1) for difference, many in alike.items() if difference is not None)
    return Fraction(turns, 10**digits)
