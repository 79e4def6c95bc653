"""Patterns written: pages to print and join in one PDF, and each pattern whole as DXF."""

from __future__ import annotations

from pathlib import Path

from exporters.patterns.lettered import lettered
from exporters.patterns.pages import PageLook, is_printed, pages_of
from exporters.patterns.patterns import patterns_of
from exporters.pdf import write_pdf
from exporters.sheets.dxf import DxfVersion, document_of, plain_document, save
from exporters.sheets.pens import INCH_STYLE, ISO_STYLE
from exporters.sheets.sheets import resolved
from exporters.sheets.values import SheetSettings
from furniture.pieces.piece import Piece

_ROUND_MM = 60.0
"""Room for words round a whole pattern [mm]."""


def write_patterns(
    piece: Piece, settings: SheetSettings, folder: Path, version: DxfVersion = DxfVersion.R2018
) -> list[Path]:
    """The files written: `patterns.pdf`, and `patterns/NN-what.dxf` with each pattern whole.

    Args:
        piece: what the patterns are of.
        settings: gives the paper.
        folder: of the packet.
        version: flavour of the DXF files.
    """
    look = _look(piece, settings)
    kept = [pattern for pattern in patterns_of(piece) if is_printed(pattern, look)]
    if not kept:
        return []
    (folder / "patterns").mkdir()
    made = []
    for number, pattern in enumerate(kept, start=1):
        room = pattern.core.grown(_ROUND_MM)
        document = plain_document(lettered(pattern, (), room, look.style), look.style, version)
        made.append(save(document, folder / "patterns" / f"{number:02d}-{pattern.slug}.dxf"))
    pages = [document_of(sheet) for sheet in pages_of(kept, look)]
    made.append(write_pdf(pages, folder / "patterns.pdf", f"{piece.name}: patterns"))
    return made


def _look(piece: Piece, settings: SheetSettings) -> PageLook:
    paper, _ = resolved(piece, settings)
    style = INCH_STYLE if piece.shown.is_inch else ISO_STYLE
    return PageLook(paper=paper, style=style, shown=piece.shown, piece=piece.name)
