"""Random machines, as somebody would describe them.

Only this file turns a spec into answers typed in different hands.
"""

from __future__ import annotations

from hypothesis import strategies as st

from mechcalc import MachineSpec
from mechcalc.own.questions import ANGLE, COUNT, QUESTIONS, YES_OR_NO
from mechcalc.own.reading import typed
from tests.mechanism.machines import specs


@st.composite
def described(draw) -> tuple[MachineSpec, dict[str, str], set[str]]:
    """A machine, the answers that describe it, and the fields of which the learner was not sure."""
    spec = MachineSpec.from_dict({**draw(specs()).to_dict(), "name": "the grey one",
                                  "check_register": draw(st.booleans()), "back_transfer": draw(st.booleans())})
    answers, unsure = {"angles": "measured", "name": " the grey one "}, set()
    for one in QUESTIONS:
        if one.kind in (COUNT, YES_OR_NO, ANGLE):
            text = typed(getattr(spec, one.field))
            text = text.replace(".", ",") if draw(st.booleans()) else text
            text += "°" if one.kind == ANGLE and draw(st.booleans()) else ""
            if draw(st.booleans()):
                unsure.add(one.field)
                text += draw(st.sampled_from(["?", " ?"]))
            answers[one.field] = draw(st.sampled_from(["", " "])) + text
    return spec, answers, unsure
