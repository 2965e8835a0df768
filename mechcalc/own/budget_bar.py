"""A picture of how a drum's 360 degrees are used: every pin at its place, and what passes the end of a turn.

Only this file draws that bar. It is drawn for drums that cannot be built too, so it takes angles and not a spec. Pins
of different kinds differ in height and grey, and every part says its name and its degrees; nothing depends on colour.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from html import escape

from mechcalc.layout import PINS, exact
from mechcalc.spec_rules import MOST_PLACES
from mechcalc.view.drawing import INK, IVORY, PAPER, QUIET

WIDTH, LEFT, TOP, TALL = 720.0, 16.0, 40.0, 46.0
TURN = Fraction(360)
DARK, PALE = "#4a443c", "#a79a80"


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of the drum.

    Attributes
    ----------
    words : str
        What it is.
    begin, end : Fraction
        Degrees from the middle of the number pins: negative before it.
    pins : tuple of Fraction
        Where pins begin, each one pitch wide.
    """

    words: str
    begin: Fraction
    end: Fraction
    pins: tuple[Fraction, ...] = ()

    @property
    def degrees(self) -> Fraction:
        """How wide it is."""
        return self.end - self.begin


def parts(angles: Mapping[str, float], carry_reach: int) -> tuple[Part, ...]:
    """The stretches that pins and gaps take up, from one end to the other, around the middle of the number pins.

    Parameters
    ----------
    angles : mapping of str to float
        The five angles of a `MachineSpec`, in degrees of drum.
    carry_reach : int
        1 to 40.

    Examples
    --------
    >>> angles = {"pin_pitch": 9.0, "gap": 4.0, "helix_step": 12.0, "lever_throw": 3.0, "rest_arc": 15.0}
    >>> [(part.words, float(part.degrees), len(part.pins)) for part in parts(angles, 6)]
    [('helix', 57.0, 5), ('gap', 4.0, 0), ('number pins', 81.0, 9), ('gap', 4.0, 0), ('helix', 57.0, 5)]
    """
    pitch, gap, step = exact(angles["pin_pitch"]), exact(angles["gap"]), exact(angles["helix_step"])
    half = PINS * pitch / 2
    row = Part("number pins", -half, half, tuple(-half + pin * pitch for pin in range(PINS)))
    if carry_reach < 2:
        return (row,)
    begin = half + gap
    carries = tuple(begin + place * step for place in range(carry_reach - 1))
    after = Part("helix", begin, carries[-1] + pitch, carries)
    before = Part("helix", -after.end, -begin, tuple(-contact - pitch for contact in reversed(carries)))
    return (before, Part("gap", -begin, -half), row, Part("gap", half, begin), after)


Scale = Callable[[Fraction], float]  # degrees to a distance in the picture


def budget_bar(angles: Mapping[str, float], carry_reach: int) -> str:
    """The bar as the text of an SVG picture.

    Parameters
    ----------
    angles, carry_reach
        As for `parts`.

    Returns
    -------
    str
        With the same said in words (``aria-label``).
    """
    drum = parts(angles, min(carry_reach, MOST_PLACES))
    rest = exact(angles["rest_arc"])
    reach = max(TURN / 2, drum[-1].end + rest / 2)
    scale = (WIDTH - 2 * LEFT) / float(2 * reach)

    def x(degrees: Fraction) -> float:
        return round(WIDTH / 2 + float(degrees) * scale, 2)

    frame = f'x="{x(-TURN / 2):g}" y="{TOP:g}" width="{float(TURN) * scale:g}" height="{TALL:g}"'
    body = [f'<rect {frame} fill="{IVORY}"/>']
    body += _rest(x, rest, drum[-1].end)
    for part in drum:
        body += _pins(part, x, float(exact(angles["pin_pitch"])) * scale)
    body += [f'<rect {frame} fill="none" stroke="{INK}" stroke-width="2"/>', *_names(drum, rest, x)]
    said = escape(in_words(angles, carry_reach), quote=True)
    return (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} 132" role="img" aria-label="{said}" '
            f'style="width: 100%; max-width: {WIDTH:g}px; background: {PAPER}" font-family="Palatino, serif" '
            f'font-size="15" fill="{INK}">\n' + "\n".join(body) + "\n</svg>\n")


def _pins(part: Part, x: Scale, width: float) -> Iterator[str]:
    """Number pins stand the whole height, carry pins hang from the top: a picture in grey still tells them apart."""
    number = part.words == "number pins"
    for pin in part.pins:
        yield (f'<rect x="{x(pin):g}" y="{TOP + (4 if number else 10):g}" width="{max(width - 1, 0.6):.2f}" '
               f'height="{TALL - 8 if number else 16:g}" fill="{DARK if number else PALE}" stroke="{INK}" '
               f'stroke-width="0.6"/>')


def _rest(x: Scale, rest: Fraction, end: Fraction) -> Iterator[str]:
    """The rest arc at both ends of the turn, or beyond them where there is no room left for it."""
    inner = max(TURN / 2, end + rest / 2) - rest / 2
    for begin in (-inner - rest / 2, inner):
        left, right = x(begin), x(begin + rest / 2)
        yield (f'<rect x="{left:g}" y="{TOP:g}" width="{right - left:.2f}" height="{TALL:g}" fill="white" '
               f'stroke="{QUIET}" stroke-dasharray="3 3"/>')


def _names(drum: tuple[Part, ...], rest: Fraction, x: Scale) -> Iterator[str]:
    under = TOP + TALL + 20
    for part in drum:
        if part.words != "gap":
            yield _text(x((part.begin + part.end) / 2), TOP - 10, f"{part.words} {_degrees(part.degrees)}")
    gap = f"gap {_degrees(drum[1].degrees)} on either side" if len(drum) > 1 else "no carry pins"
    used = 2 * drum[-1].end + rest
    yield _text(x(Fraction(0)), under, f"{gap}; rest arc {_degrees(rest)}, half at either end")
    left = TURN - used
    told = f"{_degrees(left)} to spare" if left >= 0 else f"too much by {_degrees(-left)}: this drum cannot be built"
    yield _text(x(Fraction(0)), under + 20, f"one turn is 360°: {_degrees(used)} used, {told}", bold=left < 0)


def _text(x: float, y: float, words: str, bold: bool = False) -> str:
    weight = ' font-weight="bold"' if bold else ""
    return f'<text x="{x:g}" y="{y:g}" text-anchor="middle"{weight}>{escape(words)}</text>'


def _degrees(value: Fraction) -> str:
    return f"{float(value):.6g}°"


def in_words(angles: Mapping[str, float], carry_reach: int) -> str:
    """What the bar shows, in a sentence or two.

    Parameters
    ----------
    angles, carry_reach
        As for `parts`.

    Examples
    --------
    >>> in_words({"pin_pitch": 9.0, "gap": 4.0, "helix_step": 12.0, "lever_throw": 3.0, "rest_arc": 15.0}, 11)
    'Number pins 81°; two helices of 117° each, a gap of 4° before each; rest arc 15°. Together 338° of 360°: 22° to \
spare.'
    """
    drum, rest = parts(angles, carry_reach), exact(angles["rest_arc"])
    helices = (f"two helices of {_degrees(drum[-1].degrees)} each, a gap of {_degrees(drum[1].degrees)} before each; "
               if len(drum) > 1 else "no carry pins; ")
    row = next(part for part in drum if part.words == "number pins")
    used = 2 * drum[-1].end + rest
    left = f"{_degrees(TURN - used)} to spare" if used <= TURN else f"{_degrees(used - TURN)} too much"
    return (f"Number pins {_degrees(row.degrees)}; {helices}rest arc {_degrees(rest)}. Together {_degrees(used)} of "
            f"360°: {left}.")
