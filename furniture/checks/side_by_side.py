"""Loads beside each other: where several of one surface may stand without one inside another."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations

from furniture.checks.bodies import Body, Load, Surface, placed
from furniture.checks.finding import Finding, Show, Verdict
from furniture.checks.rows.shelves import SIDE_BY_SIDE
from furniture.checks.support import Edge

MOST_IN_TURN = 6
"""Loads of one surface that are tried in every subset; of more the overlapping bound is kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Present:
    """Some loads that are there at once, each as a body at its worst place."""

    names: tuple[str, ...]
    bodies: tuple[Body, ...]


def choices(loads: Sequence[Load], edge: Edge) -> tuple[tuple[Present, ...], ...]:
    """What may be there, surface by surface, at its worst for an edge: one of each tuple, or none.

    Loads that fit beside each other along the edge, or that alone stand on their surface, do not
    get in each other's way: each is a choice of its own. Others are tried in every subset, one
    behind the other, the heaviest for its size foremost. Loads that do not fit at all are taken as
    if they could overlap, a cautious bound.

    Args:
        loads: all loads that may stand on the piece
        edge: the edge over which it would tip

    **Source:** own rule; the order is that of least weighted completion: mass over depth.
    """
    by_surface: dict[Surface, list[Load]] = {}
    for load in loads:
        if load.mass_kg > 0.0:
            by_surface.setdefault(load.on, []).append(load)
    found: list[tuple[Present, ...]] = []
    for surface, group in by_surface.items():
        free = len(group) == 1 or _fit_along(surface, group, edge) or not fit(surface, group)
        if free or len(group) > MOST_IN_TURN:
            found += [(_present([load], [placed(load, edge)]),) for load in group]
        else:
            found.append(
                tuple(
                    _present(some, _one_behind_another(surface, some, edge))
                    for count in range(1, len(group) + 1)
                    for some in combinations(group, count)
                )
            )
    return tuple(found)


def fit(surface: Surface, loads: Sequence[Load]) -> bool:
    """Whether all loads find room on a surface beside each other, in one row either way.

    Args:
        surface: where they stand
        loads: what stands on it

    **Source:** own rule: rows only; a cleverer packing may yet find room.
    """
    sizes = (surface.x1_mm - surface.x0_mm, surface.y1_mm - surface.y0_mm)
    if len(loads) < 2:
        return True
    for axis in (0, 1):
        along = math.fsum(load.footprint_mm[axis] for load in loads)
        if along <= sizes[axis] + 1e-9:
            return True
    return False


def side_by_side_finding(surface: Surface, loads: Sequence[Load], show: Show) -> Finding | None:
    """A caution where the loads of a surface do not all fit in a row on it; None where they do.

    Args:
        surface: where they stand
        loads: what stands on it
        show: puts amounts into the piece's unit

    **Source:** own rule, as `fit`.
    """
    if fit(surface, loads):
        return None
    sizes = (surface.x1_mm - surface.x0_mm, surface.y1_mm - surface.y0_mm)
    wanted = math.fsum(load.footprint_mm[0] for load in loads)
    return Finding(
        check=SIDE_BY_SIDE,
        subject=surface.name,
        value=wanted,
        limits=SIDE_BY_SIDE.limits(cautions=sizes[0]),
        stated=Verdict.CAUTION,
        basis=f"{len(loads)} loads want {show(wanted)} in a row and the surface is "
        f"{show(sizes[0])} by {show(sizes[1])}; all of them are counted at once, each at its "
        "worst place, as if they could overlap: a cautious bound",
        advice="state them one behind the other as one load, or leave one out",
    )


def spread(
    loads: Sequence[Load], length_mm: float, width_mm: float, axis: int
) -> list[tuple[Load, float]]:
    """How far each load's far edge must stay back from the end of a span [mm] so that none overlap.

    Args:
        loads: what stands on the surface
        length_mm: the surface's size along the span [mm]
        width_mm: its size across [mm]
        axis: which size of a footprint lies along the span, 0 width or 1 depth

    **Source:** own rule: beside each other across the span where there is room, else one behind
    the other with the heaviest for its size foremost, else as if they could overlap.
    """
    across = math.fsum(load.footprint_mm[1 - axis] for load in loads)
    along = math.fsum(load.footprint_mm[axis] for load in loads)
    if across <= width_mm + 1e-9 or along > length_mm + 1e-9:
        return [(load, 0.0) for load in loads]
    found, back = [], 0.0
    for load in sorted(
        loads, key=lambda each: each.mass_kg / each.footprint_mm[axis], reverse=True
    ):
        found.append((load, back))
        back += load.footprint_mm[axis]
    return found


def worst_of(
    options: Iterable[tuple[Present, ...]], worth: Callable[[Body], float]
) -> list[Present]:
    """Of every choice the one that counts for least, where that is less than nothing.

    Args:
        options: as `choices` gives them
        worth: what a body adds [any unit]; below nothing it makes things worse

    **Source:** arithmetic.
    """
    found = []
    for group in options:
        least = min(group, key=lambda each: sum(worth(body) for body in each.bodies))
        if sum(worth(body) for body in least.bodies) < 0.0:
            found.append(least)
    return found


def _present(loads: Sequence[Load], bodies: Sequence[Body]) -> Present:
    return Present(names=tuple(load.name for load in loads), bodies=tuple(bodies))


def _fit_along(surface: Surface, loads: Sequence[Load], edge: Edge) -> bool:
    """Whether they stand in a row along the edge, each as near to it as it can."""
    axis = 0 if abs(edge.outward[0]) < abs(edge.outward[1]) else 1
    size = (surface.x1_mm - surface.x0_mm, surface.y1_mm - surface.y0_mm)[axis]
    is_square = min(abs(each) for each in edge.outward) < 1e-9
    return is_square and math.fsum(load.footprint_mm[axis] for load in loads) <= size + 1e-9


def _one_behind_another(surface: Surface, loads: Sequence[Load], edge: Edge) -> list[Body]:
    """Bodies in a row away from the edge; as if they could overlap where that has no room."""
    axis = 1 if abs(edge.outward[0]) < abs(edge.outward[1]) else 0
    size = (surface.x1_mm - surface.x0_mm, surface.y1_mm - surface.y0_mm)[axis]
    bodies = {load.name: placed(load, edge) for load in loads}
    if math.fsum(load.footprint_mm[axis] for load in loads) > size + 1e-9:
        return [bodies[load.name] for load in loads]
    back, found = 0.0, []
    ranked = sorted(loads, key=lambda each: each.mass_kg / each.footprint_mm[axis], reverse=True)
    for load in ranked:
        centre = list(bodies[load.name].centre_mm)
        centre[axis] -= math.copysign(back, edge.outward[axis])
        found.append(Body(mass_kg=load.mass_kg, centre_mm=(centre[0], centre[1], centre[2])))
        back += load.footprint_mm[axis]
    return found
