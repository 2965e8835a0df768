"""Public names that load their own room when they are first used.

Only this file knows how a package does that; each package says which names it has, and where.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from typing import Any


def at_first_use(package: str, home: dict[str, str], names: dict[str, Any]
                 ) -> tuple[Callable[[str], Any], Callable[[], list[str]]]:
    """A package's ``__getattr__`` and ``__dir__``.

    Parameters
    ----------
    package : str
        Its ``__name__``.
    home : dict of str to str
        For each public name the module in the package that has it.
    names : dict
        The package's ``globals()``; what was loaded is kept there.

    Examples
    --------
    >>> kept = {}
    >>> get, listed = at_first_use("mechcalc", {"spoken": "words", "listed": "words"}, kept)
    >>> get("listed")([1, 2]), list(kept)
    ('1 and 2', ['listed'])
    >>> get("unlisted")
    Traceback (most recent call last):
        ...
    AttributeError: module 'mechcalc' has no attribute 'unlisted'
    """
    def get(name: str) -> Any:
        if name not in home:
            raise AttributeError(f"module {package!r} has no attribute {name!r}")
        room = import_module(f"{package}.{home[name]}")
        if home.get(home[name]) == home[name]:  # a name that is its room's too: Python has put the room there
            names[home[name]] = getattr(room, home[name])
        value = names[name] = getattr(room, name)
        return value

    def listed() -> list[str]:
        return sorted({*names, *home})

    return get, listed
