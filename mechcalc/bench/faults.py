"""What can be wrong with a machine: each fault is a change to one part, frozen and checked against a spec.

Only this file lists the kinds of fault and what each says of itself. What a faulty part does is asked through
`mechcalc.bench.faulty_parts`; what comes of it is the mechanism's business. Places, pins and wheels count from 1 at
the units end; a direction is 1 (additive) or -1 (subtractive).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from mechcalc.bench.fault import Fault
from mechcalc.layout import PINS
from mechcalc.spec import MachineSpec

HELIX = {1: "additive", -1: "subtractive"}


@dataclass(frozen=True, slots=True, kw_only=True)
class CarryPinGone(Fault):
    """The carry pin of a place is missing from one helix.

    >>> print(CarryPinGone(place=4, direction=-1))
    the subtractive carry pin of place 4 is gone
    """

    name: ClassVar[str] = "carry pin gone"
    place: int
    direction: int

    def __str__(self) -> str:
        return f"the {HELIX[self.direction]} carry pin of place {self.place} is gone"

    def _bounds(self, spec: MachineSpec) -> dict[str, tuple[int, int]]:
        return {"place": (2, spec.carry_reach)}

    @property
    def part(self) -> str:
        return f"carrypin/{'+' if self.direction > 0 else '-'}/{self.place}"

    @classmethod
    def everywhere(cls, spec: MachineSpec) -> Iterator[Fault]:
        return (cls(place=place, direction=way) for way in (1, -1) for place in range(2, spec.carry_reach + 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class _NumberPin(Fault):
    place: int
    pin: int

    def _bounds(self, spec: MachineSpec) -> dict[str, tuple[int, int]]:
        return {"place": (1, spec.setting_places)}

    @property
    def part(self) -> str:
        return f"pin/{self.place}/{self.pin}"

    @classmethod
    def everywhere(cls, spec: MachineSpec) -> Iterator[Fault]:
        return (cls(place=place, pin=pin) for place in range(1, spec.setting_places + 1)
                for pin in range(1, PINS + 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberPinGone(_NumberPin):
    """A number pin is missing: the digits that use it add one too little.

    >>> print(NumberPinGone(place=2, pin=7))
    pin 7 of pinwheel 2 is gone
    """

    name: ClassVar[str] = "number pin gone"

    def __str__(self) -> str:
        return f"pin {self.pin} of pinwheel {self.place} is gone"


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberPinStuckOut(_NumberPin):
    """A number pin stays out whatever its lever shows.

    >>> print(NumberPinStuckOut(place=1, pin=9))
    pin 9 of pinwheel 1 is stuck out
    """

    name: ClassVar[str] = "number pin stuck out"

    def __str__(self) -> str:
        return f"pin {self.pin} of pinwheel {self.place} is stuck out"


@dataclass(frozen=True, slots=True, kw_only=True)
class _NumberWheel(Fault):
    wheel: int

    def _bounds(self, spec: MachineSpec) -> dict[str, tuple[int, int]]:
        return {"wheel": (1, spec.result_places)}

    @classmethod
    def everywhere(cls, spec: MachineSpec) -> Iterator[Fault]:
        return (cls(wheel=wheel) for wheel in range(1, spec.result_places + 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class CarryLeverWeak(_NumberWheel):
    """A carry lever is pushed and falls back: its carries are lost.

    >>> print(CarryLeverWeak(wheel=3))
    the carry lever of wheel 3 will not stay out
    """

    name: ClassVar[str] = "carry lever will not stay out"

    def __str__(self) -> str:
        return f"the carry lever of wheel {self.wheel} will not stay out"

    @property
    def part(self) -> str:
        return f"lever/{self.wheel}"


@dataclass(frozen=True, slots=True, kw_only=True)
class CarryLeverNotHomed(_NumberWheel):
    """A carry lever that is out is never pushed home: it deflects every carry pin that passes, turn after turn.

    >>> print(CarryLeverNotHomed(wheel=3))
    the carry lever of wheel 3 is not pushed home
    """

    name: ClassVar[str] = "carry lever not pushed home"

    def __str__(self) -> str:
        return f"the carry lever of wheel {self.wheel} is not pushed home"

    @property
    def part(self) -> str:
        return f"lever/{self.wheel}"


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberWheelOverthrows(_NumberWheel):
    """A number wheel runs on one step too far when the tooth that drove it lets go: after the last of a row of
    number pins, and after a carry. (Modelling choice: clearing and back transfer hold a wheel, and do not make it
    run on.)

    >>> print(NumberWheelOverthrows(wheel=2))
    number wheel 2 overthrows
    """

    name: ClassVar[str] = "number wheel overthrows"

    def __str__(self) -> str:
        return f"number wheel {self.wheel} overthrows"

    @property
    def part(self) -> str:
        return f"wheel/{self.wheel}"


@dataclass(frozen=True, slots=True, kw_only=True)
class IdlerToothLost(Fault):
    """One of the ten teeth of an idler is gone. The idler stands with the wheel opposite, so the gap faces the drum
    when that wheel shows the digit `tooth` in an additive turn (`tooth` + 1 in a subtractive one): the pin finds
    nothing to push, and the wheel stays there. (Modelling choice: the carriage, as it is seated, brings each idler
    into step with the wheel that it meets.)

    >>> print(IdlerToothLost(place=2, tooth=6))
    the idler of place 2 has lost the tooth between 6 and 7
    """

    name: ClassVar[str] = "idler tooth lost"
    place: int
    tooth: int

    def __str__(self) -> str:
        return f"the idler of place {self.place} has lost the tooth between {self.tooth} and {(self.tooth + 1) % 10}"

    def _bounds(self, spec: MachineSpec) -> dict[str, tuple[int, int]]:
        return {"place": (1, spec.carry_reach)}

    @property
    def part(self) -> str:
        return f"idler/{self.place}"

    @classmethod
    def everywhere(cls, spec: MachineSpec) -> Iterator[Fault]:
        return (cls(place=place, tooth=tooth) for place in range(1, spec.carry_reach + 1) for tooth in range(10))


@dataclass(frozen=True, slots=True, kw_only=True)
class _SettingPlace(Fault):
    place: int

    def _bounds(self, spec: MachineSpec) -> dict[str, tuple[int, int]]:
        return {"place": (1, spec.setting_places)}

    @classmethod
    def everywhere(cls, spec: MachineSpec) -> Iterator[Fault]:
        return (cls(place=place) for place in range(1, spec.setting_places + 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingLeverCreeps(_SettingPlace):
    """A setting lever slips back by one digit in every turn, as the drum comes to rest (modelling choice), until it
    stands at 0.

    >>> print(SettingLeverCreeps(place=5))
    setting lever 5 creeps
    """

    name: ClassVar[str] = "setting lever creeps"

    def __str__(self) -> str:
        return f"setting lever {self.place} creeps"

    @property
    def part(self) -> str:
        return f"setting/{self.place}"


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearingToothGone(_NumberWheel):
    """A number wheel is not taken along when the result is cleared.

    >>> print(ClearingToothGone(wheel=4))
    the clearing tooth of wheel 4 is gone
    """

    name: ClassVar[str] = "clearing tooth gone"

    def __str__(self) -> str:
        return f"the clearing tooth of wheel {self.wheel} is gone"

    @property
    def part(self) -> str:
        return f"wheel/{self.wheel}"


@dataclass(frozen=True, slots=True, kw_only=True)
class TransferGearOut(_SettingPlace):
    """A back-transfer gear does not mesh: its pinwheel stays where it was.

    >>> print(TransferGearOut(place=3))
    the back-transfer gear of place 3 does not mesh
    """

    name: ClassVar[str] = "back-transfer gear out"

    def __str__(self) -> str:
        return f"the back-transfer gear of place {self.place} does not mesh"

    def problems(self, spec: MachineSpec) -> list[str]:
        if not spec.back_transfer:
            return [f"{self}: this machine has no back transfer"]
        return Fault.problems(self, spec)

    @property
    def part(self) -> str:
        return f"setting/{self.place}"

    @classmethod
    def everywhere(cls, spec: MachineSpec) -> Iterator[Fault]:
        places = spec.setting_places if spec.back_transfer else 0
        return (cls(place=place) for place in range(1, places + 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class CounterFingerGone(Fault):
    """The finger that moves a counter wheel is gone: turns counted there are lost, and so are carries into it.

    >>> print(CounterFingerGone(wheel=2))
    the finger of counter wheel 2 is gone
    """

    name: ClassVar[str] = "counter finger gone"
    wheel: int

    def __str__(self) -> str:
        return f"the finger of counter wheel {self.wheel} is gone"

    def _bounds(self, spec: MachineSpec) -> dict[str, tuple[int, int]]:
        return {"wheel": (1, spec.counter_places)}

    @property
    def part(self) -> str:
        return f"counter/{self.wheel}"

    @classmethod
    def everywhere(cls, spec: MachineSpec) -> Iterator[Fault]:
        return (cls(wheel=wheel) for wheel in range(1, spec.counter_places + 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class CounterDirectionStuck(Fault):
    """The counter always counts turns in one direction up, whichever turn came first after it was cleared.

    >>> print(CounterDirectionStuck(direction=1))
    the counter's direction is stuck: additive turns count up
    """

    name: ClassVar[str] = "counter direction stuck"
    direction: int

    def __str__(self) -> str:
        return f"the counter's direction is stuck: {HELIX[self.direction]} turns count up"

    @property
    def part(self) -> str:
        return "direction"

    @classmethod
    def everywhere(cls, spec: MachineSpec) -> Iterator[Fault]:
        return (cls(direction=way) for way in (1, -1))


@dataclass(frozen=True, slots=True, kw_only=True)
class RatchetWorn(Fault):
    """The full-stroke ratchet no longer keeps the crank from going back part way through a turn.

    >>> print(RatchetWorn())
    the full-stroke ratchet is worn
    """

    name: ClassVar[str] = "full-stroke ratchet worn"

    def __str__(self) -> str:
        return "the full-stroke ratchet is worn"

    @property
    def part(self) -> str:
        return "pawl"

    @classmethod
    def everywhere(cls, spec: MachineSpec) -> Iterator[Fault]:
        return iter((cls(),))


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingLockWorn(Fault):
    """Setting levers can be moved while the crank is off rest.

    >>> print(SettingLockWorn())
    the setting lock is worn
    """

    name: ClassVar[str] = "setting lock worn"

    def __str__(self) -> str:
        return "the setting lock is worn"

    @property
    def part(self) -> str:
        return "lock"

    @classmethod
    def everywhere(cls, spec: MachineSpec) -> Iterator[Fault]:
        return iter((cls(),))


@dataclass(frozen=True, slots=True, kw_only=True)
class CarryTimingLate(Fault):
    """The carry levers come out late, by some degrees of crank more than the spec's lever throw: thick oil, or worn
    lugs. Which carries that loses is a matter of the drum's angles.

    >>> print(CarryTimingLate(by=2.5))
    the carry levers are fully out 2.5 degrees late
    """

    name: ClassVar[str] = "carry timing late"
    by: float

    def __str__(self) -> str:
        return f"the carry levers are fully out {self.by:g} degrees late"

    @property
    def part(self) -> str:
        return "lever/1"

    @classmethod
    def everywhere(cls, spec: MachineSpec) -> Iterator[Fault]:
        """Two that differ: so late that a rippling carry is lost; so late that the lever is left out after its cam."""
        slack = spec.helix_step - spec.pin_pitch - spec.lever_throw
        left_out = spec.helix_step - spec.lever_throw
        return (cls(by=round(max(margin, 0.0) + 0.5, 6)) for margin in (slack, left_out))
