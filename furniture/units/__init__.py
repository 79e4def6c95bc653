"""Units at the door: text and quantities in, millimetres inside, text out."""

from furniture.units.amounts import Amounts
from furniture.units.drafts import Draft, Least, Length, RangeDraft, WordedDraft, Words
from furniture.units.limits import at_least_text, at_most_text, limits_as_text, range_as_text
from furniture.units.meant import is_meant
from furniture.units.parameters import REQUIRED, as_given, is_given, parameters, read_only
from furniture.units.reader import Reader
from furniture.units.reading import Given, ReadingError, quantity, read_length, read_mass
from furniture.units.showing import (
    Dialled,
    LengthUnit,
    Shown,
    decimal_figure,
    decimal_inches,
    dialled,
    figure,
    figure_among_words,
    figure_with_unit,
    finished_size,
    fitted,
    fitted_with_unit,
    inches,
    millimetres,
    shown_value_mm,
)
from furniture.units.texts import said
from furniture.units.words import counted, listed, nearest_word, plural, the_listed, word_remedy
from furniture.units.written import NOT_WRITTEN

__all__ = [
    "NOT_WRITTEN",
    "REQUIRED",
    "Amounts",
    "Dialled",
    "Draft",
    "Given",
    "Least",
    "Length",
    "LengthUnit",
    "RangeDraft",
    "Reader",
    "ReadingError",
    "Shown",
    "WordedDraft",
    "Words",
    "as_given",
    "at_least_text",
    "at_most_text",
    "counted",
    "decimal_figure",
    "decimal_inches",
    "dialled",
    "figure",
    "figure_among_words",
    "figure_with_unit",
    "finished_size",
    "fitted",
    "fitted_with_unit",
    "inches",
    "is_given",
    "is_meant",
    "limits_as_text",
    "listed",
    "millimetres",
    "nearest_word",
    "parameters",
    "plural",
    "quantity",
    "range_as_text",
    "read_length",
    "read_mass",
    "read_only",
    "said",
    "shown_value_mm",
    "the_listed",
    "word_remedy",
]
