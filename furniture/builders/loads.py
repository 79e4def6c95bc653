"""What stands on a piece, as a maker states it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from difflib import get_close_matches

from furniture.builders.rules import listed
from furniture.pieces import StandingLoad
from furniture.units import Given, Reader, parameters


@parameters
class Load:
    """Something that stands on the piece.

    Args:
        on: the instance that it stands on, such as `tier 2` or `lid`.
        mass: such as `0.9 kg`.
        footprint: width by depth.
        centre_height: of its centre of mass above what it stands on.
        name: what it is.
    """

    on: str = ""
    mass: Given | None = None
    footprint: tuple[Given, Given] | None = None
    centre_height: Given | None = None
    name: str = "load"


def read_loads(reader: Reader, loads: object, surfaces: Sequence[str]) -> tuple[StandingLoad, ...]:
    """The loads with their figures read; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        loads: several `Load`.
        surfaces: the instances that carry loads.
    """
    found = []
    for index, load in enumerate(listed(reader, "loads", loads, Load, "Load(...)")):
        where = f"loads[{index}]"
        if not isinstance(load, Load):
            why = "it says what stands where"
            reader.refuse(where, repr(load), "a Load", why, "write Load(...)")
            continue
        reader.names(f"{where}.", load)
        if load.on not in surfaces:
            reader.refuse(
                f"{where}.on",
                repr(load.on),
                ", ".join(surfaces),
                "a load stands on a level surface of the piece",
                f"write {_nearest(str(load.on), surfaces)!r}",
            )
        found.append(
            StandingLoad(
                on=str(load.on),
                mass_kg=reader.mass(f"{where}.mass", load.mass),
                footprint_mm=read_footprint(reader, f"{where}.footprint", load.footprint),
                centre_height_mm=reader.length(
                    f"{where}.centre_height",
                    load.centre_height,
                    at_least=0.0,
                    at_most=2000.0,
                    why="the centre of mass lies above what the load stands on",
                ),
                name=str(load.name),
            )
        )
    return tuple(found)


def read_footprint(reader: Reader, parameter: str, given: object) -> tuple[float, float]:
    """Width and depth [mm]; problems are noted with the reader."""
    if not isinstance(given, (tuple, list)) or len(given) != 2:
        reader.refuse(
            parameter,
            "nothing" if given is None else repr(given),
            "width and depth",
            "how far it can stand from an edge depends on its size",
            "write ('120 mm', '120 mm')",
        )
        return (math.nan, math.nan)
    width, depth = (
        reader.length(
            f"{parameter}[{side}]", each, at_least=1.0, at_most=2000.0, why="it has a size"
        )
        for side, each in enumerate(given)
    )
    return (width, depth)


def _nearest(name: str, names: Sequence[str]) -> str:
    """The name that was most likely meant; the first where none is like it."""
    return next(iter(get_close_matches(name, names, n=1)), names[0])
