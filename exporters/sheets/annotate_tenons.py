"""What the sheet says about a mortise and about a tenon."""

from __future__ import annotations

from exporters.sheets.annotate import annotate
from exporters.sheets.annotation import LOOK_OF_FACE, Annotation, Bench, Position
from furniture.parts.cuts import Mortise, Tenon
from furniture.parts.cuts.shapes import level_of
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector, add, scaled


@annotate.register
def _mortise(cut: Mortise, bench: Bench) -> Annotation:
    """Its walls are struck from the named end, the face edge and the face side, as it lies."""
    low, high = cut.shape(bench.blank).corners(bench.blank)
    look = LOOK_OF_FACE[cut.face]
    level = level_of(cut.face, bench.blank)
    radius = cut.corner_radius_mm
    corners = f", corners R{bench.said(radius)}" if radius > 0 else ""
    return Annotation(
        noun="mortise",
        spec=f"{bench.caliper(cut.first_size_mm)} x {bench.caliper(cut.second_size_mm)} x "
        f"{bench.dial(cut.depth_mm)} deep{corners}",
        place=f"in {cut.face.value}",
        target=_on(cut.face, level, scaled(add(low, high), 0.5)),
        look=look,
        positions=_struck_from_datums(cut.face, level, low, high, bench),
    )


@annotate.register
def _tenon(cut: Tenon, bench: Bench) -> Annotation:
    """Its upper cheek is struck from the face side, its lower edge from the face edge."""
    shape = cut.shape(bench.blank)
    level = level_of(cut.end, bench.blank)
    return Annotation(
        noun="tenon",
        spec=f"{bench.caliper(cut.thickness_mm)} thick x {bench.caliper(cut.width_mm)} wide x "
        f"{bench.caliper(cut.length_mm)} long",
        place=f"on {cut.end.value}",
        target=_on(cut.end, level, scaled(add(shape.low, shape.high), 0.5)),
        look=LOOK_OF_FACE[cut.end],
        positions=_struck_from_datums(cut.end, level, shape.low, shape.high, bench),
    )


def _struck_from_datums(
    face: Face, level: float, low: Vector, high: Vector, bench: Bench
) -> tuple[Position, ...]:
    """Where a block in a face begins on both axes of that face, from the part's datums."""
    corner = _on(face, level, (low[0], low[1], high[2]))
    return tuple(
        Position(
            axis=axis,
            value_mm=bench.from_face_side(high[2]) if axis == 2 else low[axis],
            point=corner,
            look=LOOK_OF_FACE[face],
        )
        for axis in range(3)
        if axis != face.axis
    )


def _on(face: Face, level: float, point: Vector) -> Vector:
    """The same point drawn out to a face."""
    moved = list(point)
    moved[face.axis] = level
    return (moved[0], moved[1], moved[2])
