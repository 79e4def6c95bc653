"""Reads binary glTF as another program would, and puts it back into millimetres with z up."""

from __future__ import annotations

import json
import struct
from collections.abc import Iterator
from typing import Any

import numpy as np

_TO_MILLIMETRES = np.array([[1000.0, 0, 0], [0, 0, 1000.0], [0, -1000.0, 0]])
"""Rows: metres with y up to millimetres with z up."""


def tree_of(data: bytes) -> tuple[dict[str, Any], bytes]:
    """The tree and the bytes of a binary glTF file."""
    magic, version, whole = struct.unpack_from("<4sII", data)
    assert (magic, version, whole) == (b"glTF", 2, len(data))
    length, kind = struct.unpack_from("<I4s", data, 12)
    assert kind == b"JSON"
    assert length % 4 == 0
    tree = json.loads(data[20 : 20 + length])
    size, kind = struct.unpack_from("<I4s", data, 20 + length)
    assert kind == b"BIN\0"
    assert tree["buffers"][0]["byteLength"] == size
    return tree, data[28 + length : 28 + length + size]


def placed_points(tree: dict[str, Any], data: bytes) -> Iterator[tuple[str, np.ndarray]]:
    """Every part's name and its points where it stands, piece frame [mm]."""
    root, *nodes = tree["nodes"]
    base = np.array(root["matrix"]).reshape(4, 4).T
    for node in nodes:
        if node["extras"]["sort"] != "part":
            continue
        primitive = tree["meshes"][node["mesh"]]["primitives"][0]
        accessor = tree["accessors"][primitive["attributes"]["POSITION"]]
        view = tree["bufferViews"][accessor["bufferView"]]
        points = np.frombuffer(data, np.float32, 3 * accessor["count"], view["byteOffset"]).reshape(
            -1, 3
        )
        assert np.allclose(points.min(axis=0), accessor["min"])
        assert np.allclose(points.max(axis=0), accessor["max"])
        world = base @ np.array(node["matrix"]).reshape(4, 4).T
        metres = points @ world[:3, :3].T + world[:3, 3]
        yield node["name"], metres @ _TO_MILLIMETRES
