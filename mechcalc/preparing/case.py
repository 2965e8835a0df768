"""One candidate: numbers for a wish, what arithmetic says about them, and what the machine does with them.

Only this file decides how a candidate is worked. Everything is computed when it is first asked for, so that a
condition on figures costs no turn of the crank.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from mechcalc.errors import CapacityError
from mechcalc.machine import Machine
from mechcalc.methods import Working
from mechcalc.preparing.course import Course, course_of
from mechcalc.preparing.tasks import Exact, Numbers, Task
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
    """

    def __init__(self, wish: Wish, numbers: Numbers) -> None:
        self.wish, self.numbers = wish, numbers

    def __repr__(self) -> str:
        return f"<Case {self.wish.method}: {', '.join(map(str, self.numbers))}>"

    @property
    def task(self) -> Task:
        """The kind of calculation."""
        return self.wish.task

    @property
    def spec(self) -> MachineSpec:
        """The machine."""
        return self.wish.spec

    @cached_property
    def exact(self) -> Exact:
        """The right answer, by plain arithmetic."""
        return self.task.exact(self.numbers, self.wish.places)

    @cached_property
    def named(self) -> dict[str, int]:
        """Every number that conditions can ask for, by its name."""
        found = dict(zip(self.wish.names, self.numbers, strict=True))
        found |= {"answer": self.exact.answer, self.task.answer_name: self.exact.answer}
        if self.exact.remainder is not None:
            found["remainder"] = self.exact.remainder
        return found

    @cached_property
    def _worked(self) -> tuple[Working | None, str]:
        try:
            return self.task.work(Machine(self.spec), self.numbers, self.wish.places), ""
        except CapacityError as no:
            return None, str(no)

    @property
    def working(self) -> Working | None:
        """Worked on the machine, stroke by stroke; None where the machine has no room."""
        return self._worked[0]

    @property
    def refusal(self) -> str:
        """Why the machine has no room; empty where it has."""
        return self._worked[1]

    @cached_property
    def course(self) -> Course | None:
        """What happens, turn by turn; None where the machine has no room."""
        return None if self.working is None else course_of(self.working)
