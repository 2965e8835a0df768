"""The bench sheet: what a person needs to follow a plan, with what a sound machine shows, on paper."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pypdfium2
import pytest
from preparing.pages import pdf_pages

from bench.books import CATALOGUE, book_of
from mechcalc import InputError, MachineSpec, load_spec
from mechcalc.bench.candidates import Test
from mechcalc.bench.dictionary import fault_dictionary
from mechcalc.bench.papers.blocks import CAUTIONS, DEFER, reading_block
from mechcalc.bench.papers.printing import write_paper
from mechcalc.bench.plan import plan
from mechcalc.bench.readings import Reading
from mechcalc.bench.sheet import sheet_html, sheet_paper, sheet_pdf, sound_readings, write_sheet
from mechcalc.bench.step_words import in_words, parts_of
from mechcalc.bench.steps import steps_from_text
from mechcalc.printing.typesetting import Fonts

OWN_FONTS_ONLY = Fonts(system=False)
HIDING = MachineSpec(setting_places=2, result_places=3, counter_places=2, carry_reach=5, name="Hider")


@pytest.fixture(scope="module")
def chosen():
    return plan(book_of("slate"))


def flat(data: bytes) -> str:
    """All text of a PDF, spaces and breaks as single spaces."""
    return " ".join(" ".join(pdf_pages(data)).split())


class Boxes(HTMLParser):
    """The rows of boxes of a page, as their labels tell them."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.rows: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        label = dict(attrs).get("aria-label")
        if label:
            self.rows.append(label)


class TestWords:
    """What to do is said so that it can be done."""

    @pytest.mark.parametrize(("text", "words"), [
        ("set 9999; turn 2", ("Set 9999: all levers.", "Turn the crank twice, additive.")),
        ("turn; turn -1", ("Turn the crank once, additive.", "Turn the crank once, subtractive.")),
        ("set 1000; shift 2; shift -1", ("Set 1000: lever 4, all others at 0.", "Shift the carriage to position 2.",
                                         "Shift the carriage to position 1.")),
        ("set 1011", ("Set 1011: levers 4, 2, 1, all others at 0.",)),
        ("set 111", ("Set 111: levers 3 to 1, all others at 0.",)), ("set 0", ("Set 0: all levers.",)),
        ("clear counter; clear result; clear setting", ("Clear the counter.", "Clear the result.",
                                                        "Clear the setting: all levers to 0."))])
    def test_steps(self, text, words):
        assert in_words(load_spec("slate"), steps_from_text(text)) == words

    def test_tries_are_gentle(self):
        for what in ("try back", "try lever"):
            (said,) = in_words(load_spec("slate"), steps_from_text(what))
            assert "gently, without force" in said

    def test_the_carriage_is_followed_across_readings(self):
        parts = parts_of(load_spec("slate"), Test.of("mine", "shift 2; read; shift -1; read"))
        assert [part.words for part in parts] == [("Shift the carriage to position 2.",),
                                                  ("Shift the carriage to position 1.",)]


class TestWhatStandsOnIt:
    """Cautions first; every test with its steps, and what should be read."""

    @pytest.mark.parametrize("name", CATALOGUE)
    def test_every_step_and_every_reading_of_the_plan(self, name):
        chosen = plan(book_of(name))
        paper = sheet_paper(chosen)
        tests = [block for block in paper["blocks"] if block["kind"] == "test"]
        assert [block["number"] for block in tests] == list(range(1, len(chosen.tests) + 1))
        for block, test in zip(tests, chosen.tests, strict=True):
            readings = [one for part in block["parts"] for one in part["readings"]]
            assert len(readings) == len(test.reads)
            steps = [step for part in block["parts"] for step in part["steps"]]
            whole = [step for part in parts_of(chosen.book.spec, test) for step in part.words]
            times = len(test.reads) if block["repeat"] else 1
            assert steps * times == whole
        assert paper["blocks"][0]["items"] == list(CAUTIONS)

    def test_what_should_be_read_by_plain_arithmetic(self):
        """9999 twice and 1 once, in six places; taken off below nought, modulo 10 to the 6th."""
        spec = load_spec("slate")
        up = sound_readings(spec, Test.of("up", "set 9999; turn 2; read; set 1; turn; read"))
        down = sound_readings(spec, Test.of("down", "set 9999; turn -2; read"))
        assert [reading.result for reading in up] == [19998, 19999]
        assert [(reading.result, reading.counter, reading.bell) for reading in down] == [(10**6 - 19998, 2, False)]

    def test_digits_stand_above_their_boxes(self):
        block = reading_block(load_spec("slate"), "Read", (), Reading(result=347, counter=26, setting=1, bell=True))
        assert [(one["name"], one["places"], one["should"]) for one in block["registers"]] == [
            ("result", 6, "000347"), ("counter", 3, "026"), ("setting", 4, "0001")]
        assert block["asked"] == [{"words": "bell in the last turn", "should": "yes", "read": None}]

    def test_what_is_proved_is_said_with_its_numbers(self, chosen):
        text = flat(sheet_pdf(chosen))
        assert "It reveals every one of 183 single faults that the kit knows" in text
        assert "It tells all of them apart: no two show the same throughout." in text
        assert (f"Proved least: no choice from the {len(chosen.book.tests)} tests of the list does this with less than "
                f"{len(chosen.tests)} tests.") in text
        assert "Two faults at once were not looked at" in text

    def test_a_plan_that_does_less_says_less(self):
        brief = plan(book_of("slate"), tell_apart=False)
        text = flat(sheet_pdf(brief))
        groups = len(set(brief.book.classes([brief.book.tests.index(test) for test in brief.tests])) - {0})
        assert f"It divides them into {groups} groups by what is read" in text
        assert "tells all of them apart" not in text

    def test_what_it_cannot_reveal_stands_there_with_the_reason(self):
        text = flat(sheet_pdf(plan(fault_dictionary(HIDING))))
        assert "the additive carry pin of place 5 is gone: no number wheel ever stands before place 5" in text
        revealed, known = map(int, re.search(r"It reveals (\d+) of (\d+) single faults", text).groups())
        assert revealed < known

    def test_pairs_are_counted_where_they_were_looked_at(self):
        small = MachineSpec(setting_places=1, result_places=2, counter_places=1, carry_reach=2)
        book = fault_dictionary(small, pairs=True)
        chosen = plan(book, tell_apart=False)
        assert re.search(r"Of [\d\s]+ pairs of faults at once it reveals [\d\s]+\.", flat(sheet_pdf(chosen)))

    def test_cautions_are_there_whole(self, chosen):
        text = flat(sheet_pdf(chosen))
        assert all(said in text for said in (*CAUTIONS, DEFER))

    def test_turns_and_work(self, chosen):
        assert f"{chosen.turns} turns of the crank, {chosen.work:g} turns' worth of work" in flat(sheet_pdf(chosen))


class TestPaper:
    """PDF and HTML say the same, and print well."""

    def test_the_same_boxes_on_both(self, chosen):
        paper = sheet_paper(chosen)
        rows = [(one["name"], one["should"], one["places"]) for block in paper["blocks"] if block["kind"] == "test"
                for part in block["parts"] for reading in part["readings"] for one in reading["registers"]]
        told = [f"{name}: should be {should}, {places} empty boxes" for name, should, places in rows]
        assert Boxes(sheet_html(chosen)).rows == told

    @pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("letter", (612, 792))])
    def test_papers(self, chosen, paper, size):
        """ISO 216's A4 is 210 mm by 297 mm; a letter is 8.5 by 11 inches; 72 points to the inch."""
        pages = pypdfium2.PdfDocument(sheet_pdf(chosen, paper=paper))
        assert {tuple(round(length) for length in page.get_size()) for page in pages} == {size}
        assert f"size: {'A4' if paper == 'a4' else 'letter'};" in sheet_html(chosen, paper=paper)

    def test_another_paper_is_refused(self, chosen):
        with pytest.raises(InputError, match="the paper 'a3' is none: a4 or letter"):
            sheet_pdf(chosen, paper="a3")

    def test_the_widest_machine_fits_the_page(self):
        wide = MachineSpec(setting_places=10, result_places=40, counter_places=40, carry_reach=17)
        tests = [Test.of("nines", "set 9999999999; turn; read")]
        chosen = plan(fault_dictionary(wide, tests=tests), tell_apart=False)
        for page in pypdfium2.PdfDocument(sheet_pdf(chosen)):
            edges = [thing.get_bounds() for thing in page.get_objects()]
            assert min(left for left, _, _, _ in edges) > 40
            assert max(right for _, _, right, _ in edges) < 595 - 40

    def test_no_colour(self, chosen):
        for page in pypdfium2.PdfDocument(sheet_pdf(chosen)):
            image = page.render(scale=0.7).to_pil().convert("RGB")
            assert all(red == green == blue for _, (red, green, blue) in image.getcolors(1 << 16))

    def test_a_label_is_text_and_never_markup(self, chosen):
        label = "<b>No. 7</b> #pagebreak() *x* </style><script>1</script>"
        page = sheet_html(chosen, label=label)
        assert "<b>No. 7</b>" not in page
        assert "<script>" not in page
        assert label in flat(sheet_pdf(chosen, label=label))

    def test_a_character_without_a_font_is_written_as_its_number(self, chosen):
        assert "[U+674E] 7" in flat(sheet_pdf(chosen, label="李 7", fonts=OWN_FONTS_ONLY))

    def test_the_same_plan_gives_the_same_file(self, chosen):
        assert sheet_pdf(chosen, fonts=OWN_FONTS_ONLY) == sheet_pdf(chosen, fonts=OWN_FONTS_ONLY)

    def test_the_page_needs_no_network(self, chosen):
        page = sheet_html(chosen)
        assert "default-src 'none'" in page
        assert not re.search(r"(src|href)=|url\(|@import", page)


class TestFiles:
    """The ending says what is written; nothing is written over by mistake."""

    def test_both_endings(self, chosen, tmp_path):
        assert write_sheet(chosen, tmp_path / "sheet.pdf").read_bytes().startswith(b"%PDF")
        assert write_sheet(chosen, tmp_path / "sheet.html").read_text(encoding="utf-8").startswith("<!doctype html>")

    def test_another_ending(self, chosen, tmp_path):
        with pytest.raises(InputError, match=r"the file's ending says what is written, \.html or \.pdf"):
            write_sheet(chosen, tmp_path / "sheet.doc")

    def test_a_file_that_is_there(self, chosen, tmp_path):
        path = tmp_path / "sheet.html"
        path.write_text("mine")
        with pytest.raises(InputError, match="is there already"):
            write_sheet(chosen, path)
        assert path.read_text() == "mine"
        write_sheet(chosen, path, replace=True)
        assert path.read_text() != "mine"

    def test_a_folder_that_is_not_there(self, chosen, tmp_path):
        with pytest.raises(InputError, match="cannot be written: No such file or directory"):
            write_sheet(chosen, tmp_path / "none" / "sheet.html")

    def test_without_a_typesetter(self, chosen, tmp_path, monkeypatch):
        monkeypatch.setattr("mechcalc.bench.papers.printing.can_typeset", lambda: False)
        with pytest.raises(InputError, match="no PDF can be made: this Python has no typesetter"):
            write_paper(sheet_paper(chosen), tmp_path / "sheet.pdf")
