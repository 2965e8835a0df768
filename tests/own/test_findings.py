"""What is typed is held against the rules at once, finished or not."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError, MachineSpec, load_spec, machine_names
from mechcalc.own import findings, own_machine
from mechcalc.own.questions import BY_FIELD, MEASURES, QUESTIONS
from mechcalc.own.reading import LONGEST, read, typed
from mechcalc.own.usual import usual_angles, with_usual
from mechcalc.spec_file import read_origins
from mechcalc.spec_rules import broken_rules

from .descriptions import described

GOOD = {"setting_places": "9", "result_places": "13", "counter_places": "8", "carry_reach": "11",
        "counter_carry": "yes", "back_transfer": "no", "check_register": "no"}
BENCH_ANGLES = {"pin_pitch": "9", "gap": "4", "helix_step": "12", "lever_throw": "3", "rest_arc": "15"}


class TestReading:
    """An answer is read the way people write."""

    @pytest.mark.parametrize(("field", "text", "value"), [
        ("setting_places", "9", (9, False)), ("setting_places", " 09? ", (9, True)),
        ("pin_pitch", "7.5", (7.5, False)), ("pin_pitch", "7,5 °", (7.5, False)),
        ("pin_pitch", "7.5 degrees?", (7.5, True)), ("pin_pitch", ".5", (0.5, False)),
        ("pin_pitch", "8.", (8.0, False)),
        ("counter_carry", "Y", (True, False)), ("counter_carry", "no ?", (False, True)),
        ("angles", "Measured", ("measured", False)), ("name", " what? ", ("what?", False))])
    def test_good_answers(self, field, text, value):
        assert read(BY_FIELD[field], text) == value

    @pytest.mark.parametrize(("field", "text", "said"), [
        ("setting_places", "nine", "'nine' is no whole number: write figures, such as 9"),
        ("setting_places", "9.0", "'9.0' is no whole number: write figures, such as 9"),
        ("setting_places", "?", "'' is no whole number: write figures, such as 9"),
        ("setting_places", "٩", "'٩' is no whole number: write figures, such as 9"),
        ("pin_pitch", "1e3", "'1e3' is no number of degrees: write figures, such as 9 or 9.5"),
        ("pin_pitch", "nan", "'nan' is no number of degrees: write figures, such as 9 or 9.5"),
        ("pin_pitch", "1.2.3", "'1.2.3' is no number of degrees: write figures, such as 9 or 9.5"),
        ("counter_carry", "maybe", "'maybe' is neither yes nor no"),
        ("angles", "both", "'both' is neither 'usual' nor 'measured'"),
        ("note", "x" * (LONGEST + 1), f"{LONGEST + 1} characters are too many: there is room for {LONGEST}")])
    def test_bad_answers_say_what_a_good_one_is(self, field, text, said):
        with pytest.raises(InputError) as caught:
            read(BY_FIELD[field], text)
        assert str(caught.value) == said

    @given(st.one_of(st.integers(-10**9, 10**9), st.booleans(), st.floats(0, 360).map(lambda f: round(f, 6))))
    def test_what_is_typed_for_a_value_is_read_as_it(self, value):
        field = {bool: "counter_carry", int: "setting_places", float: "pin_pitch"}[type(value)]
        if isinstance(value, float) and "e" in typed(value):
            return
        assert read(BY_FIELD[field], typed(value)) == (value, False)


class TestWhatIsFound:
    """All that is wrong at once, each where it belongs; all that is missing; the machine once nothing is."""

    def test_nothing_typed(self):
        found = findings({})
        assert found.missing == ("setting_places", "result_places", "counter_places", "counter_carry", "back_transfer",
                                 "check_register", "carry_reach")
        assert (found.spec, found.problems, found.angles, found.budget) == (None, {}, None, "")
        assert repr(found) == "<Findings: 7 answers are missing>"

    def test_a_machine_with_usual_angles(self):
        found = findings(GOOD)
        assert found.spec == MachineSpec(setting_places=9, result_places=13, counter_places=8, carry_reach=11,
                                         back_transfer=False, **usual_angles(11))
        assert found.origins["carry_reach"] == "counted"
        assert {found.origins[field] for field in (*MEASURES, "positions")} == {"guessed"}
        assert str(found) == (
            "Nothing is missing, and every rule is kept.\nWith these angles (the usual ones, a guess) a carry reach of "
            "11 takes 338 of the drum's 360 degrees; the largest reach would be 11.")

    def test_five_rules_at_once_each_with_its_figures_under_its_field(self):
        found = findings({**GOOD, "setting_places": "31", "carry_reach": "30", "positions": "9", "angles": "measured",
                          **BENCH_ANGLES, "gap": "2", "helix_step": "10"})
        assert {field: texts[0].partition(":")[0] for field, texts in found.problems.items()} == {
            "positions": "each carriage position needs a number wheel and a counter wheel before place 1",
            "carry_reach": "the carry reach must cover the setting",
            "gap": "the first carry would come too late", "helix_step": "a carry would come too late to ripple"}
        assert found.problems["carry_reach"][1].endswith("the largest carry reach for these angles is 14")
        assert found.beside == {
            "setting_places": ("carry_reach",), "result_places": ("positions",), "counter_places": ("positions",),
            "pin_pitch": ("helix_step", "carry_reach"), "lever_throw": ("helix_step", "gap"), "gap": ("carry_reach",),
            "helix_step": ("carry_reach",), "rest_arc": ("carry_reach",)}
        assert found.largest_reach == 14
        assert found.verdict == "5 things are wrong."

    def test_a_contradiction_is_told_before_everything_is_there(self):
        """Two figures are enough."""
        assert findings({"positions": "9", "counter_places": "8"}).problems == {"positions": (
            "each carriage position needs a number wheel and a counter wheel before place 1: 9 positions, 8 counter "
            "wheels",)}
        assert findings({"angles": "measured", "gap": "2", "lever_throw": "3"}).problems == {
            "gap": ("the first carry would come too late: gap 2 is less than lever throw 3",)}

    def test_the_budget_is_there_although_carries_would_be_late(self):
        """Two angles contradict each other; how many places the drum would hold is told all the same."""
        found = findings({"carry_reach": "30", "angles": "measured", "gap": "2", "lever_throw": "3"})
        assert found.problems["gap"] == ("the first carry would come too late: gap 2 is less than lever throw 3",)
        assert found.angles == {"pin_pitch": 3.9, "gap": 2.0, "helix_step": 6.9, "lever_throw": 3.0, "rest_arc": 0.0}
        assert found.problems["carry_reach"][0].endswith(
            f"the largest carry reach for these angles is {found.largest_reach}")

    @pytest.mark.parametrize("reach", ["0", "-1", "41", "99999999999999999999"])
    def test_a_reach_out_of_all_range_has_no_budget(self, reach):
        found = findings({**GOOD, "carry_reach": reach, "angles": "measured", **BENCH_ANGLES})
        assert (found.angles, found.budget) == (None, "")
        assert found.problems["carry_reach"][0].endswith(": it goes from 1 to 40")

    def test_one_bad_figure_hides_no_other(self):
        found = findings({**GOOD, "result_places": "thirteen", "carry_reach": "8", "counter_places": "0"})
        assert found.lines() == [
            "number wheels: 'thirteen' is no whole number: write figures, such as 13",
            "counter wheels: counter places cannot be 0: it goes from 1 to 40",
            "carry reach: the carry reach must cover the setting: carry reach 8, setting places 9"]

    def test_measures_count_only_where_they_were_chosen(self):
        """Whoever goes back to the usual angles is not held to what was typed before."""
        answers = {**GOOD, **BENCH_ANGLES, "gap": "wide", "helix_step": "1"}
        assert findings({**answers, "angles": "usual"}).spec == findings(GOOD).spec
        assert set(findings({**answers, "angles": "measured"}).problems) == {"gap", "helix_step"}

    def test_a_bad_choice_of_angles(self):
        found = findings({**GOOD, "angles": "both"})
        assert found.problems == {"angles": ("'both' is neither 'usual' nor 'measured'",)}
        assert found.angles is None

    @pytest.mark.parametrize("answers", [{"colour": "green"}, {"name": 7}])
    def test_answers_to_no_question(self, answers):
        with pytest.raises(InputError, match=r"is not asked for|an answer is a text"):
            findings(answers)

    @given(described())
    def test_any_machine_can_be_described_and_saved(self, tmp_path_factory, one):
        """What somebody types of it gives that machine, and its file; every doubt stands in the file as a guess."""
        spec, answers, unsure = one
        found = findings(answers)
        assert found.spec == spec
        path = found.save(tmp_path_factory.mktemp("own") / "mine.toml")
        assert load_spec(path) == spec
        origins = read_origins(path)
        assert {field for field, origin in origins.items() if origin == "guessed"} == unsure
        assert {origins[field] for field in MEASURES if field not in unsure} <= {"measured"}

    @given(st.dictionaries(st.sampled_from([one.field for one in QUESTIONS]), st.one_of(
        st.integers(-3, 50).map(str), st.floats(-5, 400).map(str), st.text(max_size=8),
        st.sampled_from(["yes", "no", "usual", "measured", "9?", "40"]))))
    def test_whatever_is_typed_the_form_and_the_rules_agree(self, answers):
        """Nothing typed stops it, and a machine comes of it exactly when nothing is wrong or missing."""
        found = findings(answers)
        assert (found.spec is None) == bool(found.problems or found.missing)
        assert found.budget == "" or str(found.largest_reach) in found.budget
        if found.spec is None:
            with pytest.raises(InputError, match="this machine cannot be saved yet: "):
                found.save("never.toml")


class TestUsualAngles:
    """A guess keeps every rule."""

    @pytest.mark.parametrize("reach", range(1, 41))
    def test_there_are_some_for_every_reach(self, reach):
        spec = MachineSpec(setting_places=1, result_places=40, counter_places=1, carry_reach=reach,
                           **usual_angles(reach))
        assert spec.largest_carry_reach >= reach

    @given(reach=st.integers(1, 20), measured=st.dictionaries(st.sampled_from(MEASURES), st.integers(1, 150).map(
        lambda tenths: tenths / 10)))
    def test_what_was_measured_stays_and_alone_can_be_at_fault(self, reach, measured):
        """The others are chosen so that carries are in time, unless the measures contradict one another."""
        angles = with_usual(measured, reach)
        assert {field: angles[field] for field in measured} == measured
        step, throw = measured.get("helix_step"), measured.get("lever_throw", 0.0)
        late = throw > measured.get("gap", throw) or (step is not None and (
            step < round(measured["pin_pitch"] + throw, 6) if "pin_pitch" in measured else step <= throw))
        rules = [rule.text for rule in broken_rules(angles)]
        assert bool(rules) == late
        assert all("too late" in rule for rule in rules)


class TestOwnMachine:
    """The same in one call of Python."""

    def test_it_finds_what_the_form_finds(self):
        found = own_machine(levers=9, wheels=13, counter=8, positions=9, reach=8, counter_carries=True,
                            back_transfer="no?", check_register=False, angles={"gap": 2, "lever_throw": 3.0})
        assert found.lines() == findings({**GOOD, "positions": "9", "carry_reach": "8", "angles": "measured",
                                          "gap": "2", "lever_throw": "3"}).lines()
        assert found.origins["back_transfer"] == "guessed"

    @pytest.mark.parametrize("name", machine_names())
    def test_the_catalogue(self, name):
        spec = load_spec(name)
        found = own_machine(
            levers=spec.setting_places, wheels=spec.result_places, counter=spec.counter_places,
            positions=spec.positions, reach=spec.carry_reach, counter_carries=spec.counter_carry,
            back_transfer=spec.back_transfer, check_register=spec.check_register, name=spec.name, note=spec.note,
            angles={field: getattr(spec, field) for field in MEASURES})
        assert found.spec == spec

    def test_a_machine_without_a_name_is_called_by_its_file(self, tmp_path):
        assert load_spec(findings(GOOD).save(tmp_path / "attic.toml")).name == "attic"

    @pytest.mark.parametrize(("angles", "said"), [
        (7, "angles are 'usual', or measured ones by their names, not 7"),
        ({"pitch": 9}, "'pitch' is no angle of a drum: the angles are pin_pitch, gap, helix_step, lever_throw, "
                       "rest_arc")])
    def test_angles_that_are_none(self, angles, said):
        with pytest.raises(InputError) as caught:
            own_machine(angles=angles)
        assert str(caught.value) == said

    def test_as_html(self):
        html = own_machine(levers="<b>", name="<i>")._repr_html_()
        assert "<b>" not in html
        assert html.count("<li>") == 7
