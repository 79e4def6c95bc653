"""Everything wrong with a cutting request, all at once."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from furniture.errors import Problem
from furniture.shop.cutting.blanks import strips_of, suits, widest_for
from furniture.shop.cutting.figure_problems import (
    Called,
    Show,
    by_its_own,
    in_millimetres,
    not_negative,
    positive,
    repeated,
)
from furniture.shop.cutting.match_problems import match_problems, shared_sequences
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

    A part that merely does not fit is no problem here: the plan lists it as unplaced.

    Args:
        show: puts a length [mm] into the words of the maker's unit.
        called: what the maker calls boards, their widths and zones, matches and the saw's figures.
    """
    found: list[Problem] = []
    found.extend(repeated("boards", [board.name for board in request.boards]))
    found.extend(repeated("parts", [part.name for part in request.parts]))
    found.extend(repeated("matches", [match.name for match in request.matches]))
    found.extend(_counts(request, called))
    found.extend(_saw(request.saw, called))
    found.extend(_limits(request))
    for board in request.boards:
        found.extend(_board(board, request.saw, show, called))
    for part in request.parts:
        found.extend(_part(part, request, show))
    for match in request.matches:
        found.extend(match_problems(match, request, show, called))
    found.extend(shared_sequences(request))
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


def _saw(saw: Saw, called: Called) -> Iterator[Problem]:
    for name in (
        "kerf",
        "end_trim",
        "edge_trim",
        "planing_loss",
        "shortest_rip",
        "narrowest_rip",
        "shortest_crosscut",
        "usable_length",
        "usable_width",
    ):
        where = called(f"saw {name}")
        yield from not_negative(where, getattr(saw, f"{name}_mm"), "a saw takes wood, never adds")


def _limits(request: CuttingRequest) -> Iterator[Problem]:
    limits = request.limits
    if not limits.seconds > 0:
        yield Problem(
            parameter="limits seconds",
            given=f"{limits.seconds:g}",
            allowed="more than 0",
            why="a plan takes some time to find",
            remedy="give 1",
        )
    if limits.rounds < 1:
        yield Problem(
            parameter="limits rounds",
            given=str(limits.rounds),
            allowed="1 or more",
            why="the first round finds the first plan",
            remedy="give 1",
        )


def _board(board: Board, saw: Saw, show: Show, called: Called) -> Iterator[Problem]:
    own = f"board {board.name!r}"
    where = called(own)
    yield from positive(f"{where} length", board.length_mm, "a board", show)
    yield from positive(f"{where} thickness", board.thickness_mm, "a board", show)
    yield from not_negative(f"{where} price", board.price, "a board costs nothing or something")
    if not board.stations:
        yield Problem(
            parameter=f"{where} stations",
            given="none",
            allowed="at least one width",
            why="without a width nothing can be laid on it",
            remedy="measure one width",
        )
        return
    for station in board.stations:
        width = f"width at {show(station.at_mm)}"
        at = called(f"{own} {width}")
        at = f"{where} {width}" if at == f"{own} {width}" else at
        yield from positive(at, station.width_mm, "a board", show)
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
        yield from not_negative(f"{where} worth", zone.worth, "wood worth keeping has a price")
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
    yield from positive(f"{where} length", part.length_mm, "a part", show)
    yield from positive(f"{where} width", part.width_mm, "a part", show)
    yield from positive(f"{where} thickness", part.thickness_mm, "a part", show)
    for name, value in (
        ("length_allowance", part.length_allowance_mm),
        ("width_allowance", part.width_allowance_mm),
        ("want_price", part.want_price),
        ("shortest_workpiece", part.shortest_workpiece_mm),
    ):
        yield from not_negative(f"{where} {name}", value, "less than none cannot be left on")
    if part.worth is not None:
        yield from not_negative(f"{where} worth", part.worth, "leaving it out costs something")
    if part.quantity < 1:
        yield Problem(
            parameter=f"{where} quantity",
            given=str(part.quantity),
            allowed="1 or more",
            why="a part that is not wanted need not be listed",
            remedy="leave the part out",
        )
    if not request.boards:
        return
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
    if part.glue_up is None:
        return
    widest = widest_for(part, request.boards, request.saw)
    if 0 < widest < part.least_width_mm - TOUCH and strips_of(part, widest) is None:
        yield Problem(
            parameter=f"{where} glue_up",
            given=f"{show(part.rough_width_mm)} wide, boards up to {show(widest)}",
            allowed=f"strips of at least {show(part.glue_up.narrowest_strip_mm)}, "
            "joints off the cuts",
            why="no set of joints keeps clear of the cuts with strips that wide",
            remedy="a wider board, or narrower bands to keep clear",
        )
