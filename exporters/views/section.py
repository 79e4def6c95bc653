"""Sections: what a plane cuts, and what is seen beyond it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Any

from exporters.views.bounds import bounds_of
from exporters.views.halves import halved
from exporters.views.kernel import hidden_lines
from exporters.views.tidy import tidy
from exporters.views.values import CutArea, SectionView, View, ViewFrame
from exporters.views.wood import Stand, Wood, stands_of
from furniture.parts.part import Part, Placed
from furniture.parts.vectors import Vector
from furniture.solids.make import placed_solid, solid_of


def section_part(part: Part, frame: ViewFrame, through: Vector) -> SectionView:
    """The part cut by the plane square to the eye through a point, in the part frame.

    What lies between the plane and the eye is taken away. A plane that lies in a face of the wood
    (in the shoulder of a dado, say) may show either side of it: choose a point inside the cut.

    Args:
        part: the part.
        frame: how the section is looked at; the plane stands square to its line of sight.
        through: a point of the plane, part frame [mm].

    Raises:
        SolidError: the part cannot be made.
        ValueError: no wood lies beyond the plane.
    """
    return _part_section(Wood(part), frame, through)


def section_placed(placed: Sequence[Placed], frame: ViewFrame, through: Vector) -> SectionView:
    """The placed parts cut by one plane; each cut area names its instance, so hatching can differ.

    Args:
        placed: at least one; no two may run into each other.
        frame: how the section is looked at; the plane stands square to its line of sight.
        through: a point of the plane, piece frame [mm].

    Raises:
        SolidError: a part cannot be made.
        ValueError: no wood lies beyond the plane.
    """
    names = tuple(each.instance for each in placed)
    return _placed_section(stands_of(placed), names, frame, through)


@lru_cache(maxsize=256)
def _part_section(wood: Wood, frame: ViewFrame, through: Vector) -> SectionView:
    return _section([("", solid_of(wood.part).wrapped)], frame, through)


@lru_cache(maxsize=32)
def _placed_section(
    stands: tuple[Stand, ...], names: tuple[str, ...], frame: ViewFrame, through: Vector
) -> SectionView:
    solids = [placed_solid(wood.part, placement).wrapped for wood, placement in stands]
    return _section(list(zip(names, solids, strict=True)), frame, through)


def _section(named: list[tuple[str, Any]], frame: ViewFrame, through: Vector) -> SectionView:
    beyond: list[Any] = []
    cut: list[CutArea] = []
    for name, solid in named:
        rest, areas = halved(solid, frame, through)
        if rest is not None:
            beyond.append(rest)
        cut += (replace(area, of=name) for area in areas)
    if not beyond:
        raise ValueError(f"no wood lies beyond the plane through {through}")
    edges = tidy(hidden_lines(beyond, frame.right, frame.towards_eye, frame.origin))
    low, high = bounds_of(edge.shape for edge in edges)
    return SectionView(
        view=View(frame=frame, edges=edges, low=low, high=high),
        cut=tuple(cut),
    )
