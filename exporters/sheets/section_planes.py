"""Where a piece is cut to show its joints, and which of its joints are drawn large."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from exporters.sheets.joint_details import JointDetail, joint_words, meeting_words, signature
from exporters.sheets.joint_profiles import joint_profiles
from exporters.sheets.joint_values import JointProfile
from exporters.sheets.letters import letter_of_view
from exporters.views.frames import StandardView, standard_frame
from exporters.views.section import section_placed
from exporters.views.values import SectionView
from exporters.work.names import counted_woods
from furniture.parts.cuts import Hole, shapes_of
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector
from furniture.pieces.piece import Piece, extents_of

_WORDS = {0: "upright", 1: "from side to side", 2: "level"}
_MOST_NAMED = 2
_MOST_PLANES, _WHOLE_PLANES = 6, 3
_LOOKS = {0: StandardView.RIGHT, 1: StandardView.FRONT, 2: StandardView.TOP}


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """A cutting plane square to one axis of the piece, and what it shows.

    Where `is_whole` is false only the joints that it cuts are drawn.
    """

    letter: str
    words: str
    axis: int
    at_mm: float
    section: SectionView
    is_whole: bool

    @property
    def point(self) -> Vector:
        """A point of the plane [mm]."""
        return _point(self.axis, self.at_mm)

    def marks(self, other: Plane) -> bool:
        """Whether its picture has the line along which another one cuts."""
        return (self.axis == 2) != (other.axis == 2) and self.axis != 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Sectioned:
    """The planes of a piece, and its joints that are drawn large, each with its plane."""

    planes: tuple[Plane, ...]
    details: tuple[tuple[Plane, JointDetail], ...]


def sectioned(piece: Piece) -> Sectioned:
    """The sections of a piece: upright through the middle, level through the base, and more.

    Further ones are only taken where they show a joint that the others do not. Joints whose
    pictures would say the same are drawn once.

    Args:
        piece: its parts in their places and its joints.
    """
    groups: dict[tuple[object, ...], list[JointProfile]] = {}
    for profile in joint_profiles(piece):
        groups.setdefault(signature(profile, piece.shown), []).append(profile)
    low, high = extents_of(piece)
    places = [
        ("A", _WORDS[0], 0, _best(groups.values(), 0, (low[0] + high[0]) / 2, piece)),
        ("B", _WORDS[2], 2, _best(groups.values(), 2, _level_through_base(piece), piece)),
    ]
    while len(places) < _MOST_PLANES:
        unseen = [
            group
            for group in groups.values()
            if not any(_is_cut(each, axis, at) for each in group for _, _, axis, at in places)
        ]
        axes = [axis for axis in (1, 0, 2) for group in unseen if group[0].axis == axis]
        if not axes:
            break
        axis = axes[0]
        run = next(group[0].run for group in unseen if group[0].axis == axis)
        wanted = (run[0] + run[1]) / 2
        letter = letter_of_view(len(places))
        at = _best(unseen, axis, wanted, piece)
        if not any(_is_cut(each, axis, at) for group in unseen for each in group):
            break
        places.append((letter, _WORDS[axis], axis, at))
    planes = [
        Plane(
            letter=letter,
            words=f"section {letter}-{letter}, {words}",
            axis=axis,
            at_mm=at,
            section=section_placed(piece.placed, standard_frame(_LOOKS[axis]), _point(axis, at)),
            is_whole=index < _WHOLE_PLANES,
        )
        for index, (letter, words, axis, at) in enumerate(places)
    ]
    return Sectioned(planes=tuple(planes), details=tuple(_details(planes, groups.values(), piece)))


def _details(
    planes: list[Plane], groups: Iterable[list[JointProfile]], piece: Piece
) -> Iterable[tuple[Plane, JointDetail]]:
    number = 0
    for plane in planes:
        for group in groups:
            if any(_is_cut(each, other.axis, other.at_mm) for each in group
                   for other in planes[: planes.index(plane)]):  # fmt: skip
                continue
            shown = [each for each in group if _is_cut(each, plane.axis, plane.at_mm)]
            if not shown:
                continue
            yield (
                plane,
                JointDetail(
                    letter=letter_of_view(len(planes) + number) if plane.is_whole else "",
                    profile=shown[0],
                    alike=_alike(shown[0], group, piece),
                    section=plane.section,
                    plane="" if plane.is_whole else plane.letter,
                ),
            )
            number += plane.is_whole


def _alike(shown: JointProfile, group: list[JointProfile], piece: Piece) -> str:
    """The other joints that look the same, in words; nothing when there are none."""
    others = [each for each in group if each is not shown]
    incoming = list(dict.fromkeys(each.incoming for each in group))
    into = list(dict.fromkeys(each.into for each in group))
    if len(others) <= _MOST_NAMED or len(group) != len(incoming) * len(into):
        return ", ".join(joint_words(each) for each in others)
    if len(incoming) == 1:
        into.remove(shown.into)
    elif len(into) == 1:
        incoming.remove(shown.incoming)
    one, several = meeting_words(shown)
    verb = one if len(incoming) == 1 else several
    return f"{counted_woods(piece, incoming)} {verb} {counted_woods(piece, into)}"


def _is_cut(profile: JointProfile, axis: int, at: float) -> bool:
    return profile.axis == axis and profile.run[0] + 0.5 < at < profile.run[1] - 0.5


def _best(groups: Iterable[list[JointProfile]], axis: int, wanted: float, piece: Piece) -> float:
    """The place of a plane that cuts most kinds of joint, the nearest to the one wanted [mm]."""
    listed = [list(group) for group in groups]
    ends = sorted({end for group in listed for each in group if each.axis == axis
                   for end in each.run})  # fmt: skip
    middles = [(a + b) / 2 for a, b in pairwise(ends) if b - a > 2.0]

    round_things = [
        (placed.placement.to_piece(hole.centre)[axis], hole.radius_mm)
        for placed in piece.placed
        for hole in shapes_of(placed.part.cuts, placed.part.blank, Hole)
        if hole.is_round
    ]

    def worth(at: float) -> tuple[int, int, float]:
        met = sum(any(_is_cut(each, axis, at) for each in group) for group in listed)
        grazed = sum(0.5 < abs(at - middle) < radius + 1.0 for middle, radius in round_things)
        return (met, -grazed, -abs(at - wanted))

    shifted = [wanted + step * sign for step in (6.0, 14.0, 24.0) for sign in (1.0, -1.0)]
    low, high = (corner[axis] for corner in extents_of(piece))
    inside = [at for at in (*shifted, *middles) if low + 0.5 < at < high - 0.5]
    return max([wanted, *inside], key=worth)


def _point(axis: int, at: float) -> Vector:
    return (at if axis == 0 else 0.0, at if axis == 1 else 0.0, at if axis == 2 else 0.0)


def _level_through_base(piece: Piece) -> float:
    """The height that goes through most boards on edge, half way up one of them, lowest first [mm].

    What lies flat (a lid, a bottom, feet) is passed over: the plan shows how the others meet.
    """
    placed = piece.placed
    on_edge = [each for each in placed if abs(each.placement.z_axis[2]) < 0.5] or placed
    boxes = [box_of(each.part.blank, each.placement) for each in on_edge]
    spans = [(low[2], high[2]) for low, high in boxes]
    levels = sorted((low + high) / 2 for low, high in spans)
    return max(levels, key=lambda z: (sum(low < z < high for low, high in spans), -z))
