"""The piece as plates on the springs of its joints: what gives, what joints bear, what bends.

Forces in the springs and the six motions of every part are solved together; faces that would pull
and plays that have closed are found by trying until none changes. Only what the rigid layer says
is held comes here: soft springs would carry what in truth slides out.

**Source:** the flexibility method of structural mechanics (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import lu_factor, lu_solve

from furniture.joints.joint import GrainRelation, Joining
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, add, cross, scaled, subtract
from furniture.pieces import Piece
from furniture.structure.capacity import Carries
from furniture.structure.links import GROUND, Link
from furniture.structure.plate import PER_NODE, Plate, plate_of, stiffness_of
from furniture.structure.rigid import Push
from furniture.structure.springs import SAMPLE_MM, Side, Spring, springs_of

GROUND_STIFFNESS = 1e6
"""Of a point on the floor [N/mm]: hard beside any wood."""
SOFT = 1e-2
"""A spring to the ground for every part's own motions [N/mm], so that a loose part is not lost."""
ROUNDS = 40
"""Most rounds of opening and closing faces; one or two are usual."""

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Member:
    """A part among its springs: which they are, with which sign, as rows and as what they give.

    `rows` are the plate's displacements at the springs along them, `given` its unknowns under a
    unit force in each.
    """

    springs: NDArray[np.intp]
    signs: Floats
    rows: Floats
    given: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Elastic:
    """A piece ready to be loaded: its plates, its springs, and what they give under unit forces.

    `flexible` is how far springs move apart by unit forces in each other, `whole` by unit motions
    of every part.
    """

    placed: tuple[Placed, ...]
    plates: tuple[Plate, ...]
    springs: tuple[Spring, ...]
    members: tuple[Member, ...]
    flexible: Floats
    whole: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Bent:
    """A piece under a load: the force in every spring, and how every part has moved.

    `forces` are positive where the spring pushes or holds `first` along its direction [N];
    `acting` says which of the springs that only push do so.
    """

    elastic: Elastic
    forces: Floats
    motions: Floats
    displaced: tuple[Floats, ...]
    acting: NDArray[np.bool_]

    def moved(self, body: int, at: Vector, way: Vector) -> float:
        """How far a point of a part has moved along a direction, piece frame [mm]."""
        placed = self.elastic.placed[body]
        point, turned = placed.placement.to_part(at), placed.placement.direction_to_part(way)
        own = float(self.elastic.plates[body].row(point, turned) @ self.displaced[body])
        return own + float(_rigid(placed, at, way) @ self.motions[6 * body : 6 * body + 6])

    def nodes(self, body: int) -> tuple[Floats, Floats, Floats]:
        """A part's nodes, how far each has moved and its stresses along and across the grain.

        n x 3 in the piece's frame [mm], n x 3 [mm] and n x 2 [MPa].
        """
        placed, plate = self.elastic.placed[body], self.elastic.plates[body]
        axes = np.array(placed.placement.axes)
        nodes = plate.nodes()
        arms = nodes @ axes
        own = self.displaced[body].reshape(-1, PER_NODE)[:, :3] @ axes
        motion = self.motions[6 * body : 6 * body + 6]
        moved = own + motion[:3] + np.cross(motion[3:], arms)
        stresses = plate.stresses_at(self.displaced[body], nodes[:, :2])
        return arms + np.array(placed.placement.origin), moved, stresses


def elastic_of(piece: Piece, ground: Sequence[Link], joinings: Sequence[Joining]) -> Elastic | None:
    """The piece as plates and springs, or None where a wood's stiffness is not known.

    Args:
        piece: as cut, with its joinings
        ground: what the floor or the hands do, of the same bodies
        joinings: its joints, as glued or `without_glue`
    """
    sides = []
    for body, placed in enumerate(piece.placed):
        species = placed.part.timber.species
        wood = stiffness_of(species)
        if wood is None:
            return None
        sides.append(Side(body=body, placed=placed, wood=wood, species=species))
    names = [each.instance for each in piece.placed]
    springs: list[Spring] = []
    for index, joining in enumerate(joinings):
        first, second = sides[names.index(joining.incoming)], sides[names.index(joining.into)]
        springs += springs_of(joining, first, second, index)
    springs += [_grounded(link) for link in ground]
    plates = tuple(plate_of(each.placed.part.blank, each.wood) for each in sides)
    members = tuple(
        _member(plates[body], placed, body, springs) for body, placed in enumerate(piece.placed)
    )
    count, bodies = len(springs), len(plates)
    flexible, whole = np.zeros((count, count)), np.zeros((count, 6 * bodies))
    for body, member in enumerate(members):
        pressed = member.signs[:, None] * (member.rows @ member.given) * member.signs
        flexible[np.ix_(member.springs, member.springs)] += pressed
        for sign, index in zip(member.signs, member.springs, strict=True):
            spring = springs[index]
            part = slice(6 * body, 6 * body + 6)
            whole[index, part] = sign * _rigid(piece.placed[body], spring.at, spring.direction)
    flexible[np.arange(count), np.arange(count)] += [1.0 / each.stiffness for each in springs]
    return Elastic(piece.placed, plates, tuple(springs), members, flexible, whole)


def bent_under(elastic: Elastic, loads: Sequence[Sequence[Push]]) -> list[Bent | None]:
    """The piece under each of several loads; None where opening and closing faces finds no end.

    Each begins with the faces that acted in the one before, since like loads use like faces.
    """
    core = _core(elastic)
    acting = core.plays == 0.0
    found = []
    for pushes in loads:
        bent = _bent(elastic, core, pushes, acting)
        if bent is not None:
            acting = bent.acting
        found.append(bent)
    return found


@dataclass(frozen=True, slots=True, eq=False)
class _Core:
    """All that always acts, solved once: springs that hold both ways and the parts' own motions.

    `bare` are the springs that only push. `soft` is how far these move apart by unit forces in
    each other while all else follows, `follows` what all else does.
    """

    both: NDArray[np.intp]
    bare: NDArray[np.intp]
    plays: Floats
    factor: tuple[Floats, NDArray[np.int32]]
    coupled: Floats
    follows: Floats
    soft: Floats


@lru_cache(maxsize=2)  # as glued and dry: many loads are asked of each, in several calls
def _core(elastic: Elastic) -> _Core:
    pushes_only = np.array([each.pushes_only for each in elastic.springs])
    both, bare = np.flatnonzero(~pushes_only), np.flatnonzero(pushes_only)
    count, bodies = both.size, elastic.whole.shape[1]
    matrix = np.zeros((count + bodies, count + bodies))
    matrix[:count, :count] = elastic.flexible[np.ix_(both, both)]
    matrix[:count, count:] = elastic.whole[both]
    matrix[count:, :count] = elastic.whole[both].T
    matrix[count:, count:] = -SOFT * np.eye(bodies)
    factor = lu_factor(matrix)
    coupled = np.vstack([elastic.flexible[np.ix_(both, bare)], elastic.whole[bare].T])
    follows = lu_solve(factor, coupled)
    return _Core(
        both=both,
        bare=bare,
        plays=np.array([elastic.springs[i].play_mm for i in bare]),
        factor=factor,
        coupled=coupled,
        follows=follows,
        soft=elastic.flexible[np.ix_(bare, bare)] - coupled.T @ follows,
    )


def _bent(
    elastic: Elastic, core: _Core, pushes: Sequence[Push], acting: NDArray[np.bool_]
) -> Bent | None:
    start = np.zeros(len(elastic.springs))
    pulls = np.zeros(elastic.whole.shape[1])
    loaded = []
    for body, placed in enumerate(elastic.placed):
        plate, member = elastic.plates[body], elastic.members[body]
        own = [push for push in pushes if push.body == body]
        given = plate.solve(_force(plate, placed, own))
        loaded.append(given)
        start[member.springs] += member.signs * (member.rows @ given)
        for push in own:
            pulls[6 * body : 6 * body + 6] += _rigid(placed, push.at, push.force_n)
    alone = lu_solve(core.factor, np.concatenate([-start[core.both], -pulls]))
    gaps = -start[core.bare] - core.plays - core.coupled.T @ alone
    solved = _contact(core, gaps, acting)
    if solved is None:
        return None
    pressed, acted = solved
    rest = alone - core.follows @ pressed
    forces = np.zeros(len(elastic.springs))
    forces[core.bare], forces[core.both] = pressed, rest[: core.both.size]
    displaced = tuple(
        member.given @ (member.signs * forces[member.springs]) + given
        for member, given in zip(elastic.members, loaded, strict=True)
    )
    return Bent(elastic, forces, rest[core.both.size :], displaced, acted)


def _contact(
    core: _Core, gaps: Floats, active: NDArray[np.bool_]
) -> tuple[Floats, NDArray[np.bool_]] | None:
    """Which bare faces act: opened where they would pull, closed where they would overlap."""
    scale = max(1e-9, float(np.abs(gaps).max(initial=0.0)))
    seen: set[bytes] = set()
    for _ in range(ROUNDS):
        chosen = np.flatnonzero(active)
        forces = np.zeros(gaps.size)
        if chosen.size:
            forces[chosen] = np.linalg.solve(core.soft[np.ix_(chosen, chosen)], gaps[chosen])
        apart = core.soft @ forces - gaps
        most = max(1.0, float(forces.max(initial=0.0)))
        opened = active & (forces < -1e-9 * most)
        closed = ~active & (apart < -1e-9 * scale)
        if not opened.any() and not closed.any():
            return forces, active
        state = active.tobytes()
        if state in seen:  # flip the worst one alone, so that no two take turns for ever
            opened, closed = _worst(opened, closed, forces, apart)
        seen.add(state)
        active = (active & ~opened) | closed
    return None


def _member(plate: Plate, placed: Placed, body: int, springs: Sequence[Spring]) -> Member:
    own = [i for i, spring in enumerate(springs) if body in (spring.first, spring.second)]
    rows = _rows(plate, placed, [springs[i] for i in own])
    return Member(
        springs=np.array(own, dtype=np.intp),
        signs=np.array([1.0 if springs[i].first == body else -1.0 for i in own]),
        rows=rows,
        given=plate.solve(rows.T),
    )


def _worst(
    opened: NDArray[np.bool_], closed: NDArray[np.bool_], forces: Floats, apart: Floats
) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    alone = np.zeros_like(opened)
    if opened.any():
        alone[int(np.argmin(np.where(opened, forces, np.inf)))] = True
        return alone, np.zeros_like(closed)
    alone[int(np.argmin(np.where(closed, apart, np.inf)))] = True
    return np.zeros_like(opened), alone


def without_glue(joining: Joining) -> Joining:
    """A joint whose glue has let go: its faces only push, and glued fasteners no longer pull."""
    return replace(
        joining,
        faces=tuple(replace(face, glue=None) for face in joining.faces),
        fasteners=tuple(
            replace(each, pull_n=0.0) if each.is_glued else each for each in joining.fasteners
        ),
    )


def without_end_grain(joining: Joining) -> Joining:
    """A joint whose glue on end grain has let go: those faces only push, all else is as it was."""
    ends = (GrainRelation.LONG_TO_END, GrainRelation.END_TO_END)
    return replace(
        joining,
        faces=tuple(
            replace(face, glue=None) if face.glue in ends else face for face in joining.faces
        ),
    )


def _grounded(link: Link) -> Spring:
    return Spring(
        first=link.first,
        second=GROUND,
        at=link.at,
        direction=link.direction,
        stiffness=GROUND_STIFFNESS,
        pushes_only=link.least_n >= 0.0,
        play_mm=0.0,
        strength_n=None,
        carries=Carries.PUSH,
        joining=None,
    )


def _rigid(placed: Placed, at: Vector, way: Vector) -> Floats:
    """How the six motions of a whole part move a point along a direction; about its origin."""
    arm = subtract(at, placed.placement.origin)
    return np.array([*way, *cross(arm, way)])


def _rows(plate: Plate, placed: Placed, springs: Sequence[Spring]) -> Floats:
    """Every spring's own row in a plate: at its point, or by the line fitted along its face."""
    points: list[Vector] = []
    ways: list[Vector] = []
    weights: list[float] = []
    starts: list[int] = []
    for spring in springs:
        starts.append(len(points))
        turned = placed.placement.direction_to_part(spring.direction)
        for at, weight in _read_at(spring):
            points.append(placed.placement.to_part(at))
            ways.append(turned)
            weights.append(weight)
    if not points:
        return np.zeros((0, plate.size))
    rows = plate.rows(np.array(points), np.array(ways)) * np.array(weights)[:, None]
    return np.asarray(np.add.reduceat(rows, starts, axis=0), dtype=np.float64)


def _read_at(spring: Spring) -> list[tuple[Vector, float]]:
    """Where a spring reads a plate, with weights: those of the straight line through its face."""
    run = spring.run
    if run is None or run.length_mm <= SAMPLE_MM:
        return [(spring.at, 1.0)]
    count = max(3, round(run.length_mm / SAMPLE_MM) + 1)
    places = np.linspace(-run.length_mm / 2.0, run.length_mm / 2.0, count)
    here = float(np.dot(subtract(spring.at, run.centre), run.along))
    weights = 1.0 / count + here * places / float(places @ places)
    return [
        (add(spring.at, scaled(run.along, float(place) - here)), float(weight))
        for place, weight in zip(places, weights, strict=True)
    ]


def _force(plate: Plate, placed: Placed, pushes: Sequence[Push]) -> Floats:
    if not pushes:
        return np.zeros(plate.size)
    points = np.array([placed.placement.to_part(push.at) for push in pushes])
    ways = np.array([placed.placement.direction_to_part(push.force_n) for push in pushes])
    return np.asarray(plate.rows(points, ways).sum(axis=0))
