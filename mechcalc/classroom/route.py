"""A path through the course as a list: in which order, how long, how far a learner has come.

Only this file lays a path out, for a notebook and for a terminal.
"""

from __future__ import annotations

from html import escape

from mechcalc.classroom.course import COURSE, PATHS, Lesson, is_here, on_path
from mechcalc.classroom.progress import Progress, progress
from mechcalc.methods.table import plain

HEADINGS = ("no.", "lesson", "minutes", "builds on", "what it adds", "exercises right")


class Route:
    """The lessons of a path. Made by `route`.

    Attributes
    ----------
    path : str
        Of `mechcalc.classroom.course.PATHS`.
    lessons : tuple of Lesson
        In order; those whose notebook is not in the working folder among them, and marked.
    progress : Progress
        What the learner has done.
    """

    def __init__(self, path: str, lessons: tuple[Lesson, ...], done: Progress) -> None:
        self.path, self.lessons, self.progress = path, lessons, done
        self._numbers = {lesson.name: number for number, lesson in enumerate(COURSE, start=1)}

    @property
    def minutes(self) -> int:
        """In class, without the exercises."""
        return sum(lesson.minutes for lesson in self.lessons)

    @property
    def total(self) -> str:
        """The whole path in a sentence."""
        hours, minutes = divmod(self.minutes, 60)
        time = " and ".join(f"{number} {word}{'' if number == 1 else 's'}"
                            for number, word in ((hours, "hour"), (minutes, "minute")) if number)
        many = f"{len(self.lessons)} lesson{'' if len(self.lessons) == 1 else 's'}"
        return f"{many}, {self.minutes} minutes in all ({time}), exercises not counted."

    def _row(self, lesson: Lesson) -> tuple[str, ...]:
        after = ", ".join(str(self._numbers[name]) for name in lesson.after)
        standing = next((one for one in self.progress.standings if one.lesson.name == lesson.name), None)
        right = f"{standing.right} of {len(standing.trails)}" if standing and standing.begun else ""
        return (str(self._numbers[lesson.name]), lesson.title, str(lesson.minutes), after or "nothing", lesson.idea,
                right if is_here(lesson.name) else "not here yet")

    def __repr__(self) -> str:
        return f"<Route {self.path!r}: {len(self.lessons)} lessons, {self.minutes} minutes>"

    def __str__(self) -> str:
        rows = [(*row[:4], row[5]) for row in map(self._row, self.lessons)]
        return f"{PATHS[self.path]}\n{plain((*HEADINGS[:4], HEADINGS[5]), rows)}\n\n{self.total}"

    def _repr_html_(self) -> str:
        head = "".join(f'<th scope="col" style="text-align: left">{name}</th>' for name in HEADINGS)
        body = ""
        for lesson in self.lessons:
            number, title, *rest = (escape(cell) for cell in self._row(lesson))
            linked = f'<a href="{lesson.name}.ipynb">{title}</a>' if is_here(lesson.name) else title
            cells = "".join(f'<td style="text-align: left">{cell}</td>' for cell in rest)
            body += (f'<tr><td>{number}</td><th scope="row" style="text-align: left">{linked}</th>{cells}</tr>\n')
        return (f"<table>\n<caption>{escape(PATHS[self.path].capitalize())}</caption>\n<thead><tr>{head}</tr></thead>\n"
                f"<tbody>\n{body}</tbody>\n</table>\n<p>{escape(self.total)}</p>\n")


def route(path: str, so_far: Progress | None = None) -> Route:
    """The lessons of a path.

    Parameters
    ----------
    path : str
        Of `mechcalc.classroom.course.PATHS`: ``"class"`` or ``"alone"``.
    so_far : Progress, optional
        What has been done; `progress` is asked unless given.

    Raises
    ------
    InputError
        There is no such path.

    Examples
    --------
    >>> route("term")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: 'term' is no path through the course: there are 'class' and 'alone'
    """
    return Route(path, on_path(path, COURSE), progress() if so_far is None else so_far)
