"""The table of operations: its name, how its argument is checked, what it does to a state.

Only this file connects a name to a stroke. `perform` is the whole machine as one pure function; `Machine`, saved
sessions and look-ahead in pictures all go through it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from mechcalc import interlocks, strokes, turning
from mechcalc.errors import InputError, SettingError
from mechcalc.events import Stroke
from mechcalc.numbers import finite, shown, whole
from mechcalc.parts import SOUND, Parts
from mechcalc.spec import MachineSpec
from mechcalc.state import State

MOST_TURNS = 10_000
ALMOST = 1e-9  # degrees; a crank this close to rest is at rest
SPANS = {"set": 0.0, "set lever": 0.0, "shift": strokes.SHIFT_MOVE, "ease": strokes.SHIFT_MOVE / 2,
         "seat": strokes.SHIFT_MOVE / 2, "transfer lever": strokes.TRANSFER_MOVE}


@dataclass(frozen=True, slots=True)
class Operation:
    """How an operation is checked and done.

    Attributes
    ----------
    check : callable
        ``(spec, state, argument) -> argument``, in plain types, or an `InputError`.
    act : callable
        ``(spec, parts, state, argument) -> (state, events)``.
    """

    check: Callable[[MachineSpec, State, Any], Any]
    act: Callable[[MachineSpec, Parts, State, Any], strokes.Result]


def _no_argument(spec: MachineSpec, state: State, argument: Any) -> None:
    if argument is not None:
        raise InputError(f"this stroke takes no argument, not {shown(argument)}")


def _number(spec: MachineSpec, state: State, number: Any) -> int:
    number = whole(number, "the setting", 0, error=SettingError)
    if number >= 10**spec.setting_places:
        raise SettingError(f"the setting cannot be {shown(number)}: there are {spec.setting_places} levers, and the "
                           f"largest setting is {10**spec.setting_places - 1}")
    return number


def _pair(argument: Any, rule: str, error: type[InputError]) -> tuple[Any, Any]:
    if not isinstance(argument, (tuple, list)) or len(argument) != 2:
        raise error(f"{rule}, not {shown(argument)}")
    return argument[0], argument[1]


def _lever(spec: MachineSpec, state: State, argument: Any) -> tuple[int, int]:
    place, digit = _pair(argument, "a lever is set by (place, digit)", SettingError)
    place = whole(place, "a setting lever's place", 1, spec.setting_places, error=SettingError)
    digit = whole(digit, f"the digit of lever {place}", error=SettingError)
    if not 0 <= digit <= 9:
        raise SettingError(f"lever {place} cannot be set to {shown(digit)}: a lever goes from 0 to 9")
    return place, digit


def _degrees(spec: MachineSpec, state: State, degrees: Any) -> float:
    degrees = finite(degrees, "a crank angle")
    if abs(degrees) > MOST_TURNS * turning.FULL_TURN:
        raise InputError(f"a crank angle cannot be {degrees:g} degrees: at most {MOST_TURNS} turns in one go")
    return degrees


def _one_place(spec: MachineSpec, state: State, by: Any) -> int:
    by = whole(by, "a shift of one place", -1, 1)
    if by == 0:
        raise InputError("a shift of one place cannot be 0: it is 1 or -1")
    return by


def _position(spec: MachineSpec, state: State, to: Any) -> int:
    to = whole(to, "a carriage position", 0, spec.positions - 1)
    if state.easing and to not in (state.carriage, state.carriage + state.easing):
        raise InputError(f"the carriage cannot be seated at {to}: it stands between {state.carriage} and "
                         f"{state.carriage + state.easing}")
    return to


def _register(spec: MachineSpec, state: State, register: Any) -> str:
    if not isinstance(register, str) or register not in ("result", "counter"):
        raise InputError(f"a clearing lever is 'result' or 'counter', not {shown(register)}")
    return str(register)


def _pull(spec: MachineSpec, state: State, argument: Any) -> tuple[str, float]:
    register, to = _pair(argument, "a clearing lever is pulled by (register, degrees)", InputError)
    register, to = _register(spec, state, register), finite(to, "a clearing lever's angle")
    if not 0 <= to <= strokes.CLEARING_STROKE:
        raise InputError(f"the {register} clearing lever cannot stand at {to:g} degrees: it goes from 0 to "
                         f"{strokes.CLEARING_STROKE:g}")
    return register, to


def _down(spec: MachineSpec, state: State, down: Any) -> bool:
    if not isinstance(down, bool):
        raise InputError(f"the back-transfer lever is down (True) or up (False), not {shown(down)}")
    return down


def _crank(spec: MachineSpec, parts: Parts, state: State, degrees: float) -> strokes.Result:
    """Within one turn; `perform` has cut longer movements at rest."""
    direction = 1 if degrees > 0 else -1
    if state.direction == -direction:
        state = turning.turned_back(state)
    to = state.angle + abs(degrees)
    if abs(to - turning.FULL_TURN) < ALMOST:
        to = turning.FULL_TURN
    return turning.crank(spec, parts, state, to, direction)


OPERATIONS: dict[str, Operation] = {
    "set": Operation(_number, strokes.set_number),
    "set lever": Operation(_lever, lambda spec, parts, state, lever:
                           strokes.set_levers(spec, parts, state, dict([lever]))),
    "crank": Operation(_degrees, _crank),
    "shift": Operation(_one_place, strokes.shift),
    "ease": Operation(_one_place, strokes.ease),
    "seat": Operation(_position, strokes.seat),
    "clear setting": Operation(_no_argument, strokes.clear_setting),
    "clear result": Operation(_no_argument, lambda spec, parts, state, _:
                              strokes.clear(spec, parts, state, "result")),
    "clear counter": Operation(_no_argument, lambda spec, parts, state, _:
                               strokes.clear(spec, parts, state, "counter")),
    "pull": Operation(_pull, strokes.pull),
    "transfer lever": Operation(_down, strokes.transfer_lever),
    "back transfer": Operation(_no_argument, strokes.back_transfer),
}


def perform(spec: MachineSpec, state: State, operation: str, argument: Any = None,
            parts: Parts = SOUND) -> tuple[Stroke, ...]:
    """Do one operation and return its strokes.

    Parameters
    ----------
    spec, state
        The machine as built, and as it stands.
    operation : str
        A key of `OPERATIONS`.
    argument : object
        ``"set"``: a number; ``"set lever"``: (place, digit); ``"crank"``: signed degrees; ``"shift"`` and
        ``"ease"``: 1 or -1; ``"seat"``: a position; ``"pull"``: (register, degrees); ``"transfer lever"``: True for
        down; otherwise None.
    parts : Parts
        What the parts do.

    Returns
    -------
    tuple of Stroke
        One; but a crank that passes its rest makes one for each turn it takes part in, and none for 0 degrees.

    Raises
    ------
    InputError, SettingError
        The argument is not one that the operation takes.
    Locked
        An interlock refuses.

    Examples
    --------
    >>> from mechcalc import MachineSpec
    >>> from mechcalc.state import cleared
    >>> spec = MachineSpec(setting_places=4, result_places=6, counter_places=3, carry_reach=6)
    >>> stroke, = perform(spec, cleared(spec), "set", 347)
    >>> stroke, = perform(spec, stroke.after, "crank", -360.0)
    >>> stroke.reading.result
    999653
    """
    if not isinstance(operation, str) or operation not in OPERATIONS:
        raise InputError(f"{shown(operation)} is no operation: there are {', '.join(OPERATIONS)}")
    row = OPERATIONS[operation]
    argument = row.check(spec, state, argument)
    interlocks.check(spec, parts, state, operation, argument)
    if operation == "crank":
        return _turns(spec, parts, state, argument)
    after, events = row.act(spec, parts, state, argument)
    end = max([SPANS.get(operation, 0.0), *(event.angle for event in events[-1:])])
    begin = 0.0
    if operation == "pull":
        begin = state.pulled_result if argument[0] == "result" else state.pulled_counter
        end = argument[1]
    return (Stroke(operation=operation, argument=argument, before=state, after=after, events=events,
                   begin=begin, end=end),)


def _turns(spec: MachineSpec, parts: Parts, state: State, degrees: float) -> tuple[Stroke, ...]:
    """A movement of the crank, cut where it passes its rest."""
    done: list[Stroke] = []
    direction, left = (1, degrees) if degrees > 0 else (-1, -degrees)
    while left > ALMOST:
        begin = turning.FULL_TURN - state.angle if state.direction == -direction else state.angle
        part = min(left, turning.FULL_TURN - begin)
        left -= part
        after, events = OPERATIONS["crank"].act(spec, parts, state, direction * part)
        done.append(Stroke(operation="crank", argument=direction * part, before=state, after=after, events=events,
                           begin=begin, end=after.angle if after.direction else turning.FULL_TURN))
        state = after
    return tuple(done)
