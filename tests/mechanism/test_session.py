"""A session in a file: taken up where it was left, at any point; damage is told and never written over."""

from __future__ import annotations

import json
import os
import re
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, strategies as st

from mechcalc import Machine, MachineSpec, SessionError
from mechcalc.state import cleared

from .machines import TRIAL, do, signs, specs, work
from .oracles import Arithmetic


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    """One folder for all examples of a property."""
    return tmp_path_factory.mktemp("sessions")


@pytest.fixture
def kept(tmp_path) -> Path:
    """A session in the middle of a carry: 999 + 1, the crank at 232 degrees, after strokes of every kind."""
    machine = Machine(TRIAL)
    machine.set(999)
    machine.turn()
    machine.shift(1)
    machine.ease_carriage(-1)
    machine.seat_carriage()
    machine.pull_clearing_lever("counter", 90.0)
    machine.return_clearing_lever("counter")
    machine.set_lever(1, 1)
    machine.clear_setting()
    machine.set(1)
    machine.crank(232.0)
    path = tmp_path / "lesson.json"
    machine.save(path)
    return path


def edited(path: Path, change) -> Path:
    """The session with something changed in its data."""
    data = json.loads(path.read_text(encoding="utf-8"))
    change(data)
    path.write_text(json.dumps(data), encoding="utf-8")
    return path


def complaint(path: Path) -> str:
    """What `load` says, which must begin with the file; and that nothing writes over it."""
    content = path.read_bytes()
    with pytest.raises(SessionError) as caught:
        Machine.load(path)
    with pytest.raises(SessionError, match=r"^not saved, so that nothing is lost: ") as kept_off:
        Machine(TRIAL).save(path)
    assert str(kept_off.value).endswith(". Save under another name, or move that file away")
    assert path.read_bytes() == content
    assert str(caught.value).startswith(f"{path}: ")
    return str(caught.value).removeprefix(f"{path}: ")


class TestRoundTrip:
    """Saved and taken up, a machine is the same machine."""

    @given(specs(), work, signs, st.floats(0, 359.999))
    def test_at_any_point(self, folder, spec, acts, direction, angle):
        """At rest or off rest: state, strokes, and what the next turn does."""
        machine, sums = Machine(spec), Arithmetic(spec)
        for act in acts:
            do(machine, sums, act)
        machine.crank(direction * angle)
        machine.save(folder / "any.json")
        again = Machine.load(folder / "any.json")
        assert again.spec == machine.spec
        assert again.state == machine.state
        assert again.strokes == machine.strokes
        assert again.would("crank", direction * 360.0) == machine.would("crank", direction * 360.0)

    def test_what_was_saved_can_be_undone(self, kept):
        """All the way back."""
        machine = Machine.load(kept)
        assert machine.state.angle == 232.0
        assert (machine.result, machine.state.levers) == (900, (False, True, False, False))
        while machine.undo():
            pass
        assert machine.state == cleared(TRIAL)

    def test_a_machine_that_did_not_start_from_zero(self, tmp_path):
        """Not even from rest: what was under way when it started is kept as well."""
        middle = Machine(TRIAL, state=replace(cleared(TRIAL), setting=(1, 0, 0), result=(9, 9, 9, 0)))
        middle.crank(232.0)
        machine = Machine(TRIAL, state=middle.state)
        machine.save(tmp_path / "a.json")
        again = Machine.load(tmp_path / "a.json")
        assert again.state == middle.state
        again.finish_turn()
        assert again.result == 1000

    def test_numpys_numbers_are_saved_as_plain_ones(self, tmp_path):
        """A session holds nothing but JSON."""
        import numpy as np
        machine = Machine(TRIAL)
        machine.set(np.int64(12))
        machine.crank(np.float32(90))
        machine.save(tmp_path / "a.json")
        assert Machine.load(tmp_path / "a.json").state == machine.state

    def test_saving_again_replaces_the_file(self, kept):
        """In one step; no other file is left behind."""
        machine = Machine.load(kept)
        machine.finish_turn()
        machine.save(str(kept))
        assert Machine.load(str(kept)).result == 1000
        assert os.listdir(kept.parent) == [kept.name]


class TestDamage:
    """Whatever is wrong with a file: a clear error, and it is never written over."""

    def test_cut_off_anywhere(self, kept):
        """At every fiftieth byte."""
        content = kept.read_bytes()
        assert len(content) > 1500
        for end in range(0, len(content) - 2, 50):
            kept.write_bytes(content[:end])
            assert re.match(r"line \d+, column \d+: .*; the file is damaged or no session$", complaint(kept))

    @pytest.mark.parametrize(("content", "said"), [
        (b"", "line 1, column 1: Expecting value; the file is damaged or no session"),
        (b"\x89PNG\r\n\x1a\n\x00", "is no session file (not text)"),
        (b"[1, 2]", "is no session file: \"kind\" is not 'mechcalc session'"),
        (b"7", "is no session file: \"kind\" is not 'mechcalc session'"),
        (b'{"kind": "letter"}', "is no session file: \"kind\" is not 'mechcalc session'"),
        (b'{"kind": ' + b"9" * 5000 + b"}", "is no session file: Exceeds the limit"),
        (b"[" * 100_000, "is no session file: maximum recursion depth"),
    ], ids=["empty", "picture", "list", "number", "other kind", "huge", "deep"])
    def test_what_is_no_session(self, tmp_path, content, said):
        """It may be somebody's only copy of something else."""
        path = tmp_path / "thesis.json"
        path.write_bytes(content)
        assert complaint(path).startswith(said)

    @pytest.mark.parametrize(("version", "said"), [(3, "3"), ("1", "'1'"), (True, "True"), (None, "None"),
                                                   (1.0, "1.0")])
    def test_another_version(self, kept, version, said):
        """Which one it is, and which one this kit reads."""
        edited(kept, lambda data: data.update(version=version))
        assert complaint(kept) == f"is of version {said}; this kit reads versions 1 to 2"

    @pytest.mark.parametrize("key", ["spec", "start", "strokes", "end"])
    def test_a_key_that_is_gone(self, kept, key):
        """Named."""
        edited(kept, lambda data: data.pop(key))
        assert complaint(kept) == f"'{key}' missing; the file is damaged"

    @pytest.mark.parametrize(("change", "said"), [
        (lambda data: data["strokes"][0].__setitem__(1, 998), '"end": result is [0, 0, 9, 0], but the strokes lead '
                                                              'to [9, 9, 9, 0]'),
        (lambda data: data["strokes"].pop(), '"end": result is [0, 0, 9, 0], but the strokes lead to [9, 9, 9, 0]'),
        (lambda data: data["strokes"][-1].__setitem__(1, 233.0), '"end": angle is 232.0, but the strokes lead to '
                                                                 '233.0'),
        (lambda data: data["strokes"].insert(2, ["shift", -1]), "stroke 3 ['shift', -1]: the carriage cannot go from "
                                                                "position 0 by -1: it stops at 0 and at 2"),
        (lambda data: data["strokes"].append(["set", 5]), "stroke 12 ['set', 5]: the setting levers are locked"),
        (lambda data: data["strokes"].append(["set"]), "stroke 12 ['set']: is not an operation and its argument"),
        (lambda data: data["strokes"].append(7), "stroke 12 7: is not an operation and its argument"),
        (lambda data: data["strokes"].append(["dance", 5]), "stroke 12 ['dance', 5]: 'dance' is no operation"),
        (lambda data: data["strokes"].append([["set"], 5]), "stroke 12 [['set'], 5]: ['set'] is no operation"),
        (lambda data: data["strokes"][0].__setitem__(1, "999"), "stroke 1 ['set', '999']: the setting must be a whole "
                                                                "number, not '999' (str)"),
        (lambda data: data.update(strokes={"set": 999}), '"strokes" is not a list'),
    ])
    def test_changed_strokes(self, kept, change, said):
        """The stroke that is refused, or where the end differs."""
        edited(kept, change)
        assert complaint(kept).startswith(said)

    @pytest.mark.parametrize(("key", "value", "said"), [
        ("result", [1, 0, 9, 0], "result is [1, 0, 9, 0], but the strokes lead to [0, 0, 9, 0]"),
        ("counter", [1, 0, 0], "counter is [1, 0, 0], but the strokes lead to [0, 0, 0]"),
        ("setting", [1, 0], "setting must be 3 digits, not [1, 0]"),
        ("levers", [False] * 4, "levers is [False, False, False, False], but the strokes lead to "
                                "[False, True, False, False]"),
        ("bell", True, "bell is True, but the strokes lead to False"),
        ("bell", 0, "bell cannot be 0"), ("carriage", 1, "carriage is 1, but the strokes lead to 0"),
        ("carriage", True, "carriage cannot be True"), ("carriage", 3, "carriage cannot be 3"),
        ("angle", 233, "angle is 233, but the strokes lead to 232.0"),
        ("angle", -1, "angle cannot be -1"), ("direction", -1, "direction is -1, but the strokes lead to 1"),
        ("under_way", [], "under_way is [], but the strokes lead to "),
    ])
    def test_changed_end(self, kept, key, value, said):
        """What the file says it came to is not what it comes to."""
        edited(kept, lambda data: data["end"].__setitem__(key, value))
        assert complaint(kept).startswith(f'"end": {said}')

    @pytest.mark.parametrize(("key", "value", "said"), [
        ("result", [10, 0, 0, 0], "result must be 4 digits, not [10, 0, 0, 0]"),
        ("result", [True, 0, 0, 0], "result must be 4 digits, not [True, 0, 0, 0]"),
        ("counter", "000", "counter must be 3 digits, not '000'"),
        ("levers", [0, 0, 0, 0], "levers must be 4 of true or false, not [0, 0, 0, 0]"),
        ("easing", 2, "easing cannot be 2"), ("counter_direction", 0, "counter_direction cannot be 0"),
        ("transfer", None, "transfer cannot be None"), ("direction", 1.0, "direction cannot be 1.0"),
        ("pulled_result", 91, "pulled_result cannot be 91"),
        ("pulled_counter", "far", "pulled_counter cannot be 'far'"),
        ("angle", float("nan"), "angle cannot be nan"),
        ("angle", 5, "the crank is at rest, but something is under way"),
        ("under_way", None, "under_way cannot hold None"), ("under_way", [3], "under_way cannot hold 3"),
    ])
    def test_changed_start(self, kept, key, value, said):
        """No machine of this spec stands like that."""
        edited(kept, lambda data: data["start"].__setitem__(key, value))
        assert complaint(kept) == f'"start": {said}'

    @pytest.mark.parametrize("change", [{"what": "dance"}, {"what": None}, {"place": 1}, {"place": 5}, {"place": True},
                                        {"side": 2}, {"side": 1.0}, {"angle": 100.0}, {"angle": 400.0}, {"angle": "x"},
                                        {"start": -1.0}, {"colour": "green"}])
    def test_changed_what_was_under_way(self, kept, change):
        """A pin of place 3 was deflected at 232; each field of that must make sense."""
        def start_in_the_middle(data):
            data.update(start=json.loads(json.dumps(data["end"])), strokes=[])
        edited(kept, start_in_the_middle)
        assert Machine.load(kept).state.deflected == ((1, 3),)
        edited(kept, lambda data: data["start"]["under_way"][0].update(change))
        assert complaint(kept).startswith('"start": under_way cannot hold {')

    @pytest.mark.parametrize(("spec", "said"), [
        ({"setting_places": 3}, '"spec": 3 rules are broken'), (None, '"spec": a machine is described by keys'),
        ([], '"spec": a machine is described by keys'), ({"gapp": 1}, '"spec": 5 rules are broken:\n  - \'gapp\' is no '
                                                                      "key of a machine: did you mean 'gap'?"),
    ])
    def test_changed_spec(self, kept, spec, said):
        """A machine that cannot be built."""
        edited(kept, lambda data: data.update(spec=spec))
        assert complaint(kept).startswith(said)

    def test_another_machine_in_the_file(self, kept):
        """A carry reach that is too short for these strokes shows at the end."""
        edited(kept, lambda data: data["spec"].update(gap=20.0))
        assert complaint(kept).startswith('"end": ')


class TestPlaces:
    """Where a session can be kept."""

    def test_no_such_file(self, tmp_path):
        """Said in plain words."""
        with pytest.raises(SessionError, match=r"nothing\.json: there is no such file$"):
            Machine.load(tmp_path / "nothing.json")

    def test_a_folder_is_no_session(self, tmp_path):
        """Neither to read nor to write over."""
        with pytest.raises(SessionError, match="cannot be read: Is a directory"):
            Machine.load(tmp_path)
        with pytest.raises(SessionError, match="not saved, so that nothing is lost: "):
            Machine(TRIAL).save(tmp_path)

    def test_nowhere_to_write(self, tmp_path):
        """A folder that is not there."""
        with pytest.raises(SessionError, match=r"a\.json: cannot be written: No such file or directory"):
            Machine(TRIAL).save(tmp_path / "nowhere" / "a.json")

    def test_a_failure_half_way_leaves_the_old_file(self, kept, monkeypatch):
        """Power gone, disk full: the session that was there is still there, and nothing else."""
        content = kept.read_bytes()

        def full(handle):
            raise OSError(28, "No space left on device")
        monkeypatch.setattr(os, "fsync", full)
        with pytest.raises(SessionError, match="cannot be written: No space left on device"):
            Machine(MachineSpec(setting_places=1, result_places=1, counter_places=1, carry_reach=1)).save(kept)
        assert kept.read_bytes() == content
        assert os.listdir(kept.parent) == [kept.name]
