"""How each part moves during a stroke: piecewise-linear tracks over travel.

Only this file turns events into motion. A track is a list of ``[travel, value]`` keys for one named part; between two
keys the value goes evenly, before the first and after the last it rests, and where two keys share a travel the later
one holds from there on. By the angle at which an event is complete, its motion is complete too.

Travel always grows: 360 for a turn in either direction, 90 for a shift, and so on; so it says where one is, which a
crank angle alone does not.
"""

from __future__ import annotations

from mechcalc import strokes as hand
from mechcalc.events import Event, Kind, Stroke
from mechcalc.layout import PINS, layout
from mechcalc.operations import perform
from mechcalc.parts import SOUND, Parts
from mechcalc.spec import MachineSpec
from mechcalc.state import State
from mechcalc.view.acting import acts_in, shown_motions

SIGN = {1: "+", -1: "-"}
STRIKE = 6.0  # degrees of crank for one blow of the bell's clapper
CATCH = 4.0  # degrees of crank in which pawl and setting lock drop in behind the handle
GO_BACK = ("wheel/", "counter/", "idler/", "lever/", "setting/", "carrypin/", "bell")  # what a crank moves by steps
RUN_ON = 0.3  # of a pin's pitch: where a wheel that runs on does so, right at the end of the step that drove it


class Tracks:
    """Tracks of every part of a machine, grown stroke by stroke.

    Parameters
    ----------
    spec, parts
        The machine.
    start : State
        Where it stands at travel 0.
    """

    def __init__(self, spec: MachineSpec, start: State, parts: Parts = SOUND) -> None:
        self.spec, self.parts = spec, parts
        self.travel = 0.0
        self.at = _values(spec, start, parts)
        self.keys: dict[str, list[list[float]]] = {name: [[0.0, value]] for name, value in self.at.items()}
        self._run_on: set[tuple[float, int | None]] = set()
        self._in_between(start, 0.0)

    def add(self, stroke: Stroke) -> None:
        """Append the motion of one stroke."""
        base = self.travel - stroke.begin
        length = stroke.end - stroke.begin
        if stroke.operation == "crank" and stroke.before.direction * stroke.argument < 0:
            self._let_go(min(length, self.spec.pin_pitch))
        MOVE_HAND[stroke.operation](self, stroke, abs(length))
        if stroke.operation == "pull" and length < 0:
            base, length = self.travel, -length
        self._look_at(stroke)
        for event in stroke.events:
            self._happen(event, base)
        for name, begin, end, by in shown_motions(acts_in(self.spec, self.parts, stroke)):
            self._step(name, base + begin, base + end, by)
        self.travel = round(self.travel + length, 6)
        self._in_between(stroke.after, self.travel)

    # Keys.

    def _move(self, name: str, begin: float, end: float, to: float) -> None:
        """Part `name` goes from where it is to `to` between two travels."""
        keys = self.keys[name]
        last = keys[-1]
        begin = max(begin, last[0])
        if begin > last[0]:
            keys.append([round(begin, 6), last[1]])
        keys.append([round(max(end, begin), 6), to])

    def _jump(self, name: str, at: float, to: float) -> None:
        self._move(name, at, at, to)

    def _step(self, name: str, begin: float, end: float, by: float) -> None:
        self.at[name] += by
        if end >= self.keys[name][-1][0]:  # what was over when the crank stopped before has been shown
            self._move(name, max(begin, self.travel), end, self.at[name])

    def _in_between(self, state: State, travel: float) -> None:
        """A crank that stands part way through a turn has moved some parts part of their way: show how far."""
        if not state.direction:
            return
        rest, = perform(self.spec, state, "crank", state.direction * (360 - state.angle), self.parts)
        self._look_at(rest)
        acts = acts_in(self.spec, self.parts, rest)
        for angle, motions in [*((event.angle, self._motions(event)) for event in rest.events),
                               *((act.angle, act.motions) for act in acts)]:
            so_far: dict[str, float] = {}
            for name, begin, end, by in motions:
                if begin < state.angle < angle:
                    share = min((state.angle - begin) / (end - begin), 1)
                    so_far[name] = so_far.get(name, self.at[name]) + by * share
                    self._move(name, travel + begin - state.angle, travel + min(end - state.angle, 0),
                               round(so_far[name], 6))

    def _look_at(self, stroke: Stroke) -> None:
        """Note which steps a wheel runs on from: it then does both within the time of the one."""
        self._run_on = {(event.angle, event.wheel) for event in stroke.events if event.kind is Kind.OVERTHROW}

    def _let_go(self, length: float) -> None:
        """The crank is turned back: what was part of its way goes back to where it came from."""
        for name, keys in self.keys.items():
            if name.startswith("carrypin/"):
                self.at[name] = 0.0
            if name.startswith(GO_BACK) and keys[-1][1] != self.at[name]:
                self._move(name, self.travel, self.travel + length, self.at[name])

    # What each event moves.

    def _motions(self, event: Event) -> list[tuple[str, float, float, float]]:
        """The parts that an event moves evenly: name, the angles from and to which, and how far."""
        begin, end, pitch = begun(event, self.spec), event.angle, self.spec.pin_pitch
        wheel, place = event.wheel, event.place
        pin = f"carrypin/{SIGN[event.helix or 1]}/{place}"
        lets_go = end - RUN_ON * pitch
        if event.kind in (Kind.NUMBER_STEP, Kind.CARRY_STEP):
            done = lets_go if (event.angle, wheel) in self._run_on else end
            back = [(pin, end - pitch / 6, end, -1)] if event.kind is Kind.CARRY_STEP else []
            own = [(f"wheel/{wheel}", begin, done, event.step)] if wheel else []
            return [(f"idler/{place}", begin, end, event.step), *own, *back]
        rows: dict[Kind, list[tuple[str, float, float, float]]] = {
            Kind.OVERTHROW: [(f"wheel/{wheel}", lets_go, end, event.step)],
            Kind.CLEARING_STEP: [(f"wheel/{place}", begin, end, event.step)],
            Kind.COUNTER_STEP: [(f"counter/{place}", begin, end, event.step)],
            Kind.COUNTER_CLEARING_STEP: [(f"counter/{place}", begin, end, event.step)],
            Kind.SETTING_STEP: [(f"setting/{place}", begin, end, event.step)],
            Kind.LEVER_OUT: [(f"lever/{wheel}", begin, end, 1)],
            Kind.LEVER_HOME: [(f"lever/{wheel}", end - pitch / 3, end, -1)],
            Kind.PIN_DEFLECTED: [(pin, begin, end, 1)],
            Kind.BELL: [("bell", begin, (begin + end) / 2, 1), ("bell", (begin + end) / 2, end, -1)],
        }
        return rows.get(event.kind, [])

    def _happen(self, event: Event, base: float) -> None:
        for name, begin, end, by in self._motions(event):
            self._step(name, base + begin, base + end, by)
        end = base + event.angle
        if event.kind is Kind.SETTING_STEP:
            self._pins(event, base + event.start, end)
        elif event.kind is Kind.BELL:
            self._jump("rang", end, 1)
        elif event.kind is Kind.DIRECTION_TAKEN:
            self._jump("direction", end, event.step)
        elif event.kind is Kind.DIRECTION_FREED:
            self._jump("direction", end, 0)

    def _pins(self, event: Event, begin: float, end: float) -> None:
        """The cam disc of a pinwheel pushes pins out, or lets them in, as its lever goes over."""
        out = self.parts.number_pins(event.place, event.digit or 0)
        for pin in range(1, PINS + 1):
            name, to = f"pin/{event.place}/{pin}", float(pin in out)
            if self.keys[name][-1][1] != to:
                self._move(name, begin, end, to)

    # What the hand moves in each stroke.

    def _crank(self, stroke: Stroke, length: float) -> None:
        begin, end = self.travel, self.travel + length
        sign = 1 if stroke.argument > 0 else -1
        if stroke.begin == 0:
            for name, to in (("pawl", 1), ("lock", 1), ("rang", 0)):
                self._move(name, begin, begin + min(CATCH, length), to)
        self._step("crank", begin, end, sign * length)
        if stroke.end == 360:
            for name in ("pawl", "lock"):
                self._move(name, end - min(CATCH, length), end, 0)

    def _shift(self, stroke: Stroke, length: float) -> None:
        third, begin = hand.SHIFT_MOVE / 3, self.travel
        self._move("lift", begin, begin + third, 1)
        self._move("carriage", begin + third, begin + 2 * third, stroke.after.carriage)
        self._move("lift", begin + 2 * third, begin + 3 * third, 0)

    def _ease(self, stroke: Stroke, length: float) -> None:
        third, begin = hand.SHIFT_MOVE / 3, self.travel
        self._move("lift", begin, begin + third, 1)
        self._move("carriage", begin + third, begin + length, stroke.before.carriage + stroke.argument / 2)

    def _seat(self, stroke: Stroke, length: float) -> None:
        third, begin = hand.SHIFT_MOVE / 3, self.travel
        self._move("carriage", begin, begin + length - third, stroke.after.carriage)
        self._move("lift", begin + length - third, begin + length, 0)

    def _clear(self, stroke: Stroke, length: float) -> None:
        self._lever_and_back(f"clearing/{stroke.operation.split()[1]}", self.travel)

    def _lever_and_back(self, name: str, begin: float) -> None:
        out = begin + hand.CLEARING_STROKE
        self._move(name, begin, out, 1)
        self._move(name, out, out + hand.CLEARING_STROKE, 0)

    def _pull(self, stroke: Stroke, length: float) -> None:
        register, to = stroke.argument
        self._move(f"clearing/{register}", self.travel, self.travel + length, to / hand.CLEARING_STROKE)

    def _comb(self, stroke: Stroke, length: float) -> None:
        begin, arc = self.travel, layout(self.spec).comb_arc
        there = begin + hand.COMB_MOVE
        self._move("comb", begin, there, 1)
        self._move("crank", there, there + arc, self.at["crank"] + arc)
        self._move("crank", there + arc, there + 2 * arc, self.at["crank"])
        self._move("comb", there + 2 * arc, begin + length, 0)

    def _transfer(self, stroke: Stroke, length: float) -> None:
        self._move("transfer", self.travel, self.travel + length, float(stroke.argument))

    def _back_transfer(self, stroke: Stroke, length: float) -> None:
        begin = self.travel
        self._move("transfer", begin, begin + hand.TRANSFER_MOVE, 1)
        self._lever_and_back("clearing/result", begin + hand.TRANSFER_MOVE)
        self._move("transfer", begin + length - hand.TRANSFER_MOVE, begin + length, 0)

    def _levers(self, stroke: Stroke, length: float) -> None:
        """Setting levers are moved by their own events."""


def begun(event: Event, spec: MachineSpec) -> float:
    """The angle at which pictures show an event beginning: a pin's slope meets its lever a little before the idler."""
    if event.kind is Kind.PIN_DEFLECTED:
        return event.start - spec.pin_pitch / 5
    return event.angle - STRIKE if event.kind is Kind.BELL else event.start


MOVE_HAND = {
    "crank": Tracks._crank, "shift": Tracks._shift, "ease": Tracks._ease, "seat": Tracks._seat,
    "clear result": Tracks._clear, "clear counter": Tracks._clear, "pull": Tracks._pull,
    "clear setting": Tracks._comb, "transfer lever": Tracks._transfer, "back transfer": Tracks._back_transfer,
    "set": Tracks._levers, "set lever": Tracks._levers,
}


def _values(spec: MachineSpec, state: State, parts: Parts) -> dict[str, float]:
    """Where every part stands in a state, steps under way not counted."""
    turning = float(state.direction != 0)
    values: dict[str, float] = {
        "crank": state.direction * state.angle, "pawl": turning, "lock": turning, "bell": 0.0,
        "rang": float(state.bell), "direction": state.counter_direction or 0,
        "carriage": state.carriage + state.easing / 2, "lift": float(state.easing != 0),
        "clearing/result": state.pulled_result / hand.CLEARING_STROKE,
        "clearing/counter": state.pulled_counter / hand.CLEARING_STROKE,
        "comb": 0.0, "transfer": float(state.transfer),
    }
    for place, digit in enumerate(state.setting, start=1):
        values[f"setting/{place}"] = digit
        out = parts.number_pins(place, digit)
        values |= {f"pin/{place}/{pin}": float(pin in out) for pin in range(1, PINS + 1)}
    for wheel, digit in enumerate(state.result, start=1):
        values[f"wheel/{wheel}"] = digit
        values[f"lever/{wheel}"] = float(state.levers[wheel - 1])
    values |= {f"counter/{wheel}": digit for wheel, digit in enumerate(state.counter, start=1)}
    values |= {f"idler/{place}": 0.0 for place in range(1, spec.carry_reach + 1)}
    for helix in (1, -1):
        values |= {f"carrypin/{SIGN[helix]}/{place}": float((helix, place) in state.deflected)
                   for place in range(2, spec.carry_reach + 1)}
    return values
