"""The report of the checks as a PDF: plain words first, figures after."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from reportlab.lib.pagesizes import A4, letter
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Frame, PageTemplate

from exporters.pdf.fonts import drawable
from exporters.report.pages import Report, story_of
from exporters.report.plan import plan_of_piece
from exporters.report.style import MIDDLE, MM, SMALL_SIZE, TEXT_SIZES, plain
from furniture.checks.of_piece import Group, Setting
from furniture.checks.of_piece.reading import shown_by
from furniture.checks.of_piece.seasons import movements_of
from furniture.checks.of_piece.setting import HeldBy
from furniture.checks.of_piece.tolerances import chains_of
from furniture.pieces import Piece, Stance
from furniture.pieces.weighed import Weighed

EDGE_MM, FOOT_MM = 10.0, 11.0
LETTER_PAPERS = ("Letter", "Tabloid")


def write_report(
    piece: Piece,
    weighed: Weighed,
    groups: tuple[Group, ...],
    path: Path,
    *,
    setting: Setting,
    dated: date,
    revision: str = "-",
    paper: str | None = None,
) -> Path:
    """The path of the report that was written; equal pieces give equal bytes.

    Args:
        piece: the piece as cut.
        weighed: its mass and where it touches the floor.
        groups: the findings by subject.
        path: of the file to write.
        setting: where the piece stands.
        dated: the date that it carries.
        revision: the revision that it carries.
        paper: of the sheets; the report takes A4, or Letter beside sheets in inch sizes.

    Raises:
        OSError: the file cannot be written.
    """
    is_letter = paper in LETTER_PAPERS if paper else piece.shown.is_inch
    size = letter if is_letter else A4
    show = shown_by(piece)
    report = Report(
        name=piece.name,
        told=_told(piece, weighed, setting, dated, revision),
        groups=groups,
        plan=plan_of_piece(piece, weighed, setting),
        movements=movements_of(piece, setting),
        chains=chains_of(piece),
        setting=setting,
        show=show,
    )
    sizes = (_set(replace(report, text_pt=each), size) for each in TEXT_SIZES)
    made: list[tuple[int, bytes]] = []
    for pages, data in sizes:
        made.append((pages, data))
        if pages == 1:  # smaller letters save nothing more
            break
    path.write_bytes(min(made, key=lambda each: each[0])[1])
    return path


def _set(report: Report, size: tuple[float, float]) -> tuple[int, bytes]:
    """How many pages it takes, and the document."""
    memory = io.BytesIO()
    width = size[0] / MM - 2 * EDGE_MM
    frame = Frame(
        EDGE_MM * MM, FOOT_MM * MM, width * MM, size[1] - (FOOT_MM + EDGE_MM) * MM,
        leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0,
    )  # fmt: skip

    def foot(canvas: Canvas, document: Any) -> None:
        canvas.setFont(plain(), SMALL_SIZE)
        canvas.setFillColor(MIDDLE)
        canvas.drawString(EDGE_MM * MM, 7 * MM, drawable(f"{report.name}, checks"))
        canvas.drawRightString(size[0] - EDGE_MM * MM, 7 * MM, f"page {document.page}")
        canvas.setViewerPreference("PrintScaling", "None")

    document = BaseDocTemplate(
        memory,
        pagesize=size,
        title=f"{report.name}: checks",
        author="knifewall",
        creator="knifewall",
        invariant=1,
    )
    document.addPageTemplates([PageTemplate(id="page", frames=[frame], onPage=foot)])
    document.build(story_of(report, width))
    return document.page, memory.getvalue()


def _told(piece: Piece, weighed: Weighed, setting: Setting, dated: date, revision: str) -> str:
    show = shown_by(piece)
    loads = sum(load.mass_kg for load in piece.loads)
    held = " fixed to the wall" if setting.held is HeldBy.WALL else ""
    where = (
        "hangs on a wall"
        if piece.stance is Stance.WALL
        else f"stands on a {setting.stands_on.value}{held}"
    )
    burden = f"bears {show.mass(loads)} as stated" if loads else "no loads stated"
    return (
        f"{show.mass(weighed.whole.mass_kg)} empty, {burden}; {where} in a {setting.climate.name}. "
        f"Dated {dated.isoformat()}, revision {revision}."
    )
