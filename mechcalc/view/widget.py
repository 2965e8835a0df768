"""The live picture in a notebook: to operate a machine, or to watch what was done.

Only this file talks to the browser. It sends a timeline once after each stroke; what happens between (playing,
dragging the crank) needs no kernel. What the page asks for is done by the machine, which may refuse.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import anywidget
import traitlets

from mechcalc.errors import InputError, Locked, MechcalcError
from mechcalc.events import Stroke
from mechcalc.machine import Machine
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec
from mechcalc.view.bundle import module, styles
from mechcalc.view.subject import timeline_of
from mechcalc.view.timeline import ahead, digest, refused
from mechcalc.words import describe

LAST = 60  # strokes of a live machine that its picture can go back through


class MachineView(anywidget.AnyWidget):
    """A picture of a machine in action. Made by `show`.

    Attributes
    ----------
    travel : float
        Where the playhead rests, in degrees since the first stroke; synced when it is paused or moved, not while it
        plays. A live machine's picture always comes to rest at the end.
    large : bool
        Large type, for a projector.
    """

    _esm = module()
    _css = styles()
    scene = traitlets.Dict().tag(sync=True)
    travel = traitlets.Float(0.0).tag(sync=True)
    large = traitlets.Bool(False).tag(sync=True)

    def __init__(self, what: Any, *, spec: MachineSpec | None = None, title: str | None = None,
                 travel: float | None = None, large: bool = False) -> None:
        self.machine = what if isinstance(what, Machine) else None
        self._title = title
        self._known: tuple[Stroke, ...] = ()
        if self.machine is not None:
            scene = self._live_scene()
        else:
            scene = {"live": False, "timeline": timeline_of(what, spec=spec, title=title)}
        length = scene["timeline"]["length"]
        at = length if travel is None and self.machine is not None else travel or 0.0
        super().__init__(scene=scene, travel=min(max(float(at), 0.0), length), large=large)
        if self.machine is not None:
            self._stop_watching: Callable[[], None] = self.machine.watch(self._machine_moved)
        self.on_msg(self._asked)

    def __repr__(self) -> str:
        timeline = self.scene["timeline"]
        kind = "live" if self.scene["live"] else f"at {self.travel:g}"
        return (f"<MachineView {timeline['title']!r}: {len(timeline['strokes'])} strokes, {kind}, "
                f"timeline {digest(timeline)}>")

    def close(self) -> None:
        """Stop watching the machine, and close the widget."""
        if self.machine is not None:
            self._stop_watching()
        super().close()

    # A live machine.

    def _live_scene(self) -> dict[str, Any]:
        """Timeline, what is new in it, and what a turn either way would do."""
        assert self.machine is not None
        strokes = self.machine.strokes
        timeline = timeline_of(self.machine, title=self._title, last=LAST)
        same = 0
        for was, now in zip(self._known, strokes, strict=False):
            if was is not now:
                break
            same += 1
        undone = same < len(self._known)
        new = len(strokes) - same
        self._known = strokes
        told = timeline["strokes"]
        begin = told[-new]["from"] if 0 < new <= len(told) else 0.0 if new else timeline["length"]
        return {"live": True, "timeline": timeline, "from": begin, "jump": undone, "canUndo": bool(strokes),
                "ahead": ahead(self.machine)}

    def _machine_moved(self) -> None:
        self.scene = self._live_scene()

    def _asked(self, _: Any, content: Any, __: Any) -> None:
        """A message from the page: ``{operation, argument}``."""
        if self.machine is None or not isinstance(content, dict):
            return
        try:
            self._do(content.get("operation"), content.get("argument"))
        except Locked as refusal:
            self.send(refused(refusal))
        except MechcalcError as error:
            self.send({"reason": str(error), "part": self._part_of(content), "frees": ""})

    def _do(self, operation: Any, argument: Any) -> None:
        assert self.machine is not None
        if operation == "undo":
            self._undo()
        elif operation == "turn":
            self._turn(argument)
        elif operation == "set":
            self.machine.perform("set", _number(argument))
        else:
            before = self.machine.strokes
            self.machine.perform(operation, argument)
            if self.machine.strokes == before:
                self.send({"words": "Nothing has moved."})

    def _turn(self, direction: Any) -> None:
        """A whole turn; a crank that stands part way finishes the turn."""
        assert self.machine is not None
        if direction not in (1, -1):
            raise InputError(f"a turn is 1 or -1, not {shown(direction)}")
        self.machine.perform("crank", direction * (360.0 - self.machine.state.angle))

    def _undo(self) -> None:
        assert self.machine is not None
        undone = self.machine.undo()
        self.send({"words": "There is nothing to undo." if undone is None else
                   f"Undone: {describe(undone)}. {_reading(self.machine)}"})

    def _part_of(self, content: dict[str, Any]) -> str:
        """Where a bad argument is shown: at the lever that was meant, or at the units lever."""
        operation, argument = content.get("operation"), content.get("argument")
        assert self.machine is not None
        places = range(1, self.machine.spec.setting_places + 1)
        if operation == "set lever" and isinstance(argument, list) and argument and argument[0] in places:
            return f"setting/{argument[0]}"
        return "setting/1" if operation in ("set", "set lever") else "crank"


def _number(text: Any) -> Any:
    """What was typed, as a number where it is one; otherwise the machine says what is wrong with it."""
    return int(text) if isinstance(text, str) and text.isascii() and text.isdigit() and len(text) < 100 else text


def _reading(machine: Machine) -> str:
    return f"Setting {machine.setting}, result {machine.result}, counter {machine.counter}."


def show(what: Any, *, spec: MachineSpec | None = None, title: str | None = None, travel: float | None = None,
         large: bool = False, solid: bool | str = False) -> MachineView:
    """A picture to operate or to watch.

    Parameters
    ----------
    what : Machine, Working, Stroke or sequence of Stroke
        A machine is live: the page can crank, set, shift and clear it, and what Python does to it is seen. Anything
        else is a record to play, stop and step through.
    spec : MachineSpec, optional
        For bare strokes: the machine they were made on.
    title : str, optional
        The heading.
    travel : float, optional
        For a record: where the playhead begins, in degrees since the first stroke; 0 unless given.
    large : bool
        Large type, for a projector.
    solid : bool or str
        In three dimensions: to turn, cut open and follow the carry in. ``"both"`` sets the flat picture beside it, on
        one playhead; ``"follow"`` begins by following the carry. Where a browser cannot draw solids, the flat picture
        takes its place and says why.

    Returns
    -------
    MachineView
        Its repr carries a digest of the timeline, so that a lesson's validation notices a change.

    Raises
    ------
    InputError
        Something that cannot be shown.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.view import show
    >>> m = Machine(load_spec("slate"))
    >>> view = show(m)
    >>> _ = m.set(12)
    >>> [stroke["words"] for stroke in view.scene["timeline"]["strokes"]]
    ['set 12']
    >>> show(m, solid="both").solid["picture"]
    'both'
    """
    if solid:
        from mechcalc.view.solid import SolidView
        from mechcalc.view.solid.setting import setting_for

        return SolidView(what, spec=spec, title=title, travel=travel, large=large, **setting_for(solid))
    return MachineView(what, spec=spec, title=title, travel=travel, large=large)
