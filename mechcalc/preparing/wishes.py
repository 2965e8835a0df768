"""A wish: a kind of calculation on a machine, how long its numbers are, and what shall be seen.

Only this file decides what a wish holds, in Python and in a TOML file:

    method = "multiply"                    # a row of mechcalc.preparing.TASKS; required
    machine = "bench"                      # of the catalogue, or a path from this file's folder; bench unless given
    digits = "3x2"                         # or [3, 2]; the method's usual sizes unless given
    with = ["ripple >= 4", "no nought in multiplier"]       # conditions
    places = 0                             # decimals of a quotient or a root
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc.catalogue import load_spec
from mechcalc.errors import InputError, MechcalcError
from mechcalc.numbers import shown, whole
from mechcalc.preparing.conditions import Condition, condition
from mechcalc.preparing.sense import called, checked_conditions, checked_spans, narrowed
from mechcalc.preparing.spans import Span, spans
from mechcalc.preparing.tasks import Task, task
from mechcalc.preparing.toml_file import toml_data
from mechcalc.spec import MOST_PLACES, MachineSpec

KEYS = ("method", "machine", "digits", "with", "places")
MOST_CONDITIONS = 20


@dataclass(frozen=True, slots=True)
class Wish:
    """What a teacher asks for.

    Parameters
    ----------
    method : str
        A name in `mechcalc.preparing.TASKS`.
    machine : str or MachineSpec
        A name in the catalogue, the path of a TOML file, or a spec.
    digits : sequence or str
        How long each number is, in the order of the task's slots: digits (``3``), or a text: ``"2-3"`` digits,
        ``"50..99"`` for the numbers themselves, ``"=98"`` for one number. All in one text: ``"3x2"``. The task's
        usual sizes unless given.
    conditions : sequence of Condition or str
        See `condition`. One that is asked of ``every number`` is asked of each given number.
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
    spans : tuple of Span
        The numbers that may be tried, for each slot: `digits`, and what bounds on the numbers leave of them.

    Raises
    ------
    InputError
        A method, a size or a condition that is none, or a wish that has no meaning.
    SpecError
        No such machine.

    Examples
    --------
    >>> Wish("multiply", digits=(3, 2), conditions=("ripple >= 4", "no nought in multiplier"))
    Wish('multiply', machine='bench', digits='3x2', conditions=('ripple >= 4', 'noughts in multiplier = 0'))
    >>> Wish("multiply", digits="10x2")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: the multiplicand cannot have 10 digits on Bench: it has 9 levers
    """

    method: str
    machine: str | MachineSpec = "bench"
    digits: Any = ()
    conditions: tuple[Any, ...] = ()
    places: int = 0
    task: Task = field(init=False, compare=False)
    spec: MachineSpec = field(init=False, compare=False)
    names: tuple[str, ...] = field(init=False, compare=False)
    spans: tuple[Span, ...] = field(init=False, compare=False)

    def __post_init__(self) -> None:
        row = task(self.method)
        sizes = spans(row.digits if isinstance(self.digits, tuple | list) and not self.digits else self.digits)
        row.check_count(len(sizes))
        names = row.names(len(sizes))
        spec = self.machine if isinstance(self.machine, MachineSpec) else load_spec(self.machine)
        places = whole(self.places, "a number of decimals", 0, MOST_PLACES)
        if places and not row.decimals:
            raise InputError(f"{row.name} has no decimals, and {places} are asked for")
        checked_spans(row, spec, sizes, names)
        conditions = checked_conditions(row, spec, names, _listed(self.conditions))
        for name, value in (("method", row.name), ("digits", sizes), ("places", places), ("task", row), ("spec", spec),
                            ("names", names), ("conditions", conditions),
                            ("spans", narrowed(sizes, names, conditions))):
            object.__setattr__(self, name, value)

    @property
    def short_reach(self) -> bool:
        """Whether a carry that stops short is wished for: then the machine does what the methods would refuse."""
        return any(one.measure == "wheels wrong" and one.low for one in self.conditions)

    @property
    def sizes(self) -> str:
        """How long the numbers are, as ``digits`` reads it."""
        return "x".join(map(str, self.digits))

    def words(self, spans: tuple[Span, ...]) -> str:
        """The method, the machine and the numbers that may be tried, for a sentence."""
        each = [f"{name} {span.words}" for name, span in zip(self.names, spans, strict=True)]
        return f"{self.method} on {called(self.spec)} ({', '.join(each)})"

    def __repr__(self) -> str:
        machine = self.machine if isinstance(self.machine, str) else self.spec.name or "a machine"
        conditions = tuple(one.text for one in self.conditions)
        places = f", places={self.places}" if self.places else ""
        return f"Wish({self.method!r}, machine={machine!r}, digits={self.sizes!r}, conditions={conditions!r}{places})"

    @classmethod
    def from_dict(cls, data: Mapping[str, Any], where: str = "", folder: Path | None = None) -> Wish:
        """A wish from plain data, as a TOML file gives it.

        >>> Wish.from_dict({"method": "multiply", "digits": "3x2", "wiht": ["ripple >= 4"]})
        Traceback (most recent call last):
            ...
        mechcalc.errors.InputError: 'wiht' is no key of a wish: did you mean 'with'?
        """
        head = f"{where}: " if where else ""
        for key in data:
            if key not in KEYS:
                near = get_close_matches(str(key), KEYS, n=1)
                raise InputError(f"{head}{shown(key)} is no key of a wish: " + (
                    f"did you mean {near[0]!r}?" if near else f"the keys are {', '.join(KEYS)}"))
        if "method" not in data:
            raise InputError(f"{head}a wish needs a method, as in method = \"multiply\"")
        machine = data.get("machine", "bench")
        if folder and isinstance(machine, str) and machine.endswith(".toml"):
            machine = str(folder / machine)
        try:
            return cls(data["method"], machine, data.get("digits", ()), data.get("with", ()), data.get("places", 0))
        except MechcalcError as error:
            raise (InputError(f"{head}{error}") if head else error) from None

    def to_dict(self) -> dict[str, Any]:
        """Plain data that `from_dict` turns into the same wish; a machine of one's own is named by its file only.

        >>> Wish("divide", conditions=["no remainder"]).to_dict()
        {'method': 'divide', 'machine': 'bench', 'digits': '4x2', 'with': ['remainder = 0'], 'places': 0}
        """
        if isinstance(self.machine, MachineSpec):
            raise InputError("a machine that is given as a spec has no name to write down: save it as a TOML file, and "
                             "name that")
        return {"method": self.method, "machine": self.machine, "digits": self.sizes,
                "with": [one.text for one in self.conditions], "places": self.places}


def load_wish(path: str | PathLike[str]) -> Wish:
    """The wish in a TOML file; the format stands at the head of this file.

    Raises
    ------
    InputError, SpecError
        The file cannot be read, is no TOML, or wishes for what makes no sense.
    """
    path = Path(path)
    return Wish.from_dict(toml_data(path), str(path), path.parent)


def _listed(given: Any) -> list[Condition]:
    """Conditions from one or several texts or objects."""
    if isinstance(given, str | Condition):
        given = (given,)
    if not isinstance(given, Iterable) or isinstance(given, Mapping | bytes):
        raise InputError(f"conditions come as texts in a list, not as {shown(given)}")
    found = list(map(condition, given))
    if len(found) > MOST_CONDITIONS:
        raise InputError(f"{len(found)} conditions are too many: {MOST_CONDITIONS} at most")
    return found
