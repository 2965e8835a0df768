"""What every fault has: a name, a sentence, the part it is at, and where a machine can have it.

Only this file checks the figures of a fault, by themselves and against a spec.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import Any, ClassVar

from mechcalc.errors import InputError
from mechcalc.layout import PINS
from mechcalc.numbers import finite, whole
from mechcalc.spec import MachineSpec

MOST_LATE = 360.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing that is wrong.

    Every kind has a `name` in the trade's words, says itself in a sentence (`str(fault)`), names the part as pictures
    do (`part`), and knows where a machine can have it (`everywhere`).
    """

    name: ClassVar[str] = ""

    def __post_init__(self) -> None:
        for field in fields(self):
            object.__setattr__(self, field.name, _value(self.name, field.name, getattr(self, field.name)))

    def problems(self, spec: MachineSpec) -> list[str]:
        """Why a machine of this spec cannot have it; empty if it can."""
        reached = {field.name: self._bounds(spec).get(field.name) for field in fields(self)}
        return [f"{self}: {field} {getattr(self, field)} is not on this machine: "
                f"{'there is none' if last < first else f'they go from {first} to {last}'}"
                for field, bounds in reached.items() if bounds
                for first, last in [bounds] if not first <= getattr(self, field) <= last]

    def _bounds(self, spec: MachineSpec) -> dict[str, tuple[int, int]]:
        return {}

    @property
    def part(self) -> str:
        """The part's name in pictures (a track of the timeline)."""
        return ""

    @classmethod
    def everywhere(cls, spec: MachineSpec) -> Iterator[Fault]:
        """This fault at every part of a machine that can have it."""
        raise NotImplementedError

    def to_dict(self) -> dict[str, Any]:
        """Plain data: ``fault`` is the name, the other keys are the fields.

        >>> from mechcalc.bench import CarryPinGone
        >>> CarryPinGone(place=4, direction=1).to_dict()
        {'fault': 'carry pin gone', 'place': 4, 'direction': 1}
        """
        return {"fault": self.name, **{field.name: getattr(self, field.name) for field in fields(self)}}


def _value(fault: str, field: str, value: Any) -> Any:
    what = f"the {field} of \"{fault}\""
    if field == "by":
        value = finite(value, what)
        if not 0 < value <= MOST_LATE:
            raise InputError(f"{what} cannot be {value:g}: degrees of crank, more than 0 and at most {MOST_LATE:g}")
        return value
    if field == "direction":
        if whole(value, what, -1, 1) == 0:
            raise InputError(f"{what} cannot be 0: it is 1 (additive) or -1 (subtractive)")
        return value
    low, high = {"pin": (1, PINS), "tooth": (0, 9)}.get(field, (1, 10**6))
    return whole(value, what, low, high)
