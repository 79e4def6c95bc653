"""What goes with which stage: levelling, trimming, and what a builder puts in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

from furniture.joints.joint import Role
from furniture.making.glue_ups.flush import LeftLong, Proud
from furniture.making.glue_ups.looked import Looked
from furniture.making.glue_ups.order import Drawn
from furniture.making.glue_ups.values import FixedWith, Hung, Levelling, Trimming, When
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector
from furniture.pieces.bought import Fixing
from furniture.pieces.piece import FixedBody, Piece

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """The stages in outline, read by instances.

    `merged` are the instances of every lot of every stage, `dry` those that go in without glue.
    """

    merged: tuple[tuple[frozenset[str], ...], ...]
    dry: tuple[tuple[str, ...], ...]

    def lot_with(self, stage: int, name: str) -> frozenset[str]:
        """What is one with an instance once a stage is closed, where the stage brings it in."""
        return next((lot for lot in self.merged[stage] if name in lot), frozenset())

    def stages_with(self, name: str) -> list[int]:
        """The stages that an instance stands in."""
        return [stage for stage in range(len(self.merged)) if self.lot_with(stage, name)]

    def is_dry(self, stage: int, name: str) -> bool:
        """Whether a stage brings an instance in without glue."""
        return name in self.dry[stage]

    def closings(self, pairs: Iterable[tuple[str, str]]) -> list[int]:
        """For each joint, the stage after which its two instances are one."""
        found = (
            next((at for at in self.stages_with(a) if b in self.lot_with(at, a)), None)
            for a, b in pairs
        )
        return [at for at in found if at is not None]


def course_of(looked: Looked, drawn: Sequence[Drawn], dry: Sequence[tuple[str, ...]]) -> Course:
    """The stages read by instances."""
    return Course(
        dry=tuple(dry),
        merged=tuple(
            tuple(
                frozenset(looked.names_of(row for body in lot for row in body))
                for lot in each.merged
            )
            for each in drawn
        ),
    )


def levellings_of(
    course: Course,
    proud: Iterable[tuple[Proud, frozenset[str]]],
    placed: dict[str, Placed],
) -> Iterator[tuple[int, Levelling]]:
    """By stage, the faces planed level: after the stage where a plane reaches them, else before.

    Where a neighbour is only laid in, or comes later, the first stage is taken in which the face
    is in and free, with the neighbour tried in its place. A face with several neighbours at one
    height is planed once: with one that is glued to it, where a plane reaches it then.

    Args:
        course: the stages.
        proud: each face, and what is in a plane's way when all parts are in place.
        placed: the parts by instance.
    """
    once: dict[tuple[str, Vector, float], tuple[bool, int, Levelling]] = {}
    for each, way in proud:
        stands = course.stages_with(each.high) or course.stages_with(each.low)
        if not stands:
            continue
        both = [at for at in stands if each.low in course.lot_with(at, each.high)]
        until = [at for at in stands if not both or at <= both[0]]
        free = [at for at in until if not way & course.lot_with(at, each.high)]
        is_glued = bool(both) and not course.is_dry(both[0], each.low)
        wanted = free[-1:] if is_glued else free[:1]
        at = wanted[0] if wanted else stands[0]
        levelled = Levelling(
            instance=each.high,
            face=placed[each.high].placement.face_towards(each.side),
            side=each.side,
            flush_with=each.low,
            by_mm=each.by_mm,
            when=When.AFTER if wanted else When.BEFORE,
            in_the_way=() if wanted else tuple(sorted(way & course.lot_with(at, each.high))),
        )
        key = (each.high, each.side, round(each.by_mm, 3))
        reached = is_glued and bool(wanted)
        if key not in once or (reached and not once[key][0]):
            once[key] = (reached, at, levelled)
    for _, at, levelled in once.values():
        yield at, levelled


def trimmings_of(course: Course, ends: Iterable[LeftLong]) -> Iterator[tuple[int, Trimming]]:
    """By stage, the ends cut once all joints that they wait for are closed.

    Where another part would cover the end by then, before the stage that does.
    """
    for each in ends:
        last = max(course.closings(each.waits_for), default=0)
        covered = min(course.closings(each.before), default=None)
        is_covered = covered is not None and covered <= last
        yield (
            covered if covered is not None and is_covered else last,
            Trimming(
                instance=each.instance,
                end=each.end,
                long_by_mm=each.long_by_mm,
                length_mm=each.length_mm,
                measured_from=each.measured_from,
                distance_mm=each.distance_mm,
                when=When.BEFORE if is_covered else When.AFTER,
            ),
        )


def weights_of(course: Course, piece: Piece) -> Iterator[tuple[int, FixedBody]]:
    """By stage, the weights that come in with what they lie on."""
    for body in piece.fixed:
        stages = course.stages_with(body.on)
        if stages:
            yield stages[0], body


def fixings_of(course: Course, piece: Piece) -> Iterator[tuple[int | None, FixedWith]]:
    """By stage, what a builder names, once all it goes through is one; None where no stage has it.

    What stands in one part alone goes in last of all, and what is fixed over the finish after it.
    """
    over = {thing for each in piece.intent.fitted for thing in each.things}
    weights = {body.name for body in piece.fixed}
    turning = set(hung_in(piece))
    for thing in piece.fixings:
        if thing.name in weights or turning & set(thing.where):
            continue
        if thing in over or thing.fixing is Fixing.ON:
            yield None, FixedWith(thing=thing)
            continue
        named = set(thing.where)
        stages = [course.stages_with(name) for name in thing.where]
        found = [each for each in stages if each]
        if len(named) > 1:
            both = [at for each in found for at in each if named <= _all(course, at)]
            yield (min(both) if both else _last(found)), FixedWith(thing=thing)
        else:
            yield _last(found), FixedWith(thing=thing)


def hung_in(piece: Piece) -> tuple[str, ...]:
    """The instances of a piece that turn on hinges."""
    hung = (each.incoming for each in piece.joinings if each.role is Role.HINGE)
    return tuple(dict.fromkeys(hung))


def hung_of(piece: Piece) -> Iterator[Hung]:
    """What is hung last of all, each with its hinges, their screws and what stops it."""
    for name in hung_in(piece):
        on = [each for each in piece.joinings if each.role is Role.HINGE and each.incoming == name]
        yield Hung(
            instance=name,
            onto=tuple(each.into for each in on),
            by=tuple(fastener for each in on for fastener in each.fasteners),
            fixed_with=tuple(
                FixedWith(thing=thing) for thing in piece.fixings if name in thing.where
            ),
        )


def _all(course: Course, stage: int) -> frozenset[str]:
    return frozenset().union(*course.merged[stage])


def _last(stages: Sequence[Sequence[int]]) -> int | None:
    return max((each[-1] for each in stages), default=None)


def by_stage(found: Iterable[tuple[int, T]], count: int) -> list[tuple[T, ...]]:
    """Things in the stages that they belong to; where nothing comes together they have none."""
    lots: list[list[T]] = [[] for _ in range(count)]
    for at, thing in found:
        if at < count:
            lots[at].append(thing)
    return [tuple(lot) for lot in lots]
