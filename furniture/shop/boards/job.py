"""The adapter: a piece, its boards and the maker's wishes become a request for a cutting plan."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from furniture.errors import Problem
from furniture.parts.part import slug_of
from furniture.pieces import Piece
from furniture.rules import ALL_RULES
from furniture.rules.staying import LONGEST_BOARD, WORTH_A_PASS
from furniture.shop.boards.combining import combined, with_common_blanks
from furniture.shop.boards.cut_parts import PartDemands
from furniture.shop.boards.cutting_job import CuttingJob
from furniture.shop.boards.given import MeasuredBoard
from furniture.shop.boards.lots import Lot, all_names, off_their_boards, stock_problems, stocks_of
from furniture.shop.boards.prices import Purse
from furniture.shop.boards.reading import BoardRead, Boards, by_rules, read_boards
from furniture.shop.boards.reading_lots import matches_of_lots, wishes_of_lots
from furniture.shop.boards.reading_matches import (
    Cast,
    Matched,
    read_matches,
    refuse_shared_sequences,
    refuse_unknown_zones,
    still_matched,
    with_figure_left,
)
from furniture.shop.boards.reading_wishes import read_limits, read_saw, read_strips
from furniture.shop.boards.thickness import Thicknesses, keys_of
from furniture.shop.boards.wishes import USUAL_SAW, CuttingWishes, SawSetUp
from furniture.shop.cutting import values as cutting
from furniture.shop.cutting.request_problems import problems_of
from furniture.shop.cutting.values import FOOT
from furniture.timber.stock import Timber
from furniture.timber.wood import Kind
from furniture.units import Reader, Shown, figure_with_unit, millimetres, said


def cutting_job(
    piece: Piece,
    boards: Sequence[MeasuredBoard] | Path | str = (),
    wishes: CuttingWishes | None = None,
    saw: SawSetUp | None = None,
) -> CuttingJob:
    """The request with what is needed to read the plan back in the maker's names.

    Args:
        piece: what is to be cut, but what of it is done.
        boards: as the maker lists them, or the path of a CSV file.
        wishes: faces and matches; none takes the usual ones.
        saw: with the limits that the shop keeps; none takes the usual one.

    Raises:
        DesignError: with every problem of the boards and the wishes.
    """
    reader = Reader(piece.shown)
    wishes = _read_wishes(reader, wishes)
    lot = Lot(piece=piece, parts=wishes.parts, matches=wishes.matches)
    return _job_of((lot,), boards, replace(wishes, parts=(), matches=()), reader, saw)


def job_of_lots(
    lots: Sequence[Lot],
    boards: Sequence[MeasuredBoard] | Path | str = (),
    wishes: CuttingWishes | None = None,
    shown: Shown | None = None,
    saw: SawSetUp | None = None,
) -> CuttingJob:
    """One request for several copies from one pile of boards.

    Args:
        lots: the copies, each with a mark of its own.
        boards: as the maker lists them, or the path of a CSV file.
        wishes: of parts and matches across copies; none takes the usual ones.
        shown: how lengths are shown; none takes the first piece's way.
        saw: with the limits that the shop keeps; none takes the usual one.

    Raises:
        DesignError: with every problem of the stocks, the boards and the wishes.
    """
    reader = Reader(shown or lots[0].piece.shown)
    wishes = _read_wishes(reader, wishes)
    return _job_of(lots, boards, replace(wishes, matches=wishes.matches or ()), reader, saw)


def _read_wishes(reader: Reader, wishes: object) -> CuttingWishes:
    if wishes is not None and not isinstance(wishes, CuttingWishes):
        reader.refuse(
            "wishes", said(wishes), "CuttingWishes", "it says what the cutting has to keep to",
            f"write {reader.example('CuttingWishes')}",
        )  # fmt: skip
        wishes = None
    wishes = wishes or CuttingWishes()
    reader.names("wishes.", wishes)
    return wishes


@dataclass(frozen=True, slots=True, kw_only=True)
class _Read:
    """What was read of a job, as far as it could be.

    Args:
        given: the boards.
        thicknesses: of the boards, beside the stocks of all pieces.
        demands: what is asked of the parts beside their sizes.
        matches: among what is still to be cut.
        purse: that read all prices.
        request: of the planner, without parts.
    """

    given: Boards
    thicknesses: Thicknesses
    demands: PartDemands
    matches: Sequence[Matched]
    purse: Purse
    request: cutting.CuttingRequest


def _job_of(
    lots: Sequence[Lot],
    boards: Sequence[MeasuredBoard] | Path | str,
    wishes: CuttingWishes,
    reader: Reader,
    set_up: SawSetUp | None,
) -> CuttingJob:
    """The job; `wishes` are those across copies, each lot has its own besides."""
    read = _read(lots, boards, wishes, reader, set_up)
    bare = _without_parts(lots, read, reader)
    apart = combined(bare, read.demands, read.matches)
    _refuse_unplannable(read, bare, apart, reader)
    reader.raise_if_any()
    return with_common_blanks(apart, read.demands, read.matches)


def _read(
    lots: Sequence[Lot],
    boards: Sequence[MeasuredBoard] | Path | str,
    wishes: CuttingWishes,
    reader: Reader,
    set_up: SawSetUp | None,
) -> _Read:
    purse, timbers, rules = Purse(reader), stocks_of(lots), lots[0].piece.rules
    reader.take(stock_problems(lots))
    reader.take(_unlike_rules(lots))
    given = by_rules(read_boards(reader, boards, timbers, purse), rules)
    reader.take(_called_as_a_part(given.measured, lots))
    saw = read_saw(reader, SawSetUp() if set_up is None else set_up)
    saw = replace(saw, worth_a_pass_mm2=rules[WORTH_A_PASS])
    strips = read_strips(reader, wishes.glue_up)
    limits = read_limits(reader, wishes)
    waste = reader.percent(
        "wishes.waste_share", wishes.waste_share, 0.0, 80.0, "what is left must be some wood"
    )
    thicknesses = Thicknesses(given.measured, timbers, saw.most_planed_mm)
    keys = keys_of(timbers, given.measured)
    price = usual_price(given)
    wish_of = wishes_of_lots(reader, lots, wishes, purse)
    of_lots = matches_of_lots(reader, lots, keys, price, purse, wish_of)
    cast = Cast(names=all_names(lots), usual_price=price)
    across = read_matches(reader, "wishes: ", wishes.matches, cast, purse)
    purse.settle()
    refuse_shared_sequences(reader, (*of_lots, *across))
    off_boards = off_their_boards(lots)
    matches = still_matched((*of_lots, *across), off_boards)
    if off_boards:
        matches = with_figure_left(reader, matches, [each.board for each in given.measured])
    return _Read(
        given=given,
        thicknesses=thicknesses,
        demands=PartDemands(
            wish_of=wish_of,
            matched=frozenset(name for each in of_lots for name in each.instances),
            strips=strips,
            keys=keys,
            usual_price=price,
            rules=rules,
        ),
        matches=matches,
        purse=purse,
        request=cutting.CuttingRequest(
            boards=tuple(_for_planner(each, keys, thicknesses, saw) for each in given.measured),
            parts=(),
            saw=saw,
            limits=limits,
            waste_share=waste / 100,
            longest_sold_mm=rules[LONGEST_BOARD] * FOOT,
        ),
    )


def _without_parts(lots: Sequence[Lot], read: _Read, reader: Reader) -> CuttingJob:
    """The job with its boards and its wood, nothing to be cut yet."""
    measured, keys, timbers = read.given.measured, read.demands.keys, read.thicknesses.stocks
    kinds = ((keys[each.name], each.species.kind) for each in timbers)
    return CuttingJob(
        request=read.request,
        boards=tuple(each.board for each in measured),
        copies={},
        sequences={},
        stocks={},
        lots=tuple(lots),
        species=_species_of_keys(keys, timbers, read.request.boards, measured),
        currency=read.purse.currency,
        shown=reader.shown,
        sheets=frozenset(key for key, kind in kinds if kind is Kind.SHEET),
        left_aside=read.thicknesses.left_aside(reader.shown),
        remarks=reader.remarks,
    )


def _still_asked(lots: Sequence[Lot]) -> tuple[Timber, ...]:
    """The stocks of which something is still to be cut: others may have used their boards up."""
    return tuple(
        dict.fromkeys(
            placed.part.timber
            for each in lots
            for placed in each.piece.placed
            if placed.instance not in each.piece.done | each.piece.in_hand
        )
    )


def _refuse_unplannable(read: _Read, bare: CuttingJob, apart: CuttingJob, reader: Reader) -> None:
    """Note what no plan can be made of; of what was read in part no more than is sure."""
    given, shown = read.given, reader.shown
    asked = replace(read.thicknesses, stocks=_still_asked(bare.lots))
    reader.take(asked.problems(shown))
    is_read = not reader.problems
    if given.is_whole and given.measured:
        refuse_unknown_zones(reader, read.matches, [each.board for each in given.measured])
    if is_read:
        reader.take(_checked(apart.request, given, read.matches, shown))
    elif not given.is_whole:
        reader.take(_checked(bare.request, given, (), shown))


def problems_of_boards(
    boards: Sequence[MeasuredBoard] | Path | str, shown: Shown | None = None
) -> tuple[Problem, ...]:
    """What is wrong with the boards whatever is cut from them.

    Args:
        boards: as the maker lists them, or the path of a CSV file.
        shown: how lengths are shown; none takes millimetres.
    """
    reader = Reader(shown)
    purse = Purse(reader)
    given = read_boards(reader, boards, None, purse)
    purse.settle()
    request = cutting.CuttingRequest(boards=tuple(each.board for each in given.measured), parts=())
    reader.take(_checked(request, given, (), shown or millimetres()))
    return reader.problems


def _species_of_keys(
    keys: Mapping[str, str],
    timbers: Sequence[Timber],
    planned: Sequence[cutting.Board],
    measured: Sequence[BoardRead],
) -> dict[str, str]:
    of_boards = {
        board.species: each.board.species for board, each in zip(planned, measured, strict=True)
    }
    return of_boards | {keys[timber.name]: timber.species.name for timber in timbers}


def usual_price(boards: Boards) -> float:
    """What breaking a match costs when nothing is said: half a board, or 1 without prices [money].

    Own rule: dear enough to use another offcut for, too cheap to begin a board for.
    """
    prices = [each.board.price for each in boards.measured if each.board.price > 0]
    return sum(prices) / len(prices) / 2 if prices else 1.0


def _unlike_rules(lots: Sequence[Lot]) -> Iterator[Problem]:
    """One plan is of one shop: no two pieces may have been made by different rules."""
    first, *others = lots
    for lot in others:
        for rule in ALL_RULES:
            one, two = first.piece.rules[rule], lot.piece.rules[rule]
            if one != two:
                unit = f" {rule.unit}" if rule.unit else ""
                yield Problem(
                    parameter=f"rules.{rule.name}",
                    given=f"{one:g}{unit} for {first.piece.name!r}, {two:g}{unit} for "
                    f"{lot.piece.name!r}",
                    allowed="one figure for all pieces of a plan",
                    why="they come off the same boards, in one shop",
                    remedy="build them with the same ShopRules",
                )


def _called_as_a_part(measured: Sequence[BoardRead], lots: Sequence[Lot]) -> Iterator[Problem]:
    """Boards that work sheets would call as they call a part."""
    parts = {slug_of(each.instance) for lot in lots for each in lot.piece.placed}
    boards = {slug_of(f"board {each.board.name}") for each in measured}
    for each in measured:
        name = each.board.name
        if slug_of(f"board {name}") in parts:
            others = (f"{name}{letter}" for letter in "abcdefghijklmnopqrstuvwxyz")
            free = (one for one in others if slug_of(f"board {one}") not in parts | boards)
            yield Problem(
                parameter=f"{each.where[f'board {name!r}']} name",
                given=f"{name!r}, beside a part called 'board {name}'",
                allowed="a name by which sheets tell the board from the parts",
                why=f"work sheets call it 'board {name}'",
                remedy=f"call it {next(free, name + ' of wood')!r}",
            )


def _for_planner(
    each: BoardRead, keys: Mapping[str, str], thicknesses: Thicknesses, saw: cutting.Saw
) -> cutting.Board:
    """The board with the key that its parts carry, and the thickness that they are held against."""
    return replace(
        each.board,
        species=keys.get(each.stock or "", each.board.species),
        thickness_mm=thicknesses.for_planner(each, saw.planing_loss_mm),
        thinnest_mm=0.0
        if saw.most_planed_mm is None
        else each.board.thickness_mm - saw.most_planed_mm,
    )


def _checked(
    request: cutting.CuttingRequest, given: Boards, matches: Sequence[Matched], shown: Shown
) -> list[Problem]:
    """What the planner refuses, in the names and the unit that the maker wrote."""
    called: dict[str, str] = {}
    for each in given.measured:
        called.update(each.where)
    for match in matches:
        called[f"match {match.group.name!r}"] = match.where
    called |= {f"saw {name}": f"shop.saw.{name}" for name in USUAL_SAW}
    show = partial(figure_with_unit, shown=shown)
    return list(problems_of(request, show, lambda name: called.get(name, name)))
