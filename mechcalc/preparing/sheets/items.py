"""One calculation of a sheet, with what is asked about it.

Only this file decides what an item may ask for.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from mechcalc.errors import InputError
from mechcalc.numbers import shown, whole
from mechcalc.preparing.sheets.orders import ORDERS, Order
from mechcalc.preparing.sheets.questions import REGISTERS, question
from mechcalc.preparing.tasks import Task, task
from mechcalc.preparing.wishes import Wish
from mechcalc.spec import MOST_PLACES, MachineSpec

MOST_QUESTIONS, LONGEST = 8, 400
WISH_KEYS = ("digits", "conditions")


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One calculation of a sheet, with what is asked about it.

    Parameters
    ----------
    method : str
        A name of `mechcalc.preparing.tasks.TASKS`.
    wish : mapping, optional
        ``digits`` and ``conditions``, as `mechcalc.preparing.Wish` takes them. With neither this nor `numbers`: any
        numbers of the usual sizes.
    numbers : sequence, optional
        Given numbers: one set for all sheets, or several sets, dealt out in turn.
    places : int
        Decimals of a quotient or a root.
    ask, predict, show : sequence of str, optional
        Questions after working, before working, and registers drawn; those of `ORDERS` unless given.
    note : str
        A line printed with the item.

    Raises
    ------
    InputError
        Something of this is wrong.

    Examples
    --------
    >>> Item(method="multiply", numbers=(347, 26)).ask
    ('result', 'counter', 'turns', 'shifts')
    >>> Item(method="add", numbers=(12, 34), predict=("Which wheel moves last?",)).predict
    ('Which wheel moves last?',)
    """

    method: str
    wish: Mapping[str, Any] | None = None
    numbers: Any = ()
    places: int = 0
    ask: tuple[str, ...] = None  # type: ignore[assignment]  # made into texts below
    predict: tuple[str, ...] = None  # type: ignore[assignment]
    show: tuple[str, ...] = None  # type: ignore[assignment]
    note: str = ""

    def __post_init__(self) -> None:
        own = task(self.method)
        put: dict[str, Any] = {"method": own.name, "numbers": _number_sets(own, self.numbers),
               "places": whole(self.places, "a number of decimals", 0, MOST_PLACES), "note": line(self.note, "a note")}
        if put["places"] and not own.decimals:
            raise InputError(f"{own.name} has no decimals: leave places out")
        if self.wish is not None and put["numbers"]:
            raise InputError("an item has numbers of its own or a wish, not both")
        if self.wish is not None:
            _check_wish_keys(self.wish)
        usual = ORDERS[own.name]
        put["ask"] = _names(self.ask, usual.ask, "ask", free=False)
        put["predict"] = _names(self.predict, usual.predict, "predict", free=True)
        put["show"] = _shown(self.show, usual.show, put["ask"])
        for key, value in put.items():
            object.__setattr__(self, key, value)

    @property
    def task(self) -> Task:
        """The kind of calculation."""
        return task(self.method)

    @property
    def order(self) -> Order:
        """Its words."""
        return ORDERS[self.method]


def _check_wish_keys(wish: Any) -> None:
    if not isinstance(wish, Mapping):
        raise InputError(f"a wish is made of keys and values, not of {shown(wish)}")
    wrong = next(iter(strange_keys(wish, WISH_KEYS)), None)
    if wrong:
        raise InputError(f"in the wish, {wrong}")


def _number_sets(own: Task, given: Any) -> tuple[tuple[int, ...], ...]:
    """Given numbers as sets, each checked for how many there are; empty where none are given."""
    if isinstance(given, (str, bytes, Mapping)) or not isinstance(given, Iterable):
        raise InputError(f"numbers stand in brackets, as in [347, 26], not {shown(given)}")
    sets = tuple(given)
    if not sets:
        return ()
    if not all(isinstance(one, (list, tuple)) for one in sets):
        sets = (sets,)
    for one in sets:
        own.check_count(len(one))
    return tuple(tuple(whole(number, own.names(len(one))[slot], 0) for slot, number in enumerate(one)) for one in sets)


def texts(given: Any, what: str) -> tuple[str, ...]:
    """Texts in brackets, each drawn together into one line."""
    if isinstance(given, str) or not isinstance(given, Iterable):
        raise InputError(f"{what} stand in brackets, as in [\"turns\", \"shifts\"], not {shown(given)}")
    return tuple(line(text, f"one of {what}") for text in given)


def line(text: Any, what: str) -> str:
    """A text drawn together into one line."""
    if not isinstance(text, str):
        raise InputError(f"{what} is a text, not {shown(text)}")
    if len(text) > LONGEST:
        raise InputError(f"{what} has {len(text)} characters: {LONGEST} at most")
    return " ".join(text.split())


def _names(given: Any, usual: tuple[str, ...], what: str, free: bool) -> tuple[str, ...]:
    """Questions by their names; with `free`, whatever holds a space is a question of its own."""
    names = usual if given is None else texts(given, f"the questions under {what}")
    for name in names:
        if not (free and " " in name):
            question(name)
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice:
        raise InputError(f"{shown(twice)} stands twice under {what}")
    if len(names) > MOST_QUESTIONS:
        raise InputError(f"{len(names)} questions under {what}: {MOST_QUESTIONS} at most")
    return names


def _shown(given: Any, usual: tuple[str, ...], ask: tuple[str, ...]) -> tuple[str, ...]:
    """Registers to draw, in the machine's order; one that is asked for is always among them."""
    wanted = usual if given is None else texts(given, "the registers under show")
    for name in wanted:
        if name not in REGISTERS:
            raise InputError(f"{shown(name)} is no register: there are {', '.join(REGISTERS)}")
    return tuple(name for name in REGISTERS if name in wanted or name in ask)


def wish_of(item: Item, machine: MachineSpec) -> Wish:
    """What is wished of an item's numbers.

    Raises
    ------
    InputError
        A size or a condition that is none.
    """
    wish: dict[str, Any] = dict(item.wish or {})
    return Wish(item.method, machine=machine, places=item.places, digits=wish.get("digits", ()),
                conditions=wish.get("conditions", ()))


def strange_keys(data: Mapping[str, Any], keys: tuple[str, ...]) -> Iterator[str]:
    """What is wrong with keys that are none of `keys`."""
    for key in data:
        if key not in keys:
            near = get_close_matches(str(key), keys, n=1)
            yield f"{shown(key)} is no key" + (f"; did you mean {near[0]!r}?" if near else
                                               f"; the keys are {', '.join(keys)}")
