"""Sums side by side, and the mean, deviation and line that come of them."""

from __future__ import annotations

import statistics
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings, strategies as st
from mechanism.machines import specs

from mechcalc import CapacityError, Machine, MachineSpec, methods
from mechcalc.methods.paper import coded, root, rounded

from .helpers import check_lines, machine, refused, trouble
from .outside import columns

FINE = {"pin_pitch": 4.0, "gap": 0.5, "helix_step": 4.5, "lever_throw": 0.5, "rest_arc": 12.0}
WIDE = MachineSpec(setting_places=14, result_places=30, counter_places=16, carry_reach=30, positions=14, **FINE)
NUMACC4 = ["10000000.2", *["10000000.1", "10000000.3"] * 500]
values = st.lists(st.integers(0, 120), min_size=1, max_size=6)


class TestSumOfProducts:
    def test_the_multipliers_add_up_in_the_counter(self):
        worked = machine()
        working = methods.sum_of_products(worked, (12, 34), (56, 78))
        assert (working.answer, worked.counter, working.title) == (4776, 112, "12 × 34 + 56 × 78")
        check_lines(working)

    def test_the_carriage_goes_up_with_one_number_and_down_with_the_next(self):
        working = methods.sum_of_products(machine(), (3, 111), (3, 111), (3, 111))
        places = [stroke.before.carriage for stroke in working.strokes if stroke.operation == "crank"]
        assert places == [0, 1, 2, 2, 1, 0, 0, 1, 2]
        assert (working.shifts, working.settings) == (6, 1)

    def test_a_product_below_nought_is_taken_away(self):
        worked = machine()
        working = methods.sum_of_products(worked, (12, 3), (-50, 2), (7, -1))
        assert (working.title, working.answer) == ("12 × 3 − 50 × 2 − 7 × 1", -71)
        assert worked.result == 10**11 - 71  # the bench's carries reach 11 wheels
        check_lines(working)

    def test_refusals(self):
        worked = machine("slate")
        no = refused(worked, lambda: methods.sum_of_products(worked, (999, 999), (99, 99)))
        assert str(no) == ("999 × 999 + 99 × 99 does not fit this machine: the result is short by 1 place (1007802 "
                           "takes 7 number wheels of 6)")
        assert "give at least one pair" in trouble(worked, lambda: methods.sum_of_products(worked))
        assert trouble(worked, lambda: methods.sum_of_products(worked, 12)) == (
            "a pair is (multiplicand, multiplier), not 12")
        assert trouble(worked, lambda: methods.sum_of_products(worked, (1.5, 2))) == (
            "a multiplicand must be a whole number, not 1.5 (float)")

    @given(specs(), st.lists(st.tuples(st.integers(-300, 300), st.integers(-40, 40)), min_size=1, max_size=4),
           st.booleans())
    def test_on_any_machine_it_is_right_or_it_is_refused(self, spec, pairs, short_cut):
        worked = Machine(spec)
        try:
            working = methods.sum_of_products(worked, *pairs, short_cut=short_cut)
        except CapacityError:
            assert worked.strokes == ()
            return
        assert working.answer == sum(a * b for a, b in pairs)
        check_lines(working, by_sympy=False)

    @given(st.lists(st.tuples(st.integers(-999, 999), st.integers(-99, 99)), min_size=1, max_size=4), st.booleans())
    def test_where_there_is_room_and_all_wheels_carry_nothing_is_refused(self, pairs, short_cut):
        working = methods.sum_of_products(Machine(WIDE), *pairs, short_cut=short_cut)
        assert working.answer == sum(a * b for a, b in pairs)


class TestOneVariable:
    def test_x_in_the_counter(self):
        worked = machine()
        sums = methods.sums_of_one(worked, [3, 5, 8])
        assert (worked.result, worked.counter, sums.way) == (98, 16, "in the counter")

    def test_a_counter_that_does_not_carry_cannot_add_up_so_a_one_goes_beside_x(self):
        worked = machine("plain")
        sums = methods.sums_of_one(worked, [13, 5, 8])
        assert (sums.way, worked.result) == ("side by side", 26_258)
        assert (sums.sum_x, sums.sum_xx) == (26, 258)
        lines = [(line.words, line.algebra) for line in sums.working.lines if "upper" in line.words]
        assert lines[0] == ("Set 1 at the upper and 13 at the lower end of the levers, 3 places apart.",
                            "1 × 10³ + 13 = 1013")
        check_lines(sums.working)
        no = refused(worked, lambda: methods.sums_of_one(worked, [13, 5, 8], way="in the counter"))
        assert str(no) == ("Σx, Σx² of 3 numbers does not fit this machine: the counter does not carry, so it cannot "
                           "add up Σx")
        assert no.register == "counter"

    def test_apart_where_neither_fits(self):
        worked = Machine(MachineSpec(setting_places=3, result_places=6, counter_places=3, carry_reach=6,
                                     counter_carry=False))
        sums = methods.sums_of_one(worked, [213, 105])
        assert (sums.way, sums.sum_x, sums.sum_xx) == ("apart", 318, 213**2 + 105**2)
        check_lines(sums.working)

    @given(st.builds(replace, specs(), back_transfer=st.booleans()), values)
    @settings(max_examples=40)
    def test_on_any_machine_the_sums_are_right_or_refused(self, spec, xs):
        worked = Machine(spec)
        try:
            sums = methods.sums_of_one(worked, xs)
        except CapacityError:
            assert worked.strokes == ()
            return
        assert (sums.sum_x, sums.sum_xx) == (sum(xs), sum(x * x for x in xs))
        assert sums.mean == statistics.mean(map(Fraction, xs))
        if len(xs) > 1:
            assert sums.variance == statistics.variance(map(Fraction, xs))
            assert abs(sums.deviation(12) - Decimal(statistics.stdev(xs))) < Decimal("1e-9")
        check_lines(sums.working, by_sympy=False)

    @given(st.lists(st.integers(-120, 120), min_size=2, max_size=6))
    @settings(max_examples=30)
    def test_numbers_below_nought_with_the_smallest_taken_off(self, xs):
        """Oracle: statistics on fractions. The levers saw nothing below nought, and 0 for the smallest."""
        sums = methods.sums_of_one(Machine(WIDE), xs, offset="smallest")
        assert min(sums.x.on) == 0
        assert sums.x.offset == min(xs)
        assert sums.mean == statistics.mean(map(Fraction, xs))
        assert sums.variance == statistics.variance(map(Fraction, xs))

    def test_an_offset_below_nought_is_said_as_what_is_added(self):
        sums = methods.sums_of_one(machine(), ["-1.5", "2", "-4"], offset="smallest")
        assert str(sums).splitlines()[0] == "on paper        x + 4, times 10^1 for every x"
        assert "the offset of x" in trouble(machine(), lambda: methods.sums_of_one(machine(), [1], offset="least"))

    def test_steps_say_what_was_done_where(self):
        sums = methods.sums_of_one(machine(), ["101.2", "101.1", "101.3"], offset=100)
        assert str(sums) == """\
on paper        x − 100, times 10^1 for every x
on the machine  Σx = 36
on the machine  Σx² = 434
on paper        mean = 506/5 = 101.2000000000
on paper        variance = (3 × 434 − 36²) / (3 × 2) / 10^2 = 0.0100000000
on paper        standard deviation = 0.1000000000"""
        assert '<th scope="col">where</th>' in sums._repr_html_()

    def test_deviation_by_the_machine_alone(self):
        """Sum of products, division, root: sqrt(14/6) = 1.5275..."""
        worked = machine()
        sums = methods.sums_of_one(worked, [12, 11, 14])
        spread, variance, deviation = methods.deviation_on_machine(worked, sums, 3)
        assert (spread.answer, variance.answer, deviation.answer) == (14, 2_333_333, 1527)
        assert methods.mean_on_machine(worked, sums, 3).answer == 12_333

    def test_bad_input(self):
        worked = machine()
        assert trouble(worked, lambda: methods.sums_of_one(worked, [])) == "there are no values of x"
        assert trouble(worked, lambda: methods.sums_of_one(worked, "123")) == (
            "the values of x are a list of numbers, not '123'")
        assert trouble(worked, lambda: methods.sums_of_one(worked, [1, "two"])) == (
            "value 2 of x must be a number such as '3.47', not 'two'")
        assert trouble(worked, lambda: methods.sums_of_one(worked, [1, 0.5])) == (
            "value 2 of x must be a Decimal, a whole number or a text, not 0.5 (float): write '0.5'")
        assert trouble(worked, lambda: methods.sums_of_one(worked, [5, 3], offset=4)) == (
            "value 2 of x, 3, is below the offset 4: the levers take no number below nought; an offset of at most 3 "
            "serves, or \"smallest\"")
        assert "the way is 'in the counter', 'side by side', 'apart'" in trouble(
            worked, lambda: methods.sums_of_one(worked, [1], way="x"))
        with pytest.raises(ValueError, match="one value has no spread"):
            _ = methods.sums_of_one(worked, [1]).variance


class TestTwoVariables:
    def test_all_five_sums_in_one_pass(self):
        worked = machine("ledger")
        sums = methods.sums_of_two(worked, [1, 2, 3, 4], [12, 14, 17, 19])
        assert sums.way == "one pass"
        assert worked.result == 30 * 10**6 + 2 * 167 * 10**3 + 990
        assert worked.counter == 10 * 10**3 + 62
        check_lines(sums.working)

    def test_in_two_passes_the_mixed_sum_comes_up_twice(self):
        worked = machine("ledger")
        sums = methods.sums_of_two(worked, [1, 2, 3, 4], [12, 14, 17, 19], way="two passes")
        assert worked.result == 167_990
        assert worked.counter == 62
        assert "Σx² = 30" in sums.working.remark
        assert sums == replace(methods.sums_of_two(worked, [1, 2, 3, 4], [12, 14, 17, 19]), way="two passes")

    def test_apart_on_a_counter_without_carry(self):
        sums = methods.sums_of_two(machine("plain"), [11, 12, 13], [12, 14, 17])
        assert sums.way == "apart"
        assert (sums.sum_x, sums.sum_y, sums.sum_xx, sums.sum_xy, sums.sum_yy) == (36, 43, 434, 521, 629)
        check_lines(sums.working)

    @given(st.lists(st.tuples(st.integers(0, 99), st.integers(0, 99)), min_size=2, max_size=5),
           st.sampled_from([None, "one pass", "two passes", "apart"]))
    @settings(max_examples=40)
    def test_the_line_agrees_with_statistics(self, pairs, way):
        """Oracle: statistics.linear_regression on fractions."""
        xs, ys = zip(*pairs, strict=True)
        sums = methods.sums_of_two(Machine(WIDE), xs, ys, way=way)
        assert sums.way == (way or "one pass")
        if len(set(xs)) == 1:
            with pytest.raises(ValueError, match="all x are alike"):
                _ = sums.slope
            return
        slope, intercept = statistics.linear_regression([Fraction(x) for x in xs], [Fraction(y) for y in ys])
        assert float(sums.slope) == pytest.approx(float(slope), abs=1e-9)
        assert float(sums.intercept) == pytest.approx(float(intercept), abs=1e-9)
        above, below = methods.centred_sums(Machine(WIDE), sums)
        assert Fraction(above.answer, below.answer) == sums.slope

    @given(st.lists(st.tuples(st.integers(-60, 60), st.integers(-60, 60)), min_size=2, max_size=6))
    @settings(max_examples=30)
    def test_the_line_of_pairs_below_nought(self, pairs):
        """Oracle: statistics.linear_regression on fractions; the offsets move the points, not the line."""
        xs, ys = zip(*pairs, strict=True)
        sums = methods.sums_of_two(Machine(WIDE), xs, ys, offsets=("smallest", "smallest"))
        if len(set(xs)) > 1:
            slope, intercept = statistics.linear_regression([Fraction(x) for x in xs], [Fraction(y) for y in ys])
            assert float(sums.slope) == pytest.approx(float(slope), abs=1e-9)
            assert float(sums.intercept) == pytest.approx(float(intercept), abs=1e-9)

    def test_bad_input(self):
        worked = machine()
        assert trouble(worked, lambda: methods.sums_of_two(worked, [1, 2], [1])) == (
            "there must be as many x as y, not 2 and 1")
        assert "value 1 of y" in trouble(worked, lambda: methods.sums_of_two(worked, [1], [None]))


class TestCertifiedValues:
    """NIST/ITL Statistical Reference Datasets, univariate and linear; certified values as NIST prints them."""

    def test_numacc1_does_not_fit_until_it_is_coded(self):
        """10000001, 10000003, 10000002: mean 10000002, s 1. The squares take 15 places of 13."""
        worked, data = machine(), [10_000_001, 10_000_003, 10_000_002]
        no = refused(worked, lambda: methods.sums_of_one(worked, data))
        assert str(no) == ("Σx, Σx² of 3 numbers does not fit this machine: the result is short by 2 places "
                           "(300000120000014 takes 15 number wheels of 13)")
        sums = methods.sums_of_one(worked, data, offset=10_000_000)
        assert (sums.mean, sums.deviation(14)) == (10_000_002, 1)
        whole = methods.sums_of_one(machine("ledger"), data)
        assert (whole.sum_x, whole.sum_xx) == (30_000_006, 300_000_120_000_014)
        assert (whole.mean, whole.variance) == (10_000_002, 1)

    def test_numacc2(self):
        """1.2, then 500 pairs of 1.1 and 1.3: mean 1.2, s 0.1."""
        sums = methods.sums_of_one(machine(), ["1.2", *["1.1", "1.3"] * 500])
        assert (sums.n, sums.sum_x, sums.sum_xx) == (1001, 12_012, 145_144)
        assert sums.mean == Fraction(12, 10)
        assert sums.deviation(14) == Decimal("0.1")

    def test_numacc4_coded(self):
        """10000000.2, then 500 pairs of 10000000.1 and 10000000.3: mean 10000000.2, s 0.1."""
        sums = methods.sums_of_one(machine(), NUMACC4, offset=10_000_000)
        assert sums.mean == Fraction(100_000_002, 10)
        assert sums.deviation(14) == Decimal("0.1")

    def test_numacc4_as_it_stands_fills_twenty_places(self):
        """On the large machine, whose counter is one place short of Σx."""
        sums = methods.sums_of_one(machine("ledger"), NUMACC4, short_cut=True)
        assert sums.way == "apart"
        assert (sums.sum_x, sums.sum_xx) == (100_100_002_002, 10_010_000_400_400_005_004)
        assert sums.mean == Fraction(100_000_002, 10)
        assert sums.deviation(14) == Decimal("0.1")

    @pytest.mark.parametrize(("spec", "way"), [(WIDE, "one pass"), (machine("ledger").spec, "apart")])
    def test_norris(self, spec, way):
        """Slope 1.00211681802045, intercept -0.262323073774029."""
        data = columns("norris")
        worked = Machine(spec)
        sums = methods.sums_of_two(worked, data["x"], data["y"], short_cut=True)
        assert (sums.way, sums.n) == (way, 36)
        assert (sums.sum_x, sums.sum_y, sums.sum_xx, sums.sum_xy) == (150_904, 151_129, 1_056_355_336, 1_058_195_592)
        assert sums.slope == Fraction(15_289_070_696, 15_256_774_880)
        assert rounded(sums.slope, 14) == Decimal("1.00211681802045")
        assert rounded(sums.intercept, 15) == Decimal("-0.262323073774029")
        above, below = methods.centred_sums(worked, sums)
        assert (above.answer, below.answer) == (15_289_070_696, 15_256_774_880)


class TestPaper:
    @given(st.fractions(0, 10**6), st.integers(0, 20))
    def test_a_root_is_the_nearest(self, value, places):
        found = Fraction(root(value, places))
        half = Fraction(1, 2 * 10**places)
        assert max(0, found - half)**2 <= value <= (found + half)**2

    def test_coding_puts_all_values_on_the_same_places(self):
        assert coded(["1.25", 2, Decimal("1.5")], "0.5", "x").on == (75, 150, 100)
