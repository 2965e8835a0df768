"""A still with the names of the parts beside it, for those who see the machine for the first time.

Only this file decides which part is pointed at, and from where. The still itself is that of `still`; the names are
those of the lessons. matplotlib is loaded when a figure is made.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from mechcalc.layout import PINS
from mechcalc.view import still
from mechcalc.view.drawing import COLUMN, INK, PAPER, WINDOW, Point, _Sheet
from mechcalc.view.figures import UNITS_AN_INCH, in_notebook
from mechcalc.view.subject import timeline_of

if TYPE_CHECKING:
    from matplotlib.figure import Figure

MARGIN = 180.0  # units of the drawing that are added at the left, for names
NAMES = 190.0   # units that a name at the right takes
TYPE = 14.4     # points


def anchors(sheet: _Sheet) -> dict[str, Point]:
    """The point of each part that has a name, on the sheet of a still; pins only where the drum shows one.

    Parameters
    ----------
    sheet : _Sheet
        A still's sheet, of `mechcalc.view.drawing`.
    """
    highest = sheet.machine["settingPlaces"]
    carriage = sheet.pose["carriage"] * COLUMN
    windows = sheet.top + WINDOW + 12 + sheet.pose["lift"] * 9
    wide = max(sheet.machine["resultPlaces"], sheet.machine["counterPlaces"])
    found = {
        "setting lever": (sheet.x(highest) - 10, 61 + 6 * sheet.pose[f"setting/{highest}"]),
        "drum": (sheet.x(sheet.machine["carryReach"]) - 0.5 * COLUMN, sheet.top + 40),
        "idler": (sheet.x(sheet.machine["carryReach"]) - 13, sheet.middle),
        "number wheel": (sheet.x(1) + carriage + 17, windows + 32),
        "counter wheel": (sheet.x(1) + carriage + 17, windows + 79),
        "carriage": (sheet.x(wide) + carriage - 0.6 * COLUMN, windows + 94),
        "crank": (sheet.right + 0.5 * (sheet.width - sheet.right) + 22, sheet.top + 19),
    }
    for name, out in (("pin, out", True), ("pin, in", False)):
        seen = [(place, y) for place in range(1, highest + 1) for pin in range(1, PINS + 1)
                if (sheet.pose[f"pin/{place}/{pin}"] > 0.5) is out
                and (y := sheet._y(sheet.machine["numberPins"][pin - 1])) is not None]
        if seen:
            place, y = min(seen, key=lambda item: (item[0], item[1] if not out else -item[1]))
            found[name] = (sheet.x(place) + (10 if out else 6), y)
    return found


def named_parts(what: Any, travel: float | None = None, **options: Any) -> Figure:
    """A still with its parts named.

    Parameters
    ----------
    what : Machine, Working or strokes
        As `mechcalc.view.timeline_of` takes it, with its options.
    travel : float, optional
        Degrees since the beginning of the first stroke; the end unless given. Pins can be seen, and are named, while
        the crank is about half way through a turn.

    Returns
    -------
    matplotlib.figure.Figure
        Its numbers as text: `mechcalc.view.moment_text`.

    Examples
    --------
    >>> from mechcalc.classroom import ready
    >>> m = ready("slate", setting=352)
    >>> _ = m.turn()
    >>> words = [text.get_text() for text in named_parts(m, 171).axes[0].texts]
    >>> "idler" in words, "pin, out" in words
    (True, True)
    """
    from matplotlib.figure import Figure
    from matplotlib.patheffects import withStroke

    told = timeline_of(what, **options)
    sheet = _Sheet(told, told["length"] if travel is None else travel)
    drawing, parts = sheet.draw(), anchors(sheet)
    places = _beside(sheet, parts)
    right = max(drawing.width, places["number wheel"][0][0] + NAMES)
    figure = Figure(figsize=((MARGIN + right) / UNITS_AN_INCH, drawing.height / UNITS_AN_INCH), facecolor=PAPER)
    ax = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    still(told, sheet.travel, ax=ax)
    ax.set_xlim(-MARGIN, right)
    for name, (at, side) in places.items():
        words = ax.annotate(
            name, xy=parts[name], xytext=at, fontsize=TYPE, color=INK, weight="bold", va="center", ha=side,
            zorder=1000, family="serif", arrowprops={"arrowstyle": "-|>", "color": INK, "linewidth": 1.6, "shrinkA": 2,
                                                     "shrinkB": 0, "mutation_scale": 14})
        assert words.arrow_patch is not None
        words.arrow_patch.set_path_effects([withStroke(linewidth=4, foreground=PAPER)])  # seen on dark parts too
    return in_notebook(figure)


def _beside(sheet: _Sheet, parts: dict[str, Point]) -> dict[str, tuple[Point, str]]:
    """Where each name stands, and which of its ends that is."""
    x = sheet.right + sheet.pose["carriage"] * COLUMN + 34
    places = {name: ((12 - MARGIN, y), "left") for name, (_, y) in parts.items()}
    places |= {"number wheel": ((x, parts["number wheel"][1]), "left"),
               "counter wheel": ((x, parts["counter wheel"][1]), "left"),
               "crank": ((parts["crank"][0], sheet.top - 36), "center")}
    for name, y in (("pin, in", sheet.top + 4), ("pin, out", sheet.top + WINDOW + 6)):
        if name in parts:
            places[name] = ((sheet.right + 34, y), "left")
    return places
