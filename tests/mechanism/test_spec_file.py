"""A machine's file says what it holds, reads back as the same machine, and takes nobody's place.

Oracle from outside the project: the standard library's TOML reader (TOML 1.0.0).
"""

from __future__ import annotations

import errno
import os
import subprocess
import sys
import tomllib

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError, MachineSpec, SpecError, load_spec, machine_names
from mechcalc.spec_file import ORIGINS, PARTS, read_origins, spec_text, write_spec

from .machines import TRIAL, specs

FIELDS = [field for _, fields in PARTS for field in fields]
texts = st.text(max_size=30) | st.sampled_from(
    ['"', '"""', "\\", "\\u0041", "a\r\nb", "\t\x00\x1f\x7f\x85\u2028", "# no comment", "é€😀", " two  spaces ", "'''"])


@st.composite
def described(draw) -> MachineSpec:
    """Any machine, with any name and note that a file can hold."""
    keep = {"name": draw(texts), "note": draw(texts), "back_transfer": draw(st.booleans()),
            "check_register": draw(st.booleans())}
    if draw(st.booleans()):  # built too late on purpose, with figures that have no short decimal form
        keep |= {"allow_faulty_timing": True, "gap": draw(st.floats(0, 2)), "lever_throw": draw(st.floats(0, 360))}
    spec = draw(specs())
    return MachineSpec.from_dict({**spec.to_dict(), **{key: value for key, value in keep.items()
                                                       if key != "gap" or value <= spec.gap}})


class TestRoundTrip:
    """What is written is what was meant."""

    @given(spec=described(), origins=st.dictionaries(st.sampled_from(FIELDS), st.sampled_from(ORIGINS)))
    def test_any_machine_reads_back_as_itself(self, spec, origins, tmp_path_factory):
        """Every field, to the last bit of an angle; and every figure's origin."""
        path = tmp_path_factory.mktemp("machine") / "mine.toml"
        write_spec(spec, path, origins=origins)
        assert load_spec(path) == spec
        assert read_origins(path) == origins
        assert tomllib.loads(path.read_text(encoding="utf-8")) == {
            key: value for key, value in spec.to_dict().items() if key != "allow_faulty_timing" or value}

    @pytest.mark.parametrize("name", machine_names())
    def test_the_catalogue_too(self, name, tmp_path):
        assert load_spec(write_spec(load_spec(name), tmp_path / "copy.toml")) == load_spec(name)

    def test_an_empty_name_stays_empty(self, tmp_path):
        """It does not turn into the file's name."""
        assert load_spec(write_spec(TRIAL, tmp_path / "attic.toml")).name == ""

    def test_half_a_character_is_refused(self):
        with pytest.raises(InputError, match=r"the note holds '.ud83d', half a character, which no text file can hold"):
            spec_text(MachineSpec.from_dict({**TRIAL.to_dict(), "note": "x\ud83d"}))

    def test_a_name_cannot_break_out_of_the_head(self):
        """Line ends and control characters stay in the string and out of the comment."""
        name = 'a\nsetting_places = 1\r# "b"\x00'
        text = spec_text(MachineSpec.from_dict({**TRIAL.to_dict(), "name": name}))
        assert tomllib.loads(text)["name"] == name
        assert tomllib.loads(text)["setting_places"] == TRIAL.setting_places


class TestExplainingItself:
    """The head says what the keys are."""

    def test_every_key_is_explained(self):
        head, _, _ = spec_text(TRIAL).partition("\nname = ")
        for field in TRIAL.to_dict():
            assert field in head or field == "allow_faulty_timing", field
        assert all(word in head for word in ("degrees", "Rules:", "Example:", *ORIGINS))

    def test_its_example_names_the_file(self, tmp_path):
        assert 'load_spec("attic.toml")' in write_spec(TRIAL, tmp_path / "attic.toml").read_text(encoding="utf-8")

    def test_lateness_is_written_down_only_where_it_is_meant(self):
        """A bench machine says that it is one."""
        late = MachineSpec.from_dict({**TRIAL.to_dict(), "gap": 0.0, "allow_faulty_timing": True})
        assert "# for the test bench: carries may come too late\nallow_faulty_timing = true" in spec_text(late)
        assert "allow_faulty_timing" not in spec_text(TRIAL)

    @pytest.mark.parametrize(("origins", "said"), [
        ({"colour": "counted"}, "'colour' is no figure of a machine: the figures are back_transfer, "),
        ({"gap": "heard"}, "gap is counted, measured or guessed, not 'heard'")])
    def test_origins_that_are_none(self, origins, said):
        with pytest.raises(InputError) as caught:
            spec_text(TRIAL, origins=origins)
        assert str(caught.value).startswith(said)

    def test_only_a_spec_is_written(self):
        with pytest.raises(InputError, match="a machine's file is written from a MachineSpec, not from 7"):
            spec_text(7)


class TestTakingNobodysPlace:
    """A file that is there stays, and a failure leaves nothing behind."""

    def test_a_file_that_is_there(self, tmp_path):
        path = tmp_path / "mine.toml"
        path.write_text("mine", encoding="utf-8")
        with pytest.raises(InputError, match="is there already, and is not written over unless you say so"):
            write_spec(TRIAL, path)
        assert path.read_text(encoding="utf-8") == "mine"
        write_spec(TRIAL, path, replace=True)
        assert load_spec(path) == MachineSpec.from_dict(TRIAL.to_dict())
        assert os.listdir(tmp_path) == ["mine.toml"]

    @pytest.mark.parametrize("name", ["mine", "mine.txt", ""])
    def test_a_name_that_load_spec_would_not_take_for_a_file(self, name, tmp_path):
        with pytest.raises(InputError, match=r"a machine's file is named something\.toml"):
            write_spec(TRIAL, tmp_path / name if name else name)
        assert os.listdir(tmp_path) == []

    def test_a_folder_that_is_not_there(self, tmp_path):
        with pytest.raises(InputError, match="cannot be written: No such file or directory"):
            write_spec(TRIAL, tmp_path / "nowhere" / "mine.toml")

    def test_a_disk_that_fills_up_leaves_what_was_there(self, tmp_path, monkeypatch):
        path = write_spec(TRIAL, tmp_path / "mine.toml")
        before = path.read_bytes()

        def full(_):
            raise OSError(errno.ENOSPC, "No space left on device")
        monkeypatch.setattr(os, "fsync", full)
        for replace in (True, False):
            to = path if replace else tmp_path / "other.toml"
            with pytest.raises(InputError, match="cannot be written: No space left on device"):
                write_spec(load_spec("slate"), to, replace=replace)
        assert path.read_bytes() == before
        assert os.listdir(tmp_path) == ["mine.toml"]

    def test_without_second_names_for_a_file(self, tmp_path, monkeypatch):
        """On a file system that knows no hard links the first one there still keeps its place."""
        def unknown(*_):
            raise OSError(errno.EPERM, "Operation not permitted")
        monkeypatch.setattr(os, "link", unknown)
        path = write_spec(TRIAL, tmp_path / "mine.toml")
        with pytest.raises(InputError, match="is there already"):
            write_spec(load_spec("slate"), path)
        assert load_spec(path).setting_places == TRIAL.setting_places
        assert os.listdir(tmp_path) == ["mine.toml"]

    def test_origins_of_a_file_that_is_not_there(self, tmp_path):
        with pytest.raises(SpecError, match="cannot be read"):
            read_origins(tmp_path / "mine.toml")


def test_it_needs_the_standard_library_only():
    code = ("import sys, mechcalc.spec_file; raise SystemExit(bool({'numpy', 'sympy', 'matplotlib', 'ipywidgets'} & "
            "set(sys.modules)))")
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
