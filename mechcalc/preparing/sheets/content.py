"""What stands on the pages, before it is known whether they become HTML or PDF.

Only this file decides the words and the order on a page; `sheets.web_page` and `sheets.print_file` only lay them out.
All of it is plain data: texts, numbers, lists and dicts.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import groupby
from typing import Any

from mechcalc.methods.working import Row, Working
from mechcalc.preparing.sheets.orders import CLOSING, COUNTED
from mechcalc.preparing.sheets.questions import QUESTIONS, REGISTERS
from mechcalc.preparing.sheets.worksheets import Asked, Problem, Variant, Worksheets, grouped
from mechcalc.spec import MachineSpec

KEY_HEADS = ("strokes", "the hand", "algebra", "result", "counter", "at", "bell")
Content = dict[str, Any]


def machine_line(spec: MachineSpec) -> str:
    """What the machine is, in a line.

    >>> from mechcalc import load_spec
    >>> machine_line(load_spec("bench"))
    'Bench: 9 levers, 13 number wheels, 8 counter wheels'
    """
    return (f"{spec.name or 'A machine'}: {spec.setting_places} levers, {spec.result_places} number wheels, "
            f"{spec.counter_places} counter wheels")


def sheet_content(made: Worksheets, variant: Variant) -> Content:
    """One learner's sheet."""
    return {"code": variant.code, "name": variant.learner.name, "group": variant.learner.group,
            "items": [_item(problem, made.sheet.machine) for problem in variant.problems]}


def head_content(made: Worksheets) -> Content:
    """What all pages of a set share."""
    return {"title": made.sheet.title, "machine": machine_line(made.sheet.machine), "paper": made.sheet.paper,
            "notes": list(made.sheet.notes), "closing": CLOSING if made.sheet.closing is None else made.sheet.closing,
            "closing-if-room": made.sheet.closing is None, "counted": COUNTED, "tag": made.tag}


def _item(problem: Problem, machine: MachineSpec) -> Content:
    """An item as a learner sees it: no answer in it."""
    after = {one.name: one for one in problem.asked if not one.before}
    places = dict(zip(REGISTERS, (machine.setting_places, machine.result_places, machine.counter_places), strict=True))
    return {
        "number": problem.number, "do": _do(problem), "title": problem.title,
        "how": " ".join(filter(None, (problem.item.order.how, where_to_put(problem.working)))),
        "note": problem.item.note, "predict": [_question(one) for one in problem.asked if one.before],
        "windows": [{"name": QUESTIONS[name].after, "places": places[name],
                     "label": after[name].label if name in after else ""} for name in problem.item.show],
        "lines": [_question(one) for one in problem.asked if not one.before and one.name not in REGISTERS]}


def _do(problem: Problem) -> str:
    places = problem.item.places
    return problem.item.order.do + (f", to {places} decimal{'s' * (places > 1)}" if places else "")


def where_to_put(working: Working) -> str:
    """Where a number goes in, if not at the units: the method says it, because borrows would not reach far enough.

    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.methods import divide
    >>> where_to_put(divide(Machine(load_spec("bench")), 5742, 30, method="without putting back"))
    'Put the number in further left, its last figure on wheel 3, so that borrows reach the highest wheels.'
    >>> where_to_put(divide(Machine(load_spec("bench")), 5742, 30))
    ''
    """
    found = re.search(r"last figure on wheel (\d+)", working.remark)
    return (f"Put the number in further left, its last figure on wheel {found[1]}, so that borrows reach the highest "
            f"wheels.") if found else ""


def _question(one: Asked) -> Content:
    return {"label": one.label, "words": one.words}


def key_content(variant: Variant) -> Content:
    """The answers of one sheet, with the strokes."""
    return {"code": variant.code, "name": variant.learner.name, "group": variant.learner.group, "items": [
        {"number": problem.number, "title": problem.title, "do": _do(problem),
         "answers": [{"label": one.label, "words": short(problem, one), "value": grouped(str(one.right))}
                     for one in problem.keyed],
         "remark": grouped(problem.working.remark), "strokes": list(_strokes(problem.working.table()))}
        for problem in variant.problems]}


def short(problem: Problem, one: Asked) -> str:
    """A question in a word or two.

    Predictions are marked as such where the same is asked after working.
    """
    name = QUESTIONS[one.name].short.format(answer=problem.item.task.answer_name)
    return f"{name}, foreseen" if one.before else name


def _strokes(rows: tuple[Row, ...]) -> Iterator[list[str]]:
    """Strokes for the key: turns that follow each other at one place, all alike and without the bell, share a row."""
    def alike(row: Row) -> tuple[object, ...]:
        plain_turn = row.hand in ("turn", "turn back") and not row.bell
        return (row.hand, row.carriage, plain_turn or row.number, plain_turn or row.number)
    for _, run in groupby(rows, alike):
        same = list(run)
        first, last = same[0], same[-1]
        many = len(same) > 1
        yield [f"{first.number}–{last.number}" if many else str(first.number),
               f"{len(same)} {last.hand.replace('turn', 'turns', 1)}" if many else _hand(last.hand),
               grouped(("… " if many else "") + last.algebra), grouped(str(last.result)), grouped(str(last.counter)),
               str(last.carriage), "rings" if last.bell else ""]


def _hand(hand: str) -> str:
    return grouped(hand.replace("shift -", "shift −"))


def class_key_content(made: Worksheets) -> list[Content]:
    """The key of the whole class: for each item a table with a row a sheet."""
    tables = []
    for place, _ in enumerate(made.sheet.items):
        problems = [variant.problems[place] for variant in made.variants]
        heads = [{"label": one.label, "words": short(problems[0], one)} for one in problems[0].keyed]
        rows = [[variant.code, variant.learner.name, problem.title, *(grouped(str(one.right)) for one in problem.keyed)]
                for variant, problem in zip(made.variants, problems, strict=True)]
        tables.append({"number": place + 1, "do": _do(problems[0]), "band": str(made.bands[place]), "heads": heads,
                       "rows": rows})
    return tables
