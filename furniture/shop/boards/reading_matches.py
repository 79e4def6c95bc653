"""Matches as given, or those that shops make unasked, in the planner's terms."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.blanks.round_corners import numbered_sets, runs_round_corners
from furniture.pieces import Piece
from furniture.shop.boards.names import Names, read_names
from furniture.shop.boards.prices import LOOKS_LIKE, Purse
from furniture.shop.boards.reading_wishes import several
from furniture.shop.boards.wishes import Binding, Match
from furniture.shop.cutting import values as cutting
from furniture.units import Reader, counted, plural, said, word_remedy


@dataclass(frozen=True, slots=True, kw_only=True)
class Matched:
    """A match and the instances it means, in order; its group has no members yet."""

    group: cutting.MatchGroup
    instances: tuple[str, ...]
    where: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Cast:
    """What a match may speak of.

    Args:
        names: of instances and groups.
        usual_price: of a match or a wish that names none [money].
    """

    names: Names
    usual_price: float


def read_matches(
    reader: Reader, where: str, given_matches: object, cast: Cast, purse: Purse
) -> tuple[Matched, ...]:
    """The matches in the order given; problems are noted with the reader."""
    found = []
    for index, given in enumerate(several(given_matches)):
        at = where + counted("match", index, getattr(given, "name", None))
        if not isinstance(given, Match):
            reader.refuse(
                at, said(given), "a Match", "it says which parts belong together",
                "write Match(rule=..., on=...) as help(Match) shows",
            )  # fmt: skip
            continue
        matched = _read(reader, at, given, cast, purse)
        if matched is not None:
            found.append(matched)
    return tuple(found)


def refuse_shared_sequences(reader: Reader, matches: Sequence[Matched]) -> None:
    """Note every instance that is in two sequences."""
    taken: Counter[str] = Counter()
    for each in matches:
        if each.group.rule is not cutting.MatchRule.IN_SEQUENCE:
            continue
        for name in each.instances:
            taken[name] += 1
            if taken[name] == 2:
                reader.refuse(
                    f"{each.where} on", name, "each part in one sequence",
                    "a part comes off one strip", f"leave {name!r} out of one of them",
                )  # fmt: skip


def _read(reader: Reader, where: str, given: Match, cast: Cast, purse: Purse) -> Matched | None:
    before = reader.noted
    reader.is_name(f"{where} name", given.name)
    reader.names(f"{where} ", given)
    unread = reader.noted
    rule = reader.choice(
        f"{where} rule", given.rule, cutting.MatchRule, cutting.MatchRule.SAME_BOARD
    )
    is_rule = reader.noted == unread
    kind = reader.choice(
        f"{where} zone_kind", given.zone_kind, cutting.ZoneKind, cutting.ZoneKind.FIGURE
    )
    odd_one = reader.choice(f"{where} odd_one", given.odd_one, cutting.OddOne, cutting.OddOne.NONE)
    tolerance = reader.length(
        f"{where} tolerance", given.tolerance, at_least=0.0, at_most=100.0,
        why="how far off a match may be: no less than nothing",
    )  # fmt: skip
    instances = read_names(reader, f"{where} on", given.on, cast.names)
    if rule is cutting.MatchRule.IN_SEQUENCE and odd_one is not cutting.OddOne.NONE:
        reader.refuse(
            f"{where} odd_one", odd_one.value, "none, in a sequence",
            "the grain breaks where one is missing", "shorten the sequence",
        )  # fmt: skip
    together = is_rule and rule.is_one_board
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
            members=(),
            price=price,
            zone=given.zone,
            zone_kind=kind,
            odd_one=odd_one,
            tolerance_mm=tolerance,
        ),
        instances=instances,
        where=where,
    )


def still_matched(matches: Sequence[Matched], off_boards: Collection[str]) -> tuple[Matched, ...]:
    """The matches among what is still to be cut; with one part alone there is nothing to match.

    Args:
        off_boards: instances whose wood is cut already.
    """
    found = []
    for each in matches:
        left = tuple(name for name in each.instances if name not in off_boards)
        if left == each.instances or len(left) > int(each.group.rule.is_one_board):
            found.append(replace(each, instances=left))
    return tuple(found)


def with_figure_left(
    reader: Reader, matches: Sequence[Matched], boards: Sequence[cutting.Board]
) -> tuple[Matched, ...]:
    """Of a job whose boards are begun, the matches whose figure is not sawn up; those are told.

    Args:
        boards: what is left of them.
    """
    zones = {zone.name for board in boards for zone in board.zones}
    lost = [
        each
        for each in matches
        if each.group.price is not None and each.group.zone not in (None, *zones)
    ]
    for each in lost:
        reader.remark(
            f"The match {each.group.name!r} is not asked: what is left of the boards has no "
            f"{each.group.zone!r}."
        )
    return tuple(each for each in matches if each not in lost)


def refuse_unknown_zones(
    reader: Reader, matches: Sequence[Matched], boards: Sequence[cutting.Board]
) -> None:
    """Note every match at a price that names a zone of no board; the planner tells a MUST's."""
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


def usual_matches(
    piece: Piece, stocks: Mapping[str, object], usual_price: float
) -> tuple[Matched, ...]:
    """What shops do unasked: mitred rails in sequence round the corners, a set off one board.

    Only parts of one stock can match. Common practice, no source.

    Args:
        stocks: what a board must be kept for, by instance.
        usual_price: of such a match [money].
    """

    def usual(rule: cutting.MatchRule, name: str, instances: tuple[str, ...]) -> Matched:
        is_sequence = rule is cutting.MatchRule.IN_SEQUENCE
        group = cutting.MatchGroup(
            name=name,
            rule=rule,
            members=(),
            price=usual_price,
            odd_one=cutting.OddOne.NONE if is_sequence else cutting.OddOne.SMALLEST,
        )
        return Matched(group=group, instances=instances, where=f"the usual match {name!r}")

    def is_one_stock(instances: tuple[str, ...]) -> bool:
        return len({stocks[name] for name in instances}) == 1

    found = []
    for chain in runs_round_corners(piece):
        if is_one_stock(chain):
            found.append(usual(cutting.MatchRule.IN_SEQUENCE, "grain round the corners", chain))
    for noun, names in numbered_sets(piece).items():
        if is_one_stock(names):
            found.append(usual(cutting.MatchRule.SAME_BOARD, f"{plural(noun)} alike", names))
    counts = Counter(each.group.name for each in found)
    return tuple(
        _numbered(each, index) if counts[each.group.name] > 1 else each
        for index, each in enumerate(found, start=1)
    )


def _numbered(each: Matched, index: int) -> Matched:
    return replace(each, group=replace(each.group, name=f"{each.group.name} {index}"))
