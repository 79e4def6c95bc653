"""Parts that are each other's mirror image, such as a left and a right stub."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from furniture.parts.part import Part, Placed
from furniture.parts.tools import Prism, Tool
from furniture.parts.vectors import Vector, add, dot, scaled
from furniture.pieces.piece import Piece, distinct_parts, placed_named

Flips = tuple[bool, bool, bool]
"""Whether each axis of the part frame runs the other way in the mirror image."""
_MIRRORS: tuple[Flips, ...] = (
    (True, False, False), (False, True, False), (False, False, True), (True, True, True),
)  # fmt: skip
"""A mirror and the half turns after it: every way in which one frame mirrors the other."""
_LEVEL = 0.999


@dataclass(frozen=True, slots=True, kw_only=True)
class Twins:
    """Two distinct parts of which one mirrors the other, by their ids.

    `flips` are the axes of the second part that run against those of the first.
    """

    first: str
    second: str
    flips: Flips


def twins_of(piece: Piece) -> tuple[Twins, ...]:
    """Every pair of mirrored parts, the one that is placed first before the other.

    Where a part is alike both ways, the mirror is meant that the two stand as in the piece.

    Args:
        piece: that holds them.
    """
    found: list[Twins] = []
    taken: set[str] = set()
    parts = distinct_parts(piece)
    for index, each in enumerate(parts):
        if each.part.id in taken or not each.part.cuts:
            continue
        for other in parts[index + 1 :]:
            ways = [] if other.part.id in taken else list(_mirrors(each.part, other.part))
            if ways:
                one = placed_named(piece, each.instances[0])
                two = placed_named(piece, other.instances[0])
                flips = next((way for way in ways if _stand_mirrored(one, two, way)), ways[0])
                found.append(Twins(first=each.part.id, second=other.part.id, flips=flips))
                taken |= {each.part.id, other.part.id}
                break
    return tuple(found)


def _mirrors(part: Part, other: Part) -> Iterator[Flips]:
    if other.blank != part.blank or len(other.cuts) != len(part.cuts):
        return
    target = _shape_of(other)
    for flips in _MIRRORS:
        if _mirrored(_shape_of(part), part.blank.size, flips) == target:
            yield flips


def _stand_mirrored(one: Placed, two: Placed, flips: Flips) -> bool:
    """Whether some mirror square to an axis of the piece brings the one where the other stands."""
    for normal in range(3):
        if all(
            dot(_in_mirror(first, normal), second) * (-1.0 if is_flipped else 1.0) > _LEVEL
            for first, second, is_flipped in zip(
                one.placement.axes, two.placement.axes, flips, strict=True
            )
        ):
            return True
    return False


def _in_mirror(way: Vector, normal: int) -> Vector:
    x, y, z = (-value if axis == normal else value for axis, value in enumerate(way))
    return (x, y, z)


_Shape = frozenset[tuple[tuple[float, ...], ...]]


def _shape_of(part: Part) -> _Shape:
    """The corners of every tool: enough to tell whether two parts mirror each other."""
    return frozenset(
        tuple(sorted(_corners(tool))) for cut in part.cuts for tool in cut.tools(part.blank)
    )


def _corners(tool: Tool) -> list[tuple[float, ...]]:
    points: list[Vector] = []
    if isinstance(tool, Prism):
        for point in tool.outline:
            corner = add(
                tool.origin, add(scaled(tool.u_axis, point.u), scaled(tool.v_axis, point.v))
            )
            points += [corner, add(corner, tool.sweep)]
        return [_rounded(point) for point in points]
    far = add(tool.origin, scaled(tool.axis, tool.length_mm))
    return [
        (*_rounded(tool.origin), round(tool.first_radius_mm, 4)),
        (*_rounded(far), round(tool.second_radius_mm, 4)),
    ]


def _rounded(point: Vector) -> tuple[float, float, float]:
    return (round(point[0], 4) + 0.0, round(point[1], 4) + 0.0, round(point[2], 4) + 0.0)


def _mirrored(shape: _Shape, size: Vector, flips: Flips) -> _Shape:
    def turned(corner: tuple[float, ...]) -> tuple[float, ...]:
        place = (
            round(whole - value, 4) + 0.0 if is_flipped else value
            for value, whole, is_flipped in zip(corner[:3], size, flips, strict=True)
        )
        return (*place, *corner[3:])

    return frozenset(tuple(sorted(turned(each) for each in corners)) for corners in shape)
