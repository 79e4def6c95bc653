"""What closes a box above: nothing, or a lid in its rails' rabbets and what it is lifted by."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass
from enum import Enum

from furniture.builders.base_box import BoxFigures
from furniture.builders.common import StockOf
from furniture.builders.edges import panel_hidden
from furniture.builders.lid_fixing import LidFixing
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.panels import Plan, place_panel
from furniture.builders.passing import bit_within_mm
from furniture.builders.rules import DesignReader, at_most_known
from furniture.joints import Joint, RabbetJoint
from furniture.parts.cuts import Bore, Cut, FingerNotch
from furniture.parts.faces import EDGES, ENDS, Arris, Face
from furniture.parts.part import Placed
from furniture.pieces import Bought, Note, Reference, Surface
from furniture.rules.building import LEAST_FINGER
from furniture.units import Given, said

_USUAL_FINGER_MM, _USUAL_FINGER_INCH_MM = 25.0, 25.4
"""What fingers go into where nothing is said [mm]. Common practice, no source."""


class FingerHold(Enum):
    """How the lid is lifted out."""

    NOTCH = "notch"
    """A half-round notch in the middle of its front edge."""
    BORE = "bore"
    """A bore near the middle of its front edge; of a sliding lid, near the end drawn out."""
    RECESS = "recess"
    """A shallow slot for the finger tips, near the end at which a sliding lid is drawn out."""
    NONE = "none"


class Top(ABC):
    """What closes a box above, or that nothing does."""

    @abstractmethod
    def place(self, stock: StockOf) -> list[Placed]:
        """The lid in its place, if there is one."""

    @abstractmethod
    def joints(self) -> list[Joint]:
        """Its joints with the rails."""

    @abstractmethod
    def surfaces(self) -> list[Surface]:
        """Where the box can carry things."""

    @abstractmethod
    def hidden(self) -> dict[str, dict[Arris, str]]:
        """The arrises of lid and rails where no profile may run because of it, with the reason."""

    @abstractmethod
    def references(self) -> list[Reference]:
        """The heights that a sheet of the whole piece shows."""

    @property
    def notes(self) -> tuple[Note, ...]:
        """What the sheets say of it in words."""
        return ()

    @property
    def fixings(self) -> list[Bought]:
        """What is bought for it, besides what is counted off its joints."""
        return []


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenTop(Top):
    """Nothing: things stand on the bottom, whose thickness this knows [mm]."""

    figures: BoxFigures
    bottom: float

    def place(self, stock: StockOf) -> list[Placed]:
        """No lid."""
        return []

    def joints(self) -> list[Joint]:
        """None."""
        return []

    def surfaces(self) -> list[Surface]:
        """The bottom between the rails."""
        rail, width, depth = self.figures.rail, self.figures.width, self.figures.depth
        return [
            Surface(
                instance="bottom",
                low=(rail, rail),
                high=(width - rail, depth - rail),
                top_mm=self.bottom,
            )
        ]

    def hidden(self) -> dict[str, dict[Arris, str]]:
        """None."""
        return {}

    def references(self) -> list[Reference]:
        """The rails' top."""
        return [height_of("rails' top", self.figures.height)]


@dataclass(frozen=True, slots=True, kw_only=True)
class RabbetedTop(Top):
    """A lid lying in the rails' rabbets; `holds` is what is cut in it to lift it by."""

    figures: BoxFigures
    holds: tuple[Cut, ...]
    is_glued: bool

    def place(self, stock: StockOf) -> list[Placed]:
        """The lid on its rabbet floors."""
        low, high = self._plan()
        floor, rough = self.figures.rabbet_floor, self.figures.rough
        timber, grain = stock.timber("lid"), stock.grain("lid")
        return [place_panel("lid", timber, low, high, floor, rough, self.holds, grain=grain)]

    def _plan(self) -> tuple[Plan, Plan]:
        box = self.figures
        along, across = box.wall + box.gap_beside, box.wall + box.gap_before
        return (along, across), (box.width - along, box.depth - across)

    def joints(self) -> list[Joint]:
        """The lid in the rabbets of all four rails."""
        return [
            RabbetJoint(into=rail, incoming="lid", gap_mm=gap, is_glued=self.is_glued)
            for rail, gap in (
                ("front rail", self.figures.gap_before),
                ("back rail", self.figures.gap_before),
                ("left side rail", self.figures.gap_beside),
                ("right side rail", self.figures.gap_beside),
            )
        ]

    def surfaces(self) -> list[Surface]:
        """The lid's top."""
        low, high = self._plan()
        return [Surface(instance="lid", low=low, high=high, top_mm=self.figures.lid_top)]

    def hidden(self) -> dict[str, dict[Arris, str]]:
        """The lid's lower edges, which lie in the rabbets."""
        why = "this edge lies in the rails' rabbets: a profile there would spoil the seat"
        return {"lid": panel_hidden(Face.BACK_SIDE, EDGES + ENDS, why)}

    def references(self) -> list[Reference]:
        """The lid's top, where the rails' are planed to."""
        return [height_of("lid top", self.figures.lid_top)]


def height_of(what: str, top: float) -> Reference:
    """A height above the floor, as it is told [mm]."""
    return Reference(what=what, start=(0.0, 0.0, 0.0), end=(0.0, 0.0, top), from_floor=True)


def lid_size(figures: BoxFigures) -> tuple[float, float]:
    """How wide and how deep a lid in rabbets is between its gaps [mm]."""
    return (
        figures.width - 2 * (figures.wall + figures.gap_beside),
        figures.depth - 2 * (figures.wall + figures.gap_before),
    )


def usual_finger_mm(reader: DesignReader, most: float) -> float:
    """The size of what fingers go into where nothing is said, as a bit bores it [mm].

    Args:
        reader: in whose unit the maker buys bits.
        most: that there is room for [mm].

    """
    usual = _USUAL_FINGER_INCH_MM if reader.shown.is_inch else _USUAL_FINGER_MM
    return bit_within_mm(min(usual, most), reader.shown)


def read_finger_cuts(
    reader: DesignReader,
    hold: FingerHold | None,
    size: Given | None,
    figures: BoxFigures,
    fixing: LidFixing,
    grain: PanelGrain,
) -> tuple[Cut, ...]:
    """What is cut in the lid to lift it by; problems are noted with the reader."""
    is_loose = fixing is LidFixing.LOOSE
    usual = FingerHold.NOTCH if is_loose else FingerHold.NONE
    given = usual if hold is None else hold
    hold = reader.choice("finger_hold", given, FingerHold, FingerHold.NONE)
    if hold is not FingerHold.NONE and not is_loose:
        reader.refuse(
            "finger_hold", said(hold), "FingerHold.NONE", "a lid that is fixed is not lifted",
            "write FingerHold.NONE, or leave it out",
        )  # fmt: skip
    elif hold is FingerHold.RECESS:
        reader.refuse(
            "finger_hold", said(hold), "FingerHold.NOTCH or BORE",
            "nothing lifts by a recess: it is for a lid that slides", "write FingerHold.NOTCH",
        )  # fmt: skip
    if hold in (FingerHold.NONE, FingerHold.RECESS):
        return ()
    length, across = lid_size(figures)
    most = min(60.0, at_most_known(length / 3), at_most_known(across / 2.5))
    if most < reader.rules[LEAST_FINGER]:
        reader.refuse(
            "finger_hold", str(hold), "FingerHold.NONE", "the lid is too small for a finger hold",
            "write FingerHold.NONE",
        )  # fmt: skip
        return ()
    wide = usual_finger_mm(reader, most) if size is None else reader.length(
        "finger_size", size, at_least=reader.rules[LEAST_FINGER], at_most=most,
        why="a finger goes in and the lid keeps its edge (common practice)",
    )  # fmt: skip
    if hold is FingerHold.NOTCH:
        edge = grain.face(Face.FACE_EDGE)
        return (FingerNotch(edge=edge, centre_mm=length / 2, radius_mm=wide / 2),)
    x, y = grain.point((length / 2, wide * 1.5), across)
    return (Bore(face=Face.FACE_SIDE, x_mm=x, y_mm=y, diameter_mm=wide),)
