"""A table that an operator wrote down, with the workings that it came from.

Only this file decides how such a table is shown; `Comparison` is shown by it too.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from html import escape
from typing import Any

from mechcalc.errors import InputError
from mechcalc.methods.working import Working
from mechcalc.numbers import shown


@dataclass(frozen=True, slots=True, repr=False)
class Table:
    """Rows and columns, as written down from the machine.

    Attributes
    ----------
    title : str
        What it is a table of.
    headings : tuple of str
        One for each column.
    rows : tuple of tuple
        Whole numbers, Decimals or texts.
    workings : tuple of Working
        The strokes it took.
    remark : str
        How it was rounded, and the like.

    Examples
    --------
    >>> table = Table("squares", ("x", "f"), ((1, 1), (2, 4)), ())
    >>> table
    <Table squares: 2 rows>
    >>> table.column("f")
    (1, 4)
    """

    title: str
    headings: tuple[str, ...]
    rows: tuple[tuple[Any, ...], ...]
    workings: tuple[Working, ...]
    remark: str = ""

    def column(self, heading: str) -> tuple[Any, ...]:
        """The entries under a heading, gaps left out."""
        if heading not in self.headings:
            raise InputError(f"{shown(heading)} is no column: there are {', '.join(self.headings)}")
        place = self.headings.index(heading)
        return tuple(row[place] for row in self.rows if row[place] != "")

    @property
    def cost(self) -> str:
        """The strokes it took, in words."""
        if not self.workings:
            return ""
        counts = ((sum(getattr(working, f"{noun}s") for working in self.workings), noun)
                  for noun in ("turn", "shift", "setting"))
        return ", ".join(f"{count} {noun}{'' if count == 1 else 's'}" for count, noun in counts)

    def __repr__(self) -> str:
        return f"<Table {self.title}: {len(self.rows)} rows>"

    def __str__(self) -> str:
        tail = " ".join(filter(None, [self.cost + ("." if self.remark else "") if self.cost else "", self.remark]))
        return "\n".join([self.title, plain(self.headings, self.rows), *(["", tail] if tail else [])])

    def _repr_html_(self) -> str:
        tail = ". ".join(filter(None, [self.cost, self.remark]))
        return grid(self.title, self.headings, self.rows) + (f"<p>{escape(tail)}</p>\n" if tail else "")


@dataclass(frozen=True, slots=True, repr=False)
class Words(Table):
    """A table of words: every column starts at the left.

    >>> Words("tries", ("what", "how"), (("the crank", "stops"),), ())
    <Table tries: 1 rows>
    """

    def _repr_html_(self) -> str:
        return grid(self.title, self.headings, self.rows, left=True) + (
            f"<p>{escape(self.remark)}</p>\n" if self.remark else "")


def said(cell: Any) -> str:
    """A cell as text: decimals without an exponent, a proper minus sign."""
    return (f"{cell:f}" if isinstance(cell, Decimal) else str(cell)).replace("-", "−") if not isinstance(
        cell, str) else cell


def plain(headings: Sequence[str], rows: Sequence[Sequence[Any]]) -> str:
    """Columns under their headings, two spaces apart; numbers end at the right, texts start at the left."""
    texts = [[said(cell) for cell in row] for row in rows]
    widths = [max(len(text) for text in column) for column in zip(headings, *texts, strict=True)]
    left = [all(isinstance(row[place], str) for row in rows) for place in range(len(headings))]
    lines = [[cell.ljust(width) if start else cell.rjust(width)
              for cell, width, start in zip(row, widths, left, strict=True)] for row in [list(headings), *texts]]
    return "\n".join("  ".join(line).rstrip() for line in lines)


def grid(caption: str, headings: Sequence[str], rows: Sequence[Sequence[Any]], *, left: bool = False) -> str:
    """The same as HTML, with a caption and with headers for columns and rows; `left` for tables of words."""
    style = ' style="text-align: left"' if left else ""
    head = "".join(f'<th scope="col"{style}>{escape(name)}</th>' for name in headings)
    body = ""
    for row in rows:
        first, *others = (escape(said(cell)) for cell in row)
        body += f'<tr><th scope="row"{style}>{first}</th>' + "".join(
            f"<td{style}>{cell}</td>" for cell in others) + "</tr>\n"
    return (f"<table>\n<caption>{escape(caption)}</caption>\n<thead><tr>{head}</tr></thead>\n<tbody>\n{body}</tbody>\n"
            f"</table>\n")
