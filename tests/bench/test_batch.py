"""The batch: the same machines, steps and readings as the event-level machine, lane by lane.

Two tellings of the mechanism that share no code but the spec's layout hold each other to account here.
"""

from __future__ import annotations

from random import Random

import numpy as np
import pytest
from hypothesis import given, strategies as st

from bench.random_cases import all_faults, random_seats, random_spec, random_steps
from mechcalc import InputError, load_spec
from mechcalc.bench import CarryLeverNotHomed, CarryLeverWeak, Machine, every_fault
from mechcalc.bench.batch import Batch, lanes_of, views_of
from mechcalc.bench.steps import Step, do, run, steps_from_text, text_of_steps

MACHINES = 6


def differences(seed: int, many_steps: int = 20) -> list[str]:
    """What the two tellings disagree on, for one random case."""
    chance = Random(seed)
    spec = random_spec(chance)
    faults = all_faults(spec)
    seats, steps = random_seats(chance, faults, MACHINES), random_steps(chance, spec, many_steps)
    views = views_of(lanes_of(spec, faults, seats), steps, chunk=4)
    found = []
    for lane, seat in enumerate(seats):
        machine = Machine(spec, faults=[faults[index] for index in seat if index >= 0])
        for number, step in enumerate(steps):
            expected, got = do(machine, step), views.seen(number, lane)
            if expected != got:
                found.append(f"{machine} after {text_of_steps(steps[:number + 1])}: {got}")
                break
    return found


class TestItAgreesWithTheEventLevelMachine:
    """On random specs, faults and sequences of steps, after every step."""

    @given(st.integers(0, 10**9))
    def test_on_random_cases(self, seed):
        assert differences(seed) == []

    def test_over_a_long_run(self):
        """One sequence of six hundred steps."""
        assert differences(20261125, many_steps=600) == []

    @pytest.mark.parametrize("name", ["slate", "bench", "ledger", "plain", "short", "counting_room"])
    def test_on_every_single_fault_of_the_catalogue(self, name):
        spec = load_spec(name)
        faults = every_fault(spec)
        nines = 10**spec.setting_places - 1
        steps = steps_from_text(f"set {nines}; turn; set 1; turn; set {nines // 9 * 4}; turn -3; shift; try back; "
                                "clear counter; try lever; clear setting; turn; clear result")
        views = views_of(lanes_of(spec, faults, [[index] for index in range(len(faults))]), steps)
        for lane, fault in enumerate(faults):
            assert run(Machine(spec, faults=[fault]), steps) == tuple(
                views.seen(number, lane) for number in range(len(steps))), str(fault)


class TestABatch:
    """What it takes and gives."""

    def test_it_starts_from_a_state(self):
        spec = load_spec("slate")
        made = Machine(spec)
        made.set(999)
        made.turn()
        made.shift(1)
        batch = Batch(lanes_of(spec, [], [[], []]), made.state)
        batch.do(Step("turn", 1))
        made.turn()
        assert batch.result[:, 0].tolist() == batch.result[:, 1].tolist() == list(made.result_digits)
        assert batch.counter[:, 0].tolist() == list(made.counter_digits)

    def test_it_keeps_levers_left_out_apart_from_those_at_home(self):
        batch = Batch(lanes_of(load_spec("slate"), [CarryLeverNotHomed(wheel=1)], [0, -1]))
        for step in steps_from_text("set 9; turn 2"):
            batch.do(step)
        assert batch.levers[0].tolist() == [True, False]

    def test_lanes_come_back_in_the_order_in_which_they_were_given(self):
        """Timed lanes are worked apart from plain ones; nobody outside sees that."""
        spec = load_spec("slate")
        faults = all_faults(spec)
        seats = [[index] for index in Random(1).sample(range(len(faults)), len(faults))]
        steps = steps_from_text("set 9999; turn; set 1; turn")
        views = views_of(lanes_of(spec, faults, seats), steps)
        turned = views_of(lanes_of(spec, faults, seats[::-1]), steps)
        assert np.array_equal(views.result, turned.result[..., ::-1])

    @pytest.mark.parametrize("chunk", [1, 7, 1000])
    def test_the_size_of_a_chunk_changes_nothing(self, chunk):
        spec = load_spec("slate")
        faults = every_fault(spec)
        steps = steps_from_text("set 5678; turn 3; shift; turn -2")
        lanes = lanes_of(spec, faults, [[index] for index in range(len(faults))])
        assert np.array_equal(views_of(lanes, steps, chunk=chunk).result, views_of(lanes, steps).result)

    def test_a_fault_that_the_machine_cannot_have_is_refused(self):
        with pytest.raises(InputError, match=r"wheel 9 is not on this machine"):
            lanes_of(load_spec("slate"), [CarryLeverWeak(wheel=9)], [0])

    def test_an_index_that_is_none_is_refused(self):
        with pytest.raises(InputError, match=r"^faults are numbered from 0 to 0, and -1 is none; here they go from 1"):
            lanes_of(load_spec("slate"), [CarryLeverWeak(wheel=1)], [1])

    def test_a_state_part_way_through_a_turn_is_refused(self):
        made = Machine(load_spec("slate"))
        made.crank(10.0)
        with pytest.raises(InputError, match=r"^a batch starts with machines of its own spec at rest"):
            Batch(lanes_of(made.spec, [], [[]]), made.state)


class TestSteps:
    """What a person does, in words."""

    def test_they_are_written_and_read(self):
        text = "set 999; turn 3; turn -1; shift 2; try back; try lever; clear result; back transfer"
        assert text_of_steps(steps_from_text(text)) == text

    @pytest.mark.parametrize(("text", "said"), [
        ("spin", "'spin' is no step: there are set, turn, shift"), ("set", "say which number to set"),
        ("set -3", "a setting cannot be below nought"), ("clear result 3", "clear result takes no figure"),
        ("turn 1.5", "'turn 1.5' is no step")])
    def test_what_is_no_step_is_told(self, text, said):
        with pytest.raises(InputError) as error:
            steps_from_text(text)
        assert said in str(error.value)

    @pytest.mark.parametrize(("text", "said"), [
        ("set 10000", "step 1, set 10000: there are 4 levers"),
        ("shift 3", "step 3, shift 1: the carriage stops at 0 and at 2"),
        ("shift -1", "step 1, shift -1: the carriage stops at 0 and at 2")])
    def test_what_even_a_sound_machine_refuses_is_told_with_its_place(self, text, said):
        spec = load_spec("slate")
        with pytest.raises(InputError) as error:
            views_of(lanes_of(spec, [], [[]]), steps_from_text(text))
        assert str(error.value) == said

    def test_a_jam_in_back_transfer_is_seen_and_moves_nothing(self):
        made = Machine(load_spec("bench"))
        seen = run(made, steps_from_text("set 7; turn; back transfer"))[-1]
        assert seen.yielded
        assert (made.setting, made.result) == (7, 7)
