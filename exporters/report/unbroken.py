"""Figures that stay on one line with their units, and a fraction with its whole number."""

from __future__ import annotations

import re

from exporters.no_break import NO_BREAK

HELD = "\ue000"
"""Stands for a space where lines are broken at every kind of space, the no-break space too; it is
put back to a space once they are."""
_UNITS = "mm|mm²|mm³|cm³|N|kg|MPa|in|in²|in³|lbf|lb|psi|deg|°C|°F|m²|sq ft|g|oz|ml|L|fl oz|qt"
_HELD = re.compile(rf"(?<=\d) (?=(?:(?:{_UNITS})(?!\w)|%|\d+/\d))")


def unbroken(text: str, by: str = NO_BREAK) -> str:
    """The text with each space between a figure and its unit replaced, as in `10 N` or `2 5/8 in`.

    Args:
        text: words with figures.
        by: what stands there instead; a space at which no line is broken.
    """
    return _HELD.sub(by, text)
