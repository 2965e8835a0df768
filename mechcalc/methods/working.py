"""What a method leaves behind: the strokes, and for each of them one line of words and one of algebra.

Only this file decides how a working is counted, listed and shown. It moves nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from html import escape
from typing import TYPE_CHECKING, NamedTuple

from mechcalc.events import Stroke
from mechcalc.methods.equality import Equality
from mechcalc.parts import SOUND, Parts
from mechcalc.spec import MachineSpec
from mechcalc.state import State

if TYPE_CHECKING:
    import sympy

HEADINGS = ("no.", "the hand", "algebra", "setting", "result", "counter", "carriage", "bell", "words")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the working: what one stroke means.

    Attributes
    ----------
    words : str
        A sentence or two.
    equality : Equality
        What is true of this stroke; its right-hand side is what the machine shows.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.methods import add
    >>> line = add(Machine(load_spec("slate")), 12, 34).lines[-1]
    >>> line
    Line('Turn: add 34.', '12 + 34 = 46')
    >>> line.equation(), line.holds()
    (Eq(12 + 34, 46), True)
    """

    words: str
    equality: Equality

    def __repr__(self) -> str:
        return f"Line({self.words!r}, {self.algebra!r})"

    @property
    def algebra(self) -> str:
        """The equation as plain text in Unicode."""
        return str(self.equality)

    @property
    def latex(self) -> str:
        """The equation as LaTeX."""
        return self.equality.latex

    def equation(self) -> sympy.Eq:
        """The equation for sympy, not evaluated (this imports sympy)."""
        return self.equality.equation()

    def holds(self) -> bool:
        """Whether sympy finds the equation true. On a machine with a fault it may not be."""
        return self.equality.holds()


class Row(NamedTuple):
    """One stroke in a table: its number from 1, what the hand does, the algebra, what is shown after it, the words."""

    number: int
    hand: str
    algebra: str
    setting: int
    result: int
    counter: int
    carriage: int
    bell: bool
    words: str

    @property
    def cells(self) -> tuple[str, ...]:
        """The row as texts, one for each of `HEADINGS`."""
        return (*(str(value) for value in self[:7]), "rings" if self.bell else "", self.words)


def with_point(number: int, places: int) -> str:
    """A whole number with its last `places` digits as decimals.

    >>> with_point(314, 2), with_point(2, 2), with_point(-5, 1), with_point(7, 0)
    ('3.14', '0.02', '−0.5', '7')
    """
    digits = str(abs(number)).rjust(places + 1, "0")
    point = len(digits) - places
    return ("−" if number < 0 else "") + digits[:point] + ("." + digits[point:] if places else "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What a method returns where an answer and a remark do not say it all; see `Working` for the fields."""

    answer: int
    remark: str
    places: int = 0
    remainder: int | None = None
    remainder_places: int = 0
    error_bound: Fraction | None = None


HANDS = {
    "set": "set {argument}", "set lever": "set lever {argument[0]} to {argument[1]}", "shift": "shift {argument:+d}",
    "crank": "crank {argument:+g}°", "pull": "pull {argument[0]} lever to {argument[1]:g}°",
}


def hand_of(stroke: Stroke) -> str:
    """What the hand does in a stroke, in a few words."""
    if stroke.operation == "crank" and abs(stroke.argument) == 360:
        return "turn" if stroke.argument > 0 else "turn back"
    return HANDS.get(stroke.operation, stroke.operation).format(argument=stroke.argument)


@dataclass(frozen=True, slots=True)
class Working:
    """A calculation done on a machine, stroke by stroke.

    Attributes
    ----------
    spec : MachineSpec
        The machine it was done on.
    title : str
        The calculation, as ``"347 × 26"``.
    start : State
        The machine before the first stroke.
    answer : int
        Read from the machine; negative where its wheels show a complement.
    strokes : tuple of Stroke
        What the hand did.
    lines : tuple of Line
        One for each stroke, in the same order.
    remark : str
        How the answer is read.
    places : int
        How many of the answer's last digits are decimals (`value` is the answer with its point).
    remainder : int or None
        What a division or a root leaves over; None where the method has no remainder.
    remainder_places : int
        How many of the remainder's last digits are decimals.
    error_bound : Fraction or None
        The most by which `value` can differ from the exact answer. None where the remainder tells what is missing,
        or nothing is.
    parts : Parts
        What the machine's parts do; those of a sound one unless given. Pictures ask them.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.methods import multiply
    >>> working = multiply(Machine(load_spec("slate")), 347, 12)
    >>> working
    <Working 347 × 12 = 4164: 3 turns, 1 shift, 1 setting>
    >>> working.turns, working.shifts, working.settings, working.crank_angle
    (3, 1, 1, 1080.0)
    >>> print(working)
    347 × 12 = 4164
    no.  the hand  algebra                     setting  result  counter  carriage  bell  words
    1    set 347   3 × 10² + 4 × 10 + 7 = 347      347       0        0         0        Set 347 on the levers.
    2    turn      0 + 347 = 347                   347     347        1         0        Turn 1 of 2: add 347.
    3    turn      347 + 347 = 694                 347     694        2         0        Turn 2 of 2: add 347.
    4    shift +1  347 × 10 = 3470                 347     694        2         1        Shift the carriage to \
position 1: a turn now counts 10 times.
    5    turn      694 + 347 × 10 = 4164           347    4164       12         1        Turn: add 347 × 10.
    The result shows 4164. The counter shows 12, the multiplier.
    """

    spec: MachineSpec
    title: str
    start: State
    answer: int
    strokes: tuple[Stroke, ...]
    lines: tuple[Line, ...]
    remark: str = ""
    places: int = 0
    remainder: int | None = None
    remainder_places: int = 0
    error_bound: Fraction | None = None
    parts: Parts = SOUND

    @property
    def value(self) -> Fraction:
        """The answer with its decimal point, exactly."""
        return Fraction(self.answer, 10**self.places)

    @property
    def headline(self) -> str:
        """The calculation and its answer, with the point and the remainder where there are any."""
        left = "" if self.remainder is None else f", remainder {with_point(self.remainder, self.remainder_places)}"
        return f"{self.title} = {with_point(self.answer, self.places)}{left}"

    @property
    def end(self) -> State:
        """The machine after the last stroke."""
        return self.strokes[-1].after if self.strokes else self.start

    @property
    def turns(self) -> int:
        """Whole turns of the crank, additive and subtractive ones together."""
        return sum(stroke.operation == "crank" for stroke in self.strokes)

    @property
    def shifts(self) -> int:
        """Places that the carriage went, both ways together."""
        return sum(stroke.operation == "shift" for stroke in self.strokes)

    @property
    def settings(self) -> int:
        """How often a number was set on the levers."""
        return sum(stroke.operation == "set" for stroke in self.strokes)

    @property
    def lever_moves(self) -> int:
        """How often a single setting lever was moved."""
        return sum(stroke.operation == "set lever" for stroke in self.strokes)

    @property
    def transfers(self) -> int:
        """How often the result was brought back to the levers by back transfer."""
        return sum(stroke.operation == "back transfer" for stroke in self.strokes)

    @property
    def clearings(self) -> int:
        """How often a register or the setting was cleared; what back transfer clears on its way is left out."""
        return sum(stroke.operation.startswith("clear") for stroke in self.strokes)

    @property
    def crank_angle(self) -> float:
        """Degrees of crank, both directions added up; what the comb takes in clearing the setting is left out."""
        return float(sum(abs(stroke.argument) for stroke in self.strokes if stroke.operation == "crank"))

    @property
    def wrong_lines(self) -> tuple[int, ...]:
        """Numbers (from 1) of the lines whose algebra the machine did not keep to; empty on a sound machine."""
        return tuple(number for number, line in enumerate(self.lines, start=1) if not line.holds())

    def table(self) -> tuple[Row, ...]:
        """One row a stroke, for whoever prints it in a way of their own."""
        rows = []
        for number, (stroke, line) in enumerate(zip(self.strokes, self.lines, strict=True), start=1):
            shows = stroke.reading
            bell = stroke.operation == "crank" and shows.bell
            rows.append(Row(number, hand_of(stroke), line.algebra, shows.setting, shows.result, shows.counter,
                            shows.carriage, bell, line.words))
        return tuple(rows)

    def __repr__(self) -> str:
        moves = ((self.lever_moves, "lever move"),) if self.lever_moves else ()
        counts = ", ".join(f"{count} {noun if count == 1 else noun + 's'}" for count, noun in (
            (self.turns, "turn"), (self.shifts, "shift"), (self.settings, "setting"), *moves))
        return f"<Working {self.headline}: {counts}>"

    def __str__(self) -> str:
        rows = [HEADINGS, *(row.cells for row in self.table())]
        widths = [max(len(row[column]) for row in rows) for column in range(len(HEADINGS))]
        lines = []
        for row in rows:
            cells = [cell.rjust(width) if 3 <= column <= 6 else cell.ljust(width)
                     for column, (cell, width) in enumerate(zip(row, widths, strict=True))]
            lines.append("  ".join(cells).rstrip())
        return "\n".join([self.headline, *lines, *([self.remark] if self.remark else [])])

    def _repr_html_(self) -> str:
        """A table with a caption and with headers for columns and rows."""
        head = "".join(f'<th scope="col">{escape(name)}</th>' for name in HEADINGS)
        body = ""
        for row in self.table():
            number, *cells = (escape(cell) for cell in row.cells)
            body += f'<tr><th scope="row">{number}</th>' + "".join(f"<td>{cell}</td>" for cell in cells) + "</tr>\n"
        remark = f"<p>{escape(self.remark)}</p>\n" if self.remark else ""
        return (f"<table>\n<caption>{escape(self.headline)}</caption>\n<thead><tr>{head}</tr></thead>\n"
                f"<tbody>\n{body}</tbody>\n</table>\n{remark}")

    def _repr_markdown_(self) -> str:
        rows = [HEADINGS, ("---",) * len(HEADINGS), *(row.cells for row in self.table())]
        table = "\n".join("| " + " | ".join(row) + " |" for row in rows)
        return f"**{self.headline}**\n\n{table}\n" + (f"\n{self.remark}\n" if self.remark else "")
