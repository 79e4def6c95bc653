"""Tongue and groove: an edge or an end with a tongue, in a groove along another edge."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from furniture.joints.faces import glued, rectangle
from furniture.joints.fit import SLIP, Fit
from furniture.joints.joint import (
    GrainRelation,
    Joining,
    Joint,
    JointFace,
    Role,
    Worked,
)
from furniture.joints.relation import (
    CannotMeet,
    apart,
    box_in,
    clean,
    entered_face,
    extent,
    grain_between,
    out_of_range,
    overlap,
)
from furniture.parts.cuts import Groove, Rabbet
from furniture.parts.faces import EDGES, Face
from furniture.parts.part import Placed
from furniture.parts.placement import Box
from furniture.parts.vectors import dot, scaled
from furniture.rules.joinery import GROOVE_WALL, LEAST_TONGUE, MOST_TONGUE, USUAL_TONGUE
from furniture.units import Draft, Least, Length


@dataclass(frozen=True, slots=True, kw_only=True)
class TongueAndGrooveJoint(Joint):
    """A tongue along the incoming part's edge or end, in a groove along an edge of `into`.

    The incoming blank overlaps `into` by as much as its tongue enters. The tongue lies in the
    middle of its thickness and bears on the groove's wall nearer to the face side of `into`.

    Args:
        fit: the clearance rule, by the tongue's thickness.
        tongue_thickness_mm: of the tongue (default: a third of the thinner part).
        tongue_mm: length of the tongue (default: as long as the overlap, so that the shoulders
            close). A longer one leaves the shoulders open by the difference, for movement.
        bottom_gap_mm: between the tongue and the bottom of the groove.
        is_glued: whether it is fixed there; boards that must move are not.
    """

    kind: ClassVar[str] = "tongue and groove"

    fit: Fit = SLIP
    tongue_thickness_mm: float | None = None
    tongue_mm: float | None = None
    bottom_gap_mm: float = 0.5
    is_glued: bool = True

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The groove in `into` and the two rabbets that leave the tongue.

        Raises:
            CannotMeet: the parts do not stand square to each other, or do not lie flat together.
        """
        if abs(dot(into.placement.z_axis, incoming.placement.z_axis)) < 0.5:
            raise CannotMeet(f"{incoming.instance} does not lie flat with {into.instance}")
        low, high = box_in(into, incoming)
        face = entered_face(into, low, high, EDGES) or Face.FACE_EDGE
        thickness = clean(high[2] - low[2])
        thinner = min(thickness, into.part.blank.thickness_mm)
        tongue_thickness = self.tongue_thickness_mm
        if tongue_thickness is None:
            tongue_thickness = clean(round(thinner * self.rules[USUAL_TONGUE] * 10) / 10)
        reach = clean(into.part.blank.width_mm - low[1] if face.is_far else high[1])
        tongue = reach if self.tongue_mm is None else self.tongue_mm
        made = _Tongue(
            face=face,
            low=clean((low[2] + high[2] - tongue_thickness) / 2),
            high=clean((low[2] + high[2] + tongue_thickness) / 2),
            reach=reach,
            length=tongue,
            shoulder=clean((thickness - tongue_thickness) / 2),
            run=overlap((low[0], high[0]), extent(into.part.blank, 0)),
        )
        clearance = self.fit.clearance_mm(tongue_thickness)
        inward = into.placement.direction_to_piece(scaled(face.normal, -1.0))
        going_in = incoming.placement.face_towards(inward)
        along = into.placement.x_axis
        joining = Joining(
            kind=self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=self.fit,
            clearance_mm=clearance,
            ways_in=(inward, along, scaled(along, -1.0)),
            role=_role(into, incoming, going_in),
            faces=self._faces(into, incoming, made, (low, high), going_in, clearance),
        )
        problems = self._problems(into, incoming, made, (low, high), thinner, clearance)
        if problems:
            return Worked(joining=joining, problems=problems)
        groove = Groove(
            face=face,
            offset_mm=clean(into.part.blank.thickness_mm - made.high),
            width_mm=clean(tongue_thickness + clearance),
            depth_mm=clean(reach + self.bottom_gap_mm),
        )
        rabbets = tuple(
            Rabbet(
                edge=going_in,
                face=side,
                down_from_edge_mm=tongue,
                into_thickness_mm=made.shoulder,
            )
            for side in (Face.FACE_SIDE, Face.BACK_SIDE)
        )
        return Worked(
            joining=joining,
            into_cuts=(groove,),
            incoming_cuts=rabbets,
        )

    def _faces(
        self,
        into: Placed,
        incoming: Placed,
        made: _Tongue,
        box: Box,
        going_in: Face,
        clearance: float,
    ) -> tuple[JointFace, ...]:
        (low, high), face = box, made.face
        surface = into.part.blank.width_mm if face.is_far else 0.0
        inward = -1.0 if face.is_far else 1.0
        end = surface + inward * made.reach
        open_by = clean(made.length - made.reach)
        cheek, butt = (
            grain_between(into, 2, incoming, 2),
            grain_between(into, 1, incoming, going_in.axis),
        )
        through = (max(low[2], 0.0), min(high[2], into.part.blank.thickness_mm))
        run, sunk = (0, made.run), (1, (min(surface, end), max(surface, end)))
        cheeks = (
            ("wall borne on", Face.FACE_SIDE, made.high, 0.0),
            ("other wall", Face.BACK_SIDE, made.low, clearance),
        )
        level = surface - inward * open_by
        across = (
            ("bottom", end, (made.low, made.high), self.bottom_gap_mm),
            ("shoulder", level, (made.high, through[1]), open_by),
            ("shoulder", level, (through[0], made.low - clearance), open_by),
        )
        return (
            *(
                found
                for what, towards, at, play in cheeks
                for found in rectangle(
                    into, what, towards=towards, at=at, run=run, deep=sunk, play_mm=play,
                    glue=glued(cheek, play, self.is_glued),
                )
            ),
            *(
                found
                for what, at, span, play in across
                for found in rectangle(
                    into, what, towards=face.opposite, at=at, run=run, deep=(2, span),
                    play_mm=play, glue=glued(butt, play, self.is_glued),
                )
            ),
        )  # fmt: skip

    def _problems(
        self,
        into: Placed,
        incoming: Placed,
        made: _Tongue,
        box: Box,
        thinner: float,
        clearance: float,
    ) -> tuple[Draft, ...]:
        if entered_face(into, *box, EDGES) is None:
            need = f"{incoming.instance} overlapping an edge of {into.instance} by its tongue"
            return (apart(self.kind, into, incoming, need),)
        width = into.part.blank.width_mm
        least, most = self.rules[LEAST_TONGUE] * thinner, self.rules[MOST_TONGUE] * thinner
        found = [
            *out_of_range(
                self, "tongue_thickness", made.high - made.low, least, most,
                "a tongue is a quarter to a half of the thickness (common practice)",
            ),
            *out_of_range(
                self, "tongue", made.length, max(2.0, made.reach), made.reach + 10.0,
                ("the tongue enters by ", Length(made.reach), " as the parts stand"),
            ),
            *out_of_range(
                self, "bottom_gap", self.bottom_gap_mm, 0.0, max(0.0, width / 2 - made.reach),
                "half the width stays behind the groove",
            ),
        ]  # fmt: skip
        walls = min(into.part.blank.thickness_mm - made.high, made.low - clearance)
        if walls < self.rules[GROOVE_WALL]:
            why = ("the groove leaves ", Least(self.rules[GROOVE_WALL]), " beside it")
            found += out_of_range(
                self, "wood beside the groove", walls, self.rules[GROOVE_WALL], width, why
            )
        return tuple(found)


def _role(into: Placed, incoming: Placed, going_in: Face) -> Role:
    """Edges along the grain make one wider board; an end is let into an edge."""
    grain = grain_between(into, 1, incoming, going_in.axis)
    return Role.EDGE_GLUE if grain is GrainRelation.LONG_TO_LONG else Role.HOUSING


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tongue:
    """The tongue in the frame of `into` [mm]: its cheeks, how far it enters and how long it is."""

    face: Face
    low: float
    high: float
    reach: float
    length: float
    shoulder: float
    run: tuple[float, float]
