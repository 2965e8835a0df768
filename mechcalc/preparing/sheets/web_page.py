"""Sheets and key as one HTML page each, to be printed from a browser.

Only this file lays them out as HTML; `content` has the words. A page needs no network and no script, and its content
policy allows neither; whatever a name or a title holds is text in it, never markup. CSS paged media give every sheet
pages of its own, with its code in their margin.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import Any

from mechcalc.preparing.sheets.content import KEY_HEADS, class_key_content, head_content, key_content, sheet_content
from mechcalc.preparing.sheets.print_file import summary
from mechcalc.preparing.sheets.worksheets import Worksheets
from mechcalc.printing.web_page import web_page

Content = dict[str, Any]
SIZES = {"a4": ("A4", 210.0), "letter": ("letter", 215.9)}
MARGIN = 19.0  # mm at either side
LABELS = 43.0  # mm taken by number, label and name beside a row of windows
SIDE, BETWEEN, GAP = 7.6, 0.7, 2.3  # mm: a window, and what stands between windows and between groups of three

STYLE = """
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0; background: #fff; color: #262626; font: 11pt/1.3 "Libertinus Serif", "Linux Libertine O",
  "Palatino Linotype", Palatino, P052, "Source Serif 4", "Liberation Serif", Georgia, serif;
  font-variant-numeric: lining-nums; }
h1, h2, h3, p { font-weight: normal; margin: 0; }
h1 { font-size: 22pt; line-height: 1.1; }
.code { font-family: "DejaVu Sans Mono", Consolas, Menlo, monospace; font-size: 12pt; border: 0.3mm solid #262626;
  border-radius: 1.2mm; padding: 1.4mm 3mm; white-space: nowrap; }
.soft { color: #595959; font-size: 9.5pt; }
.top, .who { display: flex; justify-content: space-between; align-items: baseline; gap: 4mm; }
.who { margin: 4mm 0 2.5mm; padding-bottom: 2.5mm; border-bottom: 0.3mm solid #262626; }
.name { font-size: 14pt; flex: 1; }
.line { display: inline-block; border-bottom: 0.2mm solid #7a7a7a; flex: 1; min-width: 30mm; height: 1.2em; }
.who .date { flex: 0 0 34mm; }
.notes p { margin: 1mm 0; }
.item { display: grid; grid-template-columns: 11mm 1fr; margin-top: 8mm; break-inside: avoid; }
.number { font-size: 21pt; line-height: 1; }
.item h3 { font-size: 17pt; line-height: 1.1; }
.item h3 i { font-size: 11.5pt; color: #595959; margin-left: 2mm; }
.how { font-size: 10.5pt; margin-top: 1mm; }
.predict { background: #f2f2f2; border-radius: 1.2mm; padding: 2.4mm 3.5mm 3.2mm; margin: 3mm 0 4mm;
  print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.predict h4 { margin: 0 0 1mm; font-size: 9pt; font-weight: normal; font-variant: small-caps; letter-spacing: 0.04em; }
.ask { display: flex; align-items: baseline; gap: 2mm; margin-top: 2mm; }
.ask span { white-space: nowrap; }
.ask .free { white-space: normal; }
.ask b, .row b { flex: 0 0 8mm; font-size: 10.5pt; }
.row { display: flex; align-items: center; margin-top: 2.6mm; }
.row .what { flex: 1; }
.windows { display: flex; }
.window { display: block; border: 0.25mm solid #7a7a7a; border-radius: 0.8mm; }
.mark { display: flex; align-items: end; justify-content: center; margin-bottom: -1.6mm; }
.mark::after { content: ""; border: 0.85mm solid transparent; border-top: 0; border-bottom: 1.4mm solid #262626; }
.lines { display: grid; grid-template-columns: 1fr 1fr; gap: 2mm 8mm; margin-top: 4mm; }
.closing { margin: 11mm 0 0 11mm; break-inside: avoid; }
.closing .line { display: block; margin-top: 6mm; }
table { border-collapse: collapse; width: 100%; font-size: 10pt; font-variant-numeric: lining-nums tabular-nums; }
caption { text-align: left; padding-bottom: 1mm; }
th, td { text-align: left; padding: 0.9mm 1.4mm; border-bottom: 0.15mm solid #b3b3b3; font-weight: normal; }
thead { display: table-header-group; }
thead th { border-bottom: 0.3mm solid #262626; }
tr { break-inside: avoid; }
.n { text-align: right; }
table.strokes { font-size: 9pt; margin-top: 2mm; }
table.strokes th, table.strokes td { padding: 0.5mm 1.2mm; }
td.at { text-align: center; }
td.hand { white-space: nowrap; }
td.code { border: 0; border-bottom: 0.15mm solid #b3b3b3; border-radius: 0; padding: 0.9mm 1.4mm; font-size: 8.5pt; }
.answers { background: #f2f2f2; border-radius: 1.2mm; padding: 2mm 3mm; margin-top: 2mm;
  print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.answers span { white-space: nowrap; margin-right: 4mm; }
.answers strong { font-size: 12pt; }
.key .item { display: block; break-inside: auto; }
.key h2 { font-size: 15pt; margin-top: 6mm; break-after: avoid; }
section + section { break-before: page; }
@media print { main { padding-right: 0.4mm; } }
@media screen {
  body { background: #d9d9d9; padding: 8mm 0; }
  section { background: #fff; padding: 18mm MARGINmm; margin: 0 auto 8mm; max-width: WIDTHmm; }
}
"""


def sheets_html(made: Worksheets) -> str:
    """All sheets of a set as one page."""
    room = SIZES[made.sheet.paper][1] - 2 * MARGIN - LABELS
    head = head_content(made)
    sections = [_sheet(head, sheet_content(made, one), room) for one in made.variants]
    pages = "".join(f"@page {_page(one.code)} {{ @bottom-right {{ content: \"{one.code}\"; }} }}\n"
                    f".{_page(one.code)} {{ page: {_page(one.code)}; }}\n" for one in made.variants)
    return _html(made, f"{made.sheet.title}: worksheets", pages, sections)


def key_html(made: Worksheets) -> str:
    """The key: tables of the class, then the strokes of every sheet on pages of its own."""
    head = head_content(made)
    left_out = "".join(f"<p>Not on any sheet: {escape(str(bad))}</p>" for bad in made.left_out)
    first = (f'<section class="key"><h1>{escape(made.sheet.title)}: the key</h1>\n<p>{escape(summary(made))} '
             f'{escape(head["machine"])}.</p>\n{left_out}'
             + "".join(_class_table(one) for one in class_key_content(made)) + "</section>\n")
    pages = "@page { @bottom-left { content: \"Key, for the teacher\"; } @bottom-right { content: counter(page); } }\n"
    return _html(made, f"{made.sheet.title}: key", pages, [first, *(_key(key_content(one)) for one in made.variants)])


def _html(made: Worksheets, title: str, pages: str, sections: Iterable[str]) -> str:
    size, width = SIZES[made.sheet.paper]
    paper = (f"@page {{ size: {size}; margin: 16mm {MARGIN}mm 18mm; font: 8.5pt serif; color: #595959; }}\n"
             f"@page {{ @bottom-left {{ content: \"Set {made.tag}\"; }} }}\n")
    style = STYLE.replace("WIDTH", str(width)).replace("MARGIN", str(MARGIN)) + paper + pages
    return web_page(title, style, "".join(sections))


def _page(code: str) -> str:
    """A name for a sheet's pages; codes hold letters, digits and hyphens only."""
    return f"sheet-{code}"


def _sheet(head: Content, sheet: Content, room: float) -> str:
    name = f'<span class="name">{escape(sheet["name"])}</span>' if sheet["name"] else '<span class="line"></span>'
    group = f'<span>Group {escape(sheet["group"])}</span>' if sheet["group"] else ""
    notes = "".join(f"<p>{escape(note)}</p>" for note in head["notes"])
    closing = (f'<div class="closing"><p>{escape(head["closing"])}</p>{"<span class=line></span>" * 2}</div>'
               if head["closing"] and not head["closing-if-room"] else "")
    return (f'<section class="{_page(sheet["code"])}">\n'
            f'<div class="top"><h1>{escape(head["title"])}</h1><span class="code">{sheet["code"]}</span></div>\n'
            f'<div class="who"><span class="soft">Name</span>{name}{group}<span class="soft">Date</span>'
            f'<span class="line date"></span></div>\n'
            f'<div class="notes">{notes}<p class="soft">{escape(head["counted"])} {escape(head["machine"])}.</p>'
            f'</div>\n'
            + "".join(_item(one, room) for one in sheet["items"]) + closing + "</section>\n")


def _item(one: Content, room: float) -> str:
    note = f'<p class="how"><b>{escape(one["note"])}</b></p>' if one["note"] else ""
    predict = "".join(_ask(ask) for ask in one["predict"])
    lines = "".join(_ask(ask) for ask in one["lines"])
    return (f'<div class="item"><div class="number">{one["number"]}</div><div>\n'
            f'<h3>{escape(one["title"])} <i>{escape(one["do"])}</i></h3>\n'
            f'<p class="how">{escape(one["how"])}</p>{note}\n'
            + (f'<div class="predict"><h4>Before you turn</h4>{predict}</div>\n' if predict else "")
            + "".join(_windows(row, room) for row in one["windows"])
            + (f'<div class="lines">{lines}</div>\n' if lines else "") + "</div></div>\n")


def _ask(ask: Content) -> str:
    free = "" if ask["label"] else ' class="free"'
    return (f'<div class="ask"><b>{escape(ask["label"])}</b><span{free}>{escape(ask["words"])}</span>'
            f'<span class="line"></span></div>')


def _windows(row: Content, room: float) -> str:
    """A row of windows; wider machines get narrower ones."""
    places = row["places"]
    gaps = (places - 1) // 3
    side = min(SIDE, (room - gaps * GAP - (places - 1 - gaps) * BETWEEN) / places)
    height = max(side, 6.0) * 1.2
    cells = []
    for at in range(places, 0, -1):
        cells.append(f'<span class="window" style="width:{side:.2f}mm;height:{height:.2f}mm"></span>')
        if at > 1:
            kind, width = ("gap", BETWEEN) if (at - 1) % 3 else ("mark", GAP)
            cells.append(f'<span class="{kind}" style="width:{width}mm"></span>')
    return (f'<div class="row"><b>{escape(row["label"])}</b><span class="what">{escape(row["name"])}</span>'
            f'<span class="windows" role="img" aria-label="{places} empty windows">{"".join(cells)}</span></div>\n')


def _class_table(one: Content) -> str:
    heads = "".join(f'<th scope="col" class="n"><b>{escape(head["label"])}</b></th>' for head in one["heads"])
    meant = ", ".join(f'<b>{escape(head["label"])}</b> {escape(head["words"])}' for head in one["heads"])
    rows = "".join(f'<tr><td class="code">{code}</td><td>{escape(name)}</td><td>{escape(title)}</td>'
                   + "".join(f'<td class="n">{escape(cell)}</td>' for cell in cells) + "</tr>\n"
                   for code, name, title, *cells in one["rows"])
    first = "".join(f'<th scope="col">{head}</th>' for head in ("code", "name", "calculation"))
    return (f'<h2>{one["number"]} {escape(one["do"])}</h2>\n<table><caption class="soft">{escape(one["band"])} a '
            f'sheet. {meant}.</caption>\n<thead><tr>{first}{heads}</tr></thead>\n<tbody>\n{rows}</tbody></table>\n')


def _key(sheet: Content) -> str:
    group = f'<p class="soft">Group {escape(sheet["group"])}</p>' if sheet["group"] else ""
    return (f'<section class="key"><div class="top"><h1>{escape(sheet["name"]) or "no name"}</h1>'
            f'<span class="code">{sheet["code"]}</span></div>{group}\n'
            + "".join(_key_item(one) for one in sheet["items"]) + "</section>\n")


def _key_item(one: Content) -> str:
    answers = "".join(f'<span><b>{escape(answer["label"])}</b> {escape(answer["words"])} '
                      f'<strong>{escape(answer["value"])}</strong></span> ' for answer in one["answers"])
    heads = "".join(f'<th scope="col"{_align(place)}>{head}</th>' for place, head in enumerate(KEY_HEADS))
    cells = ("".join(f"<td{_align(place)}>{escape(cell)}</td>" for place, cell in enumerate(row))
             for row in one["strokes"])
    rows = "".join(f"<tr>{row}</tr>\n" for row in cells)
    return (f'<div class="item"><h2>{one["number"]} {escape(one["title"])} '
            f'<i class="soft">{escape(one["do"])}</i></h2>\n'
            f'<p class="answers">{answers}</p>\n<table class="strokes"><thead><tr>{heads}</tr></thead>\n<tbody>\n{rows}'
            f'</tbody></table>\n<p class="how">{escape(one["remark"])}</p></div>\n')


def _align(place: int) -> str:
    kind = {"result": "n", "counter": "n", "at": "at", "the hand": "hand"}.get(KEY_HEADS[place])
    return f' class="{kind}"' if kind else ""
