"""Ballast inside the box: a weight that stays where it is put."""

from __future__ import annotations

import math

from furniture.builders.base_box import BoxFigures
from furniture.builders.rules import DesignReader, at_most_known
from furniture.pieces import Bought, FixedBody
from furniture.rules import Rules
from furniture.rules.building import LEAST_BALLAST_SIDE
from furniture.units import Amounts, Given, Shown, at_most_text, figure, parameters, said

LEAD_KG_MM3 = 11.34e-6
"""The densest of the usual ballast, lead [kg/mm3]. From memory: 11.34 g/cm3 at room temperature."""
STEEL_PLATES_KG_MM3 = 0.8 * 7.85e-6
"""Steel plates [kg/mm3]: steel 7.85 g/cm3 (from memory), a fifth of air between them (own rule)."""
USUAL_MM = (100.0, 50.0, 20.0)
Size = tuple[float, float, float]


@parameters
class Ballast:
    """A weight fixed on the bottom of the box; the piece needs a bottom.

    Args:
        mass: such as `1.5 kg`.
        size: width, depth and height (default: those of steel plates of that mass).
        from_left: middle of the weight, from the outside left of the box (default: in the middle).
        from_front: middle of the weight, from the outside front of the box (default: as far back as
            it goes).
        name: what it is.
    """

    mass: Given | None = None
    size: tuple[Given, Given, Given] | None = None
    from_left: Given | None = None
    from_front: Given | None = None
    name: str = "ballast"


def _room_about(low: float, high: float, middle: float) -> float:
    """How wide a thing between two walls may be about its middle, all of it where none is known."""
    return 2 * min(middle - low, high - middle) if low < middle < high else high - low


def _read_size(
    reader: DesignReader, given: object, mass: float, room: Size, about: Size
) -> Size | None:
    """Width, depth and height [mm] inside the room, and no smaller than lead of that mass.

    What is proposed goes into the room about the place where its middle is to lie.
    """
    if given is None:
        usual = block_of(mass, STEEL_PLATES_KG_MM3, about, reader.shown, reader.rules)
        if usual is None:
            _refuse_mass(reader, mass, STEEL_PLATES_KG_MM3, about, "of steel plates")
        return usual
    if not isinstance(given, (tuple, list)) or len(given) != 3:
        sides = ", ".join(f"'{reader.least(side)}'" for side in USUAL_MM)
        reader.refuse(
            "ballast.size", said(given), "width, depth and height", "it must go into the box",
            f"write ({sides})",
        )  # fmt: skip
        return None
    width, depth, height = (
        reader.length(
            f"ballast.size {('width', 'depth', 'height')[axis]}",
            each,
            at_least=reader.rules[LEAST_BALLAST_SIDE],
            at_most=at_most_known(room[axis]),
            why="it goes into the box, under the lid and clear of what stands there",
        )
        for axis, each in enumerate(given)
    )
    size = (width, depth, height)
    if mass > width * depth * height * LEAD_KG_MM3:
        _refuse_density(reader, size, mass, about)
    return size


def block_of(mass: float, density: float, room: Size, shown: Shown, rules: Rules) -> Size | None:
    """Sides of a block of so much, twice as wide as deep and low where the room lets it [mm].

    None where the room holds no such block; not-a-number where something is not known.

    Args:
        mass: [kg].
        density: [kg/mm3].
        room: width, depth and height of it [mm].
        shown: the unit in whose figures a shop measures it.
    """
    volume = mass / density
    if math.isnan(volume) or any(math.isnan(side) for side in room):
        return (math.nan, math.nan, math.nan)
    amounts = Amounts(shown=shown)
    widest, deepest, highest = _in_shop_figures(room, amounts)
    if min(widest, deepest, highest) < rules[LEAST_BALLAST_SIDE]:
        return None
    height = min(USUAL_MM[2], highest)
    depth = min(amounts.up(math.sqrt(volume / height / 2)), deepest)
    width = min(amounts.up(max(volume / height / depth, rules[LEAST_BALLAST_SIDE])), widest)
    depth = min(amounts.up(max(volume / height / width, rules[LEAST_BALLAST_SIDE])), deepest)
    height = max(height, amounts.up(volume / width / depth))
    return (width, depth, height) if height <= highest else None


def _in_shop_figures(room: Size, amounts: Amounts) -> Size:
    """The sides of a room as a rule in the shop shows them, rounded down [mm]."""
    width, depth, height = (max(0.0, amounts.down(side)) for side in room)
    return (width, depth, height)


def _refuse_density(reader: DesignReader, size: Size, mass: float, room: Size) -> None:
    """Note ballast of which so much does not go into its size, with a size that would do."""
    amounts = Amounts(shown=reader.shown)
    larger = block_of(mass, LEAD_KG_MM3, room, reader.shown, reader.rules)
    if larger is None:
        _refuse_mass(reader, mass, LEAD_KG_MM3, room, "even of lead")
        return
    if any(math.isnan(side) for side in larger):
        return
    sides = ", ".join(f"'{at_most_text(side, reader.shown)}'" for side in larger)
    reader.refuse(
        "ballast.size", " x ".join(amounts(side) for side in size),
        f"at least {amounts.volume(mass / LEAD_KG_MM3)}",
        f"the densest usual ballast is lead, and {amounts.mass(mass)} of it takes more room",
        f"write size=({sides}), or make its mass "
        f"{amounts.mass(amounts.mass_down(math.prod(size) * LEAD_KG_MM3))}",
    )  # fmt: skip


def _refuse_mass(reader: DesignReader, mass: float, density: float, room: Size, stuff: str) -> None:
    """Note ballast of which so much does not go into the box at all."""
    amounts = Amounts(shown=reader.shown)
    most = amounts.mass(amounts.mass_down(math.prod(_in_shop_figures(room, amounts)) * density))
    reader.refuse(
        "ballast.mass", amounts.mass(mass), f"at most {most}",
        f"no more goes into the box {stuff}", f"make it {most}",
    )  # fmt: skip


def _bought(name: str, mass: float, sides: Size, shown: Shown) -> Bought | None:
    """The weight as a thing to find or buy; None where a figure was refused."""
    if any(math.isnan(each) for each in (mass, *sides)):
        return None
    size = " x ".join(figure(each, shown) for each in sides)
    return Bought(
        name=name,
        quantity=1,
        where=("bottom",),
        note=f"{mass:.3g} kg, no larger than {size} {shown.unit.symbol}",
    )


def read_ballast(
    reader: DesignReader, given: object, box: BoxFigures, bottom_thickness: float, free_depth: float
) -> FixedBody | None:
    """The weight in its place; none when there is none; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: a `Ballast` or nothing.
        box: of the base.
        bottom_thickness: that it lies on, 0 for no bottom [mm].
        free_depth: how far back the box is free inside [mm].
    """
    if given is None:
        return None
    if not isinstance(given, Ballast):
        why = "it says what weighs the box down"
        reader.refuse("ballast", said(given), "Ballast(...)", why, "write Ballast(mass='1 kg')")
        return None
    reader.names("ballast.", given)
    if bottom_thickness == 0.0:
        reader.refuse(
            "bottom", "nothing", "a Stock", "ballast lies on the bottom of the box",
            "give the bottom a stock, or leave the ballast out",
        )  # fmt: skip
    mass = reader.mass("ballast.mass", given.mass)
    name = reader.text("ballast.name", given.name)
    rail, floor = box.rail, bottom_thickness
    room = (box.width - 2 * rail, free_depth - rail, box.ceiling - floor)
    about = (
        _room_about(rail, box.width - rail, reader.peek(given.from_left)),
        _room_about(rail, free_depth, reader.peek(given.from_front)),
        room[2],
    )
    size = _read_size(reader, given.size, mass, room, about)
    if size is None:
        return None
    width, depth, height = size
    x, y = box.width / 2, free_depth - depth / 2
    why = "the whole of it lies inside the box"
    if given.from_left is not None:
        x = reader.length(
            "ballast.from_left", given.from_left, at_least=rail + width / 2,
            at_most=at_most_known(box.width - rail - width / 2), why=why,
        )  # fmt: skip
    if given.from_front is not None:
        y = reader.length(
            "ballast.from_front", given.from_front, at_least=rail + depth / 2,
            at_most=at_most_known(free_depth - depth / 2), why=why,
        )  # fmt: skip
    return FixedBody(
        name=name or "ballast",
        on="bottom",
        mass_kg=mass,
        centre_mm=(x, y, floor + height / 2),
        size_mm=(width, depth, height),
        bought=_bought(name or "ballast", mass, (width, depth, height), reader.shown),
    )
