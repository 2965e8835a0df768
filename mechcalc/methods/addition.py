"""Adding and taking away.

Only this file decides how a sum or a difference is worked: everything at the home position of the carriage, one turn
a number.
"""

from __future__ import annotations

from collections.abc import Generator

from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.methods import capacity
from mechcalc.methods.complement import signed_result, tens_complement
from mechcalc.methods.equality import power_of_ten, written
from mechcalc.methods.hand import Hand, Piece, spec_of, work
from mechcalc.methods.working import Working
from mechcalc.numbers import shown, whole

MOST_SHOWN = 6  # numbers in a title


def add(machine: Machine, *numbers: int, keep: bool = False) -> Working:
    """Add numbers: set each, turn once.

    The counter, where it is large enough, shows how many there were.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first, and the carriage goes home.
    *numbers : int
        At least one; each from 0 to what the levers take.
    keep : bool
        Go on from what is in the result register and the counter; a result below nought is known by the bell
        (`signed_result`).

    Raises
    ------
    InputError
        A number that is none.
    CapacityError
        A number, the sum or a carry on the way does not fit; nothing has moved.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> machine = Machine(load_spec("slate"))
    >>> add(machine, 12, 34, 56)
    <Working 12 + 34 + 56 = 102: 3 turns, 0 shifts, 3 settings>
    >>> add(machine, 98, keep=True).lines[-1].algebra
    '102 + 98 = 200'
    >>> add(machine, 12345)
    Traceback (most recent call last):
        ...
    mechcalc.errors.CapacityError: 12345 does not fit this machine: the setting is short by 1 place \
(12345 takes 5 levers of 4)
    """
    spec = spec_of(machine)
    if not numbers:
        raise InputError("there is nothing to add: give at least one number")
    checked = [whole(number, "a number to add", 0) for number in numbers]
    start = signed_result(machine) if keep else 0
    title = _title(" + ", ([start] if keep else []) + checked)
    capacity.check_sizes(spec, title, setting=max(checked), result=max(0, start + sum(checked)))

    def method(hand: Hand) -> Generator[Piece, None, tuple[int, str]]:
        yield from _begin(hand, keep)
        for number in checked:
            yield from hand.set(number)
            yield from hand.turn(1)
        return hand.value, hand.answer()

    return work(machine, title, method)


def subtract(machine: Machine, *numbers: int, keep: bool = False) -> Working:
    """Take numbers away from the first, by subtractive turns.

    What is left may be below nought. Then the bell has rung, and the wheels show a complement with a 9 in front; the
    answer is negative, and the words say how it is read.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first, and the carriage goes home.
    *numbers : int
        The number to take from, and at least one to take away.
    keep : bool
        Take every number away from what is in the result register.

    Raises
    ------
    InputError
        A number that is none.
    CapacityError
        A number does not fit; a borrow is lost on the way; or what is left is so far below nought that no 9 is left
        in front (with carries reaching wheel q: below -10^(q-1)). Nothing has moved.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> working = subtract(Machine(load_spec("slate")), 12, 34)
    >>> working.answer, working.end.reading.result
    (-22, 999978)
    >>> working.lines[-1].algebra
    '(12 − 34) mod 10⁶ = 999978'
    >>> print(working.remark)
    The result shows 999978, the complement of 22: the answer is −22.
    """
    spec = spec_of(machine)
    if len(numbers) < 2 - bool(keep):
        raise InputError("there is nothing to take away: give the number to take from, and at least one to take away")
    checked = [whole(number, "a number to take from" if place == 0 and not keep else "a number to take away", 0)
               for place, number in enumerate(numbers)]
    start = signed_result(machine) if keep else 0
    title = _title(" − ", ([start] if keep else []) + checked)
    capacity.check_sizes(spec, title, setting=max(checked))

    def method(hand: Hand) -> Generator[Piece, None, tuple[int, str]]:
        yield from _begin(hand, keep)
        for place, number in enumerate(checked):
            yield from hand.set(number)
            yield from hand.turn(1 if place == 0 and not keep else -1)
        return hand.value, hand.answer()

    return work(machine, title, method)


def subtract_by_complement(machine: Machine, minuend: int, subtrahend: int, *, places: int | None = None) -> Working:
    """Take away by adding: set the ten's complement, turn once, strike off the 1 in front.

    With *p* places, a + (10^p - b) = 10^p + (a - b). Where a is at least b, a 1 comes up in place p + 1 and is struck
    off (or, if no carry reaches that wheel, the bell rings instead). Where it is not, there is no 1, and the p places
    show the complement of what is missing.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first, and the carriage goes home.
    minuend, subtrahend : int
        Each from 0 to 10^places - 1.
    places : int, optional
        *p*; all the levers unless given.

    Raises
    ------
    InputError, CapacityError
        As for `subtract`.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> working = subtract_by_complement(Machine(load_spec("slate")), 1000, 225)
    >>> working.answer, working.lines[-1].algebra
    (775, '1000 + 9775 = 10775')
    >>> print(working.remark)
    The result shows 10775. Strike off the 1 in place 5, the 10⁴ that was lent: the answer is 775.
    >>> print(subtract_by_complement(Machine(load_spec("slate")), 225, 1000).remark)
    The result shows 9225, and no 1 in place 5: it is the complement of 775 in 4 places; the answer is −775.
    """
    spec = spec_of(machine)
    a = whole(minuend, "a number to take from", 0)
    b = whole(subtrahend, "a number to take away", 0)
    p = spec.setting_places if places is None else whole(places, "a number of places", 1, spec.setting_places)
    title = _title(" − ", [a, b])
    capacity.check_sizes(spec, title, setting=max(a, b))
    if max(a, b) >= 10**p:
        raise InputError(f"{shown(max(a, b))} has no complement in {p} places: it takes {capacity.places(max(a, b))}")
    complement = tens_complement(b, p)

    def method(hand: Hand) -> Generator[Piece, None, tuple[int, str]]:
        yield from _begin(hand, False)
        yield from hand.set(a)
        yield from hand.turn(1)
        yield from hand.set(complement)
        yield from hand.turn(1, over_the_end=True)
        return _struck_off(hand, p, lent=b > 0)

    return work(machine, title, method)


def _begin(hand: Hand, keep: bool) -> Generator[Piece]:
    """Clear what is not to be kept, and bring the carriage home."""
    if not keep:
        yield from hand.clear("result", "counter")
    yield from hand.shift_to(0)


def _struck_off(hand: Hand, places: int, lent: bool) -> tuple[int, str]:
    """The answer after adding a complement in so many places, and how it is read."""
    shows, total = hand.machine.result, hand.value
    power = written(power_of_ten(places))
    if not lent:
        return total, f"The result shows {shows}: the complement of nought is nought, and nothing is struck off."
    answer = total - 10**places
    if answer < 0:
        return answer, (f"The result shows {shows}, and no 1 in place {places + 1}: it is the complement of "
                        f"{-answer} in {places} places; the answer is −{-answer}.")
    if shows == answer:
        return answer, (f"The result shows {shows}. The 1 for place {places + 1}, the {power} that was lent, had "
                        f"nowhere to go and rang the bell: the answer is {answer}.")
    return answer, (f"The result shows {shows}. Strike off the 1 in place {places + 1}, the {power} that was lent: "
                    f"the answer is {answer}.")


def _title(sign: str, numbers: list[int]) -> str:
    """The calculation in one line; a long one is cut short."""
    texts = [shown(number).replace("-", "−") for number in numbers]
    if len(texts) <= MOST_SHOWN:
        return sign.join(texts)
    return f"{sign.join(texts[:3])}{sign}…{sign}{texts[-1]} ({len(texts)} numbers)"
