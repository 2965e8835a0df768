"""Complements: what they are, and how a row of nines is read."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st
from mechanism.machines import specs

from mechcalc import InputError, Machine
from mechcalc.methods import complement_reading, nines_complement, signed_result, subtract, tens_complement

from .helpers import machine, trouble


class TestDefinition:
    @pytest.mark.parametrize(("number", "places", "complement"), [(6, 1, 4), (84, 2, 16)])
    def test_the_dictionary(self, number, places, complement):
        """Webster's dictionary of 1913, "Complement": 4 is the complement of 6, 16 of 84."""
        assert tens_complement(number, places) == complement

    @pytest.mark.parametrize(("number", "places", "tens", "nines"), [
        (225, 4, 9775, 9774), (1827, 8, 99998173, 99998172)])
    def test_the_textbook(self, number, places, tens, nines):
        """Tinder, Engineering Digital Design, table 2.8."""
        assert (tens_complement(number, places), nines_complement(number, places)) == (tens, nines)

    @given(st.integers(1, 20), st.integers(0, 10**20))
    def test_the_nines_complement_is_each_digit_from_nine(self, places, number):
        number %= 10**places
        text = str(number).zfill(places)
        assert str(nines_complement(number, places)).zfill(places) == "".join(str(9 - int(d)) for d in text)
        assert tens_complement(number, places) == (nines_complement(number, places) + 1) % 10**places
        assert tens_complement(tens_complement(number, places), places) == number

    @pytest.mark.parametrize("function", [tens_complement, nines_complement])
    def test_a_number_needs_room(self, function):
        with pytest.raises(InputError, match="1000 has no complement in 3 places: it takes 4"):
            function(1000, 3)
        with pytest.raises(InputError, match="a number of places cannot be 0: it goes from 1 to 40"):
            function(0, 0)
        with pytest.raises(InputError, match="a number to take the complement of cannot be -1"):
            function(-1, 3)


class TestReading:
    def test_a_plain_number(self):
        worked = machine("slate")
        worked.set(9999)
        worked.turn()
        reading = complement_reading(worked)
        assert (reading.value, reading.nines, reading.is_complement) == (9999, 0, False)
        assert str(reading) == "9999 is a plain number."

    def test_nines_in_front_up_to_the_highest_wheel_in_reach(self):
        worked = machine("slate")
        subtract(worked, 0, 22)
        reading = complement_reading(worked)
        assert (reading.shown, reading.value, reading.places, reading.nines) == (999978, -22, 6, 4)

    def test_nothing_but_nines_is_minus_one(self):
        worked = machine("short")
        subtract(worked, 0, 1)
        assert str(complement_reading(worked)) == (
            "9999999 begins with 7 nines: it is the complement of 1 in 7 places and means −1.")

    def test_nines_that_end_where_another_carriage_position_ends_can_be_read_in_two_ways(self):
        worked = machine("short")
        subtract(worked, 0, 1)
        worked.shift(2)
        assert trouble(worked, lambda: complement_reading(worked)) == (
            "9999999 can be read in two ways: as a plain number, or as a complement made with the carriage at 0, where "
            "carries reach wheel 7; the carriage is at 2 now. Shift it there to read the complement")
        assert signed_result(worked) == -1

    def test_a_nine_at_the_reach_below_other_digits_can_be_read_in_two_ways(self):
        worked = machine("short")
        worked.set(19)
        worked.shift_to(6)
        worked.turn()
        worked.shift_to(0)
        assert worked.result == 19_000_000
        assert trouble(worked, lambda: complement_reading(worked)) == (
            "19000000 can be read in two ways: carries reach wheel 7, and the 9 there may be a digit, or a borrow that "
            "never came to the wheels above it")

    @given(specs(), st.lists(st.tuples(st.integers(0, 10**9 - 1), st.integers(-3, 3), st.integers(0, 9)), max_size=6))
    def test_by_the_bell_the_register_keeps_exact_account_of_every_turn(self, spec, work):
        """Oracle: whole numbers, whatever the reach loses at the top of it."""
        worked, exact = Machine(spec), 0
        for number, turns, position in work:
            number %= 10**min(spec.setting_places, spec.result_places)
            position %= min(spec.positions, max(1, spec.result_places - spec.setting_places + 1))
            worked.shift_to(position)
            worked.set(number)
            worked.turn(turns)
            exact += turns * number * 10**position
        assert signed_result(worked) == exact

    def test_clearing_begins_the_account_anew(self):
        worked = machine("slate")
        subtract(worked, 0, 5)
        worked.clear_result()
        assert signed_result(worked) == 0
        worked.set(3)
        worked.turn()
        assert signed_result(worked) == 3
