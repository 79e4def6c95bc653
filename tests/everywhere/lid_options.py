"""What a random box may have above: a lid that lifts out, slides or turns on hinges."""

from __future__ import annotations

import random

from furniture import (
    Against,
    ButtJoint,
    CentredOn,
    DrawnTo,
    FingerHold,
    Flap,
    FlushWith,
    Hinge,
    HingedLid,
    Hung,
    LidFixing,
    PlacedPart,
    Screw,
    SlidingLid,
    Stay,
    Way,
    join,
)
from tests.everywhere.design_options import Figures, a_stock, mm


def finger(dice: random.Random, _: Figures) -> Figures:
    return {"finger_hold": dice.choice(list(FingerHold)), "finger_size": mm(18.3)}


def slides(dice: random.Random, _: Figures) -> Figures:
    return {
        "lid_fixing": LidFixing.SLIDING,
        "sliding_lid": SlidingLid(
            drawn_to=dice.choice(list(DrawnTo)),
            lip=dice.choice([None, mm(dice.uniform(4, 9))]),
        ),
        "lid_gap_across": dice.choice([None, mm(dice.uniform(0.6, 1.2))]),
        "finger_hold": dice.choice([None, FingerHold.BORE, FingerHold.RECESS]),
        "cleats": None,
    }


def a_hinge(dice: random.Random) -> Hinge:
    """Of any size."""
    leaf, screw = dice.uniform(0.8, 1.6), dice.uniform(2.0, 2.6)
    barrel = 2 * leaf + dice.uniform(0.6, 2.5)
    return Hinge(
        leaf_length=mm(dice.uniform(18, 45)),
        leaf_width=mm(dice.uniform(6, 11)),
        leaf_thickness=mm(leaf),
        barrel=mm(barrel),
        folded=dice.choice([None, mm(dice.uniform(2 * leaf, barrel))]),
        screws=dice.randint(1, 3),
        screw=Screw(diameter=mm(screw), length=mm(leaf + dice.uniform(2.6, 3.5) * screw)),
    )


def a_flap(dice: random.Random, _: Figures) -> Figures:
    """A stand's lid that opens in front, as deep as there is room, or as one says."""
    return {
        "flap": Flap(
            hinge=a_hinge(dice),
            depth=dice.choice([None, None, mm(dice.uniform(60, 140))]),
            count=dice.choice([2, 3]),
            gap=mm(dice.uniform(0.3, 0.8)),
            stay=Stay(opens_to=f"{dice.uniform(95, 110):.1f} deg", count=dice.randint(1, 2)),
        ),
        "thin": a_stock(dice, 13, 16),
        "lid_fixing": LidFixing.GLUED,
        "lid_gap_across": None,
        "cleats": None,
    }


def a_hung_lid(dice: random.Random, figures: Figures) -> Figures:
    """A lid over a rail between the two sides of an own piece, stayed on one of them or both."""
    first, second, rail = (figures["parts"][at] for at in (0, 1, -1))
    long, off = float(rail.length.split(" ")[0]), dice.uniform(0.5, 6.0)
    head = PlacedPart(
        name="head rail", stock=rail.stock, length=rail.length, width="60 mm",
        face_side=Way.BACK, grain=Way.RIGHT,
        places=[Against(of=first.name, side=Way.RIGHT), FlushWith(of=first.name, side=Way.BACK),
                FlushWith(of=first.name, side=Way.UP)],
    )  # fmt: skip
    lid = PlacedPart(
        name="lid", stock=a_stock(dice, 13, 16), length=mm(long - 2 * off), width=first.width,
        face_side=Way.UP,
        places=[Against(of="head rail", side=Way.UP, gap=mm(dice.uniform(0.3, 1.2))),
                CentredOn(of="head rail"), FlushWith(of="head rail", side=Way.BACK)],
    )  # fmt: skip
    hung = Hung(
        part="lid", on="head rail", hinge=a_hinge(dice), count=dice.choice([2, 2, 3]),
        stay=Stay(opens_to=f"{dice.uniform(95, 118):.1f} deg"),
        stays_on=[first.name, second.name][: dice.randint(1, 2)],
    )  # fmt: skip
    ends = [join(ButtJoint, "head rail", into=side.name) for side in (first, second)]
    return {
        "parts": [*figures["parts"], head, lid],
        "joints": [*figures["joints"], *ends],
        "hung": [hung],
    }


def hinged(dice: random.Random, _: Figures) -> Figures:
    """A lid on hinges of any size, thick enough for their screws, or not."""
    lid = HingedLid(
        hinge=a_hinge(dice),
        count=dice.choice([2, 2, 3]),
        inset=dice.choice([None, mm(dice.uniform(24, 50))]),
        gap=mm(dice.uniform(0.3, 1.0)),
        overhang=mm(dice.choice([0.0, dice.uniform(2, 15)])),
        side_overhang=mm(dice.choice([0.0, dice.uniform(2, 10)])),
        stay=Stay(opens_to=f"{dice.uniform(95, 118):.1f} deg", count=dice.randint(1, 2)),
    )
    return {
        "lid_fixing": LidFixing.HINGED,
        "hinged_lid": lid,
        "lid": a_stock(dice, 12, 20),
        "lid_gap_across": None,
        "finger_hold": dice.choice([None, FingerHold.NOTCH]),
        "cleats": None,
    }
