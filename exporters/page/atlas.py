"""The wood of a part laid out flat: every face of its mesh in one picture, and where each lies."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from exporters.grain.in_wood import InWood
from exporters.scene.mesh import Mesh

_GUTTER = 2
_END_DARKER = 0.82
_QUALITY = 80


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Chart:
    """One face laid flat: its axes, its plane, and its corner in the picture [dots].

    Args:
        axis: of the part that it looks along most.
        low: least of its two other coordinates [mm].
        plane: height along `axis` as offset and two slopes.
        column: of its corner.
        row: of its corner.
        size: columns and rows.
    """

    axis: int
    low: NDArray[np.float64]
    plane: NDArray[np.float64]
    column: int
    row: int
    size: tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Atlas:
    """How a mesh lies in a picture: where each point is, 0 to 1 from the upper left.

    Args:
        charts: of its faces.
        places: (n, 2) of its points.
        width: of the picture [dots].
        height: of the picture [dots].
        per_mm: dots a millimetre.
    """

    charts: tuple[Chart, ...]
    places: NDArray[np.float64]
    width: int
    height: int
    per_mm: float


def area_of(mesh: Mesh) -> float:
    """How much picture a mesh needs at one dot a millimetre [dots]."""
    return float(sum((each[2] + 4).prod() for each in _faces(mesh)))


def atlas_of(mesh: Mesh, per_mm: float) -> Atlas:
    """The faces of a mesh packed into a picture, the tallest first, in shelves.

    Args:
        mesh: of a part.
        per_mm: dots a millimetre.
    """
    faces = _faces(mesh)
    sizes = [np.ceil(each[2] * per_mm).astype(int) + 1 + 2 * _GUTTER for each in faces]
    wide = max(
        int(max(size[0] for size in sizes)), round(1.1 * sum(s.prod() for s in sizes) ** 0.5)
    )
    places = np.zeros((len(mesh.points), 2))
    charts, column, row, shelf = [], 0, 0, 0
    order = sorted(range(len(faces)), key=lambda index: (-sizes[index][1], -sizes[index][0], index))
    for index in order:
        axis, low, _, plane, nodes = faces[index]
        size = sizes[index]
        if column + size[0] > wide:
            column, row, shelf = 0, row + shelf, 0
        flat = np.delete(mesh.points[nodes], axis, axis=1)
        places[nodes] = (flat - low) * per_mm + _GUTTER + 0.5 + np.array([column, row])
        charts.append(
            Chart(axis=axis, low=low, plane=plane, column=column, row=row,
                  size=(int(size[0]), int(size[1])))
        )  # fmt: skip
        column, shelf = column + int(size[0]), max(shelf, int(size[1]))
    high = row + shelf
    return Atlas(
        charts=tuple(charts), places=places / np.array([wide, high]), width=wide, height=high,
        per_mm=per_mm,
    )  # fmt: skip


def _faces(mesh: Mesh) -> Sequence[tuple[int, NDArray[np.float64], NDArray[np.float64],
                                         NDArray[np.float64], NDArray[np.int64]]]:  # fmt: skip
    """Axis, low corner, extent, plane and points of each face."""
    found = []
    for face in range(int(mesh.faces.max()) + 1):
        nodes = np.unique(mesh.triangles[mesh.faces == face])
        points = mesh.points[nodes]
        axis = int(np.argmax(np.abs(mesh.normals[nodes]).sum(axis=0)))
        flat = np.delete(points, axis, axis=1)
        # A curved face lies near a plane too: its wood is taken there, within its own rise.
        rows = np.column_stack((np.ones(len(flat)), flat))
        plane = np.linalg.lstsq(rows, points[:, axis], rcond=None)[0]
        found.append((axis, flat.min(axis=0), np.ptp(flat, axis=0), plane, nodes))
    return found


def picture_of(atlas: Atlas, wood: InWood, limits: tuple[float, float, float]) -> bytes:
    """The wood of every face as a JPEG; the gutter round each goes on in the same wood.

    Args:
        atlas: of the part's mesh.
        wood: that it is cut from.
        limits: the part's blank, which no wood is taken outside of [mm].
    """
    from PIL import Image

    dots = np.full((atlas.height, atlas.width, 3), 0.5)
    for chart in atlas.charts:
        columns, rows = chart.size
        u = chart.low[0] + (np.arange(columns) - _GUTTER) / atlas.per_mm
        v = chart.low[1] + (np.arange(rows) - _GUTTER) / atlas.per_mm
        across, down = np.meshgrid(u, v)
        deep = chart.plane[0] + chart.plane[1] * across + chart.plane[2] * down
        axes = [across.ravel(), down.ravel()]
        axes.insert(chart.axis, np.clip(deep.ravel(), 0.0, limits[chart.axis]))
        colours = wood.colours(np.column_stack(axes), 1.0 / atlas.per_mm)
        if chart.axis == 0:
            colours = colours * _END_DARKER
        dots[chart.row : chart.row + rows, chart.column : chart.column + columns] = colours.reshape(
            rows, columns, 3
        )
    memory = io.BytesIO()
    Image.fromarray(np.round(255.0 * np.clip(dots, 0.0, 1.0)).astype(np.uint8)).save(
        memory, "JPEG", quality=_QUALITY, optimize=True
    )
    return memory.getvalue()
