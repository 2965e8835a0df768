"""From a template and plain data to PDF.

Only this file talks to the typesetter (typst, a package of one self-contained wheel). The files it writes hold real
text in embedded fonts and are tagged (PDF/UA-1), so a reader for the blind can read them. The typesetter's own fonts
cover Latin with all its accents, Greek, Cyrillic and Hebrew; for other scripts it takes the fonts of the system, or of
a folder that is named. A text for which there is no font at all is never printed as empty boxes.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from dataclasses import dataclass
from importlib.util import find_spec
from os import PathLike
from pathlib import Path
from typing import Any, Literal

from mechcalc.errors import InputError

STANDARD: Literal["ua-1"] = "ua-1"
TRIAL = '#set document(title: "trial")\n#set text(lang: "en", font: "Libertinus Serif")\n#sys.inputs.at("trial")'
NO_TYPESETTER = ("this Python has no typesetter (the package typst; the kit's own environment has it). The HTML page "
                 "prints the same from a browser")


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


def can_typeset() -> bool:
    """Whether the typesetter is installed."""
    return find_spec("typst") is not None


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
        return _missing(error)
    return ""


def _missing(error: Exception) -> str:
    """The text without a font; any other error of the typesetter is raised again."""
    found = re.search(r"the text `\"(.*)\"` could not be displayed", str(error), re.S)
    if found is None:
        raise error
    return found[1]


def typeset(template: Path, content: dict[str, Any], fonts: Fonts, where: str) -> bytes:
    """A PDF from a template and its content.

    Parameters
    ----------
    template : path
        It reads the content with ``json(bytes(sys.inputs.at("content")))``.
    content : dict
        Plain data.
    fonts : Fonts
    where : str
        What a text without a font may stand in, for the message.

    Raises
    ------
    InputError
        A text for which there is no font.
    ModuleNotFoundError
        The typesetter is not installed.
    """
    import typst
    try:
        return typst.compile(str(template), format="pdf", sys_inputs={"content": json.dumps(content)},
                             pdf_standards=STANDARD, **fonts.options())
    except typst.TypstError as error:
        raise InputError(f"no font here has {_missing(error)!r}, which stands in {where}: name a folder with a font "
                         f"that has it, or choose other words") from None


def pictures(template: Path, content: dict[str, Any], fonts: Fonts, ppi: float) -> list[bytes]:
    """The same pages as PNG, for a look in a notebook."""
    import typst
    found = typst.compile(str(template), format="png", ppi=ppi, sys_inputs={"content": json.dumps(content)},
                          **fonts.options())
    return [found] if isinstance(found, bytes) else list(found)
