"""The checks of shelves as beams: sag, stress, and the loads that stand on them."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Level
from furniture.rules.standing import STEP_PRESS
from furniture.rules.wood import VISIBLE_SAG

_BENDING = "{subject}: its wood is stressed to {value} in bending; {limit} is its limit."
_BROKEN = Level(when="the loads that stay come near the wood's mean strength")
_WORKING = Level(when="beyond the working stress, which is that strength over a stated divisor")
_HAND = Level(when="a hand, as far as it does not tip the piece, breaks the wood")
_PERSON = Level(when="a person, as steps and seats are tested, breaks the wood")
_HANDBOOK = "Wood Handbook, FPL-GTR-190 (2010), Table 5-3a"

SAG = Check(
    name="sag that shows",
    unit="mm",
    sense=Sense.AT_MOST,
    cautions=Level(when="the eye sees it on a span of some length, or nobody overlooks it"),
    notes=Level(when="a careful eye sees it"),
    says="Sag in time of {subject}: {value}; {limit} looks straight.",
    source=VISIBLE_SAG.source,
)
PERSON_SAG = Check(
    name="sag under a person",
    unit="mm",
    sense=Sense.AT_MOST,
    cautions=Level(when="it gives so much under a person that it is felt"),
    says="{subject} gives {value}; {limit} is felt as firm.",
)
BENDING = Check(
    name="bending stress of a shelf",
    unit="MPa",
    sense=Sense.AT_MOST,
    fails=_BROKEN,
    cautions=_WORKING,
    says=_BENDING,
    source=_HANDBOOK,
)
HAND_BENDING = Check(
    name="bending stress with a hand on a shelf",
    unit="MPa",
    sense=Sense.AT_MOST,
    cautions=_HAND,
    says=_BENDING,
    source=_HANDBOOK,
)
PERSON_BENDING = Check(
    name="bending stress under a person",
    unit="MPa",
    sense=Sense.AT_MOST,
    fails=_PERSON,
    says=_BENDING,
    source=STEP_PRESS.source,
)
OVER_EDGE = Check(
    name="load over its edge",
    unit="mm",
    sense=Sense.AT_MOST,
    cautions=Level(when="its footprint is larger than what it stands on", at=0.0),
    says="{subject}: it stands {value} over the edge.",
)
SIDE_BY_SIDE = Check(
    name="loads side by side",
    unit="mm",
    cautions=Level(when="they do not all fit on their surface beside each other"),
    says="{subject}: what stands there does not all fit beside each other.",
)
STEPS_ALIKE = Check(
    name="steps seen from both sides",
    unit="mm",
    notes=Level(when="it steps back in one view and stands straight in the other"),
    says="{subject}: they step back in one view and stand straight in the other.",
)
SPARE_DEPTH = Check(
    name="depth of a tier",
    unit="mm",
    sense=Sense.AT_MOST,
    notes=Level(when="it is much deeper than anything that stands on it"),
    says="{subject} is {value} deep; what stands on it needs no more than {limit}.",
)

SHELVES = (
    SAG, PERSON_SAG, BENDING, HAND_BENDING, PERSON_BENDING, OVER_EDGE, SIDE_BY_SIDE, STEPS_ALIKE,
    SPARE_DEPTH,
)  # fmt: skip
