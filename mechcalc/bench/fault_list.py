"""All kinds of fault by name, all faults that a machine can have, and how a fault is written down.

Only this file reads a fault from text or plain data.
"""

from __future__ import annotations

import re
from dataclasses import fields
from difflib import get_close_matches
from typing import Any

from mechcalc.bench import faults as kinds
from mechcalc.bench.fault import Fault
from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec

FAULTS: dict[str, type[Fault]] = {kind.name: kind for kind in (
    kinds.CarryPinGone, kinds.NumberPinGone, kinds.NumberPinStuckOut, kinds.CarryLeverWeak, kinds.CarryLeverNotHomed,
    kinds.NumberWheelOverthrows, kinds.IdlerToothLost, kinds.SettingLeverCreeps, kinds.ClearingToothGone,
    kinds.TransferGearOut, kinds.CounterFingerGone, kinds.CounterDirectionStuck, kinds.RatchetWorn,
    kinds.SettingLockWorn, kinds.CarryTimingLate)}


def every_fault(spec: MachineSpec) -> tuple[Fault, ...]:
    """Every single fault that a machine of this spec can have, kind by kind, from the units up.

    >>> from mechcalc import load_spec
    >>> many = every_fault(load_spec("slate"))
    >>> len(many), str(many[0])
    (183, 'the additive carry pin of place 2 is gone')
    """
    return tuple(fault for kind in FAULTS.values() for fault in kind.everywhere(spec))


def clash(one: Fault, other: Fault) -> bool:
    """Whether the same part would have to be in two conditions at once.

    >>> clash(kinds.NumberPinGone(place=1, pin=2), kinds.NumberPinStuckOut(place=1, pin=2))
    True
    """
    if isinstance(one, kinds.NumberPinGone | kinds.NumberPinStuckOut):
        return type(one) is not type(other) and isinstance(other, kinds.NumberPinGone | kinds.NumberPinStuckOut) and (
            (one.place, one.pin) == (other.place, other.pin))
    alone = kinds.CounterDirectionStuck | kinds.CarryTimingLate
    return isinstance(one, alone) and type(one) is type(other) and one != other


def fault_from_dict(data: Any) -> Fault:
    """A fault from plain data, as `Fault.to_dict` gives it.

    Raises
    ------
    InputError
        No such kind, a key that is missing or is none, a value that it cannot have.

    Examples
    --------
    >>> fault_from_dict({"fault": "counter finger gone", "wheel": 2})
    CounterFingerGone(wheel=2)
    """
    if not isinstance(data, dict):
        raise InputError(f"a fault is described by keys and values, not by {shown(data)}")
    kind = _kind(data.get("fault"))
    wanted = [field.name for field in fields(kind)]
    given = {key: value for key, value in data.items() if key != "fault"}
    problems = [f"{key!r} is no key of \"{kind.name}\"" for key in given if key not in wanted]
    problems += [f"{key!r} is missing" for key in wanted if key not in given]
    if problems:
        raise InputError(f"{kind.name}: {', '.join(problems)}; it takes {', '.join(wanted) or 'no keys'}")
    return kind(**given)


def _kind(name: Any) -> type[Fault]:
    if isinstance(name, str) and name in FAULTS:
        return FAULTS[name]
    near = get_close_matches(str(name), FAULTS, n=1)
    raise InputError(f"{shown(name)} is no kind of fault: "
                     f"{f'is {near[0]!r} meant?' if near else 'there are ' + ', '.join(FAULTS)}")


def fault_from_text(text: str) -> Fault:
    """A fault as people type it: the name, then its figures, each after the word for it.

    Examples
    --------
    >>> fault_from_text("carry pin gone, place 4, direction -1")
    CarryPinGone(place=4, direction=-1)
    >>> fault_from_text("carry timing late, by 2.5")
    CarryTimingLate(by=2.5)
    >>> fault_from_text("carry pin lost, place 4")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: 'carry pin lost' is no kind of fault: is 'carry pin gone' meant?
    """
    if not isinstance(text, str):
        raise InputError(f"a fault is written as text, such as 'number pin gone, place 2, pin 7', not {shown(text)}")
    name, *figures = (part.strip() for part in text.split(","))
    data: dict[str, Any] = {"fault": " ".join(name.split())}
    for figure in figures:
        match = re.fullmatch(r"([a-z]+)\s*=?\s*([+-]?\d+(?:\.\d+)?)", figure)
        if not match:
            raise InputError(f"{shown(figure)} in {shown(text)} is not a word and a figure, such as 'place 4'")
        key, value = match.groups()
        if key in data:
            raise InputError(f"{key!r} is given twice in {shown(text)}")
        data[key] = float(value) if "." in value else int(value)
    return fault_from_dict(data)


def text_of(fault: Fault) -> str:
    """A fault as `fault_from_text` reads it.

    >>> text_of(fault_from_text("number pin gone, place 2, pin 7"))
    'number pin gone, place 2, pin 7'
    """
    return ", ".join([fault.name, *(f"{field.name} {getattr(fault, field.name):g}" for field in fields(fault))])
