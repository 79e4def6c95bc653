"""The passes of a unit: what is run along it while it is long, and what is cut in each part."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from furniture.blanks import Member, runs_right_along
from furniture.making import rigs
from furniture.making.bearing import faces_used
from furniture.making.bored_over import has_no_point
from furniture.making.corners import Keyed, grooved, held_for_a_groove
from furniture.making.notching import bores_of, rig_of
from furniture.making.operations import CutOf, Kind, Operation, Refused, Stage
from furniture.making.parting import (
    end_of,
    is_square,
    off_both_ends,
    outer_end,
    true_end_of,
    trued_ends,
)
from furniture.making.passes import Pass, held_for_a_bore, pass_for
from furniture.making.rigs import Sawn, made_with, sawn_by_one_head
from furniture.making.settings import (
    AS_IT_COMES,
    Bored,
    ByHand,
    Easing,
    Guide,
    Hold,
    Machine,
    MitreGroove,
    Notched,
    Setting,
    Skim,
    Trench,
)
from furniture.making.units import Unit
from furniture.parts.cuts import Channel, Hole, Shape, Slope
from furniture.parts.faces import EDGES, ENDS, Face
from furniture.pieces.datums import Datums
from furniture.pieces.let_in import LetIn
from furniture.rules import Rules
from furniture.shop.tools.values import ShopRead, TooMuch


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    """A cut of a member: its number, its shape, and the pass that makes it."""

    member: Member
    index: int
    shape: Shape
    made_by: Pass

    @property
    def cut(self) -> CutOf:
        return CutOf(self.member.instance, self.index)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What passes are made with: the shop, its rules, and what shares one head.

    `guides` are the faces that each instance is measured from. `sawn_later` are cuts that wait
    until a corner is closed; `ends_by_hand` are those of keys whose corner is closed with them.
    """

    shop: ShopRead
    rules: Rules
    sawn: Sawn
    guides: Mapping[str, Datums]
    sawn_later: frozenset[CutOf] = frozenset()
    ends_by_hand: Mapping[str, tuple[CutOf, ...]] = field(default_factory=dict)


def bench_for(
    units: Sequence[Unit],
    shop: ShopRead,
    rules: Rules,
    guides: Mapping[str, Datums],
    let_in: Sequence[LetIn] = (),
    keyed: Sequence[Keyed] = (),
) -> Bench:
    """The bench for all units of a piece.

    Args:
        units: of the piece.
        shop: what is on hand.
        rules: the shop's limits.
        guides: the faces that each instance and its mates are measured from.
        let_in: the keys of the piece.
        keyed: those of them whose slots are sawn when their corner is closed.
    """
    late = {each.key for each in keyed}
    passes = (
        made.made_by
        for unit in units
        for each in unit.members
        for made in _made(unit, each, guides)
    )
    sawn = sawn_by_one_head(passes, shop, rules)
    return Bench(
        shop=shop,
        rules=rules,
        sawn=sawn,
        guides=guides,
        sawn_later=frozenset(cut for each in keyed for cut in each.slot.cuts),
        ends_by_hand={
            each.instance: tuple(CutOf(each.instance, index) for index in each.ends)
            for each in let_in
            if each.instance not in late
        },
    )


def passes_of(unit: Unit, bench: Bench) -> tuple[Operation, ...]:
    """Every pass that makes a cut of the unit's parts, but those that saw its ends.

    What runs right along the grain is one pass over the whole unit; bores in an end that is trued
    while the unit is long are made there; all else is cut in the part.

    Args:
        unit: that is worked.
        bench: what is on hand.
    """
    cuts = [
        made
        for member in unit.members
        for made in _made(unit, member, bench.guides)
        if made.cut not in bench.sawn_later
    ]
    along = [each for each in cuts if _is_along(each)]
    early = [each for each in cuts if _is_early_bore(unit, each)]
    rest = [
        each
        for each in cuts
        if each not in along and each not in early and not _is_bored_between(unit, each)
    ]
    return (
        *_bevels(unit, bench.shop.saw.kerf_mm),
        *_together(unit, along, bench),
        *(one for each in early for one in _operations(unit.id, each, Stage.JOIN, bench)),
        *(
            one
            for each in rest
            for one in _operations(each.member.instance, each, _stage(unit, each), bench)
        ),
        *_ends_by_hand(unit, bench),
    )


def _ends_by_hand(unit: Unit, bench: Bench) -> Iterator[Operation]:
    """The ends of keys that are glued in with their corner."""
    for name in unit.instances:
        if name in bench.ends_by_hand:
            yield Operation(
                key=f"{name}: {Kind.SHAPE.value}, its ends",
                kind=Kind.SHAPE,
                stage=Stage.SHAPE,
                takes=(name,),
                gives=(name,),
                rig=rigs.BY_HAND,
                setting=ByHand(),
                cuts=bench.ends_by_hand[name],
            )


def with_bores_between(
    unit: Unit, sawn: Sequence[Operation], bench: Bench
) -> tuple[Operation, ...]:
    """The cuts of a mitred unit, and between them the bores in square ends that they lay bare.

    An end is bored while the rest still hangs on it, before its own part comes off with a mitre.

    Args:
        unit: that falls apart.
        sawn: the cuts that part it, in the order in which they are made.
        bench: what is on hand.
    """
    bores = [
        made
        for member in unit.members
        for made in _made(unit, member, bench.guides)
        if _is_bored_between(unit, made)
    ]
    found: list[Operation] = []
    for at, each in enumerate(sawn):
        found.append(each)
        face = each.setting.face if isinstance(each.setting, Skim) else each.hold.stop
        is_trimmed = at + 1 < len(sawn) and isinstance(sawn[at + 1].setting, Skim)
        if not is_trimmed:  # else the trimming cut leaves the end that is bored
            bare = _outermost(unit, found, face)
            here = [bore for bore in bores if bore.member == bare and _end(bore) is face]
            found += [
                one for bore in here for one in _operations(each.gives[-1], bore, Stage.PART, bench)
            ]
    return tuple(found)


def _outermost(unit: Unit, done: Sequence[Operation], end: Face | None) -> Member | None:
    """The member that is at an end of what is left of a unit."""
    off = {name for each in done if len(each.gives) > 1 for name in each.gives[:1]}
    left = [each for each in unit.members if each.instance not in off]
    return left[-1 if end is Face.FAR_END else 0] if left else None


def _made(unit: Unit, member: Member, guides: Mapping[str, Datums]) -> Iterator[_Made]:
    true = replace(guides[member.instance], end=true_end_of(unit))
    for index, cut in enumerate(member.part.cuts):
        shape = cut.shape(member.part.blank)
        sloped = [face for face in ENDS if end_of(member, face).slope is not None]
        made_by = pass_for(shape, member.part.blank, true, sloped)
        if made_by is not None:
            yield _Made(member=member, index=index, shape=shape, made_by=made_by)


def _is_along(each: _Made) -> bool:
    shape = each.shape
    return isinstance(shape, Channel) and runs_right_along(shape, each.member.part.blank)


def _is_early_bore(unit: Unit, each: _Made) -> bool:
    """Whether it goes into an end of the unit that is square before anything is sawn off.

    A part of mitred ones that is square at both ends is bored when it is off, at both alike.
    """
    if not isinstance(each.shape, Hole) or each.shape.face not in trued_ends(unit):
        return False
    face = each.shape.face
    is_outer = each.member == unit.members[-1 if face.is_far else 0]
    waits = off_both_ends(unit) and is_square(each.member)
    return is_outer and outer_end(unit, face).slope is None and not waits


def _is_bored_between(unit: Unit, each: _Made) -> bool:
    """Whether it goes into a square end that a neighbour leaves, of a part with a mitre beyond."""
    face = _end(each)
    if face is None or not off_both_ends(unit) or _is_early_bore(unit, each):
        return False
    is_square = end_of(each.member, face).slope is None
    return is_square and end_of(each.member, face.opposite).slope is not None


def _end(each: _Made) -> Face | None:
    """The end that a bore goes into."""
    shape = each.shape
    return shape.face if isinstance(shape, Hole) and shape.face in ENDS else None


def _stage(unit: Unit, each: _Made) -> Stage:
    """What is measured from an end comes when that end is true, what eases a line last."""
    shape = each.shape
    used = faces_used(each.made_by.hold, each.made_by.setting)
    ends = {face for face in used if face in ENDS}
    last = each.member.part.trimmed_last
    if last in ends or (last is not None and each.made_by.kind is Kind.PROFILE):
        return Stage.TRIM  # no stop bears on a profiled end, so its sharp lines wait too
    early = {face for face in trued_ends(unit) if outer_end(unit, face).slope is None}
    if ends - early:
        return Stage.SHAPE
    if unit.is_common or each.made_by.kind in _IN_THE_PART:
        return Stage.SHAPE
    if isinstance(shape, Hole):
        return Stage.SHAPE if shape.face in ENDS else Stage.JOIN
    is_at_end = isinstance(shape, Channel) and (shape.step in ENDS or shape.face in ENDS)
    return Stage.SHAPE if is_at_end else Stage.JOIN


_IN_THE_PART = frozenset({Kind.NOTCH, Kind.PROFILE, Kind.SHAPE, Kind.SPLINE_GROOVE})


def _together(unit: Unit, along: Sequence[_Made], bench: Bench) -> Iterator[Operation]:
    """Like passes of all members as one pass over the unit."""
    groups: dict[Setting, list[_Made]] = {}
    for each in along:
        groups.setdefault(each.made_by.setting, []).append(each)
    for same in groups.values():
        cuts = tuple(each.cut for each in same)
        yield from _operations(unit.id, same[0], Stage.JOIN, bench, cuts)


def _operations(
    wood: str, each: _Made, stage: Stage, bench: Bench, cuts: tuple[CutOf, ...] = ()
) -> Iterator[Operation]:
    """The pass that makes a cut; where a round cutter only begins it, what is chopped after it."""
    made = each.made_by
    if isinstance(made.setting, Notched):
        yield from _notched(wood, each, made.setting, stage, bench)
        return
    if isinstance(made.setting, Bored) and _is_beyond_travel(each, made.setting, bench):
        yield from _bored_in_two(wood, each, made.setting, stage, bench)
        return
    if isinstance(made.setting, MitreGroove):
        way = grooved(made.setting, each.member.part.blank, bench.shop, bench.rules)
        true = bench.guides[each.member.instance]
        made = replace(made, hold=held_for_a_groove(made.setting, way.rig, true))
    else:
        way = made_with(made, bench.shop, bench.rules, bench.sawn)
    named = each.member.instance if stage is Stage.PART else wood  # the unit's end is its own
    whole = Operation(
        key=f"{named}: {made.kind.value}, {_where(made.setting)}, {_ordinal(each)}",
        kind=made.kind,
        stage=stage,
        takes=(wood,),
        gives=(wood,),
        rig=way.rig,
        hold=made.hold,
        setting=made.setting,
        cuts=cuts or (each.cut,),
        near_mm=way.near_mm,
        wanting=way.wanting,
    )
    if isinstance(made.setting, Bored):
        whole = _with_a_point(whole, each, made.setting)
    if way.begun is None:
        yield whole
        return
    yield replace(whole, setting=way.begun, cuts=(), begins=whole.cuts)
    yield replace(
        whole, key=f"{whole.key}, {Kind.CHOP.value}", kind=Kind.CHOP, rig=rigs.BY_HAND,
        hold=AS_IT_COMES, near_mm=(),
    )  # fmt: skip


def _with_a_point(whole: Operation, each: _Made, setting: Bored) -> Operation:
    """A bore; filed where holes that are bored before took the wood for a drill's point."""
    if not has_no_point(each.member.part, each.index):
        return whole
    refused = Refused(machine=Machine.DRILL_PRESS, why=(TooMuch.NO_WOOD,))
    return replace(whole, rig=rigs.by_hand_for(setting), refused=refused)


def _is_beyond_travel(each: _Made, setting: Bored, bench: Bench) -> bool:
    """Whether one stroke of the drill press does not come through to its depth."""
    deep = setting.depth_mm or each.member.part.blank.size[setting.face.axis]
    rig = made_with(each.made_by, bench.shop, bench.rules, bench.sawn).rig
    return rig.machine is Machine.DRILL_PRESS and deep > bench.shop.drills.travel_mm


def _bored_in_two(
    wood: str, each: _Made, setting: Bored, stage: Stage, bench: Bench
) -> Iterator[Operation]:
    """As deep as the press comes, then on by hand in the same hole, which guides the drill."""
    made, travel = each.made_by, bench.shop.drills.travel_mm
    rig = made_with(made, bench.shop, bench.rules, bench.sawn).rig
    whole = Operation(
        key=f"{wood}: {made.kind.value}, {_where(setting)}, {_ordinal(each)}",
        kind=made.kind, stage=stage, takes=(wood,), gives=(wood,), rig=rig, hold=made.hold,
        setting=setting, cuts=(each.cut,),
    )  # fmt: skip
    yield replace(whole, setting=replace(setting, depth_mm=travel), cuts=(), begins=whole.cuts)
    yield replace(
        whole, key=f"{whole.key}, on by hand", hold=AS_IT_COMES,
        rig=replace(rig, machine=Machine.BENCH, guide=Guide.LINE),
        refused=Refused(machine=rig.machine, why=(TooMuch.DEEP,)),
    )  # fmt: skip


def _notched(
    wood: str, each: _Made, setting: Notched, stage: Stage, bench: Bench
) -> Iterator[Operation]:
    """A notch: its round corners are bored first, so that the saw comes down into the bores."""
    blank, true = each.member.part.blank, bench.guides[each.member.instance]
    bores = bores_of(setting, blank, true.side, bench.shop, bench.rules)
    key = f"{wood}: {Kind.NOTCH.value}, {_where(setting)}, {_ordinal(each)}"
    for number, bore in enumerate(bores, start=1):
        found = made_with(
            Pass(kind=Kind.BORE, hold=held_for_a_bore(bore), setting=bore),
            bench.shop, bench.rules, bench.sawn,
        )  # fmt: skip
        yield Operation(
            key=f"{key}, corner {number}", kind=Kind.BORE, stage=stage, takes=(wood,),
            gives=(wood,), rig=found.rig, hold=held_for_a_bore(bore), setting=bore,
            begins=(each.cut,),
        )  # fmt: skip
    yield Operation(
        key=key, kind=Kind.NOTCH, stage=stage, takes=(wood,), gives=(wood,),
        rig=rig_of(setting, blank, bool(bores)), hold=each.made_by.hold, setting=setting,
        cuts=(each.cut,),
    )  # fmt: skip


def _where(setting: Setting) -> str:
    """On which face, edge or arris, in words that hold no figure."""
    if isinstance(setting, Trench):
        return f"{setting.face.value}, off the {setting.off.value}"
    if isinstance(setting, Bored):
        return setting.face.value
    if isinstance(setting, Easing):
        return setting.arris.name
    if isinstance(setting, MitreGroove):
        return setting.end.value
    return "where it is marked"


def _ordinal(each: _Made) -> str:
    """Which of the part's cuts of that kind and place it is, from its named end."""
    part = each.member.part
    kind = part.cuts[each.index].kind
    alike = [index for index, cut in enumerate(part.cuts) if cut.kind == kind]
    return f"{kind} {alike.index(each.index) + 1}"


def _bevels(unit: Unit, kerf_mm: float) -> Iterator[Operation]:
    """Edges sawn at a slope over the whole unit."""
    first = unit.members[0].part
    for index, cut in enumerate(first.cuts):
        shape = cut.shape(first.blank)
        if isinstance(shape, Slope) and shape.face in EDGES:
            yield Operation(
                key=f"{unit.id}: bevel, {shape.face.value}",
                kind=Kind.BEVEL,
                stage=Stage.JOIN,
                takes=(unit.id,),
                gives=(unit.id,),
                rig=rigs.sawn(Guide.FENCE, tilt_deg=shape.angle_deg),
                hold=Hold(down=shape.long_point.opposite, against=shape.face.opposite),
                setting=Skim(
                    face=shape.face,
                    takes_mm=0.0,
                    kerf_mm=kerf_mm,
                    lean_deg=shape.angle_deg,
                    long_face=shape.long_point,
                ),
                cuts=tuple(_same_bevel(unit, cut, index)),
            )


def _same_bevel(unit: Unit, cut: object, index: int) -> Iterator[CutOf]:
    """That bevel in every member: their long work is equal, whatever its number in each."""
    for member in unit.members:
        found = next((at for at, each in enumerate(member.part.cuts) if each == cut), index)
        yield CutOf(member.instance, found)
