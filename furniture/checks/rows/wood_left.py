"""The checks of the wood that cuts leave."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Level
from furniture.rules import PRACTICE

_NONE_LEFT = Level(when="no wood is left", at=0.0)
_LESS = Level(when="less is left than the trade's rule asks")

BEHIND_DADO = Check(
    name="wood behind a dado",
    unit="mm",
    sense=Sense.AT_LEAST,
    fails=_NONE_LEFT,
    cautions=_LESS,
    says="{subject}: {value} of wood is left behind it; {limit} is usual.",
    source=PRACTICE,
)
BESIDE_RABBET = Check(
    name="wood beside a rabbet",
    unit="mm",
    sense=Sense.AT_LEAST,
    fails=_NONE_LEFT,
    cautions=_LESS,
    says="{subject}: {value} of wood is left beside it; {limit} is usual.",
    source=PRACTICE,
)
SHORT_GRAIN = Check(
    name="short grain at an end",
    unit="mm",
    sense=Sense.AT_LEAST,
    fails=_NONE_LEFT,
    cautions=_LESS,
    says="{subject}: {value} of short grain may split off; {limit} holds.",
)
BORE_EDGE = Check(
    name="bore from the edge", unit="mm", sense=Sense.AT_LEAST, cautions=_LESS, source=PRACTICE
)
BORE_END = Check(
    name="bore from the end", unit="mm", sense=Sense.AT_LEAST, cautions=_LESS, source=PRACTICE
)
BORE_SHARE = Check(
    name="bore in the thickness", unit="mm", sense=Sense.AT_MOST, cautions=_LESS, source=PRACTICE
)

WOOD_LEFT = (BEHIND_DADO, BESIDE_RABBET, SHORT_GRAIN, BORE_EDGE, BORE_END, BORE_SHARE)
