"""What is wished of each copy and across copies, in the names of all of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from furniture.shop.boards.lots import Lot, all_names, pieces_of
from furniture.shop.boards.names import names_of
from furniture.shop.boards.prices import Purse
from furniture.shop.boards.reading_matches import Cast, Matched, read_matches, usual_matches
from furniture.shop.boards.reading_wishes import Wish, read_part_wishes
from furniture.shop.boards.wishes import CuttingWishes
from furniture.units import Reader


def wishes_of_lots(
    reader: Reader, lots: Sequence[Lot], wishes: CuttingWishes, purse: Purse
) -> dict[str, Wish]:
    """The wish of every instance that has one; a copy's own counts before one across copies."""
    found = {}
    if len(lots) > 1:
        found = read_part_wishes(reader, "wishes: ", wishes.parts, all_names(lots), purse)
    for told in _told_once(lots):
        own = read_part_wishes(reader, told[0].where, told[0].parts, names_of(told[0].piece), purse)
        found |= {lot.called(name): wish for lot in told for name, wish in own.items()}
    _refuse_worth_in_joints(reader, lots, found)
    return found


def _refuse_worth_in_joints(
    reader: Reader, lots: Sequence[Lot], wish_of: Mapping[str, Wish]
) -> None:
    """Note every part with a worth that a joint holds: the piece cannot be made without it."""
    refused: dict[tuple[str, str], str] = {}
    for lot in lots:
        for joining in lot.piece.joinings:
            for name in (joining.into, joining.incoming):
                wish = wish_of.get(lot.called(name))
                if wish is not None and wish.worth is not None:
                    refused.setdefault((lot.where, name), joining.kind)
    for (where, name), kind in refused.items():
        reader.refuse(
            f"{where}worth of {name!r}", f"a part that a {kind} holds",
            "a part that no joint holds", "the piece cannot be put together without it",
            "leave its worth out: it must have a place",
        )  # fmt: skip


def _without_extras(
    matches: Sequence[Matched], lot: Lot, wish_of: Mapping[str, Wish]
) -> tuple[Matched, ...]:
    """The usual matches but those of parts that are cut only if it pays."""
    return tuple(
        each
        for each in matches
        if all(wish_of.get(lot.called(name), Wish()).worth is None for name in each.instances)
    )


def matches_of_lots(
    reader: Reader,
    lots: Sequence[Lot],
    keys: Mapping[str, str],
    price: float,
    purse: Purse,
    wish_of: Mapping[str, Wish],
) -> list[Matched]:
    """The matches within each copy, in the names of all of them.

    Args:
        keys: of boards and parts, by the stock's name.
        price: of a match that names none [money].
        wish_of: of the instances that have one; nothing unasked matches what may be left out.
    """
    found: dict[int, tuple[Matched, ...]] = {}
    for first, *_ in _told_once(lots):
        piece = first.piece
        if first.matches is None:
            stocks = {
                each.instance: (keys[each.part.timber.name], each.part.blank.thickness_mm)
                for each in piece.placed
            }
            usual = usual_matches(piece, stocks, price)
            found[id(piece)] = _without_extras(usual, first, wish_of)
        else:
            cast = Cast(names=names_of(piece), usual_price=price)
            found[id(piece)] = read_matches(reader, first.where, first.matches, cast, purse)
    return [
        Matched(
            group=replace(each.group, name=lot.called(each.group.name)),
            instances=tuple(lot.called(name) for name in each.instances),
            where=each.where,
        )
        for lot in lots
        for each in found[id(lot.piece)]
    ]


def _told_once(lots: Sequence[Lot]) -> list[list[Lot]]:
    """The copies of each piece together: they share their wishes, and a mistake is told once."""
    return [[lot for lot in lots if lot.piece is piece] for piece in pieces_of(lots)]
