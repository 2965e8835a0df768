"""Where a faulty part acts, or does nothing where a sound one would have acted.

Only this file finds those instants. Most of them leave no event behind, for a pin that is gone does nothing; they
follow from what the stroke did, the drum's timetable, and what the parts answer (`mechcalc.parts`). Faults are known by
the name and the part that they give themselves; nothing here looks into one.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from mechcalc import strokes as hand
from mechcalc.events import Event, Kind, Stroke
from mechcalc.layout import PINS, Passing, exact, layout
from mechcalc.parts import Parts
from mechcalc.spec import MachineSpec
from mechcalc.turning import FULL_TURN, counter_passing

HELIX = {1: ("+", "additive"), -1: ("-", "subtractive")}
MOVED = (Kind.NUMBER_STEP, Kind.CARRY_STEP, Kind.OVERTHROW)
GIVES = 0.6   # of a lever's way out that one which will not stay out goes before it falls back (choice of the picture)
BACK = 4.0    # degrees in which a crank that is turned back is seen to be

# A movement that no event tells: the part, from where to where, how far.
Motion = tuple[str, float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """One instant at which a fault shows.

    Attributes
    ----------
    fault : str
        The name of the fault.
    part : str
        The part that it is at, as pictures name it.
    angle, start : float
        Degrees of the stroke's own reckoning at which it is complete, and at which it begins.
    parts : tuple of str
        Other parts to look at.
    words : str
        A sentence without digits of a register; empty where the event's own words say it.
    motions : tuple
        What is seen to move that no event tells.
    """

    fault: str
    part: str
    angle: float
    start: float
    parts: tuple[str, ...] = ()
    words: str = ""
    motions: tuple[Motion, ...] = ()


def acts_in(spec: MachineSpec, parts: Parts, stroke: Stroke) -> tuple[Act, ...]:
    """The acts of a stroke, in order of angle; none on a sound machine.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> from mechcalc.bench import CarryPinGone, Machine
    >>> m = Machine(load_spec("slate"), faults=[CarryPinGone(place=2, direction=1)])
    >>> _ = m.set(9); _ = m.turn()
    >>> act, = acts_in(m.spec, m.parts, m.turn())
    >>> act.angle, act.words
    (224.5, 'The carry lever of wheel 1 is out, but the carry pin of place 2 is gone: the carry is lost.')
    """
    if not parts.faults:
        return ()
    found = _Crank(spec, parts, stroke).acts() if stroke.operation == "crank" else _other(spec, parts, stroke)
    return tuple(sorted(found, key=lambda act: (act.angle, act.part)))


class _Crank:
    """What is asked of the parts in one movement of the crank, and where they answer as a sound machine's would not."""

    def __init__(self, spec: MachineSpec, parts: Parts, stroke: Stroke) -> None:
        self.spec, self.parts, self.stroke = spec, parts, stroke
        self.direction = 1 if stroke.argument > 0 else -1
        self.drum = layout(spec)
        self.before, self.carriage = stroke.before, stroke.before.carriage
        self.reach = spec.wheels_in_reach(self.carriage)
        back = self.before.direction == -self.direction
        self.since = stroke.begin if back else self.before.turned_back  # what was half past by then does nothing

    def acts(self) -> Iterator[Act]:
        yield from self._number_pins()
        yield from self._carry_pins()
        yield from self._levers()
        yield from self._cams()
        yield from self._wheels()
        yield from self._counter()
        yield from self._ends()

    def _within(self, angle: float) -> bool:
        return self.stroke.begin < angle <= self.stroke.end

    def _events(self, *kinds: Kind) -> Iterator[Event]:
        return (event for event in self.stroke.events if event.kind in kinds)

    def _number_pins(self) -> Iterator[Act]:
        for place, digit in enumerate(self.before.setting, start=1):
            out, sound = self.parts.number_pins(place, digit), range(1, digit + 1)
            for pin in range(1, PINS + 1):
                passing = self.drum.pin_passing(pin, self.direction)
                if (pin in out) is (pin in sound) or not self._within(passing.end):
                    continue
                if passing.contact < self.since:
                    continue
                wheel = place + self.carriage
                what = f"wheel {wheel}" if wheel <= self.spec.result_places else f"the idler of place {place}"
                fault, why = (("number pin stuck out", "is stuck out: a step that was not set") if pin in out else
                              ("number pin gone", f"is gone: {what} misses a step"))
                yield Act(fault=fault, part=f"pin/{place}/{pin}", angle=passing.end, start=passing.contact,
                          words=f"Pin {pin} of pinwheel {place} {why}.")

    def _both(self) -> Iterator[tuple[int, int, Passing]]:
        """All carry pins that pass: helix, place, passing."""
        for helix, passings in ((-self.direction, self.drum.leading), (self.direction, self.drum.following)):
            for place, passing in enumerate(passings, start=2):
                yield helix, place, passing

    def _out(self, wheel: int, angle: float) -> bool:
        """Whether the lever of a wheel is out when the drum comes to an angle, a cam at that very angle not counted."""
        out = self.before.levers[wheel - 1]
        for event in self._events(Kind.LEVER_OUT, Kind.LEVER_HOME):
            goes_out = event.kind is Kind.LEVER_OUT
            if event.wheel == wheel and (event.angle < angle or (event.angle == angle and goes_out)):
                out = goes_out
        return out

    def _carry_pins(self) -> Iterator[Act]:
        for helix, place, passing in self._both():
            wheel = place - 1 + self.carriage
            if wheel >= self.reach or self.parts.carry_pin(place, helix) or not self._within(passing.contact):
                continue
            if self._out(wheel, passing.contact):
                yield Act(fault="carry pin gone", part=f"carrypin/{HELIX[helix][0]}/{place}", angle=passing.contact,
                          start=passing.contact - self.spec.pin_pitch / 5, parts=(f"lever/{wheel}",),
                          words=f"The carry lever of wheel {wheel} is out, but the carry pin of place {place} is gone: "
                                f"the carry is lost.")

    def _levers(self) -> Iterator[Act]:
        """Levers that are pushed and fall back, and levers that come out late."""
        out = {event.wheel for event in self._events(Kind.LEVER_OUT)}
        for wheel, start, angle in self._thrown():
            if not self.parts.lever_catches(wheel) and wheel not in out and self._within(angle):
                top, name = start + GIVES * (angle - start), f"lever/{wheel}"
                lost = "the bell does not ring" if wheel == self.reach else "the carry is lost"
                yield Act(fault="carry lever will not stay out", part=name, angle=angle, start=start,
                          words=f"Wheel {wheel} passed between 9 and 0, but its carry lever falls back: {lost}.",
                          motions=((name, start, top, GIVES), (name, top, angle, -GIVES)))
        for event in self._events(Kind.LEVER_OUT):
            lag = self.parts.lever_lag(event.wheel or 0)
            if lag:
                yield Act(fault="carry timing late", part="lever/1", angle=event.angle, start=event.start,
                          parts=(f"lever/{event.wheel}",),
                          words=f"The lever comes out {lag:g}° late{self._passed_by(event)}.")

    def _passed_by(self, event: Event) -> str:
        """What a lever that comes out now has missed."""
        place = (event.wheel or 0) + 1 - self.carriage
        there = 2 <= place <= self.spec.carry_reach and (event.wheel or 0) < self.reach
        if there and self.drum.following[place - 2].contact < event.angle:
            return f": the carry pin of place {place} has passed, and the carry is lost"
        return ""

    def _thrown(self) -> Iterator[tuple[int, float, float]]:
        """The levers that are pushed: wheel, where that begins, where a lever would be fully out."""
        for item in self.before.under_way:
            if item.what == "throw" and self.stroke.argument * self.before.direction > 0:
                yield item.place, item.start, item.angle
        last = {1: 0, -1: 9}[self.direction]
        for event in self._events(*MOVED):
            if event.step and event.digit == last and event.wheel and not self._out(event.wheel, event.angle):
                angle = exact(event.angle) + exact(self.spec.lever_throw) + exact(self.parts.lever_lag(event.wheel))
                yield event.wheel, event.angle, float(min(angle, exact(FULL_TURN)))

    def _cams(self) -> Iterator[Act]:
        passings = [(place - 1 + self.carriage, passing.end) for _, place, passing in self._both()
                    if place - 1 + self.carriage < self.reach]
        for wheel, angle in [*passings, (self.reach, FULL_TURN)]:
            if self._within(angle) and not self.parts.lever_is_homed(wheel) and self._out(wheel, angle):
                yield Act(fault="carry lever not pushed home", part=f"lever/{wheel}", angle=angle,
                          start=angle - self.spec.pin_pitch / 3,
                          words=f"The homing cam does not push the carry lever of wheel {wheel} home: it stays out.")

    def _wheels(self) -> Iterator[Act]:
        """Idlers with a gap and wheels that run on: the events tell it themselves."""
        for event in self._events(*MOVED):
            if event.kind is Kind.OVERTHROW:
                yield Act(fault="number wheel overthrows", part=f"wheel/{event.wheel}", angle=event.angle,
                          start=event.start)
            elif event.wheel and not event.step:
                yield Act(fault="idler tooth lost", part=f"idler/{event.place}", angle=event.angle, start=event.start)

    def _counter(self) -> Iterator[Act]:
        wheels = len(self.before.counter)
        missed = [(self.carriage + 1, *counter_passing(self.drum, wheels, 1))]
        for event in self._events(Kind.COUNTER_STEP):
            if event.digit == (0 if event.step > 0 else 9) and self.spec.counter_carry and event.place < wheels:
                missed.append((event.place + 1, *counter_passing(self.drum, wheels, event.place + 1 - self.carriage)))
        for item in self.before.under_way:
            if item.what == "counter" and self.stroke.argument * self.before.direction > 0:
                missed.append((item.place, item.angle, item.start))
        for wheel, angle, start in missed:
            if self._within(angle) and start >= self.since and not self.parts.counter_finger(wheel):
                yield Act(fault="counter finger gone", part=f"counter/{wheel}", angle=angle, start=start,
                          words=f"The finger of counter wheel {wheel} is gone: the wheel stays.")
        for event in self._events(Kind.DIRECTION_TAKEN):
            if event.step != self.direction:
                yield Act(fault="counter direction stuck", part="direction", angle=event.angle, start=event.start,
                          words=f"The turn was {HELIX[self.direction][1]}: the counter's direction is stuck.")

    def _ends(self) -> Iterator[Act]:
        for event in self._events(Kind.SETTING_STEP):
            yield Act(fault="setting lever creeps", part=f"setting/{event.place}", angle=event.angle,
                      start=event.start, words=f"Nobody moved setting lever {event.place}: it creeps.")
        if self.before.direction == -self.direction:
            begin = self.stroke.begin
            yield Act(fault="full-stroke ratchet worn", part="pawl", angle=min(begin + BACK, self.stroke.end),
                      start=begin, words="The crank goes back: the worn ratchet does not hold it.")


def _other(spec: MachineSpec, parts: Parts, stroke: Stroke) -> Iterator[Act]:
    """Levers that a worn lock lets move; wheels that are not cleared, gears that do not mesh."""
    if stroke.operation in ("set", "set lever") and stroke.before.direction:
        for event in stroke.events[:1]:
            yield Act(fault="setting lock worn", part="lock", angle=event.angle, start=event.start,
                      parts=(f"setting/{event.place}",),
                      words="The worn lock lets a setting lever move while the crank is out of rest.")
    yield from _clearing(spec, parts, stroke)


def _clearing(spec: MachineSpec, parts: Parts, stroke: Stroke) -> Iterator[Act]:
    """Wheels that are not taken along and gears that do not mesh, at the first step that they miss."""
    offset = {"clear result": 0.0, "pull": 0.0, "back transfer": hand.TRANSFER_MOVE}.get(stroke.operation)
    if offset is None or (stroke.operation == "pull" and stroke.argument[0] != "result"):
        return
    was, to = stroke.before.pulled_result, stroke.argument[1] if stroke.operation == "pull" else hand.CLEARING_STROKE
    transfer = stroke.operation == "back transfer" or stroke.before.transfer
    share = hand.CLEARING_STROKE / PINS
    for wheel, digit in enumerate(stroke.before.result, start=1):
        place = wheel - stroke.before.carriage
        missed = [share * (step + 1) for step in range(PINS - digit, PINS) if was < share * (step + 1) <= to]
        if not missed:
            continue
        angle = offset + missed[0]
        if not parts.clears(wheel):
            yield Act(fault="clearing tooth gone", part=f"wheel/{wheel}", angle=angle,
                      start=angle - share,
                      words=f"Wheel {wheel} has lost its clearing tooth: it is not taken along.")
        elif transfer and 1 <= place <= spec.setting_places and not parts.transfers(place):
            yield Act(fault="back-transfer gear out", part=f"setting/{place}", angle=angle,
                      start=angle - share,
                      words=f"The back-transfer gear of place {place} does not mesh: its pinwheel stays.")


def shown_motions(acts: Sequence[Act]) -> list[Motion]:
    """What is seen to move that no event tells."""
    return [motion for act in acts for motion in act.motions]
