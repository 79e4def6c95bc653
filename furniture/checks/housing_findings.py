"""What is found of a housed shelf, and what to change where its dado bears too much."""

from __future__ import annotations

import math
from collections.abc import Callable

from furniture.checks.advice import Change, Remedy, lighter, longer, said, together
from furniture.checks.check import NO_LIMITS, Check
from furniture.checks.finding import Finding, Sense, Show, Verdict
from furniture.checks.housing import (
    Housing,
    Lever,
    bracket_reach_mm,
    bracketed_bearing_mpa,
    bracketed_lift_n,
    depth_for_mm,
    droop_mm,
    glue_capacity_n,
    peak_bearing_mpa,
    upward_force_n,
)
from furniture.checks.left import least_behind_dado_mm
from furniture.checks.rows.joints import (
    ABOVE_DADO,
    DROOP,
    HAND_ABOVE_DADO,
    HAND_HOUSED_GLUE,
    HAND_LEVER,
    HOUSED_GLUE,
    LEVER,
)
from furniture.checks.strength import (
    least_bearing_mpa,
    working_bearing_mpa,
    working_shear_mpa,
)
from furniture.checks.tried import put_under
from furniture.pieces import Under
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.design import (
    DADO_SHARE,
    LEAST_BRACKET,
    LEAST_LOAD,
    LEAST_PLAY,
    MOST_ABOVE,
    MOST_BRACKET,
    MOST_THICKER,
)
from furniture.rules.wood import BREAKING_RESERVE, DROOP_SHARE, LEVER_CAUTION, LEVER_FAILS
from furniture.timber.species import Kind
from furniture.timber.strengths import divisor
from furniture.units.gravity import GRAVITY_M_S2

PLAY_STEP_MM = 0.05
ESTIMATE = "an estimate, no accepted formula: "
_GLUE_REASON = (
    "a third of the shear along the grain where side grains cross (Forest Products Laboratory "
    "report 1522, 1945), half of that for a shop's glue line, end grain as nothing (own rules)"
)

_NONE: tuple[Remedy, ...] = ()


def housing_findings(
    housing: Housing, lever: Lever, show: Show, rules: Rules = USUAL_RULES
) -> tuple[Finding, ...]:
    """Bearing at the mouth, tear-out above, and the glue alone, for one load on a housed shelf.

    Args:
        housing: the joint
        lever: the load
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** own mechanics, conservative: as `furniture/checks/housing.py` says.
    """
    return (
        _bearing(housing, lever, show, rules),
        _tear_out(housing, lever, show, rules),
        _glue(housing, lever, show),
    )


def droop_finding(
    housing: Housing, show: Show, least_play_mm: float = 0.0, rules: Rules = USUAL_RULES
) -> Finding:
    """How far a joint without glue lets the front edge drop, against a drop that shows.

    Args:
        housing: the joint
        show: puts a length into the piece's unit
        least_play_mm: the play that the shelf needs to swell [mm]
        rules: the maker's

    **Source:** own geometry; limit: own rule, the share of the projection that looks level.
    """
    droop = droop_mm(housing)
    limit = housing.projection_mm * rules[DROOP_SHARE]
    limits = DROOP.limits(cautions=limit)
    verdict = DROOP.verdict(droop, limits)
    remedies = (
        _NONE if verdict is Verdict.OK else _less_droop(housing, limit, least_play_mm, show, rules)
    )
    otherwise = "glue it: a clamp closes the joint, and the glue keeps it level"
    if any(each.change is Change.PLAY for each in remedies):
        otherwise = ""
    elif least_play_mm > 0.0:
        otherwise = (
            f"the two fight: to swell it needs {show(least_play_mm)} of play, and with that it "
            f"droops; {otherwise}, or bear its front as well"
        )
    return Finding(
        check=DROOP,
        subject=housing.name,
        value=droop,
        limits=limits,
        basis=f"a dado {show(housing.clearance_mm)} too wide and "
        f"{show.dial(housing.depth_mm)} deep lets a shelf turn{_about(housing, show)} before it "
        "grips, as nothing is glued",
        advice="" if verdict is Verdict.OK else said(remedies, otherwise),
        remedies=remedies,
    )


def _row(lever: Lever, steady: Check, passing: Check) -> Check:
    """The row of a load that stays, or of a hand, which passes."""
    return passing if lever.own_n is None else steady


def _about(housing: Housing, show: Show) -> str:
    """The brackets that a shelf turns about, in words; nothing without any."""
    if housing.bracket_mm <= 0.0:
        return ""
    return f" about the end of {housing.brackets}, {show(housing.bracket_mm)} from {housing.holder}"


def _less_droop(
    housing: Housing, limit_mm: float, least_play_mm: float, show: Show, rules: Rules
) -> tuple[Remedy, ...]:
    """A tighter fit that can still be cut and glued, or a deeper dado within what it may be."""
    turns = droop_mm(housing) / housing.clearance_mm
    enough = limit_mm / turns
    play = math.floor(enough / PLAY_STEP_MM + 1e-6) * PLAY_STEP_MM
    found: tuple[Remedy, ...] = ()
    least = max(rules[LEAST_PLAY], least_play_mm)
    if play >= least - 1e-9:
        found = (
            Remedy(
                change=Change.PLAY, words=f"fit it with at most {show(play)} of play", amount=play,
                unit="mm", enough=enough, sense=Sense.AT_MOST, least=least,
            ),
        )  # fmt: skip
    if housing.bracket_mm > 0.0:
        return found
    deeper = housing.clearance_mm / limit_mm * housing.projection_mm - housing.depth_mm
    return (*found, *_deeper(housing, deeper, show, rules))


def _deeper(housing: Housing, enough_mm: float, show: Show, rules: Rules) -> tuple[Remedy, ...]:
    """The dado cut deeper, where half the post stays behind it."""
    most = housing.most_depth_mm(rules) - housing.depth_mm
    return longer(Change.DADO, "cut its dado {} deeper", enough_mm, show, most)


def _bearing(housing: Housing, lever: Lever, show: Show, rules: Rules) -> Finding:
    tongue = (housing.width_mm, housing.depth_mm, lever.force_n, lever.reach_mm)
    pressure = peak_bearing_mpa(*tongue)
    if housing.bracket_mm > 0.0:
        pressure = bracketed_bearing_mpa(*tongue, housing.bracket_mm)
    return bearing_finding(
        housing, lever, pressure, housing.brackets if housing.bracket_mm > 0.0 else "",
        lambda limit: _against_bearing(housing, lever, pressure, limit, show, rules),
        "bear its front as well, between two uprights", show, rules,
    )  # fmt: skip


def bearing_finding(
    housing: Housing,
    lever: Lever,
    pressure_mpa: float,
    lies_on: str,
    against: Callable[[float], tuple[Remedy, ...]],
    otherwise: str,
    show: Show,
    rules: Rules,
) -> Finding:
    """The pressure in a dado, whatever holds the shelf besides it, beside what its wood bears.

    Args:
        housing: the joint
        lever: the load
        pressure_mpa: the greatest pressure [MPa]
        lies_on: what else the shelf lies on, in words; nothing without any
        against: the remedies that bring it under a limit [MPa]
        otherwise: what would do where none of them does
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** limit: own rule, crushing across the grain over 1.5, and multiples of it.
    """
    held = f", with {lies_on} under it, whose own hold is not counted here" if lies_on else ""
    limit = working_bearing_mpa(housing.shelf)
    check = _row(lever, LEVER, HAND_LEVER)
    limits = NO_LIMITS
    if limit is not None and lever.own_n is None:
        limits = check.limits(cautions=rules[LEVER_FAILS] * limit)
    elif limit is not None:
        limits = check.limits(
            notes=limit, cautions=rules[LEVER_CAUTION] * limit, fails=rules[LEVER_FAILS] * limit
        )
    is_little = housing.shelf.kind is Kind.SHEET and pressure_mpa <= least_bearing_mpa()
    is_unknown = limit is None and not is_little
    verdict = Verdict.CAUTION if is_unknown else check.verdict(pressure_mpa, limits)
    advice, remedies = "", _NONE
    if is_unknown:
        advice = "load a sample of the joint before relying on it"
    elif limit is not None and verdict in (Verdict.CAUTION, Verdict.FAIL):
        remedies = against(limits.cautions or limit)
        advice = said(remedies, "" if remedies else otherwise)
    return Finding(
        check=check,
        subject=f"{housing.name}, {lever.what}",
        value=pressure_mpa,
        limits=limits,
        stated=Verdict.CAUTION if is_unknown else None,
        basis=ESTIMATE
        + f"{show.force(lever.force_n)} at {show(lever.reach_mm)} from {housing.holder}, borne by "
        f"{show.dial(housing.depth_mm)} of dado over {show(housing.width_mm)} without any glue"
        f"{held}; its measure is crushing of {housing.shelf.name} across its grain over 1.5, "
        f"which a hand may exceed {rules[LEVER_FAILS]:g} times and what stays "
        f"{rules[LEVER_CAUTION]:g} times"
        + ("" if limit is not None else ", which is not printed")
        + (", yet less than the softest wood bears" if limit is None and is_little else ""),
        advice=advice,
        remedies=remedies,
    )


def _against_bearing(
    housing: Housing, lever: Lever, pressure: float, limit: float, show: Show, rules: Rules
) -> tuple[Remedy, ...]:
    """A deeper dado, a thicker post with a deeper dado, a bracket, or less load."""
    found = _NONE
    if housing.bracket_mm <= 0.0:
        found = deeper_dado(housing, depth_for_mm(housing, lever, limit), show, rules)
    return (
        *found,
        *_bracket(housing, lever, limit, show, rules),
        *less_load(lever, limit / pressure, show, rules),
    )


def deeper_dado(housing: Housing, needed_mm: float, show: Show, rules: Rules) -> tuple[Remedy, ...]:
    """A deeper dado; in a thicker post where its own is too thin for that.

    Args:
        housing: the joint
        needed_mm: how deep it must be [mm]
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** own rule: half a post stays behind its dado.
    """
    found = _deeper(housing, needed_mm - housing.depth_mm, show, rules)
    return found or _thicker_and_deeper(housing, needed_mm, show, rules)


def _bracket(
    housing: Housing, lever: Lever, limit: float, show: Show, rules: Rules
) -> tuple[Remedy, ...]:
    """A bracket, or those that are there made longer: one of those that the builder takes."""
    least, most = (rules[each] * housing.projection_mm for each in (LEAST_BRACKET, MOST_BRACKET))
    needed = max(least, bracket_reach_mm(housing.width_mm, housing.depth_mm, lever, limit))
    against = f" from {housing.holder}"
    if housing.bearers is None:
        told = "put a bracket of your own under it that reaches {}"
        if housing.brackets:
            told = f"let {housing.brackets} reach {{}}"
        return longer(Change.BRACKET, f"{told}{against}", needed, show, most)
    for each in housing.bearers:
        bearer = each.bearer
        if bearer.under is Under.BRACKET:
            told = "put two brackets side by side under it that reach {}"
            if bearer.count == 1:
                told = "put a bracket under it that reaches {}"
            reach = max(bearer.least_mm, needed)
            found = put_under(each, told, reach, show, against=against)
            if found:
                return found
    return _NONE


def less_load(lever: Lever, bears: float, show: Show, rules: Rules) -> tuple[Remedy, ...]:
    """The load that is borne; nothing where it is a hand, which nobody states.

    Args:
        lever: all that presses
        bears: the share of it that is borne [-]
        show: puts a mass into the piece's unit
        rules: the maker's

    **Source:** statics: pressure grows as the force does.
    """
    if lever.own_n is None:
        return _NONE
    own_kg = lever.own_n / GRAVITY_M_S2
    whole_kg = lever.force_n / GRAVITY_M_S2
    least = rules[LEAST_LOAD] * (whole_kg - own_kg)
    return lighter("stand at most {} on it", bears * whole_kg - own_kg, show, least)


def _thicker_and_deeper(
    housing: Housing, depth_mm: float, show: Show, rules: Rules
) -> tuple[Remedy, ...]:
    """A dado as deep as is needed, in a post of twice that thickness."""
    depth = show.up(depth_mm)
    thickness = show.up(depth / rules[DADO_SHARE])
    most = (1.0 + rules[MOST_THICKER]) * housing.post_thickness_mm
    behind = least_behind_dado_mm(thickness, rules)
    if thickness > most or thickness - depth < behind:
        return ()
    post = Remedy(
        change=Change.THICKNESS, words=f"make {housing.holder} {show(thickness)} thick",
        amount=thickness, unit="mm", enough=depth / rules[DADO_SHARE], most=most,
    )  # fmt: skip
    dado = Remedy(
        change=Change.DADO, words=f"cut its dado {show(depth)} deep", amount=depth, unit="mm",
        enough=depth_mm, most=rules[DADO_SHARE] * thickness,
    )  # fmt: skip
    return (together(post, dado),)


def _tear_out(housing: Housing, lever: Lever, show: Show, rules: Rules) -> Finding:
    lift = upward_force_n(housing.depth_mm, lever.force_n, lever.reach_mm)
    if housing.bracket_mm > 0.0:
        lift = bracketed_lift_n(housing.depth_mm, lever.force_n, lever.reach_mm, housing.bracket_mm)
    limit = working_shear_mpa(housing.post, housing.post_grain)
    check, subject = _row(lever, ABOVE_DADO, HAND_ABOVE_DADO), f"{housing.name}, {lever.what}"
    if housing.above_mm <= 0.0:
        glued_n = glue_capacity_n(housing, max(0.0, lever.reach_mm - housing.bracket_mm))
        holds = glued_n is not None and glued_n >= lever.force_n
        return Finding(
            check=check,
            subject=subject,
            value=None,
            limits=check.limits(cautions=limit),
            stated=Verdict.NOTE if holds else Verdict.CAUTION,
            basis="no wood stands above the dado: the shelf sits in an open notch and only glue or "
            "a fixing keeps it from turning out",
            advice=f"let {housing.holder} stand proud, or screw or dowel the shelf from above",
        )
    stress = lift / (housing.width_mm * housing.above_mm)
    verdict, remedies, limits = Verdict.CAUTION, _NONE, check.limits(cautions=limit)
    if limit is not None:
        strength = limit * divisor(housing.post)
        if lever.own_n is None:
            limit = strength
            limits = check.limits(cautions=strength)
        else:
            limits = check.limits(cautions=limit, fails=strength / rules[BREAKING_RESERVE])
        verdict = check.verdict(stress, limits)
        if verdict is not Verdict.OK:
            needed = lift / (housing.width_mm * limit) - housing.above_mm
            words = "leave {} more wood above the dado"
            remedies = longer(
                Change.WOOD_ABOVE, words, needed, show, rules[MOST_ABOVE] - housing.above_mm
            )
    otherwise = "" if remedies else "dowel or screw it from above"
    return Finding(
        check=check,
        subject=subject,
        value=stress,
        limits=limits,
        stated=Verdict.CAUTION if limit is None else None,
        basis=ESTIMATE + f"the tongue lifts the upper shoulder with {show.force(lift)}; the "
        f"{show(housing.above_mm)} above the dado must not shear off"
        + ("" if limit is not None else f"; no shear strength is known for {housing.post.name}"),
        advice="" if verdict is Verdict.OK else said(remedies, otherwise),
        remedies=remedies,
    )


def _glue(housing: Housing, lever: Lever, show: Show) -> Finding:
    capacity = glue_capacity_n(housing, max(0.0, lever.reach_mm - housing.bracket_mm))
    check = _row(lever, HOUSED_GLUE, HAND_HOUSED_GLUE)
    limits = check.limits(notes=lever.force_n)
    return Finding(
        check=check,
        subject=f"{housing.name}, {lever.what}",
        value=capacity,
        limits=limits,
        stated=Verdict.NOTE if capacity is None else None,
        basis=ESTIMATE
        + (
            "no shear strength is printed for one of the woods"
            if capacity is None
            else f"{show.area(housing.side_grain_mm2)} of side grain, pushed past and turned at "
            f"{show(lever.reach_mm)}, " + _GLUE_REASON
        ),
    )
