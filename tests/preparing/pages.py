"""Reading produced pages back, without the objects that they were made of.

`pdf_pages` reads text out of PDF bytes; `html_key` reads tables and answers out of the key's HTML. Both are used as a
teacher would use the paper: by what stands on it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from decimal import Decimal
from html.parser import HTMLParser

import pypdfium2

NARROW = "\u202f"


def pdf_pages(data: bytes) -> list[str]:
    """The text of each page."""
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(data)]


def number(text: str) -> Decimal:
    """A printed number."""
    return Decimal(text.replace(NARROW, "").replace("−", "-"))


def numbers(title: str) -> list[int]:
    """The whole numbers in a printed calculation."""
    return [int(found) for found in re.findall(r"\d+", title.replace(NARROW, ""))]


@dataclass
class KeyItem:
    """An item of the key: its heading, the answers under it, the rows of its strokes."""

    title: str = ""
    answers: dict[str, Decimal] = field(default_factory=dict)
    asked: dict[str, str] = field(default_factory=dict)
    strokes: list[list[str]] = field(default_factory=list)


class _Key(HTMLParser):
    """A walk through the key's HTML."""

    def __init__(self) -> None:
        super().__init__()
        self.sheets: dict[str, list[KeyItem]] = {}
        self.path: list[str] = []
        self.text = ""
        self.code = self.label = ""

    def handle_starttag(self, tag, attrs):
        if tag in ("meta", "img", "br"):
            return
        self.path.append(f"{tag}.{dict(attrs).get('class') or ''}")
        if tag in ("h2", "td", "strong", "b", "span", "i"):
            if tag == "i" and self.code:
                self.sheets[self.code][-1].title = self.text.strip()
            self.text = ""
        if tag == "h2" and self.code:
            self.sheets[self.code].append(KeyItem())
        if tag == "tr" and "table.strokes" in self.path:
            self.sheets[self.code][-1].strokes.append([])

    def handle_data(self, data):
        self.text += data

    def handle_endtag(self, tag):
        here = self.path.pop()
        if here == "span.code":
            self.code = self.text
            self.sheets[self.code] = []
        elif "p.answers" in self.path and tag == "b":
            self.label, self.text = self.text, ""
        elif "p.answers" in self.path and tag == "strong":
            self.sheets[self.code][-1].answers[self.label] = number(self.text)
        elif tag == "td" and "table.strokes" in self.path:
            self.sheets[self.code][-1].strokes[-1].append(self.text)


def html_key(text: str) -> dict[str, list[KeyItem]]:
    """The key's items by code."""
    reader = _Key()
    reader.feed(text)
    for items in reader.sheets.values():
        for item in items:
            item.strokes = [row for row in item.strokes if row]
    return reader.sheets


def questions(page: str) -> dict[str, str]:
    """The words after each label on a learner's page."""
    found = re.findall(r"(?m)(\d+[a-z]) (.+?)(?= \d+[a-z] |\r?$)", page)
    return {label: words.strip() for label, words in found}
