"""The picture of how a cost grows with the size of a calculation."""

from __future__ import annotations

import pytest

from mechcalc import InputError, methods
from mechcalc.view.cost_curves import cost_curves, cost_series
from mechcalc.view.plotting import SMALLEST

FACTORIALS = {n: methods.compare("bench", methods.ways_of_chaining(*range(2, n + 1))[::2]) for n in (3, 5, 8)}


class TestSeries:
    def test_levers_of_a_factorial_by_hand_counted_on_paper(self):
        """2, 6, 24, 120, 720, 5040 are set, each over the one before: 1, 1, 2, 2, 1 and 3 levers move."""
        series = cost_series(FACTORIALS, "levers")
        assert series["back transfer"] == {3: 1, 5: 1, 8: 1}
        assert series["by hand"] == {3: 1, 5: 1 + 1 + 2, 8: 1 + 1 + 2 + 2 + 1 + 3}

    def test_the_total_is_the_weighted_one(self):
        comparison = FACTORIALS[5]
        assert cost_series(FACTORIALS)["by hand"][5] == comparison.total(comparison.trials[1])

    def test_a_way_that_is_refused_has_no_point(self):
        both = {3: methods.compare("plain", methods.ways_of_chaining(2, 3)),
                4: methods.compare("plain", methods.ways_of_chaining(2, 3, 4))}
        assert sorted(cost_series(both, "turns")["by hand"]) == [3, 4]
        assert sorted(cost_series(both, "turns")["back transfer"]) == [3], "with two factors nothing goes back"

    @pytest.mark.parametrize(("comparisons", "kind", "message"), [
        (FACTORIALS, "money", "what is counted is 'turns', "), (FACTORIALS, None, "what is counted is "),
        ({}, "turns", "there is nothing to draw")])
    def test_bad_input(self, comparisons, kind, message):
        with pytest.raises(InputError, match=message):
            cost_series(comparisons, kind)


class TestPicture:
    def test_each_line_holds_its_counts_and_says_its_name_in_legible_type(self):
        (ax,) = cost_curves(FACTORIALS, "levers", of="n").axes
        series = cost_series(FACTORIALS, "levers")
        assert {line.get_label(): dict(zip(line.get_xdata(), line.get_ydata(), strict=True))
                for line in ax.lines} == series
        assert {text.get_text().strip() for text in ax.texts} == set(series)
        labels = [*ax.texts, ax.xaxis.label, ax.yaxis.label, *ax.get_xticklabels()]
        assert min(label.get_fontsize() for label in labels) >= SMALLEST

    def test_lines_differ_without_colour(self):
        looks = {(line.get_marker(), line.get_linestyle()) for line in cost_curves(FACTORIALS).axes[0].lines}
        assert len(looks) == 2

    def test_it_shows_itself_in_a_notebook(self):
        png, size = cost_curves(FACTORIALS)._repr_png_()
        assert png.startswith(b"\x89PNG")
        assert size["width"] == 840
