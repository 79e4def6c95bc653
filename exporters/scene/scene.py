"""The bodies of a piece where they stand, or moved apart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum

import numpy as np
from numpy.typing import NDArray

from exporters.colours import Colour, colour_of
from exporters.hardware import Stuff, Thing, Turned, things_of
from exporters.scene.mesh import Mesh, block, mesh_of, turned
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, add
from furniture.pieces.piece import Piece, Stance, StandingLoad, placed_named

_COLOURS: dict[Stuff, Colour] = {
    Stuff.STEEL: (0.62, 0.63, 0.65),
    Stuff.PEG: (0.78, 0.66, 0.48),
    Stuff.WEIGHT: (0.45, 0.47, 0.50),
}
_LOAD: Colour = (0.52, 0.60, 0.62)
_SIDES = 24
"""Of what is round. Own rule: smooth to the eye."""


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
    """Everything that is no part, where it stands; what stays in the wood is not drawn apart."""
    for thing in things_of(piece):
        stands = thing.apart(moved) if moved else thing
        if stands is None:
            continue
        form = stands.form
        yield Body(
            name=thing.name,
            sort=Sort.BALLAST if thing.stuff is Stuff.WEIGHT else Sort.HARDWARE,
            mesh=turned(np.array(form.rows), _SIDES) if isinstance(form, Turned)
            else block(form.size),
            axes=np.array(stands.axes),
            origin=np.array(stands.origin),
            colour=_colour(thing, piece),
        )  # fmt: skip


def _colour(thing: Thing, piece: Piece) -> Colour:
    if thing.of_part is not None:
        return colour_of(placed_named(piece, thing.of_part).part.timber)
    return _COLOURS[thing.stuff]


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
