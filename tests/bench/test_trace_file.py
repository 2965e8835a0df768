"""A tracing session in a file: there after every entry, taken up again, never written over by mistake."""

from __future__ import annotations

import json
import os
import re
from datetime import UTC, datetime

import pytest

from mechcalc import InputError, MachineSpec, SessionError
from mechcalc.bench import CarryLeverWeak, Machine
from mechcalc.bench.candidates import Test
from mechcalc.bench.prior import Prior
from mechcalc.bench.readings import Reading
from mechcalc.bench.trace_file import begin_trace, take_up_trace
from mechcalc.bench.tracing import readings_of

SMALL = MachineSpec(setting_places=2, result_places=3, counter_places=2, carry_reach=3, name="Trial")
NINES = Test.of("nines and one", "set 99; turn; read; set 1; turn; read", "carries")


def at_ten() -> datetime:
    return datetime(2031, 5, 4, 10, 0, tzinfo=UTC)


def begun(path, **more):
    given = {"label": "trial no. 3", "who": "A. Reader", "condition": "dusty", "clock": at_ten, **more}
    return begin_trace(path, SMALL, **given)


@pytest.fixture
def kept(tmp_path):
    """A session with two tests, one of them read in part only, and a note."""
    made = begun(tmp_path / "trial.json")
    real = Machine(SMALL, faults=[CarryLeverWeak(wheel=1)])
    made.record(NINES, readings_of(real, NINES))
    made.record(made.trace.tests[0], [{"counter": 3, "bell": False}])
    made.note("oil on the drum – much of it")
    return made


def same(one, other) -> bool:
    return (one.to_dict() == other.to_dict() and one.trace.history == other.trace.history
            and [str(e) for e in one.trace.explanations(500)] == [str(e) for e in other.trace.explanations(500)])


class TestTakingUp:
    """A session goes on where it was left."""

    def test_everything_entered_is_in_the_file_at_once(self, kept):
        again = take_up_trace(kept.path)
        assert same(kept, again)
        assert again.remarks == ()
        assert (again.label, again.who, again.condition) == ("trial no. 3", "A. Reader", "dusty")
        assert again.begun == again.times[0] == "2031-05-04T10:00:00+00:00"
        assert again.notes[0].text == "oil on the drum – much of it"

    def test_it_goes_on_and_is_saved_on(self, kept):
        again = take_up_trace(kept.path, clock=at_ten)
        again.record(NINES, [None, {"result": 100}])
        assert len(take_up_trace(kept.path).trace.history) == 3

    def test_what_is_taken_back_is_gone_from_the_file(self, kept):
        last = kept.take_back()
        assert last.test == kept.trace.tests[0]
        again = take_up_trace(kept.path)
        assert len(again.trace.history) == len(again.times) == 1
        assert again.take_back().test == NINES
        assert again.take_back() is None

    def test_prior_options_and_own_tests_come_back(self, tmp_path):
        prior = Prior(sound=0.5, kinds={"carry pin gone": 3.0})
        kept = begun(tmp_path / "own.json", prior=prior, pairs=False, tests=[NINES], misreadings=0, worth=0.5)
        trace = take_up_trace(kept.path).trace
        assert (trace.prior, trace.pairs, trace.misreadings, trace.worth) == (prior, False, 0, 0.5)
        assert trace.tests == (NINES,)

    def test_a_test_under_way_is_kept_and_does_not_count(self, kept):
        left = kept.trace.left
        kept.keep_draft(NINES, [{"result": 99}])
        again = take_up_trace(kept.path)
        assert (again.draft.test, again.draft.readings) == (NINES, (Reading(result=99),))
        assert again.trace.left == left
        again.record(NINES, [*again.draft.readings, {"result": 100}])
        assert again.draft is None
        assert take_up_trace(kept.path).draft is None

    def test_a_test_under_way_can_be_forgotten(self, kept):
        kept.keep_draft(NINES, [None])
        kept.keep_draft(NINES, [])
        assert take_up_trace(kept.path).draft is None

    def test_a_whole_test_is_no_draft(self, kept):
        with pytest.raises(InputError, match="something is read at 2 places, and 2 of them are not a part"):
            kept.keep_draft(NINES, [None, None])

    def test_the_head_can_be_changed(self, kept):
        kept.describe(condition="cleaned", who="B. Writer")
        assert (take_up_trace(kept.path).condition, take_up_trace(kept.path).label) == ("cleaned", "trial no. 3")
        with pytest.raises(InputError, match="'colour' is not at the head of a session"):
            kept.describe(colour="grey")

    def test_a_model_that_has_changed_is_told_and_takes_nothing_away(self, kept):
        data = json.loads(kept.path.read_text(encoding="utf-8"))
        left = data["done"][0]["left"]
        data["done"][0]["left"] = left + 5
        kept.path.write_text(json.dumps(data), encoding="utf-8")
        again = take_up_trace(kept.path)
        assert len(again.trace.history) == 2
        assert re.fullmatch(rf"after test 1, nines and one, {left + 5} explanations were left when it was entered, and "
                            rf"now {left} are: .*", again.remarks[0])

    def test_repr(self, kept):
        assert repr(kept) == f"<KeptTrace of trial no. 3: 2 tests, {kept.trace.left} explanations left>"


class TestNothingIsLost:
    """Files that are something else are left alone, and what cannot be saved is not recorded."""

    @pytest.mark.parametrize("content", ["", "notes of mine", '{"kind": "mechcalc session"}'])
    def test_a_new_session_takes_no_file_that_is_there(self, tmp_path, content):
        path = tmp_path / "mine.json"
        path.write_text(content)
        with pytest.raises(SessionError, match="not saved, so that nothing is lost: there is a file already"):
            begun(path)
        assert path.read_text() == content

    @pytest.mark.parametrize("enter", [lambda kept: kept.record(NINES, [{"result": 99}, None]),
                                       lambda kept: kept.take_back(), lambda kept: kept.keep_draft(NINES, [None]),
                                       lambda kept: kept.note("late"),
                                       lambda kept: kept.describe(who="C. Third")])
    def test_a_file_that_somebody_else_changed_is_left_alone(self, kept, enter):
        """And the session stands as it stood before the entry."""
        other = take_up_trace(kept.path)
        other.note("from the other desk")
        content, before = kept.path.read_bytes(), kept.to_dict()
        with pytest.raises(SessionError, match="somebody else has changed the file since it was read"):
            enter(kept)
        assert kept.path.read_bytes() == content
        assert kept.to_dict() == before

    def test_a_full_disk(self, kept, monkeypatch):
        content, before = kept.path.read_bytes(), kept.to_dict()

        def full(_handle):
            raise OSError(28, "No space left on device")
        monkeypatch.setattr(os, "fsync", full)
        with pytest.raises(SessionError, match="cannot be written: No space left on device"):
            kept.record(NINES, [{"result": 99}, None])
        assert kept.path.read_bytes() == content
        assert kept.to_dict() == before
        assert [path.name for path in kept.path.parent.iterdir()] == ["trial.json"]

    def test_a_file_that_was_moved_away_is_written_again(self, kept):
        kept.path.unlink()
        kept.note("moved")
        assert take_up_trace(kept.path).notes[-1].text == "moved"

    def test_a_reading_that_cannot_be_changes_nothing(self, kept):
        before = kept.path.read_bytes()
        with pytest.raises(InputError, match="the result cannot show 1000"):
            kept.record(NINES, [{"result": 1000}, None])
        assert kept.path.read_bytes() == before
        assert len(kept.trace.history) == len(kept.times) == 2


DAMAGE = {
    "kind": (lambda d: d.update(kind="shopping list"), "\"kind\" is not 'mechcalc bench trace'"),
    "version": (lambda d: d.update(version=2), "is of version 2; this kit reads version 1"),
    "truth for a version": (lambda d: d.update(version=True), "is of version True"),
    "a key gone": (lambda d: d.pop("notes"), "'notes' missing"),
    "label": (lambda d: d.update(label=7), "\"label\" is a text, not 7"),
    "time": (lambda d: d.update(begun="yesterday"), "\"begun\" is a time such as"),
    "spec": (lambda d: d["spec"].update(carry_reach=99), "\"spec\": carry reach cannot be 99"),
    "prior": (lambda d: d["prior"].update(sound=2), "the prior's sound cannot be 2"),
    "prior's kinds": (lambda d: d["prior"].update(kinds=[1]), "\"prior\": kinds cannot be [1]"),
    "options": (lambda d: d["options"].pop("worth"), "\"options\" must hold misreadings, pairs, worth"),
    "option": (lambda d: d["options"].update(misreadings=True), "\"options\": misreadings cannot be True"),
    "endless": (lambda d: d["options"].update(worth=float("inf")), "\"options\": worth cannot be inf"),
    "tests": (lambda d: d.update(tests=[{"name": "x"}]), "\"tests\" 1 must hold name, steps, looks at"),
    "done": (lambda d: d.update(done={}), "\"done\" is a list, not {}"),
    "a step": (lambda d: d["done"][1]["test"].update(steps="jump; read"), "\"done\" 2: 'jump' is no step"),
    "a reading": (lambda d: d["done"][0]["read"][1].update(counter=100),
                  "\"done\" 1: nines and one, reading 2: the counter cannot show 100"),
    "readings": (lambda d: d["done"][0]["read"].pop(), "\"done\" 1: nines and one: something is read at 2 places"),
    "a draft": (lambda d: d.update(draft={"test": d["done"][0]["test"], "read": [{"result": -1}]}),
                "\"draft\", reading 1: the result cannot show -1"),
    "a note": (lambda d: d["notes"][0].update(text=None), "\"notes\" 1 is a text, not None"),
    "half a character": (lambda d: d["notes"][0].update(text="\ud800"), "\"notes\" 1 holds half a character"),
}


class TestDamage:
    """What is wrong is told with its place in the file, and the file stays as it is."""

    @pytest.mark.parametrize("name", DAMAGE)
    def test_of_the_data(self, kept, name):
        change, said = DAMAGE[name]
        data = json.loads(kept.path.read_text(encoding="utf-8"))
        change(data)
        kept.path.write_text(json.dumps(data), encoding="utf-8")
        with pytest.raises(SessionError) as error:
            take_up_trace(kept.path)
        assert str(error.value).startswith(f"{kept.path}: ")
        assert said in str(error.value)

    @pytest.mark.parametrize("cut", [0, 1, 40, 400])
    def test_of_the_text(self, kept, cut):
        content = kept.path.read_bytes()[:cut]
        kept.path.write_bytes(content)
        with pytest.raises(SessionError, match=r"line \d+, column \d+: .*; the file is damaged or is no bench session"):
            take_up_trace(kept.path)
        assert kept.path.read_bytes() == content

    def test_what_is_no_text(self, kept):
        kept.path.write_bytes(b"\xff\xfe\x00")
        with pytest.raises(SessionError, match="is no bench session"):
            take_up_trace(kept.path)

    def test_what_is_not_there(self, tmp_path):
        with pytest.raises(SessionError, match="there is no such file"):
            take_up_trace(tmp_path / "none.json")

    def test_a_folder(self, tmp_path):
        with pytest.raises(SessionError, match="cannot be read"):
            take_up_trace(tmp_path)
