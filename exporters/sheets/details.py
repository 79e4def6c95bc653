"""What a part sheet shows beside the plain views: enlarged details and a picture of the part."""

from __future__ import annotations

from dataclasses import dataclass

from exporters.sheets.annotation import FRAMES, Callout
from exporters.sheets.blocks import Block, heading, picture_of, view_block
from exporters.sheets.clip import clipped_view, inside_circle
from exporters.sheets.paper import Box2, Scale, scales_for
from exporters.sheets.part_views import LONG_LOOKS, PartViews
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.picture_frames import picture_frame
from exporters.sheets.values import Stroke
from exporters.views.project import project_part
from exporters.views.values import Arc
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector

SMALL_MM = 3.0
"""A cut that comes out smaller than this on paper gets a detail. Own rule."""
_MOST_DETAILS = 2
_DETAIL_MM = 34.0
_PICTURE_MM = (62.0, 46.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Detail:
    """A round piece of a view drawn larger: whose callout it carries, where it is, how large.

    `radius_mm` is measured on the part.
    """

    letter: str
    callout: Callout
    centre: Vector
    radius_mm: float
    scale: Scale


def details_for(views: PartViews, callouts: tuple[Callout, ...], scale: Scale) -> list[Detail]:
    """The details that help at this scale, lettered after the section.

    Args:
        views: the part and what is said about it.
        callouts: of the sheet.
        scale: of the plain views.
    """
    is_inch = views.bench.shown.is_inch
    found: list[Detail] = []
    for callout in callouts:
        if callout.size_mm is None or callout.look not in LONG_LOOKS or callout.tag:
            continue
        least, most = callout.size_mm
        if least * scale.factor >= SMALL_MM or len(found) == _MOST_DETAILS:
            continue
        radius = 1.3 * most + 3.0
        larger = next((s for s in scales_for(is_inch) if 2 * radius * s.factor <= _DETAIL_MM), None)
        if larger is None or larger.factor < 2 * scale.factor:
            continue
        found.append(
            Detail(
                letter=chr(ord("B") + len(found)),
                callout=callout,
                centre=callout.targets[0],
                radius_mm=radius,
                scale=larger,
            )
        )
    return found


def detail_block(views: PartViews, detail: Detail, style: SheetStyle) -> Block:
    """The detail on paper, with its circle and its heading."""
    frame = FRAMES[detail.callout.look]
    centre = frame.to_paper(detail.centre)
    view = clipped_view(project_part(views.part, frame), inside_circle(centre, detail.radius_mm))
    factor = detail.scale.factor
    block = view_block(view, factor)
    x, y = block.to_paper(detail.centre)
    radius = detail.radius_mm * factor
    circle = Arc(centre=(x, y), radius=radius, start_deg=0.0, end_deg=360.0)
    block = block.with_items([Stroke(shape=circle, line_class=LineClass.DETAIL)])
    text = f"detail {detail.letter} ({detail.scale.text})"
    return block.with_items([heading(text, x, y - radius, style)])


def picture_block(views: PartViews, scale: Scale, style: SheetStyle) -> Block | None:
    """The part as a picture, no larger than the plain views; none when it would be tiny, and none
    of a plain block, which shows nothing that its views do not.
    """
    if not views.part.cuts:
        return None
    frame, up = picture_frame(views.part)
    view = project_part(views.part, frame)
    wide, high = view.high[0] - view.low[0], view.high[1] - view.low[1]
    for smaller in scales_for(views.bench.shown.is_inch):
        if smaller.factor > scale.factor:
            continue
        if wide * smaller.factor <= _PICTURE_MM[0] and high * smaller.factor <= _PICTURE_MM[1]:
            block = picture_of(view, smaller.factor)
            text = "isometric"
            if up is Face.BACK_SIDE:
                text += f", {views.bench.faces.called(up)} up"
            if smaller != scale:
                text += f" ({smaller.text})"
            middle = (block.core.left + block.core.right) / 2
            return block.with_items([heading(text, middle, block.core.bottom, style)])
    return None


def circle_on_view(block: Block, detail: Detail) -> tuple[Stroke, Box2]:
    """The circle on the plain view that shows where a detail is taken, and its box [mm]."""
    x, y = block.to_paper(detail.centre)
    radius = max(detail.radius_mm * block.factor, 2.0)
    circle = Arc(centre=(x, y), radius=radius, start_deg=0.0, end_deg=360.0)
    box = Box2(left=x - radius, bottom=y - radius, right=x + radius, top=y + radius)
    return Stroke(shape=circle, line_class=LineClass.DETAIL), box
