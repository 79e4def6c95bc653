"""The checks of standing: tilt, pushes, presses, the floor, and the hold on a wall."""

from __future__ import annotations

from furniture.checks.advice import Sense
from furniture.checks.check import Check, Level

_BORROWED = "the test it is borrowed from was not written for such pieces"

TILT = Check(
    name="tilt before it tips",
    unit="deg",
    sense=Sense.AT_LEAST,
    fails=Level(when="it falls over on a level floor, empty or with stated loads", at=0.0),
    cautions=Level(when="under 10 degrees: a rule for table-top equipment, voluntary here"),
    says="{subject}: tilted by {value} it falls; {limit} is asked.",
    source="IEC 62368-1 (2018), static stability",
)
UNEVEN_FLOOR = Check(
    name="tilt left on an uneven floor",
    unit="deg",
    sense=Sense.AT_LEAST,
    fails=Level(when="it falls over once one corner is low by the stated 2 mm", at=0.0),
    cautions=Level(when="under 10 degrees: voluntary"),
    says="On an uneven floor ({subject}) only {value} of tilt is left; {limit} is asked.",
)
TOP_PUSH = Check(
    name="push at the top",
    unit="N",
    sense=Sense.AT_LEAST,
    fails=Level(when="a touch tips it, and it is higher than its base is deep"),
    cautions=Level(when="a knock tips it"),
    says="A push of {value} at the top tips it over its {subject}; a knock pushes with {limit}.",
)
WEIGHT_SHARE_PUSH = Check(
    name="push of 13 % of the weight",
    unit="N",
    sense=Sense.AT_LEAST,
    cautions=Level(when=_BORROWED),
    says="A push of {value} at the top tips it over its {subject}; {limit} is asked, 13 % of its "
    "weight.",
    source="IEC 62368-1 (2018), static stability",
)
CABLE_PULL = Check(
    name="pull on the cable",
    unit="N",
    sense=Sense.AT_LEAST,
    cautions=Level(when="a foot caught in the cable tips it"),
    says="A pull of {value} on its cable tips it over its {subject}; {limit} is asked.",
)
LEANING_HAND = Check(
    name="hand leaning on a front edge",
    unit="N",
    sense=Sense.AT_LEAST,
    cautions=Level(when="a hand's force is our own choice, and it passes"),
    says="A hand that leans on the {subject} tips it with {value}; a hand may lean with {limit}.",
)
HALF_WEIGHT_PRESS = Check(
    name="press of half the weight",
    unit="N",
    sense=Sense.AT_LEAST,
    cautions=Level(when=_BORROWED),
    says="The {subject} bears {value} before it tips; {limit} is asked.",
    source="IEC 62368-1 (2018), static stability",
)
HAND_PUSH = Check(
    name="hand push (voluntary)",
    unit="N",
    sense=Sense.AT_LEAST,
    cautions=Level(when=_BORROWED),
    says="A hand's firm push tips it over its {subject} at {value}; tests of tall furniture push "
    "with {limit}.",
    source="ASTM F2057-23, from memory",
)
CHILD = Check(
    name="child on a front edge (voluntary)",
    unit="N",
    sense=Sense.AT_LEAST,
    cautions=Level(when=_BORROWED),
    says="A child on the {subject} tips it with {value}; tests of tall furniture load {limit}.",
    source="ASTM F2057-23",
)
CARPET = Check(
    name="tilt on carpet (voluntary)",
    unit="deg",
    sense=Sense.AT_LEAST,
    cautions=Level(when=_BORROWED),
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
    cautions=Level(when="what the wall bears is not known"),
    says="It hangs on a wall, so tip-over does not apply: the fixing is the thing to check. It is "
    "pulled outward with {value}.",
    source="statics",
)
STRAP_HOLD = Check(
    name="hold of the strap",
    unit="N",
    sense=Sense.AT_MOST,
    cautions=Level(when="what the wall bears is not known"),
    says="It is fixed to the wall at its top, so no push tips it: the fixing is the thing to "
    "check. It must bear {value}.",
    source="statics",
)

STANDING = (
    TILT, UNEVEN_FLOOR, TOP_PUSH, WEIGHT_SHARE_PUSH, CABLE_PULL, LEANING_HAND, HALF_WEIGHT_PRESS,
    HAND_PUSH, CHILD, CARPET, SLIDING, SCOPE, WALL_HOLD, STRAP_HOLD,
)  # fmt: skip
