"""An equation: a size that the built piece must have, since it was measured or is cut."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.job.figures import Figure


class Why(Enum):
    """Where an equation comes from."""

    MEASURED = "measured"
    DONE = "done"


@dataclass(frozen=True, slots=True, kw_only=True)
class Equation:
    """A size of a blank that must come out.

    Args:
        figure: which.
        target_mm: of the blank, its play in an opening taken off [mm].
        given_mm: as it was measured, or was cut [mm].
        why: where it comes from.
    """

    figure: Figure
    target_mm: float
    given_mm: float
    why: Why

    @property
    def at(self) -> tuple[str, int]:
        """The instance and its part axis."""
        return self.figure.instance, self.figure.axis
