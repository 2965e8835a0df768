"""Machines as a lesson finds them: of the catalogue, with something already in the windows.

Only this file decides how a lesson's machine comes to stand where it stands.
"""

from __future__ import annotations

from dataclasses import replace

from mechcalc.catalogue import load_spec
from mechcalc.machine import Machine
from mechcalc.numbers import to_digits, whole
from mechcalc.state import cleared


def ready(name: str, *, setting: int = 0, result: int = 0, carriage: int = 0) -> Machine:
    """A machine of the catalogue (or of a TOML file) that somebody has used before: its strokes start here.

    Parameters
    ----------
    name : str
        As `mechcalc.load_spec` takes it.
    setting, result : int
        What the levers and the number wheels show; 0 or more, and no wider than the register.
    carriage : int
        Its position.

    Raises
    ------
    SpecError, InputError
        No such machine; a number that its register cannot show.

    Examples
    --------
    >>> m = ready("slate", setting=1, result=9999)
    >>> _ = m.turn()
    >>> m.result
    10000
    """
    spec = load_spec(name)
    setting = whole(setting, "the setting", 0, 10**spec.setting_places - 1)
    result = whole(result, "the result", 0, 10**spec.result_places - 1)
    carriage = whole(carriage, "a carriage position", 0, spec.positions - 1)
    return Machine(spec, state=replace(
        cleared(spec), setting=to_digits(setting, spec.setting_places),
        result=to_digits(result, spec.result_places), carriage=carriage))


def turned_at(multiplicand: int, *steps: tuple[int, int], machine: str = "bench") -> Machine:
    """A machine with a number on its levers, turned at positions of the carriage.

    Parameters
    ----------
    multiplicand : int
        What is set.
    *steps : tuple of int
        (position, turns), in order; turns below nought are subtractive.
    machine : str
        As `ready` takes it.

    Examples
    --------
    >>> turned_at(347, (0, 6), (1, 2)).counter
    26
    """
    made = ready(machine, setting=multiplicand)
    for position, turns in steps:
        made.shift_to(position)
        made.turn(turns)
    return made
