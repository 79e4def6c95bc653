"""Lids on hinges: whether the piece stands with them open, and what pulls on hinges and stay."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from furniture.checks.advice import Change, Remedy, said
from furniture.checks.bodies import Body, combined
from furniture.checks.finding import Finding, Show, Tipping, Verdict, not_checked
from furniture.checks.ground import Demand
from furniture.checks.of_piece.reading import shown_by, side_of, worst_alone
from furniture.checks.of_piece.setting import HeldBy, Setting
from furniture.checks.of_piece.standing import standing_of
from furniture.checks.of_piece.swing import swing_findings
from furniture.checks.open_lid import OpenLid, tip_j
from furniture.checks.rows.open_lid import (
    DROPPED_LID,
    FALLING_LID,
    OPEN_PULL,
    OPEN_TILT,
    SHY_LID,
)
from furniture.checks.seasons import DATA_UNKNOWN, shift_of, signed
from furniture.checks.stability import empty_leaning
from furniture.checks.stability_findings import (
    NOTHING_TO_DO,
    Standing,
    TiltLimits,
    tilt_asked,
    ways_of,
)
from furniture.joints.joint import Role
from furniture.pieces import Inside, LongerScrews, Piece, Stance, TurnsOpen, placed_named
from furniture.pieces.weighed import Weighed
from furniture.rules.bearing import LEAST_RACKING
from furniture.timber.movement import NoCoefficient

_HAIR_MM = 1e-6


def open_lid_findings(
    piece: Piece, weighed: Weighed, setting: Setting, *, is_table_top: bool
) -> tuple[Finding, ...]:
    """Whether the piece stands with each lid open, and drops it open, and what bears it there.

    Args:
        piece: the piece as cut
        weighed: its mass and where it touches the floor
        setting: where it stands, and the maker's rules
        is_table_top: whether it is judged as a table-top piece
    """
    if piece.stance is Stance.WALL:
        return ()
    standing = replace(standing_of(piece, weighed), friction=setting.friction, rules=setting.rules)
    show, asked = shown_by(piece), tilt_asked(is_table_top, setting.rules)
    found: list[Finding] = []
    for turns in piece.intent.opens:
        lid = open_lid_of(piece, weighed, turns)
        if setting.held is not HeldBy.WALL:
            found += worst_alone(_tilts(standing, turns, lid, asked, show))
            found += _drop(standing, piece.intent.inside, turns, lid, show)
        found += worst_alone(_pulls(piece, standing, turns, lid, setting, show))
        found += _falls_shut(piece, turns, setting)
        found += swing_findings(piece, turns, show)
    return tuple(found)


def open_lid_of(piece: Piece, weighed: Weighed, turns: TurnsOpen) -> OpenLid:
    """A lid and the rest of its piece as the statics take them: heights above the floor.

    Args:
        piece: the piece as cut
        weighed: its mass and where it touches the floor
        turns: the lid
    """
    floor = weighed.extents[0][2]

    def above(point: tuple[float, float, float]) -> tuple[float, float, float]:
        return (point[0], point[1], point[2] - floor)

    placed = placed_named(piece, turns.instance)
    mass = weighed.parts[placed.part.id]
    lid = Body(mass_kg=mass.mass_kg, centre_mm=above(placed.placement.to_piece(mass.centre_mm)))
    whole = weighed.whole
    left = whole.mass_kg - lid.mass_kg
    x, y, z = (
        (whole.mass_kg * a - lid.mass_kg * b) / left
        for a, b in zip(above(whole.centre_mm), lid.centre_mm, strict=True)
    )
    return OpenLid(
        rest=Body(mass_kg=left, centre_mm=(x, y, z)),
        lid=lid,
        pin=above(turns.pin),
        axis=turns.axis,
        opens_deg=turns.opens_deg,
        front=above(turns.front),
        stays=tuple((above(a), above(b)) for a, b in turns.stays),
        hinges=sum(
            len(each.fasteners)
            for each in piece.joinings
            if each.role is Role.HINGE and each.incoming == turns.instance
        ),
    )


def _tilts(
    standing: Standing, turns: TurnsOpen, lid: OpenLid, asked: TiltLimits, show: Show
) -> Iterator[Finding]:
    limits = asked.limits(OPEN_TILT)
    opened = replace(standing, piece=lid.opened, loads=())
    demand = Demand(slope=math.tan(math.radians(asked.cautions_deg)))
    for edge in standing.edges():
        leaning = empty_leaning(lid.opened, edge)
        is_amiss = OPEN_TILT.verdict(leaning.angle_deg, limits) in (Verdict.CAUTION, Verdict.FAIL)
        advice, remedies = opened.to_do((), demand, show) if is_amiss else NOTHING_TO_DO
        yield Finding(
            check=OPEN_TILT,
            subject=f"{edge.name} edge",
            value=leaning.angle_deg,
            limits=limits,
            tipping=Tipping(ways=ways_of(edge)),
            basis=f"{turns.instance} open by {turns.opens_deg:g}°, nothing on it and nothing in "
            f"the box: centre of mass {show(leaning.inside_mm)} inside the {edge.name} edge and "
            f"{show(leaning.height_mm)} above the floor; {asked.source}",
            advice=advice,
            remedies=remedies,
        )


def _drop(
    standing: Standing, inside: Inside | None, turns: TurnsOpen, lid: OpenLid, show: Show
) -> Iterator[Finding]:
    """How hard it strikes its stay, against what throws the piece over."""
    needed = min(tip_j(lid.opened, edge) for edge in standing.edges())
    if needed <= 0.0:
        return  # it falls as it is opened, which is told
    share = 100.0 * lid.drop_j() / needed
    limits = DROPPED_LID.limits(standing.rules)
    is_amiss = DROPPED_LID.verdict(share, limits) is not Verdict.OK
    kg = _held_down_kg(standing, inside, lid) if is_amiss else None
    laid = "" if kg is None else f", or lay {show.mass(show.mass_up(kg))} in the box, in its middle"
    yield Finding(
        check=DROPPED_LID,
        subject=turns.instance,
        value=share,
        limits=limits,
        basis=f"it falls from upright to {turns.opens_deg:g}°, and all of that goes into tipping "
        "the piece: a bound; its own swing, a slack stay and what lies in the box make it less",
        advice=f"let it open less far{laid}" if is_amiss else "",
    )


def _falls_shut(piece: Piece, turns: TurnsOpen, setting: Setting) -> Iterator[Finding]:
    """A chest's lid on plain hinges, which nothing slows."""
    inside = piece.intent.inside
    if inside is None:
        return
    sizes = (high - low for low, high in zip(inside.low, inside.high, strict=True))
    yield Finding(
        check=FALLING_LID,
        subject=turns.instance,
        value=math.prod(sizes),
        limits=FALLING_LID.limits(setting.rules),
        basis="plain hinges and a chain hold it open past upright alone: lids of toy chests have "
        "killed; smaller boxes trap fingers",
        advice="use hinges or a stay that hold it wherever it is let go, and bore it for air",
    )


def _held_down_kg(standing: Standing, inside: Inside | None, lid: OpenLid) -> float | None:
    """What lies in the box, its middle in the middle of the room, so that a dropped lid does not
    tip it [kg]; None where it has no bottom, or ten times its own weight do not hold it down.
    """
    if inside is None or inside.is_open_below:
        return None
    x, y, z = ((low + high) / 2.0 for low, high in zip(inside.low, inside.high, strict=True))
    kg, whole = 0.0, lid.opened
    while min(tip_j(whole, edge) for edge in standing.edges()) < lid.drop_j():
        kg += 0.1
        if kg > 10.0 * lid.opened.mass_kg:
            return None
        whole = combined((lid.opened, Body(mass_kg=kg, centre_mm=(x, y, z))))
    return kg


def _pulls(
    piece: Piece,
    standing: Standing,
    turns: TurnsOpen,
    lid: OpenLid,
    setting: Setting,
    show: Show,
) -> Iterator[Finding]:
    """What pulls on its hinges and stays: by itself, and with a hand on it."""
    supported = [
        fastener.pull_n
        for each in piece.joinings
        if each.role is Role.HINGE and each.incoming == turns.instance
        for fastener in each.fasteners
    ]
    known = [each for each in supported if each is not None]
    if len(known) < len(supported) or turns.stay_bears_n is None:
        yield not_checked(
            OPEN_PULL, f"{turns.instance} on {turns.hinged_to}",
            "no figure is known for what screws bear in its wood",
            advice="give the wood its density",
        )  # fmt: skip
        return
    bears = (
        ("a hinge", min(known), turns.hinge_screws),
        ("a stay", turns.stay_bears_n, turns.stay_screws),
    )
    asked = setting.rules[LEAST_RACKING]
    tips = math.inf if setting.held is HeldBy.WALL else lid.tipping_hand_n(standing.edges())
    hand = min(asked, tips)
    alone, leant_on = lid.pulls_n(0.0), lid.pulls_n(hand)
    tipped = ", at which the piece tips" if hand < asked else ""
    for (which, bearing, screws), by_itself, with_hand in zip(bears, alone, leant_on, strict=True):
        may_be_halved = screws is turns.stay_screws and len(turns.stays) == 1
        for pull, subject, limits, basis in (
            (by_itself, f"{turns.instance} open", OPEN_PULL.limits(fails=bearing),
             f"by its own weight, open by {turns.opens_deg:g}°"),
            (with_hand, f"a hand on {turns.instance}", OPEN_PULL.limits(cautions=bearing),
             f"a push of {show.force(hand)} on the front edge of the open lid{tipped}"),
        ):  # fmt: skip
            share = pull / bearing
            found, otherwise = _longer_screws(which, screws, share, show)
            both = "fix a stay at either side" if may_be_halved and share <= 2.0 else ""
            yield Finding(
                check=OPEN_PULL, subject=f"{subject}, on {which}", value=pull, limits=limits,
                basis=basis, advice=said(found, otherwise, both) if share > 1.0 else "",
                remedies=found if share > 1.0 else (),
            )  # fmt: skip


def _longer_screws(
    which: str, screws: LongerScrews, share: float, show: Show
) -> tuple[tuple[Remedy, ...], str]:
    """The shortest screws that are sold and bear so many times as much; else in which wood."""
    needed = screws.bearing(share)
    long = next((each for each in screws.sold_mm if each >= needed - _HAIR_MM), None)
    if long is None:
        return (), f"take {which} with more screws, or thicker ones"
    if long <= screws.most_mm + _HAIR_MM:
        words = f"put screws {show(long)} long into {which.replace('a ', 'each ')}"
        return (
            Remedy(
                change=Change.SCREW, words=words, amount=long, unit="mm", enough=needed,
                most=screws.most_mm,
            ),
        ), ""  # fmt: skip
    return (), (
        f"take {which} with more screws, or thicker ones: {screws.thin} is too thin for screws "
        f"{show(long)} long"
    )


def shy_lid_findings(piece: Piece, setting: Setting) -> tuple[Finding, ...]:
    """How far the front edge of each hinged lid draws back behind its rail in the dry season.

    Args:
        piece: the piece as cut
        setting: the place where it stands, and the maker's rules

    **Source:** as the seasons of any part; it is held at its back, so all of it shows in front.
    """
    show = shown_by(piece)
    return tuple(
        _shy(piece, turns, turns.over_mm, setting, show)
        for turns in piece.intent.opens
        if turns.over_mm is not None
    )


def _shy(piece: Piece, turns: TurnsOpen, over: float, setting: Setting, show: Show) -> Finding:
    side = side_of(placed_named(piece, turns.instance), 1)
    try:
        shift = shift_of(side, setting.climate)
    except NoCoefficient:
        return not_checked(
            SHY_LID, turns.instance, f"{DATA_UNKNOWN}, so its movement is not known",
            advice="let it stand out in front by a hundredth of its depth",
        )  # fmt: skip
    shy = max(0.0, -shift.driest_mm - over)
    return Finding(
        check=SHY_LID,
        subject=turns.instance,
        value=shy,
        limits=SHY_LID.limits(setting.rules),
        basis=f"{setting.climate.name}: its hinges hold its back edge, so its front one moves by "
        f"{signed(shift.driest_mm, show)} to {signed(shift.dampest_mm, show)} over the year, and "
        f"it stands out there by {show(over)} as made",
        advice=f"let it stand out {show(show.up(over + shy))} in front, or make it of a sheet"
        if shy > 0.0
        else "",
    )
