"""What is fitted: tried dry, measured, and cut to what was measured, each an operation."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from furniture.joints.joint import Role
from furniture.making.operations import After, Axis, Kind, Operation, Stage
from furniture.making.parting import off_both_ends
from furniture.making.settings import CutterKind, Machine, Rig
from furniture.making.units import Unit
from furniture.making.why import Why
from furniture.parts.vectors import dot
from furniture.pieces.piece import Piece

_BEFORE_FITTING = frozenset({Kind.MEASURE, Kind.JOINT_FACE, Kind.JOINT_EDGE, Kind.PLANE})


def loose_panels(piece: Piece) -> Mapping[str, tuple[str, ...]]:
    """Panels that lie in a rim without glue, each with the parts whose opening it is cut to."""
    found: dict[str, list[str]] = {}
    for joining in piece.joinings:
        if joining.role is Role.RIM and not joining.glued_faces:
            found.setdefault(joining.incoming, []).append(joining.into)
    return {panel: tuple(dict.fromkeys(names)) for panel, names in found.items()}


def fitted(
    piece: Piece, units: Sequence[Unit], operations: Sequence[Operation]
) -> tuple[Operation, ...]:
    """The operations with dry fits and measurements among them, and what waits for each.

    Args:
        piece: what is made.
        units: all of them.
        operations: of all units, with what comes before each on its own wood.
    """
    panels = loose_panels(piece)
    single = {unit.id for unit in units if not unit.is_common}
    panels = {panel: rails for panel, rails in panels.items() if panel in single}
    waits: dict[str, list[After]] = {}
    added: list[Operation] = []
    moved = [_for_panel(each) if set(each.takes) & set(panels) else each for each in operations]
    for frame in dict.fromkeys(_frame(piece, rails) for rails in panels.values()):
        dry = _dry_fit("the frame", frame, moved, panels)
        added.append(dry)
        for panel in (name for name, rails in panels.items() if _frame(piece, rails) == frame):
            measured = _measured(panel, dry)
            added.append(measured)
            for each in moved:
                if each.takes == (panel,) and each.stage is Stage.FIT:
                    waits.setdefault(each.key, []).append(After(measured.key, Why.TRIED_FIRST))
    for unit in units:
        for measured, after in _closing_rail(piece, unit, moved):
            added.append(measured)
            waits.setdefault(after, []).append(After(measured.key, Why.TRIED_FIRST))
    for key, mate in _mates(piece, units, moved):
        waits.setdefault(key, []).append(mate)
    whole = _dry_fit("the whole piece", tuple(each.instance for each in piece.placed),
                     [each for each in moved if each.stage is not Stage.TRIM], {})  # fmt: skip
    whole = replace(whole, stage=Stage.FIT)
    for each in moved:
        if each.kind is Kind.TRIM:
            waits.setdefault(each.key, []).append(After(whole.key, Why.TRIED_FIRST))
    return tuple(
        replace(each, after=(*each.after, *waits.get(each.key, ())))
        for each in (*moved, *added, whole)
    )


def _for_panel(operation: Operation) -> Operation:
    """A loose panel gets its last sizes when its opening can be measured."""
    if operation.kind in _BEFORE_FITTING or operation.stage is Stage.TRIM:
        return operation
    return replace(operation, stage=Stage.FIT)


def _frame(piece: Piece, rails: tuple[str, ...]) -> tuple[str, ...]:
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
        if len(joined & set(rails) - {each.instance}) > 1:
            found.add(each.instance)
    return tuple(each.instance for each in piece.placed if each.instance in found)


def _dry_fit(
    what: str,
    instances: tuple[str, ...],
    operations: Iterable[Operation],
    without: Mapping[str, object],
) -> Operation:
    names = set(instances) - set(without)
    return Operation(
        key=f"dry fit: {what}, {', '.join(sorted(names)[:2])}",
        kind=Kind.DRY_FIT,
        stage=Stage.DRY,
        takes=tuple(name for name in instances if name in names),
        gives=tuple(name for name in instances if name in names),
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
    opposite = _opposite(piece, unit, last.sizes[0].instance)
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
            after=tuple(
                After(each.key, Why.MATE_FIRST)
                for each in operations
                if each is not last and _brings_to_size(each, unit, names)
            ),
        ),
        last.key,
    )


def _brings_to_size(operation: Operation, unit: Unit, names: set[str]) -> bool:
    """Whether it gives one of these parts a width, or a length off the same run."""
    sizes = {each.instance for each in operation.sizes if each.axis is not Axis.THICKNESS}
    is_off = operation.stage is Stage.PART and operation.gives[0] in unit.instances
    return bool(sizes & names) and (operation.stage is Stage.MILL or is_off)


def _opposite(piece: Piece, unit: Unit, closing: str) -> tuple[str, ...]:
    """The parts along the side across from a rail: those that close on its neighbours."""

    placed = {each.instance: each for each in piece.placed}
    way = placed[closing].placement.x_axis
    joined: dict[str, set[str]] = {each.instance: set() for each in piece.placed}
    for joining in piece.joinings:
        is_seat = joining.role in (Role.RIM, Role.SEAT)
        if not is_seat and (joining.role is Role.CORNER or joining.fasteners):
            joined[joining.into].add(joining.incoming)
            joined[joining.incoming].add(joining.into)
    sides = joined[closing] & set(unit.instances)
    found = {
        other
        for side in sides
        for other in joined[side] - {closing}
        if abs(dot(placed[other].placement.x_axis, way)) > 0.5
    }
    between = {
        each
        for each in joined
        if len(joined[each] & found) > 1 and each not in sides and each != closing
    }
    return tuple(each.instance for each in piece.placed if each.instance in found | between)


def _mates(
    piece: Piece, units: Sequence[Unit], operations: Sequence[Operation]
) -> Iterator[tuple[str, After]]:
    """A trench is set from the part that goes in, when that has its thickness."""
    unit_of = {name: unit.id for unit in units for name in unit.instances}
    for each in operations:
        if each.kind not in (Kind.DADO, Kind.GROOVE):
            continue
        names = {cut.instance for cut in each.cuts}
        for joining in piece.joinings:
            if joining.role is Role.HOUSING and joining.into in names:
                yield each.key, After(f"{unit_of[joining.incoming]}: measure the thickness",
                                      Why.MATE_FIRST)  # fmt: skip


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
    return rig.machine is not Machine.BENCH and (is_wide or bool(rig.tilt_deg or rig.turned_deg))


def _called(rig: Rig) -> str:
    slope = " tilted" if rig.tilt_deg else " turned" if rig.turned_deg else ""
    return f"{rig.machine.value}, {rig.cutter.kind.value}{slope}, {rig.guide.value}"
