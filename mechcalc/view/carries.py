"""Where a carry is about to happen: a lever is out, and the carry pin of the next place comes to it.

Only this file decides where a picture that waits before each carry stops, and what it asks there. It reads strokes; the
travel of a stop is a little before the pin meets the lever, where pictures show it beginning to slide.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from mechcalc.events import Event, Kind, Stroke
from mechcalc.parts import Parts
from mechcalc.spec import MachineSpec
from mechcalc.view.acting import acts_in
from mechcalc.view.tracks import SIGN, begun

Stop = dict[str, Any]


def carries_of(spec: MachineSpec, parts: Parts, strokes: Sequence[Stroke], before: int = 0) -> list[Stop]:
    """Where to stop before the carries of strokes that follow one another.

    Parameters
    ----------
    before : int
        How many strokes came before the first of these; it numbers the stops.

    Returns
    -------
    list of dict
        In order of travel: ``id``; ``at``, the travel to stop at; ``to``, the travel at which the carry has been done
        (null where it is not); ``wheel``, the one it goes to (null where the bell rings instead); ``parts`` that are
        about to act; ``ask``, a question.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> m = Machine(load_spec("slate"))
    >>> _ = m.set(9); _ = m.turn(2)
    >>> stop, = carries_of(m.spec, m.parts, m.strokes)
    >>> stop["at"], stop["to"], stop["wheel"]
    (612.7, 623.5, 2)
    >>> print(stop["ask"])
    The carry lever of wheel 1 is out, and the additive carry pin of place 2 comes next. What will wheel 2 do?
    """
    stops: list[Stop] = []
    turns = [(stroke, base, before + number) for number, (stroke, base) in enumerate(_based(strokes))
             if stroke.operation == "crank"]
    for index, (stroke, base, number) in enumerate(turns):
        for event in stroke.events:
            if event.kind in (Kind.PIN_DEFLECTED, Kind.BELL):
                at = round(base + max(begun(event, spec), stroke.begin), 6)
                stops.append(_told(event, str(number), at, _done(event, turns[index:]), _lever(event, stroke, spec)))
        stops += [_told(event, str(number), round(base + max(begun(event, spec), stroke.begin), 6),
                        round(base + event.angle + spec.pin_pitch, 6), "is out")
                  for event in _missing(spec, parts, stroke)]
    return sorted(stops, key=lambda stop: float(stop["at"]))


def _missing(spec: MachineSpec, parts: Parts, stroke: Stroke) -> Iterator[Event]:
    """Where a lever is out and the pin that it would push is gone: nothing happens there, which is not told before."""
    for act in acts_in(spec, parts, stroke):
        if act.fault == "carry pin gone":
            _, sign, place = act.part.split("/")
            yield Event(angle=act.angle, kind=Kind.PIN_DEFLECTED, place=int(place), start=act.angle,
                        wheel=int(place) + stroke.before.carriage, helix=1 if sign == "+" else -1)


def _based(strokes: Sequence[Stroke]) -> Iterator[tuple[Stroke, float]]:
    """Each stroke with the travel at which its angle would be 0."""
    travel = 0.0
    for stroke in strokes:
        yield stroke, travel - stroke.begin
        travel = round(travel + abs(stroke.end - stroke.begin), 6)


def _done(stop: Event, turns: Sequence[tuple[Stroke, float, int]]) -> float | None:
    """The travel at which the step of a pin that is pushed over is complete: in this stroke, or when the crank goes
    on the same way."""
    way = turns[0][0].argument
    for stroke, base, _ in turns:
        if stroke.argument * way < 0:
            return None
        for event in stroke.events:
            if (event.kind, event.place, event.helix) == (Kind.CARRY_STEP, stop.place, stop.helix):
                return round(base + event.angle, 6)
        if not stroke.after.direction:
            return None
    return None


def _lever(stop: Event, stroke: Stroke, spec: MachineSpec) -> str:
    """How the lever stands that pushes the pin, or strikes the bell."""
    wheel = (stop.wheel or 0) - (stop.kind is Kind.PIN_DEFLECTED)
    angle = max(begun(stop, spec), stroke.begin)
    still = any(event.kind is Kind.LEVER_OUT and event.angle > angle and event.wheel == wheel
                for event in stroke.events)
    return "is going out" if still else "is out"


def _told(stop: Event, number: str, at: float, end: float | None, lever: str) -> Stop:
    if stop.kind is Kind.BELL:
        return {"id": f"{number}/bell", "at": at, "to": None, "wheel": None, "parts": [f"lever/{stop.wheel}"],
                "ask": f"The carry lever of wheel {stop.wheel} {lever}, and no carry pin is beside it. What will "
                       f"happen?"}
    way, wheel = SIGN[stop.helix or 1], stop.wheel or 0
    name = {"+": "additive", "-": "subtractive"}[way]
    return {"id": f"{number}/{way}/{stop.place}", "at": at, "to": end, "wheel": wheel,
            "parts": [f"lever/{wheel - 1}", f"carrypin/{way}/{stop.place}"],
            "ask": f"The carry lever of wheel {wheel - 1} {lever}, and the {name} carry pin of place {stop.place} "
                   f"comes next. What will wheel {wheel} do?"}
