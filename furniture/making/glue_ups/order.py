"""The order of the stages: exact over all orders of the clusters, by what each stage costs.

A state is which parts are one by now. A stage takes a cluster, every joint that lands inside what
it makes one, and dry what could not get in later. Costs add up, so the best way on from a state
does not ask how it was reached.

**Source:** dynamic programming over subsets (R. Bellman's principle of optimality; textbook).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.making.glue_ups.clusters import Cluster, Nature, faces_count, is_glued
from furniture.making.glue_ups.looked import Bodies, Looked, Rigid
from furniture.making.glue_ups.values import GlueBench

State = frozenset[Rigid]
Cost = tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A stage in outline, by rows.

    Args:
        cluster: what it is made for; None where only dry joints close.
        merged: the bodies that come together, in lots of which each becomes one.
        glued: the joints that close with glue, rows of the piece's joinings.
        before: all bodies before it.
        after: all bodies after it.
    """

    cluster: Cluster | None
    merged: tuple[Bodies, ...]
    glued: frozenset[int]
    before: State
    after: State


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What an order is chosen by.

    Args:
        bench: what glue and clamps allow.
        in_the_way: for each face that a plane must level, its row and the rows that, once they
            are one with it, keep the plane off.
        true_with: for each plain butt, the mitres of one ring with it, rows.
        turn: for each joint, how early the order of assembly closes it: more is earlier.
        legs: of the longest moves that are allowed, one or two.
        is_in_turn: whether the clusters are closed in their order, without a choice.
    """

    bench: GlueBench
    in_the_way: Sequence[tuple[int, frozenset[int]]]
    true_with: Mapping[int, frozenset[int]]
    turn: Mapping[int, int]
    legs: int = 1
    is_in_turn: bool = False


class Search:
    """The best order of stages from a state on, found once for each state."""

    def __init__(self, looked: Looked, clusters: Sequence[Cluster], wishes: Wishes) -> None:
        self.looked = looked
        self.clusters = clusters
        self.wishes = wishes
        self.ends = [looked.ends_of(each) for each in looked.joinings]
        self.glued = frozenset(row for row, each in enumerate(looked.joinings) if is_glued(each))
        self.furthest: State = frozenset()
        self._best: dict[State, tuple[Cost, tuple[Drawn, ...]] | None] = {}

    def stages(self) -> tuple[Drawn, ...] | None:
        """The stages that glue, or None where no order of clusters can be closed."""
        best = self.best()
        return None if best is None else best[1]

    def best(self) -> tuple[Cost, tuple[Drawn, ...]] | None:
        """The same with what it costs."""
        start = frozenset(frozenset({row}) for row in range(len(self.looked.parts)))
        self.furthest = start
        return self._from(start)

    def open_in(self, state: State) -> frozenset[int]:
        """The glued joints that are not closed yet."""
        of = {row: body for body in state for row in body}
        return frozenset(
            row for row in self.glued if of[self.ends[row][0]] != of[self.ends[row][1]]
        )

    def _from(self, state: State) -> tuple[Cost, tuple[Drawn, ...]] | None:
        if state in self._best:
            return self._best[state]
        if len(state) < len(self.furthest):
            self.furthest = state
        is_open = self.open_in(state)
        best: tuple[Cost, tuple[Drawn, ...]] | None = None if is_open else ((), ())
        for cluster in self._choices(is_open):
            drawn = self.drawn(state, cluster, is_open)
            rest = None if drawn is None else self._from(drawn.after)
            if drawn is None or rest is None:
                continue
            cost = _sum(self.cost(drawn, is_open), rest[0])
            if best is None or cost < best[0]:
                best = (cost, (drawn, *rest[1]))
        self._best[state] = best
        return best

    def _choices(self, is_open: frozenset[int]) -> Iterator[Cluster]:
        """Each cluster that is open, and all of one kind together where they do not hang together.

        Where only steps in their order are tried, the next one.
        """
        still = [each for each in self.clusters if each.joinings & is_open]
        if self.wishes.is_in_turn:
            yield from still[:1]
            return
        yield from still
        alike: dict[object, list[Cluster]] = {}
        for each in still:
            alike.setdefault((each.nature, each.line), []).append(each)
        for lot in alike.values():
            if len(lot) > 1:
                joinings = frozenset(row for each in lot for row in each.joinings)
                yield replace(lot[0], joinings=joinings, split_from=frozenset())

    def drawn(self, state: State, cluster: Cluster, is_open: frozenset[int]) -> Drawn | None:
        """The stage that closes a cluster, if what comes together can."""
        lots = _united(state, [self.ends[row] for row in cluster.joinings & is_open])
        merged = []
        waiting = set(state)
        for lot in lots:
            waiting -= set(lot)
        for lot in lots:
            whole = self._with_dry(lot, waiting, is_open)
            waiting -= set(whole)
            merged.append(whole)
        if not all(self.looked.is_closable(lot, self.wishes.legs) for lot in merged):
            return None
        after = (state - {body for lot in merged for body in lot}) | {
            frozenset().union(*lot) for lot in merged
        }
        return Drawn(
            cluster=cluster, merged=tuple(merged), glued=is_open - self.open_in(after),
            before=state, after=after,
        )  # fmt: skip

    def _with_dry(self, lot: Bodies, waiting: Iterable[Rigid], is_open: frozenset[int]) -> Bodies:
        """The bodies and those that go in dry with them: they could not get in later."""
        unfinished = {row for joint in is_open for row in self.ends[joint]}
        whole, found = frozenset().union(*lot), list(lot)
        dry = [body for body in waiting if not body & unfinished]
        is_more = True
        while is_more:
            is_more = False
            for body in sorted(dry, key=min):
                if self._touches(body, whole) and not self.looked.leaves(body, whole):
                    found.append(body)
                    dry.remove(body)
                    whole, is_more = whole | body, True
        return tuple(found)

    def _touches(self, body: Rigid, whole: Rigid) -> bool:
        return any((a in body and b in whole) or (a in whole and b in body) for a, b in self.ends)

    def cost(self, drawn: Drawn, is_open: frozenset[int]) -> Cost:
        """What speaks against a stage, the gravest first: less is better, and it adds up.

        Mitres of one ring closed apart; tongues let into a corner that is still open; a face that
        no plane reaches once it is in; a part stuck on by a face before the others are in; a rail
        butted in plain glue while a mitre of its ring is open; parts that stand in a cradle with a
        corner that tongues are let into; more glue than stays open; joints pressed along several
        axes at once; one more stage.
        """
        bench = self.wishes.bench
        joinings = [self.looked.joinings[row] for row in sorted(drawn.glued)]
        left = is_open - drawn.glued
        torn = sum(
            each.nature is Nature.MITRES
            and bool(each.joinings & drawn.glued) and bool(each.joinings & left)
            for each in self.clusters
        )  # fmt: skip
        merged = {frozenset().union(*lot): lot for lot in drawn.merged}
        shut = sum(
            any(row in whole and way & whole and frozenset({row}) in lot
                for whole, lot in merged.items())
            for row, way in self.wishes.in_the_way
        )  # fmt: skip
        seconds = faces_count(joinings) * bench.seconds_per_face
        return (
            torn,
            self._into_open(drawn),
            shut,
            self._too_early(drawn, is_open),
            sum(bool(self.wishes.true_with.get(row, frozenset()) & left) for row in drawn.glued),
            self._in_the_cradle(drawn),
            max(0.0, seconds - bench.open_seconds),
            self._other_ways(drawn),
            1,
            sum(self.wishes.turn.get(row, 0) for row in left),
        )

    def _other_ways(self, drawn: Drawn) -> int:
        """How many joints land in a stage that are not pressed as those it is made for."""
        own = drawn.cluster
        return sum(
            len(each.joinings & drawn.glued)
            for each in self.clusters
            if own is None or (each.nature, each.line) != (own.nature, own.line)
        )

    def _into_open(self, drawn: Drawn) -> int:
        """How many tongues are let into a corner that is not closed yet."""
        body_of = {row: body for body in drawn.before for row in body}
        return sum(
            len({body_of[into] for into, incoming in self.ends if incoming == tongue}) > 1
            for tongue in self._tongues(drawn)
        )

    def _in_the_cradle(self, drawn: Drawn) -> int:
        """How many parts stand with a closed corner while tongues are let into it."""
        tongues = self._tongues(drawn)
        if not tongues:
            return 0
        return sum(len(body - tongues) for lot in drawn.merged for body in lot)

    def _tongues(self, drawn: Drawn) -> frozenset[int]:
        """What a stage lets in across closed corners, rows."""
        return frozenset(
            self.ends[row][1]
            for each in self.clusters
            if each.nature is Nature.TONGUES
            for row in each.joinings & drawn.glued
        )

    def _too_early(self, drawn: Drawn, is_open: frozenset[int]) -> int:
        """Whether something is stuck on by a face while other joints of its lot are open."""
        if drawn.cluster is None or drawn.cluster.nature is not Nature.SEATS:
            return 0
        seats = {row for each in self.clusters if each.nature is Nature.SEATS
                 for row in each.joinings}  # fmt: skip
        lots = [frozenset[int]().union(*lot) for lot in drawn.merged]
        return sum(any(set(self.ends[row]) & lot for lot in lots) for row in is_open - seats)


def last_dry(
    looked: Looked, state: State, keeps: Iterable[tuple[int, int]]
) -> tuple[Drawn | None, State]:
    """The stage that only fasteners close, if any, and the bodies after it.

    Args:
        looked: the piece.
        state: the bodies after all glue.
        keeps: rows of parts that a fastener keeps together.
    """
    merged = []
    rest = set(state)
    for lot in _united(state, list(keeps)):
        rest -= set(lot)
        whole, found = frozenset().union(*lot), list(lot)
        for body in sorted(rest, key=min):
            ends = [looked.ends_of(each) for each in looked.joinings]
            meets = any((a in body) != (b in body) and {a, b} <= body | whole for a, b in ends)
            if meets and not looked.leaves(body, whole):
                found.append(body)
                whole |= body
        rest -= set(found)
        merged.append(tuple(found))
    if not merged:
        return None, state
    after = frozenset(rest) | {frozenset().union(*lot) for lot in merged}
    return (
        Drawn(cluster=None, merged=tuple(merged), glued=frozenset(), before=state, after=after),
        after,
    )


def _united(state: State, ends: Sequence[tuple[int, int]]) -> tuple[Bodies, ...]:
    """The bodies that these joints make one, in lots of two or more."""
    lots = [[body] for body in sorted(state, key=min)]
    for pair in ends:
        touched = [lot for lot in lots if any(set(pair) & body for body in lot)]
        if len(touched) == 2:
            lots.remove(touched[1])
            touched[0].extend(touched[1])
    return tuple(tuple(lot) for lot in lots if len(lot) > 1)


def _sum(first: Cost, second: Cost) -> Cost:
    if not second:
        return first
    return tuple(a + b for a, b in zip(first, second, strict=True))
