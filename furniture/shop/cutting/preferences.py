"""What a place costs beside the wood: matches broken, figure wasted, wishes not met."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from furniture.shop.cutting.blanks import suits
from furniture.shop.cutting.plan import Rectangle
from furniture.shop.cutting.values import (
    Board,
    CutPart,
    CuttingRequest,
    MatchGroup,
    MatchRule,
    OddOne,
    ZoneKind,
)
from furniture.shop.cutting.zones import (
    TOUCH,
    area_of_outline,
    bounds_of,
    is_within,
    overlap_area,
    width_at,
)


@dataclass(frozen=True, slots=True)
class Home:
    """Where a match has settled: the board's index, and the zone's name when it matters."""

    board: int
    zone: str | None = None


def odd_name(match: MatchGroup, parts: dict[str, CutPart]) -> str | None:
    """The part that may stay out of the match, by its rule; None when none may, as of one alone."""
    if len(match.members) < 2:
        return None

    def size(name: str) -> float:
        return parts[name].length_mm * parts[name].width_mm

    match match.odd_one:
        case OddOne.NONE:
            return None
        case OddOne.FIRST_NAMED:
            return match.members[0]
        case OddOne.LAST_NAMED:
            return match.members[-1]
        case OddOne.SMALLEST:
            return min(match.members, key=size)
        case OddOne.LARGEST:
            return max(match.members, key=size)


def price_of_place(part: CutPart, place: Rectangle, board: Board, asked: frozenset[str]) -> float:
    """What a part pays for lying here: its own wish not met, and figure it covers unasked [money].

    asked: zones, by name, that one of the part's matches is meant to use.
    """
    return wish_missed(part, place, board) + figure_used(part, place, board, asked)


def wish_missed(part: CutPart, place: Rectangle, board: Board) -> float:
    """What a part pays for not lying mostly in the kind of zone that it wants [money]."""
    if part.wants is None:
        return 0.0
    covered = sum(overlap_area(z.outline, place) for z in board.zones if z.kind is part.wants)
    return part.want_price if covered < part.wished_share * place.area_mm2 - TOUCH else 0.0


def figure_used(part: CutPart, place: Rectangle, board: Board, asked: frozenset[str]) -> float:
    """What a part pays for the zones worth keeping that it covers unasked [money].

    asked: zones, by name, that one of the part's matches is meant to use.
    """
    return sum(
        zone.worth * overlap_area(zone.outline, place) / area_of_outline(zone.outline)
        for zone in board.zones
        if zone.worth > 0 and zone.kind is not part.wants and zone.name not in asked
    )


def lacks_zone(match: MatchGroup, boards: Sequence[Board]) -> bool:
    """Whether a match needs a zone and no board has one that it means."""
    return match.rule.asks_for_zone and not any(zones_meant(match, board) for board in boards)


def lacks_board(match: MatchGroup, request: CuttingRequest) -> bool:
    """Whether a match wants all its members off one board, and none suits them all."""
    return match.rule.is_one_board and not boards_for_all(match, request)


def boards_for_all(match: MatchGroup, request: CuttingRequest) -> list[Board]:
    """The boards that suit every member of a match."""
    members = [part for part in request.parts if part.name in match.members]
    return [
        board
        for board in request.boards
        if all(suits(board, member, request.saw) for member in members)
    ]


def zones_meant(match: MatchGroup, board: Board) -> list[tuple[str, Rectangle]]:
    """The zones of this board that the match may use: name and bounding rectangle."""
    if match.zone is not None:
        return [(z.name, bounds_of(z.outline)) for z in board.zones if z.name == match.zone]
    return [(z.name, bounds_of(z.outline)) for z in board.zones if z.kind is match.zone_kind]


def is_centred(place: Rectangle, zone: Rectangle, tolerance: float) -> bool:
    """Whether both centres agree within the tolerance [mm]."""
    return (
        abs(place.x_mm + place.length_mm / 2 - zone.x_mm - zone.length_mm / 2) <= tolerance + TOUCH
        and abs(place.y_mm + place.width_mm / 2 - zone.y_mm - zone.width_mm / 2)
        <= tolerance + TOUCH
    )


def pale_edges(board: Board, place: Rectangle) -> tuple[float, float]:
    """How wide the sapwood is along the near and the far edge of a place on the board [mm].

    A zone counts when its bounding rectangle crosses the whole length of the place.
    """
    near = far = 0.0
    middle = place.y_mm + place.width_mm / 2
    for zone in board.zones:
        if zone.kind is not ZoneKind.SAPWOOD:
            continue
        box = bounds_of(zone.outline)
        if box.x_mm > place.x_mm + TOUCH or box.x_end_mm < place.x_end_mm - TOUCH:
            continue
        if box.y_mm <= place.y_mm + TOUCH and box.y_end_mm < middle:
            near = max(near, box.y_end_mm - place.y_mm)
        elif box.y_end_mm >= place.y_end_mm - TOUCH and box.y_mm > middle:
            far = max(far, place.y_end_mm - box.y_mm)
    return near, far


def settles(
    match: MatchGroup, home: Home | None, board_index: int, board: Board, place: Rectangle
) -> Home | None:
    """The match's home with this member added; None when the member breaks the match."""
    match match.rule:
        case MatchRule.IN_SEQUENCE:
            return home or Home(board_index)
        case MatchRule.SAME_BOARD:
            if home is not None and home.board != board_index:
                return None
            return Home(board_index)
        case MatchRule.SAME_ZONE:
            for name, zone in zones_meant(match, board):
                if home is not None and (home.board, home.zone) != (board_index, name):
                    continue
                if is_within(place, zone):
                    return Home(board_index, name)
            return None
        case MatchRule.CENTRED_ON_FIGURE:
            for name, zone in zones_meant(match, board):
                if is_centred(place, zone, match.tolerance_mm):
                    return Home(board_index, name)
            return None
        case MatchRule.EQUAL_PALE_EDGES:
            near, far = pale_edges(board, place)
            if near <= TOUCH or far <= TOUCH or abs(near - far) > match.tolerance_mm + TOUCH:
                return None
            return Home(board_index)


def pins_for(match: MatchGroup, board: Board, length: float, width: float) -> list[Rectangle]:
    """Places on this board where a blank of that size [mm] keeps a match that fixes its place."""
    if match.rule is MatchRule.CENTRED_ON_FIGURE:
        return [
            Rectangle(
                x_mm=zone.x_mm + (zone.length_mm - length) / 2,
                y_mm=zone.y_mm + (zone.width_mm - width) / 2,
                length_mm=length,
                width_mm=width,
            )
            for _, zone in zones_meant(match, board)
        ]
    if match.rule is not MatchRule.EQUAL_PALE_EDGES:
        return []
    pins: list[Rectangle] = []
    pale = [bounds_of(z.outline) for z in board.zones if z.kind is ZoneKind.SAPWOOD]
    for near in pale:
        for far in pale:
            low, high = max(near.x_mm, far.x_mm), min(near.x_end_mm, far.x_end_mm)
            if far.y_mm <= near.y_end_mm or high - low < length - TOUCH:
                continue
            y = (near.y_end_mm + far.y_mm) / 2 - width / 2
            if y >= near.y_end_mm - TOUCH or y < 0 or y + width > width_at(board, low) + TOUCH:
                continue
            starts = {low, high - length, (low + high - length) / 2}
            pins.extend(
                Rectangle(x_mm=x, y_mm=y, length_mm=length, width_mm=width) for x in sorted(starts)
            )
    return pins
