"""The exercises of the lesson "Division without putting back".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from mechcalc.catalogue import load_spec
from mechcalc.classroom.answers import YES_OR_NO, Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.machines import ready
from mechcalc.machine import Machine
from mechcalc.methods.accounts import division_account
from mechcalc.methods.complement import nines_complement, tens_complement
from mechcalc.methods.division import divide
from mechcalc.methods.working import Working
from mechcalc.numbers import from_digits, to_digits

WITHOUT = "without putting back"
DIVISOR = 41  # of the exercises that ask for the quotient's turns; any divisor takes as many


def _worked(dividend: int, divisor: int, method: str = WITHOUT, *, machine: str = "bench", places: int = 0,
            figures: int | None = None) -> Working:
    return divide(Machine(load_spec(machine)), dividend, divisor, method=method, places=places,
                  quotient_places=figures)


def _turns(working: Working) -> int:
    """The turns of the division itself."""
    return division_account(working)[-1].turn


def _turns_for(quotient: int, method: str = WITHOUT) -> int:
    return _turns(_worked(quotient * DIVISOR + 5, DIVISOR, method))


def _first_overdraft(dividend: int, divisor: int) -> int:
    """How much has been taken too much when the bell rings for the first time."""
    account = division_account(_worked(dividend, divisor, machine="slate"))
    return next(-entry.remainder for entry in account if entry.remainder < 0)


def _after_the_first_bell(dividend: int, divisor: int, turns: int) -> Machine:
    """Slate, after so many subtractive turns at position 1."""
    machine = ready("slate", result=dividend, setting=divisor, carriage=1)
    machine.turn(-turns)
    return machine


def _counted(*steps: tuple[int, int]) -> int:
    """What a counter shows after turns at positions (position, turns back), the first of them counting up."""
    machine = ready("bench", setting=1)
    for position, back in steps:
        machine.shift_to(position)
        machine.turn(-back)
    return machine.counter


def _plain_shows(quotient: int) -> int:
    return _worked(quotient * DIVISOR + 5, DIVISOR, machine="plain").end.reading.counter


def _one_less(number: int, *wheels: int, nought: int = 9) -> int:
    """A number of four figures with one less read on some wheels; for a 0 the figure `nought`."""
    return from_digits((digit - 1 if digit else nought) if wheel in wheels else digit
                       for wheel, digit in enumerate(to_digits(number, 4), start=1))


def _nearest() -> tuple[str, int]:
    """Whether the last turn of 4000 ÷ 13 is to be put back for the nearest whole quotient, and that quotient."""
    owing, left = division_account(_worked(4000, 13, machine="slate"))[-2:]
    return ("no", owing.counter) if -owing.remainder < left.remainder else ("yes", left.counter)


def _cut_off() -> int:
    return _worked(4000, 13, machine="slate").answer


def _both_starts(method: str = WITHOUT) -> tuple[int, int]:
    """The turns for 100 ÷ 16 = 6.25 in three positions and in four."""
    three, four = (_turns(_worked(100, 16, method, places=2, figures=figures)) for figures in (3, 4))
    return three, four


EXERCISES = (
    Exercise(
        label="after the first bell",
        question="You divide 3105 by 54 on slate and turn back with the carriage at position 1. The bell has just rung "
                 "for the first time. What do the six windows show?",
        kind=Number(example=123456),
        right=lambda: _after_the_first_bell(3105, 54, 6).result,
        praise="Nines in front: a debt, and it may stay.",
        slips=(
            Slip(answer=lambda: _first_overdraft(3105, 54),
                 says="So large is the debt. But the windows have no minus sign: how does a debt look on them?"),
            Slip(answer=lambda: _after_the_first_bell(3105, 54, 5).result,
                 says="That is the last reading before the bell. One turn more has been made."),
            Slip(answer=lambda: nines_complement(_first_overdraft(3105, 54), 6),
                 says="Nearly: each digit is taken from nine here. And the last one?"),
            Slip(answer=lambda: tens_complement(_first_overdraft(3105, 54), 4),
                 says="The borrow does not stop at four digits. How many wheels has slate?"),
        ),
        nudges=("At position 1 each turn takes 540 away. How many such turns go, and how many has the bell seen?",
                "Six turns take 3240. That is more than 3105: by how much? Then write it as a complement in six "
                "places.")),
    Exercise(
        label="turns for 4716",
        question="A quotient is 4716. How many turns does the division take without putting back, the turn that brings "
                 "the dividend in not counted?",
        kind=Number(example=25),
        right=lambda: _turns_for(4716),
        praise="One too many, made up from ten, one too many, made up from ten; and four figures end plain.",
        slips=(
            Slip(answer=lambda: _turns_for(4716, "restoring"),
                 says="So many it takes if every overdraft is put back."),
            Slip(answer=lambda: sum(int(figure) for figure in "4716"),
                 says="These are the turns that go. Without comparing, you turn until the bell rings."),
            Slip(answer=lambda: sum(int(figure) + 1 for figure in "4716"),
                 says="One too many at each figure? The second figure is worked the other way, by adding."),
            Slip(answer=lambda: _turns_for(4716) + 1,
                 says="One too many. Does the last figure end in debt here? Count the figures."),
        ),
        nudges=("The first and the third figure take one turn more than they say. And the second and the fourth?",
                "Five, then three, then ...")),
    Exercise(
        label="a list of turns",
        question="Somebody divided without putting back and wrote down the turns only. Position 2: 4 back. Position 1: "
                 "6 on. Position 0: 8 back, and 1 on at the end. What is the quotient?",
        kind=Number(example=123),
        right=lambda: _counted((2, 4), (1, -6), (0, 8), (0, -1)),
        praise="Signed figures: so many hundreds, less so many tens, and so on.",
        slips=(
            Slip(answer=lambda: _counted((2, 4), (1, 6), (0, 8), (0, 1)),
                 says="Here every turn counts up. But what does the counter do when the crank turns the other way?"),
            Slip(answer=lambda: _counted((2, 4), (1, 6), (0, 8), (0, -1)),
                 says="The last turn is taken off, rightly. And the turns at position 1?"),
            Slip(answer=lambda: _counted((2, 4), (1, -6), (0, 8)),
                 says="Nearly: the very last turn has a sign too."),
        ),
        nudges=("Four hundreds, less six tens. Go on.",
                "A turn back counts up, a turn on counts down, each at its place.")),
    Exercise(
        label="read plain's counter",
        question="Plain, whose counter does not carry, has worked four figures without putting back. Its counter shows "
                 "000716. What is the quotient?",
        kind=Number(),
        right=lambda: 9706,
        praise="The first figure took ten turns and stood at nought again.",
        slips=(
            Slip(answer=lambda: _plain_shows(9706),
                 says="So it reads, but the borrows are missing. Which figures have been turned once too often?"),
            Slip(answer=lambda: _one_less(_plain_shows(9706), 4, 2, nought=0),
                 says="The third figure is read one less, rightly. The first as well: what comes one before 0 on a "
                      "wheel?"),
            Slip(answer=lambda: _one_less(_plain_shows(9706), 4, 3, 2, 1),
                 says="You have read every figure one less. Those worked by adding are right as they stand."),
            Slip(answer=lambda: _one_less(_plain_shows(9706), 3, 1),
                 says="One less, but on the wrong figures: the second and fourth were worked by adding."),
        ),
        nudges=("There are four figures: 0, 7, 1, 6. The first and the third were turned one time too many.",
                "One less than 1 is 0. One less than 0, on a wheel, is 9.")),
    Exercise(
        label="leave it or put it back",
        question="You divide 4000 by 13 on slate without putting back, in three positions. The bell has rung for the "
                 "last figure, and the windows show 999 996. The quotient is wanted to the nearest whole number. Is "
                 "the last turn to be put back, and what does the counter show in the end? Write both, as in "
                 "(\"yes\", 123).",
        kind=Several(put_back=YES_OR_NO, counter=Number(example=123)),
        right=_nearest,
        praise="The debt is the smaller of the two, so the larger quotient is the nearer one: rounding for nothing.",
        slips=(
            Slip(answer=lambda: ("yes", _cut_off()),
                 says="That is the quotient cut off. How large is the debt in the windows, and how much would be left "
                      "if you put the turn back? Which is less?"),
            Slip(answer=lambda: ("no", _cut_off()),
                 says="The turn stays, rightly. But then the counter has counted it."),
            Slip(answer=lambda: ("yes", _nearest()[1]),
                 says="The number is right. Does the counter show it before or after the turn is put back?"),
        ),
        nudges=("What does 999 996 mean? And half of 13?",
                "4 are missing to one more 13. If the turn is put back, 9 are left over.")),
    Exercise(
        label="where to begin",
        question="100 ÷ 16 is to be worked on bench to two decimals; it is 6.25. How many turns does it take without "
                 "putting back if you begin where the 6 comes up, and how many if you begin one position further left, "
                 "with a nought? The turn that brings the dividend in does not count. Write both, as in (30, 31).",
        kind=Several(three_figures=Number(example=30), four_figures=Number(example=31)),
        right=_both_starts,
        praise="The nought costs one turn, and turns the other figures round: it pays here.",
        slips=(
            Slip(answer=lambda: _both_starts()[::-1],
                 says="The right numbers the wrong way round. Which start makes the 6 cheap?"),
            Slip(answer=lambda: _both_starts("restoring"),
                 says="So many it takes with putting back."),
            Slip(answer=lambda: (_both_starts()[0] - 1, ...),
                 says="Three figures end in debt: there is one more turn at the very end."),
            Slip(answer=lambda: (..., _both_starts()[1] - 1),
                 says="You only know that a nought is a nought when the bell has rung: what does that cost?"),
        ),
        nudges=("Three figures, 6, 2, 5, are worked back, on, back. Four, 0, 6, 2, 5, are worked back, on, back, on.",
                "A figure q worked back takes q + 1 turns, worked on 10 − q. An odd number of figures takes one turn "
                "more.")),
)
