"""The exercises of the lesson "A statistics laboratory".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from functools import lru_cache

from mechcalc.classroom.answers import YES_OR_NO, Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.machines import ready
from mechcalc.errors import CapacityError
from mechcalc.methods.capacity import places
from mechcalc.methods.checks import check_sum_of_products
from mechcalc.methods.paper import OneVariable, TwoVariables
from mechcalc.methods.sums import sum_of_products, sums_of_one, sums_of_two

MANY, LARGEST_X, LARGEST_Y = 25, 40, 75
CROSSED = ((4, 45), (6, 52), (7, 73))
SMALL_GAP = 3
VALUES, OFFSET = (44, 46, 47, 48, 50), 40
CHECKED = ((3, 14), (5, 15), (8, 18))


@lru_cache(maxsize=1)
def _five() -> TwoVariables:
    return sums_of_two(ready("ledger"), (2, 3, 5, 7), (11, 13, 14, 18), way="one pass")


def _windows() -> tuple[int, int]:
    """Result and counter after the pass."""
    reading = _five().working.end.reading
    return reading.result, reading.counter


@lru_cache(maxsize=4)
def _gap_for(many: int, x: int, y: int) -> int:
    """The places that a sum of so many products takes, all of them as large as they can be."""
    return places(sum_of_products(ready("ledger"), *[(y, x)] * many).answer)


@lru_cache(maxsize=4)
def _crossed(gap: int) -> tuple[int, int]:
    """The fields as they are read when x and y stand so many places apart."""
    pairs = [(x * 10**gap + y, x) for x, y in CROSSED]
    upper, lower = divmod(sum_of_products(ready("bench"), *pairs).answer, 10**gap)
    return upper, lower


@lru_cache(maxsize=1)
def _shortened() -> OneVariable:
    return sums_of_one(ready("bench"), VALUES, offset=OFFSET)


def _noticed(by: int) -> str:
    right = sum_of_products(ready("bench"), *CHECKED).answer
    swapped = int(f"{right // 100}{right % 10}{right // 10 % 10}")
    return "no" if check_sum_of_products(CHECKED, swapped, by) else "yes"


@lru_cache(maxsize=1)
def _room() -> int:
    """How many values of 99 plain takes in one pass, a 1 beside each."""
    many = 1
    while True:
        try:
            sums_of_one(ready("plain"), [99] * (many + 1), way="side by side")
        except CapacityError:
            return many
        many += 1


EXERCISES = (
    Exercise(
        label="five sums",
        question="On ledger, four pairs of x and y were set side by side, three places apart, and each setting was "
                 f"multiplied by itself. The result now shows {_windows()[0]} and the counter {_windows()[1]}. What "
                 "are Σx, Σxy and Σy²? Write all three, as in (12, 345, 678).",
        kind=Several(sum_x=Number(example=12), sum_xy=Number(example=345), sum_yy=Number(example=678)),
        right=lambda: (_five().sum_x, _five().sum_xy, _five().sum_yy),
        praise="Five sums in two registers, and one pass through the data.",
        slips=(
            Slip(answer=lambda: (..., 2 * _five().sum_xy, ...),
                 says="The middle field is well cut. But look at the square of a sum once more: how often does the "
                      "mixed product stand in it?"),
            Slip(answer=lambda: (_windows()[1] // 100, ..., ...),
                 says="How many places apart did x and y stand? The counter is cut there as well."),
            Slip(answer=lambda: (..., ..., _five().sum_xx),
                 says="The sum of x² stands at the upper end, and that of y² at the lower."),
        ),
        nudges=("Cut both registers from the right, every three places.",
                "(x·10³ + y)² = x²·10⁶ + 2xy·10³ + y².")),
    Exercise(
        label="a safe gap",
        question=f"{MANY} pairs are to be worked: x beside y on the levers, times x. No x is more than {LARGEST_X}, no "
                 f"y more than {LARGEST_Y}. Before you know the sums: how many places does the field of Σxy need, to "
                 "be safe?",
        kind=Number(example=3),
        right=lambda: _gap_for(MANY, LARGEST_X, LARGEST_Y),
        praise="The number of pairs times the largest product: that is the operator's rule.",
        slips=(
            Slip(answer=lambda: _gap_for(1, LARGEST_X, LARGEST_Y),
                 says="One product fits into so many. But they add up."),
            Slip(answer=lambda: places(LARGEST_Y),
                 says="There y fits in, as long as nobody turns the crank. What will stand in the field at the end?"),
            Slip(answer=lambda: _gap_for(MANY, LARGEST_Y, LARGEST_Y),
                 says="So it would be for Σy². Here each setting is multiplied by x."),
        ),
        nudges=("What is the largest that one product can be? And all of them together?",
                "25 × 40 × 75. How many digits is that?")),
    Exercise(
        label="over the border",
        question=f"Somebody has set x and y only {SMALL_GAP} places apart and multiplied each setting by x. The result "
                 f"shows {_crossed(SMALL_GAP)[0] * 10**SMALL_GAP + _crossed(SMALL_GAP)[1]}. A rough reckoning says "
                 "that Σxy must be a little more than 1000. What is Σx²?",
        kind=Number(example=50),
        right=lambda: _crossed(2 * SMALL_GAP)[0],
        praise="Nothing was lost in the machine. Only the border stood in the wrong place.",
        slips=(
            Slip(answer=lambda: _crossed(SMALL_GAP)[0],
                 says="So it reads. But the lower field shows far less than the rough reckoning: where has its "
                      "thousand gone?"),
            Slip(answer=lambda: _crossed(SMALL_GAP)[0] + 1,
                 says="The thousand has gone up already. Does it have to be put on, or taken off?"),
            Slip(answer=lambda: _crossed(2 * SMALL_GAP)[1],
                 says="That is the other sum, Σxy, and it is right. Which digits are left for Σx²?"),
        ),
        nudges=("The whole register is Σx² · 1000 + Σxy, whatever the digits look like.",
                "Take Σxy, which ends in 003, off the whole register.")),
    Exercise(
        label="an offset",
        question=f"From each of five values {OFFSET} was taken off before it was set. The machine gives "
                 f"{_shortened().sum_x} for the sum and {_shortened().sum_xx} for the sum of squares. What are mean "
                 "and sample variance (with n − 1) of the five values themselves? Write both, as in (12, 3).",
        kind=Several(mean=Number(example=12), variance=Number(example=3)),
        right=lambda: (int(_shortened().mean), int(_shortened().variance)),
        praise="The mean has to be moved back; the spread never moved.",
        slips=(
            Slip(answer=lambda: (_shortened().sum_x // _shortened().n, ...),
                 says="That is the mean of the numbers on the levers. The values themselves were larger."),
            Slip(answer=lambda: (..., OFFSET + int(_shortened().variance)),
                 says="If all values move by the same amount, do they lie further apart?"),
            Slip(answer=lambda: (..., (_shortened().n * _shortened().sum_xx - _shortened().sum_x**2)
                                 // _shortened().n**2),
                 says="You have divided by n × n. For a sample it is n × (n − 1)."),
        ),
        nudges=("Work mean and variance of what was set; then think what the offset has done to each.",
                "Variance: 5 × 265 − 35 × 35, divided by 5 × 4.")),
    Exercise(
        label="who notices",
        question="3 × 14 + 5 × 15 + 8 × 18 comes to 261. In the notebook somebody has written 216. Does casting out "
                 "nines notice? Does casting out elevens? Write both, as in (\"yes\", \"yes\").",
        kind=Several(nines=YES_OR_NO, elevens=YES_OR_NO),
        right=lambda: (_noticed(9), _noticed(11)),
        praise="Digits that have changed places add up to the same. Elevens count them plus and minus in turn.",
        slips=(
            Slip(answer=lambda: ("yes", "yes"),
                 says="Add up the digits of 261 and of 216, and compare."),
            Slip(answer=lambda: ("no", "no"),
                 says="The nines are right. For elevens, take the digits plus and minus in turn, from the units."),
            Slip(answer=lambda: ("yes", "no"),
                 says="It is the other way round in both: which of the two looks at the order of the digits?"),
        ),
        nudges=("Nines: digits added up. Elevens: units, less tens, plus hundreds.",
                "2 + 6 + 1 and 2 + 1 + 6; 1 − 6 + 2 and 6 − 1 + 2.")),    Exercise(
        label="room for how many",
        question="Plain has six levers and ten number wheels, and its counter does not carry. So one sets a 1 at the "
                 "upper end of the levers and x at the lower end, and turns x times: the result then gathers Σx and "
                 "Σx², side by side. Every x may be as large as 99. How many values are sure to fit?",
        kind=Number(example=50),
        right=_room,
        praise="It is the levers that set the limit, and not the windows.",
        slips=(
            Slip(answer=lambda: (10**6 - 1) // 99**2,
                 says="So many squares fit into six places. But one of the six levers holds the 1: how many places are "
                      "left below it?"),
            Slip(answer=lambda: (10**4 - 1) // 99**2,
                 says="The levers of x lie inside the field of Σx²; no more room has to be kept for them."),
            Slip(answer=lambda: 99,
                 says="That is how large a value may be. How many of them may there be?"),
        ),
        nudges=("The 1 stands on lever 6. So the field of Σx² has five places.",
                "How often does 99 × 99 go into 99 999?")),
)
