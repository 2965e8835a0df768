"""The solid view in a page: something is drawn, both views agree, hands and keys turn it; and what happens without."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Locator, Page

from mechcalc.view import take_home
from tests.browser.conftest import watched_page
from tests.browser.lab import Lab
from tests.browser.picture import Picture
from tests.browser.test_access import violations
from tests.browser.test_page import nines

pytestmark = pytest.mark.browser

# How many points of the picture are painted, how many colours there are, and how much of it is orange (a carry lever).
PIXELS = """(canvas) => {
    const copy = document.createElement('canvas');
    [copy.width, copy.height] = [200, 100];
    const pen = copy.getContext('2d');
    pen.drawImage(canvas, 0, 0, 200, 100);
    const {data} = pen.getImageData(0, 0, 200, 100);
    const colours = new Set();
    let painted = 0, orange = 0;
    for (let i = 0; i < data.length; i += 4) {
        if (data[i + 3] < 128) continue;
        painted += 1;
        colours.add((data[i] >> 4) * 256 + (data[i + 1] >> 4) * 16 + (data[i + 2] >> 4));
        if (data[i] > 100 && data[i] > 1.8 * data[i + 1] && data[i] > 3 * data[i + 2]) orange += 1;
    }
    return {painted, colours: colours.size, orange};
}"""

# Wheels and carry levers in both pictures at one instant: name, value as the flat one draws it, angle in the solid one.
BOTH = """root => [...root.querySelectorAll('[data-part^="wheel/"], [data-part^="lever/"]')]
    .filter((node) => node.dataset.value !== undefined)
    .map(({dataset}) => [dataset.part, Number(dataset.value), root.mechcalcSolid.where(dataset.part).turn])"""


class Solid:
    """A solid view in a page."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.root = page.locator(".mechcalc")
        self.canvas: Locator = self.root.locator(".solid canvas")
        self.still()

    def still(self) -> None:
        """Until a picture is drawn and the camera rests."""
        self.root.locator(".solid canvas[data-drawn]").wait_for()
        self.page.wait_for_timeout(1100)

    def state(self) -> dict[str, Any]:
        told: dict[str, Any] = self.root.evaluate("root => root.mechcalcSolid.state")
        return told

    def where(self, part: str) -> dict[str, float]:
        told: dict[str, float] = self.root.evaluate("(root, part) => root.mechcalcSolid.where(part)", part)
        return told

    def pixels(self) -> dict[str, int]:
        told: dict[str, int] = self.canvas.evaluate(PIXELS)
        return told

    def press(self, act: str) -> None:
        self.root.locator(f'[data-act="{act}"]').first.click()


@pytest.fixture(scope="module")
def opened(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Solid]:
    path = take_home(nines(), tmp_path_factory.mktemp("solid") / "nines.html", solid=True)
    with watched_page(browser) as page:
        page.goto(Path(path).as_uri())
        yield Solid(page)


@pytest.fixture
def solid(opened: Solid) -> Solid:
    """The page as it was at first: at the beginning, from home, solid alone, not following."""
    for act, value in (("picture", "solid"), ("viewpoint", "home"), ("cut", "none")):
        opened.root.locator(f'select[data-act="{act}"]').select_option(value)
    opened.press("start")
    opened.canvas.focus()
    opened.still()
    return opened


class TestPicture:
    """What is seen."""

    def test_something_is_drawn(self, solid: Solid) -> None:
        """A good part of the picture, in many colours."""
        seen = solid.pixels()
        assert seen["painted"] > 2500
        assert seen["colours"] > 40

    def test_the_flat_picture_is_put_away_or_beside(self, solid: Solid) -> None:
        """As is chosen; the playhead is one."""
        flat = solid.root.locator("svg.machine")
        assert not flat.is_visible()
        solid.page.keyboard.press("v")
        assert flat.is_visible()
        assert solid.canvas.is_visible()
        solid.page.keyboard.press("v")
        assert not solid.canvas.is_visible()

    def test_both_views_agree(self, solid: Solid) -> None:
        """At every stop of the carry: digits, lever, pin and carriage."""
        solid.root.locator('select[data-act="picture"]').select_option("both")
        for _ in range(12):
            solid.press("moment-on")
            solid.page.wait_for_timeout(40)
            for part, value, turn in solid.root.evaluate(BOTH):
                expected = 36 * value if part.startswith("wheel") else 13 * (1 - value)
                assert turn == pytest.approx(expected, abs=0.5), part

    def test_a_part_in_action_is_seen_in_its_shot(self, solid: Solid) -> None:
        """Following the carry, the lever that is in action is not hidden by what it moves."""
        solid.press("carry-on")
        solid.press("follow")
        solid.still()
        assert solid.pixels()["orange"] > 60
        names = solid.root.locator(".callouts .chip-word").all_text_contents()
        assert "carry lever 1" in names
        assert any(name.startswith("carry pin") for name in names)
        assert "Look at" in solid.root.locator(".solid .look").inner_text()

    def test_a_lost_context_comes_back(self, solid: Solid) -> None:
        """The picture stays while it is lost, and is drawn again afterwards."""
        solid.root.evaluate("""async () => {
            const {gl} = window.mechcalcStage;
            const loss = gl.getExtension('WEBGL_lose_context');
            loss.loseContext();
            await new Promise((done) => setTimeout(done, 100));
            loss.restoreContext();
            await new Promise((done) => setTimeout(done, 300));
        }""")
        solid.page.keyboard.press("2")
        solid.still()
        assert solid.pixels()["painted"] > 2000


class TestHands:
    """Turning, zooming, cutting, by pointer and by key."""

    def test_dragging_turns_it(self, solid: Solid) -> None:
        """To the right and down: seen from further left and further up."""
        before = solid.state()["camera"]
        box = solid.canvas.bounding_box()
        assert box is not None
        x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        solid.page.mouse.move(x, y)
        solid.page.mouse.down()
        solid.page.mouse.move(x + 60, y + 30, steps=4)
        solid.page.mouse.up()
        after = solid.state()["camera"]
        assert after["turn"] == pytest.approx(before["turn"] - 24, abs=1)
        assert after["rise"] == pytest.approx(before["rise"] + 12, abs=1)

    def test_keys(self, solid: Solid) -> None:
        """Viewpoints, turning, nearer, cut, follow; and the keys of time still work."""
        for key, viewpoint in (("2", "front"), ("3", "behind"), ("6", "place")):
            solid.page.keyboard.press(key)
            assert solid.state()["viewpoint"] == viewpoint
        solid.still()
        far = solid.state()["camera"]["far"]
        solid.page.keyboard.press("PageUp")
        assert solid.state()["camera"]["far"] < far
        solid.page.keyboard.press("x")
        assert solid.state()["cut"]["kind"] == "across"
        solid.page.keyboard.press("f")
        assert solid.state()["follow"] is True
        solid.page.keyboard.press("End")
        assert solid.where("wheel/1")["turn"] == pytest.approx(360)

    def test_a_cut_takes_away(self, solid: Solid) -> None:
        """Less is painted, and some of it in the colour of cut faces."""
        whole = solid.pixels()["painted"]
        solid.root.locator('select[data-act="cut"]').select_option("across")
        solid.still()
        assert solid.pixels()["painted"] < 0.85 * whole

    def test_groups(self, solid: Solid) -> None:
        """Taken away, made glass and brought back."""
        solid.press("groups")
        cover = solid.root.locator('select[data-act="group-frame"]')
        whole = solid.pixels()["painted"]
        cover.select_option("away")
        solid.still()
        assert solid.pixels()["painted"] < whole
        cover.select_option("solid")
        solid.still()
        assert solid.pixels()["painted"] == pytest.approx(whole, rel=0.05)
        solid.press("groups")

    def test_it_is_said(self, solid: Solid) -> None:
        """A viewpoint and a shot are put into words."""
        live = solid.root.locator(".solid [role=status]")
        solid.page.keyboard.press("3")
        solid.page.wait_for_timeout(600)
        assert live.inner_text() == "View: behind the carriage."
        solid.page.keyboard.press("f")
        solid.page.wait_for_timeout(600)
        assert live.inner_text().startswith("Following the carry. Next, at place ")


class TestSurroundings:
    """Reduced motion, no WebGL, a narrow page."""

    def test_reduced_motion(self, browser: Browser, tmp_path: Path) -> None:
        """The camera is where it goes at once."""
        path = take_home(nines(), tmp_path / "still.html", solid=True)
        context = browser.new_context(reduced_motion="reduce")
        page = context.new_page()
        page.goto(path.as_uri())
        solid = Solid(page)
        solid.canvas.focus()
        page.keyboard.press("2")
        assert solid.state()["camera"]["turn"] == 0
        context.close()

    def test_follows_from_the_start(self, page: Page, tmp_path: Path) -> None:
        """On a page as narrow as a phone: what comes next is said, and the picture fits."""
        page.set_viewport_size({"width": 390, "height": 800})
        page.goto(take_home(nines(), tmp_path / "follow.html", solid="follow").as_uri())
        solid = Solid(page)
        assert solid.state()["follow"] is True
        assert solid.root.locator(".solid .look").inner_text().startswith("Next, at place 2: ")
        assert solid.canvas.evaluate("canvas => canvas.getBoundingClientRect().right") <= 390

    def test_without_webgl_the_flat_picture_stands_in_and_says_why(self, page: Page, tmp_path: Path) -> None:
        """Nothing else is missing."""
        page.add_init_script("""{
            const plain = HTMLCanvasElement.prototype.getContext;
            HTMLCanvasElement.prototype.getContext = function (kind, ...more) {
                return kind.startsWith('webgl') ? null : plain.call(this, kind, ...more);
            };
        }""")
        page.goto(take_home(nines(), tmp_path / "flat.html", solid=True).as_uri())
        root = page.locator(".mechcalc[data-solid=none]")
        root.wait_for()
        assert root.locator("svg.machine").is_visible()
        assert root.locator(".nosolid").inner_text() == (
            "The flat picture stands in for the solid one: this browser gives no WebGL, which draws solids.")
        root.locator('[data-act="end"]').click()
        assert Picture(root).shows == (1, 10000, 2, 0)

    def test_axe_has_nothing_to_object_to(self, page: Page, tmp_path: Path) -> None:
        """At rest, with the list of parts open, and following the carry beside the flat picture."""
        page.goto(take_home(nines(), tmp_path / "nines.html", solid=True).as_uri())
        solid = Solid(page)
        assert violations(page) == []
        solid.press("groups")
        assert violations(page) == []
        solid.root.locator('select[data-act="picture"]').select_option("both")
        solid.press("follow")
        solid.press("carry-on")
        solid.still()
        assert violations(page) == []


class TestNotebook:
    """In a real JupyterLab."""

    def test_twenty_five_live_views(self, lab: Lab, page: Page) -> None:
        """None loses its picture, the code is fetched once, and each moves with its own machine."""
        cells = ["from mechcalc import Machine, load_spec\nfrom mechcalc.view import show\n"
                 "import mechcalc.view.solid.widget as room\nfetched, script = [], room.page_script\n"
                 "room.page_script = lambda: fetched.append('once') or script()\n"
                 "machines = [Machine(load_spec('slate')) for _ in range(25)]\n"
                 "views = [show(m, solid=True) for m in machines]"]
        cells += [f"views[{number}]" for number in range(25)]
        lab.open(page, lab.write("many.ipynb", cells))
        roots = page.locator(".mechcalc[data-solid=ready]")
        page.wait_for_function("document.querySelectorAll('.mechcalc[data-solid=ready]').length >= 25", timeout=60_000)
        name = "many.ipynb"
        for number in (0, 7, 16, 24):
            root = roots.nth(number)
            root.scroll_into_view_if_needed()
            root.locator(".solid canvas[data-drawn]").wait_for()
            assert root.locator(".solid canvas").evaluate(PIXELS)["painted"] > 2000, number
        lab.ask(page, name, "machines[24].set(3); machines[24].turn()")
        page.wait_for_function("""() => {
            const roots = document.querySelectorAll('.mechcalc[data-solid=ready]');
            return Math.abs(roots[24].mechcalcSolid.where('wheel/1').turn - 108) < 0.01;
        }""", timeout=30_000)
        roots.nth(0).scroll_into_view_if_needed()
        assert roots.nth(0).locator(".solid canvas").evaluate(PIXELS)["painted"] > 2000
        assert lab.ask(page, name, "print(len(fetched))") == "1"
        assert lab.ask(page, name, "print(max(len(str(v.get_state())) for v in views) < 60000)") == "True"
