"""Ways to damage a lesson, each of which the gate must report.

Only this file knows how. A way takes a lesson and changes it, or returns False where the lesson has nothing of the
kind.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from mechcalc.classroom.gate import VIEW, code_cells

Output = Any
PNG = "image/png"
LATEX = "text/latex"


def outputs(notebook: Any) -> Iterator[tuple[Any, Output]]:
    for cell in code_cells(notebook):
        for output in cell.outputs:
            yield cell, output


def bump(text: str) -> str:
    """The text with its last digit changed."""
    found = list(re.finditer(r"\d", text))[-1]
    return text[:found.start()] + str((int(found.group()) + 1) % 10) + text[found.end():]


def change_printed_number(notebook: Any) -> bool | None:
    for _, output in outputs(notebook):
        if output.output_type == "stream" and re.search(r"\d", output.text):
            output.text = bump(output.text)
            return None
    return False


def change_value(notebook: Any) -> bool | None:
    for _, output in outputs(notebook):
        plain = output.get("data", {}).get("text/plain", "")
        if output.output_type == "execute_result" and re.search(r"\d", plain):
            output.data["text/plain"] = bump(plain)
            return None
    return False


def change_picture_text(notebook: Any) -> bool | None:
    for cell, output in outputs(notebook):
        if PNG in output.get("data", {}):
            said = next(other for other in cell.outputs if other.output_type == "stream")
            said.text = bump(said.text)
            return None
    return False


def strip(notebook: Any) -> None:
    for cell in code_cells(notebook):
        cell.outputs, cell.execution_count = [], None


def strip_outputs_only(notebook: Any) -> None:
    for cell in code_cells(notebook):
        cell.outputs = []


def change_fingerprint(notebook: Any) -> bool | None:
    for _, output in outputs(notebook):
        if VIEW in output.get("data", {}):
            output.data["text/plain"] = bump(output.data["text/plain"])
            return None
    return False


def remove_form(notebook: Any, form: str) -> bool | None:
    for _, output in outputs(notebook):
        if form in output.get("data", {}):
            del output.data[form]
            return None
    return False


def remove_output_with(notebook: Any, form: str) -> bool | None:
    for cell, output in outputs(notebook):
        if form in output.get("data", {}):
            cell.outputs.remove(output)
            return None
    return False


def change_latex(notebook: Any) -> bool | None:
    for _, output in outputs(notebook):
        if LATEX in output.get("data", {}):
            output.data[LATEX] += r"\,"
            return None
    return False


def empty_picture(notebook: Any) -> bool | None:
    for _, output in outputs(notebook):
        if PNG in output.get("data", {}):
            output.data[PNG] = "bm8gcGljdHVyZQ=="
            return None
    return False


def change_type(notebook: Any) -> bool | None:
    for cell, output in outputs(notebook):
        if output.output_type == "execute_result":
            changed = {key: value for key, value in output.items() if key != "execution_count"}
            cell.outputs[cell.outputs.index(output)] = type(output)({**changed, "output_type": "display_data"})
            return None
    return False


def run_out_of_order(notebook: Any) -> None:
    cells = code_cells(notebook)
    cells[0].execution_count, cells[1].execution_count = 2, 1


def add_output(notebook: Any) -> bool | None:
    for cell, output in outputs(notebook):
        if output.output_type == "stream":
            cell.outputs.append(type(output)({"output_type": "stream", "name": "stderr", "text": "a warning\n"}))
            return None
    return False


WAYS = {
    "a changed number in what was printed": change_printed_number,
    "a changed number in a value": change_value,
    "a changed number beside a picture": change_picture_text,
    "all outputs and counts stripped": strip,
    "all outputs stripped, counts kept": strip_outputs_only,
    "another timeline in a view": change_fingerprint,
    "a view removed": lambda notebook: remove_form(notebook, VIEW),
    "a view's whole output removed": lambda notebook: remove_output_with(notebook, VIEW),
    "changed LaTeX": change_latex,
    "LaTeX removed": lambda notebook: remove_form(notebook, LATEX),
    "a picture removed": lambda notebook: remove_output_with(notebook, PNG),
    "a picture that is none": empty_picture,
    "an output of another type": change_type,
    "cells run out of order": run_out_of_order,
    "a warning that was there": add_output,
}
