"""A paper for the bench as one HTML page, to be printed from a browser.

Only this file lays it out as HTML. The page needs no network and no script, and its content policy allows neither;
whatever a label or a note holds is text in it, never markup.
"""

from __future__ import annotations

from collections.abc import Callable
from html import escape
from typing import Any

from mechcalc.printing.web_page import web_page as page_of

Block = dict[str, Any]
TICK = '<span class="tick"></span>'
SIZES = {"a4": ("A4", 210.0), "letter": ("letter", 215.9)}
MARGIN, SIDE, GAP, ROOM = 16.0, 4.9, 1.3, 170.0  # mm: page, box, gap between groups of three, widest register

STYLE = """
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0; background: #fff; color: #1f1f1f; font: 10.5pt/1.32 "Libertinus Serif", "Linux Libertine O",
  "Palatino Linotype", Palatino, P052, "Source Serif 4", "Liberation Serif", Georgia, serif;
  font-variant-numeric: lining-nums; }
h1, h2, h3 { font-weight: normal; margin: 0; line-height: 1.15; }
h1 { font-size: 21pt; }
h2 { font-size: 14pt; margin: 7mm 0 2mm; break-after: avoid; }
p { margin: 0 0 2mm; }
ul { margin: 0 0 2mm; padding-left: 5mm; }
li { margin-bottom: 0.8mm; }
.soft, .machine { color: #595959; }
.machine { border-bottom: 0.3mm solid #1f1f1f; padding-bottom: 2mm; margin-bottom: 3mm; }
.cautions { border: 0.6mm solid #1f1f1f; border-radius: 1.2mm; padding: 3mm 4mm 2mm; margin: 5mm 0;
  break-inside: avoid; }
.cautions p { font-size: 9.5pt; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 2.4mm 3mm; margin: 3mm 0; align-items: baseline; }
dt { color: #595959; font-size: 9.5pt; }
dd { margin: 0; white-space: pre-wrap; overflow-wrap: anywhere; }
dd.line, .line { border-bottom: 0.2mm solid #7a7a7a; min-height: 1.25em; }
.room .line { height: 8mm; }
table { border-collapse: collapse; width: 100%; font-size: 9.5pt; margin: 2mm 0; }
th, td { padding: 0.9mm 1.4mm; text-align: right; font-weight: normal; vertical-align: top; }
td { white-space: pre-line; }
.l { text-align: left; }
.nowrap { white-space: nowrap; }
thead { display: table-header-group; }
thead th { color: #595959; border-bottom: 0.3mm solid #1f1f1f; }
tbody tr { break-inside: avoid; border-bottom: 0.15mm solid #c9c9c9; }
.test { border-top: 0.2mm solid #7a7a7a; margin-top: 6mm; padding-top: 2mm; }
.top { display: grid; grid-template-columns: 11mm 1fr max-content; align-items: baseline; break-after: avoid; }
.top b { font-size: 17pt; font-weight: normal; line-height: 1; }
.top h3 { font-size: 13pt; }
.aim { margin-left: 11mm; font-style: italic; color: #595959; font-size: 9.5pt; break-after: avoid; }
.again { margin-left: 6.5mm; font-weight: bold; break-after: avoid; }
.step { display: grid; grid-template-columns: 6.5mm 1fr; margin: 1mm 0; break-after: avoid; break-inside: avoid; }
.after { break-after: auto; break-before: avoid; }
.tick { display: inline-block; width: 3.2mm; height: 3.2mm; border: 0.25mm solid #1f1f1f; border-radius: 0.4mm;
  vertical-align: -0.3mm; margin-right: 0.8mm; }
.step .tick { margin-top: 0.7mm; }
.reading { margin: 2mm 0 2.5mm 6.5mm; break-inside: avoid; }
.reading > p { margin-bottom: 1mm; font-size: 9.5pt; display: flex; flex-wrap: wrap; gap: 1mm 5mm; }
.registers { display: flex; flex-wrap: wrap; gap: 2mm 5mm; align-items: end; }
.registers small { display: block; color: #595959; font-size: 8.5pt; line-height: 1.2; }
.boxes { display: flex; }
.digit { display: flex; flex-direction: column; align-items: stretch; text-align: center;
  font-family: "DejaVu Sans Mono", Consolas, Menlo, monospace; line-height: 1.15; color: #595959; }
.digit i { font-style: normal; }
.digit span { border: 0.2mm solid #7a7a7a; border-radius: 0.6mm; color: #1f1f1f; margin-top: 0.5mm; display: flex;
  align-items: center; justify-content: center; }
.digit .differs { border: 0.6mm solid #1f1f1f; font-weight: bold; }
.third { margin-right: 1.3mm; }
.asked { white-space: nowrap; margin-left: auto; }
.signature { display: grid; grid-template-columns: 1fr 42mm 58mm; gap: 6mm; margin-top: 13mm; break-inside: avoid; }
.signature span { border-top: 0.2mm solid #7a7a7a; font-size: 8.5pt; color: #595959; padding-top: 0.6mm; }
@media screen {
  body { background: #d9d9d9; padding: 8mm 0; }
  main { background: #fff; padding: 16mm MARGINmm; margin: 0 auto; max-width: WIDTHmm; }
}
"""


def web_page(paper: Block) -> str:
    """The whole page."""
    size, width = SIZES[paper["paper"]]
    style = STYLE.replace("WIDTH", str(width)).replace("MARGIN", str(MARGIN))
    style += (f"@page {{ size: {size}; margin: 16mm {MARGIN}mm 17mm; font: 8.5pt serif; color: #595959;\n"
              f"  @bottom-left {{ content: {_css(paper['foot'])}; }}\n"
              "  @bottom-right { content: \"page \" counter(page) \" of \" counter(pages); } }\n")
    blocks = "".join(SHOW[one["kind"]](one) for one in paper["blocks"])
    head = f'<h1>{escape(paper["title"])}</h1>\n<p class="machine">{escape(paper["machine"])}</p>\n'
    return page_of(paper["title"], style, head + blocks)


def _css(text: str) -> str:
    """A text as CSS's content; what could end the string or the style is written as its number."""
    return '"' + "".join(mark if mark.isalnum() or mark in " .,:-()" else f"\\{ord(mark):06x}" for mark in text) + '"'


def _points(items: list[str]) -> str:
    return "<ul>" + "".join(f"<li>{escape(item)}</li>" for item in items) + "</ul>\n"


def _cautions(one: Block) -> str:
    return (f'<div class="cautions" role="note"><p><b>{escape(one["title"])}</b></p>{_points(one["items"])}'
            f'<p>{escape(one["last"])}</p></div>\n')


def _fields(one: Block) -> str:
    rows = (f"<dt>{escape(label)}</dt><dd{'' if value else ' class=line'}>{escape(value)}</dd>"
            for label, value in one["rows"])
    return f"<dl>{''.join(rows)}</dl>\n"


def _table(one: Block) -> str:
    def align(place: int) -> str:
        return f' class="{"l" if place in one["left"] else "n"}{"" if place == one["wide"] else " nowrap"}"'
    heads = "".join(f'<th scope="col"{align(place)}>{escape(head)}</th>' for place, head in enumerate(one["heads"]))
    rows = ("".join(f"<td{align(place)}>{escape(cell)}</td>" for place, cell in enumerate(row)) for row in one["rows"])
    return (f"<table><thead><tr>{heads}</tr></thead>\n<tbody>" + "".join(f"<tr>{row}</tr>\n" for row in rows)
            + "</tbody></table>\n")


def _test(one: Block) -> str:
    mark, done = (TICK if ticked else "<span>–</span>" for ticked in (one["ticks"] and not one["repeat"], one["ticks"]))
    parts = []
    for part in one["parts"]:
        parts += [f'<div class="step">{mark}<span>{escape(step)}</span></div>\n' for step in part["steps"]]
        parts += [_reading(reading, one["ticks"]) for reading in part["readings"]]
    aim = f'<p class="aim">{escape(one["aim"])}</p>\n' if one["aim"] else ""
    again = f'<p class="again">{escape(one["repeat"])}</p>\n' if one["repeat"] else ""
    after = f'<div class="step after">{done}<span>{escape(one["after"])}</span></div>\n' if one["after"] else ""
    return (f'<section class="test"><div class="top"><b>{one["number"]}</b><h3>{escape(one["title"])}</h3>'
            f'<span class="soft">{escape(one["cost"])}</span></div>\n{aim}{again}{"".join(parts)}{after}</section>\n')


def _reading(one: Block, ticks: bool) -> str:
    state = '<span class="tick"></span>all as it should be' if ticks else escape(one["verdict"])
    asked, registers = ("".join(map(show, one[name])) for show, name in ((_answer, "asked"), (_register, "registers")))
    return (f'<div class="reading"><p><b>{escape(one["label"])}</b> <span>{state}</span>{asked}</p>'
            f'<div class="registers">{registers}</div></div>\n')


def _register(one: Block) -> str:
    """What should be there above boxes; for a reader that speaks it is one text."""
    places = one["places"]
    gaps = (places - 1) // 3
    side = min(SIDE, (ROOM - gaps * GAP) / places)
    cells = []
    for index in range(places):
        at = places - index
        should, read = (one[name][index] if one[name] is not None else None for name in ("should", "read"))
        differs = ' differs' if read is not None and should is not None and read != should else ""
        above = f"<i>{should}</i>" if should is not None else ""
        cells.append(f'<span class="digit{" third" if at > 1 and (at - 1) % 3 == 0 else ""}" '
                     f'style="width:{side:.2f}mm;font-size:{min(10.0, side * 1.9):.1f}pt">{above}'
                     f'<span class="box{differs}" style="height:{max(side, 4.4) * 1.25:.1f}mm">{read or ""}</span>'
                     f"</span>")
    told = ", ".join([f"should be {one['should']}"] * (one["should"] is not None)
                     + [f"read {one['read']}" if one["read"] is not None else f"{places} empty boxes"])
    return (f'<div><small>{escape(one["name"])}</small><div class="boxes" role="img" '
            f'aria-label="{escape(one["name"])}: {told}">{"".join(cells)}</div></div>')


def _answer(one: Block) -> str:
    should = f" {one['should']}" if one["should"] is not None else ""
    read = (f"read <b>{one['read']}</b>" if one["read"] is not None else
            '<span class="tick"></span>yes &nbsp;<span class="tick"></span>no')
    return f' <span class="asked"><span class="soft">{escape(one["words"])}:</span>{should} &nbsp;{read}</span>'


def _signatures(one: Block) -> str:
    return "".join(f'<div class="signature"><span>{escape(person)}</span><span>date</span><span>signature</span>'
                   "</div>\n" for person in one["people"])


SHOW: dict[str, Callable[[Block], str]] = {
    "heading": lambda one: f"<h2>{escape(one['text'])}</h2>\n", "words": lambda one: f"<p>{escape(one['text'])}</p>\n",
    "points": lambda one: _points(one["items"]), "cautions": _cautions, "fields": _fields, "table": _table,
    "test": _test, "signatures": _signatures,
    "readings": lambda one: "".join(_reading(reading, False) for reading in one["readings"]),
    "room": lambda one: f'<div class="room">{"<div class=line></div>" * one["lines"]}</div>\n'}
