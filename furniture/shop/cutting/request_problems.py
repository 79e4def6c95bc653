"""Everything wrong with a cutting request, all at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

from furniture.errors import Problem
from furniture.shop.cutting.blanks import suits
from furniture.shop.cutting.preferences import boards_for_all, lacks_board, lacks_zone
from furniture.shop.cutting.values import (
    Board,
    CutPart,
    CuttingRequest,
    MatchGroup,
    MatchRule,
    Saw,
    Zone,
)
from furniture.shop.cutting.zones import TOUCH, bounds_of, crosses_itself, usable_frame
from furniture.units import nearest_word

MOST_BOARDS, MOST_COPIES, MOST_ON_A_BOARD, MOST_ZONES = 500, 500, 500, 20_000
"""Boards, copies of parts, zones or widths of one board, and zones of all boards that a plan is
made for. Own rule: what keeps to its time as measured."""

_OR_A_PRICE = "or give the match a price (what keeping it is worth to you) instead of MUST"

Show = Callable[[float], str]


def _in_millimetres(length: float) -> str:
    """A length [mm] with its unit."""
    return f"{length:g} mm"


Called = Callable[[str], str]
"""What messages call a thing, by what the planner calls it, such as `board 'A'`."""


def _by_its_own(name: str) -> str:
    """The planner's own name of a thing, where nobody has another."""
    return name


def problems_of(
    request: CuttingRequest,
    show: Show = _in_millimetres,
    called: Called = _by_its_own,
) -> tuple[Problem, ...]:
    """Every problem that makes the request meaningless; empty when it can be planned.

    A part that merely does not fit is no problem here: the plan lists it as unplaced. Figures are
    read by others, which refuse what no board, part or saw can have.

    Args:
        show: puts a length [mm] into the words of the maker's unit.
        called: what the maker calls boards, their widths and zones, matches and the saw's figures.
    """
    found: list[Problem] = []
    found.extend(_repeated("boards", [board.name for board in request.boards]))
    found.extend(_repeated("parts", [part.name for part in request.parts]))
    found.extend(_repeated("matches", [match.name for match in request.matches]))
    found.extend(_counts(request, called))
    for board in request.boards:
        found.extend(_board(board, request.saw, show, called))
    for part in request.parts:
        found.extend(_part(part, request, show))
    for match in request.matches:
        found.extend(_match(match, request, show, called))
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
    if board.length_mm > 0 and frame.length_mm <= 0:
        yield Problem(
            parameter=called("saw end_trim"),
            given=f"{show(saw.end_trim_mm)} off each end of {own}",
            allowed=f"less than {show(board.length_mm / 2)}",
            why="the trims would take the whole board",
            remedy=f"shorten the trim below {show(board.length_mm / 2)}",
        )
    if frame.width_mm <= 0:
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
    yield from _repeated(f"{called(own)} zones", [zone.name for zone in board.zones])
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
        if box.length_mm <= TOUCH or box.width_mm <= TOUCH:
            yield Problem(
                parameter=where,
                given=f"{show(box.length_mm)} x {show(box.width_mm)}",
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
        for low, size in ((box.x_mm, box.length_mm), (box.y_mm, box.width_mm))
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


def _match(
    match: MatchGroup, request: CuttingRequest, show: Show, called: Called
) -> Iterator[Problem]:
    """Everything wrong with a match; its members, and in how many sequences, is read by others."""
    where = called(f"match {match.name!r}")
    parts = request.part_named
    if not match.members:
        yield Problem(
            parameter=f"{where} members",
            given="none",
            allowed="at least one part",
            why="nothing to match",
            remedy="leave the match out",
        )
        return
    spared = sorted({name for name in match.members if not parts[name].is_must})
    if spared:
        yield Problem(
            parameter=f"{where} members",
            given=f"{', '.join(spared)}, cut only if it pays",
            allowed="parts that must have a place",
            why="a match cannot be kept without one of its members",
            remedy="leave out its worth, or leave it out of the match",
        )
    if match.price is None:
        yield from _impossible(match, [parts[name] for name in match.members], request, where, show)


def _impossible(
    match: MatchGroup, members: list[CutPart], request: CuttingRequest, where: str, show: Show
) -> Iterator[Problem]:
    if lacks_board(match, request):
        yield Problem(
            parameter=where,
            given=f"{len(members)} parts that must come off one board",
            allowed="a board of their species, thick enough for all",
            why="no board suits every member",
            remedy=f"get one board for all, {_OR_A_PRICE}",
        )
        return
    if match.rule is MatchRule.IN_SEQUENCE:
        length = sum(m.rough_length_mm for m in members) + request.saw.kerf_mm * (len(members) - 1)
        width = max(m.least_width_mm for m in members)
        frames = [usable_frame(board, request.saw) for board in boards_for_all(match, request)]
        if not any(f.length_mm >= length - TOUCH and f.width_mm >= width - TOUCH for f in frames):
            yield Problem(
                parameter=where,
                given=f"a sequence of {show(length)} x {show(width)} with its kerfs",
                allowed="up to "
                + " or ".join(
                    sorted({f"{show(f.length_mm)} x {show(f.width_mm)}" for f in frames})
                ),
                why="the sequence has to come off one strip",
                remedy=f"get a board with {show(length)} x {show(width)} clear after trimming, "
                + _OR_A_PRICE,
            )
    if lacks_zone(match, request.boards):
        yield Problem(
            parameter=where,
            given=repr(match.zone) if match.zone else f"any zone of {match.zone_kind.value}",
            allowed="a zone marked on one of the boards",
            why="no board has it",
            remedy=f"{_zone_meant(match, request)}, {_OR_A_PRICE}",
        )


def _zone_meant(match: MatchGroup, request: CuttingRequest) -> str:
    """The zone that a name was meant for, else to mark it."""
    zones = list(dict.fromkeys(zone.name for board in request.boards for zone in board.zones))
    near = nearest_word(match.zone, zones) if match.zone is not None else None
    return f"write {near!r}" if near is not None else "mark the zone on its board"


def _repeated(parameter: str, names: list[str]) -> Iterator[Problem]:
    """Names that stand more than once."""
    for name, count in Counter(names).items():
        if count > 1:
            yield Problem(
                parameter=f"{parameter} {name!r}",
                given=f"{count} of that name",
                allowed="each name once",
                why="the plan calls boards and parts by their names",
                remedy=f"rename {count - 1} of them",
            )
