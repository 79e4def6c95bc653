"""The usual ways to look at a part or a piece."""

from __future__ import annotations

import math
from enum import Enum

from exporters.views.values import ViewFrame
from furniture.parts.vectors import BACK, FRONT, LEFT, RIGHT, UP, Vector


class StandardView(Enum):
    """The six principal views and the two isometrics from above."""

    FRONT = "front"
    BACK = "back"
    LEFT = "left"
    RIGHT = "right"
    TOP = "top"
    BOTTOM = "bottom"
    ISOMETRIC_RIGHT = "isometric from the right"
    """Front, right side and top are seen."""
    ISOMETRIC_LEFT = "isometric from the left"
    """Front, left side and top are seen."""


_HALF, _THIRD, _SIXTH = (math.sqrt(1.0 / n) for n in (2.0, 3.0, 6.0))
_AXES: dict[StandardView, tuple[Vector, Vector]] = {
    StandardView.FRONT: (RIGHT, UP),
    StandardView.BACK: (LEFT, UP),
    StandardView.LEFT: (FRONT, UP),
    StandardView.RIGHT: (BACK, UP),
    StandardView.TOP: (RIGHT, BACK),
    StandardView.BOTTOM: (RIGHT, FRONT),
    StandardView.ISOMETRIC_RIGHT: ((_HALF, _HALF, 0.0), (-_SIXTH, _SIXTH, 2.0 * _SIXTH)),
    StandardView.ISOMETRIC_LEFT: ((_HALF, -_HALF, 0.0), (_SIXTH, _SIXTH, 2.0 * _SIXTH)),
}
ISOMETRIC_SHARE = math.sqrt(2.0 / 3.0)
"""How long an edge along an axis shows in an isometric, per unit. Source: closed form."""


def standard_frame(which: StandardView) -> ViewFrame:
    """The frame of a usual view, whose paper origin is the origin of the space looked at.

    In the piece frame (x right, y to the back, z up) the names say what they say. In the part frame
    the same frames show the face side (top: x to the right, y up), the back side (bottom), the
    face edge (front), the back edge (back), the named end (left) and the far end (right). The side
    views place as third or first angle asks: x, y and z keep one scale and one alignment.

    Args:
        which: the view.
    """
    right, up = _AXES[which]
    return ViewFrame(right=right, up=up)


def isometric_from_below() -> ViewFrame:
    """The frame that sees front, right side and underside of what it looks at."""
    return ViewFrame(right=(_HALF, _HALF, 0.0), up=(_SIXTH, -_SIXTH, 2.0 * _SIXTH))
