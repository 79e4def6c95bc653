"""Rebuilds a piece from its piece.json alone, with another geometry kernel (manifold3d).

Written from the meaning of the figures, not from the project's code: nothing of it is imported.
"""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import numpy as np
from manifold3d import CrossSection, Manifold

OVER = 5.0
SEGMENTS = 720


def load(path: Path) -> dict[str, Any]:
    """The summary as plain data."""
    return json.loads(path.read_text(encoding="utf-8"))


def rebuilt_parts(summary: dict[str, Any]) -> dict[str, Manifold]:
    """Every part's solid in its own frame, by id."""
    return {part["id"]: _part(part) for part in summary["parts"]}


def rebuilt_piece(summary: dict[str, Any]) -> dict[str, Manifold]:
    """Every instance's solid where it stands, by instance name."""
    parts = rebuilt_parts(summary)
    placed = {}
    for row in summary["placements"]:
        matrix = np.column_stack([row["x_axis"], row["y_axis"], row["z_axis"], row["origin_mm"]])
        placed[row["instance"]] = parts[row["part"]].transform(matrix)
    return placed


def centre_of(solid: Manifold) -> np.ndarray:
    """Centre of volume, by tetrahedra from the origin."""
    mesh = solid.to_mesh64()
    corners = np.asarray(mesh.vert_properties)[:, :3][np.asarray(mesh.tri_verts)]
    volumes = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) / 6
    return (volumes[:, None] * corners.sum(axis=1) / 4).sum(axis=0) / volumes.sum()


def _part(part: dict[str, Any]) -> Manifold:
    size = (part["length_mm"], part["width_mm"], part["thickness_mm"])
    solid = Manifold.cube(size)
    for cut in part["cuts"]:
        solid = solid - _TOOLS[cut["kind"]](cut, size)
    return solid


FACES = {
    "face side": (2, 1),
    "back side": (2, 0),
    "face edge": (1, 0),
    "back edge": (1, 1),
    "named end": (0, 0),
    "far end": (0, 1),
}


def _block(low: list[float], high: list[float]) -> Manifold:
    spans = [b - a for a, b in zip(low, high, strict=True)]
    return Manifold.cube(spans).translate(low)


def _sunk(face: str, size: Any, spans: dict[int, tuple[float, float]], depth: float) -> Manifold:
    """A block sunk into a face, run past open sides."""
    axis, far = FACES[face]
    low, high = [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]
    low[axis], high[axis] = (size[axis] - depth, size[axis] + OVER) if far else (-OVER, depth)
    for other, (start, end) in spans.items():
        low[other] = start - (OVER if start <= 1e-9 else 0.0)
        high[other] = end + (OVER if end >= size[other] - 1e-9 else 0.0)
    return _block(low, high)


def _square_ended(cut: dict[str, Any]) -> None:
    assert not cut.get("end_radius_mm"), "only square-ended trenches are rebuilt here"


def _dado(cut: dict[str, Any], size: Any) -> Manifold:
    _square_ended(cut)
    spans = {
        0: (cut["lower_shoulder_mm"], cut["lower_shoulder_mm"] + cut["width_mm"]),
        1: (cut["stop_from_face_edge_mm"], size[1] - cut["stop_from_back_edge_mm"]),
    }
    return _sunk(cut["face"], size, spans, cut["depth_mm"])


def _groove(cut: dict[str, Any], size: Any) -> Manifold:
    _square_ended(cut)
    run = (cut["stop_from_named_end_mm"], size[0] - cut["stop_from_far_end_mm"])
    axis, _ = FACES[cut["face"]]
    if axis == 2:
        across = {1: (cut["offset_mm"], cut["offset_mm"] + cut["width_mm"])}
    else:
        top = size[2] - cut["offset_mm"]
        across = {2: (top - cut["width_mm"], top)}
    return _sunk(cut["face"], size, {0: run, **across}, cut["depth_mm"])


def _rabbet(cut: dict[str, Any], size: Any) -> Manifold:
    axis, far = FACES[cut["edge"]]
    down = cut["down_from_edge_mm"]
    run = 1 - axis
    spans = {
        axis: (size[axis] - down, size[axis]) if far else (0.0, down),
        run: (cut["stop_at_low_mm"], size[run] - cut["stop_at_high_mm"]),
    }
    return _sunk(cut["face"], size, spans, cut["into_thickness_mm"])


def _sloped(size: Any, end: str, long_face: str, angle: float) -> Manifold:
    """All beyond a plane through the long point, leaning into the wood away from it."""
    run, run_far = FACES[end]
    rise, rise_far = FACES[long_face]
    normal = np.zeros(3)
    normal[run] = math.cos(math.radians(angle)) * (1 if run_far else -1)
    normal[rise] = math.sin(math.radians(angle)) * (-1 if rise_far else 1)
    point = np.zeros(3)
    point[run] = size[run] if run_far else 0.0
    point[rise] = size[rise] if rise_far else 0.0
    around = Manifold.cube([extent + 2 * OVER for extent in size]).translate([-OVER] * 3)
    return around.trim_by_plane(normal.tolist(), float(normal @ point))


def _mitre(cut: dict[str, Any], size: Any) -> Manifold:
    return _sloped(size, cut["end"], cut["long_point_face"], cut["blade_tilt_deg"])


def _flat_mitre(cut: dict[str, Any], size: Any) -> Manifold:
    return _sloped(size, cut["end"], cut["long_point_edge"], cut["gauge_angle_deg"])


def _bevel(cut: dict[str, Any], size: Any) -> Manifold:
    return _sloped(size, cut["edge"], cut["long_point_face"], cut["blade_tilt_deg"])


def _pin(face: str, size: Any, centre: list[float], low: float, high: float, d: float) -> Manifold:
    """A cylinder square to a face between two depths."""
    axis, far = FACES[face]
    pin = Manifold.cylinder(high - low, d / 2, d / 2, SEGMENTS)
    where = list(centre)
    where[axis] = size[axis] - high if far else low
    turn = {0: (0, 90, 0), 1: (-90, 0, 0), 2: (0, 0, 0)}[axis]
    return pin.rotate(turn).translate(where)


def _bore(cut: dict[str, Any], size: Any) -> Manifold:
    axis, far = FACES[cut["face"]]
    centre = [cut["x_mm"] or 0.0, cut["y_mm"] or 0.0, cut["z_mm"] or 0.0]
    depth = size[axis] + OVER if cut["depth_mm"] is None else cut["depth_mm"]
    bore = _pin(cut["face"], size, centre, -OVER, depth, cut["diameter_mm"])
    mouth = cut["countersink_diameter_mm"] / 2
    if mouth * 2 <= cut["diameter_mm"]:
        return bore
    radius = cut["diameter_mm"] / 2
    cone = Manifold.cylinder(mouth - radius, radius, mouth, SEGMENTS)
    where = list(centre)
    if axis == 2 and far:
        where[2] = size[2] - (mouth - radius)
        return bore + cone.translate(where)
    assert axis == 2, "countersinks are rebuilt on wide faces only"
    where[2] = mouth - radius
    return bore + cone.rotate((180, 0, 0)).translate(where)


def _flat_shape(shape: CrossSection, face: str, size: Any, depth: float | None) -> Manifold:
    if depth is None:
        return shape.extrude(size[2] + 2 * OVER).translate((0, 0, -OVER))
    tall = shape.extrude(depth + OVER)
    return tall.translate((0, 0, size[2] - depth if face == "face side" else -OVER))


def _slot(cut: dict[str, Any], size: Any) -> Manifold:
    width, length = cut["width_mm"], cut["length_mm"]
    dx, dy = (length, width) if cut["along"] == "along the grain" else (width, length)
    span = (length - width) / 2
    ends = [(span, 0.0), (-span, 0.0)] if dx > dy else [(0.0, span), (0.0, -span)]
    shape = CrossSection.square((max(dx - width, width), max(dy - width, width)), True)
    for end in ends:
        shape = shape + CrossSection.circle(width / 2, SEGMENTS).translate(end)
    shape = shape ^ CrossSection.square((dx, dy), True)
    return _flat_shape(
        shape.translate((cut["x_mm"], cut["y_mm"])), cut["face"], size, cut["depth_mm"]
    )


def _notch(cut: dict[str, Any], size: Any) -> Manifold:
    axis, far = FACES[cut["edge"]]
    run = 1 - axis
    low, high = [0.0, 0.0, -OVER], [0.0, 0.0, size[2] + OVER]
    low[axis], high[axis] = (
        (size[axis] - cut["depth_mm"], size[axis] + OVER) if far else (-OVER, cut["depth_mm"])
    )
    low[run], high[run] = cut["start_mm"], cut["start_mm"] + cut["length_mm"]
    if low[run] <= 1e-9:
        low[run] = -OVER
    if high[run] >= size[run] - 1e-9:
        high[run] += OVER
    block = _block(low, high)
    radius = cut["inner_radius_mm"]
    assert not radius, "only square-cornered notches are rebuilt here"
    return block


def _finger_notch(cut: dict[str, Any], size: Any) -> Manifold:
    axis, far = FACES[cut["edge"]]
    centre = [0.0, 0.0]
    centre[1 - axis], centre[axis] = cut["centre_mm"], size[axis] if far else 0.0
    circle = CrossSection.circle(cut["radius_mm"], SEGMENTS).translate(tuple(centre))
    return _flat_shape(circle, "face side", size, None)


def _profile(cut: dict[str, Any], size: Any) -> Manifold:
    first, second = cut["edge"].split(" / ")
    r = cut["radius_mm"]
    corner = CrossSection.square((r + OVER, r + OVER)).translate((-OVER, -OVER))
    if cut["profile_kind"] == "round-over":
        shape = corner - CrossSection.circle(r, SEGMENTS).translate((r, r))
        shape = shape - CrossSection.square((OVER, OVER)).translate((r, r))
    else:
        shape = CrossSection([[(-OVER, -OVER), (r + OVER, -OVER), (-OVER, r + OVER)]])
    run = 3 - FACES[first][0] - FACES[second][0]
    bar = shape.extrude(size[run] + 2 * OVER)
    axes = np.zeros((3, 4))
    for column, face in enumerate((first, second)):
        axis, far = FACES[face]
        axes[axis, column] = -1.0 if far else 1.0
        axes[axis, 3] = size[axis] if far else 0.0
    turn = np.cross(axes[:, 0], axes[:, 1])
    axes[:, 2] = turn
    axes[run, 3] = -OVER if turn[run] > 0 else size[run] + OVER
    return bar.transform(axes)


_TOOLS = {
    "dado": _dado,
    "groove": _groove,
    "rabbet": _rabbet,
    "mitre": _mitre,
    "flat mitre": _flat_mitre,
    "bevel": _bevel,
    "bore": _bore,
    "slot": _slot,
    "notch": _notch,
    "finger notch": _finger_notch,
    "profile": _profile,
}
