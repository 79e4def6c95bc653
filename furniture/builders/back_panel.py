"""A back between two uprights: a panel in rabbets behind the tiers, put in from behind."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from furniture.builders.base_box import BoxFigures, usual_gap_mm
from furniture.builders.bottom import panel_pin
from furniture.builders.common import StockOf
from furniture.builders.edges import panel_hidden
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.rules import DesignReader, at_least_known, at_most_known, is_room
from furniture.joints import ButtJoint, Driven, Joint, RabbetJoint, Role
from furniture.parts.blank import Blank
from furniture.parts.faces import EDGES, ENDS, Arris, Face
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import LEFT, RIGHT, UP
from furniture.pieces import Note
from furniture.rules.building import (
    BACK_ABOVE_RAIL,
    LEAST_BACK,
    LEAST_RABBET_FLOOR,
    LEAST_RABBET_WALL,
    RABBET_WALL_SHARE,
    SHEET_BACK_GAP,
)
from furniture.timber.movement import Across
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.timber.wood import Kind
from furniture.units import REQUIRED, Given, parameters, said

BACK_PANEL = "back panel"


class BackFixing(Enum):
    """How a back panel is held."""

    PINNED = "pinned"
    """By a pin at the middle of every tier, or of one where its grain runs from side to side, so
    that it can move with the seasons."""
    GLUED = "glued"
    """Glued in its rabbets and to the tiers: for sheet stock, which then braces the stand."""


@parameters
class BackPanel:
    """A panel behind the tiers, from the base to the top of the post or the uprights.

    Between uprights it lies in their rabbets and tiers end at its front; their depths are still
    measured from the uprights' back edges. On a post it lies against its back.

    Args:
        stock: a sheet, or solid wood.
        width: on a post (default: as wide as the widest tier).
        let_in: how far it goes into either upright, its gap beyond it (default: as deep as a dado,
            and as far as it needs to lie there when it has shrunk).
        gap: beyond its edge, in either upright (default: by its wood's seasonal movement).
        fixing: glued or pinned (default: glued on a post; between uprights a sheet is glued, solid
            wood pinned).
        grain: up, `PanelGrain.ACROSS`, or from side to side.
    """

    stock: Stock = REQUIRED
    width: Given | None = None
    let_in: Given | None = None
    gap: Given | None = None
    fixing: BackFixing | None = None
    grain: PanelGrain = PanelGrain.ACROSS


@dataclass(frozen=True, slots=True, kw_only=True)
class BackFigures:
    """The back panel's figures [mm]: `rabbet` is how deep each upright is cut, its gap and all.

    The rabbets begin at the top of the back rail, and the panel's foot stands a little above that.
    """

    thickness: float
    rabbet: float
    gap: float
    rail: float
    foot: float
    fixing: BackFixing
    pins: tuple[Driven, ...]
    grain: PanelGrain
    is_sheet: bool

    def pinned_at(self, tiers: Sequence[str]) -> tuple[str, ...]:
        """The tiers that it is pinned to: at one height alone where it moves in height."""
        if self.fixing is BackFixing.GLUED:
            return ()
        if self.is_sheet or self.grain is PanelGrain.ACROSS:
            return tuple(tiers)
        return (tiers[len(tiers) // 2],)


def read_back_stock(reader: DesignReader, given: object) -> Timber | None:
    """The panel's timber; problems are noted with the reader."""
    if not isinstance(given, BackPanel):
        reader.refuse(
            "back_panel", said(given), "BackPanel(...)", "it says what the back is",
            f"write {reader.example('BackPanel')}",
        )  # fmt: skip
        return None
    return read_stock(reader, "back_panel.stock", given.stock)


def read_back_panel(
    reader: DesignReader,
    given: BackPanel,
    timber: Timber | None,
    box: BoxFigures,
    uprights: tuple[float, str],
    dado: float,
    height: float,
) -> BackFigures:
    """The panel's figures; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: the parameter set.
        timber: of the panel, if it could be read.
        box: of the base.
        uprights: their thickness [mm], and the parameter of their stock.
        dado: how deep the tiers go into them [mm].
        height: from the back rail to their tops [mm].
    """
    reader.names("back_panel.", given)
    rules = reader.rules
    if given.width is not None:
        reader.refuse(
            "back_panel.width", said(given.width), "nothing",
            "it is as wide as the uprights are apart, and what it goes into them", "leave it out",
        )  # fmt: skip
    thick, stock = uprights
    thickness = math.nan if timber is None else timber.thickness_mm
    before = box.wall if box.has_lid else box.rail  # none where it stands on a foot board
    if not math.isnan(thickness):
        reader.limit(
            "back_panel.stock thickness", thickness, at_least=rules[LEAST_BACK],
            at_most=max(rules[LEAST_BACK], at_most_known(before)) if before > 0.0 else math.inf,
            why="the tiers' dados end in its rabbet, and the lid below lifts out before it",
        )  # fmt: skip
    is_sheet = timber is not None and timber.species.kind is Kind.SHEET
    grain = reader.choice("back_panel.grain", given.grain, PanelGrain, PanelGrain.ACROSS)
    is_up = grain is PanelGrain.ACROSS
    between = box.width - 2 * thick
    gap = (
        rules[SHEET_BACK_GAP]
        if is_sheet and given.gap is None
        else usual_gap_mm(
            reader, "back_panel.gap", between, timber, Across.WIDTH if is_up else Across.LENGTH
        )
        if given.gap is None
        else reader.length(
            "back_panel.gap", given.gap, at_least=0.2, at_most=10.0,
            why="wood moves across the grain with the seasons: 0 would spread the uprights",
        )
    )  # fmt: skip
    least = gap + max(rules[LEAST_RABBET_FLOOR], at_least_known(dado - gap))
    most = thick - max(rules[LEAST_RABBET_WALL], rules[RABBET_WALL_SHARE] * thick)
    why = (
        "the panel lies in its rabbets when it has shrunk, its rabbet is as deep as the tiers' "
        "dados that end in it, and a third of the upright stays outside it (common practice)"
    )
    if not is_room(
        reader, f"{stock} thickness", thick,
        max(least + rules[LEAST_RABBET_WALL], least / (1 - rules[RABBET_WALL_SHARE])), why,
        lambda nearest: f"use uprights {nearest} thick, or a panel with a smaller gap",
    ):  # fmt: skip
        least = most = math.nan
    let_in = least - gap
    if given.let_in is not None:
        let_in = reader.length(
            "back_panel.let_in", given.let_in, at_least=at_least_known(least - gap),
            at_most=at_most_known(most - gap), why=why,
        )  # fmt: skip
    usual = BackFixing.GLUED if is_sheet else BackFixing.PINNED
    fixing = reader.choice(
        "back_panel.fixing", usual if given.fixing is None else given.fixing, BackFixing, usual
    )
    if fixing is BackFixing.GLUED and timber is not None and not is_sheet:
        reader.refuse(
            "back_panel.fixing", said(fixing), "BackFixing.PINNED",
            "solid wood that is glued at both edges splits, or spreads the uprights",
            "write BackFixing.PINNED, or take a sheet",
        )  # fmt: skip
    at = "every tier" if is_sheet or is_up else "one tier alone"
    note = f"at the middle of {at}, so that the back can move"
    pin = panel_pin(reader, thickness, "back_panel.fixing", note)
    below = rules[BACK_ABOVE_RAIL]
    if not is_up and not is_sheet:
        below = max(below, usual_gap_mm(reader, "back_panel.stock", height, timber))
    return BackFigures(
        thickness=thickness,
        rabbet=let_in + gap,
        gap=gap,
        rail=box.height,
        foot=box.height + below,
        fixing=fixing,
        pins=pin if fixing is BackFixing.PINNED else (),
        grain=grain,
        is_sheet=is_sheet,
    )


def place_back_panel(
    back: BackFigures, box: BoxFigures, stock: StockOf, thick: float, top: float
) -> Placed:
    """The panel behind the tiers, face side to the front, its foot down.

    Args:
        back: its figures.
        box: of the base.
        stock: of every instance.
        thick: thickness of the uprights [mm].
        top: height of their tops [mm].
    """
    timber = stock.timber(BACK_PANEL)
    assert timber is not None, "stocks were read before parts are placed"
    into = back.rabbet - back.gap
    right = box.width - thick + into
    left = thick - into
    sizes, ways, start = (top - back.foot, right - left), (UP, LEFT), right
    if back.grain is PanelGrain.ALONG:
        sizes, ways, start = (right - left, top - back.foot), (RIGHT, UP), left
    blank = Blank(length_mm=sizes[0], width_mm=sizes[1], thickness_mm=back.thickness)
    part = Part(name=BACK_PANEL, blank=blank, timber=timber, rough=box.rough)
    placement = Placement(origin=(start, box.depth, back.foot), x_axis=ways[0], y_axis=ways[1])
    return Placed(instance=BACK_PANEL, part=part, placement=placement)


def back_panel_joints(
    back: BackFigures, uprights: tuple[str, ...], tiers: tuple[str, ...]
) -> list[Joint]:
    """The panel in the rabbets of both uprights, and against the back edge of every tier.

    Args:
        back: its figures.
        uprights: what it is let into.
        tiers: what it lies against.
    """
    is_glued, pinned = back.fixing is BackFixing.GLUED, back.pinned_at(tiers)
    return [
        *(
            RabbetJoint(
                into=each, incoming=BACK_PANEL, gap_mm=back.gap, is_glued=is_glued,
                stop_from_named_end_mm=back.rail,
            )
            for each in uprights
        ),
        *(
            ButtJoint(
                into=each, incoming=BACK_PANEL, role=Role.SEAT, is_glued=is_glued,
                driven=back.pins if each in pinned else (),
            )
            for each in tiers
        ),
    ]  # fmt: skip


def back_panel_hidden() -> dict[Arris, str]:
    """Where no profile may run on it: its front lies against tiers and in the rabbets."""
    lies = "this edge lies against the tiers, or in the uprights' rabbets"
    return panel_hidden(Face.FACE_SIDE, EDGES + ENDS, lies)


def back_panel_notes(back: BackFigures | None, tiers: Sequence[str]) -> tuple[Note, ...]:
    """What the sheets say of it; `tiers` are what it lies against."""
    if back is None:
        return ()
    pinned = back.pinned_at(tiers)
    at = "every tier" if len(pinned) == len(tiers) else f"{''.join(pinned)} alone"
    said = (
        "the back is glued in its rabbets and to the tiers: it braces the stand"
        if back.fixing is BackFixing.GLUED
        else f"the back takes no glue: pin it at the middle of {at}, so that it can move"
    )
    return (Note(said, (BACK_PANEL,)),)
