"""The exercises of the lesson "Reading a machine by its symptoms".

Only this file holds their questions, and runs the machines that answer them.
"""

from __future__ import annotations

from mechcalc.bench import CarryLeverWeak, CarryPinGone, Fault, NumberPinStuckOut, SettingLeverCreeps, every_fault
from mechcalc.catalogue import load_spec
from mechcalc.classroom.answers import Choice, Number, Several
from mechcalc.classroom.exercises import Exercise, Slip
from mechcalc.classroom.symptoms import bench, by_position, seen_after

KINDS = ("number pin stuck out", "number wheel overthrows", "carry lever not pushed home", "idler tooth lost")
LESS_ONE, NINES = "set 1; turn -1", "set 999; turn; set 1; turn"


def _fits(**shown: str) -> list[Fault]:
    """Single faults of slate that show all this: by steps (spaces for _) what the result shows."""
    steps = {name: STEPS[name] for name in shown}
    return [fault for fault in every_fault(load_spec("slate"))
            if all(seen_after("slate", [fault], steps[name]) == said for name, said in shown.items())]


STEPS = {"four noughts": "turn 4", "fours": "set 4444; turn", "three noughts": "turn 3", "less one": LESS_ONE,
         "nines": NINES}


def _where_it_sits(fault: Fault) -> str:
    """Whether the wrong wheel moves along when the carriage is shifted."""
    found = by_position("slate", fault, "set 5555; turn 2")
    return "carriage" if found[0] == found[1] else "drum"


def _stuck() -> int:
    return {fault.place for fault in _fits(**{"four noughts": "000400"}) if isinstance(fault, NumberPinStuckOut)}.pop()


def _too_much() -> str:
    return {fault.name for fault in _fits(fours="004454", **{"three noughts": "000000"})}.pop()


def _helix() -> tuple[int, str]:
    (pin,) = (fault for fault in _fits(nines="001000", **{"less one": "000999"}) if isinstance(fault, CarryPinGone))
    return pin.place, "additive" if pin.direction > 0 else "subtractive"


def _first_wrong_turn() -> int:
    creeping = SettingLeverCreeps(place=3)
    return next(turns for turns in range(1, 11)
                if seen_after("slate", [creeping], f"set 1111; turn {turns}")
                != seen_after("slate", [], f"set 1111; turn {turns}"))


EXERCISES = (
    Exercise(
        label="drum or carriage",
        question="5555 is turned twice. With the carriage at home, wheel 3 shows one too little. You clear, shift the "
                 "carriage by one place and do the same again: now wheel 4 shows one too little, and wheel 3 is "
                 "right. Where does the faulty part sit? Write \"drum\", \"carriage\" or \"counter\".",
        kind=Choice("drum", "carriage", "counter"),
        right=lambda: _where_it_sits(CarryPinGone(place=3, direction=1)),
        praise="The wheels have moved past a part that stayed where it was.",
        slips=(
            Slip(answer=lambda: _where_it_sits(CarryLeverWeak(wheel=2)),
                 says="A part that travels with the carriage would have spoiled the same wheel again. Did it?"),
            Slip(answer=lambda: "counter",
                 says="The counter was not even read here. Which of the two large parts moves when you shift?"),
        ),
        nudges=("Number wheels and carry levers ride in the carriage; pins and idlers do not.",
                "After the shift wheel 4 stands where wheel 3 stood. What else is still there?")),
    Exercise(
        label="a lever that gives way",
        question="On slate the carry lever of wheel 1 will not stay out. You set 999, turn, set 1 and turn. What does "
                 "the result show?",
        kind=Number(example=7),
        right=lambda: bench("slate", CarryLeverWeak(wheel=1), steps=NINES).result,
        praise="One carry is lost, and with it every carry that it would have set going.",
        slips=(
            Slip(answer=lambda: bench("slate", CarryLeverWeak(wheel=2), steps=NINES).result,
                 says="That is what a weak lever at wheel 2 would do. Which wheel does lever 1 carry to?"),
            Slip(answer=lambda: bench("slate", steps=NINES).result,
                 says="That is the sound machine. Which wheel passes from 9 to 0 first?"),
            Slip(answer=lambda: 0,
                 says="Only the carry out of wheel 1 is lost. Do wheels 2 and 3 turn at all?"),
        ),
        nudges=("Wheel 1 passes from 9 to 0 and pushes its lever, which falls back. Who moves wheel 2 now?",
                "Nobody does. So wheel 2 keeps its digit, and so does wheel 3.")),
    Exercise(
        label="noughts that count",
        question="All levers of slate stand at 0. After four turns the result shows 400. In which pinwheel is a pin "
                 "stuck out? Write its place, counted from the units.",
        kind=Number(example=7),
        right=_stuck,
        praise="The test with noughts shows a stuck pin bare: nothing else moves.",
        slips=(
            Slip(answer=lambda: 4, says="Four is how often you turned. Which wheel shows it?"),
            Slip(answer=lambda: 2, says="Count again from the right. The units wheel is wheel 1."),
        ),
        nudges=("A pin that is stuck out moves the wheel before its own place by one step in each turn.",
                "The carriage is at home, so wheel and place have the same number.")),
    Exercise(
        label="one too much",
        question="4444 turned once shows 4454. Three turns with all levers at 0 show 0. Which kind of fault does both? "
                 "Write one of: \"number pin stuck out\", \"number wheel overthrows\", \"carry lever not pushed "
                 "home\", \"idler tooth lost\".",
        kind=Choice(*KINDS),
        right=_too_much,
        praise="It runs on only if it was driven, and noughts drive nothing.",
        slips=(
            Slip(answer=lambda: "number pin stuck out",
                 says="That fits the fours. What would the three turns with noughts have shown?"),
            Slip(answer=lambda: "carry lever not pushed home",
                 says="A carry lever must first have been pushed out. Does any wheel pass from 9 to 0 here?"),
            Slip(answer=lambda: "idler tooth lost",
                 says="Where a tooth is missing, a step is lost. Is something missing here, or is it too much?"),
        ),
        nudges=("Two of the four kinds make a wheel show one too much. Which of them needs to be driven first?",
                "Read the lesson's table along the column of the noughts.")),
    Exercise(
        label="which pin of which helix",
        question="On slate 999 and 1 make 1000, as they should. Nought less one shows 000999. Which carry pin is gone? "
                 "Write place and helix, as in (2, \"additive\").",
        kind=Several(place=Number(example=7), helix=Choice("additive", "subtractive")),
        right=_helix,
        praise="One direction tells the helix, and the last nine tells the place.",
        slips=(
            Slip(answer=lambda: (3, "subtractive"),
                 says="The helix is right. The last wheel that was reached is not the one that was missed."),
            Slip(answer=lambda: (..., "additive"),
                 says="Additive turns are fine on this machine. Which helix follows the pins when you turn back?"),
        ),
        nudges=("A carry pin of place p moves the wheel before place p. Which is the first wheel that was not moved?",
                "Three wheels show 9. The next one should, and does not.")),
    Exercise(
        label="catching a creeping lever",
        question="You suspect that setting lever 3 of slate creeps back by one digit in each turn. You set 1111. How "
                 "many turns do you make at least until the result shows it?",
        kind=Number(example=7),
        right=_first_wrong_turn,
        praise="The first turn is still right: the lever slips as the drum comes to rest.",
        slips=(
            Slip(answer=lambda: 1,
                 says="In the first turn the lever still stands where you put it. When does it slip?"),
            Slip(answer=lambda: 10,
                 says="You need not wait for a carry. Which digit of the result differs first?"),
        ),
        nudges=("What does the third lever show after the first turn?",
                "Turn by turn: 111, and then what is added?")),
)
