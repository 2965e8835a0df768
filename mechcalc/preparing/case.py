"""One candidate: numbers for a wish, what arithmetic says about them, and what the machine does with them.

Only this file decides how a candidate is worked. Everything is computed when it is first asked for, so that a
condition on figures costs no turn of the crank.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from mechcalc.errors import CapacityError, InputError
from mechcalc.machine import Machine
from mechcalc.methods import Working
from mechcalc.preparing.course import Course, course_of
from mechcalc.preparing.reckoning import Reckoner
from mechcalc.preparing.replaying import replay
from mechcalc.preparing.tasks import TASKS, Exact, Numbers, Task
from mechcalc.spec import MachineSpec

if TYPE_CHECKING:
    from mechcalc.preparing.wishes import Wish


class Case:
    """A candidate.

    Parameters
    ----------
    wish : Wish
        What is wanted.
    numbers : tuple of int
        In the order of the task's slots.
    cranked : bool
        Whether what happens is read from the machine. If not, it is reckoned, where the task has a plan and the
        machine's carries come in time.
    task : Task, optional
        Another kind of calculation with the same numbers; the wish's unless given.

    Examples
    --------
    >>> from mechcalc.preparing import Wish
    >>> case = Case(Wish("multiply", digits=(3, 2)), (347, 26), cranked=True)
    >>> case.exact.answer, case.working.turns, case.course.runs[-1]
    (9022, 8, (Run(first=2, wheels=3, nines=1),))
    >>> [(slip.name, slip.comes_to(case)) for slip in case.task.slips][0]
    ('the carriage is not shifted', 2776)
    """

    numbers: Numbers
    task: Task
    spec: MachineSpec
    places: int

    def __init__(self, wish: Wish, numbers: Numbers, cranked: bool = False, task: Task | None = None) -> None:
        self.wish, self.numbers, self.task = wish, numbers, task or wish.task
        self.spec, self.places = wish.spec, wish.places
        self.cranked = cranked or self.task.plan is None or self.spec.allow_faulty_timing

    def __repr__(self) -> str:
        return f"<Case {self.task.name}: {', '.join(map(str, self.numbers))}>"

    @cached_property
    def exact(self) -> Exact:
        """The right answer, by plain arithmetic."""
        return self.task.exact(self.numbers, self.places)

    @cached_property
    def named(self) -> dict[str, int]:
        """Every number that conditions can ask for, by its name."""
        found = dict(zip(self.wish.names, self.numbers, strict=True))
        found["answer"] = found[self.task.answer_name] = self.exact.answer
        if self.exact.remainder is not None:
            found["remainder"] = self.exact.remainder
        return found

    @cached_property
    def working(self) -> Working | None:
        """Worked on the machine, stroke by stroke; None where the machine has no room."""
        try:
            if self.wish.short_reach:
                return replay(self.spec, lambda machine: self.task.work(machine, self.numbers, self.places))
            return self.task.work(Machine(self.spec), self.numbers, self.places)
        except (CapacityError, InputError):  # the latter: a number without a complement, a reciprocal of noughts
            return None

    @cached_property
    def course(self) -> Course | None:
        """What happens, turn by turn; None where the machine has no room."""
        if self.cranked:
            return None if self.working is None else course_of(self.working)
        hand = Reckoner(self.spec, check=not self.wish.short_reach)
        assert self.task.plan is not None
        try:
            self.task.plan(hand, self.numbers, self.places)
        except CapacityError:
            return None
        return hand.course()

    @cached_property
    def plainly(self) -> Case:
        """The same numbers without short cut."""
        return self._by(self.task.plainly)

    @cached_property
    def in_fewest(self) -> Case:
        """The same numbers in the fewest turns."""
        return self._by(self.task.in_fewest)

    def _by(self, name: str) -> Case:
        return self if name == self.task.name else Case(self.wish, self.numbers, self.cranked, TASKS[name])
