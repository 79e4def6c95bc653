"""The piece as plates on the springs of its joints: what gives, what joints bear, what bends.

Forces in the springs and the six motions of every part are solved together; faces that would pull
and plays that have closed are found by trying until none changes. Only what the rigid layer says
is held comes here: soft springs would carry what in truth slides out.

**Source:** the flexibility method of structural mechanics (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from furniture.joints.joint import Joining
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, add, cross, scaled, subtract
from furniture.pieces import Piece
from furniture.structure.capacity import Carries
from furniture.structure.links import GROUND, Link
from furniture.structure.plate import Plate, plate_of, stiffness_of
from furniture.structure.rigid import Push
from furniture.structure.springs import SAMPLE_MM, Run, Side, Spring, springs_of

GROUND_STIFFNESS = 20000.0
"""Of a point on the floor [N/mm]: hard beside any wood."""
SOFT = 1e-3
"""A spring to the ground for every part's own motions [N/mm], so that a loose part is not lost."""
ROUNDS = 40
"""Most rounds of opening and closing faces; one or two are usual."""

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Elastic:
    """A piece ready to be loaded: its plates, its springs, and what they give under unit forces."""

    placed: tuple[Placed, ...]
    plates: tuple[Plate, ...]
    springs: tuple[Spring, ...]
    rows: tuple[dict[int, Floats], ...]
    given: tuple[Floats, ...]
    columns: tuple[NDArray[np.intp], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Bent:
    """A piece under a load: the force in every spring, and how every part has moved.

    `forces` are positive where the spring pushes or holds `first` along its direction [N].
    """

    elastic: Elastic
    forces: Floats
    motions: Floats
    displaced: tuple[Floats, ...]

    def moved(self, body: int, at: Vector, way: Vector) -> float:
        """How far a point of a part has moved along a direction, piece frame [mm]."""
        placed = self.elastic.placed[body]
        point, turned = placed.placement.to_part(at), placed.placement.direction_to_part(way)
        own = float(self.elastic.plates[body].row(point, turned) @ self.displaced[body])
        return own + float(_rigid(placed, at, way) @ self.motions[6 * body : 6 * body + 6])

    def stress(self, body: int, at: Vector) -> tuple[float, float]:
        """The greatest stress along and across the grain at a point of the piece [MPa]."""
        point = self.elastic.placed[body].placement.to_part(at)
        return self.elastic.plates[body].stresses(self.displaced[body], point)


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
    rows: list[dict[int, Floats]] = [{} for _ in plates]
    for index, spring in enumerate(springs):
        for body in (spring.first, spring.second):
            if body != GROUND:
                rows[body][index] = _row(plates[body], piece.placed[body], spring)
    given, columns = [], []
    for body, plate in enumerate(plates):
        order = np.array(sorted(rows[body]), dtype=np.intp)
        forces = np.array([rows[body][i] for i in order]).T.reshape(plate.size, order.size)
        given.append(plate.solve(forces))
        columns.append(order)
    return Elastic(piece.placed, plates, tuple(springs), tuple(rows), tuple(given), tuple(columns))


def bent_under(elastic: Elastic, pushes: Sequence[Push]) -> Bent | None:
    """The piece under these loads, or None where opening and closing faces finds no end."""
    count, bodies = len(elastic.springs), len(elastic.plates)
    flexible = np.zeros((count, count))
    start = np.zeros(count)
    loaded = []
    whole = np.zeros((count, 6 * bodies))
    for body, placed in enumerate(elastic.placed):
        order = elastic.columns[body]
        signs = np.array([_sign(elastic.springs[i], body) for i in order])
        rows = np.array([elastic.rows[body][i] for i in order]).reshape(order.size, -1)
        block = signs[:, None] * (rows @ elastic.given[body]) * signs
        flexible[np.ix_(order, order)] += block
        force = _force(elastic.plates[body], placed, body, pushes)
        loaded.append(elastic.plates[body].solve(force))
        start[order] += signs * (rows @ loaded[-1])
        for sign, index in zip(signs, order, strict=True):
            spring = elastic.springs[index]
            whole[index, 6 * body : 6 * body + 6] = sign * _rigid(
                placed, spring.at, spring.direction
            )
    pulls = np.zeros(6 * bodies)
    for push in pushes:
        if push.body != GROUND:
            part = slice(6 * push.body, 6 * push.body + 6)
            pulls[part] += _rigid(elastic.placed[push.body], push.at, push.force_n)
    flexible[np.arange(count), np.arange(count)] += [
        1.0 / each.stiffness for each in elastic.springs
    ]
    solved = _contact(elastic.springs, flexible, whole, start, pulls)
    if solved is None:
        return None
    forces, motions = solved
    displaced = []
    for body in range(bodies):
        order = elastic.columns[body]
        signs = np.array([_sign(elastic.springs[i], body) for i in order])
        displaced.append(elastic.given[body] @ (signs * forces[order]) + loaded[body])
    return Bent(elastic, forces, motions, tuple(displaced))


def _contact(
    springs: Sequence[Spring], flexible: Floats, whole: Floats, start: Floats, pulls: Floats
) -> tuple[Floats, Floats] | None:
    """Which pushing faces act: opened where they would pull, closed where they would overlap."""
    plays = np.array([each.play_mm for each in springs])
    pushes_only = np.array([each.pushes_only for each in springs])
    active = ~(pushes_only & (plays > 0.0))
    bodies = whole.shape[1]
    seen: set[bytes] = set()
    for _ in range(ROUNDS):
        chosen = np.flatnonzero(active)
        matrix = np.zeros((chosen.size + bodies, chosen.size + bodies))
        matrix[: chosen.size, : chosen.size] = flexible[np.ix_(chosen, chosen)]
        matrix[: chosen.size, chosen.size :] = whole[chosen]
        matrix[chosen.size :, : chosen.size] = whole[chosen].T
        matrix[chosen.size :, chosen.size :] = -SOFT * np.eye(bodies)
        right = np.concatenate([-start[chosen] - plays[chosen], -pulls])
        answer = np.linalg.solve(matrix, right)
        forces = np.zeros(len(springs))
        forces[chosen] = answer[: chosen.size]
        motions = answer[chosen.size :]
        apart = flexible @ forces + whole @ motions + start + plays
        scale = max(1.0, float(np.abs(pulls).max(initial=0.0)))
        opened = active & pushes_only & (forces < -1e-9 * scale)
        closed = ~active & (apart < -1e-9)
        if not opened.any() and not closed.any():
            return forces, motions
        state = active.tobytes()
        if state in seen:  # flip the worst one alone, so that no two take turns for ever
            opened, closed = _worst(opened, closed, forces, apart)
        seen.add(state)
        active = (active & ~opened) | closed
    return None


def _worst(
    opened: NDArray[np.bool_], closed: NDArray[np.bool_], forces: Floats, apart: Floats
) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    alone = np.zeros_like(opened)
    if opened.any():
        alone[int(np.argmin(np.where(opened, forces, np.inf)))] = True
        return alone, np.zeros_like(closed)
    alone[int(np.argmin(np.where(closed, apart, np.inf)))] = True
    return np.zeros_like(opened), alone


def _sign(spring: Spring, body: int) -> float:
    return 1.0 if spring.first == body else -1.0


def without_glue(joining: Joining) -> Joining:
    """A joint whose glue has let go: its faces only push, and glued fasteners no longer pull."""
    return replace(
        joining,
        faces=tuple(replace(face, glue=None) for face in joining.faces),
        fasteners=tuple(
            replace(each, pull_n=0.0) if each.is_glued else each for each in joining.fasteners
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


def _row(plate: Plate, placed: Placed, spring: Spring) -> Floats:
    """A spring's own row in a plate: at its point, or by the line fitted along its face."""
    turned = placed.placement.direction_to_part(spring.direction)
    if spring.run is None or spring.run.length_mm <= SAMPLE_MM:
        return plate.row(placed.placement.to_part(spring.at), turned)
    return _fitted(plate, placed, spring.at, turned, spring.run)


def _fitted(plate: Plate, placed: Placed, at: Vector, turned: Vector, run: Run) -> Floats:
    """The straight line that fits the plate along a face, read at a point of it."""
    count = max(3, round(run.length_mm / SAMPLE_MM) + 1)
    places = np.linspace(-run.length_mm / 2.0, run.length_mm / 2.0, count)
    here = float(np.dot(subtract(at, run.centre), run.along))
    spread = float(places @ places)
    weights = 1.0 / count + here * places / spread
    row = np.zeros(plate.size)
    for place, weight in zip(places, weights, strict=True):
        point = add(at, scaled(run.along, float(place) - here))
        row += weight * plate.row(placed.placement.to_part(point), turned)
    return row


def _force(plate: Plate, placed: Placed, body: int, pushes: Sequence[Push]) -> Floats:
    force = np.zeros(plate.size)
    for push in pushes:
        if push.body == body:
            point = placed.placement.to_part(push.at)
            force += plate.row(point, placed.placement.direction_to_part(push.force_n))
    return force
