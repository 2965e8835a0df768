"""The exercises of the lesson "Interlocks: why it won't turn".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from mechcalc.classroom.answers import Choice, Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.lock_tries import GOES, STOPS, cases, trial
from mechcalc.classroom.locks import letters, reachable, way_out, who_blocks, without
from mechcalc.classroom.machines import ready
from mechcalc.interlocks import INTERLOCKS
from mechcalc.machine import Machine

NAMES = tuple(rule.name for rule in INTERLOCKS)
LEVER, SHIFT, TRANSFER = "a setting lever", "a shift of the carriage", "the back-transfer lever"
BEFORE_CARRIES = 223.0       # degrees of crank on "slate": the number pins have passed, the carry pins have not
FIVE_PINS_PAST = 190.0       # five number pins of each place have gone past


def _fits(**tried: str) -> str:
    """The interlock that explains what was tried, if there is just one."""
    (name,) = (name for name, machine in cases().items()
               if all(trial(machine, what, 1) == how for what, how in tried.items()))
    return name


def _holds_a_begun_turn() -> str:
    """The interlock that keeps a begun additive turn from going on; "none" where no reachable state has one."""
    found = {name for machine in reachable() if "A" in letters(machine.state)
             for name in who_blocks(machine, "crank", 1.0)}
    return found.pop() if found else "none"


def _turned_back(result: int, setting: int) -> Machine:
    machine = without(ready("slate", result=result, setting=setting), "full-stroke ratchet")
    machine.crank(BEFORE_CARRIES)
    machine.crank(-BEFORE_CARRIES)
    return machine


def _before_carries(result: int, setting: int) -> int:
    machine = ready("slate", result=result, setting=setting)
    machine.crank(BEFORE_CARRIES)
    return machine.result


def _turned(result: int, setting: int) -> int:
    machine = ready("slate", result=result, setting=setting)
    machine.turn()
    return machine.result


def _moved_late(was: int, now: int) -> int:
    """What a turn adds if lever 1 goes from one digit to another half way through the pins."""
    machine = without(ready("slate", setting=was), "setting lock")
    machine.crank(FIVE_PINS_PAST)
    machine.set_lever(1, now)
    machine.finish_turn()
    return machine.result


def _off_together() -> set[str]:
    """What can be off at once, as letters."""
    return {letters(machine.state) for machine in reachable()}


def _most_to_put_right() -> int:
    return max(len(way_out(machine)) for machine in reachable() if not {"A", "S"} & set(letters(machine.state)))


EXERCISES = (
    Exercise(
        label="two cranks that stop",
        question="Two cranks stand at rest and will not turn, either way. On the first machine a setting lever "
                 "moves, and the carriage shifts. On the second a setting lever moves, the carriage does not shift, "
                 "and the back-transfer lever does not move. Which interlock stops each? Write both names, as in "
                 "(\"setting lock\", \"carriage stop\").",
        kind=Several(first=Choice(*NAMES), second=Choice(*NAMES)),
        right=lambda: (_fits(**{LEVER: GOES, SHIFT: GOES}), _fits(**{LEVER: GOES, SHIFT: STOPS, TRANSFER: STOPS})),
        praise="What still goes tells you as much as what stops.",
        slips=(
            Slip(answer=lambda: (_fits(**{LEVER: STOPS, SHIFT: STOPS}), ...),
                 says="That interlock holds the first crank only when it has left its notch. Would a setting lever "
                      "move then?"),
            Slip(answer=lambda: (_fits(**{LEVER: GOES, SHIFT: STOPS, TRANSFER: STOPS}),
                                 _fits(**{LEVER: GOES, SHIFT: GOES})),
                 says="Both are the right kind of answer, but look again at which of the two carriages shifts."),
            Slip(answer=lambda: (_fits(**{LEVER: GOES, SHIFT: GOES}), _fits(**{SHIFT: STOPS, TRANSFER: GOES})),
                 says="The first is right. On the second, if back transfer were engaged, could its lever not be put "
                      "up?"),
        ),
        nudges=("Go to the picture of who holds what. Look for the row in which all that is said about a machine "
                "comes true.",
                "On the first everything goes but the crank. On the second even the back-transfer lever stops: who "
                "holds that one?")),
    Exercise(
        label="stops half way",
        question="You have begun an additive turn and touched nothing else. At 190° the crank stops and will not go "
                 "on. Which interlock stops it? Write its name, or \"none\" if no interlock does that.",
        kind=Choice(*NAMES, "none"),
        right=_holds_a_begun_turn,
        praise="It is a jam, then: something is broken, bent or gummed up. Do not force it, and do not try to go "
               "back. This is where work from outside ends, and where somebody qualified begins.",
        slips=(
            Slip(answer=lambda: "full-stroke ratchet",
                 says="The ratchet keeps a turn from being taken back. Does it mind your going on?"),
            Slip(answer=lambda: "crank at rest",
                 says="That one holds the other movements back as long as the crank is under way. Does it hold the "
                      "crank?"),
            Slip(answer=lambda: "clearing lever at home",
                 says="Had a clearing lever been off its home, the turn could not have begun. Can you pull it now?"),
            Slip(answer=lambda: "carriage seated",
                 says="Had the carriage not been seated, the turn could not have begun. Can you ease it out now?"),
        ),
        nudges=("Which movements are free while an additive turn is begun? There is a row for it in the picture.",
                "Nothing can be put off while a turn is begun, and the one thing that is off lets the crank go on.")),
    Exercise(
        label="a worn ratchet",
        question="A machine like slate has lost its full-stroke ratchet. The register shows 580, and the levers are "
                 "set to 46. You turn the crank to 223°, think better of it, and turn back to rest. What does the "
                 "register show?",
        kind=Number(),
        right=lambda: _turned_back(580, 46).result,
        praise="The wheels go back, the lever stays out, and the other helix finds it.",
        slips=(
            Slip(answer=lambda: 580,
                 says="So it would be if the pins were all. Which carry lever was pushed out on the way there, and "
                      "who sends it home?"),
            Slip(answer=lambda: _before_carries(580, 46),
                 says="That is the reading at 223°. On the way back the pins pass the idlers once more."),
            Slip(answer=lambda: _turned(580, 46),
                 says="That is the whole turn. But you went back before the carry pins had come."),
            Slip(answer=lambda: _turned_back(580, 46).result + 200,
                 says="A carry has come where none should. But in which direction was the crank going?"),
        ),
        nudges=("In which place does a wheel pass from 9 to 0 on the way to 223°?",
                "Wheel 2 does: 8 and 4. On the way back its lever takes wheel 3 one step with it.")),
    Exercise(
        label="a lever moved too late",
        question="Slate without its setting lock: lever 1 stands at 3, and the register at 0. You stop the crank at "
                 "190°, when five pins of the place have gone past, move lever 1 to 8 and finish the turn. What does "
                 "the register show?",
        kind=Number(example=7),
        right=lambda: _moved_late(3, 8),
        praise="Neither the old digit nor the new one. Nobody would ever find that mistake.",
        slips=(
            Slip(answer=lambda: 3,
                 says="That is the old digit. Which pins has the late movement pushed out before they came by?"),
            Slip(answer=lambda: 8,
                 says="That is the new digit. But some of its pins had gone past before they were pushed out."),
            Slip(answer=lambda: 3 + 8,
                 says="That is both digits added. A pin goes past once in a turn, whoever pushed it out."),
        ),
        nudges=("Pins are numbered from 1, and pin 1 comes first. Which were out among the first five?",
                "Pins 1 to 3 before you moved the lever. After it, those from 6 on that are out.")),
    Exercise(
        label="off together",
        question="Take the five letters A, S, L, T and E of this lesson. On paper they make 32 combinations, "
                 "\"nothing is off\" among them. How many of these can hands bring about on a machine whose "
                 "interlocks all hold?",
        kind=Number(example=12),
        right=lambda: len(_off_together()),
        praise="The interlocks guard one another too: most combinations never come about.",
        slips=(
            Slip(answer=lambda: 2**5,
                 says="So many there are on paper. Can you ease the carriage while a turn is begun?"),
            Slip(answer=lambda: 1 + len([one for one in _off_together() if len(one) == 1]),
                 says="You let one thing be off at a time. Which movements are still free while a clearing lever is "
                      "off its home?"),
            Slip(answer=lambda: 2**3 + 2,
                 says="Nearly. Two of these letters exclude each other: who holds the back-transfer lever?"),
        ),
        nudges=("A and S stand alone: while a turn is begun, nothing else can be put off.",
                "Count what L, T and E can make. T and E exclude each other; L goes with either.")),
    Exercise(
        label="most to put right",
        question="The crank stands at rest and stops, either way. How many things may have to be put right, at most, "
                 "each with a movement of its own, before it turns?",
        kind=Number(example=12),
        right=_most_to_put_right,
        praise="So after you have freed one thing, try again with two fingers. There may be another.",
        slips=(
            Slip(answer=lambda: max(len(who_blocks(machine, "crank", 1.0)) for machine in reachable()),
                 says="So many interlocks can hold it at once. But one of them watches over two levers."),
            Slip(answer=lambda: 4,
                 says="You have counted everything that can be off. Can all of it be off at the same time?"),
            Slip(answer=lambda: 1,
                 says="One thing is the usual case. Can you put a second thing off before you try the crank?"),
        ),
        nudges=("Two clearing levers, the back-transfer lever, the carriage. Which of them exclude each other?",
                "Both clearing levers can be off, and with them one other thing.")),
)
