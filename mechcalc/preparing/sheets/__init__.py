"""Worksheets: from a sheet and a class list to pages that can be printed, and to the key.

>>> from mechcalc.preparing.sheets import Item, Sheet, make_worksheets
>>> sheet = Sheet(title="Shifting", machine="bench", items=[Item(method="multiply", wish={"digits": "3x2"})])
>>> made = make_worksheets(sheet, ["Ada", "Łukasz"], seed=2026)
>>> len(made), made.variants[0].problems[0].numbers != made.variants[1].problems[0].numbers
(2, True)

`write_set` writes a set into a folder, `read_set` reads it back; `load_sheet` reads a sheet from a TOML file.
"""

from mechcalc.preparing.sheets.folder import Written, read_set, write_set
from mechcalc.preparing.sheets.items import Item
from mechcalc.preparing.sheets.print_file import Fonts, Printed, key_pdf, pages, sheets_pdf
from mechcalc.preparing.sheets.spec import Sheet, load_sheet
from mechcalc.preparing.sheets.web_page import key_html, sheets_html
from mechcalc.preparing.sheets.worksheets import Problem, Variant, Worksheets, make_worksheets

__all__ = ["Fonts", "Item", "Printed", "Problem", "Sheet", "Variant", "Worksheets", "Written", "key_html", "key_pdf",
           "load_sheet", "make_worksheets", "pages", "read_set", "sheets_html", "sheets_pdf", "write_set"]
