"""Steps of a test as a person at the bench is told them, and the readings between them.

Only this file words steps. It follows the carriage, so that a shift is told by the position that it leads to.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from mechcalc.bench.candidates import Test
from mechcalc.bench.steps import Step, eased, text_of_steps
from mechcalc.spec import MachineSpec

NARROW = "\u202f"  # between groups of three digits
TIMES = ("", "once", "twice", "three times", "four times", "five times", "six times", "seven times", "eight times",
         "nine times", "ten times")
CLEARS = {"clear result": "Clear the result.", "clear counter": "Clear the counter.",
          "clear setting": "Clear the setting: all levers to 0.",
          "back transfer": "Back transfer: lever down, clear the result, lever up. If it jams, do not force it; bring "
                           "the levers back."}
TRIES = {"try back": "Try gently, without force, whether it goes back. If it holds, finish the turn; if it comes back "
                     "to rest, make the turn from there.",
         "try lever": "Try gently, without force, whether lever 1 moves by one digit; if it does, put it back. Then "
                      "finish the turn."}
ASKED = {"try back": "the crank went back", "try lever": "the lever moved", "back transfer": "it jammed"}


def times(many: int) -> str:
    """How often.

    >>> times(2), times(12)
    ('twice', '12 times')
    """
    return TIMES[many] if many < len(TIMES) else f"{many} times"


def grouped(number: int) -> str:
    """A number in groups of three from five digits on."""
    return f"{number:,}".replace(",", NARROW) if number > 9999 else str(number)


def in_words(spec: MachineSpec, steps: Sequence[Step], carriage: int = 0) -> tuple[str, ...]:
    """What to do, a sentence or two each; turns and shifts in a row are told as one.

    Parameters
    ----------
    spec : MachineSpec
    steps : sequence of Step
    carriage : int
        Where the carriage stands at the first of them.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> from mechcalc.bench.steps import steps_from_text
    >>> for line in in_words(load_spec("slate"), steps_from_text("shift 2; set 95; turn -3; clear result")):
    ...     print(line)
    Shift the carriage to position 2.
    Set 95: levers 2 and 1, all others at 0.
    Turn the crank three times, subtractive.
    Clear the result.
    """
    told: list[str] = []
    row: list[Step] = []
    for step in steps:
        if row and (row[-1] != step or step.what not in ("turn", "shift")):
            told.append(_told(spec, row, carriage))
            row = []
        carriage += step.number if step.what == "shift" else 0
        row.append(step)
    return (*told, *([_told(spec, row, carriage)] if row else []))


def _told(spec: MachineSpec, row: Sequence[Step], carriage: int) -> str:
    """One sentence for equal steps in a row, after which the carriage stands there."""
    step = row[0]
    if step.what == "turn":
        return f"Turn the crank {times(len(row))}, {'additive' if step.number > 0 else 'subtractive'}."
    if step.what == "shift":
        return f"Shift the carriage to position {carriage}."
    if step.what == "set":
        return _set(spec, step.number)
    if step.what in TRIES:
        return f"Ease the crank about {eased(spec):.2g}° off rest in an additive turn. {TRIES[step.what]}"
    return CLEARS[step.what]


def _set(spec: MachineSpec, number: int) -> str:
    levers = [place for place in range(spec.setting_places, 0, -1) if number // 10**(place - 1) % 10]
    if not levers:
        return "Set 0: all levers."
    if len(levers) == spec.setting_places:
        return f"Set {grouped(number)}: all levers."
    runs = [levers[0]]
    runs += [after for before, after in pairwise(levers) if before - after > 1]
    which = f"lever{'s' * (len(levers) > 1)} " + (
        f"{levers[0]} to {levers[-1]}" if len(runs) == 1 and len(levers) > 2 else
        " and ".join(map(str, levers)) if len(levers) < 3 else ", ".join(map(str, levers)))
    return f"Set {grouped(number)}: {which}, all others at 0."


@dataclass(frozen=True, slots=True)
class Part:
    """Steps of a test up to a reading.

    Attributes
    ----------
    words : tuple of str
    asked : tuple of str
        Which questions are answered by yes or no at the reading, besides whether the bell rang (texts of `ASKED`).
    """

    words: tuple[str, ...]
    asked: tuple[str, ...]


def parts_of(spec: MachineSpec, test: Test) -> tuple[Part, ...]:
    """A test, cut at its readings.

    >>> from mechcalc import load_spec
    >>> for part in parts_of(load_spec("slate"), Test.of("mine", "set 5; turn; read; try back; read")):
    ...     print(len(part.words), part.asked)
    2 ()
    1 ('the crank went back',)
    """
    found, carriage = [], 0
    for begin, end in zip((0, *test.reads), test.reads, strict=False):
        steps = test.steps[begin:end]
        found.append(Part(in_words(spec, steps, carriage), (ASKED[steps[-1].what],) if steps[-1].what in ASKED else ()))
        carriage += sum(step.number for step in steps if step.what == "shift")
    return tuple(found)


def repeated(parts: Sequence[Part]) -> bool:
    """Whether a test does the same several times and reads each time."""
    return len(parts) > 1 and len(set(parts)) == 1


def in_short(test: Test) -> str:
    """The steps as they are typed, those of a test that repeats itself once.

    >>> in_short(Test.of("mine", "set 1; turn; read; set 1; turn; read"))
    'twice: set 1; turn 1; read'
    """
    rounds = [test.steps[begin:end] for begin, end in zip((0, *test.reads), test.reads, strict=False)]
    if len(rounds) > 1 and len(set(rounds)) == 1:
        return f"{times(len(rounds))}: {text_of_steps(rounds[0])}; read"
    return str(test)
