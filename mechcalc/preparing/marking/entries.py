"""The answers of a class as entries: who answered which question with what, and what cannot be placed.

Only this file decides which row or cell is whose answer. A file of answers is CSV (`mechcalc.preparing.rows` says in
which forms), in one of two shapes:

    long    code, item, answer     a row an answer
    wide    code, 1a, 1b, 2a, …    a row a learner, a column a question; answers.csv of a set is made like this

Instead of (or beside) the code there may be the learner's name or id. A question is named by its label (1a, 1 A, 1.a)
or by its item and what is asked ("1 turns"). Every row, and in the wide shape every cell, becomes one entry; none is
lost.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from os import PathLike

from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.preparing.rows import Row, Rows, read_rows
from mechcalc.preparing.sheets.codes import read_code
from mechcalc.preparing.sheets.worksheets import Variant, Worksheets

CODE, NAME, ID = ("code", "sheet"), ("name", "learner"), ("id",)
ITEM, ANSWER = ("item", "question", "label"), ("answer",)
KNOWN = (*CODE, *NAME, *ID, "group")


@dataclass(frozen=True, slots=True)
class Entry:
    """Something that stands in the file as an answer.

    Attributes
    ----------
    line : int
        Of the file.
    who, item, text : str
        The learner, the question and the answer, as they stand.
    """

    line: int
    who: str
    item: str
    text: str


@dataclass(frozen=True, slots=True)
class Placed:
    """An entry, and whose answer to which question it is; or why that cannot be told.

    Attributes
    ----------
    entry : Entry
        What stands in the file.
    variant : Variant or None
        Whose sheet.
    label : str
        Which question; empty where that cannot be told.
    kind, reason : str
        Of `KINDS` in `marking.report`, and the reason; empty for an entry that has its place.
    """

    entry: Entry
    variant: Variant | None = None
    label: str = ""
    kind: str = ""
    reason: str = ""


@dataclass(frozen=True, slots=True)
class AnswerFile:
    """What a file of answers holds: its entries in order, and notes on columns and rows that hold none."""

    entries: tuple[Placed, ...]
    notes: tuple[str, ...]


def read_answers(source: str | PathLike[str] | bytes, made: Worksheets) -> AnswerFile:
    """The entries of a file of answers to a set of sheets.

    Raises
    ------
    InputError
        The file cannot be read, or has no column that says who or what.
    """
    rows = read_rows(source)
    if all(rows.column(*names) is None for names in (CODE, NAME, ID)):
        raise InputError(f"{rows.where}: no column says whose answers these are{rows.meant('code')}")
    labels = Labels(made)
    notes = [f"empty: line{'s' * (len(rows.empty) > 1)} {', '.join(map(str, rows.empty))}"] if rows.empty else []
    item, answer = rows.column(*ITEM), rows.column(*ANSWER)
    if (item is None) != (answer is None):
        there, lacking = ("item", "answer") if answer is None else ("answer", "item")
        raise InputError(f"{rows.where}: there is a column {there!r} and none called {lacking!r}{rows.meant(lacking)}")
    if item is not None and answer is not None:
        columns = {answer: ""}
        unused = [name for place, name in enumerate(rows.head)
                  if name and name not in KNOWN and place not in (item, answer)]
    else:
        columns = {place: name for place, name in enumerate(rows.head) if labels.find(name) or labels.looks_like(name)}
        unused = [name for place, name in enumerate(rows.head) if name and name not in KNOWN and place not in columns]
        if not columns:
            raise InputError(f"{rows.where}: there are no columns 'item' and 'answer', and none is called after a "
                             f"question of this set ({', '.join(made.labels)})")
    if unused:
        notes.append(f"not used: the column{'s' * (len(unused) > 1)} {', '.join(map(repr, unused))}")
    people = People(made)
    placed = [one for row in rows.rows for one in _placed(row, rows, columns, item, people, labels)]
    return AnswerFile(tuple(placed), tuple(notes))


def _placed(row: Row, rows: Rows, columns: dict[int, str], item: int | None, people: People, labels: Labels
            ) -> Iterator[Placed]:
    """The entries of a row."""
    many = len(rows.head) + sum(bool(cell) for cell in row.cells[len(rows.head):])
    if many > len(rows.head):
        yield Placed(Entry(row.line, "", "", row.text), kind="unreadable",
                     reason=f"the row has more cells than the head has columns ({many} of {len(rows.head)}): a "
                            f"decimal comma needs quotation marks, or semicolons between the cells")
        return
    variant, who, strange = people.find(row, rows)
    for place, name in columns.items():
        asked = _cell(row, item) if item is not None else name
        entry = Entry(row.line, who, asked, _cell(row, place))
        label = labels.find(asked)
        if strange:
            yield Placed(entry, kind="unknown learner", reason=strange)
        elif not label:
            yield Placed(entry, variant, kind="unknown question",
                         reason=f"{shown(asked)} is no question of this set" if asked else "no question is named")
        elif not entry.text:
            yield Placed(entry, variant, label, kind="blank", reason="")
        else:
            yield Placed(entry, variant, label)


def _cell(row: Row, place: int | None) -> str:
    return row.cells[place] if place is not None and place < len(row.cells) else ""


class Labels:
    """The questions of a set by whatever a file may call them."""

    def __init__(self, made: Worksheets) -> None:
        self.known = {label: label for label in made.labels}
        for problem in made.variants[0].problems:
            for one in problem.keyed:
                name = problem.item.task.answer_name if one.name == "answer" else one.name
                if not one.before:
                    self.known |= {_bare(f"{problem.number}{called}"): one.label for called in (one.name, name)}

    def find(self, text: str) -> str:
        """The label that is meant; empty where none is."""
        return self.known.get(_bare(text), "")

    @staticmethod
    def looks_like(text: str) -> bool:
        """Whether a column is called as a question may be."""
        return bool(re.fullmatch(r"\d+[a-z]", _bare(text)))


def _bare(text: str) -> str:
    return re.sub(r"[^\w]|_", "", text.casefold())


def _same(name: str) -> str:
    return " ".join(unicodedata.normalize("NFC", name).lstrip("'").split()).casefold()


class People:
    """The learners of a set by code, name and id."""

    def __init__(self, made: Worksheets) -> None:
        self.tag = made.tag
        self.codes = {one.code: one for one in made.variants}
        self.names: dict[str, list[Variant]] = {}
        for one in made.variants:
            if one.learner.name:
                self.names.setdefault(_same(one.learner.name), []).append(one)
        self.ids = {_same(one.learner.id): one for one in made.variants if one.learner.id}

    def find(self, row: Row, rows: Rows) -> tuple[Variant | None, str, str]:
        """Whose row it is, what it calls them, and why that cannot be told (empty where it can)."""
        code, name, number = (_cell(row, rows.column(*names)) for names in (CODE, NAME, ID))
        who = code or name or number
        found, strange = self._by(code, name, number)
        if found and name and found.learner.name and _same(name) != _same(found.learner.name):
            by = f"the code {found.code}" if code else f"the id {number}"
            return None, who, f"{by} is that of {found.learner.name}, and the name says {name}"
        return found, who, strange

    def _by(self, code: str, name: str, number: str) -> tuple[Variant | None, str]:
        if code:
            try:
                proper = read_code(code)
            except InputError as error:
                return None, str(error)
            if proper in self.codes:
                return self.codes[proper], ""
            but = "has no such sheet" if proper.startswith(f"{self.tag}-") else f"is {self.tag}, and this is of another"
            return None, f"{proper} is a proper code, but the set {but}"
        if number:
            found = self.ids.get(_same(number))
            return (found, "") if found else (None, f"nobody in this set has the id {shown(number)}")
        if not name:
            return None, "neither code, name nor id"
        people = self.names.get(_same(name), [])
        if len(people) > 1:
            return None, f"{len(people)} learners of this set are called {name}: write the code"
        return (people[0], "") if people else (None, f"nobody in this set is called {name}")
