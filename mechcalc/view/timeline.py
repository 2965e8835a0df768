"""Strokes as a timeline that any picture can be drawn from: plain data, ready for JSON.

Only this file decides what a picture is told. The browser gets it once and draws from it alone; no rule of the
mechanism is written a second time on the other side. The fields are described in DEVELOPERS.md ("The timeline").
"""

from __future__ import annotations

import dataclasses
import hashlib
import json
from collections.abc import Iterator, Sequence
from typing import Any, Protocol

from mechcalc.errors import Locked
from mechcalc.events import Event, Kind, Stroke
from mechcalc.layout import layout
from mechcalc.machine import Machine
from mechcalc.parts import SOUND, Parts
from mechcalc.spec import MachineSpec
from mechcalc.state import State
from mechcalc.view.acting import Act, acts_in
from mechcalc.view.carries import carries_of
from mechcalc.view.tracks import SIGN, Tracks, begun
from mechcalc.words import describe, hand_only, sentence

FORMAT = 1
Timeline = dict[str, Any]


class Said(Protocol):
    """A line of a working."""

    @property
    def words(self) -> str: ...
    @property
    def algebra(self) -> str: ...


def timeline(spec: MachineSpec, start: State, strokes: Sequence[Stroke], lines: Sequence[Said] = (),
             title: str = "", parts: Parts = SOUND, *, reveal: bool = True, covered: bool = False) -> Timeline:
    """The timeline of strokes that follow one another from `start`.

    Parameters
    ----------
    lines : sequence, optional
        One for each stroke, with ``words`` and ``algebra``; without them the strokes are described plainly.
    title : str
        For the picture's heading.
    parts : Parts
        What the machine's parts do.
    reveal : bool
        Whether faults are named, with their parts, and the moments at which they act are told. Otherwise only what is
        seen of them is there.
    covered : bool
        Whether moments and strokes also say what may be said while the windows are covered.

    Returns
    -------
    dict
        ``format, title, machine, length, tracks, moments, strokes``, and ``faults`` where there are any to tell;
        travel in degrees, see `tracks`.
    """
    tracks = Tracks(spec, start, parts)
    faults = faults_told(parts) if reveal else []
    told: list[dict[str, Any]] = []
    moments: list[dict[str, Any]] = []
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
        acts = acts_in(spec, parts, stroke) if faults else ()
        hidden = bool(parts.faults) and not reveal
        for moment in _moments(spec, stroke, acts, covered, hidden):
            moment |= {"at": round(begin + moment["at"] - stroke.begin, 6), "stroke": index,
                       "from": round(begin + max(moment["from"], stroke.begin) - stroke.begin, 6)}
            _point_at(moment, faults)
            moments.append(moment)
    return {"format": FORMAT, "title": title, "machine": machine_data(spec), "length": tracks.travel,
            "start": dataclasses.asdict(start.reading), "tracks": tracks.keys, "moments": moments, "strokes": told,
            **({"faults": faults} if faults else {})}


def faults_told(parts: Parts) -> list[dict[str, Any]]:
    """What is wrong with the parts: figures, sentence, the part as tracks name it, and a letter to mark it with."""
    return [{**fault.to_dict(), "part": fault.part, "words": str(fault), "letter": _letter(number)}
            for number, fault in enumerate(parts.faults)]


def _letter(number: int) -> str:
    """A, B, … Z, A2, B2, …"""
    return chr(ord("A") + number % 26) + (str(number // 26 + 1) if number >= 26 else "")


def _moments(spec: MachineSpec, stroke: Stroke, acts: Sequence[Act], covered: bool, hidden: bool
             ) -> Iterator[dict[str, Any]]:
    """What is complete at the same angle, as one moment worth stopping at; angles are the stroke's own."""
    for angle in sorted({event.angle for event in stroke.events} | {act.angle for act in acts}):
        events = [event for event in stroke.events if event.angle == angle]
        here = [act for act in acts if act.angle == angle]
        kinds = {"number step" if hidden and event.kind is Kind.OVERTHROW else event.kind.value for event in events}
        said = [act.words for act in here if act.words]
        moment: dict[str, Any] = {
            "at": angle, "from": min([*(begun(event, spec) for event in events), *(act.start for act in here)]),
            "stroke": 0, "kinds": sorted(kinds | ({"fault"} if here else set())),
            "words": " ".join(filter(None, [sentence(events, hidden=hidden), *said])),
            "parts": sorted({name for event in events for name in parts_of(event)}
                            | {name for act in here for name in (act.part, *act.parts)})}
        if here:
            moment["faults"] = sorted({(act.fault, act.part) for act in here})
        if covered:
            moment["covered"] = " ".join(filter(None, [sentence(events, covered=True, hidden=hidden), *said]))
        yield moment


def _point_at(moment: dict[str, Any], faults: Sequence[dict[str, Any]]) -> None:
    """The faults that act in a moment, as their numbers in the list of faults."""
    if "faults" in moment:
        numbers = {(fault["fault"], fault["part"]): number for number, fault in enumerate(faults)}
        moment["faults"] = [numbers[name] for name in moment["faults"] if name in numbers]


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


def ahead(machine: Machine, *, reveal: bool = True, covered: bool = False) -> dict[str, Any]:
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
                "timeline": timeline(machine.spec, machine.state, strokes, parts=machine.parts, reveal=reveal,
                                     covered=covered),
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
