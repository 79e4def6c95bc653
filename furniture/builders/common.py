"""Parameters that every builder takes, and the reading of them."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from furniture.parts.cuts import Profile, ProfileKind
from furniture.parts.faces import Arris, Face
from furniture.parts.part import Placed, Rough
from furniture.pieces import StandingLoad
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import Given, Reader, parameters

# Edges of a shelf or lid, which lies face side up with its face edge in front.
TOP_FRONT = Arris(Face.FACE_SIDE, Face.FACE_EDGE)
TOP_BACK = Arris(Face.FACE_SIDE, Face.BACK_EDGE)
TOP_LEFT = Arris(Face.FACE_SIDE, Face.NAMED_END)
TOP_RIGHT = Arris(Face.FACE_SIDE, Face.FAR_END)
UNDER_FRONT = Arris(Face.BACK_SIDE, Face.FACE_EDGE)
UNDER_BACK = Arris(Face.BACK_SIDE, Face.BACK_EDGE)
UNDER_LEFT = Arris(Face.BACK_SIDE, Face.NAMED_END)
UNDER_RIGHT = Arris(Face.BACK_SIDE, Face.FAR_END)
# Edges of a rail, which stands face side out with its face edge down.
OUTER_BOTTOM = Arris(Face.FACE_SIDE, Face.FACE_EDGE)
OUTER_TOP = Arris(Face.FACE_SIDE, Face.BACK_EDGE)

ROUGH_LENGTH, ROUGH_WIDTH = "15 mm", "4 mm"
"""Left on a blank until it is cut to size. Common practice, no source."""


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


@parameters
class EdgeProfile:
    """A round-over or chamfer on some edges of a part or of a group of parts.

    Args:
        on: an instance such as `tier 2`, or a group such as `tiers`.
        edges: arrises, such as TOP_FRONT.
        kind: round-over or chamfer.
        radius: of the round-over, or the chamfer's legs.
    """

    on: str = ""
    edges: Sequence[Arris] = ()
    kind: ProfileKind = ProfileKind.ROUND_OVER
    radius: Given = "3 mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """The instance names of a piece and its groups: what other parameters may refer to."""

    instances: tuple[str, ...]
    groups: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def meant_by(self, name: str) -> tuple[str, ...]:
        """The instances that a name means; none when it means nothing."""
        if name in self.groups:
            return self.groups[name]
        return (name,) if name in self.instances else ()

    @property
    def listed(self) -> str:
        """All names, for messages."""
        return ", ".join([*self.groups, *self.instances])


def read_loads(
    reader: Reader, loads: Sequence[object], surfaces: Sequence[str]
) -> tuple[StandingLoad, ...]:
    """The loads with their figures read; problems are noted with the reader."""
    found = []
    for index, load in enumerate(loads):
        where = f"loads[{index}]"
        if not isinstance(load, Load):
            reader.refuse(
                where, repr(load), "a Load", "it says what stands where", "write Load(...)"
            )
            continue
        reader.names(f"{where}.", load)
        if load.on not in surfaces:
            reader.refuse(
                f"{where}.on",
                repr(load.on),
                ", ".join(surfaces),
                "a load stands on a level surface of the piece",
                f"write {surfaces[0]!r}",
            )
        mass = reader.mass(f"{where}.mass", load.mass)
        if not isinstance(load.footprint, (tuple, list)) or len(load.footprint) != 2:
            reader.refuse(
                f"{where}.footprint",
                repr(load.footprint),
                "width and depth",
                "how far it can stand from an edge depends on its size",
                "write ('120 mm', '120 mm')",
            )
            sides = [math.nan, math.nan]
        else:
            sides = [
                reader.length(
                    f"{where}.footprint[{side}]",
                    given,
                    at_least=1.0,
                    at_most=2000.0,
                    why="a footprint has a size",
                )
                for side, given in enumerate(load.footprint)
            ]
        height = reader.length(
            f"{where}.centre_height",
            load.centre_height,
            at_least=0.0,
            at_most=2000.0,
            why="the centre of mass lies above what the load stands on",
        )
        found.append(
            StandingLoad(
                on=load.on,
                mass_kg=mass,
                footprint_mm=(sides[0], sides[1]),
                centre_height_mm=height,
                name=str(load.name),
            )
        )
    return tuple(found)


def read_profiles(
    reader: Reader, profiles: Sequence[object], names: Names
) -> dict[str, tuple[Profile, ...]]:
    """The profile cuts for each instance; problems are noted with the reader."""
    cuts: dict[str, tuple[Profile, ...]] = {}
    for index, profile in enumerate(profiles):
        where = f"profiles[{index}]"
        if not isinstance(profile, EdgeProfile):
            reader.refuse(
                where,
                repr(profile),
                "an EdgeProfile",
                "it says what to shape",
                "write EdgeProfile(...)",
            )
            continue
        reader.names(f"{where}.", profile)
        meant = names.meant_by(profile.on)
        if not meant:
            reader.refuse(
                f"{where}.on", repr(profile.on), names.listed, "a profile is on a part",
                f"write {names.instances[0]!r}",
            )  # fmt: skip
        kind = reader.choice(f"{where}.kind", profile.kind, ProfileKind, ProfileKind.ROUND_OVER)
        radius = reader.length(
            f"{where}.radius",
            profile.radius,
            at_least=0.5,
            at_most=25.0,
            why="cutters of this size exist and leave the part whole",
        )
        edges = [edge for edge in profile.edges if isinstance(edge, Arris)]
        if len(edges) != len(profile.edges) or not edges:
            reader.refuse(
                f"{where}.edges", repr(profile.edges), "arrises such as TOP_FRONT",
                "a profile runs along stated edges", "write edges=(TOP_FRONT,)",
            )  # fmt: skip
        for instance in meant:
            made = tuple(Profile(edge=edge, profile_kind=kind, radius_mm=radius) for edge in edges)
            cuts[instance] = cuts.get(instance, ()) + made
    return cuts


def with_profiles(placed: Placed, profiles: Mapping[str, tuple[Profile, ...]]) -> Placed:
    """The instance with its profiles among its own cuts."""
    cuts = profiles.get(placed.instance, ())
    return replace(placed, part=replace(placed.part, cuts=placed.part.cuts + cuts))


def read_rough(reader: Reader, length: object, width: object) -> Rough:
    """The rough allowances; problems are noted with the reader."""
    why = "what is left on a blank until it is cut to size"
    return Rough(
        length_mm=reader.length("rough_length", length, at_least=0.0, at_most=100.0, why=why),
        width_mm=reader.length("rough_width", width, at_least=0.0, at_most=50.0, why=why),
    )


class StockOf:
    """Which timber each instance is cut from: the usual one, or its own."""

    def __init__(
        self, reader: Reader, usual: Mapping[str, Timber | None], own: object, names: Names
    ) -> None:
        self._usual = usual
        self._own: dict[str, Timber | None] = {}
        if not isinstance(own, Mapping):
            reader.refuse(
                "own_stock", repr(own), "names with a Stock each", "any part may name its own",
                "write {'tier 1': Stock(...)}",
            )  # fmt: skip
            return
        for name, stock in own.items():
            meant = names.meant_by(str(name))
            if not meant:
                reader.refuse(
                    f"own_stock[{name!r}]", repr(name), names.listed, "it names a part or a group",
                    f"write {names.instances[0]!r}",
                )  # fmt: skip
            timber = read_stock(reader, f"own_stock[{name!r}]", stock)
            for instance in meant:
                self._own[instance] = timber

    def timber(self, instance: str) -> Timber | None:
        """The timber of an instance; none when its stock could not be read."""
        return self._own[instance] if instance in self._own else self._usual.get(instance)

    def thickness(self, instance: str) -> float:
        """Its measured thickness [mm]; not-a-number when its stock could not be read."""
        timber = self.timber(instance)
        return math.nan if timber is None else timber.thickness_mm


def read_usual(reader: Reader, given: Mapping[str, Stock | None]) -> dict[str, Timber | None]:
    """The usual stocks by parameter name."""
    return {name: read_stock(reader, name, stock) for name, stock in given.items()}
