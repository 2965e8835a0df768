"""Decimal points: where they go, how many places to keep, and how an answer is rounded."""

from __future__ import annotations

import decimal
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, strategies as st

from mechcalc import CapacityError, InputError, Machine, MachineSpec, methods
from mechcalc.methods.points import number_of, on_wheels, point_of, read, rounded_off

from .helpers import check_lines, machine, refused, trouble

FINE = {"pin_pitch": 4.0, "gap": 0.5, "helix_step": 4.5, "lever_throw": 0.5, "rest_arc": 12.0}
WIDE = MachineSpec(setting_places=14, result_places=28, counter_places=14, carry_reach=28, **FINE)
ROUNDINGS = {"half up": decimal.ROUND_HALF_UP, "half even": decimal.ROUND_HALF_EVEN, "down": decimal.ROUND_DOWN}
small = st.decimals(-999, 999, places=3, allow_nan=False)


class TestRules:
    def test_a_product_has_the_places_of_both(self):
        assert methods.Points.of_product(2, 1) == methods.Points(setting=2, counter=1, result=3)

    @given(st.decimals(0, 10**6, places=4), st.decimals(0, 10**6, places=2))
    def test_the_rule_for_products_is_true(self, a, b):
        points = methods.Points.of_product(point_of(a), point_of(b))
        product = on_wheels(a, points.setting) * on_wheels(b, points.counter)
        assert Fraction(read(product, points.result)) == Fraction(a) * Fraction(b)

    @given(st.integers(0, 10**8), st.integers(1, 10**4), st.integers(-3, 6), st.integers(0, 4))
    def test_the_rule_for_quotients_is_true(self, result, setting, result_point, setting_point):
        points = methods.Points.of_quotient(result_point, setting_point)
        assert points.counter + points.setting == points.result
        exact = Fraction(result, setting) / Fraction(10)**points.counter
        assert exact == (Fraction(result) / Fraction(10)**result_point) / Fraction(setting, 10**setting_point)

    def test_a_quotient_whose_point_stands_right_of_the_counter(self):
        """5 / 0.25: the setting has two places more than the result, so the counter is read with two noughts."""
        points = methods.Points.of_quotient(0, 2)
        assert (points.counter, read(3, points.counter)) == (-2, 300)

    @given(small, small, st.integers(0, 3))
    def test_kept_places_are_enough(self, a, b, wanted):
        """Factors rounded to the places kept give a product less than 0.11 units of the last place wanted away."""
        keep = methods.places_to_keep(a, b, wanted)
        cut = [Fraction(round(Fraction(number) * 10**most), 10**most)
               for number, most in zip((a, b), keep, strict=True)]
        assert abs(cut[0] * cut[1] - Fraction(a) * Fraction(b)) < Fraction(11, 100 * 10**wanted)

    @given(st.integers(0, 10**9), st.integers(0, 9), st.sampled_from(sorted(ROUNDINGS)))
    def test_rounding_is_what_decimal_does(self, number, drop, rounding):
        assert rounded_off(number, drop, rounding) == Decimal(number).scaleb(-drop).quantize(1, ROUNDINGS[rounding])


class TestNumbers:
    @pytest.mark.parametrize(("bad", "message"), [
        ("three", "a factor must be a number such as '3.47', not 'three'"),
        ("NaN", "a factor must be a finite number, not 'NaN'"), (Decimal("Infinity"), "a factor must be a finite"),
        (0.1, "write '0.1'"), (True, "a factor must be a whole number, not True (bool)"),
        (None, "a factor must be a whole number, not None (NoneType)"), ("1E+200", "a factor has too many places"),
        ("1E-200", "a factor has too many places"), (10**200, "a factor has too many places")])
    def test_what_is_none(self, bad, message):
        with pytest.raises(InputError) as no:
            number_of(bad, "a factor")
        assert message in str(no.value)

    def test_a_number_with_more_places_than_the_wheels_are_read_with(self):
        with pytest.raises(InputError, match=r"1\.25 does not stand on wheels with 1 places after the point: it has 2"):
            on_wheels(Decimal("1.25"), 1)


class TestMultiplyDecimals:
    def test_the_remark_says_where_the_point_goes(self):
        answer = methods.multiply_decimals(machine(), "0.047", "2.60")
        assert (answer.value, answer.working.answer) == (Decimal("0.12220"), 12_220)
        assert answer.remark == "The result has 3 + 2 = 5 places after the point."
        assert str(answer).endswith("0.047 × 2.60 = 0.12220. The result has 3 + 2 = 5 places after the point.")
        assert "0.12220" in answer._repr_html_()
        check_lines(answer.working)

    @given(small, small, st.booleans())
    def test_exactly_what_fractions_say(self, a, b, short_cut):
        answer = methods.multiply_decimals(Machine(WIDE), a, b, short_cut=short_cut)
        assert Fraction(answer.value) == Fraction(a) * Fraction(b)
        check_lines(answer.working, by_sympy=False)

    @given(small, small, st.integers(0, 3), st.sampled_from(sorted(ROUNDINGS)))
    def test_to_so_many_places_it_is_at_most_one_out(self, a, b, places, rounding):
        answer = methods.multiply_decimals(Machine(WIDE), a, b, places=places, rounding=rounding)
        exact = Fraction(a) * Fraction(b)
        slack = Fraction(12, 10) if rounding == "down" else Fraction(611, 1000)
        assert abs(Fraction(answer.value) - exact) <= slack / 10**places

    def test_fewer_places_make_long_factors_fit(self):
        worked = machine("slate")
        no = refused(worked, lambda: methods.multiply_decimals(worked, "3.14159265", "2.71828183"))
        assert isinstance(no, CapacityError)
        assert methods.multiply_decimals(worked, "3.14159265", "2.71828183", places=0).value == 9

    def test_bad_input(self):
        worked = machine()
        assert "a multiplier must be a number such as" in trouble(
            worked, lambda: methods.multiply_decimals(worked, 1, "x"))
        assert trouble(worked, lambda: methods.multiply_decimals(worked, 1, 2, rounding="up")) == (
            "the rounding is 'half up', 'half even', 'down', not 'up'")
        assert "a number of places cannot be -1" in trouble(
            worked, lambda: methods.multiply_decimals(worked, 1, 2, places=-1))


class TestAddDecimals:
    @given(st.lists(small, min_size=1, max_size=5))
    def test_exactly_what_fractions_say(self, numbers):
        answer = methods.add_decimals(Machine(WIDE), *numbers)
        assert Fraction(answer.value) == sum(map(Fraction, numbers))
        check_lines(answer.working, by_sympy=False)

    def test_points_stand_under_each_other(self):
        answer = methods.add_decimals(machine(), "0.5", 12, "-0.25")
        assert [line.algebra for line in answer.working.lines if "Turn" in line.words] == [
            "0 + 50 = 50", "50 + 1200 = 1250", "1250 − 25 = 1225"]
        assert (answer.title, str(answer.value)) == ("0.5 + 12 − 0.25", "12.25")

    def test_refusals(self):
        worked = machine("slate")
        no = refused(worked, lambda: methods.add_decimals(worked, "12.345", 1))
        assert str(no) == ("12.345 + 1 does not fit this machine: the setting is short by 1 place (12345 takes 5 "
                           "levers of 4)")
        assert "give at least one number" in trouble(worked, lambda: methods.add_decimals(worked))
