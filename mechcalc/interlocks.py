"""Who blocks whom: each interlock refuses, names the part that blocks and says what frees it.

Only this file decides whether a stroke may begin. The rules are a table; a refusal happens before anything moves,
so the state is as it was.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from mechcalc import strokes
from mechcalc.errors import Locked
from mechcalc.layout import PINS
from mechcalc.parts import Parts
from mechcalc.spec import MachineSpec
from mechcalc.state import State

CLEARING = ("clear setting", "clear result", "clear counter", "pull", "back transfer")
SHIFTING = ("shift", "ease", "seat")
SETTING = ("set", "set lever")
SPOKEN = {"crank": "turn of the crank", "clear setting": "clearing of the setting", "ease": "shift", "seat": "shift",
          "pull": "clearing", "transfer lever": "back transfer", "clear result": "clearing of the result",
          "clear counter": "clearing of the counter"}
CRANKING = ("crank", "clear setting")  # the comb holds off the pawl and the setting lock, not the other interlocks


@dataclass(frozen=True, slots=True, kw_only=True)
class Interlock:
    """One rule.

    Attributes
    ----------
    name : str
        What the trade calls the part or the rule.
    operations : tuple of str
        What it can block.
    blocks : callable
        ``(spec, state, operation, argument) -> bool``.
    part : callable
        ``(spec, state, argument) -> str``, the part that blocks, as pictures name it.
    reason, frees : str
        The message; ``{...}`` fields are filled in from the state.
    """

    name: str
    operations: tuple[str, ...]
    blocks: Callable[[MachineSpec, State, str, Any], bool]
    part: Callable[[MachineSpec, State, Any], str]
    reason: str
    frees: str


def _off_home(spec: MachineSpec, state: State, operation: str, argument: Any) -> bool:
    return bool(state.pulled_result or state.pulled_counter)


def _crank_out(spec: MachineSpec, state: State, operation: str, argument: Any) -> bool:
    return state.direction != 0


def _past_the_end(spec: MachineSpec, state: State, operation: str, argument: Any) -> bool:
    return not 0 <= state.carriage + argument < spec.positions


INTERLOCKS: tuple[Interlock, ...] = (
    Interlock(
        name="full-stroke ratchet", operations=("crank",),
        blocks=lambda spec, state, operation, degrees: state.direction * degrees < 0,
        part=lambda spec, state, argument: "pawl",
        reason="the crank cannot go back: it stands at {angle:g} degrees of {kind} turn, and a turn once begun "
               "must be finished in its direction (full-stroke ratchet)",
        frees="finish the turn"),
    Interlock(
        name="setting lock", operations=SETTING,
        blocks=_crank_out,
        part=lambda spec, state, argument: "lock",
        reason="the setting levers are locked: the crank handle is drawn out of rest, at {angle:g} degrees "
               "(setting lock)",
        frees="return the crank to rest: finish the turn"),
    Interlock(
        name="crank at rest", operations=CLEARING + SHIFTING + ("transfer lever",),
        blocks=_crank_out,
        part=lambda spec, state, argument: "crank",
        reason="no {operation} while the crank is off rest, at {angle:g} degrees of {kind} turn",
        frees="finish the turn"),
    Interlock(
        name="clearing lever at home", operations=CRANKING,
        blocks=_off_home,
        part=lambda spec, state, argument: f"clearing/{'result' if state.pulled_result else 'counter'}",
        reason="the crank cannot turn: the {pulled} clearing lever is off its home by {pulled_by:g} degrees",
        frees="return the lever"),
    Interlock(
        name="back transfer free", operations=(*CRANKING, *SHIFTING),
        blocks=lambda spec, state, operation, argument: state.transfer,
        part=lambda spec, state, argument: "transfer",
        reason="no {operation} while back transfer is engaged: number wheels and pinwheels are geared together",
        frees="disengage it: put the back-transfer lever up"),
    Interlock(
        name="carriage seated", operations=(*CRANKING, "shift", "ease", "transfer lever", "back transfer"),
        blocks=lambda spec, state, operation, argument: state.easing != 0,
        part=lambda spec, state, argument: "carriage",
        reason="no {operation} while the carriage is between two positions, {carriage} and {towards}",
        frees="seat the carriage"),
    Interlock(
        name="carriage stop", operations=("shift", "ease"),
        blocks=_past_the_end,
        part=lambda spec, state, by: "stop/left" if by > 0 else "stop/right",
        reason="the carriage cannot go from position {carriage} by {argument:+d}: it stops at 0 and at {last}",
        frees="shift the other way"),
    Interlock(
        name="carriage in its seat", operations=("seat",),
        blocks=lambda spec, state, operation, to: state.easing == 0,
        part=lambda spec, state, argument: "carriage",
        reason="the carriage is seated already, at position {carriage}",
        frees="ease it out first"),
    Interlock(
        name="back transfer fitted", operations=("transfer lever", "back transfer"),
        blocks=lambda spec, state, operation, argument: not spec.back_transfer,
        part=lambda spec, state, argument: "transfer",
        reason="this machine has no back-transfer lever",
        frees="set the number by hand"),
)


def check(spec: MachineSpec, parts: Parts, state: State, operation: str, argument: Any) -> None:
    """Raise `Locked` if an interlock blocks `operation`; otherwise do nothing.

    >>> from mechcalc import Machine, MachineSpec
    >>> m = Machine(MachineSpec(setting_places=4, result_places=6, counter_places=3, carry_reach=6))
    >>> _ = m.crank(120.0)
    >>> m.crank(-10.0)
    Traceback (most recent call last):
        ...
    mechcalc.errors.Locked: the crank cannot go back: it stands at 120 degrees of an additive turn, and a turn once \
begun must be finished in its direction (full-stroke ratchet). Finish the turn.
    """
    for rule in INTERLOCKS:
        if operation in rule.operations and parts.holds(rule.name) and rule.blocks(spec, state, operation, argument):
            figures = _figures(spec, state, operation, argument)
            raise Locked(rule.reason.format(**figures), rule.part(spec, state, argument), rule.frees)
    if operation in ("back transfer", "clear result", "pull"):
        _check_jam(spec, parts, state, operation, argument)


def _figures(spec: MachineSpec, state: State, operation: str, argument: Any) -> dict[str, Any]:
    return {
        "operation": SPOKEN.get(operation, operation),
        "argument": argument, "angle": state.angle, "carriage": state.carriage, "last": spec.positions - 1,
        "towards": state.carriage + state.easing, "kind": "an additive" if state.direction > 0 else "a subtractive",
        "pulled": "result" if state.pulled_result else "counter",
        "pulled_by": state.pulled_result or state.pulled_counter,
    }


def _check_jam(spec: MachineSpec, parts: Parts, state: State, operation: str, argument: Any) -> None:
    """A pinwheel that would pass 9 jams the gears, and the clearing lever with them."""
    if operation == "back transfer":
        after, _ = strokes.back_transfer(spec, parts, state, None)
    elif state.transfer and operation == "clear result":
        after, _ = strokes.clear(spec, parts, state, "result")
    elif state.transfer and operation == "pull" and argument[0] == "result":
        after, _ = strokes.pull(spec, parts, state, argument)
    else:
        return
    for place, (was, would) in enumerate(zip(state.setting, after.setting, strict=True), start=1):
        if would > PINS:
            raise Locked(
                f"back transfer jams at place {place}: the pinwheel stands at {was} and number wheel "
                f"{place + state.carriage} would take it {would - was} further, past 9", f"setting/{place}",
                "put the back-transfer lever up and clear the setting first" if state.transfer else
                "clear the setting first")
