"""Sheets: what may be asked for, who gets which numbers, and that the same seed makes the same sheets."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace

import pytest

from mechcalc import InputError, load_spec
from mechcalc.preparing.class_list import read_class
from mechcalc.preparing.sheets import Item, Sheet, load_sheet, make_worksheets, read_set, write_set
from mechcalc.preparing.sheets.codes import read_code
from mechcalc.preparing.sheets.dealing import alike, deal
from mechcalc.preparing.sheets.orders import ORDERS
from mechcalc.preparing.sheets.questions import QUESTIONS
from mechcalc.preparing.sheets.worksheets import NARROW, grouped
from mechcalc.preparing.tasks import TASKS

ROOT = Path(__file__).parents[2]
SHIPPED = sorted((ROOT / "data" / "class").glob("*.toml"))
NUMBERS = {"add": (347, 268, 95), "subtract": (502, 47), "subtract by complement": (502, 47), "multiply": (347, 26),
           "multiply by short cut": (347, 98), "chain": (12, 34, 56), "chain by short cut": (12, 98, 56),
           "divide": (3556, 47), "divide without putting back": (3556, 47), "divide comparing first": (3556, 47),
           "divide building up": (3556, 47), "divide by reciprocal": (355, 113), "square root": (5476,),
           "square root restoring": (5476,), "cube root": (1730,)}


def sheet(*items: Item, **more) -> Sheet:
    return Sheet(title="Trial", machine="bench", items=items or (Item(method="multiply", numbers=(347, 26)),), **more)


class TestOrders:
    """The words of the sheets."""

    def test_every_calculation_has_its_order(self):
        assert set(ORDERS) == set(TASKS) == set(NUMBERS)

    @pytest.mark.parametrize("method", ORDERS)
    def test_what_is_asked_usually_can_be_answered(self, method):
        """Every usual question of every calculation has an answer."""
        (variant,) = make_worksheets(sheet(Item(method=method, numbers=NUMBERS[method])), 1).variants
        asked = ORDERS[method]
        assert [one.name for one in variant.problems[0].keyed] == [*asked.predict, *asked.ask]
        assert set(asked.ask) | set(asked.predict) <= set(QUESTIONS)

    def test_questions_are_lettered_in_order_and_own_ones_are_not(self):
        item = Item(method="multiply", numbers=(347, 26), predict=("turns", "Which wheel moves last?"), ask=("result",))
        made = make_worksheets(sheet(item, item), 1)
        assert [(one.label, one.before) for problem in made.variants[0].problems for one in problem.asked] == [
            ("1a", True), ("", True), ("1b", False), ("2a", True), ("", True), ("2b", False)]
        assert made.labels == ("1a", "1b", "2a", "2b")

    def test_groups_of_three(self):
        assert grouped("1234 + 56789 = 58023; 0.123456; 00012345") == \
            f"1234 + 56{NARROW}789 = 58{NARROW}023; 0.123456; 00012345"


class TestFiles:
    """Sheets in TOML."""

    @pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
    def test_those_that_come_with_the_kit(self, path):
        """Each can be made, for a few, and its head says how."""
        made = make_worksheets(load_sheet(path), 2, seed=1)
        assert len({problem.numbers for one in made.variants for problem in one.problems}) == 2 * len(made.sheet.items)
        assert f"worksheets data/class/{path.name} " in path.read_text(encoding="utf-8")

    @pytest.mark.parametrize(("text", "message"), [
        ("title = 'x'\nmachine = 'bench'\n", "'items' is missing"),
        ("title = 'x'\nmachine = 'bench'\nitems = []\n", "a sheet has 1 to 20 items, not 0"),
        ("titel = 'x'\nmachine = 'benhc'\n[[items]]\nmethod = 'ad'\n[[items]]\nwish = 3\n",
         "a sheet with 5 faults:\n  - 'titel' is no key; did you mean 'title'?\n  - 'title' is missing\n"
         "  - item 1: 'ad' is no method that numbers can be found for: did you mean 'add'?\n"
         "  - item 2: 'method' is missing\n  - machine: 'benhc' is no machine of the catalogue: did you mean 'bench'?"),
        ("title = 'x'\nmachine = 'bench'\n[[items]]\nmethod = 'add'\nwish = {conditons = []}\n",
         "item 1: in the wish, 'conditons' is no key; did you mean 'conditions'?"),
        ("title = 'x'\nmachine = 'bench'\n[[items]]\nmethod = 'add'\nwish = {conditions = ['riple >= 4']}\n",
         "did you mean 'ripple'?"),
        ("title = 'x'\nmachine = 'bench'\npaper = 'a3'\n[[items]]\nmethod = 'add'\n",
         "the paper is 'a4' or 'letter', not 'a3'"),
        ("title = 'x'\nmachine = 'bench'\n[[items]]\nmethod = 'add'\nask = ['sum']\n",
         "item 1: 'sum' cannot be asked on a sheet"),
        ("title = 'x'\nmachine = 'bench'\n[[items]]\nmethod = 'add'\nask = ['turns', 'turns']\n",
         "item 1: 'turns' stands twice under ask"),
        ("title = 'x'\nmachine = 'bench'\n[[items]]\nmethod = 'add'\nask = 'turns'\n",
         "item 1: the questions under ask stand in brackets"),
        ("title = 'x'\nmachine = 'bench'\n[[items]]\nmethod = 'multiply'\nnumbers = [1, 2, 3]\n",
         "item 1: multiply takes 2 numbers, not 3"),
        ("title = 'x'\nmachine = 'bench'\n[[items]]\nmethod = 'multiply'\nnumbers = [[1, 2], [3, -4]]\n",
         "item 1: multiplier cannot be -4: it goes from 0 upwards"),
        ("title = 'x'\nmachine = 'bench'\n[[items]]\nmethod = 'multiply'\nnumbers = [1, 2]\nwish = {digits = '3x2'}\n",
         "item 1: an item has numbers of its own or a wish, not both"),
        ("title = 'x'\nmachine = 'bench'\n[[items]]\nmethod = 'multiply'\nnumbers = [1, 2]\nplaces = 2\n",
         "item 1: multiply has no decimals: leave places out"),
        ("title = 'x'\nmachine = 'bench'\n[[items]]\nmethod = 'multiply'\nshow = ['bell']\n",
         "item 1: 'bell' is no register"),
        ("title = 1\nmachine = 'bench'\n[[items]]\nmethod = 'add'\n", "a title is a text, not 1"),
        ("title", "is no TOML file"),
    ])
    def test_what_is_wrong_is_told(self, tmp_path, text, message):
        path = tmp_path / "sheet.toml"
        path.write_text(text, encoding="utf-8")
        with pytest.raises(InputError) as no:
            load_sheet(path)
        assert message in str(no.value)

    def test_a_machine_of_ones_own_beside_the_sheet(self, tmp_path):
        (tmp_path / "own.toml").write_text(
            "setting_places = 3\nresult_places = 5\ncounter_places = 3\ncarry_reach = 5\n")
        path = tmp_path / "sheet.toml"
        path.write_text("title = 'x'\nmachine = 'own.toml'\n[[items]]\nmethod = 'add'\nnumbers = [12, 3]\n")
        assert load_sheet(path).machine.setting_places == 3

    def test_plain_data_gives_the_sheet_back(self):
        one = load_sheet(SHIPPED[0])
        assert Sheet.from_dict(one.to_dict()) == one


class TestDealing:
    """Numbers for every sheet."""

    def test_different_and_equally_hard(self):
        """Thirty sheets: thirty pairs, all within the wish, and no more than a few turns apart."""
        item = Item(method="multiply", wish={"digits": "3x2", "conditions": ["no nought in multiplier"]})
        made = make_worksheets(sheet(item), 30, seed=7)
        pairs = [one.problems[0].numbers for one in made.variants]
        assert len(set(pairs)) == 30
        assert all(100 <= a <= 999 and 10 <= b <= 99 and "0" not in str(b) for a, b in pairs)
        turns = [sum(map(int, str(b))) for _, b in pairs]  # by hand: a turn for every unit of every figure
        assert (made.bands[0].fewest, made.bands[0].most) == (min(turns), max(turns))
        assert max(turns) - min(turns) <= 6

    def test_no_number_is_on_every_sheet(self):
        """Thirty sheets that save five turns by the short cut: many multipliers, none on a third of the sheets."""
        item = Item(method="multiply by short cut", wish={"digits": "3x2", "conditions": ["turns saved >= 5"]})
        made = make_worksheets(sheet(item), 30, seed=7)
        multipliers = [one.problems[0].numbers[1] for one in made.variants]
        assert len(set(multipliers)) >= 10
        assert max(map(multipliers.count, multipliers)) < 10
        assert made.bands[0].most - made.bands[0].fewest <= 2

    def test_finds_are_taken_from_the_fullest_span(self):
        """By hand: three sheets out of finds with 4, 9, 9, 10, 11, 20 turns come from 9 to 11, and numbers differ."""
        def find(turns, *numbers):
            return SimpleNamespace(numbers=numbers, working=SimpleNamespace(turns=turns))
        finds = [find(4, 1, 1), find(9, 2, 7), find(20, 3, 3), find(9, 4, 7), find(10, 5, 7), find(11, 6, 8)]
        assert alike(finds, 3) == ((2, 7), (6, 8), (4, 7))
        assert alike(finds, 5) == ((1, 1), (2, 7), (6, 8), (4, 7), (5, 7))

    def test_the_same_seed_makes_the_same_sheets(self):
        item = Item(method="multiply")
        one, same, other = (make_worksheets(sheet(item), ["Ada", "Bea"], seed=seed) for seed in (3, 3, 4))
        assert [v.code for v in one.variants] == [v.code for v in same.variants]
        assert [v.key for v in one.variants] == [v.key for v in same.variants]
        assert [v.problems[0].numbers for v in one.variants] != [v.problems[0].numbers for v in other.variants]
        assert one.tag != other.tag

    def test_another_class_has_other_codes(self):
        """So that a sheet of Ada's is never marked as Bea's."""
        assert make_worksheets(sheet(), ["Ada"]).tag != make_worksheets(sheet(), ["Bea"]).tag

    def test_given_numbers_are_dealt_out_in_turn(self):
        item = Item(method="multiply", numbers=[(347, 26), (52, 9)])
        assert deal(item, load_spec("bench"), 5, 0) == ((347, 26), (52, 9), (347, 26), (52, 9), (347, 26))

    def test_too_few_are_refused_with_the_item(self):
        item = Item(method="multiply", wish={"digits": "=3x=4"})
        with pytest.raises(InputError, match=r"item 1: 1 of the 3 sheets can have numbers of their own"):
            make_worksheets(sheet(item), 3)

    def test_an_impossible_wish_is_refused_with_the_item(self):
        item = Item(method="multiply", wish={"digits": "1x1", "conditions": ["turns >= 10"]})
        with pytest.raises(InputError, match=r"item 1: "):
            make_worksheets(sheet(item), 3)

    def test_numbers_that_do_not_fit_the_machine(self):
        item = Item(method="multiply", numbers=(10**9, 2))
        with pytest.raises(InputError, match=r"item 1: .* does not fit this machine: the setting is short by 1 place"):
            make_worksheets(sheet(item), 1)

    def test_a_question_without_an_answer(self):
        item = Item(method="multiply", numbers=(3, 4), ask=("remainder",))
        with pytest.raises(InputError, match="item 1: multiply leaves no remainder, and 'remainder' is asked"):
            make_worksheets(sheet(item), 1)

    @pytest.mark.parametrize("people", [0, 1000, []])
    def test_nobody_or_too_many(self, people):
        with pytest.raises(InputError):
            make_worksheets(sheet(), people)


class TestFolder:
    """A set that is written and read back."""

    @pytest.fixture
    def made(self):
        return make_worksheets(sheet(Item(method="multiply", numbers=[(347, 26), (52, 9)]),
                                     Item(method="divide", numbers=(355, 113), places=2)),
                               read_class("name;id\nŁukasz;1\n李;2\n\"Ada, <b>\";3\n".encode()), seed=5)

    def test_comes_back_with_the_same_codes_and_answers(self, made, tmp_path):
        written = write_set(made, tmp_path / "set")
        again = read_set(tmp_path / "set")
        assert [(one.code, one.learner, one.key) for one in again.variants] == [
            (one.code, one.learner, one.key) for one in made.variants]
        assert sorted(path.name for path in written.paths) == [
            "answers.csv", "key.csv", "key.html", "key.pdf", "set.json", "worksheets.html", "worksheets.pdf"]

    def test_the_record_holds_no_answer(self, made, tmp_path):
        """The product 9022 stands in no record: answers are worked out again."""
        write_set(made, tmp_path, pdf=False)
        assert "9022" not in (tmp_path / "set.json").read_text(encoding="utf-8")
        assert "9022" in (tmp_path / "key.csv").read_text(encoding="utf-8-sig")
        assert "9022" not in (tmp_path / "worksheets.html").read_text(encoding="utf-8")

    def test_a_set_is_not_written_over(self, made, tmp_path):
        write_set(made, tmp_path, pdf=False)
        before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
        with pytest.raises(InputError, match="holds a set of sheets already"):
            write_set(make_worksheets(sheet(), 1), tmp_path, pdf=False)
        assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before
        write_set(make_worksheets(sheet(), 1), tmp_path, pdf=False, replace=True)
        assert len(read_set(tmp_path)) == 1

    @pytest.mark.parametrize(("old", "new", "message"), [
        ("347", "348", "was changed since it was written"), ('"format": 1', '"format": 2', "in format 1"),
        ('"seed"', '"sead"', "is damaged: KeyError"), ("{", "", "is damaged"), ("Łukasz", "Lukas", "was changed"),
        ('"multiply"', '"multply"', "is damaged: InputError: item 1: 'multply' is no method")])
    def test_a_record_that_was_changed_is_refused(self, made, tmp_path, old, new, message):
        write_set(made, tmp_path, pdf=False)
        path = tmp_path / "set.json"
        path.write_text(path.read_text(encoding="utf-8").replace(old, new, 1), encoding="utf-8")
        with pytest.raises(InputError) as no:
            read_set(tmp_path)
        assert message in str(no.value)

    def test_a_folder_without_a_set(self, tmp_path):
        with pytest.raises(InputError, match=r"holds no set of sheets: there is no set\.json"):
            read_set(tmp_path)

    def test_without_a_typesetter(self, made, tmp_path, monkeypatch):
        """The pages for a browser are written, and a note says what is missing."""
        import mechcalc.preparing.sheets.folder as folder
        monkeypatch.setattr(folder, "find_spec", lambda name: None)
        written = write_set(made, tmp_path)
        assert "No PDF was made" in written.notes[0]
        assert not list(tmp_path.glob("*.pdf"))

    def test_codes_are_proper(self, made):
        assert all(read_code(one.code.lower()) == one.code for one in made.variants)
