"""The checks of a lid that turns on hinges."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Level
from furniture.rules.hinges import CHEST_ROOM, LID_SHY, LID_SHY_TOLD

OPEN_TILT = Check(
    name="tilt with its lid open",
    unit="deg",
    sense=Sense.AT_LEAST,
    fails=Level(when="it falls over as its lid is opened", at=0.0),
    cautions=Level(when="a floor piece under 10 degrees, a table-top piece under 6"),
    notes=Level(when="a table-top piece under 10 degrees: what weighs little falls at little"),
    says="With its lid open ({subject}), tilted by {value} it falls; {limit} is asked.",
    source="as the tilt of the closed piece",
)
DROPPED_LID = Check(
    name="lid that drops open",
    unit="%",
    sense=Sense.AT_MOST,
    cautions=Level(when="a lid let go of past upright may throw the piece on its back", at=100.0),
    says="{subject}: let go of past upright it strikes its stay with {value} of what tips the "
    "piece.",
    source="statics and the energy of a falling body",
)
OPEN_PULL = Check(
    name="pull of an open lid",
    unit="N",
    sense=Sense.AT_MOST,
    fails=Level(when="its own weight, open, tears out its hinges or its stay"),
    cautions=Level(when="a hand that leans on it does, as far as that does not tip the piece"),
    says="{subject} pulls with {value}; the screws there bear {limit}.",
    source="statics; the screws as the joint states them",
)
FALLING_LID = Check(
    name="lid that falls shut",
    unit="mm3",
    sense=Sense.AT_MOST,
    cautions=Level(
        when="the box is so large that children climb into it, and nothing slows its lid",
        at=CHEST_ROOM,
    ),
    says="{subject} falls shut over {value} of room; a chest from {limit} on is asked for a lid "
    "that stays where it is let go.",
    source="ASTM F834, toy chests, as a consumer body's page tells it",
)
SHY_LID = Check(
    name="front edge of a hinged lid",
    unit="mm",
    sense=Sense.AT_MOST,
    cautions=Level(when="in the driest season it leaves the front rail in the open", at=LID_SHY),
    notes=Level(when="in the driest season it draws back behind the rail", at=LID_SHY_TOLD),
    says="{subject}: in the driest season it stands {value} behind the face of its rail.",
)
SWING = Check(
    name="swing of a lid",
    unit="deg",
    sense=Sense.AT_LEAST,
    fails=Level(when="it strikes what stands above or behind it before its stay stops it"),
    says="{subject} is free to open by {value}; its stay stops it at {limit}.",
    source="geometry: both as boxes round their wood, turned about the pin",
)

OPEN_LID = (OPEN_TILT, DROPPED_LID, OPEN_PULL, FALLING_LID, SHY_LID, SWING)
