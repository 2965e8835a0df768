"""Tracing a fault in a real JupyterLab, with the keyboard alone."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Locator, Page, expect

from mechcalc.bench.papers.blocks import CAUTIONS, DEFER
from tests.browser.lab import Lab

pytestmark = pytest.mark.browser
OPTIONS = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
           "resultTypes": ["violations", "passes"]}
NAME = "tracing.ipynb"


@pytest.fixture
def view(lab: Lab, page: Page) -> Locator:
    """A session on a simulated machine whose units pinwheel has a pin stuck out."""
    lab.write(NAME, ["from mechcalc import load_spec\nfrom mechcalc.bench import Machine, NumberPinStuckOut\n"
                     "from mechcalc.bench.trace_view import trace\n"
                     "m = Machine(load_spec('slate'), faults=[NumberPinStuckOut(place=1, pin=9)])\n"
                     "mine = trace(on=m, pairs=False)\nmine"])
    lab.open(page, NAME)
    view = page.locator(".mechcalc-trace")
    expect(view).to_have_count(1, timeout=20_000)
    return view


def press(view: Locator, act: str) -> None:
    """A button, by the keyboard; returns when the answer is there."""
    view.locator(f"[data-act={act}]").first.focus()
    view.page.keyboard.press("Enter")
    expect(view).to_have_attribute("aria-busy", "false", timeout=20_000)


def choose(view: Locator, name: str) -> None:
    view.locator("select").select_option(name)
    press(view, "choose")
    expect(view.locator(".test h3")).to_have_text(f"Next test: {name}")


def violations(page: Page) -> list[str]:
    page.add_style_tag(content="body { height: 100vh !important; }")
    found = Axe().run(page, context=[".mechcalc-trace"], options=OPTIONS)
    assert any(rule["id"] == "color-contrast" for rule in found.response["passes"] + found.response["violations"])
    return [f"{rule['id']}: {node['html'][:200]} {node['failureSummary']}" for rule in found.response["violations"]
            for node in rule["nodes"]]


def test_a_fault_is_traced_with_the_keyboard(lab: Lab, page: Page, view: Locator) -> None:
    """Steps are ticked, a bad entry is answered beside its field and loses nothing, a good one is recorded and taken
    back; and no key reaches the notebook."""
    choose(view, "noughts")
    cells = page.locator(".jp-Cell").count()
    view.locator(".steps input").first.focus()
    page.keyboard.press("Space")
    press(view, "machine")
    shown = view.locator("[data-window=result] .unseen")
    expect(shown).to_have_text("0 0 0 0 0 3")
    expect(view.locator(".digits").first).to_be_focused()
    expect(view.locator(".digits").first).to_have_value("")
    expect(view.locator(".steps input").first).to_be_checked()
    page.keyboard.type("0000o3")
    page.keyboard.press("Tab")
    page.keyboard.type("003")
    view.get_by_label("no", exact=True).first.focus()
    page.keyboard.press("Space")
    press(view, "record")
    expect(view.locator(".problem:visible")).to_have_text("Digits only: “o” is none.")
    expect(view.locator("[aria-invalid]")).to_be_focused()
    expect(view.locator(".digits").nth(1)).to_have_value("003")
    expect(view.locator("[role=status]")).to_contain_text("What you typed is still there.")
    assert lab.ask(page, NAME, "print(len(mine.trace.history))") == "0"
    view.locator("[aria-invalid]").fill("000003")
    press(view, "record")
    expect(view.locator(".done li")).to_have_count(1)
    expect(view.locator(".done")).to_contain_text("the result 000003; the counter 003; no bell")
    expect(view.locator(".test h3")).to_be_focused()
    for key in "abdd":
        page.keyboard.press(key)
    assert page.locator(".jp-Cell").count() == cells
    press(view, "back")
    expect(view.locator(".digits").first).to_have_value("000003")
    expect(view.locator(".done li")).to_have_count(0)
    press(view, "record")
    while view.locator("[data-act=machine]").count():
        press(view, "machine")
        press_fill(view)
        press(view, "record")
    expect(view.locator(".groups .said").first).to_have_text("Pin 9 of pinwheel 1 is stuck out")
    assert lab.ask(page, NAME, "print(mine.trace.explanations(1)[0])") == "pin 9 of pinwheel 1 is stuck out"


def test_a_verdict_stands_at_the_answer_that_was_given(lab: Lab, page: Page) -> None:
    lab.write("case.ipynb", ["from mechcalc.bench.cases import case\nfrom mechcalc.bench.trace_view import trace\n"
                             "trace(on=case(3))"])
    lab.open(page, "case.ipynb")
    view = page.locator(".mechcalc-trace")
    for number in (11, 0):
        button = view.locator("[data-act=judge]").nth(number)
        button.focus()
        page.keyboard.press("Enter")
        expect(view.locator(".groups > li").nth(number).locator(".verdict")).to_be_in_viewport(timeout=20_000)
        expect(view.locator(".verdict:visible")).to_have_count(1)
        expect(button).to_be_focused()


def press_fill(view: Locator) -> None:
    view.locator("[data-act=fill]").focus()
    view.page.keyboard.press("Enter")
    expect(view.locator("[data-act=record]")).to_be_focused()


def test_a_machine_on_the_table_comes_with_cautions(lab: Lab, page: Page) -> None:
    """They stand before the first step, are the papers' own, stay folded once folded, and meet axe's rules."""
    lab.write("table.ipynb", ["from mechcalc.bench.trace_view import trace\ntrace('slate', pairs=False)"])
    lab.open(page, "table.ipynb")
    view = page.locator(".mechcalc-trace")
    box = view.locator("details.cautions")
    expect(box.locator("li")).to_have_text(list(CAUTIONS), timeout=20_000)
    expect(box).to_contain_text(DEFER)
    expect(box.locator("li").first).to_be_visible()
    assert box.evaluate("node => Boolean(node.compareDocumentPosition(document.querySelector('.mechcalc-trace .steps'))"
                        " & Node.DOCUMENT_POSITION_FOLLOWING)")
    assert violations(page) == []
    box.locator("summary").focus()
    page.keyboard.press("Enter")
    expect(box.locator("li").first).to_be_hidden()
    choose(view, "noughts")
    expect(box.locator("li").first).to_be_hidden()


def test_a_simulated_machine_hurts_nobody(view: Locator) -> None:
    expect(view.locator(".steps").first).to_be_visible()
    expect(view.locator(".cautions")).to_have_count(0)


def test_axe_finds_nothing_to_object_to(page: Page, view: Locator) -> None:
    """At the beginning, with windows and a problem showing, and after a test; and it would find a field without a
    label."""
    assert violations(page) == []
    choose(view, "gently back")
    press(view, "machine")
    press(view, "record")
    expect(view.locator(".problem:visible")).to_have_count(1)
    assert violations(page) == []
    press_fill(view)
    press(view, "record")
    assert violations(page) == []
    view.locator(".field > label").first.evaluate("node => node.remove()")
    assert any(line.startswith("label") for line in violations(page))


def test_it_fits_at_twice_the_size(page: Page, view: Locator) -> None:
    """In half the width, and in twice the type, nothing stands out to the side."""
    choose(view, "borrow and carry at place 5, every digit")
    expect(view.locator(".reading")).to_have_count(10)
    for width, size in ((640, "100%"), (1280, "200%")):
        page.set_viewport_size({"width": width, "height": 720})
        page.evaluate("size => { document.documentElement.style.fontSize = size; }", size)
        wide = view.evaluate("node => [...node.querySelectorAll('*')].filter((one) => one.className !== 'unseen' && "
                             "one.getBoundingClientRect().right > node.getBoundingClientRect().right + 1)"
                             ".map((one) => one.outerHTML.slice(0, 100))")
        assert wide == []
