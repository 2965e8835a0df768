"""The code that ties a sheet to its key: short, easy to read out, and hard to get wrong.

Only this file decides what a code looks like: ``K7M-07-5`` is sheet 7 of the set K7M, and the 5 checks the rest. Its 31
characters are the digits and the letters without I, L, O, S and U, which handwriting takes for digits or for V.
Because 31 is a prime, weights that differ modulo 31 make the check character find every single wrong character and
every swap of two characters, neighbours or not.
"""

from __future__ import annotations

import hashlib
import re

from mechcalc.errors import InputError
from mechcalc.numbers import shown, whole

ALPHABET = "0123456789ABCDEFGHJKMNPQRTVWXYZ"
MISREAD = str.maketrans("ILOSU", "1105V")
TAG = 3
MOST_SHEETS = 999


def tag_of(*parts: str) -> str:
    """Three characters that stand for a set of sheets: the same texts always give the same ones.

    >>> tag_of("multiplying", "2026") == tag_of("multiplying", "2026") != tag_of("multiplying", "2027")
    True
    """
    number = int.from_bytes(hashlib.sha256("\0".join(parts).encode()).digest()[:8], "big")
    tag = ""
    for _ in range(TAG):
        number, place = divmod(number, len(ALPHABET))
        tag += ALPHABET[place]
    return tag


def check_character(characters: str) -> str:
    """The character that makes the weighted sum of all come to 0 modulo 31; weights 2, 3, 4, ... from the left.

    >>> check_character("K7M07")
    '5'
    """
    total = sum(weight * ALPHABET.index(mark) for weight, mark in enumerate(characters, start=2))
    return ALPHABET[-total % len(ALPHABET)]


def code_of(tag: str, number: int) -> str:
    """The code of a sheet of a set.

    >>> code_of("K7M", 7)
    'K7M-07-5'
    """
    number = whole(number, "a sheet's number", 1, MOST_SHEETS)
    plain = f"{tag}{number:02d}"
    return f"{tag}-{number:02d}-{check_character(plain)}"


def read_code(text: str) -> str:
    """A code as somebody typed it, in its proper form.

    Small letters, spaces and other hyphens are taken; the letters that are not used are taken for what they look like.

    Raises
    ------
    InputError
        It is no code, or its check character does not fit.

    Examples
    --------
    >>> read_code(" k7m 07s ")
    'K7M-07-5'
    >>> read_code("K7M-01-5")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: 'K7M-01-5' is misread somewhere: a character is wrong, or two have \
changed places
    """
    plain = re.sub(r"[\s\-_.\u2010-\u2015\u2212]", "", text).upper().translate(MISREAD)
    form = re.fullmatch(rf"([{ALPHABET}]{{{TAG}}})([0-9]{{2}}|[1-9][0-9]{{2}})([{ALPHABET}])", plain)
    if not form:
        raise InputError(f"{shown(text)} is no code of a sheet: codes look like {code_of('K7M', 7)}")
    tag, number, check = form.groups()
    if check != check_character(tag + number):
        raise InputError(f"{shown(text)} is misread somewhere: a character is wrong, or two have changed places")
    return f"{tag}-{number}-{check}"
