"""Rules of what holds and bears: hands and persons, pushes sideways, what loosens."""

from __future__ import annotations

from furniture.rules.rule import PRACTICE, Rule

ACROSS_RESERVE = Rule(
    name="across_reserve",
    value=1.5,
    what="a plate under a person is judged across its grain, beside what presses it, beyond so "
    "many times the mean strength",
)
TORN_AT = Rule(
    name="torn_at",
    value=1.5,
    what="glue on end grain that carries more than so many times what it may is not counted on",
)
LEAN_PUSH = Rule(
    name="lean_push",
    value=50.0,
    unit="N",
    what="the push at which a lean is judged",
)
LEAN_SHARE = Rule(
    name="lean_share",
    value=0.01,
    what="the share of its height that a piece may lean",
)
RACKS_FROM = Rule(
    name="racks_from",
    value=200.0,
    unit="mm",
    what="from this height on a piece is looked at for leaning and folding",
)
LEAST_RACKING = Rule(
    name="least_racking",
    value=50.0,
    unit="N",
    what="a push sideways that a frame bears: a hand that steadies itself",
)
STIFF_SHARE = Rule(
    name="stiff_share",
    value=0.9,
    what="the share of that push, or of what tips it, that a frame bears as made",
)
HINGED_SHARE = Rule(
    name="hinged_share",
    value=0.25,
    what="below this share a loosened frame is a row of hinges",
)
BARE_SHARE = Rule(
    name="bare_share",
    value=0.1,
    what="what folds at less than this share fails: its own weight bears so much at most",
)
BRACING_RAIL = Rule(
    name="bracing_rail",
    value=60.0,
    unit="mm",
    what="a rail so high stands for a back on low cases",
    source=PRACTICE,
)
TRIFLE = Rule(
    name="trifle",
    value=0.01,
    what="a share of the mass that is not worth a word when it drops",
)
FAILS_AT_SHARE = Rule(
    name="fails_at_share",
    value=0.25,
    what="the share of what joints may carry at which they fail: near the mean itself",
)
PRESS_INSIDE = Rule(
    name="press_inside",
    value=25.0,
    unit="mm",
    what="how far inside an edge a hand presses",
    source="EN 14749, from a test report that was read",
)
MOST_SWING = Rule(
    name="most_swing",
    value=0.1,
    what="how far aside of a handle the weight that hangs on it may lie, beside its drop",
)
MOST_CARRIED = Rule(
    name="most_carried",
    value=25.0,
    unit="kg",
    what="what one lifts with all that lies in it; more is taken out first",
    source="own rule, the figure that guides on manual handling give (from memory)",
)
STEP_TIMES = Rule(
    name="step_times",
    value=2.0,
    what="a person presses with so many times his weight as he steps or sits down",
)

BEARING = (
    ACROSS_RESERVE, TORN_AT, LEAN_PUSH, LEAN_SHARE, RACKS_FROM, LEAST_RACKING, STIFF_SHARE,
    HINGED_SHARE, BARE_SHARE, BRACING_RAIL, TRIFLE, FAILS_AT_SHARE, PRESS_INSIDE, MOST_SWING,
    MOST_CARRIED, STEP_TIMES,
)  # fmt: skip
