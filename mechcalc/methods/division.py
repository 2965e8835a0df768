"""Dividing by taking the divisor away, figure by figure from the highest.

Only this file decides when the operator stops turning. The dividend stands in the result, the divisor on the levers;
in each carriage position the divisor is taken away until it goes no more, and the counter, whose direction the first
of these turns has chosen, shows how often it went. What is left in the result is the remainder.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator

from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.methods import capacity
from mechcalc.methods.complement import signed_result
from mechcalc.methods.entering import at_wheel, bases, enter, pieces, work_at
from mechcalc.methods.equality import scaled, written
from mechcalc.methods.hand import Hand, Method, Piece, spec_of
from mechcalc.methods.working import Outcome, Working, with_point
from mechcalc.numbers import from_digits, shown, whole
from mechcalc.spec import MOST_PLACES

MOST_TURNS = 10  # in one position: nine that go, and one that is too many

# What each method does in one position: whether it is the 1st, 3rd, ... (0) or the 2nd, 4th, ... (1); and the last.
Way = Callable[[Hand, int, bool], Iterator[Piece]]


def divide(machine: Machine, dividend: int | None, divisor: int, *, places: int = 0, method: str = "restoring",
           quotient_places: int | None = None) -> Working:
    """Divide by repeated subtraction; the quotient comes up in the counter, the remainder stays in the result.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first.
    dividend : int or None
        From 0. None: what stands in the result register now, its last `places` figures being decimals.
    divisor : int
        From 1.
    places : int
        Decimals of the quotient: the dividend goes in so many places further to the left. The last figure is cut
        off, not rounded; the remainder tells what is missing.
    method : str
        ``"restoring"``: turn until the bell rings, put the turn that was too many back with an additive one, shift.
        ``"without putting back"``: after the bell shift at once and add until the number comes back, shift and take
        away, and so on in turn. A figure reads one too many and the next as what it lacks to ten, and the counter's
        borrow makes both right. ``"compare first"``: look before each turn whether it will go. How many turns each
        takes is in `mechcalc.methods.division_turns`.
    quotient_places : int, optional
        In how many positions to work; more than the quotient has give noughts in front. Unless given, as many as it
        has: the divisor is lined up under the head of the dividend.

    Returns
    -------
    Working
        `answer` is the quotient as a whole number, its last `places` figures decimals; `remainder` has as many.

    Raises
    ------
    InputError
        A number or a method that is none; a divisor of 0.
    CapacityError
        Setting, result, counter, carriage or carry reach is short; nothing has moved. Where carries do not reach
        everywhere, the division is worked further to the left in the register, if there is room.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> machine = Machine(load_spec("slate"))
    >>> working = divide(machine, 22, 7, places=2)
    >>> working
    <Working 22 ÷ 7 = 3.14, remainder 0.02: 15 turns, 4 shifts, 2 settings>
    >>> working.answer, working.places, working.remainder
    (314, 2, 2)
    >>> divide(machine, 22, 7, places=2, method="without putting back").turns
    20
    >>> divide(machine, 22, 7, places=2, method="compare first").turns
    9
    >>> divide(machine, 22, 7, quotient_places=2).headline
    '22 ÷ 7 = 3, remainder 1'
    >>> divide(machine, None, 1)
    <Working 1 ÷ 1 = 1, remainder 0: 3 turns, 0 shifts, 1 setting>
    >>> divide(machine, 22, 0)
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: 22 cannot be divided by 0: a turn takes nothing away, the bell never rings, and the \
machine would be turned for ever
    """
    spec, number = spec_of(machine), _dividend(machine, dividend)
    places = whole(places, "a number of decimals", 0, MOST_PLACES)
    if not isinstance(method, str) or method not in WAYS:
        raise InputError(f"the method is {', '.join(map(repr, WAYS))}, not {shown(method)}")
    title = f"{with_point(number, places) if dividend is None else shown(number)} ÷ {shown(divisor)}"
    d = divisor_of(divisor, title)
    whole_dividend = number if dividend is None else number * 10**places
    count = _figures(whole_dividend // d, quotient_places)
    capacity.check_sizes(spec, title, setting=max([d, *(part for _, part in pieces(spec, whole_dividend, places))]
                                                  if dividend is not None else [d]),
                         result=max(whole_dividend, d * 10**(count - 1)), positions=count, counted="the quotient")

    def at(base: int) -> Method:
        def strokes(hand: Hand) -> Generator[Piece, None, Outcome]:
            if dividend is None:
                yield from hand.clear("counter")
            else:
                yield from enter(hand, whole_dividend * 10**base, places + base)
            yield from taken_away(hand, d, base, count, method)
            return outcome(hand, base, count, places, method)
        return strokes

    room = bases(spec, max(whole_dividend, d * 10**(count - 1)), count, whole_dividend)
    return work_at(machine, title, room[:1] if dividend is None else room, at)


def _dividend(machine: Machine, dividend: int | None) -> int:
    if dividend is not None:
        return whole(dividend, "a dividend", 0)
    number = signed_result(machine)
    if number < 0:
        raise InputError(f"a dividend cannot be {number}: the result shows a complement")
    return number


def divisor_of(divisor: int, title: str) -> int:
    """The divisor as an int from 1, or an `InputError`."""
    checked = whole(divisor, "a divisor", 0)
    if checked == 0:
        raise InputError(f"{title.split(' ÷ ')[0]} cannot be divided by 0: a turn takes nothing away, the bell never "
                         f"rings, and the machine would be turned for ever")
    return checked


def _figures(quotient: int, wanted: int | None) -> int:
    """In how many positions to work."""
    needed = capacity.places(quotient)
    if wanted is None:
        return needed
    wanted = whole(wanted, "a number of quotient places", 1, MOST_PLACES)
    if wanted < needed:
        raise InputError(f"the quotient {shown(quotient)} has {needed} places, and {wanted} are to be worked")
    return wanted


def taken_away(hand: Hand, divisor: int, base: int, count: int, method: str) -> Iterator[Piece]:
    """Divide what stands in the result: `count` figures of the quotient, the last at carriage position `base`."""
    yield from hand.set(divisor)
    for figure in range(count - 1, -1, -1):
        yield from hand.shift_to(base + figure)
        yield from WAYS[method](hand, (count - 1 - figure) % 2, figure == 0)


def until_overdrawn(hand: Hand, note: str = "One turn too many.") -> Iterator[Piece]:
    """Take away until the bell rings. On a machine whose bell stays silent, the operator stops after ten turns."""
    for _ in range(MOST_TURNS):
        yield from hand.turn(-1, by_bell=True, note=lambda: note if hand.value < 0 else "")
        if hand.value < 0:
            return


def _restoring(hand: Hand, odd: int, last: bool) -> Iterator[Piece]:
    yield from until_overdrawn(hand)
    yield from hand.turn(1, by_bell=True, note=lambda: f"What was too many is put back: the figure is {_digit(hand)}.")


def _without_putting_back(hand: Hand, odd: int, last: bool) -> Iterator[Piece]:
    """Take away past nought, or add past nought, in turn; only at the very end something is put back."""
    if not odd:
        yield from until_overdrawn(hand, "One turn too many: it stays so." if not last else "One turn too many.")
        if last:
            yield from hand.turn(1, by_bell=True, note="What was too many is put back.")
        return
    for _ in range(MOST_TURNS):
        yield from hand.turn(1, by_bell=True)
        if hand.value >= 0:
            return


def _compare_first(hand: Hand, odd: int, last: bool) -> Iterator[Piece]:
    amount = hand.machine.setting * 10**hand.machine.carriage
    said = written(scaled(hand.machine.setting, hand.machine.carriage))
    for _ in range(MOST_TURNS - 1):
        if hand.value < amount:
            return
        yield from hand.turn(-1, note=lambda: f"{hand.value} is less than {said}: it goes no more."
                             if hand.value < amount else "")


WAYS: dict[str, Way] = {"restoring": _restoring, "without putting back": _without_putting_back,
                         "compare first": _compare_first}


def _digit(hand: Hand) -> int:
    return hand.machine.counter_digits[hand.machine.carriage]


def outcome(hand: Hand, base: int, count: int, places: int, method: str) -> Outcome:
    """Quotient and remainder, as they are read from the windows."""
    counter, remainder = hand.machine.counter, hand.value // 10**base
    quotient, how = counter // 10**base, ""
    if method == "without putting back" and not hand.machine.spec.counter_carry:
        digits = hand.machine.counter_digits[base:base + count]
        over = tuple((count - 1 - place) % 2 == 0 and place > 0 for place in range(count))
        quotient = from_digits((digit - one) % 10 for digit, one in zip(digits, over, strict=True))
        if any(over):
            wheels = ", ".join(str(base + place + 1) for place in range(count - 1, -1, -1) if over[place])
            how = (f"This counter does not carry, so the borrow has not taken back the turn too many: read one less "
                   f"(9 for 0) on wheel{'s' * (sum(over) > 1)} {wheels}. ")
    remark = (f"The counter shows {counter}. {how}The quotient is {with_point(quotient, places)}{at_wheel(base)}. "
              f"The result shows {hand.machine.result}: the remainder is {with_point(remainder, places)}"
              f"{at_wheel(base)}.")
    return Outcome(answer=quotient, remark=remark, places=places, remainder=remainder, remainder_places=places)
