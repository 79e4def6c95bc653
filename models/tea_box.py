"""Tea box: a mitred cherry box with a drop-in lid and a bottom, in inches and fractions.

Change a figure below and run this again:
    python models/tea_box.py --out out/tea
"""

from exporters import main
from furniture import (
    TOP_FRONT,
    BoardZone,
    CuttingWishes,
    EdgeProfile,
    Match,
    MatchRule,
    MeasuredBoard,
    MitredBox,
    ProfileKind,
    SawSetUp,
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
    finger_size="1 in",
    profiles=[EdgeProfile(on="lid", edges=[TOP_FRONT], kind=ProfileKind.CHAMFER, radius="1/16 in")],
    shown=inches(64),
)

BOARDS = [
    MeasuredBoard(
        name="1", stock=RAILS, price="34 USD", description="straight, one knot",
        length="48 in", widths="5 1/8 in", thickness="33/64 in",
        zones=[
            BoardZone(kind=ZoneKind.KNOT, x="39 1/2 in", y="2 in", length="1 in", width="3/4 in"),
            BoardZone(kind=ZoneKind.CHECK, x="0 in", y="3 1/4 in", length="2 in", width="1/8 in"),
        ],
    ),
    MeasuredBoard(
        name="2", stock=PANELS, price="22 USD", description="resawn; pale along the far edge",
        length="27 in", widths=[("0 in", "7 1/2 in"), ("27 in", "7 1/4 in")], thickness="17/64 in",
        zones=[
            BoardZone(
                kind=ZoneKind.SAPWOOD, x="0 in", y="6 1/2 in", length="27 in", width="3/4 in"
            ),
        ],
    ),
]  # fmt: skip

WISHES = CuttingWishes(
    matches=[
        Match(
            name="grain round the corners",
            rule=MatchRule.IN_SEQUENCE,
            on=["left side rail", "front rail", "right side rail", "back rail"],
            price="20 USD",
        ),
    ],
    saw=SawSetUp(
        kerf="1/8 in", end_trim="3/8 in", shortest_rip="9 in", shortest_crosscut="6 in",
        usable_length="6 in", usable_width="2 in",
    ),
)  # fmt: skip

if __name__ == "__main__":
    main(box, boards=BOARDS, wishes=WISHES)
