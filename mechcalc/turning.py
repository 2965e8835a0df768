"""The crank: what happens between two angles of one turn.

Only this file decides when a number pin drives its wheel, when a carry lever goes out, which carry pins it
deflects and when it goes home. It works by crank angle alone: the drum's timetable is walked in order, what an
event sets going is put on the agenda at the angle at which it will be complete, and whatever lies beyond the
angle where the crank stops stays under way in the state. No sum is computed anywhere.
"""

from __future__ import annotations

import heapq
from bisect import bisect_right
from dataclasses import replace
from functools import lru_cache
from typing import ClassVar

from mechcalc.events import TIE_ORDER, Event, Kind
from mechcalc.layout import PINS, Layout, Passing, exact, layout
from mechcalc.parts import Parts
from mechcalc.spec import MachineSpec
from mechcalc.state import State, UnderWay

FULL_TURN = 360.0

# An entry of the timetable: (angle, tie rank, place, what, side, start).
Entry = tuple[float, int, int, str, int, float]

RANK = {
    "pin": TIE_ORDER[Kind.NUMBER_STEP],
    "carry": TIE_ORDER[Kind.CARRY_STEP],
    "throw": TIE_ORDER[Kind.LEVER_OUT],
    "meets lever": TIE_ORDER[Kind.PIN_DEFLECTED],
    "cam": TIE_ORDER[Kind.LEVER_HOME],
    "counter": TIE_ORDER[Kind.COUNTER_STEP],
    "end cam": TIE_ORDER[Kind.BELL],
    "last home": TIE_ORDER[Kind.LEVER_HOME],
    "creep": TIE_ORDER[Kind.SETTING_STEP],
}


@lru_cache(maxsize=128)
def timetable(spec: MachineSpec, direction: int) -> tuple[Entry, ...]:
    """Everything that the drum brings past in one turn in `direction`, in order, whether or not it will act."""
    drum = layout(spec)
    entries: list[Entry] = []
    for place in range(1, spec.setting_places + 1):
        for pin in range(1, PINS + 1):
            passing = drum.pin_passing(pin, direction)
            entries.append((passing.end, RANK["pin"], place, "pin", pin, passing.contact))
    for helix, passings in ((direction, drum.following), (-direction, drum.leading)):
        for place, passing in enumerate(passings, start=2):
            entries.append((passing.contact, RANK["meets lever"], place, "meets lever", helix, passing.contact))
            entries.append((passing.end, RANK["cam"], place, "cam", helix, passing.contact))
    first, begun = counter_passing(drum, spec.counter_places, 1)
    entries.append((first, RANK["counter"], 0, "counter", 0, begun))
    entries.append((FULL_TURN, RANK["end cam"], 0, "end cam", 0, FULL_TURN))
    return tuple(sorted(entries))


def counter_passing(drum: Layout, wheels: int, finger: int) -> tuple[float, float]:
    """The end and the start of a counter finger's step: the fingers share what is left of the turn evenly."""
    share = (FULL_TURN - drum.close) / wheels
    return min(drum.close + share * finger, FULL_TURN), drum.close + share * (finger - 1)


def crank(spec: MachineSpec, parts: Parts, state: State, to: float, direction: int) -> tuple[State, tuple[Event, ...]]:
    """Bring the crank from where it stands to the angle `to` of a turn in `direction`.

    Parameters
    ----------
    to : float
        Degrees from rest in `direction`, more than the state's angle and at most 360.
    direction : int
        1 additive, -1 subtractive; that of the turn under way, if there is one (see `turned_back`).

    Returns
    -------
    State, tuple of Event
        Everything between the two angles has happened, nothing after.
    """
    return _Turn(spec, parts, state, direction).run(to)


def turned_back(state: State) -> State:
    """The same instant of a turn under way, seen as part of a turn in the other direction.

    The drum is symmetrical, so to go back from 100 degrees of an additive turn is to go on from 260 of a subtractive
    one: pins that had done their step undo it. What was only half done (a pin half past its idler, a lever half
    thrown, a counter finger not yet come) goes back to where it was, and does nothing more in this direction. Only a
    worn ratchet lets the crank do this. (Modelling choices, all of them; a finger of the counter acts in one
    direction and slips in the other, so the one that ends a subtractive turn counts when the crank comes back to
    rest.)
    """
    angle = FULL_TURN - state.angle
    return replace(state, angle=angle, direction=-state.direction, under_way=(), turned_back=angle)


class _Turn:
    """The moving parts while the crank moves; thrown away when it stops."""

    def __init__(self, spec: MachineSpec, parts: Parts, state: State, direction: int) -> None:
        self.spec, self.parts, self.before, self.direction = spec, parts, state, direction
        self.drum = layout(spec)
        self.carriage = state.carriage
        self.reach = spec.wheels_in_reach(state.carriage)
        self.result, self.counter, self.levers = list(state.result), list(state.counter), list(state.levers)
        self.setting = list(state.setting)
        self.counter_direction = state.counter_direction
        self.bell = False  # it rings at the end of a turn, so a turn under way has not rung it
        self.out = [frozenset(parts.number_pins(place, digit)) for place, digit in enumerate(state.setting, start=1)]
        self.agenda: list[Entry] = [self._entry(item) for item in state.under_way]
        heapq.heapify(self.agenda)
        self.events: list[Event] = []

    @staticmethod
    def _entry(item: UnderWay) -> Entry:
        return (item.angle, RANK[item.what], item.place, item.what, item.side, item.start)

    def run(self, to: float) -> tuple[State, tuple[Event, ...]]:
        table = timetable(self.spec, self.direction)
        at_rest = self.before.direction == 0
        index = 0 if at_rest else bisect_right(table, self.before.angle, key=lambda entry: entry[0])
        while True:
            entry = table[index] if index < len(table) else None
            if self.agenda and (entry is None or self.agenda[0] < entry):
                if self.agenda[0][0] > to:
                    break
                entry = heapq.heappop(self.agenda)
            else:
                if entry is None or entry[0] > to:
                    break
                index += 1
            self.ACT[entry[3]](self, entry)
        return self._stopped(to), tuple(self.events)

    def _stopped(self, to: float) -> State:
        done = to >= FULL_TURN
        under_way = tuple(UnderWay(angle, what, place, side, start)
                          for angle, _, place, what, side, start in sorted(self.agenda))
        return State(
            setting=tuple(self.setting), result=tuple(self.result), counter=tuple(self.counter),
            levers=tuple(self.levers), carriage=self.carriage, easing=self.before.easing,
            angle=0.0 if done else to, direction=0 if done else self.direction,
            counter_direction=self.counter_direction, bell=self.bell, under_way=under_way,
            pulled_result=self.before.pulled_result, pulled_counter=self.before.pulled_counter,
            transfer=self.before.transfer, turned_back=0.0 if done else self.before.turned_back)

    def _later(self, angle: float, what: str, place: int, side: int, start: float) -> None:
        heapq.heappush(self.agenda, (angle, RANK[what], place, what, side, start))

    # What each entry of the timetable does when its angle comes.

    def _number_pin(self, entry: Entry) -> None:
        angle, _, place, _, pin, contact = entry
        if pin in self.out[place - 1] and contact >= self.before.turned_back:
            thrown = self.drum.pin_passing(pin, self.direction).thrown
            lets_go = pin + self.direction not in self.out[place - 1]
            self._step(Kind.NUMBER_STEP, angle, contact, place, thrown, lets_go, pin=pin)

    def _carry_pin_meets_lever(self, entry: Entry) -> None:
        """A lever that is out pushes the passing pin sideways, into the next place's idler."""
        angle, _, place, _, helix, _ = entry
        wheel = place - 1 + self.carriage
        if wheel >= self.reach or not self.levers[wheel - 1] or not self.parts.carry_pin(place, helix):
            return
        self.events.append(Event(angle=angle, kind=Kind.PIN_DEFLECTED, place=place, start=angle,
                                 wheel=wheel + 1, helix=helix))
        self._later(self._carry_passing(place, helix).end, "carry", place, helix, angle)

    def _carry_passing(self, place: int, helix: int) -> Passing:
        return (self.drum.following if helix == self.direction else self.drum.leading)[place - 2]

    def _carry_step(self, entry: Entry) -> None:
        angle, _, place, _, helix, start = entry
        self._step(Kind.CARRY_STEP, angle, start, place, self._carry_passing(place, helix).thrown, True,
                   helix=helix)

    def _step(self, kind: Kind, angle: float, start: float, place: int, thrown: float, lets_go: bool,
              pin: int | None = None, helix: int | None = None) -> None:
        """The idler of `place` moves the wheel opposite, if there is one; `lets_go`: no other pin is right behind."""
        wheel = place + self.carriage
        if wheel > len(self.result):
            self.events.append(Event(angle=angle, kind=kind, place=place, start=start, step=self.direction, pin=pin,
                                     helix=helix))
            return
        drives = self.parts.idler_drives(place, self.result[wheel - 1], self.direction)
        if drives:
            self._move(wheel, angle, thrown)
        self.events.append(Event(angle=angle, kind=kind, place=place, start=start, wheel=wheel,
                                 step=self.direction if drives else 0, digit=self.result[wheel - 1], pin=pin,
                                 helix=helix))
        if drives and lets_go and self.parts.overthrows(wheel):
            self._move(wheel, angle, thrown)
            self.events.append(Event(angle=angle, kind=Kind.OVERTHROW, place=place, start=start, wheel=wheel,
                                     step=self.direction, digit=self.result[wheel - 1]))

    def _move(self, wheel: int, angle: float, thrown: float) -> None:
        """One step of a number wheel; past 9 to 0 (or back past 0 to 9) its lug starts to push the lever."""
        was = self.result[wheel - 1]
        self.result[wheel - 1] = now = (was + self.direction) % 10
        passed = (was, now) == ((9, 0) if self.direction > 0 else (0, 9))
        if passed and not self.levers[wheel - 1]:
            lag = self.parts.lever_lag(wheel)
            late = float(min(exact(thrown) + exact(lag), exact(FULL_TURN))) if lag else thrown
            self._later(late, "throw", wheel, 0, angle)

    def _lever_out(self, entry: Entry) -> None:
        angle, _, wheel, _, _, start = entry
        if not self.levers[wheel - 1] and self.parts.lever_catches(wheel):
            self.levers[wheel - 1] = True
            self.events.append(Event(angle=angle, kind=Kind.LEVER_OUT, place=wheel - self.carriage, start=start,
                                     wheel=wheel))

    def _cam(self, entry: Entry) -> None:
        angle, _, place, _, helix, start = entry
        wheel = place - 1 + self.carriage
        if wheel < self.reach:
            self._home(wheel, angle, start, helix)

    def _home(self, wheel: int, angle: float, start: float, helix: int | None = None) -> None:
        if self.levers[wheel - 1] and self.parts.lever_is_homed(wheel):
            self.levers[wheel - 1] = False
            self.events.append(Event(angle=angle, kind=Kind.LEVER_HOME, place=wheel - self.carriage,
                                     start=min(start, angle), wheel=wheel, helix=helix))

    def _end_cam(self, entry: Entry) -> None:
        """As the drum comes to rest: the highest lever under it, if it is out, strikes the bell and is homed."""
        angle = entry[0]
        if self.levers[self.reach - 1]:
            self.bell = True
            self.events.append(Event(angle=angle, kind=Kind.BELL, place=self.reach - self.carriage, start=angle,
                                     wheel=self.reach))
        self._later(angle, "last home", self.reach - self.carriage + 1, 0, angle)
        for place, digit in enumerate(self.setting, start=1):
            if digit and self.parts.creeps(place):
                self._later(angle, "creep", place, 0, self.drum.close)

    def _last_home(self, entry: Entry) -> None:
        """Its homing has no carry pin beside it, and comes after that of the place below."""
        self._home(self.reach, entry[0], entry[5])

    def _creep(self, entry: Entry) -> None:
        """A lever whose notch no longer holds it slips back by one digit as the drum comes to rest."""
        angle, _, place, _, _, start = entry
        self.setting[place - 1] -= 1
        self.events.append(Event(angle=angle, kind=Kind.SETTING_STEP, place=place, start=start, step=-1,
                                 digit=self.setting[place - 1]))

    def _counter(self, entry: Entry) -> None:
        """The counter takes its direction from the first turn, and steps; then its fingers carry in turn."""
        angle, _, wheel, _, step, start = entry
        if wheel == 0:
            if start < self.before.turned_back:
                return
            wheel = self.carriage + 1
            if self.counter_direction is None:
                self.counter_direction = taken = self.parts.counter_takes(self.direction)
                self.events.append(Event(angle=angle, kind=Kind.DIRECTION_TAKEN, start=start, step=taken))
            step = self.direction * self.counter_direction
        if not self.parts.counter_finger(wheel):
            return
        was = self.counter[wheel - 1]
        self.counter[wheel - 1] = now = (was + step) % 10
        self.events.append(Event(angle=angle, kind=Kind.COUNTER_STEP, place=wheel, start=start, step=step, digit=now))
        passed = (was, now) == ((9, 0) if step > 0 else (0, 9))
        if passed and self.spec.counter_carry and wheel < len(self.counter):
            end, begun = counter_passing(self.drum, len(self.counter), wheel + 1 - self.carriage)
            self._later(end, "counter", wheel + 1, step, begun)

    ACT: ClassVar = {"pin": _number_pin, "meets lever": _carry_pin_meets_lever, "carry": _carry_step,
                     "throw": _lever_out, "cam": _cam, "counter": _counter, "end cam": _end_cam,
                     "last home": _last_home, "creep": _creep}
