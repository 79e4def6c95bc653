"""The faces of a joint: stated where the joint puts them, and as all cuts of both parts leave them.

A joint states each meeting rectangle once, from how its two parts lie. What another cut takes of
it, before or after, is taken off here for all joints alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

import shapely

from furniture.joints.joint import GrainRelation, JointFace
from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.placement import Placement
from furniture.parts.plane_section import Window, with_area, wood_left_in
from furniture.parts.vectors import Vector, add, cross, scaled
from furniture.rules.bench import GLUE_LINE

Span = tuple[float, float]

_BESIDE_MM = 1e-5
"""How far beside a face its wood is looked for [mm]: far above rounding, far below any play."""
_SAME_MM = 1e-4
"""Corners nearer than this are one [mm]."""
_LEAST_MM = 0.05
"""A strip of contact narrower than this is no face [mm]. Own rule."""


def glued(grain: GrainRelation, play_mm: float, is_glued: bool = True) -> GrainRelation | None:
    """The grain where glue holds across that play [mm], or none: a face farther off stays bare."""
    return grain if is_glued and play_mm <= GLUE_LINE.value else None


def rectangle(
    frame: Placed,
    what: str,
    *,
    towards: Face,
    at: float,
    run: tuple[int, Span],
    deep: tuple[int, Span],
    play_mm: float = 0.0,
    glue: GrainRelation | None = None,
) -> tuple[JointFace, ...]:
    """One face of a joint, stated in the frame of either part; nothing where it has no extent.

    Args:
        frame: the part in whose frame the figures are.
        what: what the face is called.
        towards: where the face looks, out of the incoming part, as a face of `frame` does.
        at: where it lies along that axis [mm].
        run: the axis that it runs along, and from where to where [mm].
        deep: the same across it.
        play_mm: how much further on the other part begins [mm].
        glue: how the grain meets where it is glued.
    """
    spans = dict((run, deep))
    point = [0.0, 0.0, 0.0]
    point[towards.axis] = at
    for axis, (start, end) in spans.items():
        if end - start < _LEAST_MM:
            return ()
        point[axis] = (start + end) / 2
    place = frame.placement
    return (
        JointFace(
            what=what,
            centre=place.to_piece((point[0], point[1], point[2])),
            normal=place.direction_to_piece(towards.normal),
            along=place.axes[run[0]],
            run_mm=run[1][1] - run[1][0],
            deep_mm=deep[1][1] - deep[1][0],
            play_mm=play_mm,
            glue=glue,
        ),
    )


def faces_as_cut(
    faces: Sequence[JointFace], into: Placed, incoming: Placed
) -> tuple[JointFace, ...]:
    """The faces of a joint as all the cuts of both parts leave them.

    Steps and straight slots part a face into several rectangles; what a bore or a slanting cut
    takes inside one is told as `taken_mm2`. A face of which nothing is left stays as stated, so
    that the proof of contacts can say so.

    Args:
        faces: as the joint states them.
        into: the part that is gone into, with all its cuts.
        incoming: the part that goes in, with all its cuts.
    """
    woods = [_Wood(each.part.blank, each.part.cuts, each.placement) for each in (into, incoming)]
    return tuple(each for face in faces for each in _as_cut(face, *woods))


def window_of(face: JointFace) -> Window:
    """The face's rectangle, its normal out of the incoming part."""
    return Window(
        centre=face.centre,
        u=face.along,
        v=cross(face.normal, face.along),
        u_mm=face.run_mm,
        v_mm=face.deep_mm,
    )


@dataclass(frozen=True, slots=True)
class _Wood:
    """What of a placed part its faces hang on: neither its name nor its timber."""

    blank: Blank
    cuts: tuple[Cut, ...]
    placement: Placement


@lru_cache(maxsize=8192)
def _as_cut(face: JointFace, into: _Wood, incoming: _Wood) -> tuple[JointFace, ...]:
    """One face as it is left; most joints of two designs that differ in a figure are the same."""
    window = window_of(face)
    region = _meeting(window, face.drawn_play_mm, into, incoming)
    found = [_bounded(face, window, region, each) for each in _rectangles(region)]
    return tuple(each for each in found if each is not None) or (face,)


def _meeting(window: Window, play_mm: float, into: _Wood, incoming: _Wood) -> shapely.Geometry:
    """Where the incoming part's wood ends in a window and the other part's begins after the play.

    The wood is looked for a little to either side of both faces.
    """

    def wood(of: _Wood, distance: float) -> shapely.Geometry:
        seen = window.moved(distance).seen_from(of.placement)
        return wood_left_in(seen, of.blank, of.cuts)

    region = wood(incoming, -_BESIDE_MM).intersection(wood(into, play_mm + _BESIDE_MM))
    before = wood(incoming, _BESIDE_MM).union(wood(into, play_mm - _BESIDE_MM))
    return with_area(with_area(region).difference(before))


def _rectangles(region: shapely.Geometry) -> list[tuple[float, float, float, float]]:
    """A region parted at its straight steps: low and high u, low and high v of each [mm]."""
    if region.is_empty or region.area < _LEAST_MM**2:
        return []
    whole = shapely.box(*region.bounds)
    steps = [each for each in shapely.get_parts(whole.difference(region)) if _is_stepped(each)]
    corners = [point for step in steps for point in shapely.get_coordinates(step)]
    us = _apart([whole.bounds[0], whole.bounds[2], *(point[0] for point in corners)])
    vs = _apart([whole.bounds[1], whole.bounds[3], *(point[1] for point in corners)])
    gone = shapely.union_all(steps)
    rows: list[tuple[float, float, float, float]] = []
    for low_v, high_v in pairwise(vs):
        for low_u, high_u in _runs(us, low_v, high_v, gone):
            below = next((r for r in rows if r[:2] == (low_u, high_u) and r[3] == low_v), None)
            if below is not None:
                rows.remove(below)
                low = below[2]
            else:
                low = low_v
            rows.append((low_u, high_u, low, high_v))
    return rows


def _runs(us: list[float], low_v: float, high_v: float, gone: shapely.Geometry) -> list[Span]:
    """The unbroken stretches of a row that no step has taken."""
    found: list[Span] = []
    for low, high in pairwise(us):
        if gone.contains(shapely.Point((low + high) / 2, (low_v + high_v) / 2)):
            continue
        if found and found[-1][1] == low:
            found[-1] = (found[-1][0], high)
        else:
            found.append((low, high))
    return found


def _is_stepped(missing: shapely.Geometry) -> bool:
    """Whether what is missing has its sides along the rectangle's own, and is no mere sliver."""
    points = shapely.get_coordinates(missing).tolist()
    if missing.geom_type != "Polygon" or missing.area < _LEAST_MM**2:
        return False
    sides = pairwise(points)
    return all(min(abs(a - c), abs(b - d)) < _SAME_MM for (a, b), (c, d) in sides)


def _apart(values: list[float]) -> list[float]:
    """Values in order, those that are the same but for rounding once."""
    found: list[float] = []
    for value in sorted(values):
        if not found or value - found[-1] > _SAME_MM:
            found.append(value)
    return found


def _bounded(
    face: JointFace,
    window: Window,
    region: shapely.Geometry,
    spans: tuple[float, float, float, float],
) -> JointFace | None:
    """One rectangle of a face, drawn in to what is left of the wood in it."""
    here = with_area(region.intersection(shapely.box(spans[0], spans[2], spans[1], spans[3])))
    if here.is_empty:
        return None
    low_u, low_v, high_u, high_v = here.bounds
    run, deep = high_u - low_u, high_v - low_v
    if min(run, deep) < _LEAST_MM or here.area < _LEAST_MM**2:
        return None
    centre: Vector = add(
        window.centre,
        add(scaled(window.u, (low_u + high_u) / 2), scaled(window.v, (low_v + high_v) / 2)),
    )
    taken = run * deep - here.area
    return replace(
        face,
        centre=centre,
        run_mm=run,
        deep_mm=deep,
        taken_mm2=taken if taken > _LEAST_MM**2 else 0.0,
    )
