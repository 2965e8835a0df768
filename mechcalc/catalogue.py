"""The machines that come with the kit, and machines of a user's own, from TOML files.

Only this file looks for a machine's file. The format is explained at the head of each file in data/machines.
"""

from __future__ import annotations

import tomllib
from difflib import get_close_matches
from os import PathLike
from pathlib import Path

from mechcalc.errors import SpecError
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec

PACKAGE = Path(__file__).resolve().parent


def shipped(folder: str) -> Path:
    """A folder that comes with the kit (``"data"``, ``"lessons"``): in the package when installed, beside it in a
    clone."""
    inside = PACKAGE / folder
    return inside if inside.is_dir() else PACKAGE.parent / folder


def machine_names() -> tuple[str, ...]:
    """The catalogue, in alphabetical order.

    >>> "bench" in machine_names()
    True
    """
    return tuple(sorted(path.stem for path in (shipped("data") / "machines").glob("*.toml")))


def load_spec(name: str | PathLike[str]) -> MachineSpec:
    """A machine of the catalogue by its name, or one of your own by the path of its TOML file.

    Raises
    ------
    SpecError
        No such machine or file, a file that is no TOML, or a machine that cannot be built; with all that is wrong.

    >>> load_spec("slate").carry_reach
    6
    >>> load_spec("slat")
    Traceback (most recent call last):
        ...
    mechcalc.errors.SpecError: 'slat' is no machine of the catalogue: did you mean 'slate'?
    """
    if not isinstance(name, (str, PathLike)):
        raise SpecError((f"a machine is asked for by name or path, not {shown(name)}",))
    text = str(name)
    path = Path(name)
    if path.suffix != ".toml" and text in machine_names():
        path = shipped("data") / "machines" / f"{text}.toml"
    elif path.suffix != ".toml" and len(path.parts) <= 1 and not path.is_file():
        near = get_close_matches(text, machine_names(), n=1)
        hint = f"did you mean {near[0]!r}?" if near else f"there are {', '.join(machine_names())}"
        raise SpecError((f"{text!r} is no machine of the catalogue: {hint}",))
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise SpecError(("there is no such file",), str(path)) from None
    except OSError as error:
        raise SpecError((f"cannot be read: {error.strerror}",), str(path)) from None
    except (ValueError, RecursionError) as error:  # damage, bytes that are no text, a number of 5000 digits
        raise SpecError((f"is no TOML file: {error}",), str(path)) from None
    return MachineSpec.from_dict({"name": path.stem, **data}, str(path))
