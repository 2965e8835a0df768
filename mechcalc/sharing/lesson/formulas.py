"""Formulas and text: from a notebook's Markdown to HTML with MathML.

Only this file reads Markdown and LaTeX. HTML in a text cell is shown as it was written, never as markup.
"""

from __future__ import annotations

import re
from functools import cache
from html import escape
from typing import Any

DISPLAY = re.compile(r"^\s*\$\$(.+)\$\$\s*$|^\s*\$(?:\\displaystyle)?(.+)\$\s*$", re.DOTALL)

BROKEN = re.compile(r"(?<![\\$])\$(?!\$)(?:[^$\n]|\n(?!\n))+\$")  # a formula in a line, which may run on in the next


def mathml(latex: str, display: bool = False) -> str:
    """A formula as MathML; as it was written where it cannot be read.

    >>> mathml("a^2")[:40]
    '<math xmlns="http://www.w3.org/1998/Math'
    """
    from latex2mathml.converter import convert
    try:
        return str(convert(latex.replace("\\displaystyle", "").strip(), display="block" if display else "inline"))
    except Exception:  # whatever the converter trips over, the reader gets the source
        return f"<code>{escape(latex)}</code>"


def output_formula(latex: str) -> str:
    """A formula that a cell put out, with its dollar signs."""
    found = DISPLAY.match(latex)
    return mathml((found[1] or found[2]) if found else latex, display=True)


def text(markdown: str) -> str:
    """A text cell as HTML.

    >>> text("Two **steps** <b>on</b>").strip()
    '<p>Two <strong>steps</strong> &lt;b&gt;on&lt;/b&gt;</p>'
    """
    joined = BROKEN.sub(lambda found: found[0].replace("\n", " "), markdown)
    return str(_reader()(joined))


@cache
def _reader() -> Any:
    import mistune
    reader: Any = mistune.create_markdown(escape=True, plugins=["math", "table", "strikethrough"])
    reader.renderer.register("inline_math", lambda _, words: mathml(words))
    reader.renderer.register("block_math", lambda _, words: f"<p>{mathml(words, display=True)}</p>\n")
    return reader
