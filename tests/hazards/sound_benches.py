"""Wide stools and benches in order."""

from __future__ import annotations

from furniture import Composition
from furniture.checks.check import Verdict
from tests.hazards.frames import framed
from tests.hazards.making import (
    OAK,
    PINE,
    RED_OAK,
    Y,
    Z,
    board,
    dowels,
    housed,
    nails,
    piece,
    screws,
    sitting,
    standing,
)
from tests.hazards.rows import sound


def _adult(on="top", kg=100.0, size=(250.0, 200.0)):
    return standing(on, kg, size)


@sound(
    "S11",
    "Step stool from offcuts, wide",
    "maker's article on a scrap lumber step stool",
    cautions=1,
    fair=Verdict.NOTE,
)
def offcut_stool() -> Composition:
    boards = [board("top", PINE, (0, 0, 381), (610, 305, 19))]
    joints = []
    for n, x in ((1, 0), (2, 572)):
        for y in (0, 216):
            boards.append(board(f"leg {n} {y}", PINE, (x, y, 0), (38, 89, 381), Z))
            joints += screws("top", f"leg {n} {y}", size=4.5, through=19, bite=41, glued=True)
        boards.append(board(f"end rail {n}", PINE, (x, 89, 292), (38, 127, 89), Y))
        joints += dowels(f"end rail {n}", f"leg {n} 0", f"leg {n} 216", size=12, length=60)
    for y in (10, 276):
        boards.append(board(f"rail {y}", PINE, (38, y, 305), (534, 19, 76)))
        joints += dowels(
            f"rail {y}",
            f"leg 1 {0 if y < 100 else 216}",
            f"leg 2 {0 if y < 100 else 216}",
            size=8,
            length=40,
        )
        joints += screws("top", f"rail {y}", size=4, through=19, bite=31, count=3, glued=True)
    return piece(boards, joints, _adult(size=(250, 250)))


def _five_boards(length, top_deep, thick, end_deep, rail_high, high, verb, **how):
    """A top on two ends, and two rails let into notches of the ends, here half-lapped as butts."""
    rise = high - thick
    top = board("top", PINE, (0, 0, rise), (length, top_deep, thick))
    gap = (top_deep - end_deep) / 2
    ends = [
        board(f"end {n}", PINE, (x, gap + thick, 0), (thick, end_deep - 2 * thick, rise), Z)
        for n, x in ((1, 50), (2, length - 50 - thick))
    ]
    rails = [
        board(f"rail {n}", PINE, (0, y, rise - rail_high), (length, thick, rail_high))
        for n, y in ((1, gap), (2, gap + end_deep - thick))
    ]
    joints = []
    for each in (*ends, *rails):
        joints += verb("top", each.name, count=4, **how)
    for rail in rails:
        joints += verb(rail.name, "end 1", "end 2", count=3, edge=12, **how)
    return [top, *ends, *rails], joints


@sound(
    "S12",
    "Five-board bench, nailed, 16 mm pine",
    "maker's article of 2015, a five-board bench",
    remark="the rails lie on the ends' edges instead of in notches; two sitting",
    fair=Verdict.NOTE,
)
def nailed_bench() -> Composition:
    boards, joints = _five_boards(965, 283, 16, 283, 89, 457, nails, size=2.5, through=16, bite=44)
    return piece(boards, joints, sitting("top", 160, (800, 250)))


@sound(
    "S13",
    "Five-board bench, screwed",
    "school shop page, a bench",
    remark="the rails lie on the ends' edges instead of in notches; two sitting",
    fair=Verdict.NOTE,
)
def screwed_bench() -> Composition:
    boards, joints = _five_boards(914, 286, 19, 254, 89, 457, screws, size=4.5, through=19, bite=41)
    return piece(boards, joints, sitting("top", 160, (800, 250)))


@sound(
    "SX1",
    "Oak stool on four posts with two rounds of rails",
    "common practice, no source",
    remark="tenons stand as two dowels; an adult sitting",
)
def railed_stool() -> Composition:
    boards, joints = framed(OAK, 320, 320, 430, 38, 60, low=120)
    seat = board("seat", OAK, (-10, -10, 430), (340, 340, 22))
    joints += screws("seat", "upper rail 0", "upper rail 282", size=4, through=22, bite=28, count=2)
    return piece([seat, *boards], joints, sitting("seat", 100, (280, 280)))


@sound(
    "SX2",
    "Sawhorse-like trestle bench with two rails and a shelf",
    "common practice, no source",
    remark="one sitting",
)
def shelf_bench() -> Composition:
    top = board("top", RED_OAK, (0, 0, 425), (900, 300, 25))
    ends = [
        board(f"end {n}", RED_OAK, (x, 20, 0), (25, 260, 425), Z) for n, x in ((1, 70), (2, 805))
    ]
    shelf = board("shelf", RED_OAK, (87, 40, 120), (726, 220, 19))
    rail = board("rail", RED_OAK, (95, 140, 335), (710, 22, 90))
    joints = dowels("end 1", "top", size=10, count=4, deep=20, length=50)
    joints += dowels("end 2", "top", size=10, count=4, deep=20, length=50)
    joints += housed("shelf", "end 1", "end 2", front=20, back=20)
    joints += dowels("rail", "end 1", "end 2", size=8, deep=18, length=45)
    return piece([top, *ends, shelf, rail], joints, sitting("top", 80, (350, 250)))


BENCH_ROWS = (offcut_stool, nailed_bench, screwed_bench, railed_stool, shelf_bench)
