"""Tea box: a mitred cherry box with a drop-in lid and a bottom, in inches and fractions.

Change a figure below and run this again:
    python models/tea_box.py --out out/tea
"""

from pathlib import Path

from exporters import main
from furniture import (
    MUST,
    TOP_FRONT,
    BottomFixing,
    CuttingWishes,
    EdgeProfile,
    Match,
    MatchRule,
    MitredBox,
    PartWish,
    ProfileKind,
    SawSetUp,
    Shop,
    Stock,
    ZoneKind,
    inches,
)

RAILS = Stock(name="cherry, sides", species="black cherry", thickness="33/64 in", moisture="8 %")
PANELS = Stock(name="cherry, panels", species="black cherry", thickness="17/64 in", moisture="8 %")

box = MitredBox(
    name="Tea box",
    rails=RAILS,
    lid=PANELS,
    bottom=PANELS,
    width="9 3/4 in",
    depth="6 1/2 in",
    height="3 5/8 in",
    flush_allowance="1/64 in",
    rabbet_width="19/64 in",
    lid_gap_along="1/64 in",
    lid_gap_across="1/16 in",
    bottom_gap="1/16 in",
    bottom_fixing=BottomFixing.PINNED,
    finger_size="1 in",
    profiles=[EdgeProfile(on="lid", edges=[TOP_FRONT], kind=ProfileKind.CHAMFER, radius="1/16 in")],
    shown=inches(64),
)

BOARDS = Path(__file__).with_name("tea_box_boards.csv")

WISHES = CuttingWishes(
    parts=[PartWish(on="bottom", show_face=[ZoneKind.SAPWOOD, ZoneKind.STAIN])],  # under the tea
    matches=[
        Match(
            name="grain round the corners",
            rule=MatchRule.IN_SEQUENCE,
            on=["left side rail", "front rail", "right side rail", "back rail"],
            price=MUST,
        ),
        Match(
            name="curl in the middle of the lid",
            rule=MatchRule.CENTRED_ON_FIGURE,
            on="lid",
            zone="curl",
            price="12 USD",
            tolerance="1/8 in",
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
