"""What ways of working cost, compared on one machine, and one way on several machines."""

from __future__ import annotations

import io

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError, Machine, load_spec, methods
from mechcalc.methods import Calculation, Weights
from mechcalc.methods.comparing import KINDS

from .helpers import machine

ONE = Weights(turn=1, shift=1, setting=1, lever=1, transfer=1, clearing=1)


class TestCost:
    def test_every_stroke_is_counted_once(self):
        """347 × 26 × 8 by hand: set 3 levers; 8 turns, a shift; set 9022 (3 of 4 levers move); clear both; 8 turns."""
        working = methods.multiply_chain(machine("plain"), 347, 26, 8)
        cost = methods.cost_of(working)
        assert (cost.turns, cost.shifts, cost.settings, cost.transfers, cost.clearings) == (16, 2, 2, 0, 2)
        assert cost.levers == 3 + 4
        assert cost.crank_angle == 16 * 360.0
        assert cost.turns + cost.shifts + cost.settings + cost.clearings == len(working.strokes)

    def test_several_workings_add_up(self):
        first, second = (methods.multiply(machine(), a, 12) for a in (7, 77))
        assert methods.cost_of(first, second).turns == 6

    @given(st.integers(1, 9999), st.integers(1, 9999))
    def test_the_total_is_the_sum_of_its_parts(self, a, b):
        cost = methods.cost_of(methods.multiply(machine(), a, b))
        assert cost.total(ONE) == sum(getattr(cost, kind) for kind in KINDS)
        weights = Weights(turn=2, shift=0, setting=0, lever=0, transfer=0, clearing=0)
        assert cost.total(weights) == 2 * sum(map(int, str(b)))

    @pytest.mark.parametrize(("bad", "message"), [
        (-1, "the weight of a turn cannot be -1: it goes from 0 upwards"),
        (float("nan"), "the weight of a turn must be a finite number, not nan"),
        ("2", "the weight of a turn must be a finite number, not '2'"),
        (True, "the weight of a turn must be a finite number, not True")])
    def test_weights_that_are_none(self, bad, message):
        with pytest.raises(InputError) as no:
            Weights(turn=bad)
        assert str(no.value) == message


class TestCompare:
    def test_the_best_depends_on_the_weights(self):
        ways = methods.ways_of_multiplying(347, 98)
        assert methods.compare("bench", ways).best.label == "347 × 98, short cut"
        assert methods.compare("bench", ways, weights=Weights(shift=20)).best.label == "347 × 98"

    @given(st.integers(0, 999), st.integers(0, 999))
    def test_all_ways_agree_and_the_best_has_the_least_total(self, a, b):
        comparison = methods.compare("bench", methods.ways_of_multiplying(a, b), weights=ONE)
        assert comparison.agree
        assert {trial.answer for trial in comparison.trials} == {a * b}
        assert comparison.total(comparison.best) == min(map(comparison.total, comparison.trials))

    def test_ways_of_dividing_agree(self):
        comparison = methods.compare("bench", methods.ways_of_dividing(355, 113, 4))
        assert comparison.agree
        assert [trial.answer for trial in comparison.trials] == [31_415] * len(comparison.trials)

    def test_a_refusal_is_a_row_like_another(self):
        comparison = methods.compare("plain", methods.ways_of_chaining(12, 34, 56))
        assert [bool(trial.refusal) for trial in comparison.trials] == [True, True, False, False]
        assert comparison.rows()[0][-1] == ("refused: this machine has no back-transfer lever. Set the number by hand.")
        assert comparison.best.label.startswith("by hand")
        none = methods.compare("slate", methods.ways_of_multiplying(12345, 98765))
        assert none.best is None
        assert repr(none) == "<Comparison Slate: 5 ways, all refused>"

    def test_answers_that_do_not_agree_are_reported(self):
        comparison = methods.compare("bench", Calculation("one", lambda m: methods.multiply(m, 2, 3)),
                                     Calculation("other", lambda m: methods.multiply(m, 2, 4)))
        assert not comparison.agree
        assert "The answers do not agree." in str(comparison)

    def test_tables_and_decimals_can_be_compared_too(self):
        comparison = methods.compare(
            "bench", Calculation("table", lambda m: methods.tabulate(m, "x**2", 5)),
            Calculation("decimal", lambda m: methods.multiply_decimals(m, "1.5", "2.5")))
        assert [str(trial.answer) for trial in comparison.trials] == ["16", "3.75"]

    def test_as_text_and_as_html(self):
        comparison = methods.compare("bench", methods.ways_of_multiplying(347, 26)[:1], weights=ONE)
        assert str(comparison) == """\
Bench
way       answer  turns  shifts  settings  levers  transfers  clearings  crank, degrees  total  remark
347 × 26    9022      8       1         1       3          0          0            2880   13.0  best
Total: each stroke counts turn 1, shift 1, setting 1, lever 1, transfer 1, clearing 1."""
        html = comparison._repr_html_()
        assert "<caption>Bench</caption>" in html
        assert html.count('scope="col"') == len(comparison.headings)
        assert '<th scope="row">347 × 26</th>' in html

    def test_bad_input(self):
        with pytest.raises(InputError, match="there is nothing to compare: give at least one calculation"):
            methods.compare("bench")
        with pytest.raises(InputError, match=r"a calculation is Calculation\(label, function\), not 12"):
            methods.compare("bench", 12)
        with pytest.raises(InputError, match="x gave 12, which has no working to count"):
            methods.compare("bench", Calculation("x", lambda m: 12))


class TestMachines:
    def why(self, calculation, *names):
        return methods.compare_machines(calculation, *names)[1]

    def test_without_back_transfer_the_product_is_set_by_hand(self):
        chain = Calculation("12 × 34 × 56", lambda m: methods.multiply_chain(m, 12, 34, 56))
        for names in (("bench", "plain"), ("plain", "bench")):
            assert self.why(chain, *names)[0].endswith(
                "Plain has no back transfer, Bench has: the product was set again by hand (2 settings of 5 levers, "
                "against 1 of 2 and 1 back transfer).")

    def test_without_counter_carry_the_short_cut_leaves_turns_in_the_counter(self):
        short = Calculation("347 × 98", lambda m: methods.multiply_short_cut(m, 347, 98))
        assert "Plain's counter does not carry, Bench's does: it shows 108 instead of 98." in self.why(
            short, "bench", "plain")

    def test_a_short_reach_stops_a_carry(self):
        short = Calculation("900000 × 999", lambda m: methods.multiply_short_cut(m, 900_000, 999))
        comparison, why = methods.compare_machines(short, "bench", "short")
        assert comparison.trials[0].answer == 899_100_000
        assert why[0].startswith("Short refused: 900000 × 999 does not fit this machine: the carry reach is short")
        assert ("Short's carries reach 7 places from the drum, Bench's 11: a carry would have stopped short.") in why
        plain = Calculation("900000 × 999", lambda m: methods.multiply(m, 900_000, 999))
        assert ("Short's carries reach 7 places from the drum, Bench's 11: no carry had to run that far here."
                in self.why(plain, "bench", "short"))

    def test_sizes(self):
        long = Calculation("12345678 × 87654", lambda m: methods.multiply(m, 12_345_678, 87_654))
        why = self.why(long, "bench", "slate")
        assert why[0].startswith("Slate refused: ")
        assert why[-1] == ("Slate has 4 levers against 9, 6 number wheels against 13, 3 counter wheels against 8, 3 "
                           "carriage positions against 8.")

    def test_the_same_machine_twice_has_nothing_to_explain(self):
        assert self.why(Calculation("x", lambda m: methods.multiply(m, 2, 3)), "bench", load_spec("bench")) == []


class TestPlot:
    def test_bars_hatches_and_words(self):
        pytest.importorskip("matplotlib")
        comparison = methods.compare("plain", methods.ways_of_chaining(12, 34, 56))
        ax = comparison.plot()
        assert [label.get_text() for label in ax.get_yticklabels()] == [trial.label for trial in comparison.trials]
        totals = [text.get_text().strip() for text in ax.texts]
        assert totals[:2] == ["refused", "refused"]
        assert sorted(totals[2:])[0].endswith("best")
        legend = [text.get_text() for text in ax.get_legend().get_texts()]
        assert legend == ["turns", "shifts", "settings", "levers", "clearings"]
        marks = {(bar.get_hatch(), bar.get_facecolor()) for bar in ax.patches}
        assert len(marks) == len(legend)
        assert all(red == green == blue for _, (red, green, blue, _) in marks)
        lengths = sum(bar.get_width() for bar in ax.patches)
        assert lengths == pytest.approx(sum(comparison.total(trial) for trial in comparison.trials if trial.cost))

    def test_on_axes_of_ones_own_and_where_all_are_refused(self):
        from matplotlib.figure import Figure
        ax = Figure().subplots()
        assert methods.compare("slate", methods.ways_of_multiplying(12345, 98765)).plot(ax) is ax
        assert {text.get_text().strip() for text in ax.texts} == {"refused"}
        ax.figure.savefig(io.BytesIO())

    def test_matplotlib_waits_until_it_is_asked_for(self):
        import subprocess
        import sys
        code = "import sys, mechcalc.methods; raise SystemExit('matplotlib' in sys.modules or 'sympy' in sys.modules)"
        assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_machines_are_new_for_every_trial():
    """A calculation finds everything at nought, whatever the one before it left."""
    seen = []

    def look(worked: Machine):
        seen.append(worked.state.reading)
        return methods.multiply(worked, 12, 12)

    methods.compare("bench", [Calculation("a", look), Calculation("b", look)])
    assert seen == [seen[0]] * 2
    assert (seen[0].result, seen[0].setting) == (0, 0)
