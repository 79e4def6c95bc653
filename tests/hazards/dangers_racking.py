"""Cases, benches and stools that fold sideways."""

from __future__ import annotations

from furniture import (
    Composition,
    GrooveJoint,
    LidFixing,
    Load,
    SteppedStand,
    Stock,
    TierRule,
    join,
)
from furniture.checks.check import Verdict
from furniture.checks.rows.joints import END_GRAIN_BUTT
from furniture.checks.rows.structure import END_GRAIN_ALONE
from tests.hazards.making import (
    OAK,
    PINE,
    PLY,
    Z,
    board,
    box,
    butt,
    case,
    dowels,
    groove,
    load,
    nails,
    piece,
    screws,
    sitting,
    stopped,
)
from tests.hazards.rows import danger
from tests.hazards.subjects import CORNER, RACKS, RACKS_OR_LOOSE

FASTENERS = (
    "withdrawal of nails 54.12 G^2.5 D L and of screws, none to be counted in end grain: Wood "
    "Handbook ch. 8 as engineering tables print it, and a construction handbook"
)


def _through_the_sides(what, *sides):
    """Two screws through each side into the end of a level board."""
    return [
        joint
        for side in sides
        for joint in screws(side, what, size=4.2, through=19, bite=26, count=2, edge=50)
    ]


@danger(
    "D01",
    "Tall case without back, screwed butts",
    Verdict.FAIL,
    RACKS,
    "wood forum 2018, a plywood bookcase of 68 x 34 in that is flimsy because it has no back; "
    + FASTENERS,
)
def tall_case() -> Composition:
    boards, joints = case(
        PINE, 900, 300, 1800, 19, (60, 400, 740, 1080, 1420, 1781), _through_the_sides, let_in=0
    )
    books = [load(f"shelf {index}", 25, (800, 220), 120) for index in range(1, 6)]
    return piece(boards, joints, *books)


@danger(
    "D02",
    "Oak rack 1220 high, four shelves in stopped dados, no back",
    Verdict.CAUTION,
    RACKS,
    "wood forum 2006, advice needed on a bookcase: its maker saw it when taking off the clamps",
    remark="dados 9.5 deep, as half of the thickness is the most that the joint takes",
)
def oak_rack() -> Composition:
    boards, joints = case(OAK, 914, 250, 1220, 19, (80, 440, 800, 1160), stopped, let_in=9.5)
    return piece(boards, joints)


def _on_pins(what, *sides):
    return nails(what, *sides, size=5.0, through=10, bite=10, count=2, edge=40)


@danger(
    "D03",
    "Case with loose shelves only",
    Verdict.FAIL,
    RACKS,
    "statics, a four-bar linkage; common practice, no source",
    remark="the loose pins stand in the ends of the boards as short nails",
)
def pinned_case() -> Composition:
    boards, joints = case(PINE, 800, 250, 600, 18, (40, 560), _on_pins, let_in=0)
    return piece(boards, joints, load("shelf 1", 5, (300, 200)))


@danger(
    "D04",
    "Bench without rails",
    Verdict.FAIL,
    RACKS,
    "maker's article 2015, a five-board bench: its rails are inset for stability; " + FASTENERS,
)
def bench() -> Composition:
    ends = [board(f"end {n}", PINE, (x, 0, 0), (16, 283, 441), Z) for n, x in ((1, 90), (2, 859))]
    top = board("top", PINE, (0, 0, 441), (965, 283, 16))
    joints = nails("top", "end 1", "end 2", size=2.5, through=16, bite=34, count=4)
    return piece([top, *ends], joints, sitting("top", 80))


@danger(
    "D05", "Stool legs screwed to a top, no apron, no stretcher", Verdict.FAIL, RACKS, FASTENERS
)
def screwed_stool() -> Composition:
    legs = [
        board(f"leg {x} {y}", PINE, (x, y, 0), (40, 40, 400), Z)
        for x in (20, 290)
        for y in (20, 290)
    ]
    top = board("top", PINE, (0, 0, 400), (350, 350, 20))
    joints = screws("top", *(each.name for each in legs), size=4.5, through=20, bite=40, count=1)
    return piece([top, *legs], joints, sitting("top", 80))


@danger(
    "D50",
    "Long mitred box racked",
    Verdict.CAUTION,
    CORNER,
    "a magazine's editor, 2015: bare mitres serve short boxes, not long or frame mitres",
    remark="corners butted, not mitred: end grain glue too; its ply bottom lies loose in a groove",
)
def long_box() -> Composition:
    boards, _ = box(PINE, 500, 400, 60, 8)
    joints = butt("front", "left end", "right end") + butt("back", "left end", "right end")
    bottom = board("bottom", PLY, (5, 5, 10), (490, 390, 4))
    return piece(
        [*boards, bottom],
        joints + groove("bottom", "left end", "right end", "front", "back", gap=0.5),
        load("bottom", 5, (200, 200)),
    )


@danger(
    "D51",
    "Loose ply in a wide groove",
    Verdict.CAUTION,
    RACKS_OR_LOOSE,
    "a page on box joints: sheet is thinner than its name; play over depth by hand",
    refused_over="fit",
    remark="the play of 1.2 is stated as the fit of the grooves",
)
def loose_back() -> Composition:
    boards, joints = case(PINE, 600, 250, 700, 18, (60, 660), _through_the_sides, let_in=0)
    back = board("back", PLY, (12, 236, 84), (576, 5.2, 570), Z)
    loose = [
        join(GrooveJoint, "back", into=each, fit="1.2 mm") for each in ("left side", "right side")
    ]
    return piece([*boards, back], joints + loose, load("shelf 1", 5, (300, 200)))


@danger(
    "DX1",
    "Table of four legs on butts, no apron",
    Verdict.FAIL,
    RACKS,
    "common practice, no source: legs want rails",
)
def butted_table() -> Composition:
    legs = [
        board(f"leg {x} {y}", OAK, (x, y, 0), (35, 35, 500), Z)
        for x in (10, 455)
        for y in (10, 255)
    ]
    top = board("top", OAK, (0, 0, 500), (500, 300, 18))
    return piece(
        [top, *legs], butt("top", *(each.name for each in legs)), load("top", 5, (200, 200))
    )


@danger(
    "DX2",
    "Tall open rack on nails, 1.2 m",
    Verdict.FAIL,
    RACKS,
    "as the plywood bookcase of 68 x 34 in, a wood forum 2018; " + FASTENERS,
)
def nailed_rack() -> Composition:
    def nailed(what, *sides):
        return [
            joint
            for side in sides
            for joint in nails(side, what, size=2.0, through=16, bite=24, count=2, edge=40)
        ]

    boards, joints = case(PINE, 700, 220, 1200, 16, (80, 450, 820, 1184), nailed, let_in=0)
    return piece(boards, joints, load("shelf 2", 10, (500, 180), 100))


@danger(
    "DX3",
    "Two boards and a plank, dowelled with two thin dowels an end",
    Verdict.CAUTION,
    RACKS,
    "statics: one row of dowels bears no moment but by the width of its face",
)
def plank_on_boards() -> Composition:
    ends = [board(f"end {n}", PINE, (x, 0, 0), (18, 200, 450), Z) for n, x in ((1, 0), (2, 882))]
    top = board("top", PINE, (0, 0, 450), (900, 200, 18))
    joints = dowels("top", "end 1", "end 2", size=6, length=24, deep=14)
    return piece([top, *ends], joints, load("top", 20, (300, 150), 100))


@danger(
    "DX30",
    "Stand on a plinth: neither lid nor bottom, its post butted between two stubs",
    Verdict.CAUTION,
    (*RACKS, END_GRAIN_ALONE, END_GRAIN_BUTT),
    "common practice, no source: end grain glues badly, and glue there is not to be counted on",
)
def plinth() -> SteppedStand:
    pine = Stock(name="pine, 18", species=PINE, thickness="18 mm", moisture="9 %")
    pot = Load(
        name="pot", on="tier 2", mass="3 kg", footprint=("120 mm", "120 mm"), centre_height="80 mm"
    )
    return SteppedStand(
        thick=pine,
        thin=pine,
        base_width="400 mm",
        base_depth="300 mm",
        base_height="60 mm",
        post_width="90 mm",
        lid_fixing=LidFixing.NONE,
        tiers=TierRule(count=2, width="260 mm", depth="180 mm", rise="250 mm"),
        loads=[pot],
    )


RACKING_ROWS = (
    tall_case,
    oak_rack,
    pinned_case,
    bench,
    screwed_stool,
    long_box,
    loose_back,
    butted_table,
    nailed_rack,
    plank_on_boards,
    plinth,
)
