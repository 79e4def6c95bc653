"""The whole set of a piece's sheets, as values and as documents."""

from __future__ import annotations

from pathlib import Path

from exporters.sheets.dxf import DxfVersion, NamedSheet, document_of, save
from exporters.sheets.paper import Paper, Projection
from exporters.sheets.part_notes import far_end_label, notes_for
from exporters.sheets.part_sheet import PartTask, part_sheet
from exporters.sheets.pens import INCH_STYLE, ISO_STYLE
from exporters.sheets.title_block import TitleFields
from exporters.sheets.values import Sheet, SheetSettings
from furniture.pieces.piece import Distinct, Piece, distinct_parts
from furniture.units import figure


def sheets_of(piece: Piece, settings: SheetSettings) -> tuple[Sheet, ...]:
    """Every sheet of the piece: the general arrangement first, then one for each distinct part.

    Args:
        piece: what to draw.
        settings: paper, projection, date.

    Raises:
        NoRoom: a part cannot be drawn on this paper.
    """
    distinct = distinct_parts(piece)
    total = len(distinct) + 1
    return tuple(
        part_sheet(_task(piece, each, number, total, settings))
        for number, each in enumerate(distinct, start=2)
    )


def sheet_documents(
    piece: Piece, settings: SheetSettings, version: DxfVersion = DxfVersion.R2018
) -> tuple[NamedSheet, ...]:
    """Every sheet as an ezdxf document with the name of its file.

    Args:
        piece: what to draw.
        settings: paper, projection, date.
        version: flavour of the format.
    """
    return tuple(
        NamedSheet(name=sheet.name, document=document_of(sheet, version))
        for sheet in sheets_of(piece, settings)
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
    return tuple(
        save(named.document, directory / f"{named.name}.dxf")
        for named in sheet_documents(piece, settings, version)
    )


def _task(
    piece: Piece, each: Distinct, number: int, total: int, settings: SheetSettings
) -> PartTask:
    part, shown = each.part, piece.shown
    paper, projection = resolved(piece, settings)

    def size(*lengths: float) -> str:
        return " x ".join(figure(length, shown) for length in lengths)

    blank, rough, timber = part.blank, part.rough, part.timber
    fields = TitleFields(
        title=part.name,
        piece=piece.name,
        drawing_number=f"{settings.drawing_number or piece.slug}-{number:02d}",
        scale="",
        sheet=f"{number} of {total}",
        date=settings.date,
        revision=settings.revision,
        units=shown.unit.symbol,
        projection=projection,
        paper=paper.title,
        material=f"{timber.species.name}: {timber.name}, "
        f"{figure(timber.thickness_mm, shown)} thick as measured",
        quantity=str(each.quantity),
        finished=f"({size(*blank.size)})",
        rough=size(blank.length_mm + rough.length_mm, blank.width_mm + rough.width_mm),
    )
    return PartTask(
        part=part,
        shown=shown,
        fields=fields,
        notes=notes_for(piece, each),
        far_end_label=far_end_label(part),
        name=f"{number:02d}-{part.slug}",
        paper=paper,
        style=INCH_STYLE if shown.is_inch else ISO_STYLE,
    )


def resolved(piece: Piece, settings: SheetSettings) -> tuple[Paper, Projection]:
    """The paper and the projection, the usual ones of the piece's unit where none is set."""
    is_inch = piece.shown.is_inch
    paper = settings.paper or (Paper.LETTER if is_inch else Paper.A4)
    usual = Projection.THIRD_ANGLE if is_inch else Projection.FIRST_ANGLE
    return paper, settings.projection or usual
