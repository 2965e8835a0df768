"""The machine that people use: a thin shell that keeps a state and the strokes that led to it.

Only this file holds anything that changes. What a stroke does is decided in `operations` and below.
"""

from __future__ import annotations

from collections.abc import Callable
from os import PathLike
from typing import Any

from mechcalc.errors import InputError, Locked
from mechcalc.events import Stroke
from mechcalc.numbers import shown, whole
from mechcalc.operations import MOST_TURNS, perform
from mechcalc.parts import SOUND, Parts
from mechcalc.spec import MachineSpec
from mechcalc.state import State, cleared, fits
from mechcalc.strokes import CLEARING_STROKE


class Machine:
    """A machine to set, crank, shift and read.

    Every operation returns its `Stroke` (a tuple of them where it took several); one that is refused raises and
    changes nothing. Places count from 1 at the units; digit tuples are units first.

    Parameters
    ----------
    spec : MachineSpec
        What it is built like.
    state : State, optional
        Where it starts; everything at zero unless given.
    parts : Parts, optional
        What its parts do; those of a sound machine unless given (`mechcalc.bench.Machine` takes faults).

    Examples
    --------
    >>> m = Machine(MachineSpec(setting_places=9, result_places=13, counter_places=8, carry_reach=11))
    >>> _ = m.set(347)
    >>> _ = m.turn(6)
    >>> _ = m.shift(1)
    >>> _ = m.turn(2)
    >>> m.result, m.counter
    (9022, 26)
    """

    def __init__(self, spec: MachineSpec, *, state: State | None = None, parts: Parts = SOUND) -> None:
        if not isinstance(spec, MachineSpec):
            raise InputError(f"a machine is built from a MachineSpec, not {shown(spec)}; load_spec(name) gives one")
        if state is not None and not fits(spec, state):
            raise InputError(f"a machine of {spec.setting_places} levers, {spec.result_places} wheels and "
                             f"{spec.counter_places} counter wheels cannot start from {shown(state)}")
        self.spec = spec
        self._parts = parts
        self._start = cleared(spec) if state is None else state
        self._strokes: list[Stroke] = []
        self._watchers: list[Callable[[], None]] = []

    def __repr__(self) -> str:
        name = f"{self.spec.name!r} " if self.spec.name else ""
        crank = f", crank at {self.state.angle:g} degrees" if self.state.direction else ""
        return (f"<Machine {name}setting {self.setting}, result {self.result}, counter {self.counter}, "
                f"carriage {self.carriage}{crank}>")

    @property
    def parts(self) -> Parts:
        """What its parts do: `SOUND`, or those of a machine with faults."""
        return self._parts

    # What it shows.

    @property
    def state(self) -> State:
        """The machine as it stands; immutable."""
        return self._strokes[-1].after if self._strokes else self._start

    @property
    def strokes(self) -> tuple[Stroke, ...]:
        """Every stroke so far, oldest first."""
        return tuple(self._strokes)

    @property
    def setting(self) -> int:
        """The number on the setting levers."""
        return self.state.reading.setting

    @property
    def result(self) -> int:
        """The number in the result register."""
        return self.state.reading.result

    @property
    def counter(self) -> int:
        """The number in the counter."""
        return self.state.reading.counter

    @property
    def setting_digits(self) -> tuple[int, ...]:
        """The setting levers' digits, units first."""
        return self.state.setting

    @property
    def result_digits(self) -> tuple[int, ...]:
        """The number wheels' digits, units first."""
        return self.state.result

    @property
    def counter_digits(self) -> tuple[int, ...]:
        """The counter wheels' digits, units first."""
        return self.state.counter

    @property
    def carriage(self) -> int:
        """The carriage's position, 0 at home."""
        return self.state.carriage

    @property
    def counter_direction(self) -> int | None:
        """The direction whose turns count up, 1 or -1; None until the first turn after the counter was cleared."""
        return self.state.counter_direction

    @property
    def bell(self) -> bool:
        """Whether the bell rang in the last turn."""
        return self.state.bell

    # What it does.

    def perform(self, operation: str, argument: Any = None) -> tuple[Stroke, ...]:
        """Do an operation of `mechcalc.operations.OPERATIONS` by name, as saved sessions and pictures do."""
        done = perform(self.spec, self.state, operation, argument, self._parts)
        self._strokes += done
        self._tell()
        return done

    def would(self, operation: str, argument: Any = None) -> tuple[Stroke, ...]:
        """The strokes that an operation would make, without making them."""
        return perform(self.spec, self.state, operation, argument, self._parts)

    def _one(self, operation: str, argument: Any = None) -> Stroke:
        (stroke,) = self.perform(operation, argument)
        return stroke

    def set(self, number: int) -> Stroke:
        """Bring every setting lever to its digit of `number`, 0 or more.

        >>> m = Machine(MachineSpec(setting_places=4, result_places=6, counter_places=3, carry_reach=6))
        >>> m.set(20026)
        Traceback (most recent call last):
            ...
        mechcalc.errors.SettingError: the setting cannot be 20026: there are 4 levers, and the largest setting is 9999
        """
        return self._one("set", number)

    def set_lever(self, place: int, digit: int) -> Stroke:
        """Bring the lever of `place` (1 at the units) to `digit`, 0 to 9."""
        return self._one("set lever", (place, digit))

    def turn(self, turns: int = 1) -> Stroke | tuple[Stroke, ...]:
        """Whole turns of the crank, from rest to rest; additive, or subtractive where `turns` is negative.

        Returns
        -------
        Stroke or tuple of Stroke
            One for 1 or -1 turns, a tuple for more and for none.

        Raises
        ------
        Locked
            An interlock refuses; among them: the crank stands part way through a turn.
        """
        turns = whole(turns, "a number of turns", -MOST_TURNS, MOST_TURNS)
        goes_on = self.state.direction * turns > 0 or not self._parts.holds("full-stroke ratchet")
        if turns and self.state.direction and goes_on:
            raise Locked(f"a whole turn begins at rest: the crank stands at {self.state.angle:g} degrees",
                         "crank", "finish the turn first")
        done = self.perform("crank", 360.0 * turns)
        return done[0] if abs(turns) == 1 else done

    def crank(self, degrees: float) -> Stroke | tuple[Stroke, ...]:
        """Move the crank by signed degrees, positive for additive turning, and leave it there.

        Returns
        -------
        Stroke or tuple of Stroke
            A tuple where the crank passed its rest (one stroke for each turn it took part in), or for 0 degrees.
        """
        done = self.perform("crank", degrees)
        return done[0] if len(done) == 1 else done

    def finish_turn(self) -> Stroke | None:
        """Take the crank on to rest, in the direction of the turn under way; nothing where it is at rest."""
        if not self.state.direction:
            return None
        return self._one("crank", self.state.direction * (360.0 - self.state.angle))

    def shift(self, places: int = 1) -> Stroke | tuple[Stroke, ...]:
        """Shift the carriage by `places`, one after another; positive goes towards position P-1.

        Nothing moves unless the whole way is free. Returns a tuple unless `places` is 1 or -1.
        """
        places = whole(places, "a number of places to shift")
        if places and not 0 <= self.carriage + places < self.spec.positions and not self.state.easing:
            self.would("shift", 1 if places > 0 else -1)
            raise Locked(f"the carriage cannot go from position {self.carriage} by {'+' if places > 0 else ''}"
                         f"{shown(places)}: it stops at 0 and at {self.spec.positions - 1}",
                         "stop/left" if places > 0 else "stop/right", "shift less far")
        done = tuple(self._one("shift", 1 if places > 0 else -1) for _ in range(abs(places)))
        return done[0] if abs(places) == 1 else done

    def shift_to(self, position: int) -> tuple[Stroke, ...]:
        """Shift the carriage to a position, 0 to P-1, one place at a time."""
        position = whole(position, "a carriage position", 0, self.spec.positions - 1)
        done = self.shift(position - self.carriage)
        return done if isinstance(done, tuple) else (done,)

    def ease_carriage(self, direction: int) -> Stroke:
        """Lift the carriage out of its seat towards the next position, and leave it between the two."""
        return self._one("ease", direction)

    def seat_carriage(self, position: int | None = None) -> Stroke:
        """Seat an eased carriage: at the position it was going to, unless the other is given."""
        return self._one("seat", self.carriage + self.state.easing if position is None else position)

    def clear_setting(self) -> Stroke:
        """Bring all setting levers to 0 with the comb."""
        return self._one("clear setting")

    def clear_result(self) -> Stroke:
        """Turn all number wheels back to 0 (with back transfer engaged: into the pinwheels)."""
        return self._one("clear result")

    def clear_counter(self) -> Stroke:
        """Turn all counter wheels back to 0, and free the counter's direction."""
        return self._one("clear counter")

    def pull_clearing_lever(self, register: str, to: float = CLEARING_STROKE) -> Stroke:
        """Bring the ``"result"`` or ``"counter"`` clearing lever to `to` degrees from home and hold it there."""
        return self._one("pull", (register, to))

    def return_clearing_lever(self, register: str) -> Stroke:
        """Let a clearing lever go home."""
        return self._one("pull", (register, 0.0))

    def engage_transfer(self) -> Stroke:
        """Put the back-transfer lever down and leave it there."""
        return self._one("transfer lever", True)

    def free_transfer(self) -> Stroke:
        """Put the back-transfer lever up."""
        return self._one("transfer lever", False)

    def back_transfer(self) -> Stroke:
        """Bring the result back into the setting: lever down, clear the result, lever up."""
        return self._one("back transfer")

    def undo(self) -> Stroke | None:
        """Take back the last stroke and return it; None where there is none. No real machine can do this."""
        if not self._strokes:
            return None
        undone = self._strokes.pop()
        self._tell()
        return undone

    # Who looks on.

    def watch(self, look: Callable[[], None]) -> Callable[[], None]:
        """Have `look` called after every stroke and every undo, as pictures do; returns a function that ends it.

        >>> m = Machine(MachineSpec(setting_places=4, result_places=6, counter_places=3, carry_reach=6))
        >>> end = m.watch(lambda: print("setting", m.setting))
        >>> _ = m.set(12)
        setting 12
        >>> end()
        >>> _ = m.set(13)
        """
        self._watchers.append(look)

        def end() -> None:
            if look in self._watchers:
                self._watchers.remove(look)
        return end

    def _tell(self) -> None:
        for look in tuple(self._watchers):
            look()

    # Keeping it.

    def save(self, path: str | PathLike[str]) -> None:
        """Write spec, strokes and state to a JSON file (see `mechcalc.session`)."""
        from mechcalc import session
        session.save(self, path)

    @classmethod
    def load(cls, path: str | PathLike[str]) -> Machine:
        """Take up a saved session: the machine does every stroke again and must stand where it stood."""
        from mechcalc import session
        return session.load(path)
