"""The live picture in a real JupyterLab: what the page shows is what Python has, whoever moved it."""

from __future__ import annotations

import re
import time

import pytest
from playwright.sync_api import Page, expect

from tests.browser.lab import Lab
from tests.browser.picture import Picture

pytestmark = pytest.mark.browser

CELLS = ["from mechcalc import Machine, load_spec\nfrom mechcalc.view import show\nm = Machine(load_spec('slate'))\n"
         "view = show(m)", "view"]
STATE = "print(m.setting, m.result, m.counter, m.carriage, round(m.state.angle, 2), len(m.strokes))"


class Desk:
    """A notebook with a live machine `m`, open in a page."""

    def __init__(self, lab: Lab, page: Page, name: str, cells: list[str]) -> None:
        self.lab, self.page, self.name = lab, page, lab.write(name, cells)
        lab.open(page, self.name)
        self.views = page.locator(".mechcalc")
        self.views.first.wait_for()
        self.picture = Picture(self.views.first)

    def run(self, code: str) -> str:
        return self.lab.ask(self.page, self.name, code)

    @property
    def state(self) -> tuple[float, ...]:
        """Setting, result, counter, carriage, crank angle, number of strokes, as Python has them."""
        return tuple(float(word) for word in self.run(STATE).split())

    def agrees(self) -> None:
        """The page shows what Python has, once its messages have arrived."""
        state, until = self.state[:4], time.monotonic() + 5
        self.picture.settle()
        while self.picture.shows != state and time.monotonic() < until:
            self.page.wait_for_timeout(50)
            self.picture.settle()
        assert self.picture.shows == state


@pytest.fixture(scope="module")
def opened(lab: Lab, notebook_page: Page) -> Desk:
    return Desk(lab, notebook_page, "live.ipynb", CELLS)


@pytest.fixture
def desk(opened: Desk) -> Desk:
    """The notebook, its machine put back to the beginning by undoing every stroke."""
    opened.page.mouse.up()
    opened.run("while m.undo():\n    pass")
    opened.picture.settle()
    assert opened.picture.shows == opened.state[:4] == (0, 0, 0, 0)
    return opened


class TestTheMouse:
    def test_cranks(self, desk: Desk) -> None:
        """The handle drawn half way round leaves the machine there; the rest of the way finishes the turn."""
        desk.run("m.set(347)")
        desk.picture.settle()
        desk.picture.crank(0, 196)
        expect(desk.picture.part("crank")).to_have_attribute("aria-valuetext", "196 degrees of an additive turn")
        assert desk.state[4:] == pytest.approx((196, 2), abs=1.5)
        wheel = desk.run("print(m.result_digits[0])")
        assert desk.picture.register("wheel") % 10 == int(wheel) == 6
        desk.picture.crank(196, 361)
        expect(desk.picture.part("crank")).to_have_attribute("aria-valuetext", "at rest")
        assert desk.state == (347, 347, 1, 0, 0, 3)
        desk.agrees()

    def test_cranks_the_other_way(self, desk: Desk) -> None:
        """Counter-clockwise is a subtractive turn: 0 - 1 leaves nines."""
        desk.run("m.set(1)")
        desk.picture.settle()
        desk.picture.crank(0, -361)
        expect(desk.picture.part("crank")).to_have_attribute("aria-valuetext", "at rest")
        assert desk.state == (1, 999999, 1, 0, 0, 2)
        desk.agrees()

    def test_cannot_crank_back(self, desk: Desk) -> None:
        """A hand that turns back within a turn moves nothing back: the pawl is marked and says why and what to do."""
        desk.picture.crank(0, 150, let_go=False)
        desk.picture.crank(150, 60)
        note = desk.picture.root.locator(".refusal")
        expect(note).to_be_visible()
        assert "full-stroke ratchet" in note.inner_text()
        assert "Finish the turn." in note.inner_text()
        expect(desk.picture.part("pawl")).to_have_class(re.compile("refusing"))
        assert desk.state[4] == pytest.approx(150, abs=1.5)
        assert desk.picture.value("crank") == pytest.approx(150, abs=1.5)
        expect(desk.picture.root.locator("[role=status]")).to_contain_text("Refused at the pawl")

    def test_sets_levers(self, desk: Desk) -> None:
        """A lever is dragged down its slot to its digit."""
        groove = desk.picture.part("setting/2").locator(".groove")
        groove.evaluate("node => node.scrollIntoView({block: 'center'})")
        slot = groove.bounding_box()
        assert slot is not None
        x, top = slot["x"] + slot["width"] / 2, slot["y"]
        desk.page.mouse.move(x, top + 1)
        desk.page.mouse.down()
        desk.page.mouse.move(x, top + slot["height"] * 6 / 9, steps=5)
        desk.page.mouse.up()
        expect(desk.picture.part("setting/2")).to_have_attribute("aria-valuenow", "6")
        desk.agrees()
        assert desk.state[0] == 60

    def test_locked_lever_stays(self, desk: Desk) -> None:
        """While the handle is out of rest a lever is locked: the refusal is shown at the lock, and nothing moves."""
        desk.run("m.crank(90.0)")
        desk.picture.settle()
        desk.picture.part("setting/1").locator(".groove").click(force=True, position={"x": 1, "y": 30})
        note = desk.picture.root.locator(".refusal")
        expect(note).to_contain_text("setting levers are locked")
        expect(note).to_contain_text("setting lock: refused")
        assert desk.picture.setting == desk.state[0] == 0


class TestTheKeyboard:
    def test_works_the_machine(self, desk: Desk) -> None:
        """Setting, turning, shifting, clearing and undoing, without a mouse, and without JupyterLab's own shortcuts."""
        cells = desk.page.locator(".jp-Cell").count()
        desk.picture.part("setting/4").evaluate("node => node.focus()")
        for key in "0012":
            desk.page.keyboard.press(key)
        desk.picture.focus()
        for key in ("+", "+", "]", "-"):
            desk.page.keyboard.press(key)
            desk.run("pass")
        desk.agrees()
        assert desk.state == (12, 999904, 992, 1, 0, 6)
        desk.picture.focus()
        for key in ("u", "r", "t", "s", "b", "d", "d", "a", "x"):
            desk.page.keyboard.press(key)
        desk.run("pass")
        desk.agrees()
        assert desk.state[:3] == (0, 0, 0)
        assert desk.page.locator(".jp-Cell").count() == cells

    def test_little_by_little(self, desk: Desk) -> None:
        """The full stop turns the crank by ten degrees; the comma, the other way, is refused at the pawl."""
        desk.picture.focus()
        desk.page.keyboard.press(".")
        desk.page.keyboard.press(".")
        expect(desk.picture.part("crank")).to_have_attribute("aria-valuenow", "20")
        desk.page.keyboard.press(",")
        expect(desk.picture.root.locator(".refusal")).to_contain_text("pawl: refused")
        assert desk.state[4] == 20

    def test_every_control_can_be_reached(self, desk: Desk) -> None:
        """Tab goes through every control of the view once, and the focus is seen on each."""
        desk.picture.root.locator(".stage").focus()
        reached = []
        for _ in range(60):
            desk.page.keyboard.press("Tab")
            name = desk.page.evaluate("""() => {
                const node = document.activeElement;
                const root = node.closest('.mechcalc');
                if (!root) return null;
                const ring = getComputedStyle(node).outlineStyle !== 'none'
                    || getComputedStyle(node.querySelector('.touch') ?? node).strokeWidth === '3px';
                return [node.dataset.act ?? node.dataset.part ?? node.className ?? node.tagName, ring];
            }""")
            if name is None:
                break
            reached.append(name)
        names = [name for name, _ in reached]
        assert {"setting/1", "crank", "play", "moment-on", "moment-back", "carry-on", "carry-back", "start", "end",
                "stroke-on", "stroke-back", "wait",
                "large", "help", "set", "turn-on", "turn-back", "shift-left", "shift-right", "clear-setting",
                "clear-result", "clear-counter", "transfer"} <= set(names)
        assert all(ring for _, ring in reached), [name for name, ring in reached if not ring]


class TestInStep:
    def test_what_python_does_is_seen(self, desk: Desk) -> None:
        """Strokes that a later cell makes are played in the picture, and end where Python stands."""
        desk.run("m.set(9999); m.turn(); m.set(1); m.turn(); m.shift(1)")
        expect(desk.picture.root.locator('[data-act=play][data-playing="true"]')).to_be_visible()
        desk.agrees()
        assert desk.picture.shows == (1, 10000, 2, 1)
        assert desk.picture.root.locator(".working li").count() == 5

    def test_undo(self, desk: Desk) -> None:
        """Undo takes back one stroke in Python and in the picture, and says so."""
        desk.run("m.set(12); m.turn()")
        desk.picture.settle()
        desk.picture.press("undo")
        expect(desk.picture.root.locator("[role=status]")).to_have_text(
            "Undone: one additive turn. Setting 12, result 0, counter 0.")
        assert desk.picture.shows == desk.state[:4] == (12, 0, 0, 0)

    def test_typed_number(self, desk: Desk) -> None:
        """A number that the levers cannot take is refused at the levers, in the machine's own words."""
        entry = desk.picture.root.get_by_label("Number to set")
        entry.fill("20026")
        entry.press("Enter")
        expect(desk.picture.root.locator(".refusal")).to_contain_text("the largest setting is 9999")
        entry.fill("2026")
        entry.press("Enter")
        expect(desk.picture.part("setting/4")).to_have_attribute("aria-valuenow", "2")
        desk.agrees()
        assert desk.state[0] == 2026

    def test_time_is_not_the_crank(self, desk: Desk) -> None:
        """Going back through what has happened moves nothing in the machine, and says what is shown."""
        desk.run("m.set(9999); m.turn(); m.set(1); m.turn()")
        desk.picture.settle()
        before = desk.state
        desk.picture.press("carry-back")
        assert "carry lever is out" in desk.picture.caption
        assert desk.picture.value("carrypin/+/5") == 1
        desk.picture.press("carry-back")
        assert (desk.picture.value("carrypin/+/5"), desk.picture.value("carrypin/+/4")) == (0, 1)
        assert desk.picture.register("wheel") == 9000
        expect(desk.picture.root.locator("[role=status]")).to_contain_text("result 9000")
        assert desk.state == before


class TestSeveralViews:
    def test_agree(self, lab: Lab, notebook_page: Page) -> None:
        """Two views of one widget and a second widget of the same machine all show it; a drag in one moves all."""
        desk = Desk(lab, notebook_page, "several.ipynb", [*CELLS, "view", "show(m)"])
        expect(desk.views).to_have_count(3)
        desk.run("m.set(25)")
        pictures = [Picture(desk.views.nth(number)) for number in range(3)]
        for picture in pictures:
            picture.settle()
        desk.views.nth(1).scroll_into_view_if_needed()
        pictures[1].root.locator(".dial-body").scroll_into_view_if_needed()
        pictures[1].crank(0, 361)
        expect(pictures[1].part("crank")).to_have_attribute("aria-valuetext", "at rest")
        for picture in pictures:
            picture.settle()
            assert picture.shows == desk.state[:4] == (25, 25, 1, 0)

    def test_of_a_record_rest_at_the_same_place(self, lab: Lab, notebook_page: Page) -> None:
        """A record's playhead, stopped in one view, is followed by the other and known to Python."""
        desk = Desk(lab, notebook_page, "record.ipynb", [
            CELLS[0], "m.set(9999); m.turn(); m.set(1); stroke = m.turn()\nwatch = show(m.strokes, spec=m.spec)",
            "watch", "watch"])
        first, second = (Picture(desk.views.nth(number)) for number in range(2))
        first.press("carry-on")
        expect(second.part("carrypin/+/2")).to_have_attribute("data-value", "1")
        assert desk.run("print(watch.travel)") == "824.5"
        assert first.caption == second.caption
        assert first.root.locator("[data-act=turn-on]").count() == 0
