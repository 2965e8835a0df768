"""The solid view as Python has it: what it is told, what a page gets and what a notebook saves."""

from __future__ import annotations

import gzip
import json
import re
from typing import Any

import pytest

from mechcalc import InputError, Machine, load_spec
from mechcalc.bench import CarryPinGone, Machine as BenchMachine
from mechcalc.view import show, take_home
from mechcalc.view.solid import SolidView
from mechcalc.view.solid.script import ROOM, loader, page_script, sources, version
from mechcalc.view.solid.setting import PICTURES, VIEWPOINTS


def slate() -> Machine:
    return Machine(load_spec("slate"))


def asked(view: SolidView, content: Any) -> list[Any]:
    """What a view sends when its page asks for something."""
    sent: list[Any] = []
    view.send = lambda message, buffers=None: sent.append(message)  # type: ignore[method-assign]
    view._asked(view, content, [])
    return sent


class TestShow:
    """``show(what, solid=…)``."""

    def test_makes_a_solid_view_of_the_same_timeline(self) -> None:
        """The flat view and the solid one are told the same."""
        machine = slate()
        machine.set(12)
        assert show(machine, solid=True).scene["timeline"] == show(machine).scene["timeline"]

    @pytest.mark.parametrize(("solid", "setting"), [
        (True, {"picture": "solid", "viewpoint": "home", "follow": False}),
        ("both", {"picture": "both", "viewpoint": "home", "follow": False}),
        ("follow", {"picture": "solid", "viewpoint": "home", "follow": True}),
    ])
    def test_options(self, solid: bool | str, setting: dict[str, Any]) -> None:
        """Alone, beside the flat one, or following the carry."""
        assert show(slate(), solid=solid).solid == setting

    def test_another_option_is_refused(self) -> None:
        """With what there is."""
        with pytest.raises(InputError, match="solid is True, 'both' or 'follow', not 'sideways'"):
            show(slate(), solid="sideways")

    def test_goes_to_a_viewpoint(self) -> None:
        """From Python; one that is none is refused and nothing has moved."""
        view = show(slate(), solid=True)
        assert isinstance(view, SolidView)
        view.look("behind", follow=False)
        assert view.solid["viewpoint"] == "behind"
        with pytest.raises(InputError, match="'below' is no viewpoint: there are home, front"):
            view.look("below")
        assert view.solid["viewpoint"] == "behind"

    def test_tells_the_page_what_is_wrong_with_the_machine(self) -> None:
        """A fault is sent by name and figures, before and after a stroke."""
        machine = BenchMachine(load_spec("slate"), faults=[CarryPinGone(place=3, direction=1)])
        view = show(machine, solid=True)
        wanted = {"fault": "carry pin gone", "place": 3, "direction": 1}
        for _ in range(2):
            told, = view.scene["timeline"]["faults"]
            assert {key: told[key] for key in wanted} == wanted
            machine.turn()


class TestLoading:
    """What is saved with a widget, and what a page fetches."""

    def test_a_saved_view_holds_the_loader_only(self) -> None:
        """Two kilobytes instead of the code, and no style sheet."""
        state = show(slate(), solid=True).get_state()
        assert len(state["_esm"]) < 3000
        assert "drawElementsInstanced" not in json.dumps(state)
        assert len(state["_css"]) == 0

    def test_the_code_is_sent_when_it_is_asked_for(self) -> None:
        """With its version, so that a page that holds an older one does not mistake it."""
        view = show(slate(), solid=True)
        assert isinstance(view, SolidView)
        message, = asked(view, {"fetch": version()})
        assert message["solid"] == version()
        assert message["code"] == page_script()
        assert ".solid canvas" in message["styles"]

    def test_the_hand_still_operates_the_machine(self) -> None:
        """What the flat view's page asks for is done."""
        machine = slate()
        view = show(machine, solid=True)
        assert isinstance(view, SolidView)
        asked(view, {"operation": "set", "argument": "34"})
        assert machine.setting == 34

    def test_weight(self) -> None:
        """Under 250 kB gzipped, as the largest allowed; a fifth of it, as it is."""
        assert len(gzip.compress(page_script().encode())) < 80_000
        assert f'"{version()}"' in loader()


class TestModules:
    """The room's JavaScript."""

    def test_joins_into_one_script(self) -> None:
        """Nothing is imported any more, and only the entry is exported."""
        assert re.findall(r"^(?:import|export)\b.*$", page_script(), re.MULTILINE) == ["export {renderSolid};"]

    def test_holds_every_module(self) -> None:
        """Each opens with its scope, and none lies there unused."""
        for path in ROOM.glob("*.js"):
            first = path.read_text(encoding="utf-8").splitlines()[0]
            assert first.startswith("// "), f"{path.name} opens with its scope"
            assert first in page_script(), f"{path.name} is not part of the solid view"

    def test_only_the_stage_knows_how_things_are_drawn(self) -> None:
        """It is the one module to replace for another renderer."""
        knowing = {name for name, source in sources(ROOM).items() if re.search(r"\bgl\.|webgl", source, re.IGNORECASE)}
        assert knowing - {"solidindex", "solidscene"} == {"stage"}
        assert not any("gl." in sources(ROOM)[name] for name in ("solidindex", "solidscene"))

    def test_asks_no_network(self) -> None:
        """Nothing names an address, but the SVG name space."""
        assert set(re.findall(r"https?://[\w./]+", page_script() + loader())) == {"http://www.w3.org/2000/svg"}

    def test_names_agree_with_python(self) -> None:
        """Viewpoints and pictures have the same names on both sides."""
        assert re.findall(r'\{id: "(\w+)", words', sources(ROOM)["solidcamera"]) == list(VIEWPOINTS)
        pictures = re.search(r"PICTURES = (\[.*\]);", sources(ROOM)["solidpanel"])
        assert pictures
        assert [name for name, _ in json.loads(pictures[1])] == list(PICTURES)


def test_a_page_to_take_home_holds_the_code(tmp_path: Any) -> None:
    """One file, no network, and whatever a title holds is text."""
    machine = slate()
    machine.set(7)
    text = take_home(machine, tmp_path / "solid.html", title="</script><b>", solid=True).read_text(encoding="utf-8")
    assert "renderSolid({model" in text
    assert "</script><b>" not in text
    assert "http" not in text.replace("http-equiv", "").replace("http://www.w3.org/2000/svg", "")
