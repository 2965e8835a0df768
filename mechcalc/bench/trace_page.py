"""What stands on the page of a tracing session, as plain data.

Only this file decides what is shown while a fault is traced, and how what was typed there becomes readings. The page's
drawing (`mechcalc.bench.trace_view`) adds nothing to it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from mechcalc.bench.candidates import Test
from mechcalc.bench.dictionary import answers_of
from mechcalc.bench.judging import NAMES, contradiction
from mechcalc.bench.plan import home
from mechcalc.bench.readings import WIDTHS, Reading
from mechcalc.bench.step_words import in_short, parts_of
from mechcalc.bench.tracing import Advice, Done, Explanation, Tracing
from mechcalc.spec import MachineSpec

LOOKED_AT = 200   # explanations, the likeliest, that are put into groups
GROUPS = 12       # groups on the page
MEMBERS = 6       # explanations of one group that are named
NOTHING_READ = "Nothing was read anywhere. Read one window at least."
ASKS = {"the crank went back": "Did the crank go back?", "the lever moved": "Did the lever move?",
        "it jammed": "Did it jam?"}
LABELS = {"result": "Result", "counter": "Counter", "setting": "Setting levers"}
BEFORE = ("Before the first test everything stands at nought and the carriage at home: turn a wheel there by hand that "
          "clearing does not take along. From then on leave as it is what does not go to nought; it is followed.")


def page(trace: Tracing, advice: Advice | None, chosen: Test | None) -> dict[str, Any]:
    """Everything on the page.

    Parameters
    ----------
    trace : Tracing
    advice : Advice or None
        What `Tracing.next_test` gave.
    chosen : Test or None
        The test that somebody wants to do instead.
    """
    test = chosen or (advice.test if advice else None)
    return {"machine": trace.spec.name or "a machine", "advice": _advised(trace, advice, chosen),
            "test": test and told_test(trace.spec, test), "tests": [named(one) for one in trace.tests],
            "left": left(trace), "done": [told_done(trace.spec, one) for one in trace.history]}


def _advised(trace: Tracing, advice: Advice | None, chosen: Test | None) -> str:
    """Why this test."""
    if chosen is not None and (advice is None or chosen != advice.test):
        return "You chose this test." + (f" Advised is “{advice.test.name}”." if advice else "")
    if advice is not None:
        return f"Advised, because it tells most now. {advice.why}"
    if not trace.left:
        return "No test is advised: nothing fits what was read."
    return "No test is advised: none tells anything more about what is left."


def named(test: Test) -> dict[str, str]:
    """A test in the list of all."""
    return {"name": test.name, "words": f"{test.name}: {test.looks_at}" if test.looks_at else test.name}


def told_test(spec: MachineSpec, test: Test) -> dict[str, Any]:
    """A test: its steps, what is asked at each reading, and what is done afterwards."""
    parts = [{"steps": list(part.words), "fields": _fields(spec, part.asked)} for part in parts_of(spec, test)]
    return {"name": test.name, "looksAt": test.looks_at, "before": BEFORE, "parts": parts, "after": afterwards(test)}


def _fields(spec: MachineSpec, asked: Sequence[str]) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = [{"key": key, "kind": "digits", "label": LABELS[key], "places": getattr(spec, width)}
                                  for key, width in WIDTHS.items()]
    rows.append({"key": "bell", "kind": "answer", "label": "Did the bell ring in the last turn?"})
    rows += [{"key": "yielded", "kind": "answer", "label": ASKS[one]} for one in asked]
    return rows


def afterwards(test: Test) -> str:
    """What brings a machine back after a test, in a sentence.

    >>> afterwards(Test.of("nines", "shift 2; set 99; turn; read"))
    'Shift the carriage home, clear the result, the counter and the setting.'
    """
    shifts = [step for step in home(test) if step.what == "shift"]
    return f"{'Shift the carriage home, clear' if shifts else 'Clear'} the result, the counter and the setting."


# What is left.


def left(trace: Tracing) -> dict[str, Any]:
    """What still explains everything, in groups that no test tells apart; where nothing does, what comes closest."""
    if not trace.left:
        two = ", and no two of them, show" if trace.pairs else " shows"
        return {"count": 0, "words": f"Nothing fits: no fault of the kit's list{two} what was read.", "groups": [],
                "more": "", "closest": closest(trace)}
    listed = trace.explanations(LOOKED_AT)
    groups = [_told_group(group) for group in grouped(trace, listed)]
    unseen = trace.left - len(listed)
    hidden = len(groups) - GROUPS
    more = [f"{hidden} less likely group{'' if hidden == 1 else 's'}"] * (hidden > 0) + [
        f"{unseen} more that are less likely still"] * (unseen > 0)
    few = "1 explanation" if trace.left == 1 else f"{trace.left} explanations"
    return {"count": trace.left, "words": f"{few} left.", "groups": groups[:GROUPS],
            "more": f"And {' and '.join(more)}." if more else "", "closest": []}


def grouped(trace: Tracing, listed: Sequence[Explanation]) -> list[tuple[Explanation, ...]]:
    """Explanations in groups that answer alike to every test (done from nought) and need as many misreadings.

    >>> from mechcalc import load_spec
    >>> trace = Tracing(load_spec("slate"), pairs=False)
    >>> len(grouped(trace, trace.explanations(500)))
    184
    """
    if not listed:
        return []
    index = {fault: number for number, fault in enumerate(trace.faults)}
    seats = np.array([[*(index[fault] for fault in one.faults), -1, -1][:2] for one in listed], np.int16)
    codes = answers_of(trace.spec, trace.faults, trace.tests, seats)
    groups: dict[tuple[int, bytes], list[Explanation]] = {}
    for one, column in zip(listed, codes.T, strict=True):
        groups.setdefault((one.misreadings, column.tobytes()), []).append(one)
    by_share = sorted(groups.values(), key=lambda group: (group[0].misreadings, -sum(one.share for one in group)))
    return [tuple(group) for group in by_share]


def _told_group(group: Sequence[Explanation]) -> dict[str, Any]:
    words = [str(one) for one in group[:MEMBERS]]
    if len(group) > MEMBERS:
        words.append(f"and {len(group) - MEMBERS} more")
    share = sum(one.share for one in group)
    return {"share": share, "percent": percent(share), "words": [word[:1].upper() + word[1:] for word in words],
            "alike": len(group) > 1, "answer": [repr(fault) for fault in group[0].faults]}


def percent(share: float) -> str:
    """A share as it is written.

    >>> percent(0.9962), percent(0.0004), percent(0.25)
    ('99.6 %', 'under 0.1 %', '25.0 %')
    """
    return f"{100 * share:.1f} %" if share >= 0.001 else "under 0.1 %"


def closest(trace: Tracing) -> list[dict[str, str]]:
    """What comes nearest, and the first reading at which each differs."""
    rows = []
    for one in trace.closest():
        said = str(Explanation(one.faults, 0.0, 0))
        many = f"{one.misreadings} reading{'' if one.misreadings == 1 else 's'} would have to be wrong"
        where = contradiction(trace.spec, one.faults, trace.history)
        rows.append({"words": f"{said[:1].upper()}{said[1:]}: {many}. First {where}"})
    return rows


# What was read.


def told_done(spec: MachineSpec, done: Done) -> dict[str, Any]:
    """A test that was done, with a line for each reading."""
    return {"name": done.test.name, "steps": in_short(done.test),
            "readings": [told_reading(spec, reading) for reading in done.readings]}


def told_reading(spec: MachineSpec, reading: Reading | None) -> str:
    """A reading in a line.

    >>> from mechcalc import load_spec
    >>> told_reading(load_spec("slate"), Reading(result=90, bell=False))
    'the result 000090; no bell'
    """
    if reading is None:
        return "not read"
    said = [f"{NAMES[key]} {number:0{getattr(spec, width)}d}" for key, width in WIDTHS.items()
            if (number := getattr(reading, key)) is not None]
    if reading.bell is not None:
        said.append("the bell rang" if reading.bell else "no bell")
    if reading.yielded:
        said.append("it gave way")
    return "; ".join(said)


def typed(spec: MachineSpec, test: Test, entries: Any) -> tuple[list[Reading | None], list[dict[str, Any]]]:
    """What was typed, as readings; and for each field that cannot be read what is wrong with it.

    Parameters
    ----------
    entries : list of dict
        One for each reading: by field the digits as text, ``"yes"``, ``"no"``, or ``""`` for not read.

    Returns
    -------
    readings : list of Reading or None
    problems : list of dict
        ``reading`` (from 0), ``field``, ``says``.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> test = Test.of("one", "turn; read")
    >>> typed(load_spec("slate"), test, [{"result": "0 0 0 1 2 0", "counter": "", "bell": "no"}])[0]
    [Reading(result=120, counter=None, setting=None, bell=False, yielded=None)]
    >>> typed(load_spec("slate"), test, [{"result": "12O"}])[1][0]["says"]
    'Digits only: “O” is none.'
    """
    readings: list[Reading | None] = []
    problems: list[dict[str, Any]] = []
    rows = entries if isinstance(entries, list) else []
    for number, part in enumerate(parts_of(spec, test)):
        given = rows[number] if number < len(rows) and isinstance(rows[number], dict) else {}
        kept: dict[str, Any] = {}
        for field in _fields(spec, part.asked):
            value, problem = _value(field, given.get(field["key"], ""))
            kept[field["key"]] = value
            if problem:
                problems.append({"reading": number, "field": field["key"], "says": problem})
        readings.append(Reading(**kept) if any(value is not None for value in kept.values()) else None)
    if not problems and not any(readings):
        problems.append({"reading": 0, "field": "result", "says": NOTHING_READ})
    return readings, problems


def _value(field: dict[str, Any], text: Any) -> tuple[Any, str]:
    if not isinstance(text, str):
        return None, "This cannot be read."
    if field["kind"] == "answer":
        return {"yes": True, "no": False}.get(text), ""
    digits = "".join(text.split())
    if not digits:
        return None, ""
    strange = [sign for sign in digits if not (sign.isascii() and sign.isdigit())]
    if strange:
        return None, f"Digits only: “{strange[0]}” is none."
    if len(digits) != field["places"]:
        return None, (f"{len(digits)} digit{'' if len(digits) == 1 else 's'}, but there are {field['places']} windows. "
                      f"Write every one of them, noughts too.")
    return int(digits), ""


def entries_of(spec: MachineSpec, done: Done) -> list[dict[str, str]]:
    """What has to be typed for these readings: the way back from `typed`."""
    rows = []
    for reading in done.readings:
        reading = reading or Reading()
        row = {key: "" if getattr(reading, key) is None else f"{getattr(reading, key):0{getattr(spec, width)}d}"
               for key, width in WIDTHS.items()}
        row |= {key: {None: "", True: "yes", False: "no"}[getattr(reading, key)] for key in ("bell", "yielded")}
        rows.append(row)
    return rows
