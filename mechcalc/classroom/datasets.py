"""Published data that lessons work with.

Only this file reads ``data/outside``. The head of each file there names its source and its certified values.
"""

from __future__ import annotations

import csv

from mechcalc.catalogue import shipped
from mechcalc.errors import InputError
from mechcalc.numbers import shown


def published_names() -> tuple[str, ...]:
    """The data sets that come with the kit, in alphabetical order.

    >>> "norris" in published_names()
    True
    """
    return tuple(sorted(path.stem for path in (shipped("data") / "outside").glob("*.csv")))


def published(name: str) -> dict[str, tuple[str, ...]]:
    """The columns of a published data set, by their headings; numbers as the texts that they were published as.

    Raises
    ------
    InputError
        No such data set.

    Examples
    --------
    >>> norris = published("norris")
    >>> len(norris["x"]), norris["x"][:3], norris["y"][:3]
    (36, ('0.2', '337.4', '118.2'), ('0.1', '338.8', '118.1'))
    >>> published("noris")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: 'noris' is no data set of the kit; there is norris
    """
    if not isinstance(name, str) or name not in published_names():
        raise InputError(f"{shown(name)} is no data set of the kit; there is {', '.join(published_names())}")
    rows = list(csv.DictReader(line for line in _lines(name) if not line.startswith("#")))
    return {heading: tuple(row[heading] for row in rows) for heading in rows[0]}


def certified(name: str) -> str:
    """The line of a data set's head that names its certified values.

    >>> certified("norris")
    'Certified (NIST): slope 1.00211681802045, intercept -0.262323073774029 (line y = intercept + slope x).'
    """
    published(name)
    return next(line.lstrip("# ") for line in _lines(name) if line.startswith("# Certified"))


def _lines(name: str) -> list[str]:
    return (shipped("data") / "outside" / f"{name}.csv").read_text(encoding="utf-8").splitlines()
