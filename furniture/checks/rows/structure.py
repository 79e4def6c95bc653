"""The checks of the whole piece's statics: what holds each part, what its joints bear, racking."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Level

HELD = Check(
    name="what holds each part",
    fails=Level(when="a part comes out: no face, glue or fastener opposes what pulls at it"),
    notes=Level(when="only glue holds it, or it is caught with play"),
    source="statics",
)
LOOSE_PARTS = Check(
    name="loose parts", cautions=Level(when="nothing holds it, and it comes out downward")
)
BEARS = Check(
    name="what its joints bear",
    sense=Sense.AT_LEAST,
    fails=Level(when="its loads are a multiple of what its joints may carry: near the mean itself"),
    cautions=Level(when="its loads are more than its joints may carry for good", at=1.0),
    source="statics; strengths by the rules of each joint",
)
END_GRAIN_ALONE = Check(
    name="held by end-grain glue alone",
    cautions=Level(when="without glue on end grain it comes apart under what it bears"),
    fails=Level(when="the same where a person stands or sits"),
    notes=Level(when="the same, where what its joints bear cautions of it"),
    source="statics; end grain holds little glue (common practice, no source)",
)
RACKING = Check(
    name="push that folds it",
    unit="N",
    sense=Sense.AT_LEAST,
    fails=Level(
        when="the same, and its joints are hinges once nails and end grain loosen; or one "
        "who sits or steps on it folds it then"
    ),
    cautions=Level(when="it folds before it tips, and before 50 N"),
    says="{subject}: it folds at a push of {value}; {limit} is asked.",
    source="statics; limits own rule",
)
LOOSENED = Check(
    name="push that folds it once loosened",
    unit="N",
    sense=Sense.AT_LEAST,
    fails=Level(
        when="glue, screws or nails in end grain alone keep a piece of some height from folding"
    ),
    cautions=Level(when="they do for the greater part, or the glue of shallow dados does"),
    says="{subject}: nothing braces it. Once its joints loosen it folds at a push of {value}; "
    "{limit} is asked.",
    source="statics; limits own rule",
)
NOT_CHECKED = Check(
    name="load that no joint states to bear",
    cautions=Level(when="how a part is held is not stated, so it is not checked"),
)

STRUCTURE = (HELD, LOOSE_PARTS, BEARS, END_GRAIN_ALONE, RACKING, LOOSENED, NOT_CHECKED)
