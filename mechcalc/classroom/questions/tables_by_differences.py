"""The exercises of the lesson "Tables by differences".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from functools import cache

from mechcalc.classroom.answers import Choice, Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.machines import ready
from mechcalc.errors import CapacityError
from mechcalc.methods.differences import difference_start, table_by_differences, tabulate
from mechcalc.methods.differencing import differences_of, slips_of

COPIED = (7, 15, 29, 49, 75, 107, 154, 189, 239, 295)  # 3x² + 5x + 7, with 145 written as 154 (invented)
WRONG = ("an entry", "a first difference", "a second difference")


def _after(shown: int, setting: int) -> int:
    """What slate shows after one turn."""
    machine = ready("slate", result=shown, setting=setting)
    machine.turn()
    return machine.result


def _next_square(root: int) -> tuple[int, int]:
    """The number to set on slate when it shows a square, found by trying, and what the next turn then gives."""
    setting = next(number for number in range(10**4) if _after(root**2, number) == (root + 1)**2)
    return setting, _after(root**2, setting)


@cache
def _constant() -> int:
    return difference_start("5*x**3 - x + 2")[-1]


@cache
def _started_at(x: int) -> tuple[int, ...]:
    """First value, first difference, second difference of x² + x + 41."""
    return difference_start("x**2 + x + 41", start=x)


def _wrong_entry() -> tuple[int, int]:
    (slip,) = slips_of(COPIED, 2)
    return slip.x, slip.right


def _trace(order: int) -> tuple[int, ...]:
    """What is not nought among the fourth differences of cubes, after a slip of 5 in an entry or a difference.

    The wrong number is then turned in on bench, where the column before it is worked with it.
    """
    table = table_by_differences(ready("bench"), (0, 1, 6, 6), 14)
    columns = [list(table.column(name)) for name in ("f", "first difference", "second difference")[:order + 1]]
    columns[order][7 - order] += 5
    for above, below in zip(columns[-2::-1], columns[:0:-1], strict=True):
        machine = ready("bench", result=above[0])
        for at, number in enumerate(below, start=1):
            machine.set(number)
            machine.turn()
            above[at] = machine.result
    return tuple(number for number in differences_of(columns[0], 4) if number)


@cache
def _what_was_wrong(*seen: int) -> str:
    """What leaves this trace."""
    (wrong,) = [wrong for order, wrong in enumerate(WRONG) if _trace(order) == seen]
    return wrong


def _fits(entries: int) -> bool:
    try:
        tabulate(ready("slate"), "x**3", entries)
    except CapacityError:
        return False
    return True


@cache
def _last_cube() -> int:
    """The last x of the longest table of cubes, from nought, that slate can work by differences."""
    return next(entries for entries in range(101, 0, -1) if _fits(entries)) - 1


def _largest(limit: int) -> int:
    return next(x for x in range(limit) if (x + 1)**3 >= limit)


EXERCISES = (
    Exercise(
        label="the next square",
        question="Slate's result shows 2209, which is 47². With one turn it is to show 48². Which number do you set, "
                 "and what does the result show after the turn? Write both, as in (12, 3456).",
        kind=Several(setting=Number(example=12), result=Number(example=3456)),
        right=lambda: _next_square(47),
        praise="From 47² to 48² it is twice 47 and one.",
        slips=(
            Slip(answer=lambda: (2 * 47, ...),
                 says="Twice 47 makes the two sides of the border. What is missing at the corner?"),
            Slip(answer=lambda: (2 * 48, ...),
                 says="That is even. Which numbers are added up to make squares?"),
            Slip(answer=lambda: (2 * 48 + 1, ...),
                 says="That is the odd number that leads from 48² to the square after it."),
        ),
        nudges=("(x + 1)² is x² and how much more?",
                "Put x = 47 into 2x + 1.")),
    Exercise(
        label="begin at ten",
        question="A table of x² + x + 41 is to begin at x = 10 and go on by steps of 1. Which first value, first "
                 "difference and second difference do you begin with? Write all three, as in (12, 3, 4).",
        kind=Several(first_value=Number(example=12), first_difference=Number(example=3),
                     second_difference=Number(example=4)),
        right=lambda: _started_at(10),
        praise="Only the second difference does not care where the table begins.",
        slips=(
            Slip(answer=lambda: _started_at(0),
                 says="So it begins at x = 0. Work the values at 10, 11 and 12 first."),
            Slip(answer=lambda: (_started_at(10)[0], _started_at(9)[1], ...),
                 says="That is how far it is from x = 9 to x = 10. The table goes on from 10."),
            Slip(answer=lambda: (_started_at(10)[0], _started_at(0)[1], ...),
                 says="The first value is right. But that first difference belongs to x = 0: differences of a square "
                      "grow."),
            Slip(answer=lambda: (*_started_at(10)[:2], 1),
                 says="The first two are right. The constant of x² is not its factor 1: how far apart are two odd "
                      "neighbours?"),
        ),
        nudges=("You need three values: at x = 10, 11 and 12. Write them in a row, and their differences below.",
                "10² + 10 + 41, then 11² + 11 + 41, then 12² + 12 + 41.")),
    Exercise(
        label="the constant",
        question="5x³ − x + 2 is tabled at x = 0, 1, 2, and so on. What is its constant third difference?",
        kind=Number(example=12),
        right=_constant,
        praise="Three factorial times the factor of x³; the other terms have no say.",
        slips=(
            Slip(answer=lambda: difference_start("x**3")[-1],
                 says="So it is for x³ alone. What does the factor 5 do to every difference?"),
            Slip(answer=lambda: 5,
                 says="That is the factor of x³. For x³ alone, with factor 1, is the constant 1?"),
            Slip(answer=lambda: 3 * 5,
                 says="The first step brings a 3 down from the exponent. There are two more steps."),
            Slip(answer=lambda: _constant() - 1,
                 says="The term −x is gone after two steps: its own second differences are nought."),
        ),
        nudges=("Each step takes one off the degree and brings the exponent down as a factor.",
                "3 · 2 · 1, and times the factor of x³.")),
    Exercise(
        label="one wrong entry",
        question="Someone has copied a table of a polynomial of degree 2, for x = 0 to 9: "
                 f"{', '.join(map(str, COPIED))}. One entry is wrong. At which x, and what should stand there? Write "
                 "both, as in (3, 49).",
        kind=Several(x=Number(example=3), entry=Number(example=49)),
        right=_wrong_entry,
        praise="Two neighbours had changed places.",
        slips=(
            Slip(answer=lambda: (5, ...),
                 says="The second differences go wrong there already, because they look one entry ahead. Where is the "
                      "middle of the trouble?"),
            Slip(answer=lambda: (7, ...),
                 says="The second differences are still wrong there, because they look back. Where is the middle of "
                      "the trouble?"),
            Slip(answer=lambda: (_wrong_entry()[0], COPIED[6] - _wrong_entry()[1]),
                 says="The place is right, and that is by how much it is out. What should stand there?"),
            Slip(answer=lambda: (_wrong_entry()[0], 2 * COPIED[6] - _wrong_entry()[1]),
                 says="The place is right. You have put it right the wrong way: is the entry too large or too small?"),
        ),
        nudges=("Write the first differences below, then the second. All second differences should be 6.",
                "The second differences go 6, 6, 6, 6, 15, −12, 15, 6. In a right table an error e shows as e, −2e, "
                "e.")),
    Exercise(
        label="what was wrong",
        question="A table of cubes was worked by differences. Its fourth differences are all 0, but for four of them: "
                 "5, −15, 15, −5. What was wrong: was an entry written wrongly, or was a first or a second difference "
                 "turned in wrongly? Write \"an entry\", \"a first difference\" or \"a second difference\".",
        kind=Choice(*WRONG),
        right=lambda: _what_was_wrong(5, -15, 15, -5),
        praise="All entries from there on are out by the same, and the trace is 1, −3, 3, −1 times 5.",
        slips=(
            Slip(answer=lambda: "an entry",
                 says="One wrong entry touches five fourth differences: 1, −4, 6, −4, 1."),
            Slip(answer=lambda: "a second difference",
                 says="That would leave only three: it is nearer to the constant, and fewer steps lie between."),
        ),
        nudges=("Divide by 5. In which row of Pascal's triangle are the numbers?",
                "1, 3, 3, 1 belongs to the third power: three steps from what was wrong to the fourth differences.")),
    Exercise(
        label="as far as slate goes",
        question="You table cubes on slate by differences: 0³, 1³, 2³ and so on, with four levers and six number "
                 "wheels. What is the largest x whose cube you can reach?",
        kind=Number(example=12),
        right=_last_cube,
        praise="The cubes themselves are never set; their first differences are, and these have to fit on the levers.",
        slips=(
            Slip(answer=lambda: _largest(10**6),
                 says="The number wheels could show that one. But what has to be set on the levers to get there?"),
            Slip(answer=lambda: _largest(10**4),
                 says="You looked for cubes that fit on the levers. Do cubes ever go on the levers?"),
            Slip(answer=lambda: _last_cube() - 1,
                 says="Very near. The last first difference that fits leads from this x to the next."),
            Slip(answer=lambda: _last_cube() + 1,
                 says="Very near. To get there you would have to set a number with five digits."),
        ),
        nudges=("The step from x³ to (x + 1)³ is 3x² + 3x + 1. For which x does that still fit on four levers?",
                "3x² + 3x + 1 may be 9999 at most. Then remember that it leads to x + 1.")),
)
