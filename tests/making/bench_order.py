"""Whether the order serves at the bench: what is tried, measured, fitted, glued and finished.

Such work leaves no mark that a replay of cuts could see. The rules are told from the piece, from
its solids and from what operations do and take; what they say of their order (`after`) is not read.
Common practice, no source, as the reasons in `furniture.making.why` are.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from furniture.joints.joint import Role
from furniture.making.operations import Axis, Kind, Operation, SawnCauls, SawnSpacers, Stage
from furniture.making.settings import (
    Bored,
    ByHand,
    CornerSlot,
    Easing,
    Machine,
    MitreGroove,
    Skim,
    Slice,
    Trench,
)
from furniture.making.workpieces import Wood
from tests.making.bench import GLUED, Bench, Rule
from tests.making.finish_order import FINISH_RULES
from tests.making.history import Moment
from tests.making.order import Fault, worked_at

_ROW_MM = 2.0
"""Parts whose boxes are so near stand side by side."""
_PREPARED = frozenset({Kind.SAND, Kind.MASK, Kind.COAT, Kind.SIZE_END_GRAIN, *GLUED})


def bench_faults(bench: Bench) -> list[Fault]:
    """Every fault of what is done at the bench."""
    return [fault for rule in RULES for fault in rule(bench)]


def _not_tried_in_scrap(bench: Bench) -> Iterator[Fault]:
    """What must be as wide as its mate, or close a corner, is sawn in scrap first."""
    tried: list[object] = []
    for each in bench.making.operations:
        if each.kind is Kind.TEST_CUT:
            tried.append(each.rig)
        if each.rig is None or each.rig.machine is Machine.BENCH or each.rig in tried:
            continue
        setting = each.setting
        is_wide = isinstance(setting, Trench | MitreGroove | CornerSlot) or (
            isinstance(setting, Bored) and setting.to_mm is not None
        )
        if is_wide or (isinstance(setting, Slice | Skim) and setting.lean_deg):
            yield Fault(each.key, "its cutter was not tried in scrap")


def _mate_not_measured(bench: Bench) -> Iterator[Fault]:
    """A channel is set from what goes in, read at the calipers once it has its thickness."""
    thick = bench.sized_at()
    read: dict[str, int] = {}
    for at, each in bench.of_kind(Kind.MEASURE):
        for name in bench.instances_of(each):
            if at >= thick[name, Axis.THICKNESS]:
                read.setdefault(name, at)
    for at, each in bench.done:
        if not isinstance(each.setting, Trench) or each.setting.near_mm == 0.0:
            continue
        for cut in each.cuts:
            for mate in bench.placed.mates[cut]:
                if read.get(mate, at) >= at:
                    yield Fault(each.key, f"{mate} was not measured before")


def _read_before_it_is_there(bench: Bench) -> Iterator[Fault]:
    """Calipers read a thickness once it is final, or they read what is planed off after."""
    thick = bench.sized_at()
    for at, each in bench.of_kind(Kind.MEASURE):
        names = bench.instances_of(each)
        if each.stage is Stage.MILL and any(thick[name, Axis.THICKNESS] > at for name in names):
            yield Fault(each.key, "it is planed after")


def _measured_in_pieces(bench: Bench) -> Iterator[Fault]:
    """What is read off a blank of several parts is read while it is whole: bits slip and tilt."""
    sized = bench.sized_at()
    for at, each in bench.of_kind(Kind.MEASURE):
        for wood in each.takes:
            names = bench.instances_in(wood)
            if len(names) > 1 and any(sized[name, Axis.LENGTH] < at for name in names):
                yield Fault(each.key, f"{wood} is sawn apart by then")


def _measured_too_early(bench: Bench) -> Iterator[Fault]:
    """Parts that are measured side by side have their sizes along that row."""
    sized = bench.sized_at()
    for at, each in bench.of_kind(Kind.MEASURE):
        row = _row_of(bench, each)
        if row is None:
            continue
        axis, _, _ = row
        for name in each.takes:
            size = bench.placed.size_along(name, axis)
            if sized[name, size] > at:
                yield Fault(each.key, f"the {size.value} of {name} comes later")


def _cut_before_it_is_measured(bench: Bench) -> Iterator[Fault]:
    """A part with a mitre at both ends, across from a row that is measured, is cut to that row."""
    sized = bench.sized_at()
    for at, each in bench.of_kind(Kind.MEASURE):
        row = _row_of(bench, each)
        if row is None:
            continue
        axis, low, high = row
        for name in bench.placed.mitred_at_both_ends:
            if name in each.takes or bench.placed.size_along(name, axis) is not Axis.LENGTH:
                continue
            span = bench.placed.span(name, axis)
            is_across = abs(span[0] - low) < _ROW_MM and abs(span[1] - high) < _ROW_MM
            if is_across and sized[name, Axis.LENGTH] < at:
                yield Fault(name, "it was cut before what lies opposite was measured")


def _closes_unmeasured(bench: Bench) -> Iterator[Fault]:
    """The last rail off a strip, mitred at both ends, is cut to what was measured across from it.

    Its neighbours lead to what lies there. Where that comes off wood that waits for this rail,
    there is nothing to measure yet.
    """
    sized = bench.sized_at()
    for blank in bench.making.workpieces:
        if blank.what is not Wood.COMMON_BLANK:
            continue
        last = max(blank.instances, key=lambda name: sized[name, Axis.LENGTH])
        sides = {
            name
            for each in bench.piece.joinings
            if each.role is Role.CORNER and last in (each.into, each.incoming)
            for name in {each.into, each.incoming} - {last}
        }
        if last not in bench.placed.mitred_at_both_ends or len(sides) != 2:
            continue
        beyond = [bench.placed.joined_to[side] - {last} for side in sides]
        cut = sized[last, Axis.LENGTH]
        rows = [
            row
            for at, each in bench.of_kind(Kind.MEASURE)
            if at < cut and (row := _row_of(bench, each)) is not None
        ]
        axis = _long_axis(bench, last)
        span = bench.placed.span(last, axis)
        is_measured = any(
            row[0] == axis and max(abs(a - b) for a, b in zip(row[1:], span, strict=True)) < _ROW_MM
            for row in rows
        )
        across = [name for names in beyond for name in names if _is_there(bench, name, last, cut)]
        if not is_measured and all(set(names) & set(across) for names in beyond):
            yield Fault(last, "it closes the run, and nothing is measured before it is cut")


def _read_between_other_faces(bench: Bench) -> Iterator[Fault]:
    """A row is read over the outside, from the outermost face at either end of it."""
    for _, each in bench.of_kind(Kind.MEASURE):
        row = _row_of(bench, each)
        if row is None:
            continue
        axis, *ends = row
        told = () if each.span is None else (each.span.low, each.span.high)
        outwards = {}
        for name, face in told:
            way = bench.placed.matrices[name][axis, :3] @ np.array(face.normal)
            outwards[round(float(way))] = bench.placed.span(name, axis)
        is_right = set(outwards) == {-1, 1} and (
            abs(outwards[-1][0] - ends[0]) < _ROW_MM and abs(outwards[1][1] - ends[1]) < _ROW_MM
        )
        if not is_right:
            yield Fault(each.key, "it does not say over which faces it is measured")


def _long_axis(bench: Bench, name: str) -> int:
    return next(axis for axis in range(3) if bench.placed.size_along(name, axis) is Axis.LENGTH)


def _is_there(bench: Bench, name: str, rail: str, at: int) -> bool:
    """Whether a part beyond a rail's neighbours has its size that way before the rail is cut."""
    axis = _long_axis(bench, rail)
    return bench.sized_at()[name, bench.placed.size_along(name, axis)] < at


def _row_of(bench: Bench, operation: Operation) -> tuple[int, float, float] | None:
    """The axis along which measured parts stand side by side, and from where to where."""
    if operation.stage is not Stage.PART:
        return None
    for axis in range(3):
        spans = sorted(bench.placed.span(name, axis) for name in operation.takes)
        gaps = [abs(b[0] - a[1]) for a, b in pairwise(spans)]
        is_long = len(spans) > 1 or bench.placed.size_along(operation.takes[0], axis) is Axis.LENGTH
        if is_long and all(gap < _ROW_MM for gap in gaps):
            return axis, spans[0][0], spans[-1][1]
    return None


def _not_done_when_tried(bench: Bench) -> Iterator[Fault]:
    """What is put together dry is done, but for an end that is trimmed after it.

    What is cut at that end, or measured from it, and the sharp lines of such a part wait for it.
    """
    last = {each.instance: each.part.trimmed_last for each in bench.piece.placed}
    for at, dry in bench.of_kind(Kind.DRY_FIT):
        for moment in bench.moments:
            if moment.at < at:
                continue
            names = set(moment.instances) & set(dry.takes)
            late = {name for name in names if last[name] is not None}
            if isinstance(moment.operation.setting, Easing):
                names -= late
            waits = {name for name in late if _is_at(moment, last[name])}
            for name in sorted(names - waits):
                yield Fault(dry.key, f"{name} is cut later")


def _is_at(moment: Moment, end: object) -> bool:
    setting = moment.operation.setting
    makes = setting.off.opposite if isinstance(setting, Slice) else None
    return end is makes or end in worked_at(moment)


def _panel_not_fitted(bench: Bench) -> Iterator[Fault]:
    """A panel that lies loose in a rim is cut to the rim as it measures, put together dry."""
    sized = bench.sized_at()
    common = {
        name
        for each in bench.making.workpieces
        if each.what is Wood.COMMON_BLANK
        for name in each.instances
    }
    panels = {name: rails for name, rails in bench.placed.loose_panels.items()
              if name not in common}  # fmt: skip
    cut_at = {name: min(sized[name, axis] for axis in (Axis.WIDTH, Axis.LENGTH)) for name in panels}
    for panel, rails in panels.items():
        fits = [at for at, each in bench.of_kind(Kind.DRY_FIT) if rails <= set(each.takes)]
        measured = [
            at
            for at, each in bench.of_kind(Kind.MEASURE)
            if rails <= set(each.takes) and at < cut_at[panel] and any(fit < at for fit in fits)
        ]
        alike = [each for each in panels if panels[each] == rails]
        if len(measured) < sum(cut_at[each] <= cut_at[panel] for each in alike):
            yield Fault(panel, "it is cut before its opening is measured")
    yield from _taken_apart(bench)


def _taken_apart(bench: Bench) -> Iterator[Fault]:
    """What is put together dry stays so until all of it is measured: nothing is cut between."""
    cuts = [moment.at for moment in bench.moments]
    for at, each in bench.of_kind(Kind.MEASURE):
        fits = [
            fit
            for fit, dry in bench.of_kind(Kind.DRY_FIT)
            if fit < at and set(each.takes) <= set(dry.takes)
        ]
        if each.stage is Stage.FIT and not any(
            not any(fit < cut < at for cut in cuts) for fit in fits
        ):
            yield Fault(each.key, "what it measures does not stand together")


def _trimmed_before_it_is_tried(bench: Bench) -> Iterator[Fault]:
    """An end that follows what is joined to the part is cut when all of that was tried."""
    sized = bench.sized_at()
    for each in bench.piece.placed:
        if each.part.trimmed_last is None:
            continue
        joined = bench.placed.joined_to[each.instance] | {each.instance}
        fits = [at for at, dry in bench.of_kind(Kind.DRY_FIT) if joined <= set(dry.takes)]
        if not any(at < sized[each.instance, Axis.LENGTH] for at in fits):
            yield Fault(each.instance, "it is trimmed before it was tried with its mates")


def _glued_before_it_is_tried(bench: Bench) -> Iterator[Fault]:
    """All of it goes together dry before anything is made ready for glue."""
    every = {each.instance for each in bench.piece.placed} - _let_in(bench)
    on_bodies = {each.rig for _, each in bench.of_kind(Kind.KEY_SLOT)}
    fits = [at for at, each in bench.of_kind(Kind.DRY_FIT) if every <= set(each.takes)]
    for at, each in bench.of_kind(*_PREPARED):
        if not any(fit < at for fit in fits):
            yield Fault(each.key, "the whole piece was not tried dry before")
        for moment in bench.moments:
            if moment.at > at and set(moment.instances) & bench.instances_of(each):
                yield Fault(each.key, f"{moment.operation.key} cuts that wood later")
        for late, other in bench.of_kind(Kind.TEST_CUT, Kind.MEASURE, Kind.DRY_FIT):
            if late > at and not (other.kind is Kind.TEST_CUT and other.rig in on_bodies):
                yield Fault(each.key, f"{other.key} comes later")


def _let_in(bench: Bench) -> set[str]:
    """What has no place before its corner is closed."""
    return {cut.instance for _, each in bench.of_kind(Kind.FLUSH) for cut in each.cuts}


def _not_fitted(bench: Bench) -> Iterator[Fault]:
    """A tongue is planed when what it goes into is sawn, and before it is tried or glued."""
    finished = {cut: at for at, each in bench.done for cut in each.cuts}
    fits = {name: at for at, each in bench.of_kind(Kind.PLANE_TO_FIT) for name in each.takes}
    for name, at in fits.items():
        for cut, mates in bench.placed.tongues.items():
            if name in mates and finished.get(cut, at) >= at:
                yield Fault(f"{name}: plane to fit", "what it goes into is not sawn yet")
    for at, each in bench.of_kind(Kind.DRY_FIT, *GLUED):
        for name in set(each.takes) & set(fits):
            if fits[name] > at:
                yield Fault(each.key, f"{name} is not planed to fit by then")


def _slotted_before_it_is_level(bench: Bench) -> Iterator[Fault]:
    """What stands out of an earlier glue-up is off before a corner goes into the cradle."""
    for at, each in bench.of_kind(Kind.KEY_SLOT):
        there = bench.instances_of(each)
        for late, other in bench.of_kind(Kind.FLUSH, Kind.LEVEL, Kind.FIX):
            if late > at and other.stage is Stage.GLUE and bench.instances_of(other) <= there:
                yield Fault(each.key, f"{other.key} comes later")


def _scrap_comes_late(bench: Bench) -> Iterator[Fault]:
    """Cauls are there before their glue-up, spacers before the first cut of the row they lay out.

    Which row it is, is read off the cuts: in that wood, of that kind.
    """
    for at, each in bench.done:
        scrap = each.scrap
        for _, other in bench.done[:at]:
            if isinstance(scrap, SawnCauls):
                stage = other.glue_up if other.kind in GLUED else None
                is_late = stage is not None and stage.number in scrap.glue_ups
            else:
                is_late = isinstance(scrap, SawnSpacers) and other.kind is scrap.kind
                is_late = is_late and other.takes == scrap.on
            if is_late:
                yield Fault(other.key, f"{each.key} comes later")


def _tenon_before_its_mortise(bench: Bench) -> Iterator[Fault]:
    """A tenon is pared to its mortise: no pocket that its part goes into is made later."""
    for at, each in bench.done:
        if not isinstance(each.setting, ByHand) or each.setting.tenon_on is None:
            continue
        (name,) = {cut.instance for cut in each.cuts}
        for _, later in bench.done[at:]:
            setting = later.setting
            if not isinstance(setting, Trench) or not setting.whole_low_mm * setting.whole_high_mm:
                continue
            goes_into = {each.into for each in bench.piece.joinings if each.incoming == name}
            if goes_into & {cut.instance for cut in (*later.cuts, *later.begins)}:
                yield Fault(each.key, "the mortise that it is pared to comes later")


RULES: tuple[Rule, ...] = (
    _not_tried_in_scrap,
    _mate_not_measured,
    _read_before_it_is_there,
    _measured_in_pieces,
    _measured_too_early,
    _cut_before_it_is_measured,
    _closes_unmeasured,
    _read_between_other_faces,
    _not_done_when_tried,
    _panel_not_fitted,
    _trimmed_before_it_is_tried,
    _glued_before_it_is_tried,
    _not_fitted,
    _slotted_before_it_is_level,
    _scrap_comes_late,
    _tenon_before_its_mortise,
    *FINISH_RULES,
)
"""What is asked of every order, whatever the piece."""
