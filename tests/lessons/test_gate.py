"""The gate can fail: a small lesson, and what is reported when it is damaged or badly written."""

from __future__ import annotations

import copy
import subprocess
import sys
from pathlib import Path

import nbformat
import nbformat.v4 as new
import pytest

from mechcalc.classroom import gate, refresh
from mechcalc.classroom.course import COURSE
from mechcalc.classroom.form import faults_of_form, faults_of_index, words
from mechcalc.classroom.gate import executed, leaning_sections, read, reasons
from mechcalc.classroom.refresh import settled

from .damage import WAYS

pytestmark = pytest.mark.lessons

SOURCES = [
    "from IPython.display import Image, Latex, display",
    "print('the register shows', 1000)\n1000",
    "print('a picture of 1 point')\ndisplay(Image(data=bytes.fromhex('89504e470d0a1a0a')))",
    "Latex('$x^2$')",
    "print('a view of 1 timeline')\nlooks = '<view 3f20>'\n"
    "display({'application/vnd.jupyter.widget-view+json': {'model_id': looks}, 'text/plain': looks}, raw=True)",
]


@pytest.fixture(scope="module")
def small():
    """A lesson of five cells, run."""
    cells = [new.new_markdown_cell("# A small lesson")]
    for number, source in enumerate(SOURCES):
        cells += [new.new_code_cell(source)] if number == 0 else [
            new.new_markdown_cell(f"## Part {number}"), new.new_code_cell(source)]
    return settled(executed(new.new_notebook(cells=cells)))


def test_a_lesson_passes_when_it_says_what_it_said(small):
    assert reasons(small, executed(small)) == []


@pytest.mark.parametrize("way", WAYS)
def test_each_damage_is_reported(small, way):
    damaged = copy.deepcopy(small)
    assert WAYS[way](damaged) is not False, "the small lesson has something of every kind"
    assert reasons(damaged, small)


def test_what_changed_is_named(small):
    damaged = copy.deepcopy(small)
    WAYS["a changed number in a value"](damaged)
    assert reasons(damaged, small) == [
        "cell part-1-2 (print('the register shows', 1000)), output 2: text/plain was '1001', is '1000'"]


def test_a_cell_that_stops_with_an_error_is_named():
    broken = executed(new.new_notebook(cells=[new.new_code_cell("1 / 0", id="broken")]))
    assert reasons(broken, broken) == ["cell broken (1 / 0) stops with ZeroDivisionError: division by zero"]


def test_addresses_may_change():
    one, two = ([new.new_code_cell("x", id="x", outputs=[new.new_output(
        "execute_result", {"text/plain": f"<object at 0x7f{number}00000000>"})])] for number in (1, 2))
    assert list(gate.differences(new.new_notebook(cells=one), new.new_notebook(cells=two))) == []


def test_a_section_that_leans_on_another_is_named(small):
    assert leaning_sections(small) == []
    leaning = copy.deepcopy(small)
    leaning.cells[-1].source = "looks + leaning"
    leaning.cells[2].source = "leaning = 1"
    (line,) = leaning_sections(leaning)
    assert line.startswith('the section "Part 4" does not stand alone')
    assert "NameError" in line


class TestSaving:
    """A lesson is saved free of what changes from run to run."""

    def test_two_runs_are_saved_alike(self, small):
        assert nbformat_text(settled(executed(small))) == nbformat_text(small)

    def test_random_ids_are_replaced_and_good_ones_kept(self):
        cells = [new.new_markdown_cell("## How it works", id="b" * 8), new.new_code_cell("1", id="0f3ab4c1"),
                 new.new_code_cell("2", id="the-sum"), new.new_code_cell("3", id="taken"),
                 new.new_code_cell("4", id="1c9b33f0-5a21-4fd2-9b70-d5a1c38b2f10")]
        notebook = new.new_notebook(cells=cells)
        notebook.cells[3]["id"] = "the-sum"
        named = settled(notebook)
        assert [cell.id for cell in named.cells] == ["how-it-works-1", "how-it-works-2", "the-sum", "how-it-works-3",
                                                     "how-it-works-4"]

    def test_metadata_of_the_day_is_not_kept(self, small):
        noisy = copy.deepcopy(small)
        noisy.metadata["widgets"] = {"state": "large"}
        noisy.metadata["language_info"] = {"version": "3.99"}
        noisy.cells[2].metadata["execution"] = {"iopub.status.idle": "2000-01-01"}
        assert nbformat_text(settled(noisy)) == nbformat_text(small)

    def test_tags_and_collapsed_cells_are_kept(self):
        cell = new.new_code_cell("1", metadata={"tags": ["solution"], "jupyter": {"source_hidden": True}})
        assert settled(new.new_notebook(cells=[cell])).cells[0].metadata == {
            "tags": ["solution"], "jupyter": {"source_hidden": True}}


class TestRefresh:
    """The tool that runs a lesson and saves it."""

    @staticmethod
    def lesson(folder, source):
        path = folder / "lesson.ipynb"
        nbformat.write(new.new_notebook(cells=[new.new_code_cell(source, id="only")]), path)
        return path

    def test_it_saves_once_and_then_finds_nothing_to_change(self, tmp_path, capsys):
        path = self.lesson(tmp_path, "print(6 * 7)")
        assert refresh.main(["--check", str(path)]) == 1
        assert refresh.main([str(path)]) == 0
        assert read(path).cells[0].outputs[0].text == "42\n"
        saved = path.read_bytes()
        assert refresh.main([str(path)]) == 0
        assert path.read_bytes() == saved
        assert [line.split(": ")[1] for line in capsys.readouterr().out.splitlines()] == [
            "changed", "changed", "as it was"]

    def test_a_lesson_that_stops_with_an_error_is_left_alone(self, tmp_path, capsys):
        path = self.lesson(tmp_path, "1 / 0")
        before = path.read_bytes()
        assert refresh.main([str(path)]) == 2
        assert path.read_bytes() == before
        assert "cell only (1 / 0) stops with ZeroDivisionError" in capsys.readouterr().err


def nbformat_text(notebook):
    return nbformat.writes(notebook, version=4)


class TestForm:
    """The house rules, each broken once."""

    @staticmethod
    def faults(*sources, outputs=(), **metadata):
        cells = [new.new_code_cell(source, id=f"c{number}", metadata=metadata, outputs=list(outputs))
                 for number, source in enumerate(sources)]
        return "\n".join(faults_of_form(new.new_notebook(cells=cells)))

    @pytest.mark.parametrize(("sources", "said"), [
        (["from os import *"], "cell c0 has a star import"),
        (["%pip install x"], "cell c0 installs something or uses a magic"),
        (["import os\nos.system('pip install x')"], "cell c0 installs something"),
        (["1", "import os"], "cell c1 imports: imports stand in the first code cell"),
        (["x = input()"], "cell c0 asks for input"),
        (["x = 1", "x = 2"], "cell c1 gives x again: it was given in cell c0"),
        (["for x in (1, 2): pass", "(a, x) = (1, 2)"], "cell c1 gives x again"),
        (["m = ready('slate')", "m.turn()"], "cell c1 moves m, a machine of cell c0"),
        (["my_x = 3"], "cell c0 holds an answer already"),
        (["a =\n"], "cell c0 is no plain Python"),
        (["a\nb\nc\nd\ne\nf\ng"], "lines of code in cell c0: 7, not 1 to 6"),
        (["look_over('slow levers', 13)"], "cell c0 asks for 'slow levers' without a my_… to fill in"),
        (["my_a = None\nlook_over('slow levers', my_a)"], "exercises and solutions do not match"),
        (["1"], 'no section "Summary"'),
        (["1"], "words: 0, not 1200 to 2000"),
        (["1"], "code cells: 1, not 20 to 30"),
        (["1"], "pictures: 0, not 3 to 5"),
    ])
    def test_a_broken_rule_is_named(self, sources, said):
        assert said in self.faults(*sources)

    def test_names_in_comprehensions_are_their_own(self):
        assert "again" not in self.faults("[x for x in 'ab']", "{x: 1 for x in 'ab'}")

    def test_a_picture_needs_its_numbers_beside_it(self):
        picture = new.new_output("display_data", {"image/png": "iVBORw0KGgo="})
        said = "cell c0 shows a picture and prints none of its numbers"
        assert said in self.faults("draw()", outputs=[picture])
        assert said not in self.faults("draw()", outputs=[picture, new.new_output("stream", text="result 1000\n")])

    def test_a_solution_is_collapsed_and_right(self):
        said = self.faults("worked_out('slow levers', 9)", tags=["solution"])
        assert "the solution in cell c0 is not collapsed" in said
        assert "the solution in cell c0 is not found right" in said

    def test_four_texts_in_a_row_are_too_many(self):
        texts = [new.new_markdown_cell("Words.", id=f"t{number}") for number in range(4)]
        assert "more than 3 text cells in a row, at cell t3" in faults_of_form(new.new_notebook(cells=texts))

    def test_words_are_those_that_a_learner_reads(self):
        text = "## One\nTwo *three*, [four](https://example.org/a/b) $x^2 + y$ — 5\n\n<b>six</b>"
        teacher = new.new_markdown_cell("## For the teacher\nNot counted.")
        notebook = new.new_notebook(cells=[new.new_markdown_cell(text), teacher, new.new_markdown_cell("nor this")])
        assert words(notebook) == 6


class TestFormOfTheIndex:
    """The rules for the page that leads to the lessons, each broken once."""

    LINKS = "".join(f'<a href="{lesson.name}.ipynb">x</a>' for lesson in COURSE)

    def faults(self, *sources, html=LINKS, text="word " * 300):
        cells = [new.new_code_cell(source, id=f"c{number}", outputs=[new.new_output(
            "execute_result", {"text/html": html})]) for number, source in enumerate(sources)]
        return faults_of_index(new.new_notebook(cells=[new.new_markdown_cell(text, id="t"), *cells]))

    def test_a_good_one(self):
        assert self.faults("import os", *["os.getcwd()"] * 4) == []

    @pytest.mark.parametrize(("sources", "options", "said"), [
        ("1234", {}, "code cells: 4, not 5 to 10"),
        ("12345", {"text": "short"}, "words: 1, not 200 to 700"),
        ("12345", {"html": LINKS.replace("tens_carry.ipynb", "")}, "no link to tens_carry"),
        ("12345", {"html": LINKS + '<a href="../else.ipynb">'}, "a link to ../else.ipynb, which is no lesson"),
        (["1", "import os", "3", "4", "5"], {}, "cell c1 imports: imports stand in the first code cell"),
        (["1", "my_a = None\nlook_over('slow levers', my_a)", "3", "4", "5"], {}, "cell c1 asks an exercise"),
        (["1", "a\nb\nc\nd\ne\nf\ng", "3", "4", "5"], {}, "lines of code in cell c1: 7, not 1 to 6")])
    def test_a_broken_rule_is_named(self, sources, options, said):
        assert said in "\n".join(self.faults(*sources, **options))


def test_the_command_says_what_stops_a_lesson(small, tmp_path, capsys):
    damaged = copy.deepcopy(small)
    WAYS["a changed number in a value"](damaged)
    for name, notebook in (("good", small), ("damaged", damaged)):
        nbformat.write(notebook, tmp_path / f"{name}.ipynb")
    assert gate.main([str(tmp_path / "good.ipynb"), str(tmp_path / "damaged.ipynb"), "--outputs-only"]) == 1
    said = capsys.readouterr().out
    assert "good.ipynb: passes\n" in said
    assert "damaged.ipynb: does not pass\n  - cell part-1-2" in said


@pytest.mark.parametrize(("way", "code"), [(None, 0), ("a changed number in a value", 1), ("changed LaTeX", 1)])
def test_nbval_notices_too(small, tmp_path, way, code):
    """The other check of lessons, with the project's own settings, passes a sound lesson and fails a damaged one."""
    damaged = copy.deepcopy(small)
    if way:
        WAYS[way](damaged)
    nbformat.write(damaged, tmp_path / "lesson.ipynb")
    settings = Path(__file__).with_name("nbval_sanitize.cfg")
    done = subprocess.run([sys.executable, "-m", "pytest", "-p", "no:cacheprovider", "--nbval", "--nbval-current-env",
                           "--nbval-sanitize-with", settings, "lesson.ipynb"], cwd=tmp_path, capture_output=True,
                          check=False)
    assert done.returncode == code, done.stdout.decode()
