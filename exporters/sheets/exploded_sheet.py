"""The exploded view: every part drawn back along the way it goes in, numbered as in the list."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise, product

from exporters.hardware import Thing, things_of
from exporters.sheets.balloons import is_hidden, outline_of, place_balloon, seen_spot
from exporters.sheets.blocks import Block, picture_of
from exporters.sheets.callouts import LINE_SHARE, NoRoomError
from exporters.sheets.geometry import moved_item, scaled_shape
from exporters.sheets.lettering import wrapped
from exporters.sheets.lists_sheet import Listed, bought_numbers, lists_stacked
from exporters.sheets.paper import Box2, Orientation, Scale, frame_of
from exporters.sheets.pens import LineClass
from exporters.sheets.space import Space
from exporters.sheets.values import Anchor, Item, Lettering, Sheet, Stroke
from exporters.sheets.whole_task import Framed, WholeTask, framed, sheet_of
from exporters.views.apart import drawn_apart
from exporters.views.explode import (
    exploded,
    legs_between,
    middle_of,
    shifts_against_assembly,
    trails,
)
from exporters.views.frames import StandardView, standard_frame
from exporters.views.project import project_placed
from exporters.views.values import ViewFrame
from furniture.assembly.values import AssemblyPlan, NoOrder
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector
from furniture.pieces.bought import bought_parts
from furniture.pieces.piece import Distinct, Piece, distinct_parts, extents_of

_MARGIN_MM = 12.0
_EDGE_MM = 3.0
_MOST_LISTS = 0.5
"""Of the height, for lists under the view. Own rule."""
_LEAST_OF_BARE = 0.55
"""How large the view is beside lists, of its size alone. Own rule."""
_ROOM_FOR_BALLOONS = (1.0, 0.93, 0.86, 0.78, 0.7)
"""How much of the page the view may fill; less when balloons find no room. Own rule."""
_HIDDEN = "A dashed leader points at a part that stands hidden behind others."
_NO_NUMBERS = "There are too many parts to number on this view: see the parts list."
_OPENING_SHARE = 0.5
"""How far joints are drawn open without a plan, as a share of the piece's middle extent."""


def exploded_sheet(
    task: WholeTask, lists: tuple[Listed, ...], plan: AssemblyPlan | NoOrder
) -> tuple[Sheet, tuple[Listed, ...]]:
    """The exploded view with balloons, and the lists when they did not fit on it either.

    It is drawn as large as its page allows, not to a scale: no length is taken off it.

    Args:
        task: what to draw.
        lists: that still look for a sheet.
        plan: the order of assembly, or that there is none.

    Raises:
        NoRoomError: it does not fit.
    """
    reason = ""
    opened = _opened(task.piece, plan)
    fewer = [_parts_alone(task.piece, opened)] if opened.things else []
    unnumbered = replace(opened, spots={}, hidden={})
    tries: list[tuple[_Opened, tuple[Listed, ...]]] = [
        (each, ()) for each in (opened, *fewer, unnumbered)
    ]
    for shown, wanted in [(opened, lists), *tries] if lists else tries:
        for fill in _ROOM_FOR_BALLOONS:
            try:
                sheet = _drawn(task, shown, wanted, fill)
            except NoRoomError as error:
                reason = str(error)
                continue
            return sheet, () if wanted else lists
    raise NoRoomError(f"the exploded view does not fit on {task.paper.title}: {reason}")


def exploded_block(task: WholeTask, plan: AssemblyPlan | NoOrder) -> Callable[[float], Block]:
    """Draws the exploded view with its balloons so high [mm], not to a scale.

    Args:
        task: what to draw.
        plan: the order of assembly, or that there is none.
    """
    every = _opened(task.piece, plan)
    ways = [every, *([_parts_alone(task.piece, every)] if every.things else [])]
    bare = _exploded_block(every, 1.0).box

    def drawn(high: float) -> Block:
        if not every.spots:
            raise NoRoomError(_NO_NUMBERS)
        for opened, fill in product(ways, _ROOM_FOR_BALLOONS):
            factor = (high - 2 * _MARGIN_MM) / bare.height * fill
            block = _exploded_block(opened, factor)
            room = block.box.grown(_MARGIN_MM)
            try:
                balloons = _balloons(task, opened, block, room, None)
            except NoRoomError:
                continue
            block = block.with_items(balloons)
            words = f"exploded view. {_HIDDEN}" if opened.hidden else "exploded view"
            middle = (block.box.left + block.box.right) / 2
            lines = wrapped(words, task.style.text_height_mm, block.box.width)
            low, height = block.box.bottom - 2.0, task.style.text_height_mm
            said: list[Item] = [
                Lettering(
                    text=line,
                    at=(middle, low - number * height * LINE_SHARE),
                    height=height,
                    anchor=Anchor.CENTRE,
                )
                for number, line in enumerate(lines, start=1)
            ]
            return block.with_items(said)
        raise NoRoomError("the exploded view is too small for its numbers")

    return drawn


def _balloons(
    task: WholeTask,
    opened: _Opened,
    block: Block,
    room: Box2,
    keep_out: Box2 | None,
) -> list[Item]:
    """A balloon for each part and each thing, clear of the view and of one another.

    Raises:
        NoRoomError: one finds no place.
    """
    space = Space(room)
    space.add(block.items)
    over = outline_of(opened.moved, block.to_paper)
    items: list[Item] = []
    counts = [each.quantity for each in distinct_parts(task.piece)]
    counts += [each.quantity for each in bought_parts(task.piece)]
    for number, spot in sorted((opened.spots | opened.hidden).items()):
        leader = LineClass.HIDDEN if number in opened.hidden else LineClass.LEADER
        items += place_balloon(
            number, counts[number - 1], block.to_paper(spot), space, task.style, keep_out, over,
            leader,
        )  # fmt: skip
    return items


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """A page begun, and how large the view can be on it."""

    orientation: Orientation
    begun: Framed
    items: list[Item]
    region: Box2
    factor: float


def _drawn(task: WholeTask, opened: _Opened, lists: tuple[Listed, ...], fill: float) -> Sheet:
    note = _NO_NUMBERS if not opened.spots else _HIDDEN
    task = replace(task, notes=(note,))
    has_note = not opened.spots or bool(opened.hidden)
    page = max(_pages(task, opened, lists, has_note), key=lambda each: each.factor)
    if lists:
        bare = max(_pages(task, opened, (), has_note), key=lambda each: each.factor)
        if page.factor < _LEAST_OF_BARE * bare.factor:
            raise NoRoomError("the lists leave the view little room")
    scale = Scale(round(1.0 / (page.factor * fill), 3))
    block = _exploded_block(opened, scale.factor)
    middle, at = page.region.centre, block.box.centre
    block = block.moved(middle[0] - at[0], middle[1] - at[1])
    frame = frame_of(task.paper, page.orientation)
    items = [*page.items, *block.items]
    items += _balloons(task, opened, block, frame, page.begun.title)
    return sheet_of(task, page.orientation, scale, items)


def _pages(
    task: WholeTask, opened: _Opened, lists: tuple[Listed, ...], has_note: bool
) -> Iterator[_Page]:
    """The page either way round.

    Raises:
        NoRoomError: the lists fit on neither.
    """
    bare = _exploded_block(opened, 1.0).box
    reason: NoRoomError | None = None
    for orientation in (Orientation.PORTRAIT, Orientation.LANDSCAPE):
        begun = framed(task, orientation, None, has_note)
        try:
            items, region = _with_lists(task, begun, lists)
        except NoRoomError as error:
            reason = error
            continue
        room = region.grown(-_MARGIN_MM)
        factor = min(room.width / bare.width, room.height / bare.height)
        if factor > 0.0:
            yield _Page(
                orientation=orientation,
                begun=begun,
                items=items,
                region=region,
                factor=factor,
            )
            reason = None
    if reason is not None:
        raise reason


def _with_lists(
    task: WholeTask, begun: Framed, lists: tuple[Listed, ...]
) -> tuple[list[Item], Box2]:
    items = list(begun.items)
    region = begun.region
    if lists:
        drawn, box = lists_stacked(lists, region.width - 2 * _EDGE_MM, task.style)
        if box.height > _MOST_LISTS * region.height:
            raise NoRoomError("the lists do not fit beside the view")
        top = region.bottom + _EDGE_MM + box.height
        items += [moved_item(item, region.left + _EDGE_MM, top) for item in drawn]
        region = replace(region, bottom=top)
    return items, region


@dataclass(frozen=True, slots=True, kw_only=True)
class _Opened:
    """Parts and things moved apart, and for each number of the lists a spot of it.

    `hidden` are those that stand behind others, and `spots` those that can be seen.
    """

    frame: ViewFrame
    placed: tuple[Placed, ...]
    shifts: dict[str, Vector]
    legs: tuple[tuple[Vector, Vector], ...]
    moved: tuple[Placed, ...]
    things: tuple[Thing, ...]
    spots: dict[int, Vector]
    hidden: dict[int, Vector]


def _opened(piece: Piece, plan: AssemblyPlan | NoOrder) -> _Opened:
    """Drawn apart along the plan, seen from the side where most shows; else joint by joint."""
    frames = [
        standard_frame(which)
        for which in (StandardView.ISOMETRIC_RIGHT, StandardView.ISOMETRIC_LEFT)
    ]
    if isinstance(plan, NoOrder):
        low, high = extents_of(piece)
        middle_size = sorted(b - a for a, b in zip(low, high, strict=True))[1]
        distance = _OPENING_SHARE * middle_size
        shifts = shifts_against_assembly(piece.placed, piece.joinings, distance)
        frame, legs = frames[0], legs_between(piece.joinings, shifts)
    else:
        found = [drawn_apart(piece.placed, piece.joinings, plan, each) for each in frames]
        frame, best = min(zip(frames, found, strict=True), key=lambda pair: pair[1].cost)
        shifts, legs = (
            best.shifts,
            tuple(part for leg in best.legs for part in pairwise(leg.points)),
        )
    moved = exploded(piece.placed, shifts)
    apart = (each.apart(shifts) for each in things_of(piece))
    things = tuple(each for each in apart if each is not None)
    eye = frame.towards_eye
    spots = _spots(distinct_parts(piece), moved, frame)
    hidden = {
        number: middle_of(next(one for one in moved if one.instance == each.instances[0]))
        for number, each in enumerate(distinct_parts(piece), start=1)
        if number not in spots
    }
    numbers = bought_numbers(piece)
    for thing in things:
        if thing.bought is None or numbers[thing.bought] in spots:
            continue
        number = numbers[thing.bought]
        (hidden if is_hidden(moved, thing.middle, eye) else spots).setdefault(number, thing.middle)
    return _Opened(
        frame=frame,
        placed=piece.placed,
        shifts=shifts,
        legs=legs,
        moved=moved,
        things=things,
        spots=spots,
        hidden={number: spot for number, spot in hidden.items() if number not in spots},
    )


def _parts_alone(piece: Piece, opened: _Opened) -> _Opened:
    """The same with numbers at the parts alone, where those of all find no room."""
    count = len(distinct_parts(piece))
    spots, hidden = (
        {number: spot for number, spot in each.items() if number <= count}
        for each in (opened.spots, opened.hidden)
    )
    return replace(opened, spots=spots, hidden=hidden)


def _spots(
    parts: tuple[Distinct, ...], moved: tuple[Placed, ...], frame: ViewFrame
) -> dict[int, Vector]:
    names = [each.instance for each in moved]
    found = {}
    for number, each in enumerate(parts, start=1):
        for name in each.instances:
            spot = seen_spot(moved, names.index(name), frame.towards_eye)
            if spot is not None:
                found[number] = spot
                break
    return found


def _exploded_block(opened: _Opened, factor: float) -> Block:
    view = project_placed(opened.moved, opened.frame, opened.things)
    block = picture_of(view, factor)
    lines = trails(opened.placed, opened.shifts, opened.frame, opened.legs)
    return block.with_items(
        [Stroke(shape=scaled_shape(line, factor), line_class=LineClass.CENTRE) for line in lines]
    )
