"""Tracing: what was read, what still explains it, and what to ask next.

The rule of the most informative question: J. de Kleer and B. C. Williams, "Diagnosing multiple faults", Artificial
Intelligence 32 (1987), 97-130. It is compared here with trying every order of tests (`trees`).
"""

from __future__ import annotations

from random import Random

import numpy as np
import pytest

from bench.books import book_of
from bench.trees import least_expected_tests
from mechcalc import InputError, MachineSpec, load_spec
from mechcalc.bench import CarryLeverWeak, CarryPinGone, Machine, NumberPinGone, RatchetWorn, every_fault
from mechcalc.bench.choosing import best_test, information
from mechcalc.bench.dictionary import fault_dictionary
from mechcalc.bench.fault_list import clash
from mechcalc.bench.prior import Prior
from mechcalc.bench.readings import Reading, reading_from_dict
from mechcalc.bench.tracing import Tracing, readings_of

SLATE = load_spec("slate")
TINY = MachineSpec(setting_places=1, result_places=1, counter_places=1, carry_reach=1)
SMALL = MachineSpec(setting_places=1, result_places=2, counter_places=1, carry_reach=2)
MIDDLE = MachineSpec(setting_places=2, result_places=3, counter_places=2, carry_reach=3)


def traced(spec, faults, *, most=30, spoil=None, **options):
    """A session on a machine with hidden faults, to its end; `spoil` changes the readings of one test."""
    trace, real = Tracing(spec, **options), Machine(spec, faults=faults)
    while (advice := trace.next_test()) is not None and len(trace.history) < most:
        readings = readings_of(real, advice.test)
        if spoil and len(trace.history) == spoil[0]:
            readings = (spoil[1](readings[0]), *readings[1:])
        trace.record(advice.test, readings)
    return trace


class TestASingleFault:
    """It is found, whatever it is."""

    @pytest.mark.parametrize("name", ["slate", "plain", "short"])
    def test_tracing_ends_in_its_class(self, name):
        spec = load_spec(name)
        faults = every_fault(spec)
        classes = book_of(name).classes()
        for hidden in Random(3).sample(range(len(faults)), 5):
            trace = traced(spec, [faults[hidden]], pairs=False, misreadings=0)
            left = {faults.index(explanation.faults[0]) for explanation in trace.explanations()}
            assert hidden in left
            assert len({classes[index + 1] for index in left}) == 1

    def test_also_where_two_faults_and_a_misreading_are_thought_of(self):
        for fault in Random(5).sample(every_fault(SLATE), 2):
            assert traced(SLATE, [fault]).explanations()[0].faults == (fault,)

    def test_a_sound_machine_is_found_sound(self):
        best = traced(SLATE, []).explanations()[0]
        assert (best.faults, best.misreadings, str(best)) == ((), 0, "nothing is wrong")
        assert best.share > 0.9

    @pytest.mark.parametrize("spec", [TINY, SMALL], ids=["one wheel", "two wheels"])
    def test_it_takes_at_most_a_fifth_more_tests_than_the_best_tree(self, spec):
        """The best tree by trying all; weights are those of the prior."""
        book = fault_dictionary(spec)
        weights = Prior().weights(book.faults, np.concatenate([book.seats, np.full_like(book.seats, -1)], axis=1))
        classes: dict[int, list[int]] = {}
        for machine, number in enumerate(book.classes()):
            classes.setdefault(int(number), []).append(machine)
        columns = [tuple(book.answers[:, members[0]].tolist()) for members in classes.values()]
        shares = [float(weights[members].sum()) for members in classes.values()]
        least = least_expected_tests(columns, shares)
        used = [len(traced(spec, book.faults_of(members[0]), pairs=False, misreadings=0, worth=1e-9).history)
                for members in classes.values()]
        assert sum(share * many for share, many in zip(shares, used, strict=True)) / sum(shares) <= 1.2 * least


class TestTwoFaults:
    """Pairs are traced in nine cases of ten or better."""

    def test_on_random_pairs(self):
        chance, faults, found = Random(11), every_fault(MIDDLE), 0
        pairs = []
        while len(pairs) < 20:
            pair = chance.sample(faults, 2)
            if not clash(*pair):
                pairs.append(pair)
        for pair in pairs:
            left = traced(MIDDLE, pair, most=15).explanations(5)
            found += any(set(explanation.faults) == set(pair) for explanation in left)
        assert found >= 18


class TestAMisreading:
    """One reading may be written down wrong, and the true fault stays in the list."""

    @pytest.mark.parametrize("which", [0, 1, 2])
    def test_whichever_test_it_was(self, which):
        fault = CarryPinGone(place=3, direction=1)

        def wrong(reading):
            return Reading(**{**reading.to_dict(), "result": (reading.result + 10) % 10**6})
        trace = traced(SLATE, [fault], spoil=(which, wrong))
        assert fault in {only for explanation in trace.explanations(50) if explanation.misreadings <= 1
                         for only in explanation.faults}

    def test_explanations_that_need_none_come_first(self):
        listed = traced(SLATE, [NumberPinGone(place=2, pin=4)], most=2).explanations(500)
        slips = [explanation.misreadings for explanation in listed]
        assert slips == sorted(slips)
        assert slips[0] == 0


class TestNothingFits:
    """Said plainly, with what comes nearest."""

    def test_readings_that_no_two_faults_give(self):
        trace = Tracing(SLATE)
        for digit in (3, 5, 7):
            test = next(test for test in trace.tests if test.name == f"all {digit}")
            trace.record(test, [{"result": 123456, "counter": 77, "setting": 0}])
        assert trace.explanations() == ()
        assert trace.left == 0
        assert trace.next_test() is None
        nearest = trace.closest()
        assert len(nearest) == 5
        assert all(explanation.misreadings >= 2 for explanation in nearest)


class TestASession:
    """Recording, leaving out, taking back."""

    def test_what_was_not_read_counts_for_nothing(self):
        trace = Tracing(SLATE)
        test = next(test for test in trace.tests if test.name == "all 9")
        before = trace.left
        trace.record(test, [{"bell": False}])
        assert trace.left == before  # no fault rings the bell there

    def test_taking_back_brings_everything_back(self):
        trace = Tracing(SLATE)
        first = trace.next_test()
        real = Machine(SLATE, faults=[CarryLeverWeak(wheel=2)])
        trace.record(first.test, readings_of(real, first.test))
        kept = trace.explanations()
        second = trace.next_test()
        trace.record(second.test, readings_of(real, second.test))
        assert trace.take_back().test == second.test
        assert trace.explanations() == kept
        assert trace.next_test() == second
        trace.take_back()
        assert trace.take_back() is None

    def test_a_machine_is_followed_from_one_test_to_the_next(self):
        """What clearing leaves behind stays: nobody has to put it right by hand."""
        from mechcalc.bench import ClearingToothGone
        trace = traced(SLATE, [ClearingToothGone(wheel=3)])
        assert trace.explanations()[0].faults == (ClearingToothGone(wheel=3),)

    def test_advice_says_why(self):
        advice = Tracing(SLATE).next_test()
        assert advice.why == (f"It divides what is left into {advice.groups} groups by what can be read; the likeliest "
                              f"answer has {advice.largest:.0%}. That is {advice.bits:.2f} bits of information.")

    @pytest.mark.parametrize(("readings", "said"), [
        ([], "something is read at 1 places, not at 0"), ([None], "nothing was read"),
        ([{"result": 10**6}], "the result cannot show 1000000: it has 6 wheels, and shows 0 to 999999"),
        ([{"bells": True}], "'bells' cannot be read: there are result, counter, setting, bell, yielded"),
        ([{"bell": "yes"}], "bell is yes or no (True or False), not 'yes'"),
        ([{"counter": -1}], "the counter cannot show -1"), (["999"], "give a Reading or a dict, not '999'")])
    def test_what_is_refused_changes_nothing(self, readings, said):
        trace = Tracing(SLATE)
        test = next(test for test in trace.tests if test.name == "all 9")
        before = trace.left
        with pytest.raises(InputError) as error:
            trace.record(test, readings)
        assert said in str(error.value)
        assert (trace.history, trace.left) == ((), before)

    def test_numbers_may_come_from_numpy_or_text_of_a_file(self):
        assert reading_from_dict(SLATE, {"result": np.int64(12)}) == Reading(result=12)


class TestThePrior:
    """A choice, that can be changed."""

    def test_shares_add_up_and_follow_the_figures(self):
        faults = every_fault(SLATE)
        trace = Tracing(SLATE, prior=Prior(sound=0.5, second=0.2))
        weights = trace.prior.weights(faults, trace.seats)
        many = (trace.seats >= 0).sum(axis=1)
        assert weights.sum() == pytest.approx(1)
        assert weights[many == 0].sum() / weights[many == 1].sum() == pytest.approx(1)
        assert weights[many == 2].sum() / weights[many == 1].sum() == pytest.approx(0.2)

    def test_a_kind_thought_likelier_comes_first(self):
        likely = Tracing(SLATE, prior=Prior(kinds={"full-stroke ratchet worn": 50}))
        assert likely.next_test().test.name == "gently back"
        trace = Tracing(SLATE, prior=Prior(sound=0.0, kinds={"full-stroke ratchet worn": 50}))
        test = next(test for test in trace.tests if test.name == "all 9")
        trace.record(test, [{"bell": False}])
        assert trace.explanations()[0].faults == (RatchetWorn(),)

    @pytest.mark.parametrize(("figures", "said"), [
        ({"sound": 1.0}, "the prior's sound cannot be 1"), ({"second": 0.0}, "the prior's second cannot be 0"),
        ({"misread": 0.5}, "the prior's misread cannot be 0.5"),
        ({"kinds": {"rust": 1.0}}, "the prior gives a weight to 'rust', which is no kind of fault"),
        ({"kinds": {"setting lock worn": 0.0}}, 'the weight of "setting lock worn" cannot be 0: more than 0')])
    def test_what_it_cannot_be(self, figures, said):
        with pytest.raises(InputError) as error:
            Prior(**figures)
        assert said in str(error.value)


class TestTheChoice:
    """Information, and two tests ahead."""

    def test_information_of_equal_parts_is_their_logarithm(self):
        """n equally likely answers: log2 n bits (C. E. Shannon, 1948; from memory)."""
        assert information(np.arange(8)[None], np.full(8, 1 / 8))[0] == 3.0
        assert information(np.zeros((1, 8), int), np.full(8, 1 / 8))[0] == 0.0

    def test_less_work_decides_between_equals(self):
        codes = np.array([[1, 2], [1, 2]])
        assert best_test(codes, np.array([0.5, 0.5]), np.array([5.0, 3.0]))[0] == 1

    def test_two_ahead_beats_one_where_the_most_informative_leaves_more_to_do(self):
        """Six things: A splits 2, 2, 2 and nothing but two more tests would finish; B splits 3, 3 and C ends both."""
        codes = np.array([[0, 0, 1, 1, 2, 2], [0, 0, 0, 1, 1, 1], [0, 1, 2, 0, 1, 2]])
        bits = information(codes, np.full(6, 1 / 6))
        assert bits[0] == bits[2] > bits[1]
        assert best_test(codes, np.full(6, 1 / 6), np.array([1.0, 3.0, 3.0]))[0] in (0, 2)
