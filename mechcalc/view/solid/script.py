"""The solid view's JavaScript as one script, with those modules of the flat view that it stands on.

Only this file joins the two rooms. Each keeps its own scope, so that neither need know the other's names; what the
solid view imports from the flat one is handed across. A page gets this script once, however many views it shows; a
widget's saved state holds the small loader alone.
"""

from __future__ import annotations

import hashlib
import re
from functools import cache
from pathlib import Path

from mechcalc.view.bundle import FOLDER, join, styles

ROOM = Path(__file__).parent / "js"
ACROSS = re.compile(r'^import \{([\w, ]+)\} from "\.\./\.\./js/(\w+)\.js";$', re.MULTILINE)


def sources(folder: Path) -> dict[str, str]:
    """The modules of a room: name to source."""
    return {path.stem: path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.js"))}


def joined(flat: dict[str, str], solid: dict[str, str], entry: str) -> str:
    """One script of two rooms; what `solid` imports from ``"../../js/x.js"`` comes from the modules of `flat`.

    Raises
    ------
    BundleError
        As `mechcalc.view.bundle.join` does, for either room.

    Examples
    --------
    >>> print(joined({"a": "const own = 1;\\nexport const two = own + 1;"},
    ...              {"top": 'import {two} from "../../js/a.js";\\nconst own = two * 2;'}, "top"))
    const {two} = (() => {
    const own = 1;
    const two = own + 1;
    return {two};
    })();
    const own = two * 2;
    """
    wanted = sorted({(name.strip(), module) for source in solid.values() for names, module in ACROSS.findall(source)
                     for name in names.split(",")})
    names = ", ".join(name for name, _ in wanted)
    handed = "\n".join(f'import {{{name}}} from "./{module}.js";' for name, module in wanted)
    below = join({**flat, "handed": handed}, "handed").strip()
    # A module that declares the names stands for the other room while this one is joined, so that a clash is noticed.
    stand_in = "\n".join(f"export const {name} = null;" for name, _ in wanted)
    above = join({**{name: ACROSS.sub(r'import {\1} from "./handed.js";', source) for name, source in solid.items()},
                  "handed": stand_in}, entry)
    room = f"const {{{names}}} = (() => {{\n{below}\nreturn {{{names}}};\n}})();"
    return above.replace(stand_in.replace("export ", ""), room)


@cache
def solid_script() -> str:
    """One script that declares ``renderSolid``."""
    return joined(sources(FOLDER), sources(ROOM), "solidindex")


def page_script() -> str:
    """The same as the module that the loader takes in."""
    return f"{solid_script()}\nexport {{renderSolid}};\n"


@cache
def solid_styles() -> str:
    """The flat view's style sheet, and what the solid view adds to it."""
    return styles() + (ROOM / "solid.css").read_text(encoding="utf-8")


@cache
def version() -> str:
    """A fingerprint of code and looks: a page that holds an older one fetches anew."""
    return hashlib.sha256((solid_script() + solid_styles()).encode()).hexdigest()[:12]


def loader() -> str:
    """The module that a widget's state holds: it asks Python for the code once a page, and hands over to it."""
    source = (ROOM / "loader.mjs").read_text(encoding="utf-8")
    return source.replace('"VERSION"', f'"{version()}"')
