"""A piece: parts in their places and the joints between them. Every output is read off this."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from typing import Any

from furniture.joints.joint import Fastener, Joining, Role
from furniture.parts.part import Part, Placed, slug_of
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import Vector
from furniture.pieces.bought import Bought
from furniture.pieces.intent import Intent
from furniture.rules import USUAL_RULES, Rules
from furniture.timber.stock import Timber
from furniture.units import Shown, millimetres, read_only


class Stance(Enum):
    """What bears the whole piece."""

    FLOOR = "stands on the floor"
    WALL = "hangs on a wall"


class LoadKind(Enum):
    """Whether a load is a thing that stays, one that comes and goes, or a person who steps hard."""

    STAYS = "a thing that stays"
    COMES_AND_GOES = "a thing that comes and goes"
    PERSON_STANDING = "a person standing"
    PERSON_SITTING = "a person sitting"

    @property
    def is_person(self) -> bool:
        """Whether it is judged by what steps and seats are tested with."""
        return self in (LoadKind.PERSON_STANDING, LoadKind.PERSON_SITTING)


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingLoad:
    """Something that stands on a surface of the piece [kg, mm].

    `footprint_mm` is width by depth; the load may stand anywhere on its surface.
    """

    on: str
    mass_kg: float
    footprint_mm: tuple[float, float]
    centre_height_mm: float
    name: str = "load"
    kind: LoadKind = LoadKind.STAYS


@dataclass(frozen=True, slots=True, kw_only=True)
class FixedBody:
    """A weight that is not wood and always stays where it is, such as ballast [kg, mm].

    It counts in mass and centre of mass like a part; it is not made, so it is in no parts table.
    `on` is the instance that it lies on, `bought` what is asked for where it has to be bought.
    """

    name: str
    on: str
    mass_kg: float
    centre_mm: Vector
    size_mm: tuple[float, float, float]
    bought: Bought | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """A film finish put on the parts before they go together: coats, and dry film of each [mm]."""

    coats: int
    film_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """A level rectangle of the piece that can carry things, piece frame [mm]."""

    instance: str
    low: tuple[float, float]
    high: tuple[float, float]
    top_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """A figure of the whole piece that its general arrangement shows, such as a tier's height.

    A distance along one axis between two points of the piece frame, with what it is; one that is
    `from_floor` begins at what the piece stands on, whatever is put under it.
    """

    what: str
    start: Vector
    end: Vector
    from_floor: bool = False


@dataclass(frozen=True, slots=True)
class Note:
    """What the sheets say in words.

    Args:
        text: as it is printed.
        about: parts by their own names, whose sheets say it too.
    """

    text: str
    about: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchor:
    """A part that is fixed to the wall, and what goes through it there, piece frame."""

    instance: str
    fasteners: tuple[Fastener, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """The whole piece, as cut: nothing here is worked out twice elsewhere.

    `placed` holds every instance with its finished part; equal work shares one equal `Part`, and
    every placement is given in the frame of that part. `anchors` are what it is fixed to the
    wall by; `fixings` are bought besides what stands in joints and anchors: `bought_parts` counts
    them all. `parameters` are text
    for the record: nothing is worked out from them; what a builder knows is its `intent`. `rules`
    are the shop's own limits that it was built by. `done` are the instances that are made already:
    they are part of it like the others, and nobody is asked to cut them. `in_hand` are others
    whose wood is off its board, or has its place there by the plan that is worked by. `copy_of` is
    the name of the design that it is a copy of, where it has come to have a name of its own.
    """

    name: str
    shown: Shown = field(default_factory=millimetres)
    parameters: Mapping[str, Any] = field(default_factory=dict)
    placed: tuple[Placed, ...] = ()
    joinings: tuple[Joining, ...] = ()
    loads: tuple[StandingLoad, ...] = ()
    fixed: tuple[FixedBody, ...] = ()
    surfaces: tuple[Surface, ...] = ()
    references: tuple[Reference, ...] = ()
    stance: Stance = Stance.FLOOR
    notes: tuple[Note, ...] = ()
    fixings: tuple[Bought, ...] = ()
    finish: Finish | None = None
    anchors: tuple[Anchor, ...] = ()
    intent: Intent = field(default_factory=Intent)
    rules: Rules = USUAL_RULES
    done: frozenset[str] = frozenset()
    in_hand: frozenset[str] = frozenset()
    copy_of: str = ""

    def __post_init__(self) -> None:
        """What was given is kept as it was given."""
        object.__setattr__(self, "parameters", read_only(self.parameters))

    def __repr__(self) -> str:
        """One line; all there is in it would fill pages."""
        if not self.placed:
            return f"<Piece {self.name!r}: no parts>"
        low, high = extents_of(self)
        size = " x ".join(f"{b - a:.0f}" for a, b in zip(low, high, strict=True))
        return f"<Piece {self.name!r}: {len(self.placed)} parts, {size} mm>"

    @property
    def slug(self) -> str:
        """The name as file names carry it."""
        return slug_of(self.name)

    @property
    def design_slug(self) -> str:
        """The name of its design as file names carry it."""
        return slug_of(self.copy_of or self.name)


@dataclass(frozen=True, slots=True, kw_only=True)
class Distinct:
    """A distinct part, how many the piece has, and the instances that are it."""

    part: Part
    instances: tuple[str, ...]

    @property
    def quantity(self) -> int:
        """How many the piece needs."""
        return len(self.instances)


def distinct_parts(piece: Piece) -> tuple[Distinct, ...]:
    """The distinct parts in the order they first appear, with their instances."""
    groups: dict[int, tuple[Part, list[str]]] = {}
    order: list[tuple[Part, list[str]]] = []
    for each in piece.placed:
        entry = groups.get(id(each.part))
        if entry is None:
            entry = next((known for known in order if known[0] == each.part), None)
            if entry is None:
                entry = (each.part, [])
                order.append(entry)
            groups[id(each.part)] = entry
        entry[1].append(each.instance)
    return tuple(Distinct(part=part, instances=tuple(names)) for part, names in order)


def timbers_of(piece: Piece) -> tuple[Timber, ...]:
    """The stocks that the piece is made of, in order of first use."""
    return tuple(dict.fromkeys(each.part.timber for each in piece.placed))


def placed_named(piece: Piece, instance: str) -> Placed:
    """The instance of that name.

    Raises:
        KeyError: the piece has none.
    """
    for each in piece.placed:
        if each.instance == instance:
            return each
    raise KeyError(instance)


def extents_of(piece: Piece) -> Box:
    """The upright box round all blanks of the piece [mm], piece frame.

    Splines and keys lie inside the parts that they cross, though a key's blank, before its ends
    are mitred, stands out at the corner.

    Raises:
        ValueError: a piece without parts.
    """
    inside = {each.incoming for each in piece.joinings if each.role is Role.LOOSE_TONGUE}
    boxes = [
        box_of(each.part.blank, each.placement)
        for each in piece.placed
        if each.instance not in inside
    ]
    if not boxes:
        raise ValueError("a piece without parts has no extents")
    low = tuple(min(box[0][axis] for box in boxes) for axis in range(3))
    high = tuple(max(box[1][axis] for box in boxes) for axis in range(3))
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))
