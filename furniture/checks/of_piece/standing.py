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
from furniture.checks.ground import Demand
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
from furniture.pieces import OpeningFor, Piece, Stance
from furniture.pieces.weighed import Weighed

TOUCH_N = 5.0
"""A push at the top at which the piece is said to fail [N]. Own rule: a sleeve in passing, half a
kilogram; a piece that goes over at less cannot be left standing free."""
TOP_PUSH_N = 10.0
"""A knock at the top [N]. Own rule: about a kilogram's push, what a sleeve or a cat does."""
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
        room=_room_of(piece, floor),
        base_kg=math.fsum(
            weighed.parts[each.part.id].mass_kg
            for each in piece.placed
            if each.instance in piece.intent.base
        ),
        drawn_out=piece.intent.drawn_out,
    )


def _room_of(piece: Piece, floor_mm: float) -> Room | None:
    """The free inside of the piece's box above a floor that is so high in the piece's frame."""
    inside = piece.intent.inside
    if inside is None:
        return None
    low, high = inside.low, inside.high
    return Room(
        low_mm=(low[0], low[1], low[2] - floor_mm),
        high_mm=(high[0], high[1], high[2] - floor_mm),
        is_open_below=inside.is_open_below,
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
        piece: the piece as cut, which says what its openings are for
        weighed: its extents
    """
    heights = [each.centre[2] for each in piece.intent.openings if each.purpose is OpeningFor.CABLE]
    return max(heights) - weighed.extents[0][2] if heights else None


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
