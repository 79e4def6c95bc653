"""The checks of the wood that cuts leave."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Level
from furniture.rules import PRACTICE
from furniture.rules.staying import LEAST_WOOD

_LESS = Level(when="less is left than the trade's rule asks")

WOOD_LEFT = Check(
    name="wood left",
    unit="mm",
    sense=Sense.AT_LEAST,
    fails=Level(when="no wood is left, or none that holds in the making", at=LEAST_WOOD),
    cautions=Level(when="under a quarter of the part's thickness and under 3 mm is left"),
    notes=Level(when="under a third of the part's thickness is left"),
    says="{subject}: {value} of wood is left; {limit} is asked.",
)
SHORT_GRAIN = Check(
    name="short grain at an end",
    unit="mm",
    sense=Sense.AT_LEAST,
    fails=Level(when="no wood is left", at=0.0),
    cautions=_LESS,
    says="{subject}: {value} of short grain may split off; {limit} holds.",
)
BORE_EDGE = Check(
    name="hole to the edge", unit="mm", sense=Sense.AT_LEAST, cautions=_LESS, source=PRACTICE
)
BORE_END = Check(
    name="hole to the end",
    unit="mm",
    sense=Sense.AT_LEAST,
    cautions=Level(when="less than a diameter from its centre: little more than its wall is left"),
    notes=Level(when="less than the trade's two, as where a board is dowelled on flush"),
    source=PRACTICE,
)
BORE_SHARE = Check(
    name="hole against the wood round it",
    unit="mm",
    sense=Sense.AT_MOST,
    cautions=_LESS,
    source=PRACTICE,
)

WOOD_LEFT_CHECKS = (WOOD_LEFT, SHORT_GRAIN, BORE_EDGE, BORE_END, BORE_SHARE)
