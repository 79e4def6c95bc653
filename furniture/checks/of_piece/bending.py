"""The piece as it bends: sag and stress of what is level, a hand, a person, lean, and glue."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from furniture.checks.advice import Change, Remedy, least_that, longer, said
from furniture.checks.check import Check, Limits
from furniture.checks.finding import Finding, Sense, Show, Verdict, not_checked
from furniture.checks.of_piece.bent import Bends, Level, bends_of
from furniture.checks.of_piece.borne import BorneBy
from furniture.checks.of_piece.lean import leans
from furniture.checks.of_piece.reading import advised, shown_by, worst_alone
from furniture.checks.of_piece.sagging import (
    CREEP,
    in_time_mm,
    judged_span_mm,
    most_sag_mm,
    time_fall_mm,
)
from furniture.checks.of_piece.sections import stretches_of
from furniture.checks.of_piece.supported import Supported
from furniture.checks.rows.bending import GLUE_STRETCHED
from furniture.checks.rows.shelves import BENDING, HAND_BENDING, PERSON_BENDING, PERSON_SAG, SAG
from furniture.checks.strength import Grain, working_bending_mpa
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, cross, dot
from furniture.pieces import Piece
from furniture.pieces.weighed import Weighed
from furniture.rules import Rules
from furniture.rules.bearing import ACROSS_RESERVE, PRESS_INSIDE
from furniture.rules.design import LEAST_LOAD, MOST_THICKER
from furniture.rules.strengths import SHOP_SHARE
from furniture.rules.wood import (
    BREAKING_RESERVE,
    SAG_TOLD_FROM,
    SHORT_TIME,
    STRICT_SAG,
)
from furniture.rules.wood import PERSON_SAG as PERSON_SAG_RULE
from furniture.structure.bending import (
    BESIDE_THICKNESSES,
    Sag,
    Use,
    sag_of,
    uses_of,
)
from furniture.structure.bent_cases import BentCase, pressed_at, stood_on, surface_of
from furniture.structure.capacity import Carries
from furniture.structure.cases import cases_of
from furniture.structure.elastic import bent_under
from furniture.structure.frame import masses_weighed
from furniture.structure.held import held_in
from furniture.structure.plate import MESH_MM
from furniture.timber.doubt import doubt_told
from furniture.timber.strengths import DIVISOR_REASON, SOLID_DIVISOR, divisor
from furniture.timber.wood import Kind
from furniture.units.gravity import GRAVITY_M_S2

MEAN_TIMES = SOLID_DIVISOR / SHOP_SHARE.value
"""The mean strength of glue beside what it may carry for good in a small shop [-]."""
TORN_TIMES = 1.5 * MEAN_TIMES
"""Springs draw more to stiff joints than wood does, so where others help no less is judged [-]."""
_KEPT = 0.95
"""How much of a limit one may come to with what is advised: weights are by cuts alone there, and
the springs of joints do not grow with a part. Own rule."""
GLUE = (Carries.SIDE_GLUE, Carries.END_GLUE, Carries.MITRE_GLUE)
"""What is judged here: fasteners yield before they break, so the statics judge those."""


def bending_findings_of(
    piece: Piece, weighed: Weighed, supported: Sequence[Supported], rules: Rules
) -> tuple[Finding, ...]:
    """Sag and stress of every level part, each fact told once where it is worst.

    Args:
        piece: the piece as cut, without what drops out of it
        weighed: its mass
        supported: level surfaces with the hand and the persons that they bear; those not in
            the piece are left out
        rules: the maker's
    """
    unknown = tuple(_not_known(piece))
    bends = bends_of(piece, masses_weighed(piece, weighed))
    if bends is None:
        return unknown
    show = shown_by(piece)
    borne = BorneBy(piece, show)

    def bent(level: Level, borne: BorneBy | None) -> Iterable[Finding]:
        return (*_sag(level, borne, show, rules), *_bending(level, borne, show, rules))

    supported = [each for each in supported if each.name in bends.frame.names]
    return (
        *worst_alone(
            advised(
                bends.levels(), lambda level: bent(level, None), lambda level: bent(level, borne)
            )
        ),
        *worst_alone(_hands(bends, supported, show, rules)),
        *worst_alone(_persons(bends, supported, show, rules)),
        *worst_alone(leans(bends, show, rules)),
        *_stretched(bends, rules),
    )  # fmt: skip


def _not_known(piece: Piece) -> Iterable[Finding]:
    woods = {each.part.timber.species.name: each.instance for each in piece.placed
             if each.part.timber.species.moe_gpa is None}  # fmt: skip
    for wood, instance in woods.items():
        yield not_checked(
            SAG, instance, f"no stiffness is known for {wood}, so nothing of the piece is bent",
            advice="give the wood's stiffness, or work out its sag by hand",
        )  # fmt: skip


def _sag(level: Level, borne: BorneBy | None, show: Show, rules: Rules) -> Iterable[Finding]:
    lasting = level if level.lasting is None else level.lasting
    span, fall = judged_span_mm(level.worst), time_fall_mm(level)
    if span < rules[SAG_TOLD_FROM]:
        return
    most = most_sag_mm(span, rules)
    limits = SAG.limits(notes=span * rules[STRICT_SAG], cautions=most)
    remedies: tuple[Remedy, ...] = ()
    if SAG.verdict(fall, limits) is Verdict.CAUTION:
        own = CREEP * max(0.0, level.own.fall_mm)
        remedies = (
            *_thicker(level.placed, (fall - own, own, most), 3.0, show, rules),
            *_lighter(fall, own, most, rules),
            *_borne(level, borne, lambda each: time_fall_mm(each) <= _KEPT * most),
        )
    glued = show(in_time_mm(level.glued, lasting.glued))
    spread = "" if level.dry is None else f", {glued} while its glue holds"
    yield Finding(
        check=SAG,
        subject=level.placed.instance,
        value=fall,
        limits=limits,
        basis=f"{level.told}, over {show(span)}: {CREEP:g} times {_crept(level)} "
        f"(NDS 3.5.2){spread}" + doubt_told(level.placed.part.timber.species, rules, "moe_gpa"),
        advice=said(remedies, "" if remedies else "bear it in its middle as well")
        if SAG.verdict(fall, limits) is Verdict.CAUTION
        else "",
        remedies=remedies,
    )


def _crept(level: Level) -> str:
    if level.lasting is None:
        return "its first sag"
    return "the first sag under what stays, and once that under what comes and goes"


def _supported_else(placed: Placed, grain: Grain) -> str:
    """What helps where neither more thickness nor less load does: wood is weakest across."""
    if grain is Grain.ACROSS and placed.part.timber.species.kind is not Kind.SHEET:
        return "turn its grain to run the way that it bends, or make it of sheet stock"
    return "bear it in its middle as well"


def _borne(
    level: Level, borne: BorneBy | None, suits: Callable[[Level], bool]
) -> tuple[Remedy, ...]:
    """What bears it so well under every load, where that is tried."""
    if borne is None:
        return ()
    return borne.remedies(
        level.placed.instance, lambda levels: bool(levels) and all(map(suits, levels))
    )


def _bending(level: Level, borne: BorneBy | None, show: Show, rules: Rules) -> Iterable[Finding]:
    """The worst stress along and across the grain, at the wood that is left there."""
    species = level.placed.part.timber.species
    for grain in Grain:
        working = _bears_mpa(level, grain, rules)
        if working is None:
            yield _no_strength(BENDING, level.placed)
            return
        stress = _stress(level.placed, level.worst, grain)
        fails = working * divisor(species) / rules[BREAKING_RESERVE]
        remedies: tuple[Remedy, ...] = ()
        if stress > working:
            own = _stress(level.placed, level.own, grain)
            remedies = (
                *_thicker(level.placed, (stress - own, own, working), 2.0, show, rules),
                *_lighter(stress, own, working, rules),
                *_borne(level, borne, lambda each: _bears(each, rules)),
            )
        yield Finding(
            check=BENDING,
            subject=level.placed.instance,
            value=stress,
            limits=BENDING.limits(cautions=working, fails=fails),
            basis=f"{level.told}, {_told(grain)}; {DIVISOR_REASON}{_for_a_while(level, rules)}"
            + doubt_told(species, rules, "mor_mpa"),
            advice=said(remedies, "" if remedies else _supported_else(level.placed, grain))
            if stress > working
            else "",
            remedies=remedies,
        )


def _bears_mpa(level: Level, grain: Grain, rules: Rules) -> float | None:
    """The working stress under a load [MPa], which may be more for a while."""
    working = working_bending_mpa(level.placed.part.timber.species, grain)
    if working is None or level.lasting is None:
        return working
    return rules[SHORT_TIME] * working


def _bears(level: Level, rules: Rules) -> bool:
    """Whether its wood is stressed within its working stress, and something is kept in hand."""
    return all(
        working is not None and _stress(level.placed, level.worst, grain) <= _KEPT * working
        for grain in Grain
        for working in [_bears_mpa(level, grain, rules)]
    )


def _for_a_while(level: Level, rules: Rules) -> str:
    if level.lasting is None:
        return ""
    return f", and {rules[SHORT_TIME]:g} times that for what does not stay ({SHORT_TIME.source})"


def _no_strength(check: Check, placed: Placed) -> Finding:
    return not_checked(
        check, placed.instance, f"no strength is known for {placed.part.timber.species.name}",
        advice="give the wood's strength, or work out its stress by hand",
    )  # fmt: skip


def _stress(placed: Placed, sag: Sag, grain: Grain) -> float:
    """The worst stress in a direction [MPa], where cuts leave less wood in proportion."""
    x_axis, y_axis = placed.placement.x_axis, placed.placement.y_axis
    way, side = (x_axis, y_axis) if grain is Grain.ALONG else (y_axis, x_axis)
    blank = placed.part.blank
    length, width = blank.length_mm, blank.width_mm
    if grain is Grain.ACROSS:
        length, width = width, length
    sideways = cross(way, (0.0, 0.0, 1.0))
    start, edge = dot(placed.placement.origin, way), dot(placed.placement.origin, sideways)
    far = edge + (width if dot(sideways, side) > 0.0 else -width)
    lost = stretches_of(
        placed, way, start, length, (min(edge, far), max(edge, far)), blank.thickness_mm
    )
    whole = width * blank.thickness_mm**2 / 6.0

    def weakened(at: Vector) -> float:
        place = dot(at, way) - start
        here = [each.section.modulus_mm3 for each in lost if each.from_mm <= place <= each.to_mm]
        return whole / min(here) if here else 1.0

    return max(
        (
            (along if grain is Grain.ALONG else across) * weakened(at)
            for along, across, at in sag.stresses
        ),
        default=0.0,
    )


def _thicker(
    placed: Placed, shares: tuple[float, float, float], power: float, show: Show, rules: Rules
) -> tuple[Remedy, ...]:
    """How much thicker a part must be, its own weight growing with it.

    `shares` are what comes of its loads, what of its own weight, and the limit; the first falls
    with that power of the thickness, the second with one less. A twentieth is kept in hand, as the
    springs of its joints do not grow with it.
    """
    loads, own, limit = shares
    thickness, most = placed.part.blank.thickness_mm, rules[MOST_THICKER]

    def holds(share: float) -> bool:
        grown = 1.0 + share
        return float(loads / grown**power + own / grown ** (power - 1.0)) <= _KEPT * limit

    enough = least_that(holds, 0.0, most, 1e-4)
    if enough is None:
        return ()
    words = f"make {placed.instance} thicker by {{}}"
    return longer(Change.THICKNESS, words, enough * thickness, show, most * thickness)


def _lighter(found: float, own: float, limit: float, rules: Rules) -> tuple[Remedy, ...]:
    """The share of its loads that it bears; nothing where its own weight is too much already."""
    if own >= limit or found <= own:
        return ()
    share = (limit - own) / (found - own)
    if share < rules[LEAST_LOAD]:
        return ()
    percent = math.floor(share * 100.0)
    return (
        Remedy(
            change=Change.LOAD, words=f"stand at most {percent} % of its loads on it",
            amount=float(percent), unit="%", enough=share * 100.0, sense=Sense.AT_MOST,
            least=rules[LEAST_LOAD] * 100.0,
        ),
    )  # fmt: skip


def _hands(
    bends: Bends, supported: Sequence[Supported], show: Show, rules: Rules
) -> Iterable[Finding]:
    """A hand at every front edge, as hard as it can before the piece tips."""
    cases = [
        (each, case)
        for each in supported
        if each.hand_n > 0.0
        for case in pressed_at(
            bends.frame, surface_of(bends.piece, each.name), each.hand_n, rules[PRESS_INSIDE]
        )
    ]
    bents = bent_under(bends.glued, [case.pushes for _, case in cases])
    for (each, case), bent in zip(cases, bents, strict=True):
        if bent is None:
            continue
        sag = sag_of(bends.piece, bent, each.name)
        told = f"{show.force(each.hand_n)} at {case.told}"
        yield from _tested(HAND_BENDING, each.shelf, sag, case, told, rules)


def _persons(
    bends: Bends, supported: Sequence[Supported], show: Show, rules: Rules
) -> Iterable[Finding]:
    """A person where one is stated, as steps and seats are tested: in the middle, at a corner.

    Without its glue too, where it is held so: it may clamp in vain what is thrown upon it.
    """
    for each in supported:
        for person in each.persons:
            surface = surface_of(bends.piece, each.name)
            force = person.mass_kg * GRAVITY_M_S2
            cases = stood_on(bends.frame, surface, force, person.footprint_mm)
            pushes = [case.pushes for case in cases]
            dry = bends.dry_under(pushes)
            for case, tight, loose in zip(cases, bent_under(bends.glued, pushes), dry, strict=True):
                told = f"{show.force(force)} at {case.told}"
                for bent, how in ((tight, ""), (loose, ", without its glue")):
                    if bent is None:
                        continue
                    sag = sag_of(bends.piece, bent, each.name)
                    told_how = f"{told}{how}"
                    yield from _tested(PERSON_BENDING, each.shelf, sag, case, told_how, rules)
                if tight is None:
                    continue
                sag = sag_of(bends.piece, tight, each.name)
                yield Finding(
                    check=PERSON_SAG,
                    subject=each.name,
                    value=max(0.0, sag.fall_mm),
                    limits=PERSON_SAG.limits(cautions=judged_span_mm(sag) * rules[PERSON_SAG_RULE]),
                    basis=f"{told}, at once",
                    advice="make it thicker, or put a rail under its middle",
                )


def _tested(
    check: Check, placed: Placed, sag: Sag, case: BentCase, told: str, rules: Rules
) -> Iterable[Finding]:
    """A load that passes, beside the wood's mean strength along and across its grain.

    Near what presses, the stress across the grain is judged with a reserve.
    """
    species = placed.part.timber.species
    for grain in Grain:
        working = working_bending_mpa(species, grain)
        if working is None:
            yield _no_strength(check, placed)
            return
        mean = working * divisor(species)
        reserve = rules[ACROSS_RESERVE] if grain is Grain.ACROSS else 1.0
        near = _near(placed, sag, case)
        away = replace(sag, stresses=tuple(each for each in sag.stresses if each not in near))
        here, there = (
            _stress(placed, replace(sag, stresses=near), grain),
            _stress(placed, away, grain),
        )
        is_near = here / reserve > there
        value, mean = (here, reserve * mean) if is_near else (there, mean)
        yield Finding(
            check=check,
            subject=placed.instance,
            value=value,
            limits=check.limits(fails=mean) if check.fails else check.limits(cautions=mean),
            basis=f"{told}, {_told(grain)}, beside its mean strength"
            + doubt_told(species, rules, "mor_mpa"),
            advice="make it thicker, or put a rail under it",
        )


def _near(placed: Placed, sag: Sag, case: BentCase) -> tuple[tuple[float, float, Vector], ...]:
    """The stresses in the pieces of the mesh that are pressed: no near figures."""
    reach = MESH_MM + BESIDE_THICKNESSES * placed.part.blank.thickness_mm
    return tuple(
        each
        for each in sag.stresses
        if any(math.dist(each[2][:2], push.at[:2]) < reach for push in case.pushes)
    )


def _told(grain: Grain) -> str:
    return "along the grain" if grain is Grain.ALONG else "across the grain"


def _stretched(bends: Bends, rules: Rules) -> Iterable[Finding]:
    """The joint whose glue is stretched most beside what it may carry."""
    uses = [
        use if case.lasting is None else replace(use, share=use.share / rules[SHORT_TIME])
        for case, bent in zip(bends.loads, bends.tight, strict=True)
        if bent is not None
        for use in uses_of(bent)
        if use.carries in GLUE
    ]
    if not uses:
        return
    worst: Use = max(uses, key=lambda each: each.share)
    joining = bends.piece.joinings[worst.joining]
    # Where the rest holds, it was let go before; alone it bears just what hangs on it.
    is_alone = worst.carries is Carries.END_GLUE
    least = MEAN_TIMES / rules[BREAKING_RESERVE] if is_alone else TORN_TIMES
    limits = GLUE_STRETCHED.limits(cautions=least, fails=least if is_alone else None)
    found = GLUE_STRETCHED.verdict(worst.share, limits)
    if found is Verdict.CAUTION and _holds_without(bends, worst.joining):
        limits = Limits(notes=limits.notes)
    yield Finding(
        check=GLUE_STRETCHED,
        subject=f"{joining.incoming} in {joining.into}",
        value=worst.share,
        limits=limits,
        basis=f"{worst.carries.value}, by plates on springs: right to a half or so",
        advice="give the joint dowels or a deeper dado, or load it less",
    )


def _holds_without(bends: Bends, joining: int) -> bool:
    """Whether the piece bears all of its loads with the glue of one joint torn."""
    links = tuple(
        each for each in bends.frame.links if each.joining != joining or each.carries not in GLUE
    )
    torn = replace(bends.frame, links=links)
    return all(held_in(torn, case).factor >= 1.0 for case in cases_of(bends.piece, bends.frame))
