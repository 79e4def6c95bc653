"""What a glue-up is, as values: stages in order, and for each all that a maker must know of it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.assembly.values import Step
from furniture.joints.joint import Fastener, GrainRelation, Joining, JointFace
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector
from furniture.pieces.bought import Bought
from furniture.pieces.piece import FixedBody

Pair = tuple[str, str]
"""A joint by its two instances: (into, incoming)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueBench:
    """What the maker's glue and clamps allow.

    Args:
        seconds_per_face: to spread glue on one face [s].
        open_seconds: from the first spread to the last joint closed [s].
        head_mm: across the head of a clamp [mm].

    **Source:** 15 s a face: own estimate. 300 s: open time of yellow PVA glue, five minutes
    (woodworkingarchive.biz, glue characteristics; read); the label decides. 30 mm: own estimate of
    a bar clamp's head.
    """

    seconds_per_face: float = 15.0
    open_seconds: float = 300.0
    head_mm: float = 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class GluedFace:
    """A face that takes glue; `wants_size` where end grain drinks it and is sized first."""

    pair: Pair
    face: JointFace
    wants_size: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueArea:
    """How much meets with the grain so [mm2]."""

    grain: GrainRelation
    area_mm2: float


class Bareness(Enum):
    """Why a face stays without glue."""

    MOVES = "the part moves with the seasons or comes out"
    NOT_BRIDGED = "glue does not bridge the play, or the joint holds without it"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bare:
    """Where no glue goes: `instance` lies against `against`.

    `only_on` are the instances that it is glued to in this stage, empty where it is to none.
    """

    instance: str
    against: str
    why: Bareness
    only_on: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class DrivenIn:
    """A dowel, pin, screw or peg of a joint, in its place (piece frame)."""

    pair: Pair
    fastener: Fastener


@dataclass(frozen=True, slots=True, kw_only=True)
class FixedWith:
    """Things to buy that a builder names, put through these instances once they are together."""

    thing: Bought


class Caul(Enum):
    """What goes between a clamp's head and the wood."""

    NONE = "none"
    SQUARE = "square"
    MITRE_CUT = "mitre-cut"
    BLOCK = "block"
    """It lifts the head clear of what stands out beside the pad."""
    NO_ROOM = "no room"
    """Neither head nor block has room there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pad:
    """Where one head of a clamp bears.

    Args:
        instance: the part under it.
        at: the middle of the head on the wood, piece frame [mm].
        push: unit vector of the force on the wood.
        share: of the head's area, what wood bears square to the force.
        caul: what is wanted below it.
        rise_mm: how far what stands beside it, under the head, stands out beyond the pad [mm].
        free_mm: how wide a block has room there [mm].
    """

    instance: str
    at: Vector
    push: Vector
    share: float
    caul: Caul
    rise_mm: float = 0.0
    free_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """What lifts a clamp's head over what stands beside: how high, and how wide at most [mm]."""

    high_mm: float
    wide_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampLine:
    """A line of force straight through what stands in the stage, a pad at either end.

    `pressed` are the faces that it presses, each with its joint; long ones want several clamps
    beside it. `throat_mm` is how far in its heads must reach from the bar, which runs past all
    wood between them, and `across_mm` how far it is right across that wood there, the shortest way.
    """

    direction: Vector
    pads: tuple[Pad, Pad]
    pressed: tuple[tuple[Pair, JointFace], ...]
    throat_mm: float
    across_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A band, or tape, round a closed ring of mitres: it presses all of them at once.

    `round` are the instances that it lies on, `axis` the unit vector along the ring's axis, and
    `pressed` the mitres.
    """

    round: tuple[str, ...]
    axis: Vector
    pressed: tuple[Pair, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagonals:
    """A frame that is square when its two diagonals are these [mm].

    `first` and `second` each run from corner to corner, piece frame.
    """

    of: tuple[str, ...]
    first: tuple[Vector, Vector]
    second: tuple[Vector, Vector]
    lengths_mm: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Flat:
    """Parts that must lie out of wind, `axis` square to their plane."""

    of: tuple[str, ...]
    axis: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Square:
    """A part that must stand square to another."""

    of: str
    to: str


Check = Diagonals | Flat | Square


class When(Enum):
    """When a face is levelled or an end cut."""

    AFTER = "after the stage, in its place"
    BEFORE = "before the stage, the part by itself: in its place nothing reaches it"


@dataclass(frozen=True, slots=True, kw_only=True)
class Levelling:
    """A face that is planed level with a neighbour's.

    Args:
        instance: whose face stands proud.
        face: of that part.
        side: unit vector out of it, piece frame.
        flush_with: the instance whose face is met.
        by_mm: how much comes off [mm].
        when: before the stage or after it.
        in_the_way: instances that would stand in a plane's way once the stage is closed.
    """

    instance: str
    face: Face
    side: Vector
    flush_with: str
    by_mm: float
    when: When
    in_the_way: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Trimming:
    """An end that was left long and is cut once its joints are home.

    Args:
        instance: whose end it is.
        end: of that part.
        long_by_mm: how much was left on it [mm].
        length_mm: of the part from its other end, once it is cut [mm].
        measured_from: the instance and its face that the cut is measured from.
        distance_mm: from that face to the cut [mm].
        when: after the stage; or before it, measured at the dry fit, where it covers the end.
    """

    instance: str
    end: Face
    long_by_mm: float
    length_mm: float
    measured_from: tuple[str, Face]
    distance_mm: float
    when: When


@dataclass(frozen=True, slots=True, kw_only=True)
class AtOnce:
    """Parts that go on what carries them together: nothing else would hold them square."""

    carrier: str
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One glue-up: all that is closed before the glue sets.

    Args:
        number: from 1.
        bodies: what comes together, each already one; those of `dry` go in without glue.
        dry: instances that go in without glue.
        moves: how they come together, in order; every move is straight, or of two straight legs.
        glued: joints that close with glue.
        spread: the faces that take glue.
        areas: of those, by how the grain meets.
        bare: where no glue goes.
        dowels: glued in their bores before the parts close.
        driven: pins, screws and pegs driven once the joints are home.
        fixed_with: things a builder names that are put in once the parts are together.
        weights: weights that come in with what they lie on.
        held_true_by: instances put on dry to hold the others in their places: the clamps press on
            them, and they come off with the clamps.
        at_once: what goes on its carrier together with what it is glued to.
        clamps: straight lines of force.
        bands: round closed rings of mitres.
        unpressed: joints that want a clamp, and on which none has room or wood to bear on.
        checks: what is measured before the glue sets.
        levelled: faces planed level, before it or after it.
        trimmed: ends cut after it.
        spread_seconds: to spread the glue [s].
        over_open_seconds: how much of that is more than the glue stays open [s].
    """

    number: int
    bodies: tuple[tuple[str, ...], ...]
    dry: tuple[str, ...]
    moves: tuple[Step, ...]
    glued: tuple[Joining, ...]
    spread: tuple[GluedFace, ...]
    areas: tuple[GlueArea, ...]
    bare: tuple[Bare, ...]
    dowels: tuple[DrivenIn, ...]
    driven: tuple[DrivenIn, ...]
    fixed_with: tuple[FixedWith, ...]
    weights: tuple[FixedBody, ...]
    held_true_by: tuple[str, ...]
    at_once: tuple[AtOnce, ...]
    clamps: tuple[ClampLine, ...]
    bands: tuple[Band, ...]
    unpressed: tuple[Pair, ...]
    checks: tuple[Check, ...]
    levelled: tuple[Levelling, ...]
    trimmed: tuple[Trimming, ...]
    spread_seconds: float
    over_open_seconds: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """A part that turns on others, hung when all are finished, with what and with what besides.

    `by` are its hinges, `fixed_with` their screws and what stops it.
    """

    instance: str
    onto: tuple[str, ...]
    by: tuple[Fastener, ...]
    fixed_with: tuple[FixedWith, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueUps:
    """All stages in order, and what is only laid in at the end because it comes out by itself.

    `hung` are those of the parts laid in that turn on hinges; `fixed_with` are things named for
    parts that no stage brings in.
    """

    stages: tuple[Stage, ...]
    laid_in: tuple[Step, ...]
    fixed_with: tuple[FixedWith, ...] = ()
    hung: tuple[Hung, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class NoStages:
    """No order of stages brings the piece together.

    Args:
        stuck: the instances that lock one another.
        bodies: what each stage would have to bring together in the order that came furthest; empty
            where not even single parts go together.
    """

    stuck: tuple[str, ...]
    bodies: tuple[tuple[str, ...], ...] = ()
