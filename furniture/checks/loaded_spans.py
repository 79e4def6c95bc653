"""Shelves as spans with their loads at the worst place: on a post, past it, between uprights."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from furniture.checks.beams import Support
from furniture.checks.bodies import GRAVITY_M_S2, Load
from furniture.checks.sections import Rectangle
from furniture.checks.side_by_side import spread
from furniture.checks.spans import EvenLoad, PointLoad, Span, Stretch


def span_before_post(
    projection_mm: float,
    post_width_mm: float,
    thickness_mm: float,
    self_weight_n: float,
    loads: Sequence[Load],
    cuts: tuple[Stretch, ...] = (),
    room_mm: tuple[float, float] | None = None,
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
        room_mm: the whole tier along the span and across it [mm]; left out, loads may overlap

    **Source:** own rule: loads where they bend it most, beside or behind each other where there is
    room, else as if they could overlap.
    """
    return Span(
        support=Support.CANTILEVER,
        length_mm=projection_mm,
        section=Rectangle(width_mm=post_width_mm, thickness_mm=thickness_mm),
        evens=(
            _own(projection_mm, self_weight_n),
            *_at_end(projection_mm, loads, 1, room_mm),
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
    room_mm: tuple[float, float] | None = None,
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
        room_mm: the whole tier along the span and across it [mm]; left out, loads may overlap

    **Source:** own rule: loads where they bend it most, beside or behind each other where there is
    room, else as if they could overlap.
    """
    return Span(
        support=Support.CANTILEVER,
        length_mm=overhang_mm,
        section=Rectangle(width_mm=depth_mm, thickness_mm=thickness_mm),
        evens=(
            _own(overhang_mm, self_weight_n),
            *_at_end(overhang_mm, loads, 0, room_mm),
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

    **Source:** own rule: loads where they bend it most, beside or behind each other where there is
    room, else as if they could overlap.
    """
    return Span(
        support=Support.SIMPLE,
        length_mm=clear_mm,
        section=Rectangle(width_mm=depth_mm, thickness_mm=thickness_mm),
        evens=(
            _own(clear_mm, self_weight_n),
            *_in_middle(clear_mm, loads, (clear_mm, depth_mm)),
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


def _at_end(
    length_mm: float, loads: Sequence[Load], axis: int, room_mm: tuple[float, float] | None
) -> list[EvenLoad]:
    """Each load as near the free end as those before it let it; what rests past the root bends
    nothing."""
    placed = [(load, 0.0) for load in loads]
    if room_mm is not None:
        placed = spread(loads, *room_mm, axis)
    found = []
    for load, back in placed:
        end = length_mm - back
        start = end - load.footprint_mm[axis]
        force = load.mass_kg * GRAVITY_M_S2
        if room_mm is None or back == 0.0:
            found.append(EvenLoad(from_mm=max(0.0, start), to_mm=end, force_n=force))
        elif end > 0.0:
            share = min(1.0, end / (end - start))
            found.append(EvenLoad(from_mm=max(0.0, start), to_mm=end, force_n=force * share))
    return found


def _in_middle(
    length_mm: float, loads: Sequence[Load], room_mm: tuple[float, float]
) -> list[EvenLoad]:
    """The loads about the middle of the span: abreast, or in a row with the heaviest there."""
    row = spread(loads, *room_mm, 0)
    middle = length_mm / 2.0
    found, left, right = [], middle, middle
    for number, (load, back) in enumerate(row):
        size = min(load.footprint_mm[0], length_mm)
        if number == 0 or back == 0.0:
            start = middle - size / 2.0
        elif number % 2:
            start = right
        else:
            start = left - size
        start = min(max(0.0, start), length_mm - size)
        if number == 0 or back > 0.0:
            left, right = min(left, start), max(right, start + size)
        force = load.mass_kg * GRAVITY_M_S2
        found.append(EvenLoad(from_mm=start, to_mm=start + size, force_n=force))
    return found
