"""mechcalc: a hand-cranked pinwheel calculating machine to see through, slow down, stop and teach with.

The names below are loaded when they are first used, so that importing the kit costs next to nothing.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from mechcalc.catalogue import load_spec, machine_names
    from mechcalc.errors import CapacityError, InputError, Locked, MechcalcError, SessionError, SettingError, SpecError
    from mechcalc.events import Event, Kind, Stroke
    from mechcalc.machine import Machine
    from mechcalc.methods import Working
    from mechcalc.spec import MachineSpec
    from mechcalc.state import Reading, State

__version__ = "0.1.0"

_HOME = {
    "Machine": "machine", "MachineSpec": "spec", "load_spec": "catalogue", "machine_names": "catalogue",
    "Event": "events", "Kind": "events", "Stroke": "events", "State": "state", "Reading": "state",
    "MechcalcError": "errors", "InputError": "errors", "SettingError": "errors", "SpecError": "errors",
    "Locked": "errors", "CapacityError": "errors", "SessionError": "errors",
    "Working": "methods",
}
_FOLDERS = ("methods",)

__all__ = ["CapacityError", "Event", "InputError", "Kind", "Locked", "Machine", "MachineSpec", "MechcalcError",
           "Reading", "SessionError", "SettingError", "SpecError", "State", "Stroke", "Working", "load_spec",
           "machine_names"]


def __getattr__(name: str) -> Any:
    if name in _FOLDERS:
        return import_module(f"mechcalc.{name}")
    if name not in _HOME:
        raise AttributeError(f"module 'mechcalc' has no attribute {name!r}")
    value = getattr(import_module(f"mechcalc.{_HOME[name]}"), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *_HOME, *_FOLDERS})
