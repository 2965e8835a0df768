"""Which lessons and methods a machine has room for.

Only this file chooses what is tried: for each lesson an example that it works, and a few methods more. Whether it fits
is found by working it on the machine, never from a table of sizes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from mechcalc import methods
from mechcalc.classroom.course import COURSE
from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.methods.comparing import Calculation, Trial, try_out
from mechcalc.methods.table import grid, plain
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec

HEADINGS = ("lesson or method", "tried with", "does it fit?")
VISITORS = (348, 275, 412, 97, 530, 1206, 884)
STRETCH, FORCE = (3, 5, 8, 11, 14, 19), (13, 17, 17, 22, 22, 28)


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """Something to be tried on a machine.

    Attributes
    ----------
    lesson : str
        Whose example it is; empty for a method beyond the lessons' examples.
    method : str
        Which one that is.
    words : str
        What is tried.
    work : callable
        Takes a `Machine` and works it.
    """

    lesson: str = ""
    method: str = ""
    words: str
    work: Callable[[Machine], Any]

    @property
    def title(self) -> str:
        """The lesson's title, or the method."""
        return next((lesson.title for lesson in COURSE if lesson.name == self.lesson), self.method)


TASKS = (  # a lesson that works no sum of its own on a machine has no row
    Task(lesson="wheels_and_places", words="1204 + 352", work=lambda m: methods.add(m, 1204, 352)),
    Task(lesson="tens_carry", words="999 + 1", work=lambda m: methods.add(m, 999, 1)),
    Task(lesson="addition_and_the_crank", words=" + ".join(map(str, VISITORS)),
         work=lambda m: methods.add(m, *VISITORS)),
    Task(lesson="subtraction_by_complements", words="352 − 500", work=lambda m: methods.subtract(m, 352, 500)),
    Task(lesson="multiplication_by_shifting", words="347 × 26", work=lambda m: methods.multiply(m, 347, 26)),
    Task(lesson="short_cut", words="463 × 298", work=lambda m: methods.multiply_short_cut(m, 463, 298)),
    Task(lesson="division", words="5000 ÷ 16", work=lambda m: methods.divide(m, 5000, 16)),
    Task(lesson="division_without_putting_back", words="2165 ÷ 37",
         work=lambda m: methods.divide(m, 2165, 37, method="without putting back")),
    Task(lesson="square_roots", words="√54756", work=lambda m: methods.square_root(m, 54756)),
    Task(lesson="back_transfer_and_chains", words="13 × 14 × 6, by back transfer",
         work=lambda m: methods.multiply_chain(m, 13, 14, 6, way="back transfer")),
    Task(lesson="tables_by_differences", words="x² for x = 0 to 7",
         work=lambda m: methods.table_by_differences(m, (0, 1, 2), 8)),
    Task(lesson="statistics_laboratory", words="Σx, Σx², Σxy of six pairs",
         work=lambda m: methods.sums_of_two(m, list(STRETCH), list(FORCE))),
    Task(lesson="interlocks", words="345 + 12", work=lambda m: methods.add(m, 345, 12)),
    Task(lesson="drum_timetable", words="99 + 1", work=lambda m: methods.add(m, 99, 1)),
    Task(method="a chain without back transfer", words="13 × 14 × 6, set again by hand",
         work=lambda m: methods.multiply_chain(m, 13, 14, 6, way="by hand")),
    Task(method="cube roots", words="∛12167", work=lambda m: methods.cube_root(m, 12167)),
    Task(method="reciprocals", words="1 ÷ 37 to 6 decimals",
         work=lambda m: methods.reciprocal(m, 37, places=6)),
    Task(method="factorials", words="8!", work=lambda m: methods.factorial(m, 8)),
)


@dataclass(frozen=True, slots=True, repr=False)
class Fitting:
    """What a machine has room for. Made by `fitting`.

    Attributes
    ----------
    spec : MachineSpec
        The machine.
    trials : tuple of (Task, Trial)
        Each task, and how it went on a new machine of this build.
    """

    spec: MachineSpec
    trials: tuple[tuple[Task, Trial], ...]

    @property
    def fits(self) -> tuple[str, ...]:
        """Names of the lessons whose examples can be worked on it."""
        return tuple(task.lesson for task, trial in self.trials if task.lesson and not trial.refusal)

    @property
    def sizes(self) -> str:
        """What it has room for at all, in a sentence."""
        spec = self.spec
        reach = ("" if spec.carry_reach >= spec.result_places else
                 f" From the units lever, {spec.carry_reach} of its {spec.result_places} number wheels carry.")
        return (f"Figures: {spec.setting_places} on the levers, {spec.positions} in a multiplier, {spec.result_places} "
                f"in the result.{reach}")

    @property
    def verdict(self) -> str:
        """How many lessons fit, in a sentence."""
        lessons = sum(bool(task.lesson) for task, _ in self.trials)
        return f"The examples of {len(self.fits)} of the {lessons} lessons fit this machine."

    def rows(self) -> list[tuple[str, str, str]]:
        """One row a task, in the order of the course."""
        return [(task.title, task.words, _said(trial)) for task, trial in self.trials]

    def __repr__(self) -> str:
        return f"<Fitting {self.spec.name or 'a machine'}: {self.verdict[:-1]}>"

    def __str__(self) -> str:
        return f"{self.verdict} {self.sizes}\n{plain(HEADINGS, self.rows())}"

    def table(self) -> str:
        """The rows as HTML."""
        return grid("Lessons and methods", HEADINGS, self.rows(), left=True)

    def _repr_html_(self) -> str:
        return f"<p>{self.verdict} {self.sizes}</p>\n{self.table()}"


def _said(trial: Trial) -> str:
    if trial.refusal:
        return f"no: {trial.refusal.partition(' does not fit this machine: ')[2] or trial.refusal}"
    assert trial.cost is not None
    return f"yes, in {trial.cost.turns} turn{'s' * (trial.cost.turns != 1)}"


@lru_cache(maxsize=64)
def fitting(spec: MachineSpec) -> Fitting:
    """Try the lessons' examples, and a few methods more, on a machine.

    Parameters
    ----------
    spec : MachineSpec
        The machine.

    Raises
    ------
    InputError
        Something that is no spec.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> fitting(load_spec("plain"))
    <Fitting Plain: The examples of 13 of the 14 lessons fit this machine>
    >>> fitting(load_spec("plain")).rows()[9][2]
    'no: this machine has no back-transfer lever. Set the number by hand.'
    """
    if not isinstance(spec, MachineSpec):
        raise InputError(f"lessons are tried on a MachineSpec, not on {shown(spec)}")
    return Fitting(spec, tuple((task, try_out(spec, Calculation(task.words, task.work))) for task in TASKS))
