"""What is left after the cuts: wood at the weakest place, short grain, edges of bores."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from furniture.checks.advice import Change, Remedy, longer, said, shorter
from furniture.checks.check import Check, Limits
from furniture.checks.finding import Finding, Show, Verdict
from furniture.checks.rows.wood_left import (
    BORE_EDGE,
    BORE_END,
    BORE_SHARE,
    SHORT_GRAIN,
    WOOD_LEFT,
)
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.checking import (
    BEHIND_DADO,
    BEHIND_DADO_SHARE,
    BIT_SHARE,
    BORE_END_CAUTION,
    BORE_TO_EDGE,
    BORE_TO_END,
    LEAST_BIT,
    LEAST_SHORT_GRAIN,
    SHORT_GRAIN_DEPTHS,
    USUAL_WOOD,
    WEAK_SHARE,
    WEAK_WOOD,
)
from furniture.rules.staying import LEAST_WOOD

_TRADE = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wood:
    """The wood at one place beside a cut.

    Args:
        part: name of the part
        place: where it is, such as `behind the dado` or `between dado 1 and bore 2`
        wood_mm: how much is left [mm]
        thickness_mm: of the part [mm]
        is_section: whether the part hangs together by it; else it is a sharp edge at most
        shallower_mm: by how much the cut may be shallower and still be what it is [mm]
        away_mm: how far the cut may be moved away from it and leave enough on its other side [mm]
    """

    part: str
    place: str
    wood_mm: float
    thickness_mm: float
    is_section: bool = True
    shallower_mm: float = 0.0
    away_mm: float = 0.0


def least_behind_dado_mm(thickness_mm: float, rules: Rules = USUAL_RULES) -> float:
    """The wood [mm] that should stay behind a dado: half the thickness, or 10 mm if that is less.

    Args:
        thickness_mm: thickness of the housing part [mm]
        rules: the maker's

    **Source:** common practice, no source: keep at least half the thickness or 10 mm.
    """
    return min(rules[BEHIND_DADO], rules[BEHIND_DADO_SHARE] * thickness_mm)


def weak_under_mm(thickness_mm: float, rules: Rules = USUAL_RULES) -> float:
    """Under how much wood [mm] a place is weak: a quarter of the thickness, or 3 mm if less.

    Args:
        thickness_mm: thickness of the part [mm]
        rules: the maker's

    **Source:** own rule: boxes of 12 mm stock last with half of it or less.
    """
    return min(rules[WEAK_SHARE] * thickness_mm, rules[WEAK_WOOD])


def wood_left_finding(
    wood: Wood, show: Show, rules: Rules = USUAL_RULES, others: Sequence[str] = ()
) -> Finding:
    """The wood at the weakest place of a part.

    Args:
        wood: that place
        show: puts a length into the piece's unit
        rules: the maker's
        others: the part's other places with less than is usual

    **Source:** own rule: none under 1 mm, weak under a quarter of the thickness and 3 mm; a third
    is common practice, no source.
    """
    weak = weak_under_mm(wood.thickness_mm, rules)
    limits = WOOD_LEFT.limits(rules, cautions=weak, notes=rules[USUAL_WOOD] * wood.thickness_mm)
    verdict = WOOD_LEFT.verdict(wood.wood_mm, limits)
    remedies: tuple[Remedy, ...] = ()
    advice = ""
    if verdict in (Verdict.CAUTION, Verdict.FAIL):
        more = max(weak, rules[LEAST_WOOD] + show.shown.step_mm) - wood.wood_mm
        remedies = (
            *longer(Change.SHALLOWER, "cut it {} shallower", more, show, wood.shallower_mm),
            *longer(Change.PLACE, "move the cut {} away", more, show, wood.away_mm),
        )
        advice = said(remedies, "" if remedies else f"leave {show(show.up(more))} more wood there")
    also = f"; little is left {', '.join(others)} too" if others else ""
    found = Finding(
        check=WOOD_LEFT,
        subject=f"{wood.part}, {wood.place}",
        value=max(0.0, wood.wood_mm),
        limits=limits,
        basis=f"of {show.dial(wood.thickness_mm)} thick; none under {show(rules[LEAST_WOOD])}, "
        f"weak under {show(weak)} (own rule), a third is usual ({_TRADE}){also}",
        advice=advice,
        remedies=remedies,
    )
    return found if wood.is_section else found.at_most(Verdict.CAUTION)


def short_grain_finding(
    part: str,
    feature: str,
    to_end_mm: float,
    depth_mm: float,
    show: Show,
    rules: Rules = USUAL_RULES,
) -> Finding:
    """The short grain between a cut across the grain and the end of the part, which splits off.

    Args:
        part: name of the part
        feature: name of the cut
        to_end_mm: wood between the cut and the end, along the grain [mm]
        depth_mm: depth of the cut [mm]
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** own rule: twice the depth and at least 12 mm, so that the lip is longer than tall.
    """
    limit = max(rules[LEAST_SHORT_GRAIN], rules[SHORT_GRAIN_DEPTHS] * depth_mm)
    limits = SHORT_GRAIN.limits(cautions=limit)
    verdict = SHORT_GRAIN.verdict(to_end_mm, limits)
    remedies = (
        ()
        if verdict is Verdict.OK
        else longer(Change.PLACE, "move the cut {} from the end", limit - to_end_mm, show, limit)
    )
    return Finding(
        check=SHORT_GRAIN,
        subject=f"{part}, {feature}",
        value=to_end_mm,
        limits=limits,
        basis=f"a lip of short grain {show(depth_mm)} thick; own rule: twice as long as thick and "
        f"{show(rules[LEAST_SHORT_GRAIN])}",
        advice=""
        if verdict is Verdict.OK
        else said(remedies, "cut the part to length after the joint is glued"),
        remedies=remedies,
    )


def bore_findings(
    part: str,
    bore: str,
    diameter_mm: float,
    to_edge_mm: float,
    to_end_mm: float,
    thickness_mm: float,
    show: Show,
    rules: Rules = USUAL_RULES,
    least_mm: float = 0.0,
) -> tuple[Finding, ...]:
    """Edge distance, end distance and share of the thickness of a bore or dowel hole.

    Args:
        part: name of the part
        bore: name of the bore
        diameter_mm: its diameter [mm]
        to_edge_mm: from its centre to the nearest edge or face beside it [mm]
        to_end_mm: from its centre to the nearest end, along the grain [mm]
        thickness_mm: the wood it stands in, across its axis [mm]
        show: puts a length into the piece's unit
        rules: the maker's
        least_mm: how thin it may be made for what passes it or sits in it [mm]

    **Source:** common practice, no source: a diameter from centre to edge, two from centre to end
    (a trade magazine's page of dowel tips sets a 3/8 in dowel 3/4 in in), at most half the
    thickness. Boards are dowelled on flush all the same, 9 mm in with 8 mm dowels: only under one
    diameter from the end is cautioned (own rule).
    """
    edge = diameter_mm * (0.5 + rules[BORE_TO_EDGE])
    end = diameter_mm * (0.5 + rules[BORE_TO_END])
    subject = f"{part}, {bore}"
    return (
        _distance(
            subject, to_edge_mm, BORE_EDGE, BORE_EDGE.limits(cautions=edge), thickness_mm / 2, show
        ),
        _distance(
            subject,
            to_end_mm,
            BORE_END,
            BORE_END.limits(notes=end, cautions=rules[BORE_END_CAUTION] * diameter_mm),
            math.inf,
            show,
        ),
        _share(subject, diameter_mm, thickness_mm, least_mm, show, rules),
    )


def _distance(
    subject: str, value: float, check: Check, limits: Limits, most: float, show: Show
) -> Finding:
    is_amiss = check.verdict(value, limits) in (Verdict.CAUTION, Verdict.FAIL)
    remedies: tuple[Remedy, ...] = ()
    limit = limits.cautions if limits.notes is None else limits.notes
    if is_amiss and limit is not None:
        words = "move it {} inward"
        remedies = longer(Change.PLACE, words, limit - value, show, max(0.0, most - value))
    return Finding(
        check=check,
        subject=subject,
        value=value,
        limits=limits,
        basis=f"from its centre ({_TRADE})",
        advice=said(remedies, "" if remedies else "take a thinner bit or thicker stock")
        if is_amiss
        else "",
        remedies=remedies,
    )


def _share(
    subject: str, diameter: float, thickness: float, least: float, show: Show, rules: Rules
) -> Finding:
    limit = rules[BIT_SHARE] * thickness
    limits = BORE_SHARE.limits(cautions=limit)
    verdict = BORE_SHARE.verdict(diameter, limits)
    remedies: tuple[Remedy, ...] = ()
    if verdict is not Verdict.OK:
        smallest = max(least, rules[LEAST_BIT])
        remedies = shorter(Change.BIT, "take a bit of {} at most", limit, show, smallest)
    wood = show(show.up(diameter / rules[BIT_SHARE]))
    return Finding(
        check=BORE_SHARE,
        subject=subject,
        value=diameter,
        limits=limits,
        basis=f"at most half of the {show(thickness)} it stands in ({_TRADE})",
        advice=""
        if verdict is Verdict.OK
        else said(remedies, "" if remedies else f"let it stand in at least {wood} of wood"),
        remedies=remedies,
    )
