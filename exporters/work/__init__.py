"""The work in order: how a piece is made, in a maker's words and as data."""

from exporters.work.record import work_record
from exporters.work.steps import Step, steps_of
from exporters.work.tables import WORK_HEADER, work_rows
from exporters.work.words import WorkWords
from exporters.work.work_of import Work, work_of

__all__ = [
    "WORK_HEADER",
    "Step",
    "Work",
    "WorkWords",
    "steps_of",
    "work_of",
    "work_record",
    "work_rows",
]
