"""What ways of working cost, compared on one machine, and one way on several machines."""

from __future__ import annotations

import io
from decimal import Decimal

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError, Machine, MachineSpec, load_spec, methods
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
        assert [trial.answer for trial in comparison.trials] == [Decimal("3.1415")] * len(comparison.trials)

    @pytest.mark.parametrize(("work", "answer"), [
        (lambda m: methods.square_root(m, 2, places=2), "1.41"),
        (lambda m: methods.divide(m, 1, 8, places=4), "0.1250"),
        (lambda m: methods.divide(m, 1, 700, places=6), "0.001428"),
        (lambda m: methods.cube_root(m, 2, places=1), "1.2"),
        (lambda m: methods.square_root(m, 49), "7"), (lambda m: methods.subtract(m, 12, 34), "−22"),
        (lambda m: methods.reciprocal(m, 8_000_000, places=7), "0.0000001")],
        ids=["root", "noughts at the end", "noughts in front", "cube root", "whole", "below nought", "tiny"])
    def test_an_answer_is_shown_with_its_point_everywhere(self, work, answer):
        """In the table, in HTML and over the bars: all the decimals that were worked, and never an exponent."""
        comparison = methods.compare("bench", Calculation("one", work), Calculation("two", work))
        assert comparison.agree
        assert [line.split()[1] for line in str(comparison).splitlines()[2:4]] == [answer] * 2
        assert comparison._repr_html_().count(f"<td>{answer}</td>") == 2
        assert comparison.plot().get_title() == f"Bench, answer {answer}"

    def test_long_answers_are_not_rounded(self):
        """Forty figures: more than Decimal's context would keep."""
        wide = MachineSpec(setting_places=20, result_places=40, counter_places=38, carry_reach=40, pin_pitch=2.0,
                           gap=1.0, helix_step=3.0, lever_throw=1.0, rest_arc=10.0)
        (trial,) = methods.compare(wide, Calculation("1/7", lambda m: methods.divide(m, 1, 7, places=18))).trials
        assert f"{trial.answer}" == "0." + "142857" * 3
        (trial,) = methods.compare(wide, Calculation("long", lambda m: methods.divide(
            m, 12_345_678_901_234_567_890, 3, places=15))).trials
        assert f"{trial.answer}" == "4115226300411522630.000000000000000"

    def test_answers_of_different_length_agree_where_they_are_the_same(self):
        comparison = methods.compare("bench", Calculation("two", lambda m: methods.divide(m, 1, 4, places=2)),
                                     Calculation("four", lambda m: methods.divide(m, 1, 4, places=4)))
        assert comparison.agree
        comparison = methods.compare("bench", Calculation("two", lambda m: methods.divide(m, 1, 8, places=2)),
                                     Calculation("four", lambda m: methods.divide(m, 1, 8, places=4)))
        assert not comparison.agree
        assert [label.get_text() for label in comparison.plot().get_yticklabels()] == ["two: 0.12", "four: 0.1250"]
        assert comparison.plot().get_title() == "Bench"

    def test_all_that_cost_the_least_are_the_best(self):
        one = Calculation("one", lambda m: methods.multiply(m, 12, 34))
        comparison = methods.compare("bench", one, Calculation("same", one.work), Calculation(
            "more", lambda m: methods.multiply(m, 12, 99)))
        assert [row[-1] for row in comparison.rows()] == ["best", "best", ""]
        assert comparison.best is comparison.trials[0]

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
        totals = [text.get_text().strip() for text in ax.texts if text.get_ha() == "left"]
        assert totals[:2] == ["refused", "refused"]
        assert sorted(totals[2:])[0].endswith("best")
        legend = [text.get_text() for text in ax.get_legend().get_texts()]
        assert legend == ["turns", "shifts", "settings", "levers", "clearings"]
        bars = [bar for bar in ax.patches if bar.get_width()]
        marks = {(bar.get_hatch(), bar.get_facecolor()) for bar in bars}
        assert len(marks) == len(legend)
        assert all(red == green == blue for _, (red, green, blue, _) in marks)
        lengths = sum(bar.get_width() for bar in bars)
        assert lengths == pytest.approx(sum(comparison.total(trial) for trial in comparison.trials if trial.cost))

    def test_it_can_be_read_from_the_back_of_a_room(self):
        """On a projector's picture, 1280 by 720: nothing smaller than a thirtieth of its height (a rule of thumb, no
        source), counts in every wide part, and nothing cut off."""
        comparison = methods.compare("bench", methods.ways_of_multiplying(347, 98))
        figure = comparison.plot().figure
        figure.set_dpi(100)
        figure.draw_without_rendering()
        assert figure.canvas.get_width_height() == (1280, 720)
        (ax,) = figure.axes
        ticks = [label for label in ax.get_xticklabels() if label.get_position()[0] <= ax.get_xlim()[1]]
        texts = [*ax.texts, ax.title, ax.xaxis.label, *ticks, *ax.get_yticklabels(), *ax.get_legend().get_texts()]
        assert min(text.get_fontsize() for text in texts) * 100 / 72 >= 720 / 30
        boxes = [text.get_window_extent() for text in texts if text.get_text()]
        assert all(box.x0 >= 0 and box.y0 >= 0 and box.x1 <= 1280 and box.y1 <= 720 for box in boxes)
        inside = [text.get_text() for text in ax.texts if text.get_ha() == "center"]
        assert inside[:5] == [str(trial.cost.turns) for trial in comparison.trials]

    def test_long_names_are_folded(self):
        way = Calculation("a way with a name that is longer than anybody reads", lambda m: methods.multiply(m, 2, 3))
        (label,) = methods.compare("bench", way).plot().get_yticklabels()
        assert label.get_text() == "a way with a name that is\nlonger than anybody reads"

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
