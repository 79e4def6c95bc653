"""Standing: tilt, pushes, presses and the floor, for a piece that stands; its hold on a wall."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from math import ceil, radians, tan

from furniture.checks.ballast import Room
from furniture.checks.check import Check
from furniture.checks.finding import Finding, Show, Tipping, Verdict
from furniture.checks.floor import uneven_floor_finding
from furniture.checks.ground import Demand, DrawnOut
from furniture.checks.housing import HAND_N
from furniture.checks.of_piece.reading import (
    badness,
    box_round,
    most_telling,
    shown_by,
    worst_alone,
)
from furniture.checks.of_piece.setting import CABLE_PULL_N, HeldBy, Setting
from furniture.checks.remedies import WALL_RESERVE, strap_n
from furniture.checks.rows.standing import (
    CABLE_PULL,
    HALF_WEIGHT_PRESS,
    LEANING_HAND,
    STRAP_HOLD,
    TILT,
    TOP_PUSH,
    WALL_HOLD,
)
from furniture.checks.stability import GRAVITY_M_S2, Body, Load, Surface, combined
from furniture.checks.stability_findings import (
    DEFERENCE,
    TABLE_TOP_EQUIPMENT,
    Standing,
    TiltRule,
    half_weight_press_n,
    press_findings,
    push_findings,
    sliding_finding,
    tilt_findings,
    weight_share_findings,
)
from furniture.checks.tall import scope_finding, tall_findings
from furniture.parts.cuts import Bore
from furniture.parts.placement import Box
from furniture.pieces import Piece, Stance, placed_named
from furniture.pieces.weighed import Weighed
from furniture.units import read_length

TOUCH_N = 5.0
"""A push at the top at which the piece is said to fail [N]. Own rule: a sleeve in passing, half a
kilogram; a piece that goes over at less cannot be left standing free."""
TOP_PUSH_N = 10.0
"""A knock at the top [N]. Own rule: about a kilogram's push, what a sleeve or a cat does."""
BOTTOM_MM = 10.0
"""What a bottom that is still wanted takes of a box's height [mm]. Own rule."""
LEAST_ROOM_MM = 20.0
"""The least inside of a box in which ballast lies [mm]. Own rule."""
WALL_FIXINGS = 2
"""Fixings that a wall piece hangs on at least. Common practice, no source."""


def standing_of(piece: Piece, weighed: Weighed) -> Standing:
    """The piece as it stands, as the statics take it: heights above the floor.

    Args:
        piece: the piece as cut
        weighed: its mass and where it touches the floor
    """
    floor = weighed.extents[0][2]
    x, y, z = weighed.whole.centre_mm
    surfaces = {
        each.instance: Surface(
            name=each.instance,
            x0_mm=each.low[0],
            x1_mm=each.high[0],
            y0_mm=each.low[1],
            y1_mm=each.high[1],
            top_mm=each.top_mm - floor,
        )
        for each in piece.surfaces
    }
    loads = tuple(
        Load(
            name=f"{load.name} on {load.on}",
            on=surfaces[load.on],
            mass_kg=load.mass_kg,
            footprint_mm=load.footprint_mm,
            centre_height_mm=load.centre_height_mm,
        )
        for load in piece.loads
    )
    return Standing(
        piece=Body(mass_kg=weighed.whole.mass_kg, centre_mm=(x, y, z - floor)),
        contacts_mm=weighed.floor,
        top_mm=weighed.extents[1][2] - floor,
        loads=loads,
        surfaces=tuple(surfaces.values()),
        room=ballast_room(piece, floor),
        base_kg=_base_kg(piece, weighed),
        drawn_out=drawn_out_of(piece),
    )


def drawn_out_of(piece: Piece) -> tuple[DrawnOut, ...] | None:
    """The builder's parameters that draw the base out; none for a box, whose lid would grow too.

    A post stands at the back of its base, so that only the front moves with the depth. Between
    uprights the tiers grow with the width. None for a piece whose maker places its parts.

    Args:
        piece: the piece as cut

    **Source:** how the builders place their parts.
    """
    given = piece.parameters
    if "ballast" not in given:
        return None
    if "base_depth" not in given:
        return ()
    depth = DrawnOut(
        parameter="base_depth", now_mm=read_length(given["base_depth"]), sides=("front",)
    )
    if given.get("uprights"):
        return (depth,)
    width = read_length(given["base_width"])
    sides = ("left", "right")
    return (depth, DrawnOut(parameter="base_width", now_mm=width, sides=sides, times=2.0))


def ballast_room(piece: Piece, floor_mm: float) -> Room | None:
    """The free inside of the piece's box, where ballast lies or would lie; None without a box.

    Upright parts that stand in the box take away their side of it, ballast that is there its
    height.

    Args:
        piece: the piece as cut
        floor_mm: height of the floor in the piece's frame [mm]

    **Source:** own rule, geometry of the boxes round its parts.
    """
    in_rails = [each for each in piece.joinings if each.kind == "rabbet" and each.fit is None]
    rails = {each.into for each in in_rails}
    panels = {each.incoming for each in in_rails}
    boxes = [box_round(each) for each in piece.placed if each.instance in rails]
    if len(boxes) < 3:
        return None
    low = [min(box[0][axis] for box in boxes) for axis in range(3)]
    high = [max(box[1][axis] for box in boxes) for axis in range(3)]
    levels = sorted(box_round(placed_named(piece, name)) for name in panels)
    middle = (low[2] + high[2]) / 2.0
    tops = [box[0][2] for box in levels if box[0][2] > middle]
    floors = [box[1][2] for box in levels if box[1][2] < middle]
    high[2] = min([high[2], *tops])
    low[2] = max([low[2] + (0.0 if floors else BOTTOM_MM), *floors])
    for each in piece.placed:
        if each.instance not in panels:
            _take_away(low, high, box_round(each), each.instance in rails)
    for body in piece.fixed:
        low[2] = max(low[2], body.centre_mm[2] + body.size_mm[2] / 2.0)
    if any(high[axis] - low[axis] < LEAST_ROOM_MM for axis in range(3)):
        return None
    return Room(
        low_mm=(low[0], low[1], low[2] - floor_mm),
        high_mm=(high[0], high[1], high[2] - floor_mm),
        is_open_below=not floors,
    )


def _take_away(low: list[float], high: list[float], box: Box, is_rail: bool) -> None:
    """Shrinks the room by what stands in it, on the side that costs least."""
    if any(box[1][axis] <= low[axis] or box[0][axis] >= high[axis] for axis in range(3)):
        return
    costs = []
    for axis in (0, 1):
        if is_rail and box[1][axis] - box[0][axis] > box[1][1 - axis] - box[0][1 - axis]:
            continue
        costs.append((box[1][axis] - low[axis], axis, True))
        costs.append((high[axis] - box[0][axis], axis, False))
    _, axis, is_low = min(costs)
    if is_low:
        low[axis] = box[1][axis]
    else:
        high[axis] = box[0][axis]


def _base_kg(piece: Piece, weighed: Weighed) -> float:
    """The mass [kg] of the rails of a box and the panels in them: what grows with its outline."""
    in_rails = [
        joining for joining in piece.joinings if joining.kind == "rabbet" and joining.fit is None
    ]
    names = {name for each in in_rails for name in (each.into, each.incoming)}
    return math.fsum(
        weighed.parts[each.part.id].mass_kg for each in piece.placed if each.instance in names
    )


def standing_findings(piece: Piece, weighed: Weighed, setting: Setting) -> tuple[Finding, ...]:
    """Whether the piece stands, empty and loaded, touched, pushed and on a floor that is not flat.

    Args:
        piece: the piece as cut
        weighed: its mass and where it touches the floor
        setting: where it stands
    """
    show = shown_by(piece)
    if piece.stance is Stance.WALL:
        return (wall_finding(piece, weighed, show),)
    standing = replace(standing_of(piece, weighed), friction=setting.friction)
    try:
        standing.edges()
    except ValueError as error:
        return (_nothing_to_stand_on(str(error)),)
    rule, top = TABLE_TOP_EQUIPMENT, standing.top_mm
    half = half_weight_press_n(standing.piece)
    pushes = [*push_findings(standing, TOP_PUSH_N, top, TOP_PUSH, show, TOUCH_N)]
    cable_at = cable_height_mm(piece, weighed) if setting.cable_at_mm is None else None
    if (height := setting.cable_at_mm or cable_at) is not None:
        pushes += push_findings(standing, CABLE_PULL_N, height, CABLE_PULL, show)
    if setting.held is HeldBy.WALL:
        return (
            strap_finding(standing, rule, show),
            *_level_floor(tilt_findings(standing, rule, show)),
            scope_finding(standing, setting.stands_on, show),
        )
    presses = press_findings(standing, HAND_N, LEANING_HAND, show)
    halves = press_findings(standing, half, HALF_WEIGHT_PRESS, show)
    return (
        *_one_a_subject(tilt_findings(standing, rule, show)),
        *worst_alone((*weight_share_findings(standing, show), *pushes)),
        uneven_floor_finding(standing, rule, show),
        *most_telling((*reversed(presses), *reversed(halves))),
        *worst_alone(tall_findings(standing, setting.stands_on, show)),
        sliding_finding(standing, setting.friction, top, show),
        scope_finding(standing, setting.stands_on, show),
    )


def strap_finding(standing: Standing, rule: TiltRule, show: Show) -> Finding:
    """What the fixing at the top of a standing piece must bear, by the worst of the demands.

    Args:
        standing: the piece as it stands
        rule: the tilt that it should bear
        show: puts amounts into the piece's unit

    **Source:** statics, as `strap_n`: a knock at the top, the tilt, and a hand on a front edge.
    """
    ground = standing.ground()
    asked = [
        ("a knock at its top", Demand(moment_nmm=TOP_PUSH_N * standing.top_mm), ground),
        (f"a tilt of {rule.limit_deg:g}°", Demand(slope=tan(radians(rule.limit_deg))), ground),
    ]
    for surface in standing.surfaces:
        at = ((surface.x0_mm + surface.x1_mm) / 2.0, surface.y0_mm, surface.top_mm)
        hand = Body(mass_kg=HAND_N / GRAVITY_M_S2, centre_mm=at)
        leaning = replace(ground, piece=combined((ground.piece, hand)))
        asked.append((f"a hand on the front edge of {surface.name}", Demand(), leaning))
    pulls = [(strap_n(each, standing.loads, demand), what) for what, demand, each in asked]
    pull, what = max(pulls, key=lambda each: each[0])
    return _pull_on_the_wall(
        STRAP_HOLD,
        "fixing at the top",
        pull,
        f"fixed to the wall at {show(standing.top_mm)}, so no push tips it over; most is "
        f"asked by {what}, times {WALL_RESERVE:g} (own rule)",
        f"take a fixing that bears {show.force(max(1.0, ceil(pull)))} at the top of the "
        "piece, in a stud or masonry and never in board alone, and pull on it before you load it",
    )


def _level_floor(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """What falls over on a level floor still does so before it is fixed, or once it comes loose."""
    falls = [each for each in findings if each.verdict is Verdict.FAIL]
    return worst_alone(each.at_most(Verdict.CAUTION) for each in falls)


def cable_height_mm(piece: Piece, weighed: Weighed) -> float | None:
    """The height [mm] above the floor of the highest opening for a cable; None without one.

    Args:
        piece: the piece as cut, its parameters saying what its openings are for
        weighed: its extents

    **Source:** own rule: an opening is a bore of the stated size right through the part that it
    was stated for; a drain of the same size in another part is none.
    """
    stated = [
        (read_length(each["size"]), str(each.get("on", "")))
        for each in piece.parameters.get("openings") or ()
        if isinstance(each, dict) and each.get("purpose") == "cable"
    ]
    heights = [
        placed.placement.to_piece((cut.x_mm or 0.0, cut.y_mm or 0.0, cut.z_mm or 0.0))[2]
        for placed in piece.placed
        for cut in placed.part.cuts
        if isinstance(cut, Bore) and cut.depth_mm is None
        if any(
            abs(cut.diameter_mm - size) < 1e-6 and _is_one_of(placed.instance, on)
            for size, on in stated
        )
    ]
    return max(heights) - weighed.extents[0][2] if heights else None


def _is_one_of(instance: str, on: str) -> bool:
    """Whether an instance is the one named, or one of the group named, as tier 2 of `tiers`."""
    stem = on.removesuffix("s")
    own = instance.rstrip("0123456789").strip()
    return on in (instance, "") or own in (on, stem) or own.endswith(f" {stem}")


def wall_finding(piece: Piece, weighed: Weighed, show: Show) -> Finding:
    """The pull on the topmost fixing of a piece that hangs on a wall.

    Args:
        piece: the piece as cut
        weighed: its mass
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
    pull = max(0.0, moment * GRAVITY_M_S2 / arm)
    weight = mass * GRAVITY_M_S2
    each_pull, each_weight = (WALL_RESERVE * force / WALL_FIXINGS for force in (pull, weight))
    return _pull_on_the_wall(
        WALL_HOLD,
        "upper fixing",
        pull,
        "it hangs, so tip-over does not apply and the fixing is the thing to check: "
        f"{show.mass(mass)} with its loads at the front, held {show(arm)} above its lowest touch",
        f"hang it on {WALL_FIXINGS} fixings or more that each bear "
        f"{show.force(each_pull)} outward and {show.force(each_weight)} down "
        f"({WALL_RESERVE:g} times their share, own rule), in "
        "studs or masonry and never in board alone, and pull on it before you load it",
    )


def _pull_on_the_wall(
    check: Check, subject: str, pull_n: float, basis: str, advice: str
) -> Finding:
    """A caution: what a fixing must bear is known, what its wall bears is not."""
    return Finding(
        check=check,
        subject=subject,
        value=pull_n,
        stated=Verdict.CAUTION,
        basis=f"{basis}; what a wall bears is not known here; {DEFERENCE}",
        advice=advice,
    )


def _nothing_to_stand_on(why: str) -> Finding:
    return Finding(
        check=TILT,
        subject="the whole piece",
        value=0.0,
        limits=TILT.limits(cautions=TABLE_TOP_EQUIPMENT.limit_deg),
        tipping=Tipping(ways=()),
        basis=why,
        advice="give it at least three places to stand on that are not in line, or hang it on a "
        "wall",
    )


def _one_a_subject(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Edges that face the same way, as those of round feet do, count as their worst one."""
    worst: dict[str, Finding] = {}
    for each in findings:
        known = worst.get(each.subject)
        if known is None or badness(each) < badness(known):
            worst[each.subject] = each
    return tuple(worst.values())
