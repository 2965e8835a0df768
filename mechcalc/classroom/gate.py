"""The gate that a lesson goes through: run from top to bottom, it must say exactly what it said when it was saved.

Only this file decides when two runs of a lesson agree. What is compared: every output of every cell, in order, by
type and by each of its forms; text, LaTeX, HTML and SVG character by character. A bitmap must be there and be one (its
numbers stand beside it as text, and those are compared); a live view must be there, and its text form carries the
fingerprint of its timeline. `mechcalc.classroom.form` looks at how a lesson is written.

From a terminal::

    python -m mechcalc.classroom.gate lessons/tens_carry.ipynb
"""

from __future__ import annotations

import argparse
import base64
import contextlib
import io
import os
import re
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from mechcalc.classroom.logbook import VARIABLE

Notebook = Any  # an nbformat NotebookNode of format 4
SECONDS_A_CELL = 120
VIEW = "application/vnd.jupyter.widget-view+json"
BITMAPS = {"image/png": b"\x89PNG\r\n\x1a\n", "image/jpeg": b"\xff\xd8\xff", "image/gif": b"GIF8"}
CHANGING = ((re.compile(r"0x[0-9a-fA-F]{6,}"), "0x…"), (re.compile(r"\S*ipykernel_\d+\S*"), "ipykernel…"))


def read(path: str | Path) -> Notebook:
    """A lesson from its file."""
    import nbformat

    return nbformat.read(str(path), as_version=4)


def executed(notebook: Notebook, folder: str | Path = ".") -> Notebook:
    """A copy, run from top to bottom in a fresh kernel that works in `folder`; errors stay in the outputs.

    Nobody's progress is read or written.
    """
    from nbclient import NotebookClient

    copy = code_only(notebook)
    NotebookClient(copy, timeout=SECONDS_A_CELL, kernel_name="python3", allow_errors=True, store_widget_state=False,
                   resources={"metadata": {"path": str(folder)}}).execute(env={**os.environ, VARIABLE: ""})
    return copy


def code_only(notebook: Notebook) -> Notebook:
    """A copy without outputs and counts."""
    import copy

    bare = copy.deepcopy(notebook)
    bare.metadata.pop("widgets", None)
    for cell in code_cells(bare):
        cell.outputs, cell.execution_count = [], None
    return bare


def code_cells(notebook: Notebook) -> list[Any]:
    """The code cells, in order."""
    return [cell for cell in notebook.cells if cell.cell_type == "code"]


def reasons(committed: Notebook, now: Notebook) -> list[str]:
    """Why a lesson does not pass: one line each, none if it does.

    Parameters
    ----------
    committed : NotebookNode
        The lesson as it was saved, outputs included.
    now : NotebookNode
        The same lesson as it has just been run (`executed`).
    """
    return [*_not_as_run(committed), *_errors(now), *differences(committed, now)]


def _not_as_run(notebook: Notebook) -> Iterator[str]:
    """A lesson is saved as one run left it: cells counted 1 to n, and outputs there."""
    cells = code_cells(notebook)
    counts = [cell.execution_count for cell in cells]
    if counts != list(range(1, len(cells) + 1)):
        yield f"not saved after one run from top to bottom: the cells are counted {_short(str(counts))}"
    if not any(cell.outputs for cell in cells):
        yield "saved without its outputs: there is nothing to compare"


def _errors(now: Notebook) -> Iterator[str]:
    for cell in code_cells(now):
        for output in cell.outputs:
            if output.output_type == "error":
                yield f"{_name(cell)} stops with {output.ename}: {output.evalue}"


def differences(committed: Notebook, now: Notebook) -> Iterator[str]:
    """Each way in which two runs differ, cell by cell."""
    was, become = code_cells(committed), code_cells(now)
    if [cell.source for cell in was] != [cell.source for cell in become]:
        yield "the two runs are not of the same code"
        return
    for old, new in zip(was, become, strict=True):
        before, after = _outputs(old), _outputs(new)
        if len(before) != len(after):
            yield f"{_name(old)} had {_many(before)} and now has {_many(after)}"
        for number, (one, two) in enumerate(zip(before, after, strict=False), start=1):
            for line in _unlike(one, two):
                yield f"{_name(old)}, output {number}: {line}"


def _outputs(cell: Any) -> list[tuple[str, dict[str, Any]]]:
    """A cell's outputs as (type, forms), with neighbouring pieces of one stream joined."""
    found: list[tuple[str, dict[str, Any]]] = []
    for output in cell.outputs:
        if output.output_type == "stream":
            kind = f"stream {output.name}"
            if found and found[-1][0] == kind:
                found[-1][1]["text"] += output.text
                continue
            found.append((kind, {"text": output.text}))
        elif output.output_type == "error":
            found.append(("error", {"text": f"{output.ename}: {output.evalue}"}))
        else:
            found.append((output.output_type, dict(output.data)))
    return found


def _unlike(one: tuple[str, dict[str, Any]], two: tuple[str, dict[str, Any]]) -> Iterator[str]:
    if one[0] != two[0]:
        yield f"was of type {one[0]}, is {two[0]}"
    for form in sorted({*one[1], *two[1]}):
        if form not in two[1]:
            yield f"{form} is gone"
        elif form not in one[1]:
            yield f"{form} is new"
        elif form in BITMAPS:
            if not (_is_bitmap(form, one[1][form]) and _is_bitmap(form, two[1][form])):
                yield f"{form} holds no picture"
        elif form == VIEW:
            if not all("model_id" in side[1][form] for side in (one, two)):
                yield f"{form} names no view"
        elif _settled(one[1][form]) != _settled(two[1][form]):
            yield f"{form} was {_short(repr(one[1][form]))}, is {_short(repr(two[1][form]))}"


def _is_bitmap(form: str, data: str) -> bool:
    try:
        return base64.b64decode(data).startswith(BITMAPS[form])
    except ValueError:
        return False


def _settled(value: Any) -> Any:
    """Text without what may change from run to run: addresses and the kernel's file names."""
    if isinstance(value, str):
        for pattern, instead in CHANGING:
            value = pattern.sub(instead, value)
    return value


def _name(cell: Any) -> str:
    first = next((line for line in cell.source.splitlines() if line.strip()), "")
    return f"cell {cell.get('id', '?')} ({_short(first, 40)})"


def _many(outputs: Sequence[Any]) -> str:
    return f"{len(outputs)} output{'' if len(outputs) == 1 else 's'}"


def _short(text: str, most: int = 160) -> str:
    return text if len(text) <= most else text[:most - 1] + "…"


# Sections that stand alone.


def sections(notebook: Notebook) -> dict[str, list[Any]]:
    """The code cells under each heading of the second level; what comes before the first is under ``""``."""
    found: dict[str, list[Any]] = {"": []}
    heading = ""
    for cell in notebook.cells:
        if cell.cell_type == "markdown":
            for line in re.findall(r"^## +(.+)$", cell.source, re.MULTILINE):
                heading = line.strip()
                found[heading] = []
        elif cell.cell_type == "code":
            found[heading].append(cell)
    return found


def leaning_sections(notebook: Notebook) -> list[str]:
    """Sections that do not run after the opening cells alone, each with the error; run in this process."""
    found = sections(notebook)
    opening = found.pop("")
    lines = []
    for heading, cells in found.items():
        namespace: dict[str, Any] = {"__name__": "__lesson__"}
        with contextlib.redirect_stdout(io.StringIO()):
            for cell in (*opening, *cells):
                try:
                    exec(compile(cell.source, f"<{cell.get('id', '?')}>", "exec"), namespace)
                except Exception as error:
                    lines.append(f"the section \"{heading}\" does not stand alone: {_name(cell)} stops with "
                                 f"{type(error).__name__}: {error}")
                    break
    return lines


def main(arguments: Sequence[str] | None = None) -> int:
    """Put lessons through the gate and say what stops them; 0 if all pass."""
    from mechcalc.classroom.course import INDEX
    from mechcalc.classroom.form import faults_of_form, faults_of_index, faults_of_page
    from mechcalc.classroom.pages import PAGES

    parser = argparse.ArgumentParser(prog="python -m mechcalc.classroom.gate", description=main.__doc__)
    parser.add_argument("lesson", nargs="+", type=Path, help="a notebook saved with its outputs")
    parser.add_argument("--outputs-only", action="store_true", help="do not look at how it is written")
    given = parser.parse_args(arguments)
    stopped = False
    for path in given.lesson:
        notebook = read(path)
        lines = [*reasons(notebook, executed(notebook, path.parent)), *leaning_sections(notebook)]
        if not given.outputs_only:
            rules = faults_of_index if path.stem == INDEX else faults_of_page if path.stem in PAGES else faults_of_form
            lines += rules(notebook)
        print(f"{path}: {'passes' if not lines else 'does not pass'}", *lines, sep="\n  - ")
        stopped = stopped or bool(lines)
    return int(stopped)


if __name__ == "__main__":
    sys.exit(main())
