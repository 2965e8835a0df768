"""The exercises of the lesson "The short cut".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from itertools import product

from mechcalc.classroom.answers import Choice, Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.machines import ready, turned_at
from mechcalc.methods.multiplication import multiply, multiply_short_cut
from mechcalc.methods.short_cut import handbook_digits, plain_digits, signed_digits, turns_of

MISTAKES = ("forwards instead of back", "one shift too few", "one turn too few")


def _plainly(multiplier: int) -> int:
    return multiply(ready("bench"), 7, multiplier).turns


def _fewest(multiplier: int) -> int:
    return multiply_short_cut(ready("bench"), 7, multiplier).turns


def _each_by_itself(multiplier: int) -> int:
    """Every digit over 5 turned back, and the tens forgotten."""
    return sum(min(digit, 10 - digit) for digit in plain_digits(multiplier))


def _dearest(turns: dict[int, int]) -> int:
    """The multiplier that takes the most turns; the first of equals."""
    return max(turns, key=lambda multiplier: (turns[multiplier], -multiplier))


def _beaten() -> list[int]:
    """Multipliers below 100 for which the handbooks' rule takes more turns than needed."""
    return [n for n in range(100) if turns_of(handbook_digits(n)) > turns_of(signed_digits(n))]


def _fewest_that_show(multiplier: int, machine: str) -> int:
    """The fewest turns that make the product and leave the multiplier itself in the counter: every way is cranked."""
    found = []
    for digits in product(range(-9, 10), repeat=3):
        if sum(digit * 10**place for place, digit in enumerate(digits)) == multiplier:
            steps = [(place, digits[place]) for place in (2, 1, 0) if digits[place]]
            made = turned_at(512, *steps, machine=machine)
            if (made.result, made.counter) == (512 * multiplier, multiplier):
                found.append(turns_of(digits))
    return min(found)


EXERCISES = (
    Exercise(
        label="turns for 3897",
        question="What is the smallest number of turns with which you can multiply by 3897?",
        kind=Number(example=25),
        right=lambda: _fewest(3897),
        praise="4000, less 100, less 3: one nought in the middle costs nothing.",
        slips=(
            Slip(answer=lambda: _plainly(3897), says="That is the plain way. Which digits are nearer to ten?"),
            Slip(answer=lambda: _each_by_itself(3897),
                 says="You have taken each digit by itself. What becomes of the tens that you go up to?"),
            Slip(answer=lambda: _fewest(3897) - 1,
                 says="Nearly. The 3 in front has got a carry: what is it now?"),
        ),
        nudges=("From the right: 7 is 3 back and a carry. What is 9 with a carry?",
                "9 + 1 is 10: no turn, and a carry. 8 + 1 is 9.")),
    Exercise(
        label="the dearest",
        question="Which multiplier from 0 to 99 takes the most turns, even if each is worked in the fewest?",
        kind=Number(example=12),
        right=lambda: _dearest({n: turns_of(signed_digits(n)) for n in range(100)}),
        praise="Ten turns, whichever way you go: each 5 is as far from nought as from ten.",
        slips=(
            Slip(answer=lambda: _dearest({n: turns_of(plain_digits(n)) for n in range(100)}),
                 says="Plainly, yes. But by the short cut that one is a hundred less one."),
            Slip(answer=lambda: _beaten()[0],
                 says="By the handbooks' rule it takes as many. But there is a better way for this one."),
            Slip(answer=lambda: _dearest({n: turns_of(signed_digits(n)) for n in range(10)}),
                 says="That is the dearest of one digit. And of two?"),
            Slip(answer=lambda: 50, says="That takes five turns: 5 and a nought."),
        ),
        nudges=("Which single digit is the dearest? Then think of its neighbour too.",
                "The plot over 0 to 100 has one highest point.")),
    Exercise(
        label="where the rule loses",
        question="For how many of the multipliers from 0 to 99 does the handbooks' rule (more than 5, carry included, "
                 "is turned back) take more turns than necessary?",
        kind=Number(example=20),
        right=lambda: len(_beaten()),
        praise="One turn too many for each of them: that is the 0.04 between the averages 5.44 and 5.40.",
        slips=(
            Slip(answer=lambda: len(_beaten()[:1]), says="65 is the first. Does it have relatives?"),
            Slip(answer=lambda: sum(n % 10 == 5 for n in range(100)),
                 says="So many end in 5. But the carry only helps if the next digit becomes cheaper by it."),
            Slip(answer=lambda: sum(n % 10 == 5 and n >= 55 for n in range(100)),
                 says="One of these costs the same both ways. Try 55."),
        ),
        nudges=("Only the 5 can go either way at the same price. What must stand before it?",
                "Go through 15, 25, 35, ... 95, and write each in both ways.")),
    Exercise(
        label="read from plain",
        question="On plain, whose counter has no carry, somebody makes four turns forwards at position 2, one turn "
                 "back at position 1, and two turns back at position 0. What does the counter show, and by what has "
                 "the number on the levers been multiplied? Write both, as in (123, 456).",
        kind=Several(counter=Number(), multiplier=Number()),
        right=lambda: (turned_at(1, (2, 4), (1, -1), (0, -2), machine="plain").counter,
                       turned_at(1, (2, 4), (1, -1), (0, -2), machine="plain").result),
        praise="The result has carried, the counter has not.",
        slips=(
            Slip(answer=lambda: (turned_at(1, (2, 4), (1, -1), (0, -2)).counter, ...),
                 says="So a counter with a carry shows it. On plain nobody tells a wheel what its neighbour does."),
            Slip(answer=lambda: (turned_at(1, (2, 4), (1, -1), (0, -2), machine="plain").counter,
                                 turned_at(1, (2, 4), (1, -1), (0, -2), machine="plain").counter),
                 says="The counter is right. But a 9 in it is one turn *back*: what is that worth?"),
            Slip(answer=lambda: (turned_at(1, (2, 4), (1, 1), (0, 2)).counter, ...),
                 says="These are the turns without their directions. Where does a wheel go from 0, one step back?"),
        ),
        nudges=("Each wheel for itself: 4 steps on, 1 step back from 0, 2 steps back from 0.",
                "The multiplier is 4 hundreds, less 1 ten, less 2.")),
    Exercise(
        label="a wrong product",
        question="An operator at bench works 347 × 196 as 200 − 4, highest place first. The result shows 55 520, "
                 "which is wrong; one single mistake was made. What does the counter show, and what was the mistake: "
                 "\"forwards instead of back\", \"one shift too few\" or \"one turn too few\"? Write both, as in "
                 "(123, \"one turn too few\").",
        kind=Several(counter=Number(), mistake=Choice(*MISTAKES)),
        right=lambda: (turned_at(347, (2, 2), (1, -4)).counter, MISTAKES[1]),
        praise="The counter tells what was really done. That is what it is for.",
        slips=(
            Slip(answer=lambda: (turned_at(347, (2, 2), (0, -4)).counter, ...),
                 says="That is what was meant. The counter shows what was done. How often is 347 contained in 55 520?"),
            Slip(answer=lambda: (turned_at(347, (2, 2), (0, 4)).counter, ...),
                 says="Then the result would be more than 200 times 347. Is it?"),
            Slip(answer=lambda: (turned_at(347, (2, 2), (0, -3)).counter, ...),
                 says="Then the result would be wrong by 347. It is wrong by more."),
            Slip(answer=lambda: (turned_at(347, (2, 2), (1, -4)).counter, MISTAKES[0]),
                 says="The counter is right. Is it above 200 or below?"),
            Slip(answer=lambda: (turned_at(347, (2, 2), (1, -4)).counter, MISTAKES[2]),
                 says="The counter is right. How far is it below 200, and what is a turn worth that takes so much?"),
        ),
        nudges=("The result is 347 times something: divide.",
                "200 times 347 is 69 400. How much has been taken away from that, in units of 347?")),
    Exercise(
        label="to be read by others",
        question="You multiply 512 by 97, and a colleague will check the multiplier in the counter: it must show 97 at "
                 "the end. How few turns are possible on plain, whose counter has no carry, and how few on bench? "
                 "Write both, as in (12, 34).",
        kind=Several(on_plain=Number(), on_bench=Number()),
        right=lambda: (_fewest_that_show(97, "plain"), _fewest_that_show(97, "bench")),
        praise="Without a carry in the counter the short cut cannot be checked by reading.",
        slips=(
            Slip(answer=lambda: (_fewest(97), _fewest_that_show(97, "bench")),
                 says="On bench, yes. What would plain's counter show after one turn at position 2 and three turns "
                      "back?"),
            Slip(answer=lambda: (_plainly(97), _plainly(97)),
                 says="On plain, yes. Bench's counter carries, so it may be turned back."),
            Slip(answer=lambda: (_fewest(97), _plainly(97)),
                 says="Which of the two machines has the carry?"),
        ),
        nudges=("Which turns leave a 9 and a 7 in a counter whose wheels do not talk to each other?",
                "On plain a digit of the multiplier has to be turned as it is. On bench 97 is a hundred less three.")),
)
