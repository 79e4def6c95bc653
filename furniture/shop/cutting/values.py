"""What a cutting plan is made from: boards with their zones, parts wanted, matches, saw, limits.

Board coordinates: x runs along the grain from the end the tape was hooked on, y across from the
straight edge (joint it first and measure every width square off it), both in mm.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import Enum

from furniture.rules import USUAL_RULES
from furniture.rules.staying import LONGEST_BOARD, WISHED_SHARE, WORTH_A_PASS

FOOT = 304.8


class ZoneKind(Enum):
    """What a stretch of a board is like."""

    KNOT = "knot"
    CHECK = "check"
    SAPWOOD = "sapwood"
    WANE = "wane"
    STAIN = "stain"
    PITH = "pith"
    HOLE = "hole"
    FIGURE = "figure"
    EVEN_GRAIN = "even grain"


WELCOME_KINDS = frozenset({ZoneKind.FIGURE, ZoneKind.EVEN_GRAIN})
"""Kinds that are no fault: every face tolerates them."""


KEPT_OFF_KINDS = frozenset({ZoneKind.KNOT, ZoneKind.CHECK, ZoneKind.HOLE})
"""Faults that reach further than they show: parts keep the saw's `off_faults` away from them."""


class ZoneShows(Enum):
    """On which face of the board, as it lies measured, a zone can be seen."""

    BOTH = "both faces"
    UPPER = "upper face"
    LOWER = "lower face"


class BoardEnd(Enum):
    """An end of a board as it lies."""

    START = "the end that it is measured from"
    FAR = "the far end"


class GrainRule(Enum):
    """How a part may lie on the board."""

    ALONG = "length along the grain"
    EITHER = "may be turned across the grain"


class MatchRule(Enum):
    """What belongs together."""

    IN_SEQUENCE = "end to end off one strip, in order"
    SAME_BOARD = "off one board"
    SAME_ZONE = "inside one zone"
    CENTRED_ON_FIGURE = "centred on a figure"
    EQUAL_PALE_EDGES = "two pale edges kept equal"

    @property
    def is_one_board(self) -> bool:
        """Whether all members come off one board, wherever on it."""
        return self in (MatchRule.IN_SEQUENCE, MatchRule.SAME_BOARD)

    @property
    def asks_for_zone(self) -> bool:
        """Whether members ask for a zone."""
        return self in (MatchRule.SAME_ZONE, MatchRule.CENTRED_ON_FIGURE)

    @property
    def fixes_place(self) -> bool:
        """Whether a member has its place from the board's figure, whatever lies beside it."""
        return self in (MatchRule.CENTRED_ON_FIGURE, MatchRule.EQUAL_PALE_EDGES)


class OddOne(Enum):
    """Which member of a match may stay out when not all can keep it."""

    NONE = "none"
    FIRST_NAMED = "first named"
    LAST_NAMED = "last named"
    SMALLEST = "smallest"
    LARGEST = "largest"


class Stages(Enum):
    """How many times the saw may change direction before the last trim to size.

    ANY: as often as the layout asks for.
    """

    TWO = 2
    THREE = 3
    ANY = 99


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A stretch of a board that is not like the rest.

    outline: corners (x, y) in board coordinates, at least three, without crossing itself.
    worth: what covering all of it with parts that do not ask for it costs [money]; 0 when the
    zone is not worth keeping.
    """

    name: str
    kind: ZoneKind
    outline: tuple[tuple[float, float], ...]
    shows: ZoneShows = ZoneShows.BOTH
    description: str = ""
    worth: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A width measured square off the straight edge, at a distance along the board [mm]."""

    at_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """One board as it lies: widths between stations run straight, beyond the outer ones level.

    thickness_mm: as measured at its thinnest; thinnest_mm: no thinner part comes off it; price: of
    the whole board [money]; sawn_ends: those that are square and sound already, so that no end trim
    comes off.
    """

    name: str
    length_mm: float
    stations: tuple[Station, ...]
    thickness_mm: float
    species: str
    thinnest_mm: float = 0.0
    price: float = 0.0
    zones: tuple[Zone, ...] = ()
    description: str = ""
    sawn_ends: frozenset[BoardEnd] = frozenset()

    @property
    def greatest_width_mm(self) -> float:
        """The width at its widest station [mm]."""
        return max(station.width_mm for station in self.stations)

    @property
    def is_straight(self) -> bool:
        """Whether it is of one width from end to end."""
        return len({station.width_mm for station in self.stations}) == 1

    @property
    def kind(self) -> Board:
        """The board without name and description: boards of one kind are alike."""
        return replace(self, name="", description="")

    @property
    def wood(self) -> Board:
        """The kind, whatever it costs."""
        return replace(self.kind, price=0.0)


def names_by_kind(boards: Iterable[Board]) -> dict[Board, list[str]]:
    """The names of boards that are alike, by their kind, in the order of their first boards."""
    found: dict[Board, list[str]] = {}
    for board in boards:
        found.setdefault(board.kind, []).append(board.name)
    return found


def straight_board(
    *,
    name: str,
    length_mm: float,
    width_mm: float,
    thickness_mm: float,
    species: str,
    price: float = 0.0,
    zones: tuple[Zone, ...] = (),
    description: str = "",
) -> Board:
    """A board of one width [mm] from end to end."""
    return Board(
        name=name,
        length_mm=length_mm,
        stations=(
            Station(at_mm=0.0, width_mm=width_mm),
            Station(at_mm=length_mm, width_mm=width_mm),
        ),
        thickness_mm=thickness_mm,
        species=species,
        price=price,
        zones=zones,
        description=description,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueUp:
    """Leave to glue a part up from strips where no board is wide enough.

    jointing_allowance_mm: lost on each strip edge that is glued. keep_clear_mm: bands (from, to)
    across the finished width where no joint may lie, since a cut runs there. narrowest_strip_mm:
    the least width of a strip.
    """

    jointing_allowance_mm: float = 1.5
    keep_clear_mm: tuple[tuple[float, float], ...] = ()
    narrowest_strip_mm: float = 40.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPart:
    """A part wanted from the boards, with what its faces put up with.

    length_mm, width_mm, thickness_mm: finished; the allowances are added for the rough size.
    show_face_tolerates, hidden_face_tolerates: kinds of zone that may be seen there.
    wants: a kind of zone that should cover most of the part; missing it costs want_price [money];
    from wished_share of its area on it is met.
    least_width_allowance_mm: what must be left on the width where a board is not wide enough for
    the rough width; None for the whole allowance.
    strips_mm: rough widths of the strips that each copy is glued up from; none where it is cut
    whole.
    worth: what leaving a copy out costs [money], so that it is cut only if it pays; None where
    every copy must have a place.
    """

    name: str
    quantity: int
    length_mm: float
    width_mm: float
    thickness_mm: float
    species: str
    length_allowance_mm: float = 0.0
    width_allowance_mm: float = 0.0
    show_face_tolerates: frozenset[ZoneKind] = frozenset()
    hidden_face_tolerates: frozenset[ZoneKind] = frozenset()
    grain: GrainRule = GrainRule.ALONG
    wants: ZoneKind | None = None
    want_price: float = 0.0
    wished_share: float = USUAL_RULES[WISHED_SHARE]
    glue_up: GlueUp | None = None
    least_width_allowance_mm: float | None = None
    strips_mm: tuple[float, ...] = ()
    worth: float | None = None

    @property
    def is_must(self) -> bool:
        """Whether every copy must have a place."""
        return self.worth is None

    @property
    def worth_of_all(self) -> float:
        """What it costs to leave out every copy that may be left out [money]."""
        return self.quantity * (self.worth or 0.0)

    @property
    def pieces(self) -> tuple[tuple[int, float], ...]:
        """What one copy is cut as: each piece's strip, 0 for the whole, and rough width [mm]."""
        return tuple(enumerate(self.strips_mm, start=1)) or ((0, self.rough_width_mm),)

    @property
    def rough_length_mm(self) -> float:
        """Length to saw [mm]."""
        return self.length_mm + self.length_allowance_mm

    @property
    def rough_width_mm(self) -> float:
        """Width to saw [mm]."""
        return self.width_mm + self.width_allowance_mm

    @property
    def least_width_mm(self) -> float:
        """Width to saw at least, where a board gives no more [mm]."""
        least = self.least_width_allowance_mm
        left = self.width_allowance_mm if least is None else min(least, self.width_allowance_mm)
        return self.width_mm + left


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchGroup:
    """Parts whose grain belongs together.

    members: part names in order; a name stands once for each copy meant.
    price: what breaking the match costs [money]; None makes it a must.
    zone: the zone meant, by name; None takes any zone of zone_kind.
    zone_kind: for CENTRED_ON_FIGURE and SAME_ZONE without a name.
    odd_one: which member may stay out, and only one.
    tolerance_mm: how far off centre or unequal is still right.
    """

    name: str
    rule: MatchRule
    members: tuple[str, ...]
    price: float | None = None
    zone: str | None = None
    zone_kind: ZoneKind = ZoneKind.FIGURE
    odd_one: OddOne = OddOne.NONE
    tolerance_mm: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """The saw and how its user works.

    end_trim_mm: off each end of a board; edge_trim_mm: off each edge; planing_loss_mm: thickness
    lost from board to finished part; most_planed_mm: off a board that is there, None where it does
    not matter how much; shortest_rip_mm, narrowest_rip_mm: no shorter or narrower piece is ripped;
    shortest_crosscut_mm: no shorter piece is crosscut; usable_length_mm, usable_width_mm: the least
    offcut worth keeping; off_faults_mm: so far from a knot, check or hole that it may not hold a
    part keeps; worth_a_pass_mm2: how much larger an offcut is that is worth one more pass.
    """

    kerf_mm: float = 3.2
    end_trim_mm: float = 0.0
    edge_trim_mm: float = 0.0
    planing_loss_mm: float = 0.0
    most_planed_mm: float | None = None
    shortest_rip_mm: float = 0.0
    narrowest_rip_mm: float = 0.0
    shortest_crosscut_mm: float = 0.0
    usable_length_mm: float = 300.0
    usable_width_mm: float = 50.0
    off_faults_mm: float = 0.0
    worth_a_pass_mm2: float = USUAL_RULES[WORTH_A_PASS]


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How long to look.

    rounds: each round doubles the number of half-made plans kept; the same rounds and seed give
    the same plan as long as `seconds` is not reached first.
    """

    stages: Stages = Stages.THREE
    seconds: float = 5.0
    rounds: int = 5
    seed: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingRequest:
    """Everything the planner is told.

    waste_share: of wood that is bought, lost to faults; longest_sold_mm: no longer board is asked
    for.
    """

    boards: tuple[Board, ...]
    parts: tuple[CutPart, ...]
    matches: tuple[MatchGroup, ...] = ()
    saw: Saw = Saw()
    limits: Limits = Limits()
    waste_share: float = 0.0
    longest_sold_mm: float = USUAL_RULES[LONGEST_BOARD] * FOOT

    @property
    def part_named(self) -> dict[str, CutPart]:
        """Its parts, by their names."""
        return {part.name: part for part in self.parts}

    @property
    def board_named(self) -> dict[str, Board]:
        """Its boards, by their names."""
        return {board.name: board for board in self.boards}

    @property
    def copies(self) -> int:
        """Of all parts together."""
        return sum(part.quantity for part in self.parts)

    @property
    def has_extras(self) -> bool:
        """Whether some parts are cut only if it pays."""
        return not all(part.is_must for part in self.parts)
