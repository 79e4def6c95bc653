"""What the piece and its work call what lies on a board: its faces, and the steps that saw it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from exporters.faces import MARKED, FaceNames
from furniture.parts.faces import Face
from furniture.shop.boards.copies import Laid
from furniture.units import listed


@dataclass(frozen=True, slots=True, kw_only=True)
class Called:
    """How a board's sheet speaks of the piece.

    Args:
        names: of the faces of its parts; None goes by the bench's marks, as for several pieces.
        steps: of the work on each board until it is sawn up, by the board's name.
    """

    names: FaceNames | None = None
    steps: Mapping[str, Sequence[int]] = field(default_factory=dict)

    def up(self, laid: Laid) -> str:
        """The face of a part that lies up on its board."""
        face = Face.BACK_SIDE if laid.placement.is_flipped else Face.FACE_SIDE
        return self._face(laid, face)

    def at_jointed_edge(self, laid: Laid) -> str:
        """The edge, or the end, of a part that lies towards the board's jointed edge."""
        placement = laid.placement
        if placement.is_turned:
            return self._face(laid, Face.NAMED_END)
        return self._face(laid, Face.BACK_EDGE if placement.is_flipped else Face.FACE_EDGE)

    def _face(self, laid: Laid, face: Face) -> str:
        if self.names is None:
            return MARKED[face]
        return self.names.of([each.name for each in laid.copy.stretches], face)

    def steps_on(self, board: str) -> str:
        """The steps of the work on a whole board, as a sentence; empty where none is known."""
        numbers = [str(each) for each in self.steps.get(board, ())]
        if not numbers:
            return ""
        return f"{'Step' if len(numbers) == 1 else 'Steps'} {listed(numbers)} of the work."


BY_MARKS_ALONE = Called()
"""Where neither piece nor work is known, or there are several."""
