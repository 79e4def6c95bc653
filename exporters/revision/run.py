"""What a run is told against: the packet that was named, that of the job, or the one replaced."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from exporters.batch import BuiltBatch
from exporters.facts import Facts
from exporters.settings import PacketSettings
from furniture.errors import Problem
from furniture.job.copies_in import copies_in
from furniture.job.packet import SUMMARY, PacketError
from furniture.pieces import Piece


def told_against(
    piece: Piece, settings: PacketSettings, out: Path, folder: Path | None
) -> tuple[Piece, PacketSettings]:
    """The settings with the earlier packet, read before anything is put in its place; and the piece
    with those cuts where they are made that may stay there.

    Args:
        piece: that is written.
        settings: how.
        out: the folder that is written.
        folder: of the packet that the maker names; None where none is named.

    Raises:
        PacketError: the named folder has no packet of this piece, or it cannot be read.
        SolidError: the solid kernel did not do what the model asked.
    """
    if folder is None and settings.job is None and not (out / SUMMARY).is_file():
        return piece, settings
    from exporters.revision.against import compared, gone_on_against, letters_kept

    if folder is not None:
        piece, against = compared(folder, piece, settings.shop.saw, settings.revision, settings.job)
        return piece, replace(settings, against=against)
    if settings.job is None:
        return piece, replace(settings, letters=letters_kept(out, piece, settings.revision))
    from exporters.job import measured_lines

    found = gone_on_against(settings.job, settings.revision)
    if found is not None:
        found = replace(found, told=tuple(measured_lines(settings.job)))
    return piece, replace(settings, against=found)


def batch_told_against(
    batch: BuiltBatch, settings: PacketSettings, out: Path, folder: Path | None
) -> BuiltBatch:
    """The batch with each piece told against its own earlier packet, as `told_against` does.

    A piece that the earlier batch did not have is new: it is told against none.

    Args:
        batch: that is written.
        settings: how.
        out: the folder that is written.
        folder: of the packet that the maker names; None where none is named.

    Raises:
        PacketError: the named folder has no packet of any of these pieces, or one that cannot be
            read.
        SolidError: the solid kernel did not do what the model asked.
    """
    earlier = {} if folder is None else _packets_in(folder, batch)
    if folder is not None and not earlier:
        raise PacketError((_none_of(batch, folder),))
    replaced, members, told = _packets_in(out, batch), [], {}
    for each in batch.members:
        own = replace(settings, job=each.job)
        slug = each.piece.slug
        there = replaced.get(slug, out / slug)
        piece, found = told_against(each.piece, own, there, earlier.get(slug))
        told[id(each.piece)] = piece
        members.append(replace(each, piece=piece, against=found.against, letters=found.letters))
    lots = tuple(replace(each, piece=told[id(each.piece)]) for each in batch.lots)
    return replace(batch, members=tuple(members), lots=lots)


def _packets_in(folder: Path, batch: BuiltBatch) -> dict[str, Path]:
    """The packets of these pieces in the folder of a batch, by the slug of each piece.

    Where its copies have packets of their own, that of the first copy serves.
    """
    found, packets = {}, copies_in(folder)
    for each in batch.members:
        mark = next(lot.mark for lot in batch.lots if lot.piece is each.piece)
        there = packets.packet_of(mark, each.piece.slug)
        if (there / SUMMARY).is_file():
            found[each.piece.slug] = there
    return found


def _none_of(batch: BuiltBatch, folder: Path) -> Problem:
    slugs = " or ".join(each.piece.slug for each in batch.members)
    return Problem(
        parameter="--against",
        given=str(folder),
        allowed="the folder of a batch that has one of these pieces",
        why="parts are compared with those of an earlier packet",
        remedy=f"name the folder in which {slugs} stands",
    )


def changes_in(facts: Facts) -> Sequence[str]:
    """What the screen tells before all else: the job, and what becomes of each part.

    Args:
        facts: the piece, and how it is written.
    """
    settings = facts.settings
    if settings.job is None and settings.against is None:
        return ()
    from exporters.revision.in_the_work import in_the_work

    steps = in_the_work(None if facts.work is None else facts.work.making)
    if settings.job is not None:
        from exporters.job import job_lines

        return tuple(job_lines(settings.job, steps, settings.against))
    from exporters.revision.report import change_lines

    assert settings.against is not None, "one of the two is there"
    return change_lines(settings.against, facts.piece, steps)
