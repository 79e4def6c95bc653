"""Rules of builders: how small, large, thin or near the parts of a stand and a box may be."""

from __future__ import annotations

from functools import partial

from furniture.rules.rule import PRACTICE, KeptBy, Rule

_Kept = partial(Rule, kept_by=KeptBy.BUILDERS)
_Long = partial(_Kept, unit="mm")

LEAST_BOX_SIDE = _Long(
    name="least_box_side",
    value=80.0,
    what="the least outer width and depth of a box",
    source=PRACTICE,
)
GREATEST_BOX_SIDE = _Long(
    name="greatest_box_side",
    value=1200.0,
    what="the greatest outer width and depth of a box",
    source=PRACTICE,
)
GREATEST_BOX_HEIGHT = _Long(
    name="greatest_box_height", value=400.0, what="the greatest height of a box's rails"
)
LEAST_INSIDE = _Long(
    name="least_inside",
    value=30.0,
    what="room between two opposite rails: less holds nothing and cannot be clamped",
)
RAIL_MISMATCH = _Long(
    name="rail_mismatch",
    value=0.5,
    what="how far the thickness of two mitred rails may differ: an inner step is seen",
)
LEAST_RABBET_WALL = _Long(
    name="least_rabbet_wall",
    value=5.0,
    what="rail left outside a lid's or a bottom's rabbet",
    source=PRACTICE,
)
RABBET_WALL_SHARE = _Kept(
    name="rabbet_wall_share",
    value=1.0 / 3.0,
    what="the same as a share of the rail's thickness",
    source=PRACTICE,
)
LEAST_RABBET_FLOOR = _Long(
    name="least_rabbet_floor",
    value=3.0,
    what="rabbet floor that a lid or a bottom lies on when it is made",
)
LEAST_BELOW_RABBET = _Long(name="least_below_rabbet", value=12.0, what="rail left below a rabbet")
BACK_ABOVE_RAIL = _Long(
    name="back_above_rail",
    value=0.5,
    what="between a back panel's foot and the back rail, whose top is planed flush",
)
LEAST_BACK = _Long(
    name="least_back",
    value=3.0,
    what="the thinnest back panel: a thinner one drums and holds no pin",
    source=PRACTICE,
)
SHEET_BACK_GAP = _Long(
    name="sheet_back_gap", value=0.5, what="beyond either edge of a back of sheet stock"
)
LEAST_LID_GAP = _Long(
    name="least_lid_gap", value=0.5, what="the least gap that is left round a lid of itself"
)
LEAST_PROFILE = _Long(
    name="least_profile",
    value=0.5,
    what="the least radius of a round-over and legs of a chamfer",
    source=PRACTICE,
)
GREATEST_PROFILE = _Long(
    name="greatest_profile", value=25.0, what="the greatest of them", source=PRACTICE
)
PROFILE_LEAVES = _Long(
    name="profile_leaves",
    value=0.5,
    what="what a profile leaves of a part's thickness: a knife edge crumbles",
)
LEAST_PAD = _Long(
    name="least_pad",
    value=15.0,
    what="the side of a pad: a smaller one tears off when the piece is dragged",
)
LEAST_ON_PAD = _Long(
    name="least_on_pad", value=8.0, what="rail that lies on a pad and is glued to it"
)
LEAST_FINGER = _Long(
    name="least_finger", value=15.0, what="a hole that a finger goes into", source=PRACTICE
)
LEAST_LID_LIP = _Long(
    name="least_lid_lip",
    value=4.0,
    what="rail left above the groove of a sliding lid: a thinner lip breaks out",
)
RECESS_WIDTH = _Long(
    name="recess_width",
    value=8.0,
    what="the width of the recess that a sliding lid is drawn by",
    source=PRACTICE,
)
RECESS_DEPTH = _Kept(
    name="recess_depth", value=1.0 / 3.0, what="and its depth, as a share of the lid's thickness"
)
RECESS_IN = _Long(
    name="recess_in", value=10.0, what="how far inside the rail its middle, or a hole's edge, lies"
)
LEAST_OPENING_WOOD = _Long(
    name="least_opening_wood",
    value=5.0,
    what="wood between an opening and an edge, a joint or another opening",
)
MOST_CORD_NOTCH = _Kept(
    name="most_cord_notch",
    value=1.0 / 3.0,
    what="how deep a cord notch may be, as a share of the tier that it is cut into",
)
LEAST_CLIP = _Long(name="least_clip", value=4.0, what="the foot of a cord clip, either way")
GREATEST_CLIP = _Long(name="greatest_clip", value=60.0, what="the same, at most")
PASS_PLAY = _Long(
    name="pass_play",
    value=2.0,
    what="an opening is so much wider than the plug or the cables that must pass",
    source=PRACTICE,
)
MOST_VENTS = Rule(
    name="most_vents", value=40.0, what="vents in one row at most: a longer one is two rows"
)
LONGEST_PART = _Long(
    name="longest_part", value=3000.0, what="the longest part of such a piece", source=PRACTICE
)
LEAST_BALLAST_SIDE = _Long(name="least_ballast_side", value=5.0, what="the thinnest ballast")
LEAST_BALLAST_ROOM = _Long(
    name="least_ballast_room", value=20.0, what="the least inside of a box in which ballast lies"
)
WANTED_BOTTOM = _Long(
    name="wanted_bottom",
    value=10.0,
    what="what a bottom that is still wanted takes of a box's height",
)
CORNER_PART_CLEAR = _Long(
    name="corner_part_clear", value=0.5, what="between a spline or key and the edges of its mitre"
)
USUAL_KEY = _Kept(
    name="usual_key",
    value=0.65,
    what="how deep a key's slot is where nothing is said, as a share of the mitre across",
    source=PRACTICE,
)
USUAL_SPLINE = _Kept(
    name="usual_spline",
    value=0.6,
    what="where a spline's middle lies then, from the long point, as a share of the same",
    source=PRACTICE,
)
LEAST_SPLINE_WIDTH = _Long(name="least_spline_width", value=3.0, what="the narrowest spline")
GREATEST_CORNER_PART = _Long(
    name="greatest_corner_part", value=500.0, what="the largest figure of a spline or a key"
)
LOOSEST_SCREW = _Long(
    name="loosest_screw",
    value=2.0,
    what="how much wider than its screw a clearance hole may be: a head pulls through",
)
PILOT_TIGHTER = _Long(
    name="pilot_tighter", value=0.3, what="how much thinner than its screw a pilot hole is at least"
)
GREATEST_SMALL_SCREW = _Long(
    name="greatest_small_screw", value=6.0, what="the thickest screw of a clip or a chain"
)
BACK_PINS = _Kept(
    name="back_pins",
    value=0.4,
    what="how far from its middle a back is pinned on a post, as a share of its height",
)
LEAST_SCREW = _Long(name="least_screw", value=2.0, what="the thinnest screw", source=PRACTICE)
GREATEST_SCREW = _Long(
    name="greatest_screw", value=10.0, what="the thickest screw", source=PRACTICE
)
SCREW_HEAD = _Kept(
    name="screw_head", value=1.8,
    what="the least width of a countersink in screw diameters: heads are about twice as wide as "
    "the screw",
    source=PRACTICE,
)  # fmt: skip
LEAST_BITE = _Long(
    name="least_bite",
    value=8.0,
    what="the least length of a screw or pin beyond the part that it passes",
)
LOOSEST_PEG = _Long(
    name="loosest_peg",
    value=0.3,
    what="how much wider than its peg a hole may be: glue fills no more",
)
LEAST_PEG = _Long(name="least_peg", value=3.0, what="the thinnest peg", source=PRACTICE)
LEAST_CLEAT = _Long(name="least_cleat", value=5.0, what="the thinnest cleat that screws hold")
CLEAT_CLEAR = _Long(
    name="cleat_clear",
    value=1.0,
    what="between a cleat's ends and the rails or the back that it stands between",
)
SLOT_WIDTH = _Long(
    name="slot_width",
    value=6.0,
    what="the width of a cleat's slot, for its screw, in a piece that is told in millimetres: a "
    "bit that shops have",
    source=PRACTICE,
)
SLOT_WIDTH_INCH = _Long(
    name="slot_width_inch",
    value=6.35,
    what="the same in a piece that is told in inches: a bit of 1/4 in",
    source=PRACTICE,
)
SLOT_LENGTH = _Long(
    name="slot_length",
    value=14.0,
    what="its length, with room for the seasons of what is screwed",
    source=PRACTICE,
)
SLOT_LENGTH_INCH = _Long(
    name="slot_length_inch",
    value=14.2875,
    what="the same in a piece that is told in inches: 9/16 in",
    source=PRACTICE,
)
SLOT_SHARE = _Kept(
    name="slot_share",
    value=0.2,
    what="where the slots lie from either end of a cleat, as a share of its length",
)
CLEAT_WOOD = _Long(
    name="cleat_wood", value=5.0, what="the least wood of a cleat beside a slot or a hole in it"
)
SCREW_SKIN = _Long(
    name="screw_skin", value=3.0, what="lid or upright left before the point of a cleat's screw"
)

LEAST_MITRED_RAIL = _Long(
    name="least_mitred_rail", value=40.0,
    what="the shortest rail, long point to square end: shorter is unsafe to mitre",
)  # fmt: skip
LEAST_RAIL_INSIDE = _Long(
    name="least_rail_inside",
    value=20.0,
    what="the same along its inner face, where the mitre has taken its share",
)
LEAST_POST = _Long(name="least_post", value=30.0, what="the narrowest post")
LEAST_STRIP = _Long(
    name="least_strip",
    value=20.0,
    what="one strip of a glued-up post: narrower is work without gain",
)
GREATEST_STRIP = _Long(
    name="greatest_strip", value=100.0, what="and no wider: it cups as a whole board does"
)
BESIDE_POST = _Long(
    name="beside_post",
    value=20.0,
    what="room inside the box on either side of a post, where a lid bears",
)
LEAST_LET_IN = _Long(
    name="least_let_in", value=2.0, what="how far a post is let into the back rail at least"
)
LET_IN_PLAY = _Long(
    name="let_in_play",
    value=0.15,
    what="between a post and its dado in the back rail: by its width a fit grows",
)
LEAST_FILLER = _Long(
    name="least_filler",
    value=4.0,
    what="the strip that fills the rabbet behind a post: less cannot be sawn",
)
LEAST_LID = _Long(
    name="least_lid", value=60.0, what="lid in front of a post: less is no box to put things in"
)
LEAST_BESIDE_UPRIGHT = _Long(
    name="least_beside_upright", value=6.0, what="foot board beside an upright at least"
)
LEAST_UPRIGHT = _Long(
    name="least_upright",
    value=60.0,
    what="depth of an upright, front to back: narrower holds no tier level",
)
LEAST_BACK_RAIL = _Long(
    name="least_back_rail",
    value=40.0,
    what="back rail between two uprights: shorter is unsafe to cut square",
)
LEAST_UPRIGHT_STOP = _Long(
    name="least_upright_stop", value=6.0, what="wood left before a stopped dado in an upright"
)
MOST_UPRIGHT_STOP = _Kept(
    name="most_upright_stop", value=0.4, what="and at most, as a share of the upright's depth"
)
LEAST_HOUSED = _Long(
    name="least_housed", value=3.0, what="the shallowest dado that a tier stands in"
)
USUAL_DADO_SHARE = _Kept(
    name="usual_dado_share",
    value=1.0 / 3.0,
    what="the depth of a dado as a share of the wood, by default",
    source=PRACTICE,
)
LEAST_DADO_SHARE = _Kept(
    name="least_dado_share", value=1.0 / 8.0, what="and at least", source=PRACTICE
)
BETWEEN_DADOS = _Long(
    name="between_dados",
    value=15.0,
    what="post left whole between two dados: less is short grain that shears off",
)
LEAST_TIER = _Long(
    name="least_tier",
    value=20.0,
    what="how far a tier stands out from its post at least",
    source=PRACTICE,
)
GREATEST_TIER = _Long(name="greatest_tier", value=500.0, what="and at most", source=PRACTICE)
GREATEST_RISE = _Long(
    name="greatest_rise", value=600.0, what="the greatest height from one tier to the next"
)
LEAST_LIP = _Long(
    name="least_lip",
    value=4.0,
    what="height of a lip above its tier: 6 to 12 stops a pot",
    source=PRACTICE,
)
GREATEST_LIP = _Long(
    name="greatest_lip",
    value=80.0,
    what="and at most: 30 to 60 makes a gallery rail",
    source=PRACTICE,
)
LIP_GAP = _Long(name="lip_gap", value=0.25, what="between a lip's ends and the uprights")
DOWEL_INTO_FACE = _Kept(
    name="dowel_into_face",
    value=0.6,
    what="how far a dowel goes into a wide face, as a share of its thickness",
)
DOWEL_LEAST_LENGTH = _Kept(
    name="dowel_least_length",
    value=3.0,
    what="the least length of a dowel in diameters",
    source=PRACTICE,
)
USUAL_FOOT_TENON = _Kept(
    name="usual_foot_tenon",
    value=2.0 / 3.0,
    what="how deep a post's tenon goes into its foot board by default, as a share of its thickness",
    source=PRACTICE,
)
USUAL_BRACKET = _Kept(
    name="usual_bracket",
    value=0.6,
    what="how far a bracket reaches by default, as a share of what its tier stands out",
)
USUAL_BRACKET_BETWEEN = _Kept(
    name="usual_bracket_between",
    value=1.0 / 6.0,
    what="how far a bracket reaches by default from an upright, as a share of the tier's span",
)
LEAST_BRACKET_BETWEEN = _Kept(
    name="least_bracket_between",
    value=0.1,
    what="how far one reaches from an upright at least, so that it shortens the span",
)
MOST_BRACKET_BETWEEN = _Kept(
    name="most_bracket_between",
    value=1.0 / 3.0,
    what="how far one may reach from an upright, so that a third of the span stays free",
)
LEAST_BRACKET_HEIGHT = _Long(
    name="least_bracket_height", value=25.0, what="the height of a bracket at post or upright"
)
LEAST_BRACKET_NOSE = _Long(
    name="least_bracket_nose", value=6.0, what="what is left of its height at the front"
)
STEEPEST_BRACKET = _Kept(
    name="steepest_bracket",
    value=55.0,
    unit="deg",
    what="how steep the slope of a bracket's lower end may be sawn",
    source=PRACTICE,
)
BRACKET_CLEAR = _Long(
    name="bracket_clear", value=5.0, what="between a bracket and the tier or lip below it"
)
BRACKET_BESIDE = _Long(
    name="bracket_beside",
    value=5.0,
    what="post, strip of one, or upright on either side of a bracket",
)
BRACKET_SCREW_EDGE = _Long(
    name="bracket_screw_edge",
    value=10.0,
    what="from a bracket's screw to its top, to its slope and to the next screw",
)
BRACKET_SCREW_WOOD = _Kept(
    name="bracket_screw_wood",
    value=2.5,
    what="the thinnest bracket that a screw goes into from behind, in diameters of the screw",
    source=PRACTICE,
)

BOXES = (
    LEAST_BOX_SIDE, GREATEST_BOX_SIDE, GREATEST_BOX_HEIGHT, LEAST_INSIDE, RAIL_MISMATCH,
    LEAST_RABBET_WALL, RABBET_WALL_SHARE, LEAST_RABBET_FLOOR, LEAST_BELOW_RABBET, LEAST_LID_GAP,
    LEAST_PROFILE, GREATEST_PROFILE, PROFILE_LEAVES, LEAST_PAD, LEAST_ON_PAD, LEAST_FINGER,
    LEAST_LID_LIP, RECESS_WIDTH, RECESS_DEPTH, RECESS_IN,
    LEAST_OPENING_WOOD, MOST_VENTS, MOST_CORD_NOTCH, LEAST_CLIP, GREATEST_CLIP,
    PASS_PLAY, LONGEST_PART, LEAST_BALLAST_SIDE,
    LEAST_BALLAST_ROOM, WANTED_BOTTOM,
    CORNER_PART_CLEAR, USUAL_KEY, USUAL_SPLINE, LEAST_SPLINE_WIDTH, GREATEST_CORNER_PART,
    LOOSEST_SCREW, PILOT_TIGHTER,
    LEAST_SCREW, GREATEST_SCREW, GREATEST_SMALL_SCREW, BACK_PINS,
    SCREW_HEAD, LEAST_BITE, LOOSEST_PEG, LEAST_PEG, LEAST_CLEAT,
    CLEAT_CLEAR, SLOT_WIDTH, SLOT_WIDTH_INCH, SLOT_LENGTH, SLOT_LENGTH_INCH,
    SLOT_SHARE, CLEAT_WOOD, SCREW_SKIN,
)  # fmt: skip
STANDS = (
    LEAST_MITRED_RAIL, LEAST_RAIL_INSIDE, LEAST_POST, LEAST_STRIP, GREATEST_STRIP, BESIDE_POST,
    LEAST_LET_IN, LET_IN_PLAY, LEAST_FILLER, LEAST_LID, LEAST_UPRIGHT,
    LEAST_BESIDE_UPRIGHT, LEAST_BACK_RAIL,
    LEAST_UPRIGHT_STOP, MOST_UPRIGHT_STOP, LEAST_HOUSED, USUAL_DADO_SHARE, LEAST_DADO_SHARE,
    BETWEEN_DADOS, LEAST_TIER, GREATEST_TIER, GREATEST_RISE, LEAST_LIP, GREATEST_LIP, LIP_GAP,
    DOWEL_INTO_FACE, DOWEL_LEAST_LENGTH,
    BACK_ABOVE_RAIL, LEAST_BACK, SHEET_BACK_GAP, USUAL_FOOT_TENON, USUAL_BRACKET,
    USUAL_BRACKET_BETWEEN, LEAST_BRACKET_BETWEEN, MOST_BRACKET_BETWEEN, LEAST_BRACKET_HEIGHT,
    LEAST_BRACKET_NOSE,
    STEEPEST_BRACKET, BRACKET_CLEAR, BRACKET_BESIDE, BRACKET_SCREW_EDGE, BRACKET_SCREW_WOOD,
)  # fmt: skip
