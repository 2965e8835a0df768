"""The page to take home, opened from disk with the network off."""

from __future__ import annotations

from math import cos, radians, sin
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from mechcalc import Machine, load_spec
from mechcalc.view import take_home
from tests.browser.machines import nines
from tests.browser.picture import Picture

pytestmark = pytest.mark.browser


@pytest.fixture
def picture(page: Page, tmp_path: Path) -> Picture:
    """9999 + 1 on a page, in a browser without a network that reports every request."""
    asked: list[str] = []
    page.context.set_offline(True)
    page.on("request", lambda request: asked.append(request.url))
    path = take_home(nines(), tmp_path / "nines.html", title="9999 + 1 <b>& more</b>")
    page.goto(path.as_uri())
    picture = Picture(page.locator(".mechcalc"))
    assert [url for url in asked if not url.startswith("file:")] == []
    return picture


def test_plays_to_the_end(picture: Picture) -> None:
    """At ten times the speed the page plays to the end, and shows what the machine showed."""
    picture.root.locator("select").select_option("10")
    picture.press("play")
    expect(picture.root.locator('[data-act=play][data-playing="true"]')).to_have_count(1)
    expect(picture.root.locator('[data-act=play]:not([data-playing="true"])')).to_have_count(1, timeout=20_000)
    assert picture.shows == (1, 10000, 2, 0)


def test_can_be_paused(picture: Picture) -> None:
    """Playing stops where it is told to."""
    picture.press("play")
    picture.root.page.wait_for_timeout(300)
    picture.press("play")
    stopped = picture.value("setting/4")
    picture.root.page.wait_for_timeout(200)
    assert picture.value("setting/4") == stopped > 0


def test_names_are_text(picture: Picture) -> None:
    """Markup in a title is shown as it was written."""
    assert picture.root.get_by_role("heading", level=1).inner_text() == "9999 + 1 <b>& more</b>"
    assert picture.root.page.title() == "9999 + 1 <b>& more</b>"


def test_steps_with_the_keyboard(picture: Picture) -> None:
    """The same keys as in a notebook: next carry, then moment by moment, each said in the live region."""
    picture.focus()
    picture.root.page.keyboard.press("c")
    assert picture.value("carrypin/+/2") == 1
    picture.root.page.keyboard.press("ArrowRight")
    expect(picture.root.locator("[role=status]")).to_contain_text("The carry reaches wheel 2: one step on, to 0.")
    assert picture.register("wheel") == 9900
    picture.root.page.keyboard.press("Home")
    assert picture.register("wheel") == 0


def test_the_working_is_marked_and_leads(picture: Picture) -> None:
    """The line under way is marked with more than colour; a line that is pressed shows the machine after it."""
    picture.focus()
    picture.root.page.keyboard.press("c")
    row = picture.root.locator(".working li[aria-current]")
    assert row.inner_text().endswith("one additive turn")
    assert row.locator("button").evaluate("node => getComputedStyle(node).fontWeight") == "700"
    picture.root.locator(".working li button").nth(1).click()
    assert picture.shows == (9999, 9999, 1, 0)


def test_moves_nothing_unasked_where_motion_is_unwanted(browser: Browser, tmp_path: Path) -> None:
    """With reduced motion asked for, a step jumps, and playing goes from moment to moment."""
    context = browser.new_context(reduced_motion="reduce")
    page = context.new_page()
    page.goto(take_home(nines(), tmp_path / "still.html").as_uri())
    picture = Picture(page.locator(".mechcalc"))
    picture.press("moment-on")
    assert picture.setting == 9000
    picture.press("moment-on")
    assert picture.setting == 9900
    context.close()


def test_fits_a_narrow_phone(browser: Browser, tmp_path: Path) -> None:
    """On a page 360 pixels wide nothing has to be scrolled sideways, and every control is at least 24 pixels tall."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    page = context.new_page()
    for name in ("slate", "ledger"):
        machine = Machine(load_spec(name))
        machine.set(7)
        page.goto(take_home(machine, tmp_path / f"{name}.html").as_uri())
        picture = Picture(page.locator(".mechcalc"))
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        for box in picture.root.locator("button:visible, select, input").all():
            size = box.bounding_box()
            assert size is not None
            assert min(size["width"], size["height"]) >= 24
    context.close()


def test_a_finger_on_the_crank(browser: Browser, tmp_path: Path) -> None:
    """A finger that draws the handle round takes the record along, and the page does not scroll away under it."""
    context = browser.new_context(viewport={"width": 360, "height": 500}, has_touch=True, is_mobile=True)
    page = context.new_page()
    machine = Machine(load_spec("slate"))
    machine.turn(2)
    page.goto(take_home(machine, tmp_path / "turns.html").as_uri())
    picture = Picture(page.locator(".mechcalc"))
    dial = picture.root.locator(".dial-body")
    dial.evaluate("node => node.scrollIntoView({block: 'center'})")
    scrolled, box = page.evaluate("scrollY"), dial.bounding_box()
    assert box is not None
    finger = context.new_cdp_session(page)
    for angle in range(0, 211, 10):
        x = box["x"] + box["width"] * (0.5 + 0.31 * sin(radians(angle)))
        y = box["y"] + box["height"] * (0.5 - 0.31 * cos(radians(angle)))
        finger.send("Input.dispatchTouchEvent", {"type": "touchMove" if angle else "touchStart",
                                                 "touchPoints": [{"x": x, "y": y}]})
    finger.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    assert picture.value("crank") == pytest.approx(210, abs=2)
    assert page.evaluate("scrollY") == scrolled
    context.close()
