"""The course as a map: a box for each lesson, and an arrow to each from what it builds on.

Only this file draws the map. Every box, arrow and word comes from the table in `mechcalc.classroom.course`. A lesson
stands one column to the right of the last one that it builds on; the lessons that everybody begins with, one after
another, share the first column, and those at the end that only lead on from one another hang below each other. Nothing
on the map depends on colour: a path is told by the outline, everything else by words. A box opens its lesson: an HTML
link lies over it, because JupyterLab follows those and not the links of SVG.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from itertools import pairwise
from textwrap import wrap

from mechcalc.classroom.course import COURSE, Lesson, is_here
from mechcalc.classroom.progress import Progress, progress
from mechcalc.view.drawing import INK, IVORY, PAPER, QUIET

BOX = 248.0                             # width of a box
LINE, TYPE, SMALL = 28.0, 24.0, 20.0    # height of a line of a title, its type, and that of the line below it
GAP, BETWEEN, THREAD = 52.0, 20.0, 8.0  # from column to column; from box to box; what a passing arrow takes up
STEP = 40.0                             # from box to box where one leads down to the next
MARGIN = 14.0
LETTERS = 19                            # of a title in a line
SWEEPS = 8


@dataclass(frozen=True, slots=True)
class Box:
    """A lesson on the map, or a point that an arrow passes on its way over a column (`lesson` is None)."""

    lesson: Lesson | None
    key: str
    before: tuple[str, ...]
    number: int = 0

    @property
    def title(self) -> list[str]:
        """Its number in the course and its title, in lines."""
        return wrap(f"{self.number} {self.lesson.title}", LETTERS) if self.lesson else []

    @property
    def height(self) -> float:
        """On the map."""
        return LINE * max(2, len(self.title)) + 46.0 if self.lesson else THREAD


def columns(lessons: Sequence[Lesson]) -> dict[str, int]:
    """The column of each lesson, from 0: one more than the furthest that it builds on.

    >>> columns(COURSE[:3])
    {'wheels_and_places': 0, 'tens_carry': 1, 'addition_and_the_crank': 2}
    """
    found: dict[str, int] = {}
    for lesson in lessons:
        found[lesson.name] = 1 + max((found[name] for name in lesson.after if name in found), default=-1)
    return found


def _boxes(lessons: Sequence[Lesson]) -> list[list[Box]]:
    """Boxes column by column, with the points at which arrows pass a column."""
    column = columns(lessons)
    sheet: list[list[Box]] = [[] for _ in range(max(column.values(), default=-1) + 1)]
    for number, lesson in enumerate(lessons, start=1):
        ends = []
        for name in (name for name in lesson.after if name in column):
            end = name
            for passed in range(column[name] + 1, column[lesson.name]):
                key = f"{name}>{lesson.name}@{passed}"
                sheet[passed].append(Box(None, key, (end,)))
                end = key
            ends.append(end)
        sheet[column[lesson.name]].append(Box(lesson, lesson.name, tuple(ends), number))
    return sheet


def arranged(lessons: Sequence[Lesson]) -> list[list[Box]]:
    """The boxes of each column from top to bottom, with few arrows that cross.

    Each column is put in the order of the middle of its neighbours, to and fro; the best arrangement is kept.
    """
    sheet = _boxes(lessons)
    best, fewest = [list(column) for column in sheet], crossings(sheet)
    for sweep in range(SWEEPS):
        order = range(1, len(sheet)) if sweep % 2 == 0 else range(len(sheet) - 2, -1, -1)
        for number in order:
            beside = sheet[number - 1 if sweep % 2 == 0 else number + 1]
            sheet[number].sort(key=lambda box, beside=beside: _middle(box, beside))  # type: ignore[misc]
        if crossings(sheet) < fewest:
            best, fewest = [list(column) for column in sheet], crossings(sheet)
    return best


def _middle(box: Box, beside: Sequence[Box]) -> float:
    """The mean place of the boxes that this one is joined to, as a share of their column; its middle for none."""
    joined = [place for place, other in enumerate(beside) if other.key in box.before or box.key in other.before]
    return (sum(joined) / len(joined) + 0.5) / len(beside) if joined else 0.5


def crossings(sheet: Sequence[Sequence[Box]]) -> int:
    """How many pairs of arrows cross.

    >>> crossings(arranged(COURSE))
    1
    """
    count = 0
    for left, right in pairwise(sheet):
        place = {box.key: number for number, box in enumerate(left)}
        ends = [(place[key], number) for number, box in enumerate(right) for key in box.before]
        count += sum((one[0] - two[0]) * (one[1] - two[1]) < 0 for number, one in enumerate(ends)
                     for two in ends[number + 1:])
    return count


def _trunk(sheet: list[list[Box]]) -> list[list[Box]]:
    """The same boxes with the leading columns of one box put below one another in the first."""
    alone = 0
    while alone < len(sheet) and len(sheet[alone]) == 1:
        alone += 1
    return [[box for column in sheet[:alone] for box in column], *sheet[alone:]] if alone else sheet


def _hung(sheet: list[list[Box]]) -> list[list[Box]]:
    """The same boxes with the last columns hung below what they lead on from, as long as each of their lessons is the
    only one there that builds on its lesson, and builds on nothing else."""
    while len(sheet) > 1:
        chains: list[list[Box]] = []
        for box in sheet[-1]:
            if chains and box.before == (chains[-1][-1].key,):
                chains[-1].append(box)
            else:
                chains.append([box])
        parents = [chain[0].before for chain in chains]
        real = {(box.key,) for box in sheet[-2] if box.lesson}
        if len(set(parents)) < len(parents) or not set(parents) <= real:
            return sheet
        below = dict(zip(parents, chains, strict=True))
        sheet = [*sheet[:-2], [one for box in sheet[-2] for one in (box, *below.get((box.key,), ()))]]
    return sheet


class CourseMap:
    """The map. Made by `course_map`.

    Attributes
    ----------
    lessons : tuple of Lesson
        In course order.
    here : frozenset of str
        Names of those whose notebook is in the working folder.
    progress : Progress
        What the learner has done.
    """

    def __init__(self, lessons: Sequence[Lesson], here: frozenset[str], done: Progress) -> None:
        self.lessons, self.here, self.progress = tuple(lessons), here, done
        sheet = arranged(self.lessons)
        trunk = _trunk(sheet)
        self._sheet = _hung(trunk)
        self._down = {box.key for box in trunk[0][1:]} if trunk is not sheet else set()
        self._down |= {box.key for column in self._sheet for one, box in pairwise(column) if box.before == (one.key,)}
        tall = [sum(box.height for box in column) + sum(map(self._room, column[1:])) for column in self._sheet]
        self.height = max(tall, default=0.0) + 2 * MARGIN
        self.width = len(self._sheet) * (BOX + GAP) - GAP + 2 * MARGIN
        self._at: dict[str, tuple[float, float]] = {}  # the left end and the middle of each box
        for number, (column, high) in enumerate(zip(self._sheet, tall, strict=True)):
            y = (self.height - high) / 2 if number else self.height - MARGIN - high
            for place, box in enumerate(column):
                y += self._room(box) if place else 0.0
                self._at[box.key] = (MARGIN + number * (BOX + GAP), y + box.height / 2)
                y += box.height

    def _room(self, box: Box) -> float:
        """What is kept free above a box that is not the topmost."""
        return STEP if box.key in self._down else BETWEEN

    def __repr__(self) -> str:
        away = len(self.lessons) - len(self.here)
        arrows = sum(len(lesson.after) for lesson in self.lessons)
        return f"<CourseMap: {len(self.lessons)} lessons, {arrows} arrows, {away} not here>"

    def __str__(self) -> str:
        """The map in words, a line for each lesson."""
        return "\n".join(self._line(number, lesson) for number, lesson in enumerate(self.lessons, start=1))

    def _line(self, number: int, lesson: Lesson) -> str:
        titles = {other.name: other.title for other in self.lessons}
        after = f"after {' and '.join(titles[name] for name in lesson.after)}" if lesson.after else "the beginning"
        facts = [*self._facts(lesson), *(["at the bench"] if lesson.bench else [])]
        return f"{number}. {lesson.title}: {after}; {', '.join(facts)}."

    def _facts(self, lesson: Lesson) -> list[str]:
        said = [f"{lesson.minutes} min"]
        if lesson.name not in self.here:
            said.append("not here yet")
        standing = next((one for one in self.progress.standings if one.lesson.name == lesson.name), None)
        if standing is not None and standing.begun:
            said.append(f"{standing.right} of {len(standing.trails)} right")
        return said

    def _repr_html_(self) -> str:
        return f'<div style="overflow-x: auto">\n{self.svg()}</div>\n'

    def svg(self) -> str:
        """The map as the text of an SVG picture."""
        parts = [arrow for column in self._sheet for box in column for arrow in self._arrows(box)]
        parts += [part for column in self._sheet for box in column for part in self._box(box)]
        parts += self._key()
        body, links = "\n".join(parts), "\n".join(self._link(box) for column in self._sheet for box in column
                                                  if box.lesson and box.lesson.name in self.here)
        return (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {self.width:g} {self.height:g}" role="group" '
                f'style="width: 100%; min-width: 760px; max-width: {1.4 * self.width:g}px" '
                f'font-family="Palatino, serif" aria-label="Map of the course">\n'
                f'<desc>{escape(str(self))}</desc>\n'
                f'<g aria-hidden="true">\n'
                f'<rect width="{self.width:g}" height="{self.height:g}" rx="8" fill="{PAPER}"/>\n'
                f'{body}\n</g>\n{links}\n</svg>\n')

    def _link(self, box: Box) -> str:
        assert box.lesson is not None
        x, middle = self._at[box.key]
        return (f'<foreignObject x="{x:g}" y="{middle - box.height / 2:g}" width="{BOX:g}" height="{box.height:g}" '
                f'style="overflow: visible">'
                f'<a xmlns="http://www.w3.org/1999/xhtml" href="{box.lesson.name}.ipynb" '
                f'style="display: block; width: 100%; height: 100%; outline-offset: 3px" '
                f'aria-label="{escape(self._line(box.number, box.lesson))}"></a></foreignObject>')

    def _arrows(self, box: Box) -> list[str]:
        """The arrows that end at a box; one that only passes has no head, and goes straight across the column."""
        x, y = self._at[box.key]
        if box.key in self._down:
            return self._arrow_down(box)
        drawn = []
        for key in box.before:
            left, middle = self._at[key]
            start, end, bend = left + BOX, x - (9 if box.lesson else 0), GAP * 0.6
            drawn.append(f'<path d="M{start:g} {middle:g}C{start + bend:g} {middle:g} {end - bend:g} {y:g} {end:g} '
                         f'{y:g}" fill="none" stroke="{INK}" stroke-width="2.5"/>')
        if box.lesson and box.before:
            drawn.append(f'<polygon points="{x - 14:g},{y - 8:g} {x - 1:g},{y:g} {x - 14:g},{y + 8:g}" fill="{INK}"/>')
        if not box.lesson:
            drawn.append(f'<path d="M{x:g} {y:g}H{x + BOX:g}" stroke="{INK}" stroke-width="2.5"/>')
        return drawn

    def _arrow_down(self, box: Box) -> list[str]:
        left, middle = self._at[box.key]
        x, end = left + BOX / 2, middle - box.height / 2
        return [f'<path d="M{x:g} {end - STEP:g}V{end - 9:g}" stroke="{INK}" stroke-width="2.5"/>',
                f'<polygon points="{x - 8:g},{end - 14:g} {x:g},{end - 1:g} {x + 8:g},{end - 14:g}" fill="{INK}"/>']

    def _box(self, box: Box) -> list[str]:
        if not box.lesson:
            return []
        lesson, (x, middle) = box.lesson, self._at[box.key]
        top = middle - box.height / 2
        drawn = [_outline(x, top, BOX, box.height, lesson)]
        first = middle - LINE * (len(box.title) - 1) / 2 - 13
        drawn += [_word(x + BOX / 2, first + number * LINE, line, TYPE, INK, bold=True)
                  for number, line in enumerate(box.title)]
        return [*drawn, _word(x + BOX / 2, top + box.height - 21, " · ".join(self._facts(lesson)), SMALL, QUIET)]

    def _key(self) -> list[str]:
        """What the outlines mean, in the corner that the first column leaves free."""
        samples = [("on both paths", ("class", "alone"), False), ("for a class only", ("class",), False),
                   ("for one alone only", ("alone",), False), ("at the bench", ("class", "alone"), True)]
        drawn = []
        for number, (words, paths, bench) in enumerate(samples):
            y = MARGIN + 18 + 42 * number
            sample = Lesson(name="", title="", idea="", paths=paths, bench=bench)
            drawn += [_outline(MARGIN, y - 14, 50, 28, sample),
                      _word(MARGIN + 64, y, words, SMALL, INK, align="start")]
        return drawn


def _outline(x: float, y: float, width: float, height: float, lesson: Lesson) -> str:
    dashes = ""
    if len(lesson.paths) == 1:
        only_alone = lesson.paths[0] == "alone"
        dashes = f' stroke-dasharray="{"0 6" if only_alone else "8 5"}"' + ' stroke-linecap="round"' * only_alone
    drawn = (f'<rect x="{x:g}" y="{y:g}" width="{width:g}" height="{height:g}" rx="6" fill="{IVORY}" stroke="{INK}" '
             f'stroke-width="2.5"{dashes}/>')
    if lesson.bench:
        drawn += (f'<rect x="{x + 5:g}" y="{y + 5:g}" width="{width - 10:g}" height="{height - 10:g}" rx="3" '
                  f'fill="none" stroke="{INK}" stroke-width="1.5"/>')
    return drawn


def _word(x: float, y: float, text: str, size: float, color: str, *, bold: bool = False, align: str = "middle") -> str:
    weight = ' font-weight="bold"' if bold else ""
    return (f'<text x="{x:g}" y="{y:g}" font-size="{size:g}" fill="{color}" text-anchor="{align}" '
            f'dominant-baseline="central"{weight}>{escape(text)}</text>')


def course_map(so_far: Progress | None = None) -> CourseMap:
    """The map of the course, with what a learner has done so far.

    Parameters
    ----------
    so_far : Progress, optional
        What has been done; `progress` is asked unless given.

    Examples
    --------
    >>> print(str(course_map()).splitlines()[1])
    2. The tens carry: after Wheels and places; 40 min, not here yet.
    """
    here = frozenset(lesson.name for lesson in COURSE if is_here(lesson.name))
    return CourseMap(COURSE, here, progress() if so_far is None else so_far)
