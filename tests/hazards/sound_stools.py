"""Stools in order."""

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
    butt,
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
    "S01",
    "Oak step stool, one step",
    "a home magazine's plan of a stable oak step stool, its maker's older one 25 years in use",
    remark="legs upright, not splayed",
    fair=Verdict.NOTE,
)
def oak_step() -> Composition:
    top = board("top", RED_OAK, (0, 0, 229), (330, 229, 19))
    legs = [
        board(f"leg {n}", RED_OAK, (x, 10, 0), (19, 209, 235), Z) for n, x in ((1, 40), (2, 271))
    ]
    rail = board("stretcher", RED_OAK, (59, 105, 60), (212, 19, 60))
    joints = housed("leg 1", "top", front=10, back=10) + housed("leg 2", "top", front=10, back=10)
    joints += [
        each
        for leg in ("leg 1", "leg 2")
        for each in screws(leg, "stretcher", size=4, through=19, bite=31, edge=15, glued=True)
    ]
    return piece([top, *legs, rail], joints, _adult(size=(250, 180)))


@sound(
    "S02",
    "Two-step stool, alder",
    "maker's article on a dovetailed step stool",
    remark="dovetails stand as stopped dados, a half of the thickness deep",
)
def dovetailed_stool() -> Composition:
    wood = "alder"
    boards = [
        board("top", wood, (0, 133, 387), (406, 133, 19)),
        board("step", wood, (0, 0, 184), (406, 133, 19)),
    ]
    joints = []
    for way, x in (("left", 0), ("right", 387)):
        boards += [
            board(f"{way} back", wood, (x, 133, 0), (19, 133, 387), Z),
            board(f"{way} front", wood, (x, 0, 0), (19, 133, 184), Z),
        ]
        joints += butt(f"{way} front", f"{way} back")
        joints += dowels(f"{way} back", "top", size=6, count=3, deep=13, length=35)
        joints += dowels(f"{way} front", "step", size=6, count=3, deep=13, length=35)
    for n, (y, z) in enumerate(((20, 120), (247, 60), (247, 320)), 1):
        boards.append(board(f"rail {n}", wood, (19, y, z), (368, 19, 57)))
        side = "front" if y < 133 else "back"
        joints += dowels(f"rail {n}", f"left {side}", f"right {side}", size=6, deep=13, length=35)
    return piece(boards, joints, _adult("top", size=(250, 120)))


@sound(
    "S03",
    "Two-step stool on plates",
    "home handyman magazine, a simple step stool",
    remark="plates stand as dowels; the seat is full deep, the step a half of it",
    fair=Verdict.CAUTION,
)
def plated_stool() -> Composition:
    boards = [
        board("top", OAK, (0, 180, 551), (356, 180, 19)),
        board("step", OAK, (3, 0, 280), (350, 180, 19)),
    ]
    joints = []
    for way, x in (("left", 3), ("right", 334)):
        boards += [
            board(f"{way} back", OAK, (x, 180, 0), (19, 180, 551), Z),
            board(f"{way} front", OAK, (x, 0, 0), (19, 180, 280), Z),
        ]
        joints += butt(f"{way} front", f"{way} back")
        joints += dowels(f"{way} back", "top", size=8, count=3, deep=14, length=40)
        joints += dowels(f"{way} front", "step", size=8, count=3, deep=14, length=40)
    for n, (y, z, side) in enumerate(
        ((20, 200, "front"), (330, 120, "back"), (330, 470, "back")), 1
    ):
        boards.append(board(f"rail {n}", OAK, (22, y, z), (312, 19, 60)))
        joints += dowels(f"rail {n}", f"left {side}", f"right {side}", size=6, deep=13, length=35)
    return piece(boards, joints, _adult(size=(250, 160)))


@sound(
    "S04",
    "Two-step stool on dowels, 22 mm",
    "woodworking magazine: dowels chosen because screws in end grain hold badly",
)
def dowelled_stool() -> Composition:
    boards = [
        board("top", "ash", (0, 180, 458), (400, 180, 22)),
        board("step", "ash", (0, 0, 218), (400, 180, 22)),
    ]
    joints = []
    for way, x in (("left", 20), ("right", 358)):
        boards += [
            board(f"{way} back", "ash", (x, 180, 0), (22, 180, 458), Z),
            board(f"{way} front", "ash", (x, 0, 0), (22, 180, 218), Z),
        ]
        joints += dowels(f"{way} front", f"{way} back", size=8, count=2, length=40, deep=20)
        joints += dowels(f"{way} back", "top", size=8, count=3, deep=17, length=45)
        joints += dowels(f"{way} front", "step", size=8, count=3, deep=17, length=45)
    for n, (y, z, side) in enumerate(
        ((20, 130, "front"), (330, 80, "back"), (330, 380, "back")), 1
    ):
        boards.append(board(f"rail {n}", "ash", (42, y, z), (316, 22, 70)))
        joints += dowels(f"rail {n}", f"left {side}", f"right {side}", size=8, deep=16, length=40)
    return piece(boards, joints, _adult(size=(250, 160)))


@sound(
    "S05",
    "Step stool on housed legs",
    "maker's article with a plan, sliding dovetails",
    remark="sliding dovetails stand as dados; legs upright, not splayed",
)
def housed_stool() -> Composition:
    boards = [
        board("top", "ash", (0, 190, 411), (420, 190, 19)),
        board("step", "ash", (0, 0, 201), (420, 190, 19)),
    ]
    joints = []
    for way, x in (("left", 50), ("right", 351)):
        boards += [
            board(f"{way} back", "ash", (x, 190, 0), (19, 180, 417), Z),
            board(f"{way} front", "ash", (x, 10, 0), (19, 180, 207), Z),
        ]
        joints += housed(f"{way} back", "top", front=0, back=10)
        joints += housed(f"{way} front", "step", front=10, back=0)
        joints += butt(f"{way} front", f"{way} back")
    for n, (y, z, side) in enumerate(
        ((20, 120, "front"), (340, 60, "back"), (340, 330, "back")), 1
    ):
        boards.append(board(f"stretcher {n}", "ash", (69, y, z), (282, 19, 60)))
        joints += dowels(
            f"stretcher {n}", f"left {side}", f"right {side}", size=6, deep=13, length=35
        )
    return piece(boards, joints, _adult(size=(250, 170)))


@sound(
    "S06", "Pine step stool with dowel stretcher", "how-to page on a step stool", fair=Verdict.NOTE
)
def cleated_stool() -> Composition:
    boards = [board("top", PINE, (0, 0, 305), (457, 286, 19))]
    joints = []
    for n, (x, inner) in enumerate(((30, 49), (408, 370)), 1):
        boards += [
            board(f"end {n}", PINE, (x, 0, 0), (19, 286, 305), Z),
            board(f"cleat {n}", PINE, (inner, 3, 267), (38, 279, 38), Y),
        ]
        joints += screws("top", f"cleat {n}", size=4.5, through=19, bite=31, count=3)
        joints += screws(
            f"end {n}", f"cleat {n}", size=4.5, through=19, bite=31, count=3, glued=True
        )
    boards.append(board("stretcher", PINE, (49, 130, 120), (359, 25, 25), thin=Z))
    joints += [
        each
        for n in (1, 2)
        for each in screws(
            f"end {n}", "stretcher", size=5, through=19, bite=40, count=1, glued=True
        )
    ]
    return piece(boards, joints, _adult())


@sound(
    "S07",
    "Child's two-step stool, nailed",
    "maker's page, who adds braces against twisting",
    remark="with its two corner braces as one rail under either step",
    fair=Verdict.CAUTION,
)
def nailed_stool() -> Composition:
    boards = [
        board("top", PINE, (0, 140, 279), (381, 140, 19)),
        board("step", PINE, (0, 0, 140), (381, 140, 19)),
    ]
    joints = []
    for way, x in (("left", 20), ("right", 342)):
        boards += [
            board(f"{way} back", PINE, (x, 140, 0), (19, 140, 279), Z),
            board(f"{way} front", PINE, (x, 0, 0), (19, 140, 140), Z),
        ]
        joints += butt(f"{way} front", f"{way} back")
        joints += nails("top", f"{way} back", size=2.5, through=19, bite=41, count=3)
        joints += nails("step", f"{way} front", size=2.5, through=19, bite=41, count=3)
    for name, y, z, side in (("back brace", 261, 199, "back"), ("front brace", 20, 80, "front")):
        boards.append(board(name, PINE, (39, y, z), (303, 19, 60)))
        joints += [
            each
            for way in ("left", "right")
            for each in screws(
                f"{way} {side}", name, size=4, through=19, bite=31, edge=15, glued=True
            )
        ]
    return piece(boards, joints, standing("top", 30, (200, 120)))


@sound(
    "S08",
    "Slatted foot stool",
    "maker's plan of a slatted step stool",
    remark="a child on it",
    fair=Verdict.CAUTION,
)
def slatted() -> Composition:
    slats = [board(f"slat {n}", PINE, (0, 60.25 * n, 203), (279, 38, 19)) for n in range(5)]
    sides = [board(f"side {n}", PINE, (x, 0, 0), (19, 279, 203), Y) for n, x in ((1, 20), (2, 240))]
    rails = [
        board(f"runner {n}", PINE, (39, y, 150), (201, 13, 40)) for n, y in ((1, 20), (2, 246))
    ]
    joints = [
        each
        for slat in slats
        for each in nails(
            slat.name, "side 1", "side 2", size=2, through=19, bite=31, count=2, edge=10, glued=True
        )
    ]
    joints += [
        each
        for rail in rails
        for each in dowels(rail.name, "side 1", "side 2", size=6, deep=12, length=30)
    ]
    return piece([*sides, *slats, *rails], joints, standing("slat 2", 20, (100, 38)))


@sound(
    "S09",
    "Mission oak footstool",
    "a book of mission furniture, part 2 (1910)",
    remark="an adult sitting",
    fair=Verdict.NOTE,
)
def mission_footstool() -> Composition:
    top = board("top", OAK, (0, 0, 305), (305, 241, 25))
    legs = [board(f"leg {n}", OAK, (x, 19, 0), (19, 203, 305), Z) for n, x in ((1, 19), (2, 267))]
    brace = board("brace", OAK, (38, 111, 127), (229, 19, 178))
    joints = screws(
        "top", "leg 1", "leg 2", size=4.5, through=25, bite=30, count=2, edge=50, glued=True
    )
    joints += screws("top", "brace", size=4.5, through=25, bite=30, count=2, edge=50, glued=True)
    joints += [
        each
        for leg in ("leg 1", "leg 2")
        for each in screws(leg, "brace", size=4.5, through=19, bite=35, count=2, glued=True)
    ]
    return piece([top, *legs, brace], joints, sitting("top", 80, (250, 200)))


@sound(
    "S10",
    "Footstool on four posts",
    "mission furniture text: a leather-covered footstool, its strength depends on the joints",
    remark="tenons stand as two dowels; the seat of webbing stands as a board nailed on the rails",
)
def posted_footstool() -> Composition:
    boards, joints = framed(OAK, 305, 203, 305, 38, 76)
    seat = board("seat", PINE, (0, 0, 305), (305, 203, 19))
    joints += nails("seat", "upper rail 0", "upper rail 165", size=2, through=19, bite=31, count=3)
    return piece([seat, *boards], joints, sitting("seat", 80, (250, 150)))


STOOL_ROWS = (
    oak_step,
    dovetailed_stool,
    plated_stool,
    dowelled_stool,
    housed_stool,
    cleated_stool,
    nailed_stool,
    slatted,
    mission_footstool,
    posted_footstool,
)
