"""The pages themselves: PDF and HTML, in both papers, in grey, with every name as text or told to be missing."""

from __future__ import annotations

import ctypes
import re
from pathlib import Path

import matplotlib
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from fontTools.ttLib import TTFont

from mechcalc import InputError, MachineSpec, machine_names
from mechcalc.preparing.sheets import (
    Fonts,
    Item,
    Sheet,
    key_html,
    key_pdf,
    make_worksheets,
    pages,
    sheets_html,
    sheets_pdf,
)
from tests.preparing.pages import pdf_pages, questions

OWN_FONTS_ONLY = Fonts(system=False)
NAMES = ["Łukasz Wierzba", "Đặng Thu Hà", "Ольга Полевая", "Σοφία Μελισσά", "Þóra Heiðardal"]
MARKUP = ["<b>Ada</b> & Co", "#pagebreak() *x* _y_ $z$", "\\n @here `raw` //no comment",
          "</style><script>alert(1)</script>x"]
ITEMS = [Item(method="multiply", numbers=[(347, 26), (583, 47)], predict=("turns", "Which wheel moves last?")),
         Item(method="divide", numbers=(982743, 127))]


def made(names, *items, machine="bench", **more):
    title = more.pop("title", "Trial")
    return make_worksheets(Sheet(title=title, machine=machine, items=items or ITEMS, **more), names)


def sizes(data: bytes) -> set[tuple[int, int]]:
    """Of all pages, in points."""
    return {tuple(round(length) for length in page.get_size()) for page in pypdfium2.PdfDocument(data)}


def fonts(data: bytes) -> dict[str, bool]:
    """Every font that a text is set in, and whether it is embedded."""
    found = {}
    document = pypdfium2.PdfDocument(data)
    for page in document:
        for thing in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_TEXT]):
            font = pdfium.FPDFTextObj_GetFont(thing.raw)
            name = ctypes.create_string_buffer(200)
            pdfium.FPDFFont_GetBaseFontName(font, name, 200)
            found[name.value.decode()] = bool(pdfium.FPDFFont_GetIsEmbedded(font))
    return found


def boxes(data: bytes, page: int = 0) -> list[int]:
    """How many windows stand in each row of a page, from the top."""
    rows: dict[int, int] = {}
    for thing in pypdfium2.PdfDocument(data)[page].get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]):
        left, bottom, right, top = thing.get_bounds()
        if 8 < right - left < 24 and 18 < top - bottom < 30:
            rows[round(top)] = rows.get(round(top), 0) + 1
    return [rows[top] for top in sorted(rows, reverse=True)]


class TestPrint:
    """PDF."""

    @pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("letter", (612, 792))])
    def test_papers(self, paper, size):
        """ISO 216's A4 is 210 mm by 297 mm; a letter is 8.5 by 11 inches; 72 points to the inch."""
        one = made(["Ada"], paper=paper)
        assert sizes(sheets_pdf(one).data) == sizes(key_pdf(one).data) == {size}

    def test_everybody_begins_on_a_page_of_their_own(self):
        """And every page says whose it is, and which of how many."""
        one = made(NAMES, *ITEMS, Item(method="square root", numbers=(54756,)))
        texts = pdf_pages(sheets_pdf(one).data)
        feet = [re.search(r"([0-9A-Z]{3}-\d\d-[0-9A-Z])\s+page (\d) of (\d)", text).groups() for text in texts]
        assert feet == [(v.code, page, "2") for v in one.variants for page in "12"]
        assert all(v.learner.name in texts[2 * place] and v.learner.name in texts[2 * place + 1]
                   for place, v in enumerate(one.variants))

    def test_text_is_text_in_embedded_fonts(self):
        one = made(NAMES)
        for data in (sheets_pdf(one, OWN_FONTS_ONLY).data, key_pdf(one, OWN_FONTS_ONLY).data):
            assert len(fonts(data)) >= 2
            assert all(fonts(data).values())
            assert all(name in "".join(pdf_pages(data)) for name in NAMES)

    def test_questions_stand_on_it_with_their_labels(self):
        (text,) = pdf_pages(sheets_pdf(made(["Ada"])).data)
        asked = questions(text)
        assert asked["1a"] == "How many turns will it take?"
        assert (asked["1d"], asked["1e"]) == ("Turns of the crank", "Shifts of the carriage")
        assert list(asked) == ["1a", "1b", "1c", "1d", "1e", "2a", "2b", "2c", "2d", "2e"]
        assert "Which wheel moves last?" in text

    def test_no_answer_stands_on_a_sheet(self):
        """347 × 26 = 9022, worked by hand."""
        text = "".join(pdf_pages(sheets_pdf(made(["Ada"])).data))
        assert "347 × 26" in text
        assert "9022" not in text

    @pytest.mark.parametrize("name", machine_names())
    def test_windows_are_as_many_as_the_machine_has(self, name):
        item = Item(method="multiply", numbers=(12, 11), show=("setting", "result", "counter"), ask=())
        one = made(1, item, machine=name)
        spec = one.sheet.machine
        assert boxes(sheets_pdf(one).data) == [spec.setting_places, spec.result_places, spec.counter_places]

    def test_the_widest_machine_fits_the_page(self):
        """Forty windows side by side, within the margins."""
        spec = MachineSpec(setting_places=10, result_places=40, counter_places=40, carry_reach=17)
        one = made(1, Item(method="multiply", numbers=(12, 11)), machine=spec)
        (page,) = pypdfium2.PdfDocument(sheets_pdf(one).data)
        edges = [thing.get_bounds() for thing in page.get_objects()]
        assert min(left for left, _, _, _ in edges) > 50
        assert max(right for _, _, right, _ in edges) < 595 - 50

    @pytest.mark.parametrize("printer", [sheets_pdf, key_pdf])
    def test_no_colour(self, printer):
        """Every pixel of every page is grey."""
        for page in pypdfium2.PdfDocument(printer(made(["Ada"])).data):
            image = page.render(scale=0.7).to_pil().convert("RGB")
            assert all(red == green == blue for _, (red, green, blue) in image.getcolors(1 << 16))

    def test_the_same_set_gives_the_same_file(self):
        one = made(["Ada"])
        assert sheets_pdf(one, OWN_FONTS_ONLY).data == sheets_pdf(one, OWN_FONTS_ONLY).data

    def test_markup_is_text(self):
        """Of HTML and of the typesetter: in names, in the title, in notes and questions."""
        item = Item(method="multiply", numbers=(12, 11), predict=(MARKUP[1],), note=MARKUP[2])
        one = made(MARKUP, item, title=MARKUP[1], notes=(MARKUP[3],))
        texts = pdf_pages(sheets_pdf(one).data)
        assert len(texts) == len(MARKUP)
        assert all(name in text for name, text in zip(MARKUP, texts, strict=True))
        assert all(text.count(MARKUP[1]) >= 2 and MARKUP[2] in text and MARKUP[3] in text for text in texts)

    def test_pages_for_a_look(self):
        (picture,) = pages(made(["Ada"]))
        assert picture.startswith(b"\x89PNG")


def own_font(folder: Path, character: str) -> None:
    """A font for one character more than DejaVu Sans (which comes with matplotlib) has, drawn as its letter A.

    It is made here, so that the test depends on no font of the system.
    """
    font = TTFont(Path(matplotlib.get_data_path()) / "fonts" / "ttf" / "DejaVuSans.ttf")
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[ord(character)] = "A"
    for name in font["name"].names:
        if name.nameID in (1, 4, 6, 16):
            name.string = "MechcalcTrial"
    font.save(folder / "trial.ttf")


class TestNamesWithoutAFont:
    """A name that no font can print is never printed as boxes."""

    def test_it_is_told_and_gets_a_line(self):
        one = made(["Ada", "李"], closing="")
        printed = sheets_pdf(one, OWN_FONTS_ONLY)
        assert [learner.name for learner in printed.by_hand] == ["李"]
        text = pdf_pages(printed.data)[1]
        assert "李" not in text
        assert one.variants[1].code in text
        assert "(no font for this name)" in pdf_pages(key_pdf(one, OWN_FONTS_ONLY).data)[0]

    def test_a_font_in_a_folder_helps(self, tmp_path):
        own_font(tmp_path, "李")
        printed = sheets_pdf(made(["Ada", "李"], closing=""), Fonts((tmp_path,), system=False))
        assert printed.by_hand == ()
        assert "李" in pdf_pages(printed.data)[1]
        assert all(fonts(printed.data).values())

    def test_a_title_without_a_font_is_refused(self):
        with pytest.raises(InputError, match="no font here has '李', which stands in the title, a note or a question"):
            sheets_pdf(made(["Ada"], title="李"), OWN_FONTS_ONLY)

    def test_a_folder_that_is_none(self, tmp_path):
        with pytest.raises(InputError, match="none is no folder with fonts"):
            sheets_pdf(made(["李"]), Fonts((tmp_path / "none",)))


class TestWebPage:
    """HTML."""

    @pytest.fixture(params=[sheets_html, key_html])
    def text(self, request):
        return request.param(made([*NAMES, *MARKUP, "李"], title=MARKUP[0]))

    def test_it_needs_nothing_from_elsewhere(self, text):
        """No script, no address; a policy that forbids both."""
        assert "default-src 'none'" in text
        assert not re.search(r"<script|https?:|url\(|@import|<link|<img|src=", text)

    def test_markup_is_text(self, text):
        assert "<b>Ada" not in text
        assert text.count("&lt;b&gt;Ada&lt;/b&gt; &amp; Co") >= 2

    def test_names_are_all_there(self, text):
        assert all(name in text for name in [*NAMES, "李"])

    def test_no_colour(self, text):
        """Each of the style's colours has three channels alike."""
        colours = re.findall(r"#([0-9a-f]{3}|[0-9a-f]{6})\b", text.partition("</style>")[0])
        assert len(colours) > 5
        assert [colour for colour in colours if len({*re.findall("." * (len(colour) // 3), colour)}) > 1] == []

    @pytest.mark.parametrize(("paper", "rule"), [("a4", "size: A4;"), ("letter", "size: letter;")])
    def test_papers(self, paper, rule):
        one = made(["Ada"], paper=paper)
        assert rule in sheets_html(one)
        assert rule in key_html(one)

    def test_windows_are_as_many_as_the_machine_has(self):
        for name in machine_names():
            one = made(1, Item(method="multiply", numbers=(12, 11)), machine=name)
            spec = one.sheet.machine
            rows = re.findall(r'<div class="row">.*?</div>', sheets_html(one))
            places = [spec.setting_places, spec.result_places, spec.counter_places]
            assert [row.count('"window"') for row in rows] == places
            assert [row.count('"mark"') for row in rows] == [(many - 1) // 3 for many in places]
