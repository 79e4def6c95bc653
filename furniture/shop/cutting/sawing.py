"""How to saw a layout: the tree of cuts that frees every part and holds no piece unsafely.

Waste may stay on a piece until a later pass, so that the piece in hand is long and wide enough: a
strip is ripped before it is cut to length, and a small part leaves a long strip last. No rip
leaves a strip of waste thinner than the kerf: so little is taken as dust, in two passes if need be.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from furniture.shop.cutting.plan import CutDirection, CutNode, LeafUse, Placement, Rectangle
from furniture.shop.cutting.tree import is_held_safely, is_usable, slice_of, span, worth_of_offcut
from furniture.shop.cutting.values import Saw, Stages
from furniture.shop.cutting.zones import TOUCH, are_same

MOST_PIECES = 6000
"""After so many pieces looked at, the first safe order of cuts is taken. Own rule."""

_Parts = tuple[Placement, ...]
_Score = tuple[int, int, float]
"""Unsafe passes, changes of direction that part parts, passes less what the offcuts are worth."""


@dataclass(frozen=True, slots=True)
class _Found:
    score: _Score
    node: CutNode


@dataclass(frozen=True, slots=True)
class _Pass:
    """One pass of the saw: the piece before it, and the pieces after it with their parts."""

    direction: CutDirection
    workpiece: Rectangle
    after: tuple[tuple[Rectangle, _Parts], ...]

    @property
    def parts_parts(self) -> bool:
        """Whether parts lie on both sides of it."""
        return sum(bool(parts) for _, parts in self.after) > 1


def cut_tree(
    piece: Rectangle,
    placements: Sequence[Placement],
    saw: Saw,
    stages: Stages = Stages.THREE,
) -> CutNode | None:
    """The tree of cuts that frees all placements from the piece; None when no saw can.

    Fewest unsafe passes first, then fewest changes of direction, then fewest passes against the
    largest offcuts.

    Args:
        placements: inside it, a kerf apart.
        stages: changes of direction that part parts; one more is left for the last trim.
    """
    search = _Search(piece, saw, stages.value + 1)
    found = search.best(piece, tuple(placements), None)
    return None if found is None else _flat(found.node)


def trimmed_tree(
    board: Rectangle,
    frame: Rectangle,
    placements: Sequence[Placement],
    saw: Saw,
    stages: Stages = Stages.THREE,
) -> CutNode | None:
    """As cut_tree, with ends and then edges of the board trimmed to the frame first.

    An end with no part at it is left on: the cut that frees the parts takes it off with the rest.
    """
    frame = _with_free_ends(board, frame, placements)
    inner = cut_tree(frame, placements, saw, stages)
    if inner is None:
        return None
    full_width = Rectangle(
        x_mm=frame.x_mm, y_mm=board.y_mm, length_mm=frame.length_mm, width_mm=board.width_mm
    )
    edged = _near_trimmed(full_width, inner, CutDirection.RIP, saw)
    return _flat(_near_trimmed(board, edged, CutDirection.CROSSCUT, saw))


def _with_free_ends(
    board: Rectangle, frame: Rectangle, placements: Sequence[Placement]
) -> Rectangle:
    """The frame, reaching to those ends of the board where no part lies at the trim."""
    first = min(placement.place.x_mm for placement in placements)
    last = max(placement.place.x_end_mm for placement in placements)
    start = board.x_mm if first > frame.x_mm + TOUCH else frame.x_mm
    end = board.x_end_mm if last < frame.x_end_mm - TOUCH else frame.x_end_mm
    return Rectangle(x_mm=start, y_mm=frame.y_mm, length_mm=end - start, width_mm=frame.width_mm)


def _near_trimmed(piece: Rectangle, inner: CutNode, direction: CutDirection, saw: Saw) -> CutNode:
    """The inner node after the piece's near side, and then its far side, is trimmed to it."""
    low, _ = span(inner.piece, direction)
    start, end = span(piece, direction)
    lead = low - start
    if lead <= TOUCH:
        return _far_trimmed(piece, inner, direction, saw)
    if _is_sliver(lead, direction, saw):
        rest = slice_of(piece, direction, low - saw.kerf_mm, end)
        child = _near_trimmed(rest, inner, direction, saw)
        return CutNode(piece=piece, direction=direction, children=(child,))
    child = _far_trimmed(slice_of(piece, direction, low, end), inner, direction, saw)
    waste = _waste(slice_of(piece, direction, start, low - saw.kerf_mm), direction)
    return CutNode(piece=piece, direction=direction, children=(*waste, child))


def _far_trimmed(piece: Rectangle, inner: CutNode, direction: CutDirection, saw: Saw) -> CutNode:
    high, (start, end) = span(inner.piece, direction)[1], span(piece, direction)
    tail = end - high
    if tail <= TOUCH:
        return inner
    if _is_sliver(tail, direction, saw):
        rest = slice_of(piece, direction, start, high + saw.kerf_mm)
        child = _far_trimmed(rest, inner, direction, saw)
        return CutNode(piece=piece, direction=direction, children=(child,))
    waste = _waste(slice_of(piece, direction, high + saw.kerf_mm, end), direction)
    return CutNode(piece=piece, direction=direction, children=(inner, *waste))


def _waste(piece: Rectangle, direction: CutDirection) -> tuple[CutNode, ...]:
    low, high = span(piece, direction)
    return (CutNode(piece=piece, use=LeafUse.WASTE),) if high - low > TOUCH else ()


def _is_sliver(margin: float, direction: CutDirection, saw: Saw) -> bool:
    """Whether one pass that takes off a margin [mm] would leave a strip thinner than the kerf."""
    strip = margin - saw.kerf_mm
    return direction is CutDirection.RIP and TOUCH < strip < saw.kerf_mm - TOUCH


def _flat(node: CutNode) -> CutNode:
    """The tree with passes of one direction that go on along a piece as one node."""
    if not node.children:
        return node
    children = tuple(_flat(child) for child in node.children)
    last, direction = children[-1], node.direction
    if last.direction is direction and direction is not None:
        reaches_end = span(last.piece, direction)[1] >= span(node.piece, direction)[1] - TOUCH
        begins = (
            span(last.children[0].piece, direction)[0] <= span(last.piece, direction)[0] + TOUCH
        )
        if reaches_end and begins:
            children = (*children[:-1], *last.children)
    return CutNode(piece=node.piece, direction=direction, children=children)


class _Search:
    def __init__(self, piece: Rectangle, saw: Saw, most_stages: int) -> None:
        self._saw = saw
        self._most_stages = most_stages
        self._whole = piece
        self._known: dict[tuple[object, ...], _Found | None] = {}

    def best(self, piece: Rectangle, parts: _Parts, last: CutDirection | None) -> _Found | None:
        """The best way to go on with a piece; last: the direction that parted parts before."""
        if not parts:
            return self._offcut(piece)
        if len(parts) == 1 and are_same(piece, parts[0].place):
            leaf = CutNode(piece=piece, use=LeafUse.PART, placement=parts[0])
            return _Found((0, 0, 0.0), leaf)
        corners = (piece.x_mm, piece.y_mm, piece.length_mm, piece.width_mm)
        key = (*(round(corner, 4) for corner in corners), last)
        if key in self._known:
            return self._known[key]
        found: _Found | None = None
        for option in self._passes(piece, parts):
            after = self._after(option, last)
            if after is not None and (found is None or after.score < found.score):
                found = after
            if found is not None and found.score[0] == 0 and len(self._known) > MOST_PIECES:
                break
        self._known[key] = found
        return found

    def _offcut(self, piece: Rectangle) -> _Found:
        use = LeafUse.OFFCUT if is_usable(piece, self._saw) else LeafUse.WASTE
        worth = worth_of_offcut(piece, self._whole, self._saw)
        return _Found((0, 0, -worth), CutNode(piece=piece, use=use))

    def _after(self, option: _Pass, last: CutDirection | None) -> _Found | None:
        turns = option.parts_parts and option.direction is not last
        below = option.direction if option.parts_parts else last
        is_safe = is_held_safely(option.workpiece, option.direction, self._saw)
        unsafe, stages, merit = int(not is_safe), 0, 1.0
        children: list[CutNode] = []
        for piece, parts in option.after:
            found = self.best(piece, parts, below)
            if found is None:
                return None
            unsafe += found.score[0]
            stages = max(stages, found.score[1])
            merit += found.score[2]
            children.append(found.node)
        stages += turns
        if stages > self._most_stages:
            return None
        node = CutNode(piece=option.workpiece, direction=option.direction, children=tuple(children))
        return _Found((unsafe, stages, merit), node)

    def _passes(self, piece: Rectangle, parts: _Parts) -> Iterator[_Pass]:
        """Every pass worth trying, rips first, from the near side to the far one."""
        kerf = self._saw.kerf_mm
        for direction in (CutDirection.RIP, CutDirection.CROSSCUT):
            start, end = span(piece, direction)
            groups = _groups(parts, direction, kerf)
            low, high = groups[0][0], groups[-1][1]
            if low - start > TOUCH:
                yield self._near(piece, parts, direction, low)
            between = list(pairwise(groups))
            for number, ((_, before, here), (following, _, there)) in enumerate(between):
                in_the_middle = 0 < number < len(between) - 1
                if in_the_middle and _across(here, direction) == _across(there, direction):
                    continue  # a row of parts as wide as each other is cut from its ends
                near = tuple(p for g in groups if g[1] <= before + TOUCH for p in g[2])
                far = tuple(p for g in groups if g[1] > before + TOUCH for p in g[2])
                ways = [(before, before + kerf), (following - kerf, following)]
                if following - before - kerf <= TOUCH:
                    ways = [(before, following)]
                for left, right in ways:
                    yield _Pass(
                        direction,
                        piece,
                        (
                            (slice_of(piece, direction, start, left), near),
                            (slice_of(piece, direction, right, end), far),
                        ),
                    )
            if end - high > TOUCH:
                yield self._far(piece, parts, direction, high)

    def _near(self, piece: Rectangle, parts: _Parts, direction: CutDirection, low: float) -> _Pass:
        start, end = span(piece, direction)
        kerf = self._saw.kerf_mm
        if _is_sliver(low - start, direction, self._saw):
            low -= kerf
        rest = (slice_of(piece, direction, low, end), parts)
        if low - kerf - start <= TOUCH:
            return _Pass(direction, piece, (rest,))
        off = slice_of(piece, direction, start, low - kerf)
        return _Pass(direction, piece, ((off, ()), rest))

    def _far(self, piece: Rectangle, parts: _Parts, direction: CutDirection, high: float) -> _Pass:
        start, end = span(piece, direction)
        kerf = self._saw.kerf_mm
        if _is_sliver(end - high, direction, self._saw):
            high += kerf
        rest = (slice_of(piece, direction, start, high), parts)
        if end - high - kerf <= TOUCH:
            return _Pass(direction, piece, (rest,))
        off = slice_of(piece, direction, high + kerf, end)
        return _Pass(direction, piece, (rest, (off, ())))


def _groups(
    parts: _Parts, direction: CutDirection, kerf: float
) -> list[tuple[float, float, _Parts]]:
    """Parts that no pass in this direction comes between, with their near and far end [mm]."""
    groups: list[tuple[float, float, _Parts]] = []
    for part in sorted(parts, key=lambda each: span(each.place, direction)):
        low, high = span(part.place, direction)
        if groups and low < groups[-1][1] + kerf - TOUCH:
            before = groups[-1]
            groups[-1] = (before[0], max(before[1], high), (*before[2], part))
        else:
            groups.append((low, high, (part,)))
    return groups


def _across(parts: _Parts, direction: CutDirection) -> tuple[float, float]:
    """From where to where parts reach along the cuts of a direction [mm]."""
    spans = [span(part.place, direction.across) for part in parts]
    return round(min(low for low, _ in spans), 4), round(max(high for _, high in spans), 4)
