"""The packet of a batch: a folder for each piece, and with them the boards of all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from exporters.batch import BuiltBatch, Member
from exporters.batch_copies import wood_of
from exporters.cutting.at_the_saw import planned_saw_findings
from exporters.cutting.findings import place_groups
from exporters.exchange.standing import BATCH_SUMMARY, digest_of
from exporters.facts import Facts
from exporters.packet import facts_for, judged, made_in
from exporters.settings import Output, PacketSettings
from exporters.summary import BATCH_SCHEMA, write_summary
from exporters.tables import (
    BOUGHT_HEADER,
    CHECKS_HEADER,
    PARTS_HEADER,
    checks_rows,
    parts_rows,
    things_rows,
    write_table,
)
from exporters.target import Claim
from exporters.writers import saved, sheet_settings
from furniture.checks.of_piece import Group, Subject
from furniture.pieces import bought_parts
from furniture.pieces.bought import Bought, merged
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.boards.shares import shares_of

BATCH_PARTS_HEADER = ("piece", "copies", "in all", *PARTS_HEADER)


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A piece of the batch with what is known of it; `groups` is None where nobody checked it."""

    member: Member
    facts: Facts
    groups: tuple[Group, ...] | None


def board_groups(cutting: CuttingOutcome | None, settings: PacketSettings) -> tuple[Group, ...]:
    """What is found of the boards of all pieces together: cuts to mind, and parts without a place.

    Args:
        cutting: the plan for all of them.
        settings: the maker's rules.
    """
    found = None if cutting is None else planned_saw_findings(cutting, settings.setting.rules)
    at_the_saw = () if found is None else (Group(subject=Subject.SAW, findings=found),)
    return (*at_the_saw, *place_groups(cutting))


def found_of(
    batch: BuiltBatch,
    settings: PacketSettings,
    cutting: CuttingOutcome | None,
    of_boards: Sequence[Group],
    is_strict: bool,
) -> tuple[Found, ...]:
    """What the writers need of each piece.

    Args:
        batch: with its pieces built.
        settings: how packets are written.
        cutting: the plan for all of them; None where it is not asked for.
        of_boards: what is found of the boards, and is not told of a piece once more.
        is_strict: whether pieces are checked that nobody writes the checks of.

    Raises:
        SolidError: the solid kernel did not do what the model asked.
    """
    found = []
    for member in batch.members:
        own = replace(settings, outputs=settings.outputs - {Output.CUTTING}, setting=member.setting,
                      job=member.job, against=member.against, letters=member.letters,
                      copies=member.count)  # fmt: skip
        if cutting is not None:
            first = next(lot for lot in batch.lots if lot.piece is member.piece)
            wood = wood_of(cutting, first)  # copies whose wood comes otherwise are another member
            own = replace(own, blanks=wood.blanks, in_strips=wood.strips)
        facts = facts_for(member.piece, own)
        facts = replace(facts, groups=_without(of_boards, facts.groups))
        groups: tuple[Group, ...] | None = facts.groups
        if Output.CHECKS not in own.outputs:
            groups = _without(of_boards, judged(member.piece, own)) if is_strict else None
        found.append(Found(member=member, facts=facts, groups=groups))
    return tuple(found)


def _without(told: Sequence[Group], groups: Sequence[Group]) -> tuple[Group, ...]:
    subjects = {group.subject for group in told}
    return tuple(group for group in groups if group.subject not in subjects)


def put_batch(
    batch: BuiltBatch,
    found: Sequence[Found],
    of_boards: Sequence[Group],
    cutting: CuttingOutcome | None,
    settings: PacketSettings,
    claim: Claim,
) -> tuple[str, ...]:
    """The relative paths of the packet, written beside the target and exchanged for what was there.

    Args:
        batch: with its pieces built.
        found: of `found_of`.
        of_boards: of `board_groups`.
        cutting: the plan for all of them; None where it is not asked for.
        settings: how packets are written.
        claim: on the target.

    Raises:
        TargetError: the target cannot take it.
        SolidError: the solid kernel did not do what the model asked.
    """

    def make(folder: Path) -> Sequence[str]:
        names: list[str] = []
        for each in found:
            slug = each.member.piece.slug
            (folder / slug).mkdir()
            names += [f"{slug}/{name}" for name in made_in(folder / slug, each.facts)]
        made = [
            *_boards(batch, cutting, settings, folder),
            *_tables(found, of_boards, settings, folder),
        ]
        names += [path.relative_to(folder).as_posix() for path in made]
        digests = {name: digest_of(folder / name) for name in names}
        record = _record(batch, found, cutting)
        files = {"files": [*names, BATCH_SUMMARY], "sha256": digests}
        write_summary(record | files, folder / BATCH_SUMMARY)
        return (*names, BATCH_SUMMARY)

    return claim.put(make)


def _boards(
    batch: BuiltBatch, cutting: CuttingOutcome | None, settings: PacketSettings, folder: Path
) -> list[Path]:
    from exporters.cutting.sheets import cutting_sheets
    from exporters.cutting.write import write_cutting
    from exporters.sheets.numbering import numbered

    if cutting is None:
        return []
    made: list[Path] = []
    if cutting.used:
        sheets = cutting_sheets(batch, cutting, sheet_settings(settings), 1)
        made += saved(batch, settings, numbered(sheets), folder)
    return [*made, *write_cutting(batch, cutting, folder)]


def _tables(
    found: Sequence[Found], of_boards: Sequence[Group], settings: PacketSettings, folder: Path
) -> list[Path]:
    """What is made, bought and to be minded at the boards, for all pieces together."""
    made = []
    if Output.CHECKS in settings.outputs and of_boards:
        findings = [each for group in of_boards for each in group.findings]
        made.append(write_table(CHECKS_HEADER, checks_rows(findings), folder / "checks.csv"))
    if Output.PARTS not in settings.outputs:
        return made
    rows = []
    for each in found:
        piece, count = each.member.piece, each.member.count
        masses = None if each.facts.weighed is None else each.facts.weighed.parts
        for row in parts_rows(piece, masses):
            in_all = int(row[PARTS_HEADER.index("quantity")]) * count
            rows.append((piece.name, str(count), str(in_all), *row))
    made.append(write_table(BATCH_PARTS_HEADER, rows, folder / "parts.csv"))
    to_buy = things_rows(_bought(found), found[0].member.piece.shown)
    if to_buy:
        made.append(write_table(BOUGHT_HEADER, to_buy, folder / "bought.csv"))
    return made


def _bought(found: Sequence[Found]) -> tuple[Bought, ...]:
    return merged(
        replace(
            thing,
            quantity=thing.quantity * each.member.count,
            where=tuple(f"{each.member.piece.name}: {where}" for where in thing.where)
            or (each.member.piece.name,),
        )
        for each in found
        for thing in bought_parts(each.member.piece)
    )


def _record(
    batch: BuiltBatch, found: Sequence[Found], cutting: CuttingOutcome | None
) -> dict[str, Any]:
    """What batch.json says: the pieces, each with the folder of its own packet, and the plan."""
    from exporters.cutting import cutting_record

    prices: dict[str, float] = {}
    if cutting is not None and cutting.plan is not None:
        prices = {each.piece.slug: round(each.price, 6) for each in shares_of(cutting)}
    return {
        "schema": BATCH_SCHEMA,
        "name": batch.name,
        "slug": batch.slug,
        "shown_in": batch.shown.unit.symbol,
        "pieces": [
            {
                "name": each.member.piece.name,
                "folder": each.member.piece.slug,
                "copies": [lot.mark for lot in batch.lots if lot.piece is each.member.piece],
                "mass_kg": None if each.facts.weighed is None else each.facts.weighed.whole.mass_kg,
                "price_of_wood": prices.get(each.member.piece.slug),
            }
            for each in found
        ],
        "cutting_plan": None if cutting is None else cutting_record(cutting),
    }
