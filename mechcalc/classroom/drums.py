"""Drums that a lesson builds wrong on purpose, and what they then get wrong.

Only this file tries a drum out: without one of its helices, or with every carry of one digit to another. The answers
come from a machine that is cranked.
"""

from __future__ import annotations

from dataclasses import replace

from mechcalc.events import Stroke
from mechcalc.layout import PINS
from mechcalc.machine import Machine
from mechcalc.numbers import from_digits, to_digits, whole
from mechcalc.parts import Parts
from mechcalc.spec import MachineSpec
from mechcalc.state import cleared
from mechcalc.turning import FULL_TURN, crank
from mechcalc.view.drum_spans import direction_of

TENS = 5  # what wheel 2 shows before a trial, so that its own lever stays at home


class _WithoutHelix(Parts):
    """A drum that never got the carry pins of one helix."""

    def __init__(self, helix: int) -> None:
        self.missing = helix

    def carry_pin(self, place: int, helix: int) -> bool:
        return helix != self.missing


def without_helix(machine: Machine, helix: str | int, turn: str | int) -> int:
    """What the windows would show after one turn, had the drum no carry pins on that helix; the machine stays as it is.

    Parameters
    ----------
    machine : Machine
        At rest, with something set.
    helix, turn : str or int
        ``"additive"`` (1) or ``"subtractive"`` (-1).

    Raises
    ------
    InputError
        No such helix or turn.

    Examples
    --------
    >>> from mechcalc.classroom import ready
    >>> machine = ready("slate", setting=1, result=999)
    >>> without_helix(machine, "subtractive", "additive"), without_helix(machine, "additive", "additive")
    (1000, 990)
    """
    parts = _WithoutHelix(direction_of(helix))
    after, _ = crank(machine.spec, parts, machine.state, FULL_TURN, direction_of(turn))
    return from_digits(after.result)


def turned(spec: MachineSpec, result: int, setting: int, turn: str | int = "additive") -> Stroke:
    """One turn on a machine of this build, whose windows and levers already show something.

    Parameters
    ----------
    spec : MachineSpec
        The machine, a wrongly built one too.
    result, setting : int
        0 or more, and no wider than the register.
    turn : str or int
        ``"additive"`` (1) or ``"subtractive"`` (-1).

    Raises
    ------
    InputError
        A number that its register cannot show; no such turn.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from mechcalc import load_spec
    >>> late = replace(load_spec("slate"), gap=2.0, allow_faulty_timing=True)
    >>> turned(late, 9, 1).reading.result, turned(late, 1, 9).reading.result
    (10, 0)
    """
    setting = whole(setting, "the setting", 0, 10**spec.setting_places - 1)
    result = whole(result, "the result", 0, 10**spec.result_places - 1)
    machine = Machine(spec, state=replace(cleared(spec), setting=to_digits(setting, spec.setting_places),
                                          result=to_digits(result, spec.result_places)))
    machine.turn(direction_of(turn))
    return machine.strokes[-1]


def lost_carries(spec: MachineSpec, turn: str | int = "additive") -> tuple[tuple[int, int], ...]:
    """Every carry from wheel 1 to wheel 2 that this drum loses, each tried on a machine.

    Parameters
    ----------
    spec : MachineSpec
        With two number wheels or more. Only a drum that is built wrong on purpose (`allow_faulty_timing`) loses any.
    turn : str or int
        ``"additive"`` (1) or ``"subtractive"`` (-1).

    Returns
    -------
    tuple of (int, int)
        What wheel 1 showed, and how many pins of place 1 were out.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from mechcalc import load_spec
    >>> late = replace(load_spec("slate"), gap=2.0, allow_faulty_timing=True)
    >>> lost_carries(late), lost_carries(load_spec("slate"))
    (((1, 9),), ())
    """
    direction = direction_of(turn)
    return tuple((digit, pins) for digit in range(10) for pins in range(PINS + 1)
                 if turned(spec, 10 * TENS + digit, pins, direction).reading.result
                 != 10 * TENS + digit + direction * pins)
