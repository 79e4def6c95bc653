"""Rectangles packed onto pages: each where it stands highest, then furthest left."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from functools import cache, partial
from itertools import product

from exporters.sheets.paper import Box2, Orientation
from furniture.parts.vectors import Point2

_GAPS_MM = (26.0, 21.0, 17.0, 14.0, 11.0, 8.5)
"""Between two of them, the widest that costs no page. Own rule."""

_MOST_TURNED = 3
"""Of so many pages each way to lie is tried; further ones lie like these in turn. Own rule."""

_MORE_ORDERS = 150
"""So many orders besides those by size. Search effort."""

_ENOUGH = 100
"""Among so many ways to share out, the best is taken. Search effort."""

Size = tuple[float, float]
"""Width and height [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedPage:
    """A page and the lower left corner [mm] of each rectangle on it, by its index."""

    orientation: Orientation
    places: Mapping[int, Point2]


def pages_packed(
    sizes: Sequence[Size],
    rooms: Mapping[Orientation, Box2],
    least_gap: float,
) -> list[PackedPage] | None:
    """The fewest pages found that hold all; none where one of them fits on no page.

    Pages lie either way, and the rectangles look for places in their order or the highest first.

    Args:
        sizes: in the order in which they look for a place.
        rooms: what a page has for them, by how it lies.
        least_gap: between two of them [mm].
    """
    pages = next(pages_together(sizes, rooms, least_gap), None)
    if pages is None:
        return None
    return [page_spread(sizes, page, rooms[page.orientation], least_gap) or page for page in pages]


def pages_together(
    sizes: Sequence[Size],
    rooms: Mapping[Orientation, Box2],
    least_gap: float,
    pairs: Sequence[tuple[int, int]] = (),
    most: int | None = None,
) -> Iterator[list[PackedPage]]:
    """Pages that hold all, the fewest first, and of as many those that part the fewest pairs; all
    close together, since spreading them takes longer than finding them.

    Args:
        sizes: in the order in which they look for a place.
        rooms: what a page has for them, by how it lies.
        least_gap: between two of them [mm].
        pairs: indices of what should stand on one page.
        most: so many pages are of use; left out, any number.
    """
    if not all(_fits(size, rooms.values()) for size in sizes):
        return
    orders = _orders(sizes, pairs)
    least = _area(sizes, range(len(sizes)), least_gap)
    page = max((room.width + least_gap) * (room.height + least_gap) for room in rooms.values())

    @cache
    def filled(order: tuple[int, ...], way: Orientation, choice: _Choice) -> PackedPage:
        """A first page of these: of more pages the same one, however the others lie."""
        places = _packed(sizes, order, rooms[way], (least_gap, choice))
        return PackedPage(orientation=way, places=places)

    for count in range(max(1, math.ceil(least / page - 1e-9)), (most or len(sizes)) + 1):
        found: dict[tuple[frozenset[int], ...], list[PackedPage]] = {}
        ways = product(rooms, repeat=min(count, _MOST_TURNED))
        for lie, order, choice in product(ways, orders, _Choice):
            pages = _in_turn(order, lie, count, partial(filled, choice=choice))
            if pages is not None:
                found.setdefault(tuple(frozenset(each.places) for each in pages), pages)
                if not _parted(pages, pairs) or len(found) == _ENOUGH:
                    break
        yield from sorted(found.values(), key=lambda pages: _parted(pages, pairs))


def _area(sizes: Sequence[Size], of: Iterable[int], gap: float) -> float:
    """What these take with a gap at two sides of each [mm2]."""
    return sum((sizes[index][0] + gap) * (sizes[index][1] + gap) for index in of)


def _parted(pages: Sequence[PackedPage], pairs: Sequence[tuple[int, int]]) -> int:
    """So many pairs do not stand on one page."""
    on = {index: number for number, page in enumerate(pages) for index in page.places}
    return sum(on[a] != on[b] for a, b in pairs)


def _orders(sizes: Sequence[Size], pairs: Sequence[tuple[int, int]]) -> list[tuple[int, ...]]:
    """In which they look for a place: as given, by size, what belongs together in turn, others."""
    every = list(range(len(sizes)))
    keys = (
        lambda index: -sizes[index][1],
        lambda index: -sizes[index][0],
        lambda index: -max(sizes[index]),
        lambda index: -sizes[index][0] * sizes[index][1],
    )
    orders = [every, *(sorted(every, key=key) for key in keys)]
    if pairs:
        lots = _lots(len(sizes), pairs)
        orders += [sorted(order, key=lots.__getitem__) for order in orders]
    orders += _shuffled(len(sizes))
    return [tuple(order) for order in orders]


def _lots(count: int, pairs: Sequence[tuple[int, int]]) -> list[int]:
    """The first of all that pairs join it to, for each."""
    lots = list(range(count))
    for a, b in pairs:
        low, high = sorted((lots[a], lots[b]))
        lots = [low if each == high else each for each in lots]
    return lots


def _shuffled(count: int) -> list[list[int]]:
    """Further orders, the same ones every time: what no rule of size finds, one of them may."""
    drawn = random.Random(count)
    return [drawn.sample(range(count), count) for _ in range(_MORE_ORDERS)]


def packed_from_the_top(
    sizes: Sequence[Size], width: float, gap: float, most: float = math.inf
) -> tuple[list[Point2], float] | None:
    """The lower left corner of each below y = 0, and how far down they reach [mm]; none where that
    is further than is of use.

    Args:
        sizes: in the order in which they look for a place, none wider than there is room.
        width: of the room [mm].
        gap: between two of them [mm].
        most: how far down is of use [mm].
    """
    deep = sum(high + gap for _, high in sizes)
    room = Box2(left=0.0, bottom=-deep, right=width, top=0.0)
    places = _packed(sizes, range(len(sizes)), room, (gap, _Choice.HIGHEST), lowest=-most)
    if len(places) < len(sizes):
        return None
    return [places[index] for index in range(len(sizes))], -min(y for _, y in places.values())


class _Choice(Enum):
    """Which of the free rectangles that hold it something stands in."""

    HIGHEST = "the highest, then the one furthest left"
    TIGHTEST = "the one with the least to spare along its tighter side"


_How = tuple[float, _Choice]
"""The gap between two of them [mm], and which free rectangle is taken."""


def _fits(size: Size, rooms: Iterable[Box2]) -> bool:
    return any(size[0] <= room.width and size[1] <= room.height for room in rooms)


def _in_turn(
    order: tuple[int, ...],
    ways: Sequence[Orientation],
    count: int,
    filled: Callable[[tuple[int, ...], Orientation], PackedPage],
) -> list[PackedPage] | None:
    """So many pages in turn that lie as told; none where they do not hold all."""
    pages = []
    for number in range(count):
        page = filled(order, ways[number % len(ways)])
        if page.places:
            pages.append(page)
        order = tuple(index for index in order if index not in page.places)
    return None if order else pages


def page_spread(
    sizes: Sequence[Size], page: PackedPage, room: Box2, least_gap: float
) -> PackedPage | None:
    """The same rectangles as far apart as the page allows, the whole in its middle; none where
    they do not stand even so near.

    Args:
        sizes: of all that there are.
        page: says which of them stand on it.
        room: that the page has.
        least_gap: between two of them [mm].
    """
    given = list(page.places)
    orders = [sorted(given), given, *(sorted(given, key=key) for key in (
        lambda index: -sizes[index][1],
        lambda index: -sizes[index][0],
    ))]  # fmt: skip

    def apart(gap: float) -> dict[int, Point2] | None:
        if _area(sizes, given, gap) > (room.width + gap) * (room.height + gap):
            return None
        tries = (
            _packed(sizes, order, room, (gap, choice)) for order, choice in product(orders, _Choice)
        )
        return next((places for places in tries if len(places) == len(given)), None)

    near = apart(least_gap)
    if near is None:
        return None
    wider = (apart(gap) for gap in _GAPS_MM if gap > least_gap)
    places = next((each for each in wider if each is not None), near)
    right = max(x + sizes[index][0] for index, (x, _) in places.items())
    low = min(y for _, y in places.values())
    dx, dy = (room.right - right) / 2, (low - room.bottom) / 2
    return PackedPage(
        orientation=page.orientation,
        places={index: (x + dx, y - dy) for index, (x, y) in places.items()},
    )


def packed_round(
    sizes: Sequence[Size], taken: Sequence[Box2], room: Box2, gap: float
) -> list[Point2] | None:
    """The lower left corner of each in what others leave of a room; none where one finds no place.

    Args:
        sizes: of what looks for a place, the highest first.
        taken: by others, inside the room [mm].
        room: that there is [mm].
        gap: between any two of them [mm].
    """
    order = sorted(range(len(sizes)), key=lambda index: -sizes[index][1])
    for choice in _Choice:
        places = _packed(sizes, order, room, (gap, choice), taken)
        if len(places) == len(sizes):
            return [places[index] for index in range(len(sizes))]
    return None


def _packed(
    sizes: Sequence[Size],
    order: Sequence[int],
    room: Box2,
    how: _How,
    taken: Sequence[Box2] = (),
    lowest: float = -math.inf,
) -> dict[int, Point2]:
    """A place for each that finds one: the free room is kept as the largest empty rectangles.

    What follows one that would reach below `lowest` [mm] gets no place, nor does that one.
    """
    gap, choice = how
    free = [(room.left, room.bottom - gap, room.right + gap, room.top)]
    for each in taken:
        grown = (each.left - gap, each.bottom - gap, each.right + gap, each.top + gap)
        free = _largest_left(free, grown)
    places: dict[int, Point2] = {}
    for index in order:
        wide, high = sizes[index][0] + gap, sizes[index][1] + gap
        fits = [
            box for box in free if box[2] - box[0] >= wide - 1e-6 and box[3] - box[1] >= high - 1e-6
        ]
        if not fits:
            continue
        if choice is _Choice.HIGHEST:
            best = min(fits, key=lambda box: (-box[3], box[0]))
        else:
            best = min(fits, key=lambda box: min(box[2] - box[0] - wide, box[3] - box[1] - high))
        left, top = best[0], best[3]
        if top - sizes[index][1] < lowest:
            break
        places[index] = (left, top - sizes[index][1])
        used = (left, top - high, left + wide, top)
        free = _largest_left(free, used)
    return places


_NEAR = 1e-6

_Edges = tuple[float, float, float, float]
"""Left, bottom, right and top of a rectangle [mm]: thousands of them are tried for one sheet."""


def _largest_left(free: Sequence[_Edges], taken: _Edges) -> list[_Edges]:
    """The largest rectangles that are free once another is taken out of such ones.

    What it does not touch stays as large: only what it cuts may come to lie in another.
    """
    whole: list[_Edges] = []
    cut: dict[_Edges, None] = {}
    left, bottom, right, top = taken
    for box in free:
        if (
            right - box[0] < _NEAR or box[2] - left < _NEAR
            or top - box[1] < _NEAR or box[3] - bottom < _NEAR
        ):  # fmt: skip
            whole.append(box)
        else:
            cut.update(dict.fromkeys(_without(box, taken)))
    every = [*whole, *cut]
    return whole + [box for box in cut if not any(_holds(each, box) for each in every)]


def _without(box: _Edges, taken: _Edges) -> list[_Edges]:
    """The largest rectangles that are left of one when another is taken out of it."""
    left, bottom, right, top = box
    sides = (
        (left, bottom, min(right, taken[0]), top),
        (max(left, taken[2]), bottom, right, top),
        (left, bottom, right, min(top, taken[1])),
        (left, max(bottom, taken[3]), right, top),
    )
    return [each for each in sides if each[2] - each[0] > _NEAR and each[3] - each[1] > _NEAR]


def _holds(outer: _Edges, inner: _Edges) -> bool:
    """Whether one lies in the other, and is another."""
    return (
        outer is not inner
        and outer[0] <= inner[0] and outer[1] <= inner[1]
        and outer[2] >= inner[2] and outer[3] >= inner[3]
    )  # fmt: skip
