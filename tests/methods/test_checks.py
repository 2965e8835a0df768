"""Casting out nines and elevens, working backwards, doing it the other way; and what each cannot see."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, strategies as st
from mechanism.machines import specs

from mechcalc import CapacityError, InputError, Machine, methods

from .helpers import check_lines, machine, trouble

whole = st.integers(-10**12, 10**12)
both = pytest.mark.parametrize("by", [9, 11])


class TestCastingOut:
    @given(whole, st.sampled_from([9, 11]))
    def test_what_is_left_is_the_remainder(self, number, by):
        """Oracle: Python's modulo."""
        assert methods.cast_out(number, by) == number % by

    @both
    @given(st.lists(whole, min_size=1, max_size=5))
    def test_right_answers_pass(self, by, numbers):
        product = 1
        for number in numbers:
            product *= number
        assert methods.check_product(numbers, product, by)
        assert methods.check_sum(numbers, sum(numbers), by)

    @both
    @given(st.integers(0, 10**9), st.integers(1, 10**5))
    def test_right_quotients_pass(self, by, dividend, divisor):
        assert methods.check_quotient(dividend, divisor, *divmod(dividend, divisor), by=by)
        assert not methods.check_quotient(dividend + 1, divisor, *divmod(dividend, divisor), by=by)

    @both
    @given(st.lists(st.tuples(whole, whole), min_size=1, max_size=5), st.integers(1, 8))
    def test_right_sums_of_products_pass_and_slips_below_the_modulus_do_not(self, by, pairs, slip):
        answer = sum(a * b for a, b in pairs)
        assert methods.check_sum_of_products(pairs, answer, by)
        assert not methods.check_sum_of_products(pairs, answer + slip, by)

    def test_no_products_at_all(self):
        with pytest.raises(InputError, match="at least one product"):
            methods.check_sum_of_products([], 0)

    def test_what_is_written_down(self):
        check = methods.check_product([12, 34, 56], 22_858, by=11)
        assert str(check) == (
            "12 leaves 1; 34 leaves 1; 56 leaves 1; 22858 leaves 0\n"
            "(1 × 1 × 1) leaves 1, and 0 was found on the right\n"
            "There is a slip somewhere. Casting out elevens misses 0 of 90 slips in one digit, and 0 of 90 swaps of "
            "neighbours (but every swap two apart).")
        assert check._repr_html_().startswith("<ol>\n<li>12 leaves 1;")

    def test_bad_input(self):
        with pytest.raises(InputError, match=r"nines \(9\) or elevens \(11\) are cast out, not 7"):
            methods.cast_out(12, 7)
        with pytest.raises(InputError, match="a product has at least one factor"):
            methods.check_product([], 1)
        with pytest.raises(InputError, match="only sums, differences and products are checked"):
            methods.check_by(("^", 2, 3), 8)
        with pytest.raises(InputError, match="an answer must be a whole number"):
            methods.check_sum([1, 2], 3.0)


class TestWhatTheyMiss:
    def test_counted_over_all_numbers_of_four_digits(self):
        """By brute force, not by the rule: every slip in every number from 0 to 9999."""
        for by, (digit, neighbours, two_apart) in {9: (Fraction(2, 90), 1, 1), 11: (0, 0, 1)}.items():
            seen = {"digit": [0, 0], 1: [0, 0], 2: [0, 0]}
            for number in range(10_000):
                text = f"{number:04d}"
                slips = [("digit", text[:1] + d + text[2:]) for d in "0123456789" if d != text[1]]
                slips += [(1, text[0] + text[2] + text[1] + text[3]), (2, text[2] + text[1] + text[0] + text[3])]
                for kind, slip in slips:
                    if slip != text:
                        seen[kind][0] += int(slip) % by == number % by
                        seen[kind][1] += 1
            found = [Fraction(*seen[kind]) for kind in ("digit", 1, 2)]
            assert found == [digit, neighbours, two_apart]
            assert found == [methods.slips_missed(by, apart) for apart in (0, 1, 2)]

    def test_a_slip_that_nines_miss_and_elevens_find(self):
        assert methods.check_product([347, 26], 9202)
        assert not methods.check_product([347, 26], 9202, by=11)

    def test_a_swap_two_apart_that_both_miss(self):
        assert methods.check_product([347, 26], 2290)
        assert methods.check_product([347, 26], 2290, by=11)


class TestBackwards:
    def test_the_product_is_taken_back_turn_by_turn(self):
        worked = machine()
        check = methods.work_backwards(worked, methods.multiply(worked, 347, 26))
        assert check
        (back,) = check.workings
        assert [line.algebra for line in back.lines][:2] == ["9022 − 347 × 10 = 5552", "5552 − 347 × 10 = 2082"]
        assert (back.turns, worked.result, worked.counter) == (8, 0, 0)
        check_lines(back)

    @given(specs(), st.integers(0, 999), st.integers(0, 999))
    def test_on_any_machine_that_could_multiply(self, spec, a, b):
        worked = Machine(spec)
        try:
            working = methods.multiply_short_cut(worked, a, b)
        except CapacityError:
            return
        assert methods.work_backwards(worked, working)

    def test_a_sum_below_nought_comes_back_too(self):
        worked = machine("slate")
        assert methods.work_backwards(worked, methods.subtract(worked, 12, 34, 9000))

    def test_it_goes_back_as_far_as_the_last_clearing(self):
        worked = machine()
        check = methods.work_backwards(worked, methods.multiply_chain(worked, 12, 34, 56))
        assert check
        assert check.workings[0].turns == 5 + 6

    def test_a_machine_that_someone_else_has_used_in_between(self):
        worked = machine()
        working = methods.multiply(worked, 347, 26)
        worked.turn(1)
        assert trouble(worked, lambda: methods.work_backwards(worked, working)) == (
            "the machine does not stand where 347 × 26 ended: its result is 12492, its counter 36")


class TestTheOtherWay:
    def test_both_products_agree(self):
        check = methods.other_way(machine(), 347, 26)
        assert check
        assert [working.title for working in check.workings] == ["347 × 26", "26 × 347"]

    def test_by_the_short_cut(self):
        check = methods.other_way(machine(), 347, 98, methods.multiply_short_cut)
        assert [working.turns for working in check.workings] == [3, 11]
