"""What a model script hands on."""

from __future__ import annotations

from typing import Protocol

from furniture.pieces import Piece


class Design(Protocol):
    """Anything that can be built into a piece, such as a `SteppedStand`."""

    def build(self) -> Piece: ...
