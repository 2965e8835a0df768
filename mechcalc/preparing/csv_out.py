"""CSV files for spreadsheets.

Only this file decides how they are written: UTF-8 with a byte order mark, so that spreadsheets show every script, and
no cell that a spreadsheet would take for a formula.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from pathlib import Path

from mechcalc.errors import InputError
from mechcalc.whole_files import write_whole

FORMULA = ("=", "+", "-", "@", "\t", "\r")


def csv_bytes(head: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """A table as a file's bytes.

    A text that begins like a formula gets an apostrophe in front, as spreadsheets do it themselves.

    >>> csv_bytes(("name", "answer"), [("=Ada", -22)]).decode("utf-8-sig").splitlines()
    ['name,answer', "'=Ada,-22"]
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    for row in (head, *rows):
        writer.writerow([safe(cell) if isinstance(cell, str) else cell for cell in row])
    return out.getvalue().encode("utf-8-sig")


def safe(text: str) -> str:
    """A text that no spreadsheet runs; a number stays a number."""
    plain = text.strip().lstrip("+-").replace(".", "", 1)
    return f"'{text}" if text.startswith(FORMULA) and not plain.isdecimal() else text


def write_file(path: Path, data: bytes) -> None:
    """Write a file in one step, so that what was there before is replaced whole or not at all.

    Raises
    ------
    InputError
        It cannot be written.
    """
    try:
        write_whole(path, data)
    except OSError as error:
        raise InputError(f"{path} cannot be written: {error.strerror}") from None


def write_folder(folder: Path, files: dict[str, bytes]) -> None:
    """Write files into a folder, which is made if it is not there.

    Raises
    ------
    InputError
        The folder cannot be made, or a file not be written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise InputError(f"{folder} cannot be made: {error.strerror}") from None
    for name, data in files.items():
        write_file(folder / name, data)
