"""Pieces that fall over: empty, loaded, with one load gone, under a hand, a child or a cable."""

from __future__ import annotations

from furniture import CableOf, Composition, StandsOn
from furniture.checks.check import Verdict
from furniture.checks.of_piece import Setting
from tests.hazards.making import (
    OAK,
    PINE,
    PLY,
    Y,
    Z,
    board,
    box,
    butt,
    case,
    dado,
    dowels,
    load,
    piece,
    screws,
)
from tests.hazards.rows import danger
from tests.hazards.subjects import CHILDREN, INSIDE_THE_PLAN, OVER, PULLED, TALL, TIPS

STATICS = "statics; common practice, no source"
ON_A_TABLE = Setting(stands_on=StandsOn.TABLE)


def _pedestal(wood, foot, post, top, high, thick=25.0):
    """A foot, a post and a top, all square and in the middle of one another."""
    middle = foot / 2
    rise = high - 2 * thick
    boards = [
        board("foot", wood, (0, 0, 0), (foot, foot, thick)),
        board("post", wood, (middle - post / 2, middle - post / 2, thick), (post, post, rise), Z),
        board("top", wood, (middle - top / 2, middle - top / 2, high - thick), (top, top, thick)),
    ]
    size = post // 4 + 1
    pin = {"size": size, "count": 1, "length": 2 * thick, "first": post / 2}
    joints = dowels("post", "foot", "top", deep=thick - 5, **pin)
    return boards, joints


@danger(
    "D12",
    "Narrow stand, heavy top",
    Verdict.CAUTION,
    TIPS,
    "statics; equipment over 7 kg is tilted by 10 degrees (IEC 62368-1)",
)
def narrow_stand() -> Composition:
    boards, joints = _pedestal(OAK, 250, 75, 250, 1100)
    return piece(boards, joints, load("top", 12, (200, 200), 130))


@danger(
    "D13",
    "Tall case, unanchored",
    Verdict.CAUTION,
    TALL,
    "recall after a 4-year-old died under an unanchored case 1854 x 902 x 406 mm (2024)",
    remark="the back stands in rabbets of the sides and shelves stop short of it; no doors",
)
def anchored_nowhere() -> Composition:
    boards, joints = case(OAK, 900, 380, 1850, 22, (60, 500, 940, 1380, 1828))
    back = board("back", PLY, (0, 380, 0), (900, 12, 1850), Z)
    joints += butt("back", "left side", "right side")
    return piece([*boards, back], joints)


@danger(
    "D14",
    "Case 1500 high, 180 deep, empty",
    Verdict.CAUTION,
    TALL,
    "office storage standard of 2019: units are pushed from 762 mm up",
)
def shallow_case() -> Composition:
    boards, joints = case(OAK, 600, 174, 1500, 20, (60, 400, 740, 1080, 1480))
    back = board("back", PLY, (0, 174, 0), (600, 6, 1500), Z)
    return piece([*boards, back], joints + butt("back", "left side", "right side"))


@danger(
    "D15",
    "Tiers beyond the base",
    Verdict.FAIL,
    TIPS,
    STATICS,
    remark="a tray on an arm holds the load where it is stated, 60 before the base",
)
def leaning_tiers() -> Composition:
    boards = [
        board("base", OAK, (0, 0, 0), (200, 150, 40)),
        board("post", OAK, (60, 130, 40), (80, 20, 400), Z),
        board("arm", OAK, (60, -120, 300), (80, 256, 15), Y),
        board("tray", OAK, (0, -120, 315), (200, 120, 10)),
    ]
    joints = dowels("post", "base", size=8) + dado("arm", "post") + butt("tray", "arm")
    return piece(boards, joints, load("tray", 3, (100, 110), 40))


@danger("D16", "Two balanced trays, one emptied", Verdict.FAIL, TIPS, STATICS)
def balance() -> Composition:
    boards = [
        board("foot", OAK, (200, 0, 0), (200, 120, 30)),
        board("post", OAK, (275, 50, 30), (50, 20, 300), Z),
        board("beam", OAK, (0, 35, 330), (600, 50, 20)),
        board("left tray", OAK, (0, 10, 350), (100, 100, 10)),
        board("right tray", OAK, (500, 10, 350), (100, 100, 10)),
    ]
    joints = dowels("post", "foot", size=8) + dowels("beam", "post", size=8, deep=25, length=38)
    joints += butt("left tray", "beam") + butt("right tray", "beam")
    return piece(
        boards, joints, load("left tray", 2, (90, 90), 40), load("right tray", 2, (90, 90), 40)
    )


@danger(
    "D17",
    "Box with its lid open behind it",
    Verdict.CAUTION,
    TIPS,
    STATICS,
    remark="a hinged lid cannot be modelled: it is drawn laid open behind, screwed where its "
    "hinges are",
)
def open_lid() -> Composition:
    boards, joints = box(PINE, 250, 180, 80, 8)
    lid = board("lid", OAK, (0, 165, 80), (250, 180, 12))
    return piece(
        [*boards, lid], joints + screws("lid", "back", size=3, through=12, bite=20, edge=60)
    )


@danger("D18", "Sign board on edge", Verdict.FAIL, TIPS, STATICS, setting=ON_A_TABLE)
def sign() -> Composition:
    return piece([board("sign", OAK, (0, 0, 0), (300, 15, 150))], [])


@danger(
    "D19",
    "Foot pads in the middle",
    Verdict.CAUTION,
    INSIDE_THE_PLAN,
    STATICS,
    remark="the box is drawn without a lid; the hand leans on its bottom's edge or its rails",
)
def central_feet() -> Composition:
    boards, joints = box(PINE, 300, 300, 60, 10, low=22)
    bottom = board("bottom", PINE, (0, 0, 12), (300, 300, 10))
    feet = [
        board(f"foot {x} {y}", PINE, (x, y, 0), (20, 20, 12))
        for x in (110, 170)
        for y in (110, 170)
    ]
    joints += butt("bottom", "left end", "right end", "front", "back")
    for each in feet:
        joints += butt(each.name, "bottom")
    return piece([*boards, bottom, *feet], joints, load("bottom", 0.5, (100, 100), 20))


@danger("D20", "Three feet, two of them near one line", Verdict.FAIL, TIPS, STATICS)
def tripod() -> Composition:
    top = board("top", OAK, (0, 0, 580), (240, 240, 20))
    legs = [
        board(f"leg {n}", OAK, (x, y, 0), (25, 25, 580), Z)
        for n, (x, y) in enumerate(((0, 110), (215, 110), (107, 215)), 1)
    ]
    joints = [
        each
        for leg in legs
        for each in dowels(leg.name, "top", size=7, count=1, deep=15, length=40, first=12.5)
    ]
    return piece([top, *legs], joints, load("top", 5, (200, 200), 100))


@danger(
    "D21",
    "Tiers that lean back beyond the feet",
    Verdict.FAIL,
    TIPS,
    STATICS,
    remark="its plates are left out, as a composition has no ballast: the tiers alone lean so far",
)
def leaning_back() -> Composition:
    boards = [
        board("base", PINE, (0, 0, 0), (300, 120, 18)),
        board("post", OAK, (110, 90, 18), (80, 25, 500), Z),
        board("tier", OAK, (0, 107, 300), (300, 250, 25)),
    ]
    joints = dowels("post", "base", size=8, deep=10, length=35)
    return piece(boards, joints + dado("tier", "post"))


@danger(
    "D22",
    "Loose weight that slides",
    Verdict.CAUTION,
    TIPS,
    "statics; friction of waxed wood 0.2, common practice, no source",
    setting=Setting(friction=0.2),
    remark="ballast is always fixed here; the plate is a load on the bottom, which may stand "
    "anywhere on it",
)
def sliding_plate() -> Composition:
    boards, joints = case(PINE, 300, 160, 700, 16, (20, 500, 684))
    return piece(
        boards, joints, load("shelf 1", 3, (160, 60), 10), load("shelf 3", 2, (100, 100), 80)
    )


@danger(
    "D23",
    "Castors under a tall narrow case",
    Verdict.CAUTION,
    TIPS,
    STATICS,
    remark="castors cannot be modelled: blocks stand where the wheels do when they trail inward",
)
def on_castors() -> Composition:
    boards, joints = case(PINE, 600, 300, 1150, 18, (0, 380, 760, 1132))
    blocks = [
        board(f"castor {x} {y}", OAK, (x, y, -50), (30, 30, 50), Z)
        for x in (45, 525)
        for y in (60, 210)
    ]
    for each in blocks:
        joints += screws("shelf 1", each.name, size=4, through=18, bite=30, count=1)
    return piece(
        [*boards, *blocks], joints, *(load(f"shelf {n}", 9, (400, 200), 100) for n in (1, 2, 3))
    )


@danger(
    "D24",
    "Child on a tier",
    Verdict.CAUTION,
    CHILDREN,
    "consumer body: 17,700 emergency visits from tip-overs in 2021, children to 60 lb",
)
def climbed_stand() -> Composition:
    boards = [
        board("base", PINE, (0, 40, 0), (400, 250, 25)),
        board("post", PINE, (140, 265, 25), (120, 25, 875), Z),
        board("tier 1", PINE, (0, 0, 250), (400, 273, 20)),
        board("tier 2", PINE, (0, 100, 550), (400, 173, 20)),
    ]
    joints = dowels("post", "base", size=8, deep=15, length=40)
    return piece(boards, joints + dado("tier 1", "post") + dado("tier 2", "post"))


@danger(
    "D25",
    "Lamp pulled by its cable",
    Verdict.CAUTION,
    PULLED,
    "IEC 60598-2-4, table lamps are tilted by 6 degrees; the pull by hand",
    setting=Setting(stands_on=StandsOn.TABLE, cable_at_mm=350, cable_of=CableOf.LAMP),
)
def lamp_with_cable() -> Composition:
    boards, joints = _pedestal(OAK, 110, 50, 90, 420)
    return piece(boards, joints, load("top", 0.3, (60, 60), 40))


@danger(
    "D26",
    "Lamp with a small foot",
    Verdict.CAUTION,
    TIPS,
    "lamp makers' rule: a foot of a third of the height; IEC 60598-2-4 tilts lamps by 6 degrees",
    setting=ON_A_TABLE,
)
def small_foot() -> Composition:
    boards, joints = _pedestal(PINE, 70, 30, 60, 400, thick=20)
    return piece(boards, joints, load("top", 0.7, (50, 50), 25))


@danger("D32", "Plank loose on two brackets", Verdict.FAIL, OVER, STATICS)
def loose_plank() -> Composition:
    plank = board("plank", PINE, (0, 0, 300), (1200, 200, 20))
    trestles = [
        board(f"trestle {n}", PINE, (x, 0, 0), (40, 200, 300), Y) for n, x in ((1, 280), (2, 880))
    ]
    joints = butt("plank", "trestle 1", "trestle 2", glued=False)
    return piece([plank, *trestles], joints, load("plank", 6, (60, 100), 60))


@danger(
    "DX6",
    "Easel on two feet in one line",
    Verdict.FAIL,
    TIPS,
    "statics: a base as deep as one board; common practice, no source",
)
def easel() -> Composition:
    boards = [
        board("back", OAK, (0, 20, 0), (300, 18, 400), Z),
        board("ledge", OAK, (0, -22, 60), (300, 48, 15)),
    ]
    return piece(boards, groove_across(), load("ledge", 1, (200, 40), 100))


def groove_across():
    """The ledge in a dado of the back, 6 deep."""
    return dado("ledge", "back")


@danger(
    "DX7",
    "Plant stand of one post on a foot of a fifth of its height",
    Verdict.CAUTION,
    TIPS,
    "lamp makers' rule: a foot of a third of the height; statics",
)
def thin_foot() -> Composition:
    boards, joints = _pedestal(OAK, 180, 60, 180, 900)
    return piece(boards, joints, load("top", 6, (150, 150), 120))


TIPPING_ROWS = (
    narrow_stand,
    anchored_nowhere,
    shallow_case,
    leaning_tiers,
    balance,
    open_lid,
    sign,
    central_feet,
    tripod,
    leaning_back,
    sliding_plate,
    on_castors,
    climbed_stand,
    lamp_with_cable,
    small_foot,
    loose_plank,
    easel,
    thin_foot,
)
