"""The form for a machine of one's own, in a real JupyterLab: typed, put right, saved, and taken up after a restart."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Locator, Page, expect

from mechcalc import load_spec
from mechcalc.own.form import LOST
from mechcalc.own.questions import BY_FIELD, MEASURES
from mechcalc.setup.copies import handed_out
from tests.browser.lab import Lab

pytestmark = pytest.mark.browser
LESSONS = Path(__file__).resolve().parents[2] / "lessons"
CELLS = """async (path) => {
    const panel = await window.jupyterapp.commands.execute('docmanager:open', {path});
    return [...panel.content.model.cells].filter((cell) => cell.type === 'code').map((cell) => cell.toJSON());
}"""
CELL = "from mechcalc.own import machine_form\nform = machine_form('mine/counted.toml')\nform"
RESTART = """async (path) => {
    const panel = await window.jupyterapp.commands.execute('docmanager:open', {path});
    await panel.sessionContext.session.kernel.restart();
    await window.jupyterapp.commands.execute('notebook:run-all-cells');
}"""
SHUT_DOWN = "() => window.jupyterapp.serviceManager.sessions.shutdownAll()"


@pytest.fixture
def folder(lab: Lab) -> Iterator[Path]:
    """A learner's folder, empty before and after."""
    folder = lab.root / "mine"
    folder.mkdir(exist_ok=True)
    for path in folder.glob("counted*"):
        path.unlink()
    yield folder
    for path in folder.glob("counted*"):
        path.unlink()


@pytest.fixture
def form(lab: Lab, page: Page, folder: Path) -> Locator:
    """The form in a notebook that has just been opened and run."""
    lab.open(page, lab.write("form.ipynb", [CELL]))
    return ready(page)


def ready(page: Page) -> Locator:
    root = page.locator(".mechcalc-form[data-ready]")
    expect(root).to_have_count(1, timeout=20_000)
    return root


def field(form: Locator, name: str) -> Locator:
    return form.locator(f'[data-field="{name}"]')


def type_in(form: Locator, **answers: str) -> None:
    for name, text in answers.items():
        if BY_FIELD[name].kind in ("yes or no", "choice"):
            field(form, name).locator(f'input[value="{text}"]').check()
        else:
            field(form, name).locator("input").fill(text)


def test_wrong_values_are_told_put_right_saved_and_taken_up(lab: Lab, page: Page, form: Locator, folder: Path) -> None:
    """The whole way of a learner, with a restart in the middle."""
    type_in(form, setting_places="9", result_places="thirteen", counter_places="8", positions="9", carry_reach="8?")
    expect(field(form, "result_places").locator(".wrong")).to_have_text(
        "Not right: 'thirteen' is no whole number: write figures, such as 13")
    expect(field(form, "carry_reach").locator(".wrong")).to_contain_text("carry reach 8, setting places 9")
    expect(field(form, "setting_places").locator(".wrong")).to_have_text("See also: carry reach.")
    expect(field(form, "positions").locator("input")).to_have_attribute("aria-invalid", "true")
    expect(form.locator(".standing")).to_contain_text("3 things are wrong and 3 answers are missing.")
    expect(form.locator(".drum svg")).to_have_attribute("aria-label", re.compile("Together 266° of 360°"))

    page.evaluate(RESTART, "form.ipynb")
    form = ready(page)
    expect(form.locator(".standing")).to_contain_text("Taken up from counted.draft.json: 5 answers.")
    assert field(form, "result_places").locator("input").input_value() == "thirteen"

    type_in(form, result_places="13", positions="", carry_reach="11", counter_carry="yes", back_transfer="no",
            check_register="no?", angles="measured")
    expect(field(form, "carry_reach").locator(".wrong")).to_be_empty()
    type_in(form, gap="2", lever_throw="3")
    expect(field(form, "gap").locator(".wrong")).to_contain_text("gap 2 is less than lever throw 3")
    type_in(form, gap="4,5")
    expect(form.locator(".standing")).to_contain_text("Nothing is missing, and every rule is kept.")
    expect(form.locator("summary")).to_contain_text("The examples of 13 of the 14 lessons fit this machine.")
    form.locator("summary").click()
    expect(form.locator(".fits tbody tr").first).to_contain_text("yes, in 2 turns")

    form.locator('[data-act="save"]').click()
    expect(form.locator(".said")).to_contain_text("load_spec('mine/counted.toml')")
    spec = load_spec(folder / "counted.toml")
    assert (spec.carry_reach, spec.gap, spec.back_transfer, spec.positions) == (11, 4.5, False, 8)
    assert sorted(path.name for path in folder.glob("counted*")) == ["counted.toml"]
    assert lab.ask(page, "form.ipynb", "print(form.spec == __import__('mechcalc').load_spec('mine/counted.toml'))") \
        == "False"  # the file's machine has the file's name, for it was given none
    assert lab.ask(page, "form.ipynb", "print(form.spec.gap)") == "4.5"

    page.evaluate(RESTART, "form.ipynb")
    form = ready(page)
    expect(form.locator(".standing")).to_contain_text("Taken up from counted.toml, as it was saved.")
    assert field(form, "gap").locator("input").input_value() == "4.5"
    form.locator('[data-act="save"]').click()
    expect(form.locator(".said")).to_contain_text("is there already, and is not written over")


def test_the_page_takes_a_machine_up_once_it_is_saved(lab: Lab, page: Page) -> None:
    """A learner's copy of the notebook, before and after: the machine that turns there is the one that was counted."""
    folder = lab.root / "counting"
    folder.mkdir()
    path = "counting/your_machine.ipynb"
    (lab.root / path).write_bytes(handed_out("your_machine.ipynb", (LESSONS / "your_machine.ipynb").read_bytes()))
    lab.open(page, path)
    form = ready(page)
    assert lab.ask(page, path, "print(hands.spec.name, product.answer)") == "Counting room 9022"
    type_in(form, name="the grey one", setting_places="3", result_places="5", counter_places="2", carry_reach="5",
            counter_carry="no", back_transfer="no", check_register="no")
    expect(form.locator(".standing")).to_contain_text("Nothing is missing")
    form.locator('[data-act="save"]').click()
    expect(form.locator(".said")).to_contain_text("Saved: ")
    page.evaluate("window.jupyterapp.commands.execute('notebook:run-all-cells')")
    expect(page.locator(".jp-Cell", has_text="Lessons and methods").last).to_contain_text(
        "the setting is short by 1 place (1204 takes 4 levers of 3)", timeout=20_000)
    assert lab.ask(page, path, "print(hands.spec.name, hands.spec.setting_places, product.answer)") \
        == "the grey one 3 9022"
    forms = [output for cell in page.evaluate(CELLS, path) for output in cell["outputs"]]
    assert [output for output in forms if output["output_type"] == "error"] == []


def test_by_keyboard_alone(page: Page, form: Locator, folder: Path) -> None:
    """Tab goes from answer to answer, arrows choose, letters are letters and no commands of JupyterLab."""
    field(form, "name").locator("input").focus()
    page.keyboard.type("dd aa, the grey one")
    for text in ("9", "13", "8"):
        page.keyboard.press("Tab")
        page.keyboard.type(text)
    page.keyboard.press("Tab")
    page.keyboard.press("Space")          # the counter carries: yes
    page.keyboard.press("Tab")            # positions, left empty
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    page.keyboard.press("ArrowRight")     # back transfer: no
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Tab")
    page.keyboard.type("11")
    expect(form.locator(".standing")).to_contain_text("Nothing is missing")
    for _ in range(6):                    # angles, note, lessons, file, over, save
        page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.dataset.act") == "save"
    page.keyboard.press("Enter")
    expect(form.locator(".said")).to_contain_text("Saved: ")
    assert load_spec(folder / "counted.toml").name == "dd aa, the grey one"
    assert page.locator(".jp-Cell").count() == 1


def test_save_shows_the_first_answer_that_is_missing(page: Page, form: Locator) -> None:
    type_in(form, setting_places="9")
    form.locator('[data-act="save"]').click()
    expect(form.locator(".said")).to_contain_text("this machine cannot be saved yet: number wheels: not answered yet")
    expect(field(form, "result_places").locator("input")).to_be_focused()


def test_begin_anew(page: Page, form: Locator, folder: Path) -> None:
    type_in(form, setting_places="9", counter_carry="no", angles="measured", gap="4")
    expect(form.locator(".standing")).to_contain_text("Kept in counted.draft.json.")
    form.locator('[data-act="anew"]').click()
    expect(form.locator(".said")).to_contain_text("is kept as counted.draft.set-aside-1.json")
    assert field(form, "setting_places").locator("input").input_value() == ""
    expect(form.locator('[data-field="counter_carry"] input:checked')).to_have_count(0)
    expect(field(form, "gap")).to_be_hidden()
    kept = json.loads((folder / "counted.draft.set-aside-1.json").read_text("utf-8"))["answers"]
    assert kept["setting_places"] == "9"


def test_a_kernel_that_is_gone_is_told(page: Page, form: Locator) -> None:
    """Whoever types on is not left to believe that it is kept."""
    type_in(form, setting_places="9")
    expect(form.locator(".standing")).to_contain_text("6 answers are missing")
    expect(form.locator(".lost")).to_be_empty()
    page.evaluate(SHUT_DOWN)
    type_in(form, setting_places="8")
    expect(form.locator(".lost")).to_have_text(LOST, timeout=15_000)


def test_labels_and_what_is_wrong_belong_to_their_answers(form: Locator) -> None:
    """Every answer has a name, how to count it, and the place where it is told what is wrong."""
    type_in(form, angles="measured", setting_places="nine")
    expect(field(form, "setting_places").locator(".wrong")).not_to_be_empty()
    for name, one in BY_FIELD.items():
        box = field(form, name)
        answer = box.locator("[role=radiogroup]" if one.kind in ("yes or no", "choice") else "input")
        described = answer.evaluate("node => node.getAttribute('aria-describedby').split(' ').map("
                                    "id => document.getElementById(id).textContent)")
        assert described[1].startswith(one.how)
        assert described[0] == box.locator(".wrong").text_content()
        assert answer.evaluate("node => node.labels ? node.labels[0].textContent : document.getElementById("
                               "node.getAttribute('aria-labelledby')).textContent") == one.ask


def test_axe_finds_nothing_to_object_to(page: Page, form: Locator) -> None:
    """Empty, with errors, and complete with its table open; and it would find a missing label."""
    page.add_style_tag(content="body { height: 100vh !important; }")
    assert objections(page) == []
    type_in(form, setting_places="nine", angles="measured", gap="-1")
    expect(form.locator(".wrong p")).to_have_count(2)
    assert objections(page) == []
    type_in(form, setting_places="9", result_places="13", counter_places="8", carry_reach="11", counter_carry="yes",
            back_transfer="no", check_register="no", gap="")
    expect(form.locator(".standing")).to_contain_text("Nothing is missing")
    form.locator("summary").click()
    assert objections(page) == []
    field(form, "note").locator("label").evaluate("node => node.remove()")
    assert any(line.startswith("label") for line in objections(page))


def objections(page: Page) -> list[str]:
    found = Axe().run(page, context=[".mechcalc-form"], options={
        "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
        "resultTypes": ["violations", "passes"]})
    assert any(rule["id"] == "color-contrast" for rule in found.response["passes"])
    return [f"{rule['id']}: {node['html'][:200]}" for rule in found.response["violations"] for node in rule["nodes"]]


def test_at_200_per_cent_nothing_is_cut_off(page: Page, form: Locator) -> None:
    """640 by 360 pixels of CSS, which is what is left of 1280 by 720 (WCAG 2.2, 1.4.4 and 1.4.10)."""
    page.set_viewport_size({"width": 640, "height": 360})
    page.evaluate("window.jupyterapp.shell.collapseLeft()")
    type_in(form, angles="measured", setting_places="nine")
    expect(field(form, "setting_places").locator(".wrong")).not_to_be_empty()
    wider = form.evaluate("""root => [root, ...root.querySelectorAll('*')].filter((node) =>
        node.scrollWidth > node.clientWidth + 1 && node.clientWidth > 0 && !node.closest('svg')
        && getComputedStyle(node).display !== 'inline').map((node) => node.className || node.tagName)""")
    assert wider == []
    for name in MEASURES:
        box = field(form, name).locator("input").bounding_box()
        assert box is not None
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= 640
        assert box["height"] >= 24  # WCAG 2.2, 2.5.8
