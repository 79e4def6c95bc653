"""Shelves and racks for a wall, in order."""

from __future__ import annotations

from furniture import Composition, Stance
from furniture.checks.check import Verdict
from models.key_rack import rack
from tests.hazards.making import (
    OAK,
    PINE,
    PLY,
    Y,
    Z,
    board,
    butt,
    case,
    dado,
    dowels,
    groove,
    housed,
    load,
    nails,
    piece,
    rabbet,
    row_of_bores,
    screws,
    wall_screw,
)
from tests.hazards.rows import sound

KEYHOLES = "keyhole slots stand as wall screws through a rail"


def _rail(wood, x, width, y, z, high=60.0, thick=12.0):
    """A rail behind, with a wall screw near either end."""
    return board(
        "hanging rail",
        wood,
        (x, y, z),
        (width, thick, high),
        cuts=[wall_screw(40, high / 2), wall_screw(width - 40, high / 2)],
    )


def _hung(boards, joints, *loads):
    return piece(boards, joints, *loads, stance=Stance.WALL)


@sound(
    "S27",
    "Shaker wall shelves, five, half-inch stock",
    "teaching page of a woodworking school",
    remark="sliding dovetails stand as dados; hung by a rail under the top shelf",
    fair=Verdict.NOTE,
)
def shaker_shelves() -> Composition:
    boards, joints = case("cherry", 533, 121, 1045, 13, (60, 270, 490, 720, 960), dado, let_in=4)
    rail = _rail("cherry", 13, 507, 121 - 12, 900)
    joints += dowels("hanging rail", "left side", "right side", size=5, length=24, deep=8)
    joints += butt("hanging rail", "shelf 5")
    return _hung(
        [*boards, rail], joints, *(load(f"shelf {n}", 2, (300, 80), 50) for n in (1, 2, 3, 4))
    )


@sound(
    "S28",
    "Small ash wall shelf",
    "magazine article, a simple wall shelf",
    remark="sliding dovetails stand as dados; " + KEYHOLES,
    fair=Verdict.NOTE,
)
def ash_shelf() -> Composition:
    boards, joints = case("ash", 381, 140, 610, 16, (40, 280, 540), dado, let_in=5)
    rail = _rail("ash", 16, 349, 128, 480)
    joints += dowels("hanging rail", "left side", "right side", size=5, length=24, deep=10)
    joints += butt("hanging rail", "shelf 3")
    return _hung([*boards, rail], joints, *(load(f"shelf {n}", 1, (200, 80), 50) for n in (1, 2)))


@sound(
    "S29",
    "Wall shelf on posts 813 mm apart",
    "woodworking magazine, Oct/Nov 2022, a wall shelf",
    remark="brackets dowelled for tenons",
    fair=Verdict.NOTE,
)
def post_shelf() -> Composition:
    posts = [
        board(
            f"post {n}",
            OAK,
            (x, 180, 0),
            (60, 20, 500),
            Z,
            cuts=[wall_screw(80, 30), wall_screw(420, 30)],
        )
        for n, x in ((1, 173), (2, 987))
    ]
    boards, joints = list(posts), []
    for n, z in ((1, 140), (2, 400)):
        boards.append(board(f"shelf {n}", OAK, (0, 0, z + 60), (1220, 180, 20)))
        for p, x in ((1, 193), (2, 1007)):
            name = f"bracket {n} {p}"
            boards.append(board(name, OAK, (x, 20, z), (20, 160, 60), Y))
            joints += dowels(name, f"post {p}", size=6, length=34, deep=14)
            joints += screws(f"shelf {n}", name, size=4, through=20, bite=30, count=2)
    return _hung(
        boards, joints, load("shelf 1", 10, (600, 150), 100), load("shelf 2", 6, (600, 150), 100)
    )


@sound(
    "S30",
    "Collectors shelf with two brackets and pegs",
    "school shop page, a collectibles shelf",
    fair=Verdict.NOTE,
)
def collectors_shelf() -> Composition:
    apron = board(
        "apron", PINE, (0, 90, 0), (460, 19, 184), cuts=[wall_screw(60, 150), wall_screw(400, 150)]
    )
    shelf = board("shelf", PINE, (0, 0, 184), (460, 109, 19))
    brackets = [
        board(f"bracket {n}", PINE, (x, 26, 57), (19, 64, 127), Z) for n, x in ((1, 93), (2, 347))
    ]
    joints = screws("shelf", "apron", size=4, through=19, bite=31, count=3, glued=True)
    for each in brackets:
        joints += screws("apron", each.name, size=4, through=19, bite=31, count=2, glued=True)
        joints += screws("shelf", each.name, size=4, through=19, bite=31, count=1, glued=True)
    return _hung([apron, shelf, *brackets], joints, load("shelf", 2, (200, 80), 50))


@sound("S31", "Spice rack of thin stock", "maker's article, a spice rack", fair=Verdict.NOTE)
def thin_spice_rack() -> Composition:
    wood = "soft maple"
    sides = [board(f"side {n}", wood, (x, 0, 0), (13, 89, 692), Z) for n, x in ((1, 0), (2, 406))]
    boards, joints = list(sides), []
    for n, z in enumerate((20, 180, 340, 500, 650), 1):
        deep = 83 if n == 1 else 60
        boards.append(board(f"shelf {n}", wood, (10, 89 - deep, z), (399, deep, 6)))
        joints += housed(f"shelf {n}", "side 1", "side 2", front=89 - deep, back=0)
    for n, z in ((1, 60), (2, 220), (3, 380)):
        boards.append(board(f"front rail {n}", wood, (0, -6, z), (419, 6, 38)))
        joints += nails(
            f"front rail {n}", "side 1", "side 2", size=1.2, through=6, bite=19, edge=10, glued=True
        )
    boards.append(_rail(wood, 0, 419, 89, 600, thick=10))
    joints += nails(
        "hanging rail", "side 1", "side 2", size=1.6, through=10, bite=25, edge=10, glued=True
    )
    return _hung(boards, joints, *(load(f"shelf {n}", 1, (350, 45), 45) for n in (1, 2, 3)))


@sound(
    "S32",
    "Oak spice rack with 3 mm dados and a back",
    "maker's page, a spice rack",
    fair=Verdict.NOTE,
)
def oak_spice_rack() -> Composition:
    sides = [board(f"side {n}", OAK, (x, 0, 0), (10, 60, 435), Z) for n, x in ((1, 0), (2, 295))]
    boards, joints = list(sides), []
    for n, z in enumerate((12, 150, 290), 1):
        boards.append(board(f"shelf {n}", OAK, (7, 0, z), (291, 48, 10)))
        joints += housed(f"shelf {n}", "side 1", "side 2", front=0, back=12)
    back = board(
        "back", PLY, (5, 48, 0), (295, 12, 435), Z, cuts=[wall_screw(380, 60), wall_screw(380, 240)]
    )
    joints += rabbet("back", "side 1", "side 2", glued=True)
    joints += [
        each
        for n in (1, 2, 3)
        for each in nails("back", f"shelf {n}", size=1.2, through=12, bite=18, count=3)
    ]
    strips = [
        board(f"strip {n}", OAK, (0, -6, z), (305, 6, 16)) for n, z in ((1, 50), (2, 190), (3, 330))
    ]
    for each in strips:
        joints += nails(
            each.name, "side 1", "side 2", size=1.2, through=6, bite=14, count=1, glued=True
        )
    return _hung(
        [*boards, back, *strips],
        joints,
        *(load(f"shelf {n}", 0.9, (260, 45), 45) for n in (1, 2, 3)),
    )


@sound(
    "S33",
    "Magazine rack, three pockets, for a wall",
    "an old boys' book of indoor work",
    remark="uprights on the wall; shelves screwed on through them",
    fair=Verdict.NOTE,
)
def magazine_rack() -> Composition:
    uprights = [
        board(
            f"upright {n}",
            PINE,
            (x, 71, 0),
            (64, 19, 610),
            Z,
            cuts=[wall_screw(560, 32), wall_screw(60, 32)],
        )
        for n, x in ((1, 60), (2, 257))
    ]
    boards, joints = list(uprights), []
    for n, z in enumerate((20, 220, 420), 1):
        boards.append(board(f"shelf {n}", PINE, (0, 0, z), (381, 71, 19)))
        joints += [
            each
            for u in ("upright 1", "upright 2")
            for each in screws(u, f"shelf {n}", size=4, through=19, bite=40, count=2, edge=12)
        ]
    return _hung(boards, joints, *(load(f"shelf {n}", 1, (300, 50), 100) for n in (1, 2, 3)))


@sound(
    "S34",
    "Peg rack, hidden keyhole slots",
    "magazine article on peg racks",
    remark=KEYHOLES,
    fair=Verdict.NOTE,
)
def peg_rack() -> Composition:
    pegs = row_of_bores(12, y=40, count=5, spacing=130)
    rail = board(
        "rail", OAK, (0, 0, 0), (762, 19, 90), cuts=[pegs, wall_screw(60, 65), wall_screw(702, 65)]
    )
    return _hung([rail], [])


@sound(
    "S35",
    "Spice shelf cabinet, hung, no door",
    "magazine article 2000, a craftsman wall cabinet",
    remark="top and bottom as thick as the sides",
    fair=Verdict.NOTE,
)
def wall_cabinet() -> Composition:
    wood = "walnut"
    boards, joints = case(wood, 330, 117, 550, 19, (), dado)
    for name, z in (("bottom", -25), ("top", 550)):
        boards.append(board(name, wood, (-6, 0, z), (342, 117, 25)))
        joints += screws(name, "left side", "right side", size=4, through=20, bite=40)
    back = board(
        "back",
        wood,
        (19, 104, 0),
        (292, 13, 550),
        Z,
        cuts=[wall_screw(500, 60), wall_screw(500, 230)],
    )
    for n, z in ((1, 150), (2, 300), (3, 430)):
        boards.append(board(f"shelf {n}", wood, (13, 0, z), (304, 104, 13)))
        joints += housed(f"shelf {n}", "left side", "right side", front=0, back=13)
    joints += [
        each
        for side in ("left side", "right side")
        for each in screws(side, "back", size=3.5, through=19, bite=25, count=4)
    ]
    joints += screws("top", "back", size=4, through=20, bite=40, count=2)
    return _hung(
        [*boards, back], joints, *(load(f"shelf {n}", 2, (220, 70), 45) for n in (1, 2, 3))
    )


@sound("S58", "Candle sconce shelf", "from memory of colonial pattern books", fair=Verdict.NOTE)
def sconce() -> Composition:
    back = board(
        "back",
        PINE,
        (0, 110, 0),
        (150, 13, 300),
        Z,
        cuts=[wall_screw(270, 40), wall_screw(270, 110)],
    )
    shelf = board("shelf", PINE, (0, 0, 80), (150, 114, 13))
    bracket = board("bracket", PINE, (68, 30, 0), (13, 80, 80), Z)
    joints = dado("shelf", "back")
    joints += screws("back", "bracket", size=3.5, through=13, bite=30, glued=True)
    joints += screws("shelf", "bracket", size=3.5, through=13, bite=30, count=1, glued=True)
    return _hung([back, shelf, bracket], joints, load("shelf", 0.5, (60, 60), 60))


@sound(
    "S63",
    "Key rack with shelf and cleat",
    "the example of this project, models/key_rack.py",
    fair=Verdict.NOTE,
)
def key_rack() -> Composition:
    return rack


@sound(
    "S64",
    "Wall-hung candle or salt box",
    "maker's article, a sliding-lid candle box",
    remark="two screws in place of one hole; open above",
    fair=Verdict.NOTE,
)
def salt_box() -> Composition:
    wood = "cherry"
    back = board(
        "back",
        wood,
        (0, 140, 0),
        (250, 9, 300),
        Z,
        cuts=[wall_screw(270, 60), wall_screw(270, 190)],
    )
    boards = [
        back,
        board("left", wood, (0, 9, 9), (9, 131, 180), Z),
        board("right", wood, (241, 9, 9), (9, 131, 180), Z),
        board("front", wood, (0, 0, 9), (250, 9, 120)),
        board("bottom", wood, (0, 0, 0), (250, 140, 9)),
    ]
    pin = {"size": 1.4, "bite": 20}
    joints = nails("front", "left", "right", through=9, count=3, glued=True, **pin)
    joints += nails("back", "left", "right", through=9, count=4, glued=True, **pin)
    joints += nails("bottom", "left", "right", "front", through=9, count=3, **pin)
    joints += nails("back", "bottom", through=9, count=3, **pin)
    return _hung(boards, joints, load("bottom", 2, (180, 100), 50))


@sound(
    "SX3",
    "Plate rail on a French cleat",
    "common practice, no source",
    remark="hung by its upper rail, screwed to studs",
)
def plate_rail() -> Composition:
    back = board(
        "back", OAK, (0, 100, 0), (800, 18, 120), cuts=[wall_screw(100, 90), wall_screw(700, 90)]
    )
    shelf = board("shelf", OAK, (0, 0, 60), (800, 106, 18))
    lip = board("lip", OAK, (0, -10, 60), (800, 10, 30))
    joints = groove("shelf", "back", glued=True) + butt("lip", "shelf")
    return _hung([back, shelf, lip], joints, load("shelf", 3, (500, 60), 100))


WALL_ROWS = (
    shaker_shelves,
    ash_shelf,
    post_shelf,
    collectors_shelf,
    thin_spice_rack,
    oak_spice_rack,
    magazine_rack,
    peg_rack,
    wall_cabinet,
    sconce,
    key_rack,
    salt_box,
    plate_rail,
)
