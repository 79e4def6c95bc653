"""A board's cuts as they are made at the saw: the piece in hand, the setting, what comes off.

A setting is the distance from an edge or an end of the piece in hand to the blade, so the piece
between fence or stop and blade comes out as wide or as long as it is set; the kerf is lost beyond.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

from shapely.geometry import Polygon, box

from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import (
    BoardPlan,
    CutDirection,
    CutNode,
    LeafUse,
    NumberedCut,
    Rectangle,
)
from furniture.shop.cutting.tree import slice_of, span
from furniture.shop.cutting.values import Board
from furniture.shop.cutting.zones import are_same, is_within, outline_of

THIN_MM = 5.0
"""A strip narrower than this is not ripped between fence and blade [mm]. Own rule."""
_DUST_MM = 0.05
_SAME_MM = 1e-4


class Guide(Enum):
    """What gives a cut its place."""

    FENCE = "fence"
    STOP = "stop"
    MARK = "mark"
    PLANE = "plane"


class PieceKind(Enum):
    """What a piece is."""

    BOARD = "board"
    PIECE = "piece"
    PART = "part"
    OFFCUT = "offcut"
    WASTE = "waste"


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A piece of the board: what it is called, its place, and its size where it is widest."""

    name: str
    kind: PieceKind
    place: Rectangle
    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SawStep:
    """One cut.

    guide: fence for a rip, stop for a crosscut; mark where the end in hand is rough; plane where
    the strip is too thin to rip. setting_mm: from `against` to the blade, for `plane` what is
    taken off. is_from_far: the upper edge or the right end is the one against fence or stop.
    comes_off: leaves the hand, none when it is dust; goes_on: is cut on or is what is left.
    cut: where it lies on the board.
    """

    piece: Held
    guide: Guide
    setting_mm: float
    against: str
    is_from_far: bool
    comes_off: Held | None
    goes_on: Held | None
    cut: NumberedCut


@lru_cache(maxsize=1024)
def saw_steps(outcome: CuttingOutcome, plan: BoardPlan) -> tuple[SawStep, ...]:
    """The steps at the saw for one board, in order."""
    board = outcome.job.board_named[plan.board]
    names = _Names(outcome, plan, board)
    steps: list[SawStep] = []
    for index, cut in enumerate(plan.cuts):
        steps.append(_step(cut, steps, plan.cuts[index + 1 :], board, names))
    return tuple(steps)


def _step(
    cut: NumberedCut,
    before: Sequence[SawStep],
    after: Sequence[NumberedCut],
    board: Board,
    names: _Names,
) -> SawStep:
    near, far = _sides(cut)
    piece = names.held(cut.workpiece, names.in_hand(cut.workpiece))
    held = [_beside(side, after, names) for side in (near, far)]
    guide, setting, against, is_from_far = _setting(cut, before)
    if guide is Guide.PLANE:
        held[0] = None
    goes_on_low = not _is_cut(far, after) and _is_cut(near, after)
    goes_on_low |= held[1] is None or (
        held[0] is not None
        and held[1].kind is PieceKind.WASTE
        and held[0].kind is not PieceKind.WASTE
        and not _is_cut(far, after)
    )
    comes_off, goes_on = (held[1], held[0]) if goes_on_low else (held[0], held[1])
    return SawStep(
        piece=piece,
        guide=guide,
        setting_mm=setting,
        against=against,
        is_from_far=is_from_far,
        comes_off=comes_off,
        goes_on=goes_on,
        cut=cut,
    )


def _beside(side: Rectangle | None, after: Sequence[NumberedCut], names: _Names) -> Held | None:
    """The piece beside a cut; none where there is only dust, or no wood on a tapering board."""
    if side is None:
        return None
    held = names.piece(side, is_cut_on=_is_cut(side, after))
    return held if min(held.length_mm, held.width_mm) > _DUST_MM else None


def _sides(cut: NumberedCut) -> tuple[Rectangle | None, Rectangle | None]:
    """What lies before and behind the kerf; none where there is only dust."""
    start, end = span(cut.workpiece, cut.direction)
    near, far = (
        slice_of(cut.workpiece, cut.direction, low, high) if high - low > _DUST_MM else None
        for low, high in ((start, cut.position_mm), (cut.position_mm + cut.kerf_mm, end))
    )
    return near, far


def _is_cut(place: Rectangle | None, after: Sequence[NumberedCut]) -> bool:
    """Whether this very piece goes to the saw again."""
    return place is not None and any(are_same(place, each.workpiece, _SAME_MM) for each in after)


def _setting(cut: NumberedCut, before: Sequence[SawStep]) -> tuple[Guide, float, str, bool]:
    """What guides the cut, the setting [mm], what is against it, and whether that is the far side.

    The near side is against the fence or the stop, unless it is a thin strip and the far side is
    sawn.
    """
    is_rip = cut.direction is CutDirection.RIP
    start, end = span(cut.workpiece, cut.direction)
    near, far = cut.position_mm - start, end - cut.position_mm - cut.kerf_mm
    least = THIN_MM if is_rip else _DUST_MM
    sawn_near, sawn_far = _sawn(cut, before, start), _sawn(cut, before, end)
    word = "edge" if is_rip else "end"
    if near < least and sawn_far is not None:
        guide = Guide.FENCE if is_rip else Guide.STOP
        return guide, far, f"{word} {_how(sawn_far)}", True
    if sawn_near is not None:
        against = f"{word} {_how(sawn_near)}"
    elif is_rip:
        against = "jointed edge"
    else:
        against = "tape end"
    if near < least:
        return Guide.PLANE, near + cut.kerf_mm, against, False
    if is_rip:
        return Guide.FENCE, near, against, False
    return (Guide.MARK if sawn_near is None else Guide.STOP), near, against, False


def _sawn(cut: NumberedCut, before: Sequence[SawStep], at: float) -> SawStep | None:
    """The cut that made this side of the piece in hand; none when none did."""
    for each in reversed(before):
        if each.cut.direction is not cut.direction:
            continue
        faces = (each.cut.position_mm, each.cut.position_mm + each.cut.kerf_mm)
        if any(abs(face - at) < _SAME_MM for face in faces) and _spans(each.cut, cut):
            return each
    return None


def _how(step: SawStep) -> str:
    return f"of cut {step.cut.number}"


def _spans(earlier: NumberedCut, cut: NumberedCut) -> bool:
    """Whether an earlier cut in the same direction runs all along the piece in hand."""
    start, end = span(earlier.workpiece, cut.direction.across)
    low, high = span(cut.workpiece, cut.direction.across)
    return start <= low + _SAME_MM and end >= high - _SAME_MM


class _Names:
    """What the pieces of a board are called: parts by name, offcuts by letter, else A-1, A-2."""

    def __init__(self, outcome: CuttingOutcome, plan: BoardPlan, board: Board) -> None:
        self._board = board
        self._wood = Polygon(outline_of(board))
        self._known: list[tuple[Rectangle, str, PieceKind]] = []
        self._count = 0
        usable = [each.place for each in plan.offcuts if each.is_usable]
        self._letters = [(place, offcut_key(index)) for index, place in enumerate(usable)]
        self._labels = {id(placement): outcome.name_of(placement) for placement in plan.placements}
        self._walk(plan.tree, board.name, PieceKind.BOARD)

    def _walk(self, node: CutNode, name: str, kind: PieceKind) -> None:
        if not node.children:
            self._known.append(self._leaf(node))
            return
        self._known.append((node.piece, name, kind))
        kept = [each for each in node.children if each.use is not LeafUse.WASTE]
        named: list[tuple[CutNode, str, PieceKind]] = []
        for child in node.children:
            if len(kept) == 1 or not child.children:
                named.append((child, name, kind))
                continue
            self._count += 1
            named.append((child, f"{self._board.name}-{self._count}", PieceKind.PIECE))
        for each in named:
            self._walk(*each)

    def _leaf(self, node: CutNode) -> tuple[Rectangle, str, PieceKind]:
        if node.placement is not None:
            label = self._labels.get(id(node.placement), node.placement.part)
            return node.piece, label, PieceKind.PART
        for place, letter in self._letters:
            if (
                abs(place.x_mm - node.piece.x_mm) < _SAME_MM
                and abs(place.y_mm - node.piece.y_mm) < _SAME_MM
            ):
                return node.piece, f"offcut {letter}", PieceKind.OFFCUT
        return node.piece, "waste", PieceKind.WASTE

    def in_hand(self, place: Rectangle) -> tuple[str, PieceKind]:
        """What a piece that goes to the saw is called: a node's name, or of the node it is of."""
        found = self._of(place)
        if found is not None:
            return found
        node = min(
            (each for each in self._known if is_within(place, each[0], _SAME_MM)),
            key=lambda each: each[0].area_mm2,
        )
        return node[1], node[2]

    def _of(self, place: Rectangle) -> tuple[str, PieceKind] | None:
        for known, name, kind in self._known:
            if are_same(known, place, _SAME_MM):
                return name, kind
        return None

    def piece(self, place: Rectangle, *, is_cut_on: bool) -> Held:
        """A piece beside a cut: what it will be, or the rest of the piece in hand."""
        found = self._of(place)
        if found is None:
            found = self.in_hand(place) if is_cut_on else ("waste", PieceKind.WASTE)
        return self.held(place, found)

    def held(self, place: Rectangle, called: tuple[str, PieceKind]) -> Held:
        """The piece with its size where there is wood, at its longest and its widest."""
        low = box(place.x_mm, place.y_mm, place.x_end_mm, place.y_end_mm)
        wood = self._wood.intersection(low)
        x, y, x_end, y_end = (0.0, 0.0, 0.0, 0.0) if wood.is_empty else wood.bounds
        return Held(
            name=called[0], kind=called[1], place=place, length_mm=x_end - x, width_mm=y_end - y
        )


def offcut_key(index: int) -> str:
    """The letter of an offcut worth keeping: a, b, c ..."""
    letters = "abcdefghijklmnopqrstuvwxyz"
    return letters[index] if index < len(letters) else f"a{offcut_key(index - len(letters))}"


def part_key(index: int) -> str:
    """What stands for a part: P1, P2 ..."""
    return f"P{index + 1}"


def zone_key(index: int) -> str:
    """What stands for a zone: Z1, Z2 ..."""
    return f"Z{index + 1}"
