"""Which arrises a joint hides, worked out from its faces and its cuts: no profile may run there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from furniture.joints.faces import faces_as_cut, window_of
from furniture.joints.joint import JointFace, Worked
from furniture.parts.blank import Blank
from furniture.parts.cuts import Bite, Cut, shapes_of
from furniture.parts.faces import ALL_ARRISES, Arris
from furniture.parts.lines import Reach, reaches
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, add, dot, scaled, subtract

_SKIN_MM = 1e-3
"""How far inside the wood an arris is looked for, and how far off a face it still lies in it."""
_LEAST_MM = 0.1
"""A stretch shorter than this is rounding and no edge to shape [mm]."""


def hidden_by(worked: Worked, into: Placed, incoming: Placed) -> tuple[frozenset[Arris], ...]:
    """The arrises that a joint hides, of what is gone into and of what goes in.

    Args:
        worked: the joint.
        into: the part that is gone into, with all its cuts but profiles.
        incoming: the part that goes in, the same.
    """
    joining = worked.joining
    # A gap that shows hides nothing; the play of a fit does.
    play = joining.clearance_mm if joining.fit is not None else 0.0
    closed = [each for each in joining.faces if each.drawn_play_mm <= play + _SKIN_MM]
    faces = faces_as_cut(closed, into, incoming)
    return (
        _hidden_in_into(into, worked.into_cuts, faces),
        _hidden_in_incoming(incoming, worked.incoming_cuts, faces),
    )


def _hidden_in_incoming(
    incoming: Placed, cuts: Sequence[Cut], faces: Sequence[JointFace]
) -> frozenset[Arris]:
    """The arrises of what goes in that a joint hides.

    One of which some lies in the joint is hidden: shaped, it would show a hole at the joint's edge.
    """
    blank = incoming.part.blank
    return frozenset(
        arris
        for arris in ALL_ARRISES
        if _is_broken(arris, blank, cuts)
        or any(high - low > _LEAST_MM for low, high in _lying_in(incoming, arris, faces))
    )


def _hidden_in_into(
    into: Placed, cuts: Sequence[Cut], faces: Sequence[JointFace]
) -> frozenset[Arris]:
    """The arrises of what is gone into of which a joint leaves nothing in the open.

    One that the other part lies against in places only, as a rail on its feet, can still be shaped.
    """
    blank = into.part.blank
    there = [
        replace(each, centre=add(each.centre, scaled(each.normal, each.play_mm))) for each in faces
    ]
    return frozenset(
        arris
        for arris in ALL_ARRISES
        if _is_broken(arris, blank, cuts)
        or not _left_of(arris, blank, cuts, _lying_in(into, arris, there))
    )


def _is_broken(arris: Arris, blank: Blank, cuts: Sequence[Cut]) -> bool:
    """Whether a joint's own cuts take an arris whole, or its notches break it in two."""
    notches = [cut for cut in cuts if any(True for _ in shapes_of((cut,), blank, Bite))]
    return is_taken(arris, blank, cuts) or len(_left_of(arris, blank, notches)) > 1


def is_taken(arris: Arris, blank: Blank, cuts: Sequence[Cut]) -> bool:
    """Whether cuts leave nothing of an arris that could be shaped."""
    return not _left_of(arris, blank, cuts)


def _left_of(
    arris: Arris, blank: Blank, cuts: Sequence[Cut], covered: Sequence[Reach] = ()
) -> list[Reach]:
    """The stretches of an arris that cuts leave and nothing covers, just inside the wood [mm]."""
    run, at = arris.run_axis, _point(arris, blank, _SKIN_MM)
    taken = [reach for cut in cuts for tool in cut.tools(blank) for reach in reaches(tool, run, at)]
    found, start = [], 0.0
    for low, high in (*sorted([*taken, *covered]), (blank.size[run], blank.size[run])):
        if low - start > _LEAST_MM:
            found.append((start, low))
        start = max(start, high)
    return found


def _point(arris: Arris, blank: Blank, inside: float) -> Vector:
    """The arris's beginning, so far inside both its faces [mm]."""
    at = [0.0, 0.0, 0.0]
    for face in (arris.first, arris.second):
        at[face.axis] = blank.across(face) - inside if face.is_far else inside
    return (at[0], at[1], at[2])


def _lying_in(placed: Placed, arris: Arris, faces: Sequence[JointFace]) -> list[Reach]:
    """The stretches of an arris of the blank that lie in faces [mm]."""
    blank, place = placed.part.blank, placed.placement
    run = blank.size[arris.run_axis]
    start = place.to_piece(_point(arris, blank, 0.0))
    end = add(start, scaled(place.axes[arris.run_axis], run))
    found = []
    for face in faces:
        off = [abs(dot(subtract(each, face.centre), face.normal)) for each in (start, end)]
        if max(off) > _SKIN_MM:
            continue
        window, low, high = window_of(face), 0.0, 1.0
        ends = zip(window.read(start), window.read(end), strict=True)
        for (a, b), half in zip(ends, (face.run_mm / 2, face.deep_mm / 2), strict=True):
            inside = _within(a, b, half + _SKIN_MM)
            low, high = max(low, inside[0]), min(high, inside[1])
        if high > low:
            found.append((low * run, high * run))
    return found


def _within(a: float, b: float, half: float) -> tuple[float, float]:
    """From which to which share of the way from a to b one is within half of nought."""
    if abs(b - a) < _SKIN_MM:
        return (0.0, 1.0) if abs(a) <= half else (1.0, 0.0)
    shares = sorted(((-half - a) / (b - a), (half - a) / (b - a)))
    return (shares[0], shares[1])
