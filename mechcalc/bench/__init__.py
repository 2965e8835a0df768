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
"""

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

__all__ = ["FAULTS", "CarryLeverNotHomed", "CarryLeverWeak", "CarryPinGone", "CarryTimingLate", "ClearingToothGone",
           "CounterDirectionStuck", "CounterFingerGone", "Fault", "IdlerToothLost", "Machine", "NumberPinGone",
           "NumberPinStuckOut", "NumberWheelOverthrows", "RatchetWorn", "SettingLeverCreeps", "SettingLockWorn",
           "TransferGearOut", "every_fault", "fault_from_dict", "fault_from_text"]
