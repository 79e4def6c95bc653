"""Shop drawings: a piece's parts and views laid out on paper, dimensioned, and written as DXF."""

from exporters.sheets.dxf import DxfVersion
from exporters.sheets.paper import Paper, Projection
from exporters.sheets.sheets import sheets_of
from exporters.sheets.values import PartsOn, Sheet, SheetSettings

__all__ = [
    "DxfVersion",
    "Paper",
    "PartsOn",
    "Projection",
    "Sheet",
    "SheetSettings",
    "sheets_of",
]
