"""The solid view's JavaScript as one script, joined with those modules of the flat view that it stands on.

Only this file joins the two rooms. A page gets this script once, however many views it shows; a widget's saved state
holds the small loader alone.
"""

from __future__ import annotations

import hashlib
from functools import cache
from pathlib import Path

from mechcalc.view.bundle import FOLDER, BundleError, join, styles

ROOM = Path(__file__).parent / "js"


def modules() -> dict[str, str]:
    """Name to source, of both rooms; a name stands in one of them only."""
    told: dict[str, str] = {}
    for path in [*sorted(FOLDER.glob("*.js")), *sorted(ROOM.glob("*.js"))]:
        if path.stem in told:
            raise BundleError(f"{path.name} stands in both rooms")
        told[path.stem] = path.read_text(encoding="utf-8")
    return told


@cache
def solid_script() -> str:
    """One script that declares ``renderSolid``."""
    return join(modules(), "solidindex")


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
