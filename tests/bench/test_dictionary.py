"""The fault dictionary: what every fault answers to every test, the same as the event-level machine would show."""

from __future__ import annotations

import numpy as np
import pytest

from bench.books import CATALOGUE, book_of
from mechcalc import InputError, MachineSpec, load_spec
from mechcalc.bench import CarryPinGone, CounterDirectionStuck, Machine, RatchetWorn, every_fault
from mechcalc.bench.candidates import Test, candidates
from mechcalc.bench.dictionary import fault_dictionary, hashes, numbered, with_pairs
from mechcalc.bench.fault_list import clash
from mechcalc.bench.hidden import NO_TEST, why_hidden
from mechcalc.bench.steps import run

SMALL = MachineSpec(setting_places=1, result_places=2, counter_places=1, carry_reach=2)


def shown(spec, faults, test):
    """What an event-level machine shows at a test's readings."""
    seen = run(Machine(spec, faults=faults), test.steps)
    return tuple(seen[done - 1] for done in test.reads)


class TestAnswers:
    """Two machines have the same number for a test exactly if they show the same at each of its readings."""

    def test_they_are_those_of_the_event_level_machine(self):
        book = fault_dictionary(SMALL, pairs=True)
        for number, test in enumerate(book.tests[::5]):
            answers = book.answers[5 * number]
            views = [shown(SMALL, book.faults_of(machine), test) for machine in range(0, len(book.seats), 37)]
            numbers = [int(answer) for answer in answers[::37]]
            for i, one in enumerate(views):
                assert [one == other for other in views] == [numbers[i] == other for other in numbers]

    def test_nought_is_what_a_sound_machine_shows(self):
        book = book_of("slate")
        assert not book.answers[:, 0].any()
        assert book.faults_of(0) == ()

    def test_numbers_are_small_and_begin_with_the_first(self):
        assert numbered(np.array([7, 3, 9, 7, 3])).tolist() == [0, 1, 2, 0, 1]

    def test_rows_that_differ_in_one_digit_have_other_hashes(self):
        rows = np.random.default_rng(1).integers(0, 10, size=(2000, 30), dtype=np.uint8)
        changed = rows.copy()
        changed[np.arange(2000), np.arange(2000) % 30] += 1
        assert (hashes(rows) != hashes(changed)).all()
        assert (hashes(rows) == hashes(rows.copy())).all()

    def test_pairs_that_cannot_be_are_left_out(self):
        faults = every_fault(SMALL)
        pairs = with_pairs(faults)
        n = len(faults)
        impossible = sum(clash(a, b) for i, a in enumerate(faults) for b in faults[:i])
        assert impossible == 9 + 1 + 1  # each number pin gone and stuck out; two directions; two latenesses
        assert len(pairs) == 1 + n + n * (n - 1) // 2 - impossible

    @pytest.mark.parametrize("workers", [1, 2])
    def test_workers_change_nothing_but_the_time(self, workers):
        told = []
        spec = load_spec("slate")
        book = fault_dictionary(spec, pairs=True, faults=every_fault(spec)[:140], tests=candidates(spec)[:3],
                                workers=workers, told=lambda done, of: told.append((done, of)))
        assert book.answers.any()
        assert told == [(1, 2), (2, 2)]

    def test_a_place_of_ones_own_to_work(self):
        """`sweep` stands for a cluster: it gets the work and the pieces."""
        spec = load_spec("slate")
        here = fault_dictionary(spec, tests=candidates(spec)[:2])
        there = fault_dictionary(spec, tests=candidates(spec)[:2], sweep=lambda work, pieces: [work(p) for p in pieces])
        assert np.array_equal(here.answers, there.answers)

    def test_no_worker_is_refused(self):
        with pytest.raises(InputError, match=r"^0 workers do nothing"):
            fault_dictionary(SMALL, workers=0)


class TestWhatCanBeRevealed:
    """Every fault of every machine of the catalogue is revealed, or listed with its reason."""

    @pytest.mark.parametrize("name", CATALOGUE)
    def test_single_faults_of_the_catalogue(self, name):
        book = book_of(name)
        assert book.undetected == ()
        assert len(set(book.classes())) == len(book.seats)  # and any two are told apart

    def test_what_stands_where_no_wheel_comes_has_a_reason(self):
        spec = MachineSpec(setting_places=2, result_places=3, counter_places=2, carry_reach=5)
        book = fault_dictionary(spec)
        hidden = [fault for machine in book.undetected for fault in book.faults_of(machine)]
        assert CarryPinGone(place=5, direction=1) in hidden
        assert all(why_hidden(spec, fault) != NO_TEST for fault in hidden)

    def test_a_subset_of_tests_tells_less(self):
        book = book_of("slate")
        assert len(set(book.classes([0]))) < len(set(book.classes([0, 1]))) < len(book.seats)
        assert set(book.classes([])) == {0}

    def test_a_direction_that_is_stuck_and_a_worn_ratchet_show_in_their_own_tests(self):
        book = fault_dictionary(load_spec("slate"), faults=[CounterDirectionStuck(direction=1), RatchetWorn()])
        revealing = {str(book.faults[machine - 1]): {test.name for test, answers in
                                                      zip(book.tests, book.answers, strict=True) if answers[machine]}
                     for machine in (1, 2)}
        assert revealing["the full-stroke ratchet is worn"] == {"gently back"}
        stuck = "the counter's direction is stuck: additive turns count up"
        assert "direction again after clearing" in revealing[stuck]


class TestTests:
    """What a test is."""

    @pytest.mark.parametrize("name", CATALOGUE)
    def test_a_sound_machine_can_do_all_of_them(self, name):
        spec = load_spec(name)
        for test in candidates(spec):
            seen = run(Machine(spec), test.steps)
            assert not any(view.yielded for view in seen), test.name
            assert Test.of(test.name, str(test)).steps == test.steps
        names = [test.name for test in candidates(spec)]
        assert len(set(names)) == len(names)

    @pytest.mark.parametrize(("text", "said"), [
        ("turn", "a test reads something after its steps"), ("read; turn", "a test reads something after its steps"),
        ("turn; read; read", "once at each place"),
        ("turn; read; turn", "after the last reading nothing is left to do")])
    def test_what_is_no_test(self, text, said):
        with pytest.raises(InputError) as error:
            Test.of("mine", text)
        assert said in str(error.value)

    def test_work_is_counted_by_stated_weights(self):
        assert Test.of("mine", "set 909; turn 3; shift; read; clear result; read").work == 3 + 1 + 1 + 2 * 0.5 + 2 * 2
