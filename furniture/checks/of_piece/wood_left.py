"""What the cuts leave: wood behind, beside and between them, at ends, and round bores."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from furniture.checks.finding import Finding, Show, Verdict
from furniture.checks.left import (
    Wood,
    bore_findings,
    short_grain_finding,
    weak_under_mm,
    wood_left_finding,
)
from furniture.checks.of_piece.reading import badness, shown_by, worst_alone
from furniture.checks.rows.wood_left import BORE_END
from furniture.parts.blank import Blank
from furniture.parts.cuts import (
    Bite,
    Channel,
    Cut,
    Eased,
    Hole,
    InSlope,
    Leftover,
    Shape,
    Slope,
    Stub,
    TongueEnd,
    shapes_of,
)
from furniture.parts.faces import ENDS
from furniture.parts.part import Part, trenches_across
from furniture.parts.vectors import Vector, dot, scaled, subtract
from furniture.parts.wood import WoodLeft, wood_left
from furniture.pieces import Piece, distinct_parts, placed_named
from furniture.pieces.cut_faults import cut_in_words
from furniture.pieces.piece import Distinct
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.checking import LEAST_CUT

_ONLY_SHARP = (Leftover.SHORT_POINT, Leftover.OF_FACE)
"""What is thin there is an edge of the part's outline; the part does not hang together by it."""


OPEN_MM = 1e-6
"""A trench nearer to an end than this opens into it [mm]."""


def wood_left_findings_of(piece: Piece, rules: Rules = USUAL_RULES) -> tuple[Finding, ...]:
    """The wood left after every cut of every distinct part, told where it is least.

    Args:
        piece: the piece as cut
        rules: the maker's
    """
    show = shown_by(piece)
    return worst_alone(
        finding for each in distinct_parts(piece) for finding in _of_part(piece, each, show, rules)
    )


def _of_part(piece: Piece, distinct: Distinct, show: Show, rules: Rules) -> Iterator[Finding]:
    part = distinct.part
    woods = list(_woods(part, rules))
    if woods:
        yield _weakest(woods, show, rules)
    trenches = trenches_across(part)
    if trenches:
        yield from _short_grain(part, trenches, show, rules)
    bores = [hole for hole in shapes_of(part.cuts, part.blank, Hole) if hole.is_round]
    for number, bore in enumerate(bores, start=1):
        told = "hole" if len(bores) == 1 else f"hole {number}"
        least = max(_least_mm(piece, each, bore) for each in distinct.instances)
        yield from _of_bore(part, bore, least, told, show, rules)


def _weakest(woods: Sequence[Wood], show: Show, rules: Rules) -> Finding:
    """The weakest place of a part, the others that are weak named with it."""
    found = [wood_left_finding(wood, show, rules) for wood in woods]
    worst = min(range(len(woods)), key=lambda at: badness(found[at]))
    places = [
        wood.place
        for wood, finding in zip(woods, found, strict=True)
        if finding.verdict not in (Verdict.OK, Verdict.NOTE) and wood.place != woods[worst].place
    ]
    return wood_left_finding(woods[worst], show, rules, tuple(dict.fromkeys(places)))


def _woods(part: Part, rules: Rules) -> Iterator[Wood]:
    """Every place of a part where a cut leaves wood, in words and figures."""
    blank, cuts = part.blank, part.cuts
    left = wood_left(blank, cuts)
    for each in _each_once(left):
        is_behind = each.left.what is Leftover.BEHIND
        yield Wood(
            part=part.name,
            place=_place(each, cuts),
            wood_mm=each.wood_mm,
            thickness_mm=blank.thickness_mm,
            is_section=each.left.what not in _ONLY_SHARP,
            shallower_mm=_shallower_mm(cuts[each.cut].shape(blank), blank, rules)
            if is_behind
            else 0.0,
            away_mm=0.0 if is_behind else _away_mm(each, left, blank, rules),
        )


def _each_once(left: Iterable[WoodLeft]) -> Iterator[WoodLeft]:
    """Wood between two cuts is one place, seen from either: it is taken where it is less."""
    between: dict[tuple[Leftover, frozenset[int]], WoodLeft] = {}
    for each in left:
        if each.other is None:
            yield each
            continue
        pair = (each.left.what, frozenset((each.cut, each.other)))
        if pair not in between or each.wood_mm < between[pair].wood_mm:
            between[pair] = each
    yield from between.values()


def _place(each: WoodLeft, cuts: Sequence[Cut]) -> str:
    own = cut_in_words(cuts, each.cut)
    if each.other is not None:
        return f"between {own} and {cut_in_words(cuts, each.other)}"
    article = "" if own[-1].isdigit() else "the "
    return f"{each.left.what.value} {article}{own}"


def _shallower_mm(shape: Shape, blank: Blank, rules: Rules) -> float:
    """By how much a cut may be shallower and still seat what is in it [mm]."""
    match shape:
        case Channel():
            deep, wood = shape.depth_mm(blank), blank.across(shape.face)
        case Bite():
            deep, wood = shape.depth_mm, blank.thickness_mm
        case Hole():
            deep, wood = shape.depth_mm or 0.0, blank.thickness_mm
        case Slope() | InSlope() | Eased() | TongueEnd() | Stub():
            return 0.0
    return max(0.0, deep - rules[LEAST_CUT] * wood)


def _away_mm(each: WoodLeft, left: Iterable[WoodLeft], blank: Blank, rules: Rules) -> float:
    """How far the cut may be moved and still leave enough wood on its other side [mm]."""
    opposite = each.left.towards.opposite
    beyond = [
        other.wood_mm for other in left if other.cut == each.cut and other.left.towards is opposite
    ]
    return max(0.0, min(beyond, default=0.0) - weak_under_mm(blank.thickness_mm, rules))


def _short_grain(
    part: Part, trenches: Iterable[Channel], show: Show, rules: Rules
) -> Iterator[Finding]:
    """The trench that leaves least wood to an end; one that opens into it leaves none to break."""
    length = part.blank.length_mm
    places = [
        (wood, trench.depth_mm(part.blank))
        for trench in trenches
        for wood in (trench.wide[0], length - trench.wide[1])
        if wood > OPEN_MM
    ]
    if not places:
        return
    wood, depth = min(places)
    yield short_grain_finding(part.name, "dado nearest an end", wood, depth, show, rules)


def _least_mm(piece: Piece, instance: str, bore: Hole) -> float:
    """How thin a hole of an instance may be: nothing where nothing passes it or sits in it [mm]."""
    placed = placed_named(piece, instance)
    line = placed.placement.to_piece(bore.centre)
    return max(
        (
            each.least_mm
            for each in piece.intent.openings
            if each.instance == instance
            and each.least_mm is not None
            and math.dist(_beside(line, each.axis), _beside(each.centre, each.axis)) < OPEN_MM
        ),
        default=0.0,
    )


def _beside(point: Vector, axis: Vector) -> Vector:
    """A point less what of it lies along an axis."""
    return subtract(point, scaled(axis, dot(point, axis)))


def _of_bore(
    part: Part, bore: Hole, least_mm: float, told: str, show: Show, rules: Rules
) -> Iterable[Finding]:
    """Distances within the face that it enters, and the wood that it stands in across its axis."""
    blank, centre = part.blank, bore.centre
    beside = [
        min(centre[axis], blank.size[axis] - centre[axis])
        for axis in (1, 2)
        if axis != bore.face.axis
    ]
    stands_in = min(blank.size[axis] for axis in range(3) if axis != bore.face.axis)
    to_end = min(centre[0], blank.length_mm - centre[0])
    findings = bore_findings(
        part.name, told, 2.0 * bore.radius_mm, min(beside), to_end, stands_in, show, rules,
        least_mm,
    )  # fmt: skip
    return (each for each in findings if bore.face not in ENDS or each.check != BORE_END)
