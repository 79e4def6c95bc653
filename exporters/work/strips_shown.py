"""What the small picture of a part that is glued up from strips shows."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from exporters.faces import FaceNames
from exporters.work.steps import Step
from furniture.making.making import Making
from furniture.making.operations import Kind
from furniture.parts.faces import Face
from furniture.pieces.piece import Piece
from furniture.units import dialled


@dataclass(frozen=True, slots=True, kw_only=True)
class StripsShown:
    """The strips of a part side by side, glued and in their clamps, seen from above.

    Args:
        of: the part.
        widths_mm: of the strips from joint to joint, in their order [mm].
        widths: the same as figures.
        first_edge: what the part's edge is called that strip 1 has.
        clamps: across the joints, every second one from below.
        cauls: pairs that hold the strips level.
    """

    of: str
    widths_mm: tuple[float, ...]
    widths: tuple[str, ...]
    first_edge: str
    clamps: int
    cauls: int

    @property
    def said(self) -> str:
        """What is seen, in words."""
        return f"strips of {self.of} side by side in their clamps, from above"


def strips_shown(piece: Piece, making: Making, step: Step) -> StripsShown | None:
    """What the picture of a step shows that glues up strips: its first part; None for all others.

    Args:
        piece: that is made.
        making: of it.
        step: of the making.
    """
    glued = next((each for each in step.operations if each.kind is Kind.EDGE_GLUE), None)
    if glued is None:
        return None
    (wood,) = (each for each in making.workpieces if each.id == glued.gives[0])
    takes = next(each for each in making.edge_gluing if each.wood == wood.id)
    joints = [each.at_mm[1] for each in wood.glued_of[1:]]
    marks = [wood.low[1], *joints, wood.high[1]]
    widths = tuple(b - a for a, b in pairwise(marks))
    return StripsShown(
        of=wood.id,
        widths_mm=widths,
        widths=tuple(str(dialled(each, piece.shown)) for each in widths),
        first_edge=FaceNames(piece=piece).of(wood.instances, Face.FACE_EDGE),
        clamps=takes.clamps.count + takes.wanting,
        cauls=takes.cauls,
    )
