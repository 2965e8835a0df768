"""Predictions beside what happened, and machines as a lesson finds them."""

from __future__ import annotations

import pytest

from mechcalc.classroom import foretold, ready, told
from mechcalc.classroom.predictions import NO_PREDICTION, compared
from mechcalc.errors import InputError, SpecError


@pytest.mark.parametrize("happened", [1000, (0, 0, 1), "the units", True, False])
def test_none_prints_one_fixed_line(happened, capsys):
    foretold(None, happened)
    assert capsys.readouterr().out == NO_PREDICTION + "\n"


@pytest.mark.parametrize(("prediction", "happened", "said"), [
    (1000, 1000, "You foretold 1000, and 1000 it is."),
    ("1 000", 1000, "You foretold 1000, and 1000 it is."),
    (0, 1000, "You foretold 0; it came to 1000. Good: now find out why."),
    ([0, 0, 1], (0, 0, 1), "You foretold 0, 0, 1, and 0, 0, 1 it is."),
    ("Yes", True, "You foretold yes, and yes it is."),
    (False, True, "You foretold no; it came to yes. Good: now find out why."),
    ("The Units", "the units", "You foretold the units, and the units it is."),
    ("tens", "the units", "You foretold tens; it came to the units. Good: now find out why."),
])
def test_a_prediction_stands_beside_what_happened(prediction, happened, said):
    assert compared(prediction, happened) == said


@pytest.mark.parametrize(("prediction", "happened"), [
    (3.5, 1000), (True, 1000), ("many", 1000), (7, (0, 0, 1)), (1, True), (4, "the units"), (object(), 3)])
def test_another_kind_is_told_what_is_wanted(prediction, happened):
    assert compared(prediction, happened).startswith("This prediction cannot be compared. Write") or \
        "Write" in compared(prediction, happened)


class TestReady:
    """A machine that somebody has used before."""

    def test_it_shows_what_it_is_asked_to_and_its_strokes_begin_there(self):
        m = ready("slate", setting=12, result=999, carriage=1)
        assert (m.setting, m.result, m.carriage, m.counter, m.strokes) == (12, 999, 1, 0, ())

    @pytest.mark.parametrize("wrong", [{"setting": 12345}, {"result": 10**6}, {"carriage": 3}, {"result": -1},
                                       {"setting": "7"}, {"result": 2.0}, {"carriage": True}])
    def test_what_it_cannot_show_is_refused(self, wrong):
        with pytest.raises(InputError):
            ready("slate", **wrong)

    def test_an_unknown_machine_is_refused(self):
        with pytest.raises(SpecError, match="did you mean 'slate'"):
            ready("slat")


def test_a_stroke_in_which_nothing_moves_is_told_so():
    assert told(ready("slate").set(0)) == "Nothing moved."
