"""Effort as plots and as text: what they show is asked of their shapes, not of pixels."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from hypothesis import given, settings, strategies as st
from matplotlib.colors import to_hex
from matplotlib.patches import StepPatch
from matplotlib.text import Text

from mechcalc import InputError, MachineSpec, load_spec
from mechcalc.carries import Prices, angles_by_places, carried, doings_of, effort_of, peaks_by_nines
from mechcalc.carries.mechanisms import NAMES
from mechcalc.classroom import ready
from mechcalc.view import (
    angles_chart,
    angles_text,
    carries_chart,
    carries_text,
    effort_chart,
    effort_text,
    peaks_chart,
    peaks_text,
    timetable_with_effort,
)
from mechcalc.view.drawing import PAPER
from mechcalc.view.effort_charts import FILLS
from mechcalc.view.growth_charts import LINES
from mechcalc.view.plotting import SMALLEST

from .test_colours import contrast

SPEC = MachineSpec(setting_places=3, result_places=6, counter_places=3, carry_reach=6)
tenths = st.integers(0, 50).map(lambda number: number / 10)


def blocks(axes, sort=""):
    return [patch for patch in axes.patches if isinstance(patch, StepPatch)
            and (patch.get_gid() or "").startswith(f"effort/{sort}")]


def area(axes):
    """What the blocks cover, in effort times degrees."""
    total = 0.0
    for patch in blocks(axes):
        values, edges, baseline = patch.get_data()
        total += sum((high - low) * (end - begin) for high, low, (begin, end)
                     in zip(values, baseline, pairwise(edges), strict=True) if high == high)
    return total


def turns(setting=1, result=999, way=1):
    machine = ready("slate", setting=setting, result=result)
    return machine.turn(way), machine.spec


class TestTheStack:
    """Blocks over a turn"""

    @settings(max_examples=25)
    @given(st.integers(0, 10**6 - 1), st.integers(0, 999),
           st.builds(Prices, wheel=tenths, lever=tenths, home=tenths, feel=tenths))
    def test_covers_the_work(self, shows, added, prices):
        """Effort times angle is work: the blocks' area, whatever they are stacked on."""
        ways = carried(SPEC, shows, added)
        for axes, way in zip(carries_chart(ways, prices).axes, ways, strict=True):
            hard = max(range(1, way.turns + 1), key=lambda turn: way.effort(prices, turn).peak)
            assert area(axes) == pytest.approx(way.effort(prices, hard).work * SPEC.pin_pitch, abs=1e-6)

    def test_wheels_can_be_counted(self):
        """Six wheels at once are six blocks, one on top of the other."""
        once = carries_chart(carried(load_spec("slate"), 99_999, 1)).axes[0]
        data = [patch.get_data() for patch in blocks(once, "wheel")]
        assert [(list(one.baseline), list(one.values)) for one in data] == [([at], [at + 1]) for at in range(6)]

    def test_stands_where_the_crank_is_heavy(self):
        """999 + 1 on slate, by hand: pin 1 at 139.5, carry pins at 224.5, 236.5, 248.5, each 9 degrees wide."""
        axes = effort_chart(*turns()).axes[0]
        moving = [(begin, end) for patch in blocks(axes, "wheel")
                  for value, (begin, end) in zip(patch.get_data().values, pairwise(patch.get_data().edges), strict=True)
                  if value == value]
        assert (moving[0], moving[1][0], moving[-1][1]) == ((139.5, 148.5), 224.5, 257.5)
        assert sum(end - begin for begin, end in moving) == 4 * 9

    def test_says_its_peak(self):
        assert [text.get_text() for text in effort_chart(*turns(9999, 9999)).axes[0].texts] == ["5.2"]
        assert not effort_chart(*turns(0, 5), Prices(counter=0)).axes[0].texts

    def test_without_anything_to_do_is_empty(self):
        for axes in carries_chart(carried(SPEC, 5, 0), Prices(feel=0)).axes:
            assert not blocks(axes)


class TestComparison:
    """Four mechanisms one above the other"""

    def test_has_one_angle_axis_and_one_scale(self):
        axes = carries_chart(carried(SPEC, 99_999, 1)).axes
        assert len({one.get_xlim() for one in axes}) == len({one.get_ylim() for one in axes}) == 1
        assert [one.get_title(loc="left") for one in axes] == [
            "at once: at most 6", "by lever and helix: at most 1.3", "looking ahead: at most 5",
            "in the head: at most 1; 6 turns, of which one is drawn"]

    def test_all_that_is_done_lies_within(self):
        ways = carried(SPEC, 99_999, 999)
        low, high = carries_chart(ways).axes[0].get_xlim()
        assert all(low <= doing.begin < doing.end <= high for way in ways for turn in way.doings for doing in turn)

    def test_of_nothing_is_refused(self):
        with pytest.raises(InputError, match="nothing to draw"):
            carries_chart(())


class TestTimetableWithEffort:
    """The timetable of a turn, and the effort under it"""

    def test_stand_on_one_axis(self):
        axes = timetable_with_effort(load_spec("slate"), turns()[0], turns(1, 1000, -1)[0]).axes
        assert {one.get_xlim() for one in axes} == {(0, 360)}
        assert [one.get_title(loc="left") for one in axes] == [
            "additive turn: the additive helix follows", "effort in this turn: 999 + 1",
            "subtractive turn: the subtractive helix follows", "effort in this turn: 1000 − 1"]

    def test_blocks_lie_under_the_bars_that_drive(self):
        """Every carry pin that was deflected has its block; the leading helix has none."""
        stroke, spec = turns()
        bars, effort = timetable_with_effort(spec, stroke).axes
        contacts = {event.start for event in stroke.events if event.kind == "carry step"}
        assert contacts <= {bar.get_x() for bar in bars.patches}
        assert contacts <= {edge for patch in blocks(effort, "wheel") for edge in patch.get_data().edges}
        leading = max(bar.get_x() + bar.get_width() for bar in bars.patches if 10 < bar.get_x() < 139)
        assert leading == 135.5  # on slate, the gap before the pins
        assert all(patch.get_data().edges[0] > leading for patch in blocks(effort))

    def test_without_a_turn_is_refused(self):
        with pytest.raises(InputError, match="no turn to draw"):
            timetable_with_effort(SPEC)


class TestLines:
    """Peaks against nines, angles against places"""

    def test_of_peaks_are_the_peaks(self):
        axes = peaks_chart(SPEC).axes[0]
        drawn = {line.get_label(): tuple(line.get_ydata()) for line in axes.get_lines()}
        assert drawn == peaks_by_nines(SPEC)
        assert [text.get_text() for text in axes.texts] == ["6 at once", "1.3 by lever and helix", "5 looking ahead",
                                                            "1 in the head"]

    def test_of_angles_end_where_they_leave_the_sheet(self):
        spec = load_spec("slate")
        axes = angles_chart(spec, 20).axes[0]
        drawn = {line.get_label(): tuple(line.get_ydata()) for line in axes.get_lines()}
        for name, angles in angles_by_places(spec, 20).items():
            if name != "in the head":  # the same line as "at once"
                assert drawn[name] == tuple(angle for angle in angles if angle <= 430)
        assert "81° at once,\nin the head" in [text.get_text() for text in axes.texts]

    @pytest.mark.parametrize(("name", "words"), [("slate", "full with 11 places"), ("ledger", "full with 18 places")])
    def test_the_end_of_the_turn_is_marked(self, name, words):
        axes = angles_chart(load_spec(name), 20).axes[0]
        (mark,) = [text for text in axes.texts if text.get_text().startswith("full")]
        assert (mark.get_text(), mark.xy[0]) == (words, load_spec(name).largest_carry_reach)
        assert 360 - load_spec(name).rest_arc in [line.get_ydata()[0] for line in axes.get_lines()]

    def test_names_at_the_ends_do_not_lie_on_one_another(self):
        for chart in (peaks_chart(SPEC), peaks_chart(SPEC, Prices(lever=5)), angles_chart(load_spec("slate"))):
            chart.canvas.draw()
            boxes = [text.get_window_extent() for text in chart.axes[0].texts]
            assert not [(one, two) for at, one in enumerate(boxes) for two in boxes[:at] if one.overlaps(two)]

    @pytest.mark.parametrize("most", [1, 41])
    def test_another_number_of_places_is_refused(self, most):
        with pytest.raises(InputError, match="the most places drawn"):
            angles_chart(SPEC, most)


class TestEyes:
    """For every eye, from the back of a room"""

    def test_nothing_hangs_on_colour(self):
        assert len({(look.get("hatch"), look["facecolor"]) for look in FILLS.values()}) == len(FILLS)
        assert len({look.get("hatch") for look in FILLS.values()}) == len(FILLS)
        assert len({mark for mark, *_ in LINES.values()}) == len({line for _, line, *_ in LINES.values()}) == len(NAMES)

    def test_edges_and_lines_stand_out(self):
        """3 to 1 for graphics, 4.5 to 1 for the names in a line's colour (WCAG 2.2, 1.4.11 and 1.4.3)."""
        for look in FILLS.values():
            assert max(contrast(to_hex(look[part]), PAPER) for part in ("facecolor", "edgecolor")) >= 3
        for _, _, color, _ in LINES.values():
            assert contrast(to_hex(color), PAPER) >= 4.5

    def test_the_type_is_large_enough_for_a_classroom(self):
        slate = load_spec("slate")
        for figure in (effort_chart(*turns()), carries_chart(carried(SPEC, 99, 1)), peaks_chart(SPEC),
                       angles_chart(slate), timetable_with_effort(slate, turns()[0])):
            figure.canvas.draw()
            assert min(text.get_fontsize() for text in figure.findobj(Text) if text.get_text()) >= SMALLEST
            assert figure._repr_png_()[0].startswith(b"\x89PNG")


class TestWords:
    """The numbers as text"""

    @settings(max_examples=25)
    @given(st.integers(0, 10**6 - 1), st.integers(0, 9999))
    def test_a_line_for_each_level(self, shows, added):
        stroke, spec = turns(added, shows)
        effort = effort_of(doings_of(stroke, spec), spec.pin_pitch)
        *lines, last = effort_text(stroke, spec).splitlines()
        found = [[float(number) for number in re.findall(r"([\d.]+)(?=°|  )", line)[:3]] for line in
                 (line + "  " for line in lines)]
        assert [row[2] for row in found] == [round(level, 2) for level in effort.levels]
        assert [row[0] for row in found] == [pytest.approx(angle, abs=0.005) for angle in effort.angles[:-1]]
        assert last == f"at most {round(effort.peak, 2):g}; work {round(effort.work, 2):g} wheel steps"

    def test_says_what_is_done_together(self):
        once = carried(SPEC, 999, 1)[0]
        assert effort_text(once).splitlines() == ["   153° to    159°  4     wheels 1, 2, 3 and 4 driven",
                                                  "at most 4; work 4 wheel steps"]

    def test_tables(self):
        assert carries_text(carried(SPEC, 5, 0)).splitlines()[1].split() == [
            "at", "once", "0", "0", "0", "1", "-"]
        assert peaks_text(SPEC, Prices(wheel=2)).splitlines()[1].split() == [
            "at", "once", "2", "4", "6", "8", "10", "12"]
        ledger = angles_text(load_spec("ledger"), (17, 18, 19)).splitlines()
        assert ledger[2].split()[-3:] == ["317.5", "333.5", "349.5"]

    @pytest.mark.parametrize(("what", "spec", "said"), [
        ("999 + 1", SPEC, "effort is asked of one turn of the crank, or of an addition by `carried`, not of '999"),
        (ready("slate").shift(1), SPEC, "not of shift"),
        (turns()[0], None, "a turn does not know its machine: give the spec as well")])
    def test_anything_else_is_refused(self, what, spec, said):
        for ask in (effort_text, effort_chart):
            with pytest.raises(InputError, match=said):
                ask(what, spec)
