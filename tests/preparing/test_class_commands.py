"""The commands that prepare a class, as a teacher types them; and the invented class that comes with the kit."""

from __future__ import annotations

import csv
import io
import subprocess
import sys
from pathlib import Path

import pytest

from mechcalc.cli import run
from mechcalc.preparing import load_sheet, make_worksheets, mark_answers, read_class
from tests.preparing.pages import pdf_pages
from tests.typed import refused, words as said

ROOT = Path(__file__).parents[2]
DATA = ROOT / "data" / "class"
FIRST = str(DATA / "first_sheet.toml")
CLASS = str(DATA / "class_list.csv")


class TestWorksheets:
    """``mechcalc worksheets``."""

    def test_a_class_of_thirty_in_one_command(self, capsys, tmp_path):
        out = said(capsys, "worksheets", FIRST, "--class", CLASS, "--seed", "2026", "--into", str(tmp_path / "set"))
        assert out.startswith("A first product and a first quotient: 30 sheets, codes ")
        assert "   1  Multiply by shifting               5 to 13 turns" in out
        assert len(pdf_pages((tmp_path / "set" / "worksheets.pdf").read_bytes())) == 30
        assert (tmp_path / "set" / "worksheets.html").read_text(encoding="utf-8").count("<section") == 30
        rows = list(csv.reader(io.StringIO((tmp_path / "set" / "answers.csv").read_text(encoding="utf-8-sig"))))
        assert rows[0] == ["code", "name", "1a", "1b", "1c", "1d", "1e", "2a", "2b", "2c", "2d"]
        assert len(rows) == 31

    def test_copies_without_names(self, capsys, tmp_path):
        said(capsys, "worksheets", FIRST, "--copies", "3", "--no-pdf", "--into", str(tmp_path))
        assert (tmp_path / "worksheets.html").read_text(encoding="utf-8").count("<section") == 3
        assert not list(tmp_path.glob("*.pdf"))

    def test_paper(self, capsys, tmp_path):
        said(capsys, "worksheets", FIRST, "--copies", "1", "--paper", "letter", "--into", str(tmp_path))
        assert "size: letter;" in (tmp_path / "worksheets.html").read_text(encoding="utf-8")

    def test_bad_rows_are_named_and_stop_it(self, capsys, tmp_path):
        """Unless the rest of the class is enough: then they are named as well, and stand in the key."""
        path = tmp_path / "class.csv"
        path.write_text("name;group\nAda;7b\n;7b\nAda;7b\nBea;7b;x\n", encoding="utf-8")
        argv = ("worksheets", FIRST, "--class", str(path), "--into", str(tmp_path / "set"))
        error = refused(capsys, *argv)
        assert "3 rows cannot be used; mend them, or add --skip-bad-rows to make sheets for the other 1:" in error
        assert "line 3 ( | 7b): the name is empty" in error
        assert "line 4 (Ada | 7b): the same name and group stand in line 2" in error
        assert "line 5 (Bea | 7b | x): it has more cells than the head has columns (3 of 2)" in error
        assert not (tmp_path / "set").exists()
        assert run((*argv, "--skip-bad-rows")) == 0
        printed = capsys.readouterr()
        assert "3 rows left out:" in printed.err
        assert "1 sheet, codes " in printed.out
        key = (tmp_path / "set" / "key.html").read_text(encoding="utf-8")
        assert "Not on any sheet: line 3 ( | 7b): the name is empty" in key
        assert "Not on any sheet: line 5" in pdf_pages((tmp_path / "set" / "key.pdf").read_bytes())[0]

    def test_a_set_is_not_written_over(self, capsys, tmp_path):
        argv = ("worksheets", FIRST, "--copies", "1", "--no-pdf", "--into", str(tmp_path))
        said(capsys, *argv)
        assert "holds a set of sheets already: choose another folder, or add --replace" in refused(capsys, *argv)
        said(capsys, *argv, "--replace")

    @pytest.mark.parametrize(("argv", "message"), [
        (("worksheets", FIRST, "--into", "x"), "one of the arguments --class --copies is required"),
        (("worksheets", FIRST, "--copies", "3"), "the following arguments are required: --into"),
        (("worksheets", "none.toml", "--copies", "3", "--into", "x"), "none.toml cannot be read: No such file"),
        (("worksheets", FIRST, "--copies", "0", "--into", "x"), "a number of sheets cannot be 0: it goes from 1 to"),
        (("answers", "none.csv", "--sheets", "none"), "none holds no set of sheets: there is no set.json"),
    ])
    def test_what_is_refused(self, capsys, tmp_path, monkeypatch, argv, message):
        monkeypatch.chdir(tmp_path)
        assert message in refused(capsys, *argv)
        assert list(tmp_path.iterdir()) == []


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """The set that the invented answers belong to; made in a process of its own, as a teacher does."""
    folder = tmp_path_factory.mktemp("set")
    subprocess.run([sys.executable, "-m", "mechcalc", "worksheets", FIRST, "--class", CLASS, "--seed", "2026",
                    "--no-pdf", "--into", str(folder)], cwd=ROOT, check=True, capture_output=True)
    return folder


class TestAnswers:
    """``mechcalc answers``, on the invented answers."""

    def test_one_command(self, capsys, folder, tmp_path):
        """Counted in the file by hand: 31 rows of 9 cells, of which 13 are empty; 9 of a learner whom nobody knows, 9
        of one who is there twice; one learner of thirty is missing.
        """
        out = said(capsys, "answers", str(DATA / "answers.csv"), "--sheets", str(folder), "--into", str(tmp_path / "r"))
        assert "279 entries: " in out
        assert "29 of 30 learners have answers" in out
        assert out.count("whose it is cannot be told: nobody in this set has the id '799'") == 9
        assert out.count("is answered a second time: the first stands in line 7") == 9
        assert "Set aside as blank: 13 cells" in out
        assert "shift forgotten                             4      4         4" in out
        assert sorted(path.name for path in (tmp_path / "r").iterdir()) == [
            "learners.csv", "marks.csv", "misconceptions.csv", "questions.csv", "report.html", "report.png",
            "set_aside.csv"]

    def test_a_report_is_not_written_over(self, capsys, folder):
        argv = ("answers", str(DATA / "answers.csv"), "--sheets", str(folder))
        said(capsys, *argv)
        assert "is there already: choose another folder, or say that it may be replaced" in refused(capsys, *argv)
        said(capsys, *argv, "--replace")

    def test_without_matplotlib(self, capsys, folder, tmp_path, monkeypatch):
        """Everything but the plot."""
        import mechcalc.preparing.marking.telling as telling
        monkeypatch.setattr(telling, "find_spec", lambda name: None)
        out = said(capsys, "answers", str(DATA / "answers.csv"), "--sheets", str(folder), "--into", str(tmp_path))
        assert "No plot was made" in out
        assert "<img" not in (tmp_path / "report.html").read_text(encoding="utf-8")

    def test_from_a_notebook(self):
        """The same without files."""
        made = make_worksheets(load_sheet(FIRST), read_class(CLASS), seed=2026)
        report = mark_answers(DATA / "answers.csv", made)
        assert report.entries == 279
        assert len(report.marks) + len(report.aside) == 279
        assert report.count("right") > 150
        html = report._repr_html_()
        assert all(name in html for name in ("Łukasz Wierzba", "李小河", "shift forgotten", "Set aside"))
