"""How a figure comes into a notebook: as a PNG of fixed fineness, without a window and without pyplot.

Only this file knows the notebook's side of a matplotlib figure. matplotlib is loaded by whoever makes the figure.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from matplotlib.figure import Figure

UNITS_AN_INCH = 100.0  # pixels at which an inch of a figure is shown


def in_notebook(figure: Figure) -> Figure:
    """The figure itself; as the last value of a cell it is shown, twice as fine as its size in pixels.

    Parameters
    ----------
    figure : matplotlib.figure.Figure
        Made by ``Figure(...)``, not by pyplot (which would show it a second time).

    Examples
    --------
    >>> from matplotlib.figure import Figure
    >>> png, size = in_notebook(Figure(figsize=(2.0, 1.5)))._repr_png_()
    >>> png[1:4], size
    (b'PNG', {'width': 200, 'height': 150})
    """
    figure._repr_png_ = lambda: png(figure)  # type: ignore[attr-defined]
    return figure


def png(figure: Figure) -> tuple[bytes, dict[str, int]]:
    """The bytes of the picture, and the width and height in pixels at which it is to be shown.

    Its colours are put on a palette of 256, which the eye does not notice and which makes a lesson's file a third of
    the size.
    """
    from io import BytesIO

    from PIL import Image

    file, smaller = BytesIO(), BytesIO()
    figure.savefig(file, format="png", dpi=2 * UNITS_AN_INCH, metadata={"Software": None})
    picture = Image.open(file).convert("RGB").quantize(256, dither=Image.Dither.NONE)
    picture.save(smaller, format="PNG", optimize=True)
    width, height = figure.get_size_inches() * UNITS_AN_INCH
    return smaller.getvalue(), {"width": round(width), "height": round(height)}
