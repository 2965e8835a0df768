"""The kiosk, opened from disk with the network off: it runs, is taken over, and goes back."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from mechcalc import InputError
from mechcalc.sharing import kiosk
from tests.browser.machines import nines
from tests.browser.picture import Picture

pytestmark = pytest.mark.browser
PHONE = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True}


@pytest.fixture
def opened(page: Page, tmp_path: Path) -> Page:
    """A kiosk that is patient for five seconds, without a network."""
    page.context.set_offline(True)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(kiosk(nines(), tmp_path / "k.html", idle=5, rest=1, title="9999 <b>+ 1</b>").as_uri())
    Picture(page.locator(".mechcalc"))
    assert [url for url in asked if not url.startswith("file:")] == []
    return page


def mode(page: Page) -> str | None:
    return page.locator("#view").get_attribute("data-kiosk")


def plays(page: Page) -> bool:
    return page.locator("[data-act=play]").get_attribute("data-playing") == "true"


def test_runs_by_itself(opened: Page) -> None:
    """It plays without being asked, and says whose it is."""
    assert (mode(opened), plays(opened)) == ("loop", True)
    expect(opened.locator(".kiosk-words")).to_contain_text("This runs by itself.")
    picture = Picture(opened.locator(".mechcalc"))
    before = picture.setting
    opened.wait_for_timeout(500)
    assert picture.setting > before


def test_begins_anew(opened: Page) -> None:
    """At the end it stands for its time, and then is at the beginning again."""
    opened.evaluate("document.querySelector('[data-act=end]').click()")
    picture = Picture(opened.locator(".mechcalc"))
    assert picture.register("wheel") == 10000
    expect(opened.locator('[data-act=play][data-playing="true"]')).to_be_visible(timeout=4000)
    assert picture.register("wheel") == 0


def test_a_touch_takes_it_over(browser: Browser, tmp_path: Path) -> None:
    """On a phone: it stops where it is, the controls are the visitor's, nothing sticks out at the side."""
    context = browser.new_context(**PHONE)
    page = context.new_page()
    page.goto(kiosk(nines(), tmp_path / "k.html", idle=5).as_uri())
    Picture(page.locator(".mechcalc"))
    page.locator("svg.machine").tap()
    assert (mode(page), plays(page)) == ("taken", False)
    page.locator("[data-act=carry-on]").tap()
    expect(page.locator("[role=status]").last).to_contain_text("carry pin")
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    for button in page.locator("button:visible").all():
        size = button.bounding_box()
        assert size is not None
        if "line" not in (button.get_attribute("class") or ""):
            assert min(size["width"], size["height"]) >= 44
    context.close()


def test_the_touch_that_takes_over_does_nothing_else(browser: Browser, tmp_path: Path) -> None:
    """Who presses "pause" in the loop has paused it; it does not start again by the same touch. The next one plays."""
    context = browser.new_context(**PHONE)
    page = context.new_page()
    page.goto(kiosk(nines(), tmp_path / "k.html").as_uri())
    Picture(page.locator(".mechcalc"))
    page.locator("[data-act=play]").tap()
    assert (mode(page), plays(page)) == ("taken", False)
    page.locator("[data-act=play]").tap()
    assert (mode(page), plays(page)) == ("taken", True)
    context.close()


def test_a_key_takes_it_over(opened: Page) -> None:
    """The first key pauses; from then on keys do what they do in the picture."""
    opened.locator(".stage").focus()
    opened.keyboard.press(" ")
    assert (mode(opened), plays(opened)) == ("taken", False)
    opened.keyboard.press(" ")
    assert plays(opened)


def test_goes_back_when_nobody_is_there(opened: Page) -> None:
    """It says so first; then everything is as it was, large type and speed too."""
    opened.mouse.click(300, 300)
    opened.locator("select").select_option("4")
    opened.locator("[data-act=large]").click()
    expect(opened.locator(".kiosk-words")).to_contain_text("Back to the loop in", timeout=5000)
    expect(opened.locator("#view")).to_have_attribute("data-kiosk", "loop", timeout=6000)
    assert plays(opened)
    assert opened.locator("select").input_value() == "1"
    assert opened.locator("[data-act=large]").get_attribute("aria-pressed") == "false"
    assert opened.locator(".mechcalc").count() == 1


def test_can_be_stopped_for_good(opened: Page) -> None:
    """WCAG 2.2, 2.2.2: a button stops it, by keyboard too; it starts again by the same button only."""
    opened.keyboard.press("Tab")
    expect(opened.locator("[data-kiosk=back]")).to_be_visible()
    opened.locator("[data-kiosk=stop]").focus()
    opened.keyboard.press("Enter")
    assert (mode(opened), plays(opened)) == ("stopped", False)
    opened.wait_for_timeout(5600)
    assert (mode(opened), plays(opened)) == ("stopped", False)
    opened.locator("[data-kiosk=stop]").click()
    assert (mode(opened), plays(opened)) == ("loop", True)


def test_moves_nothing_where_motion_is_unwanted(browser: Browser, tmp_path: Path) -> None:
    context = browser.new_context(reduced_motion="reduce")
    page = context.new_page()
    page.goto(kiosk(nines(), tmp_path / "k.html", rest=1).as_uri())
    picture = Picture(page.locator(".mechcalc"))
    page.wait_for_timeout(1600)
    assert (mode(page), plays(page), picture.setting) == ("loop", False, 0)
    expect(page.locator(".kiosk-words")).to_contain_text("Nothing moves here by itself.")
    context.close()


def test_in_three_dimensions(page: Page, tmp_path: Path) -> None:
    """The same loop around the solid view."""
    page.goto(kiosk(nines(), tmp_path / "k.html", solid=True).as_uri())
    page.locator("[data-act=play]").wait_for(state="attached")
    assert (mode(page), plays(page)) == ("loop", True)
    page.mouse.click(300, 300)
    assert (mode(page), plays(page)) == ("taken", False)


def test_names_are_text_and_nothing_leads_away(opened: Page) -> None:
    """Markup in a title is shown as it was written; there is no link, and no menu of the browser's."""
    assert opened.get_by_role("heading", level=1).inner_text() == "9999 <b>+ 1</b>"
    assert opened.locator("a, form[action], iframe").count() == 0
    assert not opened.evaluate(
        "document.body.dispatchEvent(new MouseEvent('contextmenu', {bubbles: true, cancelable: true}))")


def test_axe_finds_nothing(opened: Page) -> None:
    """Contrasts, names and roles of the whole page, while it waits for the loop."""
    opened.mouse.click(300, 300)
    found = Axe().run(opened)
    assert found.violations_count == 0, found.generate_report()


@pytest.mark.parametrize("times", [{"idle": 4}, {"idle": 3601}, {"rest": 0.5}, {"idle": float("nan")}, {"rest": True}])
def test_times_that_cannot_be(tmp_path: Path, times: dict[str, float]) -> None:
    (name,) = times
    with pytest.raises(InputError, match=f"{name} is from . to 3600 seconds, not"):
        kiosk(nines(), tmp_path / "k.html", **times)  # type: ignore[arg-type]
