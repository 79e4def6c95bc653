"""The whole set of a piece's sheets, as values and as documents."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from string import digits

from exporters.own_rules import changed_words
from exporters.sheets.annotate import annotations_of
from exporters.sheets.annotation import Bench, is_rounded
from exporters.sheets.assembly_sheet import general_arrangement, list_sheets
from exporters.sheets.dxf import DxfVersion, NamedSheet, document_of, write_documents
from exporters.sheets.exploded_sheet import exploded_sheet
from exporters.sheets.glue_sheet import glue_sheets
from exporters.sheets.joint_sheet import joint_sheets
from exporters.sheets.lists_sheet import lists_of, lists_sheets
from exporters.sheets.paper import Paper, Projection, paper_named
from exporters.sheets.part_notes import notes_for
from exporters.sheets.part_sheet import PartTask, part_sheets
from exporters.sheets.parts_list import parts_table
from exporters.sheets.pens import INCH_STYLE, ISO_STYLE
from exporters.sheets.positions import glued_on, without_positions
from exporters.sheets.positions_sheet import positions_sheets
from exporters.sheets.section_planes import sectioned
from exporters.sheets.section_sheet import section_sheet
from exporters.sheets.title_block import TitleFields
from exporters.sheets.values import InSet, Item, Lettering, Sheet, SheetSettings
from exporters.sheets.whole_task import WholeTask
from exporters.sheets.work_sheet import work_sheets
from exporters.subject import Subject
from exporters.work.work_of import Work, work_of
from furniture.assembly import AssemblyPlan, NoOrder, assembly_of
from furniture.parts.part import slug_of
from furniture.pieces.piece import Distinct, Piece, distinct_parts
from furniture.units import Amounts, figure, finished_size, fitted_with_unit
from furniture.units.showing import ROUNDED_MARK

Following = Callable[[int], Sequence[Sheet]]
"""Makes more sheets of a set, given the number of the first of them."""


def sheets_of(
    piece: Piece,
    settings: SheetSettings,
    following: Following | None = None,
    order: AssemblyPlan | NoOrder | None = None,
    work: Work | None = None,
) -> tuple[Sheet, ...]:
    """Every sheet of the piece: the whole first, then one for each distinct part, then others.

    Args:
        piece: what to draw.
        settings: paper, projection, date.
        following: makes sheets of another kind to stand behind these.
        order: of assembly; found here where it is not known.
        work: on the piece; in a usual shop and without boards where it is not known.

    Raises:
        NoRoomError: something cannot be drawn on this paper at any standard scale.
    """
    maker = _Maker(piece, settings)
    sheets = _whole_sheets(maker, order, work)
    for each in distinct_parts(piece):
        sheets += sheets_of_part(piece, settings, each, len(sheets) + 1)
    if following is not None:
        sheets += following(len(sheets) + 1)
    return numbered(sheets)


def sheets_of_part(
    piece: Piece, settings: SheetSettings, each: Distinct, number: int
) -> Sequence[Sheet]:
    """The sheets of one distinct part.

    Args:
        piece: that it is of.
        settings: paper, projection, date.
        each: the part with its instances.
        number: of the first of them in the set.
    """
    return part_sheets(_Maker(piece, settings).part_task(each, number))


def _whole_sheets(
    maker: _Maker, order: AssemblyPlan | NoOrder | None, work: Work | None
) -> list[Sheet]:
    groups = glued_on(maker.piece)
    bare = replace(maker.piece, references=without_positions(maker.piece.references, groups))
    task = maker.whole_task("general arrangement", 1)
    changed = changed_words(maker.piece.rules, Amounts(shown=maker.piece.shown))
    notes = (*task.notes, changed) if changed else task.notes
    task = replace(task, piece=bare, notes=notes)
    lists = lists_of(maker.piece, parts_table(maker.piece))
    arranged = general_arrangement(task, None if lists else parts_table(maker.piece))
    table, sheets = arranged.parts_left, [arranged.sheet]
    sheets += lists_sheets(maker.whole_task("parts list", len(sheets) + 1), lists)
    if len(maker.piece.placed) > 1:
        order = order or assembly_of(maker.piece)
        task = maker.whole_task("exploded view", len(sheets) + 1)
        second, table = exploded_sheet(task, table, order)
        sheets.append(second)
        sheets += positions_sheets(maker.whole_task("positions", len(sheets) + 1), groups)
        sections = sectioned(maker.piece)
        sheets.append(section_sheet(maker.whole_task("sections", len(sheets) + 1), sections))
        sheets += joint_sheets(maker.whole_task("joints in section", len(sheets) + 1), sections)
    work = work or work_of(maker.piece, order=order)
    sheets += work_sheets(maker.whole_task("work in order", len(sheets) + 1), work.making)
    if work.found is not None:
        sheets += glue_sheets(maker.whole_task("glue-ups", len(sheets) + 1), work)
    for what, left in (("parts list", table), ("figures", arranged.figures_left)):
        if left is not None:
            sheets += list_sheets(maker.whole_task(what, len(sheets) + 1), left)
    return sheets


def sheet_documents(
    piece: Piece,
    settings: SheetSettings,
    version: DxfVersion = DxfVersion.R2018,
    following: Following | None = None,
) -> tuple[NamedSheet, ...]:
    """Every sheet as an ezdxf document with the name of its file.

    Args:
        piece: what to draw.
        settings: paper, projection, date.
        version: flavour of the format.
        following: makes sheets of another kind to stand behind these.
    """
    return tuple(
        NamedSheet(name=sheet.name, document=document_of(sheet, version))
        for sheet in sheets_of(piece, settings, following)
    )


def write_sheets(
    piece: Piece,
    settings: SheetSettings,
    directory: Path,
    version: DxfVersion = DxfVersion.R2018,
) -> tuple[Path, ...]:
    """The files written, one a sheet, named `NN-what.dxf`.

    Args:
        piece: what to draw.
        settings: paper, projection, date.
        directory: that takes them; it exists.
        version: flavour of the format.
    """
    return write_documents(sheet_documents(piece, settings, version), directory)


class _Maker:
    """Fills in the title blocks of one piece's sheets."""

    def __init__(self, piece: Piece, settings: SheetSettings) -> None:
        self.piece = piece
        self._settings = settings
        self._paper, _ = resolved(piece, settings)
        self._style = INCH_STYLE if piece.shown.is_inch else ISO_STYLE

    def whole_task(self, what: str, number: int) -> WholeTask:
        """A sheet of the whole piece."""
        return WholeTask(
            piece=self.piece,
            fields=title_fields(self.piece, self._settings, f"{self.piece.name}: {what}", number),
            notes=self.piece.notes,
            name=f"{number:02d}-{slug_of(what)}",
            paper=self._paper,
            style=self._style,
        )

    def part_task(self, each: Distinct, number: int) -> PartTask:
        """The sheet of one distinct part."""
        part, shown = each.part, self.piece.shown
        blank, rough, timber = part.blank, part.rough, part.timber

        def size(*lengths: float) -> str:
            return " x ".join(figure(length, shown) for length in lengths)

        fields = replace(
            title_fields(self.piece, self._settings, part.name, number),
            material=f"{timber.species.name}: {timber.name}, measured "
            f"{fitted_with_unit(timber.thickness_mm, shown)}",
            quantity=str(each.quantity),
            finished=f"({finished_size(blank.size, shown)})",
            # a rough size is no fit: that it is rounded needs no mark
            rough=size(blank.length_mm + rough.length_mm, blank.width_mm + rough.width_mm).replace(
                ROUNDED_MARK, ""
            ),
        )
        return PartTask(
            part=part,
            shown=shown,
            fields=fields,
            notes=notes_for(
                self.piece,
                each,
                is_rounded(Bench(blank=blank, shown=shown), annotations_of(part, shown)),
            ),
            name=f"{number:02d}-{part.id}",
            paper=self._paper,
            style=self._style,
        )


def numbered(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """The sheets with their place in the set filled in: how many there are is known last."""
    total = len(sheets)
    made = []
    for number, sheet in enumerate(sheets, start=1):
        items = tuple(_in_set(item, number, total) for item in sheet.items)
        name = f"{number:02d}-{sheet.name.split('-', 1)[1]}"
        made.append(replace(sheet, name=name, items=items))
    return tuple(made)


def _in_set(item: Item, number: int, total: int) -> Item:
    if not isinstance(item, Lettering):
        return item
    if item.in_set is InSet.SHEET:
        return replace(item, text=f"{number} of {total}")
    if item.in_set is InSet.DRAWING_NUMBER:
        return replace(item, text=f"{item.text.rstrip(digits)}{number:02d}")
    return item


def title_fields(of: Subject, settings: SheetSettings, title: str, number: int) -> TitleFields:
    """What the title block of one sheet says; its scale, and how many sheets there are, come later.

    Args:
        of: what the sheet is of.
        settings: paper, projection, date.
        title: of the sheet.
        number: its place in the set.
    """
    paper, projection = resolved(of, settings)
    return TitleFields(
        title=title,
        piece=of.name,
        drawing_number=f"{settings.drawing_number or of.slug}-{number:02d}",
        scale="-",
        sheet=f"{number} of 00",  # both are filled in with the whole set
        date=settings.dated.isoformat() if settings.dated else "",
        revision=settings.revision,
        units=of.shown.unit.symbol,
        projection=projection,
        paper=paper.title,
    )


def resolved(of: Subject, settings: SheetSettings) -> tuple[Paper, Projection]:
    """The paper and the projection, the usual ones of its unit where none is set."""
    is_inch = of.shown.is_inch
    given = settings.paper
    paper = paper_named(given) if isinstance(given, str) else given
    paper = paper or (Paper.LETTER if is_inch else Paper.A4)
    usual = Projection.THIRD_ANGLE if is_inch else Projection.FIRST_ANGLE
    return paper, settings.projection or usual
