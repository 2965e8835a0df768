"""A sum of squared deviations as a computer program reckons it, in 64-bit floating point.

Only this file works with rounded numbers, on purpose: lessons set them beside the machine's whole ones. Every sum is
added up one value at a time, so that each Python gives the same (its own `sum` corrects itself from 3.12 on).
"""

from __future__ import annotations

from collections.abc import Iterable

from mechcalc.errors import InputError


def spread_at_once(values: Iterable[float]) -> float:
    """Σx² - (Σx)² / n, from two running sums, as a short program would.

    Raises
    ------
    InputError
        There are no values.

    Examples
    --------
    >>> spread_at_once([1, 2, 3]), spread_at_once([123456790, 123456791, 123456792])
    (2.0, -8.0)
    """
    count, total, squares = 0, 0.0, 0.0
    for value in values:
        number = float(value)
        count, total, squares = count + 1, total + number, squares + number * number
    return squares - total * total / _some(count)


def spread_about_mean(values: Iterable[float]) -> float:
    """Σ(x - mean)², from two walks through the data, as a careful program would.

    >>> spread_about_mean([123456790, 123456791, 123456792])
    2.0
    """
    numbers = [float(value) for value in values]
    mean = _added(numbers) / _some(len(numbers))
    return _added((number - mean) * (number - mean) for number in numbers)


def _added(numbers: Iterable[float]) -> float:
    total = 0.0
    for number in numbers:
        total += number
    return total


def _some(count: int) -> int:
    if not count:
        raise InputError("there are no values, and so no spread")
    return count
