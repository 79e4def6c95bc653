"""Glue where it cannot be trusted: plain butts at an end grain, which want dowels."""

from __future__ import annotations

import math

from furniture.checks.finding import Finding, Show, Verdict
from furniture.checks.of_piece.reading import patch_of, shown_by
from furniture.checks.rows.joints import END_GRAIN_BUTT
from furniture.joints.joint import GrainRelation, Joining
from furniture.pieces import Piece, placed_named

DOWELS_MM = (6.0, 8.0, 10.0, 12.0)
"""Diameters of dowels as they are sold [mm]. Common practice, no source."""
DOWEL_SHARE, DOWEL_LENGTH, DOWEL_EDGE, DOWEL_SPACING_MM = 0.4, 5.0, 2.0, 60.0
"""Share of the thickness, length and edge distance in diameters, and spacing. Common practice."""
END_GRAIN = (GrainRelation.LONG_TO_END, GrainRelation.END_TO_END)


def glue_findings_of(piece: Piece) -> tuple[Finding, ...]:
    """One caution for every plain butt at an end grain, equal ones told together.

    A level face, such as that of a pad under a post, is pressed together by what stands on it.

    Args:
        piece: the piece as cut
    """
    show = shown_by(piece)
    groups: dict[str, list[Joining]] = {}
    for joining in piece.joinings:
        at_end = any(face.grain in END_GRAIN for face in joining.glue)
        is_level = any(abs(contact.towards[2]) > 0.9 for contact in joining.contacts)
        if joining.kind == "butt" and at_end and not is_level and not joining.fasteners:
            groups.setdefault(dowels_wanted(piece, joining, show), []).append(joining)
    return tuple(_finding(advice, joinings) for advice, joinings in groups.items())


def dowels_wanted(piece: Piece, joining: Joining, show: Show) -> str:
    """How many dowels of which size a butt wants, and where.

    Args:
        piece: the piece as cut
        joining: the butt
        show: puts a length into the piece's unit

    **Source:** common practice, no source: some two fifths of the thickness, five diameters long,
    two diameters from an edge, at least two of them.
    """
    into, incoming = placed_named(piece, joining.into), placed_named(piece, joining.incoming)
    sizes = [size for _, _, size in patch_of(into, incoming)]
    if not sizes:
        return "put dowels across it"
    thin, wide = min(sizes), max(sizes)
    fitting = [each for each in DOWELS_MM if each <= DOWEL_SHARE * thin]
    diameter = max(fitting, default=DOWELS_MM[0])
    room = wide - 2.0 * DOWEL_EDGE * diameter
    count = 2 + max(0, math.floor(room / DOWEL_SPACING_MM) - 1)
    return (
        f"put {count} dowels {show(diameter)} thick and {show(DOWEL_LENGTH * diameter)} long "
        f"across it, the outer ones {show(DOWEL_EDGE * diameter)} from the edges"
    )


def _finding(advice: str, joinings: list[Joining]) -> Finding:
    area = min(joining.glue_area_mm2 for joining in joinings)
    names = ", ".join(f"{each.incoming} against {each.into}" for each in joinings)
    return Finding(
        check=END_GRAIN_BUTT,
        subject=names,
        value=area,
        stated=Verdict.CAUTION,
        basis="end grain holds little glue, so this face is counted as nothing (own rule)",
        advice=advice,
    )
