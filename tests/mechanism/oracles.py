"""What the machine should show, worked out without the mechanism.

Only this file holds the oracles: whole-number arithmetic that knows no angle, pin or lever, and a reader that
follows events without knowing why they happen. Neither imports anything of the mechanism but names.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from mechcalc import Kind, MachineSpec, State


def digits(number: int, places: int) -> list[int]:
    """Units first."""
    return [number // 10**place % 10 for place in range(places)]


def number(figures: list[int] | tuple[int, ...]) -> int:
    """What digits, units first, stand for."""
    return sum(digit * 10**place for place, digit in enumerate(figures))


@dataclass
class Arithmetic:
    """The machine as whole numbers."""

    spec: MachineSpec
    setting: int = 0
    result: int = 0
    counter: int = 0
    carriage: int = 0
    up: int | None = None
    bell: bool = False

    def turn(self, direction: int) -> None:
        """Wheels 1..q are one number modulo 10^q, q = min(n, K + s); the bell rings when it wraps."""
        modulus = 10 ** min(self.spec.result_places, self.spec.carry_reach + self.carriage)
        above, within = divmod(self.result, modulus)
        amount = self.setting * 10**self.carriage % 10**self.spec.result_places  # what hangs over the end is lost
        moved = within + direction * amount
        self.bell = not 0 <= moved < modulus
        self.result = above * modulus + moved % modulus
        self.up = self.up or direction
        self._count(direction * self.up)

    def _count(self, step: int) -> None:
        below, size = 10**self.carriage, 10 ** (self.spec.counter_places - self.carriage)
        still, counted = self.counter % below, self.counter // below
        turning = size if self.spec.counter_carry else 10
        counted = counted // turning * turning + (counted + step) % turning
        self.counter = still + below * counted

    def transfer(self) -> bool:
        """Digits go from number wheels to pinwheels; False, and nothing, where one would pass 9."""
        wheels = digits(self.result, self.spec.result_places + self.spec.setting_places + self.carriage)
        levers = digits(self.setting, self.spec.setting_places)
        moved = [lever + wheels[place + self.carriage] for place, lever in enumerate(levers)]
        if max(moved) > 9:
            return False
        self.setting, self.result = number(moved), 0
        return True

    def pulled(self, register: str, degrees: float) -> None:
        """A clearing lever comes out: every tenth of its stroke takes back the wheels that it has caught."""
        places = getattr(self.spec, f"{register}_places")
        left = 9 - int(degrees // 10)
        setattr(self, register, number([min(digit, left) for digit in digits(getattr(self, register), places)]))
        if register == "counter" and degrees == 90:
            self.up = None


@dataclass
class Reader:
    """Wheels and levers as a spectator knows them who was told every event and understands none."""

    result: list[int]
    counter: list[int]
    out: set[int]
    up: int | None
    bell: bool = False
    deflected: set[tuple[int | None, int]] = field(default_factory=set)

    @classmethod
    def of(cls, state: State) -> Reader:
        """From a state at rest."""
        return cls(list(state.result), list(state.counter),
                   {wheel for wheel, out in enumerate(state.levers, start=1) if out}, state.counter_direction)

    def follow(self, events, angle: float) -> Reader:
        """Believe every event that is complete at `angle`; digits that are told must agree with the steps."""
        for event in events:
            if event.angle > angle:
                continue
            if event.kind in (Kind.NUMBER_STEP, Kind.CARRY_STEP):
                self.deflected.discard((event.helix, event.place))
                if event.wheel is not None:
                    self._step(self.result, event.wheel, event)
            elif event.kind == Kind.COUNTER_STEP:
                self._step(self.counter, event.place, event)
            elif event.kind == Kind.LEVER_OUT:
                assert event.wheel not in self.out
                self.out.add(event.wheel)
            elif event.kind == Kind.LEVER_HOME:
                self.out.remove(event.wheel)
            elif event.kind == Kind.PIN_DEFLECTED:
                self.deflected.add((event.helix, event.place))
            elif event.kind == Kind.DIRECTION_TAKEN:
                assert self.up is None
                self.up = event.step
            else:
                assert event.kind == Kind.BELL
                self.bell = True
        return self

    @staticmethod
    def _step(wheels: list[int], wheel: int, event) -> None:
        wheels[wheel - 1] = (wheels[wheel - 1] + event.step) % 10
        assert wheels[wheel - 1] == event.digit

    def agrees_with(self, state: State) -> None:
        """Assert that `state` shows what was told."""
        assert list(state.result) == self.result
        assert list(state.counter) == self.counter
        assert {wheel for wheel, out in enumerate(state.levers, start=1) if out} == self.out
        assert set(state.deflected) == self.deflected
        assert state.counter_direction == self.up
        assert state.bell == self.bell
