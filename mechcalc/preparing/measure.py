"""What a measure is: something about a calculation that can be counted.

Only this file says what a row of `mechcalc.preparing.MEASURES` holds.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import IntEnum

from mechcalc.preparing.case import Case
from mechcalc.preparing.course import Course
from mechcalc.preparing.tasks import Task
from mechcalc.spec import MachineSpec


class Stage(IntEnum):
    """How dear a measure is: figures of numbers and answer, or the whole course of the calculation."""

    FIGURES = 1
    COURSE = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """Something that can be counted.

    Attributes
    ----------
    name : str
        As conditions write it.
    says : str
        What is counted, for a list.
    stage : Stage
        What it is computed from.
    value : callable
        ``value(case, of) -> int``; `of` is the name of the number it is asked of, empty where it is asked of none.
    words : callable
        ``words(case, of, value) -> str``: what was found, in a sentence.
    of_number : bool
        Whether it is asked of a number: ``noughts in multiplier``.
    goes_with : callable
        Whether it has a meaning for a task.
    most : callable
        ``most(spec)``: more than this there cannot be on any numbers; None where there is no such bound.
    clear : callable
        ``clear(case, of, value) -> int``: how clearly a class will see it where it is asked for, 0 to 10.
    """

    name: str
    says: str
    stage: Stage
    value: Callable[[Case, str], int]
    words: Callable[[Case, str, int], str]
    of_number: bool = False
    goes_with: Callable[[Task], bool] = lambda task: True
    most: Callable[[MachineSpec], int | None] = lambda spec: None
    clear: Callable[[Case, str, int], int] = lambda case, of, value: 10

    def __repr__(self) -> str:
        return f"<Measure {self.name}: {self.says}>"


def many(count: int, noun: str, nouns: str = "") -> str:
    """So many of something.

    >>> many(1, "turn"), many(3, "turn"), many(0, "carry", "carries")
    ('1 turn', '3 turns', 'no carries')
    """
    return f"{count or 'no'} {noun if count == 1 else nouns or noun + 's'}"


def course(case: Case) -> Course:
    """The course of a candidate that the machine has room for."""
    assert case.course is not None, f"{case} has no course"
    return case.course
