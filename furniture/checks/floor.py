"""Standing on a floor that is not flat: which pad hangs in the air, and how far it rocks."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from furniture.checks.advice import Remedy
from furniture.checks.finding import Finding, Show, Tipping, Verdict
from furniture.checks.ground import Demand
from furniture.checks.rows.standing import UNEVEN_FLOOR
from furniture.checks.stability import Leaning, worst_leaning
from furniture.checks.stability_findings import DEFERENCE, Standing, TiltLimits, ways_of
from furniture.checks.support import Edge, Point, support_corners
from furniture.rules import USUAL_RULES
from furniture.rules.standing import LOW_CORNER


@dataclass(frozen=True, slots=True, kw_only=True)
class Rock:
    """What happens when the floor is low under one corner of the support.

    `over` is the line through its neighbours, about which it turns: the edge of what is left to
    stand on, or None where three corners are all there are.
    """

    corner_mm: Point
    over: Edge | None
    angle_deg: float
    towards: Point
    centre_inside_mm: float | None

    @property
    def hangs(self) -> bool:
        """Whether the empty piece stands firm on the others, this corner in the air."""
        return self.centre_inside_mm is not None and self.centre_inside_mm >= 0.0


def rocks(contacts: Sequence[Point], centre: Point, unevenness_mm: float) -> tuple[Rock, ...]:
    """For every corner of the support, the rock when the floor there is low by that much.

    The piece turns about the line through the two neighbouring corners until the corner
    touches. With three corners nothing rocks: the whole plane leans by the same rule.

    Args:
        contacts: (x, y) of everything that touches the floor [mm]
        centre: (x, y) of the centre of mass [mm]
        unevenness_mm: how low the floor is there [mm], 0 or more

    **Source:** own rule, plane geometry: angle = atan(unevenness / distance from the line).
    """
    corners = support_corners(contacts)
    count = len(corners)
    found: list[Rock] = []
    for index, corner in enumerate(corners):
        before, after = corners[index - 1], corners[(index + 1) % count]
        towards, distance = _away(before, after, corner)
        over = Edge(start_mm=before, end_mm=after, outward=towards) if count > 3 else None
        found.append(
            Rock(
                corner_mm=corner,
                over=over,
                angle_deg=math.degrees(math.atan2(unevenness_mm, distance)),
                towards=towards,
                centre_inside_mm=None if over is None else over.inside_mm(centre),
            )
        )
    return tuple(found)


def angle_on_uneven_floor_deg(
    leaning: Leaning, found: Sequence[Rock], worst_over: Callable[[Edge], Leaning]
) -> float:
    """The tilt left [deg] about an edge, whichever corner is low.

    To fall it has to turn until the low corner touches, and then over the edge. A corner near the
    line of its neighbours lets it turn far, but then its neighbours bear nearly what it bears.

    Args:
        leaning: the worst case about the edge on a flat floor
        found: the rocks of every corner
        worst_over: the worst case about any line

    **Source:** own rule, statics: the greater of both tilts decides; a small turn's share toward
    the edge is its cosine.
    """
    return min(_left_deg(leaning, rock, worst_over) for rock in found)


def _left_deg(leaning: Leaning, rock: Rock, worst_over: Callable[[Edge], Leaning]) -> float:
    outward, flat = leaning.edge.outward, leaning.angle_deg
    share = rock.towards[0] * outward[0] + rock.towards[1] * outward[1]
    if share <= 0.0:
        return flat
    rocked = flat - rock.angle_deg * share
    if rock.over is None:
        return rocked
    return max(rocked, min(flat, worst_over(rock.over).angle_deg / share))


def uneven_floor_finding(
    standing: Standing,
    asked: TiltLimits,
    show: Show,
    unevenness_mm: float = USUAL_RULES[LOW_CORNER],
) -> Finding:
    """The least tilt left when any one corner stands on a floor that is low there.

    Args:
        standing: the piece as it stands
        asked: the tilt that it should still bear
        show: puts a length into the piece's unit
        unevenness_mm: how low the floor is under one corner [mm]

    **Source:** own rule (geometry of one low corner); limit: the rule's own source.
    """
    edges = standing.edges()
    found = rocks(standing.contacts_mm, standing.piece.centre_mm[:2], unevenness_mm)

    def worst_over(edge: Edge) -> Leaning:
        return worst_leaning(standing.piece, standing.loads, edge)

    cases = [
        (angle_on_uneven_floor_deg(leaning, found, worst_over), leaning)
        for leaning in map(worst_over, edges)
    ]
    angle, leaning = min(cases, key=lambda each: each[0])
    limits = asked.limits(UNEVEN_FLOOR)
    verdict = UNEVEN_FLOOR.verdict(angle, limits)
    advice = ""
    remedies: tuple[Remedy, ...] = ()
    if verdict in (Verdict.CAUTION, Verdict.FAIL):
        lost = leaning.angle_deg - angle
        demand = Demand(slope=math.tan(math.radians(asked.cautions_deg + lost)))
        ways, remedies = standing.to_do(standing.loads, demand, show)
        shim = (
            ""
            if leaning.angle_deg < asked.cautions_deg
            else f"shim the low corner by {show(unevenness_mm)}, or "
        )
        advice = f"{shim}{ways}"
    hanging = sum(rock.hangs for rock in found)
    return Finding(
        check=UNEVEN_FLOOR,
        subject=f"{leaning.edge.name} edge, one corner {show(unevenness_mm)} low",
        value=angle,
        limits=limits,
        tipping=Tipping(ways=ways_of(leaning.edge), is_loaded=bool(leaning.loads)),
        basis=f"{leaning.angle_deg:.1f} deg on a flat floor, less the rock toward that edge; "
        f"{_rocking_words(hanging, len(found))}; {DEFERENCE}",
        advice=advice,
        remedies=remedies,
    )


def _rocking_words(hanging: int, corners: int) -> str:
    if corners == 3:
        return "on three corners it leans but never rocks"
    return (
        f"at {hanging} of {corners} corners the empty piece would stand firm on the others and "
        "rock when touched"
    )


def _away(before: Point, after: Point, corner: Point) -> tuple[Point, float]:
    """The direction from the line before-after to the corner, and its distance [mm]."""
    along = (after[0] - before[0], after[1] - before[1])
    length = math.hypot(*along)
    normal = (along[1] / length, -along[0] / length)
    distance = (corner[0] - before[0]) * normal[0] + (corner[1] - before[1]) * normal[1]
    sign = 1.0 if distance >= 0.0 else -1.0
    return (normal[0] * sign, normal[1] * sign), abs(distance)
