"""The classroom: predictions, exercises that answer back, and the gate that every lesson goes through.

A lesson needs six names: `foretold` for a prediction written down before a run, `look_over` for an answer, `nudge`
for a hint, `worked_out` for a folded solution, `ready` for a machine that already shows something, and `told` for what
happened inside a stroke.
"""

from __future__ import annotations

from mechcalc.classroom.exercises import Exercise, Slip, look_over, nudge, worked_out
from mechcalc.classroom.machines import ready
from mechcalc.classroom.predictions import foretold
from mechcalc.classroom.telling import told

__all__ = ["Exercise", "Slip", "foretold", "look_over", "nudge", "ready", "told", "worked_out"]
