"""Wood that is not there: dados, notches, bores, short grain; parts that cannot go together."""

from __future__ import annotations

from furniture import (
    Bore,
    Composition,
    Face,
    Notch,
    Slot,
    Stance,
    cut,
)
from furniture.checks.check import Verdict
from tests.hazards.making import (
    OAK,
    PINE,
    X,
    Y,
    Z,
    board,
    box,
    butt,
    case,
    dado,
    dowels,
    load,
    nails,
    piece,
    row_of_bores,
    wall_screw,
)
from tests.hazards.rows import danger
from tests.hazards.subjects import (
    BORED,
    BREAKS,
    LOOSE_FEET,
    NO_WOOD,
    ON_END_GRAIN,
    OVERLAPS,
    SNAPS,
    SPLITS,
    UNKNOWN,
)

HANDBOOK = "Wood Handbook FPL-GTR-190 (2010), tables 5-3a"
GEOMETRY = "geometry; common practice, no source"
THIRD = "common practice, no source: a third of the thickness"


@danger(
    "D38",
    "Keyhole slot in a 7 mm back",
    Verdict.CAUTION,
    (*NO_WOOD, *UNKNOWN),
    "statics; " + HANDBOOK,
    remark="a keyhole's undercut cannot be modelled, nor that its lip is what hangs the piece: a "
    "slot from behind leaves the lip of 2, and the tool must say that nothing states what holds it",
)
def keyhole() -> Composition:
    slot = cut(
        Slot, face=Face.BACK_SIDE, x="60 mm", y="80 mm", length="30 mm", width="10 mm", depth="5 mm"
    )
    back = board("back", PINE, (0, 150, 0), (400, 7, 120), cuts=[slot])
    shelf = board("shelf", PINE, (0, 0, 20), (400, 150, 15))
    joints = nails("back", "shelf", size=2, through=7, bite=30, count=4)
    return piece([back, shelf], joints, load("shelf", 8, (300, 120)), stance=Stance.WALL)


@danger(
    "D39",
    "Peg hole near the edge",
    Verdict.CAUTION,
    BORED,
    "common practice, no source: a diameter and a half to the edge; " + HANDBOOK,
)
def peg_hole() -> Composition:
    pegs = row_of_bores(12, y=9, count=4, spacing=100)
    rail = board(
        "rail", OAK, (0, 0, 0), (460, 19, 80), cuts=[pegs, wall_screw(40, 60), wall_screw(420, 60)]
    )
    return piece([rail], [], stance=Stance.WALL)


@danger("D53", "Dado too deep", Verdict.FAIL, SNAPS, THIRD, refused_over="reach into the dado")
def deep_dado() -> Composition:
    boards = [
        board("base", OAK, (-50, -60, 0), (200, 180, 25)),
        board("post", OAK, (0, 0, 25), (100, 19, 450), Z),
        board("tier", OAK, (0, -100, 350), (100, 116, 12)),
    ]
    joints = dowels("post", "base", size=6, deep=15, length=35) + dado("tier", "post")
    return piece(boards, joints, load("tier", 1, (60, 60), 40))


@danger(
    "D54", "Dadoes back to back", Verdict.FAIL, NO_WOOD, GEOMETRY, refused_over="dado 1 and dado 2"
)
def back_to_back() -> Composition:
    upright = board("upright", PINE, (300, 0, 0), (18, 200, 400), Z)
    left = board("left shelf", PINE, (9, 0, 200), (300, 200, 18))
    right = board("right shelf", PINE, (309, 0, 200), (300, 200, 18))
    return piece(
        [upright, left, right], dado("left shelf", "upright") + dado("right shelf", "upright")
    )


@danger("D55", "Rail notched to nothing", Verdict.FAIL, NO_WOOD, GEOMETRY)
def notched_rail() -> Composition:
    notch = cut(Notch, edge=Face.BACK_EDGE, start="280 mm", length="40 mm", depth="39.5 mm")
    boards, joints = case(PINE, 636, 150, 400, 18, (20, 360), dado)
    rail = board("rail", PINE, (18, 60, 200), (600, 20, 40), cuts=[notch])
    joints += dowels("rail", "left side", "right side", size=6, deep=10, length=30)
    return piece([*boards, rail], joints)


@danger("D56", "Short grain above the top dado", Verdict.CAUTION, SPLITS, "statics; " + HANDBOOK)
def short_grain() -> Composition:
    boards = [
        board("base", PINE, (-60, -100, 0), (160, 220, 25)),
        board("post", PINE, (0, 0, 25), (40, 20, 300), Z),
        board("tier", PINE, (-40, -150, 307), (120, 158, 12)),
    ]
    joints = dowels("post", "base", size=8, count=1, deep=15, length=40, first=20)
    return piece(boards, joints + dado("tier", "post"), load("tier", 0.5, (60, 60), 40))


@danger(
    "D57",
    "Bracket with short grain",
    Verdict.FAIL,
    BREAKS,
    "a book's chapter on grain and strength: legs weak at the ankles; " + HANDBOOK,
    remark="a curve cannot be modelled: its neck stands as a straight arm with the grain across",
)
def short_neck() -> Composition:
    boards = [
        board("base", OAK, (-90, -150, 0), (200, 300, 30)),
        board("post", OAK, (0, 0, 30), (20, 30, 250), Z, thin=Y),
        board("arm", OAK, (0, -120, 180), (20, 130, 18), X, thin=Z),
        board("plate", OAK, (-40, -120, 198), (100, 60, 10)),
    ]
    joints = dowels("post", "base", size=8, count=1, deep=15, length=40, first=10)
    joints += dado("arm", "post") + butt("plate", "arm")
    return piece(boards, joints, load("plate", 15, (60, 50), 40))


def _railed(size, count=1, **more):
    """A rail 20 thick and 40 high between two legs 18 thick, on one dowel for a tenon."""
    legs = [board(f"leg {n}", OAK, (x, 0, 0), (18, 40, 300), Z) for n, x in ((1, 0), (2, 418))]
    rail = board("rail", OAK, (18, 10, 200), (400, 20, 40))
    return [rail, *legs], dowels("rail", "leg 1", "leg 2", size=size, count=count, **more)


@danger(
    "D58",
    "Tenon too thick, cheeks too thin",
    Verdict.FAIL,
    BORED,
    "a magazine's test with an anvil, 2005: never over a third",
    refused_over="diameter",
    remark="there is no tenon: a dowel of 12 in a leg of 18",
)
def thick_tenon() -> Composition:
    return piece(*_railed(12, length=30, deep=13, first=20))


@danger(
    "D59",
    "Tenon too thin",
    Verdict.FAIL,
    BORED,
    THIRD,
    refused_over="diameter",
    remark="there is no tenon: two dowels of 3 in a rail of 20",
)
def thin_tenon() -> Composition:
    return piece(*_railed(3, count=2, length=25, deep=12))


@danger(
    "D60",
    "Dowel too near an edge",
    Verdict.FAIL,
    BORED,
    "a page of joint tests: dowels closer than the stock allows blow out",
    refused_over="diameter",
)
def near_edge() -> Composition:
    ends = [board(f"end {n}", OAK, (x, 0, 0), (18, 100, 200), Z) for n, x in ((1, 0), (2, 318))]
    rail = board("rail", OAK, (18, 40, 100), (300, 10, 60))
    return piece([rail, *ends], dowels("rail", "end 1", "end 2", size=8, length=30, deep=13))


@danger("D61", "Bore right through a thin rail", Verdict.FAIL, BORED, GEOMETRY)
def bored_through() -> Composition:
    bore = cut(Bore, face=Face.BACK_EDGE, x="150 mm", z="5.5 mm", diameter="10 mm", depth="30 mm")
    boards, joints = case(PINE, 336, 120, 300, 18, (20, 282), dado)
    rail = board("rail", PINE, (18, 50, 150), (300, 11, 60), cuts=[bore])
    joints += nails("left side", "rail", size=2, through=18, bite=30)
    joints += nails("right side", "rail", size=2, through=18, bite=30)
    return piece([*boards, rail], joints)


@danger(
    "D62",
    "Post on its end, glued only",
    Verdict.CAUTION,
    ON_END_GRAIN,
    "a magazine's debate on the end-grain joint, 2021: it fails by leverage",
)
def post_on_end() -> Composition:
    boards, joints = box(OAK, 260, 200, 80, 12)
    lid = board("lid", OAK, (0, 0, 80), (260, 200, 12))
    post = board("post", OAK, (75, 150, 92), (110, 20, 500), Z)
    joints += butt("lid", "left end", "right end", "front", "back") + butt("post", "lid")
    return piece([*boards, lid, post], joints)


@danger(
    "D63",
    "Short feet in shallow holes",
    Verdict.CAUTION,
    LOOSE_FEET,
    "statics; " + HANDBOOK,
    remark="square feet glued on their ends: a round foot's bore is no joint here",
)
def short_feet() -> Composition:
    boards, joints = box(PINE, 300, 200, 90, 12, low=62)
    bottom = board("bottom", PINE, (0, 0, 52), (300, 200, 10))
    joints += butt("bottom", "left end", "right end", "front", "back")
    feet = [
        board(f"foot {x} {y}", PINE, (x, y, 0), (12, 12, 52), Z)
        for x in (10, 278)
        for y in (10, 178)
    ]
    for each in feet:
        joints += butt(each.name, "bottom")
    return piece([*boards, bottom, *feet], joints, load("bottom", 2, (150, 100)))


@danger("D64", "Parts in one another", Verdict.FAIL, OVERLAPS, GEOMETRY)
def overlapping() -> Composition:
    boards, joints = case(PINE, 400, 200, 300, 18, (60, 240), dado)
    divider = board("divider", PINE, (191, 0, 72), (18, 200, 174), Z)
    return piece([*boards, divider], joints)


@danger(
    "DX15",
    "Post cut half through by a wide dado, under a load far out",
    Verdict.CAUTION,
    SNAPS,
    "statics; " + HANDBOOK,
)
def weak_post() -> Composition:
    boards = [
        board("base", PINE, (-100, -200, 0), (260, 320, 30)),
        board("post", PINE, (0, 0, 30), (60, 14, 500), Z),
        board("tier", PINE, (-60, -180, 300), (180, 187, 12)),
    ]
    joints = dowels("post", "base", size=5, deep=15, length=30) + dado("tier", "post")
    return piece(boards, joints, load("tier", 4, (100, 100), 50))


@danger(
    "DX16",
    "Row of cable holes that all but cuts a slat",
    Verdict.CAUTION,
    BORED,
    "common practice, no source: a diameter and a half to the edge",
)
def bored_slat() -> Composition:
    boards, joints = case(PINE, 536, 150, 300, 18, (20, 282), dado)
    slat = board(
        "slat",
        PINE,
        (18, 60, 150),
        (500, 15, 40),
        cuts=[row_of_bores(30, y=20, count=5, spacing=80)],
    )
    joints += nails("left side", "slat", size=2, through=18, bite=30, edge=10)
    joints += nails("right side", "slat", size=2, through=18, bite=30, edge=10)
    return piece([*boards, slat], joints)


WOOD_ROWS = (
    keyhole,
    peg_hole,
    deep_dado,
    back_to_back,
    notched_rail,
    short_grain,
    short_neck,
    thick_tenon,
    thin_tenon,
    near_edge,
    bored_through,
    post_on_end,
    short_feet,
    overlapping,
    weak_post,
    bored_slat,
)
