"""A drawing as the text of an SVG file.

Only this file writes shapes and words as SVG. The same drawing gives the same text; matplotlib is not needed.
"""

from __future__ import annotations

from html import escape

from mechcalc.view.drawing import PAPER, Drawing, Shape, Words


def drawing_svg(drawing: Drawing, words: str) -> str:
    """A drawing as the text of an SVG file; `words` say what it shows to those who do not see it."""
    body = "\n".join(_svg_shape(item) if isinstance(item, Shape) else _svg_words(item) for item in drawing.items)
    return (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {drawing.width:g} {drawing.height:g}" role="img" '
            f'font-family="Palatino, serif">\n<title>{escape(words)}</title>\n'
            f'<rect width="{drawing.width:g}" height="{drawing.height:g}" fill="{PAPER}"/>\n{body}\n</svg>\n')


def _svg_shape(item: Shape) -> str:
    points = " ".join(f"{x:.2f},{y:.2f}" for x, y in item.points)
    tag = "polygon" if item.closed else "polyline"
    dashes = ' stroke-dasharray="7 4"' if item.dashed else ""
    return (f'<{tag} points="{points}" fill="{item.fill}" stroke="{item.stroke}" stroke-width="{item.pen:g}"{dashes}/>')


def _svg_words(item: Words) -> str:
    look = (' font-weight="bold"' if item.bold else "") + (' font-style="italic"' if item.slanted else "")
    return (f'<text x="{item.at[0]:.2f}" y="{item.at[1]:.2f}" font-size="{item.size:g}" fill="{item.color}" '
            f'text-anchor="{item.align}" dominant-baseline="central"{look}>{escape(item.text)}</text>')
