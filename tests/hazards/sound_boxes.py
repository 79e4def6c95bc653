"""Boxes, trays and totes in order."""

from __future__ import annotations

from furniture import (
    BottomFixing,
    Composition,
    Hinge,
    HingedLid,
    Key,
    LidFixing,
    MitredBox,
    Screw,
    Spline,
    SteppedStand,
    Stock,
)
from furniture.checks.check import Verdict
from models.tea_box import box as tea_box
from tests.builders.test_flap import flapped
from tests.hazards.making import (
    OAK,
    PINE,
    PLY,
    Z,
    board,
    box,
    dado,
    dowels,
    groove,
    load,
    mitred,
    nails,
    panel,
    piece,
    screws,
)
from tests.hazards.rows import sound

CORNERS = tuple((side, end) for side in ("front", "back") for end in ("left end", "right end"))


def _stock(wood, thick):
    return Stock(name=f"{wood}, {thick:g}", species=wood, thickness=f"{thick} mm", moisture="9 %")


@sound(
    "S36",
    "Walnut jewellery box, keyed mitres",
    "magazine article, a jewellery box",
    remark="its lid, sawn off, stands as a loose panel",
)
def jewellery_box() -> Composition:
    boards, joints = mitred("walnut", 324, 171, 111, 16)
    low, more = panel("bottom", "soft maple", (324, 171), 16, 6, 5, 6, (0.5, 1.2))
    top, still = panel("lid", "soft maple", (324, 171), 16, 6, 99, 6, (0.5, 1.2))
    keys = [
        Key(
            name=f"key {n} {corner[0]} {corner[1]}",
            stock=_stock("soft maple", 3),
            between=corner,
            depth="12 mm",
            start=f"{start} mm",
        )
        for corner in CORNERS
        for n, start in ((1, 25), (2, 80))
    ]
    return piece(
        [*boards, *low, *top],
        joints + more + still,
        load("bottom", 1, (200, 100), 30),
        corner_parts=keys,
    )


@sound("S37", "Keepsake box, splined, ply bottom", "plan of a how-to magazine, a keepsake box")
def splined_box() -> Composition:
    boards, joints = mitred("true mahogany", 305, 203, 64, 16)
    low, more = panel("bottom", PLY, (305, 203), 16, 6, 6, 6)
    splines = [
        Spline(
            name=f"spline {a} {b}",
            stock=_stock("true mahogany", 3),
            between=(a, b),
            into_each="6 mm",
            from_long_point="14 mm",
            width="64 mm",
        )
        for a, b in CORNERS
    ]
    return piece(
        [*boards, *low], joints + more, load("bottom", 1, (200, 120), 20), corner_parts=splines
    )


@sound(
    "S38",
    "Keepsake box, deep, mitres",
    "magazine plan, a keepsake box with a false bottom",
    remark="one bottom of two",
)
def deep_box() -> MitredBox:
    return MitredBox(
        rails=_stock("cherry", 12.5),
        lid=_stock("cherry", 9),
        bottom=_stock(PLY, 6),
        width="305 mm",
        depth="203 mm",
        height="191 mm",
        bottom_fixing=BottomFixing.GLUED,
    )


@sound(
    "S39",
    "Small mitred box, no keys",
    "magazine editor 2015: not all mitres need reinforcement",
    fair=Verdict.NOTE,
)
def small_box() -> MitredBox:
    return MitredBox(
        rails=_stock("cherry", 9),
        lid=_stock("cherry", 6),
        bottom=_stock(PLY, 4),
        width="230 mm",
        depth="130 mm",
        height="80 mm",
        bottom_fixing=BottomFixing.GLUED,
    )


@sound(
    "S40",
    "Pencil box, bare mitres",
    "club maker, 14 in a day, 2016",
    remark="panels 4 thick; the sliding lid stands in grooves all round",
)
def pencil_box() -> Composition:
    boards, joints = mitred(PINE, 216, 73, 64, 8)
    low, more = panel("bottom", PINE, (216, 73), 8, 3, 4, 4, (0.3, 0.7))
    top, still = panel("lid", PINE, (216, 73), 8, 3, 56, 4, (0.3, 0.7))
    return piece([*boards, *low, *top], joints + more + still, load("bottom", 0.2, (150, 40), 10))


@sound(
    "S41", "Jewellery box, lid sliced off, 12 mm", "woodworkers' journal, a mitred jewellery box"
)
def maple_box() -> Composition:
    boards, joints = mitred("hard maple", 279, 180, 119, 12)
    low, more = panel("bottom", PLY, (279, 180), 12, 5, 6, 6)
    top, still = panel("lid", PLY, (279, 180), 12, 5, 110, 3)
    return piece([*boards, *low, *top], joints + more + still, load("bottom", 1, (150, 100), 30))


@sound(
    "S42",
    "Tote, screwed through the ends",
    "magazine project, a handy tote",
    remark="screws in end grain count as nothing here, so the screws from below carry",
    fair=Verdict.NOTE,
)
def handy_tote() -> Composition:
    ends = [board(f"end {n}", PINE, (x, 0, 0), (19, 184, 241), Z) for n, x in ((1, 0), (2, 381))]
    bottom = board("bottom", PINE, (19, 0, 0), (362, 184, 19))
    sides = [board(f"side {n}", PINE, (19, y, 19), (362, 19, 90)) for n, y in ((1, 0), (2, 165))]
    handle = board("handle", PINE, (19, 81, 200), (362, 22, 22), thin=Z)
    joints = []
    for end in ends:
        joints += screws(end.name, "bottom", size=4, through=19, bite=31, count=2)
        joints += screws(
            end.name, "side 1", "side 2", size=4, through=19, bite=31, count=2, glued=True
        )
        joints += dowels("handle", end.name, size=6, count=1, length=32, deep=14, first=11)
    joints += screws("bottom", "side 1", "side 2", size=4, through=19, bite=31, count=4)
    return piece([*ends, bottom, *sides, handle], joints, load("bottom", 6, (300, 100), 50))


@sound(
    "S43",
    "Tote with wedged handle",
    "a magazine's tool tote",
    remark="the wedged handle stands as dowelled; ends' grain runs up",
    fair=Verdict.NOTE,
)
def wedged_tote() -> Composition:
    ends = [board(f"end {n}", PINE, (x, 0, 0), (19, 292, 330), Z) for n, x in ((1, 20), (2, 520))]
    sides = [board(f"side {n}", PINE, (0, y, 0), (559, 19, 184)) for n, y in ((1, -19), (2, 292))]
    bottom = board("bottom", PINE, (39, 0, 0), (481, 292, 19))
    handle = board("handle", PINE, (39, 127, 270), (481, 19, 38))
    joints = []
    for side in sides:
        joints += screws(side.name, "end 1", "end 2", size=4, through=19, bite=31, count=3)
        joints += screws(side.name, "bottom", size=4, through=19, bite=31, count=4)
    joints += dowels("handle", "end 1", "end 2", size=8, length=40, deep=14, count=1)
    return piece([*ends, *sides, bottom, handle], joints, load("bottom", 10, (350, 200), 60))


@sound(
    "S44",
    "Dovetailed tote",
    "magazine article, a craftsman's tool tote",
    remark="dovetails stand as dowels",
)
def dovetailed_tote() -> Composition:
    wood = "true mahogany"
    ends = [
        board(f"{w} end", wood, (x, 0, 0), (19, 191, 305), Z)
        for w, x in (("left", 0), ("right", 622))
    ]
    sides = [
        board(name, wood, (19, y, 0), (603, 19, 130)) for name, y in (("front", 0), ("back", 172))
    ]
    bottom = board("bottom", PLY, (19, 13, 12), (603, 165, 12))
    handle = board("handle", OAK, (19, 86, 255), (603, 19, 40))
    joints = []
    for side in sides:
        joints += dowels(side.name, "left end", "right end", size=8, count=4, length=40, deep=14)
    joints += groove("bottom", "front", "back", glued=True)
    joints += dowels("handle", "left end", "right end", size=6, length=32, deep=14, count=2)
    return piece([*ends, *sides, bottom, handle], joints, load("bottom", 15, (450, 120), 60))


@sound(
    "S45",
    "Tote with a 6 mm ply bottom",
    "woodworking magazine, a tool tote",
    remark="plates stand as dowels; the bottom's stopped dado as grooves in the sides",
    fair=Verdict.NOTE,
)
def ply_tote() -> Composition:
    wood = "hard maple"
    ends = [
        board(f"{w} end", wood, (x, 0, 0), (19, 230, 300), Z)
        for w, x in (("left", 0), ("right", 431))
    ]
    sides = [
        board(name, wood, (19, y, 0), (412, 19, 130)) for name, y in (("front", 0), ("back", 211))
    ]
    bottom = board("bottom", PLY, (19, 13, 12), (412, 204, 6))
    handle = board("handle", wood, (19, 102, 250), (412, 25, 25), thin=Z)
    joints = []
    for side in sides:
        joints += dowels(side.name, "left end", "right end", size=8, count=3, length=40, deep=14)
    joints += groove("bottom", "front", "back", glued=True)
    joints += dowels(
        "handle", "left end", "right end", size=7, length=36, deep=14, count=1, first=12.5
    )
    return piece([*ends, *sides, bottom, handle], joints, load("bottom", 8, (300, 150), 60))


@sound("S54", "Pen tray", "common practice, no source", remark="its loose dividers are left out")
def pen_tray() -> Composition:
    boards, joints = mitred("walnut", 260, 110, 35, 8)
    low, more = panel("bottom", PLY, (260, 110), 8, 3, 3, 3)
    return piece([*boards, *low], joints + more, load("bottom", 0.2, (150, 60), 8))


@sound("S55", "Tea box, drop-in lid", "the example of this project, models/tea_box.py")
def the_tea_box() -> MitredBox:
    return tea_box


@sound(
    "S56",
    "Six-board box, small",
    "six-board chests of the 17th to 19th century, from memory",
    cautions=1,
    remark="nailed, the bottom let into dados of the ends; no lid",
    fair=Verdict.CAUTION,
)
def six_boards() -> Composition:
    ends = [board(f"end {n}", PINE, (x, 19, 0), (19, 262, 311), Z) for n, x in ((1, 19), (2, 562))]
    sides = [board(f"side {n}", PINE, (0, y, 40), (600, 19, 271)) for n, y in ((1, 0), (2, 281))]
    bottom = board("bottom", PINE, (32, 19, 60), (536, 262, 19))
    joints = dado("bottom", "end 1", "end 2", glued=False)
    for side in sides:
        joints += nails(side.name, "end 1", "end 2", size=2.5, through=19, bite=41, count=4)
        joints += nails(side.name, "bottom", size=2.5, through=19, bite=41, count=4)
    return piece([*ends, *sides, bottom], joints, load("bottom", 8, (400, 200), 100))


@sound("SX4", "Serving tray, ply bottom in grooves", "common practice, no source")
def tray() -> Composition:
    boards, joints = box("walnut", 450, 300, 50, 12)
    low, more = panel("bottom", PLY, (450, 300), 12, 5, 6, 6)
    return piece([*boards, *low], joints + more, load("bottom", 3, (300, 200), 40))


@sound("SX5", "Crate with slats on its bottom, nailed and glued", "common practice, no source")
def crate() -> Composition:
    boards, joints = box(PINE, 400, 280, 150, 16, low=10)
    slats = [board(f"slat {n}", PINE, (0, 5 + 46 * n, 0), (400, 40, 10)) for n in range(6)]
    for slat in slats:
        joints += nails(
            slat.name, "left end", "right end", size=2, through=10, bite=30, count=2, edge=5
        )
    return piece(
        [*boards, *slats],
        joints,
        load("slat 2", 2, (300, 40), 60),
        load("slat 3", 2, (300, 40), 60),
    )


@sound(
    "SX31",
    "Box with a sliding lid in grooves, with room for the seasons",
    "common practice, no source: such a lid runs loose in its grooves and is never glued",
    fair=Verdict.NOTE,
)
def sliding_box() -> MitredBox:
    rails = Stock(name="cherry, 14", species="cherry", thickness="14 mm", moisture="9 %")
    thin = Stock(name="cherry, 6", species="cherry", thickness="6 mm", moisture="9 %")
    sheet = Stock(name="ply, 6", species=PLY, thickness="6 mm")
    return MitredBox(
        rails=rails,
        lid=thin,
        bottom=sheet,
        width="240 mm",
        depth="120 mm",
        height="70 mm",
        lid_fixing=LidFixing.SLIDING,
        bottom_fixing=BottomFixing.GLUED,
    )


@sound(
    "SX33",
    "Box with a lid on two butt hinges, a chain inside",
    "common practice, no source: such boxes stand on tables with their lids open",
    fair=Verdict.NOTE,
)
def hinged_box() -> MitredBox:
    screw = Screw(diameter="2 mm", length="8 mm")
    hinge = Hinge(
        leaf_length="30 mm", leaf_width="9 mm", leaf_thickness="1.2 mm", barrel="4 mm", screw=screw
    )
    return MitredBox(
        rails=_stock("cherry", 14),
        lid=_stock("cherry", 13),
        bottom=Stock(name="ply, 6", species=PLY, thickness="6 mm"),
        width="260 mm",
        depth="160 mm",
        height="90 mm",
        lid_fixing=LidFixing.HINGED,
        hinged_lid=HingedLid(hinge=hinge),
        bottom_fixing=BottomFixing.GLUED,
    )


@sound(
    "SX35",
    "Stand whose lid opens in front of its tiers",
    "geometry and common practice, no source: a flap on a strip before what stands behind",
    fair=Verdict.NOTE,
)
def flap_before_tiers() -> SteppedStand:
    return flapped(bottom=Stock(name="ply, 6", species=PLY, thickness="6 mm"),
                   bottom_fixing=BottomFixing.GLUED, bottom_gap=None)  # fmt: skip


BOX_ROWS = (
    jewellery_box,
    splined_box,
    deep_box,
    small_box,
    pencil_box,
    maple_box,
    handy_tote,
    wedged_tote,
    dovetailed_tote,
    ply_tote,
    pen_tray,
    the_tea_box,
    six_boards,
    tray,
    crate,
    sliding_box,
    hinged_box,
    flap_before_tiers,
)
