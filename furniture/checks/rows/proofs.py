"""The proofs on solids and boards: fit, assembly, and whether every part has a place."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Kind, Level
from furniture.rules import PRACTICE

_SHOWN = Level(when="the solids show it")

OVERLAP = Check(name="parts overlap", unit="mm3", sense=Sense.AT_MOST, fails=_SHOWN)
CONTACTS = Check(name="joints touch where they should", fails=_SHOWN)
CUTS_TAKE_WOOD = Check(name="every cut takes wood", fails=_SHOWN)
CLASHES = Check(name="joints leave each other's wood", fails=_SHOWN)
GOES_TOGETHER = Check(
    name="goes together", fails=Level(when="no order of straight moves puts it together")
)
FIT = Check(
    name="fit of the joints",
    unit="mm",
    sense=Sense.AT_MOST,
    cautions=Level(when="the clearance is more than glue bridges"),
)
FINISH_FILLS = Check(
    name="fit of the joints, with their finish",
    unit="mm",
    sense=Sense.AT_LEAST,
    cautions=Level(when="the coats put on before take up the clearance"),
)
JOINT_ADVICE = Check(
    name="advice on a joint",
    kind=Kind.BENCH,
    notes=Level(when="what a joint of this kind wants besides"),
    source=PRACTICE,
)
BARE_MITRE = Check(
    name="joint that glue alone holds",
    cautions=Level(when="nothing but end grain and glue holds it"),
    source=PRACTICE,
)
PLACES = Check(
    name="parts without a place",
    fails=Level(when="the boards have no place for a part"),
)

PROOFS = (
    OVERLAP, CONTACTS, CUTS_TAKE_WOOD, CLASHES, GOES_TOGETHER, FIT,
    FINISH_FILLS, JOINT_ADVICE, BARE_MITRE, PLACES,
)  # fmt: skip
