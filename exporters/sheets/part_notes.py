"""What a part's sheet says in words: where figures run from, mirrored parts, what is done later."""

from __future__ import annotations

from furniture.parts.cuts import Dado
from furniture.parts.faces import Face
from furniture.parts.part import Part
from furniture.parts.tools import Prism, Tool
from furniture.parts.vectors import Vector, add, scaled
from furniture.pieces.piece import Distinct, Piece, distinct_parts


def end_label(part: Part, end: Face) -> str:
    """What stands at an end of the face side.

    Args:
        part: says which of its ends is trimmed last.
        end: the named or the far end.
    """
    return f"{end.value}: trim this end last" if part.trimmed_last is end else end.value


def notes_for(piece: Piece, each: Distinct) -> tuple[str, ...]:
    """The notes of a part's sheet, one paragraph each."""
    part = each.part
    unit = "millimetres" if not piece.shown.is_inch else "inches"
    notes = [f"Lengths in {unit}. Running figures start at the named end, face edge or face side."]
    if any(isinstance(cut, Dado) for cut in part.cuts):
        notes.append("A dado's figure runs to its shoulder nearer the named end: mark from that.")
    twin = mirror_twin(part, [other.part for other in distinct_parts(piece)])
    if twin is not None:
        notes.append(f"Mirror image of {twin}.")
    notes += [note for note in piece.notes if _is_about(note, part)]
    return tuple(notes)


def _is_about(note: str, part: Part) -> bool:
    """Whether a note of the piece opens by naming this kind of part; a stub is a short rail."""
    opening = {word.strip(".,:;") for word in note.lower().split()[:6]}
    names = set(part.name.lower().split())
    if "stub" in names:
        names.add("rail")
    return bool(opening & names)


def mirror_twin(part: Part, others: list[Part]) -> str | None:
    """The name of another part that is this one's mirror image; none when there is none."""
    if not part.cuts:
        return None
    own = _shape_of(part)
    for other in others:
        if other == part or other.blank != part.blank or len(other.cuts) != len(part.cuts):
            continue
        target = _shape_of(other)
        if target != own and _mirrored(own, part.blank.length_mm) == target:
            return other.name
    return None


_Shape = frozenset[tuple[tuple[float, ...], ...]]


def _shape_of(part: Part) -> _Shape:
    """The corners of every tool: enough to tell whether two parts mirror each other."""
    return frozenset(
        tuple(sorted(_corners(tool))) for cut in part.cuts for tool in cut.tools(part.blank)
    )


def _corners(tool: Tool) -> list[tuple[float, ...]]:
    points: list[Vector] = []
    if isinstance(tool, Prism):
        for point in tool.outline:
            corner = add(
                tool.origin, add(scaled(tool.u_axis, point.u), scaled(tool.v_axis, point.v))
            )
            points += [corner, add(corner, tool.sweep)]
        return [_rounded(point) for point in points]
    far = add(tool.origin, scaled(tool.axis, tool.length_mm))
    return [
        (*_rounded(tool.origin), round(tool.first_radius_mm, 4)),
        (*_rounded(far), round(tool.second_radius_mm, 4)),
    ]


def _rounded(point: Vector) -> tuple[float, float, float]:
    return (round(point[0], 4) + 0.0, round(point[1], 4) + 0.0, round(point[2], 4) + 0.0)


def _mirrored(shape: _Shape, length: float) -> _Shape:
    return frozenset(
        tuple(sorted((round(length - corner[0], 4) + 0.0, *corner[1:]) for corner in corners))
        for corners in shape
    )
