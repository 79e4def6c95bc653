"""Standing: tilt, pushes, presses and the floor, for a piece that stands; its hold on a wall."""

from __future__ import annotations

import math
from collections.abc import Iterable

from furniture.checks.finding import Finding, Sense, Show, Verdict
from furniture.checks.floor import uneven_floor_finding
from furniture.checks.housing import HAND_N
from furniture.checks.of_piece.reading import (
    badness,
    box_round,
    most_telling,
    shown_by,
    worst_alone,
)
from furniture.checks.of_piece.setting import CABLE_PULL_N, Setting
from furniture.checks.stability import GRAVITY_M_S2, Body, Load, Surface
from furniture.checks.stability_findings import (
    DEFERENCE,
    TABLE_TOP_EQUIPMENT,
    Standing,
    half_weight_press_n,
    press_findings,
    push_findings,
    sliding_finding,
    tilt_findings,
    weight_share_findings,
)
from furniture.checks.tall import scope_finding, tall_findings
from furniture.parts.cuts import Bore
from furniture.pieces import Piece, Stance
from furniture.pieces.weighed import Weighed
from furniture.units import read_length

TOP_PUSH_N = 10.0
"""A knock at the top [N]. Own rule: about a kilogram's push, what a sleeve or a cat does."""
WALL_FIXINGS = 2
"""Fixings that a wall piece hangs on at least. Common practice, no source."""
WALL_RESERVE = 4.0
"""What each fixing should bear over the pull that is reckoned [-]. Own rule: walls vary."""


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
        ballast_at_mm=ballast_place(piece, floor),
        base_kg=_base_kg(piece, weighed),
    )


def ballast_place(piece: Piece, floor_mm: float) -> tuple[float, float, float] | None:
    """Where ballast lies, or would lie: in the middle of the box, low down; None without a box.

    Args:
        piece: the piece as cut
        floor_mm: height of the floor in the piece's frame [mm]

    **Source:** own rule: a quarter of the box's height up, on a bottom or fixed to the rails.
    """
    if piece.fixed:
        x, y, z = piece.fixed[0].centre_mm
        return (x, y, z - floor_mm)
    rails = {
        joining.into
        for joining in piece.joinings
        if joining.kind == "rabbet" and joining.fit is None
    }
    boxes = [box_round(each) for each in piece.placed if each.instance in rails]
    if len(boxes) < 3:
        return None
    low = [min(box[0][axis] for box in boxes) for axis in range(3)]
    high = [max(box[1][axis] for box in boxes) for axis in range(3)]
    height = low[2] + (high[2] - low[2]) / 4.0
    return ((low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0, height - floor_mm)


def _base_kg(piece: Piece, weighed: Weighed) -> float:
    """The mass [kg] of the rails of a box and the panels in them: what grows with its outline."""
    in_rails = [
        joining for joining in piece.joinings if joining.kind == "rabbet" and joining.fit is None
    ]
    names = {name for each in in_rails for name in (each.into, each.incoming)}
    return math.fsum(
        weighed.parts[each.part.name].mass_kg for each in piece.placed if each.instance in names
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
    standing = standing_of(piece, weighed)
    try:
        standing.edges()
    except ValueError as error:
        return (_nothing_to_stand_on(str(error)),)
    rule, top = TABLE_TOP_EQUIPMENT, standing.top_mm
    half = half_weight_press_n(standing.piece)
    pushes = [*push_findings(standing, TOP_PUSH_N, top, "push at the top", show)]
    cable_at = cable_height_mm(piece, weighed) if setting.cable_at_mm is None else None
    if (height := setting.cable_at_mm or cable_at) is not None:
        pushes += push_findings(standing, CABLE_PULL_N, height, "pull on the cable", show)
    presses = press_findings(standing, HAND_N, "hand leaning on a front edge", show)
    halves = press_findings(standing, half, "press of half the weight", show)
    return (
        *_one_a_subject(tilt_findings(standing, rule, show)),
        *worst_alone((*weight_share_findings(standing, show), *pushes)),
        uneven_floor_finding(standing, rule, show),
        *most_telling((*reversed(presses), *reversed(halves))),
        *worst_alone(tall_findings(standing, setting.stands_on, show)),
        sliding_finding(standing, setting.friction, top, show),
        scope_finding(standing, setting.stands_on, show),
    )


def cable_height_mm(piece: Piece, weighed: Weighed) -> float | None:
    """The height [mm] above the floor of the highest opening for a cable; None without one.

    Args:
        piece: the piece as cut, its parameters saying what its openings are for
        weighed: its extents

    **Source:** own rule: an opening is a bore of the stated size right through a part.
    """
    sizes = [
        read_length(each["size"])
        for each in piece.parameters.get("openings") or ()
        if isinstance(each, dict) and each.get("purpose") == "cable"
    ]
    heights = [
        placed.placement.to_piece((cut.x_mm or 0.0, cut.y_mm or 0.0, cut.z_mm or 0.0))[2]
        for placed in piece.placed
        for cut in placed.part.cuts
        if isinstance(cut, Bore) and cut.depth_mm is None
        if any(abs(cut.diameter_mm - size) < 1e-6 for size in sizes)
    ]
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
    return Finding(
        check="hold on the wall",
        subject="upper fixing",
        value=pull,
        limit=None,
        sense=None,
        unit="N",
        verdict=Verdict.CAUTION,
        basis=f"it hangs, so tip-over does not apply and the fixing is the thing to check: "
        f"{mass:.2f} kg with its loads at the front, held {show(arm)} above its lowest touch; what "
        f"a wall bears is not known here; {DEFERENCE}",
        advice=f"hang it on {WALL_FIXINGS} fixings or more that each bear {each_pull:.0f} N "
        f"outward and {each_weight:.0f} N down ({WALL_RESERVE:g} times their share, own rule), in "
        "studs or masonry and never in board alone, and pull on it before you load it",
    )


def _nothing_to_stand_on(why: str) -> Finding:
    return Finding(
        check="tilt before it tips",
        subject="the whole piece",
        value=0.0,
        limit=TABLE_TOP_EQUIPMENT.limit_deg,
        sense=Sense.AT_LEAST,
        unit="deg",
        verdict=Verdict.FAIL,
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
