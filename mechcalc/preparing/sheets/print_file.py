"""Sheets and key as PDF.

Only this file makes them; `mechcalc.printing.typesetting` has the typesetter and the fonts. A name for which there is
no font becomes a line to write on, and is reported.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from mechcalc.preparing.class_list import Learner
from mechcalc.preparing.sheets.content import KEY_HEADS, class_key_content, head_content, key_content, sheet_content
from mechcalc.preparing.sheets.worksheets import Worksheets
from mechcalc.printing.typesetting import Fonts, pictures, printable, printable_texts, typeset

HERE = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class Printed:
    """What came of printing.

    Attributes
    ----------
    data : bytes
        The PDF.
    by_hand : tuple of Learner
        Those whose names no font could print: their sheets have a line for the name.
    """

    data: bytes
    by_hand: tuple[Learner, ...]


def sheets_pdf(made: Worksheets, fonts: Fonts | None = None) -> Printed:
    """All sheets of a set, each beginning on a page of its own.

    Raises
    ------
    InputError
        A text of the sheet itself (title, notes) for which there is no font.
    ModuleNotFoundError
        The typesetter is not installed.
    """
    shown, by_hand = with_printable_names(made, fonts or Fonts())
    content = {"head": head_content(shown), "sheets": [sheet_content(shown, one) for one in shown.variants]}
    return Printed(_typeset("sheets.typ", content, fonts or Fonts()), by_hand)


def key_pdf(made: Worksheets, fonts: Fonts | None = None) -> Printed:
    """The key: tables of the class, then the strokes of every sheet, each beginning on a page of its own."""
    shown, by_hand = with_printable_names(made, fonts or Fonts(), "(no font for this name)")
    head = head_content(shown) | {"stroke-heads": list(KEY_HEADS), "left-out": [str(bad) for bad in made.left_out],
                                  "summary": summary(made)}
    head["left-out"] = printable_texts(head["left-out"], fonts or Fonts())
    content = {"head": head, "tables": class_key_content(shown), "keys": [key_content(one) for one in shown.variants]}
    return Printed(_typeset("key.typ", content, fonts or Fonts()), by_hand)


def summary(made: Worksheets) -> str:
    """What the key says of the set as a whole."""
    return (f"{len(made)} sheet{'s' * (len(made) != 1)}, seed {made.seed}. Every answer was read off a machine that "
            "was cranked for it. A stroke is one movement of the hand; turns that follow each other in one place "
            "share a line.")


def with_printable_names(made: Worksheets, fonts: Fonts, instead: str = "") -> tuple[Worksheets, tuple[Learner, ...]]:
    """The set with names and groups that can be printed, and the learners for whom one was left out."""
    texts = {text for one in made.variants for text in (one.learner.name, one.learner.group) if text}
    lacking = {text for text in texts if not printable(text, fonts)}
    if not lacking:
        return made, ()
    variants, by_hand = [], []
    for one in made.variants:
        name, group = (text if text not in lacking else instead for text in (one.learner.name, one.learner.group))
        if (name, group) != (one.learner.name, one.learner.group):
            by_hand.append(one.learner)
        variants.append(replace(one, learner=replace(one.learner, name=name, group=group)))
    return replace(made, variants=tuple(variants)), tuple(by_hand)


def _typeset(template: str, content: dict[str, Any], fonts: Fonts) -> bytes:
    """A PDF from a template beside this file."""
    return typeset(HERE / template, content, fonts, "the title, a note or a question")


def pages(made: Worksheets, fonts: Fonts | None = None, *, ppi: float = 110.0) -> Sequence[bytes]:
    """The sheets' pages as PNG, for a look in a notebook."""
    shown, _ = with_printable_names(made, fonts or Fonts())
    content = {"head": head_content(shown), "sheets": [sheet_content(shown, one) for one in shown.variants]}
    return pictures(HERE / "sheets.typ", content, fonts or Fonts(), ppi)
