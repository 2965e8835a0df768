"""axe-core finds nothing to object to, and would if there were something.

Source of the rules: WCAG 2.2 (W3C Recommendation), levels A and AA, as axe-core knows them.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from mechcalc.view import take_home
from tests.browser.lab import Lab
from tests.browser.picture import Picture
from tests.browser.test_page import nines

pytestmark = pytest.mark.browser
OPTIONS = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
           "resultTypes": ["violations", "passes"]}


def violations(page: Page) -> list[str]:
    """What axe-core objects to within the views of a page."""
    found = Axe().run(page, context=[".mechcalc"], options=OPTIONS)
    assert any(rule["id"] == "color-contrast" for rule in found.response["passes"] + found.response["violations"])
    return [f"{rule['id']}: {node['html'][:200]} {node['failureSummary']}" for rule in found.response["violations"]
            for node in rule["nodes"]]


@pytest.fixture
def picture(page: Page, tmp_path: Path) -> Picture:
    page.goto(take_home(nines(), tmp_path / "nines.html").as_uri())
    return Picture(page.locator(".mechcalc"))


def test_the_page(picture: Picture) -> None:
    """At rest, in a carry, with the help open and in large type."""
    page = picture.root.page
    assert violations(page) == []
    picture.press("carry-on")
    picture.press("help")
    assert violations(page) == []
    picture.press("large")
    assert violations(page) == []


@pytest.mark.parametrize(("rule", "damage"), [
    ("color-contrast", "document.querySelector('.working .words').style.color = '#d8caa8'"),
    ("button-name", "document.querySelector('[data-act=start]').removeAttribute('aria-label');"
                    "document.querySelector('[data-act=start]').removeAttribute('title')"),
    ("label", "document.querySelector('.scrub').removeAttribute('aria-label')"),
    ("target-size", "document.querySelectorAll('.row').forEach(node => { node.style.gap = '0' });"
                    "document.querySelectorAll('.row button').forEach(node => { node.textContent = '';"
                    "for (const side of ['width', 'height']) {"
                    "node.style[side] = '12px'; node.style.setProperty('min-' + side, '12px'); }"
                    "node.style.padding = 0 })"),
])
def test_would_notice(picture: Picture, rule: str, damage: str) -> None:
    """Each of these rules is awake: damage done on purpose is found."""
    picture.root.page.evaluate(damage)
    assert any(found.startswith(rule) for found in violations(picture.root.page))


def test_in_jupyterlab(lab: Lab, page: Page) -> None:
    """The live view, with a refusal showing."""
    name = lab.write("access.ipynb", ["from mechcalc import Machine, load_spec\nfrom mechcalc.view import show\n"
                                      "m = Machine(load_spec('slate'))\n_ = m.crank(100.0)\nshow(m)"])
    lab.open(page, name)
    picture = Picture(page.locator(".mechcalc"))
    page.add_style_tag(content="body { height: 100vh !important; }")
    picture.focus()
    page.keyboard.press(",")
    picture.root.locator(".refusal").wait_for()
    assert violations(page) == []
    page.evaluate("document.querySelector('.mechcalc .head h2').style.color = '#d8caa8'")
    assert any(found.startswith("color-contrast") for found in violations(page))
