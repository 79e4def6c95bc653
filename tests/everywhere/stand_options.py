"""What is put to a random stand alone: lips, brackets, cords, backs and what carries its tiers."""

from __future__ import annotations

import random

from furniture import (
    BackFixing,
    BackPanel,
    BackRail,
    Bracket,
    Cable,
    CordClip,
    CordNotch,
    Lip,
    PanelGrain,
    PostStrips,
    Screw,
    Stock,
    TierCleat,
    TierEdge,
    TierRule,
)
from furniture.builders.lips import LipEdge
from furniture.joints import EASY, SLIP
from tests.everywhere.design_options import Figures, Option, a_stock, mm, more, one_more


def a_lip(*names: str) -> Option:
    return one_more("lips", lambda dice: Lip(
        on=dice.choice(names),
        stock=dice.choice([None, a_stock(dice, 4, 7)]),
        height=mm(dice.uniform(6, 25)),
        edges=dice.sample(list(LipEdge), dice.choice([1, 1, 2])),
    ))  # fmt: skip


def a_bracket(*names: str) -> Option:
    """A bracket or more of them under a tier, as large as it falls out."""
    return one_more("brackets", lambda dice: Bracket(
        on=dice.choice(names),
        count=dice.choice([1, 2]),
        stock=dice.choice([None, a_stock(dice, 6, 22)]),
        reach=dice.choice([None, mm(dice.uniform(30, 100))]),
        height=dice.choice([None, mm(dice.uniform(25, 110))]),
        nose=mm(dice.uniform(6, 25)),
    ))  # fmt: skip


def a_tier_cleat(*names: str) -> Option:
    """A pair of cleats under a tier or all of them; those of a post are refused."""
    return one_more("tier_cleats", lambda dice: TierCleat(
        on=dice.choice(names),
        stock=dice.choice([None, a_stock(dice, 8, 26)]),
        height=dice.choice([None, mm(dice.uniform(16, 40))]),
        set_back=dice.choice([None, mm(dice.uniform(0, 25))]),
        screw=dice.choice([None, None, Screw(diameter="3.5 mm", length=mm(dice.uniform(15, 40)))]),
    ))  # fmt: skip


def a_cord(*names: str) -> Option:
    """A notch at a tier's edge for some cables."""
    return one_more("cord_notches", lambda dice: CordNotch(
        on=dice.choice(names),
        passes=Cable(diameter=mm(dice.uniform(3, 9)), count=dice.randint(1, 3)),
        edge=dice.choice(list(TierEdge)),
        from_corner=dice.choice([None, mm(dice.uniform(10, 120))]),
    ))  # fmt: skip


def a_clip(*names: str) -> Option:
    """A clip for a cord under a tier, screwed or stuck on."""

    def option(dice: random.Random, figures: Figures) -> Figures:
        screw = Screw(diameter=mm(dice.uniform(2, 2.5)), length=mm(dice.uniform(4, 8)))
        clip = CordClip(
            on=dice.choice(names),
            edge=dice.choice(list(TierEdge)),
            length=mm(dice.uniform(8, 20)),
            from_corner=dice.choice([None, mm(dice.uniform(10, 120))]),
            screw=dice.choice([None, screw, screw]),
        )
        return more(figures, "cord_clips", clip)

    return option


def a_back(dice: random.Random, _: Figures) -> Figures:
    """A back between uprights, a sheet or solid."""
    sheet = Stock(name="ply, 6", species="birch plywood 6 mm", thickness=mm(dice.uniform(5.8, 6.3)))
    given: Figures = {"stock": dice.choice([sheet, a_stock(dice, 4, 8)])}
    given["grain"] = dice.choice(list(PanelGrain))
    given["let_in"] = dice.choice([None, None, mm(dice.uniform(5, 9))])
    return {"back_panel": BackPanel(**given)}


def a_back_on_the_post(dice: random.Random, figures: Figures) -> Figures:
    """A back over the back rail, or over the board behind the post."""
    given: Figures = {"stock": a_stock(dice, 4, 16)}
    given["width"] = dice.choice([None, mm(dice.uniform(100, 300))])
    given["fixing"] = dice.choice([None, *BackFixing])
    railed = {} if "foot" in figures else {"back_rail": BackRail()}
    return {"back_panel": BackPanel(**given), "dowels": None, **railed}


def strips(dice: random.Random, _: Figures) -> Figures:
    return {"post_strips": PostStrips(count=dice.randint(2, 3))}


def even_steps(count: int) -> Option:
    """Tiers by one rule: each steps back from the last by as much."""

    def option(dice: random.Random, figures: Figures) -> Figures:
        width = None if "uprights" in figures else mm(dice.uniform(170, 250))
        rise = None if figures.get("overall_height") else mm(dice.uniform(80, 140))
        steps = TierRule(
            count=count,
            width=width,
            depth=mm(dice.uniform(90, 170)),
            rise=rise,
            step_back_width=mm(0.0 if width is None else dice.uniform(0, 20)),
            step_back_depth=mm(dice.uniform(0, 15)),
        )
        return {"tiers": steps}

    return option


def fits(dice: random.Random, _: Figures) -> Figures:
    """How deep the dados are, and how tight; of a box, how wide the lid's rabbet is."""
    return {
        "dado_depth": mm(dice.uniform(5, 9)),
        "fit": dice.choice([SLIP, EASY]),
        "fit_clearance": dice.choice([None, mm(dice.uniform(0.0, 0.3))]),
    }


def tenon(dice: random.Random, _: Figures) -> Figures:
    """How deep the tenons of a post or of uprights go into their foot board."""
    return {"tenon": mm(dice.uniform(4, 17))}


def back_rail(dice: random.Random, _: Figures) -> Figures:
    return {"back_rail": BackRail(let_in=dice.choice(["0 mm", "4 mm"]))}
