"""All strokes but the crank's: setting, shifting, clearing, back transfer.

Only this file decides what a clearing lever, the setting comb or the carriage does to the wheels. Every function
takes the spec, the parts and the state and returns the state after and the events; whether an interlock allows the
stroke was asked before (`interlocks`).

A clearing lever brings a stud round behind every wheel: a wheel at *d* is caught nine minus *d* steps from the
lever's home and taken back *d* steps, so that all wheels reach 0 together at the end (a modelling choice). The
setting comb does the same to the levers while the drum goes part way and comes back.
"""

from __future__ import annotations

from dataclasses import replace

from mechcalc.events import Event, Kind
from mechcalc.layout import PINS, layout
from mechcalc.numbers import to_digits
from mechcalc.parts import Parts
from mechcalc.spec import MachineSpec
from mechcalc.state import State

LEVER_MOVE = 30.0        # the travel that pictures give to one setting lever
SHIFT_MOVE = 90.0        # a shift: a third easing the carriage out, a third going over, a third seating it
CLEARING_STROKE = 90.0   # degrees of a clearing lever from its home to the end
TRANSFER_MOVE = 30.0     # the back-transfer lever, one way
COMB_MOVE = 20.0         # the setting comb, one way

Result = tuple[State, tuple[Event, ...]]


def set_levers(spec: MachineSpec, parts: Parts, state: State, levers: dict[int, int]) -> Result:
    """Move levers, one after another from the highest place down, as a hand does. `levers`: place to digit."""
    setting, events = list(state.setting), []
    angle = 0.0
    for place in sorted(levers, reverse=True):
        was, now = setting[place - 1], levers[place]
        if was == now:
            continue
        for step in range(abs(now - was)):
            begin = angle + LEVER_MOVE * step / abs(now - was)
            end = angle + LEVER_MOVE * (step + 1) / abs(now - was)
            sign = 1 if now > was else -1
            events.append(Event(angle=end, kind=Kind.SETTING_STEP, place=place, start=begin, step=sign,
                                digit=was + sign * (step + 1)))
        angle += LEVER_MOVE
        setting[place - 1] = now
    return replace(state, setting=tuple(setting)), tuple(events)


def set_number(spec: MachineSpec, parts: Parts, state: State, number: int) -> Result:
    """Bring every lever to its digit of `number`."""
    return set_levers(spec, parts, state, dict(enumerate(to_digits(number, spec.setting_places), start=1)))


def clear_setting(spec: MachineSpec, parts: Parts, state: State, _: None) -> Result:
    """Comb in, crank part way, back, comb out; pawl and setting lock are held off for it."""
    arc = layout(spec).comb_arc
    events = [Event(angle=COMB_MOVE, kind=Kind.COMB_IN)]
    for place, digit in enumerate(state.setting, start=1):
        events += _driven_home(place, digit, COMB_MOVE, arc, Kind.SETTING_STEP)
    events.append(Event(angle=2 * COMB_MOVE + 2 * arc, kind=Kind.COMB_OUT, start=COMB_MOVE + 2 * arc))
    return replace(state, setting=(0,) * spec.setting_places), _sorted(events)


def _driven_home(place: int, digit: int, begin: float, span: float, kind: Kind) -> list[Event]:
    """The steps of a wheel or lever at `digit` that is caught on the way and brought to 0 at the end of `span`."""
    share = span / PINS
    return [Event(angle=begin + share * (step + 1), kind=kind, place=place, start=begin + share * step, step=-1,
                  digit=PINS - 1 - step) for step in range(PINS - digit, PINS)]


def _sorted(events: list[Event]) -> tuple[Event, ...]:
    return tuple(sorted(events, key=lambda event: event.order))


def pull(spec: MachineSpec, parts: Parts, state: State, argument: tuple[str, float]) -> Result:
    """Bring the clearing lever of a register to an angle from its home; only the way out moves wheels."""
    register, to = argument
    if register == "result":
        after, events = _pull_result(spec, parts, state, to)
        return replace(after, pulled_result=to), events
    after, events = _pull_counter(state, to)
    return replace(after, pulled_counter=to), events


def _pull_counter(state: State, to: float) -> Result:
    """Counter wheels are taken back; right at the end the counter's direction is free again."""
    was, counter, events = state.pulled_counter, list(state.counter), []
    for wheel, digit in enumerate(state.counter, start=1):
        steps = [step for step in _driven_home(wheel, digit, 0.0, CLEARING_STROKE, Kind.COUNTER_CLEARING_STEP)
                 if was < step.angle <= to]
        counter[wheel - 1] -= len(steps)
        events += steps
    direction = state.counter_direction
    if was < CLEARING_STROKE <= to and direction is not None:
        direction = None
        events.append(Event(angle=CLEARING_STROKE, kind=Kind.DIRECTION_FREED, start=CLEARING_STROKE))
    return replace(state, counter=tuple(counter), counter_direction=direction), _sorted(events)


def _pull_result(spec: MachineSpec, parts: Parts, state: State, to: float) -> Result:
    """Number wheels are taken back; through the back-transfer gears, if they are in, pinwheels go forward."""
    was, result, setting, events = state.pulled_result, list(state.result), list(state.setting), []
    for wheel, digit in enumerate(state.result, start=1):
        if not parts.clears(wheel):
            continue
        for step in _driven_home(wheel, digit, 0.0, CLEARING_STROKE, Kind.CLEARING_STEP):
            if not was < step.angle <= to:
                continue
            result[wheel - 1] -= 1
            events.append(replace(step, wheel=wheel))
            place = wheel - state.carriage
            if state.transfer and 1 <= place <= spec.setting_places and parts.transfers(place):
                setting[place - 1] += 1
                events.append(Event(angle=step.angle, kind=Kind.SETTING_STEP, place=place, start=step.start, step=1,
                                    digit=setting[place - 1], wheel=wheel))
    return replace(state, result=tuple(result), setting=tuple(setting)), _sorted(events)


def clear(spec: MachineSpec, parts: Parts, state: State, register: str) -> Result:
    """Pull a clearing lever all the way and let it go home."""
    pulled, events = pull(spec, parts, state, (register, CLEARING_STROKE))
    after, _ = pull(spec, parts, pulled, (register, 0.0))
    home = Event(angle=2 * CLEARING_STROKE, kind=Kind.PULLED_HOME, start=CLEARING_STROKE)
    return after, (*events, home)


def back_transfer(spec: MachineSpec, parts: Parts, state: State, _: None) -> Result:
    """Lever down, clear the result, lever up: the digits go from the number wheels to the pinwheels."""
    engaged, down = transfer_lever(spec, parts, state, True)
    moved, events = clear(spec, parts, engaged, "result")
    after, up = transfer_lever(spec, parts, moved, False)
    middle = tuple(replace(event, angle=event.angle + TRANSFER_MOVE, start=event.start + TRANSFER_MOVE)
                   for event in events)
    last = TRANSFER_MOVE + 2 * CLEARING_STROKE
    ends = tuple(replace(event, angle=event.angle + last, start=event.start + last) for event in up)
    return after, (*down, *middle, *ends)


def transfer_lever(spec: MachineSpec, parts: Parts, state: State, down: bool) -> Result:
    """Engage or free the gears between number wheels and pinwheels."""
    kind = Kind.TRANSFER_DOWN if down else Kind.TRANSFER_UP
    return replace(state, transfer=down), (Event(angle=TRANSFER_MOVE, kind=kind),)


def shift(spec: MachineSpec, parts: Parts, state: State, by: int) -> Result:
    """One place: ease the carriage out, take it over, seat it."""
    eased, out = ease(spec, parts, state, by)
    after, seated = seat(spec, parts, eased, state.carriage + by)
    last = SHIFT_MOVE / 2
    return after, (*out, *(replace(event, angle=event.angle + last, start=event.start + last) for event in seated))


def ease(spec: MachineSpec, parts: Parts, state: State, by: int) -> Result:
    """Lift the carriage out of its seat and leave it between this position and the next in direction `by`."""
    event = Event(angle=SHIFT_MOVE / 2, kind=Kind.CARRIAGE_EASED, place=state.carriage, step=by)
    return replace(state, easing=by), (event,)


def seat(spec: MachineSpec, parts: Parts, state: State, to: int) -> Result:
    """Let the carriage down at position `to`."""
    event = Event(angle=SHIFT_MOVE / 2, kind=Kind.CARRIAGE_SEATED, place=to, step=to - state.carriage)
    return replace(state, easing=0, carriage=to), (event,)
