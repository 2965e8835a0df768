"""Wrong ways that are known, and what each comes to, so that an exercise can tell right from wrong.

Only this file lists them. That they are usual is common practice, with no source, except where one is named. A slip
gives the number that a learner would then write down for the answer, or None where these numbers give no occasion
for it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from mechcalc.methods.short_cut import signed_digits

if TYPE_CHECKING:
    from mechcalc.preparing.case import Case


@dataclass(frozen=True, slots=True)
class UsualSlip:
    """A wrong way.

    Attributes
    ----------
    name : str
        What is done wrong, as a clause.
    comes_to : callable
        ``comes_to(case)``: the wrong answer, with as many decimals as the right one, or None.
    """

    name: str
    comes_to: Callable[[Case], int | None]

    def __repr__(self) -> str:
        return f"<UsualSlip {self.name}>"


def _number(figures: Iterable[object]) -> int:
    return int("".join(map(str, figures)) or "0")


def _columns(case: Case, column: Callable[..., int]) -> int:
    """Each column worked by itself, the numbers lined up at the units."""
    width = max(len(str(number)) for number in case.numbers)
    rows = [[int(figure) for figure in str(number).rjust(width, "0")] for number in case.numbers]
    return _number(column(*figures) for figures in zip(*rows, strict=True))


def _lined_up_at_the_head(case: Case) -> int | None:
    widths = [len(str(number)) for number in case.numbers]
    if len(set(widths)) == 1:
        return None
    return sum(number * 10**(max(widths) - width) for number, width in zip(case.numbers, widths, strict=True))


def _smaller_from_larger(case: Case) -> int | None:
    return _columns(case, lambda a, b: abs(a - b)) if len(case.numbers) == 2 else None


def _complement_as_it_stands(case: Case) -> int | None:
    answer = case.exact.answer
    return 10**case.spec.wheels_in_reach(0) + answer if answer < 0 else None


def _one_not_struck_off(case: Case) -> int | None:
    answer = case.exact.answer
    return 10**case.spec.setting_places + answer if answer >= 0 and case.numbers[1] else None


def _noughts_left_out(number: int) -> int | None:
    return _number(str(number).replace("0", "")) if "0" in str(number) and number else None


def _nought_without_place(case: Case) -> int | None:
    squeezed = _noughts_left_out(case.numbers[1])
    return None if squeezed is None else case.numbers[0] * squeezed


def _turned_forwards(case: Case) -> int | None:
    digits = signed_digits(case.numbers[1])
    if min(digits) >= 0:
        return None
    return case.numbers[0] * sum(abs(digit) * 10**place for place, digit in enumerate(digits))


def _from_the_wrong_end(number: int) -> int | None:
    return _number(reversed(str(number))) if number > 9 else None


def _multiplier_reversed(case: Case) -> int | None:
    reversed_one = _from_the_wrong_end(case.numbers[1])
    return None if reversed_one is None else case.numbers[0] * reversed_one


def _one_more_in_each_place(case: Case) -> int:
    answer = case.exact.answer
    return answer + (10**len(str(answer)) - 1) // 9


_NOT_SHIFTED = UsualSlip("the carriage is not shifted",
                         lambda case: case.numbers[0] * sum(int(figure) for figure in str(case.numbers[1])))
_SMALLER_FROM_LARGER = UsualSlip("in each column the smaller figure is taken from the larger", _smaller_from_larger)
_NOUGHT_LEFT_OUT = UsualSlip("a nought in the answer is left out", lambda case: _noughts_left_out(case.exact.answer))
_WRONG_END = UsualSlip("the counter is read from the wrong end", lambda case: _from_the_wrong_end(case.exact.answer))

ADDING = (
    UsualSlip("the carries are forgotten", lambda case: _columns(case, lambda *figures: sum(figures) % 10)),
    UsualSlip("the numbers are lined up at the head", _lined_up_at_the_head),
    UsualSlip("the last number is left out", lambda case: sum(case.numbers[:-1])),
)
# The smaller figure from the larger: Brown and Burton, "Diagnostic models for procedural bugs in basic mathematical
# skills", Cognitive Science 2 (1978) (from memory).
TAKING_AWAY = (
    _SMALLER_FROM_LARGER,
    UsualSlip("the borrows are forgotten", lambda case: _columns(case, lambda a, *others: (a - sum(others)) % 10)),
    UsualSlip("the crank is turned forwards", lambda case: sum(case.numbers)),
    UsualSlip("a complement is written down as it stands", _complement_as_it_stands),
)
COMPLEMENTS = (
    _SMALLER_FROM_LARGER,
    UsualSlip("the nine's complement is set", lambda case: case.exact.answer - 1),
    UsualSlip("the 1 in front is not struck off", _one_not_struck_off),
)
MULTIPLYING = (
    _NOT_SHIFTED,
    UsualSlip("a nought in the multiplier is given no place", _nought_without_place),
    UsualSlip("the multiplier is worked from its other end", _multiplier_reversed),
    UsualSlip("one turn too many is made in the highest place",
              lambda case: case.exact.answer + case.numbers[0] * 10**(len(str(case.numbers[1])) - 1)),
)
SHORT_CUT = (*MULTIPLYING[1:3], UsualSlip("subtractive turns are made forwards", _turned_forwards))
CHAINING = (
    UsualSlip("the last factor is left out", lambda case: math.prod(case.numbers[:-1])),
    UsualSlip("the levers are left at the first factor", lambda case: case.numbers[0] * case.numbers[-1]),
    UsualSlip("the result is not cleared between",
              lambda case: case.exact.answer + math.prod(case.numbers[:-1]) if len(case.numbers) > 2 else None),
)
DIVIDING = (
    UsualSlip("the turn that was too many is counted in each place", _one_more_in_each_place),
    _NOUGHT_LEFT_OUT, _WRONG_END,
)
SQUARE_ROOTS = (
    UsualSlip("the number is halved", lambda case: case.numbers[0] * 10**case.places // 2),
    UsualSlip("the last odd number is taken for the root", lambda case: 2 * case.exact.answer - 1),
    _NOUGHT_LEFT_OUT, _WRONG_END,
)
