"""What a machine is built like: its places, and the angles of its drum.

Only this file decides whether a machine can be built. A spec is frozen; all rules it breaks are reported
together. Nothing here moves.
"""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from typing import Any

from mechcalc import layout as drum
from mechcalc.errors import InputError, SpecError
from mechcalc.numbers import finite, shown, whole

MOST_PLACES = 40
ANGLES = {"pin_pitch": "pin pitch", "gap": "gap before the carry pins", "helix_step": "helix step",
          "lever_throw": "lever throw", "rest_arc": "rest arc"}
MAY_BE_ZERO = ("gap", "lever_throw", "rest_arc")
PLACES = {"setting_places": "setting places", "result_places": "result places",
          "counter_places": "counter places", "carry_reach": "carry reach", "positions": "carriage positions"}
SWITCHES = ("counter_carry", "check_register", "back_transfer", "allow_faulty_timing")


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
        problems = [*_bad_kinds(self)]
        if not problems:
            if self.positions == 0:
                object.__setattr__(self, "positions", min(self.counter_places, self.result_places))
            problems = [*_bad_places(self), *_bad_timing(self)]
        if problems:
            raise SpecError(tuple(problems))

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


def _bad_kinds(spec: MachineSpec) -> list[str]:
    """Values of the wrong kind or out of any range; well-formed ones are put into their plain type."""
    problems = []
    for name, words in PLACES.items():
        least = 0 if name == "positions" else 1
        try:
            object.__setattr__(spec, name, whole(getattr(spec, name), words, least, MOST_PLACES))
        except InputError as error:
            problems.append(str(error))
    for name, words in ANGLES.items():
        try:
            angle = finite(getattr(spec, name), words)
            object.__setattr__(spec, name, angle)
        except InputError as error:
            problems.append(str(error))
            continue
        if not 0 <= angle <= 360 or (angle == 0 and name not in MAY_BE_ZERO):
            above = "from 0" if name in MAY_BE_ZERO else "more than 0"
            problems.append(f"{words} cannot be {angle:g} degrees: it is {above} and at most 360")
    for name in SWITCHES:
        if not isinstance(getattr(spec, name), bool):
            problems.append(f"{name} is true or false, not {shown(getattr(spec, name))}")
    for name in ("name", "note"):
        if not isinstance(getattr(spec, name), str):
            problems.append(f"{name} is a text, not {shown(getattr(spec, name))}")
    return problems


def _bad_places(spec: MachineSpec) -> list[str]:
    problems = []
    if spec.setting_places > spec.carry_reach:
        problems.append(f"the carry reach must cover the setting: carry reach {spec.carry_reach}, "
                        f"setting places {spec.setting_places}")
    most = min(spec.result_places, spec.counter_places)
    if spec.positions > most:
        problems.append(f"each carriage position needs a number wheel and a counter wheel before place 1: "
                        f"{spec.positions} positions, {spec.result_places} result and {spec.counter_places} "
                        f"counter wheels")
    return problems


def _degrees(value: Fraction) -> str:
    return f"{float(value):.6g}"


def _bad_timing(spec: MachineSpec) -> list[str]:
    """The three rules of the angle budget; the two about lateness can be waived for a test bench."""
    pitch, gap, step = drum.exact(spec.pin_pitch), drum.exact(spec.gap), drum.exact(spec.helix_step)
    throw, rest = drum.exact(spec.lever_throw), drum.exact(spec.rest_arc)
    problems = []
    if not spec.allow_faulty_timing:
        if step < pitch + throw:
            problems.append(f"a carry would come too late to ripple: helix step {_degrees(step)} is less than pin "
                            f"pitch {_degrees(pitch)} + lever throw {_degrees(throw)} = {_degrees(pitch + throw)}")
        if gap < throw:
            problems.append(f"the first carry would come too late: gap {_degrees(gap)} is less than lever throw "
                            f"{_degrees(throw)}")
    total = drum.used_arc(spec) + rest
    if total > 360:
        helices = (f" + 2 x ({_degrees(gap)} + {spec.carry_reach - 2} x {_degrees(step)} + {_degrees(pitch)}) for the "
                   f"helices" if spec.carry_reach > 1 else "")
        problems.append(f"the pins do not fit on the drum: 9 x {_degrees(pitch)} for the number pins{helices} + "
                        f"{_degrees(rest)} for the rest arc = {_degrees(math.ceil(total * 1000) / Fraction(1000))} "
                        f"degrees of 360; the largest carry reach for these angles is {drum.largest_carry_reach(spec)}")
    return problems
