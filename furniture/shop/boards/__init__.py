"""From a piece and the boards on the bench to what the cutting planner is asked."""

from __future__ import annotations

from furniture.shop.boards.cutting_job import CuttingJob
from furniture.shop.boards.given import BoardZone, MeasuredBoard
from furniture.shop.boards.job import (
    cutting_job,
    job_of_lots,
    problems_of_boards,
)
from furniture.shop.boards.wishes import (
    CLEAR,
    MUST,
    CuttingWishes,
    GluedUp,
    Match,
    PartWish,
    SawSetUp,
)
from furniture.shop.cutting.values import (
    GrainRule,
    MatchRule,
    OddOne,
    Stages,
    ZoneKind,
    ZoneShows,
)

__all__ = [
    "CLEAR",
    "MUST",
    "BoardZone",
    "CuttingJob",
    "CuttingWishes",
    "GluedUp",
    "GrainRule",
    "Match",
    "MatchRule",
    "MeasuredBoard",
    "OddOne",
    "PartWish",
    "SawSetUp",
    "Stages",
    "ZoneKind",
    "ZoneShows",
    "cutting_job",
    "job_of_lots",
    "problems_of_boards",
]
