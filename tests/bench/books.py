"""Fault dictionaries of the catalogue's machines, worked once a session."""

from __future__ import annotations

from functools import cache

from mechcalc import load_spec
from mechcalc.bench.dictionary import FaultDictionary, fault_dictionary

CATALOGUE = ("slate", "bench", "ledger", "plain", "short", "counting_room")


@cache
def book_of(name: str) -> FaultDictionary:
    """Every single fault against every test."""
    return fault_dictionary(load_spec(name))
