"""What a learner may write down: whole numbers, rows of digits, words, and several of these together.

Only this file decides what counts as an answer. Reading is generous where the meaning is plain (``"9 022"`` is 9022)
and says in one line what is wanted where it is not.
"""

from __future__ import annotations

import operator
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Protocol

from mechcalc.numbers import is_truth, shown

LONGEST = 60  # characters of a number written as text
SPACES = "[ _'’\u00a0\u2009\u202f]"


class Unreadable(ValueError):
    """What was written down is no answer of the kind that is asked for; the message says what is."""


class Kind(Protocol):
    """A kind of answer."""

    @property
    def wanted(self) -> str:
        """What a valid answer looks like, for the end of a sentence."""

    def read(self, given: Any) -> Any:
        """The answer in its plain form, or `Unreadable`."""


@dataclass(frozen=True, slots=True)
class Number:
    """A whole number, 0 or more; as a text too, with spaces or commas between groups of three.

    >>> Number().read("9 022")
    9022
    >>> Number().read(9022.0)
    Traceback (most recent call last):
        ...
    mechcalc.classroom.answers.Unreadable: Write it without a decimal point: 9022.
    """

    example: int = 1234

    @property
    def wanted(self) -> str:
        return f"a whole number, such as {self.example}"

    def read(self, given: Any) -> int:
        if is_truth(given):
            raise Unreadable(f"{shown(given)} is no number here. Write {self.wanted}.")
        if isinstance(given, str):
            return self._from_text(given)
        try:
            number = operator.index(given)
        except TypeError:
            raise Unreadable(self._not_whole(given)) from None
        if number < 0:
            raise Unreadable("The windows of the machine know no minus sign. Write what they show: 0 or more.")
        return number

    def _from_text(self, given: str) -> int:
        plain = re.sub(SPACES, "", given.strip())
        if re.fullmatch(r"[0-9]{1,3}(,[0-9]{3})+", plain):
            plain = plain.replace(",", "")
        if re.fullmatch(r"[-−–][0-9]+", plain):
            return self.read(-1)
        if not re.fullmatch(r"[0-9]+", plain) or len(plain) > LONGEST:
            raise Unreadable(f"{shown(given)} cannot be read as a number. Write {self.wanted}, without quotes.")
        return int(plain)

    def _not_whole(self, given: Any) -> str:
        if isinstance(given, float):
            if given.is_integer() and abs(given) < 2**53:
                return f"Write it without a decimal point: {int(given)}."
            return f"The wheels show whole numbers only, and {shown(given)} is none. Write {self.wanted}."
        return f"{shown(given)} ({type(given).__name__}) is no number. Write {self.wanted}."


@dataclass(frozen=True, slots=True)
class Digits:
    """The digits of a register, units first, as a tuple or a list.

    >>> Digits(4).read([7, 4, 3, 0])
    (7, 4, 3, 0)
    >>> Digits(4).read(347)
    Traceback (most recent call last):
        ...
    mechcalc.classroom.answers.Unreadable: Write 4 digits, units first, in brackets, such as (4, 3, 2, 1).
    """

    places: int

    @property
    def wanted(self) -> str:
        row = [digit % 10 for digit in range(self.places, 0, -1)]
        return f"{self.places} digits, units first, in brackets, such as ({', '.join(map(str, row))})"

    def read(self, given: Any) -> tuple[int, ...]:
        if isinstance(given, (str, bytes, dict, set, frozenset)) or not isinstance(given, Iterable):
            raise Unreadable(f"Write {self.wanted}.")
        row = [digit for digit, _ in zip(given, range(self.places + 1), strict=False)]
        if len(row) != self.places:
            many = f"you gave {len(row)}" if len(row) < self.places else "you gave more"
            raise Unreadable(f"One digit for each place: {self.places} of them; {many}. Write {self.wanted}.")
        digits = tuple(Number(example=7).read(digit) for digit in row)
        for place, digit in enumerate(digits, start=1):
            if digit > 9:
                raise Unreadable(f"A wheel shows one digit, 0 to 9: place {place} cannot be {shown(digit)}.")
        return digits


@dataclass(frozen=True, slots=True, init=False)
class Choice:
    """One of a few words; capitals and spaces around it do not matter.

    >>> Choice("before", "after").read(" Before ")
    'before'
    """

    words: tuple[str, ...]

    def __init__(self, *words: str) -> None:
        object.__setattr__(self, "words", words)

    @property
    def wanted(self) -> str:
        quoted = [f'"{word}"' for word in self.words]
        return f"{', '.join(quoted[:-1])} or {quoted[-1]}"

    def read(self, given: Any) -> str:
        if is_truth(given) and self.words == YES_OR_NO.words:
            return "yes" if given else "no"
        said = " ".join(given.split()).casefold() if isinstance(given, str) else None
        for word in self.words:
            if said == word.casefold():
                return word
        raise Unreadable(f"Write one of these, quotes included: {self.wanted}.")


YES_OR_NO = Choice("yes", "no")


@dataclass(frozen=True, slots=True, init=False)
class Several:
    """Several answers at once, in order, each under its name.

    >>> Several(result=Number(), bell=YES_OR_NO).read((1000, "No"))
    (1000, 'no')
    """

    parts: tuple[tuple[str, Kind], ...]

    def __init__(self, **parts: Kind) -> None:
        object.__setattr__(self, "parts", tuple((name.replace("_", " "), kind) for name, kind in parts.items()))

    @property
    def names(self) -> tuple[str, ...]:
        """The parts' names, as they are said."""
        return tuple(name for name, _ in self.parts)

    @property
    def wanted(self) -> str:
        said = "; ".join(f"{name}: {kind.wanted}" for name, kind in self.parts)
        return f"{len(self.parts)} answers in brackets ({', '.join(self.names)}). {said[:1].upper()}{said[1:]}"

    def read(self, given: Any) -> tuple[Any, ...]:
        if not isinstance(given, (tuple, list)) or len(given) != len(self.parts):
            raise Unreadable(f"Write {self.wanted}.")
        answers = []
        for (name, kind), part in zip(self.parts, given, strict=True):
            try:
                if part is None:
                    raise Unreadable(f"Still None. Write {kind.wanted}.")
                answers.append(kind.read(part))
            except Unreadable as line:
                raise Unreadable(f"Under \"{name}\": {line}") from None
        return tuple(answers)


def plainly(answer: Any) -> str:
    """An answer as the feedback shows it.

    >>> plainly((1000, "no")), plainly((7, 4))
    ('1000, no', '7, 4')
    """
    if isinstance(answer, tuple):
        return ", ".join(f"({plainly(part)})" if isinstance(part, tuple) else plainly(part) for part in answer)
    return str(answer)
