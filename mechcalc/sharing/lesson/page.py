"""A lesson as one HTML page for paper.

Only this file lays it out. No script and no network, and the page's content policy allows neither.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from html import escape
from typing import Any

from mechcalc.classroom.form import SOLUTION, TEACHER
from mechcalc.classroom.gate import VIEW
from mechcalc.printing.web_page import web_page
from mechcalc.sharing.lesson.formulas import output_formula, text

SIZES = {"a4": "A4", "letter": "letter"}
STYLE = """
:root { color-scheme: light; }
* { box-sizing: border-box; }
html { font: 10.5pt/1.4 "Libertinus Serif", "Linux Libertine O", "Palatino Linotype", Palatino, P052,
  "Liberation Serif", Georgia, serif; color: #1f1f1f; font-variant-numeric: lining-nums; }
body { margin: 0; background: #fff; }
h1 { font-size: 24pt; line-height: 1.15; font-weight: normal; margin: 0 0 4mm; border-bottom: 0.5mm solid #9a7a2c;
  padding-bottom: 2mm; }
h2 { font-size: 15pt; font-weight: normal; margin: 9mm 0 2mm; break-after: avoid; }
h3 { font-size: 12pt; margin: 6mm 0 1.5mm; break-after: avoid; }
p, ul, ol { margin: 0 0 2.4mm; orphans: 3; widows: 3; }
ul, ol { padding-left: 6mm; }
code, pre { font: 8.6pt/1.35 "DejaVu Sans Mono", Consolas, Menlo, monospace; }
a { color: inherit; }
blockquote { margin: 2mm 0; padding-left: 4mm; border-left: 0.8mm solid #c9c9c9; }
.code { margin: 3mm 0 0; padding: 2mm 3mm; background: #f4f2ec; border-left: 0.8mm solid #9a7a2c; white-space: pre-wrap;
  overflow-wrap: anywhere; break-inside: avoid; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.code .k { font-weight: bold; } .code .c { font-style: italic; color: #595959; }
.out { margin: 1.5mm 0 4mm; padding-left: 3.8mm; }
.out pre { margin: 0; font-size: 7.8pt; white-space: pre-wrap; overflow-wrap: anywhere; }
.out img, .out svg { max-width: 100%; max-height: 104mm; height: auto; display: block; break-inside: avoid; }
.live { font-size: 8.5pt; color: #595959; font-style: italic; margin: 1mm 0 0; }
table { border-collapse: collapse; font-size: 9pt; margin: 2mm 0; font-variant-numeric: tabular-nums lining-nums; }
th, td { padding: 0.7mm 2mm; border-bottom: 0.15mm solid #b3b3b3; text-align: left; vertical-align: top; }
thead { display: table-header-group; } tr { break-inside: avoid; }
caption { text-align: left; font-style: italic; }
.solution { border: 0.25mm dashed #7a7a7a; border-radius: 1mm; padding: 0 3mm 1mm; margin: 3mm 0; }
.solution > b { font-size: 8.5pt; }
.teacher { break-before: page; }
math { font-size: 1.08em; }
@media screen { body { background: #d9d9d9; padding: 8mm 0; }
  main { background: #fff; max-width: 210mm; margin: 0 auto; padding: 18mm; } }
"""


def lesson_page(notebook: Any, views: Mapping[str, str], *, solutions: bool = False, teacher: bool = False,
                paper: str = "a4") -> str:
    """The page.

    Parameters
    ----------
    notebook : NotebookNode
        A lesson with its outputs.
    views : mapping of str
        SVG by the id of the cell whose live view it replaces.
    solutions, teacher : bool
        Whether the solutions, and the page for the teacher, are printed.
    paper : str
        ``"a4"`` or ``"letter"``.
    """
    body, title, last = [], "", ""
    for cell in notebook.cells:
        heading = re.search(r"^## +(.+)$", cell.source, re.MULTILINE) if cell.cell_type == "markdown" else None
        begins = heading is not None and heading[1].strip() == TEACHER
        last = heading[1].strip() if heading else last
        if last == TEACHER and not teacher:
            continue
        if cell.cell_type == "markdown":
            title = title or next((line.lstrip("# ") for line in cell.source.splitlines() if line.startswith("# ")), "")
            shown = text(cell.source)
            body.append(f'<div class="teacher">{shown}</div>' if begins else shown)
        elif cell.cell_type == "code":
            solved = SOLUTION in cell.metadata.get("tags", [])
            if not solved or solutions:
                inside = _code(cell.source) + _outputs(cell, views)
                body.append(f'<div class="solution"><b>Solution</b>{inside}</div>' if solved else inside)
    return _html(title or "A lesson", "\n".join(body), paper)


def _code(source: str) -> str:
    """Code with its keywords in bold and its comments slanted, which stands out in grey as well."""
    from pygments.lexers import PythonLexer
    from pygments.token import Comment, Keyword
    if not source.strip():
        return ""
    parts = []
    for kind, words in PythonLexer(stripnl=False).get_tokens(source.rstrip()):
        look = "k" if kind in Keyword else "c" if kind in Comment else ""
        parts.append(f'<span class="{look}">{escape(words)}</span>' if look else escape(words))
    return f'<pre class="code">{"".join(parts).rstrip()}</pre>\n'


def _outputs(cell: Any, views: Mapping[str, str]) -> str:
    printed = "".join(output.get("text", "") for output in cell.outputs if output.output_type == "stream")
    shown = "".join(_output(output, cell.id, views, printed) for output in cell.outputs)
    return f'<div class="out">{shown}</div>\n' if shown else ""


def _output(output: Any, cell: str, views: Mapping[str, str], printed: str) -> str:
    if output.output_type == "stream":
        return f"<pre>{escape(output.text.rstrip())}</pre>"
    data = output.get("data", {})
    if VIEW in data:
        if cell not in views:
            return '<p class="live">In the notebook something to work with stands here.</p>'
        return f'{views[cell]}<p class="live">In the notebook this is a live view.</p>'
    if "image/png" in data:
        words = escape(" ".join(printed.split())[:600] or "A picture; what it shows is said in the text beside it.")
        return f'<img alt="{words}" src="data:image/png;base64,{"".join(data["image/png"].split())}">'
    if "image/svg+xml" in data:
        return str(data["image/svg+xml"])
    if "text/html" in data:
        return str(data["text/html"])
    if "text/latex" in data:
        return output_formula(data["text/latex"])
    return f'<pre>{escape(data.get("text/plain", ""))}</pre>'


def _html(title: str, body: str, paper: str) -> str:
    page = (f"@page {{ size: {SIZES[paper]}; margin: 17mm 18mm 18mm; @bottom-right {{ content: counter(page) \" of \" "
            "counter(pages); font: 8.5pt serif; color: #595959; } }\n")
    return web_page(title, f"{STYLE}{page}", f"{body}\n", images="data:")
