"""Parts that nothing fixes: whether they come out of the finished piece, which way, or never."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from furniture.assembly.blocking import blocked_along
from furniture.assembly.directions import lines_of, opposite, rank_of, way_in_words
from furniture.assembly.locked import listed
from furniture.assembly.of_piece import bodies_of
from furniture.assembly.seen import Scene
from furniture.assembly.two_legs import TwoLegs, unhooked
from furniture.checks.finding import Finding, Verdict, without_figure
from furniture.checks.rows.proofs import LOOSE_PARTS
from furniture.parts.vectors import DOWN, UP, Vector, dot
from furniture.pieces import Piece
from furniture.units import figure_with_unit

_FALLS = 0.5
"""A way out that leads down by this share lets a part fall. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loose:
    """A part that neither glue nor a fastener holds, in the finished piece.

    `ways` are those out in one straight leg; `legs` the way out in two where there is none;
    `held_by` names the joined parts that stand in its way on some side.
    """

    instance: str
    ways: tuple[Vector, ...]
    legs: TwoLegs | None
    held_by: tuple[str, ...]


def loose_parts(piece: Piece) -> tuple[Loose, ...]:
    """The loose parts of a piece, with their ways out.

    A part is loose when it has joints and none of them has glue or a fastener; what merely lies in
    it fixes nothing.

    Raises:
        SolidError: a part's solid cannot be made.
    """
    names = _unfixed(piece)
    if not names:
        return ()
    bodies = bodies_of(piece)
    scene = Scene(bodies)
    lines = lines_of(piece.joinings)
    open_ways: dict[str, list[Vector]] = {name: [] for name in names}
    held_by: dict[str, set[str]] = {name: set() for name in names}
    for line in lines:
        table = blocked_along(scene, line)
        for row, body in enumerate(bodies):
            if body.name not in open_ways:
                continue
            for way, blockers in ((line, table[row]), (opposite(line), table[:, row])):
                if not blockers.any():
                    open_ways[body.name].append(way)
                held_by[body.name].update(
                    other.name for other, stands in zip(bodies, blockers, strict=True) if stands
                )
    return tuple(
        Loose(
            instance=name,
            ways=tuple(sorted(open_ways[name], key=lambda way: -dot(way, UP))),
            legs=None if open_ways[name] else _in_two_legs(scene, name, lines),
            held_by=_joined_first(piece, name, held_by[name]),
        )
        for name in names
    )


def loose_findings(piece: Piece) -> tuple[Finding, ...]:
    """What becomes of each loose part: it lifts out, it is captured, or it can fall.

    **Source:** own rule: straight moves of one leg or two; a way out that leads down is a caution.
    """
    return tuple(_finding(piece, each) for each in loose_parts(piece))


def _finding(piece: Piece, loose: Loose) -> Finding:
    verdict, advice = Verdict.OK, ""
    down = [way for way in loose.ways if dot(way, DOWN) > _FALLS]
    if down:
        verdict = Verdict.CAUTION
        basis = f"nothing holds it: it comes out {way_in_words(down[0])}"
        advice = (
            "pin or screw it at the middle of its ends, which lets it move with the seasons; or "
            "glue it in where it is sheet stock"
        )
    elif loose.ways:
        ways = " or ".join(dict.fromkeys(way_in_words(way) for way in loose.ways))
        basis = f"it is loose, and comes out {ways} when the piece is together"
    elif loose.legs is not None:
        first, then = loose.legs.first, loose.legs.then
        far = figure_with_unit(loose.legs.first_mm, piece.shown)
        basis = (
            f"it is loose, and comes out {way_in_words(first)} by {far} and then "
            f"{way_in_words(then)} when the piece is together"
        )
    else:
        basis = (
            f"it is captured: {listed(loose.held_by)} hold it on every side, so it goes in before "
            "they close and never comes out"
        )
    return without_figure(LOOSE_PARTS, verdict, basis, subject=loose.instance, advice=advice)


def _unfixed(piece: Piece) -> tuple[str, ...]:
    joined: set[str] = set()
    fixed = {anchor.instance for anchor in piece.anchors}
    for joining in piece.joinings:
        ends = {joining.into, joining.incoming}
        joined |= ends
        if joining.glue_area_mm2 > 0.0 or joining.fasteners:
            fixed |= ends
    return tuple(
        each.instance
        for each in piece.placed
        if each.instance in joined and each.instance not in fixed
    )


def _in_two_legs(scene: Scene, name: str, lines: Sequence[Vector]) -> TwoLegs | None:
    """The way out in two legs that begins best: up, then as a maker would rather pull."""
    row = next(index for index, body in enumerate(scene.bodies) if body.name == name)
    rest = [index for index in range(len(scene.bodies)) if index != row]
    firsts = [way for line in lines for way in (line, opposite(line))]
    for first in sorted(firsts, key=lambda way: -dot(way, UP)):
        found = unhooked(scene, [row], rest, first, lines)
        if found:
            return min(found, key=lambda legs: rank_of(opposite(legs.then)))
    return None


def _joined_first(piece: Piece, name: str, held_by: set[str]) -> tuple[str, ...]:
    """Those of the parts in its way that it has a joint with; all of them where it has none."""
    joined = [
        joining.into if joining.incoming == name else joining.incoming
        for joining in piece.joinings
        if name in (joining.into, joining.incoming)
    ]
    near = tuple(dict.fromkeys(each for each in joined if each in held_by))
    return near or tuple(sorted(held_by))
