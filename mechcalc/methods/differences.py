"""Tables by differences.

Only this file decides how a table is made from its differences. It is worked column by column, from the constant
difference up: each column is a running sum of the one before it, one turn an entry, with the entry of the column before
it on the levers (common practice, no source). The operator writes every column down.
"""

from __future__ import annotations

import re
from collections.abc import Generator, Iterator, Sequence
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING, Any

from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.methods import capacity
from mechcalc.methods.hand import Hand, Piece, spec_of, work
from mechcalc.methods.table import Table
from mechcalc.methods.working import Working
from mechcalc.numbers import shown, whole

if TYPE_CHECKING:
    import sympy

MOST_ENTRIES = 2000
# A polynomial as text: figures, signs, brackets, and letters that stand alone.
PLAIN = re.compile(r"(?:[\d\s+*/().^-]|(?<![A-Za-z])[A-Za-z](?![A-Za-z])){1,200}")


def difference_start(polynomial: sympy.Expr | str, start: int = 0, step: int = 1) -> tuple[int, ...]:
    """The first value of a polynomial and its first differences, up to the constant one.

    Parameters
    ----------
    polynomial : sympy expression or str
        In one symbol. Its values have to be whole numbers at every step.
    start, step : int
        Where the table begins, and how far apart its arguments are.

    Raises
    ------
    InputError
        It is no polynomial in one symbol, or has a value that is not whole.

    Examples
    --------
    >>> difference_start("x**2"), difference_start("x**3"), difference_start("x**4")
    ((0, 1, 2), (0, 1, 6, 6), (0, 1, 14, 36, 24))
    >>> difference_start("x*(x+1)/2", start=10, step=5)
    (55, 65, 25)
    """
    values = _values(polynomial, start, step)
    row, found = list(values), []
    while row:
        found.append(row[0])
        row = [b - a for a, b in pairwise(row)]
    return tuple(found)


def _values(polynomial: Any, start: int, step: int) -> tuple[int, ...]:
    """As many values as the differences need: one more than the degree. Whole ones make all others whole."""
    import sympy as s
    start, step = whole(start, "a start"), whole(step, "a step", 1)
    try:
        if isinstance(polynomial, str) and not PLAIN.fullmatch(polynomial):
            raise ValueError("sympy would run anything else as a program")
        expression = s.sympify(polynomial)
        symbols = sorted(expression.free_symbols, key=str)
        argument = symbols[0] if symbols else s.Symbol("x")
        poly = s.Poly(expression, argument)
    except (s.SympifyError, s.PolynomialError, AttributeError, TypeError, SyntaxError, ValueError):
        poly = None
    if poly is None or len(symbols) > 1 or not poly.domain.is_Exact or any(not c.is_Rational for c in poly.coeffs()):
        raise InputError(f"a table by differences takes a polynomial in one symbol with rational coefficients, not "
                         f"{shown(str(polynomial))}")
    found = []
    for place in range(max(0, poly.degree()) + 1):
        at = start + place * step
        value = poly.eval(at)
        if not value.is_Integer:
            raise InputError(f"{expression} is {value} at {at}, which is no whole number: multiply the polynomial by "
                             f"a number that makes its values whole, such as a power of ten")
        found.append(int(value))
    return tuple(found)


def table_by_differences(machine: Machine, first: Sequence[int], entries: int, *, start: int = 0, step: int = 1,
                         title: str = "") -> Table:
    """A table from its first value and first differences.

    Parameters
    ----------
    machine : Machine
        To work on. Result and counter are cleared first, and the carriage goes home.
    first : sequence of int
        The first value, first difference, ... as `difference_start` gives them; the last one is constant.
    entries : int
        How many values.
    start, step : int
        For the column of arguments.

    Returns
    -------
    Table
        Its columns are the argument, the value, and the differences as they were written down.

    Raises
    ------
    InputError, CapacityError
        As for `add` and `subtract`: a difference below nought is taken away.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> table = table_by_differences(Machine(load_spec("bench")), (0, 1, 2), 5)
    >>> print(table)
    by differences from 0, 1, 2
    x   f  first difference  second difference
    0   0                 1                  2
    1   1                 3
    2   4                 5
    3   9                 7
    4  16
    <BLANKLINE>
    8 turns, 0 shifts, 6 settings
    """
    spec = spec_of(machine)
    begin = [whole(number, "a difference") for number in first]
    many = whole(entries, "a number of entries", 1, MOST_ENTRIES)
    start, step = whole(start, "a start"), whole(step, "a step")
    if not begin:
        raise InputError("a table takes at least its first value")
    begin = begin[:many]  # differences of a higher order come into play later than the last entry
    columns = _columns(begin, many)
    title = title or f"by differences from {', '.join(map(str, first))}".replace("-", "−")
    on_levers = [abs(number) for column in columns for number in column[:1]] + [
        abs(number) for column in columns[1:] for number in column]
    capacity.check_sizes(spec, title, setting=max(on_levers), result=max(0, *(max(column) for column in columns)))
    noted: list[list[int]] = []

    def method(hand: Hand) -> Generator[Piece, None, tuple[int, str]]:
        noted[:] = [[begin[-1]]]
        below = [begin[-1] if len(begin) > 1 else 0] * many
        yield from hand.shift_to(0)
        for order in range(max(0, len(begin) - 2), -1, -1):
            column: list[int] = []
            yield from _running_sum(hand, begin[order], below[:many - 1 - order], column)
            noted.insert(0, column)
            below = column
        return noted[0][-1], f"The last value is {noted[0][-1]}."

    working = work(machine, title, method)
    return _difference_table(title, noted[:len(begin)], start, step, working)


def _columns(begin: list[int], entries: int) -> list[list[int]]:
    """The columns as they should come out, f first, each one entry shorter than the one before it."""
    columns = [[begin[-1]] * (entries - len(begin) + 1)]
    for first in reversed(begin[:-1]):
        columns.insert(0, list(accumulate(columns[0], initial=first)))
    return columns


def _running_sum(hand: Hand, first: int, below: Sequence[int], column: list[int]) -> Iterator[Piece]:
    """Write down one column: its first entry, then one turn for each entry of the column below it."""
    yield from hand.clear("result", "counter")
    for number in (first, *below):
        if number:
            yield from hand.set(abs(number))
            yield from hand.turn(1 if number > 0 else -1)
        column.append(hand.value)


def _difference_table(title: str, columns: list[list[int]], start: int, step: int, working: Working) -> Table:
    names = ["f", "first difference", "second difference", "third difference", "fourth difference"]
    names += [f"difference {order}" for order in range(5, len(columns))]
    rows = tuple((start + step * number, *(column[number] if number < len(column) else "" for column in columns))
                 for number in range(len(columns[0])))
    return Table(title, ("x", *names[:len(columns)]), rows, (working,))


def tabulate(machine: Machine, polynomial: sympy.Expr | str, entries: int, *, start: int = 0, step: int = 1) -> Table:
    """A table of a polynomial by differences.

    Parameters
    ----------
    machine : Machine
        To work on.
    polynomial, start, step
        As for `difference_start` (this imports sympy).
    entries : int
        How many values.

    Raises
    ------
    InputError, CapacityError
        As for `difference_start` and `table_by_differences`.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> tabulate(Machine(load_spec("slate")), "x**2 + x + 41", 10).column("f")
    (41, 43, 47, 53, 61, 71, 83, 97, 113, 131)
    """
    first = difference_start(polynomial, start, step)
    return table_by_differences(machine, first, entries, start=start, step=step, title=f"{polynomial} by differences")
