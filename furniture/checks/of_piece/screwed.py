"""Screws in plain holes across the grain: how far two parts part ways between them."""

from __future__ import annotations

from collections.abc import Iterable

from furniture.checks.finding import Finding, Show, not_checked
from furniture.checks.of_piece.reading import axis_towards, shown_by, side_of, worst_alone
from furniture.checks.of_piece.setting import Setting
from furniture.checks.rows.seasons import SCREWED_ACROSS
from furniture.checks.seasons import DATA_UNKNOWN, difference_across
from furniture.joints.joint import HoldBy, Joining
from furniture.parts.vectors import Vector, dot
from furniture.pieces import Piece, placed_named
from furniture.rules.wood import SCREW_PLAY, SCREWED_CAUTION
from furniture.timber.movement import NoCoefficient

HALFWAY = 0.5
"""The cosine below which a slot lies across a way rather than along it [-]."""


def screwed_findings_of(piece: Piece, setting: Setting) -> tuple[Finding, ...]:
    """Whether two parts that are screwed and not glued can move between their screws.

    A screw in a slot lets them; nails bend, as six-board chests show. Screws of one joint alone
    are looked at: what frames give between several is not known here.

    Args:
        piece: the piece as cut
        setting: the place where it stands, and the maker's rules

    **Source:** as `difference_across`; what holes and screws give: common practice and own rule.
    """
    show = shown_by(piece)
    return worst_alone(
        found for joining in piece.joinings for found in _of_joining(piece, joining, setting, show)
    )


def _of_joining(piece: Piece, joining: Joining, setting: Setting, show: Show) -> Iterable[Finding]:
    into, incoming = placed_named(piece, joining.into), placed_named(piece, joining.incoming)
    for way in into.placement.axes:
        span = _span_mm(joining, way)
        if span <= 0.0:
            continue
        inner = side_of(incoming, axis_towards(incoming, way), span)
        outer = side_of(into, axis_towards(into, way), span)
        subject = f"{joining.incoming} on {joining.into}"
        try:
            shift = difference_across(inner, outer, setting.climate).greatest_mm
        except NoCoefficient:
            yield not_checked(
                SCREWED_ACROSS, subject, f"{DATA_UNKNOWN}, so its movement is not known",
                advice="slot the holes of all screws but those in its middle",
            )  # fmt: skip
            continue
        play = 2.0 * setting.rules[SCREW_PLAY]
        yield Finding(
            check=SCREWED_ACROSS,
            subject=subject,
            value=shift,
            limits=SCREWED_ACROSS.limits(cautions=play + setting.rules[SCREWED_CAUTION]),
            basis=f"{setting.climate.name}: {show(span)} between the outer screws, {show(play)} of "
            "play in both holes; then screws bend or the wood splits",
            advice="slot the holes of all screws but those in its middle",
        )


def _span_mm(joining: Joining, way: Vector) -> float:
    """How far apart the outer screws that hold a joint still lie along a way [mm]."""
    if joining.glued_faces:
        return 0.0
    places = [
        dot(each.at, way)
        for each in joining.fasteners
        if each.by is HoldBy.SCREW
        and (each.slot is None or abs(dot(each.slot.along, way)) < HALFWAY)
    ]
    return max(places) - min(places) if places else 0.0
