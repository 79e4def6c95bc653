"""How much wood is left of a small block after tools: the one question that the proofs ask.

A part is its blank less its tools, so whatever two parts or two cuts share lies in a small block,
and only the tools that reach into that block matter. That keeps the proof quick for a part with a
hundred cuts, and equal blocks with equal tools are worked out once.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Any

from furniture.errors import SolidError
from furniture.parts.blank import Blank
from furniture.parts.placement import Box, Placement
from furniture.parts.tools import Prism, Tool, Turned
from furniture.parts.vectors import Vector, add, scaled, subtract
from furniture.solids.make import tool_solid

_GROWTH_MM3 = 1e-3
_THIN_MM = 1e-7
"""A block thinner than this holds no wood [mm]: rounding."""


def box_of_tool(tool: Tool) -> Box:
    """The upright box round a tool, in its own frame [mm]."""
    if isinstance(tool, Turned):
        return _box_of_turned(tool)
    points = []
    for point, after in _sides(tool):
        corner = _in_space(tool, point.u, point.v)
        points += [corner, add(corner, tool.sweep)]
        if point.bulge:  # the arc's chord grown by its rise on all sides holds it
            du, dv = after.u - point.u, after.v - point.v
            grow = max(abs(point.bulge), 1.0) * (du**2 + dv**2) ** 0.5
            middle = _in_space(tool, (point.u + after.u) / 2, (point.v + after.v) / 2)
            for axis in (tool.u_axis, tool.v_axis):
                for sign in (grow / 2, -grow / 2):
                    outer = add(middle, scaled(axis, sign))
                    points += [outer, add(outer, tool.sweep)]
    return _box_round(points)


def box_of_tools(tools: Sequence[Tool]) -> Box:
    """The upright box round some tools [mm]."""
    boxes = [box_of_tool(tool) for tool in tools]
    return _box_round([corner for box in boxes for corner in box])


def shared_box(first: Box, second: Box) -> Box | None:
    """The block that two upright boxes share [mm]; none when they do not overlap."""
    low = tuple(max(a, b) for a, b in zip(first[0], second[0], strict=True))
    high = tuple(min(a, b) for a, b in zip(first[1], second[1], strict=True))
    if any(b - a < _THIN_MM for a, b in zip(low, high, strict=True)):
        return None
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def blank_box(blank: Blank) -> Box:
    """The box that a blank fills, part frame [mm]."""
    return ((0.0, 0.0, 0.0), blank.size)


def block_volume(block: Box) -> float:
    """The volume of a block [mm3]."""
    x, y, z = subtract(block[1], block[0])
    return x * y * z


def left_of_block(block: Box, tools: Iterable[Tool], within: Tool | None = None) -> float:
    """What is left of a block after some tools [mm3].

    Args:
        block: an upright box.
        tools: what is taken away, in the block's frame.
        within: only what lies inside this shape counts; nothing given is the whole block.

    Raises:
        SolidError: the kernel's answer cannot be true.
    """
    reaching = [tool for tool in tools if shared_box(block, box_of_tool(tool)) is not None]
    if any(_swallows(tool, block) for tool in reaching):
        return 0.0
    if not reaching and within is None:
        return block_volume(block)
    to_corner = scaled(block[0], -1.0)
    size = subtract(block[1], block[0])
    moved = tuple(dict.fromkeys(_rounded(_shifted(tool, to_corner)) for tool in reaching))
    shape = None if within is None else _rounded(_shifted(within, to_corner))
    return _left(_round(size), moved, shape)


def tool_in(tool: Tool, placement: Placement) -> Tool:
    """A tool of a part, in the frame that the placement is given in."""
    turn = placement.direction_to_piece
    if isinstance(tool, Turned):
        return replace(tool, origin=placement.to_piece(tool.origin), axis=turn(tool.axis))
    return replace(
        tool,
        origin=placement.to_piece(tool.origin),
        u_axis=turn(tool.u_axis),
        v_axis=turn(tool.v_axis),
        sweep=turn(tool.sweep),
    )


@lru_cache(maxsize=4096)
def _left(size: Vector, tools: tuple[Tool, ...], within: Tool | None) -> float:
    import cadquery as cq

    block: Any = cq.Solid.makeBox(*size)
    if within is not None:
        block = block.intersect(tool_solid(within))
    left = _volume(block)
    # One tool after another: two planes of two tools a millionth of a millimetre apart have made
    # the kernel forget a tool when it was given both at once.
    for tool in tools:
        if left == 0.0:
            return 0.0
        block = block.cut(tool_solid(tool))
        before, left = left, _volume(block)
        if left > before + _GROWTH_MM3:
            raise SolidError(f"a cut in a block of {size} mm left more wood than there was")
    return left


def _volume(shape: Any) -> float:
    return float(sum(solid.Volume() for solid in shape.Solids()))


def _swallows(tool: Tool, block: Box) -> bool:
    """Whether a plain upright box of a tool takes the whole block."""
    if not isinstance(tool, Prism) or len(tool.outline) != 4:
        return False
    if any(point.bulge for point in tool.outline):
        return False
    for axis in (tool.u_axis, tool.v_axis):
        if max(abs(value) for value in axis) < 1 - 1e-12:
            return False
    us, vs = ({round(getattr(p, name), 9) for p in tool.outline} for name in "uv")
    if len(us) != 2 or len(vs) != 2:
        return False
    low, high = box_of_tool(tool)
    return all(low[a] <= block[0][a] + 1e-9 for a in range(3)) and all(
        high[a] >= block[1][a] - 1e-9 for a in range(3)
    )


def _sides(tool: Prism) -> list[tuple[Any, Any]]:
    return list(zip(tool.outline, (*tool.outline[1:], tool.outline[0]), strict=True))


def _in_space(tool: Prism, u: float, v: float) -> Vector:
    return add(tool.origin, add(scaled(tool.u_axis, u), scaled(tool.v_axis, v)))


def _box_of_turned(tool: Turned) -> Box:
    ends = (tool.origin, add(tool.origin, scaled(tool.axis, tool.length_mm)))
    points = []
    for end, radius in zip(ends, (tool.first_radius_mm, tool.second_radius_mm), strict=True):
        reach = [radius * max(0.0, 1.0 - axis**2) ** 0.5 for axis in tool.axis]
        for sign in (1.0, -1.0):
            points.append(add(end, scaled((reach[0], reach[1], reach[2]), sign)))
    return _box_round(points)


def _box_round(points: Sequence[Vector]) -> Box:
    low = tuple(min(point[axis] for point in points) for axis in range(3))
    high = tuple(max(point[axis] for point in points) for axis in range(3))
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _shifted(tool: Tool, by: Vector) -> Tool:
    return replace(tool, origin=add(tool.origin, by))


def _round(vector: Vector) -> Vector:
    x, y, z = (round(value, 9) + 0.0 for value in vector)
    return (x, y, z)


def _rounded(tool: Tool) -> Tool:
    """The tool with its outline begun at 0 and the dust of its frame off: equal ones are equal."""
    if isinstance(tool, Turned):
        return replace(tool, origin=_round(tool.origin), axis=_round_axis(tool.axis))
    first = tool.outline[0]
    return replace(
        tool,
        origin=_round(_in_space(tool, first.u, first.v)),
        u_axis=_round_axis(tool.u_axis),
        v_axis=_round_axis(tool.v_axis),
        outline=tuple(
            replace(point, u=round(point.u - first.u, 9) + 0.0, v=round(point.v - first.v, 9) + 0.0)
            for point in tool.outline
        ),
        sweep=_round(tool.sweep),
    )


def _round_axis(axis: Vector) -> Vector:
    x, y, z = (round(value, 15) + 0.0 for value in axis)
    return (x, y, z)
