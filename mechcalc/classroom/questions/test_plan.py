"""The exercises of the lesson "The test plan and why it is enough".

Only this file holds their questions, and works out their answers from fault dictionaries.
"""

from __future__ import annotations

from functools import cache

import numpy as np

from mechcalc.bench import IdlerToothLost, NumberPinStuckOut, RatchetWorn
from mechcalc.bench.dictionary import fault_dictionary
from mechcalc.bench.plan import cheapest, greedy
from mechcalc.classroom.answers import Choice, Number
from mechcalc.classroom.covers import book, confused_without, counting_bound, sees
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.spec import MachineSpec

SMALL_NEEDS = (0b011, 0b101, 0b011, 0b101, 0b010, 0b100)  # fault by fault, which of the tests A, B, C see it
LONG_DRUM = MachineSpec(setting_places=2, result_places=3, counter_places=2, carry_reach=5)


@cache
def _unseen() -> tuple[int, int]:
    """How many faults of a drum that is too long no test reveals, and how many of them are idler teeth."""
    known = fault_dictionary(LONG_DRUM)
    faults = [known.faults_of(machine)[0] for machine in known.undetected]
    return len(faults), sum(isinstance(fault, IdlerToothLost) for fault in faults)


def _digit_between(one: int, other: int) -> int:
    """The row of equal digits that tells two stuck pins of a pinwheel apart."""
    known = book("slate")
    columns = [known.answers[:, known.faults.index(NumberPinStuckOut(place=1, pin=pin)) + 1] for pin in (one, other)]
    names = [known.tests[test].name for test in np.flatnonzero(columns[0] != columns[1])]
    (digit,) = (name.removeprefix("all ") for name in names if name.startswith("all ") and name[4:].isdigit())
    return int(digit)


EXERCISES = (
    Exercise(
        label="fifty faults",
        question="A machine has 50 single faults, or none. Each test has three answers at most. How many tests are "
                 "needed at least to tell all of that apart?",
        kind=Number(example=7),
        right=lambda: counting_bound(51, 3),
        praise="A bound, and no promise: real tests seldom divide so evenly.",
        slips=(
            Slip(answer=lambda: counting_bound(51, 2), says="So it would be with two answers. A third one helps."),
            Slip(answer=lambda: 17, says="You divided by three once. Each further test divides again."),
            Slip(answer=lambda: 50, says="That is a test for each fault. A test speaks about many faults at once."),
            Slip(answer=lambda: counting_bound(51, 3) - 1, says="How many answers in a row are there then? Enough?"),
        ),
        nudges=("Two tests have three times three answers. Go on until there is one for each machine.",
                "Do not forget the sound machine.")),
    Exercise(
        label="no way round it",
        question="Which of these tests must be in every plan for slate, whatever else is chosen? Write \"noughts\", "
                 "\"nines and one\", \"gently back\" or \"ones, ten times\".",
        kind=Choice("noughts", "nines and one", "gently back", "ones, ten times"),
        right=lambda: sees("slate", RatchetWorn())[0],
        praise="A fault that one test alone reveals makes that test a must.",
        slips=(
            Slip(answer=lambda: "nines and one",
                 says="It reveals more faults than most. But is there one that nothing else reveals?"),
            Slip(answer=lambda: "noughts",
                 says="A stuck pin shows in other tests too. Look for a fault with one test."),
            Slip(answer=lambda: "ones, ten times",
                 says="It goes past every tooth. But other tests do so too, in their way."),
        ),
        nudges=("Ask sees(\"slate\", fault) for a few faults. Which has one test only?",
                "Which interlocks can be worn, and who tries them?")),
    Exercise(
        label="greed",
        question="Six faults, three tests. Test A reveals faults 1, 2, 3 and 4; test B reveals 1, 3 and 5; test C "
                 "reveals 2, 4 and 6. How many tests are needed at least to reveal all six?",
        kind=Number(example=7),
        right=lambda: len(cheapest(SMALL_NEEDS, [1.0] * 3)[0]),
        praise="The largest first is a good rule, and not always the best.",
        slips=(
            Slip(answer=lambda: len(greedy(SMALL_NEEDS, [1.0] * 3)),
                 says="That is what comes of taking the largest test first. Try to do without it."),
            Slip(answer=lambda: 1, says="No single test reveals all six. Which faults does A leave?"),
            Slip(answer=lambda: 6, says="A test may reveal several faults. You need not have one for each."),
        ),
        nudges=("Which test must be there because of fault 5? Which because of fault 6?",
                "With these two, what is left for A to do?")),
    Exercise(
        label="five or six",
        question="In pinwheel 1 of slate either pin 5 or pin 6 is stuck out. Which digit do you set in every lever for "
                 "one turn, so that the result says which?",
        kind=Number(example=7),
        right=lambda: _digit_between(5, 6),
        praise="At that digit one pin should be out anyway, and the other should not.",
        slips=(
            Slip(answer=lambda: 6, says="At that digit both pins should be out. Neither is one too many."),
            Slip(answer=lambda: 9, says="At nine every pin is out. Nothing is too much there."),
            Slip(answer=lambda: 1, says="At that digit both stuck pins add one too much."),
        ),
        nudges=("At digit d pins 1 to d are out on a sound machine. A stuck pin shows only if it should be in.",
                "You want a digit at which pin 5 should be out, and pin 6 in.")),
    Exercise(
        label="a drum too long",
        question="A small machine has 2 levers, 3 number wheels and 2 counter wheels, and its carriage stops at two "
                 "positions. Its drum has carry pins, on both helices, and idlers up to place 5. How many single "
                 "faults at places 4 and 5 can no test reveal? An idler has ten teeth.",
        kind=Number(example=7),
        right=lambda: _unseen()[0],
        praise="Nobody will ever miss these parts, for no wheel stands before them.",
        slips=(
            Slip(answer=lambda: _unseen()[0] - _unseen()[1],
                 says="You counted the carry pins. What else is there at these two places?"),
            Slip(answer=lambda: _unseen()[1],
                 says="You counted the idlers' teeth. What else is there at these two places?"),
            Slip(answer=lambda: _unseen()[0] // 2,
                 says="That is one place. No number wheel ever stands before the other one either."),
        ),
        nudges=("At each of the two places count: the pins of both helices, and the teeth of the idler.",
                "Two pins and ten teeth at each place.")),
    Exercise(
        label="one test left out",
        question="Slate's plan of fifteen tells all faults apart. Somebody is in a hurry and leaves out \"all 5\". How "
                 "many pairs of machines (single faults, or sound) can the other fourteen no longer tell apart?",
        kind=Number(example=7),
        right=lambda: confused_without("slate", "all 5"),
        praise="Every test of a least plan earns its place: without it, something is left in the dark.",
        slips=(
            Slip(answer=lambda: confused_without("slate", "all 1"),
                 says="That would be so for another row of digits. Which pins does a row of fives stand between?"),
            Slip(answer=lambda: 4, says="Four pinwheels, that is a beginning. In each of them, what is confused: "
                                        "only pins that are stuck, or also pins that are gone?"),
            Slip(answer=lambda: 0, says="Then the plan would not have been least. Something must be lost."),
        ),
        nudges=("The row of fives tells neighbours apart: pin 5 from pin 6.",
                "Two kinds of fault, gone and stuck out, in each of four pinwheels.")),
)
