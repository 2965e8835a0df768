"""Strokes as a timeline that any picture can be drawn from: plain data, ready for JSON.

Only this file decides what a picture is told. The browser gets it once and draws from it alone; no rule of the
mechanism is written a second time on the other side. The fields are described in DEVELOPERS.md ("The timeline").
"""

from __future__ import annotations

import dataclasses
import hashlib
import json
from collections.abc import Sequence
from itertools import groupby
from typing import Any, Protocol

from mechcalc.errors import Locked
from mechcalc.events import Event, Kind, Stroke
from mechcalc.layout import layout
from mechcalc.machine import Machine
from mechcalc.parts import SOUND, Parts
from mechcalc.spec import MachineSpec
from mechcalc.state import State
from mechcalc.view.carries import carries_of
from mechcalc.view.tracks import SIGN, Tracks, begun
from mechcalc.words import covered_sentence, describe, hand_only, sentence

FORMAT = 1
Timeline = dict[str, Any]


class Said(Protocol):
    """A line of a working."""

    @property
    def words(self) -> str: ...
    @property
    def algebra(self) -> str: ...


def timeline(spec: MachineSpec, start: State, strokes: Sequence[Stroke], lines: Sequence[Said] = (),
             title: str = "", parts: Parts = SOUND, *, covered: bool = False) -> Timeline:
    """The timeline of strokes that follow one another from `start`.

    Parameters
    ----------
    lines : sequence, optional
        One for each stroke, with ``words`` and ``algebra``; without them the strokes are described plainly.
    title : str
        For the picture's heading.
    parts : Parts
        What the machine's parts do.
    covered : bool
        Whether moments and strokes also say what may be said while the windows are covered.

    Returns
    -------
    dict
        ``format, title, machine, length, tracks, moments, strokes``; travel in degrees, see `tracks`.
    """
    tracks = Tracks(spec, start, parts)
    told, moments = [], []
    for index, stroke in enumerate(strokes):
        begin = tracks.travel
        tracks.add(stroke)
        line = lines[index] if index < len(lines) else None
        told.append({
            "from": begin, "to": tracks.travel, "operation": stroke.operation,
            "words": line.words if line else describe(stroke), "algebra": line.algebra if line else "",
            "reading": dataclasses.asdict(stroke.reading)})
        if covered:
            told[-1]["covered"] = hand_only(stroke)
        moments += _moments(spec, stroke, begin, index, covered)
    return {"format": FORMAT, "title": title, "machine": machine_data(spec), "length": tracks.travel,
            "start": dataclasses.asdict(start.reading), "tracks": tracks.keys, "moments": moments, "strokes": told}


def _moments(spec: MachineSpec, stroke: Stroke, begin: float, index: int, covered: bool) -> list[dict[str, Any]]:
    """Events that are complete at the same angle, as one moment worth stopping at."""
    moments: list[dict[str, Any]] = []
    for angle, group in groupby(stroke.events, key=lambda event: event.angle):
        events = list(group)
        first = min(begun(event, spec) for event in events)
        moments.append({
            "at": round(begin + angle - stroke.begin, 6),
            "from": round(begin + max(first, stroke.begin) - stroke.begin, 6), "stroke": index,
            "kinds": sorted({event.kind.value for event in events}),
            "words": sentence(events), "parts": sorted({name for event in events for name in parts_of(event)})})
        if covered:
            moments[-1]["covered"] = covered_sentence(events)
    return moments


def parts_of(event: Event) -> list[str]:
    """The names of the parts in action, as the tracks name them."""
    place, wheel = event.place, event.wheel
    helix = f"carrypin/{SIGN[event.helix]}/{place}" if event.helix else ""
    row = {
        Kind.NUMBER_STEP: [f"pin/{place}/{event.pin}", f"idler/{place}", f"wheel/{wheel}" if wheel else ""],
        Kind.OVERTHROW: [f"wheel/{wheel}"],
        Kind.CARRY_STEP: [helix, f"idler/{place}", f"wheel/{wheel}" if wheel else ""],
        Kind.LEVER_OUT: [f"wheel/{wheel}", f"lever/{wheel}"],
        Kind.PIN_DEFLECTED: [helix, f"lever/{(wheel or 1) - 1}"],
        Kind.LEVER_HOME: [f"lever/{wheel}"],
        Kind.BELL: ["bell", f"lever/{wheel}"],
        Kind.DIRECTION_TAKEN: ["direction"], Kind.DIRECTION_FREED: ["direction"],
        Kind.COUNTER_STEP: [f"counter/{place}"],
        Kind.COUNTER_CLEARING_STEP: [f"counter/{place}", "clearing/counter"],
        Kind.CLEARING_STEP: [f"wheel/{place}", "clearing/result"],
        Kind.SETTING_STEP: [f"setting/{place}"],
        Kind.COMB_IN: ["comb"], Kind.COMB_OUT: ["comb"],
        Kind.TRANSFER_DOWN: ["transfer"], Kind.TRANSFER_UP: ["transfer"],
        Kind.CARRIAGE_EASED: ["carriage"], Kind.CARRIAGE_SEATED: ["carriage"],
    }
    return [name for name in row.get(event.kind, []) if name]


def machine_data(spec: MachineSpec) -> dict[str, Any]:
    """What a picture needs to know of a machine, drum angles included."""
    drum = layout(spec)
    helices = {"+": drum.following, "-": drum.leading}
    return {
        "name": spec.name, "settingPlaces": spec.setting_places, "resultPlaces": spec.result_places,
        "counterPlaces": spec.counter_places, "carryReach": spec.carry_reach, "positions": spec.positions,
        "counterCarry": spec.counter_carry, "checkRegister": spec.check_register,
        "backTransfer": spec.back_transfer, "pitch": spec.pin_pitch, "rest": spec.rest_arc,
        "numberPins": [passing.contact for passing in drum.number_pins],
        "carryPins": {sign: [[place, passing.contact] for place, passing in enumerate(passings, start=2)]
                      for sign, passings in helices.items()},
    }


def ahead(machine: Machine, *, covered: bool = False) -> dict[str, Any]:
    """What a turn either way would do from here, for a hand that drags the crank: a timeline and where carries are
    about to happen in it, or who refuses."""
    told: dict[str, Any] = {}
    for sign, direction in (("+", 1), ("-", -1)):
        try:
            strokes = machine.would("crank", direction * to_rest(machine.state, direction))
        except Locked as refusal:
            told[sign] = {"refused": refused(refusal)}
        else:
            told[sign] = {
                "timeline": timeline(machine.spec, machine.state, strokes, parts=machine.parts, covered=covered),
                "carries": carries_of(machine.spec, machine.parts, strokes, before=len(machine.strokes))}
    return told


def to_rest(state: State, direction: int) -> float:
    """Degrees of crank in `direction` until it is at rest again; going back, those that were turned."""
    return state.angle if state.direction == -direction else 360.0 - state.angle


def refused(refusal: Locked) -> dict[str, str]:
    """A refusal as pictures show it: at the part that blocks, with the reason and the remedy."""
    return {"reason": refusal.reason, "part": refusal.part, "frees": refusal.frees}


def digest(data: Timeline) -> str:
    """A short fingerprint of a timeline, for reprs that a lesson's validation compares."""
    text = json.dumps(data, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()[:10]
