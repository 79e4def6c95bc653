"""The ways out of what nothing fixes, off the solids: straight, in two legs, or none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from furniture.assembly.blocking import blocked_along, meets_within
from furniture.assembly.directions import lines_of, opposite, rank_of
from furniture.assembly.of_piece import bodies_of
from furniture.assembly.seen import Scene, Side
from furniture.assembly.two_legs import unhooked
from furniture.parts.vectors import UP, Vector, dot
from furniture.pieces import Piece
from furniture.structure.frame import Frame, frame_of, masses_by_cuts
from furniture.structure.loose import (
    Clusters,
    Leg,
    Stop,
    WayOut,
    WaysOut,
    clusters_of,
    is_fastened,
    is_opposed,
)

NEAR_MM = 1.0
"""What lies so near bears a part that is not joined to it [mm]. Own rule: more is a fall."""

Table = NDArray[np.bool_]
Lots = Sequence[tuple[int, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Looked:
    """A piece seen along every line tried: for each way, which lot meets which, and which body."""

    frame: Frame
    scene: Scene
    lines: tuple[Vector, ...]
    lots: Lots
    firm: frozenset[int]
    bodies: dict[Vector, Table]
    tables: dict[Vector, Table]


def ways_out_of(piece: Piece) -> tuple[WaysOut, ...]:
    """The ways out of every loose group of a piece, all other parts being in their places.

    Loose is what neither glue nor a fastener keeps to the rest; what merely lies in it or is glued
    on it alone fixes nothing. Parts that stop each other every way move as one: a drawer and the
    bottom in its grooves, of which the bottom then leaves by itself in two legs or not at all.
    Others that are in the way leave along with it where they are loose as well.

    Raises:
        SolidError: a part's solid cannot be made.

    **Source:** own rule: straight moves of one leg or two; a move that turns is not found.
    """
    frame = frame_of(piece, masses_by_cuts(piece))
    clusters = clusters_of(frame)
    if not clusters.loose:
        return ()
    looked = _looked(piece, frame, clusters)
    nests = _nests(looked)
    found = []
    for nest in nests:
        for lot in nest:
            if lot in looked.firm:
                continue
            ways = _ways(looked, nest, nests) if lot == nest[0] else _in_two_legs(looked, [lot])
            stops = _lain_on(looked, lot) if ways else _stops(looked, lot)
            found.append(WaysOut(moving=_names(looked, [lot]), ways=ways, stops=stops))
    return tuple(sorted(found, key=lambda each: frame.body(each.moving[0])))


def _looked(piece: Piece, frame: Frame, clusters: Clusters) -> _Looked:
    scene = Scene(bodies_of(piece))
    lots = (*clusters.firm, *clusters.loose)
    lines = lines_of(piece.joinings)
    bodies: dict[Vector, Table] = {}
    for line in lines:
        table = blocked_along(scene, line)
        bodies |= {line: table, opposite(line): table.T}
    return _Looked(
        frame=frame,
        scene=scene,
        lines=lines,
        lots=lots,
        firm=frozenset(range(len(clusters.firm))),
        bodies=bodies,
        tables={way: _by_lots(table, lots) for way, table in bodies.items()},
    )


def _by_lots(table: Table, lots: Lots) -> Table:
    """Who meets whom, of lots that move as one."""
    found = np.array([[table[np.ix_(one, other)].any() for other in lots] for one in lots])
    np.fill_diagonal(found, val=False)
    return found


def _nests(looked: _Looked) -> list[tuple[int, ...]]:
    """Lots that stop each other along every way, in one; first what stands firm or is largest."""
    every = np.logical_and.reduce(list(looked.tables.values()))
    nest = list(range(len(looked.lots)))
    for one, other in combinations(range(len(looked.lots)), 2):
        if every[one, other] and nest[one] != nest[other]:
            gone = nest[other]
            nest = [nest[one] if each == gone else each for each in nest]
    wood = [sum(looked.scene.bodies[row].volume_mm3 for row in lot) for lot in looked.lots]
    return [
        tuple(
            sorted(
                (lot for lot, each in enumerate(nest) if each == number),
                key=lambda lot: (lot not in looked.firm, -len(looked.lots[lot]), -wood[lot]),
            )
        )
        for number in dict.fromkeys(nest)
    ]


def _ways(
    looked: _Looked, nest: tuple[int, ...], nests: Sequence[tuple[int, ...]]
) -> tuple[WayOut, ...]:
    """The ways out of a nest, upward first: by itself, else with others, else in two legs."""
    found = []
    for way in looked.tables:
        leaving = _leaving(looked, nest, nests, way)
        if leaving is not None and not is_fastened(looked.frame, _rows(looked, leaving), way):
            others = [lot for lot in leaving if lot != nest[0]]
            found.append(WayOut(way=way, along=_names(looked, others)))
    fewest = min((len(each.along) for each in found), default=0)
    straight = [each for each in found if len(each.along) == fewest]
    if straight:
        return tuple(sorted(straight, key=lambda each: -dot(each.way, UP)))
    return _in_two_legs(looked, nest)


def _leaving(
    looked: _Looked, nest: tuple[int, ...], nests: Sequence[tuple[int, ...]], way: Vector
) -> list[int] | None:
    """All that must leave with a nest along a way; None where what stands firm would have to.

    Where nothing stands firm, the half of the lots that is the greater does.
    """
    leaving, waiting = set(nest), list(nest)
    while waiting:
        lot = waiting.pop()
        met = {int(each) for each in np.flatnonzero(looked.tables[way][lot])}
        more = {each for other in nests if met & set(other) for each in other} - leaving
        leaving |= more
        waiting.extend(more)
    if leaving & looked.firm or len(leaving) == len(looked.lots):
        return None
    is_rest = not looked.firm and leaving != set(nest) and 2 * len(leaving) > len(looked.lots)
    return None if is_rest else sorted(leaving)


def _in_two_legs(looked: _Looked, lots: Sequence[int]) -> tuple[WayOut, ...]:
    """The way out in two legs that begins best: up, then as a maker would rather pull.

    The first lot is what leaves, the others go along with it.
    """
    rows = _rows(looked, lots)
    rest = [row for row in range(len(looked.scene.bodies)) if row not in rows]
    for first in sorted(looked.tables, key=lambda way: -dot(way, UP)):
        if is_fastened(looked.frame, rows, first):
            continue
        found = unhooked(looked.scene, rows, rest, first, looked.lines)
        if found:
            best = min(found, key=lambda legs: rank_of(opposite(legs.then)))
            leg = Leg(way=best.first, far_mm=best.first_mm)
            return (WayOut(way=best.then, before=leg, along=_names(looked, lots[1:])),)
    return ()


def _stops(looked: _Looked, lot: int) -> tuple[Stop, ...]:
    """Every other part that a lot meets, along every way."""
    inside = looked.lots[lot]
    names = looked.frame.names
    return tuple(
        Stop(instance=names[row], by=names[int(other)], way=way)
        for way, table in looked.bodies.items()
        for row in inside
        for other in np.flatnonzero(table[row])
        if int(other) not in inside
    )


def _lain_on(looked: _Looked, lot: int) -> tuple[Stop, ...]:
    """What a free lot lies against where no face of a joint says so."""
    rows = looked.lots[lot]
    sides = {name: Side(looked.scene, [row]) for row, name in enumerate(looked.frame.names)}
    return tuple(
        stop
        for stop in _stops(looked, lot)
        if not is_opposed(looked.frame, rows, stop.way)
        and meets_within(sides[stop.instance], sides[stop.by], stop.way, NEAR_MM)
    )


def _rows(looked: _Looked, lots: Sequence[int]) -> list[int]:
    return sorted(row for lot in lots for row in looked.lots[lot])


def _names(looked: _Looked, lots: Sequence[int]) -> tuple[str, ...]:
    return tuple(looked.frame.names[row] for row in _rows(looked, lots))
