"""Plots of divisions: what stands on them is what the machine did, and it can be read from the back of a room."""

from __future__ import annotations

from itertools import combinations

import pytest
from matplotlib.text import Text

from mechcalc import InputError, Machine, load_spec
from mechcalc.methods import compare, divide, multiply, ways_of_dividing
from mechcalc.view.division_plots import remainder_paths, turns_for_each_figure
from mechcalc.view.plotting import SMALLEST, plotted


def worked(method):
    return divide(Machine(load_spec("slate")), 2165, 37, method=method)


def words(figure):
    return [text for text in figure.findobj(Text) if text.get_text()]


class TestRemainderPaths:
    """The remainder after each turn stands beside its dot."""

    def test_every_remainder_is_written(self) -> None:
        figure = remainder_paths(worked("restoring"), worked("without putting back"))
        numbers = [[text.get_text() for text in ax.texts if text.get_text().lstrip("−").isdigit()]
                   for ax in figure.axes]
        assert numbers[1] == ["2165", "1795", "1425", "1055", "685", "315", "−55", "−18", "19"]
        assert numbers[0] == ["2165", "1795", "1425", "1055", "685", "315", "−55", "315", "278", "241", "204", "167",
                              "130", "93", "56", "19", "−18", "19"]
        assert [ax.get_title(loc="left") for ax in figure.axes] == ["2165 ÷ 37: 17 turns", "2165 ÷ 37: 8 turns"]

    def test_a_dot_stands_at_what_is_left_in_turns(self) -> None:
        """-55 is 55/370 of a turn below nought at position 1; at position 0 the path goes on at 55/37 below it."""
        (ax,) = remainder_paths(worked("without putting back")).axes
        dots = {line.get_xdata()[0]: line.get_ydata()[0] for line in ax.lines
                if line.get_marker() == "o" and len(line.get_xdata()) == 1}
        assert dots[6] == pytest.approx(-55 / 370)
        assert dots[7] == pytest.approx(-18 / 37)
        (shift,) = [line for line in ax.lines if line.get_linestyle() == ":"]
        assert list(shift.get_ydata()) == pytest.approx([-55 / 370, -55 / 37])

    @pytest.mark.parametrize("sum_", [(5000, 16), (2165, 37), (8199, 55), (4321, 7)])
    @pytest.mark.parametrize("method", ["restoring", "without putting back", "compare first"])
    def test_no_two_numbers_run_into_each_other(self, sum_, method) -> None:
        """Nor two names of positions: their boxes may lie over one another by what is empty in them, 0.43 of the type's
        size: a line's box is 1.16 of it, a digit 0.73 (measured on the typeface that matplotlib brings)."""
        figure = remainder_paths(divide(Machine(load_spec("slate")), *sum_, method=method))
        figure.draw_without_rendering()
        room = 0.43 * SMALLEST * figure.dpi / 72
        boxes = [(text.get_text(), text.get_window_extent()) for text in figure.axes[0].texts if text.get_text()]
        assert len(boxes) > 8
        assert [(one, other) for (one, here), (other, there) in combinations(boxes, 2) if here.overlaps(there)
                and min(here.y1, there.y1) - max(here.y0, there.y0) > room] == []

    def test_own_titles(self) -> None:
        figure = remainder_paths(worked("restoring"), titles=["as usual"])
        assert figure.axes[0].get_title(loc="left") == "as usual"

    def test_what_cannot_be_drawn(self) -> None:
        with pytest.raises(InputError, match="of at least one division"):
            remainder_paths()
        with pytest.raises(InputError, match="with a title for each or for none"):
            remainder_paths(worked("restoring"), titles=[])
        with pytest.raises(InputError, match="12 × 11 was not worked by taking one divisor away"):
            remainder_paths(multiply(Machine(load_spec("slate")), 12, 11))


class TestTurnsForEachFigure:
    """q + 2, q + 1 and 10 - q in turn, q."""

    def test_lines(self) -> None:
        (ax,) = turns_for_each_figure().axes
        turns = {line.get_label(): list(line.get_ydata()) for line in ax.lines}
        assert turns == {"1st, 3rd, … without putting back: 5.5": list(range(1, 11)),
                         "2nd, 4th, … without putting back: 5.5": list(range(10, 0, -1)),
                         "restoring: 6.5": list(range(2, 12)), "compare first: 4.5": list(range(10))}


@pytest.mark.parametrize("figure", [
    lambda: remainder_paths(worked("restoring"), worked("without putting back")), turns_for_each_figure,
    lambda: plotted(compare("slate", ways_of_dividing(2165, 37)).plot)])
def test_nothing_is_smaller_than_can_be_read_from_the_back(figure) -> None:
    """14 points in a figure of about 10 inches; and a notebook gets a PNG."""
    drawn = figure()
    assert min(text.get_fontsize() for text in words(drawn)) >= SMALLEST == 14
    data, size = drawn._repr_png_()
    assert data.startswith(b"\x89PNG")
    assert size["width"] == round(100 * drawn.get_size_inches()[0])
