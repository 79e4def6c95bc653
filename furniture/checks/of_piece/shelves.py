"""Shelves as beams: sag in time and stress, loads at their worst place, and a hand on the edge."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from furniture.checks.check import Check
from furniture.checks.finding import Finding, Show, Verdict
from furniture.checks.loaded_spans import (
    span_before_post,
    span_between_uprights,
    span_past_post,
    with_hand,
)
from furniture.checks.of_piece.borne import Borne, in_words
from furniture.checks.of_piece.reading import (
    badness,
    box_round,
    shown_by,
    worst_alone,
)
from furniture.checks.of_piece.sections import reach_along, stretches_of
from furniture.checks.over_edge import over_edge_finding
from furniture.checks.shelf import (
    Bearer,
    Shelf,
    long_term_sag_mm,
    person_sag_finding,
    sag_length_mm,
    shelf_findings,
    stress_findings,
)
from furniture.checks.side_by_side import side_by_side_finding
from furniture.checks.spans import Span, Stretch, beyond_bracket, greatest_bending
from furniture.checks.strength import Grain, working_bending_mpa
from furniture.parts.vectors import UP, Vector, cross, dot, scaled
from furniture.pieces import Piece
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.wood import STRICT_SAG
from furniture.timber.species import Kind

SHORTEST_SPAN_MM = 5.0
"""A shelf that reaches less than this past its post is not bent [mm]. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """One way in which a shelf is bent: a span, told in words, and its direction.

    A bound counts on less wood than there is, so that it warns and cannot condemn. `brackets` names
    those under it, and the span begins `bracket_mm` from what holds it, at their end.
    """

    told: str
    span: Span
    direction: Vector
    is_bound: bool = False
    brackets: str = ""
    bracket_mm: float = 0.0


def shelf_findings_of(
    piece: Piece, borne: Iterable[Borne], rules: Rules = USUAL_RULES
) -> tuple[Finding, ...]:
    """The sag and the stress of the shelf that is worst, under what stays, a hand, or a person.

    Args:
        piece: the piece as cut
        borne: its level surfaces and what bears them
        rules: the maker's
    """
    show = shown_by(piece)
    all_borne = tuple(borne)
    found: list[Finding] = []
    for each in all_borne:
        found += _steady(each, rules, show)
        found += _leant_on(each, rules, show)
        found += _stood_on(each, rules, show)
    crowded = [
        told
        for each in all_borne
        if each.loads and (told := side_by_side_finding(each.loads[0].on, each.loads, show))
    ]
    over = [
        told for each in all_borne for load in each.loads if (told := over_edge_finding(load, show))
    ]
    return worst_alone((*found, *crowded, *over))


def _steady(borne: Borne, rules: Rules, show: Show) -> list[Finding]:
    """Under what stays on it."""
    ways = reaches_of(borne)
    shelves = [_shelf(borne, way, ways) for way in ways]
    return _worst_of_each_check(
        tuple(_bounded(found, way) for found in shelf_findings(shelf, show, rules))
        for shelf, way in zip(shelves, ways, strict=True)
    )


def _leant_on(borne: Borne, rules: Rules, show: Show) -> list[Finding]:
    """With a hand besides, as far as it does not tip the piece."""
    ways = reaches_of(borne)
    shelves = [
        replace(
            _shelf(borne, way, ways),
            name=f"{way.told} under a hand",
            span=with_hand(way.span, borne.hand_n),
            bears=Bearer.HAND,
        )
        for way in ways
    ]
    return _worst_of_each_check(stress_findings(shelf, show, rules) for shelf in shelves)


def _stood_on(borne: Borne, rules: Rules, show: Show) -> list[Finding]:
    """Under a person, where one is stated, instead of what stays on it."""
    if not borne.persons:
        return []
    under = replace(borne, loads=borne.persons)
    ways = reaches_of(under)
    shelves = [
        replace(_shelf(under, way, ways), name=f"{way.told} under a person", bears=Bearer.PERSON)
        for way in ways
    ]
    return _worst_of_each_check(
        (person_sag_finding(shelf, show, rules), *stress_findings(shelf, show, rules))
        for shelf in shelves
    )


def reaches_of(borne: Borne) -> tuple[Reach, ...]:
    """The ways in which it is bent: before and past its post, between uprights, or over its box.

    Args:
        borne: the level surface and what bears it
    """
    if borne.two_sides is not None:
        return (_between(borne),)
    if borne.one_side:
        return _from_post(borne)
    if len(borne.rails) >= 3:
        return (_over_rails(borne),)
    return ()


def _from_post(borne: Borne) -> tuple[Reach, ...]:
    held = borne.one_side
    holder, out = held[0].into.instance, held[0].out
    reach = borne.bracket_reach_mm
    sideways = cross(out, UP)
    projection = borne.projection_mm(held[0])
    run = sum(each.run_mm for each in held)
    whole = borne.size_along(sideways)
    depth = borne.size_along(out)
    turned = _turned_loads(borne, out)
    middle = _middle_of_hold(borne, sideways)
    ends = reach_along(borne.box, sideways)
    strip = (middle - run / 2, middle + run / 2)
    before = span_before_post(
        projection,
        run,
        borne.thickness_mm,
        borne.weight_n * projection / depth,
        turned.loads,
        _cuts(borne, out, held[0].face_mm, projection, strip),
        (depth, whole),
    )
    arms = [each.instance for each in borne.brackets] if reach > 0.0 else []
    before_what = " and ".join(arms) or holder
    found = [
        Reach(
            told=f"{borne.name} in front of {before_what}",
            direction=out,
            is_bound=whole - run > SHORTEST_SPAN_MM,
            span=beyond_bracket(before, reach) if reach > 0.0 else before,
            brackets=in_words([each.instance for each in borne.brackets]),
            bracket_mm=reach,
        )
    ]
    if projection - reach < SHORTEST_SPAN_MM:
        found = []
    found += _over_brackets(borne, turned, sideways)
    overhang = max(ends[1] - middle, middle - ends[0]) - run / 2.0
    is_low = middle - ends[0] > ends[1] - middle
    away = scaled(sideways, -1.0) if is_low else sideways
    start = (run / 2.0 - middle) if is_low else (middle + run / 2.0)
    if overhang > SHORTEST_SPAN_MM:
        found.append(
            Reach(
                told=f"{borne.name} beside {holder}",
                direction=sideways,
                span=span_past_post(
                    overhang, depth, borne.thickness_mm, borne.weight_n * overhang / whole,
                    turned.loads, _cuts(borne, away, start, overhang), (whole, depth),
                ),
            )
        )  # fmt: skip
    return tuple(found)


def _over_brackets(borne: Borne, turned: Borne, sideways: Vector) -> list[Reach]:
    """The shelf between its brackets and past the outer ones, as if on nothing else."""
    if borne.bracket_reach_mm <= 0.0:
        return []
    depth, whole = borne.size_along(turned.one_side[0].out), borne.size_along(sideways)
    spans = sorted(
        (reach_along(box_round(each), sideways), each.instance) for each in borne.brackets
    )
    low, high = reach_along(borne.box, sideways)
    found = []
    for ((_, start), one), ((end, _), other) in pairwise(spans):
        if end - start > SHORTEST_SPAN_MM:
            found.append(
                Reach(
                    told=f"{borne.name} between {one} and {other}",
                    direction=sideways,
                    is_bound=True,
                    span=span_between_uprights(
                        end - start, depth, borne.thickness_mm,
                        borne.weight_n * (end - start) / whole, turned.loads,
                        _cuts(borne, sideways, start, end - start),
                    ),
                )
            )  # fmt: skip
    ends = (
        (spans[0][0][0] - low, scaled(sideways, -1.0), -spans[0][0][0], spans[0][1]),
        (high - spans[-1][0][1], sideways, spans[-1][0][1], spans[-1][1]),
    )
    overhang, way, start, name = max(ends, key=lambda each: each[0])
    if overhang > SHORTEST_SPAN_MM:
        found.append(
            Reach(
                told=f"{borne.name} past {name}",
                direction=sideways,
                is_bound=True,
                span=span_past_post(
                    overhang, depth, borne.thickness_mm, borne.weight_n * overhang / whole,
                    turned.loads, _cuts(borne, way, start, overhang), (whole, depth),
                ),
            )
        )  # fmt: skip
    return found


def _middle_of_hold(borne: Borne, sideways: Vector) -> float:
    """The middle of what holds it, across the way that it projects [mm]."""
    reaches = [reach_along(box_round(held.into), sideways) for held in borne.one_side]
    return (min(low for low, _ in reaches) + max(high for _, high in reaches)) / 2.0


def _cuts(
    borne: Borne, way: Vector, start_mm: float, length_mm: float,
    strip: tuple[float, float] | None = None,
) -> tuple[Stretch, ...]:  # fmt: skip
    """The wood left of it along a way, in the strip that is counted on or in its whole width."""
    whole = reach_along(borne.box, cross(way, UP))
    return stretches_of(borne.shelf, way, start_mm, length_mm, strip or whole, borne.thickness_mm)


def _between(borne: Borne) -> Reach:
    pair = borne.two_sides
    assert pair is not None, "it is held at both ends"
    first, second = pair
    clear = abs(first.face_mm + second.face_mm)
    direction = first.out
    across = cross(direction, (0.0, 0.0, 1.0))
    length = borne.size_along(direction)
    turned = _turned_loads(borne, across)
    return Reach(
        told=f"{borne.name} between its uprights",
        direction=direction,
        span=span_between_uprights(
            clear,
            borne.size_along(across),
            borne.thickness_mm,
            borne.weight_n * clear / length,
            turned.loads,
            _cuts(borne, direction, first.face_mm, clear),
        ),
    )


def _over_rails(borne: Borne) -> Reach:
    """A lid as a beam along its grain, its edges not counted on: a cautious bound."""
    grain = borne.shelf.placement.x_axis
    across = cross(grain, (0.0, 0.0, 1.0))
    turned = _turned_loads(borne, across)
    length = borne.size_along(grain)
    return Reach(
        told=f"{borne.name} over its box",
        direction=grain,
        is_bound=True,
        span=span_between_uprights(
            length,
            borne.size_along(across),
            borne.thickness_mm,
            borne.weight_n,
            turned.loads,
            _cuts(borne, grain, reach_along(borne.box, grain)[0], length),
        ),
    )


def _turned_loads(borne: Borne, depth_way: Vector) -> Borne:
    """The same with every footprint as width by depth, depth being along that direction."""
    if abs(depth_way[1]) > 0.5:
        return borne
    turned = tuple(
        replace(load, footprint_mm=(load.footprint_mm[1], load.footprint_mm[0]))
        for load in borne.loads
    )
    return replace(borne, loads=turned)


def _shelf(borne: Borne, reach: Reach, ways: Sequence[Reach]) -> Shelf:
    return Shelf(
        name=reach.told,
        species=borne.shelf.part.timber.species,
        grain=_grain(borne, reach),
        span=reach.span,
        own=reach.span.evens[0],
        least_length_mm=_least_length(borne, reach),
        turned_would_do=_would_do_turned(borne, ways),
        brackets=reach.brackets,
        bracket_mm=reach.bracket_mm,
    )


def _grain(borne: Borne, reach: Reach) -> Grain:
    along = abs(dot(borne.shelf.placement.x_axis, reach.direction)) > 0.5
    return Grain.ALONG if along else Grain.ACROSS


def _least_length(borne: Borne, reach: Reach) -> float:
    """What the span needs so that the largest load still stands on the whole shelf [mm]."""
    largest = max((borne.footprint_along(load, reach.direction) for load in borne.loads), default=0)
    beyond = borne.size_along(reach.direction) - reach.span.length_mm
    return max(0.0, largest - beyond)


def _would_do_turned(borne: Borne, ways: Sequence[Reach]) -> bool:
    """Whether with the grain turned every way in which it bends is right, with a hand on it too.

    Nothing is won where it is right as it lies.
    """
    timber = borne.shelf.part.timber
    if timber.species.kind is Kind.SHEET:
        return False
    for way in ways:
        grain = Grain.ACROSS if _grain(borne, way) is Grain.ALONG else Grain.ALONG
        turned = Shelf(name=way.told, species=timber.species, grain=grain, span=way.span)
        bending = working_bending_mpa(timber.species, grain)
        sag = long_term_sag_mm(turned)
        if bending is None or sag is None:
            return False
        if greatest_bending(with_hand(way.span, borne.hand_n)).stress_mpa > bending:
            return False
        if sag > sag_length_mm(way.span) * STRICT_SAG.value:
            return False
    return True


def _bounded(finding: Finding, reach: Reach) -> Finding:
    """What a bound finds wrong is a caution, and says that it is a bound."""
    if not reach.is_bound or finding.verdict is Verdict.OK:
        return finding
    basis = f"{finding.basis}; a cautious bound, only the strip that is held counts"
    return replace(finding.at_most(Verdict.CAUTION), basis=basis)


def _worst_of_each_check(cases: Iterable[tuple[Finding, ...]]) -> list[Finding]:
    """For one shelf the worst of its ways, check by check."""
    worst: dict[Check, Finding] = {}
    for findings in cases:
        for each in findings:
            known = worst.get(each.check)
            if known is None or badness(each) < badness(known):
                worst[each.check] = each
    return list(worst.values())
