"""Lopsided designs from seeds: stands, boxes and own pieces with unlike left and right.

A design is drawn sound first, then options are put to it one by one: one that is refused is left
out, and its refusal kept, so that refusals are tried on as many designs as acceptances.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from furniture import (
    Against,
    At,
    BackRail,
    Ballast,
    Bore,
    BottomFixing,
    ButtJoint,
    Cleats,
    Composition,
    CuttingWishes,
    DadoEnds,
    DadoJoint,
    DesignError,
    Dowels,
    EdgeProfile,
    Face,
    Feet,
    FingerHold,
    FlushWith,
    Hardware,
    Key,
    LidFixing,
    Lip,
    Load,
    MeasuredBoard,
    MitredBox,
    Opening,
    OpeningFor,
    PlacedPart,
    PostStrips,
    Prefinish,
    ProfileKind,
    Spline,
    SteppedStand,
    Stock,
    Tier,
    Uprights,
    Vent,
    VentKind,
    Way,
    cut,
    inches,
    join,
    millimetres,
)
from furniture.builders.edges import ALL_ARRISES
from furniture.builders.lips import LipEdge
from furniture.pieces import Piece, timbers_of

SPECIES = ("white oak", "walnut", "cherry", "beech", "ash", "hard maple")
Figures = dict[str, Any]
Option = Callable[[random.Random, Figures], Figures]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A design that builds, its piece, what it refused on the way, and boards to cut it from."""

    make: type
    figures: Mapping[str, Any]
    piece: Piece
    refused: tuple[tuple[Figures, DesignError], ...]
    boards: tuple[MeasuredBoard, ...]
    wishes: CuttingWishes


def drawn(seed: int) -> Drawn:
    """The design of a seed: kinds take turns, options are as the dice fall."""
    dice = random.Random(seed)
    make, base, options = _KINDS[seed % len(_KINDS)](dice)
    figures = dict(base)
    piece = make(**figures).build()
    refused: list[tuple[Figures, DesignError]] = []
    for option in dice.sample(options, min(len(options), dice.randint(3, 9))):
        tried = {**figures, **option(dice, figures)}
        try:
            piece = make(**tried).build()
        except DesignError as error:
            refused.append((tried, error))
        else:
            figures = tried
    return Drawn(
        make=make,
        figures=figures,
        piece=piece,
        refused=tuple(refused),
        boards=_boards(dice, piece),
        wishes=CuttingWishes(rounds=1, seconds=30.0),
    )


def overloaded(design: Drawn) -> Piece:
    """The same design with 300 kg on the narrowest thing that carries: a planted hazard."""
    surface = min(
        design.piece.surfaces, key=lambda each: (each.high[1] - each.low[1], each.instance)
    )
    width, depth = (surface.high[axis] - surface.low[axis] for axis in (0, 1))
    load = Load(
        on=surface.instance,
        mass="300 kg",
        footprint=(mm(width / 3), mm(depth * 0.9)),
        centre_height="200 mm",
        name="anvils",
    )
    return design.make(**{**design.figures, "loads": [load]}).build()


def mm(value: float) -> str:
    """A length as a maker writes it."""
    return f"{value:.2f} mm"


def _stock(dice: random.Random, low: float, high: float) -> Stock:
    species, number = dice.choice(SPECIES), dice.randrange(10_000)
    return Stock(
        name=f"{species} {number}",
        species=species,
        thickness=mm(dice.uniform(low, high)),
        moisture=f"{dice.randint(6, 12)} %",
    )


def _like(dice: random.Random, stock: Stock, by: float) -> Stock:
    """Another stock about as thick [mm]."""
    thick = float(str(stock.thickness).removesuffix(" mm"))
    return _stock(dice, thick - by, thick + by)


def _shown(dice: random.Random, _: Figures) -> Figures:
    return {"shown": dice.choice([inches(64), inches(32), millimetres(0.05), millimetres(1.0)])}


def _rough(dice: random.Random, _: Figures) -> Figures:
    return {"rough_length": mm(dice.uniform(0, 30)), "rough_width": mm(dice.uniform(0, 8))}


def _more(figures: Figures, name: str, *entries: object) -> Figures:
    return {name: [*figures.get(name, ()), *entries]}


def _an_opening(*names: str) -> Option:
    def option(dice: random.Random, figures: Figures) -> Figures:
        opening = Opening(
            on=dice.choice(names),
            size=mm(dice.uniform(6, 16)),
            from_left=dice.choice([None, mm(dice.uniform(20, 120))]),
            from_edge=dice.choice([None, mm(dice.uniform(15, 60))]),
            flange=dice.choice([None, None, "20 mm"]),
            purpose=dice.choice([OpeningFor.CABLE, OpeningFor.CABLE, OpeningFor.AIR]),
        )
        return _more(figures, "openings", opening)

    return option


def _a_drain(*names: str) -> Option:
    def option(dice: random.Random, figures: Figures) -> Figures:
        drain = Opening(
            on=dice.choice(names),
            size=mm(dice.uniform(5, 12)),
            from_edge=mm(dice.uniform(15, 50)),
            from_left=dice.choice([None, mm(dice.uniform(25, 90))]),
            purpose=OpeningFor.DRAIN,
        )
        return _more(figures, "openings", drain)

    return option


def _a_vent(*names: str) -> Option:
    def option(dice: random.Random, figures: Figures) -> Figures:
        vent = Vent(
            on=dice.choice(names),
            kind=dice.choice(list(VentKind)),
            count=dice.randint(1, 4),
            size=mm(dice.uniform(4, 9)),
            length=mm(dice.uniform(14, 30)),
            spacing=mm(dice.uniform(15, 25)),
            from_left=dice.choice([None, mm(dice.uniform(40, 120))]),
            from_edge=dice.choice([None, mm(dice.uniform(20, 50))]),
        )
        return _more(figures, "vents", vent)

    return option


def _a_profile(*names: str) -> Option:
    def option(dice: random.Random, figures: Figures) -> Figures:
        edges = sorted(ALL_ARRISES, key=lambda each: each.name)
        profile = EdgeProfile(
            on=dice.choice(names),
            edges=dice.sample(edges, dice.choice([1, 1, 2])),
            kind=dice.choice(list(ProfileKind)),
            radius=mm(dice.uniform(1.0, 3.5)),
        )
        return _more(figures, "profiles", profile)

    return option


def _own_stock(usual: str, *names: str) -> Option:
    def option(dice: random.Random, figures: Figures) -> Figures:
        own = _like(dice, figures[usual], 0.3)
        return {"own_stock": {**figures.get("own_stock", {}), dice.choice(names): own}}

    return option


def _feet(dice: random.Random, _: Figures) -> Figures:
    return {
        "feet": Feet(
            stock=_stock(dice, 5, 12),
            length=mm(dice.uniform(15, 30)),
            width=mm(dice.uniform(15, 25)),
            inset=mm(dice.uniform(0.5, 3)),
        )
    }


def _bottom(dice: random.Random, _: Figures) -> Figures:
    return {"bottom": _stock(dice, 4, 9), "bottom_fixing": dice.choice(list(BottomFixing))}


def _ballast(dice: random.Random, figures: Figures) -> Figures:
    size = (mm(dice.uniform(40, 90)), mm(dice.uniform(25, 50)), mm(dice.uniform(10, 20)))
    return {
        "bottom": figures.get("bottom") or _stock(dice, 5, 9),
        "ballast": Ballast(mass=f"{dice.uniform(0.05, 0.3):.2f} kg", size=size),
    }


def _cleats(dice: random.Random, _: Figures) -> Figures:
    cleats = dice.choice([None, Cleats(stock=_stock(dice, 8, 14), width=mm(dice.uniform(15, 20)))])
    return {"lid_fixing": LidFixing.CLEATS, "cleats": cleats}


def _glued_lid(_: random.Random, __: Figures) -> Figures:
    return {"lid_fixing": LidFixing.GLUED}


def _prefinish(dice: random.Random, _: Figures) -> Figures:
    return {"prefinish": Prefinish(coats=dice.randint(1, 3), film="0.02 mm")}


def _hardware(*names: str) -> Option:
    def option(dice: random.Random, figures: Figures) -> Figures:
        thing = Hardware(name="felt pad", quantity=dice.randint(1, 4), on=dice.choice(names))
        return _more(figures, "hardware", thing)

    return option


def _a_load(*names: str) -> Option:
    def option(dice: random.Random, figures: Figures) -> Figures:
        load = Load(
            on=dice.choice(names),
            mass=f"{dice.uniform(0.2, 3):.2f} kg",
            footprint=(mm(dice.uniform(40, 90)), mm(dice.uniform(40, 60))),
            centre_height=mm(dice.uniform(20, 90)),
            name=dice.choice(["pot", "tin", "jug"]),
        )
        return _more(figures, "loads", load)

    return option


_SIDES = ("left side rail", "right side rail")


def _common(rails: str, panels: str, *others: str) -> list[Option]:
    carriers = ("lid", *(name for name in others if name.startswith("tier")))
    return [
        _an_opening(*_SIDES),
        _an_opening("front rail", *_SIDES, *others),
        _a_vent(*_SIDES),
        _a_vent("front rail", "lid"),
        _a_profile(*_SIDES),
        _a_profile("front rail", "lid", *others),
        _own_stock(rails, *_SIDES),
        _own_stock(panels, *carriers),
        _a_drain(*carriers),
        _feet, _bottom, _ballast, _cleats, _glued_lid, _prefinish, _rough, _shown,
        _hardware("lid", *_SIDES),
        _a_load(*carriers),
        _a_load(*carriers),
    ]  # fmt: skip


Kind = tuple[type, Figures, list[Option]]


def _tiers(dice: random.Random, deepest: float, widest: float | None) -> tuple[Tier, ...]:
    """Tiers of unlike sizes, each about as deep as the last or less [mm]."""
    found = []
    for _ in range(dice.randint(1, 4)):
        found.append(
            Tier(
                width=None if widest is None else mm(widest),
                depth=mm(deepest),
                rise=mm(dice.uniform(70, 150)),
            )
        )
        deepest -= dice.uniform(0, 12)
        widest = None if widest is None else widest - dice.uniform(0, 15)
    return tuple(found)


def _base(dice: random.Random) -> Figures:
    thick, thin = _stock(dice, 15, 24), _stock(dice, 7, 13)
    return {
        "thick": thick,
        "thin": thin,
        "base_width": mm(dice.uniform(280, 480)),
        "base_depth": mm(dice.uniform(190, 300)),
        "base_height": mm(dice.uniform(75, 130)),
        "post_proud": mm(dice.choice([0.0, 21.3])),
        "lid_gap_across": mm(dice.uniform(0.6, 1.2)),
    }


def _post_stand(dice: random.Random) -> Kind:
    base = _base(dice)
    base["post_width"] = mm(dice.uniform(70, 110))
    base["tiers"] = _tiers(dice, dice.uniform(90, 140), dice.uniform(170, 260))
    names = tuple(f"tier {n + 1}" for n in range(len(base["tiers"])))

    def strips(dice: random.Random, _: Figures) -> Figures:
        return {"post_strips": PostStrips(count=dice.randint(2, 3))}

    def back_rail(dice: random.Random, _: Figures) -> Figures:
        return {"back_rail": BackRail(let_in=dice.choice(["0 mm", "4 mm"]))}

    def dowels(dice: random.Random, _: Figures) -> Figures:
        return {"dowels": Dowels(count=dice.choice([1, 2]), diameter=dice.choice(["6 mm", "8 mm"]))}

    rest = [
        *_common("thick", "thin", "post", *names),
        strips, back_rail, dowels, _a_lip(*names), _a_lip(*names),
    ]  # fmt: skip
    return SteppedStand, base, rest


def _a_lip(*names: str) -> Option:
    def option(dice: random.Random, figures: Figures) -> Figures:
        lip = Lip(
            on=dice.choice(names),
            stock=dice.choice([None, _stock(dice, 4, 7)]),
            height=mm(dice.uniform(6, 25)),
            edges=dice.sample(list(LipEdge), dice.choice([1, 1, 2])),
        )
        return _more(figures, "lips", lip)

    return option


def _upright_stand(dice: random.Random) -> Kind:
    base = _base(dice)
    depth = dice.uniform(90, 125)
    base["uprights"] = Uprights(
        depth=mm(depth),
        dado_ends=dice.choice(list(DadoEnds)),
        stop=mm(dice.uniform(8, 20)),
        bit_radius=mm(dice.choice([0.0, 3.0])),
    )
    base["tiers"] = _tiers(dice, depth + dice.uniform(40, 60), None)
    names = tuple(f"tier {n + 1}" for n in range(len(base["tiers"])))
    uprights = ("left upright", "right upright")
    rest = [
        *_common("thick", "thin", *uprights, *names),
        _own_stock("thick", *uprights),
        _a_lip(*names),
    ]
    return SteppedStand, base, rest


def _box(dice: random.Random) -> Kind:
    base: Figures = {
        "rails": _stock(dice, 12, 22),
        "lid": _stock(dice, 5, 11),
        "width": mm(dice.uniform(180, 420)),
        "depth": mm(dice.uniform(150, 300)),
        "height": mm(dice.uniform(70, 130)),
        "lid_gap_across": mm(dice.uniform(0.6, 1.2)),
    }

    def key(dice: random.Random, figures: Figures) -> Figures:
        made = Key(
            name=f"key {len(figures.get('corner_parts', ())) + 1}",
            stock=_stock(dice, 2.5, 4),
            between=(dice.choice(["front rail", "back rail"]), dice.choice(_SIDES)),
            depth=mm(dice.uniform(6, 12)),
            start=mm(dice.uniform(12, 40)),
        )
        return _more(figures, "corner_parts", made)

    def spline(dice: random.Random, figures: Figures) -> Figures:
        made = Spline(
            name=f"spline {len(figures.get('corner_parts', ())) + 1}",
            stock=_stock(dice, 2.5, 4),
            between=(dice.choice(["front rail", "back rail"]), dice.choice(_SIDES)),
            into_each=mm(dice.uniform(4, 6)),
            from_long_point=mm(dice.uniform(11, 15)),
            width=mm(dice.uniform(20, 30)),
            start=mm(dice.choice([14.0, 20.0])),
        )
        return _more(figures, "corner_parts", made)

    def finger(dice: random.Random, _: Figures) -> Figures:
        return {"finger_hold": dice.choice(list(FingerHold)), "finger_size": mm(18.3)}

    rest = [*_common("rails", "lid", "back rail"), key, key, spline, spline, finger]
    return MitredBox, base, rest


def _own_piece(dice: random.Random) -> Kind:
    """Shelves let into two unlike sides, a rail butted between them, bores in one side only."""
    height, depth, inner = (dice.uniform(*span) for span in ((200, 400), (90, 160), (200, 450)))
    let_in = 4.0
    sides = [_stock(dice, 16, 22), _stock(dice, 16, 22)]
    first, second = dice.choice([("left side", "right side"), ("post a", "post b"), ("A", "z 9")])
    bores = [
        cut(
            Bore,
            face=Face.FACE_SIDE,
            x=mm(dice.uniform(25, 60)),
            y=mm(dice.uniform(20, depth - 20)),
            diameter=mm(dice.uniform(5, 12)),
            purpose=dice.choice([None, OpeningFor.CABLE]),
        )
        for _ in range(dice.randint(0, 2))
    ]
    parts = [
        PlacedPart(name=first, stock=sides[0], length=mm(height), width=mm(depth),
                   face_side=Way.LEFT, grain=Way.UP, cuts=bores),
        PlacedPart(name=second, stock=sides[1], length=mm(height + dice.choice([0.0, 30.0])),
                   width=mm(depth), face_side=Way.RIGHT, grain=Way.UP,
                   places=[Against(side=Way.RIGHT, gap=mm(inner)), FlushWith(side=Way.FRONT),
                           FlushWith(side=Way.DOWN)]),
    ]  # fmt: skip
    joints = []
    at, shelves = 80.0, []
    while at < height - 40 and len(shelves) < 3:
        name = f"shelf {len(shelves) + 1}"
        shelves.append(name)
        parts.append(
            PlacedPart(name=name, stock=_stock(dice, 11, 16), length=mm(inner + 2 * let_in),
                       width=mm(depth), face_side=Way.UP,
                       places=[Against(side=Way.RIGHT, let_in=mm(let_in)),
                               FlushWith(side=Way.FRONT), At(distance=mm(at), side=Way.DOWN)])
        )  # fmt: skip
        joints += [join(DadoJoint, name, into=side) for side in (first, second)]
        at += dice.uniform(70, 130)
    parts.append(
        PlacedPart(name="rail", stock=sides[0], length=mm(inner), width="50 mm",
                   face_side=Way.BACK, grain=Way.RIGHT,
                   places=[Against(side=Way.RIGHT), FlushWith(side=Way.BACK),
                           At(distance="5 mm", side=Way.DOWN)])
    )  # fmt: skip
    joints += [join(ButtJoint, "rail", into=side) for side in (first, second)]
    base: Figures = {"name": "own piece", "parts": parts, "joints": joints}
    rest: list[Option] = [
        _a_profile(first, second), _a_profile(*shelves, "rail"), _hardware(first, "rail"),
        _a_load(*shelves), _a_load(*shelves), _prefinish, _rough, _shown,
    ]  # fmt: skip
    return Composition, base, rest


def _boards(dice: random.Random, piece: Piece) -> tuple[MeasuredBoard, ...]:
    """Boards of every stock, of random sizes; not always enough of them."""
    found = []
    for number, timber in enumerate(timbers_of(piece)):
        for each in range(dice.randint(1, 2)):
            found.append(
                MeasuredBoard(
                    name=f"{number}{'ab'[each]}",
                    stock=timber.name,
                    length=mm(dice.uniform(500, 1800)),
                    widths=mm(dice.uniform(80, 260)),
                    thickness=mm(timber.thickness_mm),
                )
            )
    return tuple(found)


_KINDS: tuple[Callable[[random.Random], Kind], ...] = (
    _post_stand,
    _upright_stand,
    _box,
    _own_piece,
)
