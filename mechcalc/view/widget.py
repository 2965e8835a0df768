"""The live picture in a notebook: to operate a machine, or to watch what was done.

Only this file talks to the browser. It sends a timeline once after each stroke; what happens between (playing,
dragging the crank) needs no kernel. What the page asks for is done by the machine, which may refuse.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import anywidget
import traitlets

from mechcalc.machine import Machine
from mechcalc.parts import Parts
from mechcalc.spec import MachineSpec
from mechcalc.view import asking
from mechcalc.view.asking import Prediction, answers_from, record_scene, wanted, when
from mechcalc.view.bundle import module, styles
from mechcalc.view.live import Live
from mechcalc.view.subject import subject_of
from mechcalc.view.timeline import digest


class MachineView(anywidget.AnyWidget):
    """A picture of a machine in action. Made by `show`.

    Attributes
    ----------
    travel : float
        Where the playhead rests, in degrees since the first stroke; synced when it is paused or moved, not while it
        plays. A live machine's picture always comes to rest at the end.
    large : bool
        Large type, for a projector.
    answers : dict
        What has been foretold, by question; see `mechcalc.view.asking`.
    """

    _esm = module()
    _css = styles()
    scene = traitlets.Dict().tag(sync=True)
    travel = traitlets.Float(0.0).tag(sync=True)
    large = traitlets.Bool(False).tag(sync=True)
    waits = traitlets.Bool(False).tag(sync=True)
    answers = traitlets.Dict().tag(sync=True)

    def __init__(self, what: Any, *, spec: MachineSpec | None = None, title: str | None = None,
                 travel: float | None = None, large: bool = False, predict: str | Sequence[str] | None = None,
                 ask: str | None = None, wait_at_carries: bool = False, parts: Parts | None = None,
                 reveal: bool = True) -> None:
        self.machine = what if isinstance(what, Machine) else None
        self._live: Live | None = None
        self._stop_watching: Callable[[], None] = lambda: None
        self._met: list[tuple[str, Prediction]] = []
        self._closed: set[str] = set()  # questions that have been met and are not asked again
        if self.machine is not None:
            when(ask, live=True)
            self._live = Live(self.machine, title, wanted(predict), reveal)
            scene = self._live_scene()
        else:
            scene = record_scene(subject_of(what, spec=spec, title=title, parts=parts), predict, ask,
                                 reveal=reveal)
        length = scene["timeline"]["length"]
        at = length if travel is None and self.machine is not None else travel or 0.0
        self._listeners = [listener() for listener in asking.LISTENERS] if scene["asks"] else []
        super().__init__(scene=scene, travel=min(max(float(at), 0.0), length), large=large, waits=wait_at_carries)
        if self.machine is not None:
            self._stop_watching = self.machine.watch(self._machine_moved)
        self.on_msg(self._asked)

    def __repr__(self) -> str:
        timeline = self.scene["timeline"]
        kind = "live" if self.scene["live"] else f"at {self.travel:g}"
        return (f"<MachineView {timeline['title']!r}: {len(timeline['strokes'])} strokes, {kind}, "
                f"timeline {digest(timeline)}>")

    @property
    def predictions(self) -> tuple[Prediction, ...]:
        """What has been foretold in the page and then seen, oldest first."""
        return tuple(prediction for _, prediction in self._met)

    def close(self) -> None:
        """Stop watching the machine, and close the widget."""
        self._stop_watching()
        super().close()

    def _machine_moved(self) -> None:
        assert self._live is not None
        undone = self._live.undone(self.answers)
        self._closed -= undone
        with self.hold_sync():
            self.answers = {key: answer for key, answer in self.answers.items() if key not in undone}
            self.scene = self._live_scene()

    def _live_scene(self) -> dict[str, Any]:
        assert self._live is not None
        past = [{"id": key, "about": one.about, "foretold": str(one.foretold), "happened": str(one.happened)}
                for key, one in self._met]
        return {**self._live.scene(self.answers), "past": past}

    def _asked(self, _: Any, content: Any, __: Any) -> None:
        """A message from the page: ``{operation, argument}``."""
        reply = self._live.asked(content) if self._live else None
        if reply:
            self.send(reply)

    # Predictions.

    @traitlets.validate("answers")
    def _plain(self, proposal: dict[str, Any]) -> dict[str, Any]:
        return answers_from(proposal["value"])

    @traitlets.observe("answers")
    def _answered(self, change: dict[str, Any]) -> None:
        """Shutters that have opened in the page: what was foretold is put beside what came."""
        seen = [(question, timeline) for question, timeline in self._questions()
                if change["new"].get(question["id"], {}).get("opened") and question["to"] is not None
                and question["id"] not in self._closed]
        for question, timeline in seen:
            made = asking.met(question, change["new"][question["id"]], timeline)
            self._met.append((question["id"], made))
            self._closed.add(question["id"])
            for listener in self._listeners:
                listener(made)
            if self._live:
                self._live.opened(question)
        if seen and self._live:
            self.scene = self._live_scene()

    def _questions(self) -> list[tuple[asking.Question, asking.Timeline]]:
        """Every question that the page knows, with the timeline that it is on."""
        scene = self.scene or {"questions": []}
        ways = [way for way in scene.get("ahead", {}).values() if "timeline" in way]
        return [(question, where["timeline"]) for where in (scene, *ways) for question in where["questions"]]


def show(what: Any, *, spec: MachineSpec | None = None, title: str | None = None, travel: float | None = None,
         large: bool = False, predict: str | Sequence[str] | None = None, ask: str | None = None,
         wait_at_carries: bool = False, parts: Parts | None = None, reveal: bool = True,
         solid: bool | str = False) -> MachineView:
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
    predict : str or sequence of str, optional
        What is to be foretold before it is seen: ``"result"``, ``"counter"`` (their windows stay behind a shutter until
        a prediction is confirmed, and open when what was asked about is done), ``"carry"`` (before each carry: which
        digit will the wheel show?), or several of these. See `MachineView.predictions`.
    ask : str, optional
        When registers are asked for: ``"at the end"`` (of a record; that is so unless given) or ``"each turn"`` (the
        only way for a live machine).
    wait_at_carries : bool
        Whether playing, and a hand on the crank, wait before each carry; the page has a switch for it.
    parts : Parts, optional
        For bare strokes that were made on a machine with faults: ``machine.parts``.
    reveal : bool
        Whether faulty parts are marked and named. With False only what is seen of them is there, to trace a fault by.
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
    >>> asked = show(m, predict="result")
    >>> _ = m.turn()
    >>> [(question["ask"], question["to"]) for question in asked.scene["questions"]]
    [('What does the result show now, behind the shutter?', 420.0)]
    >>> asked.predictions
    ()
    >>> show(m.strokes, spec=m.spec, predict="counter").scene["questions"][0]["ask"]
    'What will the counter show at the end?'
    >>> show(m.strokes, spec=m.spec, predict="result", ask="each turn").scene["questions"][0]["ask"]
    'What will the result show after turn 1 of 1?'
    >>> show(m.strokes, spec=m.spec, predict="remainder")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: what is to be foretold is 'result', 'counter', 'carry', or several of them, not \
'remainder'
    """
    given: dict[str, Any] = {"spec": spec, "title": title, "travel": travel, "large": large, "predict": predict,
                             "ask": ask, "wait_at_carries": wait_at_carries, "parts": parts, "reveal": reveal}
    if solid:
        from mechcalc.view.solid import SolidView
        from mechcalc.view.solid.setting import setting_for

        return SolidView(what, **given, **setting_for(solid))
    return MachineView(what, **given)
