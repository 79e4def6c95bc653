"""Ideas from the furniture tip-over tests, as voluntary checks, and whether those tests apply."""

from __future__ import annotations

import math
from enum import Enum

from furniture.checks.finding import Finding, Show, Tipping, Verdict
from furniture.checks.ground import Demand
from furniture.checks.rows.standing import CARPET, CHILD, HAND_PUSH, SCOPE
from furniture.checks.stability import worst_leaning
from furniture.checks.stability_findings import (
    DEFERENCE,
    NOTHING_TO_DO,
    Standing,
    press_findings,
    push_findings,
    ways_of,
)

POUND_FORCE_N = 4.4482216152605
TALL_FROM_MM = 27.0 * 25.4
HEAVY_FROM_KG = 13.6
HAND_HOLD_UP_TO_MM = 56.0 * 25.4
HAND_PUSH_N = 10.0 * POUND_FORCE_N
CHILD_N = 60.0 * POUND_FORCE_N
CARPET_BLOCK_MM = 0.43 * 25.4

_DOCUMENT = "ASTM F2057-23, made law for clothing storage by 16 CFR 1261"


class StandsOn(Enum):
    """What the piece stands on."""

    FLOOR = "floor"
    TABLE = "table"


def scope_finding(standing: Standing, stands_on: StandsOn, show: Show) -> Finding:
    """Whether the clothing-storage tip-over rule could apply, and which ideas are borrowed.

    Args:
        standing: the piece as it stands
        stands_on: floor or table
        show: puts a length into the piece's unit

    **Source:** ASTM F2057-23, 1.1 to 1.4 (scope), as told by its catalogue page and 16 CFR 1261.2.
    """
    tall = standing.top_mm >= TALL_FROM_MM
    borrowed = tall and stands_on is StandsOn.FLOOR
    used = "used here as voluntary checks" if borrowed else "not used"
    return Finding(
        check=SCOPE,
        subject=f"piece on the {stands_on.value}",
        value=standing.top_mm,
        limits=SCOPE.limits(notes=TALL_FROM_MM),
        basis=f"{_DOCUMENT}: free-standing clothing storage of at least {show(TALL_FROM_MM)} and "
        f"{show.mass(HEAVY_FROM_KG)} with drawers or doors; shelving is outside its scope, so it "
        f"does not apply; its ideas are {used}; {DEFERENCE}",
        advice="",
    )


def tall_findings(standing: Standing, stands_on: StandsOn, show: Show) -> tuple[Finding, ...]:
    """The voluntary checks of a tall piece on the floor; none for a low one or one on a table.

    A 10 lbf push at hand height, a 60 lbf child on each front edge, and a carpet that lifts the
    back by 0.43 in.

    Args:
        standing: the piece as it stands
        stands_on: floor or table
        show: puts a length into the piece's unit

    **Source:** ASTM F2057-23, ideas of its section 9; the forces and the block are from memory.
    """
    if standing.top_mm < TALL_FROM_MM or stands_on is not StandsOn.FLOOR:
        return ()
    height = min(standing.top_mm, HAND_HOLD_UP_TO_MM)
    return (
        *push_findings(standing, HAND_PUSH_N, height, HAND_PUSH, show),
        *press_findings(standing, CHILD_N, CHILD, show),
        carpet_finding(standing, show),
    )


def carpet_finding(standing: Standing, show: Show) -> Finding:
    """The forward tilt [deg] left when a carpet lifts the back of the base.

    Args:
        standing: the piece as it stands
        show: puts a length into the piece's unit

    **Source:** ASTM F2057-23, block under the rear (0.43 in, from memory); statics.
    """
    edges = standing.edges()
    front = min(edges, key=lambda edge: edge.outward[1])
    ys = [y for _, y in standing.contacts_mm]
    lean = math.degrees(math.atan2(CARPET_BLOCK_MM, max(ys) - min(ys)))
    leaning = worst_leaning(standing.piece, standing.loads, front)
    limits = CARPET.limits(cautions=lean)
    verdict = CARPET.verdict(leaning.angle_deg, limits)
    advice, remedies = NOTHING_TO_DO
    if verdict is not Verdict.OK:
        demand = Demand(slope=math.tan(math.radians(lean)))
        advice, remedies = standing.to_do(standing.loads, demand, show)
    return Finding(
        check=CARPET,
        subject="front edge",
        value=leaning.angle_deg,
        limits=limits,
        tipping=Tipping(ways=ways_of(front), is_loaded=bool(leaning.loads)),
        basis=f"a carpet that lifts the back by {show(CARPET_BLOCK_MM)} leans it {lean:.1f} deg "
        f"forward; {_DOCUMENT}, does not apply to shelving; {DEFERENCE}",
        advice=advice,
        remedies=remedies,
    )
