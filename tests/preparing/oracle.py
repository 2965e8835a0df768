"""Carries worked out on paper: column by column, with no machine and no event.

Only this file holds the finder's oracles. They know whole numbers, and what a carry is in written addition; they
import nothing of the kit.
"""

from __future__ import annotations


def columns(before: int, amount: int, direction: int, wheels: int) -> list[tuple[int, bool]]:
    """For each column from the units: how many columns the carry has run through when it gets here, and if it goes on.

    A carry comes out of a column by itself where the two figures alone make ten or more (or the lower cannot be taken
    from the upper); it is passed on where they make nine (are alike) and a carry comes in.
    """
    found, length = [], 0
    for place in range(wheels):
        upper, lower = before // 10**place % 10, amount // 10**place % 10
        alone = upper + lower >= 10 if direction > 0 else upper < lower
        passes = length > 0 and (upper + lower == 9 if direction > 0 else upper == lower)
        found.append((length + 1 if length else 0, passes))
        length = 1 if alone else length + 1 if passes else 0
    return found


def ripple(before: int, amount: int, direction: int, wheels: int) -> int:
    """The most columns that one carry runs through, the one that sets it off among them."""
    return max(length for length, _ in columns(before, amount, direction, wheels))


def crossed(before: int, amount: int, direction: int, wheels: int) -> int:
    """The most columns in a row that pass a carry on."""
    best = run = 0
    for _length, passes in columns(before, amount, direction, wheels):
        run = run + 1 if passes else 0
        best = max(best, run)
    return best


def carries(before: int, amount: int, direction: int, wheels: int) -> int:
    """How many columns a carry comes into: each carry makes ten in one column into one in the next, nine less in all.

    A carry out of the last column comes into none.
    """
    after = (before + direction * amount) % 10**wheels
    part, total = (before, after) if direction > 0 else (after, before)
    lost = part + amount != total
    return (sum_of(part) + sum_of(amount) - sum_of(total) - 10 * lost) // 9


def sum_of(number: int) -> int:
    """The figures added up."""
    return sum(map(int, str(number)))


def turns_of_product(multiplicand: int, multiplier: int) -> list[tuple[int, int]]:
    """Every turn of a product worked by shifting, units first: the result before it, and what it adds."""
    result, found = 0, []
    for place, figure in enumerate(reversed(str(multiplier))):
        for _ in range(int(figure)):
            found.append((result, multiplicand * 10**place))
            result += multiplicand * 10**place
    assert result == multiplicand * multiplier
    return found
