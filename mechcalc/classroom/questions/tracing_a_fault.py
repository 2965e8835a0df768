"""The exercises of the lesson "Tracing a fault".

Only this file holds their questions, and traces the machines that answer them.
"""

from __future__ import annotations

from math import comb

import numpy as np

from mechcalc.bench import CarryPinGone
from mechcalc.bench.choosing import information
from mechcalc.classroom.answers import Choice, Number, Several
from mechcalc.classroom.covers import book
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.tracing_steps import by_advice, standing, with_a_slip

EIGHT = {"A": (0, 1, 1, 1, 1, 1, 1, 1), "B": (0, 0, 0, 0, 1, 1, 1, 1), "C": (0, 0, 1, 1, 2, 2, 2, 2)}
PLAIN = ("counter finger gone", "clearing tooth gone", "number pin stuck out")
MISSING = ("number pin gone", "idler tooth lost")
PEN = ("struck out", "kept, if one reading was wrong", "kept, with nothing wrong")


def _bits(answers: tuple[int, ...]) -> float:
    """What a test promises if all suspects are equally likely."""
    return float(information(np.array([answers]), np.full(len(answers), 1 / len(answers)))[0])


def _most() -> str:
    return max(EIGHT, key=lambda test: _bits(EIGHT[test]))


def _case_one(step: int = 0) -> tuple[str, int]:
    """Kind and wheel (or place) in case 1; a kind further on that it is not, with `step`."""
    (fault,) = by_advice(1)
    kind = PLAIN[(PLAIN.index(fault.name) + step) % len(PLAIN)]
    return kind, getattr(fault, "wheel", getattr(fault, "place", 0))


def _case_five() -> tuple[str, int]:
    (fault,) = by_advice(5)
    return fault.name, fault.to_dict()["place"]


def _other_kind(kind: str) -> str:
    return MISSING[1 - MISSING.index(kind)]


def _pen() -> str:
    fault = CarryPinGone(place=3, direction=1)
    return PEN[{None: 0, 1: 1, 0: 2}[standing(with_a_slip("slate", fault), fault)]]


def _many() -> int:
    return len(book("slate").faults)


EXERCISES = (
    Exercise(
        label="worth in bits",
        question="Eight suspects are equally likely. A test divides them into four groups of two. How many bits is "
                 "it worth?",
        kind=Number(example=7),
        right=lambda: round(_bits((0, 0, 1, 1, 2, 2, 3, 3))),
        praise="Four equal groups are worth as much as two fair questions with yes or no.",
        slips=(
            Slip(answer=lambda: 4, says="That is the number of groups. How often do you halve to come to one of four?"),
            Slip(answer=lambda: 3, says="That would single out one of the eight. Two are left in each group."),
            Slip(answer=lambda: 1, says="One bit halves the suspects. What is left of eight here?"),
        ),
        nudges=("A bit is one fair halving. From eight suspects to two: how many halvings?",
                "Eight, four, two.")),
    Exercise(
        label="the best question",
        question="Eight suspects, equally likely. Test A singles out one from the other seven. Test B divides four "
                 "and four. Test C divides two, two and four. Which test is worth most? Write \"A\", \"B\" or \"C\".",
        kind=Choice("A", "B", "C"),
        right=_most,
        praise="It does all that B does, and more.",
        slips=(
            Slip(answer=lambda: "A", says="It may hit at once, once in eight times. And otherwise seven are left."),
            Slip(answer=lambda: "B", says="A fair halving. But one of the others halves too, and then divides again."),
        ),
        nudges=("How many suspects are left on average after each?",
                "Compare B with C: what does C do with one of B's halves?")),
    Exercise(
        label="case one",
        question="Trace case(1). Which kind of fault is it, and at which wheel (for a pin: at which place)? Write "
                 "for instance (\"counter finger gone\", 2). The kinds are \"counter finger gone\", \"clearing tooth "
                 "gone\" and \"number pin stuck out\".",
        kind=Several(kind=Choice(*PLAIN), number=Number(example=7)),
        right=_case_one,
        praise="Two tests can be enough here, if they are well chosen.",
        slips=(
            Slip(answer=lambda: (_case_one(1)[0], ...),
                 says="Your readings will not bear that out. Take this kind to verdict(...) and see which reading "
                      "stands against it."),
            Slip(answer=lambda: (_case_one(2)[0], ...),
                 says="What would that kind do to a machine that is filled, cleared and read? Compare."),
            Slip(answer=lambda: (_case_one()[0], _case_one()[1] + 1),
                 says="The right kind. Count the wheels again, from the units, starting with one."),
        ),
        nudges=("trace(on=case(1)) shows a test that tells most. Do it, type what the windows show, record it.",
                "Go on until one explanation has nearly all of the share.")),
    Exercise(
        label="case five",
        question="Trace case(5). A step is lost somewhere: is it \"number pin gone\" or \"idler tooth lost\", and at "
                 "which place? Write for instance (\"number pin gone\", 4).",
        kind=Several(kind=Choice(*MISSING), place=Number(example=7)),
        right=_case_five,
        praise="The pin asks for the digit that is set, the tooth for the digit that the wheel shows.",
        slips=(
            Slip(answer=lambda: (_other_kind(_case_five()[0]), ...),
                 says="Both lose a step. Try ones, ten times: does the wheel stick, or is a digit always one short?"),
            Slip(answer=lambda: (_case_five()[0], _case_five()[1] + 1),
                 says="The right kind. A wheel that misses a carry is not the one that lost a step."),
        ),
        nudges=("A pin that is gone is gone in every turn. A lost tooth is missed at one position of the wheel.",
                "trace(on=case(5)) and one or two tests will do.")),
    Exercise(
        label="a slip of the pen",
        question="On a slate the additive carry pin of place 3 is gone. The result of the first test was written "
                 "down wrong, all else is right. What becomes of the true fault in the kit's list? Write \"struck "
                 "out\", \"kept, if one reading was wrong\" or \"kept, with nothing wrong\".",
        kind=Choice(*PEN),
        right=_pen,
        praise="So look at such lines too, before you say that nothing fits.",
        slips=(
            Slip(answer=lambda: PEN[0], says="The list would be of little use then: everybody misreads now and then."),
            Slip(answer=lambda: PEN[2], says="It does not explain the reading that was written down. Is that not "
                                             "counted against it?"),
        ),
        nudges=("The lesson does just this. Look at the words behind the fault.",
                "One reading may be wrong before an explanation is given up.")),
    Exercise(
        label="two at once",
        question="Slate has 183 single faults. How many pairs can be made of them, clashes not looked at?",
        kind=Number(example=12),
        right=lambda: comb(_many(), 2),
        praise="The kit follows nearly all of them, in every test. A few cannot be: no pin is both gone and stuck out.",
        slips=(
            Slip(answer=lambda: _many() * (_many() - 1), says="You counted each pair twice, once in either order."),
            Slip(answer=lambda: _many() ** 2, says="A fault is no pair with itself, and the order does not matter."),
            Slip(answer=lambda: 2 * _many(), says="Each fault can go with every other one, not only with one."),
        ),
        nudges=("The first can be any of them, the second any other. And then?",
                "One with two is the same as two with one.")),
)
