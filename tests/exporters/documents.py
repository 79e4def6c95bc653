"""The sheets of a piece as documents and files by themselves, without the packet round them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from exporters.patterns import patterns_of
from exporters.patterns.pages import PageLook, pages_of
from exporters.sheets import DxfVersion, SheetSettings, sheets_of
from exporters.sheets.dxf import LAYOUT_NAME, document_of, save
from exporters.sheets.pens import INCH_STYLE, ISO_STYLE
from exporters.sheets.sheets import Following, resolved, sheets_of_parts
from exporters.sheets.values import Sheet, Shows
from furniture.pieces import Piece
from furniture.pieces.piece import distinct_parts
from tests import models
from tests.once import once_a_run

_WRITTEN = TemporaryDirectory(prefix="sheets")
"""Takes what is written once for many tests, until the run ends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedSheet:
    """A sheet's file name without its ending, and its document."""

    name: str
    document: Any


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperAndScale:
    """What the paper-space layout says: paper size [mm] and reduction (5 means 1:5)."""

    width_mm: float
    height_mm: float
    reduction: float


def paper_and_scale(document: Any) -> PaperAndScale:
    """The paper size and the scale that a sheet's document prints at.

    Args:
        document: an ezdxf document that `document_of` made, or the same read back.
    """
    layout = document.layout(LAYOUT_NAME)
    viewport = next(view for view in layout.query("VIEWPORT") if view.dxf.id != 1)
    return PaperAndScale(
        width_mm=float(layout.dxf_layout.dxf.paper_width),
        height_mm=float(layout.dxf_layout.dxf.paper_height),
        reduction=round(float(viewport.dxf.view_height / viewport.dxf.height), 9),
    )


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
    return documents_of(sheets_of(piece, settings, following), version)


def documents_of(
    sheets: Sequence[Sheet], version: DxfVersion = DxfVersion.R2018
) -> tuple[NamedSheet, ...]:
    """These sheets as ezdxf documents with the names of their files."""
    return tuple(
        NamedSheet(name=sheet.name, document=document_of(sheet, version)) for sheet in sheets
    )


@cache
def model_sheets(name: str) -> tuple[Sheet, ...]:
    """The sheets of models/NAME.py on its usual paper, drawn once for all tests of a run."""
    return once_a_run(
        f"sheets-of-{name}", lambda: sheets_of(models.piece_of(name), SheetSettings())
    )


@cache
def model_documents(name: str) -> tuple[NamedSheet, ...]:
    """The same as documents, which nobody changes."""
    return documents_of(model_sheets(name))


@cache
def model_files(name: str) -> tuple[Path, ...]:
    """The same as files, which nobody changes."""
    folder = Path(_WRITTEN.name) / name
    folder.mkdir()
    return write_documents(model_documents(name), folder)


def model_showing(name: str, what: Shows) -> tuple[Any, ...]:
    """The documents of those sheets that show this of the whole."""
    drawn = zip(model_sheets(name), model_documents(name), strict=True)
    return tuple(named.document for sheet, named in drawn if what in sheet.shows)


def parts_drawn(
    piece: Piece, directory: Path, settings: SheetSettings | None = None
) -> tuple[Path, ...]:
    """The sheets of a piece's parts alone, written.

    Args:
        piece: what to draw.
        directory: that takes them; it exists.
        settings: paper, projection, date; the usual ones where none are given.
    """
    parts = distinct_parts(piece)
    return write_documents(
        documents_of(sheets_of_parts(piece, settings or SheetSettings(), parts, 1)), directory
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


def write_documents(sheets: Sequence[NamedSheet], directory: Path) -> tuple[Path, ...]:
    """The files written, one a sheet.

    Args:
        sheets: what to write.
        directory: that takes the files; it exists.
    """
    return tuple(save(sheet.document, directory / f"{sheet.name}.dxf") for sheet in sheets)


def pattern_pages(piece: Piece, settings: SheetSettings) -> tuple[NamedSheet, ...]:
    """The pages of all patterns as documents that print at 1:1; none when nothing is traced.

    Args:
        piece: what the patterns are of.
        settings: gives the paper.
    """
    paper, _ = resolved(piece, settings)
    style = INCH_STYLE if piece.shown.is_inch else ISO_STYLE
    look = PageLook(paper=paper, style=style, shown=piece.shown, piece=piece.name)
    return tuple(
        NamedSheet(name=sheet.name, document=document_of(sheet))
        for sheet in pages_of(patterns_of(piece), look)
    )
