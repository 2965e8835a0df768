"""Which machine has which faults, as arrays that the batch can turn cranks with.

Only this file spreads faults over lanes. Rows count from 0: row 0 is place, pin or wheel 1.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from mechcalc.bench import faults as kinds
from mechcalc.bench.fault import Fault
from mechcalc.errors import InputError
from mechcalc.layout import exact
from mechcalc.spec import MachineSpec

Bits = Any  # numpy arrays; shapes are in the docstrings
NO = -1     # an empty seat in a list of faults


@dataclass(frozen=True, slots=True, eq=False)
class Lanes:
    """The faults of N machines of one spec, with m levers, n wheels, c counter wheels and carry reach K.

    Attributes
    ----------
    spec : MachineSpec
        What they are all built like.
    pins_gone, pins_out : array (m, N) of uint16
        Bit p - 1 stands for pin p.
    carry_pins : array (2, K + 1, N) of bool
        Whether the pin is there; first index 0 for the additive helix and 1 for the subtractive one, second index the
        place.
    catches, homed, overthrows, clears : array (n, N) of bool
        Of the wheels' carry levers, wheels, clearing teeth.
    teeth_lost : array (K, N) of uint16
        Bit t stands for the tooth between t and t + 1.
    creeps, transfers : array (m, N) of bool
    fingers : array (c, N) of bool
    stuck : array (N,) of int8
        1 or -1 where the counter's direction is stuck, otherwise 0.
    late : array (N,) of float64
        Degrees by which the levers are fully out too late.
    ratchet_worn, lock_worn : array (N,) of bool
    timed : array (N,) of bool
        A turn has to be worked by the clock: a carry lever can come out too late.
    """

    spec: MachineSpec
    pins_gone: Bits
    pins_out: Bits
    carry_pins: Bits
    catches: Bits
    homed: Bits
    overthrows: Bits
    clears: Bits
    teeth_lost: Bits
    creeps: Bits
    transfers: Bits
    fingers: Bits
    stuck: Bits
    late: Bits
    ratchet_worn: Bits
    lock_worn: Bits
    timed: Bits

    def __len__(self) -> int:
        return len(self.late)

    def some(self, which: Bits) -> Lanes:
        """The lanes of an index array or slice, in that order, copied."""
        arrays = {name: np.ascontiguousarray(getattr(self, name)[..., which])
                  for name in self.__dataclass_fields__ if name != "spec"}
        return Lanes(spec=self.spec, **arrays)

    def view(self, part: slice) -> Lanes:
        """The lanes of a slice, not copied."""
        return Lanes(spec=self.spec, **{name: getattr(self, name)[..., part]
                                        for name in self.__dataclass_fields__ if name != "spec"})


def _sound(spec: MachineSpec, many: int) -> dict[str, Bits]:
    m, n, c, reach = spec.setting_places, spec.result_places, spec.counter_places, spec.carry_reach
    return {
        "pins_gone": np.zeros((m, many), np.uint16), "pins_out": np.zeros((m, many), np.uint16),
        "carry_pins": np.ones((2, reach + 1, many), bool), "catches": np.ones((n, many), bool),
        "homed": np.ones((n, many), bool), "overthrows": np.zeros((n, many), bool),
        "clears": np.ones((n, many), bool), "teeth_lost": np.zeros((reach, many), np.uint16),
        "creeps": np.zeros((m, many), bool), "transfers": np.ones((m, many), bool),
        "fingers": np.ones((c, many), bool), "stuck": np.zeros(many, np.int8), "late": np.zeros(many),
        "ratchet_worn": np.zeros(many, bool), "lock_worn": np.zeros(many, bool),
    }


def _put(name: str, value: Any, *rows: str) -> Callable[[dict[str, Bits], Fault, Bits], None]:
    """A part that is found under the fault's figures and gets a value (or a bit, where `value` says which)."""
    def put(arrays: dict[str, Bits], fault: Fault, lanes: Bits) -> None:
        array = arrays[name]
        for row in rows:
            array = array[getattr(fault, row) - 1]
        if callable(value):
            array[lanes] |= np.uint16(1 << value(fault))
        else:
            array[lanes] = value
    return put


def _carry_pin(arrays: dict[str, Bits], fault: Any, lanes: Bits) -> None:
    arrays["carry_pins"][0 if fault.direction > 0 else 1, fault.place, lanes] = False


def _stuck(arrays: dict[str, Bits], fault: Any, lanes: Bits) -> None:
    arrays["stuck"][lanes] = fault.direction


def _late(arrays: dict[str, Bits], fault: Any, lanes: Bits) -> None:
    arrays["late"][lanes] = fault.by


SPREAD: dict[type[Fault], Callable[[dict[str, Bits], Any, Bits], None]] = {
    kinds.CarryPinGone: _carry_pin,
    kinds.NumberPinGone: _put("pins_gone", lambda fault: fault.pin - 1, "place"),
    kinds.NumberPinStuckOut: _put("pins_out", lambda fault: fault.pin - 1, "place"),
    kinds.CarryLeverWeak: _put("catches", False, "wheel"),
    kinds.CarryLeverNotHomed: _put("homed", False, "wheel"),
    kinds.NumberWheelOverthrows: _put("overthrows", True, "wheel"),
    kinds.IdlerToothLost: _put("teeth_lost", lambda fault: fault.tooth, "place"),
    kinds.SettingLeverCreeps: _put("creeps", True, "place"),
    kinds.ClearingToothGone: _put("clears", False, "wheel"),
    kinds.TransferGearOut: _put("transfers", False, "place"),
    kinds.CounterFingerGone: _put("fingers", False, "wheel"),
    kinds.CounterDirectionStuck: _stuck,
    kinds.CarryTimingLate: _late,
    kinds.RatchetWorn: _put("ratchet_worn", True),
    kinds.SettingLockWorn: _put("lock_worn", True),
}


def lanes_of(spec: MachineSpec, faults: Sequence[Fault], seats: Any) -> Lanes:
    """Machines whose faults are named by index.

    Parameters
    ----------
    spec : MachineSpec
        What they are built like.
    faults : sequence of Fault
        Single faults, each possible on this spec.
    seats : array-like (N,) or (N, k) of int
        The faults of each machine, as indices into `faults`; -1 for none. That no two of one machine clash is the
        caller's business (`faulty_parts.checked`, `fault_list.pairs`).

    Raises
    ------
    InputError
        An index that is none; a fault that the machine cannot have.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> lanes = lanes_of(load_spec("slate"), [kinds.CarryLeverWeak(wheel=3)], [0, -1])
    >>> lanes.catches[2].tolist(), len(lanes)
    ([False, True], 2)
    """
    problems = [line for fault in faults for line in fault.problems(spec)]
    if problems:
        raise InputError("; ".join(problems))
    table = np.asarray(seats, dtype=np.int64)
    table = table.reshape(len(table), -1) if table.size else table.reshape(len(table), 0)
    if table.size and not (table.min() >= NO and table.max() < len(faults)):
        raise InputError(f"faults are numbered from 0 to {len(faults) - 1}, and -1 is none; here they go from "
                         f"{table.min()} to {table.max()}")
    arrays = _sound(spec, len(table))
    for column in table.T:
        order = np.argsort(column, kind="stable")
        starts = np.searchsorted(column[order], np.arange(len(faults) + 1))
        for index, fault in enumerate(faults):
            lanes = order[starts[index]:starts[index + 1]]
            if len(lanes):
                SPREAD[type(fault)](arrays, fault, lanes)
    return Lanes(spec=spec, **arrays, timed=_timed(spec, arrays["late"]))


def _timed(spec: MachineSpec, late: Bits) -> Bits:
    """Where levers are late, and everywhere on a drum whose angles are too small for its levers."""
    step, pitch, throw, gap = (exact(value) for value in
                               (spec.helix_step, spec.pin_pitch, spec.lever_throw, spec.gap))
    return (late > 0) | (step < pitch + throw or gap < throw)
