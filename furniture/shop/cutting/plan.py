"""What a cutting plan says: trees of cuts, where each part lies, what is left, and a proof."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

CUBIC_METRES_IN_A_BOARD_FOOT = 144 * 16.387064e-6
"""144 cubic inches [m^3]; an inch is 25.4 mm by definition."""


class CutDirection(Enum):
    """The two cuts a saw makes, edge to edge of the piece in hand."""

    RIP = "rip"
    CROSSCUT = "crosscut"

    @property
    def across(self) -> CutDirection:
        """The other one."""
        return CutDirection.RIP if self is CutDirection.CROSSCUT else CutDirection.CROSSCUT


class LeafUse(Enum):
    """What becomes of a piece that is cut no further."""

    PART = "part"
    OFFCUT = "offcut"
    WASTE = "waste"


class UnplacedReason(Enum):
    """Why a part lies on no board."""

    NO_SPECIES = "no board of that species"
    TOO_LONG = "no board is long enough"
    TOO_WIDE = "no board is wide enough"
    TOO_LARGE = "no board is both long and wide enough"
    GRAIN = "it fits across its grain only"
    NARROWS = "no board keeps that width over that length"
    FAULTS = "no clear place of that size"
    UNSAFE = "no piece long and wide enough to hold at the saw"
    MATCH = "its match cannot be kept"
    STRIPS = "no room for every strip that it is glued up from"
    NO_ROOM = "no room left beside the other parts"
    TIME_UP = "no place was found in the time given"
    NOT_REACHED = "a board that would do was not come to in the time given"


class LeftOutReason(Enum):
    """Why copies that are cut only if it pays are not cut."""

    NOT_WORTH_IT = "not worth a board"
    NO_ROOM = "no room"


class BoundKind(Enum):
    """Where a bound comes from."""

    AREA = "usable area"
    CONSERVATIVE_SCALES = "by the sizes of parts and boards, whatever the layout"
    PRICES = "by the worth of parts and boards, weighed against how often each is wanted"
    BOARD_BY_BOARD = "every cheaper choice of boards and matches refuted, board by board"
    EXHAUSTED = "every arrangement looked at"
    COUNT = "each part fits or not"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rectangle:
    """A rectangle in board coordinates [mm]: x along the grain, y across."""

    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float

    @property
    def x_end_mm(self) -> float:
        """The far end [mm]."""
        return self.x_mm + self.length_mm

    @property
    def y_end_mm(self) -> float:
        """The far edge [mm]."""
        return self.y_mm + self.width_mm

    @property
    def area_mm2(self) -> float:
        """Area [mm^2]."""
        return self.length_mm * self.width_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class CutNode:
    """A piece of the board: cut into children by parallel cuts, or a leaf.

    Between two children lies a kerf; at a trim the saw may run partly beside the wood, so the
    space before the first and after the last child may be less than a kerf.
    """

    piece: Rectangle
    direction: CutDirection | None = None
    children: tuple[CutNode, ...] = ()
    use: LeafUse | None = None
    placement: Placement | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """One copy of a part on a board.

    part: name in the request; copy: 1, 2, ...; strip: which strip of a glued-up part, 0 for a
    whole part; is_turned: length across the grain; is_flipped: the board's lower face becomes
    the show face.
    """

    part: str
    copy: int
    board: str
    place: Rectangle
    strip: int = 0
    is_turned: bool = False
    is_flipped: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberedCut:
    """One pass of the saw: number in order on its board, the piece in hand, where the kerf lies.

    position_mm: near side of the kerf, an x for a crosscut and a y for a rip.
    """

    number: int
    direction: CutDirection
    workpiece: Rectangle
    position_mm: float
    kerf_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """What is left: a rectangle, whether it is worth keeping, and faults in it by name."""

    board: str
    place: Rectangle
    is_usable: bool
    holds: tuple[str, ...] = ()


def by_board(placements: Iterable[Placement]) -> dict[str, list[Placement]]:
    """The placements on each board, by its name."""
    found: dict[str, list[Placement]] = {}
    for each in placements:
        found.setdefault(each.board, []).append(each)
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPlan:
    """One board cut up. yield_share: area of parts over area of the board."""

    board: str
    tree: CutNode
    cuts: tuple[NumberedCut, ...]
    placements: tuple[Placement, ...]
    offcuts: tuple[Offcut, ...]
    yield_share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardWanted:
    """A board that would do, by its rough sizes."""

    species: str
    length_mm: float
    width_mm: float
    thickness_mm: float


class NearPlace(Enum):
    """What all but takes a part."""

    BOARD = "board"
    CLEAR = "clear place on board"
    OFFCUT = "offcut of board"
    AT_THE_SAW = "board, to be held at the saw"


@dataclass(frozen=True, slots=True, kw_only=True)
class NearMiss:
    """A place that all but takes a part, by how much it is too small; 0 where it is not [mm].

    narrow_mm: than the rough width, of which `allowed_mm` may be missing.
    """

    board: str
    place: NearPlace = NearPlace.BOARD
    short_mm: float = 0.0
    narrow_mm: float = 0.0
    allowed_mm: float = 0.0

    @property
    def lacks_mm(self) -> float:
        """What is wanting in all, what may be missing left out."""
        return self.short_mm + max(0.0, self.narrow_mm - self.allowed_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Unplaced:
    """A part, or some of its copies, that lies on no board.

    blocked_by: zones with their boards, matches or limits of the saw, by name; a whole board that
        was not come to.
    near: what misses by the least, the nearest first.
    """

    part: str
    copies: int
    reason: UnplacedReason
    would_do: BoardWanted
    blocked_by: tuple[str, ...] = ()
    near: tuple[NearMiss, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class InStrips:
    """A part that is glued up since no board is wide enough for it, and the board nearest to it."""

    part: str
    strips: int
    near: tuple[NearMiss, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut:
    """Copies of a part cut only if it pays, and why they are not. worth: of each [money]."""

    part: str
    copies: int
    worth: float
    reason: LeftOutReason


@dataclass(frozen=True, slots=True, kw_only=True)
class Costs:
    """What a plan costs [money]: boards begun, matches not kept, wishes not met, figure used up,
    and what copies that are left out would have been worth."""

    boards: float = 0.0
    matches: float = 0.0
    wishes: float = 0.0
    figure: float = 0.0
    left_out: float = 0.0

    @property
    def total(self) -> float:
        """All of it [money]."""
        return self.boards + self.matches + self.wishes + self.figure + self.left_out


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """What to buy for the parts that did not fit. thickness_quarters: 4 means 4/4 (1 in).

    board_feet: of the pieces, clear wood, unrounded. waste_share: of what is bought, lost to
    faults; the figures with it are what to ask for. Cubic metres are the same measures again.
    """

    species: str
    thickness_quarters: int
    board_feet: float
    pieces: tuple[BoardWanted, ...]
    waste_share: float = 0.0

    @property
    def cubic_metres(self) -> float:
        """The clear wood as a volume [m^3]."""
        return self.board_feet * CUBIC_METRES_IN_A_BOARD_FOOT

    @property
    def board_feet_with_waste(self) -> float:
        """What to ask for so that the clear wood is in it [whole board feet]."""
        return float(math.ceil(self.board_feet / (1.0 - self.waste_share) - 1e-9))

    @property
    def cubic_metres_with_waste(self) -> float:
        """The same whole board feet as a volume [m^3]."""
        return self.board_feet_with_waste * CUBIC_METRES_IN_A_BOARD_FOOT


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchOutcome:
    """Whether a match was kept, by whom not, and the price paid."""

    group: str
    is_kept: bool
    odd_one: str | None
    price_paid: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Conflict:
    """Parts, each with how many, that cannot lie together on a board while matches are kept."""

    board: str
    parts: tuple[tuple[str, int], ...]
    matches: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Bound:
    """No plan that places everything costs less than `price` [money].

    all_may_fit: False where it is certain that nothing places everything.
    impossible: indices of blanks that lie on no board, even alone.
    conflicts: what rules out cheaper choices, when they were refuted board by board.
    is_open: a question that would have told more had neither a yes nor a no.
    """

    price: float
    kind: BoundKind
    all_may_fit: bool = True
    impossible: tuple[int, ...] = ()
    conflicts: tuple[Conflict, ...] = ()
    is_open: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """How good the plan is at most: value, best bound, where the bound comes from, and the gap.

    conflicts: what rules out every cheaper choice of boards and kept matches.
    """

    value: float
    bound: float
    kind: BoundKind
    measure: str
    conflicts: tuple[Conflict, ...] = ()

    @property
    def gap(self) -> float:
        """(value - bound) / bound, or of value when the bound is 0; 0 means proven best."""
        difference = abs(self.value - self.bound)
        if difference <= 1e-6 * max(1.0, abs(self.value)):
            return 0.0
        return difference / (abs(self.bound) or abs(self.value))

    @property
    def is_proven(self) -> bool:
        """Whether no better plan exists."""
        return self.gap == 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingPlan:
    """The whole plan.

    is_cut_short: the clock ended the search, or the maker did, before its rounds: with more time,
    or on a faster machine, the plan may be another.
    unplaced: what had to have a place; left_out: what is cut only if it pays; in_strips: what is
    glued up.
    """

    boards: tuple[BoardPlan, ...]
    unplaced: tuple[Unplaced, ...]
    matches: tuple[MatchOutcome, ...]
    costs: Costs
    yield_share: float
    proof: Proof
    rounds: int
    is_cut_short: bool = False
    left_out: tuple[LeftOut, ...] = ()
    in_strips: tuple[InStrips, ...] = ()

    @property
    def cost(self) -> float:
        """Price of the boards begun, and of what was not kept, used up or left out [money]."""
        return self.costs.total
