"""Stills of chosen angles, with labels, in a folder."""

from __future__ import annotations

from html import escape
from pathlib import Path
from xml.etree import ElementTree

import pytest

from mechcalc import InputError, Machine, load_spec, machine_names
from mechcalc.sharing import slides
from mechcalc.sharing.slideshow.labelled import labelled
from mechcalc.view import moment_text, timeline_of
from mechcalc.view.drawing import Shape, Words
from tests.sharing.films import nines
from tests.view.sessions import random_session

SVG = "{http://www.w3.org/2000/svg}"


def words_on(path: Path) -> list[str]:
    return [node.text or "" for node in ElementTree.parse(path).iter(f"{SVG}text")]


class TestSlides:
    def test_each_carry_of_the_ripple(self, tmp_path: Path) -> None:
        """9999 + 1 carries four times; each slide names the wheel, the lever, the pin and the idler in action."""
        *pictures, index = slides(nines(), tmp_path / "s")
        assert [path.name for path in pictures] == [f"slide-{number:03}.svg" for number in range(1, 5)]
        assert index.name == "index.html"
        for place, path in enumerate(pictures, start=2):
            said = words_on(path)
            for name in (f"number wheel {place}", f"carry lever of wheel {place - 1}", f"idler of place {place}"):
                assert name in said

    def test_words_for_those_who_do_not_see(self, tmp_path: Path) -> None:
        """The picture in words is each slide's title, and its alternative text on the index."""
        machine = nines()
        *pictures, index = slides(machine, tmp_path / "s", at=[842.0])
        words = moment_text(machine, 842.0)
        root = ElementTree.parse(pictures[0]).getroot()
        assert root.get("role") == "img"
        assert root.findtext(f"{SVG}title") == words
        assert f'alt="{escape(words)}"' in index.read_text(encoding="utf-8")

    @pytest.mark.parametrize("name", machine_names())
    def test_names_stay_on_the_sheet(self, name: str) -> None:
        """On every machine, whatever was done."""
        for seed in range(3):
            told = timeline_of(random_session(name, seed))
            for moment in told["moments"][::7]:
                drawing = labelled(told, moment["at"])
                for item in drawing.items:
                    for x, y in item.points if isinstance(item, Shape) else (item.at,):
                        assert 0 <= x <= drawing.width
                        assert 0 <= y <= drawing.height

    def test_names_do_not_lie_on_each_other(self) -> None:
        """Rows of names are 20 units apart or more, where they stand at one side."""
        told = timeline_of(nines("bench"))
        for moment in told["moments"]:
            named = [item.at for item in labelled(told, moment["at"]).items
                     if isinstance(item, Words) and item.bold and " of " in item.text]
            for number, (x, y) in enumerate(named):
                assert all(abs(y - other[1]) >= 20 for other in named[number + 1:] if other[0] == x)

    def test_markup_is_text(self, tmp_path: Path) -> None:
        *pictures, index = slides(nines(), tmp_path / "s", at=[900.0], title="<script>1</script> & \"co\"")
        assert "<script>" not in index.read_text(encoding="utf-8") + pictures[0].read_text(encoding="utf-8")
        assert '<script>1</script> & "co"' in words_on(pictures[0])

    def test_strokes_where_nothing_carries(self, tmp_path: Path) -> None:
        machine = Machine(load_spec("slate"))
        machine.set(12)
        machine.turn()
        assert len(slides(machine, tmp_path / "s")) == 3

    @pytest.mark.parametrize(("at", "says"), [
        ("turns", "slides are of carries or of strokes, or of degrees of travel, not of 'turns'"),
        ([-1.0], "a slide shows a travel from 0 to 960 degrees, not -1.0"), ([float("nan")], "not nan"),
        ([True], "not True"), ([], "nothing to make slides of"), ([1.0] * 201, "201 slides are too many: 200 at most")])
    def test_what_cannot_be(self, tmp_path: Path, at: object, says: str) -> None:
        with pytest.raises(InputError, match=says):
            slides(nines(), tmp_path / "s", at)  # type: ignore[arg-type]
        assert not (tmp_path / "s").exists()

    def test_an_index_that_is_there_stays(self, tmp_path: Path) -> None:
        (tmp_path / "index.html").write_text("before")
        with pytest.raises(InputError, match="is there already"):
            slides(nines(), tmp_path)
        assert (tmp_path / "index.html").read_text() == "before"
        assert len(slides(nines(), tmp_path, replace=True)) == 5
