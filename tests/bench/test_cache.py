"""Dictionaries kept in files: the same answers, and never those of something else."""

from __future__ import annotations

import os
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from mechcalc import MachineSpec
from mechcalc.bench import CarryTimingLate, cache, every_fault
from mechcalc.bench.cache import folder, kept_dictionary, key
from mechcalc.bench.candidates import candidates
from mechcalc.bench.dictionary import fault_dictionary

SMALL = MachineSpec(setting_places=1, result_places=2, counter_places=1, carry_reach=2, name="Trial")


@pytest.fixture(autouse=True)
def place(tmp_path, monkeypatch):
    monkeypatch.setenv("MECHCALC_CACHE", str(tmp_path / "kept"))
    return tmp_path / "kept"


def files(place: Path) -> list[Path]:
    return sorted(place.glob("*")) if place.exists() else []


class TestKeeping:
    """What was worked out once is read from then on."""

    @pytest.mark.parametrize("pairs", [False, True])
    def test_the_same_answers(self, place, pairs):
        plain = fault_dictionary(SMALL, pairs=pairs)
        told: list[tuple[int, int]] = []
        first = kept_dictionary(SMALL, pairs=pairs, told=lambda *step: told.append(step))
        assert told == [(1, 1)]
        again = kept_dictionary(SMALL, pairs=pairs, told=lambda *step: pytest.fail("worked out a second time"))
        for book in (first, again):
            assert np.array_equal(book.answers, plain.answers)
            assert np.array_equal(book.seats, plain.seats)
            assert (book.answers.dtype, book.faults, book.tests) == (plain.answers.dtype, plain.faults, plain.tests)
        assert len(files(place)) == 1

    def test_a_machine_s_name_is_not_its_build(self, place):
        kept_dictionary(SMALL)
        other = kept_dictionary(replace(SMALL, name="Another", note="the same inside"))
        assert other.spec.name == "Another"
        assert len(files(place)) == 1

    @pytest.mark.parametrize("change", [
        {"spec": replace(SMALL, carry_reach=3)}, {"spec": replace(SMALL, gap=2.5)}, {"pairs": True},
        {"faults": every_fault(SMALL)[:-1]}, {"faults": (*every_fault(SMALL)[:-1], CarryTimingLate(by=9.25))},
        {"tests": candidates(SMALL)[1:]}, {"tests": candidates(SMALL)[::-1]}])
    def test_whatever_answers_follow_from_is_in_the_name(self, change):
        usual = {"spec": SMALL, "faults": every_fault(SMALL), "tests": candidates(SMALL), "pairs": False}
        assert key(**usual) != key(**{**usual, **change})

    def test_the_code_is_too(self, monkeypatch):
        usual = SMALL, every_fault(SMALL), candidates(SMALL), False
        before = key(*usual)
        monkeypatch.setattr(cache, "_code", lambda: "other code")
        assert key(*usual) != before

    def test_all_code_that_answers_follow_from_is_looked_at(self):
        found = {path.name for pattern in cache.CODE for path in (
            cache.HERE.glob(pattern) if "*" in pattern else [cache.HERE / pattern])}
        assert {"engine.py", "turns.py", "tables.py", "lanes.py", "steps.py", "dictionary.py", "layout.py"} <= found
        assert all((cache.HERE / pattern).exists() for pattern in cache.CODE if "*" not in pattern)


class TestWhatGoesWrong:
    """Damage is told and worked round; where nothing can be kept, the work is done all the same."""

    @pytest.mark.parametrize("damage", [lambda data: b"", lambda data: data[:-30],
                                        lambda data: b"PK\x03\x04" + data[9:],
                                        lambda data: data[:200] + bytes([data[200] ^ 255]) + data[201:],
                                        lambda data: b"something else"])
    def test_a_damaged_file_is_told_and_made_anew(self, place, damage):
        plain = kept_dictionary(SMALL)
        (path,) = files(place)
        good = path.read_bytes()
        path.write_bytes(damage(good))
        said: list[str] = []
        book = kept_dictionary(SMALL, say=said.append)
        assert np.array_equal(book.answers, plain.answers)
        assert said == [said[0]]
        assert said[0].startswith(f"{path}: is damaged (")
        assert said[0].endswith("); it is worked out anew")
        assert kept_dictionary(SMALL, say=lambda text: pytest.fail(text)).answers.any()

    def test_a_file_of_another_shape(self, place):
        kept_dictionary(SMALL)
        (path,) = files(place)
        with open(path, "wb") as file:
            np.savez(file, answers=np.zeros((2, 2), np.uint16))
        said: list[str] = []
        kept_dictionary(SMALL, say=said.append)
        assert "it holds uint16 of shape (2, 2), not whole numbers of shape" in said[0]

    def test_a_place_that_cannot_be_written(self, tmp_path, monkeypatch):
        (tmp_path / "file").write_text("in the way")
        monkeypatch.setenv("MECHCALC_CACHE", str(tmp_path / "file"))
        said: list[str] = []
        assert kept_dictionary(SMALL, say=said.append).answers.any()
        assert "cannot be kept: " in said[0]

    def test_a_full_disk_leaves_nothing_behind(self, place, monkeypatch):
        def full(_handle):
            raise OSError(28, "No space left on device")
        monkeypatch.setattr(os, "fsync", full)
        said: list[str] = []
        kept_dictionary(SMALL, say=said.append)
        assert said[0].endswith("cannot be kept: No space left on device")
        assert files(place) == []

    def test_the_ones_not_used_for_longest_go(self, place, monkeypatch):
        monkeypatch.setattr(cache, "MOST", 2)
        tests = candidates(SMALL)
        for number in range(1, 4):
            kept_dictionary(SMALL, tests=tests[:number])
            for path in files(place):  # older by an hour with every round
                os.utime(path, (path.stat().st_atime - 3600, path.stat().st_mtime - 3600))
        names = {path.stem for path in files(place)}
        assert names == {key(SMALL, every_fault(SMALL), tests[:number], False) for number in (2, 3)}


class TestWhere:
    """A folder of the user's cache, one that is named, or none."""

    def test_none(self, monkeypatch):
        monkeypatch.setenv("MECHCALC_CACHE", "")
        assert folder() is None
        assert kept_dictionary(SMALL).answers.any()

    @pytest.mark.parametrize(("system", "given", "wanted"), [
        ("linux", {"XDG_CACHE_HOME": "{tmp}/c"}, "c/mechcalc"), ("linux", {"XDG_CACHE_HOME": ""}, "h/.cache/mechcalc"),
        ("linux", {"XDG_CACHE_HOME": "beside/it"}, "h/.cache/mechcalc"), ("darwin", {}, "h/Library/Caches/mechcalc"),
        ("win32", {"LOCALAPPDATA": "{tmp}/l"}, "l/mechcalc"), ("win32", {"LOCALAPPDATA": ""},
                                                               "h/AppData/Local/mechcalc")])
    def test_of_the_platform(self, tmp_path, monkeypatch, system, given, wanted):
        """A relative XDG_CACHE_HOME is to be ignored (XDG Base Directory Specification, from memory)."""
        monkeypatch.delenv("MECHCALC_CACHE")
        monkeypatch.setattr("sys.platform", system)
        monkeypatch.setattr(Path, "home", lambda: tmp_path / "h")
        for name, value in given.items():
            monkeypatch.setenv(name, value.format(tmp=tmp_path))
        assert folder() == tmp_path / wanted
