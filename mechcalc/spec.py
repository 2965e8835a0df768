"""What a machine is built like: its places, and the angles of its drum.

Only this file holds a machine's description. A spec is frozen; all rules it breaks (`mechcalc.spec_rules`) are
reported together. Nothing here moves.
"""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from mechcalc import layout as drum
from mechcalc.errors import SpecError
from mechcalc.numbers import shown
from mechcalc.spec_rules import ANGLES, MOST_PLACES, PLACES, broken_rules, well_formed

__all__ = ["MOST_PLACES", "MachineSpec"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MachineSpec:
    """A hand-cranked pinwheel machine, as built.

    Parameters
    ----------
    setting_places, result_places, counter_places : int
        Levers, number wheels and counter wheels, 1 to 40 each.
    carry_reach : int
        *K*: the carry pins stand at places 2..K of each helix. At least as many as there are setting places.
    positions : int, optional
        Where the carriage can stop; as many as the counter (or the result) has wheels unless given.
    pin_pitch, gap, helix_step, lever_throw, rest_arc : float
        Degrees of drum: between number pins (and for one wheel step); from the last pin's step to the first
        carry pin; between carry pins of neighbouring places; from the end of a step until the lever it pushed
        is fully out; kept free of pins around rest.
    counter_carry : bool
        Whether the counter's own wheels carry.
    check_register : bool
        Whether small wheels show the setting.
    back_transfer : bool
        Whether a back-transfer lever is fitted.
    allow_faulty_timing : bool
        For the test bench: build it although carries will come too late. A drum on which the pins do not fit
        is refused all the same.
    name, note : str
        For lists and pictures.

    Raises
    ------
    SpecError
        With every rule that is broken.

    Examples
    --------
    >>> spec = MachineSpec(setting_places=9, result_places=13, counter_places=8, carry_reach=11)
    >>> spec.positions, spec.largest_carry_reach
    (8, 20)
    >>> MachineSpec(setting_places=9, result_places=13, counter_places=8, carry_reach=21)
    Traceback (most recent call last):
        ...
    mechcalc.errors.SpecError: the pins do not fit on the drum: 9 x 6 for the number pins + 2 x (2 + 19 x 7.5 + 6) \
for the helices + 12 for the rest arc = 367 degrees of 360; the largest carry reach for these angles is 20
    """

    setting_places: int
    result_places: int
    counter_places: int
    carry_reach: int
    positions: int = 0
    pin_pitch: float = 6.0
    gap: float = 2.0
    helix_step: float = 7.5
    lever_throw: float = 1.5
    rest_arc: float = 12.0
    counter_carry: bool = True
    check_register: bool = False
    back_transfer: bool = True
    allow_faulty_timing: bool = False
    name: str = ""
    note: str = ""

    def __new__(cls, *args: Any, **given: Any) -> MachineSpec:
        """A key that is none is a broken rule like any other, and is told what it may mean."""
        if any(key not in cls.__slots__ for key in given):
            raise SpecError(_bad_keys(cls, given))
        return object.__new__(cls)

    def __post_init__(self) -> None:
        broken = broken_rules(self.to_dict())
        if broken:
            raise SpecError(tuple(rule.text for rule in broken))
        for name in (*PLACES, *ANGLES):
            object.__setattr__(self, name, well_formed(name, getattr(self, name)))
        if self.positions == 0:
            object.__setattr__(self, "positions", min(self.counter_places, self.result_places))

    @property
    def largest_carry_reach(self) -> int:
        """How many places a drum with these angles could carry."""
        return drum.largest_carry_reach(self)

    @property
    def spare_arc(self) -> float:
        """Degrees of drum that neither pins nor the rest arc need."""
        return float(360 - drum.used_arc(self) - drum.exact(self.rest_arc))

    def wheels_in_reach(self, carriage: int) -> int:
        """*q*: wheels 1..q take part in carrying when the carriage stands at position `carriage`.

        >>> spec = MachineSpec(setting_places=9, result_places=13, counter_places=8, carry_reach=11)
        >>> spec.wheels_in_reach(0), spec.wheels_in_reach(5)
        (11, 13)
        """
        return min(self.result_places, self.carry_reach + carriage)

    @classmethod
    def from_dict(cls, data: dict[str, Any], where: str = "") -> MachineSpec:
        """A spec from plain data, as a TOML or JSON file gives it; an unknown key is told what it may mean.

        >>> MachineSpec.from_dict({"setting_places": 4, "result_place": 6, "counter_places": 3, "carry_reach": 6})
        Traceback (most recent call last):
            ...
        mechcalc.errors.SpecError: 2 rules are broken:
          - 'result_place' is no key of a machine: did you mean 'result_places'?
          - 'result_places' is missing
        """
        if not isinstance(data, dict):
            raise SpecError((f"a machine is described by keys and values, not by {shown(data)}",), where)
        problems = _bad_keys(cls, data)
        if problems:
            raise SpecError(problems, where)
        try:
            return cls(**data)
        except SpecError as error:
            raise SpecError(error.problems, where) from None

    def to_dict(self) -> dict[str, Any]:
        """Plain data that `from_dict` turns into the same spec."""
        return {field.name: getattr(self, field.name) for field in dataclasses.fields(self)}


def _bad_keys(cls: type[MachineSpec], data: dict[str, Any]) -> tuple[str, ...]:
    """Keys that a machine does not have, and keys that it must have."""
    fields = {field.name: field for field in dataclasses.fields(cls)}
    problems = []
    for key in data:
        if key not in fields:
            near = get_close_matches(str(key), fields, n=1)
            hint = f": did you mean {near[0]!r}?" if near else f"; the keys are {', '.join(fields)}"
            problems.append(f"{shown(key)} is no key of a machine{hint}")
    return (*problems, *(f"{name!r} is missing" for name, field in fields.items()
                         if field.default is dataclasses.MISSING and name not in data))
