"""The finished parts by another way than the work: from the cuts that piece.json records."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any
from unittest.mock import patch

from manifold3d import Manifold

from exporters.summary import summary_of
from furniture.making.operations import CutOf
from furniture.pieces import Piece
from tests.exporters import rebuild
from tests.making.replay import FINE, Replayed

SAME_MM3 = 1.0
"""Two solids that differ by less are one: what facets and rounding leave."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """The parts of a piece as they should become.

    Args:
        parts: the solid of every instance in its own frame.
        rows: what piece.json says of the part of every instance.
        segments: of a full turn.
    """

    parts: dict[str, Manifold]
    rows: dict[str, dict[str, Any]]
    segments: int

    def tool(self, cut: CutOf) -> Manifold:
        """What one cut takes, in the frame of its part."""
        row = self.rows[cut.instance]
        size = (row["length_mm"], row["width_mm"], row["thickness_mm"])
        record = row["cuts"][cut.index]
        with patch.object(rebuild, "SEGMENTS", self.segments):
            return rebuild._TOOLS[record["kind"]](record, size)


def target_of(piece: Piece, segments: int = FINE) -> Target:
    """The parts of a piece, rebuilt from its record."""
    record = json.loads(json.dumps(summary_of(piece, None, (), ())))
    with patch.object(rebuild, "SEGMENTS", segments):
        solids = rebuild.rebuilt_parts(record)
    rows = {row["id"]: row for row in record["parts"]}
    named = {row["instance"]: row["part"] for row in record["placements"]}
    return Target(
        parts={instance: solids[part] for instance, part in named.items()},
        rows={instance: rows[part] for instance, part in named.items()},
        segments=segments,
    )


def apart_mm3(first: Manifold, second: Manifold) -> float:
    """The wood that one of two solids has and the other has not [mm3]."""
    return float((first - second).volume() + (second - first).volume())


def unlike(done: Replayed, target: Target) -> dict[str, float]:
    """Instances that did not become what they should be, and by how much wood [mm3]."""
    found = {name: solid.volume() for name, solid in target.parts.items() if name not in done.parts}
    for name, solid in done.parts.items():
        amount = apart_mm3(solid, target.parts[name])
        if amount > SAME_MM3:
            found[name] = amount
    return found
