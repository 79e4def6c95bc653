"""The glue-ups of a piece as stages, or what cannot be closed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from furniture.assembly import AssemblyPlan, NoOrder, scene_of
from furniture.assembly.seen import Scene
from furniture.joints.joint import Joining, Role
from furniture.making.glue_ups.after import (
    by_stage,
    course_of,
    fixings_of,
    hung_in,
    hung_of,
    levellings_of,
    trimmings_of,
    weights_of,
)
from furniture.making.glue_ups.butts import mitres_met_by_butts
from furniture.making.glue_ups.checking import checks_of
from furniture.making.glue_ups.clusters import (
    Cluster,
    clusters_of,
    faces_count,
    is_glued,
    is_mitre,
    on_carriers,
    split_where_long,
)
from furniture.making.glue_ups.flush import Proud, in_a_planes_way, left_long_of, proud_of
from furniture.making.glue_ups.looked import Bodies, Looked, Rigid
from furniture.making.glue_ups.moves import moves_of
from furniture.making.glue_ups.order import Drawn, Search, State, Wishes, last_dry
from furniture.making.glue_ups.pads import Head
from furniture.making.glue_ups.pressing import (
    bands_of,
    clamp_lines_of,
    has_room,
    without_room,
)
from furniture.making.glue_ups.spread import areas_of, bare_of, fasteners_of, spread_of
from furniture.making.glue_ups.values import AtOnce, GlueBench, GlueUps, NoStages, Stage
from furniture.parts.part import Placed
from furniture.pieces.piece import Piece
from furniture.rules.tools import BLOCK_SLENDER, CLAMP_BAR, HEAD_BEARS, HEAD_DEEP, LEAST_BLOCK

USUAL_BENCH = GlueBench()


def stages_of(
    piece: Piece,
    order: AssemblyPlan | NoOrder,
    *,
    bench: GlueBench = USUAL_BENCH,
    scene: Scene | None = None,
) -> GlueUps | NoStages:
    """The glue-ups of a piece in order, each with all that a maker must know of it.

    Joints that press along one axis and hang together close in one stage, a ring of mitres at
    once, what is stuck on by a face last. Of all orders in which the bodies come together straight,
    one is taken that tears no ring, leaves rims where a plane reaches them, keeps to the open time
    and has the fewest stages; of equals the one nearest to the order of assembly.

    Args:
        piece: no two of its parts overlap.
        order: its order of assembly.
        bench: what glue and clamps allow.
        scene: its parts in their places, where the order of assembly was found with it.

    Returns:
        The stages, or what is stuck: what the order of assembly says where there is none.

    Raises:
        SolidError: a part's solid cannot be made.

    **Source:** own rule, after common practice.
    """
    if isinstance(order, NoOrder):
        return NoStages(stuck=order.stuck)
    looked = Looked(scene or scene_of(piece), piece.joinings)
    placed = {each.instance: each for each in piece.placed}
    proud = [
        (each, in_a_planes_way(looked.scene, placed[each.high], each, piece.rules))
        for each in proud_of(piece)
    ]
    wishes = _wishes(piece, order, looked, proud, bench)
    furthest: State = frozenset()
    for clusters, wanted in _tries(piece, order, wishes):
        search = Search(looked, clusters, wanted)
        drawn = search.stages()
        furthest = search.furthest
        if drawn is not None:
            break
    else:
        return _stuck(looked, furthest)
    state = drawn[-1].after if drawn else furthest
    dry, state = last_dry(looked, state, _kept(piece, looked))
    drawn = drawn if dry is None else (*drawn, dry)
    if not all(looked.is_closable(lot, 2) for lot in (*(dry.merged if dry else ()), tuple(state))):
        return _stuck(looked, state)
    return _told(piece, looked, drawn, state, proud, wishes, order)


def _tries(
    piece: Piece, order: AssemblyPlan, wishes: Wishes
) -> Iterator[tuple[Sequence[Cluster], Wishes]]:
    """Clusters and what their moves may be, the best liked first.

    Last come the steps of the order of assembly one by one: they can be closed, if not well.
    """
    whole = clusters_of(piece)
    split = split_where_long(piece, whole, wishes.bench)
    for legs in (1, 2):
        yield split, replace(wishes, legs=legs)
        if split != whole:
            yield whole, replace(wishes, legs=legs)
    yield _steps(piece, order, whole), replace(wishes, legs=2, is_in_turn=True)


def _steps(piece: Piece, order: AssemblyPlan, whole: Sequence[Cluster]) -> tuple[Cluster, ...]:
    of = {row: each for each in whole for row in each.joinings}
    found = (
        frozenset(
            row
            for row, each in enumerate(piece.joinings)
            if is_glued(each) and (each.into, each.incoming) in step.joints
        )
        for step in order.steps
    )
    return tuple(replace(of[min(rows)], joinings=rows) for rows in found if rows)


def _wishes(
    piece: Piece,
    order: AssemblyPlan,
    looked: Looked,
    proud: Sequence[tuple[Proud, frozenset[str]]],
    bench: GlueBench,
) -> Wishes:
    closes = {
        pair: len(order.steps) - index
        for index, step in enumerate(order.steps)
        for pair in step.joints
    }
    return Wishes(
        bench=bench,
        in_the_way=[
            (looked.row_of[each.high], frozenset(looked.row_of[name] for name in way))
            for each, way in proud
        ],
        true_with=mitres_met_by_butts(piece),
        turn={
            row: closes.get((each.into, each.incoming), 0)
            for row, each in enumerate(piece.joinings)
        },
    )


def _kept(piece: Piece, looked: Looked) -> list[tuple[int, int]]:
    """Rows of parts that fasteners keep together: of a joint, or named by a builder."""
    turning = set(hung_in(piece))
    found = [
        looked.ends_of(each)
        for each in piece.joinings
        if each.fasteners and each.role is not Role.HINGE
    ]
    for thing in (each for each in piece.fixings if not turning & set(each.where)):
        rows = [looked.row_of[name] for name in thing.where if name in looked.row_of]
        found.extend((rows[0], other) for other in rows[1:])
    return found


def _stuck(looked: Looked, state: State) -> NoStages:
    bodies = tuple(looked.names_of(body) for body in sorted(state, key=min))
    return NoStages(stuck=tuple(name for body in bodies for name in body), bodies=bodies)


def _told(
    piece: Piece,
    looked: Looked,
    drawn: Sequence[Drawn],
    state: State,
    proud: Sequence[tuple[Proud, frozenset[str]]],
    wishes: Wishes,
    order: AssemblyPlan,
) -> GlueUps:
    placed = {each.instance: each for each in piece.placed}
    stages = [_stage(piece, looked, each, placed, wishes, order) for each in drawn]
    course = course_of(looked, drawn, [each.dry for each in stages])
    count = len(drawn)
    levelled = by_stage(levellings_of(course, proud, placed), count)
    trimmed = by_stage(trimmings_of(course, left_long_of(piece)), count)
    weights = by_stage(weights_of(course, piece), count)
    fixings = list(fixings_of(course, piece))
    fixed = by_stage(((at, each) for at, each in fixings if at is not None), count)
    return GlueUps(
        stages=tuple(
            replace(
                each,
                number=at + 1,
                levelled=levelled[at],
                trimmed=trimmed[at],
                weights=weights[at],
                fixed_with=fixed[at],
            )
            for at, each in enumerate(stages)
        ),
        laid_in=moves_of(looked, tuple(sorted(state, key=min)), order.steps),
        fixed_with=tuple(each for at, each in fixings if at is None),
        hung=tuple(hung_of(piece)),
    )


def _stage(
    piece: Piece, looked: Looked, drawn: Drawn, placed: dict[str, Placed], wishes: Wishes,
    order: AssemblyPlan,
) -> Stage:  # fmt: skip
    glued, dry = _closing(piece, looked, drawn)
    spread = spread_of(glued)
    seconds = faces_count(glued) * wishes.bench.seconds_per_face
    lots = [(lot, frozenset[int]().union(*lot)) for lot in drawn.merged]
    mitres = [each for each in glued if is_mitre(each, placed[each.incoming])]
    bands = tuple(
        band
        for lot, whole in lots
        for band in bands_of(looked, lot, [e for e in mitres if looked.row_of[e.into] in whole])
    )
    banded = {pair for band in bands for pair in band.pressed}
    free = [
        each for each in glued if (each.into, each.incoming) not in banded and _is_pressed(each)
    ]
    held_true_by = _held_true_by(looked, drawn, wishes)
    there = frozenset(looked.row_of[name] for name in held_true_by)  # it is on under the clamps
    lines = tuple(
        line
        for _, whole in lots
        for line in clamp_lines_of(
            looked,
            whole | there,
            [each for each in free if looked.row_of[each.into] in whole],
            _head(piece, wishes.bench),
        )
    )
    return Stage(
        number=0,
        bodies=tuple(looked.names_of(body) for lot in drawn.merged for body in lot),
        dry=_dry(looked, drawn, glued),
        moves=tuple(step for lot in drawn.merged for step in moves_of(looked, lot, order.steps)),
        glued=glued,
        spread=spread,
        areas=areas_of(spread),
        bare=tuple(
            bare for _, whole in lots
            for bare in bare_of(
                looked, whole, [e for e in glued if looked.row_of[e.into] in whole],
                [e for e in dry if looked.row_of[e.into] in whole],
            )
        ),
        dowels=fasteners_of(glued, glued=True),
        driven=fasteners_of((*glued, *dry), glued=False),
        fixed_with=(),
        weights=(),
        held_true_by=held_true_by,
        at_once=tuple(
            AtOnce(carrier=carrier, parts=tuple(dict.fromkeys(
                name for row in sorted(rows) for name in (glued[row].into, glued[row].incoming)
                if name != carrier
            )))
            for carrier, rows in on_carriers(glued).items()
        ),
        clamps=tuple(each for each in lines if has_room(each)),
        bands=bands,
        unpressed=without_room(lines, free),
        checks=tuple(
            check for lot, whole in lots
            for check in checks_of(
                looked, lot, [e for e in glued if looked.row_of[e.into] in whole], placed
            )
        ),
        levelled=(),
        trimmed=(),
        spread_seconds=seconds,
        over_open_seconds=max(0.0, seconds - wishes.bench.open_seconds),
    )  # fmt: skip


def _head(piece: Piece, bench: GlueBench) -> Head:
    """A clamp's head, and what the maker sets below it."""
    return Head(
        wide_mm=bench.head_mm,
        deep_mm=piece.rules[HEAD_DEEP],
        bears=piece.rules[HEAD_BEARS],
        least_block_mm=piece.rules[LEAST_BLOCK],
        slender=piece.rules[BLOCK_SLENDER],
        bar_mm=piece.rules[CLAMP_BAR],
    )


def _closing(
    piece: Piece, looked: Looked, drawn: Drawn
) -> tuple[tuple[Joining, ...], tuple[Joining, ...]]:
    """The joints that a stage closes: with glue and without."""
    before = {row: body for body in drawn.before for row in body}
    after = {row: body for body in drawn.after for row in body}
    closing = [
        each
        for each in piece.joinings
        for a, b in (looked.ends_of(each),)
        if before[a] != before[b] and after[a] == after[b]
    ]
    return (
        tuple(each for each in closing if is_glued(each)),
        tuple(each for each in closing if not is_glued(each)),
    )


def _is_pressed(joining: Joining) -> bool:
    """Whether a clamp presses a joint: a loose tongue is only pushed home."""
    return joining.role is not Role.LOOSE_TONGUE


def _dry(looked: Looked, drawn: Drawn, glued: Sequence[Joining]) -> tuple[str, ...]:
    """The bodies of a stage that no joint glues in it."""
    stuck = {row for each in glued for row in looked.ends_of(each)}
    lots: list[Bodies] = [lot for lot in drawn.merged if drawn.glued]
    if not drawn.glued:
        lots = [tuple(sorted(lot, key=len))[:-1] for lot in drawn.merged]
    return tuple(
        name for lot in lots for body in lot if not body & stuck for name in looked.names_of(body)
    )


def _held_true_by(looked: Looked, drawn: Drawn, wishes: Wishes) -> tuple[str, ...]:
    """What is put on dry to hold the others in place.

    It is the rest of a cluster that was too long, what has open mitres with a rail that is butted,
    and what rails will be butted to whose mitres close, where that is one already.
    """
    if drawn.cluster is None or len(drawn.merged) != 1:
        return ()

    def beside(joints: Iterable[int]) -> tuple[Rigid, ...]:
        ends = {row for joint in joints for row in looked.ends_of(looked.joinings[joint])}
        return tuple(body for body in drawn.before if body & ends and body not in drawn.merged[0])

    met = [mitre for row in drawn.glued for mitre in wishes.true_with.get(row, ())]
    form = beside(row for row, mitres in wishes.true_with.items() if mitres & drawn.glued)
    more = {*beside((drawn.cluster.split_from | {*met}) - drawn.glued)}
    more |= set(form) if len(form) == 1 else set()
    if not more or not looked.is_closable((*drawn.merged[0], *more), wishes.legs):
        return ()
    return looked.names_of(row for body in more for row in body)
