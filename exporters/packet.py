"""The whole packet: every output of a piece, made in order and named in piece.json."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from exporters.exchange.standing import SUMMARY, digest_of
from exporters.facts import CHECKING, Facts, facts_of
from exporters.settings import Output, PacketSettings
from exporters.summary import summary_of, write_summary
from exporters.target import Claim
from exporters.writers import WRITERS, Writer, drawn
from furniture.checks.finding import Finding
from furniture.checks.of_piece import Group
from furniture.pieces import Piece
from furniture.pieces.weighed import Weighed
from furniture.shop.boards.outcome import CuttingOutcome

__all__ = [
    "Output",
    "Packet",
    "PacketSettings",
    "facts_for",
    "judged",
    "put_packet",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Packet:
    """A packet as written: its files and what the checks found, subject by subject."""

    files: tuple[str, ...]
    groups: tuple[Group, ...]
    weighed: Weighed | None

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the checks found, in the order of their subjects."""
        return tuple(finding for group in self.groups for finding in group.findings)


def facts_for(
    piece: Piece, settings: PacketSettings, cutting: CuttingOutcome | None = None
) -> Facts:
    """What the writers that are asked for need, and no more: parts and cutting need no solids.

    Args:
        piece: what the packet is of.
        settings: what goes in.
        cutting: the cutting plan, when there is one.

    Raises:
        SolidError: the solid kernel did not do what the model asked.
    """
    needs = {need for writer in _asked(settings) for need in writer.needs}
    return facts_of(piece, settings, cutting, needs)


def put_packet(facts: Facts, claim: Claim) -> Packet:
    """The packet, written beside the target and exchanged for what stands there.

    Args:
        facts: of `facts_for`.
        claim: on the target.

    Raises:
        TargetError: the target cannot take it.
        SolidError: the solid kernel did not do what the model asked.
    """

    files = claim.put(lambda folder: made_in(folder, facts))
    return Packet(files=files, groups=facts.groups, weighed=facts.weighed)


def made_in(folder: Path, facts: Facts) -> tuple[str, ...]:
    """The packet made in an empty folder: the relative paths of its files.

    Args:
        folder: empty, and of a run's own.
        facts: of `facts_for`.

    Raises:
        SolidError: the solid kernel did not do what the model asked.
    """
    facts = replace(facts, sheets=drawn(facts))
    made = [path for writer in _asked(facts.settings) for path in writer.write(facts, folder)]
    names = [path.relative_to(folder).as_posix() for path in made]
    digests = {name: digest_of(folder / name) for name in names}
    write_summary(_summary(facts, names, digests), folder / SUMMARY)
    return (*names, SUMMARY)


def judged(
    piece: Piece, settings: PacketSettings, cutting: CuttingOutcome | None = None
) -> tuple[Group, ...]:
    """What the checks find, whatever is written.

    Raises:
        SolidError: the solid kernel did not do what the model asked.
    """
    return facts_of(piece, settings, cutting, CHECKING).groups


def _asked(settings: PacketSettings) -> list[Writer]:
    return [writer for writer in WRITERS if writer.output in settings.outputs]


def _summary(facts: Facts, names: Sequence[str], digests: dict[str, str]) -> dict[str, object]:
    from exporters.cutting import cutting_record
    from exporters.work import work_record

    return summary_of(
        facts.piece,
        facts.weighed,
        facts.findings,
        (*names, SUMMARY),
        _proof_of_assembly(facts),
        None if facts.cutting is None else cutting_record(facts.cutting),
        facts.settings.setting,
        digests,
        None if facts.work is None else work_record(facts.piece, facts.work.making),
        _job(facts),
    ) | _revision(facts)


def _job(facts: Facts) -> dict[str, Any] | None:
    if facts.settings.job is None:
        return None
    from furniture.job.going_on import job_record

    return job_record(facts.settings.job)


def _revision(facts: Facts) -> dict[str, object]:
    """What the sheets say, for the next run, and what has changed since the last one told of."""
    told: dict[str, object] = {"sheets": []}
    if facts.sheets:
        from exporters.revision.marks import sheets_record

        told["sheets"] = sheets_record(facts.sheets)
    if facts.settings.against is not None:
        from exporters.revision.in_the_work import in_the_work
        from exporters.revision.record import revision_record

        steps = in_the_work(None if facts.work is None else facts.work.making)
        told["revision"] = revision_record(facts.settings.against, facts.piece, steps)
    return told


def _proof_of_assembly(facts: Facts) -> list[dict[str, Any]] | dict[str, Any] | None:
    if facts.order is None or Output.CHECKS not in facts.settings.outputs:
        return None
    from furniture.assembly import assembly_record

    return assembly_record(facts.order)
