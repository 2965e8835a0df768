"""Measures of what happens on the machine: turns, carries, the bell, overdrafts.

Only this file counts them; each is read from a `Course`.
"""

from __future__ import annotations

from mechcalc.preparing.case import Case
from mechcalc.preparing.course import Run, Turn
from mechcalc.preparing.measure import Measure, Stage, course, many
from mechcalc.spec import MachineSpec


def _runs(case: Case) -> list[tuple[Run, int]]:
    """Every carry with the number of its turn, from 1."""
    return [(run, number) for number, runs in enumerate(course(case).runs, start=1) for run in runs]


def _ripple(case: Case, of: str) -> int:
    return max((run.wheels for run, _ in _runs(case)), default=0)


def _longest(case: Case) -> tuple[Run, int, str]:
    """The longest run (the first of equals), its turn, and what it is."""
    run, number = max(_runs(case), key=lambda pair: (pair[0].wheels, -pair[1]))
    return run, number, "carry" if course(case).turns[number - 1].direction > 0 else "borrow"


def _ripple_words(case: Case, of: str, value: int) -> str:
    if not value:
        return "No wheel is moved by a carry."
    run, number, what = _longest(case)
    return (f"In turn {number} of {len(course(case).turns)} one {what} runs through {value} wheels, {run.first} to "
            f"{run.last}.")


def _stands_out(case: Case, of: str, value: int) -> int:
    """By how much the longest run is longer than the next."""
    wheels = sorted((run.wheels for run, _ in _runs(case)), reverse=True)
    return 10 - 10 * wheels[1] // wheels[0] if len(wheels) > 1 else 10


def _nines(case: Case, of: str) -> int:
    return max((run.nines for run, _ in _runs(case)), default=0)


def _nines_words(case: Case, of: str, value: int) -> str:
    if not value:
        return "No carry takes a wheel past 9 by itself."
    run, number = max(_runs(case), key=lambda pair: (pair[0].nines, -pair[1]))
    back = course(case).turns[number - 1].direction < 0
    return (f"In turn {number} one {'borrow' if back else 'carry'} takes {many(value, 'wheel')} that stood at "
            f"{0 if back else 9} past it, from wheel {run.first + 1} on.")


def _bells(case: Case, of: str) -> int:
    return sum(turn.bell for turn in course(case).turns)


def _bell_words(case: Case, of: str, value: int) -> str:
    if not value:
        return "The bell never rings."
    numbers = [str(number) for number, turn in enumerate(course(case).turns, start=1) if turn.bell]
    return f"The bell rings in turn{'s' * (value > 1)} {', '.join(numbers)}."


def _worked(case: Case) -> tuple[Turn, ...]:
    """The turns of the calculation proper."""
    return course(case).turns[course(case).worked_from:]


def _overdrawn(case: Case) -> set[int]:
    """Carriage positions in which a turn takes the result from nought or more to below nought."""
    return {turn.position for turn in _worked(case) if turn.after < 0 <= turn.before}


def _not_overdrawn(case: Case) -> set[int]:
    return {turn.position for turn in _worked(case)} - _overdrawn(case)


def _overdraft_words(case: Case, of: str, value: int) -> str:
    drawn = sorted(_overdrawn(case), reverse=True)
    worked = len({turn.position for turn in _worked(case)})
    if not drawn:
        return "The result is never overdrawn."
    return (f"The result is overdrawn at {len(drawn)} of {many(worked, 'position')} of the carriage: "
            f"{', '.join(map(str, drawn))}.")


def _below(case: Case, of: str) -> int:
    return sum(turn.after < 0 for turn in course(case).turns)


def _below_words(case: Case, of: str, value: int) -> str:
    if not value:
        return "The result is never below nought."
    number, turn = next((number, turn) for number, turn in enumerate(course(case).turns, start=1) if turn.after < 0)
    return f"In turn {number} the result goes below nought, to −{-turn.after}."


def _saved(case: Case, of: str) -> int:
    plain, fewest = case.plainly.course, case.in_fewest.course
    return max(0, len(plain.turns) - len(fewest.turns)) if plain and fewest else 0


def _saved_words(case: Case, of: str, value: int) -> str:
    plain, fewest = case.plainly.course, case.in_fewest.course
    if not (plain and fewest):
        return "Not both ways can be gone on this machine."
    return f"It takes {many(len(plain.turns), 'turn')} plainly and {len(fewest.turns)} by the short cut."


def _saved_clear(case: Case, of: str, value: int) -> int:
    plain = case.plainly.course
    return 10 * value // len(plain.turns) if plain and plain.turns else 0


def _shows_and_right(case: Case) -> tuple[str, str]:
    """What the number wheels show at the end, and what they would with carries that reach every wheel."""
    places, turns = case.spec.result_places, course(case).turns
    right = turns[-1].after % 10**places if turns else 0
    return str(course(case).shows).rjust(places, "0"), str(right).rjust(places, "0")


def _wrong(case: Case, of: str) -> int:
    return sum(one != other for one, other in zip(*_shows_and_right(case), strict=True))


def _wrong_words(case: Case, of: str, value: int) -> str:
    shows, right = (int(digits) for digits in _shows_and_right(case))
    if not value:
        return f"The result shows {shows}, as it should."
    return f"The result shows {shows} and should show {right}: carries reach {case.spec.carry_reach} places only."


def _wheels(spec: MachineSpec) -> int:
    return spec.result_places


HAPPENINGS: tuple[Measure, ...] = (
    Measure(name="turns", says="turns of the crank, of either direction", stage=Stage.COURSE,
            value=lambda case, of: len(course(case).turns),
            words=lambda case, of, value: f"It takes {many(value, 'turn')}."),
    Measure(name="back turns", says="subtractive turns", stage=Stage.COURSE,
            value=lambda case, of: sum(turn.direction < 0 for turn in course(case).turns),
            words=lambda case, of, value: f"It takes {many(value, 'subtractive turn')}."),
    Measure(name="shifts", says="places that the carriage goes", stage=Stage.COURSE,
            value=lambda case, of: course(case).shifts,
            words=lambda case, of, value: f"It takes {many(value, 'shift')}."),
    Measure(name="turns saved", says="turns that the short cut saves", stage=Stage.COURSE, value=_saved,
            words=_saved_words, clear=_saved_clear, goes_with=lambda task: bool(task.in_fewest)),
    Measure(name="carries", says="steps that a carry or a borrow makes a wheel do, all turns together",
            stage=Stage.COURSE, value=lambda case, of: sum(run.wheels - 1 for run, _ in _runs(case)),
            words=lambda case, of, value: f"There are {many(value, 'carry', 'carries')}." if value != 1 else
            "There is 1 carry."),
    Measure(name="ripple", says="wheels that one carry or borrow runs through in one turn; 4 in 999 + 1",
            stage=Stage.COURSE, value=_ripple, words=_ripple_words, clear=_stands_out, most=_wheels),
    Measure(name="nines crossed", says="wheels at 9 (at 0 for a borrow) that one carry takes past it; 2 in 999 + 1",
            stage=Stage.COURSE, value=_nines, words=_nines_words, clear=_stands_out, most=_wheels),
    Measure(name="bells", says="turns in which the bell rings", stage=Stage.COURSE, value=_bells, words=_bell_words,
            clear=lambda case, of, value: 10 // max(1, value)),
    Measure(name="overdrafts", says="positions of the carriage in which a turn takes the result below nought",
            stage=Stage.COURSE, value=lambda case, of: len(_overdrawn(case)), words=_overdraft_words),
    Measure(name="positions not overdrawn", says="positions of the carriage in which no turn takes the result below "
            "nought", stage=Stage.COURSE, value=lambda case, of: len(_not_overdrawn(case)), words=_overdraft_words),
    Measure(name="turns below nought", says="turns after which the result is below nought", stage=Stage.COURSE,
            value=_below, words=_below_words),
    Measure(name="wheels wrong", says="number wheels that show something wrong at the end, because a carry could not "
            "reach them", stage=Stage.COURSE, value=_wrong, words=_wrong_words, most=_wheels,
            goes_with=lambda task: task.by_heart, clear=lambda case, of, value: 10 // max(1, value)),
)

# Not for wishes: every search asks it, and a conflict may name it.
ROOM = Measure(name="room", says="whether the machine has room", stage=Stage.COURSE,
               value=lambda case, of: int(case.course is not None), words=lambda case, of, value: "It fits.")
