"""The butt with dowels: bores in both parts that line up, and the dowels across them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.joints.butt import ButtJoint
from furniture.joints.holding import fastener_at
from furniture.joints.joint import Driven, HoldBy, Joint, Role, Worked
from furniture.joints.relation import (
    TOUCHING_MM,
    apart,
    box_in,
    clean,
    extent,
    out_of_range,
    overlap,
    touched_face,
)
from furniture.parts.blank import Blank
from furniture.parts.cuts import Bore
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, scaled
from furniture.rules.design import DOWEL_EDGE, DOWEL_LEAST_SHARE, DOWEL_LENGTH, DOWEL_MOST_SHARE
from furniture.rules.joinery import (
    BEHIND_DOWEL,
    DOWEL_LEAST_DEPTH,
    DOWEL_LEAST_EDGE,
    DOWEL_SPACING,
    LEAST_DOWEL,
)
from furniture.units import Draft, Least, Length, WordedDraft

DOWEL_NOTE = "fluted hardwood, glued in both holes"
"""What is sold for a glued butt. Common practice, no source."""
END_GAP_MM = 1.5
"""How much deeper a bore is than its dowel goes: the same page says 1/16 in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DowelledButtJoint(Joint):
    """A butt held by a row of dowels, in the middle of the meeting face's shorter way.

    Along the longer way the first and the last dowel stand at stated distances from the incoming
    part's datum (its face edge, face side or `Face.NAMED_END`) and from the face opposite; the
    others share the distance between them evenly.

    Args:
        count: how many dowels.
        diameter_mm: of the dowels and their holes.
        length_mm: of each dowel (default: five diameters).
        into_depth_mm: how far they go into `into` (default: half their length).
        first_mm: from the datum to the first centre (default: two diameters).
        last_mm: from the opposite face to the last centre (default: two diameters).
        across_mm: from the datum across the row to its line (default: in the middle).
        end_gap_mm: how much deeper each hole is than the dowel goes, for glue.
        role: what it is for, as of a plain butt.
    """

    kind: ClassVar[str] = "dowelled butt"

    count: int = 2
    diameter_mm: float
    length_mm: float | None = None
    into_depth_mm: float | None = None
    first_mm: float | None = None
    last_mm: float | None = None
    across_mm: float | None = None
    end_gap_mm: float = END_GAP_MM
    role: Role | None = None

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The bores in both parts as they stand.

        Raises:
            CannotMeet: the parts do not stand square to each other.
        """
        butt = ButtJoint(into=self.into, incoming=self.incoming, role=self.role)
        plain = butt.work(into, incoming)
        if plain.problems:
            need = f"a face of {incoming.instance} touching {into.instance}"
            return Worked(joining=plain.joining, problems=(apart(self.kind, into, incoming, need),))
        low, high = box_in(into, incoming)
        face = touched_face(into, low, high)
        assert face is not None, "the plain butt found it"
        row = self._row(into, incoming, face)
        problems = self._problems(row)
        if problems:
            return Worked(joining=plain.joining, problems=problems)
        places = self._places(row)
        joining = replace(
            plain.joining,
            kind=self.kind,
            ways_in=(row.inward,),
            fasteners=tuple(
                fastener_at(self._dowel(row), at, row.inward, into, incoming) for at in places
            ),
            advice="",
        )
        return Worked(
            joining=joining,
            into_cuts=tuple(
                self._bore(into, face, at, row.into_depth + self.end_gap_mm) for at in places
            ),
            incoming_cuts=tuple(
                self._bore(incoming, row.own_face, at, row.incoming_depth + self.end_gap_mm)
                for at in places
            ),
        )

    def _row(self, into: Placed, incoming: Placed, face: Face) -> _Row:
        low, high = box_in(incoming, into)
        inward = into.placement.direction_to_piece(scaled(face.normal, -1.0))
        own_face = incoming.placement.face_towards(inward)
        blank = incoming.part.blank
        axes = [axis for axis in range(3) if axis != own_face.axis]
        spans = {axis: overlap((low[axis], high[axis]), extent(blank, axis)) for axis in axes}
        along = max(axes, key=lambda axis: spans[axis][1] - spans[axis][0])
        across = sum(axes) - along
        usual = self.rules[DOWEL_EDGE] * self.diameter_mm
        start, end = _from_datum(along, spans[along], blank)
        low_across, high_across = _from_datum(across, spans[across], blank)
        length = self.length_mm
        if length is None:
            length = self.rules[DOWEL_LENGTH] * self.diameter_mm
        depth = length / 2 if self.into_depth_mm is None else self.into_depth_mm
        return _Row(
            incoming=incoming,
            own_face=own_face,
            inward=inward,
            along=along,
            across=across,
            along_span=(start, end),
            across_span=(low_across, high_across),
            first=start + usual if self.first_mm is None else self.first_mm,
            last=end - usual if self.last_mm is None else blank.size[along] - self.last_mm,
            line=(low_across + high_across) / 2 if self.across_mm is None else self.across_mm,
            into_depth=depth,
            incoming_depth=length - depth,
            into_room=into.part.blank.across(face),
            incoming_room=blank.across(own_face),
        )

    def _dowel(self, row: _Row) -> Driven:
        return Driven(
            by=HoldBy.DOWEL,
            name="dowel",
            note=DOWEL_NOTE,
            diameter_mm=self.diameter_mm,
            incoming_mm=row.incoming_depth,
            into_mm=row.into_depth,
            is_glued=True,
            head_holds=False,
            end_gap_mm=self.end_gap_mm,
        )

    def _places(self, row: _Row) -> tuple[Vector, ...]:
        """Where the dowels cross the meeting face, piece frame [mm]."""
        gaps = max(1, self.count - 1)
        step = (row.last - row.first) / gaps
        start = row.first if self.count > 1 else (row.first + row.last) / 2
        blank = row.incoming.part.blank
        found = []
        for index in range(self.count):
            point = [0.0, 0.0, 0.0]
            point[row.along] = _to_part(row.along, start + index * step, blank)
            point[row.across] = _to_part(row.across, row.line, blank)
            point[row.own_face.axis] = blank.across(row.own_face) if row.own_face.is_far else 0.0
            found.append(row.incoming.placement.to_piece((point[0], point[1], point[2])))
        return tuple(found)

    def _bore(self, part: Placed, face: Face, at: Vector, depth: float) -> Bore:
        """A dowel's bore in a part, where its axis meets that face."""
        x, y, z = (clean(value) for value in part.placement.to_part(at))
        return Bore(
            face=face,
            x_mm=None if face.axis == 0 else x,
            y_mm=None if face.axis == 1 else y,
            z_mm=None if face.axis == 2 else z,
            diameter_mm=self.diameter_mm,
            depth_mm=clean(depth),
        )

    def _problems(self, row: _Row) -> tuple[Draft, ...]:
        size = self.diameter_mm
        short = row.across_span[1] - row.across_span[0]
        behind = self.rules[BEHIND_DOWEL] + self.end_gap_mm
        edge = self.rules[DOWEL_LEAST_EDGE] * size
        why_edge = "a dowel's centre stands a diameter from every edge (common practice)"
        why_deep = (
            "a dowel goes in by its diameter and its hole leaves ",
            Least(self.rules[BEHIND_DOWEL]),
            " behind it",
        )
        found = [
            *out_of_range(
                self, "diameter", size,
                max(self.rules[LEAST_DOWEL], self.rules[DOWEL_LEAST_SHARE] * short),
                self.rules[DOWEL_MOST_SHARE] * short,
                "a dowel is a quarter to half as thick as the thinner part",
            ),
            *out_of_range(self, "end_gap", self.end_gap_mm, 0.0, 5.0, "glue needs a little room"),
            *out_of_range(
                self, "into_depth", row.into_depth, self.rules[DOWEL_LEAST_DEPTH] * size,
                row.into_room - behind, why_deep,
            ),
            *out_of_range(
                self, "length", row.into_depth + row.incoming_depth,
                row.into_depth + self.rules[DOWEL_LEAST_DEPTH] * size,
                row.into_depth + row.incoming_room - behind, why_deep,
            ),
            *out_of_range(
                self, "first", row.first, row.along_span[0] + edge, row.along_span[1] - edge,
                why_edge,
            ),
            *out_of_range(
                self, "last", row.far - row.last, row.far - row.along_span[1] + edge,
                row.far - row.along_span[0] - edge, why_edge,
            ),
            *out_of_range(
                self, "across", row.line, row.across_span[0] + edge, row.across_span[1] - edge,
                why_edge,
            ),
        ]  # fmt: skip
        return tuple(found) if found else self._count_problems(row)

    def _count_problems(self, row: _Row) -> tuple[Draft, ...]:
        spacing = self.rules[DOWEL_SPACING] * self.diameter_mm
        room = row.last - row.first
        most = 1 + math.floor(max(0.0, room + TOUCHING_MM) / spacing)
        if 1 <= self.count <= most and (self.count == 1 or room > 0):
            return ()
        return (
            WordedDraft(
                parameter=f"{self.kind} of {self.incoming} in {self.into}: count",
                given=str(self.count),
                allowed=f"1 to {most}",
                why=(
                    "dowels stand ",
                    Least(spacing),
                    " apart, centre to centre, at least; there are ",
                    Length(room),
                    " from the first to the last",
                ),
                remedy=f"make it {min(max(self.count, 1), most)}",
            ),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """A row of dowels on the incoming part's meeting face [mm], struck from its datums."""

    incoming: Placed
    own_face: Face
    inward: Vector
    along: int
    across: int
    along_span: tuple[float, float]
    across_span: tuple[float, float]
    first: float
    last: float
    line: float
    into_depth: float
    incoming_depth: float
    into_room: float
    incoming_room: float

    @property
    def far(self) -> float:
        """The incoming part's extent along the row [mm]."""
        return self.incoming.part.blank.size[self.along]


def _from_datum(axis: int, span: tuple[float, float], blank: Blank) -> tuple[float, float]:
    """A span along a part axis, struck from the datum: through the thickness, the face side."""
    if axis == 2:
        return blank.thickness_mm - span[1], blank.thickness_mm - span[0]
    return span


def _to_part(axis: int, distance: float, blank: Blank) -> float:
    """A distance from the datum as a coordinate of the part [mm]."""
    return blank.thickness_mm - distance if axis == 2 else distance
