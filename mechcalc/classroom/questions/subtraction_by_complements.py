"""The exercises of the lesson "Subtraction by complements".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from mechcalc.classroom.answers import Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.machines import ready
from mechcalc.methods.complement import nines_complement, tens_complement


def _left(start: int, taken: int) -> int:
    """What slate shows after one subtractive turn."""
    machine = ready("slate", result=start, setting=taken)
    machine.turn(-1)
    return machine.result


def _way_back(shown: int) -> int:
    """The number that has to be turned in to bring slate's windows to nought."""
    return next(number for number in range(10_000)
                if ready("slate", result=shown, setting=number).turn().reading.result == 0)  # type: ignore[union-attr]


def _on_short(taken: int, carriage: int) -> int:
    machine = ready("short", setting=taken, carriage=carriage)
    machine.turn(-1)
    return machine.result


def _added(first: int, second: int) -> int:
    return ready("slate", result=first, setting=second).turn().reading.result  # type: ignore[union-attr]


def _brought_round(first: int, taken: int) -> tuple[int, int]:
    """The nine's complement that is set, found on the machine, and what is left when the 1 in front has gone round."""
    complement = _left(9999, taken)
    in_front, rest = divmod(_added(first, complement), 10_000)
    return complement, _added(rest, in_front)


EXERCISES = (
    Exercise(
        label="twelve less twenty",
        question="On slate you turn in 12, then set 20 and make one subtractive turn. What do the six windows show?",
        kind=Number(example=123456),
        right=lambda: _left(12, 20),
        praise="It is the complement of 8: eight more, and the windows would show nought.",
        slips=(
            Slip(answer=lambda: _left(20, 12),
                 says="That is the larger number less the smaller. The wheels cannot know which is larger: they only "
                      "step back. Where does wheel 2 go from 1, two steps back?"),
            Slip(answer=lambda: nines_complement(8, 6),
                 says="Very near. Add 20 to it again: do you come back to 12?"),
            Slip(answer=lambda: _left(12, 20) % 100,
                 says="These are wheels 1 and 2. The borrow does not stop there: what does wheel 3 do, that stands at "
                      "0?"),
        ),
        nudges=("Step wheel 2 back twice from 1: it passes from 0 to 9, and its lever goes out.",
                "A borrow that meets 0 makes a 9 and borrows again. All the way up.")),
    Exercise(
        label="read it back",
        question="The bell has rung in a subtractive turn, and slate shows 999 635. By how much is the result below "
                 "nought?",
        kind=Number(example=123),
        right=lambda: _way_back(999635),
        praise="Turn that number in, and the windows show nought.",
        slips=(
            Slip(answer=lambda: nines_complement(999635, 6),
                 says="You took every digit from nine. If you turn that number in, what is still missing to nought?"),
            Slip(answer=lambda: 999635 % 1000,
                 says="You struck off the nines. What is left is a complement still: how far is it from there up to "
                      "1000?"),
            Slip(answer=lambda: 999635,
                 says="That is what the windows show. How far is it from there up to 1 000 000?"),
        ),
        nudges=("Take each digit from nine, and the last one from ten.",
                "The last digit: 10 − 5. The one before: 9 − 3.")),
    Exercise(
        label="with a nought at the end",
        question="What is the ten's complement of 4070 in six places?",
        kind=Number(example=123456),
        right=lambda: _left(0, 4070),
        praise="Noughts at the end stay; the last digit that is not nought is taken from ten.",
        slips=(
            Slip(answer=lambda: nines_complement(4070, 6),
                 says="That is the nine's complement. The two add up to 999 999, and you want one more than that."),
            Slip(answer=lambda: tens_complement(4070, 4),
                 says="In four places that is right. In six places, what stands before it?"),
            Slip(answer=lambda: nines_complement(4070, 6) - 9,
                 says="Ten less 0 is 10, and that does not fit in one window: it carries. Which is the last digit that "
                      "can be taken from ten?"),
        ),
        nudges=("Let the machine do it: from nought, one subtractive turn with 4070 on the levers.",
                "From the right: 0 stays 0. Then 10 − 7. Then each from nine, up to the sixth place.")),
    Exercise(
        label="where the nines end",
        question="On short (twelve wheels, carries reach seven places from the drum) the carriage is at position 2, "
                 "and all windows show 0. You set 5 and make one subtractive turn. What number do the windows show?",
        kind=Number(example=123456789),
        right=lambda: _on_short(5, 2),
        praise="Seven places of drum and two of shift: the complement is one to 10⁹.",
        slips=(
            Slip(answer=lambda: 10**7 - 500,
                 says="So it would be if the nines always ended at wheel 7. The drum stands still, but the carriage "
                      "has moved: which wheel now stands before place 7?"),
            Slip(answer=lambda: 10**12 - 500,
                 says="So it would be with carry pins for all twelve wheels. How far do they reach?"),
            Slip(answer=lambda: 10**9 - 5,
                 says="The nines end in the right place. But which wheel does lever 1 take back, with the carriage at "
                      "2?"),
            Slip(answer=lambda: _on_short(5, 0),
                 says="That is the reading with the carriage at home. A shift moves two things: what 5 is worth, and "
                      "where the nines end."),
        ),
        nudges=("With the carriage at 2, lever 1 works on wheel 3. What is taken away is 500.",
                "The highest wheel in reach is 7 + 2. Nines fill up to there.")),
    Exercise(
        label="brought round",
        question="You work 9341 − 2875 on slate with the nine's complement in four places. Which number do you set for "
                 "the second turn, and what is the answer when the 1 in front has been brought round? Write both, as "
                 "in (1234, 567).",
        kind=Several(complement=Number(), answer=Number()),
        right=lambda: _brought_round(9341, 2875),
        praise="The nine's complement is one short of the ten's; the 1 that goes round makes it good.",
        slips=(
            Slip(answer=lambda: (tens_complement(2875, 4), ...),
                 says="Look at the complement: is each of its digits taken from nine?"),
            Slip(answer=lambda: (nines_complement(2875, 4), _added(9341, nines_complement(2875, 4))),
                 says="The complement is right, and so is the sum. Now take the 1 off the fifth place and bring it "
                      "round."),
            Slip(answer=lambda: (nines_complement(2875, 4), _added(9341, nines_complement(2875, 4)) % 10_000),
                 says="The complement is right, and you have struck off the 1. To bring it round is more than that: "
                      "where does it go?"),
        ),
        nudges=("The nine's complement needs no borrowing at all: 9 − 2, 9 − 8, 9 − 7, 9 − 5.",
                "Strike the 1 off in front, and add 1 to the units.")),
)
