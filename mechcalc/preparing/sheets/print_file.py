"""Sheets and key as PDF.

Only this file talks to the typesetter (typst, a package of one self-contained wheel; `DEVELOPERS.md` says why this
one). The files it writes hold real text in embedded fonts and are tagged (PDF/UA-1), so a reader for the blind can
read them. The typesetter's own fonts cover Latin with all its accents, Greek, Cyrillic and Hebrew; for other scripts
it takes the fonts of the system, or of a folder that is named. A text for which there is no font at all is never
printed as empty boxes: a name becomes a line to write on, and is reported.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from os import PathLike
from pathlib import Path
from typing import Any, Literal

from mechcalc.errors import InputError
from mechcalc.preparing.class_list import Learner
from mechcalc.preparing.sheets.content import KEY_HEADS, class_key_content, head_content, key_content, sheet_content
from mechcalc.preparing.sheets.worksheets import Worksheets

HERE = Path(__file__).parent
STANDARD: Literal["ua-1"] = "ua-1"
TRIAL = '#set document(title: "trial")\n#set text(lang: "en", font: "Libertinus Serif")\n#sys.inputs.at("trial")'


@dataclass(frozen=True, slots=True)
class Fonts:
    """Where the typesetter looks for fonts besides its own.

    Attributes
    ----------
    folders : tuple of path
        Folders with font files.
    system : bool
        Whether the fonts of this computer are taken too.
    """

    folders: tuple[str | PathLike[str], ...] = ()
    system: bool = True

    def options(self) -> dict[str, Any]:
        """As the typesetter takes them."""
        missing = [str(folder) for folder in self.folders if not Path(folder).is_dir()]
        if missing:
            raise InputError(f"{missing[0]} is no folder with fonts")
        return {"font_paths": [str(folder) for folder in self.folders], "ignore_system_fonts": not self.system}


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


def printable(text: str, fonts: Fonts | None = None) -> bool:
    """Whether there is a font for every character of a text.

    >>> printable("Łukasz, Đặng, Ольга, Ἀλέξανδρος", Fonts(system=False))
    True
    >>> printable("李", Fonts(system=False))
    False
    """
    if all(" " <= mark <= "~" for mark in text):
        return True
    return not lacks(TRIAL.encode(), {"trial": text}, fonts or Fonts())


def printable_texts(texts: Iterable[str], fonts: Fonts) -> list[str]:
    """Texts with every character that no font has written as its number."""
    return [text if printable(text, fonts) else
            "".join(mark if printable(mark, fonts) else f"[U+{ord(mark):04X}]" for mark in text) for text in texts]


def lacks(source: bytes, inputs: dict[str, str], fonts: Fonts) -> str:
    """What the typesetter found no font for; empty where it found one for everything."""
    import typst
    try:
        typst.compile(source, format="pdf", sys_inputs=inputs, pdf_standards=STANDARD, **fonts.options())
    except typst.TypstError as error:
        found = re.search(r"the text `\"(.*)\"` could not be displayed", str(error), re.S)
        if found is None:
            raise
        return found[1]
    return ""


def _typeset(template: str, content: dict[str, Any], fonts: Fonts) -> bytes:
    """A PDF from a template beside this file."""
    import typst
    try:
        made = typst.compile(str(HERE / template), format="pdf", sys_inputs={"content": json.dumps(content)},
                             pdf_standards=STANDARD, **fonts.options())
    except typst.TypstError as error:
        found = re.search(r"the text `\"(.*)\"` could not be displayed", str(error), re.S)
        if found is None:
            raise
        raise InputError(f"no font here has {found[1]!r}, which stands in the title, a note or a question: name a "
                         f"folder with a font that has it, or choose other words") from None
    return made


def pages(made: Worksheets, fonts: Fonts | None = None, *, ppi: float = 110.0) -> Sequence[bytes]:
    """The sheets' pages as PNG, for a look in a notebook."""
    import typst
    shown, _ = with_printable_names(made, fonts or Fonts())
    content = {"head": head_content(shown), "sheets": [sheet_content(shown, one) for one in shown.variants]}
    found = typst.compile(str(HERE / "sheets.typ"), format="png", ppi=ppi, sys_inputs={"content": json.dumps(content)},
                          **(fonts or Fonts()).options())
    return [found] if isinstance(found, bytes) else list(found)
