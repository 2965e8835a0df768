"""The choice of tests: the least that does it, proved, and compared with trying every choice.

That a set cover is an integer program, and that the greedy choice can be worse than the best by a factor of up to
1 + 1/2 + ... + 1/n: V. Chvátal, "A greedy heuristic for the set-covering problem", Mathematics of Operations Research 4
(1979), 233-235 (quoted from memory).
"""

from __future__ import annotations

from itertools import combinations
from math import ceil, log2
from random import Random

import pytest

from bench.books import CATALOGUE, book_of
from mechcalc import InputError, MachineSpec, load_spec
from mechcalc.bench import Machine, every_fault
from mechcalc.bench.candidates import candidates
from mechcalc.bench.dictionary import fault_dictionary
from mechcalc.bench.plan import cheapest, greedy, lost_in_a_row, minimal, needs_of, plan
from mechcalc.bench.steps import run

TINY = MachineSpec(setting_places=1, result_places=1, counter_places=1, carry_reach=1)
SMALL = MachineSpec(setting_places=1, result_places=2, counter_places=1, carry_reach=2)


def by_trying(needs, many):
    """The size of the smallest choice, by trying all choices in order of size."""
    for size in range(many + 1):
        for choice in combinations(range(many), size):
            chosen = sum(1 << test for test in choice)
            if all(need & chosen for need in needs):
                return size
    raise AssertionError


class TestTheCheapestChoice:
    """It covers every need, and none is cheaper."""

    def test_against_every_choice_on_random_covers(self):
        chance = Random(5)
        for _ in range(60):
            many = chance.randint(2, 10)
            needs = [chance.randrange(1, 1 << many) for _ in range(chance.randint(1, 12))]
            chosen, bound = cheapest(minimal(set(needs)), [1.0] * many)
            assert all(any(need >> test & 1 for test in chosen) for need in needs)
            assert len(chosen) == by_trying(needs, many) == bound

    def test_against_every_choice_on_a_small_machine(self):
        book = fault_dictionary(TINY, tests=[test for test in candidates(TINY) if not test.name.startswith("all ")])
        needs = minimal(needs_of(book.answers, True))
        used = sorted({test for need in needs for test in range(len(book.tests)) if need >> test & 1})
        renamed = [sum(1 << used.index(test) for test in used if need >> test & 1) for need in needs]
        assert len(plan(book).tests) == by_trying(renamed, len(used))

    def test_weights_decide(self):
        assert cheapest([0b11], [3.0, 2.0]) == ([1], 2.0)

    def test_the_textbook_case_where_greed_costs_more(self):
        """Ground set 1 to 6; {1 to 4} is largest and greedy takes it, but {1, 2, 5} and {3, 4, 6} do it in two."""
        sets = [{1, 2, 3, 4}, {1, 2, 5}, {3, 4, 6}]
        needs = [sum(1 << number for number, members in enumerate(sets) if element in members)
                 for element in range(1, 7)]
        assert len(greedy(needs, [1.0] * 3)) == 3
        assert cheapest(minimal(set(needs)), [1.0] * 3)[0] == [1, 2]

    def test_nothing_to_cover_costs_nothing(self):
        assert cheapest([], [1.0]) == ([], 0.0)

    def test_no_time_gives_a_choice_and_an_honest_bound(self):
        chance = Random(1)
        needs = [sum(1 << chance.randrange(60) for _ in range(5)) for _ in range(120)]
        chosen, bound = cheapest(needs, [1.0] * 60, seconds=1e-6)
        assert all(any(need >> test & 1 for test in chosen) for need in needs)
        assert bound <= len(chosen)


class TestAPlan:
    """For every machine of the catalogue: it reveals everything and tells everything apart."""

    @pytest.mark.parametrize("name", CATALOGUE)
    @pytest.mark.parametrize("aim", ["fewest tests", "least work"])
    def test_it_is_proved_least_and_enough(self, name, aim):
        book = book_of(name)
        chosen = plan(book, aim=aim)
        numbers = [book.tests.index(test) for test in chosen.tests]
        assert (book.classes(numbers) == 0).sum() == 1 + len(book.undetected)
        assert len(set(book.classes(numbers))) == len(set(book.classes()))
        assert chosen.proved
        assert chosen.gap == 0
        cost = len if aim == "fewest tests" else lambda tests: sum(test.work for test in tests)
        assert chosen.cost == cost(chosen.tests) <= cost(chosen.greedy)

    @pytest.mark.parametrize("name", CATALOGUE)
    def test_it_is_enough_when_the_tests_follow_one_another(self, name):
        """With nothing put right by hand between the tests."""
        assert lost_in_a_row(plan(book_of(name))) == ()

    def test_it_is_enough_on_event_level_machines(self):
        """Every single fault of slate does the plan's steps in a row; no two show the same throughout."""
        spec = load_spec("slate")
        chosen = plan(fault_dictionary(spec))
        steps = chosen.steps()
        machines = [Machine(spec), *(Machine(spec, faults=[fault]) for fault in every_fault(spec))]
        shown = {run(machine, steps) for machine in machines}
        assert len(shown) == 1 + len(every_fault(spec))

    def test_without_telling_apart_it_is_shorter(self):
        book = book_of("bench")
        brief = plan(book, tell_apart=False)
        assert len(brief.tests) < len(plan(book).tests)
        numbers = [book.tests.index(test) for test in brief.tests]
        assert (book.classes(numbers) == 0).sum() == 1

    def test_it_cannot_be_shorter_than_its_outcomes_allow(self):
        """To tell n things apart by tests with at most k outcomes takes at least log n / log k of them (counting)."""
        book = book_of("bench")
        most = max(len(set(row)) for row in book.answers.tolist())
        assert len(plan(book).tests) >= ceil(log2(len(book.seats)) / log2(most))

    def test_a_test_that_must_be_there_is_there(self):
        book = book_of("slate")
        assert "noughts" in {test.name for test in plan(book, must=["noughts"]).tests}

    def test_faults_that_no_test_reveals_are_listed_with_the_reason(self):
        spec = MachineSpec(setting_places=2, result_places=3, counter_places=2, carry_reach=5)
        chosen = plan(fault_dictionary(spec))
        assert "no number wheel ever stands before place 5: the register has 3" in {why for _, why in chosen.undetected}

    def test_faults_that_no_test_tells_apart_are_grouped(self):
        """On one wheel with one place, a carry lever has nothing to do but ring the bell."""
        chosen = plan(fault_dictionary(SMALL))
        assert all(len(group) > 1 for group in chosen.same)

    @pytest.mark.parametrize(("wish", "said"), [({"aim": "quickest"}, "the aim 'quickest' is none"),
                                                ({"must": ["guess"]}, "there is no test 'guess' in the book")])
    def test_what_is_refused(self, wish, said):
        with pytest.raises(InputError) as error:
            plan(fault_dictionary(TINY), **wish)
        assert said in str(error.value)
