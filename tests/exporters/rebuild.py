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


def _rounded(block: Manifold, sink: int, corners: list[dict[int, tuple[float, int]]], r: float,
             size: Any) -> Manifold:  # fmt: skip
    """A sunk block without what a cutter of radius r leaves in its inner corners.

    Each corner is, for both axes across the sinking one, where it lies and the way into the block.
    """
    for corner in corners:
        low, high, centre = [0.0] * 3, [0.0] * 3, [0.0] * 3
        low[sink], high[sink] = -2 * OVER, size[sink] + 2 * OVER
        for axis, (at, way) in corner.items():
            low[axis], high[axis] = sorted((at, at + way * r))
            centre[axis] = at + way * r
        tall = high[sink] - low[sink]
        pin = Manifold.cylinder(tall, r, r, SEGMENTS)
        centre[sink] = low[sink]
        turn = {0: (0, 90, 0), 1: (-90, 0, 0), 2: (0, 0, 0)}[sink]
        block = block - (_block(low, high) - pin.rotate(turn).translate(centre))
    return block


def _trench(face: str, size: Any, spans: dict[int, tuple[float, float]], depth: float, along: int,
            r: float) -> Manifold:  # fmt: skip
    """A trench with its stopped ends left round, save where a wall or an end runs out."""
    block = _sunk(face, size, spans, depth)
    across = next(axis for axis in spans if axis != along)
    corners = [
        {along: (spans[along][i], 1 - 2 * i), across: (spans[across][j], 1 - 2 * j)}
        for i in (0, 1)
        for j in (0, 1)
        if 1e-9 < spans[along][i] < size[along] - 1e-9
        and 1e-9 < spans[across][j] < size[across] - 1e-9
    ]
    return _rounded(block, FACES[face][0], corners if r else [], r, size)


def _dado(cut: dict[str, Any], size: Any) -> Manifold:
    spans = {
        0: (cut["lower_shoulder_mm"], cut["lower_shoulder_mm"] + cut["width_mm"]),
        1: (cut["stop_from_face_edge_mm"], size[1] - cut["stop_from_back_edge_mm"]),
    }
    return _trench(cut["face"], size, spans, cut["depth_mm"], 1, cut["end_radius_mm"])


def _groove(cut: dict[str, Any], size: Any) -> Manifold:
    run = (cut["stop_from_named_end_mm"], size[0] - cut["stop_from_far_end_mm"])
    axis, _ = FACES[cut["face"]]
    if axis == 2:
        across = {1: (cut["offset_mm"], cut["offset_mm"] + cut["width_mm"])}
    else:
        top = size[2] - cut["offset_mm"]
        across = {2: (top - cut["width_mm"], top)}
    spans = {0: run, **across}
    return _trench(cut["face"], size, spans, cut["depth_mm"], 0, cut["end_radius_mm"])


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
    where[axis] = size[axis] - (mouth - radius) if far else mouth - radius
    out = {0: (0, 90, 0), 1: (-90, 0, 0), 2: (0, 0, 0)}[axis]
    back = {0: (0, -90, 0), 1: (90, 0, 0), 2: (180, 0, 0)}[axis]
    return bore + cone.rotate(out if far else back).translate(where)


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
    middle = (dx - width, width) if dx > dy else (width, dy - width)
    shape = CrossSection.square(middle, True)
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
    radius, start = cut["inner_radius_mm"], cut["start_mm"]
    inner = (size[axis] - cut["depth_mm"], 1) if far else (cut["depth_mm"], -1)
    corners = [
        {axis: inner, run: (at, way)}
        for at, way in ((start, 1), (start + cut["length_mm"], -1))
        if 1e-9 < at < size[run] - 1e-9
    ]
    return _rounded(_block(low, high), 2, corners if radius else [], radius, size)


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


def _on_slope(cut: dict[str, Any], size: Any, down: tuple[float, float],
              out: tuple[float, float], along: tuple[float, float]) -> Manifold:  # fmt: skip
    """A block in the frame of a mitred face: down it from the long point, out of it, along it."""
    end, end_far = FACES[cut["end"]]
    long, long_far = FACES[cut["long_point"]]
    third = 3 - end - long
    angle = math.radians(cut["mitre_angle_deg"])
    away, deep = np.zeros(3), np.zeros(3)
    away[end], deep[long] = (1 if end_far else -1), (-1 if long_far else 1)
    axes = np.zeros((3, 4))
    axes[:, 0] = deep * math.cos(angle) - away * math.sin(angle)
    axes[:, 1] = away * math.cos(angle) + deep * math.sin(angle)
    axes[third, 2] = 1.0
    axes[end, 3] = size[end] if end_far else 0.0
    axes[long, 3] = size[long] if long_far else 0.0
    if third == 2:  # struck from the face side
        along = (size[2] - along[1], size[2] - along[0])
    block = _block([down[0], out[0], along[0]], [down[1], out[1], along[1]])
    if np.linalg.det(axes[:, :3]) < 0:  # keep it right-handed: mirror about the middle first
        axes[third, 2], axes[third, 3] = -1.0, along[0] + along[1]
    return block.transform(axes)


def _spline_groove(cut: dict[str, Any], size: Any) -> Manifold:
    start, along = cut["from_long_point_mm"], cut["start_mm"]
    down = (start, start + cut["down_slope_mm"])
    return _on_slope(cut, size, down, (-cut["depth_mm"], OVER), (along, along + cut["run_mm"]))


def _key_slot(cut: dict[str, Any], size: Any) -> Manifold:
    along = (cut["start_mm"], cut["start_mm"] + cut["width_mm"])
    return _on_slope(cut, size, (-50.0, cut["depth_mm"]), (-200.0, OVER), along)


def _rounded_tongue(cut: dict[str, Any], size: Any) -> Manifold:
    edge, edge_far = FACES[cut["edge"]]
    side, side_far = FACES[cut["side"]]
    r, depth, inset = cut["radius_mm"], cut["depth_mm"], cut["inset_mm"]
    low, high, centre = [0.0] * 3, [0.0] * 3, [0.0] * 3
    low[edge], high[edge] = (size[edge] - depth, size[edge]) if edge_far else (0.0, depth)
    at, way = (size[side] - inset, -1) if side_far else (inset, 1)
    low[side], high[side] = sorted((at, at + way * r))
    centre[side], centre[edge] = at + way * r, low[edge]
    turn = {0: (0, 90, 0), 1: (-90, 0, 0)}[edge]
    taken = Manifold()
    for face_z, inward in ((0.0, 1), (size[2], -1)):
        low[2], high[2] = sorted((face_z, face_z + inward * r))
        centre[2] = face_z + inward * r
        pin = Manifold.cylinder(depth, r, r, SEGMENTS).rotate(turn).translate(centre)
        taken = taken + (_block(low, high) - pin)
    return taken


def _mortise(cut: dict[str, Any], size: Any) -> Manifold:
    axes = [axis for axis in range(3) if axis != FACES[cut["face"]][0]]
    spans = {
        axis: (cut[f"{name}_at_mm"], cut[f"{name}_at_mm"] + cut[f"{name}_size_mm"])
        for axis, name in zip(axes, ("first", "second"), strict=True)
    }
    return _trench(cut["face"], size, spans, cut["depth_mm"], axes[0], cut["corner_radius_mm"])


def _gain(cut: dict[str, Any], size: Any) -> Manifold:
    axis, far = FACES[cut["side"]]
    into = cut["into_mm"]
    spans = {
        0: (cut["start_mm"], cut["start_mm"] + cut["length_mm"]),
        axis: (size[axis] - into, size[axis]) if far else (0.0, into),
    }
    return _sunk(cut["face"], size, spans, cut["depth_mm"])


def _tenon(cut: dict[str, Any], size: Any) -> Manifold:
    """All of the end but the block that is left standing."""
    far = FACES[cut["end"]][1]
    start, length = (size[0] - cut["length_mm"] if far else -OVER), cut["length_mm"] + OVER
    whole = _block([start, -OVER, -OVER], [start + length, size[1] + OVER, size[2] + OVER])
    top = size[2] - cut["from_face_side_mm"]
    low = [start - OVER, cut["from_face_edge_mm"], top - cut["thickness_mm"]]
    return whole - _block(low, [start + length + OVER, low[1] + cut["width_mm"], top])


_TOOLS = {
    "dado": _dado,
    "groove": _groove,
    "rabbet": _rabbet,
    "mitre": _mitre,
    "flat mitre": _flat_mitre,
    "bevel": _bevel,
    "spline groove": _spline_groove,
    "key slot": _key_slot,
    "bore": _bore,
    "slot": _slot,
    "notch": _notch,
    "finger notch": _finger_notch,
    "rounded tongue": _rounded_tongue,
    "profile": _profile,
    "mortise": _mortise,
    "tenon": _tenon,
    "gain": _gain,
}
