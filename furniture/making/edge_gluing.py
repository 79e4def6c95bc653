"""What gluing up strips edge to edge takes: glue, time, clamps across, cauls that hold it flat."""

from __future__ import annotations

import math
from dataclasses import dataclass

from furniture.making.bench.gluing import GlueTime, closed_minutes_left, glue_grams, glue_time
from furniture.making.bench.pressing import (
    ClampsChosen,
    choose_clamps,
    clamps_needed,
    pressure_asked_mpa,
)
from furniture.making.glue_ups.values import GlueBench
from furniture.making.strips import GluedUp
from furniture.rules import Rules
from furniture.rules.bench import CAUL_THICKNESS, CLAMP_MINUTES
from furniture.rules.tools import CAULS_APART, CLAMP_FROM_END, CLAMPS_APART
from furniture.shop.tools.glues import GlueFacts
from furniture.shop.tools.values import ShopRead

_MINUTE_S = 60.0
_SPREAD_S = GlueBench().seconds_per_face


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeGluing:
    """One part glued up from its strips.

    Args:
        wood: what they become, by its id.
        glue: that is spread on both edges of every joint.
        lines: how many glue lines there are.
        grams: of glue to have ready [g].
        spread_minutes: to spread it [min].
        time: what that and the clamps use of the glue's time.
        closed_minutes: that are left to draw the clamps tight [min]; None where only the label
            knows.
        force_n: that the clamps give together, across all lines at once [N]; None where the glue
            asks for no figure.
        clamps: those on hand, side by side along the lines, every second one from below.
        wanting: how many more clamps would press it as hard, and stand close enough.
        apart_mm: how far apart they stand [mm].
        opening_mm: that their jaws must have [mm].
        cauls: pairs across the strips, one at each end.
    """

    wood: str
    glue: GlueFacts
    lines: int
    grams: float
    spread_minutes: float
    time: GlueTime
    closed_minutes: float | None
    force_n: float | None
    clamps: ClampsChosen
    wanting: int
    apart_mm: float
    opening_mm: float
    cauls: int


def edge_gluing_of(glued: GluedUp, shop: ShopRead, rules: Rules) -> EdgeGluing:
    """What gluing up one part takes.

    Each clamp presses every line, since they lie one behind another: force is asked for one line.

    Args:
        glued: the part and its strips.
        shop: its glue and clamps.
        rules: how far apart clamps and cauls stand.

    **Source:** pressure times area; clamps a glue maker's 200 to 300 mm apart; pairs of cauls:
    common practice.
    """
    wood = glued.workpiece
    long, wide, thick = (high - low for low, high in zip(wood.low, wood.high, strict=True))
    lines = len(glued.strips) - 1
    area = long * thick
    asked = pressure_asked_mpa(shop.glue, [glued.unit.timber.species], rules)
    force = None if asked is None else asked * area
    run = max(0.0, long - 2.0 * rules[CLAMP_FROM_END])
    along = max(2, 1 + math.ceil(run / rules[CLAMPS_APART] - 1e-9))
    opening = wide + 2.0 * rules[CAUL_THICKNESS]
    clamps = choose_clamps(shop.clamps, force or 0.0, opening, at_least=along)
    wanting = max(0, along - clamps.count)
    strongest = max((lot.force_n for lot in shop.clamps if lot.opening_mm >= opening), default=None)
    if clamps.short_n > 0.0 and strongest is not None and asked is not None:
        wanting = max(wanting, clamps_needed(clamps.short_n / asked, asked, strongest))
    stand = max(along, clamps.count + wanting)
    spread = 2.0 * lines * _SPREAD_S / _MINUTE_S
    return EdgeGluing(
        wood=wood.id,
        glue=shop.glue,
        lines=lines,
        grams=glue_grams(shop.glue, 2.0 * lines * area, rules),
        spread_minutes=spread,
        time=glue_time(shop.glue, spread, stand * rules[CLAMP_MINUTES], rules),
        closed_minutes=closed_minutes_left(shop.glue, spread, rules),
        force_n=force,
        clamps=clamps,
        wanting=wanting,
        apart_mm=run / (stand - 1),
        opening_mm=opening,
        cauls=1 + max(1, math.ceil(long / rules[CAULS_APART] - 1e-9)),
    )
