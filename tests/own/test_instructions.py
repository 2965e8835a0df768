"""Each instruction, followed to the letter on a machine, gives the figure that the machine was built with.

The oracle is the spec; what is read is only what an operator can see: windows, levers, and the crank angles at which a
wheel begins and ends to move, as the picture draws it. That it is counted and measured so is common practice, no
source.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import assume, given, settings

from mechcalc import Locked, Machine, MachineSpec, load_spec, machine_names
from mechcalc.own.questions import BY_FIELD, MEASURES, QUESTIONS, STEPS
from mechcalc.spec_rules import PLACES, SWITCHES
from mechcalc.view import timeline_of
from tests.mechanism.machines import specs

catalogue = pytest.mark.parametrize("name", machine_names())


def moves(machine: Machine, wheel: int, turns: int = -1) -> tuple[float, float]:
    """The crank angles at which a wheel begins to move and has moved, in the machine's last turn."""
    stroke = machine.strokes[turns]
    track = timeline_of(stroke, spec=machine.spec)["tracks"][f"wheel/{wheel}"]
    moving = [(at, then) for (at, value), (then, later) in pairwise(track) if later != value]
    return moving[0][0], moving[-1][1]


class TestCounting:
    """What is counted and tried with the covers on."""

    @given(specs())
    def test_the_two_rows_are_told_apart_by_one_turn(self, spec):
        """2 on the units lever, one turn: the result register shows 2 and the counter 1."""
        machine = Machine(spec)
        machine.set_lever(1, 2)
        machine.turn()
        assert (machine.result, machine.counter) == (2, 1)

    @given(specs())
    def test_ten_turns_of_nothing_show_whether_the_counter_carries(self, spec):
        assume(spec.counter_places > 1)
        machine = Machine(spec)
        machine.turn(10)
        assert (machine.counter == 10) == spec.counter_carry
        assert machine.result == 0

    @given(specs())
    def test_the_carriage_stops_so_many_times(self, spec):
        machine, stops = Machine(spec), 1
        while True:
            try:
                machine.shift(1)
            except Locked:
                break
            stops += 1
        assert stops == spec.positions

    @given(specs())
    def test_nought_less_one_shows_the_reach_in_nines(self, spec):
        """As many nines as places carry; and 1 forwards takes every one of them back to nought."""
        assume(spec.setting_places <= spec.result_places)
        machine = Machine(spec)
        machine.set_lever(1, 1)
        machine.turn(-1)
        nines = machine.result_digits.count(9)
        assert set(machine.result_digits[:nines]) == {9}
        assert nines == min(spec.carry_reach, spec.result_places)
        assert nines >= spec.setting_places
        machine.turn(1)
        assert machine.result == 0
        counted = MachineSpec.from_dict({**spec.to_dict(), "carry_reach": nines})
        assert [counted.wheels_in_reach(one) for one in range(spec.positions)] == [
            spec.wheels_in_reach(one) for one in range(spec.positions)]

    @catalogue
    def test_back_transfer_brings_twelve_to_the_levers(self, name):
        machine = Machine(load_spec(name))
        machine.set(12)
        machine.turn()
        machine.clear_setting()
        try:
            machine.engage_transfer()
        except Locked:
            assert not machine.spec.back_transfer
            return
        machine.clear_result()
        assert machine.setting == 12
        with pytest.raises(Locked):
            machine.turn()
        machine.free_transfer()
        machine.turn()


class TestMeasuring:
    """What is read off a degree disc, always turning onwards."""

    @settings(max_examples=30)
    @given(specs())
    def test_pitch_and_gap(self, spec):
        """Nine steps of the units wheel; then the tens wheel, after 9 + 9."""
        assume(spec.carry_reach > 1 and spec.result_places > 1)
        machine = Machine(spec)
        machine.set_lever(1, 9)
        machine.turn()
        begins, ends = moves(machine, 1)
        assert (ends - begins) / 9 == pytest.approx(spec.pin_pitch)
        machine.turn()
        assert moves(machine, 2)[0] - moves(machine, 1)[1] == pytest.approx(spec.gap)

    @settings(max_examples=30)
    @given(specs())
    def test_helix_step(self, spec):
        """From wheel to wheel while 1 is added to nines; and over all wheels that carry."""
        reach = min(spec.carry_reach, spec.result_places)
        assume(reach > 2)
        machine = Machine(spec)
        machine.set_lever(1, 1)
        machine.turn(-1)
        machine.turn(1)
        first = moves(machine, 2)[0]
        assert moves(machine, 3)[0] - first == pytest.approx(spec.helix_step)
        assert (moves(machine, reach)[0] - first) / (reach - 2) == pytest.approx(spec.helix_step)

    @catalogue
    def test_lever_throw_and_rest_arc_with_the_covers_off(self, name):
        """The lever of the units wheel, and the first pin of all."""
        spec = load_spec(name)
        machine = Machine(spec)
        machine.set_lever(1, 9)
        machine.turn(2)
        told = timeline_of(machine.strokes[-1], spec=spec)
        out = next(at for at, value in told["tracks"]["lever/1"] if value == 1)
        passed = next(event.angle for event in machine.strokes[-1].events if event.kind == "number step"
                      and event.wheel == 1)
        assert out - passed == pytest.approx(spec.lever_throw)
        pins = [contact for _, contact in (*told["machine"]["carryPins"]["-"], *told["machine"]["carryPins"]["+"])]
        first = min([*pins, *told["machine"]["numberPins"]])
        assert 2 * first == pytest.approx(spec.rest_arc + spec.spare_arc)


class TestWording:
    """Every figure is asked for, once, and can be answered by whoever is at the machine."""

    def test_every_field_of_a_machine_is_asked_for(self):
        asked = {one.field for one in QUESTIONS}
        assert asked == {*PLACES, *MEASURES, *SWITCHES, "name", "note", "angles"} - {"allow_faulty_timing"}
        assert len(QUESTIONS) == len(BY_FIELD)

    def test_cautions_stand_where_covers_may_come_off(self):
        angles = next(step for step in STEPS if step.questions[0].field == "angles")
        assert all(word in " ".join(angles.before) for word in ("covers on", "springs", "sharp", "local rules"))

    def test_no_maker_is_asked_for(self):
        assert "No maker's name is asked for" in BY_FIELD["name"].how
