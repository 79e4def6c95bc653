"""Shelves as spans with their loads at the worst place: on a post, past it, between uprights."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from furniture.checks.beams import Support
from furniture.checks.sections import Rectangle
from furniture.checks.spans import EvenLoad, PointLoad, Span, Stretch
from furniture.checks.stability import GRAVITY_M_S2, Load


def span_before_post(
    projection_mm: float,
    post_width_mm: float,
    thickness_mm: float,
    self_weight_n: float,
    loads: Sequence[Load],
    cuts: tuple[Stretch, ...] = (),
) -> Span:
    """A tier that projects from a post, its loads pushed to the front edge.

    Only the strip as wide as the post is counted on, though a wider tier spreads the load: a
    cautious bound. With the grain from left to right this span runs across the grain.

    Args:
        projection_mm: from the post's front face to the front edge [mm]
        post_width_mm: width of the post, which holds the tier [mm]
        thickness_mm: thickness of the tier [mm]
        self_weight_n: weight of the whole tier before the post [N]
        loads: what stands on the tier
        cuts: the wood that is left where the tier is cut, from the post outward

    **Source:** own rule: loads where they bend it most, beside each other as if they could overlap.
    """
    return Span(
        support=Support.CANTILEVER,
        length_mm=projection_mm,
        section=Rectangle(width_mm=post_width_mm, thickness_mm=thickness_mm),
        evens=(
            _own(projection_mm, self_weight_n),
            *(_at_end(projection_mm, load.footprint_mm[1], load) for load in loads),
        ),
        cuts=cuts,
    )


def span_past_post(
    overhang_mm: float,
    depth_mm: float,
    thickness_mm: float,
    self_weight_n: float,
    loads: Sequence[Load],
    cuts: tuple[Stretch, ...] = (),
) -> Span:
    """The part of a tier that reaches sideways past its post, its loads pushed to the end.

    With the grain from left to right this span runs along the grain.

    Args:
        overhang_mm: from the post's edge to the tier's end [mm]
        depth_mm: depth of the tier, front to back [mm]
        thickness_mm: thickness of the tier [mm]
        self_weight_n: weight of that part [N]
        loads: what stands on the tier
        cuts: the wood that is left where the tier is cut, from the post outward

    **Source:** own rule: loads where they bend it most, beside each other as if they could overlap.
    """
    return Span(
        support=Support.CANTILEVER,
        length_mm=overhang_mm,
        section=Rectangle(width_mm=depth_mm, thickness_mm=thickness_mm),
        evens=(
            _own(overhang_mm, self_weight_n),
            *(_at_end(overhang_mm, load.footprint_mm[0], load) for load in loads),
        ),
        cuts=cuts,
    )


def span_between_uprights(
    clear_mm: float,
    depth_mm: float,
    thickness_mm: float,
    self_weight_n: float,
    loads: Sequence[Load],
    cuts: tuple[Stretch, ...] = (),
) -> Span:
    """A shelf housed in two uprights, its ends taken as resting, its loads in the middle.

    Housed and glued ends hold it stiffer than that; how much nobody can say, so nothing is
    counted on.

    Args:
        clear_mm: between the uprights [mm]
        depth_mm: depth of the shelf, front to back [mm]
        thickness_mm: thickness of the shelf [mm]
        self_weight_n: weight between the uprights [N]
        loads: what stands on the shelf
        cuts: the wood that is left where the shelf is cut, from its left end

    **Source:** own rule: loads where they bend it most, beside each other as if they could overlap.
    """
    return Span(
        support=Support.SIMPLE,
        length_mm=clear_mm,
        section=Rectangle(width_mm=depth_mm, thickness_mm=thickness_mm),
        evens=(
            _own(clear_mm, self_weight_n),
            *(_in_middle(clear_mm, load.footprint_mm[0], load) for load in loads),
        ),
        cuts=cuts,
    )


def with_hand(span: Span, hand_n: float) -> Span:
    """The same span with a hand leaning on its free end, or on its middle when both ends rest.

    Args:
        span: the span with its loads
        hand_n: the hand's force [N]

    **Source:** own rule: the hand leans where it bends most.
    """
    at = span.length_mm if span.support is Support.CANTILEVER else span.length_mm / 2.0
    return replace(span, points=(*span.points, PointLoad(at_mm=at, force_n=hand_n)))


def _own(length_mm: float, weight_n: float) -> EvenLoad:
    return EvenLoad(from_mm=0.0, to_mm=length_mm, force_n=weight_n)


def _at_end(length_mm: float, footprint_mm: float, load: Load) -> EvenLoad:
    start = max(0.0, length_mm - footprint_mm)
    return EvenLoad(from_mm=start, to_mm=length_mm, force_n=load.mass_kg * GRAVITY_M_S2)


def _in_middle(length_mm: float, footprint_mm: float, load: Load) -> EvenLoad:
    half = min(footprint_mm, length_mm) / 2.0
    middle = length_mm / 2.0
    return EvenLoad(from_mm=middle - half, to_mm=middle + half, force_n=load.mass_kg * GRAVITY_M_S2)
