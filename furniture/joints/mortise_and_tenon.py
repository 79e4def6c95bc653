"""Mortise and tenon: a rail's end with a tenon, in a blind mortise in another part's face."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from furniture.joints.faces import Span, glued, rectangle
from furniture.joints.fit import SLIP, Fit
from furniture.joints.joint import Joining, Joint, JointFace, Role, Worked
from furniture.joints.relation import (
    TOUCHING_MM,
    apart,
    axis_along,
    box_in,
    clean,
    entered_face,
    extent,
    grain_between,
    out_of_range,
    overlap,
)
from furniture.parts.cuts import Mortise, Tenon
from furniture.parts.faces import EDGES, WIDE_FACES, Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, scaled
from furniture.rules.joinery import (
    BEHIND_MORTISE,
    BESIDE_MORTISE,
    BESIDE_MORTISE_SHARE,
    LEAST_TENON,
    LEAST_TENON_LENGTH,
    MORTISE_TO_END,
    MOST_TENON,
    MOST_TENON_PLAY,
    TENON_SHOULDER,
    USUAL_TENON,
)
from furniture.units import Draft, Least, Length


@dataclass(frozen=True, slots=True, kw_only=True)
class MortiseAndTenonJoint(Joint):
    """A tenon on the incoming rail's end, in a blind mortise in a face or an edge of `into`.

    The rail's blank goes into the other by the length of its tenon, so the shoulders close where it
    begins. The tenon is struck from the rail's face side and face edge; there it bears, and its
    play lies on the other side, unless `edge_play_at` has it at the face edge.

    Args:
        fit: the clearance rule, by the tenon's thickness.
        tenon_thickness_mm: of the tenon (default: a third of the rail's).
        from_face_side_mm: from the rail's face side to the tenon (default: in the middle).
        face_edge_shoulder_mm: from the rail's face edge to the tenon; 0 for no shoulder there
            (default: an eighth of the width).
        back_edge_shoulder_mm: the same at the back edge.
        edge_play_mm: beyond one edge of the tenon, to shift the rail by.
        edge_play_at: that edge, the face edge or the back edge; it bears on the other.
        end_gap_mm: how much deeper the mortise is than the tenon is long, for glue.
        end_radius_mm: what the cutter leaves in the mortise's corners; it is then cut as much
            longer at both ends, so that a square tenon goes in. 0 is chiselled square.
        is_glued: whether it is fixed there.
    """

    kind: ClassVar[str] = "mortise and tenon"

    fit: Fit = SLIP
    tenon_thickness_mm: float | None = None
    from_face_side_mm: float | None = None
    face_edge_shoulder_mm: float | None = None
    back_edge_shoulder_mm: float | None = None
    edge_play_mm: float = 0.5
    edge_play_at: Face = Face.BACK_EDGE
    end_gap_mm: float = 1.0
    end_radius_mm: float = 0.0
    is_glued: bool = True

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The mortise in `into` and the tenon on the rail's end.

        Raises:
            CannotMeet: the parts do not stand square to each other.
        """
        low, high = box_in(into, incoming)
        along = axis_along(into, incoming.placement.x_axis)
        sides = tuple(each for each in (*WIDE_FACES, *EDGES) if each.axis == along)
        face = entered_face(into, low, high, sides)
        lies = self._placement_of(into, incoming, face or Face.FACE_SIDE)
        joining = Joining(
            kind=self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=self.fit,
            clearance_mm=lies.clearance,
            ways_in=(lies.inward,),
            role=Role.HOUSING,
            faces=tuple(self._faces(lies)),
        )
        if face is None:
            need = f"the end of {incoming.instance} inside a face or an edge of {into.instance}"
            return Worked(joining=joining, problems=(apart(self.kind, into, incoming, need),))
        problems = self._problems(lies)
        if problems:
            return Worked(joining=joining, problems=problems)
        return Worked(
            joining=joining,
            into_cuts=(self._mortise(lies),),
            incoming_cuts=(lies.tenon,),
        )

    def _placement_of(self, into: Placed, incoming: Placed, face: Face) -> _Placement:
        low, high = box_in(into, incoming)
        blank, across = incoming.part.blank, into.part.blank.across(face)
        thickness = self.tenon_thickness_mm
        if thickness is None:
            thickness = clean(round(blank.thickness_mm * self.rules[USUAL_TENON] * 10) / 10)
        from_side = self.from_face_side_mm
        if from_side is None:
            from_side = (blank.thickness_mm - thickness) / 2
        usual = clean(round(blank.width_mm * self.rules[TENON_SHOULDER] * 2) / 2)
        at_edge, at_back = (
            usual if each is None else each
            for each in (self.face_edge_shoulder_mm, self.back_edge_shoulder_mm)
        )
        inward = into.placement.direction_to_piece(scaled(face.normal, -1.0))
        return _Placement(
            into=into,
            incoming=incoming,
            face=face,
            inward=inward,
            clearance=self.fit.clearance_mm(thickness),
            tenon=Tenon(
                end=incoming.placement.face_towards(inward),
                length_mm=clean(across - low[face.axis] if face.is_far else high[face.axis]),
                from_face_side_mm=clean(from_side),
                thickness_mm=clean(thickness),
                from_face_edge_mm=clean(at_edge),
                width_mm=clean(blank.width_mm - at_edge - at_back),
            ),
            room=(
                self._beyond(Face.FACE_EDGE),
                self._beyond(Face.BACK_EDGE),
            ),
        )

    def _beyond(self, edge: Face) -> float:
        """How far the mortise reaches past the tenon at an edge [mm]."""
        return self.end_radius_mm + (self.edge_play_mm if edge is self.edge_play_at else 0.0)

    def _mortise(self, lies: _Placement) -> Mortise:
        first, second = (axis for axis in range(3) if axis != lies.face.axis)
        spans = lies.mouth
        return Mortise(
            face=lies.face,
            first_at_mm=clean(spans[first][0]),
            first_size_mm=clean(spans[first][1] - spans[first][0]),
            second_at_mm=clean(spans[second][0]),
            second_size_mm=clean(spans[second][1] - spans[second][0]),
            depth_mm=clean(lies.tenon.length_mm + self.end_gap_mm),
            corner_radius_mm=self.end_radius_mm,
        )

    def _faces(self, lies: _Placement) -> Iterator[JointFace]:
        """Both cheeks, both edges, the end, and a shoulder on each side that has one."""
        into, tenon = lies.into, lies.tenon
        y, z = lies.across(1, lies.wide), lies.across(2, lies.thick)
        sunk = (lies.face.axis, lies.sunk)
        for own, what, play in (
            (Face.FACE_SIDE, "cheek borne on", 0.0),
            (Face.BACK_SIDE, "other cheek", lies.clearance),
            (Face.FACE_EDGE, self._called(Face.FACE_EDGE), lies.room[0]),
            (Face.BACK_EDGE, self._called(Face.BACK_EDGE), lies.room[1]),
        ):
            towards = lies.seen(own)
            span = z if own.axis == 2 else y
            grain = grain_between(into, towards.axis, lies.incoming, own.axis)
            yield from rectangle(
                into,
                what,
                towards=towards,
                at=span[1][1] if towards.is_far else span[1][0],
                run=sunk,
                deep=y if own.axis == 2 else z,
                play_mm=play,
                glue=glued(grain, play, self.is_glued),
            )
        surface, end = lies.surface, lies.surface + lies.out * -tenon.length_mm
        butt = grain_between(into, lies.face.axis, lies.incoming, 0)
        for what, at, spans, play in (
            ("end", end, (y, z), self.end_gap_mm),
            *(("shoulder", surface, each, 0.0) for each in lies.shoulders()),
        ):
            yield from rectangle(
                into,
                what,
                towards=lies.face.opposite,
                at=at,
                run=spans[0],
                deep=spans[1],
                play_mm=play,
                glue=glued(butt, play, self.is_glued),
            )

    def _called(self, edge: Face) -> str:
        return "other edge" if edge is self.edge_play_at else "edge borne on"

    def _problems(self, lies: _Placement) -> tuple[Draft, ...]:
        tenon, blank = lies.tenon, lies.incoming.part.blank
        thickness, width = blank.thickness_mm, blank.width_mm
        thick = tenon.thickness_mm
        deepest = (
            lies.into.part.blank.across(lies.face) - self.rules[BEHIND_MORTISE] - self.end_gap_mm
        )
        at_edge, at_back = (
            tenon.shoulders_mm(blank)[each] for each in (Face.FACE_EDGE, Face.BACK_EDGE)
        )
        lies_in = "the tenon lies inside its rail"
        free, play = width - thick, self.rules[MOST_TENON_PLAY]
        wide = "the tenon is at least as wide as it is thick (own rule)"
        found = [
            *out_of_range(
                self, "tenon_thickness", thick,
                self.rules[LEAST_TENON] * thickness, self.rules[MOST_TENON] * thickness,
                "a tenon is a quarter to a half of its rail's thickness (common practice)",
            ),
            *out_of_range(
                self, "from_face_side", tenon.from_face_side_mm, 0.0,
                max(0.0, thickness - thick), lies_in,
            ),
            *out_of_range(
                self, "face_edge_shoulder", at_edge, 0.0, max(0.0, free - at_back), wide,
            ),
            *out_of_range(
                self, "back_edge_shoulder", at_back, 0.0, max(0.0, free - at_edge), wide,
            ),
            *out_of_range(
                self, "end_gap", self.end_gap_mm, 0.0, play, "glue needs a little room"
            ),
            *out_of_range(
                self, "edge_play", self.edge_play_mm, 0.0, play, "it is a little"
            ),
            *out_of_range(
                self, "end_radius", self.end_radius_mm, 0.0, (thick + lies.clearance) / 2,
                "the cutter goes into the mortise",
            ),
            *out_of_range(
                self, "reach into the mortise", tenon.length_mm, self.rules[LEAST_TENON_LENGTH],
                max(self.rules[LEAST_TENON_LENGTH], deepest),
                ("a blind mortise leaves ", Least(self.rules[BEHIND_MORTISE]), " behind it"),
            ),
        ]  # fmt: skip
        return tuple(found) if found else tuple(self._beside_problems(lies))

    def _beside_problems(self, lies: _Placement) -> Iterator[Draft]:
        """Where the mortise lies too near an edge, or too near an end, of its part."""
        wood = lies.into.part.blank
        thick = lies.tenon.thickness_mm + lies.clearance
        for axis, span in lies.mouth.items():
            what, least = (
                "wood beside the mortise",
                max(self.rules[BESIDE_MORTISE], self.rules[BESIDE_MORTISE_SHARE] * thick),
            )
            if axis == 0:
                what, least = "wood to the end", self.rules[MORTISE_TO_END] * thick
            left = min(span[0], wood.size[axis] - span[1])
            why = ("less than ", Length(least), " beside a mortise splits off (own rule)")
            yield from out_of_range(self, what, clean(left), least, wood.size[axis], why)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Placement:
    """A tenon in its place: the cut on the rail, and what it fills in the frame of `into` [mm].

    `room` is how far the mortise reaches beyond the tenon's edges, face edge first.
    """

    into: Placed
    incoming: Placed
    face: Face
    inward: Vector
    clearance: float
    tenon: Tenon
    room: Span

    @property
    def end(self) -> Face:
        """The rail's end that goes in."""
        return self.tenon.end

    @property
    def bare(self) -> tuple[Face, ...]:
        """The rail's long faces that the tenon reaches, with no shoulder there."""
        shoulders = self.tenon.shoulders_mm(self.incoming.part.blank)
        return tuple(face for face, depth in shoulders.items() if depth <= TOUCHING_MM)

    @property
    def wide(self) -> Span:
        """The tenon across the rail's width, in the rail's frame [mm]."""
        start = self.tenon.from_face_edge_mm
        return (start, start + self.tenon.width_mm)

    @property
    def thick(self) -> Span:
        """The tenon through the rail's thickness, in the rail's frame [mm]."""
        top = self.incoming.part.blank.thickness_mm - self.tenon.from_face_side_mm
        return (top - self.tenon.thickness_mm, top)

    @property
    def surface(self) -> float:
        """Where the face that it goes into lies [mm]."""
        return self.into.part.blank.across(self.face) if self.face.is_far else 0.0

    @property
    def out(self) -> float:
        """1 where that face looks along its axis, else -1."""
        return 1.0 if self.face.is_far else -1.0

    @property
    def sunk(self) -> Span:
        """From where to where the tenon stands in the wood, across that face [mm]."""
        inner = self.surface - self.out * self.tenon.length_mm
        return (min(inner, self.surface), max(inner, self.surface))

    @property
    def mouth(self) -> dict[int, Span]:
        """The mortise on both axes of its face [mm]."""
        near, far = self.room
        wide = (self.wide[0] - near, self.wide[1] + far)
        thick = (self.thick[0] - self.clearance, self.thick[1])
        return dict((self.across(1, wide), self.across(2, thick)))

    def seen(self, own: Face) -> Face:
        """The face of `into` that looks the same way as a face of the rail."""
        return self.into.placement.face_towards(
            self.incoming.placement.direction_to_piece(own.normal)
        )

    def across(self, own_axis: int, span: Span) -> tuple[int, Span]:
        """A span along an axis of the rail as one along an axis of `into` [mm]."""
        axis = axis_along(self.into, self.incoming.placement.axes[own_axis])
        ends = [0.0, 0.0, 0.0]
        values = []
        for value in span:
            ends[own_axis] = value
            at = self.into.placement.to_part(
                self.incoming.placement.to_piece((ends[0], ends[1], ends[2]))
            )
            values.append(at[axis])
        return axis, (min(values), max(values))

    def shoulders(self) -> Iterator[tuple[tuple[int, Span], tuple[int, Span]]]:
        """The four strips round the mortise's mouth that the rail covers, across and along."""
        blank, wood = self.incoming.part.blank, self.into.part.blank
        # A round corner holds wood beside the tenon's edge: what is cut there is taken off later.
        low, high = self.wide[0], self.wide[1] + self.room[1] - self.room[0]
        under, over = self.thick[0] - self.clearance, self.thick[1]
        for y, z in (
            ((0.0, blank.width_mm), (over, blank.thickness_mm)),
            ((0.0, blank.width_mm), (0.0, under)),
            ((0.0, low), (under, over)),
            ((high, blank.width_mm), (under, over)),
        ):
            along, across = self.across(1, y), self.across(2, z)
            if y[1] > y[0] and z[1] > z[0]:
                yield (
                    (along[0], overlap(along[1], extent(wood, along[0]))),
                    (across[0], overlap(across[1], extent(wood, across[0]))),
                )
