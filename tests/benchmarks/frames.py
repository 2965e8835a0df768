"""How smoothly the picture moves: a full-width turn of the largest catalogue machine, played in the browser.

    python -m tests.benchmarks.frames [seconds]

Prints the share of frames that came later than 17 ms after the one before, and the script time of a frame. The
browser draws in software where there is no graphics processor, so figures from such a machine are a lower bound.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from typing import Any

from playwright.sync_api import sync_playwright

from mechcalc import Machine, load_spec, machine_names
from mechcalc.view import take_home
from tests.browser.lab import browser_flags
from tests.ci_rules import find_browser, why_no_browser

LATE = 17.0
MEASURE = """async (seconds) => {
    const root = document.querySelector('.mechcalc');
    const request = window.requestAnimationFrame.bind(window);
    const work = [], gaps = [];
    window.requestAnimationFrame = (draw) => request((at) => {
        const begun = performance.now();
        draw(at);
        work.push(performance.now() - begun);
    });
    root.querySelector('[data-act=play]').click();
    let last = 0;
    const until = performance.now() + seconds * 1000;
    await new Promise((done) => {
        const look = (at) => {
            if (last) gaps.push(at - last);
            last = at;
            const playing = root.querySelector('[data-act=play]').dataset.playing === 'true';
            if (performance.now() < until && playing) request(look);
            else done();
        };
        request(look);
    });
    return {work, gaps};
}"""


def full_width() -> Machine:
    """All levers of the largest machine at 9, and a turn whose carries go through all its places."""
    spec = max((load_spec(name) for name in machine_names()), key=lambda spec: spec.result_places)
    machine = Machine(spec)
    machine.set(10**spec.setting_places - 1)
    machine.turn(2)
    return machine


def measure(browser_path: str, seconds: float) -> dict[str, Any]:
    """Play the last turn, and time every frame of it."""
    machine = full_width()
    strokes = machine.strokes[-1:]
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        path = take_home(strokes, Path(folder) / "turn.html", spec=machine.spec)
        browser = playwright.chromium.launch(executable_path=browser_path, args=browser_flags())
        page = browser.new_page(viewport={"width": 1280, "height": 720})
        page.goto(path.as_uri())
        page.locator(".mechcalc[data-ready]").wait_for()
        page.wait_for_timeout(500)
        figures: dict[str, Any] = page.evaluate(MEASURE, seconds)
        browser.close()
    return figures


def main() -> None:
    path = find_browser()
    if path is None:
        sys.exit(why_no_browser())
    figures = measure(path, float(sys.argv[1]) if len(sys.argv) > 1 else 10.0)
    gaps, work = figures["gaps"], sorted(figures["work"])
    late = sum(gap > LATE for gap in gaps)
    print(f"{len(gaps)} frames in {sum(gaps) / 1000:.1f} s: {1000 * len(gaps) / sum(gaps):.1f} a second")
    print(f"later than {LATE:g} ms: {late} ({100 * late / len(gaps):.1f}%)")
    print(f"script a frame: median {work[len(work) // 2]:.2f} ms, 95 of 100 under {work[len(work) * 95 // 100]:.2f} ms")


if __name__ == "__main__":
    main()
