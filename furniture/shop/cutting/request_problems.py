"""Everything wrong with a cutting request, all at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

from furniture.errors import Problem
from furniture.shop.cutting.blanks import strips_of, suits, widest_for
from furniture.shop.cutting.preferences import lacks_zone
from furniture.shop.cutting.values import (
    Board,
    CutPart,
    CuttingRequest,
    MatchGroup,
    MatchRule,
    Saw,
)
from furniture.shop.cutting.zones import (
    TOUCH,
    bounds_of,
    crosses_itself,
    usable_frame,
    width_at,
)

Show = Callable[[float], str]

MOST_BOARDS, MOST_COPIES, MOST_ON_A_BOARD = 500, 500, 500
"""Boards, copies of parts, and zones or widths of one board that a plan is made for. Own rule:
what keeps to its time as measured."""


def in_millimetres(length: float) -> str:
    """A length [mm] with its unit."""
    return f"{length:g} mm"


def problems_of(
    request: CuttingRequest, show: Callable[[float], str] = in_millimetres
) -> tuple[Problem, ...]:
    """Every problem that makes the request meaningless; empty when it can be planned.

    A part that merely does not fit is no problem here: the plan lists it as unplaced.

    Args:
        request: as given.
        show: puts a length [mm] into the words of the maker's unit.
    """
    found: list[Problem] = []
    found.extend(_repeated("boards", [board.name for board in request.boards]))
    found.extend(_repeated("parts", [part.name for part in request.parts]))
    found.extend(_repeated("matches", [match.name for match in request.matches]))
    found.extend(_counts(request))
    found.extend(_saw(request.saw))
    found.extend(_limits(request))
    for board in request.boards:
        found.extend(_board(board, request.saw, show))
    for part in request.parts:
        found.extend(_part(part, request, show))
    for match in request.matches:
        found.extend(_match(match, request, show))
    found.extend(_shared_sequences(request))
    return tuple(found)


def _counts(request: CuttingRequest) -> Iterator[Problem]:
    """More of anything than a plan is found for while a maker waits."""
    counted = [
        ("boards", len(request.boards), MOST_BOARDS, "plan on the boards that you mean to use"),
        ("parts", sum(p.quantity for p in request.parts), MOST_COPIES, "plan some of the parts"),
    ]
    for board in request.boards:
        name = f"board {board.name!r}"
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


def _repeated(parameter: str, names: list[str]) -> Iterator[Problem]:
    for name, count in Counter(names).items():
        if count > 1:
            yield Problem(
                parameter=f"{parameter} {name!r}",
                given=f"{count} of that name",
                allowed="each name once",
                why="the plan calls boards and parts by their names",
                remedy=f"rename {count - 1} of them",
            )


def _positive(parameter: str, value: float, what: str, show: Show) -> Iterator[Problem]:
    if not value > 0:
        yield Problem(
            parameter=parameter,
            given=show(value),
            allowed=f"more than {show(0.0)}",
            why=f"{what} has to be there to be cut",
            remedy="give what was measured",
        )


def _not_negative(parameter: str, value: float, why: str) -> Iterator[Problem]:
    if not value >= 0:
        yield Problem(
            parameter=parameter,
            given=f"{value:g}",
            allowed="0 or more",
            why=why,
            remedy="give 0 for none",
        )


def _saw(saw: Saw) -> Iterator[Problem]:
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
        yield from _not_negative(f"saw {name}", getattr(saw, name), "a saw takes wood, never adds")


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


def _board(board: Board, saw: Saw, show: Show) -> Iterator[Problem]:
    where = f"board {board.name!r}"
    yield from _positive(f"{where} length", board.length, "a board", show)
    yield from _positive(f"{where} thickness", board.thickness, "a board", show)
    yield from _not_negative(f"{where} price", board.price, "a board costs nothing or something")
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
        yield from _positive(f"{where} width at {show(station.at)}", station.width, "a board", show)
        if not -TOUCH <= station.at <= board.length + TOUCH:
            yield Problem(
                parameter=f"{where} width at {show(station.at)}",
                given=f"{show(station.at)} from the end",
                allowed=f"0 to {show(board.length)}",
                why="a width is measured on the board",
                remedy=show(min(max(station.at, 0.0), board.length)),
            )
    yield from _crossing_widths(board, show)
    frame = usable_frame(board, saw)
    if board.length > 0 and frame.length <= 0:
        yield Problem(
            parameter="saw end_trim",
            given=f"{show(saw.end_trim)} off each end of {where}",
            allowed=f"less than {show(board.length / 2)}",
            why="the trims would take the whole board",
            remedy=f"shorten the trim below {show(board.length / 2)}",
        )
    if frame.width <= 0:
        yield Problem(
            parameter="saw edge_trim",
            given=f"{show(saw.edge_trim)} off each edge of {where}",
            allowed=f"less than {show(board.greatest_width / 2)}",
            why="the trims would take the whole board",
            remedy=f"narrow the trim below {show(board.greatest_width / 2)}",
        )
    yield from _zones(board, show)


def _crossing_widths(board: Board, show: Show) -> Iterator[Problem]:
    at: dict[float, float] = {}
    for station in board.stations:
        other = at.setdefault(station.at, station.width)
        if abs(other - station.width) > TOUCH:
            yield Problem(
                parameter=f"board {board.name!r} widths",
                given=f"{show(other)} and {show(station.width)}, both at {show(station.at)}",
                allowed="one width at one place",
                why="widths that cross leave the edge undefined",
                remedy=f"keep the smaller, {show(min(other, station.width))}",
            )
    places = [station.at for station in board.stations]
    if places != sorted(places):
        yield Problem(
            parameter=f"board {board.name!r} widths",
            given="at " + ", ".join(map(show, places)),
            allowed="from one end to the other, in order",
            why="widths that cross leave the edge undefined",
            remedy="give them at " + ", ".join(map(show, sorted(places))),
        )


def _zones(board: Board, show: Show) -> Iterator[Problem]:
    yield from _repeated(f"board {board.name!r} zones", [zone.name for zone in board.zones])
    for zone in board.zones:
        where = f"board {board.name!r} zone {zone.name!r}"
        yield from _not_negative(f"{where} worth", zone.worth, "wood worth keeping has a price")
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
        outside = [
            f"({show(x)}, {show(y)})"
            for x, y in zone.outline
            if not (-TOUCH <= x <= board.length + TOUCH)
            or not (-TOUCH <= y <= max(width_at(board, x), board.greatest_width) + TOUCH)
        ]
        if outside:
            yield Problem(
                parameter=where,
                given="corners off the board at " + ", ".join(outside),
                allowed=f"x 0 to {show(board.length)}, y 0 to {show(board.greatest_width)}",
                why="zones are given in the board's own coordinates",
                remedy="measure x from the board's first end and y from its straight edge",
            )


def _part(part: CutPart, request: CuttingRequest, show: Show) -> Iterator[Problem]:
    where = f"part {part.name!r}"
    yield from _positive(f"{where} length", part.length, "a part", show)
    yield from _positive(f"{where} width", part.width, "a part", show)
    yield from _positive(f"{where} thickness", part.thickness, "a part", show)
    for name in ("length_allowance", "width_allowance", "want_price", "shortest_workpiece"):
        value: float = getattr(part, name)
        yield from _not_negative(f"{where} {name}", value, "less than none cannot be left on")
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
        thickest = max(same, key=lambda board: board.thickness)
        needed = part.thickness + request.saw.planing_loss
        yield Problem(
            parameter=f"{where} thickness",
            given=f"{show(part.thickness)} and {show(request.saw.planing_loss)} to plane off",
            allowed=f"up to {show(thickest.thickness)}, as {thickest.name!r} measures",
            why="a board thinner than the part cannot be planed to it",
            remedy=f"a board of {part.species} at least {show(needed)} thick",
        )
    widest = widest_for(part, request.boards, request.saw)
    if 0 < widest < part.least_width - TOUCH and part.glue_up and strips_of(part, widest) is None:
        yield Problem(
            parameter=f"{where} glue_up",
            given=f"{show(part.rough_width)} wide, boards up to {show(widest)}",
            allowed=f"strips of at least {show(part.glue_up.narrowest_strip)}, joints off the cuts",
            why="no set of joints keeps clear of the cuts with strips that wide",
            remedy="a wider board, or narrower bands to keep clear",
        )


def _match(match: MatchGroup, request: CuttingRequest, show: Show) -> Iterator[Problem]:
    where = f"match {match.name!r}"
    parts = {part.name: part for part in request.parts}
    unknown = sorted({name for name in match.members if name not in parts})
    if match.price is not None:
        yield from _not_negative(f"{where} price", match.price, "a match is wanted or it is not")
    if unknown:
        yield Problem(
            parameter=f"{where} members",
            given=", ".join(unknown),
            allowed="names of parts in the request",
            why="only parts that are cut can match",
            remedy="correct the names",
        )
        return
    if not match.members:
        yield Problem(
            parameter=f"{where} members",
            given="none",
            allowed="at least one part",
            why="nothing to match",
            remedy="leave the match out",
        )
        return
    for name, count in Counter(match.members).items():
        if count > parts[name].quantity:
            yield Problem(
                parameter=f"{where} members",
                given=f"{count} of {name!r}",
                allowed=f"up to {parts[name].quantity}, its quantity",
                why="a copy can stand in the sequence once",
                remedy=f"raise the quantity of {name!r} to {count}",
            )
    if match.price is None:
        yield from _impossible(match, [parts[name] for name in match.members], request, where, show)


def _shared_sequences(request: CuttingRequest) -> Iterator[Problem]:
    sequences = [m for m in request.matches if m.rule is MatchRule.IN_SEQUENCE]
    used = Counter(name for match in sequences for name in match.members)
    for part in request.parts:
        alone = max((Counter(m.members)[part.name] for m in sequences), default=0)
        if alone <= part.quantity < used[part.name]:
            yield Problem(
                parameter=f"matches of part {part.name!r}",
                given=f"{used[part.name]} copies in sequences",
                allowed=f"up to {part.quantity}, its quantity",
                why="a copy comes off one strip only",
                remedy=f"name it in one sequence, or raise its quantity to {used[part.name]}",
            )


def _impossible(
    match: MatchGroup, members: list[CutPart], request: CuttingRequest, where: str, show: Show
) -> Iterator[Problem]:
    together = [
        board
        for board in request.boards
        if all(suits(board, member, request.saw) for member in members)
    ]
    if match.rule in (MatchRule.IN_SEQUENCE, MatchRule.SAME_BOARD) and not together:
        yield Problem(
            parameter=where,
            given=f"{len(members)} parts that must come off one board",
            allowed="a board of their species, thick enough for all",
            why="no board suits every member",
            remedy="make the match a preference with a price, or get one board for all",
        )
        return
    if match.rule is MatchRule.IN_SEQUENCE:
        length = sum(m.rough_length for m in members) + request.saw.kerf * (len(members) - 1)
        width = max(m.least_width for m in members)
        frames = [usable_frame(board, request.saw) for board in together]
        if not any(f.length >= length - TOUCH and f.width >= width - TOUCH for f in frames):
            yield Problem(
                parameter=where,
                given=f"a sequence of {show(length)} x {show(width)} with its kerfs",
                allowed="up to "
                + " or ".join(sorted({f"{show(f.length)} x {show(f.width)}" for f in frames})),
                why="the sequence has to come off one strip",
                remedy=f"a board with {show(length)} x {show(width)} clear after trimming",
            )
    if lacks_zone(match, request.boards):
        yield Problem(
            parameter=where,
            given=match.zone or f"any zone of {match.zone_kind.value}",
            allowed="a zone marked on one of the boards",
            why="no board has it",
            remedy="mark the zone on its board",
        )
