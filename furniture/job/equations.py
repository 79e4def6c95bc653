"""An equation: a size that the built piece must have, since it was measured or is cut."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.job.figures import Figure, room_key


class Why(Enum):
    """Where an equation comes from."""

    MEASURED = "measured"
    DONE = "done"


class Rooms(Enum):
    """How openings and gaps that were measured are met."""

    PART = "what goes in is cut to it, and what is made of the frame is drawn as it was made"
    FRAME = "the frame is drawn so, and made parts of it a little otherwise than they were made"


@dataclass(frozen=True, slots=True, kw_only=True)
class Equation:
    """A size of a blank, or an opening or a gap, that must come out.

    Args:
        figure: which.
        target_mm: of the blank, its play in an opening taken off; or of the room itself [mm].
        given_mm: as it was measured, or was cut [mm].
        why: where it comes from.
        is_of_room: whether the room itself has to come out, not only what is cut to it.
    """

    figure: Figure
    target_mm: float
    given_mm: float
    why: Why
    is_of_room: bool = False

    @property
    def at(self) -> tuple[str, int]:
        """The instance, or the room that it goes into, and its part axis."""
        name = self.figure.instance
        return room_key(name, self.figure.of) if self.is_of_room else name, self.figure.axis
