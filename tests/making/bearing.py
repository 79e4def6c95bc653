"""What of a face still lies in its plane, so that wood can stand on it or run along a fence."""

from __future__ import annotations

import numpy as np
from manifold3d import CrossSection, Manifold

from furniture.parts.faces import Face
from tests.making.passes import inwards, level

SKIN_MM = 0.01
"""So far under its plane a face is looked at: a mitre or a round has next to nothing there."""


def touching(wood: Manifold, face: Face) -> CrossSection:
    """The wood in the plane of a face, over the two axes that follow the face's own in turn."""
    axes = [(face.axis + 1) % 3, (face.axis + 2) % 3, face.axis]
    turned = np.zeros((3, 4))
    for row, axis in enumerate(axes):
        turned[row, axis] = 1.0
    return wood.transform(turned).slice(level(wood, face) + inwards(face) * SKIN_MM)


def stands_on(wood: Manifold, face: Face) -> bool:
    """Whether the middle of the wood lies over the hull of what touches."""
    box = np.array(wood.bounding_box())
    middle = (box[:3] + box[3:]) / 2
    point = np.array([middle[(face.axis + 1) % 3], middle[(face.axis + 2) % 3]])
    dot = CrossSection.square((0.2, 0.2), True).translate(point.tolist())
    under = touching(wood, face).hull() ^ dot
    return bool(under.area() > 0.01)


def touching_mm(wood: Manifold, edge: Face) -> float:
    """How much of an edge touches a fence along the grain [mm]: gaps count as gaps."""
    flat = touching(wood, edge)  # over z, then x
    spans = sorted(
        (float(ring[:, 1].min()), float(ring[:, 1].max()))
        for ring in (np.asarray(each) for each in flat.to_polygons())
    )
    total, reached = 0.0, -np.inf
    for low, high in spans:
        total += max(0.0, high - max(low, reached))
        reached = max(reached, high)
    return float(total)
