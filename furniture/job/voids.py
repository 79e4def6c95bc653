"""What some tools take of a box that other tools do not: the one question of every verdict.

Every tool is looked at as a flat shape carried along a part axis. Where all that meet are carried
along one axis, the answer is sums of plane areas; where not, the solid kernel is asked, last.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import shapely

from furniture.parts.lines import bounds_of
from furniture.parts.placement import Box
from furniture.parts.plane_section import flat_outline
from furniture.parts.tools import Prism, Tool, Turned
from furniture.parts.vectors import Vector, add, dot, scaled

LEAST_MM3 = 1.0
"""Less wood than this is none: a shaving."""
HAIR_MM = 1e-6
"""What is thinner is rounding."""
_DUST_MM3 = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """What is taken: at least and at most [mm3]; the two differ where only a solid can tell."""

    low: float
    high: float

    @property
    def is_none(self) -> bool:
        """Whether it is surely less than a shaving."""
        return self.high <= _DUST_MM3


@dataclass(frozen=True, slots=True, kw_only=True)
class _Carried:
    """A flat shape carried along an axis between two places on it [mm]."""

    axis: int
    span: tuple[float, float]
    shape: shapely.Geometry


def taken_alone(tool: Tool, box: Box, others: Iterable[Tool]) -> Taken:
    """What one tool takes of a box and none of the others does, as far as plane areas tell.

    Args:
        tool: whose share is asked.
        box: of the wood.
        others: that may take it too.
    """
    block = shared(bounds_of(tool), box)
    if block is None:
        return Taken(low=0.0, high=0.0)
    near = [each for each in others if shared(bounds_of(each), block) is not None]
    if any(_same(tool, each) for each in near):
        return Taken(low=0.0, high=0.0)
    best = Taken(low=0.0, high=_volume(block))
    for own in _carried(tool):
        beside = [_along(each, own.axis) for each in near]
        known = [each for each in beside if each is not None]
        volume = _left_of(own, known, block)
        if len(known) == len(near):
            return Taken(low=volume, high=volume)
        if volume < best.high:
            best = Taken(low=0.0, high=volume)
    return best


def surely_taken_alone(tool: Tool, box: Box, others: Sequence[Tool]) -> float:
    """The same by solids where plane areas do not tell [mm3].

    Args:
        tool: whose share is asked.
        box: of the wood.
        others: that may take it too.

    Raises:
        SolidError: the kernel's answer cannot be true.
    """
    light = taken_alone(tool, box, others)
    block = shared(bounds_of(tool), box)
    if block is None or light.high - light.low <= _DUST_MM3:
        return light.high
    from furniture.solids.proof_wood import left_of_block

    return left_of_block(block, others, within=tool)


def shared(first: Box, second: Box) -> Box | None:
    """The box that two boxes share [mm]; none when they only touch."""
    low = tuple(max(a, b) for a, b in zip(first[0], second[0], strict=True))
    high = tuple(min(a, b) for a, b in zip(first[1], second[1], strict=True))
    if any(b - a < HAIR_MM for a, b in zip(low, high, strict=True)):
        return None
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _volume(block: Box) -> float:
    x, y, z = (high - low for low, high in zip(*block, strict=True))
    return x * y * z


def _same(first: Tool, second: Tool) -> bool:
    """Whether two tools are the same shape in the same place, however they are written."""
    if isinstance(first, Turned) and isinstance(second, Turned):
        ends = (_ends(first), _ends(second))
        return any(
            all(abs(a - b) < HAIR_MM for a, b in zip(ends[0], other, strict=True))
            for other in (ends[1], (*ends[1][4:], *ends[1][:4]))
        )
    return False


def _ends(tool: Turned) -> tuple[float, ...]:
    last = add(tool.origin, scaled(tool.axis, tool.length_mm))
    return (*tool.origin, tool.first_radius_mm, *last, tool.second_radius_mm)


@lru_cache(maxsize=8192)
def _carried(tool: Tool) -> tuple[_Carried, ...]:
    """Every way in which a tool is a flat shape carried along a part axis; none for a cone."""
    low, high = bounds_of(tool)
    if isinstance(tool, Turned):
        axis = _axis_of(tool.axis)
        if axis is None or abs(tool.first_radius_mm - tool.second_radius_mm) > HAIR_MM:
            return ()
        u, v = _others(axis)
        disc = shapely.Point(tool.origin[u], tool.origin[v]).buffer(tool.first_radius_mm, 32)
        return (_Carried(axis=axis, span=(low[axis], high[axis]), shape=disc),)
    if _is_box(tool):
        return tuple(
            _Carried(
                axis=axis,
                span=(low[axis], high[axis]),
                shape=shapely.box(
                    *(low[i] for i in _others(axis)), *(high[i] for i in _others(axis))
                ),
            )
            for axis in range(3)
        )
    axis = _axis_of(tool.sweep)
    if axis is None or abs(dot(tool.u_axis, tool.sweep)) + abs(dot(tool.v_axis, tool.sweep)) > 1e-9:
        return ()
    u, v = _others(axis)
    corners = [_in_space(tool, *point) for point in flat_outline(tool)]
    shape = shapely.make_valid(shapely.Polygon([(each[u], each[v]) for each in corners]))
    return (_Carried(axis=axis, span=(low[axis], high[axis]), shape=shape),)


def _along(tool: Tool, axis: int) -> _Carried | None:
    return next((each for each in _carried(tool) if each.axis == axis), None)


def _is_box(tool: Prism) -> bool:
    """Whether a prism is an upright box."""
    if len(tool.outline) != 4 or any(point.bulge for point in tool.outline):
        return False
    if any(_axis_of(each) is None for each in (tool.u_axis, tool.v_axis, tool.sweep)):
        return False
    return all(len({round(getattr(each, name), 9) for each in tool.outline}) == 2 for name in "uv")


def _axis_of(way: Vector) -> int | None:
    """The part axis that a way lies along; none where it slopes."""
    size = max(abs(each) for each in way)
    along = [axis for axis in range(3) if abs(way[axis]) > 1e-9 * size]
    return along[0] if len(along) == 1 else None


def _others(axis: int) -> tuple[int, int]:
    u, v = (each for each in range(3) if each != axis)
    return u, v


def _in_space(tool: Prism, u: float, v: float) -> Vector:
    return add(tool.origin, add(scaled(tool.u_axis, u), scaled(tool.v_axis, v)))


def _left_of(own: _Carried, others: Sequence[_Carried], block: Box) -> float:
    """What is left of a carried shape in a block after others carried along the same axis [mm3]."""
    axis = own.axis
    u, v = _others(axis)
    low, high = max(own.span[0], block[0][axis]), min(own.span[1], block[1][axis])
    if high - low < HAIR_MM:
        return 0.0
    flat = shapely.intersection(
        own.shape, shapely.box(block[0][u], block[0][v], block[1][u], block[1][v])
    )
    marks = {low, high, *(end for each in others for end in each.span if low < end < high)}
    volume = 0.0
    for start, end in pairwise(sorted(marks)):
        middle = (start + end) / 2
        there = [each.shape for each in others if each.span[0] < middle < each.span[1]]
        left = shapely.difference(flat, shapely.union_all(there)) if there else flat
        volume += float(left.area) * (end - start)
    return volume
