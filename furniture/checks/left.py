"""What is left after the cuts: wood under dadoes and rabbets, short grain, edges of bores."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from furniture.checks.advice import Change, Remedy, least_that, longer, said, shorter
from furniture.checks.check import Check
from furniture.checks.finding import Finding, Show, Verdict
from furniture.checks.rows.wood_left import (
    BEHIND_DADO,
    BESIDE_RABBET,
    BORE_EDGE,
    BORE_END,
    BORE_SHARE,
    SHORT_GRAIN,
)

LEAST_BEHIND_MM = 10.0
LEAST_BEHIND_SHARE = 0.5
LEAST_RABBET_WOOD_MM = 6.0
LEAST_RABBET_SHARE = 1.0 / 3.0
SHORT_GRAIN_DEPTHS = 2.0
LEAST_SHORT_GRAIN_MM = 12.0
DOWEL_SHARE = 0.5
EDGE_DIAMETERS = 0.5
END_DIAMETERS = 1.5
LEAST_CUT_SHARE = 0.25
"""The least depth of a cut that still seats what is in it, as a share of the wood [-]."""
MOST_THICKER_SHARE = 0.5
"""How much thicker stock is offered before it is another design [-]. Own rule."""
LEAST_BIT_MM = 3.0
"""The thinnest bit that is offered [mm]. Own rule."""
_TRADE = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One cut in one part: how deep it goes into how much wood [mm]."""

    part: str
    feature: str
    thickness_mm: float
    depth_mm: float


def least_behind_dado_mm(thickness_mm: float) -> float:
    """The wood [mm] that should stay behind a dado: half the thickness, or 10 mm if that is less.

    Args:
        thickness_mm: thickness of the housing part [mm]

    **Source:** common practice, no source: keep at least half the thickness or 10 mm.
    """
    return min(LEAST_BEHIND_MM, LEAST_BEHIND_SHARE * thickness_mm)


def behind_dado_finding(cut: Cut, show: Show) -> Finding:
    """The wood left behind a dado or groove.

    Args:
        cut: the dado
        show: puts a length into the piece's unit

    **Source:** common practice, no source.
    """
    return _left(
        BEHIND_DADO,
        cut,
        least_behind_dado_mm,
        f"keep half the thickness or {show(LEAST_BEHIND_MM)}, whichever is less ({_TRADE})",
        show,
    )


def beside_rabbet_finding(cut: Cut, show: Show) -> Finding:
    """The wood left beside a rabbet: a third of the thickness and at least 6 mm.

    Args:
        cut: the rabbet; its depth is the width that it takes from the thickness
        show: puts a length into the piece's unit

    **Source:** common practice, no source: rabbets take half to two thirds of the thickness.
    """
    return _left(
        BESIDE_RABBET,
        cut,
        lambda thickness: max(LEAST_RABBET_WOOD_MM, LEAST_RABBET_SHARE * thickness),
        f"keep a third of the thickness and {show(LEAST_RABBET_WOOD_MM)} ({_TRADE})",
        show,
    )


def short_grain_finding(
    part: str, feature: str, to_end_mm: float, depth_mm: float, show: Show
) -> Finding:
    """The short grain between a cut across the grain and the end of the part, which splits off.

    Args:
        part: name of the part
        feature: name of the cut
        to_end_mm: wood between the cut and the end, along the grain [mm]
        depth_mm: depth of the cut [mm]
        show: puts a length into the piece's unit

    **Source:** own rule: twice the depth and at least 12 mm, so that the lip is longer than tall.
    """
    limit = max(LEAST_SHORT_GRAIN_MM, SHORT_GRAIN_DEPTHS * depth_mm)
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
        f"{show(LEAST_SHORT_GRAIN_MM)}",
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

    **Source:** common practice, no source: a diameter from centre to edge, two from centre to end
    (a trade magazine's page of dowel tips sets a 3/8 in dowel 3/4 in in), at most half the
    thickness.
    """
    edge = diameter_mm * (0.5 + EDGE_DIAMETERS)
    end = diameter_mm * (0.5 + END_DIAMETERS)
    subject = f"{part}, {bore}"
    return (
        _distance(BORE_EDGE, subject, to_edge_mm, edge, thickness_mm / 2.0, show),
        _distance(BORE_END, subject, to_end_mm, end, math.inf, show),
        _dowel_share(subject, diameter_mm, thickness_mm, show),
    )


def _left(
    check: Check, cut: Cut, limit_of: Callable[[float], float], why: str, show: Show
) -> Finding:
    limit = limit_of(cut.thickness_mm)
    left = cut.thickness_mm - cut.depth_mm
    limits = check.limits(cautions=limit)
    verdict = check.verdict(left, limits)
    remedies: tuple[Remedy, ...] = ()
    if verdict is not Verdict.OK:
        remedies = (
            *longer(
                Change.SHALLOWER, "cut it {} shallower", limit - left, show,
                cut.depth_mm - LEAST_CUT_SHARE * cut.thickness_mm,
            ),
            *_thicker(cut, limit_of, show),
        )  # fmt: skip
    return Finding(
        check=check,
        subject=f"{cut.part}, {cut.feature}",
        value=left,
        limits=limits,
        basis=f"{show(cut.depth_mm)} deep in {show(cut.thickness_mm)}; {why}",
        advice=""
        if verdict is Verdict.OK
        else said(remedies, "" if remedies else "make the cut narrower or the part of two layers"),
        remedies=remedies,
    )


def _thicker(cut: Cut, limit_of: Callable[[float], float], show: Show) -> tuple[Remedy, ...]:
    """Thicker stock, of which more must be left the thicker it is."""
    most = MOST_THICKER_SHARE * cut.thickness_mm
    enough = least_that(
        lambda by: cut.thickness_mm + by - cut.depth_mm >= limit_of(cut.thickness_mm + by) - 1e-9,
        0.0,
        most,
    )
    if enough is None:
        return ()
    return longer(Change.THICKNESS, "take stock {} thicker", enough, show, most)


def _distance(
    check: Check, subject: str, value: float, limit: float, most: float, show: Show
) -> Finding:
    limits = check.limits(cautions=limit)
    verdict = check.verdict(value, limits)
    remedies: tuple[Remedy, ...] = ()
    if verdict is not Verdict.OK:
        words = "move it {} inward"
        remedies = longer(Change.PLACE, words, limit - value, show, max(0.0, most - value))
    return Finding(
        check=check,
        subject=subject,
        value=value,
        limits=limits,
        basis=f"from its centre ({_TRADE})",
        advice=""
        if verdict is Verdict.OK
        else said(remedies, "" if remedies else "take a thinner bit or thicker stock"),
        remedies=remedies,
    )


def _dowel_share(subject: str, diameter: float, thickness: float, show: Show) -> Finding:
    limit = DOWEL_SHARE * thickness
    limits = BORE_SHARE.limits(cautions=limit)
    verdict = BORE_SHARE.verdict(diameter, limits)
    remedies: tuple[Remedy, ...] = ()
    if verdict is not Verdict.OK:
        remedies = shorter(Change.BIT, "take a bit of {} at most", limit, show, LEAST_BIT_MM)
    return Finding(
        check=BORE_SHARE,
        subject=subject,
        value=diameter,
        limits=limits,
        basis=f"at most half of the {show(thickness)} it stands in ({_TRADE})",
        advice=""
        if verdict is Verdict.OK
        else said(remedies, "" if remedies else "take thicker stock"),
        remedies=remedies,
    )
