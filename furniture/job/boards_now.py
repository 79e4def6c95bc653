"""Boards as they are now: what the plan that was worked by has left of them, and what was found."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import shapely

from furniture.job.job import BoardNow, Job
from furniture.job.worked import CutMade, Rect, in_batch
from furniture.pieces import Piece
from furniture.shop.boards.csv_file import sources_in_file
from furniture.shop.boards.given import BoardZone, MeasuredBoard
from furniture.shop.boards.prices import Purse
from furniture.shop.boards.reading import read_boards
from furniture.shop.cutting.values import Board, BoardEnd
from furniture.shop.cutting.zones import width_at
from furniture.units import Reader

_TOUCH_MM = 0.01
_LEAST_MM = 1.0
"""The least width that a board may have [mm]: that of a piece which tapers to nothing."""


def listed_boards(boards: Sequence[MeasuredBoard] | Path | str) -> tuple[MeasuredBoard, ...]:
    """The boards of a script or a file as they were given; none where the file cannot be read.

    Args:
        boards: as main takes them.
    """
    if isinstance(boards, (str, Path)):
        return tuple(each.board for each in sources_in_file(Reader(), Path(boards)))
    return tuple(each for each in boards if isinstance(each, MeasuredBoard))


def boards_now(
    boards: Sequence[MeasuredBoard], job: Job, pieces: Mapping[str, Piece]
) -> tuple[MeasuredBoard, ...]:
    """What there is to cut from.

    A board that the job file measures anew is as it says there. Of any other the cuts count as made
    that free what is off it or keeps its place there, and those that are told; what is left
    goes by its name, with a number where several pieces are left. It costs nothing more.

    Args:
        boards: as they were before the first cut.
        job: what is done.
        pieces: whose other parts are still to be cut, each by the mark of its copy in a batch; a
            piece alone by no mark.
    """
    gone, asked = {*job.begun}, []
    for mark, piece in pieces.items():
        there = piece.done | piece.in_hand
        gone |= {in_batch(mark, name) for name in there}
        asked += [each.part.blank for each in piece.placed if each.instance not in there]
    least = (
        min((blank.length_mm for blank in asked), default=math.inf),
        min((blank.width_mm for blank in asked), default=math.inf),
    )
    found: list[MeasuredBoard] = []
    for each in boards:
        now = job.boards.get(each.name, BoardNow())
        if now.is_gone:
            continue
        told = {**_planed(each.name, job), **now.changed}
        changed = replace(each, **told, zones=(*each.zones, *now.zones))
        places = [at for name, (on, at) in _places(job) if name in gone and on == each.name]
        made = [] if now.changed else _made(each.name, job, places)
        found += _pieces(changed, made, places, least) if made else [changed]
    known = {each.name for each in boards}
    found += [
        MeasuredBoard(name=name, **{"widths": None, **now.changed}, zones=now.zones)
        for name, now in job.boards.items()
        if name not in known and not now.is_gone
    ]
    return tuple(found)


def _planed(board: str, job: Job) -> dict[str, str]:
    """How thick a board is since it was planed, where it was."""
    planed = job.worked.planed
    thick = [planed[key][1] for key in job.operations if key in planed and planed[key][0] == board]
    return {"thickness": _mm(min(thick))} if thick else {}


def laid_already(job: Job) -> frozenset[str]:
    """Every instance that lies on a board that is begun: what is not changed keeps its place.

    Args:
        job: with the packet that was worked by.
    """
    begun = set(job.sawn)
    begun |= {on for name, (on, _) in _places(job) if name in job.begun}
    measured = {name for name, now in job.boards.items() if now.changed or now.is_gone}
    on_begun = {name for name, (on, _) in _places(job) if on in begun - measured}
    together = job.worked.together
    mates = {mate for name in job.begun for mate in together.get(name, ())}
    return frozenset(on_begun | mates | job.begun | job.worked.before.in_hand)


def on_a_fault(boards: Sequence[MeasuredBoard], job: Job) -> frozenset[str]:
    """Instances on whose place a fault was found later.

    Args:
        boards: as they were before the first cut.
        job: what was found.
    """
    found: set[str] = set()
    for each in boards:
        zones = job.boards.get(each.name, BoardNow()).zones
        reader = Reader()
        read = read_boards(reader, [replace(each, zones=zones)], None, Purse(reader)).measured
        shapes = [shapely.Polygon(zone.outline) for board in read for zone in board.board.zones]
        found |= {
            name
            for name, (on, (x, y, length, width)) in _places(job)
            if on == each.name
            and any(shapely.box(x, y, x + length, y + width).intersects(shape) for shape in shapes)
        }
    return frozenset(found)


def _places(job: Job) -> list[tuple[str, tuple[str, Rect]]]:
    return [(name, place) for name, places in job.worked.cut_from.items() for place in places]


def _made(board: str, job: Job, places: Sequence[Rect]) -> list[CutMade]:
    """The cuts of a board that are made: those told, and those that free what is off it."""
    made = job.sawn.get(board, frozenset())
    return [
        cut
        for cut in job.worked.board_cuts.get(board, ())
        if cut.number in made or any(_holds(cut.in_hand, place) for place in places)
    ]


def _holds(outer: Rect, inner: Rect) -> bool:
    return all(
        outer[axis] - _TOUCH_MM <= inner[axis]
        and inner[axis] + inner[axis + 2] <= outer[axis] + outer[axis + 2] + _TOUCH_MM
        for axis in range(2)
    )


def left_over(cuts: Sequence[CutMade], gone: Collection[Rect]) -> list[Rect]:
    """The pieces that a board is in when these cuts are made, but what is off it.

    Args:
        cuts: in their order; the first has the whole board in hand.
        gone: rectangles of what is off it.
    """
    pieces = [cuts[0].in_hand]
    for cut in cuts:
        whole = next(each for each in pieces if _holds(each, cut.in_hand))
        pieces.remove(whole)
        pieces += _halves(whole, cut)
    return [each for each in pieces if not any(_holds(each, place) for place in gone)]


def _halves(whole: Rect, cut: CutMade) -> Iterator[Rect]:
    x, y, length, width = whole
    if cut.is_rip:
        yield x, y, length, cut.at_mm - y
        low = cut.at_mm + cut.kerf_mm
        yield x, low, length, y + width - low
    else:
        yield x, y, cut.at_mm - x, width
        low = cut.at_mm + cut.kerf_mm
        yield low, y, x + length - low, width


def _pieces(
    board: MeasuredBoard, cuts: Sequence[CutMade], gone: Collection[Rect],
    least: tuple[float, float],
) -> list[MeasuredBoard]:  # fmt: skip
    """What is left of a board, as boards; what holds no part that is still asked for is waste."""
    reader = Reader()
    read = read_boards(reader, [board], None, Purse(reader)).measured
    if not read:
        return [board]  # its own problems are told where boards are read
    large = [
        each
        for each in sorted(left_over(cuts, gone))
        if each[2] >= least[0] and _widest(read[0].board, each) >= least[1]
    ]
    names = [board.name] if len(large) == 1 else [
        f"{board.name} {number}" for number in range(1, len(large) + 1)
    ]  # fmt: skip
    return [
        _piece(board, read[0].board, each, name) for each, name in zip(large, names, strict=True)
    ]


def _widest(read: Board, place: Rect) -> float:
    """The greatest width of sound wood in a rectangle of a board that may taper [mm]."""
    x, y, length, width = place
    return min(max(width_at(read, x), width_at(read, x + length)) - y, width)


def _piece(board: MeasuredBoard, read: Board, place: Rect, name: str) -> MeasuredBoard:
    x, y, length, width = place
    marks = sorted({x, x + length, *(s.at_mm for s in read.stations if x < s.at_mm < x + length)})
    widths = tuple(
        (_mm(mark - x), _mm(max(min(width_at(read, mark) - y, width), _LEAST_MM))) for mark in marks
    )
    return replace(
        board,
        name=name,
        length=_mm(length),
        widths=widths,
        price=None,
        sawn_ends=tuple(
            end
            for end, is_sawn in zip(
                BoardEnd, (x > _TOUCH_MM, x + length < read.length_mm - _TOUCH_MM), strict=True
            )
            if is_sawn or end in read.sawn_ends
        ),
        zones=tuple(_zones(board, read, place)),
    )


def _zones(board: MeasuredBoard, read: Board, place: Rect) -> Iterator[BoardZone]:
    """The zones as far as they lie on a piece, from its own end and edge."""
    x, y, length, width = place
    frame = shapely.box(x, y, x + length, y + width)
    for given, zone in zip(board.zones, read.zones, strict=True):
        shape: Any = shapely.Polygon(zone.outline).intersection(frame)
        for part in getattr(shape, "geoms", [shape]):
            if part.is_empty or part.geom_type != "Polygon" or part.area <= _TOUCH_MM:
                continue
            corners = tuple((_mm(cx - x), _mm(cy - y)) for cx, cy in part.exterior.coords[:-1])
            yield replace(
                given, name=zone.name, x=None, y=None, length=None, width=None, corners=corners
            )


def _mm(value: float) -> str:
    return f"{value:.6f} mm"
