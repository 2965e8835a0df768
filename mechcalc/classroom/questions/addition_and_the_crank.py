"""The exercises of the lesson "Addition and the crank".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from mechcalc.catalogue import load_spec
from mechcalc.classroom.answers import Choice, Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.machines import ready
from mechcalc.errors import Locked
from mechcalc.events import Kind
from mechcalc.methods.addition import add
from mechcalc.methods.working import Working

CAUGHT_AT = 230.0  # degrees of crank on "slate": the first carry pin is at work
ROLL = (136, 72, 405, 58)  # an invented till roll
COLUMN = (478, 256, 999)
FORGOTTEN = (86, 245, 119)
ORDINALS = ("first", "second", "third", "fourth")


def _allowed() -> str:
    """Which of four movements a slate takes whose crank stands in the middle of a turn."""
    tries = {"finish the turn": ("crank", 360.0 - CAUGHT_AT), "turn back": ("crank", -CAUGHT_AT),
             "move a lever": ("set lever", (1, 0)), "clear the windows": ("clear result", None)}
    machine = ready("slate", setting=34, result=789)
    machine.crank(CAUGHT_AT)
    free = []
    for name, (operation, argument) in tries.items():
        try:
            machine.would(operation, argument)
        except Locked:
            continue
        free.append(name)
    (only,) = free
    return only


def _sum(*numbers: int) -> Working:
    return add(ready("slate"), *numbers)


def _turned_twice(shows: int) -> str:
    """The number of the roll that, taken off once, leaves the right total."""
    return next(name for name, number in zip(ORDINALS, ROLL, strict=True)
                if _taken_off(shows, number) == _sum(*ROLL).answer)


def _taken_off(shows: int, *numbers: int) -> int:
    machine = ready("slate", result=shows)
    for number in numbers:
        machine.set(number)
        machine.turn(-1)
    return machine.result


def _carries(working: Working, last: bool = False) -> int:
    """Carry steps of all turns, or of the last one."""
    return sum(event.kind is Kind.CARRY_STEP for stroke in working.strokes[-1 if last else 0:]
               for event in stroke.events)


def _digit_sum(*numbers: int) -> int:
    return sum(int(digit) for number in numbers for digit in str(number))


def _rings(shows: int, setting: int) -> bool:
    """Whether the bell rings in one of two turns."""
    machine = ready("slate", result=shows, setting=setting)
    return any(stroke.reading.bell for stroke in machine.turn(2))  # type: ignore[union-attr]


def _largest_twice(shows: int) -> int:
    """The largest setting of slate that can be turned in twice without the bell, by halving."""
    low, high = 0, 10**load_spec("slate").setting_places
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if _rings(shows, middle) else (middle, high)
    return low


EXERCISES = (
    Exercise(
        label="caught in the middle",
        question="The crank stands at 230° of an additive turn when you see that a lever is wrong. Which of these can "
                 "your hand do now: \"finish the turn\", \"turn back\", \"move a lever\" or \"clear the windows\"?",
        kind=Choice("finish the turn", "turn back", "move a lever", "clear the windows"),
        right=_allowed,
        praise="Finish it, take it off again with a turn the other way, and set the lever right.",
        slips=(
            Slip(answer=lambda: "turn back",
                 says="That is what one wants to do. Which part lets the crank go one way only, once it has left the "
                      "notch?"),
            Slip(answer=lambda: "move a lever",
                 says="Pins would move while the drum goes past the idlers. What happens to the levers as soon as the "
                      "handle leaves the notch?"),
            Slip(answer=lambda: "clear the windows",
                 says="The wheels are in the middle of their work. Where must the crank be before a register can be "
                      "cleared?"),
        ),
        nudges=("Crank the live machine a little way with the . key, and try each of them.",
                "Three of them are blocked until the crank is back in its notch. How does it get there?")),
    Exercise(
        label="one turn too many",
        question="A till roll (an invented one) has four numbers: 136, 72, 405, 58. You add them on slate from cleared "
                 "registers. At the end the windows show 729 and the counter shows 5. Which number was turned in "
                 "twice: the \"first\", \"second\", \"third\" or \"fourth\"?",
        kind=Choice(*ORDINALS),
        right=lambda: _turned_twice(729),
        praise="The counter says that there was a turn too many, and the difference says which.",
        slips=(
            Slip(answer=lambda: "second",
                 says="Take 72 off the 729 again. Is that the total of the four numbers?"),
            Slip(answer=lambda: "first",
                 says="Then the windows would show 136 too much. By how much is the total too large?"),
            Slip(answer=lambda: "third",
                 says="Then the windows would show 405 too much. By how much is the total too large?"),
        ),
        nudges=("What should the windows show? And what do they show?",
                "The four numbers make 671.")),
    Exercise(
        label="carries without cranking",
        question="You add 478, 256 and 999 on slate, from cleared windows. How many carry steps does the machine make, "
                 "in all three turns together? Try to find out without following the turns.",
        kind=Number(example=25),
        right=lambda: _carries(_sum(*COLUMN)),
        praise="Every carry takes nine from the digits in the windows, whatever the order.",
        slips=(
            Slip(answer=lambda: _digit_sum(*COLUMN) - _digit_sum(_sum(*COLUMN).answer),
                 says="That is how much the digits have lost. How much do they lose with each carry?"),
            Slip(answer=lambda: _carries(_sum(*COLUMN), last=True),
                 says="That is the last turn alone, or the columns on paper in which there is something to carry. What "
                      "about the turn before? And what if a column carries 2?"),
            Slip(answer=lambda: _digit_sum(_sum(*COLUMN).answer),
                 says="These are the digits of the total, added up. Compare them with the digits that were put in."),
        ),
        nudges=("Add up the digits of the three numbers, and the digits of the total.",
                "59 is put in, and 14 is left. Each carry takes nine.")),
    Exercise(
        label="whose total is it",
        question="Somebody added 86, 245 and 119 on slate and had cleared neither the windows nor the counter. Now the "
                 "windows show 1197 and the counter shows 5. What did they show before? Write both, windows first, "
                 "as in (1234, 9).",
        kind=Several(windows=Number(), counter=Number(example=9)),
        right=lambda: (_taken_off(1197, *FORGOTTEN), 5 - len(FORGOTTEN)),
        praise="Take off what was put on, and the old total is there again: nothing is lost.",
        slips=(
            Slip(answer=lambda: (_sum(*FORGOTTEN).answer, ...),
                 says="That is the new column alone, as it would stand after clearing. What stood there before it "
                      "came?"),
            Slip(answer=lambda: (_taken_off(1197, *FORGOTTEN), 5),
                 says="The windows are right. The counter went on counting too: how many turns were made since?"),
            Slip(answer=lambda: (_taken_off(1197, *FORGOTTEN), len(FORGOTTEN)),
                 says="The windows are right. So many turns were made now; how many does the counter show more than "
                      "that?"),
            Slip(answer=lambda: (1197, ...),
                 says="That is the reading at the end, with both columns in it. Take the new numbers off again."),
        ),
        nudges=("Three subtractive turns would bring the old readings back.",
                "First work out 86 + 245 + 119, and take it from 1197.")),
    Exercise(
        label="full to the brim",
        question="Slate's windows show 987 654. What is the largest number that you can set and turn in twice, without "
                 "the bell ringing?",
        kind=Number(),
        right=lambda: _largest_twice(987654),
        praise="Twice one more would need a seventh window.",
        slips=(
            Slip(answer=lambda: 10**load_spec("slate").setting_places - 1,
                 says="That is the most the four levers can hold. Turn it in twice: does the register hold that much?"),
            Slip(answer=lambda: _largest_twice(987654) + 1,
                 says="Very near. Work out the total: how many digits has it?"),
            Slip(answer=lambda: 999_999 - 987_654,
                 says="That much room is left. But the number has to go in twice."),
        ),
        nudges=("How much room is left up to 999 999?",
                "Half of that room, and not a whole one more.")),
)
