"""What a part's sheet says in words: where figures run from, mirrored parts, what is done later."""

from __future__ import annotations

from exporters.faces import is_outside, way_of
from furniture.parts.faces import Face
from furniture.parts.part import Part, Placed, trenches_across
from furniture.parts.tools import Prism, Tool
from furniture.parts.vectors import Vector, add, scaled
from furniture.pieces.piece import Distinct, Piece, distinct_parts, placed_named
from furniture.units import Shown, decimal_figure
from furniture.units.showing import ROUNDED_MARK, LengthUnit

_MOST_NAMES = 3


def end_label(part: Part, end: Face) -> str:
    """What stands at an end of the face side.

    Args:
        part: says which of its ends is trimmed last.
        end: the named or the far end.
    """
    return f"{end.value}: trim this end last" if part.trimmed_last is end else end.value


def notes_for(piece: Piece, each: Distinct, is_rounded: bool) -> tuple[str, ...]:
    """The notes of a part's sheet, one paragraph each.

    Args:
        piece: that holds the part.
        each: the part and its instances.
        is_rounded: whether a figure of the sheet carries the mark of rounding.
    """
    part = each.part
    unit = "millimetres" if not piece.shown.is_inch else "inches"
    notes = [
        f"Lengths in {unit}. Running figures start at the named end, face edge or face side.",
        standing_note(piece, each),
    ]
    notes += [] if (done := done_note(piece, each)) is None else [done]
    if trenches_across(part):
        notes.append("A dado's figure runs to its shoulder nearer the named end: mark from that.")
    if is_rounded:
        notes.append(rounded_note(piece.shown))
    twin = mirror_twin(part, [other.part for other in distinct_parts(piece)])
    if twin is not None:
        notes.append(f"Mirror image of {twin}.")
    notes += [_sentence(note) for note in piece.notes if _is_about(note, part)]
    return tuple(notes)


def done_note(piece: Piece, each: Distinct) -> str | None:
    """That the part is made already, or which of its instances are.

    Args:
        piece: that knows what is done.
        each: the part and its instances.
    """
    done = [name for name in each.instances if name in piece.done]
    if not done:
        return None
    if len(done) == each.quantity:
        return "Done: nothing is left to be cut on it."
    return f"Done: {_names(done)}."


def rounded_note(shown: Shown) -> str:
    """What the mark before a rounded figure means.

    Args:
        shown: how the figures are printed.
    """
    limit = decimal_figure(shown.tolerance_mm, shown)
    if shown.unit is LengthUnit.INCH_FRACTION:
        return (
            f"{ROUNDED_MARK} before a fraction: it is off by more than {limit} in; "
            "work to the decimal in brackets."
        )
    return f"{ROUNDED_MARK} before a figure: rounded by more than {limit} {shown.unit.symbol}."


def standing_note(piece: Piece, each: Distinct) -> str:
    """How the part stands in the piece, so that its faces and ends can be told on the wood.

    Args:
        piece: that holds the part.
        each: the part and its instances; where they stand differently each is named.
    """
    ways: dict[str, list[str]] = {}
    for name in each.instances:
        ways.setdefault(_way_of(piece, placed_named(piece, name)), []).append(name)
    if len(ways) == 1:
        return f"In the piece, seen from the front: {next(iter(ways))}."
    said = "; ".join(f"{_names(names)}: {way}" for way, names in ways.items())
    return f"In the piece, seen from the front. {_sentence(said)}"


def _way_of(piece: Piece, placed: Placed) -> str:
    outside = is_outside(piece, placed, Face.FACE_SIDE)
    where = "" if outside is None else " (outside)" if outside else " (inside)"
    side, edge, end = (
        way_of(placed, face) for face in (Face.FACE_SIDE, Face.FACE_EDGE, Face.NAMED_END)
    )
    return f"face side {side}{where}, face edge {edge}, named end {end}"


def _names(names: list[str]) -> str:
    if len(names) <= _MOST_NAMES:
        return ", ".join(names)
    return f"{', '.join(names[: _MOST_NAMES - 1])} and {len(names) - _MOST_NAMES + 1} more"


def _sentence(note: str) -> str:
    text = note[:1].upper() + note[1:]
    return text if text.endswith((".", "!", "?")) else f"{text}."


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
