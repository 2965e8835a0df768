"""The view's JavaScript modules as one, because a widget may hold only one.

Only this file joins modules. They stay real ES modules, which node's tests import as they are, and nobody needs a
build step. The joiner knows exactly the forms the modules use, and refuses any other: ``import {a, b} from "./x.js"``
on one line, and ``export`` before a top-level declaration.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

FOLDER = Path(__file__).parent / "js"
IMPORT = re.compile(r'^import \{([\w, ]+)\} from "\./([\w]+)\.js";$', re.MULTILINE)
DECLARED = re.compile(r"^(export )?(?:async )?(?:function\*?|const|let|class) (\w+)", re.MULTILINE)


class BundleError(Exception):
    """The modules cannot be joined as they are."""


def join(modules: dict[str, str], entry: str) -> str:
    """One script from several modules: those that `entry` needs, each after what it imports. It exports nothing.

    Parameters
    ----------
    modules : dict
        Name (without ``.js``) to source.
    entry : str
        The module to begin from.

    Raises
    ------
    BundleError
        A module or a name that is imported but not there, a name declared twice, modules that import one another in
        a circle, or a form of import or export that the joiner does not know.

    Examples
    --------
    >>> print(join({"a": 'import {two} from "./b.js";\\nexport const four = two * 2;',
    ...             "b": 'export const two = 2;'}, "a"))
    const two = 2;
    const four = two * 2;
    """
    order: list[str] = []
    _visit(modules, entry, (), order)
    owner: dict[str, str] = {}
    for name in order:
        for _, declared in DECLARED.findall(modules[name]):
            if declared in owner:
                raise BundleError(f"{declared} is declared in {owner[declared]}.js and again in {name}.js")
            owner[declared] = name
    return "\n".join(_stripped(name, modules[name]) for name in order)


def _exports(source: str) -> list[str]:
    return [name for exported, name in DECLARED.findall(source) if exported]


def _visit(modules: dict[str, str], name: str, path: tuple[str, ...], order: list[str]) -> None:
    if name in order:
        return
    if name in path:
        raise BundleError(f"modules import one another in a circle: {' -> '.join((*path, name))}")
    if name not in modules:
        raise BundleError(f"{path[-1] if path else 'the entry'}: there is no module {name}.js")
    for names, other in IMPORT.findall(modules[name]):
        _visit(modules, other, (*path, name), order)
        missing = {item.strip() for item in names.split(",")} - set(_exports(modules[other]))
        if missing:
            raise BundleError(f"{name}.js imports {', '.join(sorted(missing))}, which {other}.js does not export")
    order.append(name)


def _stripped(name: str, source: str) -> str:
    source = IMPORT.sub("", source)
    source = re.sub(r"^export (?=(?:async )?(?:function|const|let|class)\b)", "", source, flags=re.MULTILINE)
    left = re.search(r"^(?:import|export)\b.*$", source, re.MULTILINE)
    if left:
        raise BundleError(f"{name}.js: the joiner does not know this form: {left[0]}")
    return source.strip("\n")


@cache
def script() -> str:
    """The view's JavaScript, which declares ``render``."""
    return join({path.stem: path.read_text(encoding="utf-8") for path in sorted(FOLDER.glob("*.js"))}, "index")


def module() -> str:
    """The same as the module that anywidget wants: its default export holds ``render``."""
    return f"{script()}\nexport default {{render}};\n"


@cache
def styles() -> str:
    """The view's style sheet."""
    return (FOLDER / "style.css").read_text(encoding="utf-8")
