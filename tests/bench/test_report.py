"""What a session has come to, and the report of it.

The headings of a condition record follow EN 16095:2012 from memory only; nothing here checks them against its text.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from itertools import count

import pypdfium2
import pytest

from bench.test_sheet import Boxes, flat
from mechcalc import InputError, MachineSpec, load_spec
from mechcalc.bench import (
    CarryPinGone,
    CounterDirectionStuck,
    CounterFingerGone,
    Machine,
    NumberPinGone,
    RatchetWorn,
    every_fault,
)
from mechcalc.bench.candidates import Test
from mechcalc.bench.findings import conclusion, departures, left_out, share, unrevealed, untested
from mechcalc.bench.papers.blocks import CAUTIONS
from mechcalc.bench.readings import Reading
from mechcalc.bench.report import BEYOND, report_html, report_paper, report_pdf, times_of, write_report
from mechcalc.bench.trace_file import begin_trace, take_up_trace
from mechcalc.bench.tracing import Done, Tracing, readings_of

SMALL = MachineSpec(setting_places=2, result_places=3, counter_places=2, carry_reach=3, name="Trial")
THREE = Test.of("three turns", "turn 3; read")
NINES = Test.of("nines and one", "set 99; turn; read; set 1; turn; read")


def clock():
    """Five past ten, ten past ten, and so on."""
    minutes = count(0, 5)
    return lambda: datetime(2031, 5, 4, 10, 0, tzinfo=UTC) + timedelta(minutes=next(minutes))


@pytest.fixture(scope="module")
def kept(tmp_path_factory):
    """A counter without its first finger, traced to the end."""
    made = begin_trace(tmp_path_factory.mktemp("report") / "trial.json", SMALL, label="shelf 3, no. 12",
                       who="A. Reader", condition="complete, dusty", clock=clock())
    real = Machine(SMALL, faults=[CounterFingerGone(wheel=1)])
    made.record(THREE, readings_of(real, THREE))
    while (advice := made.trace.next_test()) is not None:
        made.record(advice.test, readings_of(real, advice.test))
    made.note("a window is scratched")
    return made


class TestFindings:
    """Departures, what was not tested and the conclusion, worked by hand."""

    def test_a_departure_says_where_and_what(self):
        """Three turns, and a counter that stays at nought."""
        done = [Done(THREE, (Reading(result=0, counter=0, bell=True),))]
        assert [str(one) for one in departures(SMALL, done)] == [
            "test 1, three turns, reading 1: the counter should be 03, read 00",
            "test 1, three turns, reading 1: whether the bell rang should be no, read yes"]
        assert [one.field for one in departures(SMALL, done, [CounterFingerGone(wheel=1)])] == ["bell"]

    def test_what_was_not_read_departs_from_nothing(self):
        assert departures(SMALL, [Done(NINES, (None, Reading(result=100)))]) == ()
        assert left_out(Done(NINES, (None, Reading(result=100)))) == (
            "reading 1: the result, the counter, the setting, the bell",
            "reading 2: the counter, the setting, the bell")

    def test_three_idle_turns_look_for_little(self):
        """With all levers at 0 no pin comes out but one that is stuck; the counter's first finger counts."""
        left = unrevealed(SMALL, [Done(THREE, (Reading(result=0, counter=3, setting=0, bell=False),))])
        assert CounterFingerGone(wheel=1) not in left
        assert CounterFingerGone(wheel=2) in left
        assert NumberPinGone(place=1, pin=1) in left
        assert CarryPinGone(place=2, direction=1) in left

    def test_a_register_that_was_not_read_reveals_nothing(self):
        assert CounterFingerGone(wheel=1) in unrevealed(SMALL, [Done(THREE, (Reading(result=0),))])

    def test_nothing_done_leaves_everything(self):
        assert unrevealed(SMALL, []) == every_fault(SMALL)
        assert untested(SMALL, [])[-3:] == ("full-stroke ratchet worn: not tested", "setting lock worn: not tested",
                                            "carry timing late: none of 2 places was tested")

    def test_few_places_are_named(self):
        done = [Done(THREE, (Reading(counter=3),))]
        assert ("counter finger gone: 1 of 2 places not tested: the finger of counter wheel 2 is gone"
                in untested(SMALL, done))

    def test_a_sound_machine(self):
        trace = Tracing(SMALL)
        assert conclusion(trace) == ("Nothing has been read yet.",)
        trace.record(NINES, readings_of(Machine(SMALL), NINES))
        assert conclusion(trace)[1] == "Nothing that was read departs from a sound machine."

    def test_where_nothing_fits(self):
        """Result 321 after three idle turns, twice, and a counter that went to 77."""
        trace = Tracing(SMALL)
        trace.record(THREE, [{"result": 321, "counter": 77, "setting": 55, "bell": True}])
        said = " ".join(conclusion(trace))
        assert said.startswith("Nothing that the kit knows explains what was read: no single fault, no two faults "
                               "together, even with one reading wrong.")
        assert "Closest comes: " in said
        assert trace.left == 0

    def test_shares(self):
        assert [share(value) for value in (0.0, 0.01, 0.5, 0.99, 0.995, 1.0)] == [
            "under 1%", "1%", "50%", "99%", "over 99%", "100%"]

    def test_times(self):
        assert times_of(["2031-05-04T10:05:00+00:00"], "2031-05-04T09:00:00+00:00") == ["10:05"]


class TestReport:
    """Everything that was entered, and what follows from it, on paper."""

    def test_what_stands_on_it(self, kept):
        text = flat(report_pdf(kept))
        for said in ("shelf 3, no. 12", "A. Reader", "complete, dusty", "a window is scratched",
                     "Three turns. turn 3; read",
                     "4 May 2031, 10:00 to 10:", "The finger of counter wheel 1 is gone", *CAUTIONS, BEYOND,
                     "EN 16095:2012 from memory", "examined by", "seen by", "signature"):
            assert said in text, said

    def test_headings_in_order(self, kept):
        headings = [block["text"] for block in report_paper(kept)["blocks"] if block["kind"] == "heading"]
        assert headings == ["Condition as found", "Conclusion", "Tests done", "Readings", "Notes",
                            "What was not tested", "Recommended: treatment, use, next look", "How to read this"]

    def test_every_reading_is_there(self, kept):
        (table,) = [block for block in report_paper(kept)["blocks"] if "counter" in block.get("heads", [])]
        assert len(table["rows"]) == sum(len(done.readings) for done in kept.trace.history)
        assert table["rows"][0][:5] == ["1.1", "000", "00", "00", "no"]
        assert table["rows"][0][-1] == "departs"

    def test_what_departs_is_drawn_with_what_should_be_there(self, kept):
        assert "counter: should be 03, read 00" in Boxes(report_html(kept)).rows
        assert 'class="box differs"' in report_html(kept)

    def test_it_is_the_same_from_the_file(self, kept):
        assert report_paper(take_up_trace(kept.path)) == report_paper(kept)

    def test_a_session_without_a_file(self):
        trace = Tracing(load_spec("slate"), pairs=False)
        real = Machine(trace.spec, faults=[RatchetWorn()])
        test = next(test for test in trace.tests if test.name == "gently back")
        trace.record(test, readings_of(real, test))
        text = flat(report_pdf(trace, label="no. 1"))
        assert "The full-stroke ratchet is worn" in text
        assert "the crank went back: no read yes" in text

    def test_where_nothing_fits_it_says_where_the_closest_differ(self):
        trace = Tracing(SMALL)
        trace.record(THREE, [{"result": 321, "counter": 77, "setting": 55, "bell": True}])
        text = flat(report_pdf(trace))
        assert "Nothing that the kit knows explains what was read" in text
        assert "would differ here:" in text
        assert "read 321" in text

    def test_an_empty_session(self, tmp_path):
        made = begin_trace(tmp_path / "empty.json", SMALL)
        text = flat(report_pdf(made))
        assert "Nothing has been read yet." in text
        assert "Number pin gone: none of 18 places was tested." in text

    def test_whoever_reads_more_finds_less_untested(self, kept):
        assert len(untested(SMALL, kept.trace.history)) <= len(untested(SMALL, kept.trace.history[:1]))

    def test_papers_and_files(self, kept, tmp_path):
        data = write_report(kept, tmp_path / "r.pdf", paper="letter").read_bytes()
        assert {tuple(map(round, page.get_size())) for page in pypdfium2.PdfDocument(data)} == {(612, 792)}
        with pytest.raises(InputError, match="is there already"):
            write_report(kept, tmp_path / "r.pdf")

    def test_markup_in_what_was_entered_is_text(self, tmp_path):
        made = begin_trace(tmp_path / "m.json", SMALL, label="<i>7</i>", condition="#strong[x] *y* </dd><script>")
        page = report_html(made)
        assert "<script>" not in page
        assert "<i>7</i>" not in page
        assert "#strong[x] *y* </dd><script>" in flat(report_pdf(made))


def test_a_direction_that_is_stuck_is_told_from_a_misreading():
    """With nothing misread the fault comes first; the other explanations say that a reading would have to be wrong."""
    trace = Tracing(SMALL, pairs=False)
    real = Machine(SMALL, faults=[CounterDirectionStuck(direction=-1)])
    trace.record(THREE, readings_of(real, THREE))
    text = flat(report_pdf(trace))
    assert "The counter's direction is stuck: subtractive turns count up" in text
    assert "if one reading was wrong" in text
