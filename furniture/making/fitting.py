"""What is fitted: tried dry, measured, and cut to what was measured, each an operation."""

from __future__ import annotations

from collections.abc import Collection, Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from furniture.joints.joint import Role
from furniture.making.closing_rail import closing_rail
from furniture.making.mates import as_wide_as_its_mate, measured_mates, pared_tenons
from furniture.making.operations import After, FitTo, Follows, Kind, Operation, Stage
from furniture.making.settings import (
    Bored,
    CutterKind,
    Guide,
    Machine,
    Notched,
    Rig,
    Trench,
)
from furniture.making.units import Unit
from furniture.making.why import Why
from furniture.pieces.piece import Piece

_BEFORE_FITTING = frozenset(
    {Kind.MEASURE, Kind.JOINT_FACE, Kind.JOINT_EDGE, Kind.RESAW, Kind.PLANE}
)


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

    Each figure that follows what was measured names where: a trimmed end the dry fit of all.

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
    fits = {each.key: [*as_wide_as_its_mate(piece, units, each)] for each in operations}
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
                own = measured_all[inside.index(each.takes[0])]
                fits[each.key] += [FitTo(figure, own.key) for figure in _follows(each)]
    for unit in units:
        for measured, after in closing_rail(piece, unit, moved):
            first = {each.key: [*each.after, *waits.get(each.key, ())] for each in (*moved, *added)}
            if after not in _all_before(measured, first):  # else what it closes on closes on it
                added.append(measured)
                waits.setdefault(after, []).append(After(measured.key, Why.TRIED_FIRST))
                fits[after].append(FitTo(Follows.SIZE, measured.key))
    for key, mate in (*measured_mates(piece, units, moved), *pared_tenons(piece, moved)):
        waits.setdefault(key, []).append(mate)
    there = tuple(each.instance for each in piece.placed if each.instance not in let_in_later)
    whole = _dry_fit("the whole piece", there,
                     [each for each in moved if each.stage is not Stage.TRIM])  # fmt: skip
    whole = replace(whole, stage=Stage.FIT)
    for each in moved:
        if each.kind is Kind.TRIM:
            waits.setdefault(each.key, []).append(After(whole.key, Why.TRIED_FIRST))
            fits[each.key].append(FitTo(Follows.SIZE, whole.key))
    return tuple(
        replace(
            each,
            after=(*each.after, *waits.get(each.key, ())),
            fit_to=tuple(dict.fromkeys(fits.get(each.key, ()))),
        )
        for each in (*moved, *added, whole)
    )


def _follows(operation: Operation) -> Iterator[Follows]:
    """Which figures of a pass on a loose panel follow the opening that it is cut to."""
    if operation.sizes:
        yield Follows.SIZE
    match operation.setting:
        case Notched(near_mm=0.0):
            yield Follows.DEPTH
        case Notched() | Bored():
            yield Follows.PLACE
        case Trench(near_mm=near) if near > 0.0:
            yield Follows.PLACE


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
        followed = (fit for each in using for fit in each.fit_to if fit.figure is Follows.WIDTH)
        widths = tuple(dict.fromkeys(followed))
        test = Operation(
            key=f"test cut {number}: {_called(rig)}",
            kind=Kind.TEST_CUT,
            stage=first,
            takes=(),
            gives=(),
            rig=rig,
            after=tuple(After(each.key, Why.MATE_FIRST) for each in widths),
            fit_to=widths,
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
