"""The chart of one turn."""

from __future__ import annotations

import pytest

from mechcalc import InputError, load_spec, machine_names
from mechcalc.classroom import ready
from mechcalc.events import Kind, Stroke
from mechcalc.view.turn_charts import COUNTER, Mark, marks, turn_chart


def turned(setting: int, result: int, turns: int = 1, name: str = "slate") -> Stroke:
    stroke = ready(name, setting=setting, result=result).turn(turns)
    assert isinstance(stroke, Stroke)
    return stroke


class TestMarks:
    def test_of_an_addition_without_a_carry(self) -> None:
        """One block a pin, one after another from the first pin's angle on; then the counter. Angles of slate's drum,
        worked by hand: nine pins of 9 degrees about 180, so the first meets its idler at 180 - 40.5."""
        found = marks(turned(201, 402))
        assert found[:3] == (Mark(1, Kind.NUMBER_STEP, 139.5, 148.5), Mark(3, Kind.NUMBER_STEP, 139.5, 148.5),
                             Mark(3, Kind.NUMBER_STEP, 148.5, 157.5))
        assert [(mark.row, mark.kind) for mark in found[3:]] == [(COUNTER, Kind.COUNTER_STEP)]

    def test_count_what_is_on_the_levers(self) -> None:
        """As many number steps in a row as its lever says, on every machine and either way."""
        for name in machine_names():
            for turns in (1, -1):
                rows = [mark.row for mark in marks(turned(3142, 5555, turns, name)) if mark.kind is Kind.NUMBER_STEP]
                assert [rows.count(wheel) for wheel in (1, 2, 3, 4, 5)] == [2, 4, 1, 3, 0]

    def test_a_lever_is_out_from_its_throw_to_its_homing(self) -> None:
        assert [mark for mark in marks(turned(1, 9)) if mark.kind is Kind.LEVER_OUT] == [
            Mark(1, Kind.LEVER_OUT, 151.5, 233.5)]

    def test_a_lever_that_is_out_when_the_crank_stops(self) -> None:
        """The part of a turn shows it up to the stop, the rest of the turn from there on."""
        machine = ready("slate", setting=1, result=9)
        first, rest = machine.crank(200.0), machine.finish_turn()
        assert isinstance(first, Stroke)
        assert rest is not None
        assert marks(first)[-1] == Mark(1, Kind.LEVER_OUT, 151.5, 200.0)
        assert Mark(1, Kind.LEVER_OUT, 200.0, 233.5) in marks(rest)

    def test_the_bell(self) -> None:
        assert Mark(6, Kind.BELL, 360.0, 360.0) in marks(turned(1, 999999))

    def test_a_step_where_no_wheel_stands_has_no_row(self) -> None:
        """Levers that hang over the end of the register move nothing."""
        machine = ready("bench", setting=900_000_000, carriage=7)
        assert [mark.row for mark in marks(machine.turn())] == [COUNTER]  # type: ignore[arg-type]


class TestTheChart:
    def test_shows_every_mark_in_its_row(self) -> None:
        """One shape for each mark, where the mark is."""
        stroke = turned(3595, 996408)
        axes = turn_chart(stroke, load_spec("slate")).axes[0]
        blocks = [shape for shape in axes.collections if shape.get_gid()]
        stars = [line for line in axes.lines if line.get_gid()]
        assert sorted(shape.get_gid() for shape in (*blocks, *stars)) == sorted(
            f"{mark.kind.value}/{mark.row}" for mark in marks(stroke))
        for shape in blocks:
            box = shape.get_paths()[0].get_extents()
            name, row = shape.get_gid().split("/")
            assert Mark(int(row), Kind(name), box.x0, box.x1) in marks(stroke)
            assert int(row) - 0.5 < box.y0 < box.y1 < int(row) + 0.5

    def test_names_rows_and_their_digits(self) -> None:
        stroke = turned(352, 1204)
        left, right = turn_chart(stroke, load_spec("slate")).axes
        assert [text.get_text() for text in left.get_yticklabels()] == [
            "counter", "wheel 1", "wheel 2", "wheel 3", "wheel 4"]
        assert [text.get_text() for text in right.get_yticklabels()] == [
            "0 → 1", "4 → 6", "0 → 5", "2 → 5", "1 → 1"]

    def test_a_span_cuts_off_what_lies_outside(self) -> None:
        figure = turn_chart(turned(9, 9), load_spec("slate"), span=(130, 160), counter=False)
        boxes = [shape.get_paths()[0].get_extents() for shape in figure.axes[0].collections if shape.get_gid()]
        assert len(boxes) == 4  # three pins, one of them cut, and the lever
        assert max(box.x1 for box in boxes) == 160
        assert figure.axes[0].get_xlim() == (130, 160)

    def test_can_be_read_from_the_back_of_a_room(self) -> None:
        """Fourteen points or more, in rows, marks and legend."""
        figure = turn_chart(turned(3595, 996408), load_spec("slate"))
        left, right = figure.axes
        words = [*left.get_xticklabels(), *left.get_yticklabels(), left.xaxis.label, *right.get_yticklabels(),
                 *figure.legends[0].get_texts()]
        assert min(text.get_fontsize() for text in words if text.get_text()) >= 14
        assert [text.get_text() for text in figure.legends[0].get_texts()] == [
            "step by a number pin", "step by a carry pin", "carry lever out", "step of the counter", "bell"]

    def test_marks_differ_without_colour(self) -> None:
        """Kinds of block differ by hatch, or by height."""
        axes = turn_chart(turned(3595, 996408), load_spec("slate")).axes[0]
        looks = {}
        for shape in axes.collections:
            if shape.get_gid():
                box = shape.get_paths()[0].get_extents()
                looks[shape.get_gid().split("/")[0]] = (shape.get_hatch(), round(box.height, 3))
        assert len(set(looks.values())) == len(looks) == 4

    def test_only_a_turn_is_charted(self) -> None:
        spec, machine = load_spec("slate"), ready("slate")
        with pytest.raises(InputError, match=r"drawn of one turn of the crank, not of set$"):
            turn_chart(machine.set(12), spec)
        with pytest.raises(InputError, match=r"not of \(\)$"):
            turn_chart(machine.turn(0), spec)  # type: ignore[arg-type]

    @pytest.mark.parametrize("span", [(200, 100), (100, 100), (-10, 90), (0, 400)])
    def test_a_span_that_is_none_is_refused(self, span: tuple[float, float]) -> None:
        with pytest.raises(InputError, match="a span of a turn goes up"):
            turn_chart(turned(1, 0), load_spec("slate"), span=span)
