"""What a set of sheets, tables and pictures is of: a piece, or a batch of several."""

from __future__ import annotations

from typing import Protocol

from furniture.units import Shown


class Subject(Protocol):
    """Its name on paper and in file names, and how its lengths are shown."""

    @property
    def name(self) -> str: ...

    @property
    def slug(self) -> str: ...

    @property
    def shown(self) -> Shown: ...
