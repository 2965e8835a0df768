"""The page that leads to the lessons, in a real JupyterLab: a map to click on, and progress that survives."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from mechcalc.classroom.course import COURSE, INDEX
from mechcalc.classroom.exercises import exercises_of
from mechcalc.classroom.logbook import CORNER, FILE, entries
from mechcalc.setup.copies import handed_out
from tests.browser.lab import Lab

pytestmark = pytest.mark.browser

LESSONS = Path(__file__).resolve().parents[2] / "lessons"
HERE = [lesson for lesson in COURSE if (LESSONS / f"{lesson.name}.ipynb").is_file()]
FRONT = "() => window.jupyterapp.shell.currentWidget.context?.path"


@pytest.fixture
def folder(lab: Lab) -> Path:
    """A learner's folder within JupyterLab's, with copies of all lessons and a corner for answers."""
    folder = lab.root / "mine"
    (folder / CORNER).mkdir(parents=True, exist_ok=True)
    (folder / CORNER / FILE).unlink(missing_ok=True)
    for path in LESSONS.glob("*.ipynb"):
        (folder / path.name).write_bytes(handed_out(path.name, path.read_bytes()))
    return folder


def outputs(page: Page, path: str) -> list[list[str]]:
    """The forms of each code cell's outputs."""
    found: list[list[str]] = page.evaluate("""async (path) => {
        const panel = await window.jupyterapp.commands.execute('docmanager:open', {path});
        return [...panel.content.model.cells].filter((cell) => cell.type === 'code').map((cell) =>
            cell.toJSON().outputs.flatMap((output) => Object.keys(output.data ?? {[output.output_type]: 1}).sort()));
    }""", path)
    return found


def test_it_runs_and_its_boxes_and_titles_open_lessons(lab: Lab, page: Page, folder: Path) -> None:
    """By mouse and by keyboard, in a tab beside it, without leaving JupyterLab."""
    path = f"mine/{INDEX}.ipynb"
    lab.open(page, path)
    committed = json.loads((LESSONS / f"{INDEX}.ipynb").read_text("utf-8"))["cells"]
    assert outputs(page, path) == [sorted(form for output in cell["outputs"] for form in output["data"])
                                   for cell in committed if cell["cell_type"] == "code"]
    drawing = page.locator('svg[aria-label="Map of the course"]')
    expect(drawing.locator("a")).to_have_count(len(HERE))
    page.evaluate("window.stays = true")
    for lesson, by in ((HERE[0], "click"), (HERE[1], "Enter")):
        box = drawing.locator(f'a[aria-label*=". {lesson.title}: "]')
        if by == "click":
            box.click()
        else:
            box.focus()
            page.keyboard.press("Enter")
        page.wait_for_function(f"({FRONT})() === 'mine/{lesson.name}.ipynb'")
        page.evaluate("path => window.jupyterapp.commands.execute('docmanager:open', {path})", path)
    page.locator("table a", has_text=HERE[-1].title).first.click()
    page.wait_for_function(f"({FRONT})() === 'mine/{HERE[-1].name}.ipynb'")
    assert page.evaluate("window.stays"), "the page was left"


def test_answers_survive_and_show_on_the_map(lab: Lab, page: Page, folder: Path) -> None:
    """Given in one kernel, shown in another; a prediction knows its lesson and its cell."""
    label = exercises_of("tens_carry")[0].label
    lab.write("mine/tens_carry.ipynb", ["from mechcalc.classroom import foretold, look_over", "foretold(990, 1000)",
                                        f"look_over({label!r}, 262)"])
    lab.open(page, "mine/tens_carry.ipynb")
    page.evaluate("window.jupyterapp.serviceManager.sessions.shutdownAll()")
    good, bad = entries(folder / CORNER / FILE)
    assert bad == ()
    assert [(entry.kind, entry.lesson, entry.about, entry.given) for entry in good] == [
        ("prediction", "tens_carry", "cell-1", 990), ("answer", "tens_carry", label, 262)]
    lab.open(page, f"mine/{INDEX}.ipynb")
    many = len(exercises_of("tens_carry"))
    expect(page.locator("caption", has_text="Your progress")).to_have_count(1, timeout=15_000)
    words = page.locator('svg[aria-label="Map of the course"] text').all_text_contents()
    assert any(f"1 of {many} right" in text for text in words)
    expect(page.locator("p", has_text="Go on with The tens carry")).to_have_count(2)


def test_axe_finds_nothing_to_object_to(lab: Lab, page: Page, folder: Path) -> None:
    """In the map; and it would find a link without a name."""
    lab.open(page, f"mine/{INDEX}.ipynb")
    page.add_style_tag(content="body { height: 100vh !important; }")
    drawing = page.locator('svg[aria-label="Map of the course"]')
    drawing.scroll_into_view_if_needed()
    assert objections(page) == []
    drawing.locator("a").first.evaluate("node => node.removeAttribute('aria-label')")
    assert any(line.startswith("link-name") for line in objections(page))


def objections(page: Page) -> list[str]:
    found = Axe().run(page, context=['svg[aria-label="Map of the course"]'], options={
        "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]})
    return [f"{rule['id']}: {node['html'][:200]}" for rule in found.response["violations"] for node in rule["nodes"]]
