"""Run lessons and save them as the gate wants them.

    python -m mechcalc.classroom.refresh lessons/tens_carry.ipynb

runs each lesson from top to bottom in a fresh kernel and saves it with its outputs, free of all that changes from run
to run or from machine to machine: times, versions, random ids of views, the state of widgets. A cell without an id of
its own gets one from its section. A lesson with a cell that stops with an error is not saved. ``--check`` saves nothing
and says which files would change.

Only this file decides what of a run is kept in a lesson's file.
"""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence
from itertools import count
from pathlib import Path

from mechcalc.classroom.gate import BITMAPS, VIEW, Notebook, code_cells, executed, read, reasons

KEPT_OF_CELLS = ("tags", "jupyter", "jp-MarkdownHeadingCollapsed")
RANDOM_ID = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){0,3}(-[0-9a-f]{12})?|[0-9a-f]{32}")


def settled(notebook: Notebook) -> Notebook:
    """The notebook itself, with everything that need not be there taken off."""
    notebook.metadata = {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
                         "language_info": {"name": "python"}}
    notebook.nbformat, notebook.nbformat_minor = 4, 5
    _name_cells(notebook)
    views = count(1)
    for cell in notebook.cells:
        cell.metadata = {key: cell.metadata[key] for key in KEPT_OF_CELLS if key in cell.metadata}
        cell.source = "\n".join(line.rstrip() for line in cell.source.strip("\n").splitlines())
    for cell in code_cells(notebook):
        for output in cell.outputs:
            if VIEW in output.get("data", {}):
                output.data[VIEW] = {"model_id": f"view-{next(views)}", "version_major": 2, "version_minor": 0}
            if "data" in output and not {*output.data} & {*BITMAPS}:
                output.metadata = {}
        cell.outputs = _joined(cell.outputs)
    return notebook


def _joined(outputs: list) -> list:
    """Neighbouring pieces of one stream as one: how they were cut is chance."""
    kept: list = []
    for output in outputs:
        if kept and output.output_type == kept[-1].output_type == "stream" and output.name == kept[-1].name:
            kept[-1].text += output.text
        else:
            kept.append(output)
    return kept


def _name_cells(notebook: Notebook) -> None:
    """Ids that say where a cell stands, for cells whose id is missing, random or taken."""
    used: set[str] = set()
    section, numbers = "opening", count(1)
    for cell in notebook.cells:
        heading = re.search(r"^## +(.+)$", cell.source, re.MULTILINE) if cell.cell_type == "markdown" else None
        if heading:
            section = re.sub(r"[^a-z0-9]+", "-", heading.group(1).lower()).strip("-")[:40]
            numbers = count(1)
        name = cell.get("id", "")
        if not name or name in used or RANDOM_ID.fullmatch(name):
            others = used | {other.get("id", "") for other in notebook.cells}
            name = next(found for number in numbers if (found := f"{section}-{number}") not in others)
        cell["id"] = name
        used.add(name)


def refreshed(path: Path) -> Notebook:
    """A lesson, run and settled.

    Raises
    ------
    RuntimeError
        A cell stops with an error; with its line.
    """
    notebook = settled(executed(read(path), path.parent))
    stopped = reasons(notebook, notebook)
    if stopped:
        raise RuntimeError(f"{path}: {'; '.join(stopped)}")
    return notebook


def main(arguments: Sequence[str] | None = None) -> int:
    """Run lessons and save them with their outputs."""
    import nbformat

    parser = argparse.ArgumentParser(prog="python -m mechcalc.classroom.refresh", description=main.__doc__)
    parser.add_argument("lesson", nargs="+", type=Path)
    parser.add_argument("--check", action="store_true", help="save nothing; 1 if a file would change")
    given = parser.parse_args(arguments)
    changed = 0
    for path in given.lesson:
        before = path.read_text(encoding="utf-8")
        try:
            notebook = refreshed(path)
        except RuntimeError as error:
            print(error, file=sys.stderr)
            return 2
        text = nbformat.writes(notebook, version=4) + "\n"
        changed += text != before
        print(f"{path}: {'changed' if text != before else 'as it was'}")
        if not given.check:
            path.write_text(text, encoding="utf-8")
    return int(bool(changed)) if given.check else 0


if __name__ == "__main__":
    sys.exit(main())
