"""Machines to test on: one whose angles are whole numbers, and random ones with random work to do.

Only this file draws machines and strokes. `TRIAL` is worked out by hand in tests/golden: pins from 144 to 216 degrees,
carry pins at 220, 232, 244, counter at 288.
"""

from __future__ import annotations

from math import floor

from hypothesis import strategies as st

from mechcalc import Locked, Machine, MachineSpec

from .oracles import Arithmetic

ANGLES = {"pin_pitch": 8.0, "gap": 4.0, "helix_step": 12.0, "lever_throw": 3.0, "rest_arc": 15.0}
TRIAL = MachineSpec(setting_places=3, result_places=4, counter_places=3, carry_reach=4, **ANGLES)

# Each leaves room for ten places; the second and third have every rule of the layout exactly at its limit.
DRUMS = (
    {"pin_pitch": 6.0, "gap": 2.0, "helix_step": 7.5, "lever_throw": 1.5, "rest_arc": 12.0},
    {"pin_pitch": 6.0, "gap": 1.5, "helix_step": 7.5, "lever_throw": 1.5, "rest_arc": 0.0},
    {"pin_pitch": 9.1, "gap": 3.2, "helix_step": 12.3, "lever_throw": 3.2, "rest_arc": 10.0},
    {"pin_pitch": 5.0, "gap": 0.0, "helix_step": 5.0, "lever_throw": 0.0, "rest_arc": 0.0},
    {"pin_pitch": 7.0, "gap": 20.0, "helix_step": 10.0, "lever_throw": 2.0, "rest_arc": 1.0},
)


@st.composite
def specs(draw) -> MachineSpec:
    """Any machine: setting 1..9, result 1..16, any carry reach that covers the setting and fits the drum."""
    angles = dict(draw(st.sampled_from(DRUMS)))
    most = MachineSpec(setting_places=1, result_places=1, counter_places=1, carry_reach=1, **angles).largest_carry_reach
    setting = draw(st.integers(1, 9))
    reach = draw(st.integers(setting, min(most, 18)))
    result, counter = draw(st.integers(1, 16)), draw(st.integers(1, 10))
    spec = MachineSpec(setting_places=setting, result_places=result, counter_places=counter, carry_reach=reach,
                       positions=draw(st.integers(1, min(result, counter))), counter_carry=draw(st.booleans()),
                       **angles)
    if draw(st.booleans()):  # not a degree to spare: the last carry pin's step ends as the drum comes to rest
        angles["rest_arc"] = 0.0
        angles["gap"] += (spec.spare_arc + spec.rest_arc) / 2 if reach > 1 else 0.0
        angles["gap"] = floor(angles["gap"] * 20 + 1e-6) / 20
        spec = MachineSpec.from_dict({**spec.to_dict(), **angles})
    return spec


figures = st.one_of(st.integers(0, 10**16 - 1), st.integers(0, 10),
                    st.sampled_from([9, 99, 999_999_999_999_999, 1, 10, 100_000_001, 5_555_555_555, 10**15]))
signs = st.sampled_from([1, -1])
cuts = st.lists(st.floats(0.001, 359.999), max_size=5)
registers = st.sampled_from(["result", "counter"])
ACTS = st.one_of(
    st.tuples(st.just("set"), figures),
    st.tuples(st.just("lever"), st.integers(0, 99), st.integers(0, 9)),
    st.tuples(st.just("turn"), signs, st.integers(1, 12)),
    st.tuples(st.just("cut turn"), signs, cuts),
    st.tuples(st.just("shift"), signs),
    st.tuples(st.just("eased"), signs, st.booleans()),
    st.tuples(st.just("clear"), st.sampled_from(["setting", "result", "counter"])),
    st.tuples(st.just("pulled"), registers, st.one_of(st.floats(0, 90), st.sampled_from([10.0, 45.0, 90.0]))),
    st.just(("back transfer",)),
)
work = st.lists(ACTS, min_size=1, max_size=14)


def crank_in_parts(machine: Machine, direction: int, angles: list[float]) -> list:
    """One turn, with stops at `angles`; the events of all parts."""
    events = []
    for angle in sorted(angles):
        if angle > machine.state.angle:
            stroke = machine.crank(direction * (angle - machine.state.angle))
            events += stroke.events if not isinstance(stroke, tuple) else [e for part in stroke for e in part.events]
    last = machine.finish_turn() if machine.state.direction else machine.turn(direction)
    return [*events, *last.events]


def do(machine: Machine, sums: Arithmetic, act: tuple) -> None:
    """The same thing on the machine and in whole numbers; what one refuses the other must refuse."""
    {"set": _set, "lever": _lever, "turn": _turn, "cut turn": _cut_turn, "shift": _shift, "eased": _eased,
     "clear": _clear, "pulled": _pulled, "back transfer": _back_transfer}[act[0]](machine, sums, *act[1:])


def shows(machine: Machine, sums: Arithmetic) -> bool:
    """Whether the windows show the whole numbers."""
    return (machine.setting, machine.result, machine.counter, machine.carriage, machine.counter_direction,
            machine.bell) == (sums.setting, sums.result, sums.counter, sums.carriage, sums.up, sums.bell)


def _set(machine, sums, value):
    value %= 10**machine.spec.setting_places
    machine.set(value)
    sums.setting = value


def _lever(machine, sums, place, digit):
    place %= machine.spec.setting_places
    machine.set_lever(place + 1, digit)
    sums.setting += (digit - sums.setting // 10**place % 10) * 10**place


def _turn(machine, sums, direction, times):
    machine.turn(direction * times)
    for _ in range(times):
        sums.turn(direction)


def _cut_turn(machine, sums, direction, angles):
    crank_in_parts(machine, direction, angles)
    sums.turn(direction)


def _shift(machine, sums, by):
    if 0 <= sums.carriage + by < machine.spec.positions:
        machine.shift(by)
        sums.carriage += by
    else:
        assert refused(machine, lambda: machine.shift(by)).part == ("stop/left" if by > 0 else "stop/right")


def _eased(machine, sums, by, over):
    if not 0 <= sums.carriage + by < machine.spec.positions:
        refused(machine, lambda: machine.ease_carriage(by))
        return
    machine.ease_carriage(by)
    assert refused(machine, machine.turn).part == "carriage"
    machine.seat_carriage(None if over else sums.carriage)
    sums.carriage += by if over else 0


def _clear(machine, sums, register):
    getattr(machine, f"clear_{register}")()
    setattr(sums, register, 0)
    if register == "counter":
        sums.up = None


def _pulled(machine, sums, register, degrees):
    machine.pull_clearing_lever(register, degrees)
    if degrees:
        assert refused(machine, machine.turn).part == f"clearing/{register}"
    machine.return_clearing_lever(register)
    sums.pulled(register, degrees)


def _back_transfer(machine, sums):
    before = sums.setting, sums.result
    if sums.transfer():
        machine.back_transfer()
    else:
        assert refused(machine, machine.back_transfer).part.startswith("setting/")
        assert before == (sums.setting, sums.result)


def refused(machine: Machine, attempt) -> Locked:
    """The refusal, after checking that the machine stands as it did."""
    state, strokes = machine.state, machine.strokes
    try:
        attempt()
    except Locked as no:
        assert machine.state is state
        assert machine.strokes == strokes
        return no
    raise AssertionError("nothing refused")
