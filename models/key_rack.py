"""Key rack: a walnut board for the wall, a small shelf let into it, a rail of pegs, a hidden cleat.

Change a figure below and run this again:
    python models/key_rack.py --out out/keys
"""

from exporters import main  # noqa: I001 - one block of names
from furniture import (
    TOP_FRONT, Against, At, PlacedPart, Bore, ButtJoint, CentredOn, CleatJoint, Composition,
    EdgeProfile, Face, FlushWith, GrooveJoint, Load, Stock, Stance, Way, cut, join,
)  # fmt: skip

BOARD = Stock(name="walnut, boards", species="black walnut", thickness="15.2 mm", moisture="8 %")
THIN = Stock(name="walnut, thin", species="black walnut", thickness="11.8 mm", moisture="8 %")
PEGS = [cut(Bore, face=Face.FACE_SIDE, x=f"{45 + 60 * n} mm", y="20 mm", diameter="10 mm")
        for n in range(6)]  # fmt: skip
SCREWS = [cut(Bore, face=Face.FACE_SIDE, x=x, y="20 mm", diameter="4.5 mm",
              countersink_diameter="9 mm") for x in ("40 mm", "300 mm")]  # fmt: skip
FLAT = {"face_side": Way.FRONT, "grain": Way.RIGHT}  # on the wall, grain level
MIDDLE = CentredOn(of="back", along=Way.RIGHT)
BEFORE, BEHIND = Against(of="back", side=Way.FRONT), Against(of="back", side=Way.BACK)

rack = Composition(
    name="Key rack",
    parts=[
        PlacedPart(name="back", stock=BOARD, length="420 mm", width="160 mm", **FLAT),
        PlacedPart(name="shelf", stock=THIN, length="390 mm", width="75 mm", places=[
            Against(of="back", side=Way.FRONT, let_in="5 mm"), MIDDLE,
            At(distance="95 mm", of="back", side=Face.FACE_EDGE)]),
        PlacedPart(name="peg rail", stock=THIN, length="390 mm", width="40 mm", cuts=PEGS, places=[
            BEFORE, MIDDLE, At(distance="25 mm", of="back", side=Face.FACE_EDGE)], **FLAT),
        PlacedPart(name="cleat", stock=BOARD, length="340 mm", width="50 mm", places=[
            BEHIND, MIDDLE, FlushWith(of="back", side=Way.UP, shy="15 mm")], **FLAT),
        PlacedPart(name="wall cleat", stock=BOARD, length="340 mm", width="50 mm", cuts=SCREWS,
                   places=[
            BEHIND, MIDDLE, Against(of="cleat", side=Way.DOWN, let_in="15.2 mm")], **FLAT),
        PlacedPart(name="spacer", stock=BOARD, length="340 mm", width="30 mm", places=[
            BEHIND, MIDDLE, FlushWith(of="back", side=Way.DOWN, shy="10 mm")], **FLAT),
    ],
    joints=[
        join(GrooveJoint, "shelf", into="back", is_glued=True,
             stop_from_named_end="15 mm", stop_from_far_end="15 mm"),
        join(ButtJoint, "peg rail", into="back"),
        join(ButtJoint, "cleat", into="back"),
        join(ButtJoint, "spacer", into="back"),
        join(CleatJoint, "cleat", into="wall cleat", blade_tilt="45 deg"),
    ],
    profiles=[EdgeProfile(on="shelf", edges=[TOP_FRONT], radius="3 mm")],
    loads=[Load(name="bowl", on="shelf", mass="0.4 kg", footprint=("60 mm", "60 mm"),
                centre_height="25 mm")],
    stance=Stance.WALL,
)  # fmt: skip

if __name__ == "__main__":
    main(rack)
