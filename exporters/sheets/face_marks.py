"""Names of ends and edges beside the face side, and the bench's own marks for face and edge.

The loop that marks a face side, with its tail run to the face edge, and the V on that edge whose
point looks at the loop: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from exporters.sheets.blocks import Block
from exporters.sheets.callouts import LINE_SHARE, place_callout
from exporters.sheets.geometry import item_box, lettering_box
from exporters.sheets.lettering import text_width, wrapped
from exporters.sheets.paper import Box2
from exporters.sheets.part_notes import end_label
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.space import Space
from exporters.sheets.values import Anchor, Item, Lettering, Stroke
from exporters.views.values import Polyline
from furniture.parts.faces import Face
from furniture.parts.part import Part
from furniture.parts.vectors import Point2

_OUT_MM = 2.0
_END_MM = 1.6
_BESIDE_MM = 19.0
_CLEAR_MM = 0.6
_MARK_CLEAR_MM = 0.2
_LOOP: tuple[Point2, ...] = (
    (0.0, 0.9), (0.5, 1.7), (1.2, 2.7), (1.8, 3.9), (1.9, 4.7), (1.5, 5.2), (1.0, 5.1),
    (0.7, 4.4), (0.75, 3.4), (1.05, 2.3), (1.6, 1.5), (2.4, 1.2),
)  # fmt: skip
_V: tuple[Point2, ...] = ((-1.3, -3.6), (0.0, -1.0), (1.3, -3.6))


@dataclass(frozen=True, slots=True)
class _Name:
    """An end's name in lines, and whether they are read from the right."""

    lines: tuple[str, ...]
    is_turned: bool


def _name_of(part: Part, end: Face, high: float, style: SheetStyle) -> _Name:
    """The name set to fit beside an end of this height: along it, or in short lines [mm]."""
    text, height = end_label(part, end), style.text_height_mm
    room = high - 2 * _END_MM
    turned = wrapped(text, height, room)
    if max(text_width(line, height) for line in turned) <= room and len(turned) <= 2:
        return _Name(turned, True)
    return _Name(wrapped(text, height, _BESIDE_MM), False)


def room_for_name(part: Part, end: Face, high: float, style: SheetStyle) -> float:
    """How much room beside an end of this height its name takes [mm].

    Args:
        part: says which of its ends is trimmed last.
        end: the named or the far end.
        high: of the view on paper [mm].
        style: pens and heights.
    """
    name, height = _name_of(part, end, high, style), style.text_height_mm
    if name.is_turned:
        return _OUT_MM + height * (1 + (len(name.lines) - 1) * LINE_SHARE) + 1.5
    return _OUT_MM + max(text_width(line, height) for line in name.lines) + 1.5


def end_names(part: Part, face: Block, space: Space, style: SheetStyle) -> list[Item]:
    """Both ends' names, each beside its end; with a leader where something else stands there."""
    items: list[Item] = []
    core = face.core
    for end, is_left in ((Face.NAMED_END, True), (Face.FAR_END, False)):
        name = _name_of(part, end, core.height, style)
        for tried in _places(name, core, is_left, style):
            if all(space.is_free(lettering_box(line), _CLEAR_MM) for line in tried):
                space.add(tried)
                items += tried
                break
        else:
            target = (core.left if is_left else core.right, core.centre[1])
            keep_out = [core.grown(1.0)]
            items += place_callout(end_label(part, end), target, space, style, keep_out)
    return items


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
            )
            for index, line in enumerate(name.lines)
        ]


def _outward(reach: float) -> list[float]:
    """Steps of 2 mm from the middle, both ways, up to `reach`; the middle alone when negative."""
    count = int(max(reach, 0.0) // 2.0)
    return [sign * 2.0 * step for step in range(count + 1) for sign in ((1, -1) if step else (1,))]


def face_marks(face: Block, space: Space, style: SheetStyle) -> list[Item]:
    """The loop on the face side, the V on the face edge, and the edge's name beside it.

    Where a part is too narrow or too full for the loop, the V and the name stand alone.
    """
    core, height = face.core, style.text_height_mm
    wide = text_width("face edge", height)
    for with_loop in (True, False):
        for drop in (0.0, 2.4):
            for shift in _outward(core.width / 2 - 4.0):
                x = core.centre[0] + shift
                name = Lettering(
                    text="face edge",
                    at=(x + 2.6, core.bottom - 3.6 - drop),
                    height=height,
                    anchor=Anchor.LEFT,
                )
                if x + 2.6 + wide > core.right + 12.0:
                    continue
                vee = _drawn(_V, x, core.bottom)
                marks: list[Item] = [vee]
                if with_loop:
                    if core.height < 8.0:
                        break
                    marks.append(_drawn(_LOOP, x, core.bottom))
                is_free = all(space.is_free(item_box(mark), _MARK_CLEAR_MM) for mark in marks)
                if is_free and space.is_free(lettering_box(name), _CLEAR_MM):
                    made: list[Item] = [*marks, name]
                    space.add(made)
                    return made
    return place_callout(
        "face edge", (core.centre[0], core.bottom), space, style, [core.grown(1.0)]
    )


def _drawn(points: tuple[Point2, ...], x: float, y: float) -> Stroke:
    moved = tuple((x + dx, y + dy) for dx, dy in points)
    return Stroke(shape=Polyline(points=moved), line_class=LineClass.SYMBOL)
