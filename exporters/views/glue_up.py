"""A glue-up as a small picture: what comes in stands off the way that it comes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, product

from exporters.views.apart import drawn_apart
from exporters.views.explode import exploded, trails
from exporters.views.frames import StandardView, isometric_from_below, standard_frame
from exporters.views.project import project_placed
from exporters.views.values import Line, View
from furniture.assembly.values import AssemblyPlan, Step
from furniture.joints.joint import Joining
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import UP, Point2, Vector, dot


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A part in a view: its name, the corners of its box there, whether it is about to move."""

    instance: str
    corners: tuple[Point2, ...]
    comes_in: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenedView:
    """The parts as they are about to come together, at 1:1, and the lines that they come along."""

    view: View
    trails: tuple[Line, ...]
    parts: tuple[Shown, ...] = ()


def coming_together(
    placed: Sequence[Placed], joinings: Sequence[Joining], moves: Sequence[Step]
) -> OpenedView:
    """The parts drawn apart along the moves, from below where all of them go up.

    Args:
        placed: what stands together after the moves; each body of it moves as one.
        joinings: of the piece.
        moves: in order.

    Raises:
        SolidError: a part cannot be made.
    """
    is_below = all(dot(each.direction, UP) > 0.5 for each in moves)
    frames = (
        (isometric_from_below(),)
        if is_below
        else tuple(
            standard_frame(each)
            for each in (StandardView.ISOMETRIC_RIGHT, StandardView.ISOMETRIC_LEFT)
        )
    )
    plan = AssemblyPlan(steps=tuple(moves))
    found = [(frame, drawn_apart(placed, joinings, plan, frame)) for frame in frames]
    frame, apart = min(found, key=lambda each: each[1].cost)
    legs = tuple(pair for leg in apart.legs for pair in pairwise(leg.points))
    moving = {name for each in moves for name in each.moving}
    opened = exploded(placed, apart.shifts)
    return OpenedView(
        view=project_placed(opened, frame),
        trails=trails(placed, apart.shifts, frame, legs),
        parts=tuple(
            Shown(
                instance=each.instance,
                corners=tuple(frame.to_paper(corner) for corner in _corners(each)),
                comes_in=each.instance in moving,
            )
            for each in opened
        ),
    )


def _corners(placed: Placed) -> Iterator[Vector]:
    low, high = box_of(placed.part.blank, placed.placement)
    for pick in product((0, 1), repeat=3):
        x, y, z = ((low, high)[at][axis] for axis, at in enumerate(pick))
        yield (x, y, z)
