"""The exercises of the lesson "The drum's timetable".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from dataclasses import replace

from mechcalc.catalogue import load_spec
from mechcalc.classroom.answers import YES_OR_NO, Number, Several
from mechcalc.classroom.drums import lost_carries, turned, without_helix
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.machines import ready
from mechcalc.errors import SpecError
from mechcalc.events import Event, Kind
from mechcalc.layout import PINS, used_arc
from mechcalc.spec import MachineSpec

UNKNOWN = MachineSpec(setting_places=3, result_places=4, counter_places=3, carry_reach=4, pin_pitch=8.0, gap=4.0,
                      helix_step=12.0, lever_throw=3.0, rest_arc=15.0)
LATE = replace(load_spec("slate"), gap=2.0, lever_throw=12.0, allow_faulty_timing=True)
RULES = ("ripple", "first carry", "do not fit")  # words of the three problems that a spec names


def _steps(result: int, setting: int, kind: Kind) -> list[Event]:
    return [event for event in turned(UNKNOWN, result, setting).events if event.kind is kind]


def _seen() -> tuple[int, ...]:
    """Angles seen in the windows: pins begin, pins end; wheels 2, 3 and 4 begin to move in 999 + 1."""
    pins = _steps(0, 9, Kind.NUMBER_STEP)
    carries = _steps(999, 1, Kind.CARRY_STEP)
    return tuple(round(angle) for angle in (pins[0].start, pins[-1].angle, *(event.start for event in carries)))


def _read_off(intervals: int = PINS) -> tuple[int, int, int]:
    """Pitch, gap and helix step from those angles."""
    first, last, *carries = _seen()
    return (last - first) // intervals, carries[0] - last, carries[1] - carries[0]


def _largest_pitch(helices: int = 2, helix_step: float | None = None) -> int:
    """The largest whole pin pitch with which thirteen places fit; the helix step as short as it may be, or given."""
    bench = load_spec("bench")
    fitting = 0
    for pitch in range(1, 30):
        step = pitch + bench.lever_throw if helix_step is None else helix_step
        trial = replace(bench, carry_reach=1, setting_places=1, pin_pitch=float(pitch), helix_step=step,
                        allow_faulty_timing=True)
        pins = used_arc(trial)
        one_helix = pitch + trial.gap + (bench.result_places - 2) * step
        if pins + trial.rest_arc + helices * one_helix <= 360:
            fitting = pitch
    return fitting


def _kept() -> tuple[str, ...]:
    """For each rule whether the redesigned drum keeps it."""
    said = ""
    try:
        replace(load_spec("bench"), lever_throw=5.0, helix_step=14.0)
    except SpecError as refusal:
        said = " ".join(refusal.problems)
    return tuple("no" if words in said else "yes" for words in RULES)


def _taken(result: int, setting: int, turn: str) -> int:
    return turned(load_spec("slate"), result, setting, turn).reading.result


_FIRST, _LAST, _TWO, _THREE, _FOUR = _seen()

EXERCISES = (
    Exercise(
        label="read the drum",
        question="You turn a machine slowly, its covers on, and note the crank angles at which the digits in the "
                 f"windows move. In 0 + 9, wheel 1 begins to move at {_FIRST}° and comes to rest on the 9 at "
                 f"{_LAST}°. In 999 + 1, wheel 2 begins to move at {_TWO}°, wheel 3 at {_THREE}°, wheel 4 at "
                 f"{_FOUR}°. What are pin pitch, gap and helix step? Write all three, as in (7, 8, 9).",
        kind=Several(pitch=Number(example=7), gap=Number(example=8), helix_step=Number(example=9)),
        right=_read_off,
        praise="Three figures of the drum, and no cover has been opened. The lever throw stays hidden: it is at most "
               "as long as the gap.",
        slips=(
            Slip(answer=lambda: (_read_off(PINS - 1)[0], ..., ...),
                 says="From 0 to 9, how many steps does a wheel make? There are as many as there are pins."),
            Slip(answer=lambda: (_read_off()[0], _read_off()[1] + _read_off()[0], ...),
                 says="The pitch is right. The gap begins where the last pin's step has ended, not where it begins."),
            Slip(answer=lambda: (*_read_off()[:2], _THREE - _TWO - _read_off()[0]),
                 says="Pitch and gap are right. The helix step goes from the beginning of one carry step to the "
                      "beginning of the next; its own width is part of it."),
        ),
        nudges=("All nine pins pass between the first two angles. What follows them, and at which angle does it begin?",
                "Divide the pins' arc by nine; then take each angle from the one that comes next.")),
    Exercise(
        label="only one helix",
        question="A drum like slate's has its additive helix, but no subtractive one. The register shows 5203; you "
                 "set 78 and make one subtractive turn. What do the windows show?",
        kind=Number(),
        right=lambda: without_helix(ready("slate", result=5203, setting=78), "subtractive", "subtractive"),
        praise="Each wheel takes its own steps back; what should pass from wheel to wheel is lost.",
        slips=(
            Slip(answer=lambda: _taken(5203, 78, "subtractive"),
                 says="That is what a sound machine shows. Which two wheels should have been told to go one step "
                      "further back, and who would have told them?"),
            Slip(answer=lambda: 5203,
                 says="The number pins are all there, and they do their work in both directions."),
            Slip(answer=lambda: _taken(5203, 78, "additive"),
                 says="That is an additive turn. In a subtractive one each pin takes its wheel one step back."),
        ),
        nudges=("Take it wheel by wheel. Where does a wheel pass from 0 to 9?",
                "Wheel 1 goes eight steps back from 3, wheel 2 seven steps back from 0. No borrow goes anywhere.")),
    Exercise(
        label="late levers",
        question="On a drum like slate's, built wrong on purpose, the gap is 2° and the levers need 12° to come out. "
                 "You try all 45 additions of one digit to another in which wheel 1 has to carry, wheel 2 standing "
                 "at 5. How many come out wrong?",
        kind=Number(example=30),
        right=lambda: len(lost_carries(LATE)),
        praise="Most sums are right. That is how such a fault can hide in a test of a few additions.",
        slips=(
            Slip(answer=lambda: len(lost_carries(replace(LATE, lever_throw=3.0))),
                 says="So it was in the text, with quicker levers. Here a wheel that passes at the pin before the "
                      "last is too late as well."),
            Slip(answer=lambda: len({10 - digit for digit, _ in lost_carries(LATE)}),
                 says="So many pins are too late to carry. But how many pairs of digits pass from 9 to 0 at one of "
                      "them?"),
            Slip(answer=lambda: sum(digit + pins >= 10 for digit in range(10) for pins in (8, 9)),
                 says="With 8 or 9 on the lever, many wheels pass from 9 to 0 long before the last pins. When does "
                      "it matter?"),
        ),
        nudges=("When is the lever of wheel 1 out, if the wheel passes at pin 9? At pin 8? At pin 7? The carry pin "
                "comes 2° after the end of pin 9.",
                "A wheel at digit d passes at pin 10 − d, if that pin is out. Which digits pass at pin 8 or 9?")),
    Exercise(
        label="a new drum",
        question="The carry levers of a machine like bench are slow: they need 5° instead of 3°. Its restorer plans "
                 "a new drum with a helix step of 14° and leaves every other figure as it is. Is each of the three "
                 "rules kept: for the ripple, for the first carry, and for the room on the drum? Write three words, "
                 "as in (\"yes\", \"yes\", \"yes\").",
        kind=Several(ripple=YES_OR_NO, first_carry=YES_OR_NO, room=YES_OR_NO),
        right=_kept,
        praise="A slower lever is paid for in the gap, in every step of the helix, and on both helices.",
        slips=(
            Slip(answer=lambda: ("no", ..., ...),
                 says="The next carry pin may come at the very moment at which the lever is out: the rule says \"at "
                      "least\"."),
            Slip(answer=lambda: ("yes", "yes", ...),
                 says="The ripple is right. The first carry pin waits for a lever too, one pushed by the number pins."),
            Slip(answer=lambda: ("yes", "no", "yes"),
                 says="The first two are right. Now count the degrees: nine steps of the helix have grown by 2° "
                      "each, and there are two helices."),
        ),
        nudges=("Take one rule after the other: helix step against pitch and throw; gap against throw; the sum "
                "against 360.",
                "9 × 9 for the pins; for each helix the gap, nine steps of 14, and one pin; the rest arc once.")),
    Exercise(
        label="thirteen places",
        question="You design a drum that carries through all thirteen places of bench. Gap, lever throw and rest arc "
                 "stay as they are: 4°, 3° and 15°. The helix step is always as short as the rules allow. What is "
                 "the largest pin pitch, in whole degrees?",
        kind=Number(example=5),
        right=_largest_pitch,
        praise="Two places more, and every pin has to be narrower: all figures of a drum hang together.",
        slips=(
            Slip(answer=lambda: _largest_pitch(helices=1),
                 says="So it would be with one helix. How many does a machine need that also takes away?"),
            Slip(answer=lambda: _largest_pitch(helix_step=load_spec("bench").helix_step),
                 says="You have kept bench's helix step. With narrower pins it may be shorter."),
            Slip(answer=lambda: int(load_spec("bench").pin_pitch),
                 says="That is bench's own pitch, and with it the reach ends at 11. Put it into the sum and see."),
        ),
        nudges=("Write the sum of the angle budget with K = 13 and a helix step of pitch + 3.",
                "9p + 2 (4 + 11 (p + 3) + p) + 15 may be 360 at most. Gather what has a p in it.")),
)
