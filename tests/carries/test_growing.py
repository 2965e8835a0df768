"""How the peak grows with the nines and the drum with the places; which conclusions outlive other prices."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError, MachineSpec, load_spec
from mechcalc.carries import (
    Prices,
    angles_by_places,
    arcs,
    carried,
    conclusions,
    hardest,
    peaks_by_nines,
    work,
)
from mechcalc.carries.effort import priced
from mechcalc.carries.growing import WHEELS_ALONE
from mechcalc.carries.mechanisms import NAMES
from mechcalc.layout import used_arc

SPEC = MachineSpec(setting_places=3, result_places=6, counter_places=3, carry_reach=6)
AT_ONCE, HELIX, AHEAD, HEAD = NAMES
tenths = st.integers(0, 100).map(lambda number: number / 10)
prices = st.builds(Prices, wheel=tenths, lever=tenths, home=tenths, feel=tenths)


class TestPeaks:
    """The peak of 99...9 + 1"""

    @given(prices)
    def test_is_what_a_hand_adds_up(self, cost):
        """With n nines n + 1 wheels are driven. At once: together. By the helix: a wheel with the cam at its end, or a
        lever alone. Looking ahead: first wheel 1, then five wheels felt for, then n wheels together.
        """
        helix = max(cost.wheel + cost.home, cost.lever)
        by_hand = {AT_ONCE: [cost.wheel * (nines + 1) for nines in range(6)],
                   HELIX: [cost.wheel, *[helix] * 5],
                   AHEAD: [max(cost.wheel, 5 * cost.feel, cost.wheel * nines) for nines in range(6)],
                   HEAD: [cost.wheel] * 6}
        for name, peaks in peaks_by_nines(SPEC, cost).items():
            assert peaks == pytest.approx(by_hand[name]), name

    def test_a_machine_that_does_not_reach_is_refused(self):
        with pytest.raises(InputError, match="a helix that carries 7 of 12 places"):
            peaks_by_nines(load_spec("short"))


class TestWork:
    """Work over all turns"""

    def test_of_counting_is_the_sum_of_a_geometric_series(self):
        """From 0 to 100 by ones the units move 100 steps, the tens 10, the hundreds 1, whatever the mechanism.

        Oracle: the sum of a geometric series, 10^2 + 10 + 1.
        """
        steps = dict.fromkeys(NAMES, 0.0)
        for shows in range(100):
            for way in carried(SPEC, shows, 1):
                steps[way.name] += work(way, WHEELS_ALONE)
        assert steps == pytest.approx(dict.fromkeys(NAMES, 111))

    @given(st.integers(0, 10**6 - 1), st.integers(0, 999))
    def test_wheels_alone_ask_for_a_unit_a_step(self, shows, added):
        for way in carried(SPEC, shows, added):
            assert work(way, WHEELS_ALONE) == pytest.approx(sum(priced(turn, "wheel") for turn in way.doings))

    @given(st.integers(0, 10**6 - 1), st.integers(0, 999))
    def test_the_hardest_of_several_turns_is_taken(self, shows, added):
        way = carried(SPEC, shows, added)[3]
        assert hardest(way) == max(way.effort(turn=turn + 1).peak for turn in range(way.turns))


class TestAngles:
    """Degrees of drum for carries through so many places"""

    def test_worked_by_hand(self):
        """p = 6, g = 2, h = 7.5, turned either way."""
        angles = angles_by_places(SPEC, 4)
        assert angles[AT_ONCE] == angles[HEAD] == (54, 54, 54, 54)
        assert angles[HELIX] == (54, 54 + 2 * 8, 54 + 2 * 15.5, 54 + 2 * 23)
        assert angles[AHEAD] == (54, 70, 70, 70)

    @given(st.integers(1, 20))
    def test_the_helix_needs_what_the_drum_of_such_a_machine_has(self, places):
        """Oracle: the angle budget that a machine is refused by."""
        spec = replace(SPEC, setting_places=1, carry_reach=places)
        assert arcs(SPEC, places)[HELIX][1] == float(used_arc(spec))

    @pytest.mark.parametrize("name", ["slate", "plain", "bench", "ledger"])
    def test_they_pass_the_turn_where_the_reach_ends(self, name):
        spec = load_spec(name)
        angles = angles_by_places(spec, 40)[HELIX]
        fitting = [places for places, angle in enumerate(angles, start=1) if angle + spec.rest_arc <= 360]
        assert fitting[-1] == spec.largest_carry_reach == len(fitting)

    @pytest.mark.parametrize("most", [0, 41, 2.5, True])
    def test_another_number_of_places_is_refused(self, most):
        with pytest.raises(InputError, match="a number of places"):
            angles_by_places(SPEC, most)


class TestConclusions:
    """What holds at which prices"""

    def test_all_hold_at_the_prices_of_the_model(self):
        assert all(one.holds for one in conclusions(SPEC))

    @given(prices)
    def test_some_hold_at_any_price(self, cost):
        """They hang on the order of things, and on no price."""
        held = [one.holds for one in conclusions(SPEC, cost)]
        assert (held[1], held[3], held[6]) == (True, True, True)

    @given(prices)
    def test_the_others_hold_as_long_as_a_hand_finds_them_to(self, cost):
        """Six wheels, five nines; lever throw 1.5 and cam 2 of pitch 6 degrees, gap 2 for the feelers."""
        held = [one.holds for one in conclusions(SPEC, cost)]
        helix = max(cost.wheel + cost.home, cost.lever)
        ahead = max(5 * cost.wheel, 5 * cost.feel)
        levers, felt = 5 * (cost.lever * 1.5 / 6 + cost.home / 3), 5 * cost.feel * 2 / 6
        assert held[0] == (cost.wheel > 0)
        assert held[2] == (ahead > max(cost.wheel, 5 * cost.feel))
        assert held[4] == (round(helix, 9) < round(min(6 * cost.wheel, ahead), 9))
        if abs(levers - felt) > 1e-6:
            assert held[5] == (levers > felt)

    def test_dear_levers_undo_one_of_them(self):
        """Six wheels at once cost 6, a lever 6.5."""
        assert [one.says for one in conclusions(SPEC, Prices(lever=6.5)) if not one.holds] == [
            "a full row of nines is easiest by the helix"]

    def test_two_wheels_are_too_few_to_conclude_from(self):
        two = MachineSpec(setting_places=1, result_places=2, counter_places=1, carry_reach=2)
        with pytest.raises(InputError, match="number wheels to compare with cannot be 2: it goes from 3 upwards"):
            conclusions(two)
