"""A part drawn in a cell of a sheet: its heading, views, figures, callouts and notes, clear."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from functools import lru_cache
from itertools import product

from exporters.sheets.annotate import annotated, bench_for
from exporters.sheets.annotation import FACE_OF_LOOK, FRAMES, Bench, Callout, Look, grouped
from exporters.sheets.arrange import ViewsTooLargeError, arrange
from exporters.sheets.blocks import Block, caption, heading
from exporters.sheets.broken import breaks_to_fit
from exporters.sheets.callouts import (
    FAR_MM,
    NoRoomError,
    NoRoomForWordsError,
    longest_leader_mm,
)
from exporters.sheets.details import (
    Detail,
    circle_on_view,
    detail_block,
    details_for,
    picture_block,
)
from exporters.sheets.geometry import items_box
from exporters.sheets.hands import hands
from exporters.sheets.look_blocks import look_block
from exporters.sheets.paper import Box2, Scale, box_round, scales_for
from exporters.sheets.part_callouts import (
    Words,
    lettered,
    stand_at_the_view,
    with_words,
    words_in_cell,
)
from exporters.sheets.part_head import head_of
from exporters.sheets.part_task import PartTask, Span
from exporters.sheets.part_views import (
    PartViews,
    section_span,
    views_for,
    with_end_for_edge,
)
from exporters.sheets.pens import SheetStyle
from exporters.sheets.put_on import PutOn, annotated_put_on
from exporters.sheets.tables import Table, table_items, table_size
from exporters.sheets.values import Item
from furniture.parts.part import Part
from furniture.units import listed

_GAP_MM = 4.0
SMALL_REDUCTION = 6.0
"""From here on a part comes out small. Own rule."""
_BROKEN_SHARES = (0.8, 0.72, 0.58, 0.46, 0.36)
"""How much of the cell's width a broken view may take. Own rule."""


@dataclass(frozen=True, slots=True)
class _Try:
    scale: Scale
    section_scale: Scale
    extras: _Extras
    views: PartViews
    way: tuple[bool, int]
    """Whether it is broken, and which of the ways to draw it so."""
    words: Words = Words.ANYWHERE

    def shows_as_much_as(self, other: _Try) -> bool:
        """Whether the same is shown at the same scale, the section aside."""
        return self.extras is other.extras and self.way[0] == other.way[0]


class _Extras(Enum):
    """What a cell may show beside the plain views, from the most to the least."""

    DETAILS_AND_PICTURE = 2
    DETAILS = 1
    NOTHING = 0


class Length(Enum):
    """Whether a long part may be drawn broken."""

    WHOLE = "whole"
    MAY_BE_BROKEN = "whole or broken"


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """What is drawn in a cell, at the scale of its plain views, and how its length was drawn."""

    items: tuple[Item, ...]
    scale: Scale
    length: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """Cuts of a part that a cell shows, the largest scale at which it holds them, and how the
    length is drawn there."""

    span: Span
    scale: Scale
    length: Length


def shares_of(
    task: PartTask, cell: Box2, length: Length = Length.MAY_BE_BROKEN
) -> tuple[Share, ...]:
    """The part whole, or its cuts shared out over as few cells of this size as hold them clear.

    Own rule: a part that comes out small in one cell is shared over two where that is larger.

    Args:
        task: what to draw.
        cell: as large as there is [mm].
        length: whether it may be drawn broken.

    Raises:
        NoRoomError: it cannot be fitted at any standard scale.
    """
    count = len(task.part.cuts)
    reason = ""
    best: tuple[Share, ...] = ()
    for cells in (1, 2, 3, 4, 6, 8, 12):
        share = max(1, math.ceil(count / cells))
        spans = tuple((at, min(at + share, count)) for at in range(0, count, share)) or ((0, 0),)
        if best and len(spans) < 2:
            return best
        try:
            drawn = [(span, drawn_in(task, span, cell, None, length)) for span in spans]
            shares = tuple(
                Share(span=span, scale=each.scale, length=each.length) for span, each in drawn
            )
        except NoRoomError as error:
            reason = str(error)
            if best:
                return best
            continue
        if best:
            return min(best, shares, key=coarsest)
        best = shares
        if coarsest(best).reduction < SMALL_REDUCTION or cells > 1:
            return best
    if best:
        return best
    raise NoRoomError(reason)


def coarsest(shares: Sequence[Share]) -> Scale:
    """The scale of the share that comes out smallest."""
    return max(share.scale for share in shares)


def drawn_in(
    task: PartTask,
    span: Span,
    cell: Box2,
    scales: Sequence[Scale] | None = None,
    length: Length = Length.MAY_BE_BROKEN,
) -> Drawing:
    """The part in the cell at the largest of these scales at which everything stands clear.

    Args:
        task: what to draw.
        span: of its cuts.
        cell: the room there is [mm].
        scales: largest first; none takes all standard reductions, and then enlargements.
        length: whether it may be drawn broken.

    Raises:
        NoRoomError: at none of them.
    """
    bench = bench_for(task.part, task.shown, task.faces, task.letters)
    views = _views(task.part, bench, span, task.put_on)
    callouts = grouped(views.annotations, task.faces)
    reason = "no scale is small enough"
    known = scales_for(task.shown.is_inch)
    tried = _reductions_first(known) if scales is None else scales
    too_large: set[tuple[Scale, tuple[bool, int]]] = set()
    crossed: tuple[_Try, Drawing] | None = None  # whose leaders are so long that they cross views
    alike: list[_Try] = []
    wordless: list[_Try] = []
    for attempt in _attempts(task, views, cell, tried):
        is_broken = attempt.way[0]
        if crossed is not None and attempt.scale != crossed[0].scale:
            break
        if crossed is not None and not attempt.shows_as_much_as(crossed[0]):
            continue
        if (attempt.scale, attempt.way) in too_large or (is_broken and length is Length.WHOLE):
            continue
        try:
            drawing = _drawn(task, span, callouts, attempt, cell)
        except ViewsTooLargeError as error:
            reason = str(error)
            too_large.add((attempt.scale, attempt.way))
            continue
        except NoRoomForWordsError as error:
            reason = str(error)
            wordless.append(attempt)
            continue
        except NoRoomError as error:
            reason = str(error)
            continue
        if longest_leader_mm(drawing.items) <= FAR_MM:
            return drawing
        crossed = crossed or (attempt, drawing)
        alike.append(attempt)
        closer = _with_short_leaders(task, span, callouts, attempt, Words.AT_THE_VIEW, cell)
        if closer is not None:
            return closer
    by_letter = (
        _with_short_leaders(task, span, callouts, attempt, Words.BY_LETTER, cell)
        for attempt in (alike if crossed is not None else wordless)
    )
    lettered = next((each for each in by_letter if each is not None), None)
    if lettered is not None:
        return lettered
    if crossed is not None:
        return crossed[1]
    raise NoRoomError(f"{task.part.name} does not fit: {reason}")


def _with_short_leaders(
    task: PartTask,
    span: Span,
    callouts: tuple[Callout, ...],
    attempt: _Try,
    words: Words,
    cell: Box2,
) -> Drawing | None:
    """The same with its words elsewhere, where that leaves no leader that crosses views."""
    try:
        drawing = _drawn(task, span, callouts, replace(attempt, words=words), cell)
    except NoRoomError:
        return None
    return drawing if longest_leader_mm(drawing.items) <= FAR_MM else None


def _drawn(
    task: PartTask, span: Span, callouts: tuple[Callout, ...], attempt: _Try, cell: Box2
) -> Drawing:
    items = tuple(_composed(task, span, callouts, attempt, cell))
    if not cell.holds(items_box(items)):
        raise NoRoomError("the views run over")
    drawn = Length.MAY_BE_BROKEN if attempt.way[0] else Length.WHOLE
    return Drawing(items=items, scale=attempt.scale, length=drawn)


def _reductions_first(known: Sequence[Scale]) -> list[Scale]:
    """Full size and smaller; a part too small for its own words is drawn larger than it is."""
    enlarged = sorted(scale for scale in known if scale.reduction < 1)
    return [*(scale for scale in known if scale.reduction >= 1), *reversed(enlarged)]


def places_along(task: PartTask) -> frozenset[float]:
    """The places along the part that its figures give, to 0.1 mm.

    Args:
        task: what to draw.
    """
    bench = bench_for(task.part, task.shown, task.faces, task.letters)
    return frozenset(
        round(position.point[0], 1)
        for note in annotated(task.part, bench)
        for position in note.positions
        if position.axis == 0
    )


@lru_cache(maxsize=256)
def _views(part: Part, bench: Bench, span: Span, things: tuple[PutOn, ...]) -> PartViews:
    return views_for(
        part, bench, annotated(part, bench), span, annotated_put_on(things, part, bench)
    )


def _attempts(
    task: PartTask, views: PartViews, cell: Box2, scales: Sequence[Scale]
) -> Iterator[_Try]:
    """Scales from the largest that the cell could hold; whole before broken."""
    known = [scale for scale in scales_for(task.shown.is_inch) if scale.reduction >= 1]
    span = section_span(views) if Look.SECTION in views.looks else (0.0, 0.0)
    for scale in scales:
        larger = [each for each in known if each.factor >= scale.factor] or [scale]
        sections = larger if Look.SECTION in views.looks else larger[-1:]
        ways = [_whole(views, scale, cell), _broken(views, scale, cell)]
        for is_broken, section, extras in product((False, True), sections, _Extras):
            is_high = (span[1] - span[0]) * section.factor > 0.6 * cell.height
            if is_high and section is not larger[-1]:
                continue
            for at, shown in enumerate(ways[is_broken]):
                yield _Try(scale, section, extras, shown, (is_broken, at))


def _whole(views: PartViews, scale: Scale, cell: Box2) -> list[PartViews]:
    """The part at its whole length, where that fits.

    A bare edge that only carries the thickness may give way to the end, which stands beside.
    """
    if views.bench.blank.length_mm * scale.factor > cell.width - 20.0:
        return []
    return [views, *with_end_for_edge(views)]


def _broken(views: PartViews, scale: Scale, cell: Box2) -> list[PartViews]:
    """The part broken to less and less of the sheet's width; never at full size."""
    if scale.reduction < 2:
        return []
    found = [
        breaks_to_fit(views.bench.blank.length_mm, views.plain, scale.factor, share * cell.width)
        for share in _BROKEN_SHARES
    ]
    return [
        replace(way, breaks=breaks)
        for breaks in found
        if breaks is not None
        for way in (views, *with_end_for_edge(views))
    ]


def _composed(
    task: PartTask, span: Span, callouts: tuple[Callout, ...], attempt: _Try, cell: Box2
) -> list[Item]:
    style, views = task.style, attempt.views
    items, region = head_of(task, span, attempt.scale, attempt.views.breaks, cell)
    details: list[Detail] = []
    others: list[Block] = []
    if attempt.extras is not _Extras.NOTHING:
        details = details_for(views, callouts, attempt.scale)
    blocks = {
        look: _block(views, look, attempt.scale, attempt.section_scale, style,
                     tuple(each for each in details if each.callout.look is look))
        for look in views.looks
    }  # fmt: skip
    if attempt.extras is not _Extras.NOTHING:
        others = [_detail(views, detail, style) for detail in details]
        has_picture = task.opposite is None
        if attempt.extras is _Extras.DETAILS and not (details and has_picture):
            raise NoRoomError("this part has no details: the next attempt is the same")
    if attempt.extras is _Extras.DETAILS_AND_PICTURE and task.opposite is None:
        picture = _picture(views, attempt.scale, style)
        if picture is not None:
            others.append(picture)
    if task.opposite is not None:
        others += hands(task, attempt.scale)
    if task.table is not None:
        others.append(_table_block(task.table, style))
    enlarged = [detail.callout.text for detail in details]
    aside = [each for each in callouts if stand_at_the_view(each, enlarged)]
    if attempt.words is Words.BY_LETTER:
        callouts = lettered(callouts, aside)
    if attempt.words is Words.AT_THE_VIEW:
        callouts = tuple(each for each in callouts if each not in aside)
        blocks = {
            look: with_words(block, [each for each in aside if each.look is look], style)
            for look, block in blocks.items()
        }
    placed = arrange(blocks, others, region, task.projection, _GAP_MM)
    return words_in_cell(task, callouts, items, (cell, region), placed, details)


_detail = lru_cache(maxsize=128)(detail_block)
_picture = lru_cache(maxsize=128)(picture_block)


def _table_block(table: Table, style: SheetStyle) -> Block:
    """The figures of like parts, to stand beside their view."""
    items, box = table_items(table, table_size(table, style)[0], 0.0, style)
    return Block(
        frame=FRAMES[Look.FACE_SIDE], factor=1.0, at=(0.0, 0.0), core=box, box=box,
        items=tuple(items),
    )  # fmt: skip


@lru_cache(maxsize=256)
def _block(
    views: PartViews,
    look: Look,
    scale: Scale,
    section_scale: Scale,
    style: SheetStyle,
    details: tuple[Detail, ...],
) -> Block:
    """A view with its heading below the circles of its details, drawn once for all the cells that
    are tried."""
    own = section_scale if look is Look.SECTION else scale
    block = look_block(views, look, own.factor, style)
    circles = [circle_on_view(block, each)[1] for each in details]
    block = replace(block, box=box_round([block.box, *circles]))
    return _titled(block, views, look, (scale, own), style)


def _titled(
    block: Block, views: PartViews, look: Look, scales: tuple[Scale, Scale], style: SheetStyle
) -> Block:
    """The block with the name of what it shows below, and of what looks like it."""
    scale, own = scales
    faces, shows = views.bench.faces, FACE_OF_LOOK.get(look)
    text = "" if shows is None else faces.called(shows)
    if look is Look.BACK_SIDE:  # edges and ends are known by their names alone
        text = f"seen on the {text}"
    if look is Look.SECTION:
        text = "section A-A"
        if own != scale:
            text += f" ({own.text})"
    centre = (block.core.left + block.core.right) / 2
    block = block.with_items([heading(text, centre, block.box.bottom, style)])
    for spared in views.spared:
        if look is spared.drawn:
            words = f"{faces.called(FACE_OF_LOOK[spared.look])}: the same {listed(spared.works)}"
            block = block.with_items([caption(words, centre, block.box.bottom, style)])
    return block
