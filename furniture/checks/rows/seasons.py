"""The checks of the seasons: parts that move where others hold them."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Level
from furniture.rules import PRACTICE
from furniture.rules.wood import GLUED_CAUTION, GLUED_FAILS, GLUED_TOLD

LOOSE_GAP = Check(
    name="gap of a loose part",
    unit="mm",
    sense=Sense.AT_LEAST,
    fails=Level(when="in the dampest season it outgrows its opening and presses the frame apart"),
    cautions=Level(when="less than a sheet of card's play is left in that season"),
    says="{subject}: made with {value} of gap in all it jams in the dampest season; {limit} is "
    "needed.",
)
GLUED_ACROSS = Check(
    name="glued across the grain",
    unit="mm",
    sense=Sense.AT_MOST,
    fails=Level(when="the two part ways by so much that wood or glue cracks", at=GLUED_FAILS),
    cautions=Level(when="by more than wood and glue usually give", at=GLUED_CAUTION),
    notes=Level(when="by less", at=GLUED_TOLD),
    says="{subject}: the two part ways by {value} over the year; wood and glue give {limit}.",
    source=PRACTICE,
)
SWELLING = Check(
    name="room to swell in the dado",
    unit="mm",
    sense=Sense.AT_LEAST,
    cautions=Level(when="it presses its dado apart by more than a tenth"),
    says="{subject} has {value} of room and swells; {limit} is needed.",
    source=PRACTICE,
)
SLOT = Check(
    name="slot for a screw",
    unit="mm",
    sense=Sense.AT_LEAST,
    cautions=Level(when="the panel travels further than the slot lets its screw"),
    says="{subject} is {value} long; the panel's travel asks for {limit}.",
)
SCREWED_ACROSS = Check(
    name="screws across the grain",
    unit="mm",
    sense=Sense.AT_MOST,
    cautions=Level(
        when="two parts part ways between screws in plain holes by more than these give"
    ),
    says="{subject}: between their outer screws the two part ways by {value}; plain holes give "
    "{limit}.",
)

SEASONS = (LOOSE_GAP, GLUED_ACROSS, SWELLING, SLOT, SCREWED_ACROSS)
