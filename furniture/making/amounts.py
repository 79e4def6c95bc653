"""How much of what, and how long: glue and clamps of each glue-up, grits and coats at the end."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from furniture.joints.joint import JointFace
from furniture.making.bench.finishing import FinishTime, Marks, finish_litres, finish_time, sanding
from furniture.making.bench.gluing import GlueTime, glue_grams, glue_time
from furniture.making.bench.pressing import ClampsChosen, choose_clamps, pressure_asked_mpa
from furniture.making.finish_area import finished_area_mm2
from furniture.making.glue_ups.values import ClampLine, Stage
from furniture.parts.vectors import dot, subtract
from furniture.pieces.piece import Piece, placed_named
from furniture.pieces.weighed import Weighed
from furniture.rules.staying import CAUL_THICKNESS, CLAMP_MINUTES
from furniture.shop.tools.finishes import FinishFacts
from furniture.shop.tools.glues import GlueFacts
from furniture.shop.tools.values import ClampLot, ShopRead

_MINUTE_S = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressing:
    """One line of clamps: the force that the glue asks for there [N], and the clamps on hand.

    force_n is None where the glue asks for no figure: the joint is closed and no harder.
    """

    line: ClampLine
    force_n: float | None
    clamps: ClampsChosen


@dataclass(frozen=True, slots=True, kw_only=True)
class Gluing:
    """What one glue-up takes of glue [g], of time and of clamps."""

    number: int
    glue: GlueFacts
    grams: float
    spread_minutes: float
    time: GlueTime
    pressing: tuple[Pressing, ...]


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
            shop.glue, stage.spread_seconds / _MINUTE_S, clamps * CLAMP_MINUTES.value, piece.rules
        ),
        pressing=pressing,
    )


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
    opening = abs(dot(subtract(second.at, first.at), line.direction)) + 2.0 * CAUL_THICKNESS.value
    clamps = choose_clamps(left, force or 0.0, opening)
    return Pressing(line=line, force_n=force, clamps=clamps)


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
