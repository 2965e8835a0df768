"""The exercises of the lesson "Back transfer and chains".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from itertools import permutations

from mechcalc.classroom.answers import Choice, Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.machines import ready
from mechcalc.errors import CapacityError
from mechcalc.machine import Machine
from mechcalc.methods.chains import multiply_chain, power
from mechcalc.methods.points import Points

STEPS = ("clearing the setting", "clearing the counter", "bringing the carriage home")


def _brought_back(result: int, carriage: int = 0) -> int:
    """What slate's levers show after a back transfer to clear levers."""
    machine = ready("slate", result=result, carriage=carriage)
    machine.back_transfer()
    return machine.setting


def _chain_without(step: str) -> Machine:
    """21 × 32 × 5 on slate by an operator who leaves one step out before the last factor."""
    machine = ready("slate", setting=21)
    machine.turn(2)
    machine.shift(1)
    machine.turn(3)
    if step != "bringing the carriage home":
        machine.shift_to(0)
    if step != "clearing the setting":
        machine.clear_setting()
    machine.back_transfer()
    if step != "clearing the counter":
        machine.clear_counter()
    machine.turn(5)
    return machine


def _left_out(read: int) -> str:
    """The step whose leaving out leads to this reading."""
    (step,) = [step for step in STEPS if _chain_without(step).result == read]
    return step


def _last_factor(*factors: int) -> int:
    """The factor that has to be turned in last, found by trying every order on slate."""
    good = set()
    for order in permutations(factors):
        try:
            multiply_chain(ready("slate"), *order)
        except CapacityError:
            continue
        good.add(order[-1])
    (last,) = good
    return last


def _multiplications(exponent: int, plan: str) -> int:
    """How many products are worked for a power of two on slate."""
    return power(ready("slate"), 2, exponent, plan=plan).transfers + 1


def _doubled(number: int) -> int:
    """What slate's levers show when a number on them has been doubled and brought back."""
    machine = ready("slate", setting=number)
    machine.turn(2)
    machine.clear_setting()
    machine.back_transfer()
    return machine.setting


def _with_point() -> tuple[int, int]:
    """What bench shows after 1.25 × 1.6 × 0.35, and how many places stand after the point."""
    first = Points.of_product(2, 1)
    second = Points.of_product(first.result, 2)
    return multiply_chain(ready("bench"), 125, 16, 35).answer, second.result


EXERCISES = (
    Exercise(
        label="carriage left out",
        question="Slate's result shows 1776, and the carriage still stands at position 1. You clear the setting and "
                 "bring the result back without shifting the carriage home. What do the levers show?",
        kind=Number(),
        right=lambda: _brought_back(1776, 1),
        praise="Wheel 2 stood before lever 1. Wheel 1 had no lever opposite, and its digit is gone.",
        slips=(
            Slip(answer=lambda: _brought_back(1776),
                 says="So it would be with the carriage at home. Which wheel stands before lever 1 now?"),
            Slip(answer=lambda: _brought_back(17760),
                 says="A digit is lost, but not that one. At position 1, is it the highest or the lowest wheel that "
                      "has no lever opposite?"),
            Slip(answer=lambda: 10 * _brought_back(1776, 1),
                 says="The right digits, moved one lever too far: a nought has come in from nowhere."),
        ),
        nudges=("Lever 1 meets wheel 2, lever 2 meets wheel 3.",
                "The digits of 1776 in wheels 2, 3 and 4 go back.")),
    Exercise(
        label="which step was left out",
        question="An operator works 21 × 32 × 5 on slate through back transfer and reads 3465. The true product is "
                 "3360. Which step was left out? Write \"clearing the setting\", \"clearing the counter\" or "
                 "\"bringing the carriage home\".",
        kind=Choice(*STEPS),
        right=lambda: _left_out(3465),
        praise="The 21 was still on the levers, and 672 was added to it wheel by wheel: 693, times 5.",
        slips=(
            Slip(answer=lambda: "clearing the counter",
                 says="Does the counter have any say in the result? Then the product would be right, and only the "
                      "counter wrong."),
            Slip(answer=lambda: "bringing the carriage home",
                 says="Then one digit of 672 would be lost, and the last turns would count tenfold. The reading would "
                      "end in a nought."),
        ),
        nudges=("3465 = 5 × 693. What was on the levers during the last five turns?",
                "693 is 672 and something more.")),
    Exercise(
        label="the last factor",
        question="On slate, with four levers, 250 × 48 × 60 is refused. One of the three factors has to be turned in "
                 "last; then it goes through. Which one? Write \"250\", \"48\" or \"60\".",
        kind=Choice("250", "48", "60"),
        right=lambda: str(_last_factor(250, 48, 60)),
        praise="The last factor is never part of anything that goes back to the levers.",
        slips=(
            Slip(answer=lambda: "48",
                 says="Then the first two are 250 and 60. Does their product find room on four levers?"),
            Slip(answer=lambda: "60",
                 says="Then the first two are 250 and 48. Does their product find room on four levers?"),
        ),
        nudges=("Only the product of the first two goes back to the levers. Which pair has the smallest?",
                "48 × 60 has four digits.")),
    Exercise(
        label="thirteenth power",
        question="You work x¹³ on slate, by halves: from xᵏ you go to xᵏ · xᵏ, or to (xᵏ · x) · xᵏ. How many "
                 "multiplications does it take?",
        kind=Number(example=7),
        right=lambda: _multiplications(13, "by halves"),
        praise="x², x³, x⁶, x⁷, x¹³: two of the steps take the single x in.",
        slips=(
            Slip(answer=lambda: _multiplications(13, "one by one"),
                 says="So many it takes one by one. How far can you get by multiplying a power by itself?"),
            Slip(answer=lambda: 13,
                 says="Count the × signs, not the factors; and do not take the factors one by one."),
            Slip(answer=lambda: (13).bit_length() - 1,
                 says="These are the steps that double. Where the exponent is odd, one more × brings in the single x."),
        ),
        nudges=("Go backwards from 13: what comes before x¹³ if the last step is (xᵏ · x) · xᵏ?",
                "13 comes from 6, 6 from 3, 3 from 1. Count two × where the exponent is odd, one where it is even.")),
    Exercise(
        label="one doubling too many",
        question="Slate's levers show 8192. You turn twice, clear the setting and bring the result back. What do the "
                 "levers show?",
        kind=Number(),
        right=lambda: _doubled(8192),
        praise="The digit in wheel 5 had no lever opposite. No bell, no lock: the machine does not mind.",
        slips=(
            Slip(answer=lambda: 2 * 8192,
                 says="That is what stood in the result. How many levers has slate?"),
            Slip(answer=lambda: 2 * 8192 // 10,
                 says="These are the highest four digits. But the carriage is at home: which wheel has no lever?"),
            Slip(answer=lambda: 8192,
                 says="No interlock blocks this back transfer, so something does happen. Work the doubling first."),
        ),
        nudges=("What stands in the result after two turns? Write it with its five digits.",
                "Wheels 1 to 4 stand before levers 1 to 4. Wheel 5 stands before nothing.")),
    Exercise(
        label="where the point ends up",
        question="You work 1.25 × 1.6 × 0.35 on bench, as 125 × 16 × 35. What do the windows of the result show, and "
                 "how many places stand after the point? Write both, as in (1234, 3).",
        kind=Several(windows=Number(example=1234), places=Number(example=3)),
        right=_with_point,
        praise="The noughts at the end count as places: 0.70000 is 0.7.",
        slips=(
            Slip(answer=lambda: (_with_point()[0], max(2, 1, 2)),
                 says="The windows are right. For the point, the longest factor is not enough: each factor brings its "
                      "own places."),
            Slip(answer=lambda: (_with_point()[0], 2 * 1 * 2),
                 says="The windows are right. Numbers are multiplied here, but what happens to their places?"),
            Slip(answer=lambda: (7, ...),
                 says="You have left the noughts off. The windows show them, and the point counts them."),
        ),
        nudges=("On the wheels there are whole numbers only. What is 125 × 16, and that times 35?",
                "Places: 2 and 1 make 3 after the first product; then 2 more.")),
)
