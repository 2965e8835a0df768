"""A still with the names of the parts beside it."""

from __future__ import annotations

import pytest
from matplotlib.text import Text

from mechcalc import InputError, Machine, machine_names
from mechcalc.classroom import ready
from mechcalc.view import still
from mechcalc.view.drawing import Shape, _Sheet
from mechcalc.view.naming import anchors, named_parts
from mechcalc.view.subject import timeline_of

ALWAYS = {"setting lever", "drum", "idler", "number wheel", "counter wheel", "carriage", "crank"}


def sheet_of(machine: Machine) -> _Sheet:
    told = timeline_of(machine)
    return _Sheet(told, told["length"])


def touches(shape: Shape, point: tuple[float, float], near: float = 4.0) -> bool:
    xs, ys = zip(*shape.points, strict=True)
    return min(xs) - near <= point[0] <= max(xs) + near and min(ys) - near <= point[1] <= max(ys) + near


def small_enough(shape: Shape) -> bool:
    """A part, not the sheet's or the drum's ground."""
    xs, ys = zip(*shape.points, strict=True)
    return (max(xs) - min(xs)) * (max(ys) - min(ys)) < 2000


@pytest.mark.parametrize("name", machine_names())
@pytest.mark.parametrize("carriage", [0, 2])
def test_every_name_points_at_something(name: str, carriage: int) -> None:
    """Where an arrow ends something is drawn, on every machine, with the carriage shifted too."""
    machine = ready(name, setting=352, carriage=carriage)
    machine.crank(171.0)
    sheet = sheet_of(machine)
    drawing = sheet.draw()
    for part, point in anchors(sheet).items():
        near = [shape for shape in drawing.items if isinstance(shape, Shape) and touches(shape, point)]
        assert any(part in ("drum", "carriage") or small_enough(shape) for shape in near), part


def test_a_pin_out_is_one_that_is_out() -> None:
    """With nothing on the units' lever the arrow goes to the next place that has a pin out."""
    machine = ready("slate", setting=350)
    machine.crank(171.0)
    sheet = sheet_of(machine)
    assert abs(anchors(sheet)["pin, out"][0] - sheet.x(2)) < 15
    assert abs(anchors(sheet)["pin, in"][0] - sheet.x(1)) < 15


def test_names_stand_beside_the_machine() -> None:
    """No name lies on the drum or the carriage, and none on another."""
    machine = ready("slate", setting=352)
    machine.crank(171.0)
    figure = named_parts(machine)
    figure.draw_without_rendering()
    names = [text for text in figure.axes[0].texts if text.get_text() in ALWAYS | {"pin, in", "pin, out"}]
    assert {text.get_text() for text in names} == ALWAYS | {"pin, in", "pin, out"}
    own = [Text.get_window_extent(text) for text in names]  # without the arrows
    assert not any(one.overlaps(two) for index, one in enumerate(own) for two in own[index + 1:])
    sheet = sheet_of(machine)
    left = figure.axes[0].transData.transform((sheet.x(6) - 0.6 * 46, 0))[0]
    right = figure.axes[0].transData.transform((sheet.right, 0))[0]
    assert all(box.x1 <= left or box.x0 >= right for box in own)
    assert min(text.get_fontsize() for text in names) >= 14


def test_at_rest_no_pin_can_be_seen() -> None:
    """The pins are half a turn away."""
    machine = ready("slate", setting=352)
    assert set(anchors(sheet_of(machine))) == ALWAYS
    assert "pin, out" not in [text.get_text() for text in named_parts(machine).axes[0].texts]


def test_at_a_travel_of_a_whole_turn() -> None:
    """The same still as without names, at the same angle, and the same names as for a crank that has stopped there."""
    machine = ready("slate", setting=352)
    machine.turn()
    words = [text.get_text() for text in named_parts(machine, 171).axes[0].texts]
    plain = [text.get_text() for text in still(machine, 171).axes[0].texts]
    assert words[:len(plain)] == plain
    assert set(words[len(plain):]) == ALWAYS | {"pin, in", "pin, out"}
    assert "A number pin moves wheel 2 one step on." in plain


@pytest.mark.parametrize("what", [None, 3, "slate"])
def test_only_what_can_be_pictured_has_parts(what: object) -> None:
    with pytest.raises(InputError, match="can be shown, not"):
        named_parts(what)
