"""What a learner has done so far.

Only this file decides what counts as a try and as right. It reads what `mechcalc.classroom.logbook` has kept, and
never changes a line of it.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from html import escape
from itertools import count
from os import PathLike
from pathlib import Path

from mechcalc.classroom import logbook
from mechcalc.classroom.course import COURSE, Lesson
from mechcalc.classroom.exercises import exercises_of
from mechcalc.classroom.logbook import BadLine, Entry
from mechcalc.errors import InputError
from mechcalc.methods.table import grid, plain

NOTHING = "Nothing yet."
NOT_KEPT = f"{NOTHING} Answers given here are not kept: open the lessons with  python3 -m mechcalc open"
HEADINGS = ("lesson", "right", "tried, not yet right", "untouched", "right at the first try", "predictions")


@dataclass(frozen=True, slots=True)
class Trail:
    """What a learner has answered to one exercise.

    Attributes
    ----------
    label : str
        The exercise.
    tries : tuple of Entry
        Readable answers, oldest first. A cell that is run again with the same answer is no new try.
    """

    label: str
    tries: tuple[Entry, ...]

    @property
    def right(self) -> bool:
        """Whether any try was right."""
        return any(entry.outcome == "right" for entry in self.tries)

    @property
    def right_at_first(self) -> bool:
        """Whether the first try was."""
        return bool(self.tries) and self.tries[0].outcome == "right"


@dataclass(frozen=True, slots=True)
class Standing:
    """How a learner stands in one lesson.

    Attributes
    ----------
    lesson : Lesson
        Its row of the course.
    trails : tuple of Trail
        One for each exercise, in order.
    predictions : int
        How many different ones have been written down, right or wrong.
    """

    lesson: Lesson
    trails: tuple[Trail, ...]
    predictions: int = 0

    @property
    def right(self) -> int:
        """Exercises that have been answered right."""
        return sum(trail.right for trail in self.trails)

    @property
    def tried(self) -> int:
        """Exercises that have been answered, the right ones among them."""
        return sum(bool(trail.tries) for trail in self.trails)

    @property
    def untouched(self) -> int:
        """Exercises without an answer."""
        return len(self.trails) - self.tried

    @property
    def right_at_first(self) -> int:
        """Exercises whose first answer was right."""
        return sum(trail.right_at_first for trail in self.trails)

    @property
    def first_try_rate(self) -> Fraction | None:
        """Of the exercises tried, the share that was right at the first try; None before there is one."""
        return Fraction(self.right_at_first, self.tried) if self.tried else None

    @property
    def open(self) -> tuple[str, ...]:
        """The labels of exercises that have not been answered right."""
        return tuple(trail.label for trail in self.trails if not trail.right)

    @property
    def begun(self) -> bool:
        """Whether there is any answer or prediction."""
        return bool(self.tried or self.predictions)


class Progress:
    """What a learner has done in all lessons. Made by `progress`.

    Attributes
    ----------
    standings : tuple of Standing
        One for each lesson of the course, in order.
    others : tuple of Entry
        Answers to exercises that the kit does not ask: a teacher's own, or those of another version.
    bad : tuple of BadLine
        Lines of the file that cannot be read; they stay in it.
    file : Path or None
        Where it was read from.
    last : str or None
        The lesson in which the last answer was given.
    """

    def __init__(self, entries: Sequence[Entry], bad: Sequence[BadLine] = (), file: Path | None = None) -> None:
        answers = [entry for entry in entries if entry.kind == "answer"]
        asked = {exercise.label: lesson.name for lesson in COURSE for exercise in exercises_of(lesson.name)}
        self.standings = tuple(_standing(lesson, entries) for lesson in COURSE)
        self.others = tuple(entry for entry in answers if entry.about not in asked)
        self.bad, self.file = tuple(bad), file
        lessons = [asked[entry.about] for entry in answers if entry.about in asked]
        self.last = lessons[-1] if lessons else None

    def of(self, lesson: str) -> Standing:
        """How things stand in one lesson.

        Raises
        ------
        InputError
            The course has no such lesson.
        """
        for standing in self.standings:
            if standing.lesson.name == lesson:
                return standing
        raise InputError(f"{lesson!r} is no lesson of the course: there are "
                         f"{', '.join(standing.lesson.name for standing in self.standings)}")

    def export(self, path: str | PathLike[str]) -> Path:
        """Copy the file, every line as it stands, to where there is no file yet.

        Raises
        ------
        InputError
            Nothing has been kept, or there is a file already.
        """
        if self.file is None or not self.file.is_file():
            raise InputError("nothing has been kept yet, so there is nothing to export")
        to, content = Path(path), self.file.read_bytes()
        try:
            with to.open("xb") as new:
                new.write(content)
        except FileExistsError:
            raise InputError(f"{to} is there already, and is not written over") from None
        return to

    def clear(self, *, keep: bool = True) -> Path | None:
        """Begin anew: put the file aside under another name beside it, or with ``keep=False`` delete it.

        Returns
        -------
        Path or None
            Where it was put; None where it was deleted or there was none.
        """
        if self.file is None or not self.file.is_file():
            return None
        with logbook.alone(self.file.parent):
            if not keep:
                self.file.unlink()
                return None
            names = (self.file.with_name(f"{self.file.stem}.set-aside-{number}{self.file.suffix}")
                     for number in count(1))
            aside = next(name for name in names if not name.exists())
            os.replace(self.file, aside)
        return aside

    # How it is shown.

    @property
    def total(self) -> str:
        """All lessons in a sentence."""
        right, tried, asked, first = (sum(number) for number in zip(*(
            (one.right, one.tried, len(one.trails), one.right_at_first) for one in self.standings), strict=True))
        return (f"{right} of {asked} exercises right, {tried} tried; right at the first try: {first} of {tried}.")

    def _rows(self) -> list[tuple[str, ...]]:
        return [(one.lesson.title, f"{one.right} of {len(one.trails)}", str(one.tried - one.right),
                 str(one.untouched), f"{one.right_at_first} of {one.tried}", str(one.predictions))
                for one in self.standings if one.begun]

    def _remarks(self) -> list[str]:
        said = []
        if self.others:
            said.append(f"{len(self.others)} answers to exercises that this version of the kit does not ask."
                        if len(self.others) > 1 else
                        "1 answer to an exercise that this version of the kit does not ask.")
        return said + [f"Line {line.number} cannot be read, and is left as it is: {line.why}. It says {line.text}."
                       for line in self.bad]

    def _head(self) -> str:
        if any(standing.tried for standing in self.standings):
            return self.total
        return NOTHING if self.file is not None else NOT_KEPT

    def __repr__(self) -> str:
        return f"<Progress: {self.total[:-1]}>" if self._rows() else "<Progress: nothing yet>"

    def __str__(self) -> str:
        rows = self._rows()
        return "\n".join([*([plain(HEADINGS, rows), ""] if rows else []), self._head(), *self._remarks()])

    def _repr_html_(self) -> str:
        rows = self._rows()
        return (grid("Your progress", HEADINGS, rows, left=True) if rows else "") + "".join(
            f"<p>{escape(line)}</p>\n" for line in (self._head(), *self._remarks()))


def _standing(lesson: Lesson, entries: Sequence[Entry]) -> Standing:
    trails = tuple(Trail(exercise.label, _tries(exercise.label, entries)) for exercise in exercises_of(lesson.name))
    predictions = {repr((entry.about, entry.given, entry.happened)) for entry in entries
                   if entry.kind == "prediction" and entry.lesson == lesson.name and entry.outcome != "unreadable"}
    return Standing(lesson, trails, len(predictions))


def _tries(label: str, entries: Sequence[Entry]) -> tuple[Entry, ...]:
    tries: list[Entry] = []
    for entry in entries:
        if entry.kind == "answer" and entry.about == label and entry.outcome != "unreadable" and not (
                tries and tries[-1].given == entry.given):
            tries.append(entry)
    return tuple(tries)


def progress(source: str | PathLike[str] | None = None) -> Progress:
    """What has been done so far.

    Parameters
    ----------
    source : path, optional
        A file of answers, as `Progress.export` writes it; the learner's own (see `mechcalc.classroom.logbook`) unless
        given.

    Raises
    ------
    InputError
        The file is there and cannot be read.

    Examples
    --------
    >>> progress("no_such_file.jsonl")
    <Progress: nothing yet>
    """
    folder = logbook.place()
    if source is None and folder is None:
        return Progress(())
    file = folder / logbook.FILE if source is None and folder is not None else Path(source or "")
    try:
        return Progress(*logbook.entries(file), file)
    except OSError as error:
        raise InputError(f"{file.name} cannot be read: {error.strerror}") from None
