"""The widget on the Python side: what it sends, what it does when asked, how it is written."""

from __future__ import annotations

import re
from typing import Any

import pytest

from mechcalc import InputError, Machine, load_spec
from mechcalc.methods import multiply
from mechcalc.view import MachineView, show
from tests.view.sessions import nines


@pytest.fixture
def live() -> tuple[Machine, MachineView, list[dict[str, Any]]]:
    """A machine, its view, and what the view says to the page."""
    machine = Machine(load_spec("slate"))
    view = show(machine)
    said: list[dict[str, Any]] = []
    view.send = lambda content, buffers=None: said.append(content)  # type: ignore[method-assign]
    return machine, view, said


def ask(view: MachineView, operation: Any, argument: Any = None) -> None:
    view._asked(view, {"operation": operation, "argument": argument}, [])


class TestALiveMachine:
    def test_is_told_what_is_new(self, live: tuple[Machine, MachineView, list[dict[str, Any]]]) -> None:
        """After a stroke the scene says where in the timeline it begins, so that only it is played."""
        machine, view, _ = live
        machine.set(9999)
        machine.turn()
        assert (view.scene["from"], view.scene["timeline"]["length"]) == (120, 480)
        assert view.scene["jump"] is False
        machine.undo()
        assert (view.scene["from"], view.scene["timeline"]["length"], view.scene["jump"]) == (120, 120, True)

    def test_does_what_the_page_asks(self, live: tuple[Machine, MachineView, list[dict[str, Any]]]) -> None:
        """Every control's message is done by the machine; what was typed is a text."""
        machine, view, said = live
        for operation, argument in (("set", "347"), ("turn", 1), ("shift", 1), ("set lever", [2, 5]), ("crank", 100.0),
                                    ("turn", 1), ("clear counter", None)):
            ask(view, operation, argument)
        assert (machine.setting, machine.result, machine.counter, machine.carriage) == (357, 3917, 0, 1)
        assert said == []

    def test_a_turn_button_finishes_a_turn(self, live: tuple[Machine, MachineView, list[dict[str, Any]]]) -> None:
        """Pressed while the crank stands part way, the button of that way finishes the turn; the other is refused."""
        machine, view, said = live
        machine.crank(-90.0)
        ask(view, "turn", 1)
        assert said[0]["part"] == "pawl"
        ask(view, "turn", -1)
        assert machine.state.direction == 0

    @pytest.mark.parametrize(("operation", "argument", "part", "reason"), [
        ("set", "12345", "setting/1",
         "the setting cannot be 12345: there are 4 levers, and the largest setting is 9999"),
        ("set", "twelve", "setting/1", "the setting must be a whole number, not 'twelve' (str)"),
        ("set", "", "setting/1", "the setting must be a whole number, not '' (str)"),
        ("set lever", [3, 12], "setting/3", "lever 3 cannot be set to 12: a lever goes from 0 to 9"),
        ("set lever", [9, 1], "setting/1", "a setting lever's place cannot be 9: it goes from 1 to 4"),
        ("turn", 7, "crank", "a turn is 1 or -1, not 7"),
        ("shift", -1, "stop/right", "the carriage cannot go from position 0 by -1: it stops at 0 and at 2"),
        ("fly", None, "crank", None),
    ])
    def test_refuses_at_the_part(self, live: tuple[Machine, MachineView, list[dict[str, Any]]], operation: str,
                                 argument: Any, part: str, reason: str | None) -> None:
        """What cannot be done comes back with the part at which it is shown, and nothing has changed."""
        machine, view, said = live
        before, scene = machine.state, view.scene
        ask(view, operation, argument)
        assert (machine.state, view.scene) == (before, scene)
        assert said[0]["part"] == part
        assert reason is None or said[0]["reason"] == reason

    def test_no_answer_is_missing(self, live: tuple[Machine, MachineView, list[dict[str, Any]]]) -> None:
        """A movement of nothing, an undo of nothing: the page is told, and does not wait for ever."""
        _, view, said = live
        ask(view, "crank", 0.0)
        ask(view, "undo")
        assert said == [{"words": "Nothing has moved."}, {"words": "There is nothing to undo."}]

    def test_undo_says_what_it_undid(self, live: tuple[Machine, MachineView, list[dict[str, Any]]]) -> None:
        machine, view, said = live
        machine.set(12)
        ask(view, "undo")
        assert said == [{"words": "Undone: set 12. Setting 0, result 0, counter 0."}]

    def test_noise_is_left_alone(self, live: tuple[Machine, MachineView, list[dict[str, Any]]]) -> None:
        """A message that is no request changes nothing."""
        machine, view, said = live
        view._asked(view, "hello", [])
        assert (machine.strokes, said) == ((), [])

    def test_goes_back_sixty_strokes(self) -> None:
        """The picture of a long session stays of a size; what is new is still told."""
        machine = Machine(load_spec("slate"))
        view = show(machine)
        for _ in range(70):
            machine.turn()
        assert len(view.scene["timeline"]["strokes"]) == 60
        assert view.scene["from"] == view.scene["timeline"]["length"] - 360

    def test_closed_it_hears_no_more(self) -> None:
        machine = Machine(load_spec("slate"))
        view = show(machine)
        view.close()
        machine.set(5)
        assert view.scene["timeline"]["strokes"] == []


class TestARecord:
    def test_of_a_working(self) -> None:
        """A working is shown under its own title, with a line of words and algebra for each stroke."""
        working = multiply(Machine(load_spec("slate")), 347, 12)
        timeline = show(working).scene["timeline"]
        assert timeline["title"] == "347 × 12"
        assert [stroke["algebra"] for stroke in timeline["strokes"]] == [str(line.algebra) for line in working.lines]

    def test_asks_nothing_of_a_machine(self) -> None:
        """A record has no machine: a message to operate is left alone."""
        view = show(nines().strokes, spec=load_spec("slate"))
        ask(view, "turn", 1)
        assert view.scene["timeline"]["strokes"][-1]["reading"]["result"] == 10000

    def test_begins_where_it_is_told(self) -> None:
        """The playhead begins at 0, or at a travel within the record."""
        strokes, spec = nines().strokes, load_spec("slate")
        assert [show(strokes, spec=spec, travel=travel).travel for travel in (None, 100.0, 1e9, -5)] == [0, 100, 960, 0]

    @pytest.mark.parametrize(("what", "spec", "message"), [
        (7, "slate", "a machine, a working or strokes can be shown, not 7 (int)"),
        ("347 x 12", "slate", "a machine, a working or strokes can be shown, not '347 x 12' (str)"),
        ([], "slate", "there is no stroke to show"),
        (nines().strokes, None, "bare strokes do not say what machine they were made on: give spec=machine.spec"),
        (nines().strokes[::2], "slate", "stroke 2 does not begin where stroke 1 ended"),
    ])
    def test_refuses_what_cannot_be_shown(self, what: Any, spec: str | None, message: str) -> None:
        with pytest.raises(InputError) as refusal:
            show(what, spec=load_spec(spec) if spec else None)
        assert str(refusal.value) == message


class TestRepr:
    def test_is_the_same_every_time(self) -> None:
        """No address, no model id: two views of the same thing are written alike."""
        first, second = (show(nines().strokes, spec=load_spec("slate")) for _ in range(2))
        assert repr(first) == repr(second)
        assert re.fullmatch(r"<MachineView 'Slate': 4 strokes, at 0, timeline [0-9a-f]{10}>", repr(first))

    def test_changes_with_the_timeline(self) -> None:
        """Another result, another digest: a lesson's validation would notice."""
        machine = nines()
        before = repr(show(machine))
        machine.turn()
        machine.undo()
        assert repr(show(machine)) == before
        machine.turn(-1)
        assert repr(show(machine)) != before
