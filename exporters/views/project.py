"""Parts and pieces projected at 1:1, hidden lines apart from visible ones."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from exporters.hardware import Thing
from exporters.views.bounds import bounds_of
from exporters.views.frames import StandardView, standard_frame
from exporters.views.kernel import hidden_lines
from exporters.views.things import Seen, solid_of_thing
from exporters.views.tidy import tidy
from exporters.views.values import View, ViewFrame
from exporters.views.wood import Stand, Wood, stands_of
from furniture.parts.part import Part, Placed
from furniture.solids.make import placed_solid, solid_of


def project_part(part: Part, frame: ViewFrame) -> View:
    """The part as the frame sees it, in its own frame; equal parts are projected once.

    Args:
        part: the part.
        frame: how it is looked at, in the part frame.

    Raises:
        SolidError: the part cannot be made.
    """
    return _part_view(Wood(part), frame)


def project_placed(
    placed: Sequence[Placed], frame: ViewFrame, things: Sequence[Thing] = ()
) -> View:
    """The placed parts together as the frame sees them: each hides what stands behind it.

    Args:
        placed: at least one; no two may run into each other, or the hidden lines come out wrong.
        frame: how they are looked at, in the piece frame.
        things: what is seen beside them that is no part.

    Raises:
        SolidError: a part cannot be made.
        ValueError: nothing is placed.
    """
    seen = tuple((each.form, each.axes, each.origin) for each in things)
    return _placed_view(stands_of(placed), frame, seen)


@lru_cache(maxsize=512)
def _part_view(wood: Wood, frame: ViewFrame) -> View:
    return _view([solid_of(wood.part).wrapped], frame)


@lru_cache(maxsize=64)
def _placed_view(stands: tuple[Stand, ...], frame: ViewFrame, things: tuple[Seen, ...]) -> View:
    parts = [placed_solid(wood.part, place).wrapped for wood, place in stands]
    return _view([*parts, *(solid_of_thing(*each) for each in things)], frame)


def _view(solids: list[Any], frame: ViewFrame) -> View:
    edges = tidy(hidden_lines(solids, frame.right, frame.towards_eye, frame.origin))
    low, high = bounds_of(edge.shape for edge in edges)
    return View(frame=frame, edges=edges, low=low, high=high)


__all__ = [
    "StandardView",
    "project_part",
    "project_placed",
    "standard_frame",
]
