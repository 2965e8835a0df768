"""Dividing: the overdraw seen and put right, left standing, or not made."""

from __future__ import annotations

from decimal import Decimal, ExtendedContext

import pytest
from hypothesis import given, strategies as st
from mechanism.machines import specs

from mechcalc import CapacityError, Locked, Machine, MachineSpec, methods
from mechcalc.methods import algebra
from mechcalc.parts import Parts

from .helpers import check_lines, machine, numbers, refused

WIDE = MachineSpec(setting_places=10, result_places=20, counter_places=11, carry_reach=20)
METHODS = ["restoring", "without putting back", "compare first"]
EVERY = [lambda m: methods.divide(m, 22, 7, places=2), lambda m: methods.divide_building_up(m, 22, 7, places=2),
         lambda m: methods.divide_by_reciprocal(m, 22, 7), lambda m: methods.square_root(m, 1234),
         lambda m: methods.cube_root(m, 1234)]


@st.composite
def divisions(draw):
    """A machine, a dividend, a divisor and decimals, made from a quotient; now and then too large for it."""
    spec = draw(specs())
    more = st.sampled_from([0, 0, 0, 0, 0, 1])
    divisor = max(1, draw(numbers) % 10**draw(st.integers(1, spec.setting_places + draw(more))))
    most = min(spec.positions, spec.counter_places, max(1, spec.result_places - len(str(divisor))), 7)
    quotient = draw(numbers) % 10**draw(st.integers(1, most + draw(more)))
    places = draw(st.sampled_from([0, 0, 0, 1, 2]))
    return spec, (quotient * divisor + draw(st.integers(0, divisor - 1))) // 10**places, divisor, places


def sizes_fit(spec, dividend, divisor, places):
    """Whether there are levers, wheels and positions enough, told without the code under test."""
    number = dividend * 10**places
    figures = len(str(number // divisor))
    return (divisor < 10**spec.setting_places and number < 10**(spec.positions - 1 + spec.setting_places)
            and max(number, divisor) < 10**spec.result_places and figures <= min(spec.positions, spec.counter_places))


def put_in(working):
    """The turns before the counter is cleared."""
    operations = [stroke.operation for stroke in working.strokes]
    return operations[:operations.index("clear counter")].count("crank") if "clear counter" in operations else 0


class TestRestoring:
    def test_the_overdraw_is_heard_seen_and_put_right(self):
        working = methods.divide(machine("slate"), 7, 3)
        assert [(line.algebra, line.words) for line in working.lines] == [
            ("7 = 7", "Set 7 on the levers."),
            ("0 + 7 = 7", "Turn: add 7."),
            ("1 − 1 = 0", "Clear the counter; its direction is free again."),
            ("3 = 3", "Set 3 on the levers."),
            ("7 − 3 = 4", "Turn back: take away 3."),
            ("4 − 3 = 1", "Turn back: take away 3."),
            ("(1 − 3) mod 10⁶ = 999998", "Turn back: take away 3. The bell rings: the borrow has nowhere to go, and "
                                        "the wheels show a complement; it means −2. One turn too many."),
            ("(999998 + 3) mod 10⁶ = 1", "Turn: add 3. The bell rings: the borrow is paid back, and the number is "
                                        "plain again. What was too many is put back: the figure is 2.")]
        assert (working.answer, working.remainder) == (2, 1)
        assert working.remark == ("The counter shows 2. The quotient is 2. The result shows 1: the remainder is 1.")
        check_lines(working)

    def test_the_counter_picks_its_direction_so_that_subtractive_turns_count_up(self):
        worked = machine()
        working = methods.divide(worked, 9022, 26)
        readings = [stroke.reading.counter for stroke in working.strokes if stroke.operation == "crank"]
        assert readings == [1, 100, 200, 300, 400, 300, 310, 320, 330, 340, 350, 340,
                            341, 342, 343, 344, 345, 346, 347, 348, 347]
        assert worked.counter_direction == -1
        assert (working.answer, working.remainder) == (347, 0)

    def test_the_divisor_is_lined_up_under_the_head_of_the_dividend(self):
        working = methods.divide(machine(), 9022, 26)
        turns = [stroke.reading.carriage for stroke in working.strokes if stroke.operation == "crank"]
        assert turns[0] == 0
        assert sorted(set(turns[1:]), reverse=True) == [2, 1, 0]
        assert (working.shifts, working.settings) == (4, 2)

    def test_decimals_come_by_putting_the_dividend_in_further_to_the_left(self):
        working = methods.divide(machine(), 22, 7, places=5)
        assert (working.answer, working.places, working.remainder, working.remainder_places) == (314285, 5, 5, 5)
        assert working.headline == "22 ÷ 7 = 3.14285, remainder 0.00005"
        assert working.value == Decimal("3.14285")
        assert next(line for line in working.lines if "add" in line.words).algebra == "0 + 22 × 10⁵ = 2200000"

    def test_more_decimals_than_positions_put_noughts_on_the_levers(self):
        worked = Machine(MachineSpec(setting_places=4, result_places=6, counter_places=3, carry_reach=6))
        working = methods.divide(worked, 1, 80, places=4)
        assert (working.answer, working.headline) == (125, "1 ÷ 80 = 0.0125, remainder 0.0000")
        assert next(line for line in working.lines if "add" in line.words).algebra == "0 + 100 × 10² = 10000"

    def test_a_dividend_wider_than_the_levers_goes_in_in_pieces(self):
        working = methods.divide(machine("slate"), 123456, 9999)
        assert [line.algebra for line in working.lines if "add" in line.words][:2] == [
            "0 + 56 = 56", "56 + 1234 × 10² = 123456"]
        assert (working.answer, working.remainder) == divmod(123456, 9999)

    def test_the_quotient_may_be_worked_with_noughts_in_front(self):
        working = methods.divide(machine(), 22, 7, quotient_places=3)
        assert (working.answer, working.remainder, working.turns) == (3, 1, 1 + 3 + 2 * 3)

    def test_going_on_from_what_stands_in_the_result(self):
        worked = machine()
        methods.multiply(worked, 355, 1000)
        working = methods.divide(worked, None, 113, places=3)
        assert (working.headline, working.settings) == ("355.000 ÷ 113 = 3.141, remainder 0.067", 1)
        assert worked.counter == 3141

    def test_nought_divided(self):
        for method in METHODS:
            working = methods.divide(machine(), 0, 7, method=method)
            assert (working.answer, working.remainder) == (0, 0)
            assert working.turns == {"restoring": 2, "without putting back": 2, "compare first": 0}[method]


class TestWithoutPuttingBack:
    def test_the_counters_borrow_makes_both_figures_right(self):
        worked = machine("slate")
        working = methods.divide(worked, 2200, 7, method="without putting back")
        counted = [(stroke.argument, stroke.reading.counter) for stroke in working.strokes[4:]
                   if stroke.operation == "crank"]
        assert counted == [
            (-360.0, 100), (-360.0, 200), (-360.0, 300), (-360.0, 400),
            (360.0, 390), (360.0, 380), (360.0, 370), (360.0, 360), (360.0, 350), (360.0, 340), (360.0, 330),
            (360.0, 320), (360.0, 310),
            (-360.0, 311), (-360.0, 312), (-360.0, 313), (-360.0, 314), (-360.0, 315), (360.0, 314)]
        assert (working.answer, working.remainder) == (314, 2)
        check_lines(working)

    def test_an_even_number_of_figures_leaves_nothing_to_put_back(self):
        working = methods.divide(machine("slate"), 98, 7, method="without putting back")
        assert working.lines[-1].words.startswith("Turn: add 7. The bell rings: the borrow is paid back")
        assert "put back" not in " ".join(line.words for line in working.lines)

    def test_a_counter_without_carry_says_what_it_shows_and_how_it_is_read(self):
        worked = machine("plain")
        working = methods.divide(worked, 2200, 7, method="without putting back")
        assert worked.counter == 414
        assert working.answer == 314
        assert working.remark == (
            "The counter shows 414. This counter does not carry, so the borrow has not taken back the turn too many: "
            "read one less (9 for 0) on wheel 3. The quotient is 314. The result shows 2: the remainder is 2.")

    def test_a_nine_counts_to_nought_on_a_counter_without_carry(self):
        worked = machine("plain")
        working = methods.divide(worked, 9595, 1, method="without putting back")
        assert (worked.counter, working.answer) == (505, 9595)
        assert "(9 for 0) on wheels 4, 2" in working.remark

    def test_where_carries_do_not_reach_the_end_it_is_worked_further_to_the_left(self):
        """Nines made at one position go on past the reach at the next; from n - K on, every carry reaches the end."""
        worked = machine("bench")
        working = methods.divide(worked, 22, 7, places=2, method="without putting back")
        assert (worked.result, worked.counter, working.answer, working.remainder) == (200, 31400, 314, 2)
        assert "The quotient is 3.14, its last figure on wheel 3." in working.remark

    def test_where_there_is_no_room_for_that_it_is_refused(self):
        worked = Machine(MachineSpec(setting_places=3, result_places=6, counter_places=3, carry_reach=4))
        no = refused(worked, lambda: methods.divide(worked, 222, 7, method="without putting back"))
        assert (no.register, no.short_by) == ("carry reach", 1)
        assert str(no) == (
            "222 ÷ 7 does not fit this machine: the carry reach is short by 1 place (−51 stands as 99949, a "
            "complement with nines up to wheel 5, but with the carriage at 0 carries reach wheel 4)")
        assert methods.divide(worked, 222, 7).answer == 31


class TestCompareFirst:
    def test_the_bell_never_rings(self):
        working = methods.divide(machine(), 9022, 26, method="compare first")
        assert not any(row.bell for row in working.table())
        assert working.lines[-1].words == "Turn back: take away 26. 0 is less than 26: it goes no more."
        assert (working.answer, working.turns) == (347, 1 + 3 + 4 + 7)


class TestAgainstOtherArithmetic:
    @given(divisions(), st.sampled_from(METHODS))
    def test_on_any_machine_quotient_and_remainder_are_right_or_it_is_refused_for_a_reason(self, case, method):
        """Oracles: divmod and decimal. Refused where a register is short, or a carry may have too far to run."""
        spec, dividend, divisor, places = case
        worked = Machine(spec)
        fits = sizes_fit(spec, dividend, divisor, places)
        try:
            working = methods.divide(worked, dividend, divisor, places=places, method=method)
        except CapacityError as no:
            assert worked.strokes == ()
            assert (no.register == "carry reach") == fits  # noqa: PT017 (it need not be refused)
            assert no.short_by > 0  # noqa: PT017
            if fits:
                width = len(str(divisor)) + 1
                assert spec.carry_reach < (spec.result_places if method == "without putting back" else width)
            return
        assert fits
        assert (working.answer, working.remainder) == divmod(dividend * 10**places, divisor)
        exact = Decimal(working.answer).scaleb(-places) * divisor + Decimal(working.remainder).scaleb(-places)
        assert exact == dividend
        check_lines(working, by_sympy=False)
        figures = len(str(working.answer))
        assert working.turns - put_in(working) == methods.division_turns(working.answer, figures, method)

    @pytest.mark.parametrize("method", METHODS)
    def test_the_examples_of_decimal_arithmetic(self, method):
        """divide_int(2, 3), (10, 3), (22, 6); divide(1, 3), (5, 2), (2.40, 2): docstrings of CPython's decimal."""
        for a, b in ((2, 3), (10, 3), (22, 6)):
            working = methods.divide(machine(), a, b, method=method)
            assert working.answer == ExtendedContext.divide_int(a, b)
            assert working.remainder == ExtendedContext.remainder(a, b)
        assert methods.divide(machine(), 10, 3, method=method).answer == 3
        third = methods.divide(Machine(WIDE), 1, 3, places=9, method=method)
        assert third.value == Decimal("0.333333333")
        assert methods.divide(machine(), 5, 2, places=1, method=method).value == Decimal("2.5")

    def test_remainder_with_decimals(self):
        """remainder(3.6, 1.3) = 1.0, docstring of CPython's decimal: worked as 36 and 13."""
        working = methods.divide(machine(), 36, 13)
        assert Decimal(working.remainder).scaleb(-1) == Decimal("1.0") == ExtendedContext.remainder(
            Decimal("3.6"), Decimal("1.3"))

    def test_the_period_of_a_seventh(self):
        """1/7 = 0.142857 142857 …: common knowledge, from memory."""
        working = methods.divide(Machine(WIDE), 1, 7, places=11, method="without putting back")
        assert working.headline == "1 ÷ 7 = 0.14285714285, remainder 0.00000000005"

    def test_all_turns_in_one_equation(self):
        working = methods.divide(machine("slate"), 22, 7, places=2, method="without putting back")
        equation = algebra.turns_as_sum(working)
        assert str(equation) == "22 × 1 × 10² + 7 × (−4) × 10² + 7 × 9 × 10 + 7 × (−4) = 2"
        assert equation.holds()


class TestAMachineWithAFault:
    @pytest.mark.parametrize("method", METHODS)
    def test_the_operator_does_not_turn_for_ever_and_the_lines_say_where_it_went_wrong(self, method):
        class NoCarryPinsFromFourOn(Parts):
            def carry_pin(self, place, helix):
                return place < 4

        worked = machine("slate")
        worked._parts = NoCarryPinsFromFourOn()
        working = methods.divide(worked, 100_000, 999, method=method)
        assert working.wrong_lines
        assert worked.counter == working.answer != 100


class TestRefusals:
    def test_division_by_nought(self):
        worked = machine()
        no = refused(worked, lambda: methods.divide(worked, 22, 0), ValueError)
        assert str(no) == ("22 cannot be divided by 0: a turn takes nothing away, the bell never rings, and the "
                           "machine would be turned for ever")

    @pytest.mark.parametrize(("attempt", "register", "short_by", "reason"), [
        (lambda m: methods.divide(m, 22, 12345), "setting", 1, "12345 takes 5 levers of 4"),
        (lambda m: methods.divide(m, 1234567, 1234), "setting", 1, "12345 takes 5 levers of 4"),
        (lambda m: methods.divide(m, 9999, 7), "counter", 1, "the quotient takes 4 counter wheels of 3"),
        (lambda m: methods.divide(m, 22, 7, quotient_places=4), "counter", 1, "the quotient takes 4 carriage positions "
                                                                             "of 3")])
    def test_which_register_and_by_how_much(self, attempt, register, short_by, reason):
        worked = machine("slate")
        no = refused(worked, lambda: attempt(worked))
        assert (no.register, no.short_by) == (register, short_by)
        assert reason in str(no)

    def test_a_result_that_is_short(self):
        worked = Machine(MachineSpec(setting_places=4, result_places=5, counter_places=3, carry_reach=5))
        no = refused(worked, lambda: methods.divide(worked, 9999, 9999, places=2))
        assert str(no) == ("9999 ÷ 9999 does not fit this machine: the result is short by 1 place (999900 takes 6 "
                           "number wheels of 5)")
        assert (no.register, no.short_by) == ("result", 1)

    def test_a_borrow_that_does_not_reach(self):
        """With K = 3 and three places of divisor, a remainder of four places is past the reach."""
        worked = Machine(MachineSpec(setting_places=3, result_places=6, counter_places=3, carry_reach=3, positions=3))
        no = refused(worked, lambda: methods.divide(worked, 25000, 999))
        assert (no.register, no.short_by) == ("carry reach", 1)
        assert str(no) == (
            "25000 ÷ 999 does not fit this machine: the carry reach is short by 1 place (15010 takes a carry into "
            "wheel 5, but with the carriage at 1 carries reach wheel 4, and 25010 would be shown)")

    @pytest.mark.parametrize(("attempt", "message"), [
        (lambda m: methods.divide(m, -1, 7), "a dividend cannot be -1: it goes from 0 upwards"),
        (lambda m: methods.divide(m, True, 7), "a dividend must be a whole number, not True (bool)"),
        (lambda m: methods.divide(m, 22, 7.0), "a divisor must be a whole number, not 7.0 (float)"),
        (lambda m: methods.divide(m, 22, 7, places=41), "a number of decimals cannot be 41: it goes from 0 to 40"),
        (lambda m: methods.divide(m, 22, 7, method="fast"),
         "the method is 'restoring', 'without putting back', 'compare first', not 'fast'"),
        (lambda m: methods.divide(m, 22, 7, method=None),
         "the method is 'restoring', 'without putting back', 'compare first', not None"),
        (lambda m: methods.divide(m, 2200, 7, quotient_places=2),
         "the quotient 314 has 3 places, and 2 are to be worked"),
        (lambda m: methods.divide("slate", 22, 7), "a method works a Machine, not 'slate'")])
    def test_bad_input(self, attempt, message):
        worked = machine()
        assert str(refused(worked, lambda: attempt(worked), ValueError)) == message

    @pytest.mark.parametrize("method", EVERY)
    def test_a_machine_that_is_not_at_rest_refuses_and_nothing_has_moved(self, method):
        worked = machine()
        worked.crank(100)
        assert refused(worked, lambda: method(worked), Locked).part in ("crank", "lock")

    @pytest.mark.parametrize("method", EVERY)
    def test_it_does_not_matter_how_the_machine_was_left(self, method):
        worked = machine()
        worked.set(123_456_789)
        worked.turn(-1)
        worked.shift_to(5)
        worked.turn(2)
        left, fresh = method(worked), method(machine())
        assert (left.answer, left.remainder) == (fresh.answer, fresh.remainder)
        check_lines(left)

    def test_a_complement_in_the_result_is_no_dividend(self):
        worked = machine()
        methods.subtract(worked, 12, 34)
        no = refused(worked, lambda: methods.divide(worked, None, 7), ValueError)
        assert str(no) == "a dividend cannot be -22: the result shows a complement"
