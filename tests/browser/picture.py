"""What a picture in a page shows, and hands to move it.

Only this file knows how the picture's parts are found in a page.
"""

from __future__ import annotations

from math import cos, radians, sin

from playwright.sync_api import Locator

from mechcalc.numbers import from_digits


class Picture:
    """One view in a page."""

    def __init__(self, root: Locator) -> None:
        self.root = root
        root.and_(root.page.locator("[data-ready]")).wait_for()

    def part(self, name: str) -> Locator:
        return self.root.locator(f'[data-part="{name}"]')

    def value(self, name: str) -> float:
        """Where a part is drawn."""
        return float(self.part(name).get_attribute("data-value") or "nan")

    def register(self, part: str) -> int:
        """The number that a row of wheels shows: ``"wheel"`` or ``"counter"``."""
        digits = self.root.locator(f'[data-part^="{part}/"]').evaluate_all(
            "nodes => nodes.map(node => [Number(node.dataset.part.split('/')[1]), Number(node.dataset.shows)])")
        return from_digits(digit for _, digit in sorted(digits))

    @property
    def setting(self) -> int:
        values = self.root.locator('[data-part^="setting/"]').evaluate_all(
            "nodes => nodes.map(node => [Number(node.dataset.part.split('/')[1]), Number(node.dataset.value)])")
        return from_digits(round(value) for _, value in sorted(values))

    @property
    def shows(self) -> tuple[int, int, int, float]:
        """Setting, result, counter, carriage."""
        return self.setting, self.register("wheel"), self.register("counter"), self.value("carriage")

    @property
    def caption(self) -> str:
        return self.root.locator(".caption-words").inner_text()

    @property
    def said(self) -> str:
        """The live region's words."""
        return self.root.locator("[role=status]").inner_text()

    def settle(self) -> None:
        """Until nothing plays: to the end at once."""
        self.press("end")
        self.root.locator('[data-act=play]:not([data-playing="true"])').wait_for()

    def press(self, act: str) -> None:
        """Click a control."""
        self.root.locator(f'[data-act="{act}"]').first.click()

    def focus(self) -> None:
        self.root.locator(".stage").focus()

    def crank(self, start: float, stop: float, *, let_go: bool = True) -> None:
        """Drag the handle from one angle of the dial to another, clockwise if it grows."""
        dial = self.root.locator(".dial-body")
        dial.evaluate("node => node.scrollIntoView({block: 'center'})")
        box = dial.bounding_box()
        assert box is not None
        x, y, radius = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2, box["width"] * 0.31
        mouse = self.root.page.mouse
        steps = max(2, int(abs(stop - start) / 6))
        for step in range(steps + 1):
            angle = radians(start + (stop - start) * step / steps)
            mouse.move(x + radius * sin(angle), y - radius * cos(angle))
            if step == 0:
                mouse.down()
        if let_go:
            mouse.up()
