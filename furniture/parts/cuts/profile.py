"""Edge profiles: a round-over or a chamfer along a whole arris."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import Enum
from typing import ClassVar

from furniture.parts.blank import Blank
from furniture.parts.cuts.cut import QUARTER_TURN_BULGE, Cut, Misfit, misfit
from furniture.parts.cuts.figures import SECTION_OF_RUN, Angle, Figures, Says
from furniture.parts.cuts.left import put
from furniture.parts.cuts.shapes import Eased, level_of
from furniture.parts.faces import Arris, Face
from furniture.parts.tools import OVERSHOOT_MM, OutlinePoint, Prism, Tool
from furniture.parts.vectors import scaled


class ProfileKind(Enum):
    """The shape left on the arris."""

    ROUND_OVER = "round-over"
    CHAMFER = "chamfer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile(Cut):
    """A round-over, or a chamfer at 45 degrees, along an edge where two faces meet.

    Args:
        edge: such as TOP_FRONT.
        profile_kind: round-over or chamfer.
        radius_mm: of the round-over, or the chamfer's legs.
    """

    kind: ClassVar[str] = "profile"

    edge: Arris
    profile_kind: ProfileKind
    radius_mm: float

    @property
    def name(self) -> str:
        return self.profile_kind.value

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        first, second = self.edge.first, self.edge.second
        over, r = OVERSHOOT_MM, self.radius_mm
        bulge = -QUARTER_TURN_BULGE if self.profile_kind is ProfileKind.ROUND_OVER else 0.0
        outline = [(-over, -over, 0.0), (r, -over, 0.0), (r, 0.0, bulge), (0.0, r, 0.0)]
        outline.append((-over, r, 0.0))
        u_axis, v_axis = scaled(first.normal, -1.0), scaled(second.normal, -1.0)
        run = self.edge.run_axis
        origin = put((0.0, 0.0, 0.0), run, -over)
        for face in (first, second):
            origin = put(origin, face.axis, level_of(face, blank))
        return (
            Prism(
                origin=origin,
                u_axis=u_axis,
                v_axis=v_axis,
                outline=tuple(OutlinePoint(u=u, v=v, bulge=b) for u, v, b in outline),
                sweep=put((0.0, 0.0, 0.0), run, blank.size[run] + 2 * over),
            ),
        )

    def removed_alone_mm3(self, blank: Blank) -> float:
        share = 1 - math.pi / 4 if self.profile_kind is ProfileKind.ROUND_OVER else 0.5
        return share * self.radius_mm**2 * blank.size[self.edge.run_axis]

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        largest = min(blank.across(self.edge.first), blank.across(self.edge.second))
        why = "a profile leaves some of both faces"
        return misfit("radius_mm", self.radius_mm, 0.1, largest - 1e-3, why)

    def shape(self, blank: Blank) -> Eased:
        del blank
        return Eased(
            arris=self.edge,
            size_mm=self.radius_mm,
            is_round=self.profile_kind is ProfileKind.ROUND_OVER,
        )

    def figures(self, blank: Blank) -> Figures:
        is_round, size = self.profile_kind is ProfileKind.ROUND_OVER, self.radius_mm
        at, inside = scaled(blank.size, 0.5), size * (0.3 if is_round else 0.5)
        for face in (self.edge.first, self.edge.second):
            at = put(at, face.axis, abs(level_of(face, blank) - inside))
        flat = (Says.BARE.ruled(size), Says.BARE.of(Angle(45.0)))
        return Figures(
            sizes=(Says.RADIUS.ruled(size),) if is_round else flat,
            place=Says.BARE.of(self.edge),
            at=at,
            seen=SECTION_OF_RUN[self.edge.run_axis],
            section_mm=(size, size),
        )

    def turned_about(self, axis: int, blank: Blank) -> Profile:
        def turned(face: Face) -> Face:
            return face if axis == face.axis else face.opposite

        return replace(self, edge=Arris(turned(self.edge.first), turned(self.edge.second)))
