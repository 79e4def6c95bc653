"""A person on a piece: near any edge of what bears him he must not tip it."""

from __future__ import annotations

from dataclasses import replace

from furniture.checks.bodies import Body, Load, Surface, combined
from furniture.checks.finding import Finding, Show, Tipping, Verdict
from furniture.checks.ground import Demand
from furniture.checks.rows.standing import PERSON_TIPS, STEP_TIPS
from furniture.checks.stability import righting_moment_nmm
from furniture.checks.stability_findings import DEFERENCE, NOTHING_TO_DO, Standing, ways_of
from furniture.checks.support import Edge
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.standing import (
    PERSON_FROM_EDGE,
    PERSON_PRESS,
    PERSON_SIDEWAYS,
    STEP_BACK_SHARE,
)
from furniture.units.gravity import GRAVITY_M_S2

MOST_TOLD_N = 100_000.0
"""A press that is told as the most where no press there tips it [N]."""


def person_finding(
    standing: Standing, surface: Surface, show: Show, rules: Rules = USUAL_RULES
) -> Finding:
    """The press of a person inside the edges of a surface that tips the piece, at its worst corner.

    He pushes sideways at the surface's height meanwhile. Other loads may be absent or at their
    worst.

    Args:
        standing: the piece as it stands, without the person
        surface: what bears him
        show: puts amounts into the piece's unit
        rules: the maker's

    **Source:** EN 1022, stability of seats, as a maker's page tells its tests; statics.
    """
    inset, sideways = rules[PERSON_FROM_EDGE], rules[PERSON_SIDEWAYS]
    cases = [
        (press, edge, at)
        for edge in standing.edges()
        for at in _corners(surface, inset)
        if (press := _tips_at(standing, edge, at, sideways * surface.top_mm, rules[PERSON_PRESS]))
        is not None
    ]
    subject = f"edge of {surface.name}"
    limits = PERSON_TIPS.limits(fails=rules[PERSON_PRESS])
    if not cases:
        return Finding(
            check=PERSON_TIPS, subject=subject, value=None, limits=limits, stated=Verdict.OK,
            basis=f"no press {show(inset)} inside its edges tips the piece",
        )  # fmt: skip
    press, edge, at = min(cases, key=lambda each: each[0])
    advice, remedies = NOTHING_TO_DO
    if PERSON_TIPS.verdict(press, limits) is Verdict.FAIL:
        person = Body(mass_kg=rules[PERSON_PRESS] / GRAVITY_M_S2, centre_mm=(*at, surface.top_mm))
        bearing = replace(standing, piece=combined((standing.piece, person)))
        demand = Demand(moment_nmm=sideways * surface.top_mm)
        advice, remedies = bearing.to_do(standing.loads, demand, show)
    return Finding(
        check=PERSON_TIPS,
        subject=f"{edge.name} {subject}",
        value=min(press, MOST_TOLD_N),
        limits=limits,
        tipping=Tipping(ways=ways_of(edge), is_loaded=True),
        basis=f"pressed {show(inset)} inside its edges and pushed sideways with "
        f"{show.force(sideways)}; {DEFERENCE}",
        advice=advice,
        remedies=remedies,
    )


def step_finding(
    standing: Standing, person: Load, show: Show, rules: Rules = USUAL_RULES
) -> Finding:
    """The push of a foot that tips the piece, as a person steps up or down near an edge.

    He climbs from the front, and a foot pushes back to where one comes from. His whole weight
    stands there. Other loads may be absent or at their worst.

    Args:
        standing: the piece as it stands, without the person
        person: who steps, with the surface that bears him
        show: puts amounts into the piece's unit
        rules: the maker's

    **Source:** statics; a foot pushes back with a share of the weight, own rule.
    """
    inset, share = rules[PERSON_FROM_EDGE], rules[STEP_BACK_SHARE]
    weight = person.mass_kg * GRAVITY_M_S2
    found = [
        (max(0.0, left) / (person.on.top_mm * -edge.outward[1]), edge)
        for edge in standing.edges()
        if edge.outward[1] < -1e-9
        for at in _corners(person.on, inset)
        for left in [
            righting_moment_nmm(standing.piece, standing.loads, edge) + weight * edge.inside_mm(at)
        ]
    ]
    push, edge = min(found, key=lambda each: each[0])
    asked = share * weight
    return Finding(
        check=STEP_TIPS,
        subject=f"{edge.name} edge of {person.on.name}",
        value=push,
        limits=STEP_TIPS.limits(cautions=asked),
        tipping=Tipping(ways=ways_of(edge), is_loaded=True),
        basis=f"{show.force(weight)} stand {show(inset)} inside its edges; {DEFERENCE}",
        advice="make it lower, or wider that way, or give it something to hold on to",
    )


def _corners(surface: Surface, inset_mm: float) -> list[tuple[float, float]]:
    """The corners of what he may press on; its middle line where it is narrower than two insets."""
    x = min(inset_mm, (surface.x1_mm - surface.x0_mm) / 2.0)
    y = min(inset_mm, (surface.y1_mm - surface.y0_mm) / 2.0)
    return [
        (across, deep)
        for across in (surface.x0_mm + x, surface.x1_mm - x)
        for deep in (surface.y0_mm + y, surface.y1_mm - y)
    ]


def _tips_at(
    standing: Standing, edge: Edge, at: tuple[float, float], sideways_nmm: float, asked_n: float
) -> float | None:
    """The press [N] at a point that tips the piece over an edge; None where a press there helps.

    0 where it helps too little: the push sideways tips it with all that is asked on it.
    """
    left = righting_moment_nmm(standing.piece, standing.loads, edge) - sideways_nmm
    arm = -edge.inside_mm(at)
    if arm > 1e-9:
        return max(0.0, left) / arm
    return 0.0 if left - arm * asked_n < 0.0 else None
