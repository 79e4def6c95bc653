"""What is cut to fit its mate: channels by the thickness that goes in, tenons by their mortises."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from furniture.joints.joint import Role
from furniture.joints.relation import CannotMeet, box_in
from furniture.making.operations import After, CutOf, FitTo, Follows, Kind, Operation
from furniture.making.settings import ByHand
from furniture.making.units import Unit
from furniture.making.why import Why
from furniture.parts.cuts import Channel
from furniture.parts.part import Placed
from furniture.pieces.piece import Piece, placed_named

_CHANNELS = frozenset({Kind.DADO, Kind.MORTISE, Kind.GROOVE})
_SAME_MM = 0.05
"""A wall so near to a side of what goes in is held by it. Own rule."""


def thickness_read(unit: str) -> str:
    """The key of the operation that reads how thick a piece of wood is.

    Args:
        unit: its id.
    """
    return f"{unit}: measure the thickness"


def measured_mates(
    piece: Piece, units: Sequence[Unit], operations: Sequence[Operation]
) -> Iterator[tuple[str, After]]:
    """A trench waits for the part that goes in, when that has its thickness.

    Args:
        piece: what is made.
        units: all of them.
        operations: of all units.
    """
    unit_of = {name: unit.id for unit in units for name in unit.instances}
    for each in operations:
        if each.kind not in _CHANNELS:
            continue
        names = {cut.instance for cut in (*each.cuts, *each.begins)}
        for joining in piece.joinings:
            if joining.role is Role.HOUSING and joining.into in names:
                read = thickness_read(unit_of[joining.incoming])
                yield each.key, After(read, Why.MATE_FIRST)


def as_wide_as_its_mate(
    piece: Piece, units: Sequence[Unit], operation: Operation
) -> Iterator[FitTo]:
    """The width of a channel follows the thickness that goes in, as it was read.

    Args:
        piece: what is made.
        units: all of them.
        operation: a pass.
    """
    unit_of = {name: unit.id for unit in units for name in unit.instances}
    if operation.kind not in _CHANNELS:
        return
    for cut in (*operation.cuts, *operation.begins):
        for name in _thick_in(piece, cut):
            yield FitTo(Follows.WIDTH, thickness_read(unit_of[name]))


def _thick_in(piece: Piece, cut: CutOf) -> Iterator[str]:
    """What lies in a channel with its thickness from wall to wall."""
    into = placed_named(piece, cut.instance)
    channel = into.part.cuts[cut.index].shape(into.part.blank)
    if not isinstance(channel, Channel) or channel.step is not None:
        return
    for joining in piece.joinings:
        if joining.into == cut.instance and joining.role is Role.HOUSING:
            incoming = placed_named(piece, joining.incoming)
            if _fills(channel, into, incoming):
                yield joining.incoming


def _fills(channel: Channel, into: Placed, incoming: Placed) -> bool:
    """Whether a part lies in a channel and its two wide faces at the walls."""
    try:
        low, high = box_in(into, incoming)
    except CannotMeet:
        return False
    wide, along, deep = channel.wide_axis, channel.along, channel.face.axis
    thick = into.placement.direction_to_part(incoming.placement.z_axis)
    near, far = sorted((channel.floor_mm, channel.surface_mm(into.part.blank)))
    is_across = abs(thick[wide]) > 1.0 - _SAME_MM
    is_between = (
        channel.wide[0] - _SAME_MM <= low[wide] and high[wide] <= channel.wide[1] + _SAME_MM
    )
    is_along = low[along] < channel.run[1] and channel.run[0] < high[along]
    is_sunk = low[deep] < far - _SAME_MM and near + _SAME_MM < high[deep]
    return is_across and is_between and is_along and is_sunk


def pared_tenons(piece: Piece, operations: Sequence[Operation]) -> Iterator[tuple[str, After]]:
    """A tenon is made when its mortise is finished, chopped square where a bit only began it.

    Args:
        piece: what is made.
        operations: of all units.
    """
    mortised = {
        cut
        for each in operations
        if each.kind is Kind.MORTISE
        for cut in (*each.cuts, *each.begins)
    }
    finished = [(cut.instance, each) for each in operations for cut in each.cuts if cut in mortised]
    for tenon in operations:
        if not isinstance(tenon.setting, ByHand) or tenon.setting.tenon_on is None:
            continue
        into = {
            joining.into
            for joining in piece.joinings
            if joining.role is Role.HOUSING and joining.incoming == tenon.cuts[0].instance
        }
        for name, mortise in finished:
            if name in into:
                yield tenon.key, After(mortise.key, Why.TENON_LAST)
