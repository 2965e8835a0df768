"""Exercises that answer back.

Only this file decides what is said to an answer. The right answer and the answers that usual misconceptions lead to
are computed when they are needed, by running a machine; no key is stored.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache
from importlib import import_module
from textwrap import fill
from typing import Any

from mechcalc.classroom import logbook
from mechcalc.classroom.answers import Kind, Several, Unreadable, plainly
from mechcalc.classroom.course import LESSONS
from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.words import listed

NOTHING_YET = "Nothing to look over yet. Put your answer in place of None and run this cell again."
FOUND_RIGHT = "A solution is folded away here, and it is right. Open the cell to read it."
WIDTH = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """A misconception.

    Attributes
    ----------
    answer : callable
        The answer that it leads to, computed. ``...`` in a tuple stands for any value of that part.
    says : str
        A sentence that leads on, without giving the answer away.
    """

    answer: Callable[[], Any]
    says: str

    def matches(self, given: Any) -> bool:
        """Whether this answer comes from the misconception."""
        led_to = self.answer()
        if isinstance(led_to, tuple) and isinstance(given, tuple) and len(led_to) == len(given):
            return all(part is ... or part == mine for part, mine in zip(led_to, given, strict=True))
        return bool(led_to == given)


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What an answer was found to be.

    Attributes
    ----------
    outcome : str
        ``"none"`` (None was given), ``"unreadable"``, ``"right"``, ``"slip"`` or ``"wrong"``.
    words : str
        What is said to it.
    answer : object
        In its plain form; None where there is none that can be read.
    slip : Slip or None
        The misconception that it comes from.
    """

    outcome: str
    words: str
    answer: Any = None
    slip: Slip | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise:
    """A question and all that is said to its answers.

    Attributes
    ----------
    label : str
        Its name in the lesson.
    question : str
        As the lesson asks it; the gate compares.
    kind : Kind
        What is read as an answer.
    right : callable
        The right answer, from a machine that is run.
    praise : str
        What a right answer shows.
    slips : tuple of Slip
        Tried in order.
    nudges : tuple of str
        Hints, from gentle to plain.
    """

    label: str
    question: str
    kind: Kind
    right: Callable[[], Any]
    praise: str
    slips: tuple[Slip, ...]
    nudges: tuple[str, ...]

    def feedback(self, given: Any) -> str:
        """What is said to an answer: the words of `judge`."""
        return self.judge(given).words

    def judge(self, given: Any) -> Verdict:
        """What an answer is, and what is said to it.

        None is no answer; a value of the wrong kind is told what is wanted; then the right answer, the slips, and
        for an exercise in parts which of them are right already.
        """
        if given is None:
            return Verdict(outcome="none", words=NOTHING_YET)
        try:
            answer = self.kind.read(given)
        except Unreadable as line:
            return Verdict(outcome="unreadable", words=f"Not an answer yet. {line}")
        right = self.right()
        if answer == right:
            return Verdict(outcome="right", answer=answer, words=f"Right: {plainly(answer)}. {self.praise}")
        for slip in self.slips:
            if slip.matches(answer):
                return Verdict(outcome="slip", answer=answer, slip=slip, words=f"Not yet. {slip.says}")
        return Verdict(outcome="wrong", answer=answer, words=f"Not yet. {self._parts(answer, right)}"
                                                             f"There is help: nudge(\"{self.label}\").")

    def _parts(self, answer: Any, right: Any) -> str:
        if not isinstance(self.kind, Several):
            return ""
        good = [name for name, mine, true in zip(self.kind.names, answer, right, strict=True) if mine == true]
        return f"Right already: {listed(good)}. The rest needs another look. " if good else ""


_OWN: dict[str, Exercise] = {}


def enter(*exercises: Exercise) -> None:
    """Add exercises of your own, so that `look_over` and `nudge` know their labels; again to replace them.

    Raises
    ------
    InputError
        The label belongs to an exercise that came with the kit.
    """
    for exercise in exercises:
        if exercise.label in _shipped():
            raise InputError(f"the label {shown(exercise.label)} is taken by an exercise that came with the kit")
    _OWN.update({exercise.label: exercise for exercise in exercises})


def exercises_of(lesson: str) -> tuple[Exercise, ...]:
    """The exercises of a lesson that came with the kit, in order.

    >>> [exercise.label for exercise in exercises_of("tens_carry")][:2]
    ['before the carry', 'how many levers']
    """
    exercises: tuple[Exercise, ...] = import_module(f"mechcalc.classroom.questions.{lesson}").EXERCISES
    return exercises


@lru_cache(maxsize=1)
def _shipped() -> dict[str, Exercise]:
    return {exercise.label: exercise for lesson in LESSONS for exercise in exercises_of(lesson)}


def lesson_of(label: str) -> str | None:
    """The lesson that asks an exercise; None for one of your own.

    >>> lesson_of("slow levers")
    'tens_carry'
    """
    return next((lesson for lesson in LESSONS if any(exercise.label == label for exercise in exercises_of(lesson))),
                None)


def _found(label: Any) -> Exercise | str:
    """The exercise of that label, or a line that says what is meant perhaps."""
    known = {**_shipped(), **_OWN}
    if isinstance(label, str) and label in known:
        return known[label]
    near = get_close_matches(str(label), known, n=1)
    meant = f" Is \"{near[0]}\" meant?" if near else " The label stands beside each question."
    return f"There is no exercise called {shown(label)}.{meant}"


def look_over(label: str, answer: Any) -> None:
    """Look an answer over, print what there is to say, and keep it where there is a place (see `logbook`).

    Parameters
    ----------
    label : str
        The exercise.
    answer : object
        The learner's; None, as the lesson comes, prints one fixed line.

    Examples
    --------
    >>> look_over("before the carry", None)
    Nothing to look over yet. Put your answer in place of None and run this cell again.
    >>> look_over("before the carry", True)
    Not an answer yet. True is no number here. Write a whole number, such as 1234.
    """
    found = _found(label)
    if isinstance(found, str):
        print(fill(found, WIDTH))
        return
    verdict = found.judge(answer)
    print(fill(verdict.words, WIDTH))
    if verdict.outcome != "none":
        given = shown(answer) if verdict.outcome == "unreadable" else logbook.writable(verdict.answer)
        logbook.keep(kind="answer", lesson=lesson_of(label) or logbook.notebook(), about=label, given=given,
                     outcome=verdict.outcome, slip=verdict.slip and verdict.slip.says)


def worked_out(label: str, answer: Any) -> None:
    """Look a folded solution over without telling what it says.

    >>> worked_out("slow levers", 9 + 4)
    A solution is folded away here, and it is right. Open the cell to read it.
    """
    found = _found(label)
    said = found if isinstance(found, str) else found.feedback(answer)
    print(FOUND_RIGHT if said.startswith("Right: ") else fill(said, WIDTH))


def nudge(label: str, which: int = 1) -> None:
    """Print a hint for an exercise: the first, or the one asked for.

    >>> nudge("before the carrie")
    There is no exercise called 'before the carrie'. Is "before the carry" meant?
    """
    found = _found(label)
    if isinstance(found, str):
        print(found)
        return
    many = len(found.nudges)
    if isinstance(which, bool) or not isinstance(which, int) or not 1 <= which <= many:
        print(f"There {'is 1 nudge' if many == 1 else f'are {many} nudges'} for this exercise: "
              f"nudge(\"{label}\", {many}) is the last.")
        return
    print(fill(f"Nudge {which} of {many}: {found.nudges[which - 1]}", WIDTH))
