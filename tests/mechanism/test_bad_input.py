"""Bad input of every kind: the message gives the rule, the value and the place, and nothing has moved."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from sympy import Integer, oo

from mechcalc import InputError, Machine, MachineSpec, MechcalcError, SettingError, SpecError

from .machines import TRIAL

HUGE = 10**5000


def refusal(machine: Machine, attempt) -> str:
    """The message of an `InputError`, after checking that nothing has moved."""
    state, strokes = machine.state, machine.strokes
    with pytest.raises(InputError) as caught:
        attempt(machine)
    assert isinstance(caught.value, (MechcalcError, ValueError))
    assert machine.state is state
    assert machine.strokes == strokes
    return str(caught.value)


@pytest.fixture
def machine() -> Machine:
    """With something to lose."""
    machine = Machine(TRIAL)
    machine.set(345)
    machine.turn(2)
    return machine


# No whole number at all: what it is, and what the message calls it.
NO_NUMBER = [("seven", "'seven' (str)"), ("7", "'7' (str)"), (3.0, "3.0 (float)"), (True, "True (bool)"),
             (None, "None (NoneType)"), (float("nan"), "nan (float)"), (float("inf"), "inf (float)"),
             (Decimal(7), "Decimal('7') (Decimal)"), (Fraction(7), "Fraction(7, 1) (Fraction)"), ([7], "[7] (list)"),
             (7j, "7j (complex)"), (b"7", "b'7' (bytes)"), (np.True_, "np.True_ (bool)"),
             (np.float64(7), "np.float64(7.0) (float64)"), ([HUGE], "a list that cannot be shown (list)")]
TAKES_WHOLE = {
    "the setting": lambda m, value: m.set(value),
    "a setting lever's place": lambda m, value: m.set_lever(value, 1),
    "the digit of lever 2": lambda m, value: m.set_lever(2, value),
    "a number of turns": lambda m, value: m.turn(value),
    "a number of places to shift": lambda m, value: m.shift(value),
    "a carriage position": lambda m, value: m.shift_to(value),
    "a shift of one place": lambda m, value: m.ease_carriage(value),
}


class TestWholeNumbers:
    """Levers, turns and positions are counted."""

    @pytest.mark.parametrize(("value", "shown"), NO_NUMBER, ids=[shown for _, shown in NO_NUMBER])
    @pytest.mark.parametrize("what", TAKES_WHOLE)
    def test_what_is_no_whole_number_is_refused(self, machine, what, value, shown):
        """Even where it happens to be whole: a lever has no position 3.0."""
        said = refusal(machine, lambda m: TAKES_WHOLE[what](m, value))
        assert said == f"{what} must be a whole number, not {shown}"

    @pytest.mark.parametrize(("attempt", "said"), [
        (lambda m: m.set(-1), "the setting cannot be -1: it goes from 0 upwards"),
        (lambda m: m.set(-HUGE), "the setting cannot be a number of about 5001 digits: it goes from 0 upwards"),
        (lambda m: m.set(1000), "the setting cannot be 1000: there are 3 levers, and the largest setting is 999"),
        (lambda m: m.set(10**50 - 1), "the setting cannot be a number of 50 digits: there are 3 levers, and the "
                                      "largest setting is 999"),
        (lambda m: m.set(HUGE), "the setting cannot be a number of about 5001 digits: there are 3 levers, and the "
                                "largest setting is 999"),
        (lambda m: m.set_lever(2, 12), "lever 2 cannot be set to 12: a lever goes from 0 to 9"),
        (lambda m: m.set_lever(2, -1), "lever 2 cannot be set to -1: a lever goes from 0 to 9"),
        (lambda m: m.set_lever(0, 1), "a setting lever's place cannot be 0: it goes from 1 to 3"),
        (lambda m: m.set_lever(4, 1), "a setting lever's place cannot be 4: it goes from 1 to 3"),
    ])
    def test_what_the_levers_cannot_take(self, machine, attempt, said):
        """A setting error, with the lever and its range."""
        assert refusal(machine, attempt) == said
        with pytest.raises(SettingError):
            attempt(machine)

    @pytest.mark.parametrize(("attempt", "said"), [
        (lambda m: m.turn(10_001), "a number of turns cannot be 10001: it goes from -10000 to 10000"),
        (lambda m: m.turn(-HUGE), "a number of turns cannot be a number of about 5001 digits: it goes from -10000 to "
                                  "10000"),
        (lambda m: m.shift_to(3), "a carriage position cannot be 3: it goes from 0 to 2"),
        (lambda m: m.shift_to(-1), "a carriage position cannot be -1: it goes from 0 to 2"),
        (lambda m: m.ease_carriage(2), "a shift of one place cannot be 2: it goes from -1 to 1"),
        (lambda m: m.ease_carriage(0), "a shift of one place cannot be 0: it is 1 or -1"),
        (lambda m: m.seat_carriage(3), "a carriage position cannot be 3: it goes from 0 to 2"),
    ])
    def test_what_is_out_of_range(self, machine, attempt, said):
        """With the range."""
        assert refusal(machine, attempt) == said

    @pytest.mark.parametrize("seven", [np.int8(7), np.int64(7), np.uint8(7), Integer(7), np.array(7)],
                             ids=lambda seven: type(seven).__name__)
    def test_other_libraries_whole_numbers_are_taken(self, seven):
        """numpy's and sympy's integers are whole numbers; what is kept is Python's own."""
        machine = Machine(TRIAL)
        machine.set(seven)
        machine.turn(seven)
        machine.set_lever(np.int16(2), seven)
        assert (machine.result, machine.setting) == (49, 77)
        assert type(machine.strokes[0].argument) is int
        assert {type(digit) for digit in (*machine.setting_digits, *machine.result_digits)} == {int}


class TestAngles:
    """A crank angle is any finite number of degrees."""

    @pytest.mark.parametrize(("value", "said"), [
        ("90", "must be a number of degrees, not '90' (str)"), (True, "must be a number of degrees, not True (bool)"),
        (np.True_, "must be a number of degrees, not np.True_ (bool)"),
        (None, "must be a number of degrees, not None (NoneType)"),
        (90j, "must be a number of degrees, not 90j (complex)"),
        (float("nan"), "must be a finite number of degrees, not nan"),
        (float("-inf"), "must be a finite number of degrees, not -inf"),
        (HUGE, "must be a finite number of degrees, not a number of about 5001 digits"),
        (Decimal("NaN"), "must be a finite number of degrees, not Decimal('NaN')"),
        (oo, "must be a finite number of degrees, not oo"),
        (np.array([1.0, 2.0]), "must be a finite number of degrees, not array([1., 2.])"),
        (Fraction(HUGE, 3), "must be a finite number of degrees, not a Fraction that cannot be shown"),
    ], ids=lambda value: str(type(value).__name__))
    def test_what_is_no_angle(self, machine, value, said):
        """For the crank and for the clearing levers."""
        assert refusal(machine, lambda m: m.crank(value)) == f"a crank angle {said}"
        assert refusal(machine, lambda m: m.pull_clearing_lever("result", value)) == f"a clearing lever's angle {said}"

    @pytest.mark.parametrize("right", [90, 90.0, Decimal(90), Fraction(90), np.float32(90), np.int16(90), Integer(90)],
                             ids=lambda right: type(right).__name__)
    def test_what_is_one(self, right):
        """A right angle by any name; what is kept is a float."""
        machine = Machine(TRIAL)
        assert type(machine.crank(right).argument) is float
        assert machine.state.angle == 90.0

    def test_no_more_than_ten_thousand_turns_in_one_go(self, machine):
        """An angle that would keep the crank busy for hours is a slip of the keyboard."""
        assert refusal(machine, lambda m: m.crank(1e300)) == (
            "a crank angle cannot be 1e+300 degrees: at most 10000 turns in one go")

    @pytest.mark.parametrize("degrees", [-0.1, 90.1, 1e300])
    def test_a_clearing_lever_has_a_stroke_of_ninety_degrees(self, machine, degrees):
        """Not less than none, not more than all."""
        assert refusal(machine, lambda m: m.pull_clearing_lever("counter", degrees)) == (
            f"the counter clearing lever cannot stand at {degrees:g} degrees: it goes from 0 to 90")


class TestOperationsByName:
    """As pictures and saved sessions ask for them."""

    @pytest.mark.parametrize(("operation", "argument", "said"), [
        ("dance", None, "'dance' is no operation: there are set, set lever, crank, "),
        (["set"], 1, "['set'] is no operation: there are "),
        ("set lever", 5, "a lever is set by (place, digit), not 5"),
        ("set lever", (1, 2, 3), "a lever is set by (place, digit), not (1, 2, 3)"),
        ("set lever", "12", "a lever is set by (place, digit), not '12'"),
        ("pull", "result", "a clearing lever is pulled by (register, degrees), not 'result'"),
        ("pull", ("setting", 90), "a clearing lever is 'result' or 'counter', not 'setting'"),
        ("pull", (["result"], 90), "a clearing lever is 'result' or 'counter', not ['result']"),
        ("clear result", 1, "this stroke takes no argument, not 1"),
        ("transfer lever", 1, "the back-transfer lever is down (True) or up (False), not 1"),
    ])
    def test_what_is_no_operation(self, machine, operation, argument, said):
        """Named, with what there is."""
        assert refusal(machine, lambda m: m.perform(operation, argument)).startswith(said)

    def test_a_machine_needs_a_spec(self):
        """And says where one comes from."""
        with pytest.raises(InputError, match=re.escape("a machine is built from a MachineSpec, not 'bench'; "
                                                       "load_spec(name) gives one")):
            Machine("bench")

    def test_a_machine_cannot_start_from_another_machines_state(self):
        """As many digits as levers and wheels."""
        other = MachineSpec.from_dict({**TRIAL.to_dict(), "result_places": 5})
        with pytest.raises(InputError, match="a machine of 3 levers, 5 wheels and 3 counter wheels cannot start from "):
            Machine(other, state=Machine(TRIAL).state)


def wrong(**values) -> tuple[str, ...]:
    """The rules that the trial machine breaks with other values."""
    with pytest.raises(SpecError) as caught:
        MachineSpec(**{**TRIAL.to_dict(), **values})
    return caught.value.problems


class TestSpecs:
    """A spec says all that is wrong with it."""

    @pytest.mark.parametrize(("key", "value", "said"), [
        ("result_places", "13", "result places must be a whole number, not '13' (str)"),
        ("result_places", 13.0, "result places must be a whole number, not 13.0 (float)"),
        ("setting_places", True, "setting places must be a whole number, not True (bool)"),
        ("counter_places", 0, "counter places cannot be 0: it goes from 1 to 40"),
        ("counter_places", -3, "counter places cannot be -3: it goes from 1 to 40"),
        ("carry_reach", HUGE, "carry reach cannot be a number of about 5001 digits: it goes from 1 to 40"),
        ("positions", None, "carriage positions must be a whole number, not None (NoneType)"),
        ("pin_pitch", "wide", "pin pitch must be a number of degrees, not 'wide' (str)"),
        ("pin_pitch", float("nan"), "pin pitch must be a finite number of degrees, not nan"),
        ("pin_pitch", 0, "pin pitch cannot be 0 degrees: it is more than 0 and at most 360"),
        ("gap", -0.5, "gap before the carry pins cannot be -0.5 degrees: it is from 0 and at most 360"),
        ("helix_step", 361, "helix step cannot be 361 degrees: it is more than 0 and at most 360"),
        ("counter_carry", "yes", "counter_carry is true or false, not 'yes'"),
        ("back_transfer", 1, "back_transfer is true or false, not 1"),
        ("name", 7, "name is a text, not 7"),
    ], ids=lambda value: value if isinstance(value, str) else type(value).__name__)
    def test_a_wrong_value(self, key, value, said):
        """Under the part's own name."""
        assert wrong(**{key: value}) == (said,)

    def test_all_wrong_values_at_once(self):
        """In the order of the machine's description."""
        assert wrong(setting_places=-1, result_places="x", gap=None, counter_carry=0) == (
            "setting places cannot be -1: it goes from 1 to 40", "result places must be a whole number, not 'x' (str)",
            "gap before the carry pins must be a number of degrees, not None (NoneType)",
            "counter_carry is true or false, not 0")

    @pytest.mark.parametrize("make", [MachineSpec.from_dict, lambda keys: MachineSpec(**keys)])
    def test_a_typo_in_a_key_is_told_which_key_was_meant(self, make):
        """In a file's data and in Python alike."""
        with pytest.raises(SpecError) as caught:
            make({"setting_place": 3, "result_places": 4, "counter_places": 3, "carry_reach": 4, "helixstep": 12,
                  "colour": "green"})
        assert caught.value.problems[:2] == (
            "'setting_place' is no key of a machine: did you mean 'setting_places'?",
            "'helixstep' is no key of a machine: did you mean 'helix_step'?")
        assert caught.value.problems[2].startswith("'colour' is no key of a machine; the keys are setting_places, ")
        assert caught.value.problems[3] == "'setting_places' is missing"

    @pytest.mark.parametrize("data", [None, 7, "setting_places", ["setting_places"]])
    def test_data_that_is_no_table(self, data):
        """Keys and values are wanted."""
        with pytest.raises(SpecError, match="a machine is described by keys and values, not by "):
            MachineSpec.from_dict(data)

    def test_a_spec_is_frozen(self):
        """A machine is not rebuilt while it stands."""
        with pytest.raises(AttributeError):
            TRIAL.gap = 1.0
