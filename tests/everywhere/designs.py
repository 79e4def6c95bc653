"""Lopsided designs from seeds: stands, boxes and own pieces with unlike left and right.

A design is drawn sound first, then options are put to it one by one: one that is refused is left
out, and its refusal kept, so that refusals are tried on as many designs as acceptances.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from furniture import (
    Against,
    At,
    Bore,
    ButtJoint,
    Composition,
    CuttingWishes,
    DadoEnds,
    DadoJoint,
    DesignError,
    Face,
    FlushWith,
    FootedStand,
    Load,
    MeasuredBoard,
    MitredBox,
    OpeningFor,
    PlacedPart,
    SawSetUp,
    SteppedStand,
    Tier,
    Uprights,
    Way,
    cut,
    join,
)
from furniture.builders.tier_rules import counted_in
from furniture.pieces import Piece, timbers_of
from tests.everywhere.design_options import (
    Figures,
    Option,
    a_drain,
    a_key,
    a_load,
    a_person,
    a_profile,
    a_sheet_for,
    a_spline,
    a_stock,
    a_way_through,
    all_corners,
    an_opening,
    close_fits,
    common,
    dowels,
    grain,
    hardware,
    mm,
    on_a_line,
    overall,
    own_stock,
    prefinish,
    rough,
    shown,
    wood_of_ones_own,
)
from tests.everywhere.lid_options import a_flap, a_hung_lid, finger, hinged, slides
from tests.everywhere.stand_options import (
    a_back,
    a_back_on_the_post,
    a_bracket,
    a_clip,
    a_cord,
    a_lip,
    a_tier_cleat,
    back_rail,
    even_steps,
    fits,
    strips,
    tenon,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A design that builds, its piece, what it refused on the way, and boards to cut it from.

    Some boards are thicker than their stock, and `saw` may say how much is planed off at most.
    """

    make: type
    figures: Mapping[str, Any]
    piece: Piece
    refused: tuple[tuple[Figures, DesignError], ...]
    boards: tuple[MeasuredBoard, ...]
    wishes: CuttingWishes
    saw: SawSetUp


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
    for option in _later(seed, make, figures):
        tried = {**figures, **option}
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
        boards=_boards(dice, random.Random(f"how thick {seed}"), piece),
        saw=_saw(random.Random(f"how it is planed {seed}")),
        wishes=CuttingWishes(rounds=1, seconds=30.0),
    )


def _later(seed: int, make: type, figures: Figures) -> Iterator[Figures]:
    """Options with dice of their own, so that those of a seed fall as they fell before them."""
    opens = {SteppedStand: a_flap, Composition: a_hung_lid}.get(make)
    if opens is not None and seed % 5 == 0:
        yield opens(random.Random(f"it opens {seed}"), figures)
    dice = random.Random(f"cleats {seed}")
    if figures.get("uprights") and dice.random() < 0.6:
        names = [f"tier {n + 1}" for n in range(counted_in(figures["tiers"]) or 1)]
        yield a_tier_cleat("tiers", *names)(dice, figures)
    fine = {SteppedStand: close_fits, MitredBox: close_fits, FootedStand: tenon}.get(make)
    dice = random.Random(f"fine figures {seed}")
    if fine is not None and dice.random() < 0.7:
        yield fine(dice, figures)


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
    thick, thin = a_stock(dice, 15, 24), a_stock(dice, 7, 13)
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
    tier_count = len(base["tiers"])
    names = tuple(f"tier {n + 1}" for n in range(len(base["tiers"])))

    rest = [
        *common("thick", "thin", "post", *names),
        a_way_through("post", levels=("lid", *names)), on_a_line(tier_count),
        even_steps(tier_count), fits, a_person("lid", *names),
        strips, back_rail, a_back_on_the_post, dowels, overall, a_lip(*names), a_lip(*names),
        a_bracket(*names), a_bracket("tiers", *names), a_cord(*names),
        a_clip(*names),
    ]  # fmt: skip
    return SteppedStand, base, rest


def _footed_stand(dice: random.Random) -> Kind:
    """No box: a post tenoned into a foot board."""
    thick, thin = a_stock(dice, 15, 24), a_stock(dice, 7, 13)
    base: Figures = {
        "thick": thick,
        "thin": thin,
        "foot": dice.choice([None, a_stock(dice, 12, 30)]),
        "base_width": mm(dice.uniform(280, 420)),
        "base_depth": mm(dice.uniform(190, 300)),
        "behind_post": mm(dice.uniform(0, 50)),
        "post_width": mm(dice.uniform(60, 120)),
        "post_proud": mm(dice.choice([0.0, 21.3])),
        "tiers": _tiers(dice, dice.uniform(90, 140), dice.uniform(170, 260)),
    }
    if dice.random() < 0.4:
        return _footed_uprights(dice, base)
    names = tuple(f"tier {n + 1}" for n in range(len(base["tiers"])))
    rest = [
        an_opening("foot board", "post", *names), a_drain(*names), an_opening("foot board"),
        a_way_through("post", "foot board", levels=("foot board", *names)),
        a_profile("foot board", "post", *names), a_profile("foot board", *names),
        own_stock("thick", "post", "foot board"), own_stock("thin", *names),
        a_lip(*names), a_bracket(*names), a_bracket("tiers", *names), a_cord(*names),
        a_clip(*names),
        on_a_line(len(names)), overall, prefinish, rough, shown, hardware("foot board", "post"),
        a_back_on_the_post, an_opening("back panel"), even_steps(len(names)), fits,
        wood_of_ones_own("thick", "thin"), a_sheet_for("thin"), a_person("foot board", *names),
        a_load("foot board", *names), a_load(*names), grain("foot board", *names),
    ]  # fmt: skip
    return FootedStand, base, rest


def _footed_uprights(dice: random.Random, base: Figures) -> Kind:
    """The same with two uprights in the board."""
    depth = dice.uniform(90, 125)
    ends = dice.choice(list(DadoEnds))
    base = {
        **base,
        "post_width": None,
        "uprights": Uprights(depth=mm(depth), dado_ends=ends, stop=mm(dice.uniform(8, 20))),
        "beside_uprights": mm(dice.uniform(8, 40)),
        "tiers": _tiers(dice, depth + dice.uniform(40, 60), None),
    }
    names = tuple(f"tier {n + 1}" for n in range(len(base["tiers"])))
    uprights = ("left upright", "right upright")
    rest = [
        an_opening("foot board", *uprights, *names), a_drain(*names), an_opening("back panel"),
        a_way_through(*uprights, levels=names), a_profile("foot board", *uprights, *names),
        own_stock("thick", *uprights), own_stock("thin", *names), a_back, a_lip(*names),
        a_bracket(*names), a_bracket("tiers", *names), a_cord("tiers", *names),
        a_clip("tiers", *names), on_a_line(len(names)), overall, prefinish, rough, shown,
        grain("foot board", *names), a_load("foot board", *names), even_steps(len(names)), fits,
        wood_of_ones_own("thick", "thin"), a_sheet_for("thin"), a_person("foot board", *names),
    ]  # fmt: skip
    return FootedStand, base, rest


def _on_a_post(dice: random.Random) -> Kind:
    """A post in the back of a box, more often than one on a foot board."""
    return dice.choice([_post_stand, _post_stand, _footed_stand])(dice)


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
        *common("thick", "thin", *uprights, *names),
        own_stock("thick", *uprights),
        a_way_through(*uprights, levels=names),
        a_back,
        an_opening("back panel"),
        on_a_line(len(names)),
        even_steps(len(names)),
        fits,
        a_person("lid", *names),
        overall,
        a_lip(*names),
        a_bracket(*names),
        a_bracket("tiers", *names),
        a_cord("tiers", *names),
        a_clip("tiers", *names),
    ]
    return SteppedStand, base, rest


def _box(dice: random.Random) -> Kind:
    base: Figures = {
        "rails": a_stock(dice, 12, 22),
        "lid": a_stock(dice, 5, 11),
        "width": mm(dice.uniform(180, 420)),
        "depth": mm(dice.uniform(150, 300)),
        "height": mm(dice.uniform(70, 130)),
        "lid_gap_across": mm(dice.uniform(0.6, 1.2)),
    }

    rest = [
        *common("rails", "lid", "back rail"),
        slides,
        hinged,
        all_corners,
        a_key,
        a_key,
        a_spline,
        a_spline,
        finger,
    ]
    return MitredBox, base, rest


def _own_piece(dice: random.Random) -> Kind:
    """Shelves let into two unlike sides, a rail butted between them, bores in one side only."""
    height, depth, inner = (dice.uniform(*span) for span in ((200, 400), (90, 160), (200, 450)))
    let_in = 4.0
    sides = [a_stock(dice, 16, 22), a_stock(dice, 16, 22)]
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
            PlacedPart(name=name, stock=a_stock(dice, 11, 16), length=mm(inner + 2 * let_in),
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
        a_profile(first, second), a_profile(*shelves, "rail"), hardware(first, "rail"),
        a_load(*shelves), a_load(*shelves), prefinish, rough, shown,
    ]  # fmt: skip
    return Composition, base, rest


def _saw(dice: random.Random) -> SawSetUp:
    """A usual saw; every other time no more than so much is planed off a board."""
    return SawSetUp(most_planed=mm(dice.uniform(0.2, 3.0)) if dice.random() < 0.5 else None)


def _boards(dice: random.Random, thick: random.Random, piece: Piece) -> tuple[MeasuredBoard, ...]:
    """Boards of every stock, of random sizes; not always enough of them. The second is thicker."""
    found = []
    for number, timber in enumerate(timbers_of(piece)):
        for each in range(dice.randint(1, 2)):
            found.append(
                MeasuredBoard(
                    name=f"{number}{'ab'[each]}",
                    stock=timber.name,
                    length=mm(dice.uniform(500, 1800)),
                    widths=mm(dice.uniform(80, 260)),
                    thickness=mm(timber.thickness_mm + each * thick.uniform(0.0, 4.0)),
                )
            )
    return tuple(found)


_KINDS: tuple[Callable[[random.Random], Kind], ...] = (
    _on_a_post,
    _upright_stand,
    _box,
    _own_piece,
)
