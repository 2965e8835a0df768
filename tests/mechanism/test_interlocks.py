"""Every interlock: what it refuses, the part that it names, what frees it, and that this really frees it."""

from __future__ import annotations

import pytest

from mechcalc import Machine, MachineSpec
from mechcalc.interlocks import INTERLOCKS
from mechcalc.layout import layout

from .machines import TRIAL, refused

NO_TRANSFER = MachineSpec.from_dict({**TRIAL.to_dict(), "back_transfer": False})


@pytest.fixture
def machine() -> Machine:
    """345 set, 345 in the result, the counter at 1, position 1."""
    machine = Machine(TRIAL)
    machine.set(345)
    machine.turn()
    machine.shift(1)
    return machine


class TestFullStrokeRatchet:
    """A turn once begun must be finished in its direction."""

    @pytest.mark.parametrize(("begun", "kind"), [(120.0, "an additive"), (-120.0, "a subtractive")])
    def test_the_crank_cannot_go_back(self, machine, begun, kind):
        """Not by a degree, not by a turn."""
        machine.crank(begun)
        for back in (lambda: machine.crank(-begun / 120), lambda: machine.turn(-1 if begun > 0 else 1)):
            no = refused(machine, back)
            assert str(no) == (f"the crank cannot go back: it stands at 120 degrees of {kind} turn, and a turn once "
                               f"begun must be finished in its direction (full-stroke ratchet). Finish the turn.")
            assert (no.part, no.frees) == ("pawl", "finish the turn")

    def test_finishing_the_turn_frees_it(self, machine):
        """At rest the pawl is free, and the crank goes either way."""
        machine.crank(120.0)
        refused(machine, lambda: machine.crank(-1.0))
        machine.finish_turn()
        machine.crank(-1.0)
        assert machine.state.direction == -1

    def test_the_first_hair_of_a_turn_counts(self, machine):
        """A millionth of a degree is a turn begun."""
        machine.crank(1e-6)
        assert refused(machine, lambda: machine.crank(-1e-6)).part == "pawl"


class TestSettingLock:
    """Setting levers are locked while the crank handle is drawn out of rest."""

    @pytest.mark.parametrize("attempt", [lambda m: m.set(1), lambda m: m.set_lever(2, 9), lambda m: m.set(345)])
    def test_levers_are_locked_and_a_finished_turn_frees_them(self, machine, attempt):
        """Even for the number that is set."""
        machine.crank(10.0)
        no = refused(machine, lambda: attempt(machine))
        assert str(no) == ("the setting levers are locked: the crank handle is drawn out of rest, at 10 degrees "
                           "(setting lock). Return the crank to rest: finish the turn.")
        assert no.part == "lock"
        machine.finish_turn()
        attempt(machine)

    def test_the_comb_holds_off_lock_and_pawl(self, machine):
        """Clearing the setting takes the crank part way and back, and moves the levers meanwhile."""
        stroke = machine.clear_setting()
        assert (machine.setting, machine.state.direction) == (0, 0)
        assert [event.kind.value for event in stroke.events] == ["comb in", *["setting step"] * 12, "comb out"]
        arc = layout(TRIAL).comb_arc
        assert arc == 144.0, "the crank goes no further than the first number pin's contact"
        assert all(20 < event.angle <= 20 + arc for event in stroke.events[1:-1])
        assert stroke.events[-1].angle == 20 + 2 * arc + 20
        assert (machine.result, machine.counter) == (345, 1)


ON_A_CRANK_OFF_REST = {
    "shift": lambda m: m.shift(1), "shift back": lambda m: m.shift_to(0), "ease": lambda m: m.ease_carriage(1),
    "clear setting": lambda m: m.clear_setting(), "clear result": lambda m: m.clear_result(),
    "clear counter": lambda m: m.clear_counter(), "pull": lambda m: m.pull_clearing_lever("result"),
    "back transfer": lambda m: (m.clear_setting(), m.back_transfer()), "engage": lambda m: m.engage_transfer(),
}
SAID = {"shift": "shift", "shift back": "shift", "ease": "shift", "clear setting": "clearing of the setting",
        "clear result": "clearing of the result", "clear counter": "clearing of the counter", "pull": "clearing",
        "back transfer": "clearing of the setting", "engage": "back transfer"}


@pytest.mark.parametrize("name", ON_A_CRANK_OFF_REST)
def test_nothing_but_the_crank_while_the_crank_is_off_rest(machine, name):
    """No shift, no clearing, no transfer; a finished turn frees them all."""
    machine.crank(-30.0)
    no = refused(machine, lambda: ON_A_CRANK_OFF_REST[name](machine))
    assert str(no) == (f"no {SAID[name]} while the crank is off rest, at 30 degrees of a subtractive turn. "
                       f"Finish the turn.")
    assert no.part == "crank"
    machine.finish_turn()
    ON_A_CRANK_OFF_REST[name](machine)


def test_back_transfer_itself_is_refused_with_the_crank_off_rest(machine):
    """The same words for the one stroke that needs an empty setting first."""
    machine.clear_setting()
    machine.crank(30.0)
    assert refused(machine, machine.back_transfer).reason.startswith("no back transfer while the crank is off rest")
    machine.finish_turn()
    machine.back_transfer()
    assert machine.setting == 34


CRANKINGS = {"turn": lambda m: m.turn(), "part": lambda m: m.crank(-5.0), "comb": lambda m: m.clear_setting()}


@pytest.mark.parametrize("crank", CRANKINGS)
class TestWhatBlocksTheCrank:
    """It blocks the comb as well, which takes the crank part way."""

    @pytest.mark.parametrize("register", ["result", "counter"])
    def test_a_clearing_lever_off_its_home(self, machine, register, crank):
        """However little; returning the lever frees it."""
        machine.pull_clearing_lever(register, 0.5)
        no = refused(machine, lambda: CRANKINGS[crank](machine))
        assert str(no) == (f"the crank cannot turn: the {register} clearing lever is off its home by 0.5 degrees. "
                           f"Return the lever.")
        assert no.part == f"clearing/{register}"
        machine.return_clearing_lever(register)
        CRANKINGS[crank](machine)

    def test_both_levers_off_home_are_named_one_after_the_other(self, machine, crank):
        """Returning one brings up the other."""
        machine.pull_clearing_lever("result", 10.0)
        machine.pull_clearing_lever("counter", 10.0)
        assert refused(machine, lambda: CRANKINGS[crank](machine)).part == "clearing/result"
        machine.return_clearing_lever("result")
        assert refused(machine, lambda: CRANKINGS[crank](machine)).part == "clearing/counter"

    def test_the_carriage_between_two_positions(self, machine, crank):
        """Seating it frees the crank, at either of the two."""
        for position in (0, 1):
            machine.shift_to(1)
            machine.ease_carriage(-1)
            no = refused(machine, lambda: CRANKINGS[crank](machine))
            what = "clearing of the setting" if crank == "comb" else "turn of the crank"
            assert str(no) == (f"no {what} while the carriage is between two positions, 1 and 0. Seat the carriage.")
            assert no.part == "carriage"
            machine.seat_carriage(position)
            assert machine.carriage == position
            CRANKINGS[crank](machine)
            if machine.state.direction:
                machine.finish_turn()

    def test_back_transfer_engaged(self, machine, crank):
        """Number wheels and pinwheels are geared together; putting the lever up frees the crank."""
        machine.engage_transfer()
        no = refused(machine, lambda: CRANKINGS[crank](machine))
        what = "clearing of the setting" if crank == "comb" else "turn of the crank"
        assert str(no) == (f"no {what} while back transfer is engaged: number wheels and pinwheels are geared "
                           f"together. Disengage it: put the back-transfer lever up.")
        assert no.part == "transfer"
        machine.free_transfer()
        CRANKINGS[crank](machine)


class TestCarriage:
    """It goes one place at a time between its stops."""

    def test_no_shift_past_the_ends(self, machine):
        """The stop is named, and the other way is free."""
        machine.shift_to(2)
        no = refused(machine, machine.shift)
        assert str(no) == ("the carriage cannot go from position 2 by +1: it stops at 0 and at 2. "
                           "Shift the other way.")
        assert no.part == "stop/left"
        machine.shift(-1)
        machine.shift_to(0)
        assert refused(machine, lambda: machine.shift(-1)).part == "stop/right"
        assert refused(machine, lambda: machine.ease_carriage(-1)).part == "stop/right"
        machine.shift(1)

    @pytest.mark.parametrize("places", [2, 5, 10**50, -2, pytest.param(-(10**5000), id="huge")])
    def test_a_shift_of_several_places_moves_all_the_way_or_not_at_all(self, machine, places):
        """From position 1 of 0, 1, 2 it can go one place either way, no further."""
        no = refused(machine, lambda: machine.shift(places))
        assert no.reason.startswith("the carriage cannot go from position 1 by ")
        assert no.reason.endswith(": it stops at 0 and at 2")
        assert (no.frees, no.part) == ("shift less far", "stop/left" if places > 0 else "stop/right")
        machine.shift(1 if places > 0 else -1)

    def test_a_shift_is_single_places(self, machine):
        """Each with its easing and seating."""
        assert [stroke.argument for stroke in machine.shift_to(2)] == [1]
        assert [stroke.reading.carriage for stroke in machine.shift(-2)] == [1, 0]
        assert machine.shift_to(0) == ()
        assert machine.shift(0) == ()

    def test_an_eased_carriage_must_be_seated_before_it_goes_on(self, machine):
        """No second easing, no shift, no transfer; seating frees all."""
        machine.clear_setting()
        machine.ease_carriage(1)
        for attempt in (machine.shift, lambda: machine.ease_carriage(1), machine.back_transfer,
                        machine.engage_transfer, lambda: machine.shift(50)):
            assert refused(machine, attempt).frees == "seat the carriage"
        machine.seat_carriage()
        assert machine.carriage == 2
        machine.back_transfer()

    def test_a_seated_carriage_cannot_be_seated(self, machine):
        """It has to be eased out first."""
        no = refused(machine, machine.seat_carriage)
        assert str(no) == "the carriage is seated already, at position 1. Ease it out first."
        machine.ease_carriage(1)
        machine.seat_carriage()

    def test_it_can_be_seated_only_beside_where_it_stands(self, machine):
        """Between 1 and 2 there is no way to 0."""
        machine.ease_carriage(1)
        with pytest.raises(ValueError, match="the carriage cannot be seated at 0: it stands between 1 and 2"):
            machine.seat_carriage(0)
        assert machine.state.easing == 1

    def test_no_shift_while_wheels_and_pinwheels_are_geared_together(self, machine):
        """Back transfer holds the carriage."""
        machine.engage_transfer()
        for attempt in (machine.shift, lambda: machine.ease_carriage(-1)):
            assert str(refused(machine, attempt)).startswith("no shift while back transfer is engaged")
        machine.free_transfer()
        machine.shift()


class TestJam:
    """A pinwheel that back transfer would take past 9 jams the gears, and nothing moves."""

    def test_it_names_place_wheel_and_digits(self, machine):
        """345 set and 0345 in the result at position 1: place 1 would get 5 + 4, place 2 4 + 3; 9 is not past 9."""
        machine.set_lever(1, 6)
        no = refused(machine, machine.back_transfer)
        assert str(no) == ("back transfer jams at place 1: the pinwheel stands at 6 and number wheel 2 would take it 4 "
                           "further, past 9. Clear the setting first.")
        assert no.part == "setting/1"
        machine.clear_setting()
        machine.back_transfer()
        assert (machine.setting, machine.result) == (34, 0)

    def test_exactly_nine_is_no_jam(self, machine):
        """5 and 4 more is 9."""
        machine.back_transfer()
        assert (machine.setting_digits, machine.result) == ((9, 7, 3), 0)

    def test_clearing_with_the_lever_down_jams_too(self, machine):
        """It is the same gears; the lever goes up first, then the comb can clear."""
        machine.set_lever(1, 6)
        machine.engage_transfer()
        for attempt in (machine.clear_result, lambda: machine.pull_clearing_lever("result")):
            no = refused(machine, attempt)
            assert (no.part, no.frees) == ("setting/1", "put the back-transfer lever up and clear the setting first")
        machine.free_transfer()
        machine.clear_setting()
        machine.engage_transfer()
        machine.clear_result()
        assert (machine.setting, machine.result) == (34, 0)

    def test_a_clearing_lever_jams_only_as_far_out_as_it_would_drive(self, machine):
        """Wheel 2 shows 4: it is caught after 5 steps, so place 1 at 7 takes 2 steps, to 70 degrees, and no third."""
        machine.set_lever(1, 7)
        machine.engage_transfer()
        refused(machine, lambda: machine.pull_clearing_lever("result", 80.0))
        machine.pull_clearing_lever("result", 79.0)
        assert machine.setting_digits[0] == 9
        machine.return_clearing_lever("result")
        assert machine.result_digits[1] == 2

    def test_a_lever_on_its_way_home_never_jams(self, machine):
        """Only the way out drives; what was set meanwhile does not matter."""
        machine.clear_setting()
        machine.engage_transfer()
        machine.pull_clearing_lever("result", 60.0)
        machine.set_lever(1, 9)
        machine.return_clearing_lever("result")
        assert machine.state.pulled_result == 0.0

    def test_the_counter_is_not_geared_to_the_pinwheels(self, machine):
        """Its clearing lever goes all the way, jam or no jam."""
        machine.set_lever(1, 9)
        machine.engage_transfer()
        machine.clear_counter()
        assert machine.counter == 0


def test_a_machine_without_back_transfer_says_so():
    """There is no lever to free: the number is set by hand."""
    machine = Machine(NO_TRANSFER)
    for attempt in (machine.back_transfer, machine.engage_transfer):
        no = refused(machine, attempt)
        assert str(no) == "this machine has no back-transfer lever. Set the number by hand."
    machine.set(12)


def test_every_rule_of_the_table_is_met_here():
    """A rule added to the table without a test would make this list too short."""
    assert {rule.name for rule in INTERLOCKS} == {
        "full-stroke ratchet", "setting lock", "crank at rest", "clearing lever at home", "back transfer free",
        "carriage seated", "carriage stop", "carriage in its seat", "back transfer fitted"}
