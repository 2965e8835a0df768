"""Cases to practise on: what is hidden stays hidden, and an answer is judged by what was read."""

from __future__ import annotations

import inspect
from itertools import combinations

import numpy as np
import pytest

from mechcalc import InputError
from mechcalc.bench import CarryPinGone, RatchetWorn, SettingLockWorn, cases, every_fault
from mechcalc.bench.candidates import Test
from mechcalc.bench.cases import GRADES, case, windows
from mechcalc.bench.fault_list import text_of
from mechcalc.bench.judging import contradiction, least_in_hindsight
from mechcalc.bench.machine import Machine
from mechcalc.bench.tracing import readings_of

NUMBERS = range(1, len(GRADES) + 1)


def hidden_in(one):
    """What is wrong, for the tests of this file only."""
    return one._hidden


class TestACase:
    """Something hidden, drawn from a seed."""

    def test_there_are_ten_up_to_two_faults_and_not_easier_towards_the_end(self):
        many = [case(number).many for number in NUMBERS]
        assert len(many) == 10
        assert many == sorted(many)
        assert set(many) == {1, 2}

    @pytest.mark.parametrize("number", NUMBERS)
    def test_it_is_the_same_whenever_it_is_opened_and_of_its_grade(self, number):
        one, again, grade = case(number), case(number), GRADES[number - 1]
        assert hidden_in(one) == hidden_in(again)
        assert len(hidden_in(one)) == grade.many
        assert all(isinstance(fault, grade.kinds) for fault in hidden_in(one))
        assert set(hidden_in(one)) <= set(every_fault(one.spec))

    @pytest.mark.parametrize("number", NUMBERS)
    def test_it_shows(self, number):
        """Some test of the list is answered otherwise than by a sound machine, and with two faults than by one."""
        one = case(number)
        fewer = [(), *((fault,) for fault in hidden_in(one) if one.many > 1)]
        for faults in fewer:
            assert any(readings_of(Machine(one.spec, faults=hidden_in(one)), test)
                       != readings_of(Machine(one.spec, faults=faults), test) for test in one.tests)

    def test_other_seeds_hide_other_things(self):
        assert len({hidden_in(case(3, seed)) for seed in range(12)}) > 4

    @pytest.mark.parametrize("number", NUMBERS)
    def test_nothing_that_it_says_holds_it(self, number):
        one = case(number)
        one.read("all 9")
        public = [getattr(one, name) for name in dir(one) if not name.startswith("_") and name not in ("tests", "best")]
        said = " ".join([repr(one), str(one), inspect.getsource(cases), *map(repr, public)])
        for fault in hidden_in(one):
            assert repr(fault) not in said
            assert str(fault) not in said
            assert text_of(fault) not in said

    @pytest.mark.parametrize(("given", "said"), [
        (0, "the number of a case cannot be 0"), (11, "the number of a case cannot be 11"),
        ("three", "the number of a case"), (2.5, "the number of a case")])
    def test_there_is_no_other(self, given, said):
        with pytest.raises(InputError) as error:
            case(given)
        assert said in str(error.value)


class TestReading:
    """Tests are done on the machine, one after another, and what was read is kept."""

    def test_it_shows_what_the_event_level_machine_shows(self):
        one = case(9)
        real = Machine(one.spec, faults=hidden_in(one))
        for name in ("all 9", "ones, ten times", "nines and one", "all 9"):
            test = next(test for test in one.tests if test.name == name)
            assert one.read(name) == readings_of(real, test)
        assert [done.test.name for done in one.done] == ["all 9", "ones, ten times", "nines and one", "all 9"]

    def test_steps_of_ones_own_are_read_at_the_end(self):
        one = case(1)
        (reading,) = one.read("set 12; turn 2")
        assert reading.setting == 12
        assert one.done[0].test.name == "a test of your own"

    def test_the_table_shows_every_wheel(self):
        table = case(2).do("set 1; turn; read; turn -1")
        assert [len(cell) for cell in table.rows[0][1:4]] == [6, 3, 4]
        assert [row[0] for row in table.rows] == ["2 steps", "3 steps"]

    @pytest.mark.parametrize("what", ["all 99", "set 99999; turn", "shift 9; turn", 7, "", "read"])
    def test_what_cannot_be_done_moves_nothing(self, what):
        one = case(1)
        with pytest.raises(InputError):
            one.read(what)
        assert one.done == ()

    def test_what_was_left_out_is_said_to_be(self):
        from mechcalc.bench.readings import Reading
        from mechcalc.bench.tracing import Done
        one = case(1)
        table = windows(one.spec, Done(Test.of("x", "turn; read; turn; read"), (None, Reading(counter=2))))
        assert table.rows == (("1 step", "not read", "not read", "not read", "not noticed", "not noticed"),
                              ("2 steps", "not read", "002", "not read", "not noticed", "not noticed"))


class TestTheVerdict:
    """An answer is right, right as far as tests can tell, contradicted, or still open."""

    @pytest.mark.parametrize("number", [1, 3, 5, 10])
    def test_what_is_hidden_is_right_in_any_order_and_as_text(self, number):
        one = case(number)
        assert one.verdict(*reversed(hidden_in(one))).outcome == "right"
        assert one.verdict(*map(text_of, hidden_in(one))).outcome == "right"

    def test_a_right_answer_says_whether_the_readings_bear_it_out(self):
        one = case(2)
        assert "182 other answers" in one.verdict(*hidden_in(one)).words
        for test in one.tests:
            one.read(test)
        verdict = one.verdict(*hidden_in(one))
        assert verdict.words.endswith("Your readings leave nothing else.")
        assert verdict.used == f"{len(one.tests)} tests used"

    def test_a_wrong_one_is_open_until_a_reading_contradicts_it(self):
        one = case(3)
        assert one.verdict(SettingLockWorn()).outcome == "open"
        one.read("all 3")
        assert one.verdict(SettingLockWorn()).outcome == "open"
        one.read("a lever during a turn")
        said = one.verdict(SettingLockWorn())
        assert said.outcome == "wrong"
        assert "in “a lever during a turn” something would have given way, and nothing did." in said.words
        assert str(said).endswith("2 tests used.")

    def test_a_contradiction_is_one(self):
        """What it says the machine would have shown, such a machine shows."""
        one = case(1)
        one.read("ones, ten times")
        where = contradiction(one.spec, [CarryPinGone(place=2, direction=1)], one.done)
        real = Machine(one.spec, faults=[CarryPinGone(place=2, direction=1)])
        (would,) = readings_of(real, one.done[0].test)
        read = one.done[0].readings[0].result
        assert f"the result would have shown {would.result:06d}, and you read {read:06d}" in where

    def test_what_no_test_tells_apart_counts_as_right(self):
        """Two faults of which one hides another: pairs of a case's machine that answer alike to every test."""
        one = case(8)
        _, first, groups, many = np.unique(one._codes, axis=1, return_index=True, return_inverse=True,
                                           return_counts=True)
        crowded = int(np.flatnonzero(many > 1)[0])
        assert first[crowded] >= 0
        members = np.flatnonzero(groups.reshape(-1) == crowded)[:2]
        hidden, alike = (tuple(one._all[index] for index in one._seats[member]) for member in members)
        one._hidden = hidden
        assert one.verdict(*alike).outcome == "same class"
        assert one.verdict(*alike).words.startswith("Right as far as any test can tell: ")
        assert one.verdict(*hidden).outcome == "right"

    @pytest.mark.parametrize(("answer", "said"), [
        ((), "One thing is wrong with it. You named 0."), ((RatchetWorn(), SettingLockWorn()), "You named 2."),
        (("carry pin lost",), "is no kind of fault"), ((CarryPinGone(place=7, direction=1),), "is not on this machine"),
        ((3,), "faults are given as a list")])
    def test_what_is_no_answer(self, answer, said):
        with pytest.raises(InputError) as error:
            case(1).verdict(*answer)
        assert said in str(error.value)


class TestTheBest:
    """How few tests could have done it."""

    def test_in_hindsight_against_trying_every_choice(self):
        for number in (1, 2, 3):
            one = case(number)
            column = one._codes[:, one._where_hidden]
            many = one.best.hindsight
            others = [other for other in one._codes.T if (other != column).any()]
            enough = [choice for size in range(many + 1) for choice in combinations(range(len(column)), size)
                      if all((other[list(choice)] != column[list(choice)]).any() for other in others)]
            assert one.best.proved
            assert enough
            assert min(map(len, enough)) == many

    def test_a_machine_like_no_other_at_the_first_test_needs_one(self):
        codes = np.array([[0, 1, 2], [0, 0, 1]])
        assert least_in_hindsight(codes, 1) == (1, True)

    @pytest.mark.parametrize("number", [3, 8])
    def test_the_kits_own_choice_is_never_below_it(self, number):
        best = case(number).best
        assert 1 <= best.hindsight <= best.by_advice
        assert str(best).startswith(f"In hindsight {best.hindsight} tests would have left nothing else (proved: ")

    def test_a_session_takes_over_what_was_read(self):
        one = case(4)
        one.read("all 9")
        one.read("nines and one")
        assert one.trace().history == one.done
