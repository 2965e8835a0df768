"""What somebody is asked who describes the machine in front of them, and how each thing is counted or measured.

Only this file words the questions. How to count and to measure is common practice (no source); the tests try each
instruction on machines of the kit and see that it gives the figure that the machine was built with.
"""

from __future__ import annotations

from dataclasses import dataclass

COUNT, YES_OR_NO, ANGLE, WORDS, CHOICE = "count", "yes or no", "angle", "words", "choice"
USUAL, MEASURED = "usual", "measured"


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One thing to be counted, tried, measured or chosen.

    Attributes
    ----------
    field : str
        Of `MachineSpec`; or ``"angles"``, which says where the five angles come from.
    ask : str
        The question.
    how : str
        How to count, try or measure.
    kind : str
        ``"count"``, ``"yes or no"``, ``"angle"``, ``"words"`` or ``"choice"``.
    short : str
        The thing in a word or two.
    example : str
        An answer, as it may be typed.
    empty : str
        What an empty answer means; empty where an answer is needed.
    """

    field: str
    ask: str
    how: str
    kind: str
    short: str
    example: str = ""
    empty: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """Questions that are answered at one go.

    Attributes
    ----------
    title : str
        What this is about.
    questions : tuple of Question
        In order.
    picture : str
        Of `mechcalc.own.sketches`; empty for none.
    before : tuple of str
        What to read, and to mind, before one begins: paragraphs.
    """

    title: str
    questions: tuple[Question, ...]
    picture: str = ""
    before: tuple[str, ...] = ()


MIND = ("All of this can be done with the covers on. Ask whoever is in charge of the machine first. Never force a "
        "lever, a carriage or a crank: what stops is telling you something. Where a movement is stiff, gritty or dry, "
        "leave it: an old machine may have to be cleaned by somebody qualified before it is cranked. Keep hair, "
        "sleeves and ties away. Local rules, those of your workshop or museum, come first. (Common practice, no "
        "source.)")
GUESS = "Where you are not sure, put a question mark behind the figure: 9? is kept as a guess."
NAMES = ("A name of your own, such as \"the grey one\". No maker's name is asked for; whether to add one to your own "
         "file, for your own use, is for you to say.")
DISC = ("Most people take the usual angles: they change when things happen within a turn, and no result. To measure, "
        "fix a paper degree disc behind the crank, with nought at rest, and turn slowly, always onwards, to the end "
        "of the turn. Where the crank goes round more than once for one addition, divide what you read by that number.")
COVERS = ("Leave the covers on; what cannot be seen then, leave empty. Whoever has to open a machine does so by the "
          "local rules: eye protection (its springs are under tension), one person at the crank and hands out before "
          "it moves, sharp edges, solvents kept from flames and skin.")

STEPS = (
    Step(title="A name", questions=(
        Question(field="name", ask="What do you call the machine?", kind=WORDS, short="name", how=NAMES,
                 example="the grey one", empty="the name of the file"),)),
    Step(title="Setting levers", picture="levers", questions=(
        Question(field="setting_places", ask="How many setting levers are there?", kind=COUNT, short="setting levers",
                 how="Count the slots in which a lever goes from 0 to 9, from right to left. Levers at the sides and "
                     "on the carriage, without figures beside them, clear or shift: they do not count.",
                 example="9"),)),
    Step(title="Number wheels", picture="wheels", questions=(
        Question(field="result_places", ask="How many number wheels has the result register?", kind=COUNT,
                 short="number wheels", example="13",
                 how="Clear everything, set 2 on the units lever and turn once forwards. The row that now shows 2 is "
                     "the result register; count all its windows. (The row that shows 1 is the counter.)"),)),
    Step(title="Counter", picture="counter", questions=(
        Question(field="counter_places", ask="How many wheels has the counter?", kind=COUNT, short="counter wheels",
                 how="Count the windows of the row that showed 1 after that turn.", example="8"),
        Question(field="counter_carry", ask="Does the counter carry?", kind=YES_OR_NO, short="counter carry",
                 how="Clear it, set nothing, and turn ten times forwards. If it shows 10, it carries. If it shows 0, "
                     "or anything else, it does not.", example="yes"))),
    Step(title="Carriage", picture="carriage", questions=(
        Question(field="positions", ask="At how many positions can the carriage stop?", kind=COUNT,
                 short="carriage positions", example="8", empty="as many as the counter has wheels, if the result "
                 "register has as many",
                 how="With the crank at rest, bring the carriage to its first position, where a turn adds in the units "
                     "wheel, and count 1. Shift it place by place, and count one more each time it drops into its "
                     "seat. Stop where it stops."),)),
    Step(title="What is fitted", picture="fitted", questions=(
        Question(field="back_transfer", ask="Is there a back-transfer lever?", kind=YES_OR_NO, short="back transfer",
                 how="It brings a result back to the levers. To try it: put 12 into the result, clear the setting, "
                     "engage the lever and clear the result. If 12 now stands on the levers, it is one. Disengage it "
                     "again: until then the crank is locked.", example="no"),
        Question(field="check_register", ask="Is there a check register?", kind=YES_OR_NO, short="check register",
                 how="A row of small windows that shows the setting in a straight line. Move one lever: if a figure "
                     "follows it, there is one.", example="no"))),
    Step(title="Carry reach", picture="reach", questions=(
        Question(field="carry_reach", ask="How many places carry?", kind=COUNT, short="carry reach", example="11",
                 how="A harmless test: carriage at its first position, everything cleared. Set 1 on the units lever "
                     "and turn once backwards. Nought less one fills the windows with nines from the right; count the "
                     "nines. (The bell may ring.) Then turn once forwards, 1 to all those nines: every one of them "
                     "goes back to nought, or a carry is failing somewhere, which is a fault and not the reach. Fewer "
                     "nines than there are levers mean a fault as well, or a carriage that is not at its first "
                     "position."),)),
    Step(title="The angles of the drum", picture="angles", before=(DISC, COVERS), questions=(
        Question(field="angles", ask="Where do the angles come from?", kind=CHOICE, short="angles", example=USUAL,
                 how=f"\"{USUAL}\": those of an invented drum that has room for your carry reach. \"{MEASURED}\": five "
                     "questions follow; an angle that you leave empty is taken so that it goes with the others.",
                 empty=USUAL),
        Question(field="pin_pitch", ask="Pin pitch, in degrees", kind=ANGLE, short="pin pitch", example="9",
                 how="Everything cleared, set 9 on the units lever. Note the angle at which the units wheel begins to "
                     "move, and the one at which its ninth step is done. A ninth of the difference is the pitch.",
                 empty="the usual one"),
        Question(field="gap", ask="Gap before the carry pins, in degrees", kind=ANGLE, short="gap", example="4",
                 how="The 9 is still set, and the units window shows 9: turn once more. From the end of the units "
                     "wheel's ninth step to where the tens wheel begins to move.",
                 empty="one that goes with the others"),
        Question(field="helix_step", ask="Helix step, in degrees", kind=ANGLE, short="helix step", example="12",
                 how="Clear, set 1, turn once backwards: nines. Then turn once forwards, slowly. From where the tens "
                     "wheel begins to move to where the hundreds wheel begins. More exactly: to where the last wheel "
                     "that carries begins, divided by the number of steps from wheel to wheel.",
                 empty="one that goes with the others"),
        Question(field="lever_throw", ask="Lever throw, in degrees", kind=ANGLE, short="lever throw", example="3",
                 how="From the end of a wheel's step from 9 to 0 until its carry lever is fully out. It cannot be seen "
                     "with the covers on.", empty="one that goes with the others"),
        Question(field="rest_arc", ask="Rest arc, in degrees", kind=ANGLE, short="rest arc", example="15",
                 how="Twice the angle from rest to where the first pin of any kind comes to the idlers. It cannot be "
                     "seen with the covers on.", empty="one that goes with the others"))),
    Step(title="A note", questions=(
        Question(field="note", ask="What else should be remembered of it?", kind=WORDS, short="note",
                 how="Where it stands, what is worn, when you counted. It is kept in your file and nowhere else.",
                 example="third shelf; one window is cracked", empty="none"),)),
)
QUESTIONS = tuple(question for step in STEPS for question in step.questions)
BY_FIELD = {question.field: question for question in QUESTIONS}
MEASURES = tuple(question.field for question in QUESTIONS if question.kind == ANGLE)
