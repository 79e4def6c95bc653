"""The cutting plan read for the maker: sheets, table, picture, record and report."""

from __future__ import annotations

from exporters.cutting.record import cutting_record
from exporters.cutting.report import boards_answer

__all__ = ["boards_answer", "cutting_record"]
