"""Timelines that were worked out by hand, as text: tests/golden/*.txt.

A golden file says in its head where its figures come from, then gives the machine, how it stands, and for each thing
done the events and what the machine shows. The words are this file's own; it asks an event for its numbers only.
"""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from mechcalc import Kind, Machine, MachineSpec
from mechcalc.numbers import to_digits
from mechcalc.state import State

GOLDEN = sorted((Path(__file__).parent.parent / "golden").glob("*.txt"))
HELIX = {1: "additive", -1: "subtractive"}
WORDS = {
    Kind.NUMBER_STEP: "pin {e.pin} of place {e.place}: wheel {e.wheel} to {e.digit}",
    Kind.LEVER_OUT: "lever of wheel {e.wheel} out",
    Kind.PIN_DEFLECTED: "carry pin of place {e.place} deflected, {helix} helix",
    Kind.CARRY_STEP: "carry pin of place {e.place}: wheel {e.wheel} to {e.digit}",
    Kind.LEVER_HOME: "lever of wheel {e.wheel} home",
    Kind.BELL: "bell: the carry of wheel {e.wheel} has nowhere to go",
    Kind.DIRECTION_TAKEN: "counter counts up in {step} turns",
    Kind.COUNTER_STEP: "counter wheel {e.place} to {e.digit}",
    Kind.TRANSFER_DOWN: "back-transfer lever down",
    Kind.TRANSFER_UP: "back-transfer lever up",
    Kind.CLEARING_STEP: "wheel {e.wheel} back to {e.digit}",
    Kind.SETTING_STEP: "lever {e.place} to {e.digit}",
    Kind.PULLED_HOME: "clearing lever home",
    Kind.CARRIAGE_EASED: "carriage eased from position {e.place}",
    Kind.CARRIAGE_SEATED: "carriage seated at position {e.place}",
}


def told(event) -> str:
    """One line of a golden file."""
    words = WORDS[event.kind].format(e=event, helix=HELIX.get(event.helix), step=HELIX.get(event.step))
    return f"{event.angle:>7g}  {words}"


def shown(state: State) -> str:
    """The last line of a block: the windows, and what a crank off rest or a lever left out adds to them."""
    reading = state.reading
    line = (f"shows setting {reading.setting}, result {reading.result}, counter {reading.counter}, "
            f"carriage {reading.carriage}{', bell' if reading.bell else ''}")
    out = " ".join(str(wheel) for wheel, lever in enumerate(state.levers, start=1) if lever)
    if state.direction:
        deflected = " ".join(str(place) for _, place in state.deflected)
        return f"{line}; crank at {state.angle:g}, levers out {out or 'none'}, deflected {deflected or 'none'}"
    return f"{line}; levers out {out}" if out else line


def standing(spec: MachineSpec, words: list[str]) -> State:
    """The state that a "start" line gives: setting, result and carriage, all else at rest."""
    given = {key: int(value) for key, value in (word.split("=") for word in words)}
    return State(setting=to_digits(given.get("setting", 0), spec.setting_places),
                 result=to_digits(given.get("result", 0), spec.result_places),
                 counter=(0,) * spec.counter_places, levers=(False,) * spec.result_places,
                 carriage=given.get("carriage", 0))


def done(machine: Machine, words: list[str]):
    """The strokes of a "do" line: an operation's name, and a number where it takes one."""
    *name, last = words
    if not last.lstrip("-").isdigit():
        return machine.perform(" ".join(words))
    return machine.perform(" ".join(name), int(last))


def rendered(lines: list[str]) -> list[str]:
    """What the machine makes of a golden file's first lines and of everything that it tells to do."""
    machine_line, start_line = lines[0].split(), lines[1].split()
    values = tomllib.loads("\n".join(machine_line[1:]))
    spec = MachineSpec(**values)
    machine = Machine(spec, state=standing(spec, start_line[1:]))
    text = lines[:2]
    for line in lines:
        if line.startswith("do "):
            text.append(line)
            for stroke in done(machine, line.split()[1:]):
                text += [told(event) for event in stroke.events]
            text.append(shown(machine.state))
    return text


@pytest.mark.parametrize("path", GOLDEN, ids=lambda path: path.stem)
def test_golden_timeline(path):
    """The mechanism does what was worked out by hand, event by event."""
    text = path.read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if line and not line.startswith("#")]
    assert "# Source: worked by hand from the machine's rules" in text
    assert rendered(lines) == lines


def test_there_are_golden_timelines():
    """An empty folder would pass unseen."""
    assert {path.stem for path in GOLDEN} >= {"999_plus_1", "0_minus_1", "0_minus_1_short_reach", "back_transfer",
                                              "stop_in_a_carry", "late_carry"}
