"""The cutting plan read for the maker: sheets, table, picture, record and report."""

from __future__ import annotations

from exporters.cutting.record import cutting_record
from exporters.cutting.report import cutting_lines, left_out_report

__all__ = ["cutting_lines", "cutting_record", "left_out_report"]
