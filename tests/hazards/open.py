"""Rows that the tool tells otherwise than is asked of it, each with what is not met yet.

The tests hold this list both ways: a row that is told as asked must not stand here.
"""

from __future__ import annotations

OPEN: dict[str, str] = {
    "D01": "screws in end grain count a quarter, so the case folds only after it tips",
    "D02": "glued stopped dadoes count in full: no word of racking",
    "D05": "one screw in end grain counts a quarter, so the stool does not fold",
    "DX1": "glue on end grain is told, not failed: as made it does not fold",
    "D10": "the sideways push of one who sits is not asked beside his weight",
    "D11": "nor the step backwards of one who climbs",
    "D28": "a person's press bends the seat by plates that stay whole: sag told, no break",
    "D25": "a lamp cannot be stated, so its cable is a note",
    "D30": "its bending across the grain lies where the plate's joint is left out",
    "DX10": "held by end grain alone and folding, not failed on the subject asked",
    "D46": "the season taken moves it 2.2 mm, under the 3 that fail",
    "D49": "screws in plain holes across a wide top are not looked at",
    "D38": "a lip of 2 of 7 mm is a note",
}
