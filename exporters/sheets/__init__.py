"""Shop drawings: a piece's parts and views laid out on paper, dimensioned, and written as DXF."""

from exporters.sheets.dxf import (
    DxfVersion,
    NamedSheet,
    PaperAndScale,
    paper_and_scale,
    write_documents,
)
from exporters.sheets.paper import Paper, Projection
from exporters.sheets.sheets import sheet_documents, sheets_of, write_sheets
from exporters.sheets.values import Sheet, SheetSettings

__all__ = [
    "DxfVersion",
    "NamedSheet",
    "Paper",
    "PaperAndScale",
    "Projection",
    "Sheet",
    "SheetSettings",
    "paper_and_scale",
    "sheet_documents",
    "sheets_of",
    "write_documents",
    "write_sheets",
]
