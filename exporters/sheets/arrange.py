"""Views put on a sheet: long views under each other in line, sections and ends beside them."""

from __future__ import annotations

from dataclasses import dataclass

from exporters.sheets.annotation import Look
from exporters.sheets.blocks import Block
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.paper import Box2, Projection
from exporters.sheets.pens import SheetStyle

_COLUMN = {
    Projection.THIRD_ANGLE: (Look.BACK_EDGE, Look.FACE_SIDE, Look.FACE_EDGE, Look.BACK_SIDE),
    Projection.FIRST_ANGLE: (Look.BACK_SIDE, Look.FACE_EDGE, Look.FACE_SIDE, Look.BACK_EDGE),
}
"""From the top down. Third angle sets a view on the side it is seen from, first angle opposite."""

_WIDEST_GAP_MM = 26.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """Every view in its place."""

    blocks: dict[Look, Block]


def arrange(
    blocks: dict[Look, Block], region: Box2, projection: Projection, style: SheetStyle
) -> Arrangement:
    """The views of a part in their places inside a region.

    Args:
        blocks: by what they show.
        region: the room there is [mm].
        projection: first or third angle.
        style: gives the least gap.

    Raises:
        NoRoomError: they do not fit.
    """
    column = [look for look in _COLUMN[projection] if look in blocks]
    beside = [look for look in blocks if look not in column]
    gap = style.view_gap_mm
    left = min(blocks[look].box.left for look in column)
    right = max(blocks[look].box.right for look in column)
    column_wide = right - left
    beside_wide = max((blocks[look].box.width for look in beside), default=0.0)
    wide = column_wide + (gap + beside_wide if beside else 0.0)
    if wide > region.width:
        raise NoRoomError("the views are too wide")
    spare = region.width - wide
    slot = spare / (3 if beside else 2)
    dx = region.left + min(slot, 25.0) - left
    placed = _stacked(column, blocks, region, gap, dx)
    if beside:
        centre = region.right - min(slot, 25.0) - beside_wide / 2
        placed |= _stacked(beside, blocks, region, gap, None, centre)
    return Arrangement(blocks={look: placed[look] for look in blocks})


def _stacked(
    looks: list[Look],
    blocks: dict[Look, Block],
    region: Box2,
    gap: float,
    dx: float | None,
    centre: float = 0.0,
) -> dict[Look, Block]:
    """Blocks under each other, all shifted by `dx`, or each centred on `centre` [mm]."""
    high = sum(blocks[look].box.height for look in looks)
    spare = region.height - high - gap * (len(looks) - 1)
    if spare < 0:
        raise NoRoomError("the views are too high")
    share = spare / (len(looks) + 1)
    between = gap + min(share, _WIDEST_GAP_MM - gap)
    rest = region.height - high - between * (len(looks) - 1)
    top = region.top - rest * 0.45
    placed = {}
    for look in looks:
        block = blocks[look]
        shift = dx if dx is not None else centre - (block.box.left + block.box.right) / 2
        placed[look] = block.moved(shift, top - block.box.top)
        top -= block.box.height + between
    return placed
