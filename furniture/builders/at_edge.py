"""What is made or fixed at an edge of a tier: the edge as it is seen, and a place along it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

import shapely

from furniture.builders.common import Names
from furniture.builders.opening_room import Near
from furniture.builders.rules import DesignReader
from furniture.parts.blank import Blank
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.rules.building import LEAST_OPENING_WOOD
from furniture.units import Given, said
from furniture.units.words import listed

Span = tuple[float, float]


class TierEdge(Enum):
    """An edge of a tier, as it is seen."""

    FRONT = "front"
    BACK = "back"
    LEFT = "left"
    RIGHT = "right"

    @property
    def corner(self) -> str:
        """What a place along it is measured from, in words."""
        return "the left" if self in (TierEdge.FRONT, TierEdge.BACK) else "the front"

    @property
    def face(self) -> Face:
        """That edge of a part that lies face side up, its face edge in front."""
        return {
            "front": Face.FACE_EDGE, "back": Face.BACK_EDGE,
            "left": Face.NAMED_END, "right": Face.FAR_END,
        }[self.value]  # fmt: skip


def read_tiers(
    reader: DesignReader, where: str, on: str, names: Names, tiers: Sequence[str], why: str
) -> tuple[str, ...]:
    """The tiers that are meant; none, noted, where no tier is.

    Args:
        reader: keeps the problems.
        where: it stands in the script.
        on: as it is written.
        names: of the piece.
        tiers: the instances that can be meant.
        why: only those.
    """
    meant = tuple(name for name in names.meant_by(on) if name in tiers)
    if not meant:
        reader.refuse(f"{where} on", said(on), ", ".join(("tiers", *tiers)), why, "write 'tiers'")
    return meant


def read_from_corner(reader: DesignReader, where: str, given: Given | None) -> None:
    """Note a place along an edge that is no distance; where it has room is found with the wood.

    Args:
        reader: keeps the problems.
        where: it stands in the script.
        given: as it is written.
    """
    if given is not None:
        reader.length(f"{where} from_corner", given, at_least=0.0, why="it is a distance")


@dataclass(frozen=True, slots=True, kw_only=True)
class AtEdge:
    """What wants a place along an edge [mm]: its size along it, and how far in it reaches.

    `edge` is named as if the grain ran from left to right, `given` is its place as it was written,
    `deepest` how far it may reach in.
    """

    parameter: str
    edge: Face
    given: Given | None
    along: float
    deep: float
    deepest: float
    why: str
    instead: str


def read_edge(
    reader: DesignReader, where: str, given: object, free: Sequence[TierEdge]
) -> TierEdge:
    """The edge that is meant; one that is closed is noted.

    Args:
        reader: keeps the problems.
        where: what messages call the thing there.
        given: what was written.
        free: the edges that what carries the tiers leaves open.
    """
    edge = reader.choice(f"{where} edge", given, TierEdge, TierEdge.BACK)
    if edge not in free:
        reader.refuse(
            f"{where} edge", said(edge), listed([said(each) for each in free]),
            "the uprights close the ends of a tier", f"write {said(free[-1])}",
        )  # fmt: skip
    return edge


def place_at_edge(
    reader: DesignReader, wanted: AtEdge, part: Placed, edge: Face, near: Sequence[Near]
) -> float:
    """Its middle along the part's own edge [mm]; not-a-number where it has no room there.

    Args:
        reader: keeps the problems.
        wanted: what is made there.
        part: the tier.
        edge: the tier's own face there.
        near: what it keeps clear of.
    """
    blank = part.part.blank
    run = blank.size[1 - edge.axis]
    wood = reader.rules[LEAST_OPENING_WOOD]
    free = _free(wanted, edge, blank, near, wood) if wanted.deep <= wanted.deepest else []
    if not free:
        reader.refuse(
            f"{wanted.parameter} edge", said(wanted.edge.value),
            f"an edge of {part.instance} with room for {reader.least(wanted.along)}", wanted.why,
            f"take another edge, or {wanted.instead}",
        )  # fmt: skip
        return math.nan
    if wanted.given is None:
        low, high = max(free, key=lambda span: (round(span[1] - span[0], 6), span[0]))
        step = reader.shown.step_mm
        told = round((low + high) / 2 / step) * step
        return told if low <= told <= high else round((low + high) / 2, 3)
    # Struck from the front, and the grain of a turned tier begins behind.
    is_from_far = edge.axis != wanted.edge.axis and wanted.edge.axis == 0
    if is_from_far:
        free = [(run - high, run - low) for low, high in free]
    place = reader.peek(wanted.given)
    low, high = min(free, key=lambda span: max(span[0] - place, place - span[1], 0.0))
    told = reader.length(
        f"{wanted.parameter} from_corner", wanted.given, at_least=low, at_most=high,
        why=f"on {part.instance} {wanted.why}",
    )  # fmt: skip
    return run - told if is_from_far else told


def _free(
    wanted: AtEdge, edge: Face, blank: Blank, near: Sequence[Near], wood: float
) -> list[Span]:
    """Where along its edge its middle may lie, from the named end or face edge [mm]."""
    reach = wood + wanted.along / 2
    low, high = [0.0, 0.0], [blank.length_mm, blank.width_mm]
    axis = edge.axis
    run = high[1 - axis]
    if edge.is_far:
        low[axis] = high[axis] - wanted.deep - wood
    else:
        high[axis] = wanted.deep + wood
    band = shapely.box(*low, *high)
    taken = []
    for each in near:
        met = shapely.intersection(shapely.buffer(each.shape, each.reach + 1e-6), band)
        if not met.is_empty:
            bounds = met.bounds
            taken.append((bounds[1 - axis] - reach, bounds[3 - axis] + reach))
    found, start = [], reach
    for begin, end in (*sorted(taken), (run - reach, run)):
        if begin - start > 1e-6:
            found.append((start, min(begin, run - reach)))
        start = max(start, end)
    return found
