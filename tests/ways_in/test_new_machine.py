"""Describing a machine in a terminal: asked one by one, stopped and gone on with, nothing lost."""

from __future__ import annotations

import io
import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from mechcalc import load_spec
from mechcalc.cli.commands import run
from mechcalc.own.questions import BY_FIELD, MEASURES, QUESTIONS

CLONE = Path(__file__).parents[2]
GOOD = {"name": "the grey one", "setting_places": "9", "result_places": "13", "counter_places": "8",
        "counter_carry": "yes", "positions": "", "back_transfer": "no?", "check_register": "no", "carry_reach": "11",
        "angles": "", "note": "third shelf"}


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.delenv("MECHCALC_PROGRESS", raising=False)
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def talk(monkeypatch, capsys):
    """Type lines at the command; its code, its output and its errors."""
    def typing(*lines: str, options: tuple[str, ...] = ("--new", "mine.toml")) -> tuple[int, str, str]:
        monkeypatch.setattr(sys, "stdin", io.StringIO("".join(f"{line}\n" for line in lines)))
        code = run(["machine", *options])
        told = capsys.readouterr()
        return code, told.out, told.err
    return typing


class TestAsking:
    """One question after another, each held against the rules at once."""

    def test_from_beginning_to_end(self, talk, folder):
        code, out, err = talk(*GOOD.values(), "yes")
        assert (code, err) == (0, "")
        spec = load_spec("mine.toml")
        assert (spec.name, spec.setting_places, spec.positions, spec.note) == ("the grey one", 9, 8, "third shelf")
        assert [path.name for path in folder.iterdir()] == ["mine.toml"]
        assert "Saved: mine.toml" in out
        assert "Angle budget, in degrees of crank" in out
        for one in QUESTIONS:
            assert (one.ask in out) == (one.field not in MEASURES)

    def test_every_line_fits_the_terminal(self, talk):
        _, out, _ = talk(*GOOD.values(), "yes")
        assert max(map(len, out.splitlines())) <= 80 + len(" > the grey one")

    def test_what_is_wrong_is_told_and_asked_again(self, talk):
        _, out, _ = talk("", "nine", "9", "13", "8", "maybe", "yes")
        assert "Not right: 'nine' is no whole number: write figures, such as 9" in out
        assert "Not right: 'maybe' is neither yes nor no" in out
        assert json.loads(Path("mine.draft.json").read_text("utf-8"))["answers"]["setting_places"] == "9"

    def test_a_figure_that_contradicts_an_earlier_one_says_which(self, talk):
        answers = {**GOOD, "carry_reach": "8"}
        _, out, _ = talk(*answers.values())
        rule = "Not right: the carry reach must cover the setting: carry reach 8, setting places 9"
        assert rule in " ".join(out.split())

    def test_measured_angles_are_asked_for(self, talk):
        answers = {**GOOD, "angles": "measured", "gap": "2", "note": ""}
        lines = [*list(answers.values())[:10], "9", "2", "12", "3", "15", "", "4", "", "yes"]
        code, out, _ = talk(*lines)
        assert "Now not right, at gap: the first carry would come too late: gap 2 is less than lever throw 3" in \
            " ".join(out.split())
        assert code == 0
        assert load_spec("mine.toml").gap == 4.0
        assert "pin_pitch = 9.0  # measured" in Path("mine.toml").read_text("utf-8")

    def test_back_and_taking_an_answer_away(self, talk):
        talk("grey", "7", "back", "9", "back", "back", "-", "8")
        assert json.loads(Path("mine.draft.json").read_text("utf-8"))["answers"] == {
            "name": "", "setting_places": "8"}

    def test_going_over_a_step_again_before_saving(self, talk):
        code, out, _ = talk(*GOOD.values(), "no", "2", "6", "11", "yes")
        assert code == 0
        assert load_spec("mine.toml").setting_places == 6
        assert out.count(BY_FIELD["setting_places"].ask) == 2


class TestStopping:
    """Whatever ends it, the answers are there the next time."""

    def test_answers_that_end_are_kept_and_gone_on_with(self, talk):
        lines = list(GOOD.values())
        code, _, err = talk(*lines[:4])
        assert code == 2
        assert err == ("\nYour answers are kept in mine.draft.json. Go on with: python3 -m mechcalc machine --new "
                       "mine.toml\n")
        code, out, _ = talk(*lines[4:], "yes")
        assert code == 0
        assert "Taken up from mine.draft.json: 4 answers." in out
        assert BY_FIELD["setting_places"].ask not in out
        assert load_spec("mine.toml").result_places == 13

    def test_nothing_answered_leaves_nothing(self, talk, folder):
        code, _, err = talk()
        assert (code, err) == (2, "\nNothing was answered, and nothing is kept.\n")
        assert list(folder.iterdir()) == []

    @pytest.mark.skipif(os.name == "nt", reason="Windows has no interrupt to send to one process")
    def test_ctrl_c_in_a_real_terminal_session(self, folder):
        """Code 130, one line, no traceback."""
        process = subprocess.Popen(
            [sys.executable, "-u", "-m", "mechcalc", "machine", "--new", "mine.toml"], stdin=subprocess.PIPE,
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env={**os.environ, "PYTHONPATH": str(CLONE)})
        assert process.stdin is not None
        assert process.stdout is not None
        process.stdin.write("the grey one\n9\n")
        process.stdin.flush()
        while "result register" not in process.stdout.readline():
            pass
        process.send_signal(signal.SIGINT)
        process.stdin = None  # what is still to be typed never comes, and the pipe stays open
        _, err = process.communicate(timeout=20)
        assert process.returncode == 130
        assert err.strip().startswith("Your answers are kept in mine.draft.json.")
        assert json.loads((folder / "mine.draft.json").read_text("utf-8"))["answers"] == {
            "name": "the grey one", "setting_places": "9"}

    def test_a_broken_draft_is_put_aside_and_told(self, talk, folder):
        (folder / "mine.draft.json").write_bytes(b"{")
        _, out, _ = talk("grey")
        assert "It is kept as mine.draft.set-aside-1.json." in " ".join(out.split())


class TestFiles:
    """A machine that is there is changed only if that is said."""

    def test_a_file_that_is_there(self, talk, folder):
        talk(*GOOD.values(), "yes")
        before = (folder / "mine.toml").read_bytes()
        code, _, err = talk("x")
        assert code == 2
        assert err == ("mechcalc: mine.toml is there already: choose another name, or add --replace to change that "
                       "machine\n")
        code, out, _ = talk("7", "10", "yes", options=("--new", "mine.toml", "--replace"))
        assert code == 0
        assert "Taken up from mine.toml, as it was saved." in out
        assert load_spec("mine.toml").carry_reach == 10
        assert (folder / "mine.toml").read_bytes() != before

    @pytest.mark.parametrize(("options", "said"), [
        ((), "name one machine to be shown, or describe a new one with --new FILE"),
        (("bench", "--new", "mine.toml"), "name one machine to be shown, or describe a new one with --new FILE"),
        (("--new", "mine"), "mine: a machine's file is named something.toml"),
        (("--new", "nowhere/mine.toml"), "nowhere/mine.toml cannot be written: there is no folder nowhere")])
    def test_what_cannot_be(self, talk, options, said):
        code, _, err = talk("x", options=options)
        assert (code, err) == (2, f"mechcalc: {said}\n")

    def test_a_folder_that_takes_no_draft(self, talk, folder, monkeypatch):
        from mechcalc.own import draft

        def refused(*_):
            raise OSError(13, "Permission denied")
        monkeypatch.setattr(draft, "write_whole", refused)
        code, _, err = talk("grey")
        assert (code, err) == (2, "mechcalc: mine.draft.json cannot be written: Permission denied\n")


def test_it_needs_the_standard_library_only():
    code = ("import sys, mechcalc.cli.new_machine; raise SystemExit(bool({'numpy', 'sympy', 'matplotlib', "
            "'ipywidgets', 'anywidget'} & set(sys.modules)))")
    assert subprocess.run([sys.executable, "-c", code], check=False, cwd=CLONE).returncode == 0
