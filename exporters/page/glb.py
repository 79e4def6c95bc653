"""A scene as a binary glTF 2.0 file, in metres with y up, as viewers read it.

Source: Khronos Group, glTF 2.0 Specification, 2021 (ISO/IEC 12113:2022), accessors and binary file.
"""

from __future__ import annotations

import io
import json
import struct
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from exporters.grain.in_wood import InWood
from exporters.page.atlas import Atlas, area_of, atlas_of, picture_of
from exporters.render.ground import GroundShadow
from exporters.scene.mesh import Mesh
from exporters.scene.scene import Body, Scene
from furniture.parts.vectors import Vector

_FLOAT, _BYTE, _SHORT, _INT = 5126, 5120, 5123, 5125
_TRIANGLES, _LINES = 4, 1
_MOST_DOTS = 3.2e6
_FINEST = 1.5
_TO_METRES = [0.001, 0, 0, 0, 0, 0, -0.001, 0, 0, 0.001, 0, 0, 0, 0, 0, 1]
"""Millimetres to metres and z up to y up; columns of a matrix."""


@dataclass(slots=True)
class _Buffer:
    """Bytes with their views and accessors, as they are put together."""

    data: bytearray = field(default_factory=bytearray)
    views: list[dict[str, Any]] = field(default_factory=list)
    accessors: list[dict[str, Any]] = field(default_factory=list)

    def view(self, data: bytes) -> int:
        self.data += b"\0" * (-len(self.data) % 4)
        self.views.append({"buffer": 0, "byteOffset": len(self.data), "byteLength": len(data)})
        self.data += data
        return len(self.views) - 1

    def put(self, rows: NDArray[Any], kind: int, shape: str, **more: Any) -> int:
        """An accessor of these rows; each row begins at a multiple of four bytes."""
        flat = np.ascontiguousarray(rows)
        row_bytes = flat.itemsize * (flat.shape[1] if flat.ndim > 1 else 1)
        stride = -(-row_bytes // 4) * 4
        if flat.ndim > 1 and stride != row_bytes:
            padded = np.zeros((len(flat), stride // flat.itemsize), dtype=flat.dtype)
            padded[:, : flat.shape[1]] = flat
            view = self.view(padded.tobytes())
            self.views[view]["byteStride"] = stride
        else:
            view = self.view(flat.tobytes())
        self.accessors.append(
            {"bufferView": view, "componentType": kind, "count": len(flat), "type": shape} | more
        )
        return len(self.accessors) - 1


def glb_of(
    scene: Scene,
    woods: Mapping[str, InWood] | None = None,
    shifts: Mapping[str, Vector] | None = None,
    shadow: GroundShadow | None = None,
) -> bytes:
    """The scene as a file's bytes.

    Every body is a node with its name, its sort and its part's id; equal parts share their mesh's
    points. A part with a wood has it as its picture, else its plain colour.

    Args:
        scene: what is shown.
        woods: by instance.
        shifts: how far each instance is moved when the piece is opened, kept with its node [mm].
        shadow: on the floor; kept with the first node, a picture and the place of it [mm].
    """
    woods, shifts = woods or {}, shifts or {}
    buffer = _Buffer()
    shared: dict[int, tuple[dict[str, int], dict[str, Any]]] = {}
    per_mm = _dots_a_mm(scene, woods)
    nodes, meshes, materials, images = [], [], [], []
    for body in scene.bodies:
        wood = woods.get(body.name) if body.placed is not None else None
        atlas = None if wood is None else atlas_of(body.mesh, per_mm)
        if id(body.mesh) not in shared:
            shared[id(body.mesh)] = _accessors(buffer, body.mesh, atlas)
        attributes, indices = shared[id(body.mesh)]
        material: dict[str, Any] = {"pbrMetallicRoughness": {"metallicFactor": 0.0}}
        if wood is not None and atlas is not None and body.placed is not None:
            data = picture_of(atlas, wood, body.placed.part.blank.size)
            images.append({"bufferView": buffer.view(data), "mimeType": "image/jpeg"})
            look: dict[str, Any] = {"baseColorTexture": {"index": len(images) - 1}}
        else:
            look = {"baseColorFactor": [*(_linear(each) for each in body.colour), 1.0]}
        material["pbrMetallicRoughness"] |= look
        materials.append(material)
        primitives: list[dict[str, Any]] = [
            {"attributes": attributes, "indices": indices["triangles"], "mode": _TRIANGLES,
             "material": len(materials) - 1}
        ]  # fmt: skip
        if "lines" in indices:
            primitives.append({"attributes": indices["lines"], "mode": _LINES})
        meshes.append({"primitives": primitives})
        shift = shifts.get(body.name, (0.0, 0.0, 0.0))
        nodes.append(
            {
                "name": body.name,
                "mesh": len(meshes) - 1,
                "matrix": _matrix(body),
                "extras": {
                    "sort": body.sort.value,
                    "part": "" if body.placed is None else body.placed.part.id,
                    "shift": [round(each, 3) for each in shift],
                },
            }
        )
    root: dict[str, Any] = {
        "name": "piece", "matrix": _TO_METRES, "children": list(range(1, len(nodes) + 1)),
    }  # fmt: skip
    if shadow is not None:
        view = buffer.view(_png(shadow))
        place = {"low": shadow.low, "high": shadow.high, "level": scene.ground_mm}
        root["extras"] = {"shadow": {"bufferView": view, **place}}
    tree: dict[str, Any] = {
        "asset": {"version": "2.0", "generator": "knifewall"},
        "scene": 0,
        "scenes": [{"nodes": [0]}],
        "nodes": [root, *nodes],
        "meshes": meshes,
        "materials": materials,
        "accessors": buffer.accessors,
        "bufferViews": buffer.views,
    }
    if images:
        tree["images"] = images
        tree["textures"] = [{"source": index} for index in range(len(images))]
    buffer.data += b"\0" * (-len(buffer.data) % 4)
    tree["buffers"] = [{"byteLength": len(buffer.data)}]
    text = json.dumps(tree, separators=(",", ":")).encode()
    text += b" " * (-len(text) % 4)
    whole = 12 + 8 + len(text) + 8 + len(buffer.data)
    return b"".join(
        (
            struct.pack("<4sII", b"glTF", 2, whole),
            struct.pack("<I4s", len(text), b"JSON"),
            text,
            struct.pack("<I4s", len(buffer.data), b"BIN\0"),
            bytes(buffer.data),
        )
    )


def _png(shadow: GroundShadow) -> bytes:
    from PIL import Image

    memory = io.BytesIO()
    Image.fromarray(shadow.dots).save(memory, "PNG", optimize=True)
    return memory.getvalue()


def _dots_a_mm(scene: Scene, woods: Mapping[str, InWood]) -> float:
    """As fine as all the wood together stays within what a page can carry."""
    area = sum(area_of(each.mesh) for each in scene.bodies if each.name in woods)
    return min(_FINEST, (_MOST_DOTS / area) ** 0.5) if area else _FINEST


def _accessors(
    buffer: _Buffer, mesh: Mesh, atlas: Atlas | None
) -> tuple[dict[str, int], dict[str, Any]]:
    points = mesh.points.astype(np.float32)
    attributes = {
        "POSITION": buffer.put(
            points, _FLOAT, "VEC3", min=points.min(axis=0).tolist(), max=points.max(axis=0).tolist()
        ),
        "NORMAL": buffer.put(
            np.round(127 * mesh.normals).astype(np.int8), _BYTE, "VEC3", normalized=True
        ),
    }
    if atlas is not None:
        places = np.round(65535 * np.clip(atlas.places, 0.0, 1.0)).astype(np.uint16)
        attributes["TEXCOORD_0"] = buffer.put(places, _SHORT, "VEC2", normalized=True)
    flat = mesh.triangles.ravel()
    is_short = len(points) < 65536
    indices: dict[str, Any] = {
        "triangles": buffer.put(
            flat.astype(np.uint16 if is_short else np.uint32), _SHORT if is_short else _INT,
            "SCALAR",
        )
    }  # fmt: skip
    pairs = [each[[i, i + 1]] for each in mesh.strokes for i in range(len(each) - 1)]
    if pairs:
        ends = np.vstack(pairs).astype(np.float32)
        indices["lines"] = {
            "POSITION": buffer.put(
                ends, _FLOAT, "VEC3", min=ends.min(axis=0).tolist(), max=ends.max(axis=0).tolist()
            )
        }
    return attributes, indices


def _matrix(body: Body) -> list[float]:
    found = np.eye(4)
    found[:3, :3] = body.axes
    found[3, :3] = body.origin
    return [round(float(each), 9) + 0.0 for each in found.ravel()]


def _linear(value: float) -> float:
    return round(value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4, 5)
