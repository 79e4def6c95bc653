"""Screws that go right through a part into the wall: what a hanging piece hangs on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.joints import Fastener, HoldBy
from furniture.parts.cuts import Hole
from furniture.parts.cuts.left import put
from furniture.parts.cuts.shapes import level_of
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import BACK, dot
from furniture.pieces import Anchor, Bought

_SQUARE = 1.0 - 1e-9
_AT_WALL_MM = 1e-6
WALL_UNKNOWN = "what the wall bears is not known"


@dataclass(frozen=True, slots=True, kw_only=True)
class Screwed:
    """A screw in a bore right through its part."""

    bore: Hole
    screw: Bought


def anchors_in_wall(
    placed: Sequence[Placed], screws: Mapping[str, Sequence[Screwed]]
) -> tuple[Anchor, ...]:
    """Every part that is screwed to the wall behind the piece, with its screws in their places.

    Args:
        placed: every part of a piece that hangs; the wall is at its farthest back.
        screws: by instance, those that go right through it.
    """
    wall = max(box_of(each.part.blank, each.placement)[1][1] for each in placed)
    found = []
    for each in placed:
        held = [_fastener(each, screwed, wall) for screwed in screws.get(each.instance, ())]
        fasteners = tuple(one for one in held if one is not None)
        if fasteners:
            found.append(Anchor(instance=each.instance, fasteners=fasteners))
    return tuple(found)


def without(fixings: Sequence[Bought], anchors: Sequence[Anchor]) -> list[Bought]:
    """What is bought besides the screws of the anchors, which are counted off them."""
    left = list(fixings)
    for anchor in anchors:
        for fastener in anchor.fasteners:
            same = next(
                each
                for each in left
                if (each.name, each.where) == (fastener.name, (anchor.instance,))
                and each.diameter_mm == fastener.diameter_mm
            )
            left.remove(same)
            if same.quantity > 1:
                left.append(replace(same, quantity=same.quantity - 1))
    return left


def _fastener(placed: Placed, screwed: Screwed, wall_mm: float) -> Fastener | None:
    """The screw where it leaves the part, if that is at the wall."""
    bore, screw = screwed.bore, screwed.screw
    away = bore.face.opposite
    axis = placed.placement.direction_to_piece(away.normal)
    leaves = put(bore.centre, away.axis, level_of(away, placed.part.blank))
    at = placed.placement.to_piece(leaves)
    is_at_wall = dot(axis, BACK) > _SQUARE and abs(at[1] - wall_mm) < _AT_WALL_MM
    if not is_at_wall or screw.diameter_mm is None or screw.length_mm is None:
        return None
    through = placed.part.blank.across(bore.face)
    return Fastener(
        by=HoldBy.SCREW,
        at=at,
        axis=axis,
        diameter_mm=screw.diameter_mm,
        incoming_mm=through,
        into_mm=screw.length_mm - through,
        is_glued=False,
        head_holds=True,
        pull_n=None,
        side_n=None,
        source=WALL_UNKNOWN,
        name=screw.name,
        note=screw.note,
    )
