"""What a sequence of strokes leaves in the windows, against whole numbers and against `decimal`."""

from __future__ import annotations

from decimal import Decimal, localcontext

from hypothesis import given, strategies as st

from mechcalc import Machine, MachineSpec

from .machines import ANGLES, TRIAL, cuts, do, shows, signs, specs, work
from .oracles import Arithmetic


class TestWholeNumbers:
    """The oracle is Python's integer arithmetic; it knows neither angles nor levers."""

    @given(specs(), work)
    def test_every_stroke_leaves_what_whole_numbers_say(self, spec, acts):
        """Wheels 1..q do arithmetic modulo 10^q, the others stand still, and the bell rings when it wraps."""
        machine, sums = Machine(spec), Arithmetic(spec)
        for act in acts:
            do(machine, sums, act)
            assert shows(machine, sums), act

    @given(specs(), st.data())
    def test_one_turn_from_anywhere(self, spec, data):
        """One turn, from any digits, at any position, either way."""
        sums = Arithmetic(spec)
        sums.setting = data.draw(st.integers(0, 10**spec.setting_places - 1))
        sums.result = data.draw(st.integers(0, 10**spec.result_places - 1))
        sums.counter = data.draw(st.integers(0, 10**spec.counter_places - 1))
        sums.carriage = data.draw(st.integers(0, spec.positions - 1))
        machine = standing_at(sums)
        direction = data.draw(signs)
        machine.turn(direction)
        sums.turn(direction)
        assert shows(machine, sums)
        assert not any(machine.state.levers)
        assert machine.state.under_way == ()

    @given(specs(), signs, cuts)
    def test_nines_all_through(self, spec, direction, angles):
        """The longest carry there is: 1 more than nines, or 1 less than nothing, at every position."""
        for carriage in range(spec.positions):
            result = 10**spec.result_places - 1 if direction > 0 else 0
            sums = Arithmetic(spec, setting=1, result=result, carriage=carriage)
            machine = standing_at(sums)
            do(machine, sums, ("cut turn", direction, angles))
            assert shows(machine, sums)


class TestDecimal:
    """A second oracle: `decimal` of the standard library, with a precision of exactly as many places."""

    @given(st.lists(st.integers(-999_999, 999_999), min_size=1, max_size=30))
    def test_a_column_of_amounts(self, cents):
        """Amounts in cents, added and taken off; a negative total shows as its ten's complement."""
        spec = MachineSpec(setting_places=6, result_places=10, counter_places=4, carry_reach=10)
        machine = Machine(spec)
        with localcontext(prec=30):
            total = Decimal(0)
            for amount in cents:
                machine.set(abs(amount))
                machine.turn(1 if amount >= 0 else -1)
                total += Decimal(amount).scaleb(-2)
            shown = Decimal(machine.result).scaleb(-2)
            assert shown == (total if total >= 0 else Decimal(10) ** 8 + total)

    @given(st.integers(0, 999_999), st.integers(0, 9999))
    def test_a_product_by_shifting(self, multiplicand, multiplier):
        """Turn by turn and place by place; the counter shows the multiplier."""
        machine = Machine(MachineSpec(setting_places=6, result_places=10, counter_places=4, carry_reach=10))
        machine.set(multiplicand)
        for position in range(4):
            machine.shift_to(position)
            machine.turn(multiplier // 10**position % 10)
        with localcontext(prec=30):
            assert Decimal(machine.result) == Decimal(multiplicand) * Decimal(multiplier)
        assert machine.counter == multiplier


class TestReach:
    """What the carry reach, the end of the register and the carriage leave out."""

    def test_a_short_reach_leaves_the_wheels_above_it(self):
        """0 - 1 with carry pins up to place 4 of 6 wheels leaves 009999 and rings the bell."""
        machine = Machine(MachineSpec(setting_places=3, result_places=6, counter_places=3, carry_reach=4, **ANGLES))
        machine.set(1)
        stroke = machine.turn(-1)
        assert machine.result_digits == (9, 9, 9, 9, 0, 0)
        assert machine.bell is True
        assert stroke.reading.bell is True

    def test_the_bell_is_silent_when_the_carry_finds_a_wheel(self):
        """With the carriage one place on, the same carry stops at wheel 5."""
        machine = Machine(MachineSpec(setting_places=3, result_places=6, counter_places=3, carry_reach=4, **ANGLES))
        machine.set(999)
        machine.turn()
        machine.shift(1)
        machine.turn(9)
        assert (machine.result, machine.bell) == (999 + 9 * 9990, False)
        machine.turn()
        assert (machine.result, machine.bell) == (999 + 10 * 9990 - 100_000, True)

    def test_the_bell_tells_of_the_last_turn_only(self):
        """It rang in one turn, and not in the next."""
        machine = Machine(TRIAL)
        machine.set(1)
        machine.turn(-1)
        assert machine.bell is True
        machine.clear_setting()
        assert machine.bell is True
        machine.turn()
        assert machine.bell is False

    def test_places_over_the_end_of_the_register_are_lost(self):
        """Setting 987 two positions on before 4 wheels: only 87 finds wheels, and the bell says nothing."""
        machine = Machine(TRIAL)
        machine.set(987)
        machine.shift(2)
        machine.turn()
        assert (machine.result, machine.bell) == (8700, False)


class TestCounter:
    """It counts turns at wheel s + 1, in a direction of its own."""

    def test_the_first_turn_says_which_way_is_up(self):
        """Two subtractive turns count 2; an additive one takes one off."""
        machine = Machine(TRIAL)
        assert machine.counter_direction is None
        machine.turn(-2)
        assert (machine.counter, machine.counter_direction) == (2, -1)
        machine.turn()
        assert machine.counter == 1

    def test_clearing_it_frees_the_direction(self):
        """After clearing, an additive turn counts up again."""
        machine = Machine(TRIAL)
        machine.turn(-1)
        machine.clear_counter()
        assert (machine.counter, machine.counter_direction) == (0, None)
        machine.turn()
        assert (machine.counter, machine.counter_direction) == (1, 1)

    def test_it_carries_through_all_its_wheels(self):
        """999 and one more is 000: the counter has no bell."""
        machine = standing_at(Arithmetic(TRIAL, counter=999, up=1))
        machine.turn()
        assert (machine.counter, machine.bell) == (0, False)

    def test_one_back_from_nothing_fills_it_with_nines(self):
        """Counting down below 0, the borrow runs through."""
        machine = standing_at(Arithmetic(TRIAL, up=1))
        machine.turn(-1)
        assert machine.counter == 999

    def test_without_carry_a_wheel_goes_round_alone(self):
        """Twelve turns leave 2 on a counter that does not carry."""
        machine = Machine(MachineSpec.from_dict({**TRIAL.to_dict(), "counter_carry": False}))
        machine.turn(12)
        assert machine.counter_digits == (2, 0, 0)


def standing_at(sums: Arithmetic) -> Machine:
    """A machine that shows what the oracle shows, without a stroke behind it."""
    from mechcalc.numbers import to_digits
    from mechcalc.state import State
    spec = sums.spec
    return Machine(spec, state=State(
        setting=to_digits(sums.setting, spec.setting_places), result=to_digits(sums.result, spec.result_places),
        counter=to_digits(sums.counter, spec.counter_places), levers=(False,) * spec.result_places,
        carriage=sums.carriage, counter_direction=sums.up))
