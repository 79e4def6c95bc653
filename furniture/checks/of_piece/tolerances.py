"""Sums of small errors: over the dados of a post, and round a mitred box."""

from __future__ import annotations

from collections.abc import Iterable

from furniture.checks.finding import Finding
from furniture.checks.of_piece.reading import shown_by, worst_alone
from furniture.checks.tolerances import (
    Chain,
    chained_run,
    dado_run_finding,
    datum_run,
    mitre_errors,
    mitre_finding_of_errors,
    usual_mitre_errors,
)
from furniture.joints.reading import is_tilted_mitre
from furniture.parts.cuts import Slope, shapes_of
from furniture.parts.faces import ENDS, WIDE_FACES
from furniture.parts.part import trenches_across
from furniture.pieces import Piece, distinct_parts, placed_named
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.bench import SHELF_HEIGHT

CORNERS_OF_A_BOX = 4


def tolerance_findings_of(piece: Piece, rules: Rules = USUAL_RULES) -> tuple[Finding, ...]:
    """What small errors come to, and which dimension to leave long and trim last.

    Args:
        piece: the piece as cut
        rules: the maker's
    """
    show = shown_by(piece)
    found = [
        dado_run_finding(count, rules[SHELF_HEIGHT], show, rules)
        for _, count in _runs(piece)
        if count > 1
    ]
    return (*worst_alone(found), *_box(piece, rules))


def chains_of(piece: Piece) -> tuple[Chain, ...]:
    """The chains of errors of the piece: the longest run of dados, and a mitred box.

    Args:
        piece: the piece as cut
    """
    found, rules = [], piece.rules
    longest = max((count for _, count in _runs(piece)), default=0)
    if longest > 1:
        told = f"height of the top shelf, {longest} dados"
        found.append(Chain(told=f"{told}, all from one end", errors=datum_run(rules)))
        found.append(
            Chain(told=f"{told}, each from the one below", errors=chained_run(longest, rules))
        )
    thickness = _mitred_mm(piece)
    if thickness is not None:
        told = "gap of the last corner of the mitred box"
        found.append(Chain(told=told, errors=mitre_errors(thickness, *usual_mitre_errors(rules))))
    return tuple(found)


def _runs(piece: Piece) -> list[tuple[str, int]]:
    return [(each.part.name, len(trenches_across(each.part))) for each in distinct_parts(piece)]


def _mitred_mm(piece: Piece) -> float | None:
    """The thickest rail of a box of mitred corners [mm]; None without one."""
    corners = sum(
        is_tilted_mitre(each, placed_named(piece, each.incoming)) for each in piece.joinings
    )
    mitred = [
        each.part.blank.thickness_mm
        for each in distinct_parts(piece)
        if any(
            slope.face in ENDS and slope.long_point in WIDE_FACES
            for slope in shapes_of(each.part.cuts, each.part.blank, Slope)
        )
    ]
    return max(mitred) if corners >= CORNERS_OF_A_BOX and mitred else None


def _box(piece: Piece, rules: Rules) -> Iterable[Finding]:
    thickness = _mitred_mm(piece)
    if thickness is not None:
        yield mitre_finding_of_errors(thickness, shown_by(piece), rules=rules)
