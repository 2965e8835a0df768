"""The bar shows the budget that the rules compute; pictures are read in grey and by ear."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from fractions import Fraction

import pytest
from hypothesis import given

from mechcalc import layout as drum
from mechcalc.own.budget_bar import budget_bar, in_words, parts
from mechcalc.own.questions import MEASURES, STEPS
from mechcalc.own.sketches import SKETCHES, sketch
from mechcalc.own.usual import usual_angles
from mechcalc.spec_rules import broken_rules
from tests.mechanism.machines import specs

SVG = "{http://www.w3.org/2000/svg}"


def angles_of(spec):
    return {name: getattr(spec, name) for name in MEASURES}


def frame(picture) -> tuple[float, float]:
    """Where the one turn begins and ends."""
    box = next(one for one in picture.iter(f"{SVG}rect") if one.get("stroke-width") == "2")
    return float(box.get("x")), float(box.get("x")) + float(box.get("width"))


class TestBar:
    """Every pin at its place."""

    @given(specs())
    def test_pins_stand_where_the_layout_has_them(self, spec):
        """Measured from the middle of the number pins, half a turn from rest."""
        built = drum.layout(spec)
        contacts = [float(180 + pin) for part in parts(angles_of(spec), spec.carry_reach) for pin in part.pins]
        assert contacts == pytest.approx(sorted(one.contact for one in (*built.number_pins, *built.following,
                                                                       *built.leading)))

    @given(specs())
    def test_a_drum_that_can_be_built_stays_within_its_turn(self, spec):
        picture = ElementTree.fromstring(budget_bar(angles_of(spec), spec.carry_reach))
        begin, end = frame(picture)
        for one in picture.iter(f"{SVG}rect"):
            assert begin - 0.1 <= float(one.get("x")) <= float(one.get("x")) + float(one.get("width")) <= end + 0.1
        assert f"{spec.spare_arc:.6g}° to spare" in "".join(picture.itertext())

    @pytest.mark.parametrize("reach", [12, 20, 40])
    def test_one_that_cannot_runs_out_of_it_and_says_so(self, reach):
        angles = usual_angles(11)
        picture = ElementTree.fromstring(budget_bar(angles, reach))
        begin, end = frame(picture)
        assert any(float(one.get("x")) < begin - 1 for one in picture.iter(f"{SVG}rect"))
        assert any(float(one.get("x")) + float(one.get("width")) > end + 1 for one in picture.iter(f"{SVG}rect"))
        (rule,) = broken_rules({**angles, "carry_reach": reach})
        total = Fraction(re.search(r"= ([\d.]+) degrees of 360", rule.text)[1])
        assert f"too much by {float(total - 360):.6g}°: this drum cannot be built" in "".join(picture.itertext())
        assert picture.get("aria-label").endswith(f"{float(total - 360):.6g}° too much.")

    def test_kinds_of_pins_differ_in_more_than_grey(self):
        """Height and place, and a name with its degrees above."""
        picture = ElementTree.fromstring(budget_bar(usual_angles(6), 6))
        looks = {(one.get("fill"), one.get("height"), one.get("y")) for one in picture.iter(f"{SVG}rect")
                 if one.get("stroke-width") == "0.6"}
        assert len(looks) == len({height for _, height, _ in looks}) == len({fill for fill, _, _ in looks}) == 2
        words = [one.text for one in picture.iter(f"{SVG}text")]
        assert words[:3] == ["helix 57°", "number pins 81°", "helix 57°"]

    def test_without_carry_pins(self):
        assert in_words(usual_angles(1), 1) == ("Number pins 81°; no carry pins; rest arc 15°. Together 96° of 360°: "
                                                "264° to spare.")
        assert "no carry pins; rest arc 15°" in budget_bar(usual_angles(1), 1)


class TestSketches:
    """Small drawings of our own."""

    @pytest.mark.parametrize("name", SKETCHES)
    def test_each_is_well_formed_said_in_words_and_readable_in_grey(self, name):
        """What is asked for is drawn in heavy lines, and text is dark; nothing hangs on a hue."""
        picture = ElementTree.fromstring(sketch(name))
        assert picture.get("role") == "img"
        assert len(picture.get("aria-label")) > 30
        assert picture.get("fill") == "#251f19"
        assert any(one.get("stroke-width") == "3" for one in picture.iter())
        assert [one.get("fill") for one in picture.iter(f"{SVG}text") if one.get("fill")] == []

    def test_everything_stays_on_its_sheet(self):
        for name in SKETCHES:
            picture = ElementTree.fromstring(sketch(name))
            _, _, wide, tall = map(float, picture.get("viewBox").split())
            for one in picture.iter(f"{SVG}rect"):
                assert float(one.get("x")) + float(one.get("width")) <= wide, name
            for one in picture.iter(f"{SVG}text"):
                assert 0 <= float(one.get("x")) <= wide, name
                assert float(one.get("y")) <= tall, name

    def test_every_picture_that_a_step_wants_is_there(self):
        assert {step.picture for step in STEPS if step.picture} == set(SKETCHES)
        assert sketch("nothing") == ""
