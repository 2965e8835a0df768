"""Contrasts of the drawing, which axe-core cannot judge (it leaves short SVG texts undecided).

Source: WCAG 2.2 (W3C Recommendation, 5 October 2023): text 4.5 to 1 (1.4.3), graphics 3 to 1 (1.4.11); the formula is
that of its definitions of relative luminance and contrast ratio.
"""

from __future__ import annotations

import re

import pytest

from mechcalc.view import drawing
from mechcalc.view.bundle import styles

VARIABLES = dict(re.findall(r"(--[\w-]+): (#[0-9a-f]{6})", styles()))


def luminance(color: str) -> float:
    channels = [int(color[at:at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def color(selector: str, what: str) -> str:
    """The colour that the style sheet gives a part: ``fill`` or ``stroke`` of ``.mechcalc`` and `selector`."""
    body = re.search(rf"^\.mechcalc {re.escape(selector)} \{{(.*?)\}}", styles(), re.MULTILINE | re.DOTALL)
    assert body is not None, selector
    found = re.search(rf"(?<![\w-]){what}: (#[0-9a-f]{{6}}|var\((--[\w-]+)\))", body[1])
    assert found is not None, (selector, what)
    return VARIABLES[found[2]] if found[2] else found[1]


def test_the_formula() -> None:
    """Black on white is 21 to 1; orange of the Okabe-Ito palette on white 2.25."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#e69f00", "#ffffff") == pytest.approx(2.25, abs=0.005)


@pytest.mark.parametrize(("text", "ground"), [
    (VARIABLES["--ink"], VARIABLES["--paper"]), (VARIABLES["--quiet"], VARIABLES["--paper"]),
    (VARIABLES["--ink"], VARIABLES["--ivory"]), (VARIABLES["--cream"], VARIABLES["--plate"]),
    (color(".scale-digit", "fill"), VARIABLES["--plate"]), (color(".wheel-number", "fill"), VARIABLES["--plate"]),
    (color(".degree", "fill"), color(".collar", "fill")), (VARIABLES["--no"], "#fffdf7"),
    (VARIABLES["--ink"], color(".wheel.small .wheel-body", "fill")), (VARIABLES["--ink"], VARIABLES["--act"]),
    (VARIABLES["--act"], VARIABLES["--plate"]), (VARIABLES["--no"], "#fffaf0"), (VARIABLES["--quiet"], "#fffaf0"),
])
def test_words(text: str, ground: str) -> None:
    """Every text of the drawing stands out 4.5 to 1 from what it is on."""
    assert contrast(text, ground) >= 4.5


@pytest.mark.parametrize(("line", "ground"), [
    (color(".pin-body", "stroke"), color(".lane", "fill")),
    (color(".pin.out .pin-body", "fill"), color(".lane", "fill")),
    (color(".carry-pin polygon", "stroke"), color(".surface", "fill")),
    (color(".lever-head", "stroke"), color(".surface", "fill")),
    (color(".lever.out .lever-head", "fill"), color(".surface", "fill")),
    (color(".lever-arm", "stroke"), color(".surface", "fill")),
    (color(".idler-body", "stroke"), color(".lane", "fill")),
    (color(".idler-teeth", "stroke"), color(".idler-body", "fill")),
    (color(".idler.lit .idler-body", "stroke"), color(".lane", "fill")),
    (color(".wheel.lit .wheel-rim", "stroke"), VARIABLES["--plate"]), (color(".knob", "fill"), VARIABLES["--plate"]),
    (color(".span-pin.plus", "stroke"), color(".span.plus, .mechcalc .span.minus", "fill")),
    (color(".refusing :is(path, circle, rect, line, polygon):not(.touch)", "stroke"), VARIABLES["--paper"]),
    (VARIABLES["--act"], VARIABLES["--plate"]), (color(".shutter-slats", "stroke"), color(".shutter-body", "fill")),
    (color(".shutter-body", "fill"), VARIABLES["--plate"]),
])
def test_parts(line: str, ground: str) -> None:
    """Every part that says something stands out 3 to 1 from what it is on."""
    assert contrast(line, ground) >= 3


def test_stills() -> None:
    """The stills' words and parts reach the same ratios."""
    for text in (drawing.INK, drawing.QUIET):
        assert contrast(text, drawing.PAPER) >= 4.5
    for part in (drawing.CARRY, drawing.LEVER, drawing.DRIVE):
        assert contrast(part, "#f1e7cf") >= 3
