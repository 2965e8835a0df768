"""The code on a sheet: short, read generously, and no single slip goes unnoticed."""

from __future__ import annotations

from itertools import combinations

import pytest

from mechcalc import InputError
from mechcalc.preparing.sheets.codes import ALPHABET, code_of, read_code, tag_of

CODES = [code_of(tag, number) for tag, number in (("K7M", 7), ("000", 1), ("ZZZ", 99), ("A0B", 120), ("90Z", 30))]


def plain(code: str) -> str:
    return code.replace("-", "")


@pytest.mark.parametrize("code", CODES)
def test_every_wrong_character_is_found(code):
    """Each character put in place of each other one: none gives a code that is accepted."""
    for place in range(len(plain(code))):
        for mark in ALPHABET:
            wrong = plain(code)[:place] + mark + plain(code)[place + 1:]
            if wrong != plain(code):
                with pytest.raises(InputError):
                    read_code(wrong)


@pytest.mark.parametrize("code", CODES)
def test_every_swap_is_found(code):
    """Two characters that change places, neighbours or not."""
    for i, j in combinations(range(len(plain(code))), 2):
        marks = list(plain(code))
        marks[i], marks[j] = marks[j], marks[i]
        if "".join(marks) != plain(code):
            with pytest.raises(InputError):
                read_code("".join(marks))


@pytest.mark.parametrize("typed", ["k7m-07-5", " K7M 07 5 ", "K7M075", "K7M–O7–S", "k7m_07.5", "K7M−07−5"])
def test_read_generously(typed):
    """Small letters, spaces, other hyphens, and letters that look like a digit."""
    assert read_code(typed) == "K7M-07-5"


@pytest.mark.parametrize("typed", ["", "7", "K7M-7-5", "K7M-07", "K7M-07-5-5", "K?M-07-5", "K7M-XY-5"])
def test_what_is_no_code(typed):
    with pytest.raises(InputError, match="is no code of a sheet: codes look like K7M-07-5"):
        read_code(typed)


def test_the_alphabet_has_nothing_to_mistake():
    """31 characters, a prime; none of those that look like another."""
    assert len(set(ALPHABET)) == len(ALPHABET) == 31
    assert not set(ALPHABET) & set("ILOSU")


def test_codes_of_a_set_differ_and_tags_tell_sets_apart():
    codes = {code_of("K7M", number) for number in range(1, 1000)}
    assert len(codes) == 999
    assert all(read_code(code) == code for code in codes)
    assert len({tag_of("a", str(seed)) for seed in range(200)}) > 195
    with pytest.raises(InputError, match="a sheet's number cannot be 1000"):
        code_of("K7M", 1000)
