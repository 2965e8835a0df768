"""How a lesson of this kit is written: its length, its rhythm, its cells; and the page that leads to the lessons.

Only this file holds the house rules. They are about form; whether a lesson still says what it said is the business
of `mechcalc.classroom.gate`.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from typing import Any

from mechcalc.classroom.course import COURSE
from mechcalc.classroom.exercises import FOUND_RIGHT
from mechcalc.classroom.gate import BITMAPS, VIEW, Notebook, code_cells

WORDS = (1200, 2000)
CODE_CELLS = (20, 30)
LINES = (1, 6)
PICTURES = (3, 5)
EXERCISES = 5
TEXTS_IN_A_ROW = 3
INDEX_WORDS, INDEX_CODE_CELLS = (200, 700), (5, 10)
PAGE_WORDS, PAGE_CODE_CELLS = (200, 900), (5, 12)
TEACHER = "For the teacher"
NEEDED_HEADINGS = ("Summary", "Exercises", "Under the hood", "References", TEACHER)
SOLUTION = "solution"
MOVES = {"set", "set_lever", "turn", "crank", "finish_turn", "shift", "shift_to", "ease_carriage", "seat_carriage",
         "clear_setting", "clear_result", "clear_counter", "pull_clearing_lever", "return_clearing_lever",
         "engage_transfer", "free_transfer", "back_transfer", "undo", "perform"}
INSTALLS = re.compile(r"^\s*[!%]|\b(pip|conda|uv|mamba)3?\s+install\b", re.MULTILINE)


def faults_of_form(notebook: Notebook) -> list[str]:
    """Every house rule that a lesson breaks, one line each.

    The teacher's page does not count as words of the lesson.
    """
    return [line for rule in RULES for line in rule(notebook)]


def _bounds(what: str, number: int, bounds: tuple[int, int]) -> Iterator[str]:
    if not bounds[0] <= number <= bounds[1]:
        yield f"{what}: {number}, not {bounds[0]} to {bounds[1]}"


def _lengths(notebook: Notebook) -> Iterator[str]:
    yield from _bounds("words", words(notebook), WORDS)
    yield from _bounds("code cells", len(code_cells(notebook)), CODE_CELLS)
    yield from _bounds("pictures", sum(has_picture(cell) for cell in code_cells(notebook)), PICTURES)
    for cell in code_cells(notebook):
        lines = [line for line in cell.source.splitlines() if line.strip() and not line.strip().startswith("#")]
        yield from _bounds(f"lines of code in cell {cell.id}", len(lines), LINES)


def words(notebook: Notebook) -> int:
    """Words that a learner reads: text cells without the teacher's page, formulas and addresses."""
    count, teacher = 0, False
    for cell in notebook.cells:
        if cell.cell_type != "markdown":
            continue
        heading = re.search(r"^## +(.+)$", cell.source, re.MULTILINE)
        teacher = heading.group(1).strip() == TEACHER if heading else teacher
        if not teacher:
            text = re.sub(r"\$\$.*?\$\$|\$[^$]*\$|<[^>]+>|\]\([^)]*\)", " ", cell.source, flags=re.DOTALL)
            count += len(re.findall(r"[^\W_][\w'’-]*", text))
    return count


def _rhythm(notebook: Notebook) -> Iterator[str]:
    """Something happens after three text cells at the latest; the teacher's page is exempt. The headings are there."""
    row = 0
    for cell in notebook.cells:
        if re.search(rf"^## +{TEACHER}", cell.source, re.MULTILINE):
            break
        row = row + 1 if cell.cell_type == "markdown" else 0
        if row == TEXTS_IN_A_ROW + 1:
            yield f"more than {TEXTS_IN_A_ROW} text cells in a row, at cell {cell.id}"
    found = re.findall(r"^## +(.+)$", "\n".join(c.source for c in notebook.cells if c.cell_type == "markdown"), re.M)
    for heading in NEEDED_HEADINGS:
        if heading not in [line.strip() for line in found]:
            yield f"no section \"{heading}\""


def _ids(notebook: Notebook) -> Iterator[str]:
    ids = [cell.get("id", "") for cell in notebook.cells]
    for name in sorted({name for name in ids if ids.count(name) > 1 or not name}):
        yield f"cell id {name!r} is missing or used twice"


def _code(notebook: Notebook) -> Iterator[str]:
    """Plain Python; imports in the first cell; nothing installed or asked for; no name and no machine used twice."""
    given: dict[str, str] = {}
    for number, cell in enumerate(code_cells(notebook)):
        if INSTALLS.search(cell.source):
            yield f"cell {cell.id} installs something or uses a magic"
        try:
            tree = ast.parse(cell.source)
        except SyntaxError as error:
            yield f"cell {cell.id} is no plain Python: {error.msg}"
            continue
        yield from _imports(tree, cell, number)
        yield from (f"cell {cell.id} moves {name}, a machine of cell {given[name]}: it may be run twice"
                    for name in sorted(_moved(tree)) if name in given)
        for name in sorted(_names_given(tree)):
            if name in given:
                yield f"cell {cell.id} gives {name} again: it was given in cell {given[name]}"
            given[name] = cell.id
        yield from _own_answers(tree, cell)


def _imports(tree: ast.Module, cell: Any, number: int) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and any(alias.name == "*" for alias in node.names):
            yield f"cell {cell.id} has a star import"
        if isinstance(node, (ast.Import, ast.ImportFrom)) and number:
            yield f"cell {cell.id} imports: imports stand in the first code cell"
        if isinstance(node, ast.Name) and node.id == "input":
            yield f"cell {cell.id} asks for input"


def _names_given(tree: ast.Module) -> set[str]:
    """Names that a cell's own level binds (those inside functions and comprehensions are theirs)."""
    names = {alias.asname or alias.name.split(".")[0] for node in tree.body
             if isinstance(node, (ast.Import, ast.ImportFrom)) for alias in node.names}
    names |= {node.name for node in tree.body if isinstance(node, (ast.FunctionDef, ast.ClassDef))}
    waiting: list[ast.AST] = [node for node in tree.body if not isinstance(node, (ast.FunctionDef, ast.ClassDef))]
    while waiting:
        node = waiting.pop()
        if isinstance(node, (ast.ListComp, ast.SetComp, ast.DictComp, ast.GeneratorExp, ast.Lambda)):
            continue
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store) and node.id != "_":
            names.add(node.id)
        waiting += ast.iter_child_nodes(node)
    return names


def _moved(tree: ast.Module) -> set[str]:
    """Names of which a cell asks a movement of the hand."""
    return {node.func.value.id for node in ast.walk(tree) if isinstance(node, ast.Call)
            and isinstance(node.func, ast.Attribute) and node.func.attr in MOVES
            and isinstance(node.func.value, ast.Name)} - _names_given(tree)


def _own_answers(tree: ast.Module, cell: Any) -> Iterator[str]:
    """What the learner is to fill in is None as the lesson comes."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Assign) or (isinstance(node.value, ast.Constant) and node.value.value is None):
            continue
        if any(isinstance(target, ast.Name) and target.id.startswith("my_") for target in node.targets):
            yield f"cell {cell.id} holds an answer already: my_… is None as the lesson comes"


def has_picture(cell: Any) -> bool:
    """Whether a code cell put out a bitmap, an SVG or a live view."""
    forms = {form for output in cell.outputs for form in output.get("data", {})}
    return bool(forms & {*BITMAPS, VIEW, "image/svg+xml"})


def _numbers_beside_pictures(notebook: Notebook) -> Iterator[str]:
    for cell in code_cells(notebook):
        printed = "".join(output.text for output in cell.outputs if output.output_type == "stream")
        if has_picture(cell) and not re.search(r"\d", printed):
            yield f"cell {cell.id} shows a picture and prints none of its numbers"


def asked(cell: Any, function: str = "look_over") -> list[str]:
    """The labels that a code cell has looked over."""
    return [label for label, _ in _calls(cell, function)]


def _calls(cell: Any, function: str) -> list[tuple[str, ast.expr]]:
    try:
        tree = ast.parse(cell.source)
    except SyntaxError:
        return []
    return [(node.args[0].value, node.args[1]) for node in ast.walk(tree)
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == function
            and len(node.args) == 2 and isinstance(node.args[0], ast.Constant) and isinstance(node.args[0].value, str)]


def _exercises(notebook: Notebook) -> Iterator[str]:
    """Every exercise is asked with an empty answer, and has a collapsed solution that runs and is right."""
    open_labels: list[str] = []
    solved: list[str] = []
    for cell in code_cells(notebook):
        if SOLUTION in cell.metadata.get("tags", []):
            solved += asked(cell, "worked_out")
            folded = cell.metadata.get("jupyter", {})
            if not (folded.get("source_hidden") and folded.get("outputs_hidden")):
                yield f"the solution in cell {cell.id} is not collapsed"
            if not any(FOUND_RIGHT in output.get("text", "") for output in cell.outputs):
                yield f"the solution in cell {cell.id} is not found right"
        else:
            open_labels += asked(cell)
            for label, answer in _calls(cell, "look_over"):
                if not (isinstance(answer, ast.Name) and answer.id.startswith("my_")):
                    yield f"cell {cell.id} asks for {label!r} without a my_… to fill in"
    if len(open_labels) < EXERCISES:
        yield f"exercises: {len(open_labels)}, not {EXERCISES} or more"
    if open_labels != solved:
        yield f"exercises and solutions do not match: {open_labels} and {solved}"


RULES = (_ids, _lengths, _rhythm, _code, _numbers_beside_pictures, _exercises)


# The page that leads to the lessons.


def faults_of_index(notebook: Notebook) -> list[str]:
    """Every rule for `mechcalc.classroom.course.INDEX` that the page breaks, one line each.

    It is short; its code is as plain as a lesson's; it asks nothing; and what it puts out links to each lesson of the
    course.
    """
    return [*_plain_rhythm(notebook, INDEX_WORDS, INDEX_CODE_CELLS),
            *(line for rule in (_ids, _code, _links) for line in rule(notebook))]


def faults_of_page(notebook: Notebook) -> list[str]:
    """Every rule for `mechcalc.classroom.pages.PAGES` that the page breaks, one line each.

    It is short; its code is as plain as a lesson's; a picture's numbers stand beside it; and it asks no exercise.
    """
    return [*_plain_rhythm(notebook, PAGE_WORDS, PAGE_CODE_CELLS),
            *(line for rule in (_ids, _code, _numbers_beside_pictures) for line in rule(notebook))]


def _plain_rhythm(notebook: Notebook, most_words: tuple[int, int], most_cells: tuple[int, int]) -> Iterator[str]:
    yield from _bounds("words", words(notebook), most_words)
    yield from _bounds("code cells", len(code_cells(notebook)), most_cells)
    for cell in code_cells(notebook):
        yield from _bounds(f"lines of code in cell {cell.id}", len(cell.source.splitlines()), LINES)
        if asked(cell) or asked(cell, "worked_out"):
            yield f"cell {cell.id} asks an exercise: those belong in a lesson"


def _links(notebook: Notebook) -> Iterator[str]:
    shown = "".join(output.get("data", {}).get("text/html", "") for cell in code_cells(notebook)
                    for output in cell.outputs)
    linked = set(re.findall(r'href="([^"]*)"', shown))
    yield from (f"no link to {lesson.name}" for lesson in COURSE if f"{lesson.name}.ipynb" not in linked)
    known = {f"{lesson.name}.ipynb" for lesson in COURSE}
    yield from (f"a link to {link}, which is no lesson" for link in sorted(linked - known))
