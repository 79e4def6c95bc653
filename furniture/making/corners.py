"""Mitred corners: grooves for splines in parts that are apart, slots for keys in closed corners."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.joints.relation import clean
from furniture.making.glue_ups.values import GlueUps
from furniture.making.operations import CutOf, Kind, Operation, Refused, Stage
from furniture.making.rigs import BY_HAND, HAND_SAWN, Made, sawn
from furniture.making.settings import (
    AS_IT_COMES,
    CornerSlot,
    Cutter,
    CutterKind,
    Flush,
    Guide,
    Hold,
    Machine,
    MitreGroove,
    Rig,
)
from furniture.parts.blank import Blank
from furniture.parts.faces import WIDE_FACES, Face
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector, dot, subtract
from furniture.pieces.datums import Datums
from furniture.pieces.let_in import LetIn, Slotted, let_in_of
from furniture.pieces.piece import Piece, placed_named
from furniture.rules import Rules
from furniture.rules.tools import BLADE_TILT, KERF_FITS, PASS_OVERLAP
from furniture.shop.tools.on_hand import (
    BitCut,
    ByHand,
    HeadCut,
    NoTool,
    Would,
    channel_cutters,
)
from furniture.shop.tools.stack import passes_across
from furniture.shop.tools.values import ShopRead, TooMuch

_HAIR = 1e-6


def grooved(setting: MitreGroove, blank: Blank, shop: ShopRead, rules: Rules) -> Made:
    """What makes the groove for a spline.

    The saw, its blade square to the mitre, where the groove runs through, the blade's kerf fits and
    the part is long enough for the sled; else a straight bit at the router table, the mitre down
    and the part in a cradle.

    Args:
        setting: of the groove.
        blank: of the part.
        shop: what is on hand.
        rules: how near a kerf must come.

    **Source:** common practice, no source.
    """
    if _is_sawn(setting, blank, shop, rules):
        return Made(rig=sawn(Guide.SLED, tilt_deg=clean(90.0 - setting.lean_deg)))
    routed = _routed(setting.width_mm, shop, rules)
    is_stopped = setting.whole_low_mm > 0.0 or setting.whole_high_mm > 0.0
    if isinstance(routed, NoTool):
        by_hand = ByHand.CHOPPED if is_stopped else routed.by_hand  # no backsaw runs up to a stop
        return Made(rig=BY_HAND, wanting=replace(routed, by_hand=by_hand))
    radius = min(routed.bit_mm, setting.width_mm) / 2.0
    return Made(
        rig=_at_the_table(routed.bit_mm),
        near_mm=routed.near_mm if len(routed.near_mm) > 1 else (),
        begun=replace(setting, corner_mm=radius) if is_stopped else None,
    )


def _is_sawn(setting: MitreGroove, blank: Blank, shop: ShopRead, rules: Rules) -> bool:
    is_through = setting.whole_low_mm == setting.whole_high_mm == 0.0
    return (
        is_through
        and setting.long_face in WIDE_FACES
        and 90.0 - setting.lean_deg <= rules[BLADE_TILT] + _HAIR
        and abs(shop.saw.kerf_mm - setting.width_mm) <= rules[KERF_FITS]
        and max(blank.length_mm, blank.width_mm) >= shop.saw.shortest_crosscut_mm
    )


def held_for_a_groove(setting: MitreGroove, rig: Rig, true: Datums) -> Hold:
    """How the part lies: long face up on the sled, the other end at the stop; or the mitre down.

    Args:
        setting: of the groove.
        rig: that makes it.
        true: the part's datums.
    """
    if rig.machine is Machine.TABLE_SAW:
        return Hold(down=setting.long_face.opposite, against=true.edge, stop=setting.end.opposite)
    return AS_IT_COMES


def _in_a_cradle(shop: ShopRead) -> Rig:
    return Rig(
        machine=Machine.TABLE_SAW,
        cutter=Cutter(kind=CutterKind.BLADE, size_mm=shop.saw.kerf_mm),
        guide=Guide.CRADLE,
    )


def _at_the_table(bit_mm: float) -> Rig:
    return Rig(
        machine=Machine.ROUTER_TABLE,
        cutter=Cutter(kind=CutterKind.STRAIGHT_BIT, size_mm=bit_mm),
        guide=Guide.CRADLE,
    )


def _routed(width_mm: float, shop: ShopRead, rules: Rules) -> BitCut | NoTool:
    ways = channel_cutters(shop, width_mm, rules)
    bit = next((each for each in ways if isinstance(each, BitCut)), None)
    if bit is None or shop.bits is None:
        return _kerf_wanting(width_mm, shop)
    if not shop.bits.has_table:
        return NoTool(
            would=Would.ROUTER_TABLE, size_mm=bit.bit_mm, nearest_mm=None, by_hand=ByHand.BACKSAW
        )
    return bit


def _kerf_wanting(width_mm: float, shop: ShopRead) -> NoTool:
    return NoTool(
        would=Would.KERF, size_mm=width_mm, nearest_mm=shop.saw.kerf_mm, by_hand=ByHand.BACKSAW
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Keyed:
    """A key and what is done for it once its corner is closed.

    Args:
        key: its instance.
        rails: the parts of its corner.
        slot: the operation that saw both halves of its slot; what it takes is told when that is
            known.
        fit: what makes the key slide in.
        flush: what makes its ends flush.
    """

    key: str
    rails: tuple[str, ...]
    slot: Operation
    fit: Operation
    flush: Operation


def keyed_of(
    piece: Piece, glue_ups: GlueUps | None, shop: ShopRead, guides: Mapping[str, Datums]
) -> tuple[Keyed, ...]:
    """The keys whose corners are closed before they are let in; the others are slotted by hand.

    Args:
        piece: that is made.
        glue_ups: how it goes together; None leaves it in parts.
        shop: what is on hand.
        guides: the faces that each instance is measured from.
    """
    bodies = {} if glue_ups is None else _bodies_with(glue_ups)
    found = []
    for each in let_in_of(piece):
        body = bodies.get(each.instance)
        rails = tuple(slot.instance for slot in each.slots)
        if body is not None and set(rails) <= set(body):
            found.append(_keyed(piece, each, rails, body, shop, guides))
    return tuple(found)


def _bodies_with(glue_ups: GlueUps) -> Mapping[str, tuple[str, ...]]:
    """For each instance that comes in alone, the largest body that it is put to."""
    return {
        body[0]: max(stage.bodies, key=len)
        for stage in glue_ups.stages
        for body in stage.bodies
        if len(body) == 1
    }


def _keyed(
    piece: Piece, each: LetIn, rails: tuple[str, ...], body: Sequence[str], shop: ShopRead,
    guides: Mapping[str, Datums],
) -> Keyed:  # fmt: skip
    setting = _corner_slot(piece, each.slots[0], guides, body)
    made = _slotted(setting, shop, piece.rules)
    refused = None
    is_machined = made.rig.machine is not Machine.BENCH
    faces = [(slot.instance, slot.shape.long_point) for slot in each.slots]
    if is_machined and _stand_out(piece, [*faces, (setting.of, setting.off)], body):
        refused = Refused(machine=made.rig.machine, why=(TooMuch.STANDS_OUT,))
        made = Made(rig=HAND_SAWN)
    plain = Operation(
        key=f"{each.instance}: {Kind.KEY_SLOT.value}", kind=Kind.KEY_SLOT, stage=Stage.GLUE,
        takes=(), gives=(),
    )  # fmt: skip
    return Keyed(
        key=each.instance,
        rails=rails,
        slot=replace(
            plain,
            rig=made.rig,
            setting=setting,
            cuts=tuple(CutOf(slot.instance, slot.index) for slot in each.slots),
            near_mm=made.near_mm,
            wanting=made.wanting,
            refused=refused,
        ),
        fit=replace(
            plain,
            key=f"{each.instance}: {Kind.PLANE_TO_FIT.value}",
            kind=Kind.PLANE_TO_FIT,
            takes=(each.instance,),
            gives=(each.instance,),
        ),
        flush=replace(
            plain,
            key=f"{each.instance}: {Kind.FLUSH.value}",
            kind=Kind.FLUSH,
            rig=HAND_SAWN,
            setting=Flush(with_faces=tuple(faces)),
            cuts=tuple(CutOf(each.instance, index) for index in each.ends),
        ),
    )


def _corner_slot(
    piece: Piece, slot: Slotted, guides: Mapping[str, Datums], body: Sequence[str]
) -> CornerSlot:
    """Measured from the datum, or from the face across where something stands out over that."""
    shape, true = slot.shape, guides[slot.instance]
    blank = placed_named(piece, slot.instance).part.blank
    both = (true.on(shape.along), true.on(shape.along).opposite)
    clear = (face for face in both if not _stand_out(piece, [(slot.instance, face)], body))
    off = next(clear, both[0])
    low, high = shape.span
    near = blank.size[shape.along] - high if off.is_far else low
    return CornerSlot(
        of=slot.instance,
        end=shape.end,
        long_face=shape.long_point,
        lean_deg=shape.angle_deg,
        off=off,
        near_mm=clean(near),
        width_mm=clean(high - low),
        depth_mm=clean(shape.down[1]),
    )


def _slotted(setting: CornerSlot, shop: ShopRead, rules: Rules) -> Made:
    """The saw's blade where its kerf fits, a head or a bit in one pass, the blade in several."""
    width, kerf = setting.width_mm, shop.saw.kerf_mm
    if abs(kerf - width) <= rules[KERF_FITS]:
        return Made(rig=_in_a_cradle(shop))
    for way in channel_cutters(shop, width, rules):
        if isinstance(way, HeadCut) and len(way.near_mm) == 1:
            cutter = Cutter(kind=CutterKind.DADO_HEAD, size_mm=way.stack.cuts_mm, stack=way.stack)
            return Made(rig=Rig(machine=Machine.TABLE_SAW, cutter=cutter, guide=Guide.CRADLE))
    if width > kerf > rules[PASS_OVERLAP]:
        return Made(rig=_in_a_cradle(shop), near_mm=passes_across(width, kerf, rules))
    routed = _routed(width, shop, rules)
    if isinstance(routed, NoTool):
        return Made(rig=HAND_SAWN, wanting=routed)
    return Made(
        rig=_at_the_table(routed.bit_mm),
        near_mm=routed.near_mm if len(routed.near_mm) > 1 else (),
    )


def _stand_out(piece: Piece, faces: Iterable[tuple[str, Face]], body: Sequence[str]) -> bool:
    """Whether something of a body stands out beyond one of these faces, so that it cannot lie."""
    corners = [corner for name in body for corner in _corners(placed_named(piece, name))]
    return any(
        dot(subtract(corner, at), way) > _PROUD_MM
        for name, face in faces
        for at, way in (_outer_face(placed_named(piece, name), face),)
        for corner in corners
    )


_PROUD_MM = 0.1
"""What stands out by no more lies in a cradle all the same. Own rule."""


def _outer_face(placed: Placed, face: Face) -> tuple[Vector, Vector]:
    """A point of a face and the way out of it, piece frame [mm]."""
    blank = placed.part.blank
    at = [0.0, 0.0, 0.0]
    at[face.axis] = blank.across(face) if face.is_far else 0.0
    return (
        placed.placement.to_piece((at[0], at[1], at[2])),
        placed.placement.direction_to_piece(face.normal),
    )


def _corners(placed: Placed) -> Iterator[Vector]:
    low, high = box_of(placed.part.blank, placed.placement)
    for x in (low[0], high[0]):
        for y in (low[1], high[1]):
            for z in (low[2], high[2]):
                yield x, y, z
