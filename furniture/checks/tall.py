"""Ideas from the furniture tip-over tests, as voluntary checks, and whether those tests apply."""

from __future__ import annotations

import math
from enum import Enum

from furniture.checks.finding import Finding, Show, Tipping
from furniture.checks.rows.standing import CARPET, CHILD, SCOPE
from furniture.checks.stability import worst_leaning
from furniture.checks.stability_findings import (
    DEFERENCE,
    Standing,
    press_findings,
    ways_of,
)
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.checking import CARPET_BLOCK
from furniture.rules.standing import CHILD as CHILD_RULE
from furniture.rules.standing import CLIMBED_FROM, HEAVY, TALL

_DOCUMENT = "ASTM F2057-23, made law for clothing storage by 16 CFR 1261"


class StandsOn(Enum):
    """What the piece stands on."""

    FLOOR = "floor"
    TABLE = "table"


def scope_finding(
    standing: Standing, stands_on: StandsOn, show: Show, rules: Rules = USUAL_RULES
) -> Finding:
    """Whether the clothing-storage tip-over rule could apply, and which ideas are borrowed.

    Args:
        standing: the piece as it stands
        stands_on: floor or table
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** ASTM F2057-23, 1.1 to 1.4 (scope), as told by its catalogue page and 16 CFR 1261.2.
    """
    tall = standing.top_mm >= rules[TALL]
    borrowed = tall and stands_on is StandsOn.FLOOR
    used = "used here as voluntary checks" if borrowed else "not used"
    return Finding(
        check=SCOPE,
        subject=f"piece on the {stands_on.value}",
        value=standing.top_mm,
        limits=SCOPE.limits(notes=rules[TALL]),
        basis=f"{_DOCUMENT}: free-standing clothing storage of at least {show(rules[TALL])} and "
        f"{show.mass(rules[HEAVY])} with drawers or doors; shelving is outside its scope, so it "
        f"does not apply; its ideas are {used}; {DEFERENCE}",
        advice="",
    )


def tall_findings(
    standing: Standing, stands_on: StandsOn, show: Show, rules: Rules = USUAL_RULES
) -> tuple[Finding, ...]:
    """The voluntary checks of a piece on the floor; none for a low one or one on a table.

    A 60 lbf child on each front edge from some height on, and of a tall piece a carpet that lifts
    its back by 0.43 in.

    Args:
        standing: the piece as it stands
        stands_on: floor or table
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** ASTM F2057-23, ideas of its section 9; the block is from memory.
    """
    if stands_on is not StandsOn.FLOOR or standing.top_mm < rules[CLIMBED_FROM]:
        return ()
    children = press_findings(standing, rules[CHILD_RULE], CHILD, show)
    if standing.top_mm < rules[TALL]:
        return children
    return (*children, carpet_finding(standing, show))


def carpet_finding(standing: Standing, show: Show) -> Finding:
    """The forward tilt [deg] left when a carpet lifts the back of the base.

    Args:
        standing: the piece as it stands
        show: puts a length into the piece's unit

    **Source:** ASTM F2057-23, block under its back (0.43 in, from memory); statics.
    """
    edges = standing.edges()
    front = min(edges, key=lambda edge: edge.outward[1])
    ys = [y for _, y in standing.contacts_mm]
    lean = math.degrees(math.atan2(standing.rules[CARPET_BLOCK], max(ys) - min(ys)))
    leaning = worst_leaning(standing.piece, standing.loads, front)
    limits = CARPET.limits(notes=lean)
    return Finding(
        check=CARPET,
        subject="front edge",
        value=leaning.angle_deg,
        limits=limits,
        tipping=Tipping(ways=ways_of(front), is_loaded=bool(leaning.loads)),
        basis=f"a carpet that lifts the back by {show(standing.rules[CARPET_BLOCK])} leans it "
        f"{lean:.1f} deg forward; {_DOCUMENT}, does not apply to shelving; {DEFERENCE}",
    )
