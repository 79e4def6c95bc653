"""Bookcases, cabinets and plant stands in order."""

from __future__ import annotations

from furniture import Composition
from furniture.checks.check import Verdict
from tests.hazards.frames import framed
from tests.hazards.making import (
    OAK,
    PINE,
    PLY,
    RED_OAK,
    Y,
    Z,
    board,
    butt,
    case,
    dado,
    dowels,
    lap,
    load,
    nails,
    piece,
    screws,
    sitting,
    stopped,
)
from tests.hazards.rows import sound


def _backed(boards, joints, width, depth, height, thick, *, sheet=6.0, glued=True):
    """The same with a sheet nailed on behind, flush with the outside."""
    back = board("back", PLY, (0, depth, 0), (width, sheet, height), Z)
    sides = nails(
        "back",
        "left side",
        "right side",
        size=1.6,
        through=sheet,
        bite=24,
        count=max(4, int(height // 150)),
        glued=glued,
    )
    levels = [each.name for each in boards if each.name.startswith(("shelf", "top", "bottom"))]
    return [*boards, back], joints + sides + [
        joint
        for name in levels
        for joint in nails("back", name, size=1.6, through=sheet, bite=24, count=4)
    ]


@sound(
    "S14",
    "Child's oak bookcase, open, short back",
    "maker's page of an oak bookcase",
    cautions=2,
    fair=Verdict.CAUTION,
)
def childs_bookcase() -> Composition:
    boards, joints = case(RED_OAK, 1067, 280, 1041, 19, (80, 400, 720, 1000), stopped, let_in=9)
    kick = board("toe kick", RED_OAK, (19, 20, 0), (1029, 19, 80))
    short = board("short back", RED_OAK, (19, 261, 880), (1029, 19, 120))
    for name in ("toe kick", "short back"):
        joints += dowels(name, "left side", "right side", size=6, deep=12, length=35)
    loads = [load(f"shelf {n}", 25, (900, 200), 120) for n in (1, 2, 3)]
    return piece([*boards, kick, short], joints, *loads)


@sound(
    "S15",
    "Plywood bookcase with face strips",
    "a magazine's book on bookcases, a drawing",
    cautions=2,
    fair=Verdict.CAUTION,
)
def faced_bookcase() -> Composition:
    boards, joints = case(PLY, 762, 260, 1080, 19, (127, 440, 750, 1061), dado, let_in=6)
    boards, joints = _backed(boards, joints, 762, 260, 1080, 19)
    base = board("base", "soft maple", (19, 20, 0), (724, 19, 127))
    joints += dowels("base", "left side", "right side", size=6, deep=12, length=35)
    strips = [
        board(f"strip {n}", "soft maple", (19, -6, z), (724, 6, 38))
        for n, z in ((1, 421), (2, 731))
    ]
    joints += butt("strip 1", "shelf 2") + butt("strip 2", "shelf 3")
    loads = [load(f"shelf {n}", 18, (650, 200), 120) for n in (1, 2, 3)]
    return piece([*boards, base, *strips], joints, *loads)


@sound(
    "S16",
    "One-sheet plywood bookcase, tall, thick back",
    "a magazine's plan collection",
    cautions=2,
    remark="plates stand as dowels",
    fair=Verdict.CAUTION,
)
def one_sheet() -> Composition:
    def plated(what, *sides):
        return dowels(what, *sides, size=8, count=3, deep=14, length=40)

    boards, joints = case(PLY, 750, 221, 1524, 19, (60, 420, 780, 1140, 1500), plated, let_in=0)
    boards, joints = _backed(boards, joints, 750, 221, 1524, 19, sheet=19)
    return piece(boards, joints, *(load(f"shelf {n}", 15, (600, 180), 120) for n in (1, 2, 3, 4)))


@sound(
    "S17",
    "School bookcase, low, ply",
    "wood forum, the sturdiest back for a bookcase",
)
def school_bookcase() -> Composition:
    boards, joints = case(PLY, 850, 293, 667, 19, (60, 340, 648), dado, let_in=6)
    boards, joints = _backed(boards, joints, 850, 293, 667, 19, sheet=12)
    return piece(
        boards, joints, load("shelf 1", 30, (750, 250), 130), load("shelf 2", 30, (750, 250), 130)
    )


@sound(
    "S18",
    "Narrow tower bookcase on a base",
    "plan reprint of a bookcase",
    cautions=2,
    remark="its adjustable shelves lie unglued in dados",
    fair=Verdict.CAUTION,
)
def tower() -> Composition:
    boards, joints = case(OAK, 400, 388, 1500, 19, (80, 1481), dado, let_in=6)
    loose = [
        board(f"shelf {n}", OAK, (13, 0, z), (374, 388, 19))
        for n, z in ((3, 430), (4, 780), (5, 1130))
    ]
    joints += [each for b in loose for each in dado(b.name, "left side", "right side", glued=False)]
    back = board("back", PLY, (0, 388, 0), (400, 12, 1500), Z)
    joints += nails(
        "back", "left side", "right side", size=1.6, through=12, bite=24, count=10, glued=True
    )
    loads = [load(f"shelf {n}", 10, (300, 250), 120) for n in (1, 3, 4, 5)]
    return piece([*boards, *loose, back], joints, *loads)


@sound(
    "S19",
    "Bookrack on rails",
    "plan of a how-to magazine, a trough-style bookrack",
    remark="tenons stand as dowels; the trough as a level shelf",
)
def bookrack() -> Composition:
    boards, joints = framed(OAK, 695, 400, 640, 40, 80, low=150)
    shelf = board("shelf", PLY, (0, 0, 640), (695, 400, 19))
    joints += screws(
        "shelf", "upper rail 0", "upper rail 360", size=4, through=19, bite=30, count=3
    )
    return piece([shelf, *boards], joints, load("shelf", 20, (600, 250), 120))


@sound(
    "S20",
    "Low shelf of two boards and three dados, one back rail",
    "an old book on carpentry: strips at top and bottom make such a case rigid enough",
    fair=Verdict.CAUTION,
)
def low_shelf() -> Composition:
    boards, joints = case(PINE, 600, 200, 600, 18, (40, 300, 564), dado, let_in=6)
    rail = board("rail", PINE, (18, 182, 504), (564, 18, 60))
    joints += [
        each
        for side in ("left side", "right side")
        for each in screws(side, "rail", size=4, through=18, bite=32, edge=15, glued=True)
    ]
    joints += butt("rail", "shelf 3")
    loads = [load(f"shelf {n}", 15, (480, 160), 120) for n in (1, 2)]
    return piece([*boards, rail], joints, *loads)


@sound(
    "S21",
    "Mission plant stand",
    "mission furniture text, a plant stand",
    remark="tenons stand as dowels",
    fair=Verdict.CAUTION,
)
def mission_plant_stand() -> Composition:
    boards, joints = framed(OAK, 343, 343, 508, 32, 76, low=120)
    top = board("top", OAK, (-25, -25, 508), (393, 393, 19))
    joints += [
        each
        for rail in ("upper rail 0", "upper rail 311")
        for each in screws("top", rail, size=4, through=19, bite=30, count=2)
    ]
    return piece([top, *boards], joints, load("top", 8, (220, 220), 150))


@sound(
    "S22",
    "Tiered plant stand on halved rails",
    "magazine plan of a plant stand",
    cautions=2,
    remark="its gravel tray is a shelf with 25 kg; back lattice as two rails",
    fair=Verdict.NOTE,
)
def gravel_stand() -> Composition:
    wood = "Douglas-fir"
    boards, joints = [], []
    for way, x in (("left", 0), ("right", 930)):
        boards += [
            board(f"{way} rear leg", wood, (x, 565, 0), (70, 35, 1200), Z),
            board(f"{way} front leg", wood, (x, 0, 0), (70, 35, 500), Z),
        ]
        for n, z in ((1, 120), (2, 430)):
            name = f"{way} rail {n}"
            boards.append(board(name, wood, (x, 35, z), (35, 530, 70), Y))
            joints += dowels(name, f"{way} rear leg", f"{way} front leg", size=10, length=50)
    for n, z in ((1, 300), (2, 1100)):
        boards.append(board(f"back rail {n}", wood, (0, 600, z), (1000, 20, 90)))
        joints += screws(
            f"back rail {n}",
            "left rear leg",
            "right rear leg",
            size=5,
            through=20,
            bite=30,
            edge=20,
            glued=True,
        )
    for n, z in ((1, 190), (2, 500)):
        boards.append(board(f"tray {n}", PLY, (0, 35, z), (1000, 530, 18)))
        joints += screws(
            f"tray {n}", f"left rail {n}", f"right rail {n}", size=4, through=18, bite=32, count=4
        )
    return piece(
        boards, joints, load("tray 1", 25, (800, 400), 40), load("tray 2", 8, (600, 300), 120)
    )


@sound(
    "S23",
    "Low round plant stand",
    "maker's article, a low plant stand",
    remark="a square top; its round feet as square ones dowelled",
)
def low_plant_stand() -> Composition:
    wood = "western redcedar"
    top = board("top", wood, (0, 0, 90), (330, 330, 22))
    feet = [
        board(f"foot {x} {y}", wood, (x, y, 0), (24, 24, 90), Z)
        for x in (50, 256)
        for y in (50, 256)
    ]
    joints = [
        each
        for foot in feet
        for each in dowels(foot.name, "top", size=8, count=1, deep=16, length=45, first=12)
    ]
    return piece([top, *feet], joints, load("top", 10, (200, 200), 120))


@sound(
    "S24",
    "Pot stand on four posts and a cross lap",
    "maker's article, a wood plant stand",
    cautions=1,
    fair=Verdict.CAUTION,
)
def pot_stand() -> Composition:
    wood = "yellow-poplar"
    beams = [
        board("beam 1", wood, (0, 117, 100), (273, 38, 19)),
        board("beam 2", wood, (117, 0, 100), (38, 273, 19), Y),
    ]
    posts = [
        board(f"post {n}", wood, at, (22, 22, 292), Z)
        for n, at in (
            (1, (-22, 125, 0)),
            (2, (273, 125, 0)),
            (3, (125, -22, 0)),
            (4, (125, 273, 0)),
        )
    ]
    joints = lap("beam 2", "beam 1")
    joints += dowels("beam 1", "post 1", "post 2", size=6, count=1, length=32, deep=15)
    joints += dowels("beam 2", "post 3", "post 4", size=6, count=1, length=32, deep=15)
    return piece([*beams, *posts], joints, load("beam 1", 6, (150, 38), 120))


@sound(
    "S25",
    "Plant table, tall and plain",
    "garden column: it worked just fine for years",
    remark="nailed frame as dowelled rails",
    fair=Verdict.NOTE,
)
def plant_table() -> Composition:
    boards, joints = framed(PINE, 420, 270, 692, 38, 60)
    top = board("top", PINE, (-18, -18, 692), (456, 306, 19))
    joints += nails("top", "upper rail 0", "upper rail 232", size=2.5, through=19, bite=40, count=3)
    return piece([top, *boards], joints, load("top", 6, (200, 200), 130))


@sound(
    "S26",
    "Single-pot pedestal, 760 high, wide foot",
    "common practice: a foot about four tenths of the height",
    cautions=1,
    remark="its tenons stand as a dowel of 19 each",
    fair=Verdict.CAUTION,
)
def pedestal() -> Composition:
    boards = [
        board("foot", OAK, (0, 0, 0), (300, 300, 32)),
        board("post", OAK, (112, 112, 32), (76, 76, 703), Z),
        board("top", OAK, (25, 25, 735), (250, 250, 25)),
    ]
    joints = dowels("post", "foot", size=20, count=1, deep=27, length=70, first=38)
    joints += dowels("post", "top", size=20, count=1, deep=20, length=60, first=38)
    return piece(boards, joints, load("top", 4, (180, 180), 120))


@sound("S59", "Bedside cabinet with back", "common practice, no source")
def bedside() -> Composition:
    boards, joints = case(OAK, 400, 338, 532, 18, (60, 300), dado)
    top = board("top", OAK, (0, 0, 532), (400, 344, 18))
    joints += [
        each
        for side in ("left side", "right side")
        for each in dowels(side, "top", size=8, count=3, deep=12, length=40)
    ]
    back = board("back", PLY, (0, 338, 0), (400, 6, 532), Z)
    joints += nails(
        "back", "left side", "right side", size=1.6, through=6, bite=24, count=5, glued=True
    )
    return piece(
        [*boards, top, back],
        joints,
        load("top", 5, (200, 200), 150),
        load("shelf 2", 5, (250, 250), 60),
    )


@sound(
    "S60", "Hat and shoe bench cabinet with back", "common practice, no source", fair=Verdict.NOTE
)
def shoe_bench() -> Composition:
    boards, joints = case(PLY, 900, 344, 450, 18, (40, 432), dado)
    divider = board("divider", PLY, (441, 0, 52), (18, 344, 386), Z)
    joints += dado("divider", "shelf 1", "shelf 2")
    boards, joints = _backed([*boards, divider], joints, 900, 344, 450, 18)
    return piece(boards, joints, sitting("shelf 2", 80))


@sound(
    "S61",
    "Open two-shelf console on tenons, no back",
    "common practice, no source",
    remark="tenons stand as dowels",
)
def console() -> Composition:
    boards, joints = framed("ash", 680, 260, 680, 40, 80, low=150)
    top = board("top", "ash", (-10, -10, 680), (700, 280, 20))
    shelf = board("shelf", "ash", (42, 0, 230), (596, 260, 18))
    joints += screws("top", "upper rail 0", "upper rail 220", size=4, through=20, bite=30, count=3)
    joints += screws(
        "shelf", "lower rail 0", "lower rail 220", size=4, through=18, bite=30, count=3
    )
    return piece([top, *boards, shelf], joints, load("top", 6, (200, 200), 200))


CASE_ROWS = (
    childs_bookcase,
    faced_bookcase,
    one_sheet,
    school_bookcase,
    tower,
    bookrack,
    low_shelf,
    mission_plant_stand,
    gravel_stand,
    low_plant_stand,
    pot_stand,
    plant_table,
    pedestal,
    bedside,
    shoe_bench,
    console,
)
