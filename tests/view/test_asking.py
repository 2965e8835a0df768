"""Predictions: what is asked, what is covered, what may be said meanwhile, and how answers come back to Python."""

from __future__ import annotations

import random
import re
from pathlib import Path
from typing import Any

import pytest

from mechcalc import InputError, Machine, load_spec
from mechcalc.classroom.logbook import FILE, VARIABLE, entries
from mechcalc.classroom.predictions import compared
from mechcalc.methods import add, divide, multiply, subtract
from mechcalc.view import MachineView, asking, show
from mechcalc.view.asking import AskedOfLive, Prediction, answers_from, record_scene
from mechcalc.view.carries import carries_of
from mechcalc.view.pose import pose
from mechcalc.view.subject import subject_of
from tests.view.sessions import nines


def asked(machine: Machine, predict: Any, ask: str | None = None) -> list[dict[str, Any]]:
    return record_scene(subject_of(machine), predict, ask)["questions"]


def page_answers(view: MachineView, question: str, foretold: str, *, opened: bool = True) -> None:
    """As the page does it: what was foretold, and whether the shutter has opened."""
    view.answers = {**view.answers, question: {"foretold": foretold, "opened": opened}}


class TestWhereACarryIsAboutToHappen:
    def test_before_every_carry_of_a_ripple(self) -> None:
        """9999 + 1: four stops in the last turn, where the lever is out and the pin has not slid over yet."""
        machine = nines()
        stops = carries_of(machine.spec, machine.parts, machine.strokes)
        assert [(stop["wheel"], stop["parts"]) for stop in stops] == [
            (place, [f"lever/{place - 1}", f"carrypin/+/{place}"]) for place in (2, 3, 4, 5)]
        told = subject_of(machine).timeline()
        for stop in stops:
            now, words = pose(told, stop["at"]), stop["ask"]
            lever, pin = (now[part] for part in stop["parts"])
            assert pin == 0
            assert lever == 1 if "is out" in words else 0 < lever < 1
            before, after = (pose(told, stop[end])[f"wheel/{stop['wheel']}"] for end in ("at", "to"))
            assert after == before + 1

    def test_before_the_bell(self) -> None:
        """0 - 1: a stop before each borrow, and one before the bell, which no wheel answers."""
        machine = Machine(load_spec("slate"))
        machine.set(1)
        machine.turn(-1)
        stops = carries_of(machine.spec, machine.parts, machine.strokes)
        assert [stop["wheel"] for stop in stops] == [2, 3, 4, 5, 6, None]
        assert stops[0]["ask"] == ("The carry lever of wheel 1 is going out, and the subtractive carry pin of place 2 "
                                   "comes next. What will wheel 2 do?")
        assert stops[-1]["ask"] == "The carry lever of wheel 6 is out, and no carry pin is beside it. What will happen?"

    def test_a_carry_that_is_done_when_the_crank_goes_on(self) -> None:
        """A crank that stops in the middle of a carry leaves its end to the stroke that goes on."""
        machine = nines(until=233.0)
        carry = carries_of(machine.spec, machine.parts, machine.strokes)[-1]
        assert carry["to"] is None
        machine.finish_turn()
        last = [stop for stop in carries_of(machine.spec, machine.parts, machine.strokes) if stop["id"] == carry["id"]]
        assert last == [{**carry, "to": pytest.approx(carry["at"] + 9 + 9 / 5)}]


class TestQuestionsOnARecord:
    def test_at_the_end(self) -> None:
        """One question, from the first turn to the end; the setting before it is seen."""
        question, = asked(nines(), "result")
        assert (question["from"], question["to"]) == (120, 960)
        assert question["ask"] == "What will the result show at the end?"
        assert question["parts"] == [f"wheel/{place}" for place in range(1, 7)]

    def test_turn_by_turn(self) -> None:
        """A turn that was made in two parts is one turn."""
        machine = nines()
        machine.crank(100.0)
        machine.finish_turn()
        questions = asked(machine, "counter", "each turn")
        told = [(question["ask"], question["from"], question["to"]) for question in questions]
        assert told == [("What will the counter show after turn 1 of 3?", 120, 480),
                        ("What will the counter show after turn 2 of 3?", 600, 960),
                        ("What will the counter show after turn 3 of 3?", 960, 1320)]

    def test_several_at_once(self) -> None:
        """Quotient and remainder stand in two registers, and can be asked for together."""
        working = divide(Machine(load_spec("bench")), 355, 113)
        scene = record_scene(subject_of(working), ("counter", "result"), None)
        assert [asking.happened(question, scene["timeline"]) for question in scene["questions"]] == [3, 16]

    @pytest.mark.parametrize(("predict", "ask", "message"), [
        ("remainder", None, "what is to be foretold is 'result', 'counter', 'carry', or several of them, not "
                            "'remainder'"),
        (("result", "result"), None, "what is to be foretold is 'result', 'counter', 'carry', or several of them, not "
                                     "('result', 'result')"),
        ((), None, "what is to be foretold is 'result', 'counter', 'carry', or several of them, not ()"),
        ("result", "sometimes", "a prediction is asked for 'at the end' or 'each turn', not 'sometimes'"),
    ])
    def test_refuses(self, predict: Any, ask: str | None, message: str) -> None:
        with pytest.raises(InputError) as refusal:
            asked(nines(), predict, ask)
        assert str(refusal.value) == message

    def test_nothing_to_foretell(self) -> None:
        """Where the crank was not turned there is nothing to foretell."""
        machine = Machine(load_spec("slate"))
        machine.set(12)
        with pytest.raises(InputError, match="there is no turn of the crank here"):
            asked(machine, "result")


class TestWhatMayBeSaid:
    @pytest.mark.parametrize("working", [
        lambda: multiply(Machine(load_spec("bench")), 347, 26), lambda: divide(Machine(load_spec("bench")), 355, 113),
        lambda: subtract(Machine(load_spec("bench")), 12, 34), lambda: add(Machine(load_spec("bench")), 578, 67)])
    def test_covered_words_tell_no_digit(self, working: Any) -> None:
        """While windows are covered a moment's words name wheels and places, and no digit that a wheel comes to."""
        told = subject_of(working()).timeline(covered=True)
        for moment in told["moments"]:
            words = moment["covered"]
            if "setting step" in moment["kinds"]:
                continue
            named = re.sub(r"([Ww]heels?|places?|of|position)( \d+(, \d+)*( and \d+)?)", "", words)
            named = named.replace("between 9 and 0", "")  # what puts a lever out, whatever the wheel
            assert not re.search(r"\d", named), words
        for stroke in told["strokes"]:
            assert re.fullmatch(r"set \d+|one (additive|subtractive) turn|shift to position \d+|clear \w+",
                                stroke["covered"])

    def test_a_back_transfer_is_not_given_away(self) -> None:
        """Neither what goes back nor which digits it makes."""
        machine = Machine(load_spec("bench"))
        machine.set(48)
        machine.turn()
        machine.clear_setting()
        machine.back_transfer()
        told = subject_of(machine).timeline(covered=True)
        assert told["strokes"][-1]["covered"] == "back transfer"
        through = [moment["covered"] for moment in told["moments"] if moment["stroke"] == 3]
        assert "Clearing takes wheel 1 back. Through the transfer gears pinwheel 1 one step on." in through

    def test_only_where_something_is_asked(self) -> None:
        """A picture that asks nothing is told exactly what it was told before."""
        scene = record_scene(subject_of(nines()), None, None)
        assert scene["timeline"] == subject_of(nines()).timeline()
        assert not any("covered" in moment for moment in scene["timeline"]["moments"])
        assert scene["questions"] == []


class TestTheSentence:
    @pytest.mark.parametrize(("foretold", "happened"), [(9022, 9022), (9122, 9022), (0, 10**19)])
    def test_is_that_of_the_classroom(self, foretold: int, happened: int) -> None:
        """A view and a lesson say the same of a prediction, and never blame."""
        assert str(Prediction(about="result", foretold=foretold, happened=happened)) == compared(foretold, happened)


class TestARecordInANotebook:
    def test_what_was_foretold_comes_back(self) -> None:
        """When the shutter has opened, the prediction stands beside what came; before, nothing is known."""
        view = show(nines().strokes, spec=load_spec("slate"), predict="result")
        page_answers(view, "result/1", "9999", opened=False)
        assert view.predictions == ()
        page_answers(view, "result/1", "9999")
        assert view.predictions == (Prediction(about="result", foretold=9999, happened=10000),)
        page_answers(view, "result/1", "9999")
        assert len(view.predictions) == 1
        assert not view.predictions[0].right

    def test_every_carry(self) -> None:
        """Asked before each carry, what came is the digit that the wheel then showed."""
        view = show(nines().strokes, spec=load_spec("slate"), predict="carry")
        for question in view.scene["questions"]:
            page_answers(view, question["id"], "0")
        assert [str(one) for one in view.predictions] == [
            "You foretold 0, and 0 it is."] * 3 + ["You foretold 0; it came to 1. Good: now find out why."]
        assert [one.about for one in view.predictions] == ["wheel 2", "wheel 3", "wheel 4", "wheel 5"]

    @pytest.mark.parametrize("noise", [
        "hello", {"result/1": "9"}, {"result/1": {"foretold": "-9", "opened": True}},
        {"result/1": {"foretold": 9, "opened": True}}, {7: {"foretold": "9"}}, {"result/1": {"foretold": "²"}}])
    def test_noise_is_no_answer(self, noise: Any) -> None:
        assert answers_from(noise) == {}

    def test_listeners_hear(self, monkeypatch: pytest.MonkeyPatch) -> None:
        """Whoever wants to keep predictions is told of each, once; a view that asks nothing calls nobody."""
        heard: list[Prediction] = []
        made: list[int] = []
        monkeypatch.setattr(asking, "LISTENERS", [lambda: made.append(1) or heard.append])
        show(nines().strokes, spec=load_spec("slate"))
        assert made == []
        view = show(nines().strokes, spec=load_spec("slate"), predict="counter")
        page_answers(view, "counter/1", "2")
        assert (made, [one.right for one in heard]) == ([1], [True])


def question_of(view: MachineView) -> tuple[str, float, float | None]:
    question = view.scene["questions"][0]
    return question["id"], question["from"], question["to"]


class TestALiveMachine:
    def test_one_question_after_another(self) -> None:
        """Foretold, turned, opened: then the next turn is asked for, from where the register was seen."""
        machine = Machine(load_spec("slate"))
        view = show(machine, predict="result")
        machine.set(347)
        assert question_of(view) == ("result/1", 90, None)
        page_answers(view, "result/1", "347", opened=False)
        machine.turn()
        assert question_of(view) == ("result/1", 90, 450)
        page_answers(view, "result/1", "347")
        assert question_of(view) == ("result/2", 450, None)
        assert view.scene["past"] == [{"id": "result/1", "about": "result", "foretold": "347", "happened": "347"}]
        assert view.scene["quiet"]
        machine.turn()
        assert (question_of(view), view.scene["quiet"]) == (("result/2", 450, 810), False)

    def test_covered_until_it_is_foretold(self) -> None:
        """Turns go on while nothing has been foretold; the question then is about all of them."""
        machine = Machine(load_spec("slate"))
        view = show(machine, predict="counter")
        machine.turn(2)
        machine.shift()
        machine.turn()
        assert question_of(view) == ("counter/1", 0, machine_length(view))
        page_answers(view, "counter/1", "12")
        assert view.predictions[0].right

    def test_an_answer_is_judged_by_what_came_first(self) -> None:
        """What is done after the turn that was asked about belongs to the next question."""
        machine = Machine(load_spec("slate"))
        view = show(machine, predict="result")
        machine.set(1)
        page_answers(view, "result/1", "1", opened=False)
        machine.turn()
        machine.turn()
        assert question_of(view) == ("result/1", 30, 390)
        page_answers(view, "result/1", "1")
        assert view.predictions == (Prediction(about="result", foretold=1, happened=1),)
        assert question_of(view) == ("result/2", 390, 750)

    def test_a_turn_half_done_has_no_end(self) -> None:
        machine = Machine(load_spec("slate"))
        view = show(machine, predict="result")
        machine.crank(100.0)
        assert question_of(view) == ("result/1", 0, None)
        assert view.scene["questions"][0]["ask"] == "What will the result show after this turn?"
        machine.finish_turn()
        assert question_of(view) == ("result/1", 0, 360)

    def test_undo(self) -> None:
        """A turn that is taken back was not made: what was foretold is about the next one."""
        machine = Machine(load_spec("slate"))
        view = show(machine, predict="result")
        page_answers(view, "result/1", "5", opened=False)
        machine.set(5)
        machine.turn()
        machine.undo()
        assert question_of(view) == ("result/1", 30, None)
        machine.turn()
        assert question_of(view) == ("result/1", 30, 390)

    def test_carries_while_the_crank_is_in_the_hand(self) -> None:
        """What is about to be turned has its questions beforehand, under the name that they keep afterwards."""
        machine = Machine(load_spec("slate"))
        machine.set(9)
        machine.turn()
        view = show(machine, predict="carry")
        coming, = view.scene["ahead"]["+"]["questions"]
        page_answers(view, coming["id"], "1")
        machine.turn()
        assert [question["id"] for question in view.scene["questions"]] == [coming["id"]]
        assert [str(one) for one in view.predictions] == ["You foretold 1, and 1 it is."]
        machine.undo()
        assert view.answers == {}
        page_answers(view, coming["id"], "2")
        assert [one.foretold for one in view.predictions] == [1, 2]

    def test_long_sessions(self) -> None:
        """A question that began before the strokes that the picture still has begins with them."""
        machine = Machine(load_spec("slate"))
        view = show(machine, predict="result")
        for _ in range(65):
            machine.turn()
        assert question_of(view) == ("result/1", 0, 60 * 360)

    def test_no_message_tells(self) -> None:
        """Undo does not read the registers out, and a jam does not name digits."""
        machine = Machine(load_spec("bench"))
        view = show(machine, predict="result")
        said: list[dict[str, Any]] = []
        view.send = lambda content, buffers=None: said.append(content)  # type: ignore[method-assign]
        machine.set(9)
        machine.turn()
        view._asked(view, {"operation": "back transfer", "argument": None}, [])
        view._asked(view, {"operation": "undo", "argument": None}, [])
        assert said[0]["reason"] == "back transfer jams at place 1"
        assert said[1] == {"words": "Undone: one additive turn."}

    def test_has_no_end(self) -> None:
        with pytest.raises(InputError, match="not 'at the end': a live machine has no end"):
            show(Machine(load_spec("slate")), predict="result", ask="at the end")

    def test_at_random(self) -> None:
        """Whatever is done, a question lies within the timeline, and what is met is what the machine showed."""
        for seed in range(12):
            machine, dice = Machine(load_spec("slate")), random.Random(seed)
            machine.set(seed * 777 % 10**4)
            view = show(machine, predict=("result", "counter", "carry"))
            for _ in range(14):
                self._something(machine, dice)
                length = view.scene["timeline"]["length"]
                for question in view.scene["questions"]:
                    assert 0 <= question["from"] <= length
                    assert question["to"] is None or question["from"] < question["to"] <= length
                first, met = view.scene["questions"][0], len(view.predictions)
                if dice.random() < 0.6:
                    page_answers(view, first["id"], "7", opened=first["to"] is not None)
                    assert len(view.predictions) == met + (first["to"] is not None)
                    if first["to"] == length and not machine.state.direction:
                        assert view.predictions[met].happened == machine.result

    @staticmethod
    def _something(machine: Machine, dice: random.Random) -> None:
        if machine.state.direction:
            machine.finish_turn()
        elif dice.random() < 0.3:
            machine.undo()
        elif dice.random() < 0.3:
            machine.crank(dice.choice((1, -1)) * round(dice.uniform(1, 700), 1))
        else:
            machine.turn(dice.choice((1, -1, 2)))


def machine_length(view: MachineView) -> float:
    return float(view.scene["timeline"]["length"])


def test_a_question_knows_nothing_of_undone_answers() -> None:
    """An answer that was given and whose turn was taken back is still there for the next turn."""
    machine = Machine(load_spec("slate"))
    questions = AskedOfLive(machine.spec, ["result"], 0)
    machine.turn()
    told = subject_of(machine).timeline()
    assert questions.questions(machine.strokes, machine.state, told, {})[0]["to"] == 360
    machine.undo()
    told = subject_of(machine).timeline()
    assert questions.questions(machine.strokes, machine.state, told, {"result/1": {}})[0]["to"] is None


def test_predictions_are_kept_with_a_learners_answers(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Where answers are kept, a prediction in a picture is written down like one in a cell."""
    monkeypatch.setenv(VARIABLE, str(tmp_path))
    view = show(nines().strokes, spec=load_spec("slate"), predict="result")
    page_answers(view, "result/1", "9999")
    entry, = entries(tmp_path / FILE)[0]
    assert (entry.kind, entry.given, entry.outcome, entry.happened) == ("prediction", 9999, "wrong", 10000)
