"""What is said of a part when the design changes: a verdict, and what it takes to carry it out.

All of it lies in the frame of the new part: its named end, its face edge, its cuts by their place
in its list. Words are made by who shows them.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.job.old import OldPart
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector


class Say(Enum):
    """What becomes of a part."""

    AS_IS = "as it is"
    TRIM = "trim"
    RECUT = "recut"
    MAKE_NEW = "make new"
    NOT_CUT = "not cut yet"
    """Nothing of it is lost: it was only drawn, and is made by its new sheet."""
    NOT_NEEDED = "not needed any more"


class Turn(Enum):
    """How the new part lies in the old one: the grain stays, and nothing is mirrored."""

    NONE = "as it lay"
    END_FOR_END_AND_OVER = "turned over, edge for edge kept"
    OVER_ALONG = "turned over about its length"
    END_FOR_END = "turned end for end"

    @property
    def signs(self) -> tuple[int, int, int]:
        """Which way the old axes run along the new ones."""
        return _SIGNS[self]

    @property
    def axis(self) -> int | None:
        """The part axis of the half turn; none where it lies as it lay."""
        return _AXES_OF[self]


_SIGNS = {
    Turn.NONE: (1, 1, 1),
    Turn.OVER_ALONG: (1, -1, -1),
    Turn.END_FOR_END_AND_OVER: (-1, 1, -1),
    Turn.END_FOR_END: (-1, -1, 1),
}
_AXES_OF: dict[Turn, int | None] = {
    Turn.NONE: None,
    Turn.OVER_ALONG: 0,
    Turn.END_FOR_END_AND_OVER: 1,
    Turn.END_FOR_END: 2,
}


class By(Enum):
    """What takes wood off a face, as much as there is in hand allows."""

    CROSSCUT = "crosscut"
    SKIM = "skim at the crosscut"
    RIP = "rip"
    PLANE = "plane"
    HAND_PLANE = "hand plane"
    HAND_SAW = "hand saw"
    CUT = "by the cut at that face"


class CutWork(Enum):
    """What has to be done for a cut of the new part."""

    GROW = "an earlier cut, made larger"
    AGAIN = "the same cut, run once more"
    NEW = "a cut that was not there"


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenOff:
    """Wood that comes off a face of the part, right across it.

    Args:
        face: of the new part.
        mm: how much [mm].
        before_mm: the size across that face with all of it on [mm].
        after_mm: the size when the part is done [mm].
        by: what takes it off.
    """

    face: Face
    mm: float
    before_mm: float
    after_mm: float
    by: By


@dataclass(frozen=True, slots=True, kw_only=True)
class Grown:
    """How far a cut is moved outward at one side of it.

    Args:
        face: the face of the part that this side looks towards.
        mm: by how much [mm].
        before_mm: the cut's size between this side and the opposite one as it is [mm].
        after_mm: the same when it is done [mm].
    """

    face: Face
    mm: float
    before_mm: float
    after_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutToMake:
    """A cut that is made now.

    Args:
        index: of the cut in the new part's list.
        work: whether it grows, is run again or is new.
        was: of the old part's cut that grows or is run again.
        grown: where it grows.
    """

    index: int
    work: CutWork
    was: int | None = None
    grown: tuple[Grown, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """A cut that stays and now has less wood than the rules like beside a face that is trimmed.

    Args:
        index: of the cut in the new part's list.
        face: that was trimmed.
        wood_mm: that is left [mm].
        asked_mm: that the rules ask for [mm].
    """

    index: int
    face: Face
    wood_mm: float
    asked_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where the new part lies in the old one.

    Args:
        turn: of the old part before anything is done to it.
        off_low: what the old part reaches beyond the named end, face edge and back side [mm].
        off_high: what it reaches beyond the far end, back edge and face side [mm].
    """

    turn: Turn
    off_low: Vector
    off_high: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class TooSmall:
    """The old part lacks wood on one axis, by so much [mm]."""

    axis: int
    by_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class InTheWay:
    """A cut of the old part took wood that the new one needs.

    Args:
        old_index: of that cut.
        mm3: of wood that is wanting [mm3].
        moved_to: of the new part's cut that it has become, where there is one of its kind.
        moved: how far that one lies from it [mm].
    """

    old_index: int
    mm3: float
    moved_to: int | None = None
    moved: Vector = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherWood:
    """The new part is of another species than the old one."""

    species: str
    was: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TooThin:
    """A trim would leave less wood than none beside a cut that stays.

    Args:
        index: of the new part's cut.
        wood_mm: that would be left [mm].
        least_mm: under which it breaks [mm].
    """

    index: int
    wood_mm: float
    least_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class NothingOfIt:
    """No part of that name was there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GoesElsewhere:
    """The wood would do and another part takes it."""

    into: str


@dataclass(frozen=True, slots=True, kw_only=True)
class IsSpoilt:
    """The maker says so."""


Why = TooSmall | InTheWay | OtherWood | TooThin | NothingOfIt | GoesElsewhere | IsSpoilt


@dataclass(frozen=True, slots=True, kw_only=True)
class Stays:
    """A cut that is made and stays, though it is drawn elsewhere.

    Args:
        instance: that has it.
        index: of the cut in the part's list.
        off_mm: how far it stands from where it is drawn, part frame [mm].
        mates: that have it so too, or move with it.
        follow: mates that are still to be made, and are cut to it.
    """

    instance: str
    index: int
    off_mm: Vector
    mates: tuple[str, ...]
    follow: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What becomes of one part.

    Args:
        instance: of the new design; of the old one where it is not needed any more.
        say: the verdict.
        old: the wood that it is, or is taken from; one that is not needed is itself, one that is
            not cut yet is as it was drawn; a new one has none.
        place: where it lies in that wood.
        off: what is trimmed.
        cuts: what is cut then, in the new part's order.
        near: what stays and lies too near to a trimmed face.
        why: what keeps the part of its own name from serving, where it is not as it is or trimmed.
        serves: the new parts that an old one not needed any more would hold.
        stays: cuts that are left where they are made, since all that they join has them so.
        beside: what is kept and lay next to a begun part that is made new, on one length with it.
    """

    instance: str
    say: Say
    old: OldPart | None = None
    place: Place | None = None
    off: tuple[TakenOff, ...] = ()
    cuts: tuple[CutToMake, ...] = ()
    near: tuple[Near, ...] = ()
    why: tuple[Why, ...] = ()
    serves: tuple[str, ...] = ()
    stays: tuple[Stays, ...] = ()
    beside: tuple[str, ...] = ()
