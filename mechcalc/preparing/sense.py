"""Whether a wish has a meaning, asked before anything is tried.

Only this file decides what is refused outright: sizes that the machine has no room for, measures that say nothing of
the method, bounds that nothing can keep, conditions that contradict each other on their face. What only a search can
tell is told by `mechcalc.preparing.conflicts`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from difflib import get_close_matches

from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.preparing.conditions import Condition
from mechcalc.preparing.counts import MEASURES
from mechcalc.preparing.spans import Span
from mechcalc.preparing.tasks import BOUNDS, TASKS, Task
from mechcalc.spec import MachineSpec

EVERY = "every number"


def checked_spans(task: Task, spec: MachineSpec, spans: tuple[Span, ...], names: tuple[str, ...]) -> None:
    """Refuse sizes of which no number fits the machine, and numbers that the method cannot begin with."""
    for slot, (span, name) in enumerate(zip(spans, names, strict=True)):
        room, parts = BOUNDS[task.limit(slot)]
        digits = len(str(span.low))
        if digits > room(spec):
            raise InputError(f"the {name} cannot have {digits} digits on {called(spec)}: it has {room(spec)} {parts}")
        if name == "divisor" and span.high == 0:
            raise InputError("the divisor cannot be 0: nothing can be divided by nought")


def called(spec: MachineSpec) -> str:
    """The machine's name in a sentence."""
    return spec.name or "this machine"


def checked_conditions(task: Task, spec: MachineSpec, names: tuple[str, ...], asked: Iterable[Condition]
                       ) -> tuple[Condition, ...]:
    """Conditions that have a meaning here, one that is asked of every number taken apart.

    Raises
    ------
    InputError
        For the first that has none.
    """
    found: list[Condition] = []
    for one in asked:
        for each in ([replace(one, of=name) for name in names] if one.of == EVERY else [one]):
            _check_subject(each, task, names)
            _check_range(each, task, spec)
            if each not in found:
                found.append(each)
    _check_contradictions(found, task)
    return tuple(found)


def known_names(task: Task, names: tuple[str, ...]) -> tuple[str, ...]:
    """What numbers conditions can ask of."""
    return (*names, "answer", task.answer_name, *(("remainder",) if task.leaves_remainder else ()))


def _check_subject(one: Condition, task: Task, names: tuple[str, ...]) -> None:
    known = known_names(task, names)
    if not one.row.goes_with(task):
        others = ", ".join(name for name, other in TASKS.items() if one.row.goes_with(other))
        raise InputError(f"{one.text!r} has no meaning for {task.name}: {one.measure} goes with {others}")
    if one.of and not one.row.of_number:
        raise InputError(f"{one.text!r} asks too much: {one.measure} is counted for the whole calculation; leave out "
                         f"'in {one.of}'")
    if one.row.of_number and one.of not in known:
        if one.measure == "value":
            near = get_close_matches(one.of, (*MEASURES, *known), n=1)
            hint = f"did you mean {near[0]!r}?" if near else f"the numbers are {', '.join(known)}"
            raise InputError(f"{shown(one.of)} in {one.text!r} is neither counted nor a number of {task.name}: {hint}")
        near = get_close_matches(one.of, (*known, EVERY), n=1)
        hint = f"did you mean {near[0]!r}?" if near and one.of else f"the numbers are {', '.join((*known, EVERY))}"
        raise InputError(f"{one.measure} in {shown(one.of) if one.of else 'which number'}? {hint}")


def _check_range(one: Condition, task: Task, spec: MachineSpec) -> None:
    """Refuse bounds that nothing on this machine can keep."""
    may_be_negative = one.measure == "value" and task.answer_name == "difference" and _plain(one, task) == "answer"
    if one.high is not None and one.high < 0 and not may_be_negative:
        raise InputError(f"{one.text!r} cannot be met: {one.subject} is 0 or more")
    room, parts = BOUNDS[task.answer_in]
    most = one.row.most(spec)
    if one.low is not None and most is not None and one.low > most:
        raise InputError(f"{one.text!r} cannot be met on {called(spec)}: it has {spec.result_places} number wheels")
    if one.low is not None and _plain(one, task) == "answer":
        figures = {"value": len(str(max(one.low, 0))), "figures": one.low}.get(one.measure, 0)
        if figures > room(spec):
            raise InputError(f"{one.text!r} cannot be met on {called(spec)}: it has {room(spec)} {parts}")


def _check_contradictions(asked: list[Condition], task: Task) -> None:
    """Two bounds of the same thing that leave nothing between them."""
    for place, one in enumerate(asked):
        for other in asked[:place]:
            if (one.measure, _plain(one, task)) == (other.measure, _plain(other, task)):
                low = max((bound for bound in (one.low, other.low) if bound is not None), default=None)
                high = min((bound for bound in (one.high, other.high) if bound is not None), default=None)
                if low is not None and high is not None and low > high:
                    raise InputError(f"{other.text!r} and {one.text!r} contradict each other: nothing is at least "
                                     f"{low} and at most {high}")


def _plain(one: Condition, task: Task) -> str:
    return "answer" if one.of == task.answer_name else one.of


def narrowed(spans: tuple[Span, ...], names: tuple[str, ...], asked: Iterable[Condition]) -> tuple[Span, ...]:
    """The numbers that bounds on the numbers themselves leave.

    Raises
    ------
    InputError
        They leave none.

    >>> from mechcalc.preparing.conditions import condition
    >>> narrowed((Span(10, 99),), ("multiplier",), [condition("multiplier >= 50")])
    (Span(50, 99),)
    """
    found = dict(zip(names, spans, strict=True))
    for one in asked:
        if one.measure == "value" and one.of in found:
            span = found[one.of]
            low, high = max(span.low, one.low or 0), span.high if one.high is None else min(span.high, one.high)
            if low > high:
                raise InputError(f"{one.text!r} leaves nothing of the {one.of}, {span.words}")
            found[one.of] = Span(low, high)
    return tuple(found.values())
