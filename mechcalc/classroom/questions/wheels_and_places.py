"""The exercises of the lesson "Wheels and places".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from mechcalc.catalogue import load_spec, machine_names
from mechcalc.classroom.answers import Choice, Digits, Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.machines import ready
from mechcalc.errors import InputError
from mechcalc.events import Kind
from mechcalc.machine import Machine
from mechcalc.numbers import from_digits, to_digits
from mechcalc.spec import MachineSpec

FOUR_PINS_ON = 176.0  # degrees of crank on "slate": pin 4 has done its step, pin 5 has only begun
LARGEST = {"setting": 250_000, "result": 30_000_000_000, "counter": 400_000}  # an invented ticket office's year


def _pins_out(setting: int) -> int:
    """Pins that push an idler in one turn."""
    machine = ready("slate", setting=setting)
    machine.turn()
    return sum(event.kind is Kind.NUMBER_STEP for stroke in machine.strokes for event in stroke.events)


def _stopped(result: int, setting: int, degrees: float) -> tuple[int, ...]:
    machine = ready("slate", result=result, setting=setting)
    machine.crank(degrees)
    return machine.result_digits


def _levers(before: int, after: int) -> int:
    """The setting that takes slate from one reading to another, found lever by lever."""
    def steps(place: int) -> int:
        return next(digit for digit in range(10)
                    if _stopped(before, digit * 10**place, 360.0)[place] == to_digits(after, 6)[place])
    return from_digits(steps(place) for place in range(4))


def _settings_without_lever_2() -> int:
    """How many numbers slate's other three levers can set, tried one by one."""
    machine = ready("slate")
    return len({machine.set(number).reading.setting for number in range(10_000) if number // 10 % 10 == 0})


def _takes(name: str) -> bool:
    """Whether a machine of the catalogue can set, show and count the ticket office's largest numbers."""
    try:
        ready(name, setting=LARGEST["setting"], result=LARGEST["result"])
    except InputError:
        return False
    return bool(LARGEST["counter"] < 10**load_spec(name).counter_places)


def _size(name: str) -> int:
    spec = load_spec(name)
    return spec.setting_places + spec.result_places + spec.counter_places


def _smallest() -> str:
    return min((name for name in machine_names() if _takes(name)), key=_size)


def _round_again(digit: int) -> tuple[int, int]:
    """Turns until a wheel alone shows 0 again, and the rounds that it has made."""
    machine = Machine(MachineSpec(setting_places=1, result_places=1, counter_places=1, carry_reach=1))
    machine.set(digit)
    turns = 1
    while machine.turn().reading.result:  # type: ignore[union-attr]
        turns += 1
    return turns, turns * digit // 10


EXERCISES = (
    Exercise(
        label="pins that are out",
        question="Slate's four levers stand at 4028. How many of the drum's pins are out, in all four places together?",
        kind=Number(example=25),
        right=lambda: _pins_out(4028),
        praise="As many as the digits add up to; each will move its wheel one step.",
        slips=(
            Slip(answer=lambda: 4028,
                 says="So many pins would be needed without places. How many does the lever of the thousands push "
                      "out?"),
            Slip(answer=lambda: 36 - _pins_out(4028),
                 says="These are the pins that are in. Which ones can touch an idler?"),
            Slip(answer=lambda: _pins_out(4028) + 9,
                 says="Look at the lever of the hundreds again: it stands at 0. What does it push out?"),
            Slip(answer=lambda: load_spec("slate").setting_places,
                 says="That is one pin a lever. A lever at 8 does more than a lever at 2."),
        ),
        nudges=("A lever at a digit pushes that many of its own nine pins out.",
                "4, and none, and 2, and 8.")),
    Exercise(
        label="stopped among the pins",
        question="The register shows 1130 and the levers are set to 2846. You stop the crank at 176°: pins 1 to 4 have "
                 "gone by, pins 5 to 9 have not. Write what the six wheels show, units first.",
        kind=Digits(6),
        right=lambda: _stopped(1130, 2846, FOUR_PINS_ON),
        praise="Three wheels have made four steps; the thousands had only two to make, and are done.",
        slips=(
            Slip(answer=lambda: tuple(reversed(_stopped(1130, 2846, FOUR_PINS_ON))),
                 says="These are the right digits from the other end. Units first means: begin at the right-hand "
                      "window."),
            Slip(answer=lambda: _stopped(1130, 2846, 360.0),
                 says="That is the end of the turn. Which pins are still to come?"),
            Slip(answer=lambda: (*(digit + 4 for digit in to_digits(1130, 4)), 0, 0),
                 says="You moved every wheel four steps. How many pins are out in the thousands?"),
            Slip(answer=lambda: _stopped(1130, 0, 360.0),
                 says="That is the reading before the turn. Four rows of pins have passed the idlers since."),
        ),
        nudges=("Go wheel by wheel. A lever at 6 pushes pins 1 to 6 out: how many of them are among the first four?",
                "The units go from 0 to 4, the tens from 3 to 7.")),
    Exercise(
        label="what was on the levers",
        question="Slate's windows showed 1203. After one additive turn, in which no wheel passed 9, they show 5273. "
                 "Which number was on the levers?",
        kind=Number(),
        right=lambda: _levers(1203, 5273),
        praise="Wheels 1 and 3 did not move, so their levers stood at 0; the noughts hold the places of the others.",
        slips=(
            Slip(answer=lambda: 5273,
                 says="That is where the wheels have got to. How many steps has each of them made?"),
            Slip(answer=lambda: int(str(_levers(1203, 5273)).replace("0", "")),
                 says="You found the two wheels that moved. But which levers moved them? A lever at 0 takes up a place "
                      "as well."),
            Slip(answer=lambda: 5273 + 1203,
                 says="You added the two readings. The levers hold what led from the first to the second."),
        ),
        nudges=("Compare the windows one by one: how many steps has each wheel made?",
                "Wheel 1 went from 3 to 3, wheel 2 from 0 to 7.")),
    Exercise(
        label="a lever that is stuck",
        question="Lever 2 of a slate has rusted fast at 0; levers 1, 3 and 4 are free. How many different numbers can "
                 "still be set, nought included?",
        kind=Number(example=25),
        right=_settings_without_lever_2,
        praise="Three levers with ten positions each, and every choice makes another number.",
        slips=(
            Slip(answer=lambda: 10**load_spec("slate").setting_places,
                 says="So many there are with four free levers. Which numbers can no longer be set?"),
            Slip(answer=lambda: _settings_without_lever_2() - 1,
                 says="One is missing: all levers at 0 is a setting too."),
            Slip(answer=lambda: 3 * 10,
                 says="You added the positions of three levers. But each position of one goes with every position of "
                      "the others."),
            Slip(answer=lambda: 9**3,
                 says="You gave each lever nine positions. Count them again, from 0 to 9."),
        ),
        nudges=("How many positions has one lever? And how many pairs of positions have two?",
                "Ten times ten for two levers. Then a third.")),
    Exercise(
        label="the smallest that fits",
        question="A ticket office (an invented one) sets numbers up to 250 000, adds up to 30 000 000 000 in a year, "
                 "and counts up to 400 000 tickets. Which machine of the catalogue has room for all that with the "
                 "fewest levers and wheels?",
        kind=Choice(*machine_names()),
        right=_smallest,
        praise="It has room in all three, and nothing smaller has.",
        slips=(
            Slip(answer=lambda: "plain",
                 says="Its levers and its counter have room. How many number wheels has it, and how many digits has "
                      "the year's sum?"),
            Slip(answer=lambda: "counting_room",
                 says="It has room for everything. But there is one that has fewer levers and still enough windows."),
            Slip(answer=lambda: "bench",
                 says="It has room for everything, and more than is needed. Count the digits of the three numbers."),
            Slip(answer=lambda: "slate",
                 says="It is the smallest of all. Can its four levers be set to a quarter of a million?"),
        ),
        nudges=("Count the digits: 250 000 takes six levers. And the other two numbers?",
                "Six levers, eleven number wheels, six counter wheels at least: look for these in the list.")),
    Exercise(
        label="round and round",
        question="A wheel alone stands at 0, and its lever at 4. After how many turns of the crank does its window "
                 "show 0 again, and how many rounds has the wheel made by then? Write both, as in (12, 3).",
        kind=Several(turns=Number(example=12), rounds=Number(example=3)),
        right=lambda: _round_again(4),
        praise="Twenty steps: five times 4, and twice 10.",
        slips=(
            Slip(answer=lambda: (10, 4),
                 says="Then it shows 0, that is true. But was it not there once before?"),
            Slip(answer=lambda: (3, ...),
                 says="In the third turn it passes 0, and goes on. Where does it stop?"),
            Slip(answer=lambda: (_round_again(4)[0], 1),
                 says="The turns are right. How many steps are they together, and how many steps make a round?"),
            Slip(answer=lambda: (_round_again(4)[0], 4 * _round_again(4)[0]),
                 says="The turns are right. You have counted the steps; ten of them make one round."),
        ),
        nudges=("Write the window down turn by turn: 4, 8, and then?",
                "4, 8, 2, 6, and then?")),
)
