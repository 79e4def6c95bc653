"""Views put on a sheet: long views under each other in line, the ends beside the face side, and
others where there is room."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from exporters.sheets.annotation import Look
from exporters.sheets.blocks import Block
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.packing import packed_round
from exporters.sheets.paper import Box2, Projection, box_round

_COLUMN = {
    Projection.THIRD_ANGLE: (Look.BACK_EDGE, Look.FACE_SIDE, Look.FACE_EDGE, Look.BACK_SIDE),
    Projection.FIRST_ANGLE: (Look.BACK_SIDE, Look.FACE_EDGE, Look.FACE_SIDE, Look.BACK_EDGE),
}
"""From the top down. Third angle sets a view on the side it is seen from, first angle opposite."""
_BESIDE = {
    Projection.THIRD_ANGLE: (Look.NAMED_END, Look.FAR_END),
    Projection.FIRST_ANGLE: (Look.FAR_END, Look.NAMED_END),
}
"""To the left and to the right of the face side, on which the named end is to the left."""

_WIDEST_GAP_MM = 26.0
_MOST_ASIDE_MM, _ASIDE_STEP_MM = 24.0, 3
"""How far to the right views give way where something finds no room beside them. Search effort."""


class ViewsTooLargeError(NoRoomError):
    """The plain views take more than the region, whatever stands beside them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """Every view in its place: the plain ones by what they show, the others in their order."""

    blocks: dict[Look, Block]
    others: tuple[Block, ...]


def arrange(
    blocks: Mapping[Look, Block],
    others: Sequence[Block],
    region: Box2,
    projection: Projection,
    gap: float,
) -> Arrangement:
    """The views of a part in their places inside a region.

    Args:
        blocks: the plain views, by what they show.
        others: details and pictures, which stand where there is room beside.
        region: the room there is [mm].
        projection: first or third angle.
        gap: the least between two of them [mm].

    Raises:
        ViewsTooLargeError: the plain views alone do not fit.
        NoRoomError: they do not fit with the others.
    """
    looks = [look for look in _COLUMN[projection] if look in blocks]
    face = blocks[Look.FACE_SIDE]
    wings = _wings(face, blocks, projection, gap)
    row = replace(face, box=box_round([face.box, *(wing.box for wing in wings.values())]))
    column = [row if look is Look.FACE_SIDE else blocks[look] for look in looks]
    wide = max(block.box.right for block in column) - min(block.box.left for block in column)
    high = sum(block.box.height for block in column) + gap * (len(column) - 1)
    if wide > region.width or high > region.height:
        raise ViewsTooLargeError("the views are too large")
    rest = [*(blocks[look] for look in blocks if look is Look.SECTION), *others]
    try:
        placed, rest = _with_rest_beside(column, rest, region, gap)
    except NoRoomError:
        if not rest:
            raise
        try:
            placed, rest = _with_rest_below(column, rest, region, gap)
        except NoRoomError:
            placed, rest = _with_rest_round(column, rest, (face, *wings.values()), region, gap)
    made = dict(zip(looks, placed, strict=True))
    to = made[Look.FACE_SIDE].at
    for look, wing in {Look.FACE_SIDE: face, **wings}.items():
        made[look] = wing.moved(to[0] - face.at[0], to[1] - face.at[1])
    if Look.SECTION in blocks:
        section, *rest = rest
        everyone = [*made.values(), *rest]
        made[Look.SECTION] = _level_with(made[Look.FACE_SIDE], section, everyone, region)
    return Arrangement(blocks={look: made[look] for look in blocks}, others=tuple(rest))


def _wings(
    face: Block, blocks: Mapping[Look, Block], projection: Projection, gap: float
) -> dict[Look, Block]:
    """The views of the ends beside the face side, on the side where the projection has them."""
    left, right = _BESIDE[projection]
    found = {}
    if left in blocks:
        wing = blocks[left]
        found[left] = _in_line(wing, face, face.box.left - gap - wing.box.right)
    if right in blocks:
        wing = blocks[right]
        found[right] = _in_line(wing, face, face.box.right + gap - wing.box.left)
    return found


def _in_line(wing: Block, face: Block, dx: float) -> Block:
    return wing.moved(dx, face.at[1] - wing.at[1])


def _level_with(face: Block, block: Block, everyone: list[Block], region: Box2) -> Block:
    """A section at the height of the face side, where that is free."""
    if abs(face.factor - block.factor) > 1e-9:
        return block
    moved = block.moved(0.0, face.at[1] - block.at[1])
    others = [other for other in everyone if other is not block]
    is_free = not any(moved.box.grown(2.0).overlaps(other.box) for other in others)
    return moved if is_free and region.holds(moved.box) else block


def _with_rest_beside(
    column: Sequence[Block], others: Sequence[Block], region: Box2, gap: float
) -> tuple[list[Block], list[Block]]:
    """The long views under each other, the others in columns to their right."""
    beside = _columns(others, region.height, gap)
    left = min(block.box.left for block in column)
    column_wide = max(block.box.right for block in column) - left
    widths = [max(block.box.width for block in group) for group in beside]
    wide = column_wide + sum(widths) + gap * len(widths)
    if wide > region.width:
        raise NoRoomError("the views are too wide")
    slot = min((region.width - wide) / (len(widths) + 2), 25.0)
    dx = region.left + slot - left
    placed = _stacked(column, region, gap, [dx] * len(column))
    rest: list[Block] = []
    x = region.right - slot
    for group, width in reversed(list(zip(beside, widths, strict=True))):
        middle = x - width / 2
        shifts = [middle - (block.box.left + block.box.right) / 2 for block in group]
        rest = _stacked(group, region, gap, shifts) + rest
        x -= width + gap + slot
    return placed, rest


def _with_rest_below(
    column: Sequence[Block], others: Sequence[Block], region: Box2, gap: float
) -> tuple[list[Block], list[Block]]:
    """The long views under each other, the others in one row below them all."""
    wide = sum(block.box.width for block in others) + gap * (len(others) - 1)
    left = min(block.box.left for block in column)
    column_wide = max(block.box.right for block in column) - left
    if max(wide, column_wide) > region.width:
        raise NoRoomError("the views are too wide")
    high = max(block.box.height for block in others)
    above = replace(region, bottom=region.bottom + high + gap)
    dx = region.left + (region.width - column_wide) / 2 - left
    placed = _stacked(column, above, gap, [dx] * len(column))
    spare = placed[-1].box.bottom - gap - high - region.bottom
    middle = region.bottom + max(spare, 0.0) / 2 + high / 2
    between = gap + (region.width - wide) / (len(others) + 1)
    x = region.left + (region.width - wide - (between - gap) * (len(others) - 1)) / 2
    row = []
    for block in others:
        row.append(block.moved(x - block.box.left, middle - block.box.centre[1]))
        x += block.box.width + between
    return placed, row


def _with_rest_round(
    column: Sequence[Block],
    others: Sequence[Block],
    row: Sequence[Block],
    region: Box2,
    gap: float,
) -> tuple[list[Block], list[Block]]:
    """The long views under each other near the left, the others wherever these leave room.

    Args:
        column: the long views, one of them with the views of the ends beside it.
        others: that look for room.
        row: those views apart, so that there is room above and below the ends.
        region: the room there is [mm].
        gap: the least between two of them [mm].

    Raises:
        NoRoomError: one finds none.
    """
    dx = region.left - min(block.box.left for block in column)
    high = sum(block.box.height for block in column) + gap * (len(column) - 1)
    spare = region.right - max(block.box.right for block in column) - dx
    if high > region.height or spare < 0:
        raise NoRoomError("the views are too high")
    sizes = [(block.box.width, block.box.height) for block in others]
    for aside in range(0, int(min(spare, _MOST_ASIDE_MM)) + 1, _ASIDE_STEP_MM):
        placed, taken = _from_the_top(column, row, (dx + aside, region.top), gap)
        places = packed_round(sizes, taken, region, gap)
        if places is not None:
            return placed, [
                block.moved(x - block.box.left, y - block.box.bottom)
                for block, (x, y) in zip(others, places, strict=True)
            ]
    raise NoRoomError("the views are too high")


def _from_the_top(
    column: Sequence[Block], row: Sequence[Block], at: tuple[float, float], gap: float
) -> tuple[list[Block], list[Box2]]:
    """The long views under each other, and what they and the ends beside one of them take [mm]."""
    dx, y = at
    placed: list[Block] = []
    taken: list[Box2] = []
    for block in column:
        placed.append(block.moved(dx, y - block.box.top))
        if block.at == row[0].at and block.items == row[0].items:
            taken += [each.box.moved(dx, y - block.box.top) for each in row]
        else:
            taken.append(placed[-1].box)
        y -= block.box.height + gap
    return placed, taken


def _columns(blocks: Sequence[Block], height: float, gap: float) -> list[list[Block]]:
    """Blocks in order, in as few columns as this height allows [mm]."""
    columns: list[list[Block]] = []
    taken = 0.0
    for block in blocks:
        if columns and taken + gap + block.box.height <= height:
            columns[-1].append(block)
            taken += gap + block.box.height
        else:
            columns.append([block])
            taken = block.box.height
    return columns


def _stacked(
    blocks: Sequence[Block], region: Box2, gap: float, shifts: Sequence[float]
) -> list[Block]:
    """Blocks under each other, each shifted sideways by its own amount [mm]."""
    high = sum(block.box.height for block in blocks)
    spare = region.height - high - gap * (len(blocks) - 1)
    if spare < 0:
        raise NoRoomError("the views are too high")
    between = gap + min(spare / (len(blocks) + 1), _WIDEST_GAP_MM - gap)
    rest = region.height - high - between * (len(blocks) - 1)
    top = region.top - rest * 0.45
    placed = []
    for block, shift in zip(blocks, shifts, strict=True):
        placed.append(block.moved(shift, top - block.box.top))
        top -= block.box.height + between
    return placed
