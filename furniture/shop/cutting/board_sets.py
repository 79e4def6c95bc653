"""Sets of boards that cost less than the best plan: what the search tries by themselves.

Boards that are alike in all but name are one kind with a count, so a set is a count of each kind.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from furniture.shop.cutting.blanks import suits
from furniture.shop.cutting.values import Board, CuttingRequest, names_by_kind
from furniture.shop.cutting.zones import area_of_board

MOST_LOOKED_AT = 4000
"""Half-made sets looked at, the dearest boards left out first. Own rule."""


@dataclass(frozen=True, slots=True)
class _Kind:
    """Boards alike: their names, the price [money] and the area [mm^2] of each."""

    names: tuple[str, ...]
    price: float
    area: float
    board: Board


@dataclass(frozen=True, slots=True)
class _Need:
    """Wood [mm^2] that some parts ask of the kinds that suit them."""

    area: float
    kinds: tuple[int, ...]


def cheaper_sets(request: CuttingRequest, price: float, most: int) -> tuple[tuple[Board, ...], ...]:
    """Sets under a price [money], and under that of all boards, as full as can be.

    Sets without wood enough are left out. The dearest sets come first: they have the most room.

    Args:
        price: that the boards must stay under.
        most: so many sets at most.
    """
    price = min(price, sum(board.price for board in request.boards))
    kinds = kinds_of(request.boards)
    found = _under(kinds, _needs(request, kinds), price)
    ordered = sorted(found, key=lambda counts: -_price(kinds, counts))
    sets = []
    for counts in ordered[:most]:
        taken = zip(kinds, counts, strict=True)
        names = {name for kind, count in taken for name in kind.names[:count]}
        sets.append(tuple(board for board in request.boards if board.name in names))
    return tuple(sets)


def kinds_of(boards: Sequence[Board]) -> list[_Kind]:
    """Boards alike in all but name and description as one kind, the dearest first."""
    kinds = [
        _Kind(names=tuple(names), price=board.price, area=area_of_board(board), board=board)
        for board, names in names_by_kind(boards).items()
    ]
    return sorted(kinds, key=lambda kind: -kind.price)


def _needs(request: CuttingRequest, kinds: Sequence[_Kind]) -> list[_Need]:
    """For every thickness of every species what its parts and thicker ones need."""
    needs: dict[tuple[int, ...], float] = {}
    for part in request.parts:
        mine = tuple(n for n, kind in enumerate(kinds) if suits(kind.board, part, request.saw))
        asked = sum(
            other.quantity * other.rough_length_mm * other.least_width_mm
            for other in request.parts
            if other.is_must
            and other.species == part.species
            and other.thickness_mm >= part.thickness_mm
        )
        needs[mine] = max(asked, needs.get(mine, 0.0))
    return [_Need(area, mine) for mine, area in needs.items()]


def _under(
    kinds: Sequence[_Kind], needs: Sequence[_Need], price: float
) -> Iterator[tuple[int, ...]]:
    """Counts of each kind that stay under the price, hold the wood, and take no board more."""
    looked_at = 0

    def has_wood(counts: tuple[int, ...]) -> bool:
        """Whether there is wood enough if every kind that is not counted yet is taken whole."""
        return all(
            sum(
                kinds[n].area * (counts[n] if n < len(counts) else len(kinds[n].names))
                for n in need.kinds
            )
            >= need.area
            for need in needs
        )

    def go(counts: tuple[int, ...], cost: float) -> Iterator[tuple[int, ...]]:
        nonlocal looked_at
        looked_at += 1
        if looked_at > MOST_LOOKED_AT or not has_wood(counts):
            return
        if len(counts) == len(kinds):
            spare = (
                cost + kind.price < price - 1e-9
                for kind, count in zip(kinds, counts, strict=True)
                if count < len(kind.names)
            )
            if not any(spare):
                yield counts
            return
        kind = kinds[len(counts)]
        for count in range(len(kind.names), -1, -1):
            if not count or cost + count * kind.price < price - 1e-9:
                yield from go((*counts, count), cost + count * kind.price)
            if kind.price <= 0:
                return

    yield from go((), 0.0)


def _price(kinds: Sequence[_Kind], counts: Sequence[int]) -> float:
    return sum(kind.price * count for kind, count in zip(kinds, counts, strict=True))
