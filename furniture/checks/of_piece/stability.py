"""Whether a piece stands: tilt, floor, pushes, feet and persons, one line for each fact."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from furniture.checks.check import Check
from furniture.checks.feet import Plan, feet_finding
from furniture.checks.finding import GRAVEST_FIRST, Finding, Show, Tipping, Verdict
from furniture.checks.floor import uneven_floor_finding
from furniture.checks.of_piece.reading import shown_by, worst_alone
from furniture.checks.of_piece.setting import CableOf, HeldBy, Setting
from furniture.checks.of_piece.standing import cable_height_mm, standing_of
from furniture.checks.of_piece.wall import fixing_finding, fixing_n, wall_finding
from furniture.checks.persons import person_finding, step_finding
from furniture.checks.rows.standing import (
    CABLE_PULL,
    CHILD,
    TILT,
    TOP_PUSH,
    UNEVEN_FLOOR,
    WALL_FIXING,
)
from furniture.checks.stability import Load
from furniture.checks.stability_findings import (
    Standing,
    push_findings,
    sliding_finding,
    tilt_asked,
    tilt_findings,
    weight_share_findings,
)
from furniture.checks.tall import StandsOn, scope_finding, tall_findings
from furniture.pieces import LoadKind, Piece, Stance
from furniture.pieces.weighed import Weighed
from furniture.rules import Rules
from furniture.rules.standing import (
    CABLE_PULL as CABLE_RULE,
)
from furniture.rules.standing import (
    LOW_CABLE_SHARE,
    LOW_CORNER,
    PUSH_SHARE,
    PUSHED_FROM,
    SLEEVE,
    TABLE_TOP_MASS,
    TALL,
    WEIGHT_PUSH_FROM,
)


def standing_findings(piece: Piece, weighed: Weighed, setting: Setting) -> tuple[Finding, ...]:
    """Whether the piece stands, empty and loaded, pushed, and on a floor that is not flat.

    Args:
        piece: the piece as cut
        weighed: its mass and where it touches the floor
        setting: where it stands, and the maker's rules
    """
    show, rules = shown_by(piece), setting.rules
    if piece.stance is Stance.WALL:
        return (wall_finding(piece, weighed, rules, show),)
    standing = replace(standing_of(piece, weighed), friction=setting.friction, rules=setting.rules)
    try:
        standing.edges()
    except ValueError as error:
        return (_nothing_to_stand_on(str(error), rules),)
    is_table_top = is_table_top_piece(standing, setting)
    if not (is_table_top or standing.ground().is_squat):
        standing = replace(standing, fixing_n=fixing_n(standing, rules)[0])
    asked = tilt_asked(is_table_top, rules)
    tilts = tilt_findings(standing, asked, show)
    least = min(each.value for each in tilts if each.value is not None)
    is_fixed = setting.held is HeldBy.WALL
    fixing = fixing_finding(standing, rules, show, least_tilt_deg=least, is_fixed=is_fixed)
    nobody_would = is_table_top and not is_fixed  # what weighs little falls at little
    told = () if fixing is None or nobody_would else (fixing,)
    scope = scope_finding(standing, setting.stands_on, show, rules)
    if is_fixed:
        return (*told, *_level_floor(tilts), scope)
    uneven = uneven_floor_finding(standing, asked, show, rules[LOW_CORNER])
    return _tips_once(
        (
            *_falls(worst_alone(tilts), uneven),
            *worst_alone(_pushes(piece, weighed, standing, setting, is_table_top=is_table_top)),
            feet_finding(standing, _plan_of(weighed), show, is_table_top=is_table_top, rules=rules),
            *worst_alone(tall_findings(standing, setting.stands_on, show, rules)),
            *worst_alone(_persons(piece, standing, rules, show)),
            *told,
            sliding_finding(standing, setting.friction, standing.top_mm, show),
            scope,
        )
    )


MEASURES_OF_TIPPING: tuple[tuple[Check, tuple[Check, ...]], ...] = (
    (TILT, (TOP_PUSH, WALL_FIXING, CHILD)),
    (UNEVEN_FLOOR, (TOP_PUSH, WALL_FIXING, CHILD)),
    (WALL_FIXING, (TOP_PUSH,)),
    (CHILD, (TOP_PUSH,)),
)
"""Measures of one fact, how easily it tips: where the first cautions or fails it speaks for those
after it, which are told as figures. Each of them says the same of a wider base or a fixing."""


def _tips_once(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """That it tips easily told once, by the measure that asks most; the others are noted."""
    told = list(findings)
    for speaker, others in MEASURES_OF_TIPPING:
        at = next(
            (i for i, each in enumerate(told) if each.check == speaker and _warns(each)), None
        )
        said = [i for i, each in enumerate(told) if each.check in others and _warns(each)]
        if at is None or not said:
            continue
        names = " and ".join(f"the {told[i].check.name}" for i in said)
        told[at] = replace(told[at], basis=f"{told[at].basis}; {names} below says the same")
        for i in said:
            told[i] = told[i].at_most(Verdict.NOTE)
    return tuple(told)


def _warns(finding: Finding) -> bool:
    return finding.verdict in (Verdict.CAUTION, Verdict.FAIL)


def is_table_top_piece(standing: Standing, setting: Setting) -> bool:
    """Whether it is judged as a table-top piece: light, and on a table or not tall.

    Args:
        standing: the piece as it stands
        setting: where it stands, and the maker's rules

    **Source:** the rules' own sources.
    """
    is_light = standing.piece.mass_kg < setting.rules[TABLE_TOP_MASS]
    is_low = standing.top_mm < setting.rules[TALL]
    return is_light and (is_low or setting.stands_on is StandsOn.TABLE)


def _falls(tilts: Iterable[Finding], uneven: Finding) -> tuple[Finding, ...]:
    """The tilt, and what an uneven floor leaves of it only where that is graver: one fact."""
    (tilt,) = tilts
    is_graver = GRAVEST_FIRST.index(uneven.verdict) < GRAVEST_FIRST.index(tilt.verdict)
    is_right = uneven.verdict is Verdict.OK
    return (tilt, uneven) if is_graver or is_right else (tilt,)


def _pushes(
    piece: Piece, weighed: Weighed, standing: Standing, setting: Setting, *, is_table_top: bool
) -> tuple[Finding, ...]:
    """A push at the top and a pull on the cable, which of a light piece are only figures."""
    rules, show = setting.rules, shown_by(piece)
    top, mass = standing.top_mm, standing.piece.mass_kg
    is_judged = not is_table_top and (mass >= rules[PUSHED_FROM] or top >= rules[TALL])
    empty_n = standing.piece.weight_n  # what would stand still on it is absent in this case
    sleeve = max(rules[SLEEVE], rules[PUSH_SHARE] * empty_n) if is_judged else None
    found = [*push_findings(standing, top, TOP_PUSH, show, sleeve)]
    if mass >= rules[WEIGHT_PUSH_FROM]:
        found += weight_share_findings(standing, show)
    height = setting.cable_at_mm or cable_height_mm(piece, weighed)
    if height is not None:
        is_judged = not is_table_top or setting.cable_of is CableOf.LAMP
        is_high = height > rules[LOW_CABLE_SHARE] * top and is_judged
        pull = rules[CABLE_RULE] if is_high else None
        found += push_findings(standing, height, CABLE_PULL, show, pull)
    return tuple(found)


def _persons(piece: Piece, standing: Standing, rules: Rules, show: Show) -> Iterable[Finding]:
    """Persons on the surfaces for which one is stated; a step only where no press tips it."""
    for surface in standing.surfaces:
        persons = [
            each for each in piece.loads
            if each.on == surface.name and each.kind.is_person
        ]  # fmt: skip
        if not persons:
            continue
        found = person_finding(standing, surface, show, rules)
        yield found
        steps = [each for each in persons if each.kind is LoadKind.PERSON_STANDING]
        if found.verdict is Verdict.FAIL or not steps:
            continue
        heaviest = max(steps, key=lambda each: each.mass_kg)
        on = Load(
            name=heaviest.name, on=surface, mass_kg=heaviest.mass_kg,
            footprint_mm=heaviest.footprint_mm, centre_height_mm=heaviest.centre_height_mm,
        )  # fmt: skip
        yield step_finding(standing, on, show, rules)


def _plan_of(weighed: Weighed) -> Plan:
    (x0, y0, _), (x1, y1, _) = weighed.extents
    return ((x0, x1), (y0, y1))


def _level_floor(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """What falls over on a level floor still does so before it is fixed, or once it comes loose."""
    falls = [each for each in findings if each.verdict is Verdict.FAIL]
    return worst_alone(each.at_most(Verdict.CAUTION) for each in falls)


def _nothing_to_stand_on(why: str, rules: Rules) -> Finding:
    return Finding(
        check=TILT,
        subject="the whole piece",
        value=0.0,
        limits=tilt_asked(is_table_top=False, rules=rules).limits(TILT),
        tipping=Tipping(ways=()),
        basis=why,
        advice="give it at least three places to stand on that are not in line, or hang it on a "
        "wall",
    )
