"""Which wood each instance of a piece is cut from, and how it lies in it."""

from __future__ import annotations

from collections.abc import Mapping

from exporters.grain.board import wood_of_board, wood_of_stock
from exporters.grain.glued_up import GluedUpWood
from exporters.grain.in_wood import InWood
from exporters.grain.wood import Wood
from furniture.making.making import Making
from furniture.making.workpieces import Workpiece
from furniture.parts.vectors import Vector, add, scaled
from furniture.pieces.piece import Piece
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.timber.stock import Timber

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
    known = {each.id: each for each in making.workpieces}
    on_boards = {} if cutting is None else woods_of_boards(piece, cutting, photographed)
    roots: dict[str, Wood] = {}
    found = {}
    for each in piece.placed:
        root, origin, axes = _in_root(each.instance, known)
        wood = known.get(root)
        if root not in roots and wood is not None and wood.glued_of:
            roots[root] = _glued_up(wood, known, on_boards, each.part.timber, piece.name)
        elif root not in roots:
            size = each.part.blank.size if wood is None else _size(wood)
            species, sawn = each.part.timber.species, each.part.timber.sawn
            roots[root] = _on_board(wood, on_boards) or wood_of_stock(
                f"{piece.name}|{root}", species, size, sawn
            )
        found[each.instance] = InWood(wood=roots[root], origin=origin, axes=axes)
    return found


def _on_board(root: Workpiece | None, boards: Mapping[str, Wood]) -> Wood | None:
    return None if root is None or root.board is None else boards.get(root.board)


def _glued_up(
    whole: Workpiece,
    known: Mapping[str, Workpiece],
    boards: Mapping[str, Wood],
    timber: Timber,
    piece: str,
) -> GluedUpWood:
    """What is glued up shows each strip's own wood, in its own frame."""
    ends = [each.at_mm[1] for each in whole.glued_of[1:]] + [whole.high[1]]
    strips = []
    for end, each in zip(ends, whole.glued_of, strict=True):
        root, origin, axes = _in_root(each.id, known)
        # What came off a board before this plan was made shows wood of its own, as any part does.
        wood = _on_board(known[root], boards) or wood_of_stock(
            f"{piece}|{root}", timber.species, _size(known[root]), timber.sawn
        )
        back = add(origin, _turned(scaled(each.at_mm, -1.0), axes))
        strips.append((end, InWood(wood=wood, origin=back, axes=axes)))
    return GluedUpWood(strips=tuple(strips))


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
    planned = job.request.board_named
    found: dict[str, Wood] = dict(photographed or {})
    for board in job.boards:
        names = [job.stocks[p.name] for p in job.request.parts
                 if p.species == planned[board.name].species]  # fmt: skip
        timber = next((timbers[name] for name in names if name in timbers), None)
        if timber is not None and board.name not in found:
            found[board.name] = wood_of_board(board, timber.species, timber.sawn)
    return found


def _size(wood: Workpiece) -> tuple[float, float, float]:
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
