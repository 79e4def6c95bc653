"""What the work takes that is no part: spacers and cauls, sawn from scrap while the saw stands so.

A row that is laid out by spacers wants them before its cutter is fitted; a glue-up whose clamps
press on a slope, round a corner, on a narrow face or beside a rise wants its cauls and blocks
before the glue is open.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from furniture.making.amounts import Gluing, Reach
from furniture.making.bench.laying_out import LayOut
from furniture.making.glue_ups.blocks import across_mm, blocks_of
from furniture.making.glue_ups.values import Block, Caul, GlueUps
from furniture.making.glue_ups.values import Stage as GlueUp
from furniture.making.laid_out import LaidOut, laid_out, placed_at
from furniture.making.making import Making
from furniture.making.operations import (
    CLOSES,
    After,
    CaulShape,
    Kind,
    Operation,
    SawnCauls,
    SawnSpacers,
    Scrap,
    Stage,
)
from furniture.making.rigs import SQUARING
from furniture.making.set_ups import set_ups_of
from furniture.making.settings import Machine, Rig, Skim, Slice
from furniture.making.why import Why
from furniture.rules import Rules

_BY_SPACERS = (LayOut.SPACER, LayOut.SPACER_FROM_FIRST)


def with_scrap(making: Making, glue_ups: GlueUps | None, rules: Rules) -> Making:
    """The making with what is sawn from scrap, each where its saw stands ready before it is used.

    Args:
        making: of a piece, in its order.
        glue_ups: how it goes together; None leaves it in parts.
        rules: how exactly rows are laid out.
    """
    operations = list(making.operations)
    for wanted in (*_spacers(making, rules), *_cauls(making, glue_ups)):
        _put_in(operations, wanted)
    return replace(making, operations=tuple(operations), set_ups=set_ups_of(operations))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wanted:
    """What is sawn from scrap, with which rig, by whom it is wanted and why."""

    key: str
    scrap: Scrap
    rig: Rig | None
    wanted_by: tuple[str, ...]
    why: Why


def _put_in(operations: list[Operation], wanted: _Wanted) -> None:
    """After the last pass with that rig before it is wanted; else before the machine is changed."""
    first = min(at for at, each in enumerate(operations) if each.key in wanted.wanted_by)
    at = max(
        (at for at, each in enumerate(operations[:first]) if _stands_for(each, wanted.rig)),
        default=None,
    )
    if at is None:
        place, stage = _before_the_rig(operations, first), operations[first].stage
    else:
        place, stage = at + 1, operations[at].stage
    own = Operation(
        key=wanted.key, kind=Kind.FROM_SCRAP, stage=stage, takes=(), gives=(), rig=wanted.rig,
        scrap=wanted.scrap,
    )  # fmt: skip
    after = After(wanted.key, wanted.why)
    for at, each in enumerate(operations):
        if each.key in wanted.wanted_by:
            operations[at] = replace(each, after=(*each.after, after))
    operations.insert(place, own)


def _stands_for(operation: Operation, rig: Rig | None) -> bool:
    return rig is not None and operation.rig == rig and not operation.is_rough


def _before_the_rig(operations: Sequence[Operation], first: int) -> int:
    """Where the rig of an operation, or the glue-up that it is of, begins."""
    own, at = operations[first], first
    while at > 0 and operations[at - 1].stage is own.stage and _is_of(operations[at - 1], own):
        at -= 1
    return at


def _is_of(operation: Operation, other: Operation) -> bool:
    if other.glue_up is not None:
        return operation.glue_up is other.glue_up
    return operation.rig == other.rig


def _spacers(making: Making, rules: Rules) -> Iterator[_Wanted]:
    by_key = {each.key: each for each in making.operations}
    rows: dict[SawnSpacers, list[str]] = {}
    for row in laid_out(making, rules):
        if row.expected.way in _BY_SPACERS:
            rows.setdefault(_of_row(row, by_key[row.operations[0]], by_key), []).extend(
                row.operations
            )
    for number, (scrap, keys) in enumerate(rows.items(), start=1):
        yield _Wanted(
            key=f"spacers {number}", scrap=scrap, rig=SQUARING, wanted_by=tuple(keys),
            why=Why.SPACERS_FIRST,
        )  # fmt: skip


def _of_row(row: LaidOut, first: Operation, by_key: dict[str, Operation]) -> SawnSpacers:
    found = (placed_at(by_key[key]) for key in row.operations)
    places = sorted({round(each[1], 6) for each in found if each is not None})
    steps = [after - before for before, after in pairwise(places)]
    from_end = row.expected.way is LayOut.SPACER
    return SawnSpacers(
        count=len(steps) + from_end, each_mm=round(steps[0], 6), kind=first.kind, on=first.takes
    )


def _cauls(making: Making, glue_ups: GlueUps | None) -> Iterator[_Wanted]:
    """What is alike is sawn once, as many as the glue-up wants that takes most."""
    operations, stages = making.operations, () if glue_ups is None else glue_ups.stages
    alike: dict[tuple[CaulShape, float | None, Block | None], list[_Wanted]] = {}
    for stage, gluing in zip(stages, making.gluing, strict=True):
        closing = tuple(
            each.key
            for each in operations
            if each.kind in CLOSES
            and each.glue_up is not None
            and each.glue_up.number == stage.number
        )
        for scrap in _asked_by(stage, gluing) if closing else ():
            rig: Rig | None = SQUARING
            if scrap.shape in _SLOPED:
                sawn = _mitring(operations, scrap.on)
                scrap = replace(scrap, lean_deg=None if sawn is None else _lean_of(sawn))
                rig = None if sawn is None or not _is_machine(sawn.rig) else sawn.rig
            alike.setdefault((scrap.shape, scrap.lean_deg, scrap.block), []).append(
                _Wanted(key="", scrap=scrap, rig=rig, wanted_by=closing, why=Why.CAULS_FIRST)
            )
    for number, several in enumerate(alike.values(), start=1):
        cauls = [each.scrap for each in several if isinstance(each.scrap, SawnCauls)]
        together = replace(
            cauls[0],
            count=max(each.count for each in cauls),
            glue_ups=tuple(number for each in cauls for number in each.glue_ups),
            on=tuple(dict.fromkeys(name for each in cauls for name in each.on)),
            long_mm=max((each.long_mm for each in cauls if each.long_mm is not None), default=None),
        )
        wanted_by = tuple(key for each in several for key in each.wanted_by)
        key = f"{together.shape.value} {number}"
        yield replace(several[0], key=key, scrap=together, wanted_by=wanted_by)


def _is_machine(rig: Rig | None) -> bool:
    return rig is not None and rig.machine is not Machine.BENCH


_SLOPED = (CaulShape.CORNER, CaulShape.WEDGE)


def _asked_by(stage: GlueUp, gluing: Gluing) -> Iterator[SawnCauls]:
    """What its bands and its clamps want below them, each clamp of a line by itself."""
    corners = [pair for band in stage.bands for pair in band.pressed]
    if corners:
        on = tuple(dict.fromkeys(name for pair in corners for name in pair))
        yield SawnCauls(count=len(corners), glue_ups=(stage.number,), on=on, shape=CaulShape.CORNER)
    below: dict[tuple[CaulShape, Block | None], Counter[str]] = {}
    blocks = blocks_of(stage)
    for line, pressing in zip(stage.clamps, gluing.pressing, strict=True):
        for pad in line.pads:
            shape = _SHAPES.get(pad.caul)
            if shape is not None:
                block = blocks[pad.instance] if shape is CaulShape.BLOCK else None
                asked = below.setdefault((shape, block), Counter())
                is_under_each = pressing.reach is Reach.HEADS
                asked[pad.instance] += max(1, pressing.clamps.count) if is_under_each else 1
    yield from _across(stage, gluing)
    for (shape, block), heads in below.items():
        yield SawnCauls(
            count=heads.total(), glue_ups=(stage.number,), on=tuple(heads), shape=shape, block=block
        )


def _across(stage: GlueUp, gluing: Gluing) -> Iterator[SawnCauls]:
    """Two for every line that no throat reaches, a clamp's head beyond the wood at either end."""
    far = [each.line for each in gluing.pressing if each.reach is Reach.CAUL_ACROSS]
    if far:
        yield SawnCauls(
            count=2 * len(far),
            glue_ups=(stage.number,),
            on=tuple(dict.fromkeys(pad.instance for line in far for pad in line.pads)),
            shape=CaulShape.ACROSS,
            long_mm=across_mm(far),
        )


_SHAPES = {
    Caul.MITRE_CUT: CaulShape.WEDGE,
    Caul.SQUARE: CaulShape.SQUARE,
    Caul.BLOCK: CaulShape.BLOCK,
}


def _mitring(operations: Sequence[Operation], on: Sequence[str]) -> Operation | None:
    """The last pass that mitres one of these parts, by machine where there is one."""
    found = [
        each
        for each in operations
        if each.stage is Stage.PART
        and isinstance(each.setting, Slice | Skim)
        and each.setting.lean_deg
        and {cut.instance for cut in each.cuts} & set(on)
    ]
    found.sort(key=lambda each: each.rig is not None and each.rig.machine is not Machine.BENCH)
    return found[-1] if found else None


def _lean_of(operation: Operation) -> float:
    assert isinstance(operation.setting, Slice | Skim)
    return operation.setting.lean_deg
