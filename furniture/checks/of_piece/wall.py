"""Walls: the pull on the fixings of a piece that hangs, and of one that stands fixed at its top."""

from __future__ import annotations

from dataclasses import replace
from math import ceil, radians, tan

from furniture.checks.check import NO_LIMITS
from furniture.checks.finding import Finding, Show, Verdict
from furniture.checks.ground import Demand
from furniture.checks.of_piece.reading import box_round
from furniture.checks.remedies import strap_n
from furniture.checks.rows.standing import WALL_FIXING, WALL_HOLD
from furniture.checks.stability import Body, combined
from furniture.checks.stability_findings import DEFERENCE, Standing
from furniture.pieces import Piece
from furniture.pieces.weighed import Weighed
from furniture.rules import Rules
from furniture.rules.checking import WALL_FIXINGS
from furniture.rules.standing import (
    CHILD,
    CLIMBED_FROM,
    FIRM_PUSH,
    HAND,
    HEAVY,
    TALL,
    WALL_RESERVE,
    WALL_TILT,
)
from furniture.units.gravity import GRAVITY_M_S2

_INTO = "in studs or masonry and never in board alone, and pull on it before you load it"


def fixing_n(standing: Standing, rules: Rules) -> tuple[float, str]:
    """What a fixing to the wall at the top must bear [N], and what asks most of it.

    The same demands before it is there and after: a firm push at the top, the tilt under which a
    tall piece is asked to be fixed, and a hand, or a child, on a front edge.

    Args:
        standing: the piece as it stands
        rules: the maker's

    **Source:** statics, as `strap_n`; demands and reserve are the rules' own.
    """
    ground = standing.ground()
    tilt = rules[WALL_TILT]
    asked = [
        ("a firm push at its top", Demand(moment_nmm=rules[FIRM_PUSH] * ground.top_mm), ground),
        (f"a tilt of {tilt:g}°", Demand(slope=tan(radians(tilt))), ground),
    ]
    is_climbed = standing.top_mm >= rules[CLIMBED_FROM]
    press, who = (rules[CHILD], "a child") if is_climbed else (rules[HAND], "a hand")
    for surface in standing.surfaces:
        at = ((surface.x0_mm + surface.x1_mm) / 2.0, surface.y0_mm, surface.top_mm)
        leaning = Body(mass_kg=press / GRAVITY_M_S2, centre_mm=at)
        leant_on = replace(ground, piece=combined((ground.piece, leaning)))
        asked.append((f"{who} on the front edge of {surface.name}", Demand(), leant_on))
    pulls = [(strap_n(each, standing.loads, demand), what) for what, demand, each in asked]
    pull, what = max(pulls, key=lambda each: each[0])
    return pull * rules[WALL_RESERVE], what


def fixing_finding(
    standing: Standing, rules: Rules, show: Show, *, least_tilt_deg: float, is_fixed: bool
) -> Finding | None:
    """What a fixing to the wall must bear; None of a piece that nobody would fix.

    Args:
        standing: the piece as it stands
        rules: the maker's
        show: puts amounts into the piece's unit
        least_tilt_deg: the least tilt at which it falls [deg]
        is_fixed: whether it is fixed already

    **Source:** own rule, with the height and the mass from which clothes storage is asked.
    """
    is_tall = standing.top_mm >= rules[TALL]
    if not (is_tall or is_fixed):
        return None
    bears, what = fixing_n(standing, rules)
    is_heavy = standing.piece.mass_kg >= rules[HEAVY]
    is_asked = is_tall and is_heavy and least_tilt_deg < rules[WALL_TILT] and not is_fixed
    told = show.force(max(1.0, ceil(bears)))
    take = f"take a fixing that bears {told} at the top of the piece, {_INTO}"
    first = "fixed to the wall" if is_fixed else "where it is fixed to the wall"
    return Finding(
        check=WALL_FIXING,
        subject="at its top",
        value=bears,
        stated=Verdict.CAUTION if is_asked else Verdict.NOTE,
        basis=f"{first} at {show(standing.top_mm)}, so that no push tips it over; most is asked by "
        f"{what}, times {rules[WALL_RESERVE]:g} (own rule); what a wall bears is not known here; "
        f"{DEFERENCE}",
        advice=take if is_fixed or not is_asked else f"fix it to the wall: {take}",
    )


def wall_finding(piece: Piece, weighed: Weighed, rules: Rules, show: Show) -> Finding:
    """The pull on each upper fixing of a piece that hangs on a wall.

    Args:
        piece: the piece as cut
        weighed: its mass
        rules: the maker's
        show: puts a length into the piece's unit

    **Source:** statics: it would turn about its lowest touch of the wall; loads at the front; the
    reserve is an own rule.
    """
    boxes = [box_round(each) for each in piece.placed]
    wall = max(high[1] for _, high in boxes)
    touching = [(low[2], high[2]) for low, high in boxes if high[1] > wall - 0.1]
    foot = min(low for low, _ in touching)
    highest = max(touching, key=lambda span: span[0] + span[1])
    fixing = sum(highest) / 2.0
    arm = max(fixing - foot, 1.0)
    centre = weighed.whole.centre_mm
    moment = weighed.whole.mass_kg * (wall - centre[1])
    mass = weighed.whole.mass_kg
    fronts = {each.instance: each.low[1] for each in piece.surfaces}
    for load in piece.loads:
        moment += load.mass_kg * (wall - fronts[load.on] - load.footprint_mm[1] / 2.0)
        mass += load.mass_kg
    pull = max(0.0, moment * GRAVITY_M_S2 / arm) / rules[WALL_FIXINGS]
    reserve = rules[WALL_RESERVE]
    outward, down = reserve * pull, reserve * mass * GRAVITY_M_S2 / rules[WALL_FIXINGS]
    limits = WALL_HOLD.limits(rules)
    is_mild = WALL_HOLD.verdict(pull, limits) is Verdict.OK
    return Finding(
        check=WALL_HOLD,
        subject="each upper fixing",
        value=pull,
        limits=NO_LIMITS if is_mild else limits,
        stated=Verdict.NOTE if is_mild else None,
        basis="it hangs, so tip-over does not apply and the fixing is the thing to check: "
        f"{show.mass(mass)} with its loads at the front, held {show(arm)} above its lowest touch "
        f"by {rules[WALL_FIXINGS]:g} fixings; what a wall bears is not known here; {DEFERENCE}",
        advice=f"hang it on {rules[WALL_FIXINGS]:g} fixings or more that each bear "
        f"{show.force(outward)} outward and {show.force(down)} down ({reserve:g} times "
        f"their share, own rule), {_INTO}",
    )
