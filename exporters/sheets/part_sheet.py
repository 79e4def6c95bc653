"""The sheet of one part: views, figures, callouts, notes and title block, where they fit."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import Enum
from itertools import product

from exporters.sheets.annotate import annotations_of
from exporters.sheets.annotation import Bench, Callout, Look, grouped
from exporters.sheets.arrange import Arrangement, arrange
from exporters.sheets.blocks import Block, heading
from exporters.sheets.broken import breaks_to_fit
from exporters.sheets.callouts import NoRoomError, place_callout, place_first_free, place_nearest
from exporters.sheets.details import (
    Detail,
    circle_on_view,
    detail_block,
    details_for,
    picture_block,
)
from exporters.sheets.face_marks import end_names, face_marks
from exporters.sheets.figures import arrowhead, stroke
from exporters.sheets.geometry import lettering_box
from exporters.sheets.lettering import text_width
from exporters.sheets.look_blocks import look_block
from exporters.sheets.note_lines import place_notes
from exporters.sheets.paper import (
    Box2,
    Orientation,
    Paper,
    Scale,
    frame_of,
    scales_for,
)
from exporters.sheets.part_views import (
    PartViews,
    section_span,
    views_for,
    with_end_for_edge,
)
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.space import Space
from exporters.sheets.title_block import TitleFields, frame_items, title_block
from exporters.sheets.values import Anchor, Item, Lettering, Sheet
from furniture.parts.part import Part
from furniture.units import Shown

_GRAIN_LENGTH_MM = 20.0
_SMALL_REDUCTION = 6.0
_BROKEN_SHARES = (0.72, 0.58, 0.46)
"""How much of the sheet's width a broken view may take. Own rule."""
_BROKEN = "Drawn broken: a plain stretch is left out. The figures hold, not the drawn length."


@dataclass(frozen=True, slots=True, kw_only=True)
class PartTask:
    """A part to draw, and how.

    Args:
        part: the part.
        shown: the unit.
        fields: of the title block; the scale is filled in.
        notes: one paragraph each.
        name: the file name without its ending.
        paper: to print on.
        style: pens and heights.
    """

    part: Part
    shown: Shown
    fields: TitleFields
    notes: tuple[str, ...]
    name: str
    paper: Paper
    style: SheetStyle


class _Extras(Enum):
    """What a sheet may show beside the plain views, from the most to the least."""

    DETAILS_AND_PICTURE = 2
    DETAILS = 1
    NOTHING = 0


@dataclass(frozen=True, slots=True)
class _Try:
    orientation: Orientation
    scale: Scale
    section_scale: Scale
    extras: _Extras
    views: PartViews


def part_sheets(task: PartTask) -> list[Sheet]:
    """The part on one sheet, or its cuts shared out over as few sheets as hold them clear.

    Own rule: a part that comes out small on one sheet is shared over two where that is larger.

    Args:
        task: what to draw.

    Raises:
        NoRoomError: it cannot be fitted on this paper at any standard scale.
    """
    count = len(task.part.cuts)
    reason = ""
    best: list[Sheet] = []
    for sheets in (1, 2, 3, 4, 6, 8, 12):
        share = max(1, math.ceil(count / sheets))
        spans = [(at, min(at + share, count)) for at in range(0, count, share)] or [(0, 0)]
        if best and len(spans) < 2:
            return best
        try:
            found = [_part_sheet(_shared(task, span, index, spans), span)
                     for index, span in enumerate(spans)]  # fmt: skip
        except NoRoomError as error:
            reason = str(error)
            if best:
                return best
            continue
        if best:
            return found if _reduction(found) < _reduction(best) else best
        best = found
        if _reduction(found) < _SMALL_REDUCTION or sheets > 1:
            return found
    if best:
        return best
    raise NoRoomError(reason)


def _reduction(sheets: list[Sheet]) -> float:
    return max(sheet.scale.reduction for sheet in sheets)


def _shared(
    task: PartTask, span: tuple[int, int], index: int, spans: list[tuple[int, int]]
) -> PartTask:
    """The task of one of the sheets that a part is shared out over."""
    if len(spans) == 1:
        return task
    place = f"{index + 1} of {len(spans)}"
    note = (
        f"Sheet {place} of this part: cuts {span[0] + 1} to {span[1]} of {spans[-1][1]}, "
        "in the order of the cutting."
    )
    return replace(
        task,
        fields=replace(task.fields, title=f"{task.fields.title}, sheet {place}"),
        notes=(*task.notes, note),
        name=task.name if index == 0 else f"{task.name}-{index + 1}",
    )


def _part_sheet(task: PartTask, span: tuple[int, int]) -> Sheet:
    """The sheet at the largest standard scale at which everything stands clear."""
    bench = Bench(blank=task.part.blank, shown=task.shown)
    views = views_for(task.part, bench, annotations_of(task.part, task.shown), span)
    callouts = grouped(views.annotations)
    reason = "no scale is small enough"
    for attempt in _attempts(task, views):
        try:
            return _composed(task, callouts, attempt)
        except NoRoomError as error:
            reason = str(error)
    raise NoRoomError(f"{task.part.name} does not fit on {task.paper.title}: {reason}")


def _attempts(task: PartTask, views: PartViews) -> Iterator[_Try]:
    """Scales from the largest that the paper could hold; whole before broken, landscape first."""
    scales = [scale for scale in scales_for(task.shown.is_inch) if scale.reduction >= 1]
    span = section_span(views) if Look.SECTION in views.looks else (0.0, 0.0)
    for scale in scales:
        larger = [each for each in scales if each.factor >= scale.factor]
        sections = larger if Look.SECTION in views.looks else larger[-1:]
        tries = product((_whole, _broken), sections, _Extras, Orientation)
        for ways, section, extras, orientation in tries:
            frame = frame_of(task.paper, orientation)
            is_high = (span[1] - span[0]) * section.factor > 0.5 * frame.height
            if is_high and section is not larger[-1]:
                continue
            for shown in ways(views, scale, frame):
                yield _Try(orientation, scale, section, extras, shown)


def _whole(views: PartViews, scale: Scale, frame: Box2) -> list[PartViews]:
    """The part at its whole length, where that fits.

    A bare edge that only carries the thickness may give way to the end, which stands beside.
    """
    if views.bench.blank.length_mm * scale.factor > frame.width - 20.0:
        return []
    return [views, *with_end_for_edge(views)]


def _broken(views: PartViews, scale: Scale, frame: Box2) -> list[PartViews]:
    """The part broken to less and less of the sheet's width; never at full size."""
    if scale.reduction < 2:
        return []
    found = [
        breaks_to_fit(views.bench.blank.length_mm, views.plain, scale.factor, share * frame.width)
        for share in _BROKEN_SHARES
    ]
    return [
        replace(way, breaks=breaks)
        for breaks in found
        if breaks is not None
        for way in (views, *with_end_for_edge(views))
    ]


def _composed(task: PartTask, callouts: tuple[Callout, ...], attempt: _Try) -> Sheet:
    style, views = task.style, attempt.views
    frame = frame_of(task.paper, attempt.orientation)
    fields = _with_scale(task.fields, attempt.scale)
    items: list[Item] = list(frame_items(frame))
    block_items, title_box = title_block(fields, frame.right, frame.bottom, style)
    items += block_items
    said = (*task.notes, _BROKEN) if views.breaks else task.notes
    notes, top_of_band = place_notes(said, frame, title_box, style)
    items += notes
    region = Box2(left=frame.left, bottom=top_of_band, right=frame.right, top=frame.top).grown(-3.0)
    blocks = {
        look: _titled(look_block(views, look, _factor(look, attempt), style), look, attempt, style)
        for look in views.looks
    }
    details: list[Detail] = []
    others: list[Block] = []
    if attempt.extras is not _Extras.NOTHING:
        details = details_for(views, callouts, attempt.scale)
        others = [detail_block(views, detail, style) for detail in details]
        if attempt.extras is _Extras.DETAILS and not details:
            raise NoRoomError("this part has no details: the next attempt is the same")
    if attempt.extras is _Extras.DETAILS_AND_PICTURE:
        picture = picture_block(views, attempt.scale, style)
        if picture is not None:
            others.append(picture)
    placed = arrange(blocks, others, region, task.fields.projection, style)
    return _annotated(task, callouts, attempt, items, frame, placed, details)


def _factor(look: Look, attempt: _Try) -> float:
    scale = attempt.section_scale if look is Look.SECTION else attempt.scale
    return scale.factor


def _with_scale(fields: TitleFields, scale: Scale) -> TitleFields:
    return replace(fields, scale=scale.text)


def _titled(block: Block, look: Look, attempt: _Try, style: SheetStyle) -> Block:
    text = look.value if look is Look.FACE_SIDE else f"seen on the {look.value}"
    if look is Look.SECTION:
        text = "section A-A"
        if attempt.section_scale != attempt.scale:
            text += f" ({attempt.section_scale.text})"
    centre = (block.core.left + block.core.right) / 2
    return block.with_items([heading(text, centre, block.box.bottom, style)])


def _annotated(
    task: PartTask,
    callouts: tuple[Callout, ...],
    attempt: _Try,
    items: list[Item],
    frame: Box2,
    placed: Arrangement,
    details: list[Detail],
) -> Sheet:
    style = task.style
    space = Space(frame)
    space.add(items)
    shown = [*placed.blocks.values(), *placed.others]
    for block in shown:
        space.add(block.items)
        items += block.items
    face = placed.blocks[Look.FACE_SIDE]
    items += end_names(task.part, face, space, style)
    items += face_marks(face, space, style)
    cores = [block.core.grown(0.5) for block in shown]
    items += _grain_arrow(face, placed, space, style)
    carriers = dict(zip([detail.letter for detail in details], placed.others, strict=False))
    enlarged: dict[str, Block] = {}
    for detail in details:
        items += _detail_mark(detail, placed.blocks[detail.callout.look], space, style)
        enlarged[detail.callout.text] = carriers[detail.letter]
    for callout in callouts:
        block = enlarged.get(callout.text, placed.blocks[callout.look])
        targets = [block.to_paper(target) for target in callout.targets]
        if callout.tag:
            items += [_tag(callout.tag, target, block, space, style) for target in targets]
            items += place_callout(callout.text, targets[0], space, style, cores, has_leader=False)
        elif callout.text in enlarged:
            items += place_callout(callout.text, targets[0], space, style, cores)
        else:
            choices = [block.to_paper(target) for target in callout.choices] or targets
            items += place_nearest(callout.text, choices, space, style, cores)
        if callout.shoulder is not None:
            marked = block
            if callout.text not in enlarged:
                marked = placed.blocks[callout.shoulder.look]
            shoulder = marked.to_paper(callout.shoulder.point)
            items += place_callout("mark from this shoulder", shoulder, space, style, cores)
    return Sheet(
        name=task.name,
        title=task.fields.title,
        paper=task.paper,
        orientation=attempt.orientation,
        scale=attempt.scale,
        style=style,
        frame=frame,
        items=tuple(items),
    )


def _detail_mark(detail: Detail, block: Block, space: Space, style: SheetStyle) -> list[Item]:
    """The circle round what a detail shows, and its letter beside it."""
    circle, box = circle_on_view(block, detail)
    if not space.frame.holds(box.grown(0.5)):
        raise NoRoomError(f"no room for the circle of detail {detail.letter}")
    space.add([circle])
    height = style.heading_height_mm
    x, y = box.centre
    tries = []
    for away in (0.8, 2.0, 3.5):
        for dx, dy in ((0.8, 0.8), (-0.8, 0.8), (0.8, -0.8), (-0.8, -0.8), (0.0, 1.0), (0.0, -1.0)):
            reach = box.width / 2 + away + height / 2
            at = (x + dx * reach, y + dy * reach - height / 2)
            tries.append(_lettering(detail.letter, at, height, Anchor.CENTRE, False))
    return [circle, _free(tries, f"letter {detail.letter}", space, 0.4)]


def _tag(
    letter: str, target: tuple[float, float], block: Block, space: Space, style: SheetStyle
) -> Lettering:
    """The letter of a group beside one of its members, outside the view or inside."""
    height, core = style.text_height_mm, block.core
    tries = []
    for away in (2.4, 3.2, 4.0):
        for dx, dy in ((1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0), (0.0, 1.4), (0.0, -1.4)):
            at = (target[0] + dx * away, target[1] + dy * away - height / 2)
            tries.append(_lettering(letter, at, height, Anchor.CENTRE, False))
    for step in (1.2, 2.4, 4.0, 6.0):
        for dx in (0.0, 1.5, -1.5, 3.0, -3.0):
            for y in (core.bottom - step - height, core.top + step):
                tries.append(_lettering(letter, (target[0] + dx, y), height, Anchor.CENTRE, False))
    return _free(tries, f"tag {letter}", space, 0.4)


def _lettering(
    text: str, at: tuple[float, float], height: float, anchor: Anchor, is_turned: bool
) -> Lettering:
    return Lettering(text=text, at=at, height=height, anchor=anchor, is_turned=is_turned)


def _free(tries: list[Lettering], text: str, space: Space, clearance: float) -> Lettering:
    found = place_first_free([(each, lettering_box(each)) for each in tries], space, clearance)
    if found is None:
        raise NoRoomError(f"no room for: {text}")
    return found


def _grain_arrow(face: Block, placed: Arrangement, space: Space, style: SheetStyle) -> list[Item]:
    """A double arrow along the grain with its word, inside the face side where that is free."""
    word, height = "grain", style.text_height_mm
    wide = text_width(word, height)
    half = _GRAIN_LENGTH_MM / 2
    size = (_GRAIN_LENGTH_MM, height * 1.4)
    places = space.free_places(*size, 0.8)
    core = face.core
    cx, cy = core.centre
    xs, ys = places[:, 0], places[:, 1]
    inside = (xs > core.left) & (xs + size[0] < core.right)
    inside &= (ys > core.bottom) & (ys + size[1] < core.top)
    away = abs(xs + size[0] / 2 - cx) + abs(ys + size[1] / 2 - cy) + (~inside) * 200.0
    others = [block.core for look, block in placed.blocks.items() if look is not Look.FACE_SIDE]
    others += [block.core for block in placed.others]
    for index in away.argsort(kind="stable"):
        left, low = float(xs[index]), float(ys[index])
        box = Box2(left=left, bottom=low, right=left + size[0], top=low + size[1])
        if not any(box.overlaps(other) for other in others):
            x, y = box.centre
            break
    else:
        raise NoRoomError("no room for the grain arrow")
    items: list[Item] = [
        Lettering(
            text=word,
            at=(x, y - height / 2),
            height=height,
            anchor=Anchor.CENTRE,
            line_class=LineClass.GRAIN,
        )
    ]
    for sign in (-1.0, 1.0):
        start, tip = (x + sign * (wide / 2 + 1.0), y), (x + sign * half, y)
        items.append(stroke(start, tip, LineClass.GRAIN))
        items.append(arrowhead(tip, (sign, 0.0), style, LineClass.GRAIN))
    space.add(items)
    return items
