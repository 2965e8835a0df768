"""Which lessons there are, in which order, and which one a user means.

Only this file knows where lessons stand and what they are called.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from mechcalc.catalogue import shipped
from mechcalc.classroom.course import COURSE, INDEX
from mechcalc.errors import InputError

FIRST = INDEX


@dataclass(frozen=True, slots=True)
class Lesson:
    """A notebook of the kit.

    Attributes
    ----------
    name : str
        Its file's name without the suffix.
    path : Path
        The original.
    """

    name: str
    path: Path

    @property
    def title(self) -> str:
        """Its first heading; its name where there is none."""
        try:
            cells = json.loads(self.path.read_text(encoding="utf-8"))["cells"]
            lines = [line for cell in cells if cell["cell_type"] == "markdown"
                     for line in "".join(cell["source"]).splitlines()]
        except (OSError, ValueError, KeyError, TypeError):
            return self.name
        return next((line.lstrip("# ").strip() for line in lines if line.startswith("#")), self.name)


def source_folder() -> Path:
    """Where the originals stand."""
    return shipped("lessons")


def all_lessons(source: Path | None = None) -> tuple[Lesson, ...]:
    """The notebooks: the page that leads to the lessons, the lessons in course order, any others by their names."""
    source = source_folder() if source is None else source
    order = [INDEX, *(lesson.name for lesson in COURSE)]
    paths = sorted(source.glob("*.ipynb"), key=lambda path: (
        order.index(path.stem) if path.stem in order else len(order), path.name))
    return tuple(Lesson(path.stem, path) for path in paths)


def find_lesson(name: str, source: Path | None = None) -> Lesson:
    """The lesson of that name: with or without ``.ipynb``, with ``-`` or ``_``, or any beginning that fits one only.

    Raises
    ------
    InputError
        There is none, or there are several.
    """
    lessons = {lesson.name: lesson for lesson in all_lessons(source)}
    if not lessons:
        raise InputError(f"there are no lessons in {source_folder() if source is None else source}")
    plain = name.removesuffix(".ipynb").replace("-", "_").replace(" ", "_").lower()
    fits = [lesson for key, lesson in lessons.items() if key.startswith(plain)] if plain else []
    if plain in lessons:
        return lessons[plain]
    if len(fits) == 1:
        return fits[0]
    if fits:
        raise InputError(f"{name!r} begins the names of several lessons: {', '.join(item.name for item in fits)}")
    near = get_close_matches(plain, lessons, n=1)
    hint = f"did you mean {near[0]!r}?" if near else f"there are {', '.join(lessons)}"
    raise InputError(f"{name!r} is no lesson: {hint}")
