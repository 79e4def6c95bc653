"""The half-lap: two parts crossing or meeting on the flat, each cut away where the other lies."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from furniture.joints.faces import rectangle
from furniture.joints.fit import SLIP, Fit
from furniture.joints.joint import Joining, Joint, JointFace, Role, Worked
from furniture.joints.relation import (
    TOUCHING_MM,
    CannotMeet,
    apart,
    box_in,
    clean,
    extent,
    grain_between,
    overlap,
)
from furniture.parts.cuts import Cut, Dado, Rabbet
from furniture.parts.faces import WIDE_FACES, Arris, Face
from furniture.parts.part import Placed
from furniture.parts.placement import Box
from furniture.parts.vectors import Vector, dot, scaled
from furniture.units import Draft, WordedDraft

LEAST_SHARE, GREATEST_SHARE = 0.33, 0.67
"""What may be taken from one part, as a share of the common thickness. Own rule: a third to two
thirds, in hundredths so that a refusal can say them; a half is usual, and neither part is left a
weak tongue."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HalfLapJoint(Joint):
    """Two parts on the flat that overlap: a cross lap, a tee lap, or an end lap at a corner.

    The incoming part lies in `face` of `into`. Where it lies at an end the cut is a rabbet, else a
    dado as wide as the measured part plus the fit's clearance.

    Args:
        fit: the clearance rule, by the thickness of the part that is cut.
        face: the wide face of `into` that is cut away.
        share: of the common thickness taken from `into`.
    """

    kind: ClassVar[str] = "half-lap"

    fit: Fit = SLIP
    face: Face = Face.FACE_SIDE
    share: float = 0.5

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The cuts in both parts as they lie.

        Raises:
            CannotMeet: the parts do not stand square to each other, or do not lie flat together.
        """
        if abs(dot(into.placement.z_axis, incoming.placement.z_axis)) < 0.5:
            raise CannotMeet(f"{incoming.instance} does not lie flat with {into.instance}")
        box, back = box_in(into, incoming), box_in(incoming, into)
        (low, high), thickness = box, into.part.blank.thickness_mm
        if self.face is Face.FACE_SIDE:
            surface, common = thickness, thickness - low[2]
        else:
            surface, common = 0.0, high[2]
        depth = clean(self.share * common)
        remaining = clean(common - depth)
        inward = into.placement.direction_to_piece(scaled(self.face.normal, -1.0))
        under = incoming.placement.face_towards(inward)
        first = self._cut(into, box, self.face, depth)
        second = self._cut(incoming, back, under, remaining)
        level = surface - depth if self.face is Face.FACE_SIDE else surface + depth
        joining = Joining(
            kind=self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=self.fit,
            clearance_mm=max(_clearance(first, box), _clearance(second, back)),
            ways_in=_ways_in(into, incoming, first, second, inward),
            role=_role(first, second),
            faces=(
                *self._cheek_face(into, incoming, box, level),
                *_shoulders(into, first, box, level, surface),
                *_own_shoulders(incoming, second, back),
            ),
        )
        problems = self._problems(into, incoming, box, back)
        if problems:
            return Worked(joining=joining, problems=problems)
        return Worked(
            joining=joining,
            into_cuts=(first,),
            incoming_cuts=(second,),
            into_hidden=_hidden(first),
            incoming_hidden=_hidden(second),
        )

    def _cut(self, part: Placed, box: Box, face: Face, depth: float) -> Rabbet | Dado:
        """A rabbet where the other part lies at an end, else a dado."""
        low, high = box
        length = part.part.blank.length_mm
        if high[0] >= length - TOUCHING_MM:
            down = clean(length - low[0])
            return Rabbet(
                edge=Face.FAR_END, face=face, down_from_edge_mm=down, into_thickness_mm=depth
            )
        if low[0] <= TOUCHING_MM:
            down = clean(high[0])
            return Rabbet(
                edge=Face.NAMED_END, face=face, down_from_edge_mm=down, into_thickness_mm=depth
            )
        width = clean(high[0] - low[0])
        return Dado(
            face=face,
            lower_shoulder_mm=clean(low[0]),
            width_mm=clean(width + self.fit.clearance_mm(part.part.blank.thickness_mm)),
            depth_mm=depth,
        )

    def _cheek_face(
        self, into: Placed, incoming: Placed, box: Box, level: float
    ) -> tuple[JointFace, ...]:
        (low, high), blank = box, into.part.blank
        return rectangle(
            into,
            "cheek",
            towards=self.face.opposite,
            at=level,
            run=(0, overlap((low[0], high[0]), extent(blank, 0))),
            deep=(1, overlap((low[1], high[1]), extent(blank, 1))),
            glue=grain_between(into, 2, incoming, 2),
        )

    def _problems(self, into: Placed, incoming: Placed, box: Box, back: Box) -> tuple[Draft, ...]:
        if self.face not in WIDE_FACES:
            need = f"face side or back side of {into.instance} as the face that is cut"
            return (apart(self.kind, into, incoming, need),)
        (low, high), thickness = box, into.part.blank.thickness_mm
        if self.face is Face.FACE_SIDE:
            is_lapped = high[2] >= thickness - TOUCHING_MM and -TOUCHING_MM <= low[2] < thickness
        else:
            is_lapped = low[2] <= TOUCHING_MM and 0 < high[2] <= thickness + TOUCHING_MM
        if not (is_lapped and _crosses(into, box) and _crosses(incoming, back)):
            need = (
                f"{incoming.instance} lying across the whole width of {into.instance}, in its "
                f"{self.face.value}"
            )
            return (apart(self.kind, into, incoming, need),)
        return self._share_problems()

    def _share_problems(self) -> tuple[Draft, ...]:
        if LEAST_SHARE - 1e-9 <= self.share <= GREATEST_SHARE + 1e-9:
            return ()
        nearest = min(max(self.share, LEAST_SHARE), GREATEST_SHARE)
        return (
            WordedDraft(
                parameter=f"{self.kind} of {self.incoming} in {self.into}: share",
                given=f"{self.share:.3g}",
                allowed=f"{LEAST_SHARE:.3g} to {GREATEST_SHARE:.3g}",
                why="neither part is left a weak tongue (own rule); a half is usual",
                remedy=f"make it {nearest:.2g}",
            ),
        )


def _crosses(part: Placed, box: Box) -> bool:
    """Whether the box lies over the whole width of the part and some of its length."""
    low, high = box
    blank = part.part.blank
    covers = low[1] <= TOUCHING_MM and high[1] >= blank.width_mm - TOUCHING_MM
    run = overlap((low[0], high[0]), extent(blank, 0))
    return covers and TOUCHING_MM < run[1] - run[0] < blank.length_mm - TOUCHING_MM


def _clearance(cut: Cut, box: Box) -> float:
    if isinstance(cut, Dado):
        return clean(cut.width_mm - (box[1][0] - box[0][0]))
    return 0.0


def _role(first: Cut, second: Cut) -> Role:
    """A lap at an end of either part is a corner; where both run on, one lies in the other."""
    is_corner = isinstance(first, Rabbet) or isinstance(second, Rabbet)
    return Role.CORNER if is_corner else Role.SEAT


def _shoulders(
    into: Placed, cut: Rabbet | Dado, box: Box, level: float, surface: float
) -> tuple[JointFace, ...]:
    """The incoming part's edges against the shoulders of the cut in `into`."""
    low, high = box
    run = (1, overlap((low[1], high[1]), extent(into.part.blank, 1)))
    deep = (2, (min(level, surface), max(level, surface)))
    is_open = cut.edge if isinstance(cut, Rabbet) else None
    return tuple(
        found
        for towards, at, play in (
            (Face.NAMED_END, low[0], 0.0),
            (Face.FAR_END, high[0], _clearance(cut, box)),
        )
        if towards is not is_open
        for found in rectangle(
            into, f"{_WHICH[towards]} shoulder", towards=towards, at=at, run=run, deep=deep,
            play_mm=play,
        )
    )  # fmt: skip


def _own_shoulders(incoming: Placed, cut: Rabbet | Dado, back: Box) -> tuple[JointFace, ...]:
    """The shoulders of the incoming part's own cut against the edges of `into`."""
    low, high = back
    blank = incoming.part.blank
    sunk = cut.depth_mm if isinstance(cut, Dado) else cut.into_thickness_mm
    deep = (blank.thickness_mm - sunk, blank.thickness_mm)
    if cut.face is not Face.FACE_SIDE:
        deep = (0.0, sunk)
    upper = cut.upper_shoulder_mm if isinstance(cut, Dado) else high[0]
    is_open = cut.edge if isinstance(cut, Rabbet) else None
    return tuple(
        found
        for end, at, play in (
            (Face.NAMED_END, low[0], 0.0),
            (Face.FAR_END, upper, _clearance(cut, back)),
        )
        if end is not is_open
        for found in rectangle(
            incoming, f"own {_WHICH[end]} shoulder", towards=end.opposite, at=at,
            run=(1, overlap((low[1], high[1]), extent(blank, 1))), deep=(2, deep), play_mm=play,
        )
    )  # fmt: skip


_WHICH = {Face.NAMED_END: "lower", Face.FAR_END: "upper"}


def _hidden(cut: Rabbet | Dado) -> frozenset[Arris]:
    return frozenset({Arris(cut.edge, cut.face)}) if isinstance(cut, Rabbet) else frozenset()


def _ways_in(
    into: Placed, incoming: Placed, first: Cut, second: Cut, inward: Vector
) -> tuple[Vector, ...]:
    """Down into the lap, on to an end of `into`, or endways into it."""
    ways = [inward]
    if isinstance(first, Rabbet):
        ways.append(scaled(into.placement.direction_to_piece(first.edge.normal), -1.0))
    if isinstance(second, Rabbet):
        ways.append(incoming.placement.direction_to_piece(second.edge.normal))
    return tuple(dict.fromkeys(ways))
