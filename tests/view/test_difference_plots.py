"""The plot of a table and its differences."""

from __future__ import annotations

import pytest

from mechcalc import InputError
from mechcalc.methods.differencing import differences_of
from mechcalc.view.difference_plots import difference_plot
from mechcalc.view.plotting import SMALLEST

CUBES = [x**3 - 18 * (x == 13) for x in range(21)]


@pytest.fixture(scope="module")
def axes():
    return difference_plot(CUBES, 4, mark=13).axes


class TestDifferencePlot:
    def test_each_order_has_its_own_dots_between_or_beside_the_entries(self, axes):
        for order, ax in enumerate(axes):
            dots = ax.lines[0]
            assert tuple(dots.get_ydata()) == differences_of(CUBES, order)
            assert list(dots.get_xdata()) == [place + order / 2 for place in range(21 - order)]

    def test_the_last_order_says_its_numbers_and_the_others_do_not(self, axes):
        assert [text.get_text() for text in axes[4].texts] == ["fourth differences", "−18", "72", "−108", "72", "−18"]
        assert [len(ax.texts) for ax in axes[:4]] == [1, 1, 1, 1]

    def test_the_mark_goes_through_all_orders(self, axes):
        assert all(patch.get_x() < 13 < patch.get_x() + patch.get_width() for ax in axes for patch in ax.patches)
        assert [len(ax.patches) for ax in axes] == [1] * 5
        assert not any(ax.patches for ax in difference_plot(CUBES, 2).axes)

    def test_the_type_is_legible(self, axes):
        labels = [text for ax in axes for text in (*ax.texts, *ax.get_yticklabels())] + axes[-1].get_xticklabels()
        assert min(label.get_fontsize() for label in labels) >= SMALLEST

    def test_a_table_that_begins_elsewhere(self):
        (top, _) = difference_plot([100, 121, 144], 1, start=10, step=2).axes
        assert list(top.lines[0].get_xdata()) == [10, 12, 14]

    @pytest.mark.parametrize(("values", "orders"), [([1, 2], 2), ([1, 2, 3], 0), ([1, 2, 3], 7), ("123", 1)])
    def test_bad_input(self, values, orders):
        with pytest.raises(InputError):
            difference_plot(values, orders)
