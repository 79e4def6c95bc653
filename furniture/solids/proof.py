"""Proof of fit: no two parts of a piece overlap; and the door to the other proofs.

Four questions, each answered with frozen findings that say themselves `in_words`: do two parts
overlap, does a stated contact not hold, does a cut take nothing or too much, and do two joints
fight over the same wood.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

from furniture.parts.part import Placed
from furniture.parts.placement import Placement, box_of
from furniture.parts.tools import Prism, Tool, box_tool
from furniture.pieces.piece import Piece
from furniture.solids.proof_clashes import Clash, CutInPart, clashing_joints
from furniture.solids.proof_contacts import ContactFault, UntrueContact, untrue_contacts
from furniture.solids.proof_cuts import CutFault, WastedCut, wasted_cuts
from furniture.solids.proof_wood import (
    blank_box,
    box_of_tool,
    left_of_block,
    shared_box,
    tool_in,
)

LEAST_OVERLAP_MM3 = 0.01
"""A common volume below this is the kernel's rounding [mm3]. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Interference:
    """Two instances that fill the same space, and how much of it [mm3]."""

    first: str
    second: str
    volume_mm3: float

    @property
    def in_words(self) -> str:
        """The finding in one sentence."""
        return f"{self.first} and {self.second} overlap by {self.volume_mm3:.2f} mm3"


def interferences(piece: Piece) -> tuple[Interference, ...]:
    """Every pair of instances with a common volume of 0.01 mm3 or more.

    Boxes round the blanks choose the pairs; equal pairs in equal relation are worked out once.
    """
    boxes = [box_of(each.part.blank, each.placement) for each in piece.placed]
    found = []
    for (first, a), (second, b) in combinations(zip(piece.placed, boxes, strict=True), 2):
        if shared_box(a, b) is None:
            continue
        volume = common_volume(first, second)
        if volume >= LEAST_OVERLAP_MM3:
            found.append(
                Interference(first=first.instance, second=second.instance, volume_mm3=volume)
            )
    return tuple(found)


def common_volume(first: Placed, second: Placed) -> float:
    """The volume that two placed parts share [mm3]."""
    there = _seen_from(first.placement, second.placement)
    other = tool_in(box_tool((0.0, 0.0, 0.0), second.part.blank.size), there)
    assert isinstance(other, Prism)
    block = shared_box(blank_box(first.part.blank), box_of_tool(other))
    if block is None:
        return 0.0
    is_square = all(max(abs(value) for value in axis) > 1 - 1e-12 for axis in there.axes)
    tools: list[Tool] = [tool for cut in first.part.cuts for tool in cut.tools(first.part.blank)]
    tools += [
        tool_in(tool, there) for cut in second.part.cuts for tool in cut.tools(second.part.blank)
    ]
    return left_of_block(block, tools, None if is_square else other)


def _seen_from(frame: Placement, other: Placement) -> Placement:
    """Where another part's frame lies, in the part frame of the first."""
    return Placement(
        origin=frame.to_part(other.origin),
        x_axis=frame.direction_to_part(other.x_axis),
        y_axis=frame.direction_to_part(other.y_axis),
    )


__all__ = [
    "LEAST_OVERLAP_MM3",
    "Clash",
    "ContactFault",
    "CutFault",
    "CutInPart",
    "Interference",
    "UntrueContact",
    "WastedCut",
    "clashing_joints",
    "common_volume",
    "interferences",
    "untrue_contacts",
    "wasted_cuts",
]
