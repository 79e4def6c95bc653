"""What is wrong with the matches of a cutting request."""

from __future__ import annotations

from collections.abc import Iterator

from furniture.errors import Problem
from furniture.shop.cutting.figure_problems import Called, Show
from furniture.shop.cutting.preferences import boards_for_all, lacks_board, lacks_zone
from furniture.shop.cutting.values import CutPart, CuttingRequest, MatchGroup, MatchRule
from furniture.shop.cutting.zones import TOUCH, usable_frame
from furniture.units import nearest_word

_OR_A_PRICE = "or give the match a price (what keeping it is worth to you) instead of MUST"


def match_problems(
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
        if not any(f.length >= length - TOUCH and f.width >= width - TOUCH for f in frames):
            yield Problem(
                parameter=where,
                given=f"a sequence of {show(length)} x {show(width)} with its kerfs",
                allowed="up to "
                + " or ".join(sorted({f"{show(f.length)} x {show(f.width)}" for f in frames})),
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
