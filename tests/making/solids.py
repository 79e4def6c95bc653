"""The parts where they stand in the piece, from its record alone: what meets what, and where."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from manifold3d import Manifold

from furniture.joints.joint import Role
from furniture.making.glue_ups import Levelling
from furniture.making.operations import Axis, CutOf
from furniture.parts.cuts import InSlope, Slope
from furniture.parts.faces import ENDS
from furniture.pieces import Piece
from tests.making.plane_room import swept_by_a_plane
from tests.making.targets import Target

COMMON_MM3 = 1.0
"""Common volume that counts as none: facets, and a hair of a slip fit."""
_SAME_MM = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """Parts in the piece's frame, and what can be told of them whatever the order of the work.

    Args:
        solids: of the instances, as cut.
        matrices: from the frame of each part into the piece's.
        sizes: of each part [mm].
        tongues: by cut that is square in a slope, the instances that lie in it.
        mates: by cut, the instances whose thickness lies in it from wall to wall.
        mitred_at_both_ends: instances.
        loose_panels: instances that no glue holds, each with the parts that it lies in.
        joined_to: by instance, what it is joined to.
        glued_pairs: instances that glue joins.
        end_grain_pairs: those of them where end grain is glued.
    """

    solids: Mapping[str, Manifold]
    matrices: Mapping[str, np.ndarray]
    sizes: Mapping[str, tuple[float, float, float]]
    tongues: Mapping[CutOf, tuple[str, ...]]
    mates: Mapping[CutOf, tuple[str, ...]]
    mitred_at_both_ends: tuple[str, ...]
    loose_panels: Mapping[str, frozenset[str]]
    joined_to: Mapping[str, frozenset[str]]
    glued_pairs: frozenset[tuple[str, str]]
    end_grain_pairs: frozenset[tuple[str, str]]

    def span(self, name: str, axis: int) -> tuple[float, float]:
        """From where to where a part reaches along an axis of the piece [mm]."""
        box = self.solids[name].bounding_box()
        return float(box[axis]), float(box[axis + 3])

    def size_along(self, name: str, axis: int) -> Axis:
        """Which size of a part lies along an axis of the piece."""
        return tuple(Axis)[int(np.argmax(np.abs(self.matrices[name][axis, :3])))]

    def in_a_planes_way(self, face: Levelling, others: Iterable[str]) -> list[str]:
        """Which of the others stand where a plane is swept over a face."""
        swept = swept_by_a_plane(*self._box(face.instance), face.side)
        return [name for name in others if (swept ^ self.solids[name]).volume() > COMMON_MM3]

    def _box(self, name: str) -> tuple[np.ndarray, np.ndarray]:
        """The box round the squared part before its cuts."""
        matrix = self.matrices[name]
        far = matrix[:, 3] + matrix[:, :3] @ np.array(self.sizes[name])
        return np.minimum(matrix[:, 3], far), np.maximum(matrix[:, 3], far)


def placed_of(piece: Piece, target: Target) -> Placed:
    """The parts of a piece where they stand."""
    matrices = {
        each.instance: np.column_stack(
            [
                each.placement.x_axis, each.placement.y_axis, each.placement.z_axis,
                each.placement.origin,
            ]
        )
        for each in piece.placed
    }  # fmt: skip
    solids = {name: solid.transform(matrices[name]) for name, solid in target.parts.items()}
    glued = {
        (each.into, each.incoming): [face.glue.value for face in each.faces if face.glue]
        for each in piece.joinings
        if any(face.glue for face in each.faces)
    }
    joined: dict[str, set[str]] = {each.instance: set() for each in piece.placed}
    for each in piece.joinings:
        joined[each.into].add(each.incoming)
        joined[each.incoming].add(each.into)
    return Placed(
        solids=solids,
        matrices=matrices,
        sizes={each.instance: each.part.blank.size for each in piece.placed},
        tongues=_tongues(piece, target, matrices, solids),
        mates=_mates(piece, target, matrices, solids),
        mitred_at_both_ends=tuple(
            each.instance for each in piece.placed if _mitred(each.part) == set(ENDS)
        ),
        loose_panels=_loose(piece),
        joined_to={name: frozenset(others) for name, others in joined.items()},
        glued_pairs=frozenset(glued),
        end_grain_pairs=frozenset(
            pair for pair, grains in glued.items() if any("end grain" in each for each in grains)
        ),
    )


def _mitred(part: Any) -> set[object]:
    shapes = (cut.shape(part.blank) for cut in part.cuts)
    return {each.face for each in shapes if isinstance(each, Slope)}


def _loose(piece: Piece) -> dict[str, frozenset[str]]:
    """What goes into two parts or more, is glued into none and hung on none.

    What is only screwed on lies in no opening: all that it meets looks one way.
    """
    found: dict[str, list[Any]] = {}
    for each in piece.joinings:
        found.setdefault(each.incoming, []).append(each)
    return {
        name: frozenset(each.into for each in all_of_it)
        for name, all_of_it in found.items()
        if len(all_of_it) > 1
        and len({_way(face) for each in all_of_it for face in each.faces}) > 1
        and not any(each.role is Role.HINGE for each in all_of_it)
        and not any(face.glue for each in all_of_it for face in each.faces)
        and not any(fastener.is_glued for each in all_of_it for fastener in each.fasteners)
    }


def _way(face: Any) -> tuple[float, ...]:
    return tuple(round(each, 3) + 0.0 for each in face.normal)


def _tongues(
    piece: Piece, target: Target, matrices: Mapping[str, np.ndarray], solids: Mapping[str, Manifold]
) -> dict[CutOf, tuple[str, ...]]:
    """What lies in each cut that is square in a slope: its wood fills some of it."""
    found = {}
    for placed in piece.placed:
        for index, cut in enumerate(placed.part.cuts):
            if not isinstance(cut.shape(placed.part.blank), InSlope):
                continue
            void = target.tool(CutOf(placed.instance, index)).transform(matrices[placed.instance])
            found[CutOf(placed.instance, index)] = tuple(
                name
                for name, solid in solids.items()
                if name != placed.instance and float((void ^ solid).volume()) > COMMON_MM3
            )
    return found


def _mates(
    piece: Piece, target: Target, matrices: Mapping[str, np.ndarray], solids: Mapping[str, Manifold]
) -> dict[CutOf, tuple[str, ...]]:
    """What lies in each cut with its thickness between the walls: solids and boxes tell."""
    found = {}
    for placed in piece.placed:
        for index in range(len(placed.part.cuts)):
            cut = CutOf(placed.instance, index)
            void = target.tool(cut) ^ Manifold.cube(placed.part.blank.size)
            there = void.transform(matrices[placed.instance])
            found[cut] = tuple(
                name
                for name in solids
                if name != placed.instance and _lies_in(there, solids[name], matrices[name])
            )
    return found


def _lies_in(void: Manifold, solid: Manifold, matrix: np.ndarray) -> bool:
    """Whether the thickness of a part fills what a cut has taken, less a fit."""
    a, b = np.array(void.bounding_box()), np.array(solid.bounding_box())
    if not ((a[:3] < b[3:] - _SAME_MM).all() and (b[:3] < a[3:] - _SAME_MM).all()):
        return False
    axis = int(np.argmax(np.abs(matrix[:, 2])))
    is_between = a[axis] <= b[axis] + _SAME_MM and b[axis + 3] <= a[axis + 3] + _SAME_MM
    return bool(is_between) and float((void ^ solid).volume()) > COMMON_MM3
