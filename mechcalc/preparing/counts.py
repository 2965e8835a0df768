"""What can be counted about a calculation: the words that conditions are made of.

Only this file lists them. To add one, add a row to `MEASURES`; the command line's list, the checks of a wish and the
search take it from there. Each row computes a whole number from a `Case` and says in a sentence what it has found.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import IntEnum

from mechcalc.preparing.case import Case
from mechcalc.preparing.course import Course, Run
from mechcalc.preparing.tasks import Task


class Stage(IntEnum):
    """How dear it is to compute: from the numbers, from the answer, from the course of the calculation."""

    NUMBERS = 1
    ANSWER = 2
    COURSE = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """Something that can be counted.

    Attributes
    ----------
    name : str
        As conditions write it.
    says : str
        What is counted, in a sentence.
    stage : Stage
        What it is computed from.
    value : callable
        ``value(case, of) -> int``; `of` is the name of the number it is asked of, empty where it is of none.
    words : callable
        ``words(case, of, value) -> str``: what was found, in a sentence.
    of_number : bool
        Whether it is asked of a number: ``noughts in multiplier``.
    goes_with : callable
        Whether it has a meaning for a task.
    clear : callable
        ``clear(case, of, value) -> int``: how clearly a class will see it, 0 to 10.
    """

    name: str
    says: str
    stage: Stage
    value: Callable[[Case, str], int]
    words: Callable[[Case, str, int], str]
    of_number: bool = False
    goes_with: Callable[[Task], bool] = lambda task: True
    clear: Callable[[Case, str, int], int] = lambda case, of, value: 10


def many(count: int, noun: str, nouns: str = "") -> str:
    """So many of something.

    >>> many(1, "turn"), many(0, "carry", "carries")
    ('1 turn', 'no carries')
    """
    return f"{count or 'no'} {noun if count == 1 else nouns or noun + 's'}"


def _course(case: Case) -> Course:
    assert case.course is not None
    return case.course


# Figures of a number.

def figures(number: int) -> str:
    """The digits of a number as they are written, its sign apart."""
    return str(abs(number))


def _noughts(case: Case, of: str) -> int:
    return figures(case.named[of]).count("0")


def _inner_noughts(case: Case, of: str) -> int:
    return figures(case.named[of]).rstrip("0").count("0")


def _end_noughts(case: Case, of: str) -> int:
    text = figures(case.named[of])
    return len(text) - len(text.rstrip("0")) if case.named[of] else 0


def _repeated(case: Case, of: str) -> int:
    text = figures(case.named[of])
    return len(text) - len(set(text))


def _of(what: str) -> Callable[[Case, str, int], str]:
    """A sentence about a number: ``_of("has {}")``."""
    def words(case: Case, of: str, value: int) -> str:
        return f"The {of}, {_signed(case.named[of])}, {what.format(value=value)}."
    return words


def _signed(number: int) -> str:
    return str(number).replace("-", "−")


# What happens on the machine.

def _runs(course: Course) -> list[tuple[Run, int]]:
    return [(run, number) for number, turn in enumerate(course.turns, start=1) for run in turn.runs]


def _ripple(case: Case, of: str) -> int:
    return max((run.wheels for run, _ in _runs(_course(case))), default=0)


def _ripple_words(case: Case, of: str, value: int) -> str:
    if not value:
        return "No wheel is moved by a carry."
    course = _course(case)
    run, number = next((run, number) for run, number in _runs(course) if run.wheels == value)
    last = run.first + run.wheels - 1
    what = "carry" if course.turns[number - 1].direction > 0 else "borrow"
    wheels = f"wheels {run.first} to {last}" if value > 1 else f"wheel {last}"
    return f"In turn {number} of {len(course.turns)} one {what} runs through {many(value, 'wheel')}: {wheels}."


def _ripple_clear(case: Case, of: str, value: int) -> int:
    """How far the longest run stands out from the next longest."""
    wheels = sorted((run.wheels for run, _ in _runs(_course(case))), reverse=True)
    return 10 - 10 * wheels[1] // wheels[0] if len(wheels) > 1 else 10


_ALL: tuple[Measure, ...] = (
    Measure(name="noughts", says="noughts among the figures of a number", stage=Stage.ANSWER, of_number=True,
            value=_noughts, words=_of("has {value} noughts")),
    Measure(name="inner noughts", says="noughts with another figure on either side", stage=Stage.ANSWER,
            of_number=True, value=_inner_noughts, words=_of("has {value} noughts inside")),
    Measure(name="end noughts", says="noughts at the end of a number", stage=Stage.ANSWER, of_number=True,
            value=_end_noughts, words=_of("ends in {value} noughts")),
    Measure(name="repeated figures", says="figures that stand somewhere else in the number already",
            stage=Stage.ANSWER, of_number=True, value=_repeated, words=_of("repeats {value} figures")),
    Measure(name="turns", says="turns of the crank", stage=Stage.COURSE,
            value=lambda case, of: len(_course(case).turns),
            words=lambda case, of, value: f"It takes {many(value, 'turn')}."),
    Measure(name="ripple", says="wheels that one carry (or borrow) moves one after the other in one turn",
            stage=Stage.COURSE, value=_ripple, words=_ripple_words, clear=_ripple_clear),
)

MEASURES: dict[str, Measure] = {measure.name: measure for measure in _ALL}
