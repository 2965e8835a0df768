"""Every way in which the kit says no.

Only this file decides what an error carries. Each message gives the rule, the value and the place, and an
operation that raises one of these has changed nothing.
"""

from __future__ import annotations


class MechcalcError(Exception):
    """Whatever the kit refuses."""


class InputError(MechcalcError, ValueError):
    """A value of the wrong kind or out of range: a number of turns that is a text, an angle that is NaN."""


class SettingError(InputError):
    """A digit or a number that the setting levers cannot take."""


class SpecError(MechcalcError, ValueError):
    """A machine that cannot be built.

    Parameters
    ----------
    problems : tuple of str
        Every rule that is broken, each with its figures.
    where : str
        The file or the name that was asked for; empty for a spec written in Python.
    """

    def __init__(self, problems: tuple[str, ...], where: str = "") -> None:
        super().__init__(problems, where)
        self.problems = tuple(problems)
        self.where = where

    def __str__(self) -> str:
        head = f"{self.where}: " if self.where else ""
        if len(self.problems) == 1:
            return head + self.problems[0]
        lines = "".join(f"\n  - {problem}" for problem in self.problems)
        return f"{head}{len(self.problems)} rules are broken:{lines}"


class Locked(MechcalcError):
    """An interlock refuses.

    Parameters
    ----------
    reason : str
        What was asked for and why it is refused.
    part : str
        The part that blocks, under the name that pictures use for it (``"pawl"``, ``"setting/4"``, ...).
    frees : str
        What the operator does about it.
    """

    def __init__(self, reason: str, part: str, frees: str) -> None:
        super().__init__(reason, part, frees)
        self.reason = reason
        self.part = part
        self.frees = frees

    def __str__(self) -> str:
        return f"{self.reason}. {self.frees[:1].upper()}{self.frees[1:]}."


class CapacityError(MechcalcError, ValueError):
    """A calculation that does not fit the machine, found before the first stroke.

    Parameters
    ----------
    reason : str
        The calculation and what it needs.
    register : str
        What is short: ``"setting"``, ``"result"``, ``"counter"``, ``"carriage"``, or ``"carry reach"`` where there
        are wheels enough but no carry gets to them.
    short_by : int
        How many places are missing.
    """

    def __init__(self, reason: str, register: str, short_by: int) -> None:
        super().__init__(reason, register, short_by)
        self.reason = reason
        self.register = register
        self.short_by = short_by

    def __str__(self) -> str:
        return self.reason


class SessionError(MechcalcError, ValueError):
    """A session file that cannot be read, or that must not be written over."""
