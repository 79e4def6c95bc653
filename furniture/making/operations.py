"""An operation: what is done to which wood, with which tool, and which cuts it realises."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.making.glue_ups.values import Block, Levelling
from furniture.making.glue_ups.values import Stage as GlueUp
from furniture.making.settings import (
    AS_IT_COMES,
    Hold,
    Machine,
    Recorded,
    Rig,
    Setting,
    StraightEdge,
    Trench,
)
from furniture.making.why import Why
from furniture.parts.faces import Face
from furniture.shop.tools.on_hand import NoTool
from furniture.shop.tools.values import TooMuch


class Stage(Enum):
    """The parts of the work, in their order."""

    BREAK_OUT = "break out"
    STRIPS = "glue up strips"
    MILL = "mill to size"
    JOIN = "cut the joints"
    PART = "part and mitre"
    SHAPE = "shape"
    DRY = "try dry"
    FIT = "fit what is made to measure"
    TRIM = "trim what was left long"
    INSIDE = "finish what glue will shut in"
    GLUE = "glue up"
    FINISH = "finish"
    FIX = "fix"


class Kind(Enum):
    """What is done, in the trade's words."""

    JOINT_FACE = "joint a face"
    JOINT_EDGE = "joint an edge"
    RESAW = "resaw"
    PLANE = "plane to thickness"
    LAY_OUT_STRIPS = "lay out strips"
    EDGE_GLUE = "glue strips edge to edge"
    SCRAPE = "scrape off glue"
    RIP = "rip"
    PLANE_WIDTH = "plane to width"
    CROSSCUT = "crosscut"
    SQUARE_END = "square an end"
    RABBET = "rabbet"
    GAIN = "gain"
    GROOVE = "groove"
    DADO = "dado"
    MORTISE = "mortise"
    END_BORE = "bore an end or an edge"
    BORE = "bore"
    SLOT = "rout a slot"
    CHOP = "chop square"
    FROM_SCRAP = "saw from scrap"
    MITRE = "mitre"
    BEVEL = "bevel"
    SPLINE_GROOVE = "groove a mitre"
    KEY_SLOT = "slot a corner"
    PLANE_TO_FIT = "plane to fit"
    FLUSH = "make flush"
    NOTCH = "notch"
    PROFILE = "profile"
    SHAPE = "shape by hand"
    TEST_CUT = "test cut"
    MEASURE = "measure"
    DRY_FIT = "dry fit"
    SAND = "sand"
    MASK = "mask"
    SIZE_END_GRAIN = "size end grain"
    GLUE = "glue"
    PUT_TOGETHER = "put together dry"
    LEVEL = "plane flush"
    TRIM = "trim to length"
    COAT = "finish"
    FIX = "fix"
    LAY_IN = "lay in"
    HANG = "hang"


CLOSES = frozenset({Kind.GLUE, Kind.PUT_TOGETHER})
"""What brings bodies together."""


class CaulShape(Enum):
    """What a caul is that takes a clamp or a band where its head alone does not bear."""

    WEDGE = "sloped cauls"
    CORNER = "corner cauls"
    SQUARE = "square cauls"
    BLOCK = "blocks"
    ACROSS = "cauls across"


@dataclass(frozen=True, slots=True, kw_only=True)
class SawnCauls:
    """Cauls for glue-ups one after another, on these instances, as many as one asks for at most.

    lean_deg: the slope that they meet, where a pass of the making cuts it; block: how large blocks
    are; long_mm: how long what lies across is at least.
    """

    count: int
    glue_ups: tuple[int, ...]
    on: tuple[str, ...]
    shape: CaulShape
    lean_deg: float | None = None
    block: Block | None = None
    long_mm: float | None = None

    @property
    def told(self) -> Recorded:
        """As a record tells them: those that are sawn are known again."""
        return {
            "what": self.shape.value,
            "count": self.count,
            "on": ", ".join(self.on),
            "lean_deg": None if self.lean_deg is None else round(self.lean_deg, 9) + 0.0,
            "high_mm": None if self.block is None else round(self.block.high_mm, 9) + 0.0,
            "wide_mm": None if self.block is None else round(self.block.wide_mm, 9) + 0.0,
            "long_mm": None if self.long_mm is None else round(self.long_mm, 9) + 0.0,
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class SawnSpacers:
    """Spacers, each as long as the row steps [mm], for cuts of one kind on some wood."""

    count: int
    each_mm: float
    kind: Kind
    on: tuple[str, ...]

    @property
    def told(self) -> Recorded:
        """As a record tells them: those that are sawn are known again."""
        return {
            "what": "spacers",
            "count": self.count,
            "on": ", ".join(self.on),
            "each_mm": round(self.each_mm, 9) + 0.0,
            "kind": self.kind.value,
        }


Scrap = SawnCauls | SawnSpacers
"""What is sawn from scrap."""


class StopBlock(Enum):
    """What the stop is made of."""

    FIRM = "a firm block"
    SCRAP = "a block of scrap, which the cutter saws into"


class Support(Enum):
    """What carries a router's base where the wood alone is too narrow for it, or small wood past a
    bit."""

    PACKED = "packed out level on both sides, so that the base does not tip"
    CARRIED = "clamped to a carrier, too short to be held past the bit"


class Axis(Enum):
    """One size of a part."""

    LENGTH = "length"
    WIDTH = "width"
    THICKNESS = "thickness"


@dataclass(frozen=True, slots=True)
class CutOf:
    """A cut of an instance: its place among the cuts of its part."""

    instance: str
    index: int


@dataclass(frozen=True, slots=True)
class SizeOf:
    """A finished size of an instance."""

    instance: str
    axis: Axis


@dataclass(frozen=True, slots=True)
class After:
    """What must come before an operation, by its key, and why."""

    key: str
    why: Why


@dataclass(frozen=True, slots=True)
class Span:
    """What is read over the outside of what stands together: from one face to the other, each with
    its instance; where a face is a slope, to its long point.
    """

    low: tuple[str, Face]
    high: tuple[str, Face]


class Follows(Enum):
    """Which figure of an operation follows what was measured."""

    SIZE = "size"
    PLACE = "place"
    DEPTH = "depth"
    WIDTH = "width"


@dataclass(frozen=True, slots=True)
class FitTo:
    """A figure that is set from what an earlier operation measured or tried dry, by its key."""

    figure: Follows
    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class InHand:
    """The wood in hand at a pass [mm]: along the grain, across it, through it."""

    length_mm: float
    width_mm: float
    thickness_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """The machine that would do a pass best, and why it does not; without a why there is none."""

    machine: Machine
    why: tuple[TooMuch, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """One thing done to one or more workpieces.

    Args:
        key: what it is called from run to run: it holds no figure.
        kind: what is done.
        stage: of the work.
        takes: workpieces in hand, by id.
        gives: what they are afterwards; the same ids where nothing is parted. A slice gives what
            lies between its `off` and the blade first, and then what lies beyond the kerf, if it is
            not waste. It takes one piece of wood.
        rig: the machine made ready; None at the bench.
        hold: how the wood lies.
        setting: the pass; None where nothing is cut.
        cuts: cuts finished here; over all operations each stands once.
        begins: cuts begun here and finished by a later operation.
        sizes: sizes reached here; over all operations each stands once.
        after: what must come before it.
        fit_to: figures of its setting that follow what was measured, each with where it was.
        is_rough: sawn to a line, so that it asks for no set-up of its own.
        near_mm: where the cutter's near side stands, pass by pass, from that of the setting; of a
            rabbet, how much of the cutter is at work. Empty is one pass.
        depths_mm: how deep a router's straight bit is set, pass after pass, where one pass would be
            too deep. Empty is one pass.
        in_hand: how large the wood is that is held; None where nothing is cut.
        wanting: what no tool on hand makes, so that it is done by hand.
        refused: why it is not done on the machine that would do it best.
        glue_up: the glue-up that it belongs to.
        levelled: what is planed level here.
        support: what carries a router's base, where the wood is too narrow.
        straight_edge: what a router's base runs along, where that is clamped on.
        scrap: what is sawn from scrap here.
        span: what is measured, where it is read over the outside of several parts.
    """

    key: str
    kind: Kind
    stage: Stage
    takes: tuple[str, ...]
    gives: tuple[str, ...]
    rig: Rig | None = None
    hold: Hold = AS_IT_COMES
    setting: Setting | None = None
    cuts: tuple[CutOf, ...] = ()
    begins: tuple[CutOf, ...] = ()
    sizes: tuple[SizeOf, ...] = ()
    after: tuple[After, ...] = ()
    fit_to: tuple[FitTo, ...] = ()
    is_rough: bool = False
    near_mm: tuple[float, ...] = ()
    depths_mm: tuple[float, ...] = ()
    in_hand: InHand | None = None
    wanting: NoTool | None = None
    refused: Refused | None = None
    glue_up: GlueUp | None = None
    levelled: Levelling | None = None
    support: Support | None = None
    straight_edge: StraightEdge | None = None
    span: Span | None = None
    scrap: Scrap | None = None

    @property
    def of_scrap(self) -> Recorded | None:
        """What is made of scrap alone, as a record tells it: a test cut by its rig."""
        if self.kind is Kind.TEST_CUT and self.rig is not None:
            return self.rig.told
        return None if self.scrap is None else self.scrap.told

    @property
    def stop_block(self) -> StopBlock | None:
        """What stands at the stopped end; None where no end is stopped.

        Beside a step at the very end that is stopped some of the head, or all but a hair of it,
        stands under the stop, as under the false fence where the step runs along.
        """
        setting, rig = self.setting, self.rig
        if self.hold.stop is None:
            return None
        is_sawn = (
            isinstance(setting, Trench)
            and setting.near_mm == 0.0
            and self.hold.stop is setting.off
            and rig is not None
            and rig.machine is Machine.TABLE_SAW
        )
        return StopBlock.SCRAP if is_sawn else StopBlock.FIRM
