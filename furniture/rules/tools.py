"""Rules of tools, glue and finish: what a shop goes by at the bench."""

from __future__ import annotations

from furniture.rules.rule import PRACTICE, Rule

SHIMS_IN_A_GAP = Rule(
    name="shims_in_a_gap", value=2.0,
    what="no more shims lie between two cutters of a dado head: beyond, they may not hold flat",
    source="a saw's manual (esmanual.top 875926, p. 35)",
)  # fmt: skip
STACK_ERROR = Rule(
    name="stack_error", value=0.05, unit="mm",
    what="a dado head this near to a width serves: half the play of a slip fit is left",
)  # fmt: skip
BIT_ERROR = Rule(
    name="bit_error", value=0.1, unit="mm",
    what="a drill or a profile bit this near to a figure serves: 1/4 in for 6.4 mm",
)  # fmt: skip
KERF_FITS = Rule(
    name="kerf_fits", value=0.3, unit="mm",
    what="a saw's kerf this near to the slot of a key or a spline serves: what goes in is planed "
    "to it",
)  # fmt: skip
FACE_TAKES = Rule(
    name="face_takes", value=1.5, unit="mm",
    what="so much at most makes the first face of rough wood true; the other takes the rest",
    source=PRACTICE,
)  # fmt: skip
RESAWN_FROM = Rule(
    name="resawn_from", value=8.0, unit="mm",
    what="what is so much too thick, and no planer makes it, is sawn through its thickness first",
    source=PRACTICE,
)  # fmt: skip
RESAWN_OVER = Rule(
    name="resawn_over", value=2.0, unit="mm",
    what="so much is left beside a saw that goes through a thickness, for the plane",
    source=PRACTICE,
)  # fmt: skip
PASS_OVERLAP = Rule(
    name="pass_overlap", value=1.0, unit="mm",
    what="two passes beside one another overlap by so much, or a fin is left between them",
)  # fmt: skip
MARK_ERROR = Rule(
    name="mark_error", value=0.25, unit="mm",
    what="what a measured and knifed mark is off, as a standard deviation", source=PRACTICE,
)  # fmt: skip
BLOCK_ERROR = Rule(
    name="block_error", value=0.05, unit="mm",
    what="what a spacer block is off, the same each time it is used", source=PRACTICE,
)  # fmt: skip
SEAT_ERROR = Rule(
    name="seat_error", value=0.05, unit="mm",
    what="how a spacer block seats, as a standard deviation, anew each time", source=PRACTICE,
)  # fmt: skip
GLUE_TIME_SHARE = Rule(
    name="glue_time_share", value=1.0,
    what="the shares of open and of closed time that a glue-up takes add up to no more",
    source="two times as shares of one allowance: a table in a manual of light-aircraft "
    "construction (rev. 4, p. D-7, manualshive 1245632); kept here for every glue: own rule",
)  # fmt: skip
GLUE_SPARE = Rule(
    name="glue_spare", value=1.25, what="glue to have ready, for what is needed on the faces"
)
PLANE_PAST_ENDS = Rule(
    name="plane_past_ends", value=60.0, unit="mm",
    what="room that a plane wants past the ends of a face that it levels",
)  # fmt: skip
PLANE_ASIDE = Rule(
    name="plane_aside", value=20.0, unit="mm", what="room that it wants beside the face",
)  # fmt: skip
PLANE_HIGH = Rule(
    name="plane_high", value=140.0, unit="mm", what="room that it wants above, for the hands on it",
)  # fmt: skip
HEAD_BEARS = Rule(
    name="head_bears", value=0.6,
    what="of a clamp's head, the share that bears square: below it a caul is wanted",
)  # fmt: skip
HEAD_DEEP = Rule(
    name="head_deep", value=30.0, unit="mm",
    what="room that a clamp's head wants above its pad: what begins higher is not in its way",
)  # fmt: skip
BASE_BEARS = Rule(
    name="base_bears", value=0.5,
    what="of a router's base, the share that bears half-way along a cut: with less it tips, and "
    "the wood is packed out level beside it",
)  # fmt: skip
CLAMP_BAR = Rule(
    name="clamp_bar", value=12.0, unit="mm",
    what="thickness of a clamp's bar: through a narrower gap it does not pass", source=PRACTICE,
)  # fmt: skip
LEAST_BLOCK = Rule(
    name="least_block", value=12.0, unit="mm",
    what="the narrowest block below a clamp's head, which lifts it over what stands beside",
)  # fmt: skip
BLOCK_SLENDER = Rule(
    name="block_slender", value=4.0,
    what="such a block is at most so many times as high as it is wide, or it tips",
)  # fmt: skip
BLADE_TILT = Rule(
    name="blade_tilt", value=45.0, unit="deg", what="how far the blade of a table saw tilts",
    source=PRACTICE,
)  # fmt: skip
DENSE_WOOD = Rule(
    name="dense_wood", value=0.6,
    what="hardwood of this specific gravity is pressed as oak and birch are",
)  # fmt: skip
DIAGONALS_APART = Rule(
    name="diagonals_apart", value=0.5, unit="mm",
    what="diagonals that differ by less are equal: a tape shows no less",
)  # fmt: skip
FLATTENED = Rule(
    name="flattened", value=1.0, unit="mm",
    what="left on the thickness of a part that is glued up from strips until its glue is hard: "
    "where the board has less to spare, half of what it has",
    source=PRACTICE,
)  # fmt: skip
CLAMPS_APART = Rule(
    name="clamps_apart", value=250.0, unit="mm",
    what="how far apart clamps stand along a glued edge, from middle to middle",
    source="200 to 300 mm, the first 40 to 50 from the end (a glue maker's guide, "
    "studylib.net/doc/18296895)",
)  # fmt: skip
CLAMP_FROM_END = Rule(
    name="clamp_from_end", value=50.0, unit="mm",
    what="how far from the end of a glued edge the first clamp stands",
    source="as clamps_apart",
)  # fmt: skip
CAULS_APART = Rule(
    name="cauls_apart", value=300.0, unit="mm",
    what="how far apart pairs of cauls across strips stand, which hold their faces level",
    source=PRACTICE,
)  # fmt: skip
GRIT_STEP = Rule(
    name="grit_step", value=1.5, what="the next grit is at most so many times the last",
    source="an abrasive maker's page, `Proper grit jumps`: 80, 120, 180",
)  # fmt: skip
FINISH_SPARE = Rule(
    name="finish_spare", value=1.3,
    what="finish to buy, for what is needed: bare wood drinks, and some stays in brush and rag",
)  # fmt: skip

TOOLS = (
    SHIMS_IN_A_GAP, STACK_ERROR, BIT_ERROR, KERF_FITS, PASS_OVERLAP, MARK_ERROR, BLOCK_ERROR,
    SEAT_ERROR, GLUE_TIME_SHARE, GLUE_SPARE, PLANE_PAST_ENDS, PLANE_ASIDE, PLANE_HIGH, HEAD_BEARS,
    HEAD_DEEP, BASE_BEARS, CLAMP_BAR, LEAST_BLOCK, BLOCK_SLENDER, BLADE_TILT, DENSE_WOOD,
    DIAGONALS_APART, FLATTENED, CLAMPS_APART, CLAMP_FROM_END, CAULS_APART, GRIT_STEP, FINISH_SPARE,
)  # fmt: skip
