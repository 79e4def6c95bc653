"""Which way round a part lies in its picture: so that most of what is cut into it is seen."""

from __future__ import annotations

from itertools import product

from exporters.views.frames import StandardView, standard_frame
from exporters.views.values import ViewFrame
from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.faces import Face
from furniture.parts.lines import bounds_of
from furniture.parts.part import Part
from furniture.parts.vectors import Vector

_HALF_TURNS: tuple[Vector, ...] = (
    (1.0, 1.0, 1.0),
    (1.0, -1.0, -1.0),
    (-1.0, -1.0, 1.0),
    (-1.0, 1.0, -1.0),
)
"""As it lies on its sheet; then turned about its length, end for end, and both. Where two show as
much the first is taken. Own rule."""
_PAST_MM = 1e-6


def picture_frame(part: Part) -> tuple[ViewFrame, Face]:
    """The isometric in which most is seen of the places where its cuts come out, and the wide face
    that is up in it.

    Args:
        part: of any kind.
    """
    usual = standard_frame(StandardView.ISOMETRIC_RIGHT)
    mouths = [_mouths(cut, part.blank) for cut in part.cuts]
    frames = [
        ViewFrame(right=_turned(usual.right, turn), up=_turned(usual.up, turn))
        for turn in _HALF_TURNS
    ]
    best = max(frames, key=lambda frame: sum(_seen_share(each, frame) for each in mouths))
    return best, next(face for face in (Face.FACE_SIDE, Face.BACK_SIDE) if _is_seen(face, best))


def _turned(way: Vector, turn: Vector) -> Vector:
    x, y, z = (value * sign for value, sign in zip(way, turn, strict=True))
    return (x, y, z)


def _mouths(cut: Cut, blank: Blank) -> set[Face]:
    """The faces of the blank that a cut comes out of: its tools run past them."""
    boxes = [bounds_of(tool) for tool in cut.tools(blank)]
    return {
        face
        for face, (low, high) in product(Face, boxes)
        if (
            high[face.axis] > blank.size[face.axis] + _PAST_MM
            if face.is_far
            else low[face.axis] < -_PAST_MM
        )
    }


def _seen_share(mouths: set[Face], frame: ViewFrame) -> float:
    """How much of where a cut comes out is seen."""
    return sum(_is_seen(mouth, frame) for mouth in mouths) / max(len(mouths), 1)


def _is_seen(face: Face, frame: ViewFrame) -> bool:
    return (frame.towards_eye[face.axis] > 0.0) == face.is_far
