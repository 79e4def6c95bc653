"""What makes solids for the replay: boxes, what a pass leaves of them, strips glued up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Protocol

from manifold3d import Manifold, OpType

from furniture.making.settings import MitreGroove, Setting
from furniture.parts.vectors import Vector
from tests.making.bodies import Prism, mitre_groove
from tests.making.passes import Pass, passed

_HAIR_MM = 1e-7


class Kernel(Protocol):
    """What makes solids: boxes, and what a pass leaves of them."""

    def box(self, low: Vector, high: Vector) -> Any: ...

    def passed(self, wood: Any, setting: Setting) -> Pass: ...

    def less(self, wood: Any, prism: Prism) -> Any: ...

    def glued(self, strips: Sequence[Any]) -> Any: ...


@dataclass(frozen=True, slots=True)
class Facets:
    """The light kernel."""

    segments: int

    def box(self, low: Vector, high: Vector) -> Manifold:
        """Between two corners."""
        size = [b - a for a, b in zip(low, high, strict=True)]
        return Manifold.cube(size).translate(low)

    def passed(self, wood: Manifold, setting: Setting) -> Pass:
        """The wood after a pass."""
        if isinstance(setting, MitreGroove):
            groove = mitre_groove(wood, setting, self.segments)
            return Pass(kept=wood - groove, beyond=Manifold())
        return passed(wood, setting, self.segments)

    def less(self, wood: Manifold, prism: Prism) -> Manifold:
        """The wood without what a prism takes."""
        return wood - prism.solid()

    def glued(self, strips: Sequence[Manifold]) -> Manifold:
        """Strips that meet, as one: a hair over one another, since dust would part them."""
        hairs = (each.translate((0.0, -at * _HAIR_MM, 0.0)) for at, each in enumerate(strips))
        return Manifold.batch_boolean(list(hairs), OpType.Add)
