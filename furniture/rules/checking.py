"""Rules of what is left and what is advised: wood beside cuts and bores, splines, dowels, "
"floors."""

from __future__ import annotations

from functools import partial

from furniture.rules.rule import PRACTICE, Rule

_Long = partial(Rule, unit="mm")

BEHIND_DADO = _Long(
    name="behind_dado",
    value=10.0,
    what="wood behind a dado that is advised deeper",
    source=PRACTICE,
)
BEHIND_DADO_SHARE = Rule(
    name="behind_dado_share",
    value=0.5,
    what="or this share of the thickness where that is less",
    source=PRACTICE,
)
SHORT_GRAIN_DEPTHS = Rule(
    name="short_grain_depths",
    value=2.0,
    what="a lip of short grain is so many times as long as it is thick",
)
LEAST_SHORT_GRAIN = _Long(name="least_short_grain", value=12.0, what="and at least so long")
BIT_SHARE = Rule(
    name="bit_share",
    value=0.5,
    what="a hole's diameter as a share of the wood that it stands in",
    source=PRACTICE,
)
BORE_TO_EDGE = Rule(
    name="bore_to_edge",
    value=0.5,
    what="wood between a hole and an edge, in diameters",
    source=PRACTICE,
)
BORE_TO_END = Rule(
    name="bore_to_end",
    value=1.5,
    what="wood between a hole and an end, in diameters",
    source=PRACTICE,
)
BORE_END_CAUTION = Rule(
    name="bore_end_caution",
    value=1.0,
    what="a hole's middle nearer to an end, in diameters, cautions: boards are dowelled on flush "
    "all the same",
)
LEAST_CUT = Rule(
    name="least_cut",
    value=0.25,
    what="the least depth of a cut that still seats what is in it, as a share of the wood",
)
WEAK_SHARE = Rule(
    name="weak_share",
    value=0.25,
    what="wood under this share of the thickness is weak: boxes of thin stock last with half of it",
)
WEAK_WOOD = _Long(name="weak_wood", value=3.0, what="and only where it is under this too")
USUAL_WOOD = Rule(
    name="usual_wood",
    value=1.0 / 3.0,
    what="the share of the thickness that is usually left",
    source=PRACTICE,
)
LEAST_BIT = _Long(name="least_bit", value=3.0, what="the thinnest bit that is advised")
PUSH_STICK = _Long(
    name="push_stick",
    value=300.0,
    what="the length of push sticks",
    source="a safety page of the trade, read",
)
SPLINE_SHARE = Rule(
    name="spline_share",
    value=0.25,
    what="the thickness of a spline or key that is advised, as a share of the rail's",
    source=PRACTICE,
)
LEAST_SPLINE_STOCK = _Long(
    name="least_spline_stock",
    value=3.0,
    what="the thinnest stock of a spline or key that is advised",
)
KEY_SHARE = Rule(
    name="key_share",
    value=0.7,
    what="the depth of a key's slot that is advised, as a share of the mitre",
)
KEY_SPACING = _Long(
    name="key_spacing",
    value=12.0,
    what="the height that each key takes, with the wood between",
    source=PRACTICE,
)
SPLINE_END = _Long(
    name="spline_end",
    value=3.0,
    what="wood left between an advised spline or key and an edge or a rabbet",
)
USUAL_DOWEL = Rule(
    name="usual_dowel",
    value=0.4,
    what="the thickness of dowels that are advised, as a share of the wood",
    source=PRACTICE,
)
DOWELS_APART = _Long(
    name="dowels_apart", value=60.0, what="the spacing of dowels that are advised", source=PRACTICE
)
POST_KNOCK = Rule(
    name="post_knock",
    value=10.0,
    unit="N",
    what="a knock at the top of a post, besides what it bears",
)
LEAST_PANEL_BEARING = _Long(
    name="least_panel_bearing", value=3.0, what="what a panel's edge lies on in the driest season"
)
STILL = _Long(
    name="still", value=0.02, what="parts that part ways by less are not told of: a thick shaving"
)
MOST_SIDES = Rule(
    name="most_sides",
    value=2.0,
    what="sides at which a base is drawn out before that is another piece",
)
WALL_FIXINGS = Rule(
    name="wall_fixings",
    value=2.0,
    what="fixings that a wall piece hangs on at least",
    source=PRACTICE,
)

_IEC = "IEC 62368-1 (2018), static stability"
WEIGHT_PUSH = Rule(
    name="weight_push", value=0.13, what="a push as a share of the weight", source=_IEC
)
WEIGHT_PUSH_MOST = Rule(
    name="weight_push_most", value=250.0, unit="N", what="and at most", source=_IEC
)
WEIGHT_PUSH_HEIGHT = _Long(
    name="weight_push_height", value=1500.0, what="how high it acts at most", source=_IEC
)
PAD_FRICTION = Rule(
    name="pad_friction",
    value=0.8,
    what="friction of soft pads on a dry floor (from memory): what a push can lean on before a "
    "piece slides",
)
BARE_FRICTION = Rule(
    name="bare_friction",
    value=0.5,
    what="the same of bare wood, at most, for a piece lower than its base is deep",
    source="tables of friction, from memory",
)
LEAST_BARE_FRICTION = Rule(
    name="least_bare_friction",
    value=0.25,
    what="and at least, as it is told",
    source="tables of friction, from memory",
)
CARPET_BLOCK = _Long(
    name="carpet_block",
    value=0.43 * 25.4,
    what="how far a carpet lifts the back of a base",
    source="ASTM F2057-23, block under its back (0.43 in, from memory)",
)

BALLAST_HEIGHT_SHARE = Rule(
    name="ballast_height_share",
    value=0.5,
    what="ballast fills at most this share of the height of its box",
)
SPLINE_FADES = Rule(
    name="spline_fades",
    value=3.5,
    unit="mm",
    what="from the long point down a mitre to where a spline has no depth left",
)

CHECKING = (
    BALLAST_HEIGHT_SHARE, SPLINE_FADES, BEHIND_DADO, BEHIND_DADO_SHARE, SHORT_GRAIN_DEPTHS,
    LEAST_SHORT_GRAIN, BIT_SHARE, BORE_TO_EDGE, BORE_TO_END, BORE_END_CAUTION, LEAST_CUT,
    WEAK_SHARE, WEAK_WOOD, USUAL_WOOD, LEAST_BIT, PUSH_STICK, SPLINE_SHARE, LEAST_SPLINE_STOCK,
    KEY_SHARE, KEY_SPACING, SPLINE_END, USUAL_DOWEL, DOWELS_APART, POST_KNOCK,
    LEAST_PANEL_BEARING, STILL, MOST_SIDES, WALL_FIXINGS,
)  # fmt: skip
STEADY = (
    WEIGHT_PUSH, WEIGHT_PUSH_MOST, WEIGHT_PUSH_HEIGHT, PAD_FRICTION, BARE_FRICTION,
    LEAST_BARE_FRICTION, CARPET_BLOCK,
)  # fmt: skip
