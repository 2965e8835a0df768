"""What to do next on a path of the course.

Only this file decides which lesson is suggested to a learner.
"""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from mechcalc.classroom.course import PATHS, Lesson, is_here, on_path
from mechcalc.classroom.progress import Progress, Standing, progress


@dataclass(frozen=True, slots=True, repr=False)
class Suggestion:
    """What to do next.

    Attributes
    ----------
    lesson : Lesson or None
        Its row of the course; None where a path has been gone through.
    before, after : str
        What is said about it, before and after its title.
    """

    lesson: Lesson | None
    before: str
    after: str

    def __repr__(self) -> str:
        return f"<Suggestion {self.lesson.name if self.lesson else None}>"

    def __str__(self) -> str:
        return f"{self.before}{f'“{self.lesson.title}”' if self.lesson else ''}{self.after}"

    def _repr_html_(self) -> str:
        title = ""
        if self.lesson:
            title = f"<b>{escape(self.lesson.title)}</b>"
            if is_here(self.lesson.name):
                title = f'<a href="{self.lesson.name}.ipynb">{title}</a>'
        return f"<p>{escape(self.before)}{title}{escape(self.after)}</p>\n"


def next_lesson(path: str, so_far: Progress | None = None) -> Suggestion:
    """What to do next on a path of the course.

    The lesson of the last answer, as long as it has open exercises; then the first lesson that has not been begun;
    then one that was left with open exercises. Lessons whose notebook is not here are passed over.

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
    >>> print(str(next_lesson("alone", Progress(())))[:10])
    Begin with
    """
    names = [lesson.name for lesson in on_path(path)]
    done = progress() if so_far is None else so_far
    there = [one for one in done.standings if one.lesson.name in names]
    here = [one for one in there if is_here(one.lesson.name)] or there
    for one in here:
        if one.lesson.name == done.last and one.open:
            return Suggestion(one.lesson, "Go on with ", f": {_left(one)}")
    for one in here:
        if not one.begun:
            word = "Go on to " if any(other.begun for other in here) else "Begin with "
            return Suggestion(one.lesson, word, f" ({one.lesson.minutes} minutes): {one.lesson.idea}")
    for one in here:
        if one.open:
            return Suggestion(one.lesson, "Go back to ", f": {_left(one)}")
    said = f"All {len(here)} lessons of the path “{PATHS[path]}” are done, and every exercise is right."
    return Suggestion(None, said, "")


def _left(standing: Standing) -> str:
    labels = ", ".join(f"“{label}”" for label in standing.open)
    return f"{len(standing.open)} of {len(standing.trails)} exercises are open ({labels})."
