"""Ballast inside the box: a weight that stays where it is put."""

from __future__ import annotations

from furniture.builders.base_box import BoxFigures
from furniture.builders.rules import at_most_known
from furniture.pieces import Bought, FixedBody
from furniture.units import Given, Reader, Shown, figure, parameters


@parameters
class Ballast:
    """A weight fixed on the bottom of the box; the piece needs a bottom.

    Args:
        mass: such as `1.5 kg`.
        size: width, depth and height.
        from_left: of its middle, from the box's outside; in the middle when left out.
        from_front: of its middle, from the box's outside; as far back as it goes when left out.
        name: what it is.
    """

    mass: Given | None = None
    size: tuple[Given, Given, Given] = ("100 mm", "50 mm", "20 mm")
    from_left: Given | None = None
    from_front: Given | None = None
    name: str = "ballast"


def ballast_bought(body: FixedBody, shown: Shown) -> Bought:
    """The weight as a thing to find or buy."""
    size = " x ".join(figure(each, shown) for each in body.size_mm)
    return Bought(
        name=body.name,
        quantity=1,
        where=("bottom",),
        note=f"{body.mass_kg:.3g} kg, no larger than {size} {shown.unit.symbol}",
    )


def read_ballast(
    reader: Reader, given: object, box: BoxFigures, bottom_thickness: float, free_depth: float
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
        reader.refuse("ballast", repr(given), "Ballast(...)", why, "write Ballast(mass='1 kg')")
        return None
    reader.names("ballast.", given)
    if bottom_thickness == 0.0:
        reader.refuse(
            "bottom", "nothing", "a Stock", "ballast lies on the bottom of the box",
            "give the bottom a stock, or leave the ballast out",
        )  # fmt: skip
    mass = reader.mass("ballast.mass", given.mass)
    if not isinstance(given.size, (tuple, list)) or len(given.size) != 3:
        reader.refuse(
            "ballast.size", repr(given.size), "width, depth and height", "it must go into the box",
            "write ({})".format(
                ", ".join(f"'{reader.least(side)}'" for side in (100.0, 50.0, 20.0))
            ),
        )  # fmt: skip
        return None
    rail, floor = box.rail, bottom_thickness
    room = (box.width - 2 * rail, free_depth - rail, box.rabbet_floor - floor)
    width, depth, height = (
        reader.length(
            f"ballast.size[{axis}]",
            each,
            at_least=5.0,
            at_most=at_most_known(room[axis]),
            why="it goes into the box, under the lid and clear of what stands there",
        )
        for axis, each in enumerate(given.size)
    )
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
        name=str(given.name),
        on="bottom",
        mass_kg=mass,
        centre_mm=(x, y, floor + height / 2),
        size_mm=(width, depth, height),
    )
