"""Where the eye is: it looks from far off or, with a lens, from near by."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Camera:
    """A direction to look in, piece frame.

    Args:
        turn_deg: how far to the right of the front the eye stands.
        rise_deg: how far above the level it stands.
        distance: from what is looked at, in its own sizes; infinite is a parallel view.
    """

    turn_deg: float
    rise_deg: float
    distance: float = math.inf

    @property
    def axes(self) -> Array:
        """Rows: to the right and up in the picture, and towards the eye; piece frame."""
        turn, rise = math.radians(self.turn_deg), math.radians(self.rise_deg)
        towards = np.array(
            [math.sin(turn) * math.cos(rise), -math.cos(turn) * math.cos(rise), math.sin(rise)]
        )
        right = np.array([math.cos(turn), math.sin(turn), 0.0])
        return np.array([right, np.cross(towards, right), towards])


def three_quarter(distance: float = 4.6) -> Camera:
    """Front, right side and top, as a person sees a piece that stands before him.

    Args:
        distance: in sizes of the piece.
    """
    return Camera(turn_deg=33.0, rise_deg=21.0, distance=distance)


def level(turn_deg: float) -> Camera:
    """Square on: 0 sees the front, 90 the right side, and so round.

    Args:
        turn_deg: how far to the right of the front the eye stands.
    """
    return Camera(turn_deg=turn_deg, rise_deg=0.0)
