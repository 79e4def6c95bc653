"""The figures of a cut as a sheet says them: words in the shown unit, a view for each."""

from __future__ import annotations

from typing import assert_never

from exporters.sheets.annotation import LOOK_OF_FACE, Annotation, Bench, Look, Position
from furniture.parts.cuts import Cut
from furniture.parts.cuts.figures import Angle, Figure, Said, Size, Struck
from furniture.parts.faces import Arris, Face
from furniture.parts.part import Part
from furniture.units import Shown


def annotations_of(part: Part, shown: Shown) -> tuple[Annotation, ...]:
    """What the sheet says about every cut of a part, in the order of the cuts.

    Args:
        part: the part.
        shown: the unit.
    """
    bench = Bench(blank=part.blank, shown=shown)
    return tuple(_annotation(cut, bench) for cut in part.cuts)


def _annotation(cut: Cut, bench: Bench) -> Annotation:
    figures = cut.figures(bench.blank)
    sizes = " x ".join(_words(each, bench) for each in figures.sizes)
    section = figures.section_mm
    return Annotation(
        noun=cut.name,
        spec=", ".join((sizes, *(_words(each, bench) for each in figures.more))),
        place=_words(figures.place, bench),
        target=figures.at,
        look=_look(figures.seen),
        size_mm=None if section is None else (min(section), max(section)),
        positions=tuple(_position(each, bench) for each in figures.struck),
        centres=figures.centres,
        shoulder=None if figures.shoulder is None else _position(figures.shoulder, bench),
    )


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
            return figure.value
        case Arris():
            return figure.name
        case _:
            assert_never(figure)
