"""Finished tables checked by their differences."""

from __future__ import annotations

import numpy
import pytest
import sympy
from hypothesis import given, strategies as st

from mechcalc import InputError, methods
from mechcalc.methods.differencing import (
    TableSlip,
    difference_table,
    differences_of,
    order_name,
    slip_pattern,
    slips_of,
)

from .helpers import machine

numbers = st.lists(st.integers(-10**12, 10**12), min_size=6, max_size=30)
X = sympy.Symbol("x")


def table_of(first, entries):
    """Entries from first differences, by Newton's forward formula with sympy's binomials."""
    return [sum(d * int(sympy.binomial(n, k)) for k, d in enumerate(first)) for n in range(entries)]


class TestDifferences:
    @given(numbers, st.integers(0, 5))
    def test_they_are_what_numpy_says(self, values, order):
        assert differences_of(values, order) == tuple(numpy.diff(numpy.array(values, dtype=object), order).tolist())

    def test_of_a_degree_and_one_more(self):
        """x⁴ - 7x: the fourth differences are 4! = 24, the fifth nought."""
        values = [x**4 - 7 * x for x in range(-3, 12)]
        assert set(differences_of(values, 4)) == {24}
        assert set(differences_of(values, 5)) == {0}

    @given(st.lists(st.integers(-99, 99), min_size=1, max_size=5), st.integers(6, 20))
    def test_they_begin_as_the_table_was_begun(self, first, entries):
        values = table_of(first, entries)
        assert tuple(differences_of(values, order)[0] for order in range(len(first))) == tuple(first)

    @pytest.mark.parametrize(("values", "order", "message"), [
        ([1, 2], 2, "differences of order 2 take 3 entries or more: there are 2"),
        ([1], 1, "differences of order 1 take 2 entries or more: there is 1"),
        ([1, 2.0], 1, "entry 2 must be a whole number, not 2.0"),
        ("149", 1, "a table is checked by its entries, in a list, not '149'"),
        ({1: 1}, 0, "a table is checked by its entries"), (None, 0, "a table is checked by its entries"),
        ([0] * 2001, 1, "a table has at most 2000 entries here, not 2001"),
        ([1, 2, 3], -1, "an order of differences cannot be -1")])
    def test_bad_input(self, values, order, message):
        with pytest.raises(InputError, match=message):
            differences_of(values, order)

    def test_names(self):
        assert [order_name(order) for order in (1, 6, 7)] == ["first", "sixth", "7th"]


class TestTable:
    def test_even_orders_stand_beside_the_middle_entry(self):
        """Worked by hand: 1, 8, 27, 64 (x = 1 to 4): 7, 19, 37; 12, 18; 6."""
        table = difference_table([1, 8, 27, 64], 3, start=1)
        assert table.rows == ((1, 1, "", "", ""), (2, 8, 7, 12, ""), (3, 27, 19, 18, 6), (4, 64, 37, "", ""))

    @given(numbers, st.integers(1, 5))
    def test_every_difference_is_on_it_once(self, values, orders):
        table = difference_table(values, orders, start=-3, step=2)
        for order in range(1, orders + 1):
            assert table.column(order_name(order)) == differences_of(values, order)
        assert table.column("x") == tuple(range(-3, -3 + 2 * len(values), 2))


class TestPattern:
    @pytest.mark.parametrize("order", range(7))
    def test_it_is_the_power_of_step_less_one(self, order):
        """With E for one line further on, a difference is E - 1; its power by sympy."""
        step = sympy.Symbol("E")
        assert slip_pattern(order) == tuple(sympy.Poly((step - 1)**order, step).all_coeffs())


class TestSlips:
    @given(st.lists(st.integers(-99, 99), min_size=1, max_size=4), st.integers(0, 11),
           st.integers(-10**6, 10**6).filter(bool))
    def test_one_wrong_entry_is_among_what_is_found(self, first, place, error):
        values = table_of(first, 12)
        values[place] += error
        found = slips_of(values, len(first) - 1, start=5, step=3)
        meant = TableSlip(5 + 3 * place, 0, error, values[place], values[place] - error)
        assert meant in found
        if 2 <= place <= 8 and len(first) > 1:
            assert found == (meant,)

    @given(st.lists(st.integers(-99, 99), min_size=2, max_size=4), st.integers(1, 11), st.integers(1, 3),
           st.integers(-999, 999).filter(bool))
    def test_a_wrong_difference_turned_in_once_is_among_what_is_found(self, first, place, order, error):
        """Column by column, as the table is worked: one entry of the column of differences is wrong when it is used."""
        degree = len(first) - 1
        order = min(order, degree)
        place = max(place, order)
        columns = [list(differences_of(table_of(first, 12), k)) for k in range(order + 1)]
        columns[order][place - order] += error
        for k in range(order - 1, -1, -1):
            for at in range(1, len(columns[k])):
                columns[k][at] = columns[k][at - 1] + columns[k + 1][at - 1]
        found = slips_of(columns[0], degree)
        assert TableSlip(place, order, error, columns[0][place], columns[0][place] - error) in found

    @given(st.lists(st.integers(-99, 99), min_size=1, max_size=5), st.integers(7, 20))
    def test_a_right_table_has_none(self, first, entries):
        assert slips_of(table_of(first, entries), len(first) - 1) == ()

    def test_on_the_machine_a_number_set_wrongly_once(self):
        """Squares on slate; the seventh odd number, 13, is set as 15. Every square from 7² on is out by 2."""
        worked = machine("slate")
        noted = [0]
        for odd in (1, 3, 5, 7, 9, 11, 15, 15, 17, 19):
            worked.set(odd)
            worked.turn()
            noted.append(worked.result)
        (slip,) = slips_of(noted, 2)
        assert slip == TableSlip(x=7, order=1, error=2, found=51, right=49)
        assert noted[-1] - 10**2 == 2

    def test_two_slips_are_not_explained_by_one(self):
        values = [x**3 for x in range(20)]
        values[6] += 10
        values[9] -= 3
        assert slips_of(values, 3) == ()

    def test_at_the_end_several_explanations_remain(self):
        values = [x**3 for x in range(10)]
        values[-1] += 10
        assert {slip.order for slip in slips_of(values, 3)} == {0, 1, 2, 3}
        assert {slip.x for slip in slips_of(values, 3)} == {9}

    def test_in_words(self):
        assert str(TableSlip(13, 0, -18, 2179, 2197)) == (
            "At x = 13: 2179 stands for 2197. This entry alone was written wrongly, 18 too small.")
        assert str(TableSlip(-2, 2, 5, -1, -6)) == (
            "From x = −2: −1 stands for −6. One second difference was turned in 5 too large; each later entry is out, "
            "by more and more.")

    def test_too_few_entries_to_see_anything(self):
        with pytest.raises(InputError, match="differences of order 4 take 5 entries or more: there are 4"):
            slips_of([0, 1, 8, 27], 3)

    def test_a_table_worked_on_the_machine_passes(self):
        table = methods.tabulate(machine(), X**3 - X, 15)
        assert slips_of(table.column("f"), 3) == ()
