"""The poster, a working and a lesson on paper: read back from the files."""

from __future__ import annotations

import re
from pathlib import Path

import pypdfium2
import pypdfium2.raw as raw
import pytest

from mechcalc import InputError, Machine, load_spec, machine_names
from mechcalc.layout import layout
from mechcalc.methods import divide, multiply
from mechcalc.printing.typesetting import Fonts
from mechcalc.sharing import poster, working_sheet
from mechcalc.sharing.paper.named import named_drawing
from mechcalc.sharing.paper.poster import poster_content, poster_pdf
from mechcalc.sharing.paper.ripple import ripple_drawing, ripple_of
from mechcalc.sharing.paper.timetable import DEGREE, LEFT, timetable_drawing
from mechcalc.view.drawing import CARRY, Shape

MILLIMETRE = 72 / 25.4


def words_of(pdf: pypdfium2.PdfDocument) -> str:
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in pdf).split())


class TestThePoster:
    """A3, all lines and letters."""

    @pytest.mark.parametrize("name", machine_names())
    def test_one_page_of_a3(self, name: str) -> None:
        """ISO 216: 420 mm by 297 mm; real text, tagged, and no bitmap on it."""
        pdf = pypdfium2.PdfDocument(poster_pdf(load_spec(name)))
        assert len(pdf) == 1
        width, height = pdf[0].get_size()
        assert (width / MILLIMETRE, height / MILLIMETRE) == pytest.approx((420, 297), abs=0.5)
        assert raw.FPDFCatalog_IsTagged(pdf.raw)
        assert not [item for item in pdf[0].get_objects() if item.type == raw.FPDF_PAGEOBJ_IMAGE]
        said = words_of(pdf)
        for needed in (load_spec(name).name, "carry lever", "idler", "number wheel", "the helix that follows",
                       "The angle budget", "How it carries"):
            assert needed in said

    @pytest.mark.parametrize("name", machine_names())
    def test_everything_is_in_its_field(self, name: str) -> None:
        """No shape and no word of a drawing begins outside it."""
        spec = load_spec(name)
        for drawing in (named_drawing(spec), ripple_drawing(spec), timetable_drawing(spec)):
            for item in drawing.items:
                for x, y in item.points if isinstance(item, Shape) else (item.at,):
                    assert -1 <= x <= drawing.width + 1
                    assert -1 <= y <= drawing.height + 1

    def test_the_ripple_by_hand(self) -> None:
        """9999 + 1 on the slate: pin 1 ends at 148.5°, place 2 at 224.5 + 9°, then 12° from place to place."""
        steps = ripple_of(load_spec("slate"))
        assert [step.angle for step in steps] == [0, 148.5, 233.5, 245.5, 257.5, 269.5]
        assert [step.out for step in steps] == [0, 1, 2, 3, 4, 0]
        assert steps[-1].digits == (0, 0, 0, 0, 1, 0)
        assert steps[-1].words == "The carry moves wheel 5 from 0 to 1."

    @pytest.mark.parametrize("name", machine_names())
    def test_the_ripple_adds_up(self, name: str) -> None:
        """Its last row is what integers say: nines and one."""
        spec = load_spec(name)
        last = ripple_of(spec)[-1].digits
        assert sum(digit * 10**place for place, digit in enumerate(last)) == 10**spec.setting_places

    def test_the_timetable_stands_at_the_angles(self) -> None:
        """A filled bar for each place from 2 on, as long as the pitch, at its contact angle."""
        spec = load_spec("bench")
        bars = [item for item in timetable_drawing(spec).items
                if isinstance(item, Shape) and item.fill == CARRY and item.closed]
        found = sorted((round((bar.points[0][0] - LEFT) / DEGREE, 6), round((bar.points[1][0] - LEFT) / DEGREE, 6))
                       for bar in bars)
        assert found == [(passing.contact, passing.end) for passing in layout(spec).following]

    def test_grey_tells_the_helices_apart(self) -> None:
        """One is filled and the other open: without colour the two fills are far apart."""
        def grey(color: str) -> float:
            red, green, blue = (int(color[at:at + 2], 16) for at in (1, 3, 5))
            return (0.2126 * red + 0.7152 * green + 0.0722 * blue) / 255
        spec = load_spec("bench")
        fills = {item.fill for item in timetable_drawing(spec).items
                 if isinstance(item, Shape) and item.stroke == CARRY}
        assert len(fills) == 2
        assert abs(grey(max(fills)) - grey(min(fills))) > 0.5

    def test_a_broken_rule_is_told(self) -> None:
        """A drum that is late on purpose says so, with its figures."""
        late = load_spec("slate").__class__(setting_places=3, result_places=5, counter_places=3, carry_reach=5,
                                            helix_step=5.0, allow_faulty_timing=True)
        rules = poster_content(late, Fonts())["budget"]["rules"]
        assert rules[0].startswith("Broken: A carry ripples through all places in one turn: helix step 5° < pin pitch")

    def test_pictures_have_words(self) -> None:
        """Each drawing has an alternative text that says what it shows."""
        content = poster_content(load_spec("slate"), Fonts())
        assert "Carry levers" in content["machine"]["alt"]
        assert "additive helix, place 2 to 6" in content["timetable"]["alt"]
        assert "233.5°: The carry moves wheel 2 from 9 to 0." in content["ripple"]["alt"]

    def test_a_name_is_text(self, tmp_path: Path) -> None:
        """Markup in a machine's name or note is printed as it was written."""
        from dataclasses import replace
        spec = replace(load_spec("slate"), name="#box[*A*] <b>", note="$x$ // no comment")
        path = poster(spec, tmp_path / "a.pdf")
        said = words_of(pypdfium2.PdfDocument(path))
        assert "#box[*A*] <b>" in said
        assert "$x$ // no comment" in said

    def test_refusals(self, tmp_path: Path) -> None:
        with pytest.raises(InputError, match=r"a poster is a \.pdf: a\.png ends otherwise"):
            poster("slate", tmp_path / "a.png")
        with pytest.raises(InputError, match="cannot be written: No such file"):
            poster("slate", tmp_path / "nowhere" / "a.pdf")


class TestTheWorking:
    """A table of strokes."""

    def test_says_what_the_working_says(self, tmp_path: Path) -> None:
        """Every line's words, algebra and windows, in both kinds of file."""
        working = divide(Machine(load_spec("bench")), 3551, 113, places=2)
        pdf = working_sheet(working, tmp_path / "a.pdf")
        html = working_sheet(working, tmp_path / "a.html").read_text(encoding="utf-8")
        said = words_of(pypdfium2.PdfDocument(pdf))
        assert "3551 ÷ 113 = 31.42, remainder 0.54" in said
        assert "3551 ÷ 113 = 31.42, remainder 0.54" in html
        for row in working.table():
            for text in (row.words.split(".")[0], row.algebra):
                assert text in html
                assert re.sub(r"\s", "", text) in re.sub(r"\s", "", said)

    def test_only_workings(self, tmp_path: Path) -> None:
        with pytest.raises(InputError, match="a working is printed, not 7"):
            working_sheet(7, tmp_path / "a.pdf")  # type: ignore[arg-type]

    def test_keeps_what_is_there(self, tmp_path: Path) -> None:
        """Unless it is told that it may be replaced."""
        path = tmp_path / "a.html"
        path.write_text("before")
        working = multiply(Machine(load_spec("slate")), 12, 3)
        with pytest.raises(InputError, match="is there already"):
            working_sheet(working, path)
        assert path.read_text() == "before"
        working_sheet(working, path, replace=True)
        assert "12 × 3 = 36" in path.read_text(encoding="utf-8")
