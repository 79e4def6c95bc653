"""Proof of the contacts: every joint's faces touch, or stand off by the amount that it states."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from functools import lru_cache
from typing import Any

from furniture.joints.joint import Contact, Joining
from furniture.parts.part import Part, Placed
from furniture.parts.vectors import add, cross, length, scaled, unit
from furniture.pieces.piece import Piece
from furniture.solids.make import solid_of

CONTACT_TOLERANCE_MM = 1e-3
"""How nearly a contact is as stated [mm]. Own rule: a hundredth of what a hand can feel."""
_REACH_MM = 5000.0
_BESIDE_MM = (3.0, -3.0, 8.0, -8.0, 20.0, -20.0)


class ContactFault(Enum):
    """What is untrue of a contact."""

    INCOMING_IS_ELSEWHERE = "the incoming part has no face there"
    NOTHING_FACES_IT = "the other part is not there"
    WRONG_STAND_OFF = "the other part stands off by another amount"


@dataclass(frozen=True, slots=True, kw_only=True)
class UntrueContact:
    """A contact of a joint that is not as the joint states.

    `found_mm` is the true stand-off, negative for an overlap; none where nothing faces the point.
    """

    kind: str
    into: str
    incoming: str
    what: str
    fault: ContactFault
    stated_mm: float
    found_mm: float | None

    @property
    def in_words(self) -> str:
        """The finding in one sentence."""
        where = f"{self.kind} of {self.incoming} in {self.into}, {self.what}"
        if self.found_mm is None:
            return f"{where}: {self.fault.value}"
        return f"{where}: stands off {self.found_mm:.3f} mm, stated {self.stated_mm:.3f} mm"


_Fault = tuple[ContactFault, float | None]


def untrue_contacts(piece: Piece) -> tuple[UntrueContact, ...]:
    """Every stated contact that the solids do not bear out to 0.001 mm.

    Where another joint's cut has taken the wood at the very point, the face is tried beside it.

    Raises:
        SolidError: a part's solid cannot be made.
    """
    standing = {each.instance: each for each in piece.placed}
    found = []
    for joining in piece.joinings:
        for contact in joining.contacts:
            into, incoming = standing[joining.into], standing[joining.incoming]
            fault = _fault(into, incoming, contact)
            if fault is not None:
                fault = _fault_beside(into, incoming, contact, fault)
            if fault is not None:
                found.append(_untrue(joining, contact, *fault))
    return tuple(found)


def _untrue(
    joining: Joining, contact: Contact, fault: ContactFault, found_mm: float | None
) -> UntrueContact:
    return UntrueContact(
        kind=joining.kind,
        into=joining.into,
        incoming=joining.incoming,
        what=contact.what,
        fault=fault,
        stated_mm=contact.stand_off_mm,
        found_mm=found_mm,
    )


def _fault(into: Placed, incoming: Placed, contact: Contact) -> _Fault | None:
    tolerance = CONTACT_TOLERANCE_MM
    own = _Ray(incoming, contact)
    if not own.is_wood(-2 * tolerance) or own.is_wood(2 * tolerance):
        return (ContactFault.INCOMING_IS_ELSEWHERE, None)
    stated = contact.stand_off_mm
    other = _Ray(into, contact)
    begins = other.begins()
    if not begins:
        return (ContactFault.NOTHING_FACES_IT, None)
    nearest = min(begins, key=lambda at: abs(at - stated))
    if abs(nearest - stated) > tolerance or other.is_wood(stated / 2 - tolerance):
        return (ContactFault.WRONG_STAND_OFF, nearest)
    return None


def _fault_beside(into: Placed, incoming: Placed, contact: Contact, fault: _Fault) -> _Fault | None:
    """The fault of a contact's face by points of the same plane near the stated one.

    One point where the contact is true will do. A cut of another joint can have taken the wood at
    the stated point, so that what lies behind it is found: of all stand-offs, the one nearest to
    what is stated is told.
    """
    along = [
        unit(cross(contact.towards, axis))
        for axis in incoming.placement.axes
        if length(cross(contact.towards, axis)) > 0.5
    ]
    found = [fault]
    for distance in _BESIDE_MM:
        for way in along:
            near = replace(contact, at=add(contact.at, scaled(way, distance)))
            beside = _fault(into, incoming, near)
            if beside is None:
                return None
            found.append(beside)
    return min(found, key=lambda each: _further(each, contact.stand_off_mm))


def _further(fault: _Fault, stated: float) -> tuple[int, float]:
    """How much less a fault tells than others: a stand-off most, a face that is not there least."""
    kind, found_mm = fault
    if found_mm is not None:
        return (0, abs(found_mm - stated))
    return (1 if kind is ContactFault.NOTHING_FACES_IT else 2, 0.0)


class _Ray:
    """The line from a contact's point along its way: where it runs in a part's wood."""

    def __init__(self, placed: Placed, contact: Contact) -> None:
        self._part = placed.part
        self._start = placed.placement.to_part(contact.at)
        self._way = placed.placement.direction_to_part(contact.towards)
        self._crossings = self._found()

    def is_wood(self, distance: float) -> bool:
        """Whether there is wood at that distance along the line."""
        before = [goes_in for at, goes_in in self._crossings if at < distance]
        return bool(before) and before[-1]

    def begins(self) -> list[float]:
        """The distances at which wood begins."""
        return [at for at, goes_in in self._crossings if goes_in]

    def _found(self) -> list[tuple[float, bool]]:
        """Where the line crosses the surface, and whether it goes into the wood there."""
        from OCP.gp import gp_Dir, gp_Lin, gp_Pnt
        from OCP.IntCurveSurface import IntCurveSurface_TransitionOnCurve

        finder, _ = _probes(self._part)
        finder.Perform(gp_Lin(gp_Pnt(*self._start), gp_Dir(*self._way)), -_REACH_MM, _REACH_MM)
        inward = IntCurveSurface_TransitionOnCurve.IntCurveSurface_In
        hits = {
            (round(finder.WParameter(index), 6), finder.Transition(index) == inward)
            for index in range(1, finder.NbPnt() + 1)
        }
        crossings = sorted(hits)
        if all(goes_in == (index % 2 == 0) for index, (_, goes_in) in enumerate(crossings)):
            return crossings
        return self._tried(sorted({at for at, _ in hits}))

    def _tried(self, places: list[float]) -> list[tuple[float, bool]]:
        """The crossings by trying points between them: slow, for a line that meets an edge."""
        from OCP.gp import gp_Pnt
        from OCP.TopAbs import TopAbs_State

        _, classifier = _probes(self._part)
        crossings: list[tuple[float, bool]] = []
        was_wood = False
        for place, after in zip(places, [*places[1:], places[-1] + 1.0], strict=True):
            point = add(self._start, scaled(self._way, (place + after) / 2))
            classifier.Perform(gp_Pnt(*point), 1e-7)
            is_wood = bool(classifier.State() == TopAbs_State.TopAbs_IN)
            if is_wood != was_wood:
                crossings.append((place, is_wood))
            was_wood = is_wood
        return crossings


@lru_cache(maxsize=512)
def _probes(part: Part) -> tuple[Any, Any]:
    from OCP.BRepClass3d import BRepClass3d_SolidClassifier
    from OCP.IntCurvesFace import IntCurvesFace_ShapeIntersector

    shape = solid_of(part).wrapped
    finder = IntCurvesFace_ShapeIntersector()
    finder.Load(shape, 1e-7)
    return finder, BRepClass3d_SolidClassifier(shape)
