"""Clear boards of one size filled by the strip beam: packings of large orders in little time.

Only boards of one width without zones are looked at, with every piece that suits them; the kerf is
added to pieces and board. Whether a saw can make a packing safely is for the reader to judge.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from itertools import product

from furniture.shop.cutting.blanks import blanks_of, single_pieces
from furniture.shop.cutting.plan import Placement
from furniture.shop.cutting.side_by_side import side_by_side
from furniture.shop.cutting.strip_beam import BIASES, StripBeam
from furniture.shop.cutting.unit_boards import (
    LEAST_BOARD,
    Rounding,
    Spot,
    UnitBoard,
    finest_unit_board,
)
from furniture.shop.cutting.values import Board, CuttingRequest, names_by_kind
from furniture.shop.cutting.zones import usable_frame

FEWEST_PIECES = 12
"""Kinds with fewer pieces, or with one board, are left to the other search, so that small jobs
never load this one: its first run on a machine compiles for some seconds. Own rule."""

FIRST_WIDTHS, WIDEST = (1, 4, 16, 64), 1 << 13
"""Half-made packings kept at first and at most: memory grows with them. Own rule: some ten
megabytes."""


@dataclass(slots=True)
class _Kind:
    """Boards alike: their names, what is cut from them, and the fewest that held it so far."""

    bare: Board
    names: tuple[str, ...]
    in_units: UnitBoard
    beam: StripBeam
    fewest: int


class EqualBoards:
    """The kinds of clear boards of a request, and packings on each kind alone."""

    def __init__(self, request: CuttingRequest) -> None:
        self._request = request
        self._pieces = single_pieces(blanks_of(request, frozenset()))
        clear = [board for board in request.boards if board.is_straight and not board.zones]
        alike = names_by_kind(clear)
        kinds = [self._kind(board, tuple(names)) for board, names in alike.items()]
        self._width = 0
        self._kinds = [kind for kind in kinds if kind is not None]

    def load(self) -> None:
        """Compiles what is needed where it was not yet: some seconds at the first use."""
        StripBeam(LEAST_BOARD, (1,), 1).run(1, 1, rip_first=True, bias=0.0, deadline=math.inf)

    def _kind(self, board: Board, names: tuple[str, ...]) -> _Kind | None:
        if len(names) < 2:
            return None
        made = finest_unit_board(self._request, board, self._pieces, Rounding.AGAINST_PIECES)
        along = tuple(shape for shape in made.shapes if not shape.is_turned)
        wanted = [self._pieces[shape.piece].quantity for shape in along]
        if sum(wanted) < FEWEST_PIECES:
            return None
        in_units, limits = replace(made, shapes=along), self._request.limits
        beam = StripBeam(in_units, wanted, limits.seed, limits.stages.value)
        return _Kind(board, names, in_units, beam, fewest=len(names) + 1)

    def packings(
        self, is_over: Callable[[], bool], deadline: float
    ) -> Iterator[tuple[Placement, ...]]:
        """For each kind of board packings of all its pieces on fewer boards than any before.

        Each call keeps four times as many half-made packings as the last.

        Args:
            deadline: when to give up, by the monotonic clock [s].
        """
        widths = [w for w in FIRST_WIDTHS if self._width == 0] or [min(4 * self._width, WIDEST)]
        self._width = widths[-1]
        for kind, width, bias in product(self._kinds, widths, BIASES):
            if is_over():
                return
            beams = [
                partial(
                    kind.beam.run, width, kind.fewest - 1, rip_first=rip_first, bias=bias,
                    deadline=deadline,
                )
                for rip_first in (True, False)
            ]  # fmt: skip
            for boards in side_by_side(beams):
                if boards is not None and len(boards) < kind.fewest:
                    kind.fewest = len(boards)
                    yield tuple(self._placements(kind, boards))

    def _placements(self, kind: _Kind, boards: list[list[Spot]]) -> Iterator[Placement]:
        frame = usable_frame(kind.bare, self._request.saw)
        for name, spots in zip(kind.names, boards, strict=False):
            board = replace(kind.bare, name=name)
            yield from kind.in_units.placements(board, self._pieces, spots, frame)
