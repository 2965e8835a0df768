"""The picture of a square root: its strips have the areas that the turns took away."""

from __future__ import annotations

from itertools import pairwise

import pytest
from matplotlib.patches import Polygon
from matplotlib.text import Text

from mechcalc import InputError, Machine, load_spec
from mechcalc.methods import multiply, square_root
from mechcalc.methods.gnomons import gnomons_of
from mechcalc.view.plotting import SMALLEST
from mechcalc.view.root_plots import gnomons


def worked(number, **options):
    return square_root(Machine(load_spec("bench")), number, **options)


def area(patch) -> float:
    """A polygon's area, from its corners (the shoelace formula)."""
    corners = patch.get_xy()
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairwise(corners))) / 2


@pytest.mark.parametrize("number", [49, 529, 54756, 35721, 2])
def test_a_strip_is_as_large_as_what_was_taken_away(number) -> None:
    """And no two of them overlap: together they make up the square."""
    working = worked(number)
    strips = [patch for patch in gnomons(working).axes[0].patches
              if isinstance(patch, Polygon) and (patch.get_gid() or "").startswith("strip")]
    assert [area(patch) for patch in strips] == [strip.area for strip in gnomons_of(working)]
    assert sum(map(area, strips)) == working.answer**2


def test_every_area_is_written() -> None:
    assert {"100", "300", "41", "43", "45"} <= {text.get_text() for text in gnomons(worked(529)).axes[0].texts}


def test_of_many_thin_strips_the_first_and_the_last_are_told() -> None:
    """√35721 = 189: eight strips of width 10, nine of width 1; those of width 10 are thin as well."""
    told = [text.get_text() for text in gnomons(worked(35721)).axes[0].texts]
    assert told == ["10000", "2100", "2300", "2500", "2700", "371", "373", "375", "377"]


def test_title_and_corners() -> None:
    """The areas added up, with dots in a long row; where the strips get narrower there is a tick."""
    ax = gnomons(worked(529)).axes[0]
    assert ax.get_title(loc="left") == "23² = 100 + 300 + 41 + 43 + 45"
    assert list(ax.get_xticks()) == [0, 20, 23]
    assert "…" in gnomons(worked(35721)).axes[0].get_title(loc="left")


def test_it_can_be_read_from_the_back() -> None:
    figure = gnomons(worked(54756))
    assert min(text.get_fontsize() for text in figure.findobj(Text) if text.get_text()) >= SMALLEST
    assert figure._repr_png_()[0].startswith(b"\x89PNG")


def test_what_cannot_be_drawn() -> None:
    with pytest.raises(InputError, match="√0 has no turns to draw"):
        gnomons(worked(0))
    with pytest.raises(InputError, match="was not worked by taking odd numbers away"):
        gnomons(multiply(Machine(load_spec("bench")), 12, 11))
