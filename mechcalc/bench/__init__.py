"""The bench: machines with faults, how to test one, and how to trace what is wrong.

>>> from mechcalc import load_spec
>>> from mechcalc.bench import CarryPinGone, Machine
>>> m = Machine(load_spec("slate"), faults=[CarryPinGone(place=3, direction=1)])
>>> _ = m.set(999)
>>> _ = m.turn()
>>> _ = m.set(1)
>>> _ = m.turn()
>>> m.result
900

Testing and tracing are loaded when they are first used: `fault_dictionary`, `Tracing`, `trace` (on a page in a
notebook), `case`. The choice of tests is `mechcalc.bench.plan.plan`.
"""

from typing import TYPE_CHECKING

from mechcalc.bench.fault import Fault
from mechcalc.bench.fault_list import FAULTS, every_fault, fault_from_dict, fault_from_text
from mechcalc.bench.faults import (
    CarryLeverNotHomed,
    CarryLeverWeak,
    CarryPinGone,
    CarryTimingLate,
    ClearingToothGone,
    CounterDirectionStuck,
    CounterFingerGone,
    IdlerToothLost,
    NumberPinGone,
    NumberPinStuckOut,
    NumberWheelOverthrows,
    RatchetWorn,
    SettingLeverCreeps,
    SettingLockWorn,
    TransferGearOut,
)
from mechcalc.bench.machine import Machine
from mechcalc.lazily import at_first_use

if TYPE_CHECKING:
    from mechcalc.bench.cases import case
    from mechcalc.bench.dictionary import fault_dictionary
    from mechcalc.bench.prior import Prior
    from mechcalc.bench.trace_view import trace
    from mechcalc.bench.tracing import Tracing

_HOME = {"Prior": "prior", "Tracing": "tracing", "case": "cases", "fault_dictionary": "dictionary",
         "trace": "trace_view"}

__all__ = ["FAULTS", "CarryLeverNotHomed", "CarryLeverWeak", "CarryPinGone", "CarryTimingLate", "ClearingToothGone",
           "CounterDirectionStuck", "CounterFingerGone", "Fault", "IdlerToothLost", "Machine", "NumberPinGone",
           "NumberPinStuckOut", "NumberWheelOverthrows", "Prior", "RatchetWorn", "SettingLeverCreeps",
           "SettingLockWorn", "Tracing", "TransferGearOut", "case", "every_fault", "fault_dictionary",
           "fault_from_dict", "fault_from_text", "trace"]

__getattr__, __dir__ = at_first_use(__name__, _HOME, globals())
