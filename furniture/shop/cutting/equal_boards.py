"""Clear boards of one size filled by the strip beam: packings of large orders in little time.

Only boards of one width without zones are looked at, with every piece that suits them; the kerf is
added to pieces and board. Whether a saw can make a packing safely is for the reader to judge.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from itertools import product

from furniture.shop.cutting.blanks import suits
from furniture.shop.cutting.plan import Placement, Rectangle
from furniture.shop.cutting.side_by_side import side_by_side
from furniture.shop.cutting.strip_beam import BIASES, Rectangles, Spot, StripBeam
from furniture.shop.cutting.values import Board, CuttingRequest, names_by_kind
from furniture.shop.cutting.zones import usable_frame

FEWEST_PIECES = 12
"""Kinds with fewer pieces, or with one board, are left to the other search, so that small jobs
never load this one: its first run on a machine compiles for some seconds. Own rule."""

GRID_MM = 0.01
"""Sizes are rounded to it, against the part [mm]."""
_SAME = 1e-4
"""Of a step of the grid: a size so near a whole step is whole."""

FIRST_WIDTHS, WIDEST = (1, 4, 16, 64), 1 << 13
"""Half-made packings kept at first and at most: memory grows with them. Own rule: some ten
megabytes."""


@dataclass(slots=True)
class _Kind:
    """Boards alike: their names, what is cut from them, and the fewest that held it so far."""

    names: tuple[str, ...]
    frame: Rectangle
    pieces: tuple[tuple[str, int], ...]
    order: Rectangles
    beam: StripBeam
    fewest: int


class EqualBoards:
    """The kinds of clear boards of a request, and packings on each kind alone."""

    def __init__(self, request: CuttingRequest) -> None:
        self._request = request
        clear = [board for board in request.boards if board.is_straight and not board.zones]
        alike = names_by_kind(clear)
        kinds = [self._kind(board, tuple(names)) for board, names in alike.items()]
        self._width = 0
        self._kinds = [kind for kind in kinds if kind is not None]

    def load(self) -> None:
        """Compiles what is needed where it was not yet: some seconds at the first use."""
        least = Rectangles(board=(1, 1), sizes=((1, 1),), wanted=(1,))
        StripBeam(least, 1).run(1, 1, rip_first=True, bias=0.0, deadline=math.inf)

    def _kind(self, board: Board, names: tuple[str, ...]) -> _Kind | None:
        saw = self._request.saw
        frame = usable_frame(board, saw)
        here = [
            (part, strip, width)
            for part in self._request.parts
            if suits(board, part, saw) and part.rough_length_mm <= frame.length
            for strip, width in part.pieces
            if width <= frame.width
        ]
        if len(names) < 2 or sum(part.quantity for part, _, _ in here) < FEWEST_PIECES:
            return None
        order = Rectangles(
            board=(_down(frame.length + saw.kerf_mm), _down(frame.width + saw.kerf_mm)),
            sizes=tuple(
                (_up(part.rough_length_mm + saw.kerf_mm), _up(width + saw.kerf_mm))
                for part, _, width in here
            ),
            wanted=tuple(part.quantity for part, _, _ in here),
        )
        limits = self._request.limits
        return _Kind(
            names=names,
            frame=frame,
            pieces=tuple((part.name, strip) for part, strip, _ in here),
            order=order,
            beam=StripBeam(order, limits.seed, limits.stages.value),
            fewest=len(names) + 1,
        )

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
        parts = self._request.part_named
        for name, board in zip(kind.names, boards, strict=False):
            for spot in board:
                part, strip = kind.pieces[spot.index]
                wanted = parts[part]
                width = dict(wanted.pieces)[strip]
                yield Placement(
                    part=part,
                    copy=1,
                    board=name,
                    place=Rectangle(
                        x=kind.frame.x + spot.x * GRID_MM,
                        y=kind.frame.y + spot.y * GRID_MM,
                        length=wanted.rough_length_mm,
                        width=width,
                    ),
                    strip=strip,
                )


def _up(length: float) -> int:
    return math.ceil(length / GRID_MM - _SAME)


def _down(length: float) -> int:
    return math.floor(length / GRID_MM + _SAME)
