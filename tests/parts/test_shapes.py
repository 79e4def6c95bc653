"""What a cut says of itself against the solid that the kernel makes of it."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given

from furniture.parts.blank import Blank
from furniture.parts.cuts import ALL_CUTS, Cut, InSlope, Leftover
from furniture.parts.cuts.left import Left
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector, add, cross, dot, length, scaled, unit
from furniture.solids.make import solid_of
from tests.fresh import law
from tests.parts.cut_cases import blank_and_cut
from tests.parts.test_cuts import mitre_of, part_of

SOME = law(few=4, full=60)
NEEDLE_MM = 1e-3


def _needle(at: Vector, way: Vector) -> Any:
    """A thin square bar whose axis runs from a point along a way."""
    import cadquery as cq

    ahead = unit(way)
    axes: tuple[Vector, ...] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    aside = min(axes, key=lambda axis: abs(dot(axis, ahead)))
    across = unit(cross(aside, ahead))
    plane = cq.Plane(origin=at, xDir=across, normal=ahead)
    return cq.Workplane(plane).rect(NEEDLE_MM, NEEDLE_MM).extrude(length(way)).val()


def _wood_on(solid: Any, at: Vector, way: Vector) -> float:
    """How much of a straight line lies in the solid [mm]."""
    shared = solid.intersect(_needle(at, way))
    return float(sum(each.Volume() for each in shared.Solids())) / NEEDLE_MM**2


def _middle(left: Left) -> Vector:
    at = left.at
    for side in left.sides:
        at = add(at, scaled(side, 0.5))
    return at


@pytest.mark.parametrize("kind", ALL_CUTS, ids=lambda kind: str(kind.kind))
def test_the_wood_that_a_cut_leaves_is_there_on_the_solid(kind: type[Cut]) -> None:
    """From the cut's surface to the outside all is wood, and on the other side of it none.

    The lines begin a hundredth inside the wood, where a curve does not reach.
    """

    @SOME
    @given(blank_and_cut(kind))
    def holds(drawn: tuple[Blank, Cut]) -> None:
        blank, cut = drawn
        solid = solid_of(part_of(blank, *mitre_of(cut), cut))
        for left in cut.leaves(blank):
            ahead = unit(left.way)
            start = add(_middle(left), scaled(ahead, 0.01))
            if isinstance(cut.shape(blank), InSlope):
                # on the mitre itself half a needle is in the air: a little below it
                start = add(start, scaled(_below(cut, blank), 0.01))
            if left.wood_mm < 0.1:
                continue
            wood = _wood_on(solid, start, scaled(ahead, left.wood_mm - 0.05))
            assert wood == pytest.approx(left.wood_mm - 0.05, abs=0.03), left
            if left.what is Leftover.BEHIND:
                before = add(_middle(left), scaled(ahead, -0.05))
                assert _wood_on(solid, before, scaled(ahead, 0.04)) == pytest.approx(0, abs=1e-6)

    holds()


def _below(cut: Cut, blank: Blank) -> Vector:
    """Into the wood, square to the mitre that a cut stands in."""
    shape = cut.shape(blank)
    assert isinstance(shape, InSlope)
    return scaled(shape.frame(blank)[2], -1.0)


@pytest.mark.parametrize("kind", ALL_CUTS, ids=lambda kind: str(kind.kind))
def test_a_cut_opens_the_faces_that_lose_wood_on_the_solid(kind: type[Cut]) -> None:
    @SOME
    @given(blank_and_cut(kind))
    def holds(drawn: tuple[Blank, Cut]) -> None:
        blank, cut = drawn
        before = _face_areas(solid_of(part_of(blank, *mitre_of(cut))), blank)
        after = _face_areas(solid_of(part_of(blank, *mitre_of(cut), cut)), blank)
        opened = {face for face in Face if after[face] < before[face] - 1e-4}
        said = cut.opens(blank)
        shape = cut.shape(blank)
        if isinstance(shape, InSlope):  # the mitre has taken the end itself
            assert shape.end in said
            said = said - {shape.end}
        assert opened == said

    holds()


def _face_areas(solid: Any, blank: Blank) -> dict[Face, float]:
    """How much of each face of the blank a solid still has [mm2]."""
    found = dict.fromkeys(Face, 0.0)
    for each in solid.Faces():
        if each.geomType() != "PLANE":
            continue
        box = each.BoundingBox()
        low, high = (box.xmin, box.ymin, box.zmin), (box.xmax, box.ymax, box.zmax)
        for face in Face:
            level = blank.across(face) if face.is_far else 0.0
            if max(abs(low[face.axis] - level), abs(high[face.axis] - level)) < 1e-5:
                found[face] += each.Area()
    return found
