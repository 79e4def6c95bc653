"""What is put to a lopsided design: an option at a time, as the dice fall.

An option is given the design's figures so far and answers with those that it would change.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from furniture import (
    Air,
    Ballast,
    BottomFixing,
    Cable,
    Cleats,
    Dowels,
    EdgeProfile,
    Feet,
    Hardware,
    Key,
    Keys,
    LidFixing,
    Load,
    LoadKind,
    Opening,
    OpeningFor,
    OwnWood,
    PanelGrain,
    Plug,
    Prefinish,
    ProfileKind,
    Spline,
    Splines,
    Stock,
    TierLine,
    TierRule,
    Vent,
    VentKind,
    inches,
    millimetres,
)
from furniture.parts.faces import ALL_ARRISES

SPECIES = ("white oak", "walnut", "cherry", "beech", "ash", "hard maple")
Figures = dict[str, Any]
Option = Callable[[random.Random, Figures], Figures]


def mm(value: float) -> str:
    """A length as a maker writes it."""
    return f"{value:.2f} mm"


def a_stock(dice: random.Random, low: float, high: float) -> Stock:
    species, number = dice.choice(SPECIES), dice.randrange(10_000)
    thickness = dice.uniform(low, high)
    return Stock(
        # with a share of its thickness: of many stocks no two go by one name
        name=f"{species} {number}{1000 * thickness % 1000:03.0f}",
        species=species,
        thickness=mm(thickness),
        moisture=f"{dice.randint(6, 12)} %",
    )


def _like(dice: random.Random, stock: Stock, by: float) -> Stock:
    """Another stock about as thick [mm]."""
    thick = float(str(stock.thickness).removesuffix(" mm"))
    return a_stock(dice, thick - by, thick + by)


def shown(dice: random.Random, _: Figures) -> Figures:
    return {"shown": dice.choice([inches(64), inches(32), millimetres(0.05), millimetres(1.0)])}


def rough(dice: random.Random, _: Figures) -> Figures:
    return {"rough_length": mm(dice.uniform(0, 30)), "rough_width": mm(dice.uniform(0, 8))}


def more(figures: Figures, name: str, *entries: object) -> Figures:
    return {name: [*figures.get(name, ()), *entries]}


def one_more(name: str, draw: Callable[[random.Random], object]) -> Option:
    """One more entry of a parameter that lists several."""
    return lambda dice, figures: more(figures, name, draw(dice))


def an_opening(*names: str) -> Option:
    return one_more("openings", lambda dice: Opening(
        on=dice.choice(names),
        size=mm(dice.uniform(6, 16)),
        from_left=dice.choice([None, mm(dice.uniform(20, 120))]),
        from_edge=dice.choice([None, mm(dice.uniform(15, 60))]),
        flange=dice.choice([None, None, "20 mm"]),
        purpose=dice.choice([OpeningFor.CABLE, OpeningFor.CABLE, OpeningFor.AIR]),
    ))  # fmt: skip


def a_way_through(*names: str, levels: tuple[str, ...] = ()) -> Option:
    """An opening that says what must pass, and where it is by what it is between."""

    def option(dice: random.Random, figures: Figures) -> Figures:
        passes = dice.choice(
            [
                Plug(width=mm(dice.uniform(8, 40)), thickness=mm(dice.uniform(6, 16))),
                Cable(diameter=mm(dice.uniform(3, 8)), count=dice.randint(1, 7)),
                Air(area=f"{dice.uniform(0.3, 6):.2f} cm2"),
            ]
        )
        on = dice.choice(names)
        level = dice.sample(levels, 2) if len(levels) > 1 and on not in levels else None
        return more(figures, "openings", Opening(on=on, passes=passes, between=level))

    return option


def an_airy_row(*names: str) -> Option:
    return one_more("vents", lambda dice: Vent(
        on=dice.choice(names),
        kind=dice.choice(list(VentKind)),
        passes=Air(area=f"{dice.uniform(0.3, 8):.2f} cm2"),
        size=mm(dice.uniform(4, 9)),
        length=mm(dice.uniform(14, 30)),
        spacing=mm(dice.uniform(15, 25)),
    ))  # fmt: skip


def a_drain(*names: str) -> Option:
    return one_more("openings", lambda dice: Opening(
        on=dice.choice(names),
        size=mm(dice.uniform(5, 12)),
        from_edge=mm(dice.uniform(15, 50)),
        from_left=dice.choice([None, mm(dice.uniform(25, 90))]),
        purpose=OpeningFor.DRAIN,
    ))  # fmt: skip


def a_vent(*names: str) -> Option:
    return one_more("vents", lambda dice: Vent(
        on=dice.choice(names),
        kind=dice.choice(list(VentKind)),
        count=dice.randint(1, 4),
        size=mm(dice.uniform(4, 9)),
        length=mm(dice.uniform(14, 30)),
        spacing=mm(dice.uniform(15, 25)),
        from_left=dice.choice([None, mm(dice.uniform(40, 120))]),
        from_edge=dice.choice([None, mm(dice.uniform(20, 50))]),
    ))  # fmt: skip


def a_profile(*names: str) -> Option:
    def option(dice: random.Random, figures: Figures) -> Figures:
        edges = sorted(ALL_ARRISES, key=lambda each: each.name)
        profile = EdgeProfile(
            on=dice.choice(names),
            edges=dice.sample(edges, dice.choice([1, 1, 2])),
            kind=dice.choice(list(ProfileKind)),
            radius=mm(dice.uniform(1.0, 3.5)),
        )
        return more(figures, "profiles", profile)

    return option


def wood_of_ones_own(*names: str) -> Option:
    """A wood that no table has, of which its density alone is known or something besides."""

    def option(dice: random.Random, figures: Figures) -> Figures:
        known = dice.choice([{}, {}, {"stiffness": "11 GPa"}, {"tangential_shrinkage": "8 %"}])
        wood = OwnWood(name="mango", density=f"{dice.uniform(450, 800):.0f} kg/m3", **known)
        name = dice.choice([each for each in names if figures[each] is not None])
        usual = figures[name]
        return {name: replace(usual, name=f"mango {dice.randrange(1_000_000)}", species=wood)}

    return option


def a_sheet_for(*names: str) -> Option:
    """Plywood, board or hardboard, in what may be a sheet."""

    def option(dice: random.Random, figures: Figures) -> Figures:
        species, thick = dice.choice(
            [("birch plywood 6 mm", 6.4), ("MDF 9 mm", 9.0), ("hardboard 4 mm", 4.1),
             ("birch plywood 12 mm", 12.1)]
        )  # fmt: skip
        sheet = Stock(name=f"sheet {thick}", species=species, thickness=mm(thick))
        return {dice.choice(names): sheet}

    return option


def own_stock(usual: str, *names: str) -> Option:
    def option(dice: random.Random, figures: Figures) -> Figures:
        own = _like(dice, figures[usual] or figures["rails"], 0.3)
        return {"own_stock": {**figures.get("own_stock", {}), dice.choice(names): own}}

    return option


def grain(*names: str) -> Option:
    """The grain of something level from front to back, now and then twice."""

    def option(dice: random.Random, figures: Figures) -> Figures:
        own = {**figures.get("own_grain", {}), dice.choice(names): PanelGrain.ACROSS}
        return {"own_grain": own}

    return option


def feet(dice: random.Random, _: Figures) -> Figures:
    return {
        "feet": Feet(
            stock=a_stock(dice, 5, 12),
            length=mm(dice.uniform(15, 30)),
            width=mm(dice.uniform(15, 25)),
            inset=mm(dice.uniform(0.5, 3)),
        )
    }


def bottom(dice: random.Random, _: Figures) -> Figures:
    return {"bottom": a_stock(dice, 4, 9), "bottom_fixing": dice.choice(list(BottomFixing))}


def close_fits(dice: random.Random, figures: Figures) -> Figures:
    """What a box says of its rabbets and of what is planed off, all of it or some."""
    spans = {
        "flush_allowance": (0.0, 2.5),
        "rabbet_width": (4.3, 11.0),
        "bottom_gap": (0.1, 3.0),
        "lid_gap_along": (0.2, 2.0),
    }
    if figures.get("bottom") is None:
        del spans["bottom_gap"]
    names = dice.sample(sorted(spans), dice.randint(1, len(spans)))
    return {name: mm(dice.choice([spans[name][0], dice.uniform(*spans[name])])) for name in names}


def ballast(dice: random.Random, figures: Figures) -> Figures:
    size = (mm(dice.uniform(40, 90)), mm(dice.uniform(25, 50)), mm(dice.uniform(10, 20)))
    return {
        "bottom": figures.get("bottom") or a_stock(dice, 5, 9),
        "ballast": Ballast(mass=f"{dice.uniform(0.05, 0.3):.2f} kg", size=size),
    }


def cleats(dice: random.Random, _: Figures) -> Figures:
    cleats = dice.choice([None, Cleats(stock=a_stock(dice, 8, 14), width=mm(dice.uniform(15, 20)))])
    return {"lid_fixing": LidFixing.CLEATS, "cleats": cleats}


def glued_lid(_: random.Random, __: Figures) -> Figures:
    return {"lid_fixing": LidFixing.GLUED}


def open_above(dice: random.Random, figures: Figures) -> Figures:
    """No lid; a box then has a bottom, a stand may have one or be a plinth."""
    bottom = figures.get("bottom") or a_stock(dice, 5, 9)
    given: Figures = {"lid_fixing": LidFixing.NONE, "lid_gap_across": None, "cleats": None}
    if "thick" in figures:
        return {**given, "bottom": dice.choice([figures.get("bottom"), bottom])}
    return {**given, "lid": None, "bottom": bottom}


def prefinish(dice: random.Random, _: Figures) -> Figures:
    return {"prefinish": Prefinish(coats=dice.randint(1, 3), film="0.02 mm")}


def hardware(*names: str) -> Option:
    return one_more("hardware", lambda dice: Hardware(
        name="felt pad", quantity=dice.randint(1, 4), on=dice.choice(names)
    ))  # fmt: skip


def a_load(*names: str) -> Option:
    return one_more("loads", lambda dice: Load(
        on=dice.choice(names),
        mass=f"{dice.uniform(0.2, 3):.2f} kg",
        footprint=(mm(dice.uniform(40, 90)), mm(dice.uniform(40, 60))),
        centre_height=mm(dice.uniform(20, 90)),
        name=dice.choice(["pot", "tin", "jug"]),
        kind=dice.choice([LoadKind.STAYS, LoadKind.STAYS, LoadKind.COMES_AND_GOES]),
    ))  # fmt: skip


def a_person(*names: str) -> Option:
    """Who steps or sits on something, whatever it bears."""
    return one_more("loads", lambda dice: Load(
        on=dice.choice(names),
        mass=f"{dice.uniform(20, 90):.1f} kg",
        footprint=("120 mm", "90 mm"),
        centre_height="900 mm",
        name="person",
        kind=dice.choice([LoadKind.PERSON_STANDING, LoadKind.PERSON_SITTING]),
    ))  # fmt: skip


SIDES = ("left side rail", "right side rail")


def common(rails: str, panels: str, *others: str) -> list[Option]:
    carriers = ("lid", *(name for name in others if name.startswith("tier")))
    return [
        an_opening(*SIDES),
        an_opening("front rail", *SIDES, *others),
        a_vent(*SIDES),
        a_way_through("front rail", *SIDES, *others),
        an_airy_row("front rail", *SIDES),
        a_vent("front rail", "lid"),
        a_profile(*SIDES),
        a_profile("front rail", "lid", *others),
        own_stock(rails, *SIDES),
        own_stock(panels, *carriers),
        a_drain(*carriers),
        wood_of_ones_own(rails, panels), a_sheet_for("bottom", panels),
        feet, bottom, ballast, cleats, glued_lid, open_above, prefinish, rough, shown,
        hardware("lid", *SIDES),
        a_load(*carriers),
        a_load(*carriers),
        grain(*carriers, *carriers, "bottom"), grain(*carriers),
    ]  # fmt: skip


def overall(dice: random.Random, figures: Figures) -> Figures:
    """As high and as deep as one says, some tiers taking what the others leave."""
    if isinstance(figures["tiers"], (TierLine, TierRule)):
        return {
            "tiers": replace(figures["tiers"], rise=None),
            "overall_height": mm(dice.uniform(250, 700)),
            "overall_depth": dice.choice([None, mm(dice.uniform(180, 300))]),
        }
    left = dice.sample(range(len(figures["tiers"])), dice.randint(1, len(figures["tiers"])))
    tiers = [
        replace(tier, rise=None, depth=None if index == min(left) else tier.depth)
        if index in left
        else tier
        for index, tier in enumerate(figures["tiers"])
    ]
    return {
        "tiers": tiers,
        "base_depth": dice.choice([None, figures["base_depth"]]),
        "overall_height": mm(dice.uniform(250, 700)),
        "overall_depth": mm(dice.uniform(180, 300)),
    }


def on_a_line(count: int) -> Option:
    """Tiers whose edges lie on straight lines, instead of each its own."""

    def option(dice: random.Random, figures: Figures) -> Figures:
        width = None if "uprights" in figures else mm(dice.uniform(115, 250))
        rise = None if figures.get("overall_height") else mm(dice.uniform(80, 140))
        return {
            "tiers": TierLine(
                count=count,
                top_width=width,
                top_depth=mm(dice.uniform(40, 170)),
                rise=rise,
                rise_change=mm(dice.uniform(-8, 8)),
            )
        }

    return option


def dowels(dice: random.Random, _: Figures) -> Figures:
    return {"dowels": Dowels(count=dice.choice([1, 2]), diameter=dice.choice(["6 mm", "8 mm"]))}


def a_key(dice: random.Random, figures: Figures) -> Figures:
    made = Key(
        name=f"key {len(figures.get('corner_parts', ())) + 1}",
        stock=a_stock(dice, 2.5, 4),
        between=(dice.choice(["front rail", "back rail"]), dice.choice(SIDES)),
        depth=mm(dice.uniform(6, 12)),
        start=mm(dice.uniform(12, 40)),
    )
    return more(figures, "corner_parts", made)


def a_spline(dice: random.Random, figures: Figures) -> Figures:
    made = Spline(
        name=f"spline {len(figures.get('corner_parts', ())) + 1}",
        stock=a_stock(dice, 2.5, 4),
        between=(dice.choice(["front rail", "back rail"]), dice.choice(SIDES)),
        into_each=mm(dice.uniform(4, 6)),
        from_long_point=mm(dice.uniform(11, 15)),
        width=mm(dice.uniform(20, 30)),
        start=mm(dice.choice([14.0, 20.0])),
    )
    return more(figures, "corner_parts", made)


def all_corners(dice: random.Random, figures: Figures) -> Figures:
    stock = a_stock(dice, 2, 4.5)
    every = dice.choice([Splines(stock=stock), Keys(stock=stock, count=dice.randint(1, 3))])
    return more(figures, "corner_parts", every)
