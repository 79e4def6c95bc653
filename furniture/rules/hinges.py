"""Rules of hinged lids: what hinges, their screws and the stays need of the wood."""

from __future__ import annotations

from functools import partial

from furniture.rules.rule import PRACTICE, KeptBy, Rule

_Kept = partial(Rule, kept_by=KeptBy.BUILDERS)
_Long = partial(_Kept, unit="mm")

LEAST_HINGE_GAP = _Long(
    name="least_hinge_gap", value=0.2,
    what="the least gap between a hinged lid and its rail: closer, it binds before it closes",
)  # fmt: skip
GREATEST_HINGE_GAP = _Long(
    name="greatest_hinge_gap", value=2.0, what="and the widest, which shows", source=PRACTICE
)
HINGE_INSIDE = _Long(
    name="hinge_inside",
    value=3.0,
    what="rail left inside a hinge's leaf, which hides it and stays whole",
    source=PRACTICE,
)
HINGE_IN = _Long(
    name="hinge_in",
    value=12.0,
    what="from a box's side to the outer end of a hinge at least; its own length is usual",
    source=PRACTICE,
)
BETWEEN_HINGES = _Long(
    name="between_hinges", value=10.0, what="between two hinges of one lid at least"
)
HINGE_BITE = _Kept(
    name="hinge_bite",
    value=2.5,
    what="how far the screw of a hinge or a stay bites, in diameters of the screw",
)
PILOT_SOFT = _Kept(
    name="pilot_soft",
    value=0.5,
    what="the hole for a screw's thread in soft wood, in diameters of its shank",
    source="70 % of the thread's root (Wood Handbook ch. 8, from memory), which is about 0.7 of "
    "the shank",
)
PILOT_HARD = _Kept(
    name="pilot_hard",
    value=0.63,
    what="the same in hard wood",
    source="90 % of the thread's root (Wood Handbook ch. 8, from memory)",
)
PILOT_HARD_FROM = _Kept(
    name="pilot_hard_from",
    value=0.5,
    what="the specific gravity from which a wood is bored for as hard",
)
GREATEST_OVERHANG = _Long(
    name="greatest_overhang", value=30.0, what="how far a hinged lid stands out over its rails"
)
LEAST_OVERHANG = _Long(
    name="least_overhang",
    value=4.0,
    what="what fingers lift a lid by that stands out in front",
    source=PRACTICE,
)
NOTCH_LEAVES = _Long(
    name="notch_leaves",
    value=2.0,
    what="rail left under a hinged lid behind the notch that it is lifted by",
)
LEAST_OPEN = _Kept(
    name="least_open",
    value=95.0,
    unit="deg",
    what="how far a lid opens that is to stay open",
    source=PRACTICE,
)
GREATEST_OPEN = _Kept(
    name="greatest_open",
    value=120.0,
    unit="deg",
    what="and at most: further back it weighs on its hinges and tips the box",
)
STAY_BELOW = _Long(
    name="stay_below", value=15.0, what="how far below the rail's top a lid's stay is screwed to it"
)
STAY_BESIDE = _Long(
    name="stay_beside", value=8.0, what="how far inside the rail its other end is, on the lid"
)
STAY_REACH = _Kept(
    name="stay_reach",
    value=0.4,
    what="how far both lie from the back rail, as a share of the depth of the inside",
)
LEAST_FLAP = _Long(
    name="least_flap", value=60.0, what="the least depth of a flap in a stand's lid: a hand goes in"
)
LEAST_LID_STRIP = _Long(
    name="least_lid_strip",
    value=40.0,
    what="the rest of the lid that a flap hangs on, in front of post or uprights",
)
FLAP_CLEAR = _Long(
    name="flap_clear", value=5.0, what="how far an open flap keeps off the tiers above it"
)
RIM_CLEAR = _Long(
    name="rim_clear", value=0.3, what="how far a flap's lower edge keeps off the rim as it turns"
)
LID_SHY = Rule(
    name="lid_shy", value=1.5, unit="mm",
    what="how far a hinged lid may draw back behind its front rail in the driest season",
)  # fmt: skip
LID_SHY_TOLD = Rule(
    name="lid_shy_told", value=0.5, unit="mm", what="from where on that is noted",
)  # fmt: skip
CHEST_ROOM = Rule(
    name="chest_room", value=31e6, unit="mm3",
    what="the room inside from which on a box with a hinged lid is a chest that children climb "
    "into",
    source="ASTM F834, toy chests (1.1 cubic feet), as a consumer body's page tells it",
    fixed="a figure of a standard for the safety of children",
)  # fmt: skip

HINGED = (
    CHEST_ROOM, LID_SHY, LID_SHY_TOLD, LEAST_HINGE_GAP, GREATEST_HINGE_GAP, HINGE_INSIDE, HINGE_IN,
    BETWEEN_HINGES, HINGE_BITE, PILOT_SOFT, PILOT_HARD, PILOT_HARD_FROM, GREATEST_OVERHANG,
    LEAST_OVERHANG, NOTCH_LEAVES, LEAST_OPEN, GREATEST_OPEN, STAY_BELOW, STAY_BESIDE,
    STAY_REACH, LEAST_FLAP, LEAST_LID_STRIP, FLAP_CLEAR, RIM_CLEAR,
)  # fmt: skip
