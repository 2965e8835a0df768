"""The crank may stop anywhere: everything between two angles has happened, nothing after."""

from __future__ import annotations

from math import inf, nextafter

import pytest
from hypothesis import given, strategies as st

from mechcalc import Event, Kind, Machine
from mechcalc.events import TIE_ORDER

from .machines import ANGLES, TRIAL, crank_in_parts, cuts, do, signs, specs, work
from .oracles import Arithmetic, Reader


def worked(spec, acts) -> Machine:
    """A machine at rest after some work."""
    machine, sums = Machine(spec), Arithmetic(spec)
    for act in acts:
        do(machine, sums, act)
    return machine


class TestStoppingAnywhere:
    """Against a reader of events that knows nothing of the mechanism."""

    @given(specs(), work, signs, st.data())
    def test_the_state_is_what_the_events_up_to_there_have_done(self, spec, acts, direction, data):
        """At an angle of its own, at an event's very angle, and a hair before it."""
        machine = worked(spec, acts)
        start = machine.state
        whole = machine.would("crank", 360.0 * direction)[0]
        at = sorted({event.angle for event in whole.events if 0 < event.angle < 360})
        places = [180.0, *at, *(nextafter(angle, 0) for angle in at)]
        for angle in (data.draw(st.floats(0.001, 359.999)), *data.draw(st.lists(st.sampled_from(places), max_size=3))):
            part, = machine.would("crank", direction * angle)
            assert part.events == tuple(event for event in whole.events if event.angle <= angle)
            assert (part.after.angle, part.after.direction) == (angle, direction)
            Reader.of(start).follow(whole.events, angle).agrees_with(part.after)
        Reader.of(start).follow(whole.events, inf).agrees_with(whole.after)

    @given(specs(), work, signs, cuts)
    def test_a_turn_in_parts_is_a_turn(self, spec, acts, direction, angles):
        """The same events and the same state, wherever it is cut."""
        machine = worked(spec, acts)
        whole = machine.would("crank", 360.0 * direction)[0]
        events = crank_in_parts(machine, direction, angles)
        assert tuple(events) == whole.events
        assert machine.state == whole.after

    def test_a_stop_at_each_event_of_a_carry_through_all_wheels(self):
        """Every angle of 999 + 1 at which something happens, one after another, is a stop."""
        machine = worked(TRIAL, [("set", 999), ("turn", 1, 1), ("set", 1)])
        whole = machine.would("crank", 360.0)[0]
        angles = [event.angle for event in whole.events]
        assert tuple(crank_in_parts(machine, 1, angles[:-1])) == whole.events
        assert machine.state == whole.after

    @given(specs(), work, signs)
    def test_events_come_in_order(self, spec, acts, direction):
        """By angle, then kind, then place; each begins no later than it is complete, inside the turn.

        And a wheel passes at most once, with at most nine pins and one carry: one lever a wheel is enough.
        """
        events = worked(spec, acts).would("crank", 360.0 * direction)[0].events
        keys = [event.order for event in events]
        assert keys == sorted(keys)
        assert all(0 <= event.start <= event.angle <= 360 for event in events)
        out = [event.wheel for event in events if event.kind == Kind.LEVER_OUT]
        assert len(out) == len(set(out))
        carried = [event.place for event in events if event.kind == Kind.CARRY_STEP]
        assert len(carried) == len(set(carried))


class TestCranking:
    """What `crank` and `turn` return."""

    def test_parts_add_up_to_turns(self):
        """800 degrees are two turns and 80 degrees, three strokes."""
        machine = Machine(TRIAL)
        machine.set(7)
        strokes = machine.crank(800.0)
        assert [(stroke.argument, stroke.begin, stroke.end) for stroke in strokes] == [
            (360.0, 0.0, 360.0), (360.0, 0.0, 360.0), (80.0, 0.0, 80.0)]
        assert (machine.result, machine.state.angle, machine.state.direction) == (14, 80.0, 1)

    def test_three_thirds_are_a_turn(self):
        """A part that ends at rest leaves the machine at rest."""
        machine = Machine(TRIAL)
        for _ in range(3):
            machine.crank(-120.0)
        assert (machine.state.angle, machine.state.direction, machine.counter) == (0.0, 0, 1)

    def test_tenths_that_do_not_add_up_exactly_still_end_at_rest(self):
        """3600 times a tenth of a degree, as floating point adds them, is one turn."""
        machine = Machine(TRIAL)
        machine.set(1)
        for _ in range(3600):
            machine.crank(0.1)
        assert (machine.state.angle, machine.state.direction, machine.result, machine.counter) == (0.0, 0, 1, 1)

    @pytest.mark.parametrize("nothing", [0, 0.0, -0.0])
    def test_no_degrees_are_no_stroke(self, nothing):
        """The crank is not touched."""
        machine = Machine(TRIAL)
        assert machine.crank(nothing) == ()
        assert machine.turn(0) == ()
        assert machine.strokes == ()

    def test_one_turn_gives_a_stroke_and_several_give_a_tuple(self):
        """`turn()` a `Stroke`, `turn(3)` three."""
        machine = Machine(TRIAL)
        assert machine.turn(-1).operation == "crank"
        assert [stroke.reading.counter for stroke in machine.turn(-3)] == [2, 3, 4]

    def test_finish_turn_goes_on_in_the_direction_begun(self):
        """And does nothing at rest."""
        machine = Machine(TRIAL)
        assert machine.finish_turn() is None
        machine.set(2)
        machine.crank(-200.0)
        stroke = machine.finish_turn()
        assert (stroke.begin, stroke.end, machine.result) == (200.0, 360.0, 9998)

    def test_whole_turns_begin_at_rest(self):
        """Part way through, `turn` is refused: it would not be a whole one."""
        machine = Machine(TRIAL)
        machine.crank(90.0)
        with pytest.raises(Exception, match="a whole turn begins at rest: the crank stands at 90 degrees"):
            machine.turn()


class TestTies:
    """At one angle: a step ends, a lever is out, a pin is deflected, the bell rings, a lever goes home."""

    def test_the_kinds_stand_in_that_order(self):
        """The order of `Kind` is the order of ties."""
        order = [Kind.NUMBER_STEP, Kind.CARRY_STEP, Kind.LEVER_OUT, Kind.PIN_DEFLECTED, Kind.BELL, Kind.LEVER_HOME]
        assert sorted(order, key=TIE_ORDER.__getitem__) == order

    def test_angle_before_kind_before_place(self):
        """The sort key of an event."""
        early = Event(angle=1.0, kind=Kind.LEVER_HOME, place=9)
        late = Event(angle=2.0, kind=Kind.NUMBER_STEP, place=1)
        assert early.order < late.order
        assert Event(angle=2.0, kind=Kind.NUMBER_STEP, place=2).order > late.order

    def test_a_lever_just_out_deflects_the_pin_that_comes_at_that_angle(self):
        """With the helix step exactly pitch + throw, the carry still ripples through every wheel."""
        spec = type(TRIAL).from_dict({**TRIAL.to_dict(), **ANGLES, "helix_step": 11.0, "gap": 3.0})
        machine = worked(spec, [("set", 1), ("turn", -1, 1)])
        assert machine.result == 9999
        events = [(event.angle, event.kind.value, event.place) for event in machine.strokes[-1].events]
        assert (219.0, "lever out", 1) in events
        assert (219.0, "pin deflected", 2) in events
        assert (230.0, "lever out", 2) in events
        assert (230.0, "pin deflected", 3) in events


class TestUndo:
    """One stroke back, exactly."""

    @given(specs(), work, signs, st.floats(0.001, 359.999))
    def test_undo_goes_back_through_every_state(self, spec, acts, direction, angle):
        """From the middle of a turn to the beginning, each state is the one that was."""
        machine = worked(spec, acts)
        machine.crank(direction * angle)
        strokes = machine.strokes
        for stroke in reversed(strokes):
            assert machine.state is stroke.after
            assert machine.undo() is stroke
            assert machine.state is stroke.before
        assert machine.undo() is None
        assert machine.state == Machine(spec).state

    def test_what_is_undone_can_be_done_again(self):
        """With the same events."""
        machine = worked(TRIAL, [("set", 567), ("turn", 1, 7)])
        stroke = machine.undo()
        assert machine.perform(stroke.operation, stroke.argument) == (stroke,)
