"""Sets of boards that cost less than the best plan: what the search tries by themselves."""

from __future__ import annotations

from collections.abc import Iterator

from furniture.shop.cutting.blanks import suits
from furniture.shop.cutting.values import Board, CuttingRequest
from furniture.shop.cutting.zones import area_of_board

MOST_LOOKED_AT = 4000
"""Sets looked at, the dearest boards left out first. Own rule."""


def cheaper_sets(request: CuttingRequest, price: float, most: int) -> tuple[tuple[Board, ...], ...]:
    """Sets under a price [money], and under that of all boards, as full as can be.

    Sets without wood enough are left out; boards that are alike in all but name count as one
    choice. The dearest sets come first: they have the most room.

    Args:
        request: boards and parts.
        price: that the boards must stay under.
        most: so many sets at most.
    """
    boards = sorted(request.boards, key=lambda board: -board.price)
    price = min(price, sum(board.price for board in boards))
    found: dict[tuple[object, ...], tuple[Board, ...]] = {}
    for chosen in _under(boards, price):
        if not _has_wood(request, chosen):
            continue
        signature = tuple(sorted((_look(board) for board in chosen), key=repr))
        found.setdefault(signature, chosen)
    ordered = sorted(found.values(), key=lambda chosen: -sum(board.price for board in chosen))
    names = [frozenset(board.name for board in chosen) for chosen in ordered]
    maximal = [
        chosen
        for chosen, mine in zip(ordered, names, strict=True)
        if not any(mine < other for other in names)
    ]
    kept = [{board.name for board in chosen} for chosen in maximal[:most]]
    return tuple(tuple(b for b in request.boards if b.name in mine) for mine in kept)


def _under(boards: list[Board], price: float) -> Iterator[tuple[Board, ...]]:
    """Sets under the price, each as full as those left out in turn allow."""
    looked_at = 0

    def go(index: int, chosen: tuple[Board, ...], cost: float) -> Iterator[tuple[Board, ...]]:
        nonlocal looked_at
        looked_at += 1
        if looked_at > MOST_LOOKED_AT:
            return
        if index == len(boards):
            yield chosen
            return
        board = boards[index]
        if cost + board.price < price - 1e-9:
            yield from go(index + 1, (*chosen, board), cost + board.price)
        if board.price > 0:
            yield from go(index + 1, chosen, cost)

    yield from go(0, (), 0.0)


def _has_wood(request: CuttingRequest, chosen: tuple[Board, ...]) -> bool:
    """Whether every kind of part finds wood for its area among the boards that suit it."""
    for part in request.parts:
        mine = [board for board in chosen if suits(board, part, request.saw)]
        asked = sum(
            other.quantity * other.rough_length * other.rough_width
            for other in request.parts
            if other.species == part.species and other.thickness >= part.thickness
        )
        if sum(area_of_board(board) for board in mine) < asked:
            return False
    return True


def _look(board: Board) -> tuple[object, ...]:
    return (
        board.length,
        board.stations,
        board.thickness,
        board.species,
        board.price,
        board.zones,
    )
