"""Rules that are told and stay as they are: what one reckoning does for all its readers."""

from __future__ import annotations

from furniture.rules.rule import PRACTICE, Rule

_STATICS = "the statics of a piece are reckoned once for all that is asked of them"
_ERRORS = "an estimate of a usual shop, told beside the sum"
_CUTS = "cuts are refused by it before any maker's rule is read"
_PLANNED = "boards are read before any maker's rule is"
_SAWN = "a plan is asked for by wishes and prices, and is made without a maker's rules"
_ADVISED = "it words advice, and judges nothing"

BALLAST_HEIGHT_SHARE = Rule(
    name="ballast_height_share",
    value=0.5,
    what="ballast fills at most this share of the height of its box",
    fixed=_ADVISED,
)
SPLINE_FADES = Rule(
    name="spline_fades",
    value=3.5,
    unit="mm",
    what="from the long point down a mitre to where a spline has no depth left",
    fixed=_ADVISED,
)
ACROSS_RESERVE = Rule(
    name="across_reserve",
    value=1.5,
    what="a plate under a person is judged across its grain, beside what presses it, beyond so "
    "many times the mean strength",
    fixed=_STATICS,
)
TORN_AT = Rule(
    name="torn_at",
    value=1.5,
    what="glue on end grain that carries more than so many times what it may is not counted on",
    fixed=_STATICS,
)
LEAN_PUSH = Rule(
    name="lean_push",
    value=50.0,
    unit="N",
    what="the push at which a lean is judged",
    fixed=_STATICS,
)
LEAN_SHARE = Rule(
    name="lean_share",
    value=0.01,
    what="the share of its height that a piece may lean",
    fixed=_STATICS,
)
RACKS_FROM = Rule(
    name="racks_from",
    value=200.0,
    unit="mm",
    what="from this height on a piece is looked at for leaning and folding",
    fixed=_STATICS,
)
LEAST_RACKING = Rule(
    name="least_racking",
    value=50.0,
    unit="N",
    what="a push sideways that a frame bears: a hand that steadies itself",
    fixed=_STATICS,
)
STIFF_SHARE = Rule(
    name="stiff_share",
    value=0.9,
    what="the share of that push, or of what tips it, that a frame bears as made",
    fixed=_STATICS,
)
HINGED_SHARE = Rule(
    name="hinged_share",
    value=0.25,
    what="below this share a loosened frame is a row of hinges",
    fixed=_STATICS,
)
BARE_SHARE = Rule(
    name="bare_share",
    value=0.1,
    what="what folds at less than this share fails: its own weight bears so much at most",
    fixed=_STATICS,
)
BRACING_RAIL = Rule(
    name="bracing_rail",
    value=60.0,
    unit="mm",
    what="a rail so high stands for a back on low cases",
    source=PRACTICE,
    fixed=_ADVISED,
)
TRIFLE = Rule(
    name="trifle",
    value=0.01,
    what="a share of the mass that is not worth a word when it drops",
    fixed=_STATICS,
)
FAILS_AT_SHARE = Rule(
    name="fails_at_share",
    value=0.25,
    what="the share of what joints may carry at which they fail: near the mean itself",
    fixed=_STATICS,
)
THICKNESS_ERROR = Rule(
    name="thickness_error",
    value=0.1,
    unit="mm",
    what="how far off a thickness is",
    source=PRACTICE,
    fixed=_ERRORS,
)
POSITION_ERROR = Rule(
    name="position_error",
    value=0.2,
    unit="mm",
    what="how far off a place is that is marked and cut",
    source=PRACTICE,
    fixed=_ERRORS,
)
KERF_ERROR = Rule(
    name="kerf_error",
    value=0.1,
    unit="mm",
    what="how far off a kerf is",
    source=PRACTICE,
    fixed=_ERRORS,
)
LENGTH_ERROR = Rule(
    name="length_error",
    value=0.3,
    unit="mm",
    what="how far off a length is that is cut to a stop",
    source=PRACTICE,
    fixed=_ERRORS,
)
ANGLE_ERROR = Rule(
    name="angle_error",
    value=0.1,
    unit="deg",
    what="how far off the tilt of a blade is",
    source=PRACTICE,
    fixed=_ERRORS,
)
FEELER = Rule(
    name="feeler",
    value=0.05,
    unit="mm",
    what="the steps of a feeler gauge",
    source=PRACTICE,
    fixed=_ERRORS,
)
LEAST_WOOD = Rule(
    name="least_wood",
    value=1.0,
    unit="mm",
    what="wood no thicker than this is none: it breaks in the making",
    fixed=_CUTS,
)
LEAST_WIDTH_ALLOWANCE = Rule(
    name="least_width_allowance",
    value=1.5,
    unit="mm",
    what="left on a width at least where its board is not wide enough for the rough width: a "
    "pass of the plane on either edge",
    fixed=_PLANNED,
)
CUT_ACROSS = Rule(
    name="cut_across",
    value=0.8,
    what="a cut over more than this share of the width is across it: glue joints of strips "
    "cannot keep off it",
    fixed=_PLANNED,
)
LONGEST_BOARD = Rule(
    name="longest_board",
    value=10.0,
    unit="ft",
    what="the longest board that is asked for: what a car carries",
    source=PRACTICE,
    fixed=_PLANNED,
)
THINNER = Rule(
    name="thinner",
    value=0.1,
    unit="mm",
    what="a board so little thinner than its stock is used as it is: what a tape makes of one "
    "figure",
    fixed=_PLANNED,
)
PRESS_INSIDE = Rule(
    name="press_inside",
    value=25.0,
    unit="mm",
    what="how far inside an edge a hand presses",
    source="EN 14749, from a test report that was read",
    fixed=_STATICS,
)
MOST_SWING = Rule(
    name="most_swing",
    value=0.1,
    what="how far aside of a handle the weight that hangs on it may lie, beside its drop",
    fixed=_STATICS,
)
MOST_CARRIED = Rule(
    name="most_carried",
    value=25.0,
    unit="kg",
    what="what one lifts with all that lies in it; more is taken out first",
    source="own rule, the figure that guides on manual handling give (from memory)",
    fixed=_STATICS,
)
STEP_TIMES = Rule(
    name="step_times",
    value=2.0,
    what="a person presses with so many times his weight as he steps or sits down",
    fixed=_STATICS,
)

CARD_PLAY = Rule(
    name="card_play",
    value=0.3,
    unit="mm",
    what="play that a loose part keeps in its tightest season: a sheet of card",
    source=PRACTICE,
    fixed=_CUTS,
)
DOUBTFUL_SHARE = Rule(
    name="doubtful_share",
    value=0.15,
    what="from which difference of two sources on a value of wood is told",
    fixed="a wood is read before any maker's rule is",
)

SKIM = Rule(
    name="skim",
    value=0.5,
    unit="mm",
    what="the saw takes so much off the sharp line of an end that it trims true",
    fixed=_PLANNED,
)
SMALL_PART = Rule(
    name="small_part",
    value=150.0,
    unit="mm",
    what="equal parts that are shorter come off one blank, and each stays on it till the last",
    source=PRACTICE,
    fixed=_PLANNED,
)
CLAMP_MINUTES = Rule(
    name="clamp_minutes",
    value=0.5,
    what="minutes to set one clamp or to draw one band tight",
    fixed="it words advice, and judges nothing",
)
CAUL_THICKNESS = Rule(
    name="caul_thickness",
    value=20.0,
    unit="mm",
    what="thickness of a caul below each head of a clamp",
    fixed="it words advice, and judges nothing",
)
HOLDING_LENGTH = Rule(
    name="holding_length",
    value=200.0,
    unit="mm",
    what="the last of several small parts leaves so much of its blank in the hand",
    source=PRACTICE,
    fixed=_PLANNED,
)
FALLS_FROM = Rule(
    name="falls_from",
    value=0.5,
    what="a way out that leads down by more than this share of it lets a part fall",
    fixed=_STATICS,
)
LIES_ON_WITHIN = Rule(
    name="lies_on_within",
    value=0.1,
    unit="mm",
    what="how near a shelf and its bracket lie that touch",
    fixed="what lies on what is read off the piece once, for all that ask",
)
WISHED_SHARE = Rule(
    name="wished_share",
    value=0.5,
    what="the share of a part that a wished zone covers: from half on it reads as that wood",
    fixed=_SAWN,
)
WORTH_A_PASS = Rule(
    name="worth_a_pass",
    value=20_000.0,
    unit="mm2",
    what="an offcut larger by so much is worth one more pass of the saw: two hands",
    fixed=_SAWN,
)

STAYING = (
    SKIM,
    SMALL_PART, HOLDING_LENGTH, CLAMP_MINUTES, CAUL_THICKNESS,
    CARD_PLAY, DOUBTFUL_SHARE, BALLAST_HEIGHT_SHARE, SPLINE_FADES, ACROSS_RESERVE,
    TORN_AT, LEAN_PUSH, LEAN_SHARE, RACKS_FROM, LEAST_RACKING, STIFF_SHARE, HINGED_SHARE,
    BARE_SHARE, BRACING_RAIL, TRIFLE, FAILS_AT_SHARE, THICKNESS_ERROR, POSITION_ERROR,
    KERF_ERROR, LENGTH_ERROR, ANGLE_ERROR, FEELER, LEAST_WOOD, LEAST_WIDTH_ALLOWANCE,
    CUT_ACROSS, LONGEST_BOARD, THINNER, PRESS_INSIDE, MOST_SWING, MOST_CARRIED, STEP_TIMES,
    FALLS_FROM, LIES_ON_WITHIN, WISHED_SHARE, WORTH_A_PASS,
)  # fmt: skip
