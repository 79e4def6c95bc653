"""Brackets: wedges before a post or against two uprights, on which a tier rests."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.builders.bracket_places import BracketPlace, BracketReach, bracket_calls
from furniture.builders.common import Names, StockOf
from furniture.builders.lips import LipFigures
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.builders.sold_screws import NUMBER_8_MM, USUAL_SCREW_MM, longest_sold_mm
from furniture.builders.support import Support
from furniture.builders.tiers import TierFigures
from furniture.joints import ButtJoint, Driven, HoldBy, Joint, Role
from furniture.parts.blank import Blank
from furniture.parts.cuts import Bore, Cut, FlatMitre
from furniture.parts.faces import Face
from furniture.parts.part import Kin, Part, Placed, Rough
from furniture.parts.placement import Placement
from furniture.parts.vectors import DOWN, add, cross, scaled
from furniture.pieces import Note
from furniture.rules.building import (
    BRACKET_BESIDE,
    BRACKET_CLEAR,
    BRACKET_SCREW_EDGE,
    BRACKET_SCREW_WOOD,
    LEAST_BITE,
    LEAST_BRACKET_HEIGHT,
    LEAST_BRACKET_NOSE,
    STEEPEST_BRACKET,
)
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import Given, counted, parameters, said

_SLOPE_STEP_DEG = 0.5
"""To what a mitre gauge is set by eye [deg]. Common practice, no source."""
_LEVEL = 1e-6
_HOLE_MM, _HOLE_INCH_MM = 4.5, 25.4 * 3 / 16
_SINK_MM, _SINK_INCH_MM = 9.0, 25.4 * 3 / 8
"""The hole in the post for a usual screw, and its mouth. Common practice, no source."""


@parameters
class Bracket:
    """Wedges under a tier, against the front of the post or the inner faces of both uprights.

    Their grain runs up as that of what they stand against does, so that their backs are glued long
    grain to long grain; the tier rests on them dry. At a post two screws from behind hold each
    where one that is sold bites it; on an upright they would show, and glue alone holds it. Each is
    a part with a name, such as `tier 2 bracket`, `tier 2 left bracket` of a pair or between
    uprights, or `tier 2 left front bracket` of two at each upright.

    Args:
        on: a tier such as `tier 2`, or `tiers`.
        count: one in the middle of the post, or two side by side; at each upright one in the
            middle, or two one behind the other.
        stock: of the brackets (default: their tier's own).
        reach: from post or upright (default: three fifths of what the tier stands out from the
            post, or a sixth of its span).
        height: at post or upright (default: as its reach, as far as there is room).
        nose: what is left of the height at its front, at least; its lower end is sawn on a slope
            of whole or half degrees.
    """

    on: str = "tiers"
    count: int = 1
    stock: Stock | None = None
    reach: Given | None = None
    height: Given | None = None
    nose: Given = "12 mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketFigures:
    """A bracket under a tier [mm].

    `place` is where it stands, `top` the underside of the tier. Its lower end slopes by
    `slope_deg`. `screws` stand so far below its top, and are none where glue alone holds it.
    """

    name: str
    on: str
    place: BracketPlace
    timber: Timber
    reach: float
    height: float
    slope_deg: float
    top: float
    screw: Driven | None
    screws: tuple[float, ...]


def read_brackets(
    reader: DesignReader,
    brackets: object,
    names: Names,
    support: Support,
    steps: Sequence[TierFigures],
    stock: StockOf,
    below: Mapping[str, float],
    has_uprights: bool,
) -> tuple[BracketFigures, ...]:
    """The brackets, from the lowest tier up; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        brackets: several `Bracket`.
        names: of the piece.
        support: what carries the tiers.
        steps: the tiers from the lowest up.
        stock: of each tier, which is that of its bracket where it names none.
        below: how high what is under each tier reaches [mm].
        has_uprights: whether the tiers lie between uprights.
    """
    found: list[BracketFigures] = []
    tiers = {step.name: step for step in steps}
    entries = reader.several("brackets", brackets, Bracket, reader.example("Bracket"))
    for index, bracket in enumerate(entries):
        where = counted("bracket", index, getattr(bracket, "on", None))
        if not isinstance(bracket, Bracket):
            like = f"write {reader.example('Bracket')}"
            reader.refuse(where, said(bracket), "a Bracket", "it says what it bears", like)
            continue
        reader.names(f"{where} ", bracket)
        meant = [name for name in names.meant_by(bracket.on) if name in tiers]
        if not meant:
            reader.refuse(
                f"{where} on", said(bracket.on), ", ".join(("tiers", *tiers)),
                "a bracket is under a tier", "write 'tiers'",
            )  # fmt: skip
        usual = {name: stock.timber(name) for name in meant}
        if bracket.stock is not None:
            usual = dict.fromkeys(meant, read_stock(reader, f"{where} stock", bracket.stock))
        called = bracket_calls(bracket.count, has_uprights)
        timbers = {
            (tier, each): stock.own_or(f"{tier} {each}", usual[tier])
            for tier in meant
            for each in called
        }
        steps_meant = [tiers[each] for each in meant]
        places = _places(reader, where, bracket, support, steps_meant, list(timbers.values()))
        for name in meant:
            if name in {each.on for each in found}:
                reader.refuse(
                    f"{where} on", said(bracket.on), "each tier once",
                    f"{name} has a bracket already", "leave it out, or write count=2 for a pair",
                )  # fmt: skip
        figures = _read(reader, where, bracket, steps_meant, support, below)
        for (tier, each), timber in timbers.items():
            figure, place = figures.get(tier), places.get((tier, each))
            if timber is None or place is None or figure is None or not figure.is_known:
                continue
            found.append(_with_screws(reader, tiers[tier], place, timber, figure))
    return tuple(found)


def bracket_names(brackets: object, names: Names, has_uprights: bool) -> tuple[str, ...]:
    """The instances that these brackets will be, as far as they can be told before they are read.

    Args:
        brackets: as the script has them.
        names: of the piece without them.
        has_uprights: whether the tiers lie between uprights.
    """
    listed = brackets if isinstance(brackets, (list, tuple)) else (brackets,)
    return tuple(
        dict.fromkeys(
            f"{tier} {called}"
            for each in listed
            if isinstance(each, Bracket)
            for tier in names.meant_by(each.on)
            for called in bracket_calls(each.count, has_uprights)
        )
    )


def below_tiers(
    support: Support, steps: Sequence[TierFigures], lips: Sequence[LipFigures]
) -> dict[str, float]:
    """How high what is under each tier reaches: lid or tier with the lip that stands on it [mm]."""
    high = {lip.on: lip.height for lip in lips}
    tops = [support.box.lid_top, *(step.top + high.get(step.name, 0.0) for step in steps)]
    return {step.name: top for step, top in zip(steps, tops, strict=False)}


def _places(
    reader: DesignReader,
    where: str,
    bracket: Bracket,
    support: Support,
    steps: Sequence[TierFigures],
    timbers: Sequence[Timber | None],
) -> dict[tuple[str, str], BracketPlace]:
    """Where each bracket stands, by its tier and by what it is called beside it."""
    count = reader.whole(f"{where} count", bracket.count, 1, 2, 1, "one bears, and two keep level")
    found = {
        (step.name, place.called): place
        for step in steps
        for place in support.bracket_places(step, count or 1)
    }
    if steps and not found:
        reader.refuse(
            f"{where} count", "1", "2", "the middle of the post is a glue line between two strips, "
            "where no screw holds", "make it 2",
        )  # fmt: skip
        return {}
    thickest = max((each.thickness_mm for each in timbers if each is not None), default=math.nan)
    if count is not None:
        beside = reader.rules[BRACKET_BESIDE]
        wide = min((each.wide for each in found.values()), default=math.nan)
        reader.limit(
            f"{where} stock thickness", thickest, at_most=at_most_known(wide - 2 * beside),
            why=f"{reader.least(beside)} of what a bracket stands against stay on either side of "
            "it (own rule)",
        )  # fmt: skip
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wedge:
    """Reach, height and nose of a bracket [mm]."""

    reach: float
    height: float
    nose: float

    @property
    def is_known(self) -> bool:
        """Whether none of its figures was refused."""
        return not math.isnan(self.reach + self.height + self.nose)


def _read(
    reader: DesignReader,
    where: str,
    bracket: Bracket,
    steps: Sequence[TierFigures],
    support: Support,
    below: Mapping[str, float],
) -> dict[str, _Wedge]:
    """The wedge under each of some tiers; a figure that is given serves them all."""
    rules = reader.rules
    lowest = rules[LEAST_BRACKET_HEIGHT]
    why = f"{reader.least(rules[BRACKET_CLEAR])} stay free above what is under the tier"
    rooms = {step.name: step.bottom - below[step.name] - rules[BRACKET_CLEAR] for step in steps}
    short = [step for step in steps if rooms[step.name] < lowest - 1e-6]
    for step in short:
        more = reader.least(lowest - rooms[step.name])
        reader.refuse(
            f"{where} on", said(bracket.on), "a tier with room below it",
            f"a bracket under {step.name} lower than {reader.least(lowest)} bears little, and "
            f"{why}",
            f"let {step.name} rise {more} more, or leave its bracket out",
        )  # fmt: skip
    if short or not steps:
        return {}
    allowed = {step.name: support.bracket_reach(step, rules) for step in steps}
    reaches = {name: each.usual for name, each in allowed.items()}
    if bracket.reach is not None:
        reach = _read_reach(reader, where, bracket.reach, list(allowed.values()))
        reaches = dict.fromkeys(reaches, reach)
    heights = {name: max(lowest, min(reaches[name], rooms[name])) for name in reaches}
    if bracket.height is not None:
        height = reader.length(
            f"{where} height", bracket.height, at_least=lowest,
            at_most=at_most_known(min(rooms.values())),
            why=f"a lower one bears little, and {why}",
        )  # fmt: skip
        heights = dict.fromkeys(heights, height)
    steepest = rules[STEEPEST_BRACKET]
    drops = [heights[name] - math.tan(math.radians(steepest)) * reaches[name] for name in reaches]
    nose = reader.length(
        f"{where} nose", bracket.nose,
        at_least=at_least_known(max(drops), rules[LEAST_BRACKET_NOSE]),
        at_most=at_most_known(min(heights.values())),
        why=f"a thinner end splits off, and a saw turns {steepest:g} degrees at most",
    )  # fmt: skip
    return {name: _Wedge(reach=reaches[name], height=heights[name], nose=nose) for name in reaches}


def _read_reach(
    reader: DesignReader, where: str, given: Given, allowed: Sequence[BracketReach]
) -> float:
    """How far the brackets under some tiers reach [mm]."""
    least, most = max(each.least for each in allowed), min(each.most for each in allowed)
    why = allowed[0].why
    if least > most:
        reader.refuse(
            f"{where} reach", said(given), "no one figure for all these tiers", why,
            "leave it out, or write a Bracket for each tier",
        )  # fmt: skip
        return math.nan
    return reader.length(
        f"{where} reach", given, at_least=at_least_known(least), at_most=at_most_known(most),
        why=why,
    )  # fmt: skip


def _with_screws(
    reader: DesignReader,
    step: TierFigures,
    place: BracketPlace,
    timber: Timber,
    wedge: _Wedge,
) -> BracketFigures:
    """The bracket under a tier with what holds it from behind."""
    screw = None
    if place.behind is not None:
        screw = _screw(reader, place.behind, wedge.reach, timber.thickness_mm)
    slope = math.degrees(math.atan2(wedge.height - wedge.nose, wedge.reach))
    slope = math.floor(slope / _SLOPE_STEP_DEG + _LEVEL) * _SLOPE_STEP_DEG
    heights: tuple[float, ...] = ()
    if screw is not None:
        edge = reader.rules[BRACKET_SCREW_EDGE]
        lowest = wedge.height - math.tan(math.radians(slope)) * screw.into_mm - edge
        heights = (edge, lowest) if lowest >= 2 * edge else (edge,) if lowest >= edge else ()
    return BracketFigures(
        name=f"{step.name} {place.called}",
        on=step.name,
        place=place,
        timber=timber,
        reach=wedge.reach,
        height=wedge.height,
        slope_deg=slope,
        top=step.bottom,
        screw=screw if heights else None,
        screws=heights,
    )


def _screw(reader: DesignReader, post: float, reach: float, thickness: float) -> Driven | None:
    """The longest screw that is sold and bites half the bracket at most, and does not split it."""
    is_inch = reader.shown.is_inch
    diameter = NUMBER_8_MM if is_inch else USUAL_SCREW_MM
    length = longest_sold_mm(post + reach / 2, is_inch)
    if not length >= post + reader.rules[LEAST_BITE] or not (
        thickness >= reader.rules[BRACKET_SCREW_WOOD] * diameter
    ):
        return None
    return Driven(
        by=HoldBy.SCREW,
        name="countersunk wood screw",
        diameter_mm=diameter,
        incoming_mm=post,
        into_mm=length - post,
        note="from behind, through the post",
    )


def place_bracket(bracket: BracketFigures, rough: Rough) -> Placed:
    """A bracket with its named end up and its face edge at what it stands against.

    Args:
        bracket: its figures.
        rough: allowances.
    """
    thickness = bracket.timber.thickness_mm
    blank = Blank(length_mm=bracket.height, width_mm=bracket.reach, thickness_mm=thickness)
    cuts: tuple[Cut, ...] = ()
    if bracket.slope_deg > 0.0:
        slope = bracket.slope_deg
        cuts = (FlatMitre(end=Face.FAR_END, gauge_angle_deg=slope, long_point_edge=Face.FACE_EDGE),)
    out, middle = bracket.place.out, (*bracket.place.at, bracket.top)
    return Placed(
        instance=bracket.name,
        part=Part(name=bracket.name, blank=blank, timber=bracket.timber, cuts=cuts, rough=rough),
        placement=Placement(
            origin=add(middle, scaled(cross(DOWN, out), -thickness / 2)), x_axis=DOWN, y_axis=out
        ),
        kin=Kin("bracket"),
    )


def bracket_joints(bracket: BracketFigures) -> list[Joint]:
    """A bracket glued, and screwed where it is, to what it stands against; its tier rests on it."""
    driven: tuple[Driven, ...] = ()
    if bracket.screw is not None:
        driven = tuple(
            replace(bracket.screw, off_middle_mm=each - bracket.height / 2)
            for each in bracket.screws
        )
    name, post = bracket.name, bracket.place.instance
    # a screw passes what comes and bites the other: it comes through the post
    into, incoming = (name, post) if driven else (post, name)
    return [
        ButtJoint(into=into, incoming=incoming, role=Role.SEAT, driven=driven),
        ButtJoint(into=bracket.on, incoming=name, role=Role.SEAT, is_glued=False),
    ]


def bracket_notes(brackets: Sequence[BracketFigures]) -> tuple[Note, ...]:
    """What the sheets say of those that no figure places: the holes behind them do."""
    held = tuple(each.name for each in brackets if each.screws)
    said = (
        "glue a bracket with its middle on its holes and its top close under its tier, then screw"
    )
    return (Note(said, held),) if held else ()


def bored_for(
    placed: Sequence[Placed], brackets: Sequence[BracketFigures], is_inch: bool
) -> list[Placed]:
    """The instances with the holes in the post through which brackets are screwed from behind.

    Args:
        placed: every part of the piece in its place.
        brackets: of all tiers.
        is_inch: whether the maker buys bits by the inch.
    """
    bores: dict[str, tuple[Cut, ...]] = {}
    standing = {each.instance: each for each in placed}
    for bracket in brackets:
        post = bracket.place.instance
        for down in bracket.screws:
            at = (*bracket.place.at, bracket.top - down)
            x, y, _ = standing[post].placement.to_part(at)
            bore = Bore(
                face=Face.BACK_SIDE, x_mm=x, y_mm=y,
                diameter_mm=_HOLE_INCH_MM if is_inch else _HOLE_MM,
                countersink_diameter_mm=_SINK_INCH_MM if is_inch else _SINK_MM,
            )  # fmt: skip
            bores[post] = (*bores.get(post, ()), bore)
    return [
        replace(each, part=replace(each.part, cuts=each.part.cuts + bores.get(each.instance, ())))
        for each in placed
    ]
