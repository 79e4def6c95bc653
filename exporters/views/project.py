"""Parts and pieces projected at 1:1, hidden lines apart from visible ones."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from exporters.views.bounds import bounds_of
from exporters.views.frames import StandardView, face_frame, standard_frame
from exporters.views.kernel import hidden_lines
from exporters.views.tidy import tidy
from exporters.views.values import View, ViewFrame
from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement
from furniture.solids.make import placed_solid, solid_of


def project_part(part: Part, frame: ViewFrame) -> View:
    """The part as the frame sees it, in its own frame; equal parts are projected once.

    Args:
        part: the part.
        frame: how it is looked at, in the part frame.

    Raises:
        SolidError: the part cannot be made.
    """
    return _part_view(_Wood(part), frame)


def project_placed(placed: Sequence[Placed], frame: ViewFrame) -> View:
    """The placed parts together as the frame sees them: each hides what stands behind it.

    Args:
        placed: at least one; no two may run into each other, or the hidden lines come out wrong.
        frame: how they are looked at, in the piece frame.

    Raises:
        SolidError: a part cannot be made.
        ValueError: nothing is placed.
    """
    return _placed_view(tuple((_Wood(each.part), each.placement) for each in placed), frame)


class _Wood:
    """A part that compares by its wood alone, so that the caches do not see its name."""

    __slots__ = ("_key", "part")

    def __init__(self, part: Part) -> None:
        self.part = part
        self._key: tuple[Blank, tuple[Cut, ...]] = (part.blank, part.cuts)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Wood) and self._key == other._key

    def __hash__(self) -> int:
        return hash(self._key)


@lru_cache(maxsize=512)
def _part_view(wood: _Wood, frame: ViewFrame) -> View:
    return _view([solid_of(wood.part).wrapped], frame)


@lru_cache(maxsize=64)
def _placed_view(stands: tuple[tuple[_Wood, Placement], ...], frame: ViewFrame) -> View:
    return _view([placed_solid(wood.part, place).wrapped for wood, place in stands], frame)


def _view(solids: list[Any], frame: ViewFrame) -> View:
    edges = tidy(hidden_lines(solids, frame.right, frame.towards_eye, frame.origin))
    low, high = bounds_of(edge.shape for edge in edges)
    return View(frame=frame, edges=edges, low=low, high=high)


__all__ = [
    "StandardView",
    "face_frame",
    "project_part",
    "project_placed",
    "standard_frame",
]
