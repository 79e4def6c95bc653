"""The checks of standing: tilt, pushes, the feet, the floor, persons, and the hold on a wall."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Level
from furniture.rules.standing import FEET_SHARE as FEET_RULE
from furniture.rules.standing import WALL_PULL

_FALLS = "it falls over on a level floor, empty, loaded, or with one load taken away"
_TILTED = Level(when="a floor piece under 10 degrees, a table-top piece under 6")
_TOLD = Level(when="a table-top piece under 10 degrees: what weighs little falls at little")

TILT = Check(
    name="tilt before it tips",
    unit="deg",
    sense=Sense.AT_LEAST,
    fails=Level(when=_FALLS, at=0.0),
    cautions=_TILTED,
    notes=_TOLD,
    says="{subject}: tilted by {value} it falls; {limit} is asked.",
    source="IEC 62368-1 (2018) and IEC 60335-1, 20.1; IEC 60598-2-4 for lamps",
)
UNEVEN_FLOOR = Check(
    name="tilt left on an uneven floor",
    unit="deg",
    sense=Sense.AT_LEAST,
    fails=Level(when="it falls over once one corner is low", at=0.0),
    cautions=_TILTED,
    notes=_TOLD,
    says="On an uneven floor ({subject}) only {value} of tilt is left; {limit} is asked.",
)
TOP_PUSH = Check(
    name="push at the top",
    unit="N",
    sense=Sense.AT_LEAST,
    cautions=Level(when="a leaning sleeve tips a floor piece that is tall or heavy"),
    notes=Level(when="always where it tips before it slides: what weighs little falls at little"),
    says="A push of {value} at the top tips it over its {subject}.",
)
WEIGHT_SHARE_PUSH = Check(
    name="push of 13 % of the weight",
    unit="N",
    sense=Sense.AT_LEAST,
    notes=Level(when="from 25 kg on, where the tilt is not met: one of the two is enough"),
    says="A push of {value} at the top tips it over its {subject}; 13 % of its weight is {limit}.",
    source="IEC 62368-1 (2018), static stability",
)
CABLE_PULL = Check(
    name="pull on the cable",
    unit="N",
    sense=Sense.AT_LEAST,
    cautions=Level(when="a foot caught in a high cable tips a floor piece, or a lamp anywhere"),
    notes=Level(when="the same on a table, or where the cable leaves low"),
    says="A pull of {value} on its cable tips it over its {subject}.",
)
FEET = Check(
    name="feet against the plan",
    unit="%",
    sense=Sense.AT_LEAST,
    cautions=Level(when="it stands on much less than it covers"),
    says="{subject}: the feet span {value} of it; {limit} is asked.",
    source=FEET_RULE.source,
)
CHILD = Check(
    name="child on a front edge (voluntary)",
    unit="N",
    sense=Sense.AT_LEAST,
    cautions=Level(when="a child on an edge before its base tips a floor piece of some height"),
    notes=Level(when="the same, where its tilt cautions of it"),
    says="A child on the {subject} tips it with {value}; tests of clothes storage load {limit}.",
    source="ASTM F2057-23",
)
CARPET = Check(
    name="tilt on carpet (voluntary)",
    unit="deg",
    sense=Sense.AT_LEAST,
    notes=Level(when="a carpet under its back tips it forward: the block is from memory"),
    says="A carpet leans it {limit} forward, and it falls at {value} ({subject}).",
    source="ASTM F2057-23, from memory",
)
SLIDING = Check(
    name="sliding against tipping",
    unit="N",
    notes=Level(when="never: whether it slides or tips first is told, not judged"),
)
SCOPE = Check(
    name="scope of the furniture tip-over rule",
    unit="mm",
    notes=Level(when="never: whether that rule could apply is told, not judged"),
    source="ASTM F2057-23 and 16 CFR 1261",
)
WALL_HOLD = Check(
    name="hold on the wall",
    unit="N",
    sense=Sense.AT_MOST,
    cautions=Level(when="one fixing is pulled with more than a picture hook bears", at=WALL_PULL),
    notes=Level(when="always: what the wall bears is not known"),
    says="It hangs on a wall, so tip-over does not apply: the fixing is the thing to check. Each "
    "of two upper fixings is pulled outward with {value}.",
    source="statics",
)
WALL_FIXING = Check(
    name="fixing to the wall",
    unit="N",
    sense=Sense.AT_MOST,
    cautions=Level(when="it is tall, heavy, tips easily, and stands free"),
    notes=Level(when="it is tall, is fixed, or its tilt cautions of the same"),
    says="A fixing to the wall at its top must bear {value}.",
    source="statics",
)
PERSON_TIPS = Check(
    name="person near an edge",
    unit="N",
    sense=Sense.AT_LEAST,
    fails=Level(when="a person inside any edge of what bears him tips it"),
    says="A person near the {subject} tips it with {value}; {limit} is asked.",
    source="EN 1022, stability of seats",
)
STEP_TIPS = Check(
    name="step near an edge",
    unit="N",
    sense=Sense.AT_LEAST,
    cautions=Level(when="a foot that steps up or back pushes it over, with his weight on it"),
    says="One who steps near the {subject} tips it with a push of {value}; {limit} is asked.",
)

STANDING = (
    TILT, UNEVEN_FLOOR, TOP_PUSH, WEIGHT_SHARE_PUSH, CABLE_PULL, FEET, CHILD, CARPET, SLIDING,
    SCOPE, WALL_HOLD, WALL_FIXING, PERSON_TIPS, STEP_TIPS,
)  # fmt: skip
