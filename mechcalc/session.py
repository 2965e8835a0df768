"""A machine kept in a file, and taken up again.

Only this file knows the session format. A session is the spec, the faults, the state at the start, the operations in
order, and the state at the end; taking it up does every operation again on the same mechanism and compares. A file that
is damaged, or is no session, is never written over.
"""

from __future__ import annotations

import dataclasses
import json
from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc.errors import InputError, Locked, SessionError, SpecError
from mechcalc.machine import Machine
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec
from mechcalc.state import State, UnderWay, cleared
from mechcalc.whole_files import write_whole

KIND = "mechcalc session"
VERSION = 2
READS = (1, 2)  # version 1 knew neither faults nor a crank that is turned back
KEYS = ("kind", "version", "spec", "start", "strokes", "end")
NEW_IN_2 = {"turned_back": 0.0}


def save(machine: Machine, path: str | PathLike[str]) -> None:
    """Write a machine's session; the file is replaced in one step, or left as it was.

    Raises
    ------
    SessionError
        There is a file at `path` that is not a session or is a damaged one, or nothing can be written there.
    """
    path = Path(path)
    if path.exists():
        try:
            load(path)
        except SessionError as error:
            raise SessionError(f"not saved, so that nothing is lost: {error}. Save under another name, or move that "
                               f"file away") from None
    data = {
        "kind": KIND, "version": VERSION, "spec": machine.spec.to_dict(),
        "faults": [fault.to_dict() for fault in machine.parts.faults],
        "start": dataclasses.asdict(machine._start),
        "strokes": [[stroke.operation, stroke.argument] for stroke in machine.strokes],
        "end": dataclasses.asdict(machine.state),
    }
    try:
        write_whole(path, (json.dumps(data, indent=1) + "\n").encode())
    except OSError as error:
        raise SessionError(f"{path}: cannot be written: {error.strerror}") from None


def read(path: Path) -> dict[str, Any]:
    """The file's data, as far as its shape can be checked without a machine."""
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise SessionError(f"{path}: there is no such file") from None
    except OSError as error:
        raise SessionError(f"{path}: cannot be read: {error.strerror}") from None
    except json.JSONDecodeError as error:
        raise SessionError(f"{path}: line {error.lineno}, column {error.colno}: {error.msg}; the file is damaged or "
                           f"no session") from None
    except UnicodeDecodeError:
        raise SessionError(f"{path}: is no session file (not text)") from None
    except (ValueError, RecursionError) as error:  # a number of 5000 digits, brackets a thousand deep
        raise SessionError(f"{path}: is no session file: {error}") from None
    if not isinstance(data, dict) or data.get("kind") != KIND:
        raise SessionError(f"{path}: is no session file: \"kind\" is not {KIND!r}")
    if type(data.get("version")) is not int or data["version"] not in READS:
        raise SessionError(f"{path}: is of version {shown(data.get('version'))}; this kit reads versions 1 to "
                           f"{VERSION}")
    missing = [key for key in (*KEYS, *(["faults"] if data["version"] > 1 else [])) if key not in data]
    if missing:
        raise SessionError(f"{path}: {', '.join(map(repr, missing))} missing; the file is damaged")
    return data


def load(path: str | PathLike[str]) -> Machine:
    """The machine of a session file, standing where it stood, with its strokes to undo.

    Raises
    ------
    SessionError
        With the place in the file: what cannot be read, which stroke is refused, or where the readings differ.
    """
    path = Path(path)
    data = read(path)
    try:
        spec = MachineSpec.from_dict(data["spec"])
    except (SpecError, TypeError, AttributeError) as error:
        raise SessionError(f"{path}: \"spec\": {error}") from None
    machine = _built(spec, data.get("faults", []), _state(spec, data["start"], path, "start"), path)
    if not isinstance(data["strokes"], list):
        raise SessionError(f"{path}: \"strokes\" is not a list")
    for number, entry in enumerate(data["strokes"], start=1):
        if not isinstance(entry, list) or len(entry) != 2:
            raise SessionError(f"{path}: stroke {number} {shown(entry)}: is not an operation and its argument")
        try:
            machine.perform(*entry)
        except (InputError, Locked) as error:
            raise SessionError(f"{path}: stroke {number} {shown(entry)}: {error}") from None
    if _state(spec, data["end"], path, "end") != machine.state:
        for key, value in json.loads(json.dumps(dataclasses.asdict(machine.state))).items():
            if data["end"].get(key, NEW_IN_2.get(key)) != value:
                raise SessionError(f"{path}: \"end\": {key} is {shown(data['end'][key])}, but the strokes lead to "
                                   f"{shown(value)}")
    return machine


def _built(spec: MachineSpec, faults: Any, start: State, path: Path) -> Machine:
    """A sound machine, or one from the bench with its faults."""
    if not faults and isinstance(faults, list):
        return Machine(spec, state=start)
    from mechcalc import bench
    try:
        return bench.Machine(spec, faults=[bench.fault_from_dict(fault) for fault in faults], state=start)
    except (InputError, TypeError) as error:
        raise SessionError(f"{path}: \"faults\": {error}") from None


def _state(spec: MachineSpec, data: Any, path: Path, key: str) -> State:
    """A state as the file gives it, every field checked against a cleared machine of this spec."""
    model = dataclasses.asdict(cleared(spec))
    data = {**NEW_IN_2, **data} if isinstance(data, dict) else data
    if not isinstance(data, dict) or set(data) != set(model):
        raise SessionError(f"{path}: \"{key}\" must hold {', '.join(model)}")
    for name in ("setting", "result", "counter", "levers"):
        values, kind = data[name], bool if name == "levers" else int
        if not (isinstance(values, list) and len(values) == len(model[name])
                and all(type(value) is kind and 0 <= value <= 9 for value in values)):
            raise SessionError(f"{path}: \"{key}\": {name} must be {len(model[name])} "
                               f"{'of true or false' if kind is bool else 'digits'}, not {shown(values)}")
    limits: dict[str, tuple[Any, ...]] = {
        "carriage": tuple(range(spec.positions)), "easing": (-1, 0, 1), "direction": (-1, 0, 1),
        "counter_direction": (-1, None, 1), "bell": (False, True), "transfer": (False, True)}
    for name, allowed in limits.items():
        if (type(data[name]), data[name]) not in [(type(value), value) for value in allowed]:
            raise SessionError(f"{path}: \"{key}\": {name} cannot be {shown(data[name])}")
    for name, most in (("angle", 360), ("pulled_result", 90), ("pulled_counter", 90), ("turned_back", 360)):
        if not _between(data[name], 0, most):
            raise SessionError(f"{path}: \"{key}\": {name} cannot be {shown(data[name])}")
    digits = {name: tuple(data[name]) for name in ("setting", "result", "counter", "levers")}
    return State(**{**data, **digits, "under_way": _under_way(spec, data, path, key)})


def _under_way(spec: MachineSpec, data: dict[str, Any], path: Path, key: str) -> tuple[UnderWay, ...]:
    """What had begun; nothing can be under way while the crank is at rest."""
    most = {"carry": spec.carry_reach, "throw": spec.result_places, "counter": spec.counter_places}
    found: list[Any] = data["under_way"] if isinstance(data["under_way"], list) else [None]
    for item in found:
        if not (isinstance(item, dict) and set(item) == {field.name for field in dataclasses.fields(UnderWay)}
                and str(item["what"]) in most and type(item["place"]) is int
                and (2 if item["what"] == "carry" else 1) <= item["place"] <= most[item["what"]]
                and type(item["side"]) is int and -1 <= item["side"] <= 1
                and _between(item["angle"], data["angle"], 360) and _between(item["start"], 0, 360)):
            raise SessionError(f"{path}: \"{key}\": under_way cannot hold {shown(item)}")
    if data["direction"] == 0 and (data["angle"] or found):
        raise SessionError(f"{path}: \"{key}\": the crank is at rest, but something is under way")
    return tuple(UnderWay(**item) for item in found)


def _between(value: Any, low: float, high: float) -> bool:
    return type(value) in (int, float) and low <= value <= high
