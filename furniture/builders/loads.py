"""What stands on a piece, as a maker states it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import ClassVar

from furniture.builders.rules import DesignReader, at_most_known
from furniture.pieces import LoadKind, StandingLoad, Surface
from furniture.units import Given, counted, parameters, said, word_remedy

_USUAL_FOOT_MM = 120.0


@parameters
class Load:
    """Something that stands on the piece.

    Args:
        on: the part that it stands on, such as `tier 2` or `lid`.
        mass: such as `0.9 kg`.
        footprint: width by depth.
        centre_height: of its centre of mass above what it stands on.
        name: what it is.
        kind: `LoadKind.COMES_AND_GOES` for a thing that is lifted off and put back: it bends wood
            while it is there and not in time; `PERSON_STANDING` or `PERSON_SITTING` where it is a
            person, who is judged by what steps and seats are tested with.
    """

    on: str = ""
    mass: Given | None = None
    footprint: tuple[Given, Given] | None = None
    centre_height: Given | None = None
    name: str = "load"
    kind: LoadKind = LoadKind.STAYS
    is_no_wood: ClassVar[bool] = True
    """None of its lengths is cut."""


def _each_of(on: object, groups: Mapping[str, tuple[str, ...]]) -> str:
    """What to write where several are named at once; nothing where they are not."""
    meant = groups.get(on, ()) if isinstance(on, str) else ()
    return f"write a Load for each, the first on={meant[0]!r}" if len(meant) > 1 else ""


def read_loads(
    reader: DesignReader,
    loads: object,
    surfaces: Sequence[str],
    sizes: Mapping[str, tuple[float, float]] | None = None,
    groups: Mapping[str, tuple[str, ...]] | None = None,
) -> tuple[StandingLoad, ...]:
    """The loads with their figures read; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        loads: several `Load`.
        surfaces: the instances that carry loads.
        sizes: width and depth of those that are known [mm]; no load is larger than what it
            stands on.
        groups: what names of several mean, each of which a load of its own stands on.
    """
    found = []
    for index, load in enumerate(reader.several("loads", loads, Load, "Load(...)")):
        where = counted("load", index, getattr(load, "name", None))
        if not isinstance(load, Load):
            why = "it says what stands where"
            reader.refuse(where, said(load), "a Load", why, "write Load(...) as help(Load) shows")
            continue
        reader.names(f"{where} ", load)
        if not surfaces:
            reader.refuse(
                f"{where} on", said(load.on), "no load", "nothing of this piece lies level",
                "write face_side=Way.UP in the part that it stands on, or leave the load out",
            )  # fmt: skip
        elif not isinstance(load.on, str) or load.on not in surfaces:
            reader.refuse(
                f"{where} on",
                said(load.on),
                ", ".join(surfaces),
                "a load stands on a level surface of the piece",
                _each_of(load.on, groups or {}) or word_remedy(load.on, surfaces),
            )
        found.append(
            StandingLoad(
                on=str(load.on),
                mass_kg=reader.mass(f"{where} mass", load.mass),
                footprint_mm=read_footprint(
                    reader, f"{where} footprint", load.footprint, (sizes or {}).get(str(load.on))
                ),
                centre_height_mm=reader.length(
                    f"{where} centre_height",
                    load.centre_height,
                    at_least=0.0,
                    at_most=2000.0,
                    why="the centre of mass lies above what the load stands on; estimate it",
                ),
                name=reader.text(f"{where} name", load.name) or "load",
                kind=reader.choice(f"{where} kind", load.kind, LoadKind, LoadKind.STAYS),
            )
        )
    return tuple(found)


def sizes_of(surfaces: Sequence[Surface]) -> dict[str, tuple[float, float]]:
    """Width and depth of the surfaces that carry loads, by instance [mm]."""
    return {
        each.instance: (each.high[0] - each.low[0], each.high[1] - each.low[1]) for each in surfaces
    }


def read_footprint(
    reader: DesignReader, parameter: str, given: object, room: tuple[float, float] | None = None
) -> tuple[float, float]:
    """Width and depth [mm], no larger than the room there is; problems are noted."""
    if not isinstance(given, (tuple, list)) or len(given) != 2:
        side = reader.least(_USUAL_FOOT_MM)
        reader.refuse(
            parameter,
            "nothing" if given is None else said(given),
            "width and depth",
            "how far it can stand from an edge depends on its size",
            f"write ('{side}', '{side}'), as it was measured",
        )
        return (math.nan, math.nan)
    most = (math.nan, math.nan) if room is None else room
    width, depth = (
        reader.length(
            f"{parameter} {('width', 'depth')[side]}",
            each,
            at_least=1.0,
            at_most=max(1.0, min(2000.0, at_most_known(most[side]))),
            why="a load has a size, and is no larger than what it stands on (own rule)",
        )
        for side, each in enumerate(given)
    )
    return (width, depth)
