"""The bench on the command line: what it prints, writes and refuses, and a whole session led by its questions.

The person at the bench is played by an event-level machine with a hidden fault: it is told what the terminal says, does
the test of that name, and answers from its windows.
"""

from __future__ import annotations

import builtins
import re

import pytest

from mechcalc import load_spec
from mechcalc.bench import CarryPinGone, ClearingToothGone, CounterFingerGone, Machine, RatchetWorn, every_fault
from mechcalc.bench.candidates import candidates
from mechcalc.bench.papers.blocks import CAUTIONS
from mechcalc.bench.trace_file import take_up_trace
from mechcalc.bench.tracing import readings_of
from mechcalc.cli import run
from ways_in.test_command_line import refused, words

SLATE = load_spec("slate")


class Person:
    """Somebody with a machine: answers the questions of a session.

    Parameters
    ----------
    faults : list of Fault
        What is wrong with the machine.
    first : list of str
        What is typed before anything else, at the first questions for a word.
    stop_after : int
        Answers after which the input ends; 0 for never.
    """

    def __init__(self, capsys, faults=(), first=(), stop_after=0) -> None:
        self.machine, self.capsys, self.first = Machine(SLATE, faults=faults), capsys, list(first)
        self.said = ""
        self.left, self.windows = stop_after or -1, []

    def listen(self) -> str:
        new = self.capsys.readouterr().out
        self.said += new
        return new

    def __call__(self, prompt: str) -> str:
        new = " ".join(self.listen().split())
        self.said += prompt
        if self.left == 0:
            raise EOFError
        self.left -= 1
        if prompt == "\n> ":
            if self.first:
                return self.first.pop(0)
            test = re.findall(r"Test \d+: (.+?) \(\d+ turn", new)
            if not test:
                return "stop"
            self.windows = list(readings_of(self.machine, next(t for t in candidates(SLATE) if t.name == test[-1])))
            return ""
        return self.answer(prompt)

    def answer(self, prompt: str) -> str:
        now, shown = self.windows[0], prompt.split()[0]
        if shown in ("result", "counter", "setting"):
            return str(getattr(now, shown))
        last = shown != "did" or not self.tried
        value = now.bell if shown == "did" else now.yielded
        if last:
            self.windows.pop(0)
        return "yes" if value else "no"

    @property
    def tried(self) -> bool:
        """Whether this place asks for more than the bell."""
        return bool(re.search(r"(Try gently|Back transfer)[^>]*\n> [^>]*$", self.said.replace("\n  ", " ")))


@pytest.fixture
def session(tmp_path, monkeypatch, capsys):
    """Runs a session with somebody who answers; gives the exit code and the person."""
    path = tmp_path / "session.json"

    def led(faults=(), first=(), stop_after=0, argv=("slate", "--single")):
        person = Person(capsys, faults, first, stop_after)
        monkeypatch.setattr(builtins, "input", person)
        code = run(["bench", "trace", *argv, "--session", str(path)])
        person.listen()
        return code, person
    led.path = path
    return led


class TestFaults:
    """A list, and what cannot be revealed."""

    def test_kinds_with_their_numbers(self, capsys):
        lines = words(capsys, "bench", "faults", "slate").splitlines()
        assert lines[0].split() == ["kind", "places", "for", "instance"]
        assert "idler tooth lost                   60  the idler of place 6 has lost the tooth" in lines
        assert " ".join(lines[-2:]) == ("183 single faults, 52 tests to choose from. Every one of the faults shows in "
                                        "a test from outside.")
        assert max(map(len, lines)) <= 80

    def test_each(self, capsys):
        out = words(capsys, "bench", "faults", "slate", "--each")
        assert len(re.findall(r"(?m)^\S", out)) == 1 + len(every_fault(SLATE))
        assert "number pin gone, place 1, pin 1" in out

    def test_hidden_ones_have_their_reason(self, capsys, tmp_path):
        path = tmp_path / "wide.toml"
        path.write_text("setting_places = 2\nresult_places = 3\ncounter_places = 2\ncarry_reach = 5\n")
        out = " ".join(words(capsys, "bench", "faults", str(path)).split())
        assert "the additive carry pin of place 5 is gone: no number wheel ever stands before place 5" in out


class TestSheet:
    """A plan on paper."""

    def test_it_is_written_and_told(self, capsys, tmp_path):
        out = words(capsys, "bench", "sheet", "slate", "--out", str(tmp_path / "s.html"), "--label", "no. 7")
        assert re.search(r"\d+ tests, \d+ turns, [\d.]+ turns' worth of work: no choice does it with less\.", out)
        assert f"Written: {tmp_path / 's.html'}" in out
        assert "no. 7" in (tmp_path / "s.html").read_text(encoding="utf-8")
        assert max(map(len, out.splitlines()[:-1])) <= 80

    def test_aims(self, capsys, tmp_path):
        def work(*more):
            out = words(capsys, "bench", "sheet", "slate", "--out", str(tmp_path / "s.html"), "--replace", *more)
            return float(re.search(r"turns, ([\d.]+) turns' worth", out)[1])
        assert work("--least-work") <= work()
        assert work("--reveal-only") < work()

    def test_what_is_refused_before_any_work(self, capsys, tmp_path):
        path = tmp_path / "s.pdf"
        path.write_text("mine")
        assert refused(capsys, "bench", "sheet", "slate", "--out", str(path)) == (
            f"mechcalc: {path} is there already: choose another name, or add --replace")
        assert path.read_text() == "mine"
        assert "the file's ending says" in refused(capsys, "bench", "sheet", "slate", "--out", "s.txt")
        assert "did you mean 'slate'?" in refused(capsys, "bench", "sheet", "slat", "--out", str(tmp_path / "x.pdf"))
        assert "add --reveal-only" in refused(capsys, "bench", "sheet", "slate", "--with-pairs", "--out",
                                              str(tmp_path / "x.pdf"))


class TestTrace:
    """A session that is led by questions, to the fault."""

    @pytest.mark.parametrize("fault", [CarryPinGone(place=3, direction=1), CounterFingerGone(wheel=2), RatchetWorn(),
                                       ClearingToothGone(wheel=4)])
    def test_a_hidden_fault_is_found(self, session, fault):
        code, person = session([fault])
        assert code == 0
        assert f"Likeliest: {fault}" in " ".join(person.said.split())
        assert str(take_up_trace(session.path).trace.explanations()[0]) == str(fault)

    def test_with_two_faults_at_once_thought_of(self, session):
        fault = CarryPinGone(place=3, direction=1)
        _, person = session([fault], argv=("slate",))
        assert f"Likeliest: {fault}" in " ".join(person.said.split())

    def test_a_sound_machine(self, session):
        _, person = session()
        assert "Nothing that was read departs from a sound machine." in " ".join(person.said.split())

    def test_cautions_come_first(self, session):
        _, person = session(first=["stop"])
        said = " ".join(person.said.split())
        assert all(caution in said for caution in CAUTIONS)
        assert said.index(CAUTIONS[0]) < said.index("Test 1: ")
        assert max(len(line) for line in person.said.splitlines() if str(session.path) not in line) <= 80

    def test_words_at_any_time(self, session):
        first = ["why", "left", "tests", "what", "note oil on the drum", "take back", "own set 99; turn",
                 "own jump; read", "5", "why", "stop"]
        code, person = session(first=first)
        said = " ".join(person.said.split())
        assert code == 0
        for part in ("bits of information", "share what explains everything read", "52 a lever during a turn",
                     "take back the last test that was entered", "Written down.", "There is nothing to take back.",
                     "Not done: \"a test of one's own\": a test reads something", "Not done: 'jump' is no step",
                     "Test 1: all 2, there and back", "It is your own choice; the kit's would be"):
            assert part in said, part
        kept = take_up_trace(session.path)
        assert kept.notes[0].text == "oil on the drum"
        assert kept.trace.history == ()

    def test_a_reading_typed_too_soon_chooses_no_test(self, session):
        """Windows have noughts at the left, a test's number has none."""
        _, person = session(first=["002", "stop"])
        assert "Test 1: ones taken off, ten times" in person.said
        assert "Test 1: all 1" not in person.said
        assert "enter what you read, window by window" in person.said

    def test_the_end_of_the_input_loses_nothing_and_it_is_taken_up(self, session):
        fault = CarryPinGone(place=3, direction=1)
        code, person = session([fault], stop_after=8)
        assert code == 130
        assert "Everything entered so far is in" in " ".join(person.said.split())
        before = len(take_up_trace(session.path).trace.history)
        assert before >= 1
        _, person = session(first=["stop"], argv=())
        assert f"{before} test{'s' * (before > 1)} so far." in " ".join(person.said.split())
        assert f"\n  mechcalc bench report {session.path} --out report.pdf\n" in person.said

    def test_a_test_under_way_is_gone_on_with(self, session, monkeypatch, capsys):
        """Seven readings in, the input ends; they need not be entered again."""
        answers = iter(["own turn; read; turn; read", "", "0", "1", "0", "no"])
        monkeypatch.setattr(builtins, "input", lambda prompt: _next(answers))
        assert run(["bench", "trace", "slate", "--session", str(session.path)]) == 130
        assert take_up_trace(session.path).draft.readings[0].counter == 1
        capsys.readouterr()
        answers = iter(["maybe", "yes", "0", "2", "-", "-", "stop"])
        assert run(["bench", "trace", "--session", str(session.path)]) == 0
        out = " ".join(capsys.readouterr().out.split())
        assert "1 of 2 places were read" in out
        assert "Type yes or no." in out
        (done,) = take_up_trace(session.path).trace.history
        assert [one.to_dict() for one in done.readings] == [
            {"result": 0, "counter": 1, "setting": 0, "bell": False}, {"result": 0, "counter": 2}]

    def test_corrections_while_reading(self, session, monkeypatch, capsys):
        """One question back, from any; what is no answer is asked again; a test can be left."""
        answers = iter(["own turn; read", "", "x", "1234567", "9", "<", "0", "77", "<", "1", "leave", "own turn; read",
                        "", "0", "1", "-", "perhaps", "<", "0", "no", "stop"])
        monkeypatch.setattr(builtins, "input", lambda prompt: _next(answers))
        assert run(["bench", "trace", "slate", "--session", str(session.path)]) == 0
        out = " ".join(capsys.readouterr().out.split())
        assert "Type the digits of the result, 1 to 6 of them" in out
        assert "Left; nothing of it counts." in out
        assert "Type yes or no, or - if you cannot say." in out
        kept = take_up_trace(session.path)
        assert [one.readings[0].to_dict() for one in kept.trace.history] == [
            {"result": 0, "counter": 1, "setting": 0, "bell": False}]
        assert kept.draft is None

    def test_taking_back(self, session, monkeypatch, capsys):
        answers = iter(["own turn; read", "", "0", "7", "0", "no", "take back", "stop"])
        monkeypatch.setattr(builtins, "input", lambda prompt: _next(answers))
        assert run(["bench", "trace", "slate", "--session", str(session.path)]) == 0
        out = " ".join(capsys.readouterr().out.split())
        assert "the counter should be 001, you read 007" in out
        assert "Taken back: a test of one's own." in out
        assert take_up_trace(session.path).trace.history == ()

    def test_nothing_read_is_no_test(self, session, monkeypatch, capsys):
        answers = iter(["own turn; read", "", "-", "-", "-", "-", "stop"])
        monkeypatch.setattr(builtins, "input", lambda prompt: _next(answers))
        assert run(["bench", "trace", "slate", "--session", str(session.path)]) == 0
        assert "Not done: nothing was read." in capsys.readouterr().out

    def test_where_nothing_fits_it_is_said_with_where(self, session, monkeypatch, capsys):
        answers = iter(["own turn; read", "", "123456", "77", "55", "yes", "left", "stop"])
        monkeypatch.setattr(builtins, "input", lambda prompt: _next(answers))
        assert run(["bench", "trace", "slate", "--session", str(session.path)]) == 0
        out = " ".join(capsys.readouterr().out.split())
        assert "Nothing that the kit knows explains what was read" in out
        assert "it differs at test 1" in out

    def test_head_and_options(self, session, monkeypatch, capsys):
        session(first=["stop"], argv=("slate", "--label", "no. 7", "--who", "A. Reader", "--single"))
        session(first=["stop"], argv=("--condition", "dusty"))
        kept = take_up_trace(session.path)
        assert (kept.label, kept.who, kept.condition, kept.trace.pairs) == ("no. 7", "A. Reader", "dusty", False)

    def test_what_is_refused(self, session, capsys, tmp_path):
        assert refused(capsys, "bench", "trace", "--session", str(tmp_path / "none.json")).endswith(
            "there is no such session; to begin one, name the machine first")
        session(first=["stop"])
        assert "is a session on another machine, Slate" in refused(capsys, "bench", "trace", "bench", "--session",
                                                                   str(session.path))
        (tmp_path / "notes.json").write_text("mine")
        assert "the file is damaged or is no bench session" in refused(capsys, "bench", "trace", "slate", "--session",
                                                                       str(tmp_path / "notes.json"))
        assert (tmp_path / "notes.json").read_text() == "mine"


def _next(answers) -> str:
    try:
        return next(answers)
    except StopIteration:
        raise EOFError from None


class TestReport:
    """From a session's file to paper."""

    def test_it_is_written(self, session, capsys, tmp_path):
        session([RatchetWorn()])
        out = words(capsys, "bench", "report", str(session.path), "--out", str(tmp_path / "r.pdf"))
        assert "the full-stroke ratchet is worn" in " ".join(out.split())
        assert (tmp_path / "r.pdf").read_bytes().startswith(b"%PDF")

    def test_what_is_refused(self, capsys, tmp_path):
        assert "there is no such file" in refused(capsys, "bench", "report", str(tmp_path / "none.json"), "--out",
                                                  str(tmp_path / "r.pdf"))
