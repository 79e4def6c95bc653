"""Shelves that sag, snap or lever out, and what hangs on a wall."""

from __future__ import annotations

from furniture import Composition, Stance
from furniture.checks.check import Verdict
from tests.hazards.making import (
    OAK,
    PINE,
    PLY,
    X,
    Y,
    Z,
    board,
    butt,
    case,
    dado,
    dowels,
    groove,
    load,
    nails,
    piece,
    screws,
    wall_screw,
)
from tests.hazards.rows import danger
from tests.hazards.subjects import (
    HUNG,
    HUNG_BY_END_GRAIN,
    JOINT_GIVES,
    LEVERS,
    ON_END_GRAIN,
    SAGS,
    SPLITS,
)

HANDBOOK = "Wood Handbook FPL-GTR-190 (2010), tables 5-3a"
FASTENERS = "withdrawal of nails and screws: Wood Handbook ch. 8 as engineering tables print it"
STATICS = "statics; common practice, no source"


@danger(
    "D27",
    "Thin long book shelf",
    Verdict.CAUTION,
    SAGS,
    "a magazine's book on bookcases: the eye sees 1/384 and one aims at 1/600",
)
def long_shelf() -> Composition:
    boards, joints = case(PINE, 924, 250, 330, 18, (300,), span_thick=12)
    rail = board("rail", PINE, (18, 232, 100), (888, 18, 80))
    joints += dowels("rail", "left side", "right side", size=6, deep=10, length=30)
    return piece([*boards, rail], joints, load("shelf 1", 27, (880, 220), 120))


@danger(
    "D30",
    "Shelf with its grain along the wall",
    Verdict.CAUTION,
    SPLITS,
    "a book's chapter on grain and strength; " + HANDBOOK + ", tension across the grain",
)
def grain_along_the_wall() -> Composition:
    screws_in = [wall_screw(40, 160), wall_screw(260, 160)]
    boards = [
        board("back", PINE, (0, 150, 0), (300, 18, 200), X, cuts=screws_in),
        board("shelf", PINE, (0, 0, 80), (300, 156, 12)),
    ]
    joints = groove("shelf", "back", glued=True)
    return piece(boards, joints, load("shelf", 2, (100, 100)), stance=Stance.WALL)


@danger("D31", "Cantilever on a 3 mm dado", Verdict.FAIL, LEVERS, STATICS)
def shallow_dado() -> Composition:
    boards = [
        board("base", OAK, (-60, -100, 0), (180, 220, 30)),
        board("post", OAK, (0, 0, 30), (60, 18, 350), Z),
        board("tier", OAK, (0, -150, 250), (60, 153, 10), Y),
    ]
    joints = dowels("post", "base", size=6, deep=15, length=30) + dado("tier", "post")
    return piece(boards, joints, load("tier", 2, (40, 40), 40))


def _bracketed(depth):
    """A shelf 300 deep, screwed from below to two brackets so deep, on a board on the wall."""
    back = board(
        "back", PINE, (0, 300, 0), (600, 20, 120), cuts=[wall_screw(60, 90), wall_screw(540, 90)]
    )
    shelf = board("shelf", PINE, (0, 0, 120), (600, 320, 20))
    brackets = [
        board(f"bracket {n}", PINE, (x, 300 - depth, 0), (20, depth, 120), Z)
        for n, x in ((1, 80), (2, 500))
    ]
    joints = [
        each for b in brackets for each in screws("back", b.name, size=4, through=20, bite=30)
    ]
    joints += [
        each
        for b in brackets
        for each in screws(b.name, "shelf", size=4, through=40, bite=16, count=1)
    ]
    return [back, shelf, *brackets], joints


@danger(
    "D33",
    "Bracket a third as deep as its shelf",
    Verdict.CAUTION,
    JOINT_GIVES,
    "a page on brackets: at least two thirds of the shelf's depth; " + FASTENERS,
)
def shallow_bracket() -> Composition:
    boards, joints = _bracketed(100)
    return piece(boards, joints, load("shelf", 15, (200, 90), 50), stance=Stance.WALL)


@danger(
    "D34",
    "One small screw",
    Verdict.FAIL,
    HUNG,
    "a page on shelves on plasterboard: self-drilling anchors bear under 20 lb",
)
def one_screw() -> Composition:
    back = board("back", PINE, (0, 182, 0), (600, 18, 100), cuts=[wall_screw(300, 60, 3.5)])
    shelf = board("shelf", PINE, (0, 0, 0), (600, 188, 18))
    return piece(
        [back, shelf],
        groove("shelf", "back", glued=True),
        load("shelf", 8, (300, 150)),
        stance=Stance.WALL,
    )


@danger(
    "D35",
    "Deep floating shelf in board",
    Verdict.CAUTION,
    HUNG,
    "a home page: such a shelf tilted within three days",
)
def floating() -> Composition:
    back = board(
        "back", PINE, (0, 230, 0), (600, 20, 50), cuts=[wall_screw(80, 40), wall_screw(520, 40)]
    )
    shelf = board("shelf", PINE, (0, 0, 0), (600, 236, 22))
    return piece(
        [back, shelf],
        groove("shelf", "back", glued=True),
        load("shelf", 15, (400, 200)),
        stance=Stance.WALL,
    )


@danger(
    "D36",
    "Shelf hung on end-grain screws",
    Verdict.CAUTION,
    HUNG_BY_END_GRAIN,
    "severed fibres, a magazine's page on screws in end grain; " + FASTENERS,
)
def end_grain_screws() -> Composition:
    back = board(
        "back", PINE, (0, 200, 0), (300, 18, 120), X, cuts=[wall_screw(40, 90), wall_screw(260, 90)]
    )
    shelf = board("shelf", PINE, (50, 0, 50), (200, 200, 20), Y)
    joints = screws("back", "shelf", size=3.5, through=18, bite=22, edge=40)
    return piece([back, shelf], joints, load("shelf", 10, (150, 150)), stance=Stance.WALL)


@danger(
    "D37",
    "Cabinet hung by a stapled back",
    Verdict.CAUTION,
    HUNG,
    "statics; nail formula of the Wood Handbook",
    remark="staples as pins 1.2 x 9, six a side",
)
def stapled_back() -> Composition:
    boards, joints = case(PINE, 400, 147, 600, 16, (0, 290, 584))
    back = board("back", PLY, (0, 147, 0), (400, 3, 600), Z, cuts=[wall_screw(540, 200)])
    joints += nails("back", "left side", "right side", size=1.2, through=3, bite=6, count=6)
    loads = [load(f"shelf {n}", 3, (250, 100), 60) for n in (1, 2, 3)]
    return piece([*boards, back], joints, *loads, stance=Stance.WALL)


@danger(
    "DX8",
    "Shelf of 12 mm over a metre under jars",
    Verdict.CAUTION,
    SAGS,
    "a maker's page: 3/32 in a yard (1/384) is seen",
)
def jar_shelf() -> Composition:
    boards, joints = case(PINE, 1024, 180, 400, 18, (30, 350), span_thick=12)
    return piece(boards, joints, load("shelf 2", 20, (960, 150), 80))


@danger(
    "DX9",
    "Cantilever tier held by glue in a 2 mm groove",
    Verdict.FAIL,
    LEVERS,
    STATICS,
)
def glued_groove() -> Composition:
    boards = [
        board("foot", OAK, (-50, -120, 0), (300, 240, 30)),
        board("back", OAK, (0, 0, 30), (200, 18, 300), X),
        board("tier", OAK, (0, -200, 200), (200, 202, 10)),
    ]
    joints = dowels("back", "foot", size=6, count=4, deep=15, length=30)
    joints += groove("tier", "back", glued=True)
    return piece(boards, joints, load("tier", 4, (60, 60), 40))


@danger(
    "DX10",
    "Shelf glued by its end grain to one side only",
    Verdict.FAIL,
    (*ON_END_GRAIN, *LEVERS),
    "a magazine's debate on end-grain glue: it fails by leverage; statics",
)
def one_sided() -> Composition:
    boards = [
        board("base", OAK, (0, 0, 0), (300, 180, 30)),
        board("post", OAK, (0, 0, 30), (30, 180, 300), Z),
        board("arm", OAK, (30, 0, 250), (300, 180, 18)),
    ]
    joints = dowels("post", "base", size=8, count=3, deep=20, length=40) + butt("arm", "post")
    return piece(boards, joints, load("arm", 6, (80, 80), 50))


SHELF_ROWS = (
    long_shelf,
    grain_along_the_wall,
    shallow_dado,
    shallow_bracket,
    one_screw,
    floating,
    end_grain_screws,
    stapled_back,
    jar_shelf,
    glued_groove,
    one_sided,
)
