"""Button box: walnut with maple keys across its corners and a lid that slides, in inches.

Change a figure below and run this again:
    python models/button_box.py --out out/buttons
"""

from pathlib import Path

from exporters import main
from furniture import (
    MUST,
    BottomFixing,
    CuttingWishes,
    DrawnTo,
    Keys,
    LidFixing,
    Match,
    MatchRule,
    MitredBox,
    SawSetUp,
    Shop,
    SlidingLid,
    Stock,
    inches,
)

SIDES = Stock(name="walnut, sides", species="black walnut", thickness="9/16 in", moisture="8 %")
LID = Stock(name="walnut, lid", species="black walnut", thickness="1/4 in", moisture="8 %")
SHEET = Stock(name="plywood", species="birch plywood 1/4 in", thickness="1/4 in")
MAPLE = Stock(name="maple, keys", species="hard maple", thickness="1/8 in", moisture="8 %")

box = MitredBox(
    name="Button box",
    rails=SIDES,
    lid=LID,
    bottom=SHEET,
    bottom_fixing=BottomFixing.GLUED,
    width="9 in",
    depth="4 3/4 in",
    height="2 3/4 in",
    lid_fixing=LidFixing.SLIDING,
    sliding_lid=SlidingLid(drawn_to=DrawnTo.RIGHT, lip="1/4 in"),
    lid_gap_along="1/64 in",
    finger_size="1 in",
    corner_parts=Keys(stock=MAPLE, count=2),
    shown=inches(64),
)

BOARDS = Path(__file__).with_name("button_box_boards.csv")

WISHES = CuttingWishes(
    matches=[
        Match(
            name="grain round the corners",
            rule=MatchRule.IN_SEQUENCE,
            on=["left side rail", "front rail", "right side rail", "back rail"],
            price=MUST,
        ),
        Match(
            name="curl on the lid",
            rule=MatchRule.CENTRED_ON_FIGURE,
            on="lid",
            zone="curl",
            price="6 USD",
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
        usable_length="6 in",
        usable_width="2 in",
    ),
)

if __name__ == "__main__":
    main(box, boards=BOARDS, wishes=WISHES, shop=SHOP)
