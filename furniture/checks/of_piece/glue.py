"""Glue where it cannot be trusted: plain butts at an end grain, which want dowels."""

from __future__ import annotations

import math

from furniture.checks.finding import Finding, Show, Verdict
from furniture.checks.of_piece.reading import patch_of, shown_by, worst_alone
from furniture.checks.rows.joints import END_GRAIN_BUTT
from furniture.joints.joint import GrainRelation, Joining
from furniture.joints.reading import is_face_to_face
from furniture.pieces import Piece, placed_named
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.checking import DOWELS_APART, USUAL_DOWEL
from furniture.rules.design import DOWEL_EDGE, DOWEL_LENGTH

DOWELS_MM = (6.0, 8.0, 10.0, 12.0)
"""Diameters of dowels as they are sold [mm]. Common practice, no source."""
END_GRAIN = (GrainRelation.LONG_TO_END, GrainRelation.END_TO_END)


def glue_findings_of(piece: Piece, rules: Rules = USUAL_RULES) -> tuple[Finding, ...]:
    """The plain butts at an end grain in one line: a caution where one carries a level part.

    A level face, such as that of a pad under a post, is pressed together by what stands on it; a
    butt with dowels, pins or screws beside it is silent.

    Args:
        piece: the piece as cut
        rules: the maker's
    """
    show = shown_by(piece)
    groups: dict[str, list[Joining]] = {}
    for joining in piece.joinings:
        at_end = any(face.glue in END_GRAIN for face in joining.glued_faces)
        is_level = any(abs(face.normal[2]) > 0.9 for face in joining.faces)
        is_plain = is_face_to_face(joining) and not _is_fastened(piece, joining)
        if not is_plain or not at_end or is_level:
            continue
        groups.setdefault(dowels_wanted(piece, joining, show, rules), []).append(joining)
    carriers = {surface.instance for surface in piece.surfaces}
    return worst_alone(_finding(advice, joinings, carriers) for advice, joinings in groups.items())


def _is_fastened(piece: Piece, joining: Joining) -> bool:
    """Whether fasteners of its own, or anything bought that stands in both its parts, hold it."""
    both = {joining.into, joining.incoming}
    return bool(joining.fasteners or any(both <= set(thing.where) for thing in piece.fixings))


def dowels_wanted(piece: Piece, joining: Joining, show: Show, rules: Rules) -> str:
    """How many dowels of which size a butt wants, and where.

    Args:
        piece: the piece as cut
        joining: the butt
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** common practice, no source: some two fifths of the thickness, five diameters long,
    two diameters from an edge, at least two of them.
    """
    into, incoming = placed_named(piece, joining.into), placed_named(piece, joining.incoming)
    sizes = [size for _, _, size in patch_of(into, incoming)]
    if not sizes:
        return "put dowels across it"
    thin, wide = min(sizes), max(sizes)
    fitting = [each for each in DOWELS_MM if each <= rules[USUAL_DOWEL] * thin]
    diameter = max(fitting, default=DOWELS_MM[0])
    room = wide - 2.0 * rules[DOWEL_EDGE] * diameter
    count = 2 + max(0, math.floor(room / rules[DOWELS_APART]) - 1)
    length, edge = rules[DOWEL_LENGTH] * diameter, rules[DOWEL_EDGE] * diameter
    return (
        f"put {count} dowels {show(diameter)} thick and {show(length)} long across it, the outer "
        f"ones {show(edge)} from the edges"
    )


def _finding(advice: str, joinings: list[Joining], carriers: set[str]) -> Finding:
    carries = any(each.incoming in carriers or each.into in carriers for each in joinings)
    area = min(joining.glue_area_mm2 for joining in joinings)
    names = ", ".join(f"{each.incoming} against {each.into}" for each in joinings)
    return Finding(
        check=END_GRAIN_BUTT,
        subject=names,
        value=area,
        stated=Verdict.CAUTION if carries else Verdict.NOTE,
        basis="end grain holds little glue, so this face is counted as nothing (own rule)",
        advice=advice,
    )
