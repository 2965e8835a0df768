"""Published data as lessons read them."""

from __future__ import annotations

import pytest
from methods.outside import columns

from mechcalc import InputError
from mechcalc.classroom.datasets import certified, published, published_names


def test_every_file_of_the_folder_is_a_data_set_with_columns_of_one_length():
    assert "norris" in published_names()
    for name in published_names():
        lengths = {len(column) for column in published(name).values()}
        assert len(lengths) == 1
        assert lengths != {0}


def test_lessons_and_tests_read_the_same():
    assert {heading: list(column) for heading, column in published("norris").items()} == columns("norris")
    assert "slope 1.00211681802045" in certified("norris")


@pytest.mark.parametrize("name", ["Norris", "", None, "../norris", 3])
def test_others_are_refused(name):
    with pytest.raises(InputError, match="is no data set of the kit"):
        published(name)
