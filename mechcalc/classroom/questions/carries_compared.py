"""The exercises of the lesson "Why this carry and no other".

Only this file holds their questions, and works the sums that answer them on the four mechanisms.
"""

from __future__ import annotations

from dataclasses import replace

from mechcalc.carries import Carrying, Prices, carried, hardest, peaks_by_nines
from mechcalc.carries.effort import priced
from mechcalc.carries.growing import WHEELS_ALONE
from mechcalc.carries.mechanisms import NAMES
from mechcalc.catalogue import load_spec
from mechcalc.classroom.answers import YES_OR_NO, Choice, Number, Several
from mechcalc.classroom.exercises import Exercise, Slip

AT_ONCE, HELIX, AHEAD, HEAD = NAMES
DEAR = Prices(lever=3.5, home=3.5)
TWELVE = replace(load_spec("plain"), result_places=12, carry_reach=12)
FELT = [1.0, 4.0]  # effort in the steps of the mystery machine, in order


def _sum(shows: int, added: int, name: str) -> Carrying:
    return next(way for way in carried(load_spec("slate"), shows, added) if way.name == name)


def _felt() -> tuple[str, int]:
    """The mechanism and the nines that are felt as one wheel, then nothing, then four wheels in one step."""
    (found,) = [(way.name, nines) for nines in range(6) for way in carried(load_spec("slate"), 10**nines - 1, 1)
                if [level for level in way.effort(WHEELS_ALONE).levels if level] == FELT]
    return found


def _nines_for(name: str, wheels: float) -> int:
    """With how many nines that mechanism drives so many wheels at one moment."""
    return peaks_by_nines(load_spec("slate"), WHEELS_ALONE)[name].index(wheels)


def _first_easier(prices: Prices = DEAR) -> int:
    """The first number of nines from which on the helix has the lower peak."""
    peaks = peaks_by_nines(load_spec("plain"), prices)
    easier = [helix < once for helix, once in zip(peaks[HELIX], peaks[AT_ONCE], strict=True)]
    return len(easier) - easier[::-1].index(False)


def _first_beyond(effort: float) -> int:
    """The first number of nines whose peak, with wheels that carry at once, is more than this."""
    return next(nines for nines, peak in enumerate(peaks_by_nines(load_spec("plain"), DEAR)[AT_ONCE]) if peak > effort)


def _meets(most: float = 11, turns: int = 1) -> tuple[str, ...]:
    """For each mechanism whether it keeps to the peak, the turns and the room of the drum."""
    room = 360 - TWELVE.rest_arc
    return tuple("yes" if hardest(way) <= most and way.turns <= turns and way.both_ways <= room else "no"
                 for way in carried(TWELVE, 10**11 - 1, 1))


EXERCISES = (
    Exercise(
        label="at the same moment",
        question="Wheels that carry at once and directly. The six wheels show 004 997, and the units lever is set to "
                 "5. In this turn, how many number wheels are in motion at the same moment, at most?",
        kind=Number(example=3),
        right=lambda: _sum(4997, 5, AT_ONCE).longest,
        praise="It happens at the third pin. The wheel that stops the row of nines moves as well.",
        slips=(
            Slip(answer=lambda: _sum(4997, 5, HELIX).longest,
                 says="So it is in our machine, with its levers. Here a wheel that passes takes the next one along in "
                      "the same step."),
            Slip(answer=lambda: _sum(4997, 5, AT_ONCE).longest - 1,
                 says="Does a row of nines end with a nine? Look at the wheel after the last one of them."),
            Slip(answer=lambda: priced(_sum(4997, 5, AT_ONCE).doings[0], "wheel"),
                 says="That is how many wheel steps there are in the whole turn. Which of them happen together?"),
        ),
        nudges=("At which of the five pins does wheel 1 pass from 9 to 0? Look at that step alone.",
                "Wheel 1 passes at the third pin. Wheels 2 and 3 stand at 9, so they pass too; and the next one?")),
    Exercise(
        label="which crank",
        question="A machine whose covers you may not open. You set a 1, turn once, and feel the crank. At the first "
                 "pin it is as heavy as one wheel. Then it is light. Later, for a single step, it is as heavy as four "
                 "wheels, and that is all. Which of the four mechanisms is it, and in how many nines did the register "
                 f"end? Write both, as in (\"{HEAD}\", 2).",
        kind=Several(mechanism=Choice(*NAMES), nines=Number(example=2)),
        right=_felt,
        praise="Wheel 1 had its step from the pin; all the others had theirs together, later.",
        slips=(
            Slip(answer=lambda: (AT_ONCE, ...),
                 says="Wheels that are coupled directly move with the first pin. What came first here, and what came "
                      "later?"),
            Slip(answer=lambda: (HELIX, ...),
                 says="By the helix it is one wheel after another. Here four wheels were felt in one step."),
            Slip(answer=lambda: (AHEAD, _nines_for(AT_ONCE, FELT[1])),
                 says="The mechanism is right. The four wheels are without wheel 1, which had moved long before. How "
                      "many of the four took a nine to nought, and which nine is missing?"),
        ),
        nudges=("Count the moments: one step, a pause, one heavy step. Which mechanism has just two moments?",
                "Wheels 2 to 5 moved together. The last of them went from something that was no 9 (from 0, say) to the "
                "next. So which wheels stood at 9?")),
    Exercise(
        label="dear levers",
        question="Stiff levers: throwing one asks for 3.5, and pushing one home for 3.5 as well, while a wheel asks "
                 "for 1. Work 99…9 + 1. From how many nines on is the peak lower by lever and helix than at once?",
        kind=Number(example=7),
        right=_first_easier,
        praise="A peak that grows overtakes one that does not, however dear the levers are.",
        slips=(
            Slip(answer=lambda: _first_beyond(DEAR.lever),
                 says="You have compared with a lever alone. At the end of a carry's step, what is being driven while "
                      "the cam pushes the lever home?"),
            Slip(answer=lambda: _first_easier() + 1,
                 says="With n nines, how many wheels move at once? There is one more wheel than there are nines."),
            Slip(answer=lambda: _first_easier(Prices()),
                 says="So it was in the text, with levers at 0.3. Here they are stiffer than three wheels."),
        ),
        nudges=("What is the peak by the helix? Look for the moment at which a wheel and a lever are moved together.",
                "By the helix it is 1 + 3.5, for any number of nines. At once it is one more than there are nines.")),
    Exercise(
        label="three wishes",
        question="Somebody orders a machine of twelve places with the angles of plain: pitch 8°, gap 4°, helix step "
                 "11°. The rest arc of 15° must stay free on the drum, which turns either way. Eleven nines and 1 "
                 "must be added in one turn. And in that sum the peak must not be more than 11, at our prices. Which "
                 "of the four carries meets all three wishes? Write \"yes\" or \"no\" for each: at once, by lever "
                 "and helix, looking ahead, in the head.",
        kind=Several(at_once=YES_OR_NO, by_lever_and_helix=YES_OR_NO, looking_ahead=YES_OR_NO, in_the_head=YES_OR_NO),
        right=_meets,
        praise="Two ways are left, and the choice between them is the choice between a strong hand and a full drum.",
        slips=(
            Slip(answer=lambda: _meets(most=12),
                 says="Three of the four are right. How many wheels move at once if there are eleven nines? Do not "
                      "forget the wheel that the last nine sets going."),
            Slip(answer=lambda: _meets(turns=12),
                 says="Three of the four are right. How often must the crank go round if nobody carries but you?"),
            Slip(answer=lambda: ("no", "no", ..., ...),
                 says="Add up the drum for twelve places: is it more than 345°? The peak by the helix is small."),
            Slip(answer=lambda: ("no", "yes", "no", ...),
                 says="When a carry that looks ahead moves them all, wheel 1 is no longer among them. How many are "
                      "left?"),
        ),
        nudges=("Take one wish at a time, and cross out who fails it. First: who needs more than one turn?",
                "The helix needs 9 × 8 + 2 × (4 + 10 × 11 + 8) degrees. And with eleven nines, which two mechanisms "
                "move many wheels at once, and how many each?")),
    Exercise(
        label="noted by hand",
        question="Wheels that do not carry. They show 019 989, and you set 11 and turn. Whatever has passed from 9 to "
                 "0 you note, set as a number of its own, and turn again; and so on, until nothing has passed. How "
                 "many turns does it take in all?",
        kind=Number(example=9),
        right=lambda: _sum(19989, 11, HEAD).turns,
        praise="Each of those turns is one that a carry mechanism saves, and one more setting with it.",
        slips=(
            Slip(answer=lambda: _sum(19989, 11, HEAD).turns - 1,
                 says="Those are the turns for the carries. There was one before them."),
            Slip(answer=lambda: 2,
                 says="One turn for the sum, one for the carries? When you add the carry to the next wheel, look what "
                      "that wheel does."),
            Slip(answer=lambda: _sum(19989, 11, HELIX).turns,
                 says="So it is with a carry mechanism. Here nobody moves the next wheel unless you set it."),
        ),
        nudges=("Write down what the wheels show after each turn. Which wheel has passed?",
                "After the first turn they show 019 990, and wheel 1 has passed. So set 10, and go on.")),
)
