"""The course: which lessons there are, in which order, what each one builds on, and who goes through it.

Only this file lists the lessons. A lesson's notebook stands in ``lessons/``, its exercises in
``mechcalc/classroom/questions/``, both under its name.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from mechcalc.errors import InputError
from mechcalc.numbers import shown


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """A row of the course.

    Attributes
    ----------
    name : str
        Its file's name without an ending.
    title : str
        As its first heading says it.
    idea : str
        The one new idea, as a sentence.
    after : tuple of str
        Names of the lessons that it builds on.
    minutes : int
        In class, without the exercises.
    paths : tuple of str
        Of `PATHS`: who goes through it.
    bench : bool
        It speaks of work on a real machine, and opens with cautions.
    """

    name: str
    title: str
    idea: str
    after: tuple[str, ...] = ()
    minutes: int = 40
    paths: tuple[str, ...] = ("class", "alone")
    bench: bool = False


INDEX = "start_here"  # the notebook that shows the course; it is no lesson itself
PATHS = {"class": "a class, over a term", "alone": "a new restorer, studying alone"}

COURSE = (
    Lesson(name="wheels_and_places", title="Wheels and places",
           idea="A number is a row of wheel positions; a pin moves a wheel one step."),
    Lesson(name="tens_carry", title="The tens carry", after=("wheels_and_places",),
           idea="A carry waits in a lever until a carry pin of the helix reads it."),
    Lesson(name="addition_and_the_crank", title="Addition and the crank", after=("tens_carry",),
           idea="One turn adds the whole setting at once; a turn the other way takes it off again."),
    Lesson(name="subtraction_by_complements", title="Subtraction through complements",
           after=("addition_and_the_crank",),
           idea="Turning back is adding a complement; what falls below nought shows nines and rings the bell."),
    Lesson(name="multiplication_by_shifting", title="Multiplication by shifting", after=("addition_and_the_crank",),
           idea="After a shift a turn is worth ten."),
    Lesson(name="short_cut", title="The short cut", paths=("class",),
           after=("subtraction_by_complements", "multiplication_by_shifting"),
           idea="Digits below nought save turns, and the fewest can be proved."),
    Lesson(name="division", title="The counter picks its direction, and division",
           after=("subtraction_by_complements", "multiplication_by_shifting"),
           idea="Taking away until the bell rings, with a counter that counts the right way by itself."),
    Lesson(name="division_without_putting_back", title="Division without putting back", paths=("class",),
           after=("division",), idea="An overdraft is paid off one place further on."),
    Lesson(name="square_roots", title="Square roots", paths=("class",), after=("division",),
           idea="Odd numbers add up to squares, so taking them away finds a root."),
    Lesson(name="back_transfer_and_chains", title="Back transfer and chains", after=("multiplication_by_shifting",),
           idea="A result can be put back on the levers by the machine itself."),
    Lesson(name="tables_by_differences", title="Tables by differences", paths=("class",),
           after=("addition_and_the_crank",), idea="A polynomial's table needs additions only."),
    Lesson(name="statistics_laboratory", title="A statistics laboratory", paths=("class",),
           after=("multiplication_by_shifting",), idea="Two numbers side by side give three sums in one pass."),
    Lesson(name="interlocks", title="Interlocks: why it won't turn", bench=True,
           after=("multiplication_by_shifting",),
           idea="Each lock keeps one movement from spoiling another; a crank that stops is telling which."),
    Lesson(name="reading_symptoms", title="Reading a machine by its symptoms", bench=True, paths=("alone",),
           after=("interlocks",), minutes=50,
           idea="A fault that moves with the carriage sits in the carriage; one that does not sits on the drum."),
    Lesson(name="test_plan", title="The test plan and why it is enough", bench=True, paths=("alone",),
           after=("reading_symptoms",), minutes=50,
           idea="Every fault is met by a test of the plan, and witnesses prove that fewer will not do."),
    Lesson(name="tracing_a_fault", title="Tracing a fault", bench=True, paths=("alone",),
           after=("test_plan",), minutes=50,
           idea="The question worth most is the one whose answers divide what is left most evenly."),
    Lesson(name="drum_timetable", title="The drum's timetable", bench=True, after=("subtraction_by_complements",),
           idea="A turn is 360 degrees to be shared out, and a longer reach has to be paid for."),
    Lesson(name="carries_compared", title="Why this carry and no other", after=("drum_timetable",),
           idea="A carry by lever and helix saves no work: it spreads it over the turn, and pays with drum."),
)

LESSONS = tuple(lesson.name for lesson in COURSE)


def lesson_named(name: str) -> Lesson:
    """The row of that name.

    >>> lesson_named("tens_carry").title
    'The tens carry'
    """
    return next(lesson for lesson in COURSE if lesson.name == name)


def on_path(path: str, lessons: tuple[Lesson, ...] = COURSE) -> tuple[Lesson, ...]:
    """Those of the lessons that are on a path of `PATHS`, in order.

    Raises
    ------
    InputError
        There is no such path.

    >>> [len(on_path(path)) >= len(on_path("alone")) for path in PATHS]
    [True, True]
    """
    if path not in PATHS:
        raise InputError(f"{shown(path)} is no path through the course: there are {' and '.join(map(repr, PATHS))}")
    return tuple(lesson for lesson in lessons if path in lesson.paths)


def is_here(name: str) -> bool:
    """Whether the lesson's notebook stands in the working folder (a notebook's own folder, as JupyterLab starts it)."""
    try:
        return Path(f"{name}.ipynb").is_file()
    except OSError:
        return False
