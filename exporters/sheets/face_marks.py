"""Names of edges, ends and faces beside a part's views, and the marks of its datums.

A black triangle on an edge or an end says that figures run from it, and that it is marked on the
wood.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product

from exporters.faces import PartFaces
from exporters.sheets.annotation import FRAMES, Look
from exporters.sheets.blocks import Block
from exporters.sheets.callouts import LINE_SHARE, NoRoomError, place_callout
from exporters.sheets.geometry import item_box, lettering_box
from exporters.sheets.lettering import text_width, wrapped
from exporters.sheets.paper import Box2
from exporters.sheets.part_notes import end_label
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.space import Space
from exporters.sheets.values import Anchor, Filled, Item, Lettering, Stroke
from exporters.views.values import Line
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Face
from furniture.parts.part import Part

_OUT_MM = 2.0
_END_MM = 1.6
_BESIDE_MM = 19.0
_MOST_TURNED = 3
"""So many lines of a name are read from the right: they take less of the width. Own rule."""
_CLEAR_MM = 0.6
_MARK_CLEAR_MM = 0.2
_MARK_MM = (2.4, 2.2)
"""How wide a datum's triangle is along the edge, and how high it stands on it. Own rule."""
MARK_ROOM_MM = 4.5
"""So far from a datum lies what runs beside it: its triangle stands between. Own rule."""
_MARK_STEPS_MM = (2.0, 0.5)
"""From place to place that is tried for it: the gap between dados may be hardly wider than it."""

_ON_EDGE_MM = 0.01


@dataclass(frozen=True, slots=True)
class _Name:
    """An end's name in lines, and whether they are read from the right."""

    lines: tuple[str, ...]
    is_turned: bool


def _name_of(part: Part, faces: PartFaces, end: Face, high: float, style: SheetStyle) -> _Name:
    """The name set to fit beside an end of this height: along it, or in short lines [mm]."""
    text, height = end_label(part, faces, end), style.text_height_mm
    room = high - 2 * _END_MM
    turned = wrapped(text, height, room)
    if max(text_width(line, height) for line in turned) <= room and len(turned) <= _MOST_TURNED:
        return _Name(turned, True)
    return _Name(wrapped(text, height, _BESIDE_MM), False)


def room_for_name(part: Part, faces: PartFaces, end: Face, high: float, style: SheetStyle) -> float:
    """How much room beside an end of this height its name takes [mm].

    Args:
        part: says which of its ends is trimmed last.
        faces: what they are called.
        end: one of the two.
        high: of the view on paper [mm].
        style: pens and heights.
    """
    name, height = _name_of(part, faces, end, high, style), style.text_height_mm
    if name.is_turned:
        return _OUT_MM + height * (1 + (len(name.lines) - 1) * LINE_SHARE) + 1.5
    return _OUT_MM + max(text_width(line, height) for line in name.lines) + 1.5


def names_round(
    part: Part, faces: PartFaces, main: Block, space: Space, style: SheetStyle
) -> list[Item]:
    """The names of both ends and both edges round the main view, and the marks of its datums.

    A name that finds no room beside its edge or end gets a leader to it.

    Args:
        part: says which of its ends is trimmed last.
        faces: what they are called, and which are datums.
        main: the view, in its place.
        space: of the sheet.
        style: pens and heights.

    Raises:
        NoRoomError: a name or a mark finds no place.
    """
    items: list[Item] = []
    for end in ENDS:
        name = _name_of(part, faces, end, main.core.height, style)
        tries = _places(name, main.core, not end.is_far, style)
        items += _named(tries, end_label(part, faces, end), end, main, space, style)
    for edge in EDGES:
        called = faces.called(edge)
        tries = _beside_edge(called, main.core, edge.is_far, style)
        items += _named(tries, called, edge, main, space, style)
    for face in (faces.datums.end, faces.datums.edge):
        items += _datum_mark(face, main, space)
    return items


def _named(
    tries: Iterator[list[Lettering]],
    called: str,
    face: Face,
    main: Block,
    space: Space,
    style: SheetStyle,
) -> list[Item]:
    for tried in tries:
        if all(space.is_free(lettering_box(line), _CLEAR_MM) for line in tried):
            space.add(tried)
            return list(tried)
    target, keep_out = _middle_of(main.core, face), [main.core.grown(1.0)]
    return [
        replace(item, line_class=LineClass.NAME) if isinstance(item, Lettering) else item
        for item in place_callout(called, target, space, style, keep_out)
    ]


def _middle_of(core: Box2, face: Face) -> tuple[float, float]:
    """The middle of an edge or an end on the main view."""
    x, y = core.centre
    if face in ENDS:
        return (core.right if face.is_far else core.left, y)
    return (x, core.top if face.is_far else core.bottom)


def _beside_edge(
    called: str, core: Box2, is_above: bool, style: SheetStyle
) -> Iterator[list[Lettering]]:
    """The name along an edge, from its middle outwards: first outside the part, then inside it."""
    height = style.text_height_mm
    spare = max((core.width - text_width(called, height)) / 2 - 1.0, 0.0)
    for out in (1.6, 3.2, -1.2 - height):
        if out < 0.0 and core.height < 3.5 * height:
            return
        y = core.top + out if is_above else core.bottom - out - height
        for shift in _outward(spare):
            yield [
                Lettering(
                    text=called,
                    at=(core.centre[0] + shift, y),
                    height=height,
                    anchor=Anchor.CENTRE,
                    line_class=LineClass.NAME,
                )
            ]


def _datum_mark(face: Face, main: Block, space: Space) -> list[Item]:
    """The triangle that stands on a datum, from outside; from inside where nothing is free.

    Raises:
        NoRoomError: neither is free.
    """
    core, (wide, high) = main.core, _MARK_MM
    is_end = face in ENDS
    at = _middle_of(core, face)[0 if is_end else 1]
    middle = core.centre[1 if is_end else 0]
    reach = (core.height if is_end else core.width) / 2 - wide
    out = 1.0 if face.is_far else -1.0
    wood = _drawn_along(main, at, is_end)  # a notch may have taken the corner off
    for way, step in product((out, -out), _MARK_STEPS_MM):
        shifts = sorted(_outward(reach, step), key=lambda x: x if is_end else -abs(x + 4.0))
        shifts.sort(key=lambda x: not any(low < middle + x < high for low, high in wood))
        for shift in shifts:
            along = middle + shift
            base = at + way * high
            corners = [(along, at), (along - wide / 2, base), (along + wide / 2, base)]
            placed = tuple((y, x) if is_end else (x, y) for x, y in corners)
            mark = Filled(corners=placed, line_class=LineClass.SYMBOL)
            # the tip touches the edge, which the grid of the space is too coarse to tell apart
            clear = item_box(mark).moved(*((way, 0.0) if is_end else (0.0, way)))
            if space.is_free(clear, _MARK_CLEAR_MM):
                space.add([mark])
                return [mark]
    raise NoRoomError("a datum finds no room for its mark")


def _drawn_along(block: Block, at: float, is_end: bool) -> list[tuple[float, float]]:
    """From where to where an outline is drawn on an edge or an end of a view [mm]."""
    ends = [
        (item.shape.start, item.shape.end) if is_end
        else (item.shape.start[::-1], item.shape.end[::-1])
        for item in block.items
        if isinstance(item, Stroke)
        and item.line_class is LineClass.VISIBLE
        and isinstance(item.shape, Line)
    ]  # fmt: skip
    return [
        (min(a[1], b[1]), max(a[1], b[1]))
        for a, b in ends
        if abs(a[0] - at) < _ON_EDGE_MM and abs(b[0] - at) < _ON_EDGE_MM
    ]


def side_names(
    faces: PartFaces, look: Look, block: Block, space: Space, style: SheetStyle
) -> list[Item]:
    """The names of the wide faces beside a view that shows them as lines, where there is room.

    Args:
        faces: what they are called.
        look: the view.
        block: it, in its place.
        space: of the sheet.
        style: pens and heights.
    """
    frame = FRAMES[look]
    core, height = block.core, style.text_height_mm
    made: list[Item] = []
    for face in WIDE_FACES:
        is_level = abs(frame.right[2]) > 0.5
        way = (frame.right if is_level else frame.up)[2] * (1.0 if face.is_far else -1.0)
        if abs(way) < 0.5:
            continue  # it looks at a wide face, beside which lie edges and ends
        called = faces.called(face)
        spare = (core.height if is_level else core.width) - text_width(called, height)
        for out, shift in ((o, s) for o in (1.2, 3.0) for s in _outward(max(spare / 2, 0.0) + 6.0)):
            if is_level:
                x = core.right + out + height if way > 0 else core.left - out
                at = (x, core.centre[1] + shift)
            else:
                at = (
                    core.centre[0] + shift,
                    core.top + out if way > 0 else core.bottom - out - height,
                )
            name = Lettering(
                text=called, at=at, height=height, anchor=Anchor.CENTRE, is_turned=is_level,
                line_class=LineClass.NAME,
            )  # fmt: skip
            if space.is_free(lettering_box(name), _CLEAR_MM):
                space.add([name])
                made.append(name)
                break
    return made


def _places(name: _Name, core: Box2, is_left: bool, style: SheetStyle) -> Iterator[list[Lettering]]:
    """The name beside its end, first at the middle, then nearer to a corner, then further out."""
    height = style.text_height_mm
    pitch, count = height * LINE_SHARE, len(name.lines)
    if name.is_turned:
        longest = max(text_width(line, height) for line in name.lines)
        for out in (_OUT_MM, _OUT_MM + 3.0):
            last = core.left - out if is_left else core.right + out + height + pitch * (count - 1)
            for y in _outward((core.height - longest) / 2 - _END_MM):
                yield [
                    Lettering(
                        text=line,
                        at=(last - pitch * (count - 1 - index), core.centre[1] + y),
                        height=height,
                        anchor=Anchor.CENTRE,
                        is_turned=True,
                        line_class=LineClass.NAME,
                    )
                    for index, line in enumerate(name.lines)
                ]
        return
    x = core.left - _OUT_MM if is_left else core.right + _OUT_MM
    high = height + pitch * (count - 1)
    for y in _outward(max(core.height / 2 - 1.0, 0.0)):
        top = core.centre[1] + y + high / 2
        yield [
            Lettering(
                text=line,
                at=(x, top - height - index * pitch),
                height=height,
                anchor=Anchor.RIGHT if is_left else Anchor.LEFT,
                line_class=LineClass.NAME,
            )
            for index, line in enumerate(name.lines)
        ]


def _outward(reach: float, step_mm: float = 2.0) -> list[float]:
    """Steps from the middle, both ways, up to `reach`; the middle alone when negative [mm]."""
    count = int(max(reach, 0.0) // step_mm)
    return [side * step_mm * at for at in range(count + 1) for side in ((1, -1) if at else (1,))]
