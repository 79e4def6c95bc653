"""Panels that lie among upright parts: how far back they reach, zone by zone, and their notches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from furniture.builders.panel_grain import PanelGrain
from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut, Notch
from furniture.parts.faces import Face
from furniture.parts.part import Kin, Part, Placed, Rough
from furniture.parts.placement import Placement
from furniture.timber.stock import Timber

Plan = tuple[float, float]
"""A point in plan: right, back [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A stretch from left to right in which a panel may reach back as far as `back` [mm]."""

    left: float
    right: float
    back: float


def place_panel(
    name: str,
    timber: Timber | None,
    low: Plan,
    high: Plan,
    bottom: float,
    rough: Rough,
    cuts: tuple[Cut, ...] = (),
    kin: Kin | None = None,
    grain: PanelGrain = PanelGrain.ALONG,
) -> Placed:
    """A lid, shelf or bottom lying face side up.

    With its grain from left to right its face edge is in front; else on the left.
    """
    assert timber is not None, "stocks were read before parts are placed"
    sides = (high[0] - low[0], high[1] - low[1])
    is_along = grain is PanelGrain.ALONG
    length, width = sides if is_along else reversed(sides)
    blank = Blank(length_mm=length, width_mm=width, thickness_mm=timber.thickness_mm)
    part = Part(name=name, blank=blank, timber=timber, cuts=cuts, rough=rough)
    x_axis, y_axis = grain.axes
    origin = (low[0], low[1] if is_along else high[1], bottom)
    placement = Placement(origin=origin, x_axis=x_axis, y_axis=y_axis)
    return Placed(instance=name, part=part, placement=placement, kin=kin)


def zone_notches(
    zones: Sequence[Zone],
    left: float,
    right: float,
    gap: float,
    grain: PanelGrain = PanelGrain.ALONG,
) -> tuple[Notch, ...]:
    """The notches that keep a panel's back edge within its zones.

    Every notch is longer than its zone by `gap`, so that the panel clears the step.

    Args:
        zones: from left to right, one beside the other.
        left: the panel's left end [mm].
        right: its right end [mm].
        gap: beside each notch [mm].
        grain: of the panel.
    """
    notches, back = [], max(zone.back for zone in zones)
    for zone in zones:
        depth = back - zone.back
        start, end = max(left, zone.left - gap), min(right, zone.right + gap)
        if depth > 1e-9 and end - start > 1e-9:
            notches.append(
                Notch(
                    edge=grain.face(Face.BACK_EDGE), start_mm=start - left,
                    length_mm=end - start, depth_mm=depth,
                )
            )  # fmt: skip
    return tuple(notches)
