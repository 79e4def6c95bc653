"""Pairs that differ in one thing alone: a hazard beside its sound case."""

from __future__ import annotations

from dataclasses import replace

from furniture import (
    BackPanel,
    BottomFixing,
    Composition,
    Dowels,
    Hinge,
    HingedLid,
    Keys,
    LidFixing,
    Load,
    LoadKind,
    MitredBox,
    PanelGrain,
    Screw,
    Stay,
    SteppedStand,
    Stock,
    TierCleat,
    TierRule,
    Uprights,
)
from furniture.checks.check import Verdict
from furniture.checks.of_piece import Place, read_setting
from furniture.checks.of_piece.setting import HeldBy
from tests.hazards.making import PINE, board, case, dowels, load, piece
from tests.hazards.rows import Danger, Sound, danger, sound
from tests.hazards.subjects import BREAKS, LEVERS, MOVES, SAGS, TORN_OUT

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


PRESSED = "Wood Handbook FPL-GTR-190 (2010), Table 5-3: pine is crushed across its grain at 3 MPa"


def pine_steps(cleats: str | None, load: Load, thin: str = "18 mm") -> SteppedStand:
    """Two pine tiers in dados 3 mm deep of two uprights, the lower one on cleats or not."""
    stocks = {
        name: Stock(name=f"pine, {thick}", species=PINE, thickness=thick, moisture="8 %")
        for name, thick in (("thick", "20 mm"), ("thin", thin))
    }
    ply = Stock(name="ply", species="birch plywood 6 mm", thickness="6 mm")
    under = replace(stocks["thin"], name="pine, cleats", thickness=cleats or "14 mm")
    return SteppedStand(
        **stocks, base_width="460 mm", base_depth="320 mm", base_height="80 mm", dado_depth="3 mm",
        uprights=Uprights(depth="160 mm"), back_panel=BackPanel(stock=ply), dowels=Dowels(),
        tiers=TierRule(count=2, depth="150 mm", rise="150 mm"), lid_fixing=LidFixing.NONE,
        tier_cleats=[TierCleat(on="tier 1", stock=under)] if cleats else [], loads=[load],
    )  # fmt: skip


TROUGH = Load(
    on="tier 1", name="stone trough", mass="85 kg", footprint=("250 mm", "120 mm"),
    centre_height="90 mm",
)  # fmt: skip
SOMEONE = Load(
    on="tier 1", name="someone", mass="75 kg", footprint=("200 mm", "120 mm"),
    centre_height="900 mm", kind=LoadKind.PERSON_STANDING,
)  # fmt: skip


@danger("D67", "Stone trough on a tier in shallow dados", Verdict.FAIL, LEVERS, PRESSED)
def trough_in_its_dados() -> SteppedStand:
    return pine_steps(None, TROUGH)


@sound("S67", "The same trough with cleats under its tier", PRESSED, fair=Verdict.NOTE)
def trough_on_cleats() -> SteppedStand:
    return pine_steps("14 mm", TROUGH)


TRODDEN = "EN 14183, step stools: a person's weight on one step; cleats bear its ends alone"


@danger("D68", "Thin tier on cleats that someone steps on", Verdict.FAIL, BREAKS, TRODDEN)
def trodden_on_cleats() -> SteppedStand:
    return pine_steps("14 mm", SOMEONE, thin="11 mm")


@sound("S68", "Thick tier on cleats that someone steps on", TRODDEN, fair=Verdict.NOTE)
def firm_on_cleats() -> SteppedStand:
    return pine_steps("14 mm", SOMEONE, thin="22 mm")


HINGED = "Wood Handbook FPL-GTR-190 (2010), ch. 8: a screw holds by its diameter and its length"
ON_A_WALL = read_setting(Place(held=HeldBy.WALL))


def wall_chest(diameter: str, length: str) -> MitredBox:
    """A box screwed to a wall, with a lid of 20 mm on two hinges and a chain at either side."""
    stocks = {
        name: Stock(name=f"oak, {name}", species="white oak", thickness=thick, moisture="9 %")
        for name, thick in (("rails", "18 mm"), ("lid", "20 mm"), ("keys", "3 mm"))
    }
    ply = Stock(name="ply", species="birch plywood 6 mm", thickness="6 mm")
    screw = Screw(diameter=diameter, length=length)
    hinge = Hinge(leaf_length="40 mm", leaf_width="12 mm", leaf_thickness="1.2 mm", barrel="4 mm",
                  screw=screw)  # fmt: skip
    return MitredBox(
        rails=stocks["rails"], lid=stocks["lid"], bottom=ply, bottom_fixing=BottomFixing.GLUED,
        width="480 mm", depth="320 mm", height="170 mm", lid_fixing=LidFixing.HINGED,
        hinged_lid=HingedLid(hinge=hinge, stay=Stay(count=2, screw=screw), overhang="6 mm"),
        corner_parts=Keys(stock=stocks["keys"]),
    )  # fmt: skip


@danger("D69", "Lid of a wall box on pins of screws, with a hand on it", Verdict.CAUTION, TORN_OUT,
        HINGED, setting=ON_A_WALL)  # fmt: skip
def lid_that_tears_out() -> MitredBox:
    return wall_chest("2 mm", "6.2 mm")


@sound("S69", "The same lid on screws that bite", HINGED, fair=Verdict.NOTE, setting=ON_A_WALL)
def lid_that_stays() -> MitredBox:
    return wall_chest("3 mm", "12 mm")


PAIR_DANGERS: tuple[Danger, ...] = (
    baskets_that_stay, tiers_that_spread, trough_in_its_dados, trodden_on_cleats,
    lid_that_tears_out,
)  # fmt: skip
PAIR_SOUNDS: tuple[Sound, ...] = (
    baskets_that_pass, tiers_that_stay, trough_on_cleats, firm_on_cleats, lid_that_stays,
)  # fmt: skip
