"""Teaching with the view: predictions before the windows open, waiting before carries, steps back, large type."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from mechcalc import Machine, load_spec
from mechcalc.methods import multiply
from mechcalc.view import take_home
from tests.browser.lab import Lab
from tests.browser.picture import Picture
from tests.browser.test_access import violations
from tests.browser.test_live import Desk
from tests.browser.test_page import nines

pytestmark = pytest.mark.browser

TEXTS = """root => {
    const texts = [root.textContent];
    for (const node of root.querySelectorAll('*')) {
        for (const {name, value} of node.attributes) if (/^(aria-|data-|title|alt|value)/.test(name)) texts.push(value);
        if ('value' in node) texts.push(String(node.value));
    }
    return texts.join(' | ');
}"""


def opened(page: Page, path: Path, what: Any, **options: Any) -> Picture:
    page.goto(take_home(what, path / "page.html", **options).as_uri())
    return Picture(page.locator(".mechcalc"))


def stroke_on(picture: Picture) -> None:
    """One stroke on, until the picture rests."""
    picture.press("stroke-on")
    expect(picture.root.locator('[data-act=play]:not([data-playing="true"])')).to_have_count(1, timeout=20_000)


def product() -> Any:
    """347 × 26 = 9022, by way of 347, 694, 1041, 1388, 1735, 2082 and 5552."""
    return multiply(Machine(load_spec("bench")), 347, 26)


class TestForetelling:
    def test_nothing_gives_the_answer_away(self, page: Page, tmp_path: Path) -> None:
        """Until a prediction is confirmed no text, attribute or hidden word of the view holds what the wheels show:
        not the windows, the caption, the live region, the working, its algebra or the slider."""
        picture = opened(page, tmp_path, product(), predict="result")
        picture.root.locator("select").select_option("10")
        for step in range(9):
            stroke_on(picture)
            texts = picture.root.evaluate(TEXTS)
            for told in ("694", "1041", "1388", "1735", "2082", "5552", "9022", "6593"):
                assert told not in texts, (step, told)
        picture.press("end")
        page.wait_for_timeout(200)
        assert "9022" not in picture.root.evaluate(TEXTS)
        assert picture.part("wheel/1").text_content() == "?"
        assert picture.part("counter/1").get_attribute("data-shows") == "6"
        assert "result behind the shutter, counter 26" in picture.said
        lines = picture.root.locator(".working li:visible").all_inner_texts()
        assert [line.split("\n")[-1] for line in lines[1:]] == [
            *["one additive turn"] * 6, "shift to position 1", *["one additive turn"] * 2]

    def test_nor_does_the_solid_picture(self, page: Page, tmp_path: Path) -> None:
        """Following the carry in three dimensions, what comes next is told without its digits."""
        picture = opened(page, tmp_path, product(), predict="result", solid="follow")
        for _ in range(4):
            picture.press("carry-on")
            page.wait_for_timeout(600)
            assert "to " not in (picture.root.locator(".look").text_content() or "").split("Next:")[-1].split(".")[0]
            texts = picture.root.evaluate(TEXTS)
            assert not [told for told in ("694", "1041", "9022") if told in texts]

    def test_lines_not_yet_begun_are_not_shown(self, page: Page, tmp_path: Path) -> None:
        """How many turns there are to come would tell a quotient."""
        picture = opened(page, tmp_path, product(), predict="counter")
        assert picture.root.locator(".working li:visible").count() == 1
        stroke_on(picture)
        assert picture.root.locator(".working li:visible").count() == 1
        stroke_on(picture)
        assert picture.root.locator(".working li:visible").count() == 2

    def test_stands_beside_what_came(self, page: Page, tmp_path: Path) -> None:
        """Foretold, played to the end: the shutter opens, and the two numbers stand digit under digit, unblamed."""
        picture = opened(page, tmp_path, product(), predict="result")
        entry = picture.root.get_by_label("What will the result show at the end?")
        entry.fill("9 122")
        entry.press("Enter")
        expect(picture.root.locator(".awaited")).to_have_text(
            "You foretold 9122. The shutter opens when it is done.")
        picture.root.locator("select").select_option("10")
        page.keyboard.press(" ")
        expect(picture.part("wheel/1")).to_have_attribute("data-shows", "covered")
        expect(picture.root.locator(".outcome p")).to_have_text(
            "You foretold 9122; it came to 9022. Good: now find out why.", timeout=20_000)
        rows = [row.split() for row in picture.root.locator(".row-of-digits").all_inner_texts()]
        assert rows == [["foretold", *"9122"], ["came", *"9022"]]
        assert picture.root.locator(".figure.other").all_inner_texts() == ["1", "0"]
        expect(picture.root.locator("[role=status]")).to_contain_text("it came to 9022")
        assert picture.register("wheel") == 9022
        picture.press("moment-back")
        assert picture.register("wheel") == 9022
        assert picture.root.locator(".working li:visible").count() == 10

    def test_an_entry_that_cannot_be_read_is_asked_for_again(self, page: Page, tmp_path: Path) -> None:
        """What is wrong is said beside the field, which keeps its text and the focus."""
        picture = opened(page, tmp_path, product(), predict="result")
        picture.focus()
        page.keyboard.press("q")
        page.keyboard.type("about 9000")
        page.keyboard.press("Enter")
        expect(picture.root.locator(".problem")).to_have_text("Write a whole number, such as 1234.")
        entry = picture.root.locator(".foretelling input")
        expect(entry).to_be_focused()
        assert (entry.input_value(), entry.get_attribute("aria-invalid")) == ("about 9000", "true")
        assert violations(page) == []
        page.keyboard.press("Escape")
        expect(picture.root.locator(".stage")).to_be_focused()

    def test_turn_by_turn(self, page: Page, tmp_path: Path) -> None:
        """Before each turn playing pauses and asks; after it the shutter opens until the next."""
        picture = opened(page, tmp_path, nines(), predict="result", ask="each turn")
        picture.root.locator("select").select_option("10")
        picture.press("play")
        for number, foretold, came in ((1, "9999", 9999), (2, "10000", 10000)):
            expect(picture.root.locator(".caption-words")).to_have_text(
                f"Turn {number} of 2 comes next. Foretell, and go on.", timeout=20_000)
            entry = picture.root.get_by_label(f"What will the result show after turn {number} of 2?")
            entry.fill(foretold)
            entry.press("Enter")
            page.keyboard.press(" ")
            expect(picture.root.locator(".outcome p")).to_have_text(f"You foretold {came}, and {came} it is.",
                                                                    timeout=20_000)
            assert picture.register("wheel") == came
            page.keyboard.press(" ")
        expect(picture.root.locator(".outcome summary")).to_have_text("all predictions (2)")
        assert violations(page) == []

    def test_before_each_carry(self, page: Page, tmp_path: Path) -> None:
        """The wheel that the carry comes to is covered while it is under way; the answer lets it go on."""
        picture = opened(page, tmp_path, nines(), predict="carry")
        picture.root.locator("select").select_option("4")
        picture.press("play")
        for wheel, digit in ((2, "0"), (3, "9"), (4, "0"), (5, "1")):
            entry = picture.root.get_by_label(f"Which digit will wheel {wheel} show after it?")
            entry.wait_for(timeout=20_000)
            assert picture.part(f"wheel/{wheel}").get_attribute("data-shows") == ("0" if wheel == 5 else "9")
            entry.fill(digit)
            entry.press("Enter")
            expect(picture.part(f"wheel/{wheel}")).to_have_attribute("data-shows", "covered")
            came = "1" if wheel == 5 else "0"
            expect(picture.part(f"wheel/{wheel}")).to_have_attribute("data-shows", came, timeout=20_000)
            said = f"You foretold {digit}, and {came} it is." if came == digit else (
                f"You foretold {digit}; it came to {came}. Good: now find out why.")
            expect(picture.root.locator(".outcome > p")).to_have_text(said)
            page.keyboard.press(" ")

    def test_without_motion(self, browser: Browser, tmp_path: Path) -> None:
        """With reduced motion asked for, it pauses, asks and opens just the same, and the shutter does not slide."""
        context = browser.new_context(reduced_motion="reduce")
        picture = opened(context.new_page(), tmp_path, nines(), predict="result")
        picture.root.locator("select").select_option("10")
        picture.press("play")
        expect(picture.root.locator(".caption-words")).to_have_text("The first turn comes next. Foretell, and go on.")
        picture.root.locator(".foretelling input").fill("10000")
        picture.press("foretell")
        picture.press("end")
        assert picture.register("wheel") == 10000
        shutter = picture.part("wheel/1").locator(".shutter")
        assert shutter.evaluate("node => getComputedStyle(node).transitionDuration") == "0s"
        context.close()


class TestWaitingBeforeCarries:
    def test_waits_asks_and_goes_on(self, page: Page, tmp_path: Path) -> None:
        """With the switch on, playing stops where the lever is out and the pin is about to be pushed over."""
        picture = opened(page, tmp_path, nines())
        picture.focus()
        page.keyboard.press("w")
        assert picture.root.locator("[data-act=wait]").get_attribute("aria-pressed") == "true"
        picture.root.locator("select").select_option("10")
        picture.focus()
        page.keyboard.press(" ")
        words = picture.root.locator(".caption-words")
        expect(words).to_have_text("The carry lever of wheel 1 is out, and the additive carry pin of place 2 comes "
                                   "next. What will wheel 2 do?", timeout=20_000)
        assert (picture.value("lever/1"), picture.value("carrypin/+/2")) == (1, 0)
        expect(picture.root.locator("[role=status]")).to_contain_text("What will wheel 2 do?")
        assert violations(page) == []
        page.keyboard.press("g")
        expect(words).to_contain_text("What will wheel 3 do?", timeout=20_000)
        assert picture.register("wheel") == 9900
        picture.press("go-on")
        expect(words).to_contain_text("What will wheel 4 do?", timeout=20_000)
        page.keyboard.press("ArrowLeft")
        assert picture.caption == "The carry reaches wheel 3: one step on, to 0. " \
                                  "The homing cam pushes the carry lever of wheel 2 home."
        assert picture.register("wheel") == 9000
        picture.press("wait")
        picture.press("play")
        expect(picture.root.locator('[data-act=play]:not([data-playing="true"])')).to_have_count(1, timeout=20_000)
        assert picture.shows == (1, 10000, 2, 0)

    def test_stops_the_hand(self, page: Page, tmp_path: Path) -> None:
        """A hand that draws the crank of a record along is stopped there too; taken hold of again it goes on."""
        picture = opened(page, tmp_path, nines(), wait_at_carries=True, travel=600.0)
        picture.crank(0, 260)
        stopped = picture.value("crank")
        assert "What will wheel 2 do?" in picture.caption
        assert picture.value("carrypin/+/2") == 0
        picture.crank(stopped % 360, 260)
        assert "What will wheel 3 do?" in picture.caption
        assert picture.value("wheel/2") == 10


class TestStepsBack:
    def test_an_event_and_a_stroke(self, page: Page, tmp_path: Path) -> None:
        """One moment back, one stroke back, by button and by key; both say where that is."""
        picture = opened(page, tmp_path, nines())
        picture.press("end")
        picture.press("moment-back")
        assert picture.register("wheel") == 10000
        picture.press("carry-back")
        assert (picture.register("wheel"), picture.value("carrypin/+/5")) == (0, 1)
        picture.press("moment-back")
        assert (picture.register("wheel"), picture.value("carrypin/+/5")) == (0, 0)
        picture.press("stroke-back")
        assert picture.shows == (1, 9999, 1, 0)
        picture.focus()
        page.keyboard.press("Shift+N")
        assert picture.shows == (9999, 9999, 1, 0)
        expect(picture.root.locator("[role=status]")).to_contain_text("Setting 9999, result 9999")
        page.keyboard.press("Home")
        page.keyboard.press("n")
        expect(picture.part("setting/4")).to_have_attribute("data-value", "9")

    def test_keys_stand_in_the_help(self, page: Page, tmp_path: Path) -> None:
        """What the help lists is what there is: the question's key only where something is asked."""
        for predict, listed in ((None, False), ("result", True)):
            picture = opened(page, tmp_path, nines(), predict=predict)
            picture.press("help")
            keys = {" ".join(key.split()) for key in picture.root.locator(".help dt").all_inner_texts()}
            assert {"N Shift N", "→ ←", "W", "G"} <= keys
            assert ("Q" in keys) is listed


class TestTogether:
    def test_large_type(self, page: Page, tmp_path: Path) -> None:
        """In large type with a question, a pause and an outcome nothing is cut off, and axe finds nothing."""
        picture = opened(page, tmp_path, nines(), predict="carry", large=True)
        picture.root.locator("select").select_option("10")
        picture.press("play")
        picture.root.locator(".foretelling input").wait_for(timeout=20_000)
        assert violations(page) == []
        assert page.evaluate("document.documentElement.scrollWidth") <= 1280
        row = picture.root.locator(".working li[aria-current]")
        seen = row.evaluate("""node => {
            const box = node.closest('.working').getBoundingClientRect(), own = node.getBoundingClientRect();
            return own.top >= box.top - 1 && own.top < box.bottom - 10;
        }""")
        assert seen

    @pytest.mark.parametrize("name", ["slate", "ledger"])
    def test_on_a_telephone(self, browser: Browser, tmp_path: Path, name: str) -> None:
        """On 360 pixels every digit of the result can be read (12 pixels or more), shutters and all, without
        scrolling sideways."""
        context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
        page = context.new_page()
        machine = Machine(load_spec(name))
        machine.set(7)
        machine.turn(3)
        picture = opened(page, tmp_path, machine, predict="result")
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        near = picture.root.locator(".closeup")
        assert near.count() == (name == "ledger")
        picture.press("end")
        where = '[data-near^="wheel/"]' if near.count() else '[data-part^="wheel/"]'
        assert set(picture.root.locator(where).all_text_contents()) == {"?"}
        picture.root.locator(".foretelling input").fill("21")
        picture.press("foretell")
        digits = picture.root.locator(f"{where} .numeral:nth-child(2)")
        assert "".join(digits.all_text_contents())[::-1 if name == "slate" else 1].strip("0") in ("12", "21")
        heights = digits.evaluate_all("nodes => nodes.map(node => node.getBoundingClientRect().height)")
        assert min(heights) >= 12
        context.close()


CELLS = ["from mechcalc import Machine, load_spec\nfrom mechcalc.view import show\nm = Machine(load_spec('slate'))\n"
         "view = show(m, predict='result')", "view", "show(m)"]


def python_says(desk: Desk, code: str, wanted: str) -> None:
    """Until Python has heard of it: the page does not wait for its answer."""
    until = time.monotonic() + 10
    while (said := desk.run(code)) != wanted and time.monotonic() < until:
        desk.page.wait_for_timeout(50)
    assert said == wanted


@pytest.fixture(scope="module")
def started(lab: Lab, notebook_page: Page) -> Desk:
    return Desk(lab, notebook_page, "teaching.ipynb", CELLS)


class TestALiveMachine:
    def test_comes_back_to_python(self, started: Desk) -> None:
        """Foretell, set, turn: the shutter opens at the end of the turn, and Python knows both numbers."""
        desk = started
        entry = desk.picture.root.get_by_label("What will the result show after the next turn?")
        entry.fill("350")
        entry.press("Enter")
        desk.run("m.set(347)")
        desk.picture.settle()
        desk.picture.focus()
        desk.page.keyboard.press("+")
        expect(desk.picture.part("wheel/1")).to_have_attribute("data-shows", "covered")
        expect(desk.picture.root.locator(".outcome > p")).to_have_text(
            "You foretold 350; it came to 347. Good: now find out why.", timeout=20_000)
        python_says(desk, "print(view.predictions)", "(Prediction(about='result', foretold=350, happened=347),)")
        assert desk.picture.register("wheel") == 347

    def test_covered_while_the_crank_is_in_the_hand(self, started: Desk) -> None:
        """A dragged crank covers the windows as it leaves rest; foretold behind the shutter, it opens at once."""
        desk = started
        desk.picture.crank(0, 120, let_go=False)
        expect(desk.picture.part("wheel/1")).to_have_attribute("data-shows", "covered")
        desk.picture.crank(120, 361)
        expect(desk.picture.part("crank")).to_have_attribute("aria-valuetext", "at rest")
        entry = desk.picture.root.get_by_label("What does the result show now, behind the shutter?")
        entry.fill("694")
        entry.press("Enter")
        expect(desk.picture.root.locator(".outcome > p")).to_have_text("You foretold 694, and 694 it is.")
        python_says(desk, "print(view.predictions[-1].foretold, m.result)", "694 694")
        expect(desk.picture.root.locator(".question")).to_have_text("What will the result show after the next turn?")

    def test_the_hand_waits_at_a_carry(self, started: Desk) -> None:
        """The hand on the crank is stopped before a carry; a key lets it go on while it still holds."""
        started.run("m.clear_result(); m.set(9); m.turn()")
        picture = Picture(started.views.nth(1))
        picture.settle()
        picture.press("wait")
        picture.crank(0, 250, let_go=False)
        expect(picture.root.locator(".caption-words")).to_contain_text("What will wheel 2 do?")
        held = picture.value("crank") % 360
        assert held == pytest.approx(222.7, abs=10.1)
        picture.focus()
        started.page.keyboard.press("g")
        picture.crank(250, 300)
        expect(picture.root.locator(".caption-words")).not_to_contain_text("What will wheel 2 do?")
        assert picture.value("crank") % 360 > held + 10

    def test_a_crank_that_is_let_go_before_a_carry(self, started: Desk) -> None:
        """The question stands while the crank does; going on finishes the turn."""
        started.run("m.finish_turn(); m.clear_result(); m.turn()")
        picture = Picture(started.views.nth(1))
        picture.settle()
        picture.crank(0, 250)
        words = picture.root.locator(".caption-words")
        expect(words).to_contain_text("What will wheel 2 do?")
        python_says(started, "print(m.state.direction, m.result)", "1 8")
        expect(picture.root.locator("[role=status]")).to_contain_text("What will wheel 2 do?")
        picture.press("go-on")
        python_says(started, "print(m.state.direction, m.result)", "0 18")
        expect(words).not_to_contain_text("What will wheel 2 do?")
        picture.settle()
        assert picture.register("wheel") == 18
        picture.press("wait")

    def test_levers_in_large_type(self, started: Desk) -> None:
        """In large type a lever is dragged in its slot beside the window."""
        started.run("m.finish_turn()")
        picture = Picture(started.views.nth(1))
        picture.settle()
        picture.press("large")
        groove = picture.part("setting/3").locator(".groove")
        groove.evaluate("node => node.scrollIntoView({block: 'center'})")
        slot = groove.bounding_box()
        assert slot is not None
        x, top = slot["x"] + slot["width"] / 2, slot["y"]
        started.page.mouse.move(x, top + 2)
        started.page.mouse.down()
        started.page.mouse.move(x, top + slot["height"] * 7 / 9, steps=5)
        started.page.mouse.up()
        expect(picture.part("setting/3")).to_have_attribute("aria-valuenow", "7")
        assert started.run("print(m.setting_digits[2])") == "7"
        picture.press("large")
