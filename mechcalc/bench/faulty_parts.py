"""The parts of a machine with faults, as the mechanism asks for them.

Only this file turns faults into answers of `mechcalc.parts.Parts`. Any number of faults go together; each answers for
its own part.
"""

from __future__ import annotations

from collections.abc import Sequence

from mechcalc.bench import faults as kinds
from mechcalc.bench.fault import Fault
from mechcalc.bench.fault_list import clash
from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.parts import Parts
from mechcalc.spec import MachineSpec


def checked(spec: MachineSpec, faults: Sequence[Fault]) -> tuple[Fault, ...]:
    """The faults, if a machine of this spec can have all of them together.

    Raises
    ------
    InputError
        With everything that is wrong: no fault at all, a part that the machine has not got, one fault given twice, two
        that cannot go together.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> checked(load_spec("slate"), [kinds.CarryLeverWeak(wheel=7)])
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: the carry lever of wheel 7 will not stay out: wheel 7 is not on this machine: they go \
from 1 to 6
    """
    if isinstance(faults, (str, Fault)) or not all(isinstance(fault, Fault) for fault in faults):
        raise InputError(f"faults are given as a list, such as [CarryLeverWeak(wheel=3)], not as {shown(faults)}")
    problems = [line for fault in faults for line in fault.problems(spec)]
    problems += [f"{fault}: it is given twice" for number, fault in enumerate(faults) if fault in faults[:number]]
    for number, fault in enumerate(faults):
        problems += [f"{other} and {fault}: both cannot be" for other in faults[:number] if clash(other, fault)]
    if problems:
        raise InputError("; ".join(problems))
    return tuple(faults)


class FaultyParts(Parts):
    """Parts of which some are faulty.

    Parameters
    ----------
    faults : sequence of Fault
        Checked before (`checked`).
    """

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        self._pins_gone = {(f.place, f.pin) for f in faults if isinstance(f, kinds.NumberPinGone)}
        self._pins_out = {(f.place, f.pin) for f in faults if isinstance(f, kinds.NumberPinStuckOut)}
        self._carry_pins_gone = {(f.place, f.direction) for f in faults if isinstance(f, kinds.CarryPinGone)}
        self._weak = {f.wheel for f in faults if isinstance(f, kinds.CarryLeverWeak)}
        self._not_homed = {f.wheel for f in faults if isinstance(f, kinds.CarryLeverNotHomed)}
        self._overthrow = {f.wheel for f in faults if isinstance(f, kinds.NumberWheelOverthrows)}
        self._teeth_lost = {(f.place, f.tooth) for f in faults if isinstance(f, kinds.IdlerToothLost)}
        self._creeping = {f.place for f in faults if isinstance(f, kinds.SettingLeverCreeps)}
        self._not_cleared = {f.wheel for f in faults if isinstance(f, kinds.ClearingToothGone)}
        self._out_of_mesh = {f.place for f in faults if isinstance(f, kinds.TransferGearOut)}
        self._fingers_gone = {f.wheel for f in faults if isinstance(f, kinds.CounterFingerGone)}
        self._stuck = next((f.direction for f in faults if isinstance(f, kinds.CounterDirectionStuck)), None)
        self._late = next((f.by for f in faults if isinstance(f, kinds.CarryTimingLate)), 0.0)
        worn = {"full-stroke ratchet": kinds.RatchetWorn, "setting lock": kinds.SettingLockWorn}
        self._worn = {name for name, kind in worn.items() if any(isinstance(f, kind) for f in faults)}

    def __repr__(self) -> str:
        return f"FaultyParts({list(self.faults)!r})"

    def __eq__(self, other: object) -> bool:
        return isinstance(other, FaultyParts) and set(self.faults) == set(other.faults)

    def __hash__(self) -> int:
        return hash(frozenset(self.faults))

    def number_pins(self, place: int, digit: int) -> tuple[int, ...]:
        return tuple(pin for pin in range(1, 10)
                     if (pin <= digit or (place, pin) in self._pins_out) and (place, pin) not in self._pins_gone)

    def carry_pin(self, place: int, helix: int) -> bool:
        return (place, helix) not in self._carry_pins_gone

    def lever_catches(self, wheel: int) -> bool:
        return wheel not in self._weak

    def lever_is_homed(self, wheel: int) -> bool:
        return wheel not in self._not_homed

    def lever_lag(self, wheel: int) -> float:
        return self._late

    def idler_drives(self, place: int, digit: int, step: int) -> bool:
        return (place, digit if step > 0 else (digit - 1) % 10) not in self._teeth_lost

    def overthrows(self, wheel: int) -> bool:
        return wheel in self._overthrow

    def creeps(self, place: int) -> bool:
        return place in self._creeping

    def counter_finger(self, wheel: int) -> bool:
        return wheel not in self._fingers_gone

    def counter_takes(self, direction: int) -> int:
        return direction if self._stuck is None else self._stuck

    def clears(self, wheel: int) -> bool:
        return wheel not in self._not_cleared

    def transfers(self, place: int) -> bool:
        return place not in self._out_of_mesh

    def holds(self, interlock: str) -> bool:
        return interlock not in self._worn
