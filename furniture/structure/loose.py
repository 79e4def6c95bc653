"""Parts that no glue and no fastener keeps: in groups, and which ways out what they touch leaves.

Faces are all that is looked at here, so no solid is needed. Where the solids were looked at as
well, `WaysOut` brings what they say, and `caught` puts what only neighbours stop among the links.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, product

import numpy as np

from furniture.parts.vectors import (
    BACK,
    DOWN,
    FRONT,
    LEFT,
    RIGHT,
    UP,
    Vector,
    add,
    cross,
    dot,
    length,
    scaled,
    subtract,
    unit,
)  # fmt: skip
from furniture.structure.capacity import Carries
from furniture.structure.frame import Frame
from furniture.structure.links import GROUND, Link, axes_across
from furniture.structure.programs import solved

AXES: tuple[Vector, ...] = (UP, DOWN, FRONT, BACK, LEFT, RIGHT)
_SAME = 1e-6
_ARM_MM = 50.0
"""How far from its middle a part is taken to be stopped [mm], so that it does not turn either. Own
rule: a trapped part that tips a little is still trapped, and where another bears is not known."""
_TRAPPED_PLAY_MM = 1.0
"""The play of a part that its neighbours trap [mm]: any, as only whether there is some counts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """So far along a unit vector [mm]."""

    way: Vector
    far_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """How a loose group leaves: along `way` for ever, after a short leg `before` it if any.

    `along` are the other loose instances that must leave with it.
    """

    way: Vector
    before: Leg | None = None
    along: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """That a part, moved along a unit vector, meets another."""

    instance: str
    by: str
    way: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class WaysOut:
    """What the solids say of one loose group: its ways out, upward first, and what stops it.

    A group that has no way out is trapped: it leaves neither straight nor in two legs, and all that
    it would meet stops it. One that is free is stopped by what it lies against, where no face of a
    joint says so.
    """

    moving: tuple[str, ...]
    ways: tuple[WayOut, ...]
    stops: tuple[Stop, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Clusters:
    """The bodies of a frame, those in one lot that glue or fasteners keep together.

    `loose` are the lots that nothing keeps to what stands firm: that is what is fixed to the wall,
    and the lot of most parts; a piece of single parts has none that stands firm.
    """

    firm: tuple[tuple[int, ...], ...]
    loose: tuple[tuple[int, ...], ...]


def clusters_of(frame: Frame) -> Clusters:
    """Which bodies glue and fasteners keep together, and which lots of them are loose.

    Args:
        frame: of the piece
    """
    leader = list(range(len(frame.names) + 1))  # the last is the ground

    def top(each: int) -> int:
        while leader[each] != each:
            leader[each] = leader[leader[each]]
            each = leader[each]
        return each

    for link in (*frame.links, *frame.wall):
        if _keeps(link):
            leader[top(link.first)] = top(link.second)
    lots: dict[int, list[int]] = {}
    for body in range(len(frame.names)):
        lots.setdefault(top(body), []).append(body)
    ground = top(GROUND)
    most = max(lots, key=lambda each: len(lots[each]), default=ground)
    firm = {ground} | ({most} if len(lots) == 1 or len(lots[most]) > 1 else set())
    return Clusters(
        firm=tuple(tuple(lot) for each, lot in lots.items() if each in firm),
        loose=tuple(tuple(lot) for each, lot in lots.items() if each not in firm),
    )


def _keeps(link: Link) -> bool:
    """Whether a link keeps two bodies from parting: whatever pulls at all, and is no face."""
    return link.carries not in (Carries.PUSH, Carries.SIDE) and link.most_n > 0.0


def ways_by_faces(frame: Frame, group: Sequence[int]) -> tuple[Vector, ...]:
    """The straight ways out of a group that no face and no fastener opposes, be it after a play.

    Those along the piece, else the slanting ones; the others stand still.

    **Source:** a cone of motions that half-spaces bound is spanned by edges, each along two of the
    bounds (linear algebra), so none is missed.
    """
    rows = [(row[0], row[1], row[2]) for row in _opposing(_own_links(frame), group)]
    found = [way for way in AXES if _is_free(way, rows)]
    if found:
        return tuple(found)
    normals = [*dict.fromkeys((*AXES[::2], *rows))]
    slanting = [
        scaled(unit(edge), sign)
        for edge in (cross(a, b) for a, b in combinations(normals, 2))
        if length(edge) > _SAME
        for sign in (1.0, -1.0)
    ]
    return tuple(dict.fromkeys(way for way in slanting if _is_free(way, rows)))


def is_opposed(frame: Frame, group: Sequence[int], way: Vector) -> bool:
    """Whether a face, be it after a play, or a fastener stops a group along a way."""
    return not _is_free(way, _opposing(_own_links(frame), group))


def is_fastened(frame: Frame, group: Sequence[int], way: Vector) -> bool:
    """Whether a fastener stops a group along a way: solids do not show it."""
    links = (each for each in _own_links(frame) if each.carries is not Carries.PUSH)
    return not _is_free(way, _opposing(links, group))


def is_closed(frame: Frame, group: Sequence[int], *, tight: bool) -> bool:
    """Whether what a group touches stops every motion of it, turning as well.

    Args:
        frame: of the piece
        group: bodies that move as one
        tight: whether faces with play do not count

    **Source:** form closure: the motions that no contact opposes are none but rest (from memory of
    the theory of grasps; the program is linear algebra).
    """
    links = [each for each in _own_links(frame) if not tight or each.play_mm == 0.0]
    rows = np.array(list(_opposing(links, group))).reshape(-1, 6)
    if np.linalg.matrix_rank(rows, tol=1e-9) < 6:
        return False
    count = len(rows)
    answer = solved(
        np.concatenate([np.zeros(6), -np.ones(count)]),
        A_ub=np.hstack([-rows, np.eye(count)]),
        b_ub=np.zeros(count),
        bounds=[(-1.0, 1.0)] * 6 + [(0.0, 1.0)] * count,
    )
    return bool(-answer.fun < _SAME)


def caught(frame: Frame, ways_out: Iterable[WaysOut]) -> Frame:
    """The frame with what only the solids show to stop a part among its links.

    With play where it traps the part, and without where a free one just lies on it.

    Args:
        frame: of the piece
        ways_out: what the solids say of its loose groups
    """
    more: list[Link] = []
    for each in ways_out:
        group = [frame.body(name) for name in each.moving]
        if each.ways or not is_closed(frame, group, tight=False):
            play = 0.0 if each.ways else _TRAPPED_PLAY_MM  # what is free lies on what stops it
            more.extend(link for stop in each.stops for link in _stopping(frame, stop, play))
    return replace(frame, links=(*frame.links, *more))


def _stopping(frame: Frame, stop: Stop, play_mm: float) -> Iterator[Link]:
    body = frame.body(stop.instance)
    first, second = axes_across(stop.way)
    for u, v in product((-_ARM_MM, _ARM_MM), repeat=2):
        aside = add(scaled(first, u), scaled(second, v))
        yield Link(
            first=body,
            second=frame.body(stop.by),
            at=add(frame.masses[body].centre_mm, aside),
            direction=scaled(stop.way, -1.0),
            least_n=0.0,
            most_n=float("inf"),
            carries=Carries.PUSH,
            play_mm=play_mm,
        )


def _own_links(frame: Frame) -> tuple[Link, ...]:
    return (*frame.links, *frame.wall)


def _opposing(links: Iterable[Link], group: Sequence[int]) -> Iterator[tuple[float, ...]]:
    """For every force on the group from without, its way and its moment: a motion against it stops.

    Moments are taken about the first point that a link of the group has.
    """
    inside, about = set(group), None
    for link in links:
        if (link.first in inside) == (link.second in inside):
            continue
        sign = 1.0 if link.first in inside else -1.0
        about = link.at if about is None else about
        turning = scaled(cross(subtract(link.at, about), link.direction), 1.0 / _ARM_MM)
        row = (*link.direction, *turning)
        if link.most_n > 0.0:
            yield tuple(sign * each + 0.0 for each in row)
        if link.least_n < 0.0:
            yield tuple(-sign * each + 0.0 for each in row)


def _is_free(way: Vector, rows: Iterable[Sequence[float]]) -> bool:
    return all(dot(way, (row[0], row[1], row[2])) > -_SAME for row in rows)
