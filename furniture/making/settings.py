"""How wood is held and how a tool is set: all that a pass needs, and all that a replay may read.

A pass is told from the wood in hand alone: every distance is measured from a face of that wood as
it is just before the pass, from where it reaches furthest, never from a frame. Lengths in mm,
angles in degrees. Faces are those of the workpiece's own frame: x along the grain from the named
end, y across from the face edge, z through the thickness to the face side.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.parts.faces import Arris, Face
from furniture.shop.tools.stack import Stack


class Machine(Enum):
    """What does the work."""

    JOINTER = "jointer"
    PLANER = "planer"
    TABLE_SAW = "table saw"
    ROUTER_TABLE = "router table"
    ROUTER = "router"
    DRILL_PRESS = "drill press"
    DOWEL_JIG = "doweling jig"
    BENCH = "bench"


class CutterKind(Enum):
    """What does the cutting."""

    KNIVES = "knives"
    BLADE = "blade"
    DADO_HEAD = "dado head"
    STRAIGHT_BIT = "straight bit"
    ROUND_OVER_BIT = "round-over bit"
    CHAMFER_BIT = "chamfer bit"
    DRILL = "drill"
    COUNTERSINK = "countersink"
    HAND_PLANE = "hand plane"
    HAND_SAW = "hand saw"
    CHISEL = "chisel"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutter:
    """A cutter and its size: the width of a head or bit, the radius of a profile [mm].

    `stack` is what stands on the arbor for a head.
    """

    kind: CutterKind
    size_mm: float | None = None
    stack: Stack | None = None


class Guide(Enum):
    """What the wood is guided by."""

    FENCE = "fence"
    SLED = "sled"
    BED = "bed"
    TABLE = "table and fence"
    JIG = "jig"
    LINE = "a line"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rig:
    """A machine made ready: what is dear to change, beside which a fence or a stop is cheap.

    tilt_deg: of the blade out of upright; turned_deg: of the sled's fence out of square.
    """

    machine: Machine
    cutter: Cutter
    guide: Guide
    tilt_deg: float = 0.0
    turned_deg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """How the wood lies: which face is down, which edge is against the fence, which end at a stop.

    None is what the pass does not ask for.
    """

    down: Face | None = None
    against: Face | None = None
    stop: Face | None = None


AS_IT_COMES = Hold()
"""However it lies best: nothing is measured from how it is held."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """A face made flat: `takes_mm` comes off `face`, over all of it."""

    face: Face
    takes_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Parallel:
    """Wood beyond `at_mm` from `off` goes, over all of the opposite face: a planer."""

    off: Face
    at_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Slice:
    """A blade right through: the near side of its kerf lies `at_mm` from `off`.

    What lies between `off` and the blade is kept; what lies beyond the kerf is the rest. Where
    there is a `long_face`, `at_mm` is measured along it, from where it ends at `off`; a leaning cut
    goes back from there, through the wood, by the tangent of `lean_deg`, so that the kept wood is
    longest on that face.
    """

    off: Face
    at_mm: float
    kerf_mm: float
    lean_deg: float = 0.0
    long_face: Face | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Skim:
    """An end or an edge trued by the blade without a stop: `takes_mm` comes off at its longest.

    Where there is a `long_face`, `takes_mm` comes off what that face has left at `face`; a leaning
    cut goes back from there by the tangent of `lean_deg`. All that lies beyond the cut is waste.
    """

    face: Face
    takes_mm: float
    kerf_mm: float
    lean_deg: float = 0.0
    long_face: Face | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trench:
    """A square channel: rabbet, groove or dado.

    Args:
        face: that it is sunk from.
        along: the axis that it runs along, 0 or 1 for a wide face.
        off: the face that its near wall is measured from; a rabbet has 0 there.
        near_mm: from `off` to the near wall.
        width_mm: from wall to wall, or of the step.
        depth_mm: below `face`.
        whole_low_mm: wood left whole before it at the low end of its run; 0 runs out.
        whole_high_mm: the same at the high end.
        corner_mm: the radius left where a stopped end meets a wall that lies in the wood.
    """

    face: Face
    along: int
    off: Face
    near_mm: float
    width_mm: float
    depth_mm: float
    whole_low_mm: float = 0.0
    whole_high_mm: float = 0.0
    corner_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Bored:
    """A round hole, or a round-ended one between two centres.

    Args:
        face: that it is sunk from.
        off: the two faces that the centre is measured from.
        at_mm: how far from each.
        diameter_mm: of the hole.
        depth_mm: below `face`; None goes right through.
        to_mm: the second centre of a long hole, from the same two faces.
        mouth_mm: the diameter of its countersink at the face.
        mouth_depth_mm: how far below `face` the countersink is as narrow as the hole.
    """

    face: Face
    off: tuple[Face, Face]
    at_mm: tuple[float, float]
    diameter_mm: float
    depth_mm: float | None
    to_mm: tuple[float, float] | None = None
    mouth_mm: float = 0.0
    mouth_depth_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Notched:
    """A bite out of an edge or an end, right through the thickness.

    Args:
        edge: what it is cut from.
        off: the face that its near side is measured from, along that edge.
        near_mm: from `off` to its near side; 0 is open there.
        length_mm: along the edge.
        depth_mm: into the wood.
        corner_mm: radius of its inner corners that lie in the wood.
    """

    edge: Face
    off: Face
    near_mm: float
    length_mm: float
    depth_mm: float
    corner_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Easing:
    """A sharp line taken off, as much on both faces: rounded to that radius, or flat."""

    arris: Arris
    size_mm: float
    is_round: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ByHand:
    """Work marked out from the sheet and done at the bench: no setting says it all."""


Setting = (
    Surface | Parallel | Slice | Skim | Trench | Bored | Notched | Easing | ByHand
)  # fmt: skip
