"""Yarn steps: five tiers of ash between two uprights, for skeins and balls, in inches.

Change a figure below and run this again:
    python models/yarn_steps.py --out out/yarn
"""

from pathlib import Path

from exporters import main
from furniture import (
    MUST,
    TOP_FRONT,
    CuttingWishes,
    Dowels,
    EdgeProfile,
    Load,
    Match,
    MatchRule,
    OddOne,
    SawSetUp,
    Shop,
    SteppedStand,
    Stock,
    TierRule,
    Uprights,
    inches,
)

THICK = Stock(name="ash, thick", species="white ash", thickness="49/64 in", moisture="8 %")
THIN = Stock(name="ash, thin", species="white ash", thickness="33/64 in", moisture="8 %")

stand = SteppedStand(
    name="Yarn steps",
    thick=THICK,
    thin=THIN,
    base_width="17 1/2 in",
    base_depth="11 1/4 in",
    base_height="4 1/4 in",
    flush_allowance="1/64 in",
    rabbet_width="3/8 in",
    lid_gap_along="1/64 in",
    uprights=Uprights(depth="5 3/4 in", stop="1/2 in"),
    dowels=Dowels(count=2, diameter="1/4 in", length="1 1/4 in"),
    post_proud="1 1/2 in",
    tiers=TierRule(
        count=5,
        depth="9 1/4 in",
        rise="6 1/4 in",
        step_back_depth="3/4 in",
        rise_change="-1/4 in",
    ),
    dado_depth="1/4 in",
    profiles=[EdgeProfile(on="tiers", edges=[TOP_FRONT], radius="1/8 in")],
    loads=[
        Load(
            name="skeins of worsted", on="tier 1", mass="1.4 lb",
            footprint=("12 in", "7 in"), centre_height="2 1/2 in",
        ),
        Load(
            name="balls of double knitting", on="tier 2", mass="1.1 lb",
            footprint=("12 in", "6 in"), centre_height="2 in",
        ),
        Load(
            name="balls of sock yarn", on="tier 3", mass="0.9 lb",
            footprint=("11 in", "5 1/2 in"), centre_height="1 3/4 in",
        ),
        Load(
            name="skeins of lace", on="tier 4", mass="0.6 lb",
            footprint=("10 in", "5 in"), centre_height="1 1/2 in",
        ),
        Load(
            name="small balls", on="tier 5", mass="0.4 lb",
            footprint=("9 in", "4 in"), centre_height="1 1/4 in",
        ),
    ],
    shown=inches(64),
)  # fmt: skip

BOARDS = Path(__file__).with_name("yarn_steps_boards.csv")

WISHES = CuttingWishes(
    matches=[
        Match(
            name="grain round the corners",
            rule=MatchRule.IN_SEQUENCE,
            on=["left side rail", "front rail", "right side rail", "back rail"],
            price="25 USD",
        ),
        Match(
            name="tiers alike",
            rule=MatchRule.SAME_BOARD,
            on="tiers",
            price="15 USD",
            odd_one=OddOne.SMALLEST,
        ),
        Match(
            name="uprights alike",
            rule=MatchRule.SAME_BOARD,
            on=["left upright", "right upright"],
            price=MUST,
        ),
        Match(
            name="ripple on the lid",
            rule=MatchRule.CENTRED_ON_FIGURE,
            on="lid",
            zone="ripple",
            price="10 USD",
            tolerance="1/4 in",
        ),
    ],
)

SHOP = Shop(
    saw=SawSetUp(
        kerf="1/8 in",
        end_trim="3/8 in",
        shortest_rip="12 in",
        shortest_crosscut="8 in",
        usable_length="8 in",
        usable_width="2 in",
    ),
)

if __name__ == "__main__":
    main(stand, boards=BOARDS, wishes=WISHES, shop=SHOP)
