"""Slots for the screws of a panel that moves: whether they are long enough for its travel."""

from __future__ import annotations

from collections.abc import Iterable

from furniture.checks.finding import Finding, Verdict, not_checked
from furniture.checks.of_piece.reading import (
    axis_towards,
    box_round,
    shown_by,
    side_of,
    worst_alone,
)
from furniture.checks.of_piece.setting import Setting
from furniture.checks.rows.seasons import SLOT
from furniture.checks.seasons import DATA_UNKNOWN, Side, slot_length_mm
from furniture.parts.cuts import Hole, shapes_of
from furniture.parts.part import Placed
from furniture.parts.vectors import subtract
from furniture.pieces import Piece, placed_named
from furniture.timber.movement import NoCoefficient


def slot_findings_of(piece: Piece, setting: Setting) -> tuple[Finding, ...]:
    """Whether each slot under a level panel lets the panel travel from season to season.

    The panel is taken to stay in its middle; a screw is as thick as its slot is wide.

    Args:
        piece: the piece as cut
        setting: the place where it stands

    **Source:** own rule, as `slot_length_mm`.
    """
    found: list[Finding] = []
    for surface in piece.surfaces:
        panel = placed_named(piece, surface.instance)
        for holder in piece.placed:
            if holder is not panel and _lies_under(holder, panel):
                found += _of_holder(piece, holder, panel, setting)
    return worst_alone(found)


def _of_holder(piece: Piece, holder: Placed, panel: Placed, setting: Setting) -> Iterable[Finding]:
    show = shown_by(piece)
    for number, slot in enumerate(_slots(holder), start=1):
        direction = holder.placement.direction_to_piece(subtract(slot.last, slot.first))
        side = _from_middle(holder, panel, slot, axis_towards(panel, direction))
        subject = f"{holder.instance} under {panel.instance}, slot {number}"
        try:
            needed = slot_length_mm(slot.width_mm, side, setting.climate)
        except NoCoefficient:
            yield not_checked(
                SLOT, subject, f"{DATA_UNKNOWN}, so how far {panel.instance} travels is not known",
                advice="measure a sample over a season, and make the slot longer by its travel",
            )  # fmt: skip
            continue
        limits = SLOT.limits(cautions=needed)
        yield Finding(
            check=SLOT,
            subject=subject,
            value=slot.length_mm,
            limits=limits,
            basis=f"{setting.climate.name}: it travels {show(needed - slot.width_mm)} there, "
            f"{show(side.size_mm)} from its middle, and the screw needs room to go with it",
            advice=""
            if SLOT.verdict(slot.length_mm, limits) is Verdict.OK
            else f"make the slot {show(show.up(needed - slot.length_mm))} longer",
        )


def _slots(part: Placed) -> list[Hole]:
    holes = shapes_of(part.part.cuts, part.part.blank, Hole)
    return [hole for hole in holes if not hole.is_round]


def _lies_under(holder: Placed, panel: Placed) -> bool:
    """Whether the slotted part's top meets the panel's underside within its outline."""
    if not _slots(holder):
        return False
    (low, high), (panel_low, panel_high) = box_round(holder), box_round(panel)
    meets = abs(high[2] - panel_low[2]) < 0.01
    return meets and all(
        low[axis] < panel_high[axis] and panel_low[axis] < high[axis] for axis in (0, 1)
    )


def _from_middle(holder: Placed, panel: Placed, slot: Hole, axis: int) -> Side:
    """The panel's size from its middle to the slot, along its own axis."""
    place = holder.placement.to_piece(slot.centre)
    own = panel.placement.to_part(place)[axis]
    distance = abs(own - panel.part.blank.size[axis] / 2.0)
    return side_of(panel, axis, max(distance, 1.0))
