"""What each usual misconception makes of a calculation: the answers that it leads to.

Only this file works them out, from a learner's own numbers and strokes. Each function takes a `Problem` and the right
answer, and gives the wrong ones; `slip_table` says whose they are.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import prod

from mechcalc.methods.short_cut import plain_digits
from mechcalc.numbers import from_digits, to_digits
from mechcalc.preparing.marking.slips import Values
from mechcalc.preparing.sheets.worksheets import Problem


def digits(number: int) -> tuple[int, ...]:
    return to_digits(number, max(1, len(str(abs(number)))))


# Adding and taking away.

def no_carries(problem: Problem, right: Fraction) -> Values:
    """Each place for itself, the tens dropped."""
    columns = zip(*(to_digits(number, 20) for number in problem.numbers), strict=True)
    yield from_digits(sum(column) % 10 for column in columns)


def one_left_out(problem: Problem, right: Fraction) -> Values:
    return (right - number for number in problem.numbers)


def lined_up_at_the_head(problem: Problem, right: Fraction) -> Values:
    widest = max(len(str(number)) for number in problem.numbers)
    yield sum(number * 10**(widest - len(str(number))) for number in problem.numbers)


def no_borrows(problem: Problem, right: Fraction) -> Values:
    """Each place for itself, what is lacking taken from ten."""
    columns = zip(*(to_digits(number, 20) for number in problem.numbers), strict=True)
    yield from_digits((first - sum(others)) % 10 for first, *others in columns)


def smaller_from_larger(problem: Problem, right: Fraction) -> Values:
    if len(problem.numbers) == 2:
        first, second = (to_digits(number, 20) for number in problem.numbers)
        yield from_digits(abs(a - b) for a, b in zip(first, second, strict=True))


def windows(problem: Problem, right: Fraction) -> Values:
    yield problem.working.end.reading.result


# Multiplying.

def factors(problem: Problem) -> tuple[int, int]:
    """All factors but the last, multiplied; and the last."""
    return prod(problem.numbers[:-1]), problem.numbers[-1]


def shift_forgotten(problem: Problem, right: Fraction) -> Values:
    a, b = factors(problem)
    yield a * sum(digits(b))


def carryless(problem: Problem, right: Fraction) -> Values:
    a, b = factors(problem)
    places = [0] * 40
    for i, x in enumerate(digits(a)):
        for j, y in enumerate(digits(b)):
            places[i + j] += x * y
    yield from_digits(place % 10 for place in places)


def nought_passed_over(problem: Problem, right: Fraction) -> Values:
    a, b = factors(problem)
    if "0" in str(b).rstrip("0"):
        yield a * int(str(b).replace("0", ""))


def turn_too_many(problem: Problem, right: Fraction) -> Iterator[int | Fraction]:
    a, b = factors(problem)
    for place in range(len(str(b))):
        yield right + a * 10**place
        yield right - a * 10**place


def turned_round(problem: Problem, right: Fraction) -> Values:
    a, b = factors(problem)
    yield a * int(str(b)[::-1])


def not_cleared_between(problem: Problem, right: Fraction) -> Values:
    if len(problem.numbers) > 2:
        yield right + prod(problem.numbers[:-1])


def turns_added(problem: Problem, right: Fraction) -> Values:
    """By the short cut, subtractive turns made additive."""
    working = problem.working
    counted = sum(10**stroke.before.carriage for stroke in working.strokes if stroke.operation == "crank")
    yield problem.numbers[0] * counted


def plain_turns(problem: Problem, right: Fraction) -> Values:
    yield sum(plain_digits(problem.numbers[-1]))


def multiplier(problem: Problem, right: Fraction) -> Values:
    yield problem.numbers[-1]


def digit_sum(problem: Problem, right: Fraction) -> Values:
    yield sum(digits(problem.numbers[-1]))


# Dividing, and roots.

def overdraft(problem: Problem, right: Fraction) -> Values:
    """What the windows show after the last turn that was too many, and what it means."""
    for stroke in reversed(problem.working.strokes):
        if stroke.operation == "crank" and stroke.argument < 0 and stroke.reading.bell:
            yield stroke.reading.result
            reach = 10**problem.working.spec.wheels_in_reach(stroke.before.carriage)
            yield stroke.reading.result - reach
            yield reach - stroke.reading.result
            return


def one_unit(problem: Problem, right: Fraction) -> Values:
    yield right + Fraction(1, 10**problem.working.places)


def one_unit_everywhere(problem: Problem, right: Fraction) -> Values:
    """In every place one more than there is."""
    answer = problem.working.answer
    yield Fraction(answer + int("1" * len(str(answer))), 10**problem.working.places)


def nought_left_out(problem: Problem, right: Fraction) -> Values:
    text = str(problem.working.answer)
    if "0" in text:
        yield Fraction(int(text.replace("0", "") or 0), 10**problem.working.places)


def point_forgotten(problem: Problem, right: Fraction) -> Values:
    working = problem.working
    return (right * 10**places for places in (working.places, working.remainder_places))


def changed_places(problem: Problem, right: Fraction) -> Values:
    if problem.numbers[0]:
        scale = 10**problem.working.places
        yield Fraction(problem.numbers[1] * scale // problem.numbers[0], scale)


def entering_not_counted(problem: Problem, right: Fraction) -> Values:
    """Turns before the counter was cleared only put a number in."""
    turns = 0
    for stroke in problem.working.strokes:
        if stroke.operation == "clear counter":
            yield right - turns
            return
        turns += stroke.operation == "crank"


def putting_back_not_counted(problem: Problem, right: Fraction) -> Values:
    back = sum(stroke.operation == "crank" and stroke.argument > 0 and stroke.reading.bell
               for stroke in problem.working.strokes)
    too_many = sum(stroke.operation == "crank" and stroke.argument < 0 and stroke.reading.bell
                   for stroke in problem.working.strokes)
    yield right - back
    yield right - back - too_many


def half_the_bells(problem: Problem, right: Fraction) -> Values:
    yield right / 2


def last_odd_number(problem: Problem, right: Fraction) -> Values:
    """What the levers show at the end; of a square root, twice the root less one as well."""
    yield problem.working.end.reading.setting
    if problem.item.method.startswith("square root"):
        yield Fraction(2 * problem.working.answer - 1, 10**problem.working.places)


def half(problem: Problem, right: Fraction) -> Values:
    yield Fraction(problem.numbers[0], 2)


# Anywhere.

def one_off(problem: Problem, right: Fraction) -> Values:
    return (right - 1, right + 1)


def positions(problem: Problem, right: Fraction) -> Values:
    yield right + 1


def backwards(problem: Problem, right: Fraction) -> Values:
    if right.denominator == 1 and right > 9:
        yield int(str(right.numerator)[::-1])


def swapped(problem: Problem, right: Fraction) -> Iterator[int]:
    if right.denominator == 1 and right > 9:
        text = str(right.numerator)
        for place in range(len(text) - 1):
            yield int(text[:place] + text[place + 1] + text[place] + text[place + 2:])


def nought_more(problem: Problem, right: Fraction) -> Values:
    return (right * 10, right / 10)


def sign_lost(problem: Problem, right: Fraction) -> Values:
    yield -right
