"""The exercises of the lesson "Multiplication by shifting".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from mechcalc.catalogue import load_spec
from mechcalc.classroom.answers import Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.machines import turned_at
from mechcalc.errors import CapacityError
from mechcalc.machine import Machine
from mechcalc.methods.multiplication import multiply, multiply_short_cut
from mechcalc.methods.short_cut import handbook_digits, turns_of


def _turns(multiplier: int) -> int:
    return multiply(Machine(load_spec("bench")), 7, multiplier).turns


def _fits(multiplicand: int, multiplier: int) -> bool:
    try:
        multiply(Machine(load_spec("slate")), multiplicand, multiplier)
    except CapacityError:
        return False
    return True


def _largest_multiplier(multiplicand: int) -> int:
    """The largest three-digit multiplier that slate takes without losing anything."""
    return next(multiplier for multiplier in range(999, 0, -1) if _fits(multiplicand, multiplier))


EXERCISES = (
    Exercise(
        label="turns for 4019",
        question="You multiply by 4019, digit by digit, without any short cut. How many turns of the crank does it "
                 "take?",
        kind=Number(example=25),
        right=lambda: _turns(4019),
        praise="As many as the digits add up to; a nought is a shift and no turn.",
        slips=(
            Slip(answer=lambda: 4019,
                 says="So many turns it would take without a carriage. How many are needed at each position?"),
            Slip(answer=lambda: len(str(4019)),
                 says="That is one for each digit. At the position of the units, how often do you turn?"),
            Slip(answer=lambda: _turns(4019) + 1,
                 says="One too many: what do you do with the nought?"),
            Slip(answer=lambda: _turns(419) + 10,
                 says="A nought is no ten. At its position nothing is to be added."),
        ),
        nudges=("At each position you turn as often as the digit there says.",
                "4 and 0 and 1 and 9.")),
    Exercise(
        label="on the way",
        question="You work 628 × 304 on bench, units first. What does the result register show when the units are "
                 "done, and what when all is done? Write both, as in (1234, 56789).",
        kind=Several(after_the_units=Number(), at_the_end=Number()),
        right=lambda: (turned_at(628, (0, 4)).result, turned_at(628, (0, 4), (2, 3)).result),
        praise="Two shifts for the hundreds: the nought in the middle takes its place without a turn.",
        slips=(
            Slip(answer=lambda: (turned_at(628, (0, 4)).result, turned_at(628, (0, 4), (1, 3)).result),
                 says="The units are right. For the hundreds you have shifted once; how many places is it from the "
                      "units to the hundreds?"),
            Slip(answer=lambda: (turned_at(628, (0, 4)).result, turned_at(628, (0, 7)).result),
                 says="The units are right. The other turns were made with the carriage at home: what were they "
                      "worth?"),
            Slip(answer=lambda: (turned_at(628, (0, 4)).result, turned_at(628, (2, 3)).result),
                 says="The units are right, and so is the hundreds' part alone. But the register still held "
                      "something."),
            Slip(answer=lambda: (turned_at(628, (0, 3)).result, ...),
                 says="Units first: which digit of 304 stands in the units?"),
        ),
        nudges=("First 628 × 4. Then, two places further, 3 turns.",
                "A turn at position 2 adds 62800.")),
    Exercise(
        label="what the counter says",
        question="You make 17 turns with the carriage at home, shift once, and make 4 turns more, all of them "
                 "additive. What does bench's counter show?",
        kind=Number(example=25),
        right=lambda: turned_at(1, (0, 17), (1, 4)).counter,
        praise="The counter carries too. It shows the multiplier that you have really used.",
        slips=(
            Slip(answer=lambda: 17 + 4,
                 says="That is how often you turned. But after the shift a turn counts on another wheel of the "
                      "counter."),
            Slip(answer=lambda: turned_at(1, (0, 17), (1, 4), machine="plain").counter,
                 says="So it would be on plain, whose counter has no carry. What does bench's counter do when its "
                      "first wheel passes 9?"),
            Slip(answer=lambda: int(f"{4}{17}"),
                 says="Each counter wheel has one digit. Where does the ten of 17 go?"),
        ),
        nudges=("After the shift each turn counts ten.",
                "17 ones and 4 tens.")),
    Exercise(
        label="as far as it goes",
        question="Slate has six number wheels and three counter wheels. What is the largest number by which it can "
                 "multiply 4321 without losing anything?",
        kind=Number(example=123),
        right=lambda: _largest_multiplier(4321),
        praise="One more, and the product would need a seventh wheel.",
        slips=(
            Slip(answer=lambda: 999,
                 says="The counter could show it. But does the product fit into six windows?"),
            Slip(answer=lambda: _largest_multiplier(4321) + 1,
                 says="Work that product out: how many digits has it?"),
            Slip(answer=lambda: 99,
                 says="That fits. But there is a third counter wheel: could it be used as well?"),
        ),
        nudges=("The product may be 999 999 at most.",
                "Divide 999 999 by 4321, and round down.")),
    Exercise(
        label="fewest turns for 465",
        question="With turns in both directions allowed: what is the smallest number of turns with which you can "
                 "multiply by 465?",
        kind=Number(example=25),
        right=lambda: multiply_short_cut(Machine(load_spec("bench")), 7, 465).turns,
        praise="A 5 with a large digit before it is better turned back.",
        slips=(
            Slip(answer=lambda: _turns(465),
                 says="That is the plain way. Which digits are nearer to ten than to nought?"),
            Slip(answer=lambda: turns_of(handbook_digits(465)),
                 says="That is what the rule of thumb gives, and it is good. But look at the 5 and the 6 together: "
                      "what if the 5 is turned back?"),
        ),
        nudges=("Write 465 as 500 less something. Or as 470 less something, and 470 again in its own way.",
                "500 − 35: five turns, then turns back for 35.")),
)
