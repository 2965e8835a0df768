"""Sessions of many kinds, for the tests of timelines and poses in both languages."""

from __future__ import annotations

import random
from typing import Any

from mechcalc import InputError, Locked, Machine, load_spec, machine_names
from mechcalc.bench import FAULTS, Fault, Machine as BenchMachine, RatchetWorn, every_fault
from mechcalc.bench.fault_list import clash
from mechcalc.view.asking import record_scene
from mechcalc.view.pace import Pace
from mechcalc.view.pose import moment_at, pose, stroke_at, turning_at
from mechcalc.view.subject import subject_of
from mechcalc.view.timeline import Timeline, ahead, timeline


def faulty_machine(name: str, seed: int) -> Machine:
    """A machine with up to four faults of any kind; every other one has a worn ratchet too."""
    dice, spec = random.Random(f"faults of {name} {seed}"), load_spec(name)
    faults: list[Fault] = [RatchetWorn()] if seed % 2 else []
    for fault in dice.sample(every_fault(spec), dice.randint(1, 4)):
        if fault not in faults and not any(clash(fault, other) for other in faults):
            faults.append(fault)
    return BenchMachine(spec, faults=faults)


def random_session(name: str, seed: int, strokes: int = 14, *, faulty: bool = False) -> Machine:
    """A machine after strokes of all kinds; those that are refused are left out."""
    dice = random.Random(f"{name} {seed}")
    machine = faulty_machine(name, seed) if faulty else Machine(load_spec(name))
    spec = machine.spec
    choices = [
        lambda: ("set", dice.randrange(10**spec.setting_places)),
        lambda: ("set lever", (dice.randint(1, spec.setting_places), dice.randint(0, 9))),
        lambda: ("crank", dice.choice((360.0, -360.0, 720.0))),
        lambda: ("crank", round(dice.uniform(-400, 400), 2)),
        lambda: ("crank", (360.0 - machine.state.angle) * (machine.state.direction or 1)),
        lambda: ("shift", dice.choice((1, -1))), lambda: ("ease", dice.choice((1, -1))),
        lambda: ("seat", machine.carriage + dice.choice((0, machine.state.easing))),
        lambda: ("clear result", None), lambda: ("clear counter", None), lambda: ("clear setting", None),
        lambda: ("pull", (dice.choice(("result", "counter")), dice.choice((0.0, 41.5, 90.0)))),
        lambda: ("transfer lever", dice.choice((True, False))), lambda: ("back transfer", None),
    ]
    while len(machine.strokes) < strokes:
        operation, argument = dice.choice(choices)()
        try:
            machine.perform(operation, argument)
        except (Locked, InputError):
            continue
    return machine


def told(machine: Machine) -> Timeline:
    """The timeline of all strokes of a machine."""
    start = machine.strokes[0].before if machine.strokes else machine.state
    return timeline(machine.spec, start, machine.strokes, parts=machine.parts)


def nines(*, more: bool = False, until: float = 360.0) -> Machine:
    """9999 + 1 on the slate: the carry that ripples through all its places."""
    machine = Machine(load_spec("slate"))
    machine.set(9999)
    machine.turn()
    machine.set(1)
    machine.crank(until)
    if more:
        machine.turn(-1)
    return machine


def sampled(name: str, data: Timeline, count: int = 60) -> dict[str, Any]:
    """A session for the JavaScript tests: its timeline, and what Python says at many travels."""
    dice = random.Random(name)
    travels = {-1.0, 0.0, data["length"], data["length"] + 5}
    travels |= {round(dice.uniform(0, data["length"]), 3) for _ in range(count)}
    travels |= {stroke["to"] for stroke in data["strokes"]}
    travels |= {moment[key] for moment in data["moments"][:: max(1, len(data["moments"]) // count)]
                for key in ("at", "from")}
    pace = Pace(data)
    return {"name": name, "timeline": data, "samples": [
        {"travel": travel, "pose": pose(data, travel), "stroke": stroke_at(data, travel),
         "turning": turning_at(data, travel), "moment": moment_at(data, travel),
         "pace": pace.at(travel), "later": pace.advance(travel, 0.1)} for travel in sorted(travels)]}


def every_kind() -> Machine:
    """A slate on which one of every kind of fault is at work, as far as they go together."""
    spec = load_spec("slate")
    machine = BenchMachine(spec, faults=[next(iter(kind.everywhere(spec))) for kind in FAULTS.values()
                                         if kind.name != "number pin stuck out"])
    machine.set(1999)
    machine.turn(3)
    machine.crank(120.0)
    machine.set_lever(2, 4)
    machine.crank(-120.0)
    machine.clear_setting()
    machine.back_transfer()
    return machine


def for_javascript() -> list[dict[str, Any]]:
    """What tests/js reads."""
    sessions = [sampled("nines", told(nines())), sampled("nines, then one more", told(nines(more=True)))]
    for name, machine in (("at rest", nines()), ("part way", nines(until=233.0))):
        sessions.append({**sampled(name, told(machine)), "ahead": ahead(machine)})
    for predict, ask in (("result", None), ("counter", "each turn"), ("carry", None)):
        scene = record_scene(subject_of(nines()), predict, ask)
        sessions.append({**sampled(f"asked for {predict}", scene["timeline"]), "scene": scene})
    sessions += [sampled(f"{name} {seed}", told(random_session(name, seed)), 25)
                 for name in machine_names() for seed in range(2)]
    sessions.append(sampled("every kind of fault", told(every_kind())))
    sessions += [sampled(f"{name} with faults {seed}", told(random_session(name, seed, faulty=True)), 25)
                 for name in machine_names() for seed in range(2)]
    return sessions
