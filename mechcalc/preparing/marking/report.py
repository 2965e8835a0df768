"""What became of a class's answers: by learner, by question and by misconception, and what could not be marked.

Only this file decides what counts as right. Every entry of the file ends in exactly one place: it is marked, or it is
set aside with a reason; `ClassReport` refuses to be made where the two do not add up.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from os import PathLike
from typing import TYPE_CHECKING

from mechcalc.errors import InputError
from mechcalc.preparing.marking.entries import AnswerFile, Entry, Placed, read_answers
from mechcalc.preparing.marking.reading import Unreadable, readings
from mechcalc.preparing.marking.slip_table import MISCONCEPTIONS
from mechcalc.preparing.marking.slips import answers_of
from mechcalc.preparing.sheets.worksheets import Asked, Problem, Variant, Worksheets

if TYPE_CHECKING:
    from matplotlib.figure import Figure

RIGHT, SLIP, WRONG = "right", "misconception", "wrong"
KINDS = {"unreadable": "cannot be read", "unknown learner": "whose it is cannot be told",
         "unknown question": "belongs to no question", "second answer": "is answered a second time",
         "blank": "nothing is written"}
STATES = (RIGHT, SLIP, WRONG, "unreadable", "missing")
SIGNS = {RIGHT: "✓", SLIP: "✗", WRONG: "✗", "unreadable": "?", "missing": "–"}


@dataclass(frozen=True, slots=True)
class Mark:
    """An answer that was marked.

    Attributes
    ----------
    entry : Entry
        What stands in the file.
    variant : Variant
        Whose.
    label : str
        To which question.
    value : Fraction
        As it was read.
    verdict : str
        ``"right"``, ``"misconception"`` or ``"wrong"``.
    fits : tuple of str
        The misconceptions that lead to it; several where it cannot be told which.
    """

    entry: Entry
    variant: Variant
    label: str
    value: Fraction
    verdict: str
    fits: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, repr=False)
class ClassReport:
    """A class's answers, marked.

    Attributes
    ----------
    made : Worksheets
        The set.
    marks : tuple of Mark
        What was marked, in the order of the file.
    aside : tuple of Placed
        What was set aside; its `kind` is a key of `KINDS`.
    entries : int
        How many entries the file held: all marks and all that was set aside.
    notes : tuple of str
        What else there is to say of the file.

    Examples
    --------
    >>> from mechcalc.preparing.sheets import Item, Sheet, make_worksheets
    >>> sheet = Sheet(title="x", machine="bench", items=[Item(method="multiply", numbers=(347, 26))])
    >>> made = make_worksheets(sheet, ["Ada", "Łukasz"])
    >>> report = mark_answers("name;1c;1d\\nAda;9 022;26\\nłukasz;2776;x\\n".encode(), made)
    >>> report
    <ClassReport x: 4 entries, 2 right, 1 misconception, 0 wrong, 1 set aside>
    >>> [(mark.variant.learner.name, mark.fits) for mark in report.marks if mark.fits]
    [('Łukasz', ('shift forgotten',))]
    """

    made: Worksheets
    marks: tuple[Mark, ...]
    aside: tuple[Placed, ...]
    entries: int
    notes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if len(self.marks) + len(self.aside) != self.entries:
            raise AssertionError(f"{self.entries} entries, and {len(self.marks)} marked + {len(self.aside)} set aside")

    def __repr__(self) -> str:
        return (f"<ClassReport {self.made.sheet.title}: {self.entries} entries, {self.count(RIGHT)} right, "
                f"{self.count(SLIP)} misconception{'s' * (self.count(SLIP) != 1)}, {self.count(WRONG)} wrong, "
                f"{len(self.aside)} set aside>")

    def count(self, verdict: str) -> int:
        """How many marks have this verdict."""
        return sum(mark.verdict == verdict for mark in self.marks)

    def state(self, variant: Variant, label: str) -> str:
        """How a learner's question stands: a verdict, ``"unreadable"``, or ``"missing"``."""
        mark = self.mark_of(variant, label)
        if mark:
            return mark.verdict
        unread = any(one.kind == "unreadable" and one.variant is variant and one.label == label for one in self.aside)
        return "unreadable" if unread else "missing"

    def mark_of(self, variant: Variant, label: str) -> Mark | None:
        """The mark of a learner's question, if there is one."""
        return next((mark for mark in self.marks if mark.variant is variant and mark.label == label), None)

    @property
    def missing(self) -> tuple[tuple[Variant, str], ...]:
        """Questions that nobody's entry answers, readable or not."""
        return tuple((one, label) for one in self.made.variants for label in self.made.labels
                     if self.state(one, label) == "missing")

    def by_learner(self) -> list[list[object]]:
        """A row a learner: who, how many are right, wrong, unreadable and missing, and a sign for each question."""
        rows: list[list[object]] = []
        for one in self.made.variants:
            states = [self.state(one, label) for label in self.made.labels]
            wrong = states.count(SLIP) + states.count(WRONG)
            rows.append([one.code, one.learner.name, one.learner.group, states.count(RIGHT), wrong,
                         states.count("unreadable"), states.count("missing"), *(SIGNS[state] for state in states)])
        return rows

    @property
    def learner_heads(self) -> tuple[str, ...]:
        """The columns of `by_learner`."""
        return ("code", "name", "group", "right", "wrong", "unreadable", "missing", *self.made.labels)

    def by_question(self) -> list[list[object]]:
        """A row a question: label, what is asked, and how many are right, explained, wrong, unreadable, missing."""
        rows: list[list[object]] = []
        for label in self.made.labels:
            states = Counter(self.state(one, label) for one in self.made.variants)
            rows.append([label, self.question(label), *(states[key] for key in STATES)])
        return rows

    QUESTION_HEADS = ("label", "question", "right", "misconception", "otherwise wrong", "unreadable", "missing")

    def question(self, label: str) -> str:
        """What is asked, in a word or two, and of which calculation."""
        from mechcalc.preparing.sheets.content import short
        problem, asked = _found(self.made.variants[0], label)
        return f"{short(problem, asked)} ({problem.item.order.do.lower()})"

    def by_misconception(self) -> list[list[object]]:
        """A row a misconception that occurs, the commonest first.

        Its name, how many answers fit it, how many of these fit no other, how many learners gave them, the questions,
        the names, and what it says.
        """
        rows: list[list[object]] = []
        for name, row in MISCONCEPTIONS.items():
            fitting = [mark for mark in self.marks if name in mark.fits]
            if fitting:
                people = list(dict.fromkeys(mark.variant.learner.name or mark.variant.code for mark in fitting))
                learners = len({mark.variant.code for mark in fitting})
                labels = sorted({mark.label for mark in fitting}, key=self.made.labels.index)
                alone = sum(len(mark.fits) == 1 for mark in fitting)
                rows.append([name, len(fitting), alone, learners, ", ".join(labels), ", ".join(people), row.says])
        rows.sort(key=lambda row: -int(str(row[1])))
        return rows

    MISCONCEPTION_HEADS = ("misconception", "answers", "fits nothing else", "learners", "questions", "who",
                           "what it says")

    def set_aside(self) -> list[list[object]]:
        """A row for each entry that was set aside: line, learner, question, what stands there, why."""
        return [[one.entry.line, one.entry.who, one.entry.item, one.entry.text,
                 f"{KINDS[one.kind]}: {one.reason}" if one.reason else KINDS[one.kind]] for one in self.aside]

    ASIDE_HEADS = ("line", "learner", "question", "what stands there", "why it was set aside")

    def plot(self) -> Figure:
        """How the questions went and which misconceptions occur; greyscale, with hatches."""
        from mechcalc.preparing.marking.plot import figure_of
        return figure_of(self)

    def __str__(self) -> str:
        from mechcalc.preparing.marking.telling import summary
        return summary(self)

    def _repr_html_(self) -> str:
        from mechcalc.preparing.marking.telling import tables_html
        return tables_html(self)


def mark_answers(source: str | PathLike[str] | bytes, made: Worksheets) -> ClassReport:
    """Mark a file of answers to a set of sheets.

    Parameters
    ----------
    source : path or bytes
        The CSV file; `marking.entries` says what it may look like.
    made : Worksheets
        The set: made just now, or read from its folder by `read_set`.

    Raises
    ------
    InputError
        The file cannot be read, or has no columns that say who and what.
    """
    if not isinstance(made, Worksheets):
        raise InputError("answers are marked with the set of sheets that they belong to: read_set(folder)")
    found = read_answers(source, made)
    return report_of(found, made)


def report_of(found: AnswerFile, made: Worksheets) -> ClassReport:
    """Mark entries that have been read."""
    marks: list[Mark] = []
    aside: list[Placed] = []
    first: dict[tuple[str, str], int] = {}
    for one in found.entries:
        placed = _mark(one, first)
        (marks if isinstance(placed, Mark) else aside).append(placed)  # type: ignore[arg-type]
    return ClassReport(made, tuple(marks), tuple(aside), len(found.entries), found.notes)


def _mark(one: Placed, first: dict[tuple[str, str], int]) -> Mark | Placed:
    """An entry marked, or set aside."""
    if one.kind or one.variant is None:
        return one
    problem, asked = _found(one.variant, one.label)
    where = (one.variant.code, one.label)
    if where in first:
        return Placed(one.entry, one.variant, one.label, "second answer", f"the first stands in line {first[where]}")
    first[where] = one.entry.line
    try:
        values = readings(one.entry.text, decimals=bool(asked.right and asked.right.places))
    except Unreadable as reason:
        del first[where]
        return Placed(one.entry, one.variant, one.label, "unreadable", str(reason))
    return _judged(one, problem, asked, values)


def _judged(one: Placed, problem: Problem, asked: Asked, values: Iterable[Fraction]) -> Mark:
    """Right if any reading is; else by the first reading that a misconception leads to."""
    assert one.variant is not None
    assert asked.right is not None
    values = tuple(values)
    if asked.right.exact in values:
        return Mark(one.entry, one.variant, one.label, asked.right.exact, RIGHT)
    known = answers_of(problem, one.label)
    value = next((value for value in values if value in known), values[0])
    fits = known.get(value, ())
    return Mark(one.entry, one.variant, one.label, value, SLIP if fits else WRONG, fits)


def _found(variant: Variant, label: str) -> tuple[Problem, Asked]:
    return next((problem, one) for problem in variant.problems for one in problem.keyed if one.label == label)
