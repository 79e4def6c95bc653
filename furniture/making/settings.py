"""How wood is held and how a tool is set: all that a pass needs, and all that a replay may read.

A pass is told from the wood in hand alone: every distance is measured from a face of that wood as
it is just before the pass, from where it reaches furthest, never from a frame. Lengths in mm,
angles in degrees. Faces are those of the workpiece's own frame: x along the grain from the named
end, y across from the face edge, z through the thickness to the face side.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
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
    HAND_PLANE = "hand plane"
    HAND_SAW = "hand saw"
    SHOT = "hand saw and shooting board"
    CHISEL = "chisel"
    SAW_AND_CHISEL = "hand saw and chisel"
    SAW_AND_FILE = "coping saw and file"


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
    CARRIER = "straight carrier"
    LINE = "a line"
    EDGE_GUIDE = "edge guide"
    BEARING = "the bit's own bearing"
    CRADLE = "cradle"


Recorded = Mapping[str, str | float | None]
"""What a record tells, lengths in mm, so that it is known again."""


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

    @property
    def is_square(self) -> bool:
        """Whether it cuts square both ways."""
        return not self.tilt_deg and not self.turned_deg

    @property
    def told(self) -> Recorded:
        """As a record tells it, lengths in mm: an earlier packet's rig is known again."""
        size = self.cutter.size_mm
        return {
            "machine": self.machine.value,
            "cutter": self.cutter.kind.value,
            "cutter_mm": None if size is None else round(size, 9) + 0.0,
            "tilt_deg": round(self.tilt_deg, 9) + 0.0,
            "turned_deg": round(self.turned_deg, 9) + 0.0,
            "against": self.guide.value,
        }


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
        run_out_mm: how far beyond its full depth, towards what is left whole, the cutter's rim
            still cuts the surface: the feed stops where that reaches its mark.
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
    run_out_mm: float = 0.0

    @property
    def marks_mm(self) -> tuple[float, float]:
        """How far from the low and the high end of its run the cut stops on the surface [mm]."""
        whole = (self.whole_low_mm, self.whole_high_mm)
        low, high = (each - self.run_out_mm if each > 0.0 else 0.0 for each in whole)
        return low, high


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

    @property
    def beside(self) -> int:
        """Which of `off` a fence is measured from, or the edge that a router runs along."""
        runs_along_second = self.to_mm is not None and self.at_mm[0] == self.to_mm[0]
        return 0 if runs_along_second else 1


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
class MitreGroove:
    """A groove square into a mitred end, for a spline.

    Where the long point is on a wide face it runs along the sharp line; where it is on an edge,
    down the slope.

    Args:
        end: that is mitred.
        long_face: where the wood is longest there.
        lean_deg: of the mitre, out of square.
        off: the face that its near wall is measured from: down the slope from the long point, or
            along the sharp line from a wide face.
        near_mm: from there to the near wall.
        width_mm: from wall to wall.
        depth_mm: square below the slope.
        whole_low_mm: wood left whole before it, at the low end of the sharp line or at the long
            point; 0 runs out.
        whole_high_mm: the same at the other end.
        corner_mm: the radius left in its stopped ends.
    """

    end: Face
    long_face: Face
    lean_deg: float
    off: Face
    near_mm: float
    width_mm: float
    depth_mm: float
    whole_low_mm: float = 0.0
    whole_high_mm: float = 0.0
    corner_mm: float = 0.0

    @property
    def sharp_axis(self) -> int:
        """The axis along the mitre's sharp line."""
        return 3 - self.end.axis - self.long_face.axis

    def on_the_sled_mm(self, length_mm: float, thickness_mm: float) -> tuple[float, float]:
        """What a tilted blade is set to, the long face up: stop and height [mm].

        The stop is at the other end; from it to the blade's nearer side where it leaves the table,
        and from the table to the highest corner of the cut.

        Args:
            length_mm: of the wood, between its long points [mm].
            thickness_mm: of the wood [mm].

        **Source:** own derivation: a wall s down the slope begins s sin a inside the long point and
        t - s cos a above the table; its line reaches the table by the cotangent of a further out.
        """
        lean = math.radians(self.lean_deg)
        far = self.near_mm + self.width_mm
        inside = far * math.sin(lean)
        inside -= (thickness_mm - far * math.cos(lean)) / math.tan(lean)
        height = thickness_mm - self.near_mm * math.cos(lean) + self.depth_mm * math.sin(lean)
        return length_mm - inside, height


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerSlot:
    """A slot across the outside of a closed corner, which lies downwards in a cradle.

    The frame is in hand; the figures are told on one of its parts. Both outer faces lie in the
    cradle, so that the floor is square to the mitre.

    Args:
        of: the instance that is measured.
        end: its end at that corner.
        long_face: its outer face, where it is longest there.
        lean_deg: of the mitre, which is how steep that face lies in the cradle.
        off: its face that the near wall is measured from, along the corner.
        near_mm: from there to the near wall.
        width_mm: from wall to wall.
        depth_mm: from the sharp corner to the floor.
    """

    of: str
    end: Face
    long_face: Face
    lean_deg: float
    off: Face
    near_mm: float
    width_mm: float
    depth_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Flush:
    """What stands out of the faces of other parts, which are in one body with it, is taken off.

    Args:
        with_faces: each instance with its face.
    """

    with_faces: tuple[tuple[str, Face], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Easing:
    """A sharp line taken off, as much on both faces: rounded to that radius, or flat."""

    arris: Arris
    size_mm: float
    is_round: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ByHand:
    """Work marked out from the sheet and done at the bench: no setting says it all.

    Args:
        tenon_on: the end that a tenon is left on; None for other work.
    """

    tenon_on: Face | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StraightEdge:
    """What a router's base runs along, clamped across the wood beside a channel.

    Args:
        off: the face that it is measured from.
        towards: the face that it lies towards, seen from the channel: `off`, or the one opposite.
        at_mm: from `off` to the edge that the base bears on, beyond the wood where it is less than
            nothing.
        margin_mm: from there to the bit's nearer side.
    """

    off: Face
    towards: Face
    at_mm: float
    margin_mm: float

    def near_mm(self, bit_mm: float, shims_mm: Sequence[float]) -> tuple[float, ...]:
        """How far off `off` the bit's nearer side stands in each pass [mm].

        Args:
            bit_mm: across the bit.
            shims_mm: between the base and the edge, pass by pass.
        """
        if self.towards is self.off:
            return tuple(self.at_mm + self.margin_mm + each for each in shims_mm)
        return tuple(self.at_mm - self.margin_mm - bit_mm - each for each in shims_mm)


Setting = (
    Surface | Parallel | Slice | Skim | Trench | Bored | Notched | MitreGroove | CornerSlot | Flush
    | Easing | ByHand
)  # fmt: skip
