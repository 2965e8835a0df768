"""The timeline and its poses against the machine itself: pictures must stand where the mechanism stands."""

from __future__ import annotations

import json
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings, strategies as st

from mechcalc import Locked, Machine, load_spec, machine_names
from mechcalc.state import State
from mechcalc.view.pose import Pose, moment_at, pose, stroke_at, turning_at
from mechcalc.view.timeline import ahead, digest, timeline
from tests.view.sessions import nines, random_session, told

SEEDS = st.integers(0, 10_000)
NAMES = st.sampled_from(machine_names())


def assert_shows(pose: Pose, state: State) -> None:
    """Everything that a state says is where the pose has it; what is between two digits is nearest to its digit or
    under way to the next."""
    assert [pose[f"setting/{i}"] for i in range(1, len(state.setting) + 1)] == list(state.setting)
    for part, digits in (("wheel", state.result), ("counter", state.counter)):
        for number, digit in enumerate(digits, start=1):
            value = pose[f"{part}/{number}"]
            away = (value - digit + 5) % 10 - 5
            assert abs(away) < 1, f"{part} {number} at {value}, not {digit}"
            if not state.direction:
                assert away == pytest.approx(0, abs=1e-9), f"{part} {number} at {value}, not {digit}"
    for wheel, out in enumerate(state.levers, start=1):
        shown = pose[f"lever/{wheel}"]
        assert (0 < shown <= 1 if out else 0 <= shown < 1) if state.direction else shown == out
    deflected = {f"carrypin/{'+' if helix > 0 else '-'}/{place}" for helix, place in state.deflected}
    assert {name for name, value in pose.items() if name.startswith("carrypin") and value == 1} <= deflected
    assert all(pose[name] > 0 for name in deflected)
    assert pose["carriage"] == state.carriage + state.easing / 2
    assert pose["lift"] == (state.easing != 0)
    assert (pose["direction"] or None) == state.counter_direction
    assert pose["transfer"] == state.transfer
    assert pose["clearing/result"] == pytest.approx(state.pulled_result / 90)
    assert pose["clearing/counter"] == pytest.approx(state.pulled_counter / 90)
    assert (pose["rang"] == 1) == state.bell
    angle = state.angle * (state.direction or 1)
    assert (pose["crank"] - angle + 180) % 360 - 180 == pytest.approx(0, abs=1e-6)
    assert state.direction or (pose["pawl"], pose["lock"], pose["comb"], pose["bell"]) == (0, 0, 0, 0)


def refuses(machine: Machine, operation: str, argument: float) -> bool:
    """Whether an interlock would refuse it."""
    try:
        machine.would(operation, argument)
    except Locked:
        return True
    return False


class TestThePoseIsTheMachine:
    @given(NAMES, SEEDS)
    def test_at_every_stroke_end(self, name: str, seed: int) -> None:
        """At the end of each stroke of a random session the pose shows the state that the machine had."""
        machine = random_session(name, seed)
        data = told(machine)
        for stroke, shown in zip(machine.strokes, data["strokes"], strict=True):
            assert_shows(pose(data, shown["to"]), stroke.after)

    @given(NAMES, SEEDS, st.floats(0.5, 359.5))
    @settings(max_examples=40)
    def test_half_way(self, name: str, seed: int, angle: float) -> None:
        """In the middle of a turn the pose shows what the machine stopped there shows."""
        machine = random_session(name, seed, strokes=8)
        angle = round(angle, 3)
        assume(not machine.state.direction and not refuses(machine, "crank", 360.0))
        for direction in (1, -1):
            stopped = Machine(machine.spec, state=machine.state)
            whole = timeline(machine.spec, machine.state, machine.would("crank", direction * 360.0))
            stopped.crank(direction * angle)
            assert_shows(pose(whole, angle), stopped.state)

    @given(NAMES, SEEDS, st.floats(5, 355), st.floats(0.01, 0.99))
    @settings(max_examples=40)
    def test_stopping_does_not_show(self, name: str, seed: int, angle: float, share: float) -> None:
        """A turn done in two parts is drawn as the same turn in one, part by part, and from a saved state too."""
        machine = Machine(load_spec(name))
        machine.set(random_session(name, seed, strokes=4).setting)
        machine.turn(3)
        start, spec, angle = machine.state, machine.spec, round(angle, 2)
        whole = timeline(spec, start, machine.would("crank", 360.0))
        first, = machine.would("crank", angle)
        machine.crank(angle)
        second, = machine.would("crank", 360.0 - angle)
        parts = timeline(spec, start, [first, second])
        rest = timeline(spec, machine.state, [second])
        at = angle + share * (360 - angle)
        shown = pose(whole, at)
        for other in (pose(parts, at), pose(rest, at - angle)):
            for name_, value in shown.items():
                if name_.startswith("idler"):
                    continue  # counts its steps from where the timeline begins
                assert other[name_] == pytest.approx(value, abs=1e-5) or (
                    name_.split("/")[0] in ("wheel", "counter", "crank")
                    and (other[name_] - value) % 10 == pytest.approx(0, abs=1e-5)), name_


class TestMoments:
    @given(NAMES, SEEDS)
    def test_cover_the_events(self, name: str, seed: int) -> None:
        """Moments come in order, each within its stroke, each with words and parts that have a track."""
        data = told(random_session(name, seed))
        assert [moment["at"] for moment in data["moments"]] == sorted(moment["at"] for moment in data["moments"])
        for moment in data["moments"]:
            stroke = data["strokes"][moment["stroke"]]
            assert stroke["from"] - 1e-6 <= moment["from"] <= moment["at"] <= stroke["to"] + 1e-6
            assert moment["words"].endswith(".")
            assert set(moment["parts"]) <= set(data["tracks"])

    def test_speaks_of_the_part_in_action(self) -> None:
        """In the ripple of 9999 + 1 the caption names each wheel as the carry reaches it."""
        data = told(nines())
        said = [moment_at(data, (moment["from"] + moment["at"]) / 2)["words"]
                for moment in data["moments"] if "carry step" in moment["kinds"]]
        assert [words.split(":")[0] for words in said] == [f"The carry reaches wheel {wheel}" for wheel in (2, 3, 4, 5)]

    def test_pushing_a_pin_over_takes_its_time(self) -> None:
        """While a carry pin slides over, the moment that is told is its own."""
        data = told(nines())
        moment = next(moment for moment in data["moments"] if moment["kinds"] == ["pin deflected"])
        assert moment["from"] < moment["at"]
        between = (moment["from"] + moment["at"]) / 2
        assert 0 < pose(data, between)["carrypin/+/2"] < 1
        assert moment_at(data, between)["active"]

    def test_before_and_between(self) -> None:
        """At the very beginning nothing has moved; before a turn's first moment the stroke is told; after one, it."""
        data = told(nines())
        assert moment_at(data, 0)["words"] == "Nothing has moved yet."
        assert moment_at(data, 140)["words"] == "One additive turn."
        after = moment_at(data, 760)
        assert (after["active"], after["words"]) == (False, "Wheel 1 passed between 9 and 0: the carry lever is out.")
        assert [stroke_at(data, travel) for travel in (0, 1, 120, 121, 960, 2000)] == [None, 0, 0, 1, 3, 3]


class TestTurning:
    def test_either_way(self) -> None:
        """The way of turning is that of the crank's last movement; 0 before any."""
        data = told(nines(more=True))
        assert [turning_at(data, travel) for travel in (0, 100, 130, 480, 700, 1000)] == [0, 0, 1, 1, 1, -1]

    def test_from_a_crank_that_stands_part_way(self) -> None:
        """A timeline that begins part way through a subtractive turn knows which way it goes."""
        machine = Machine(load_spec("slate"))
        machine.crank(-100.0)
        data = ahead(machine)["-"]["timeline"]
        assert [turning_at(data, travel) for travel in (0, 100)] == [-1, -1]


class TestAhead:
    def test_refuses_with_the_pawl(self) -> None:
        """Part way through a turn the other way is refused beforehand, with the part, the reason and the remedy."""
        told_ahead = ahead(nines(until=100.0))
        assert told_ahead["+"]["timeline"]["length"] == 260
        assert told_ahead["-"] == {"refused": {
            "reason": "the crank cannot go back: it stands at 100 degrees of an additive turn, and a turn once begun "
                      "must be finished in its direction (full-stroke ratchet)",
            "part": "pawl", "frees": "finish the turn"}}

    def test_changes_nothing(self) -> None:
        """Looking ahead leaves the machine as it was."""
        machine = nines(until=100.0)
        before = machine.state, machine.strokes
        ahead(machine)
        assert (machine.state, machine.strokes) == before


class TestData:
    @given(NAMES, SEEDS)
    @settings(max_examples=20)
    def test_is_plain(self, name: str, seed: int) -> None:
        """A timeline survives JSON; its digest is that of its content."""
        data = told(random_session(name, seed))
        assert json.loads(json.dumps(data)) == data
        assert digest(json.loads(json.dumps(data))) == digest(data)
        assert digest({**data, "length": data["length"] + 1}) != digest(data)

    @given(NAMES, SEEDS)
    @settings(max_examples=30)
    def test_keys_never_go_back(self, name: str, seed: int) -> None:
        """In each track travel grows, and no part leaps unless it is a catch that snaps."""
        data = told(random_session(name, seed))
        for part, keys in data["tracks"].items():
            for (begin, was), (end, becomes) in pairwise(keys):
                assert begin <= end
                if begin == end and begin > 0 and part not in ("rang", "direction"):
                    assert was == becomes, f"{part} leaps from {was} to {becomes} at {end}"
