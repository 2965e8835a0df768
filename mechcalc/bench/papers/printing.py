"""A paper for the bench as a file: HTML or PDF, by the file's ending.

Only this file decides what becomes of a text that no font can print: each such character is written as its number.
"""

from __future__ import annotations

from collections.abc import Iterator
from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc.bench.papers.web_page import SIZES, web_page
from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.printing.typesetting import (
    NO_TYPESETTER,
    Fonts,
    can_typeset,
    pictures,
    printable,
    printable_texts,
    typeset,
)
from mechcalc.whole_files import write_whole

TEMPLATE = Path(__file__).parent / "paper.typ"
Paper = dict[str, Any]


def checked_size(paper: str) -> str:
    """The name of a paper size, if it is one."""
    if paper not in SIZES:
        raise InputError(f"the paper {shown(paper)} is none: {' or '.join(SIZES)}")
    return paper


def pdf(paper: Paper, fonts: Fonts | None = None) -> bytes:
    """The paper as PDF.

    Raises
    ------
    InputError
        There is no typesetter here.
    """
    if not can_typeset():
        raise InputError(f"no PDF can be made: {NO_TYPESETTER}")
    fonts = fonts or Fonts()
    return typeset(TEMPLATE, _printable(paper, fonts), fonts, "the paper")


def pages(paper: Paper, fonts: Fonts | None = None, *, ppi: float = 110.0) -> list[bytes]:
    """The pages as PNG, for a look in a notebook."""
    fonts = fonts or Fonts()
    return pictures(TEMPLATE, _printable(paper, fonts), fonts, ppi)


def _printable(paper: Paper, fonts: Fonts) -> Paper:
    """The same data with texts that can be printed."""
    rare = sorted({mark for text in _texts(paper) for mark in text if not mark.isascii()})
    if printable("".join(rare), fonts):
        return paper
    instead = {mark: printable_texts([mark], fonts)[0] for mark in rare}
    told: Paper = _changed(paper, str.maketrans(instead))
    return told


def _texts(value: Any) -> Iterator[str]:
    """Every text in plain data."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, (list, tuple, dict)):
        for one in value.values() if isinstance(value, dict) else value:
            yield from _texts(one)


def _changed(value: Any, marks: dict[int, str]) -> Any:
    if isinstance(value, str):
        return value.translate(marks)
    if isinstance(value, dict):
        return {key: _changed(one, marks) for key, one in value.items()}
    return [_changed(one, marks) for one in value] if isinstance(value, (list, tuple)) else value


def write_paper(paper: Paper, path: str | PathLike[str], *, replace: bool = False, fonts: Fonts | None = None) -> Path:
    """Write a paper to a file; its ending, ``.html`` or ``.pdf``, says as what.

    Raises
    ------
    InputError
        Another ending, a file that is there and may not be replaced, or one that cannot be written.
    """
    path = Path(path)
    if path.suffix not in (".html", ".pdf"):
        raise InputError(f"{path}: the file's ending says what is written, .html or .pdf")
    if path.exists() and not replace:
        raise InputError(f"{path} is there already: choose another name, or say that it may be replaced")
    data = web_page(paper).encode() if path.suffix == ".html" else pdf(paper, fonts)
    try:
        write_whole(path, data)
    except OSError as error:
        raise InputError(f"{path} cannot be written: {error.strerror}") from None
    return path
