"""A wish: a kind of calculation on a machine, how long its numbers are, and what shall be seen.

Only this file decides what a wish may ask for; a wish that makes no sense is refused before anything is tried.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from mechcalc.catalogue import load_spec
from mechcalc.errors import InputError
from mechcalc.numbers import shown, whole
from mechcalc.preparing.conditions import Condition, condition
from mechcalc.preparing.spans import Span, spans
from mechcalc.preparing.tasks import Task, task
from mechcalc.spec import MOST_PLACES, MachineSpec


@dataclass(frozen=True, slots=True)
class Wish:
    """What a teacher asks for.

    Parameters
    ----------
    method : str
        A name in `mechcalc.preparing.TASKS`.
    machine : str or MachineSpec
        A name in the catalogue, the path of a TOML file, or a spec.
    digits : tuple or str
        How long each number is, in the order of the task's slots: digits (``3``), or a text: ``"2-3"`` digits,
        ``"50..99"`` for the numbers themselves, ``"=98"`` for one number. All in one text: ``"3x2"``. The task's
        usual sizes unless given.
    conditions : tuple of Condition or str
        See `condition`.
    places : int
        Decimals of a quotient or a root.

    Attributes
    ----------
    task : Task
        The row of the table.
    spec : MachineSpec
        The machine's.
    names : tuple of str
        What the numbers are called.

    Raises
    ------
    InputError
        A method, a size or a condition that is none.
    SpecError
        No such machine.

    Examples
    --------
    >>> Wish("multiply", digits=(3, 2), conditions=("ripple >= 4", "no nought in multiplier"))
    Wish('multiply', machine='bench', digits='3x2', conditions=('ripple >= 4', 'noughts in multiplier = 0'))
    """

    method: str
    machine: str | MachineSpec = "bench"
    digits: Any = ()
    conditions: tuple[Any, ...] = ()
    places: int = 0
    task: Task = field(init=False, compare=False)
    spec: MachineSpec = field(init=False, compare=False)
    names: tuple[str, ...] = field(init=False, compare=False)

    def __post_init__(self) -> None:
        row = task(self.method)
        sizes = spans(self.digits) if self.digits else spans(row.digits)
        row.check_count(len(sizes))
        asked = (self.conditions,) if isinstance(self.conditions, str | Condition) else self.conditions
        if not isinstance(asked, Iterable):
            raise InputError(f"conditions come as texts in a list, not as {shown(asked)}")
        spec = self.machine if isinstance(self.machine, MachineSpec) else load_spec(self.machine)
        places = whole(self.places, "a number of decimals", 0, MOST_PLACES)
        if places and not row.decimals:
            raise InputError(f"{row.name} has no decimals, and {places} are asked for")
        for name, value in (("method", row.name), ("digits", sizes), ("task", row), ("spec", spec), ("places", places),
                            ("names", row.names(len(sizes))), ("conditions", tuple(map(condition, asked)))):
            object.__setattr__(self, name, value)

    @property
    def spans(self) -> tuple[Span, ...]:
        """The numbers that may be tried, for each slot."""
        return tuple(self.digits)

    def __repr__(self) -> str:
        machine = self.machine if isinstance(self.machine, str) else self.spec.name or "a machine"
        conditions = tuple(one.text for one in self.conditions)
        places = f", places={self.places}" if self.places else ""
        return (f"Wish({self.method!r}, machine={machine!r}, digits={'x'.join(map(str, self.spans))!r}, "
                f"conditions={conditions!r}{places})")
