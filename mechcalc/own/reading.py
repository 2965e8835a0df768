"""What somebody typed, as a value.

Only this file decides how an answer is written: whole numbers, degrees with a point or a comma, yes and no, and a
question mark behind what is a guess.
"""

from __future__ import annotations

import re
from typing import Any

from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.own.questions import ANGLE, CHOICE, COUNT, MEASURED, USUAL, WORDS, YES_OR_NO, Question

LONGEST = 400  # of a note; whoever has more to say keeps a book
SAID = {"yes": True, "y": True, "true": True, "no": False, "n": False, "false": False}


def read(question: Question, text: str) -> tuple[Any, bool]:
    """An answer as its value, and whether it is a guess.

    Parameters
    ----------
    question : Question
        What was asked.
    text : str
        What was typed; not empty.

    Raises
    ------
    InputError
        It is no answer to such a question; with an answer that would be one. Whether a number is in range is not
        looked at here.

    Examples
    --------
    >>> from mechcalc.own.questions import BY_FIELD
    >>> read(BY_FIELD["setting_places"], " 9 ?"), read(BY_FIELD["gap"], "4,5°"), read(BY_FIELD["counter_carry"], "Yes")
    ((9, True), (4.5, False), (True, False))
    >>> read(BY_FIELD["setting_places"], "nine")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: 'nine' is no whole number: write figures, such as 9
    """
    said = text.strip()
    if len(said) > LONGEST:
        raise InputError(f"{len(said)} characters are too many: there is room for {LONGEST}")
    if question.kind == WORDS:
        return said, False
    guessed = said.endswith("?")
    said = said.removesuffix("?").strip()
    return READERS[question.kind](question, said), guessed


def _count(question: Question, said: str) -> int:
    if not re.fullmatch(r"[+-]?[0-9]+", said):
        raise InputError(f"{shown(said)} is no whole number: write figures, such as {question.example}")
    return int(said)


def _degrees(question: Question, said: str) -> float:
    number = re.sub(r"\s*(°|deg|degrees)$", "", said).replace(",", ".")
    if not re.fullmatch(r"[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)", number):
        raise InputError(f"{shown(said)} is no number of degrees: write figures, such as {question.example} or "
                         f"{question.example}.5")
    return float(number)


def _truth(question: Question, said: str) -> bool:
    if said.casefold() not in SAID:
        raise InputError(f"{shown(said)} is neither yes nor no")
    return SAID[said.casefold()]


def _choice(question: Question, said: str) -> str:
    if said.casefold() not in (USUAL, MEASURED):
        raise InputError(f"{shown(said)} is neither {USUAL!r} nor {MEASURED!r}")
    return said.casefold()


READERS = {COUNT: _count, ANGLE: _degrees, YES_OR_NO: _truth, CHOICE: _choice}


def typed(value: Any) -> str:
    """A value as somebody would type it; what `read` turns into the same.

    >>> typed(True), typed(9), typed(7.5), typed(15.0), typed("9?")
    ('yes', '9', '7.5', '15', '9?')
    """
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.15g}" if value == float(f"{value:.15g}") else repr(value)
    return str(value)
