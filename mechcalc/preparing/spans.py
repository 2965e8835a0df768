"""Which numbers may be tried: the sizes of a wish's numbers, and all of them in an order drawn from a seed.

Only this file decides how sizes are written, and in which order numbers are tried. The order is a permutation of all
the numbers there are, so a search never tries the same twice, and one that goes on to the end has tried all. It is
drawn by hashlib's BLAKE2b, not by `random`, whose ranges and shuffles may change from one Python to the next: the
same seed gives the same numbers on every platform and every version.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from hashlib import blake2b
from math import isqrt, prod
from typing import Any

from mechcalc.errors import InputError
from mechcalc.numbers import shown, whole

MOST_DIGITS = 40
ROUNDS = 4


@dataclass(frozen=True, slots=True)
class Span:
    """The numbers from `low` to `high`, both included.

    Examples
    --------
    >>> span(3), span("2-3"), span("=98"), span("50..99")
    (Span(100, 999), Span(10, 999), Span(98, 98), Span(50, 99))
    >>> str(span(3)), str(span("2-3")), str(span("=98")), str(span("50..99"))
    ('3', '2-3', '=98', '50..99')
    """

    low: int
    high: int

    def __repr__(self) -> str:
        return f"Span({self.low}, {self.high})"

    @property
    def many(self) -> int:
        """How many numbers there are."""
        return self.high - self.low + 1

    def __contains__(self, number: int) -> bool:
        return self.low <= number <= self.high

    def __str__(self) -> str:
        if self.low == self.high:
            return f"={self.low}"
        few, many = len(str(self.low)), len(str(self.high))
        if self.low == 10**(few - 1) and self.high == 10**many - 1:
            return str(few) if few == many else f"{few}-{many}"
        return f"{self.low}..{self.high}"

    @property
    def words(self) -> str:
        """In words, for a sentence."""
        if self.low == self.high:
            return str(self.low)
        few, many = len(str(self.low)), len(str(self.high))
        if ".." in str(self):
            return f"from {self.low} to {self.high}"
        return f"of {few if few == many else f'{few} to {many}'} digit{'s' * (many > 1)}"


def span(given: Any) -> Span:
    """The span that is meant: a number of digits, a text (``"3"``, ``"2-3"``, ``"=98"``, ``"50..99"``), or a `range`.

    Raises
    ------
    InputError
        It is none of these, or there is no number in it.
    """
    if isinstance(given, Span):
        return given
    if isinstance(given, range):
        if not given or given.step != 1 or given.start < 0:
            raise InputError(f"{given!r} holds no row of numbers from 0 upwards")
        return Span(given.start, given.stop - 1)
    if not isinstance(given, str):
        digits = whole(given, "a number of digits", 1, MOST_DIGITS)
        return Span(10**(digits - 1), 10**digits - 1)
    text = given.strip()
    for pattern, kind in ((r"([0-9]+)(?:-([0-9]+))?", "digits"), (r"=([0-9]+)()", "number"),
                          (r"([0-9]+)\.\.([0-9]+)", "numbers")):
        if (read := re.fullmatch(pattern, text)) and len(text) <= 2 * MOST_DIGITS + 2:
            return _span(given, int(read[1]), int(read[2] or read[1]), kind == "digits")
    raise InputError(f"{shown(given)} is no size of a number: write how many digits it has, as in 3 or 2-3, or which "
                     f"numbers may be taken, as in 50..99, or the number, as in =98")


def _span(given: str, first: int, last: int, digits: bool) -> Span:
    if first > last:
        raise InputError(f"{shown(given)} holds no number: {first} is more than {last}")
    if not digits:
        return Span(first, last)
    for number in (first, last):
        whole(number, "a number of digits", 1, MOST_DIGITS)
    return Span(10**(first - 1), 10**last - 1)


def spans(given: Any) -> tuple[Span, ...]:
    """Several of them: a list, or a text with ``x`` or commas between.

    >>> spans("3x=98"), spans((3, 2))
    ((Span(100, 999), Span(98, 98)), (Span(100, 999), Span(10, 99)))
    """
    if isinstance(given, str):
        return tuple(map(span, re.split(r"[x,×]", given)))
    if isinstance(given, (Span, range)) or not isinstance(given, Iterable):
        return (span(given),)
    return tuple(map(span, given))


def size(these: Iterable[Span]) -> int:
    """How many combinations of numbers there are."""
    return prod(one.many for one in these)


def numbers_in_order(these: tuple[Span, ...], seed: int) -> Iterator[tuple[int, ...]]:
    """All combinations, each once, in the order that the seed draws.

    >>> from itertools import islice
    >>> list(islice(numbers_in_order(spans("3x2"), 2026), 3)) == list(islice(numbers_in_order(spans("3x2"), 2026), 3))
    True
    >>> sorted(numbers_in_order(spans("1x1"), 5)) == [(a, b) for a in range(1, 10) for b in range(1, 10)]
    True
    """
    for index in permutation(size(these), seed):
        numbers = []
        for one in reversed(these):
            index, offset = divmod(index, one.many)
            numbers.append(one.low + offset)
        yield tuple(reversed(numbers))


def permutation(many: int, seed: int) -> Iterator[int]:
    """0 to many - 1, each once, in an order drawn from the seed.

    A Feistel network over pairs (left, right) whose two halves are about the root of `many`: each round adds to one
    half a hash of the other, which can be undone, so no two numbers become the same. Numbers beyond the end are sent
    through again until they fall inside (cycle walking). Source of both ideas: Black and Rogaway, "Ciphers with
    arbitrary finite domains", CT-RSA 2002 (from memory). Nothing here needs to be secret.
    """
    key = str(seed).encode()
    half = max(1, isqrt(max(0, many - 1)) + 1)
    for index in range(many):
        while True:
            index = _sent_through(index, half, key)
            if index < many:
                break
        yield index


def _sent_through(index: int, half: int, key: bytes) -> int:
    left, right = divmod(index, half)
    for number in range(ROUNDS):
        drawn = blake2b(b"%s:%d:%d" % (key, number, right), digest_size=16).digest()
        left, right = right, (left + int.from_bytes(drawn, "big")) % half
    return left * half + right
