"""What is fitted: tried dry, measured, and cut to what was measured, each an operation."""

from __future__ import annotations

from collections.abc import Collection, Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from furniture.joints.joint import Role
from furniture.making.operations import After, Axis, Kind, Operation, Span, Stage
from furniture.making.parting import off_both_ends
from furniture.making.settings import ByHand, CutterKind, Guide, Machine, Rig, Trench
from furniture.making.units import Unit
from furniture.making.why import Why
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector, dot, scaled
from furniture.pieces.piece import Piece, placed_named

_BEFORE_FITTING = frozenset(
    {Kind.MEASURE, Kind.JOINT_FACE, Kind.JOINT_EDGE, Kind.RESAW, Kind.PLANE}
)
_SAME_WAY = 0.5
"""Grain lies along a way where it lies along it rather than across. Own rule."""


def loose_panels(piece: Piece) -> Mapping[str, tuple[str, ...]]:
    """Panels that no glue holds, each with the parts whose opening it is cut to.

    They lie in a rim, or slide in the grooves of several parts.

    Args:
        piece: what is made.
    """
    held = {
        each.incoming
        for each in piece.joinings
        if each.glued_faces or any(fastener.is_glued for fastener in each.fasteners)
    }
    rims = {each.incoming for each in piece.joinings if each.role is Role.RIM}
    found: dict[str, list[str]] = {}
    for each in piece.joinings:
        is_grooved = each.role is Role.HOUSING and each.incoming not in held
        if is_grooved or (each.role is Role.RIM and not each.glued_faces):
            found.setdefault(each.incoming, []).append(each.into)
    found = {name: into for name, into in found.items() if name in rims or len(set(into)) > 1}
    return {panel: tuple(dict.fromkeys(names)) for panel, names in found.items()}


def fitted(
    piece: Piece,
    units: Sequence[Unit],
    operations: Sequence[Operation],
    let_in_later: Collection[str] = (),
) -> tuple[Operation, ...]:
    """The operations with dry fits and measurements among them, and what waits for each.

    Args:
        piece: what is made.
        units: all of them.
        operations: of all units, with what comes before each on its own wood.
        let_in_later: instances that have no place yet when all is tried dry.
    """
    panels = loose_panels(piece)
    single = {unit.id for unit in units if not unit.is_common}
    panels = {panel: rails for panel, rails in panels.items() if panel in single}
    waits: dict[str, list[After]] = {}
    added: list[Operation] = []
    moved = [_for_panel(each) if set(each.takes) & set(panels) else each for each in operations]
    not_there = {*panels, *let_in_later}
    frames = _with_all({panel: _frame(piece, rails, not_there) for panel, rails in panels.items()})
    for frame in dict.fromkeys(frames.values()):
        dry = _dry_fit("the frame", frame, moved)
        added.append(dry)
        inside = [panel for panel in panels if frames[panel] == frame]
        measured_all = [_measured(panel, dry) for panel in inside]
        added += measured_all
        for each in moved:  # all is measured while it stands together
            if set(each.takes) <= set(inside) and each.takes and each.stage is Stage.FIT:
                tried = [After(measured.key, Why.TRIED_FIRST) for measured in measured_all]
                waits.setdefault(each.key, []).extend(tried)
    for unit in units:
        for measured, after in _closing_rail(piece, unit, moved):
            first = {each.key: [*each.after, *waits.get(each.key, ())] for each in (*moved, *added)}
            if after not in _all_before(measured, first):  # else what it closes on closes on it
                added.append(measured)
                waits.setdefault(after, []).append(After(measured.key, Why.TRIED_FIRST))
    for key, mate in (*_mates(piece, units, moved), *_tenons(piece, moved)):
        waits.setdefault(key, []).append(mate)
    there = tuple(each.instance for each in piece.placed if each.instance not in let_in_later)
    whole = _dry_fit("the whole piece", there,
                     [each for each in moved if each.stage is not Stage.TRIM])  # fmt: skip
    whole = replace(whole, stage=Stage.FIT)
    for each in moved:
        if each.kind is Kind.TRIM:
            waits.setdefault(each.key, []).append(After(whole.key, Why.TRIED_FIRST))
    return tuple(
        replace(each, after=(*each.after, *waits.get(each.key, ())))
        for each in (*moved, *added, whole)
    )


def _all_before(operation: Operation, known: Mapping[str, Sequence[After]]) -> set[str]:
    """The keys of all that must come before an operation, be it by way of others."""
    found: set[str] = set()
    asked = [each.key for each in operation.after]
    while asked:
        key = asked.pop()
        if key not in found:
            found.add(key)
            asked += [each.key for each in known.get(key, ())]
    return found


def _for_panel(operation: Operation) -> Operation:
    """A loose panel gets its last sizes when its opening can be measured."""
    if operation.kind in _BEFORE_FITTING or operation.stage is Stage.TRIM:
        return operation
    return replace(operation, stage=Stage.FIT)


def _frame(piece: Piece, rails: tuple[str, ...], not_there: Container[str]) -> tuple[str, ...]:
    """The parts that stand round an opening: its rails, and what is joined to two of them."""
    found = set(rails)
    for each in piece.placed:
        joined = {
            other
            for joining in piece.joinings
            if joining.role not in (Role.RIM, Role.SEAT)
            and each.instance in (joining.into, joining.incoming)
            for other in (joining.into, joining.incoming)
        }
        if each.instance not in not_there and len(joined & set(rails) - {each.instance}) > 1:
            found.add(each.instance)
    return tuple(each.instance for each in piece.placed if each.instance in found)


def _with_all(frames: Mapping[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    """Each panel's frame, tried once: as a part of a larger one where that holds all of it."""
    return {
        panel: max((each for each in frames.values() if set(frame) <= set(each)), key=len)
        for panel, frame in frames.items()
    }


def _dry_fit(
    what: str,
    instances: tuple[str, ...],
    operations: Iterable[Operation],
) -> Operation:
    names = set(instances)
    return Operation(
        key=f"dry fit: {what}, {', '.join(sorted(names)[:2])}",
        kind=Kind.DRY_FIT,
        stage=Stage.DRY,
        takes=instances,
        gives=instances,
        after=tuple(
            After(each.key, Why.DRY_BEFORE)
            for each in operations
            if set(each.gives) & names and each.stage is not Stage.TRIM
        ),
    )


def _measured(panel: str, dry: Operation) -> Operation:
    return Operation(
        key=f"{panel}: measure its opening",
        kind=Kind.MEASURE,
        stage=Stage.FIT,
        takes=dry.takes,
        gives=dry.takes,
        after=(After(dry.key, Why.TRIED_FIRST),),
    )


def _closing_rail(
    piece: Piece, unit: Unit, operations: Sequence[Operation]
) -> Iterator[tuple[Operation, str]]:
    """The last rail of a run is cut to what the parts opposite it measure, put together dry."""
    if not off_both_ends(unit):
        return
    lengths = [
        each
        for each in operations
        if each.stage is Stage.PART
        and any(size.instance in unit.instances and size.axis is Axis.LENGTH for size in each.sizes)
    ]
    if not lengths:
        return
    last = lengths[-1]
    opposite = _opposite(piece, last.sizes[0].instance)
    if not opposite:
        return
    names = set(opposite)
    yield (
        Operation(
            key=f"{last.sizes[0].instance}: measure what lies opposite",
            kind=Kind.MEASURE,
            stage=Stage.PART,
            takes=opposite,
            gives=opposite,
            span=_span_of(piece, opposite, placed_named(piece, last.sizes[0].instance)),
            after=tuple(
                After(each.key, Why.MATE_FIRST)
                for each in operations
                if each is not last and _brings_to_size(each, names)
            ),
        ),
        last.key,
    )


def _brings_to_size(operation: Operation, names: set[str]) -> bool:
    """Whether it gives one of these parts a width or a length, or itself."""
    is_sized = any(
        size.instance in names and size.axis is not Axis.THICKNESS for size in operation.sizes
    )
    comes_off = names & {*operation.gives} - {*operation.takes}
    return bool(comes_off) or (is_sized and operation.stage in (Stage.MILL, Stage.PART))


def _opposite(piece: Piece, closing: str) -> tuple[str, ...]:
    """The parts along the side across from a rail: those that close on its neighbours.

    Where these close on uprights, the row is what stands between the uprights, with them. Strips
    that become one board stand there together.
    """
    way = placed_named(piece, closing).placement.x_axis
    joined, boards = _joined(piece), _boards(piece)
    sides = {
        name
        for each in piece.joinings
        if each.role is Role.CORNER and closing in (each.into, each.incoming)
        for name in (each.into, each.incoming)
        if name != closing
    }
    beyond = {other for side in sides for other in joined[side] - {closing}}

    def is_between(name: str, ends: Container[str]) -> bool:
        met = {other for strip in boards[name] for other in joined[strip] if other in ends}
        return len(met) > 1 and name not in sides and name != closing

    def runs_along(name: str) -> bool:
        return abs(dot(placed_named(piece, name).placement.x_axis, way)) > _SAME_WAY

    found = {name for name in beyond if runs_along(name)}
    if found:
        row = found | {name for name in joined if is_between(name, found)}
    else:
        row = {name for name in joined if runs_along(name) and is_between(name, beyond)}
        row |= {end for name in row for end in joined[name] & beyond}
    return tuple(each.instance for each in piece.placed if each.instance in row)


def _span_of(piece: Piece, row: Sequence[str], closing: Placed) -> Span:
    """From the outermost face of a row to the other, along the grain of the rail that it is for."""
    way = closing.placement.x_axis

    def outermost(sign: float) -> tuple[str, Face]:
        out = scaled(way, sign)
        last = max((placed_named(piece, name) for name in row), key=lambda each: _reach(each, out))
        return last.instance, last.placement.face_towards(out)

    return Span(low=outermost(-1.0), high=outermost(1.0))


def _reach(placed: Placed, way: Vector) -> float:
    """How far a part's blank reaches along a way [mm]."""
    low, high = box_of(placed.part.blank, placed.placement)
    return sum(max(a * w, b * w) for a, b, w in zip(low, high, way, strict=True))


def _boards(piece: Piece) -> Mapping[str, set[str]]:
    """What each part is glued up into one board with, itself among it."""
    boards = {each.instance: {each.instance} for each in piece.placed}
    for each in piece.joinings:
        if each.role is Role.EDGE_GLUE:
            whole = boards[each.into] | boards[each.incoming]
            boards |= dict.fromkeys(whole, whole)
    return boards


def _joined(piece: Piece) -> Mapping[str, set[str]]:
    """What each part closes on, at a corner or with fasteners."""
    joined: dict[str, set[str]] = {each.instance: set() for each in piece.placed}
    for joining in piece.joinings:
        is_seat = joining.role in (Role.RIM, Role.SEAT)
        if not is_seat and (joining.role is Role.CORNER or joining.fasteners):
            joined[joining.into].add(joining.incoming)
            joined[joining.incoming].add(joining.into)
    return joined


def _mates(
    piece: Piece, units: Sequence[Unit], operations: Sequence[Operation]
) -> Iterator[tuple[str, After]]:
    """A trench is set from the part that goes in, when that has its thickness."""
    unit_of = {name: unit.id for unit in units for name in unit.instances}
    for each in operations:
        if each.kind not in (Kind.DADO, Kind.MORTISE, Kind.GROOVE):
            continue
        names = {cut.instance for cut in (*each.cuts, *each.begins)}
        for joining in piece.joinings:
            if joining.role is Role.HOUSING and joining.into in names:
                yield each.key, After(f"{unit_of[joining.incoming]}: measure the thickness",
                                      Why.MATE_FIRST)  # fmt: skip


def _tenons(piece: Piece, operations: Sequence[Operation]) -> Iterator[tuple[str, After]]:
    """A tenon is made when its mortise is finished, chopped square where a bit only began it."""
    mortised = {
        cut
        for each in operations
        if each.kind is Kind.MORTISE
        for cut in (*each.cuts, *each.begins)
    }
    finished = [(cut.instance, each) for each in operations for cut in each.cuts if cut in mortised]
    for tenon in operations:
        if not isinstance(tenon.setting, ByHand) or tenon.setting.tenon_on is None:
            continue
        into = {
            joining.into
            for joining in piece.joinings
            if joining.role is Role.HOUSING and joining.incoming == tenon.cuts[0].instance
        }
        for name, mortise in finished:
            if name in into:
                yield tenon.key, After(mortise.key, Why.TENON_LAST)


def planed_to_fit(
    piece: Piece, operations: Sequence[Operation], let_in_later: Collection[str] = ()
) -> tuple[Operation, ...]:
    """The operations, and after the grooves for splines what makes each slide in.

    Args:
        piece: what is made.
        operations: of all units, with what comes before each on its own wood.
        let_in_later: keys, whose slots are sawn when their corner is closed.
    """
    grooves: dict[str, list[Operation]] = {}
    for each in operations:
        if each.kind is Kind.SPLINE_GROOVE:
            grooves.setdefault(each.takes[0], []).append(each)
    tongues: dict[str, list[str]] = {}
    for joining in piece.joinings:
        is_spline = joining.role is Role.LOOSE_TONGUE and joining.incoming not in let_in_later
        if is_spline and joining.into in grooves:
            tongues.setdefault(joining.incoming, []).append(joining.into)
    return (
        *operations,
        *(
            Operation(
                key=f"{name}: {Kind.PLANE_TO_FIT.value}",
                kind=Kind.PLANE_TO_FIT,
                stage=Stage.SHAPE,
                takes=(name,),
                gives=(name,),
                after=(
                    *(After(each.key, Why.FITTED_TO) for into in rails for each in grooves[into]),
                    *(After(each.key, Why.SAME_WOOD) for each in operations if name in each.gives),
                ),
            )
            for name, rails in tongues.items()
        ),
    )


def with_test_cuts(operations: Sequence[Operation]) -> tuple[Operation, ...]:
    """The operations with a test cut before the first of every cutter that must fit and every tilt.

    Args:
        operations: all of them.
    """
    stages = list(Stage)
    rigs: dict[Rig, list[Operation]] = {}
    for each in operations:
        if each.rig is not None and _is_tried(each.rig):
            rigs.setdefault(each.rig, []).append(each)
    tried: dict[str, After] = {}
    added = []
    for number, (rig, using) in enumerate(rigs.items(), start=1):
        first = min((each.stage for each in using), key=stages.index)
        test = Operation(
            key=f"test cut {number}: {_called(rig)}",
            kind=Kind.TEST_CUT,
            stage=first,
            takes=(),
            gives=(),
            rig=rig,
        )
        added.append(test)
        tried |= {each.key: After(test.key, Why.TESTED_FIRST) for each in using}
    return tuple(
        replace(each, after=(*each.after, tried[each.key])) if each.key in tried else each
        for each in (*operations, *added)
    )


def _is_tried(rig: Rig) -> bool:
    """Whether a rig must fit something: a dado's width, a slope that closes a corner."""
    is_wide = rig.cutter.kind in (CutterKind.DADO_HEAD, CutterKind.STRAIGHT_BIT)
    is_sloped = bool(rig.tilt_deg or rig.turned_deg) or rig.guide is Guide.CRADLE
    return rig.machine is not Machine.BENCH and (is_wide or is_sloped)


def _called(rig: Rig) -> str:
    slope = " tilted" if rig.tilt_deg else " turned" if rig.turned_deg else ""
    return f"{rig.machine.value}, {rig.cutter.kind.value}{slope}, {rig.guide.value}"


def channels_cut_after(dry: Operation, operations: Sequence[Operation]) -> Iterator[Operation]:
    """Passes that cut, at an end that is trimmed later, what something tried dry would go into.

    Args:
        dry: a dry fit.
        operations: all, in their order.
    """
    for each in operations[operations.index(dry) :]:
        is_at_an_end = isinstance(each.setting, Trench) and each.stage is Stage.TRIM
        if is_at_an_end and each.cuts and each.cuts[0].instance in dry.takes:
            yield each
