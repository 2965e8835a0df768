"""Registers cut into fields, and a scatter plot with its line: numbers first, then what the plots are made of."""

from __future__ import annotations

import pytest
from hypothesis import given, settings, strategies as st

from mechcalc import InputError, methods
from mechcalc.classroom import ready
from mechcalc.view.fields import field_rows, fields_chart, fields_text
from mechcalc.view.scatter import distances, scatter, values_of

PAIRS = ((3, 13), (5, 17), (8, 17))


def worked(gap, pairs=PAIRS):
    return methods.sum_of_products(ready("ledger"), *((x * 10**gap + y, x) for x, y in pairs))


class TestFieldRows:
    """The rows of a register"""

    @given(st.lists(st.tuples(st.integers(1, 40), st.integers(0, 99)), min_size=1, max_size=5), st.integers(2, 6))
    @settings(max_examples=25)
    def test_say_what_was_set_and_what_ought_to_stand_there(self, pairs, gap):
        """Oracle: Python's sums. A setting that comes twice running is one row, turned as often as both together."""
        rows = field_rows(worked(gap, pairs), gap)
        assert sum(row.multiplier for row in rows) == sum(x for x, _ in pairs)
        xx, xy = sum(x * x for x, _ in pairs), sum(x * y for x, y in pairs)
        assert rows[-1].meant == (xx, xy)
        assert rows[-1].result == xx * 10**gap + xy
        assert rows[-1].kept == (xy < 10**gap)

    def test_a_shift_in_between_does_not_part_a_setting(self):
        rows = field_rows(worked(4, [(12, 30)]), 4)
        assert [(row.upper, row.lower, row.multiplier, row.read) for row in rows] == [(12, 30, 12, (144, 360))]

    @pytest.mark.parametrize("gap", [0, -1, 21, 2.5, None])
    def test_a_gap_is_a_number_of_places(self, gap):
        with pytest.raises(InputError, match="places between the fields"):
            field_rows(worked(2), gap)

    def test_as_text(self):
        assert fields_text(worked(2), 2) == (
            "(3 | 13) × 3   reads   9 | 39\n"
            "(5 | 17) × 5   reads  35 | 24   but ought to read 34 | 124\n"
            "(8 | 17) × 8   reads 100 | 60   but ought to read 98 | 260")

    def test_nothing_turned_in(self):
        with pytest.raises(InputError, match="no rows to show"):
            fields_text(methods.sum_of_products(ready("bench"), (5, 0)), 2)


class TestFieldsChart:
    """The picture of the fields"""

    def test_shows_every_digit_and_the_border(self):
        axes = fields_chart({2: worked(2), 4: worked(4)}, ("Σx²", "Σxy")).axes
        for one, gap, digits in zip(axes, (2, 4), ("0093903524" + "10060", "0900390340124" + "0980260"), strict=True):
            shown = "".join(text.get_text() for text in one.texts if len(text.get_text()) == 1)
            assert shown.replace("✗", "").endswith(digits[-5:])
            assert one.get_title() == f"{gap} places apart"
            assert one.get_lines()[0].get_xdata()[0] == len(one.patches) / 3 - gap
        assert [text.get_text() for text in axes[0].texts if "✗" in text.get_text()] == ["✗ 34 | 124", "✗ 98 | 260"]
        assert not [text for text in axes[1].texts if "✗" in text.get_text()]

    def test_of_nothing(self):
        with pytest.raises(InputError, match="no register to draw"):
            fields_chart({}, ("a", "b"))


class TestScatter:
    """The scatter plot"""

    @given(st.lists(st.tuples(st.integers(0, 30), st.integers(0, 30)), min_size=2, max_size=5))
    @settings(max_examples=20)
    def test_distances_from_the_line_cancel_out(self, pairs):
        """So does their product with x: the two equations that a least-squares line is made of."""
        xs, ys = zip(*pairs, strict=True)
        sums = methods.sums_of_two(ready("ledger"), xs, ys)
        if len(set(xs)) > 1:
            far = distances(sums)
            assert sum(far) == 0
            assert sum(one * x for one, x in zip(far, xs, strict=True)) == 0

    def test_shows_the_points_as_they_were_measured(self):
        sums = methods.sums_of_two(ready("ledger"), ["-1.5", "2.5", "4"], [10, 8, 3], offsets=("smallest", 3))
        axes = scatter(sums, "x in mm", "y in N").axes[0]
        points, line, mean = axes.get_lines()
        assert list(points.get_xdata()) == [-1.5, 2.5, 4.0] == [float(value) for value in values_of(sums.x)]
        assert list(points.get_ydata()) == [10.0, 8.0, 3.0]
        assert list(mean.get_xdata()) == [pytest.approx(5 / 3)]
        assert line.get_label().startswith("y = 8.")
        assert (axes.get_xlabel(), axes.get_ylabel()) == ("x in mm", "y in N")

    def test_a_falling_line_has_a_minus(self):
        sums = methods.sums_of_two(ready("ledger"), [1, 2, 3], [9, 5, 1])
        assert scatter(sums).axes[0].get_lines()[1].get_label() == "y = 13.000 − 4.000 x"

    def test_points_above_one_another_have_no_line(self):
        with pytest.raises(InputError, match="all x are alike"):
            scatter(methods.sums_of_two(ready("ledger"), [2, 2], [1, 3]))


def test_the_type_is_large_enough_for_a_classroom():
    sums = methods.sums_of_two(ready("ledger"), [1, 2, 3], [9, 5, 1])
    for figure in (fields_chart({2: worked(2)}, ("Σx²", "Σxy")), scatter(sums)):
        axes = figure.axes[0]
        texts = [*axes.texts, axes.title, *((axes.xaxis.label, *axes.get_xticklabels()) if axes.axison else ())]
        assert min(text.get_fontsize() for text in texts if text.get_text()) >= 14
