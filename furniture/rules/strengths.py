"""Shares of what wood, glue and fasteners bear, where no source says more: told, and staying."""

from __future__ import annotations

from furniture.rules.rule import Rule

_RECKONED = "an estimate of what wood and glue bear, which no shop sets"
_WOOD = "it stands for figures that a wood's row leaves out: give the wood its own instead"
_FASTENED = "an estimate of what fasteners bear, which no shop sets"

SHOP_SHARE = Rule(
    name="shop_share",
    value=0.5,
    what="what a joint glued in a small shop bears of a laboratory's",
    fixed=_RECKONED,
)
GLUED_END_SHARE = Rule(
    name="glued_end_share",
    value=0.25,
    what="what glued end grain bears of the wood: it drinks the glue",
    source="own rule; butt joints reach about a quarter of the wood's strength (Wood Handbook ch. "
    "10, from memory)",
    fixed=_RECKONED,
)
PIN_END_SHARE = Rule(
    name="pin_end_share",
    value=0.5,
    what="what a pin in end grain bears of one in side grain",
    fixed=_FASTENED,
)
SCREW_END_SHARE = Rule(
    name="screw_end_share",
    value=0.25,
    what="what a screw in end grain is counted with beside one in side grain",
    fixed=_FASTENED,
)
STIFFNESS_ACROSS = Rule(
    name="stiffness_across",
    value=0.04,
    what="stiffness across the grain beside that along, where none is printed: near the least of "
    "the hardwoods",
    fixed=_WOOD,
)
STRENGTH_ACROSS = Rule(
    name="strength_across",
    value=0.025,
    what="strength across the grain beside that along, where none is printed: less than any row "
    "that prints both",
    fixed=_WOOD,
)

STRENGTHS = (
    SHOP_SHARE, GLUED_END_SHARE, PIN_END_SHARE, SCREW_END_SHARE, STIFFNESS_ACROSS,
    STRENGTH_ACROSS,
)  # fmt: skip
