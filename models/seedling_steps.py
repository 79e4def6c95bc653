"""Seedling steps: three tiers of ash for pots of seedlings, over an open box for tools and labels.

Said by its overall height and depth: the tiers share the rise, and the lowest and the box reach as
far forward as the stand.

Change a figure below and run this again:
    python models/seedling_steps.py --out out/seedlings
"""

from pathlib import Path

from exporters import main
from furniture import (
    OUTER_TOP,
    TOP_FRONT,
    TOP_LEFT,
    TOP_RIGHT,
    BottomFixing,
    CuttingWishes,
    Dowels,
    EdgeProfile,
    LidFixing,
    Load,
    Match,
    MatchRule,
    OddOne,
    Place,
    SawSetUp,
    Shop,
    StandsOn,
    SteppedStand,
    Stock,
    TierRule,
    millimetres,
)

THICK = Stock(name="ash, thick", species="white ash", thickness="19 mm", moisture="9 %")
THIN = Stock(name="ash, thin", species="white ash", thickness="17 mm", moisture="9 %")
SHEET = Stock(name="plywood", species="birch plywood 6.5 mm", thickness="6.5 mm")

stand = SteppedStand(
    name="Seedling steps",
    thick=THICK,
    thin=THIN,
    bottom=SHEET,
    bottom_fixing=BottomFixing.GLUED,
    lid_fixing=LidFixing.NONE,
    base_width="340 mm",
    base_height="70 mm",
    overall_height="470 mm",
    overall_depth="200 mm",
    post_width="120 mm",
    post_proud="20 mm",
    tiers=TierRule(
        count=3,
        width="320 mm",
        step_back_width="45 mm",
        step_back_depth="40 mm",
    ),
    dado_depth="9 mm",
    dowels=Dowels(count=2, diameter="8 mm"),
    profiles=[
        EdgeProfile(on="tiers", edges=(TOP_FRONT, TOP_LEFT, TOP_RIGHT), radius="3 mm"),
        EdgeProfile(on="rails", edges=[OUTER_TOP], radius="3 mm"),
    ],
    loads=[
        Load(
            name="labels and a dibber", on="bottom", mass="0.6 kg",
            footprint=("200 mm", "80 mm"), centre_height="20 mm",
        ),
        Load(
            name="row of seedlings", on="tier 1", mass="0.5 kg",
            footprint=("240 mm", "80 mm"), centre_height="50 mm",
        ),
        Load(
            name="pair of pots", on="tier 2", mass="0.5 kg",
            footprint=("160 mm", "80 mm"), centre_height="50 mm",
        ),
        Load(
            name="pot", on="tier 3", mass="0.4 kg",
            footprint=("80 mm", "80 mm"), centre_height="50 mm",
        ),
    ],
    shown=millimetres(),
)  # fmt: skip

BOARDS = Path(__file__).with_name("seedling_steps_boards.csv")

WISHES = CuttingWishes(
    matches=[
        Match(
            name="grain round the corners",
            rule=MatchRule.IN_SEQUENCE,
            on=["left stub", "left side rail", "front rail", "right side rail", "right stub"],
            price="30 EUR",
        ),
        Match(
            name="tiers alike",
            rule=MatchRule.SAME_BOARD,
            on="tiers",
            price="8 EUR",
            odd_one=OddOne.SMALLEST,
        ),
    ],
)

SHOP = Shop(saw=SawSetUp(kerf="3 mm"))

if __name__ == "__main__":
    main(stand, boards=BOARDS, wishes=WISHES, shop=SHOP, place=Place(stands_on=StandsOn.TABLE))
