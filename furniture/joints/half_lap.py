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
from furniture.parts.faces import WIDE_FACES, Face
from furniture.parts.part import Placed
from furniture.parts.placement import Box
from furniture.parts.vectors import Vector, dot, scaled
from furniture.rules.joinery import LEAST_LAP, MOST_LAP
from furniture.units import Draft, WordedDraft


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
        inward = into.placement.direction_to_piece(scaled(self.face.normal, -1.0))
        under = incoming.placement.face_towards(inward)
        first = _Half(part=into, box=box, face=self.face, depth=depth, fit=self.fit)
        second = _Half(
            part=incoming, box=back, face=under, depth=clean(common - depth), fit=self.fit
        )
        level = surface - depth if self.face is Face.FACE_SIDE else surface + depth
        joining = Joining(
            kind=self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=self.fit,
            clearance_mm=max(first.play, second.play),
            ways_in=(inward, *_ways_over_ends(first, second)),
            role=Role.CORNER if first.open_at or second.open_at else Role.SEAT,
            faces=(
                *self._cheek_face(into, incoming, box, level),
                *_shoulders(first),
                *_own_shoulders(second),
            ),
        )
        problems = self._problems(into, incoming, box, back)
        if problems:
            return Worked(joining=joining, problems=problems)
        return Worked(
            joining=joining,
            into_cuts=(first.cut,),
            incoming_cuts=(second.cut,),
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
            return (
                WordedDraft(
                    parameter=f"{self.kind} of {self.incoming} in {self.into}: face",
                    given=f"Face.{self.face.name}",
                    allowed=" or ".join(f"Face.{each.name}" for each in WIDE_FACES),
                    why="a lap is cut into a wide face",
                    remedy=f"write face=Face.{WIDE_FACES[0].name}",
                ),
            )
        (low, high), thickness = box, into.part.blank.thickness_mm
        if self.face is Face.FACE_SIDE:
            is_lapped = high[2] >= thickness - TOUCHING_MM and -TOUCHING_MM <= low[2] < thickness
        else:
            is_lapped = low[2] <= TOUCHING_MM and 0 < high[2] <= thickness + TOUCHING_MM
        if not (is_lapped and _crosses(into, box) and _crosses(incoming, back)):
            need = (
                f"{incoming.instance} lying across the whole width of {into.instance}, in the "
                f"face that the joint cuts (face=Face.{self.face.name})"
            )
            return (apart(self.kind, into, incoming, need),)
        return self._share_problems()

    def _share_problems(self) -> tuple[Draft, ...]:
        if self.rules[LEAST_LAP] - 1e-9 <= self.share <= self.rules[MOST_LAP] + 1e-9:
            return ()
        nearest = min(max(self.share, self.rules[LEAST_LAP]), self.rules[MOST_LAP])
        return (
            WordedDraft(
                parameter=f"{self.kind} of {self.incoming} in {self.into}: share",
                given=f"{self.share:.3g}",
                allowed=f"{self.rules[LEAST_LAP]:.3g} to {self.rules[MOST_LAP]:.3g}",
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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Half:
    """What one part loses: the box of the other in its frame, the face and the depth of the cut."""

    part: Placed
    box: Box
    face: Face
    depth: float
    fit: Fit

    @property
    def open_at(self) -> Face | None:
        """The end that the cut is open at; none where it has a shoulder on both sides."""
        low, high = self.box
        if high[0] >= self.part.part.blank.length_mm - TOUCHING_MM:
            return Face.FAR_END
        return Face.NAMED_END if low[0] <= TOUCHING_MM else None

    @property
    def play(self) -> float:
        """How much wider the cut is than what lies in it [mm]."""
        thickness = self.part.part.blank.thickness_mm
        return 0.0 if self.open_at else clean(self.fit.clearance_mm(thickness))

    @property
    def cut(self) -> Cut:
        """A rabbet where the other part lies at an end, else a dado."""
        low, high = self.box
        if self.open_at is None:
            return Dado(
                face=self.face,
                lower_shoulder_mm=clean(low[0]),
                width_mm=clean(high[0] - low[0] + self.play),
                depth_mm=self.depth,
            )
        down = self.part.part.blank.length_mm - low[0] if self.open_at.is_far else high[0]
        return Rabbet(
            edge=self.open_at,
            face=self.face,
            down_from_edge_mm=clean(down),
            into_thickness_mm=self.depth,
        )

    @property
    def shoulders(self) -> tuple[tuple[Face, float, float], ...]:
        """The end that each shoulder is nearer to, the other part's edge, its play there [mm]."""
        low, high = self.box
        both = (Face.NAMED_END, low[0], 0.0), (Face.FAR_END, high[0], self.play)
        return tuple(each for each in both if each[0] is not self.open_at)

    def shoulder(self, what: str, towards: Face, at: float, play: float) -> tuple[JointFace, ...]:
        """The face of a shoulder, over the width of the part and as deep as the cut."""
        (low, high), blank = self.box, self.part.part.blank
        deep = (0.0, self.depth)
        if self.face is Face.FACE_SIDE:
            deep = (blank.thickness_mm - self.depth, blank.thickness_mm)
        run = overlap((low[1], high[1]), extent(blank, 1))
        return rectangle(
            self.part, what, towards=towards, at=at, run=(1, run), deep=(2, deep), play_mm=play
        )


def _shoulders(half: _Half) -> tuple[JointFace, ...]:
    """The incoming part's edges against the shoulders of the cut in `into`."""
    return tuple(
        found
        for end, at, play in half.shoulders
        for found in half.shoulder(f"{_WHICH[end]} shoulder", end, at, play)
    )


def _own_shoulders(half: _Half) -> tuple[JointFace, ...]:
    """The shoulders of the incoming part's own cut against the edges of `into`."""
    return tuple(
        found
        for end, at, play in half.shoulders
        for found in half.shoulder(f"own {_WHICH[end]} shoulder", end.opposite, at + play, play)
    )


_WHICH = {Face.NAMED_END: "lower", Face.FAR_END: "upper"}


def _ways_over_ends(first: _Half, second: _Half) -> tuple[Vector, ...]:
    """On to an end of `into`, or endways into it."""
    ways = []
    if first.open_at:
        ways.append(first.part.placement.direction_to_piece(first.open_at.opposite.normal))
    if second.open_at:
        ways.append(second.part.placement.direction_to_piece(second.open_at.normal))
    return tuple(dict.fromkeys(ways))
