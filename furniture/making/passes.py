"""From the shape that a cut leaves to the pass that makes it: what is measured from which face.

Places are measured from the part's datums, which are true by then. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Container
from dataclasses import dataclass, replace
from typing import assert_never

from furniture.joints.relation import clean
from furniture.making.operations import Kind
from furniture.making.settings import (
    AS_IT_COMES,
    Bored,
    ByHand,
    Easing,
    Hold,
    MitreGroove,
    Notched,
    Setting,
    Trench,
)
from furniture.parts.blank import Blank
from furniture.parts.cuts import (
    Bite,
    Channel,
    Eased,
    Hole,
    InSlope,
    Shape,
    Slope,
    Stub,
    TongueEnd,
)
from furniture.parts.cuts.opening import COUNTERSINK_DEG
from furniture.parts.cuts.shapes import level_of
from furniture.parts.faces import ENDS, WIDE_FACES, Face, face_on
from furniture.pieces.datums import Datums

_NEAR_MM = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """How a cut is made: what it is called, how the wood lies, and the setting."""

    kind: Kind
    hold: Hold
    setting: Setting


def pass_for(shape: Shape, blank: Blank, true: Datums, sloped: Container[Face] = ()) -> Pass | None:
    """The pass that leaves a shape, or None for slopes: they are sawn as ends and edges are.

    Args:
        shape: that the cut leaves.
        blank: of the part.
        true: the faces that places are measured from.
        sloped: ends that no stop can bear on; places are marked from their long points.
    """
    found = _pass_for(shape, blank, true)
    if found is not None and isinstance(found.setting, MitreGroove):
        return found  # told from the long point, which a stop faced to its slope can bear on
    if found is not None and found.hold.stop is not None and found.hold.stop in sloped:
        return replace(found, hold=replace(found.hold, stop=None))
    return found


def _pass_for(shape: Shape, blank: Blank, true: Datums) -> Pass | None:
    match shape:
        case Channel():
            return _trench(shape, blank, true)
        case Hole():
            return _bore(shape, blank, true)
        case Bite():
            return _notch(shape, blank, true)
        case Eased():
            return Pass(
                kind=Kind.PROFILE,
                hold=Hold(down=_wide_of(shape), against=None, stop=None),
                setting=Easing(arris=shape.arris, size_mm=shape.size_mm, is_round=shape.is_round),
            )
        case InSlope() if shape.depth_mm is not None:
            return _mitre_groove(shape, shape.depth_mm, blank, true)
        case Stub():
            return Pass(kind=Kind.SHAPE, hold=AS_IT_COMES, setting=ByHand(tenon_on=shape.end))
        case TongueEnd() | InSlope():
            return Pass(kind=Kind.SHAPE, hold=AS_IT_COMES, setting=ByHand())
        case Slope():
            return None
        case _:
            assert_never(shape)


def _wide_of(shape: Eased) -> Face | None:
    """A profiled wide face lies down: at the router table the bit works from below."""
    return next((face for face in (shape.arris.first, shape.arris.second)
                 if face in WIDE_FACES), None)  # fmt: skip


def from_face(face: Face, at: float, blank: Blank) -> float:
    """How far inside a face a coordinate of its axis lies, free of dust [mm]."""
    return clean(abs(level_of(face, blank) - at))


def _trench(shape: Channel, blank: Blank, true: Datums) -> Pass:
    wide = shape.wide_axis
    off = shape.step or true.on(wide)
    run = blank.size[shape.along]
    setting = Trench(
        face=shape.face,
        along=shape.along,
        off=off,
        near_mm=min(from_face(off, at, blank) for at in shape.wide),
        width_mm=clean(shape.wide[1] - shape.wide[0]),
        depth_mm=clean(shape.depth_mm(blank)),
        whole_low_mm=clean(max(0.0, shape.run[0])),
        whole_high_mm=clean(max(0.0, run - shape.run[1])),
        corner_mm=shape.corner_mm,
    )
    return Pass(kind=_called(shape, setting), hold=_held(setting, true), setting=setting)


def _mitre_groove(shape: InSlope, depth_mm: float, blank: Blank, true: Datums) -> Pass:
    """From its own long point, or from the datum face where the rails lie flat."""
    run, (low, high) = blank.size[shape.along], shape.span
    down, slope = (
        shape.down,
        blank.across(shape.long_point) / math.cos(math.radians(shape.angle_deg)),
    )
    is_flat = shape.along not in (0, 1)
    off = true.side if is_flat else shape.long_point
    setting = MitreGroove(
        end=shape.end,
        long_face=shape.long_point,
        lean_deg=shape.angle_deg,
        off=off,
        near_mm=min(from_face(off, at, blank) for at in shape.span) if is_flat else clean(down[0]),
        width_mm=clean(high - low if is_flat else down[1] - down[0]),
        depth_mm=clean(depth_mm),
        whole_low_mm=clean(max(0.0, down[0] if is_flat else low)),
        whole_high_mm=clean(max(0.0, slope - down[1] if is_flat else run - high)),
    )
    return Pass(kind=Kind.SPLINE_GROOVE, hold=AS_IT_COMES, setting=setting)


def _called(shape: Channel, setting: Trench) -> Kind:
    if shape.step is not None:
        is_shut = setting.whole_low_mm > 0.0 and setting.whole_high_mm > 0.0
        return Kind.GAIN if is_shut and setting.depth_mm < setting.width_mm else Kind.RABBET
    if shape.is_mortise:
        return Kind.MORTISE
    return Kind.DADO if shape.is_across_grain else Kind.GROOVE


def _held(setting: Trench, true: Datums) -> Hold:
    """Sunk face down: along the fence with the grain, on the sled across it.

    The sled's fence pushes the wood, so the saw comes last to the edge that lies there: the one
    that a stopped cut does not reach.
    """
    face, off = setting.face, setting.off
    if setting.along == 0:
        return Hold(down=face, against=off)
    if setting.along == 1:
        stops = setting.whole_low_mm > 0.0, setting.whole_high_mm > 0.0
        last = true.edge
        if stops[0] != stops[1]:
            last = Face.BACK_EDGE if stops[1] else Face.FACE_EDGE
        return Hold(down=face, against=last, stop=off)
    return Hold(down=face, against=true.side, stop=off if off in ENDS else true.end)


def _bore(shape: Hole, blank: Blank, true: Datums) -> Pass:
    first, second = (axis for axis in range(3) if axis != shape.face.axis)
    off = true.on(first), true.on(second)
    sink = shape.mouth_radius_mm - shape.radius_mm
    setting = Bored(
        face=shape.face,
        off=off,
        at_mm=(
            from_face(off[0], shape.first[first], blank),
            from_face(off[1], shape.first[second], blank),
        ),
        diameter_mm=shape.width_mm,
        depth_mm=shape.depth_mm,
        to_mm=None
        if shape.is_round
        else (
            from_face(off[0], shape.last[first], blank),
            from_face(off[1], shape.last[second], blank),
        ),
        mouth_mm=2.0 * shape.mouth_radius_mm if sink > _NEAR_MM else 0.0,
        mouth_depth_mm=sink / math.tan(math.radians(COUNTERSINK_DEG / 2)),
    )
    is_wide = shape.face in WIDE_FACES
    kind = Kind.END_BORE if not is_wide else Kind.BORE if shape.is_round else Kind.SLOT
    return Pass(kind=kind, hold=held_for_a_bore(setting), setting=setting)


def held_for_a_bore(setting: Bored) -> Hold:
    """Bored from above into a wide face; into an end or an edge a jig holds the drill.

    Args:
        setting: of the bore.
    """
    face, off = setting.face, setting.off
    return Hold(
        down=face.opposite if face in WIDE_FACES else None,
        against=off[1],
        stop=off[0] if off[0] in ENDS else None,
    )


def _notch(shape: Bite, blank: Blank, true: Datums) -> Pass:
    along = 1 - shape.edge.axis
    off, near = true.on(along), None
    for face in (face_on(along, False), face_on(along, True)):
        reach = min(from_face(face, at, blank) for at in shape.span)
        if reach <= _NEAR_MM:  # open there: it is struck from the end or edge that it takes
            off, near = face, 0.0
    if near is None:
        near = min(from_face(off, at, blank) for at in shape.span)
    setting = Notched(
        edge=shape.edge,
        off=off,
        near_mm=near,
        length_mm=clean(shape.span[1] - shape.span[0]),
        depth_mm=shape.depth_mm,
        corner_mm=shape.corner_mm,
    )
    return Pass(kind=Kind.NOTCH, hold=AS_IT_COMES, setting=setting)
