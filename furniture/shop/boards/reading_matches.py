"""Matches as given, or those that shops make unasked, in the planner's terms."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from furniture.pieces import Piece
from furniture.shop.boards.names import read_names
from furniture.shop.boards.prices import LOOKS_LIKE, Purse
from furniture.shop.boards.reading_wishes import several
from furniture.shop.boards.round_corners import numbered_sets, runs_round_corners
from furniture.shop.boards.wishes import Binding, CuttingWishes, Match
from furniture.shop.cutting import values as cutting
from furniture.units import Reader, plural, said, word_remedy


@dataclass(frozen=True, slots=True, kw_only=True)
class Matched:
    """A match and the instances it means, in order."""

    group: cutting.MatchGroup
    instances: tuple[str, ...]
    where: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Cast:
    """What a match may speak of.

    Args:
        piece: the piece.
        part_of: the planner's part by instance.
        usual_price: of a match or a wish that names none [money].
    """

    piece: Piece
    part_of: Mapping[str, cutting.CutPart]
    usual_price: float


def read_matches(
    reader: Reader, wishes: CuttingWishes, cast: Cast, purse: Purse
) -> tuple[Matched, ...]:
    """The matches in the order given, or the usual ones; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        wishes: as given.
        cast: what they may speak of.
        purse: reads prices.
    """
    if wishes.matches is None:
        return usual_matches(cast)
    found = []
    for index, given in enumerate(several(wishes.matches)):
        where = f"wishes.matches[{index}]"
        if not isinstance(given, Match):
            reader.refuse(
                where, said(given), "a Match", "it says which parts belong together",
                "write Match(rule=..., on=...)",
            )  # fmt: skip
            continue
        where = f"{where} ({given.name})" if given.name else where
        matched = _read(reader, where, given, cast, purse)
        if matched is not None:
            found.append(matched)
    taken: Counter[str] = Counter()
    for each in found:
        if each.group.rule is not cutting.MatchRule.IN_SEQUENCE:
            continue
        for name in each.instances:
            taken[name] += 1
            if taken[name] == 2:
                reader.refuse(
                    f"{each.where} on", name, "each part in one sequence",
                    "a part comes off one strip", f"leave {name!r} out of one of them",
                )  # fmt: skip
    return tuple(found)


def _read(reader: Reader, where: str, given: Match, cast: Cast, purse: Purse) -> Matched | None:
    before = reader.noted
    reader.is_name(f"{where} name", given.name)
    reader.names(f"{where} ", given)
    rule = reader.choice(
        f"{where} rule", given.rule, cutting.MatchRule, cutting.MatchRule.SAME_BOARD
    )
    kind = reader.choice(
        f"{where} zone_kind", given.zone_kind, cutting.ZoneKind, cutting.ZoneKind.FIGURE
    )
    odd_one = reader.choice(f"{where} odd_one", given.odd_one, cutting.OddOne, cutting.OddOne.NONE)
    tolerance = reader.length(
        f"{where} tolerance", given.tolerance, at_least=0.0, at_most=100.0,
        why="how far off is still right",
    )  # fmt: skip
    instances = read_names(reader, f"{where} on", given.on, cast.piece)
    if rule is cutting.MatchRule.IN_SEQUENCE and odd_one is not cutting.OddOne.NONE:
        reader.refuse(
            f"{where} odd_one", odd_one.value, "none, in a sequence",
            "the grain breaks where one is missing", "shorten the sequence",
        )  # fmt: skip
    together = rule in (cutting.MatchRule.IN_SEQUENCE, cutting.MatchRule.SAME_BOARD)
    if together and len(instances) == 1:
        reader.refuse(
            f"{where} on", instances[0], "two parts or more", "one part has nothing to match",
            "name the others, or leave the match out",
        )  # fmt: skip
    price = _price(reader, where, given.price, cast, purse)
    if reader.noted > before:
        return None
    return Matched(
        group=cutting.MatchGroup(
            name=given.name or f"{rule.value}: {', '.join(several_names(instances))}",
            rule=rule,
            members=tuple(cast.part_of[name].name for name in instances),
            price=price,
            zone=given.zone,
            zone_kind=kind,
            odd_one=odd_one,
            tolerance=tolerance,
        ),
        instances=instances,
        where=where,
    )


def refuse_unknown_zones(
    reader: Reader, matches: Sequence[Matched], boards: Sequence[cutting.Board]
) -> None:
    """Note every match at a price that names a zone of no board; the planner tells a MUST's.

    Args:
        reader: keeps the problems.
        matches: as read.
        boards: all of them.
    """
    zones = list(dict.fromkeys(zone.name for board in boards for zone in board.zones))
    for each in matches:
        zone = each.group.zone
        if zone is None or each.group.price is None or zone in zones:
            continue
        reader.refuse(
            f"{each.where} zone", said(zone), ", ".join(zones) or "a zone of a board",
            "no board has a zone of this name", word_remedy(zone, zones),
        )  # fmt: skip


def _price(reader: Reader, where: str, given: object, cast: Cast, purse: Purse) -> float | None:
    if given is None:
        return cast.usual_price
    if given is Binding.MUST or (isinstance(given, str) and given == Binding.MUST.value):
        return None
    if isinstance(given, str) and not any(letter.isdigit() for letter in given):
        reader.refuse(
            f"{where} price", said(given), f"{LOOKS_LIKE}, or MUST",
            "a match is wanted at a price or it is a must", "write MUST if it is one",
        )  # fmt: skip
        return math.nan
    return purse.price(f"{where} price", given)


def several_names(instances: tuple[str, ...]) -> tuple[str, ...]:
    """The names, those between the first and the last left out when there are many."""
    if len(instances) <= 3:
        return instances
    return (instances[0], "...", instances[-1])


def usual_matches(cast: Cast) -> tuple[Matched, ...]:
    """What shops do unasked: mitred rails in sequence round the corners, a set off one board.

    Only parts of one stock can match. Common practice, no source.

    Args:
        cast: the parts.
    """
    found = []
    for chain in runs_round_corners(cast.piece):
        if _is_one_stock(chain, cast):
            found.append(
                _usual(cutting.MatchRule.IN_SEQUENCE, "grain round the corners", chain, cast)
            )
    for names in numbered_sets(cast.piece):
        if _is_one_stock(names, cast):
            stem = names[0].rpartition(" ")[0]
            found.append(_usual(cutting.MatchRule.SAME_BOARD, f"{plural(stem)} alike", names, cast))
    counts = Counter(each.group.name for each in found)
    return tuple(
        _numbered(each, index) if counts[each.group.name] > 1 else each
        for index, each in enumerate(found, start=1)
    )


def _usual(rule: cutting.MatchRule, name: str, instances: tuple[str, ...], cast: Cast) -> Matched:
    is_sequence = rule is cutting.MatchRule.IN_SEQUENCE
    group = cutting.MatchGroup(
        name=name,
        rule=rule,
        members=tuple(cast.part_of[each].name for each in instances),
        price=cast.usual_price,
        odd_one=cutting.OddOne.NONE if is_sequence else cutting.OddOne.SMALLEST,
    )
    return Matched(group=group, instances=instances, where=f"the usual match {name!r}")


def _numbered(each: Matched, index: int) -> Matched:
    from dataclasses import replace

    return replace(each, group=replace(each.group, name=f"{each.group.name} {index}"))


def _is_one_stock(instances: tuple[str, ...], cast: Cast) -> bool:
    """Whether all are of one stock: of one species key and one thickness."""
    stocks = {(cast.part_of[name].species, cast.part_of[name].thickness) for name in instances}
    return len(stocks) == 1
