"""What one pass leaves of the wood in hand, from its setting alone, in another kernel (manifold3d).

Written from the sentences of `furniture.making.settings`: every distance is measured from the
wood's own extreme on the face that it names, as it is before the pass.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from manifold3d import CrossSection, Manifold

from furniture.making.settings import (
    Bored,
    Easing,
    Notched,
    Parallel,
    Setting,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.parts.faces import Face

OVER = 5.0
"""How far a tool runs past an open side [mm]."""
NOTHING = 1e-9
"""What is as good as nought [mm]."""
_ON_FACE = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """What a pass leaves: the wood kept, and for a blade right through what lies beyond it."""

    kept: Manifold
    beyond: Manifold


def level(wood: Manifold, face: Face) -> float:
    """Where the wood ends towards a face, on that face's axis [mm]."""
    return float(wood.bounding_box()[face.axis + (3 if face.is_far else 0)])


def inwards(face: Face) -> int:
    """Which way along its axis a face's wood lies."""
    return -1 if face.is_far else 1


def passed(wood: Manifold, setting: Setting, segments: int) -> Pass:
    """The wood after a pass.

    Args:
        wood: in hand, in its own frame.
        setting: of the pass; work by hand has none, and is refused.
        segments: of a full turn, a multiple of four.
    """
    nothing = Manifold()
    match setting:
        case Surface(face=face, takes_mm=takes):
            normal, at = _square(face, level(wood, face) + inwards(face) * takes)
            return Pass(kept=_below(wood, normal, at), beyond=nothing)
        case Parallel(off=off, at_mm=high):
            normal, at = _square(off.opposite, level(wood, off) + inwards(off) * high)
            return Pass(kept=_below(wood, normal, at), beyond=nothing)
        case Slice(off=off, at_mm=far, kerf_mm=kerf):
            there = end_of(wood, off, setting.long_face) + inwards(off) * far
            normal, at = _leaning(wood, off.opposite, there, setting.lean_deg, setting.long_face)
            beyond = wood.trim_by_plane(normal.tolist(), at + kerf)
            return Pass(kept=_below(wood, normal, at), beyond=beyond)
        case Skim(face=face, takes_mm=takes):
            there = end_of(wood, face, setting.long_face) + inwards(face) * takes
            normal, at = _leaning(wood, face, there, setting.lean_deg, setting.long_face)
            return Pass(kept=_below(wood, normal, at), beyond=nothing)
        case Trench():
            return Pass(kept=wood - _trench(wood, setting, segments), beyond=nothing)
        case Bored():
            return Pass(kept=wood - _bore(wood, setting, segments), beyond=nothing)
        case Notched():
            return Pass(kept=wood - _notch(wood, setting, segments), beyond=nothing)
        case Easing():
            return Pass(kept=wood - _easing(wood, setting, segments), beyond=nothing)
    raise ValueError(f"no setting tells what {type(setting).__name__} takes")


def end_of(wood: Any, face: Face, on: Face | None) -> float:
    """Where the wood ends towards `face`: all of it, or what lies in the plane of `on` [mm]."""
    if on is None:
        return level(wood, face)
    is_light = isinstance(wood, Manifold)
    corners = np.asarray(wood.to_mesh64().vert_properties)[:, :3] if is_light else wood.corners()
    in_plane = np.abs(corners[:, on.axis] - level(wood, on)) < _ON_FACE
    along = corners[in_plane, face.axis]
    return float(along.max() if face.is_far else along.min())


def _square(face: Face, at: float) -> tuple[np.ndarray, float]:
    """A plane square to a face's axis, as the way out of the wood and its distance along it."""
    normal = np.array(face.normal)
    return normal, float(normal[face.axis] * at)


def _leaning(
    wood: Manifold, face: Face, at: float, lean: float, long_face: Face | None
) -> tuple[np.ndarray, float]:
    """A plane that leaves the wood longest towards `face` in the plane of `long_face`."""
    if long_face is None:
        return _square(face, at)
    normal = np.array(face.normal) * math.cos(math.radians(lean))
    normal -= np.array(long_face.normal) * math.sin(math.radians(lean))
    point = np.zeros(3)
    point[face.axis], point[long_face.axis] = at, level(wood, long_face)
    return normal, float(normal @ point)


def _below(wood: Manifold, normal: np.ndarray, at: float) -> Manifold:
    return wood.trim_by_plane((-normal).tolist(), -at)


def _span(wood: Manifold, off: Face, start: float, end: float) -> tuple[float, float]:
    """A span measured inwards from a face, run past it where it starts at nought."""
    at, way = level(wood, off), inwards(off)
    begin = at - way * OVER if start <= NOTHING else at + way * start
    low, high = sorted((begin, at + way * end))
    return low, high


def _run(wood: Manifold, axis: int, whole_low: float, whole_high: float) -> tuple[float, float]:
    """All along an axis but what is left whole at its ends."""
    box = wood.bounding_box()
    low = box[axis] + (whole_low if whole_low > NOTHING else -OVER)
    high = box[axis + 3] - (whole_high if whole_high > NOTHING else -OVER)
    return low, high


def _prism(section: CrossSection, axis: int, low: float, high: float) -> Manifold:
    """A section drawn over the two axes that follow `axis` in turn, from low to high along it."""
    turned = np.zeros((3, 4))
    turned[(axis + 1) % 3, 0] = turned[(axis + 2) % 3, 1] = turned[axis, 2] = 1.0
    turned[axis, 3] = low
    return section.extrude(high - low).transform(turned)


def _rectangle(spans: dict[int, tuple[float, float]], axis: int) -> CrossSection:
    (left, right), (low, high) = spans[(axis + 1) % 3], spans[(axis + 2) % 3]
    return CrossSection.square((right - left, high - low)).translate((left, low))


def _left_by_cutter(
    corner: dict[int, tuple[float, int]], axis: int, radius: float, segments: int
) -> CrossSection:
    """What a round cutter leaves in a corner: per axis where it lies and the way into the cut."""
    spans, centre = {}, {}
    for across, (at, way) in corner.items():
        low, high = sorted((at, at + way * radius))
        spans[across], centre[across] = (low, high), at + way * radius
    middle = (centre[(axis + 1) % 3], centre[(axis + 2) % 3])
    return _rectangle(spans, axis) - CrossSection.circle(radius, segments).translate(middle)


def _is_inside(wood: Manifold, axis: int, at: float) -> bool:
    box = wood.bounding_box()
    return bool(box[axis] + NOTHING < at < box[axis + 3] - NOTHING)


def _with_corners(
    wood: Manifold, spans: dict[int, tuple[float, float]], axis: int, radius: float, segments: int
) -> CrossSection:
    """A rectangle whose corners are left round wherever both of their sides lie in the wood."""
    section = _rectangle(spans, axis)
    if radius <= NOTHING:
        return section
    first, second = spans
    for i, way in ((0, 1), (1, -1)):
        for j, back in ((0, 1), (1, -1)):
            at, there = spans[first][i], spans[second][j]
            if _is_inside(wood, first, at) and _is_inside(wood, second, there):
                corner = {first: (at, way), second: (there, back)}
                section -= _left_by_cutter(corner, axis, radius, segments)
    return section


def _trench(wood: Manifold, setting: Trench, segments: int) -> Manifold:
    sink = setting.face.axis
    wide = _span(wood, setting.off, setting.near_mm, setting.near_mm + setting.width_mm)
    run = _run(wood, setting.along, setting.whole_low_mm, setting.whole_high_mm)
    spans = {setting.along: run, setting.off.axis: wide}
    if len({sink, *spans}) != 3:
        raise ValueError("a trench is measured across its run and across what it is sunk from")
    section = _with_corners(wood, spans, sink, setting.corner_mm, segments)
    return _prism(section, sink, *_span(wood, setting.face, 0.0, setting.depth_mm))


def _bore(wood: Manifold, setting: Bored, segments: int) -> Manifold:
    sink = setting.face.axis
    centres = [_centre(wood, setting, setting.at_mm)]
    if setting.to_mm is not None:
        centres.append(_centre(wood, setting, setting.to_mm))
    if setting.depth_mm is None:
        down = _run(wood, sink, 0.0, 0.0)
    else:
        down = _span(wood, setting.face, 0.0, setting.depth_mm)
    circle = CrossSection.circle(setting.diameter_mm / 2, segments)
    hole = _prism(CrossSection.batch_hull([circle.translate(at) for at in centres]), sink, *down)
    if setting.mouth_mm <= setting.diameter_mm:
        return hole
    return hole + _mouth(wood, setting, centres[0], segments)


def _centre(wood: Manifold, setting: Bored, at_mm: tuple[float, float]) -> tuple[float, float]:
    sink = setting.face.axis
    where = {
        off.axis: level(wood, off) + inwards(off) * far
        for off, far in zip(setting.off, at_mm, strict=True)
    }
    if len({sink, *where}) != 3:
        raise ValueError("a bore's centre is measured along two axes of the face it is sunk from")
    return where[(sink + 1) % 3], where[(sink + 2) % 3]


def _mouth(wood: Manifold, setting: Bored, centre: tuple[float, float], segments: int) -> Manifold:
    """A countersink: widest at the face, as wide as the bore at its depth."""
    face, deep = setting.face, setting.mouth_depth_mm
    wide, narrow = setting.mouth_mm / 2, setting.diameter_mm / 2
    cone = Manifold.cylinder(deep, narrow, wide, segments)
    if not face.is_far:
        cone = cone.mirror((0.0, 0.0, 1.0)).translate((0.0, 0.0, deep))
    turned = np.zeros((3, 4))
    for column, axis in enumerate(((face.axis + 1) % 3, (face.axis + 2) % 3, face.axis)):
        turned[axis, column] = 1.0
    turned[(face.axis + 1) % 3, 3], turned[(face.axis + 2) % 3, 3] = centre
    turned[face.axis, 3] = level(wood, face) - (deep if face.is_far else 0.0)
    return cone.transform(turned)


def _notch(wood: Manifold, setting: Notched, segments: int) -> Manifold:
    end = setting.near_mm + setting.length_mm
    spans = {
        setting.off.axis: _span(wood, setting.off, setting.near_mm, end),
        setting.edge.axis: _span(wood, setting.edge, 0.0, setting.depth_mm),
    }
    if set(spans) != {0, 1}:
        raise ValueError("a notch is cut from an edge or an end and measured along it")
    section = _with_corners(wood, spans, 2, setting.corner_mm, segments)
    return _prism(section, 2, *_run(wood, 2, 0.0, 0.0))


def _easing(wood: Manifold, setting: Easing, segments: int) -> Manifold:
    """What lies outside a round, or outside the flat between its two ends."""
    size, run = setting.size_mm, setting.arris.run_axis
    corners: dict[int, tuple[float, int]] = {
        face.axis: (level(wood, face), inwards(face))
        for face in (setting.arris.first, setting.arris.second)
    }
    if setting.is_round:
        section = _left_by_cutter(corners, run, size, segments)
    else:
        (x, in_x), (y, in_y) = corners[(run + 1) % 3], corners[(run + 2) % 3]
        triangle = [(x, y), (x + in_x * size, y), (x, y + in_y * size)]
        section = CrossSection([triangle if in_x * in_y > 0 else triangle[::-1]])
    return _prism(section, run, *_run(wood, run, 0.0, 0.0))
