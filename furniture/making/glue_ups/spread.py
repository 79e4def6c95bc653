"""Where glue goes in a stage and where not, and what is driven and put in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from furniture.assembly.blocking import meets_within
from furniture.assembly.seen import Side
from furniture.joints.joint import GrainRelation, Joining
from furniture.joints.reading import is_face_to_face
from furniture.making.glue_ups.looked import Looked, Rigid
from furniture.making.glue_ups.values import Bare, Bareness, DrivenIn, GlueArea, GluedFace
from furniture.parts.vectors import Vector

_NEAR_MM = 1.0
"""What lies so near under a face that is glued gets its squeeze-out. Own rule."""
_DRINKS = (GrainRelation.LONG_TO_END, GrainRelation.END_TO_END)


def spread_of(joinings: Iterable[Joining]) -> tuple[GluedFace, ...]:
    """The faces that take glue, those with end grain to be sized first."""
    return tuple(
        GluedFace(pair=(each.into, each.incoming), face=face, wants_size=face.glue in _DRINKS)
        for each in joinings
        for face in each.glued_faces
    )


def areas_of(spread: Sequence[GluedFace]) -> tuple[GlueArea, ...]:
    """Their areas by how the grain meets."""
    sums: dict[GrainRelation, float] = {}
    for each in spread:
        if each.face.glue is not None:
            sums[each.face.glue] = sums.get(each.face.glue, 0.0) + each.face.area_mm2
    return tuple(GlueArea(grain=grain, area_mm2=area) for grain, area in sums.items())


def bare_of(
    looked: Looked, whole: Rigid, glued: Sequence[Joining], dry: Sequence[Joining]
) -> tuple[Bare, ...]:
    """Where no glue goes: dry joints, bare faces of glued ones, and what lies under a glued face.

    Args:
        looked: the piece.
        whole: all that stands in the stage.
        glued: the joints that close with glue.
        dry: those that close without.
    """
    moving = [Bare(instance=each.incoming, against=each.into, why=Bareness.MOVES) for each in dry]
    walls = [
        Bare(instance=each.incoming, against=each.into, why=Bareness.NOT_BRIDGED)
        for each in glued
        if any(face.glue is None for face in each.faces)
    ]
    return tuple(dict.fromkeys((*moving, *walls, *_lain_under(looked, whole, glued))))


def _lain_under(looked: Looked, whole: Rigid, glued: Sequence[Joining]) -> Iterator[Bare]:
    """Parts under a face that is stuck on others: a foot over a bottom that must move."""
    for name in dict.fromkeys(each.incoming for each in glued if is_face_to_face(each)):
        row = looked.row_of[name]
        own = [each for each in looked.joinings if name in (each.into, each.incoming)]
        stuck = {end for each in own if each.glued_faces for end in (each.into, each.incoming)}
        ways = {
            face.normal
            for each in glued
            if each.incoming == name and is_face_to_face(each)
            for face in each.glued_faces
        }
        firm = _firm_with(looked, row, stuck)
        only_on = tuple(each.into for each in glued if each.incoming == name)
        for other in sorted(whole - {row}):
            if other not in firm and any(_lies_before(looked, row, other, way) for way in ways):
                yield Bare(
                    instance=name, against=looked.parts[other].name, why=Bareness.MOVES,
                    only_on=only_on,
                )  # fmt: skip


def _firm_with(looked: Looked, row: int, stuck: set[str]) -> set[int]:
    """Rows of all that glue makes one with some parts, a part itself left aside."""
    firm, is_more = {looked.row_of[name] for name in stuck} - {row}, True
    links = [set(looked.ends_of(each)) for each in looked.joinings if each.glued_faces]
    while is_more:
        new = {end for link in links if link & firm and row not in link for end in link} - firm
        firm |= new
        is_more = bool(new)
    return firm


def _lies_before(looked: Looked, row: int, other: int, way: Vector) -> bool:
    first, second = (Side(looked.scene, [each]) for each in (row, other))
    return meets_within(first, second, way, _NEAR_MM)


def fasteners_of(joinings: Iterable[Joining], *, glued: bool) -> tuple[DrivenIn, ...]:
    """The fasteners of some joints: those glued in their bores, or those driven afterwards."""
    return tuple(
        DrivenIn(pair=(each.into, each.incoming), fastener=fastener)
        for each in joinings
        for fastener in each.fasteners
        if fastener.is_glued is glued
    )
