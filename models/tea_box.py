"""Tea box: a mitred cherry box with a drop-in lid and a bottom, in inches and fractions.

Change a figure below and run this again:
    python models/tea_box.py --out out/tea
"""

from exporters import main
from furniture import TOP_FRONT, EdgeProfile, MitredBox, ProfileKind, Stock, inches

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

if __name__ == "__main__":
    main(box)
