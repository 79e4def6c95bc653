"""Placement by meaning: where a part stands is said by relations to other parts, not coordinates.

Each relation settles one way (left to right, front to back, or down to up): this face against that
face, flush with it, centred on it, or at a stated distance from it. All three ways must be settled
once each; what is missing, doubled or circular is said in words.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import Enum

from furniture.parts.blank import Blank
from furniture.parts.faces import Face
from furniture.parts.placement import Box, Placement, box_of
from furniture.parts.turning import AXES_IN_WORDS, Way, refuse_choice, turned
from furniture.parts.vectors import Vector, dot
from furniture.units import REQUIRED, Given, Reader, counted, parameters, said

FIRST_PART = ""
"""Stands for the name of the first part of the piece in a relation."""
Side = Way | Face
"""A side of a part: the way that it looks, or one of the part's own faces."""


class Mark(Enum):
    """What of a part is measured to."""

    NEAR_FACE = "its face on that side"
    CENTRE = "its centre"


@parameters
class Against:
    """Touches the outside of another part, face to face.

    Args:
        of: the other part (default: the first part of the piece).
        side: its side.
        gap: left between the two faces.
        let_in: how far this part goes in beyond the face, for a dado.
    """

    of: str = FIRST_PART
    side: Side = REQUIRED
    gap: Given = "0 mm"
    let_in: Given = "0 mm"


@parameters
class FlushWith:
    """The face on one side level with the face of another part on the same side.

    Args:
        of: the other part (default: the first part of the piece).
        side: which side.
        proud: how far this part stands out beyond it.
        shy: how far it stands back instead.
    """

    of: str = FIRST_PART
    side: Side = REQUIRED
    proud: Given = "0 mm"
    shy: Given = "0 mm"


@parameters
class CentredOn:
    """The centre level with the centre of another part, one way.

    Args:
        of: the other part (default: the first part of the piece).
        along: the direction to centre in, either of two opposite ones.
    """

    of: str = FIRST_PART
    along: Side = Way.RIGHT


@parameters
class At:
    """At a distance inside a side of another part, such as 120 mm from its face edge.

    Args:
        distance: from that side, into the other part.
        of: the other part (default: the first part of the piece).
        side: the side that is struck from.
        to: measured to this part's near face or to its centre.
    """

    distance: Given = REQUIRED
    of: str = FIRST_PART
    side: Side = REQUIRED
    to: Mark = Mark.NEAR_FACE


Relation = Against | FlushWith | CentredOn | At
_KINDS = (Against, FlushWith, CentredOn, At)
_ALLOWED = "Against, FlushWith, CentredOn or At"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A part to be placed: how it is turned, and its relations.

    `grain` is the way from its named end to its far end, `face_side` and `face_edge` the ways that
    those faces look. Two of the three say it all: with neither of the last two the grain runs to
    the right.
    """

    instance: str
    blank: Blank
    face_side: Way
    face_edge: Way | None = None
    grain: Way | None = None
    relations: Sequence[object] = field(default_factory=tuple)


def place(reader: Reader, wanted: Sequence[Wanted]) -> dict[str, Placement]:
    """The placement of every part that can be placed; every problem is noted with the reader.

    The first part without any relation starts the chain: its left front lower corner stands at the
    origin, and all others stand by it.

    Args:
        reader: keeps the problems.
        wanted: the parts, in any order.
    """
    by_name = {each.instance: each for each in wanted}
    axes_of = {
        name: turned(reader, name, each.face_side, each.face_edge, each.grain)
        for name, each in by_name.items()
    }
    asked = {name: _relations(reader, each, by_name) for name, each in by_name.items()}
    for lone in [each for each in wanted if not each.relations][1:]:
        reader.refuse(
            f"{lone.instance}: places",
            "none",
            "relations to other parts",
            "only one part may start the chain",
            "say what it stands against, flush with, centred on or at",
        )
        axes_of[lone.instance] = None
    done: dict[str, Placement] = {}
    waiting = [name for name in by_name if axes_of[name] is not None and asked[name] is not None]
    unplaceable = set(by_name) - set(waiting)
    while waiting:
        ready = [name for name in waiting if all(each.of in done for each in asked[name] or ())]
        if not ready:
            _say_circular(reader, waiting, asked, unplaceable)
            break
        for name in ready:
            waiting.remove(name)
            axes = axes_of[name]
            assert axes is not None, "unturned parts do not wait"
            found = _settle(reader, by_name[name], axes, asked[name] or (), done, by_name)
            if found is not None:
                done[name] = found
            else:
                unplaceable.add(name)
    return done


@dataclass(frozen=True, slots=True, kw_only=True)
class StatedDistance:
    """A distance that a relation states, between two points of the piece [mm]."""

    what: str
    start: Vector
    end: Vector


def stated_distances(
    wanted: Sequence[Wanted], placements: Mapping[str, Placement]
) -> tuple[StatedDistance, ...]:
    """The distances by which placed parts were set out, for the sheets to show.

    Args:
        wanted: the parts.
        placements: of all of them.
    """
    by_name = {each.instance: each for each in wanted}
    found = []
    for part in wanted:
        low, high = box_of(part.blank, placements[part.instance])
        for relation in part.relations:
            if not isinstance(relation, At | FlushWith):
                continue
            name = relation.of or wanted[0].instance
            other = placements[name]
            way = _way_of(relation.side, other)
            axis = way.axis
            face = box_of(by_name[name].blank, other)[way.sign > 0][axis]
            own = high[axis] if way.sign > 0 else low[axis]
            if isinstance(relation, At) and relation.to is Mark.CENTRE:
                own = (low[axis] + high[axis]) / 2
            if abs(own - face) < 1e-9:
                continue
            start, end = list(low), list(low)
            start[axis], end[axis] = face, own
            words = f"from {way.value} side"
            if isinstance(relation, FlushWith):
                words = f"{'beyond' if (own - face) * way.sign > 0 else 'behind'} {way.value}"
            found.append(
                StatedDistance(
                    what=f"{part.instance} {words} of {name}",
                    start=(start[0], start[1], start[2]),
                    end=(end[0], end[1], end[2]),
                )
            )
    return tuple(found)


def _relations(
    reader: Reader, part: Wanted, by_name: Mapping[str, Wanted]
) -> tuple[Relation, ...] | None:
    """The part's relations when all of them can be understood, else nothing."""
    found: list[Relation] = []
    first = next(iter(by_name))
    is_understood = True
    for index, relation in enumerate(part.relations):
        where = f"{part.instance}: {counted('place', index)}"
        if not isinstance(relation, _KINDS):
            reader.refuse(
                where, said(relation), _ALLOWED, "a part is placed by relations",
                f"write FlushWith(of={first!r}, side=Way.UP)",
            )  # fmt: skip
            is_understood = False
            continue
        reader.names(f"{where} ", relation)
        relation = _resolved(relation, first)
        others = [name for name in by_name if name != part.instance]
        if relation.of not in others:
            reader.refuse(
                f"{where} of", said(relation.of), ", ".join(others) or "no other part",
                "a relation is to another part of the piece", f"write {others[0]!r}"
                if others else "leave it out",
            )  # fmt: skip
            is_understood = False
        side = relation.along if isinstance(relation, CentredOn) else relation.side
        if not isinstance(side, Way | Face):
            name = "along" if isinstance(relation, CentredOn) else "side"
            refuse_choice(reader, f"{where} {name}", side, "Way or Face")
            is_understood = False
        found.append(relation)
    return tuple(found) if is_understood else None


def _resolved(relation: Relation, first: str) -> Relation:
    """The relation with the first part's name where it names none."""
    return replace(relation, of=first) if relation.of == FIRST_PART else relation


def _say_circular(
    reader: Reader,
    waiting: Sequence[str],
    asked: Mapping[str, tuple[Relation, ...] | None],
    unplaceable: set[str],
) -> None:
    """Parts that wait for each other; those that wait for a refused part are not blamed."""
    stuck = set(waiting)
    while True:
        freed = {
            name for name in stuck if any(each.of in unplaceable for each in asked[name] or ())
        }
        if not freed:
            break
        stuck -= freed
        unplaceable |= freed
    if stuck:
        names = ", ".join(name for name in waiting if name in stuck)
        reader.refuse(
            f"places of {names}",
            "parts that are placed by each other",
            "a chain of relations that starts at a part without any",
            "each waits for the other to be placed first",
            f"place {next(name for name in waiting if name in stuck)} by a part outside this ring",
        )


def _settle(
    reader: Reader,
    part: Wanted,
    axes: tuple[Vector, Vector],
    relations: Sequence[Relation],
    done: Mapping[str, Placement],
    by_name: Mapping[str, Wanted],
) -> Placement | None:
    """The part's placement from its relations, when each way is settled once."""
    loose = Placement(origin=(0.0, 0.0, 0.0), x_axis=axes[0], y_axis=axes[1])
    low, high = box_of(part.blank, loose)
    size = tuple(end - start for start, end in zip(low, high, strict=True))
    if not relations:
        return _moved(loose, (0.0 - low[0], 0.0 - low[1], 0.0 - low[2]))
    starts: dict[int, float] = {}
    is_settled = True
    for index, relation in enumerate(relations):
        where = f"{part.instance}: {counted('place', index)}"
        other, placement = by_name[relation.of], done[relation.of]
        side = relation.along if isinstance(relation, CentredOn) else relation.side
        way = _way_of(side, placement)
        start = _start(reader, where, relation, way, box_of(other.blank, placement), size)
        if way.axis in starts:
            reader.refuse(
                where, f"a second place {AXES_IN_WORDS[way.axis]}", "one relation for each way",
                "the part already stands there", "leave one of them out",
            )  # fmt: skip
            is_settled = False
        starts[way.axis] = start
    for axis, words in enumerate(AXES_IN_WORDS):
        if axis not in starts:
            reader.refuse(
                f"{part.instance}: places", f"nothing {words}", "one relation for each way",
                f"the part could stand anywhere {words}",
                f"add CentredOn(of={relations[0].of!r}, along=Way.{list(Way)[2 * axis].name})",
            )  # fmt: skip
            is_settled = False
    if not is_settled or any(math.isnan(start) for start in starts.values()):
        return None
    shift = tuple(starts[axis] - low[axis] for axis in range(3))
    return _moved(loose, (shift[0], shift[1], shift[2]))


def _moved(placement: Placement, by: Vector) -> Placement:
    return Placement(origin=by, x_axis=placement.x_axis, y_axis=placement.y_axis)


def _way_of(side: Side, placement: Placement) -> Way:
    """The way that a side of a placed part looks."""
    if isinstance(side, Way):
        return side
    normal = placement.direction_to_piece(side.normal)
    return max(Way, key=lambda way: dot(way.vector, normal))


def _start(
    reader: Reader, where: str, relation: Relation, way: Way, box: Box, size: tuple[float, ...]
) -> float:
    """Where the part's box begins along the relation's axis [mm], or not-a-number."""
    axis, sign = way.axis, way.sign
    low, high = box[0][axis], box[1][axis]
    face, own = (high if sign > 0 else low), size[axis]
    if isinstance(relation, CentredOn):
        return (low + high - own) / 2
    if isinstance(relation, Against):
        gap = reader.length(f"{where} gap", relation.gap, at_least=0.0, why="use let_in to go in")
        let_in = reader.length(
            f"{where} let_in", relation.let_in, at_least=0.0, at_most=high - low,
            why="a part is let in no further than the other is thick",
        )  # fmt: skip
        near = face + sign * (gap - let_in)
        return near if sign > 0 else near - own
    if isinstance(relation, FlushWith):
        proud = reader.length(f"{where} proud", relation.proud, at_least=0.0, why="use shy instead")
        shy = reader.length(f"{where} shy", relation.shy, at_least=0.0, why="use proud instead")
        if proud > 0 and shy > 0:
            reader.refuse(
                f"{where} shy", said(relation.shy), "one of proud and shy",
                "proud stands out beyond the other part, shy stays back from it", "leave shy out",
            )  # fmt: skip
        level = face + sign * (proud - shy)
        return level - own if sign > 0 else level
    distance = reader.length(f"{where} distance", relation.distance)
    mark = reader.choice(f"{where} to", relation.to, Mark, Mark.NEAR_FACE)
    place_at = face - sign * distance
    if mark is Mark.CENTRE:
        return place_at - own / 2
    return place_at - own if sign > 0 else place_at
