"""The story stick of a post: every dado at its true place, to be struck on the wood at once."""

from __future__ import annotations

from collections.abc import Iterator

from exporters.faces import faces_of
from exporters.patterns.pattern import NamedLine, Note, Pattern, Printed, outline
from exporters.sheets.figures import stroke
from exporters.sheets.paper import Box2
from exporters.sheets.part_notes import end_label
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Stroke
from furniture.parts.cuts import Channel
from furniture.parts.faces import ENDS
from furniture.parts.part import slug_of, trenches_across
from furniture.parts.placement import box_of
from furniture.pieces.piece import Distinct, Piece, distinct_parts, placed_named
from furniture.units import dialled

_STRIP_MM = 15.0
"""How wide the strip is. Own rule: wide enough to hold a square against."""
_SLACK_MM = 0.5

_Marked = tuple[tuple[str, float, float], ...]
"""What goes into each dado, and where its shoulders lie from the named end [mm]."""


def story_sticks(piece: Piece) -> tuple[Pattern, ...]:
    """A story stick for every part that has dados; parts marked alike share one.

    Args:
        piece: says what goes into each dado.
    """
    groups: dict[tuple[float, str, str, _Marked], list[str]] = {}
    for each in distinct_parts(piece):
        marked = tuple(_marked(piece, each))
        if marked:
            key = (each.part.blank.length_mm, *_end_names(piece, each), marked)
            groups.setdefault(key, []).append(each.part.name)
    return tuple(
        _stick(piece, names, length, (near, far), marked)
        for (length, near, far, marked), names in groups.items()
    )


def _marked(piece: Piece, each: Distinct) -> Iterator[tuple[str, float, float]]:
    trenches, faces = trenches_across(each.part), faces_of(piece, each)
    for trench in sorted(trenches, key=lambda trench: trench.wide[0]):
        name = _what_goes_in(piece, each, trench)
        if len({each.face for each in trenches}) > 1:
            name += f", {faces.called(trench.face)}"
        yield (name, *trench.wide)


def _what_goes_in(piece: Piece, each: Distinct, trench: Channel) -> str:
    """The instance whose board lies in the dado: its middle is between the shoulders."""
    into = placed_named(piece, each.instances[0])
    for joining in piece.joinings:
        if joining.into != into.instance:
            continue
        incoming = placed_named(piece, joining.incoming)
        corners = box_of(incoming.part.blank, incoming.placement)
        low, high = sorted(into.placement.to_part(corner)[0] for corner in corners)
        lower, upper = trench.wide
        if lower < (low + high) / 2 < upper and high - low < upper - lower + _SLACK_MM:
            return incoming.instance
    return "mortise" if trench.is_mortise else "dado"


def _end_names(piece: Piece, each: Distinct) -> tuple[str, str]:
    """What both ends are called, and which of them is trimmed last."""
    faces = faces_of(piece, each)
    near, far = (end_label(each.part, faces, end) for end in ENDS)
    return near, far


def _stick(
    piece: Piece, names: list[str], length: float, ends: tuple[str, str], marked: _Marked
) -> Pattern:
    core = Box2(left=0.0, bottom=0.0, right=length, top=_STRIP_MM)
    strokes: list[Stroke] = list(outline(core))
    notes: list[Note] = []
    for name, lower, upper in marked:
        strokes.append(_across(lower, LineClass.VISIBLE))
        from_end, width = dialled(lower, piece.shown), dialled(upper - lower, piece.shown)
        said = f"{name}: mark from this shoulder, {from_end}"
        notes.append(Note(text=said, points=((lower, _STRIP_MM),)))
        inside = min(upper, length)
        for start, end in ((0.0, _STRIP_MM), (_STRIP_MM, 0.0)):
            strokes.append(stroke((lower, start), (inside, end), LineClass.DIMENSION))
        if upper < length - 1e-6:
            strokes.append(_across(upper, LineClass.VISIBLE))
            said = f"{name}: upper shoulder, {from_end + width}"
            notes.append(Note(text=said, points=((upper, 0.0),)))
    near, far = ends
    whose = " and ".join(dict.fromkeys(names))
    return Pattern(
        slug=f"story-stick-{slug_of(whose)}",
        shows=f"story stick of the {whose}: wood between crossed shoulders is cut out",
        core=core,
        strokes=tuple(strokes),
        notes=tuple(notes),
        named=(
            NamedLine(text=near, start=(0.0, 0.0), end=(0.0, _STRIP_MM)),
            NamedLine(text=far, start=(length, 0.0), end=(length, _STRIP_MM)),
        ),
        printed=Printed.ON_ALL_IT_TAKES,
    )


def _across(x: float, line_class: LineClass) -> Stroke:
    return stroke((x, 0.0), (x, _STRIP_MM), line_class)
