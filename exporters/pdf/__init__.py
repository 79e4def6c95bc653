"""Sheets as a PDF: vector pages at exact scale, read from the same documents as the DXF files."""

from exporters.pdf.page import PdfPage, page_of
from exporters.pdf.write import write_pdf

__all__ = ["PdfPage", "page_of", "write_pdf"]
