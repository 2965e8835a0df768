"""Where the kit's own files are.

Only this file decides whether the kit runs from a clone or from an installed package.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from mechcalc.catalogue import PACKAGE
from mechcalc.errors import MechcalcError


class SetupError(MechcalcError):
    """Something outside the kit stands in the way: no network, no room, no such Python module, a folder in use."""


@dataclass(frozen=True, slots=True)
class Clone:
    """A clone of the project.

    Attributes
    ----------
    root : Path
        Its top folder.
    """

    root: Path

    @property
    def constraints(self) -> Path:
        """The versions that the kit is tested with, one a line."""
        return self.root / ".ci" / "constraints.txt"

    @property
    def environment(self) -> Path:
        """Where the kit's own environment goes unless told otherwise; git ignores it."""
        return self.root / ".venv"


def find_clone(package: Path = PACKAGE) -> Clone | None:
    """The clone that the running package belongs to; None where it was installed from a wheel."""
    project = package.parent / "pyproject.toml"
    try:
        ours = '\nname = "mechcalc"\n' in project.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return None
    return Clone(package.parent) if ours else None


def need_clone(what: str) -> Clone:
    """The clone, or an error that says why `what` needs one."""
    clone = find_clone()
    if clone is None:
        raise SetupError(f"{what} works in a clone of the project only, and this mechcalc was installed as a package")
    return clone
