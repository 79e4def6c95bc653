"""Figures that follow what was measured name where: told from the meaning, not from what waits.

A panel that lies loose follows its opening, the last rail of a run the row across from it, a
channel what lies in it from wall to wall, an end that is left long the dry fit of all that is
joined to the part, a test cut the channels that its rig goes on to cut. What an operation says of
its order (`after`) is not read; solids and boxes say what lies where.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from furniture.joints.joint import Joining, Role
from furniture.making.operations import Axis, FitTo, Follows, Kind, Operation, Stage
from furniture.making.settings import Bored, Notched, Slice, Trench
from furniture.making.workpieces import Wood
from tests.making.bench import Bench
from tests.making.bench_order import _long_axis, _row_of
from tests.making.order import Fault

_ROW_MM = 2.0
_HAIR_MM, _PLAY_MM = 0.05, 2.0
"""A channel is as wide as what lies in it, or more by its play; what only crosses it is not."""
Wanted = dict[tuple[str, Follows], set[frozenset[str]]]
"""By operation and figure the ways in which it may be right: each a set of keys, all named."""


def unfollowed(bench: Bench) -> list[Fault]:
    """Every figure that names no measurement, a wrong one, or one that comes after it."""
    return [
        *_named_right(bench),
        *named_before(bench),
        *_read_for_nothing(bench),
        *_of_two_openings(bench),
    ]


def _named_right(bench: Bench) -> Iterator[Fault]:
    wanted = _wanted(bench)
    for each in bench.making.operations:
        for figure in Follows:
            named = frozenset(fit.key for fit in each.fit_to if fit.figure is figure)
            right = wanted.get((each.key, figure), {frozenset()})
            if named not in right:
                told = " or ".join(sorted(str(sorted(keys)) for keys in right))
                yield Fault(each.key, f"its {figure.value} names {sorted(named)}, not {told}")


def named_before(bench: Bench) -> Iterator[Fault]:
    """What is set from a measurement that is not taken yet."""
    place = {each.key: at for at, each in bench.done}
    for at, each in bench.done:
        for fit in each.fit_to:
            if place.get(fit.key, at) >= at:
                yield Fault(each.key, f"{fit.key} is not done by then")


def _read_for_nothing(bench: Bench) -> Iterator[Fault]:
    """Each opening and each row is measured for one part."""
    for_whom: dict[str, set[str]] = defaultdict(set)
    for each in bench.making.operations:
        for fit in each.fit_to:
            if fit.figure is Follows.SIZE:
                for_whom[fit.key] |= {size.instance for size in each.sizes}
    for _, each in bench.of_kind(Kind.MEASURE):
        if each.stage is not Stage.MILL and len(for_whom[each.key]) != 1:
            yield Fault(each.key, f"it is measured for {sorted(for_whom[each.key])}")


def _of_two_openings(bench: Bench) -> Iterator[Fault]:
    """All that is done to a loose panel follows the one opening that is measured for it."""
    for panel in _openings(bench):
        named = {
            fit.key
            for each in bench.making.operations
            if each.takes == (panel,)
            for fit in each.fit_to
            if fit.figure is not Follows.WIDTH
        }
        if len(named) > 1:
            yield Fault(panel, f"it follows {sorted(named)}")


def _wanted(bench: Bench) -> Wanted:
    found: Wanted = {}
    for rule in (_panels, _closing_rails, _trimmed, _channels):
        for operation, figure, keys in rule(bench):
            found.setdefault((operation.key, figure), set()).update(keys)
    for _, test in bench.of_kind(Kind.TEST_CUT):
        keys = frozenset(
            key
            for each in bench.making.operations
            if each.rig == test.rig
            for right in found.get((each.key, Follows.WIDTH), ())
            for key in right
        )
        if keys:
            found[test.key, Follows.WIDTH] = {keys}
    return found


Asked = Iterator[tuple[Operation, Follows, set[frozenset[str]]]]


def _panels(bench: Bench) -> Asked:
    """What gives a loose panel its sizes, and what is placed on it, follows its opening."""
    common = {
        name
        for each in bench.making.workpieces
        if each.what is Wood.COMMON_BLANK
        for name in each.instances
    }
    for panel, rails in _openings(bench).items():
        openings = {
            frozenset({each.key})
            for _, each in bench.of_kind(Kind.MEASURE)
            if each.stage is Stage.FIT and rails <= set(each.takes)
        }
        for each in bench.making.operations:
            if panel in common or panel not in each.takes or each.setting is None:
                continue
            if any(size.axis is not Axis.THICKNESS for size in each.sizes):
                yield each, Follows.SIZE, openings
            elif each.cuts or each.begins:
                yield from ((each, figure, openings) for figure in _on_a_panel(each))


def _on_a_panel(operation: Operation) -> Iterator[Follows]:
    """A notch at a corner goes round what stands there; all else moves with the panel's size."""
    setting = operation.setting
    if isinstance(setting, Notched) and setting.near_mm == 0.0:
        yield Follows.DEPTH
    elif isinstance(setting, Notched | Bored) or (
        isinstance(setting, Trench) and setting.near_mm != 0.0
    ):
        yield Follows.PLACE


def _closing_rails(bench: Bench) -> Asked:
    """A row that is measured stands across from one part with two mitres, as long, cut after it."""
    sized = bench.sized_at()
    rows = [
        (at, each.key, row)
        for at, each in bench.of_kind(Kind.MEASURE)
        if (row := _row_of(bench, each)) is not None
    ]
    for name in bench.placed.mitred_at_both_ends:
        axis = _long_axis(bench, name)
        span = bench.placed.span(name, axis)
        across = {
            frozenset({key})
            for at, key, (way, *ends) in rows
            if way == axis
            and at < sized[name, Axis.LENGTH]
            and max(abs(a - b) for a, b in zip(ends, span, strict=True)) < _ROW_MM
            and name not in next(e for e in bench.making.operations if e.key == key).takes
        }
        for each in bench.making.operations:
            is_cut = any(s.instance == name and s.axis is Axis.LENGTH for s in each.sizes)
            if across and is_cut and _is_last(bench, name):
                yield each, Follows.SIZE, across


def _is_last(bench: Bench, name: str) -> bool:
    """Whether it is the last of its length that is cut."""
    sized = bench.sized_at()
    alike = [
        each.instances
        for each in bench.making.workpieces
        if each.what is Wood.COMMON_BLANK and name in each.instances
    ]
    return all(
        sized[other, Axis.LENGTH] <= sized[name, Axis.LENGTH] for names in alike for other in names
    )


def _trimmed(bench: Bench) -> Asked:
    """An end that is left long is sawn where it comes when all that is joined to it is there."""
    last = {each.instance: each.part.trimmed_last for each in bench.piece.placed}
    for each in bench.making.operations:
        for size in each.sizes:
            if last[size.instance] is None or size.axis is not Axis.LENGTH:
                continue
            if not isinstance(each.setting, Slice):
                continue
            asked = bench.placed.joined_to[size.instance] | {size.instance}
            tried = {
                frozenset({dry.key})
                for _, dry in bench.of_kind(Kind.DRY_FIT)
                if asked <= set(dry.takes)
            }
            yield each, Follows.SIZE, tried


def _channels(bench: Bench) -> Asked:
    """A trench is as wide as what lies in it from wall to wall, read off that wood."""
    read: dict[str, str] = {}
    for _, each in bench.of_kind(Kind.MEASURE):
        if each.stage is Stage.MILL:
            read |= dict.fromkeys(bench.instances_of(each), each.key)
    for each in bench.making.operations:
        setting = each.setting
        if not isinstance(setting, Trench) or setting.near_mm == 0.0 or each.kind is Kind.CHOP:
            continue
        keys = frozenset(
            read[mate]
            for cut in (*each.cuts, *each.begins)
            for mate in bench.placed.mates[cut]
            if mate in read and _is_held_by_walls(bench, cut.instance, setting, mate)
        )
        if keys:
            yield each, Follows.WIDTH, {keys}


def _is_held_by_walls(bench: Bench, into: str, setting: Trench, mate: str) -> bool:
    """Whether the thickness of what lies in a trench, and not only crosses it, fills its width."""
    across = bench.placed.matrices[into][:, 3 - setting.along - setting.face.axis]
    through = bench.placed.matrices[mate][:, 2]
    play = setting.width_mm - bench.placed.sizes[mate][2]
    return abs(float(across @ through)) > 0.99 and -_HAIR_MM < play < _PLAY_MM


def _openings(bench: Bench) -> Mapping[str, frozenset[str]]:
    """What glue and screws leave loose among several parts, though a hinge may hold it: its rails.

    All that it meets does not look one way, or it would lie on them and in no opening.
    """
    found: dict[str, list[Joining]] = defaultdict(list)
    for each in bench.piece.joinings:
        if each.role is not Role.HINGE:
            found[each.incoming].append(each)
    return {
        name: frozenset(each.into for each in met)
        for name, met in found.items()
        if len({each.into for each in met}) > 1
        and not any(face.glue for each in met for face in each.faces)
        and not any(fastener.is_glued for each in met for fastener in each.fasteners)
        and len({_rounded(face.normal) for each in met for face in each.faces}) > 1
    }


def _rounded(way: Sequence[float]) -> tuple[float, ...]:
    return tuple(round(each, 3) + 0.0 for each in way)


def without(operation: Operation, figure: Follows) -> tuple[FitTo, ...]:
    """What it names but for one figure: only to plant faults."""
    return tuple(fit for fit in operation.fit_to if fit.figure is not figure)
