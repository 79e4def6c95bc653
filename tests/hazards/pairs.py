"""Pairs that differ in one thing alone: a hazard beside its sound case."""

from __future__ import annotations

from dataclasses import replace

from furniture import (
    BackPanel,
    Composition,
    Dowels,
    LidFixing,
    LoadKind,
    PanelGrain,
    SteppedStand,
    Stock,
    TierRule,
    Uprights,
)
from furniture.checks.check import Verdict
from tests.hazards.making import PINE, board, case, dowels, load, piece
from tests.hazards.rows import Danger, Sound, danger, sound
from tests.hazards.subjects import MOVES, SAGS

CREEP = "NDS 3.5.2: what stays creeps, what passes does not"


def basket_shelf(kind: LoadKind, kg: float = 5.0) -> Composition:
    """A shelf of 888 x 250 x 12 mm in dados, with baskets on it."""
    boards, joints = case(PINE, 924, 250, 330, 18, (300,), span_thick=12)
    rail = board("rail", PINE, (18, 232, 100), (888, 18, 80))
    joints += dowels("rail", "left side", "right side", size=6, deep=10, length=30)
    baskets = replace(load("shelf 1", kg, (880, 220), 120), kind=kind)
    return piece([*boards, rail], joints, baskets)


@danger("D65", "Long shelf with baskets that stay on it", Verdict.CAUTION, SAGS, CREEP)
def baskets_that_stay() -> Composition:
    return basket_shelf(LoadKind.STAYS)


@sound("S65", "The same shelf with baskets that are lifted off", CREEP, fair=Verdict.NOTE)
def baskets_that_pass() -> Composition:
    return basket_shelf(LoadKind.COMES_AND_GOES)


MOVEMENT = "Wood Handbook FPL-GTR-190 (2010), Eq. 13-2: across its grain alone does wood travel"


def wide_steps(grain: PanelGrain) -> SteppedStand:
    """Tiers 460 wide glued into dados of two uprights, which a rail and a back hold apart."""
    stocks = {
        name: Stock(name=f"oak, {thick}", species="white oak", thickness=thick, moisture="8 %")
        for name, thick in (("thick", "20 mm"), ("thin", "14 mm"))
    }
    ply = Stock(name="ply", species="birch plywood 6 mm", thickness="6 mm")
    return SteppedStand(
        **stocks, base_width="500 mm", base_depth="260 mm", base_height="80 mm",
        uprights=Uprights(depth="120 mm"), back_panel=BackPanel(stock=ply),
        tiers=TierRule(count=2, depth="130 mm", rise="130 mm"), dowels=Dowels(),
        lid_fixing=LidFixing.NONE, own_grain={"tiers": grain},
    )  # fmt: skip


@danger("D66", "Wide tiers with their grain from front to back", Verdict.FAIL, MOVES, MOVEMENT)
def tiers_that_spread() -> SteppedStand:
    return wide_steps(PanelGrain.ACROSS)


@sound("S66", "The same tiers with their grain from side to side", MOVEMENT, fair=Verdict.NOTE)
def tiers_that_stay() -> SteppedStand:
    return wide_steps(PanelGrain.ALONG)


PAIR_DANGERS: tuple[Danger, ...] = (baskets_that_stay, tiers_that_spread)
PAIR_SOUNDS: tuple[Sound, ...] = (baskets_that_pass, tiers_that_stay)
