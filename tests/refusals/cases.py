"""Mis-settings that makers make: in a design, a boards file, wishes, the shop, the place."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from furniture import (
    MUST,
    TOP_LEFT,
    At,
    Ballast,
    BoardZone,
    Bore,
    ButtJoint,
    CentredOn,
    Composition,
    CuttingWishes,
    DadoHead,
    DadoJoint,
    EdgeProfile,
    Face,
    Glue,
    Load,
    Match,
    MatchRule,
    PartWish,
    Place,
    PlacedPart,
    Router,
    SawSetUp,
    Shop,
    Stock,
    Tier,
    TierRule,
    Way,
    ZoneKind,
    cut,
    inches,
    join,
)
from tests.builders.bench import THICK as OAK
from tests.builders.bench import a_box, a_stand, oak
from tests.builders.test_bad_input import BAD
from tests.refusals.scripts import Script
from tests.shop.boards.bench import board, thin_board

HEAD = (
    "what,board,name,x [mm],y [mm],length [mm],width [mm],corners [mm],thickness [mm],stock,"
    "price [EUR],shows,note\n"
)
A = "board,A,,,,1500,200,,19.7,thick,40,,\n"
T = "board,T,,,,1500,200,,10.2,thin,30,,\n"
KNOT = "knot,A,,100,20,30,20,,,,,,\n"
GOOD = HEAD + A + T + KNOT
BOARDS = [board(), thin_board()]
BACK = PlacedPart(name="back", stock=OAK, length="300 mm", width="200 mm")
SHELF = PlacedPart(
    name="shelf", stock=OAK, length="300 mm", width="100 mm", face_side=Way.UP,
    places=[At(of="back", distance="90 mm", side=Way.DOWN)],
)  # fmt: skip
FLECK = BoardZone(
    kind=ZoneKind.FIGURE, name="ray fleck", x="300 mm", y="40 mm", length="200 mm", width="90 mm"
)
POT = Load(on="tier 1", mass="1 kg", footprint=("50 mm", "50 mm"), centre_height="40 mm")


def _swapped(old: str, new: str) -> Script:
    assert old in GOOD, old
    return Script(boards=GOOD.replace(old, new, 1))


def _wishing(**given: Any) -> Script:
    return Script(boards=BOARDS, wishes=CuttingWishes(**given))


def _matching(**given: Any) -> Script:
    usual: dict[str, Any] = {
        "rule": MatchRule.CENTRED_ON_FIGURE, "on": "lid", "zone": "ray fleck", "name": "fleck",
        "price": "25 EUR",
    }  # fmt: skip
    bearing = [board(), thin_board(zones=[FLECK])]
    return Script(boards=bearing, wishes=CuttingWishes(matches=[Match(**{**usual, **given})]))


def _pieces(*parts: PlacedPart, **more: Any) -> Script:
    return Script(design=Composition(name="shelf", parts=parts, **more))


FILES = {
    "a file with a misspelt heading": _swapped("board,name", "bord,name"),
    "a file with a column of the maker's own": _swapped(",note", ",colour"),
    "a file with a heading twice": _swapped(",note", ",name"),
    "a file without thicknesses": Script(boards="what,board,length,width,stock\n"),
    "x without a unit": _swapped("x [mm]", "x"),
    "x in cubits": _swapped("x [mm]", "x [cubit]"),
    "thickness without a unit": _swapped("thickness [mm]", "thickness"),
    "length in cm": _swapped("length [mm]", "length [cm]"),
    "a kont": _swapped("knot,", "kont,"),
    "a sapwod": _swapped("knot,", "sapwod,"),
    "a bord": _swapped("board,A", "bord,A"),
    "a knot off the board": _swapped("100,20,30", "1528,20,30"),
    "a knot on no board": _swapped("knot,A", "knot,B"),
    "a knot of negative length": _swapped("100,20,30", "100,20,-30"),
    "a knot of no length": _swapped("100,20,30", "100,20,0"),
    "a knot at ten": _swapped("100,20,30", "ten,20,30"),
    "a knot nowhere along": _swapped("100,20,30", ",20,30"),
    "a knot seen on all faces": _swapped("20,,,,,,\n", "20,,,,,all faces,\n"),
    "a knot seen on the uper face": _swapped("20,,,,,,\n", "20,,,,,uper face,\n"),
    "a board twice": Script(boards=GOOD + A),
    "a board of no thickness": _swapped("19.7", ""),
    "a board of no width": _swapped("1500,200,,19.7", "1500,,,19.7"),
    "a board of no length": _swapped("1500,200,,19.7", ",200,,19.7"),
    "a board 19.7 in thick": _swapped("19.7", "19.7 in"),
    "a board with a comma for thousands": _swapped("1500", '"1,500"'),
    "x without a unit in some lines": Script(
        boards=GOOD.replace("x [mm]", "x")
        + "knot,A,,5 mm,20,30,20,,,,,,\nknot,A,,7,9,30,20,,,,,,\n"
    ),
    "corners without a unit": Script(
        boards=GOOD.replace("corners [mm]", "corners")
        + 'sapwood,A,,,,,,"0, 180; 1500, 180; 0, 200",,,,,\n'
    ),
    "a board too thin": _swapped("19.7", "18"),
    "a board 15 m long": _swapped("1500,200,,19.7", "15000,200,,19.7"),
    "a board of a misspelt stock": _swapped("thick,", "thik,"),
    "a board of no stock": _swapped("thick,", ","),
    "a dear board": _swapped(",40,", ",dear,"),
    "a board paid in dollars": _swapped(",30,", ",30 USD,"),
    "the first board paid in dollars": Script(
        boards=GOOD.replace(",40,", ",40 USD,") + T.replace("T", "U")
    ),
    "a width off the board": Script(boards=GOOD + "width,A,,1560,,,190,,,,,,\n"),
    "an odd corner": Script(boards=GOOD + 'sapwood,A,,,,,,"0, 180; 1500",,,,,\n'),
    "a cell too many": Script(boards=GOOD.replace("thick,40,,", "thick,40,,more,more")),
    "an empty file": Script(boards=""),
    "a file in no encoding": Script(boards=GOOD.encode() + b"knot,A,f\x81ule,1"),
    "a workbook": Script(boards=b"PK\x03\x04\x14\x00" + bytes(200)),
    "an old workbook": Script(boards=b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(200)),
    "a PDF": Script(boards=b"%PDF-1.7" + bytes(20)),
    "a file with a zero byte": Script(boards=GOOD.replace("100", "1\x0000")),
}
WISHES = {
    "a board with a bare length": Script(boards=[board(length=1500), thin_board()]),
    "a board of no name": Script(boards=[board(name=""), thin_board()]),
    "a board with a misspelt lenght": Script(boards=[board(lenght="1 m"), thin_board()]),
    "boards crossing their widths": Script(
        boards=[board(widths=[("0 mm", "190 mm"), "160 mm"]), thin_board()]
    ),
    "what is no board": Script(boards=["a plank"]),
    "a wish for teirs": _wishing(parts=PartWish(on="teirs")),
    "a wish for drawers": _wishing(parts=PartWish(on="drawers")),
    "a wish for nothing": _wishing(parts=PartWish(worth="4 EUR")),
    "a wish with a bare worth": _wishing(parts=PartWish(on="lid", worth="lots")),
    "waste of all": _wishing(waste_share="99 %"),
    "waste without its sign": _wishing(waste_share="20"),
    "an hour and more": _wishing(seconds=1e9),
    "no rounds": _wishing(rounds=0),
    "a match of teirs": _matching(on="teirs"),
    "a match of a misspelt zone": _matching(zone="ray flek"),
    "a must of a misspelt zone": _matching(zone="ray flek", price=MUST),
    "a must of no zone": _matching(zone="pink ivory", price=MUST),
    "a match by a misspelt rule": _matching(rule="in sequense"),
    "a match with a tolerance below nought": _matching(tolerance="-5 mm"),
    "a match with a misspelt price": _matching(prise="4 EUR"),
    "a match of nothing": _matching(on=None),
    "a must that is too long": Script(
        boards=[board(length="800 mm"), thin_board()],
        wishes=CuttingWishes(
            matches=Match(
                rule=MatchRule.IN_SEQUENCE,
                price=MUST,
                name="round",
                on=["left stub", "left side rail", "front rail", "right side rail", "right stub"],
            )
        ),
    ),
    "a kerf of 32 mm": Script(shop=Shop(saw=SawSetUp(kerf="32 mm"))),
    "a kerf of 3.2 in": Script(shop=Shop(saw=SawSetUp(kerf="3.2 in"))),
    "a bare kerf": Script(shop=Shop(saw=SawSetUp(kerf=3.2))),
    "a misspelt kerf": Script(shop=Shop(saw=SawSetUp(kref="3.2 mm"))),
    "a dado head with a bare blade": Script(shop=Shop(dado_head=DadoHead(outer=3))),
    "a router with a bit of a foot": Script(shop=Shop(router=Router(straight="1 ft"))),
    "glue that never sets": Script(shop=Shop(glue=Glue(clamp_minutes=0))),
    "glue by a misspelt name": Script(shop=Shop(glue=Glue(family="pva yelow"))),
    "no shop": Script(shop="a shop"),
    "a place in the bathroom": Script(place="bathroom"),
    "a place by a misspelt climate": Script(place=Place(climate="heated huose")),
    "a place on what there is not": Script(place=Place(stands_on="shelf")),
}
DESIGNS = {
    "three mistakes at once": Script(
        design=a_stand(base_widht="1 m", post_proud="-24 mm", base_depth="20 cows")
    ),
    "a wood that is not told apart": Script(
        design=a_stand(thin=Stock(name="thin", species="oak", thickness="10 mm"))
    ),
    "a slip of the unit": Script(design=a_stand(base_width="320 in")),
    "a slip of the unit in inches": Script(
        design=a_stand(thick=Stock(name="s", species="white oak", thickness="20 in"),
                       shown=inches(64))
    ),
    "a decimal comma": Script(design=a_stand(base_width="320,5 mm")),
    "a load of 700 kg": Script(design=a_stand(loads=replace(POT, mass="700 kg"))),
    "a load of 0.7 g": Script(design=a_stand(loads=replace(POT, mass="0.7 g"))),
    "a load on the seventh tier": Script(design=a_stand(loads=replace(POT, on="tier 7"))),
    "a count in words": Script(
        design=a_stand(
            tiers=TierRule(count="four", width="200 mm", depth="100 mm", rise="100 mm"), loads=POT
        )
    ),
    "a box of paper": Script(design=a_box(rails=oak("2 mm"))),
    "a box too shallow for its finger hold": Script(design=a_box(depth="70 mm")),
    "no parts": Script(design=Composition(name="none")),
    "a part twice": _pieces(BACK, replace(BACK)),
    "a part beside nothing": _pieces(
        BACK, replace(SHELF, places=[At(of="bakc", distance="9 mm", side=Way.DOWN)])
    ),
    "a part by a bare distance": _pieces(
        BACK, replace(SHELF, places=[At(of="back", distance=9, side=Way.DOWN)])
    ),
    "a joint of what is not there": _pieces(
        BACK, SHELF, joints=[join(DadoJoint, "self", into="back")]
    ),
    "a joint with itself": _pieces(BACK, joints=[join(ButtJoint, "back", into="back")]),
    "a joint in words": _pieces(BACK, joints=[join("stopped dado", "back", into="back")]),  # type: ignore[arg-type]
    "a hole on a misspelt fase": _pieces(
        replace(BACK, cuts=cut(Bore, fase=Face.FACE_SIDE, x="40 mm", y="40 mm", diameter="8 mm"))
    ),
    "a hole off the board": _pieces(
        replace(BACK, cuts=cut(Bore, face=Face.FACE_SIDE, x="400 mm", y="40 mm", diameter="8 mm"))
    ),
    "a hole a metre wide": _pieces(
        replace(BACK, cuts=cut(Bore, face=Face.FACE_SIDE, x="40 mm", y="40 mm", diameter="1 m"))
    ),
    "a hole deeper than the wood": _pieces(
        replace(BACK, cuts=cut(Bore, face=Face.FACE_SIDE, x="40 mm", y="40 mm", diameter="8 mm",
                               depth="30 mm"))
    ),
    "a cut in words": _pieces(replace(BACK, cuts=cut("bore", x="1 mm"))),  # type: ignore[arg-type]
}  # fmt: skip
BY_NUMBER = {f"{number}: {name}": Script(design=d) for number, (d, name) in enumerate(BAD)}
CASES: dict[str, Script] = {**BY_NUMBER, **DESIGNS, **WISHES, **FILES}


PLACED = replace(
    SHELF,
    places=[*SHELF.places, CentredOn(of="back"), CentredOn(of="back", along=Way.FRONT)],
)
SOUND = Script(boards=GOOD)
BY_HAND: dict[str, Script] = {
    "66: tiers": Script(
        design=a_stand(tiers=[Tier(width="200 mm", depth="90 mm", rise="30 mm")] * 20)
    ),
    "108: profile 1 edges": Script(
        design=a_stand(
            tiers=[Tier(width="102 mm", depth="90 mm", rise="90 mm")],
            profiles=[EdgeProfile(on="tier 1", edges=[TOP_LEFT], radius="1 mm")],
        )
    ),
    "159: bottom": Script(design=a_box(ballast=Ballast(mass="1 kg"), bottom=oak("10 mm"))),
    "a part by a bare distance": _pieces(BACK, PLACED),
    "a joint of what is not there": _pieces(BACK, PLACED),
    "a joint with itself": _pieces(BACK),
    "a cut in words": _pieces(
        replace(BACK, cuts=cut(Bore, face=Face.FACE_SIDE, x="90 mm", y="40 mm", diameter="8 mm"))
    ),
    "a board of no name": Script(boards=BOARDS),
    "a wish with a bare worth": _wishing(parts=PartWish(on="lid")),
    "a must of no zone": _matching(),
    "a match by a misspelt rule": _matching(),
    "a must that is too long": Script(boards=[board(), thin_board()]),
    "a file with a misspelt heading": SOUND,
    "a file with a column of the maker's own": SOUND,
    "a file with a heading twice": SOUND,
    "a file without thicknesses": SOUND,
    "a knot off the board": SOUND,
    "a knot on no board": SOUND,
    "a board twice": Script(boards=GOOD + A.replace("board,A", "board,B")),
    "a board too thin": Script(boards=BOARDS),
    "a board paid in dollars": SOUND,
    "the first board paid in dollars": SOUND,
    "an odd corner": Script(boards=GOOD + 'sapwood,A,,,,,,"0, 180; 1500, 180; 0, 200",,,,,\n'),
    "a cell too many": SOUND,
    "an empty file": Script(),
    "a file in no encoding": Script(boards=GOOD + "knot,A,fäule,100,20,30,20,,,,,,\n"),
    "a workbook": SOUND,
    "an old workbook": SOUND,
    "a PDF": SOUND,
    "a file with a zero byte": SOUND,
}
"""What a maker hands over who does what the words of a refusal say, where they name no figure."""
