"""Whether a tool on hand makes a cut, and what would where none does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum

from furniture.rules import USUAL_RULES, Rules
from furniture.rules.tools import BIT_ERROR, PASS_OVERLAP, STACK_ERROR
from furniture.shop.tools.stack import Stack, nearest_stack, passes_across
from furniture.shop.tools.values import Head, RouterBits, ShopRead

_HAIR_MM = 1e-6
"""Lengths so near are the same."""


class Would(Enum):
    """What would make a cut."""

    STRAIGHT_BIT = "a straight bit"
    LONG_BIT = "a straight bit with a cutting length"
    ROUND_OVER_BIT = "a round-over bit"
    CHAMFER_BIT = "a chamfer bit"
    DRILL = "a drill"
    KERF = "a saw blade with a kerf"
    ROUTER_TABLE = "a router table with a straight bit"


class ByHand(Enum):
    """What makes it by hand."""

    SAW_AND_CHISEL = "saw the walls, chop the floor with a chisel, level it with a router plane"
    RABBET_PLANE = "a rabbet plane along a batten, down to two gauge lines"
    PLOUGH_PLANE = "a plough plane, its fence along the edge"
    BORE_AND_FILE = "bore inside both ends, saw between them with a coping saw, file to the line"
    FILED_OUT = "bore it with the next smaller drill, file it out to a scribed line"
    BACKSAW = "a backsaw along both lines, the floor pared with a chisel"
    CHOPPED = "knife its outline, chop inwards from both ends with a chisel, pare the floor level"
    BLOCK_PLANE = "a block plane to a line, then sandpaper"


@dataclass(frozen=True, slots=True, kw_only=True)
class NoTool:
    """No tool on hand makes it: what would, and by hand what does, None where nothing.

    size_mm: that the tool would have; nearest_mm: the nearest on hand, None where there is none.
    """

    would: Would
    size_mm: float
    nearest_mm: float | None
    by_hand: ByHand | None


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadCut:
    """A channel sawn by a dado head; near_mm: its near side from the near wall, by pass [mm]."""

    stack: Stack
    near_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BitCut:
    """A channel routed by a straight bit; near_mm: of its near side from the near wall [mm]."""

    bit_mm: float
    near_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SizedBit:
    """A drill, or a profile bit, and its size as it is sold [mm]."""

    size_mm: float
    error_mm: float


def channel_cutters(
    shop: ShopRead, width_mm: float, rules: Rules = USUAL_RULES
) -> tuple[HeadCut | BitCut | NoTool, ...]:
    """What makes a square channel of a width, a dado or a groove, best first.

    A dado head first, in several passes where the channel is wider than it; then a straight bit.
    `NoTool` last where neither does: it is then made by hand.

    Args:
        shop: what is on hand.
        width_mm: from wall to wall [mm].
        rules: how near a stack must come.

    **Source:** common practice, no source.
    """
    sawn = None if shop.head is None else _sawn(shop.head, width_mm, rules)
    routed = None if shop.bits is None else _routed(shop.bits, width_mm, rules)
    found = tuple(each for each in (sawn, routed) if each is not None)
    if found:
        return found
    return (straight_bit_wanting(shop, width_mm),)


def channel_cutters_to(
    shop: ShopRead, width_mm: float, depth_mm: float, rules: Rules = USUAL_RULES
) -> tuple[HeadCut | BitCut | NoTool, ...]:
    """What makes a square channel of a width and a depth, best first.

    `NoTool` last where neither the head nor the bits that are as wide reach so deep.

    Args:
        shop: what is on hand.
        width_mm: from wall to wall [mm].
        depth_mm: of the channel [mm].
        rules: how near a stack must come.

    **Source:** common practice, no source.
    """
    head = shop.head
    if head is not None and depth_mm > head.deepest_mm + _HAIR_MM:
        shop = replace(shop, head=None)
    ways = channel_cutters(shop, width_mm, rules)
    if shop.bits is None or depth_mm <= shop.bits.deepest_mm + _HAIR_MM:
        return ways
    found = tuple(each for each in ways if not isinstance(each, BitCut))
    return found or (long_bit_wanting(shop.bits, depth_mm),)


def long_bit_wanting(bits: RouterBits, depth_mm: float, *, is_through: bool = False) -> NoTool:
    """That no straight bit on hand reaches so deep.

    Args:
        bits: on hand.
        depth_mm: of the cut [mm].
        is_through: whether it goes right through the wood.

    **Source:** common practice, no source.
    """
    return NoTool(
        would=Would.LONG_BIT, size_mm=depth_mm, nearest_mm=bits.deepest_mm,
        by_hand=_by_hand(is_through),
    )  # fmt: skip


def _by_hand(is_through: bool) -> ByHand:
    """What has no floor cannot be chopped to one."""
    return ByHand.BORE_AND_FILE if is_through else ByHand.SAW_AND_CHISEL


def straight_bit_wanting(shop: ShopRead, width_mm: float, *, is_through: bool = False) -> NoTool:
    """That no straight bit on hand cuts a channel of a width, and how it is cut by hand.

    A channel is sawn to its walls and chopped out; what has no floor is bored and filed out.

    Args:
        shop: what is on hand.
        width_mm: from wall to wall [mm].
        is_through: whether it goes right through the wood.

    **Source:** common practice, no source.
    """
    straight = () if shop.bits is None else shop.bits.straight_mm
    return NoTool(
        would=Would.STRAIGHT_BIT, size_mm=width_mm, nearest_mm=_nearest(straight, width_mm),
        by_hand=_by_hand(is_through),
    )  # fmt: skip


def _sawn(head: Head, width_mm: float, rules: Rules) -> HeadCut | None:
    """By a head: in one pass where a stack comes near enough, in several where none is so wide."""
    stack = nearest_stack(head, width_mm, rules)
    if abs(stack.error_mm) <= rules[STACK_ERROR]:
        return HeadCut(stack=stack, near_mm=(0.0,))
    if stack.error_mm > 0.0 and width_mm <= head.narrowest_cut_mm:
        return None
    plain = _plainest(head, width_mm, rules)
    if plain is None or plain.cuts_mm <= rules[PASS_OVERLAP]:
        return None
    return HeadCut(stack=plain, near_mm=passes_across(width_mm, plain.cuts_mm, rules))


def _plainest(head: Head, width_mm: float, rules: Rules) -> Stack | None:
    """The widest stack without shims that fits in: its passes are set by the fence."""
    bare = Head(
        outer_mm=head.outer_mm, chippers_mm=head.chippers_mm, shims_mm=(),
        diameter_mm=head.diameter_mm, widest_mm=min(head.widest_mm, width_mm - head.cuts_wider_mm),
        cuts_wider_mm=head.cuts_wider_mm,
    )  # fmt: skip
    return None if bare.narrowest_cut_mm > width_mm else nearest_stack(bare, width_mm, rules)


def _routed(bits: RouterBits, width_mm: float, rules: Rules) -> BitCut | None:
    """By the widest straight bit that fits in; the fence sets the rest."""
    fitting = [each for each in bits.straight_mm if each <= width_mm + rules[STACK_ERROR]]
    if not fitting:
        return None
    bit = max(fitting)
    if bit >= width_mm - rules[STACK_ERROR]:
        return BitCut(bit_mm=bit, near_mm=(0.0,))
    if bit <= rules[PASS_OVERLAP]:
        return None
    return BitCut(bit_mm=bit, near_mm=passes_across(width_mm, bit, rules))


def drill_for(shop: ShopRead, diameter_mm: float, rules: Rules = USUAL_RULES) -> SizedBit | NoTool:
    """The drill for a bore.

    Args:
        shop: what is on hand.
        diameter_mm: of the bore [mm].
        rules: how near a drill must come.

    **Source:** own rule.
    """
    return _sized(shop.drills.diameters_mm, diameter_mm, Would.DRILL, None, rules)


def round_over_for(
    shop: ShopRead, radius_mm: float, rules: Rules = USUAL_RULES
) -> SizedBit | NoTool:
    """The bit that rounds an arris over.

    Args:
        shop: what is on hand.
        radius_mm: of the profile [mm].
        rules: how near a bit must come.

    **Source:** own rule.
    """
    radii = () if shop.bits is None else shop.bits.round_over_mm
    return _sized(radii, radius_mm, Would.ROUND_OVER_BIT, ByHand.BLOCK_PLANE, rules)


def chamfer_for(shop: ShopRead, size_mm: float) -> SizedBit | NoTool:
    """The bit that takes an arris off at 45 degrees: any chamfer up to its widest.

    Args:
        shop: what is on hand.
        size_mm: of the chamfer on either face [mm].

    **Source:** common practice, no source.
    """
    widest = 0.0 if shop.bits is None else shop.bits.chamfer_mm
    if size_mm <= widest:
        return SizedBit(size_mm=size_mm, error_mm=0.0)
    return NoTool(
        would=Would.CHAMFER_BIT, size_mm=size_mm, nearest_mm=widest or None,
        by_hand=ByHand.BLOCK_PLANE,
    )  # fmt: skip


def _sized(
    sizes: Sequence[float], size_mm: float, would: Would, by_hand: ByHand | None, rules: Rules
) -> SizedBit | NoTool:
    nearest = _nearest(sizes, size_mm)
    if nearest is not None and abs(nearest - size_mm) <= rules[BIT_ERROR]:
        return SizedBit(size_mm=nearest, error_mm=nearest - size_mm)
    return NoTool(would=would, size_mm=size_mm, nearest_mm=nearest, by_hand=by_hand)


def _nearest(sizes: Sequence[float], size_mm: float) -> float | None:
    """The nearest size; of two as near the larger, which still lets the mate in."""
    return min(sizes, key=lambda each: (abs(each - size_mm), -each), default=None)
