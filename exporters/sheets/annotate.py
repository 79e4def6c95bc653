"""The figures of a cut as a sheet says them: words in the shown unit, a view for each."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import assert_never

from exporters.faces import BY_MARKS, PartFaces
from exporters.sheets.annotation import (
    LOOK_OF_FACE,
    Annotation,
    Bench,
    Heard,
    Look,
    Position,
    Shoulder,
    SpanShown,
)
from furniture.parts.cuts import Cut
from furniture.parts.cuts.figures import Angle, Care, Figure, Figures, Said, Size, Spanned, Struck
from furniture.parts.faces import Arris, Face
from furniture.parts.part import Part
from furniture.pieces.datums import USUAL_DATUMS
from furniture.units import Shown


def annotations_of(part: Part, shown: Shown, faces: PartFaces = BY_MARKS) -> tuple[Annotation, ...]:
    """What the sheet says about every cut of a part, in the order of the cuts.

    Args:
        part: the part.
        shown: the unit.
        faces: what they are called, and which of them places are measured from.
    """
    return annotated(part, bench_for(part, shown, faces))


def bench_for(
    part: Part, shown: Shown, faces: PartFaces, letters: tuple[tuple[float, str], ...] = ()
) -> Bench:
    """What a part's sheet is written with.

    Args:
        part: the part.
        shown: the unit.
        faces: what they are called, and which of them places are measured from.
        letters: what stands for lengths [mm] that a table gives.
    """
    heard = Heard(blank=part.blank, shown=shown, faces=faces)
    notes = annotated(part, heard)
    told = [*heard.lengths, *((p.value_mm, p.care) for note in notes for p in note.positions)]
    exact = {mm for mm, care in told if care is not Care.RULE} | {part.blank.thickness_mm}
    return Bench(
        blank=part.blank, shown=shown, faces=faces, letters=letters, exact=tuple(sorted(exact))
    )


def annotated(part: Part, bench: Bench) -> tuple[Annotation, ...]:
    """The same, with what stands for lengths that a table gives.

    Args:
        part: the part.
        bench: its wood and how figures are shown.
    """
    return tuple(_annotation(cut, bench) for cut in part.cuts)


def _annotation(cut: Cut, bench: Bench) -> Annotation:
    figures = cut.figures(bench.blank)
    sizes = " x ".join(_words(each, bench) for each in figures.sizes)
    section = figures.section_mm
    stops = tuple(_positions(cut, lambda each: each.stops, bench))
    return Annotation(
        noun=cut.name,
        spec=", ".join((sizes, *(_words(each, bench) for each in figures.more))),
        sizes=len(figures.sizes),
        more=", ".join(_words(each, bench) for each in figures.more),
        spans=tuple(_span(each, bench) for each in figures.spans),
        place=_words(figures.place, bench),
        target=figures.at,
        look=_look(figures.seen),
        size_mm=None if section is None else (min(section), max(section)),
        positions=(*_positions(cut, lambda each: each.struck, bench), *stops),
        stops=stops,
        centres=figures.centres,
        shoulder=_shoulder(cut, figures, bench),
    )


def _span(spanned: Spanned, bench: Bench) -> SpanShown:
    size = spanned.size
    return SpanShown(
        text=bench.told(size.mm, size.care),
        value_mm=size.mm,
        start=spanned.start,
        end=spanned.end,
        look=_look(spanned.seen),
    )


def _positions(
    cut: Cut, struck_of: Callable[[Figures], Sequence[Struck]], bench: Bench
) -> Iterator[Position]:
    """Places of a cut, each from its axis's datum.

    A cut strikes its places from the named end, the face edge and the face side. Where the datum is
    the face opposite, it is asked after half a turn that brings that face to where it strikes from:
    so it names the wall that is the nearer one then.
    """
    for axis in range(3):
        if bench.faces.datums.on(axis) is USUAL_DATUMS.on(axis):
            struck = struck_of(cut.figures(bench.blank))
            yield from (_position(each, bench) for each in struck if each.axis == axis)
        else:
            yield from (
                _turned_back(each, axis, bench)
                for each in struck_of(
                    cut.turned_about(_about(axis), bench.blank).figures(bench.blank)
                )
                if each.axis == axis
            )


def _shoulder(cut: Cut, figures: Figures, bench: Bench) -> Shoulder | None:
    """The shoulder to mark a cut from: that which the datum's own figure runs to."""
    if figures.shoulder is None:
        return None
    axis = figures.shoulder.axis
    if bench.faces.datums.on(axis) is USUAL_DATUMS.on(axis):
        ends = [_position(each, bench) for each in _wall(figures)]
    else:
        turned = cut.turned_about(_about(axis), bench.blank).figures(bench.blank)
        ends = [_turned_back(each, axis, bench) for each in _wall(turned)]
    return Shoulder(ends[0], ends[0].point, ends[-1].point) if ends else None


def _wall(figures: Figures) -> tuple[Struck, ...]:
    """Both ends of the shoulder to mark from."""
    shoulder = figures.shoulder
    if shoulder is None:
        return ()
    return shoulder, replace(shoulder, point=figures.shoulder_to or shoulder.point)


def _about(axis: int) -> int:
    """An axis about which half a turn turns this one round."""
    return (axis + 1) % 3


def _turned_back(struck: Struck, axis: int, bench: Bench) -> Position:
    about = _about(axis)
    x, y, z = (
        value if other == about else bench.blank.size[other] - value
        for other, value in enumerate(struck.point)
    )
    seen = struck.seen
    if seen is not None and seen.axis != about:
        seen = seen.opposite
    here = _position(struck, bench)
    return replace(here, point=(x, y, z), look=_look(seen))


def _look(seen: Face | None) -> Look:
    return Look.SECTION if seen is None else LOOK_OF_FACE[seen]


def _position(struck: Struck, bench: Bench) -> Position:
    return Position(
        axis=struck.axis,
        value_mm=struck.value_mm(bench.blank),
        point=struck.point,
        look=_look(struck.seen),
        care=struck.care,
    )


def _words(said: Said, bench: Bench) -> str:
    return said.what.value.format(*(_figure(each, bench) for each in said.figures))


def _figure(figure: Figure, bench: Bench) -> str:
    match figure:
        case Size():
            return bench.told(figure.mm, figure.care)
        case Angle(deg=deg):
            return bench.angle(deg)
        case Face():
            return bench.faces.called(figure)
        case Arris():
            return f"{bench.faces.called(figure.first)} / {bench.faces.called(figure.second)}"
        case _:
            assert_never(figure)
