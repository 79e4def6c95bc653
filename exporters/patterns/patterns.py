"""Which patterns a piece gets: story sticks, and faces with curves, odd angles or many bores."""

from __future__ import annotations

from enum import Enum
from typing import assert_never

from exporters.faces import PartFaces, faces_of
from exporters.patterns.pattern import NamedLine, Note, Pattern, strokes_of
from exporters.patterns.story_stick import story_sticks
from exporters.sheets.annotate import annotations_of
from exporters.sheets.annotation import FACE_OF_LOOK, FRAMES, Annotation, Look
from exporters.sheets.blocks import centre_cross
from exporters.sheets.clip import clipped_view, inside_box
from exporters.sheets.figures import stroke
from exporters.sheets.paper import Box2
from exporters.sheets.pens import ISO_STYLE, LineClass
from exporters.sheets.values import Stroke
from exporters.views.project import project_part
from exporters.views.values import View, ViewFrame
from furniture.parts.blank import Blank
from furniture.parts.cuts import Bite, Channel, Cut, Eased, Hole, InSlope, Slope, Stub, TongueEnd
from furniture.parts.faces import EDGES, Face
from furniture.parts.lines import bounds_of
from furniture.parts.part import Part, slug_of
from furniture.parts.vectors import Point2, Vector, scaled
from furniture.pieces.piece import Piece, distinct_parts
from furniture.units import Shown

_USUAL_ANGLE_DEG = 45.0
"""A gauge has a stop for it. Common practice, no source."""
_LEAST_BORES, _LEAST_BORES_THAT_MEET = 3, 2
"""Fewer bores in a face are measured; those in an edge or an end are dowels', and must meet those
of the other part. Own rule."""
_PAST_MM, _LEAST_SAVED_MM = 30.0, 60.0
"""How much wood is drawn past the last cut, and the least worth breaking off [mm]. Own rule."""


class _Marking(Enum):
    """How a cut is best marked on the wood. Own rule."""

    MEASURED = "measured"
    BORED = "by its centre"
    TRACED = "traced"


def patterns_of(piece: Piece) -> tuple[Pattern, ...]:
    """Every pattern of the piece at true size, story sticks first.

    Args:
        piece: what to draw.

    Raises:
        SolidError: a part cannot be made.
    """
    traced = [
        pattern
        for each in distinct_parts(piece)
        for pattern in _faces_of(each.part, piece.shown, faces_of(piece, each))
    ]
    return (*story_sticks(piece), *traced)


def _faces_of(part: Part, shown: Shown, faces: PartFaces) -> list[Pattern]:
    """A pattern for each way to look at the part that shows something to be traced."""
    said: dict[Look, list[Annotation]] = {}
    cuts: dict[Look, list[Cut]] = {}
    for cut, note in zip(part.cuts, annotations_of(part, shown, faces), strict=True):
        if _marking_of(cut, part.blank) is not _Marking.MEASURED:
            said.setdefault(note.look, []).append(note)
            cuts.setdefault(note.look, []).append(cut)
    return [
        _face(part, look, cuts[look], said[look], faces)
        for look in Look
        if look in said and _is_worth_paper(look, cuts[look], part.blank)
    ]


def _marking_of(cut: Cut, blank: Blank) -> _Marking:
    """Traced where it has a curve, or an angle that no fence or gauge has a stop for."""
    shape = cut.shape(blank)
    match shape:
        case Hole():
            return _Marking.BORED if shape.is_round else _Marking.TRACED
        case Bite():
            is_traced = shape.corner_mm > 0.0
        case Channel():  # one along the grain is drawn in section and set by a fence
            is_traced = shape.corner_mm > 0.0 and shape.along == 1
        case Slope():  # on the flat the gauge is turned; a blade is tilted by its own scale
            is_odd = abs(shape.angle_deg - _USUAL_ANGLE_DEG) > 1e-6
            is_traced = is_odd and shape.long_point in EDGES
        case TongueEnd():
            is_traced = True
        case InSlope() | Eased() | Stub():
            is_traced = False
        case _:
            assert_never(shape)
    return _Marking.TRACED if is_traced else _Marking.MEASURED


def _is_worth_paper(look: Look, cuts: list[Cut], blank: Blank) -> bool:
    if any(_marking_of(cut, blank) is _Marking.TRACED for cut in cuts):
        return True
    is_face = look in (Look.FACE_SIDE, Look.BACK_SIDE)
    return len(cuts) >= (_LEAST_BORES if is_face else _LEAST_BORES_THAT_MEET)


def _frame_of(look: Look) -> ViewFrame:
    """As on the part's sheet, but ends lie flat: words stand above and below them, so that many
    share a page."""
    frame = FRAMES[look]
    if look in (Look.NAMED_END, Look.FAR_END):
        return ViewFrame(right=frame.up, up=scaled(frame.right, -1.0))
    return frame


def _face(
    part: Part, look: Look, cuts: list[Cut], said: list[Annotation], faces: PartFaces
) -> Pattern:
    frame = _frame_of(look)
    shows = faces.called(FACE_OF_LOOK[look]) if look in FACE_OF_LOOK else look.value
    view = project_part(part, frame)
    core, breaks = _kept(part, look, cuts, view)
    strokes: list[Stroke] = list(strokes_of(clipped_view(view, inside_box(core))))
    strokes += breaks
    grouped: dict[str, list[Point2]] = {}
    for note in said:
        grouped.setdefault(f"{note.noun} {note.spec}", []).append(frame.to_paper(note.target))
        for centre, half in note.centres:
            strokes += [
                item
                for item in centre_cross(frame.to_paper(centre), half, ISO_STYLE)
                if isinstance(item, Stroke)
            ]
    return Pattern(
        slug=f"{part.id}-{slug_of(shows)}",
        shows=f"{part.name}: {shows}",
        more=", broken off past the last of these cuts" if breaks else "",
        core=core,
        strokes=tuple(strokes),
        notes=tuple(
            Note(text=text, points=tuple(points), shared="each of these: ")
            for text, points in grouped.items()
        ),
        named=_sides(part, look, faces),
    )


def _kept(part: Part, look: Look, cuts: list[Cut], view: View) -> tuple[Box2, list[Stroke]]:
    """What of the view is drawn [mm] and where it is broken off: along and across, from the nearer
    side past the last cut, where that saves much."""
    low, high = list(view.low), list(view.high)
    boxes = [bounds_of(tool) for cut in cuts for tool in cut.tools(part.blank)]
    corners = [_frame_of(look).to_paper(corner) for box in boxes for corner in box]
    broken: list[tuple[int, float]] = []
    for axis in (0, 1):
        first = min(corner[axis] for corner in corners) - _PAST_MM
        last = max(corner[axis] for corner in corners) + _PAST_MM
        before, after = first - low[axis], high[axis] - last
        if max(before, after) < _LEAST_SAVED_MM:
            continue
        side, at = (high, last) if before < after else (low, first)
        side[axis] = at
        broken.append((axis, at))
    core = Box2(left=low[0], bottom=low[1], right=high[0], top=high[1])
    past = core.grown(3.0)
    breaks = [
        stroke((at, past.bottom), (at, past.top), LineClass.BREAK)
        if axis == 0
        else stroke((past.left, at), (past.right, at), LineClass.BREAK)
        for axis, at in broken
    ]
    return core, breaks


def _sides(part: Part, look: Look, faces: PartFaces) -> tuple[NamedLine, ...]:
    """The sides of the view that figures start at, so that the pattern is laid the right way."""
    frame = _frame_of(look)
    size = part.blank.size
    named = []
    for face in (Face.NAMED_END, Face.FAR_END, Face.FACE_EDGE, Face.FACE_SIDE):
        if abs(frame.towards_eye[face.axis]) > 0.5:
            continue
        along = next(
            axis for axis in range(3) if axis != face.axis and abs(frame.towards_eye[axis]) < 0.5
        )
        ends: list[Vector] = []
        for run in (0.0, size[along]):
            point = [0.0, 0.0, 0.0]
            point[face.axis] = size[face.axis] if face.is_far else 0.0
            point[along] = run
            ends.append((point[0], point[1], point[2]))
        start, end = (frame.to_paper(point) for point in ends)
        named.append(NamedLine(text=faces.called(face), start=start, end=end))
    return tuple(named)
