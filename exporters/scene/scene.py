"""The bodies of a piece where they stand, or moved apart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum

import numpy as np
from numpy.typing import NDArray

from exporters.colours import Colour, colour_of
from exporters.scene.mesh import Mesh, block, mesh_of, turned
from furniture.joints.joint import Fastener, HoldBy, Metal, Section
from furniture.parts.cuts import Hole, shapes_of
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, add, scaled
from furniture.pieces.bought import Bought, merged
from furniture.pieces.piece import Piece, Stance, StandingLoad

_STEEL: Colour = (0.62, 0.63, 0.65)
_PEG: Colour = (0.78, 0.66, 0.48)
_BALLAST: Colour = (0.45, 0.47, 0.50)
_LOAD: Colour = (0.52, 0.60, 0.62)
_WOODEN = frozenset({HoldBy.DOWEL, HoldBy.PEG, HoldBy.WEDGE})
_CLOSE_MM = 1.0
"""A bore takes a thing closely that is no more than this thinner [mm]. Own rule."""
_HEAD = 2.0
"""How many times as wide as a screw its head is. Common practice, no source."""


class Sort(Enum):
    """What a body is in a picture."""

    PART = "part"
    HARDWARE = "hardware"
    BALLAST = "ballast"
    LOAD = "load"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Body:
    """One thing where it stands: its mesh, and its frame in the piece [mm].

    Args:
        name: instance, fastener or load.
        sort: what it is.
        mesh: in its own frame.
        axes: rows are its axes, piece frame.
        origin: of its frame, piece frame [mm].
        colour: where no wood is known for it.
        placed: the part; None for what is no part.
    """

    name: str
    sort: Sort
    mesh: Mesh
    axes: NDArray[np.float64]
    origin: NDArray[np.float64]
    colour: Colour
    placed: Placed | None = None

    @property
    def points(self) -> NDArray[np.float64]:
        """Its points in the piece frame [mm]."""
        found: NDArray[np.float64] = self.mesh.points @ self.axes + self.origin
        return found

    @property
    def normals(self) -> NDArray[np.float64]:
        """The normals at its points, piece frame."""
        found: NDArray[np.float64] = self.mesh.normals @ self.axes
        return found


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Scene:
    """Everything that is shown, and what it stands on or hangs at.

    Args:
        bodies: in the order of the piece, loads last.
        stance: whether a floor or a wall takes the shadow.
        ground_mm: height of the floor, or how far back the wall is [mm].
    """

    bodies: tuple[Body, ...]
    stance: Stance
    ground_mm: float

    def of(self, *sorts: Sort) -> tuple[Body, ...]:
        """The bodies of these sorts."""
        return tuple(each for each in self.bodies if each.sort in sorts)


def scene_of(
    piece: Piece, shifts: Mapping[str, Vector] | None = None, *, with_loads: bool = True
) -> Scene:
    """The bodies of a piece.

    Args:
        piece: what is shown.
        shifts: how far each instance is moved apart [mm]; none shows it together.
        with_loads: whether what stands on it is shown.

    Raises:
        SolidError: a part cannot be made.
        ValueError: the piece has no parts.
    """
    if not piece.placed:
        raise ValueError(f"{piece.name!r} has no parts to show")
    moved = dict(shifts or {})
    still: Vector = (0.0, 0.0, 0.0)
    parts = [
        Body(
            name=each.instance,
            sort=Sort.PART,
            mesh=mesh_of(each.part),
            axes=np.array(each.placement.axes),
            origin=np.array(add(each.placement.origin, moved.get(each.instance, still))),
            colour=colour_of(each.part.timber),
            placed=each,
        )
        for each in piece.placed
    ]
    bodies = (
        *parts,
        *_hardware(piece, moved),
        *(() if moved else _ballast(piece)),
        *(_loads(piece) if with_loads and not moved else ()),
    )
    solid = np.vstack([each.points for each in parts])
    is_wall = piece.stance is Stance.WALL
    return Scene(
        bodies=bodies,
        stance=piece.stance,
        ground_mm=float(solid[:, 1].max() if is_wall else solid[:, 2].min()),
    )


def _hardware(piece: Piece, moved: Mapping[str, Vector]) -> Iterator[Body]:
    """Every fastener along its axis, with the part that it goes in with."""
    still: Vector = (0.0, 0.0, 0.0)
    for joining in piece.joinings:
        seen = () if joining.metal else joining.fasteners
        for number, fastener in enumerate(seen, start=1):
            name = f"{fastener.name} {number}, {joining.incoming}"
            yield _fastener(name, fastener, moved.get(joining.incoming, still))
        for number, metal in enumerate(joining.metal, start=1):
            name = f"{metal.name} {number}, {joining.incoming}"
            yield _metal(name, metal, moved.get(metal.goes_with, still))
    for placed in piece.placed:
        for number, (hole, thing) in enumerate(_held(placed, piece), start=1):
            name = f"{thing.name} {number}, {placed.instance}"
            yield _in_bore(name, placed, hole, thing, moved.get(placed.instance, still))
    for anchor in piece.anchors:
        for number, fastener in enumerate(anchor.fasteners, start=1):
            name = f"{fastener.name} {number}, {anchor.instance}"
            yield _fastener(name, fastener, moved.get(anchor.instance, still))


def _held(placed: Placed, piece: Piece) -> Iterator[tuple[Hole, Bought]]:
    """What is bought for this part alone, in its bores, where as many bores take it closely."""
    holes = shapes_of(placed.part.cuts, placed.part.blank, Hole)
    for thing in merged(piece.fixings):
        if thing.where != (placed.instance,) or thing.diameter_mm is None:
            continue
        wide = thing.diameter_mm
        takes = [
            each for each in holes if each.is_round and 0.0 <= each.width_mm - wide <= _CLOSE_MM
        ]
        if len(takes) == thing.quantity and thing.length_mm is not None:
            yield from ((hole, thing) for hole in takes)


def _in_bore(name: str, placed: Placed, hole: Hole, thing: Bought, shift: Vector) -> Body:
    """A peg that stands out of its bore, or a screw whose head fills the bore's countersink."""
    radius, long = (thing.diameter_mm or 0.0) / 2, thing.length_mm or 0.0
    inwards = scaled(placed.placement.direction_to_piece(hole.face.normal), -1.0)
    mouth = add(placed.placement.to_piece(hole.centre), shift)
    is_sunk = hole.mouth_radius_mm > hole.radius_mm
    deep = hole.depth_mm or placed.part.blank.across(hole.face)
    if is_sunk:
        head = hole.mouth_radius_mm - 0.1
        rows = [(0.0, 0.1), (head, 0.1), (radius, head), (radius, 0.9 * long), (0.0, long)]
        start = mouth
    else:
        eased = min(1.0, 0.2 * radius)
        rows = [(0.0, 0.0), (radius - eased, 0.0), (radius, eased), (radius, long), (0.0, long)]
        start = add(mouth, scaled(inwards, -max(0.0, long - deep)))
    return Body(
        name=name,
        sort=Sort.HARDWARE,
        mesh=turned(np.array(rows), 28),
        axes=_frame_along(np.array(inwards)),
        origin=np.array(start),
        colour=_STEEL if is_sunk else colour_of(placed.part.timber),
    )


def _fastener(name: str, fastener: Fastener, shift: Vector) -> Body:
    radius, long = fastener.diameter_mm / 2, fastener.length_mm
    is_wooden = fastener.by in _WOODEN
    if is_wooden:
        rows = [(0.0, 0.0), (radius, 0.0), (radius, long), (0.0, long)]
    else:
        head = _HEAD * radius if fastener.by is HoldBy.SCREW else 1.4 * radius
        deep = min(0.4 * long, head)
        rows = [(0.0, 0.0), (head, 0.0), (radius, deep), (radius, 0.9 * long), (0.0, long)]
    start = add(add(fastener.at, scaled(fastener.axis, -fastener.incoming_mm)), shift)
    return Body(
        name=name,
        sort=Sort.HARDWARE,
        mesh=turned(np.array(rows), 20),
        axes=_frame_along(np.array(fastener.axis)),
        origin=np.array(start),
        colour=_PEG if is_wooden else _STEEL,
    )


def _metal(name: str, metal: Metal, shift: Vector) -> Body:
    """A barrel, or a leaf in its gain."""
    start = np.array(add(metal.start, shift))
    along = np.array(metal.end) - np.array(metal.start)
    long = float(np.linalg.norm(along))
    across = np.array(metal.across)
    axes = np.array([across, np.cross(along / long, across), along / long])
    wide, thick = metal.size_mm
    if metal.section is Section.ROUND:
        rows = np.array([(0.0, 0.0), (wide / 2, 0.0), (wide / 2, long), (0.0, long)])
        mesh, origin = turned(rows, 28), start
    else:
        mesh, origin = block((wide, thick, long)), start
    return Body(
        name=name, sort=Sort.HARDWARE, mesh=mesh, axes=axes, origin=origin, colour=_STEEL
    )  # fmt: skip


def _frame_along(axis: NDArray[np.float64]) -> NDArray[np.float64]:
    """Rows of a right-handed frame whose third axis is the one given."""
    other = np.eye(3)[int(np.argmin(np.abs(axis)))]
    first = np.cross(other, axis)
    first /= np.linalg.norm(first)
    return np.array([first, np.cross(axis, first), axis])


def _ballast(piece: Piece) -> Iterator[Body]:
    for each in piece.fixed:
        x, y, z = each.centre_mm
        yield Body(
            name=each.name,
            sort=Sort.BALLAST,
            mesh=block(each.size_mm),
            axes=np.eye(3),
            origin=np.array([x, y, z - each.size_mm[2] / 2]),
            colour=_BALLAST,
        )


def _loads(piece: Piece) -> Iterator[Body]:
    """What stands on the surfaces: each in its own place along its surface, left to right."""
    by_surface: dict[str, list[StandingLoad]] = {}
    for load in piece.loads:
        by_surface.setdefault(load.on, []).append(load)
    for surface in piece.surfaces:
        standing = by_surface.get(surface.instance, [])
        share = (surface.high[0] - surface.low[0]) / max(1, len(standing))
        for index, load in enumerate(standing):
            yield Body(
                name=load.name,
                sort=Sort.LOAD,
                mesh=_load_mesh(load),
                axes=np.eye(3),
                origin=np.array(
                    [
                        surface.low[0] + (index + 0.5) * share,
                        (surface.low[1] + surface.high[1]) / 2,
                        surface.top_mm + 0.05,
                    ]
                ),
                colour=_LOAD,
            )


def _load_mesh(load: StandingLoad) -> Mesh:
    """A round thing where its footprint is square, else a box; twice as high as its centre."""
    wide, deep = load.footprint_mm
    high = 2.0 * load.centre_height_mm
    if abs(wide - deep) > 0.01 * wide:
        return block((wide, deep, high))
    foot, rim = 0.36 * wide, 0.5 * wide
    return turned(
        np.array([(0.0, 0.0), (foot, 0.0), (rim, 0.9 * high), (rim, high), (0.0, high)]), 56
    )
