"""Blocks that several papers for the bench have: cautions, readings, tests.

Only this file words the cautions of the bench, and decides how a reading stands on paper.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields
from typing import Any

from mechcalc.bench.candidates import Test
from mechcalc.bench.readings import Reading
from mechcalc.bench.step_words import Part, parts_of, repeated, times
from mechcalc.numbers import to_digits
from mechcalc.spec import MachineSpec

Block = dict[str, Any]
REGISTERS = {"result": "result_places", "counter": "counter_places", "setting": "setting_places"}
CAUTIONS = (
    "Covers stay on: every test is done from outside. With a cover off, drum, carriage and clearing racks are nips "
    "that take a finger, and springs under tension let go suddenly.",
    "One person at the crank. Hands, hair, sleeves and ties stay clear of the carriage and the clearing levers while "
    "anything moves.",
    "Never force a crank, a lever or the carriage. What stops is an interlock or a jam: stop there, and write it down.",
    "A machine that has stood for long, or grates, or runs heavily, is not tested before somebody who knows such "
    "machines has looked at it: a test can break a brittle part.",
    "Edges of sheet parts are sharp. Old oil, paint and plating may hold what harms: wash your hands; do not sand or "
    "scrape.")
DEFER = ("These are the usual cautions (common practice, no source). Local rules, your workshop's or museum's own, and "
         "the advice of qualified people come first.")


def cautions() -> Block:
    """The cautions at the head of a paper."""
    return {"kind": "cautions", "title": "Cautions", "items": list(CAUTIONS), "last": DEFER}


def heading(text: str) -> Block:
    """A heading."""
    return {"kind": "heading", "text": text}


def words(text: str) -> Block:
    """A paragraph."""
    return {"kind": "words", "text": text}


def points(items: Sequence[str]) -> Block:
    """A list of points."""
    return {"kind": "points", "items": list(items)}


def machine_line(spec: MachineSpec) -> str:
    """What the machine is, in a line.

    >>> from mechcalc import load_spec
    >>> machine_line(load_spec("slate"))
    'Slate: 4 levers, 6 number wheels, 3 counter wheels, carriage positions 0 to 2'
    """
    return (f"{spec.name or 'A machine'}: {spec.setting_places} levers, {spec.result_places} number wheels, "
            f"{spec.counter_places} counter wheels, carriage positions 0 to {spec.positions - 1}")


def yes_or_no(value: bool | None) -> str | None:
    """As it is printed."""
    return None if value is None else "yes" if value else "no"


def reading_block(spec: MachineSpec, label: str, asked: Sequence[str], should: Reading, read: Reading | None = None,
                  only_read: bool = False) -> Block:
    """A reading: what should be there, and either boxes for what was read or what was read in them.

    Parameters
    ----------
    spec : MachineSpec
    label : str
    asked : sequence of str
        Questions of this reading besides the bell's (`step_words.Part`).
    should : Reading
        What a sound machine shows.
    read : Reading, optional
        What was read; boxes stay empty without.
    only_read : bool
        Leave out what was not read.
    """
    registers = []
    for name, places in REGISTERS.items():
        one = getattr(read, name) if read else None
        if only_read and one is None:
            continue
        registers.append({"name": name, "places": getattr(spec, places), "read": _digits(one, getattr(spec, places)),
                          "should": _digits(getattr(should, name), getattr(spec, places))})
    questions = []
    for name, said in (("bell", "bell in the last turn"), *(("yielded", question) for question in asked)):
        answer = getattr(read, name) if read else None
        if not (only_read and answer is None):
            questions.append({"words": said, "should": yes_or_no(getattr(should, name)), "read": yes_or_no(answer)})
    return {"label": label, "registers": registers, "asked": questions,
            "verdict": "" if read is None else verdict(should, read)}


def _digits(number: int | None, places: int) -> str | None:
    return None if number is None else "".join(map(str, reversed(to_digits(number, places))))


def differing(should: Reading, read: Reading) -> list[str]:
    """What was read otherwise than it should be: names of fields."""
    return [field.name for field in fields(Reading) if (one := getattr(read, field.name)) is not None
            and one != getattr(should, field.name)]


def verdict(should: Reading, read: Reading) -> str:
    """A word on a reading."""
    found = [{"yielded": "the try"}.get(name, f"the {name}") for name in differing(should, read)]
    return f"differs: {', '.join(found)}" if found else "as it should be"


def test_block(spec: MachineSpec, number: int, test: Test, should: Sequence[Reading], after: str) -> Block:
    """A test to be done, its steps with boxes to tick and its readings with boxes to fill.

    Parameters
    ----------
    should : sequence of Reading
        What a sound machine shows, a place each.
    after : str
        What to do when it is done.
    """
    parts = parts_of(spec, test)
    labels = [f"Read, {index} of {len(parts)}" if len(parts) > 1 else "Read" for index in range(1, len(parts) + 1)]
    blocks = [reading_block(spec, label, part.asked, one)
              for label, part, one in zip(labels, parts, should, strict=True)]
    if repeated(parts):
        told = [_part(parts[0], blocks)]
        again = f"Do this {times(len(parts))}, and read each time:"
    else:
        told, again = [_part(part, [block]) for part, block in zip(parts, blocks, strict=True)], ""
    turns = f"{test.turns} turn{'s' * (test.turns != 1)}"
    return {"kind": "test", "number": number, "title": sentence_case(test.name), "repeat": again, "parts": told,
            "aim": f"For {test.looks_at}" if test.looks_at else "", "cost": f"{turns}, work {test.work:g}",
            "ticks": True, "after": after}


def sentence_case(text: str) -> str:
    """The first letter large."""
    return text[:1].upper() + text[1:]


def _part(part: Part, readings: list[Block]) -> Block:
    return {"steps": list(part.words), "readings": readings}
