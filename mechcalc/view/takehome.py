"""A page to take home: one HTML file with the picture, its JavaScript and the timeline in it.

Only this file writes pages. They need no kernel and no network, and their content policy allows neither.
"""

from __future__ import annotations

import base64
import hashlib
import html
import json
import os
import tempfile
from collections.abc import Sequence
from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc.errors import InputError
from mechcalc.parts import Parts
from mechcalc.spec import MachineSpec
from mechcalc.view.asking import record_scene
from mechcalc.view.bundle import script, styles
from mechcalc.view.solid.script import solid_script, solid_styles
from mechcalc.view.solid.setting import setting_for
from mechcalc.view.subject import subject_of

MODEL = """
const page = JSON.parse(document.getElementById("timeline").textContent);
const values = {...page, level: 1, answers: {}};
const model = {get: (name) => values[name], set: (name, value) => { values[name] = value; }, save_changes() {}, on() {},
  off() {}, send() {}};
ENTRY({model, el: document.getElementById("view")}MORE);
"""
Around = tuple[str, str, str, dict[str, Any]]
LOOK = """
html { color-scheme: light; }
body { margin: 0; padding: 8px; background: #e9e0cb; color: #251f19; font: 15px/1.4 system-ui, sans-serif; }
main { max-width: 1400px; margin: 0 auto; }
footer { margin: 8px 6px; color: #574c3a; }
@media (max-width: 500px) { body { padding: 2px; } }
"""


def take_home(what: Any, path: str | PathLike[str], *, title: str | None = None, spec: MachineSpec | None = None,
              travel: float = 0.0, large: bool = False, predict: str | Sequence[str] | None = None,
              ask: str | None = None, wait_at_carries: bool = False, parts: Parts | None = None,
              reveal: bool = True, solid: bool | str = False) -> Path:
    """Write a page that shows `what`, to be opened from disk.

    Parameters
    ----------
    what : Machine, Working, Stroke or sequence of Stroke
        As `mechcalc.view.show` takes it; of a machine, all its strokes so far.
    path : path
        The file; written in one step, so that what was there before is replaced whole or not at all.
    title : str, optional
        The page's title; the working's, or the machine's name, unless given.
    spec : MachineSpec, optional
        For bare strokes.
    travel : float
        Where the playhead begins.
    large : bool
        Large type from the start.
    predict, ask, wait_at_carries
        What is to be foretold before it is seen, as in `mechcalc.view.show`. What is foretold stays in the page.
    parts : Parts, optional
        For bare strokes that were made on a machine with faults: ``machine.parts``.
    reveal : bool
        Whether faulty parts are marked and named; with False the page does not hold which they are.
    solid : bool or str
        In three dimensions, as `mechcalc.view.show` takes it: ``True``, ``"both"`` or ``"follow"``.

    Returns
    -------
    Path
        The file written.

    Raises
    ------
    InputError
        Something that cannot be shown, or a path that cannot be written.
    """
    path = Path(path)
    scene = record_scene(subject_of(what, spec=spec, title=title, parts=parts), predict, ask, reveal=reveal)
    text = page(scene, travel=travel, large=large, waits=wait_at_carries, solid=solid)
    try:
        _replace(path, text)
    except OSError as error:
        raise InputError(f"{path}: the page cannot be written: {error.strerror}") from None
    return path


def page(scene: dict[str, Any], *, travel: float = 0.0, large: bool = False, waits: bool = False,
         solid: bool | str = False, around: Around | None = None) -> str:
    """The page's HTML. Whatever a title or a name holds is text in it, never markup.

    `around` is what runs the picture in place of the page: the name of a function ``(render, given, options)``, its
    script and styles, and the options.
    """
    told: dict[str, Any] = {"scene": scene, "travel": travel, "large": large, "waits": waits}
    if solid:
        told["solid"] = setting_for(solid)
    timeline = scene["timeline"]
    joined, entry = (solid_script(), "renderSolid") if solid else (script(), "render")
    style = LOOK + (solid_styles() if solid else styles())
    more = ""
    if around:
        name, script_around, style_around, options = around
        joined, style, more = joined + "\n" + script_around, style + style_around, f", {json.dumps(options)}"
        entry = f"((given, options) => {name}({entry}, given, options))"
    code = joined.replace("</", "<\\/") + MODEL.replace("ENTRY", entry).replace("MORE", more)
    data = json.dumps(told, separators=(",", ":"))
    data = data.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
    title = html.escape(timeline["title"] or timeline["machine"]["name"] or "A calculating machine")
    policy = (f"default-src 'none'; script-src '{_hash(code)}'; style-src '{_hash(style)}'; base-uri 'none'; "
              f"form-action 'none'")
    return f"""<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title}</title>
<style>{style}</style>
</head>
<body>
<main>
<noscript><p>This page draws its picture with JavaScript, which is switched off.</p></noscript>
<div id="view"></div>
</main>
<footer>Made with mechcalc. The page is complete in itself: it needs no network.</footer>
<script type="application/json" id="timeline">{data}</script>
<script type="module">{code}</script>
</body>
</html>
"""


def _hash(text: str) -> str:
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"


def _replace(path: Path, text: str) -> None:
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(temporary, 0o666 & ~_umask())
        os.replace(temporary, path)
    except BaseException:
        os.unlink(temporary)
        raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
