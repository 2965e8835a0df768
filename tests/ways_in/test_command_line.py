"""What the command line prints, and how it says no."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from pathlib import Path

import pytest

from mechcalc import machine_names
from mechcalc.classroom.course import COURSE, PATHS, lesson_named
from mechcalc.classroom.pages import PAGES
from mechcalc.cli import run
from mechcalc.cli.commands import parser
from mechcalc.setup.telling import Progress
from tests import typed
from tests.typed import words

ROOT = Path(__file__).parents[2]


def refused(capsys, *argv: str) -> str:
    """The one line that a command refuses with."""
    said = typed.refused(capsys, *argv)
    assert said.count("\n") == 1
    return said.rstrip("\n")


class TestMachines:
    """The catalogue, and one machine of it."""

    def test_every_machine_has_its_line(self, capsys):
        lines = words(capsys, "machines").splitlines()
        assert lines[0].split() == ["machine", "levers", "wheels", "counter", "reach", "remarks"]
        assert [line.split()[0] for line in lines[1:] if not line.startswith(" ")] == list(machine_names())
        assert "bench               9      13        8     11  carries 11 of 13 places" in lines

    def test_the_angle_budget_adds_up(self, capsys):
        """Bench: 9 x 9 + 2 x (4 + 9 x 12 + 9) + 15 = 338 of 360 degrees, by hand from its file."""
        out = words(capsys, "machine", "bench")
        assert [line.split()[-1] for line in out.splitlines() if line.startswith(
            ("number pins", "helix", "rest arc", "spare", "one turn"))] == ["81", "121", "121", "15", "22", "360"]
        assert "helix step 12 >= pin pitch 9 + lever throw 3" in out
        assert "gap 4 >= lever throw 3" in out

    @pytest.mark.parametrize("name", machine_names())
    def test_every_sheet_fits_the_terminal(self, capsys, name):
        assert max(map(len, words(capsys, "machine", name).splitlines())) <= 80

    def test_a_machine_of_ones_own(self, capsys, tmp_path):
        """One that is built late on purpose says which rule it breaks."""
        path = tmp_path / "late.toml"
        path.write_text("setting_places = 3\nresult_places = 5\ncounter_places = 3\ncarry_reach = 5\n"
                        "helix_step = 5.0\nallow_faulty_timing = true\n")
        out = words(capsys, "machine", str(path))
        assert "broken  a carry ripples through all places in one turn:" in out
        assert "helix step 5 < pin pitch 6 + lever throw 1.5" in out

    def test_a_machine_that_is_not_there(self, capsys):
        assert refused(capsys, "machine", "benhc") == \
            "mechcalc: 'benhc' is no machine of the catalogue: did you mean 'bench'?"


BY_HAND = """\
12 × 11 = 132

no.  the hand  result  counter  carriage  bell
  1  set 12         0        0         0
     Set 12 on the levers.                                       1 × 10 + 2 = 12
  2  turn          12        1         0
     Turn: add 12.                                                   0 + 12 = 12
  3  shift +1      12        1         1
     Shift the carriage to position 1: a turn now counts 10 times.
                                                                   12 × 10 = 120
  4  turn         132       11         1
     Turn: add 12 × 10.                                       12 + 12 × 10 = 132
"""


class TestLessons:
    """What there is, in which order, for whom."""

    def test_in_course_order_with_minutes_and_paths(self, capsys):
        lines = words(capsys, "lessons").splitlines()
        assert lines[0].split() == ["lesson", "minutes", "paths", "title"]
        assert lines[1].split() == ["start_here", "Start", "here"]
        names = [line.split()[0] for line in lines[2:-2] if not line.startswith(" ")]
        here = {path.stem for path in (ROOT / "lessons").glob("*.ipynb")}
        assert names == [lesson.name for lesson in COURSE if lesson.name in here] + [*PAGES]
        row = next(line for line in lines if line.startswith("tens_carry "))
        assert " ".join(row.split()[1:]) == f"{lesson_named('tens_carry').minutes} class, alone The tens carry"
        assert max(map(len, lines)) <= 80

    @pytest.mark.parametrize("path", PATHS)
    def test_one_path(self, capsys, path):
        lines = words(capsys, "lessons", "--path", path).splitlines()
        named = {line.split()[0] for line in lines[1:-2] if not line.startswith(" ")}
        assert named == {lesson.name for lesson in COURSE if path in lesson.paths
                         and (ROOT / "lessons" / f"{lesson.name}.ipynb").is_file()}
        minutes = sum(lesson_named(name).minutes for name in named)
        assert lines[-1] == f"{len(named)} lessons for {PATHS[path]}: {minutes} minutes in class, exercises not counted"

    def test_help_names_the_paths(self, capsys):
        with pytest.raises(SystemExit):
            run(["lessons", "--help"])
        said = " ".join(capsys.readouterr().out.split())
        assert all(f"{name} ({who})" in said for name, who in PATHS.items())

    def test_no_such_path(self, capsys):
        assert refused(capsys, "lessons", "--path", "term") == \
            "mechcalc: 'term' is no path through the course: there are 'class' and 'alone'"


class TestWork:
    """A calculation, stroke by stroke."""

    def test_a_small_one_in_full(self, capsys):
        """Worked by hand: 12 x 11 is 12 once and 12 ten times."""
        assert words(capsys, "work", "12 x 11").startswith(BY_HAND)

    @pytest.mark.parametrize(("typed", "answer"), [
        (["347 x 26"], "347 × 26 = 9022"), (["347", "x", "26"], "347 × 26 = 9022"), (["347*26"], "347 × 26 = 9022"),
        (["347×26"], "347 × 26 = 9022"), (["5 + 7 + 11"], "5 + 7 + 11 = 23"), (["12 − 34"], "12 − 34 = −22"),
        (["12 - 34"], "12 − 34 = −22"), (["9 - 4", "--by-complement"], "9 − 4 = 5")])
    def test_ways_of_typing(self, capsys, typed, answer):
        """Spaces, signs as typed or as printed, one argument or several."""
        assert words(capsys, "work", *typed).splitlines()[0] == answer

    def test_the_short_cut_takes_fewer_turns(self, capsys):
        """19 is 20 - 1: three turns for ten."""
        assert "In all 10 turns," in " ".join(words(capsys, "work", "7 x 19").split())
        assert "In all 3 turns," in " ".join(words(capsys, "work", "7 x 19", "--short-cut").split())

    @pytest.mark.parametrize(("typed", "headline"), [
        (("355 / 113", "--places", "3"), "355 ÷ 113 = 3.141, remainder 0.067"),
        (("56 : 8",), "56 ÷ 8 = 7, remainder 0"), (("17 ÷ 5",), "17 ÷ 5 = 3, remainder 2")])
    def test_a_quotient_has_its_point_and_its_remainder(self, capsys, typed, headline):
        """By repeated subtraction, with as many decimals as were asked for."""
        assert words(capsys, "work", *typed).splitlines()[0] == headline

    @pytest.mark.parametrize(("typed", "headline"), [
        (("root 2", "--places", "3"), "√2 = 1.414, remainder 0.000604"),
        (("square root of 529",), "√529 = 23, remainder 0"),
        (("root 529", "--method", "five times"), "√529 = 23, remainder 0"),
        (("cube root 1728",), "∛1728 = 12, remainder 0"), (("7 ^ 4",), "7⁴ = 2401"), (("7**4",), "7⁴ = 2401"),
        (("8!",), "8! = 40320"), (("12 x 34 x 56",), "12 × 34 × 56 = 22848"),
        (("12 x 34 x 56", "--by-hand", "--short-cut"), "12 × 34 × 56 = 22848")])
    def test_roots_powers_factorials_and_chains(self, capsys, typed, headline):
        assert words(capsys, "work", *typed).splitlines()[0] == headline

    def test_brief(self, capsys):
        """One line a stroke."""
        lines = words(capsys, "work", "12 x 11", "--brief").splitlines()
        assert [line.split()[0] for line in lines[3:7]] == ["1", "2", "3", "4"]

    def test_long_ones_fit_the_terminal(self, capsys):
        """The widest machine, its levers full."""
        out = words(capsys, "work", "9999999999 x 1234567890", "--machine", "ledger")
        assert max(map(len, out.splitlines())) <= 80
        assert out.splitlines()[0] == f"9999999999 × 1234567890 = {9999999999 * 1234567890}"

    @pytest.mark.parametrize(("typed", "says"), [
        ("347 / 0", "347 cannot be divided by 0"), ("8 / 4 / 2", "is more than one calculation"),
        ("3 x 4 --places 2", "decimal places are for a quotient or a root; 3 x 4 is worked without it"),
        ("3 / 4 --places -1", "cannot be -1"),
        ("-3 + 4", "begins with '-': numbers have no sign on a machine"),
        ("3 + 4 - 5", "is more than one calculation"), ("3 x 4 / 5", "is more than one calculation"),
        ("root 2 --short-cut", "the short cut is for multiplying; root of 2 is worked without it"),
        ("3 x 4 --method restoring", "a method is chosen for a quotient or a root; 3 x 4 is worked without it"),
        ("7 / 3 --method guessing", "the method is 'restoring', 'without putting back', 'compare first', not "),
        ("3 x 4 --by-hand", "setting again by hand is for a product of several factors"),
        ("3.5 ^ 2", "'3.5' is no whole number"), ("root", "is no calculation"), ("root -2", "'-2' is no whole number"),
        ("3.47 x 2", "'3.47' is no whole number: a machine has no decimal point"),
        ("1 000 + 2", "'1 000' is no whole number: write its digits without anything between them"),
        ("seven x 3", "'seven' is no whole number"), ("٣ x 3", "is no whole number"),
        ("3 ~ 4", "is no calculation: write whole numbers with +, -, x or / between them"),
        ("3 x", "is no calculation"), ("x", "begins with 'x'"), (" ", "is no calculation"),
        ("3 + 4 --short-cut", "the short cut is for multiplying; 3 + 4 is worked without it"),
        ("3 x 4 --by-complement", "the complement is for taking one number from another"),
        ("1 x " + "9" * 99, "a number of 99 digits is too long"),
        ("99999 x 9 --machine slate", "the setting is short by 1 place")])
    def test_what_is_refused(self, capsys, typed, says):
        """In one line that says what was found."""
        text, *options = typed.split(" --")
        options = [word for option in options for word in f"--{option}".split()]
        assert says in refused(capsys, "work", *options, "--", text)


class TestCompare:
    """What the ways of a calculation cost, and what machines differ in."""

    def test_the_ways_of_a_product(self, capsys):
        out = words(capsys, "compare", "347 x 98")
        assert [line.split()[-4] for line in out.splitlines() if "short cut" in line][:1] == ["4"]
        assert "347 × 98, short cut *" in out

    @pytest.mark.parametrize("typed", ["355 / 113", "root 529", "12 x 34 x 56", "7 ^ 4", "6!", "100 - 1"])
    def test_every_way_comes_to_the_same(self, capsys, typed):
        out = words(capsys, "compare", typed)
        assert "The answers do not agree" not in out
        assert max(map(len, out.splitlines())) <= 80

    def test_machines_are_compared_and_the_difference_is_explained(self, capsys):
        out = " ".join(words(capsys, "compare", "12 x 34 x 56", "--machine", "bench", "--machine", "plain").split())
        assert "Plain has no back transfer, Bench has" in out

    def test_what_a_machine_refuses_says_why(self, capsys):
        out = words(capsys, "compare", "98765 x 43", "--machine", "bench", "--machine", "slate")
        assert "Slate: " in out
        assert "short by" in out

    def test_decimals_stand_behind_a_point(self, capsys):
        """Once shown as 141, which is another number."""
        out = words(capsys, "compare", "root 2", "--places", "2")
        assert out.splitlines()[0] == "root of 2 on Bench"
        assert {line.split()[-6] for line in out.splitlines() if line.startswith(("compare", "restoring", "five"))} == {
            "1.41"}

    def test_one_way_of_several_machines(self, capsys):
        """A short cut sends a carry further than a short reach goes; what is refused is told once."""
        out = words(capsys, "compare", "900000 x 999", "--short-cut", "--machine", "bench", "--machine", "short")
        assert out.count("does not fit this machine: the carry reach") == 1
        assert "a carry would have stopped short" in " ".join(out.split())
        assert "Bench *  899100000      2" in words(
            capsys, "compare", "900000 x 999", "--short-cut", "--machine", "bench", "--machine", "plain")

    @pytest.mark.parametrize(("options", "says"), [
        (["347 x 26", "--places", "2"], "decimal places are for a quotient or a root; 347 x 26 is worked without it"),
        (["347 x 26", "--short-cut"], "on one machine all ways are compared: name a second machine"),
        (["355/113", "--method", "guessing", "--machine", "bench", "--machine", "plain"], "the method is 'restoring'")])
    def test_manners_that_do_not_go(self, capsys, options, says):
        assert says in refused(capsys, "compare", *options)

    def test_what_has_one_way_only(self, capsys):
        assert "3 + 4 has one way only on a machine: name two machines" in refused(capsys, "compare", "3 + 4")

    def test_the_plot_is_written(self, capsys, tmp_path):
        path = tmp_path / "costs.svg"
        assert f"Written: {path}" in words(capsys, "compare", "347 x 98", "--plot", str(path))
        assert path.read_text(encoding="utf-8").lstrip().startswith("<?xml")

    def test_a_plot_that_cannot_be_written(self, capsys, tmp_path):
        assert run(["compare", "347 x 98", "--plot", str(tmp_path / "no" / "a.png")]) == 2
        assert "cannot be written" in capsys.readouterr().err


class TestTable:
    """A polynomial's values by differences."""

    def test_it_is_printed(self, capsys):
        out = words(capsys, "table", "x**2 + x + 41", "--entries", "5", "--from", "2")
        assert [int(line.split()[1]) for line in out.splitlines()[2:7]] == [x * x + x + 41 for x in range(2, 7)]

    def test_what_is_no_polynomial(self, capsys):
        assert "polynomial" in refused(capsys, "table", "sin(x)")


class TestPage:
    """The page to take home."""

    def test_it_is_written(self, capsys, tmp_path):
        path = tmp_path / "page.html"
        assert words(capsys, "page", "347 x 26", str(path)) == f"Written: {path}\n"
        assert "9022" in path.read_text(encoding="utf-8")

    def test_nothing_is_written_over(self, capsys, tmp_path):
        path = tmp_path / "page.html"
        path.write_text("mine")
        assert "is there already: choose another name, or add --replace" in \
            refused(capsys, "page", "3 x 4", str(path))
        assert path.read_text() == "mine"
        words(capsys, "page", "3 x 4", str(path), "--replace")
        assert path.read_text(encoding="utf-8") != "mine"

    def test_in_three_dimensions(self, capsys, tmp_path):
        """With the solid view's code in it."""
        path = tmp_path / "page.html"
        words(capsys, "page", "3 x 4", str(path), "--solid")
        assert "renderSolid({model" in path.read_text(encoding="utf-8")

    def test_a_folder_that_is_not_there(self, capsys, tmp_path):
        assert "cannot be written: No such file or directory" in \
            refused(capsys, "page", "3 x 4", str(tmp_path / "no" / "page.html"))


class TestWords:
    """The command line's own grammar."""

    @pytest.mark.parametrize(("argv", "says"), [
        ([], "the following arguments are required: COMMAND"), (["machine"], "name one machine"),
        (["wrok"], "invalid choice: 'wrok'"), (["open", "--port", "0"], "a port is a whole number from 1 to 65535"),
        (["check", "--only", "speling"], "'speling' is no check: there are lint, types, lessons, tests")])
    def test_errors_are_one_line(self, capsys, argv, says):
        assert says in refused(capsys, *argv)

    def test_every_command_explains_itself(self, capsys):
        """With a sentence, and a few words on each argument."""
        (commands,) = (action for action in parser()._actions if hasattr(action, "choices") and action.choices)
        assert {"check", "compare", "lessons", "machine", "machines", "open", "page", "table", "work"} <= set(
            commands.choices)
        for own in commands.choices.values():
            assert own.description.endswith(".")
            assert all(action.help for action in own._actions)
            assert max(map(len, own.format_help().splitlines())) <= 80

    def test_too_old_a_python(self, monkeypatch, capsys):
        """Said before anything that it could not read."""
        from mechcalc import __main__ as door
        monkeypatch.setattr(door.sys, "version_info", (3, 9, 2, "final", 0))
        assert door.main(["machines"]) == 2
        assert capsys.readouterr().err == "mechcalc: needs Python 3.11 or newer, and this is 3.9.2\n"

    def test_the_standard_library_is_enough(self):
        """Everything but pictures, with no installed package in sight."""
        done = subprocess.run([sys.executable, "-S", "-m", "mechcalc", "work", "347 x 26"], cwd=ROOT, text=True,
                              capture_output=True, check=False, env={**os.environ, "PYTHONPATH": ""})
        assert (done.returncode, done.stderr) == (0, "")
        assert done.stdout.startswith("347 × 26 = 9022\n")

    def test_a_reader_that_stops_reading(self):
        """As `head` does: no complaint."""
        program = ("import subprocess, sys; p = subprocess.Popen([sys.executable, '-m', 'mechcalc', 'work', "
                   "'999999999 x 9999', '--machine', 'ledger'], stdout=subprocess.PIPE, stderr=subprocess.PIPE); "
                   "p.stdout.close(); print(p.stderr.read().decode(), p.wait())")
        done = subprocess.run([sys.executable, "-c", program], cwd=ROOT, text=True, capture_output=True, check=True)
        assert done.stdout.split() == ["0"]

    def test_a_terminal_that_lacks_the_signs(self):
        """They are replaced, the numbers are not."""
        done = subprocess.run([sys.executable, "-m", "mechcalc", "work", "12 x 11"], cwd=ROOT, text=True,
                              capture_output=True, check=False, env={**os.environ, "PYTHONIOENCODING": "ascii"})
        assert (done.returncode, done.stderr) == (0, "")
        assert done.stdout.startswith("12 ? 11 = 132\n")


class Terminal(io.StringIO):
    def isatty(self):
        return True


class TestProgress:
    """On a terminal only."""

    def test_a_line_that_changes_and_goes(self):
        stream = Terminal()
        with Progress(stream) as progress:
            progress.show("one")
            progress.show("two")
        shown = stream.getvalue().split("\r")
        assert [part.split()[-1] for part in shown if part.strip()] == ["one", "two"]
        assert shown[-1] == ""
        assert "\n" not in stream.getvalue()

    def test_nothing_through_a_pipe(self):
        stream = io.StringIO()
        with Progress(stream) as progress:
            progress.show("one")
        assert stream.getvalue() == ""
