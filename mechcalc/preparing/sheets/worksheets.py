"""Worksheets for a class: for every learner a sheet with numbers, a code and the right answers, cranked on the machine.

Only this file puts sheets together, and names the questions on them (1a, 1b, 2a, …).
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from dataclasses import dataclass
from html import escape
from string import ascii_lowercase

from mechcalc.errors import InputError, MechcalcError
from mechcalc.machine import Machine
from mechcalc.methods.working import Working
from mechcalc.numbers import shown, whole
from mechcalc.preparing.class_list import BadRow, ClassList, Learner
from mechcalc.preparing.sheets.codes import MOST_SHEETS, code_of, tag_of
from mechcalc.preparing.sheets.dealing import Band, Numbers, deal
from mechcalc.preparing.sheets.items import Item
from mechcalc.preparing.sheets.questions import QUESTIONS, Value
from mechcalc.preparing.sheets.spec import Sheet
from mechcalc.spec import MachineSpec

NARROW = "\u202f"  # between groups of three digits


def grouped(text: str) -> str:
    """Numbers of five digits and more in groups of three, with narrow spaces that do not break.

    >>> grouped("982743 ÷ 1270 = 773.81").replace(NARROW, " ")
    '982 743 ÷ 1270 = 773.81'
    """
    return re.sub(r"(?<![\d.])\d{5,}", lambda found: f"{int(found[0]):,}".replace(",", NARROW)
                  if found[0][0] != "0" else found[0], text)


@dataclass(frozen=True, slots=True)
class Asked:
    """A question on a sheet.

    Attributes
    ----------
    label : str
        ``"1a"``; empty for a question that is not marked.
    name : str
        Of `QUESTIONS`; empty for a question that is not marked.
    before : bool
        Whether it is asked before working.
    words : str
        As it is printed.
    right : Value or None
        The right answer.
    """

    label: str
    name: str
    before: bool
    words: str
    right: Value | None = None


@dataclass(frozen=True, slots=True)
class Problem:
    """An item of somebody's sheet.

    Attributes
    ----------
    number : int
        From 1.
    item : Item
        What the sheet says.
    numbers : tuple of int
        This learner's.
    working : Working
        Cranked on the sheet's machine.
    asked : tuple of Asked
        The questions, in order.
    """

    number: int
    item: Item
    numbers: Numbers
    working: Working
    asked: tuple[Asked, ...]

    @property
    def title(self) -> str:
        """The calculation, as it is printed."""
        return grouped(self.working.title)

    @property
    def keyed(self) -> tuple[Asked, ...]:
        """The questions that are marked."""
        return tuple(one for one in self.asked if one.right is not None)


@dataclass(frozen=True, slots=True)
class Variant:
    """Somebody's sheet: its code, whose it is, and its problems."""

    code: str
    learner: Learner
    problems: tuple[Problem, ...]

    @property
    def key(self) -> dict[str, Value]:
        """Right answers by label."""
        return {one.label: one.right for problem in self.problems for one in problem.keyed if one.right is not None}


@dataclass(frozen=True, slots=True, repr=False)
class Worksheets:
    """A set of sheets.

    Attributes
    ----------
    sheet : Sheet
        What was asked for.
    seed : int
        What the numbers were drawn from.
    tag : str
        The first part of every code.
    variants : tuple of Variant
        One a learner.
    bands : tuple of Band
        For each item, how far apart the sheets are.
    left_out : tuple of BadRow
        Rows of the class list that got no sheet.

    Examples
    --------
    >>> sheet = Sheet(title="Shifting", machine="bench", items=[Item(method="multiply", numbers=[(347, 26), (52, 9)])])
    >>> made = make_worksheets(sheet, ["Ada", "Łukasz"], seed=1)
    >>> made
    <Worksheets Shifting: 2 sheets, 1 item, 8 to 9 turns>
    >>> {label: str(value) for label, value in made.variants[0].key.items()}
    {'1a': '8', '1b': '4', '1c': '9022', '1d': '26', '1e': '8', '1f': '1'}
    """

    sheet: Sheet
    seed: int
    tag: str
    variants: tuple[Variant, ...]
    bands: tuple[Band, ...]
    left_out: tuple[BadRow, ...] = ()

    def __len__(self) -> int:
        return len(self.variants)

    def __repr__(self) -> str:
        items = len(self.sheet.items)
        return (f"<Worksheets {self.sheet.title}: {len(self)} sheet{'s' * (len(self) != 1)}, {items} "
                f"item{'s' * (items != 1)}, {', '.join(map(str, self.bands))}>")

    @property
    def labels(self) -> tuple[str, ...]:
        """The questions that are marked, in order; the same on every sheet."""
        return tuple(self.variants[0].key)

    def asked(self, label: str) -> Asked:
        """The question with this label (on the first sheet)."""
        return next(one for problem in self.variants[0].problems for one in problem.keyed if one.label == label)

    def _repr_html_(self) -> str:
        """The key in short: a row a sheet."""
        head = "".join(f'<th scope="col">{escape(name)}</th>' for name in ("code", "name", *self.labels))
        rows = ([f"<td>{escape(one.learner.name)}</td>", *(f"<td>{value}</td>" for value in one.key.values())]
                for one in self.variants)
        body = "".join(f'<tr><th scope="row">{one.code}</th>{"".join(row)}</tr>\n'
                       for one, row in zip(self.variants, rows, strict=True))
        return (f"<table>\n<caption>{escape(repr(self)[1:-1])}</caption>\n<thead><tr>{head}</tr></thead>\n"
                f"<tbody>\n{body}</tbody>\n</table>\n")


def make_worksheets(sheet: Sheet, learners: ClassList | Iterable[str] | int, seed: int = 0) -> Worksheets:
    """Sheets for a class.

    Parameters
    ----------
    sheet : Sheet
        What is to be on them.
    learners : ClassList, sequence of str, or int
        Who gets one; a number makes so many sheets with a line for the name.
    seed : int
        The same sheet, class and seed always make the same sheets.

    Raises
    ------
    InputError
        Nobody to make a sheet for; numbers that cannot be found, or do not fit the machine, with the item.
    """
    people = _people(learners)
    seed = whole(seed, "a seed")
    dealt = [deal(item, sheet.machine, len(people), seed, f"item {number}")
             for number, item in enumerate(sheet.items, start=1)]
    return assemble(sheet, seed, people, tuple(zip(*dealt, strict=True)),
                    left_out=learners.bad if isinstance(learners, ClassList) else ())


def _people(learners: ClassList | Iterable[str] | int) -> tuple[Learner, ...]:
    if isinstance(learners, ClassList):
        people = learners.learners
    elif isinstance(learners, Iterable) and not isinstance(learners, (str, bytes)):
        from mechcalc.preparing.class_list import class_of
        people = class_of(*learners).learners
    else:
        people = (Learner(""),) * whole(learners, "a number of sheets", 1, MOST_SHEETS)
    if not 1 <= len(people) <= MOST_SHEETS:
        raise InputError(f"sheets are made for 1 to {MOST_SHEETS} learners, not for {len(people)}")
    return people


def assemble(sheet: Sheet, seed: int, people: tuple[Learner, ...], numbers: tuple[tuple[Numbers, ...], ...],
             left_out: tuple[BadRow, ...] = ()) -> Worksheets:
    """Sheets from numbers that are known already: for each learner, one set an item."""
    told = [sheet.to_dict(), seed, [[one.name, one.group, one.id] for one in people], numbers]
    tag = tag_of(json.dumps(told, sort_keys=True))
    variants = tuple(
        Variant(code_of(tag, place), learner, tuple(
            problem_of(sheet.machine, item, number, own)
            for number, (item, own) in enumerate(zip(sheet.items, sets, strict=True), start=1)))
        for place, (learner, sets) in enumerate(zip(people, numbers, strict=True), start=1))
    turns = [[variant.problems[place].working.turns for variant in variants] for place in range(len(sheet.items))]
    return Worksheets(sheet, seed, tag, variants, tuple(Band(min(some), max(some)) for some in turns), left_out)


def problem_of(machine: MachineSpec, item: Item, number: int, numbers: Numbers) -> Problem:
    """An item with numbers, worked on a machine.

    Raises
    ------
    InputError
        The machine cannot work it, or has no answer to one of the questions.
    """
    try:
        working = item.task.work(Machine(machine), numbers, item.places)
    except MechcalcError as error:
        raise InputError(f"item {number}: {error}") from None
    return Problem(number, item, numbers, working, tuple(_asked(item, number, working)))


def _asked(item: Item, number: int, working: Working) -> Iterable[Asked]:
    """The questions of an item, lettered where they are marked."""
    letters = iter(ascii_lowercase)
    for before, names in ((True, item.predict), (False, item.ask)):
        for name in names:
            if name not in QUESTIONS:
                yield Asked("", "", before, name)
                continue
            row = QUESTIONS[name]
            right = row.read(working)
            if right is None:
                raise InputError(f"item {number}: {item.method} leaves no {name}, and {shown(name)} is asked")
            words = (row.before if before else row.after).format(
                answer=item.task.answer_name, point=" before the point" if item.places else "")
            yield Asked(f"{number}{next(letters)}", name, before, words, right)
