"""Boxes that lose their bottoms, lids that jam or fall, and boards that the seasons tear apart."""

from __future__ import annotations

from furniture import (
    BackPanel,
    Ballast,
    BottomFixing,
    Composition,
    Hinge,
    HingedLid,
    LidFixing,
    MitredBox,
    Screw,
    Stay,
    SteppedStand,
    Stock,
    TierRule,
    Uprights,
)
from furniture.checks.check import Verdict
from tests.builders.test_hung import shelf_over, tray
from tests.hazards.making import (
    OAK,
    PINE,
    PLY,
    X,
    Y,
    board,
    box,
    butt,
    case,
    groove,
    load,
    nails,
    piece,
    screws,
)
from tests.hazards.rows import danger
from tests.hazards.subjects import (
    BOTTOM,
    BOTTOM_SAGS,
    BOTTOM_SHRINKS,
    FALLS_SHUT,
    MOVES,
    SLOTS,
    STRIKES,
    TIPS_OPEN,
    UNKNOWN,
)

NAILS = "withdrawal of nails 54.12 G^2.5 D L, a sixth working: Wood Handbook ch. 8"
SEASONS = "coefficients: Wood Handbook FPL-GTR-190 (2010), table 13-5"
RAILS = Stock(name="pine, 12", species="white pine", thickness="12 mm", moisture="9 %")
THIN = Stock(name="pine, 6", species="white pine", thickness="6 mm", moisture="9 %")


def _mitred(**changes):
    given = {
        "rails": RAILS,
        "lid": THIN,
        "bottom": THIN,
        "width": "300 mm",
        "depth": "200 mm",
        "height": "90 mm",
    }
    return MitredBox(**{**given, **changes})


@danger(
    "D40",
    "Bottom in a shallow groove",
    Verdict.FAIL,
    BOTTOM_SHRINKS,
    "a magazine's page on sagging drawers: the bottom pops out of its groove; " + SEASONS,
    refused_over="reach into the groove",
    remark="made at 12 %, as timber from a cold shop",
)
def shallow_groove() -> Composition:
    boards, joints = box(PINE, 300, 200, 80, 12)
    bottom = board("bottom", PINE, (11, 11, 10), (278, 178, 5), X, moisture="12 %")
    joints += groove("bottom", "left end", "right end", "front", "back", gap=1.0)
    return piece([*boards, bottom], joints, load("bottom", 5, (150, 100)))


@danger(
    "D41",
    "Thin wide bottom",
    Verdict.CAUTION,
    BOTTOM_SAGS,
    "a magazine's page on sagging drawers; compressed-board bottoms fail (a maker's page)",
    remark="ply in place of hardboard, which the table does not have",
)
def thin_bottom() -> Composition:
    boards, joints = box(PINE, 400, 300, 90, 15)
    bottom = board("bottom", PLY, (9, 9, 10), (382, 282, 3))
    joints += groove("bottom", "left end", "right end", "front", "back")
    return piece([*boards, bottom], joints, load("bottom", 10, (250, 200)))


@danger(
    "D42",
    "Bottom that nothing holds",
    Verdict.FAIL,
    BOTTOM,
    "statics: no bearing and no fastening",
)
def unheld_bottom() -> MitredBox:
    return _mitred(
        bottom_fixing=BottomFixing.LOOSE,
        ballast=Ballast(mass="3 kg", size=("120 mm", "80 mm", "30 mm")),
    )


@danger("D43", "Bottom pinned from below under ballast", Verdict.FAIL, BOTTOM, NAILS)
def pinned_bottom() -> MitredBox:
    return _mitred(
        bottom_fixing=BottomFixing.PINNED,
        ballast=Ballast(mass="8 kg", size=("150 mm", "120 mm", "50 mm"), from_front="100 mm"),
    )


@danger("D44", "Tote bottom nailed up from below", Verdict.CAUTION, BOTTOM, NAILS)
def tote_bottom() -> Composition:
    boards, joints = box(PINE, 400, 200, 150, 18, low=15)
    bottom = board("bottom", PINE, (0, 0, 0), (400, 200, 15))
    joints += nails("bottom", "front", "back", size=1.6, through=15, bite=23, count=2, edge=60)
    return piece([*boards, bottom], joints, load("bottom", 12, (250, 120), 60))


@danger(
    "D45",
    "Lid jammed in summer",
    Verdict.FAIL,
    MOVES,
    SEASONS + "; a page on stuck drawers: wood may swell 1/8 in a foot",
)
def jammed_lid() -> MitredBox:
    cherry = Stock(name="cherry, 12", species="cherry", thickness="12 mm", moisture="6 %")
    thin = Stock(name="cherry, 8", species="cherry", thickness="8 mm", moisture="6 %")
    return MitredBox(
        rails=cherry,
        lid=thin,
        width="380 mm",
        depth="262 mm",
        height="90 mm",
        lid_gap_across="0.25 mm",
    )


@danger(
    "DX31",
    "Sliding lid without room in its grooves",
    Verdict.CAUTION,
    MOVES,
    SEASONS + "; a lid that slides across the grain of the season jams in a damp one",
)
def tight_sliding_lid() -> MitredBox:
    rails = Stock(name="beech, 14", species="beech", thickness="14 mm", moisture="6 %")
    thin = Stock(name="beech, 6", species="beech", thickness="6 mm", moisture="6 %")
    return MitredBox(
        rails=rails,
        lid=thin,
        bottom=Stock(name="ply, 6", species=PLY, thickness="6 mm"),
        width="300 mm",
        depth="220 mm",
        height="80 mm",
        lid_fixing=LidFixing.SLIDING,
        bottom_fixing=BottomFixing.GLUED,
        lid_gap_across="0.3 mm",
    )


@danger(
    "D46",
    "Solid bottom glued all round",
    Verdict.FAIL,
    MOVES,
    "a magazine 2010: a solid drawer bottom needs no glue; " + SEASONS,
    remark="3.6 mm by hand, of a change of 5 % in moisture: made of stock that dries so much in a "
    "heated house. At 9 % the seasons move it 2.2 mm, a caution",
)
def glued_bottom() -> MitredBox:
    thin = Stock(name="oak, 6", species="white oak", thickness="6 mm", moisture="11 %")
    rails = Stock(name="oak, 12", species="white oak", thickness="12 mm", moisture="11 %")
    return MitredBox(
        rails=rails,
        lid=thin,
        bottom=thin,
        width="300 mm",
        depth="224 mm",
        height="90 mm",
        bottom_fixing=BottomFixing.GLUED,
    )


@danger(
    "D47",
    "Wide top on glued battens",
    Verdict.FAIL,
    MOVES,
    "a woodworker's page: a top framed all round cracked two winters running; " + SEASONS,
)
def glued_battens() -> Composition:
    top = board("top", OAK, (0, 0, 25), (800, 400, 20))
    battens = [
        board(f"batten {n}", OAK, (x, 0, 0), (40, 400, 25), Y, thin=None)
        for n, x in ((1, 100), (2, 660))
    ]
    joints = [each for b in battens for each in butt(b.name, "top")]
    return piece([top, *battens], joints)


@danger(
    "D48",
    "Solid wood glued on plywood",
    Verdict.FAIL,
    MOVES,
    "a trade forum's knowledge base: a cracked beech surface; " + SEASONS,
)
def solid_on_ply() -> Composition:
    sheet = board("sheet", PLY, (0, 0, 0), (800, 600, 18))
    top = board("top", "beech", (0, 0, 18), (800, 600, 20))
    return piece([sheet, top], butt("top", "sheet"))


@danger(
    "D49",
    "Top screwed down in plain holes",
    Verdict.CAUTION,
    SLOTS,
    "wood forum: a farm table's top cracked, screwed solid to its base; " + SEASONS,
)
def screwed_top() -> Composition:
    top = board("top", "hard maple", (0, 0, 300), (700, 350, 20))
    bearers = [
        board(f"bearer {n}", "hard maple", (x, 0, 0), (30, 350, 300), Y)
        for n, x in ((1, 50), (2, 620))
    ]
    joints = screws("top", "bearer 1", "bearer 2", size=4, through=20, bite=25, edge=20)
    return piece([top, *bearers], joints)


@danger(
    "D52",
    "Chest lid that falls",
    Verdict.CAUTION,
    UNKNOWN,
    "consumer body 1982: toy chest lids, 21 deaths in ten years; ASTM F834 from 31 litres",
    remark="hinges cannot be modelled: the lid lies loose on the chest, and the tool must say that "
    "nothing holds it or that it is not checked",
)
def chest_lid() -> Composition:
    boards, joints = box(OAK, 600, 400, 350, 19)
    bottom = board("bottom", PLY, (13, 13, 15), (574, 374, 12))
    joints += groove("bottom", "left end", "right end", "front", "back")
    lid = board("lid", OAK, (0, 0, 350), (600, 400, 19))
    return piece([*boards, bottom, lid], joints)


def _hinged(lid, overhang="5 mm", opens="100 deg", **sizes):
    """A box of oak rails with a lid on hinges of 30 by 9."""
    stocks = {
        name: Stock(name=f"oak, {thick}", species="white oak", thickness=thick, moisture="9 %")
        for name, thick in (("rails", "14 mm"), ("lid", lid))
    }
    screw = Screw(diameter="2.5 mm", length="8 mm")
    hinge = Hinge(
        leaf_length="30 mm", leaf_width="9 mm", leaf_thickness="1.2 mm", barrel="4 mm", screw=screw
    )
    turns = HingedLid(hinge=hinge, overhang=overhang, stay=Stay(opens_to=opens))
    return MitredBox(
        **stocks, **sizes, bottom=Stock(name="ply, 6", species=PLY, thickness="6 mm"),
        bottom_fixing=BottomFixing.GLUED, lid_fixing=LidFixing.HINGED, hinged_lid=turns,
    )  # fmt: skip


@danger(
    "DX33",
    "Shallow box with a heavy lid that opens far",
    Verdict.FAIL,
    TIPS_OPEN,
    "statics; common practice, no source: such a box is opened with a hand on it",
)
def thrown_by_its_lid() -> MitredBox:
    return _hinged("40 mm", opens="118 deg", width="260 mm", depth="100 mm", height="60 mm")


@danger(
    "DX34",
    "Chest with its lid on plain hinges",
    Verdict.CAUTION,
    FALLS_SHUT,
    "consumer body 1982: toy chest lids, 21 deaths in ten years; ASTM F834 from 31 litres",
)
def hinged_chest() -> MitredBox:
    return _hinged("18 mm", width="600 mm", depth="400 mm", height="350 mm")


@danger(
    "DX35",
    "Wide solid lid held at its hinges, flush in front",
    Verdict.CAUTION,
    MOVES,
    SEASONS + "; all that it shrinks shows at its front edge",
)
def lid_that_draws_back() -> MitredBox:
    return _hinged(
        "18 mm", overhang="0 mm", width="300 mm", depth="400 mm", height="90 mm"
    )  # fmt: skip


@danger(
    "DX36",
    "Solid back without room between its uprights",
    Verdict.CAUTION,
    MOVES,
    SEASONS + "; a wide back of dry wood spreads the uprights in a damp season",
)
def tight_back() -> SteppedStand:
    stocks = {
        name: Stock(name=f"oak, {thick}", species="white oak", thickness=thick, moisture="7 %")
        for name, thick in (("thick", "18 mm"), ("thin", "12 mm"), ("back", "7 mm"))
    }
    back = BackPanel(stock=stocks.pop("back"), gap="0.3 mm")
    return SteppedStand(
        **stocks, base_width="360 mm", base_depth="220 mm", base_height="80 mm",
        uprights=Uprights(depth="120 mm"), back_panel=back,
        tiers=TierRule(count=2, depth="130 mm", rise="130 mm"),
    )  # fmt: skip


@danger(
    "DX11",
    "Wide oak panel glued in grooves of its frame",
    Verdict.FAIL,
    MOVES,
    "common practice, no source: a solid panel floats in its frame; " + SEASONS,
)
def glued_panel() -> Composition:
    boards, joints = box(OAK, 500, 400, 60, 20)
    panel = board("panel", OAK, (14, 14, 20), (472, 372, 10))
    joints += groove("panel", "left end", "right end", "front", "back", glued=True)
    return piece([*boards, panel], joints)


@danger(
    "DX12",
    "Breadboard ends glued over their whole width",
    Verdict.CAUTION,
    MOVES,
    "common practice, no source: such an end is glued in its middle only; " + SEASONS,
)
def breadboard() -> Composition:
    top = board("top", "cherry", (40, 0, 0), (600, 380, 20))
    ends = [
        board(f"end {n}", "cherry", (x, 0, 0), (40, 380, 20), Y, thin=None)
        for n, x in ((1, 0), (2, 640))
    ]
    return piece([top, *ends], butt("top", "end 1", "end 2"))


@danger(
    "DX13",
    "Crate bottom on two pins of 1 mm under stones",
    Verdict.FAIL,
    BOTTOM,
    NAILS,
)
def crate() -> Composition:
    boards, joints = box(PINE, 350, 250, 120, 14, low=8)
    bottom = board("bottom", PINE, (0, 0, 0), (350, 250, 8))
    joints += nails("bottom", "left end", "right end", size=1.2, through=8, bite=12, count=1)
    return piece([*boards, bottom], joints, load("bottom", 10, (200, 150), 50))


@danger(
    "DX14",
    "Shelves glued upright grain to cross grain, 350 deep",
    Verdict.CAUTION,
    MOVES,
    SEASONS + "; a long cleat glued across a side",
)
def cleated_side() -> Composition:
    boards, joints = case(OAK, 500, 350, 500, 19, (20, 481))
    cleats = [
        board(f"cleat {n}", OAK, (x, 0, 250), (20, 350, 20), Y) for n, x in ((1, 19), (2, 461))
    ]
    joints += butt("cleat 1", "left side") + butt("cleat 2", "right side")
    return piece([*boards, *cleats], joints)


@danger(
    "DX37",
    "Flap under a shelf that it strikes before its chain stops it",
    Verdict.FAIL,
    STRIKES,
    "geometry; common practice, no source: a lid that strikes pries its hinges out",
)
def flap_under_a_shelf() -> Composition:
    return tray(shelf=shelf_over("80 mm", "150 mm"))


BOX_ROWS = (
    shallow_groove,
    thin_bottom,
    unheld_bottom,
    pinned_bottom,
    tote_bottom,
    jammed_lid,
    tight_sliding_lid,
    glued_bottom,
    glued_battens,
    solid_on_ply,
    screwed_top,
    chest_lid,
    thrown_by_its_lid,
    hinged_chest,
    lid_that_draws_back,
    flap_under_a_shelf,
    tight_back,
    glued_panel,
    breadboard,
    crate,
    cleated_side,
)
