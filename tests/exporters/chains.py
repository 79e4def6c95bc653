"""Views in the tests' own terms: shapes as chains of points, and the view square on to a face."""

from __future__ import annotations

import math

from exporters.views.frames import StandardView, standard_frame
from exporters.views.values import Arc, EllipseArc, Line, Shape, ViewFrame
from furniture.parts.faces import Face
from furniture.parts.vectors import Point2

_OF_FACE: dict[Face, StandardView] = {
    Face.FACE_SIDE: StandardView.TOP,
    Face.BACK_SIDE: StandardView.BOTTOM,
    Face.FACE_EDGE: StandardView.FRONT,
    Face.BACK_EDGE: StandardView.BACK,
    Face.NAMED_END: StandardView.LEFT,
    Face.FAR_END: StandardView.RIGHT,
}


def face_frame(face: Face) -> ViewFrame:
    """The frame that sees a face of a part square on, in the part frame.

    Args:
        face: the face that looks at the eye; the grain lies level on the paper, or it is an end.
    """
    return standard_frame(_OF_FACE[face])


def points_of(shape: Shape, sagitta_mm: float = 0.02) -> tuple[Point2, ...]:
    """The shape as a chain of points that strays from it by at most `sagitta_mm` [mm].

    Args:
        shape: the shape.
        sagitta_mm: greatest distance between chain and curve [mm].
    """
    if isinstance(shape, Line):
        return (shape.start, shape.end)
    if isinstance(shape, Arc):
        sweep, radius = math.radians(shape.end_deg - shape.start_deg), shape.radius
        start = math.radians(shape.start_deg)
    elif isinstance(shape, EllipseArc):
        sweep, radius = shape.end - shape.start, math.hypot(*shape.major)
        start = shape.start
    else:
        return shape.points
    step = 2.0 * math.acos(max(0.0, 1.0 - sagitta_mm / radius)) if radius > sagitta_mm else 1.0
    count = max(2, math.ceil(sweep / step))
    return tuple(_round_point(shape, start + sweep * index / count) for index in range(count + 1))


def _round_point(shape: Arc | EllipseArc, parameter: float) -> Point2:
    cosine, sine = math.cos(parameter), math.sin(parameter)
    x, y = shape.centre
    if isinstance(shape, Arc):
        return (x + shape.radius * cosine, y + shape.radius * sine)
    u, v = shape.major
    return (
        x + u * cosine - v * shape.ratio * sine,
        y + v * cosine + u * shape.ratio * sine,
    )
