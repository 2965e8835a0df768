"""The worksheets' page, printed by a real browser with the network off."""

from __future__ import annotations

import re
from pathlib import Path

import pypdfium2
import pytest
from playwright.sync_api import Page

from mechcalc.preparing import Item, Sheet, make_worksheets
from mechcalc.preparing.sheets import key_html, sheets_html

pytestmark = pytest.mark.browser
NAMES = ["Łukasz Wierzba", "<b>Ada</b>", "Ольга Полевая"]


def printed(page: Page, folder: Path, text: str) -> pypdfium2.PdfDocument:
    """What comes out of the printer; whatever the page asks for beside itself fails the test."""
    asked: list[str] = []
    page.context.set_offline(True)
    page.on("request", lambda request: asked.append(request.url))
    path = folder / "page.html"
    path.write_text(text, encoding="utf-8")
    page.goto(path.as_uri())
    data = page.pdf(prefer_css_page_size=True)
    assert asked == [path.as_uri()]
    return pypdfium2.PdfDocument(data)


@pytest.fixture(params=["a4", "letter"])
def made(request):
    items = [Item(method="multiply", numbers=(347, 26)), Item(method="divide", numbers=(982743, 127)),
             Item(method="square root", numbers=(54756,))]
    return make_worksheets(Sheet(title="Trial", machine="bench", items=items, paper=request.param), NAMES)


def test_everybody_begins_on_a_page_of_their_own(page: Page, tmp_path: Path, made) -> None:
    """Each sheet's pages bear its code in their margin, and its name on the first; no item is torn apart."""
    document = printed(page, tmp_path, sheets_html(made))
    size = {"a4": (595, 842), "letter": (612, 792)}[made.sheet.paper]
    assert {tuple(round(length) for length in one.get_size()) for one in document} <= {
        size, (size[0] + 1, size[1]), (size[0], size[1] + 1), (size[0] + 1, size[1] + 1)}
    texts = [one.get_textpage().get_text_range() for one in document]
    codes = [re.findall(r"[0-9A-Z]{3}-\d\d-[0-9A-Z]", text)[-1] for text in texts]
    assert list(dict.fromkeys(codes)) == [one.code for one in made.variants]
    for one in made.variants:
        first = texts[codes.index(one.code)]
        assert one.learner.name in first
        assert "How many turns will it take?" in first
        own = [text for text, code in zip(texts, codes, strict=True) if code == one.code]
        assert len(own) == 2
        assert [sum(label in text for text in own) for label in ("1a", "1f", "2a", "2e", "3a", "3e")] == [1] * 6


def test_the_key_prints_a_page_for_every_sheet(page: Page, tmp_path: Path, made) -> None:
    """After the tables of the class."""
    document = printed(page, tmp_path, key_html(made))
    texts = [one.get_textpage().get_text_range() for one in document]
    assert all(one.code in texts[0] for one in made.variants)
    firsts = [next(place for place, text in enumerate(texts) if place and one.code in text) for one in made.variants]
    assert firsts == sorted(set(firsts))
    assert "9022" in texts[firsts[0]]


def test_windows_stand_in_rows_with_units_at_the_right(page: Page, tmp_path: Path, made) -> None:
    """The last windows of all rows of an item stand below each other, and none leaves the page."""
    path = tmp_path / "page.html"
    path.write_text(sheets_html(made), encoding="utf-8")
    page.goto(path.as_uri())
    rows = page.evaluate("""() => [...document.querySelectorAll('.item')].slice(0, 3).map(item =>
        [...item.querySelectorAll('.windows')].map(row =>
            [...row.querySelectorAll('.window')].map(one => one.getBoundingClientRect().toJSON())))""")
    for item in rows:
        assert [len(row) for row in item] == [9, 13, 8]
        ends = [row[-1]["right"] for row in item]
        assert max(ends) - min(ends) < 0.5
        assert all(len({round(one["top"]) for one in row}) == 1 for row in item)
        assert all(one["width"] > 15 and one["height"] > 20 for row in item for one in row)
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
