"""Cube roots by taking the differences of cubes away.

Only this file decides which difference comes next. 1, 7, 19, 37, … , each 3 k² + 3 k + 1 = (k + 1)³ - k³, add up to
cubes, so a cube is used up in as many turns as its root says; and figure by figure, as with square roots, the next
figure is how often the differences from k = 10 r on will go. Each difference is the one before and 6 k more, which
the operator works on a slip of paper, as the levers are all in use for the difference itself; for a new figure the
first difference, 3 (10 r)² + 3 (10 r) + 1, is worked there too. Two places on the levers and one in the carriage make
a thousand, so the carriage goes one position for each figure, and the counter shows the root.

Sources: the identities are elementary. The procedure, and what goes on the slip, are told from memory.
"""

from __future__ import annotations

from collections.abc import Generator, Iterator, Sequence
from functools import partial

from mechcalc.machine import Machine
from mechcalc.methods import capacity
from mechcalc.methods.division import MOST_TURNS
from mechcalc.methods.entering import at_wheel, bases, enter, pieces, work_at
from mechcalc.methods.equality import Node
from mechcalc.methods.hand import Hand, Method, Piece, spec_of
from mechcalc.methods.roots import one_figure, stop_of
from mechcalc.methods.working import Outcome, Working, with_point
from mechcalc.numbers import shown, whole
from mechcalc.spec import MOST_PLACES


def cube_root(machine: Machine, number: int, *, places: int = 0, method: str = "compare first") -> Working:
    """The cube root, figure by figure, by taking away 1, 7, 19, 37, …: the differences of cubes.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first.
    number : int
        From 0.
    places : int
        Decimals of the root: the number goes in with three times as many noughts. The last figure is cut off; the
        remainder tells what is missing.
    method : str
        ``"compare first"``: look before each turn whether the next difference will go. ``"restoring"``: turn until
        the bell rings, and put the turn that was too many back.

    Returns
    -------
    Working
        `answer` is the root as a whole number, its last `places` figures decimals; `remainder` is the number less
        the cube of that, with three times as many decimals.

    Raises
    ------
    InputError
        A number or a method that is none.
    CapacityError
        Setting (about twice as many places as the root), result, counter, carriage or carry reach is short; nothing
        has moved.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> working = cube_root(Machine(load_spec("bench")), 12167)
    >>> working
    <Working ∛12167 = 23, remainder 0: 6 turns, 2 shifts, 6 settings>
    >>> [line.algebra for line in working.lines if "slip" in line.words][-1]
    '1387 + 6 × 22 = 1519'
    >>> cube_root(Machine(load_spec("bench")), 2, places=2, method="restoring").headline
    '∛2 = 1.25, remainder 0.046875'
    """
    spec, n = spec_of(machine), whole(number, "a number to take the root of", 0)
    places = whole(places, "a number of decimals", 0, MOST_PLACES)
    stop, title, radicand = stop_of(method), f"∛{shown(n)}", n * 1000**places
    root = integer_cube_root(radicand)
    count = capacity.places(root)
    parts = [part for _, part in pieces(spec, radicand, 3 * places)]
    tried = [difference(root // 10**place) * 1000**place for place in range(count) if stop == "restoring"]
    highest = max([radicand, *tried])
    capacity.check_sizes(spec, title, setting=max([_widest(root, count, stop), *parts]), result=highest,
                         positions=count, counted="the root")

    def at(base: int) -> Method:
        def strokes(hand: Hand) -> Generator[Piece, None, Outcome]:
            yield from enter(hand, radicand * 10**base, 3 * places + base)
            yield from _differences(hand, count, base, stop)
            return _outcome(hand, base, places)
        return strokes

    return work_at(machine, title, bases(spec, highest, count, radicand), at)


def integer_cube_root(number: int) -> int:
    """The largest whole number whose cube is not more than `number`.

    >>> integer_cube_root(26), integer_cube_root(27), integer_cube_root(10**300)==10**100
    (2, 3, True)
    """
    root = 1 << -(-number.bit_length() // 3)
    while root**3 > number:
        root = (2 * root + number // root**2) // 3
    return root


def difference(k: int) -> int:
    """(k + 1)³ - k³.

    >>> [difference(k) for k in range(5)]
    [1, 7, 19, 37, 61]
    """
    return 3 * k * k + 3 * k + 1


def _widest(root: int, count: int, stop: str) -> int:
    """The largest number that has to stand on the levers."""
    widest = 0
    for place in range(count):
        last = root // 10**place - (stop == "compare first")
        if last >= 0:
            widest = max(widest, difference(last) * 100**place)
    return widest


def _differences(hand: Hand, count: int, base: int, stop: str) -> Iterator[Piece]:
    root = 0
    for place in range(count - 1, -1, -1):
        yield from hand.shift_to(base + place)
        ks = range(10 * root, 10 * root + MOST_TURNS)
        figure = yield from one_figure(hand, [difference(k) * 100**place for k in ks], stop,
                                       partial(_put, hand, ks, place))
        root = 10 * root + figure


def _put(hand: Hand, ks: Sequence[int], place: int, turn: int) -> Iterator[Piece]:
    """Set the next difference, with the slip of paper in the words and in the algebra."""
    k = ks[turn]
    number = difference(k) * 100**place
    made: Node
    if turn:
        made = ("+", difference(k - 1), ("*", 6, k))
        slip = f"On the slip: {difference(k - 1)} and 6 × {k} is {difference(k)}."
    else:
        made = ("+", ("+", ("*", 3, ("^", k, 2)), ("*", 3, k)), 1)
        slip = f"On the slip: 3 × {k}² + 3 × {k} + 1 is {difference(k)}."
    if place:
        made = ("*", made, ("^", 10, 2 * place))
    yield from hand.set(number, f"{slip} Set {number} on the levers.", made)


def _outcome(hand: Hand, base: int, places: int) -> Outcome:
    counter = hand.machine.counter
    root, left = counter // 10**base, hand.value // 10**base
    return Outcome(answer=root, places=places, remainder=left, remainder_places=3 * places, remark=(
        f"The counter shows {counter}: the root is {with_point(root, places)}{at_wheel(base)}. The result shows "
        f"{hand.machine.result}: the remainder is {with_point(left, 3 * places)}{at_wheel(base)}."))
