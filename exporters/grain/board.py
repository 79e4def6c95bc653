"""A board of the cutting plan as wood: sawn from a log of its own, with what was measured on it.

A measured knot is a branch of the log that comes out where it was found; pale wood, stains and
checks lie where the maker drew them. What nobody measured is drawn by chance from the board's name.
"""

from __future__ import annotations

import math
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from exporters.grain.log import Bed, Knot, bed_of, figures_of, rings_of
from exporters.grain.looks import Look, look_of
from exporters.grain.wood import Colours, Points
from furniture.shop.cutting.values import Board, Zone, ZoneKind, ZoneShows
from furniture.timber.movement import Sawn
from furniture.timber.species import Species

_ALL_HEART_MM = 1e6
_BRANCH_GROWTH = 0.05
_LAYER_MM = 1.4
_LAYER_DARKER = 0.90
"""How much darker a layer of plywood looks whose grain runs at the eye. Own choice by eye."""
_SOFT_MM = {ZoneKind.SAPWOOD: 5.0, ZoneKind.STAIN: 14.0, ZoneKind.WANE: 3.0, ZoneKind.PITH: 2.0,
            ZoneKind.FIGURE: 40.0}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardWood:
    """Wood of one board; answers as `Wood` does.

    Args:
        look: of its species.
        bed: where it lay in the log.
        seed: of the log.
        size: length, width and thickness [mm].
        zones: what was measured on it.
        knots: branches of the log.
    """

    look: Look
    bed: Bed
    seed: int
    size: tuple[float, float, float]
    zones: tuple[Zone, ...] = ()
    knots: tuple[Knot, ...] = ()

    @property
    def told(self) -> str:
        """Nothing: its figure is drawn by chance."""
        return ""

    def colours(self, points: Points, dot_mm: float) -> Colours:
        """The colour at each point; see `Wood`."""
        if self.look.is_sheet:
            return self._of_layers(points, dot_mm)
        return self._marked(self._solid(points, dot_mm), points)

    def _solid(self, points: Points, dot_mm: float) -> Colours:
        from exporters.grain.kernel import paint

        look = self.look
        middle = (self.size[1] / 2, self.size[2] / 2)
        knots = np.array(
            [
                (each.x_mm, each.turn_rad, each.radius_mm, each.growth, each.from_mm, each.to_mm)
                for each in self.knots
            ]
        ).reshape(-1, 6)
        colour = np.array(look.colour)
        found: Colours = paint(
            np.ascontiguousarray(self.bed.into_log(points, middle)),
            figures_of(look, self.seed, _ALL_HEART_MM),
            rings_of(look.ring_mm, self.seed),
            knots,
            np.minimum(colour * 1.09, 1.0),
            colour**1.12 * np.array((0.74, 0.69, 0.63)),
            np.array(look.sap),
            max(dot_mm, 0.02),
        )
        return found

    def _of_layers(self, points: Points, dot_mm: float) -> Colours:
        """Plywood: each layer's grain crosses the next, and it was peeled, not sawn."""
        count = max(3, 2 * round(self.size[2] / _LAYER_MM / 2) + 1)
        layer = np.clip(points[:, 2] / self.size[2] * count, 0, count - 1e-6).astype(int)
        is_across = layer % 2 == 1
        turned = points.copy()
        turned[is_across, 0], turned[is_across, 1] = points[is_across, 1], points[is_across, 0]
        found = self._solid(turned, dot_mm)
        found[is_across] *= _LAYER_DARKER
        return found

    def _marked(self, found: Colours, points: Points) -> Colours:
        """What was measured on the board, over the wood."""
        for zone in self.zones:
            if zone.kind not in _PAINTS:
                continue
            share = _share(zone, points, self.size[2])
            where = share > 0.0
            if where.any():
                shown = share[where, None]
                found[where] += (_PAINTS[zone.kind](found[where], self.look) - found[where]) * shown
        return found


def _share(zone: Zone, points: Points, thickness_mm: float) -> NDArray[np.float64]:
    """How much of a zone shows at each point, 0 to 1: its edge is soft as such edges are."""
    soft = _SOFT_MM.get(zone.kind, 0.8)
    outline = shapely.Polygon(zone.outline)
    low_x, low_y, high_x, high_y = outline.bounds
    found = np.zeros(len(points))
    near = (
        (points[:, 0] > low_x - soft) & (points[:, 0] < high_x + soft)
        & (points[:, 1] > low_y - soft) & (points[:, 1] < high_y + soft)
    )  # fmt: skip
    if zone.shows is ZoneShows.UPPER:
        near &= points[:, 2] > thickness_mm / 2
    elif zone.shows is ZoneShows.LOWER:
        near &= points[:, 2] < thickness_mm / 2
    if not near.any():
        return found
    inside = points[near]
    ragged = 0.6 * soft * np.sin(inside[:, 0] / 23.0) * np.sin(inside[:, 0] / 7.3 + 1.0)
    marks = shapely.points(inside[:, 0], inside[:, 1] + ragged)
    depth = shapely.distance(outline.boundary, marks)
    depth = np.where(shapely.contains(outline, marks), depth, -depth)
    found[near] = np.clip(0.5 + depth / (2.0 * soft), 0.0, 1.0)
    return found


def _pale(under: Colours, look: Look) -> Colours:
    """Sapwood: the figure of the wood under it, in the sapwood's colour."""
    tone = under / np.maximum(np.array(look.colour), 0.05)
    return np.clip(np.array(look.sap) * np.clip(tone, 0.6, 1.15), 0.0, 1.0)


def _stained(under: Colours, look: Look) -> Colours:
    return under * 0.72 + np.array((0.05, 0.07, 0.10))


def _cracked(under: Colours, look: Look) -> Colours:
    return under * 0.25


def _with_bark(under: Colours, look: Look) -> Colours:
    return under * 0.35 + np.array((0.10, 0.07, 0.05))


def _paler(under: Colours, look: Look) -> Colours:
    return under + (1.0 - under) * 0.10


_PAINTS = {
    ZoneKind.SAPWOOD: _pale,
    ZoneKind.STAIN: _stained,
    ZoneKind.CHECK: _cracked,
    ZoneKind.HOLE: _cracked,
    ZoneKind.WANE: _with_bark,
    ZoneKind.PITH: _cracked,
    ZoneKind.FIGURE: _paler,
}


def wood_of_board(board: Board, species: Species, sawn: Sawn = Sawn.UNKNOWN) -> BoardWood:
    """The wood of a measured board.

    Args:
        board: as it lies.
        species: of its stock.
        sawn: how the rings lie in its end.
    """
    size = (board.length_mm, board.greatest_width_mm, board.thickness_mm)
    wood = wood_of_stock(f"{board.name}|{board.species}", species, size, sawn)
    branches = tuple(_branches(board, wood))
    return BoardWood(
        look=wood.look, bed=wood.bed, seed=wood.seed, size=size, zones=board.zones, knots=branches
    )


def wood_of_stock(
    name: str, species: Species, size: tuple[float, float, float], sawn: Sawn = Sawn.UNKNOWN
) -> BoardWood:
    """The wood of a blank that nobody has measured, drawn by chance from its name.

    Args:
        name: seeds it.
        species: of its stock.
        size: length, width and thickness [mm].
        sawn: how the rings lie in its end.
    """
    seed = zlib.crc32(name.encode())
    return BoardWood(look=look_of(species), bed=bed_of(sawn, size[1], seed), seed=seed, size=size)


def _branches(board: Board, wood: BoardWood) -> Iterator[Knot]:
    """The measured knots as branches that come out where they were found."""
    from exporters.grain.kernel import LOBES, WANDER, astray

    middle = (wood.size[1] / 2, wood.size[2] / 2)
    for zone in board.zones:
        if zone.kind is not ZoneKind.KNOT:
            continue
        low_x, low_y, high_x, high_y = shapely.Polygon(zone.outline).bounds
        centre = np.array([[(low_x + high_x) / 2, (low_y + high_y) / 2, wood.size[2] / 2]])
        x, y, z = (float(value) for value in wood.bed.into_log(centre, middle)[0])
        figures = figures_of(wood.look, wood.seed, _ALL_HEART_MM)
        off_y, off_z = astray(x, figures[WANDER], figures[LOBES])
        y, z = y + off_y, z + off_z
        away = math.hypot(y, z)
        radius = max(2.0, 0.42 * math.sqrt((high_x - low_x) * (high_y - low_y)))
        reach = {ZoneShows.BOTH: 1e4, ZoneShows.UPPER: 1e4, ZoneShows.LOWER: away}
        yield Knot(
            x_mm=x - 0.25 * away,
            turn_rad=math.atan2(z, y),
            radius_mm=max(1.5, radius - _BRANCH_GROWTH * away),
            growth=_BRANCH_GROWTH,
            from_mm=away if zone.shows is ZoneShows.UPPER else 0.0,
            to_mm=reach[zone.shows],
        )


def dots_of(wood: Any, size: tuple[float, float, float], dot_mm: float) -> Colours:
    """A board's upper face as rows of dots, y up: (rows, columns, 3).

    Args:
        wood: a `Wood`.
        size: length, width and thickness of the board [mm].
        dot_mm: the side of a dot [mm].
    """
    columns, rows = max(1, round(size[0] / dot_mm)), max(1, round(size[1] / dot_mm))
    x = (np.arange(columns) + 0.5) * size[0] / columns
    y = (np.arange(rows)[::-1] + 0.5) * size[1] / rows
    across, up = np.meshgrid(x, y)
    points = np.column_stack((across.ravel(), up.ravel(), np.full(across.size, size[2] - 0.01)))
    found: Colours = wood.colours(points, dot_mm)
    return found.reshape(rows, columns, 3)
