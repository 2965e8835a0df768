"""Faults: each changes a part; the readings come out of the same mechanism.

The figures in these tests were worked by hand from a drum with the usual angles (pins at 153, 159, ... 201; pitch 6;
carry pins at 209, 216.5, 224 ...; lever throw 1.5) and from the definitions in `mechcalc.bench.faults`.
"""

from __future__ import annotations

import pytest

from mechcalc import InputError, Locked, MachineSpec, load_spec
from mechcalc.bench import (
    FAULTS,
    CarryLeverNotHomed,
    CarryLeverWeak,
    CarryPinGone,
    CarryTimingLate,
    ClearingToothGone,
    CounterDirectionStuck,
    CounterFingerGone,
    IdlerToothLost,
    Machine,
    NumberPinGone,
    NumberPinStuckOut,
    NumberWheelOverthrows,
    RatchetWorn,
    SettingLeverCreeps,
    SettingLockWorn,
    TransferGearOut,
    every_fault,
    fault_from_dict,
    fault_from_text,
)
from mechcalc.bench.fault_list import text_of
from mechcalc.events import Kind
from mechcalc.machine import Machine as SoundMachine

SMALL = MachineSpec(setting_places=4, result_places=6, counter_places=3, carry_reach=6)  # with the usual angles


def machine(*faults, spec=SMALL, setting=0, result=()):
    """A machine with these faults; `result` are numbers set and turned in on it, each with one additive turn."""
    made = Machine(spec, faults=faults)
    for number in result:
        made.set(number)
        made.turn()
    made.set(setting)
    return made


def kinds(stroke, *wanted):
    return [(event.kind.value, event.place, event.wheel) for event in stroke.events if event.kind in wanted]


class TestACarryPinThatIsGone:
    """The carry stops at its place, in that direction only."""

    def test_the_carry_into_its_place_is_lost(self):
        made = machine(CarryPinGone(place=3, direction=1), result=(9999,), setting=1)
        made.turn()
        assert made.result == 9900

    def test_the_other_direction_carries_as_it_should(self):
        made = machine(CarryPinGone(place=3, direction=1), setting=1)
        made.turn(-1)
        assert made.result == 999999

    def test_its_lever_is_homed_all_the_same_and_no_phantom_comes_later(self):
        made = machine(CarryPinGone(place=3, direction=1), result=(9999,), setting=1)
        stroke = made.turn()
        assert ("lever home", 2, 2) in kinds(stroke, Kind.LEVER_HOME)
        made.set(0)
        made.turn()
        assert made.result == 9900

    def test_it_is_lost_at_its_place_on_the_drum_wherever_the_carriage_stands(self):
        made = machine(CarryPinGone(place=3, direction=1))
        made.shift(1)
        made.set(999)
        made.turn()
        made.set(1)
        made.turn()
        assert made.result == 9000


class TestANumberPinThatIsGone:
    """Digits that use the pin are one short."""

    @pytest.mark.parametrize("digit", range(10))
    def test_only_digits_that_reach_it_are_short(self, digit):
        made = machine(NumberPinGone(place=2, pin=4), setting=10 * digit)
        made.turn()
        assert made.result == 10 * (digit - (digit >= 4))

    def test_subtraction_is_short_by_as_much(self):
        made = machine(NumberPinGone(place=1, pin=1), setting=5, result=())
        made.turn(-1)
        assert made.result == 999996


class TestANumberPinThatIsStuckOut:
    """It counts whatever the lever shows, once."""

    @pytest.mark.parametrize("digit", range(10))
    def test_only_digits_that_do_not_reach_it_are_too_many(self, digit):
        made = machine(NumberPinStuckOut(place=1, pin=6), setting=digit)
        made.turn()
        assert made.result == digit + (digit < 6)


class TestACarryLeverThatWillNotStayOut:
    """Its carries are lost in both directions, and wherever its wheel goes."""

    def test_carry_and_borrow_are_lost(self):
        made = machine(CarryLeverWeak(wheel=1), result=(7,), setting=7)
        made.turn()
        assert made.result == 4
        made.turn(-1)
        assert made.result == 7

    def test_it_moves_with_the_carriage(self):
        made = machine(CarryLeverWeak(wheel=3))
        made.shift(2)
        made.set(9)
        made.turn(2)
        assert made.result == 800

    def test_the_last_one_does_not_ring_the_bell(self):
        made = machine(CarryLeverWeak(wheel=6), setting=1)
        made.turn(-1)
        assert (made.result, made.bell) == (999999, False)


class TestACarryLeverThatIsNotPushedHome:
    """Once out it stays out, and carries again in every turn, in either direction."""

    def test_it_carries_again_though_nothing_passes(self):
        made = machine(CarryLeverNotHomed(wheel=1), result=(9,), setting=1)
        made.turn()
        assert made.result == 10
        made.set(0)
        made.turn()
        assert made.result == 30  # both helices pass the lever: a phantom step each

    def test_the_helix_in_front_steps_first(self):
        made = machine(CarryLeverNotHomed(wheel=1), result=(9, 1))
        steps = [event.helix for event in made.turn().events if event.kind is Kind.CARRY_STEP]
        assert steps == [-1, 1]

    def test_a_last_lever_rings_the_bell_turn_after_turn(self):
        made = machine(CarryLeverNotHomed(wheel=6), setting=1)
        made.turn(-1)
        made.set(0)
        assert [made.turn().after.bell for _ in range(3)] == [True, True, True]


class TestANumberWheelThatOverthrows:
    """It runs on one step when the tooth that drove it lets go."""

    @pytest.mark.parametrize(("digit", "shows"), [(0, 0), (1, 2), (4, 5), (9, 10)])
    def test_once_after_a_row_of_pins(self, digit, shows):
        made = machine(NumberWheelOverthrows(wheel=1), setting=digit)
        made.turn()
        assert made.result == shows

    def test_twice_where_a_missing_pin_makes_two_rows(self):
        made = machine(NumberWheelOverthrows(wheel=1), NumberPinGone(place=1, pin=3), setting=5)
        made.turn()
        assert made.result == 4 + 2

    def test_after_a_carry_too(self):
        made = machine(NumberWheelOverthrows(wheel=2), result=(9,), setting=1)
        made.turn()
        assert made.result == 20

    def test_backwards_in_a_subtractive_turn(self):
        made = machine(NumberWheelOverthrows(wheel=1), setting=2)
        made.turn(-1)
        assert made.result == 999997

    def test_the_step_too_far_can_push_the_lever(self):
        made = machine(NumberWheelOverthrows(wheel=1), setting=9)
        stroke = made.turn()
        assert kinds(stroke, Kind.OVERTHROW, Kind.LEVER_OUT) == [("overthrow", 1, 1), ("lever out", 1, 1)]


class TestAnIdlerThatHasLostATooth:
    """The wheel opposite stops at the gap, whatever pins come."""

    def test_the_wheel_sticks_at_the_digit(self):
        made = machine(IdlerToothLost(place=1, tooth=6), setting=4)
        made.turn(3)
        assert made.result == 6

    def test_a_subtractive_turn_meets_the_gap_from_the_other_side(self):
        made = machine(IdlerToothLost(place=1, tooth=6))
        made.set(1)
        made.turn(-4)
        assert made.result == 999997

    def test_it_is_the_place_of_the_drum_and_not_the_wheel(self):
        made = machine(IdlerToothLost(place=2, tooth=6), setting=90)
        made.turn()
        assert made.result == 60
        made.clear_result()
        made.shift(1)
        made.set(9)
        made.turn()
        assert made.result == 90

    def test_a_carry_finds_the_gap_as_well(self):
        made = machine(IdlerToothLost(place=2, tooth=0), result=(9,), setting=1)
        stroke = made.turn()
        assert made.result == 0
        missed = [event for event in stroke.events if event.kind is Kind.CARRY_STEP]
        assert [(event.step, event.digit) for event in missed] == [(0, 0)]


class TestASettingLeverThatCreeps:
    """It slips back by one in every turn, at the end of it."""

    def test_the_first_turn_is_right_and_the_next_is_not(self):
        made = machine(SettingLeverCreeps(place=2), setting=35)
        assert [(made.turn().reading.result, made.setting) for _ in range(4)] == [
            (35, 25), (60, 15), (75, 5), (80, 5)]


class TestClearing:
    """Clearing teeth, transfer gears."""

    def test_a_wheel_without_its_clearing_tooth_keeps_its_digit(self):
        made = machine(ClearingToothGone(wheel=2), result=(345,))
        made.clear_result()
        assert made.result == 40

    def test_a_gear_out_of_mesh_leaves_its_pinwheel(self):
        made = machine(TransferGearOut(place=3), spec=load_spec("bench"), result=(345,), setting=0)
        made.back_transfer()
        assert (made.setting, made.result) == (45, 0)

    def test_without_the_clearing_tooth_nothing_is_transferred_either(self):
        made = machine(ClearingToothGone(wheel=3), spec=load_spec("bench"), result=(345,), setting=0)
        made.back_transfer()
        assert (made.setting, made.result) == (45, 300)


class TestTheCounter:
    """Fingers and direction."""

    def test_a_missing_finger_counts_nothing_at_its_wheel(self):
        made = machine(CounterFingerGone(wheel=1))
        made.turn(3)
        made.shift(1)
        made.turn(2)
        assert made.counter == 20

    def test_a_missing_finger_loses_the_carry_into_its_wheel(self):
        made = machine(CounterFingerGone(wheel=2))
        made.turn(12)
        assert made.counter == 2

    @pytest.mark.parametrize("way", [1, -1])
    def test_a_stuck_direction_is_not_chosen(self, way):
        made = machine(CounterDirectionStuck(direction=way))
        made.turn(-way * 2)
        assert made.counter == 998
        made.clear_counter()
        made.turn(way * 2)
        assert made.counter == 2


class TestAWornSettingLock:
    """Levers can be moved part way through a turn; pins that come later are those of the new digit."""

    def test_what_is_past_is_past(self):
        made = machine(SettingLockWorn(), setting=9)
        made.crank(180.0)  # pins 1 to 4 have done their step
        made.set_lever(1, 0)
        made.finish_turn()
        assert made.result == 4

    def test_a_sound_lock_refuses_that(self):
        made = machine(setting=9)
        made.crank(180.0)
        with pytest.raises(Locked, match=r"^the setting levers are locked"):
            made.set_lever(1, 0)


class TestAWornRatchet:
    """The crank can be turned back, and what it had done is undone or not, pin by pin."""

    def test_there_and_back_before_the_pins_changes_nothing(self):
        made = machine(RatchetWorn(), setting=9)
        made.crank(10.0)
        made.crank(-10.0)
        assert (made.state.direction, made.state.angle) == (0, 0.0)
        assert (made.result, made.counter, made.counter_direction) == (0, 0, None)

    def test_number_pins_undo_their_steps(self):
        made = machine(RatchetWorn(), setting=5)
        made.crank(190.0)
        assert made.result == 5
        made.crank(-190.0)
        assert made.result == 0

    def test_but_the_counter_counts_a_turn_that_was_none(self):
        made = machine(RatchetWorn(), setting=5)
        made.crank(190.0)
        made.crank(-190.0)
        assert (made.counter, made.counter_direction) == (1, -1)

    def test_a_pin_half_past_does_nothing_either_way(self):
        made = machine(RatchetWorn(), setting=5)
        made.crank(168.0)  # pins 1 and 2 done (at 159 and 165), pin 3 half past
        assert made.result == 2
        made.crank(-1.0)
        made.crank(-168.0 + 1.0)
        assert made.result == 0

    def test_back_and_on_again_comes_to_the_same_sum(self):
        made = machine(RatchetWorn(), setting=7)
        made.crank(170.0)
        made.crank(-5.0)
        made.crank(195.0)
        assert (made.state.direction, made.result) == (0, 7)

    def test_a_lever_that_is_out_carries_where_the_crank_is_turned_back_over_its_pin(self):
        """9 + 1: at 214 the additive carry pin of place 2 (209 to 215) is half past and goes back; the wheel goes back
        to 9 and its lever, out already, is read by the subtractive helix's turn of the drum: 99."""
        made = machine(RatchetWorn(), result=(9,), setting=1)
        made.crank(214.0)
        assert made.result == 0
        made.crank(-214.0)
        assert made.result == 999999

    def test_a_whole_turn_cannot_begin_part_way(self):
        made = machine(RatchetWorn(), setting=5)
        made.crank(100.0)
        with pytest.raises(Locked, match=r"^a whole turn begins at rest"):
            made.turn(-1)

    def test_a_sound_ratchet_refuses(self):
        made = machine(setting=5)
        made.crank(100.0)
        with pytest.raises(Locked, match=r"full-stroke ratchet"):
            made.crank(-10.0)
        assert made.state.angle == 100.0


class TestCarriesThatComeTooLate:
    """How late is too late is a matter of the drum's angles."""

    def test_a_ripple_is_lost_before_a_first_carry_is(self):
        """Slack: helix step 7.5 less pitch 6 less throw 1.5 is nothing, the gap 2 less throw 1.5 half a degree."""
        made = machine(CarryTimingLate(by=0.25), result=(99,), setting=1)
        made.turn()
        assert made.result == 0  # 99 + 1: the carry into the tens is in time, the one into the hundreds is not
        assert all(not lever for lever in made.state.levers)

    def test_a_first_carry_of_the_last_pin_is_lost_when_it_is_later_than_the_gap_allows(self):
        late = machine(CarryTimingLate(by=0.75), result=(5,), setting=9)
        late.turn()
        assert late.result == 14  # wheel 1 passes at pin 5 of 9: early enough
        late = machine(CarryTimingLate(by=0.75), result=(1,), setting=9)
        late.turn()
        assert late.result == 0  # it passes at the last pin: 207 + 1.5 + 0.75 is later than 209

    def test_so_late_that_the_lever_is_left_out_it_carries_in_the_next_turn(self):
        made = machine(CarryTimingLate(by=7.0), result=(1,), setting=9)
        made.turn()
        assert (made.result, made.state.levers[0]) == (0, True)  # fully out at 215.5, after the cam at 215
        made.set(0)
        made.turn()
        assert made.result == 10


class TestSeveralAtOnce:
    """Any number of faults go together, and each answers for its own part."""

    def test_two_at_the_same_place(self):
        made = machine(NumberPinGone(place=1, pin=2), NumberPinStuckOut(place=1, pin=9), setting=3)
        made.turn()
        assert made.result == 3

    def test_one_can_hide_the_other(self):
        made = machine(CarryPinGone(place=2, direction=1), CarryLeverWeak(wheel=1), result=(9,), setting=1)
        made.turn()
        assert made.result == 0

    def test_a_lever_not_homed_with_no_pin_to_deflect_does_nothing(self):
        made = machine(CarryLeverNotHomed(wheel=1), CarryPinGone(place=2, direction=1),
                       CarryPinGone(place=2, direction=-1), result=(9, 1), setting=0)
        made.turn()
        assert made.result == 0


class TestWhatIsRefused:
    """A fault on a part that the machine has not got, and faults that cannot go together."""

    @pytest.mark.parametrize(("fault", "said"), [
        (CarryPinGone(place=7, direction=1), "place 7 is not on this machine: they go from 2 to 6"),
        (NumberPinGone(place=5, pin=1), "place 5 is not on this machine: they go from 1 to 4"),
        (CarryLeverWeak(wheel=7), "wheel 7 is not on this machine: they go from 1 to 6"),
        (CounterFingerGone(wheel=4), "wheel 4 is not on this machine: they go from 1 to 3"),
    ])
    def test_a_part_that_is_not_there(self, fault, said):
        with pytest.raises(InputError) as error:
            Machine(SMALL, faults=[fault])
        assert str(error.value) == f"{fault}: {said}"

    def test_a_transfer_gear_of_a_machine_without_transfer(self):
        with pytest.raises(InputError, match=r"this machine has no back transfer$"):
            Machine(load_spec("plain"), faults=[TransferGearOut(place=1)])

    def test_a_carry_pin_of_a_drum_without_carry_pins(self):
        spec = MachineSpec(setting_places=1, result_places=1, counter_places=1, carry_reach=1)
        with pytest.raises(InputError, match=r"place 2 is not on this machine: there is none$"):
            Machine(spec, faults=[CarryPinGone(place=2, direction=1)])

    def test_all_is_said_at_once(self):
        with pytest.raises(InputError) as error:
            Machine(SMALL, faults=[CarryLeverWeak(wheel=9), NumberPinGone(place=1, pin=1), CarryLeverWeak(wheel=9),
                                   NumberPinStuckOut(place=1, pin=1)])
        assert str(error.value).count(";") == 3

    @pytest.mark.parametrize(("make", "said"), [
        (lambda: CarryPinGone(place=2, direction=0), "cannot be 0: it is 1 (additive) or -1 (subtractive)"),
        (lambda: NumberPinGone(place=1, pin=10), "10"),
        (lambda: IdlerToothLost(place=1, tooth=True), "True"),
        (lambda: CarryTimingLate(by=0), "degrees of crank, more than 0"),
        (lambda: CarryTimingLate(by=float("nan")), "nan"),
        (lambda: CarryLeverWeak(wheel="3"), "'3'"),
    ])
    def test_a_figure_that_cannot_be(self, make, said):
        with pytest.raises(InputError) as error:
            make()
        assert said in str(error.value)

    @pytest.mark.parametrize("given", ["weak", CarryLeverWeak(wheel=1), ["weak"], [None]])
    def test_something_that_is_no_list_of_faults(self, given):
        with pytest.raises(InputError, match=r"^faults are given as a list"):
            Machine(SMALL, faults=given)

    def test_two_lateness_or_two_directions(self):
        with pytest.raises(InputError, match=r"both cannot be$"):
            Machine(SMALL, faults=[CarryTimingLate(by=1), CarryTimingLate(by=2)])


class TestTheList:
    """Every fault of the rules' list, at every part that can have it."""

    def test_it_has_all_kinds(self):
        assert {fault.name for fault in every_fault(load_spec("bench"))} == set(FAULTS)

    @pytest.mark.parametrize("name", ["slate", "bench", "ledger", "plain", "short"])
    def test_each_can_be_built_and_written_down_and_read_again(self, name):
        spec = load_spec(name)
        listed = every_fault(spec)
        assert len(set(listed)) == len(listed)
        for fault in listed:
            assert fault.problems(spec) == []
            assert fault_from_dict(fault.to_dict()) == fault == fault_from_text(text_of(fault))
            assert eval(repr(fault), {kind.__name__: kind for kind in FAULTS.values()}) == fault

    def test_how_many_there_are(self):
        """Counted from the list of parts: m levers, n wheels, c counter wheels, reach K."""
        m, n, c, k = 9, 13, 8, 11
        assert len(every_fault(load_spec("bench"))) == (
            2 * (k - 1) + 2 * 9 * m + 4 * n + 10 * k + 2 * m + c + 2 + 1 + 1 + 2)

    def test_a_sound_machine_is_one_without_faults(self):
        assert Machine(SMALL).parts == SoundMachine(SMALL).parts


class TestKeepingIt:
    """A session holds the faults."""

    def test_a_faulty_machine_is_taken_up_with_its_faults(self, tmp_path):
        made = machine(CarryPinGone(place=3, direction=1), CarryTimingLate(by=0.25), result=(9999,), setting=1)
        made.turn()
        made.save(tmp_path / "faulty.json")
        again = SoundMachine.load(tmp_path / "faulty.json")
        assert isinstance(again, Machine)
        assert (again.faults, again.state) == (made.faults, made.state)

    def test_a_crank_that_was_turned_back_is_kept(self, tmp_path):
        made = machine(RatchetWorn(), setting=5)
        made.crank(168.0)
        made.crank(-1.0)
        made.save(tmp_path / "back.json")
        assert SoundMachine.load(tmp_path / "back.json").state == made.state
