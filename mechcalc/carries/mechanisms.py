"""The same addition on four carry mechanisms, event by event.

Only this file knows carries other than the helix's. The machine of this kit works its own; the three others are models
of one wheel row each, with the same number pins at the same angles, made to be compared (modelling choices; that such
mechanisms exist is common knowledge of the trade, no source):

- *at once*: a wheel that passes from 9 to 0 takes the next one along in the same step. No time is needed, and every
  nine that is taken along is turned by the same hand at the same moment. A wheel that its own pin drives too makes two
  steps in the time of one; the model lets it, and counts both.
- *by lever and helix*: each carry waits in a lever for a pin of its own; one wheel moves at a time.
- *looking ahead*: after the pins feelers find the rows of nines above each wheel that has passed; then one step moves
  all that have to move, together.
- *in the head*: wheels do not carry. Whoever turns the crank notes which wheels have passed, and adds the carries as a
  number of their own, turn by turn, until none is left.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

from mechcalc.carries.effort import Doing, Effort, Prices, doings_of, effort_of
from mechcalc.errors import InputError
from mechcalc.layout import PINS, exact, helix_arc, layout
from mechcalc.machine import Machine
from mechcalc.numbers import from_digits, to_digits, whole
from mechcalc.spec import MachineSpec
from mechcalc.state import cleared

Digits = tuple[int, ...]
NAMES = ("at once", "by lever and helix", "looking ahead", "in the head")


@dataclass(frozen=True, slots=True)
class Carrying:
    """An addition on one mechanism.

    Attributes
    ----------
    name : str
        Of the mechanism.
    result : int
        What the wheels show at the end.
    turns : int
        Turns of the crank that it took; more than one only without a carry.
    doings : tuple of tuple of Doing
        What was done in each turn, by angle.
    angle : float
        Degrees of drum that pins and carries need in one direction of turning, from the first pin's contact.
    both_ways : float
        The same for a drum that can be turned either way.
    pitch : float
        Degrees of one wheel step.
    says : str
        How it carries, in a sentence.
    """

    name: str
    result: int
    turns: int
    doings: tuple[tuple[Doing, ...], ...]
    angle: float
    both_ways: float
    pitch: float
    says: str

    def effort(self, prices: Prices | None = None, turn: int = 1) -> Effort:
        """How hard the crank is to turn in one of the turns (1 unless given)."""
        return effort_of(self.doings[turn - 1], self.pitch, prices)

    @property
    def longest(self) -> int:
        """The most number wheels that are driven at one moment; a wheel that is pushed from two sides counts once."""
        moments = [[doing.place for doing in turn if doing.what == "wheel" and doing.begin <= one.begin < doing.end]
                   for turn in self.doings for one in turn]
        return max((len(set(wheels)) for wheels in moments), default=0)


def carried(spec: MachineSpec, shows: int, added: int) -> tuple[Carrying, ...]:
    """Add a number to what the wheels show, in one turn, on each mechanism.

    Parameters
    ----------
    spec : MachineSpec
        How many wheels there are, and the angles.
    shows : int
        What the number wheels show before, 0 or more.
    added : int
        What is set on the levers, 0 or more.

    Raises
    ------
    InputError
        A number that the register or the levers cannot hold.
    """
    shows = whole(shows, "what the wheels show", 0, 10**spec.result_places - 1)
    added = whole(added, "what is added", 0, 10**spec.setting_places - 1)
    if spec.carry_reach < spec.result_places:
        raise InputError(f"a helix that carries {spec.carry_reach} of {spec.result_places} places cannot be compared "
                         f"with mechanisms that carry through all: choose a machine whose reach covers its wheels")
    return tuple(work(spec, shows, added) for work in (_at_once, _by_helix, _looking_ahead, _in_the_head))


def arcs(spec: MachineSpec, places: int) -> dict[str, tuple[float, float]]:
    """Degrees of drum that pins and carries need with these angles, were they to carry through so many places.

    Parameters
    ----------
    spec : MachineSpec
        Whose angles are taken; its own carry reach does not matter, nor whether all fits in a turn.
    places : int
        1 or more.

    Returns
    -------
    dict of str to (float, float)
        For each mechanism: of a drum that is turned one way only, and of one that can be turned either way.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> arcs(load_spec("slate"), 6)["by lever and helix"], arcs(load_spec("slate"), 7)["by lever and helix"]
    ((142.0, 203.0), (154.0, 227.0))
    """
    machine: Any = SimpleNamespace(**{**spec.to_dict(), "carry_reach": whole(places, "a number of places", 1)})
    pins = PINS * exact(spec.pin_pitch)
    one_step = exact(spec.gap) + exact(spec.pin_pitch) if places > 1 else Fraction(0)
    behind = (Fraction(0), helix_arc(machine), one_step, Fraction(0))  # after the pins; mirrored before them
    return {name: (float(pins + arc), float(pins + 2 * arc)) for name, arc in zip(NAMES, behind, strict=True)}


def _pins(spec: MachineSpec, setting: Digits) -> list[tuple[float, float, int]]:
    """Every number pin that is out: contact, end of its step, wheel; in the order of passing."""
    drum = layout(spec)
    return sorted((drum.pin_passing(pin, 1).contact, drum.pin_passing(pin, 1).end, place)
                  for place, digit in enumerate(setting, start=1) for pin in range(1, digit + 1))


def _start(spec: MachineSpec, shows: int, added: int) -> tuple[list[int], Digits]:
    return list(to_digits(shows, spec.result_places)), to_digits(added, spec.setting_places)


def _worked(name: str, result: int, turns: Sequence[Iterable[Doing]], spec: MachineSpec, says: str) -> Carrying:
    return Carrying(name, result, len(turns), tuple(tuple(sorted(doings)) for doings in turns),
                    *arcs(spec, spec.carry_reach)[name], spec.pin_pitch, says)


def _at_once(spec: MachineSpec, shows: int, added: int) -> Carrying:
    wheels, setting = _start(spec, shows, added)
    doings = []
    for contact, end, place in _pins(spec, setting):
        for wheel in range(place, spec.result_places + 1):
            doings.append(Doing(contact, end, "wheel", wheel))
            wheels[wheel - 1] = (wheels[wheel - 1] + 1) % 10
            if wheels[wheel - 1]:
                break
    return _worked(NAMES[0], from_digits(wheels), [doings], spec,
                   "A wheel that passes takes the next one along in the same step.")


def _by_helix(spec: MachineSpec, shows: int, added: int) -> Carrying:
    start = replace(cleared(spec), result=to_digits(shows, spec.result_places),
                    setting=to_digits(added, spec.setting_places))
    machine = Machine(spec, state=start)
    machine.turn()
    doings = [doing for doing in doings_of(machine.strokes[-1], spec) if doing.what != "counter"]
    return _worked(NAMES[1], machine.result, [doings], spec,
                   "Each carry waits in a lever for a pin of its own; one wheel moves at a time.")


def _looking_ahead(spec: MachineSpec, shows: int, added: int) -> Carrying:
    wheels, setting = _start(spec, shows, added)
    doings, passed = [], set()
    for contact, end, place in _pins(spec, setting):
        doings.append(Doing(contact, end, "wheel", place))
        wheels[place - 1] = (wheels[place - 1] + 1) % 10
        if not wheels[place - 1]:
            passed.add(place)
    felt = layout(spec).number_pins[-1].end + spec.gap
    doings += [Doing(felt - spec.gap, felt, "feel", wheel) for wheel in range(2, spec.result_places + 1) if spec.gap]
    moving, carry = [], False
    for wheel in range(1, spec.result_places + 1):
        if carry:
            moving.append(wheel)
        carry = wheel in passed or (carry and wheels[wheel - 1] == 9)
    for wheel in moving:
        wheels[wheel - 1] = (wheels[wheel - 1] + 1) % 10
        doings.append(Doing(felt, felt + spec.pin_pitch, "wheel", wheel))
    return _worked(NAMES[2], from_digits(wheels), [doings], spec,
                   "Feelers find the rows of nines; then one step moves all that have to move, together.")


def _in_the_head(spec: MachineSpec, shows: int, added: int) -> Carrying:
    wheels, setting = _start(spec, shows, added)
    turns: list[list[Doing]] = []
    while any(setting) or not turns:
        doings, carries = [], [0] * (spec.result_places + 1)
        for contact, end, place in _pins(spec, setting):
            doings.append(Doing(contact, end, "wheel", place))
            wheels[place - 1] = (wheels[place - 1] + 1) % 10
            if not wheels[place - 1]:
                carries[place] = 1
        turns.append(doings)
        setting = tuple(carries[:spec.result_places])
    return _worked(NAMES[3], from_digits(wheels), turns, spec,
                   "Wheels do not carry: what should be carried is noted, and added in turns of its own.")
