"""The checks of joints: housed shelves as levers, posts, mitred corners, and glue."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Level

_BROKEN = Level(when="the loads that stay come near the wood's mean strength")
_WORKING = Level(when="beyond the working stress, which is that strength over a stated divisor")
_HAND = Level(when="a hand, as far as it does not tip the piece, breaks the wood")
_SHORT = Level(when="it alone would not hold: an estimate, and the dado holds besides")
_POST = "{subject}: its wood is stressed to {value} in bending; {limit} is safe."

LEVER = Check(
    name="crushing in the dado",
    unit="MPa",
    sense=Sense.AT_MOST,
    fails=Level(when="stated loads press it by a multiple of the estimate that no error explains"),
    cautions=Level(when="by half as much again as the estimate"),
    notes=Level(when="beyond the estimate: the trade has no accepted formula"),
    says="{subject}: the dado is pressed with {value} by a cautious estimate; up to {limit} it "
    "takes no dent.",
)
HAND_LEVER = Check(
    name="levering in the dado",
    unit="MPa",
    sense=Sense.AT_MOST,
    cautions=Level(when="a hand presses it by that multiple, as far as it does not tip the piece"),
    notes=Level(when="the same, where the hand breaks a shelf's wood: that caution names it"),
    says="{subject}: the dado is pressed with {value} by a cautious estimate that counts no glue; "
    "up to {limit} it takes no dent.",
)
_OPEN = Level(when="none stands above it, and glue alone holds the shelf in its notch")
ABOVE_DADO = Check(
    name="wood above a dado",
    unit="MPa",
    sense=Sense.AT_MOST,
    fails=_BROKEN,
    cautions=_WORKING,
    notes=_OPEN,
)
HAND_ABOVE_DADO = Check(
    name="levering at the wood above a dado",
    unit="MPa",
    sense=Sense.AT_MOST,
    cautions=_HAND,
    notes=_OPEN,
)
HOUSED_GLUE = Check(
    name="glue of a housed shelf",
    unit="N",
    sense=Sense.AT_LEAST,
    notes=_SHORT,
    says="{subject}: the glue alone would hold {value}; {limit} pulls at it.",
)
HAND_HOUSED_GLUE = Check(
    name="levering at the glue of a housed shelf",
    unit="N",
    sense=Sense.AT_LEAST,
    notes=_SHORT,
    says="{subject}: the glue alone would hold {value}; {limit} pulls at it.",
)
DROOP = Check(
    name="droop from play in the dado",
    unit="mm",
    sense=Sense.AT_MOST,
    cautions=Level(when="nothing is glued, so that the eye sees it for good"),
    says="Dry, {subject} can droop {value} at its front before the dado grips; {limit} looks "
    "level.",
)
POST_AT_DADO = Check(
    name="post behind its weakest dado",
    unit="MPa",
    sense=Sense.AT_MOST,
    fails=_BROKEN,
    cautions=_WORKING,
    says=_POST,
)
POST_AT_OPENING = Check(
    name="post at its weakest opening",
    unit="MPa",
    sense=Sense.AT_MOST,
    fails=_BROKEN,
    cautions=_WORKING,
    says=_POST,
)
MITRE_GLUE = Check(
    name="glue of a mitred corner",
    unit="N",
    sense=Sense.AT_LEAST,
    cautions=Level(
        when="a hand opens it; of a short box on a table, only where nothing holds its bottom"
    ),
    notes=Level(when="a short box on a table: so made they last"),
    says="The corner of {subject} takes a push of {value} in the middle of a side, by a cautious "
    "estimate; a hand pushes with {limit}.",
)
END_GRAIN_BUTT = Check(
    name="butt at an end grain",
    unit="mm2",
    cautions=Level(when="it carries a level part by glue on end grain, and nothing else"),
    notes=Level(when="it only locates or presses"),
    says="{subject}: glue holds little on end grain.",
)

JOINTS = (
    LEVER, HAND_LEVER, ABOVE_DADO, HAND_ABOVE_DADO, HOUSED_GLUE, HAND_HOUSED_GLUE, DROOP,
    POST_AT_DADO, POST_AT_OPENING, MITRE_GLUE, END_GRAIN_BUTT,
)  # fmt: skip
