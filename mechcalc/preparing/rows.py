"""Rows out of a spreadsheet: what a CSV file holds, row by row, with the lines of the file that each row came from.

Only this file decides how bytes become rows. It takes what spreadsheets write: UTF-8 with or without a byte order mark,
or the "Unicode text" of UTF-16; commas, semicolons or tabs; quoted cells; a first line ``sep=;``. Lines that begin
with # and stand before the head are comments. No row is dropped: empty ones are counted.
"""

from __future__ import annotations

import codecs
import csv
import io
from dataclasses import dataclass
from difflib import get_close_matches
from os import PathLike
from pathlib import Path

from mechcalc.errors import InputError
from mechcalc.numbers import shown

SEPARATORS = ",;\t"
MOST_BYTES = 5_000_000


@dataclass(frozen=True, slots=True)
class Row:
    """A row below the head.

    Attributes
    ----------
    line : int
        The line of the file on which it begins, from 1.
    cells : tuple of str
        As they stand, spaces around them taken off.
    """

    line: int
    cells: tuple[str, ...]

    @property
    def text(self) -> str:
        """The row in short, for a list of rows that went wrong."""
        text = " | ".join(" ".join(cell.split()) for cell in self.cells)
        return text if len(text) <= 80 else text[:77] + "..."


@dataclass(frozen=True, slots=True)
class Rows:
    """A file's rows.

    Attributes
    ----------
    head : tuple of str
        The names of the columns, in small letters, with single spaces.
    rows : tuple of Row
        What stands below, empty rows left out.
    empty : tuple of int
        The lines of empty rows.
    where : str
        The file, for messages.
    """

    head: tuple[str, ...]
    rows: tuple[Row, ...]
    empty: tuple[int, ...]
    where: str

    def __post_init__(self) -> None:
        twice = sorted({name for name in self.head if name and self.head.count(name) > 1})
        if twice:
            raise InputError(f"{self.where}: the column {shown(twice[0])} is there more than once")

    def column(self, *names: str) -> int | None:
        """The place of the column that has one of these names; None where there is none."""
        return next((self.head.index(name) for name in names if name in self.head), None)

    def meant(self, name: str) -> str:
        """Words that say which column may have been meant by `name`."""
        near = get_close_matches(name, [column for column in self.head if column], n=1)
        return f"; is {near[0]!r} meant?" if near else f"; the columns are {', '.join(map(repr, self.head))}"


def read_rows(source: str | PathLike[str] | bytes) -> Rows:
    """The rows of a CSV file, or of its bytes.

    Raises
    ------
    InputError
        No such file; bytes that are no text; quotation marks that do not close; no head.

    Examples
    --------
    >>> read_rows(b"# who\\nname;group\\n Ada ;7b\\n\\n").rows
    (Row(line=3, cells=('Ada', '7b')),)
    """
    where, raw = ("these rows", source) if isinstance(source, bytes) else (str(source), _bytes_of(Path(source)))
    if len(raw) > MOST_BYTES:
        raise InputError(f"{where} has {len(raw)} bytes, which is no list of a class: {MOST_BYTES} at most")
    lines = _text(raw, where).splitlines(keepends=True)
    before = 0
    while before < len(lines) and (not lines[before].strip(" ,;\t\r\n") or lines[before].lstrip('"').startswith("#")):
        before += 1
    told = lines[before].strip().lower() if before < len(lines) else ""
    separator = told[4:5] if told.startswith("sep=") and len(told) == 5 else ""
    before += bool(separator)
    if before >= len(lines):
        raise InputError(f"{where} holds no row: the first names the columns")
    found = list(_split(lines[before:], separator or _separator(lines[before]), before, where))
    head, *body = found
    names = tuple(" ".join(cell.split()).casefold() for cell in head.cells)
    while names and not names[-1]:
        names = names[:-1]
    return Rows(names, tuple(row for row in body if any(row.cells)),
                tuple(row.line for row in body if not any(row.cells)), where)


def _bytes_of(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise InputError(f"{path} cannot be read: {error.strerror}") from None


def _text(raw: bytes, where: str) -> str:
    """The bytes as text; what is no text is told with its line."""
    if raw.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        coding, name = "utf-16", "UTF-16"
    else:
        coding, name = "utf-8-sig", "UTF-8"
    try:
        text = raw.decode(coding)
    except UnicodeDecodeError as error:
        line = raw[:error.start].count(b"\n") + 1
        raise InputError(f"{where}, line {line}: byte 0x{raw[error.start]:02x} is no {name}: save the file as "
                         f"\"CSV UTF-8\"") from None
    if "\0" in text:
        raise InputError(f"{where}, line {text[:text.index(chr(0))].count(chr(10)) + 1}: a character 0 stands in it: "
                         f"this is no CSV file, or one in a coding without a byte order mark")
    return text


def _separator(head: str) -> str:
    """What stands between cells: whatever splits the head into the most; a comma where nothing does."""
    parts = {mark: len(next(csv.reader([head], delimiter=mark), [])) for mark in SEPARATORS}
    return max(SEPARATORS, key=lambda mark: parts[mark])


def _split(lines: list[str], separator: str, before: int, where: str) -> list[Row]:
    """Rows with the line each begins on; quotation marks have to close."""
    reader = csv.reader(io.StringIO("".join(lines), newline=""), delimiter=separator, strict=True,
                        skipinitialspace=True)
    rows, begins = [], 1
    try:
        for cells in reader:
            rows.append(Row(begins + before, tuple(cell.strip() for cell in cells)))
            begins = reader.line_num + 1
    except csv.Error as error:
        reason = "a quotation mark opens and does not close" if "end of data" in str(error) else str(error)
        raise InputError(f"{where}, line {begins + before}: {reason}") from None
    return rows
