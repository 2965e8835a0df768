"""A class list: who is to get a sheet.

Only this file decides which row of a list names a learner. A list is a CSV file (`mechcalc.preparing.rows` says in
which forms) with a head that names the columns:

    name     required: the learner's name, as it is to be printed, in any script
    group    optional: the class or group
    id       optional: a number or word that tells two people of one name apart

Other columns are left unused, and that is said. A row that cannot be used is kept with its line and the reason.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from html import escape
from os import PathLike

from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.preparing.rows import Row, Rows, read_rows

LONGEST = 80
COLUMNS = ("name", "group", "id")
JOINERS = "\u200c\u200d"  # some scripts need them inside a word


@dataclass(frozen=True, slots=True)
class Learner:
    """Somebody who gets a sheet.

    Attributes
    ----------
    name, group, id : str
        As the list gives them, in normal form C; empty where it does not.
    """

    name: str
    group: str = ""
    id: str = ""


@dataclass(frozen=True, slots=True)
class BadRow:
    """A row that cannot be used: its line in the file, what it holds, and why not."""

    line: int
    text: str
    reason: str

    def __str__(self) -> str:
        return f"line {self.line} ({self.text or 'empty'}): {self.reason}"


@dataclass(frozen=True, slots=True, repr=False)
class ClassList:
    """Learners, in the order of the list.

    Attributes
    ----------
    learners : tuple of Learner
        Those that can be used.
    bad : tuple of BadRow
        The others.
    notes : tuple of str
        What else there is to say of the file: columns that are not used, empty rows.

    Examples
    --------
    >>> class_of("Ada", "Łukasz")
    <ClassList of 2 learners, 0 bad rows>
    """

    learners: tuple[Learner, ...]
    bad: tuple[BadRow, ...] = ()
    notes: tuple[str, ...] = ()

    def __len__(self) -> int:
        return len(self.learners)

    def __iter__(self) -> Iterator[Learner]:
        return iter(self.learners)

    def __repr__(self) -> str:
        return (f"<ClassList of {len(self)} learner{'s' * (len(self) != 1)}, {len(self.bad)} bad "
                f"row{'s' * (len(self.bad) != 1)}>")

    def _repr_html_(self) -> str:
        rows = "".join(f"<tr><th scope=\"row\">{escape(one.name)}</th><td>{escape(one.group)}</td>"
                       f"<td>{escape(one.id)}</td></tr>\n" for one in self.learners)
        said = "".join(f"<li>{escape(str(one))}</li>\n" for one in (*self.bad, *self.notes))
        return (f"<table>\n<caption>{escape(repr(self)[1:-1])}</caption>\n<thead><tr><th scope=\"col\">name</th>"
                "<th scope=\"col\">group</th><th scope=\"col\">id</th></tr></thead>"
                f"\n<tbody>\n{rows}</tbody>\n</table>\n"
                + (f"<ul>\n{said}</ul>\n" if said else ""))


def class_of(*names: str) -> ClassList:
    """A class list typed into a notebook.

    Raises
    ------
    InputError
        A name that cannot be used, or one that is there twice; with all of them.
    """
    rows = Rows(("name",), tuple(Row(number, (_words(name),)) for number, name in enumerate(names, start=1)), (),
                "these names")
    made = _learners(rows)
    if made.bad:
        raise InputError("; ".join(f"name {bad.line} ({shown(bad.text)}): {bad.reason}" for bad in made.bad))
    return made


def _words(name: object) -> str:
    if not isinstance(name, str):
        raise InputError(f"a name is a text, not {shown(name)}")
    return name


def read_class(source: str | PathLike[str] | bytes) -> ClassList:
    """The class list in a CSV file, or in its bytes.

    Raises
    ------
    InputError
        The file cannot be read, or has no column "name".

    Examples
    --------
    >>> found = read_class(b"name;group\\nAda;7b\\n;7b\\nAda;7b\\n")
    >>> found
    <ClassList of 1 learner, 2 bad rows>
    >>> for bad in found.bad:
    ...     print(bad)
    line 3 ( | 7b): the name is empty
    line 4 (Ada | 7b): the same name and group stand in line 2; give both an id if they are two people
    """
    return _learners(read_rows(source))


def _learners(rows: Rows) -> ClassList:
    if rows.column("name") is None:
        raise InputError(f"{rows.where}: there is no column 'name'{rows.meant('name')}")
    learners: list[Learner] = []
    bad, seen = [], Seen({}, {})
    for row in rows.rows:
        learner, reason = _read(row, rows)
        reason = reason or seen.reason(learner, row.line)
        if reason:
            bad.append(BadRow(row.line, row.text, reason))
        else:
            learners.append(learner)
    return ClassList(tuple(learners), tuple(bad), tuple(_notes(rows)))


def _notes(rows: Rows) -> Iterable[str]:
    unused = [name for name in rows.head if name and name not in COLUMNS]
    if unused:
        yield f"not used: the column{'s' * (len(unused) > 1)} {', '.join(map(repr, unused))}"
    if rows.empty:
        yield f"empty: line{'s' * (len(rows.empty) > 1)} {', '.join(map(str, rows.empty))}"


@dataclass(frozen=True, slots=True)
class Seen:
    """Whom the list has named so far, and on which line."""

    people: dict[tuple[str, str, str], int]
    ids: dict[str, int]

    def reason(self, one: Learner, line: int) -> str:
        """Why `one` cannot be used as well; empty, and kept in mind, where it can."""
        if one.id and one.id.casefold() in self.ids:
            return f"the id {shown(one.id)} stands in line {self.ids[one.id.casefold()]} already"
        who = (one.name.casefold(), one.group.casefold(), one.id.casefold())
        if who in self.people:
            return (f"the same name and group stand in line {self.people[who]}; give both an id if they are two "
                    f"people")
        self.people[who] = line
        if one.id:
            self.ids[one.id.casefold()] = line
        return ""


def _read(row: Row, rows: Rows) -> tuple[Learner, str]:
    """The learner of a row, and why the row cannot be used (empty where it can)."""
    values = dict.fromkeys(COLUMNS, "")
    for name, cell in zip(rows.head, row.cells, strict=False):
        if name in values:
            values[name] = unicodedata.normalize("NFC", cell)
    many = len(rows.head) + sum(bool(cell) for cell in row.cells[len(rows.head):])
    if many > len(rows.head):
        return Learner(""), (f"it has more cells than the head has columns ({many} of {len(rows.head)}); a name with a "
                             f"comma in it needs quotation marks")
    for name, value in values.items():
        reason = _reason(name, value)
        if reason:
            return Learner(""), reason
    if values["name"].casefold() == "name":
        return Learner(""), "the head of the list once more"
    return Learner(**{name: " ".join(value.split()) for name, value in values.items()}), ""


def _reason(column: str, value: str) -> str:
    """Why a cell cannot be used; empty where it can."""
    if "\n" in value or "\r" in value:
        return f"the {column} goes over several lines: a quotation mark may be one too many"
    strange = next((mark for mark in value if unicodedata.category(mark) in ("Cc", "Cf", "Cs", "Co", "Cn")
                    and mark not in JOINERS and mark != "\t"), None)
    if strange:
        return f"the {column} holds a character that cannot be printed (U+{ord(strange):04X})"
    if len(value) > LONGEST:
        return f"the {column} has {len(value)} characters: {LONGEST} at most"
    if column == "name" and not any(unicodedata.category(mark)[0] in "LN" for mark in value):
        return f"the name holds no letter ({shown(value)})" if value else "the name is empty"
    return ""
