"""The exercises of the lesson "Square roots".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from mechcalc.classroom.answers import Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.machines import ready
from mechcalc.errors import CapacityError
from mechcalc.machine import Machine
from mechcalc.methods.gnomons import Gnomon, gnomons_of
from mechcalc.methods.roots import square_root
from mechcalc.methods.working import Working


def _taken_away(number: int, *, carriage: int = 0, first: int = 1, most: int = 10**6) -> Machine:
    """Bench, after odd numbers from `first` on have been taken away as long as they go, or `most` of them."""
    machine = ready("bench", result=number, carriage=carriage)
    odd = first
    while odd * 10**carriage <= machine.result and (odd - first) // 2 < most:
        machine.set(odd)
        machine.turn(-1)
        odd += 2
    return machine


def _figure_by_figure(number: int, method: str = "compare first") -> int:
    """The turns of a root, without the one that puts the number in."""
    return square_root(ready("bench"), number, method=method).turns - 1


def _next_strip(root: int) -> Gnomon:
    """The first strip of the figure that comes after `root`."""
    strips = gnomons_of(square_root(ready("bench"), (10 * root + 2)**2))
    return next(strip for strip in strips if strip.side == 10 * root and strip.width == 1)


def _undoubled(number: int, most: int = 10**6) -> tuple[int, int]:
    """Counter and windows when the lever of the tens has not been raised: 31, 33, 35, … instead of 41, 43, 45, …"""
    machine = ready("slate", result=number, setting=10, carriage=1)
    machine.turn(-1)
    machine.set_lever(2, 3)
    machine.turn(-1)
    machine.shift(-1)
    odd, turns = 31, 0
    while odd <= machine.result and turns < most:
        machine.set(odd)
        machine.turn(-1)
        odd, turns = odd + 2, turns + 1
    return machine.counter, machine.result


def _root(number: int) -> Working:
    return square_root(ready("bench"), number)


def _largest_remainder(root: int) -> int:
    """Of the numbers with that root the last one has the largest remainder."""
    number = next(n for n in range((root + 1)**2 + 3, 0, -1) if _root(n).answer == root)
    remainder = _root(number).remainder
    assert remainder is not None
    return remainder


def _fits(number: int, five_times: bool) -> bool:
    try:
        square_root(ready("slate"), number, five_times=five_times)
    except CapacityError:
        return False
    return True


def _largest(five_times: bool) -> int:
    """The largest number whose root slate takes, by halving the interval in which it lies."""
    low, high = 1, 10**7
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if _fits(middle, five_times) else (low, middle)
    return low


def _levers_for_the_next_figure(root: int, five_times: bool, turn: int = 0) -> int:
    """What the levers show in a turn of the figure that comes after `root`."""
    working = square_root(ready("ledger"), (10 * root + 5)**2, five_times=five_times)
    last = working.end.carriage
    return [stroke.before.reading.setting for stroke in working.strokes if stroke.operation == "crank"
            and stroke.argument < 0 and stroke.before.carriage == last][turn]


def _levers_before_the_next_figure(root: int) -> int:
    """What the levers show when `root` is found by five times the number, and the carriage has not been shifted."""
    return square_root(ready("ledger"), root**2, five_times=True).end.reading.setting


EXERCISES = (
    Exercise(
        label="at home or shifted",
        question="Bench has 7396, a square number, in its windows. How many turns take its root if the carriage stays "
                 "at home all the time, and how many figure by figure? You compare before each turn. Write both, as in "
                 "(123, 45).",
        kind=Several(at_home=Number(), figure_by_figure=Number()),
        right=lambda: (_taken_away(7396).counter, _figure_by_figure(7396)),
        praise="At home as many as the root says; shifted only as many as its figures add up to.",
        slips=(
            Slip(answer=lambda: (_taken_away(7396).setting, ...),
                 says="That is the last odd number. The first one is 1, and each is two more than the one before: how "
                      "many are there?"),
            Slip(answer=lambda: (_taken_away(7396).counter, _figure_by_figure(7396, "restoring")),
                 says="The first is right. The second counts turns that are one too many; but here you look before you "
                      "turn."),
            Slip(answer=lambda: (_taken_away(7396).counter, _taken_away(7396).counter),
                 says="The first is right. With the carriage at position 1, one turn lays ten rows at once."),
        ),
        nudges=("How many odd numbers add up to 7396? Which number times itself is 7396?",
                "It lies between 80 and 90, and its square ends in 6.")),
    Exercise(
        label="the next odd number",
        question="A root begins with 37. You shift the carriage to the next figure. Which odd number do you take away "
                 "first there?",
        kind=Number(),
        right=lambda: _next_strip(37).odd,
        praise="Two sides of 370, and one corner.",
        slips=(
            Slip(answer=lambda: 2 * 37 + 1,
                 says="That would be the next one before the shift. How long are the sides in the new, smaller slabs?"),
            Slip(answer=lambda: 2 * _next_strip(37).side,
                 says="Two sides, rightly. And the slab in the corner?"),
            Slip(answer=lambda: _next_strip(37).side + 1,
                 says="That is one side and the corner. The strip goes along two sides."),
            Slip(answer=lambda: _next_strip(37).odd + 2,
                 says="That is the second one. Which came before it?"),
        ),
        nudges=("One turn lays a strip along two sides of a square. How long is a side, seen from the new figure?",
                "20 times the root so far, and 1.")),
    Exercise(
        label="a forgotten lever",
        question="The root of 625 is wanted. With the tens all goes well: 1 and 3 are taken away at position 1. Then "
                 "somebody forgets to raise the lever from 3 to 4, goes home, and takes away 31, 33, 35, … as long as "
                 "they go. What do the counter and the result windows show in the end? Write both, as in (12, 345).",
        kind=Several(counter=Number(), result=Number()),
        right=lambda: _undoubled(625),
        praise="A wrong root with a harmless look. Multiplying it by itself would show it.",
        slips=(
            Slip(answer=lambda: (_root(625).answer, _root(625).remainder),
                 says="So it would be with the right odd numbers. These are smaller: more is left each time."),
            Slip(answer=lambda: _undoubled(625, most=5),
                 says="So far, so good. But does the next odd number still go?"),
            Slip(answer=lambda: (sum(divmod(_undoubled(625)[0], 10)), _undoubled(625)[1]),
                 says="The windows are right, and so many turns there were. On which wheel did the first two count?"),
        ),
        nudges=("After the tens 225 is left. Take 31 away, then 33, and so on, and count.",
                "31, 33, 35, 37 and 39 make 175. Does 41 go as well?")),
    Exercise(
        label="the largest remainder",
        question="A number's root comes out as 58, with a remainder. How large can the remainder be at most?",
        kind=Number(),
        right=lambda: _largest_remainder(58),
        praise="Twice the root. One more, and the next odd number would go.",
        slips=(
            Slip(answer=lambda: 58 - 1,
                 says="In a division the remainder is less than the divisor. Here nothing is divided by 58: what would "
                      "be taken away next?"),
            Slip(answer=lambda: _largest_remainder(58) + 1,
                 says="With that much left one more turn would go. Which odd number would be next?"),
            Slip(answer=lambda: _taken_away(58**2).setting,
                 says="That is the last odd number that went. The next one is larger by two, and must not go."),
        ),
        nudges=("Which odd number comes after the 58th? It does not go any more.",
                "The 58th odd number is 2 × 58 − 1.")),
    Exercise(
        label="the largest yard",
        question="Slate has four levers, six number wheels and three counter wheels. Which is the largest whole number "
                 "whose root it can take by odd numbers, comparing first, and which is the largest by five times the "
                 "odd numbers? Write both, as in (1234, 567).",
        kind=Several(odd_numbers=Number(), five_times=Number()),
        right=lambda: (_largest(False), _largest(True)),
        praise="The number itself fills the windows; five times a number fills them five times as soon.",
        slips=(
            Slip(answer=lambda: (square_root(ready("slate"), _largest(False)).answer, ...),
                 says="That is the largest root that the counter can show. How large may the number be?"),
            Slip(answer=lambda: (square_root(ready("slate"), _largest(False)).answer**2, ...),
                 says="That is the largest square. But a number need not be one."),
            Slip(answer=lambda: (_largest(False), _largest(False)),
                 says="The first is right. For the second way, what stands in the windows when the number is in?"),
            Slip(answer=lambda: (_largest(False), _largest(True) + 1),
                 says="Nearly: five times that needs one window more than there is."),
        ),
        nudges=("What can six windows show at most? And do the other registers have room for the root?",
                "Five times the second number must not have more than six digits.")),
    Exercise(
        label="the levers at the fourth figure",
        question="A root begins 458. It is worked by five times the odd numbers, and the carriage has just been "
                 "shifted to the fourth figure. What do the levers show for the first turn there?",
        kind=Number(example=12345),
        right=lambda: _levers_for_the_next_figure(458, True),
        praise="The root so far, a nought for the figure to come, and the 5 behind it.",
        slips=(
            Slip(answer=lambda: _levers_before_the_next_figure(458),
                 says="So they stood before the shift. Where does the figure to come find its lever?"),
            Slip(answer=lambda: _levers_for_the_next_figure(458, False),
                 says="That is the odd number itself. Here five times as much is taken away."),
            Slip(answer=lambda: _levers_for_the_next_figure(458, True, turn=1),
                 says="That is for the second turn. The counter of the new figure still shows 0."),
        ),
        nudges=("The levers show the root so far, then the figure to come, then a 5.",
                "No turn has been made at the fourth figure: it is still 0.")),
)
