"""What a shop is taken to have where nothing is said, in either unit, each in round numbers.

Common practice, no source, unless a line says more.
"""

from __future__ import annotations

from furniture.shop.tools.kinds import ClampKind

USUAL_HEAD = {
    "outer": ("3.2 mm", "1/8 in"),
    "diameter": ("200 mm", "8 in"),
    "widest": ("20 mm", "13/16 in"),
    "deepest": ("40 mm", "1 1/2 in"),
    "cuts_wider": ("0 mm", "0 in"),
}
"""A dado head's figures.

**Source:** a pair of outer cutters of 1/8 in each, chippers of 1/8 and 1/16 in (a workshop diary,
stusshed.wordpress.com, tag dado-set); 8 in and 13/16 in at most (a saw's manual, manualsdump
276517 p. 27); the metric figures from memory."""
USUAL_CHIPPERS = (
    ("3.2 mm", "3.2 mm", "3.2 mm", "3.2 mm", "2.4 mm", "1.6 mm"),
    ("1/8 in", "1/8 in", "1/8 in", "1/8 in", "3/32 in", "1/16 in"),
)
"""**Source:** as the head's; the 3/32 in from memory."""
USUAL_SHIMS = (
    ("0.1 mm", "0.1 mm", "0.2 mm", "0.3 mm", "0.5 mm"),
    ("0.004 in", "0.004 in", "0.008 in", "0.012 in", "0.020 in"),
)
"""From memory."""
USUAL_STRAIGHT = (
    ("3 mm", "4 mm", "6 mm", "8 mm", "10 mm", "12 mm", "16 mm"),
    ("1/8 in", "1/4 in", "3/8 in", "1/2 in", "5/8 in", "3/4 in"),
)
USUAL_ROUND_OVER = (
    ("2 mm", "3 mm", "6 mm", "10 mm"),
    ("1/16 in", "1/8 in", "1/4 in", "3/8 in"),
)
USUAL_ROUTER = {
    "chamfer": ("10 mm", "3/8 in"),
    "deepest": ("30 mm", "1 1/4 in"),
    "base": ("150 mm", "6 in"),
    "reach": ("250 mm", "10 in"),
    "edge_guide": ("150 mm", "6 in"),
    "each_pass": ("3 mm", "1/8 in"),
}
"""From memory; the chamfer common practice; no pass deeper than 1/8 in, whatever bit and wood: a
router's manual (manualsdump 275665, p. 15)."""
USUAL_DRILLS = (
    tuple(f"{half / 2:g} mm" for half in range(3, 21))
    + tuple(f"{each} mm" for each in (11, 12, 13, 14, 15, 16, 18, 20, 22, 25, 30, 35, 40)),
    tuple(f"{each}/64 in" for each in range(4, 33))
    + tuple(f"{each}/8 in" for each in range(5, 13)),
)
USUAL_PRESS = {
    "throat": ("150 mm", "6 in"),
    "tallest": ("250 mm", "10 in"),
    "travel": ("60 mm", "2 3/8 in"),
}
"""A bench drill press. From memory."""
USUAL_JOINTER = {
    "widest": ("200 mm", "8 in"),
    "shortest": ("300 mm", "12 in"),
    "thinnest": ("12 mm", "1/2 in"),
}
"""**Source:** nothing shorter than 12 in (a shop guide on jointing and a magazine's page on
planers, woodmagazine.com, `Get the most from your planer`); the rest common practice."""
USUAL_PLANER = {
    "widest": ("300 mm", "12 in"),
    "shortest": ("300 mm", "12 in"),
    "thinnest": ("5 mm", "3/16 in"),
}
"""**Source:** as the jointer's."""
USUAL_CLAMPS = (
    (ClampKind.PARALLEL_JAW, ("600 mm", "24 in"), 4),
    (ClampKind.LIGHT_BAR, ("900 mm", "36 in"), 4),
    (ClampKind.ONE_HAND, ("300 mm", "12 in"), 4),
)
USUAL_FORCE = {
    ClampKind.PARALLEL_JAW: "370 lbf",
    ClampKind.ONE_HAND: "470 lbf",
    ClampKind.LIGHT_BAR: "680 lbf",
    ClampKind.PIPE: "1050 lbf",
    ClampKind.I_BAR: "1350 lbf",
}
"""What a clamp gives, as measured by one magazine: a light hand gives 60 % of it, a strong one 140.

**Source:** finewoodworking.com, 11 May 2010 (a magazine's test of clamps)."""
USUAL_THROAT = {
    ClampKind.PARALLEL_JAW: ("95 mm", "3 3/4 in"),
    ClampKind.ONE_HAND: ("80 mm", "3 1/4 in"),
    ClampKind.LIGHT_BAR: ("80 mm", "3 in"),
    ClampKind.PIPE: ("45 mm", "1 3/4 in"),
    ClampKind.I_BAR: ("45 mm", "1 3/4 in"),
}
"""From the bar to the middle of the heads. From memory."""
USUAL_BAND = {"reach": ("4 m", "13 ft"), "tension": ("1000 N", "225 lbf")}
"""From memory: a strap drawn tight by its screw."""
