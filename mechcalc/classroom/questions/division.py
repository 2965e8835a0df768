"""The exercises of the lesson "The counter picks its direction, and division".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from mechcalc.classroom.answers import YES_OR_NO, Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.machines import ready
from mechcalc.events import Stroke
from mechcalc.machine import Machine
from mechcalc.methods.division import divide
from mechcalc.methods.working import Working


def _counted(*strokes: int | str) -> int:
    """Slate's counter, from clear: turns as signed numbers, ``"shift"`` for one place."""
    machine = ready("slate")
    for stroke in strokes:
        machine.shift(1) if isinstance(stroke, str) else machine.turn(stroke)
    return machine.counter


def _overdrawn(dividend: int, divisor: int, position: int) -> Machine:
    """Slate, turned back at one position until the bell rings."""
    machine = ready("slate", result=dividend, setting=divisor, carriage=position)
    while not machine.bell:
        machine.turn(-1)
    return machine


def _before_the_bell(dividend: int, divisor: int, position: int) -> Stroke:
    return _overdrawn(dividend, divisor, position).strokes[-2]


def _divided(dividend: int, divisor: int, places: int = 0, *, machine: str = "slate",
             method: str = "restoring") -> Working:
    return divide(ready(machine), dividend, divisor, places=places, method=method)


def _called_away() -> Stroke:
    """The last turn but one of 7478 ÷ 35: the overdraw in the units."""
    return _divided(7478, 35).strokes[-2]


def _tens_passed_over(machine: str) -> int:
    """1640 ÷ 14 with the hundreds and then at once the units: what the counter shows."""
    made = ready(machine, result=1640, setting=14, carriage=2)
    for position in (2, 0):
        made.shift_to(position)
        made.turn(-1)
        while not made.bell:
            made.turn(-1)
        made.turn(1)
    return made.counter


def _rounds_up(dividend: int, divisor: int, places: int) -> str:
    """Whether the figure after the last one is 5 or more: bench works one place further."""
    return "yes" if _divided(dividend, divisor, places + 1, machine="bench").answer % 10 >= 5 else "no"


EXERCISES = (
    Exercise(
        label="which way it counts",
        question="Slate's counter has just been cleared, and the carriage is at home. You make two subtractive turns, "
                 "shift the carriage one place, and make three additive turns. What do the counter's three wheels "
                 "show?",
        kind=Number(),
        right=lambda: _counted(-2, "shift", 3),
        praise="The first turn has made subtractive turns count up. So the others count down, ten at a time, through "
               "nought to nines.",
        slips=(
            Slip(answer=lambda: _counted(2, "shift", 3),
                 says="So it would be if every turn counted up. Which way did the first turn go, and which way the "
                      "last three?"),
            Slip(answer=lambda: 3 * 10 - 2,
                 says="That is the distance from nought. But on which side of nought? The wheels know no minus sign."),
            Slip(answer=lambda: _counted(-2, 3),
                 says="The directions are right. But between the turns you have shifted: what is a turn worth now?"),
            Slip(answer=lambda: _counted(2, 3),
                 says="That is how many turns there were. The counter counts them in their places, and some of them "
                      "down."),
        ),
        nudges=("The first turn after clearing says which turns count up. Here it was a subtractive one.",
                "Two up, then thirty down. What stands 28 steps before 000?")),
    Exercise(
        label="nines in the tens",
        question="You divide 750 by 32 on slate. The carriage is at position 1, and you turn back until the bell "
                 "rings. What do result and counter show at that moment, before anything is put right? Write both, as "
                 "in (123456, 78).",
        kind=Several(result=Number(), counter=Number()),
        right=lambda: (_overdrawn(750, 32, 1).result, _overdrawn(750, 32, 1).counter),
        praise="The result is 210 below nought. The counter is one ten too high, and one turn cures both.",
        slips=(
            Slip(answer=lambda: (10**6 - _overdrawn(750, 32, 1).result, ...),
                 says="So far is the result below nought. How does a register without a minus sign show that?"),
            Slip(answer=lambda: (_before_the_bell(750, 32, 1).reading.result,
                                 _before_the_bell(750, 32, 1).reading.counter),
                 says="That is how it stands one turn earlier. Will the bell ring at that turn?"),
            Slip(answer=lambda: (_overdrawn(750, 32, 1).result - 1, ...),
                 says="Nearly. Each digit from nine, but the last one (that is not 0) from ten."),
            Slip(answer=lambda: (_overdrawn(750, 32, 1).result, _overdrawn(750, 32, 0).strokes[2].reading.counter),
                 says="The result is right. At position 1, on which wheel of the counter does a turn count?"),
        ),
        nudges=("A turn takes 320 away. How often does that go into 750, and what is left?",
                "110 is left after two turns. The third takes 320 from it: the result is 210 below nought.")),
    Exercise(
        label="turns for 207",
        question="A division has the quotient 207. Each figure is found by turning back until the bell rings, and "
                 "one turn on. How many turns of the crank do the three figures take together?",
        kind=Number(example=25),
        right=lambda: _divided(207 * 4 + 1, 4).turns - 1,
        praise="Two turns more than its value for each figure, for a nought too.",
        slips=(
            Slip(answer=lambda: _divided(207 * 4 + 1, 4, method="compare first").turns - 1,
                 says="These are the turns that go. Who tells the operator to stop?"),
            Slip(answer=lambda: sum(stroke.operation == "crank" and stroke.argument < 0
                                    for stroke in _divided(207 * 4 + 1, 4).strokes),
                 says="These are the backward turns. After each bell something is still to be done."),
            Slip(answer=lambda: _divided(27 * 4 + 1, 4).turns - 1,
                 says="The nought has been left out. How does the operator find out that it is one?"),
        ),
        nudges=("How many turns does a figure 2 take, the turn too many and the one that puts it right included?",
                "A figure q takes q + 2 turns. And there are three figures.")),
    Exercise(
        label="called away",
        question="An operator is called away in the middle of a division. Slate has 35 on its levers, the carriage is "
                 "at home, the bell has just rung after a subtractive turn; the counter shows 214 and the result "
                 "999 988. What are quotient and remainder? Write both, as in (123, 45).",
        kind=Several(quotient=Number(), remainder=Number()),
        right=lambda: (_divided(7478, 35).answer, _divided(7478, 35).remainder),
        praise="One turn on, and both are right.",
        slips=(
            Slip(answer=lambda: (_called_away().reading.counter, 10**6 - _called_away().reading.result),
                 says="The result is that much below nought. A remainder is not: what did the bell ask for?"),
            Slip(answer=lambda: (_called_away().reading.counter, _called_away().reading.result),
                 says="These are the windows as they stand. The nines say that one turn was too many."),
            Slip(answer=lambda: (_divided(7478, 35).answer, 10**6 - _called_away().reading.result),
                 says="The quotient is right. An additive turn changes the result too: by how much?"),
            Slip(answer=lambda: (_called_away().reading.counter, _divided(7478, 35).remainder),
                 says="The remainder is right. The turn that puts it right moves the counter as well."),
        ),
        nudges=("Which turn has to be made to finish?",
                "One additive turn: 35 comes back to the result. The counter goes one down.")),
    Exercise(
        label="past the tens",
        question="Somebody divides 1640 by 14 and finds the hundreds. Then the carriage goes two places at once, from "
                 "2 to 0, and the rest is taken away in the units: turning back until the bell rings, one turn on. "
                 "What does the counter show on bench, and what on plain, whose counter has no carry? Write both, as "
                 "in (123, 456).",
        kind=Several(on_bench=Number(), on_plain=Number()),
        right=lambda: (_tens_passed_over("bench"), _tens_passed_over("plain")),
        praise="It takes many turns, and on bench the counter's carry makes it come right all the same.",
        slips=(
            Slip(answer=lambda: (_tens_passed_over("plain"), _tens_passed_over("plain")),
                 says="So plain shows it. But bench's counter carries: what happens when its first wheel passes 9?"),
            Slip(answer=lambda: (_tens_passed_over("bench"), _tens_passed_over("bench")),
                 says="Bench is right. On plain the first wheel of the counter passes 9, and nobody tells the second."),
            Slip(answer=lambda: (_tens_passed_over("bench"), _tens_passed_over("plain") + 1),
                 says="Nearly: on plain, too, one turn on takes the last count back."),
            Slip(answer=lambda: (_tens_passed_over("plain"), _tens_passed_over("bench")),
                 says="The numbers are right. Which of the two counters carries?"),
        ),
        nudges=("After the hundreds 240 is left. How often does 14 go into that?",
                "The units wheel is turned 17 steps in all. What does a wheel show after 17 steps, and where "
                "is the ten?")),
    Exercise(
        label="the last figure",
        question="You divide 50 by 13 on slate, with two decimals. What does the counter show at the end, what does "
                 "the result show, and should the last figure be rounded up? Write all three, as in (123, 4, \"no\").",
        kind=Several(counter=Number(), result=Number(), round_up=YES_OR_NO),
        right=lambda: (_divided(50, 13, 2).answer, _divided(50, 13, 2).remainder, _rounds_up(50, 13, 2)),
        praise="Twice the remainder is more than the divisor: the next figure would be 5 or more.",
        slips=(
            Slip(answer=lambda: (_divided(50, 13, 2).answer + 1, ..., ...),
                 says="Here the last figure is rounded already. The machine only counts the turns that go."),
            Slip(answer=lambda: (_divided(50, 13).answer, _divided(50, 13).remainder, ...),
                 says="These are the whole units. For two decimals the dividend stands two places further left."),
            Slip(answer=lambda: (_divided(50, 13, 2).answer, _divided(50, 13, 2).remainder, "no"),
                 says="Both windows are right. Is the remainder more or less than half of the divisor?"),
            Slip(answer=lambda: (_divided(50, 13, 2).answer, _divided(50, 13, 1).remainder, ...),
                 says="The counter is right. That remainder belongs to one decimal; one figure more has been taken "
                      "off since."),
        ),
        nudges=("Divide 5000 by 13.",
                "The remainder is 8 hundredths. Compare twice 8 with 13.")),
)
