"""The live views of a lesson as still pictures.

Only this file makes them. A committed lesson holds no timeline, only a fingerprint of it; so the section that shows a
view is run again, and the picture is taken of that very timeline if the fingerprint is the same.
"""

from __future__ import annotations

import ast
import contextlib
import io
import os
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from mechcalc.classroom.form import SOLUTION
from mechcalc.classroom.gate import VIEW
from mechcalc.view import MachineView, still_svg


def pictures(notebook: Any, folder: Path) -> dict[str, str]:
    """SVG by the id of the cell that shows a machine live; other things live (forms, boards) have no still.

    Parameters
    ----------
    notebook : NotebookNode
        A lesson with its outputs.
    folder : path
        Where its code runs.
    """
    wanted = {cell.id: committed for cell in notebook.cells if cell.cell_type == "code"
              for output in cell.outputs if VIEW in output.get("data", {})
              for committed in [output.data.get("text/plain", "")]}
    if not wanted:
        return {}
    names: dict[str, Any] = {"__name__": "__lesson__"}
    found = {}
    with _undisturbed(folder):
        for cell in _needed(notebook, wanted):
            try:
                value = _run(cell.source, names)
            except Exception:  # a lesson that no longer runs keeps its words; `mechcalc check` says why
                break
            if cell.id in wanted and repr(value) == wanted[cell.id] and isinstance(value, MachineView):
                found[cell.id] = still_svg(value.scene["timeline"], _telling(value))
    return found


def _needed(notebook: Any, wanted: dict[str, str]) -> Iterator[Any]:
    """The imports, and the code of every section with a view; solutions are left out."""
    sections: list[list[Any]] = [[]]
    for cell in notebook.cells:
        if cell.cell_type == "markdown" and re.search(r"^## ", cell.source, re.MULTILINE):
            sections.append([])
        elif cell.cell_type == "code" and SOLUTION not in cell.metadata.get("tags", []):
            sections[-1].append(cell)
    opening = next((section[0] for section in sections if section), None)
    if opening is not None:
        yield opening
    for section in sections:
        if any(cell.id in wanted for cell in section):
            yield from (cell for cell in section if cell is not opening)


def _run(source: str, names: dict[str, Any]) -> Any:
    """What the last line of a cell gives."""
    tree = ast.parse(source)
    last = tree.body[-1] if tree.body else None
    shows = isinstance(last, ast.Expr)
    exec(compile(ast.Module(tree.body[:-1] if shows else tree.body, []), "<lesson>", "exec"), names)
    return eval(compile(ast.Expression(last.value), "<lesson>", "eval"), names) if isinstance(last, ast.Expr) else None


@contextlib.contextmanager
def _undisturbed(folder: Path) -> Iterator[None]:
    """Nothing printed, nothing recorded as a learner's work."""
    before = os.environ.get("MECHCALC_PROGRESS")
    os.environ["MECHCALC_PROGRESS"] = ""
    try:
        with contextlib.chdir(folder), contextlib.redirect_stdout(io.StringIO()):
            yield
    finally:
        if before is None:
            del os.environ["MECHCALC_PROGRESS"]
        else:
            os.environ["MECHCALC_PROGRESS"] = before


def _telling(view: Any) -> float:
    """The travel at which a picture tells most: where the view stands, or the middle of its first carry."""
    if view.travel or view.scene["live"]:
        return float(view.travel)
    timeline = view.scene["timeline"]
    for moment in timeline["moments"]:
        if "carry step" in moment["kinds"]:
            return float((moment["from"] + moment["at"]) / 2)
    return float(timeline["length"])
