"""Wishes: what they hold, what makes no sense, and how they are kept in a file."""

from __future__ import annotations

import pytest

from mechcalc import InputError, MachineSpec, SpecError, load_spec
from mechcalc.preparing import TASKS, Condition, Span, Wish, find, load_wish, task
from mechcalc.preparing.tasks import MOST_NUMBERS


def trouble(*given, **named) -> str:
    """Why a wish is refused."""
    with pytest.raises(InputError) as no:
        Wish(*given, **named)
    return str(no.value)


class TestWish:
    """What a wish holds."""

    def test_everything_has_its_plain_form(self):
        wish = Wish("Multiply-by_short-cut", digits="3x2", conditions="ripple >= 4")
        assert wish.method == "multiply by short cut"
        assert wish.digits == wish.spans == (Span(100, 999), Span(10, 99))
        assert wish.conditions == (Condition("ripple", low=4),)
        assert wish.names == ("multiplicand", "multiplier")
        assert wish.spec == load_spec("bench")
        assert wish == Wish("multiply by short cut", "bench", [3, 2], [Condition("ripple", low=4)])

    def test_usual_sizes(self):
        for name, row in TASKS.items():
            assert tuple(len(str(span.low)) for span in Wish(name).spans) == row.digits

    def test_as_many_numbers_as_are_given_sizes(self):
        assert Wish("add", digits=[2] * 5).names == tuple(f"number {place}" for place in range(1, 6))
        assert Wish("subtract", digits="4x3x2").names == ("minuend", "subtrahend", "subtrahend 3")

    def test_every_number_is_each_of_them(self):
        wish = Wish("chain", conditions=["no nought in every number", "no nought in factor 1"])
        assert [one.text for one in wish.conditions] == [f"noughts in factor {place} = 0" for place in (1, 2, 3)]

    def test_bounds_on_numbers_leave_less_to_try(self):
        wish = Wish("multiply", conditions=["multiplier >= 50", "multiplicand from 300 to 310"])
        assert wish.spans == (Span(300, 310), Span(50, 99))
        assert wish.digits == (Span(100, 999), Span(10, 99))

    def test_a_machine_of_ones_own(self):
        spec = MachineSpec(setting_places=3, result_places=5, counter_places=2, carry_reach=5, name="Mine")
        assert Wish("add", spec, "3x3").spec is spec
        assert "on Mine (number 1 of 3 digits" in Wish("add", spec, "3x3").words((Span(100, 999),) * 2)


class TestNonsense:
    """Refused before anything is tried, with the rule, the value and the place."""

    @pytest.mark.parametrize(("method", "asked", "message"), [
        ("multiply", "riple >= 4", "'riple' in 'riple >= 4' is neither counted nor a number of multiply: did you mean "
                                   "'ripple'?"),
        ("multiply", "divisor >= 4", "'divisor' in 'divisor >= 4' is neither counted nor"),
        ("multiply", "remainder = 0", "the numbers are multiplicand, multiplier, answer, product"),
        ("multiply", "noughts = 0", "noughts in which number? the numbers are multiplicand"),
        ("multiply", "noughts in mutliplier = 0", "noughts in 'mutliplier'? did you mean 'multiplier'?"),
        ("multiply", "ripple in answer >= 4", "ripple is counted for the whole calculation; leave out 'in answer'"),
        ("divide", "short reach shows", "'wheels wrong >= 1' has no meaning for divide: wheels wrong goes with add, "
                                        "subtract, subtract by complement, multiply, multiply by short cut"),
        ("add", "turns saved >= 1", "turns saved goes with multiply, multiply by short cut, chain, chain by short cut"),
        ("cube root", "slips show", "has no meaning for cube root"),
        ("multiply", "ripple >= 7", "'ripple >= 7' cannot be met on Slate: it has 6 number wheels"),
        ("multiply", "product >= 1000000", "it has 6 number wheels"),
        ("multiply", "figures in product >= 7", "it has 6 number wheels"),
        ("divide", "quotient >= 1000", "it has 3 carriage positions with a counter wheel"),
        ("multiply", "turns <= -1", "'turns <= -1' cannot be met: turns is 0 or more"),
        ("multiply", "product < 0", "'product <= -1' cannot be met: product is 0 or more"),
        ("multiply", "multiplier >= 500", "'multiplier >= 500' leaves nothing of the multiplier, of 2 digits")])
    def test_a_condition_without_meaning(self, method, asked, message):
        assert message in trouble(method, "slate", conditions=["turns <= 99", asked])

    @pytest.mark.parametrize(("method", "asked", "message"), [
        ("multiply", ["ripple >= 4", "turns = 3", "ripple < 3"],
         "'ripple >= 4' and 'ripple <= 2' contradict each other: nothing is at least 4 and at most 2"),
        ("multiply", ["product >= 9000", "answer < 5000"],
         "'product >= 9000' and 'answer <= 4999' contradict each other"),
        ("divide", ["no remainder", "a remainder"], "contradict each other: nothing is at least 1 and at most 0")])
    def test_contradictions(self, method, asked, message):
        assert message in trouble(method, conditions=asked)

    @pytest.mark.parametrize(("method", "rest", "message"), [
        ("mutliply", {}, "'mutliply' is no method that numbers can be found for: did you mean 'multiply'?"),
        (3, {}, "a method is asked for by its name, not 3"),
        ("multiply", {"digits": "3"}, "multiply takes 2 numbers, not 1: multiplicand, multiplier"),
        ("add", {"digits": [2] * (MOST_NUMBERS + 1)}, "add takes 2 to 12 numbers, not 13: number 1, number 2, …"),
        ("multiply", {"digits": "10x2"}, "the multiplicand cannot have 10 digits on Bench: it has 9 levers"),
        ("multiply", {"digits": "3x9"},
         "the multiplier cannot have 9 digits on Bench: it has 8 carriage positions with a counter wheel"),
        ("divide", {"digits": "14x2"}, "the dividend cannot have 14 digits on Bench: it has 13 number wheels"),
        ("divide", {"digits": "3x=0"}, "the divisor cannot be 0: nothing can be divided by nought"),
        ("multiply", {"digits": ""}, "'' is no size of a number"),
        ("multiply", {"places": 2}, "multiply has no decimals, and 2 are asked for"),
        ("divide", {"places": -1}, "a number of decimals cannot be -1: it goes from 0 to 40"),
        ("multiply", {"conditions": 3}, "conditions come as texts in a list, not as 3"),
        ("multiply", {"conditions": ["turns <= 9"] * 21}, "21 conditions are too many: 20 at most")])
    def test_sizes_and_kinds(self, method, rest, message):
        assert message in trouble(method, **rest)

    def test_a_machine_that_is_none(self):
        with pytest.raises(SpecError, match="'benhc' is no machine of the catalogue: did you mean 'bench'"):
            Wish("multiply", "benhc")

    def test_below_nought_is_for_differences(self):
        assert Wish("subtract", conditions=["answer below nought"]).conditions[0].high == -1

    def test_find_takes_a_wish(self):
        with pytest.raises(InputError, match="what is wanted is a Wish, not 'multiply'"):
            find("multiply")
        wish = Wish("multiply")
        for bad, message in (({"many": 0}, "a number of finds cannot be 0: it goes from 1 to 1000"),
                             ({"seed": "x"}, "a seed must be a whole number, not 'x'"),
                             ({"budget": 0}, "a budget cannot be 0: it goes from 1 upwards")):
            with pytest.raises(InputError, match=message):
                find(wish, **bad)


class TestFiles:
    """A wish in a TOML file."""

    def test_it_comes_back(self, tmp_path):
        path = tmp_path / "wish.toml"
        path.write_text('method = "divide"\nmachine = "slate"\ndigits = [4, "2-3"]\nplaces = 1\n'
                        'with = ["no nought in quotient", "the bell rings"]\n')
        wish = load_wish(path)
        assert wish == Wish("divide", "slate", "4x2-3", ["no nought in quotient", "bell rings"], 1)
        assert Wish.from_dict(wish.to_dict()) == wish

    def test_a_machine_beside_it(self, tmp_path):
        (tmp_path / "mine.toml").write_text(
            "setting_places = 3\nresult_places = 5\ncounter_places = 3\ncarry_reach = 5\n")
        (tmp_path / "wish.toml").write_text('method = "add"\nmachine = "mine.toml"\n')
        assert load_wish(tmp_path / "wish.toml").spec.result_places == 5

    def test_a_spec_has_no_name_to_write_down(self):
        with pytest.raises(InputError, match="save it as a TOML file, and name that"):
            Wish("add", load_spec("bench")).to_dict()

    @pytest.mark.parametrize(("text", "message"), [
        ('metod = "add"', "'metod' is no key of a wish: did you mean 'method'?"),
        ('machine = "bench"', 'a wish needs a method, as in method = "multiply"'),
        ('method = "add"\nwith = ["riple >= 4"]', "did you mean 'ripple'?"), ("method = ", "is no TOML file"),
        ('method = "add"\nmachine = "nix"', "'nix' is no machine of the catalogue")])
    def test_what_is_wrong_is_told_with_its_place(self, tmp_path, text, message):
        path = tmp_path / "wish.toml"
        path.write_text(text)
        with pytest.raises(InputError) as no:
            load_wish(path)
        assert str(path) in str(no.value)
        assert message in str(no.value)

    def test_a_file_that_is_not_there(self, tmp_path):
        with pytest.raises(InputError, match="cannot be read: No such file or directory"):
            load_wish(tmp_path / "wish.toml")


def test_every_task_is_found_by_its_name():
    """However it is written; and a row is its own name."""
    for name, row in TASKS.items():
        assert task(name) is task(name.upper().replace(" ", "-")) is task(row) is row
        assert repr(row) == f"<Task {name}: {row.says}>"
