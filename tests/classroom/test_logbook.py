"""A learner's answers in a file of their own: what is written, what survives, what is listed."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from datetime import datetime
from pathlib import Path
from types import SimpleNamespace

import pytest
from hypothesis import given, strategies as st

from mechcalc.classroom import foretold, logbook, look_over, worked_out
from mechcalc.classroom.exercises import Exercise, Slip, enter, exercises_of
from mechcalc.classroom.logbook import FILE, VARIABLE, BadLine, entries, writable
from mechcalc.setup.copies import OURS
from mechcalc.setup.lab import surroundings

SLOW = next(exercise for exercise in exercises_of("tens_carry") if exercise.label == "slow levers")


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """A learner's corner, as `open` names it to the kernel."""
    monkeypatch.setattr(logbook, "_said_so", False)
    monkeypatch.delenv("JPY_SESSION_NAME", raising=False)
    monkeypatch.setenv(VARIABLE, str(tmp_path / "corner"))
    return tmp_path / "corner"


def lines(folder: Path) -> list[dict]:
    return [json.loads(line) for line in (folder / FILE).read_text("utf-8").splitlines()]


class TestWhatIsKept:
    """A line for each answer, with all that a reader needs."""

    def test_right_slip_wrong_and_unreadable(self, folder, monkeypatch, capsys):
        monkeypatch.setattr(logbook, "now", lambda: "2031-03-04T09:15:02+00:00")
        for answer in (SLOW.right(), SLOW.slips[0].answer(), 99, 3.5):
            look_over("slow levers", answer)
        common = {"format": 1, "when": "2031-03-04T09:15:02+00:00", "kind": "answer", "lesson": "tens_carry",
                  "about": "slow levers"}
        assert lines(folder) == [
            {**common, "given": SLOW.right(), "outcome": "right", "slip": None},
            {**common, "given": SLOW.slips[0].answer(), "outcome": "slip", "slip": SLOW.slips[0].says},
            {**common, "given": 99, "outcome": "wrong", "slip": None},
            {**common, "given": "3.5", "outcome": "unreadable", "slip": None}]

    def test_a_prediction_and_what_came_true(self, folder, monkeypatch, capsys):
        monkeypatch.setenv("JPY_SESSION_NAME", "some/where/tens_carry.new-version.ipynb")
        foretold("1 000", 1000)
        foretold([9, 9, 0], (0, 0, 1))
        foretold("no", True)
        foretold("many", 1000)
        assert [(line["kind"], line["lesson"], line["about"], line["given"], line["happened"], line["outcome"])
                for line in lines(folder)] == [
            ("prediction", "tens_carry", None, 1000, 1000, "right"),
            ("prediction", "tens_carry", None, [9, 9, 0], [0, 0, 1], "wrong"),
            ("prediction", "tens_carry", None, "no", "yes", "wrong"),
            ("prediction", "tens_carry", None, "'many'", 1000, "unreadable")]

    @pytest.mark.parametrize(("message", "cell"), [
        ({"metadata": {"cellId": "question-run"}}, "question-run"), ({"metadata": {}}, None), ({}, None),
        ({"metadata": {"cellId": 7}}, None), (None, None)])
    def test_the_cell_of_a_prediction_where_jupyterlab_tells_it(self, monkeypatch, message, cell):
        """It sends the cell's id with every request to run one; tests/browser sees the real thing."""
        shell = SimpleNamespace(get_parent=lambda: message)
        monkeypatch.setitem(sys.modules, "IPython", SimpleNamespace(get_ipython=lambda: shell))
        assert logbook.cell() == cell

    def test_the_time_says_its_offset(self):
        assert datetime.fromisoformat(logbook.now()).utcoffset() is not None

    def test_none_is_never_written(self, folder, capsys):
        for exercise in exercises_of("tens_carry"):
            look_over(exercise.label, None)
        foretold(None, 7)
        look_over("no such exercise", 7)
        worked_out("slow levers", SLOW.right())
        assert not folder.exists()

    def test_an_exercise_of_a_teachers_own_is_kept_under_the_notebook(self, folder, monkeypatch, capsys):
        monkeypatch.setenv("JPY_SESSION_NAME", "group_a.ipynb")
        enter(Exercise(label="our sum", question="1 + 1?", kind=SLOW.kind, right=lambda: 2, praise="Yes.",
                       slips=(Slip(answer=lambda: 11, says="Add."),), nudges=("Two hands.",)))
        look_over("our sum", 2)
        assert [(line["lesson"], line["about"]) for line in lines(folder)] == [("group_a", "our sum")]

    def test_it_is_silent(self, folder, monkeypatch, capsys):
        """What a lesson prints does not depend on whether anything is kept."""
        said = []
        for value in (str(folder), ""):
            monkeypatch.setenv(VARIABLE, value)
            look_over("slow levers", 9)
            foretold(7, 8)
            said.append(capsys.readouterr())
        assert said[0] == said[1]
        assert len(lines(folder)) == 2

    @pytest.mark.parametrize("exercise", [one for name in ("tens_carry", "subtraction_by_complements")
                                          for one in exercises_of(name)], ids=lambda one: one.label)
    def test_what_is_kept_is_read_as_the_same_answer(self, exercise):
        """So that a file handed in can be looked over again."""
        for answer in (exercise.right(), *(slip.answer() for slip in exercise.slips)):
            if "Ellipsis" not in repr(answer):
                again = json.loads(json.dumps(writable(exercise.kind.read(answer))))
                assert exercise.kind.read(again) == exercise.kind.read(answer)

    @given(st.recursive(st.integers() | st.text() | st.integers(min_value=10**59, max_value=10**400),
                        lambda part: st.lists(part, max_size=4).map(tuple), max_leaves=8))
    def test_whatever_a_learner_writes_becomes_one_line_that_can_be_read(self, answer):
        line = json.dumps({"given": writable(answer)}, ensure_ascii=False).encode("utf-8", "backslashreplace")
        assert b"\n" not in line
        assert json.loads(line.decode())["given"] == writable(answer)

    def test_numbers_beyond_what_json_readers_hold_are_texts(self):
        assert [writable(number) for number in (2**53, 2**53 + 1, 10**5000)] == [
            2**53, str(2**53 + 1), "a number of about 5001 digits"]


class TestWhere:
    """In the folder that the variable names; or beside the notebook; or nowhere."""

    def test_open_sets_the_variable(self, tmp_path):
        assert surroundings(tmp_path)[VARIABLE] == str(tmp_path / OURS)
        assert OURS == logbook.CORNER

    def test_a_corner_beside_the_notebook(self, tmp_path, monkeypatch, capsys):
        monkeypatch.delenv(VARIABLE)
        monkeypatch.chdir(tmp_path)
        look_over("slow levers", 9)
        assert list(tmp_path.iterdir()) == []
        (tmp_path / OURS).mkdir()
        look_over("slow levers", 9)
        assert len(lines(tmp_path / OURS)) == 1

    def test_a_variable_set_to_nothing_keeps_nothing(self, tmp_path, monkeypatch, capsys):
        (tmp_path / OURS).mkdir()
        monkeypatch.chdir(tmp_path)
        monkeypatch.setenv(VARIABLE, " ")
        look_over("slow levers", 9)
        assert logbook.place() is None
        assert list((tmp_path / OURS).iterdir()) == []

    def test_a_working_folder_that_is_gone(self, tmp_path, monkeypatch, capsys):
        monkeypatch.delenv(VARIABLE)
        (tmp_path / "gone").mkdir()
        monkeypatch.chdir(tmp_path / "gone")
        (tmp_path / "gone").rmdir()
        look_over("slow levers", 13)
        assert capsys.readouterr().out.startswith("Right: 13.")

    @pytest.mark.skipif(os.name == "nt", reason="Windows has no permission bits")
    def test_answers_are_the_learners_own(self, folder, capsys):
        look_over("slow levers", 9)
        assert (folder / FILE).stat().st_mode & 0o077 == 0


class TestWhereItCannotBeKept:
    """One line, once, and only when there is something to keep."""

    @pytest.fixture
    def blocked(self, folder):
        folder.write_text("a file where the folder should be")
        return folder

    def test_it_is_said_once_and_the_answer_is_looked_over(self, blocked, capsys):
        look_over("slow levers", None)
        assert "cannot be kept" not in capsys.readouterr().out
        look_over("slow levers", 13)
        first = capsys.readouterr().out
        assert first.startswith("Right: 13. ")
        assert first.splitlines()[-1] == "(Your progress cannot be kept in corner: File exists.)"
        look_over("slow levers", 12)
        foretold(1, 2)
        assert "kept" not in capsys.readouterr().out

    @pytest.mark.skipif(os.name == "nt", reason="Windows has no permission bits")
    def test_a_read_only_folder(self, folder, monkeypatch, capsys):
        folder.mkdir()
        folder.chmod(0o500)
        if os.geteuid() == 0:  # the administrator may write anywhere: the refusal is played
            def refuse(*_, **__):
                raise PermissionError(13, "Permission denied")
            monkeypatch.setattr(logbook.os, "open", refuse)
        look_over("slow levers", 13)
        monkeypatch.undo()
        assert capsys.readouterr().out.splitlines()[-1] == (
            "(Your progress cannot be kept in corner: Permission denied.)")
        folder.chmod(0o700)
        assert list(folder.iterdir()) == []

    def test_a_full_disk_is_said(self, folder, monkeypatch, capsys):
        """Half a line may be there then; the next one keeps clear of it."""
        write = os.write
        monkeypatch.setattr(logbook.os, "write", lambda handle, line: write(handle, line[:40]))
        look_over("slow levers", 13)
        monkeypatch.setattr(logbook.os, "write", write)
        assert "there was no room for the whole line" in capsys.readouterr().out
        look_over("slow levers", 12)
        good, bad = entries(folder / FILE)
        assert [entry.given for entry in good] == [12]
        assert [line.number for line in bad] == [1]


class TestReading:
    """Every line is an entry or is listed."""

    def kept(self, folder, capsys, *answers):
        for answer in answers:
            look_over("slow levers", answer)
        return folder / FILE

    def test_a_broken_last_line_keeps_to_itself(self, folder, capsys):
        path = self.kept(folder, capsys, 9, 4)
        whole = path.read_bytes()
        path.write_bytes(whole[:-25])
        self.kept(folder, capsys, 13)
        good, bad = entries(path)
        assert [entry.given for entry in good] == [9, 13]
        (line,) = bad
        assert (line.number, line.why) == (2, "it is no JSON")
        assert path.read_bytes().startswith(whole[:-25] + b"\n")

    @pytest.mark.parametrize(("text", "why"), [
        (b"{}", "it does not say which format it is of"),
        (b'{"format": true}', "it does not say which format it is of"),
        (b'{"format": 2, "when": 7}', "it was written by a newer kit (format 2)"),
        (b"[1]", "it is no JSON object"), (b"\x00\x00\x00", "it is no JSON"), (b"\xff\xfe", "it is no JSON"),
        (b"[" * 100_000, "it is no JSON"), (b'{"format": ' + b"9" * 5000 + b"}", "it is no JSON"),
        (b'{"format": 1, "when": "x", "kind": "answer"}', "its 'outcome' is missing, or no text"),
        (b'{"format": 1, "when": "x", "kind": "guess", "outcome": "right"}', "its 'kind' is 'guess'"),
        (b'{"format": 1, "when": "x", "kind": "answer", "outcome": "good"}', "its 'outcome' is 'good'"),
        (b'{"format": 1, "when": "x", "kind": "answer", "outcome": "right", "about": 3}', "its 'about' is no text")])
    def test_what_cannot_be_read_is_listed_with_its_reason(self, folder, capsys, text, why):
        path = self.kept(folder, capsys, 9)
        with path.open("ab") as file:
            file.write(text + b"\n")
        before = path.read_bytes()
        self.kept(folder, capsys, 13)
        good, bad = entries(path)
        assert [entry.given for entry in good] == [9, 13]
        assert [(line.number, line.why) for line in bad] == [(2, why)]
        assert len(bad[0].text) <= 60
        assert path.read_bytes().startswith(before)

    def test_a_later_kit_may_add_fields(self, folder, capsys):
        path = self.kept(folder, capsys, 9)
        path.write_bytes(path.read_bytes().replace(b'"when"', b'"who": "me", "when"').replace(b"\n", b"\r\n"))
        good, bad = entries(path)
        assert [entry.given for entry in good] == [9]
        assert bad == ()

    def test_no_file_holds_nothing(self, tmp_path):
        assert entries(tmp_path / FILE) == ((), ())

    def test_a_bad_line_says_what_it_is(self):
        assert repr(BadLine(3, "it is no JSON", "'{'")) == "BadLine(number=3, why='it is no JSON', text=\"'{'\")"


WRITER = """
import sys
from mechcalc.classroom import look_over
for number in range(int(sys.argv[1])):
    look_over("slow levers", 1000 * int(sys.argv[2]) + number)
"""


class TestTwoKernels:
    """Both are kept."""

    def test_four_at_once(self, folder):
        """Each of 25 answers of each of four kernels is there once, whole, and in its kernel's order."""
        surroundings = {**os.environ, VARIABLE: str(folder)}
        writers = [subprocess.Popen([sys.executable, "-c", WRITER, "25", str(number)], env=surroundings,
                                    stdout=subprocess.DEVNULL) for number in range(1, 5)]
        assert [writer.wait() for writer in writers] == [0] * 4
        good, bad = entries(folder / FILE)
        assert bad == ()
        for number in range(1, 5):
            assert [entry.given for entry in good if entry.given // 1000 == number] == [
                1000 * number + step for step in range(25)]
        assert len(good) == 100

    def test_one_that_hangs_with_the_lock_is_not_waited_for_for_ever(self, folder, monkeypatch, capsys):
        monkeypatch.setattr(logbook, "PATIENCE", 0.05)
        folder.mkdir()
        with logbook.alone(folder):
            look_over("slow levers", 9)
        assert len(lines(folder)) == 1
