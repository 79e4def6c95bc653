"""The wood that is asked for: blanks of one part, and common blanks of several."""

from furniture.blanks.common import (
    CommonBlank,
    Member,
    as_laid,
    common_blanks,
    gap_mm,
    parted,
    runs_right_along,
    slope_at,
)
from furniture.blanks.round_corners import numbered_sets, runs_round_corners

__all__ = [
    "CommonBlank",
    "Member",
    "as_laid",
    "common_blanks",
    "gap_mm",
    "numbered_sets",
    "parted",
    "runs_right_along",
    "runs_round_corners",
    "slope_at",
]
