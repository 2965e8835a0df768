"""Square roots by taking odd numbers away.

Only this file decides which odd number comes next. The sum of the first q odd numbers is q², so a square is used up
by 1, 3, 5, … in as many turns as its root says. Figure by figure: with r found so far, the next figure q is the
number of odd numbers 20 r + 1, 20 r + 3, … that go, since (10 r + q)² - (10 r)² is their sum. 20 r is double the
root with a nought behind it, and the operator need not work it out: the last odd number that went is 2 r - 1, and
raised by one it is 2 r already. The carriage goes down one position, the next lever to the right begins with 1, and
as each step to the right on the levers and one in the carriage make a hundred, the odd numbers stand under the right
pair of figures by themselves. The counter counts the turns in each position, and so shows the root.

Sources: the identities are elementary. The procedure on this kind of machine is told from memory. The variant with
five times the number is in F. Jarvis, "Square roots by subtraction".
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator, Sequence
from fractions import Fraction
from functools import partial
from math import isqrt

from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.methods import capacity
from mechcalc.methods.division import MOST_TURNS, outcome, taken_away
from mechcalc.methods.entering import at_wheel, bases, enter, pieces, work_at
from mechcalc.methods.hand import Hand, Method, Piece, spec_of
from mechcalc.methods.working import Outcome, Working, with_point
from mechcalc.numbers import shown, whole
from mechcalc.spec import MOST_PLACES

STOPS = ("compare first", "restoring")


def square_root(machine: Machine, number: int, *, places: int = 0, method: str = "compare first",
                five_times: bool = False, further: int = 0) -> Working:
    """The square root, figure by figure, by taking away successive odd numbers.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first.
    number : int
        From 0.
    places : int
        Decimals of the root: the number goes in with twice as many noughts. The last figure is cut off; the
        remainder tells what is missing.
    method : str
        ``"compare first"``: look before each turn whether the next odd number will go; when it does not, raise the
        last one by one, which doubles the root. ``"restoring"``: turn until the bell rings, put the turn that was too
        many back, and lower the odd number by one.
    five_times : bool
        Work on five times the number, put in by five turns, and take away five times the odd numbers: 5, 15, 25, …
        Then nothing need be doubled: each turn raises one lever by one, and the levers show the root followed by a
        5. It takes one place more in setting and result, now and then.
    further : int
        Decimals beyond `places`, by dividing the remainder R by twice the root r: √(r² + R) is a little less than
        r + R / 2r, by less than 1 / 2r. So there may be as many as 2r has figures, less one, and the last may be out
        by one. The operator writes down the root found so far, and sets it twice over and the remainder afresh.

    Returns
    -------
    Working
        `answer` is the root as a whole number, its last `places` (+ `further`) figures decimals; `remainder` is the
        number less the square of that, with twice as many decimals. With `further` figures there is an `error_bound`,
        one unit of the last place, and no remainder.

    Raises
    ------
    InputError
        A number or a method that is none.
    CapacityError
        Setting, result, counter, carriage or carry reach is short; nothing has moved.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> working = square_root(Machine(load_spec("bench")), 54756)
    >>> working
    <Working √54756 = 234, remainder 0: 10 turns, 4 shifts, 2 settings, 10 lever moves>
    >>> print(working.remark)
    The counter shows 234: the root is 234. The result shows 0: the remainder is 0. The levers show 467, the last odd \
number that went; half of one more is the root.
    >>> square_root(Machine(load_spec("bench")), 54756, method="restoring").turns
    16
    >>> square_root(Machine(load_spec("bench")), 2, places=3, five_times=True).headline
    '√2 = 1.414, remainder 0.000604'
    >>> square_root(Machine(load_spec("bench")), 2, places=4, further=4).headline
    '√2 = 1.41421356'
    """
    spec, n = spec_of(machine), whole(number, "a number to take the root of", 0)
    places = whole(places, "a number of decimals", 0, MOST_PLACES)
    stop = stop_of(method)
    title, times = f"√{shown(n)}", 5 if five_times else 1
    radicand = n * 100**places
    root = isqrt(radicand)
    count = capacity.places(root)
    widest = 10 * root + 5 if five_times else 2 * root + (stop == "restoring")
    left = _further_dividend(further, root, radicand - root**2)
    parts = [part for number, low in ((radicand, 2 * places), (left, further)) for _, part in pieces(spec, number, low)]
    highest = max(radicand * times, left, *(_one_too_many(root, times) if stop == "restoring" else ()))
    positions = max(count, capacity.places(left // (2 * root)) if left else 0)
    capacity.check_sizes(spec, title, setting=max([widest, 2 * root * (left > 0), *parts]), result=highest,
                         positions=positions, counted="the root")

    def at(base: int) -> Method:
        def strokes(hand: Hand) -> Generator[Piece, None, Outcome]:
            yield from enter(hand, radicand * 10**base, 2 * places + base, times)
            yield from (_five_times if five_times else _odd_numbers)(hand, count, base, stop)
            found = _outcome(hand, base, places, times)
            if left and found.answer:
                return (yield from _further(hand, found, base, further, stop))
            return found
        return strokes

    return work_at(machine, title, bases(spec, highest, positions, max(radicand, left)), at)


def stop_of(method: str) -> str:
    """The method, or an `InputError`."""
    if not isinstance(method, str) or method not in STOPS:
        raise InputError(f"the method is {' or '.join(map(repr, STOPS))}, not {shown(method)}")
    return method


def _one_too_many(root: int, times: int) -> list[int]:
    """What is taken away, and put back, at each figure of the root."""
    return [times * (2 * (root // 10**place) + 1) * 100**place for place in range(capacity.places(root))]


def _further_dividend(further: int, root: int, remainder: int) -> int:
    """The remainder with so many noughts behind it, or an `InputError` where so many figures would not come right."""
    further = whole(further, "a number of further decimals", 0)
    most = capacity.places(2 * root) - 1
    if further > most:
        raise InputError(f"{shown(further)} further decimals would not come right: with {2 * root}, twice the root, "
                         f"as divisor, there can be {most}")
    return remainder * 10**further if further else 0


def _further(hand: Hand, found: Outcome, base: int, further: int, stop: str) -> Generator[Piece, None, Outcome]:
    """Divide the remainder by twice the root: the figures that follow."""
    assert found.remainder is not None
    dividend, divisor = found.remainder * 10**further, 2 * found.answer
    figures, places = capacity.places(dividend // divisor), found.places + further
    yield from enter(hand, dividend * 10**base, further + base)
    yield from taken_away(hand, divisor, base, figures, stop)
    quotient = outcome(hand, base, figures, 0, stop).answer
    answer = found.answer * 10**further + quotient
    remark = (f"The root was {with_point(found.answer, found.places)}, remainder "
              f"{with_point(found.remainder, found.remainder_places)}. The remainder divided by twice the root gives "
              f"{further} figures more: the counter shows {hand.machine.counter}{at_wheel(base)}. The root is "
              f"{with_point(answer, places)}; its last figure may be out by one.")
    return Outcome(answer=answer, remark=remark, places=places, error_bound=Fraction(1, 10**places))


def one_figure(hand: Hand, trials: Sequence[int], stop: str, put: Callable[[int], Iterator[Piece]]
               ) -> Generator[Piece, None, int]:
    """Take away in one position of the carriage until it goes no more; returns how often it went.

    Parameters
    ----------
    trials : sequence of int
        What must stand on the levers for the first turn, the second, … and the tenth, which never goes.
    put : callable
        ``put(i)``: brings the levers to ``trials[i]``.
    """
    for went, number in enumerate(trials):
        if stop == "compare first":
            if went == MOST_TURNS - 1 or hand.value < number * 10**hand.machine.carriage:
                return went
            yield from put(went)
            yield from hand.turn(-1)
            continue
        yield from put(went)
        yield from hand.turn(-1, by_bell=True, note=lambda: "One turn too many." if hand.value < 0 else "")
        if hand.value < 0:
            break
    yield from hand.turn(1, by_bell=True, note="What was too many is put back.")
    return went


def _odd_numbers(hand: Hand, count: int, base: int, stop: str) -> Iterator[Piece]:
    doubled = 0  # twice the root found so far, where it stands on the levers
    for place in range(count - 1, -1, -1):
        yield from hand.shift_to(base + place)
        trials = [doubled + odd * 10**place for odd in range(1, 2 * MOST_TURNS, 2)]
        figure = yield from one_figure(hand, trials, stop, partial(_levers, hand, trials, 10**place))
        doubled += 2 * figure * 10**place
        if (place and figure) or stop == "restoring":
            by_one = "lowered" if stop == "restoring" else "raised"
            yield from hand.set_levers(doubled, f"{by_one.capitalize()} by one, the odd number is "
                                                f"{doubled // 10**place}: twice the root so far.")


def _five_times(hand: Hand, count: int, base: int, stop: str) -> Iterator[Piece]:
    root = 0  # what has been found, where it stands on the levers
    for place in range(count - 1, -1, -1):
        trials = [root + (10 * figure + 5) * 10**place for figure in range(MOST_TURNS)]
        yield from _levers(hand, trials, 5 * 10**place, 0)
        yield from hand.shift_to(base + place)
        figure = yield from one_figure(hand, trials, stop, partial(_levers, hand, trials, 5 * 10**place))
        root += 10 * figure * 10**place
        yield from hand.set_levers(root + 5 * 10**place)


def _levers(hand: Hand, trials: Sequence[int], unit: int, turn: int) -> Iterator[Piece]:
    """The first number is set afresh, over what was put in; after that only the levers that differ are moved.

    `unit` is what the odd number is counted in on the levers.
    """
    number = trials[turn]
    odd = f"odd number {number // unit}" if str(unit)[0] == "1" else f"odd number {number // unit}, five times"
    if hand.machine.counter_direction is None:
        yield from hand.set(number, f"Set {number} on the levers: the {odd}.")
    else:
        yield from hand.set_levers(number, f"The {odd}.")


def _outcome(hand: Hand, base: int, places: int, times: int) -> Outcome:
    """Root and remainder, as they are read from the windows."""
    counter, setting = hand.machine.counter, hand.machine.setting
    root, left = counter // 10**base, hand.value // (times * 10**base)
    how = f", {times} times the remainder:" if times > 1 else ":"
    remark = (f"The counter shows {counter}: the root is {with_point(root, places)}{at_wheel(base)}. The result shows "
              f"{hand.machine.result}{how} the remainder is {with_point(left, 2 * places)}{at_wheel(base)}.")
    if times > 1:
        levers = f" The levers show {setting}: the root, and the 5 behind it."
    elif setting == 2 * root - 1:
        levers = f" The levers show {setting}, the last odd number that went; half of one more is the root."
    else:
        levers = f" The levers show {setting}, twice the root."
    return Outcome(answer=root, remark=remark + levers * (root > 0), places=places, remainder=left,
                   remainder_places=2 * places)
