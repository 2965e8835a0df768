"""Faults that cannot show: parts that a machine has but whose work no reading depends on.

Only this file says why a fault is not revealed. It looks at where a part stands and not at any test.
"""

from __future__ import annotations

from mechcalc.bench import faults as kinds
from mechcalc.bench.fault import Fault
from mechcalc.spec import MachineSpec

NO_TEST = "no test of the list makes it show"


def why_hidden(spec: MachineSpec, fault: Fault) -> str:
    """Why no test from outside reveals a fault; `NO_TEST` where nothing in the machine's build says so.

    >>> from mechcalc.bench import CarryPinGone
    >>> why_hidden(MachineSpec(setting_places=2, result_places=3, counter_places=2, carry_reach=5),
    ...            CarryPinGone(place=5, direction=1))
    'no number wheel ever stands before place 5: the register has 3'
    """
    place, wheel = getattr(fault, "place", None), getattr(fault, "wheel", None)
    on_the_drum = (kinds.CarryPinGone, kinds.NumberPinGone, kinds.NumberPinStuckOut, kinds.IdlerToothLost)
    if isinstance(fault, on_the_drum) and place is not None and place > spec.result_places:
        return f"no number wheel ever stands before place {place}: the register has {spec.result_places}"
    highest = spec.wheels_in_reach(spec.positions - 1)
    moved = (kinds.NumberWheelOverthrows, kinds.ClearingToothGone, kinds.CarryLeverWeak, kinds.CarryLeverNotHomed)
    if isinstance(fault, moved) and wheel is not None and wheel > highest:
        return f"wheel {wheel} never comes before the drum: the last position reaches wheel {highest}"
    if isinstance(fault, kinds.CounterFingerGone) and wheel is not None and wheel > spec.positions and (
            not spec.counter_carry):
        return f"no carriage position counts at counter wheel {wheel}, and the counter does not carry"
    if isinstance(fault, kinds.IdlerToothLost) and place is not None and place - spec.setting_places >= spec.positions:
        return (f"no lever can be brought before the wheel of place {place}: the carriage has {spec.positions} "
                f"positions; only a carry turns its idler")
    if isinstance(fault, kinds.CarryTimingLate) and spec.carry_reach < 2:
        return "this drum has no carry pins"
    return NO_TEST
