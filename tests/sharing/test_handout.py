"""A lesson on paper, from the notebook that is committed."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import nbformat
import pypdfium2
import pypdfium2.raw as raw
import pytest

from mechcalc import InputError
from mechcalc.classroom.form import SOLUTION
from mechcalc.classroom.gate import VIEW
from mechcalc.setup.lessons import all_lessons, find_lesson
from mechcalc.sharing import handout
from mechcalc.sharing.lesson import browser as printer
from mechcalc.sharing.lesson.formulas import mathml, output_formula, text
from mechcalc.sharing.lesson.page import lesson_page
from mechcalc.sharing.lesson.views import pictures
from tests.ci_rules import BROWSERS, VARIABLE

TENS = find_lesson("tens_carry").path


@pytest.fixture(scope="module")
def notebook() -> nbformat.NotebookNode:
    return nbformat.read(TENS, as_version=4)


@pytest.fixture(scope="module")
def views(notebook: nbformat.NotebookNode) -> dict[str, str]:
    return pictures(notebook, TENS.parent)


class TestThePage:
    """HTML without a script, without a network."""

    def test_every_live_view_is_a_picture(self, notebook, views) -> None:
        """As many as the notebook has, each of the very timeline whose fingerprint was committed."""
        live = [cell.id for cell in notebook.cells if cell.cell_type == "code"
                for output in cell.outputs if VIEW in output.get("data", {})]
        assert live
        assert sorted(views) == sorted(live)
        page = lesson_page(notebook, views)
        assert page.count("In the notebook this is a live view.") == len(live)
        assert "99 + 1" in "".join(views.values())

    def test_every_machine_of_every_lesson_is_pictured(self) -> None:
        """None of the kit's lessons shows a machine live that has no picture on paper."""
        for lesson in all_lessons():
            notebook = nbformat.read(lesson.path, as_version=4)
            live = [cell.id for cell in notebook.cells for output in cell.get("outputs", [])
                    if output.get("data", {}).get("text/plain", "").startswith(("<MachineView", "<SolidView"))]
            assert sorted(pictures(notebook, lesson.path.parent)) == sorted(live), lesson.name

    def test_a_view_that_has_changed_is_left_out(self, notebook) -> None:
        """A picture of something else than the notebook showed is worse than none."""
        changed = nbformat.from_dict(notebook)
        for cell in changed.cells:
            for output in cell.get("outputs", []):
                if VIEW in output.get("data", {}):
                    output["data"]["text/plain"] += "?"
        assert pictures(changed, TENS.parent) == {}
        assert "In the notebook something to work with stands here." in lesson_page(changed, {})

    def test_a_lesson_that_no_longer_runs_keeps_its_words(self, notebook) -> None:
        broken = nbformat.from_dict(notebook)
        next(cell for cell in broken.cells if cell.cell_type == "code")["source"] = "raise RuntimeError"
        assert pictures(broken, TENS.parent) == {}

    def test_holds_every_text_and_every_output(self, notebook, views) -> None:
        """What was printed, and as many pictures as there are; headings in order."""
        page = lesson_page(notebook, views, solutions=True, teacher=True)
        heads = [re.sub(r"<[^>]+>", "", head) for head in re.findall(r"<h2>(.*?)</h2>", page)]
        wanted = re.findall(r"^## +(.+)$", "\n".join(
            cell.source for cell in notebook.cells if cell.cell_type == "markdown"), re.MULTILINE)
        assert len(heads) == len(wanted)
        bitmaps = sum("image/png" in output.get("data", {}) for cell in notebook.cells
                      for output in cell.get("outputs", []))
        assert page.count("<img ") == bitmaps > 0
        assert not re.search(r'<img alt=""', page)

    def test_solutions_and_the_teachers_page_are_optional(self, notebook, views) -> None:
        solved = next(cell for cell in notebook.cells if SOLUTION in cell.metadata.get("tags", []))
        line = "worked_out("
        assert line in solved.source
        plain = lesson_page(notebook, views)
        assert line not in plain
        assert "For the teacher" not in plain
        assert line in lesson_page(notebook, views, solutions=True)
        assert "For the teacher" in lesson_page(notebook, views, teacher=True)

    def test_no_script_and_no_network(self, notebook, views) -> None:
        """The policy forbids both, and nothing on the page asks for either."""
        page = lesson_page(notebook, views, solutions=True, teacher=True)
        asked: list[str] = []

        class Reader(HTMLParser):
            def handle_starttag(self, tag, attrs):
                assert tag not in ("script", "iframe", "link", "object")
                asked.extend(value or "" for name, value in attrs if name in ("src", "srcset"))
                assert not [name for name, _ in attrs if name.startswith("on")]

        Reader().feed(page)
        assert all(address.startswith("data:image/png;base64,") for address in asked)
        assert "default-src 'none'" in page

    def test_markup_in_a_text_cell_is_text(self) -> None:
        assert "&lt;script&gt;" in text("a <script>alert(1)</script>")
        assert "javascript:" not in text("[x](javascript:alert(1))")


class TestFormulas:
    """LaTeX as MathML (W3C)."""

    def test_every_formula_of_every_lesson_can_be_read(self) -> None:
        """None is left as source, in any notebook of the kit."""
        count = 0
        for path in sorted(TENS.parent.glob("*.ipynb")):
            for cell in nbformat.read(path, as_version=4).cells:
                if cell.cell_type == "markdown":
                    shown = text(cell.source)
                    count += shown.count("<math")
                    assert "$" not in re.sub(r"<code>.*?</code>|<pre>.*?</pre>", "", shown, flags=re.DOTALL), path
                for output in cell.get("outputs", []):
                    if "text/latex" in output.get("data", {}):
                        assert output_formula(output["data"]["text/latex"]).startswith("<math")
                        count += 1
        assert count > 100

    def test_a_fraction(self) -> None:
        assert re.search(r"<mfrac>\s*<mrow>\s*<mi>a</mi>", mathml(r"\frac{a}{2}"))


class TestThePdf:
    """Printed by the system's browser."""

    def test_a_lesson(self, tmp_path: Path, system_browser: str) -> None:
        """Several A4 pages of real text, tagged, with a table of contents for the reader's side bar."""
        path = handout("tens", tmp_path / "tens.pdf")
        pdf = pypdfium2.PdfDocument(path)
        assert 4 < len(pdf) < 20
        assert pdf[0].get_size() == pytest.approx((595.3, 841.9), abs=1)
        assert raw.FPDFCatalog_IsTagged(pdf.raw)
        assert "The tens carry" in pdf[0].get_textpage().get_text_range()
        assert len(list(pdf.get_toc())) > 5
        assert [entry.name for entry in tmp_path.iterdir()] == ["tens.pdf"]

    def test_browsers_are_those_of_the_tests(self) -> None:
        assert (printer.NAMES, printer.VARIABLE) == (BROWSERS, VARIABLE)

    def test_without_a_browser(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        """It says so before anything is run, and what to do."""
        monkeypatch.setenv(VARIABLE, "no-such-browser")
        with pytest.raises(InputError, match=r"none was found: .* write an \.html"):
            handout("tens", tmp_path / "a.pdf")


class TestRefusals:
    def test_what_is_no_lesson(self, tmp_path: Path) -> None:
        with pytest.raises(InputError, match="'tons' is no lesson"):
            handout("tons", tmp_path / "a.html")
        bad = tmp_path / "bad.ipynb"
        bad.write_text("{}")
        with pytest.raises(InputError, match="cannot be read as a notebook"):
            handout(bad, tmp_path / "a.html")

    def test_paper_and_ending(self, tmp_path: Path) -> None:
        with pytest.raises(InputError, match=r"\.html or \.pdf"):
            handout("tens", tmp_path / "a.docx")
        with pytest.raises(InputError, match="the paper 'a5' is none: a4 or letter"):
            handout("tens", tmp_path / "a.html", paper="a5")
