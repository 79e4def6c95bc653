"""The page of a packet, from what is known of its piece."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from exporters.page.glb import glb_of
from exporters.page.page import Page
from exporters.pictures.exploded import APART_CAMERA, shifts_of
from exporters.pictures.write import Shown, camera_for, picture_of
from exporters.plan.contents import contents_of
from exporters.render.ground import ground_shadow
from exporters.scene.scene import scene_of

if TYPE_CHECKING:
    from exporters.facts import Facts

_STILL_SIDE = 900
_LETTER = frozenset({"Letter", "Tabloid"})


def write_plans(facts: Facts, shown: Shown, folder: Path) -> list[Path]:
    """The paths of plan.html and plan.pdf, written; pictures that stand in the folder are used.

    Args:
        facts: with its masses, order, checks, making and sheets.
        shown: the piece in its wood.
        folder: of the packet; its pictures are written already, if any are.

    Raises:
        SolidError: a part cannot be made.
        OSError: a file cannot be written.
    """
    from PIL import Image

    from exporters.page.page import write_page
    from exporters.plan.pdf import Paper, write_plan
    from exporters.sheets.dxf import document_of

    pictures = folder / "pictures"
    still = pictures / "piece.png"
    image = Image.open(still) if still.is_file() else picture_of(shown, _STILL_SIDE)
    boards = picture_bytes(pictures / "boards.png")
    documents = [document_of(each) for each in facts.sheets]
    page = page_of(facts, shown, image, boards, documents)
    outlines = pictures / "outlines.svg"
    if outlines.is_file():
        page = replace(page, outlines=_element_of(outlines.read_text(encoding="utf-8")))
    paper = facts.settings.paper
    on_paper = Paper(
        contents=page.contents,
        picture=jpeg_of(image),
        outlines=picture_bytes(pictures / "outlines.png"),
        apart=picture_bytes(pictures / "apart.png"),
        boards=boards,
        sheets=documents,
        is_letter=paper in _LETTER if paper else facts.piece.shown.is_inch,
    )
    return [
        write_page(page, folder / "plan.html"),
        write_plan(on_paper, folder / "plan.pdf"),
    ]


def page_of(
    facts: Facts,
    shown: Shown,
    still: Any = None,
    boards: bytes = b"",
    documents: Sequence[Any] | None = None,
) -> Page:
    """What the page of a piece shows.

    Args:
        facts: with its masses, order, checks, making and sheets.
        shown: the piece in its wood.
        still: an image of it that is there already.
        boards: a picture of its boards.
        documents: its sheets drawn, where they are already.
    """
    piece = facts.piece
    image = picture_of(shown, _STILL_SIDE) if still is None else still
    scene = scene_of(piece)
    shadow = ground_shadow(scene, camera_for(piece).axes[2])
    return Page(
        contents=contents_of(facts),
        glb=glb_of(scene, shown.woods, shifts_of(piece, facts.order, APART_CAMERA), shadow),
        still=jpeg_of(image),
        boards=boards,
        sheets=_sheets(facts, documents),
    )


def _element_of(svg: str) -> str:
    """The picture of an SVG file, without what stands before it."""
    return svg[svg.index("<svg") :]


def jpeg_of(image: Any) -> bytes:
    """An image as the bytes of a JPEG."""
    memory = io.BytesIO()
    image.convert("RGB").save(memory, "JPEG", quality=85, optimize=True)
    return memory.getvalue()


def picture_bytes(path: Path, wide: int = 1500) -> bytes:
    """A picture of the packet as a JPEG, no wider than that [dots]; nothing where it is missing.

    Args:
        path: of the picture.
        wide: at most [dots].
    """
    from PIL import Image

    if not path.is_file():
        return b""
    with Image.open(path) as image:
        small = image.convert("RGB")
        small.thumbnail((wide, 10 * wide))
        return jpeg_of(small)


def _sheets(facts: Facts, documents: Sequence[Any] | None) -> Sequence[tuple[str, str]]:
    from exporters.page.svg import svg_of
    from exporters.sheets.dxf import document_of

    drawn = [document_of(each) for each in facts.sheets] if documents is None else documents
    return [
        (f"{number}. {sheet.title}", svg_of(document, sheet.title))
        for number, (sheet, document) in enumerate(zip(facts.sheets, drawn, strict=True), start=1)
    ]
