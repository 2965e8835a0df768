"""What a method refuses: before the first stroke, with the register that is short and by how much."""

from __future__ import annotations

import numpy as np
import pytest

from mechcalc import CapacityError, Locked, Machine, MachineSpec, methods

from .helpers import machine, refused, trouble

METHODS = [methods.add, methods.subtract, methods.subtract_by_complement, methods.multiply, methods.multiply_short_cut]
FIRST = ["a number to add", "a number to take from", "a number to take from", "a multiplicand", "a multiplicand"]
SECOND = ["a number to add", "a number to take away", "a number to take away", "a multiplier", "a multiplier"]
BAD = [(True, "must be a whole number, not True (bool)"), (3.0, "must be a whole number, not 3.0 (float)"),
       ("12", "must be a whole number, not '12' (str)"), (None, "must be a whole number, not None (NoneType)"),
       (float("nan"), "must be a whole number, not nan (float)"), (-1, "cannot be -1: it goes from 0 upwards")]


class TestCapacity:
    def test_everything_that_is_short_is_said_at_once(self):
        worked = machine("slate")
        no = refused(worked, lambda: methods.multiply(worked, 12345, 9999))
        assert str(no) == (
            "12345 × 9999 does not fit this machine: the setting is short by 1 place (12345 takes 5 levers of 4); "
            "the result is short by 3 places (123437655 takes 9 number wheels of 6); the counter is short by 1 place "
            "(the multiplier takes 4 counter wheels of 3); the carriage is short by 1 position (the multiplier takes 4 "
            "carriage positions of 3)")
        assert (no.register, no.short_by) == ("setting", 1)

    @pytest.mark.parametrize(("attempt", "register", "short_by", "reason"), [
        (lambda m: methods.add(m, 1, 20_026), "setting", 1, "20026 takes 5 levers of 4"),
        (lambda m: methods.subtract(m, 1, 123_456), "setting", 2, "123456 takes 6 levers of 4"),
        (lambda m: methods.subtract_by_complement(m, 1, 10_000), "setting", 1, "10000 takes 5 levers of 4"),
        (lambda m: methods.add(m, *[9999] * 101), "result", 1, "1009899 takes 7 number wheels of 6"),
        (lambda m: methods.multiply(m, 9999, 999), "result", 1, "9989001 takes 7 number wheels of 6"),
        (lambda m: methods.multiply_short_cut(m, 1, 1000), "counter", 1, "the multiplier takes 4 counter wheels of 3"),
    ])
    def test_which_register_and_by_how_much(self, attempt, register, short_by, reason):
        worked = machine("slate")
        no = refused(worked, lambda: attempt(worked))
        assert (no.register, no.short_by) == (register, short_by)
        assert reason in str(no)

    def test_a_carriage_with_fewer_positions_than_the_counter_has_wheels(self):
        worked = Machine(MachineSpec(setting_places=4, result_places=8, counter_places=6, carry_reach=8, positions=2))
        no = refused(worked, lambda: methods.multiply(worked, 12, 345))
        assert str(no) == ("12 × 345 does not fit this machine: the carriage is short by 1 position (the multiplier "
                           "takes 3 carriage positions of 2)")

    def test_a_carry_that_does_not_reach(self):
        worked = Machine(MachineSpec(setting_places=3, result_places=9, counter_places=4, carry_reach=3))
        no = refused(worked, lambda: methods.add(worked, 999, 1))
        assert str(no) == (
            "999 + 1 does not fit this machine: the carry reach is short by 1 place (1000 takes a carry into wheel 4, "
            "but with the carriage at 0 carries reach wheel 3, and 0 would be shown)")
        assert (no.register, no.short_by) == ("carry reach", 1)

    def test_a_borrow_that_does_not_reach_stops_the_short_cut_where_plain_turns_go_through(self):
        worked = machine("short")
        no = refused(worked, lambda: methods.multiply_short_cut(worked, 900_000, 999))
        assert str(no) == (
            "900000 × 999 does not fit this machine: the carry reach is short by 2 places (899100000 takes a carry "
            "into wheel 9, but with the carriage at 0 carries reach wheel 7, and 909100000 would be shown)")
        assert methods.multiply(worked, 900_000, 999).answer == 899_100_000

    def test_what_is_kept_counts(self):
        worked = machine("slate")
        methods.multiply(worked, 9000, 100)
        no = refused(worked, lambda: methods.multiply(worked, 1000, 100, keep=True))
        assert str(no) == ("900000 + 1000 × 100 does not fit this machine: the result is short by 1 place (1000000 "
                           "takes 7 number wheels of 6)")

    def test_a_huge_number(self):
        worked = machine("slate")
        no = refused(worked, lambda: methods.add(worked, 10**5000))
        assert "the setting is short by 4997 places (a number of about 5001 digits takes 5001 levers of 4)" in str(no)
        with pytest.raises(CapacityError):
            methods.multiply(worked, 2, 10**5000)

    def test_places_of_a_complement(self):
        worked = machine("slate")
        assert trouble(worked, lambda: methods.subtract_by_complement(worked, 5, 100, places=2)) == (
            "100 has no complement in 2 places: it takes 3")
        assert trouble(worked, lambda: methods.subtract_by_complement(worked, 5, 1, places=5)) == (
            "a number of places cannot be 5: it goes from 1 to 4")


class TestBadInput:
    @pytest.mark.parametrize(("bad", "message"), BAD)
    @pytest.mark.parametrize(("method", "first", "second"), list(zip(METHODS, FIRST, SECOND, strict=True)))
    def test_only_whole_numbers_from_nought(self, method, first, second, bad, message):
        worked = machine()
        assert trouble(worked, lambda: method(worked, bad, 1)) == f"{first} {message}"
        assert trouble(worked, lambda: method(worked, 1, bad)) == f"{second} {message}"

    @pytest.mark.parametrize("method", METHODS)
    def test_integers_of_other_libraries_are_welcome(self, method):
        assert type(method(machine(), np.int64(12), np.uint8(3)).answer) is int

    def test_nothing_to_do(self):
        worked = machine()
        assert trouble(worked, lambda: methods.add(worked)) == "there is nothing to add: give at least one number"
        assert "at least one to take away" in trouble(worked, lambda: methods.subtract(worked, 5))
        assert "at least one to take away" in trouble(worked, lambda: methods.subtract(worked, keep=True))

    def test_an_order_that_is_none(self):
        worked = machine()
        for bad in ("unit first", None, ["units first"]):
            assert trouble(worked, lambda bad=bad: methods.multiply(worked, 1, 2, order=bad)) == (
                f"the order is 'units first' or 'highest first', not {bad!r}")

    @pytest.mark.parametrize("method", METHODS)
    def test_something_that_is_no_machine(self, method):
        with pytest.raises(ValueError, match="a method works a Machine, not 'bench'"):
            method("bench", 1, 2)


class TestInterlocks:
    @pytest.mark.parametrize("method", METHODS)
    @pytest.mark.parametrize(("prepare", "part"), [
        (lambda m: m.crank(100), "lock"),
        (lambda m: m.pull_clearing_lever("counter"), "clearing/counter"),
        (lambda m: m.ease_carriage(1), "carriage"),
        (lambda m: m.engage_transfer(), "transfer")])
    def test_a_machine_that_is_not_at_rest_refuses_and_nothing_has_moved(self, method, prepare, part):
        worked = machine()
        prepare(worked)
        no = refused(worked, lambda: method(worked, 12, 3), Locked)
        assert no.part == part
