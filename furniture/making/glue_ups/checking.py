"""What is measured before the glue of a stage sets: diagonals of frames, wind, squareness."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from furniture.joints.joint import Joining, Role
from furniture.making.glue_ups.cycles import Edge, on_cycles, path_between
from furniture.making.glue_ups.looked import Bodies, Looked
from furniture.making.glue_ups.values import Check, Diagonals, Flat, Square
from furniture.parts.part import Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import Vector, dot, length, subtract

_FRAMES = (Role.CORNER, Role.HOUSING)
_SAME_MM = 0.5
_ALONG = 0.99
_AXES: tuple[Vector, ...] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def checks_of(
    looked: Looked, lot: Bodies, closing: Sequence[Joining], placed: dict[str, Placed]
) -> tuple[Check, ...]:
    """What must be true of a lot before its glue sets.

    Args:
        looked: the piece.
        lot: the bodies that become one.
        closing: the glued joints that close between them.
        placed: the parts by instance.
    """
    frames = [each for each in closing if each.role in _FRAMES]
    number = {row: index for index, body in enumerate(lot) for row in body}
    edges = [
        Edge(number[a], number[b], index)
        for index, (a, b) in enumerate(looked.ends_of(each) for each in frames)
    ]
    rings = on_cycles(edges)
    found: list[Check] = []
    for ring in rings:
        closed = [frames[edge.payload] for edge in ring]
        found.extend(_of_ring(_members(looked, lot, closed), closed, placed))
    in_rings = {edge.payload for ring in rings for edge in ring}
    found.extend(
        Square(of=each.incoming, to=each.into)
        for index, each in enumerate(frames)
        if index not in in_rings
    )
    boards = [each for each in closing if each.role is Role.EDGE_GLUE]
    if boards:
        names = tuple(dict.fromkeys(n for each in boards for n in (each.into, each.incoming)))
        found.append(Flat(of=names, axis=placed[names[0]].placement.z_axis))
    return tuple(found)


def _members(looked: Looked, lot: Bodies, closed: Sequence[Joining]) -> tuple[str, ...]:
    """The parts that a ring runs through, inside bodies that were one before too."""
    rows: set[int] = set()
    links = [looked.ends_of(each) for each in looked.joinings if each.role in _FRAMES]
    for body in lot:
        ends = sorted({row for each in closed for row in looked.ends_of(each)} & body)
        inner = [link for link in links if set(link) <= body]
        for end in ends:
            rows |= set(path_between(ends[0], end, _near_first(looked, ends, inner)))
    return looked.names_of(rows)


def _near_first(
    looked: Looked, ends: Sequence[int], links: Sequence[tuple[int, int]]
) -> list[tuple[int, int]]:
    """Links in the order of how near their parts lie to the ends: of equal paths, the nearest."""
    centre = [sum(looked.parts[row].centre[axis] for row in ends) / len(ends) for axis in range(3)]
    at: Vector = (centre[0], centre[1], centre[2])

    def far(link: tuple[int, int]) -> float:
        return max(length(subtract(looked.parts[row].centre, at)) for row in link)

    return sorted(links, key=far)


def _of_ring(
    names: tuple[str, ...], closed: Sequence[Joining], placed: dict[str, Placed]
) -> Iterator[Check]:
    """The diagonals of a rectangle that the ring fills, and its plane."""
    boxes = [box_of(placed[name].part.blank, placed[name].placement) for name in names]
    low = tuple(min(box[0][axis] for box in boxes) for axis in range(3))
    high = tuple(max(box[1][axis] for box in boxes) for axis in range(3))
    normals = [face.normal for each in closed for face in each.faces[:1]]
    for axis in sorted(range(3), key=lambda each: high[each] - low[each]):
        if any(abs(dot(normal, _AXES[axis])) > _ALONG for normal in normals):
            continue
        corners = _corners(boxes, axis, (low, high))
        if corners:
            pairs = ((corners[0], corners[3]), (corners[1], corners[2]))
            yield Diagonals(
                of=names,
                first=pairs[0],
                second=pairs[1],
                lengths_mm=(length(subtract(*pairs[0])), length(subtract(*pairs[1]))),
            )
            yield Flat(of=names, axis=_AXES[axis])
            return
    axis = min(range(3), key=lambda each: high[each] - low[each])
    yield Flat(of=names, axis=_AXES[axis])


def _corners(
    boxes: Sequence[Box], axis: int, outer: tuple[Sequence[float], Sequence[float]]
) -> list[Vector]:
    """The corners of the rectangle round some boxes; none where a corner is no part's own."""
    wide, deep = (each for each in range(3) if each != axis)
    found, level = [], -float("inf")
    for i, j in product((0, 1), repeat=2):
        at = {wide: outer[i][wide], deep: outer[j][deep]}
        reaching = [
            box[0][axis]
            for box in boxes
            if abs(box[i][wide] - at[wide]) < _SAME_MM and abs(box[j][deep] - at[deep]) < _SAME_MM
        ]
        if not reaching:
            return []
        level = max(level, min(reaching))
        found.append(at)
    return [_point({**at, axis: level}) for at in found]


def _point(at: dict[int, float]) -> Vector:
    return (at[0], at[1], at[2])
