"""Interlocks taken apart: what is said of each is cranked, every state is tried, and the tries tell what holds."""

from __future__ import annotations

from itertools import product
from math import ceil, log2

import pytest

from mechcalc import Locked, Machine, load_spec
from mechcalc.classroom import ready
from mechcalc.classroom.lock_chart import MOVEMENTS, lock_chart, lock_grid
from mechcalc.classroom.lock_tries import TRIES, Decision, Finding, cases, decision, find_lock, trial, try_table
from mechcalc.classroom.locks import (
    LETTERS,
    SEEN,
    condition,
    holds_everywhere,
    letters,
    lock_table,
    reachable,
    told_way,
    way_out,
    who_blocks,
    why_table,
    without,
)
from mechcalc.errors import InputError
from mechcalc.interlocks import INTERLOCKS

EVERY_MOVEMENT = [("crank", 1.0), ("crank", -1.0), ("crank", 360.0), ("set", 3), ("set lever", (2, 5)), ("shift", 1),
                  ("ease", 1), ("clear setting", None), ("clear result", None), ("clear counter", None),
                  ("pull", ("result", 10.0)), ("transfer lever", True), ("transfer lever", False)]


class TestWhoBlocks:
    """All interlocks that block a movement, and none that does not."""

    @pytest.mark.parametrize("move", EVERY_MOVEMENT, ids=str)
    def test_it_agrees_with_the_machine_in_every_state(self, move):
        """Somebody blocks exactly where the machine refuses; a refusal is the first one's."""
        for machine in reachable():
            blocking = who_blocks(machine, *move)
            if not blocking:
                machine.would(*move)
                continue
            with pytest.raises(Locked) as no:
                machine.would(*move)
            assert no.value.frees == next(rule.frees for rule in INTERLOCKS if rule.name == blocking[0])

    def test_a_missing_interlock_blocks_nothing(self):
        machine = ready("slate")
        machine.ease_carriage(1)
        assert who_blocks(without(machine, "carriage seated"), "crank", 1.0) == ()


class TestWithout:
    """What would go wrong, as the second table says; oracles are sums on paper."""

    def test_ratchet(self):
        """267 + 5 begun and turned back is 257: the carry of wheel 1 is taken from wheel 2 instead of given to it."""
        machine = without(ready("slate", result=267, setting=5), "full-stroke ratchet")
        _ = machine.crank(223.0), machine.crank(-223.0)
        assert (machine.result, machine.state.direction, any(machine.state.levers)) == (267 - 10, 0, False)

    @pytest.mark.parametrize(("result", "setting"), [(12, 34), (500, 499), (0, 9999)])
    def test_ratchet_where_no_wheel_passes_nine(self, result, setting):
        """Without a carry turning back is harmless: what goes wrong is the carry."""
        machine = without(ready("slate", result=result, setting=setting), "full-stroke ratchet")
        _ = machine.crank(223.0), machine.crank(-223.0)
        assert machine.result == result

    @pytest.mark.parametrize(("was", "now"), list(product(range(10), range(10))))
    def test_setting_lock(self, was, now):
        """Stopped after four pins: of these the old digit's count, of the other five the new one's."""
        machine = without(ready("slate", setting=was), "setting lock")
        _ = machine.crank(180.0), machine.set_lever(1, now), machine.finish_turn()
        assert machine.result == min(was, 4) + max(now - 4, 0)

    def test_crank_at_rest_shift(self):
        """7 + 5 loses its ten to the next sum."""
        machine = without(ready("slate", result=7, setting=5), "crank at rest")
        _ = machine.crank(223.0), machine.shift(1), machine.finish_turn()
        assert (machine.result, machine.counter) == (2, 10)
        _ = machine.shift(-1), machine.clear_result(), machine.set(0), machine.turn()
        assert machine.result == 10

    def test_crank_at_rest_clearing(self):
        """9 cleared after four of its nine pins leaves five."""
        machine = without(ready("slate", setting=9), "crank at rest")
        _ = machine.crank(180.0), machine.clear_result(), machine.finish_turn()
        assert machine.result == 5

    def test_clearing_lever_at_home(self):
        """Half cleared, 347 is neither 347 nor 0; the turn adds to that."""
        machine = without(ready("slate", result=347, setting=5), "clearing lever at home")
        machine.pull_clearing_lever("result", 50.0)
        half = machine.result
        machine.turn()
        assert 0 < half < 347
        assert machine.result == half + 5

    def test_back_transfer_free(self):
        """Shifted while geared, the digits go to other levers: 347 arrives as 34."""
        machine = without(ready("slate", result=347), "back transfer free")
        _ = machine.engage_transfer(), machine.shift(1), machine.clear_result()
        assert machine.setting == 34

    def test_the_machine_itself_is_not_touched(self):
        machine = ready("slate", setting=5)
        without(machine, "setting lock").turn()
        assert (machine.result, machine.strokes) == (0, ())

    def test_a_name_that_is_none(self):
        with pytest.raises(InputError, match=r"^'ratchet' is no interlock: there are full-stroke ratchet, "):
            without(ready("slate"), "ratchet")


class TestTables:
    """Worked out from the rules."""

    def test_every_interlock_has_its_row(self):
        names = tuple(rule.name for rule in INTERLOCKS)
        assert lock_table().column("interlock") == why_table().column("interlock") == tuple(SEEN) == names
        assert lock_table().column("what frees it") == tuple(rule.frees for rule in INTERLOCKS)

    def test_what_is_not_worked_out_is_marked(self):
        """No test above cranks these: a mark says that there is no source."""
        marked = {name for name, (_, spared) in SEEN.items() if "(*)" in spared}
        assert marked == {"clearing lever at home", "back transfer free", "carriage seated", "carriage stop"}
        assert why_table().remark.startswith("(*) common practice of the trade, no source")

    def test_words_start_at_the_left(self):
        assert '<th scope="row" style="text-align: left">setting lock</th>' in lock_table()._repr_html_()


def brute_force() -> set[str]:
    """What can be off together, found by making every row of three movements."""
    moves = [("crank", 120.0), ("crank", -120.0), ("pull", ("result", 45.0)), ("pull", ("counter", 45.0)),
             ("transfer lever", True), ("transfer lever", False), ("ease", 1), ("pull", ("result", 0.0))]
    found = set()
    for row in product(moves, repeat=3):
        machine = ready("slate", setting=3, result=4)
        for move in row:
            try:
                machine.perform(*move)
            except Locked:
                continue
            found.add(letters(machine.state))
    return found | {""}


class TestReachable:
    """Every state of being off."""

    def test_the_same_as_by_trying_every_row_of_movements(self):
        assert {letters(machine.state) for machine in reachable()} == brute_force()

    def test_a_begun_turn_stands_alone_and_transfer_and_easing_exclude_each_other(self):
        for machine in reachable():
            off = letters(machine.state)
            assert off in ("A", "S") or not {"A", "S"} & set(off)
            assert not {"T", "E"} <= set(off)

    def test_no_interlock_stops_a_turn_that_goes_on(self):
        """What does is a fault. (The lesson's exercise "stops half way".)"""
        for machine in reachable():
            if machine.state.direction:
                assert who_blocks(machine, "crank", 1.0 * machine.state.direction) == ()

    def test_machines_are_fresh_each_time(self):
        reachable()[0].turn()
        assert reachable()[0].strokes == ()


class TestLogic:
    """Formulas over letters, held against every state."""

    @pytest.mark.parametrize("move", EVERY_MOVEMENT, ids=str)
    def test_each_movement_has_a_formula_that_holds(self, move):
        assert holds_everywhere(condition(*move), *move)

    def test_the_crank(self):
        from sympy import And, Not, symbols
        a, s, lever, transfer, eased = symbols("A S L T E")
        assert condition("crank", 1.0) == And(Not(s), Not(lever), Not(transfer), Not(eased))
        assert condition("crank", -1.0) == And(Not(a), Not(lever), Not(transfer), Not(eased))

    def test_a_formula_that_leaves_something_out_is_noticed(self):
        from sympy import And, Not, symbols
        lever, transfer, eased = symbols("L T E")
        assert not holds_everywhere(And(Not(lever), Not(transfer), Not(eased)), "crank", 1.0)


class TestWayOut:
    """The fewest movements, each free when its turn comes."""

    @pytest.mark.parametrize("direction", [1, -1])
    def test_from_every_state_the_crank_is_freed(self, direction):
        for machine in reachable():
            for operation, argument in way_out(machine, "crank", 1.0 * direction):
                machine.perform(operation, argument)
            machine.perform("crank", 1.0 * direction)

    def test_a_free_movement_needs_none(self):
        assert way_out(ready("slate")) == ()
        assert told_way(()) == "Nothing has to be put right."

    def test_both_levers_and_the_carriage_take_three(self):
        machine = ready("slate")
        _ = machine.pull_clearing_lever("result", 5.0), machine.pull_clearing_lever("counter", 5.0)
        machine.ease_carriage(1)
        assert told_way(way_out(machine)).splitlines() == [
            "1. Return the result clearing lever.", "2. Return the counter clearing lever.",
            "3. Seat the carriage at position 1."]
        assert max(len(way_out(one)) for one in reachable()) == 3

    def test_a_begun_turn_is_finished_first(self):
        machine = ready("slate")
        machine.crank(-100.0)
        assert way_out(machine, "shift", 1) == (("crank", -260.0),)
        assert told_way(way_out(machine, "shift", 1)) == "1. Finish the turn."

    def test_what_cannot_be_freed(self):
        """A stop at the end of the way is no matter of putting right."""
        with pytest.raises(InputError, match="nothing that is put right frees this movement: shift"):
            way_out(ready("slate"), "shift", -1)


class TestTries:
    """Two tries tell four causes apart."""

    @pytest.mark.parametrize("direction", [1, -1])
    def test_the_order_takes_as_few_as_can_be(self, direction):
        """n causes and tries with two answers: at least log2 n of them, rounded up."""
        assert decision(direction).most == ceil(log2(len(cases(direction)))) == 2

    @pytest.mark.parametrize("direction", [1, -1])
    def test_what_is_found_does_hold_the_crank_in_every_state(self, direction):
        """Where two things are off as well."""
        for machine in reachable():
            holding = who_blocks(machine, "crank", 1.0 * direction)
            found = find_lock(machine, direction)
            assert found.lock in holding if holding else found == Finding(None, ())
            assert len(found.tries) <= 2
            assert machine.strokes == (), "nothing was moved"

    @pytest.mark.parametrize("direction", [1, -1])
    def test_freeing_what_is_found_again_and_again_frees_the_crank(self, direction):
        frees = {"full-stroke ratchet": "crank", "clearing lever at home": "pull",
                 "back transfer free": "transfer lever", "carriage seated": "seat"}
        for machine in reachable():
            for _ in range(4):
                lock = find_lock(machine, direction).lock
                if lock is None:
                    break
                moves = [move for move in way_out(machine, "crank", 1.0 * direction) if move[0] == frees[lock]]
                machine.perform(*moves[0])
            machine.perform("crank", 1.0 * direction)

    def test_tries_tell_all_cases_apart(self):
        rows = [row[1:] for row in try_table().rows]
        assert len(set(rows)) == len(rows) == 4

    def test_a_try_does_not_move_the_machine(self):
        machine = ready("slate", setting=347, carriage=2)
        assert [trial(machine, what) for what in TRIES] == ["goes"] * 4
        assert machine.strokes == ()
        with pytest.raises(InputError, match="'the bell' is none of the tries"):
            trial(machine, "the bell")

    def test_what_is_said(self):
        assert str(Finding(None, ())) == "No interlock stops the crank."
        small = Decision("a setting lever", "carriage seated", "full-stroke ratchet")
        assert str(small) == ("Try a setting lever.\n  It goes: it is “carriage seated”. Seat the carriage.\n"
                              "  It stops: it is “full-stroke ratchet”. Finish the turn.")
        assert small.most == 1


class TestChart:
    """The picture says what the machine does."""

    def test_every_field_is_tried_on_a_machine(self):
        grid = lock_grid()
        assert list(grid) == ["all at home, crank at rest", *LETTERS.values()]
        putting_off = {"A": ("crank", 90.0), "S": ("crank", -90.0), "L": ("pull", ("result", 20.0)),
                       "T": ("transfer lever", True), "E": ("ease", 1)}
        for letter, move in putting_off.items():
            machine = Machine(load_spec("bench"))
            machine.perform(*move)
            for answer, movement in zip(grid[LETTERS[letter]], MOVEMENTS.values(), strict=True):
                try:
                    machine.would(*movement)
                    assert answer == "goes"
                except Locked:
                    assert answer == "stops"

    def test_it_is_read_without_colour_from_the_back(self):
        """Dark fields and light ones, each with its word; no type below 14 points."""
        (axes,) = lock_chart().axes
        fields = {(round(patch.get_x() + 0.46), round(patch.get_y() + 0.44)): patch.get_facecolor()[:3]
                  for patch in axes.patches}
        words = {text.get_position(): text for text in axes.texts}
        assert len(fields) == len(words) == len(lock_grid()) * len(MOVEMENTS)
        for place, text in words.items():
            assert (sum(fields[place]) < 1.0) == (text.get_text() == "stops")
        labels = [*axes.texts, *axes.get_xticklabels(), *axes.get_yticklabels()]
        assert min(label.get_fontsize() for label in labels) >= 14
