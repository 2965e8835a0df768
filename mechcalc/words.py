"""What happens, said in words: one sentence a moment, one line a stroke.

Only this file words the mechanism for captions, live regions and terminals. It reads events and strokes and decides
nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from mechcalc.events import Event, Kind, Stroke

NAMES = ("units", "tens", "hundreds", "thousands", "ten thousands", "hundred thousands", "millions")
HELIX = {1: "additive", -1: "subtractive"}
LOST_TOOTH = "meets a gap where the idler's tooth is lost"


def place_name(place: int) -> str:
    """A place as people say it.

    >>> place_name(2), place_name(9)
    ('tens', 'place 9')
    """
    return NAMES[place - 1] if 1 <= place <= len(NAMES) else f"place {place}"


def listed(items: Iterable[object]) -> str:
    """Items in a sentence.

    >>> listed([1, 2, 4])
    '1, 2 and 4'
    """
    words = [str(item) for item in items]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _many(word: str, numbers: Sequence[int]) -> str:
    return f"{word}{'s' if len(numbers) > 1 else ''} {listed(numbers)}"


def sentence(events: Sequence[Event], *, covered: bool = False, hidden: bool = False) -> str:
    """One or more short sentences on events that are complete at the same angle.

    Parameters
    ----------
    covered : bool
        Without the digits that come of it, for a picture that covers its windows.
    hidden : bool
        What is seen of a fault without what it comes from, for one that is still to be found.

    Examples
    --------
    >>> sentence([Event(angle=9, kind=Kind.NUMBER_STEP, place=p, wheel=p, step=1, digit=3, pin=1) for p in (1, 2)])
    'A number pin moves wheels 1 and 2 one step on.'
    >>> carry = [Event(angle=220, kind=Kind.CARRY_STEP, place=3, wheel=3, step=1, digit=7, helix=1)]
    >>> sentence(carry, covered=True)
    'The carry reaches wheel 3: one step on.'
    >>> lost = [Event(angle=9, kind=Kind.NUMBER_STEP, place=2, wheel=2, step=0, digit=6, pin=1)]
    >>> sentence(lost)
    "The pin of place 2 meets a gap where the idler's tooth is lost: wheel 2 stays."
    >>> sentence(lost, hidden=True)
    'The pin of place 2 passes: wheel 2 stays.'
    """
    if covered:
        by_hand = [event.kind is Kind.SETTING_STEP and event.wheel is None for event in events]
        events = [event if own else replace(event, digit=None) for event, own in zip(events, by_hand, strict=True)]
    said = []
    for kind in Kind:
        group = [event for event in events if event.kind is kind]
        if group:
            said.append((HIDDEN if hidden else SAY)[kind](group))
    return " ".join(said)


def _to(group: Sequence[Event]) -> str:
    """What the wheels come to, where that may be said."""
    return "" if group[0].digit is None else f", to {listed(event.digit for event in group)}"


def _number_step(group: list[Event], why: str = LOST_TOOTH) -> str:
    wheels = [event.wheel for event in group if event.wheel is not None and event.step]
    lost = [event.place for event in group if event.wheel is None]
    way = "on" if any(event.step > 0 for event in group) else "back"
    said = [f"A number pin moves {_many('wheel', wheels)} one step {way}."] if wheels else []
    said += _missed(group, why)
    if lost:
        said.append(f"The idler of {_many('place', lost)} turns, but no wheel stands there: the step is lost.")
    return " ".join(said)


def _carry_step(group: list[Event], why: str = LOST_TOOTH) -> str:
    moved = [event for event in group if event.step]
    said = [f"The carry reaches {_many('wheel', [event.wheel or 0 for event in moved])}: one step "
            f"{'on' if moved[0].step > 0 else 'back'}{_to(moved)}."] if moved else []
    return " ".join([*said, *_missed(group, why)])


def _missed(group: list[Event], why: str) -> list[str]:
    """Pins that found a gap in the idler where a tooth should be."""
    gaps = [event for event in group if event.wheel is not None and not event.step]
    if not gaps:
        return []
    wheels = [event.wheel for event in gaps if event.wheel is not None]
    return [f"The pin of {_many('place', [event.place for event in gaps])} {why}: {_many('wheel', wheels)} "
            f"{'stay' if len(wheels) > 1 else 'stays'}."]


def _overthrow(group: list[Event], how: str = "on, one step too far") -> str:
    wheels = [event.wheel or 0 for event in group]
    return (f"{_many('wheel', wheels).capitalize()} {'run' if len(wheels) > 1 else 'runs'} {how}"
            f"{_to(group).replace(',', ':', 1)}.")


def _lever_out(group: list[Event]) -> str:
    wheels = [event.wheel or 0 for event in group]
    return (f"{_many('wheel', wheels).capitalize()} passed between 9 and 0: "
            f"{'the carry levers are' if len(wheels) > 1 else 'the carry lever is'} out.")


def _pin_deflected(group: list[Event]) -> str:
    places = _many("place", [event.place for event in group])
    return (f"The lever pushes the {HELIX[group[0].helix or 1]} carry pin of {places} sideways, into the idler's "
            f"path.")


def _setting_step(group: list[Event]) -> str:
    if group[0].digit is None:
        return f"Through the transfer gears {_many('pinwheel', [event.place for event in group])} one step on."
    moved = [f"{event.place} to {event.digit}" for event in group]
    if group[0].wheel is not None:
        return f"Through the transfer gears pinwheel {listed(moved)}."
    return f"Setting lever {listed(moved)}."


def _clearing(word: str, group: list[Event]) -> str:
    to = "" if group[0].digit is None else f" to {group[0].digit}"
    return f"Clearing takes {_many(word, [event.place for event in group])} back{to}."


SAY = {
    Kind.COMB_IN: lambda group: "The setting comb swings in; it holds the pawl and the setting lock off.",
    Kind.COMB_OUT: lambda group: "The comb swings out: all setting levers are at 0.",
    Kind.TRANSFER_DOWN: lambda group: "The back-transfer lever is down: number wheels and pinwheels are in gear.",
    Kind.TRANSFER_UP: lambda group: "The back-transfer lever is up: number wheels and pinwheels are free.",
    Kind.CARRIAGE_EASED: lambda group: "The carriage is out of its seat, between two positions.",
    Kind.CARRIAGE_SEATED: lambda group: f"The carriage is seated at position {group[0].place}.",
    Kind.NUMBER_STEP: _number_step,
    Kind.CARRY_STEP: _carry_step,
    Kind.OVERTHROW: _overthrow,
    Kind.CLEARING_STEP: lambda group: _clearing("wheel", group),
    Kind.LEVER_OUT: _lever_out,
    Kind.PIN_DEFLECTED: _pin_deflected,
    Kind.BELL: lambda group: f"The bell rings: the carry out of wheel {group[0].wheel} has nowhere to go.",
    Kind.LEVER_HOME: lambda group: f"The homing cam pushes the carry lever of "
                                   f"{_many('wheel', [e.wheel or 0 for e in group])} home.",
    Kind.DIRECTION_TAKEN: lambda group: f"The counter takes its direction: {HELIX[group[0].step]} turns count up.",
    Kind.COUNTER_STEP: lambda group: "The counter: " + listed(
        f"wheel {event.place} {'steps' if event.digit is None else f'to {event.digit}'}" for event in group) + ".",
    Kind.COUNTER_CLEARING_STEP: lambda group: _clearing("counter wheel", group),
    Kind.DIRECTION_FREED: lambda group: "The counter's direction is free: the next turn chooses it.",
    Kind.SETTING_STEP: _setting_step,
    Kind.PULLED_HOME: lambda group: "The clearing lever is home.",
}

HIDDEN = {
    **SAY,
    Kind.NUMBER_STEP: lambda group: _number_step(group, "passes"),
    Kind.CARRY_STEP: lambda group: _carry_step(group, "passes"),
    Kind.OVERTHROW: lambda group: _overthrow(group, "another step"),
}


def describe(stroke: Stroke) -> str:
    """What the hand did, in a few words.

    >>> from mechcalc import Machine, load_spec
    >>> m = Machine(load_spec("slate"))
    >>> [describe(stroke) for stroke in (m.set(12), m.turn(), m.turn(-1), m.shift(1), m.crank(90.0))]
    ['set 12', 'one additive turn', 'one subtractive turn', 'shift to position 1', 'crank from 0° to 90°, additive']
    """
    argument = stroke.argument
    if stroke.operation == "crank":
        kind = HELIX[1 if argument > 0 else -1]
        if stroke.begin == 0 and stroke.end == 360:
            return f"one {kind} turn"
        return f"crank from {stroke.begin:g}° to {stroke.end:g}°, {kind}"
    said = {
        "set": lambda: f"set {argument}", "set lever": lambda: f"set lever {argument[0]} to {argument[1]}",
        "shift": lambda: f"shift to position {stroke.after.carriage}",
        "ease": lambda: f"ease the carriage out of position {stroke.before.carriage}",
        "seat": lambda: f"seat the carriage at position {argument}",
        "pull": lambda: (f"pull the {argument[0]} clearing lever to {argument[1]:g}°" if argument[1] else
                         f"return the {argument[0]} clearing lever"),
        "transfer lever": lambda: f"back-transfer lever {'down' if argument else 'up'}",
        "back transfer": lambda: f"back transfer: {stroke.before.reading.result} into the setting",
    }
    return said.get(stroke.operation, lambda: stroke.operation)()


def hand_only(stroke: Stroke) -> str:
    """The same without what the windows show.

    >>> from mechcalc import Machine, load_spec
    >>> m = Machine(load_spec("bench"))
    >>> _ = m.set(12); _ = m.turn(); _ = m.clear_setting()
    >>> stroke = m.back_transfer()
    >>> describe(stroke), hand_only(stroke)
    ('back transfer: 12 into the setting', 'back transfer')
    """
    return stroke.operation if stroke.operation == "back transfer" else describe(stroke)
