"""Proof of the cuts: each takes wood away, and no more than the part has."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.part import Part
from furniture.parts.tools import Tool
from furniture.pieces.piece import Piece, distinct_parts
from furniture.solids.proof_wood import blank_box, box_of_tools, left_of_block, shared_box

LEAST_CUT_MM3 = 0.01
"""A cut that takes less than this takes nothing [mm3]. Own rule: below it is rounding."""
_SHARE = 1e-6


class CutFault(Enum):
    """What is wrong with the wood that a cut takes."""

    TAKES_NOTHING = "takes nothing away: the wood is already gone"
    MORE_THAN_THERE_IS = "would take more wood than the blank has there"
    TAKES_TOO_MUCH = "takes more wood than its figures say"


@dataclass(frozen=True, slots=True, kw_only=True)
class WastedCut:
    """A cut whose wood does not answer to its figures.

    Args:
        part: the part's name.
        cut: its kind.
        number: its place in the part's order of cuts, from 1.
        fault: what is wrong.
        stated_mm3: by the closed form, from the bare blank.
        found_mm3: what the kernel takes: from the bare blank, or from the part at that stage when
            nothing is left to take.
    """

    part: str
    cut: str
    number: int
    fault: CutFault
    stated_mm3: float
    found_mm3: float

    @property
    def in_words(self) -> str:
        """The finding in one sentence."""
        figures = f"{self.found_mm3:.2f} mm3 where its figures give {self.stated_mm3:.2f} mm3"
        return f"{self.part}: {self.cut} (cut {self.number}) {self.fault.value}; {figures}"


def wasted_cuts(piece: Piece) -> tuple[WastedCut, ...]:
    """Every cut that takes nothing, or not what its closed form says; equal parts once."""
    return tuple(
        wasted for distinct in distinct_parts(piece) for wasted in wasted_in(distinct.part)
    )


def wasted_in(part: Part) -> tuple[WastedCut, ...]:
    """The part's own such cuts, in order."""
    found = []
    earlier: list[Tool] = []
    for index, cut in enumerate(part.cuts):
        tools = cut.tools(part.blank)
        fault = _fault(part.blank, cut, tools, earlier)
        if fault is not None:
            kind, volume = fault
            found.append(
                WastedCut(
                    part=part.name,
                    cut=cut.kind,
                    number=index + 1,
                    fault=kind,
                    stated_mm3=cut.removed_alone_mm3(part.blank),
                    found_mm3=volume,
                )
            )
        earlier.extend(tools)
    return tuple(found)


def _fault(
    blank: Blank, cut: Cut, tools: tuple[Tool, ...], earlier: list[Tool]
) -> tuple[CutFault, float] | None:
    block = shared_box(blank_box(blank), box_of_tools(tools))
    if block is None:
        return (CutFault.TAKES_NOTHING, 0.0)
    alone = left_of_block(block, ()) - left_of_block(block, tools)
    stated = cut.removed_alone_mm3(blank)
    slack = max(LEAST_CUT_MM3, _SHARE * stated)
    if alone < LEAST_CUT_MM3:
        return (CutFault.TAKES_NOTHING, alone)
    if stated > alone + slack:
        return (CutFault.MORE_THAN_THERE_IS, alone)
    if alone > stated + slack:
        return (CutFault.TAKES_TOO_MUCH, alone)
    now = left_of_block(block, earlier) - left_of_block(block, (*earlier, *tools))
    return (CutFault.TAKES_NOTHING, now) if now < LEAST_CUT_MM3 else None
