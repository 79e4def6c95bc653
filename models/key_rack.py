"""Key rack: a walnut board for the wall, a small shelf let into it, a rail of pegs, a hidden cleat.

Change a figure below and run this again:
    python models/key_rack.py --out out/keys
"""

from pathlib import Path

from exporters import main
from furniture import (
    TOP_FRONT,
    Against,
    At,
    Bore,
    ButtJoint,
    CentredOn,
    CleatJoint,
    Composition,
    CuttingWishes,
    EdgeProfile,
    Face,
    FlushWith,
    GrooveJoint,
    Load,
    Match,
    MatchRule,
    PartWish,
    Peg,
    PlacedPart,
    SawSetUp,
    Screw,
    Shop,
    Stance,
    Stock,
    Way,
    ZoneKind,
    cut,
    join,
    row_of,
)

BOARD = Stock(name="walnut, boards", species="black walnut", thickness="15.2 mm", moisture="8 %")
THIN = Stock(name="walnut, thin", species="black walnut", thickness="11.8 mm", moisture="8 %")
PEG = Peg(name="walnut peg", diameter="10 mm", length="60 mm")
SCREW = Screw(diameter="4 mm", length="50 mm", note="brass; with a plug that suits the wall")

# Where a relation names no other part, it is to the first one: the back.
middle, behind = CentredOn(), Against(side=Way.BACK)
let_in = [middle, Against(side=Way.FRONT, let_in="5 mm"), At(distance="95 mm", side=Way.DOWN)]
in_front = [middle, Against(side=Way.FRONT), At(distance="25 mm", side=Way.DOWN)]
at_top = [middle, behind, FlushWith(side=Way.UP, shy="15 mm")]
at_foot = [middle, behind, FlushWith(side=Way.DOWN, shy="10 mm")]
hooked = [middle, behind, Against(of="cleat", side=Way.DOWN, let_in=BOARD.thickness)]

peg_bore = cut(Bore, face=Face.FACE_SIDE, diameter="10 mm", holds=PEG)
screw_bore = cut(
    Bore, face=Face.FACE_SIDE, diameter="4.5 mm", countersink_diameter="9 mm", holds=SCREW
)
pegs = row_of(peg_bore, count=6, spacing="60 mm")
screws = row_of(screw_bore, count=2, spacing="260 mm")

parts = [
    PlacedPart(name="back", stock=BOARD, length="420 mm", width="160 mm"),
    PlacedPart(
        name="shelf", stock=THIN, length="390 mm", width="75 mm", face_side=Way.UP, places=let_in
    ),
    PlacedPart(
        name="peg rail", stock=THIN, length="390 mm", width="40 mm", places=in_front, cuts=pegs
    ),
    PlacedPart(name="cleat", stock=BOARD, length="340 mm", width="50 mm", places=at_top),
    PlacedPart(
        name="wall cleat", stock=BOARD, length="340 mm", width="50 mm", places=hooked, cuts=screws
    ),
    PlacedPart(name="spacer", stock=BOARD, length="340 mm", width="30 mm", places=at_foot),
]
joints = [
    join(GrooveJoint, "shelf", into="back", stop="15 mm", is_glued=True),
    join(ButtJoint, "peg rail", into="back"),
    join(ButtJoint, "cleat", into="back"),
    join(ButtJoint, "spacer", into="back"),
    join(CleatJoint, "cleat", into="wall cleat", blade_tilt="45 deg"),
]
bowl = Load(
    on="shelf", name="bowl", mass="0.4 kg", footprint=("6 cm", "6 cm"), centre_height="25 mm"
)

rack = Composition(
    name="Key rack",
    stance=Stance.WALL,
    parts=parts,
    joints=joints,
    profiles=[EdgeProfile(on="shelf", edges=[TOP_FRONT], radius="3 mm")],
    loads=[bowl],
)

BOARDS = Path(__file__).with_name("key_rack_boards.csv")

WISHES = CuttingWishes(
    parts=[
        PartWish(on="shelf", show_face=[ZoneKind.SAPWOOD]),  # its two pale edges are wanted
        PartWish(
            on=["cleat", "wall cleat", "spacer"],  # behind the back: nobody sees them
            show_face=[ZoneKind.SAPWOOD, ZoneKind.STAIN, ZoneKind.FIGURE],
        ),
    ],
    matches=[
        Match(
            name="feather in the middle",
            rule=MatchRule.CENTRED_ON_FIGURE,
            on="back",
            zone="feather",
            price="18 EUR",
            tolerance="5 mm",
        ),
        Match(
            name="pale edges equal",
            rule=MatchRule.EQUAL_PALE_EDGES,
            on="shelf",
            price="6 EUR",
            tolerance="1 mm",
        ),
    ],
)

SHOP = Shop(saw=SawSetUp(kerf="2.4 mm"))

if __name__ == "__main__":
    main(rack, boards=BOARDS, wishes=WISHES, shop=SHOP)
