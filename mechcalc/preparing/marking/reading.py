"""One answer as somebody typed it, read as a number.

Only this file decides what counts as a number. It is generous where the meaning is plain: spaces, points, commas and
apostrophes between groups of three, a decimal point or comma, noughts in front (windows show them), a minus of any
kind, digits of any script, a word of unit behind. Where a text can be read in two ways, both readings are handed back,
the likelier first.
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

LONGEST = 60
SPACES = "\u00a0\u2007\u2009\u202f\t"
MINUS = "-\u2010\u2011\u2012\u2013\u2212\ufe63\uff0d"
GROUPS = re.compile(r"\d{1,3}(?:([ '.,])\d{3})(?:\1\d{3})*")


class Unreadable(ValueError):
    """A text that is no number; the message says why."""


def readings(text: str, decimals: bool = False) -> tuple[Fraction, ...]:
    """What a text may mean.

    Parameters
    ----------
    text : str
        A cell.
    decimals : bool
        Whether the right answer has decimals, so that 1,234 is more likely to have some too.

    Raises
    ------
    Unreadable
        It is no number.

    Examples
    --------
    >>> readings("9 022"), readings("'0009022 "), readings('="9022"')
    ((Fraction(9022, 1),), (Fraction(9022, 1),), (Fraction(9022, 1),))
    >>> readings("1.234,5"), readings("3,14")
    ((Fraction(2469, 2),), (Fraction(157, 50),))
    >>> readings("9,022"), readings("9,022", decimals=True)[0]
    ((Fraction(9022, 1), Fraction(4511, 500)), Fraction(4511, 500))
    >>> readings("9.3E+10")
    Traceback (most recent call last):
        ...
    mechcalc.preparing.marking.reading.Unreadable: a spreadsheet has rounded it: format the cells as text
    """
    plain = _plain(text)
    signed = re.fullmatch(r"([-+]?) ?(\d[\d .,']*)", plain)
    if not signed:
        raise Unreadable(_reason(plain))
    sign, body = (-1 if signed[1] == "-" else 1), signed[2].strip()
    found = _readings(body, decimals)
    if not found:
        raise Unreadable("it may be more than one number" if " " in body else
                         "its points and commas stand where no number has them")
    return tuple(sign * number for number in found)


def _plain(text: str) -> str:
    """The text with what spreadsheets and keyboards add taken off, and every digit as 0 to 9."""
    for space in SPACES:
        text = text.replace(space, " ")
    text = text.strip()
    if quoted := re.fullmatch(r'="?(.*?)"?', text):
        text = quoted[1]
    text = text.strip(" '\"‘’“”").replace("’", "'").replace("٫", ".").replace("٬", ",")
    for minus in MINUS[1:]:
        text = text.replace(minus, "-")
    if len(text) > LONGEST:
        raise Unreadable(f"it has {len(text)} characters")
    text = "".join(str(unicodedata.digit(mark)) if mark.isdigit() and not mark.isascii() else mark for mark in text)
    if re.fullmatch(r"[-+]?\d+(?:[.,]\d+)?[eE][-+]?\d+", text):
        raise Unreadable("a spreadsheet has rounded it: format the cells as text")
    return re.sub(r"(?<=[\d ])[^\W\d_]+\.?$", "", text).strip()


def _reason(plain: str) -> str:
    if not plain:
        return "nothing but a word"
    if set(plain) == {"#"} or re.fullmatch(r"#[A-Z/0!?]+", plain):
        return "a spreadsheet's sign for a cell that it cannot show"
    if len(re.findall(r"\d+", plain)) > 1:
        return "it may be more than one number"
    return "it is no number"


def _readings(body: str, decimals: bool) -> list[Fraction]:
    """All the numbers that digits with spaces, points, commas and apostrophes can stand for, the likelier first."""
    if re.fullmatch(r"\d(?: \d)+", body):  # digits copied window by window
        body = body.replace(" ", "")
    if body.isdecimal():
        return [Fraction(int(body))]
    found = []
    if (whole := GROUPS.fullmatch(body)) and _one_mark(body):
        found.append((whole[1] in ".," and decimals, Fraction(int(re.sub(r"\D", "", body)))))
    if parts := re.fullmatch(r"([\d .,']+)([.,])(\d+)", body):
        front, mark, behind = parts.groups()
        grouped = GROUPS.fullmatch(front)
        if front.isdecimal() or (grouped and _one_mark(front) and mark not in front):
            number = Fraction(int(re.sub(r"\D", "", front) + behind), 10**len(behind))
            found.append((not decimals and bool(found), number))
    return [number for _, number in sorted(found, key=lambda pair: pair[0])]


def _one_mark(text: str) -> bool:
    return len(set(re.sub(r"\d", "", text))) == 1
