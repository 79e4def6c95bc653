"""Stools, benches and treads that break or tip under a person."""

from __future__ import annotations

from furniture import Composition
from furniture.checks.check import Verdict
from tests.hazards.making import (
    OAK,
    PINE,
    Y,
    Z,
    board,
    butt,
    case,
    dado,
    dowels,
    piece,
    sitting,
    standing,
)
from tests.hazards.rows import danger
from tests.hazards.subjects import BREAKS, ON_END_GRAIN, TIPS_WITH_A_PERSON

HANDBOOK = "Wood Handbook FPL-GTR-190 (2010), tables 5-3a"
STEP_TEST = "EN 14183 as a test house tells it: 2600 N on 100 x 100 mm for a minute; " + HANDBOOK


@danger(
    "D06",
    "Tread on butts",
    Verdict.FAIL,
    ON_END_GRAIN,
    "recall of 206,000 wooden step stools in the news of 2011: 26 broke; sum by hand",
)
def butted_tread() -> Composition:
    boards, joints = case(PINE, 388, 200, 219, 19, (200,), butt, let_in=0)
    return piece(boards, joints, standing("shelf 1", 100))


@danger("D07", "Tread of 9 mm", Verdict.FAIL, BREAKS, STEP_TEST)
def thin_tread() -> Composition:
    boards, joints = case(PINE, 438, 200, 230, 19, (200,), dado, let_in=6, span_thick=9)
    return piece(boards, joints, standing("shelf 1", 100))


@danger(
    "D08",
    "Tread with the grain front to back",
    Verdict.FAIL,
    BREAKS,
    HANDBOOK + ", tension across the grain; a book's chapter on grain and strength",
)
def grain_across() -> Composition:
    boards, joints = case(PINE, 388, 200, 240, 19, (), dado)
    tread = board("tread", PINE, (13, 0, 200), (362, 200, 19), Y)
    joints = dado("tread", "left side", "right side")
    return piece([*boards, tread], joints, standing("tread", 100))


@danger(
    "D09",
    "Feet inside the tread",
    Verdict.FAIL,
    TIPS_WITH_A_PERSON,
    "statics, benches with an overhang; common practice, no source",
)
def overhanging_tread() -> Composition:
    tread = board("tread", OAK, (0, 0, 200), (400, 250, 22))
    legs = [board(f"leg {n}", OAK, (x, 10, 0), (22, 230, 200), Z) for n, x in ((1, 60), (2, 318))]
    joints = dowels("tread", "leg 1", "leg 2", size=8, count=4, deep=25, length=40)
    return piece([tread, *legs], joints, standing("tread", 100))


@danger(
    "D10",
    "High stool with its legs in a small square",
    Verdict.FAIL,
    TIPS_WITH_A_PERSON,
    "EN 1022 manner, 600 N at 60 mm inside the seat's edge and 20 N sideways (from memory)",
    remark="square seat",
)
def high_stool() -> Composition:
    seat = board("seat", OAK, (0, 0, 620), (300, 300, 30))
    legs = [
        board(f"leg {x} {y}", OAK, (x, y, 0), (40, 40, 620), Z)
        for x in (60, 200)
        for y in (60, 200)
    ]
    rails = [board(f"rail {y}", OAK, (100, y + 10, 200), (100, 20, 40)) for y in (60, 200)] + [
        board(f"side rail {x}", OAK, (x + 10, 100, 300), (20, 100, 40), Y) for x in (60, 200)
    ]
    joints = [
        each
        for leg in legs
        for each in dowels(leg.name, "seat", size=12, count=1, length=50, deep=22, first=20)
    ]
    for y in (60, 200):
        joints += dowels(f"rail {y}", f"leg 60 {y}", f"leg 200 {y}", size=6)
    for x in (60, 200):
        joints += dowels(f"side rail {x}", f"leg {x} 60", f"leg {x} 200", size=6)
    return piece([seat, *legs, *rails], joints, sitting("seat", 80, (120, 120)))


@danger(
    "D11",
    "Tall one-step box, 500 high, 180 deep",
    Verdict.CAUTION,
    TIPS_WITH_A_PERSON,
    "statics: a foot that steps pushes back with about 15 % of the weight; OSHA asks a handrail "
    "of step stools from 24 in",
)
def tall_step() -> Composition:
    boards, joints = case(PINE, 400, 180, 482, 18, (40, 300), dado)
    top = board("top", PINE, (0, 0, 482), (400, 180, 18))
    joints += dowels("top", "left side", "right side", size=8, count=3, length=32, deep=20)
    return piece([*boards, top], joints, standing("top", 100))


@danger(
    "D28",
    "Long bench seat",
    Verdict.FAIL,
    BREAKS,
    "statics, F L / 4 Z and F L^3 / 48 E I; " + HANDBOOK,
)
def long_seat() -> Composition:
    seat = board("seat", PINE, (0, 0, 430), (2000, 300, 20))
    ends = [board(f"end {n}", PINE, (x, 0, 0), (20, 300, 430), Z) for n, x in ((1, 0), (2, 1980))]
    joints = dowels("seat", "end 1", "end 2", size=8, count=4, length=35, deep=20)
    return piece([seat, *ends], joints, sitting("seat", 150, (300, 250)))


@danger("D29", "Seat of 6 mm over 900", Verdict.FAIL, BREAKS, "statics, F L / 4 Z; " + HANDBOOK)
def thin_seat() -> Composition:
    boards, joints = case(OAK, 926, 300, 440, 19, (400,), dado, let_in=6, span_thick=6)
    return piece(boards, joints, sitting("shelf 1", 80, (200, 200)))


@danger(
    "DX4",
    "Step of two boards glued edge to edge across the tread",
    Verdict.FAIL,
    BREAKS,
    HANDBOOK + ", tension across the grain",
)
def pieced_tread() -> Composition:
    boards, _ = case(PINE, 338, 220, 240, 19, (), dado)
    treads = [
        board(f"tread {n}", PINE, (x, 0, 200), (156, 220, 19), Y) for n, x in ((1, 13), (2, 169))
    ]
    joints = (
        butt("tread 2", "tread 1") + dado("tread 1", "left side") + dado("tread 2", "right side")
    )
    return piece([*boards, *treads], joints, standing("tread 1", 100))


@danger(
    "DX5",
    "Seat on four pegged legs, all inside a third of it",
    Verdict.FAIL,
    TIPS_WITH_A_PERSON,
    "EN 1022 manner (from memory); statics of an overhang",
)
def pegged_seat() -> Composition:
    seat = board("seat", OAK, (0, 0, 420), (900, 280, 30))
    legs = [
        board(f"leg {x} {y}", OAK, (x, y, 0), (40, 40, 420), Z)
        for x in (300, 560)
        for y in (20, 220)
    ]
    joints = [
        each
        for leg in legs
        for each in dowels(leg.name, "seat", size=14, count=1, length=50, deep=22, first=20)
    ]
    return piece([seat, *legs], joints, sitting("seat", 80, (120, 120)))


TRODDEN_ROWS = (
    butted_tread,
    thin_tread,
    grain_across,
    overhanging_tread,
    high_stool,
    tall_step,
    long_seat,
    thin_seat,
    pieced_tread,
    pegged_seat,
)
