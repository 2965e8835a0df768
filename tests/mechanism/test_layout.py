"""The drum's angle budget: every broken rule with its figures, and what late carries do."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given, strategies as st

from mechcalc import Kind, Machine, MachineSpec, SpecError
from mechcalc.layout import layout
from mechcalc.parts import SOUND
from mechcalc.state import State
from mechcalc.turning import crank

from .machines import ANGLES, TRIAL

SMALL = {"setting_places": 3, "result_places": 4, "counter_places": 3, "carry_reach": 4}


def problems(**values) -> tuple[str, ...]:
    """What is wrong with a machine; nothing if it can be built."""
    try:
        MachineSpec(**{**SMALL, **ANGLES, **values})
    except SpecError as error:
        return error.problems
    return ()


class TestRules:
    """Each rule is broken by a hair and kept exactly."""

    @pytest.mark.parametrize(("pitch", "throw", "step"), [(8.0, 3.0, 11.0), (9.1, 3.2, 12.3), (6.1, 0.7, 6.8),
                                                          (0.1, 0.2, 0.3)])
    def test_helix_step_at_least_pitch_and_throw(self, pitch, throw, step):
        """h = p + t is enough, in decimals as they are written; a thousandth less is not."""
        assert problems(pin_pitch=pitch, lever_throw=throw, helix_step=step) == ()
        assert problems(pin_pitch=pitch, lever_throw=throw, helix_step=step - 0.001) == (
            f"a carry would come too late to ripple: helix step {step - 0.001:g} is less than pin pitch {pitch:g} + "
            f"lever throw {throw:g} = {step:g}",)

    def test_gap_at_least_throw(self):
        """g = t is enough."""
        assert problems(gap=3.0) == ()
        assert problems(gap=2.999) == ("the first carry would come too late: gap 2.999 is less than lever throw 3",)

    def test_all_fits_on_the_drum(self):
        """9 x 8 + 2 (4 + 2 x 12 + 8) + rest = 144 + rest: a rest arc of 216 just fits."""
        assert problems(rest_arc=216.0) == ()
        assert MachineSpec(**{**SMALL, **ANGLES, "rest_arc": 216.0}).spare_arc == 0.0
        assert problems(rest_arc=216.001) == (
            "the pins do not fit on the drum: 9 x 8 for the number pins + 2 x (4 + 2 x 12 + 8) for the helices + "
            "216.001 for the rest arc = 360.001 degrees of 360; the largest carry reach for these angles is 3",)

    def test_a_drum_that_does_not_even_hold_the_number_pins(self):
        """Without carry pins there is no talk of helices."""
        assert problems(setting_places=1, carry_reach=1, pin_pitch=41.0, helix_step=50.0) == (
            "the pins do not fit on the drum: 9 x 41 for the number pins + 15 for the rest arc = 384 degrees of 360; "
            "the largest carry reach for these angles is 0",)

    def test_the_carry_reach_covers_the_setting(self):
        """m <= K."""
        assert problems(setting_places=4) == ()
        assert problems(setting_places=5) == (
            "the carry reach must cover the setting: carry reach 4, setting places 5",)

    def test_every_position_has_its_wheels(self):
        """A number wheel and a counter wheel before place 1 at each."""
        assert problems(positions=3) == ()
        assert problems(positions=4) == (
            "each carriage position needs a number wheel and a counter wheel before place 1: 4 positions, 4 result "
            "and 3 counter wheels",)

    def test_all_broken_rules_are_reported_together(self):
        """Five at once, each with its figures, in one message."""
        broken = problems(setting_places=5, positions=9, gap=1.0, helix_step=10.0, rest_arc=300.0)
        assert [problem.split(":")[0] for problem in broken] == [
            "the carry reach must cover the setting",
            "each carriage position needs a number wheel and a counter wheel before place 1",
            "a carry would come too late to ripple", "the first carry would come too late",
            "the pins do not fit on the drum"]
        with pytest.raises(SpecError) as caught:
            MachineSpec(**{**SMALL, **ANGLES, "gap": 1.0, "helix_step": 10.0})
        assert str(caught.value) == (
            "2 rules are broken:\n"
            "  - a carry would come too late to ripple: helix step 10 is less than pin pitch 8 + lever throw 3 = 11\n"
            "  - the first carry would come too late: gap 1 is less than lever throw 3")

    def test_faulty_timing_waives_lateness_only(self):
        """Pins that do not fit cannot be waived: there is no room for them."""
        assert problems(gap=0.0, helix_step=8.0, allow_faulty_timing=True) == ()
        assert len(problems(gap=0.0, helix_step=8.0, rest_arc=300.0, allow_faulty_timing=True)) == 1


@pytest.mark.parametrize(("rest", "largest"), [(288.0, 1), (264.001, 1), (264.0, 2), (240.001, 2), (240.0, 3),
                                               (216.0, 4)])
def test_where_nothing_is_to_spare_the_last_place_still_counts(rest, largest):
    """288 - 2 (4 + 8) = 264 holds two places to the last degree; each further place takes 2 x 12."""
    one = {**SMALL, **ANGLES, "setting_places": 1, "carry_reach": 1, "rest_arc": rest}
    assert MachineSpec(**one).largest_carry_reach == largest
    assert problems(**{**one, "carry_reach": largest}) == ()


tenths = st.integers(1, 300).map(lambda tenth: tenth / 10)


class TestLargestReach:
    """How many places a drum could carry."""

    @given(pitch=tenths, throw=tenths, spare_gap=st.integers(0, 200), spare_step=st.integers(0, 90),
           rest=st.integers(0, 600))
    def test_it_is_exactly_the_largest_that_is_accepted(self, pitch, throw, spare_gap, spare_step, rest):
        """That K is built, K + 1 is refused because the pins do not fit, and the budget says the same."""
        angles = {"pin_pitch": pitch, "lever_throw": throw, "rest_arc": rest / 10,
                  "gap": round(throw + spare_gap / 10, 1), "helix_step": round(pitch + throw + spare_step / 10, 1)}
        one = {**SMALL, "setting_places": 1, "carry_reach": 1, **angles}
        if not_even_one := problems(**one):
            assert not_even_one[0].endswith("the largest carry reach for these angles is 0")
            return
        largest = MachineSpec(**one).largest_carry_reach
        assume(largest < 40)
        p, g, h = (Fraction(str(angles[name])) for name in ("pin_pitch", "gap", "helix_step"))
        budget = 360 - Fraction(rest, 10) - 9 * p
        assert problems(**{**one, "carry_reach": largest}) == ()
        assert largest == 1 or 2 * (g + (largest - 2) * h + p) <= budget
        assert 2 * (g + (largest - 1) * h + p) > budget
        too_many = problems(**{**one, "carry_reach": largest + 1})
        assert len(too_many) == 1
        assert too_many[0].endswith(f"the largest carry reach for these angles is {largest}")


class TestPassings:
    """Angles of the trial drum, as they stand in tests/golden."""

    def test_the_drum_is_symmetrical(self):
        """The leading helix is the mirror image of the following one."""
        drum = layout(TRIAL)
        assert [passing.contact for passing in drum.following] == [220.0, 232.0, 244.0]
        assert [passing.end for passing in drum.leading] == [140.0, 128.0, 116.0]
        assert [(passing.contact, passing.end) for passing in drum.number_pins] == [
            (144.0 + 8 * pin, 152.0 + 8 * pin) for pin in range(9)]
        assert drum.close == 252.0

    def test_pin_one_comes_first_in_an_additive_turn_and_last_in_a_subtractive_one(self):
        """So a lever at d always has its d pins together."""
        drum = layout(TRIAL)
        assert (drum.pin_passing(1, 1).end, drum.pin_passing(1, -1).end) == (152.0, 216.0)
        assert (drum.pin_passing(9, 1).end, drum.pin_passing(9, -1).end) == (216.0, 152.0)


def built_late(**angles) -> MachineSpec:
    return MachineSpec(**{**SMALL, **ANGLES, **angles}, allow_faulty_timing=True)


class TestLateCarries:
    """A test bench builds a drum on purpose wrong, and loses exactly the carries that the angles say."""

    @pytest.mark.parametrize(("gap", "throw", "late_pins"), [(3.0, 3.0, 0), (2.0, 3.0, 1), (2.0, 10.0, 1),
                                                             (2.0, 10.1, 2), (0.0, 24.0, 3), (0.0, 24.5, 4)])
    def test_a_first_carry_is_lost_where_the_lever_comes_after_the_pin(self, gap, throw, late_pins):
        """The carry pin of place 2 comes at 216 + g; a lever is out t after its step.

        Steps end at 216 - 8b, b the number of pin places still to come, so the carry is lost where 8b < t - g. With
        d pins out, the wheel passes at step number 10 - digit of an additive turn, which is pin 10 - digit of nine,
        and at step number digit + 1 of a subtractive one, in which the d pins end with pin 1 at 216.
        """
        spec = built_late(gap=gap, lever_throw=throw, helix_step=40.0)
        for direction in (1, -1):
            for digit in range(10):
                for pins in range(10):
                    steps = 10 - digit if direction > 0 else digit + 1
                    to_come = 9 - steps if direction > 0 else pins - steps
                    carried = steps <= pins and to_come >= late_pins
                    state = State(setting=(pins, 0, 0), result=(digit, 5, 5, 5), counter=(0,) * 3, levers=(False,) * 4)
                    after, _ = crank(spec, SOUND, state, 360.0, direction)
                    assert after.result[1] == 5 + direction * carried, (direction, digit, pins)
                    assert after.result[0] == (digit + direction * pins) % 10

    def test_a_short_helix_step_stops_the_ripple_at_the_second_wheel(self):
        """h = 8 < 8 + 3: lever 2 is out at 231, the pin of place 3 came by at 228; 999 + 1 leaves 900."""
        machine = Machine(built_late(helix_step=8.0))
        machine.set(999)
        machine.turn()
        machine.set(1)
        stroke = machine.turn()
        assert machine.result == 900
        assert [(event.angle, event.wheel) for event in stroke.events if event.kind == Kind.LEVER_HOME] == [
            (228.0, 1), (236.0, 2)], "the cam takes the lever home before it could carry"
        machine.set(0)
        machine.turn()
        assert machine.result == 900, "the carry is lost for good"

    def test_ripple_holds_again_at_equality(self):
        """h = 11 and g = 3 build without leave and lose nothing."""
        machine = Machine(MachineSpec(**{**SMALL, **ANGLES, "helix_step": 11.0, "gap": 3.0}))
        machine.set(1)
        machine.turn(-1)
        machine.turn(1)
        assert (machine.result, machine.bell) == (0, True)

    @pytest.mark.parametrize(("direction", "late", "at_last"), [(1, 900, 1000), (-1, 99, 9999)])
    def test_a_lever_left_out_does_a_phantom_step_in_the_next_turn(self, direction, late, at_last):
        """Throw 17: lever 2 is out only after its cam; see tests/golden/late_carry.txt, and its mirror image."""
        spec = built_late(gap=20.0, helix_step=8.0, lever_throw=17.0)
        state = State(setting=(1, 0, 0), result=(9, 9, 9, 0) if direction > 0 else (0,) * 4, counter=(0,) * 3,
                      levers=(False,) * 4)
        machine = Machine(spec, state=state)
        machine.turn(direction)
        assert machine.result == late
        assert machine.state.levers == (False, True, False, False)
        machine.clear_setting()
        stroke = machine.turn(direction)
        phantom = next(event for event in stroke.events if event.kind == Kind.CARRY_STEP)
        assert (phantom.angle, phantom.place, phantom.wheel, phantom.helix) == (116.0, 3, 3, -direction)
        assert machine.result == at_last

    def test_the_other_way_the_phantom_step_goes_the_other_way(self):
        """The helix that follows in one direction leads in the other; the wheel steps with the turn."""
        spec = built_late(gap=20.0, helix_step=8.0, lever_throw=17.0)
        machine = Machine(spec, state=State(setting=(1, 0, 0), result=(9, 9, 9, 0), counter=(0,) * 3,
                                            levers=(False,) * 4))
        machine.turn(1)
        machine.clear_setting()
        stroke = machine.turn(-1)
        assert [(event.wheel, event.step, event.digit, event.helix) for event in stroke.events
                if event.kind == Kind.CARRY_STEP] == [(3, -1, 8, 1)]
        assert machine.result == 800
