"""Small drawings for whoever counts: where on a machine to look.

Only this file draws them. They show the front of an invented machine, with what is asked for drawn in heavy lines and
named, so that they can be read in grey; a real machine may have its rows elsewhere.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from html import escape
from math import cos, radians, sin

from mechcalc.view.drawing import INK, IVORY, PAPER, QUIET

WIDE, TALL = 340.0, 214.0
LEVERS, WHEELS, COUNTERS = 6, 10, 6
DIGITS = (0, 0, 3, 0, 7, 2)               # on the levers, from the left
RIGHT, SLOT, WINDOW = 236.0, 24.0, 17.0   # the units' column; from lever to lever; from window to window
SOFT, HEAVY = f'stroke="{QUIET}" stroke-width="1"', f'stroke="{INK}" stroke-width="3"'


def _rect(x: float, y: float, width: float, height: float, pen: str, fill: str = IVORY) -> str:
    return f'<rect x="{x:g}" y="{y:g}" width="{width:g}" height="{height:g}" rx="2" fill="{fill}" {pen}/>'


def _line(x: float, y: float, to_x: float, to_y: float, pen: str) -> str:
    return f'<line x1="{x:g}" y1="{y:g}" x2="{to_x:g}" y2="{to_y:g}" {pen}/>'


def _words(x: float, y: float, words: str, *, size: float = 13, align: str = "middle", bold: bool = False) -> str:
    weight = ' font-weight="bold"' if bold else ""
    return f'<text x="{x:g}" y="{y:g}" font-size="{size:g}" text-anchor="{align}"{weight}>{escape(words)}</text>'


def _levers(pen: str) -> Iterator[str]:
    for place, digit in enumerate(DIGITS):
        x = RIGHT - (LEVERS - 1 - place) * SLOT
        yield _rect(x - 3, 40, 6, 54, pen)
        yield _rect(x - 8, 38 + 5 * digit, 16, 7, pen, fill=INK if pen == HEAVY else "#cdbd97")


def _row(y: float, many: int, pen: str, shows: str) -> Iterator[str]:
    """Windows from the right; `shows` ends with the units' figure."""
    for place in range(many):
        x = RIGHT + 8 - place * WINDOW
        yield _rect(x - 7, y, 14, 18, pen)
        yield _words(x, y + 14, shows.rjust(many, "0")[-1 - place])


def _front(*, levers: str = SOFT, result: str = SOFT, counter: str = SOFT, shows: tuple[str, str] = ("2", "1"),
           carriage: str = SOFT) -> Iterator[str]:
    yield _rect(70, 28, 196, 76, SOFT, fill=PAPER)
    yield from _levers(levers)
    yield _rect(64, 112, 210, 62, carriage, fill=PAPER)
    yield from _row(120, WHEELS, result, shows[0])
    yield from _row(148, COUNTERS, counter, shows[1])


def _crank(pen: str) -> Iterator[str]:
    yield f'<circle cx="300" cy="66" r="7" fill="{IVORY}" {pen}/>'
    yield _line(300, 66, 300, 100, pen)
    yield f'<circle cx="300" cy="104" r="7" fill="{IVORY}" {pen}/>'


def _bracket(left: float, right: float, y: float, words: str) -> Iterator[str]:
    yield f'<path d="M{left:g} {y:g} v6 H{right:g} v-6" fill="none" stroke="{INK}" stroke-width="2"/>'
    yield _words((left + right) / 2, y + 22, words, bold=True)


def _for_levers() -> Iterator[str]:
    yield from _front(levers=HEAVY)
    yield from _crank(SOFT)
    yield _words(RIGHT - 2.5 * SLOT, 20, f"count the slots: {LEVERS} here", bold=True)


def _for_wheels() -> Iterator[str]:
    yield from _front(result=HEAVY)
    yield from _crank(SOFT)
    yield from _bracket(RIGHT + 16 - WHEELS * WINDOW, RIGHT + 16, 180, f"the row that shows 2: {WHEELS} here")


def _for_counter() -> Iterator[str]:
    yield from _front(counter=HEAVY)
    yield from _crank(SOFT)
    yield from _bracket(RIGHT + 16 - COUNTERS * WINDOW, RIGHT + 16, 180, f"the row that shows 1: {COUNTERS} here")


def _for_carriage() -> Iterator[str]:
    for shift in (3, 2, 1):
        yield f'<rect x="{64 + 18 * shift}" y="112" width="210" height="62" fill="none" stroke="{QUIET}" ' \
              f'stroke-dasharray="4 3"/>'
    yield from _front(carriage=HEAVY)
    for number in range(1, 5):
        yield _words(274 + 18 * (number - 1), 190, str(number), bold=True)
    yield _words(200, 208, "place by place: count the stops", bold=True)


def _for_fitted() -> Iterator[str]:
    yield from _front()
    yield from _crank(SOFT)
    for place, digit in enumerate(DIGITS):
        x = RIGHT - (LEVERS - 1 - place) * SLOT
        yield _rect(x - 7, 12, 14, 18, HEAVY)
        yield _words(x, 26, str(digit))
    yield _words(92, 26, "check register", align="end", bold=True, size=12)
    yield _line(64, 128, 34, 104, HEAVY)
    yield f'<circle cx="34" cy="104" r="6" fill="{INK}"/>'
    yield from (_words(34, 78 + 14 * line, word, bold=True, size=12) for line, word in enumerate(("back", "transfer")))


def _for_reach() -> Iterator[str]:
    yield from _front(result=HEAVY, shows=("0009999999", "1"))
    yield from _crank(SOFT)
    yield from _bracket(RIGHT + 16 - 7 * WINDOW, RIGHT + 16, 180, "0 − 1: count the nines, 7 here")


def _for_angles() -> Iterator[str]:
    yield f'<circle cx="170" cy="104" r="84" fill="{IVORY}" {SOFT}/>'
    for angle in range(0, 360, 10):
        inner = 72 if angle % 30 == 0 else 78
        yield _line(*_on_disc(angle, inner), *_on_disc(angle, 84), SOFT)
        if angle % 90 == 0:
            x, y = _on_disc(angle, 60)
            yield _words(x, y + 5, f"{angle}°")
    yield _line(170, 104, *_on_disc(137, 98), HEAVY)
    yield f'<circle cx="{_on_disc(137, 98)[0]:g}" cy="{_on_disc(137, 98)[1]:g}" r="7" fill="{INK}"/>'
    yield _words(258, 196, "read here", align="start", bold=True)


def _on_disc(angle: float, radius: float) -> tuple[float, float]:
    """Nought at the top, clockwise."""
    return round(170 + radius * sin(radians(angle)), 1), round(104 - radius * cos(radians(angle)), 1)


SKETCHES: dict[str, tuple[Callable[[], Iterator[str]], str]] = {
    "levers": (_for_levers, "Front of a machine: the slots with the setting levers are drawn in heavy lines."),
    "wheels": (_for_wheels, "Front of a machine: the windows of the result register, in the carriage, show 2."),
    "counter": (_for_counter, "Front of a machine: the windows of the counter show 1."),
    "carriage": (_for_carriage, "Front of a machine: the carriage, and where it stands one, two and three places on."),
    "fitted": (_for_fitted, "Front of a machine: a check register above the levers, a back-transfer lever at the "
                            "side."),
    "reach": (_for_reach, "Front of a machine: the result register shows noughts at the left and seven nines at the "
                          "right."),
    "angles": (_for_angles, "A degree disc with nought at the top, and the crank's handle before it at about 137 "
                            "degrees."),
}


def sketch(name: str) -> str:
    """One of the drawings as the text of an SVG picture; empty for a name that is none.

    Examples
    --------
    >>> sketch("levers").startswith("<svg"), sketch("")
    (True, '')
    """
    if name not in SKETCHES:
        return ""
    draw, said = SKETCHES[name]
    return (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE:g} {TALL:g}" role="img" '
            f'aria-label="{escape(said, quote=True)}" style="width: 100%; max-width: {WIDE:g}px; background: {PAPER}" '
            f'font-family="Palatino, serif" fill="{INK}">\n' + "\n".join(draw()) + "\n</svg>\n")
