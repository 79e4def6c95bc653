"""The wood, pass by pass, from the boards as boxes to the finished parts: from settings alone.

Only workpieces and operations are read, never the cuts of a part. A workpiece without a source
lies there as a box; one with a source comes into being at the first operation that gives it, in
its own frame, told in that of its source or of what its source comes from; when its id is given
again it is the rest of the same wood in the same frame. What is glued up from strips comes into
being of them, each where it is told to lie: their edges meet. What a slice gives first lies between
its reference and the blade, what it gives second lies beyond the kerf; with one id what lies beyond
is left over. Every other pass gives what it takes. Where nothing is cut, wood goes on as it is, or
several pieces become one body.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any, Protocol

import numpy as np
from manifold3d import Manifold

from furniture.making.operations import CutOf, Operation
from furniture.making.settings import (
    ByHand,
    CornerSlot,
    Flush,
    Slice,
)
from furniture.making.workpieces import Wood, Workpiece
from tests.making.bodies import Standing, taken_of
from tests.making.kernels import Facets, Kernel
from tests.making.passes_joined import CannotBeMade, settings_of

FINE, LIGHT = 720, 48
"""Segments of a full turn: as many as the parts are rebuilt with, and enough for many designs."""
LEAST_MM3 = 0.05
"""Wood that is less than this is none: what rounding leaves."""
_SAME_MM = 1e-5

ByHandTool = Callable[[CutOf], Manifold]
"""What a cut takes away, in the frame of its part."""


class Making(Protocol):
    """What is replayed."""

    @property
    def workpieces(self) -> Sequence[Workpiece]: ...

    @property
    def operations(self) -> Sequence[Operation]: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One pass on one piece of wood: before it, kept, beyond the kerf; in that wood's frame."""

    operation: Operation
    wood: str
    before: Manifold
    kept: Manifold
    beyond: Manifold

    @property
    def taken_mm3(self) -> float:
        """What is no longer in hand: chips and what falls."""
        return float(self.before.volume() - self.kept.volume())


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyStep:
    """One pass on parts that are one body: each of them before it and after, in its own frame."""

    at: int
    operation: Operation
    body: str
    before: Mapping[str, Manifold]
    kept: Mapping[str, Manifold]


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOver:
    """Wood that belongs to no part, in the frame of the board that it comes from."""

    wood: str
    board: str
    solid: Manifold


@dataclass(frozen=True, slots=True, kw_only=True)
class Replayed:
    """What came of the work.

    Args:
        parts: the solid of every instance in its own frame.
        left_over: wood that belongs to none.
        steps: every pass on one piece of wood, in its order.
        body_steps: every pass on parts that are one body, in its order.
        by_hand: cuts that no setting proves.
        untrue: what a workpiece says of itself and the wood does not.
    """

    parts: dict[str, Manifold]
    left_over: tuple[LeftOver, ...]
    steps: tuple[Step, ...]
    by_hand: tuple[CutOf, ...]
    untrue: tuple[str, ...]
    body_steps: tuple[BodyStep, ...] = ()


@dataclass(slots=True)
class _Bench:
    """What lies there while the work goes on."""

    known: dict[str, Workpiece]
    tool: ByHandTool | None
    kernel: Kernel
    standing: Standing
    wood: dict[str, Manifold] = field(default_factory=dict)
    bodies: dict[str, tuple[str, ...]] = field(default_factory=dict)
    joined: dict[str, str] = field(default_factory=dict)
    fallen: list[tuple[str, Manifold]] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    body_steps: list[BodyStep] = field(default_factory=list)
    by_hand: list[CutOf] = field(default_factory=list)
    untrue: list[str] = field(default_factory=list)


def replay(
    making: Making,
    tool: ByHandTool | None = None,
    segments: int = FINE,
    kernel: Kernel | None = None,
    standing: Standing | None = None,
) -> Replayed:
    """The parts and all that is left over.

    Args:
        making: workpieces, and operations in their order.
        tool: what a cut takes that is made by hand; without it such work is refused.
        segments: of a full turn, a multiple of four, where facets stand for what is round.
        kernel: what makes the solids; None is the light one.
        standing: where the parts stand in the piece, where several are sawn as one.

    Raises:
        CannotBeMade: an operation takes wood that is not in hand, or leaves none, or two pieces.
    """
    known = {each.id: each for each in making.workpieces}
    bench = _Bench(known, tool, kernel or Facets(segments), standing or {})
    for piece in making.workpieces:
        if piece.source is None and piece.what is not Wood.SUB_ASSEMBLY and not piece.glued_of:
            bench.wood[piece.id] = bench.kernel.box(piece.low, piece.high)
    for at, operation in enumerate(making.operations):
        _do(bench, at, operation)
    parts = {
        piece.instances[0]: bench.wood[piece.id]
        for piece in making.workpieces
        if piece.what is Wood.PART and piece.id in bench.wood
    }
    return Replayed(
        parts=parts,
        left_over=tuple(_left_over(bench)),
        steps=tuple(bench.steps),
        by_hand=tuple(bench.by_hand),
        untrue=tuple(bench.untrue),
        body_steps=tuple(bench.body_steps),
    )


def _do(bench: _Bench, at: int, operation: Operation) -> None:
    for name in operation.takes:
        if name not in bench.wood and name not in bench.bodies:
            raise CannotBeMade(operation, f"{name} is not in hand")
        if name in bench.joined:
            raise CannotBeMade(operation, f"{name} is in {bench.joined[name]} by then")
    unknown = [name for name in operation.gives if name not in bench.known]
    if unknown:
        raise CannotBeMade(operation, f"nothing is known of {', '.join(unknown)}")
    if operation.setting is None:
        _go_on(bench, operation)
    elif isinstance(operation.setting, CornerSlot | Flush):
        _cut_body(bench, at, operation)
    elif isinstance(operation.setting, Slice):
        _saw_apart(bench, operation, operation.setting)
    else:
        for name, given in zip(operation.takes, _as_many(operation), strict=True):
            _cut(bench, operation, name, given)


def _as_many(operation: Operation) -> tuple[str, ...]:
    if len(operation.gives) != len(operation.takes):
        raise CannotBeMade(operation, "it gives more or fewer pieces than it takes")
    return operation.gives


def _go_on(bench: _Bench, operation: Operation) -> None:
    """Nothing is cut: the wood stays, is called something else, or is joined."""
    if set(operation.gives) == set(operation.takes) or not operation.gives:
        return
    if len(operation.gives) == 1:
        (given,) = operation.gives
        if bench.known[given].what is Wood.SUB_ASSEMBLY:
            bench.bodies[given] = operation.takes
            bench.joined |= dict.fromkeys(operation.takes, given)
            return
        if bench.known[given].glued_of:
            _glue_up(bench, operation, bench.known[given])
            return
        if len(operation.takes) == 1:
            (name,) = operation.takes
            _put(bench, operation, given, name, bench.wood.pop(name))
            return
    raise CannotBeMade(operation, "wood comes apart without a cut")


def _glue_up(bench: _Bench, operation: Operation, whole: Workpiece) -> None:
    """Strips become one piece, in its frame: edge to edge, as long and as thick as one another."""
    if {each.id for each in whole.glued_of} != set(operation.takes):
        raise CannotBeMade(operation, f"{whole.id} is told to be glued of other wood")
    strips = [
        _in_hand(bench, operation, each.id).transform(
            np.column_stack([np.eye(3), np.array(each.at_mm)])
        )
        for each in whole.glued_of
    ]
    edges = [(each.bounding_box()[4], then.bounding_box()[1]) for each, then in pairwise(strips)]
    if any(abs(far - near) > _SAME_MM for far, near in edges):
        raise CannotBeMade(operation, "the edges of its strips do not meet, or would overlap")
    solid = bench.kernel.glued(strips)
    spans = {
        tuple(round(each.bounding_box()[axis + side], 6) for axis in (0, 2) for side in (0, 3))
        for each in strips
    }
    if len(spans) != 1:
        raise CannotBeMade(operation, "the ends or the faces of its strips do not meet")
    for each in whole.glued_of:
        del bench.wood[each.id]
    _lay(bench, operation, whole, solid)


def _saw_apart(bench: _Bench, operation: Operation, setting: Slice) -> None:
    if len(operation.takes) != 1 or not 1 <= len(operation.gives) <= 2:
        raise CannotBeMade(operation, "a blade right through makes two pieces of one at most")
    (name,) = operation.takes
    before = _in_hand(bench, operation, name)
    done = bench.kernel.passed(before, setting)
    bench.steps.append(
        Step(operation=operation, wood=name, before=before, kept=done.kept, beyond=done.beyond)
    )
    del bench.wood[name]
    _put(bench, operation, operation.gives[0], name, done.kept)
    if len(operation.gives) == 2:
        _put(bench, operation, operation.gives[1], name, done.beyond)
    elif done.beyond.volume() > LEAST_MM3:
        bench.fallen.append((name, done.beyond))


def _cut(bench: _Bench, operation: Operation, name: str, given: str) -> None:
    before = _in_hand(bench, operation, name)
    if isinstance(operation.setting, ByHand):
        kept = before
        for each in operation.cuts + operation.begins:
            if each.instance in bench.known[name].instances:
                kept = kept - _by_hand(bench, operation, name, each)
    else:
        kept = before
        for setting in settings_of(operation):
            kept = bench.kernel.passed(kept, setting).kept
    bench.steps.append(
        Step(operation=operation, wood=name, before=before, kept=kept, beyond=Manifold())
    )
    del bench.wood[name]
    _put(bench, operation, given, name, kept)


def _cut_body(bench: _Bench, at: int, operation: Operation) -> None:
    """A pass on parts that are one; each keeps its own wood and its own frame."""
    if len(operation.takes) != 1 or operation.gives != operation.takes:
        raise CannotBeMade(operation, "one body is sawn at a time, and stays one")
    (name,) = operation.takes
    if name not in bench.bodies:
        raise CannotBeMade(operation, f"{name} is no body of several parts")
    woods = {bench.known[each].instances[0]: each for each in _woods_of(bench, name)}
    before = {instance: bench.wood[each] for instance, each in woods.items()}
    setting = operation.setting
    named = (
        {setting.of}
        if isinstance(setting, CornerSlot)
        else {each.instance for each in operation.cuts}
    )
    if named - set(before):
        raise CannotBeMade(operation, f"{', '.join(sorted(named - set(before)))} is not in {name}")
    kept = dict(before)
    for instance, prisms in taken_of(operation, before, bench.standing).items():
        for prism in prisms:
            kept[instance] = bench.kernel.less(kept[instance], prism)
    for instance, each in woods.items():
        bench.wood[each] = kept[instance]
    bench.body_steps.append(
        BodyStep(at=at, operation=operation, body=name, before=before, kept=kept)
    )


def _woods_of(bench: _Bench, name: str) -> Iterator[str]:
    """All single pieces of wood in a body."""
    for each in bench.bodies.get(name, (name,)):
        if each in bench.bodies:
            yield from _woods_of(bench, each)
        else:
            yield each


def _by_hand(bench: _Bench, operation: Operation, name: str, cut: CutOf) -> Manifold:
    """What the finished part says of that one cut, where it lies in the wood in hand."""
    if bench.tool is None:
        raise CannotBeMade(operation, "it is made by hand, and nothing tells what that takes")
    bench.by_hand.append(cut)
    solid = bench.tool(cut)
    part = next(
        piece
        for piece in bench.known.values()
        if piece.what is Wood.PART and piece.instances == (cut.instance,)
    )
    while part.id != name:
        if part.source is None:
            raise CannotBeMade(operation, f"{cut.instance} does not come from {name}")
        solid = solid.transform(_out_of(part))
        part = bench.known[part.source]
    return solid


def _in_hand(bench: _Bench, operation: Operation, name: str) -> Manifold:
    if name in bench.bodies:
        raise CannotBeMade(operation, f"{name} is several parts, which no replay saws")
    return bench.wood[name]


def _put(bench: _Bench, operation: Operation, given: str, source: str, solid: Manifold) -> None:
    """The wood lies there under its id, which says where it comes from and how large it is."""
    piece = bench.known[given]
    if given == source:
        _lie(bench, operation, given, solid)
    else:
        while piece.source != source:
            over = bench.known[source]
            if over.source is None:
                raise CannotBeMade(operation, f"{given} is not told to come from {source}")
            solid, source = solid.transform(_out_of(over)), over.source
        _lay(bench, operation, piece, solid.transform(_into(piece)))


def _lay(bench: _Bench, operation: Operation, piece: Workpiece, solid: Any) -> None:
    """New wood in its own frame, as large as it says."""
    told, there = (*piece.low, *piece.high), solid.bounding_box()
    if any(abs(a - b) > _SAME_MM for a, b in zip(told, there, strict=True)):
        bench.untrue.append(f"{piece.id} is said to be {told} and is {there}")
    _lie(bench, operation, piece.id, solid)


def _lie(bench: _Bench, operation: Operation, name: str, solid: Any) -> None:
    if name in bench.wood:
        raise CannotBeMade(operation, f"{name} lies there already")
    pieces = [each for each in solid.decompose() if each.volume() > LEAST_MM3]
    if len(pieces) != 1:
        raise CannotBeMade(operation, f"{name} would be {len(pieces)} pieces of wood")
    bench.wood[name] = solid


def _out_of(piece: Workpiece) -> np.ndarray:
    """From a workpiece's frame into that of its source."""
    return np.column_stack([*(np.array(axis) for axis in piece.axes), np.array(piece.at_mm)])


def _into(piece: Workpiece) -> np.ndarray:
    """From the frame of its source into a workpiece's own.

    Raises:
        ValueError: its axes are no right-handed frame, so that the wood would be mirrored.
    """
    axes = np.array(piece.axes)
    if not np.allclose(axes @ axes.T, np.eye(3), atol=1e-12) or np.linalg.det(axes) < 0:
        raise ValueError(f"the axes of {piece.id} are no right-handed frame")
    return np.column_stack([axes, -axes @ np.array(piece.at_mm)])


def _left_over(bench: _Bench) -> Iterator[LeftOver]:
    """What fell, and what lies there and is neither a part nor in a body."""
    in_bodies = {name for names in bench.bodies.values() for name in names}
    lying = [
        (name, solid)
        for name, solid in bench.wood.items()
        if bench.known[name].what is not Wood.PART and name not in in_bodies
    ]
    for name, solid in (*bench.fallen, *lying):
        board, placed = bench.known[name], solid
        while board.source is not None:
            placed = placed.transform(_out_of(board))
            board = bench.known[board.source]
        yield LeftOver(wood=name, board=board.id, solid=placed)
