"""Nothing typed is lost: a draft is kept beside the machine's file, taken up again, and never thrown away."""

from __future__ import annotations

import errno
import json

import pytest
from hypothesis import given

from mechcalc import InputError, load_spec
from mechcalc.catalogue import shipped
from mechcalc.own import draft as drafts, findings
from mechcalc.own.draft import KIND, VERSION, Draft, answers_of_file
from mechcalc.own.questions import BY_FIELD

from .descriptions import described

TYPED = {"setting_places": "nine", "note": "„third shelf“\n", "carry_reach": "11?"}


@pytest.fixture(autouse=True)
def kept(monkeypatch):
    """As on a learner's computer: answers are kept."""
    monkeypatch.delenv("MECHCALC_PROGRESS", raising=False)


@pytest.fixture
def draft(tmp_path):
    return Draft(tmp_path / "mine.toml")


class TestKeeping:
    """What was typed comes back, wrong and half-typed answers too."""

    def test_typed_and_taken_up(self, draft, tmp_path):
        draft.keep(TYPED)
        again = Draft(tmp_path / "mine.toml")
        assert again.take_up() == TYPED
        assert again.told == "Taken up from mine.draft.json: 3 answers."

    def test_nothing_is_written_before_something_is_typed(self, draft, tmp_path):
        assert (draft.take_up(), draft.told) == ({}, "")
        assert list(tmp_path.iterdir()) == []

    def test_it_is_readable_and_says_what_it_is(self, draft):
        draft.keep(TYPED)
        assert json.loads(draft.path.read_text(encoding="utf-8")) == {
            "kind": "mechcalc machine draft", "version": 1, "answers": TYPED}

    def test_a_full_disk_leaves_what_was_kept(self, draft, monkeypatch):
        draft.keep(TYPED)

        def full(*_):
            raise OSError(errno.ENOSPC, "No space left on device")
        monkeypatch.setattr(drafts, "write_whole", full)
        with pytest.raises(InputError, match=r"mine\.draft\.json cannot be written: No space left on device"):
            draft.keep({})
        assert draft.take_up() == TYPED

    def test_where_nothing_is_to_be_kept_nothing_is_read_or_written(self, draft, monkeypatch, tmp_path):
        """`MECHCALC_PROGRESS=` is how checks and tests run lessons."""
        draft.keep(TYPED)
        monkeypatch.setenv("MECHCALC_PROGRESS", "")
        assert draft.take_up() == {}
        draft.keep({"note": "x"})
        draft.done()
        assert draft.anew() is None
        monkeypatch.delenv("MECHCALC_PROGRESS")
        assert draft.take_up() == TYPED

    def test_saved_is_no_draft_any_more(self, draft, tmp_path):
        draft.keep(TYPED)
        draft.done()
        draft.done()
        assert list(tmp_path.iterdir()) == []

    def test_begun_anew_it_stands_aside(self, draft, tmp_path):
        draft.keep(TYPED)
        assert draft.anew().name == "mine.draft.set-aside-1.json"
        draft.keep({"note": "x"})
        assert draft.anew().name == "mine.draft.set-aside-2.json"
        assert json.loads((tmp_path / "mine.draft.set-aside-1.json").read_text("utf-8"))["answers"] == TYPED
        assert draft.anew() is None


class TestBrokenDrafts:
    """Put aside under a name of their own, and told."""

    @pytest.mark.parametrize(("content", "why"), [
        (b'{"kind": "mechcalc machine dr', "it is damaged"), (b"\xff\xfe", "it is damaged"),
        (b"[" * 100_000, "it is damaged"), (b"", "it is damaged"),
        (b"[]", "it is no draft of a machine"), (b'{"kind": "mechcalc copies", "version": 1}',
                                                 "it is no draft of a machine"),
        (json.dumps({"kind": KIND, "version": VERSION + 1, "answers": {}}).encode(),
         "it was written by another version of the kit"),
        (json.dumps({"kind": KIND, "version": VERSION, "answers": {"colour": "green"}}).encode(),
         "it holds something else than answers"),
        (json.dumps({"kind": KIND, "version": VERSION, "answers": {"note": 7}}).encode(),
         "it holds something else than answers"),
        (json.dumps({"kind": KIND, "version": VERSION}).encode(), "it holds something else than answers")],
        ids=range(10))
    def test_one(self, draft, tmp_path, content, why):
        draft.path.write_bytes(content)
        assert draft.take_up() == {}
        assert draft.told == (f"mine.draft.json could not be taken up: {why}. It is kept as "
                              f"mine.draft.set-aside-1.json.")
        assert (tmp_path / "mine.draft.set-aside-1.json").read_bytes() == content
        assert Draft(tmp_path / "mine.toml").take_up() == {}

    def test_one_that_cannot_be_read_stays(self, draft):
        draft.path.mkdir()
        assert draft.take_up() == {}
        assert draft.told.startswith("mine.draft.json cannot be read (")
        assert draft.path.is_dir()


class TestASavedMachine:
    """Where there is no draft, a saved machine is taken up as it would be typed."""

    @given(described())
    def test_its_file_gives_the_answers_that_give_it(self, tmp_path_factory, one):
        spec, answers, _ = one
        path = findings(answers).save(tmp_path_factory.mktemp("own") / "mine.toml")
        again = findings(Draft(path).take_up())
        assert again.spec == spec
        assert again.origins == findings(answers).origins

    def test_usual_angles_are_taken_up_as_such(self, tmp_path):
        answers = {"setting_places": "9", "result_places": "13", "counter_places": "8", "carry_reach": "11",
                   "counter_carry": "yes", "back_transfer": "no?", "check_register": "no"}
        path = findings(answers).save(tmp_path / "mine.toml")
        assert answers_of_file(path) == {**dict.fromkeys(BY_FIELD, ""), **answers, "angles": "usual", "name": "mine"}

    def test_a_draft_goes_before_the_file(self, draft):
        draft.file.write_text("setting_places = 1\n", encoding="utf-8")
        draft.keep(TYPED)
        assert draft.take_up() == TYPED

    def test_a_file_that_describes_no_machine_is_told_and_left(self, draft):
        draft.file.write_text("setting_places = 1\n", encoding="utf-8")
        assert draft.take_up() == {}
        assert draft.told.startswith("mine.toml is there, and cannot be taken up: 'result_places' is missing; ")
        assert draft.file.is_file()

    def test_a_machine_from_the_catalogue(self, tmp_path):
        """Written by nobody's form: every figure is taken as measured."""
        path = tmp_path / "slate.toml"
        path.write_bytes((shipped("data") / "machines" / "slate.toml").read_bytes())
        assert findings(answers_of_file(path)).spec == load_spec("slate")


@pytest.mark.parametrize("name", ["mine", "mine.json"])
def test_a_file_that_is_no_machines(name):
    with pytest.raises(InputError, match=r"a machine's file is named something\.toml"):
        Draft(name)
