"""Proof of the contacts: over the whole of every joint's faces its two parts meet as it states.

The faces are held against the flat facets of both solids, by area: a bore, a notch or a step that
the joint does not tell of is wood that does not meet.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

import shapely

from furniture.joints.faces import window_of
from furniture.joints.joint import Joining, JointFace
from furniture.parts.part import Placed
from furniture.parts.plane_section import Window, with_area
from furniture.parts.vectors import dot, subtract
from furniture.pieces.piece import Piece
from furniture.solids.facets import Facet, facets_of

CONTACT_TOLERANCE_MM = 1e-3
"""How nearly a face lies where it is stated [mm]. Own rule: a hundredth of what a hand can feel."""
EDGE_TOLERANCE_MM = 0.05
"""How far the true outline of a face may lie off the stated one, on average [mm].

Own rule: a knife's line. What differs by less than this round the rectangle is no fault; it leaves
room for round arrises that run out in a face, and for curves that stand as chords.
"""
_SAME_WAY = 1.0 - 1e-6


class ContactFault(Enum):
    """What is untrue of a face of a joint."""

    INCOMING_IS_ELSEWHERE = "the incoming part has no face there"
    NOTHING_FACES_IT = "the other part is not there"
    WRONG_STAND_OFF = "the other part stands off by another amount"
    OTHER_AREA = "the two meet over another area"


@dataclass(frozen=True, slots=True, kw_only=True)
class UntrueContact:
    """A face of a joint that is not as the joint states.

    `found_mm` is the true stand-off, negative for an overlap; none where nothing faces it.
    `found_mm2` is where both are as stated, of `stated_mm2`.
    """

    kind: str
    into: str
    incoming: str
    what: str
    fault: ContactFault
    stated_mm: float
    found_mm: float | None
    stated_mm2: float
    found_mm2: float

    @property
    def in_words(self) -> str:
        """The finding in one sentence."""
        where = f"{self.kind} of {self.incoming} in {self.into}, {self.what}"
        if self.fault is ContactFault.OTHER_AREA:
            return f"{where}: meets over {self.found_mm2:.1f} mm2, stated {self.stated_mm2:.1f} mm2"
        if self.found_mm is None:
            return f"{where}: {self.fault.value}"
        return f"{where}: stands off {self.found_mm:.3f} mm, stated {self.stated_mm:.3f} mm"


def untrue_contacts(piece: Piece) -> tuple[UntrueContact, ...]:
    """Every stated face that the solids do not bear out.

    Raises:
        SolidError: a part's solid cannot be made.
    """
    standing = {each.instance: each for each in piece.placed}
    found = []
    for joining in piece.joinings:
        into, incoming = standing[joining.into], standing[joining.incoming]
        for face in joining.faces:
            fault = _fault(joining, face, into, incoming)
            if fault is not None:
                found.append(fault)
    return tuple(found)


def _fault(
    joining: Joining, face: JointFace, into: Placed, incoming: Placed
) -> UntrueContact | None:
    window = window_of(face)
    play, slack = face.drawn_play_mm, 2 * EDGE_TOLERANCE_MM * (face.run_mm + face.deep_mm)

    def untrue(fault: ContactFault, found_mm: float | None, area: float) -> UntrueContact:
        return UntrueContact(
            kind=joining.kind,
            into=joining.into,
            incoming=joining.incoming,
            what=face.what,
            fault=fault,
            stated_mm=play,
            found_mm=found_mm,
            stated_mm2=face.area_mm2,
            found_mm2=area,
        )

    own = _at(_facing(window, incoming, 1.0), 0.0)
    if own.area <= slack < face.area_mm2:
        return untrue(ContactFault.INCOMING_IS_ELSEWHERE, None, 0.0)
    others = _facing(window, into, -1.0)
    area = own.intersection(_at(others, play)).area
    met = {
        distance: own.intersection(region).area
        for distance, region in others
        if abs(distance - play) > CONTACT_TOLERANCE_MM
    }
    nearer = [at for at, size in met.items() if -CONTACT_TOLERANCE_MM < at < play and size > slack]
    if nearer:
        return untrue(ContactFault.WRONG_STAND_OFF, min(nearer), area)
    if abs(area - face.area_mm2) <= slack:
        return None
    if area > slack:
        return untrue(ContactFault.OTHER_AREA, play, area)
    facing = [at for at, size in met.items() if size > slack]
    if not facing:
        return untrue(ContactFault.NOTHING_FACES_IT, None, area)
    return untrue(ContactFault.WRONG_STAND_OFF, min(facing, key=lambda at: abs(at - play)), area)


def _facing(window: Window, placed: Placed, sign: float) -> list[tuple[float, shapely.Geometry]]:
    """The flat faces of a part that look along a window's normal or against it.

    Returns:
        How far each lies along the normal [mm], and what of the window it covers.
    """
    own = window.seen_from(placed.placement)
    found = []
    for facet in facets_of(placed.part):
        if facet.face_slack_mm == 0.0 and sign * dot(facet.normal, own.normal) > _SAME_WAY:
            region = _seen(own, facet)
            if not region.is_empty:
                distance = dot(subtract(facet.outer[0], own.centre), own.normal)
                found.append((distance, region))
    return found


def _seen(window: Window, facet: Facet) -> shapely.Geometry:
    holes = [[window.read(point) for point in hole] for hole in facet.holes]
    outline = shapely.Polygon([window.read(point) for point in facet.outer], holes)
    return with_area(outline.intersection(window.outline))


def _at(faces: list[tuple[float, shapely.Geometry]], distance: float) -> shapely.Geometry:
    """Those that lie at one distance, together."""
    return shapely.union_all(
        [region for at, region in faces if abs(at - distance) <= CONTACT_TOLERANCE_MM]
    )
