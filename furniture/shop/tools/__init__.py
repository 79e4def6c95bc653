"""What the shop has on hand, as the maker says it: tools, clamps, glue and finish.

What is read from it and reckoned with it lies in the modules of this package.
"""

from __future__ import annotations

from furniture.shop.tools.given import (
    BandClamp,
    Clamps,
    DadoHead,
    Drills,
    Finishing,
    Glue,
    Jointer,
    Planer,
    Router,
    Shop,
)
from furniture.shop.tools.kinds import ClampKind, FinishFamily, GlueFamily

__all__ = [
    "BandClamp",
    "ClampKind",
    "Clamps",
    "DadoHead",
    "Drills",
    "FinishFamily",
    "Finishing",
    "Glue",
    "GlueFamily",
    "Jointer",
    "Planer",
    "Router",
    "Shop",
]
