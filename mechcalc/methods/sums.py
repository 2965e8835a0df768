"""Sums of products, and the sums that statistics needs, in as few passes through the data as the machine allows.

Only this file decides which way is tried first. What goes on the levers is decided in `passes`, and what is made of the
sums in `paper`.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Sequence
from typing import Any

from mechcalc.errors import CapacityError, InputError
from mechcalc.machine import Machine
from mechcalc.methods import capacity
from mechcalc.methods.hand import Hand, Piece, spec_of, work
from mechcalc.methods.paper import OneVariable, TwoVariables, coded
from mechcalc.methods.passes import Pass, Term, check_pass, one_variable, two_variables, work_terms
from mechcalc.methods.sweeping import joined
from mechcalc.methods.working import Working
from mechcalc.numbers import shown, whole

ORDERS = ("nearest", "units first")
ONE_WAYS = ("in the counter", "side by side", "apart")
TWO_WAYS = ("one pass", "two passes", "apart")


def sum_of_products(machine: Machine, *pairs: tuple[int, int], short_cut: bool = False) -> Working:
    """Add up products, the result never cleared between them.

    The counter is not cleared either: if it carries, it shows the sum of the multipliers.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first.
    *pairs : tuple of (int, int)
        Multiplicand and multiplier. A product below nought is taken away by subtractive turns.
    short_cut : bool
        Each product with the fewest turns.

    Raises
    ------
    InputError
        No pairs, or something that is none.
    CapacityError
        A register is short; nothing has moved.

    Notes
    -----
    The carriage goes up with one multiplier and down with the next, to spare shifts. Where a carry reach is too short
    for that, every multiplier is worked from its units.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> working = sum_of_products(Machine(load_spec("bench")), (12, 34), (56, 78), (9, -10))
    >>> working
    <Working 12 × 34 + 56 × 78 − 9 × 10 = 4686: 23 turns, 3 shifts, 3 settings>
    >>> print(working.remark)
    The result shows 4686. The counter shows 102, the sum of the multipliers.
    """
    spec = spec_of(machine)
    checked = [_pair(pair) for pair in pairs]
    if not checked:
        raise InputError("there is nothing to add up: give at least one pair of multiplicand and multiplier")
    title = joined(" + ", [f"{'-' if a * b < 0 else ''}{shown(abs(a))} × {shown(abs(b))}" for a, b in checked])
    title = title.replace("+ -", "− ").replace("-", "−")
    terms = [Term(abs(a), abs(b), 1 if a * b >= 0 else -1) for a, b in checked]
    capacity.check_sizes(spec, title, setting=max(term.levers for term in terms),
                         result=max(0, sum(term.product for term in terms)),
                         positions=max(capacity.places(term.multiplier) for term in terms))

    def attempt(order: str) -> Working:
        def method(hand: Hand) -> Generator[Piece, None, tuple[int, str]]:
            yield from hand.clear("result", "counter")
            yield from work_terms(hand, terms, order, short_cut)
            counted = sum(term.multiplier * term.sign for term in terms)
            seen = (f" The counter shows {hand.machine.counter}, the sum of the multipliers."
                    if hand.machine.counter == counted else "")
            return hand.value, hand.answer() + seen
        return work(machine, title, method)

    return first_that_fits(ORDERS, attempt)


def _pair(pair: Any) -> tuple[int, int]:
    if not isinstance(pair, (tuple, list)) or len(pair) != 2:
        raise InputError(f"a pair is (multiplicand, multiplier), not {shown(pair)}")
    return whole(pair[0], "a multiplicand"), whole(pair[1], "a multiplier")


def first_that_fits(choices: Sequence[str], attempt: Callable[[str], Working]) -> Working:
    """Try one choice after another; where none fits, the refusal of the first."""
    refusal: CapacityError | None = None
    for choice in choices:
        try:
            return attempt(choice)
        except CapacityError as no:
            refusal = refusal or no
    assert refusal is not None
    raise refusal


def sums_of_one(machine: Machine, values: Sequence[Any], *, offset: Any = 0, way: str | None = None,
                short_cut: bool = False) -> OneVariable:
    """Σx and Σx² of a list of numbers, ready for mean and standard deviation.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first.
    values : sequence of Decimal, int or str
        At least one. All get as many places after the point as the one with the most.
    offset : Decimal, int or str
        Taken off every value on paper before it is set (coding), so that the squares stay short. The levers take no
        number below nought; so where there are such values, take off one that is at least as low: with
        ``"smallest"``, the smallest of all. Mean, spread and line are those of the values as given.
    way : str, optional
        ``"in the counter"``: x² in the result, and the multipliers x add up in the counter, which has to carry.
        ``"side by side"``: a 1 at the upper end of the levers and x at the lower, so that the result shows Σx and
        Σx². ``"apart"``: two passes. The first that fits, unless given.
    short_cut : bool
        With the fewest turns.

    Raises
    ------
    InputError
        A value that is none, or below nought after the offset.
    CapacityError
        A register is short; nothing has moved. A larger offset may cure it.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> sums = sums_of_one(Machine(load_spec("bench")), ["1.2", "1.1", "1.3"])
    >>> sums, sums.mean, str(sums.deviation(3))
    (<OneVariable n = 3, Σx = 36, Σx² = 434: in the counter>, Fraction(6, 5), '0.100')
    >>> sums_of_one(Machine(load_spec("plain")), ["1.2", "1.1", "1.3"])
    <OneVariable n = 3, Σx = 36, Σx² = 434: side by side>
    >>> frost = sums_of_one(Machine(load_spec("bench")), [-3, 4, -1, 0], offset="smallest")
    >>> frost, frost.mean, frost.variance
    (<OneVariable n = 4, Σx = 12, Σx² = 62: in the counter>, Fraction(0, 1), Fraction(26, 3))
    """
    spec = spec_of(machine)
    data = coded(values, offset, "x")
    done, way, found = _passes(machine, f"Σx, Σx² of {len(data.on)} numbers", _choice(way, ONE_WAYS),
                               lambda way: one_variable(spec, data.on, way), short_cut)
    return OneVariable(data, found["Σx"], found["Σx²"], way, done)


def sums_of_two(machine: Machine, xs: Sequence[Any], ys: Sequence[Any], *, offsets: tuple[Any, Any] = (0, 0),
                way: str | None = None, short_cut: bool = False) -> TwoVariables:
    """Σx, Σy, Σx², Σxy and Σy² of pairs, ready for a least-squares line.

    Parameters
    ----------
    machine, short_cut
        As for `sums_of_one`.
    xs, ys : sequence of Decimal, int or str
        Equally many; at least one.
    offsets : tuple of two
        Taken off every x and every y; ``"smallest"`` for either serves values below nought.
    way : str, optional
        ``"one pass"``: x and y side by side, times the same: Σx², 2Σxy and Σy² in the result, Σx and Σy in the
        counter. ``"two passes"``: times x, then times y; Σxy comes up both times, a check. ``"apart"``: Σx², Σy² and
        Σxy in a pass each. The first that fits, unless given.

    Raises
    ------
    InputError, CapacityError
        As for `sums_of_one`.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> sums = sums_of_two(Machine(load_spec("ledger")), [1, 2, 3, 4], [12, 14, 17, 19])
    >>> sums
    <TwoVariables n = 4, Σx = 10, Σy = 62, Σx² = 30, Σxy = 167, Σy² = 990: one pass>
    >>> sums.working.end.reading.result, sums.working.end.reading.counter
    (30334990, 10062)
    >>> sums.slope, sums.intercept
    (Fraction(12, 5), Fraction(19, 2))
    """
    spec = spec_of(machine)
    x, y = coded(xs, offsets[0], "x"), coded(ys, offsets[1], "y")
    if len(x.on) != len(y.on):
        raise InputError(f"there must be as many x as y, not {len(x.on)} and {len(y.on)}")
    done, way, found = _passes(machine, f"Σx, Σy, Σx², Σxy, Σy² of {len(x.on)} pairs", _choice(way, TWO_WAYS),
                               lambda way: two_variables(spec, x.on, y.on, way), short_cut)
    xy = found["Σxy"] if "Σxy" in found else found["2Σxy"] // 2
    return TwoVariables(x, y, found["Σx"], found["Σy"], found["Σx²"], xy, found["Σy²"], way, done)


def centred_sums(machine: Machine, sums: TwoVariables) -> tuple[Working, Working]:
    """n Σxy - Σx Σy and n Σx² - (Σx)² on the machine: numerator and denominator of a slope, as products taken away.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> machine = Machine(load_spec("ledger"))
    >>> centred_sums(machine, sums_of_two(machine, [1, 2, 3, 4], [12, 14, 17, 19]))
    (<Working 167 × 4 − 10 × 62 = 48: 12 turns, 1 shift, 2 settings>, \
<Working 30 × 4 − 10 × 10 = 20: 5 turns, 2 shifts, 2 settings>)
    """
    n = len(sums.x.on)
    return (sum_of_products(machine, (sums.sum_xy, n), (sums.sum_x, -sums.sum_y)),
            sum_of_products(machine, (sums.sum_xx, n), (sums.sum_x, -sums.sum_x)))


def mean_on_machine(machine: Machine, sums: OneVariable, places: int) -> Working:
    """Σx divided by n on the machine, cut off after so many decimals; offset and point are put right on paper.

    >>> from mechcalc import load_spec
    >>> machine = Machine(load_spec("bench"))
    >>> mean_on_machine(machine, sums_of_one(machine, [12, 11, 14]), 3).headline
    '37 ÷ 3 = 12.333, remainder 0.001'
    """
    from mechcalc.methods.division import divide
    return divide(machine, sums.sum_x, sums.n, places=places)


def deviation_on_machine(machine: Machine, sums: OneVariable, places: int) -> tuple[Working, Working, Working]:
    """The standard deviation of the numbers as set, cut off after so many decimals, in three workings.

    First n Σx² - (Σx)², then that divided by n (n - 1) to twice as many decimals, then the root. The point is put
    right on paper.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> machine = Machine(load_spec("bench"))
    >>> for working in deviation_on_machine(machine, sums_of_one(machine, [12, 11, 14]), 2):
    ...     print(working.headline)
    461 × 3 − 37 × 37 = 14
    14 ÷ 6 = 2.3333, remainder 0.0002
    √23333 = 152, remainder 229
    """
    from mechcalc.methods.division import divide
    from mechcalc.methods.roots import square_root
    if sums.n < 2:
        raise InputError("one value has no spread: a standard deviation takes at least two")
    spread = sum_of_products(machine, (sums.sum_xx, sums.n), (sums.sum_x, -sums.sum_x))
    variance = divide(machine, spread.answer, sums.n * (sums.n - 1), places=2 * places)
    return spread, variance, square_root(machine, variance.answer)


def _choice(way: Any, ways: tuple[str, ...]) -> tuple[str, ...]:
    if way is None:
        return ways
    if not isinstance(way, str) or way not in ways:
        raise InputError(f"the way is {', '.join(map(repr, ways))}, not {shown(way)}")
    return (way,)


def _passes(machine: Machine, title: str, ways: tuple[str, ...], plan: Callable[[str], tuple[Pass, ...]],
            short_cut: bool) -> tuple[Working, str, dict[str, int]]:
    """Do the passes of the first way that fits: the working, the way, and the sums as read and noted."""
    found: dict[str, int] = {}

    def attempt(choice: str) -> Working:
        way, _, order = choice.partition(", ")
        passes = plan(way)
        for one in passes:
            check_pass(machine.spec, title, one)

        def method(hand: Hand) -> Generator[Piece, None, tuple[int, str]]:
            found.clear()
            for one in passes:
                yield from hand.clear("result", "counter")
                yield from work_terms(hand, one.terms, order, short_cut)
                found.update(one.read(hand))
            noted = ", ".join(f"{name} = {value}" for name, value in found.items())
            return hand.value, f"Read and noted, {way}: {noted}."
        return work(machine, title, method)

    chosen: list[str] = []

    def noting(choice: str) -> Working:
        working = attempt(choice)
        chosen.append(choice.partition(", ")[0])
        return working

    working = first_that_fits([f"{way}, {order}" for way in ways for order in ORDERS], noting)
    return working, chosen[0], dict(found)
