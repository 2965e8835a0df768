"""The same addition on four carry mechanisms, event by event.

Only this file knows carries other than the helix's. The machine of this kit works its own; the three others are models
of one wheel row each, with the same number pins at the same angles, made to be compared (modelling choices; that such
mechanisms exist is common knowledge of the trade, no source):

- *at once*: a wheel that passes from 9 to 0 takes the next one along in the same step. No time is needed, and every
  nine that is taken along is turned by the same hand at the same moment.
- *by lever and helix*: each carry waits in a lever for a pin of its own; one wheel moves at a time.
- *looking ahead*: after the pins feelers find the rows of nines above each wheel that has passed; then one step moves
  all that have to move, together.
- *in the head*: wheels do not carry. Whoever turns the crank notes which wheels have passed, and adds the carries as a
  number of their own, turn by turn, until none is left.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from mechcalc.carries.effort import Doing, Effort, Prices, doings_of, effort_of
from mechcalc.errors import InputError
from mechcalc.layout import PINS, layout
from mechcalc.machine import Machine
from mechcalc.numbers import from_digits, to_digits, whole
from mechcalc.spec import MachineSpec
from mechcalc.state import cleared

Digits = tuple[int, ...]


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
        """The most number wheels that are driven at one moment."""
        only_wheels = Prices(wheel=1.0, lever=0.0, home=0.0, feel=0.0, counter=0.0)
        return int(max(effort_of(turn, self.pitch, only_wheels).peak for turn in self.doings))


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


def _pins(spec: MachineSpec, setting: Digits) -> list[tuple[float, float, int]]:
    """Every number pin that is out: contact, end of its step, wheel; in the order of passing."""
    drum = layout(spec)
    return sorted((drum.pin_passing(pin, 1).contact, drum.pin_passing(pin, 1).end, place)
                  for place, digit in enumerate(setting, start=1) for pin in range(1, digit + 1))


def _start(spec: MachineSpec, shows: int, added: int) -> tuple[list[int], Digits]:
    return list(to_digits(shows, spec.result_places)), to_digits(added, spec.setting_places)


def _at_once(spec: MachineSpec, shows: int, added: int) -> Carrying:
    wheels, setting = _start(spec, shows, added)
    doings = []
    for contact, end, place in _pins(spec, setting):
        for wheel in range(place, spec.result_places + 1):
            doings.append(Doing(contact, end, "wheel", wheel))
            wheels[wheel - 1] = (wheels[wheel - 1] + 1) % 10
            if wheels[wheel - 1]:
                break
    arc = PINS * spec.pin_pitch
    return Carrying("at once", from_digits(wheels), 1, (tuple(sorted(doings)),), arc, arc, spec.pin_pitch,
                    "A wheel that passes takes the next one along in the same step.")


def _by_helix(spec: MachineSpec, shows: int, added: int) -> Carrying:
    start = replace(cleared(spec), result=to_digits(shows, spec.result_places),
                    setting=to_digits(added, spec.setting_places))
    machine = Machine(spec, state=start)
    machine.turn()
    stroke = machine.strokes[-1]
    drum = layout(spec)
    arc = drum.close - drum.number_pins[0].contact
    doings = tuple(doing for doing in doings_of(stroke, spec) if doing.what != "counter")
    return Carrying("by lever and helix", machine.result, 1, (doings,), arc, 2 * arc - PINS * spec.pin_pitch,
                    spec.pin_pitch, "Each carry waits in a lever for a pin of its own; one wheel moves at a time.")


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
    arc = (PINS + 1) * spec.pin_pitch + spec.gap
    return Carrying("looking ahead", from_digits(wheels), 1, (tuple(sorted(doings)),), arc,
                    arc + spec.gap + spec.pin_pitch, spec.pin_pitch,
                    "Feelers find the rows of nines; then one step moves all that have to move, together.")


def _in_the_head(spec: MachineSpec, shows: int, added: int) -> Carrying:
    wheels, setting = _start(spec, shows, added)
    turns: list[tuple[Doing, ...]] = []
    while any(setting) or not turns:
        doings, carries = [], [0] * (spec.result_places + 1)
        for contact, end, place in _pins(spec, setting):
            doings.append(Doing(contact, end, "wheel", place))
            wheels[place - 1] = (wheels[place - 1] + 1) % 10
            if not wheels[place - 1]:
                carries[place] = 1
        turns.append(tuple(sorted(doings)))
        setting = tuple(carries[:spec.result_places])
    arc = PINS * spec.pin_pitch
    return Carrying("in the head", from_digits(wheels), len(turns), tuple(turns), arc, arc, spec.pin_pitch,
                    "Wheels do not carry: the carries are noted, and added as a number of their own, turn by turn.")
