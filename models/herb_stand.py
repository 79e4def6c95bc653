"""Herb stand: four tiers of white oak for potted herbs, on a box whose lid is a captured top.

Change a figure below and run this again:
    python models/herb_stand.py --out out/herb
"""

from pathlib import Path

from exporters import main
from furniture import (
    MUST,
    TOP_FRONT,
    TOP_LEFT,
    TOP_RIGHT,
    BottomFixing,
    CuttingWishes,
    Dowels,
    EdgeProfile,
    Feet,
    Load,
    Match,
    MatchRule,
    OddOne,
    Opening,
    OpeningFor,
    Place,
    SawSetUp,
    Shop,
    StandsOn,
    SteppedStand,
    Stock,
    TierRule,
    millimetres,
)

THICK = Stock(name="oak, thick", species="white oak", thickness="19.7 mm", moisture="9 %")
THIN = Stock(name="oak, thin", species="white oak", thickness="13.4 mm", moisture="9 %")
RESAWN = Stock(name="oak, resawn", species="white oak", thickness="6.4 mm", moisture="9 %")

stand = SteppedStand(
    name="Herb stand",
    thick=THICK,
    thin=THIN,
    bottom=RESAWN,
    bottom_fixing=BottomFixing.PINNED,
    base_width="320 mm",
    base_depth="210 mm",
    base_height="84 mm",
    flush_allowance="0.5 mm",
    rabbet_width="10 mm",
    post_width="110 mm",
    post_proud="24 mm",
    tiers=TierRule(
        count=4,
        width="300 mm",
        depth="150 mm",
        rise="150 mm",
        step_back_width="30 mm",
        step_back_depth="15 mm",
    ),
    dado_depth="7 mm",
    profiles=[
        EdgeProfile(on="tiers", edges=(TOP_FRONT, TOP_LEFT, TOP_RIGHT), radius="3 mm"),
    ],
    openings=[
        Opening(on="tiers", size="12 mm", from_edge="55 mm", purpose=OpeningFor.DRAIN),
    ],
    dowels=Dowels(count=2, diameter="6 mm"),
    feet=Feet(stock=RESAWN, length="36 mm", width="30 mm", inset="2 mm"),
    loads=[
        Load(
            name="pot of thyme", on="tier 1", mass="1.1 kg",
            footprint=("120 mm", "120 mm"), centre_height="70 mm",
        ),
        Load(
            name="pot of sage", on="tier 2", mass="0.9 kg",
            footprint=("110 mm", "110 mm"), centre_height="65 mm",
        ),
        Load(
            name="pot of basil", on="tier 3", mass="0.7 kg",
            footprint=("100 mm", "100 mm"), centre_height="60 mm",
        ),
        Load(
            name="pot of chives", on="tier 4", mass="0.5 kg",
            footprint=("90 mm", "90 mm"), centre_height="55 mm",
        ),
    ],
    shown=millimetres(),
)  # fmt: skip

BOARDS = Path(__file__).with_name("herb_stand_boards.csv")

WISHES = CuttingWishes(
    matches=[
        Match(
            name="grain round the corners",
            rule=MatchRule.IN_SEQUENCE,
            on=["left stub", "left side rail", "front rail", "right side rail", "right stub"],
            price=MUST,
        ),
        Match(
            name="fleck on the lid",
            rule=MatchRule.CENTRED_ON_FIGURE,
            on="lid",
            zone="ray fleck",
            price="25 EUR",
            tolerance="5 mm",
        ),
        Match(
            name="tiers alike",
            rule=MatchRule.SAME_BOARD,
            on="tiers",
            price="10 EUR",
            odd_one=OddOne.SMALLEST,
        ),
    ],
)

SHOP = Shop(saw=SawSetUp(kerf="3.2 mm"))

if __name__ == "__main__":
    main(stand, boards=BOARDS, wishes=WISHES, shop=SHOP, place=Place(stands_on=StandsOn.TABLE))
