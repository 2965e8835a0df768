"""The form's Python side: what is typed is found out at once, kept, saved, and taken up by another kernel."""

from __future__ import annotations

import json

import pytest

from mechcalc import InputError, load_spec
from mechcalc.own import MachineForm, machine_form
from mechcalc.own.form import LOST, NOT_KEPT
from mechcalc.own.questions import BY_FIELD, STEPS

GOOD = {"name": "the grey one", "setting_places": "9", "result_places": "13", "counter_places": "8",
        "carry_reach": "11", "counter_carry": "yes", "back_transfer": "no", "check_register": "no?",
        "angles": "usual"}


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.delenv("MECHCALC_PROGRESS", raising=False)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def type_in(form: MachineForm, **answers: str) -> dict:
    """As the page sends it: all answers, with a number."""
    form.typed = {"sent": form.typed["sent"] + 1, "answers": {**form.typed["answers"], **answers}}
    return form.found


def press(form: MachineForm, act: str, **more: object) -> dict:
    """A button; what the page is sent back."""
    sent = []
    form.send = sent.append
    form._asked(form, {"act": act, **more}, [])
    return sent[-1] if sent else {}


class TestTyping:
    """Every answer is looked at as it comes."""

    def test_what_the_page_is_told_once(self, folder):
        told = machine_form().told
        assert [step["title"] for step in told["steps"]] == [step.title for step in STEPS]
        assert {one["field"] for step in told["steps"] for one in step["questions"]} == set(BY_FIELD)
        assert all("<svg" in step["picture"] for step in told["steps"] if step["title"] not in ("A name", "A note"))
        assert json.loads(json.dumps(told)) == told

    def test_wrong_put_right(self, folder):
        form = machine_form()
        found = type_in(form, setting_places="9", carry_reach="8", positions="9", counter_places="8")
        assert found["problems"] == {
            "positions": ["each carriage position needs a number wheel and a counter wheel before place 1: 9 "
                          "positions, 8 counter wheels"],
            "carry_reach": ["the carry reach must cover the setting: carry reach 8, setting places 9"]}
        assert found["beside"] == {"counter_places": "carriage positions.", "setting_places": "carry reach."}
        assert found["sent"] == 1
        assert "takes 266 of the drum" in found["budget"]
        assert found["drum"].startswith("<svg")
        found = type_in(form, **GOOD, positions="")
        assert (found["problems"], found["lines"]) == ({}, [])
        assert found["fits"].startswith("The examples of ")
        assert found["table"].startswith("<table>")
        assert form.spec.setting_places == 9
        assert json.loads(json.dumps(found)) == found

    def test_an_unfinished_machine_is_tried_with_no_lesson(self, folder):
        found = machine_form().found
        assert (found["fits"], found["table"], found["drum"]) == ("", "", "")

    def test_its_repr_is_the_same_each_time(self, monkeypatch, tmp_path):
        """In the gate, where nothing is kept."""
        monkeypatch.chdir(tmp_path)
        monkeypatch.setenv("MECHCALC_PROGRESS", "")
        assert repr(machine_form()) == "<MachineForm my_machine.toml: 7 answers are missing>"
        assert NOT_KEPT in machine_form().found["verdict"]


class TestLosingNothing:
    """Kernels come and go."""

    def test_a_half_typed_answer_comes_back_in_a_new_kernel(self, folder):
        type_in(machine_form(), setting_places="nine", note="third sh")
        again = machine_form()
        assert again.typed["answers"] == {"setting_places": "nine", "note": "third sh"}
        assert again.found["problems"]["setting_places"]
        assert "Taken up from my_machine.draft.json: 2 answers." in again.found["verdict"]

    def test_a_broken_draft_is_told(self, folder):
        (folder / "my_machine.draft.json").write_bytes(b"{")
        assert "could not be taken up: it is damaged" in machine_form().found["verdict"]
        assert (folder / "my_machine.draft.set-aside-1.json").read_bytes() == b"{"

    def test_a_draft_that_cannot_be_written_is_told(self, folder, monkeypatch):
        from mechcalc.own import draft

        def refused(*_):
            raise OSError(13, "Permission denied")
        monkeypatch.setattr(draft, "write_whole", refused)
        assert "my_machine.draft.json cannot be written: Permission denied" in type_in(
            machine_form(), note="x")["verdict"]

    def test_begun_anew_what_there_was_stands_aside(self, folder):
        form = machine_form()
        type_in(form, **GOOD)
        assert press(form, "anew")["words"] == ["What you had typed is kept as my_machine.draft.set-aside-1.json."]
        assert form.typed["answers"] == {}
        assert form.found["lines"]
        assert not (folder / "my_machine.draft.json").exists()


class TestSaving:
    """A file that can be used at once, and nobody's file written over."""

    def test_saved_and_told_how_to_use_it(self, folder):
        form = machine_form()
        type_in(form, **GOOD)
        said = press(form, "save", replace=False)
        assert said["good"]
        assert said["words"][0] == f"Saved: {folder.resolve() / 'my_machine.toml'}"
        assert "    load_spec('my_machine.toml')" in said["words"]
        assert "    python3 -m mechcalc work \"347 x 26\" --machine my_machine.toml" in said["words"]
        assert load_spec("my_machine.toml") == form.spec
        assert "# guessed" in (folder / "my_machine.toml").read_text("utf-8")
        assert not (folder / "my_machine.draft.json").exists()
        assert "Saved as my_machine.toml." in form.found["verdict"]
        assert machine_form().findings.spec == form.spec

    def test_missing_answers_are_named_and_the_first_is_shown(self, folder):
        form = machine_form()
        type_in(form, setting_places="9")
        said = press(form, "save")
        assert not said["good"]
        assert said["words"][0].startswith("this machine cannot be saved yet: number wheels: not answered yet; ")
        assert said["focus"] == "result_places"

    def test_a_file_that_is_there_is_kept_unless_ticked(self, folder):
        (folder / "my_machine.toml").write_text("mine", encoding="utf-8")
        form = machine_form()
        type_in(form, **GOOD)
        said = press(form, "save", replace=False)
        assert said["words"] == [
            "my_machine.toml is there already, and is not written over unless you say so.",
            "To put this one in its place, tick the box above and save again."]
        assert (folder / "my_machine.toml").read_text("utf-8") == "mine"
        assert (folder / "my_machine.draft.json").exists()
        assert press(form, "save", replace=True)["good"]
        assert load_spec("my_machine.toml") == form.spec

    @pytest.mark.parametrize(("file", "said"), [
        ("mine", "mine: a machine's file is named something.toml."),
        ("nowhere/mine.toml", "nowhere/mine.toml cannot be written: No such file or directory.")])
    def test_a_place_that_is_none(self, folder, file, said):
        form = machine_form()
        type_in(form, **GOOD)
        form.file = file
        assert press(form, "save") == {"words": [said], "good": False, "focus": ""}
        assert (folder / "my_machine.draft.json").exists()

    @pytest.mark.parametrize("message", [None, "save", {}, {"act": "dance"}])
    def test_messages_that_are_none(self, folder, message):
        form = machine_form()
        form._asked(form, message, [])
        assert list(folder.iterdir()) == []

    def test_a_file_without_its_ending_is_refused_at_once(self, folder):
        with pytest.raises(InputError, match="a machine's file is named something"):
            machine_form("mine")


def test_the_page_is_one_module_and_says_what_to_do_when_python_is_gone():
    assert "export default {render};" in MachineForm._esm
    assert "import " not in MachineForm._esm.split("\n//")[0]
    assert machine_form("never.toml").told["lost"] == LOST
