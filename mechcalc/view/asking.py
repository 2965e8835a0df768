"""Questions before an answer is seen: what a learner is asked, which windows are covered, what was foretold and came.

Only this file decides that. Windows are covered after a question's `from`; they open when it has been answered and the
picture has come to its `to`. (A question with `passing` covers them only between the two.) Which of a picture's
questions have been answered is kept as plain data, ``{id: {"foretold": "9022", "opened": True}}``, so that page and
Python can send it to and fro.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import floor
from typing import Any

from mechcalc.errors import InputError
from mechcalc.events import Stroke
from mechcalc.numbers import from_digits, shown
from mechcalc.spec import MachineSpec
from mechcalc.state import State
from mechcalc.view.carries import Stop, carries_of
from mechcalc.view.pose import value
from mechcalc.view.subject import Subject
from mechcalc.view.timeline import Timeline

REGISTERS = ("result", "counter")
ABOUT = (*REGISTERS, "carry")
ONCE, EACH = "at the end", "each turn"
Question = dict[str, Any]

# Those who want to hear of predictions. Each is called when a picture that asks is made, and gives a function to be
# called with every `Prediction`. `mechcalc.classroom` writes them into the learner's file.
LISTENERS: list[Callable[[], Callable[[Prediction], None]]] = []


@dataclass(frozen=True, slots=True, kw_only=True)
class Prediction:
    """What was foretold, and what came.

    Attributes
    ----------
    about : str
        ``"result"``, ``"counter"``, or the wheel that a carry goes to, as ``"wheel 4"``.
    foretold, happened : int
        As the windows show it; for a carry one digit.

    Examples
    --------
    >>> print(Prediction(about="result", foretold=9022, happened=9022))
    You foretold 9022, and 9022 it is.
    >>> print(Prediction(about="wheel 4", foretold=9, happened=0))
    You foretold 9; it came to 0. Good: now find out why.
    """

    about: str
    foretold: int
    happened: int

    def __str__(self) -> str:
        if self.right:
            return f"You foretold {self.foretold}, and {self.happened} it is."
        return f"You foretold {self.foretold}; it came to {self.happened}. Good: now find out why."

    @property
    def right(self) -> bool:
        """Whether it came as foretold."""
        return self.foretold == self.happened


def wanted(predict: Any) -> tuple[str, ...]:
    """What is asked for, checked.

    >>> wanted("result"), wanted(["result", "counter"]), wanted(None)
    (('result',), ('result', 'counter'), ())
    """
    if predict is None:
        return ()
    names = (predict,) if isinstance(predict, str) else tuple(predict) if isinstance(predict, (tuple, list)) else ()
    if not names or any(name not in ABOUT for name in names) or len({*names}) < len(names):
        raise InputError(f"what is to be foretold is 'result', 'counter', 'carry', or several of them, not "
                         f"{shown(predict)}")
    return names


def when(ask: Any, live: bool) -> str:
    """When registers are asked for, checked."""
    if ask not in (None, ONCE, EACH) or (live and ask == ONCE):
        raise InputError(f"a prediction is asked for {'' if live else f'{ONCE!r} or '}{EACH!r}, not {shown(ask)}"
                         f"{': a live machine has no end' if live and ask == ONCE else ''}")
    return EACH if live else ask or ONCE


def parts_of_register(spec: MachineSpec, register: str) -> list[str]:
    """Its wheels, units first, as pictures name them."""
    part, places = ("wheel", spec.result_places) if register == "result" else ("counter", spec.counter_places)
    return [f"{part}/{place}" for place in range(1, places + 1)]


def record_scene(subject: Subject, predict: Any, ask: Any, *, reveal: bool = True) -> dict[str, Any]:
    """All that a page is told of a record: the timeline, where its carries are, and what is asked."""
    names, ask = wanted(predict), when(ask, live=False)
    timeline = subject.timeline(reveal=reveal, covered=bool(names))
    carries = carries_of(subject.spec, subject.parts, subject.strokes, subject.before)
    questions = asked_of_record(subject.spec, subject.strokes, timeline, carries, names, ask)
    return {"live": False, "timeline": timeline, "carries": carries, "questions": questions, "asks": bool(names),
            "past": []}


def asked_of_record(spec: MachineSpec, strokes: Sequence[Stroke], told: Timeline, carries: Sequence[Stop],
                    names: Sequence[str], ask: str) -> list[Question]:
    """The questions on strokes that have been made, in order of travel."""
    spans = _turns(strokes, told)
    if names and not spans:
        raise InputError("there is no turn of the crank here, and so nothing to foretell")
    if ask == ONCE:
        spans = [(spans[0][0], told["length"])] if spans else []
    found = []
    for number, (begin, end) in enumerate(spans, start=1):
        after = "at the end" if ask == ONCE else f"after turn {number} of {len(spans)}"
        coming = "The first turn" if ask == ONCE else f"Turn {number} of {len(spans)}"
        found += [{"id": f"{name}/{number}", "about": name, "parts": parts_of_register(spec, name), "from": begin,
                   "to": end, "ask": f"What will the {name} show {after}?",
                   "before": f"{coming} comes next. Foretell, and go on."} for name in names if name in REGISTERS]
    return sorted([*found, *asked_of_carries(carries, names)], key=lambda question: question["from"])


def _turns(strokes: Sequence[Stroke], told: Timeline) -> list[tuple[float, float]]:
    """From where to where the crank was turned, from rest to rest."""
    spans: list[tuple[float, float]] = []
    under_way = False
    for stroke, line in zip(strokes, told["strokes"], strict=True):
        if stroke.operation == "crank":
            begin = spans.pop()[0] if under_way else line["from"]
            spans.append((begin, line["to"]))
            under_way = stroke.after.direction != 0
    return spans


def asked_of_carries(carries: Sequence[Stop], names: Sequence[str]) -> list[Question]:
    """A question before each carry: which digit will the wheel show after it? It passes with the carry."""
    if "carry" not in names:
        return []
    return [{"id": stop["id"], "about": f"wheel {stop['wheel']}", "parts": [f"wheel/{stop['wheel']}"],
             "from": stop["at"], "to": stop["to"], "passing": True,
             "ask": f"Which digit will wheel {stop['wheel']} show after it?", "before": stop["ask"]}
            for stop in carries if stop["to"] is not None]


def happened(question: Question, told: Timeline) -> int:
    """What the windows asked about show at the end of the question."""
    return from_digits(floor(value(told["tracks"][part], question["to"]) + 0.5) % 10 for part in question["parts"])


def met(question: Question, answer: Mapping[str, Any], told: Timeline) -> Prediction:
    """A prediction whose shutter has opened, beside what came."""
    return Prediction(about=question["about"], foretold=int(answer["foretold"]), happened=happened(question, told))


def answers_from(data: Any) -> dict[str, dict[str, Any]]:
    """What a page has sent, as far as it is of the right form."""
    if not isinstance(data, Mapping):
        return {}
    return {key: {"foretold": answer["foretold"], "opened": answer.get("opened") is True}
            for key, answer in data.items() if isinstance(key, str) and isinstance(answer, Mapping)
            and isinstance(answer.get("foretold"), str) and answer["foretold"].isascii()
            and answer["foretold"].isdigit() and len(answer["foretold"]) < 100}


def _ends(lines: Sequence[Mapping[str, Any]], count: int) -> float:
    """The travel after so many strokes of a timeline; those that are no longer in it lie before its beginning."""
    return lines[min(count, len(lines)) - 1]["to"] if count > 0 and lines else 0.0


class AskedOfLive:
    """The question on each register of a live machine: one at a time, from when it was last seen to the next rest.

    Parameters
    ----------
    spec : MachineSpec
    registers : sequence of str
        Of `REGISTERS`.
    strokes : int
        How many strokes the machine has made so far.
    """

    def __init__(self, spec: MachineSpec, registers: Sequence[str], strokes: int) -> None:
        self.spec = spec
        self.numbers = dict.fromkeys(registers, 1)
        self.seen = dict.fromkeys(registers, strokes)         # strokes made when the register was last seen
        self.until: dict[str, int | None] = dict.fromkeys(registers)  # strokes after which an answer is judged

    def questions(self, strokes: Sequence[Stroke], state: State, told: Timeline, foretold: Mapping[str, Any]
                  ) -> list[Question]:
        """The questions as they stand, for a timeline of the last of these strokes."""
        lines = told["strokes"]
        dropped = len(strokes) - len(lines)
        found = []
        for name, number in self.numbers.items():
            self.seen[name] = min(self.seen[name], len(strokes))
            first = next((index for index in range(self.seen[name], len(strokes))
                          if strokes[index].operation == "crank"), len(strokes))
            end = self._end(name, first, strokes, state, f"{name}/{number}" in foretold)
            found.append({
                "id": f"{name}/{number}", "about": name, "parts": parts_of_register(self.spec, name),
                "from": _ends(lines, first - dropped), "to": None if end is None else _ends(lines, end - dropped),
                "ask": f"What will the {name} show after {'this' if state.direction else 'the next'} turn?"
                       if end is None else f"What does the {name} show now, behind the shutter?",
                "before": "A turn comes next. Foretell, and go on."})
        return found

    def _end(self, name: str, first: int, strokes: Sequence[Stroke], state: State, answered: bool) -> int | None:
        """How many strokes there were when the turn that is asked about was done; None while it is not. What an
        answer is judged by does not move any more."""
        until = self.until[name]
        if until is None or until > len(strokes) or not answered:
            until = len(strokes) if first < len(strokes) and not state.direction else None
        self.until[name] = until
        return until

    def opened(self, name: str) -> None:
        """The register has been seen: from here on the next question is asked."""
        until = self.until[name]
        if until is not None:
            self.numbers[name] += 1
            self.seen[name], self.until[name] = until, None
