"""The format of a tracing session's file: its keys, and the checks of what stands under each.

Only this file checks the data of such a file; what it means is `mechcalc.bench.trace_file`'s business. A file is JSON:
``kind`` and ``version``; ``label``, ``who``, ``begun`` and ``condition`` (texts); ``spec`` (as `MachineSpec.to_dict`);
``prior`` (the fields of `Prior`); ``options``; ``tests``, the tests to choose from, or null for the kit's own;
``done``, a list with ``when``, ``test`` (``name``, ``steps`` as `Test.of` takes them, ``looks at``), ``read`` (one a
place, null for nothing) and ``left`` (explanations left after it); ``draft``, null or a test that is under way, with
``test`` and ``read`` (the places read so far); ``notes``, a list with ``when`` and ``text``. Times are ISO 8601.
"""

from __future__ import annotations

import dataclasses
import json
import math
from datetime import datetime
from pathlib import Path
from typing import Any

from mechcalc.bench.candidates import Test
from mechcalc.bench.prior import Prior
from mechcalc.bench.readings import Reading, reading_from_dict
from mechcalc.bench.steps import fits_spec
from mechcalc.errors import InputError, SessionError
from mechcalc.numbers import is_truth, shown
from mechcalc.spec import MachineSpec

KIND = "mechcalc bench trace"
VERSION = 1
HEAD = ("label", "who", "begun", "condition")
KEYS = ("kind", "version", *HEAD, "spec", "prior", "options", "tests", "done", "draft", "notes")
OPTIONS = {"pairs": bool, "misreadings": int, "worth": float}


@dataclasses.dataclass(frozen=True, slots=True)
class Note:
    """Something written down in free words.

    Attributes
    ----------
    when : str
        ISO 8601.
    text : str
    """

    when: str
    text: str


def data_of_test(test: Test) -> dict[str, str]:
    """A test with its text."""
    return {"name": test.name, "steps": str(test), "looks at": test.looks_at}


def words(value: Any, what: str) -> str:
    """A text that a file can hold."""
    if not isinstance(value, str):
        raise InputError(f"{what} is a text, not {shown(value)}")
    try:
        value.encode()
    except UnicodeEncodeError:
        raise InputError(f"{what} holds half a character: {shown(value)}") from None
    return value


def head_of(data: dict[str, Any]) -> dict[str, str]:
    """What stands at the head, and nothing else."""
    for name in data:
        if name not in HEAD:
            raise InputError(f"{shown(name)} is not at the head of a session: there are {', '.join(HEAD)}")
    when(data["begun"], "\"begun\"")
    return {name: words(data[name], f"\"{name}\"") for name in HEAD}


def when(text: Any, where: str) -> str:
    """A time."""
    try:
        datetime.fromisoformat(text)
    except (TypeError, ValueError):
        raise InputError(f"{where} is a time such as 2031-05-04T10:30:00+02:00, not {shown(text)}") from None
    return str(text)


def options_of(data: dict[str, Any]) -> tuple[Prior, dict[str, Any]]:
    """The prior and the options."""
    options, prior = data["options"], data["prior"]
    for name, keys in (("options", set(OPTIONS)), ("prior", {field.name for field in dataclasses.fields(Prior)})):
        if not isinstance(data[name], dict) or set(data[name]) != keys:
            raise InputError(f"\"{name}\" must hold {', '.join(sorted(keys))}")
    if not isinstance(prior["kinds"], dict):
        raise InputError(f"\"prior\": kinds cannot be {shown(prior['kinds'])}")
    for name, kind in OPTIONS.items():
        value = options[name]
        if not (is_truth(value) if kind is bool else type(value) in (int, kind) and 0 <= value < math.inf):
            raise InputError(f"\"options\": {name} cannot be {shown(value)}")
    return Prior(**prior), options


def read(path: Path) -> tuple[bytes, dict[str, Any]]:
    """The file's bytes and its data, as far as its shape can be checked without a machine."""
    try:
        raw = path.read_bytes()
        data = json.loads(raw.decode("utf-8"))
    except FileNotFoundError:
        raise SessionError(f"{path}: there is no such file") from None
    except OSError as error:
        raise SessionError(f"{path}: cannot be read: {error.strerror}") from None
    except json.JSONDecodeError as error:
        raise SessionError(f"{path}: line {error.lineno}, column {error.colno}: {error.msg}; the file is damaged or is "
                           f"no bench session") from None
    except (ValueError, RecursionError) as error:
        raise SessionError(f"{path}: is no bench session: {error}") from None
    if not isinstance(data, dict) or data.get("kind") != KIND:
        raise SessionError(f"{path}: is no bench session: \"kind\" is not {KIND!r}")
    if type(data.get("version")) is not int or data["version"] != VERSION:
        raise SessionError(f"{path}: is of version {shown(data.get('version'))}; this kit reads version {VERSION}")
    missing = [key for key in KEYS if key not in data]
    if missing:
        raise SessionError(f"{path}: {', '.join(map(repr, missing))} missing; the file is damaged")
    return raw, data


def list_of(data: Any, where: str) -> list[Any]:
    """A list."""
    if not isinstance(data, list):
        raise InputError(f"{where} is a list, not {shown(data)}")
    return data


def keys_of(data: Any, where: str, *keys: str) -> dict[str, Any]:
    """A dict with these keys and no other."""
    if not isinstance(data, dict) or set(data) != set(keys):
        raise InputError(f"{where} must hold {', '.join(keys)}")
    return data


def read_test(data: Any, where: str) -> Test:
    """A test from its text."""
    data = keys_of(data, where, "name", "steps", "looks at")
    if not all(isinstance(value, str) for value in data.values()):
        raise InputError(f"{where}: name, steps and looks at are texts")
    try:
        return Test.of(data["name"], data["steps"], data["looks at"])
    except InputError as error:
        raise InputError(f"{where}: {error}") from None


@dataclasses.dataclass(frozen=True, slots=True)
class Draft:
    """A test that is under way.

    Attributes
    ----------
    test : Test
    readings : tuple of Reading or None
        Of the places read so far; fewer than the test has.
    """

    test: Test
    readings: tuple[Reading | None, ...]

    def to_dict(self) -> dict[str, Any]:
        """As the file has it."""
        return {"test": data_of_test(self.test), "read": [one and one.to_dict() for one in self.readings]}


def draft_of(data: Any, spec: MachineSpec) -> Draft | None:
    """The test under way, if there is one."""
    if data is None:
        return None
    data = keys_of(data, "\"draft\"", "test", "read")
    test, read = read_test(data["test"], "\"draft\""), list_of(data["read"], "\"draft\": \"read\"")
    fits_spec(spec, test.steps)
    if len(read) >= len(test.reads):
        raise InputError(f"\"draft\": {test.name}: something is read at {len(test.reads)} places, and {len(read)} of "
                         "them are not a part")
    return Draft(test, tuple(None if one is None else reading_from_dict(spec, one, f"\"draft\", reading {number}")
                             for number, one in enumerate(read, start=1)))


def notes_of(data: Any) -> list[Note]:
    """All notes."""
    found = []
    for number, entry in enumerate(list_of(data, "\"notes\""), start=1):
        entry = keys_of(entry, f"\"notes\" {number}", "when", "text")
        where = f"\"notes\" {number}"
        found.append(Note(when(entry["when"], f"{where}: \"when\""), words(entry["text"], where)))
    return found
