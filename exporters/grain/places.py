"""Which wood each instance of a piece is cut from, and how it lies in it."""

from __future__ import annotations

from collections.abc import Mapping

from exporters.grain.board import wood_of_board, wood_of_stock
from exporters.grain.glued_up import glued_up_from
from exporters.grain.in_wood import InWood
from exporters.grain.wood import Wood
from furniture.making.making import Making
from furniture.making.workpieces import Workpiece
from furniture.parts.vectors import Vector, add, scaled
from furniture.pieces.piece import Piece
from furniture.shop.boards.outcome import CuttingOutcome

_HERE: Vector = (0.0, 0.0, 0.0)
_AXES: tuple[Vector, Vector, Vector] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def wood_of_instances(
    piece: Piece,
    making: Making,
    cutting: CuttingOutcome | None = None,
    photographed: Mapping[str, Wood] | None = None,
) -> dict[str, InWood]:
    """The wood of every instance: of its board where a plan lays it, else of a blank of its own.

    Args:
        piece: whose parts.
        making: from its boards, or from rough blanks; parts of one blank share its wood.
        cutting: the plan that it was made with.
        photographed: boards that are known by a photo, by name.
    """
    boards: dict[str, Wood] = {}
    planned = {} if cutting is None else {each.name: each for each in cutting.job.boards}
    known = {each.id: each for each in making.workpieces}
    found = {}
    for each in piece.placed:
        root, origin, axes = _in_root(each.instance, known)
        timber = each.part.timber
        first = known.get(root)
        board = None if first is None or first.board is None else planned.get(first.board)
        if root not in boards:
            given = None if board is None else (photographed or {}).get(board.name)
            if given is not None:
                boards[root] = given
            elif board is not None:
                boards[root] = wood_of_board(board, timber.species, timber.sawn)
            else:
                size = _size(first, each.part.blank.size)
                boards[root] = wood_of_stock(
                    f"{piece.name}|{root}", timber.species, size, timber.sawn
                )
        found[each.instance] = InWood(wood=boards[root], origin=origin, axes=axes)
    if cutting is not None:
        on_boards = woods_of_boards(piece, cutting, photographed)
        found |= {
            name: InWood(wood=wood, origin=_HERE, axes=_AXES)
            for name, wood in glued_up_from(cutting, on_boards).items()
        }
    return found


def woods_of_boards(
    piece: Piece, cutting: CuttingOutcome, photographed: Mapping[str, Wood] | None = None
) -> dict[str, Wood]:
    """The wood of every board of a plan, begun or not, whose stock the piece has.

    Args:
        piece: that is cut from them.
        cutting: the plan.
        photographed: boards that are known by a photo, by name.
    """
    job = cutting.job
    timbers = {each.part.timber.name: each.part.timber for each in piece.placed}
    planned = {each.name: each for each in job.request.boards}
    found: dict[str, Wood] = dict(photographed or {})
    for board in job.boards:
        names = [job.stocks[p.name] for p in job.request.parts
                 if p.species == planned[board.name].species]  # fmt: skip
        timber = next((timbers[name] for name in names if name in timbers), None)
        if timber is not None and board.name not in found:
            found[board.name] = wood_of_board(board, timber.species, timber.sawn)
    return found


def _size(wood: Workpiece | None, own: tuple[float, float, float]) -> tuple[float, float, float]:
    if wood is None:
        return own
    long, wide, thick = (high - low for low, high in zip(wood.low, wood.high, strict=True))
    return (long, wide, thick)


def _in_root(
    instance: str, known: Mapping[str, Workpiece]
) -> tuple[str, Vector, tuple[Vector, Vector, Vector]]:
    """The first wood that an instance comes from, and its frame there."""
    axes, origin = _AXES, _HERE
    name = instance
    while (wood := known.get(name)) is not None and wood.source is not None:
        origin = add(wood.at_mm, _turned(origin, wood.axes))
        axes = (_turned(axes[0], wood.axes), _turned(axes[1], wood.axes),
                _turned(axes[2], wood.axes))  # fmt: skip
        name = wood.source
    return name, origin, axes


def _turned(way: Vector, axes: tuple[Vector, Vector, Vector]) -> Vector:
    total: Vector = (0.0, 0.0, 0.0)
    for value, axis in zip(way, axes, strict=True):
        total = add(total, scaled(axis, value))
    return total
