"""How a pass is looked at for its small picture, along the feed, and what is seen of its wood."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from shapely import affinity
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from exporters.views.in_hand import Held, section_of
from exporters.work.set_up_shown import SetUpShown
from furniture.making.operations import Operation
from furniture.making.settings import (
    Bored,
    CornerSlot,
    Easing,
    Guide,
    Machine,
    MitreGroove,
    Parallel,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector, cross, scaled

_TINY_MM2 = 1e-3
_HAIR_MM = 1e-5


@dataclass(frozen=True, slots=True)
class Look:
    """How a pass is looked at: the axis that the plane stands square to, right and up."""

    across: int
    right: Vector
    up: Vector


def look_at(operation: Operation) -> Look | None:
    """The way to look at a pass; None where no machine does it, or no setting tells it.

    Args:
        operation: the pass.
    """
    rig, hold, setting = operation.rig, operation.hold, operation.setting
    if rig is None or rig.machine is Machine.BENCH:
        return None
    match setting:
        case Surface():
            return _looking(setting.face.opposite, hold.against or _beside(setting.face))
        case Parallel():
            return _looking(setting.off.opposite, _beside(setting.off))
        case Bored() if rig.machine is Machine.DOWEL_JIG and hold.against is not None:
            return _looking(hold.against, setting.face)
        case Bored():
            return _looking(setting.face, hold.against or setting.off[setting.beside])
        case Easing():
            faces = (setting.arris.first, setting.arris.second)
            down = hold.down if hold.down in faces else faces[0]
            return _looking(down.opposite, faces[1] if down is faces[0] else faces[0])
        case Trench() if rig.machine is Machine.ROUTER:
            return _looking(setting.face, setting.off.opposite)
        case CornerSlot():
            return _looking(setting.long_face.opposite, setting.off)
        case Slice() | Skim() | Trench() | MitreGroove() if hold.down is not None:
            return _at_the_saw(operation, hold.down)
        case _:
            return None


def _at_the_saw(operation: Operation, down: Face) -> Look | None:
    """Along the feed: away from the sled's fence, or along the fence, which stands at the right."""
    rig, hold, setting = operation.rig, operation.hold, operation.setting
    assert rig is not None
    if hold.against is not None and rig.guide is Guide.SLED:
        feed = scaled(hold.against.normal, -1.0)
        if rig.turned_deg:
            return Look(down.axis, cross(feed, scaled(down.normal, -1.0)), feed)
        if isinstance(setting, Slice) and setting.off.axis == hold.against.axis:
            return _looking(down.opposite, hold.against)
        up = scaled(down.normal, -1.0)
        return Look(hold.against.axis, cross(feed, up), up)
    if hold.against is not None:
        return _looking(down.opposite, hold.against)
    return _looking(down.opposite, setting.face) if isinstance(setting, Skim) else None


def _looking(up: Face, right: Face) -> Look | None:
    if up.axis == right.axis:
        return None
    return Look(3 - up.axis - right.axis, right.normal, up.normal)


def _beside(face: Face) -> Face:
    """A face that stands square to another, across the grain."""
    return Face.BACK_EDGE if face.axis == 2 else Face.FACE_SIDE


def along(face: Face, way: Vector) -> float:
    """How much of a face's way out runs along another way, 1 where they are one.

    Args:
        face: of the wood.
        way: unit vector.
    """
    return sum(a * b for a, b in zip(face.normal, way, strict=True))


@dataclass(frozen=True, slots=True)
class Cut:
    """A section of the wood before and after a pass, beyond its blade, and what is cut away."""

    before: Any
    after: Any
    beyond: Any
    gone: Any


def cut_of(shown: SetUpShown, look: Look) -> Cut | None:
    """The sections where the pass takes wood; None where it takes none.

    Args:
        shown: the pass and its wood.
        look: how it is looked at.
    """
    passed, setting = shown.passed, shown.operation.setting
    if isinstance(setting, CornerSlot):
        return _through_corner(passed.before, setting, look)
    for at in _places(shown, look):
        before, after = (_seen(each, look, at) for each in (passed.before, passed.after))
        beyond = None if passed.beyond is None else _seen(passed.beyond, look, at)
        gone = before.difference(after)
        if beyond is not None:
            gone = gone.difference(beyond)
        gone = unary_union(polygons(_opened(gone)))  # without what rounding leaves
        if not gone.is_empty:
            return Cut(before, after, beyond, gone)
    return None


def _opened(area: Any) -> Any:
    """An area without slivers, which rounding leaves along a slope that was cut before."""
    return area.buffer(-_HAIR_MM, join_style="mitre").buffer(_HAIR_MM, join_style="mitre")


def _through_corner(wood: Held, setting: CornerSlot, look: Look) -> Cut | None:
    """A corner cut through along its mitre, which is the section of its part drawn out to it."""
    middle = (wood.low[look.across] + wood.high[look.across]) / 2
    section = _seen(wood, look, middle)
    left, low, right, _ = section.bounds
    out = 1.0 / math.cos(math.radians(setting.lean_deg))
    before = affinity.scale(section, 1.0, out, origin=(left, low))
    # what is looked at stands with the face that is measured from at the right
    near = right - setting.near_mm
    slot = box(near - setting.width_mm, low, near, low + setting.depth_mm)
    gone = before.intersection(slot)
    return None if gone.is_empty else Cut(before, before.difference(slot), None, gone)


def _places(shown: SetUpShown, look: Look) -> Iterator[float]:
    """Where the plane stands: in the bore, else half way along the cut, or nearer to an end.

    Another cut may have taken the middle.
    """
    wood, axis, setting = shown.passed.before, look.across, shown.operation.setting
    low, high = wood.low[axis], wood.high[axis]
    if isinstance(setting, Bored):
        for face, far in zip(setting.off, setting.at_mm, strict=True):
            if face.axis == axis:
                yield wood.level(face) + (-far if face.is_far else far)
    if isinstance(setting, Trench) and setting.along == axis:
        low, high = low + setting.whole_low_mm, high - setting.whole_high_mm
    yield from (low + share * (high - low) for share in (0.5, 0.2, 0.8, 0.05, 0.95))


def _seen(wood: Held, look: Look, at: float) -> Any:
    """A section of wood, right and up as it is looked at [mm of the wood]."""
    area = section_of(wood, look.across, at)
    a, b = (each for each in range(3) if each != look.across)
    right, up = look.right, look.up
    return affinity.affine_transform(area, [right[a], right[b], up[a], up[b], 0.0, 0.0])


def polygons(area: Any) -> list[Any]:
    """The pieces of an area that are more than what rounding leaves.

    Args:
        area: any shapely geometry [mm].
    """
    parts = getattr(area, "geoms", [area])
    return [each for each in parts if isinstance(each, Polygon) and each.area > _TINY_MM2]
