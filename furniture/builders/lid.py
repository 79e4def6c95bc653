"""The lid of a stand, and its bottom: panels in the rabbets, notched round what stands there."""

from __future__ import annotations

import math
from dataclasses import dataclass

from furniture.builders.base_box import BoxFigures, usual_gap_mm, widest_rabbet_mm
from furniture.builders.common import StockOf
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.panels import Zone, place_panel, zone_notches
from furniture.builders.rules import DesignReader, at_most_known
from furniture.builders.support import Support
from furniture.joints import Joint, RabbetJoint
from furniture.parts.part import Placed
from furniture.rules.building import LEAST_RABBET_FLOOR
from furniture.timber.movement import Across
from furniture.timber.stock import Timber
from furniture.units import Given, at_most_text


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelIn:
    """A panel lying in the rabbets of some rails.

    `gap_beside` is at its sides and beside its notches, `gap_before` in front and behind [mm].
    """

    name: str
    zones: tuple[Zone, ...]
    gap_beside: float
    gap_before: float
    underside: float


def lid_of(support: Support) -> PanelIn:
    """The lid as it lies on the rabbet floors."""
    box = support.box
    return PanelIn(
        name="lid",
        zones=support.lid_zones(),
        gap_beside=box.gap_beside,
        gap_before=box.gap_before,
        underside=box.rabbet_floor,
    )


def bottom_of(support: Support, gap: float) -> PanelIn:
    """The bottom, flush with the rails' lower edges."""
    return PanelIn(
        name="bottom",
        zones=support.bottom_zones(gap),
        gap_beside=gap,
        gap_before=gap,
        underside=0.0,
    )


def place_in_rabbets(panel: PanelIn, box: BoxFigures, stock: StockOf) -> Placed:
    """The panel with its notches."""
    left, right = box.wall + panel.gap_beside, box.width - box.wall - panel.gap_beside
    return place_panel(
        panel.name,
        stock.timber(panel.name),
        (left, box.wall + panel.gap_before),
        (right, max(zone.back for zone in panel.zones)),
        panel.underside,
        box.rough,
        zone_notches(panel.zones, left, right, panel.gap_beside, stock.grain(panel.name)),
        grain=stock.grain(panel.name),
    )


def rabbet_joints(
    panel: PanelIn,
    rails: tuple[str, ...],
    is_glued: bool,
) -> list[Joint]:
    """The panel's joints with the rails that it lies in.

    Args:
        panel: lid or bottom.
        rails: front, left, right, and then those at the back: two stubs or one rail.
        is_glued: whether it is fixed there.
    """
    front, left, right, *back = rails
    return [
        RabbetJoint(into=rail, incoming=panel.name, gap_mm=gap, is_glued=is_glued)
        for rail, gap in (
            (left, panel.gap_beside),
            (right, panel.gap_beside),
            (front, panel.gap_before),
            *((rail, panel.gap_before) for rail in back),
        )
    ]


def read_bottom_gap(
    reader: DesignReader,
    given: Given | None,
    box: BoxFigures,
    bottom: Timber | None,
    grain: PanelGrain,
) -> float:
    """The gap round a bottom [mm]; what its own stock needs across the grain when left out.

    Args:
        reader: keeps the problems.
        given: what was written.
        box: that it lies in.
        bottom: its timber, if it could be read.
        grain: which way its grain runs.
    """
    if given is None:
        long, wide = box.width, box.depth
        if grain is PanelGrain.ACROSS:
            long, wide = wide, long
        usual = usual_gap_mm(reader, "bottom_gap", wide, bottom)
        if not math.isnan(usual):  # sheets move along their length too
            usual = max(usual, usual_gap_mm(reader, "bottom_gap", long, bottom, Across.LENGTH))
        room = box.rail - box.wall - reader.rules[LEAST_RABBET_FLOOR]
        if usual > room + 1e-6:
            wider = usual + reader.rules[LEAST_RABBET_FLOOR]
            is_room = wider <= widest_rabbet_mm(box.rail, reader.rules)
            reader.refuse(
                "bottom", f"a bottom that needs a gap of {reader.least(usual)}",
                f"one that needs {at_most_text(room, reader.shown)} and less",
                "a bottom of solid wood moves with the seasons and still lies in its rabbet",
                f"write rabbet_width='{reader.least(wider)}', or use sheet stock"
                if is_room
                else "use sheet stock, or thicker rails",
            )  # fmt: skip
        return usual
    return reader.length(
        "bottom_gap",
        given,
        at_least=0.1,
        # Rails too thin for any gap are told by themselves.
        at_most=max(0.1, at_most_known(box.rail - box.wall - reader.rules[LEAST_RABBET_FLOOR])),
        why="a bottom of solid wood moves with the seasons and still lies in its rabbet",
    )
