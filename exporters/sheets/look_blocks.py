"""A part's view with its running figures and sizes, as a block for the layout."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from exporters.sheets.annotation import FRAMES, Bench, Look, Position
from exporters.sheets.blocks import Block, centre_cross, view_block
from exporters.sheets.callouts import place_first_free
from exporters.sheets.clip import clipped_areas, clipped_view, inside_box
from exporters.sheets.face_marks import MARK_ROOM_MM, room_for_name
from exporters.sheets.figures import (
    Measured,
    RunningEntry,
    Side,
    arrowhead,
    linear,
    running_row,
    stroke,
)
from exporters.sheets.geometry import items_box, lettering_box, shape_points
from exporters.sheets.paper import Box2
from exporters.sheets.part_views import (
    END_LOOKS,
    LONG_LOOKS,
    PartViews,
    section_span,
    thickness_look,
)
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.space import Space
from exporters.sheets.values import Anchor, Figure, FigureKind, Item, Lettering, Stroke
from exporters.sheets.view_spans import with_spans
from exporters.views.project import project_part
from exporters.views.section import section_part
from exporters.views.values import EdgeClass
from furniture.parts.cuts.figures import Care
from furniture.parts.cuts.left import put
from furniture.parts.cuts.shapes import level_of
from furniture.parts.faces import Face
from furniture.parts.vectors import Point2, Vector

_LABEL_ROW_MM = 7.0
"""Beside the main view, for the names of its edges."""
_STRAIGHT_MM = 3.0
_PLANE_MM = 6.0
_LETTER_CLEAR_MM = 0.3
"""Round the letter of a cutting plane. Own rule."""
_OWN_MM = 0.2
"""So near to where an extension line begins or ends a line is its own feature's [mm on paper]."""
_NARROW = (Look.SECTION, *END_LOOKS)
"""Looks whose figures across the part stand at their right always."""


def look_block(views: PartViews, look: Look, factor: float, style: SheetStyle) -> Block:
    """A view with its figures, its origin at 0, 0.

    Args:
        views: the part and what is said about it.
        look: which view.
        factor: paper length of one mm of the part.
        style: pens and gaps.
    """
    frame = FRAMES[look]
    if look is Look.SECTION:
        assert views.section_x is not None
        middle: Vector = (views.section_x, 0.0, 0.0)
        section = section_part(views.part, frame, middle)
        low, high = section_span(views)
        window = inside_box(
            Box2(left=section.view.low[0], bottom=low, right=section.view.high[0], top=high)
        )
        block = view_block(
            clipped_view(section.view, window),
            factor,
            classes=(EdgeClass.VISIBLE,),
            cut=clipped_areas(section.cut, window),
        )
        block = block.with_items(_breaks(block, low > 0.0, high < views.bench.blank.width_mm))
    else:
        breaks = views.breaks if look in LONG_LOOKS else ()
        block = view_block(project_part(views.part, frame), factor, breaks=breaks)
    items: list[Item] = []
    for note in views.annotations:
        if note.look is look or any(position.look is look for position in note.positions):
            for centre, half in note.centres:
                items += centre_cross(block.to_paper(centre), half * factor, style)
            corners = [block.to_paper(corner) for corner in note.outline]
            items += [stroke(a, b, LineClass.MOVED) for a, b in pairwise((*corners, *corners[:1]))]
    centres = list(items)
    if look is Look.FACE_SIDE and views.section_x is not None:
        items += _cutting_plane(block, views.section_x, style)
    rows = _rows(views, look, block)
    out = style.first_lane_mm
    if look is Look.FACE_SIDE:
        out = _LABEL_ROW_MM + (_PLANE_MM if views.section_x is not None else 0.0)
    passed = {side: [entry.feature for entry, _ in entries] for side, entries in rows.items()}
    block = with_spans(views, look, block, out, passed, style)
    reach = {side: side.edge_of(block.core) for side in Side}
    has_plane = look is Look.FACE_SIDE and views.section_x is not None
    for side, entries in rows.items():
        straight = _STRAIGHT_MM
        if side.is_level and look is Look.FACE_SIDE:
            straight = _LABEL_ROW_MM + (_PLANE_MM if has_plane else 0.0)
        if look is Look.FACE_SIDE and side is _end_side(views.bench.faces.datums.end):
            straight = MARK_ROOM_MM
        straight = max(straight, _reach_past(centres, block.core, side))
        if _is_taken(block, side):  # by a size whose extension lines these lie over
            straight = max(straight, abs(side.edge_of(block.box) - reach[side]) + _STRAIGHT_MM)
        datum = _datum(views.bench, block, entries[0][1], side)
        figures = running_row(
            [entry for entry, _ in entries], datum, reach[side], straight, style, side
        )
        items += figures
        block = block.with_items(list(figures))
        boxes = block.box
        reach[side] = side.edge_of(boxes)
    block = block.with_items([item for item in items if item not in block.items])
    block = _overall(views, look, block, rows, style)
    if look is Look.FACE_SIDE and views.section_x is not None:
        block = block.with_items(list(_plane_letters(block, views.section_x, style)))
    return block


def _breaks(block: Block, is_low: bool, is_high: bool) -> list[Item]:
    """A zigzag line where the wood is broken away."""
    core = block.core
    middle = core.centre[0]
    items: list[Item] = []
    for wanted, y in ((is_low, core.bottom), (is_high, core.top)):
        if wanted:
            path = [
                (core.left - 2.0, y),
                (middle - 1.0, y),
                (middle - 0.5, y + 1.8),
                (middle + 0.5, y - 1.8),
                (middle + 1.0, y),
                (core.right + 2.0, y),
            ]
            items += [stroke(a, b, LineClass.BREAK) for a, b in pairwise(path)]
    return items


def _end_side(end: Face) -> Side:
    """The side of the face side's view where an end lies."""
    return Side.RIGHT if end.is_far else Side.LEFT


def _is_taken(block: Block, side: Side) -> bool:
    """Whether a dimension stands on a side of the view already."""
    kind = FigureKind.LEVEL if side.is_level else FigureKind.UPRIGHT
    return any(
        isinstance(item, Figure)
        and item.kind is kind
        and (item.line_at[side.is_level] - side.edge_of(block.core)) * side.outward > 0
        for item in block.items
    )


def _reach_past(items: list[Item], core: Box2, side: Side) -> float:
    """How far items reach past one side of a view [mm]; nothing when they stay inside."""
    if not items:
        return 0.0
    return max(0.0, (side.edge_of(items_box(items)) - side.edge_of(core)) * side.outward)


def _is_level(look: Look, axis: int) -> bool:
    return abs(FRAMES[look].right[axis]) > 0.5


_Entries = list[tuple[RunningEntry, Position]]


def _rows(views: PartViews, look: Look, block: Block) -> dict[Side, _Entries]:
    """The running figures of a view by side, nothing twice, each row with its datum."""
    rows: dict[Side, _Entries] = {}
    seen: set[tuple[int, int]] = set()
    shown = [p for note in views.annotations for p in note.positions if p.look is look]
    sides = {
        axis: _side_for([p for p in shown if p.axis == axis], look, block) for axis in range(3)
    }
    # of two features at one place, the finer figure stands for both, and of two as fine the one
    # whose extension line crosses less of the view; what begins at the datum needs no figure
    told = [each for each in shown if abs(each.value_mm) > 1e-9]

    def rank(position: Position) -> tuple[bool, float]:
        side = sides[position.axis]
        feature = block.to_paper(position.point)[side.is_level]
        return position.care is Care.RULE, abs(feature - side.edge_of(block.core))

    for position in sorted(told, key=rank):
        key = (position.axis, round(position.value_mm * 1000))
        if key not in seen:
            seen.add(key)
            side = sides[position.axis]
            feature = block.to_paper(position.point)
            drawn = _drawn_share(
                block, position, feature, _datum(views.bench, block, position, side)
            )
            text = views.bench.told(position.value_mm, position.care)
            measured = Measured(text=text, value_mm=position.value_mm, factor=drawn)
            entry = RunningEntry(feature=feature, measured=measured)
            rows.setdefault(side, []).append((entry, position))
    for side, entries in rows.items():
        position = entries[0][1]
        at = _datum(views.bench, block, position, side)
        zero = Measured(text=views.bench.said(0.0), value_mm=0.0, factor=block.factor)
        entries.append((RunningEntry(feature=at, measured=zero), position))
    return rows


def _drawn_share(block: Block, position: Position, feature: Point2, datum: Point2) -> float:
    """Paper length of one mm between the datum and a feature: less where a break lies between."""
    if not block.breaks or position.axis != 0:
        return block.factor
    return abs(feature[0] - datum[0]) / position.value_mm


def _side_for(positions: list[Position], look: Look, block: Block) -> Side:
    """The one side of the view that carries all running figures of an axis.

    The far or upper side, but the near one when every feature lies there, or when nothing lies in
    the way of that one alone.
    """
    features = [block.to_paper(position.point) for position in positions]
    core = block.core
    if positions and _is_level(look, positions[0].axis):
        is_low = all(y < core.bottom + 0.25 * core.height for _, y in features)
        return Side.BOTTOM if is_low else Side.TOP
    if not positions or look in _NARROW:
        return Side.RIGHT
    is_left = all(x < core.left + 0.25 * core.width for x, _ in features)
    usual, other = (Side.LEFT, Side.RIGHT) if is_left else (Side.RIGHT, Side.LEFT)
    is_clear = [_run_through_by(block, positions, side) == 0 for side in (usual, other)]
    return other if is_clear == [False, True] else usual


def _run_through_by(block: Block, positions: list[Position], side: Side) -> int:
    """How many lines of a view the extension lines to one of its ends run through: what stands at
    one end of a part is not to be measured past every trench between it and the other.
    """
    least: dict[int, int] = {}
    for position in positions:
        key, crossed = round(position.value_mm * 1000), _run_through(block, position, side)
        least[key] = min(crossed, least.get(key, crossed))
    return sum(least.values())


def _run_through(block: Block, position: Position, side: Side) -> int:
    """How many lines of a view lie across one extension line."""
    x, y = block.to_paper(position.point)
    low, high = sorted((x, side.edge_of(block.core)))
    drawn = [
        line
        for item in block.items
        if isinstance(item, Stroke) and item.line_class is LineClass.VISIBLE
        for line in pairwise(shape_points(item.shape))
    ]
    return sum(
        min(a[1], b[1]) < y < max(a[1], b[1]) and low + _OWN_MM < (a[0] + b[0]) / 2 < high - _OWN_MM
        for a, b in drawn
    )


def _datum(bench: Bench, block: Block, position: Position, side: Side) -> Point2:
    """Where the axis of a running figure begins, on the side of the view where the row stands."""
    face = bench.faces.datums.on(position.axis)
    origin = put(position.point, position.axis, level_of(face, bench.blank))
    x, y = block.to_paper(origin)
    edge = side.edge_of(block.core)
    return (x, edge) if side.is_level else (edge, y)


def _overall(
    views: PartViews,
    look: Look,
    block: Block,
    rows: dict[Side, _Entries],
    style: SheetStyle,
) -> Block:
    """The blank's own figures, each on the one view that is meant to carry it."""
    if not views.has_sizes:
        is_face = look is Look.FACE_SIDE
        return _with_room_for_names(block, views, style) if is_face else block
    blank, core, factor = views.bench.blank, block.core, block.factor
    items: list[Item] = []
    box = block.box

    def measured(mm: float) -> Measured:
        return Measured(text=views.bench.said(mm), value_mm=mm, factor=factor)

    if look is Look.FACE_SIDE:
        whole = measured(blank.length_mm)
        if block.breaks:
            whole = replace(whole, factor=core.width / blank.length_mm)
        rooms = {
            Side.LEFT: room_for_name(
                views.part, views.bench.faces, Face.NAMED_END, core.height, style
            ),
            Side.RIGHT: room_for_name(
                views.part, views.bench.faces, Face.FAR_END, core.height, style
            ),
        }
        label = _LABEL_ROW_MM + (_PLANE_MM if views.section_x is not None else 0.0)
        level = Side.TOP if Side.BOTTOM in rows else Side.BOTTOM
        edge = level.edge_of(core)
        reach = max(label + 4.5, abs(level.edge_of(box) - edge) + style.first_lane_mm)
        line = edge + level.outward * reach
        ends = (core.left, edge), (core.right, edge)
        items.append(linear(*ends, line, whole, style, level))
        side = Side.RIGHT if Side.LEFT in rows and Side.RIGHT not in rows else Side.LEFT
        edge = side.edge_of(core)
        outer = side.edge_of(box)
        reach = max(rooms[side] + 3.0, abs(outer - edge) + style.first_lane_mm)
        items.append(
            linear(
                (edge, core.bottom),
                (edge, core.top),
                edge + side.outward * reach,
                measured(blank.width_mm),
                style,
                side,
            )
        )
    if look is thickness_look(views.looks):
        thick = replace(measured(blank.thickness_mm), text=views.bench.dial(blank.thickness_mm))
        if _is_level(look, 2):
            side = Side.TOP if Side.BOTTOM in rows else Side.BOTTOM
            edge = side.edge_of(core)
            line = side.edge_of(box) + side.outward * style.first_lane_mm
            ends = (core.left, edge), (core.right, edge)
            items.append(linear(*ends, line, thick, style, side))
        else:
            side = Side.RIGHT if Side.LEFT in rows else Side.LEFT
            edge = side.edge_of(core)
            outer = max(6.0, abs(side.edge_of(box) - edge) + style.first_lane_mm)
            outer = edge + side.outward * (outer if _is_taken(block, side) else 6.0)
            ends = (edge, core.bottom), (edge, core.top)
            items.append(linear(*ends, outer, thick, style, side))
    block = block.with_items(items)
    return _with_room_for_names(block, views, style) if look is Look.FACE_SIDE else block


def _with_room_for_names(block: Block, views: PartViews, style: SheetStyle) -> Block:
    """The face side with room beside both ends for their names."""
    core, box = block.core, block.box
    left = _room(views, Face.NAMED_END, core, style)
    right = _room(views, Face.FAR_END, core, style)
    wider = replace(
        box, left=min(box.left, core.left - left), right=max(box.right, core.right + right)
    )
    return replace(block, box=wider)


def _room(views: PartViews, end: Face, core: Box2, style: SheetStyle) -> float:
    return room_for_name(views.part, views.bench.faces, end, core.height, style)


_ENDS_OF_PLANE = (Side.TOP, Side.BOTTOM)


def _cutting_plane(block: Block, x_mm: float, style: SheetStyle) -> list[Item]:
    """Where the section is taken: two strong ends of a line, arrows the way it is looked at."""
    x = block.to_paper((x_mm, 0.0, 0.0))[0]
    items: list[Item] = []
    for side in _ENDS_OF_PLANE:
        edge, out = side.edge_of(block.core), side.outward
        near, far = edge + out * 0.8, edge + out * _PLANE_MM
        items.append(stroke((x, near), (x, far), LineClass.CUTTING_PLANE))
        tip = (x - 5.0, far)
        items.append(stroke((x, far), tip, LineClass.DIMENSION))
        items.append(arrowhead(tip, (-1.0, 0.0), style))
    return items


def _plane_letters(block: Block, x_mm: float, style: SheetStyle) -> Iterator[Lettering]:
    """The letter at both ends of the plane, last of all: extension lines cannot go elsewhere."""
    x, height = block.to_paper((x_mm, 0.0, 0.0))[0], style.heading_height_mm
    space = Space(block.box.grown(2.0 * height))
    space.add(block.items)
    for side in _ENDS_OF_PLANE:
        far = side.edge_of(block.core) + side.outward * _PLANE_MM
        level = far + side.outward * 0.6 - (height if side.outward > 0 else 0.0)
        under = far - side.outward * (height / 2 + 1.0) - height / 2
        over = far + side.outward * (height / 2 + 1.2) - height / 2
        places = (
            (x + 1.2, level, Anchor.LEFT),
            (x + 1.2, over, Anchor.LEFT),
            (x - 1.2, under, Anchor.RIGHT),
            (x - 1.2, over, Anchor.RIGHT),
            (x + 1.2, under, Anchor.LEFT),
            (x - 6.5, level, Anchor.RIGHT),
            (x, over, Anchor.CENTRE),
        )
        letters = [
            Lettering(text="A", at=(at, y), height=height, anchor=anchor)
            for at, y, anchor in places
        ]
        tries = [(each, lettering_box(each)) for each in letters]
        yield place_first_free(tries, space, _LETTER_CLEAR_MM) or letters[0]
