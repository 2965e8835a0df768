"""Pictures of machines with faults: where a fault acts, how its part moves, and what is not told while it is sought."""

from __future__ import annotations

import json
import re
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings, strategies as st

from mechcalc import Locked, Machine as SoundMachine, load_spec, machine_names
from mechcalc.bench import (
    FAULTS,
    CarryLeverNotHomed,
    CarryLeverWeak,
    CarryPinGone,
    CarryTimingLate,
    ClearingToothGone,
    CounterDirectionStuck,
    CounterFingerGone,
    Fault,
    IdlerToothLost,
    Machine,
    NumberPinGone,
    NumberPinStuckOut,
    NumberWheelOverthrows,
    RatchetWorn,
    SettingLeverCreeps,
    SettingLockWorn,
    TransferGearOut,
    every_fault,
)
from mechcalc.methods import multiply
from mechcalc.operations import perform
from mechcalc.parts import SOUND
from mechcalc.view import moment_text, show, still_svg, take_home, timeline_of
from mechcalc.view.acting import acts_in
from mechcalc.view.carries import carries_of
from mechcalc.view.pose import pose
from mechcalc.view.timeline import ahead, timeline
from tests.view.sessions import random_session, told
from tests.view.test_timeline import assert_shows

SEEDS = st.integers(0, 10_000)
NAMES = st.sampled_from(machine_names())


def worn(*faults: Fault, name: str = "slate") -> Machine:
    return Machine(load_spec(name), faults=faults)


class TestTheMechanismIsShown:
    @given(NAMES, SEEDS)
    @settings(max_examples=50)
    def test_at_every_stroke_end(self, name: str, seed: int) -> None:
        """With up to four faults, and a crank that can be turned back in every other session, the picture stands where
        the machine stands; travel only grows, and nothing leaps."""
        machine = random_session(name, seed, faulty=True)
        data = told(machine)
        for stroke, shown in zip(machine.strokes, data["strokes"], strict=True):
            assert shown["to"] >= shown["from"]
            assert_shows(pose(data, shown["to"]), stroke.after)
        for part, keys in data["tracks"].items():
            for (begin, was), (end, becomes) in pairwise(keys):
                assert begin <= end
                assert begin < end or begin == 0 or was == becomes or part in ("rang", "direction"), part

    @given(NAMES, SEEDS, st.floats(5, 355), st.floats(0.01, 0.99))
    @settings(max_examples=40)
    def test_stopping_does_not_show(self, name: str, seed: int, angle: float, share: float) -> None:
        """A turn done in two parts is drawn as the same turn in one, on a faulty machine too."""
        machine = random_session(name, seed, strokes=4, faulty=True)
        start, spec, parts, angle = machine.state, machine.spec, machine.parts, round(angle, 2)
        if start.direction or start.easing or start.pulled_result or start.pulled_counter or start.transfer:
            return
        whole = timeline(spec, start, machine.would("crank", 360.0), parts=parts)
        first, = machine.would("crank", angle)
        second, = perform(spec, first.after, "crank", 360.0 - angle, parts)
        two = timeline(spec, start, [first, second], parts=parts)
        at = angle + share * (360 - angle)
        for travel in (angle, at):
            shown, other = pose(whole, travel), pose(two, travel)
            for part, value in shown.items():
                assert other[part] == pytest.approx(value, abs=1e-5), f"{part} at {travel}"

    def test_turned_back(self) -> None:
        """A worn ratchet: on to 200 degrees, back to 60, on to rest. Wheels stand where the states say at both ends of
        each stroke, travel grows, and what was half done has gone back."""
        machine = worn(RatchetWorn())
        machine.set(7)
        for degrees in (200.0, -140.0, 300.0):
            machine.crank(degrees)
        data = timeline_of(machine)
        assert [stroke["to"] for stroke in data["strokes"]] == [30, 230, 370, 670]
        assert [pose(data, travel)["crank"] for travel in (30, 230, 370, 670)] == [0, 200, 60, 360]
        for stroke, shown in zip(machine.strokes, data["strokes"], strict=True):
            assert_shows(pose(data, shown["from"]), stroke.before)
            assert_shows(pose(data, shown["to"]), stroke.after)
        assert pose(data, 230)["wheel/1"] == pytest.approx(6 + (200 - 193.5) / 9, abs=1e-5)  # in the seventh pin's step
        assert pose(data, 370)["wheel/1"] == 0
        assert moment_text(data, 240.0).startswith("Crank at 170° of a subtractive turn")

    def test_ahead_goes_both_ways(self) -> None:
        """Part way through a turn the hand may turn back to rest, and no further in one go."""
        machine = worn(RatchetWorn())
        machine.crank(100.0)
        told_ahead = ahead(machine)
        assert [told_ahead[sign]["timeline"]["length"] for sign in "+-"] == [260, 100]
        assert pose(told_ahead["-"]["timeline"], 100)["crank"] == 0

    def test_a_button_brings_it_back_to_rest(self) -> None:
        """The button of the other way goes back over what was turned."""
        machine = worn(RatchetWorn())
        view = show(machine)
        machine.crank(100.0)
        view._asked(view, {"operation": "turn", "argument": -1}, [])
        assert (machine.state.direction, machine.state.angle) == (0, 0)
        assert machine.result == 0


@pytest.mark.parametrize(("fault", "strokes", "angle", "words"), [
    (CarryPinGone(place=2, direction=1), [("set", 9), ("crank", 720.0)], 224.5,
     "The carry lever of wheel 1 is out, but the carry pin of place 2 is gone: the carry is lost."),
    (NumberPinGone(place=1, pin=3), [("set", 5), ("crank", 360.0)], 166.5,
     "Pin 3 of pinwheel 1 is gone: wheel 1 misses a step."),
    (NumberPinStuckOut(place=2, pin=9), [("crank", 360.0)], 220.5,
     "Pin 9 of pinwheel 2 is stuck out: a step that was not set."),
    (CarryLeverWeak(wheel=1), [("set", 1), ("crank", 360.0), ("set", 9), ("crank", 360.0)], 223.5,
     "Wheel 1 passed between 9 and 0, but its carry lever falls back: the carry is lost."),
    (CarryLeverNotHomed(wheel=1), [("set", 9), ("crank", 720.0)], 233.5,
     "The homing cam does not push the carry lever of wheel 1 home: it stays out."),
    (NumberWheelOverthrows(wheel=1), [("set", 2), ("crank", 360.0)], 157.5, ""),
    (IdlerToothLost(place=1, tooth=0), [("set", 2), ("crank", 360.0)], 148.5, ""),
    (SettingLeverCreeps(place=1), [("set", 2), ("crank", 360.0)], 360.0, "Nobody moved setting lever 1: it creeps."),
    (ClearingToothGone(wheel=1), [("set", 2), ("crank", 360.0), ("clear result", None)], 80.0,
     "Wheel 1 has lost its clearing tooth: it is not taken along."),
    (TransferGearOut(place=1), [("set", 2), ("crank", 360.0), ("clear setting", None), ("back transfer", None)], 110.0,
     "The back-transfer gear of place 1 does not mesh: its pinwheel stays."),
    (CounterFingerGone(wheel=1), [("crank", 360.0)], 307.666667, "The finger of counter wheel 1 is gone: the wheel "
                                                                 "stays."),
    (CounterDirectionStuck(direction=1), [("crank", -360.0)], 307.666667,
     "The turn was subtractive: the counter's direction is stuck."),
    (RatchetWorn(), [("crank", 90.0), ("crank", -50.0)], 274.0,
     "The crank goes back: the worn ratchet does not hold it."),
    (SettingLockWorn(), [("crank", 90.0), ("set lever", (1, 1))], 30.0,
     "The worn lock lets a setting lever move while the crank is out of rest."),
    (CarryTimingLate(by=2.5), [("set", 1), ("crank", 360.0), ("set", 9), ("crank", 360.0)], 226.0,
     "The lever comes out 2.5° late: the carry pin of place 2 has passed, and the carry is lost."),
])
class TestWhereItActs:
    """On the slate: number pins from 139.5 degrees on, nine of 9 degrees each; a lever is out 3 degrees after its step;
    the carry pin of place 2 from 224.5 degrees, then one every 12 up to place 6, whose step ends at 281.5; a cam 9
    degrees after its pin; three counter fingers share the rest. (Worked by hand from data/machines/slate.toml.)"""

    def test_there(self, fault: Fault, strokes: list[tuple[str, Any]], angle: float, words: str) -> None:
        """Each fault acts at the angle that the drum gives it, and says what it does."""
        machine = worn(fault)
        for operation, argument in strokes:
            machine.perform(operation, argument)
        act = acts_in(machine.spec, machine.parts, machine.strokes[-1])[0]
        assert (act.fault, act.part) == (fault.name, fault.part)
        assert act.angle == pytest.approx(angle, abs=1e-5)
        assert act.words == words

    def test_is_a_moment(self, fault: Fault, strokes: list[tuple[str, Any]], angle: float, words: str) -> None:
        """It is a moment to stop at, points at the fault, and lights its part."""
        machine = worn(fault)
        for operation, argument in strokes:
            machine.perform(operation, argument)
        data = timeline_of(machine)
        moments = [moment for moment in data["moments"] if "faults" in moment]
        assert all(moment["faults"] == [0] and "fault" in moment["kinds"] for moment in moments)
        last = next(moment for moment in moments if moment["stroke"] == len(machine.strokes) - 1)
        assert fault.part in last["parts"]
        assert last["words"].endswith(words)
        assert data["faults"] == [{**fault.to_dict(), "part": fault.part, "words": str(fault), "letter": "A"}]


class TestEveryFault:
    @given(NAMES, SEEDS)
    @settings(max_examples=80)
    def test_acts_where_a_sound_machine_would_do_otherwise(self, name: str, seed: int) -> None:
        """A stroke in which a sound machine would have done anything else holds an act, and the first act is no later
        than the first difference; a stroke without an act is that of a sound machine."""
        machine = random_session(name, seed, faulty=True)
        for stroke in machine.strokes:
            try:
                sound, = perform(machine.spec, stroke.before, stroke.operation, stroke.argument, SOUND)
            except Locked:
                sound = None
            if sound is None and stroke.before == stroke.after:
                continue  # a worn lock, and a lever that stands where it was wanted
            acts = acts_in(machine.spec, machine.parts, stroke)
            differs = sound is None or (sound.events, sound.after) != (stroke.events, stroke.after)
            if not differs:  # a lever that was already on its way out, late, is no news
                acts = tuple(act for act in acts if act.fault != "carry timing late")
            assert bool(acts) == differs, (stroke, acts)
            if sound is not None and differs:
                both = {*sound.events} ^ {*stroke.events}
                # A lever that is late would have been out before that.
                begun = min(act.start if act.fault == "carry timing late" else act.angle for act in acts)
                assert begun <= min(event.angle for event in both) + 1e-9

    def test_all_kinds_are_tried_here(self) -> None:
        """No kind of fault is left out of the cases above."""
        tried = {mark.args[1][index][0].name for mark in TestWhereItActs.pytestmark  # type: ignore[attr-defined]
                 for index in range(len(mark.args[1]))}
        assert tried == set(FAULTS)

    def test_letters(self) -> None:
        """The twenty-seventh fault is A2."""
        many = [NumberPinGone(place=place, pin=pin) for place in (1, 2, 3) for pin in range(1, 10)]
        letters = [fault["letter"] for fault in timeline_of(worn(*many))["faults"]]
        assert (letters[0], letters[25], letters[26]) == ("A", "Z", "A2")


class TestHowItLooks:
    def test_a_weak_lever_is_pushed_and_falls_back(self) -> None:
        """It goes part of its way out, and is home again where a good one would be out."""
        machine = worn(CarryLeverWeak(wheel=1))
        machine.set(9)
        machine.turn(2)
        keys = timeline_of(machine)["tracks"]["lever/1"]
        assert max(value for _, value in keys) == pytest.approx(0.6)
        assert keys[-1] == [pytest.approx(30 + 360 + 151.5), 0]

    def test_a_wheel_that_runs_on_does_so_within_its_step(self) -> None:
        machine = worn(NumberWheelOverthrows(wheel=1))
        machine.set(1)
        machine.turn()
        keys = timeline_of(machine)["tracks"]["wheel/1"]
        assert keys == [[0, 0], [169.5, 0], [pytest.approx(175.8), 1], [178.5, 2]]

    def test_a_pin_stuck_out_is_out_from_the_beginning(self) -> None:
        data = timeline_of(worn(NumberPinStuckOut(place=1, pin=9)))
        assert pose(data, 0)["pin/1/9"] == 1

    def test_a_working_on_a_faulty_machine(self) -> None:
        """A working knows what its machine's parts do, and is pictured with them."""
        machine = worn(NumberPinGone(place=1, pin=7), name="bench")
        working = multiply(machine, 7, 2)
        data = timeline_of(working)
        assert pose(data, data["length"])["pin/1/7"] == 0
        assert pose(data, data["length"])["pin/1/6"] == 1
        assert data["faults"][0]["words"] == "pin 7 of pinwheel 1 is gone"
        assert sum("faults" in moment for moment in data["moments"]) == 2

    def test_bare_strokes(self) -> None:
        """Strokes do not say what the parts do; told so, they are pictured as the machine is."""
        machine = worn(NumberPinGone(place=1, pin=7))
        machine.set(7)
        machine.turn()
        data = timeline_of(machine.strokes, spec=machine.spec, parts=machine.parts)
        assert data["tracks"] == timeline_of(machine)["tracks"]
        assert "faults" in data

    def test_a_sound_machine_tells_of_none(self) -> None:
        """A picture without faults is what it was before there were any."""
        machine = SoundMachine(load_spec("slate"))
        machine.turn()
        data = timeline_of(machine)
        assert "faults" not in data
        assert not any("faults" in moment or "fault" in moment["kinds"] for moment in data["moments"])

    def test_stops_before_a_carry_that_will_not_come(self) -> None:
        """Where the pin is gone the picture waits and asks just the same."""
        machine, sound = worn(CarryPinGone(place=2, direction=1)), SoundMachine(load_spec("slate"))
        for either in (machine, sound):
            either.set(9)
            either.turn(2)
        lost, = carries_of(machine.spec, machine.parts, machine.strokes)
        done, = carries_of(sound.spec, sound.parts, sound.strokes)
        assert lost == done

    def test_is_said_in_a_still(self) -> None:
        """The picture in words names the faults; the still holds each letter and sentence."""
        machine = worn(CarryPinGone(place=2, direction=1), RatchetWorn())
        machine.turn()
        assert moment_text(machine).splitlines()[-1] == (
            "Faulty parts: A, the additive carry pin of place 2 is gone; B, the full-stroke ratchet is worn.")
        svg = still_svg(machine)
        for words in (">A</text>", ">B</text>", ">the additive carry pin of place 2 is gone</text>",
                      ">the full-stroke ratchet is worn</text>"):
            assert words in svg


TELLING = re.compile(r"fault|gone|stuck|worn|creep|lost|not (?:stay|pushed|mesh|homed)|\blate\b|overthrow|falls back|"
                     r"too far|clearing tooth|gear of place", re.IGNORECASE)


class TestWhileItIsSought:
    @pytest.mark.parametrize("kind", list(FAULTS))
    def test_nothing_names_it(self, kind: str) -> None:
        """With ``reveal=False`` nothing that is sent to the page names a fault, its part or what it does to it."""
        for fault in list(FAULTS[kind].everywhere(load_spec("slate")))[::7]:
            machine = worn(fault)
            view = show(machine, reveal=False, predict="carry")
            machine.set(9999)
            machine.turn(2)
            machine.clear_setting()
            for operation, argument in (("back transfer", None), ("crank", 100.0), ("set lever", (1, 2)),
                                        ("crank", -20.0), ("crank", 400.0), ("clear result", None)):
                try:
                    machine.perform(operation, argument)
                except Locked:
                    continue
            sent = json.dumps({"scene": view.scene, "answers": view.answers})
            found = TELLING.search(re.sub(r"the step is lost", "", sent))
            assert found is None, sent[max(0, found.start() - 80):found.end() + 40]

    def test_nor_does_a_page_or_a_still(self, tmp_path: Any) -> None:
        machine = worn(IdlerToothLost(place=1, tooth=2), NumberWheelOverthrows(wheel=2))
        machine.set(44)
        machine.turn(3)
        text = take_home(machine, tmp_path / "a.html", reveal=False).read_text(encoding="utf-8")
        data = re.search(r'<script type="application/json"[^>]*>(.*?)</script>', text, re.DOTALL)
        assert data is not None
        assert TELLING.search(data[1]) is None
        assert TELLING.search(still_svg(machine, 300.0, reveal=False)) is None
        assert TELLING.search(moment_text(machine, 300.0, reveal=False)) is None

    def test_the_symptom_is_seen_all_the_same(self) -> None:
        """Tracks and readings are those of the faulty machine."""
        machine = worn(CarryLeverWeak(wheel=1))
        machine.set(9)
        machine.turn(2)
        hidden, open_ = timeline_of(machine, reveal=False), timeline_of(machine)
        assert hidden["tracks"] == open_["tracks"]
        assert [stroke["reading"] for stroke in hidden["strokes"]] == [stroke["reading"] for stroke in open_["strokes"]]
        assert len(hidden["moments"]) < len(open_["moments"])

    def test_what_is_said_instead(self) -> None:
        """A wheel that stays and a wheel that goes too far are told as what they are seen to do."""
        machine = worn(IdlerToothLost(place=1, tooth=2), NumberWheelOverthrows(wheel=2))
        machine.set(43)
        machine.turn()
        words = [moment["words"] for moment in timeline_of(machine, reveal=False)["moments"]]
        assert "The pin of place 1 passes: wheel 1 stays." in " ".join(words)
        assert "Wheel 2 runs another step: to 5." in " ".join(words)


@pytest.mark.parametrize("name", machine_names())
def test_every_fault_can_be_pictured(name: str) -> None:
    """Every single fault of every machine has a part with a track, or a lever of its own."""
    spec = load_spec(name)
    tracks = timeline_of(Machine(spec))["tracks"]
    assert all(fault.part in tracks for fault in every_fault(spec))
