"""A live machine behind its picture: what the page is told after each stroke, and what is done for it.

Only this file does what a page asks for. The machine may refuse; what is refused goes back with the part that blocks.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from mechcalc.errors import InputError, Locked, MechcalcError
from mechcalc.events import Stroke
from mechcalc.machine import Machine
from mechcalc.numbers import shown
from mechcalc.view.asking import REGISTERS, AskedOfLive, Question, asked_of_carries
from mechcalc.view.carries import carries_of
from mechcalc.view.subject import Subject, subject_of
from mechcalc.view.timeline import Timeline, ahead, refused, to_rest
from mechcalc.words import describe

LAST = 60  # strokes of a live machine that its picture can go back through
Scene = dict[str, Any]


class Live:
    """What a picture of a live machine is told.

    Parameters
    ----------
    machine : Machine
    title : str, optional
    predict : sequence of str
        What is asked for (`mechcalc.view.asking.wanted`).
    reveal : bool
        Whether faults are marked and named.
    """

    def __init__(self, machine: Machine, title: str | None, predict: Sequence[str], reveal: bool = True) -> None:
        self.machine, self.title, self.predict, self.reveal = machine, title, tuple(predict), reveal
        self._known: tuple[Stroke, ...] = ()
        self._first = len(machine.strokes)
        self._asked = AskedOfLive(machine.spec, [name for name in predict if name in REGISTERS], self._first)

    def scene(self, answers: Mapping[str, Any]) -> Scene:
        """Timeline, what is new in it, what a turn either way would do, and what is asked."""
        strokes = self.machine.strokes
        subject = subject_of(self.machine, title=self.title, last=LAST)
        timeline = subject.timeline(reveal=self.reveal, covered=bool(self.predict))
        same = 0
        for was, now in zip(self._known, strokes, strict=False):
            if was is not now:
                break
            same += 1
        begin = self._new_from(timeline, len(strokes) - same)
        carries = carries_of(subject.spec, subject.parts, subject.strokes, subject.before)
        scene = {"live": True, "timeline": timeline, "from": begin, "jump": same < len(self._known),
                 "quiet": bool(self._known) and self._known == strokes, "canUndo": bool(strokes), "carries": carries,
                 "asks": bool(self.predict), "ahead": self._ahead(),
                 "questions": self._questions(subject, timeline, carries, answers)}
        self._known = strokes
        return scene

    @staticmethod
    def _new_from(timeline: Timeline, new: int) -> float:
        """The travel at which what is new begins."""
        told = timeline["strokes"]
        return float(told[-new]["from"] if 0 < new <= len(told) else 0.0 if new else timeline["length"])

    def _ahead(self) -> dict[str, Any]:
        told = ahead(self.machine, reveal=self.reveal, covered=bool(self.predict))
        for way in told.values():
            if "timeline" in way:
                way["questions"] = asked_of_carries(way["carries"], self.predict)
        return told

    # Questions.

    def _questions(self, subject: Subject, timeline: Timeline, carries: Sequence[dict[str, Any]],
                   answers: Mapping[str, Any]) -> list[Question]:
        passing = [question for question in asked_of_carries(carries, self.predict)
                   if int(question["id"].split("/")[0]) >= self._first]
        lasting = self._asked.questions(self.machine.strokes, self.machine.state, timeline, answers)
        return [*lasting, *passing]

    def opened(self, question: Question) -> None:
        """A shutter has opened in the page: that register is asked for anew."""
        if question["about"] in REGISTERS:
            self._asked.opened(question["about"])

    def undone(self, answers: Mapping[str, Any]) -> set[str]:
        """Of these answers those about carries in strokes that have just been undone."""
        made = len(self.machine.strokes)
        numbered = {key: int(key.split("/")[0]) for key in answers if key.split("/")[0].isdigit()}
        return {key for key, number in numbered.items() if made <= number and made < len(self._known)}

    @property
    def covering(self) -> bool:
        """Whether anything may be behind a shutter, so that no answer may tell it."""
        return bool(self.predict)

    # What the page asks for.

    def asked(self, content: Any) -> dict[str, str] | None:
        """Do what a message ``{operation, argument}`` asks for; what is to be said about it, if anything."""
        if not isinstance(content, dict):
            return None
        try:
            return self._do(content.get("operation"), content.get("argument"))
        except Locked as refusal:
            return self._guarded(refused(refusal))
        except MechcalcError as error:
            return {"reason": str(error), "part": self._part_of(content), "frees": ""}

    def _do(self, operation: Any, argument: Any) -> dict[str, str] | None:
        if operation == "undo":
            return self._undo()
        if operation == "turn":
            self._turn(argument)
        elif operation == "set":
            self.machine.perform("set", _number(argument))
        else:
            before = self.machine.strokes
            self.machine.perform(operation, argument)
            if self.machine.strokes == before:
                return {"words": "Nothing has moved."}
        return None

    def _turn(self, direction: Any) -> None:
        """A whole turn; a crank that stands part way finishes the turn, or goes back to rest where it can."""
        if direction not in (1, -1):
            raise InputError(f"a turn is 1 or -1, not {shown(direction)}")
        self.machine.perform("crank", direction * to_rest(self.machine.state, direction))

    def _undo(self) -> dict[str, str]:
        undone = self.machine.undo()
        if undone is None:
            return {"words": "There is nothing to undo."}
        reading = "" if self.covering else f" {_reading(self.machine)}"
        return {"words": f"Undone: {describe(undone)}.{reading}"}

    def _guarded(self, refusal: dict[str, str]) -> dict[str, str]:
        """A jam's reason names digits: not while they are covered."""
        if self.covering and refusal["reason"].startswith("back transfer jams"):
            return {**refusal, "reason": refusal["reason"].split(":")[0]}
        return refusal

    def _part_of(self, content: dict[str, Any]) -> str:
        """Where a bad argument is shown: at the lever that was meant, or at the units lever."""
        operation, argument = content.get("operation"), content.get("argument")
        places = range(1, self.machine.spec.setting_places + 1)
        if operation == "set lever" and isinstance(argument, list) and argument and argument[0] in places:
            return f"setting/{argument[0]}"
        return "setting/1" if operation in ("set", "set lever") else "crank"


def _number(text: Any) -> Any:
    """What was typed, as a number where it is one; otherwise the machine says what is wrong with it."""
    return int(text) if isinstance(text, str) and text.isascii() and text.isdigit() and len(text) < 100 else text


def _reading(machine: Machine) -> str:
    return f"Setting {machine.setting}, result {machine.result}, counter {machine.counter}."
