"""Slots for the screws of what moves: whether they are long enough for its travel."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

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
from furniture.joints.joint import Fastener, Joining
from furniture.parts.cuts import Hole, shapes_of
from furniture.parts.part import Placed
from furniture.parts.vectors import UP, Vector, dot, scaled, subtract
from furniture.pieces import Piece, placed_named
from furniture.timber.movement import NoCoefficient

_UPRIGHT = 0.999
_BESIDE_MM = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class _Screwed:
    """A slot of one part, for a screw into another, which moves beside it.

    What moves stays where it is at `still`, piece frame [mm]; in its own middle where that is None.
    """

    holder: Placed
    slot: Hole
    mover: Placed
    word: str
    still: Vector | None = None


def slot_findings_of(piece: Piece, setting: Setting) -> tuple[Finding, ...]:
    """Whether each slot lets what is screwed through it travel from season to season.

    What is screwed in plain holes too stays there, else in its own middle; a slot whose screw no
    joint states is for the level panel over it. A screw is as thick as its slot is wide.

    Args:
        piece: the piece as cut
        setting: the place where it stands

    **Source:** own rule, as `slot_length_mm`.
    """
    stated = [each for joining in piece.joinings for each in _of_joining(piece, joining)]
    taken = {(each.holder.instance, each.slot) for each in stated}
    found: list[Finding] = []
    for each in (*stated, *(each for each in _under_panels(piece)
                            if (each.holder.instance, each.slot) not in taken)):  # fmt: skip
        found += _of_slot(piece, each, setting)
    return worst_alone(found)


def _of_slot(piece: Piece, screwed: _Screwed, setting: Setting) -> Iterable[Finding]:
    show, slot, holder, mover = shown_by(piece), screwed.slot, screwed.holder, screwed.mover
    direction = holder.placement.direction_to_piece(subtract(slot.last, slot.first))
    side = _from_still(screwed, axis_towards(mover, direction))
    number = _slots(holder).index(slot) + 1
    subject = f"{holder.instance} {screwed.word} {mover.instance}, slot {number}"
    try:
        needed = slot_length_mm(slot.width_mm, side, setting.climate)
    except NoCoefficient:
        yield not_checked(
            SLOT, subject, f"{DATA_UNKNOWN}, so how far {mover.instance} travels is not known",
            advice="measure a sample over a season, and make the slot longer by its travel",
        )  # fmt: skip
        return
    limits = SLOT.limits(cautions=needed)
    still = "its middle" if screwed.still is None else "the screw that holds it still"
    yield Finding(
        check=SLOT,
        subject=subject,
        value=slot.length_mm,
        limits=limits,
        basis=f"{setting.climate.name}: it travels {show(needed - slot.width_mm)} there, "
        f"{show(side.size_mm)} from {still}, and the screw needs room to go with it",
        advice=""
        if SLOT.verdict(slot.length_mm, limits) is Verdict.OK
        else f"make the slot {show(show.up(needed - slot.length_mm))} longer",
    )


def _of_joining(piece: Piece, joining: Joining) -> Iterator[_Screwed]:
    """The slots that a joint's screws stand in."""
    sliding = [each for each in joining.fasteners if each.slot is not None]
    if not sliding:
        return
    holder, mover = placed_named(piece, joining.incoming), placed_named(piece, joining.into)
    fast = [each.at for each in joining.fasteners if each.slot is None]
    still = None
    if fast:
        x, y, z = (sum(each[axis] for each in fast) / len(fast) for axis in range(3))
        still = (x, y, z)
    for slot in _slots(holder):
        if any(_passes(each, slot, holder) for each in sliding):
            word = "under" if _lies_under(holder, mover) else "on"
            yield _Screwed(holder=holder, slot=slot, mover=mover, word=word, still=still)


def _passes(fastener: Fastener, slot: Hole, holder: Placed) -> bool:
    """Whether a fastener stands within a slot's outline."""
    at = holder.placement.to_part(fastener.at)
    return all(
        min(slot.first[axis], slot.last[axis]) - slot.radius_mm
        <= at[axis]
        <= max(slot.first[axis], slot.last[axis]) + slot.radius_mm
        for axis in range(3)
        if axis != slot.face.axis
    )


def _under_panels(piece: Piece) -> Iterator[_Screwed]:
    """The upright slots of parts under level panels."""
    for surface in piece.surfaces:
        panel = placed_named(piece, surface.instance)
        for holder in piece.placed:
            if holder is panel or not _lies_under(holder, panel):
                continue
            for slot in _slots(holder):
                way = holder.placement.direction_to_piece(slot.face.normal)
                if abs(dot(way, UP)) > _UPRIGHT:
                    yield _Screwed(holder=holder, slot=slot, mover=panel, word="under")


def _slots(part: Placed) -> list[Hole]:
    holes = shapes_of(part.part.cuts, part.part.blank, Hole)
    return [hole for hole in holes if not hole.is_round]


def _lies_under(holder: Placed, panel: Placed) -> bool:
    """Whether a part's top meets the panel's underside within its outline."""
    (low, high), (panel_low, panel_high) = box_round(holder), box_round(panel)
    meets = abs(high[2] - panel_low[2]) < _BESIDE_MM
    return meets and all(
        low[axis] < panel_high[axis] and panel_low[axis] < high[axis] for axis in (0, 1)
    )


def _from_still(screwed: _Screwed, axis: int) -> Side:
    """The size of what moves from where it stays to the slot, along its own axis."""
    mover, middle = screwed.mover, screwed.slot.centre
    own = mover.placement.to_part(screwed.holder.placement.to_piece(middle))[axis]
    start = scaled(mover.part.blank.size, 0.5)
    if screwed.still is not None:
        start = mover.placement.to_part(screwed.still)
    return side_of(mover, axis, max(abs(own - start[axis]), 1.0))
