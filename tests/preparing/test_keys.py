"""The keys, checked from the paper.

Numbers are read from the learners' printed pages, answers from the printed key, and every answer is worked out again
with Python's integers and `decimal`: nothing here looks into the objects that the pages were made of, and no method of
the kit is called. What depends on the operator's hand (turns, shifts, bells) is worked out again by replaying the
key's printed strokes on whole numbers.
"""

from __future__ import annotations

import re
from decimal import Decimal
from math import isqrt, prod

import pytest

from mechcalc.preparing.class_list import read_class
from mechcalc.preparing.sheets import Item, Sheet, key_html, key_pdf, load_sheet, make_worksheets, sheets_pdf
from tests.preparing.pages import NARROW, html_key, number, numbers, pdf_pages
from tests.preparing.test_sheets import NUMBERS, ROOT

REACH, WHEELS = 11, 13  # of "bench", from the head of its file
EVERYTHING = ("setting", "result", "counter", "answer", "turns", "shifts", "settings", "bells", "figures", "position")


class Replay:
    """The printed strokes on whole numbers: what a machine shows, without a machine."""

    def __init__(self, strokes: list[list[str]]) -> None:
        self.setting = self.result = self.counter = self.position = 0
        self.turns = self.shifts = self.settings = self.bells = 0
        self.direction = 0
        for row in strokes:
            self.hand(row[1].replace(NARROW, ""))
            assert (self.result, self.counter, self.position) == tuple(int(number(cell)) for cell in row[3:6]), row

    def hand(self, words: str) -> None:
        if found := re.fullmatch(r"(?:(\d+) )?turns?( back)?", words):
            for _ in range(int(found[1] or 1)):
                self.turn(-1 if found[2] else 1)
        elif found := re.fullmatch(r"set (\d+)", words):
            self.setting, self.settings = int(found[1]), self.settings + 1
        elif found := re.fullmatch(r"set lever (\d+) to (\d)", words):
            place = 10**(int(found[1]) - 1)
            self.setting += (int(found[2]) - self.setting // place % 10) * place
        elif found := re.fullmatch(r"shift ([+−])(\d+)", words):
            self.position += int(found[2]) * (1 if found[1] == "+" else -1)
            self.shifts += int(found[2])
        elif words == "clear counter":
            self.counter = self.direction = 0
        elif words == "clear result":
            self.result = 0
        elif words == "clear setting":
            self.setting = 0
        elif words == "back transfer":
            self.setting, self.result = self.setting + self.result // 10**self.position, 0
        else:
            raise AssertionError(f"no stroke: {words}")

    def turn(self, direction: int) -> None:
        reach = 10**min(WHEELS, REACH + self.position)
        low = self.result % reach + direction * self.setting * 10**self.position
        self.bells += not 0 <= low < reach
        self.result += low % reach - self.result % reach
        self.direction = self.direction or direction
        self.counter += direction * self.direction * 10**self.position
        self.turns += 1


def fewest_turns(n: int) -> int:
    """The fewest turns for a multiplier, by trying out; an oracle of a few lines."""
    if n < 10:
        return min(n, 11 - n)
    low = n % 10
    return min(low + fewest_turns(n // 10), 10 - low + fewest_turns(n // 10 + 1))


def cube_root(n: int) -> int:
    root = round(n ** (1 / 3))
    return next(r for r in range(root - 1, root + 2) if r**3 <= n < (r + 1)**3)


def exact(method: str, of: list[int], places: int) -> dict[str, Decimal]:
    """Answer and remainder, by plain arithmetic."""
    scale = Decimal(10)**-places
    if method == "add":
        return {"answer": Decimal(sum(of))}
    if method.startswith("subtract"):
        return {"answer": Decimal(of[0] - sum(of[1:]))}
    if method.startswith(("multiply", "chain")):
        return {"answer": Decimal(prod(of))}
    if method == "divide by reciprocal":
        return {}
    if method.startswith("divide"):
        quotient, left = divmod(of[0] * 10**places, of[1])
        return {"answer": quotient * scale, "remainder": left * scale}
    if method.startswith("square root"):
        root = isqrt(of[0] * 100**places)
        return {"answer": root * scale, "remainder": (of[0] * 100**places - root**2) * scale**2}
    root = cube_root(of[0] * 1000**places)
    return {"answer": root * scale, "remainder": (of[0] * 1000**places - root**3) * scale**3}


def replayed(strokes: list[list[str]]) -> dict[str, Decimal]:
    """What the strokes lead to."""
    seen = Replay(strokes)
    return {name: Decimal(getattr(seen, name)) for name in (
        "setting", "result", "counter", "turns", "shifts", "settings", "bells", "position")}


ALL_METHODS = [(method, places) for method in NUMBERS for places in ((0, 2) if method.startswith(
    ("divide", "square", "cube")) and method != "divide by reciprocal" else (0,))]


@pytest.fixture(scope="module")
def everything():
    """A sheet with every calculation, and everything asked of it."""
    items = []
    for method, places in ALL_METHODS:
        left = method.startswith(("divide", "square", "cube")) and method != "divide by reciprocal"
        for part in (EVERYTHING[:6], EVERYTHING[6:] + (("remainder",) if left else ())):
            items.append(Item(method=method, numbers=NUMBERS[method], places=places, ask=part, predict=()))
    sheets = [Sheet(title="All", machine="bench", items=items[begin:begin + 20]) for begin in range(0, len(items), 20)]
    return [make_worksheets(one, ["Ada"]) for one in sheets]


def test_every_answer_of_every_calculation(everything):
    """All fifteen ways of calculating, all questions, from the printed key alone."""
    checked = 0
    for made in everything:
        (printed,) = html_key(key_html(made)).values()
        for item, wanted in zip(printed, made.sheet.items, strict=True):
            worked = replayed(item.strokes) | exact(wanted.method, numbers(item.title)[1:], wanted.places)
            if "answer" in worked:
                worked["figures"] = Decimal(len(str(abs(int(worked["answer"])))))
            for name, (label, value) in zip(wanted.ask, item.answers.items(), strict=True):
                if name not in worked:
                    assert wanted.method == "divide by reciprocal"
                    continue
                assert value == worked[name], (item.title, label, name)
                checked += 1
    assert checked > 200


def test_a_quotient_by_way_of_the_reciprocal(everything):
    """355 / 113 by a reciprocal of three and three decimals: too small by less than 355 / 10^r."""
    made = next(made for made in everything if any(item.method == "divide by reciprocal" for item in made.sheet.items))
    (printed,) = html_key(key_html(made)).values()
    place = next(place for place, item in enumerate(made.sheet.items) if item.method == "divide by reciprocal")
    answer = printed[place].answers[f"{place + 1}d"]
    decimals = -int(answer.as_tuple().exponent)
    assert 0 <= Decimal(355) / 113 - answer < Decimal(355) / 10**decimals


@pytest.fixture(scope="module")
def made():
    return make_worksheets(load_sheet(ROOT / "data" / "class" / "multiplying.toml"),
                           read_class(ROOT / "data" / "class" / "class_list.csv"), seed=2026)


@pytest.fixture(scope="module")
def sheets(made):
    """Of each printed sheet: code to the numbers of its calculations."""
    found: dict[str, list[list[int]]] = {}
    for page in pdf_pages(sheets_pdf(made).data):
        code = re.search(r"[0-9A-Z]{3}-\d\d-[0-9A-Z]", page)[0]
        found.setdefault(code, []).extend(numbers(a) for a in re.findall(r"(?m)^\d ([\d\u202f]+ × [\d\u202f]+) ", page))
    return found


@pytest.fixture(scope="module")
def key(made):
    """Of each page of the key: code to answers by label."""
    found: dict[str, dict[str, Decimal]] = {}
    for page in pdf_pages(key_pdf(made).data):
        codes = re.findall(r"[0-9A-Z]{3}-\d\d-[0-9A-Z]", page)
        if len(codes) == 1:
            found[codes[0]] = {label: number(value) for label, value in re.findall(
                r"(\d[a-z])\s(?:[a-z]+(?:, foreseen)?) ([−\d\u202f.]+)", page)}
    return found


class TestAClassOfThirty:
    """The sheet and the class that come with the kit, from the learners' PDF and the teacher's PDF."""

    def test_every_answer(self, sheets, key):
        """Twice thirty products, each with six or five answers."""
        assert len(sheets) == len(key) == 30
        checked = 0
        for code, ((a, b), (c, d)) in sheets.items():
            turns, shifts = sum(map(int, str(b))), len(str(b)) - 1
            wanted = {"1a": turns, "1b": len(str(a * b)), "1c": a * b, "1d": b, "1e": turns, "1f": shifts,
                      "2a": fewest_turns(d), "2b": c * d, "2c": d, "2d": fewest_turns(d)}
            got = key[code]
            assert {label: got[label] for label in wanted} == wanted
            assert set(got) == {*wanted, "2e"}
            checked += len(wanted)
        assert checked == 300

    def test_the_strokes_lead_to_the_answers(self, made, key):
        """Replayed from the key's HTML: it says the same as the PDF."""
        for code, items in html_key(key_html(made)).items():
            for place, item in enumerate(items, start=1):
                worked = replayed(item.strokes)
                names = {1: "turns figures result counter turns shifts", 2: "turns result counter turns shifts"}[place]
                for letter, name in zip("abcdef", names.split(), strict=False):
                    assert item.answers[f"{place}{letter}"] == key[code][f"{place}{letter}"]
                    if name != "figures":
                        assert item.answers[f"{place}{letter}"] == worked[name]

    def test_everybody_has_other_numbers(self, sheets):
        assert len({tuple(map(tuple, pairs)) for pairs in sheets.values()}) == 30
