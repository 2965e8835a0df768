"""Each lesson, as a learner gets it, from top to bottom in a real JupyterLab."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from mechcalc.classroom.course import INDEX
from mechcalc.classroom.pages import PAGES
from mechcalc.setup.copies import handed_out
from tests.browser.lab import Lab
from tests.browser.picture import Picture

pytestmark = pytest.mark.browser

LESSONS = [path for path in sorted((Path(__file__).resolve().parents[2] / "lessons").glob("*.ipynb"))
           if path.stem not in (INDEX, *PAGES)]
CELLS = """async (path) => {
    const panel = await window.jupyterapp.commands.execute('docmanager:open', {path});
    return [...panel.content.model.cells].filter((cell) => cell.type === 'code').map((cell) => cell.toJSON());
}"""
GO_TO = """async ([path, id]) => {
    const panel = await window.jupyterapp.commands.execute('docmanager:open', {path});
    const index = [...panel.content.model.cells].findIndex((cell) => cell.id === id);
    panel.content.activeCellIndex = index;
    await panel.content.scrollToItem(index, 'start');
}"""


@pytest.fixture(params=LESSONS, ids=lambda path: path.stem)
def lesson(request: pytest.FixtureRequest, lab: Lab) -> str:
    """A learner's copy in JupyterLab's folder."""
    path: Path = request.param
    (lab.root / path.name).write_bytes(handed_out(path.name, path.read_bytes()))
    return path.name


def test_it_runs_from_top_to_bottom_and_its_machine_is_alive(lab: Lab, page: Page, lesson: str) -> None:
    """No cell fails, outputs are of the committed kinds, and the learner's machine turns on the page and in Python."""
    lab.open(page, lesson)
    cells = page.evaluate(CELLS, lesson)
    committed = [cell for cell in json.loads(next(path for path in LESSONS if path.name == lesson).read_text("utf-8"))
                 ["cells"] if cell["cell_type"] == "code"]
    assert [cell["execution_count"] for cell in cells] == list(range(1, len(committed) + 1))
    for cell, model in zip(cells, committed, strict=True):
        assert [kinds(output) for output in cell["outputs"]] == [kinds(output) for output in model["outputs"]]
    hands = next(cell for cell in cells if "hands = ready(" in "".join(cell["source"]))
    page.evaluate(GO_TO, [lesson, hands["id"]])
    view = page.locator('.jp-Cell:has-text("hands = ready(") .mechcalc')
    expect(view).to_have_count(1, timeout=15_000)
    picture = Picture(view)
    before = [int(word) for word in lab.ask(page, lesson, "print(hands.result, hands.setting)").split()]
    view.locator(".stage").focus()
    page.keyboard.press("+")
    picture.settle()
    expect(view.locator("[role=status]")).not_to_be_empty()
    after = [int(word) for word in lab.ask(page, lesson, "print(hands.result, hands.setting)").split()]
    assert after == [before[0] + before[1], before[1]]
    assert picture.shows[1] == after[0]


def kinds(output: dict[str, object]) -> tuple[object, ...]:
    """What sort of output it is: its type, its mime types, and its text where that is all there is."""
    data = output.get("data")
    text = output.get("text")
    return (output["output_type"], sorted(data) if isinstance(data, dict) else None,
            "".join(text) if isinstance(text, list) else text)
