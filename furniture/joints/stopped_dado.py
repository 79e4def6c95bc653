"""The stopped dado: a trench that ends short of an edge, so that the edge shows no joint."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import ClassVar

from furniture.joints.faces import rectangle
from furniture.joints.fit import SLIP, Fit
from furniture.joints.housed import Housed, depth_problems, housed_in, housing_faces
from furniture.joints.joint import Joining, Joint, JointFace, Role, Worked
from furniture.joints.relation import (
    TOUCHING_MM,
    apart,
    clean,
    out_of_range,
)
from furniture.parts.cuts import Cut, Dado, Notch, Rabbet, RoundedTongue
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, scaled
from furniture.rules.joinery import LEAST_STOP, LEAST_STOPPED_TONGUE, MOST_SHOWING
from furniture.units import Draft, Least, Words


class TongueEnd(Enum):
    """How a tongue suits the round end that a router bit leaves."""

    SQUARE = "square, notched past the round"
    ROUNDED = "rounded to the bit's radius"


@dataclass(frozen=True, slots=True, kw_only=True)
class StoppedDadoJoint(Joint):
    """A part housed in a trench that stops short of one edge of `into` or of both.

    The part's corner is notched so that it covers the stop; where its edge already stands back at
    the stop, and the trench ends are chiselled square, nothing is notched.

    Args:
        fit: the clearance rule.
        stop_from_face_edge_mm: wood left between the trench and the face edge; 0 runs through.
        stop_from_back_edge_mm: the same at the back edge.
        end_radius_mm: the router bit's radius left in the stopped ends; 0 is chiselled square.
        tongue_end: a square tongue is notched that much longer, to clear the round; a rounded one
            is eased to the same radius and goes up to the stop.
        end_gap_mm: between the tongue and a square stop, so that the notch's shoulder closes first.
        bottom_gap_mm: left between the part's edge and the bottom of the trench, for movement.
    """

    kind: ClassVar[str] = "stopped dado"

    fit: Fit = SLIP
    stop_from_face_edge_mm: float = 0.0
    stop_from_back_edge_mm: float = 0.0
    end_radius_mm: float = 0.0
    tongue_end: TongueEnd = TongueEnd.SQUARE
    end_gap_mm: float = 0.5
    bottom_gap_mm: float = 0.0

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The stopped trench in `into` and the notches of the incoming part as it stands.

        Raises:
            CannotMeet: the parts do not stand square to each other.
        """
        lies = housed_in(into, incoming)
        tongue = (self._tongue(lies, Face.FACE_EDGE), self._tongue(lies, Face.BACK_EDGE))
        run = (tongue[0], into.part.blank.width_mm - tongue[1])
        clearance = self.fit.clearance_mm(lies.thickness)
        is_at_end = lies.is_at_far_end
        ends = (Face.FACE_EDGE, Face.BACK_EDGE)
        joining = Joining(
            kind="stopped rabbet" if is_at_end else self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=self.fit,
            clearance_mm=0.0 if is_at_end else clearance,
            ways_in=self._ways_in(lies),
            role=Role.HOUSING,
            faces=(
                *housing_faces(
                    lies,
                    run,
                    clearance_mm=None if is_at_end else clearance,
                    bottom_gap_mm=self.bottom_gap_mm,
                    is_glued=True,
                ),
                *(face for edge in ends for face in self._stop_faces(lies, edge, clearance)),
            ),
        )
        problems = self._problems(lies, clean(run[1] - run[0]))
        if problems:
            return Worked(joining=joining, problems=problems)
        return Worked(
            joining=joining,
            into_cuts=(self._trench(lies, clearance),),
            incoming_cuts=tuple(cut for edge in ends for cut in self._own_cuts(lies, edge)),
        )

    def _stop(self, edge: Face) -> float:
        is_face_edge = edge is Face.FACE_EDGE
        return self.stop_from_face_edge_mm if is_face_edge else self.stop_from_back_edge_mm

    def _radius(self, lies: Housed) -> float:
        return 0.0 if lies.is_at_far_end else self.end_radius_mm

    def _past_round(self, lies: Housed) -> float:
        """How far a square tongue stays off the stop to clear its round corners."""
        return self._radius(lies) if self.tongue_end is TongueEnd.SQUARE else 0.0

    def _set_back(self, lies: Housed, edge: Face) -> float:
        """How far the part's own edge stands inside that edge of `into`; negative beyond it."""
        if edge is Face.FACE_EDGE:
            return clean(lies.low[1])
        return clean(lies.into.part.blank.width_mm - lies.high[1])

    def _notch_length(self, lies: Housed, edge: Face) -> float:
        stop, set_back = self._stop(edge), self._set_back(lies, edge)
        clear = stop + self._past_round(lies)
        if stop <= 0.0 or set_back >= clear - TOUCHING_MM:
            return 0.0
        return clean(clear + self.end_gap_mm - set_back)

    def _tongue(self, lies: Housed, edge: Face) -> float:
        """Where the part that goes in begins, struck from that edge of `into` [mm]."""
        return clean(max(0.0, self._set_back(lies, edge) + self._notch_length(lies, edge)))

    def _trench(self, lies: Housed, clearance: float) -> Cut:
        depth = clean(lies.reach + self.bottom_gap_mm)
        if lies.is_at_far_end:
            return Rabbet(
                edge=Face.FAR_END,
                face=lies.face,
                down_from_edge_mm=clean(lies.into.part.blank.length_mm - lies.low[0]),
                into_thickness_mm=depth,
                stop_at_low_mm=self.stop_from_face_edge_mm,
                stop_at_high_mm=self.stop_from_back_edge_mm,
            )
        return Dado(
            face=lies.face,
            lower_shoulder_mm=clean(lies.low[0]),
            width_mm=clean(lies.thickness + clearance),
            depth_mm=depth,
            stop_from_face_edge_mm=self.stop_from_face_edge_mm,
            stop_from_back_edge_mm=self.stop_from_back_edge_mm,
            end_radius_mm=self.end_radius_mm,
        )

    def _own_cuts(self, lies: Housed, edge: Face) -> tuple[Cut, ...]:
        """The notch that covers the stop, and the rounding of the tongue's end."""
        if self._stop(edge) <= 0.0:
            return ()
        length, going_in = self._notch_length(lies, edge), lies.going_in
        side = lies.incoming.placement.face_towards(_out_of(lies, edge))
        run = lies.incoming.part.blank.size[side.axis]
        reach, cuts = clean(lies.reach), list[Cut]()
        if length > 0.0:
            start = clean(run - length) if side.is_far else 0.0
            cuts.append(Notch(edge=going_in, start_mm=start, length_mm=length, depth_mm=reach))
        radius = self._radius(lies)
        if self.tongue_end is TongueEnd.ROUNDED and radius > 0.0:
            cuts.append(
                RoundedTongue(
                    edge=going_in, side=side, inset_mm=length, depth_mm=reach, radius_mm=radius
                )
            )
        return tuple(cuts)

    def _ways_in(self, lies: Housed) -> tuple[Vector, ...]:
        """Straight in, from above where the end is open, and along the trench to its only stop."""
        ways = [lies.inward]
        if lies.is_at_far_end:
            ways.append(lies.down)
        if self.stop_from_back_edge_mm <= 0.0:
            ways.append(_out_of(lies, Face.FACE_EDGE))
        if self.stop_from_face_edge_mm <= 0.0:
            ways.append(_out_of(lies, Face.BACK_EDGE))
        return tuple(ways)

    def _stop_faces(self, lies: Housed, edge: Face, clearance: float) -> tuple[JointFace, ...]:
        """The tongue's end off the flat of its stop, and the notch's shoulder on `into`."""
        stop, begins = self._stop(edge), self._tongue(lies, edge)
        if stop <= 0.0:
            return ()
        width, radius = lies.into.part.blank.width_mm, self._radius(lies)
        is_rounded = self.tongue_end is TongueEnd.ROUNDED
        from_top = radius if is_rounded else max(0.0, radius - clearance)
        sunk = sorted((lies.surface, lies.below_surface(lies.reach)))
        edges = [max(0.0, self._set_back(lies, edge)), begins]
        if edge is Face.BACK_EDGE:
            begins, edges = width - begins, [width - each for each in reversed(edges)]
        stopped = rectangle(
            lies.into,
            "stopped end",
            towards=edge,
            at=begins,
            run=(0, (lies.low[0] + radius, lies.high[0] - from_top)),
            deep=(2, (sunk[0], sunk[1])),
            play_mm=clean(self._tongue(lies, edge) - stop),
        )
        if self._notch_length(lies, edge) <= 0.0:
            return stopped
        shoulder = rectangle(
            lies.into,
            "notch shoulder",
            towards=lies.face.opposite,
            at=lies.surface,
            run=(0, (lies.low[0], lies.high[0])),
            deep=(1, (edges[0], edges[1])),
        )
        return stopped + shoulder

    def _problems(self, lies: Housed, tongue: float) -> tuple[Draft, ...]:
        found: list[Draft] = []
        into, incoming = lies.into, lies.incoming
        if lies.reach <= TOUCHING_MM or lies.run[1] <= lies.run[0]:
            need = f"{incoming.instance} reaching into a wide face of {into.instance}"
            return (apart(self.kind, into, incoming, need),)
        turned = incoming.placement.direction_to_part(into.placement.x_axis)
        if abs(turned[2]) < 0.5:
            need = f"{incoming.instance} lying with its thickness along {into.instance}'s grain"
            return (apart(self.kind, into, incoming, need),)
        found += depth_problems(self, lies, self.bottom_gap_mm, self.rules)
        width = into.part.blank.width_mm
        if max(self.stop_from_face_edge_mm, self.stop_from_back_edge_mm) <= 0.0:
            why: Words = "a stopped dado has a stop; a dado through both edges is a plain one"
            found += out_of_range(
                self, "stop_from_face_edge", 0.0, self.rules[LEAST_STOP], width / 2, why
            )
        for name, edge in (
            ("stop_from_face_edge", Face.FACE_EDGE),
            ("stop_from_back_edge", Face.BACK_EDGE),
        ):
            found += self._stop_problems(lies, name, edge)
        for name, value in (("end_gap", self.end_gap_mm), ("bottom_gap", self.bottom_gap_mm)):
            found += out_of_range(self, name, value, 0.0, 10.0, "a gap is open or closed")
        radius = self.end_radius_mm
        why = "the bit goes into the trench, which is as wide as the part that goes in"
        found += out_of_range(self, "end_radius", radius, 0.0, lies.thickness / 2, why)
        if not found and tongue < self.rules[LEAST_STOPPED_TONGUE] - TOUCHING_MM:
            why = (
                "the stops leave a tongue of ",
                Least(self.rules[LEAST_STOPPED_TONGUE]),
                " at least",
            )
            spare = self.rules[LEAST_STOPPED_TONGUE] - tongue
            edge = max((Face.FACE_EDGE, Face.BACK_EDGE), key=self._stop)
            name = "stop_from_face_edge" if edge is Face.FACE_EDGE else "stop_from_back_edge"
            most = self._stop(edge) - spare
            found += out_of_range(self, name, self._stop(edge), self.rules[LEAST_STOP], most, why)
        return tuple(found)

    def _stop_problems(self, lies: Housed, name: str, edge: Face) -> tuple[Draft, ...]:
        stop, set_back = self._stop(edge), self._set_back(lies, edge)
        if math.isnan(stop) or stop < 0.0 or 0.0 < stop < self.rules[LEAST_STOP] - TOUCHING_MM:
            most = lies.into.part.blank.width_mm / 2
            why = "thinner wood before a trench breaks out (own rule); 0 runs through"
            return out_of_range(self, name, stop, self.rules[LEAST_STOP], most, why)
        begins = stop + self._past_round(lies) if stop > 0 else 0.0
        showing = set_back - lies.taken_mm(edge) - begins - self.end_gap_mm
        if showing <= self.rules[MOST_SHOWING] + TOUCHING_MM:
            return ()
        why = f"the trench would show beside {lies.incoming.instance}, which stands further in"
        least = set_back - self._past_round(lies) - self.end_gap_mm - self.rules[MOST_SHOWING]
        return out_of_range(self, name, stop, least, set_back, why)


def _out_of(lies: Housed, edge: Face) -> Vector:
    """The way out over an edge of `into`, piece frame."""
    along = lies.into.placement.y_axis
    return scaled(along, -1.0) if edge is Face.FACE_EDGE else along
