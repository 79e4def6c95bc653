"""Desk stands, risers, lamp bases and other small things on a table, in order."""

from __future__ import annotations

from furniture import (
    BackPanel,
    BottomFixing,
    Composition,
    Dowels,
    Face,
    LidFixing,
    Load,
    Slot,
    StandsOn,
    SteppedStand,
    Stock,
    TierRule,
    Uprights,
    cut,
)
from furniture.checks.check import Verdict
from furniture.checks.of_piece import Setting
from models.herb_stand import stand as herb_stand
from models.yarn_steps import stand as yarn_steps
from tests.hazards.making import (
    OAK,
    PINE,
    PLY,
    Z,
    board,
    butt,
    case,
    dado,
    dowels,
    housed,
    load,
    nails,
    piece,
    screws,
)
from tests.hazards.rows import sound

ON_A_TABLE = Setting(stands_on=StandsOn.TABLE)


@sound(
    "S46",
    "Cutting board or recipe stand",
    "kitchen page with a plan, a recipe stand",
    setting=ON_A_TABLE,
    remark="its back stands upright, not at 75 degrees",
    fair=Verdict.NOTE,
)
def recipe_stand() -> Composition:
    boards = [
        board("base", PINE, (0, 0, 0), (203, 140, 19)),
        board("back", PINE, (0, 100, 19), (203, 19, 270), Z),
        board("ledge", PINE, (0, 62, 19), (203, 38, 19)),
    ]
    joints = screws("base", "back", size=4, through=19, bite=30, count=4, glued=True)
    joints += butt("ledge", "base") + butt("ledge", "back")
    return piece(boards, joints, load("ledge", 1, (180, 30), 130))


@sound(
    "S47",
    "One-block phone dock",
    "maker's article, a phone stand",
    setting=ON_A_TABLE,
    remark="the slot is square to the block",
)
def phone_dock() -> Composition:
    slot = cut(
        Slot,
        face=Face.FACE_SIDE,
        x="76 mm",
        y="60 mm",
        length="90 mm",
        width="10 mm",
        depth="28 mm",
    )
    return piece([board("block", "walnut", (0, 0, 0), (152, 102, 38), cuts=[slot])], [])


@sound(
    "S48",
    "Plywood drum lamp base",
    "maker's article, a plywood lamp base",
    setting=ON_A_TABLE,
    remark="square, of four blocks in place of fourteen discs",
)
def drum_lamp() -> Composition:
    blocks = [board(f"block {n}", PLY, (0, 0, 76 * n), (165, 165, 76)) for n in range(4)]
    joints = [each for n in range(3) for each in butt(f"block {n + 1}", f"block {n}")]
    return piece(blocks, joints, load("block 3", 0.7, (90, 90), 130))


@sound(
    "S49",
    "Obelisk lamp base",
    "maker's article, an obelisk table lamp",
    setting=ON_A_TABLE,
    remark="straight, its boards glued edge to face, and a cap",
    fair=Verdict.NOTE,
)
def obelisk() -> Composition:
    boards = [
        board("front", "cherry", (0, 0, 0), (102, 19, 235), Z),
        board("back", "cherry", (0, 83, 0), (102, 19, 235), Z),
        board("left", "cherry", (0, 19, 0), (19, 64, 235), Z),
        board("right", "cherry", (83, 19, 0), (19, 64, 235), Z),
        board("cap", "cherry", (0, 0, 235), (102, 102, 19)),
    ]
    joints = butt("left", "front", "back") + butt("right", "front", "back")
    joints += dowels("front", "cap", size=6, deep=12, length=35) + dowels(
        "back", "cap", size=6, deep=12, length=35
    )
    return piece(boards, joints, load("cap", 0.4, (90, 90), 110))


def _stand(**changes):
    thick = Stock(name="cherry, 16", species="cherry", thickness="16 mm", moisture="9 %")
    rails = Stock(name="cherry, 12", species="cherry", thickness="12 mm", moisture="9 %")
    thin = Stock(name="cherry, 10", species="cherry", thickness="10 mm", moisture="9 %")
    given = {
        "thick": thick,
        "thin": thin,
        "bottom": Stock(name="ply, 6", species=PLY, thickness="6 mm"),
        "bottom_fixing": BottomFixing.GLUED,
        "base_width": "262 mm",
        "base_depth": "184 mm",
        "base_height": "70 mm",
        "post_width": "90 mm",
        "tiers": TierRule(
            count=2,
            width="220 mm",
            depth="120 mm",
            rise="130 mm",
            step_back_width="20 mm",
            step_back_depth="20 mm",
        ),
        "own_stock": {"rails": rails},
    }
    return SteppedStand(**{**given, **changes})


@sound(
    "S50",
    "Desk stand on a box base, light",
    "a sound example of this project's own",
    setting=ON_A_TABLE,
    fair=Verdict.NOTE,
)
def desk_stand() -> SteppedStand:
    return _stand(
        loads=[
            Load(
                name="phone",
                on="tier 1",
                mass="0.2 kg",
                footprint=("80 mm", "60 mm"),
                centre_height="60 mm",
            ),
            Load(
                name="pens",
                on="tier 2",
                mass="0.4 kg",
                footprint=("80 mm", "80 mm"),
                centre_height="60 mm",
            ),
        ]
    )


@sound(
    "SX30",
    "Desk stand over an open box, its post dowelled between the stubs",
    "a sound example of this project's own",
    setting=ON_A_TABLE,
    fair=Verdict.NOTE,
)
def open_stand() -> SteppedStand:
    """Open above: the post is held by its stubs alone, and pens lie on the bottom."""
    pens = Load(
        name="pens",
        on="bottom",
        mass="0.4 kg",
        footprint=("100 mm", "60 mm"),
        centre_height="20 mm",
    )
    phone = Load(
        name="phone",
        on="tier 1",
        mass="0.2 kg",
        footprint=("80 mm", "60 mm"),
        centre_height="60 mm",
    )
    return _stand(
        lid_fixing=LidFixing.NONE,
        dowels=Dowels(count=2, diameter="6 mm"),
        loads=[pens, phone],
    )


@sound("S51", "Two-tier riser", "a sound example of this project's own", setting=ON_A_TABLE)
def two_tiers() -> Composition:
    boards, joints = case(PINE, 240, 160, 231, 12, (100,), dado, let_in=4)
    top = board("top", PINE, (0, 0, 231), (240, 160, 12))
    back = board("back", PINE, (12, 148, 20), (216, 12, 60))
    joints += [
        each
        for side in ("left side", "right side")
        for each in dowels(side, "top", size=5, count=3, deep=7, length=25)
    ]
    joints += dowels("back", "left side", "right side", size=5, deep=7, length=25)
    return piece(
        [*boards, top, back],
        joints,
        load("top", 0.4, (80, 80), 50),
        load("shelf 1", 0.4, (80, 80), 40),
    )


@sound(
    "S52",
    "Desk riser, 13 mm poplar, centre support",
    "maker's article, a desk riser",
    setting=ON_A_TABLE,
    fair=Verdict.NOTE,
)
def desk_riser() -> Composition:
    wood = "yellow-poplar"
    top = board("top", wood, (0, 0, 117), (650, 300, 13))
    supports = [
        board(f"support {n}", wood, (x, 0, 0), (13, 287, 121), Z)
        for n, x in ((1, 10), (2, 318), (3, 627))
    ]
    back = board("back", wood, (10, 287, 0), (630, 13, 117))
    joints = butt("back", "top")
    for each in supports:
        joints += housed(each.name, "top", front=0, back=13)
        joints += nails("back", each.name, size=1.6, through=13, bite=25, count=3, glued=True)
    return piece([top, *supports, back], joints, load("top", 6, (250, 200), 200))


@sound(
    "S53", "Screen riser, one board on two ends", "common practice, no source", setting=ON_A_TABLE
)
def screen_riser() -> Composition:
    top = board("top", OAK, (0, 0, 100), (600, 230, 20))
    ends = [board(f"end {n}", OAK, (x, 0, 0), (20, 230, 106), Z) for n, x in ((1, 20), (2, 560))]
    rail = board("rail", OAK, (40, 200, 40), (520, 20, 60))
    joints = dado("end 1", "top") + dado("end 2", "top")
    joints += dowels("rail", "end 1", "end 2", size=8, deep=14, length=40, first=16) + butt(
        "rail", "top"
    )
    return piece([top, *ends, rail], joints, load("top", 6, (250, 180), 200))


@sound(
    "S57",
    "Bookend, L shape",
    "common practice, no source",
    setting=ON_A_TABLE,
    remark="dovetail as screws and glue",
)
def bookend() -> Composition:
    upright = board("upright", OAK, (0, 0, 19), (19, 130, 150), Z)
    foot = board("foot", OAK, (0, 0, 0), (140, 130, 19))
    return piece(
        [foot, upright], screws("foot", "upright", size=4, through=19, bite=35, count=3, glued=True)
    )


@sound(
    "S62",
    "Step-back herb stand",
    "the example of this project, models/herb_stand.py",
    setting=ON_A_TABLE,
    fair=Verdict.CAUTION,
)
def the_herb_stand() -> SteppedStand:
    return herb_stand


@sound("SX6", "Yarn steps", "the example of this project, models/yarn_steps.py", cautions=2)
def the_yarn_steps() -> SteppedStand:
    return yarn_steps


@sound(
    "SX7", "Low monitor shelf of ash, dadoed ends", "common practice, no source", setting=ON_A_TABLE
)
def monitor_shelf() -> Composition:
    boards, joints = case("ash", 500, 220, 120, 19, (40, 95), dado, let_in=6)
    return piece(boards, joints, load("shelf 2", 5, (220, 180), 180))


@sound(
    "SX8",
    "Bread board of three boards, edge glued",
    "common practice, no source",
    setting=ON_A_TABLE,
)
def bread_board() -> Composition:
    boards = [board(f"strip {n}", "hard maple", (0, 80 * n, 0), (400, 80, 22)) for n in range(3)]
    return piece(boards, butt("strip 1", "strip 0") + butt("strip 2", "strip 1"))


@sound(
    "SX34",
    "Steps between uprights with a glued plywood back",
    "common practice, no source: a sheet in rabbets is what keeps such a case square",
    fair=Verdict.CAUTION,
)
def backed_steps() -> SteppedStand:
    thick = Stock(name="cherry, 18", species="cherry", thickness="18 mm", moisture="9 %")
    thin = Stock(name="cherry, 12", species="cherry", thickness="12 mm", moisture="9 %")
    sheet = Stock(name="ply, 6", species=PLY, thickness="6 mm")
    return SteppedStand(
        thick=thick,
        thin=thin,
        base_width="320 mm",
        base_depth="240 mm",
        base_height="80 mm",
        uprights=Uprights(depth="130 mm"),
        back_panel=BackPanel(stock=sheet),
        dowels=Dowels(count=2),
        tiers=TierRule(count=2, depth="140 mm", rise="130 mm"),
    )


STAND_ROWS = (
    recipe_stand,
    phone_dock,
    drum_lamp,
    obelisk,
    desk_stand,
    open_stand,
    two_tiers,
    desk_riser,
    screen_riser,
    bookend,
    the_herb_stand,
    the_yarn_steps,
    monitor_shelf,
    bread_board,
    backed_steps,
)
