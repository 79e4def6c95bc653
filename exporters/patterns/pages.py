"""The pages of the patterns: a heading and a bar to check the printer, then the pattern at 1:1."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from exporters.patterns.lettered import lettered
from exporters.patterns.pattern import Pattern, Printed
from exporters.patterns.tiles import MARGIN_MM, MOST_PAGES, Tiling, tiling_of
from exporters.patterns.turned_over import each_once
from exporters.sheets.callouts import LINE_SHARE
from exporters.sheets.figures import stroke
from exporters.sheets.geometry import items_box, moved_item
from exporters.sheets.lettering import wrapped
from exporters.sheets.packing import pages_packed
from exporters.sheets.paper import Box2, Orientation, Paper, Scale, frame_of
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.title_block import frame_items
from exporters.sheets.values import Anchor, Item, Lettering, Sheet
from furniture.units import Shown

_HEADER_MM, _SHARED_HEADER_MM = 27.0, 22.0
_STRIP_MM = 9.0
"""The heading's height, that of a page which several patterns share and which names none of them,
and the width of the strip on the left with the upright test bar [mm]."""
_PAD_MM = 3.0
_ROOMS_FOR_WORDS_MM, _NARROWER_MM = (64.0, 52.0, 40.0, 28.0), (4.0, -10.0, -20.0)
"""For the words on both sides of a small pattern, the most that is given first, and of one that is
so thin that all words stand above and below it [mm]. Own rule."""
_THIN_MM = 40.0
_BETWEEN_MM = 6.0
_STRIP_SIDES_MM = (MARGIN_MM, 12.5, 9.0)
"""Above and below a story stick, for crosses and words: the most that costs no page. Own rule."""
_STRIP_ENDS_MM = 6.0
"""Beyond the ends of a story stick, which have no crosses [mm]. Own rule."""
_UNDER_MM, _LEAST_GAP_MM = 3.0, 1.5
"""Between a small pattern and its heading, and around it [mm]. Own rule."""
_HEADING_MM = 80.0
"""A heading longer than this and than its pattern goes on in a further line. Own rule."""
_BAR = {False: (100.0, "100 mm", 10), True: (4 * 25.4, "4 in", 8)}
"""The test bars' length [mm], their name, and how many steps they are divided into."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageLook:
    """What all pages have in common."""

    paper: Paper
    style: SheetStyle
    shown: Shown
    piece: str


@dataclass(frozen=True, slots=True)
class _Page:
    orientation: Orientation
    headings: tuple[str, ...]
    items: tuple[Item, ...]
    header_mm: float = _HEADER_MM


def pages_of(patterns: Sequence[Pattern], look: PageLook) -> tuple[Sheet, ...]:
    """The pages of all patterns at 1:1, of mirrored ones of one; strips and small patterns share
    pages, very large ones get none.

    Args:
        patterns: at true size.
        look: paper, pens, unit.
    """
    pages: list[_Page] = []
    sticks: list[Pattern] = []
    small: list[_Block] = []
    for pattern in each_once(patterns):
        strip = _strip(pattern, look, MARGIN_MM)
        if _is_small(pattern, look):
            small.append(_small(pattern, look))
        elif strip and _is_worth_pages(pattern, strip):
            sticks.append(pattern)
        else:
            orientation, tiling = _tiled(pattern, look)
            if _is_worth_pages(pattern, tiling):
                pages += _joined_pages(pattern, tiling, orientation, look)
    ways = [
        _shared_pages([strip for stick in sticks for strip in _strips(stick, look, sides)],
                      small, look)
        for sides in (_STRIP_SIDES_MM if sticks else _STRIP_SIDES_MM[:1])
    ]  # fmt: skip
    fewest: list[_Page] = min(ways, key=len)
    pages += fewest
    total = len(pages)
    return tuple(_sheet(page, number, total, look) for number, page in enumerate(pages, start=1))


def is_printed(pattern: Pattern, look: PageLook) -> bool:
    """Whether the pattern goes on pages at all: small enough, or worth every page."""
    return _is_worth_pages(pattern, _tiled(pattern, look)[1])


def _is_worth_pages(pattern: Pattern, tiling: Tiling) -> bool:
    return len(tiling.windows) <= MOST_PAGES or pattern.printed is Printed.ON_ALL_IT_TAKES


def _window(orientation: Orientation, look: PageLook, header_mm: float = _HEADER_MM) -> Box2:
    frame = frame_of(look.paper, orientation)
    return Box2(
        left=frame.left + _STRIP_MM,
        bottom=frame.bottom,
        right=frame.right,
        top=frame.top - header_mm,
    ).grown(-1.0)


def _tiled(pattern: Pattern, look: PageLook) -> tuple[Orientation, Tiling]:
    """Fewest pages; landscape where it makes no difference."""
    found = []
    for orientation in Orientation:
        window = _window(orientation, look)
        found.append((orientation, tiling_of(pattern, window.width, window.height)))
    return min(found, key=lambda each: len(each[1].windows))


def _joined_pages(
    pattern: Pattern, tiling: Tiling, orientation: Orientation, look: PageLook
) -> list[_Page]:
    frame = _window(orientation, look)
    pages = []
    count = len(tiling.windows)
    for index, window in enumerate(tiling.windows):
        drawn = lettered(pattern, tiling.crosses, window, look.style)
        shift = (frame.left - window.left, frame.bottom - window.bottom)
        headings = [pattern.heading]
        if count > 1:
            row, column = divmod(index, tiling.columns)
            where = f"column {column + 1} of {tiling.columns}"
            if tiling.rows > 1:
                where += f", row {row + 1} of {tiling.rows} from the top"
            headings.append(f"{where}: lay crosses of the same letter on each other")
        items = tuple(moved_item(item, *shift) for item in drawn)
        pages.append(_Page(orientation, tuple(headings), items))
    return pages


def _room(pattern: Pattern, words_mm: float) -> tuple[float, float]:
    """Width and height that a small pattern takes with so much for its words [mm]."""
    core = pattern.core
    return (
        core.width + 2 * MARGIN_MM + words_mm,
        core.height + 2 * MARGIN_MM + _BETWEEN_MM,
    )


def _is_small(pattern: Pattern, look: PageLook) -> bool:
    """Whether it shares a page with others: it takes half of one or less with its words."""
    window = _window(Orientation.LANDSCAPE, look)
    wide, high = _room(pattern, _ROOMS_FOR_WORDS_MM[0])
    has_room = wide <= window.width and high <= window.height
    return has_room and (wide <= window.width / 2 or high <= window.height / 2)


@dataclass(frozen=True, slots=True)
class _Block:
    """A strip or a small pattern: the room it takes [mm], its items, what the page says of it."""

    box: Box2
    items: tuple[Item, ...]
    heading: str


def _shared_pages(strips: Sequence[_Block], small: Sequence[_Block], look: PageLook) -> list[_Page]:
    """Strips, which lie across a page, and small patterns on the fewest pages that hold all."""
    blocks = [*strips, *small]
    if not blocks:
        return []
    ways = (Orientation.LANDSCAPE,) if strips else tuple(Orientation)
    rooms = {way: _window(way, look, _SHARED_HEADER_MM).grown(1e-6) for way in ways}
    sizes = [(each.box.width, each.box.height) for each in blocks]
    packed = pages_packed(sizes, rooms, 0.0)
    assert packed is not None, "each of them fits a page by itself"
    made = []
    for page in packed:
        items: list[Item] = []
        for index, (x, y) in sorted(page.places.items()):
            box = blocks[index].box
            items += [moved_item(item, x - box.left, y - box.bottom)
                      for item in blocks[index].items]  # fmt: skip
        headings = tuple(dict.fromkeys(blocks[index].heading for index in sorted(page.places)))
        made.append(_Page(page.orientation, headings, tuple(items), _SHARED_HEADER_MM))
    return made


def _strip(pattern: Pattern, look: PageLook, sides_mm: float) -> Tiling | None:
    """How a long pattern is shared out over strips that leave half of a page or more to others."""
    window = _window(Orientation.LANDSCAPE, look)
    high = pattern.core.height + 2 * sides_mm
    if high + _BETWEEN_MM > window.height / 2:
        return None
    return tiling_of(pattern, window.width, high, ends_mm=_STRIP_ENDS_MM, sides_mm=sides_mm)


def _strips(pattern: Pattern, look: PageLook, sides_mm: float) -> list[_Block]:
    """The strips from left to right; with more room at their sides where words would be lost."""
    roomy = _strips_with(pattern, look, MARGIN_MM)
    close = _strips_with(pattern, look, sides_mm)
    said = [sorted(word for each in some for word in _words_of(each.items))
            for some in (roomy, close)]  # fmt: skip
    return close if said[0] == said[1] else roomy


def _strips_with(pattern: Pattern, look: PageLook, sides_mm: float) -> list[_Block]:
    """The strips from left to right, each with its heading over it."""
    tiling = _strip(pattern, look, sides_mm)
    assert tiling is not None, "a story stick is no higher than with the most room at its sides"
    frame, height = _window(Orientation.LANDSCAPE, look), look.style.text_height_mm
    strips = []
    for index, window in enumerate(tiling.windows):
        drawn = lettered(pattern, tiling.crosses, window, look.style)
        shift = (frame.left - window.left, -_BETWEEN_MM - window.top)
        words = pattern.heading
        if len(tiling.windows) > 1:
            words = f"{words}, strip {index + 1} of {tiling.columns}"
        at = (frame.left + _PAD_MM, -_BETWEEN_MM + 1.2)
        rule = stroke((frame.left - 1.0, 0.0), (frame.right + 1.0, 0.0), LineClass.TITLE_BLOCK)
        items: list[Item] = [rule, Lettering(text=words, at=at, height=height)]
        items += [moved_item(item, *shift) for item in drawn]
        told = "strips: lay crosses of the same letter on each other"
        box = Box2(left=frame.left, right=frame.right, top=0.0,
                   bottom=-window.height - _BETWEEN_MM)  # fmt: skip
        strips.append(_Block(box, tuple(items), told))
    return strips


def _small(pattern: Pattern, look: PageLook) -> _Block:
    """A small pattern with its heading under it, as narrow as leaves room for all its words."""
    core, style = pattern.core, look.style
    middle = (core.left + core.right) / 2
    drawn: list[Item] = []
    said: list[str] = []
    thin = _NARROWER_MM if core.height <= _THIN_MM else ()
    for words in (*_ROOMS_FOR_WORDS_MM, *thin):
        wide, high = _room(pattern, words)
        bottom = core.bottom - MARGIN_MM
        window = Box2(left=middle - wide / 2, right=middle + wide / 2, bottom=bottom,
                      top=bottom + high - _BETWEEN_MM)  # fmt: skip
        tried = lettered(pattern, (), window, style)
        told = _words_of(tried)
        if drawn and told != said:
            break
        drawn, said = tried, told
    box, height = items_box(drawn), style.text_height_mm
    below = box.bottom - _UNDER_MM - height
    lines = wrapped(pattern.heading, height, max(box.width, _HEADING_MM))
    names = [
        Lettering(
            text=line,
            at=(middle, below - number * height * LINE_SHARE),
            height=height,
            anchor=Anchor.CENTRE,
        )
        for number, line in enumerate(lines)
    ]
    items = (*drawn, *names)
    return _Block(items_box(items).grown(_LEAST_GAP_MM), items, "small patterns")


def _words_of(items: Sequence[Item]) -> list[str]:
    """All words, whatever lines they stand in."""
    texts = [item.text for item in items if isinstance(item, Lettering)]
    return sorted(word for text in texts for word in text.split())


def _sheet(page: _Page, number: int, total: int, look: PageLook) -> Sheet:
    frame = frame_of(look.paper, page.orientation)
    items: list[Item] = list(frame_items(frame))
    below = frame.top - page.header_mm
    items.append(stroke((frame.left, below), (frame.right, below), LineClass.TITLE_BLOCK))
    beside = frame.left + _STRIP_MM
    items.append(stroke((beside, frame.bottom), (beside, below), LineClass.TITLE_BLOCK))
    items += _upright_bar(frame, look)
    items += _header(page, f"page {number} of {total}", frame, look)
    items += page.items
    return Sheet(
        name=f"pattern-{number:02d}",
        title=page.headings[0],
        paper=look.paper,
        orientation=page.orientation,
        scale=Scale(1.0),
        style=look.style,
        frame=frame,
        items=tuple(items),
    )


def _header(page: _Page, place: str, frame: Box2, look: PageLook) -> list[Item]:
    """The heading and what to do on the left, the level test bar on the right."""
    style = look.style
    long, name, steps = _BAR[look.shown.is_inch]
    room = frame.width - long - 4 * _PAD_MM
    height = style.text_height_mm
    y = frame.top - _PAD_MM
    items: list[Item] = []
    words = [f"{look.piece}: full size, 1:1, {place}", *page.headings]
    for line in (part for each in words for part in wrapped(each, height, room)):
        y -= height
        items.append(Lettering(text=line, at=(frame.left + _PAD_MM, y), height=height))
        y -= height * (LINE_SHARE - 1.0)
    right = frame.right - _PAD_MM
    left, base = right - long, frame.top - 9.0
    items.append(stroke((left, base), (right, base), LineClass.VISIBLE))
    for step in range(steps + 1):
        x = left + long * step / steps
        high = 4.0 if step in (0, steps) else 2.0
        items.append(stroke((x, base), (x, base + high), LineClass.SYMBOL))
    said = (
        f"This bar and the upright one measure {name} each. If not, print again at actual size, "
        "without fitting."
    )
    y = base - 2.0
    for line in wrapped(said, height, long):
        y -= height
        items.append(Lettering(text=line, at=(left, y), height=height))
        y -= height * (LINE_SHARE - 1.0)
    return items


def _upright_bar(frame: Box2, look: PageLook) -> list[Item]:
    """The bar that checks the printer up the page: a feed slips more often than a head."""
    long, name, steps = _BAR[look.shown.is_inch]
    x, low = frame.left + 1.5, frame.bottom + _PAD_MM
    items: list[Item] = [stroke((x, low), (x, low + long), LineClass.VISIBLE)]
    for step in range(steps + 1):
        y = low + long * step / steps
        high = 3.0 if step in (0, steps) else 1.5
        items.append(stroke((x, y), (x + high, y), LineClass.SYMBOL))
    height = look.style.text_height_mm
    at = (frame.left + 4.0 + height, low + long / 2)
    items.append(Lettering(text=name, at=at, height=height, anchor=Anchor.CENTRE, is_turned=True))
    return items
