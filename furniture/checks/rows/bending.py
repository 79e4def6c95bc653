"""The checks of a piece that gives: how it leans, and how far its glue is stretched."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Level

LEAN = Check(
    name="lean under a push",
    unit="mm",
    sense=Sense.AT_MOST,
    cautions=Level(when="more than a hundredth of its height: makers call such a case flimsy"),
    says="{subject}: pushed sideways its top leans {value}; up to {limit} it feels stiff.",
    source="own rule: no standard was found for small pieces",
)
GLUE_STRETCHED = Check(
    name="glue of the joints under load",
    sense=Sense.AT_MOST,
    fails=Level(when="end grain that nothing helps comes within 1.5 of its mean strength"),
    cautions=Level(when="half as much again as its mean strength, by plates on springs"),
    notes=Level(when="half as much again as it may carry for good, or the rest holds", at=1.5),
    source="own rule: an estimate, no accepted formula",
)

BENT = (LEAN, GLUE_STRETCHED)
