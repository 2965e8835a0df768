"""A finished table checked by its differences.

Only this file decides what the differences of a table say about a slip in it. Nothing here is worked on a machine: it
is done on paper, with a table that lies there already (common practice, no source). A table of a polynomial of degree
*n* has differences of order *n* + 1 that are all nought; what stands there instead is the trace of a slip, and its
shape tells where and of which kind it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import comb
from typing import Any

from mechcalc.errors import InputError
from mechcalc.methods.table import Table
from mechcalc.numbers import shown, whole

MOST_ENTRIES = 2000
MOST_ORDERS = 12
ORDERS = ("first", "second", "third", "fourth", "fifth", "sixth")


def order_name(order: int) -> str:
    """How an order of differences is called.

    >>> order_name(4), order_name(9)
    ('fourth', '9th')
    """
    return ORDERS[order - 1] if 1 <= order <= len(ORDERS) else f"{order}th"


def differences_of(values: Sequence[int], order: int) -> tuple[int, ...]:
    """The differences of some order: each entry less the one before it, again and again.

    Parameters
    ----------
    values : sequence of int
        The entries, at equal steps.
    order : int
        From 0 (the entries themselves).

    Returns
    -------
    tuple of int
        As many fewer than entries as the order says.

    Raises
    ------
    InputError
        An entry that is no whole number, or too few entries for a difference of this order.

    Examples
    --------
    >>> differences_of([0, 1, 8, 27, 64], 1), differences_of([0, 1, 8, 27, 64], 3)
    ((1, 7, 19, 37), (6, 6))
    >>> differences_of([0, 0, 0, 0, 1, 0, 0, 0, 0], 4)
    (1, -4, 6, -4, 1)
    """
    row = _entries(values)
    order = whole(order, "an order of differences", 0, MOST_ORDERS)
    if len(row) <= order:
        raise InputError(f"differences of order {order} take {order + 1} entries or more: there "
                         f"{'is' if len(row) == 1 else 'are'} {len(row)}")
    for _ in range(order):
        row = [b - a for a, b in pairwise(row)]
    return tuple(row)


def _entries(values: Any) -> list[int]:
    if isinstance(values, (str, bytes, dict)) or not isinstance(values, Sequence):
        raise InputError(f"a table is checked by its entries, in a list, not {shown(values)}")
    if len(values) > MOST_ENTRIES:
        raise InputError(f"a table has at most {MOST_ENTRIES} entries here, not {len(values)}")
    return [whole(value, f"entry {place}") for place, value in enumerate(values, start=1)]


def difference_table(values: Sequence[int], orders: int, *, start: int = 0, step: int = 1) -> Table:
    """The entries with their differences beside them, as one writes them to check a table.

    Parameters
    ----------
    values : sequence of int
        The entries.
    orders : int
        How many columns of differences, from 1.
    start, step : int
        The first argument, and how far apart they are.

    Returns
    -------
    Table
        A difference of even order stands in the line of the middle one of its entries; one of odd order, which
        belongs between two lines, in the lower of them.

    Raises
    ------
    InputError
        As for `differences_of`.

    Examples
    --------
    >>> print(difference_table([0, 1, 4, 9, 61, 25, 36], 3))
    7 entries and their differences
    x   f  first  second  third
    0   0
    1   1      1       2
    2   4      3       2      0
    3   9      5      47     45
    4  61     52     −88   −135
    5  25    −36      47    135
    6  36     11
    <BLANKLINE>
    """
    orders = whole(orders, "a number of columns", 1, MOST_ORDERS)
    start, step = whole(start, "a start"), whole(step, "a step", 1)
    columns = [_entries(values), *(differences_of(values, order) for order in range(1, orders + 1))]
    rows = [[start + step * place, *("" for _ in columns)] for place in range(len(columns[0]))]
    for order, column in enumerate(columns):
        for place, number in enumerate(column):
            rows[place + (order + 1) // 2][order + 1] = number
    return Table(f"{len(columns[0])} entries and their differences",
                 ("x", "f", *(order_name(order) for order in range(1, orders + 1))), tuple(map(tuple, rows)), ())


@dataclass(frozen=True, slots=True)
class TableSlip:
    """One slip that would explain a table.

    Attributes
    ----------
    x : int
        The argument of the first entry that is wrong.
    order : int
        Of what was wrong: 0, the entry alone was written wrongly; 1, one first difference was turned in wrongly, and
        every entry from there on is out by the same; 2, one second difference, and they are out by more and more; ...
    error : int
        By how much: what was used less what should have been.
    found, right : int
        The entry at `x` as it stands in the table, and as it should be.
    """

    x: int
    order: int
    error: int
    found: int
    right: int

    def __str__(self) -> str:
        here = f"x = {self.x}: {self.found} stands for {self.right}".replace("-", "−")
        by = f"{abs(self.error)} too {'large' if self.error > 0 else 'small'}"
        if self.order == 0:
            return f"At {here}. This entry alone was written wrongly, {by}."
        further = "is out by the same" if self.order == 1 else "is out, by more and more"
        return (f"From {here}. One {order_name(self.order)} difference was turned in {by}; each later entry "
                f"{further}.")


def slip_pattern(order: int) -> tuple[int, ...]:
    """The trace that one wrong entry leaves in the differences of an order, for an entry that is 1 too large.

    >>> slip_pattern(3), slip_pattern(4)
    ((1, -3, 3, -1), (1, -4, 6, -4, 1))
    """
    order = whole(order, "an order of differences", 0, MOST_ORDERS)
    return tuple((-1)**place * comb(order, place) for place in range(order + 1))


def slips_of(values: Sequence[int], degree: int, *, start: int = 0, step: int = 1) -> tuple[TableSlip, ...]:
    """Every single slip that would explain why a table does not run smoothly.

    Parameters
    ----------
    values : sequence of int
        The entries of a table of a polynomial.
    degree : int
        Of the polynomial, from 0.
    start, step : int
        The first argument, and how far apart they are.

    Returns
    -------
    tuple of TableSlip
        None where nothing is wrong, and none where no *single* slip explains it. More than one near the ends, where
        the trace is cut off.

    Raises
    ------
    InputError
        As for `differences_of`: it takes two entries more than the degree says, or nothing is left to see.

    Notes
    -----
    With m = degree + 1, a slip of order r leaves its error times `slip_pattern(m - r)` in the differences of order m.

    Examples
    --------
    >>> print(*slips_of([0, 1, 8, 27, 46, 125, 216, 343, 512, 729], 3))
    At x = 4: 46 stands for 64. This entry alone was written wrongly, 18 too small.
    >>> print(*slips_of([0, 1, 4, 9, 16, 25, 38, 51, 66, 83, 102], 2))
    From x = 6: 38 stands for 36. One first difference was turned in 2 too large; each later entry is out by the same.
    >>> slips_of([0, 1, 4, 9, 16], 2), slips_of([0, 1, 5, 9, 16, 25, 37, 49, 63], 2)
    ((), ())
    """
    degree = whole(degree, "a degree", 0, MOST_ORDERS - 1)
    start, step = whole(start, "a start"), whole(step, "a step", 1)
    entries, trace = _entries(values), differences_of(values, degree + 1)
    if not any(trace):
        return ()
    found = []
    for order in range(degree + 1):
        pattern = slip_pattern(degree + 1 - order)
        for begin in range(1 - len(pattern), len(trace)):  # where the pattern begins; part of it may be cut off
            first = begin + degree + 1  # the first entry that is wrong
            error = _error(trace, pattern, begin)
            if error:
                found.append(TableSlip(start + step * first, order, error, entries[first], entries[first] - error))
    return tuple(found)


def _error(trace: Sequence[int], pattern: Sequence[int], begin: int) -> int:
    """The factor by which a trace is this pattern and nothing else; 0 if it is not."""
    seen = {begin + place: number for place, number in enumerate(pattern) if 0 <= begin + place < len(trace)}
    place, number = next(iter(seen.items()))
    error, rest = divmod(trace[place], number)
    if rest or any(trace[at] != error * seen.get(at, 0) for at in range(len(trace))):
        return 0
    return error
