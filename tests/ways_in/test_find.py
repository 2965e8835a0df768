"""``mechcalc find``: what it prints, and how it says no."""

from __future__ import annotations

import pytest

from mechcalc.preparing import MEASURES, PHRASES, TASKS

from .test_command_line import refused, words

FULL = ("find", "multiply", "--digits", "3x2", "--machine", "bench", "--with", "ripple >= 4", "--with",
        "no nought in multiplier", "--many", "2", "--seed", "2026")


class TestFind:
    """Numbers that show the point."""

    def test_a_line_each_and_why(self, capsys):
        """The same seed as in `tests/preparing/test_finding.py`."""
        out = words(capsys, *FULL)
        lines = out.splitlines()
        assert lines[:3] == ["multiply on Bench (multiplicand of 3 digits, multiplier of 2 digits), seed 2026", "",
                             "no.  calculation       turns  shifts"]
        assert [line.split("=")[0].split()[1:] for line in lines if "=" in line] == [["607", "×", "63"],
                                                                                     ["286", "×", "17"]]
        assert "one carry runs through 4 wheels" in " ".join(out.split())
        assert lines[-1].endswith("of them meet the wish.")
        assert max(map(len, lines)) <= 80
        assert words(capsys, *FULL) == out

    def test_from_a_file(self, capsys, tmp_path):
        path = tmp_path / "wish.toml"
        path.write_text('method = "multiply"\ndigits = [3, 2]\nwith = ["ripple >= 4", "no nought in multiplier"]\n')
        assert words(capsys, "find", str(path), "--many", "2", "--seed", "2026") == words(capsys, *FULL)
        assert f"--digits stands in the file {path}: leave it out here" in refused(
            capsys, "find", str(path), "--digits", "3x2")

    def test_a_quotient_with_decimals(self, capsys):
        out = words(capsys, "find", "divide-building-up", "--digits", "=355x=113", "--places", "3", "--many", "1")
        assert "355 ÷ 113 = 3.141, remainder 0.067" in out
        assert "There are no more." not in out

    @pytest.mark.parametrize(("typed", "says"), [
        (("mutliply",), "did you mean 'multiply'?"), ((), "the following arguments are required: METHOD"),
        (("multiply", "--with", "riple >= 4"), "did you mean 'ripple'?"), (("multiply", "--digits", "3"), "2 numbers"),
        (("multiply", "--machine", "benhc"), "did you mean 'bench'?"), (("multiply", "--many", "0"), "cannot be 0"),
        (("multiply", "--budget", "0"), "a budget cannot be 0"), (("nothere.toml",), "cannot be read")])
    def test_what_is_refused(self, capsys, typed, says):
        assert says in refused(capsys, "find", *typed)

    def test_what_cannot_be_met(self, capsys):
        """Every line on standard error, exit code 2."""
        from mechcalc.cli import run
        assert run(["find", "multiply", "--digits", "1x2", "--with", "ripple >= 5"]) == 2
        printed = capsys.readouterr()
        assert printed.out == ""
        assert printed.err.startswith("mechcalc: no numbers meet the wish for multiply on Bench")
        assert "proved: all 810 candidates were tried" in printed.err


class TestList:
    """Everything that can be asked for."""

    def test_all_of_it_in_80_columns(self, capsys):
        out = words(capsys, "find", "--list")
        lines = out.splitlines()
        assert max(map(len, lines)) <= 80
        for name in (*TASKS, *(name for name in MEASURES if name != "value")):
            assert any(line.startswith(name) for line in lines), name
        for phrase in PHRASES:
            assert any(line.startswith(phrase.format("NUMBER")) for line in lines), phrase

    def test_what_goes_with_one_method(self, capsys):
        """A cube root has no slips that are known, and no short cut."""
        out = words(capsys, "find", "cube-root", "--list")
        assert "cube root  a cube root, by the differences of cubes (radicand)" in out
        assert "turns saved" not in out
        assert "slips" not in out
        assert "nines crossed" in out
