"""Measures of numbers as they are written: the given ones, the answer and the remainder.

Only this file counts figures. None of this needs a turn of the crank.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from itertools import pairwise

from mechcalc.preparing.case import Case
from mechcalc.preparing.measure import Measure, Stage, many


def signed(number: int) -> str:
    """A number with a proper minus sign."""
    return str(number).replace("-", "−")


def _text(case: Case, of: str) -> str:
    return str(abs(case.named[of]))


def _inner_noughts(text: str) -> int:
    return text.rstrip("0").count("0")


def _end_noughts(text: str) -> int:
    return len(text) - len(text.rstrip("0"))


def is_trivial(number: int) -> bool:
    """Whether a number shows too little: it ends in a nought, or all its figures are alike (one figure apart), or is 1.

    >>> [number for number in (1, 7, 10, 77, 120, 347) if is_trivial(number)]
    [1, 10, 77, 120]
    """
    text = str(number)
    return number < 2 or text[-1] == "0" or (len(text) > 1 and len(set(text)) == 1)


def trivial(numbers: tuple[int, ...]) -> int:
    """How many of these numbers are trivial or come a second time."""
    return sum(map(is_trivial, numbers)) + len(numbers) - len(set(numbers))


def blemishes(numbers: tuple[int, ...]) -> int:
    """What makes numbers hard to read or too easy: trivial ones, a figure beside its like, a 6 and a 9 in one number.

    >>> blemishes((347, 26)), blemishes((447, 20)), blemishes((69, 69))
    (0, 2, 3)
    """
    texts = list(map(str, numbers))
    beside = sum(one == other for text in texts for one, other in pairwise(text))
    return trivial(numbers) + beside + sum("6" in text and "9" in text for text in texts)


def _hidden(case: Case) -> list[str]:
    """Slips that come to the right answer, and so would not be seen."""
    return [slip.name for slip in case.task.slips if slip.comes_to(case) == case.exact.answer]


def _alike(case: Case) -> list[str]:
    """Slips that come to the right answer or to what another slip comes to."""
    wrong = {slip.name: slip.comes_to(case) for slip in case.task.slips}
    common = Counter(number for number in wrong.values() if number is not None)
    return [name for name, number in wrong.items()
            if number is not None and (common[number] > 1 or number == case.exact.answer)]


def _slip_words(case: Case) -> str:
    wrong = [f"{signed(number)} if {slip.name}" for slip in case.task.slips
             if (number := slip.comes_to(case)) is not None]
    return f"The answer is {signed(case.exact.answer)}; a slip gives {', '.join(wrong) or 'nothing else'}"


def _spare(case: Case, of: str) -> int:
    if case.exact.answer < 0:
        return 0
    return case.spec.result_places - len(str(case.exact.answer))


def _of(name: str, says: str, count: Callable[[str], int], words: Callable[[int], str]) -> Measure:
    """A measure of the figures of a number."""
    return Measure(name=name, says=says, stage=Stage.FIGURES, of_number=True,
                   value=lambda case, of: count(_text(case, of)),
                   words=lambda case, of, value: f"The {of}, {signed(case.named[of])}, {words(value)}.")


FIGURES: tuple[Measure, ...] = (
    Measure(name="value", says="the number itself; write 'multiplier >= 50'", stage=Stage.FIGURES, of_number=True,
            value=lambda case, of: case.named[of],
            words=lambda case, of, value: f"The {of} is {signed(value)}."),
    _of("figures", "how many figures a number has", len, lambda value: f"has {many(value, 'figure')}"),
    _of("noughts", "noughts among the figures of a number", lambda text: text.count("0"),
        lambda value: f"has {many(value, 'nought')}"),
    _of("inner noughts", "noughts that have another figure somewhere on either side", _inner_noughts,
        lambda value: f"has {many(value, 'nought')} inside"),
    _of("end noughts", "noughts at the end of a number", _end_noughts,
        lambda value: f"has {many(value, 'nought')} at its end"),
    _of("repeated figures", "figures that have stood in the number already", lambda text: len(text) - len(set(text)),
        lambda value: f"repeats {many(value, 'figure')}"),
    _of("sixes and nines", "6s and 9s in a number, which are taken for each other upside down",
        lambda text: text.count("6") + text.count("9"), lambda value: f"has {many(value, '6 or 9', '6s or 9s')}"),
    _of("largest figure", "the largest figure of a number", lambda text: int(max(text)),
        lambda value: f"has {value} as its largest figure"),
    _of("smallest figure", "the smallest figure of a number", lambda text: int(min(text)),
        lambda value: f"has {value} as its smallest figure"),
    _of("figure sum", "the figures of a number added up", lambda text: sum(map(int, text)),
        lambda value: f"has figures that add up to {value}"),
    Measure(name="spare wheels", says="number wheels that the answer leaves over in front", stage=Stage.FIGURES,
            value=_spare, goes_with=lambda task: task.answer_name in ("sum", "difference", "product"),
            most=lambda spec: spec.result_places,
            words=lambda case, of, value: f"The answer, {signed(case.exact.answer)}, leaves {many(value, 'wheel')} of "
                                          f"{case.spec.result_places} over."),
    Measure(name="trivial numbers", says="numbers that end in a nought, have all figures alike, are 1, or come twice",
            stage=Stage.FIGURES, value=lambda case, of: trivial(case.numbers),
            words=lambda case, of, value: f"Of {', '.join(map(str, case.numbers))} {value or 'none'} "
                                          f"{'are' if value > 1 else 'is'} trivial."),
    Measure(name="slips hidden", says="usual slips that would come to the right answer all the same",
            stage=Stage.FIGURES, value=lambda case, of: len(_hidden(case)), goes_with=lambda task: bool(task.slips),
            words=lambda case, of, value: f"{_slip_words(case)}."),
    Measure(name="slips alike", says="usual slips that come to the right answer, or to the same as another slip",
            stage=Stage.FIGURES, value=lambda case, of: len(_alike(case)), goes_with=lambda task: bool(task.slips),
            words=lambda case, of, value: f"{_slip_words(case)}{': all different' * (not value)}."),
)
