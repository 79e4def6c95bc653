"""Springs: the stiffness of faces and fasteners, read where the wood really carries them.

A face is as stiff as the wood that it presses: each part gives over a depth that the face loads.
Bare faces push at points on their rim, glued ones hold at points inside. A point in a thin plate
gives without end as the mesh gets finer, so each point reads the straight line that fits the plate
along its face and not the plate itself.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from furniture.joints.joint import Fastener, Joining, JointFace
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, add, cross, dot, scaled, unit
from furniture.structure.capacity import Carries, glue_strength, pull_of
from furniture.structure.links import TOUCHES_MM, axes_across, sideways_of
from furniture.structure.plate import Stiffness
from furniture.timber.species import Species

ROLLING_SHARE = 0.3
"""Shear stiffness across the grain beside that along [-].

**Source:** beech is printed with 195 and 899 MPa (J. Wood Sci. 2019, Table 1, read): 0.22; with the
other planes' 595 the middle of what a glued face meets is near 0.3, own rule."""
MOST_DEPTH = 1.5
"""A face is pressed no deeper than this many of its lesser sides [-]. Own rule."""
SAMPLE_MM = 30.0
"""How far apart the places lie at which a face's line is fitted [mm]."""
STEEL_E_MPA = 205000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """The line of a face along which a point's motion is fitted: its middle, way and length."""

    centre: Vector
    along: Vector
    length_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Spring:
    """A spring between two bodies at a point: on `first` along `direction` [mm, N/mm].

    `pushes_only` and `play_mm` say when it acts; `strength_n` is what it bears at most where a
    figure is known, of a normal one only when it pulls; `run` is the line of its face, None where
    it reads the plate at its point.
    """

    first: int
    second: int
    at: Vector
    direction: Vector
    stiffness: float
    pushes_only: bool
    play_mm: float
    strength_n: float | None
    carries: Carries
    joining: int | None
    is_normal: bool = False
    run: Run | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One of the two parts of a joint: its body's index, its place, and its wood."""

    body: int
    placed: Placed
    wood: Stiffness
    species: Species

    def modulus(self, direction: Vector) -> float:
        """Its stiffness along a direction of the piece [MPa], by the grain it lies nearest to."""
        along = abs(dot(self.placement_x, direction))
        return self.wood.along if along > 0.7 else self.wood.across

    def shear(self, normal: Vector, direction: Vector) -> float:
        """Its stiffness in shear along a direction, on a face with a normal [MPa].

        Fibres roll only where both lie across them.
        """
        along = max(abs(dot(self.placement_x, each)) for each in (normal, direction))
        return self.wood.shear * (1.0 if along > 0.7 else ROLLING_SHARE)

    def depth_mm(self, face: JointFace) -> float:
        """How deep a face presses this part [mm]: half through it, or its own lesser side."""
        least = min(face.run_mm, face.deep_mm)
        if abs(dot(self.placed.placement.z_axis, face.normal)) > 0.7:
            half = self.placed.part.blank.thickness_mm / 2.0
            return min(half, MOST_DEPTH * least)
        return least

    @property
    def placement_x(self) -> Vector:
        """The way of its grain in the piece."""
        return self.placed.placement.x_axis


def springs_of(joining: Joining, first: Side, second: Side, index: int) -> Iterator[Spring]:
    """Every spring of one joint; the incoming part is `first`.

    Args:
        joining: with its faces and fasteners
        first: the incoming part
        second: the part that it goes into
        index: the joint's place in the piece
    """
    for face in joining.faces:
        if face.glue is None:
            yield from _bare(face, first, second, index)
        else:
            yield from _glued(face, first, second, index)
    for fastener in joining.fasteners:
        yield from _fastened(fastener, first, second, index)


def _run(face: JointFace) -> Run:
    """The longer side of a face through its middle."""
    along = unit(face.along)
    if face.run_mm >= face.deep_mm:
        return Run(centre=face.centre, along=along, length_mm=face.run_mm)
    return Run(centre=face.centre, along=cross(face.normal, along), length_mm=face.deep_mm)


def _points(face: JointFace, shares: tuple[float, ...], deep: tuple[float, ...]) -> list[Vector]:
    """Points of a face, at shares of its half sides along it and across it [mm]."""
    along = unit(face.along)
    across = cross(face.normal, along)
    return [
        add(
            face.centre,
            add(scaled(along, u * face.run_mm / 2.0), scaled(across, v * face.deep_mm / 2.0)),
        )
        for u in shares
        for v in deep
    ]


def _pressed(face: JointFace, first: Side, second: Side, shear: Vector | None) -> float:
    """Stiffness of a face for each square millimetre [N/mm3]: both woods in a row."""
    soft = 0.0
    for side in (first, second):
        modulus = side.modulus(face.normal) if shear is None else side.shear(face.normal, shear)
        soft += side.depth_mm(face) / modulus
    return 1.0 / soft


def _bare(face: JointFace, first: Side, second: Side, index: int) -> Iterator[Spring]:
    # On the rim: with points inside, a hand on a lid's corner would tip it off its own rabbet.
    points = _points(face, (-1.0, 0.0, 1.0), (-1.0, 1.0))
    share = _pressed(face, first, second, None) * face.area_mm2 / len(points)
    for at in points:
        yield Spring(
            first=first.body,
            second=second.body,
            at=at,
            direction=scaled(face.normal, -1.0),
            stiffness=share,
            pushes_only=True,
            play_mm=face.play_mm if face.play_mm > TOUCHES_MM else 0.0,
            strength_n=None,
            carries=Carries.PUSH,
            joining=index,
            run=_run(face),
        )


def _glued(face: JointFace, first: Side, second: Side, index: int) -> Iterator[Spring]:
    assert face.glue is not None, "only glued faces come here"
    strength = glue_strength(face.glue, first.species, second.species)
    gauss = 1.0 / math.sqrt(3.0)
    points = _points(face, (-gauss, gauss), (-gauss, gauss))
    area = face.area_mm2 / len(points)
    one, other = axes_across(face.normal)
    for at in points:
        for direction, way, bears in (
            (scaled(face.normal, -1.0), None, strength.peel_mpa),
            (one, one, strength.shear_mpa),
            (other, other, strength.shear_mpa),
        ):
            yield Spring(
                first=first.body,
                second=second.body,
                at=at,
                direction=direction,
                stiffness=area * _pressed(face, first, second, way),
                pushes_only=False,
                play_mm=0.0,
                strength_n=None if math.isinf(bears) else area * bears,
                carries=strength.carries,
                joining=index,
                is_normal=way is None,
                run=_run(face),
            )


def _fastened(fastener: Fastener, first: Side, second: Side, index: int) -> Iterator[Spring]:
    """Across its axis by the rule for dowels and nails, along it by the wood that it drags.

    **Source:** EN 1995-1-1 Table 7.1, dowels and screws rho^1.5 d / 23, nails without pre-boring
    rho^1.5 d^0.8 / 30 (from memory), written for steel; for wooden dowels an own rule. Along the
    axis an own rule: a ring of wood of one diameter in shear, both ends in a row.
    """
    heavy = min(_density(first.species), _density(second.species))
    side = heavy**1.5 * fastener.diameter_mm / 23.0
    shear = min(first.wood.shear, second.wood.shear)
    ring = 2.0 * math.pi * shear / math.log(3.0)
    ends = [each for each in (fastener.incoming_mm, fastener.into_mm) if each > 0.0]
    along = 1.0 / sum(1.0 / (ring * each) for each in ends) if ends else 0.0
    for direction, stiffness, bears in (
        (scaled(fastener.axis, -1.0), along, fastener.pull_n),
        *((way, side, bears) for way, bears in sideways_of(fastener)),
    ):
        if bears == 0.0 or stiffness <= 0.0:
            continue
        is_pull = direction == scaled(fastener.axis, -1.0)
        yield Spring(
            first=first.body,
            second=second.body,
            at=fastener.at,
            direction=direction,
            stiffness=stiffness,
            pushes_only=False,
            play_mm=0.0,
            strength_n=bears,
            carries=pull_of(fastener) if is_pull else Carries.SIDE,
            joining=index,
            is_normal=is_pull,
        )


def _density(species: Species) -> float:
    if species.specific_gravity_12 is not None:
        return species.specific_gravity_12 * 1120.0
    return species.density_as_used_kg_m3 or 500.0
