"""Faults in the view: marked with more than colour, told where they act, or not named; a worn ratchet in the hand."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from mechcalc import load_spec
from mechcalc.bench import CarryLeverNotHomed, CarryPinGone, IdlerToothLost, Machine, NumberPinGone, NumberPinStuckOut
from mechcalc.view import take_home
from tests.browser.lab import Lab
from tests.browser.machines import nines
from tests.browser.picture import Picture
from tests.browser.test_access import violations
from tests.browser.test_live import Desk

pytestmark = pytest.mark.browser


def faulty() -> Machine:
    """9999 + 1 on a slate with three faults: a number pin gone, a carry pin gone, a lever that is not homed."""
    return nines(Machine(load_spec("slate"), faults=[
        NumberPinGone(place=4, pin=9), CarryPinGone(place=4, direction=1), CarryLeverNotHomed(wheel=1)]))


@pytest.fixture
def picture(page: Page, tmp_path: Path) -> Picture:
    page.goto(take_home(faulty(), tmp_path / "faulty.html").as_uri())
    return Picture(page.locator(".mechcalc"))


class TestMarked:
    def test_each_fault_has_a_sign_of_its_own(self, picture: Picture) -> None:
        """A tag with a letter and a striped collar at the part; the letter and the sentence in a list."""
        assert picture.root.locator(".fault-tag").all_text_contents() == ["A", "B", "C"]
        assert picture.root.locator(".stage .fault-collar").count() == 3
        assert [" ".join(row.split()) for row in picture.root.locator(".fault-list li").all_inner_texts()] == [
            "A pin 9 of pinwheel 4 is gone", "B the additive carry pin of place 4 is gone",
            "C the carry lever of wheel 1 is not pushed home"]
        assert picture.part("pin/4/9").locator(".hole").count() == 1
        assert picture.part("carrypin/+/4").locator(".hole").count() == 1
        assert picture.part("carrypin/-/4").locator(".hole").count() == 0

    def test_sign_does_without_colour(self, picture: Picture) -> None:
        """Collar, tag and hole are black and white."""
        for selector, what in ((".fault-band", "stroke"), (".fault-stripes", "stroke"), (".fault-tag-body", "fill"),
                               (".fault-tag-body", "stroke"), (".hole", "fill")):
            color = picture.root.locator(selector).first.evaluate(f"node => getComputedStyle(node).{what}")
            red, green, blue = (int(part) for part in color.removeprefix("rgb(").removesuffix(")").split(","))
            assert max(red, green, blue) - min(red, green, blue) <= 12, (selector, color)
            assert max(red, green, blue) < 45 or min(red, green, blue) > 240, (selector, color)

    def test_a_collar_goes_with_its_part(self, picture: Picture) -> None:
        """The collar of the lever stands about the lever as it goes out."""
        def apart() -> float:
            centres = []
            for selector in ('[data-fault="C"] .fault-band', '[data-part="lever/1"] .lever-head'):
                box = picture.root.locator(selector).bounding_box()
                assert box is not None
                centres.append((box["x"] + box["width"] / 2, box["y"] + box["height"] / 2))
            return abs(centres[0][0] - centres[1][0]) + abs(centres[0][1] - centres[1][1])
        assert apart() < 12
        picture.press("end")
        assert picture.value("lever/1") == 1
        assert apart() < 12

    def test_goes_to_where_they_act(self, picture: Picture) -> None:
        """By button and by key; each instant names its fault, in the caption and aloud."""
        page = picture.root.page
        picture.press("fault-on")
        assert picture.root.locator(".caption .fault-chip").all_text_contents() == ["A"]
        assert picture.caption.endswith("Pin 9 of pinwheel 4 is gone: wheel 4 misses a step.")
        expect(picture.root.locator("[role=status]")).to_contain_text("Fault A. ")
        picture.focus()
        page.keyboard.press("d")
        assert picture.root.locator(".caption .fault-chip").all_text_contents() == ["C"]
        assert picture.value("lever/1") == 1
        page.keyboard.press("d")
        assert picture.caption.endswith("The carry lever of wheel 3 is out, but the carry pin of place 4 is gone: the "
                                        "carry is lost.")
        assert picture.register("wheel") == 8000
        page.keyboard.press("Shift+D")
        assert picture.root.locator(".caption .fault-chip").all_text_contents() == ["C"]

    def test_marks_moments_and_strokes(self, picture: Picture) -> None:
        """Ticks stand over the slider where a fault acts; a line of the working has the letters of its faults."""
        titles = [tick.get_attribute("title") for tick in picture.root.locator(".fault-tick").all()]
        assert titles == ["A", "C", "B"]
        chips = [row.locator(".fault-chip").all_text_contents() for row in picture.root.locator(".working li").all()]
        assert chips == [[], ["A"], [], ["B", "C"]]

    def test_axe(self, picture: Picture) -> None:
        """With the help open, where a fault acts, and in large type."""
        picture.press("fault-on")
        picture.press("help")
        assert violations(picture.root.page) == []
        picture.press("large")
        assert violations(picture.root.page) == []
        assert picture.root.page.evaluate("document.documentElement.scrollWidth") <= 1280

    def test_a_lost_tooth_is_a_gap(self, page: Page, tmp_path: Path) -> None:
        """The idler's tooth is missing where the pin should meet it, and its seat is drawn instead."""
        machine = Machine(load_spec("slate"), faults=[IdlerToothLost(place=1, tooth=1)])
        machine.set(3)
        machine.turn()
        page.goto(take_home(machine, tmp_path / "gap.html").as_uri())
        picture = Picture(page.locator(".mechcalc"))
        picture.press("fault-on")
        assert picture.register("wheel") == 1
        seat = picture.part("idler/1").locator(".idler-seat")
        assert (seat.get_attribute("d") or "").startswith("M")
        whole, gapped = (picture.part(f"idler/{place}").locator(".idler-teeth").get_attribute("d") or ""
                         for place in (2, 1))
        assert gapped.count("M") == whole.count("M") - 1


class TestNotNamed:
    def test_nothing_in_the_page_tells(self, page: Page, tmp_path: Path) -> None:
        """Sought, a fault is neither marked nor named; what it does to the wheels is seen."""
        path = take_home(faulty(), tmp_path / "sought.html", reveal=False)
        page.goto(path.as_uri())
        picture = Picture(page.locator(".mechcalc"))
        assert picture.root.locator(".fault-tag, .fault-collar, .fault-list, .hole, [data-act^=fault]").count() == 0
        picture.press("end")
        assert picture.register("wheel") == 8000
        assert picture.value("lever/1") == 1
        for words in ("is gone", "not pushed home", "Fault"):
            assert words not in (picture.root.text_content() or "")


CELLS = ["from mechcalc import load_spec\nfrom mechcalc.bench import Machine, RatchetWorn\n"
         "from mechcalc.view import show\nm = Machine(load_spec('slate'), faults=[RatchetWorn()])\nview = show(m)",
         "view"]


@pytest.fixture(scope="module")
def opened(lab: Lab, notebook_page: Page) -> Desk:
    return Desk(lab, notebook_page, "worn.ipynb", CELLS)


class TestAWornRatchet:
    def test_in_the_hand(self, opened: Desk) -> None:
        """The crank is drawn on to 150 degrees, back to 60 and on again: picture and Python stand where it stands."""
        opened.run("m.set(9)")
        opened.picture.settle()
        opened.picture.crank(0, 150, let_go=False)
        opened.picture.crank(150, 60)
        expect(opened.picture.root.locator(".refusal")).to_be_hidden()
        expect(opened.picture.part("crank")).to_have_attribute("aria-valuetext", "300 degrees of a subtractive turn")
        assert opened.state[4] == pytest.approx(300, abs=2)
        assert opened.picture.value("crank") % 360 == pytest.approx(60, abs=2)
        assert opened.run("print(m.result)") == "0"
        opened.picture.crank(60, 361)
        expect(opened.picture.part("crank")).to_have_attribute("aria-valuetext", "at rest")
        opened.agrees()
        assert opened.run("print(m.state.direction, m.result)") == "0 9"

    def test_with_keys(self, opened: Desk) -> None:
        """Full stop and comma go on and back; minus brings it back to rest."""
        opened.picture.focus()
        for key in (".", ".", ",", "."):
            opened.page.keyboard.press(key)
            opened.run("pass")
        expect(opened.picture.part("crank")).to_have_attribute("aria-valuetext", "20 degrees of an additive turn")
        opened.page.keyboard.press("-")
        expect(opened.picture.part("crank")).to_have_attribute("aria-valuetext", "at rest")
        assert opened.run("print(m.state.direction, m.strokes[-1].argument)") == "0 -20.0"

    def test_is_marked_while_it_is_turned_back(self, opened: Desk) -> None:
        """The pawl has its mark, and what is going on is said."""
        assert opened.picture.root.locator(".fault-list li span").all_inner_texts() == [
            "A", " the full-stroke ratchet is worn"]
        opened.run("m.crank(80.0); m.crank(-30.0)")
        opened.picture.settle()
        opened.picture.press("fault-back")
        assert opened.picture.caption == "The crank goes back: the worn ratchet does not hold it."


def test_a_stuck_pin_stays_out(page: Page, tmp_path: Path) -> None:
    """With every lever at 0 one pin stands out all the same, and is marked."""
    machine = Machine(load_spec("slate"), faults=[NumberPinStuckOut(place=2, pin=4)])
    machine.turn()
    page.goto(take_home(machine, tmp_path / "stuck.html").as_uri())
    picture = Picture(page.locator(".mechcalc"))
    assert [picture.value(f"pin/2/{pin}") for pin in (3, 4, 5)] == [0, 1, 0]
    assert picture.part("pin/2/4").locator(".fault-collar").count() == 1
