"""How a beam is held."""

from __future__ import annotations

from enum import Enum


class Support(Enum):
    """How a beam is held."""

    SIMPLE = "resting on both ends"
    FIXED = "held fast at both ends"
    CANTILEVER = "held at one end"
