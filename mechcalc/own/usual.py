"""Angles for a drum that nobody has measured.

Only this file guesses. The angles are those of the lessons' everyday drum, made narrower where a longer carry reach
needs the room; they are invented, and keep every rule of `mechcalc.spec_rules`.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import SimpleNamespace

from mechcalc import layout as drum
from mechcalc.layout import exact

WIDEST = 30           # tenths of a degree that a lever throw takes at the most: the pitch is 9 degrees then
USUAL_REST = Fraction(15)
TENTH = Fraction(1, 10)


def usual_angles(carry_reach: int) -> dict[str, float]:
    """The widest usual angles with room for a carry reach.

    Parameters
    ----------
    carry_reach : int
        1 to 40.

    Returns
    -------
    dict of str to float
        The five angles of a `MachineSpec`, in degrees of drum.

    Examples
    --------
    >>> usual_angles(11)
    {'pin_pitch': 9.0, 'gap': 4.0, 'helix_step': 12.0, 'lever_throw': 3.0, 'rest_arc': 15.0}
    >>> usual_angles(20)
    {'pin_pitch': 5.7, 'gap': 2.6, 'helix_step': 7.6, 'lever_throw': 1.9, 'rest_arc': 15.0}
    """
    angles: dict[str, Fraction] = {}
    for throw in range(WIDEST, 0, -1):
        angles = {"pin_pitch": 3 * throw * TENTH, "gap": _tenths_up(Fraction(4 * throw, 3) * TENTH),
                  "helix_step": 4 * throw * TENTH, "lever_throw": throw * TENTH, "rest_arc": USUAL_REST}
        if _fits(carry_reach, angles):
            break
    return {name: float(angle) for name, angle in angles.items()}


def with_usual(measured: Mapping[str, float], carry_reach: int) -> dict[str, float]:
    """All five angles: those that were measured as they are, the others so that they go with them where they can.

    Parameters
    ----------
    measured : mapping of str to float
        Some of the five, in degrees of drum.
    carry_reach : int
        1 to 40.

    Examples
    --------
    >>> with_usual({"pin_pitch": 8.4, "helix_step": 11.0}, 10)
    {'pin_pitch': 8.4, 'gap': 3.8, 'helix_step': 11.0, 'lever_throw': 2.6, 'rest_arc': 15.0}
    """
    given = {name: exact(angle) for name, angle in measured.items()}
    pitch = given.get("pin_pitch", _pitch(given, carry_reach))
    rooms = [Fraction(int(pitch / 3 / TENTH), 10)]
    rooms += [given["gap"]] if "gap" in given else []
    rooms += [given["helix_step"] - pitch] if "helix_step" in given else []
    throw = given.get("lever_throw", max(Fraction(0), min(rooms)))
    angles = {"pin_pitch": pitch, "gap": given.get("gap", max(throw, _tenths_up(4 * pitch / 9))),
              "helix_step": given.get("helix_step", pitch + throw), "lever_throw": throw}
    free = 360 - drum.used_arc(SimpleNamespace(carry_reach=carry_reach, **angles))  # type: ignore[arg-type]
    angles["rest_arc"] = given.get("rest_arc", max(Fraction(0), min(USUAL_REST, free)))
    return {name: float(angle) for name, angle in angles.items()}


def _pitch(given: Mapping[str, Fraction], carry_reach: int) -> Fraction:
    """The usual pitch, or a narrower one where a measured helix step leaves no room for it."""
    usual = exact(usual_angles(carry_reach)["pin_pitch"])
    if "helix_step" not in given:
        return usual
    step = given["helix_step"]
    room = step - given["lever_throw"] if "lever_throw" in given else 3 * step / 4
    return min(usual, room) if room > 0 else usual


def _tenths_up(value: Fraction) -> Fraction:
    return Fraction(-int(-value // TENTH), 10)


def _fits(carry_reach: int, angles: Mapping[str, Fraction]) -> bool:
    machine = SimpleNamespace(carry_reach=carry_reach, **angles)
    return drum.used_arc(machine) + angles["rest_arc"] <= 360  # type: ignore[arg-type]
