"""Units at the door: text and quantities in, millimetres inside, text out."""

from furniture.units.amounts import Amounts
from furniture.units.parameters import REQUIRED, as_given, parameters
from furniture.units.reader import Reader
from furniture.units.reading import Given, ReadingError, quantity, read_length, read_mass
from furniture.units.showing import (
    LengthUnit,
    Shown,
    decimal_figure,
    decimal_inches,
    figure,
    figure_with_unit,
    inches,
    millimetres,
    shown_value_mm,
)

__all__ = [
    "REQUIRED",
    "Amounts",
    "Given",
    "LengthUnit",
    "Reader",
    "ReadingError",
    "Shown",
    "as_given",
    "decimal_figure",
    "decimal_inches",
    "figure",
    "figure_with_unit",
    "inches",
    "millimetres",
    "parameters",
    "quantity",
    "read_length",
    "read_mass",
    "shown_value_mm",
]
