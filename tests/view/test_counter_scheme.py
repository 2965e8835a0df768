"""The scheme of the counter's direction: its wheels mesh, and it turns as the mechanism counts."""

from __future__ import annotations

from itertools import pairwise
from math import atan2, cos, dist, pi

import pytest

from mechcalc import InputError
from mechcalc.classroom import ready
from mechcalc.events import Kind
from mechcalc.view.counter_scheme import (
    COUNTER,
    CRANK,
    LARGE,
    LIFT,
    PAIR,
    PITCH,
    SINGLE,
    SMALL,
    TOOTH,
    counter_gears,
    meshed,
    outline,
    train,
    turned_round,
)


def teeth(index, wheels):
    return LARGE if index in (0, len(wheels) - 1) else SMALL


@pytest.mark.parametrize("first", [1, -1])
@pytest.mark.parametrize("second", [1, -1])
def test_the_scheme_turns_the_counter_as_the_mechanism_does(first, second):
    """An odd number of meshes turns the direction round (common practice, no source); clockwise counts up."""
    machine = ready("slate")
    machine.turn(first)
    stroke = machine.turn(second)
    (counted,) = [event.step for event in stroke.events if event.kind is Kind.COUNTER_STEP and event.place == 1]
    assert turned_round(second, len(train(machine.counter_direction))) == counted == first * second


class TestMeshing:
    """Wheels in mesh touch with a tooth in a gap; the others are clear."""

    @pytest.mark.parametrize("direction", [1, -1])
    def test_neighbours_are_as_far_apart_as_their_radii(self, direction):
        wheels = train(direction)
        for index, (one, other) in enumerate(pairwise(wheels)):
            radii = (teeth(index, wheels) + teeth(index + 1, wheels)) * PITCH
            assert dist(one, other) == pytest.approx(radii)

    @pytest.mark.parametrize("direction", [1, -1])
    def test_where_one_has_a_tooth_the_other_has_a_gap(self, direction):
        wheels = train(direction)
        phases = meshed(wheels)
        for index, (one, other) in enumerate(pairwise(wheels)):
            towards = atan2(other[1] - one[1], other[0] - one[0])
            mine = cos((towards - phases[one]) * teeth(index, wheels))
            its = cos((towards + pi - phases[other]) * teeth(index + 1, wheels))
            assert mine == pytest.approx(-its, abs=1e-9)

    @pytest.mark.parametrize("up", [0.0, LIFT / 2, LIFT])
    def test_wheels_that_are_not_in_mesh_clear_the_large_ones(self, up):
        single = (SINGLE[0], SINGLE[1] - LIFT + up)
        pair = [(x, y + up) for x, y in PAIR]
        in_mesh = ([single] if up == LIFT else []) + (pair if up == 0.0 else [])
        clear = (LARGE + SMALL) * PITCH + TOOTH
        for small in (single, *pair):
            if small not in in_mesh:
                assert min(dist(small, CRANK), dist(small, COUNTER)) > clear

    def test_an_outline_has_four_corners_a_tooth(self):
        corners = outline((0.0, 0.0), SMALL, 0.0)
        assert len(corners) == 4 * SMALL
        assert {round(dist((0, 0), corner), 9) for corner in corners} == {SMALL * PITCH - TOOTH / 2,
                                                                         SMALL * PITCH + TOOTH / 2}


class TestFigure:
    def test_it_says_in_words_what_it_shows(self):
        free, on, back_then_on = (ready("slate") for _ in range(3))
        on.turn(1)
        back_then_on.turn(-1)
        back_then_on.turn(1)
        axes = counter_gears(free, on, back_then_on).axes
        assert [ax.get_title() for ax in axes] == [
            "direction free", "additive turns\ncount up", "subtractive turns\ncount up"]
        assert [ax.get_xlabel() for ax in axes] == [
            "no turn yet\ncounter 000", "an additive turn\ncounts up: counter 001",
            "an additive turn\ncounts down: counter 000"]

    @pytest.mark.parametrize("bad", [(), (3,), ("slate",)])
    def test_only_machines(self, bad):
        with pytest.raises(InputError, match="the scheme is drawn for one machine or more, not for"):
            counter_gears(*bad)
