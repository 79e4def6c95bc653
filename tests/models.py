"""The model scripts, loaded without running their command."""

from __future__ import annotations

import runpy
from functools import cache
from pathlib import Path

from furniture.pieces import Piece

ROOT = Path(__file__).resolve().parent.parent
SCRIPTS = sorted((ROOT / "models").glob("*.py"))
NAMES = [script.stem for script in SCRIPTS]


@cache
def piece_of(name: str) -> Piece:
    """The piece that models/NAME.py makes."""
    namespace = runpy.run_path(str(ROOT / "models" / f"{name}.py"))
    for value in namespace.values():
        if isinstance(value, Piece):
            return value
    designs = [
        value
        for value in namespace.values()
        if hasattr(value, "build") and not isinstance(value, type)
    ]
    assert len(designs) == 1, f"models/{name}.py holds one design"
    return designs[0].build()
