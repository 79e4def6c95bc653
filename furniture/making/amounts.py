"""How much of what, and how long: glue and clamps of each glue-up, grits and coats at the end."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import Enum

from furniture.joints.joint import JointFace
from furniture.making.bench.finishing import FinishTime, Marks, finish_litres, finish_time, sanding
from furniture.making.bench.gluing import (
    GlueTime,
    closed_minutes_left,
    glue_grams,
    glue_time,
)
from furniture.making.bench.pressing import (
    ClampsChosen,
    band_tension_n,
    choose_clamps,
    clamps_needed,
    pressure_asked_mpa,
)
from furniture.making.finish_area import finished_area_mm2
from furniture.making.glue_ups.values import Band, ClampLine, Stage
from furniture.parts.vectors import dot, subtract
from furniture.pieces.piece import Piece, placed_named
from furniture.pieces.weighed import Weighed
from furniture.rules.bench import CAUL_THICKNESS, CLAMP_MINUTES
from furniture.shop.tools.finishes import FinishFacts
from furniture.shop.tools.glues import GlueFacts
from furniture.shop.tools.values import ClampLot, ShopRead

_MINUTE_S = 60.0


class Reach(Enum):
    """How clamps come to a line of force."""

    HEADS = "their heads reach it"
    CAUL_ACROSS = "a stiff caul across on both sides, a clamp at each end"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressing:
    """One line of clamps: the force that the glue asks for there [N], and the clamps on hand.

    force_n is None where the glue asks for no figure: the joint is closed and no harder; wanting is
    how many more clamps would press it as hard. Where it lies further in than any clamp on hand
    reaches, they stand at the ends of two cauls.
    """

    line: ClampLine
    force_n: float | None
    clamps: ClampsChosen
    wanting: int = 0
    reach: Reach = Reach.HEADS


@dataclass(frozen=True, slots=True, kw_only=True)
class Gluing:
    """What one glue-up takes of glue [g], of time and of clamps.

    closed_minutes: that are left to draw the clamps tight once all is spread [min], None where only
    the label knows; bands: that press each ring as hard as the glue asks, in their order, 1 where
    it asks for no figure.
    """

    number: int
    glue: GlueFacts
    grams: float
    spread_minutes: float
    time: GlueTime
    pressing: tuple[Pressing, ...]
    closed_minutes: float | None = None
    bands: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Finishing:
    """What the finish takes: grits in order, area of a coat [mm2], litres of all coats, time."""

    facts: FinishFacts
    coats: int
    grits: tuple[int, ...]
    area_mm2: float
    litres: float
    time: FinishTime


def gluing_of(piece: Piece, stage: Stage, shop: ShopRead) -> Gluing:
    """What a glue-up takes.

    Glue is spread on both faces of a joint.

    Args:
        piece: that it is of.
        stage: the glue-up.
        shop: its glue and clamps.
    """
    area = 2.0 * math.fsum(each.face.area_mm2 for each in stage.spread)
    pressing = tuple(_lines_pressed(piece, stage, shop))
    clamps = sum(each.clamps.count for each in pressing) + len(stage.bands)
    return Gluing(
        number=stage.number,
        glue=shop.glue,
        grams=glue_grams(shop.glue, area, piece.rules),
        spread_minutes=stage.spread_seconds / _MINUTE_S,
        time=glue_time(
            shop.glue,
            stage.spread_seconds / _MINUTE_S,
            clamps * piece.rules[CLAMP_MINUTES],
            piece.rules,
        ),
        pressing=pressing,
        closed_minutes=closed_minutes_left(
            shop.glue, stage.spread_seconds / _MINUTE_S, piece.rules
        ),
        bands=tuple(_bands(piece, stage, each, shop) for each in stage.bands),
    )


def _bands(piece: Piece, stage: Stage, ring: Band, shop: ShopRead) -> int:
    """How many bands like the one on hand press every mitre of a ring as hard as the glue asks."""
    woods = [placed_named(piece, name).part.timber.species for name in ring.round]
    asked = pressure_asked_mpa(shop.glue, woods, piece.rules)
    mitres = [
        math.fsum(face.area_mm2 for face in joining.glued_faces)
        for joining in stage.glued
        if (joining.into, joining.incoming) in ring.pressed
    ]
    if asked is None or shop.band is None or not mitres:
        return 1
    wanted = band_tension_n(max(mitres), asked)
    return max(1, math.ceil(wanted / shop.band.tension_n - 1e-9))


def _lines_pressed(piece: Piece, stage: Stage, shop: ShopRead) -> Iterator[Pressing]:
    """Every line with clamps of its own: all of a stage stand at once."""
    left = shop.clamps
    for line in stage.clamps:
        found = _pressing(piece, line, shop, left)
        taken = dict(found.clamps.chosen)
        left = tuple(replace(lot, count=lot.count - taken.get(lot, 0)) for lot in left)
        yield found


def _pressing(
    piece: Piece, line: ClampLine, shop: ShopRead, left: tuple[ClampLot, ...]
) -> Pressing:
    """The clamps of one line: faces that lie one behind another share its force."""
    names = {name for pair, _ in line.pressed for name in pair}
    woods = [placed_named(piece, name).part.timber.species for name in sorted(names)]
    asked = pressure_asked_mpa(shop.glue, woods, piece.rules) if woods else None
    area = max((_seen(face, line) for _, face in line.pressed), default=0.0)
    force = None if asked is None else asked * area
    first, second = line.pads
    opening = (
        abs(dot(subtract(second.at, first.at), line.direction))
        + 2.0 * piece.rules[CAUL_THICKNESS]
        + first.rise_mm
        + second.rise_mm
    )
    open_so_far = [lot for lot in shop.clamps if lot.opening_mm >= opening]
    reaching = [lot for lot in open_so_far if lot.throat_mm >= line.throat_mm]
    reach = Reach.HEADS
    clamps = choose_clamps(left, force or 0.0, opening, throat_mm=line.throat_mm)
    across = choose_clamps(left, force or 0.0, opening, at_least=2)
    if len(reaching) < len(open_so_far) and not clamps.count and across.count > 1:
        reach, clamps, reaching = Reach.CAUL_ACROSS, across, open_so_far
    strongest = max((lot.force_n for lot in reaching or open_so_far), default=None)
    wanting = 0
    if clamps.short_n > 0.0 and strongest is not None and asked is not None:
        wanting = clamps_needed(clamps.short_n / asked, asked, strongest)
    return Pressing(line=line, force_n=force, clamps=clamps, wanting=wanting, reach=reach)


def _seen(face: JointFace, line: ClampLine) -> float:
    """The area of a face as the line of force sees it [mm2]."""
    return face.area_mm2 * abs(dot(face.normal, line.direction))


def finishing_of(piece: Piece, weighed: Weighed, shop: ShopRead) -> Finishing | None:
    """What the finish takes; None where there is none.

    Args:
        piece: that is finished.
        weighed: its solids as measured.
        shop: its finish.
    """
    if shop.finish is None:
        return None
    facts, coats = shop.finish.facts, shop.finish.coats
    area = finished_area_mm2(piece, weighed)
    return Finishing(
        facts=facts,
        coats=coats,
        grits=sanding(Marks.PLANED_BY_MACHINE, facts.last_grit, piece.rules),
        area_mm2=area,
        litres=finish_litres(facts, area, coats, piece.rules),
        time=finish_time(facts, coats),
    )
