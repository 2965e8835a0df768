"""Carry mechanisms compared: the same sum on each, what it needs, and how hard the crank is to turn."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError, MachineSpec, load_spec
from mechcalc.carries import Doing, Prices, carried, effort_of
from mechcalc.carries.effort import priced

SPEC = MachineSpec(setting_places=6, result_places=8, counter_places=3, carry_reach=8)
AT_ONCE, HELIX, AHEAD, HEAD = range(4)


class TestTheSum:
    """All four come to what whole numbers come to."""

    @given(st.integers(0, 10**8 - 1) | st.sampled_from([99_999_999, 9_999_999, 90_909_090]),
           st.integers(0, 10**6 - 1) | st.sampled_from([1, 999_999, 909_091]))
    def test_modulo_the_register(self, shows, added):
        assert {way.result for way in carried(SPEC, shows, added)} == {(shows + added) % 10**8}

    def test_nothing_added_does_nothing(self):
        """But the looking-ahead carry feels for nines in any case."""
        for way in carried(SPEC, 4711, 0):
            assert (way.result, way.longest) == (4711, 0)
            assert way.effort().peak == pytest.approx(0.7 if way.name == "looking ahead" else 0)


class TestNinesAndOne:
    """99...9 + 1: where the mechanisms differ most."""

    @pytest.mark.parametrize("nines", range(8))
    def test_at_once_every_nine_is_one_wheel_more_at_the_same_moment(self, nines):
        way = carried(SPEC, 10**nines - 1, 1)[AT_ONCE]
        assert way.longest == nines + 1
        assert way.effort().peak == nines + 1

    @pytest.mark.parametrize("nines", range(8))
    def test_by_helix_one_wheel_moves_at_a_time(self, nines):
        way = carried(SPEC, 10**nines - 1, 1)[HELIX]
        assert way.longest == 1
        assert way.effort().peak <= 1.3  # a wheel, and at most one lever with it

    @pytest.mark.parametrize("nines", range(1, 8))
    def test_looking_ahead_all_carries_are_one_step(self, nines):
        way = carried(SPEC, 10**nines - 1, 1)[AHEAD]
        assert way.longest == nines

    @pytest.mark.parametrize("nines", range(8))
    def test_in_the_head_it_takes_a_turn_for_every_carry(self, nines):
        assert carried(SPEC, 10**nines - 1, 1)[HEAD].turns == 1 + nines

    def test_the_same_wheels_are_driven_the_same_number_of_steps(self):
        """What differs is when: nine wheels' steps are nine, however they come."""
        for way in carried(SPEC, 9_999_999, 1):
            assert sum(priced(turn, "wheel") for turn in way.doings) == 8


class TestSeveralDigits:
    """What the levers set, and what the register holds."""

    @given(st.integers(0, 10**8 - 1), st.integers(0, 10**6 - 1))
    def test_by_helix_the_register_adds_no_wheel(self, shows, added):
        """Pins of all places stand at the same angles, so every lever that is set drives a wheel; a carry, one more
        at a time, comes after them all.
        """
        assert carried(SPEC, shows, added)[HELIX].longest == sum(digit != "0" for digit in str(added))

    @given(st.integers(0, 10**8 - 1), st.integers(0, 10**6 - 1))
    def test_no_mechanism_drives_more_wheels_than_there_are(self, shows, added):
        for way in carried(SPEC, shows, added):
            assert sum(digit != "0" for digit in str(added)) <= way.longest <= 8

    def test_a_wheel_that_is_pushed_from_two_sides_counts_once_and_asks_twice(self):
        """99 + 99 at once, the first pins: wheel 1 passes and takes 2, which passes and takes 3; then wheel 2's own."""
        way = carried(SPEC, 99, 99)[AT_ONCE]
        assert way.longest == 3
        assert way.effort().peak == 4


class TestTheAngle:
    """What the drum needs for it (p = 6, g = 2, h = 7.5, K = 8)."""

    def test_worked_by_hand(self):
        at_once, helix, ahead, head = carried(SPEC, 0, 1)
        assert (at_once.angle, at_once.both_ways) == (54, 54)
        assert (helix.angle, helix.both_ways) == (54 + 2 + 6 * 7.5 + 6, 54 + 2 * (2 + 6 * 7.5 + 6))
        assert (ahead.angle, ahead.both_ways) == (54 + 2 + 6, 54 + 2 * (2 + 6))
        assert (head.angle, head.both_ways) == (54, 54)


class TestEffort:
    """A sum of prices, even between borders."""

    def test_worked_by_hand(self):
        effort = effort_of([Doing(0, 6, "wheel", 1), Doing(4, 10, "wheel", 2), Doing(6, 8, "lever", 1)], 6.0)
        assert effort.angles == (0, 4, 6, 8, 10)
        assert effort.levels == (1.0, 2.0, 1.3, 1.0)
        assert effort.work == pytest.approx((4 + 4 + 2.6 + 2) / 6)
        assert [effort.at(angle) for angle in (-1, 0, 5, 9, 10)] == [0, 1, 2, 1, 0]

    @given(st.integers(0, 10**8 - 1), st.integers(0, 10**6 - 1))
    def test_work_does_not_depend_on_where_borders_fall(self, shows, added):
        """Wheel steps alone: each is one unit of work, so the work is their number."""
        only_wheels = Prices(lever=0, home=0, feel=0, counter=0)
        for way in carried(SPEC, shows, added):
            for number, turn in enumerate(way.doings, start=1):
                assert way.effort(only_wheels, number).work == pytest.approx(priced(turn, "wheel"))

    def test_nothing_done_is_no_effort(self):
        assert (effort_of([], 6.0).peak, effort_of([], 6.0).work) == (0, 0)

    @pytest.mark.parametrize(("prices", "said"), [({"wheel": -1}, "the price of a wheel cannot be -1: 0 or more"),
                                                  ({"feel": float("nan")}, "the price of a feel")])
    def test_a_price_that_cannot_be(self, prices, said):
        with pytest.raises(InputError) as error:
            Prices(**prices)
        assert said in str(error.value)


class TestWhatIsRefused:
    """A machine or a number that cannot be compared."""

    def test_a_helix_that_does_not_reach(self):
        with pytest.raises(InputError, match=r"^a helix that carries 7 of 12 places cannot be compared"):
            carried(load_spec("short"), 1, 1)

    @pytest.mark.parametrize(("shows", "added"), [(10**8, 1), (1, 10**6), (-1, 1), (True, 1)])
    def test_a_number_that_does_not_fit(self, shows, added):
        with pytest.raises(InputError):
            carried(SPEC, shows, added)
