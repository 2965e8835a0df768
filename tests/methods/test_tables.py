"""Tables by differences, multiples of a constant, percentages, Fibonacci numbers, interest."""

from __future__ import annotations

from dataclasses import replace
from decimal import ROUND_DOWN, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal, localcontext

import pytest
import sympy
from hypothesis import given, settings, strategies as st
from mechanism.machines import specs

from mechcalc import CapacityError, Machine, MachineSpec, load_spec, methods

from .helpers import check_lines, machine, refused, trouble

FINE = {"pin_pitch": 4.0, "gap": 0.5, "helix_step": 4.5, "lever_throw": 0.5, "rest_arc": 12.0}
WIDE = MachineSpec(setting_places=14, result_places=30, counter_places=16, carry_reach=30, positions=14, **FINE)
X = sympy.Symbol("x")


class TestDifferences:
    @pytest.mark.parametrize(("polynomial", "start"), [
        (X**2, (0, 1, 2)), (X**3, (0, 1, 6, 6)), (X**4, (0, 1, 14, 36, 24)), ("7", (7,)), ("3*n - 2", (-2, 3)),
        (X * (X - 1) / 2, (0, 0, 1))])
    def test_first_value_and_first_differences(self, polynomial, start):
        """Squares 0, 1, 2; cubes 0, 1, 6, 6; fourth powers 0, 1, 14, 36, 24 (recomputed)."""
        assert methods.difference_start(polynomial) == start

    def test_a_square_is_the_one_before_and_the_next_odd_number(self):
        table = methods.tabulate(machine("slate"), X**2, 5)
        lines = [line.algebra for line in table.workings[0].lines if "Turn" in line.words]
        assert lines == ["0 + 1 = 1", "1 + 2 = 3", "3 + 2 = 5", "5 + 2 = 7", "0 + 1 = 1", "1 + 3 = 4", "4 + 5 = 9",
                         "9 + 7 = 16"]
        assert table.column("first difference") == (1, 3, 5, 7)
        check_lines(table.workings[0])

    def test_primes_for_a_while(self):
        """x² + x + 41: OEIS A202018."""
        table = methods.tabulate(machine("slate"), X**2 + X + 41, 10)
        assert table.column("f") == (41, 43, 47, 53, 61, 71, 83, 97, 113, 131)

    @pytest.mark.parametrize("power", [2, 3, 4])
    def test_powers(self, power):
        table = methods.tabulate(machine("bench"), X**power, 25, start=10, step=3)
        assert table.column("x") == tuple(range(10, 85, 3))
        assert table.column("f") == tuple(x**power for x in range(10, 85, 3))
        check_lines(table.workings[0], by_sympy=False)

    def test_a_table_that_falls_below_nought(self):
        table = methods.tabulate(machine("bench"), 100 - X**2, 14)
        assert table.column("f") == tuple(100 - x * x for x in range(14))
        assert table.workings[0].answer == -69
        check_lines(table.workings[0])

    @given(specs(), st.lists(st.integers(-30, 30), min_size=1, max_size=4), st.integers(1, 6))
    def test_any_start_gives_what_newton_says(self, spec, first, entries):
        """Oracle: f(n) = sum of d_k times n over k (Newton's forward formula), by sympy's binomials."""
        worked = Machine(spec)
        try:
            table = methods.table_by_differences(worked, first, entries)
        except CapacityError:
            assert worked.strokes == ()
            return
        assert table.column("f") == tuple(
            sum(d * int(sympy.binomial(n, k)) for k, d in enumerate(first)) for n in range(entries))
        check_lines(table.workings[0], by_sympy=False)

    @pytest.mark.parametrize(("bad", "reason"), [
        (X**2 + sympy.Symbol("y"), "takes a polynomial in one symbol with rational coefficients"),
        (sympy.sin(X), "takes a polynomial in one symbol"), ("x**", "takes a polynomial in one symbol"),
        (sympy.sqrt(2) * X, "takes a polynomial in one symbol with rational coefficients"),
        ("0.5*x", "takes a polynomial in one symbol with rational coefficients"),
        ("print(1)", "takes a polynomial in one symbol"), ("x*" * 150 + "1", "takes a polynomial in one symbol"),
        (None, "takes a polynomial in one symbol"),
        (X / 3, "x/3 is 1/3 at 1, which is no whole number: multiply the polynomial by a number")])
    def test_what_is_no_polynomial_with_whole_values(self, bad, reason):
        worked = machine()
        assert reason in trouble(worked, lambda: methods.tabulate(worked, bad, 5))

    def test_refusals(self):
        worked = machine("slate")
        no = refused(worked, lambda: methods.tabulate(worked, X**4, 40))
        assert (no.register, no.short_by) == ("setting", 2)
        assert str(no).startswith("x**4 by differences does not fit this machine: ")
        assert "2313441 takes 7 number wheels of 6" in str(no)
        assert trouble(worked, lambda: methods.table_by_differences(worked, (), 5)) == (
            "a table takes at least its first value")
        assert "a number of entries cannot be 0" in trouble(worked, lambda: methods.tabulate(worked, X, 0))


class TestMultiples:
    def test_only_digits_that_differ_are_turned(self):
        worked = machine()
        table = methods.multiples(worked, 347, [199, 201, 1201])
        assert table.column("product") == (347 * 199, 347 * 201, 347 * 1201)
        assert table.workings[0].turns == 19 + (1 + 9 + 8) + 1
        assert worked.counter == 1201
        check_lines(table.workings[0])

    @given(specs(), st.integers(0, 999), st.lists(st.integers(0, 999), min_size=1, max_size=5))
    def test_on_any_machine_the_products_are_right_and_the_counter_shows_the_multiplier(self, spec, constant, by):
        worked = Machine(spec)
        try:
            table = methods.multiples(worked, constant, by)
        except CapacityError:
            assert worked.strokes == ()
            return
        assert table.rows == tuple((number, constant * number) for number in by)
        assert worked.counter == by[-1]
        check_lines(table.workings[0], by_sympy=False)

    def test_percentages_against_decimal(self):
        amounts = ["120", "131.5", "0.05", "999.99"]
        for rounding, rule in (("half even", ROUND_HALF_EVEN), ("half up", ROUND_HALF_UP), ("down", ROUND_DOWN)):
            table = methods.percentages(machine(), "7.5", amounts, rounding=rounding)
            exact = [Decimal(amount) * Decimal("0.075") for amount in amounts]
            assert table.column("percentage") == tuple(exact)
            assert table.column("rounded") == tuple(one.quantize(Decimal("0.01"), rule) for one in exact)
        with_it = methods.percentages(machine(), "7.5", amounts, of_the_whole=True)
        assert with_it.column("percentage") == tuple(Decimal(amount) * Decimal("1.075") for amount in amounts)

    def test_refusals(self):
        worked = machine("slate")
        no = refused(worked, lambda: methods.multiples(worked, 347, [12, 12345]))
        assert (no.register, no.short_by) == ("result", 1)
        assert "give at least one multiplier" in trouble(worked, lambda: methods.multiples(worked, 347, []))
        assert "cannot be below nought" in trouble(worked, lambda: methods.percentages(worked, -5, [1]))
        assert trouble(worked, lambda: methods.percentages(worked, 5, [1], rounding="up")) == (
            "the rounding is 'half up', 'half even', 'down', not 'up'")


class TestFibonacci:
    @pytest.mark.parametrize(("name", "largest", "value"), [
        ("bench", 63, 6_557_470_319_842), ("ledger", 97, 83_621_143_489_848_422_977)])
    def test_the_largest_in_the_register(self, name, largest, value):
        """F(63) is the last of 13 places, F(97) of 20 (recomputed: sympy.fibonacci)."""
        worked = machine(name)
        table = methods.fibonacci(worked, largest)
        assert table.column("Fibonacci number") == tuple(int(sympy.fibonacci(n)) for n in range(1, largest + 1))
        assert worked.result == value
        check_lines(table.workings[0], by_sympy=False)
        no = refused(worked, lambda: methods.fibonacci(worked, largest + 1))
        assert (no.register, no.short_by) == ("result", 1)

    def test_a_number_wider_than_the_levers_goes_in_in_two_pieces(self):
        table = methods.fibonacci(machine("slate"), 24)
        turns = [line.algebra for line in table.workings[0].lines if "Turn" in line.words]
        assert turns[-4:] == ["17711 + 46 = 17757", "17757 + 109 × 10² = 28657", "28657 + 177 × 10² = 46357",
                              "46357 + 11 = 46368"]
        assert table.rows[-1] == (24, 46_368)


def by_decimal(principal: str, rate: str, periods: int, places: int, rule: str, deposit: str = "0") -> list[Decimal]:
    """The balances, by `decimal` alone."""
    with localcontext() as context:
        context.prec = 60
        unit, balances = Decimal(1).scaleb(-places), [Decimal(principal)]
        for _ in range(periods):
            balances.append((balances[-1] * (1 + Decimal(rate))).quantize(unit, rule) + Decimal(deposit))
        return balances


class TestInterest:
    RULES = (("half even", ROUND_HALF_EVEN), ("half up", ROUND_HALF_UP), ("down", ROUND_DOWN))

    @pytest.mark.parametrize(("name", "rule"), RULES)
    @pytest.mark.parametrize("machine_name", ["bench", "plain"])
    def test_a_table_against_decimal(self, machine_name, name, rule):
        table = methods.interest_table(machine(machine_name), "0.05", 12, places=2, principal=200, rounding=name)
        assert list(table.column("balance")) == by_decimal("200", "0.05", 12, 2, rule)
        assert f"rounded to 2 places, {name}" in table.remark
        check_lines(table.workings[0], by_sympy=False)

    def test_half_a_unit_is_turned_in_only_where_the_rule_rounds_up(self):
        """1.01 × 1.055 = 1.06|555, 1.07 × 1.055 = 1.12|885; 1.13 × 1.055 = 1.19|215 stays."""
        table = methods.interest_table(machine(), "0.055", 3, places=2, principal="1.01")
        assert [line.words for line in table.workings[0].lines if "half" in line.words] == [
            "The digits to be dropped, 555, round up: set a 5, for half a unit.",
            "The digits to be dropped, 885, round up: set a 5, for half a unit."]
        assert [str(balance) for balance in table.column("balance")] == ["1.01", "1.07", "1.13", "1.19"]
        assert [line.algebra for line in table.workings[0].lines if "add 5 × 10²" in line.words] == [
            "106555 + 5 × 10² = 107055", "112885 + 5 × 10² = 113385"]
        dropped = [line.algebra for line in table.workings[0].lines if "Back transfer" in line.words]
        assert dropped == ["0 + ⌊107055 / 10³⌋ = 107", "0 + ⌊113385 / 10³⌋ = 113", "0 + ⌊119215 / 10³⌋ = 119"]
        check_lines(table.workings[0])

    def test_the_last_balance_has_to_find_room_on_the_levers_too(self):
        worked = Machine(MachineSpec(setting_places=1, result_places=4, counter_places=2, carry_reach=4))
        no = refused(worked, lambda: methods.interest_table(worked, "0.5", 2, places=0, principal=6))
        assert "the setting is short by 1 place (14 takes 2 levers of 1)" in str(no)

    def test_exact_growth_where_nothing_is_rounded(self):
        """1.05^5 = 1.2762815625; with ten places none of the first five products is rounded."""
        table = methods.interest_table(Machine(WIDE), "0.05", 5, places=10)
        assert table.rows[-1][-1] == Decimal("1.2762815625")

    def test_payments_at_the_end_of_every_period(self):
        """numpy-financial's docstring: fv(0.05/12, 120, -100, -100) = 15692.928894."""
        with localcontext() as context:
            context.prec = 12
            rate = str((Decimal("0.05") / 12).quantize(Decimal("1e-12")))
        table = methods.interest_table(Machine(WIDE), rate, 120, places=7, principal=100, deposit=100, short_cut=True)
        assert list(table.column("balance")) == by_decimal("100", rate, 120, 7, ROUND_HALF_EVEN, "100")
        assert abs(table.rows[-1][-1] - Decimal("15692.928894")) < Decimal("0.00001")

    @given(specs(), st.booleans(), st.integers(0, 99), st.integers(1, 2), st.integers(0, 500), st.integers(1, 4),
           st.integers(0, 2), st.sampled_from(RULES), st.integers(0, 99))
    def test_on_any_machine_it_agrees_with_decimal_or_is_refused(
            self, spec, transfer, rate, drop, principal, periods, places, rule, deposit):
        worked = Machine(replace(spec, back_transfer=transfer))
        rate, principal, deposit = (str(Decimal(n).scaleb(-p)) for n, p in
                                    ((rate, drop), (principal, places), (deposit, places)))
        try:
            table = methods.interest_table(worked, rate, periods, places=places, principal=principal, deposit=deposit,
                                           rounding=rule[0])
        except CapacityError:
            assert worked.strokes == ()
            return
        assert list(table.column("balance")) == by_decimal(principal, rate, periods, places, rule[1], deposit)
        check_lines(table.workings[0], by_sympy=False)

    @given(st.booleans(), st.integers(0, 9999), st.integers(0, 4), st.integers(0, 10**6), st.integers(1, 4),
           st.integers(0, 3), st.sampled_from(RULES), st.integers(0, 10**4), st.booleans())
    @settings(max_examples=30)
    def test_where_there_is_room_nothing_is_refused(
            self, transfer, rate, drop, principal, periods, places, rule, deposit, short_cut):
        worked = Machine(replace(WIDE, back_transfer=transfer))
        rate, principal, deposit = (str(Decimal(n).scaleb(-p)) for n, p in
                                    ((rate % 10**(drop + 1), drop), (principal, places), (deposit, places)))
        table = methods.interest_table(worked, rate, periods, places=places, principal=principal, deposit=deposit,
                                       rounding=rule[0], short_cut=short_cut)
        assert list(table.column("balance")) == by_decimal(principal, rate, periods, places, rule[1], deposit)
        check_lines(table.workings[0], by_sympy=False)

    def test_refusals(self):
        worked = machine("slate")
        no = refused(worked, lambda: methods.interest_table(worked, "0.05", 3, places=2, principal=200))
        assert "200.00 at 0.05 a period, to 2 places does not fit this machine: the setting is short by 1" in str(no)
        assert "a rate must be a Decimal" in trouble(
            worked, lambda: methods.interest_table(worked, 0.05, 3, places=2))
        assert trouble(worked, lambda: methods.interest_table(worked, "0.05", 3, places=0, principal="1.5")) == (
            "1.5 does not stand on wheels with 0 places after the point: it has 1")
        assert "cannot be below nought" in trouble(
            worked, lambda: methods.interest_table(worked, "-0.05", 3, places=0))


class TestShown:
    def test_as_text_and_with_headers(self):
        table = methods.tabulate(Machine(load_spec("slate")), X**2, 3)
        assert str(table) == """\
x**2 by differences
x  f  first difference  second difference
0  0                 1                  2
1  1                 3
2  4

4 turns, 0 shifts, 4 settings"""
        html = table._repr_html_()
        assert html.startswith("<table>\n<caption>x**2 by differences</caption>")
        assert '<th scope="col">first difference</th>' in html
        assert html.count('<th scope="row">') == 3
        with pytest.raises(ValueError, match="'g' is no column: there are x, f"):
            table.column("g")
