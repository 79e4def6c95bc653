"""plan.pdf: picture and sizes first, what is needed, boards, work, sheets, checks, cautions."""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from html import escape
from pathlib import Path
from typing import Any

from ezdxf.document import Drawing
from reportlab.lib.pagesizes import A4, letter
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import (
    BaseDocTemplate,
    Flowable,
    Frame,
    Image,
    KeepTogether,
    LongTable,
    NextPageTemplate,
    PageBreak,
    PageTemplate,
    Paragraph,
    Spacer,
    TableStyle,
)

from exporters.pdf.draw import POINTS_PER_MM, Sketcher
from exporters.pdf.fonts import drawable
from exporters.pdf.page import PdfPage, page_of
from exporters.plan.contents import Contents, Judged
from exporters.plan.work_rows import TickRow
from exporters.report.plan_picture import Mark, PlanPicture, seen_from_above, signs_of
from exporters.report.style import BLACK, LIGHT, MIDDLE, MM, SMALL_SIZE, THIN_PT, plain, styles
from exporters.work.checklist import MachineHead, StageHead

_EDGE_MM, _FOOT_MM = 18.0, 15.0
_STANDING_MM = 90.0
_BOX_MM = 3.2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Paper:
    """What the plan is set from.

    Args:
        contents: its words and rows.
        picture: of the piece, PNG or JPEG.
        outlines: from the front and from the side; none leaves them out.
        apart: the piece drawn apart; none leaves it out.
        boards: every board with its parts; none leaves it out.
        sheets: the drawing sheets, in order.
        is_letter: set on Letter, else on A4.
    """

    contents: Contents
    picture: bytes
    outlines: bytes = b""
    apart: bytes = b""
    boards: bytes = b""
    sheets: Sequence[Drawing] = ()
    is_letter: bool = False


def write_plan(paper: Paper, path: Path) -> Path:
    """The path of the plan written; equal contents give equal bytes.

    Args:
        paper: what it is set from.
        path: of the file.

    Raises:
        OSError: the file cannot be written.
    """
    size = letter if paper.is_letter else A4
    wide, high = size[0] - 2 * _EDGE_MM * MM, size[1] - (_EDGE_MM + _FOOT_MM) * MM
    name = paper.contents.name
    memory = io.BytesIO()
    frame = Frame(
        _EDGE_MM * MM, _FOOT_MM * MM, wide, high, leftPadding=0, rightPadding=0, topPadding=0,
        bottomPadding=0,
    )  # fmt: skip

    def foot(canvas: Canvas, document: Any) -> None:
        canvas.setFont(plain(), SMALL_SIZE)
        canvas.setFillColor(MIDDLE)
        canvas.drawString(_EDGE_MM * MM, 8 * MM, drawable(f"{name}, plan"))
        canvas.drawRightString(size[0] - _EDGE_MM * MM, 8 * MM, f"page {document.page}")
        canvas.setViewerPreference("PrintScaling", "None")

    document = BaseDocTemplate(
        memory, pagesize=size, title=f"{name}: plan", author="knifewall", creator="knifewall",
        invariant=1,
    )  # fmt: skip
    document.addPageTemplates(
        [PageTemplate(id="text", frames=[frame], onPage=foot), *_sheet_templates(paper)]
    )
    document.build(list(_story(paper, wide, high)))
    path.write_bytes(memory.getvalue())
    return path


def _sheet_templates(paper: Paper) -> Iterator[PageTemplate]:
    """A page for each sheet, as large as its own paper, drawn at its own scale."""
    for number, document in enumerate(paper.sheets):
        page = page_of(document)
        wide, high = (side * POINTS_PER_MM for side in page.paper_mm)
        yield PageTemplate(
            id=f"sheet {number}",
            frames=[Frame(0, 0, wide, high, 0, 0, 0, 0)],
            onPage=partial(_draw_sheet, document),
            pagesize=(wide, high),
        )


def _draw_sheet(document: Drawing, canvas: Canvas, _: Any) -> None:
    page = page_of(document)
    sketcher = Sketcher(canvas, page.document, page.scale, page.model_origin)
    sketcher.draw(page.document.modelspace())


def _p(text: str, style: str = "text") -> Paragraph:
    return Paragraph(escape(drawable(text)), styles()[style])


def _story(paper: Paper, wide: float, high: float) -> Iterator[Flowable]:
    told = paper.contents
    yield from _front(paper, wide, high)
    yield PageBreak()
    yield from _needed(told, wide)
    if paper.apart:
        yield from _page_picture("Drawn apart", paper.apart, wide, 0.80 * high)
    if paper.boards:
        yield from _page_picture("Boards", paper.boards, wide, 0.88 * high)
    yield from _work(told, wide)
    for number in range(len(paper.sheets)):
        yield NextPageTemplate(f"sheet {number}")
        yield PageBreak()
        yield Spacer(1, 1)
    yield NextPageTemplate("text")
    yield PageBreak()
    yield from _checks(told)
    yield _p("Cautions", "head")
    for each in told.cautions:
        yield _p(f"• {each}", "item")


def _front(paper: Paper, wide: float, high: float) -> Iterator[Flowable]:
    told = paper.contents
    yield _p(told.name, "title")
    yield Spacer(0, 1 * MM)
    for line in told.lines:
        yield _p(line)
    if told.stands:
        yield Spacer(0, 1 * MM)
        yield _p(f"Will it stand? {told.stands}", "strong")
    yield Spacer(0, 3 * MM)
    share = 0.60 if paper.outlines else 0.82
    yield _fitted(paper.picture, wide, share * high)
    if paper.outlines:
        yield Spacer(0, 2 * MM)
        yield _fitted(paper.outlines, wide, 0.24 * high)
    yield Spacer(0, 2 * MM)
    yield _p(f"Dated {told.dated}.", "small")


def _fitted(data: bytes, wide: float, high: float) -> Image:
    across, up = ImageReader(io.BytesIO(data)).getSize()
    scale = min(wide / across, high / up)
    return Image(io.BytesIO(data), across * scale, up * scale)


def _page_picture(title: str, data: bytes, wide: float, high: float) -> Iterator[Flowable]:
    yield KeepTogether([_p(title, "head"), _fitted(data, wide, high)])


def _needed(told: Contents, wide: float) -> Iterator[Flowable]:
    yield _p("Parts", "head")
    rows: list[list[Any]] = [["no.", "part", "qty", told.size_heading, "stock"]]
    rows += [
        [str(each.number), _p(each.name), str(each.quantity), each.size, _p(each.stock)]
        for each in told.parts
    ]
    yield LongTable(
        rows, repeatRows=1, hAlign="LEFT",
        colWidths=[9 * MM, 0.30 * wide, 10 * MM, 0.32 * wide, None],
        style=TableStyle([
            ("FONT", (0, 0), (-1, -1), plain(), 7.9),
            ("LINEBELOW", (0, 0), (-1, 0), THIN_PT, BLACK),
            ("LINEBELOW", (0, 1), (-1, -1), 0.3, LIGHT),
            ("VALIGN", (0, 0), (-1, -1), "TOP"),
            ("LEFTPADDING", (0, 0), (-1, -1), 0),
            ("TOPPADDING", (0, 0), (-1, -1), 1.5),
            ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
        ]),
    )  # fmt: skip
    for title, lines in (
        ("Wood", told.wood), ("Machines and cutters", told.cutters),
        ("Hardware, glue and finish", told.bought),
    ):  # fmt: skip
        if lines:
            yield _p(title, "head")
            for line in lines:
                yield _p(f"• {line}", "item")


class _Box(Flowable):  # type: ignore[misc]
    """A box to tick with pen."""

    def __init__(self) -> None:
        super().__init__()
        self.width = self.height = _BOX_MM * MM

    def draw(self) -> None:
        """The box."""
        self.canv.setLineWidth(THIN_PT)
        self.canv.rect(0, 0, self.width, self.height)


class _Small(Flowable):  # type: ignore[misc]
    """A small picture at its true size, at the right of its room."""

    def __init__(self, page: PdfPage) -> None:
        super().__init__()
        self._page = page
        self.width, self.height = (side * POINTS_PER_MM for side in page.paper_mm)
        self.hAlign = "RIGHT"

    def draw(self) -> None:
        """Its lines and letters."""
        page = self._page
        sketcher = Sketcher(self.canv, page.document, page.scale, page.model_origin)
        sketcher.draw(page.document.modelspace())


def _work(told: Contents, wide: float) -> Iterator[Flowable]:
    if not told.work:
        return
    heads: list[Flowable] = [_p("Work", "head")]
    for row in told.work:
        match row:
            case StageHead():
                heads.append(_p(row.title[:1].upper() + row.title[1:], "head"))
            case MachineHead():
                heads.append(_p(row.title, "strong"))
                heads += [_p(f"Caution: {each}.", "item") for each in row.cautions]
            case TickRow():
                tick = row.tick
                words: list[Flowable] = [_p(tick.set_to, "strong")] if tick.set_to else []
                words += [_p(line) for line in tick.lines]
                drawn = [_Small(each.page) for each in row.pictures]
                rooms = [each.width + 3 * MM for each in drawn]
                table = LongTable(
                    [[_Box(), _p(tick.number), words, *drawn]],
                    colWidths=[7 * MM, 9 * MM, wide - 16 * MM - sum(rooms), *rooms],
                    style=TableStyle([
                        ("VALIGN", (0, 0), (-1, -1), "TOP"),
                        ("LEFTPADDING", (0, 0), (-1, -1), 0),
                        ("TOPPADDING", (0, 0), (-1, -1), 2),
                        ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
                        ("LINEBELOW", (0, 0), (-1, -1), 0.3, LIGHT),
                    ]),
                )  # fmt: skip
                yield KeepTogether([*heads, table])
                heads = []


def _checks(told: Contents) -> Iterator[Flowable]:
    yield _p("Checks", "head")
    if told.standing is not None:
        plan = told.standing.plan
        picture = PlanPicture(plan, told.standing.show, (_STANDING_MM, _STANDING_MM))
        signs = [[Mark(sign), _p(words, "item")] for sign, words in signs_of(plan).items()]
        caption = seen_from_above(plan, f", at 1:{picture.scale:g}")
        yield KeepTogether([_p(caption), picture, LongTable(signs, colWidths=[6 * MM, None])])
    for each in told.checks:
        yield from _judged(each)


def _judged(each: Judged) -> Iterator[Flowable]:
    subject = each.subject[:1].upper() + each.subject[1:]
    if not each.lines:
        near = f"; {each.nearest}" if each.nearest else ""
        yield _p(f"{subject}: in order{near}.")
        return
    yield Spacer(0, 1.2 * MM)
    yield _p(subject, "strong")
    for line in each.lines:
        advice = f" {line.advice}" if line.advice else ""
        yield _p(f"{line.verdict}: {line.sentence}{advice}", "item")
