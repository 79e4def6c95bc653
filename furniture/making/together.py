"""From parts to the piece: what is finished inside first, each glue-up, and what follows it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from furniture.making.corners import Keyed
from furniture.making.glue_ups.values import GlueUps, Levelling, When
from furniture.making.glue_ups.values import Stage as GlueUp
from furniture.making.operations import After, Kind, Operation, Stage
from furniture.making.rigs import HAND_PLANED
from furniture.making.why import Why
from furniture.making.workpieces import Wood, Workpiece
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector
from furniture.pieces.piece import Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """The operations that bring the piece together, and the sub-assemblies that come of them."""

    operations: tuple[Operation, ...]
    workpieces: tuple[Workpiece, ...]


def brought_together(
    piece: Piece,
    glue_ups: GlueUps,
    before: Iterable[Operation],
    keyed: Sequence[Keyed],
    has_finish: bool,
) -> Together:
    """All from the first sanding to the last screw.

    Args:
        piece: what is made.
        glue_ups: its stages.
        before: every operation on its parts.
        keyed: keys whose slots are sawn when their corner is closed.
        has_finish: whether it gets a finish.
    """
    return _Bringing(piece, glue_ups, tuple(before), keyed).all(has_finish)


class _Bringing:
    """Operations in the order of the stages, each knowing what it stands on."""

    def __init__(
        self,
        piece: Piece,
        glue_ups: GlueUps,
        before: tuple[Operation, ...],
        keyed: Sequence[Keyed],
    ) -> None:
        self.piece, self.glue_ups, self.keyed = piece, glue_ups, keyed
        self.before = before
        self.found: list[Operation] = []
        self.made: list[Workpiece] = []
        self.closed_by: dict[str, str] = {}
        self.body_of = {each.instance: each.instance for each in piece.placed}

    def all(self, has_finish: bool) -> Together:
        ready = self._prepared(has_finish)
        for stage in self.glue_ups.stages:
            ready = self._closed(stage, ready)
        self._ended(ready, has_finish)
        return Together(operations=tuple(self.found), workpieces=tuple(self.made))

    def _everything(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(self.body_of.values()))

    def _add(
        self,
        key: str,
        kind: Kind,
        stage: Stage,
        wood: Sequence[str],
        after: Iterable[After],
        *,
        gives: Sequence[str] | None = None,
        glue_up: GlueUp | None = None,
        levelled: Levelling | None = None,
    ) -> str:
        self.found.append(
            Operation(
                key=key,
                kind=kind,
                stage=stage,
                takes=tuple(wood),
                gives=tuple(wood if gives is None else gives),
                rig=HAND_PLANED if levelled else None,
                after=tuple(dict.fromkeys(after)),
                glue_up=glue_up,
                levelled=levelled,
            )
        )
        return key

    def _prepared(self, has_finish: bool) -> list[str]:
        """What glue will shut in is sanded and finished, the glue faces masked."""
        wood = self._everything()
        ready = [After(each.key, Why.FITS_FIRST) for each in self.before]
        sanded = self._add("inside: sand", Kind.SAND, Stage.INSIDE, wood, ready)
        if not has_finish:
            return [sanded]
        masked = self._add(
            "inside: mask the glue faces", Kind.MASK, Stage.INSIDE, wood,
            [After(sanded, Why.REACHED_FIRST)],
        )  # fmt: skip
        return [
            self._add(
                "inside: finish", Kind.COAT, Stage.INSIDE, wood,
                [After(masked, Why.MASKED_FIRST)],
            )
        ]  # fmt: skip

    def _closed(self, stage: GlueUp, ready: list[str]) -> list[str]:
        """One glue-up with what goes before and after it; what the next one waits for."""
        name = f"glue-up {stage.number}"
        free = [After(key, Why.DRY_BEFORE) for key in ready]
        early = [each for each in stage.levelled if each.when is When.BEFORE]
        level = [
            After(self._levelled(each, self._together_by_then(each), stage), Why.LEVEL_FIRST)
            for each in early
        ]
        keys = self._keys_of(stage)
        slid_in = [After(key, Why.FITTED_TO) for each in keys for key in self._slotted(each, free)]
        after = [*free, *level, *slid_in]
        if any(face.wants_size for face in stage.spread):
            sized = self._add(
                f"{name}: size the end grain", Kind.SIZE_END_GRAIN, Stage.GLUE,
                self._bodies(stage), after, glue_up=stage,
            )  # fmt: skip
            after = [*after, After(sized, Why.DRINKS_FIRST)]
        wood = self._bodies(stage)
        whole = self._joined(stage)
        kind = Kind.GLUE if stage.spread or stage.dowels else Kind.PUT_TOGETHER
        closed = self._add(name, kind, Stage.GLUE, wood, after, gives=(whole,), glue_up=stage)
        self.closed_by[whole] = closed
        last = [closed]
        if stage.driven or stage.fixed_with or stage.weights:
            last.append(
                self._add(
                    f"{name}: drive what holds it", Kind.FIX, Stage.GLUE, (whole,),
                    [After(closed, Why.DRY_BEFORE)], glue_up=stage,
                )
            )  # fmt: skip
        last += [self._flush(each, whole, closed) for each in keys]
        hard = [After(key, Why.GLUE_FIRST) for key in last]
        late = [each for each in stage.levelled if each.when is When.AFTER]
        last += [self._levelled(each, hard, stage) for each in late]
        return last

    def _keys_of(self, stage: GlueUp) -> list[Keyed]:
        names = {name for body in stage.bodies if len(body) == 1 for name in body}
        return [each for each in self.keyed if each.key in names]

    def _slotted(self, each: Keyed, ready: Sequence[After]) -> tuple[str, ...]:
        """The slot of a key is sawn through the closed corner, and the key planed to it."""
        wood = (self.body_of[each.rails[0]],)
        closed = After(self.closed_by[wood[0]], Why.CLOSED_FIRST)
        self.found.append(replace(each.slot, takes=wood, gives=wood, after=(closed, *ready)))
        self.found.append(replace(each.fit, after=(After(each.slot.key, Why.FITTED_TO),)))
        return (each.fit.key,)

    def _flush(self, each: Keyed, whole: str, closed: str) -> str:
        after = (After(closed, Why.FLUSH_AFTER),)
        self.found.append(replace(each.flush, takes=(whole,), gives=(whole,), after=after))
        return each.flush.key

    def _together_by_then(self, each: Levelling) -> list[After]:
        """What put together the body that is planed; a part that stands alone waits for nothing."""
        closed = self.closed_by.get(self.body_of[each.instance])
        return [] if closed is None else [After(closed, Why.DRY_BEFORE)]

    def _levelled(self, each: Levelling, after: Iterable[After], stage: GlueUp) -> str:
        wood = (self.body_of[each.instance],)
        key = f"{each.instance}: plane the {each.face.value} flush with {each.flush_with}"
        return self._add(key, Kind.LEVEL, Stage.GLUE, wood, after, glue_up=stage, levelled=each)

    def _bodies(self, stage: GlueUp) -> tuple[str, ...]:
        names = [name for body in stage.bodies for name in body]
        return tuple(dict.fromkeys(self.body_of[name] for name in names))

    def _joined(self, stage: GlueUp) -> str:
        names = [name for body in stage.bodies for name in body]
        bodies = {self.body_of[name] for name in names}
        inside = [name for name, body in self.body_of.items() if body in bodies]
        whole = f"sub-assembly {stage.number}"
        self.body_of |= dict.fromkeys(inside, whole)
        low, high = _bounds(self.piece, inside)
        self.made.append(
            Workpiece(id=whole, what=Wood.SUB_ASSEMBLY, instances=tuple(inside), low=low, high=high)
        )
        return whole

    def _ended(self, ready: list[str], has_finish: bool) -> None:
        """Cleaned up, finished, its hardware on, and what stays loose laid in."""
        wood = self._everything()
        last = self._add(
            "outside: sand", Kind.SAND, Stage.FINISH, wood,
            [After(key, Why.GLUE_FIRST) for key in ready],
        )  # fmt: skip
        if has_finish:
            last = self._add(
                "outside: finish", Kind.COAT, Stage.FINISH, wood, [After(last, Why.FINISH_LAST)]
            )
        if self.glue_ups.fixed_with:
            last = self._add(
                "fix the hardware", Kind.FIX, Stage.FIX, wood, [After(last, Why.FIXED_LAST)]
            )
        hung = {each.instance for each in self.glue_ups.hung}
        for step in self.glue_ups.laid_in:
            kind = Kind.HANG if hung & set(step.moving) else Kind.LAY_IN
            self._add(
                f"{kind.value}: {', '.join(step.moving)}", kind, Stage.FIX,
                tuple(dict.fromkeys(self.body_of[name] for name in step.moving)),
                [After(last, Why.FIXED_LAST)],
            )  # fmt: skip


def _bounds(piece: Piece, names: Sequence[str]) -> tuple[Vector, Vector]:
    boxes = [
        box_of(each.part.blank, each.placement) for each in piece.placed if each.instance in names
    ]
    low = [min(box[0][axis] for box in boxes) for axis in range(3)]
    high = [max(box[1][axis] for box in boxes) for axis in range(3)]
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])
