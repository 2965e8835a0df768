"""The page of a tracing session: what is on it, what can be typed, and what is answered."""

from __future__ import annotations

import json
from random import Random

import pytest

from mechcalc import InputError, Machine as SoundMachine, SessionError, SpecError, load_spec
from mechcalc.bench import CarryPinGone, Machine, RatchetWorn
from mechcalc.bench.candidates import Test
from mechcalc.bench.cases import case
from mechcalc.bench.readings import Reading
from mechcalc.bench.trace_file import begin_trace, take_up_trace
from mechcalc.bench.trace_page import (
    NOTHING_READ,
    afterwards,
    closest,
    entries_of,
    grouped,
    percent,
    told_reading,
    told_test,
    typed,
)
from mechcalc.bench.trace_view import DO_FIRST, RECORD_FIRST, trace
from mechcalc.bench.tracing import Done, Tracing, readings_of

SLATE = load_spec("slate")
FAULT = CarryPinGone(place=3, direction=1)


class Reader:
    """Somebody at the page: presses what there is to press, and keeps what is answered."""

    def __init__(self, view, machine=None):
        self.view, self.machine, self.heard = view, machine, []
        view.send = self.heard.append

    @property
    def page(self):
        return self.view.page

    def ask(self, **message):
        self.view._asked(None, message, None)

    def entries(self):
        """What the machine on the table shows for the test on the page."""
        test = next(test for test in self.view.trace.tests if test.name == self.page["test"]["name"])
        return entries_of(self.view.trace.spec, Done(test, readings_of(self.machine, test)))

    def record(self, entries=None):
        self.ask(do="record", test=self.page["test"]["name"], entries=self.entries() if entries is None else entries)


@pytest.fixture
def reader():
    return Reader(trace("slate", pairs=False), Machine(SLATE, faults=[FAULT]))


class TestThePage:
    """What it shows."""

    def test_it_is_plain_data_that_a_browser_can_take(self, reader):
        assert json.loads(json.dumps(reader.page)) == reader.page

    def test_the_advised_test_is_shown_with_why_its_steps_and_its_fields(self, reader):
        advice = reader.view.trace.next_test()
        assert reader.page["test"]["name"] == advice.test.name
        assert advice.why in reader.page["advice"]
        fields = reader.page["test"]["parts"][0]["fields"]
        assert [(field["key"], field.get("places")) for field in fields] == [
            ("result", 6), ("counter", 3), ("setting", 4), ("bell", None)]
        assert all(part["steps"] for part in reader.page["test"]["parts"])

    def test_a_try_is_asked_about(self):
        parts = {test.name: told_test(SLATE, test)["parts"][-1] for test in Tracing(SLATE, pairs=False).tests}
        assert parts["gently back"]["fields"][-1]["label"] == "Did the crank go back?"
        assert parts["a lever during a turn"]["fields"][-1]["label"] == "Did the lever move?"
        assert parts["back to the levers"]["fields"][-1]["label"] == "Did it jam?"
        assert parts["all 9"]["fields"][-1]["key"] == "bell"

    def test_shares_are_in_order_and_add_up(self, reader):
        reader.record()
        groups = reader.page["left"]["groups"]
        assert [group["share"] for group in groups] == sorted((group["share"] for group in groups), reverse=True) or \
            any("wrong" in group["words"][0] for group in groups)
        assert sum(group["share"] for group in groups) <= 1 + 1e-9
        assert groups[0]["percent"] == percent(groups[0]["share"])

    def test_what_no_test_tells_apart_stands_in_one_group(self):
        """Two tests to choose from: three faults that neither notices look like a sound machine."""
        tests = [Test.of("once", "set 1; turn; read"), Test.of("back", "try back; read")]
        session = Tracing(SLATE, pairs=False, tests=tests)
        groups = grouped(session, session.explanations(500))
        assert {explanation for group in groups for explanation in group} == set(session.explanations(500))
        by_fault = {explanation.faults: number for number, group in enumerate(groups) for explanation in group}
        assert by_fault[()] == by_fault[(FAULT,)]
        assert by_fault[(RatchetWorn(),)] != by_fault[()]

    def test_the_end_names_what_is_wrong_and_advises_nothing_more(self, reader):
        for _ in range(12):
            if reader.page["test"] is None:
                break
            reader.record()
        assert reader.page["test"] is None
        assert reader.page["advice"] == "No test is advised: none tells anything more about what is left."
        assert reader.page["left"]["groups"][0]["words"] == ["The additive carry pin of place 3 is gone"]
        assert len(reader.page["done"]) == len(reader.view.trace.history) > 1
        assert repr(reader.view).startswith(f"<TraceView 'Slate': {len(reader.view.trace.history)} tests done, ")

    def test_nothing_fits_is_said_with_the_closest_and_where_it_differs(self, reader):
        for digit in (3, 5, 7):
            reader.ask(do="choose", test=f"all {digit}")
            reader.record([{"result": "123456", "counter": "077", "setting": "0000", "bell": "no"}])
        left = reader.page["left"]
        assert left["words"] == "Nothing fits: no fault of the kit's list shows what was read."
        assert left["groups"] == []
        assert len(left["closest"]) == 5
        assert "First in “all 3” the result would have shown" in left["closest"][0]["words"]
        assert reader.page["advice"] == "No test is advised: nothing fits what was read."
        assert reader.page["test"] is None

    def test_the_closest_differs_where_it_says(self):
        session = Tracing(SLATE, pairs=False)
        test = next(test for test in session.tests if test.name == "all 3")
        for _ in range(2):
            session.record(test, [{"result": 999, "counter": 9}])
        for row in closest(session):
            assert "reading" in row["words"]
            assert "and you read 000999" in row["words"] or "and you read 009" in row["words"]

    @pytest.mark.parametrize(("reading", "said"), [
        (None, "not read"), (Reading(counter=3), "the counter 003"), (Reading(bell=True), "the bell rang"),
        (Reading(result=0, yielded=True), "the result 000000; it gave way")])
    def test_readings_are_told_with_every_wheel(self, reading, said):
        assert told_reading(SLATE, reading) == said

    def test_afterwards_goes_home_only_where_it_was_left(self):
        assert afterwards(Test.of("x", "turn; read")) == "Clear the result, the counter and the setting."
        assert "home" in afterwards(Test.of("x", "shift; turn; read"))


class TestTyping:
    """What is typed becomes readings, or is answered beside its field."""

    def test_there_and_back_for_every_test_of_a_faulty_machine(self):
        machine, chance = Machine(SLATE, faults=[FAULT]), Random(2)
        for test in Tracing(SLATE, pairs=False).tests:
            readings = readings_of(machine, test)
            rows = entries_of(SLATE, Done(test, readings))
            kept, problems = typed(SLATE, test, rows)
            assert problems == []
            for one, other in zip(kept, readings, strict=True):
                assert (one.result, one.counter, one.setting, one.bell) == (
                    other.result, other.counter, other.setting, other.bell)
                assert one.yielded in (other.yielded, None)
            left_out = chance.choice(["result", "counter", "setting", "bell"])
            kept, _ = typed(SLATE, test, [{**row, left_out: ""} for row in rows])
            assert {getattr(one, left_out) for one in kept} == {None}

    @pytest.mark.parametrize(("entry", "field", "says"), [
        ({"result": "99"}, "result", "2 digits, but there are 6 windows. Write every one of them, noughts too."),
        ({"result": "0000000"}, "result", "7 digits, but there are 6 windows. Write every one of them, noughts too."),
        ({"counter": "1"}, "counter", "1 digit, but there are 3 windows. Write every one of them, noughts too."),
        ({"setting": "12a4"}, "setting", "Digits only: “a” is none."),
        ({"result": "-00001"}, "result", "Digits only: “-” is none."),
        ({"result": "00000²"}, "result", "Digits only: “²” is none."),
        ({"result": "٣٣٣٣٣٣"}, "result", "Digits only: “٣” is none."),
        ({"result": 12}, "result", "This cannot be read."),
        ({}, "result", NOTHING_READ), ({"bell": "perhaps"}, "result", NOTHING_READ)])
    def test_bad_entries_are_answered_and_change_nothing(self, reader, entry, field, says):
        reader.ask(do="choose", test="all 9")
        before = reader.page
        reader.record([entry])
        assert reader.heard[-1]["problems"] == [{"reading": 0, "field": field, "says": says}]
        assert reader.heard[-1]["said"] == ("Not recorded: One field cannot be read. What you typed is still there.")
        assert reader.page == before
        assert reader.view.trace.history == ()

    def test_spaces_between_digits_do_not_matter(self):
        assert typed(SLATE, Test.of("x", "turn; read"), [{"result": " 000 120 "}])[0][0].result == 120

    def test_all_bad_fields_are_answered_at_once(self, reader):
        reader.ask(do="choose", test="all 9")
        reader.record([{"result": "x", "counter": "12", "setting": "00001"}])
        assert [problem["field"] for problem in reader.heard[-1]["problems"]] == ["result", "counter", "setting"]
        assert reader.heard[-1]["said"].startswith("Not recorded: 3 fields cannot be read.")

    @pytest.mark.parametrize("message", [
        {}, {"do": "fly"}, {"do": None}, [], "record", {"do": "judge", "group": 0}, {"do": "machine"}])
    def test_what_the_page_never_sends_does_nothing(self, reader, message):
        before = reader.page
        reader.view._asked(None, message, None)
        assert reader.page == before
        assert reader.heard == []

    @pytest.mark.parametrize("entries", [None, [], "000000", [None], [[]], {"result": "000001"}])
    def test_no_entries_at_all_are_nothing_read(self, reader, entries):
        reader.ask(do="record", test=reader.page["test"]["name"], entries=entries)
        assert reader.heard[-1]["problems"][0]["says"] == NOTHING_READ


class TestChoosingAndTakingBack:
    """Another test than the advised one; the last one again."""

    def test_another_test_is_taken_and_the_advice_still_named(self, reader):
        advised = reader.page["test"]["name"]
        reader.ask(do="choose", test="noughts")
        assert reader.page["test"]["name"] == "noughts"
        assert reader.page["advice"] == f"You chose this test. Advised is “{advised}”."
        reader.ask(do="choose", test=advised)
        assert reader.page["advice"].startswith("Advised, because it tells most now.")

    def test_there_is_no_such_test(self, reader):
        reader.ask(do="choose", test="all 11")
        assert reader.heard == [{"said": "there is no test 'all 11'", "problems": []}]

    def test_taken_back_its_readings_stand_in_the_fields_again(self, reader):
        name, entries = reader.page["test"]["name"], reader.entries()
        reader.record(entries)
        assert reader.page["recorded"] == name
        reader.ask(do="back")
        assert reader.page["draft"]["test"] == reader.page["test"]["name"] == name
        assert reader.page["draft"]["entries"][0]["result"] == entries[0]["result"]
        assert reader.page["done"] == []
        reader.ask(do="back")
        assert reader.heard[-1]["said"] == "There is nothing to take back."


class TestOnASimulatedMachine:
    """The steps are done in the kernel; the windows are read by whoever is learning."""

    def test_its_windows_are_shown_and_not_filled_in(self):
        reader = Reader(trace(on=case(3)))
        assert reader.page["windows"] is None
        reader.ask(do="machine")
        assert len(reader.page["windows"][0]["result"]) == 6
        assert "draft" not in reader.page
        assert reader.view.trace.history == ()

    def test_a_case_is_traced_and_judged(self):
        hidden = case(3)
        reader = Reader(trace(on=hidden))
        while reader.page["test"] is not None:
            reader.ask(do="machine")
            reader.record(reader.page["windows"])
        assert [done.test for done in hidden.done] == [done.test for done in reader.view.trace.history]
        reader.ask(do="judge", group=0)
        assert reader.heard[-1]["verdict"].startswith("Right: ")
        assert reader.heard[-1]["verdict"].endswith(f"{len(hidden.done)} tests used.")
        worst = len(grouped(reader.view.trace, reader.view.trace.explanations(200))) - 1
        if worst:
            reader.ask(do="judge", group=worst)
            assert reader.heard[-1]["verdict"].startswith(("No. ", "Nothing that you have read"))

    def test_nothing_is_recorded_that_the_machine_has_not_done(self):
        reader = Reader(trace(on=case(1)))
        reader.record([{"result": "000000"}])
        assert reader.heard[-1]["said"] == DO_FIRST
        assert reader.view.trace.history == ()

    def test_what_it_has_done_is_recorded_before_another_is_chosen(self):
        hidden = case(1)
        reader = Reader(trace(on=hidden))
        reader.ask(do="machine")
        reader.ask(do="machine")
        assert len(hidden.done) == 1
        reader.ask(do="choose", test="noughts")
        assert reader.heard[-1]["said"] == RECORD_FIRST
        reader.record(reader.page["windows"])
        reader.ask(do="back")
        assert reader.page["windows"] is not None
        reader.ask(do="back")
        assert reader.heard[-1]["said"].startswith("The machine has done this test")
        assert len(hidden.done) == 1

    def test_a_machine_of_ones_own_will_do(self):
        machine = Machine(SLATE, faults=[RatchetWorn()])
        reader = Reader(trace(on=machine, pairs=False))
        reader.ask(do="choose", test="gently back")
        reader.ask(do="machine")
        assert reader.page["windows"][0]["yielded"] == "yes"
        reader.record(reader.page["windows"])
        reader.ask(do="judge", group=0)
        assert reader.heard == []
        assert reader.page["left"]["groups"][0]["words"] == ["The full-stroke ratchet is worn"]
        assert not reader.page["judged"]


class TestOpening:
    """Which machine; and a file to keep it in."""

    def test_a_session_is_begun_kept_and_taken_up(self, tmp_path):
        path = tmp_path / "slate.json"
        reader = Reader(trace("slate", session=path, pairs=False), Machine(SLATE, faults=[FAULT]))
        reader.record()
        again = trace(session=path)
        assert again.trace.history == reader.view.trace.history
        assert again.page["done"] == reader.page["done"]
        assert again.page["file"] == str(path)
        assert trace("slate", session=path).trace.left == again.trace.left

    def test_a_test_that_was_begun_is_gone_on_with(self, tmp_path):
        """Begun from the command line, say: two of its ten readings are there."""
        path = tmp_path / "slate.json"
        kept = begin_trace(path, SLATE, pairs=False)
        test = next(test for test in kept.trace.tests if len(test.reads) == 10)
        kept.keep_draft(test, [Reading(result=7), None, Reading(counter=2)])
        reader = Reader(trace(session=path), Machine(SLATE))
        assert reader.page["test"]["name"] == test.name
        assert [entry["result"] for entry in reader.page["draft"]["entries"]] == ["000007", *[""] * 9]
        assert reader.page["draft"]["entries"][2]["counter"] == "002"
        reader.record()
        assert take_up_trace(path).draft is None

    def test_a_file_changed_by_somebody_else_is_not_written_over_and_nothing_is_lost(self, tmp_path):
        path = tmp_path / "slate.json"
        reader = Reader(trace("slate", session=path, pairs=False), Machine(SLATE, faults=[FAULT]))
        path.write_text(path.read_text() + "\n")
        before = reader.page
        reader.record()
        assert "somebody else has changed the file" in reader.heard[-1]["said"]
        assert reader.page == before

    @pytest.mark.parametrize(("given", "error", "said"), [
        ({}, InputError, "which machine?"), ({"what": "slat"}, SpecError, "slat"),
        ({"on": "slate"}, InputError, "tests are done on a case or a machine, not on 'slate'"),
        ({"what": "bench", "on": case(1)}, InputError, "is not the machine that the tests are done on: Slate")])
    def test_what_is_no_machine(self, given, error, said):
        with pytest.raises(error) as raised:
            trace(**given)
        assert said in str(raised.value)

    def test_a_machine_stands_at_nought_and_a_session_is_on_the_machine_that_is_named(self, tmp_path):
        used = SoundMachine(SLATE)
        used.set(3)
        with pytest.raises(InputError, match="stands at nought"):
            trace(on=used)
        path = tmp_path / "other.json"
        trace("slate", session=path, pairs=False)
        with pytest.raises(InputError, match="the session is on another machine, Slate"):
            trace("plain", session=path)
        with pytest.raises(InputError, match="to begin one, say which machine"):
            trace(session=tmp_path / "new.json")
        (tmp_path / "bad.json").write_text("{}")
        with pytest.raises(SessionError):
            trace("slate", session=tmp_path / "bad.json")

    def test_the_sheet_tells_what_was_done(self, reader):
        assert reader.view.sheet() == "Nothing was done yet."
        reader.ask(do="choose", test="all 9")
        reader.record([{"result": "009999", "counter": "", "setting": "9999", "bell": "no"}])
        assert reader.view.sheet() == ("1. all 9: set 9999; turn 1; read\n"
                                       "   the result 009999; the levers 9999; no bell")
