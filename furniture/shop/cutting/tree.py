"""The tree of saw cuts behind a layout: found from the places alone, or no saw can cut it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from furniture.shop.cutting.plan import (
    CutDirection,
    CutNode,
    LeafUse,
    NumberedCut,
    Placement,
    Rectangle,
)
from furniture.shop.cutting.values import Saw
from furniture.shop.cutting.zones import TOUCH

FULL_SEARCH = 40
"""Up to so many parts on a board both directions are tried at every cut."""


@dataclass(frozen=True, slots=True)
class _Found:
    score: tuple[float, ...]
    node: CutNode


def cut_tree(piece: Rectangle, placements: Sequence[Placement], saw: Saw) -> CutNode | None:
    """The tree of cuts that frees all placements from the piece; None when no saw can.

    Fewest unsafe cuts first, then fewest stages, then the largest offcuts.
    """
    search = _Search(saw, both=len(placements) <= FULL_SEARCH)
    found = search.best(piece, tuple(placements))
    return None if found is None else found.node


def trimmed_tree(
    board: Rectangle, frame: Rectangle, placements: Sequence[Placement], saw: Saw
) -> CutNode | None:
    """As cut_tree, with both ends and then both edges of the board trimmed to the frame first."""
    inner = cut_tree(frame, placements, saw)
    if inner is None:
        return None
    full_width = Rectangle(x=frame.x, y=board.y, length=frame.length, width=board.width)
    edged = _trim(full_width, inner, CutDirection.RIP, saw.kerf)
    return _trim(board, edged, CutDirection.CROSSCUT, saw.kerf)


def _trim(piece: Rectangle, inner: CutNode, direction: CutDirection, kerf: float) -> CutNode:
    axis = _axis(direction)
    start, end = _span(piece, axis)
    low, high = _span(inner.piece, axis)
    children: list[CutNode] = []
    if low - kerf - start > TOUCH:
        waste = _slice(piece, axis, start, low - kerf)
        children.append(CutNode(piece=waste, use=LeafUse.WASTE))
    children.append(inner)
    if end - high - kerf > TOUCH:
        waste = _slice(piece, axis, high + kerf, end)
        children.append(CutNode(piece=waste, use=LeafUse.WASTE))
    if low - start <= TOUCH and end - high <= TOUCH:
        return inner
    return CutNode(piece=piece, direction=direction, children=tuple(children))


class _Search:
    def __init__(self, saw: Saw, *, both: bool) -> None:
        self._saw = saw
        self._both = both
        self._known: dict[tuple[object, ...], _Found | None] = {}

    def best(self, piece: Rectangle, items: tuple[Placement, ...]) -> _Found | None:
        if not items:
            return self._offcut(piece)
        if len(items) == 1 and _same(piece, items[0].place):
            leaf = CutNode(piece=piece, use=LeafUse.PART, placement=items[0])
            return _Found((0.0, 0.0, 0.0, 0.0), leaf)
        key = (piece, tuple(id(item) for item in items))
        if key in self._known:
            return self._known[key]
        found: _Found | None = None
        for direction in (CutDirection.RIP, CutDirection.CROSSCUT):
            option = self._split(piece, items, direction)
            if option is not None and (found is None or option.score < found.score):
                found = option
            if found is not None and not self._both:
                break
        self._known[key] = found
        return found

    def _offcut(self, piece: Rectangle) -> _Found:
        usable = is_usable(piece, self._saw)
        use = LeafUse.OFFCUT if usable else LeafUse.WASTE
        size = piece.area * piece.area if usable else 0.0
        return _Found((0.0, 0.0, -size, 0.0), CutNode(piece=piece, use=use))

    def _split(
        self, piece: Rectangle, items: tuple[Placement, ...], direction: CutDirection
    ) -> _Found | None:
        pieces = self._pieces(piece, items, direction)
        if len(pieces) == 1 and _same(pieces[0][0], piece):
            return None
        unsafe = stages = cuts = size = 0.0
        holding = 0
        children: list[CutNode] = []
        for child_piece, child_items in pieces:
            child = self.best(child_piece, child_items)
            if child is None:
                return None
            children.append(child.node)
            unsafe += child.score[0]
            stages = max(stages, child.score[1])
            size += child.score[2]
            cuts += child.score[3]
            holding += bool(child_items)
        node = CutNode(piece=piece, direction=direction, children=tuple(children))
        own = _passes(node, self._saw.kerf)
        unsafe += sum(not is_safe(cut, self._saw) for cut in own)
        stages += holding > 1
        return _Found((unsafe, stages, size, cuts + len(own)), node)

    def _pieces(
        self, piece: Rectangle, items: tuple[Placement, ...], direction: CutDirection
    ) -> list[tuple[Rectangle, tuple[Placement, ...]]]:
        axis, kerf = _axis(direction), self._saw.kerf
        start, end = _span(piece, axis)
        ordered = sorted(items, key=lambda item: _span(item.place, axis))
        groups: list[list[Placement]] = []
        ends: list[float] = []
        for item in ordered:
            low, high = _span(item.place, axis)
            if groups and low < ends[-1] + kerf - TOUCH:
                groups[-1].append(item)
                ends[-1] = max(ends[-1], high)
            else:
                groups.append([item])
                ends.append(high)
        starts = [_span(group[0].place, axis)[0] for group in groups]
        cut: list[tuple[Rectangle, tuple[Placement, ...]]] = []
        if starts[0] - kerf - start > TOUCH:
            cut.append((_slice(piece, axis, start, starts[0] - kerf), ()))
        for index, group in enumerate(groups):
            following = starts[index + 1] if index + 1 < len(groups) else end + kerf
            high = ends[index]
            gap_end = following - kerf
            gap_start = high + kerf
            if gap_end - high > TOUCH and index + 1 < len(groups) and gap_end - gap_start <= TOUCH:
                high = gap_end
            cut.append((_slice(piece, axis, starts[index], high), tuple(group)))
            if gap_end - gap_start > TOUCH:
                cut.append((_slice(piece, axis, gap_start, gap_end), ()))
        return cut


def is_usable(piece: Rectangle, saw: Saw) -> bool:
    """Whether an offcut is worth keeping."""
    return (
        piece.length >= saw.usable_length - TOUCH
        and piece.width >= saw.usable_width - TOUCH
        and piece.area > TOUCH
    )


def is_safe(cut: NumberedCut, saw: Saw) -> bool:
    """Whether the piece in hand is long enough for this cut."""
    shortest = saw.shortest_rip if cut.direction is CutDirection.RIP else saw.shortest_crosscut
    return cut.workpiece.length >= shortest - TOUCH


def numbered_cuts(tree: CutNode, kerf: float) -> tuple[NumberedCut, ...]:
    """All passes of the saw in the order they are made, numbered from 1."""
    passes: list[NumberedCut] = []

    def walk(node: CutNode) -> None:
        passes.extend(_passes(node, kerf))
        for child in node.children:
            walk(child)

    walk(tree)
    return tuple(
        NumberedCut(
            number=number,
            direction=cut.direction,
            workpiece=cut.workpiece,
            position=cut.position,
            kerf=cut.kerf,
        )
        for number, cut in enumerate(passes, start=1)
    )


def leaves(tree: CutNode) -> tuple[CutNode, ...]:
    """The pieces that are cut no further, in the order they come free."""
    if not tree.children:
        return (tree,)
    return tuple(leaf for child in tree.children for leaf in leaves(child))


def _passes(node: CutNode, kerf: float) -> list[NumberedCut]:
    if node.direction is None:
        return []
    axis = _axis(node.direction)
    start, end = _span(node.piece, axis)
    passes: list[NumberedCut] = []
    hand = start

    def add(position: float) -> None:
        workpiece = _slice(node.piece, axis, hand, end)
        passes.append(
            NumberedCut(
                number=0,
                direction=node.direction or CutDirection.RIP,
                workpiece=workpiece,
                position=position,
                kerf=kerf,
            )
        )

    for index, child in enumerate(node.children):
        low, high = _span(child.piece, axis)
        if index == 0 and low - start > TOUCH:
            add(low - kerf)
            hand = low
        if end - high > TOUCH:
            add(high)
            hand = high + kerf
    return passes


def _axis(direction: CutDirection) -> int:
    return 1 if direction is CutDirection.RIP else 0


def _span(piece: Rectangle, axis: int) -> tuple[float, float]:
    return (piece.x, piece.x_end) if axis == 0 else (piece.y, piece.y_end)


def _slice(piece: Rectangle, axis: int, low: float, high: float) -> Rectangle:
    if axis == 0:
        return Rectangle(x=low, y=piece.y, length=high - low, width=piece.width)
    return Rectangle(x=piece.x, y=low, length=piece.length, width=high - low)


def _same(first: Rectangle, second: Rectangle) -> bool:
    return (
        abs(first.x - second.x) <= TOUCH
        and abs(first.y - second.y) <= TOUCH
        and abs(first.length - second.length) <= TOUCH
        and abs(first.width - second.width) <= TOUCH
    )
