"""The hole that is bored before a screw goes in."""

from __future__ import annotations

from furniture.rules import Rules
from furniture.rules.hinges import PILOT_HARD, PILOT_HARD_FROM, PILOT_SOFT
from furniture.timber.stock import Timber
from furniture.units import Shown

_DRILL_MM = 0.5
"""The step in which thin drills are sold [mm]. Common practice, no source."""
_DRILL_INCH_MM = 25.4 / 64.0
"""The same where they are sold by the inch. Common practice, no source."""


def pilot_for(screw_mm: float, timber: Timber, rules: Rules, shown: Shown) -> float:
    """The bore for a screw's thread, by how hard the wood is, as drills are sold [mm].

    Args:
        screw_mm: diameter of the shank [mm].
        timber: that it goes into.
        rules: the shop's limits.
        shown: tells whether drills are bought by the inch.
    """
    gravity = timber.species.specific_gravity_12 or rules[PILOT_HARD_FROM]
    is_hard = gravity >= rules[PILOT_HARD_FROM]
    wanted = rules[PILOT_HARD if is_hard else PILOT_SOFT] * screw_mm
    step = _DRILL_INCH_MM if shown.is_inch else _DRILL_MM
    least = 1.0 if not shown.is_inch else 2 * _DRILL_INCH_MM
    return max(least, round(wanted / step) * step)
