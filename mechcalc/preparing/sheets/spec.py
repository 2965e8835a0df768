"""What a worksheet is to hold, before anybody's numbers are chosen.

Only this file decides what a sheet can ask for. A sheet is written in Python (`Sheet`, `Item`), or in a TOML file:

    title = "Multiplying by shifting"      # required
    machine = "bench"                      # of the catalogue, or a path from this file's folder; required
    paper = "a4"                           # "a4" (unless given) or "letter"
    notes = ["Show your teacher …"]        # printed under the title, one line each
    closing = "…"                          # a last question with room to write, not marked; "" for none
                                           # unless given, the usual one where a printed page has room for it

    [[items]]                              # one or more
    method = "multiply"                    # a row of mechcalc.preparing.tasks.TASKS
    wish = {digits = "3x2", conditions = ["ripple >= 4"]}   # each sheet gets numbers of its own that meet it
    numbers = [347, 26]                    # or: these, on every sheet;
    numbers = [[347, 26], [358, 27]]       # or: these in turn, sheet by sheet
    places = 0                             # decimals of a quotient or a root
    ask = ["result", "counter", "turns"]   # questions after working: names of
    mechcalc.preparing.sheets.questions.QUESTIONS predict = ["turns", "Which wheel moves last?"]   # the same before
    working; a sentence is asked, and not marked show = ["setting", "result"]           # registers that are drawn as
    rows of windows; those asked for always are note = "…"                             # printed with the item

What `ask`, `predict` and `show` are unless given stands in `mechcalc.preparing.sheets.orders`. All that is wrong is
told at once.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc.catalogue import load_spec, machine_names
from mechcalc.errors import InputError, MechcalcError
from mechcalc.numbers import shown
from mechcalc.preparing.sheets.items import Item, line, strange_keys, texts, wish_of
from mechcalc.preparing.toml_file import toml_data
from mechcalc.spec import MachineSpec

PAPERS = ("a4", "letter")
MOST_ITEMS = 20
ITEM_KEYS = ("method", "wish", "numbers", "places", "ask", "predict", "show", "note")
SHEET_KEYS = ("title", "machine", "paper", "notes", "closing", "items")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A worksheet to be made for a class.

    Parameters
    ----------
    title : str
        Its heading.
    machine : MachineSpec or str
        What it is worked on; a name of the catalogue, or the path of a TOML file.
    items : sequence of Item
        The calculations, in order.
    notes : sequence of str
        Lines under the title.
    paper : str
        ``"a4"`` or ``"letter"``.
    closing : str, optional
        A last question with room to write; empty for none. Unless given, the usual one where a page has room for it.

    Raises
    ------
    InputError, SpecError
        Something of this is wrong.

    Examples
    --------
    >>> sheet = Sheet(title="Shifting", machine="bench", items=[Item(method="multiply", numbers=(347, 26))])
    >>> sheet.machine.name, len(sheet.items)
    ('Bench', 1)
    """

    title: str
    machine: MachineSpec
    items: tuple[Item, ...]
    notes: tuple[str, ...] = field(default=())
    paper: str = "a4"
    closing: str | None = None

    def __post_init__(self) -> None:
        title = line(self.title, "a title")
        if not title:
            raise InputError("a sheet needs a title")
        machine = self.machine if isinstance(self.machine, MachineSpec) else load_spec(self.machine)
        items = tuple(self.items)
        if not all(isinstance(item, Item) for item in items):
            raise InputError("the items of a sheet are Item(…)s")
        if not 1 <= len(items) <= MOST_ITEMS:
            raise InputError(f"a sheet has 1 to {MOST_ITEMS} items, not {len(items)}")
        if self.paper not in PAPERS:
            raise InputError(f"the paper is {' or '.join(map(repr, PAPERS))}, not {shown(self.paper)}")
        for key, value in (("title", title), ("machine", machine), ("items", items),
                           ("notes", texts(self.notes, "notes")),
                           ("closing", None if self.closing is None else line(self.closing, "closing"))):
            object.__setattr__(self, key, value)
        for number, item in enumerate(items, start=1):
            _check_wish(item, number, machine)

    def to_dict(self) -> dict[str, Any]:
        """Plain data that `from_dict` turns into the same sheet."""
        items = [{key: getattr(item, key) for key in ITEM_KEYS if key not in ("wish", "numbers")}
                 | ({"wish": dict(item.wish)} if item.wish is not None else {})
                 | ({"numbers": [list(one) for one in item.numbers]} if item.numbers else {}) for item in self.items]
        return {"title": self.title, "machine": self.machine.to_dict(), "paper": self.paper,
                "notes": list(self.notes), "items": items} | ({} if self.closing is None else {"closing": self.closing})

    @classmethod
    def from_dict(cls, data: Mapping[str, Any], where: str = "", folder: Path | None = None) -> Sheet:
        """A sheet from plain data, as a TOML file gives it.

        Parameters
        ----------
        data : mapping
            See the head of this file.
        where : str
            For messages.
        folder : Path, optional
            Where a machine's path begins.

        Raises
        ------
        InputError
            With all that is wrong.

        >>> Sheet.from_dict({"title": "x", "machine": "bench", "items": [{"metod": "add"}]})
        Traceback (most recent call last):
            ...
        mechcalc.errors.InputError: a sheet with 2 faults:
          - item 1: 'metod' is no key; did you mean 'method'?
          - item 1: 'method' is missing
        """
        faults = [*strange_keys(data, SHEET_KEYS), *(f"{key!r} is missing" for key in ("title", "machine", "items")
                                                 if key not in data)]
        rows = data.get("items", [])
        if not isinstance(rows, (list, tuple)):
            faults.append("the items are written as [[items]]")
            rows = []
        items = [_item(row, number, faults) for number, row in enumerate(rows, start=1)]
        machine = _machine(data.get("machine"), folder, faults) if "machine" in data else None
        if not faults:
            try:
                return cls(title=data["title"], machine=machine,  # type: ignore[arg-type]
                           items=tuple(item for item in items if item), notes=data.get("notes", ()),
                           paper=data.get("paper", "a4"), closing=data.get("closing"))
            except MechcalcError as error:
                faults.append(str(error))
        head = f"{where}: " if where else ""
        raise InputError(f"{head}{faults[0]}" if len(faults) == 1 else
                         f"{head}a sheet with {len(faults)} faults:" + "".join(f"\n  - {fault}" for fault in faults))


def _check_wish(item: Item, number: int, machine: MachineSpec) -> None:
    """Refuse a wish that makes no sense, before anything is looked for."""
    if item.numbers:
        return
    try:
        wish_of(item, machine)
    except MechcalcError as error:
        raise InputError(f"item {number}: {error}") from None


def _item(row: Any, number: int, faults: list[str]) -> Item | None:
    """An item, or None with what is wrong added to the faults."""
    if not isinstance(row, Mapping):
        faults.append(f"item {number}: an item is made of keys and values, not of {shown(row)}")
        return None
    wrong = [*strange_keys(row, ITEM_KEYS), *(["'method' is missing"] if "method" not in row else [])]
    if not wrong:
        try:
            return Item(**row)
        except MechcalcError as error:
            wrong.append(str(error))
    faults += [f"item {number}: {fault}" for fault in wrong]
    return None


def _machine(given: Any, folder: Path | None, faults: list[str]) -> MachineSpec | None:
    """The machine: a name, a path from the sheet's folder, or a table of its own."""
    try:
        if isinstance(given, Mapping):
            return MachineSpec.from_dict(dict(given))
        if isinstance(given, str) and given.endswith(".toml") and given not in machine_names() and folder:
            return load_spec(folder / given)
        return load_spec(given)
    except MechcalcError as error:
        faults.append(f"machine: {error}")
        return None


def load_sheet(path: str | PathLike[str]) -> Sheet:
    """The sheet in a TOML file.

    Raises
    ------
    InputError
        The file cannot be read, is no TOML, or asks for what there is not; with all that is wrong.
    """
    path = Path(path)
    return Sheet.from_dict(toml_data(path), str(path), path.parent)
