"""A still picture of a machine at one travel: as a matplotlib figure, or as the text of an SVG file.

Only this file renders stills; `drawing` decides what is on them. matplotlib is loaded when a figure is made.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from mechcalc.view.drawing import PAPER, Drawing, Shape, Words, draw
from mechcalc.view.drawing_svg import drawing_svg
from mechcalc.view.figures import UNITS_AN_INCH, in_notebook
from mechcalc.view.subject import timeline_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

POINTS = 72 / UNITS_AN_INCH  # points of type to a unit of the drawing


def _drawing(what: Any, travel: float | None, options: dict[str, Any]) -> Drawing:
    told = what if isinstance(what, dict) else timeline_of(what, **options)
    return draw(told, told["length"] if travel is None else travel)


def still(what: Any, travel: float | None = None, *, ax: Axes | None = None, **options: Any) -> Figure:
    """A matplotlib figure of the machine at `travel`.

    Parameters
    ----------
    what : Machine, Working, strokes or a timeline
        As `mechcalc.view.timeline_of` takes it, with its options (``spec``, ``title``, ``last``).
    travel : float, optional
        Degrees since the beginning of the first stroke; the end unless given.
    ax : matplotlib axes, optional
        Where to draw; a new figure unless given.

    Returns
    -------
    matplotlib.figure.Figure
        Without a window of its own. What it shows in words: `mechcalc.view.moment_text`.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> m = Machine(load_spec("slate"))
    >>> _ = m.set(7); _ = m.turn()
    >>> still(m, 200.0).axes[0].get_title()
    ''
    """
    from matplotlib.figure import Figure

    drawing = _drawing(what, travel, options)
    if ax is None:
        figure = Figure(figsize=(drawing.width / UNITS_AN_INCH, drawing.height / UNITS_AN_INCH), facecolor=PAPER)
        in_notebook(figure)
        ax = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    ax.set_xlim(0, drawing.width)
    ax.set_ylim(drawing.height, 0)
    ax.set_aspect("equal")
    ax.axis("off")
    for layer, item in enumerate(drawing.items):
        if isinstance(item, Shape):
            _shape(ax, item, layer)
        else:
            _words(ax, item, layer)
    return ax.figure  # type: ignore[return-value]


def _shape(ax: Axes, item: Shape, layer: int) -> None:
    from matplotlib.patches import Polygon

    ax.add_patch(Polygon(item.points, closed=item.closed, fill=item.fill != "none", facecolor=item.fill,
                         edgecolor=item.stroke, linewidth=item.pen * POINTS, zorder=layer,
                         linestyle=(0, (5, 3)) if item.dashed else "-"))


def _words(ax: Axes, item: Words, layer: int) -> None:
    align = {"middle": "center", "start": "left", "end": "right"}[item.align]
    ax.text(*item.at, item.text, fontsize=item.size * POINTS, color=item.color, ha=align, va="center_baseline",
            family="serif", weight="bold" if item.bold else "normal", style="italic" if item.slanted else "normal",
            zorder=layer, clip_on=True)


def still_svg(what: Any, travel: float | None = None, **options: Any) -> str:
    """The same still as the text of an SVG file, made without matplotlib; the same input gives the same text.

    >>> from mechcalc import Machine, load_spec
    >>> m = Machine(load_spec("slate"))
    >>> _ = m.set(7)
    >>> still_svg(m)[:49]
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="'
    """
    from mechcalc.view.explain import moment_text

    told = what if isinstance(what, dict) else timeline_of(what, **options)
    travel = told["length"] if travel is None else travel
    return drawing_svg(draw(told, travel), moment_text(told, travel))
