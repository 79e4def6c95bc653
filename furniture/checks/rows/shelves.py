"""The checks of shelves as beams: sag, stress, and the loads that stand on them."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Level

_STRESS = "{{subject}}: its wood is stressed to {{value}} in {how}; {{limit}} is safe."
_BENDING, _SHEAR = _STRESS.format(how="bending"), _STRESS.format(how="shear")
_BROKEN = Level(when="the loads that stay stress the wood beyond its mean strength")
_WORKING = Level(when="beyond the working stress, which is that strength over a stated divisor")
_HAND = Level(when="a hand's force is our own choice, and it passes")
_HANDBOOK = "Wood Handbook, FPL-GTR-190 (2010), Table 5-3a"

SAG = Check(
    name="sag that shows",
    unit="mm",
    sense=Sense.AT_MOST,
    cautions=Level(when="the eye sees it; nothing breaks"),
    says="Sag in time of {subject}: {value}; over {limit} it shows.",
)
STRICT_SAG = Check(
    name="sag by the strict rule",
    unit="mm",
    sense=Sense.AT_MOST,
    cautions=Level(when="a careful eye sees it; nothing breaks"),
    says="Sag in time of {subject}: {value}; up to {limit} looks straight.",
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
SHEAR = Check(
    name="shear stress of a shelf",
    unit="MPa",
    sense=Sense.AT_MOST,
    fails=_BROKEN,
    cautions=_WORKING,
    says=_SHEAR,
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
HAND_SHEAR = Check(
    name="shear stress with a hand on a shelf",
    unit="MPa",
    sense=Sense.AT_MOST,
    cautions=_HAND,
    says=_SHEAR,
    source=_HANDBOOK,
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

SHELVES = (SAG, STRICT_SAG, BENDING, SHEAR, HAND_BENDING, HAND_SHEAR, OVER_EDGE, SIDE_BY_SIDE)
