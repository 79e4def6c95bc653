"""What a joint is: a relation between two placed parts that puts the matching cuts on both.

Only a relation can know the fit, the glue faces, the way in and what must touch, so a joint says
those too. A new joint is one new file with one class like those beside this one.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass, field
from enum import Enum
from typing import ClassVar

from furniture.joints.fit import Fit
from furniture.parts.cuts import Along, Cut
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector
from furniture.rules import USUAL_RULES, Rules
from furniture.units import NOT_WRITTEN, Draft


class GrainRelation(Enum):
    """How the grain of two glued faces meets."""

    LONG_TO_LONG = "long grain to long grain"
    CROSSING = "long grain crossing"
    LONG_TO_END = "long grain to end grain"
    END_TO_END = "end grain to end grain"


class Role(Enum):
    """What a joining is for in the piece; readers ask for this and never for the joint's name."""

    CORNER = "corner"
    """Two parts meet at an end of one or of both: mitres, rabbeted and butted corners, laps."""
    HOUSING = "housing"
    """An end or an edge is let into another part: dado, groove, mortise."""
    RIM = "rim"
    """A panel lies in a rabbet along the edge of a rail."""
    EDGE_GLUE = "edge glue"
    """Boards glued along the grain into a wider or a thicker one."""
    LOOSE_TONGUE = "loose tongue"
    """A spline or a key that crosses another joint."""
    SEAT = "seat"
    """One part rests on another or against it, or hangs on it."""
    HINGE = "hinge"
    """One part turns on another: it is hung last of all, when both are finished."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JointFace:
    """A rectangle in which two parts of a joint meet, or face each other across a known play.

    Piece frame. `centre` lies on the incoming part, `normal` is the unit vector out of that part;
    the other part begins `play_mm` further along it: 0 touches, more closes after that play.
    `run_mm` is the rectangle's side along the unit vector `along`, `deep_mm` the other, both true:
    notches and stops are taken off, as several faces where one will not do. `glue` is how the grain
    meets where glue holds; None is bare wood, which pushes and never pulls. `taken_mm2` is what
    bores and slanting cuts take inside the rectangle. `drawn_off_mm` is how much further on the
    other part is drawn than the play: an opening that was measured, and that its parts do not make.
    """

    what: str
    centre: Vector
    normal: Vector
    along: Vector
    run_mm: float
    deep_mm: float
    play_mm: float
    glue: GrainRelation | None
    taken_mm2: float = 0.0
    drawn_off_mm: float = 0.0

    @property
    def drawn_play_mm(self) -> float:
        """How far off the other part is drawn [mm]."""
        return self.play_mm + self.drawn_off_mm

    @property
    def area_mm2(self) -> float:
        """The wood that meets in the rectangle [mm2]."""
        return self.run_mm * self.deep_mm - self.taken_mm2


class HoldBy(Enum):
    """What kind of fastener crosses a joint."""

    DOWEL = "dowel"
    PIN = "pin"
    SCREW = "screw"
    PEG = "peg"
    WEDGE = "wedge"
    HINGE = "hinge"


@dataclass(frozen=True, slots=True, kw_only=True)
class InSlot:
    """The slot that a fastener passes: it slides `along` that unit vector, piece frame.

    `across_n` is what it bears across the slot [N]; None where no figure is known.
    """

    along: Vector
    across_n: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastener:
    """A dowel, pin or screw across a joint: where it stands and what it bears, piece frame [mm, N].

    `at` is where its axis crosses the meeting face and `axis` the unit vector into the part that
    is gone into. `pull_n` is what it bears along its axis before it lets go and `side_n` across it;
    None where no figure is known, which readers tell as not checked and never as held. `name` and
    `note` are what is bought; its bores are `end_gap_mm` deeper than it goes. `in_end_grain` says
    that it is driven along the grain of what it goes into, or into a sheet's edge, and loosens.
    One that `bears_too` holds both ways along its axis, as a hinge does at its pin. `asked_by_mm`
    are the diameter and the length that it is bought by, where they are not its own. `slot` is what
    it slides in: its `side_n` is then 0, as it does not bear all ways.
    """

    by: HoldBy
    at: Vector
    axis: Vector
    diameter_mm: float
    incoming_mm: float
    into_mm: float
    is_glued: bool
    head_holds: bool
    pull_n: float | None
    side_n: float | None
    source: str
    name: str
    note: str = ""
    end_gap_mm: float = 0.0
    in_end_grain: bool = False
    bears_too: bool = False
    asked_by_mm: tuple[float | None, float | None] | None = None
    slot: InSlot | None = None

    @property
    def length_mm(self) -> float:
        """Its whole length [mm]."""
        return self.incoming_mm + self.into_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Driven:
    """A pin, a screw or a dowel that holds a joint, before its place is known [mm].

    `name` is as one asks for it and `note` what else to know; `incoming_mm` and `into_mm` are how
    far it stands in either part, `off_middle_mm` where along the joint's first face from its
    middle; its bores are `end_gap_mm` deeper than it goes. One that passes a slot in the part that
    comes `slides` so along or across that part's grain.
    """

    by: HoldBy
    name: str
    diameter_mm: float
    incoming_mm: float
    into_mm: float
    off_middle_mm: float = 0.0
    note: str = ""
    is_glued: bool = False
    head_holds: bool = True
    slides: Along | None = None
    end_gap_mm: float = 0.0


class Section(Enum):
    """What a length of metal is when it is cut across."""

    ROUND = "round"
    FLAT = "flat"


@dataclass(frozen=True, slots=True, kw_only=True)
class Metal:
    """Something bought that is seen at a joint, such as a hinge's barrel or leaf, piece frame [mm].

    It goes from `start` to `end`; `size_mm` is its size along the unit vector `across`, and square
    to that.
    """

    name: str
    start: Vector
    end: Vector
    across: Vector
    size_mm: tuple[float, float]
    section: Section


@dataclass(frozen=True, slots=True, kw_only=True)
class Joining:
    """A joint as made, for the readers: which instances, how they fit, what holds, which way in.

    `ways_in` are the directions, piece frame, in which the incoming part can be pushed home while
    the other stands still. `unstated` says what of its hold no figure is known for, in words; such
    a joining is told as not checked. `metal` is what is seen of its fasteners where they are no
    rods in the wood.
    """

    kind: str
    role: Role
    into: str
    incoming: str
    fit: Fit | None
    clearance_mm: float
    ways_in: tuple[Vector, ...]
    faces: tuple[JointFace, ...]
    fasteners: tuple[Fastener, ...] = ()
    advice: str = ""
    unstated: str = ""
    metal: tuple[Metal, ...] = ()

    @property
    def glued_faces(self) -> tuple[JointFace, ...]:
        """The faces that take glue."""
        return tuple(face for face in self.faces if face.glue is not None)

    @property
    def glue_area_mm2(self) -> float:
        """All faces that take glue, whatever their grain [mm2]."""
        return sum(face.area_mm2 for face in self.glued_faces)


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A joint worked out for two placed parts: the relation, and the cuts on both."""

    joining: Joining
    into_cuts: tuple[Cut, ...] = ()
    incoming_cuts: tuple[Cut, ...] = ()
    problems: tuple[Draft, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint(ABC):
    """A relation between two instances of a piece, named by their instance names.

    Args:
        into: the part that is gone into.
        incoming: the part that goes in.
        driven: pins and screws that hold it once it is home; builders put them in.
        rules: the shop's own limits; composing a piece hands them to every joint.
    """

    kind: ClassVar[str]
    mitres_ends: ClassVar[bool] = False
    """Whether both ends are sawn to one slope, which a spline or a key can cross."""

    into: str
    incoming: str
    driven: tuple[Driven, ...] = field(default=(), metadata=NOT_WRITTEN)
    rules: Rules = field(default=USUAL_RULES, metadata=NOT_WRITTEN)

    @abstractmethod
    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The joint worked out for two parts in their places, before this joint's cuts."""
