"""Random machines, faults and steps, for hypothesis and for one long run."""

from __future__ import annotations

from random import Random

from mechcalc import MachineSpec, SpecError
from mechcalc.bench import CarryTimingLate, every_fault
from mechcalc.bench.fault_list import clash
from mechcalc.bench.steps import Step

LATE = tuple(CarryTimingLate(by=by) for by in (0.25, 3.0, 20.0, 100.0))


def random_spec(chance: Random) -> MachineSpec:
    """A small machine; two in five have a drum on which carries can come too late."""
    while True:
        levers = chance.randint(1, 4)
        angles = {}
        if chance.random() < 0.4:
            angles = {"helix_step": chance.choice([3.0, 5.0, 6.0, 7.0, 7.4]),
                      "gap": chance.choice([0.0, 0.5, 1.0, 2.0]),
                      "lever_throw": chance.choice([0.5, 1.5, 4.0, 9.0]), "allow_faulty_timing": True}
        try:
            return MachineSpec(setting_places=levers, result_places=chance.randint(1, 7),
                               counter_places=chance.randint(1, 4), carry_reach=chance.randint(levers, 8),
                               counter_carry=chance.random() < 0.8, back_transfer=chance.random() < 0.8, **angles)
        except SpecError:
            continue


def random_seats(chance: Random, faults, machines: int):
    """For each machine up to eight faults that can go together, as indices, -1 for none."""
    seats = []
    for _ in range(machines):
        chosen: list[int] = []
        for _ in range(chance.choice([0, 1, 2, 3, 5, 8])):
            index = chance.randrange(len(faults))
            if index not in chosen and not any(clash(faults[index], faults[other]) for other in chosen):
                chosen.append(index)
        seats.append(chosen + [-1] * (8 - len(chosen)))
    return seats


def random_steps(chance: Random, spec: MachineSpec, many: int) -> list[Step]:
    """Steps that a sound machine of this spec can do."""
    steps, place = [], 0
    while len(steps) < many:
        what = chance.choice(["set"] * 3 + ["turn"] * 6 + ["shift", "clear result", "clear counter", "clear setting",
                                                            "back transfer", "try back", "try lever"])
        by = chance.choice([1, 1, -1])
        if what == "set":
            top = 10**spec.setting_places
            steps.append(Step(what, chance.choice([chance.randrange(top), top - 1, 1])))
        elif what == "turn":
            steps.append(Step(what, by))
        elif what == "shift":
            if 0 <= place + by < spec.positions:
                place += by
                steps.append(Step(what, by))
        elif what != "back transfer" or spec.back_transfer:
            steps.append(Step(what))
    return steps


def all_faults(spec: MachineSpec):
    """Every single fault, and more ways of being late."""
    listed = every_fault(spec)
    return (*listed, *(fault for fault in LATE if fault not in listed))
