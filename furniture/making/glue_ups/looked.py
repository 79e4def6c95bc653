"""A piece as glue-ups see it: rigid bodies of several parts, and who is in whose way."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from furniture.assembly.blocking import blocked_along, meets_along
from furniture.assembly.body import Body
from furniture.assembly.directions import lines_of, opposite, rank_of
from furniture.assembly.seen import Scene, Side
from furniture.assembly.splitting import leaving_groups
from furniture.assembly.two_legs import any_two_legs, unhooked
from furniture.joints.joint import Joining
from furniture.parts.vectors import Vector, unit

Table = NDArray[np.bool_]
Rigid = frozenset[int]
"""Rows of the parts that are one body."""
Bodies = tuple[Rigid, ...]
SLANTING: Vector = unit((1.0, 1.0, 1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Parting:
    """How some bodies leave the others: so far along `away` [mm] and then `then`, or for ever.

    `leaving` are the rows of what leaves.
    """

    leaving: Rigid
    away: Vector
    first_mm: float | None = None
    then: Vector | None = None


class Looked:
    """All parts in their places, seen once; what was found is kept."""

    def __init__(self, scene: Scene, joinings: Sequence[Joining]) -> None:
        self.scene = scene
        self.joinings = joinings
        self.lines = lines_of(joinings)
        self.row_of = {body.name: row for row, body in enumerate(scene.bodies)}
        self._closable: dict[tuple[frozenset[Rigid], int], bool] = {}
        self._free: dict[Rigid, list[Rigid]] = {}
        self._stuck: dict[Rigid, list[Rigid]] = {}
        self._in_two: dict[frozenset[Rigid], Parting | None] = {}

    @property
    def parts(self) -> Sequence[Body]:
        """The parts by row."""
        return self.scene.bodies

    def ends_of(self, joining: Joining) -> tuple[int, int]:
        """The rows of the part gone into and of the incoming one."""
        return self.row_of[joining.into], self.row_of[joining.incoming]

    def names_of(self, rows: Iterable[int]) -> tuple[str, ...]:
        """The instances of some rows, in the order of the piece."""
        return tuple(self.parts[row].name for row in sorted(rows))

    def table(self, bodies: Sequence[Rigid], line: Vector) -> Table:
        """Row A, column B is true when body A, moved along a line, meets body B."""
        blocked = blocked_along(self.scene, line)
        found = np.array(
            [
                [blocked[np.ix_(sorted(one), sorted(other))].any() for other in bodies]
                for one in bodies
            ]
        )
        np.fill_diagonal(found, val=False)
        return found

    def is_closable(self, bodies: Iterable[Rigid], legs: int) -> bool:
        """Whether rigid bodies come together by moves of so many straight legs, one or two."""
        key = (frozenset(bodies), legs)
        if key not in self._closable:
            self._closable[key] = self._comes_apart(tuple(key[0]), legs)
        return self._closable[key]

    def leaves(self, body: Rigid, rest: Rigid) -> bool:
        """Whether a body alone can leave what is together, or be put to it, which is the same.

        In two legs only back along a way in which its joints close: a lid that is lifted first.
        """
        free, stuck = (known.setdefault(body, []) for known in (self._free, self._stuck))
        if any(rest <= more for more in free):  # fewer parts are no more in the way
            return True
        if any(less <= rest for less in stuck):
            return False
        is_free = self._slides_off(body, rest) or self._unhooked(body, rest) is not None
        (free if is_free else stuck).append(rest)
        return is_free

    def _slides_off(self, body: Rigid, rest: Rigid) -> bool:
        sides: tuple[Side, Side] | None = None
        for line in self.lines:
            if line in self.scene.blocked or rank_of(line) < rank_of(SLANTING):
                table = self.table((body, rest), line)
                met = (bool(table[0, 1]), bool(table[1, 0]))
            else:  # two bodies alone are sooner looked at than all parts
                sides = sides or (Side(self.scene, sorted(body)), Side(self.scene, sorted(rest)))
                met = (meets_along(*sides, line), meets_along(*sides, opposite(line)))
            if not all(met):
                return True
        return False

    def partings(self, bodies: Sequence[Rigid]) -> Iterator[Parting]:
        """The ways in which some of the bodies leave the others in one leg, both ways of a line.

        Slanting lines are only looked along where those of the piece serve nowhere.
        """
        is_found = False
        for line in self.lines:
            if is_found and rank_of(line) == rank_of(SLANTING):
                return
            for leaving in leaving_groups(self.table(bodies, line)):
                is_found = True
                yield Parting(leaving=_rows(bodies[each] for each in leaving), away=line)

    def in_two_legs(self, bodies: Sequence[Rigid]) -> Parting | None:
        """A way in which some of the bodies leave the others in two legs.

        First tried is one body alone, back along a way in which its joints close.
        """
        key = frozenset(bodies)
        if key not in self._in_two:
            whole = _rows(bodies)
            alone = (self._unhooked(body, whole - body) for body in sorted(bodies, key=min))
            found = next((each for each in alone if each is not None), None)
            self._in_two[key] = found or self._any_in_two(bodies)
        return self._in_two[key]

    def _any_in_two(self, bodies: Sequence[Rigid]) -> Parting | None:
        whole = [self._as_one(body) for body in bodies]
        legs = any_two_legs(whole, range(len(bodies)), self.lines)
        if legs is None:
            return None
        return Parting(
            leaving=_rows(bodies[each] for each in legs.leaving),
            away=legs.first, first_mm=legs.first_mm, then=legs.then,
        )  # fmt: skip

    def _unhooked(self, body: Rigid, rest: Rigid) -> Parting | None:
        """A body's way out that begins back along a way in which its joints close."""
        ways = {
            opposite(each.ways_in[0]) if incoming in body else each.ways_in[0]
            for each in self.joinings
            for into, incoming in (self.ends_of(each),)
            if each.ways_in
            and ((into in body and incoming in rest) or (into in rest and incoming in body))
        }
        for way in sorted(ways, key=lambda each: rank_of(opposite(each))):
            legs = unhooked(self.scene, sorted(body), sorted(rest), way, self.lines)
            if legs:
                best = min(legs, key=lambda each: rank_of(opposite(each.then)))
                return Parting(
                    leaving=body, away=best.first, first_mm=best.first_mm, then=best.then
                )
        return None

    def _comes_apart(self, bodies: Bodies, legs: int) -> bool:
        if len(bodies) < 2:
            return True
        parting = next(self.partings(bodies), None)
        if parting is None and legs > 1:
            parting = self.in_two_legs(bodies)
        if parting is None:
            return False
        # What comes apart at all comes apart whatever leaves first: fewer parts are in the way.
        return all(self._comes_apart(side, legs) for side in sides_of(bodies, parting))

    def _as_one(self, body: Rigid) -> Body:
        parts = [self.parts[row] for row in sorted(body)]
        return Body(
            name=parts[0].name,
            facets=tuple(facet for each in parts for facet in each.facets),
            volume_mm3=sum(each.volume_mm3 for each in parts),
            centre=parts[0].centre,
        )


def sides_of(bodies: Bodies, parting: Parting) -> tuple[Bodies, Bodies]:
    """The bodies that leave, and the others."""
    return (
        tuple(body for body in bodies if body <= parting.leaving),
        tuple(body for body in bodies if not body & parting.leaving),
    )


def _rows(bodies: Iterable[Rigid]) -> Rigid:
    return frozenset[int]().union(*bodies)
