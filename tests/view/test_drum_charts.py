"""The drum's timetable, as spans and as plots: what the plots show is asked of their shapes, not of pixels."""

from __future__ import annotations

from itertools import pairwise
from math import degrees

import pytest
from hypothesis import given
from mechanism.machines import TRIAL, specs

from mechcalc import InputError, Machine, MachineSpec, load_spec, machine_names
from mechcalc.layout import layout
from mechcalc.view.drum_charts import drum_faces, reach_chart, reach_of, timetable_chart
from mechcalc.view.drum_spans import spans, timetable_text


class TestSpans:
    """The spans of a turn"""

    @given(specs())
    def test_follow_one_another_from_0_to_360(self, spec):
        for turn in ("additive", "subtractive"):
            row = spans(spec, turn)
            assert row[0].begin == 0
            assert row[-1].end == 360
            assert all(one.end == pytest.approx(two.begin) for one, two in pairwise(row))
            assert sum(span.degrees for span in row) == pytest.approx(360)

    def test_are_those_worked_by_hand(self):
        """TRIAL of tests/golden: pins 144 to 216, carry pins 220, 232, 244 (8 wide), mirrored before them."""
        assert [(span.begin, span.end, span.part) for span in spans(TRIAL, "subtractive")] == [
            (0, 7.5, "rest"), (7.5, 108, "nothing"), (108, 140, "leading helix"), (140, 144, "gap"),
            (144, 216, "number pins"), (216, 220, "gap"), (220, 252, "following helix"), (252, 360, "counter")]

    def test_name_the_helix_that_follows(self):
        words = {turn: [span.words for span in spans(TRIAL, turn) if "helix" in span.part]
                 for turn in ("additive", "subtractive")}
        assert words["additive"] == ["subtractive helix, place 4 to 2: leads, and finds no lever out",
                                     "additive helix, place 2 to 4: follows, and serves the levers"]
        assert [text.split()[0] for text in words["subtractive"]] == ["additive", "subtractive"]

    @pytest.mark.parametrize(("turn", "helix"), [(1, 1), (-1, -1)])
    def test_hold_what_really_happens_in_a_turn(self, turn, helix):
        """Oracle: the events of a turn with a carry through all wheels."""
        machine = Machine(load_spec("slate"))
        machine.set(1)
        if turn > 0:
            machine.turn(-1)
        stroke = machine.turn(turn)
        where = {span.part: span for span in spans(machine.spec, turn)}
        for event in stroke.events:
            if event.helix:
                span = where["following helix"]
                assert event.helix == helix
            elif event.pin:
                span = where["number pins"]
            elif event.kind == "counter step":
                span = where["counter"]
            else:
                continue
            assert span.begin <= event.start <= event.angle <= span.end

    def test_without_carry_pins_there_is_no_helix(self):
        one = MachineSpec(setting_places=1, result_places=2, counter_places=2, carry_reach=1)
        assert [span.part for span in spans(one)] == ["rest", "nothing", "number pins", "counter"]
        assert "helix" not in timetable_text(one)

    @pytest.mark.parametrize("turn", ["forwards", 0, 2, None, True, []])
    def test_another_turn_is_refused(self, turn):
        with pytest.raises(InputError, match="a turn is \"additive\" or \"subtractive\""):
            spans(TRIAL, turn)


class TestDrumFaces:
    """The round picture"""

    def test_has_a_sector_for_each_pin_at_its_angle(self):
        (axes,) = drum_faces(TRIAL).axes
        begun = [round(degrees(bar.get_x()), 6) for bar in axes.patches]
        drum = layout(TRIAL)
        assert begun == [-7.5, *(p.contact for p in drum.number_pins), *(p.contact for p in drum.following),
                         *(p.contact for p in drum.leading)]

    def test_writes_what_is_to_spare(self):
        assert [axes.get_title() for axes in drum_faces(*map(load_spec, machine_names())).axes] == [
            f"{load_spec(name).name}: {load_spec(name).spare_arc:g}° to spare" for name in machine_names()]

    def test_of_nothing_is_refused(self):
        with pytest.raises(InputError, match="no drum"):
            drum_faces()


class TestTimetableChart:
    """The bars"""

    def test_show_carry_pins_of_the_right_helix_in_their_rows(self):
        """The following helix climbs from place 2 on after the pins; the same bars lead in the other direction."""
        for axes, follows in zip(timetable_chart(TRIAL).axes, ("additive", "subtractive"), strict=True):
            hatched = {(bar.get_x(), round(bar.get_y() + bar.get_height() / 2)): bool(bar.get_hatch())
                       for bar in axes.patches if bar.get_width() == TRIAL.pin_pitch and bar.get_x() not in
                       {passing.contact for passing in layout(TRIAL).number_pins}}
            assert {key: hatch for key, hatch in hatched.items() if key[0] > 180} == {
                (220.0, 2): follows == "subtractive", (232.0, 3): follows == "subtractive",
                (244.0, 4): follows == "subtractive"}
            assert {key: hatch for key, hatch in hatched.items() if key[0] < 180} == {
                (132.0, 2): follows == "additive", (120.0, 3): follows == "additive", (108.0, 4): follows == "additive"}

    def test_can_show_one_turn_alone(self):
        assert len(timetable_chart(TRIAL, "subtractive").axes) == 1


class TestReachChart:
    """The curves"""

    @pytest.mark.parametrize(("pitch", "step", "reach"), [(9.0, 12.0, 11), (7.5, 10.5, 14), (6.0, 9.0, 17),
                                                          (9.0, 13.2, 11), (9.0, 13.3, 10)])
    def test_are_right_by_hand(self, pitch, step, reach):
        """(345 - 9p) / 2 - 4 - p, divided by h, cut off, plus 2; the last pair: 119 / 9 = 13.2 and a bit."""
        assert reach_of(load_spec("bench"), pitch, step) == reach
        assert 2 + int(((345 - 9 * pitch) / 2 - 4 - pitch) / step) == reach

    def test_begin_where_carries_are_just_in_time(self):
        axes = reach_chart(load_spec("bench"), (6.0, 9.0)).axes[0]
        assert [(line.get_xdata()[0], line.get_ydata()[0]) for line in axes.get_lines()[:2]] == [(9.0, 17), (12.0, 11)]

    def test_differ_in_more_than_colour(self):
        lines = reach_chart(load_spec("bench"), (5.0, 6.0, 7.0, 8.0)).axes[0].get_lines()[:4]
        assert len({line.get_linestyle() for line in lines}) == len({line.get_marker() for line in lines}) == 4

    @pytest.mark.parametrize("pitches", [(), (5, 6, 7, 8, 9)])
    def test_more_than_can_be_told_apart_are_refused(self, pitches):
        with pytest.raises(InputError, match=f"one to 4 pin pitches can be told apart, not {len(pitches)}"):
            reach_chart(load_spec("bench"), pitches)


def test_the_type_is_large_enough_for_a_classroom():
    """14 points or more, labels of axes and legends included; a point is 100/72 pixels."""
    for figure in (drum_faces(TRIAL), timetable_chart(TRIAL), reach_chart(load_spec("bench"), (6.0, 9.0))):
        figure.canvas.draw()
        texts = [text for axes in figure.axes for text in (*axes.texts, axes.title, axes.xaxis.label, axes.yaxis.label,
                                                           *axes.get_xticklabels(), *axes.get_yticklabels())]
        texts += [text for legend in figure.legends for text in legend.get_texts()]
        assert min(text.get_fontsize() for text in texts if text.get_text()) >= 14
