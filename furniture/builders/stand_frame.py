"""Which parts a stand has, where they stand, their joints and their hidden edges."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from furniture.builders.base_box import BoxFigures, place_front
from furniture.builders.bottom import BottomFixing, pinned
from furniture.builders.box_options import Closing, end_rails
from furniture.builders.common import Names, StockOf
from furniture.builders.dowels import DowelFigures, EndButts
from furniture.builders.edges import HiddenEdges, panel_hidden, rail_hidden
from furniture.builders.lid import bottom_of, lid_of, place_in_rabbets, rabbet_joints
from furniture.builders.lid_fixing import LidFixing, cleat_joints, place_cleats
from furniture.builders.panels import place_panel
from furniture.builders.support import Support
from furniture.builders.tiers import TierFigures
from furniture.builders.uprights import UPRIGHT_NAMES
from furniture.joints import Joint
from furniture.parts.faces import EDGES, ENDS, Arris, Face
from furniture.parts.part import Kin, Placed
from furniture.pieces import DrawnOut
from furniture.rules import Rules
from furniture.rules.building import GREATEST_BOX_SIDE


@dataclass(frozen=True, slots=True, kw_only=True)
class Cast:
    """Which parts such a stand has, before any of their figures is read."""

    rails: tuple[str, ...]
    support: tuple[str, ...]
    panels: tuple[str, ...]
    tiers: tuple[str, ...]
    strips: int
    back: tuple[str, ...] = ()

    @property
    def names(self) -> Names:
        """All instances and the groups that other parameters may name."""
        group = "uprights" if self.support == UPRIGHT_NAMES else "post"
        groups = {"rails": self.rails, "tiers": self.tiers, group: self.support}
        return Names(
            instances=(*self.rails, *self.support, *self.panels, *self.tiers, *self.back),
            groups=groups,
            level=(*self.panels, *self.tiers),
            rails=self.rails,
        )


def frame_of(
    cast: Cast,
    support: Support,
    steps: Sequence[TierFigures],
    stock: StockOf,
    gap: float,
    closing: Closing,
    dowels: DowelFigures | None,
    rules: Rules,
) -> tuple[list[Placed], list[Joint]]:
    """Box, support, lid, bottom and tiers with their joints, in the order they are cut."""
    box = support.box
    placed = [
        place_front(box, stock),
        *support.place_back(stock),
        *(place_tier(step, support, stock) for step in steps),
        *support.back_panel(stock),
    ]
    joints: list[Joint] = []
    if box.has_lid:
        lid, is_glued = lid_of(support), closing.lid is LidFixing.GLUED
        placed.append(place_in_rabbets(lid, box, stock))
        joints = [
            *rabbet_joints(lid, cast.rails, is_glued),
            *support.lid_housings(is_glued=is_glued),
        ]
    joints += [
        *support.back_panel_joints(steps),  # the dados end in its rabbets
        *(joint for step in steps for joint in support.tier_joints(step)),
        *support.back_joints(EndButts(dowels=dowels)),
    ]
    if "bottom" in cast.panels:
        bottom = bottom_of(support, gap)
        placed.append(place_in_rabbets(bottom, box, stock))
        is_fixed = closing.bottom is BottomFixing.GLUED
        held = rabbet_joints(bottom, cast.rails, is_fixed)
        joints = [*pinned(held, closing.pins, end_rails(stock, support.cross_rails)), *joints]
    if closing.cleats is not None:
        cleats = place_cleats(closing.cleats, box, support.free_side_rail, rules)
        placed += cleats
        joints += cleat_joints(closing.cleats, cleats[0].part.blank.length_mm, rules)
    return placed, joints


def hidden_of(
    cast: Cast,
    box: BoxFigures,
    support: Support,
    steps: Sequence[TierFigures],
) -> HiddenEdges:
    """Every arris where no profile may run, with the reason."""
    why = "this edge lies in a rabbet or a dado: a profile there would spoil the seat"
    found: dict[str, Mapping[Arris, str]] = dict(support.hidden(steps))
    if "bottom" in cast.panels:
        for name in cast.support:
            kept = found.get(name, {}).items()
            found[name] = {
                arris: told for arris, told in kept if arris not in support.freed_by_bottom
            }
    rails = rail_hidden(box.flush_allowance, "bottom" in cast.panels, box.has_lid)
    found.update(dict.fromkeys(cast.rails, rails))
    found["lid"] = {**panel_hidden(Face.BACK_SIDE, EDGES + ENDS, why), **found.get("lid", {})}
    found["flap"] = {
        **panel_hidden(Face.BACK_SIDE, EDGES + ENDS, why),
        **panel_hidden(Face.FACE_SIDE, (Face.BACK_EDGE,), "the hinges' leaves lie there"),
    }
    below = panel_hidden(Face.FACE_SIDE, EDGES + ENDS, why)
    found["bottom"] = {**below, **found.get("bottom", {})}
    return found


def place_tier(step: TierFigures, support: Support, stock: StockOf) -> Placed:
    """A tier lying in the support."""
    low, high = support.plan(step)
    kin = Kin("tier", step.number)
    return place_panel(
        step.name, stock.timber(step.name), low, high, step.bottom, support.box.rough, kin=kin,
        grain=stock.grain(step.name),
    )  # fmt: skip


def drawn_out(
    box: BoxFigures, has_uprights: bool, deepest: float | None, rules: Rules
) -> tuple[DrawnOut, ...]:
    """Which parameters draw the base out.

    A post stands at the back of its base, so that only the front moves with the depth. Between
    uprights the tiers grow with the width, which so gains nothing.

    Args:
        box: the base.
        has_uprights: whether two uprights stand on it.
        deepest: how deep it may become [mm]; None where its depth is no parameter of its own.
        rules: the shop's own limits.
    """
    found: list[DrawnOut] = []
    if deepest is not None:
        depth = DrawnOut(
            parameter="base_depth", size="deep", now_mm=box.depth, most_mm=deepest,
            sides=("front",),
        )  # fmt: skip
        found.append(depth)
    if not has_uprights:
        width = DrawnOut(
            parameter="base_width", size="wide", now_mm=box.width,
            most_mm=rules[GREATEST_BOX_SIDE], sides=("left", "right"), times=2.0,
        )  # fmt: skip
        found.append(width)
    return tuple(found)
