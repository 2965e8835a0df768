"""The usual misconceptions, by what they do to an answer.

Only this file lists them. Specific ones come first. That they are usual is common practice among teachers of written
and mechanical arithmetic, no source; that the smaller figure is taken from the larger is in Brown and Burton,
"Diagnostic models for procedural bugs in basic mathematical skills", Cognitive Science 2 (1978) (from memory). What
each leads to is worked out.
"""

from __future__ import annotations

from math import prod

from mechcalc.methods.complement import nines_complement
from mechcalc.preparing.marking import slip_values as values
from mechcalc.preparing.marking.slips import Misconception
from mechcalc.preparing.sheets.questions import REGISTERS

ANSWERS = ("result", "answer")
COUNTS = ("turns", "shifts", "settings", "bells", "figures", "carries", "position")
SHOWN = ("setting", "result", "counter", "answer", "remainder")
PRODUCTS = ("multiply", "chain")
FIGURE_BY_FIGURE = ("divide", "square root", "cube root")


def _another_register(register: str) -> Misconception:
    return Misconception(
        name=f"{register} read instead", questions=tuple(name for name in SHOWN if name != register),
        values=lambda problem, right: (getattr(problem.working.end.reading, register),),
        says=f"The {register} was read where another row of windows was asked for. Have the registers shown and named "
             f"on the machine, and covered one by one.")


_ALL = (
    Misconception(
        name="carries forgotten", questions=ANSWERS, tasks=("add",), values=values.no_carries,
        says="Each place was added for itself and the ten dropped. Turn slowly and watch the carry lever of the wheel "
             "that passes nine."),
    Misconception(
        name="a number left out", questions=ANSWERS, tasks=("add",), values=values.one_left_out,
        says="One of the numbers was set and not turned in, or passed over. Let the counter tell how many turns there "
             "were."),
    Misconception(
        name="numbers lined up at the head", questions=ANSWERS, tasks=("add",), values=values.lined_up_at_the_head,
        says="Numbers of different lengths were lined up at their first figures. Units belong to lever 1."),
    Misconception(
        name="smaller figure taken from the larger", questions=ANSWERS, tasks=("subtract",),
        values=values.smaller_from_larger,
        says="In each place the smaller figure was taken from the larger. Watch a borrow run on the machine."),
    Misconception(
        name="borrows forgotten", questions=ANSWERS, tasks=("subtract",), values=values.no_borrows,
        says="In each place the figure was taken from ten where it did not go, and the next place was left as it was. "
             "Watch what the carry lever does in a subtractive turn."),
    Misconception(
        name="added instead of taken away", questions=ANSWERS, tasks=("subtract",),
        values=lambda problem, right: (sum(problem.numbers),),
        says="The crank was turned forward where it should go back. Which way does the counter go?"),
    Misconception(
        name="complement read as number", questions=("answer",), tasks=("subtract",), values=values.windows,
        says="The windows were copied as they stand, the nines in front or the 1 that is to be struck off among them. "
             "Ask what the bell said, or what was lent."),
    Misconception(
        name="amount written for the complement", questions=("result",), tasks=("subtract",),
        values=lambda problem, right: (problem.working.answer, abs(problem.working.answer)),
        says="The answer is understood, but the question was what the windows show: a wheel has no minus sign."),
    Misconception(
        name="nine’s complement taken", questions=("setting", "answer", "result"), tasks=("subtract by complement",),
        values=lambda problem, right: (right - 1,),
        says="Every figure was taken from nine. The ten’s complement is one more."),
    Misconception(
        name="number set instead of its complement", questions=("setting",), tasks=("subtract by complement",),
        values=lambda problem, right: (problem.numbers[-1], nines_complement(
            problem.numbers[-1], len(str(problem.numbers[-1]))) + 1),
        says="The number itself was set, or its complement in its own places only: on this machine the complement "
             "fills all the levers."),
    Misconception(
        name="subtractive turns made additive", questions=ANSWERS, tasks=("multiply by short cut",),
        values=values.turns_added,
        says="The turns back were made forwards. 98 times is 100 times less 2 times."),
    Misconception(
        name="shift forgotten", questions=ANSWERS, tasks=PRODUCTS, values=values.shift_forgotten,
        says="All turns were made in one place: as many as the figures add up to. A turn counts ten only after a "
             "shift."),
    Misconception(
        name="multiplier turned round", questions=ANSWERS, tasks=PRODUCTS, values=values.turned_round,
        says="The figures of the multiplier were worked from the wrong end. The units belong to the home position."),
    Misconception(
        name="nought in the multiplier passed over", questions=ANSWERS, tasks=PRODUCTS,
        values=values.nought_passed_over,
        says="For a nought there is no turn, but there is a shift."),
    Misconception(
        name="one turn too many or too few", questions=ANSWERS, tasks=PRODUCTS, values=values.turn_too_many,
        says="In one place the crank was turned once too often, or once too little. The counter would have shown it: "
             "compare it with the multiplier."),
    Misconception(
        name="carries forgotten in the product", questions=ANSWERS, tasks=PRODUCTS, values=values.carryless,
        says="Figures were multiplied place by place and the tens dropped. Build the product up turn by turn."),
    Misconception(
        name="last factor left out", questions=ANSWERS, tasks=("chain",),
        values=lambda problem, right: (prod(problem.numbers[:-1]),),
        says="The chain stopped one factor early: after back transfer the next multiplication has to be made."),
    Misconception(
        name="levers left at the first factor", questions=ANSWERS, tasks=("chain",),
        values=lambda problem, right: (problem.numbers[0] * problem.numbers[-1],),
        says="The product was not brought back to the levers, and the first factor was multiplied again."),
    Misconception(
        name="result not cleared between factors", questions=ANSWERS, tasks=("chain",),
        values=values.not_cleared_between,
        says="The product was set again while it still stood in the result, and was counted once more. Back transfer "
             "clears the result by itself; by hand it has to be cleared."),
    Misconception(
        name="turns counted, places not", questions=("counter",), tasks=("multiply",), values=values.digit_sum,
        says="All turns were counted alike. The counter counts at the wheel before the carriage’s position."),
    Misconception(
        name="turns of the plain way", questions=("turns",), tasks=("multiply by short cut",),
        values=values.plain_turns,
        says="As many turns as the figures add up to: that is the way without the short cut."),
    Misconception(
        name="as many turns as the multiplier says", questions=("turns",), tasks=PRODUCTS, values=values.multiplier,
        says="Without shifting it would take that many. What is a turn worth after a shift?"),
    Misconception(
        name="one too many not put back", questions=("answer", "counter", "result"), tasks=FIGURE_BY_FIGURE,
        values=values.one_unit,
        says="The bell rang for the last turn, and that turn was left in. One turn the other way puts it right."),
    Misconception(
        name="one too many in every place", questions=("answer",), tasks=FIGURE_BY_FIGURE,
        values=values.one_unit_everywhere,
        says="In every place the turn that rang the bell was counted. The counter runs back by itself when that turn "
             "is put back; on paper it has to be taken off."),
    Misconception(
        name="overdraft read as remainder", questions=("remainder", "result"), tasks=FIGURE_BY_FIGURE,
        values=values.overdraft,
        says="The reading after the turn that was too many: a complement, or what it stands for. The remainder stands "
             "there when that turn is put back."),
    Misconception(
        name="nought in the answer left out", questions=("answer",), tasks=FIGURE_BY_FIGURE,
        values=values.nought_left_out,
        says="A place where it does not go once is a nought in the answer: shift, and leave the counter wheel at 0."),
    Misconception(
        name="point forgotten", questions=("answer", "remainder"), tasks=FIGURE_BY_FIGURE,
        values=values.point_forgotten,
        says="The windows were copied without the point. How many places did the number go in further to the left?"),
    Misconception(
        name="dividend and divisor changed places", questions=("answer",), tasks=("divide",),
        values=values.changed_places,
        says="The number on the levers is what is taken away: the divisor."),
    Misconception(
        name="turn that puts the number in not counted", questions=("turns",), tasks=FIGURE_BY_FIGURE,
        values=values.entering_not_counted,
        says="Only the turns after that were counted; the sheet asks for all of them. Harmless."),
    Misconception(
        name="putting back not counted", questions=("turns",), tasks=("divide", "square root restoring"),
        values=values.putting_back_not_counted,
        says="Turns that were too many, or those that put them back, were not counted. They are work as well: that is "
             "what dividing without putting back saves."),
    Misconception(
        name="only one bell of each pair", questions=("bells",), tasks=("divide", "square root restoring"),
        values=values.half_the_bells,
        says="The bell rings when the overdraft is put back as well: the borrow that was lent comes home."),
    Misconception(
        name="last odd number read as root", questions=("answer",), tasks=("square root", "cube root"),
        values=values.last_odd_number,
        says="The levers show the last odd number that went; half of one more is the root."),
    Misconception(
        name="half taken for the root", questions=("answer",), tasks=("square root",), values=values.half,
        says="A root was taken for a half. Multiply the answer by itself."),
    Misconception(
        name="not shifted at all", questions=("shifts",), values=lambda problem, right: (0,),
        says="No shift was made, or none was counted as one. A turn counts ten only after a shift."),
    Misconception(
        name="positions counted, not shifts", questions=("shifts",), values=values.positions,
        says="From one position to the next there is one shift: one fewer than there are positions."),
    *(_another_register(register) for register in REGISTERS),
    Misconception(
        name="sign lost", questions=("answer",), values=values.sign_lost,
        says="The amount is right and its sign is not."),
    Misconception(
        name="digits reversed", questions=SHOWN, values=values.backwards,
        says="The windows were copied from the wrong end: units stand at the right."),
    Misconception(
        name="two digits swapped", questions=SHOWN, values=values.swapped,
        says="Two neighbours changed places in copying. Casting out elevens finds this; casting out nines does not."),
    Misconception(
        name="a nought too many or too few", questions=SHOWN, values=values.nought_more,
        says="Right but for a nought at the end: a shift too many or too few, or a slip in copying."),
    Misconception(
        name="one off", questions=COUNTS, values=values.one_off,
        says="One more or one less than it is: a slip in counting, or the first one not counted."),
)

MISCONCEPTIONS: dict[str, Misconception] = {row.name: row for row in _ALL}
