"""A machine of one's own as a file: TOML that explains itself, and that `mechcalc.load_spec` reads back as the same.

Only this file writes a machine's file, and knows the words at the end of a line that say where a figure comes from.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc.errors import InputError, SpecError
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec
from mechcalc.whole_files import write_new, write_whole

SUFFIX = ".toml"
ORIGINS = ("counted", "measured", "guessed")
PARTS = (("levers, number wheels, counter wheels; where the carriage can stop",
          ("setting_places", "result_places", "counter_places", "positions")),
         ("carry pins stand at drum places 2 to carry_reach", ("carry_reach",)),
         ("whether the counter carries, and what is fitted",
          ("counter_carry", "check_register", "back_transfer")),
         ("the drum, in degrees", ("pin_pitch", "gap", "helix_step", "lever_throw", "rest_arc")))
HEAD = """\
# {title}: a machine described for mechcalc by whoever counted its places.
#
# What the keys mean:
#   name, note       for lists and pictures
#   setting_places, result_places, counter_places   levers, number wheels, counter wheels (1 to 40)
#   positions        where the carriage can stop
#   carry_reach      how many places carry, counted from the units lever with the carriage at its first position;
#                    at least setting_places
#   counter_carry, check_register, back_transfer    true or false
#   pin_pitch        degrees of drum (360 to a turn) for one step of a number wheel
#   gap              degrees from the last number pin's step to the first carry pin
#   helix_step       degrees from a carry pin to the one of the next place
#   lever_throw      degrees that a pushed carry lever needs until it is fully out
#   rest_arc         degrees kept free of pins around rest
# Rules: setting_places <= carry_reach; positions <= result_places and <= counter_places;
#        helix_step >= pin_pitch + lever_throw; gap >= lever_throw;
#        9 pin_pitch + 2 (gap + (carry_reach - 2) helix_step + pin_pitch) + rest_arc <= 360.
# Where a figure comes from stands behind it: counted, measured or guessed. Nothing behind it: not written down.
# Example: mechcalc.load_spec("{file}"), or  python3 -m mechcalc machine {file}
"""
ESCAPES = {'"': '\\"', "\\": "\\\\", "\b": "\\b", "\t": "\\t", "\n": "\\n", "\f": "\\f", "\r": "\\r"}
CONTROL = re.compile(r"[\x00-\x1f\x7f]")
WITH_ORIGIN = re.compile(rf"^(\w+) = [^\"#\n]*# ({'|'.join(ORIGINS)})$", re.MULTILINE)


def spec_text(spec: MachineSpec, *, origins: Mapping[str, str] | None = None, file: str = "my_machine.toml") -> str:
    """The file's text.

    Parameters
    ----------
    spec : MachineSpec
        The machine.
    origins : mapping of str to str, optional
        Where figures come from: a field's name to ``"counted"``, ``"measured"`` or ``"guessed"``.
    file : str
        The file's name, for the example at its head.

    Raises
    ------
    InputError
        No spec; an origin that is none; a name or a note that no text file can hold.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> text = spec_text(load_spec("slate"), origins={"setting_places": "counted", "gap": "guessed"})
    >>> print(*(line for line in text.splitlines() if " = " in line and line[0] != "#"), sep="\\n")
    name = "Slate"
    note = "small teaching machine: 4 levers, 6 wheels, 3 counter wheels"
    setting_places = 4  # counted
    result_places = 6
    counter_places = 3
    positions = 3
    carry_reach = 6
    counter_carry = true
    check_register = false
    back_transfer = true
    pin_pitch = 9.0
    gap = 4.0  # guessed
    helix_step = 12.0
    lever_throw = 3.0
    rest_arc = 15.0
    """
    if not isinstance(spec, MachineSpec):
        raise InputError(f"a machine's file is written from a MachineSpec, not from {shown(spec)}")
    known = _checked(origins or {})
    lines = [HEAD.format(title=_for_a_comment(spec.name) or "A machine", file=_for_a_comment(file)),
             f"name = {_quoted(spec.name, 'name')}", f"note = {_quoted(spec.note, 'note')}"]
    for words, fields in PARTS:
        lines += ["", f"# {words}"]
        for field in fields:
            origin = f"  # {known[field]}" if field in known else ""
            lines.append(f"{field} = {_plain(getattr(spec, field))}{origin}")
    if spec.allow_faulty_timing:
        lines += ["", "# for the test bench: carries may come too late", "allow_faulty_timing = true"]
    return "\n".join(lines) + "\n"


def _checked(origins: Mapping[str, str]) -> Mapping[str, str]:
    fields = {field for _, part in PARTS for field in part}
    for field, origin in origins.items():
        if field not in fields:
            raise InputError(f"{shown(field)} is no figure of a machine: the figures are {', '.join(sorted(fields))}")
        if origin not in ORIGINS:
            raise InputError(f"{field} is {', '.join(ORIGINS[:-1])} or {ORIGINS[-1]}, not {shown(origin)}")
    return origins


def _plain(value: Any) -> str:
    """A number or a truth as TOML writes it; a float's shortest form gives the same float back."""
    return str(value).lower() if isinstance(value, bool) else repr(value)


def _quoted(text: str, field: str) -> str:
    """A text as a TOML string on one line: quotes, backslashes and control characters are escaped."""
    try:
        text.encode("utf-8")
    except UnicodeEncodeError as error:
        raise InputError(f"the {field} holds {shown(text[error.start])}, half a character, which no text file can "
                         f"hold: type it again") from None
    said = "".join(ESCAPES.get(sign, sign) for sign in text)
    return '"' + CONTROL.sub(lambda found: f"\\u{ord(found[0]):04x}", said) + '"'


def _for_a_comment(text: str) -> str:
    """A text on one line, without anything that would end a comment."""
    return CONTROL.sub(" ", " ".join(text.split())).encode("utf-8", "replace").decode("utf-8").strip()


def write_spec(spec: MachineSpec, path: str | PathLike[str], *, origins: Mapping[str, str] | None = None,
               replace: bool = False) -> Path:
    """Write a machine's file, whole or not at all.

    Parameters
    ----------
    spec, origins
        As for `spec_text`.
    path : path
        Ends in ``.toml``.
    replace : bool
        Write over a file that is there.

    Returns
    -------
    Path
        Where it is.

    Raises
    ------
    InputError
        There is a file already and `replace` is false; a name that does not end in ``.toml``; a folder that is not
        there or cannot be written. What was there stays as it was.

    Examples
    --------
    >>> from tempfile import TemporaryDirectory
    >>> from mechcalc import load_spec
    >>> with TemporaryDirectory() as folder:
    ...     path = write_spec(load_spec("plain"), f"{folder}/mine.toml")
    ...     load_spec(path) == load_spec("plain")
    True
    """
    to = Path(path).expanduser()
    if to.suffix != SUFFIX:
        raise InputError(f"{path}: a machine's file is named something{SUFFIX}")
    data = spec_text(spec, origins=origins, file=to.name).encode("utf-8")
    try:
        (write_whole if replace else write_new)(to, data)
    except FileExistsError:
        raise InputError(f"{path} is there already, and is not written over unless you say so") from None
    except OSError as error:
        raise InputError(f"{path} cannot be written: {error.strerror or error}") from None
    return to


def read_origins(path: str | PathLike[str]) -> dict[str, str]:
    """Where the figures of a file come from, for those that say so.

    Raises
    ------
    SpecError
        The file cannot be read.

    Examples
    --------
    >>> from tempfile import TemporaryDirectory
    >>> from mechcalc import load_spec
    >>> with TemporaryDirectory() as folder:
    ...     read_origins(write_spec(load_spec("plain"), f"{folder}/mine.toml", origins={"gap": "measured"}))
    {'gap': 'measured'}
    """
    try:
        text = Path(path).read_text(encoding="utf-8")
    except (OSError, ValueError) as error:
        raise SpecError((f"cannot be read: {error}",), str(path)) from None
    return dict(WITH_ORIGIN.findall(text))
