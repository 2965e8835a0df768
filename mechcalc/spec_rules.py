"""The rules that a machine must keep to be built, each with the values that it speaks of.

Only this file says what is wrong with a machine's figures. It takes any part of a machine: a rule is asked as soon as
the values that it needs are there and well-formed, so that somebody who is still counting hears of a contradiction at
once. `mechcalc.spec` asks with everything.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

from mechcalc import layout as drum
from mechcalc.errors import InputError
from mechcalc.numbers import finite, shown, whole

MOST_PLACES = 40
ANGLES = {"pin_pitch": "pin pitch", "gap": "gap before the carry pins", "helix_step": "helix step",
          "lever_throw": "lever throw", "rest_arc": "rest arc"}
MAY_BE_ZERO = ("gap", "lever_throw", "rest_arc")
PLACES = {"setting_places": "setting places", "result_places": "result places",
          "counter_places": "counter places", "carry_reach": "carry reach", "positions": "carriage positions"}
SWITCHES = ("counter_carry", "check_register", "back_transfer", "allow_faulty_timing")
TEXTS = ("name", "note")


@dataclass(frozen=True, slots=True)
class BrokenRule:
    """A rule that a machine breaks.

    Attributes
    ----------
    fields : tuple of str
        Whose figures it speaks of; the first is the one to look at first.
    text : str
        The rule with its figures.
    """

    fields: tuple[str, ...]
    text: str


def well_formed(name: str, value: Any) -> Any:
    """The value of one field in its plain type.

    Raises
    ------
    InputError
        Of the wrong kind, or out of any range.

    Examples
    --------
    >>> well_formed("gap", 4)
    4.0
    >>> well_formed("counter_places", 0)
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: counter places cannot be 0: it goes from 1 to 40
    """
    if name in PLACES:
        return whole(value, PLACES[name], 0 if name == "positions" else 1, MOST_PLACES)
    if name in ANGLES:
        angle = finite(value, ANGLES[name])
        if not 0 <= angle <= 360 or (angle == 0 and name not in MAY_BE_ZERO):
            above = "from 0" if name in MAY_BE_ZERO else "more than 0"
            raise InputError(f"{ANGLES[name]} cannot be {angle:g} degrees: it is {above} and at most 360")
        return angle
    if name in SWITCHES and not isinstance(value, bool):
        raise InputError(f"{name} is true or false, not {shown(value)}")
    if name in TEXTS and not isinstance(value, str):
        raise InputError(f"{name} is a text, not {shown(value)}")
    return value


def broken_rules(values: Mapping[str, Any]) -> tuple[BrokenRule, ...]:
    """Every rule that these values break, in the order of a machine's description.

    Parameters
    ----------
    values : mapping of str to object
        Fields of a `MachineSpec`, all of them or some. Where ``allow_faulty_timing`` is true, the two rules about
        lateness are waived.

    Examples
    --------
    >>> for rule in broken_rules({"setting_places": 9, "carry_reach": 8, "gap": 2, "lever_throw": 3}):
    ...     print(rule.fields, rule.text)
    ('carry_reach', 'setting_places') the carry reach must cover the setting: carry reach 8, setting places 9
    ('gap', 'lever_throw') the first carry would come too late: gap 2 is less than lever throw 3
    """
    good, found = {}, []
    for name in (*PLACES, *ANGLES, *SWITCHES, *TEXTS):
        if name in values:
            try:
                good[name] = well_formed(name, values[name])
            except InputError as error:
                found.append(BrokenRule((name,), str(error)))
    machine = SimpleNamespace(**good)
    for fields, needed, rule in RULES:
        if all(field in good for field in needed):
            found += [BrokenRule(tuple(field for field in fields if field in good), text) for text in rule(machine)]
    return tuple(found)


def _covers_the_setting(machine: Any) -> Iterator[str]:
    if machine.setting_places > machine.carry_reach:
        yield (f"the carry reach must cover the setting: carry reach {machine.carry_reach}, setting places "
               f"{machine.setting_places}")


def _wheels_at_every_position(machine: Any) -> Iterator[str]:
    """One register is enough to contradict: whichever has been counted."""
    wheels = {words: getattr(machine, field) for field, words in (("result_places", "result"),
                                                                  ("counter_places", "counter"))
              if hasattr(machine, field)}
    if machine.positions > min(wheels.values(), default=MOST_PLACES):
        yield (f"each carriage position needs a number wheel and a counter wheel before place 1: {machine.positions} "
               f"positions, {' and '.join(f'{many} {words}' for words, many in wheels.items())} wheels")


def _degrees(value: Fraction) -> str:
    return f"{float(value):.6g}"


def _may_be_late(machine: Any) -> bool:
    return getattr(machine, "allow_faulty_timing", False)


def _ripples(machine: Any) -> Iterator[str]:
    step, pitch, throw = (drum.exact(one) for one in (machine.helix_step, machine.pin_pitch, machine.lever_throw))
    if step < pitch + throw and not _may_be_late(machine):
        yield (f"a carry would come too late to ripple: helix step {_degrees(step)} is less than pin pitch "
               f"{_degrees(pitch)} + lever throw {_degrees(throw)} = {_degrees(pitch + throw)}")


def _first_in_time(machine: Any) -> Iterator[str]:
    gap, throw = drum.exact(machine.gap), drum.exact(machine.lever_throw)
    if gap < throw and not _may_be_late(machine):
        yield f"the first carry would come too late: gap {_degrees(gap)} is less than lever throw {_degrees(throw)}"


def _fits(machine: Any) -> Iterator[str]:
    """The angle budget, which nothing waives: there is no room for pins that do not fit."""
    pitch, gap, step = (drum.exact(one) for one in (machine.pin_pitch, machine.gap, machine.helix_step))
    rest = drum.exact(machine.rest_arc)
    total = drum.used_arc(machine) + rest
    if total > 360:
        helices = (f" + 2 x ({_degrees(gap)} + {machine.carry_reach - 2} x {_degrees(step)} + {_degrees(pitch)}) for "
                   f"the helices" if machine.carry_reach > 1 else "")
        yield (f"the pins do not fit on the drum: 9 x {_degrees(pitch)} for the number pins{helices} + "
               f"{_degrees(rest)} for the rest arc = {_degrees(math.ceil(total * 1000) / Fraction(1000))} degrees of "
               f"360; the largest carry reach for these angles is {drum.largest_carry_reach(machine)}")


# What each speaks of, the first being the one to look at first; what it needs; the rule itself.
RULES: tuple[tuple[tuple[str, ...], tuple[str, ...], Callable[[Any], Iterator[str]]], ...] = tuple(
    (fields, needed or fields, rule) for fields, needed, rule in (
        (("carry_reach", "setting_places"), (), _covers_the_setting),
        (("positions", "result_places", "counter_places"), ("positions",), _wheels_at_every_position),
        (("helix_step", "pin_pitch", "lever_throw"), (), _ripples),
        (("gap", "lever_throw"), (), _first_in_time),
        (("carry_reach", "pin_pitch", "gap", "helix_step", "rest_arc"), (), _fits)))
