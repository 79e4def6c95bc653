"""Rules of what a design may be: how far advice goes, and shares that joints and builders keep."""

from __future__ import annotations

from furniture.rules.rule import PRACTICE, KeptBy, Rule

MOST_THICKER = Rule(
    name="most_thicker", value=0.5,
    what="how much thicker a part may be made before it is another design",
)  # fmt: skip
LEAST_BRACKET = Rule(
    name="least_bracket", value=1.0 / 3.0,
    what="how far a bracket reaches under a shelf at least, so that it does not wedge it up",
)  # fmt: skip
MOST_BRACKET = Rule(
    name="most_bracket",
    value=0.8,
    what="how far a bracket may reach under a shelf",
)
STEPS_FROM = Rule(
    name="steps_from", value=5.0, unit="mm",
    what="tiers that step back by so much each are seen to step",
)  # fmt: skip
STRAIGHT_WITHIN = Rule(
    name="straight_within", value=1.0, unit="mm",
    what="tiers that step back by no more each are seen to stand straight",
)  # fmt: skip
DEPTH_TO_NEED = Rule(
    name="depth_to_need", value=2.0,
    what="a tier is noted that is more than so many times as deep as what stands on it",
)  # fmt: skip
LEAST_LOAD = Rule(
    name="least_load",
    value=0.25,
    what="the least share of a stated load still worth stating",
)
MOST_INWARD = Rule(
    name="most_inward",
    value=0.25,
    what="how far a tier may be drawn in, as a share of its size",
)
MOST_GROWTH = Rule(
    name="most_growth", value=0.25,
    what="how far a base may grow at one edge, as a share of its size there",
)  # fmt: skip
MOST_BALLAST = Rule(
    name="most_ballast",
    value=1.5,
    what="ballast as a multiple of the piece's mass",
)
MOST_ABOVE = Rule(
    name="most_above",
    value=60.0,
    unit="mm",
    what="the most wood that is asked for above a dado",
)
LEAST_PLAY = Rule(
    name="least_play", value=0.05, unit="mm",
    what="the least play that a shop can cut and feel, and the thinnest good glue line",
)  # fmt: skip
MOST_PLAY = Rule(
    name="most_play", value=0.3, unit="mm",
    what="the widest dado in which a shelf still stands upright", source=PRACTICE,
)  # fmt: skip
LEAST_GLUED = Rule(
    name="least_glued",
    value=0.5,
    what="the least share of a joint that is still worth gluing",
)
DADO_SHARE = Rule(
    name="dado_share", value=0.5,
    what="a dado or groove goes so deep at most, and as much of the wood stays behind it",
    source=PRACTICE, kept_by=KeptBy.JOINTS,
)  # fmt: skip
LEAST_DADO = Rule(
    name="least_dado", value=0.25,
    what="the least depth of a dado that is advised, as a share of the wood", source=PRACTICE,
)  # fmt: skip
DOWEL_LENGTH = Rule(
    name="dowel_length", value=5.0, what="the length of a dowel in diameters",
    source=PRACTICE, kept_by=KeptBy.JOINTS,
)  # fmt: skip
DOWEL_EDGE = Rule(
    name="dowel_edge", value=2.0, what="a dowel's middle from an edge, in diameters",
    source=PRACTICE, kept_by=KeptBy.JOINTS,
)  # fmt: skip
DOWEL_LEAST_SHARE = Rule(
    name="dowel_least_share", value=0.25, what="a dowel is as thick as this share of the wood, or "
    "more", source=PRACTICE, kept_by=KeptBy.JOINTS,
)  # fmt: skip
DOWEL_MOST_SHARE = Rule(
    name="dowel_most_share", value=0.5, what="and no thicker than this", source=PRACTICE,
    kept_by=KeptBy.JOINTS,
)  # fmt: skip

DESIGN = (
    MOST_THICKER, LEAST_BRACKET, MOST_BRACKET, STEPS_FROM, STRAIGHT_WITHIN, DEPTH_TO_NEED,
    LEAST_LOAD, MOST_INWARD, MOST_GROWTH,
    MOST_BALLAST, MOST_ABOVE, LEAST_PLAY, MOST_PLAY, LEAST_GLUED, DADO_SHARE, LEAST_DADO,
    DOWEL_LENGTH, DOWEL_EDGE, DOWEL_LEAST_SHARE, DOWEL_MOST_SHARE,
)  # fmt: skip
