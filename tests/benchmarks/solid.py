"""How heavy the solid view is and how smoothly it moves: 99...9 + 1 on the largest catalogue machine, in the browser.

    python -m tests.benchmarks.solid [seconds]

Prints the weight of the code, the time to the first picture, triangles and draws, frames a second while the playhead
is dragged and while the carry is followed, and the script time of a frame. Headless Chromium draws in software, so the
figures are a lower bound; each frame's copy to the view's canvas is read back, or the browser would only queue work.
"""

from __future__ import annotations

import gzip
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, sync_playwright

from mechcalc import Machine, load_spec, machine_names
from mechcalc.view import take_home
from mechcalc.view.solid.script import loader, page_script
from tests.benchmarks.frames import full_width
from tests.browser.lab import browser_flags
from tests.ci_rules import find_browser, why_no_browser

SCRUB = """async (seconds) => {
    const root = document.querySelector('.mechcalc');
    const slider = root.querySelector('.scrub'), canvas = root.querySelector('.solid canvas');
    const pen = canvas.getContext('2d'), solid = root.mechcalcSolid;
    const script = [], copy = [], begun = performance.now(), first = solid.stats.frames;
    const count = Number(slider.max);
    for (let i = 0; performance.now() - begun < seconds * 1000; i += 1) {
        slider.value = String(Math.round(count * (0.5 + 0.5 * Math.sin(i / 15))));
        slider.dispatchEvent(new Event('input', {bubbles: true}));
        await new Promise((done) => requestAnimationFrame(done));
        pen.getImageData(0, 0, 1, 1);
        script.push(solid.stats.script);
        copy.push(solid.stats.copy);
    }
    const took = (performance.now() - begun) / 1000;
    return {frames: (solid.stats.frames - first) / took, script, copy, calls: Number(canvas.dataset.drawn),
        triangles: Number(canvas.dataset.triangles), width: canvas.clientWidth, height: canvas.clientHeight};
}"""
FOLLOW = """async (seconds) => {
    const root = document.querySelector('.mechcalc'), solid = root.mechcalcSolid;
    root.querySelector('[data-act=start]').click();
    root.querySelector('[data-act=follow]').click();
    root.querySelector('[data-act=play]').click();
    const begun = performance.now(), first = solid.stats.frames;
    await new Promise((done) => setTimeout(done, seconds * 1000));
    return {frames: (solid.stats.frames - first) * 1000 / (performance.now() - begun)};
}"""


def ripple() -> Machine:
    """The largest machine with nines in every wheel that its drum reaches, and 1 set."""
    spec = max((load_spec(name) for name in machine_names()), key=lambda spec: spec.result_places)
    machine = Machine(spec)
    machine.set(1)
    machine.turn(-1)
    machine.turn()
    return machine


def opened(page: Page, machine: Machine, folder: str, solid: bool | str = True) -> float:
    """A page with the machine's last turn; returns seconds to its first picture."""
    path = take_home(machine.strokes[-1:], Path(folder) / "solid.html", spec=machine.spec, solid=solid)
    begun = time.monotonic()
    page.goto(path.as_uri())
    page.locator(".solid canvas[data-drawn]").wait_for(timeout=60_000)
    page.evaluate("document.querySelector('.solid canvas').getContext('2d').getImageData(0, 0, 1, 1)")
    return time.monotonic() - begun


def measure(browser_path: str, seconds: float) -> dict[str, Any]:
    """Scrub and follow in one browser."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=browser_path, args=browser_flags())
        page = browser.new_page(viewport={"width": 1280, "height": 860})
        first = opened(page, full_width(), folder)
        scrub: dict[str, Any] = page.evaluate(SCRUB, seconds)
        opened(page, ripple(), folder)
        follow = page.evaluate(FOLLOW, seconds)
        browser.close()
    return {"first": first, "follow": follow["frames"], **scrub}


def main() -> None:
    path = find_browser()
    if path is None:
        sys.exit(why_no_browser())
    code = page_script().encode()
    print(f"code: {len(code) / 1000:.0f} kB, gzipped {len(gzip.compress(code)) / 1000:.0f} kB (budget 250), "
          f"of which a saved view holds {len(loader()) / 1000:.1f} kB")
    told = measure(path, float(sys.argv[1]) if len(sys.argv) > 1 else 6.0)
    work = sorted(told["script"])
    print(f"first picture: {told['first']:.2f} s")
    print(f"{told['triangles']:.0f} triangles (budget 150,000), {told['calls']} draws (budget 60), "
          f"at {told['width']} x {told['height']}")
    print(f"scrubbing: {told['frames']:.1f} frames a second (budget 15); following the carry: {told['follow']:.1f}")
    print(f"script a frame: median {work[len(work) // 2]:.2f} ms, 95 of 100 under {work[len(work) * 95 // 100]:.2f} ms "
          f"(budget 3); then it waits {sorted(told['copy'])[len(work) // 2]:.1f} ms for the drawing")


if __name__ == "__main__":
    main()
