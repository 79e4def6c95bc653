"""What a dive has left over, packed by the strip beam on boards of one clear kind."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from furniture.shop.cutting.board_kinds import BoardKind
from furniture.shop.cutting.covering import Counts
from furniture.shop.cutting.strip_beam import BIASES, StripBeam
from furniture.shop.cutting.unit_boards import Spot
from furniture.shop.cutting.values import Limits

WIDTH = 16
"""Half-made packings kept. Own rule: some milliseconds for six boards."""

LONGEST_S = 2.0
"""To finish one dive at most [s]. Own rule: far beyond what it takes."""


class Finishing:
    """The strip beam for one kind of clear boards."""

    def __init__(self, kind: BoardKind, wanted: Counts, limits: Limits) -> None:
        board = kind.against
        self._shape_of = {s.piece: n for n, s in enumerate(board.shapes) if not s.is_turned}
        along = tuple(board.shapes[self._shape_of[piece]] for piece in range(wanted.size))
        in_units, counts = replace(board, shapes=along), [int(n) for n in wanted]
        self._beam = StripBeam(in_units, counts, limits.seed, limits.stages.value)

    @staticmethod
    def of(kinds: Sequence[BoardKind], wanted: Counts, limits: Limits) -> Finishing | None:
        """For the only kind of boards, if it is clear and holds every piece; None else."""
        if len(kinds) != 1 or not kinds[0].against.is_clear:
            return None
        on_it = {shape.piece for shape in kinds[0].against.shapes if not shape.is_turned}
        return Finishing(kinds[0], wanted, limits) if len(on_it) == wanted.size else None

    def boards(self, left: Counts, most: int) -> list[tuple[Spot, ...]] | None:
        """At most so many boards that hold all that is left; None where none were found."""
        for rip_first in (True, False):
            for bias in BIASES[:2]:
                found = self._beam.run(
                    WIDTH, most, rip_first=rip_first, bias=bias,
                    deadline=time.monotonic() + LONGEST_S, demand=left.astype(np.int16),
                )  # fmt: skip
                if found is not None:
                    return [
                        tuple(Spot(self._shape_of[s.shape], s.x, s.y) for s in board)
                        for board in found
                    ]
        return None
