"""The checks of joints: housed shelves as levers, posts, mitred corners, and glue."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Level

_BROKEN = Level(when="the loads that stay stress the wood beyond its mean strength")
_WORKING = Level(when="beyond the working stress, which is that strength over a stated divisor")
_HAND = Level(when="a hand's force is our own choice, and it passes")
_ESTIMATE = Level(when="beyond an estimate: the trade has no accepted formula")
_POST = "{subject}: its wood is stressed to {value} in bending; {limit} is safe."

LEVER = Check(
    name="shelf as a lever in its dado",
    unit="MPa",
    sense=Sense.AT_MOST,
    cautions=_ESTIMATE,
    says="{subject}: the dado is pressed with {value} by a cautious estimate; up to {limit} it "
    "takes no dent.",
)
HAND_LEVER = Check(
    name="shelf as a lever in its dado, a hand on its edge",
    unit="MPa",
    sense=Sense.AT_MOST,
    cautions=_HAND,
    says="{subject}: the dado is pressed with {value} by a cautious estimate that counts no glue; "
    "up to {limit} it takes no dent.",
)
ABOVE_DADO = Check(
    name="wood above a dado",
    unit="MPa",
    sense=Sense.AT_MOST,
    fails=_BROKEN,
    cautions=_WORKING,
)
HAND_ABOVE_DADO = Check(
    name="wood above a dado, a hand on its edge",
    unit="MPa",
    sense=Sense.AT_MOST,
    cautions=_HAND,
)
HOUSED_GLUE = Check(
    name="glue of a housed shelf",
    unit="N",
    sense=Sense.AT_LEAST,
    cautions=_ESTIMATE,
)
HAND_HOUSED_GLUE = Check(
    name="glue of a housed shelf, a hand on its edge",
    unit="N",
    sense=Sense.AT_LEAST,
    cautions=_HAND,
)
DROOP = Check(
    name="droop of a loose housing",
    unit="mm",
    sense=Sense.AT_MOST,
    cautions=Level(when="the eye sees it until the glue has set"),
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
    cautions=_ESTIMATE,
    says="The corner of {subject} takes a push of {value} in the middle of a side, by a cautious "
    "estimate; a hand pushes with {limit}.",
)
END_GRAIN_BUTT = Check(
    name="butt at an end grain",
    unit="mm2",
    cautions=Level(when="end grain holds little glue"),
    says="{subject}: glue holds little on end grain.",
)

JOINTS = (
    LEVER, HAND_LEVER, ABOVE_DADO, HAND_ABOVE_DADO, HOUSED_GLUE, HAND_HOUSED_GLUE, DROOP,
    POST_AT_DADO, POST_AT_OPENING, MITRE_GLUE, END_GRAIN_BUTT,
)  # fmt: skip
