"""From boards to rough blanks: the cuts of the cutting plan, and the planing before them.

A board is planed whole where all that comes off it has one thickness: what is long lies better on
the machines than what is cut from it. A board's frame is the plan's: x from the end the tape was
hooked on, y from the straight edge, z from its lower face.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.joints.relation import clean
from furniture.making import rigs
from furniture.making.in_hand import within_limits
from furniture.making.operations import After, Axis, InHand, Kind, Operation, SizeOf, Stage
from furniture.making.resawing import face_takes_mm, with_resawing
from furniture.making.settings import Guide, Hold, Parallel, Skim, Slice, Surface
from furniture.making.strips import (
    FLAT_ENOUGH_MM,
    MEASURED_ALIKE_MM,
    GluedUp,
    glued_from_strips,
    glued_up_of,
)
from furniture.making.strips_in_hand import StripsInHand, glued_up_in_hand
from furniture.making.units import EDGE_SHARE, Left, Unit
from furniture.making.why import Why
from furniture.making.workpieces import Wood, Workpiece, board_id
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector
from furniture.rules import Rules
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan, CutDirection, NumberedCut, Placement, Rectangle
from furniture.shop.cutting.values import Board
from furniture.shop.tools.values import ShopRead

_SAME_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class BrokenOut:
    """Units as they come off the boards or are glued up, the boards, and what is done to them.

    `thicknessed` are the units that have their thickness when they come off their board; `frames`
    says of each unit what it is as wood, `glued` which of them are of strips.
    """

    units: tuple[Unit, ...]
    workpieces: tuple[Workpiece, ...]
    operations: tuple[Operation, ...]
    frames: Mapping[str, Workpiece]
    thicknessed: frozenset[str]
    glued: tuple[GluedUp, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cutout:
    """A unit and where it lies on its board."""

    unit: Unit
    placement: Placement


def broken_out(
    units: Sequence[Unit],
    outcome: CuttingOutcome | None,
    shop: ShopRead,
    rules: Rules,
    in_strips: Collection[StripsInHand] = (),
) -> BrokenOut:
    """The units off their boards, as the plan lays them, those of strips once they are glued up.

    Args:
        units: of the piece.
        outcome: the cutting plan; None leaves units that are bought or lie there as asked for.
        shop: what boards are planed with, and strips jointed.
        rules: the shop's limits.
        in_strips: what is off its boards in strips.
    """
    there = tuple(glued_up_in_hand(units, in_strips))
    planned = () if outcome is None else glued_up_of(units, outcome, rules)
    glued = (*there, *planned)
    changed = {each.unit.id: each.unit for whole in there for each in whole.strips}
    frames = {name: _by_itself(unit) for name, unit in changed.items()}
    wood: list[Workpiece] = []
    operations: list[Operation] = []
    thicknessed: set[str] = set()
    for plan, board, cutouts in _laid(units, planned, outcome):
        to_thickness = with_resawing(_planed(board, cutouts, rules), _whole(board), shop, rules)
        planed = tuple(
            within_limits(each, wood_before, shop, rules)
            for each, wood_before in _in_hand(board, to_thickness)
        )
        if planed:
            thicknessed |= {each.unit.id for each in cutouts}
        height = _height_after(board, planed, cutouts)
        for cutout in cutouts:
            unit = _as_laid(cutout, height, rules)
            changed[unit.id] = unit
            frames[unit.id] = _in_board(unit, cutout.placement, height, board)
        wood.append(_board(board, board.thickness_mm if planed else height[1]))
        operations += planed
        sawn = _Sawing(plan, cutouts, planed, height)
        operations += sawn.operations
        wood += sawn.workpieces()
    operations += _glued(glued, changed, operations, shop, rules)
    for whole in glued:
        of = whole.unit.instances
        wood += [replace(frames[each.unit.id], instances=of) for each in whole.strips]
        changed[whole.unit.id], frames[whole.unit.id] = whole.unit, whole.workpiece
    return BrokenOut(
        units=tuple(changed.get(unit.id, unit) for unit in units),
        workpieces=tuple(wood),
        operations=tuple(operations),
        frames=frames,
        thicknessed=frozenset(thicknessed),
        glued=glued,
    )


def _laid(
    units: Sequence[Unit], glued: Iterable[GluedUp], outcome: CuttingOutcome | None
) -> Iterator[tuple[BoardPlan, Board, list[_Cutout]]]:
    """Every board that the plan begins, and what lies on it."""
    if outcome is None:
        return
    by_instances = {unit.instances: unit for unit in units}
    strips = {each.laid: each.unit for whole in glued for each in whole.strips}
    boards = outcome.job.board_named
    for plan in outcome.used:
        found = [
            (strips.get(laid) if laid.strip else by_instances.get(outcome.laid(laid).instances),
             laid)
            for laid in plan.placements
        ]  # fmt: skip
        yield (
            plan,
            boards[plan.board],
            [_Cutout(unit=unit, placement=laid) for unit, laid in found if unit is not None],
        )


def _glued(
    glued: Sequence[GluedUp],
    as_laid: Mapping[str, Unit],
    sawn: Sequence[Operation],
    shop: ShopRead,
    rules: Rules,
) -> Iterator[Operation]:
    """What makes one piece of wood of the strips of each part."""
    cut_by = {name: each.key for each in sawn for name in each.gives}
    for each in glued:
        yield from glued_from_strips(each, as_laid, cut_by, shop, rules)


def key_of_cut(board: str, number: int) -> str:
    """What the operation is called that makes a cut of a board's sheet.

    Args:
        board: its name.
        number: of the cut there.
    """
    return f"{board_id(board)}: cut {number}"


def _board(board: Board, thickness_mm: float) -> Workpiece:
    return Workpiece(
        id=board_id(board.name),
        what=Wood.BOARD,
        instances=(),
        low=(0.0, 0.0, 0.0),
        high=(board.length_mm, board.greatest_width_mm, thickness_mm),
        board=board.name,
    )


def _whole(board: Board) -> InHand:
    """A board in hand, before anything comes off it."""
    return InHand(
        length_mm=board.length_mm, width_mm=board.greatest_width_mm, thickness_mm=board.thickness_mm
    )


def _in_hand(board: Board, planed: Iterable[Operation]) -> Iterator[tuple[Operation, InHand]]:
    """Each with the board as it is by then: a face that was jointed has taken its share."""
    wood = _whole(board)
    for each in planed:
        yield each, wood
        if isinstance(each.setting, Surface):
            wood = replace(wood, thickness_mm=wood.thickness_mm - each.setting.takes_mm)
        if isinstance(each.setting, Slice):
            wood = replace(wood, thickness_mm=each.setting.at_mm)


def _planed(board: Board, cutouts: Sequence[_Cutout], rules: Rules) -> tuple[Operation, ...]:
    """What brings the whole board to the thickness of all that comes off it."""
    wanted = {each.unit.blank.thickness_mm for each in cutouts}
    if len(wanted) != 1:
        return ()
    thick = wanted.pop()
    off = board.thickness_mm - thick
    if off <= MEASURED_ALIKE_MM:
        return ()
    name = board_id(board.name)
    made = []
    if off > FLAT_ENOUGH_MM:
        made.append(
            Operation(
                key=f"{name}: joint a face",
                kind=Kind.JOINT_FACE,
                stage=Stage.BREAK_OUT,
                takes=(name,),
                gives=(name,),
                rig=rigs.JOINTED,
                hold=Hold(down=Face.BACK_SIDE),
                setting=Surface(face=Face.BACK_SIDE, takes_mm=face_takes_mm(off, rules)),
            )
        )
    made.append(
        Operation(
            key=f"{name}: plane",
            kind=Kind.PLANE,
            stage=Stage.BREAK_OUT,
            takes=(name,),
            gives=(name,),
            rig=rigs.PLANED,
            hold=Hold(down=Face.BACK_SIDE),
            setting=Parallel(off=Face.BACK_SIDE, at_mm=thick),
            sizes=tuple(
                SizeOf(instance, Axis.THICKNESS)
                for each in cutouts
                for instance in each.unit.instances
            ),
            after=tuple(After(each.key, Why.FLAT_FIRST) for each in made),
        )
    )
    return tuple(made)


def _height_after(
    board: Board, planed: Sequence[Operation], cutouts: Sequence[_Cutout]
) -> tuple[float, float]:
    """From where to where the board's wood is once it is planed [mm].

    One that calipers call as thick as what comes off it is just that.
    """
    low = 0.0
    for each in planed:
        if isinstance(each.setting, Surface):
            low += each.setting.takes_mm
        if isinstance(each.setting, Parallel):
            return low, low + each.setting.at_mm
    thick = {each.unit.blank.thickness_mm for each in cutouts}
    is_alike = len(thick) == 1 and board.thickness_mm - max(thick) <= MEASURED_ALIKE_MM
    return (0.0, max(thick)) if is_alike else (0.0, board.thickness_mm)


def _as_laid(cutout: _Cutout, height: tuple[float, float], rules: Rules) -> Unit:
    """The unit with the wood that its place on the board leaves on it."""
    unit, laid = cutout.unit, cutout.placement
    size = (laid.place.length_mm, laid.place.width_mm)
    long, wide = size[::-1] if laid.is_turned else size
    over = clean(height[1] - height[0] - unit.blank.thickness_mm)  # dust is no wood to plane
    low_x = min(unit.left.low[0], max(0.0, long - unit.blank.length_mm))
    low_y = EDGE_SHARE * max(0.0, wide - unit.blank.width_mm) if unit.members else unit.left.low[1]
    below = face_takes_mm(over, rules)
    low: Vector = (low_x, low_y, below)
    high: Vector = (
        long - unit.blank.length_mm - low_x,
        wide - unit.blank.width_mm - low_y,
        clean(over - below),
    )
    return replace(unit, left=Left(low=low, high=high))


def as_thick(unit: Unit, thick_mm: Mapping[str, float], rules: Rules) -> Unit:
    """The unit with the thickness that its wood still has; as it is where nothing is told of it.

    Args:
        unit: whose wood may be off its board already.
        thick_mm: of wood, by the instances that come off it.
        rules: how much a face takes.
    """
    told = [thick_mm[name] for name in unit.instances if name in thick_mm]
    over = max(told, default=0.0) - unit.blank.thickness_mm
    if over <= MEASURED_ALIKE_MM:
        return unit
    below = face_takes_mm(over, rules)
    low, high = unit.left.low, unit.left.high
    left = Left(low=(*low[:2], below), high=(*high[:2], clean(over - below)))
    return replace(unit, left=left)


def _by_itself(unit: Unit) -> Workpiece:
    """The unit's wood, whatever it comes from."""
    size, low, high = unit.blank.size, unit.left.low, unit.left.high
    return Workpiece(
        id=unit.id,
        what=unit.what,
        instances=unit.instances,
        low=(-low[0], -low[1], -low[2]),
        high=(size[0] + high[0], size[1] + high[1], size[2] + high[2]),
    )


def _in_board(unit: Unit, laid: Placement, height: tuple[float, float], board: Board) -> Workpiece:
    """The unit's frame in that of its board, turned and flipped as it lies."""
    at, axes = lie_of(laid, height, unit.left.low)
    return replace(_by_itself(unit), source=board_id(board.name), at_mm=at, axes=axes)


def lie_of(
    laid: Placement, height: tuple[float, float], low: Vector
) -> tuple[Vector, tuple[Vector, Vector, Vector]]:
    """Where the corner of a finished part lies in its board's frame [mm], and its axes there.

    Args:
        laid: its rough wood on the board, turned and flipped as it lies.
        height: from where to where the board's wood is [mm].
        low: rough wood before the part along it, across it and below it [mm].
    """
    place = laid.place
    up: Vector = (0.0, 0.0, -1.0 if laid.is_flipped else 1.0)
    if laid.is_turned:
        along: Vector = (0.0, 1.0, 0.0)
        across: Vector = (1.0 if laid.is_flipped else -1.0, 0.0, 0.0)
    else:
        along = (1.0, 0.0, 0.0)
        across = (0.0, -1.0 if laid.is_flipped else 1.0, 0.0)
    corner = [place.x_mm, place.y_mm, height[0]]
    far = [place.x_end_mm, place.y_end_mm, height[1]]
    at = [0.0, 0.0, 0.0]
    for axis, way in enumerate((along, across, up)):
        on = max(range(3), key=lambda each: abs(way[each]))
        start = corner[on] if way[on] > 0 else far[on]
        at[on] = start + way[on] * low[axis]
    return (at[0], at[1], at[2]), (along, across, up)


class _Sawing:
    """The numbered cuts of one board, with a name for every piece that comes of them."""

    def __init__(
        self,
        plan: BoardPlan,
        cutouts: Sequence[_Cutout],
        planed: Sequence[Operation],
        height: tuple[float, float],
    ) -> None:
        self.board = plan.board
        self.height, self.thick = height, height[1] - height[0]
        self.units = [(each.placement.place, each.unit.id) for each in cutouts]
        whole = plan.cuts[0].workpiece if plan.cuts else plan.tree.piece
        self.pieces: dict[str, Rectangle] = {board_id(plan.board): whole}
        self.maker: dict[str, After] = {
            board_id(plan.board): After(each.key, Why.THICKNESS_FIRST) for each in planed
        }
        self.others: dict[str, Rectangle] = {}
        self.operations = tuple(self._cut(cut) for cut in plan.cuts)

    def _cut(self, cut: NumberedCut) -> Operation:
        wood = min(self.pieces, key=lambda name: _apart(self.pieces[name], cut.workpiece))
        low, high = _halves(cut)
        crosses = cut.direction is CutDirection.CROSSCUT
        off = Face.NAMED_END if crosses else Face.FACE_EDGE
        at = cut.position_mm - (cut.workpiece.x_mm if crosses else cut.workpiece.y_mm)
        key = key_of_cut(self.board, cut.number)
        before = self.maker.get(wood)
        del self.pieces[wood]
        setting: Slice | Skim
        if low is None:
            setting = Skim(face=off, takes_mm=at + cut.kerf_mm, kerf_mm=cut.kerf_mm)
        else:
            setting = Slice(off=off, at_mm=at, kerf_mm=cut.kerf_mm)
        gives = tuple(
            self._named(each, cut.number, wood, end)
            for each, end in ((low, "near"), (high, "far"))
            if each is not None
        )
        self.maker |= dict.fromkeys(gives, After(key, Why.SAME_WOOD))
        return Operation(
            key=key,
            kind=Kind.CROSSCUT if crosses else Kind.RIP,
            stage=Stage.BREAK_OUT,
            takes=(wood,),
            gives=gives,
            rig=rigs.sawn(Guide.SLED if crosses else Guide.FENCE),
            hold=Hold(down=Face.BACK_SIDE),
            setting=setting,
            after=() if before is None else (before,),
            is_rough=True,
            in_hand=InHand(
                length_mm=cut.workpiece.length_mm,
                width_mm=cut.workpiece.width_mm,
                thickness_mm=self.thick,
            ),
        )

    def _named(self, piece: Rectangle, number: int, wood: str, end: str) -> str:
        laid = (unit for place, unit in self.units if _apart(place, piece) < _SAME_MM)
        name = next(laid, None)
        if name is None and end == "far" and wood == board_id(self.board):
            name = wood  # a trimmed board is still that board
        if name is None:
            name = f"{board_id(self.board)}, {end} piece of cut {number}"
            self.others[name] = piece
        self.pieces[name] = piece
        return name

    def workpieces(self) -> Iterator[Workpiece]:
        """What comes of the cuts and is no unit: pieces cut further, offcuts and waste."""
        for name, piece in self.others.items():
            yield Workpiece(
                id=name,
                what=Wood.OFFCUT,
                instances=(),
                low=(piece.x_mm, piece.y_mm, self.height[0]),
                high=(piece.x_end_mm, piece.y_end_mm, self.height[1]),
                source=board_id(self.board),
            )


def _apart(first: Rectangle, second: Rectangle) -> float:
    return (
        abs(first.x_mm - second.x_mm)
        + abs(first.y_mm - second.y_mm)
        + abs(first.x_end_mm - second.x_end_mm)
        + abs(first.y_end_mm - second.y_end_mm)
    )


def _halves(cut: NumberedCut) -> tuple[Rectangle | None, Rectangle | None]:
    """What lies before the kerf and beyond it; None where nothing does."""
    piece, start, end = cut.workpiece, cut.position_mm, cut.position_mm + cut.kerf_mm
    if cut.direction is CutDirection.CROSSCUT:
        low = replace(piece, length_mm=start - piece.x_mm)
        high = replace(piece, x_mm=end, length_mm=piece.x_end_mm - end)
        return (
            low if low.length_mm > _SAME_MM else None,
            high if high.length_mm > _SAME_MM else None,
        )
    low = replace(piece, width_mm=start - piece.y_mm)
    high = replace(piece, y_mm=end, width_mm=piece.y_end_mm - end)
    return (low if low.width_mm > _SAME_MM else None, high if high.width_mm > _SAME_MM else None)
