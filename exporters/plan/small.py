"""A small picture as a page of its own, as large as it is, for what is not a sheet."""

from __future__ import annotations

from exporters.pdf.page import PdfPage
from exporters.sheets.dxf import plain_document
from exporters.sheets.pens import SheetStyle
from exporters.sheets.set_up_picture import Picture

_PAD_MM = 0.5
"""Half a wide pen and a little more."""


def picture_page(picture: Picture, style: SheetStyle) -> PdfPage:
    """The picture at the size that it has on a sheet.

    Args:
        picture: of a set-up.
        style: its pens and heights.
    """
    return PdfPage(
        document=plain_document(picture.items, style),
        paper_mm=(picture.width + 2 * _PAD_MM, picture.height + 2 * _PAD_MM),
        scale=1.0,
        model_origin=(-_PAD_MM, -_PAD_MM),
    )
