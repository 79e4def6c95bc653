"""Everything wrong with a cutting request, all at once."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from furniture.errors import Problem
from furniture.shop.cutting.blanks import suits
from furniture.shop.cutting.figure_problems import (
    Called,
    Show,
    by_its_own,
    in_millimetres,
    repeated,
)
from furniture.shop.cutting.match_problems import match_problems
from furniture.shop.cutting.values import (
    Board,
    CutPart,
    CuttingRequest,
    Saw,
    Zone,
)
from furniture.shop.cutting.zones import (
    TOUCH,
    bounds_of,
    crosses_itself,
    usable_frame,
)

MOST_BOARDS, MOST_COPIES, MOST_ON_A_BOARD, MOST_ZONES = 500, 500, 500, 20_000
"""Boards, copies of parts, zones or widths of one board, and zones of all boards that a plan is
made for. Own rule: what keeps to its time as measured."""


def problems_of(
    request: CuttingRequest,
    show: Callable[[float], str] = in_millimetres,
    called: Called = by_its_own,
) -> tuple[Problem, ...]:
    """Every problem that makes the request meaningless; empty when it can be planned.

    A part that merely does not fit is no problem here: the plan lists it as unplaced. Figures are
    read by others, which refuse what no board, part or saw can have.

    Args:
        show: puts a length [mm] into the words of the maker's unit.
        called: what the maker calls boards, their widths and zones, matches and the saw's figures.
    """
    found: list[Problem] = []
    found.extend(repeated("boards", [board.name for board in request.boards]))
    found.extend(repeated("parts", [part.name for part in request.parts]))
    found.extend(repeated("matches", [match.name for match in request.matches]))
    found.extend(_counts(request, called))
    for board in request.boards:
        found.extend(_board(board, request.saw, show, called))
    for part in request.parts:
        found.extend(_part(part, request, show))
    for match in request.matches:
        found.extend(match_problems(match, request, show, called))
    return tuple(found)


def _counts(request: CuttingRequest, called: Called) -> Iterator[Problem]:
    """More of anything than a plan is found for while a maker waits."""
    counted = [
        ("boards", len(request.boards), MOST_BOARDS, "plan on the boards that you mean to use"),
        ("parts", request.copies, MOST_COPIES, "plan some of the parts"),
        (
            "zones of all boards",
            sum(len(board.zones) for board in request.boards),
            MOST_ZONES,
            "plan on the boards that you mean to use, or mark neighbouring faults as one zone",
        ),
    ]
    for board in request.boards:
        name = called(f"board {board.name!r}")
        merge = "mark neighbouring faults as one zone"
        counted.append((f"{name} zones", len(board.zones), MOST_ON_A_BOARD, merge))
        fewer = "leave out those that lie on the line of their neighbours"
        counted.append((f"{name} widths", len(board.stations), MOST_ON_A_BOARD, fewer))
    for parameter, count, most, remedy in counted:
        if count > most:
            yield Problem(
                parameter=parameter,
                given=str(count),
                allowed=f"up to {most}",
                why="with more the plan is not found in the time given",
                remedy=remedy,
            )


def _board(board: Board, saw: Saw, show: Show, called: Called) -> Iterator[Problem]:
    own = f"board {board.name!r}"
    where = called(own)
    for station in board.stations:
        width = f"width at {show(station.at_mm)}"
        at = called(f"{own} {width}")
        at = f"{where} {width}" if at == f"{own} {width}" else at
        if not -TOUCH <= station.at_mm <= board.length_mm + TOUCH:
            yield Problem(
                parameter=at,
                given=f"{show(station.at_mm)} from the end",
                allowed=f"0 to {show(board.length_mm)}",
                why="a width is measured on the board",
                remedy=f"write '{show(min(max(station.at_mm, 0.0), board.length_mm))}'",
            )
    yield from _crossing_widths(board, show, called)
    frame = usable_frame(board, saw)
    if board.length_mm > 0 and frame.length <= 0:
        yield Problem(
            parameter=called("saw end_trim"),
            given=f"{show(saw.end_trim_mm)} off each end of {own}",
            allowed=f"less than {show(board.length_mm / 2)}",
            why="the trims would take the whole board",
            remedy=f"shorten the trim below {show(board.length_mm / 2)}",
        )
    if frame.width <= 0:
        yield Problem(
            parameter=called("saw edge_trim"),
            given=f"{show(saw.edge_trim_mm)} off each edge of {own}",
            allowed=f"less than {show(board.greatest_width_mm / 2)}",
            why="the trims would take the whole board",
            remedy=f"narrow the trim below {show(board.greatest_width_mm / 2)}",
        )
    yield from _zones(board, show, called)


def _crossing_widths(board: Board, show: Show, called: Called) -> Iterator[Problem]:
    where = called(f"board {board.name!r}")
    at: dict[float, float] = {}
    for station in board.stations:
        other = at.setdefault(station.at_mm, station.width_mm)
        if abs(other - station.width_mm) > TOUCH:
            yield Problem(
                parameter=f"{where} widths",
                given=f"{show(other)} and {show(station.width_mm)}, both at {show(station.at_mm)}",
                allowed="one width at one place",
                why="widths that cross leave the edge undefined",
                remedy=f"keep the smaller, {show(min(other, station.width_mm))}",
            )
    places = [station.at_mm for station in board.stations]
    if places != sorted(places):
        yield Problem(
            parameter=f"{where} widths",
            given="at " + ", ".join(map(show, places)),
            allowed="from one end to the other, in order",
            why="widths that cross leave the edge undefined",
            remedy="give them at " + ", ".join(map(show, sorted(places))),
        )


def _zones(board: Board, show: Show, called: Called) -> Iterator[Problem]:
    own, widest = f"board {board.name!r}", board.greatest_width_mm
    yield from repeated(f"{called(own)} zones", [zone.name for zone in board.zones])
    for zone in board.zones:
        where = called(f"{own} zone {zone.name!r}")
        if len(zone.outline) < 3:
            yield Problem(
                parameter=where,
                given=f"{len(zone.outline)} corners",
                allowed="3 or more",
                why="fewer corners enclose nothing",
                remedy="give its corners in order, or a rectangle",
            )
            continue
        if crosses_itself(zone.outline):
            yield Problem(
                parameter=where,
                given="an outline that crosses itself",
                allowed="corners in order round the zone",
                why="it cannot be told what lies inside",
                remedy="put the corners in order",
            )
        box = bounds_of(zone.outline)
        if box.length <= TOUCH or box.width <= TOUCH:
            yield Problem(
                parameter=where,
                given=f"{show(box.length)} x {show(box.width)}",
                allowed="some length and some width",
                why="a line is no zone",
                remedy=f"give it the width that must be kept off, say {show(5.0)}",
            )
        if any(
            not (-TOUCH <= x <= board.length_mm + TOUCH) or not (-TOUCH <= y <= widest + TOUCH)
            for x, y in zone.outline
        ):
            yield Problem(
                parameter=where,
                given=_how_it_lies(zone, show),
                allowed=f"x 0 to {show(board.length_mm)}, y 0 to {show(board.greatest_width_mm)}",
                why=f"board {board.name!r} is {show(board.length_mm)} long and "
                f"{show(board.greatest_width_mm)} wide: some of it lies off the board",
                remedy="measure x from the board's first end and y from its straight edge",
            )


def _how_it_lies(zone: Zone, show: Show) -> str:
    """Where a zone begins and ends along and across its board."""
    box = bounds_of(zone.outline)
    x, y = (
        f"{show(low)} to {show(low + size)}"
        for low, size in ((box.x, box.length), (box.y, box.width))
    )
    return f"{zone.kind.value} from x {x} and y {y}"


def _part(part: CutPart, request: CuttingRequest, show: Show) -> Iterator[Problem]:
    where = f"part {part.name!r}"
    same = [board for board in request.boards if board.species == part.species]
    if same and not any(suits(board, part, request.saw) for board in same):
        thickest = max(same, key=lambda board: board.thickness_mm)
        needed = part.thickness_mm + request.saw.planing_loss_mm
        yield Problem(
            parameter=f"{where} thickness",
            given=f"{show(part.thickness_mm)} and {show(request.saw.planing_loss_mm)} to plane off",
            allowed=f"up to {show(thickest.thickness_mm)}, as {thickest.name!r} measures",
            why="a board thinner than the part cannot be planed to it",
            remedy=f"a board of {part.species} at least {show(needed)} thick",
        )
