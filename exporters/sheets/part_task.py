"""What is drawn of a part, and of its mirror image with it."""

from __future__ import annotations

from dataclasses import dataclass

from exporters.faces import PartFaces
from exporters.sheets.paper import Projection
from exporters.sheets.pens import SheetStyle
from exporters.sheets.put_on import PutOn
from exporters.sheets.rough_words import Sawn
from exporters.sheets.tables import Table
from furniture.parts.part import Part
from furniture.pieces.twins import Flips
from furniture.units import Shown

Span = tuple[int, int]
"""First and last plus one of the cuts that a drawing shows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Opposite:
    """A part that is made as the drawn one is, but as seen in a mirror.

    Args:
        part: the part.
        item: its number in the parts list.
        flips: the axes of its frame that run against those of the drawn one.
    """

    part: Part
    item: int
    flips: Flips


@dataclass(frozen=True, slots=True, kw_only=True)
class Stands:
    """How an instance stands in the piece.

    Args:
        instance: its name.
        ways: those of its faces whose names do not say which way they look, with that way, such
            as `inside face` and `to the left`.
    """

    instance: str
    ways: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeIn:
    """Where the work tells how a part is made.

    Args:
        item: its number in the parts list.
        steps: numbers that hang on the whole of the work.
    """

    item: int
    steps: frozenset[int]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartTask:
    """A part to draw, and how.

    Args:
        part: the part.
        item: its number in the parts list.
        shown: the unit.
        faces: what they are called, and which are datums.
        quantity: how many there are of each; none where the table tells it.
        stock: what it is of, in words.
        sawn: from what; none where the table tells it.
        stands: how instances stand in the piece, where names of faces do not say it.
        notes: of this part, one paragraph each.
        work: where it is made.
        general: notes that hold for every part of the sheet.
        projection: first or third angle.
        style: pens and heights.
        opposite: its mirror image, which has no drawing of its own.
        alike: other parts that differ in figures of the table alone, with their numbers.
        letters: that stand for lengths [mm] of the drawn part which the table gives.
        table: a row for the part and for each like it.
        put_on: what is driven through it without a bore, or lies on it.
    """

    part: Part
    item: int
    shown: Shown
    faces: PartFaces
    quantity: int | None
    stock: str
    sawn: Sawn | None
    notes: tuple[str, ...]
    general: tuple[str, ...]
    projection: Projection
    style: SheetStyle
    opposite: Opposite | None = None
    stands: tuple[Stands, ...] = ()
    work: tuple[MadeIn, ...] = ()
    alike: tuple[tuple[int, Part], ...] = ()
    letters: tuple[tuple[float, str], ...] = ()
    table: Table | None = None
    put_on: tuple[PutOn, ...] = ()

    @property
    def parts(self) -> tuple[Part, ...]:
        """All that the drawing defines."""
        more = () if self.opposite is None else (self.opposite.part,)
        return (self.part, *more, *(part for _, part in self.alike))

    @property
    def told(self) -> str:
        """How many there are, of what, and what they are sawn from."""
        each = "each " if len(self.parts) > 1 else ""
        count = "" if self.quantity is None else f"{each}{self.quantity} of "
        return f"{count}{self.stock}{'' if self.sawn is None else f'; {self.sawn.in_full}'}."

    @property
    def items(self) -> tuple[int, ...]:
        """Their numbers in the parts list."""
        more = () if self.opposite is None else (self.opposite.item,)
        return (self.item, *more, *(item for item, _ in self.alike))
