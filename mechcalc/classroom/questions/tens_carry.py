"""The exercises of the lesson "The tens carry".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from dataclasses import replace

from mechcalc.catalogue import load_spec
from mechcalc.classroom.answers import YES_OR_NO, Digits, Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.machines import ready
from mechcalc.events import Kind
from mechcalc.machine import Machine
from mechcalc.numbers import from_digits

BEFORE_CARRIES, IN_THE_RIPPLE = 223.0, 247.0  # degrees of crank on "slate"
PITCH, THROW = 9, 4  # degrees, of the drum with the slow levers


def _stopped(result: int, setting: int, degrees: float) -> Machine:
    machine = ready("slate", result=result, setting=setting)
    machine.crank(degrees)
    return machine


def _turned(result: int, setting: int) -> Machine:
    return _stopped(result, setting, 360.0)


def _levers_out(result: int, setting: int) -> int:
    """How many carry levers went out in the turn."""
    (stroke,) = _turned(result, setting).strokes
    return sum(event.kind is Kind.LEVER_OUT for event in stroke.events)


def _wheels_moved(result: int, setting: int) -> int:
    (stroke,) = _turned(result, setting).strokes
    return len({event.wheel for event in stroke.events if event.kind in (Kind.NUMBER_STEP, Kind.CARRY_STEP)})


def _before_carries(result: int, setting: int) -> tuple[int, ...]:
    """What the windows show when the number pins are done and no carry pin has come."""
    return _stopped(result, setting, BEFORE_CARRIES).result_digits


def _levers_from_pins_alone(result: int, setting: int) -> int:
    return sum(_stopped(result, setting, BEFORE_CARRIES).state.levers)


def _smallest_helix_step() -> int:
    """The first whole number of degrees with which a drum of slow levers carries 9999 + 1 through."""
    drum = replace(load_spec("slate"), lever_throw=float(THROW), allow_faulty_timing=True)
    for step in range(1, 30):
        machine = Machine(replace(drum, helix_step=float(step)))
        machine.set(9999)
        machine.turn()
        machine.set(1)
        machine.turn()
        if machine.result == 10000:
            return step
    raise AssertionError("no helix step lets the carry through")


EXERCISES = (
    Exercise(
        label="before the carry",
        question="The register shows 267 and the levers are set to 5. You stop the crank at 223°: the number pins have "
                 "passed, the carry pins have not. What do the windows show?",
        kind=Number(),
        right=lambda: _stopped(267, 5, BEFORE_CARRIES).result,
        praise="The ten is not lost: it waits in the carry lever of wheel 1.",
        slips=(
            Slip(answer=lambda: _turned(267, 5).result,
                 says="That is the reading when the turn is finished. At 223° the carry is still to come: which wheel "
                      "has not moved yet?"),
            Slip(answer=lambda: ready("slate", result=267).result,
                 says="That is the reading before the turn. Five pins have gone past the idler of wheel 1 by now."),
            Slip(answer=lambda: int(f"{267 // 10}{7 + 5}"),
                 says="A wheel has ten digits and one window. What comes after 9 on it?"),
        ),
        nudges=("Count five steps on from 7, on a wheel that goes ... 8, 9, 0, 1 ...",
                "Only wheel 1 has moved. Wheels 2 and 3 show what they showed before.")),
    Exercise(
        label="how many levers",
        question="The register shows 4708 and the levers are set to 3595. In this one turn, how many carry levers are "
                 "pushed out?",
        kind=Number(example=6),
        right=lambda: _levers_out(4708, 3595),
        praise="One of them is pushed out by a carry, not by number pins: that is a ripple.",
        slips=(
            Slip(answer=lambda: _levers_from_pins_alone(4708, 3595),
                 says="These are the levers that the number pins push out. A carry moves a wheel too: where does one "
                      "meet a 9?"),
            Slip(answer=lambda: _wheels_moved(4708, 3595),
                 says="Not every wheel that moves pushes its lever: only one that passes from 9 to 0."),
        ),
        nudges=("Go place by place from the units: digit + pins, and + 1 where a carry comes in. Where is it 10 or "
                "more?",
                "Look hard at the tens: 0 + 9 is 9. Does a carry come in?")),
    Exercise(
        label="stopped half way",
        question="The register shows 999 999 and the levers are set to 1. You stop the crank at 247°, in the middle "
                 "of the ripple: the carry pins of places 2 and 3 have done their step, that of place 4 has not. Write "
                 "the six digits, units first.",
        kind=Digits(6),
        right=lambda: _stopped(999999, 1, IN_THE_RIPPLE).result_digits,
        praise="The carry is on its way: behind it noughts, before it nines.",
        slips=(
            Slip(answer=lambda: tuple(reversed(_stopped(999999, 1, IN_THE_RIPPLE).result_digits)),
                 says="These are the right digits from the other end. Units first means: begin at the right-hand "
                      "window."),
            Slip(answer=lambda: _turned(999999, 1).result_digits,
                 says="That is the end of the turn. The helix has come only as far as place 3."),
            Slip(answer=lambda: _before_carries(999999, 1),
                 says="That is the reading before the first carry pin. Two of them have passed since."),
            Slip(answer=lambda: ready("slate", result=999999).result_digits,
                 says="That is the reading before the turn. The number pin has moved wheel 1 long ago."),
        ),
        nudges=("One number pin and two carry pins have done a step. Which wheels have they moved?",
                "Wheels 1, 2 and 3 have each gone one step on from 9.")),
    Exercise(
        label="lost at the end",
        question="The register shows 995 500 and the levers are set to 7250. You make one full turn. What does the "
                 "register show, and does the bell ring? Write both, as in (1234, \"no\").",
        kind=Several(register=Number(), bell=YES_OR_NO),
        right=lambda: (_turned(995500, 7250).result, "yes" if _turned(995500, 7250).bell else "no"),
        praise="Six wheels show the sum without its millions; the bell says that something was lost.",
        slips=(
            Slip(answer=lambda: (995500 + 7250, ...),
                 says="That is the true sum. Count its digits, and then the wheels of this machine."),
            Slip(answer=lambda: (from_digits(_before_carries(995500, 7250)), ...),
                 says="The pins have done their part there, and a carry lever is out. Where does its step go?"),
            Slip(answer=lambda: (_turned(995500, 7250).result, "no"),
                 says="The register is right. Follow the last carry: which lever has no carry pin beside it?"),
        ),
        nudges=("Add on paper first. Then think of the windows: how many digits of the sum can be seen?",
                "The bell rings when the highest lever is out at the end of the turn.")),
    Exercise(
        label="slow levers",
        question="On a drum like slate's the pin pitch is 9°, but the carry levers are slower: they need 4° to come "
                 "fully out. What is the smallest helix step, in whole degrees, with which 9999 + 1 still comes to "
                 "10 000 in one turn?",
        kind=Number(example=20),
        right=_smallest_helix_step,
        praise="The next pin may not come before the step is done and the lever it pushed is out.",
        slips=(
            Slip(answer=lambda: PITCH,
                 says="After these degrees the wheel has done its step. But the lever that it pushed is not out yet."),
            Slip(answer=lambda: THROW,
                 says="That is the lever's time alone. Before that, the wheel needs time for its step."),
            Slip(answer=lambda: int(load_spec("slate").helix_step),
                 says="That is slate's own helix step, and it is enough for slate's quicker levers. These are slower."),
        ),
        nudges=("Two things must happen between one carry pin and the next. Which, and how long does each take?",
                "First the wheel's step, then the lever's throw; they come one after the other.")),
)
