"""The mitred corners of a piece, and which one a maker means."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from furniture.builders.all_corners import Corner
from furniture.builders.corner_figures import free_band, taken_from_inside
from furniture.builders.rules import DesignReader
from furniture.joints import Joint, planes_on
from furniture.parts.cuts import Slope, shapes_of
from furniture.parts.faces import ENDS
from furniture.parts.part import Placed
from furniture.units import said


def all_corners(placed: Sequence[Placed], joints: Sequence[Joint]) -> tuple[Corner, ...]:
    """Every mitred corner of the piece, in the order of its joints."""
    found = [
        _corner_of(joint, (joint.into, joint.incoming), placed, joints)
        for joint in joints
        if joint.mitres_ends
    ]
    return tuple(each for each in found if each is not None)


def _corner_of(
    joint: Joint, names: tuple[str, str], placed: Sequence[Placed], joints: Sequence[Joint]
) -> Corner | None:
    """The corner of a mitre joint, figures struck from the first of the two boards.

    None where the mitre has problems of its own: they are told when the piece is composed.
    """
    by_name = {each.instance: each for each in placed}
    if not set(names) <= set(by_name):
        return None
    worked = joint.work(by_name[joint.into], by_name[joint.incoming])
    first = by_name[names[0]]
    cuts = worked.into_cuts if names[0] == joint.into else worked.incoming_cuts
    slopes = shapes_of(cuts, first.part.blank, Slope)
    ends = [slope.face for slope in slopes if slope.face in ENDS]
    if not ends:
        return None
    mitred = replace(first, part=replace(first.part, cuts=(*first.part.cuts, *cuts)))
    plane = next(each for each in planes_on(mitred) if each.end is ends[0])
    boards = [by_name[name] for name in names]
    return Corner(
        mitred=mitred,
        end=ends[0],
        names=names,
        plane=plane,
        band=free_band(plane, boards, placed, joints),
        taken=() if plane.third_axis == 2 else taken_from_inside(plane, placed, joints),
    )


def corner_between(
    reader: DesignReader,
    parameter: str,
    between: object,
    placed: Sequence[Placed],
    joints: Sequence[Joint],
) -> Corner | None:
    """The corner that is meant; what is none is noted."""
    mitres = [joint for joint in joints if joint.mitres_ends]
    pairs = [(joint.into, joint.incoming) for joint in mitres]
    given = between if isinstance(between, (tuple, list)) else ()
    names = tuple(each for each in given if isinstance(each, str))
    standing = {each.instance for each in placed}
    for joint in mitres:
        if (
            len(names) == 2
            and set(names) == {joint.into, joint.incoming}
            and set(names) <= standing
        ):
            return _corner_of(joint, (names[0], names[1]), placed, joints)
    reader.refuse(
        parameter, said(between), ", ".join(map(str, pairs)) or "two boards joined by a mitre",
        "a spline or a key crosses a mitre", f"write {pairs[0]}" if pairs else "join them first",
    )  # fmt: skip
    return None
